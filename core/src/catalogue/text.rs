//! Words, keyed by id, with `{slots}`. Every word about fittings, steps and reasons stands in
//! `catalogue/text/<language>/`.

use std::collections::BTreeMap;

use crate::error::Result;

/// The words of one language.
#[derive(Debug, Clone, Default)]
pub struct Text {
    words: BTreeMap<String, String>,
}

impl Text {
    /// Adds the words of one file; nested tables become dotted keys.
    pub(super) fn add(&mut self, table: toml::Table) {
        for (key, value) in table {
            self.add_value(&key, value);
        }
    }

    fn add_value(&mut self, key: &str, value: toml::Value) {
        match value {
            toml::Value::Table(table) => {
                for (name, inner) in table {
                    self.add_value(&format!("{key}.{name}"), inner);
                }
            }
            toml::Value::String(words) => {
                self.words.insert(key.to_owned(), words);
            }
            toml::Value::Integer(_)
            | toml::Value::Float(_)
            | toml::Value::Boolean(_)
            | toml::Value::Datetime(_)
            | toml::Value::Array(_) => {
                self.words.insert(key.to_owned(), value.to_string());
            }
        }
    }

    /// Whether there are words for `key`.
    #[must_use]
    pub fn has(&self, key: &str) -> bool {
        self.words.contains_key(key)
    }

    /// Every key that has words.
    pub(super) fn keys(&self) -> impl Iterator<Item = &str> {
        self.words.keys().map(String::as_str)
    }

    /// Words of every key that begins with `start`, by key.
    pub fn below<'a>(&'a self, start: &str) -> impl Iterator<Item = &'a str> + use<'a> {
        let (from, start) = (self.words.range(start.to_owned()..), start.to_owned());
        from.take_while(move |(key, _)| key.starts_with(&start)).map(|(_, said)| said.as_str())
    }

    /// The words for `key`, or nothing.
    #[must_use]
    pub fn get(&self, key: &str) -> Option<&str> {
        self.words.get(key).map(String::as_str)
    }

    /// The words for `key` with its slots filled. A key without words gives the key itself; the
    /// catalogue's check makes sure that none is missing.
    #[must_use]
    pub fn say(&self, key: &str, slots: &[(&str, &str)]) -> String {
        let mut said = self.get(key).unwrap_or(key).to_owned();
        for (slot, value) in slots {
            said = said.replace(&format!("{{{slot}}}"), value);
        }
        said
    }

    /// `said` with its first letter a capital, as a sentence or list line begins.
    #[must_use]
    pub fn sentence(said: &str) -> String {
        let mut letters = said.chars();
        letters
            .next()
            .map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
    }
}

/// The words of `language`, told by its tag up to the region; `None` where there are none in it.
#[must_use]
pub fn known<'a>(catalogue: &'a super::Catalogue, language: &str) -> Option<&'a Text> {
    catalogue.texts.get(language.split(['-', '_']).next()?)
}

/// The words of `language`, or English where there are none in it.
///
/// # Errors
/// [`crate::Error::Catalogue`] if even English is missing.
pub fn of<'a>(catalogue: &'a super::Catalogue, language: &str) -> Result<&'a Text> {
    known(catalogue, language)
        .or_else(|| catalogue.texts.get("en"))
        .ok_or_else(|| super::fault("text/en", "no words in English"))
}
