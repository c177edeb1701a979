//! The names of the values of a fit that was measured.

use crate::names;
use crate::operations::PartSize;
use crate::quantity::{Celsius, Mm, Shift};
use crate::shop::Gauge;

names! { pub(super),
    BORE: Mm = new("bore", "the bore at 20 degC").found(PartSize::Inside);
    SHAFT: Mm = new("shaft", "the shaft at 20 degC").found(PartSize::Outside);
    CLEARANCE: Shift = new("clearance", "bore less shaft at 20 degC, below nothing where it binds").left(Gauge::Indicator);
    LEAST: Shift = lower("clearance_min", "least clearance wanted");
    MOST: Shift = upper("clearance_max", "greatest clearance wanted");
    BORE_GROWS: Shift = new("bore_grows", "what the bore grows until it runs");
    CARRIER_GROWS: Shift = new("bore_grows_held", "what the bore grows where it follows what carries it");
    WALL_INWARD: Shift = new("wall_grows_inward", "what the bush's wall grows into its bore, held by what carries it");
    SHAFT_GROWS: Shift = new("shaft_grows", "what the shaft grows until it runs");
    BORE_WARM: Mm = new("bore_running", "the bore when it runs");
    BORE_HELD: Mm = new("bore_running_held", "the bore when it runs, growing with what carries it");
    SHAFT_WARM: Mm = new("shaft_running", "the shaft when it runs");
    RUNNING: Shift = new("clearance_running", "clearance when it runs, the bore growing by its own metal");
    LEAST_RUNNING: Shift = lower("clearance_running_min", "least clearance wanted when it runs");
    FOLLOWING: Shift = new("clearance_following", "clearance when it runs, the bore growing with what carries it");
    USUAL_WALL: Shift = new("clearance_usual_wall", "clearance when it runs, the bush as thick as such bushes are and held");
    IN_FROST: Shift = new("clearance_in_frost", "clearance in the coldest that both stand in");
    SEIZES: Celsius = new("temperature_of_seizing", "temperature of the shaft at which nothing is left, the bore as warm as it runs");
}
