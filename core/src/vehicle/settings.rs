//! A set of settings of one variable, as a byte.

/// A set of settings, each named by its place in the variable's list.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Settings(u8);

impl Settings {
    /// No setting.
    pub const NONE: Self = Self(0);

    /// The set as bits, the first setting lowest.
    #[must_use]
    pub fn bits(self) -> u8 {
        self.0
    }

    /// The setting at place `index`; none where `index` is beyond 7.
    #[must_use]
    pub fn one(index: u8) -> Self {
        Self(1_u8.checked_shl(u32::from(index)).unwrap_or(0))
    }

    /// Whether the set is empty.
    #[must_use]
    pub fn is_empty(self) -> bool {
        self.0 == 0
    }

    /// Whether any setting is in both.
    #[must_use]
    pub fn meets(self, other: Self) -> bool {
        self.0 & other.0 != 0
    }

    /// Whether all of its settings are in `other`.
    #[must_use]
    pub fn is_within(self, other: Self) -> bool {
        self.0 & !other.0 == 0
    }

    /// Those in either.
    #[must_use]
    pub fn or(self, other: Self) -> Self {
        Self(self.0 | other.0)
    }

    /// Those in both.
    #[must_use]
    pub fn and(self, other: Self) -> Self {
        Self(self.0 & other.0)
    }

    /// Those that are not in `other`.
    #[must_use]
    pub fn minus(self, other: Self) -> Self {
        Self(self.0 & !other.0)
    }

    /// Its only setting, or `None` where it has none or several.
    #[must_use]
    pub fn single(self) -> Option<u8> {
        self.0.is_power_of_two().then(|| self.first())
    }

    /// The place of its first setting; 0 where it has none.
    #[must_use]
    pub fn first(self) -> u8 {
        u8::try_from(self.0.trailing_zeros()).unwrap_or(0) % 8
    }

    /// The places of its settings, in order.
    pub fn places(self) -> impl Iterator<Item = u8> {
        (0..8).filter(move |place| Self::one(*place).is_within(self))
    }
}

impl FromIterator<u8> for Settings {
    fn from_iter<T: IntoIterator<Item = u8>>(places: T) -> Self {
        places.into_iter().fold(Self::NONE, |set, place| set.or(Self::one(place)))
    }
}
