//! The names of the values of a seat.

use crate::names;
use crate::operations::PartSize;
use crate::quantity::{MPerMin, Minutes, Mm, MmPerRev, NewtonMetre, RevPerMin};
use crate::shop::Gauge;

names! { pub(super),
    SEAT: Mm = new("seat_diameter", "cutter, and seat").comes();
    HOLE: Mm = new("hole", "the hole as it was found").found(PartSize::Inside);
    HOLE_DEPTH: Mm = new("hole_depth", "depth of the hole as it was found, from the highest place of the raw face").found(PartSize::Depth);
    PILOT: Mm = new("pilot", "the pilot of the cutter");
    PLAY: Mm = new("pilot_play", "play of the pilot in its hole");
    OUT_OF_SQUARE: Mm = new("seat_out_of_square", "how far the seat may stand out of square over its own width");
    WIDTH: Mm = new("seat_width", "width of the ring that carries the head");
    WALL: Mm = new("wall", "metal from the highest place of the raw face to the far side").found(PartSize::Wall);
    DEPTH: Mm = new("seat_depth", "depth of the seat from the highest place of the raw face").left(Gauge::Depth);
    UNEVEN: Mm = new("uneven", "how uneven the raw face is across the seat");
    METAL_LEFT: Mm = new("metal_left", "metal left under the seat").left(Gauge::Depth).leaves(PartSize::Wall);
    EDGE: Mm = new("edge", "from the middle of the hole to the nearest edge").found(PartSize::Edge);
    EDGE_LEFT: Mm = new("edge_left", "metal between the seat and the nearest edge").comes();
    STOP_TRAVEL: Mm = new("stop_travel", "travel of the depth stop from the highest place");
    SPEED: RevPerMin = new("spindle_speed", "spindle step for the cutter");
    SURFACE: MPerMin = new("surface_speed", "real cutting speed at the rim of the cutter");
    FEED: MmPerRev = new("feed", "feed of a turn");
    TORQUE: NewtonMetre = lower("torque", "torque on the cutter at the most feed");
    TORQUE_THERE: NewtonMetre = upper("torque_there", "torque that the machine gives at that step");
    TIME: Minutes = new("time", "cutting time, approach with it");
}
