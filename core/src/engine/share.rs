//! The way to a target for two people, in words.

use super::loaded::Loaded;
use super::page::{OrderProof, PersonRow, SharedPage, SharedStepRow, StepRow};
use super::run::{proof, seconds};
use super::way::Way;
use super::words::Words;
use crate::catalogue::Target;
use crate::clock::Stamp;
use crate::error::Result;
use crate::routine::{Pause, Plan, Schedule, Turn, share};
use crate::vehicle::{Action, Deed};

/// The way to a target, shared out.
struct Shared<'a> {
    loaded: &'a Loaded,
    words: &'a Words<'a>,
    target: &'a Target,
    way: &'a Way,
    plan: &'a Plan,
    /// The steps of the plan.
    rows: &'a [StepRow],
    schedule: Schedule,
}

impl Loaded {
    /// The way to a target from where everything stands, shared out between two.
    pub(super) fn shared(&self, words: &Words, target: &Target, now: &Stamp) -> Result<SharedPage> {
        let page = self.page(words, target, now)?;
        let way = &*self.way(target, now)?;
        let shared = way.plan.as_ref().map(|plan| {
            let schedule = share(&way.problem(&self.vehicle), plan);
            Shared { loaded: self, words, target, way, plan, rows: &page.steps, schedule }
        });
        let people = shared.as_ref().map_or_else(Vec::new, |shared| {
            let people = ["first", "second"].into_iter().enumerate();
            let rows = people.map(|(person, key)| PersonRow {
                title: words.say(&format!("pair.{key}"), &[]),
                steps: shared.steps_of(person),
            });
            rows.filter(|row| !row.steps.is_empty()).collect()
        });
        let schedule = shared.as_ref().map(|shared| &shared.schedule);
        let elapsed_s = schedule.map_or(0, |one| one.elapsed_s);
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
            elapsed_s: seconds(elapsed_s),
            alone_s: page.elapsed_s,
            walk_s: schedule.map_or(0, |one| seconds(one.walk_s)),
            proof: schedule.map_or(OrderProof::None, |one| proof(one.proof)),
            people,
        })
    }
}

impl Shared<'_> {
    /// The list of one person: their steps, each after what they wait for.
    fn steps_of(&self, person: usize) -> Vec<SharedStepRow> {
        let own = |pause: &&Pause| pause.person == person;
        let pauses = || self.schedule.pauses.iter().filter(own);
        let (mut zone, mut free_s) = (self.way.start.zone, 0);
        let mut rows = Vec::new();
        for turn in self.schedule.turns.iter().filter(|turn| turn.person == person) {
            let before = pauses().filter(|pause| pause.next == Some(turn.place));
            rows.extend(before.filter_map(|pause| self.pause(pause, zone)));
            rows.extend(self.turn(turn, free_s));
            // A word comes before the wait that it begins.
            if let [.., wait, step] = rows.as_mut_slice()
                && wait.step.wait_s > 0
            {
                (wait.word_id, wait.word_text) = (step.word_id.take(), step.word_text.take());
            }
            zone = self.action(turn.place).map_or(zone, |action| action.zone);
            free_s = turn.end_s;
        }
        let last = pauses().filter(|pause| pause.next.is_none());
        rows.extend(last.filter_map(|pause| self.pause(pause, zone)));
        rows
    }

    /// A step of somebody who has nothing to do from `free_s` on.
    fn turn(&self, turn: &Turn, free_s: u32) -> Option<SharedStepRow> {
        let step = self.rows.get(turn.place)?.clone();
        let word = turn.word.and_then(|place| self.rows.get(place));
        Some(SharedStepRow {
            step: StepRow { walk_s: seconds(turn.walk_s), ..step },
            start_s: seconds(turn.start_s),
            word_id: word.map(|other| other.id.clone()),
            word_text: word.map(|other| self.word(turn, other, free_s)),
        })
    }

    /// That the word of another step is waited for, and how long where it is long.
    fn word(&self, turn: &Turn, other: &StepRow, free_s: u32) -> String {
        let ends = self.schedule.turns.iter().filter(|one| Some(one.place) == turn.word);
        let ended_s = ends.map(|one| one.end_s).max().unwrap_or(0);
        let waits_s = ended_s.saturating_sub(free_s.saturating_add(turn.walk_s));
        let time = self.words.time(i64::from(waits_s).saturating_mul(1_000));
        let is_long = waits_s > self.loaded.vehicle.part_wait_s;
        let key = if is_long { "pair.word_later" } else { "pair.word" };
        self.words.say(key, &[("step", &other.text), ("time", &time)])
    }

    /// A wait, spent where that person stands.
    fn pause(&self, pause: &Pause, zone: usize) -> Option<SharedStepRow> {
        let (loaded, words) = (self.loaded, self.words);
        let action = loaded.vehicle.actions.get(pause.action)?;
        let next = pause.next.unwrap_or(self.plan.steps.len());
        let is_step = |action: &&Action| action.deed != Deed::Wait;
        let steps = (0..self.plan.steps.len()).filter_map(|place| self.action(place));
        let (before, later) = steps.enumerate().partition::<Vec<_>, _>(|(place, _)| *place < next);
        let mut beliefs = self.way.start.beliefs.clone();
        let before = before.into_iter().map(|(_, action)| action).filter(is_step);
        before.for_each(|action| action.apply(&mut beliefs));
        let later: Vec<_> = later.into_iter().map(|(_, action)| action).filter(is_step).collect();
        let row = loaded.step(words, action, &beliefs, zone);
        let lasts_s = pause.end_s.saturating_sub(pause.start_s);
        let row = Loaded::waiting(words, row, zone, lasts_s);
        let why = loaded.why(words, self.target, &self.way.goals, action, &beliefs, &later);
        Some(SharedStepRow {
            step: StepRow { why, ..row },
            start_s: seconds(pause.start_s),
            word_id: None,
            word_text: None,
        })
    }

    fn action(&self, place: usize) -> Option<&Action> {
        self.loaded.vehicle.actions.get(*self.plan.steps.get(place)?)
    }
}
