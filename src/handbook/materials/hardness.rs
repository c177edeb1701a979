//! Hardness of unalloyed and low-alloy steel turned from scale to scale, and into tensile strength: inside the table only.

use super::groups::Kind;
use crate::formula;
use crate::handbook::constants;
use crate::handbook::constants::doubted;
use crate::handbook::table::{cited, rows, seen};
use crate::proof::{At, Cause, Mark, Refusal, Source, Worked};
use crate::quantity::{Hardness, Quantity, Ratio, Scale, Stress, figure};
use serde::{Deserialize, Deserializer, de};
use std::sync::LazyLock;

#[derive(Debug, Deserialize)]
struct Row {
    hv: f64,
    hb: Option<f64>,
    tensile_mpa: Option<f64>,
    hrc: Option<f64>,
    doubt: String,
    source: String,
    #[serde(deserialize_with = "seen")]
    seen: Mark,
}

const TABLE: &str = include_str!("../../../shared/hardness.csv");

fn table() -> &'static [Row] {
    static ROWS: LazyLock<Vec<Row>> = LazyLock::new(|| rows(TABLE));
    &ROWS
}

impl Row {
    fn on(&self, scale: Scale) -> Option<f64> {
        match scale {
            Scale::Hv => Some(self.hv),
            Scale::Hb => self.hb,
            Scale::Hrc => self.hrc,
        }
    }

    fn source(&self) -> Source {
        cited(&self.source, self.seen)
    }
}

formula! {
    /// A straight line between two rows of a table.
    between_rows(x: Ratio = "the hardness" in 0.0..=5_000.0, x1: Ratio = "the row below" in 0.0..=5_000.0,
        x2: Ratio = "the row above" in 0.0..=5_000.0, y1: Ratio = "what the row below gives" in 0.0..=5_000.0,
        y2: Ratio = "what the row above gives" in 0.0..=5_000.0)
        -> y: Ratio { y1 + (x - x1) * (y2 - y1) / (x2 - x1) }
    source FromMemory "ISO 18265, Table A.1; a straight line between its rows"
}

/// The number on another scale, by way of Vickers.
///
/// # Errors
/// [`Refusal::NoRow`] for a metal that is not steel and outside the table: there is no conversion.
pub fn on_scale(hardness: Hardness, scale: Scale, kind: Kind) -> Result<Worked<Ratio>, Refusal> {
    let vickers = vickers(hardness, kind)?;
    if scale == Scale::Hv {
        return Ok(vickers);
    }
    let found = between(&vickers, (|row| Some(row.hv), Scale::Hv.text()), (|row| row.on(scale), scale.text()));
    found.map_err(|_| no_row(hardness, scale.text()))
}

/// The hardest that the table converts from Rockwell to a scale.
pub fn hardest_converted(scale: Scale) -> Option<f64> {
    let known = table().iter().filter(|row| row.hrc.is_some()).filter_map(|row| row.on(scale));
    known.max_by(f64::total_cmp)
}

/// Tensile strength of a steel of that hardness.
///
/// # Errors
/// As [`on_scale`].
pub fn tensile(hardness: Hardness, kind: Kind) -> Result<Worked<Stress>, Refusal> {
    let vickers = vickers(hardness, kind)?;
    let found = between(&vickers, (|row| Some(row.hv), Scale::Hv.text()), (|row| row.tensile_mpa, "MPa"));
    found.map(|found| found.recast()).map_err(|_| no_row(hardness, "MPa"))
}

fn no_row(hardness: Hardness, unit: &str) -> Refusal {
    Refusal::NoRow { table: "conversion of hardness", wanted: format!("{hardness} to {unit}") }
}

/// A figure that lies off its own scale: no test gives it.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
#[error("{got} is off the scale, which goes from {} to {} {}", figure(*least), figure(*most), got.scale.text())]
pub struct OffScale {
    /// What was quoted.
    pub got: Hardness,
    /// Low end of the scale.
    pub least: f64,
    /// High end of the scale.
    pub most: f64,
}

/// Holds a hardness against the ends of its own scale; an end met exactly holds.
///
/// # Errors
/// [`OffScale`] outside HRC 20..70, HB 20..650, HV 20..1200 (rows `scale-…` of the table of constants).
pub(crate) fn on_its_scale(got: Hardness) -> Result<Hardness, OffScale> {
    let (least, most) = match got.scale {
        Scale::Hrc => ("scale-hrc-least", "scale-hrc-most"),
        Scale::Hb => ("scale-hb-least", "scale-hb-most"),
        Scale::Hv => ("scale-hv-least", "scale-hv-most"),
    };
    // A row that is not there refuses everything: a test holds that all are.
    let end = |name| constants::row(name).map_or(f64::NAN, |row| row.value);
    let (least, most) = (end(least), end(most));
    if (least..=most).contains(&got.number) { Ok(got) } else { Err(OffScale { got, least, most }) }
}

