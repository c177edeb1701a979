//! The rows of the threads: the two tables as they stand, and what a thread of either is.

use super::thread_form::Form;
use super::thread_meant::Named;
use super::thread_names::keys;
use crate::handbook::table::{Groups, cited, seen, seen_or_none};
use crate::proof::{Mark, Source};
use serde::Deserialize;
use std::sync::LazyLock;

/// A series of threads.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Deserialize)]
pub enum Series {
    /// ISO metric coarse.
    #[serde(rename = "coarse")]
    Coarse,
    /// ISO metric fine.
    #[serde(rename = "fine")]
    Fine,
    /// British Association.
    #[serde(rename = "BA")]
    Ba,
    /// Unified coarse.
    #[serde(rename = "UNC")]
    Unc,
    /// Unified fine.
    #[serde(rename = "UNF")]
    Unf,
    /// Unified extra fine.
    #[serde(rename = "UNEF")]
    Unef,
    /// British Standard Whitworth.
    #[serde(rename = "BSW")]
    Bsw,
    /// British Standard Fine.
    #[serde(rename = "BSF")]
    Bsf,
    /// British Standard Cycle.
    #[serde(rename = "BSC")]
    Bsc,
    /// British Standard Pipe, parallel.
    #[serde(rename = "BSP")]
    Bsp,
}

impl Series {
    /// In words.
    pub const fn text(self) -> &'static str {
        match self {
            Self::Coarse => "ISO metric coarse",
            Self::Fine => "ISO metric fine",
            Self::Ba => "BA",
            Self::Unc => "UNC",
            Self::Unf => "UNF",
            Self::Unef => "UNEF",
            Self::Bsw => "BSW",
            Self::Bsf => "BSF",
            Self::Bsc => "cycle (BSC)",
            Self::Bsp => "BSP parallel",
        }
    }
}

impl Series {
    /// Whether the tables of taps count it among the fine threads: metric fine, UNF and UNEF.
    pub(crate) const fn is_fine(self) -> bool {
        matches!(self, Self::Fine | Self::Unf | Self::Unef)
    }
}

#[derive(Debug, Deserialize)]
struct MetricRow {
    designation: String,
    series: Series,
    form: Form,
    major_mm: f64,
    pitch_mm: f64,
    tap_drill_mm: Option<f64>,
    nut_minor_min_mm: Option<f64>,
    nut_minor_max_mm: Option<f64>,
    nut_pitch_max_mm: Option<f64>,
    bolt_major_min_mm: Option<f64>,
    source: String,
    #[serde(deserialize_with = "seen")]
    seen: Mark,
    drill_source: String,
    #[serde(deserialize_with = "seen_or_none")]
    drill_seen: Option<Mark>,
    note: String,
}

#[derive(Debug, Deserialize)]
struct InchRow {
    designation: String,
    series: Series,
    form: Form,
    major_in: f64,
    tpi: f64,
    tap_drill_mm: Option<f64>,
    tap_drill_name: String,
    nut_minor_min_in: Option<f64>,
    nut_minor_max_in: Option<f64>,
    nut_pitch_max_in: Option<f64>,
    bolt_major_min_in: Option<f64>,
    source: String,
    #[serde(deserialize_with = "seen")]
    seen: Mark,
    drill_source: String,
    #[serde(deserialize_with = "seen_or_none")]
    drill_seen: Option<Mark>,
    limits_source: String,
    #[serde(deserialize_with = "seen_or_none")]
    limits_seen: Option<Mark>,
    note: String,
}

/// What the book holds of one thread; lengths in mm.
#[derive(Debug)]
pub struct Row {
    /// Its designation.
    pub designation: String,
    /// Its series.
    pub series: Series,
    /// Its form.
    pub form: Form,
    /// Major diameter.
    pub major: f64,
    /// Pitch.
    pub pitch: f64,
    /// Threads per inch, where that is the unit it is defined in.
    pub tpi: Option<f64>,
    /// Tapping drill.
    pub tap_drill: Option<f64>,
    /// Its inch, number or letter name.
    pub tap_drill_name: String,
    /// Limits of the nut thread: minor least and most, pitch most; and of the bolt: major least.
    pub limits: [Option<f64>; 4],
    /// Source of the row.
    pub source: Source,
    /// Source of the limits.
    pub limits_source: Source,
    /// Source of the drill.
    pub drill_source: Option<Source>,
    /// A remark.
    pub note: String,
    /// What else it is called, as it is looked up.
    pub(super) keys: Vec<String>,
}

impl Row {
    pub(super) fn named(&self) -> Named<'_> {
        Named { designation: &self.designation, fine: self.series == Series::Fine, keys: &self.keys }
    }
}

