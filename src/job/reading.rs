//! A measured size of a job: typed with or without its doubt, with the instrument named, or taken from another operation.

use super::Address;
use crate::proof::At;
use crate::quantity::{Celsius, Measured, Misread, Mm, Quantity, Ratio};
use schemars::{JsonSchema, Schema, SchemaGenerator};
use serde::de::{self, value::MapAccessDeserializer};
use serde::{Deserialize, Deserializer};
use std::borrow::Cow;
use std::fmt;

/// A measured size as typed.
#[derive(Clone, Debug, PartialEq)]
pub enum Reading {
    /// `18.0 ± 0.3 mm`, or `{size: 18.0 mm, with: depth gauge}`.
    Size {
        /// The figure.
        size: Measured<Mm>,
        /// The instrument named.
        with: Option<At<String>>,
        /// How warm part and gauge were, where that was typed.
        warmth: Option<Warm>,
    },
    /// `{of: part/operation/value}`: the size that another operation leaves.
    Of(At<Address>),
}

/// How warm a part was as it was read, and its gauge.
#[derive(Clone, Debug, PartialEq)]
pub struct Warm {
    /// The part.
    pub at: At<Celsius>,
    /// The gauge, where that was typed.
    pub gauge_at: Option<At<Celsius>>,
}

impl Reading {
    /// The size typed, where one was.
    pub fn typed(&self) -> Option<f64> {
        match self {
            Self::Size { size, .. } => Some(size.value.number()),
            Self::Of(_) => None,
        }
    }

    /// The address it is taken from, where it is.
    pub fn address(&self) -> Option<&Address> {
        match self {
            Self::Size { .. } => None,
            Self::Of(address) => Some(address),
        }
    }
}

/// A small difference that was measured (wear, dish, float, relief, chamfer, metal removed before): its doubt may be of its own
/// size, but never a millimetre.
#[derive(Clone, Debug, PartialEq)]
pub struct Difference(Reading);

impl std::ops::Deref for Difference {
    type Target = Reading;
    fn deref(&self) -> &Reading {
        &self.0
    }
}

/// A figure of the table of constants; infinite where it is not there, so that nothing is refused by it.
fn limit<Q: Quantity>(name: &'static str) -> f64 {
    crate::handbook::constants::constant::<Q>(name).map_or(f64::INFINITY, |limit| limit.number())
}

impl<'de> Deserialize<'de> for Difference {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let reading = reading_of(from)?;
        match &reading {
            Reading::Size { size, .. }
                if size.plus_minus.is_some_and(|u| u >= limit::<Mm>("doubt-of-difference-most")) =>
            {
                Err(de::Error::custom("a doubt of 1 mm and more leaves nothing of such a difference: measure it again"))
            }
            _ => Ok(Self(reading)),
        }
    }
}

impl JsonSchema for Difference {
    fn schema_name() -> Cow<'static, str> {
        Reading::schema_name()
    }
    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        Reading::json_schema(generator)
    }
}

#[derive(Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct Named {
    /// The size as read.
    size: Option<Measured<Mm>>,
    /// The instrument it was read with.
    with: Option<At<String>>,
    /// How warm the part was as it was read; left out, 20 degC.
    at: Option<At<Celsius>>,
    /// How warm the gauge was; left out, anything between 20 degC and the part.
    gauge_at: Option<At<Celsius>>,
    /// The value of another operation that it is taken from.
    of: Option<At<Address>>,
}

/// What is said of a size whose doubt is as large as half of it.
const UNREAD: &str = "a doubt of half the size and more is no measurement: measure it again";

/// Whether a size was read at all, by its doubt.
///
/// # Errors
/// What is said of it, where it was not.
pub(crate) fn is_read(size: f64, doubt: f64) -> Result<(), &'static str> {
    let is_unread = doubt > 0.0 && doubt >= size.abs() * limit::<Ratio>("doubt-share-unread");
    if is_unread { Err(UNREAD) } else { Ok(()) }
}

impl<'de> Deserialize<'de> for Reading {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let reading = reading_of(from)?;
        if let Reading::Size { size, .. } = &reading {
            let doubt = size.plus_minus.unwrap_or_default();
            is_read(size.value.number(), doubt).map_err(de::Error::custom)?;
        }
        Ok(reading)
    }
}

/// A size with what read it, in one text: how the two are written beside each other.
fn read_with(text: &str) -> Option<Misread> {
    let (size, with) = text.split_once(" with ").or_else(|| text.split_once(" by "))?;
    let (size, with) = (size.trim(), with.trim());
    // `25 by 30 mm` are two sizes.
    let is_size = size.parse::<Measured<Mm>>().is_ok() && with.starts_with(char::is_alphabetic);
    is_size.then(|| Misread::With { text: text.into(), size: size.into(), with: with.into() })
}

fn reading_of<'de, D: Deserializer<'de>>(from: D) -> Result<Reading, D::Error> {
    struct Either;
    impl<'de> de::Visitor<'de> for Either {
        type Value = Reading;
        fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
            f.write_str("a reading such as `18.0 ± 0.3 mm`, `{size: 18.0 mm, with: depth gauge}` or `{of: part/operation/value}`")
        }
        fn visit_str<E: de::Error>(self, text: &str) -> Result<Reading, E> {
            let size: Measured<Mm> = text.parse().map_err(|misread| E::custom(read_with(text).unwrap_or(misread)))?;
            doubted(size).map(|size| Reading::Size { size, with: None, warmth: None })
        }
        fn visit_f64<E: de::Error>(self, number: f64) -> Result<Reading, E> {
            Err(E::custom(Misread::bare::<Mm>(number.to_string())))
        }
        fn visit_i64<E: de::Error>(self, number: i64) -> Result<Reading, E> {
            self.visit_f64(number as f64)
        }
        fn visit_map<A: de::MapAccess<'de>>(self, entries: A) -> Result<Reading, A::Error> {
            match Named::deserialize(MapAccessDeserializer::new(entries))? {
                Named { gauge_at: Some(_), at: None, .. } => Err(de::Error::custom(
                    "`gauge-at` is how warm the gauge was: give `at`, how warm the part was, with it",
                )),
                Named { size: Some(size), with, at, gauge_at, of: None } => {
                    let warmth = at.map(|at| Warm { at, gauge_at });
                    doubted(size).map(|size| Reading::Size { size, with, warmth })
                }
                Named { size: None, with: None, at: None, of: Some(address), .. } if address.value.value.is_some() => {
                    Ok(Reading::Of(address))
                }
                _ => Err(de::Error::custom("give `size` (and `with`), or `of` with part/operation/value")),
            }
        }
    }
    from.deserialize_any(Either)
}

/// No reading is without doubt, except 0 itself.
fn doubted<E: de::Error>(size: Measured<Mm>) -> Result<Measured<Mm>, E> {
    let zero = size.value.number() == 0.0;
    match size.plus_minus {
        Some(0.0) if !zero => Err(E::custom("no reading is without doubt: leave ± out to take the instrument's")),
        _ => Ok(size),
    }
}

impl JsonSchema for Reading {
    fn schema_name() -> Cow<'static, str> {
        "Reading".into()
    }
    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        let named = generator.subschema_for::<Named>();
        schemars::json_schema!({
            "description": "a measured size: `18.0 ± 0.3 mm`, with its instrument, or the value of another operation: `{of: PART/OPERATION/NAME}`",
            "anyOf": [{ "type": "string" }, named],
            "examples": ["18.0 ± 0.3 mm"],
            "x-asks": "measured",
            "x-unit": "mm",
            "x-least": Mm::LEAST,
        })
    }
}
