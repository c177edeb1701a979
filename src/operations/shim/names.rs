//! The names of the values of shimming.

use crate::names;
use crate::operations::Name;
use crate::quantity::{Mm, Ratio, Shift};
use crate::shop::Gauge;

names! { pub(super),
    BARE: Shift = new("float_bare", "float without a shim").comes();
    FOUND: Shift = new("float_found", "float as it was found, with the shims that were in").comes();
    BARE_FOUND: Shift = new("float_bare_found", "float without a shim, from the float as found").comes();
    WANTED: Shift = new("pack_wanted", "pack that leaves just the float aimed at");
    TO_ORDER: Mm = new("pack_to_order", "thickness to order where the drawer has none: as wanted, or stepped down");
    LOOKED_AT: Ratio = new("packs_looked_at", "packs that the drawer gives, all of them looked at");
    PACK: Mm = new("pack_thickness", "thickness of the pack: as chosen, or as it was put in").left(Gauge::Outside).foreign();
    LEFT: Shift = new("float_left", "float that the pack leaves").left(Gauge::Indicator);
    OFF_AIM: Shift = new("off_aim", "how far that is off what is aimed at");
    WORST_LOW: Shift = new("float_worst_low", "the same with every reading off the bad way at once: shown, never judged");
    WORST_HIGH: Shift = new("float_worst_high", "the same the other way: shown, never judged");
    GROWTH: Shift = new("float_grows", "what warmth adds to the float");
    RUNNING: Shift = new("float_running", "float when it runs");
    IN_FROST: Shift = new("float_in_frost", "float in the coldest that case and shaft stand in");
    AS_ONE: Mm = new("doubt_as_one", "doubt of the float where the pack is measured as one");
    APART: Mm = new("float_apart", "how far the float by its links and the float as found lie apart");
}

/// Each shim of a pack that was put in: the log has it of shims written down one by one.
pub(super) const EACH: [Name<Mm>; 6] = [
    Name::new("pack_shim_1", "first shim of the pack that was put in"),
    Name::new("pack_shim_2", "second shim of the pack that was put in"),
    Name::new("pack_shim_3", "third shim of the pack that was put in"),
    Name::new("pack_shim_4", "fourth shim of the pack that was put in"),
    Name::new("pack_shim_5", "fifth shim of the pack that was put in"),
    Name::new("pack_shim_6", "sixth shim of the pack that was put in"),
];

/// The thickest shim of a pack that was put in: the log has it of shims written down one by one.
pub(super) const THICKEST: Name<Mm> = Name::new("pack_thickest", "thickest shim of the pack that was put in");
