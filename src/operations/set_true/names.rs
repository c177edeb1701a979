//! The names of the values of truing.

use crate::names;
use crate::operations::{Name, PartSize};
use crate::quantity::{Angle, Mm, Ratio};
use crate::shop::Gauge;

names! { pub(super),
    ECCENTRICITY: Mm = new("eccentricity", "how far the centre is off").comes();
    TOWARDS: Angle = new("towards", "towards where the centre is off, from the first jaw");
    TIR_OFF: Mm = new("tir_off_centre", "what the centre alone makes an indicator read in a turn");
    TIR_READ: Mm = new("tir_as_read", "greatest less least reading");
    FORM: Mm = new("form", "what is left of the readings when the centre is taken out: no jaw mends it");
    LOBES_2: Mm = new("left_over_2", "two lobes: half of what they make an indicator read");
    LOBES_3: Mm = new("left_over_3", "three lobes: half of what they make an indicator read");
    AFTER: Mm = new("tir_after", "what is foretold of an indicator's reading in a turn after the move").left(Gauge::Indicator).leaves(PartSize::RunOut);
    WITHIN: Mm = upper("true_within", "what an indicator may read in a turn").leaves(PartSize::RunOut);
    MOVE_FIRST: Mm = new("move_first", "how far the jaws of the first pair move");
    MOVE_SECOND: Mm = new("move_second", "how far the jaws of the second pair move");
    TURN_FIRST: Angle = new("turns_first", "turn of the key for that");
    TURN_SECOND: Angle = new("turns_second", "turn of the key for that");
    SHIM_FIRST: Mm = new("shim_first", "shim under the first of the two jaws");
    SHIM_SECOND: Mm = new("shim_second", "shim under the second of them");
    LEAN: Mm = new("lean", "how far the axis runs off between the two planes");
    LEAN_TOWARDS: Angle = new("lean_towards", "towards where the axis runs off, from the first jaw");
    TILT: Mm = new("tilt_tir", "what an indicator reads on the face in a turn, where it was read");
    TILT_RIM: Mm = new("tilt_at_rim", "the same at the rim of the face");
    TILT_TOWARDS: Angle = new("tilt_towards", "towards where the face stands out, from the first jaw");
    FACE_AFTER: Mm = new("tilt_after", "what is foretold at the rim after the face was tapped").left(Gauge::Indicator);
    SECOND_AFTER: Mm = new("tir_after_second", "what is foretold of an indicator's reading in a turn in the second plane").left(Gauge::Indicator);
}

/// How many places were read after the move: the log has it of readings in a row.
pub(super) const PLACES_AFTER: Name<Ratio> = Name::new("places_after", "places that were read after the move");
