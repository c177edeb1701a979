//! Whose the doubt of a sum is: the share that each of its terms has in it.

use super::cause::root_sum_square;
use super::{Cause, Worked};
use crate::in_order::InOrder;
use crate::quantity::Quantity;

/// The share of each term in the squared doubt of a sum, from 0 to 1: what terms have in common (an instrument, a reading) is
/// split by what each has in it. Nothing of it where the sum has no doubt.
#[must_use]
pub fn shares_of_terms<Q: Quantity>(terms: &[(f64, &Worked<Q>)]) -> Vec<f64> {
    let all = shares(terms, None);
    let whole = root_sum_square(&all).powi(2);
    let group = |cause: Cause| cause.together_with();
    let of = |(times, term): &(f64, &Worked<Q>)| -> f64 {
        let own = term.shares().iter().map(|(cause, share)| (*cause, (times * share).abs()));
        own.map(|(cause, size)| {
            let with: Vec<(Cause, f64)> = all.iter().copied().filter(|other| group(other.0) == group(cause)).collect();
            let sizes: f64 = with.iter().map(|other| other.1.abs()).sum();
            if sizes > 0.0 { root_sum_square(&with).powi(2) * size / sizes } else { 0.0 }
        })
        .sum()
    };
    terms.iter().map(|term| if whole > 0.0 { of(term) / whole } else { 0.0 }).collect()
}

/// The doubts of which a figure's is made: each cause with the size of its doubt, readings of one instrument of which nobody knows what they
/// share as one, under that instrument; the greatest first.
#[must_use]
pub fn doubts_in(shares: &[(Cause, f64)]) -> Vec<(Cause, f64)> {
    let mut groups: Vec<(Cause, f64)> = Vec::new();
    for (cause, _) in shares {
        let group = cause.together_with();
        let with: Vec<(Cause, f64)> = shares.iter().copied().filter(|other| other.0.together_with() == group).collect();
        let several = with.iter().any(|other| other.0 != *cause);
        let named = group.1.filter(|_| several).map_or(*cause, Cause::Instrument);
        if !groups.iter().any(|known| known.0 == named) {
            groups.push((named, root_sum_square(&with)));
        }
    }
    groups.retain(|group| group.1 > 0.0);
    groups.order_by(|a, b| b.1.total_cmp(&a.1));
    groups
}

/// The doubt of a sum if one of its terms had only so much of its own.
#[must_use]
pub fn doubt_with_term<Q: Quantity>(terms: &[(f64, &Worked<Q>)], at: usize, times: f64) -> f64 {
    root_sum_square(&shares(terms, Some((at, times))))
}

/// Every share of a sum, those of one term so many times.
fn shares<Q: Quantity>(terms: &[(f64, &Worked<Q>)], other: Option<(usize, f64)>) -> Vec<(Cause, f64)> {
    let of = |(at, (times, term)): (usize, &(f64, &Worked<Q>))| -> Vec<(Cause, f64)> {
        let more = other.filter(|other| other.0 == at).map_or(1.0, |other| other.1);
        term.shares().iter().map(|(cause, share)| (*cause, share * times * more)).collect()
    };
    terms.iter().enumerate().flat_map(of).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::proof::Place;
    use crate::quantity::Mm;

    fn read(nth: u16, doubt: f64, instrument: u32) -> Worked<Mm> {
        let cause = Cause::Read(Place::start(1), nth, Place::start(instrument));
        Worked::assumed(Mm::new(1.0), "a test").with_doubt(cause, doubt)
    }

    #[test]
    fn what_an_instrument_shares_is_split_and_all_shares_are_the_whole() {
        let (one, two, three) = (read(0, 4.0, 7), read(1, 12.0, 7), read(2, 12.0, 8));
        let shares = shares_of_terms(&[(-1.0, &one), (-1.0, &two), (1.0, &three)]);
        // 16 together, squared: 256; and 144.
        assert!((shares[0] - 64.0 / 400.0).abs() < 1e-12 && (shares[1] - 192.0 / 400.0).abs() < 1e-12);
        assert!((shares.iter().sum::<f64>() - 1.0).abs() < 1e-12);
        assert!((doubt_with_term(&[(-1.0, &one), (-1.0, &two), (1.0, &three)], 2, 0.0) - 16.0).abs() < 1e-12);
        let all: Vec<(Cause, f64)> = [&one, &two, &three].into_iter().flat_map(|term| term.shares().to_vec()).collect();
        let doubts: Vec<f64> = doubts_in(&all).into_iter().map(|(_, doubt)| doubt).collect();
        assert_eq!(doubts, [16.0, 12.0], "the two of one instrument cost most, and are one");
        assert_eq!(shares_of_terms::<Mm>(&[(1.0, &Worked::assumed(Mm::new(1.0), "a test"))]), [0.0]);
    }
}
