//! Laws of what settles with nobody there, on vehicles and logs drawn at random.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::arithmetic_side_effects,
    clippy::print_stdout,
    reason = "a test may fail loudly"
)]

use std::cell::Cell;

use stowfast_core::catalogue::Severity;
use stowfast_core::clock::{Monotonic, Stamp};
use stowfast_core::interlock::{Standing, standing};
use stowfast_core::state::{Act, Entry, Fact, How, NewEntry, State};
use stowfast_core::vehicle::{Settings, Vehicle};
use stowfast_tests::cases::{self, Case, Kinds};
use stowfast_tests::choices::Choices;
use stowfast_tests::draw::{Effort, law};
use stowfast_tests::packs::Size;

const H: i64 = 3_600_000;
const SIZE: Size = Size { least: 2, most: 8, own_seconds: false };

fn at(ms: i64, boot: &str) -> Stamp {
    Stamp { utc_ms: ms, monotonic: Some(Monotonic { ms, boot: boot.to_owned() }) }
}

fn entry(seq: i64, at: Stamp, act: Act, facts: Vec<Fact>) -> Entry {
    Entry {
        seq,
        said: NewEntry {
            at,
            run: None,
            act,
            facts,
            reading: None,
            finding: None,
            figure: None,
            note: String::new(),
        },
    }
}

fn fact(vehicle: &Vehicle, variable: usize, settings: Settings, how: How) -> Fact {
    let known = &vehicle.variables[variable];
    Fact { variable: known.id.clone(), settings: known.names_of(settings), how }
}

/// What was said, of what settles and of what that hangs on, and two moments after it.
struct Story {
    case: Case,
    log: Vec<Entry>,
    said: State,
    sooner_ms: i64,
    later_ms: i64,
}

impl std::fmt::Debug for Story {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{:?}\n{:?}\n{} {}", self.case, self.log, self.sooner_ms, self.later_ms)
    }
}

impl Story {
    fn drawn(list: &[u16]) -> Option<Self> {
        let case = Case::drawn(list, Kinds::BuiltIn, SIZE).ok()?;
        let more: Vec<_> = list.iter().rev().map(|number| number.rotate_left(5)).collect();
        let choices = &mut Choices::new(&more);
        let vehicle = &case.vehicle;
        let settling = vehicle.settlings.iter();
        let on = settling.flat_map(|one| one.during.iter().map(|it| it.variable));
        let about: Vec<_> = on.chain(vehicle.settlings.iter().map(|one| one.variable)).collect();
        if about.is_empty() {
            return None;
        }
        let mut at_ms = 0;
        let log = (1..=choices.between(1, 10)).map(|number| {
            at_ms += i64::try_from(choices.below(20)).unwrap() * H / 2;
            let variable = *choices.one_of(&about).unwrap();
            let settings = cases::belief(choices, vehicle, variable);
            let how = *choices.one_of(&[How::Told, How::Looked, How::Done]).unwrap();
            let facts = vec![fact(vehicle, variable, settings, how)];
            entry(i64::try_from(number).unwrap(), at(at_ms, "a"), Act::Report, facts)
        });
        let log: Vec<_> = log.collect();
        let said = State::fold(vehicle, &case.catalogue, &log);
        let mut wait = || i64::try_from(choices.below(60) * choices.between(1, 60)).unwrap() * H;
        let sooner_ms = at_ms + wait();
        let later_ms = sooner_ms + wait();
        Some(Self { case, log, said, sooner_ms, later_ms })
    }

    fn at(&self, now: &Stamp) -> State {
        self.said.at(&self.case.vehicle, now)
    }

    /// Whether a settling that has a latest speaks of this variable.
    fn ends(&self, variable: usize) -> bool {
        let mut all = self.case.vehicle.settlings.iter();
        all.any(|one| one.variable == variable && one.latest_ms.is_some())
    }
}

fn hold(what: impl Fn(&Story) -> Result<bool, String>) {
    let telling = Cell::new(0_u32);
    let held = law(Effort { cases: 300, numbers_max: 400 }, Story::drawn, |story| {
        let told = what(story)?;
        telling.set(telling.get() + u32::from(told));
        Ok(())
    });
    held.unwrap_or_else(|why| panic!("{why}"));
    println!("{} cases told something", telling.get());
    assert!(telling.get() > 30, "only {}", telling.get());
}

