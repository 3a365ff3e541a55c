//! The pages of a search, in words.

use super::super::alert::changes;
use super::super::card::{alert_link, card_links};
use super::super::loaded::Loaded;
use super::super::page::{
    AnswerRow, CauseRow, CheckRow, ContraryRow, FaultPage, FaultRow, FaultStage, LikelyRow,
    LinkRow, RedRow, TriedRow,
};
use super::super::run::seconds;
use super::super::words::Words;
use super::{CANNOT, CAUSE, Search, answers_to};
use crate::alert::{Shown, shown};
use crate::clock::Stamp;
use crate::fault::{Plan, STATES_MAX, Said, contrary, plan};
use crate::interlock::must_hold;
use crate::vehicle::{Alert, Cause, Helper, Literal, Tool};

impl Loaded {
    pub(super) fn fault_row(&self, words: &Words, search: &Search) -> FaultRow {
        let fault = search.fault;
        let zones = crate::card::zones(&self.vehicle, fault.fitting);
        let zone = zones.first().copied().unwrap_or_default();
        FaultRow {
            id: fault.id.clone(),
            title: words.fault(fault, "title"),
            zone_id: words.zone_id(zone),
            zone_title: words.zone(zone),
            stage: search.stage(),
            said_count: i32::try_from(search.said.len()).unwrap_or(i32::MAX),
        }
    }

    pub(super) fn fault_page(&self, words: &Words, search: &Search, now: &Stamp) -> FaultPage {
        let (fault, stage) = (search.fault, search.stage());
        let next = plan(&search.graph, &search.stand.node, STATES_MAX);
        let asking = stage == FaultStage::Asking;
        let settled = search.stand.settled.iter();
        let settled = settled.map(|known| self.known_answer(words, search, *known, now));
        // Of what was said of one thing the last counts.
        let counts = |(place, (_, said)): &(usize, &(i64, Said))| {
            let later = search.said.get(place.saturating_add(1)..).unwrap_or_default();
            !later.iter().any(|(_, other)| other.about() == said.about())
        };
        let tried = search.said.iter().enumerate().filter(counts).map(|(_, (entry, said))| {
            TriedRow { entry: *entry, text: words.said_of_fault(fault, *said) }
        });
        let likely = search.likely().into_iter().map(|(cause, chance)| LikelyRow {
            id: cause.id.clone(),
            text: words.fault(fault, &format!("cause.{}", cause.id)),
            chance_pct: rounded(chance * 100.0),
            chance_text: words.say(likelihood_key(chance), &[]),
        });
        let emergency = self.emergency(words, now);
        let calm = emergency.is_empty();
        let found = search.cause().filter(|_| calm && stage != FaultStage::Mended);
        let asking = asking && calm;
        let headline = if calm { stage_key(stage) } else { "impossible.emergency" };
        let mut page = FaultPage {
            fault: self.fault_row(words, search),
            emergency,
            headline: words.say(headline, &[]),
            cautions: words.fault_lines(fault, "caution"),
            question: next
                .question
                .filter(|_| asking)
                .and_then(|at| self.question_row(words, search, at)),
            expected_s: rounded(next.expected_s),
            gap_s: rounded(next.gap_s),
            expected_text: if asking { expected(words, &next) } else { String::new() },
            found: found.map(|(_, cause)| self.cause_row(words, search, cause)),
            likely: likely.collect(),
            settled: settled.collect(),
            contrary: self.contrary_rows(words, search, now),
            tried: tried.collect(),
            account: String::new(),
            cards: card_links(words, &fault.cards),
            shows_red: self.shows_red(words, search),
            source: fault.source.clone(),
            likelihood: fault.likelihood.clone(),
        };
        page.account = self.account(words, &page);
        page
    }

