//! What a catalogue must satisfy before anything is computed from it.

mod gesture;
mod local;
mod settling;
mod step;
mod value;

mod cycle;

use std::collections::{BTreeMap, BTreeSet};

use super::kind::{Clause, Kind, Literal, Severity, Variable};
use super::target::{BACK, Fitted, Goal, VARIANTS_MAX, Variant};
use super::value::When;
use super::{Catalogue, Target, Text, fault};
use crate::error::Result;

/// Most settings that a variable may have: a belief is one byte.
pub(crate) const SETTINGS_MAX: usize = 6;

/// Checks every reference and every word.
pub(super) fn catalogue(catalogue: &Catalogue) -> Result<()> {
    for kind in catalogue.kinds.values() {
        let file = format!("kinds/{}.toml", kind.id);
        check_kind(catalogue, kind).map_err(|detail| fault(&file, &detail))?;
    }
    if let Some(cycle) = cycle::in_before(catalogue) {
        return Err(fault("kinds", &format!("each waits for the next: {}", cycle.join(", "))));
    }
    for target in &catalogue.targets {
        let file = format!("targets/{}.toml", target.id);
        check_target(catalogue, target).map_err(|detail| fault(&file, &detail))?;
    }
    for (id, rows) in &catalogue.local {
        local::check(rows).map_err(|detail| fault(&format!("local/{id}.toml"), &detail))?;
    }
    for (language, text) in &catalogue.texts {
        check_words(catalogue, text)
            .map_err(|detail| fault(&format!("text/{language}"), &detail))?;
    }
    Ok(())
}

type Check = std::result::Result<(), String>;

fn check_kind(catalogue: &Catalogue, kind: &Kind) -> Check {
    unique("variable", kind.variables.iter().map(|variable| &variable.id))?;
    unique("value", kind.values.iter().map(|value| &value.id))?;
    unique("move", kind.moves.iter().map(|step| &step.id))?;
    unique("clause", kind.clauses.iter().map(|clause| &clause.id))?;
    unique("chain", kind.chains.iter().map(|chain| &chain.id))?;
    kind.variables.iter().try_for_each(|one| check_variable(catalogue, kind, one))?;
    for chain in &kind.chains {
        check_literals(catalogue, kind, &chain.holds)?;
        if chain.holds.iter().any(|link| link.own.is_none() && link.all.is_none()) {
            return Err(format!("chain `{}` takes `own` or `all`", chain.id));
        }
    }
    kind.value_rules.iter().try_for_each(|rule| value::check_rule(kind, rule))?;
    kind.moves.iter().try_for_each(|step| step::check(catalogue, kind, step))?;
    for clause in &kind.clauses {
        check_clause(catalogue, kind, clause)?;
    }
    for (role, linked) in &kind.links {
        if !catalogue.kinds.contains_key(linked) {
            return Err(format!("link `{role}`: no kind `{linked}`"));
        }
    }
    settling::check(catalogue, kind)?;
    if let Some(gauge) = &kind.gauge {
        variable_of(kind, &gauge.variable)?;
        for ask in &gauge.asks {
            let there = ask.variable.split_once('.').and_then(|(head, name)| {
                Some((catalogue.kinds.get(head).filter(|at| at.always_in.is_some())?, name))
            });
            let (at, name) = there.unwrap_or((kind, &ask.variable));
            variable_of(at, name)?;
            check_when(kind, &ask.when)?;
        }
    }
    Ok(())
}

fn check_clause(catalogue: &Catalogue, kind: &Kind, clause: &Clause) -> Check {
    if clause.never.is_empty() || clause.source.is_empty() {
        return Err(format!("clause `{}` needs literals and a source", clause.id));
    }
    check_literals(catalogue, kind, &clause.never)?;
    check_literals(catalogue, kind, &clause.nor)?;
    if clause.never.iter().chain(&clause.nor).any(|literal| literal.held_for.is_some()) {
        return Err("`held_for` in a rule: what must come before a time is advice".to_owned());
    }
    check_when(kind, &clause.when)
}

