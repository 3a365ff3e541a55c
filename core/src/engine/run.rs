//! The routine under way, as planned from the present state.

use super::loaded::Loaded;
use super::page::{
    ChoiceRow, DoneRow, EmergencyRow, OrderProof, RoutinePage, RunRow, StepKind, StepRow, StuckRow,
};
use super::stop::gesture_count;
use super::way::{Way, is_told};
use super::words::{Words, once, together};
use crate::catalogue::{Severity, Target};
use crate::clock::Stamp;
use crate::error::Result;
use crate::interlock::{Goal, Refusal, Standing, VerdictKind, refusals, standing};
use crate::routine::{Plan, Proof};
use crate::state::{Act, Entry};
use crate::vehicle::{Action, Clause, Deed, Literal, Settings};

/// Most later steps that are named as waiting for a step.
const FREES_MAX: usize = 3;

impl Loaded {
    /// Ticks and looks of a run that still count, in order.
    pub(super) fn done_in_run(&self, run: i64) -> impl DoubleEndedIterator<Item = &Entry> {
        self.entries.iter().filter(move |entry| {
            entry.said.run == Some(run)
                && matches!(entry.said.act, Act::Tick { .. } | Act::Look { .. })
                && !self.voided.contains(&entry.seq)
        })
    }

    /// The page of the routine under way, if any.
    pub(super) fn routine(&self, language: &str, now: &Stamp) -> Result<Option<RoutinePage>> {
        let words = self.words(language)?;
        let Some(run) = &self.state.run else {
            return Ok(None);
        };
        let mut page = self.page(&words, &self.aim_of_run(&run.target)?, now)?;
        page.done =
            self.done_in_run(run.id).rev().map(|entry| self.log_row(&words, entry)).collect();
        page.run.id = run.id;
        page.run.paused = run.paused;
        page.run.done_count = count(page.done.len());
        page.resumed_from_pause = run.resumed;
        Ok(Some(page))
    }

    /// The way to a target from where everything stands, whether a routine is under way or not.
    pub(super) fn page(&self, words: &Words, target: &Target, now: &Stamp) -> Result<RoutinePage> {
        let way = self.way(target, now)?;
        let mut verdict = way.verdict(&self.vehicle).kind;
        let unsaid = self.unsaid(words, target)?;
        if !unsaid.is_empty() && verdict == VerdictKind::Clear {
            verdict = VerdictKind::Unknown;
        }
        let plan = way.plan.as_ref();
        let steps = plan.map_or_else(Vec::new, |plan| self.steps(words, target, &way, plan, now));
        let by_stop = self.stops(words, &way.gestures, &steps);
        let cost = plan.map(|plan| plan.cost).unwrap_or_default();
        let finished = verdict == VerdictKind::Clear && steps.is_empty();
        let title = words.aim(&target.key());
        let reached = words.text.say(&format!("target.{}.reached", target.id), &[]);
        let headline = match (finished, steps.len()) {
            (true, _) => words.say("verdict.reached", &[("what", &title)]),
            (false, 0) if !unsaid.is_empty() => words.say("parts.headline", &[]),
            (false, 0) => words.say("verdict.no_way", &[]),
            (false, left) => words.count("verdict.not_reached", left),
        };
        let mut warnings = self.standing_warnings(words, now)?;
        warnings.extend(self.part_lines(words, target, &unsaid)?);
        Ok(RoutinePage {
            run: RunRow {
                id: 0,
                target_id: target.named(),
                target_title: title,
                paused: false,
                done_count: 0,
                left_count: count(steps.len()),
                road: target.road,
            },
            verdict,
            headline,
            part_end: self.part_end(words, &steps),
            waits_s: self.waits_s(&steps, now),
            again_s: self.again_s(&steps, now),
            until_utc_ms: Self::until(&steps, now),
            gesture_count: gesture_count(&by_stop),
            stops: by_stop,
            steps,
            done: Vec::new(),
            stuck: self.stuck(words),
            cannot_move: self.cannot_move(words, target),
            warnings,
            impossible: self.impossible(words, target, &way),
            proof: plan.map_or(OrderProof::None, |plan| proof(plan.proof)),
            elapsed_s: seconds(cost.elapsed_s),
            walk_s: seconds(cost.walk_s),
            finished,
            end_text: if finished { reached } else { String::new() },
            resumed_from_pause: false,
            variants: Vec::new(),
        })
    }

