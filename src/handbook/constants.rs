//! Single figures with a name: factors, shares, margins, each with its band and source.

use super::kept::{Kept, Name};
use super::table::{Groups, cited, seen};
use crate::proof::{Cause, Mark, Refusal, Source, Worked};
use crate::quantity::{Quantity, Ratio, figure};
use serde::Deserialize;
use std::sync::LazyLock;

/// A row of the table of constants.
#[derive(Debug, Deserialize)]
pub struct Constant {
    /// Its name.
    pub name: &'static str,
    /// The figure.
    pub value: f64,
    /// Low end of the band.
    pub low: Option<f64>,
    /// High end of the band.
    pub high: Option<f64>,
    /// Doubt of a remembered figure: a number in its unit, or a share such as `5%`.
    pub doubt: &'static str,
    /// Its unit, as the table says.
    pub unit: &'static str,
    /// Source keys.
    pub source: &'static str,
    /// How well the source is known.
    #[serde(deserialize_with = "seen")]
    pub seen: Mark,
}

/// By name: a job asks for few.
fn table() -> &'static Groups<Constant> {
    static ROWS: LazyLock<Groups<Constant>> = LazyLock::new(|| Groups::of(CONSTANTS, 1));
    &ROWS
}

const CONSTANTS: &str = include_str!("../../shared/constants.csv");

/// All constants.
pub fn all() -> impl Iterator<Item = &'static Constant> {
    table().wanted(|_| true)
}

/// The row of a name.
///
/// # Errors
/// [`Refusal::NoRow`] where the table has no such name.
pub fn row(name: &'static str) -> Result<&'static Constant, Refusal> {
    thread_local!(static ROWS: Kept<Name, &'static Constant> = Kept::default());
    let find = || table().under(name).next().ok_or_else(|| Refusal::NoRow { table: "constant", wanted: name.into() });
    ROWS.with(|rows| rows.see(Name(name), find, |row| *row))
}

/// A constant as a figure with its source; a band goes with it, and the doubt of what is only remembered.
///
/// # Errors
/// As [`row`].
pub fn constant<Q: Quantity>(name: &'static str) -> Result<Worked<Q>, Refusal> {
    thread_local!(static ALL: Kept<Name, Worked<Ratio>> = Kept::default());
    ALL.with(|all| all.see(Name(name), || with_its_doubt(name), Worked::recast))
}

/// The figure of a row: of which kind is known by who asks for it.
fn with_its_doubt(name: &'static str) -> Result<Worked<Ratio>, Refusal> {
    let row = row(name)?;
    let said = Worked::row(Ratio::new(row.value), row.says(row.value), row.source());
    let said = match (row.low, row.high) {
        (Some(low), Some(high)) if low < high => said.with_band(low, high),
        _ => said,
    };
    doubted(said, Cause::Named(name), row.seen, row.doubt)
}

/// The doubt of a figure that is only remembered: what its row states (a number in its unit, or a share such as `5%`), else a
/// tenth. What was read, and what has a band, has none but what its row states.
///
/// # Errors
/// [`Refusal::NoRow`] where the row's doubt is no number.
pub(in crate::handbook) fn doubted<Q: Quantity>(
    figure: Worked<Q>,
    cause: Cause,
    seen: Mark,
    doubt: &str,
) -> Result<Worked<Q>, Refusal> {
    let size = figure.number().abs();
    let banded = figure.band().is_some_and(|(low, high)| low < high);
    let half = match doubt {
        "" if seen == Mark::FromMemory && !banded => size * row("doubt-from-memory")?.value,
        "" => 0.0,
        stated => half_width(size, stated)?,
    };
    Ok(figure.with_doubt(cause, half))
}

/// A doubt as a row states it.
fn half_width(size: f64, stated: &str) -> Result<f64, Refusal> {
    let number = |text: &str| {
        let unread = |_| Refusal::NoRow { table: "doubt", wanted: stated.to_owned() };
        text.trim().parse::<f64>().map_err(unread)
    };
    match stated.strip_suffix('%') {
        Some(share) => Ok(size * number(share)? / 100.0),
        None => number(stated),
    }
}

/// The factor on the standard uncertainty in verdicts, where the shop has no habit of its own. Without its row nothing is proven.
pub fn guard_factor() -> f64 {
    row("guard-factor").map_or(f64::INFINITY, |row| row.value)
}

/// One end of a constant's band, where the worst end decides.
///
/// # Errors
/// As [`row`].
pub fn worst<Q: Quantity>(name: &'static str, high: bool) -> Result<Worked<Q>, Refusal> {
    thread_local!(static ENDS: Kept<(Name, bool), Worked<Ratio>> = Kept::default());
    let end = || {
        let row = row(name)?;
        let end = if high { row.high } else { row.low }.unwrap_or(row.value);
        Ok(Worked::row(Ratio::new(end), row.says(end), row.source()))
    };
    ENDS.with(|ends| ends.see((Name(name), high), end, Worked::recast))
}

impl Constant {
    fn source(&self) -> Source {
        cited(self.source, self.seen)
    }

    fn says(&self, value: f64) -> String {
        let unit = if self.unit == "-" || self.unit.is_empty() { String::new() } else { format!(" {}", self.unit) };
        format!("{}: {}{unit}", self.name.replace('-', " "), figure(value))
    }
}
