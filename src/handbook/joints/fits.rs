//! Limits and fits (ISO 286): the table is carried, for its formulas do not reproduce it.

use crate::handbook::table::{Groups, has_row};
use crate::proof::{Cited, Mark, Origin, Refusal, Source, Worked};
use crate::quantity::{Form, Mm, Quantity, Written, figure};
use schemars::JsonSchema;
use serde::{Deserialize, Deserializer};
use std::fmt;
use std::sync::LazyLock;

#[derive(Debug, Deserialize)]
struct Row {
    grade_from: Option<u8>,
    grade_to: Option<u8>,
    over_mm: f64,
    upto_mm: f64,
    quantity: &'static str,
    /// µm, or `IT/2` for the symmetrical letters.
    value_um: &'static str,
    add_delta: &'static str,
    source: &'static str,
}

const TABLE: &str = include_str!("../../../shared/iso286.csv");

/// By kind and symbol: who reads a fit needs a handful of two thousand rows.
fn table() -> &'static Groups<Row> {
    static ROWS: LazyLock<Groups<Row>> = LazyLock::new(|| Groups::of(TABLE, 2));
    &ROWS
}

impl Row {
    fn holds(&self, size: f64) -> bool {
        size > self.over_mm && size <= self.upto_mm
    }

    fn number(&self) -> Option<f64> {
        self.value_um.parse().ok()
    }
}

/// A tolerance grade, IT01 to IT18.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Grade {
    /// IT01.
    ZeroOne,
    /// IT0 to IT18.
    Number(u8),
}

impl Grade {
    fn text(self) -> String {
        match self {
            Self::ZeroOne => "01".into(),
            Self::Number(n) => n.to_string(),
        }
    }

    fn number(self) -> Option<u8> {
        if let Self::Number(n) = self { Some(n) } else { None }
    }
}

/// A tolerance class: a letter (large: hole, small: shaft) and a grade.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Class {
    letter: String,
    grade: Grade,
}

/// The two deviations of a class at a size, µm.
#[derive(Clone, Debug, PartialEq)]
pub struct Deviations {
    /// Lower deviation, µm.
    pub lower: f64,
    /// Upper deviation, µm.
    pub upper: f64,
    /// Sources of the rows.
    pub sources: &'static str,
}

/// The tolerance of a grade at a size, µm.
///
/// # Errors
/// [`Refusal::Outside`] over 500 mm; [`Refusal::NoRow`] for a grade that the size does not have.
pub fn tolerance(grade: Grade, size: f64) -> Result<f64, Refusal> {
    in_range(size)?;
    let symbol = format!("IT{}", grade.text());
    let row = table().under(&format!("IT,{symbol}")).find(|row| row.holds(size));
    row.and_then(Row::number)
        .ok_or_else(|| Refusal::NoRow { table: "tolerance grade", wanted: format!("{symbol} at {} mm", figure(size)) })
}

/// The greatest size of the table, mm.
const MOST_SIZE: f64 = 500.0;

fn in_range(size: f64) -> Result<(), Refusal> {
    if size > 0.0 && size <= MOST_SIZE {
        return Ok(());
    }
    Err(Refusal::Outside {
        what: "the size of a fit",
        got: size,
        least: 0.0,
        most: MOST_SIZE,
        unit: crate::quantity::Unit::Mm,
    })
}

impl Class {
    /// As it is written.
    pub fn text(&self) -> String {
        format!("{}{}", self.letter, self.grade.text())
    }

    /// Whether it is a hole class (large letter).
    pub(crate) fn is_hole(&self) -> bool {
        self.letter.starts_with(|c: char| c.is_uppercase())
    }

    /// The grade.
    pub fn grade(&self) -> Grade {
        self.grade
    }

    /// The two deviations at a size, µm.
    ///
    /// # Errors
    /// [`Refusal::Outside`] over 500 mm; [`Refusal::NoRow`] where the standard has no such class at that size.
    pub fn deviations(&self, size: f64) -> Result<Deviations, Refusal> {
        let it = tolerance(self.grade, size)?;
        let row = self.row(size).ok_or_else(|| self.lacking(size))?;
        let sources = row.source;
        if row.quantity == "sym" {
            return Ok(Deviations { lower: -it / 2.0, upper: it / 2.0, sources });
        }
        let delta = if row.add_delta == "1" { self.delta(size).ok_or_else(|| self.lacking(size))? } else { 0.0 };
        let tabulated = row.number().ok_or_else(|| self.lacking(size))? + delta;
        let (lower, upper) = match row.quantity {
            "EI" | "ei" => (tabulated, tabulated + it),
            _ => (tabulated - it, tabulated),
        };
        Ok(Deviations { lower, upper, sources })
    }

