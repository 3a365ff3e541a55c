//! Large questions to the planner whose answer is a matter of order alone: catalogue, pack and
//! start are made from a list of steps, each in its zone, and of which must come before which. So
//! the same question can be put to a solver of another make (`tests/data/built_cpsat.py`).

use std::collections::BTreeSet;
use std::fmt::Write as _;

use stowfast_core::Result;
use stowfast_core::catalogue::{Catalogue, Severity};
use stowfast_core::interlock::{Goal, GoalOf};
use stowfast_core::routine::Problem;
use stowfast_core::vehicle::{Literal, Settings, Vehicle};

use crate::cases;
use crate::choices::Choices;

/// How large a question is.
#[derive(Debug, Clone, Copy)]
pub struct Size {
    /// Steps, the walk round included.
    pub steps: usize,
    /// Zones; the first half is inside, the rest stands around the vehicle.
    pub zones: usize,
    /// Systems of steps that wait for one another, at least and at most.
    pub systems: [usize; 2],
}

/// As large as a vehicle is.
pub const LARGE: Size = Size { steps: 60, zones: 12, systems: [5, 7] };
/// Small enough for a solver of another make to prove its answer.
pub const SMALL: Size = Size { steps: 24, zones: 8, systems: [3, 3] };

/// A step that must be done.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Step {
    /// The fitting that it belongs to.
    pub system: usize,
    /// Where it is done.
    pub zone: usize,
    /// Hands-on time. Unit: s.
    pub seconds: u32,
    /// It is a look at what is not known; else a move of what is known to stand wrong.
    pub look: bool,
    /// Steps that must be done before.
    pub after: Vec<usize>,
}

/// A question about order.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Built {
    /// How many zones there are.
    pub zones: usize,
    /// Walks that are given, both ways. Unit: s.
    pub walks: Vec<(usize, usize, u32)>,
    /// What must be done.
    pub steps: Vec<Step>,
    /// Where the person stands.
    pub zone: usize,
}

/// Numbers from a seed (Steele, Lea and Flood 2014).
fn numbers(seed: u64) -> Vec<u16> {
    let mut state = seed;
    let mut next = || {
        state = state.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mixed = (state ^ state >> 30).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        let mixed = (mixed ^ mixed >> 27).wrapping_mul(0x94d0_49bb_1331_11eb);
        u16::try_from((mixed ^ mixed >> 31) & 0xffff).unwrap_or(0)
    };
    (0..8_000).map(|_| next()).collect()
}

fn seconds(choices: &mut Choices, least: usize, most: usize) -> u32 {
    u32::try_from(choices.between(least, most)).unwrap_or(1)
}

/// Rooms in a row, a door outwards, a ring around and a post beyond.
fn walks(choices: &mut Choices, zones: usize) -> Vec<(usize, usize, u32)> {
    let (mut walks, inside) = (Vec::new(), zones / 2);
    for zone in 1..inside {
        let from = if zone > 3 { choices.between(1, 3) } else { zone.saturating_sub(1) };
        walks.push((from, zone, seconds(choices, 2, 6)));
    }
    walks.push((inside.saturating_sub(1), inside, seconds(choices, 4, 8)));
    for zone in inside..zones.saturating_sub(2) {
        walks.push((zone, zone.saturating_add(1), seconds(choices, 5, 12)));
    }
    walks.push((zones.saturating_sub(2), inside, seconds(choices, 5, 12)));
    walks.push((
        choices.between(inside, zones.saturating_sub(2)),
        zones.saturating_sub(1),
        seconds(choices, 8, 25),
    ));
    walks
}

