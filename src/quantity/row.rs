//! Readings in a row: one text with its unit once (`0 -0.045 - -0.075 mm`); a dash alone is a place where nothing was read.

use super::Quantity;
use super::list::spaced;
use super::written::{Form, Written};
use serde::{Deserialize, Deserializer, de};
use std::fmt;
use std::marker::PhantomData;

/// Figures in a row, in the order typed.
#[derive(Clone, Debug, PartialEq)]
pub struct Row<Q> {
    /// The figures; none where nothing was read.
    pub reads: Vec<Option<Q>>,
    /// One unit of the last digit of the coarsest of them, in the unit held.
    pub grain: f64,
}

impl<Q: Quantity> Row<Q> {
    /// The figures as numbers, where every place has one.
    pub fn numbers(&self) -> Option<Vec<f64>> {
        self.reads.iter().map(|read| read.map(Q::number)).collect()
    }

    /// The greatest of them without its sign, in the unit held; 0 of none.
    pub fn greatest(&self) -> f64 {
        self.reads.iter().flatten().map(|read| read.number().abs()).fold(0.0, f64::max)
    }
}

impl<Q: Quantity> std::str::FromStr for Row<Q> {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let text = text.trim();
        let ends = || format!("readings in a row end with their unit, as in `0 -1 2 {}`", Q::UNIT);
        if text.contains(", ") {
            return Err(format!("readings in a row stand apart by spaces alone: `{}`", spaced(text)));
        }
        let (figures, unit) = text.rsplit_once(char::is_whitespace).ok_or_else(ends)?;
        if unit.starts_with(|c: char| c.is_ascii_digit() || matches!(c, '-' | '−' | '.')) {
            return Err(ends());
        }
        let one = |figure: &str| -> Result<Option<Written<Q>>, String> {
            if matches!(figure, "-" | "−" | "–") {
                return Ok(None);
            }
            let written = format!("{figure} {unit}").parse::<Written<Q>>().map_err(|slip| slip.to_string())?;
            match written.form {
                Form::Plain => Ok(Some(written)),
                _ => Err("each reading of a row is one figure: its doubt is the instrument's, named in `with`".into()),
            }
        };
        let all: Vec<_> = figures.split_whitespace().map(one).collect::<Result<_, _>>()?;
        let grain = all.iter().flatten().filter_map(|read| read.grain).fold(0.0, f64::max);
        Ok(Self { reads: all.into_iter().map(|read| read.map(|read| read.value)).collect(), grain })
    }
}

impl<'de, Q: Quantity> Deserialize<'de> for Row<Q> {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        struct Text<Q>(PhantomData<Q>);
        impl<Q: Quantity> de::Visitor<'_> for Text<Q> {
            type Value = Row<Q>;
            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                write!(f, "readings in a row such as `0 -1 2 {}`", Q::UNIT)
            }
            fn visit_str<E: de::Error>(self, text: &str) -> Result<Row<Q>, E> {
                text.parse().map_err(E::custom)
            }
        }
        from.deserialize_any(Text(PhantomData))
    }
}

impl<Q: Quantity> schemars::JsonSchema for Row<Q> {
    fn inline_schema() -> bool {
        true
    }
    fn schema_name() -> std::borrow::Cow<'static, str> {
        format!("Row of {}", Q::WHAT).into()
    }
    fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
        let unit = Q::UNIT.text();
        schemars::json_schema!({
            "type": "string",
            "description": format!("readings in a row, as in `0 -1 - 2 {unit}`; a dash where nothing was read"),
            "examples": [format!("0 1 2 1 {unit}")],
            "x-unit": unit,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::super::{Angle, Shift};
    use super::*;

    #[test]
    fn rows_are_read_with_signs_and_gaps() {
        let row: Row<Shift> = "4 19 - −3 um".parse().unwrap();
        assert_eq!(
            row.reads.iter().map(|r| r.map(Quantity::number)).collect::<Vec<_>>(),
            [Some(0.004), Some(0.019), None, Some(-0.003)]
        );
        assert_eq!((row.numbers(), row.greatest(), row.grain), (None, 0.019, 0.001));
        let angles: Row<Angle> = "0 90 180 270 deg".parse().unwrap();
        assert_eq!(angles.numbers(), Some(vec![0.0, 90.0, 180.0, 270.0]));
    }

    #[test]
    fn what_is_no_row_says_what_to_write() {
        let slip = |text: &str| text.parse::<Row<Shift>>().unwrap_err();
        assert!(slip("1 2 3").contains("end with their unit"));
        assert!(slip("1, 2 mm").ends_with("spaces alone: `1 2 mm`"), "{}", slip("1, 2 mm"));
        assert!(slip("10 mm, -50 mm, 85 mm").ends_with("`10 -50 85 mm`"), "{}", slip("10 mm, -50 mm, 85 mm"));
        assert!(slip("1±0.1 2 mm").contains("one figure"), "{}", slip("1±0.1 2 mm"));
        assert!(slip("mm").contains("end with their unit"));
    }
}
