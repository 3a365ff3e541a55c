//! The problem in the form that the search works on.

use crate::catalogue::Severity;
use crate::vehicle::{AgeOf, Deed, Settings};

/// Settings and freshness of each variable of the search: bits 0–5 and bit 7.
pub(super) type Beliefs = Vec<u8>;

pub(super) const FRESH: u8 = 0x80;
const SETTINGS: u8 = 0x3f;

/// Some variables, each by a bit that it may share with others: sets that do not meet have no
/// variable in common.
pub(super) type Vars = u128;

/// The bit of a variable.
pub(super) fn mark_of(var: usize) -> Vars {
    1_u128.wrapping_shl(u32::try_from(var % 128).unwrap_or(0))
}

/// The variables of some literals.
pub(super) fn marks_of<'a>(lits: impl IntoIterator<Item = &'a Lit>) -> Vars {
    lits.into_iter().fold(0, |vars, lit| vars | mark_of(lit.var))
}

/// A literal on a variable of the search.
#[derive(Debug, Clone, Copy)]
pub(super) struct Lit {
    pub(super) var: usize,
    pub(super) set: u8,
}

/// A clause with what is settled left out.
#[derive(Debug, Clone)]
pub(super) struct Rule {
    pub(super) lits: Vec<Lit>,
    pub(super) severity: Severity,
    /// A settled literal may hold but need not: the clause is never broken, only open.
    pub(super) only_open: bool,
    /// It is broken at the start: until it no longer is, time is exposure.
    pub(super) to_get_out_of: bool,
    /// What it speaks of.
    pub(super) on: Vars,
}

/// A change of one variable of the search.
#[derive(Debug, Clone, Copy)]
pub(super) struct Change {
    pub(super) var: usize,
    pub(super) to: u8,
    /// What a look sees at first; of a move, what it sets.
    pub(super) seen: u8,
    pub(super) middle: u8,
    pub(super) spoilt: bool,
    /// A look could show it.
    pub(super) can_look: bool,
    /// Some goal asks for it to be fresh; of what none asks it is not kept.
    pub(super) asked: bool,
}

/// An action of use.
#[derive(Debug, Clone)]
pub(super) struct Step {
    pub(super) number: usize,
    pub(super) deed: Deed,
    pub(super) before: Vec<Lit>,
    pub(super) changes: Vec<Change>,
    pub(super) seconds: u32,
    pub(super) zone: usize,
    /// Danger and damage rules that it bears on.
    pub(super) rules: Vec<usize>,
    /// It moves what stood right at the start and could be looked at.
    pub(super) disturbs: bool,
    /// Some aim asks for what it changes to be otherwise.
    pub(super) unwanted: bool,
    /// Steps that wait for what it changes to be otherwise, or throw it back.
    pub(super) disputed_by: Vec<usize>,
    /// Nuisance rules that it bears on.
    pub(super) nuisances: Vec<usize>,
    /// It asks for nothing but standing still.
    pub(super) asks_only_to_stand: bool,
    /// Rules of which it makes a literal possible in the end.
    pub(super) burdens: Vec<usize>,
    /// It can be of use in getting out of danger; out of damage.
    pub(super) leads_out: [bool; 2],
    /// What it changes or looks at.
    pub(super) acts_on: Vars,
    /// What its conditions and rules speak of.
    pub(super) hangs_on: Vars,
}

/// What can be of use from somewhere on.
#[derive(Debug, Clone)]
pub(super) struct OfUse {
    /// For each step, whether it can.
    pub(super) steps: Vec<bool>,
    /// The settings that each variable has or can come to have by those steps.
    pub(super) reached: Vec<u8>,
}

/// One thing that must be so in the end.
#[derive(Debug, Clone)]
pub(super) struct Aim {
    pub(super) lits: Vec<Lit>,
    pub(super) fresh: bool,
    /// Steps that can meet it.
    pub(super) steps: Vec<usize>,
    /// What it speaks of.
    pub(super) on: Vars,
}

/// An age that the search can wait for.
#[derive(Debug, Clone, Copy)]
pub(super) struct Clock {
    /// The age; [`NOWHERE`] where nothing asks for it.
    pub(super) var: usize,
    /// What it is the age of, where an action of use changes that.
    pub(super) of: Option<usize>,
    /// The setting that it is the age of.
    pub(super) setting: u8,
    /// How long that takes. Unit: s.
    pub(super) limit_s: u32,
    /// How much of it is left at the start; [`NEVER`] where it does not run. Unit: s.
    pub(super) left_s: u32,
    /// The zone where somebody must be once it is over, until what it is the age of has ended.
    pub(super) attended: Option<usize>,
}

