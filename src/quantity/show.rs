//! Figures for the reader: rounded once, at the border, in the units that the shop prints in.

use super::Unit;
use super::decimal::decimal;
use serde::Deserialize;
use std::fmt;

/// The units that a shop prints in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Deserialize, schemars::JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Print {
    /// Millimetres and their kin.
    #[default]
    Metric,
    /// Inches, pounds-force and their kin.
    #[serde(alias = "inch")]
    Imperial,
    /// Metric with the inch figure beside each length.
    Both,
}

/// A number for the reader: six figures that count, no tail of zeros.
pub fn figure(x: f64) -> String {
    let decimals = if x == 0.0 { 0 } else { (5.0 - x.abs().log10().floor()).clamp(0.0, 6.0) as usize };
    let mut text = decimal(x, decimals);
    if text.contains('.') {
        text.truncate(text.trim_end_matches('0').trim_end_matches('.').len());
    }
    if text == "-0" { "0".into() } else { text }
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

/// Which way a figure is rounded: no limit is bettered by rounding.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Rounds {
    /// To the nearest: a figure that limits nothing.
    #[default]
    Nearest,
    /// Up: a lower limit, and what is needed at least.
    Up,
    /// Down: an upper limit, and what may be had at most.
    Down,
}

/// A number as it is written, its parts apart.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Digits {
    /// Whether it is under nought.
    pub negative: bool,
    /// The digits before its point.
    pub whole: String,
    /// The digits behind it; none where it has no point.
    pub fraction: String,
}

impl Digits {
    fn of(text: &str) -> Self {
        let (negative, text) = text.strip_prefix('-').map_or((false, text), |rest| (true, rest));
        let (whole, fraction) = text.split_once('.').unwrap_or((text, ""));
        Self { negative, whole: whole.into(), fraction: fraction.into() }
    }

    /// Its point and what stands behind it.
    pub(crate) fn since_point(&self) -> String {
        if self.fraction.is_empty() { String::new() } else { format!(".{}", self.fraction) }
    }
}

impl Digits {
    /// Writes the number.
    fn put(&self, f: &mut impl fmt::Write) -> fmt::Result {
        if self.negative {
            f.write_str("−")?;
        }
        f.write_str(&self.whole)?;
        if self.fraction.is_empty() {
            return Ok(());
        }
        f.write_str(".")?;
        f.write_str(&self.fraction)
    }
}

impl fmt::Display for Digits {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.put(f)
    }
}

/// A figure for the reader in the units of print, its parts apart: they meet where the letters are set, and are never read out
/// of a text again.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Shown {
    /// The number.
    pub number: Digits,
    /// The doubt, with the decimals of the number.
    pub doubt: Option<Digits>,
    /// The unit; empty for a pure number.
    pub unit: &'static str,
    /// The same in the other unit of print, where both are printed.
    pub beside: Option<Box<Self>>,
}

impl fmt::Display for Shown {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.first(f)?;
        self.beside.as_ref().map_or(Ok(()), |beside| write!(f, " ({beside})"))
    }
}

impl Shown {
    /// A figure with its unit, and its doubt where it has one, with so many decimals in its own unit; inches and their kin keep
    /// their usual ones.
    ///
    /// The doubt has two figures and is rounded up; the figure has the same decimals.
    pub fn of(
        number: f64,
        doubt: Option<f64>,
        unit: Unit,
        (decimals, rounds): (Decimals, Rounds),
        print: Print,
    ) -> Self {
        let (first, second) = systems(unit, print);
        let one = |system: System| {
            let doubt = doubt.map(|doubt| doubt * system.factor).filter(|doubt| *doubt > 0.0);
            system.shown(system.of(number), doubt, decimals, rounds)
        };
        side_by_side(one(first), second.map(one))
    }

    /// A figure with the usual decimals.
    pub fn usual(number: f64, doubt: Option<f64>, unit: Unit, rounds: Rounds, print: Print) -> Self {
        Self::of(number, doubt, unit, (Decimals::Usual, rounds), print)
    }