/// A vehicle as they are built: systems of a few steps each in two or three zones, whose steps wait
/// for one another, a few rules across, much that is only looked at, and a walk round at the end.
#[must_use]
pub fn as_built(seed: u64, size: Size) -> Built {
    let list = numbers(seed);
    let choices = &mut Choices::new(&list);
    let Size { zones, systems: [least, most], .. } = size;
    let walks = walks(choices, zones);
    let mut steps: Vec<Step> = Vec::new();
    let systems = choices.between(least, most);
    for system in 0..systems {
        let own: Vec<usize> = (0..choices.between(2, 3)).map(|_| choices.below(zones)).collect();
        let first = steps.len();
        for place in 0..choices.between(4, 6) {
            let mut after = BTreeSet::new();
            if place > 0 && !choices.once_in(5) {
                after.insert(first.saturating_add(choices.below(place)));
            }
            if place > 1 && choices.once_in(3) {
                after.insert(first.saturating_add(place).saturating_sub(1));
            }
            if first > 0 && choices.once_in(6) {
                after.insert(choices.below(first));
            }
            steps.push(Step {
                system,
                zone: choices.one_of(&own).copied().unwrap_or(0),
                seconds: seconds(choices, 3, 60),
                look: after.is_empty() && choices.once_in(3),
                after: after.into_iter().collect(),
            });
        }
    }
    while steps.len() < size.steps.saturating_sub(1) {
        let (zone, seconds) = (choices.below(zones), seconds(choices, 3, 15));
        steps.push(Step { system: systems, zone, seconds, look: true, after: Vec::new() });
    }
    let (zone, all) =
        (choices.between(zones / 2, zones.saturating_sub(2)), (0..steps.len()).collect());
    let system = systems.saturating_add(1);
    steps.push(Step { system, zone, seconds: 60, look: false, after: all });
    Built { zones, walks, steps, zone: choices.below(zones) }
}

/// Steps anywhere, of which each waits for each earlier one once in so many times.
#[must_use]
pub fn at_random(seed: u64, once_in: usize) -> Built {
    let list = numbers(seed);
    let choices = &mut Choices::new(&list);
    let Size { zones, steps, .. } = LARGE;
    let walks = walks(choices, zones);
    let step = |choices: &mut Choices, number: usize| {
        let zone = choices.below(zones);
        let seconds = seconds(choices, 3, 60);
        let after: Vec<usize> = (0..number).filter(|_| choices.once_in(once_in)).collect();
        Step { system: 0, zone, seconds, look: false, after }
    };
    let steps = (0..steps).map(|number| step(choices, number)).collect();
    Built { zones, walks, steps, zone: choices.below(zones) }
}

impl Built {
    /// One line of data: start, walks and steps (`zone:seconds:after,…`).
    #[must_use]
    pub fn line(&self) -> String {
        let walks = self.walks.iter().map(|(from, to, seconds)| format!("{from}-{to}:{seconds}"));
        let steps = self.steps.iter().map(|step| {
            let after: Vec<_> = step.after.iter().map(usize::to_string).collect();
            format!("{}:{}:{}", step.zone, step.seconds, after.join(","))
        });
        let (walks, steps): (Vec<_>, Vec<_>) = (walks.collect(), steps.collect());
        format!("{};{};{}", self.zone, walks.join(" "), steps.join(" "))
    }

    fn systems(&self) -> BTreeSet<usize> {
        self.steps.iter().map(|step| step.system).collect()
    }

    /// The catalogue that makes each step wait for those before it: by a condition, or by a rule.
    ///
    /// # Errors
    /// Where the catalogue's own check refuses it.
    pub fn catalogue(&self) -> Result<Catalogue> {
        let file = |system: usize| (format!("kinds/s{system}.toml"), self.kind(system));
        let files: Vec<_> = self.systems().into_iter().map(file).collect();
        let files: Vec<_> =
            files.iter().map(|(path, text)| (path.as_str(), text.as_str())).collect();
        Catalogue::from_files(&files)
    }

    /// Whether a step is the walk round: all that is moved or looked at throws it back, so that it
    /// waits for all of it without a word.
    fn is_walk_round(&self, number: usize) -> bool {
        let last = self.steps.len().saturating_sub(1);
        number == last && self.steps.get(last).is_some_and(|step| step.after.len() == last)
    }

