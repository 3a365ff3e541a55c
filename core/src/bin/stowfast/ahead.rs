//! What lies ahead: numbers that people tell of themselves, and what is reckoned from them.

use stowfast_core::Result;
use stowfast_core::clock::Stamp;
use stowfast_core::engine::Engine;

use crate::args::number;
use crate::command::Command;
use crate::show::Out;

/// What is told or asked.
#[derive(Debug)]
pub(crate) enum Ahead {
    Figures,
    /// `None`: no longer known.
    Figure(String, Option<f64>),
    /// So many nights without services.
    Stay(i64),
    /// How long before something runs out it is told; with a number to change it. Unit: h.
    Remind(Option<i64>),
}

/// Answers it.
pub(crate) fn answer(engine: &mut Engine, what: &Ahead, out: &Out, now: &Stamp) -> Result<()> {
    match what {
        Ahead::Figures => out.figures(&engine.figures(now)?),
        Ahead::Figure(id, value) => {
            let changes = engine.tell_figure(id, *value, now)?;
            out.changes(&changes, "What that tells: stowfast reserves")
        }
        Ahead::Remind(hours) => {
            hours.iter().try_for_each(|hours| engine.set_remind_h(*hours).map(|_| ()))?;
            out.remind(&engine.remind_choices()?)
        }
        Ahead::Stay(nights) => out.stay(&engine.stay(*nights, now)?),
    }
}

/// A command of what lies ahead, if it is one.
pub(crate) fn command(words: &[&str]) -> std::result::Result<Option<Command>, lexopt::Error> {
    Ok(Some(Command::Ahead(match words {
        ["figures"] => Ahead::Figures,
        ["figure", id, "unknown"] => Ahead::Figure((*id).to_owned(), None),
        ["figure", id, value] => Ahead::Figure((*id).to_owned(), Some(number("figure", value)?)),
        ["stay", nights] => Ahead::Stay(number("stay", nights)?),
        ["remind"] => Ahead::Remind(None),
        ["remind", hours] => Ahead::Remind(Some(number("remind", hours)?)),
        _ => return Ok(None),
    })))
}
