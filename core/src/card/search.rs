//! Search by an owner's words: pages of lines in, pages out, the likeliest first.
//!
//! SQLite's FTS5 splits the lines and what is asked into words, in the same way, and keeps where
//! each word stands. What is asked is only ever a bound value that is split like a line: no part of
//! it becomes SQL or FTS5's own language of queries, so nothing that is typed can be wrong. Which
//! words are meant by it, `near.rs` tells.
//!
//! A line counts by what it is ([`Part`]) and by how much of it was asked for; a word by how well
//! it is met and by how few pages have it; a page by what it is about ([`Sort`]). All in whole
//! numbers, so that every platform ranks alike.
//! The weights are ours, chosen on two thirds of `tests/data/asked.csv`.

mod near;
mod speech;

use std::collections::{BTreeMap, BTreeSet};

use rusqlite::Connection;

use crate::error::Result;
use near::Vocabulary;
pub use speech::Speech;

/// How much of what is asked is read. Unit: characters.
pub const ASKED_CHARS_MAX: usize = 200;
/// How many of its words count.
const WORDS_MAX: usize = 12;
/// What a page scores at least, as a part of what the best one does.
const LEAST: u64 = 4;
/// Most pages found.
const FOUND_MAX: usize = 20;

/// What a line of a page is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Part {
    /// What the page is called: by the technician or by its kind.
    Title,
    /// What an owner may call it.
    Own,
    /// What tells it: where it is, how it shows, the technician's note.
    Sign,
    /// What it says.
    Body,
}

impl Part {
    /// What a word in such a line is worth.
    const fn weight(self) -> u64 {
        match self {
            Self::Title => 100,
            Self::Own => 95,
            Self::Sign => 40,
            Self::Body => 20,
        }
    }

    /// Whether it names the page, so that it counts how much of it was asked for.
    const fn names(self) -> bool {
        matches!(self, Self::Title | Self::Own)
    }
}

/// What a page is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sort {
    /// How something is used or done, or what it shows.
    Plain,
    /// Something that does not work.
    Amiss,
    /// Something that lives hang on.
    Life,
}

impl Sort {
    /// What such a page counts, where the owner's words complain and where they do not. Unit: per
    /// cent.
    fn weight(self, complains: bool) -> u64 {
        match (self, complains) {
            (Self::Plain, _) => 100,
            (Self::Amiss, true) => 160,
            (Self::Amiss, false) => 90,
            (Self::Life, _) => 125,
        }
    }
}

/// A page to be searched.
#[derive(Debug, Clone, Copy)]
pub struct Page<'a> {
    /// What it is about.
    pub sort: Sort,
    /// Its lines, with what each is.
    pub lines: &'a [(Part, String)],
}

/// A page that was found.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Hit {
    /// Its number among the pages that the index was built of.
    pub page: usize,
    /// The number of its line that answers best.
    pub line: usize,
    /// All of what it is called, in two words or more, was asked for.
    pub named: bool,
}

/// Pages, ready to be searched.
#[derive(Debug)]
pub struct Index {
    words: Connection,
    vocabulary: Vocabulary,
    speech: Speech,
    pages: Vec<Sort>,
    /// By the number of the line's row.
    lines: BTreeMap<i64, Line>,
}

#[derive(Debug)]
struct Line {
    page: usize,
    /// Its place within the page.
    place: usize,
    part: Part,
    /// How many words it has that count.
    length: u64,
}

/// One word that was asked for: how well each row meets it, and how rare it is.
struct Asked {
    rows: BTreeMap<i64, u64>,
    rarity: u64,
}

impl Index {
    /// Reads the lines of every page.
    ///
    /// # Errors
    /// [`crate::Error::Database`] if SQLite refuses, as without memory.
    pub fn new(pages: &[Page], speech: Speech) -> Result<Self> {
        let mut words = Connection::open_in_memory()?;
        words.execute_batch(include_str!("search/index.sql"))?;
        let mut lines = BTreeMap::new();
        let transaction = words.transaction()?;
        {
            let mut add = transaction.prepare("INSERT INTO line (words) VALUES (?1)")?;
            for (page, place, (part, said)) in numbered(pages) {
                let same = if part.names() { speech.variants(said) } else { Vec::new() };
                let same = same.iter().map(|said| (Part::Own, said));
                for (part, said) in std::iter::once((*part, said)).chain(same) {
                    lines.insert(add.insert([said])?, Line { page, place, part, length: 0 });
                }
            }
        }
        transaction.commit()?;
        let vocabulary = Vocabulary::of(&words)?;
        let pages = pages.iter().map(|page| page.sort).collect();
        let mut index = Self { words, vocabulary, speech, pages, lines };
        index.measure();
        Ok(index)
    }

    /// Counts the words of each line.
    fn measure(&mut self) {
        let counted = self.vocabulary.words.iter();
        for word in counted.filter(|word| !self.speech.ignored.contains(&word.term)) {
            for row in &word.rows {
                if let Some(line) = self.lines.get_mut(row) {
                    line.length = line.length.saturating_add(1);
                }
            }
        }
    }

