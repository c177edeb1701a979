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
    #[serde(rename = "inch", alias = "inches", alias = "imperial")]
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
    /// So many digits that count: no more decimals than the trade reads, but where an estimate is to have more digits than usual.
    Digits(usize),
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

    /// The number that is written.
    pub(crate) fn number(&self) -> f64 {
        let number = format!("{}.{}", self.whole, self.fraction).parse().unwrap_or(f64::NAN);
        if self.negative { -number } else { number }
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
            if let Some(step) = step_of_roughness(number, unit).filter(|_| system.own.is_none()) {
                return system.bare(step);
            }
            let doubt = doubt.map(|doubt| doubt * system.factor).filter(|doubt| *doubt > 0.0);
            system.shown(system.of(number), doubt, decimals, rounds)
        };
        side_by_side(one(first), second.map(one))
    }

    /// A size as somebody wrote it or a table holds it: where inches are printed one that was written in them as it was, of another no
    /// more than a hand sees.
    pub fn typed(number: f64, unit: Unit, rounds: Rounds, print: Print) -> Self {
        let inches = imperial(unit).filter(|inch| inch.unit == INCH && print == Print::Imperial);
        let Some(inch) = inches else { return Self::of(number, None, unit, (Decimals::AsTyped, rounds), print) };
        let (number, usual) = (inch.of(number), inch.decimals as i32);
        let exact = |places: &i32| (to_places(number, *places, Rounds::Nearest) - number).abs() < 1e-9;
        let seen = if number.abs() < SEEN { usual } else { usual.min(3) };
        let places = (0..=usual).find(exact).unwrap_or(seen);
        inch.bare(&written(to_places(number, places, rounds), places))
    }

    /// A figure with the usual decimals.
    pub fn usual(number: f64, doubt: Option<f64>, unit: Unit, rounds: Rounds, print: Print) -> Self {
        Self::of(number, doubt, unit, (Decimals::Usual, rounds), print)
    }

    /// A window from its lower limit to its upper one, each rounded inward; one that would close so gets a digit more.
    pub fn window(low: f64, high: f64, unit: Unit, decimals: Decimals, print: Print) -> (Self, Self) {
        let ends = |system: System| {
            let step = step_of_roughness(high, unit).filter(|_| system.own.is_none()).map(|step| system.bare(step));
            let (low, high) = (system.of(low), system.of(high));
            let tenths = |end: f64| (to_places(end, 1, Rounds::Nearest) - end).abs() < DUST;
            let least = match (decimals, system.own) {
                (Decimals::Exactly(decimals), Some(_)) => decimals as i32,
                // Inches by fewer places only where a window is wide enough to lose nothing by it.
                (Decimals::Exactly(..=2), None) if system.unit == INCH && high - low > WIDE => 3,
                (_, Some(Unit::Um)) if step_of_roughness(high, Unit::Um).is_some() && tenths(low) => 1,
                _ => system.decimals as i32,
            };
            let at = |places: i32| (to_places(low, places, Rounds::Up), to_places(high, places, Rounds::Down));
            let is_open = |places: &i32| at(*places).0 < at(*places).1;
            let least = system.within_digits(least, low.abs().max(high.abs()), decimals);
            let places = if low < high { (least..least + FINER).find(is_open).unwrap_or(least) } else { least };
            let (low, high) = at(places);
            (system.bare(&written(low, places)), step.unwrap_or_else(|| system.bare(&written(high, places))))
        };
        let (first, second) = systems(unit, print);
        let (low, high) = ends(first);
        let (low_beside, high_beside) = second.map(ends).unzip();
        (side_by_side(low, low_beside), side_by_side(high, high_beside))
    }

    /// How far two figures are apart, in the units of print: of temperatures a difference has no other zero.
    pub fn apart(number: f64, unit: Unit, (decimals, rounds): (Decimals, Rounds), print: Print) -> Self {
        let one = |system: System| {
            let apart = System { zero: 0.0, ..system };
            let number = apart.of(number);
            if decimals == Decimals::AsTyped && apart.own.is_some() {
                return apart.bare(&figure(number));
            }
            // One that would print as nought though it is not gets a digit more: its sign is what it says.
            let least = apart.decimals_of(number, decimals, Rounds::Nearest);
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
        f.write_str(self.before_unit())?;
        f.write_str(self.unit)
    }

    /// What stands between the figure and its unit: an angle is written with its sign close behind it.
    pub(crate) fn before_unit(&self) -> &'static str {
        if self.unit.is_empty() || self.unit == DEGREE { "" } else { " " }
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

/// Steps of roughness in micrometres and what each is called in millionths of an inch (common practice): one surface has one
/// name in each, however its figure would round.
const ROUGHNESS: [(f64, &str); 10] = [
    (0.1, "4"),
    (0.2, "8"),
    (0.4, "16"),
    (0.8, "32"),
    (1.6, "63"),
    (3.2, "125"),
    (6.3, "250"),
    (12.5, "500"),
    (25.0, "1000"),
    (50.0, "2000"),
];

/// What a step of roughness is called in millionths of an inch.
fn step_of_roughness(number: f64, unit: Unit) -> Option<&'static str> {
    let step = ROUGHNESS.iter().find(|(step, _)| unit == Unit::Um && (number - step).abs() < DUST);
    step.map(|(_, called)| *called)
}

