//! What a language says beside the words of the pages: words that tell nothing, and words that
//! owners use for one and the same thing.

use crate::catalogue::Text;

/// How owners speak.
#[derive(Debug, Clone, Default)]
pub struct Speech {
    /// Words that tell nothing of what is looked for.
    pub(super) ignored: Vec<String>,
    /// Words of somebody for whom something does not work.
    pub(super) amiss: Vec<String>,
    /// Words of which each may stand for each.
    same: Vec<Vec<String>>,
}

impl Speech {
    /// As `search.ignored`, `search.amiss` and the lines of `search.same` have it.
    #[must_use]
    pub fn of(text: &Text) -> Self {
        let split = |said: &str| said.split_whitespace().map(str::to_owned).collect::<Vec<_>>();
        Self {
            ignored: split(text.get("search.ignored").unwrap_or_default()),
            amiss: split(text.get("search.amiss").unwrap_or_default()),
            same: text.get("search.same").unwrap_or_default().lines().map(split).collect(),
        }
    }

    /// `said` anew: each two words that stand beside each other written as one, and each word that
    /// has others for it replaced by each of these.
    pub(super) fn variants(&self, said: &str) -> Vec<String> {
        let words: Vec<_> = said
            .split(|letter: char| !letter.is_alphanumeric())
            .filter(|word| !word.is_empty())
            .map(str::to_lowercase)
            .collect();
        let joined = words.windows(2).enumerate().map(|(at, pair)| {
            let (before, after) = words.split_at(at);
            [before, &[pair.concat()], after.get(pair.len()..).unwrap_or_default()].concat()
        });
        let mut variants: Vec<_> = joined.map(|words| words.join(" ")).collect();
        for (at, word) in words.iter().enumerate() {
            for other in self.same.iter().filter(|same| same.contains(word)).flatten() {
                let mut changed = words.clone();
                if other != word
                    && let Some(place) = changed.get_mut(at)
                {
                    place.clone_from(other);
                    variants.push(changed.join(" "));
                }
            }
        }
        variants
    }
}
