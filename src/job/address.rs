//! `part/operation/value`: how one operation names a size of another.

use serde::Deserialize;
use std::fmt;

/// The address of an operation (`part/face`, `part/face#2`) or, with its last word, of one of its values.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Address {
    /// The part's name.
    pub part: String,
    /// The operation's word, its word with `#n`, or its own name.
    pub operation: String,
    /// The value, where one is meant.
    pub value: Option<String>,
}

impl Address {
    /// The address of an operation.
    pub fn of(part: &str, operation: &str) -> Self {
        Self { part: part.into(), operation: operation.into(), value: None }
    }

    /// The address of one of its values.
    pub fn value(&self, value: &str) -> Self {
        Self { value: Some(value.into()), ..self.clone() }
    }

    /// The one of these operations that is meant where a part has slashes in its name: `a/b/face` may be `face` of `a/b`; else its own.
    pub fn among(&self, known: &[Self]) -> Self {
        let text = |address: &Self| address.to_string().replace('-', "_");
        known.iter().find(|known| text(known) == text(self)).cloned().unwrap_or_else(|| self.owner())
    }

    /// The operation that an address belongs to.
    pub fn owner(&self) -> Self {
        Self { value: None, ..self.clone() }
    }
}

impl fmt::Display for Address {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}/{}", self.part, self.operation)?;
        self.value.as_ref().map_or(Ok(()), |value| write!(f, "/{value}"))
    }
}

impl std::str::FromStr for Address {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let words: Vec<&str> = text.split('/').map(str::trim).collect();
        match words.as_slice() {
            [part, operation] if !part.is_empty() && !operation.is_empty() => Ok(Self::of(part, operation)),
            [part, operation, value] if words.iter().all(|w| !w.is_empty()) => {
                Ok(Self::of(part, operation).value(&value.replace('-', "_")))
            }
            // A part may have slashes in its name: what stands last is read first.
            [part @ .., operation, value] if part.len() > 1 && words.iter().all(|w| !w.is_empty()) => {
                Ok(Self::of(&part.join("/"), operation).value(&value.replace('-', "_")))
            }
            _ => Err(format!(
                "`{text}` is not an address such as `distance piece/face/length_after` (one with a blank in it stands in quotes on a command line)"
            )),
        }
    }
}

impl<'de> Deserialize<'de> for Address {
    fn deserialize<D: serde::Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        String::deserialize(from)?.parse().map_err(serde::de::Error::custom)
    }
}

impl schemars::JsonSchema for Address {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "Address".into()
    }
    fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
        schemars::json_schema!({ "type": "string", "description": "part/operation or part/operation/value" })
    }
}
