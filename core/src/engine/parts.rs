//! The parts of a target that can be asked for alone, and what they hang on that nobody has said.

use std::collections::BTreeSet;

use super::loaded::Loaded;
use super::page::PartRow;
use super::words::{Words, once};
use crate::catalogue::{Goal, Target, Text};
use crate::error::Result;
use crate::interlock::{may_hold, must_hold};

impl Loaded {
    /// What a person has to say of the place before it is known what a target asks there, in words.
    pub(super) fn unsaid(&self, words: &Words, target: &Target) -> Result<Vec<String>> {
        let named = target.variant.as_deref().unwrap_or_default();
        let meant = |part: &str| named.is_empty() || named.split('+').any(|one| one == part);
        let beliefs: Vec<_> = self.state.beliefs.iter().map(|belief| belief.settings).collect();
        let mut unsaid = Vec::new();
        for (_, goal) in self.in_parts(target)?.into_iter().filter(|(part, _)| meant(part)) {
            for literal in &goal.only_if {
                let asked = self.vehicle.any_of(std::slice::from_ref(literal))?;
                let open = asked
                    .into_iter()
                    .flatten()
                    .filter(|one| may_hold(&beliefs, one) && !must_hold(&beliefs, one));
                unsaid.extend(open.map(|one| words.label(one.variable)));
            }
        }
        Ok(once(unsaid))
    }

    /// The parts of a target that this vehicle has, by id.
    pub(super) fn parts(&self, text: &Text, target: &Target) -> Result<Vec<PartRow>> {
        let parts: BTreeSet<&str> =
            self.in_parts(target)?.into_iter().map(|(part, _)| part).collect();
        let row = |part: &str| PartRow {
            id: part.to_owned(),
            title: text.say(&format!("target.{}.part.{part}", target.id), &[]),
        };
        Ok(parts.into_iter().map(row).collect())
    }

    /// Names the parts of a target that this vehicle has, and asks for what is not said.
    pub(super) fn part_lines(
        &self,
        words: &Words,
        target: &Target,
        unsaid: &[String],
    ) -> Result<Vec<String>> {
        let parts: Vec<_> =
            self.parts(words.text, target)?.into_iter().map(|row| row.title).collect();
        let mut lines = Vec::new();
        if !parts.is_empty() && target.variant.is_none() {
            lines.push(words.say("parts.list", &[("parts", &parts.join(", "))]));
        }
        if !unsaid.is_empty() {
            lines.push(words.say("parts.unsaid", &[("what", &unsaid.join(", "))]));
        }
        Ok(lines)
    }

    /// The goals of a target that belong to a part and ask something of this vehicle, each with it.
    fn in_parts(&self, target: &Target) -> Result<Vec<(&str, &Goal)>> {
        if target.back_to.is_some() {
            return Ok(Vec::new());
        }
        let mut found = Vec::new();
        for goal in &self.catalogue.target(&target.id)?.goals {
            let Some(part) = goal.part.as_deref() else { continue };
            if !self.vehicle.any_of(&goal.any_of)?.is_empty() {
                found.push((part, goal));
            }
        }
        Ok(found)
    }
}