/// The number of a variable that the search does without.
pub(super) const NOWHERE: usize = usize::MAX;

/// The time of what does not come by itself.
pub(super) const NEVER: u32 = u32::MAX;

/// The problem, compiled.
#[derive(Debug, Clone)]
pub(super) struct Compiled {
    /// The vehicle's number of each variable.
    pub(super) variables: Vec<usize>,
    pub(super) start: Beliefs,
    pub(super) zone: usize,
    pub(super) steps: Vec<Step>,
    pub(super) rules: Vec<Rule>,
    pub(super) aims: Vec<Aim>,
    /// Ages that a step of use waits for.
    pub(super) clocks: Vec<Clock>,
    /// No step can meet one of the aims.
    pub(super) hopeless: bool,
}

impl Compiled {
    /// Whether a step may be taken.
    pub(super) fn is_permitted(&self, beliefs: &[u8], step: &Step) -> bool {
        step.before.iter().all(|lit| lit.must_hold(beliefs))
            && !step.rules.iter().filter_map(|one| self.rules.get(*one)).any(|rule| {
                let mut made_possible = false;
                rule.lits.iter().all(|lit| {
                    let new = step.new_settings(lit.var);
                    made_possible |= new & lit.set != 0 && !lit.must_hold(beliefs);
                    (settings_of(at(beliefs, lit.var)) | new) & lit.set != 0
                }) && made_possible
            })
    }

    /// The same with every age old as soon as it begins, and nothing to be there for: what costs no
    /// less than this takes.
    pub(super) fn without_waiting(&self) -> Self {
        let at_once = |clock: &Clock| Clock {
            limit_s: 0,
            left_s: if clock.left_s == NEVER { NEVER } else { 0 },
            attended: None,
            ..*clock
        };
        Self { clocks: self.clocks.iter().map(at_once).collect(), ..self.clone() }
    }

    /// Whether a danger clause, and whether a damage clause, that was broken at the start still is.
    pub(super) fn broken(&self, beliefs: &[u8]) -> (bool, bool) {
        let any = |severity: Severity| {
            let mut rules = self.rules.iter();
            rules.any(|rule| {
                rule.to_get_out_of && rule.severity == severity && rule.is_broken(beliefs)
            })
        };
        (any(Severity::Danger), any(Severity::Damage))
    }

    /// The clock that a step waits for.
    pub(super) fn clock_of(&self, step: &Step) -> Option<usize> {
        let waits_for = |change: &Change| {
            self.clocks.iter().position(|clock| !change.spoilt && clock.var == change.var)
        };
        step.changes.iter().filter(|_| step.deed == Deed::Wait).find_map(waits_for)
    }

    /// The steps that can begin a clock: by moving a thing to its setting, or finding it there.
    pub(super) fn beginning(&self, clock: &Clock) -> Vec<usize> {
        let begins = |change: &Change| {
            Some(change.var) == clock.of && (change.to | change.seen) & clock.setting != 0
        };
        let steps = self.steps.iter().enumerate();
        let found = steps.filter(|(_, step)| step.changes.iter().any(begins));
        found.map(|(number, _)| number).collect()
    }

    /// When each age is old, once a step ends: begun anew by what moves a thing to its setting, or
    /// first finds it there. Sets what is old by then.
    pub(super) fn let_pass(
        &self,
        step: &Step,
        before: &[u8],
        after: &mut Beliefs,
        ripe_s: &mut [u32],
        now_s: u32,
    ) {
        for (clock, ripe_s) in self.clocks.iter().zip(ripe_s) {
            if let Some(of) = clock.of {
                let rests = |beliefs: &[u8]| settings_of(at(beliefs, of)) == clock.setting;
                if !rests(after) {
                    *ripe_s = NEVER;
                } else if step.new_settings(of) != 0 || !rests(before) {
                    *ripe_s = now_s.saturating_add(clock.limit_s);
                }
            }
            if *ripe_s <= now_s
                && let Some(age) = after.get_mut(clock.var)
            {
                *age = (*age & FRESH) | Settings::one(AgeOf::OLD).bits();
            }
        }
    }
}

pub(super) fn settings_of(belief: u8) -> u8 {
    belief & SETTINGS
}

pub(super) fn is_fresh(belief: u8) -> bool {
    belief & FRESH != 0
}

pub(super) fn at(beliefs: &[u8], var: usize) -> u8 {
    beliefs.get(var).copied().unwrap_or(0)
}

