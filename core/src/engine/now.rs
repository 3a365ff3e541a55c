//! The first page: what the vehicle is doing, and whether it is ready to drive or what blocks it.

use super::loaded::{Loaded, ROAD};
use super::page::{FridgePage, ItemRow, NowPage, RunRow, StuckRow};
use super::words::{Words, once, together};
use crate::catalogue::{Lasts, Target};
use crate::clock::Stamp;
use crate::error::Result;
use crate::interlock::{
    Fault, Goal, GoalOf, Item, Refusal, Standing, VerdictKind, refusals, standing,
};
use crate::vehicle::{Action, Deed, Literal, Settings, VariableId};

impl Loaded {
    pub(super) fn now_page(&self, language: &str, now: &Stamp) -> Result<NowPage> {
        let words = self.words(language)?;
        let target = self.catalogue.target(ROAD)?;
        let goals = self.goals(target)?;
        let verdict = self.verdict(&goals, now)?;
        let asked = asked(&goals);
        let oldest = self.state.oldest_look_ms(&self.vehicle, &goals, now);
        let oldest_look_text = oldest.map(|age_ms| words.age(Some(age_ms)));
        let beliefs = self.state.settings(&self.vehicle, now);
        let mut items = self.items(&words, target, &goals, &verdict.items, &beliefs);
        let wheels = self.state.moving_wheels(&self.vehicle).map(|wheels| &wheels.id);
        if let Some(wheels) = wheels {
            items.retain(|item| item.known_bad && item.variable != *wheels);
        }
        let known_bad = items.iter().filter(|item| item.known_bad).count();
        let met = asked.saturating_sub(items.len()).to_string();
        let all = asked.to_string();
        let (headline, detail) = match verdict.kind {
            _ if wheels.is_some() && known_bad > 0 => {
                (words.count("verdict.on_the_road_wrong", known_bad), String::new())
            }
            _ if wheels.is_some() => (words.say("verdict.on_the_road", &[]), String::new()),
            VerdictKind::Clear => (
                words.say("verdict.clear", &[("n", &all)]),
                match &oldest_look_text {
                    Some(age) => words.say("verdict.clear_detail", &[("age", age)]),
                    None => words.say("verdict.clear_detail_plain", &[]),
                },
            ),
            VerdictKind::Blocked => {
                let unknown = items.len().saturating_sub(known_bad);
                let key = if unknown == 0 { "verdict.detail" } else { "verdict.detail_unknown" };
                let unknown = unknown.to_string();
                let slots = [("met", &*met), ("n", &all), ("unknown", &unknown)];
                (words.count("verdict.blocked", known_bad), words.say(key, &slots))
            }
            VerdictKind::Unknown => (
                words.count("verdict.unknown", items.len()),
                words.say("verdict.detail", &[("met", &met), ("n", &all)]),
            ),
        };
        Ok(NowPage {
            emergency: self.emergency(&words, now),
            vehicle_title: self.vehicle.title.clone(),
            place_title: self.place(&words),
            moving: wheels.is_some(),
            verdict: verdict.kind,
            headline,
            detail,
            items,
            item_count: i32::try_from(asked).unwrap_or(i32::MAX),
            oldest_look_text,
            clock_changed: self.state.clock_changed(now),
            run: self.run_row(&words, now)?,
            stands: self.stands(&words, now)?,
            fridge: self.fridge_page(language, None, now)?.map(FridgePage::of_now),
            reminders: Vec::new(),
            remind_utc_ms: None,
        })
    }

    /// What was said of the place and for this trip, fact by fact.
    fn place(&self, words: &Words) -> String {
        let passing = self
            .vehicle
            .variables
            .iter()
            .enumerate()
            .filter(|(_, variable)| variable.given && variable.lasts != Lasts::Always);
        let said = passing.filter_map(|(number, _)| {
            let belief = self.state.belief(number).filter(|belief| belief.known.is_some())?;
            let literal = Literal { variable: number, settings: belief.settings };
            Some(Words::sentence(&words.literal(&literal)))
        });
        said.collect::<Vec<_>>().join(" · ")
    }

    /// The routine under way, if any, and how far it is.
    pub(super) fn run_row(&self, words: &Words, now: &Stamp) -> Result<Option<RunRow>> {
        let Some(run) = &self.state.run else {
            return Ok(None);
        };
        let aim = self.aim_of_run(&run.target)?;
        let left = self.steps_left(&aim, now)?;
        let count = |n: usize| i32::try_from(n).unwrap_or(i32::MAX);
        Ok(Some(RunRow {
            id: run.id,
            target_id: aim.named(),
            target_title: words.aim(&aim.key()),
            paused: run.paused,
            done_count: count(self.done_in_run(run.id).count()),
            left_count: count(left),
            road: aim.road,
        }))
    }

