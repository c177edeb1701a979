//! Figures for the reader: rounded once, at the border, in the units that the shop prints in.

use super::Unit;
use serde::Deserialize;

/// The units that a shop prints in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Deserialize, schemars::JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Print {
    /// Millimetres and their kin.
    #[default]
    Metric,
    /// Inches, pounds-force and their kin.
    Imperial,
    /// Metric with the inch figure beside each length.
    Both,
}

/// A number for the reader: six figures that count, no tail of zeros.
pub fn figure(x: f64) -> String {
    let decimals = if x == 0.0 { 0 } else { (5.0 - x.abs().log10().floor()).clamp(0.0, 6.0) as usize };
    let text = format!("{x:.decimals$}");
    let short = if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.') } else { &text };
    if short == "-0" { "0".into() } else { short.into() }
}

/// How many decimals a figure has in the unit that it is held in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Decimals {
    /// Those that the trade reads in that unit.
    #[default]
    Usual,
    /// So many.
    Exactly(usize),
    /// As [`figure`] writes it: for a size that somebody typed or a table holds.
    AsTyped,
}

/// A figure with its unit, and its doubt where it has one, in the units of print.
pub fn shown(number: f64, doubt: Option<f64>, unit: Unit, print: Print) -> String {
    shown_to(number, doubt, unit, Decimals::Usual, print)
}

/// The same with other decimals in the figure's own unit; inches and their kin keep their usual ones.
pub fn shown_to(number: f64, doubt: Option<f64>, unit: Unit, decimals: Decimals, print: Print) -> String {
    in_print(number, doubt, unit, decimals, print, imperial(unit))
}

/// A limit of a length that must not be bettered by rounding: exact in millimetres, rounded inwards in inches.
pub fn shown_limit(mm: f64, upper: bool, print: Print) -> String {
    // Tables of limits hold tenths of a micrometre at the finest.
    let exact = |decimals: &usize| (rounded(mm, *decimals).parse::<f64>().unwrap_or(f64::NAN) - mm).abs() < 1e-9;
    let decimals = (Unit::Mm.decimals()..=5).find(exact).unwrap_or(5);
    let metric = format!("{} mm", rounded(mm, decimals));
    // One decimal more than a size has: the window of a fine grade must not close.
    let (scale, inch) = (1e5, mm / 25.4);
    let inward = if upper { (inch * scale + 1e-6).floor() } else { (inch * scale - 1e-6).ceil() } / scale;
    let imperial = format!("{} in", rounded(inward, 5));
    match print {
        Print::Metric => metric,
        Print::Imperial => imperial,
        Print::Both => format!("{metric} ({imperial})"),
    }
}

/// How far two figures are apart, in the units of print: of temperatures a difference has no other zero.
pub fn difference(number: f64, unit: Unit, print: Print) -> String {
    let inch = imperial(unit).map(|inch| Inch { zero: 0.0, ..inch });
    in_print(number, None, unit, Decimals::Usual, print, inch)
}

fn in_print(
    number: f64,
    doubt: Option<f64>,
    unit: Unit,
    decimals: Decimals,
    print: Print,
    inch: Option<Inch>,
) -> String {
    let metric = || match decimals {
        // A count is a whole number: two passes are not 2.00.
        Decimals::Usual if unit == Unit::One && doubt.is_none_or(|d| d == 0.0) && number.fract() == 0.0 => {
            figure(number)
        }
        Decimals::Usual => with_doubt(number, doubt, unit.decimals(), name(unit)),
        Decimals::Exactly(decimals) => with_doubt(number, doubt, decimals, name(unit)),
        Decimals::AsTyped if name(unit).is_empty() => figure(number),
        Decimals::AsTyped => format!("{} {}", figure(number), name(unit)),
    };
    match (print, inch) {
        (Print::Metric, _) | (_, None) => metric(),
        (Print::Imperial, Some(inch)) => inch.show(number, doubt),
        (Print::Both, Some(inch)) if unit == Unit::Mm => format!("{} ({})", metric(), inch.show(number, doubt)),
        (Print::Both, Some(_)) => metric(),
    }
}

fn with_doubt(number: f64, doubt: Option<f64>, decimals: usize, unit: &str) -> String {
    let number = rounded(number, decimals);
    let space = if unit.is_empty() { "" } else { " " };
    match doubt {
        Some(doubt) if doubt > 0.0 => format!("{number} ± {}{space}{unit}", rounded(doubt, decimals)),
        _ => format!("{number}{space}{unit}"),
    }
}

