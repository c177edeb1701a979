//! Places by what they cost, the cheapest first: most searches look at a few alone, so that not all are sorted.

use super::Point;
use std::cmp::Ordering;
use std::collections::BinaryHeap;

/// Gives out places with what they cost, the cheapest first; of such that cost the same the one further left, then the upper one.
pub(super) struct Cheapest(BinaryHeap<Priced>);

/// A place with its cost.
struct Priced {
    cost: f64,
    place: Point,
}

impl Cheapest {
    pub(super) fn of(places: impl IntoIterator<Item = (f64, Point)>) -> Self {
        Self(places.into_iter().map(|(cost, place)| Priced { cost, place }).collect())
    }
}

impl Iterator for Cheapest {
    type Item = (f64, Point);

    fn next(&mut self) -> Option<(f64, Point)> {
        self.0.pop().map(|priced| (priced.cost, priced.place))
    }
}

impl Ord for Priced {
    /// The greatest of a heap is given out first.
    fn cmp(&self, other: &Self) -> Ordering {
        let (a, b) = (&self.place, &other.place);
        other.cost.total_cmp(&self.cost).then_with(|| b.x.total_cmp(&a.x)).then_with(|| b.y.total_cmp(&a.y))
    }
}

impl PartialOrd for Priced {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl PartialEq for Priced {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other) == Ordering::Equal
    }
}

impl Eq for Priced {}

#[cfg(test)]
mod tests {
    use super::{Cheapest, Point};

    #[test]
    fn the_cheapest_comes_first_and_of_two_alike_the_one_further_left_and_upper() {
        let places = [(3.0, 0.0, 0.0), (2.0, 1.0, 5.0), (2.0, 1.0, 4.0), (2.0, 0.0, 9.0), (1.0, 7.0, 7.0)];
        let given = Cheapest::of(places.map(|(cost, x, y)| (cost, Point::new(x, y))));
        let given: Vec<_> = given.map(|(cost, place)| (cost, place.x, place.y)).collect();
        assert_eq!(given, [(1.0, 7.0, 7.0), (2.0, 0.0, 9.0), (2.0, 1.0, 4.0), (2.0, 1.0, 5.0), (3.0, 0.0, 0.0)]);
    }
}
