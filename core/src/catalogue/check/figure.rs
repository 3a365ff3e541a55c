//! Numbers that the people on board tell: in range, of kinds that there are, and with words.

use super::words::Need;
use super::{Check, unique};
use crate::catalogue::{Catalogue, Figure, fault};
use crate::error::Result;
use crate::reserve::whole;

pub(super) fn check(catalogue: &Catalogue) -> Result<()> {
    let ids = unique("figure", catalogue.figures.iter().map(|one| &one.id));
    let mut all = catalogue.figures.iter().map(|one| check_one(catalogue, one));
    ids.and_then(|()| all.try_for_each(|one| one)).map_err(|detail| fault("figures", &detail))
}

fn check_one(catalogue: &Catalogue, figure: &Figure) -> Check {
    let Figure { id, kinds, min, max, step, .. } = figure;
    if let Some(kind) = kinds.iter().find(|kind| !catalogue.kinds.contains_key(*kind)) {
        return Err(format!("`{id}`: no kind `{kind}`"));
    }
    let milli =
        |value: f64, least| whole(id, value, 1_000, least..=crate::state::Figure::MILLI_MAX);
    match (milli(*min, 0), milli(*max, 0), milli(*step, 1)) {
        (Ok(min), Ok(max), Ok(step))
            if min < max
                && min.checked_rem(step) == Some(0)
                && max.checked_rem(step) == Some(0) =>
        {
            Ok(())
        }
        _ => Err(format!("`{id}`: `min` below `max`, both whole numbers of `step`s")),
    }
}

/// What it is, what one is told, and what it is for where people type it.
pub(super) fn keys(figure: &Figure, keys: &mut Vec<(String, Need)>) {
    let typed = if figure.felt { Need::May } else { Need::Must };
    let all =
        [("title", Need::Must), ("said", Need::Must), ("about", typed), ("said_one", Need::May)];
    keys.extend(all.map(|(it, need)| (format!("figure.{}.{it}", figure.id), need)));
    keys.push((format!("figures.{}", figure.of), Need::Must));
}
