//! The lines of a sheet that say how a part is held.

use super::mm;
use crate::operations::Hold;
use crate::proof::Words;
use crate::quantity::Quantity;

/// What it is held in; where nobody says, the words of the card for that.
pub(in crate::operations) fn held_in(hold: Option<&Hold>, unnamed: &'static str) -> Words {
    match hold {
        Some(hold) => Words::of("held-in").with("in", hold.held_in.value.named()),
        None => Words::of(unnamed),
    }
}

/// How true it is held, where somebody says.
pub(in crate::operations) fn trued(hold: Option<&Hold>) -> Option<Words> {
    let within = hold?.true_within.as_ref()?;
    Some(Words::of("true-within").with("within", mm(within.value.number())))
}
