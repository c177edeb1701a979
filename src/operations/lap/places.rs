//! Where a face was read, and what the indicator showed there.

use crate::operations::{Answer, Bench};
use crate::proof::{At, Place, Refusal, Worked};
use crate::quantity::{Angle, Measured, Mm, Quantity, Row, Shift};
use crate::reading::Problem;
use crate::shop::Gauge;
use schemars::{JsonSchema, Schema, SchemaGenerator};
use serde::de::value::{MapAccessDeserializer, SeqAccessDeserializer};
use serde::{Deserialize, Deserializer, de};
use std::borrow::Cow;
use std::fmt;

/// Readings on a grid.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct Grid {
    /// The columns.
    pub(super) x: At<Row<Shift>>,
    /// The rows.
    pub(super) y: At<Row<Shift>>,
    /// The readings, one text for each row; a dash where there is no metal.
    pub(super) reads: Vec<At<Row<Shift>>>,
}

/// Readings round a circle.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct Round {
    /// Its radius.
    radius: At<Mm>,
    /// The angles.
    at: At<Row<Angle>>,
    /// The readings, in the same order.
    reads: At<Row<Shift>>,
}

/// A reading at any place.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct Point {
    /// Along the face.
    x: At<Shift>,
    /// Across it.
    y: At<Shift>,
    /// What the indicator showed (measured).
    reads: At<Measured<Shift>>,
}

/// Readings that stand on no grid.
#[derive(Clone, Debug)]
pub(super) enum Points {
    /// Round a circle.
    Round(Box<Round>),
    /// At any places.
    Any(Vec<Point>),
}

impl<'de> Deserialize<'de> for Points {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        struct Either;
        impl<'de> de::Visitor<'de> for Either {
            type Value = Points;
            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                write!(f, "`{{radius, at, reads}}` round a circle, or a list of `{{x, y, reads}}`")
            }
            fn visit_map<A: de::MapAccess<'de>>(self, entries: A) -> Result<Points, A::Error> {
                Round::deserialize(MapAccessDeserializer::new(entries)).map(|round| Points::Round(Box::new(round)))
            }
            fn visit_seq<A: de::SeqAccess<'de>>(self, entries: A) -> Result<Points, A::Error> {
                Vec::deserialize(SeqAccessDeserializer::new(entries)).map(Points::Any)
            }
        }
        from.deserialize_any(Either)
    }
}

impl JsonSchema for Points {
    fn schema_name() -> Cow<'static, str> {
        "Points".into()
    }
    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        let (round, any) = (generator.subschema_for::<Round>(), generator.subschema_for::<Vec<Point>>());
        schemars::json_schema!({
            "description": "readings round a circle, or at any places",
            "anyOf": [round, any],
        })
    }
}

/// One reading at its place, mm.
#[derive(Clone, Debug)]
pub(super) struct Read {
    /// Along the face.
    pub(super) x: f64,
    /// Across it.
    pub(super) y: f64,
    /// What the indicator showed.
    pub(super) z: Worked<Shift>,
}

impl Grid {
    pub(super) fn problems(&self, all: &mut Vec<Problem>) {
        let (columns, rows) = (self.x.value.reads.len(), self.y.value.reads.len());
        for axis in [&self.x, &self.y] {
            let Some(mut places) = axis.value.numbers() else {
                all.push(Problem::new(axis.place, "a place of the grid is missing"));
                continue;
            };
            places.sort_by(f64::total_cmp);
            if places.windows(2).any(|pair| matches!(pair, [a, b] if b - a < 1e-6)) {
                all.push(Problem::new(axis.place, "each place of the grid stands once"));
            }
        }
        if self.reads.len() != rows {
            all.push(Problem::new(self.y.place, "`reads` has one text for each `y`"));
        }
        for row in &self.reads {
            if row.value.reads.len() != columns {
                all.push(Problem::new(row.place, "a text of `reads` has one reading, or a dash, for each `x`"));
            }
        }
    }