    /// A row for each thing in the way, what is known to be wrong first and danger before damage,
    /// else in catalogue order. What several rules ask of one variable is one thing.
    pub(super) fn items(
        &self,
        words: &Words,
        target: &Target,
        asked: &[Goal],
        items: &[Item],
        beliefs: &[Settings],
    ) -> Vec<ItemRow> {
        let mut merged: Vec<(Item, Vec<&Goal>)> = Vec::new();
        for item in items {
            let same = merged.iter_mut().find(|(known, _)| is_of_one(&known.goal, &item.goal));
            let Some((known, goals)) = same else {
                merged.push((item.clone(), vec![&item.goal]));
                continue;
            };
            goals.push(&item.goal);
            known.goal.severity = known.goal.severity.min(item.goal.severity);
            known.fault = known.fault.min(item.fault);
        }
        for (item, _) in &mut merged {
            let same: Vec<_> = asked.iter().filter(|goal| is_of_one(&item.goal, goal)).collect();
            if let [literal] = item.goal.any_of.as_mut_slice() {
                let sets = same.iter().flat_map(|goal| &goal.any_of).map(|one| one.settings);
                literal.settings = sets.fold(literal.settings, Settings::and);
            }
        }
        merged.sort_by_key(|(item, _)| (item.fault != Fault::Broken, item.goal.severity));
        merged.iter().map(|(item, goals)| self.item(words, target, item, goals, beliefs)).collect()
    }

    /// One row, for all `goals` that ask something of the same variable.
    fn item(
        &self,
        words: &Words,
        target: &Target,
        item: &Item,
        goals: &[&Goal],
        beliefs: &[Settings],
    ) -> ItemRow {
        let goal = &item.goal;
        let way = self.way_out(goal, beliefs);
        let main = way.map(|(_, literal)| literal).or_else(|| goal.any_of.first().copied());
        let variable = main.and_then(|literal| self.vehicle.variables.get(literal.variable));
        let broken = goals.iter().filter_map(|goal| goal.clause(&self.vehicle));
        let broken = broken.filter(|clause| standing(beliefs, clause) == Standing::Broken);
        let dangers = broken.filter_map(|clause| words.danger(clause));
        let cautions =
            dangers.chain(way.into_iter().flat_map(|(action, _)| words.cautions(action)));
        let all = |each: &dyn Fn(&Goal) -> String| once(goals.iter().map(|goal| each(goal)));
        ItemRow {
            variable: variable.map_or_else(String::new, |known| known.id.clone()),
            title: self.title(words, target, goal),
            wanted: match (goal.any_of.as_slice(), way) {
                ([_, _, ..], Some((_, literal))) => words.literal(&literal),
                _ => Self::wanted(words, goal),
            },
            seen: self.seen(words, goal, item.fault),
            reason: all(&|goal| self.reason(words, target, goal)).join(" "),
            source: all(&|goal| self.source(goal)).join("; "),
            severity: goal.severity,
            known_bad: item.fault == Fault::Broken,
            zone_title: variable.map_or_else(String::new, |known| words.zone(known.zone)),
            caution: together(cautions),
            stuck: goal.variables().into_iter().find_map(|one| self.stuck_row(words, target, one)),
        }
    }

    /// That something cannot be moved, and what to do instead.
    pub(super) fn stuck_row(
        &self,
        words: &Words,
        target: &Target,
        variable: VariableId,
    ) -> Option<StuckRow> {
        let entry = *self.state.stuck.get(&variable)?;
        let title = Words::sentence(&words.label(variable));
        Some(StuckRow { entry, title, text: words.instead(variable, target.road) })
    }

    /// What a goal is about; the rule itself where more than one thing hangs together.
    pub(super) fn title(&self, words: &Words, target: &Target, goal: &Goal) -> String {
        match goal.any_of.as_slice() {
            [one] => Words::sentence(&words.label(one.variable)),
            _ => self.reason(words, target, goal).trim_end_matches('.').to_owned(),
        }
    }