fn check_variable(catalogue: &Catalogue, kind: &Kind, variable: &Variable) -> Check {
    check_settings(variable)?;
    gesture::check(kind, variable)?;
    check_spoilt(catalogue, kind, variable)?;
    let mut moves = variable.spoilt_by.iter().chain(&variable.kept_by);
    moves.try_for_each(|path| check_move(catalogue, path))?;
    check_literals(catalogue, kind, &variable.look_before)?;
    variable.lacks.iter().try_for_each(|lack| {
        check_setting(kind, &variable.id, &lack.setting)?;
        check_when(kind, &lack.when)
    })
}

fn check_settings(variable: &Variable) -> Check {
    let count = variable.settings.len();
    if !(2..=SETTINGS_MAX).contains(&count) {
        return Err(format!("variable `{}` has {count} settings, not 2 to 6", variable.id));
    }
    unique("setting", variable.settings.iter())?;
    for one in named(variable) {
        if !variable.settings.contains(one) {
            return Err(format!("variable `{}` has no setting `{one}`", variable.id));
        }
    }
    Ok(())
}

/// The setting that a variable is thrown back to says that something is still to do: nobody wants
/// it, and every rule about the variable holds while it is so.
fn check_spoilt(catalogue: &Catalogue, kind: &Kind, variable: &Variable) -> Check {
    let Some(undone) = &variable.spoilt_to else { return Ok(()) };
    let about = |literal: &&Literal, at: &Kind| {
        owner(catalogue, Some(at), literal)
            .is_ok_and(|(owner, name)| owner.id == kind.id && name == variable.id)
    };
    let kinds = || catalogue.kinds.values();
    let before = kinds().flat_map(|at| at.moves.iter().map(move |step| (at, &step.before)));
    let looks = kinds().flat_map(|at| at.variables.iter().map(move |one| (at, &one.look_before)));
    let wanted = before.chain(looks).any(|(at, literals)| {
        literals.iter().filter(|one| about(one, at)).any(|one| one.settings.contains(undone))
    });
    let rules = kinds().flat_map(|at| at.clauses.iter().map(move |clause| (at, clause)));
    let kept = rules.flat_map(|(at, clause)| {
        clause.never.iter().chain(&clause.nor).filter(move |one| about(one, at))
    });
    let kept = kept.into_iter().all(|one| one.settings.contains(undone));
    let targets = catalogue.targets.iter();
    let asked = targets.flat_map(|target| {
        target.goals.iter().chain(target.variants.iter().flat_map(|variant| &variant.goals))
    });
    let asked = asked.flat_map(|goal| &goal.any_of).any(|one| {
        owner(catalogue, None, one)
            .is_ok_and(|(owner, name)| owner.id == kind.id && name == variable.id)
            && one.settings.contains(undone)
    });
    if variable.dont_care && !wanted && kept && !asked {
        return Ok(());
    }
    Err(format!(
        "variable `{}`: nothing may want it to be `{undone}`, and it must be `dont_care`",
        variable.id
    ))
}

fn named(variable: &Variable) -> impl Iterator<Item = &String> {
    [&variable.middle, &variable.assume, &variable.usual, &variable.spoilt_to].into_iter().flatten()
}

fn check_move(catalogue: &Catalogue, path: &str) -> Check {
    let found = path.split_once('.').and_then(|(kind, step)| {
        catalogue.kinds.get(kind)?.moves.iter().find(|known| known.id == step)
    });
    if path == "*" || found.is_some() { Ok(()) } else { Err(format!("no move `{path}`")) }
}

fn check_when<'a>(kind: &Kind, conditions: impl IntoIterator<Item = &'a When>) -> Check {
    for when in conditions {
        let value = kind.values.iter().find(|value| value.id == when.value);
        if !value.is_some_and(|value| value.takes(&when.is)) {
            return Err(format!("no pack has `{when}`"));
        }
    }
    Ok(())
}

fn check_literals(catalogue: &Catalogue, kind: &Kind, literals: &[Literal]) -> Check {
    literals.iter().try_for_each(|literal| check_literal(catalogue, Some(kind), literal))
}

