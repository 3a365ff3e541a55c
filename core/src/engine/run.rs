//! The routine under way: planned anew from the present state each time it is shown.

use super::loaded::Loaded;
use super::page::{ChoiceRow, DoneRow, OrderProof, RoutinePage, RunRow, StepKind, StepRow};
use super::way::Way;
use super::words::Words;
use crate::catalogue::{Severity, Target};
use crate::clock::Stamp;
use crate::error::Result;
use crate::interlock::{GoalOf, Refusal, VerdictKind, refusals};
use crate::routine::{Plan, Problem, Proof};
use crate::state::{Act, Entry};
use crate::vehicle::{Action, Deed, Settings};

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
        let mut page = self.page(&words, self.catalogue.target(&run.target)?, now)?;
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
        let problem = self.problem(self.goals(target)?, now)?;
        let verdict = self.verdict(&problem.goals, now)?;
        let way = Way::find(problem, &self.state.left);
        let (problem, plan) = (&way.problem, way.plan.as_ref());
        let steps = plan.map_or_else(Vec::new, |plan| self.steps(words, target, problem, plan));
        let cost = plan.map(|plan| plan.cost).unwrap_or_default();
        let finished = verdict.kind == VerdictKind::Clear && steps.is_empty();
        let title = words.text.say(&format!("target.{}.title", target.id), &[]);
        let reached = words.text.say(&format!("target.{}.reached", target.id), &[]);
        let headline = match (finished, steps.len()) {
            (true, _) => words.say("verdict.reached", &[("what", &title)]),
            (false, 0) => words.say("verdict.no_way", &[]),
            (false, left) => words.count("verdict.not_reached", left),
        };
        Ok(RoutinePage {
            run: RunRow {
                id: 0,
                target_id: target.id.clone(),
                target_title: title,
                paused: false,
                done_count: 0,
                left_count: count(steps.len()),
            },
            verdict: verdict.kind,
            headline,
            steps,
            done: Vec::new(),
            stuck: self.stuck(words),
            warnings: self.standing_warnings(words, now)?,
            impossible: self.impossible(words, target, &way),
            proof: plan.map_or(OrderProof::None, |plan| proof(plan.proof)),
            elapsed_s: seconds(cost.elapsed_s),
            walk_s: seconds(cost.walk_s),
            finished,
            end_text: if finished { reached } else { String::new() },
            resumed_from_pause: false,
        })
    }

    /// What holds for the whole page: the clock was changed, the departure lapsed.
    fn standing_warnings(&self, words: &Words, now: &Stamp) -> Result<Vec<String>> {
        let mut warnings = Vec::new();
        if self.state.clock_changed(now) {
            warnings.push(words.say("verdict.clock_changed", &[]));
        } else if self.has_lapsed(now)? {
            warnings.push(words.say("verdict.lapsed", &[]));
        }
        Ok(warnings)
    }

    fn stuck(&self, words: &Words) -> Vec<DoneRow> {
        let known = || self.state.stuck.values().chain(self.state.left.values());
        let stuck = |entry: &&Entry| known().any(|seq| *seq == entry.seq);
        self.entries.iter().filter(stuck).map(|entry| self.log_row(words, entry)).collect()
    }

    fn steps(
        &self,
        words: &Words,
        target: &Target,
        problem: &Problem,
        plan: &Plan,
    ) -> Vec<StepRow> {
        let mut beliefs = problem.beliefs.clone();
        let mut zone = problem.zone;
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
            let mut row = self.step(words, action, &beliefs, zone);
            row.why = self.why(words, target, problem, action, &beliefs, &later);
            rows.push(row);
            for effect in &action.effects {
                if let Some(cell) = beliefs.get_mut(effect.variable) {
                    *cell = action.outcome(effect, *cell);
                }
            }
            zone = action.zone;
        }
        rows
    }

    fn step(&self, words: &Words, action: &Action, beliefs: &[Settings], from: usize) -> StepRow {
        let main = action.effects.iter().find(|effect| !effect.spoilt);
        let outcome = main.map(|effect| {
            let before = beliefs.get(effect.variable).copied().unwrap_or_default();
            (effect.variable, action.outcome(effect, before))
        });
        let wanted = outcome.map(|(variable, settings)| {
            format!("{}: {}", words.label(variable), words.settings(variable, settings))
        });
        let mut cautions: Vec<String> = words.caution(action).into_iter().collect();
        if action.irreversible {
            cautions.push(words.say("warn.irreversible", &[]));
        }
        StepRow {
            id: action.id.clone(),
            kind: match action.deed {
                Deed::Move => StepKind::Move,
                Deed::Look => StepKind::Look,
            },
            text: words.step(action),
            wanted: Words::sentence(&wanted.unwrap_or_default()),
            cautions,
            why: Vec::new(),
            zone_id: self.vehicle.zones.get(action.zone).map_or("", |zone| &zone.id).to_owned(),
            zone_title: words.zone(action.zone),
            hazard: action.hazard,
            hands_on_s: seconds(action.seconds),
            walk_s: seconds(self.vehicle.walks.between(from, action.zone)),
            irreversible: action.irreversible,
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
    fn why(
        &self,
        words: &Words,
        target: &Target,
        problem: &Problem,
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
            let serves = problem.goals.iter().filter(|goal| {
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
            for refusal in before.into_iter().filter(|one| !now.contains(one)) {
                if let Refusal::Clause(_) = refusal {
                    add(words.refusal(refusal));
                }
                frees.push(words.step(other));
            }
        }
        frees.dedup();
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

    /// What a command would break or break off: said with it, never in its way.
    pub(super) fn objections(&self, words: &Words, action: &Action, now: &Stamp) -> Vec<String> {
        let refused = refusals(&self.vehicle, &self.state.settings(&self.vehicle, now), action);
        let reasons = refused.into_iter().map(|one| words.refusal(one));
        reasons.map(|reason| words.say("warn.refused", &[("reason", &reason)])).collect()
    }

    /// The danger and damage clauses that are broken now, in words.
    pub(super) fn broken_now(&self, words: &Words, now: &Stamp) -> Vec<String> {
        let goals =
            crate::interlock::ways_out(&self.vehicle, &self.state.settings(&self.vehicle, now));
        let clauses = goals.iter().filter_map(|goal| match goal.of {
            GoalOf::Clause(number) => self.vehicle.clauses.get(number),
            GoalOf::Target(_) | GoalOf::Condition => None,
        });
        clauses
            .filter(|clause| clause.severity != Severity::Nuisance)
            .map(|clause| words.clause(clause))
            .collect()
    }
}

fn count(n: usize) -> i32 {
    i32::try_from(n).unwrap_or(i32::MAX)
}

fn seconds(s: u32) -> i32 {
    i32::try_from(s).unwrap_or(i32::MAX)
}

fn proof(proof: Proof) -> OrderProof {
    match proof {
        Proof::Exact => OrderProof::Exact,
        Proof::Gap { seconds: gap } => OrderProof::Gap { gap_s: seconds(gap) },
    }
}
