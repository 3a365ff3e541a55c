//! What is said in the search for the cause of a fault.

use stowfast_core::Result;
use stowfast_core::clock::Stamp;
use stowfast_core::engine::Engine;

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
    out.beside(&changes)?;
    out.fault(&engine.fault(id, now)?)
}
