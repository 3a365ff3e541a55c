//! What is said in the search for the cause of a fault.

use stowfast_core::Result;
use stowfast_core::clock::Stamp;
use stowfast_core::engine::Engine;

use crate::command::{Command, Show};
use crate::show::Out;

/// What is said of one fault.
#[derive(Debug)]
pub(crate) struct Fault {
    pub(crate) id: String,
    pub(crate) deed: Deed,
}

/// What is said.
#[derive(Debug)]
pub(crate) enum Deed {
    Answer(String, String),
    Undo,
    Again,
}

/// Records it, and shows where the search stands then.
pub(crate) fn say(engine: &mut Engine, what: &Fault, out: &Out, now: &Stamp) -> Result<()> {
    let id = &what.id;
    let changes = match &what.deed {
        Deed::Answer(check, answer) => engine.answer_fault(id, check, answer, now)?,
        Deed::Undo => engine.undo_fault(id, now)?,
        Deed::Again => engine.restart_fault(id, now)?,
    };
    out.beside(engine, &changes)?;
    out.fault(&engine.fault(id, now)?)
}

/// A command of what does not work.
pub(crate) fn command(words: &[&str]) -> Option<Command> {
    let own = str::to_owned;
    Some(match words {
        ["faults"] => Command::Show(Show::Faults),
        ["fault", id] => Command::Show(Show::Fault(own(id))),
        ["fault", id, check, answer] => {
            let deed = Deed::Answer(own(check), own(answer));
            Command::Fault(Fault { id: own(id), deed })
        }
        _ => return None,
    })
}

/// The command, to take back or begin anew what was said of a fault.
pub(crate) fn of(
    command: Command,
    deed: Option<Deed>,
) -> std::result::Result<Command, lexopt::Error> {
    match (command, deed) {
        (command, None) => Ok(command),
        (Command::Show(Show::Fault(id)), Some(deed)) => Ok(Command::Fault(Fault { id, deed })),
        (_, Some(_)) => Err("--undo and --again: go with `fault FAULT`".into()),
    }
}
