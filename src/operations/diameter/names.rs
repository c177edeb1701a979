//! The names of the values that a diameter has, turned or bored.

use crate::names;
use crate::operations::PartSize;
use crate::quantity::{Mm, Newton, Ratio};
use crate::shop::Gauge;

names! { pub(in crate::operations),
    LEAST: Mm = lower("diameter_least", "smallest diameter wanted");
    MOST: Mm = upper("diameter_most", "largest diameter wanted");
    REMOVED: Mm = new("removed", "metal to remove, on the radius").leaves(PartSize::Gone);
    WINDOW: Mm = new("measuring_window", "what is left to measure in: from limit to limit");
    PART_LENGTH: Mm = new("part_length", "length of the part over both ends").found(PartSize::Bar);
    STILL_TO_CUT: Mm = lower("still_to_cut", "metal on the radius down to the middle of the limits, when it is measured before the last cut");
    SHARE_LEFT: Ratio = new("share_left", "share of a depth that a pass leaves standing");
    SPRING_LEFT: Mm = new("spring_left", "what spring leaves on the diameter after the last pass");
    SPRING_MEASURED: Mm = new("spring_measured", "what spring leaves on the diameter when it is measured before the last cut");
    RADIAL: Newton = lower("radial_force", "force that pushes tool and part apart");
}

names! { pub(in crate::operations) TURNED_VALUES,
    PRESENT: Mm = new("present", "diameter as found").found(PartSize::Outside);
    TURNED: Mm = new("diameter_after", "diameter aimed at, the middle of its limits, or as it was left").left(Gauge::Outside).leaves(PartSize::Outside);
}

names! { pub(in crate::operations) BORED_VALUES,
    PRESENT_BORE: Mm = new("present", "diameter as found").found(PartSize::Inside);
    BORED: Mm = new("diameter_after", "diameter aimed at, the middle of its limits, or as it was left").left(Gauge::Inside).leaves(PartSize::Inside);
}

names! { pub(in crate::operations) TO_ITS_END,
    LENGTH: Mm = new("length_cut", "how far it is cut along the axis, or as it was left").left(Gauge::Depth);
}

names! { pub(in crate::operations) OUT_FREE,
    FREE: Mm = new("length_cut", "how far it is cut along the axis");
}
