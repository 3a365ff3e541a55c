//! What a routine leads to: a target, one of its variants, or how things stood before.

use std::collections::BTreeSet;

use super::loaded::Loaded;
use super::page::VariantRow;
use super::run::seconds;
use super::stop::confirmed;
use super::words::Words;
use crate::catalogue::{Lasts, Severity, Target, Variant, back};
use crate::clock::Stamp;
use crate::error::{Error, Result};
use crate::interlock::{Goal, GoalOf, must_hold};
use crate::state::State;
use crate::vehicle::{Literal, Variable, VariableId};

impl Loaded {
    /// What is meant by `target`, `target/variant`, `target/part+part` or `back/entry`. Where a target has variants and
    /// none is named, the cheapest that can be reached is meant, of those for which nothing has to
    /// be chosen that is not so yet.
    ///
    /// # Errors
    /// [`Error::NotFound`] for an unknown target, variant or entry, [`Error::Conflict`] for a target
    /// or variant that this vehicle lacks something for.
    pub(super) fn aim(&self, words: &Words, key: &str, now: &Stamp) -> Result<Target> {
        if let Some(entry) = back(key) {
            let known = self.entries.iter().any(|one| one.seq == entry);
            let none = || Error::NotFound { kind: "entry", id: entry.to_string() };
            return known.then(|| Target::back_to(entry)).ok_or_else(none);
        }
        let target = self.target(words, key)?;
        let Some((_, id)) = key.split_once('/') else {
            return self.cheapest(target, now);
        };
        if let Some(aim) = target.only(id) {
            return Ok(aim);
        }
        let none = || Error::NotFound { kind: "variant", id: id.to_owned() };
        let variant = target.variants.iter().find(|one| one.id == id).ok_or_else(none)?;
        if !self.is_offered(variant) {
            let slots = [
                ("target", words.text.say(&format!("target.{}.title", target.id), &[])),
                (
                    "variant",
                    words.text.say(&format!("target.{}.variant.{id}.title", target.id), &[]),
                ),
            ];
            let slots = slots.each_ref().map(|(slot, said)| (*slot, said.as_str()));
            return Err(Error::Conflict { detail: words.say("refuse.variant", &slots) });
        }
        Ok(target.as_variant(variant))
    }

    /// What the routine under way leads to. Where what its variant says was taken back since, the
    /// facts count: it is the target without it.
    pub(super) fn aim_of_run(&self, key: &str) -> Result<Target> {
        if let Some(entry) = back(key) {
            return Ok(Target::back_to(entry));
        }
        let target = self.catalogue.target(key)?;
        let named = key.split_once('/').map(|(_, id)| id);
        let variant = target.variants.iter().find(|one| Some(one.id.as_str()) == named);
        let only = || named.and_then(|id| target.only(id));
        let aim = variant.map(|one| target.as_variant(one)).or_else(only);
        let aim = aim.filter(|aim| self.is_said(aim).unwrap_or_default());
        Ok(aim.unwrap_or_else(|| target.clone()))
    }

    /// Whether what choosing a variant says is believed already.
    fn is_said(&self, aim: &Target) -> Result<bool> {
        let beliefs: Vec<_> = self.state.beliefs.iter().map(|belief| belief.settings).collect();
        Ok(self.facts_said(aim)?.iter().all(|one| must_hold(&beliefs, one)))
    }

    fn cheapest(&self, target: &Target, now: &Stamp) -> Result<Target> {
        let mut best: Option<(_, Target)> = None;
        for variant in self.offered(target) {
            let aim = target.as_variant(variant);
            if !self.is_said(&aim)? {
                continue;
            }
            let way = self.way(&aim, now)?;
            let rank =
                (way.plan.is_none(), way.given_up.len(), way.plan.as_ref().map(|one| one.cost));
            if best.as_ref().is_none_or(|(least, _)| rank < *least) {
                best = Some((rank, aim));
            }
        }
        Ok(best.map_or_else(|| target.clone(), |(_, aim)| aim))
    }