    /// The two limits at a nominal size, mm.
    ///
    /// # Errors
    /// As [`Self::deviations`].
    pub fn limits(&self, nominal: f64) -> Result<(Worked<Mm>, Worked<Mm>), Refusal> {
        let Deviations { lower, upper, .. } = self.deviations(nominal)?;
        let name = format!("{} {}", figure(nominal), self.text());
        let limit = |which: &str, deviation: f64| {
            let row = format!("{name}: {which} deviation {deviation:+} µm");
            Worked::exact(
                Mm::new(nominal + deviation / 1000.0),
                Origin::Row(Cited { row: row.into(), source: source() }),
            )
        };
        Ok((limit("lower", lower), limit("upper", upper)))
    }

    fn row(&self, size: f64) -> Option<&'static Row> {
        let kind = if self.is_hole() { "hole" } else { "shaft" };
        let grade = self.grade.number()?;
        let graded =
            |row: &&Row| row.grade_from.is_none_or(|from| grade >= from) && row.grade_to.is_none_or(|to| grade <= to);
        let key = format!("{kind},{}", self.letter);
        let rows = table().under(&key).filter(|row| row.holds(size));
        // A row for one grade alone (the M6 exception) goes before the row of many grades.
        rows.filter(graded).min_by_key(|row| row.grade_to.unwrap_or(18) - row.grade_from.unwrap_or(1))
    }

    fn delta(&self, size: f64) -> Option<f64> {
        let grade = self.grade.number()?;
        // Grades 1 and 2 have no delta row: a difference of less than a micrometre between neighbours is not tabulated.
        let row = table().under("delta,delta").find(|row| row.grade_from == Some(grade) && row.holds(size))?;
        row.number()
    }

    fn lacking(&self, size: f64) -> Refusal {
        Refusal::NoRow { table: "tolerance class", wanted: format!("{} {}", figure(size), self.text()) }
    }
}

/// The source of the table as a whole.
pub(super) fn source() -> Source {
    Source::fixed("ISO 286-1/-2 by way of several open tables that agree", Mark::Read)
}

impl std::str::FromStr for Class {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let text = text.trim();
        let at = text.find(|c: char| c.is_ascii_digit()).ok_or_else(|| not_a_class(text))?;
        let (letter, grade) = text.split_at(at);
        let grade = match grade {
            "01" => Grade::ZeroOne,
            number => Grade::Number(number.parse().ok().filter(|n| *n <= 18).ok_or_else(|| not_a_class(text))?),
        };
        let known = ["hole", "shaft"].iter().any(|kind| has_row(TABLE, &format!("{kind},{letter}")));
        if known { Ok(Self { letter: letter.into(), grade }) } else { Err(not_a_class(text)) }
    }
}

fn not_a_class(text: &str) -> String {
    format!("`{text}` is not a tolerance class such as `H7` or `f7`")
}

/// A fit as it is written: `25 H7`, `25 H7/p6`, `H7/f7`, `h6`.
#[derive(Clone, Debug, PartialEq)]
pub struct Fit {
    /// Nominal size, where it was written.
    pub nominal: Option<f64>,
    /// Class of the hole.
    pub hole: Option<Class>,
    /// Class of the shaft.
    pub shaft: Option<Class>,
}

impl Fit {
    /// Whether it names one hole with its size, as a reamer does.
    pub(crate) fn is_one_hole(&self) -> bool {
        self.nominal.is_some() && self.hole.is_some() && self.shaft.is_none()
    }
}

impl fmt::Display for Fit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if let Some(nominal) = self.nominal {
            write!(f, "{} ", figure(nominal))?;
        }
        let classes: Vec<String> = self.hole.iter().chain(&self.shaft).map(Class::text).collect();
        f.write_str(&classes.join("/"))
    }
}

