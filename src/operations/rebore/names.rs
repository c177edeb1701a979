//! The names of the values of a rebore.

use crate::names;
use crate::operations::PartSize;
use crate::quantity::{MPerMin, Minutes, Mm, MmPerRev, Ratio, RevPerMin, Shift, SpringRate, Volume};
use crate::shop::Gauge;

names! { pub(super),
    WORST: Mm = new("bore_worst", "greatest diameter found").found(PartSize::Inside);
    OUTSIDE: Mm = new("outside", "outside of the barrel about its bore").found(PartSize::Around);
    LEANS_OVER: Shift = new("leans_over", "the base face off square, and what truing leaves beside it");
    BASE_SQUARE: Shift = new("base_square", "how far the base face is off square, over the bore's length").found(PartSize::Map);
    LEAST: Mm = new("bore_least", "least diameter found").comes();
    WEAR: Shift = new("wear", "greatest diameter less that of the unworn ring").comes();
    WEAR_SHARE: Ratio = new("wear_permille", "wear in thousandths of the bore");
    OUT_OF_ROUND: Shift = new("out_of_round", "how unlike the axes are, by the definition asked or the worse of both");
    TAPER: Shift = new("taper", "how unlike the depths are, by the definition asked or the worse of both");
    CLEARANCE_NOW: Shift = new("clearance_now", "clearance of the piston that is in it now").comes();
    FORM: Mm = new("cylinder_form", "how far apart two cylinders of one axis are that hold every reading between them");
    TAPER_FIT: Shift = new("taper_fit", "how much it widens from the first depth to the last, on the diameter, over all readings");
    LEAN: Mm = new("lean", "how far its mean axis leans off that of the gauge in 100 mm");
    AXIS_SHIFT: Mm = new("axis_shift", "how far the axis moves where it is bored about the worn place");
    CLEAN_WORN: Mm = lower("clean_up_worn", "size that cleans it about its worn place, or the least that cleans it about any axis");
    CLEAN_OLD: Mm = lower("clean_up_old", "size that cleans it about its old axis: all wear on one side, or as read from the gauge's axis");
    CLEAN_MEAN: Mm = lower("clean_up_mean", "size that cleans it about its mean axis");
    PISTON: Mm = new("piston", "size of the piston").left(Gauge::Outside).foreign();
    FINISH: Mm = new("finish_bore", "bore to finish: the piston and the middle of its clearance").left(Gauge::Inside).leaves(PartSize::Inside);
    BORED: Mm = new("bored_size", "size to bore to, the honing left on").left(Gauge::Inside).passing(PartSize::Inside);
    HONING_LEFT: Shift = new("honing_left", "what is left for the hone, on the diameter");
    BORE_MIN: Mm = lower("bore_min", "least finished bore");
    BORE_MAX: Mm = upper("bore_max", "greatest finished bore");
    CLEARANCE: Shift = new("clearance", "clearance of piston and bore at 20 °C").comes();
    WALL: Shift = new("wall_left", "thinnest wall left").comes();
    RING_GAP: Shift = new("ring_gap", "gap of the ring in the finished bore").left(Gauge::Inside).foreign();
    SWEPT: Volume = new("swept", "what the piston sweeps in the finished bore");
    COMPRESSION: Ratio = new("compression_after", "compression with the finished bore");
    RUNNING: Shift = new("clearance_running", "clearance at the temperatures that they run at");
    BAR_SHARE: Ratio = new("bar_share", "bar over the least diameter found");
    BAR_SLENDER: Ratio = new("bar_slenderness", "how far the bar stands out over its diameter");
    BAR_STIFFNESS: SpringRate = new("bar_stiffness", "how stiff the bar stands at its nose");
    COPIED_SHARE: Ratio = new("copied_share", "share of the old shape that a pass leaves");
    COPIED: Mm = new("copied_left", "what spring leaves of the old shape on the diameter");
    SPEED: RevPerMin = new("spindle_speed", "spindle step for the bar's edge");
    SURFACE: MPerMin = new("surface_speed", "real cutting speed in the bored cylinder");
    FEED: MmPerRev = new("feed", "feed of a turn");
    TIME_A_PASS: Minutes = new("time_a_pass", "cutting time of one pass");
    PASSES: Ratio = new("passes_alike", "passes at the last setting");
}
