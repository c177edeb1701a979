//! What a cut is held down to where the grip does not carry all that tool and finish allow: steps of the spindle and feeds under those that
//! would be taken, until it is carried.

use super::piece::Eased;
use super::{Piece, feed};
use crate::quantity::Quantity;

/// Steps and feeds under the first that are tried: what is carried by less than that is another cut.
const TRIED: usize = 4;

/// A step under another is that much smaller at the least.
const UNDER: f64 = 1.0 - 1e-6;

/// A cut that may be held down.
pub(super) trait Aside {
    /// What it is when it was worked.
    type Worked;
    /// Whether the grip carries it so, as far as anybody can say.
    fn carried(&self, eased: Eased) -> bool;
    /// Works it so; none where it cannot be worked out, or not all of the tool is proven.
    fn suits(&mut self, eased: Eased) -> Option<Self::Worked>;
}

/// A cut of such a step (and feed, where it is not fed by hand) held down, so that it takes the least time of those that are carried and
/// suit. None where none of those that are tried does.
pub(super) fn until_held<A: Aside>(piece: &Piece, (step, fed): (f64, Option<f64>), cut: &mut A) -> Option<A::Worked> {
    let feeds = fed.map_or_else(Vec::new, |fed| under(fed, |most| feed::step_at_or_below(piece, most)));
    let downs = |all: Vec<f64>| -> Vec<Option<f64>> {
        std::iter::once(None).chain(all.into_iter().take(TRIED).map(Some)).collect()
    };
    let (steps, feeds) = (downs(steps_under(piece, step)), downs(feeds));
    // A slower step takes less from the jaws, a finer feed pushes less: where the lightest cut is not carried, none is.
    let lightest = Eased { step: steps.last().copied().flatten(), feed: feeds.last().copied().flatten() };
    if !cut.carried(lightest) {
        return None;
    }
    let all = steps.iter().flat_map(|step| feeds.iter().map(|feed| Eased { step: *step, feed: *feed })).skip(1);
    let mut all: Vec<Eased> = all.collect();
    // The time of a cut goes down as step and feed go up: the first that is carried is the quickest.
    let rate = |eased: &Eased| eased.step.unwrap_or(step) * eased.feed.or(fed).unwrap_or(1.0);
    all.sort_by(|a, b| rate(b).total_cmp(&rate(a)));
    // Few are carried, and only these are worked whole.
    all.into_iter().find_map(|eased| cut.carried(eased).then(|| cut.suits(eased)).flatten())
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