/// A window wider than this is read to a thousandth, in.
const WIDE: f64 = 0.016;

/// A size under this is told to a ten-thousandth, in.
const SEEN: f64 = 1.0 / 25.4;

/// What inches are called.
const INCH: &str = "in";

/// What an angle is written in.
const DEGREE: &str = "°";

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
    /// Most digits that count, of a kind that is only ever estimated.
    digits: Option<usize>,
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
        let places = match (decimals, self.own) {
            (Decimals::Exactly(decimals), Some(_)) => decimals as i32,
            // A limit in inches by as many places as say what those of millimetres do.
            (Decimals::Exactly(0), None) if self.unit == INCH && rounds != Rounds::Nearest => usual.min(2),
            (Decimals::Exactly(1 | 2), None) if self.unit == INCH && rounds != Rounds::Nearest => usual.min(3),
            // A step of roughness by its name.
            (_, Some(Unit::Um)) if step_of_roughness(number, Unit::Um).is_some() => 1,
            // A limit of a table, to tenths of a micrometre, is printed whole.
            (_, Some(Unit::Mm)) if rounds != Rounds::Nearest => {
                let exact = |places: &i32| (to_places(number, *places, Rounds::Nearest) - number).abs() < 1e-9;
                (usual..=usual + 1).find(exact).unwrap_or(usual)
            }
            _ => usual,
        };
        self.within_digits(places, number, decimals)
    }

    /// The places of a figure that has no more digits than count: of 6564 N, which is only an estimate, the fourth does not.
    fn within_digits(&self, places: i32, number: f64, decimals: Decimals) -> i32 {
        let digits = match decimals {
            Decimals::Digits(digits) => Some(digits),
            _ => self.digits,
        };
        match digits {
            Some(digits) if number != 0.0 && number.is_finite() => {
                let so_many = digits as i32 - 1 - (number.abs() * (1.0 + DUST)).log10().floor() as i32;
                // More digits than are usual are asked for where the usual ones do not tell two figures apart.
                if self.digits.is_some_and(|usual| digits > usual) { so_many } else { places.min(so_many) }
            }
            _ => places,
        }
    }

    fn shown(&self, number: f64, doubt: Option<f64>, decimals: Decimals, rounds: Rounds) -> Shown {
        // A count is a whole number: two passes are not 2.00.
        let is_count = self.own == Some(Unit::One) && decimals == Decimals::Usual && number.fract() == 0.0;
        if self.own.is_some() && (decimals == Decimals::AsTyped || is_count && doubt.is_none()) {
            return self.bare(&figure(number));
        }
        let Some(doubt) = doubt else {
            let least = self.decimals_of(number, decimals, rounds);
            // A micrometre is less than the last place of an inch: a limit of it is not printed as none.
            let is_seen = |places: &i32| to_places(number, *places, rounds) != 0.0;
            let vanishes = self.own.is_none() && number != 0.0 && !is_seen(&least);
            let places = if vanishes { (least..least + FINER).find(is_seen).unwrap_or(least) } else { least };
            return self.bare(&written(to_places(number, places, rounds), places));
        };
        let places = match (decimals, self.own) {
            (Decimals::Exactly(decimals), Some(_)) => decimals as i32,
            _ => self.places_of_doubt(doubt),
        };
        let places = self.within_digits(places, number, decimals);
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
        Unit::Deg => DEGREE,
        Unit::Cm3PerMin => "cm³/min",
        other => other.text(),
    }
}

