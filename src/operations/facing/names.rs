//! The names of the values that face and skim share.

use crate::names;
use crate::operations::PartSize;
use crate::quantity::{Mm, Shift};
use crate::shop::Gauge;

names! { pub(in crate::operations),
    OUTSIDE: Mm = new("outside", "outside diameter that is cut").comes();
    INSIDE: Mm = new("inside", "inside diameter that is cut").comes();
    LENGTH: Mm = new("length", "length over both ends as found, on unworn metal").found(PartSize::Faces);
    WEAR: Mm = new("wear", "depth of the groove below the unworn surface").comes();
    REMOVED: Mm = new("removed", "metal to remove, from the unworn surface").leaves(PartSize::Gone);
    LENGTH_AFTER: Mm = new("length_after", "length over both ends after the cut").left(Gauge::Outside).leaves(PartSize::Faces);
    WINDOW: Mm = new("measuring_window", "what is left to measure in: the least worst-case margin of case and length");
    LENGTH_SPARE: Mm = upper("length_spare", "what the cut has to spare by which the length as found may be off");
    RELIEF_LEFT: Mm = new("relief_left", "depth of the relief after the cut").comes();
    LAND: Mm = new("land_width", "width of the land that carries the inner ring").comes();
    FLOAT_FROM_NEW: Shift = new("float_change_from_new", "change of the end float against the parts when new").comes();
    FLOAT_FROM_FOUND: Shift = new("float_change_from_found", "change of the end float against the float as found").comes();
    FLOAT_FOUND: Shift = new("float_as_found", "end float as it was found").comes();
    FLOAT_AFTER: Shift = new("float_after", "end float after the cut").comes();
    FLOAT_WITH_SHIM: Shift = new("float_with_shim", "end float after the cut with the shim in").comes();
    SHIM: Shift = new("shim", "shim that brings the float to what is wanted").comes();
}

/// Lists every value of a facing cut, and an operation's own behind them.
macro_rules! values {
    ($($own:expr),* $(,)?) => {
        &[
            $crate::operations::facing::VALUES,
            $crate::operations::turning::OF_CUT,
            $crate::operations::turning::OF_HOLD,
            $crate::operations::turning::OF_PASSES,
            $crate::operations::turning::OF_ACROSS,
            $crate::operations::turning::OF_CLEAR,
            $crate::operations::turning::OF_FLANGE,
            $crate::operations::turning::OF_FLAT,
            $($own),*
        ]
    };
}
pub(in crate::operations) use values;
