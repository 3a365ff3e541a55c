//! Alerts in words: what shows red, what it means as things stand, and what to do.

use super::Engine;
use super::card::{card_links, fault_link};
use super::loaded::Loaded;
use super::page::{AlertPage, AlertRow, LinkRow, MeaningRow, ReportRow};
use super::words::Words;
use crate::alert::{Shown, meanings, shown};
use crate::card;
use crate::clock::Stamp;
use crate::error::{Error, Result};
use crate::interlock::{Goal, ways_out};
use crate::vehicle::{Action, Alert, Deed, Fault, Literal, Meaning, Settings};

impl Engine {
    /// Everything that this vehicle's fittings can show: what shows and is not as it should be
    /// first, as far as is known.
    ///
    /// # Errors
    /// [`Error::Conflict`] while no vehicle is chosen.
    pub fn alerts(&self, now: &Stamp) -> Result<Vec<AlertRow>> {
        let loaded = self.at(now)?;
        let words = loaded.words(&self.language)?;
        let beliefs = loaded.state.settings(&loaded.vehicle, now);
        let alerts = loaded.vehicle.alerts.iter();
        let mut rows: Vec<_> =
            alerts.map(|alert| loaded.alert_row(&words, &Known::of(alert, &beliefs))).collect();
        rows.sort_by_key(|row| row.shown != Shown::Yes || row.normal);
        Ok(rows)
    }

    /// What one alert means in the vehicle's present state, whether it shows or not.
    ///
    /// # Errors
    /// [`Error::NotFound`] for an unknown alert, [`Error::Conflict`] while no vehicle is chosen.
    pub fn alert(&self, id: &str, now: &Stamp) -> Result<AlertPage> {
        let loaded = self.at(now)?;
        let words = loaded.words(&self.language)?;
        let alert = loaded.vehicle.alerts.iter().find(|alert| alert.id == id);
        let alert = alert.ok_or_else(|| Error::NotFound { kind: "alert", id: id.to_owned() })?;
        let beliefs = loaded.state.settings(&loaded.vehicle, now);
        Ok(loaded.alert_page(&words, &Known::of(alert, &beliefs), &beliefs))
    }
}

/// What is known of an alert: whether it shows, what it means, and whether that is certain.
struct Known<'a> {
    alert: &'a Alert,
    shown: Shown,
    meanings: Vec<(&'a Meaning, bool)>,
}

impl<'a> Known<'a> {
    fn of(alert: &'a Alert, beliefs: &[Settings]) -> Self {
        Self { alert, shown: shown(alert, beliefs), meanings: meanings(alert, beliefs) }
    }
}

impl Loaded {
    fn alert_row(&self, words: &Words, known: &Known) -> AlertRow {
        let alert = known.alert;
        let main = known.meanings.first().map(|(meaning, _)| meaning);
        let zone = card::zones(&self.vehicle, alert.fitting).first().copied().unwrap_or_default();
        let say = |rest: &str| words.fitting(alert.fitting, &format!("{}.{rest}", alert.words));
        AlertRow {
            id: alert.id.clone(),
            title: Words::sentence(&say("title")),
            sign: say("sign"),
            symbol: alert.symbol,
            seen: alert.seen,
            zone_id: words.zone_id(zone),
            zone_title: words.zone(zone),
            shown: known.shown,
            normal: main.is_some_and(|meaning| meaning.normal),
            means: main.map_or_else(String::new, |one| say(&format!("means.{}", one.id))),
            report: alert.report.and_then(|literal| self.report_row(words, &literal)),
        }
    }

