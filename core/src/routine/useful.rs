//! Which steps can be of use, from what is believed at one node of the search.
//!
//! A step is, if it brings about something that is wanted and not so of itself: an aim, a condition
//! of a step of use, the way out of a rule that would forbid or burden one, or what one must put
//! back. Any other step can be struck from a plan, which stays a plan and costs no more: nothing in
//! it waits for what the step does. Freshness alone is got by a look, where one can look. What
//! served only an aim that is met by now, another way to it, or a rule that can no longer hold, is
//! not tried again.

use super::form::{
    Beliefs, Change, Compiled, Lit, OfUse, Rule, Step, Vars, at, is_fresh, mark_of, settings_of,
};
use crate::catalogue::Severity;
use crate::vehicle::Deed;

/// Sets of settings, as bits: bit `s` stands for the set `s` of at most six settings.
type Sets = u64;

/// Of one variable: what is wanted of it, and what it can come to.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Known {
    /// Sets of settings that something wants.
    pub(super) wants: Sets,
    /// What would be no news, if it were seen to be so already: then a move that brings it about
    /// makes nothing possible.
    to_see: Sets,
    /// Those that must be made fresh too.
    pub(super) to_freshen: Sets,
    /// The settings that it can come to have, by what is of use so far.
    reached: u8,
    /// Those of them that it comes to unseen, thrown back by something else.
    unseen: u8,
    /// Those that it can come to for certain.
    pub(super) certain: u8,
}

/// What is of use, and why.
pub(super) struct Useful<'a> {
    compiled: &'a Compiled,
    beliefs: &'a Beliefs,
    /// Something that was broken at the start still is.
    broken: bool,
    known: Vec<Known>,
    /// For each step, whether it can be of use.
    pub(super) steps: Vec<bool>,
    /// What changed in this round.
    changed: Vars,
}

/// What can be of use from here on.
pub(super) fn useful(compiled: &Compiled, beliefs: &Beliefs) -> OfUse {
    let useful = Useful::new(compiled, beliefs, |_| true);
    OfUse { reached: useful.known.iter().map(|known| known.reached).collect(), steps: useful.steps }
}

impl<'a> Useful<'a> {
    /// What is of use among the steps that `allowed` names.
    pub(super) fn new(
        compiled: &'a Compiled,
        beliefs: &'a Beliefs,
        allowed: impl Fn(usize) -> bool,
    ) -> Self {
        let known = beliefs.iter().map(|belief| {
            let now = settings_of(*belief);
            let certain = if now.is_power_of_two() { now } else { 0 };
            Known { reached: now, certain, ..Known::default() }
        });
        let mut all = Self {
            compiled,
            beliefs,
            broken: compiled.broken(beliefs) != (false, false),
            known: known.collect(),
            steps: vec![false; compiled.steps.len()],
            changed: 0,
        };
        for look in compiled.steps.iter().filter(|step| step.deed == Deed::Look) {
            for change in look.changes.iter().filter(|change| !change.spoilt) {
                let found = settings_of(look.outcome(change, at(beliefs, change.var)));
                if let Some(known) = all.known.get_mut(change.var) {
                    known.certain |= found;
                }
            }
        }
        all.want_ways_out();
        let mut changed = Vars::MAX;
        while changed != 0 {
            changed = all.grow(changed, &allowed);
        }
        all
    }

    fn want_ways_out(&mut self) {
        let compiled = self.compiled;
        let beliefs = self.beliefs;
        let still =
            |rule: &&Rule| rule.to_get_out_of && rule.lits.iter().all(|lit| lit.must_hold(beliefs));
        for lit in compiled.rules.iter().filter(still).flat_map(|rule| &rule.lits) {
            self.note(lit.var, |known| &mut known.wants, !lit.set & 0x3f);
        }
    }

