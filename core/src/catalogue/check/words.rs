//! Words: each where something says it, and none where nothing does.

use std::collections::{BTreeMap, BTreeSet};

use super::{Check, alert, figure, local, symptom};
use crate::card;
use crate::catalogue::target::BACK;
use crate::catalogue::{Catalogue, Kind, Literal, Severity, Text};

/// What must have words has them, and no words stand where nothing says them.
pub(super) fn check(catalogue: &Catalogue, text: &Text) -> Check {
    let known: BTreeMap<String, Need> = keys(catalogue).into_iter().collect();
    let must = known.iter().filter(|(_, need)| **need == Need::Must).map(|(key, _)| key);
    for key in must {
        if !text.has(key) {
            return Err(format!("no words for `{key}`"));
        }
    }
    let about = |key: &&str| {
        ["kind.", "fault.", "figure.", "figures.", "target.", "local."]
            .iter()
            .any(|at| key.starts_with(at))
    };
    match text.keys().filter(about).find(|key| !known.contains_key(*key)) {
        Some(key) => Err(format!("words for `{key}`, which nothing says")),
        None => Ok(()),
    }
}

/// Whether a key must have words, or may.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Need {
    Must,
    May,
}

/// Every key below `kind` and `target` that may have words.
fn keys(catalogue: &Catalogue) -> Vec<(String, Need)> {
    let mut keys = Vec::new();
    for kind in catalogue.kinds.values() {
        keys_of(kind, &mut |rest, need| keys.push((format!("kind.{}.{rest}", kind.id), need)));
    }
    catalogue.alerts.iter().for_each(|one| alert::keys(one, &mut keys));
    catalogue.faults.iter().for_each(|one| symptom::keys(one, &mut keys));
    catalogue.figures.iter().for_each(|one| figure::keys(one, &mut keys));
    for target in &catalogue.targets {
        let own = ["title", "reached"].map(str::to_owned).into_iter();
        let goals = target.goals.iter().map(|goal| format!("goal.{}", goal.id));
        let variants = target.variants.iter().flat_map(|variant| {
            let own = ["title", "about"].map(|it| format!("variant.{}.{it}", variant.id));
            let goals = variant.goals.iter();
            own.into_iter()
                .chain(goals.map(|goal| format!("goal.{}.{}", variant.id, goal.id)))
                .collect::<Vec<_>>()
        });
        let parts: BTreeSet<&String> =
            target.goals.iter().filter_map(|goal| goal.part.as_ref()).collect();
        let parts = parts.into_iter().map(|part| format!("part.{part}"));
        let all = own.chain(goals).chain(parts).chain(variants);
        keys.extend(all.map(|it| (format!("target.{}.{it}", target.id), Need::Must)));
        keys.push((format!("target.{}.words", target.id), Need::May));
        let ended =
            target.ends.iter().flat_map(|id| ["stands", "said", "unfinished"].map(|it| (id, it)));
        keys.extend(ended.map(|(id, it)| (format!("target.{id}.{it}"), Need::Must)));
    }
    keys.extend(local::keys(catalogue).into_iter().map(|key| (key, Need::Must)));
    let back = ["title", "reached", "goal.was"].map(|it| format!("target.{BACK}.{it}"));
    keys.extend(back.map(|key| (key, Need::May)));
    keys
}

/// Every kind has its card, and may have what an owner calls it. An age says what is waited for.
///
/// A move that bears on a hazard has a caution and a danger clause says what to do where it is
/// broken; any other move may have a caution, any look a sign by which a setting is told, and
/// whatever may be stuck what to do instead.
fn keys_of(kind: &Kind, key: &mut impl FnMut(String, Need)) {
    key("title".to_owned(), Need::Must);
    key("words".to_owned(), Need::May);
    for section in card::SECTIONS {
        key(format!("card.{section}"), Need::Must);
    }
    for variable in &kind.variables {
        key(format!("variable.{}", variable.id), Need::Must);
        for setting in &variable.settings {
            key(format!("setting.{}.{setting}", variable.id), Need::Must);
        }
        if variable.look_s.is_some() {
            key(format!("look.{}", variable.id), Need::Must);
            key(format!("sign.{}", variable.id), Need::May);
        }
        if !variable.given {
            key(format!("stuck.{}", variable.id), Need::May);
        }
    }
    for step in &kind.moves {
        key(format!("move.{}", step.id), Need::Must);
        let need = if step.hazard { Need::Must } else { Need::May };
        key(format!("caution.{}", step.id), need);
    }
    for clause in &kind.clauses {
        key(format!("clause.{}", clause.id), Need::Must);
        if clause.severity == Severity::Danger {
            key(format!("danger.{}", clause.id), Need::Must);
        }
    }
    for limit in kind.ages().filter_map(Literal::limit) {
        key(format!("wait.{limit}"), Need::Must);
    }
    kind.settlings.iter().for_each(|one| key(format!("settling.{}", one.id), Need::Must));
    kind.values.iter().for_each(|value| key(format!("value.{}", value.id), Need::Must));
}
