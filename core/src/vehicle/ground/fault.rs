//! The faults of the catalogue, spelled out for what is fitted.

use super::{Part, alert, fitting, rule};
use crate::catalogue::{self, Condition};
use crate::error::Result;
use crate::vehicle::{Answer, Cause, Fault, Literal, Question, Vehicle};

/// Adds the faults, in the catalogue's order.
pub(super) fn add(
    vehicle: &mut Vehicle,
    parts: &[Part],
    faults: &[catalogue::Fault],
) -> Result<()> {
    for fault in faults {
        let shows = |part: &&Part| fault.kinds.contains(&part.kind.id);
        let several = !fault.once && parts.iter().filter(shows).count() > 1;
        let most = if fault.once { 1 } else { usize::MAX };
        let grounded =
            parts.iter().filter(shows).take(most).map(|part| ground(vehicle, part, fault, several));
        let grounded = grounded.collect::<Result<Vec<_>>>()?;
        vehicle.faults.extend(grounded);
    }
    Ok(())
}

fn ground(
    vehicle: &Vehicle,
    part: &Part,
    fault: &catalogue::Fault,
    several: bool,
) -> Result<Fault> {
    let own = fitting(vehicle, part.number)?;
    let fitted = |kind: &String| vehicle.of_kind(kind).next().is_some();
    let causes: Vec<_> = fault
        .causes
        .iter()
        .filter(|cause| cause.of.is_empty() || cause.of.contains(&own.kind))
        .filter(|cause| cause.needs.iter().all(fitted) && rule::applies(own, &cause.when))
        .collect();
    let asked = fault.questions.iter().filter_map(|one| Some((one, place(vehicle, part, one)?)));
    let asked: Vec<_> = asked.collect();
    let question = |(one, at): &(&catalogue::Question, Place)| {
        let after = one.after.iter();
        let after = after.filter_map(|id| asked.iter().position(|(known, _)| known.id == *id));
        Ok(Question {
            id: one.id.clone(),
            fitting: at.map(|(number, _)| number),
            zone: at.map(|(_, zone)| zone),
            seconds: one.seconds,
            tool: one.tool,
            danger: one.danger,
            after: after.collect(),
            answers: answers(vehicle, part, one, &causes)?,
        })
    };
    Ok(Fault {
        id: if several { format!("{}.{}", fault.symptom, own.id) } else { fault.symptom.clone() },
        symptom: fault.symptom.clone(),
        fitting: part.number,
        source: fault.source.clone(),
        likelihood: fault.likelihood.clone(),
        cards: alert::cards(vehicle, part, fault.once, &fault.cards),
        alerts: alerts(vehicle, part, fault),
        questions: asked.iter().map(question).collect::<Result<_>>()?,
        causes: causes.iter().map(|one| cause(vehicle, part, one)).collect::<Result<_>>()?,
    })
}

/// The alerts from which the search begins, by number.
fn alerts(vehicle: &Vehicle, part: &Part, fault: &catalogue::Fault) -> Vec<usize> {
    let numbered = vehicle.alerts.iter().enumerate();
    let named = numbered.filter(|(_, alert)| {
        let kind = vehicle.fittings.get(alert.fitting).map(|one| one.kind.as_str());
        let own = |path: &String| {
            path.split_once('.').is_some_and(|(of, id)| {
                kind == Some(of)
                    && alert.words == format!("alert.{id}")
                    && (of != part.kind.id || fault.once || alert.cards.contains(&part.number))
            })
        };
        fault.alerts.iter().any(own)
    });
    named.map(|(number, _)| number).collect()
}

/// A fitting and a zone, or anywhere.
type Place = Option<(usize, usize)>;

/// Where a question is answered; `None` where what it is about is not fitted.
fn place(vehicle: &Vehicle, part: &Part, question: &catalogue::Question) -> Option<Place> {
    if question.at.is_empty() {
        return Some(None);
    }
    let of_path = |path: &String| {
        let (kind, name) = path.split_once('.').unwrap_or((path, ""));
        let own = kind == part.kind.id;
        let mut known = vehicle.of_kind(kind).filter(|(number, one)| {
            let other = |when: &&catalogue::value::When| {
                one.values.get(&when.value).is_some_and(|value| value.datum != when.is)
            };
            (!own || *number == part.number) && !question.at_when.iter().any(|when| other(&when))
        });
        let (number, _) = known.next()?;
        let mut variables = vehicle.variables.iter().filter(|one| one.fitting == number);
        let found = variables.find(|one| name.is_empty() || one.name == name)?;
        Some((number, found.zone))
    };
    question.at.iter().find_map(of_path).map(Some)
}

fn cause(vehicle: &Vehicle, part: &Part, cause: &catalogue::Cause) -> Result<Cause> {
    let cards = cause.cards.iter().flat_map(|kind| vehicle.of_kind(kind));
    let own = cards.filter(|(number, one)| one.kind != part.kind.id || *number == part.number);
    let steps = cause.steps.iter().flat_map(|path| alert::steps(vehicle, part, path));
    Ok(Cause {
        id: cause.id.clone(),
        weight: f64::from(cause.weight),
        unless: ways(vehicle, part, cause.unless.as_ref())?,
        normal: cause.normal,
        routine: cause.routine.clone(),
        steps: steps.collect(),
        cards: own.map(|(number, _)| number).collect(),
        ask: cause.ask,
    })
}

fn answers(
    vehicle: &Vehicle,
    part: &Part,
    question: &catalogue::Question,
    causes: &[&catalogue::Cause],
) -> Result<Vec<Answer>> {
    let chances: Vec<_> = causes.iter().map(|cause| question.chances(&cause.id)).collect();
    let numbered = question.answers.iter().enumerate();
    let answer = |(at, one): (usize, &catalogue::Answer)| {
        let chance = chances.iter().map(|row| row.get(at).copied().unwrap_or(0.0));
        let says = one
            .says
            .iter()
            .map(|literal| rule::conjunctions(vehicle, Some(part), std::slice::from_ref(literal)));
        Ok(Answer {
            id: one.id.clone(),
            chance: chance.collect(),
            known: ways(vehicle, part, one.known.as_ref())?,
            says: says.collect::<Result<Vec<_>>>()?.concat().concat(),
        })
    };
    numbered.map(answer).collect()
}

/// The ways in which a condition holds; none where there is no condition, or where it asks for all
/// fittings of a kind of which there is none.
fn ways(
    vehicle: &Vehicle,
    part: &Part,
    condition: Option<&Condition>,
) -> Result<Vec<Vec<Literal>>> {
    let Some(condition) = condition else { return Ok(Vec::new()) };
    let is_empty = |literal: &&catalogue::Literal| {
        let kind = literal.all.as_deref().and_then(|path| path.split_once('.'));
        kind.is_some_and(|(kind, _)| vehicle.of_kind(kind).next().is_none())
    };
    if condition.only_if.iter().any(|one| is_empty(&one)) {
        return Ok(Vec::new());
    }
    let any_of: Vec<_> = condition.any_of.iter().filter(|one| !is_empty(one)).cloned().collect();
    if any_of.is_empty() && !condition.any_of.is_empty() {
        return Ok(Vec::new());
    }
    alert::ways(vehicle, part, &Condition { only_if: condition.only_if.clone(), any_of })
}