    pub(super) fn wanted(words: &Words, goal: &Goal) -> String {
        let one = |literal: &Literal| words.settings(literal.variable, literal.settings);
        let mut all: Vec<_> = goal.any_of.iter().map(one).collect();
        all.dedup();
        if let [same] = all.as_slice() {
            return same.clone();
        }
        let said: Vec<_> = goal.any_of.iter().map(|literal| words.literal(literal)).collect();
        words.any_of(&said)
    }

    pub(super) fn seen(&self, words: &Words, goal: &Goal, fault: Fault) -> String {
        let believed = |literal: &Literal| {
            let belief = self.state.belief(literal.variable);
            belief.map_or(Settings::NONE, |belief| belief.settings)
        };
        let said: Vec<_> = match goal.any_of.as_slice() {
            [literal] => vec![words.settings(literal.variable, believed(literal))],
            several => several
                .iter()
                .map(|one| words.literal(&Literal { settings: believed(one), ..*one }))
                .collect(),
        };
        let known = goal.any_of.iter().filter_map(|one| self.state.belief(one.variable));
        let settled = known.filter_map(|belief| words.settled(belief.known.as_ref()?));
        let settled = once(settled).join(", ");
        let mut seen = said.join(", ");
        if !settled.is_empty() {
            seen = words.say("verdict.settled", &[("seen", &seen), ("what", &settled)]);
        }
        match fault {
            Fault::NotFresh => words.say("verdict.not_fresh", &[("seen", &seen)]),
            Fault::Broken | Fault::NotKnown => seen,
        }
    }

    pub(super) fn reason(&self, words: &Words, target: &Target, goal: &Goal) -> String {
        match &goal.of {
            GoalOf::Clause(_) => {
                goal.clause(&self.vehicle).map_or_else(String::new, |clause| words.clause(clause))
            }
            GoalOf::Target(id) => words.text.say(&format!("target.{}.goal.{id}", target.id), &[]),
            GoalOf::Condition => words.say("verdict.condition", &[]),
            GoalOf::Runs(_) => words.say("verdict.runs", &[]),
            GoalOf::Found => words.say("verdict.found", &[]),
        }
    }

    fn source(&self, goal: &Goal) -> String {
        match &goal.of {
            GoalOf::Clause(_) => {
                goal.clause(&self.vehicle).map_or_else(String::new, |one| one.source.clone())
            }
            GoalOf::Target(_) | GoalOf::Condition | GoalOf::Runs(_) | GoalOf::Found => {
                crate::catalogue::NO_SOURCE.to_owned()
            }
        }
    }

    /// The move that mends a goal, and what it brings about: one that the goal's own rule does not
    /// forbid, one that may be made now before others, then the quickest.
    fn way_out(&self, goal: &Goal, beliefs: &[Settings]) -> Option<(&Action, Literal)> {
        let is_free = |one: &&Literal| !self.state.stuck.contains_key(&one.variable);
        let moves = || self.vehicle.actions.iter().filter(|action| action.deed == Deed::Move);
        let ways = goal.any_of.iter().filter(is_free).flat_map(|literal| {
            moves().filter_map(|action| Some((action, brought(action, literal)?)))
        });
        let own = goal.clause(&self.vehicle).map(|clause| (&clause.id, clause.fitting));
        ways.min_by_key(|(action, _)| {
            let refused = refusals(&self.vehicle, beliefs, action);
            let by_own = refused.iter().any(|one| match one {
                Refusal::Before(_) => false,
                Refusal::Clause(number) => {
                    let rule = self.vehicle.clauses.get(*number);
                    own.is_some() && rule.map(|rule| (&rule.id, rule.fitting)) == own
                }
            });
            (by_own, !refused.is_empty(), action.seconds)
        })
    }
}

/// What an action brings a literal's variable to, if that makes the literal true.
pub(super) fn brought(action: &Action, literal: &Literal) -> Option<Literal> {
    let mut to = action.effects.iter().filter(|effect| effect.variable == literal.variable);
    let settings = Settings::one(to.next()?.to);
    settings.is_within(literal.settings).then_some(Literal { settings, ..*literal })
}

/// Whether two goals ask something of the same one variable.
fn is_of_one(one: &Goal, other: &Goal) -> bool {
    match (one.any_of.as_slice(), other.any_of.as_slice()) {
        ([one], [other]) => one.variable == other.variable,
        _ => false,
    }
}

/// How many things are asked: what several rules ask of one variable is one thing.
fn asked(goals: &[Goal]) -> usize {
    let first = |at: usize, goal: &Goal| !goals.iter().take(at).any(|known| is_of_one(known, goal));
    goals.iter().enumerate().filter(|(at, goal)| first(*at, goal)).count()
}
