//! The names of the values that a diameter has, turned or bored.

use crate::names;
use crate::quantity::{Mm, Newton, Ratio};

names! { pub(in crate::operations),
    PRESENT: Mm = new("present", "diameter as found");
    AFTER: Mm = new("diameter_after", "diameter aimed at: the middle of its limits");
    LEAST: Mm = lower("diameter_least", "smallest diameter wanted");
    MOST: Mm = upper("diameter_most", "largest diameter wanted");
    REMOVED: Mm = new("removed", "metal to remove, on the radius");
    WINDOW: Mm = new("measuring_window", "what is left to measure in: from limit to limit");
    LENGTH: Mm = new("length_cut", "how far it is cut along the axis");
    PART_LENGTH: Mm = new("part_length", "length of the part over both ends");
    SHARE_LEFT: Ratio = new("share_left", "share of a depth that a pass leaves standing");
    SPRING_LEFT: Mm = new("spring_left", "what spring leaves on the diameter after the last pass");
    RADIAL: Newton = lower("radial_force", "force that pushes tool and part apart");
}
