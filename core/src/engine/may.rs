//! May this be done now? Asked of any move or look, whether a plan has it or not.

use std::collections::BTreeSet;

use super::Engine;
use super::loaded::Loaded;
use super::page::{ActionRow, AgainstRow, LinkRow, MayPage, MoveRow, StepKind};
use super::way::is_told;
use super::words::Words;
use crate::catalogue::Severity;
use crate::clock::Stamp;
use crate::error::Result;
use crate::interlock::{Goal, GoalOf, Refusal, Standing, before, refusals, standing};
use crate::state::How;
use crate::vehicle::{Action, Clause, Deed, Literal, Settings};

impl Engine {
    /// Whether a move or look may be taken now, with every reason against it and all cautions.
    ///
    /// # Errors
    /// [`crate::Error::NotFound`] for an unknown step, [`crate::Error::Conflict`] while no vehicle is chosen.
    pub fn may(&self, step: &str, now: &Stamp) -> Result<MayPage> {
        let loaded = self.at(now)?;
        let words = loaded.words(&self.language)?;
        let (_, action) = loaded.vehicle.action(step)?;
        let beliefs = loaded.state.settings(&loaded.vehicle, now);
        let from = loaded.state.zone_at(&loaded.vehicle, now);
        let mut row = loaded.step(&words, action, &beliefs, from);
        let leads_into = loaded.leads_into(&words, action, &beliefs);
        row.cautions.splice(..0, leads_into.iter().cloned());
        row.cautions.extend(loaded.old_grounds(&words, action, &beliefs, &[], now));
        let refused = refusals(&loaded.vehicle, &beliefs, action);
        let answer = match (refused.is_empty(), loaded.is_so(action, &beliefs)) {
            (false, _) => "not_now",
            (true, true) => "is_so",
            (true, false) if !leads_into.is_empty() => "mind",
            (true, false) => "now",
        };
        let answer = words.say(&format!("may.{answer}"), &[]);
        let routine = loaded.makes_ready_for(&words, action).filter(|_| !refused.is_empty());
        let calm = loaded.emergency(&words, now).is_empty();
        let steps = match &routine {
            None if calm => loaded.steps_before(action, &refused, now)?,
            _ => Vec::new(),
        };
        let first: Vec<_> = steps.into_iter().map(|one| Loaded::first_row(&words, one)).collect();
        Ok(MayPage {
            step: row,
            refused: !refused.is_empty(),
            answer,
            against: loaded.against(&words, action, &refused, &first, &beliefs)?,
            first,
            routine,
        })
    }

    /// Every reason against a move or look now, in words; none where it may be taken.
    ///
    /// # Errors
    /// As [`Engine::may`].
    pub fn refusals(&self, step: &str, now: &Stamp) -> Result<Vec<String>> {
        let loaded = self.at(now)?;
        let (_, action) = loaded.vehicle.action(step)?;
        let beliefs = loaded.state.settings(&loaded.vehicle, now);
        Ok(loaded.objections(&loaded.words(&self.language)?, action, &beliefs))
    }
}

impl Loaded {
    pub(super) fn move_row(&self, words: &Words, action: &Action, beliefs: &[Settings]) -> MoveRow {
        let refused = !refusals(&self.vehicle, beliefs, action).is_empty();
        let is_so = self.is_so(action, beliefs);
        let stands = match (refused, is_so) {
            (true, _) => words.say("may.row_not_now", &[]),
            (false, true) => words.say("may.row_is_so", &[]),
            (false, false) => String::new(),
        };
        MoveRow {
            id: action.id.clone(),
            kind: StepKind::of(action.deed),
            text: words.step(action),
            zone_id: words.zone_id(action.zone),
            zone_title: words.zone(action.zone),
            hazard: action.hazard,
            refused,
            is_so,
            stands_text: stands,
        }
    }

    /// The routine that makes ready for a move, where there is one.
    fn makes_ready_for(&self, words: &Words, action: &Action) -> Option<LinkRow> {
        let kind = &self.vehicle.fittings.get(action.fitting)?.kind;
        let path = format!("{kind}.{}", action.name);
        let mut targets = self.catalogue.targets.iter();
        let target = targets.find(|one| one.ready_for.as_ref() == Some(&path))?;
        self.routine_link(words, &target.id)
    }

