//! The search for the cause of something that does not work, in words. What was said in it stands
//! in the log, so any process goes on with it.

mod show;

use super::Engine;
use super::loaded::Loaded;
use super::page::{Changes, FaultPage, FaultRow, FaultStage};
use super::words::Words;
use crate::clock::Stamp;
use crate::error::{Error, Result};
use crate::fault::{Graph, Said, Stand, stand};
use crate::state::{Act, Fact, Finding, How, NewEntry};
use crate::vehicle::{Cause, Fault, Literal, Settings};

/// Said of a question that cannot be answered.
const CANNOT: &str = "cannot";
/// Said of a cause: it works again, or it does not.
const MENDED: &str = "mended";
const REMAINS: &str = "remains";
/// What a cause is called among the questions.
const CAUSE: &str = "cause.";

impl Engine {
    /// Everything that may not work in this vehicle, in the catalogue's order.
    ///
    /// # Errors
    /// [`Error::Conflict`] while no vehicle is chosen.
    pub fn faults(&self, now: &Stamp) -> Result<Vec<FaultRow>> {
        let loaded = self.at(now)?;
        let words = loaded.words(&self.language)?;
        let known = loaded.known_now(now);
        let rows = loaded.vehicle.faults.iter();
        Ok(rows.map(|fault| loaded.fault_row(&words, &loaded.searched(fault, &known))).collect())
    }

    /// The search for the cause of one fault: what to look at next, or what was found. It begins
    /// with the first answer.
    ///
    /// # Errors
    /// [`Error::NotFound`] for an unknown fault, [`Error::Conflict`] while no vehicle is chosen.
    pub fn fault(&self, id: &str, now: &Stamp) -> Result<FaultPage> {
        let loaded = self.at(now)?;
        let words = loaded.words(&self.language)?;
        let known = loaded.known_now(now);
        let search = loaded.searched(loaded.known_fault(id)?, &known);
        Ok(loaded.fault_page(&words, &search, now))
    }

    /// Records an answer: one of the question's own or `cannot`; of `cause.ID`, what mends it being
    /// done, `mended` or `remains`. What it says of the vehicle is recorded with it.
    ///
    /// # Errors
    /// [`Error::NotFound`] for an unknown fault, question or cause, [`Error::InvalidInput`] for an
    /// answer that it does not have.
    pub fn answer_fault(
        &mut self,
        id: &str,
        asked: &str,
        answer: &str,
        now: &Stamp,
    ) -> Result<Changes> {
        let loaded = self.at(now)?;
        let fault = loaded.known_fault(id)?;
        let words = loaded.words(&self.language)?;
        let said =
            said_by(fault, asked, answer).map_err(|error| in_words(&words, fault, asked, error))?;
        let entry = loaded.finding(fault, asked, answer, loaded.told_by(fault, said), now);
        self.finish(&[entry], Vec::new(), now)
    }

    /// Takes back what was said last in a search.
    ///
    /// # Errors
    /// [`Error::NotFound`] for an unknown fault, [`Error::Conflict`] where nothing was said.
    pub fn undo_fault(&mut self, id: &str, now: &Stamp) -> Result<Changes> {
        let loaded = self.at(now)?;
        let fault = loaded.known_fault(id)?;
        let last = loaded.findings(fault).next_back().map(|(entry, _)| entry);
        let title = loaded.words(&self.language)?.fault(fault, "title");
        let none = || Error::Conflict { detail: format!("{title}: nothing was answered yet") };
        self.unmark(last.ok_or_else(none)?, now)
    }

    /// Begins a search anew: what was said in it before counts no more.
    ///
    /// # Errors
    /// [`Error::NotFound`] for an unknown fault.
    pub fn restart_fault(&mut self, id: &str, now: &Stamp) -> Result<Changes> {
        let loaded = self.at(now)?;
        let fault = loaded.known_fault(id)?;
        let entry = loaded.finding(fault, Finding::AGAIN, Finding::AGAIN, Vec::new(), now);
        self.finish(&[entry], Vec::new(), now)
    }
}

/// What somebody said of the vehicle, and where the person is: the same for every search.
struct Known {
    beliefs: Vec<Settings>,
    zone: usize,
}

/// A search as it stands.
struct Search<'a> {
    fault: &'a Fault,
    graph: Graph<'a>,
    said: Vec<(i64, Said)>,
    stand: Stand,
    beliefs: &'a [Settings],
}

