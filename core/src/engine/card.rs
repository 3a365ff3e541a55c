//! Cards in words: how to use one fitting here.

mod find;

use super::Engine;
use super::loaded::Loaded;
use super::page::{CardPage, CardRow, LinkRow, SectionRow};
use super::words::{Words, once};
use crate::card::{self, SECTIONS};
use crate::clock::Stamp;
use crate::error::{Error, Result};
use crate::vehicle::{Alert, Fault, Fitting};
pub(super) use find::Finder;

impl Engine {
    /// Every fitting of this vehicle, in walking order.
    ///
    /// # Errors
    /// [`Error::Conflict`] while no vehicle is chosen.
    pub fn cards(&self) -> Result<Vec<CardRow>> {
        let loaded = self.loaded()?;
        let words = loaded.words(&self.language)?;
        let cards = card::all(&loaded.vehicle).into_iter();
        Ok(cards.map(|(number, fitting)| loaded.card_row(&words, number, fitting)).collect())
    }

    /// How to use one fitting, by its id, and what may be done with it now.
    ///
    /// # Errors
    /// [`Error::NotFound`] for a fitting that is not there, [`Error::Conflict`] while no vehicle is
    /// chosen.
    pub fn card(&self, fitting: &str, now: &Stamp) -> Result<CardPage> {
        let loaded = self.at(now)?;
        let words = loaded.words(&self.language)?;
        let cards = card::all(&loaded.vehicle);
        let found = cards.into_iter().find(|(_, known)| known.id == fitting);
        let none = || Error::NotFound { kind: "card", id: fitting.to_owned() };
        let (number, known) = found.ok_or_else(none)?;
        let photo = self.card_photo(fitting)?;
        let page = loaded.card_page(&words, number, known, now);
        let lacks = known.photo.as_ref().filter(|_| photo.is_none());
        let lacks = lacks.map(|file| words.say("card.photo", &[("file", file)]));
        let lines = known.note.lines().map(str::to_owned).chain(lacks);
        let said = lines.collect::<Vec<_>>().join("\n");
        Ok(CardPage { note: said, photo, ..page })
    }
}

impl Loaded {
    fn card_row(&self, words: &Words, number: usize, fitting: &Fitting) -> CardRow {
        let zones = card::zones(&self.vehicle, number);
        let titles: Vec<_> = zones.iter().map(|zone| words.zone(*zone)).collect();
        CardRow {
            id: fitting.id.clone(),
            kind: fitting.kind.clone(),
            title: Words::sentence(words.title(fitting)),
            zone_id: zones.first().map_or_else(String::new, |zone| words.zone_id(*zone)),
            zone_title: titles.join("; "),
        }
    }

    fn card_page(&self, words: &Words, number: usize, fitting: &Fitting, now: &Stamp) -> CardPage {
        let section = |id: &str| SectionRow {
            id: id.to_owned(),
            title: words.say(&format!("card.{id}"), &[]),
            lines: words.lines(number, &format!("card.{id}")),
        };
        let alerts = card::alerts(&self.vehicle, number);
        let faults = card::faults(&self.vehicle, number);
        let meanings = card::alerts(&self.vehicle, number).flat_map(|alert| &alert.meanings);
        // What it can never mean here leads nowhere.
        let meanings = meanings.filter(|meaning| !meaning.ways.is_empty());
        let routines = once(meanings.filter_map(|meaning| meaning.routine.clone()));
        let steps = card::steps(&self.vehicle, number);
        let beliefs = self.state.settings(&self.vehicle, now);
        CardPage {
            card: self.card_row(words, number, fitting),
            note: String::new(),
            photo: None,
            sections: SECTIONS.map(section).into(),
            alerts: alerts.map(|alert| alert_link(words, alert)).collect(),
            faults: faults.map(|fault| fault_link(words, fault)).collect(),
            routines: routines.iter().filter_map(|key| self.routine_link(words, key)).collect(),
            steps: steps.map(|action| self.move_row(words, action, &beliefs)).collect(),
        }
    }
}

/// The cards of fittings.
pub(super) fn card_links(words: &Words, fittings: &[usize]) -> Vec<LinkRow> {
    let known = fittings.iter().filter_map(|number| words.vehicle.fittings.get(*number));
    let link = |fitting: &Fitting| LinkRow {
        id: fitting.id.clone(),
        title: Words::sentence(words.title(fitting)),
    };
    known.map(link).collect()
}

pub(super) fn alert_link(words: &Words, alert: &Alert) -> LinkRow {
    let said = words.fitting(alert.fitting, &format!("{}.title", alert.words));
    LinkRow { id: alert.id.clone(), title: Words::sentence(&said) }
}

pub(super) fn fault_link(words: &Words, fault: &Fault) -> LinkRow {
    LinkRow { id: fault.id.clone(), title: words.fault(fault, "title") }
}