    /// One round over what hangs on what changed in the last; what changes in this one.
    fn grow(&mut self, before: Vars, allowed: &impl Fn(usize) -> bool) -> Vars {
        let compiled = self.compiled;
        self.changed = 0;
        for aim in compiled.aims.iter().filter(|aim| aim.on & before != 0) {
            if aim.lits.iter().any(|lit| self.stays(*lit, aim.fresh)) {
                continue;
            }
            for lit in &aim.lits {
                self.want(*lit);
                if aim.fresh && !self.stays_fresh(lit.var) {
                    self.note(lit.var, |known| &mut known.to_freshen, lit.set);
                }
            }
        }
        for (number, step) in compiled.steps.iter().enumerate() {
            let known = self.steps.get(number) == Some(&true);
            if known && step.hangs_on & before != 0 {
                self.follow(step);
            } else if !known
                && step.acts_on & (before | self.changed) != 0
                && allowed(number)
                && step.changes.iter().any(|one| self.is_wanted(step, one))
            {
                self.take_up(number, step);
                self.follow(step);
            }
        }
        self.changed
    }

    /// What is known of a variable.
    pub(super) fn of(&self, var: usize) -> Known {
        self.known.get(var).copied().unwrap_or_default()
    }

    /// Whether a literal holds, fresh where that is asked, and nothing of use changes that.
    fn stays(&self, lit: Lit, fresh: bool) -> bool {
        self.of(lit.var).reached & !lit.set == 0 && (!fresh || self.stays_fresh(lit.var))
    }

    fn stays_fresh(&self, var: usize) -> bool {
        is_fresh(at(self.beliefs, var)) && self.of(var).unseen == 0
    }

    fn note(&mut self, var: usize, sets: fn(&mut Known) -> &mut Sets, set: u8) {
        let Some(sets) = self.known.get_mut(var).map(sets) else { return };
        if *sets & bit(set) == 0 {
            *sets |= bit(set);
            self.changed |= mark_of(var);
        }
    }

    fn want(&mut self, lit: Lit) {
        if !self.stays(lit, false) {
            self.note(lit.var, |known| &mut known.wants, lit.set);
        }
    }

    /// Whether a step brings about something wanted.
    pub(super) fn is_wanted(&self, step: &Step, change: &Change) -> bool {
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
            Deed::Wait => serves || shows,
            Deed::Move => serves || (shows && !self.can_look_at_once(change.var)),
        }
    }

    /// Whether a variable can be looked at before anything else is done: then a move of what stands
    /// right, which disturbs it, is never the way to make it fresh. Where a rule is broken now, its
    /// way out may have to come before the look: then only a look that asks for nothing but
    /// standing still counts, which no routine gives up for the sake of a look.
    pub(super) fn can_look_at_once(&self, var: usize) -> bool {
        let looks = self
            .compiled
            .steps
            .iter()
            .filter(|look| look.deed == Deed::Look && look.acts_on & mark_of(var) != 0);
        let mut looks = looks.filter(|look| !self.broken || look.asks_only_to_stand);
        looks.any(|look| {
            look.changes.iter().any(|seen| seen.var == var && !seen.spoilt)
                && self.compiled.is_permitted(self.beliefs, look)
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
                self.changed |= mark_of(change.var);
            }
        }
    }

    /// What a step of use wants in turn.
    fn follow(&mut self, step: &Step) {
        for lit in &step.before {
            self.want(*lit);
        }
        let rules = step.rules.iter().chain(&step.nuisances);
        for rule in rules.filter_map(|number| self.compiled.rules.get(*number)) {
            if !rule.lits.iter().all(|lit| self.can_hold(rule, *lit)) {
                continue;
            }
            for lit in &rule.lits {
                if step.new_settings(lit.var) & lit.set != 0 {
                    self.note(lit.var, |known| &mut known.to_see, lit.set);
                } else {
                    self.want(Lit { set: !lit.set & 0x3f, ..*lit });
                }
            }
        }
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
pub(super) fn holding(settings: u8) -> Sets {
    with(settings).fold(Sets::MAX, |sets, one| sets & one)
}

/// The sets that hold any of some settings.
pub(super) fn meeting(settings: u8) -> Sets {
    with(settings).fold(0, |sets, one| sets | one)
}
