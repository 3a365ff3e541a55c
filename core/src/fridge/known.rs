//! What is known of a yes-or-no matter, and of an age.

use serde::{Deserialize, Serialize};

/// A yes-or-no matter as far as it is known. Never a default: not known is `Unknown`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Known {
    /// It is so.
    Yes,
    /// It is not so.
    No,
    /// It may be either.
    Unknown,
}

impl Known {
    /// The answers that are possible.
    #[must_use]
    pub fn possible(self) -> &'static [bool] {
        match self {
            Self::Yes => &[true],
            Self::No => &[false],
            Self::Unknown => &[true, false],
        }
    }
}

/// The answer to the opposite question.
impl std::ops::Not for Known {
    type Output = Self;

    fn not(self) -> Self {
        match self {
            Self::Yes => Self::No,
            Self::No => Self::Yes,
            Self::Unknown => Self::Unknown,
        }
    }
}

impl From<Option<bool>> for Known {
    fn from(answer: Option<bool>) -> Self {
        match answer {
            Some(true) => Self::Yes,
            Some(false) => Self::No,
            None => Self::Unknown,
        }
    }
}

/// How long ago something was, as far as it is known.
///
/// # Units
/// Milliseconds, ≥ 0.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Age {
    /// Known: both instants stand on one unbroken clock.
    Exactly(i64),
    /// Only that it is no less: since a restart or a clock change it has been so for this long.
    /// `AtLeast(0)` says nothing.
    AtLeast(i64),
}

impl Age {
    /// The least that it can be, in milliseconds.
    #[must_use]
    pub fn least_ms(self) -> i64 {
        match self {
            Self::Exactly(ms) | Self::AtLeast(ms) => ms,
        }
    }
}

/// An age that may have been lost, as [`crate::clock::Stamp::age_ms`] gives it.
impl From<Option<i64>> for Age {
    fn from(age_ms: Option<i64>) -> Self {
        age_ms.map_or(Self::AtLeast(0), Self::Exactly)
    }
}