    fn alert_page(&self, words: &Words, known: &Known, beliefs: &[Settings]) -> AlertPage {
        let alert = known.alert;
        let lines = |rest: &str| words.lines(alert.fitting, &format!("{}.{rest}", alert.words));
        let row = |(meaning, certain): &(&Meaning, bool)| {
            self.meaning_row(words, alert, meaning, *certain, beliefs)
        };
        let number = self.vehicle.alerts.iter().position(|one| one.id == alert.id);
        let begins = |fault: &&Fault| number.is_some_and(|number| fault.alerts.contains(&number));
        let faults = self.vehicle.faults.iter().filter(begins);
        AlertPage {
            alert: self.alert_row(words, known),
            meanings: known.meanings.iter().map(row).collect(),
            cleared: self.cleared(words, known, beliefs),
            help: lines("help"),
            cautions: lines("caution"),
            cards: card_links(words, &alert.cards),
            faults: faults.map(|fault| fault_link(words, fault)).collect(),
            source: alert.source.clone(),
        }
    }

    /// That a lamp is out again: what it counts as until somebody says that it is lit. An emergency
    /// has its own page, and only that page ends it.
    fn cleared(&self, words: &Words, known: &Known, beliefs: &[Settings]) -> Option<ReportRow> {
        let report = known.alert.report.filter(|_| known.shown == Shown::Yes)?;
        let goals = ways_out(&self.vehicle, beliefs);
        let told = |goal: &Goal| goal.any_of.iter().any(|one| one.variable == report.variable);
        if goals.iter().any(|goal| told(goal) && self.is_emergency(goal, beliefs)) {
            return None;
        }
        let settings = self.vehicle.variables.get(report.variable)?.assume;
        self.report_row(words, &Literal { settings, ..report })
    }

    fn meaning_row(
        &self,
        words: &Words,
        alert: &Alert,
        meaning: &Meaning,
        certain: bool,
        beliefs: &[Settings],
    ) -> MeaningRow {
        let lines = |rest: &str| words.lines(alert.fitting, &format!("{}.{rest}", alert.words));
        let own = |rest: &str| {
            let special = lines(&format!("{rest}_when.{}", meaning.id));
            if special.is_empty() { lines(rest) } else { special }
        };
        let actions = meaning.steps.iter().filter_map(|number| self.vehicle.actions.get(*number));
        let steps = actions.filter(|action| changes(action, beliefs));
        let finds = meaning.finds.iter().filter_map(|literal| self.report_row(words, literal));
        MeaningRow {
            id: meaning.id.clone(),
            text: lines(&format!("means.{}", meaning.id)).join(" "),
            certain,
            normal: meaning.normal,
            do_now: lines(&format!("do.{}", meaning.id)),
            stop_now: own("stop"),
            trip: own("trip").join(" "),
            routine: meaning.routine.iter().find_map(|key| self.routine_link(words, key)),
            steps: steps.map(|action| Self::action_row(words, action)).collect(),
            finds: finds.collect(),
        }
    }

    /// A routine that this vehicle is offered, with the parts of it that it has.
    pub(super) fn routine_link(&self, words: &Words, key: &str) -> Option<LinkRow> {
        let target = self.catalogue.target(key).ok()?;
        let known = self.parts(words.text, target).ok()?;
        let asked = key.split_once('/').map(|(_, parts)| parts.split('+'));
        let mut asked = asked.into_iter().flatten();
        let has = asked.all(|part| known.iter().any(|row| row.id == part));
        let offered = has && self.lacking(target).is_none();
        offered.then(|| LinkRow { id: key.to_owned(), title: words.aim(key) })
    }

    /// Something that can be reported as it is.
    fn report_row(&self, words: &Words, literal: &Literal) -> Option<ReportRow> {
        let variable = self.vehicle.variables.get(literal.variable)?;
        Some(ReportRow {
            variable: variable.id.clone(),
            setting: variable.name_of(literal.settings.single()?)?.to_owned(),
            text: Words::sentence(&words.literal(literal)),
        })
    }
}

/// Whether a move would change anything that is believed; a look always may.
pub(super) fn changes(action: &Action, beliefs: &[Settings]) -> bool {
    action.deed == Deed::Look
        || action.effects.iter().any(|effect| {
            let believed = beliefs.get(effect.variable).copied();
            !effect.spoilt && believed != Some(Settings::one(effect.to))
        })
}
