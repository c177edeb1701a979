//! What a cut is held down to where grip or motor do not carry all that tool and finish allow: steps of the spindle and feeds under those that
//! would be taken, and more and lighter cuts, until it is carried.

use super::piece::Eased;
use super::{Piece, feed};
use crate::quantity::Quantity;

/// Steps and feeds under the first that are tried: what is carried by less than that is another cut.
const TRIED: usize = 24;

/// Cuts more than the fewest that are tried.
const MORE: u32 = 9;

/// A step under another is that much smaller at the least.
const UNDER: f64 = 1.0 - 1e-6;

/// A cut that may be held down.
pub(super) trait Aside {
    /// What it is when it was worked.
    type Worked;
    /// Whether grip and motor carry it so, as far as anybody can say.
    fn carried(&self, eased: Eased) -> bool;
    /// Whether so many cuts are each deep enough to bite, as far as anybody can say.
    fn bites(&self, cuts: u32) -> bool;
    /// Works it so; none where it cannot be worked out, or not all of the tool is proven.
    fn suits(&mut self, eased: Eased) -> Option<Self::Worked>;
}

/// A cut of such a step (and feed, where it is not fed by hand), in so many passes, held down, so that it takes the least time of those that
/// are carried and suit. None where none of those that are tried does.
pub(super) fn until_held<A: Aside>(
    piece: &Piece,
    (step, fed, count): (f64, Option<f64>, u32),
    cut: &mut A,
) -> Option<A::Worked> {
    let feeds = fed.map_or_else(Vec::new, |fed| under(fed, |most| feed::step_at_or_below(piece, most)));
    let (steps, feeds) = (downs(steps_under(piece, step), TRIED), downs(feeds, TRIED));
    let cuts = downs((1..=MORE).map(|more| count + more).collect(), TRIED);
    // A slower step takes less from the jaws, a finer feed pushes less: where the lightest cut is not carried, none is. More cuts are
    // lighter ones too, till the chip gets so thin that it asks for more again.
    let lightest = |cuts| Eased { step: steps.last().copied().flatten(), feed: feeds.last().copied().flatten(), cuts };
    if ![None, cuts.last().copied().flatten()].into_iter().any(|cuts| cut.carried(lightest(cuts))) {
        return None;
    }
    // What rubs does not suit, whatever else is worked of it.
    let cuts: Vec<Option<u32>> = cuts.into_iter().filter(|cuts| cuts.is_none_or(|cuts| cut.bites(cuts))).collect();
    let of_step = |step: &Option<f64>| {
        feeds.iter().flat_map({
            let (step, cuts) = (*step, &cuts);
            move |feed| cuts.iter().map(move |cuts| Eased { step, feed: *feed, cuts: *cuts })
        })
    };
    let mut all: Vec<Eased> = steps.iter().flat_map(of_step).skip(1).collect();
    // The time of a cut goes down as step and feed go up: the first that is carried is the quickest.
    let rate = |eased: &Eased| {
        eased.step.unwrap_or(step) * eased.feed.or(fed).unwrap_or(1.0) / f64::from(eased.cuts.unwrap_or(count).max(1))
    };
    all.sort_by(|a, b| rate(b).total_cmp(&rate(a)));
    // Few are carried, and only these are worked whole.
    all.into_iter().find_map(|eased| cut.carried(eased).then(|| cut.suits(eased)).flatten())
}

/// As it is, and the first of what holds it down.
fn downs<T>(all: Vec<T>, tried: usize) -> Vec<Option<T>> {
    std::iter::once(None).chain(all.into_iter().take(tried).map(Some)).collect()
}

/// The spindle steps under one that was taken, the highest first.
fn steps_under(piece: &Piece, taken: f64) -> Vec<f64> {
    let steps = piece.lathe.map(|lathe| &lathe.spindle.value);
    under(taken, |most| steps.and_then(|steps| steps.at_or_below(most)).map(|step| step.number()))
}

/// All steps under one, the greatest first.
fn under(taken: f64, at_or_below: impl Fn(f64) -> Option<f64>) -> Vec<f64> {
    let mut all = Vec::new();
    while let Some(next) = at_or_below(all.last().copied().unwrap_or(taken) * UNDER) {
        all.push(next);
    }
    all
}
