//! Keys that hold a reading, or the one word that stands for none: no hole yet, no pilot, nothing behind.

use crate::job::Reading;
use crate::proof::At;
use crate::quantity::{Misread, Mm};
use schemars::{JsonSchema, Schema, SchemaGenerator};
use serde::de::value::{MapAccessDeserializer, StrDeserializer};
use serde::{Deserialize, Deserializer, de};
use std::fmt;

/// The hole that is there: a reading, or `none` for a new hole in sound metal.
#[derive(Clone, Debug, PartialEq)]
pub(in crate::operations) enum PresentHole {
    /// A new hole.
    None,
    /// The greatest diameter of what is there.
    Read(Reading),
}

/// What lies behind the wall: a reading of the gap, or `clear` where nothing behind it can be hurt.
#[derive(Clone, Debug, PartialEq)]
pub(in crate::operations) enum Beyond {
    /// Nothing that can be hurt.
    Clear,
    /// The gap.
    Read(Reading),
}

/// The pilot of a cutter: a reading of it, or `none`.
#[derive(Clone, Debug, PartialEq)]
pub(in crate::operations) enum Pilot {
    /// Nothing leads the cutter.
    None,
    /// Its diameter.
    Read(Reading),
}

/// A place for the reading of a key that may be a word.
pub(in crate::operations) fn read_at<T>(at: &At<T>, reading: Option<&Reading>) -> Option<At<Reading>> {
    reading.map(|reading| At { value: reading.clone(), place: at.place })
}

impl PresentHole {
    /// The reading, where it is one.
    pub(in crate::operations) fn reading(&self) -> Option<&Reading> {
        if let Self::Read(reading) = self { Some(reading) } else { None }
    }
}

impl Pilot {
    /// The reading, where it is one.
    pub(in crate::operations) fn reading(&self) -> Option<&Reading> {
        if let Self::Read(reading) = self { Some(reading) } else { None }
    }
}

impl Beyond {
    /// The reading, where it is one.
    pub(in crate::operations) fn reading(&self) -> Option<&Reading> {
        if let Self::Read(reading) = self { Some(reading) } else { None }
    }
}

/// A reading, or nothing where the one word stands in its place.
fn word_or_reading<'de, D: Deserializer<'de>>(from: D, word: &'static str) -> Result<Option<Reading>, D::Error> {
    struct Either(&'static str);
    impl<'de> de::Visitor<'de> for Either {
        type Value = Option<Reading>;
        fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
            write!(f, "`{}` or a reading such as `8.0 ± 0.05 mm`", self.0)
        }
        fn visit_str<E: de::Error>(self, text: &str) -> Result<Self::Value, E> {
            if text.trim() == self.0 {
                return Ok(None);
            }
            let read = Reading::deserialize(StrDeserializer::<E>::new(text));
            read.map(Some).map_err(|error| E::custom(format!("{error} (or `{}`)", self.0)))
        }
        fn visit_f64<E: de::Error>(self, number: f64) -> Result<Self::Value, E> {
            Err(E::custom(Misread::bare::<Mm>(number.to_string())))
        }
        fn visit_i64<E: de::Error>(self, number: i64) -> Result<Self::Value, E> {
            self.visit_f64(number as f64)
        }
        fn visit_map<A: de::MapAccess<'de>>(self, entries: A) -> Result<Self::Value, A::Error> {
            Reading::deserialize(MapAccessDeserializer::new(entries)).map(Some)
        }
    }
    from.deserialize_any(Either(word))
}

impl<'de> Deserialize<'de> for PresentHole {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        word_or_reading(from, "none").map(|read| read.map_or(Self::None, Self::Read))
    }
}

impl<'de> Deserialize<'de> for Pilot {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        word_or_reading(from, "none").map(|read| read.map_or(Self::None, Self::Read))
    }
}

impl<'de> Deserialize<'de> for Beyond {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        word_or_reading(from, "clear").map(|read| read.map_or(Self::Clear, Self::Read))
    }
}

fn word_or_reading_schema(generator: &mut SchemaGenerator, word: &str) -> Schema {
    let reading = Reading::json_schema(generator);
    schemars::json_schema!({ "anyOf": [{ "const": word }, reading] })
}

impl JsonSchema for PresentHole {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "PresentHole".into()
    }
    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        word_or_reading_schema(generator, "none")
    }
}

impl JsonSchema for Pilot {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "Pilot".into()
    }
    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        word_or_reading_schema(generator, "none")
    }
}

impl JsonSchema for Beyond {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "Beyond".into()
    }
    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        word_or_reading_schema(generator, "clear")
    }
}
