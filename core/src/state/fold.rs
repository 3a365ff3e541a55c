//! From the log to what is believed.

use std::collections::BTreeSet;

use super::{Act, Belief, Entry, Fact, Finding, Held, How, Known, Run, State};
use crate::catalogue::{Catalogue, Lasts};
use crate::clock::Stamp;
use crate::vehicle::{Literal, Settings, Variable, VariableId, Vehicle};

impl State {
    /// Folds the log, in its order, without the entries that were voided. What a changed pack no
    /// longer has is passed over: the log may be older than the pack.
    #[must_use]
    pub fn fold(vehicle: &Vehicle, catalogue: &Catalogue, entries: &[Entry]) -> Self {
        let voided = voided(entries);
        let mut state = Self::unsaid(vehicle);
        for entry in entries.iter().filter(|entry| !voided.contains(&entry.seq)) {
            state.take(vehicle, catalogue, entry);
        }
        state
    }

    /// Takes one entry that voids nothing.
    pub(crate) fn take(&mut self, vehicle: &Vehicle, catalogue: &Catalogue, entry: &Entry) {
        let road = |target: &str| catalogue.target(target).is_ok_and(|target| target.road);
        self.settle(vehicle, &entry.said.at);
        if self.clock_changed(&entry.said.at) {
            self.lose_time();
        }
        let driven = self.moving_wheels(vehicle);
        for fact in &entry.said.facts {
            self.enter(entry, fact);
            self.believe(vehicle, entry, fact);
        }
        self.rule_out(vehicle, entry);
        match (driven, self.moving_wheels(vehicle)) {
            (None, Some(_)) => self.drive_off(vehicle, entry),
            (Some(wheels), None) => {
                self.stood = Some((wheels.zone, entry.said.at.clone()));
                self.forget(vehicle, entry, Lasts::Trip);
                // The next trip may cross a border.
                self.local.clear();
            }
            (None, None) | (Some(_), Some(_)) => {}
        }
        match &entry.said.act {
            Act::Open { target } => {
                self.left.clear();
                self.run = Some(Run {
                    id: entry.seq,
                    target: target.clone(),
                    paused: false,
                    resumed: false,
                });
                self.depart(entry, road(target));
            }
            Act::Pause => {
                self.set_paused(true);
                self.depart(entry, false);
            }
            Act::Resume => {
                self.set_paused(false);
                let road = self.run.as_ref().is_some_and(|run| road(&run.target));
                self.depart(entry, road);
            }
            Act::Close => self.run = None,
            Act::Tick { step } | Act::Look { step } => {
                if let Ok((_, action)) = vehicle.action(step) {
                    self.stood = Some((action.zone, entry.said.at.clone()));
                }
                if let Some(run) = &mut self.run {
                    run.resumed = false;
                }
            }
            Act::Cannot { step } => self.stuck.extend(moved_by(vehicle, step, entry.seq)),
            Act::LeftAnyway { step } => self.left.extend(moved_by(vehicle, step, entry.seq)),
            Act::Report | Act::Void { .. } | Act::Note => {}
        }
        let seen = entry.said.finding.as_ref().and_then(|one| looked_at(vehicle, one));
        self.stood = seen.map(|zone| (zone, entry.said.at.clone())).or(self.stood.take());
        if self.moving_wheels(vehicle).is_some() {
            self.depart(entry, false);
        }
        self.count_from(vehicle, entry);
        self.last = Some(entry.said.at.clone());
    }

    /// The clock was changed or the device started anew before this entry: how long ago anything
    /// was can no longer be told, whatever the clock comes to show.
    fn lose_time(&mut self) {
        for known in self.beliefs.iter_mut().filter_map(|belief| belief.known.as_mut()) {
            (known.at, known.since) = (Stamp::unknown(), Stamp::unknown());
        }
        for (_, known) in self.local.values_mut() {
            (known.at, known.since) = (Stamp::unknown(), Stamp::unknown());
        }
        self.held.iter_mut().for_each(Held::lose_time);
        self.stood = None;
        self.departed = self.departed.take().map(|_| Stamp::unknown());
    }

    fn believe(&mut self, vehicle: &Vehicle, entry: &Entry, fact: &Fact) {
        let Ok(number) = vehicle.variable(&fact.variable) else {
            return;
        };
        let places = fact.settings.iter().filter_map(|name| vehicle.setting(number, name).ok());
        let settings: Settings = places.collect();
        let Some(belief) = self.beliefs.get_mut(number).filter(|_| !settings.is_empty()) else {
            return;
        };
        let at = entry.said.at.clone();
        let (since, began) = match belief.known.take() {
            Some(known) if belief.settings == settings && fact.how != How::Done => {
                (known.since, known.began)
            }
            Some(_) if !belief.settings.meets(settings) => (at.clone(), true),
            _ => (at.clone(), fact.how == How::Done),
        };
        belief.settings = settings;
        belief.known = Some(Known {
            how: fact.how,
            at,
            seq: entry.seq,
            since,
            began,
            said: None,
            settled: None,
        });
        if fact.how == How::Done {
            self.stuck.remove(&number);
            self.left.remove(&number);
        }
    }

