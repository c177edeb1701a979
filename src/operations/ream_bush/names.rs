//! The names of the values of a bush: those of its joint, and those of its running fit.

pub(super) use crate::operations::press_joint::names::closed_in::BORE_PRESSED;
pub(super) use crate::operations::press_joint::names::fitted::{BORE_HIGH, BORE_LOW, BUSH_OUTSIDE};
pub(super) use crate::operations::press_joint::names::freezer::{BUSH_TEMPERATURE, CHILL_GAIN};
pub(super) use crate::operations::press_joint::names::joint::{BUSH_BORE, BUSH_LENGTH, HOUSING_BORE};
pub(super) use crate::operations::press_joint::names::oven::HOUSING_TEMPERATURE;
pub(super) use crate::operations::press_joint::names::oven_set::{HOUSING_HOTTEST, OVEN_SETTING};
pub(super) use crate::operations::press_joint::names::room::ASSEMBLY_CLEARANCE;

use crate::names;
use crate::operations::PartSize;
use crate::quantity::{MPerMin, Mm, MmPerRev, Ratio, RevPerMin, Shift};
use crate::shop::Gauge;

names! { pub(super),
    SHAFT: Mm = new("shaft", "shaft that runs in the bush").comes();
    CLEARANCE_MIN: Shift = lower("clearance_min", "least running clearance");
    CLEARANCE_MAX: Shift = upper("clearance_max", "greatest running clearance");
    BORE_MIN: Mm = lower("bore_min", "least finished bore");
    BORE_MAX: Mm = upper("bore_max", "greatest finished bore");
    FINISH: Mm = new("finish_bore", "finished bore: the middle of its limits, or as it was left").left(Gauge::Inside).leaves(PartSize::Bushed);
    CLEARANCE: Shift = new("clearance", "running clearance of the finished bore on the shaft as measured").comes();
    MEASURING_WINDOW: Shift = upper("measuring_window", "window of the finished bore, against which an instrument is judged");
    STOCK: Shift = new("ream_stock", "stock left for the reamer, on diameter");
    REAMER_LOW: Mm = new("reamer_low", "smallest that the fixed reamer may be");
    REAMER_HIGH: Mm = new("reamer_high", "largest that the fixed reamer may be");
    FIRST_SETTING: Mm = new("setting_first", "first setting of the expanding reamer");
    LAST_SETTING: Mm = new("setting_last", "last setting of the expanding reamer, passed twice");
    PASSES: Ratio = new("ream_passes", "passes of the reamer, the last one twice");
    CLEARANCE_WARM: Shift = new("clearance_warm", "running clearance when warm");
    CLEARANCE_COLD: Shift = new("clearance_cold", "running clearance in the coldest that the joint stands in");
    CLEARANCE_EVEN: Shift = new("clearance_warm_all_over", "running clearance, shaft as warm as the housing");
    OIL_HOLE: Mm = new("oil_hole", "diameter of the oil hole").comes();
    OIL_HOLE_AT: Mm = new("oil_hole_at", "middle of the oil hole from the outer end").comes();
    OIL_AFTER: Ratio = new("oil_holes_once_in", "oil holes that are drilled once the bush is in");
    OIL_SPEED: RevPerMin = new("oil_hole_spindle_speed", "spindle step for the oil hole");
    OIL_SURFACE: MPerMin = new("oil_hole_surface_speed", "cutting speed that this step gives the drill");
    REAM_SPEED: RevPerMin = new("reamer_spindle_speed", "spindle step for the reamer");
    REAM_FEED: MmPerRev = new("reamer_feed", "least feed of the reamer");
    OUTSIDE_TO_MAKE: Mm = new("bush_outside_to_make", "outside that the bush is turned to").comes();
    BORE_TO_MAKE: Mm = new("bush_bore_to_make", "bore that the bush is bored to before pressing").comes();
    LINE_PLACE: Ratio = new("in_line_place", "which bush of the line it is: the second has the common set-up");
}
