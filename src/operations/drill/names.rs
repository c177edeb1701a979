//! The names of the values of a drilled hole, beside those of every hole that a drill goes through.

use crate::names;
use crate::operations::PartSize;
use crate::quantity::Mm;
use crate::shop::Gauge;

names! { pub(super),
    DEPTH: Mm = new("drilled_depth", "depth of the hole at its full diameter").left(Gauge::Depth).leaves(PartSize::Depth);
    HOLE: Mm = new("hole_drilled", "the hole: as wide as its drill, and wider by what that cuts over").leaves(PartSize::Inside);
    METAL_LEFT: Mm = new("metal_left", "metal left under the point").comes();
    WALL_NEEDED: Mm = lower("wall_needed", "wall at which the hole would be proven");
    EDGE: Mm = new("edge", "from the middle of the hole to the nearest edge").found(PartSize::Edge);
    EDGE_WALL: Mm = new("edge_wall", "metal between the hole and the nearest edge").comes();
}
