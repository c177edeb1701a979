//! The names of the values of an oil hole, beside those of every drilled hole.

use crate::names;
use crate::operations::PartSize;
use crate::quantity::Mm;

names! { pub(super),
    AT: Mm = new("oil_hole_at", "middle of the hole from the outer end of the bush").comes();
    LENGTH: Mm = new("bush_length", "length of the bush, or of its housing where that ends first").found(PartSize::Faces);
    WALL_ALONG: Mm = new("wall_along", "wall along the axis of the hole").comes();
    MOUTH: Mm = new("exit_ellipse", "the long way across the mouth in the bore");
    TO_THE_END: Mm = new("to_the_end", "metal between the mouth and the nearer end");
}
