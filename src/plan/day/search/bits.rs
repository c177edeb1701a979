//! Sets of set-ups, a bit each.

/// A set of small numbers.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Bits(Vec<u64>);

impl Bits {
    /// An empty set that can hold numbers below `most`.
    pub(super) fn none(most: usize) -> Self {
        Self(vec![0; most.div_ceil(64)])
    }

    /// Whether it holds a number.
    pub(super) fn has(&self, number: usize) -> bool {
        self.0.get(number / 64).is_some_and(|word| word >> (number % 64) & 1 == 1)
    }

    /// Adds a number.
    pub(super) fn add(&mut self, number: usize) {
        if let Some(word) = self.0.get_mut(number / 64) {
            *word |= 1 << (number % 64);
        }
    }

    /// Adds all numbers of another.
    pub(super) fn add_all(&mut self, other: &Self) {
        self.0.iter_mut().zip(&other.0).for_each(|(own, other)| *own |= other);
    }

    /// How many of its numbers another does not hold.
    pub(super) fn count_outside(&self, other: &Self) -> u32 {
        self.0.iter().zip(&other.0).map(|(own, other)| (own & !other).count_ones()).sum()
    }

    /// The first 64 numbers as one word.
    pub(super) fn word(&self) -> u64 {
        self.0.first().copied().unwrap_or_default()
    }

    /// Makes it hold what another holds, in the room that it has.
    pub(super) fn copy(&mut self, other: &Self) {
        self.0.clone_from(&other.0);
    }

    /// Makes its first 64 numbers those of a word.
    pub(super) fn set_word(&mut self, word: u64) {
        if let Some(first) = self.0.first_mut() {
            *first = word;
        }
    }
}