fn check_literal(catalogue: &Catalogue, kind: Option<&Kind>, literal: &Literal) -> Check {
    let named = [&literal.own, &literal.link, &literal.each, &literal.all, &literal.chain];
    let bare = literal.settings.is_empty();
    if named.iter().filter(|name| name.is_some()).count() != 1 || bare != literal.chain.is_some() {
        let form = "a literal has one of `own`, `link`, `each`, `all` and settings, or a `chain`";
        return Err(form.to_owned());
    }
    if let Some(path) = &literal.chain {
        let found = path.split_once('.').and_then(|(head, id)| {
            catalogue.kinds.get(head)?.chains.iter().find(|chain| chain.id == id)
        });
        let known = kind.is_some() && found.is_some();
        return if known { Ok(()) } else { Err(format!("no chain `{path}` here")) };
    }
    let (owner, variable) = owner(catalogue, kind, literal)?;
    for setting in &literal.settings {
        check_setting(owner, variable, setting)?;
    }
    for limit in literal.not_yet_for.iter().chain(&literal.held_for) {
        let known = kind.filter(|kind| kind.values.iter().any(|value| value.id == *limit));
        if known.is_none() || literal.own.is_none() || literal.settings.len() != 1 {
            return Err(format!("`{limit}` as an age goes with `own`, one setting and a value"));
        }
    }
    Ok(())
}

/// The kind whose variable a literal is about, and that variable.
fn owner<'a>(
    catalogue: &'a Catalogue,
    kind: Option<&'a Kind>,
    literal: &'a Literal,
) -> std::result::Result<(&'a Kind, &'a str), String> {
    let about = literal.about(kind);
    let (name, variable) = about.ok_or_else(|| format!("no variable is named by {literal:?}"))?;
    let owner = catalogue.kinds.get(name).ok_or_else(|| format!("no kind `{name}`"))?;
    Ok((owner, variable))
}

fn variable_of<'a>(kind: &'a Kind, id: &str) -> std::result::Result<&'a Variable, String> {
    kind.variables
        .iter()
        .find(|variable| variable.id == id)
        .ok_or_else(|| format!("kind `{}` has no variable `{id}`", kind.id))
}

fn check_setting(kind: &Kind, variable: &str, setting: &str) -> Check {
    if variable_of(kind, variable)?.settings.iter().any(|known| known == setting) {
        return Ok(());
    }
    Err(format!("`{}.{variable}` has no setting `{setting}`", kind.id))
}

fn check_target(catalogue: &Catalogue, target: &Target) -> Check {
    if target.id == BACK {
        return Err(format!("`{BACK}` stands for how things were"));
    }
    if let Some(odd) = target.needs.iter().find(|id| !catalogue.kinds.contains_key(*id)) {
        return Err(format!("no kind `{odd}`"));
    }
    target.before.iter().try_for_each(|literal| check_literal(catalogue, None, literal))?;
    check_goals(catalogue, &target.goals)?;
    check_says(catalogue, &target.id, &target.says)?;
    unique("variant", target.variants.iter().map(|variant| &variant.id))?;
    if target.variants.len() > VARIANTS_MAX {
        return Err(format!("more than {VARIANTS_MAX} variants"));
    }
    target.variants.iter().try_for_each(|variant| check_variant(catalogue, variant))?;
    target.ready_for.iter().try_for_each(|path| check_move(catalogue, path))
}

fn check_goals(catalogue: &Catalogue, goals: &[Goal]) -> Check {
    unique("goal", goals.iter().map(|goal| &goal.id))?;
    goals.iter().try_for_each(|goal| check_fitted(catalogue, &goal.when))?;
    if let Some(odd) =
        goals.iter().filter_map(|goal| goal.part.as_ref()).find(|it| it.contains('+'))
    {
        return Err(format!("part `{odd}`: `+` stands between parts"));
    }
    let mut literals = goals.iter().flat_map(|goal| goal.any_of.iter().chain(&goal.only_if));
    literals.try_for_each(|literal| check_literal(catalogue, None, literal))
}

