//! The names of the values of a tapped hole.

use crate::names;
use crate::operations::PartSize;
use crate::quantity::{Mm, NewtonMetre, Ratio};
use crate::shop::Gauge;

names! { pub(super),
    HOLE: Mm = new("hole", "the hole as it was found").found(PartSize::Inside);
    MINOR_MIN: Mm = lower("minor_min", "least minor diameter of the thread");
    MINOR_MAX: Mm = upper("minor_max", "greatest minor diameter of the thread");
    TAP_DRILL: Mm = new("tap_drill", "drill of the table for this thread");
    DRILL_FOR: Mm = new("drill_for_usual_percent", "drill that leaves the usual percentage of thread");
    PERCENT: Ratio = new("percent_of_thread", "percentage of thread that this hole leaves");
    FULL_THREAD: Mm = new("full_thread", "depth of the full thread").left(Gauge::Depth);
    TAP_DEPTH: Mm = new("tap_depth", "depth that the tap cuts to: full thread and lead");
    TAP_END: Mm = new("tap_end", "depth that the tap's end reaches: full thread, lead and male centre");
    TURNS: Ratio = new("turns", "turns of the tap over its depth");
    HOLE_DEPTH: Mm = new("hole_depth", "depth of the hole at its full diameter").found(PartSize::Depth);
    WALL: Mm = new("wall", "metal from the face to the far side").found(PartSize::Wall);
    BOTTOM_LEFT: Mm = new("bottom_left", "room left under the tap's end").comes();
    TORQUE: NewtonMetre = lower("tap_torque", "torque on the tap; its band reaches to what the short form says");
    TORQUE_SHORT: NewtonMetre = lower("tap_torque_short_form", "the same of a sharp tap by the short form, blind to the hole");
    BREAKS_AT: NewtonMetre = upper("tap_breaks_at", "torque at which the tap's core breaks");
    EDGE: Mm = new("edge", "from the middle of the hole to the nearest edge").found(PartSize::Edge);
    EDGE_WALL: Mm = new("edge_wall", "metal between the thread and the nearest edge").comes();
    END_BEHIND: Mm = new("end_behind", "how far the tap's end comes out behind, where the thread is as deep as the wall");
    LEFT_BEHIND: Mm = new("left_behind", "gap left behind the wall while the tap's end is out");
}