impl std::str::FromStr for Fit {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let text = text.trim();
        // A size with its unit stands before the last space (`1 in H7`); without one it is in mm (`25 H7`, `25H7`).
        let with_unit =
            text.rsplit_once(' ').and_then(|(size, classes)| Some((size.parse::<Written<Mm>>().ok()?, classes)));
        let (nominal, classes) = match with_unit {
            Some((size, classes)) if size.form == Form::Plain => (Some(size.value.number()), classes),
            _ => {
                let start = text.find(|c: char| c.is_ascii_alphabetic()).ok_or_else(|| not_a_fit(text))?;
                let (size, classes) = text.split_at(start);
                let size = size.trim();
                let typed = || size.parse::<f64>().map_err(|_| not_a_fit(text));
                (if size.is_empty() { None } else { Some(typed()?) }, classes)
            }
        };
        if nominal.is_some_and(|size| !(size > 0.0 && size <= MOST_SIZE)) {
            return Err(not_a_fit(text));
        }
        let mut fit = Self { nominal, hole: None, shaft: None };
        for class in classes.split('/') {
            let class: Class = class.parse()?;
            let slot = if class.is_hole() { &mut fit.hole } else { &mut fit.shaft };
            if slot.replace(class).is_some() {
                return Err(format!(
                    "`{text}` names two classes of the same kind; a fit is hole over shaft, as in `25 H7/p6`"
                ));
            }
        }
        Ok(fit)
    }
}

fn not_a_fit(text: &str) -> String {
    // A size that is whole but for its class.
    if text.parse::<Written<Mm>>().is_ok_and(|size| size.form == Form::Plain) {
        return format!("`{text}` has no tolerance class behind it: is `{text} H7` meant, as a reamer is marked?");
    }
    // A common fraction is one of an inch (`5/8 H7`).
    if let Some((size, class)) = text.rsplit_once(' ')
        && size.contains('/')
        && class.parse::<Class>().is_ok()
        && format!("{size} in").parse::<Written<Mm>>().is_ok()
    {
        return format!("`{text}`: is `{size} in {class}` meant? A size without its unit is in mm");
    }
    format!("`{text}` is not a fit such as `25 H7` or `25 H7/p6` (size in mm, above 0 up to 500)")
}

impl<'de> Deserialize<'de> for Fit {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        String::deserialize(from)?.parse().map_err(serde::de::Error::custom)
    }
}

impl JsonSchema for Fit {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "Fit".into()
    }
    fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
        schemars::json_schema!({ "type": "string", "description": "a fit of ISO 286", "examples": ["25 H7", "25 H7/p6"] })
    }
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
    fn a_step_ends_up_to_and_including() {
        let upper = |size| "H7".parse::<Class>().unwrap().deviations(size).unwrap().upper;
        assert_eq!((upper(10.0), upper(10.001), upper(30.0)), (15.0, 18.0, 21.0));
    }

    #[test]
    fn the_exception_of_m6_and_delta_are_kept() {
        let of = |class: &str, size| {
            let d = class.parse::<Class>().unwrap().deviations(size).unwrap();
            (d.lower, d.upper)
        };
        assert_eq!(of("M6", 300.0), (-41.0, -9.0));
        assert_eq!(of("K7", 25.0), (-15.0, 6.0));
        assert_eq!(of("js6", 25.0), (-6.5, 6.5));
        assert_eq!(of("s6", 20.0), (35.0, 48.0));
    }

    #[test]
    fn a_fit_is_read_in_every_form() {
        for text in ["25 H7", "25 H7/p6", "H7/f7", "h6"] {
            assert_eq!(text.parse::<Fit>().unwrap().to_string(), text);
        }
        for (text, nominal) in
            [("1 in H7", 25.4), ("1/2 in H7/p6", 12.7), ("25 mm H7", 25.0), ("25H7", 25.0), ("1000 thou h6", 25.4)]
        {
            assert_eq!(text.parse::<Fit>().unwrap().nominal, Some(nominal), "{text}");
        }
        for text in ["30 in H7", "1 kg H7", "1 ± 0.1 in H7", "in H7"] {
            assert!(text.parse::<Fit>().is_err(), "{text}");
        }
        for text in ["25", "25 Q7", "25 H7/H8", "25 H19", "-5 H7", "600 H7"] {
            assert!(text.parse::<Fit>().is_err(), "{text}");
        }
    }
}
