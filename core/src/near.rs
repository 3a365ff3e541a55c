//! What was meant by a name that there is not.

/// Most names that are suggested.
const MOST: usize = 4;

/// `" Did you mean a, b?"`, or nothing.
#[must_use]
pub fn did_you_mean(names: &[String]) -> String {
    if names.is_empty() { String::new() } else { format!(" Did you mean {}?", names.join(", ")) }
}

/// The names nearest to what was typed: those that hold it, then those of which the whole or a part
/// differs least, or by one letter more, as long as no more than half of it is wrong. Of nothing none is near.
#[must_use]
pub fn nearest(typed: &str, known: impl Iterator<Item = String>) -> Vec<String> {
    if typed.is_empty() {
        return Vec::new();
    }
    let parts = |name: &str| {
        name.split('.').chain([name]).map(|part| distance(typed, part)).min().unwrap_or_default()
    };
    let near = known.map(|name| (if name.contains(typed) { 0 } else { parts(&name) }, name));
    let mut near: Vec<_> = near.filter(|(far, _)| *far <= typed.len() / 2).collect();
    near.sort_by_key(|(far, _)| *far);
    let most = near.first().map_or(0, |(far, _)| far.saturating_add(1));
    near.into_iter().filter(|(far, _)| *far <= most).take(MOST).map(|(_, name)| name).collect()
}

/// How many letters must be put in, left out or changed to make one word of the other
/// (Levenshtein 1966).
fn distance(one: &str, other: &str) -> usize {
    let mut row: Vec<usize> = (0..=other.chars().count()).collect();
    for (at, letter) in one.chars().enumerate() {
        let mut above_left = at;
        let mut left = at.saturating_add(1);
        let mut cells = row.iter_mut();
        if let Some(first) = cells.next() {
            *first = left;
        }
        for (cell, beside) in cells.zip(other.chars()) {
            let changed = above_left.saturating_add(usize::from(letter != beside));
            above_left = *cell;
            left = changed.min(left.saturating_add(1)).min(above_left.saturating_add(1));
            *cell = left;
        }
    }
    row.last().copied().unwrap_or_default()
}