impl Lit {
    pub(super) fn may_hold(self, beliefs: &[u8]) -> bool {
        settings_of(at(beliefs, self.var)) & self.set != 0
    }

    pub(super) fn must_hold(self, beliefs: &[u8]) -> bool {
        settings_of(at(beliefs, self.var)) & !self.set == 0
    }
}

impl Rule {
    pub(super) fn is_broken(&self, beliefs: &[u8]) -> bool {
        !self.only_open && self.lits.iter().all(|lit| lit.must_hold(beliefs))
    }

    /// Whether a literal that a step leaves alone does not hold and never will, by what is of use.
    pub(super) fn is_off_for_good(&self, of_use: &OfUse, step: &Step) -> bool {
        self.lits.iter().any(|lit| {
            at(&of_use.reached, lit.var) & lit.set == 0
                && !step.changes.iter().any(|change| change.var == lit.var)
        })
    }
}

impl Aim {
    pub(super) fn is_met(&self, beliefs: &[u8]) -> bool {
        self.lits
            .iter()
            .any(|lit| lit.must_hold(beliefs) && (!self.fresh || is_fresh(at(beliefs, lit.var))))
    }
}

impl Step {
    /// What is believed once the step was taken.
    pub(super) fn apply(&self, beliefs: &[u8]) -> Beliefs {
        let mut after = beliefs.to_vec();
        for change in &self.changes {
            if let Some(belief) = after.get_mut(change.var) {
                *belief = self.outcome(change, *belief);
            }
        }
        after
    }

    /// What is believed of one variable once the step was taken.
    pub(super) fn belief_after(&self, beliefs: &[u8], var: usize) -> u8 {
        let own = self.changes.iter().filter(|change| change.var == var);
        own.fold(at(beliefs, var), |belief, change| self.outcome(change, belief))
    }

    /// Whether the step is one at all: a move that only freshens what one can look at is not, nor
    /// is a look that shows nothing new, nor what only throws something back.
    pub(super) fn is_of_effect(&self, before: &[u8], after: &[u8]) -> bool {
        self.changes.iter().filter(|change| !change.spoilt).any(|change| {
            let (was, is) = (at(before, change.var), at(after, change.var));
            let freshens = self.deed == Deed::Look || !change.can_look;
            settings_of(was) != settings_of(is) || (freshens && was != is)
        })
    }

    /// Whether it is of use, and nothing else that is waits for what it changes to be otherwise, or
    /// throws it back.
    pub(super) fn is_harmless(&self, number: usize, of_use: &OfUse) -> bool {
        let is_of_use = |step: &usize| of_use.steps.get(*step) == Some(&true);
        is_of_use(&number)
            && self.deed != Deed::Wait
            && !self.unwanted
            && !self.disputed_by.iter().any(is_of_use)
    }

    /// Whether the step can make a literal certain, or certain and `fresh`. A look finds what it
    /// finds at first; later it only freshens what something else has set.
    pub(super) fn may_bring_about(&self, lit: Lit, fresh: bool) -> bool {
        self.changes.iter().filter(|change| change.var == lit.var).any(|change| {
            let freshens = fresh && self.deed == Deed::Look && !change.spoilt;
            freshens || change.seen & !lit.set == 0
        })
    }

    /// Whether it makes this change: a look only sees what it looks at.
    pub(super) fn brings(&self, change: &Change) -> bool {
        change.spoilt || self.deed != Deed::Look
    }

    /// Whether it brings a literal of a rule about, on the way or in the end.
    pub(super) fn bears_on(&self, rule: &Rule) -> bool {
        rule.lits.iter().any(|lit| self.new_settings(lit.var) & lit.set != 0)
    }

    /// The settings that it brings a variable to, on the way and in the end; none where it leaves
    /// it alone.
    pub(super) fn new_settings(&self, var: usize) -> u8 {
        let changes = self.changes.iter().filter(|change| change.var == var);
        let changes = changes.filter(|change| self.brings(change));
        changes.fold(0, |set, change| set | change.to | change.middle)
    }

    /// What it makes of a belief.
    pub(super) fn outcome(&self, change: &Change, before: u8) -> u8 {
        let known = settings_of(before);
        let set = match self.deed {
            Deed::Look if !change.spoilt && known & change.to == 0 => known & known.wrapping_neg(),
            Deed::Look | Deed::Move | Deed::Wait => change.to,
        };
        if change.spoilt {
            let kept = if known == set { before & FRESH } else { 0 };
            return set | kept;
        }
        set | if change.asked { FRESH } else { 0 }
    }
}