/// Rounded to so many decimals, without a negative zero.
fn rounded(number: f64, decimals: usize) -> String {
    let text = format!("{number:.decimals$}");
    let zero = text.trim_start_matches('-').chars().all(|c| matches!(c, '0' | '.'));
    if zero { text.trim_start_matches('-').into() } else { text }
}

/// The unit as a sheet writes it.
fn name(unit: Unit) -> &'static str {
    match unit {
        Unit::One => "",
        Unit::Um => "µm",
        Unit::Mm2 => "mm²",
        Unit::Mm4 => "mm⁴",
        Unit::DegC => "°C",
        Unit::Deg => "°",
        Unit::Cm3PerMin => "cm³/min",
        other => other.text(),
    }
}

struct Inch {
    factor: f64,
    zero: f64,
    decimals: usize,
    unit: &'static str,
}

impl Inch {
    fn show(&self, number: f64, doubt: Option<f64>) -> String {
        with_doubt(number * self.factor + self.zero, doubt.map(|d| d * self.factor), self.decimals, self.unit)
    }
}

fn imperial(unit: Unit) -> Option<Inch> {
    let inch = |factor, decimals, unit| Some(Inch { factor, zero: 0.0, decimals, unit });
    match unit {
        Unit::Mm => inch(1.0 / 25.4, 4, "in"),
        Unit::MmPerRev => inch(1.0 / 25.4, 4, "in/rev"),
        Unit::Um => inch(1.0 / 0.0254, 0, "µin"),
        Unit::MPerMin => inch(1.0 / 0.3048, 0, "ft/min"),
        Unit::N => inch(1.0 / 4.448_221_615_260_5, 0, "lbf"),
        Unit::Nm => inch(1.0 / 1.355_817_948_331_400_4, 2, "lbf·ft"),
        Unit::MPa => inch(1e3 / 6.894_757_293_168_361, 0, "psi"),
        Unit::KW => inch(1.0 / 0.7457, 3, "hp"),
        Unit::DegC => Some(Inch { factor: 1.8, zero: 32.0, decimals: 0, unit: "°F" }),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_have_no_tail_and_no_negative_zero() {
        assert_eq!(figure(208.907_512), "208.908");
        assert_eq!(figure(13.0), "13");
        assert_eq!(figure(-0.000_000_01), "0");
        assert_eq!(figure(0.000_123_4), "0.000123");
    }

    #[test]
    fn units_follow_the_shop() {
        assert_eq!(shown(25.4, None, Unit::Mm, Print::Imperial), "1.0000 in");
        assert_eq!(shown(25.4, Some(0.01), Unit::Mm, Print::Both), "25.400 ± 0.010 mm (1.0000 ± 0.0004 in)");
        assert_eq!(shown(430.0, None, Unit::RevPerMin, Print::Imperial), "430 rev/min");
        assert_eq!(shown(-0.0001, None, Unit::Mm, Print::Metric), "0.000 mm");
        assert_eq!(shown_to(8.25, None, Unit::Mm, Decimals::Exactly(1), Print::Imperial), "0.3248 in");
        assert_eq!(shown_to(0.27, None, Unit::Mm, Decimals::AsTyped, Print::Metric), "0.27 mm");
    }

    #[test]
    fn a_limit_is_exact_or_rounded_inwards() {
        let of = |mm, upper| shown_limit(mm, upper, Print::Both);
        assert_eq!(of(24.9895, false), "24.9895 mm (0.98384 in)");
        assert_eq!(of(25.0105, true), "25.0105 mm (0.98466 in)");
        assert_eq!(of(25.4, true), "25.400 mm (1.00000 in)");
        for third in 0..2_000 {
            let mm = 10.0 + f64::from(third) * 0.0005;
            let inch =
                |upper| shown_limit(mm, upper, Print::Imperial).trim_end_matches(" in").parse::<f64>().unwrap() * 25.4;
            assert!(inch(false) >= mm - 1e-6 && inch(true) <= mm + 1e-6, "{mm}");
        }
    }

    #[test]
    fn a_difference_of_temperatures_has_no_other_zero() {
        assert_eq!(shown(100.0, Some(10.0), Unit::DegC, Print::Imperial), "212 ± 18 °F");
        assert_eq!(difference(10.0, Unit::DegC, Print::Imperial), "18 °F");
        assert_eq!(difference(10.0, Unit::DegC, Print::Metric), "10.0 °C");
    }
}