impl Search<'_> {
    /// The cause to see to once nothing more is to be asked: what the owner can mend before what
    /// somebody else has to and before anything else, then the likelier.
    fn cause(&self) -> Option<(usize, &Cause)> {
        if self.graph.open(&self.stand.node).next().is_some() {
            return None;
        }
        let weight = |cause: usize| self.stand.node.weights.get(cause).copied().unwrap_or(0.0);
        let possible = self.stand.node.possible();
        let known = possible.filter_map(|at| Some((at, self.fault.causes.get(at)?)));
        let late = |at: usize, cause: &Cause| (at == self.fault.rest(), cause.ask.is_some());
        known.min_by(|(one, cause), (other, another)| {
            let first = late(*one, cause).cmp(&late(*other, another));
            first.then(weight(*other).total_cmp(&weight(*one)))
        })
    }

    fn stage(&self) -> FaultStage {
        match (self.said.last(), self.cause()) {
            (Some((_, Said::Mended { .. })), _) => FaultStage::Mended,
            (_, None) => FaultStage::Asking,
            (_, Some((_, cause))) if cause.normal => FaultStage::Normal,
            (_, Some((_, cause))) if cause.ask.is_some() => FaultStage::Helper,
            (_, Some(_)) => FaultStage::Found,
        }
    }

    /// The causes that are still possible, the likeliest first, with their chances.
    fn likely(&self) -> Vec<(&Cause, f64)> {
        let node = &self.stand.node;
        let total = node.total();
        let chance = |at: usize| node.weights.get(at).copied().unwrap_or(0.0) / total;
        let known = node.possible().filter_map(|at| Some((self.fault.causes.get(at)?, chance(at))));
        let mut known: Vec<_> = known.collect();
        known.sort_by(|(_, one), (_, other)| other.total_cmp(one));
        known
    }
}

/// What can be said of a cause. Anything else that it may be is for a workshop, and is not ruled out.
fn answers_to(fault: &Fault, cause: usize) -> Vec<&'static str> {
    let all = [MENDED, REMAINS].into_iter();
    all.filter(|one| *one == MENDED || cause != fault.rest()).collect()
}

/// An error about an answer, with what was asked as its page has it.
fn in_words(words: &Words, fault: &Fault, asked: &str, error: Error) -> Error {
    let Error::InvalidInput { expected, .. } = error else { return error };
    let rest = match asked.strip_prefix(CAUSE) {
        Some(cause) => format!("cause.{cause}"),
        None => format!("ask.{asked}"),
    };
    let field = words.fault(fault, &rest).trim_end_matches(['?', '.']).to_owned();
    Error::InvalidInput { field, expected }
}

/// What an answer says, by number.
fn said_by(fault: &Fault, asked: &str, answer: &str) -> Result<Said> {
    let invalid = |expected: Vec<&str>| Error::InvalidInput {
        field: asked.to_owned(),
        expected: expected.join(" or "),
    };
    if let Some(id) = asked.strip_prefix(CAUSE) {
        let cause = fault.causes.iter().position(|cause| cause.id == id);
        let none = || Error::NotFound { kind: "cause", id: id.to_owned() };
        let cause = cause.ok_or_else(none)?;
        let can = answers_to(fault, cause);
        return match answer {
            _ if !can.contains(&answer) => Err(invalid(can)),
            MENDED => Ok(Said::Mended { cause }),
            _ => Ok(Said::Remains { cause }),
        };
    }
    let found = fault.questions.iter().enumerate().find(|(_, one)| one.id == asked);
    let none = || Error::NotFound { kind: "check", id: asked.to_owned() };
    let (question, known) = found.ok_or_else(none)?;
    if answer == CANNOT {
        return Ok(Said::Cannot { question });
    }
    let ids = known.answers.iter().map(|one| one.id.as_str());
    match ids.clone().position(|id| id == answer) {
        Some(answer) => Ok(Said::Answer { question, answer }),
        None => Err(invalid(ids.chain([CANNOT]).collect())),
    }
}

impl Loaded {
    fn known_fault(&self, id: &str) -> Result<&Fault> {
        let found = self.vehicle.faults.iter().find(|fault| fault.id == id);
        found.ok_or_else(|| Error::NotFound { kind: "fault", id: id.to_owned() })
    }

