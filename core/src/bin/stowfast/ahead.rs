//! What lies ahead: numbers that people tell of themselves, and what is reckoned from them.

use stowfast_core::Result;
use stowfast_core::clock::Stamp;
use stowfast_core::engine::{Engine, Pick, reckonings};

use crate::args::{decimal, number};
use crate::command::Command;
use crate::show::Out;
use crate::tells;

/// What is told or asked.
#[derive(Debug)]
pub(crate) enum Ahead {
    Figures,
    /// `None`: no longer known.
    Figure(String, Option<f64>),
    /// So many nights without services.
    Stay(i64),
    /// Every question that is answered with numbers.
    Reckonings,
    /// One of them, with what was picked for it.
    Reckon(String, Vec<Pick>),
    /// How long before something runs out it is told; with a number to change it. Unit: h.
    Remind(Option<i64>),
}

/// Answers it.
pub(crate) fn answer(engine: &mut Engine, what: &Ahead, out: &Out, now: &Stamp) -> Result<()> {
    match what {
        Ahead::Figures => out.figures(&engine.figures(now)?),
        Ahead::Figure(id, value) => {
            let changes = engine.tell_figure(id, *value, now)?;
            out.changes(engine, &changes, || tells::of_figure(engine, id, now))
        }
        Ahead::Remind(hours) => {
            hours.iter().try_for_each(|hours| engine.set_remind_h(*hours).map(|_| ()))?;
            out.remind(&engine.remind_choices()?)
        }
        Ahead::Stay(nights) => out.stay(&engine.stay(*nights, now)?),
        Ahead::Reckonings => out.reckonings(&engine.reckonings()?),
        Ahead::Reckon(id, picks) => {
            let picks =
                picks.iter().map(|pick| until(pick, out, now)).collect::<Result<Vec<_>>>()?;
            out.reckoning(&engine.reckon(id, &picks, now)?)
        }
    }
}

/// A time that the clock shows, as the minutes until then; a number with a decimal point. Whatever else was
/// picked stays as it is.
fn until(pick: &Pick, out: &Out, now: &Stamp) -> Result<Pick> {
    if !pick.value.contains(':') {
        let value = decimal(&pick.choice, &pick.value).map(|value: f64| value.to_string());
        return Ok(Pick { value: value.unwrap_or_else(|_| pick.value.clone()), ..pick.clone() });
    }
    let ms = out.zone.named(&pick.value, now)?.saturating_sub(now.utc_ms);
    Ok(Pick { value: ms.div_euclid(60_000).to_string(), ..pick.clone() })
}

/// A command of what lies ahead, if it is one.
pub(crate) fn command(words: &[&str]) -> std::result::Result<Option<Command>, lexopt::Error> {
    Ok(Some(Command::Ahead(match words {
        ["figures"] => Ahead::Figures,
        ["figure", id, "unknown"] => Ahead::Figure((*id).to_owned(), None),
        ["figure", id, value] => Ahead::Figure((*id).to_owned(), Some(decimal("figure", value)?)),
        ["stay", nights] => Ahead::Stay(number("stay", nights)?),
        ["reckon"] => Ahead::Reckonings,
        [id] if reckonings().any(|one| one == *id) => Ahead::Reckon((*id).to_owned(), Vec::new()),
        ["remind"] => Ahead::Remind(None),
        ["remind", hours] => Ahead::Remind(Some(number("remind", hours)?)),
        _ => return Ok(None),
    })))
}

/// The command with what was picked for its question.
pub(crate) fn with(
    command: Command,
    picked: Vec<Pick>,
) -> std::result::Result<Command, lexopt::Error> {
    match (command, picked.first()) {
        (command, None) => Ok(command),
        (Command::Ahead(Ahead::Reckon(id, _)), Some(_)) => {
            Ok(Command::Ahead(Ahead::Reckon(id, picked)))
        }
        (_, Some(odd)) => Err(lexopt::Error::UnexpectedOption(format!("--{}", odd.choice))),
    }
}