    /// The pages that answer, the likeliest first; among equals the one that was given first. Only
    /// the first [`ASKED_CHARS_MAX`] characters count.
    ///
    /// # Errors
    /// [`crate::Error::Database`] if SQLite refuses; nothing that is asked makes it.
    pub fn find(&self, asked: &str) -> Result<Vec<Hit>> {
        let split = self.split(asked)?;
        let complains = split.iter().any(|word| self.speech.amiss.contains(word));
        let words = self.asked(&split);
        let mut pages: BTreeMap<usize, Score> = BTreeMap::new();
        for word in &words {
            let mut best: BTreeMap<usize, u64> = BTreeMap::new();
            for (row, like) in &word.rows {
                let Some(line) = self.lines.get(row) else { continue };
                let worth = line.part.weight().saturating_mul(*like).saturating_mul(word.rarity);
                let known = best.entry(line.page).or_default();
                *known = worth.max(*known);
            }
            for (page, worth) in best {
                let score = pages.entry(page).or_default();
                score.words = score.words.saturating_add(worth);
            }
        }
        for (row, (worth, named)) in self.rows(&words) {
            let Some(line) = self.lines.get(&row) else { continue };
            let score = pages.entry(line.page).or_default();
            score.named |= named;
            score.take(line.place, worth);
        }
        let weigh = |(page, score): (usize, Score)| {
            let sort = self.pages.get(page).copied().unwrap_or(Sort::Plain);
            let sum = score.sum().saturating_mul(sort.weight(complains));
            (sum, Hit { page, line: score.line, named: score.named })
        };
        let mut found: Vec<_> = pages.into_iter().map(weigh).collect();
        found.sort_by_key(|(sum, hit)| (std::cmp::Reverse(*sum), hit.page));
        let least = found.first().map_or(0, |(best, _)| best / LEAST);
        let near = found.into_iter().take_while(|(sum, _)| *sum >= least);
        Ok(near.take(FOUND_MAX).map(|(_, hit)| hit).collect())
    }

    /// What each line is worth as a whole: all its words that were asked for, by how much of the
    /// line that is. And whether it is a name of which nothing is left out.
    fn rows(&self, words: &[Asked]) -> BTreeMap<i64, (u64, bool)> {
        let mut rows: BTreeMap<i64, (u64, u64)> = BTreeMap::new();
        for word in words {
            for (row, like) in &word.rows {
                let (worth, met) = rows.entry(*row).or_default();
                *worth = worth.saturating_add(like.saturating_mul(word.rarity));
                *met = met.saturating_add(1);
            }
        }
        let whole = |(row, (worth, met)): (i64, (u64, u64))| {
            let line = self.lines.get(&row)?;
            let worth = worth.saturating_mul(line.part.weight());
            let length = line.length.max(met).max(1);
            let part = worth.saturating_mul(met).checked_div(length)?;
            let named = line.part.names() && (2..=met).contains(&line.length);
            Some((row, (if line.part.names() { part } else { part / 2 }, named)))
        };
        rows.into_iter().filter_map(whole).collect()
    }

    /// The words of what is asked that count, each with what meets it.
    fn asked(&self, all: &[String]) -> Vec<Asked> {
        let telling: Vec<_> = all.iter().filter(|word| !self.is_ignored(word)).collect();
        let last = all.last().filter(|_| telling.is_empty());
        let words = telling.into_iter().chain(last).take(WORDS_MAX);
        words.map(|word| self.meet(word)).collect()
    }

    fn is_ignored(&self, word: &str) -> bool {
        self.speech.ignored.iter().any(|known| known == word)
    }

    /// What meets a word, and how well.
    fn meet(&self, asked: &str) -> Asked {
        let mut rows: BTreeMap<i64, u64> = BTreeMap::new();
        for (word, like) in self.vocabulary.near(asked) {
            if word.term == asked || !self.is_ignored(&word.term) {
                for row in &word.rows {
                    let known = rows.entry(*row).or_default();
                    *known = like.max(*known);
                }
            }
        }
        let pages: BTreeSet<_> =
            rows.keys().filter_map(|row| Some(self.lines.get(row)?.page)).collect();
        let met = u64::try_from(pages.len()).unwrap_or(u64::MAX).max(1);
        let pages = u64::try_from(self.pages.len()).unwrap_or(u64::MAX);
        let rare = pages.checked_div(met).unwrap_or_default().max(1);
        Asked { rows, rarity: u64::from(rare.saturating_mul(rare).ilog2()).saturating_add(1) }
    }

    /// Splits what is asked as the lines were split; nothing of it is kept.
    fn split(&self, asked: &str) -> Result<Vec<String>> {
        let asked: String = asked.chars().take(ASKED_CHARS_MAX).collect();
        let scratch = self.words.unchecked_transaction()?;
        scratch.execute("INSERT INTO asked (words) VALUES (?1)", [asked])?;
        let mut terms = scratch.prepare_cached("SELECT term FROM asked_word ORDER BY offset")?;
        let terms = terms.query_map([], |row| row.get(0))?;
        Ok(terms.collect::<std::result::Result<_, _>>()?)
    }
}

/// What a page scores.
#[derive(Debug, Default)]
struct Score {
    /// For each word, by its best line.
    words: u64,
    /// What its best line is worth as a whole.
    whole: u64,
    /// Which one that is.
    line: usize,
    /// Whether one of its names was asked for from end to end.
    named: bool,
}

impl Score {
    fn sum(&self) -> u64 {
        self.words.saturating_add(self.whole)
    }

    fn take(&mut self, line: usize, worth: u64) {
        if worth > self.whole {
            (self.whole, self.line) = (worth, line);
        }
    }
}

/// Every line with the numbers of its page and of itself within it.
fn numbered<'a>(pages: &[Page<'a>]) -> impl Iterator<Item = (usize, usize, &'a (Part, String))> {
    pages.iter().enumerate().flat_map(|(number, page)| {
        page.lines.iter().enumerate().map(move |(place, line)| (number, place, line))
    })
}