    fn offered<'t>(&self, target: &'t Target) -> impl Iterator<Item = &'t Variant> {
        target.variants.iter().filter(|variant| self.is_offered(variant))
    }

    fn is_offered(&self, variant: &Variant) -> bool {
        variant.only_if.iter().all(|asked| self.vehicle.has(asked))
    }

    /// The given facts that choosing a variant says, fitting by fitting.
    pub(super) fn facts_said(&self, target: &Target) -> Result<Vec<Literal>> {
        let mut facts = Vec::new();
        for literal in &target.says {
            facts.extend(self.vehicle.any_of(std::slice::from_ref(literal))?.into_iter().flatten());
        }
        Ok(facts)
    }

    /// Every variant of the target that `chosen` is one of, with the way to it.
    pub(super) fn variants(
        &self,
        words: &Words,
        chosen: &Target,
        now: &Stamp,
    ) -> Result<Vec<VariantRow>> {
        if chosen.back_to.is_some() {
            return Ok(Vec::new());
        }
        let target = self.catalogue.target(&chosen.id)?;
        let row = |variant: &Variant| -> Result<VariantRow> {
            let aim = target.as_variant(variant);
            let way = self.way(&aim, now)?;
            let plan = way.plan.as_ref();
            let say = |what: &str| {
                let key = format!("target.{}.variant.{}.{what}", target.id, variant.id);
                words.text.say(&key, &[])
            };
            let steps = plan.map_or(0, |plan| plan.steps.len());
            Ok(VariantRow {
                id: aim.key(),
                title: say("title"),
                about: say("about"),
                chosen: chosen.variant.as_ref() == Some(&variant.id),
                step_count: i32::try_from(steps).unwrap_or(i32::MAX),
                gesture_count: confirmed(&way.gestures),
                elapsed_s: plan.map_or(0, |plan| seconds(plan.cost.elapsed_s)),
                impossible: self.impossible(words, &aim, &way),
            })
        };
        self.offered(target).map(row).collect()
    }

    /// How things stood before an entry, as goals: what was known then and is otherwise now. What was
    /// not known then, what lasted only a stay or a trip and is forgotten since, and what steps only
    /// throw back, is left alone.
    pub(super) fn goals_back(&self, entry: i64) -> Vec<Goal> {
        let goal = |one: Literal| Goal {
            of: GoalOf::Target("was".to_owned()),
            any_of: vec![one],
            fresh: false,
            severity: Severity::Damage,
        };
        let is_given = |one: &Literal| {
            self.vehicle.variables.get(one.variable).is_some_and(|known| known.given)
        };
        self.was(entry).into_iter().filter(|one| !is_given(one)).map(goal).collect()
    }

    /// What ends as it was found, beside what the planner sees to from where it starts: what the
    /// routine under way has moved so far, and what the target says is put back though its kind lets
    /// it end as it pleases. What any goal of the target speaks of, met or not called for by now, is
    /// left to that; on the way back to how things were, they were found as they were then.
    pub(super) fn goals_found(&self, target: &Target, asked: &[Goal]) -> Result<Vec<Goal>> {
        let under_way = self.run_to(&target.key()).is_some();
        let kept = variables(&self.vehicle.any_of(&target.put_back)?);
        let mut spoken: BTreeSet<_> = asked.iter().flat_map(Goal::variables).collect();
        for goal in &target.goals {
            spoken.extend(variables(&self.vehicle.any_of(&goal.any_of)?));
        }
        let then = target.back_to.map(|entry| self.before(entry));
        let goal = |(number, variable): (VariableId, &Variable)| {
            let is = self.state.belief(number)?.said();
            let moved = self.as_found.get(&number).filter(|_| under_way).copied();
            let known = then.as_ref().and_then(|then| Some(then.belief(number)?.said()));
            let known = known.filter(|was| *was != variable.all);
            let was = moved.map_or(is, |found| known.unwrap_or(found));
            let otherwise = !variable.dont_care && !is.is_within(was);
            let counts = (kept.contains(&number) || otherwise) && was != variable.all;
            (counts && !spoken.contains(&number)).then(|| Goal {
                of: GoalOf::Found,
                any_of: vec![Literal { variable: number, settings: was }],
                fresh: false,
                severity: Severity::Nuisance,
            })
        };
        Ok(self.vehicle.variables.iter().enumerate().filter_map(goal).collect())
    }

    /// Facts that were otherwise before an entry: no step changes them, so nothing puts them back.
    pub(super) fn not_put_back(&self, words: &Words, entry: i64) -> Vec<String> {
        let row = |one: Literal| {
            let known = self.vehicle.variables.get(one.variable).filter(|known| known.given)?;
            let belief = self.state.belief(one.variable)?;
            let (was, seen) = (one.settings, belief.settings);
            let slots = [
                ("title", Words::sentence(&words.label(one.variable))),
                ("was", words.settings(one.variable, was)),
                ("seen", words.settings(one.variable, seen)),
            ];
            let slots = slots.each_ref().map(|(slot, said)| (*slot, said.as_str()));
            known.given.then(|| words.say("impossible.fact", &slots))
        };
        self.was(entry).into_iter().filter_map(row).collect()
    }

    /// What was known of each variable before an entry and is certainly otherwise now: what only time
    /// may have changed is left alone.
    fn was(&self, entry: i64) -> Vec<Literal> {
        let then = self.before(entry);
        let numbered = self.vehicle.variables.iter().enumerate();
        let changed = numbered.filter_map(|(number, variable)| {
            let (was, is) = (then.belief(number)?, self.state.belief(number)?);
            let forgotten = variable.lasts != Lasts::Always && is.known.is_none();
            let known = was.settings != variable.all && !is.settings.is_within(was.settings);
            let counts =
                known && !forgotten && !self.is_age(number) && !self.is_thrown_back(number);
            counts.then_some(Literal { variable: number, settings: was.settings })
        });
        changed.collect()
    }

    /// What was believed before an entry.
    fn before(&self, entry: i64) -> State {
        let before = self.entries.iter().filter(|one| one.seq < entry);
        let before: Vec<_> =
            before.filter(|one| !self.voided.contains(&one.seq)).cloned().collect();
        State::fold(&self.vehicle, self.catalogue, &before)
    }

    fn is_thrown_back(&self, variable: VariableId) -> bool {
        let mut effects = self.vehicle.actions.iter().flat_map(|action| &action.effects);
        effects.any(|effect| effect.spoilt && effect.variable == variable)
    }
}

/// The variables that some ground goals speak of.
fn variables(goals: &[Vec<Literal>]) -> BTreeSet<VariableId> {
    goals.iter().flatten().map(|one| one.variable).collect()
}
