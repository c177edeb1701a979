//! What the model of a day is made from.

use super::asked::Asked;
use super::done::Done;
use super::known::Known;
use super::stopped::Out;
use super::times::Times;

/// What the making looks at.
pub(super) struct Ground<'a> {
    /// Set-ups, what stands between them, the shop.
    pub known: Known<'a>,
    /// What is out.
    pub out: &'a [Out],
    /// The clock.
    pub times: &'a Times,
    /// What was asked.
    pub asked: &'a Asked,
    /// What is done.
    pub done: &'a Done,
}

/// Whether a set-up is in the day: neither out nor done.
pub(super) fn is_in(ground: &Ground, at: usize) -> bool {
    ground.out.get(at).is_some_and(Option::is_none) && !ground.done.is(at)
}
