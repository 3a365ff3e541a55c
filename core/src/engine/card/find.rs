//! Search by an owner's words, in words: cards, alerts, faults, routines and questions of this vehicle.

use std::sync::PoisonError;

use super::super::Engine;
use super::super::emergency::PERILS;
use super::super::loaded::Loaded;
use super::super::page::{HitKind, HitRow};
use super::super::words::Words;
use crate::card::search::{Hit, Index, Page, Part, Sort, Speech};
use crate::card::{self, SECTIONS};
use crate::catalogue::Severity;
use crate::error::Result;
use crate::vehicle::{Alert, Fault, Fitting, Literal};

/// An alarm of life among so many hits may be what is meant.
const NEAR: usize = 3;

/// Lines of one page, with what each is.
type Lines = Vec<(Part, String)>;

/// Everything of one vehicle that can be found.
#[derive(Debug)]
pub(in super::super) struct Finder {
    index: Index,
    pages: Vec<(HitRow, Lines)>,
}

impl Engine {
    /// The cards, alerts, faults, routines and questions that an owner's own words may mean, the likeliest
    /// first, but for an alarm of life; from the first letter on, and in spite of typing errors.
    /// Nothing that is typed is an error.
    ///
    /// # Errors
    /// [`crate::Error::Conflict`] while no vehicle is chosen.
    pub fn find(&self, asked: &str) -> Result<Vec<HitRow>> {
        let loaded = self.loaded()?;
        let mut kept = loaded.finder.lock().unwrap_or_else(PoisonError::into_inner);
        let finder = match kept.take() {
            Some(finder) => finder,
            None => loaded.finder(&loaded.words(&self.language)?)?,
        };
        let hits = finder.index.find(asked)?;
        let row = |hit: &Hit| Some((finder.row(hit)?, hit.named));
        let mut rows: Vec<_> = hits.iter().filter_map(row).collect();
        *kept = Some(finder);
        loaded.life_first(&mut rows);
        Ok(rows.into_iter().map(|(row, _)| row).collect())
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
    /// An alarm of life that may be meant comes before the card of the same alarm and before what
    /// does not work; one that was named, before all but other alerts.
    fn life_first(&self, rows: &mut [(HitRow, bool)]) {
        let of_life = |(_, (hit, _)): &(usize, &(HitRow, bool))| hit.emergency;
        let named = rows.iter().enumerate().filter(of_life).find(|(_, (_, named))| *named);
        let near = rows.iter().enumerate().take(NEAR).find(of_life);
        let Some((place, (life, named))) = named.or(near) else { return };
        let alert = self.vehicle.alerts.iter().find(|alert| alert.id == life.id);
        let own = alert.and_then(|alert| self.vehicle.fittings.get(alert.fitting));
        let yields = |(hit, _): &(HitRow, bool)| match hit.kind {
            HitKind::Card => *named || own.is_some_and(|own| own.id == hit.id),
            HitKind::Routine | HitKind::Question => *named,
            HitKind::Fault => true,
            HitKind::Alert | HitKind::Emergency => false,
        };
        if rows.iter().take(place).all(yields)
            && let Some(before) = rows.get_mut(..=place)
        {
            before.rotate_right(1);
        }
    }

    /// Whether the report of an alert is a danger by itself: an alarm that sounds.
    fn is_of_life(&self, alert: &Alert) -> bool {
        alert.report.is_some_and(|report| {
            self.vehicle.clauses.iter().any(|clause| {
                let own = |one: &Literal| one.variable == report.variable;
                let met = |one: &Literal| own(one) && one.settings.meets(report.settings);
                clause.severity == Severity::Danger && clause.literals.iter().all(met)
            })
        })
    }

    /// Reads everything that this vehicle has words about.
    fn finder(&self, words: &Words) -> Result<Finder> {
        let cards = card::all(&self.vehicle).into_iter();
        let cards = cards.map(|(number, fitting)| self.card_found(words, number, fitting));
        let alerts = self.vehicle.alerts.iter().map(|alert| {
            let (row, lines) = alert_found(words, alert);
            (HitRow { emergency: self.is_of_life(alert), ..row }, lines)
        });
        let faults = self.vehicle.faults.iter().map(|fault| self.fault_found(words, fault));
        let targets = self.catalogue.targets.iter().filter(|one| self.lacking(one).is_none());
        let routines = targets.map(|target| routine_found(words, &target.id));
        let questions = self.questions().map(|id| question_found(words, id));
        let perils = PERILS.iter().map(|peril| peril_found(words, peril));
        let pages = cards.chain(alerts).chain(faults).chain(routines).chain(questions);
        let pages: Vec<_> = pages.chain(perils).collect();
        let listed = pages.iter().map(|(row, lines)| Page { sort: sort(row), lines });
        let index = Index::new(&listed.collect::<Vec<_>>(), Speech::of(words.text))?;
        Ok(Finder { index, pages })
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

    fn fault_found(&self, words: &Words, fault: &Fault) -> (HitRow, Lines) {
        let title = words.fault(fault, "title");
        let zones = card::zones(&self.vehicle, fault.fitting);
        let about = zones.first().map_or_else(String::new, |zone| words.zone(*zone));
        let mut lines = vec![(Part::Title, title.clone())];
        lines.extend(named(&words.fault_lines(fault, "words").join("\n")));
        // What its fitting is called tells which of several it is.
        let kind = self.vehicle.fittings.get(fault.fitting).map_or("", |one| one.kind.as_str());
        let called = own(words, &format!("kind.{kind}.words")).into_iter();
        let called = called.map(|(_, line)| line);
        let called = called.chain([words.text.say(&format!("kind.{kind}.title"), &[])]);
        lines.extend(called.map(|line| (Part::Sign, line)));
        let causes = fault.causes.iter().flat_map(|cause| {
            let say = |part| words.fault_lines(fault, &format!("{part}.{}", cause.id));
            [say("cause"), say("remedy")].concat()
        });
        lines.extend(causes.map(|line| (Part::Body, line)));
        (hit(HitKind::Fault, fault.id.clone(), title, about), lines)
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

/// Asked for by what owners call it: its title alone may be the name of a card.
fn question_found(words: &Words, id: &str) -> (HitRow, Lines) {
    let say = |it: &str| words.text.say(&format!("reckon.{id}.{it}"), &[]);
    let (title, about) = (say("title"), say("about"));
    let mut lines = own(words, &format!("reckon.{id}.words"));
    lines.push((Part::Sign, title.clone()));
    (hit(HitKind::Question, id.to_owned(), title, about), lines)
}

/// What threatens people, whether an alarm for it is fitted or not.
fn peril_found(words: &Words, peril: &str) -> (HitRow, Lines) {
    let key = |it: &str| format!("say.emergency.{peril}.{it}");
    let say = |it: &str| words.text.say(&key(it), &[]);
    let title = say("title");
    let mut lines = vec![(Part::Title, title.clone())];
    lines.extend(own(words, &key("words")));
    lines.extend(say("do").lines().map(|line| (Part::Body, line.to_owned())));
    let row = hit(HitKind::Emergency, peril.to_owned(), title, String::new());
    (HitRow { emergency: true, ..row }, lines)
}

/// What an owner may call it: one thing between commas.
fn own(words: &Words, key: &str) -> Lines {
    named(words.text.get(key).unwrap_or_default())
}

fn named(said: &str) -> Lines {
    let said = said.split([',', '\n']).map(str::trim);
    said.filter(|one| !one.is_empty()).map(|one| (Part::Own, one.to_owned())).collect()
}

fn sort(row: &HitRow) -> Sort {
    match row.kind {
        HitKind::Fault => Sort::Amiss,
        _ if row.emergency => Sort::Life,
        HitKind::Card
        | HitKind::Alert
        | HitKind::Routine
        | HitKind::Question
        | HitKind::Emergency => Sort::Plain,
    }
}

fn hit(kind: HitKind, id: String, title: String, about: String) -> HitRow {
    HitRow { kind, id, title, about, line: String::new(), emergency: false }
}
