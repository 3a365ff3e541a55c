//! Everything that this vehicle has: what can be done and what can be said, asked for or not.

use super::loaded::Loaded;
use super::page::{ActionRow, StepKind, ThingRow};
use super::words::Words;
use crate::clock::Stamp;
use crate::error::Result;
use crate::vehicle::{Action, Deed, Settings, Variable};

impl Loaded {
    /// Every move and look, in walking order.
    pub(super) fn actions(&self, language: &str) -> Result<Vec<ActionRow>> {
        let words = self.words(language)?;
        let actions = self.vehicle.actions.iter();
        let mut actions: Vec<_> = actions.filter(|action| action.deed != Deed::Wait).collect();
        actions.sort_by_key(|action| action.zone);
        Ok(actions.into_iter().map(|action| Self::action_row(&words, action)).collect())
    }

    pub(super) fn action_row(words: &Words, action: &Action) -> ActionRow {
        ActionRow {
            id: action.id.clone(),
            kind: StepKind::of(action.deed),
            text: words.step(action),
            zone_id: words.zone_id(action.zone),
            zone_title: words.zone(action.zone),
            hazard: action.hazard,
        }
    }

    /// Everything that can be reported, in walking order, and what is believed of it.
    pub(super) fn things(&self, language: &str, now: &Stamp) -> Result<Vec<ThingRow>> {
        let words = self.words(language)?;
        let variables = self.vehicle.variables.iter().enumerate();
        let mut things: Vec<_> = variables.filter(|(number, _)| !self.is_age(*number)).collect();
        things.sort_by_key(|(_, variable)| variable.zone);
        Ok(things.into_iter().map(|(number, one)| self.thing(&words, number, one, now)).collect())
    }

    fn thing(&self, words: &Words, number: usize, variable: &Variable, now: &Stamp) -> ThingRow {
        let belief = self.state.belief(number);
        let settings = belief.map_or(Settings::NONE, |belief| belief.settings);
        let known = belief.and_then(|belief| belief.known.as_ref());
        ThingRow {
            variable: variable.id.clone(),
            title: Words::sentence(&words.label(number)),
            zone_id: words.zone_id(variable.zone),
            zone_title: words.zone(variable.zone),
            choices: self.choices(words, number, Settings::NONE),
            believed: variable.names_of(settings),
            current_text: Words::sentence(&words.settings(number, settings)),
            age_text: known.map(|known| words.known(known, now)),
        }
    }
}
