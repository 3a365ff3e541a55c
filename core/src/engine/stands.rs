//! What a routine left the vehicle in until another one ends it: laid up for winter.

use super::loaded::Loaded;
use super::page::{ItemRow, StandsRow};
use super::words::{Words, once};
use crate::catalogue::Target;
use crate::clock::Stamp;
use crate::error::Result;
use crate::interlock::{self, Goal, must_hold};
use crate::state::{Act, How, Known, NewEntry};
use crate::vehicle::Literal;

impl Loaded {
    /// What the vehicle stands in at `now`, and what to offer first; nothing while the routine that
    /// leads into it is under way. It follows from what was said alone: opening that routine says it,
    /// closing it when it is finished says it again, and so may anybody. Where only the opening did,
    /// the routine was left before its end and is itself what comes next.
    pub(super) fn stands(&self, words: &Words, now: &Stamp) -> Result<Option<StandsRow>> {
        let under_way = self.state.run.as_ref().map(|run| self.aim_of_run(&run.target));
        let under_way = under_way.transpose()?.map(|aim| aim.id);
        for ending in self.catalogue.targets.iter().filter(|one| self.lacking(one).is_none()) {
            let Some(ended) = &ending.ends else { continue };
            let target = self.catalogue.target(ended)?;
            let Some(known) = self.last_said(target)? else { continue };
            if under_way.as_ref() == Some(ended) {
                continue;
            }
            let finished = !self.is_of_opening(known.seq);
            let (items, not_seen) = self.left_of(words, target, now)?;
            let said = self.entries.iter().find(|entry| entry.seq == known.seq);
            let carried_out = said.is_some_and(|entry| entry.said.act == Act::Close);
            // What only time may have changed was carried out all the same.
            let stands = carried_out && items.iter().all(|one| !one.known_bad || self.settled(one));
            let (word, leads) = match (finished, stands) {
                (true, true) => ("stands", ending),
                (true, false) => ("said", ending),
                (false, _) => ("unfinished", target),
            };
            let at = said.map(|entry| entry.said.at.utc_ms);
            return Ok(Some(StandsRow {
                headline: words.text.say(&format!("target.{ended}.{word}"), &[]),
                finished,
                since_utc_ms: at.filter(|at| *at <= now.utc_ms),
                target_id: leads.id.clone(),
                target_title: words.aim(&leads.id),
                led_id: target.id.clone(),
                led_title: words.aim(&target.id),
                items,
                not_seen,
            }));
        }
        Ok(None)
    }

    /// What a target asks and is not so, or not known to be so, as rows; and what is so by somebody's
    /// word alone, or because nobody said anything. How long ago it was seen does not count.
    fn left_of(
        &self,
        words: &Words,
        target: &Target,
        now: &Stamp,
    ) -> Result<(Vec<ItemRow>, Vec<String>)> {
        let goals = self.goals(target)?;
        let beliefs = self.state.settings(&self.vehicle, now);
        let verdict = interlock::verdict(&self.vehicle, &goals, &beliefs, |_| true);
        let rows = self.items(words, target, &goals, &verdict.items, &beliefs);
        let holds = |goal: &&Goal| goal.any_of.iter().any(|one| must_hold(&beliefs, one));
        let is_seen = |one: &Literal| must_hold(&beliefs, one) && self.is_seen(one);
        let by_word = goals.iter().filter(holds).filter(|goal| !goal.any_of.iter().any(is_seen));
        Ok((rows, once(by_word.map(|goal| self.title(words, target, goal)))))
    }

    /// Whether only time has made something what it is, as far as is known.
    fn settled(&self, item: &ItemRow) -> bool {
        let variable = self.vehicle.variable(&item.variable).ok();
        let belief = variable.and_then(|variable| self.state.belief(variable));
        let known = belief.and_then(|belief| belief.known.as_ref());
        known.is_some_and(|known| known.settled.is_some())
    }

    /// Whether somebody made or saw something, or a gauge showed it, rather than only said it.
    fn is_seen(&self, literal: &Literal) -> bool {
        let known = self.state.belief(literal.variable).and_then(|belief| belief.known.as_ref());
        known.is_some_and(|known| matches!(known.how, How::Done | How::Looked | How::Reading))
    }

    /// What was the last to say all that a target says, where somebody did and it holds still.
    fn last_said(&self, target: &Target) -> Result<Option<&Known>> {
        let facts = self.facts_said(target)?;
        let known = facts.iter().map(|fact| {
            let belief = self.state.belief(fact.variable)?;
            belief.known.as_ref().filter(|_| belief.settings.is_within(fact.settings))
        });
        let known: Option<Vec<_>> = known.collect();
        Ok(known.and_then(|all| all.into_iter().max_by_key(|known| known.seq)))
    }

    /// Whether an entry is what opening a routine, or taking it up again, says of itself.
    fn is_of_opening(&self, seq: i64) -> bool {
        let before = self.entries.iter().rev().find(|entry| entry.seq < seq);
        before.is_some_and(|entry| matches!(entry.said.act, Act::Open { .. } | Act::Resume))
    }

    /// That the routine under way is closed. One that another ends, and that is finished, says with
    /// it that what it led to stands.
    pub(super) fn closed(&self, words: &Words, now: &Stamp) -> Result<NewEntry> {
        let close = self.in_run(Act::Close, now)?;
        let Some(run) = &self.state.run else { return Ok(close) };
        let aim = self.aim_of_run(&run.target)?;
        let is_ended = self.catalogue.targets.iter().any(|one| one.ends.as_ref() == Some(&aim.id));
        if !is_ended || !self.page(words, &aim, now)?.finished {
            return Ok(close);
        }
        let facts = self.choice(&aim, now)?.map_or_else(Vec::new, |said| said.facts);
        Ok(NewEntry { facts, ..close })
    }
}