    /// A window from its lower limit to its upper one, each rounded inward; one that would close so gets a digit more.
    pub fn window(low: f64, high: f64, unit: Unit, decimals: Decimals, print: Print) -> (Self, Self) {
        let ends = |system: System| {
            let (low, high) = (system.of(low), system.of(high));
            let least = match (decimals, system.own) {
                (Decimals::Exactly(decimals), Some(_)) => decimals as i32,
                _ => system.decimals as i32,
            };
            let at = |places: i32| (to_places(low, places, Rounds::Up), to_places(high, places, Rounds::Down));
            let is_open = |places: &i32| at(*places).0 < at(*places).1;
            let places = if low < high { (least..least + FINER).find(is_open).unwrap_or(least) } else { least };
            let (low, high) = at(places);
            (system.bare(&written(low, places)), system.bare(&written(high, places)))
        };
        let (first, second) = systems(unit, print);
        let (low, high) = ends(first);
        let (low_beside, high_beside) = second.map(ends).unzip();
        (side_by_side(low, low_beside), side_by_side(high, high_beside))
    }

    /// How far two figures are apart, in the units of print: of temperatures a difference has no other zero.
    pub fn apart(number: f64, unit: Unit, rounds: Rounds, print: Print) -> Self {
        let one = |system: System| {
            let apart = System { zero: 0.0, ..system };
            let number = apart.of(number);
            // One that would print as nought though it is not gets a digit more: its sign is what it says.
            let least = apart.decimals_of(number, Decimals::Usual, Rounds::Nearest);
            let is_seen = |places: &i32| to_places(number, *places, rounds) != 0.0;
            let places = if number == 0.0 { least } else { (least..least + FINER).find(is_seen).unwrap_or(least) };
            apart.bare(&written(to_places(number, places, rounds), places))
        };
        let (first, second) = systems(unit, print);
        side_by_side(one(first), second.map(one))
    }

    /// Writes the figure in its first unit of print.
    pub(crate) fn first(&self, f: &mut impl fmt::Write) -> fmt::Result {
        self.number.put(f)?;
        if let Some(doubt) = &self.doubt {
            f.write_str(" ± ")?;
            doubt.put(f)?;
        }
        if !self.unit.is_empty() {
            f.write_str(" ")?;
            f.write_str(self.unit)?;
        }
        Ok(())
    }

    /// The figure in its first unit of print alone.
    pub fn alone(self) -> Self {
        Self { beside: None, ..self }
    }

    /// The figure in each unit of print, the first first.
    pub fn each(&self) -> impl Iterator<Item = &Self> {
        std::iter::successors(Some(self), |shown| shown.beside.as_deref())
    }
}

/// A figure with its unit, and its doubt where it has one, in the units of print: as [`Shown::usual`] in one text.
pub fn shown(number: f64, doubt: Option<f64>, unit: Unit, rounds: Rounds, print: Print) -> String {
    Shown::usual(number, doubt, unit, rounds, print).to_string()
}

/// A figure in the inch unit of its kind; none where it has no other than the one that it is held in.
pub fn in_other_unit(number: f64, unit: Unit) -> Option<Shown> {
    let inch = imperial(unit)?;
    Some(inch.shown(inch.of(number), None, Decimals::Usual, Rounds::Nearest))
}

/// How many decimals more than usual a window, a difference or a doubt may have.
const FINER: i32 = 3;

/// What a figure is off its last decimal by and still is that decimal: the dust of binary fractions.
const DUST: f64 = 1e-6;

fn side_by_side(first: Shown, second: Option<Shown>) -> Shown {
    Shown { beside: second.map(Box::new), ..first }
}

/// A figure rounded to so many places; under nought places tens and hundreds.
fn to_places(number: f64, places: i32, rounds: Rounds) -> f64 {
    let scale = 10_f64.powi(places);
    let scaled = number * scale;
    let whole = match rounds {
        Rounds::Nearest => scaled.round_ties_even(),
        Rounds::Up => (scaled - DUST).ceil(),
        Rounds::Down => (scaled + DUST).floor(),
    };
    whole / scale
}

