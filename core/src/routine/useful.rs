//! Which steps can still be of use, from what is believed at one node of the search: the argument
//! of `relevant.rs`, made anew where the search stands. What served only an aim that is met by now,
//! another way to it, or a rule that can no longer hold, is not tried again.

use super::form::{Beliefs, Change, Compiled, Lit, Rule, Step, at, is_fresh, settings_of};
use crate::catalogue::Severity;
use crate::vehicle::Deed;

/// Sets of settings, as bits: bit `s` stands for the set `s` of at most six settings.
type Sets = u64;

/// Of one variable: what is wanted of it, and what it can come to.
#[derive(Clone, Default)]
struct Known {
    wants: Sets,
    to_see: Sets,
    to_freshen: Sets,
    reached: u8,
    unseen: u8,
    certain: u8,
}

struct Useful<'a> {
    compiled: &'a Compiled,
    beliefs: &'a Beliefs,
    broken: bool,
    known: Vec<Known>,
    steps: Vec<bool>,
}

/// For each step, whether it can be of use from here on. `broken`: something that was broken at the
/// start still is. `permitted` tells whether a step may be taken here.
pub(super) fn useful(
    compiled: &Compiled,
    beliefs: &Beliefs,
    broken: bool,
    permitted: &dyn Fn(&Step) -> bool,
) -> Vec<bool> {
    let known = beliefs.iter().map(|belief| {
        let now = settings_of(*belief);
        let certain = if now.is_power_of_two() { now } else { 0 };
        Known { reached: now, certain, ..Known::default() }
    });
    let mut all = Useful {
        compiled,
        beliefs,
        broken,
        known: known.collect(),
        steps: vec![false; compiled.steps.len()],
    };
    for look in compiled.steps.iter().filter(|step| step.deed == Deed::Look) {
        for change in look.changes.iter().filter(|change| !change.spoilt) {
            let found = settings_of(look.outcome(change, at(beliefs, change.var)));
            if let Some(known) = all.known.get_mut(change.var) {
                known.certain |= found;
            }
        }
    }
    while all.grows(permitted) {}
    all.steps
}

