//! Places by what they cost, the cheapest first: most searches look at a few alone, so that not all are sorted.

use std::cmp::Ordering;
use std::collections::BinaryHeap;

/// Gives out places, the cheapest first; of such that cost the same the one that was named first.
pub(super) struct Cheapest<T>(BinaryHeap<Priced<T>>);

/// A place with its cost and its number.
struct Priced<T> {
    cost: f64,
    number: usize,
    place: T,
}

impl<T> Cheapest<T> {
    pub(super) fn of(places: impl IntoIterator<Item = (f64, T)>) -> Self {
        Self(places.into_iter().enumerate().map(|(number, (cost, place))| Priced { cost, number, place }).collect())
    }
}

impl<T> Iterator for Cheapest<T> {
    type Item = T;

    fn next(&mut self) -> Option<T> {
        self.0.pop().map(|priced| priced.place)
    }
}

impl<T> Ord for Priced<T> {
    /// The greatest of a heap is given out first.
    fn cmp(&self, other: &Self) -> Ordering {
        other.cost.total_cmp(&self.cost).then(other.number.cmp(&self.number))
    }
}

impl<T> PartialOrd for Priced<T> {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl<T> PartialEq for Priced<T> {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other) == Ordering::Equal
    }
}

impl<T> Eq for Priced<T> {}

#[cfg(test)]
mod tests {
    use super::Cheapest;

    #[test]
    fn the_cheapest_comes_first_and_of_two_alike_the_one_named_first() {
        let places = [(3.0, 'd'), (1.0, 'a'), (2.0, 'b'), (2.0, 'c')];
        assert_eq!(Cheapest::of(places).collect::<String>(), "abcd");
    }
}
