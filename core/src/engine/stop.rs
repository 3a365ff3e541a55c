//! The steps of a way by where one stands and what one gesture confirms; where a part ends.

use super::loaded::Loaded;
use super::page::{GestureKind, GestureRow, StepKind, StepRow, StopRow};
use super::run::count;
use super::words::{Words, once};
use crate::routine::{Gesture, LINES_MAX};
use crate::vehicle::Literal;

impl Loaded {
    /// The stops of a way. A stop ends where the next gesture begins in another zone, and with a
    /// wait that ends a part.
    pub(super) fn stops(
        &self,
        words: &Words,
        gestures: &[Gesture],
        rows: &[StepRow],
    ) -> Vec<StopRow> {
        let mut stops: Vec<StopRow> = Vec::new();
        let (mut rows, mut part) = (rows, 1_i32);
        for gesture in gestures {
            let (own, rest) = rows.split_at_checked(gesture.steps.len()).unwrap_or((rows, &[]));
            rows = rest;
            let Some(first) = own.first() else { continue };
            let gesture = gesture_row(gesture.kind, own);
            match stops.last_mut() {
                Some(stop) if stop.zone_id == first.zone_id && stop.part == part => {
                    stop.gestures.push(gesture);
                }
                _ => stops.push(StopRow {
                    zone_id: first.zone_id.clone(),
                    zone_title: first.zone_title.clone(),
                    part,
                    part_end: None,
                    gestures: vec![gesture],
                }),
            }
            if self.ends_part(first) && !rows.is_empty() {
                // A wait that comes first is what is done now: it says itself how long it is.
                let begun = stops.iter().map(|stop| stop.gestures.len()).sum::<usize>() > 1;
                if let Some(stop) = stops.last_mut().filter(|_| begun) {
                    let time = words.time(i64::from(first.wait_s).saturating_mul(1_000));
                    let slots = [("n", part.to_string()), ("time", time)];
                    let slots = slots.each_ref().map(|(slot, said)| (*slot, said.as_str()));
                    stop.part_end = Some(words.say("part.ends", &slots));
                }
                part = part.saturating_add(1);
            }
        }
        stops
    }

    fn ends_part(&self, row: &StepRow) -> bool {
        u32::try_from(row.wait_s).is_ok_and(|wait_s| wait_s > self.vehicle.part_wait_s)
    }

    /// What to say where a long wait is all that can come next: that a part is done, and what was
    /// last made or seen to be so, and still is.
    pub(super) fn part_end(&self, words: &Words, rows: &[StepRow]) -> Option<String> {
        rows.first().filter(|row| self.ends_part(row))?;
        let run = self.state.run.as_ref()?;
        let facts = self.done_in_run(run.id).rev().filter_map(|entry| entry.said.facts.first());
        let said = facts.filter_map(|fact| {
            let variable = self.vehicle.variable(&fact.variable).ok()?;
            let settings = self.state.belief(variable)?.settings;
            Some(Words::sentence(&words.literal(&Literal { variable, settings })))
        });
        let said: Vec<_> = once(said).into_iter().take(LINES_MAX).collect();
        Some(words.say("part.done", &[("what", &said.join(" · "))]))
    }
}

/// A list is confirmed on purpose as a whole where one line of it bears on a hazard; what has a
/// gesture of its own always is.
fn gesture_row(kind: GestureKind, rows: &[StepRow]) -> GestureRow {
    GestureRow {
        kind,
        steps: rows.iter().map(|row| row.id.clone()).collect(),
        lines: rows.iter().map(line).collect(),
        hold: kind == GestureKind::Own || rows.iter().any(|row| row.hazard),
    }
}

/// The state that the answer names; of a wait, what is waited for.
fn line(row: &StepRow) -> String {
    if row.kind == StepKind::Wait { row.text.clone() } else { row.wanted.clone() }
}

pub(super) fn gesture_count(stops: &[StopRow]) -> i32 {
    let gestures = stops.iter().flat_map(|stop| &stop.gestures);
    count(gestures.filter(|gesture| gesture.kind != GestureKind::Wait).count())
}

/// How many gestures confirm something; waits are none.
pub(super) fn confirmed(gestures: &[Gesture]) -> i32 {
    count(gestures.iter().filter(|one| one.kind != GestureKind::Wait).count())
}
