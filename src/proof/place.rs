//! Where a value was written.

use schemars::{JsonSchema, Schema, SchemaGenerator};
use serde::{Deserialize, Deserializer, de};
use std::borrow::Cow;
use std::fmt;
use std::marker::PhantomData;
use std::ops::Deref;

/// Where a value was written: which source (file or argument), line, column and length. Lines and columns count from one,
/// columns in characters.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Deserialize)]
pub struct Place {
    /// Which of the texts of this run.
    pub source: u32,
    /// Line, from one.
    pub line: u32,
    /// Column, from one.
    pub column: u32,
    /// Length in characters.
    pub length: u32,
}

impl Place {
    /// The first place of a text.
    pub const fn start(source: u32) -> Self {
        Self { source, line: 1, column: 1, length: 1 }
    }

    /// The same place when the text itself begins at `start`.
    pub fn after(self, start: Self) -> Self {
        let column = if self.line == 1 { start.column + self.column.max(1) - 1 } else { self.column };
        Self { source: start.source, line: start.line + self.line.max(1) - 1, column, length: self.length }
    }
}

/// A value that remembers its place. Any reader that answers to [`At::MARK`] with a map from the place to the value can fill it; the
/// schema does not see it.
#[derive(Clone, Debug, PartialEq)]
pub struct At<T> {
    /// The value.
    pub value: T,
    /// Where it was written.
    pub place: Place,
}

impl At<()> {
    /// The name by which a reader knows that a place is asked for.
    pub(crate) const MARK: &'static str = "value at its place";
}

impl<T> Deref for At<T> {
    type Target = T;
    fn deref(&self) -> &T {
        &self.value
    }
}

impl<'de, T: Deserialize<'de>> Deserialize<'de> for At<T> {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        struct Both<T>(PhantomData<T>);
        impl<'de, T: Deserialize<'de>> de::Visitor<'de> for Both<T> {
            type Value = At<T>;
            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str(At::MARK)
            }
            fn visit_map<A: de::MapAccess<'de>>(self, mut both: A) -> Result<At<T>, A::Error> {
                let Some(place) = both.next_key()? else { return Err(de::Error::invalid_length(0, &self)) };
                Ok(At { value: both.next_value()?, place })
            }
        }
        from.deserialize_tuple_struct(At::MARK, 2, Both(PhantomData))
    }
}

/// As if the place were not there.
impl<T: JsonSchema> JsonSchema for At<T> {
    fn inline_schema() -> bool {
        T::inline_schema()
    }
    fn schema_name() -> Cow<'static, str> {
        T::schema_name()
    }
    fn schema_id() -> Cow<'static, str> {
        T::schema_id()
    }
    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        T::json_schema(generator)
    }
}
