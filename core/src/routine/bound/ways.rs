//! The ways between neighbouring zones.

use super::stops::{ZONES_MAX, place};
use crate::vehicle::Walks;

/// Two zones with no zone in between, and the way from one to the other. Unit: s.
pub(super) struct Way {
    /// The lower number first.
    pub(super) ends: [usize; 2],
    pub(super) seconds: u32,
}

/// The way from one zone to another or back, whichever is shorter. Unit: s.
pub(super) fn apart_s(walks: &Walks, one: usize, other: usize) -> u32 {
    walks.between(one, other).min(walks.between(other, one))
}

/// All ways.
pub(super) fn ways(walks: &Walks) -> Vec<Way> {
    let zones = walks.zones().min(ZONES_MAX);
    let mut ways = Vec::new();
    for one in 0..zones {
        for other in one.saturating_add(1)..zones {
            let seconds = apart_s(walks, one, other);
            let between = (0..zones).any(|via| {
                let parts_s = [apart_s(walks, one, via), apart_s(walks, via, other)];
                !parts_s.contains(&0)
                    && parts_s.iter().fold(0, |sum, s| s.saturating_add(sum)) == seconds
            });
            if !between {
                ways.push(Way { ends: [one, other], seconds });
            }
        }
    }
    ways
}

/// The zones that hang together with one without some ways.
pub(super) fn joined(ways: &[Way], zone: usize, without: &[usize]) -> u64 {
    let mut set = place(zone);
    loop {
        let mut more = set;
        for (_, way) in ways.iter().enumerate().filter(|(number, _)| !without.contains(number)) {
            let [one, other] = way.ends.map(place);
            if more & (one | other) != 0 {
                more |= one | other;
            }
        }
        if more == set {
            return set;
        }
        set = more;
    }
}