    /// What holds for the whole page: what to do and leave alone in the dangers that stand now, that
    /// the clock was changed, that the departure lapsed.
    fn standing_warnings(&self, words: &Words, now: &Stamp) -> Result<Vec<String>> {
        let dangers = self.broken_now(now).filter_map(|clause| words.danger(clause));
        let mut warnings: Vec<_> = together(dangers).into_iter().collect();
        if self.state.clock_changed(now) {
            warnings.push(words.say("verdict.clock_changed", &[]));
        } else if self.has_lapsed(now)? {
            warnings.push(words.say("verdict.lapsed", &[]));
        }
        warnings.extend(self.be_there(words, now));
        Ok(warnings)
    }

    /// What to do in the dangers that stand now and that no step leads out of: an alarm sounds, and
    /// only somebody's word ends that.
    pub(super) fn emergency(&self, words: &Words, now: &Stamp) -> Vec<EmergencyRow> {
        let row = |goal: &Goal| {
            let text = words.danger(goal.clause(&self.vehicle)?)?;
            let told = goal.any_of.first()?.variable;
            let settings = *self.state.settings(&self.vehicle, now).get(told)?;
            let literal = Literal { variable: told, settings };
            Some(EmergencyRow {
                variable: self.vehicle.variables.get(told)?.id.clone(),
                title: Words::sentence(&words.literal(&literal)),
                text,
                choices: self.choices(words, told, Settings::NONE),
            })
        };
        let goals = self.broken_goals(now);
        goals.iter().filter(|goal| self.has_no_step(goal)).filter_map(row).collect()
    }

    fn stuck(&self, words: &Words) -> Vec<DoneRow> {
        let known = || self.state.stuck.values().chain(self.state.left.values());
        let stuck = |entry: &&Entry| known().any(|seq| *seq == entry.seq);
        self.entries.iter().filter(stuck).map(|entry| self.log_row(words, entry)).collect()
    }

    fn cannot_move(&self, words: &Words, target: &Target) -> Vec<StuckRow> {
        let stuck = self.state.stuck.keys();
        stuck.filter_map(|variable| self.stuck_row(words, target, *variable)).collect()
    }

    fn steps(
        &self,
        words: &Words,
        target: &Target,
        way: &Way,
        plan: &Plan,
        now: &Stamp,
    ) -> Vec<StepRow> {
        let mut beliefs = way.start.beliefs.clone();
        let mut zone = way.start.zone;
        let mut rows = Vec::new();
        for (at, number) in plan.steps.iter().enumerate() {
            let Some(action) = self.vehicle.actions.get(*number) else {
                continue;
            };
            let later: Vec<&Action> = plan
                .steps
                .iter()
                .skip(at.saturating_add(1))
                .filter_map(|later| self.vehicle.actions.get(*later))
                .collect();
            let from = zone;
            zone = plan.zone(&self.vehicle, at).unwrap_or(zone);
            let mut row = self.step(words, action, &beliefs, from);
            if let Some(wait_s) = plan.wait_s.get(&at) {
                let walk_s = self.vehicle.walks.between(from, zone);
                let is_next = rows.iter().all(|row: &StepRow| row.kind == StepKind::Wait);
                let walked_s = if is_next { walk_s.min(self.stood_s(now)) } else { 0 };
                row = Self::waiting(words, row, zone, wait_s.saturating_add(walked_s));
                row.walk_s = seconds(walk_s.saturating_sub(walked_s));
            }
            let before = plan.steps.get(..at).unwrap_or_default();
            row.cautions.extend(self.old_grounds(words, action, &beliefs, before, now));
            row.why = self.why(words, target, &way.goals, action, &beliefs, &later);
            rows.push(row);
            action.apply(&mut beliefs);
        }
        rows
    }

