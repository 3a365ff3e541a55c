//! Choices drawn from a list of numbers, so that a property test can shrink whatever is built from
//! them by shortening the list and lowering its numbers. The first choice is always the plainest.

/// A list of numbers on its way to being used up; 0 once it is.
#[derive(Debug, Clone)]
pub struct Choices<'a> {
    left: std::slice::Iter<'a, u16>,
}

impl<'a> Choices<'a> {
    /// Choices from a list.
    #[must_use]
    pub fn new(list: &'a [u16]) -> Self {
        Self { left: list.iter() }
    }

    /// A number from 0 to `count` - 1; 0 where `count` is 0.
    pub fn below(&mut self, count: usize) -> usize {
        let drawn = self.left.next().copied().unwrap_or(0);
        usize::from(drawn).checked_rem(count).unwrap_or(0)
    }

    /// A number in a range, ends included.
    pub fn between(&mut self, least: usize, most: usize) -> usize {
        let count = most.saturating_sub(least).saturating_add(1);
        least.saturating_add(self.below(count))
    }

    /// True once in `times`, and never when the choices have run out.
    pub fn once_in(&mut self, times: usize) -> bool {
        self.below(times) == times.saturating_sub(1) && times > 0
    }

    /// One of a list; `None` where it is empty.
    pub fn one_of<'b, T>(&mut self, list: &'b [T]) -> Option<&'b T> {
        list.get(self.below(list.len()))
    }
}