impl Useful<'_> {
    /// One round; whether it found anything new.
    fn grows(&mut self, permitted: &dyn Fn(&Step) -> bool) -> bool {
        let mut grown = false;
        let still = |rule: &&Rule| {
            rule.to_get_out_of && rule.lits.iter().all(|lit| lit.must_hold(self.beliefs))
        };
        for rule in self.compiled.rules.iter().filter(still) {
            for lit in &rule.lits {
                grown |= self.want(Lit { set: !lit.set & 0x3f, ..*lit });
            }
        }
        for aim in &self.compiled.aims {
            if aim.lits.iter().any(|lit| self.stays(*lit, aim.fresh)) {
                continue;
            }
            for lit in &aim.lits {
                grown |= self.want(*lit);
                if aim.fresh && !self.stays_fresh(lit.var) {
                    grown |= self.note(lit.var, |known| &mut known.to_freshen, lit.set);
                }
            }
        }
        for (number, step) in self.compiled.steps.iter().enumerate() {
            if self.steps.get(number) == Some(&true) {
                grown |= self.follow(step);
            } else if step.changes.iter().any(|one| self.is_wanted(step, one, permitted)) {
                self.take_up(number, step);
                grown = true;
            }
        }
        grown
    }

    fn of(&self, var: usize) -> Known {
        self.known.get(var).cloned().unwrap_or_default()
    }

    /// Whether a literal holds, fresh where that is asked, and nothing of use changes that.
    fn stays(&self, lit: Lit, fresh: bool) -> bool {
        self.of(lit.var).reached & !lit.set == 0 && (!fresh || self.stays_fresh(lit.var))
    }

    fn stays_fresh(&self, var: usize) -> bool {
        is_fresh(at(self.beliefs, var)) && self.of(var).unseen == 0
    }

    fn note(&mut self, var: usize, sets: fn(&mut Known) -> &mut Sets, set: u8) -> bool {
        let Some(known) = self.known.get_mut(var) else { return false };
        let (sets, before) = {
            let sets = sets(known);
            let before = *sets;
            *sets |= bit(set);
            (*sets, before)
        };
        sets != before
    }

    fn want(&mut self, lit: Lit) -> bool {
        !self.stays(lit, false) && self.note(lit.var, |known| &mut known.wants, lit.set)
    }

    /// Whether a step brings about something wanted.
    fn is_wanted(&self, step: &Step, change: &Change, permitted: &dyn Fn(&Step) -> bool) -> bool {
        let now = at(self.beliefs, change.var);
        let outcome = settings_of(step.outcome(change, now));
        let known = self.of(change.var);
        let serves = known.wants & holding(outcome) != 0;
        let shows = known.to_freshen & (holding(outcome) | meeting(known.unseen)) != 0;
        match step.deed {
            _ if change.spoilt => serves,
            Deed::Look => {
                let news = known.to_see & holding(outcome) != 0;
                shows || ((serves || news) && !settings_of(now).is_power_of_two())
            }
            Deed::Wait => serves,
            Deed::Move => serves || (shows && !self.can_look_at_once(change.var, permitted)),
        }
    }

    fn can_look_at_once(&self, var: usize, permitted: &dyn Fn(&Step) -> bool) -> bool {
        self.compiled.steps.iter().any(|look| {
            look.deed == Deed::Look
                && look.changes.iter().any(|seen| seen.var == var && !seen.spoilt)
                && permitted(look)
                && (!self.broken || look.asks_only_to_stand)
        })
    }

    fn take_up(&mut self, number: usize, step: &Step) {
        if let Some(useful) = self.steps.get_mut(number) {
            *useful = true;
        }
        for change in step.changes.iter().filter(|change| step.brings(change)) {
            let new = change.to | change.middle;
            if let Some(known) = self.known.get_mut(change.var) {
                known.reached |= new;
                known.certain |= new;
                known.unseen |= if change.spoilt { new } else { 0 };
            }
        }
    }

    /// What a step of use wants in turn.
    fn follow(&mut self, step: &Step) -> bool {
        let mut grown = false;
        for lit in &step.before {
            grown |= self.want(*lit);
        }
        for number in step.rules.iter().chain(&step.nuisances) {
            let Some(rule) = self.compiled.rules.get(*number) else { continue };
            if !rule.lits.iter().all(|lit| self.can_hold(rule, *lit)) {
                continue;
            }
            for lit in &rule.lits {
                grown |= if step.new_settings(lit.var) & lit.set != 0 {
                    self.note(lit.var, |known| &mut known.to_see, lit.set)
                } else {
                    self.want(Lit { set: !lit.set & 0x3f, ..*lit })
                };
            }
        }
        grown
    }

    fn can_hold(&self, rule: &Rule, lit: Lit) -> bool {
        let known = self.of(lit.var);
        match rule.severity {
            Severity::Nuisance => lit.must_hold(self.beliefs) || known.certain & lit.set != 0,
            Severity::Danger | Severity::Damage => known.reached & lit.set != 0,
        }
    }
}

fn bit(set: u8) -> Sets {
    1_u64.wrapping_shl(u32::from(set & 0x3f))
}

/// For each setting, the sets that hold it.
const WITH: [Sets; 6] = [
    0xaaaa_aaaa_aaaa_aaaa,
    0xcccc_cccc_cccc_cccc,
    0xf0f0_f0f0_f0f0_f0f0,
    0xff00_ff00_ff00_ff00,
    0xffff_0000_ffff_0000,
    0xffff_ffff_0000_0000,
];

/// For each of some settings, the sets that hold it.
fn with(settings: u8) -> impl Iterator<Item = Sets> {
    let settings =
        WITH.into_iter().enumerate().filter(move |(place, _)| settings >> place & 1 == 1);
    settings.map(|(_, sets)| sets)
}

/// The sets that hold all of some settings.
fn holding(settings: u8) -> Sets {
    with(settings).fold(Sets::MAX, |sets, one| sets & one)
}

/// The sets that hold any of some settings.
fn meeting(settings: u8) -> Sets {
    with(settings).fold(0, |sets, one| sets | one)
}
