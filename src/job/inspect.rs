//! What was found on a part as it came, and how far it may be worn.

use super::Difference;
use crate::proof::{At, Keep};
use crate::quantity::{Date, Misread, Mm, Quantity, Wanted};
use schemars::{JsonSchema, Schema, SchemaGenerator};
use serde::de::{self, value::MapAccessDeserializer};
use serde::{Deserialize, Deserializer};
use std::borrow::Cow;
use std::fmt;

/// A feature of a part as it came: what was found, what it may be, and what is done with it where it is not.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Inspected {
    /// What was looked at: `bore`, `joint face`.
    pub feature: At<String>,
    /// What was found: a reading, several readings of which the worst counts, the value of an operation, or `not measured`.
    pub found: At<Found>,
    /// The day on which it was measured; left out, before everything that the log tells of its part.
    pub measured: Option<At<Date>>,
    /// How far it may be worn.
    pub service: At<Service>,
    /// What it is when new; left out, a wear limit that is told from new is not judged.
    pub new: Option<At<Wanted<Mm>>>,
    /// What is done with it where it is worn out, first choice first: words of operations, or `replace`; left out, what is usual
    /// for such a feature.
    #[serde(default)]
    pub remedies: Vec<At<String>>,
}

/// What was found.
#[derive(Clone, Debug, PartialEq)]
pub enum Found {
    /// Nobody measured it.
    NotMeasured,
    /// A reading, or the value of an operation.
    One(Difference),
    /// Several readings of one feature: the worst of them counts, never their mean.
    Several(Vec<At<Difference>>),
}

impl Found {
    /// What was read, each at its place.
    pub(crate) fn readings(at: &At<Self>) -> Vec<At<Difference>> {
        match &at.value {
            Self::NotMeasured => Vec::new(),
            Self::One(reading) => vec![At { value: reading.clone(), place: at.place }],
            Self::Several(readings) => readings.clone(),
        }
    }
}

/// How far a feature may be worn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Service {
    /// `at most X`.
    AtMost(Mm),
    /// `at least X`.
    AtLeast(Mm),
    /// From one size to another.
    Within(Mm, Mm),
}

impl Service {
    /// Its limits, each with the side on which the feature must stay.
    pub(crate) fn limits(self) -> Vec<(Keep, Mm)> {
        match self {
            Self::AtMost(most) => vec![(Keep::AtMost, most)],
            Self::AtLeast(least) => vec![(Keep::AtLeast, least)],
            Self::Within(low, high) => vec![(Keep::AtLeast, low), (Keep::AtMost, high)],
        }
    }

    /// Whether a size is inside.
    pub(crate) fn holds(self, size: Mm) -> bool {
        self.limits().iter().all(|(keep, limit)| match keep {
            Keep::AtLeast => size.number() >= limit.number(),
            Keep::AtMost => size.number() <= limit.number(),
        })
    }
}

impl std::str::FromStr for Service {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        const FORMS: &str = "say `at most 66.78 mm`, `at least 11.95 mm` or both limits, as in `0.03 to 0.08 mm`";
        let size = |text: &str| -> Result<Mm, String> {
            let wanted: Wanted<Mm> = text.trim().parse().map_err(|misread| format!("{misread}; {FORMS}"))?;
            if wanted.low == wanted.high { Ok(wanted.nominal) } else { Err(format!("one limit is one size: {FORMS}")) }
        };
        let text = text.trim();
        if let Some(rest) = text.strip_prefix("at most ") {
            return size(rest).map(Self::AtMost);
        }
        if let Some(rest) = text.strip_prefix("at least ") {
            return size(rest).map(Self::AtLeast);
        }
        let wanted: Wanted<Mm> = text.parse().map_err(|misread| format!("{misread}; {FORMS}"))?;
        if wanted.low.number() < wanted.high.number() {
            Ok(Self::Within(wanted.low, wanted.high))
        } else {
            Err(format!("nothing says on which side of `{text}` it must stay: {FORMS}"))
        }
    }
}

impl<'de> Deserialize<'de> for Service {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        String::deserialize(from)?.parse().map_err(de::Error::custom)
    }
}

impl JsonSchema for Service {
    fn inline_schema() -> bool {
        true
    }
    fn schema_name() -> Cow<'static, str> {
        "Service".into()
    }
    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        schemars::json_schema!({
            "type": "string",
            "description": "how far it may be worn: `at most 66.78 mm`, `at least 11.95 mm`, or both limits",
            "examples": ["at most 66.78 mm"],
            "x-asks": "wanted",
            "x-unit": "mm",
        })
    }
}

/// What is typed where nobody measured it.
const NOT_MEASURED: &str = "not measured";

impl<'de> Deserialize<'de> for Found {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        struct Any;
        impl<'de> de::Visitor<'de> for Any {
            type Value = Found;
            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str(
                    "a reading such as `66.815 ± 0.005 mm` or `{size: 66.815 mm, with: bore gauge}`, \
                     `{of: part/operation/value}`, or `not measured`",
                )
            }
            fn visit_str<E: de::Error>(self, text: &str) -> Result<Found, E> {
                if text.trim() == NOT_MEASURED {
                    return Ok(Found::NotMeasured);
                }
                let text = de::value::StrDeserializer::<E>::new(text);
                Difference::deserialize(text).and_then(doubted).map(Found::One)
            }
            fn visit_f64<E: de::Error>(self, number: f64) -> Result<Found, E> {
                Err(E::custom(Misread::bare::<Mm>(number.to_string())))
            }
            fn visit_i64<E: de::Error>(self, number: i64) -> Result<Found, E> {
                self.visit_f64(number as f64)
            }
            fn visit_map<A: de::MapAccess<'de>>(self, entries: A) -> Result<Found, A::Error> {
                Difference::deserialize(MapAccessDeserializer::new(entries)).and_then(doubted).map(Found::One)
            }
            fn visit_seq<A: de::SeqAccess<'de>>(self, mut items: A) -> Result<Found, A::Error> {
                let mut readings = Vec::new();
                while let Some(reading) = items.next_element::<At<Difference>>()? {
                    readings.push(At { value: doubted(reading.value)?, place: reading.place });
                }
                if readings.is_empty() {
                    Err(de::Error::custom("no reading stands here"))
                } else {
                    Ok(Found::Several(readings))
                }
            }
        }
        from.deserialize_any(Any)
    }
}

/// A nought found is a reading like any other: it says nothing without its doubt.
fn doubted<E: de::Error>(reading: Difference) -> Result<Difference, E> {
    match &*reading {
        super::Reading::Size { size, .. } if size.value.number() == 0.0 && size.plus_minus.is_none_or(|u| u <= 0.0) => {
            Err(E::custom("a nought that was found has its doubt: `0 ± 0.005 mm`"))
        }
        _ => Ok(reading),
    }
}

impl JsonSchema for Found {
    fn inline_schema() -> bool {
        true
    }
    fn schema_name() -> Cow<'static, str> {
        "Found".into()
    }
    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        let reading = generator.subschema_for::<Difference>();
        schemars::json_schema!({
            "description": "what was found: a reading, several of one feature, the value of an operation, or `not measured`",
            "anyOf": [reading, { "type": "array", "items": reading }],
            "examples": ["66.815 ± 0.005 mm"],
            "x-asks": "measured",
            "x-unit": "mm",
        })
    }
}
