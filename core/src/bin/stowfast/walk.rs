//! Carrying a routine out on a terminal: a letter and Enter for each step.

use std::io::{self, BufRead, Write};
use std::path::PathBuf;

use stowfast_core::clock::Stamp;
use stowfast_core::engine::{Changes, Engine, RoutinePage, StepKind, StepRow};
use stowfast_core::{Error, Result};

use crate::show::{TELL, plain};

const KEYS: &str =
    "d done   s seen otherwise   w why   c cannot   l left anyway   u undo   p pause   q quit";

/// Walks through the routine under way, or opens one for `target`. `fixed` stands in for the clock.
pub(crate) fn walk(engine: &mut Engine, target: Option<&str>, fixed: Option<&Stamp>) -> Result<()> {
    let now = || fixed.cloned().unwrap_or_else(crate::clock);
    let under_way = engine.routine(&now())?.map(|page| page.run);
    match (under_way, target) {
        (None, None) => {
            return Err(Error::Conflict {
                detail: "no routine is under way: name a target".to_owned(),
            });
        }
        (Some(run), target) if target.is_none_or(|target| target == run.target_id) => {
            if run.paused {
                engine.resume(&now())?;
            }
        }
        (_, Some(target)) => tell(&engine.open_run(target, &now())?)?,
        (Some(_), None) => {}
    }
    plain(KEYS)?;
    let mut lines = io::stdin().lock().lines();
    loop {
        let Some(page) = engine.routine(&now())? else {
            return Ok(());
        };
        let Some(step) = page.steps.first() else {
            return end(engine, &page, &now());
        };
        head(&page, step)?;
        write!(io::stdout(), "> ").and_then(|()| io::stdout().flush()).map_err(broken)?;
        let Some(line) = lines.next().transpose().map_err(broken)? else {
            return Ok(());
        };
        let answer = line.trim();
        let mut ask = |question: &str| -> Result<String> {
            write!(io::stdout(), "{question} ")
                .and_then(|()| io::stdout().flush())
                .map_err(broken)?;
            Ok(lines.next().transpose().map_err(broken)?.unwrap_or_default().trim().to_owned())
        };
        match answer {
            "d" => tell(&engine.tick(&step.id, &now())?)?,
            "s" if step.kind == StepKind::Look => {
                let choice = choose(step, &mut ask)?;
                if let Some(choice) = choice {
                    tell(&engine.look(&step.id, &choice, &now())?)?;
                }
            }
            "w" => step.why.iter().try_for_each(|why| plain(&format!("    because: {why}")))?,
            "c" => tell(&engine.cannot(&step.id, &ask("Why not?")?, &now())?)?,
            "l" => tell(&engine.left_anyway(&step.id, &ask("Why?")?, &now())?)?,
            "u" => match page.done.first() {
                Some(done) => tell(&engine.unmark(done.entry, &now())?)?,
                None => plain("Nothing to take back.")?,
            },
            "p" => return engine.pause(&now()).map(|_| ()),
            "q" => return Ok(()),
            _ => plain(KEYS)?,
        }
    }
}

fn head(page: &RoutinePage, step: &StepRow) -> Result<()> {
    plain("")?;
    for warning in &page.warnings {
        plain(&format!("  ! {warning}"))?;
    }
    if page.resumed_from_pause
        && let Some(done) = page.done.first()
    {
        plain(&format!("  Last done: {}. Look at it once more.", done.text))?;
    }
    plain(&format!("{} ({} left)", step.zone_title, page.run.left_count))?;
    plain(&format!("  {}", step.text))?;
    plain(&format!("  → {}", step.wanted))?;
    step.cautions.iter().try_for_each(|caution| plain(&format!("  ! {caution}")))
}

fn choose(step: &StepRow, ask: &mut impl FnMut(&str) -> Result<String>) -> Result<Option<String>> {
    for (at, choice) in step.choices.iter().enumerate() {
        plain(&format!("    {} {}", at.saturating_add(1), choice.text))?;
    }
    let answer = ask("Which?")?;
    let number = answer.parse::<usize>().ok().and_then(|number| number.checked_sub(1));
    Ok(number.and_then(|at| step.choices.get(at)).map(|choice| choice.id.clone()))
}

fn end(engine: &mut Engine, page: &RoutinePage, now: &Stamp) -> Result<()> {
    plain("")?;
    if page.finished {
        plain(&page.headline)?;
        plain(&page.end_text)?;
        return engine.close_run(now).map(|_| ());
    }
    plain(&page.headline)?;
    page.impossible.iter().try_for_each(|line| plain(&format!("  ! {line}")))?;
    plain(TELL)
}

fn tell(changes: &Changes) -> Result<()> {
    changes.warnings.iter().try_for_each(|line| plain(&format!("  ! {line}")))
}

fn broken(source: io::Error) -> Error {
    Error::Io { path: PathBuf::from("the terminal"), source }
}