    pub(super) fn reads(
        &self,
        bench: &Bench,
        answer: &mut Answer,
        with: Option<&At<String>>,
    ) -> Result<Vec<Read>, Refusal> {
        let mut all = Vec::new();
        for (row, y) in self.reads.iter().zip(&self.y.value.reads) {
            let reads = answer.read_row(bench, "grid.reads", Gauge::Indicator, row, with)?;
            for (read, x) in reads.into_iter().zip(&self.x.value.reads) {
                if let (Some(z), Some(x), Some(y)) = (read, x, y) {
                    all.push(Read { x: x.number(), y: y.number(), z });
                }
            }
        }
        Ok(all)
    }
}

impl Grid {
    /// Where it was read, in the order of the readings.
    pub(super) fn places(&self) -> Vec<(f64, f64)> {
        let numbers = |axis: &At<Row<Shift>>| axis.value.numbers().unwrap_or_default();
        let (columns, rows) = (numbers(&self.x), numbers(&self.y));
        let lines = self.reads.iter().zip(rows);
        let read =
            lines.flat_map(|(line, y)| line.value.reads.iter().zip(&columns).map(move |(read, x)| (read, *x, y)));
        read.filter_map(|(read, x, y)| read.as_ref().map(|_| (x, y))).collect()
    }
}

/// Nearer than this two places are one, mm.
const ONE_PLACE: f64 = 1e-6;

impl Points {
    /// Where it was read, in the order of the readings.
    pub(super) fn places(&self) -> Vec<(f64, f64)> {
        let of_round = |round: &Round| {
            let radius = round.radius.value.number();
            let place = |degrees: f64| (radius * degrees.to_radians().cos(), radius * degrees.to_radians().sin());
            round.at.value.numbers().unwrap_or_default().into_iter().map(place).collect()
        };
        match self {
            Self::Round(round) => of_round(round),
            Self::Any(points) => points.iter().map(|point| (point.x.value.number(), point.y.value.number())).collect(),
        }
    }

    pub(super) fn problems(&self, key: Place, all: &mut Vec<Problem>) {
        let places = self.places();
        // A turn further the same place differs by the dust of the angle.
        let same = |a: &(f64, f64), b: &(f64, f64)| (a.0 - b.0).hypot(a.1 - b.1) < ONE_PLACE;
        if places.iter().enumerate().any(|(at, place)| places.iter().skip(at + 1).any(|other| same(place, other))) {
            all.push(Problem::new(key, "each place of `points` stands once: two readings at one place are one"));
        }
        match self {
            Self::Round(round) => {
                if round.radius.value.number() <= 0.0 {
                    all.push(Problem::new(round.radius.place, "`radius` must be above zero"));
                }
                if round.at.value.numbers().is_none() || round.at.value.reads.len() != round.reads.value.reads.len() {
                    all.push(Problem::new(round.reads.place, "there are as many readings as angles"));
                }
            }
            Self::Any(points) => {
                for point in points.iter().filter(|point| point.reads.value.plus_minus.is_some()) {
                    let says = "each reading is one figure: its doubt is the instrument's, named in `with`";
                    all.push(Problem::new(point.reads.place, says));
                }
                if points.is_empty() {
                    all.push(Problem::new(key, "`points` holds no reading"));
                }
            }
        }
    }

    pub(super) fn reads(
        &self,
        bench: &Bench,
        answer: &mut Answer,
        with: Option<&At<String>>,
    ) -> Result<Vec<Read>, Refusal> {
        let row: At<Row<Shift>> = match self {
            Self::Round(round) => round.reads.clone(),
            Self::Any(points) => {
                let reads = points.iter().map(|point| Some(point.reads.value.value)).collect();
                let grain = points.iter().filter_map(|point| point.reads.value.grain).fold(0.0, f64::max);
                let Some(first) = points.first() else { return Ok(Vec::new()) };
                At { value: Row { reads, grain }, place: first.reads.place }
            }
        };
        let reads = answer.read_row(bench, "points.reads", Gauge::Indicator, &row, with)?;
        let at = reads.into_iter().zip(self.places()).filter_map(|(z, (x, y))| Some(Read { x, y, z: z? }));
        Ok(at.collect())
    }
}