/// The units that a figure is printed in, the second in brackets.
fn systems(unit: Unit, print: Print) -> (System, Option<System>) {
    let (decimals, digits) = (unit.decimals(), unit.most_digits());
    let metric = System { factor: 1.0, zero: 0.0, decimals, unit: name(unit), own: Some(unit), digits };
    match (print, imperial(unit)) {
        (Print::Metric, _) | (_, None) => (metric, None),
        (Print::Imperial, Some(inch)) => (inch, None),
        (Print::Both, Some(inch)) if unit == Unit::Mm => (metric, Some(inch)),
        (Print::Both, Some(_)) => (metric, None),
    }
}

/// The units in which a size stands as it was written: where inches are printed millimetres, if it is a whole number of hundredths
/// of one and no whole number of ten-thousandths of an inch. One that a hand does not see stands in what else is printed.
pub fn as_written(number: f64, (unit, decimals): (Unit, Decimals), print: Print) -> Print {
    let whole = |parts: f64| (parts - parts.round()).abs() < DUST;
    let written = unit == Unit::Mm && decimals == Decimals::AsTyped && print == Print::Imperial;
    let in_mm = written && number.abs() >= 1.0 && whole(number * 100.0) && !whole(number / 25.4 * 10_000.0);
    if in_mm { Print::Metric } else { print }
}

fn imperial(unit: Unit) -> Option<System> {
    let digits = unit.most_digits();
    let inch = |factor, decimals, unit| Some(System { factor, zero: 0.0, decimals, unit, own: None, digits });
    match unit {
        Unit::Mm => inch(1.0 / 25.4, 4, INCH),
        Unit::MmPerRev => inch(1.0 / 25.4, 4, "in/rev"),
        Unit::Um => inch(1.0 / 0.0254, 0, "µin"),
        Unit::MmPerMin => inch(1.0 / 25.4, 2, "in/min"),
        Unit::MPerMin => inch(1.0 / 0.3048, 0, "ft/min"),
        Unit::N => inch(1.0 / 4.448_221_615_260_5, 0, "lbf"),
        Unit::Nm => inch(1.0 / 1.355_817_948_331_400_4, 2, "lbf·ft"),
        // A stress is an estimate: of 28481 psi the last two digits say nothing.
        Unit::MPa => inch(1e3 / 6.894_757_293_168_361, 0, "psi").map(|psi| System { digits: Some(3), ..psi }),
        Unit::KW => inch(1.0 / 0.7457, 3, "hp"),
        Unit::Kg => inch(1.0 / 0.453_592_37, 1, "lb"),
        Unit::NPerMm => inch(25.4 / 4.448_221_615_260_5, 0, "lbf/in"),
        Unit::Cm3PerMin => inch(1.0 / 16.387_064, 2, "in³/min"),
        Unit::Mm2 => inch(1.0 / 645.16, 4, "in²"),
        Unit::Mm4 => inch(1.0 / 416_231.425_6, 4, "in⁴"),
        Unit::PerMillionK => inch(1.0 / 1.8, 1, "1e-6/°F"),
        Unit::MPerS => inch(1.0 / 0.3048, 1, "ft/s"),
        Unit::Cm3 => inch(1.0 / 16.387_064, 2, "in³"),
        Unit::DegC => Some(System { factor: 1.8, zero: 32.0, decimals: 0, unit: "°F", own: None, digits }),
        _ => None,
    }
}

#[cfg(test)]
mod tests;
