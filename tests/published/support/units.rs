//! Turning a figure into the unit of the print.

use super::run::Outcome;
use setover::quantity::Unit;

const INCH: f64 = 25.4;
const POUND: f64 = 4.448_221_615_260_5;

/// The figure in the unit that was printed. A doubt of a temperature or of an expansion is worked like one of a length.
pub fn printed(outcome: Outcome, unit: &str) -> Result<f64, String> {
    let Outcome { number, unit: held } = outcome;
    let factor = match (held, unit) {
        (Unit::Mm, "mm" | "K" | "1e-6/K" | "mm/tooth" | "mm/rev") | (Unit::MmPerRev, "mm/rev" | "mm/tooth") => 1.0,
        (Unit::Mm, "um") => 1e3,
        (Unit::Mm, "nm") => 1e6,
        (Unit::Mm, "in") => 1.0 / INCH,
        (Unit::Um, "um") => 1.0,
        (Unit::Um, "mm") => 1e-3,
        (Unit::Um, "uin") => 1e3 / INCH,
        (Unit::Mm2, "mm2") | (Unit::Mm4, "mm4") | (Unit::MPa, "MPa") | (Unit::N, "N") | (Unit::Kg, "kg") => 1.0,
        (Unit::Cm3, "cm3") => 1.0,
        (Unit::Cm3, "in3") => 1e3 * INCH.powi(-3),
        (Unit::Mm2, "in2") => INCH.powi(-2),
        (Unit::Mm4, "in4") => INCH.powi(-4),
        (Unit::MPa, "psi") => INCH * INCH / POUND,
        (Unit::N, "lbf") => 1.0 / POUND,
        (Unit::N, "kN") => 1e-3,
        (Unit::N, "g.mm") => 1e6,
        (Unit::Nm, "N.m") | (Unit::KW, "kW") | (Unit::Min, "min") | (Unit::MPerMin, "m/min") => 1.0,
        (Unit::Nm, "kN.m") => 1e-3,
        (Unit::Nm, "lbf-in" | "in.lbf") => 1e3 / INCH / POUND,
        (Unit::KW, "W") => 1e3,
        (Unit::KW, "hp") => 1.0 / 0.7457,
        (Unit::Min, "s") => 60.0,
        (Unit::MmPerMin, "mm/min") => 1.0,
        (Unit::MPerMin, "ft/min") => 1e3 / INCH / 12.0,
        (Unit::RevPerMin, "rpm") | (Unit::Deg, "deg") | (Unit::DegC, "degC" | "K") | (Unit::Cm3PerMin, "cm3/min") => {
            1.0
        }
        (Unit::Cm3PerMin, "mm3/min") => 1e3,
        (Unit::Cm3PerMin, "mm3/s") => 1e3 / 60.0,
        (Unit::One, "1" | "%" | "in/in" | "in/ft" | "HB" | "HV" | "HRC") => 1.0,
        (held, unit) => return Err(format!("{held} is not printed in {unit}")),
    };
    Ok(number * factor)
}
