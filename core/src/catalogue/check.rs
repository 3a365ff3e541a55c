//! What a catalogue must satisfy before anything is computed from it.

mod alert;
mod figure;
mod gesture;
mod local;
mod settling;
mod spoilt;
mod step;
mod symptom;
mod value;
mod words;

mod cycle;

use std::collections::BTreeSet;

use super::kind::{Clause, Draws, Kind, Literal, Measured, Variable};
use super::target::{BACK, Fitted, Goal, VARIANTS_MAX, Variant};
use super::value::When;
use super::{Catalogue, Target, fault};
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
    alert::check(catalogue)?;
    symptom::check(catalogue)?;
    figure::check(catalogue)?;
    for (id, rows) in &catalogue.local {
        local::check(rows).map_err(|detail| fault(&format!("local/{id}.toml"), &detail))?;
    }
    for (language, text) in &catalogue.texts {
        words::check(catalogue, text)
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
    kind.values.iter().try_for_each(value::check_value)?;
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
        check_end(variable_of(kind, &gauge.variable)?, &gauge.ends_at)?;
        for ask in &gauge.asks {
            let there = ask.variable.split_once('.').and_then(|(head, name)| {
                Some((catalogue.kinds.get(head).filter(|at| at.always_in.is_some())?, name))
            });
            let (at, name) = there.unwrap_or((kind, &ask.variable));
            variable_of(at, name)?;
            check_when(kind, &ask.when)?;
        }
    }
    kind.draws.as_ref().map_or(Ok(()), |draws| check_draws(catalogue, kind, draws))
}

fn check_draws(catalogue: &Catalogue, kind: &Kind, draws: &Draws) -> Check {
    let Draws { from, down_to, variable, below, above } = draws;
    let gauge = catalogue.kinds.get(from).and_then(|from| from.gauge.as_ref());
    if gauge.is_none_or(|gauge| gauge.of != Measured::Tank) {
        return Err(format!("draws from `{from}`, which has no tank with a gauge"));
    }
    if kind.values.iter().all(|value| value.id != *down_to) {
        return Err(format!("draws down to `{down_to}`, no value"));
    }
    check_setting(kind, variable, below)?;
    check_setting(kind, variable, above)
}

/// Use must lead to the end from one side: the middle setting would leave open from which.
fn check_end(shown: &Variable, end: &str) -> Check {
    let place = shown.settings.iter().position(|setting| setting == end);
    let place = place.ok_or_else(|| format!("gauge ends at `{end}`, no setting"))?;
    let last = shown.settings.len().saturating_sub(1);
    if place.saturating_mul(2) == last {
        return Err(format!("gauge ends at `{end}`, the middle setting"));
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
    spoilt::check(catalogue, kind, variable)?;
    let mut moves = variable.spoilt_by.iter().chain(&variable.kept_by);
    moves.try_for_each(|path| check_move(catalogue, path))?;
    check_literals(catalogue, kind, &variable.look_before)?;
    check_literals(catalogue, kind, &variable.absent_where)?;
    if variable.absent_to.is_none() != variable.absent_where.is_empty() {
        return Err("`absent_to` and `absent_where` go together".to_owned());
    }
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

fn named(variable: &Variable) -> impl Iterator<Item = &String> {
    let Variable { middle, assume, usual, spoilt_to, absent_to, .. } = variable;
    [middle, assume, usual, spoilt_to, absent_to].into_iter().flatten()
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
    if let Some(limit) = literal.limit() {
        let known = kind.filter(|kind| kind.values.iter().any(|value| value.id == limit));
        if known.is_none() || literal.settings.len() != 1 {
            return Err(format!("`{limit}` as an age goes with one setting and a pack value"));
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
    target
        .before
        .iter()
        .chain(&target.put_back)
        .try_for_each(|literal| check_literal(catalogue, None, literal))?;
    check_goals(catalogue, &target.goals)?;
    check_says(catalogue, &target.id, &target.says)?;
    target.ends.iter().try_for_each(|ended| check_ended(catalogue, ended))?;
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

/// Only what a target says can stand until another ends it.
fn check_ended(catalogue: &Catalogue, ended: &str) -> Check {
    match catalogue.targets.iter().find(|target| target.id == ended) {
        Some(target) if !target.says.is_empty() => Ok(()),
        Some(_) => Err(format!("`{ended}` says nothing that could be ended")),
        None => Err(format!("no target `{ended}`")),
    }
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
