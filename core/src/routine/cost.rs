//! What a plan costs; compared part by part, in the order of the fields.

use serde::Serialize;

/// The cost of a plan, the weightiest part first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default, Serialize)]
pub struct Cost {
    /// Time until no danger clause is broken. Unit: s.
    pub danger_s: u32,
    /// Time until no damage clause is broken. Unit: s.
    pub damage_s: u32,
    /// For how long what must not end alone could have ended with nobody there. Unit: s.
    pub alone_s: u32,
    /// Nuisance clauses that a step leads into and leaves broken.
    pub nuisances: u32,
    /// Moves of what stood at the start as goals ask and could be looked at. Nothing is set anew
    /// only to have been seen.
    pub disturbed: u32,
    /// Hands-on time, walking, and what is left of waits that neither fills. Unit: s.
    pub elapsed_s: u32,
    /// Walking. Unit: s.
    pub walk_s: u32,
    /// Times that another zone is entered.
    pub zone_changes: u32,
    /// Times that the next zone comes earlier in the technician's walking order.
    pub backward: u32,
}

impl Cost {
    /// The sum, part by part.
    #[must_use]
    pub fn plus(self, other: Self) -> Self {
        Self {
            danger_s: self.danger_s.saturating_add(other.danger_s),
            damage_s: self.damage_s.saturating_add(other.damage_s),
            alone_s: self.alone_s.saturating_add(other.alone_s),
            nuisances: self.nuisances.saturating_add(other.nuisances),
            disturbed: self.disturbed.saturating_add(other.disturbed),
            elapsed_s: self.elapsed_s.saturating_add(other.elapsed_s),
            walk_s: self.walk_s.saturating_add(other.walk_s),
            zone_changes: self.zone_changes.saturating_add(other.zone_changes),
            backward: self.backward.saturating_add(other.backward),
        }
    }

    /// What weighs more than time.
    pub(super) fn gravity(self) -> [u32; 5] {
        [self.danger_s, self.damage_s, self.alone_s, self.nuisances, self.disturbed]
    }

    /// Whether what weighs more than time, time itself, and what weighs less are each no more than
    /// in another.
    pub(super) fn is_no_more_in_any_part(self, other: Self) -> bool {
        let lighter = |cost: Self| (cost.walk_s, cost.zone_changes, cost.backward);
        self.gravity() <= other.gravity()
            && self.elapsed_s <= other.elapsed_s
            && lighter(self) <= lighter(other)
    }

    /// Whether all that weighs more than time is the same.
    pub(super) fn is_as_grave_as(self, other: Self) -> bool {
        self.gravity() == other.gravity()
    }

    /// The same time and walk, with what weighs more than time no less than in another.
    pub(super) fn no_less_grave_than(self, other: Self) -> Self {
        let [danger_s, damage_s, alone_s, nuisances, disturbed] =
            self.gravity().max(other.gravity());
        Self { danger_s, damage_s, alone_s, nuisances, disturbed, ..self }
    }
}