    /// What the fitting is known to show red now, then the alerts from which its search begins.
    fn shows_red(&self, words: &Words, search: &Search) -> Vec<RedRow> {
        let fault = search.fault;
        let shows = |alert: &Alert| shown(alert, search.beliefs) == Shown::Yes;
        let row = |(number, alert): (usize, &Alert)| {
            let own = alert.fitting == fault.fitting && shows(alert);
            let LinkRow { id, title } = alert_link(words, alert);
            let goes_with = own || fault.alerts.contains(&number);
            goes_with.then(|| RedRow { id, title, shows: shows(alert) })
        };
        let mut rows: Vec<_> = self.vehicle.alerts.iter().enumerate().filter_map(row).collect();
        rows.sort_by_key(|row| !row.shows);
        rows
    }

    /// What does not fit together, in words, and what to look at again.
    fn contrary_rows(&self, words: &Words, search: &Search, now: &Stamp) -> Vec<ContraryRow> {
        let said: Vec<_> = search.said.iter().map(|(_, said)| *said).collect();
        let answers = contrary(search.fault, &said).into_iter();
        let answers = answers.map(|(at, answer)| words.answered(search.fault, at, answer));
        let doubted = search.stand.doubted.iter();
        let doubted = doubted.map(|known| self.known_answer(words, search, *known, now));
        let row = |key: &str, look_again| ContraryRow { text: words.say(key, &[]), look_again };
        let answers: Vec<_> = answers.collect();
        let answers = (!answers.is_empty()).then(|| row("fault.contrary", answers));
        let anew = search.stand.anew.then(|| row("fault.anew", doubted.collect()));
        answers.into_iter().chain(anew).collect()
    }

    /// An answer that the vehicle's state gives, and how long ago what it rests on was said.
    fn known_answer(
        &self,
        words: &Words,
        search: &Search,
        (question, answer): (usize, usize),
        now: &Stamp,
    ) -> String {
        let asked = search.fault.questions.get(question);
        let ways = asked.and_then(|asked| Some(&asked.answers.get(answer)?.known));
        let holds = |way: &&Vec<_>| way.iter().all(|one| must_hold(search.beliefs, one));
        let way = ways.and_then(|ways| ways.iter().find(holds));
        let known = |one: &Literal| self.state.belief(one.variable)?.known.as_ref();
        let ages: Option<Vec<i64>> =
            way.into_iter().flatten().filter_map(known).map(|one| one.at.age_ms(now)).collect();
        let age = words.age(ages.and_then(|ages| ages.into_iter().max()));
        let what = words.answered(search.fault, question, answer);
        words.say("fault.known", &[("what", &what), ("age", &age)])
    }

    fn question_row(&self, words: &Words, search: &Search, at: usize) -> Option<CheckRow> {
        let (fault, node) = (search.fault, &search.stand.node);
        let question = fault.questions.get(at)?;
        let id = &question.id;
        let walk_s = question.zone.map_or(0, |zone| self.vehicle.walks.between(node.zone, zone));
        let answers = question.answers.iter().map(|answer| AnswerRow {
            id: answer.id.clone(),
            text: words.fault(fault, &format!("answer.{id}.{}", answer.id)),
        });
        let cannot = AnswerRow { id: CANNOT.to_owned(), text: words.say("fault.cannot", &[]) };
        let tool = (question.tool != Tool::Nothing).then(|| question.tool.code());
        Some(CheckRow {
            id: id.clone(),
            text: words.fault(fault, &format!("ask.{id}")),
            how: words.fault_lines(fault, &format!("how.{id}")),
            zone_id: question.zone.map_or_else(String::new, |zone| words.zone_id(zone)),
            zone_title: question.zone.map_or_else(String::new, |zone| words.zone(zone)),
            walk_s: seconds(walk_s),
            hands_on_s: seconds(question.seconds),
            tool_text: tool.map(|tool| words.say(&format!("fault.tool.{tool}"), &[])),
            hazard: question.danger,
            cautions: words.fault_lines(fault, &format!("danger.{id}")),
            answers: answers.chain([cannot]).collect(),
        })
    }

