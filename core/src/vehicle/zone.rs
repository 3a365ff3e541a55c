//! Zones and the walking between them.

use crate::pack::Pack;

/// A place where a person stands to do things.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Zone {
    /// Its id within the pack.
    pub id: String,
    /// What the technician calls it.
    pub title: String,
}

/// Walking times between zones, closed under shortest paths.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Walks {
    zones: usize,
    seconds: Vec<u32>,
}

impl Walks {
    /// Closes the pack's walks under shortest paths (Floyd 1962, Warshall 1962). A walk counts
    /// both ways unless the other way is given too.
    pub(super) fn new(pack: &Pack) -> Self {
        let place = |id: &str| pack.zones.iter().position(|zone| zone.id.get_ref() == id);
        let zones = pack.zones.len();
        let mut given = vec![None; zones.saturating_mul(zones)];
        for back in [true, false] {
            for walk in &pack.walks {
                let (from, to) = (place(walk.from.get_ref()), place(walk.to.get_ref()));
                let (from, to) = if back { (to, from) } else { (from, to) };
                if let (Some(from), Some(to)) = (from, to)
                    && let Some(cell) = given.get_mut(from.saturating_mul(zones).saturating_add(to))
                {
                    *cell = Some(*walk.seconds.get_ref());
                }
            }
        }
        Self::closed(zones, |from, to| {
            given.get(from.saturating_mul(zones).saturating_add(to)).copied().flatten()
        })
    }

    /// Walks between `zones` zones where `seconds` tells the direct ones.
    pub fn closed(zones: usize, seconds: impl Fn(usize, usize) -> Option<u32>) -> Self {
        let mut walks = Self { zones, seconds: Vec::new() };
        for from in 0..zones {
            for to in 0..zones {
                let direct = if from == to { Some(0) } else { seconds(from, to) };
                walks.seconds.push(direct.unwrap_or(u32::MAX));
            }
        }
        for via in 0..zones {
            for from in 0..zones {
                for to in 0..zones {
                    let detour = walks.between(from, via).saturating_add(walks.between(via, to));
                    if let Some(cell) =
                        walks.seconds.get_mut(from.saturating_mul(zones).saturating_add(to))
                        && detour < *cell
                    {
                        *cell = detour;
                    }
                }
            }
        }
        walks
    }

    /// How many zones there are.
    #[must_use]
    pub fn zones(&self) -> usize {
        self.zones
    }

    /// The shortest way from one zone to another.
    ///
    /// # Units
    /// Seconds; `u32::MAX` where there is no way, which a checked pack does not have.
    #[must_use]
    pub fn between(&self, from: usize, to: usize) -> u32 {
        let cell = from.saturating_mul(self.zones).saturating_add(to);
        self.seconds.get(cell).copied().unwrap_or(u32::MAX)
    }
}
