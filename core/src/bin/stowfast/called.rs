//! How this program was called: what it says to type has to work as it is typed.

use std::borrow::Cow;
use std::path::Path;
use std::sync::OnceLock;

use crate::help::is_command;

/// As a hint is written down.
const WRITTEN: &str = "stowfast ";

static NAME: OnceLock<String> = OnceLock::new();
static DATABASE: OnceLock<String> = OnceLock::new();

#[derive(Debug, PartialEq, Eq)]
struct Called<'a> {
    /// The program, as it was typed.
    name: &'a str,
    /// The database, where one was named: ` --db FILE`.
    database: &'a str,
}

/// Remembers once how the program was typed.
pub(crate) fn remember() {
    let name = std::env::args_os().next().unwrap_or_else(|| "stowfast".into());
    let _ = NAME.set(quoted(&name.to_string_lossy()));
}

/// Remembers once which database was named.
pub(crate) fn remember_database(file: &Path) {
    let _ = DATABASE.set(format!(" --db {}", quoted(&file.display().to_string())));
}

/// A hint, with each `stowfast COMMAND` in it as one has to type it here. Only for words of this program: what an
/// owner wrote is printed as it was written.
pub(crate) fn as_typed(hint: &str) -> Cow<'_, str> {
    let database = DATABASE.get().map_or("", String::as_str);
    NAME.get().map_or(Cow::Borrowed(hint), |name| Called { name, database }.as_typed(hint))
}

impl Called<'_> {
    fn as_typed<'a>(&self, said: &'a str) -> Cow<'a, str> {
        let mut parts = said.split(WRITTEN);
        let first = parts.next().unwrap_or_default().to_owned();
        Cow::Owned(parts.fold(first, |typed, rest| {
            let word = rest.split([' ', '\n', '`', '.', ',']).next().unwrap_or_default();
            let begins = typed.is_empty() || typed.ends_with([' ', '`', '\n']);
            typed
                + &match word {
                    "--db" if begins => format!("{} {rest}", self.name),
                    _ if begins && (is_command(word) || word.starts_with("--")) => {
                        format!("{}{} {rest}", self.name, self.database)
                    }
                    _ => format!("{WRITTEN}{rest}"),
                }
        }))
    }
}

/// A word as a shell reads it.
fn quoted(word: &str) -> String {
    let plain = |letter: char| letter.is_alphanumeric() || "/._-+:@%".contains(letter);
    if !word.is_empty() && word.chars().all(plain) {
        return word.to_owned();
    }
    format!("'{}'", word.replace('\'', r"'\''"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_hint_names_the_program_and_the_database_as_they_were_typed() {
        let file = quoted("my trips/a.db");
        let database = &format!(" --db {file}");
        let called = Called { name: "target/release/stowfast", database };
        let typed = |said: &str| called.as_typed(said).into_owned();
        let at = "target/release/stowfast --db 'my trips/a.db'";
        assert_eq!(typed("Go on: stowfast walk"), format!("Go on: {at} walk"));
        assert_eq!(typed("stowfast plan a, stowfast --help"), format!("{at} plan a, {at} --help"));
        assert_eq!(
            typed("expected `stowfast plan TARGET`"),
            format!("expected `{at} plan TARGET`")
        );
        assert_eq!(
            typed("stowfast --db OTHER import FILE"),
            "target/release/stowfast --db OTHER import FILE"
        );
        for other in [
            "stowfast 0.1.0",
            "stowfast: no step named x",
            "my_stowfast walk",
            "stowfast is a word",
        ] {
            assert_eq!(typed(other), other);
        }
        assert_eq!(quoted("it's"), r"'it'\''s'");
    }
}