    /// How long ago the last step was made: whoever only waits since then may be there by now.
    fn stood_s(&self, now: &Stamp) -> u32 {
        let then = self.state.stood.as_ref().and_then(|(_, then)| then.age_ms(now));
        then.and_then(|age_ms| u32::try_from(age_ms / 1_000).ok()).unwrap_or(u32::MAX)
    }

    /// The row of a wait: it is spent where the next step is, and says what is left of it there.
    pub(super) fn waiting(words: &Words, row: StepRow, zone: usize, wait_s: u32) -> StepRow {
        let time = words.time(i64::from(wait_s).saturating_mul(1_000));
        StepRow {
            text: words.say("wait", &[("step", &row.text), ("time", &time)]),
            zone_id: words.zone_id(zone),
            zone_title: words.zone(zone),
            wait_s: seconds(wait_s),
            ..row
        }
    }

    pub(super) fn step(
        &self,
        words: &Words,
        action: &Action,
        beliefs: &[Settings],
        from: usize,
    ) -> StepRow {
        let main = action.effects.iter().find(|effect| !effect.spoilt);
        let outcome = main.map(|effect| {
            let before = beliefs.get(effect.variable).copied().unwrap_or_default();
            (effect.variable, action.outcome(effect, before))
        });
        let wanted = outcome.map(|(variable, settings)| {
            format!("{}: {}", words.label(variable), words.settings(variable, settings))
        });
        let mut cautions = words.cautions(action);
        if action.irreversible {
            cautions.push(words.say("warn.irreversible", &[]));
        }
        StepRow {
            id: action.id.clone(),
            kind: StepKind::of(action.deed),
            text: words.step(action),
            wanted: Words::sentence(&wanted.unwrap_or_default()),
            cautions,
            why: Vec::new(),
            zone_id: words.zone_id(action.zone),
            zone_title: words.zone(action.zone),
            hazard: action.hazard,
            hands_on_s: seconds(action.seconds),
            wait_s: 0,
            walk_s: seconds(self.vehicle.walks.between(from, action.zone)),
            irreversible: action.irreversible,
            card: self.vehicle.fittings.get(action.fitting).map(|one| one.id.clone()),
            choices: match (action.deed, outcome) {
                (Deed::Look, Some((variable, expected))) => self.choices(words, variable, expected),
                _ => Vec::new(),
            },
        }
    }

    /// What a variable may be found to be, `first` before the others.
    pub(super) fn choices(&self, words: &Words, number: usize, first: Settings) -> Vec<ChoiceRow> {
        let Some(variable) = self.vehicle.variables.get(number) else {
            return Vec::new();
        };
        let others = variable.all.minus(first);
        let names = [variable.names_of(first), variable.names_of(others)].concat();
        let choice =
            |id: String| ChoiceRow { text: Words::sentence(&words.setting(variable, &id)), id };
        names.into_iter().map(choice).collect()
    }

    /// Every reason for a step: what it is wanted for, what it must come before, what is not known.
    pub(super) fn why(
        &self,
        words: &Words,
        target: &Target,
        goals: &[Goal],
        action: &Action,
        beliefs: &[Settings],
        later: &[&Action],
    ) -> Vec<String> {
        let mut why = Vec::new();
        let mut add = |said: String| {
            if !said.is_empty() && !why.contains(&said) {
                why.push(said);
            }
        };
        for effect in action.effects.iter().filter(|effect| !effect.spoilt) {
            let before = beliefs.get(effect.variable).copied().unwrap_or_default();
            let outcome = action.outcome(effect, before);
            let serves = goals.iter().filter(|goal| {
                goal.any_of.iter().any(|literal| {
                    let all = self.vehicle.variables.get(literal.variable).map(|one| one.all);
                    literal.variable == effect.variable
                        && outcome.is_within(literal.settings)
                        && all != Some(literal.settings)
                })
            });
            serves.for_each(|goal| add(self.reason(words, target, goal)));
            if action.deed == Deed::Look {
                let known = words.settings(effect.variable, before);
                add(match before.single() {
                    Some(_) => words.say("why.stale", &[("seen", &known)]),
                    None => words.say("why.unknown", &[]),
                });
            }
        }
        let mut after = beliefs.to_vec();
        for effect in &action.effects {
            if let Some(cell) = after.get_mut(effect.variable) {
                *cell = action.outcome(effect, *cell);
            }
        }
        let mut frees = Vec::new();
        for other in later {
            let now = refusals(&self.vehicle, &after, other);
            let before = refusals(&self.vehicle, beliefs, other);
            let lifted: Vec<_> = before.into_iter().filter(|one| !now.contains(one)).collect();
            // Where it is a condition of the later step, naming that step says enough.
            let is_condition = |one: &Refusal| matches!(one, Refusal::Before(_));
            if !lifted.iter().any(is_condition) {
                for refusal in &lifted {
                    add(words.refusal(*refusal));
                }
            }
            if !lifted.is_empty() {
                frees.push(words.step(other));
            }
        }
        for step in frees.iter().take(FREES_MAX) {
            add(words.say("why.before", &[("step", step)]));
        }
        if let Some(more) = frees.len().checked_sub(FREES_MAX).filter(|more| *more > 0) {
            add(words.say("why.before_more", &[("n", &more.to_string())]));
        }
        let note = self.vehicle.fittings.get(action.fitting).map_or("", |one| one.note.as_str());
        if !note.is_empty() {
            add(words.say("why.note", &[("note", note)]));
        }
        why
    }

