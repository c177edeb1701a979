//! The names of the values that a bored hole has beside those of every diameter.

use crate::names;
use crate::operations::PartSize;
use crate::quantity::{Mm, Ratio, Shift};

names! { pub(super),
    OUTSIDE: Mm = new("outside", "outside of the part about the bore").found(PartSize::Around);
    ECCENTRIC: Mm = new("eccentric", "how far the hole as found lies off the middle of the outside").form_of(&[PartSize::Inside, PartSize::Around]);
    WALL: Mm = new("wall_left", "thinnest wall left about the bore").comes();
    BAR_OUT: Mm = new("bar_out", "how far the bar stands out");
    BAR_SLENDER: Ratio = new("bar_slenderness", "how far the bar stands out over its diameter");
    BAR_SHARE: Ratio = new("bar_share", "bar over the hole as found");
    LEFT_BEHIND: Shift = new("left_behind", "gap left behind the part while the bar is through");
    PRESENT_DEPTH: Mm = new("present_depth", "depth of the hole as found").found(PartSize::Depth);
    BELOW: Shift = new("below_the_bottom", "how much deeper the hole is than it is bored");
}
