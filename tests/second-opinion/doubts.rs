//! The cases of `uncertainty.csv`, worked by the program's own way with doubt: each reading is one cause.

use setover::proof::{Cause, Formula, Given, Mark, Source, Worked, work};
use setover::quantity::{Quantity, Ratio, Unit};

/// Stands for the formula of a case, whose text the table holds.
static CASE: Formula = Formula {
    name: "case",
    result: "y",
    unit: Unit::One,
    text: "as the case says",
    symbols: &[],
    source: Source::fixed("a case of the second opinion", Mark::Own),
};

type Number = fn(&[f64]) -> f64;

/// Each case by its name; its readings in the order in which they are given.
const CASES: &[(&str, Number)] = &[
    ("metal left", |x| x[0] - x[1]),
    ("metal left of a drill point", |x| x[0] - x[1] - x[2] / (2.0 * 59_f64.to_radians().tan())),
    ("spindle speed", |x| 1000.0 * x[0] / (PI * x[1])),
    ("surface speed", |x| PI * x[0] * x[1] / 1000.0),
    ("interference, two instruments", |x| x[0] - x[1]),
    ("interference, one zero", |x| (x[0] + x[2]) - (x[1] + x[2])),
    ("clearance from two sums of one zero", |x| (x[0] + x[2]) - (x[1] - x[2])),
    ("case left", |x| x[0] - x[1] - x[2]),
    ("float after a cut on each side", |x| x[0] + 2.0 * x[1]),
    ("bore from a reading that enters twice", |x| x[0] - 2.0 * x[1]),
    ("step of a mean of two readings", |x| (x[0] + x[1]) / 2.0 - x[2]),
    ("warm size brought to 20 °C", |x| x[0] * (1.0 - x[1] * (x[2] - 20.0) / 1e6)),
    ("running clearance warm", |x| x[0] + (x[1] - x[2]) * x[3] * (x[4] - 20.0) / 1e6),
    ("cutting power", |x| x[0] * x[1] / 60_000.0),
    ("press force", |x| 0.2 * x[0] * PI * x[1] * x[2]),
    ("ring area", |x| PI * (x[0] * x[0] - x[1] * x[1]) / 4.0),
    ("ring area of one wall", |x| PI * (x[0] * x[0] - (x[0] - 2.0 * x[1]).powi(2)) / 4.0),
    ("set-over depth", |x| x[0] * x[1].to_radians().cos()),
    ("roughness in theory", |x| 1000.0 * x[0] * x[0] / (18.0 * 3_f64.sqrt() * x[1])),
    ("bolt circle from one chord of three", |x| 2.0 * x[0] / 3_f64.sqrt()),
    ("clamp", |x| 1000.0 * x[0] / (0.2 * x[1])),
    ("spring clamp lost", |x| 6.0 * x[0] * x[1]),
];

const PI: f64 = std::f64::consts::PI;

/// Works a case from its readings, `name=value±U unit; …`.
pub fn work_case(case: &str, given: &str) -> Result<Worked<Ratio>, String> {
    let (_, number) = CASES.iter().find(|(name, _)| *name == case).ok_or("no such case")?;
    let readings: Vec<Worked<Ratio>> = given.split(';').map(reading).collect::<Option<_>>().ok_or("a reading")?;
    let given: Vec<Given> = readings.iter().map(Given::from).collect();
    work(&CASE, *number, &given).map_err(|refusal| refusal.to_string())
}

fn reading(text: &str) -> Option<Worked<Ratio>> {
    let (name, size) = text.trim().split_once('=')?;
    let (value, rest) = size.split_once('±')?;
    let doubt: f64 = rest.split(' ').next()?.parse().ok()?;
    let cause = Cause::Named(String::from(name).leak());
    Some(Worked::assumed(Ratio::new(value.parse().ok()?), "a reading").with_doubt(cause, doubt))
}
