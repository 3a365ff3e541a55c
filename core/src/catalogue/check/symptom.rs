//! What a symptom's file must satisfy, and the words it needs.

use super::alert::{check_links, kind};
use super::words::Need;
use super::{Check, check_literal, check_when, unique};
use crate::catalogue::{Catalogue, Cause, Fault, Question, fault};
use crate::error::Result;
use crate::fault::QUESTIONS_MAX;

/// What an answer may not be called: what may be said of every question.
const CANNOT: &str = "cannot";

/// How far the chances of a question's answers may be from adding up to 1.
const SUM_ERROR: f64 = 1e-9;

/// Checks every symptom.
pub(super) fn check(catalogue: &Catalogue) -> Result<()> {
    for one in &catalogue.faults {
        let file = format!("faults/{}.toml", one.symptom);
        check_fault(catalogue, one).map_err(|detail| fault(&file, &detail))?;
    }
    Ok(())
}

fn check_fault(catalogue: &Catalogue, one: &Fault) -> Check {
    if one.kinds.is_empty() || one.source.is_empty() || one.likelihood.is_empty() {
        return Err("a fault has a kind, a source and a likelihood".to_owned());
    }
    for id in &one.kinds {
        let own = kind(catalogue, id)?;
        one.literals().try_for_each(|literal| check_literal(catalogue, Some(own), literal))?;
    }
    if one.literals().any(|literal| literal.limit().is_some()) {
        return Err("ages belong to rules".to_owned());
    }
    one.cards.iter().try_for_each(|other| kind(catalogue, other).map(|_| ()))?;
    let known = |path: &String| {
        catalogue.alerts.iter().any(|alert| format!("{}.{}", alert.kind, alert.id) == *path)
    };
    if let Some(path) = one.alerts.iter().find(|path| !known(path)) {
        return Err(format!("no alert `{path}`"));
    }
    unique("cause", one.causes.iter().map(|cause| &cause.id))?;
    unique("check", one.questions.iter().map(|question| &question.id))?;
    one.causes.iter().try_for_each(|cause| check_cause(catalogue, one, cause))?;
    let rest = one.causes.last().ok_or("a fault has causes")?;
    let hangs = !rest.of.is_empty() || !rest.needs.is_empty() || !rest.when.is_empty();
    if hangs || rest.unless.is_some() || rest.ask.is_none() {
        return Err("the last cause is anything else: it hangs on nothing and `ask`s".to_owned());
    }
    if one.questions.len() > QUESTIONS_MAX {
        return Err(format!("at most {QUESTIONS_MAX} checks"));
    }
    let mut before: Vec<&String> = Vec::new();
    for question in &one.questions {
        check_question(catalogue, one, question, &before)
            .map_err(|detail| format!("check `{}`: {detail}", question.id))?;
        before.push(&question.id);
    }
    Ok(())
}

fn check_cause(catalogue: &Catalogue, one: &Fault, cause: &Cause) -> Check {
    let id = &cause.id;
    if cause.weight == 0 {
        return Err(format!("cause `{id}`: a weight above 0"));
    }
    if cause.of.iter().any(|of| !one.kinds.contains(of)) {
        return Err(format!("cause `{id}`: `of` names kinds of the fault"));
    }
    let fitted = cause.needs.iter().chain(&cause.cards);
    fitted.into_iter().try_for_each(|other| kind(catalogue, other).map(|_| ()))?;
    for own in &one.kinds {
        check_when(kind(catalogue, own)?, &cause.when)?;
    }
    check_links(catalogue, cause.routine.as_ref(), &cause.steps)?;
    if cause.ask.is_some() && (cause.routine.is_some() || !cause.steps.is_empty()) {
        return Err(format!("cause `{id}`: who `ask`s somebody does nothing"));
    }
    Ok(())
}

fn check_question(
    catalogue: &Catalogue,
    one: &Fault,
    question: &Question,
    before: &[&String],
) -> Check {
    if question.seconds == 0 {
        return Err("it takes a second at least".to_owned());
    }
    for path in &question.at {
        let (id, variable) =
            path.split_once('.').map_or((path.as_str(), None), |(id, name)| (id, Some(name)));
        let at = kind(catalogue, id)?;
        if variable.is_some_and(|name| at.variables.iter().all(|known| known.id != name)) {
            return Err(format!("no `{path}`"));
        }
        for when in &question.at_when {
            if at.values.iter().any(|value| value.id == when.value) {
                check_when(at, std::slice::from_ref(when))?;
            }
        }
    }
    if let Some(late) = question.after.iter().find(|id| !before.contains(id)) {
        return Err(format!("`after` names earlier checks, not `{late}`"));
    }
    unique("answer", question.answers.iter().map(|answer| &answer.id))?;
    if question.answers.len() < 2 || question.answers.iter().any(|answer| answer.id == CANNOT) {
        return Err(format!("two answers or more, none called `{CANNOT}`"));
    }
    for answer in &question.answers {
        let of_causes = || one.causes.iter().map(|cause| &cause.id);
        let named = answer.leaves.iter().flatten().chain(&answer.rules_out);
        let named = named.chain(answer.chance.keys());
        if let Some(other) = named.into_iter().find(|id| of_causes().all(|known| known != *id)) {
            return Err(format!("no cause `{other}`"));
        }
        if answer.leaves.is_some() && !answer.rules_out.is_empty() {
            return Err(format!("answer `{}`: `leaves` or `rules_out`", answer.id));
        }
        if !of_causes().any(|cause| answer.allows(cause)) {
            return Err(format!("answer `{}` leaves no cause", answer.id));
        }
        if answer.says.iter().any(|literal| literal.settings.len() != 1) {
            return Err(format!("answer `{}`: what it says is one setting", answer.id));
        }
    }
    for cause in &one.causes {
        let chances = question.chances(&cause.id);
        let sum: f64 = chances.iter().sum();
        let fit = chances.iter().all(|chance| (0.0..=1.0).contains(chance));
        if !fit || (sum - 1.0).abs() > SUM_ERROR {
            return Err(format!(
                "under cause `{}` the chances are not 0 to 1, or add up to {sum}",
                cause.id
            ));
        }
    }
    Ok(())
}

/// The keys of a symptom's words.
pub(super) fn keys(one: &Fault, keys: &mut Vec<(String, Need)>) {
    let at = one.words();
    let mut must = |rest: String| keys.push((format!("{at}.{rest}"), Need::Must));
    must("title".to_owned());
    must("caution".to_owned());
    for cause in &one.causes {
        must(format!("cause.{}", cause.id));
        must(format!("remedy.{}", cause.id));
    }
    for question in &one.questions {
        must(format!("ask.{}", question.id));
        must(format!("how.{}", question.id));
        for answer in &question.answers {
            must(format!("answer.{}.{}", question.id, answer.id));
        }
    }
    keys.push((format!("{at}.words"), Need::May));
    for question in &one.questions {
        let need = if question.danger { Need::Must } else { Need::May };
        keys.push((format!("{at}.danger.{}", question.id), need));
    }
}
