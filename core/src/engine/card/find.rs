//! Search by an owner's words, in words: cards, alerts and routines of this vehicle.

use std::sync::PoisonError;

use super::super::Engine;
use super::super::loaded::Loaded;
use super::super::page::{HitKind, HitRow};
use super::super::words::Words;
use crate::card::search::{Hit, Index, Part, Speech};
use crate::card::{self, SECTIONS};
use crate::catalogue::Severity;
use crate::error::Result;
use crate::units::Units;
use crate::vehicle::{Alert, Fitting, Literal};

/// Lines of one page, with what each is.
type Lines = Vec<(Part, String)>;

/// Everything of one vehicle that can be found.
#[derive(Debug)]
pub(in super::super) struct Finder {
    index: Index,
    pages: Vec<(HitRow, Lines)>,
    /// How its quantities are written.
    units: Units,
}

impl Engine {
    /// The cards, alerts and routines that an owner's own words may mean, the likeliest first; from
    /// the first letter on, and in spite of typing errors. Nothing that is typed is an error.
    ///
    /// # Errors
    /// [`crate::Error::Conflict`] while no vehicle is chosen.
    pub fn find(&self, asked: &str) -> Result<Vec<HitRow>> {
        let loaded = self.loaded()?;
        let mut kept = loaded.finder.lock().unwrap_or_else(PoisonError::into_inner);
        let finder = match kept.take().filter(|finder| finder.units == self.units) {
            Some(finder) => finder,
            None => loaded.finder(&loaded.words(&self.language)?)?,
        };
        let hits = finder.index.find(asked)?;
        let mut rows: Vec<_> = hits.iter().filter_map(|hit| finder.row(hit)).collect();
        *kept = Some(finder);
        // An alarm that sounds comes before the card of the same alarm.
        if let [first, second, ..] = rows.as_mut_slice()
            && loaded.is_of_life(second, &first.id)
        {
            std::mem::swap(first, second);
        }
        Ok(rows)
    }
}

impl Finder {
    fn row(&self, hit: &Hit) -> Option<HitRow> {
        let (row, lines) = self.pages.get(hit.page)?;
        let (part, line) = lines.get(hit.line)?;
        let said = *part == Part::Body && *line != row.about;
        let line = if said { line.clone() } else { String::new() };
        Some(HitRow { line, ..row.clone() })
    }
}

impl Loaded {
    /// Whether a hit is an alert of a fitting whose report alone is a danger: an alarm that sounds.
    fn is_of_life(&self, hit: &HitRow, fitting: &str) -> bool {
        let alerts = self.vehicle.alerts.iter().filter(|alert| alert.id == hit.id);
        let own = |alert: &&Alert| {
            self.vehicle.fittings.get(alert.fitting).is_some_and(|one| one.id == fitting)
        };
        let mut reports = alerts.filter(own).filter_map(|alert| alert.report);
        let is_danger = |report: Literal| {
            self.vehicle.clauses.iter().any(|clause| {
                let own = |one: &Literal| one.variable == report.variable;
                clause.severity == Severity::Danger
                    && clause
                        .literals
                        .iter()
                        .all(|one| own(one) && one.settings.meets(report.settings))
            })
        };
        hit.kind == HitKind::Alert && reports.any(is_danger)
    }

    /// Reads everything that this vehicle has words about.
    fn finder(&self, words: &Words) -> Result<Finder> {
        let cards = card::all(&self.vehicle).into_iter();
        let cards = cards.map(|(number, fitting)| self.card_found(words, number, fitting));
        let alerts = self.vehicle.alerts.iter().map(|alert| alert_found(words, alert));
        let targets = self.catalogue.targets.iter().filter(|one| self.lacking(one).is_none());
        let routines = targets.map(|target| routine_found(words, &target.id));
        let pages: Vec<_> = cards.chain(alerts).chain(routines).collect();
        let lines: Vec<_> = pages.iter().map(|(_, lines)| lines.as_slice()).collect();
        let index = Index::new(&lines, &Speech::of(words.text))?;
        Ok(Finder { index, pages, units: self.units })
    }

    fn card_found(&self, words: &Words, number: usize, fitting: &Fitting) -> (HitRow, Lines) {
        let row = self.card_row(words, number, fitting);
        let kind = words.text.say(&format!("kind.{}.title", fitting.kind), &[]);
        let mut lines = vec![(Part::Title, row.title.clone()), (Part::Title, kind)];
        lines.extend(own(words, &format!("kind.{}.words", fitting.kind)));
        let signs = fitting.note.lines().map(str::to_owned);
        lines.extend(signs.chain([row.zone_title.clone()]).map(|line| (Part::Sign, line)));
        let said = SECTIONS.iter().flat_map(|id| words.lines(number, &format!("card.{id}")));
        let steps = card::steps(&self.vehicle, number).map(|action| words.step(action));
        lines.extend(said.chain(steps).map(|line| (Part::Body, line)));
        (hit(HitKind::Card, row.id, row.title, row.zone_title), lines)
    }
}

fn alert_found(words: &Words, alert: &Alert) -> (HitRow, Lines) {
    let say = |rest: &str| words.fitting(alert.fitting, &format!("{}.{rest}", alert.words));
    let title = Words::sentence(&say("title"));
    let kind = words.vehicle.fittings.get(alert.fitting).map(|one| one.kind.as_str());
    let key = format!("kind.{}.{}.words", kind.unwrap_or_default(), alert.words);
    let mut lines = vec![(Part::Title, title.clone())];
    lines.extend(own(words, &key));
    lines.push((Part::Sign, say("sign")));
    for meaning in &alert.meanings {
        let said = ["means", "do"].into_iter().flat_map(|part| {
            words.lines(alert.fitting, &format!("{}.{part}.{}", alert.words, meaning.id))
        });
        lines.extend(said.map(|line| (Part::Body, line)));
    }
    (hit(HitKind::Alert, alert.id.clone(), title, say("sign")), lines)
}

fn routine_found(words: &Words, target: &str) -> (HitRow, Lines) {
    let title = words.aim(target);
    let mut lines = vec![(Part::Title, title.clone())];
    lines.extend(own(words, &format!("target.{target}.words")));
    for (part, below) in [(Part::Sign, "part."), (Part::Body, "goal.")] {
        let said = words.text.below(&format!("target.{target}.{below}"));
        lines.extend(said.map(|line| (part, line.to_owned())));
    }
    (hit(HitKind::Routine, target.to_owned(), title, String::new()), lines)
}

/// What an owner may call it: one thing between commas.
fn own(words: &Words, key: &str) -> Vec<(Part, String)> {
    let said = words.text.get(key).unwrap_or_default().split([',', '\n']).map(str::trim);
    said.filter(|one| !one.is_empty()).map(|one| (Part::Own, one.to_owned())).collect()
}

fn hit(kind: HitKind, id: String, title: String, about: String) -> HitRow {
    HitRow { kind, id, title, about, line: String::new() }
}