    fn cause_row(&self, words: &Words, search: &Search, cause: &Cause) -> CauseRow {
        let fault = search.fault;
        let actions = cause.steps.iter().filter_map(|number| self.vehicle.actions.get(*number));
        let steps = actions.filter(|action| changes(action, search.beliefs));
        let helper = cause.ask.map(Helper::code);
        let number = fault.causes.iter().position(|one| one.id == cause.id);
        let answers = number.map_or_else(Vec::new, |number| answers_to(fault, number));
        let answers = answers.into_iter().map(|id| AnswerRow {
            id: id.to_owned(),
            text: words.say(&format!("fault.{id}"), &[]),
        });
        CauseRow {
            id: format!("{CAUSE}{}", cause.id),
            text: words.fault(fault, &format!("cause.{}", cause.id)),
            remedy: words.fault_lines(fault, &format!("remedy.{}", cause.id)),
            helper_text: helper.map(|who| words.say(&format!("fault.helper.{who}"), &[])),
            routine: cause.routine.iter().find_map(|key| self.routine_link(words, key)),
            steps: steps.map(|action| Self::action_row(words, action)).collect(),
            cards: card_links(words, &cause.cards),
            answers: answers.collect(),
        }
    }

    /// What does not work, what was known and tried, and what it came to: to be handed on.
    fn account(&self, words: &Words, page: &FaultPage) -> String {
        let head = [("title", page.fault.title.as_str()), ("vehicle", &self.vehicle.title)];
        let listed = |heading: &str, lines: Vec<&str>| {
            let heading = (!lines.is_empty()).then(|| words.say(heading, &[]));
            let lines = lines.into_iter().map(|line| format!("- {line}"));
            heading.into_iter().chain(lines).collect::<Vec<_>>()
        };
        let tried = page.tried.iter().map(|row| row.text.as_str()).collect();
        let settled = page.settled.iter().map(String::as_str).collect();
        let found = page.found.iter().map(|cause| cause.text.as_str()).collect();
        let mut lines = vec![words.say("fault.account", &head)];
        lines.extend(listed("fault.account_tried", tried));
        lines.extend(listed("fault.account_known", settled));
        lines.extend(listed("fault.account_found", found));
        lines.push(page.headline.clone());
        lines.join("\n")
    }
}

fn stage_key(stage: FaultStage) -> &'static str {
    match stage {
        FaultStage::Asking => "fault.asking",
        FaultStage::Found => "fault.found",
        FaultStage::Normal => "fault.normal",
        FaultStage::Helper => "fault.ask_helper",
        FaultStage::Mended => "fault.all_well",
    }
}

/// How likely a cause is, in a word: a sense of size, no more than that.
fn likelihood_key(chance: f64) -> &'static str {
    match chance {
        _ if chance >= 0.995 => "fault.chance.sure",
        _ if chance >= 0.5 => "fault.chance.likely",
        _ if chance >= 0.15 => "fault.chance.may_be",
        _ => "fault.chance.seldom",
    }
}

/// The expected time in words, and how far it may be from the best.
fn expected(words: &Words, plan: &Plan) -> String {
    let time = |s: f64| words.time(i64::from(rounded(s)).saturating_mul(1_000));
    let slots = [("time", time(plan.expected_s)), ("gap", time(plan.gap_s))];
    let slots = slots.each_ref().map(|(slot, said)| (*slot, said.as_str()));
    let key = if plan.gap_s > 0.0 { "fault.expected_at_most" } else { "fault.expected" };
    words.say(key, &slots)
}

/// To the nearest whole number; what is not one counts as 0.
fn rounded(number: f64) -> i32 {
    let whole = crate::reserve::whole("number", number, 1, 0..=i64::from(i32::MAX));
    whole.ok().and_then(|whole| i32::try_from(whole).ok()).unwrap_or(0)
}
