//! The names of the values of lapping.

use crate::names;
use crate::operations::PartSize;
use crate::quantity::{Mm, Mm2, Ratio, Volume};
use crate::shop::Gauge;

names! { pub(super),
    FLAT_LEAST_SQUARES: Mm = new("flat_least_squares", "greatest less least reading over the plane of least squares (FLTt)");
    FLAT_PEAK: Mm = new("flat_peak", "the highest reading over that plane (FLTp)");
    FLAT_VALLEY: Mm = new("flat_valley", "the lowest reading under that plane (FLTv)");
    FLAT_RMS: Mm = new("flat_rms", "root of the mean square over that plane (FLTq)");
    FLAT_FOUND: Mm = new("flat_found", "how far the face is out of flat: the least distance of two planes that hold it").found(PartSize::Map);
    METAL_TO_LAP: Mm = new("metal_to_lap", "metal to lap, at the high spots");
    REMOVED: Mm = new("removed", "metal off the face, as planned or as left").left(Gauge::Depth).leaves(PartSize::Gone);
    FLAT_AFTER: Mm = new("flat_after", "what is foretold of the face after lapping").left(Gauge::Indicator);
    AREA: Mm2 = new("area_closed", "the area that the joint closes over the piston");
    BORE: Mm = new("bore", "bore of the cylinder").comes();
    CLEARANCE: Volume = new("clearance_volume", "clearance volume as it was").found(PartSize::ClearanceVolume);
    CLEARANCE_LOST: Volume = new("clearance_volume_lost", "clearance volume that goes with the metal");
    CLEARANCE_AFTER: Volume = new("clearance_volume_after", "clearance volume after lapping").leaves(PartSize::ClearanceVolume);
    COMPRESSION_BEFORE: Ratio = new("compression_before", "compression as it was");
    COMPRESSION_AFTER: Ratio = new("compression_after", "compression after lapping");
    SQUISH: Mm = new("squish", "squish as it was").found(PartSize::Squish);
    SQUISH_AFTER: Mm = new("squish_after", "squish after lapping").leaves(PartSize::Squish);
    SET_DOWN: Mm = new("set_down", "set-down of the insert that has the least to lose").found(PartSize::SetDown);
    SET_DOWN_AFTER: Mm = new("set_down_after", "set-down that lapping leaves of the insert that has the least to lose").comes();
    SET_DOWN_LEAST: Mm = lower("set_down_least", "the least set-down of that insert");
}