/// A hardness that was tested, read with its place.
struct Tested(Hardness);

impl<'de> Deserialize<'de> for Tested {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        on_its_scale(Hardness::deserialize(from)?).map(Self).map_err(de::Error::custom)
    }
}

/// Reads a tested hardness of a document: what is off its scale is an error at its place.
///
/// # Errors
/// What is no hardness, and [`OffScale`].
pub fn tested<'de, D: Deserializer<'de>>(from: D) -> Result<At<Hardness>, D::Error> {
    At::<Tested>::deserialize(from).map(|at| At { value: at.value.0, place: at.place })
}

/// The same where it may be left out.
///
/// # Errors
/// As [`tested`].
pub(crate) fn tested_if<'de, D: Deserializer<'de>>(from: D) -> Result<Option<At<Hardness>>, D::Error> {
    tested(from).map(Some)
}

/// The number on the scale of the table's rows.
fn vickers(hardness: Hardness, kind: Kind) -> Result<Worked<Ratio>, Refusal> {
    if !matches!(kind, Kind::Steel | Kind::HardSteel) {
        return Err(Refusal::NoRow { table: "conversion of hardness (steel only)", wanted: kind.text().into() });
    }
    let read = Worked::row(Ratio::new(hardness.number), format!("{hardness}"), cited("iso-18265", Mark::FromMemory));
    match hardness.scale {
        Scale::Hv => Ok(read),
        scale => between(&read, (|row| row.on(scale), scale.text()), (|row| Some(row.hv), Scale::Hv.text())),
    }
}

/// A column of the table and its unit.
type Column<F> = (F, &'static str);

/// A straight line between the two rows that know both columns; `x` stands in the first.
fn between(
    x: &Worked<Ratio>,
    (from, own): Column<impl Fn(&Row) -> Option<f64>>,
    (to, unit): Column<impl Fn(&Row) -> Option<f64>>,
) -> Result<Worked<Ratio>, Refusal> {
    let known: Vec<(f64, f64, &Row)> = table().iter().filter_map(|row| Some((from(row)?, to(row)?, row))).collect();
    let bracket = known.windows(2).find_map(|pair| match pair {
        [low, high] if low.0 <= x.number() && x.number() <= high.0 => Some((low, high)),
        _ => None,
    });
    let no_row = || Refusal::NoRow {
        table: "conversion of hardness",
        wanted: format!("{} {own} to {unit}", figure(x.number())),
    };
    let (low, high) = bracket.ok_or_else(no_row)?;
    let cell = |number: f64, row: &Row, unit: &str| {
        Worked::row(Ratio::new(number), format!("row {} HV: {} {unit}", figure(row.hv), figure(number)), row.source())
    };
    let found = between_rows(
        x,
        &cell(low.0, low.2, own),
        &cell(high.0, high.2, own),
        &cell(low.1, low.2, unit),
        &cell(high.1, high.2, unit),
    )?;
    doubted(found, Cause::Named("conversion of hardness"), low.2.seen, &low.2.doubt)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_loads() {
        let (all, good, first) = crate::handbook::table::audit::<Row>(TABLE);
        assert_eq!(all, good, "{first}");
    }

    #[test]
    fn a_scale_ends_where_its_test_does() {
        let read = |text: &str| on_its_scale(text.parse().unwrap());
        for good in ["20 HRC", "70 HRC", "58.5 HRC", "20 HB", "650 HB", "20 HV", "1200 HV"] {
            assert!(read(good).is_ok(), "{good}");
        }
        for bad in ["19.9 HRC", "6 HRC", "70.1 HRC", "95 HRC", "590 HRC", "19 HB", "651 HB", "19 HV", "1201 HV"] {
            assert!(read(bad).is_err(), "{bad}");
        }
        let says = read("590 HRC").unwrap_err().to_string();
        assert_eq!(says, "590 HRC is off the scale, which goes from 20 to 70 HRC");
    }

    #[test]
    fn steel_inside_the_table_and_nothing_else() {
        let of = |text: &str, kind| on_scale(text.parse().unwrap(), Scale::Hv, kind).map(|hv| hv.number());
        assert!((of("58 HRC", Kind::HardSteel).unwrap() - 654.3).abs() < 0.1);
        assert_eq!(tensile("200 HV".parse().unwrap(), Kind::Steel).unwrap().number(), 640.0);
        assert!(of("70 HRC", Kind::Steel).is_err());
        assert!((of("257 HB", Kind::Steel).unwrap() - 270.5).abs() < 0.5);
        assert!(of("100 HB", Kind::Aluminium).is_err());
        let hrc = |text: &str| on_scale(text.parse().unwrap(), Scale::Hrc, Kind::Steel).unwrap();
        assert_eq!((hrc("270 HV").number(), hrc("270 HV").plus_minus() > 0.0), (25.6, true));
        assert!(tensile("60 HRC".parse().unwrap(), Kind::Steel).is_err(), "no tensile strength stands over 650 HV");
    }
}
