//! The catalogue: kinds of fitting and targets, as data built into the program.

mod alert;
mod fault;
mod figure;
pub mod kind;
pub mod local;
mod settling;
pub mod target;
pub mod text;
pub mod value;

use std::collections::BTreeMap;

use once_cell::sync::OnceCell;

use crate::error::{Error, Result};
pub use alert::{Alert, Condition, Meaning, Seen, Symbol};
pub use fault::{Answer, Cause, Fault, Helper, Question, Tool};
pub use figure::Figure;
pub use kind::{
    Clause, Draws, Gauge, Gesture, Habit, Holds, Kind, Lasts, Literal, Measured, Move, Severity,
    Variable,
};
pub use local::{Local, Says};
pub use settling::Settling;
pub(crate) use target::back;
pub use target::{BACK, Fitted, Goal, Target, Variant};
pub use text::Text;
pub use value::{Datum, Value};

mod embedded {
    include!(concat!(env!("OUT_DIR"), "/embedded.rs"));
}

/// The files of the catalogue, by path within `catalogue/`. Packed, they are a fifth as long, which
/// the app is smaller by; they are read once.
fn unpacked() -> Result<Vec<(&'static str, String)>> {
    let broken = || fault("catalogue", "it does not unpack");
    let all = miniz_oxide::inflate::decompress_to_vec(embedded::PACKED).map_err(|_| broken())?;
    let mut rest = std::str::from_utf8(&all).map_err(|_| broken())?;
    let mut files = Vec::new();
    for (path, length) in embedded::CATALOGUE {
        let (text, others) = rest.split_at_checked(*length).ok_or_else(broken)?;
        files.push((*path, text.to_owned()));
        rest = others;
    }
    Ok(files)
}

/// The files of the demo data, by path within `demo-data/`.
pub(crate) fn demo_files() -> &'static [(&'static str, &'static str)] {
    embedded::DEMO
}

/// Every kind, target and word, read once.
#[derive(Debug, Clone)]
pub struct Catalogue {
    /// Kinds of fitting by id.
    pub kinds: BTreeMap<String, Kind>,
    /// What fittings can show, by rank.
    pub alerts: Vec<Alert>,
    /// What may not work, by rank.
    pub faults: Vec<Fault>,
    /// Numbers that only the people on board can tell, in the order in which they are asked for.
    pub figures: Vec<Figure>,
    /// Targets by rank, then id.
    pub targets: Vec<Target>,
    /// Rules of countries and carriers.
    pub local: Local,
    /// Words by language.
    pub texts: BTreeMap<String, Text>,
}

/// What a rule of the trade says of its origin where no source was found.
pub const NO_SOURCE: &str = "common practice, no source";

static BUILT_IN: OnceCell<Catalogue> = OnceCell::new();

impl Catalogue {
    /// The catalogue that is built into the program.
    ///
    /// # Errors
    /// [`Error::Catalogue`] if a built-in file is wrong; the project's tests keep that from
    /// happening.
    pub fn built_in() -> Result<&'static Self> {
        BUILT_IN.get_or_try_init(|| {
            let files = unpacked()?;
            Self::from_files(&files.iter().map(|(path, text)| (*path, &**text)).collect::<Vec<_>>())
        })
    }

    /// Reads a catalogue from files named by their path: `kinds/*.toml`, `alerts/*.toml`,
    /// `faults/*.toml`, `figures/*.toml`, `targets/*.toml`, `local/*.toml` and
    /// `text/<language>/*.toml`.
    ///
    /// # Errors
    /// [`Error::Catalogue`] names the file and what is wrong.
    pub fn from_files(files: &[(&str, &str)]) -> Result<Self> {
        let mut catalogue = Self {
            kinds: BTreeMap::new(),
            alerts: Vec::new(),
            faults: Vec::new(),
            figures: Vec::new(),
            targets: Vec::new(),
            local: Local::new(),
            texts: BTreeMap::new(),
        };
        for (path, content) in files {
            let mut parts = path.trim_end_matches(".toml").split('/');
            match (parts.next(), parts.next(), parts.next()) {
                (Some("kinds"), Some(id), None) => {
                    let mut kind: Kind = parse(path, content)?;
                    id.clone_into(&mut kind.id);
                    catalogue.kinds.insert(kind.id.clone(), kind);
                }
                (Some("alerts"), Some(kind), None) => {
                    let file: alert::File = parse(path, content)?;
                    let of_kind = |alert| Alert { kind: kind.to_owned(), ..alert };
                    catalogue.alerts.extend(file.alerts.into_iter().map(of_kind));
                }
                (Some("faults"), Some(symptom), None) => {
                    let fault: Fault = parse(path, content)?;
                    catalogue.faults.push(Fault { symptom: symptom.to_owned(), ..fault });
                }
                (Some("figures"), Some(of), None) => {
                    let file: figure::File = parse(path, content)?;
                    let of_it = |figure| Figure { of: of.to_owned(), rank: file.rank, ..figure };
                    catalogue.figures.extend(file.figures.into_iter().map(of_it));
                }
                (Some("targets"), Some(id), None) => {
                    let mut target: Target = parse(path, content)?;
                    id.clone_into(&mut target.id);
                    catalogue.targets.push(target);
                }
                (Some("local"), Some(id), None) => {
                    let file: local::File = parse(path, content)?;
                    catalogue.local.insert(id.to_owned(), file.rows);
                }
                (Some("text"), Some(language), Some(_)) => {
                    let text = catalogue.texts.entry(language.to_owned()).or_default();
                    text.add(parse(path, content)?);
                }
                _ => return Err(fault(path, "no folder of the catalogue has such a file")),
            }
        }
        catalogue.alerts.sort_by(|a, b| (a.rank, &a.kind, &a.id).cmp(&(b.rank, &b.kind, &b.id)));
        catalogue.figures.sort_by_key(|figure| figure.rank);
        catalogue.faults.sort_by(|a, b| (a.rank, &a.symptom).cmp(&(b.rank, &b.symptom)));
        catalogue.targets.sort_by(|a, b| (a.rank, &a.id).cmp(&(b.rank, &b.id)));
        check::catalogue(&catalogue)?;
        Ok(catalogue)
    }

    /// The target of that name. What comes after a slash is its variant and is not looked at.
    ///
    /// # Errors
    /// [`Error::NotFound`].
    pub fn target(&self, key: &str) -> Result<&Target> {
        let id = key.split('/').next().unwrap_or_default();
        self.targets
            .iter()
            .find(|target| target.id == id)
            .ok_or_else(|| Error::NotFound { kind: "target", id: id.to_owned() })
    }
}

mod check;
#[cfg(test)]
mod tests;

fn parse<T: serde::de::DeserializeOwned>(path: &str, content: &str) -> Result<T> {
    toml::from_str(content).map_err(|error| fault(path, &error.to_string()))
}

pub(crate) fn fault(file: &str, detail: &str) -> Error {
    Error::Catalogue { file: file.to_owned(), detail: detail.to_owned() }
}