    fn kind(&self, system: usize) -> String {
        let mut text = String::new();
        let own = || self.steps.iter().enumerate().filter(|(_, step)| step.system == system);
        for (number, step) in own() {
            _ = writeln!(text, "[[variable]]\nid = \"v{number}\"\nsettings = [\"open\", \"done\"]");
            _ = writeln!(text, "usual = \"done\"");
            if step.look {
                _ = writeln!(text, "look_s = {}", step.seconds);
            }
            if self.is_walk_round(number) {
                _ = writeln!(text, "spoilt_to = \"open\"\nspoilt_by = [\"*\"]\ndont_care = true");
            }
        }
        for (number, step) in own().filter(|(_, step)| !step.look) {
            let after = step.after.iter().filter(|_| !self.is_walk_round(number));
            let (by_rule, by_condition): (Vec<usize>, Vec<usize>) =
                after.partition(|before| (number ^ **before) & 1 == 0);
            let whose = |before: usize, far: &str| match self.steps.get(before) {
                Some(step) if step.system != system => {
                    format!("{far} = \"s{}.v{before}\"", step.system)
                }
                _ => format!("own = \"v{before}\""),
            };
            let conditions: Vec<_> = by_condition
                .iter()
                .map(|before| format!("{{ {}, in = [\"done\"] }}", whose(*before, "all")))
                .collect();
            _ = writeln!(text, "[[move]]\nid = \"m{number}\"\nset = {{ v{number} = \"done\" }}");
            _ = writeln!(text, "seconds = {}\nbefore = [{}]", step.seconds, conditions.join(", "));
            for before in by_rule {
                let other = whose(before, "each");
                _ = writeln!(
                    text,
                    "[[clause]]\nid = \"c{number}_{before}\"\nseverity = \"danger\""
                );
                _ = writeln!(
                    text,
                    "never = [{{ own = \"v{number}\", in = [\"done\"] }}, {{ {other}, in = [\"open\"] }}]"
                );
                _ = writeln!(text, "source = \"made up\"");
            }
        }
        text
    }

    /// The pack file: one fitting for each system.
    #[must_use]
    pub fn pack(&self) -> String {
        let mut text = "stowfast_pack = 1\ntitle = \"Built\"\ninvented = true\n".to_owned();
        _ = writeln!(text, "home_zone = \"z{}\"", self.zone);
        for zone in 0..self.zones {
            _ = writeln!(text, "[[zone]]\nid = \"z{zone}\"\ntitle = \"Zone {zone}\"");
        }
        for (from, to, seconds) in &self.walks {
            _ = writeln!(text, "[[walk]]\nfrom = \"z{from}\"\nto = \"z{to}\"\nseconds = {seconds}");
        }
        for system in self.systems() {
            let own = self.steps.iter().enumerate().filter(|(_, step)| step.system == system);
            let zones: Vec<_> = own.map(|(n, step)| format!("v{n} = \"z{}\"", step.zone)).collect();
            _ = writeln!(text, "[[fitting]]\nid = \"f{system}\"\nkind = \"s{system}\"");
            _ = writeln!(
                text,
                "title = \"System {system}\"\nzone = \"z0\"\nzones = {{ {} }}",
                zones.join(", ")
            );
        }
        text
    }

    /// The vehicle.
    ///
    /// # Errors
    /// Where catalogue or pack is wrong.
    pub fn vehicle(&self) -> Result<Vehicle> {
        cases::vehicle(&self.pack(), &self.catalogue()?)
    }

    /// The question: everything done, from where nothing is.
    ///
    /// # Errors
    /// Where the vehicle is another one.
    pub fn problem<'a>(&self, vehicle: &'a Vehicle) -> Result<Problem<'a>> {
        let mut beliefs: Vec<Settings> = vehicle.variables.iter().map(|one| one.all).collect();
        let mut goals = Vec::new();
        for (number, step) in self.steps.iter().enumerate() {
            let variable = vehicle.variable(&format!("f{}.v{number}", step.system))?;
            if let Some(belief) = beliefs.get_mut(variable).filter(|_| !step.look) {
                *belief = Settings::one(vehicle.setting(variable, "open")?);
            }
            let settings = Settings::one(vehicle.setting(variable, "done")?);
            let any_of = vec![Literal { variable, settings }];
            let of = GoalOf::Target(format!("g{number}"));
            goals.push(Goal { of, any_of, fresh: false, severity: Severity::Damage });
        }
        Ok(Problem {
            vehicle,
            fresh: vec![false; beliefs.len()],
            beliefs,
            stuck: BTreeSet::new(),
            ripens_s: std::collections::BTreeMap::new(),
            zone: self.zone,
            goals,
        })
    }
}