    /// The steps of the way to where nothing of `refused` stands any more, as far as there is one, each
    /// with how long it waits: facts that no step changes are left out, and all else may end as it
    /// pleases. Unit: s.
    fn steps_before(
        &self,
        action: &Action,
        refused: &[Refusal],
        now: &Stamp,
    ) -> Result<Vec<(&Action, u32)>> {
        let asked = |goal: &Goal| match &goal.of {
            GoalOf::Clause(number) => refused.contains(&Refusal::Clause(*number)),
            GoalOf::Target(_) | GoalOf::Condition | GoalOf::Runs(_) | GoalOf::Found => {
                goal.any_of.iter().any(|one| refused.contains(&Refusal::Before(*one)))
            }
        };
        let goals = before(&self.vehicle, action).into_iter().filter(asked);
        let goals = goals.map(|goal| Goal { fresh: false, ..goal });
        let told = |goal: &Goal| goal.any_of.iter().all(|one| is_told(&self.vehicle, one));
        let mut goals: Vec<_> = goals.filter(|goal| !told(goal)).collect();
        if goals.is_empty() {
            return Ok(Vec::new());
        }
        goals.push(self.as_it_pleases(&goals));
        let way = self.way_to(goals, now)?;
        let Some(plan) = &way.plan else { return Ok(Vec::new()) };
        let step = |(at, number): (usize, &usize)| {
            let wait_s = plan.wait_s.get(&at).copied().unwrap_or_default();
            Some((self.vehicle.actions.get(*number)?, wait_s))
        };
        Ok(plan.steps.iter().enumerate().filter_map(step).collect())
    }

    /// A step, or how long to wait.
    fn first_row(words: &Words, (action, wait_s): (&Action, u32)) -> ActionRow {
        let row = Self::action_row(words, action);
        if wait_s == 0 {
            return row;
        }
        let time = words.time(i64::from(wait_s).saturating_mul(1_000));
        ActionRow { text: words.say("wait", &[("step", &row.text), ("time", &time)]), ..row }
    }

    /// A goal that lets everything go of which no other speaks.
    fn as_it_pleases(&self, goals: &[Goal]) -> Goal {
        let spoken: BTreeSet<_> = goals.iter().flat_map(Goal::variables).collect();
        let numbered = self.vehicle.variables.iter().enumerate();
        let free = numbered.filter(|(number, _)| !spoken.contains(number));
        Goal {
            of: GoalOf::Found,
            any_of: free
                .map(|(variable, known)| Literal { variable, settings: known.all })
                .collect(),
            fresh: false,
            severity: Severity::Nuisance,
        }
    }

    /// Every reason against an action, each with what removes it: the first of some steps after which
    /// it no longer stands.
    fn against(
        &self,
        words: &Words,
        action: &Action,
        refused: &[Refusal],
        first: &[ActionRow],
        beliefs: &[Settings],
    ) -> Result<Vec<AgainstRow>> {
        let mut removed: Vec<Option<&str>> = vec![None; refused.len()];
        let mut after = beliefs.to_vec();
        for row in first {
            let (_, step) = self.vehicle.action(&row.id)?;
            step.apply(&mut after);
            let left = refusals(&self.vehicle, &after, action);
            let over = refused.iter().zip(&mut removed).filter(|(one, _)| !left.contains(one));
            over.for_each(|(_, by)| *by = by.or(Some(&row.text)));
        }
        let mut rows: Vec<AgainstRow> = Vec::new();
        for (one, by) in refused.iter().zip(removed) {
            let told = matches!(one, Refusal::Before(fact) if is_told(&self.vehicle, fact));
            let removed_text = match by {
                Some(step) => Some(words.say("may.removed", &[("what", step)])),
                None => told.then(|| words.say("may.tell", &[])),
            };
            let text = words.refusal(*one);
            if rows.iter().all(|row| row.text != text) {
                rows.push(AgainstRow { text, removed_text });
            }
        }
        Ok(rows)
    }

    /// The nuisances that a move would lead into, in words.
    fn leads_into(&self, words: &Words, action: &Action, beliefs: &[Settings]) -> Vec<String> {
        let mut after = beliefs.to_vec();
        for effect in action.effects.iter().filter(|_| action.deed == Deed::Move) {
            if let Some(settings) = after.get_mut(effect.variable) {
                *settings = action.outcome(effect, *settings);
            }
        }
        let broken =
            |beliefs: &[Settings], clause: &Clause| standing(beliefs, clause) == Standing::Broken;
        let bothers = self.vehicle.clauses.iter().filter(|clause| {
            clause.severity == Severity::Nuisance
                && broken(&after, clause)
                && !broken(beliefs, clause)
        });
        bothers.map(|clause| words.clause(clause)).collect()
    }

    /// Whether a move would leave everything that it is for as somebody has said it to be. What is only
    /// taken for granted is no reason not to make it.
    fn is_so(&self, action: &Action, beliefs: &[Settings]) -> bool {
        let mut own = action.effects.iter().filter(|effect| !effect.spoilt);
        let said = |variable| {
            let known = self.state.belief(variable).and_then(|belief| belief.known.as_ref());
            known.is_some_and(|known| !matches!(known.how, How::Settled | How::Assumed))
        };
        action.deed == Deed::Move
            && own.all(|effect| {
                beliefs.get(effect.variable) == Some(&Settings::one(effect.to))
                    && said(effect.variable)
            })
    }
}