    /// Every reason why an action may not be made for what is believed, each once.
    pub(super) fn objections(
        &self,
        words: &Words,
        action: &Action,
        beliefs: &[Settings],
    ) -> Vec<String> {
        let refused = refusals(&self.vehicle, beliefs, action);
        once(refused.into_iter().map(|one| words.refusal(one)))
    }

    /// The nuisance clauses that are broken now, in words.
    pub(super) fn bothers(&self, words: &Words, now: &Stamp) -> Vec<String> {
        let beliefs = self.state.settings(&self.vehicle, now);
        let is_bother = |clause: &&Clause| {
            clause.severity == Severity::Nuisance && standing(&beliefs, clause) == Standing::Broken
        };
        once(self.vehicle.clauses.iter().filter(is_bother).map(|clause| words.clause(clause)))
    }

    /// The danger and damage clauses that are broken now: danger first, and of these first what no
    /// step leads out of.
    pub(super) fn broken_now(&self, now: &Stamp) -> impl Iterator<Item = &Clause> {
        self.broken_goals(now).into_iter().filter_map(|goal| goal.clause(&self.vehicle))
    }

    fn broken_goals(&self, now: &Stamp) -> Vec<Goal> {
        let beliefs = self.state.settings(&self.vehicle, now);
        let mut goals = crate::interlock::ways_out(&self.vehicle, &beliefs);
        goals.sort_by_key(|goal| (goal.severity, !self.has_no_step(goal)));
        // Of rules about the same thing told, the first says what to do.
        let told = |goal: &Goal| self.has_no_step(goal).then(|| goal.variables());
        goals.dedup_by(|later, first| told(later).is_some_and(|own| told(first) == Some(own)));
        goals
    }

    /// Whether a goal is to be out of a danger that stands and that no step leads out of.
    pub(super) fn is_emergency(&self, goal: &Goal, beliefs: &[Settings]) -> bool {
        let clause = goal.clause(&self.vehicle);
        let danger = clause.filter(|clause| clause.severity == Severity::Danger);
        danger.is_some_and(|clause| standing(beliefs, clause) == Standing::Broken)
            && self.has_no_step(goal)
    }

    /// Whether no step can meet a goal: it asks only for what is told, or cannot be moved.
    fn has_no_step(&self, goal: &Goal) -> bool {
        goal.any_of
            .iter()
            .all(|one| is_told(&self.vehicle, one) || self.state.stuck.contains_key(&one.variable))
    }
}

pub(super) fn count(n: usize) -> i32 {
    i32::try_from(n).unwrap_or(i32::MAX)
}

pub(super) fn seconds(s: u32) -> i32 {
    i32::try_from(s).unwrap_or(i32::MAX)
}

pub(super) fn proof(proof: Proof) -> OrderProof {
    match proof {
        Proof::Exact => OrderProof::Exact,
        Proof::Gap { seconds: gap } => OrderProof::Gap { gap_s: seconds(gap) },
    }
}