    /// What was said in a search since it last began, with the entry that says so; first that it
    /// began anew, if it did.
    fn findings<'a>(
        &'a self,
        fault: &'a Fault,
    ) -> impl DoubleEndedIterator<Item = (i64, &'a Finding)> {
        let own =
            self.counted().filter_map(|entry| Some((entry.seq, entry.said.finding.as_ref()?)));
        let own: Vec<_> = own.filter(|(_, one)| one.is_of(&self.vehicle, fault)).collect();
        let begun = own.iter().rposition(|(_, one)| one.asked == Finding::AGAIN);
        // What is said after it was mended begins anew too.
        let mended =
            |(_, one): &(i64, &Finding)| one.asked.starts_with(CAUSE) && one.answer == MENDED;
        let before_last = own.get(..own.len().saturating_sub(1)).unwrap_or_default();
        let ended = before_last.iter().rposition(mended).map(|place| place.saturating_add(1));
        own.into_iter().skip(begun.max(ended).unwrap_or(0))
    }

    fn known_now(&self, now: &Stamp) -> Known {
        // What nobody has said is no knowledge, whatever it counts as elsewhere.
        let told = |(at, settings)| {
            let said = self.state.belief(at).is_some_and(|belief| belief.known.is_some());
            let all = self.vehicle.variables.get(at).map_or(Settings::NONE, |one| one.all);
            if said { settings } else { all }
        };
        let settings = self.state.settings(&self.vehicle, now).into_iter();
        Known {
            beliefs: settings.enumerate().map(told).collect(),
            zone: self.state.zone_at(&self.vehicle, now),
        }
    }

    fn searched<'a>(&'a self, fault: &'a Fault, known: &'a Known) -> Search<'a> {
        let said = self.findings(fault).filter_map(|(entry, one)| {
            Some((entry, said_by(fault, &one.asked, &one.answer).ok()?))
        });
        let said: Vec<_> = said.collect();
        let told: Vec<_> = said.iter().map(|(_, said)| *said).collect();
        let stand = stand(fault, &known.beliefs, &told, known.zone);
        let graph = fault.graph(&self.vehicle.walks);
        Search { fault, graph, said, stand, beliefs: &known.beliefs }
    }

    /// What an answer says of the vehicle.
    fn told_by(&self, fault: &Fault, said: Said) -> Vec<Fact> {
        let Said::Answer { question, answer } = said else { return Vec::new() };
        let asked = fault.questions.get(question);
        let seen = asked.and_then(|asked| asked.answers.get(answer));
        let facts = seen.into_iter().flat_map(|seen| &seen.says).flat_map(|literal| {
            let Literal { variable, settings } = *literal;
            let known = self.vehicle.variables.get(variable);
            let names = known.map_or_else(Vec::new, |known| known.names_of(settings));
            let mut facts = vec![self.fact(variable, names, How::Looked)];
            facts.extend(settings.single().iter().flat_map(|to| self.thrown_back(variable, *to)));
            facts
        });
        facts.collect()
    }

    fn finding(
        &self,
        fault: &Fault,
        asked: &str,
        answer: &str,
        facts: Vec<Fact>,
        now: &Stamp,
    ) -> NewEntry {
        let fitting = self.vehicle.fittings.get(fault.fitting);
        let finding = Finding {
            symptom: fault.symptom.clone(),
            fitting: fitting.map_or_else(String::new, |one| one.id.clone()),
            asked: asked.to_owned(),
            answer: answer.to_owned(),
        };
        NewEntry { facts, finding: Some(finding), ..self.entry(Act::Report, now) }
    }

    /// What a finding of the log says.
    pub(super) fn finding_text(&self, words: &Words, finding: &Finding) -> String {
        let Finding { symptom, fitting, asked, answer } = finding;
        let own = |fault: &&Fault| {
            let known = self.vehicle.fittings.get(fault.fitting);
            fault.symptom == *symptom && known.is_some_and(|known| known.id == *fitting)
        };
        let Some(fault) = self.vehicle.faults.iter().find(own) else {
            return format!("{symptom}: {asked}: {answer}");
        };
        let what = match said_by(fault, asked, answer) {
            Ok(said) => words.said_of_fault(fault, said),
            Err(_) if asked == Finding::AGAIN => words.say("fault.again", &[]),
            Err(_) => format!("{asked}: {answer}"),
        };
        let title = words.fault(fault, "title");
        words.say("log.fault", &[("title", &title), ("what", &what)])
    }
}
