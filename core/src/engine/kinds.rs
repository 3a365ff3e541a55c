//! The kinds of fitting, as a pack names them.

use serde::Serialize;

use crate::catalogue::{Catalogue, text};
use crate::error::Result;
use crate::pack::fitted_kinds;

/// A kind of fitting.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct KindRow {
    /// Names it to a pack.
    pub id: String,
    /// What it is.
    pub title: String,
}

/// Every kind of fitting that a pack may name, in `language`.
///
/// # Errors
/// Only if the built-in words are wrong.
pub fn kinds(language: &str) -> Result<Vec<KindRow>> {
    let catalogue = Catalogue::built_in()?;
    let text = text::of(catalogue, language)?;
    let title = |id: &str| text.say(&format!("kind.{id}.title"), &[]);
    Ok(fitted_kinds(catalogue).map(|id| KindRow { title: title(id), id: id.clone() }).collect())
}
