//! What to do when people are in danger. It needs no vehicle and no record, only the words that are
//! built in.

use super::page::{EmergencyPage, PerilRow};
use crate::catalogue::{Catalogue, text};
use crate::error::{Error, Result};

/// What may threaten people, as it is listed.
pub(super) const PERILS: [&str; 4] = ["co", "gas", "smoke", "fire"];

/// What to do in every peril or in one of them, in `language`.
///
/// # Errors
/// [`Error::InvalidInput`] for another peril.
pub fn emergency(language: &str, peril: Option<&str>) -> Result<EmergencyPage> {
    let text = text::of(Catalogue::built_in()?, language)?;
    let say = |key: &str| text.say(&format!("say.emergency.{key}"), &[]);
    let asked = PERILS.into_iter().filter(|one| peril.is_none_or(|peril| peril == *one));
    let row = |id: &str| PerilRow {
        id: id.to_owned(),
        title: say(&format!("{id}.title")),
        steps: say(&format!("{id}.do")).lines().map(str::to_owned).collect(),
    };
    let perils: Vec<_> = asked.map(row).collect();
    if perils.is_empty() {
        let expected = PERILS.join(", ");
        return Err(Error::InvalidInput { field: "kind of emergency".to_owned(), expected });
    }
    Ok(EmergencyPage { intro: say("intro"), perils, foot: say("foot") })
}
