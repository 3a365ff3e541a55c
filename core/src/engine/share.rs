//! The way to a target for two people, in words.

use super::loaded::Loaded;
use super::page::{OrderProof, PersonRow, SharedPage, SharedStepRow, StepRow};
use super::run::{proof, seconds};
use super::words::Words;
use crate::catalogue::Target;
use crate::clock::Stamp;
use crate::error::Result;
use crate::routine::{Schedule, Turn, share};

impl Loaded {
    /// The way to a target from where everything stands, shared out between two.
    pub(super) fn shared(&self, words: &Words, target: &Target, now: &Stamp) -> Result<SharedPage> {
        let page = self.page(words, target, now)?;
        let way = self.way(target, now)?;
        let problem = self.problem(way.goals.clone(), now)?;
        let schedule = way.plan.as_ref().map(|plan| share(&problem, plan));
        let people = schedule.as_ref().map_or_else(Vec::new, |schedule| {
            let people = ["first", "second"].into_iter().enumerate();
            let rows = people.map(|(person, key)| PersonRow {
                title: words.say(&format!("pair.{key}"), &[]),
                steps: person_steps(words, &page.steps, schedule, person),
            });
            rows.filter(|row| !row.steps.is_empty()).collect()
        });
        let elapsed_s = schedule.as_ref().map_or(0, |one| one.elapsed_s);
        let time = |s: i32| words.time(i64::from(s).saturating_mul(1_000));
        let (two, one) = (time(seconds(elapsed_s)), time(page.elapsed_s));
        Ok(SharedPage {
            headline: match people.len() {
                0 => page.headline,
                1 => words.say("pair.alone", &[("one", &one)]),
                _ => words.say("pair.shared", &[("two", &two), ("one", &one)]),
            },
            target_id: page.run.target_id,
            target_title: page.run.target_title,
            warnings: page.warnings,
            impossible: page.impossible,
            people,
            elapsed_s: seconds(elapsed_s),
            alone_s: page.elapsed_s,
            walk_s: schedule.as_ref().map_or(0, |one| seconds(one.walk_s)),
            proof: schedule.map_or(OrderProof::None, |one| proof(one.proof)),
        })
    }
}

/// The list of one person.
fn person_steps(
    words: &Words,
    rows: &[StepRow],
    schedule: &Schedule,
    person: usize,
) -> Vec<SharedStepRow> {
    let row = |turn: &Turn| {
        let step = rows.get(turn.place)?.clone();
        let word = turn.word.and_then(|place| rows.get(place));
        Some(SharedStepRow {
            step: StepRow { walk_s: seconds(turn.walk_s), ..step },
            start_s: seconds(turn.start_s),
            word_id: word.map(|other| other.id.clone()),
            word_text: word.map(|other| words.say("pair.word", &[("step", &other.text)])),
        })
    };
    schedule.turns.iter().filter(|turn| turn.person == person).filter_map(row).collect()
}