/// Before any latest, settling only adds, and the more the later it is.
#[test]
fn settling_only_adds_and_more_as_time_goes_by() {
    hold(|story| {
        let (sooner, later) =
            (story.at(&at(story.sooner_ms, "a")), story.at(&at(story.later_ms, "a")));
        let mut grew = false;
        for (number, said) in story.said.beliefs.iter().enumerate() {
            let sets = [said, &sooner.beliefs[number], &later.beliefs[number]];
            let sets = sets.map(|one| one.settings);
            if !story.ends(number) && sets.windows(2).any(|two| !two[0].is_within(two[1])) {
                return Err(format!("{}: {sets:?}", story.case.vehicle.variables[number].id));
            }
            grew |= sets[0] != sets[2];
        }
        Ok(grew)
    });
}

/// What has settled never makes a danger clause off.
#[test]
fn what_has_settled_never_makes_a_danger_clause_off() {
    hold(|story| {
        let now = at(story.later_ms, "a");
        let settled = story.at(&now);
        let sets = |state: &State| state.beliefs.iter().map(|one| one.settings).collect::<Vec<_>>();
        let (said, settled) = (sets(&story.said), sets(&settled));
        let vehicle = &story.case.vehicle;
        let danger = vehicle.clauses.iter().filter(|one| one.severity == Severity::Danger);
        for clause in danger {
            let off = |beliefs: &[Settings]| standing(beliefs, clause) == Standing::Off;
            if off(&settled) && !off(&said) {
                return Err(format!("{} is off by itself", clause.id));
            }
        }
        Ok(said != settled)
    });
}

/// A look ends it, and until then nothing that has settled counts as looked.
#[test]
fn a_look_ends_it_and_nothing_settled_counts_as_looked() {
    hold(|story| {
        let (vehicle, now) = (&story.case.vehicle, at(story.later_ms, "a"));
        let settled = story.at(&now);
        let mut any = false;
        for (number, belief) in settled.beliefs.iter().enumerate() {
            if belief.settings == belief.said() {
                continue;
            }
            any = true;
            if belief.known.as_ref().is_none_or(|known| known.how != How::Settled) {
                return Err(format!(
                    "{} is not said to have settled",
                    vehicle.variables[number].id
                ));
            }
            let first = Settings::one(belief.settings.first());
            let look = fact(vehicle, number, first, How::Looked);
            let step = format!("{}.look", vehicle.variables[number].id);
            let mut log = story.log.clone();
            log.push(entry(1_000, now.clone(), Act::Look { step }, vec![look]));
            let seen = State::fold(vehicle, &story.case.catalogue, &log);
            let seen = &seen.at(vehicle, &at(story.later_ms + 1, "a")).beliefs[number];
            let at_once =
                vehicle.settlings.iter().any(|one| one.variable == number && one.after_ms <= 1);
            if !at_once && (seen.settings != first || seen.said() != first) {
                return Err(format!("{}: {seen:?}", vehicle.variables[number].id));
            }
        }
        Ok(any)
    });
}

/// The log told again gives the same; so does a log in which something was noted in between.
#[test]
fn it_does_not_matter_how_often_it_is_worked_out() {
    hold(|story| {
        let (vehicle, catalogue) = (&story.case.vehicle, &story.case.catalogue);
        let now = at(story.later_ms, "a");
        let plain = story.at(&now);
        let again = State::fold(vehicle, catalogue, &story.log).at(vehicle, &now);
        let mut log = story.log.clone();
        log.push(entry(1_000, at(story.sooner_ms, "a"), Act::Note, Vec::new()));
        let noted = State::fold(vehicle, catalogue, &log).at(vehicle, &now);
        if plain != again || plain.beliefs != noted.beliefs {
            let pairs = plain.beliefs.iter().zip(&noted.beliefs).zip(&story.case.vehicle.variables);
            let odd = pairs.filter(|((a, b), _)| a != b).map(|(two, one)| (&one.id, two));
            let odd: Vec<_> = odd.collect();
            return Err(format!("told again it is another: {} {odd:?}", plain == again));
        }
        Ok(plain.beliefs != story.said.beliefs)
    });
}

/// Once the device was started anew, or its clock set back, every age is past its earliest and none
/// past its latest.
#[test]
fn after_a_restart_everything_may_have_settled_and_nothing_has_for_certain() {
    hold(|story| {
        let usual = story.at(&at(story.later_ms, "a"));
        let restarted = story.at(&at(story.later_ms, "b"));
        let back = story.at(&at(-1, "a"));
        for (number, said) in story.said.beliefs.iter().enumerate() {
            let name = &story.case.vehicle.variables[number].id;
            let one = restarted.beliefs[number].settings;
            let known = said.settings.or(usual.beliefs[number].settings);
            if !known.is_within(one) || back.beliefs[number].settings != one {
                return Err(format!("{name}: {one:?} after a restart, {known:?} before"));
            }
        }
        Ok(restarted.beliefs != story.said.beliefs)
    });
}
