//! The words of faults.

use super::Words;
use crate::fault::Said;
use crate::vehicle::Fault;

impl Words<'_> {
    /// Words of a fault, filled in line by line; none where there are no words.
    pub(in crate::engine) fn fault_lines(&self, fault: &Fault, rest: &str) -> Vec<String> {
        let Some(fitting) = self.vehicle.fittings.get(fault.fitting) else { return Vec::new() };
        let key = format!("fault.{}.{rest}", fault.symptom);
        let said = self.text.get(&key).unwrap_or_default();
        let filled =
            |line: &str| self.with_values(fitting, &line.replace("{it}", self.title(fitting)));
        said.lines().map(filled).collect()
    }

    /// The same in one, as a sentence.
    pub(in crate::engine) fn fault(&self, fault: &Fault, rest: &str) -> String {
        Self::sentence(&self.fault_lines(fault, rest).join(" "))
    }

    /// A question with an answer to it.
    pub(in crate::engine) fn answered(
        &self,
        fault: &Fault,
        question: usize,
        answer: usize,
    ) -> String {
        let Some(asked) = fault.questions.get(question) else { return String::new() };
        let seen = asked.answers.get(answer).map_or("", |one| &one.id);
        let ask = self.fault(fault, &format!("ask.{}", asked.id));
        format!("{ask} {}", self.fault(fault, &format!("answer.{}.{seen}", asked.id)))
    }

    /// What was said in a search.
    pub(in crate::engine) fn said_of_fault(&self, fault: &Fault, said: Said) -> String {
        let of_cause = |number: usize, key: &str| {
            let id = fault.causes.get(number).map_or("", |cause| &cause.id);
            let what = self.fault(fault, &format!("cause.{id}"));
            self.say(key, &[("what", &what)])
        };
        match said {
            Said::Answer { question, answer } => self.answered(fault, question, answer),
            Said::Cannot { question } => {
                let id = fault.questions.get(question).map_or("", |asked| &asked.id);
                let ask = self.fault(fault, &format!("ask.{id}"));
                format!("{ask} {}", self.say("fault.cannot", &[]))
            }
            Said::Remains { cause } => of_cause(cause, "fault.tried_remains"),
            Said::Mended { cause } => of_cause(cause, "fault.tried_mended"),
        }
    }
}
