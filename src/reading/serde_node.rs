//! The tree as a serde deserializer: every type that a job or a shop is made of is read through here.

use super::node::{Kind, Node};
use super::problem::Problem;
use crate::proof::{At, Place};
use serde::de::value::{MapAccessDeserializer, MapDeserializer, SeqDeserializer};
use serde::de::{self, IntoDeserializer, Visitor};
use serde::{Deserializer, forward_to_deserialize_any};

/// The two fields of an [`At`]: the value itself, then where it stands.
struct Placed<'de> {
    node: &'de Node,
    told: u8,
}

impl<'de> de::SeqAccess<'de> for Placed<'de> {
    type Error = Problem;

    fn next_element_seed<S: de::DeserializeSeed<'de>>(&mut self, seed: S) -> Result<Option<S::Value>, Problem> {
        let Place { source, line, column, length } = self.node.place;
        self.told += 1;
        match self.told {
            1 => seed.deserialize(self.node).map_err(|problem| problem.at(self.node.place)).map(Some),
            2 => seed.deserialize(SeqDeserializer::new([source, line, column, length].into_iter())).map(Some),
            _ => Ok(None),
        }
    }
}

/// The entries that are not struck out.
fn left(entries: &[(Node, Node)]) -> impl Iterator<Item = (&Node, &Node)> {
    entries.iter().filter(|(key, _)| !key.is_struck()).map(|(key, value)| (key, value))
}

impl<'de> IntoDeserializer<'de, Problem> for &'de Node {
    type Deserializer = Self;
    fn into_deserializer(self) -> Self {
        self
    }
}

impl<'de> Deserializer<'de> for &'de Node {
    type Error = Problem;

    fn deserialize_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Problem> {
        match &self.kind {
            Kind::Null | Kind::Struck => visitor.visit_unit(),
            Kind::Truth(truth, _) => visitor.visit_bool(*truth),
            Kind::Number(n, _) if n.fract() == 0.0 && n.abs() < 1e15 => visitor.visit_i64(*n as i64),
            Kind::Number(n, _) => visitor.visit_f64(*n),
            Kind::Text(text) => visitor.visit_borrowed_str(text),
            Kind::List(items) => visitor.visit_seq(SeqDeserializer::new(items.iter().filter(|item| !item.is_struck()))),
            Kind::Map(entries) => visitor.visit_map(MapDeserializer::new(left(entries))),
        }
        .map_err(|problem: Problem| problem.at(self.place))
    }

    fn deserialize_struct<V: Visitor<'de>>(
        self,
        name: &'static str,
        _: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Problem> {
        if name != At::MARK {
            return self.deserialize_any(visitor);
        }
        visitor.visit_seq(Placed { node: self, told: 0 })
    }

    fn deserialize_option<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Problem> {
        visitor.visit_some(self)
    }

    fn deserialize_newtype_struct<V: Visitor<'de>>(self, _: &'static str, visitor: V) -> Result<V::Value, Problem> {
        visitor.visit_newtype_struct(self)
    }

    fn deserialize_enum<V: Visitor<'de>>(
        self,
        _: &'static str,
        known: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Problem> {
        match &self.kind {
            Kind::Text(word) => visitor.visit_enum(word.as_str().into_deserializer()),
            Kind::Map(one) if self.len() == 1 => {
                let entries = MapDeserializer::new(left(one));
                visitor.visit_enum(MapAccessDeserializer::new(entries))
            }
            _ => Err(Problem {
                missing: self.len() == 0,
                ..Problem::new(None, format!("one of these words is wanted here: {}", known.join(", ")))
            }),
        }
        .map_err(|problem: Problem| problem.at(self.place))
    }

    /// Where a text is wanted, what looks like a number or a truth is the text that was typed: a part may be called `23`.
    fn deserialize_str<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Problem> {
        match &self.kind {
            Kind::Truth(_, typed) | Kind::Number(_, typed) => {
                visitor.visit_borrowed_str(typed).map_err(|problem: Problem| problem.at(self.place))
            }
            _ => self.deserialize_any(visitor),
        }
    }

    fn deserialize_string<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Problem> {
        self.deserialize_str(visitor)
    }

    /// A key is a name, whatever else YAML could take it for: `n` is no "no".
    fn deserialize_identifier<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Problem> {
        match &self.kind {
            Kind::Truth(_, typed) => {
                visitor.visit_borrowed_str(typed).map_err(|problem: Problem| problem.at(self.place))
            }
            _ => self.deserialize_any(visitor),
        }
    }

    forward_to_deserialize_any! {
        bool i8 i16 i32 i64 u8 u16 u32 u64 f32 f64 char bytes byte_buf unit unit_struct seq tuple
        tuple_struct map ignored_any
    }
}
