//! How often a walk must cross over at least: the zones are cut in two in many ways, and each cut is
//! crossed once for each change of side that a chain of tasks asks for which wait for one another.
//!
//! A walk's length is made of the ways between neighbouring zones. Where each cut has a weight, and
//! the weights of those that part two neighbours add up to no more than the way between them, the
//! crossings times the weights add up to no more than the walk (a packing of cuts: see Schrijver
//! 2003, chapter 21). A cut around one zone also tells how often that zone is entered.

use super::stops::{Stops, place};
use super::ways::{Way, joined};
use super::{TASKS_MAX, Tasks, bit, numbers};

/// Cuts that are kept count of.
const CUTS: usize = 48;

/// What of a longer way is counted. Unit: s.
const WAY_MAX_S: u32 = 600;

/// A count, or a side, for each cut.
type Each = [u8; CUTS];

pub(super) struct Cuts {
    /// For each zone, on which side of each cut it lies.
    sides: Vec<Each>,
    /// Unit: s.
    weights: Vec<u32>,
    /// The crossings up to each task: only what is worked out for one question is of use.
    levels: Vec<Each>,
}

impl Cuts {
    /// For some tasks from a zone: the cuts that these cross most often weigh most.
    pub(super) fn new(ways: &[Way], zones: usize, stops: &Stops, zone: usize) -> Self {
        let cuts = candidates(ways, zones);
        let mut sides = vec![[0; CUTS]; zones];
        for (number, side) in sides.iter_mut().enumerate() {
            for (cell, cut) in side.iter_mut().zip(&cuts) {
                *cell = u8::from(cut & place(number) != 0);
            }
        }
        let mut all = Self { sides, weights: vec![0; CUTS], levels: vec![[0; CUTS]; TASKS_MAX] };
        let crossed = all.crossings(stops, stops.essential(stops.known()), zone);
        all.weigh(ways, &cuts, &crossed);
        all
    }

    /// Gives a second more to each cut in turn until none has room: first where one way alone is
    /// cut, which nothing tells more of; then those first that are crossed most often.
    fn weigh(&mut self, ways: &[Way], cuts: &[u64], crossed: &Each) {
        let mut left_s: Vec<u32> = ways.iter().map(|way| way.seconds.min(WAY_MAX_S)).collect();
        let parted = |cut: &u64| -> Vec<usize> {
            let parts =
                |way: &Way| way.ends.iter().filter(|end| cut & place(**end) != 0).count() == 1;
            ways.iter()
                .enumerate()
                .filter(|(_, way)| parts(way))
                .map(|(number, _)| number)
                .collect()
        };
        let cuts = cuts.iter().map(parted).enumerate().filter(|(_, parted)| !parted.is_empty());
        let crossings = |cut: usize| crossed.get(cut).copied().unwrap_or(0);
        let mut cuts: Vec<(usize, Vec<usize>)> =
            cuts.filter(|(cut, _)| crossings(*cut) > 0).collect();
        let rank = |(cut, parted): &(usize, Vec<usize>)| {
            (parted.len() > 1, std::cmp::Reverse(crossings(*cut)))
        };
        cuts.sort_by_key(rank);
        for alike in cuts.chunk_by(|one, other| rank(one) == rank(other)) {
            let mut growing: Vec<&(usize, Vec<usize>)> = alike.iter().collect();
            while !growing.is_empty() {
                growing.retain(|(cut, parted)| {
                    let has_room = parted.iter().all(|way| left_s.get(*way) > Some(&0));
                    if has_room {
                        for way in parted {
                            if let Some(left_s) = left_s.get_mut(*way) {
                                *left_s = left_s.saturating_sub(1);
                            }
                        }
                        if let Some(weight) = self.weights.get_mut(*cut) {
                            *weight = weight.saturating_add(1);
                        }
                    }
                    has_room
                });
            }
        }
    }

    /// How often each cut is crossed at least.
    fn crossings(&mut self, stops: &Stops, to_do: Tasks, zone: usize) -> Each {
        let none = [0; CUTS];
        let start = *self.sides.get(zone).unwrap_or(&none);
        let mut most = none;
        for number in numbers(to_do) {
            let Some(stop) = stops.stop(number) else { continue };
            let mut here = none;
            let mut before = stop.after & to_do;
            while let Some(last) = last(before) {
                raise(&mut here, self.levels.get(last).unwrap_or(&none));
                before &= !bit(last) & !stops.stop(last).map_or(0, |stop| stop.after);
            }
            if let Some(side) = stop.zone.and_then(|zone| self.sides.get(zone)) {
                for ((cell, side), start) in here.iter_mut().zip(side).zip(&start) {
                    *cell = cell.wrapping_add((*cell ^ side ^ start) & 1);
                }
            }
            raise(&mut most, &here);
            if let Some(cell) = self.levels.get_mut(number) {
                *cell = here;
            }
        }
        most
    }

    /// Walking time and zone changes at least.
    pub(super) fn at_least(&mut self, stops: &Stops, to_do: Tasks, zone: usize) -> (u32, u32) {
        let crossed = self.crossings(stops, to_do, zone);
        let each = || crossed.iter().map(|crossings| u32::from(*crossings));
        let walk_s = each()
            .zip(&self.weights)
            .fold(0_u32, |sum, (n, s)| sum.saturating_add(n.saturating_mul(*s)));
        let entered = each()
            .take(self.sides.len())
            .enumerate()
            .map(|(around, crossings)| crossings.saturating_add(u32::from(around != zone)) / 2);
        (walk_s, entered.sum())
    }
}

/// The last member of a set.
fn last(set: Tasks) -> Option<usize> {
    usize::try_from(set.checked_ilog2()?).ok()
}

fn raise(all: &mut Each, other: &Each) {
    for (one, other) in all.iter_mut().zip(other) {
        *one = (*one).max(*other);
    }
}

/// Around each zone; then what falls apart without one way or two.
fn candidates(ways: &[Way], zones: usize) -> Vec<u64> {
    let all = (0..zones).fold(0, |set, zone| set | place(zone));
    let mut cuts: Vec<u64> = (0..zones).map(place).collect();
    let mut add = |cut: u64| {
        let cut = if cut & 1 != 0 { cut } else { all & !cut };
        if cut != all && !cuts.iter().any(|one| *one == cut || all & !one == cut) {
            cuts.push(cut);
        }
    };
    for one in 0..ways.len() {
        add(joined(ways, 0, &[one]));
    }
    for one in 0..ways.len() {
        for other in one.saturating_add(1)..ways.len() {
            add(joined(ways, 0, &[one, other]));
        }
    }
    for way in ways {
        add(way.ends.iter().fold(0, |set, end| set | place(*end)));
    }
    cuts.truncate(CUTS);
    cuts
}