/// A figure that is rounded already, without a negative zero.
fn written(number: f64, places: i32) -> String {
    let decimals = places.max(0) as usize;
    let text = decimal(number, decimals);
    match text.strip_prefix('-') {
        Some(rest) if rest.bytes().all(|c| matches!(c, b'0' | b'.')) => rest.into(),
        _ => text,
    }
}

/// A unit of print: how a figure comes to it, and what the trade reads in it.
struct System {
    factor: f64,
    zero: f64,
    decimals: usize,
    unit: &'static str,
    /// The unit that figures are held in, where they are printed in it too.
    own: Option<Unit>,
}

impl System {
    fn of(&self, number: f64) -> f64 {
        number * self.factor + self.zero
    }

    /// A figure without doubt.
    fn bare(&self, figure: &str) -> Shown {
        Shown { number: Digits::of(figure), doubt: None, unit: self.unit, beside: None }
    }

    /// The places of a figure without doubt.
    fn decimals_of(&self, number: f64, decimals: Decimals, rounds: Rounds) -> i32 {
        let usual = self.decimals as i32;
        match (decimals, self.own) {
            (Decimals::Exactly(decimals), Some(_)) => decimals as i32,
            // A limit of a table, to tenths of a micrometre, is printed whole.
            (_, Some(Unit::Mm)) if rounds != Rounds::Nearest => {
                let exact = |places: &i32| (to_places(number, *places, Rounds::Nearest) - number).abs() < 1e-9;
                (usual..=usual + 1).find(exact).unwrap_or(usual)
            }
            // A feed a minute is a small speed: it keeps its figures.
            (Decimals::Usual, Some(Unit::MPerMin)) if number.abs() < 1.0 => usual + 2,
            _ => usual,
        }
    }

    fn shown(&self, number: f64, doubt: Option<f64>, decimals: Decimals, rounds: Rounds) -> Shown {
        // A count is a whole number: two passes are not 2.00.
        let is_count = self.own == Some(Unit::One) && decimals == Decimals::Usual && number.fract() == 0.0;
        if self.own.is_some() && (decimals == Decimals::AsTyped || is_count && doubt.is_none()) {
            return self.bare(&figure(number));
        }
        let Some(doubt) = doubt else {
            let places = self.decimals_of(number, decimals, rounds);
            return self.bare(&written(to_places(number, places, rounds), places));
        };
        let places = match (decimals, self.own) {
            (Decimals::Exactly(decimals), Some(_)) => decimals as i32,
            _ => self.places_of_doubt(doubt),
        };
        let doubt = Digits::of(&written(to_places(doubt, places, Rounds::Up), places));
        Shown { doubt: Some(doubt), ..self.bare(&written(to_places(number, places, rounds), places)) }
    }

