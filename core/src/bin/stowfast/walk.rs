//! Carrying a routine out on a terminal: a letter and Enter for each step.

use std::io::{self, BufRead, Write};
use std::path::PathBuf;

use stowfast_core::clock::Stamp;
use stowfast_core::engine::{Changes, DoneRow, Engine, RoutinePage, StepKind, StepRow};
use stowfast_core::{Error, Result};

use crate::show::{TELL, plain};

const KEYS: &str =
    "d done   s seen otherwise   w why   c cannot   l left anyway   u undo   p pause   q quit";

/// Walks through the routine under way, or opens one for `target`. `fixed` stands in for the clock.
pub(crate) fn walk(engine: &mut Engine, target: Option<&str>, fixed: Option<&Stamp>) -> Result<()> {
    let now = || fixed.cloned().unwrap_or_else(crate::clock);
    take_up(engine, target, &now())?;
    plain(KEYS)?;
    let mut lines = io::stdin().lock().lines();
    let mut ask = |question: &str| -> Result<Option<String>> {
        write!(io::stdout(), "{question} ").and_then(|()| io::stdout().flush()).map_err(broken)?;
        let line = lines.next().transpose().map_err(broken)?;
        Ok(line.map(|line| line.trim().to_owned()))
    };
    loop {
        let Some(page) = engine.routine(&now())? else {
            return Ok(());
        };
        let Some(step) = page.steps.first() else {
            return end(engine, &page, &now());
        };
        head(&page, step)?;
        let Some(key) = ask(">")? else {
            return Ok(());
        };
        match key.as_str() {
            "p" => {
                engine.pause(&now())?;
                return plain(
                    "Laid aside: what was looked at counts no more. Go on: stowfast walk",
                );
            }
            "q" => return plain("Go on: stowfast walk"),
            key => answer(engine, &page, step, key, &mut ask, &now())?,
        }
    }
}

/// Opens a routine for `target`, or goes on with the one under way.
fn take_up(engine: &mut Engine, target: Option<&str>, now: &Stamp) -> Result<()> {
    let under_way = engine.routine(now)?.map(|page| page.run);
    match (under_way, target) {
        (None, None) => {
            let detail = "no routine is under way: name a target".to_owned();
            return Err(Error::Conflict { detail });
        }
        (Some(run), target) if target.is_none_or(|target| target == run.target_id) => {
            if run.paused {
                engine.resume(now)?;
            }
        }
        (_, Some(target)) => tell(&engine.open_run(target, now)?)?,
        (Some(_), None) => {}
    }
    Ok(())
}

/// What a key says of the step in hand.
fn answer(
    engine: &mut Engine,
    page: &RoutinePage,
    step: &StepRow,
    key: &str,
    ask: &mut impl FnMut(&str) -> Result<Option<String>>,
    now: &Stamp,
) -> Result<()> {
    match key {
        "d" | "s" | "c" if step.kind == StepKind::Wait => {
            plain("    Only time does that. Come back when it is over: Enter looks again.")
        }
        "" if step.kind == StepKind::Wait => Ok(()),
        "d" => tell(&engine.tick(&step.id, now)?),
        "s" if step.kind == StepKind::Look => match choose(step, ask)? {
            Some(choice) => tell(&engine.look(&step.id, &choice, now)?),
            None => Ok(()),
        },
        "s" => plain("    There is nothing to look at: d when it is done, c where it cannot be."),
        "w" => step.why.iter().try_for_each(|why| plain(&format!("    because: {why}"))),
        "c" => {
            let note = ask("Why not?")?.unwrap_or_default();
            tell(&engine.cannot(&step.id, &note, now)?)
        }
        "l" => {
            let note = ask("Why?")?.unwrap_or_default();
            tell(&engine.left_anyway(&step.id, &note, now)?)
        }
        "u" => match last(page) {
            Some(row) => {
                tell(&engine.unmark(row.entry, now)?)?;
                plain(&format!("    Taken back: {}", row.text))
            }
            None => plain("    Nothing to take back."),
        },
        _ => plain(KEYS),
    }
}

/// What was said last in this routine.
fn last(page: &RoutinePage) -> Option<&DoneRow> {
    let said = page.done.iter().chain(&page.stuck);
    said.filter(|row| row.entry > page.run.id).max_by_key(|row| row.entry)
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

fn choose(
    step: &StepRow,
    ask: &mut impl FnMut(&str) -> Result<Option<String>>,
) -> Result<Option<String>> {
    for (at, choice) in step.choices.iter().enumerate() {
        plain(&format!("    {} {}", at.saturating_add(1), choice.text))?;
    }
    let answer = ask("Which?")?.unwrap_or_default();
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
