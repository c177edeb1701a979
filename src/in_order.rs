//! Lists put in order. What sorts is built once, not once for each list: it sorts the numbers of the places, and moves what stands
//! there last. For lists of a few things; what is sorted again and again, or is long, is sorted where it stands.

use std::cmp::Ordering;

/// Lists that are put in order; equals stay as they stood.
pub(crate) trait InOrder<T> {
    /// By what is told of each two.
    fn order_by(&mut self, compare: impl Fn(&T, &T) -> Ordering);

    /// By a key of each.
    fn order_by_key<K: Ord>(&mut self, key: impl Fn(&T) -> K) {
        self.order_by(|one, other| key(one).cmp(&key(other)));
    }
}

impl<T> InOrder<T> for [T] {
    fn order_by(&mut self, compare: impl Fn(&T, &T) -> Ordering) {
        let places = ordered(self.len(), &|one, other| match (self.get(one), self.get(other)) {
            (Some(one), Some(other)) => compare(one, other),
            _ => Ordering::Equal,
        });
        move_to(places, &mut |one, other| self.swap(one, other));
    }
}

/// The places of a list in the order of what stands there.
fn ordered(count: usize, compare: &dyn Fn(usize, usize) -> Ordering) -> Vec<usize> {
    let mut places: Vec<usize> = (0..count).collect();
    places.sort_by(|one, other| compare(*one, *other));
    places
}

/// Moves to each place what is to stand there, ring by ring.
fn move_to(mut places: Vec<usize>, swap: &mut dyn FnMut(usize, usize)) {
    for first in 0..places.len() {
        let mut to = first;
        while let Some(place) = places.get_mut(to) {
            let from = std::mem::replace(place, to);
            if from == first || from == to {
                break;
            }
            swap(to, from);
            to = from;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::InOrder;

    #[test]
    fn a_list_is_ordered_as_the_standard_library_orders_it() {
        let mut state = 7_u64;
        for length in 0..60 {
            let mut next = || {
                state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1);
                (state >> 33) % 9
            };
            let mut list: Vec<(u64, usize)> = (0..length).map(|at| (next(), at)).collect();
            let mut wanted = list.clone();
            wanted.sort_by_key(|one| one.0);
            list.order_by_key(|one| one.0);
            assert_eq!(list, wanted);
        }
    }
}
