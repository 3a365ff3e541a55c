//! A quantity that is known to lie between two ends.

use serde::Serialize;

/// A quantity with its band: no smaller than `lower`, no greater than `upper`, both finite.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Between {
    /// The least that it can be.
    pub lower: f64,
    /// The most, ≥ `lower`.
    pub upper: f64,
}

impl Between {
    /// Known exactly.
    #[must_use]
    pub const fn exactly(value: f64) -> Self {
        Self { lower: value, upper: value }
    }

    /// Between two ends, given in any order.
    #[must_use]
    pub fn of(one: f64, other: f64) -> Self {
        Self { lower: one.min(other), upper: one.max(other) }
    }

    /// So much, give or take a share of it.
    ///
    /// # Units
    /// `share`: 0 to 1, of the value.
    #[must_use]
    pub fn about(value: f64, share: f64) -> Self {
        Self::of(value * (1.0 - share), value * (1.0 + share))
    }

    /// Half-way between both ends.
    #[must_use]
    pub fn middle(self) -> f64 {
        f64::midpoint(self.lower, self.upper)
    }

    /// Whether it may be that much.
    #[must_use]
    pub fn holds(self, value: f64) -> bool {
        (self.lower..=self.upper).contains(&value)
    }

    /// Both ends through what rises or falls all the way between them.
    #[must_use]
    pub fn through(self, monotone: impl Fn(f64) -> f64) -> Self {
        Self::of(monotone(self.lower), monotone(self.upper))
    }

    /// Each end no less than `lowest`.
    #[must_use]
    pub fn at_least(self, lowest: f64) -> Self {
        Self { lower: self.lower.max(lowest), upper: self.upper.max(lowest) }
    }

    /// Each end no more than `highest`.
    #[must_use]
    pub fn at_most(self, highest: f64) -> Self {
        Self { lower: self.lower.min(highest), upper: self.upper.min(highest) }
    }

    /// Both, and all that lies between them.
    #[must_use]
    pub fn hull(self, other: Self) -> Self {
        Self { lower: self.lower.min(other.lower), upper: self.upper.max(other.upper) }
    }

    /// Which of four ends are the outermost.
    fn around(ends: [f64; 4]) -> Self {
        let lower = ends.into_iter().fold(f64::INFINITY, f64::min);
        Self { lower, upper: ends.into_iter().fold(f64::NEG_INFINITY, f64::max) }
    }
}

impl std::ops::Add for Between {
    type Output = Self;

    fn add(self, other: Self) -> Self {
        Self { lower: self.lower + other.lower, upper: self.upper + other.upper }
    }
}

impl std::ops::Sub for Between {
    type Output = Self;

    fn sub(self, other: Self) -> Self {
        Self { lower: self.lower - other.upper, upper: self.upper - other.lower }
    }
}

impl std::ops::Mul for Between {
    type Output = Self;

    fn mul(self, other: Self) -> Self {
        let by = |one: f64| [one * other.lower, one * other.upper];
        let ([a, b], [c, d]) = (by(self.lower), by(self.upper));
        Self::around([a, b, c, d])
    }
}

impl std::ops::Mul<f64> for Between {
    type Output = Self;

    fn mul(self, factor: f64) -> Self {
        self.through(|value| value * factor)
    }
}

impl std::ops::Div for Between {
    type Output = Self;

    /// By what is not 0 anywhere between its ends.
    fn div(self, other: Self) -> Self {
        let by = |one: f64| [one / other.lower, one / other.upper];
        let ([a, b], [c, d]) = (by(self.lower), by(self.upper));
        Self::around([a, b, c, d])
    }
}

impl std::iter::Sum for Between {
    fn sum<I: Iterator<Item = Self>>(all: I) -> Self {
        all.fold(Self::exactly(0.0), |sum, one| sum + one)
    }
}

#[cfg(test)]
mod tests {
    use super::Between;

    #[test]
    fn every_sum_and_product_of_two_within_lies_within() {
        let (a, b) = (Between::of(-2.0, 3.0), Between::of(4.0, -1.0));
        for x in [-2.0, -0.5, 0.0, 1.5, 3.0] {
            for y in [-1.0, 0.0, 0.7, 4.0] {
                assert!((a + b).holds(x + y) && (a - b).holds(x - y) && (a * b).holds(x * y));
                assert!((a / Between::of(2.0, 5.0)).holds(x / (2.0 + 3.0 * (y + 1.0) / 5.0)));
            }
        }
    }
}