    /// The places that give a doubt two figures, never finer than the trade reads.
    fn places_of_doubt(&self, doubt: f64) -> i32 {
        let finest = self.decimals as i32;
        let two = |doubt: f64| 1 - (doubt * (1.0 + DUST)).log10().floor() as i32;
        let places = two(doubt);
        // Rounded up it may have come to three figures: 0.0996 is 0.10.
        places.min(two(to_places(doubt, places, Rounds::Up))).min(finest)
    }
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

/// The units that a figure is printed in, the second in brackets.
fn systems(unit: Unit, print: Print) -> (System, Option<System>) {
    let metric = System { factor: 1.0, zero: 0.0, decimals: unit.decimals(), unit: name(unit), own: Some(unit) };
    match (print, imperial(unit)) {
        (Print::Metric, _) | (_, None) => (metric, None),
        (Print::Imperial, Some(inch)) => (inch, None),
        (Print::Both, Some(inch)) if unit == Unit::Mm => (metric, Some(inch)),
        (Print::Both, Some(_)) => (metric, None),
    }
}

fn imperial(unit: Unit) -> Option<System> {
    let inch = |factor, decimals, unit| Some(System { factor, zero: 0.0, decimals, unit, own: None });
    match unit {
        Unit::Mm => inch(1.0 / 25.4, 4, "in"),
        Unit::MmPerRev => inch(1.0 / 25.4, 4, "in/rev"),
        Unit::Um => inch(1.0 / 0.0254, 0, "µin"),
        Unit::MPerMin => inch(1.0 / 0.3048, 0, "ft/min"),
        Unit::N => inch(1.0 / 4.448_221_615_260_5, 0, "lbf"),
        Unit::Nm => inch(1.0 / 1.355_817_948_331_400_4, 2, "lbf·ft"),
        Unit::MPa => inch(1e3 / 6.894_757_293_168_361, 0, "psi"),
        Unit::KW => inch(1.0 / 0.7457, 3, "hp"),
        Unit::DegC => Some(System { factor: 1.8, zero: 32.0, decimals: 0, unit: "°F", own: None }),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn near(number: f64, doubt: Option<f64>, unit: Unit, print: Print) -> String {
        shown(number, doubt, unit, Rounds::Nearest, print)
    }

    #[test]
    fn figures_have_no_tail_and_no_negative_zero() {
        assert_eq!(figure(208.907_512), "208.908");
        assert_eq!(figure(13.0), "13");
        assert_eq!(figure(-0.000_000_01), "0");
        assert_eq!(figure(0.000_123_4), "0.000123");
    }

    #[test]
    fn the_parts_of_a_figure_are_apart_until_they_are_set() {
        let shown = Shown::usual(-25.4, Some(0.01), Unit::Mm, Rounds::Nearest, Print::Both);
        assert!(shown.number.negative);
        assert_eq!((shown.number.whole.as_str(), shown.number.fraction.as_str(), shown.unit), ("25", "400", "mm"));
        assert_eq!(shown.doubt.as_ref().unwrap().to_string(), "0.010");
        assert_eq!(shown.beside.as_ref().unwrap().to_string(), "−1.0000 ± 0.0004 in");
        assert_eq!(shown.alone().to_string(), "−25.400 ± 0.010 mm");
    }

    #[test]
    fn units_follow_the_shop() {
        let to =
            |number, decimals, print| Shown::of(number, None, Unit::Mm, (decimals, Rounds::Nearest), print).to_string();
        assert_eq!(near(25.4, None, Unit::Mm, Print::Imperial), "1.0000 in");
        assert_eq!(near(25.4, Some(0.01), Unit::Mm, Print::Both), "25.400 ± 0.010 mm (1.0000 ± 0.0004 in)");
        assert_eq!(near(430.0, None, Unit::RevPerMin, Print::Imperial), "430 rev/min");
        assert_eq!(near(-0.0001, None, Unit::Mm, Print::Metric), "0.000 mm");
        assert_eq!(to(8.25, Decimals::Exactly(1), Print::Imperial), "0.3248 in");
        assert_eq!(to(0.27, Decimals::AsTyped, Print::Metric), "0.27 mm");
    }

    #[test]
    fn a_doubt_has_two_figures_rounded_up_and_its_figure_the_same_decimals() {
        for (number, doubt, said) in [
            (15.929_46, 0.005_32, "15.929 ± 0.006 mm"),
            (21.55, 0.014_142, "21.550 ± 0.015 mm"),
            (2.476, 0.360_6, "2.48 ± 0.37 mm"),
            (18.0, 0.3, "18.00 ± 0.30 mm"),
            (7.0, 0.0996, "7.00 ± 0.10 mm"),
            (7.0, 0.1, "7.00 ± 0.10 mm"),
            (3.0, 12.2, "3 ± 13 mm"),
            (0.000_93, 0.000_001_2, "0.001 ± 0.001 mm"),
        ] {
            assert_eq!(near(number, Some(doubt), Unit::Mm, Print::Metric), said);
        }
        // Forces and stresses are not read finer for a small doubt, and no doubt prints as none.
        assert_eq!(near(2464.2, Some(0.3), Unit::N, Print::Metric), "2464 ± 1 N");
        assert_eq!(near(50.9, Some(0.01), Unit::MPa, Print::Metric), "50.9 ± 0.1 MPa");
        assert_eq!(near(15_706.0, Some(132.4), Unit::N, Print::Metric), "15710 ± 140 N");
    }

    #[test]
    fn a_lower_limit_rounds_up_and_an_upper_one_down() {
        let of = |mm, rounds| shown(mm, None, Unit::Mm, rounds, Print::Metric);
        assert_eq!(of(20.042_37, Rounds::Down), "20.042 mm");
        assert_eq!(of(20.042_97, Rounds::Down), "20.042 mm");
        assert_eq!(of(20.021_63, Rounds::Up), "20.022 mm");
        assert_eq!(of(8.270_633, Rounds::Up), "8.271 mm");
        assert_eq!(of(8.483, Rounds::Down), "8.483 mm");
        assert_eq!(of(16.009_44, Rounds::Up), "16.010 mm");
        // Degrees never round over a stop, in either system.
        assert_eq!(shown(149.96, None, Unit::DegC, Rounds::Down, Print::Metric), "149.9 °C");
        assert_eq!(shown(150.0, None, Unit::DegC, Rounds::Down, Print::Imperial), "302 °F");
        assert_eq!(shown(149.9, None, Unit::DegC, Rounds::Down, Print::Imperial), "301 °F");
    }

    #[test]
    fn a_limit_of_a_table_is_exact_or_rounded_inwards() {
        let of = |mm, upper| shown(mm, None, Unit::Mm, if upper { Rounds::Down } else { Rounds::Up }, Print::Both);
        assert_eq!(of(24.9895, false), "24.9895 mm (0.9839 in)");
        assert_eq!(of(25.0105, true), "25.0105 mm (0.9846 in)");
        assert_eq!(of(25.4, true), "25.400 mm (1.0000 in)");
    }

    #[test]
    fn a_window_is_rounded_inwards_and_never_closes() {
        let of = |low, high, decimals, print| {
            let (low, high) = Shown::window(low, high, Unit::Mm, decimals, print);
            format!("{low} to {high}")
        };
        let metric = |low, high| of(low, high, Decimals::Usual, Print::Metric);
        assert_eq!(metric(16.0124, 16.0318), "16.013 mm to 16.031 mm");
        assert_eq!(metric(16.021_9, 16.022_3), "16.0219 mm to 16.0223 mm");
        assert_eq!(metric(16.021_92, 16.022_28), "16.0220 mm to 16.0222 mm");
        assert_eq!(metric(8.270_633, 8.483), "8.271 mm to 8.483 mm");
        assert_eq!(of(16.0124, 16.0318, Decimals::Usual, Print::Imperial), "0.6305 in to 0.6311 in");
        assert_eq!(of(16.021_9, 16.022_3, Decimals::Usual, Print::Imperial), "0.630784 in to 0.630799 in");
        for at in 0..2_000 {
            let (low, width) = (10.0 + f64::from(at) * 0.000_517, 0.000_1 + f64::from(at % 40) * 0.000_3);
            for (print, inch) in [(Print::Metric, 1.0), (Print::Imperial, 25.4)] {
                let (least, most) = Shown::window(low, low + width, Unit::Mm, Decimals::Exactly(3), print);
                let number = |shown: Shown| shown.number.to_string().parse::<f64>().unwrap() * inch;
                let (least, most) = (number(least), number(most));
                assert!(low - 1e-7 <= least && least < most && most <= low + width + 1e-7, "{low} {width}");
            }
        }
    }

    #[test]
    fn a_difference_of_temperatures_has_no_other_zero() {
        let of = |number, unit, print| Shown::apart(number, unit, Rounds::Up, print).to_string();
        assert_eq!(near(100.0, Some(10.0), Unit::DegC, Print::Imperial), "212 ± 18 °F");
        assert_eq!(of(10.0, Unit::DegC, Print::Imperial), "18 °F");
        assert_eq!(of(10.0, Unit::DegC, Print::Metric), "10.0 °C");
    }

    #[test]
    fn a_margin_that_is_there_is_never_printed_as_nought() {
        let of = |number, rounds| Shown::apart(number, Unit::Mm, rounds, Print::Metric).to_string();
        assert_eq!(of(-0.000_4, Rounds::Down), "−0.001 mm");
        assert_eq!(of(0.000_4, Rounds::Down), "0.0004 mm");
        assert_eq!(of(0.0, Rounds::Down), "0.000 mm");
        assert_eq!(of(1.115_9, Rounds::Down), "1.115 mm");
    }
}