    /// What an entry says is not there takes with it what could be in it: that is so, unless it is
    /// known to be otherwise.
    fn rule_out(&mut self, vehicle: &Vehicle, entry: &Entry) {
        for (number, variable) in vehicle.variables.iter().enumerate() {
            let of = |one: &Literal| vehicle.variables.get(one.variable);
            let said = variable.absent_where.iter().filter_map(of).any(|one| says(entry, &one.id));
            if said && !says(entry, &variable.id) && self.may_be_absent(variable, number) {
                let settings = variable.names_of(variable.absent_to);
                let fact = Fact { variable: variable.id.clone(), settings, how: How::Told };
                self.believe(vehicle, entry, &fact);
            }
        }
    }

    fn may_be_absent(&self, variable: &Variable, number: VariableId) -> bool {
        let holds = |one: &Literal| {
            self.belief(one.variable).is_some_and(|known| known.settings.is_within(one.settings))
        };
        !variable.absent_where.is_empty()
            && variable.absent_where.iter().all(holds)
            && self.belief(number).is_some_and(|known| known.settings.meets(variable.absent_to))
    }

    /// Whether there is nothing that a variable could be otherwise in: nobody need look.
    pub(crate) fn is_absent(&self, vehicle: &Vehicle, number: VariableId) -> bool {
        vehicle.variables.get(number).is_some_and(|variable| {
            self.may_be_absent(variable, number)
                && self.belief(number).is_some_and(|it| it.settings == variable.absent_to)
        })
    }

    /// Forgets what lasts no longer; what the same entry says stands.
    fn forget(&mut self, vehicle: &Vehicle, entry: &Entry, over: Lasts) {
        for (belief, variable) in self.beliefs.iter_mut().zip(&vehicle.variables) {
            if variable.lasts == over && !says(entry, &variable.id) {
                *belief = Belief { settings: variable.assume, known: None };
            }
        }
        for (held, one) in self.held.iter_mut().zip(&vehicle.settlings) {
            if vehicle.variables.get(one.variable).is_some_and(|variable| variable.lasts == over) {
                *held = Held::NEVER;
            }
        }
    }

    /// What driving off means for everything else: the engine runs, the handbrake is off, and
    /// what stayed at the old place is forgotten. What the same entry says stands.
    fn drive_off(&mut self, vehicle: &Vehicle, entry: &Entry) {
        self.forget(vehicle, entry, Lasts::Stay);
        for (kind, name, setting) in [("engine", "running", "on"), ("handbrake", "lever", "off")] {
            let fitted = vehicle.of_kind(kind).map(|(_, one)| format!("{}.{name}", one.id));
            for variable in fitted.filter(|id| !says(entry, id)).collect::<Vec<_>>() {
                let fact = Fact { variable, settings: vec![setting.to_owned()], how: How::Told };
                self.believe(vehicle, entry, &fact);
            }
        }
    }

    fn set_paused(&mut self, paused: bool) {
        if let Some(run) = &mut self.run {
            run.resumed = run.paused && !paused;
            run.paused = paused;
        }
    }

    fn depart(&mut self, entry: &Entry, road: bool) {
        self.departure = road.then_some(entry.seq);
        self.departed = road.then(|| entry.said.at.clone());
    }

    /// Where the person is taken to stand at `now`: at the wheel while the vehicle moves; where the
    /// last step was, for as long as a departure lasts and the clock can tell; else at home.
    #[must_use]
    pub fn zone_at(&self, vehicle: &Vehicle, now: &Stamp) -> usize {
        let lately = |then: &Stamp| {
            then.age_ms(now).is_some_and(|age_ms| age_ms <= vehicle.departure_lapse_ms)
        };
        match (self.moving_wheels(vehicle), &self.stood) {
            (Some(wheels), _) => wheels.zone,
            (None, Some((zone, then))) if lately(then) => *zone,
            (None, _) => vehicle.home,
        }
    }

    /// The variable of the wheels, while they are believed to move.
    pub(crate) fn moving_wheels<'a>(&self, vehicle: &'a Vehicle) -> Option<&'a Variable> {
        let still = vehicle.standing_still()?;
        let moving = !self.belief(still.variable)?.settings.meets(still.settings);
        vehicle.variables.get(still.variable).filter(|_| moving)
    }
}

fn says(entry: &Entry, variable: &str) -> bool {
    entry.said.facts.iter().any(|fact| fact.variable == variable)
}

/// The variables that a step is about, each with the entry that said something of it. What follows
/// from it on a linked fitting can still come about otherwise.
fn moved_by(vehicle: &Vehicle, step: &str, seq: i64) -> Vec<(VariableId, i64)> {
    let Ok((_, action)) = vehicle.action(step) else { return Vec::new() };
    let is_own = |variable: VariableId| {
        vehicle.variables.get(variable).is_some_and(|known| known.fitting == action.fitting)
    };
    let own = action.effects.iter().filter(|effect| !effect.spoilt && is_own(effect.variable));
    own.map(|effect| (effect.variable, seq)).collect()
}

/// The entries that no longer count. A void that was itself voided counts no more.
pub(crate) fn voided(entries: &[Entry]) -> BTreeSet<i64> {
    let mut voided = BTreeSet::new();
    for entry in entries.iter().rev() {
        if let Act::Void { entry: target } = entry.said.act
            && !voided.contains(&entry.seq)
        {
            voided.insert(target);
        }
    }
    voided
}

/// The zone where one stood to see what was found of a fault; `None` where it tells no place.
fn looked_at(vehicle: &Vehicle, finding: &Finding) -> Option<usize> {
    let fault = vehicle.faults.iter().find(|fault| finding.is_of(vehicle, fault))?;
    fault.questions.iter().find(|one| one.id == finding.asked)?.zone
}
