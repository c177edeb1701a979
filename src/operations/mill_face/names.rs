//! The names of the values of a milled face.

use crate::names;
use crate::operations::PartSize;
use crate::quantity::{KiloWatt, MPerMin, Minutes, Mm, MmPerMin, MmPerRev, Newton, NewtonMetre, Ratio, RevPerMin};
use crate::shop::Gauge;

names! { pub(super),
    CUTTER: Mm = new("cutter", "diameter of the cutter");
    TEETH: Ratio = new("teeth", "teeth of the cutter");
    THICKNESS: Mm = new("thickness", "thickness as found at its highest place, seat to raw face").found(PartSize::Faces);
    REMOVED: Mm = new("removed", "metal removed from the highest place, in whole divisions").leaves(PartSize::Gone);
    LEFT: Mm = new("thickness_after", "thickness after the last pass").left(Gauge::Outside).leaves(PartSize::Faces);
    UNEVEN: Mm = new("uneven", "how uneven the raw face is");
    PASSES: Ratio = new("passes", "passes, one over another");
    LANES: Ratio = new("lanes", "tracks beside each other");
    DEPTH: Mm = new("deepest_pass", "depth of the deepest pass");
    MOST_DEPTH: Mm = upper("most_depth", "greatest depth that machine and cutter stand");
    TRACK: Mm = new("track", "width of a track");
    ENGAGED: Ratio = new("engaged", "width of a track over the cutter");
    SPEED: RevPerMin = new("spindle_speed", "spindle step for the cutter");
    SURFACE: MPerMin = new("surface_speed", "real cutting speed at the rim of the cutter");
    TOOTH: Mm = new("feed_per_tooth", "feed of a tooth");
    FEED: MmPerRev = new("feed", "feed of a turn, all teeth");
    RATE: MmPerMin = new("feed_rate", "feed of the table a minute");
    FORCE: Newton = lower("cutting_force", "greatest force of the teeth that cut at once");
    POWER: KiloWatt = lower("power_at_motor", "power that the motor must give");
    GIVES: Mm = new("cutter_gives", "how far the cutter standing out gives way");
    SWAYS: Mm = new("work_sways", "how far the work standing up over its hold sways");
    TIPPING: NewtonMetre = lower("tipping_moment", "moment by which the cut tips the work, blows and safety in it");
    RIGHTING: NewtonMetre = upper("righting_moment", "moment by which the hold rights it, as strong as the twist shows that it stood");
    CLEAR: Mm = new("clear_of_jaws", "how far the milled face stands over the jaws");
    HOLLOW: Mm = new("hollow", "how hollow the tram leaves a track");
    OUT_OF_FLAT: Mm = new("out_of_flat", "hollow of a track and step between tracks together");
    OUT_OF_SQUARE: Mm = new("out_of_square", "lean of the spindle and truth of the hold together, over the width");
    TIME: Minutes = new("time", "cutting time of all passes");
}
