//! The names of the values of a piece that is parted off.

use crate::names;
use crate::operations::PartSize;
use crate::quantity::Mm;
use crate::shop::Gauge;

names! { pub(super),
    OUTSIDE: Mm = new("outside", "outside where it is parted").comes();
    INSIDE: Mm = new("inside", "bore of the piece").comes();
    LENGTH: Mm = new("length_parted", "length of the piece that comes off").left(Gauge::Outside).leaves(PartSize::Faces);
    PART_LENGTH: Mm = new("part_length", "length of the part over both ends").found(PartSize::Bar);
    BAR_LEFT: Mm = new("bar_left", "length of the bar once the piece is off").leaves(PartSize::Bar);
    WIDTH: Mm = new("blade_width", "width of the blade");
    REACH: Mm = new("blade_reach_asked", "how far the blade must reach");
    FROM_JAWS: Mm = new("from_jaws", "how far from the jaws the blade cuts");
}
