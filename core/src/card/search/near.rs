//! Which words of the index are meant by a word that was typed.

use rusqlite::Connection;

use crate::error::Result;

/// Letters from which a word may have one typing error.
const ONE_ERROR_FROM: usize = 4;
/// Letters from which it may have two.
const TWO_ERRORS_FROM: usize = 8;
/// Letters that two forms of one word have in common.
const STEM_MIN: usize = 4;
/// Most letters that a form ends in after those.
const ENDING_MAX: usize = 3;

/// How well one word meets another. Unit: per cent.
type Likeness = u64;

const SAME: Likeness = 100;
/// "taps" for "tap".
const ENDING: Likeness = 85;
/// "leaving" for "leave".
const OTHER_FORM: Likeness = 70;
/// The first letters of a word.
const BEGUN: Likeness = 55;
const ONE_ERROR: Likeness = 60;
const TWO_ERRORS: Likeness = 45;

/// Every word of the index.
#[derive(Debug)]
pub(super) struct Vocabulary {
    pub(super) words: Vec<Word>,
}

/// A word of the index.
#[derive(Debug)]
pub(super) struct Word {
    pub(super) term: String,
    letters: Vec<char>,
    /// The row of each place where it stands.
    pub(super) rows: Vec<i64>,
}

impl Vocabulary {
    pub(super) fn of(index: &Connection) -> Result<Self> {
        let mut all = index.prepare("SELECT term, doc FROM line_word ORDER BY term")?;
        let mut places = all.query([])?;
        let mut words: Vec<Word> = Vec::new();
        while let Some(place) = places.next()? {
            let (term, row): (String, i64) = (place.get(0)?, place.get(1)?);
            match words.last_mut().filter(|last| last.term == term) {
                Some(last) => last.rows.push(row),
                None => words.push(Word { letters: term.chars().collect(), term, rows: vec![row] }),
            }
        }
        Ok(Self { words })
    }

    /// The words that `asked` may mean. It is misspelt only if it is nothing else.
    pub(super) fn near(&self, asked: &str) -> Vec<(&Word, Likeness)> {
        let asked: Vec<char> = asked.chars().collect();
        let meet = |like: &dyn Fn(&[char]) -> Option<Likeness>| {
            let words = self.words.iter();
            let met = words.filter_map(|word| Some((word, like(&word.letters)?)));
            met.collect::<Vec<_>>()
        };
        let spelt = meet(&|known| spelt(&asked, known));
        if spelt.is_empty() { meet(&|known| misspelt(&asked, known)) } else { spelt }
    }
}

/// The same word, another form of it, or its beginning.
fn spelt(asked: &[char], known: &[char]) -> Option<Likeness> {
    let common = asked.iter().zip(known).take_while(|(a, b)| a == b).count();
    let (more, rest) = (known.len().saturating_sub(common), asked.len().saturating_sub(common));
    let short = |letters: usize| letters <= ENDING_MAX;
    match (rest, more) {
        (0, 0) => Some(SAME),
        (0, _) if short(more) && common >= STEM_MIN => Some(ENDING),
        (0, _) => Some(BEGUN),
        (1, 0) if common >= STEM_MIN.saturating_sub(1) => Some(ENDING),
        (_, 0) if short(rest) && common >= STEM_MIN => Some(ENDING),
        (_, _) if short(rest) && short(more) && common >= STEM_MIN => Some(OTHER_FORM),
        (_, _) => None,
    }
}

/// One error in a word of four letters or more, two in one of eight or more.
fn misspelt(asked: &[char], known: &[char]) -> Option<Likeness> {
    let most = match asked.len() {
        TWO_ERRORS_FROM.. => 2,
        ONE_ERROR_FROM.. => 1,
        _ => return None,
    };
    if asked.len().abs_diff(known.len()) > most {
        return None;
    }
    match errors(asked, known) {
        1 => Some(ONE_ERROR),
        2 if most == 2 => Some(TWO_ERRORS),
        _ => None,
    }
}

/// The least number of letters left out, put in, put in place of others, or changed round with the
/// next one (optimal string alignment; Damerau, Communications of the ACM 7(3), 1964).
fn errors(asked: &[char], known: &[char]) -> usize {
    let mut before: Vec<usize> = Vec::new();
    let mut above: Vec<usize> = (0..=known.len()).collect();
    for (row, letter) in asked.iter().enumerate() {
        let mut here = vec![row.saturating_add(1)];
        for (column, other) in known.iter().enumerate() {
            let at = |line: &[usize], back: usize| {
                let place = column.saturating_add(1).checked_sub(back);
                place.and_then(|place| line.get(place)).copied().unwrap_or(usize::MAX)
            };
            let changed = at(&above, 1).saturating_add(usize::from(letter != other));
            let moved = at(&above, 0).min(at(&here, 1)).saturating_add(1);
            let turned = row.checked_sub(1).and_then(|row| asked.get(row)) == Some(other)
                && column.checked_sub(1).and_then(|column| known.get(column)) == Some(letter);
            let turned = if turned { at(&before, 2).saturating_add(1) } else { usize::MAX };
            here.push(changed.min(moved).min(turned));
        }
        before = std::mem::replace(&mut above, here);
    }
    above.last().copied().unwrap_or(usize::MAX)
}
