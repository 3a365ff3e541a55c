//! What is forbidden or allowed in the country and aboard the carrier that were told.
//!
//! The log holds only which they are; what their rows say is worked out at each moment, so that a
//! row lapses when it turns a year old and a corrected one counts at once.

use super::{Belief, Entry, Fact, How, Known, State};
use crate::catalogue::{Says, local};
use crate::clock::Stamp;
use crate::vehicle::{Settings, Vehicle};

/// What a fact of the country is called.
pub const COUNTRY: &str = "local.country";
/// What a fact of the carrier is called.
pub const CARRIER: &str = "local.carrier";

impl State {
    /// Takes the country or the carrier, where the fact is of one.
    pub(super) fn enter(&mut self, entry: &Entry, fact: &Fact) {
        let Some(file) = fact.settings.first() else { return };
        if ![COUNTRY, CARRIER].contains(&fact.variable.as_str()) {
            return;
        }
        let (at, since) = (entry.said.at.clone(), entry.said.at.clone());
        let (how, seq) = (How::Told, entry.seq);
        let known = Known { how, at, seq, since, began: false, said: None, settled: None };
        self.local.insert(fact.variable.clone(), (file.clone(), known));
    }

    /// What the rows say at `now`; what somebody told of a rule itself since then stands.
    pub(super) fn apply_local_rules(&mut self, vehicle: &Vehicle, now: &Stamp) {
        let told = self.local.values().map(|(_, known)| known).max_by_key(|known| known.seq);
        let Some(told) = told.cloned() else { return };
        for (number, rule) in vehicle.local_rules() {
            let rows = |file: &String| vehicle.local.get(file).map_or(&[][..], Vec::as_slice);
            let files = self.local.values().map(|(file, _)| rows(file));
            let wanted = match local::strictest(files, rule, now.utc_ms) {
                Says::Ask => None,
                Says::Allowed => Some("allowed"),
                Says::Forbidden => Some("forbidden"),
            };
            let all = vehicle.variables.get(number).map_or(Settings::NONE, |one| one.all);
            let place = wanted.and_then(|name| vehicle.setting(number, name).ok());
            let settings = place.map_or(all, Settings::one);
            let is_older = |belief: &&mut Belief| {
                belief.known.as_ref().is_none_or(|known| known.seq <= told.seq)
            };
            if let Some(belief) = self.beliefs.get_mut(number).filter(is_older) {
                *belief = Belief { settings, known: Some(told.clone()) };
            }
        }
    }
}
