//! The order that a routine keeps to: planned when it is opened, and again only where it goes
//! otherwise than planned. It follows from the log alone, so every process finds the same; a step
//! that was done in its turn and turned out as expected costs no planning.

use super::loaded::Loaded;
use crate::state::{Act, Entry, Run};
use crate::vehicle::{Settings, VariableId};

/// How a routine goes on.
#[derive(Debug, Clone)]
pub(super) struct Followed {
    run: i64,
    /// What it keeps to, from where it was last planned anew.
    order: Vec<usize>,
    /// What is left of it.
    rest: Vec<usize>,
    /// What will be believed once the next of these was taken.
    expected: Vec<Settings>,
}

impl Loaded {
    /// The routine under way, if it leads to a target.
    pub(super) fn run_to(&self, target: &str) -> Option<&Run> {
        let leads_there = |run: &str| self.aim_of_run(run).is_ok_and(|aim| aim.key() == target);
        self.state.run.as_ref().filter(|run| leads_there(&run.target))
    }

    /// The order to keep to on the way to a target, that of the routine under way, and what is left
    /// of it since it was last planned.
    pub(super) fn followed_to(&self, target: &str) -> (&[usize], &[usize]) {
        let run = self.run_to(target);
        let followed = self.followed.as_ref().zip(run).filter(|(known, run)| known.run == run.id);
        followed.map_or((&[], &[]), |(known, _)| (&known.order, &known.rest))
    }

    /// Notes how things stand that an entry of the routine under way is about to move, where the rest
    /// of its order puts them back.
    pub(super) fn note_found(&mut self, entry: &Entry) {
        if let Act::Open { .. } = entry.said.act {
            self.as_found.clear();
        }
        let Act::Tick { .. } = entry.said.act else { return };
        let moved = entry.said.facts.iter().filter_map(|fact| {
            let moved = self.vehicle.variable(&fact.variable).ok()?;
            Some((moved, self.state.belief(moved)?.said()))
        });
        let put_back: Vec<_> =
            moved.filter(|(moved, was)| self.brings_back(*moved, *was)).collect();
        for (moved, was) in put_back {
            self.as_found.entry(moved).or_insert(was);
        }
    }

    /// Whether the rest of the order brings a variable to one of some settings.
    fn brings_back(&self, variable: VariableId, was: Settings) -> bool {
        let rest = self.followed.iter().flat_map(|known| &known.rest);
        let actions = rest.filter_map(|step| self.vehicle.actions.get(*step));
        let mut effects = actions.flat_map(|action| &action.effects).filter(|one| !one.spoilt);
        effects.any(|one| one.variable == variable && Settings::one(one.to).is_within(was))
    }

    /// Follows the routine under way past an entry that was just taken.
    pub(super) fn follow(&mut self, entry: &Entry) {
        let Some(run) = &self.state.run else {
            self.followed = None;
            return;
        };
        let (run, now) = (run.clone(), &entry.said.at);
        let known = self.followed.take().filter(|known| known.run == run.id);
        let in_turn = |known: &Followed| match &entry.said.act {
            Act::Note => Some(0),
            Act::Tick { step } | Act::Look { step } => {
                let (step, _) = self.vehicle.action(step).ok()?;
                let is_next = known.rest.first() == Some(&step);
                (is_next && self.is_as_expected(&known.expected, entry)).then_some(1)
            }
            Act::Report
            | Act::Void { .. }
            | Act::Cannot { .. }
            | Act::LeftAnyway { .. }
            | Act::Open { .. }
            | Act::Pause
            | Act::Resume
            | Act::Close => None,
        };
        if let Some((known, done)) = known.as_ref().and_then(|one| Some((one, in_turn(one)?))) {
            let rest = known.rest.get(done..).unwrap_or_default().to_vec();
            self.followed = Some(self.followed(run.id, known.order.clone(), rest, entry));
            return;
        }
        self.followed = known;
        let way = self.aim_of_run(&run.target).and_then(|aim| self.way(&aim, now));
        let steps = way.ok().and_then(|way| way.plan.as_ref().map(|plan| plan.steps.clone()));
        let Some(steps) = steps else { return };
        // An order of which this is a part is kept whole: what lapses comes back in its place.
        let order = self.followed.take().map(|known| known.order);
        let order = order.filter(|order| is_part(&steps, order)).unwrap_or_else(|| steps.clone());
        self.followed = Some(self.followed(run.id, order, steps, entry));
    }

    fn followed(&self, run: i64, order: Vec<usize>, rest: Vec<usize>, entry: &Entry) -> Followed {
        let mut expected = self.state.settings(&self.vehicle, &entry.said.at);
        if let Some(action) = rest.first().and_then(|step| self.vehicle.actions.get(*step)) {
            action.apply(&mut expected);
        }
        Followed { run, order, rest, expected }
    }

    /// Whether all is as it was expected to be by now; ages only grow.
    fn is_as_expected(&self, expected: &[Settings], entry: &Entry) -> bool {
        let settings = self.state.settings(&self.vehicle, &entry.said.at);
        let pairs = settings.iter().zip(expected).enumerate();
        pairs.into_iter().all(|(number, (is, was))| is == was || self.is_age(number))
    }
}

/// Whether steps stand in an order one after the other, perhaps with others between.
fn is_part(steps: &[usize], order: &[usize]) -> bool {
    let mut order = order.iter();
    steps.iter().all(|step| order.any(|known| known == step))
}
