//! A value as the JSON tells it: its figure, unit and doubt, what it is, where it comes from and how it was worked.

use super::Value;
use schemars::{JsonSchema, Schema, SchemaGenerator};
use serde::{Serialize, Serializer};
use std::borrow::Cow;

/// A figure with its unit, doubt, source and working.
#[derive(Serialize, JsonSchema)]
struct Told<'a> {
    value: f64,
    unit: crate::quantity::Unit,
    #[serde(skip_serializing_if = "Option::is_none")]
    plus_minus: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    low: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    high: Option<f64>,
    means: &'a str,
    /// The entry of the log that it is, where it was left so.
    #[serde(skip_serializing_if = "Option::is_none")]
    log: Option<String>,
    source: String,
    working: Vec<String>,
    /// Whether it rests on a figure that was remembered and not read.
    from_memory: bool,
}

impl Serialize for Value {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let told = Told {
            value: self.number,
            unit: self.unit,
            plus_minus: (self.plus_minus > 0.0).then_some(self.plus_minus),
            low: self.band.map(|band| band.0),
            high: self.band.map(|band| band.1),
            means: self.means,
            log: self.origin.entry().map(|entry| format!("L{entry}")),
            source: self.origin.source(),
            working: self.origin.working(),
            from_memory: self.from_memory,
        };
        told.serialize(serializer)
    }
}

impl JsonSchema for Value {
    fn schema_name() -> Cow<'static, str> {
        "Value".into()
    }

    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        Told::json_schema(generator)
    }
}
