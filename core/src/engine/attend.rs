//! Being told in time to be there where what runs by itself must not end alone.

use super::loaded::Loaded;
use super::page::{StepKind, StepRow};
use super::words::Words;
use crate::clock::Stamp;
use crate::interlock::{believed, running};
use crate::vehicle::{AgeOf, Literal, Settings, VariableId};

impl Loaded {
    /// A line for each thing that runs and must not end alone: where to be, and by when.
    pub(super) fn be_there(&self, words: &Words, now: &Stamp) -> Vec<String> {
        let line = |(variable, left_s): (VariableId, u32)| {
            let zone = self.vehicle.variables.get(variable).map_or(0, |known| known.zone);
            let (what, zone) = (Words::sentence(&words.label(variable)), words.zone(zone));
            let time = words.time(i64::from(left_s).saturating_mul(1_000));
            let slots = [("what", what.as_str()), ("zone", &zone), ("time", &time)];
            words.say(if left_s == 0 { "warn.be_there" } else { "warn.be_back" }, &slots)
        };
        self.attended(now).into_iter().map(line).collect()
    }

    /// How long from now a phone may be silent: until nothing that could come next but time has
    /// passed, walking there included, or somebody sets out for what must not end alone. Unit: s.
    pub(super) fn waits_s(&self, rows: &[StepRow], now: &Stamp) -> Option<i32> {
        let first = rows.first().filter(|row| row.kind == StepKind::Wait);
        let wait_s = first.map(|row| row.wait_s.saturating_add(row.walk_s));
        let here = self.state.zone_at(&self.vehicle, now);
        let out = |(variable, left_s): (VariableId, u32)| {
            let there = self.vehicle.variables.get(variable)?.zone;
            let left_s = left_s.saturating_sub(self.vehicle.walks.between(here, there));
            (left_s > 0).then(|| i32::try_from(left_s).unwrap_or(i32::MAX))
        };
        self.attended(now).into_iter().filter_map(out).chain(wait_s).min()
    }

    /// When the wait that comes next is over, where one does: it is waited where one has walked to.
    /// Unit: ms since 1970-01-01 UTC.
    pub(super) fn until(rows: &[StepRow], now: &Stamp) -> Option<i64> {
        let first = rows.first().filter(|row| row.kind == StepKind::Wait)?;
        let wait_s = i64::from(first.wait_s.saturating_add(first.walk_s));
        Some(now.utc_ms.saturating_add(wait_s.saturating_mul(1_000)))
    }

    /// How long from now the page says the same, but for what is left of a time: until the first age
    /// is old, or what [`Self::waits_s`] counts down to. Unit: s, > 0.
    pub(super) fn again_s(&self, rows: &[StepRow], now: &Stamp) -> Option<i32> {
        let ripe_s = self.state.ripens_s(&self.vehicle, now).into_values();
        let whole = |left_s: u32| i32::try_from(left_s).unwrap_or(i32::MAX);
        ripe_s.map(whole).chain(self.waits_s(rows, now)).filter(|left_s| *left_s > 0).min()
    }

    /// What runs and must not end alone: its variable, and in how many seconds somebody must be there.
    fn attended(&self, now: &Stamp) -> Vec<(VariableId, u32)> {
        let beliefs = self.state.settings(&self.vehicle, now);
        let left_s = self.state.ripens_s(&self.vehicle, now);
        let due = |(at, age): (Literal, VariableId)| {
            let over = believed(&beliefs, age) == Settings::one(AgeOf::OLD);
            let left_s = if over { 0 } else { left_s.get(&age).copied().unwrap_or(0) };
            (at.variable, left_s)
        };
        running(&self.vehicle, &beliefs).map(due).collect()
    }
}
