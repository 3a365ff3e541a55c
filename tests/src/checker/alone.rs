//! For how long nobody is where something must not end alone, second by second.

use super::Replay;

impl Replay<'_> {
    /// For how long nobody is where something runs that may end by then, while one walks on and does
    /// what comes next. One is at the one place until one leaves, and at the other from the end of
    /// the walk.
    pub(super) fn alone_s(&self, zone: usize, walk_s: u32, spent_s: u32) -> u32 {
        let end_s = self.cost.elapsed_s.saturating_add(spent_s);
        let alone = self.ripe_s.iter().map(|(age, ripe_s)| {
            let known = self.vehicle.variables.get(*age);
            let Some(of) = known.and_then(|known| known.age_of).filter(|of| of.attended) else {
                return 0;
            };
            let there = self.vehicle.variables.get(of.variable).map(|known| known.zone);
            let is_there =
                |second: u32| second >= self.free_s.saturating_add(walk_s) && there == Some(zone);
            let missed = (self.free_s..end_s).filter(|one| one >= ripe_s && !is_there(*one));
            u32::try_from(missed.count()).unwrap_or(u32::MAX)
        });
        alone.sum()
    }
}
