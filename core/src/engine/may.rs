//! May this be done now? Asked of any move or look, whether a plan has it or not.

use super::Engine;
use super::loaded::Loaded;
use super::page::{MayPage, MoveRow, StepKind};
use super::words::Words;
use crate::catalogue::Severity;
use crate::clock::Stamp;
use crate::error::Result;
use crate::interlock::{Standing, refusals, standing};
use crate::state::How;
use crate::vehicle::{Action, Clause, Deed, Settings};

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
        let against = loaded.objections(&words, action, &beliefs);
        let answer = match (against.is_empty(), loaded.is_so(action, &beliefs)) {
            (false, _) => "not_now",
            (true, true) => "is_so",
            (true, false) if !leads_into.is_empty() => "mind",
            (true, false) => "now",
        };
        let answer = words.say(&format!("may.{answer}"), &[]);
        Ok(MayPage { step: row, refused: !against.is_empty(), answer, against })
    }

    /// Every reason against a move or look now, in words; none where it may be taken.
    ///
    /// # Errors
    /// As [`Engine::may`].
    pub fn refusals(&self, step: &str, now: &Stamp) -> Result<Vec<String>> {
        Ok(self.may(step, now)?.against)
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
