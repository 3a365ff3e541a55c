//! A place to stand: facts that somebody can tell before the vehicle is there, in a file.

use std::collections::BTreeMap;

use serde::Deserialize;
use toml::Spanned;

use super::check::{Check, one_of, title};
use super::read::{Fault, checked};
use crate::catalogue::{Catalogue, Kind, Variable};
use crate::error::Result;

/// The newest format of places that this program reads.
const VERSION: u32 = 1;

/// One place and what is told of it.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Place {
    /// The version of the file format: 1.
    pub stowfast_place: Spanned<u32>,
    /// The place's name.
    pub title: Spanned<String>,
    /// What it is like, in a line.
    #[serde(default)]
    pub about: String,
    /// Invented for demonstration.
    #[serde(default)]
    pub invented: bool,
    /// `kind.variable` of what is always there, and the settings that it may have.
    pub facts: BTreeMap<Spanned<String>, Spanned<Vec<String>>>,
}

/// Reads a place and checks it against the catalogue. `file` is the name shown in errors.
///
/// # Errors
/// As [`super::read`]; also a fact that is not given by a place, or a setting that it does not
/// have.
pub fn read(file: &str, bytes: &[u8], catalogue: &Catalogue) -> Result<Place> {
    checked(file, bytes, |place| check(place, catalogue))
}

fn check(place: &Place, catalogue: &Catalogue) -> Check {
    if *place.stowfast_place.get_ref() != VERSION {
        let expected = format!("`stowfast_place = {VERSION}`, the format that this program reads");
        return Err(Fault::at(&place.stowfast_place, expected));
    }
    title(&place.title)?;
    for (name, settings) in &place.facts {
        let told = given(catalogue).find(|(kind, one)| names(kind, one) == *name.get_ref());
        let Some((_, variable)) = told else {
            let known: Vec<_> = given(catalogue).map(|(kind, one)| names(kind, one)).collect();
            return Err(Fault::at(name, one_of("fact", known.iter())));
        };
        let odd = settings.get_ref().iter().find(|one| !variable.settings.contains(one));
        if odd.is_some() || settings.get_ref().is_empty() {
            let known = one_of("setting", variable.settings.iter());
            let found = odd.map_or_else(String::new, |odd| format!(", not `{odd}`"));
            return Err(Fault::at(settings, known + &found));
        }
    }
    Ok(())
}

/// What a place can tell: the given variables of what is always there.
fn given(catalogue: &Catalogue) -> impl Iterator<Item = (&Kind, &Variable)> {
    let kinds = catalogue.kinds.values().filter(|kind| kind.always_in.is_some());
    let variables = kinds.flat_map(|kind| kind.variables.iter().map(move |one| (kind, one)));
    variables.filter(|(_, one)| one.given)
}

fn names(kind: &Kind, variable: &Variable) -> String {
    format!("{}.{}", kind.id, variable.id)
}
