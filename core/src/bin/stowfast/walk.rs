//! Carrying a routine out on a terminal: Enter, or a letter and Enter, for each list.

use std::collections::BTreeMap;
use std::io::{self, BufRead, Write};
use std::path::PathBuf;

use stowfast_core::clock::Stamp;
use stowfast_core::engine::{
    Changes, DoneRow, Engine, GestureKind, GestureRow, Line, Odd, RoutinePage, StepRow,
};
use stowfast_core::{Error, Result};

use crate::show::{TELL, hint, plain};

const KEYS: &str = "d all as it says   1, 2 … that line is otherwise   w why   l left anyway   \
                    u undo   p pause   q quit";

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
    let mut odd: BTreeMap<String, Odd> = BTreeMap::new();
    loop {
        let Some(page) = engine.routine(&now())? else {
            return Ok(());
        };
        let Some(list) = List::first(&page) else {
            return end(engine, &page, &now());
        };
        odd.retain(|step, _| list.steps.iter().any(|row| row.id == *step));
        head(&page, &list, &odd)?;
        let Some(key) = ask(">")? else {
            return Ok(());
        };
        match key.as_str() {
            "p" => {
                engine.pause(&now())?;
                return hint("Paused: what was looked at no longer counts. Go on: stowfast walk");
            }
            "q" => return hint("Go on: stowfast walk"),
            key => answer(engine, &page, &list, &mut odd, key, &mut ask, &now())?,
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

/// What is confirmed next.
struct List<'a> {
    gesture: &'a GestureRow,
    steps: &'a [StepRow],
}

impl<'a> List<'a> {
    fn first(page: &'a RoutinePage) -> Option<Self> {
        let gesture = page.stops.first()?.gestures.first()?;
        Some(Self { gesture, steps: page.steps.get(..gesture.steps.len())? })
    }

    /// The line of that number, from 1.
    fn line(&self, number: &str) -> Option<&'a StepRow> {
        let number = number.parse::<usize>().ok()?.checked_sub(1)?;
        self.steps.get(number)
    }
}

/// What a key says of the list in hand.
fn answer(
    engine: &mut Engine,
    page: &RoutinePage,
    list: &List,
    odd: &mut BTreeMap<String, Odd>,
    key: &str,
    ask: &mut impl FnMut(&str) -> Result<Option<String>>,
    now: &Stamp,
) -> Result<()> {
    let waits = list.gesture.kind == GestureKind::Wait;
    match key {
        "" if waits => Ok(()),
        "d" | "l" | "1" if waits => {
            plain("    Only time does that. Come back when it is over: Enter looks again.")
        }
        "" if list.gesture.hold => {
            plain("    See each with your own eyes. All as it says: d and Enter.")
        }
        "" | "d" => {
            let line = |row: &StepRow| Line { step: row.id.clone(), odd: odd.remove(&row.id) };
            let lines: Vec<_> = list.steps.iter().map(line).collect();
            tell(&engine.confirm(&lines, now)?)
        }
        "w" => {
            let why = list.steps.iter().flat_map(|row| &row.why);
            why.into_iter().try_for_each(|why| plain(&format!("    because: {why}")))
        }
        "l" => {
            let Some(row) = which(list, ask)? else { return Ok(()) };
            let note = ask("Why?")?.unwrap_or_default();
            tell(&engine.left_anyway(&row.id, &note, now)?)
        }
        "u" => match last(page) {
            Some(row) => {
                tell(&engine.unmark(row.entry, now)?)?;
                plain(&format!("    Taken back: {}", row.text))
            }
            None => plain("    Nothing to take back."),
        },
        number => match list.line(number) {
            Some(row) if odd.remove(&row.id).is_some() => plain("    As it says after all."),
            Some(row) => {
                odd.extend(otherwise(row, ask)?.map(|said| (row.id.clone(), said)));
                Ok(())
            }
            None => plain(KEYS),
        },
    }
}

/// The line that is meant; asked for where there are several.
fn which<'a>(
    list: &List<'a>,
    ask: &mut impl FnMut(&str) -> Result<Option<String>>,
) -> Result<Option<&'a StepRow>> {
    match list.steps {
        [only] => Ok(Some(only)),
        _ => Ok(ask("Which line?")?.and_then(|number| list.line(&number))),
    }
}

/// How a line is otherwise: what a look showed, or that it cannot be.
fn otherwise(
    row: &StepRow,
    ask: &mut impl FnMut(&str) -> Result<Option<String>>,
) -> Result<Option<Odd>> {
    for (at, choice) in row.choices.iter().enumerate() {
        plain(&format!("    {} {}", at.saturating_add(1), choice.text))?;
    }
    if !row.choices.is_empty() {
        let answer = ask("What is to be seen? c: it cannot be seen")?.unwrap_or_default();
        if answer != "c" {
            let number = answer.parse::<usize>().ok().and_then(|number| number.checked_sub(1));
            let choice = number.and_then(|at| row.choices.get(at));
            return Ok(choice.map(|choice| Odd::Seen(choice.id.clone())));
        }
    }
    Ok(ask("Why can it not be?")?.map(Odd::Cannot))
}

/// What was said last in this routine.
fn last(page: &RoutinePage) -> Option<&DoneRow> {
    let said = page.done.iter().chain(&page.stuck);
    said.filter(|row| row.entry > page.run.id).max_by_key(|row| row.entry)
}

fn head(page: &RoutinePage, list: &List, odd: &BTreeMap<String, Odd>) -> Result<()> {
    plain("")?;
    for warning in page.warnings.iter().chain(&page.part_end) {
        plain(&format!("  ! {warning}"))?;
    }
    if page.resumed_from_pause
        && let Some(done) = page.done.first()
    {
        plain(&format!("  Last done: {}. Look at it once more.", done.text))?;
    }
    let zone = list.steps.first().map_or("", |row| &row.zone_title);
    plain(&format!("{zone} ({} left)", page.run.left_count))?;
    let mut zone = zone;
    for (at, (row, line)) in list.steps.iter().zip(&list.gesture.lines).enumerate() {
        if row.zone_title != zone {
            zone = &row.zone_title;
            plain(zone)?;
        }
        plain(&format!("  {} {}", at.saturating_add(1), row.text))?;
        let said = if odd.contains_key(&row.id) { "otherwise than" } else { "→" };
        plain(&format!("    {said} {line}"))?;
        row.cautions.iter().try_for_each(|caution| plain(&format!("    ! {caution}")))?;
    }
    Ok(())
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
    hint(TELL)
}

fn tell(changes: &Changes) -> Result<()> {
    changes.warnings.iter().try_for_each(|line| plain(&format!("  ! {line}")))
}

fn broken(source: io::Error) -> Error {
    Error::Io { path: PathBuf::from("the terminal"), source }
}
