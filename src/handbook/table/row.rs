//! A row read out of the cells of a line, each under the head of its column.

use serde::de::value::{Error, MapDeserializer};
use serde::de::{Deserialize, Deserializer, IntoDeserializer, Visitor};
use serde::forward_to_deserialize_any;
use std::str::FromStr;

/// Reads a row. What stands in it is the table's own text, and need not be copied.
///
/// # Errors
/// A column that lacks, or a cell that is not what its column asks for, in words.
pub(super) fn read<R: Deserialize<'static>>(heads: &[&'static str], cells: &[&'static str]) -> Result<R, Error> {
    if heads.len() != cells.len() {
        return Err(serde::de::Error::invalid_length(cells.len(), &"a cell for each column"));
    }
    let columns = heads.iter().copied().map(Head).zip(cells.iter().copied().map(Cell));
    R::deserialize(MapDeserializer::new(columns))
}

/// The head of a column.
struct Head(&'static str);

/// A cell: text, a number, nothing where it is empty and may be.
struct Cell(&'static str);

impl IntoDeserializer<'static, Error> for Head {
    type Deserializer = Cell;

    fn into_deserializer(self) -> Cell {
        Cell(self.0)
    }
}

impl IntoDeserializer<'static, Error> for Cell {
    type Deserializer = Self;

    fn into_deserializer(self) -> Self {
        self
    }
}

impl Cell {
    fn parsed<T: FromStr>(&self) -> Result<T, Error>
    where
        T::Err: std::fmt::Display,
    {
        self.0.parse().map_err(|fault| serde::de::Error::custom(format_args!("`{}`: {fault}", self.0)))
    }
}

/// What is read as `FromStr` reads it.
macro_rules! parsed {
    ($($deserialize:ident $visit:ident),+ $(,)?) => {$(
        fn $deserialize<V: Visitor<'static>>(self, visitor: V) -> Result<V::Value, Error> {
            visitor.$visit(self.parsed()?)
        }
    )+};
}

impl Deserializer<'static> for Cell {
    type Error = Error;

    fn deserialize_any<V: Visitor<'static>>(self, visitor: V) -> Result<V::Value, Error> {
        visitor.visit_borrowed_str(self.0)
    }

    fn deserialize_option<V: Visitor<'static>>(self, visitor: V) -> Result<V::Value, Error> {
        if self.0.is_empty() { visitor.visit_none() } else { visitor.visit_some(self) }
    }

    fn deserialize_enum<V: Visitor<'static>>(
        self,
        _: &'static str,
        _: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Error> {
        visitor.visit_enum(self.0.into_deserializer())
    }

    fn deserialize_newtype_struct<V: Visitor<'static>>(self, _: &'static str, visitor: V) -> Result<V::Value, Error> {
        visitor.visit_newtype_struct(self)
    }

    parsed! {
        deserialize_bool visit_bool, deserialize_u8 visit_u8, deserialize_u16 visit_u16, deserialize_u32 visit_u32,
        deserialize_u64 visit_u64, deserialize_i32 visit_i32, deserialize_i64 visit_i64, deserialize_f64 visit_f64,
    }

    forward_to_deserialize_any! {
        <V: Visitor<'static>>
        i8 i16 i128 u128 f32 char str string bytes byte_buf unit unit_struct seq tuple tuple_struct map struct identifier
        ignored_any
    }
}