impl From<MetricRow> for Row {
    fn from(row: MetricRow) -> Self {
        Self {
            keys: keys(&row.designation, Some(row.pitch_mm)),
            source: cited(&row.source, row.seen),
            limits_source: cited(&row.source, row.seen),
            drill_source: row.drill_seen.map(|mark| cited(&row.drill_source, mark)),
            designation: row.designation,
            series: row.series,
            form: row.form,
            major: row.major_mm,
            pitch: row.pitch_mm,
            tpi: None,
            tap_drill: row.tap_drill_mm,
            tap_drill_name: String::new(),
            limits: [row.nut_minor_min_mm, row.nut_minor_max_mm, row.nut_pitch_max_mm, row.bolt_major_min_mm],
            note: row.note,
        }
    }
}

impl From<InchRow> for Row {
    fn from(row: InchRow) -> Self {
        let mm = |inch: f64| inch * 25.4;
        let limits = [row.nut_minor_min_in, row.nut_minor_max_in, row.nut_pitch_max_in, row.bolt_major_min_in];
        Self {
            keys: keys(&row.designation, Some(row.tpi)),
            source: cited(&row.source, row.seen),
            limits_source: match row.limits_seen {
                Some(mark) => cited(&row.limits_source, mark),
                None => cited(&row.source, row.seen),
            },
            drill_source: row.drill_seen.map(|mark| cited(&row.drill_source, mark)),
            designation: row.designation,
            series: row.series,
            form: row.form,
            major: mm(row.major_in),
            pitch: 25.4 / row.tpi,
            tpi: Some(row.tpi),
            tap_drill: row.tap_drill_mm,
            tap_drill_name: row.tap_drill_name,
            limits: limits.map(|limit| limit.map(mm)),
            note: row.note,
        }
    }
}

const METRIC: &str = include_str!("../../../shared/threads-metric.csv");
const INCH: &str = include_str!("../../../shared/threads-inch.csv");

/// A row as it is read from its table.
#[derive(Deserialize)]
#[serde(from = "MetricRow")]
struct Metric(Row);

/// The same from the other table.
#[derive(Deserialize)]
#[serde(from = "InchRow")]
struct Inch(Row);

impl From<MetricRow> for Metric {
    fn from(row: MetricRow) -> Self {
        Self(row.into())
    }
}

impl From<InchRow> for Inch {
    fn from(row: InchRow) -> Self {
        Self(row.into())
    }
}

/// The rows whose designation is wanted: a job asks for few.
pub(super) fn rows(wanted: impl Fn(&str) -> bool + Copy) -> impl Iterator<Item = &'static Row> {
    static METRICS: LazyLock<Groups<Metric>> = LazyLock::new(|| Groups::of(METRIC, 1));
    static INCHES: LazyLock<Groups<Inch>> = LazyLock::new(|| Groups::of(INCH, 1));
    METRICS.wanted(wanted).map(|row| &row.0).chain(INCHES.wanted(wanted).map(|row| &row.0))
}

pub(super) fn table() -> impl Iterator<Item = &'static Row> {
    rows(|_| true)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::handbook::table::audit;

    #[test]
    fn every_row_loads() {
        let (metric, good, first) = audit::<MetricRow>(METRIC);
        assert_eq!(metric, good, "{first}");
        let (inch, good, first) = audit::<InchRow>(INCH);
        assert_eq!(inch, good, "{first}");
    }

    /// Limits of unified nuts, class 2B, by the rule as the handbook works it out (Machinery's Handbook, 31st edition, internal unified
    /// threads): least D − 1.08253175 P, tolerance 0.25 P − 0.40 P² from a quarter of an inch up, to three decimals. The coarse rows were
    /// read from a printed list, the others are worked by it.
    #[test]
    fn limits_of_unified_nuts_are_those_of_the_rule() {
        let mut counted = 0;
        for row in table().filter(|row| row.form == Form::Unified && row.major >= 6.35 - 1e-9) {
            let (major, pitch) = (row.major / 25.4, row.pitch / 25.4);
            let least = major - 1.082_531_75 * pitch;
            let most = least + 0.25 * pitch - 0.40 * pitch * pitch;
            let to_three = |inch: f64| (inch * 1e3).round() / 1e3;
            let [Some(row_least), Some(row_most), ..] = row.limits else { panic!("{}", row.designation) };
            for (of_row, rule) in [(row_least, least), (row_most, most)] {
                assert!((of_row / 25.4 - to_three(rule)).abs() < 1e-9, "{}: {}", row.designation, of_row / 25.4);
            }
            counted += 1;
        }
        assert!(counted >= 30, "{counted}");
    }

    /// A drill of the list leaves a hole that the limits allow, of every thread that has both (a drill cuts no smaller than itself); where the
    /// customary one does not, its row says so.
    #[test]
    fn drills_of_the_lists_lie_inside_the_limits() {
        for row in table() {
            let (Some(drill), [_, Some(most), ..]) = (row.tap_drill, row.limits) else { continue };
            let told = row.note.contains("passes the greatest minor diameter");
            assert_eq!(drill > most + 1e-9, told, "{}: {drill} of {most}", row.designation);
        }
    }
}