/// A variant differs in goals, or in what choosing it says.
fn check_variant(catalogue: &Catalogue, variant: &Variant) -> Check {
    check_goals(catalogue, &variant.goals)?;
    check_says(catalogue, &variant.id, &variant.says)?;
    check_fitted(catalogue, &variant.only_if)
}

/// Facts that somebody can tell.
fn check_says(catalogue: &Catalogue, id: &str, says: &[Literal]) -> Check {
    for literal in says {
        check_literal(catalogue, None, literal)?;
        let (owner, name) = owner(catalogue, None, literal)?;
        let given = variable_of(owner, name)?.given;
        if !given || literal.settings.len() != 1 || literal.each.is_none() {
            return Err(format!("`{id}` says given facts, by `each`"));
        }
    }
    Ok(())
}

/// Values that some pack can have.
fn check_fitted(catalogue: &Catalogue, asked: &[Fitted]) -> Check {
    for Fitted { kind, value, is } in asked {
        let found = catalogue.kinds.get(kind).ok_or_else(|| format!("no kind `{kind}`"))?;
        match (value, is) {
            (None, None) => {}
            (Some(value), Some(is)) => {
                check_when(found, [&When { value: value.clone(), is: is.clone() }])?;
            }
            (None, Some(_)) | (Some(_), None) => {
                return Err("`value` and `is` go together".to_owned());
            }
        }
    }
    Ok(())
}

fn unique<'a>(what: &str, ids: impl Iterator<Item = &'a String>) -> Check {
    let mut seen = BTreeSet::new();
    for id in ids {
        if !seen.insert(id) {
            return Err(format!("two of {what} `{id}`"));
        }
    }
    Ok(())
}

/// What must have words has them, and no words stand where nothing says them.
fn check_words(catalogue: &Catalogue, text: &Text) -> Check {
    let known: BTreeMap<String, Need> = keys(catalogue).into_iter().collect();
    let must = known.iter().filter(|(_, need)| **need == Need::Must).map(|(key, _)| key);
    for key in must {
        if !text.has(key) {
            return Err(format!("no words for `{key}`"));
        }
    }
    let about = |key: &&str| ["kind.", "target.", "local."].iter().any(|at| key.starts_with(at));
    match text.keys().filter(about).find(|key| !known.contains_key(*key)) {
        Some(key) => Err(format!("words for `{key}`, which nothing says")),
        None => Ok(()),
    }
}

/// Whether a key must have words, or may.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Need {
    Must,
    May,
}

/// Every key below `kind` and `target` that may have words.
fn keys(catalogue: &Catalogue) -> Vec<(String, Need)> {
    let mut keys = Vec::new();
    for kind in catalogue.kinds.values() {
        keys_of(kind, &mut |rest, need| keys.push((format!("kind.{}.{rest}", kind.id), need)));
    }
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
    }
    keys.extend(local::keys(catalogue).into_iter().map(|key| (key, Need::Must)));
    let back = ["title", "reached", "goal.was"].map(|it| format!("target.{BACK}.{it}"));
    keys.extend(back.map(|key| (key, Need::May)));
    keys
}

/// An age says what is waited for.
/// A move that bears on a hazard has a caution and a danger clause says what to do where it is
/// broken; any other move may have a caution, and any look a sign by which a setting is told.
fn keys_of(kind: &Kind, key: &mut impl FnMut(String, Need)) {
    key("title".to_owned(), Need::Must);
    for variable in &kind.variables {
        key(format!("variable.{}", variable.id), Need::Must);
        for setting in &variable.settings {
            key(format!("setting.{}.{setting}", variable.id), Need::Must);
        }
        if variable.look_s.is_some() {
            key(format!("look.{}", variable.id), Need::Must);
            key(format!("sign.{}", variable.id), Need::May);
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
    for (_, _, limit) in kind.ages() {
        key(format!("wait.{limit}"), Need::Must);
    }
    kind.settlings.iter().for_each(|one| key(format!("settling.{}", one.id), Need::Must));
    kind.values.iter().for_each(|value| key(format!("value.{}", value.id), Need::Must));
}
