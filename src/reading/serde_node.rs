//! The tree as a serde deserializer: every type that a job or a shop is made of is read through here.

use super::harmless::without_harm;
use super::node::{Kind, Node};
use super::problem::Problem;
use crate::proof::{At, Place};
use serde::de::value::{BorrowedStrDeserializer, SeqDeserializer};
use serde::de::{self, Error, Unexpected, Visitor};
use serde::{Deserializer, forward_to_deserialize_any};
use std::slice::Iter;

/// An [`At`] as a map of one entry: the place is the key. Key and value have each a way of their own, so that no type is built for
/// being read out of a place.
struct Placed<'de> {
    node: &'de Node,
    told: bool,
}

impl<'de> de::MapAccess<'de> for Placed<'de> {
    type Error = Problem;

    fn next_key_seed<K: de::DeserializeSeed<'de>>(&mut self, seed: K) -> Result<Option<K::Value>, Problem> {
        if std::mem::replace(&mut self.told, true) {
            return Ok(None);
        }
        let Place { source, line, column, length } = self.node.place;
        seed.deserialize(SeqDeserializer::new([source, line, column, length].into_iter())).map(Some)
    }

    fn next_value_seed<V: de::DeserializeSeed<'de>>(&mut self, seed: V) -> Result<V::Value, Problem> {
        seed.deserialize(self.node).map_err(|problem| problem.at(self.node.place))
    }
}

/// A word that chooses, alone or with what is under it: one type for both, so that each choice is built once.
struct Chosen<'de> {
    word: &'de str,
    under: Option<&'de Node>,
}

impl<'de> de::EnumAccess<'de> for Chosen<'de> {
    type Error = Problem;
    type Variant = Self;

    fn variant_seed<V: de::DeserializeSeed<'de>>(self, seed: V) -> Result<(V::Value, Self), Problem> {
        Ok((seed.deserialize(BorrowedStrDeserializer::new(self.word))?, self))
    }
}

impl<'de> Chosen<'de> {
    fn under(&self, wanted: &'static str) -> Result<&'de Node, Problem> {
        self.under.ok_or_else(|| Problem::invalid_type(Unexpected::UnitVariant, &wanted))
    }
}

impl<'de> de::VariantAccess<'de> for Chosen<'de> {
    type Error = Problem;

    fn unit_variant(self) -> Result<(), Problem> {
        self.under.map_or(Ok(()), serde::Deserialize::deserialize)
    }

    fn newtype_variant_seed<T: de::DeserializeSeed<'de>>(self, seed: T) -> Result<T::Value, Problem> {
        seed.deserialize(self.under("newtype variant")?)
    }

    fn tuple_variant<V: Visitor<'de>>(self, length: usize, visitor: V) -> Result<V::Value, Problem> {
        self.under("tuple variant")?.deserialize_tuple(length, visitor)
    }

    fn struct_variant<V: Visitor<'de>>(self, _: &'static [&'static str], visitor: V) -> Result<V::Value, Problem> {
        self.under("struct variant")?.deserialize_map(visitor)
    }
}

/// What is in a list, without what is struck out.
struct Items<'de>(Iter<'de, Node>);

impl<'de> Items<'de> {
    fn next(&mut self) -> Option<&'de Node> {
        self.0.find(|item| !item.is_struck())
    }
}

impl<'de> de::SeqAccess<'de> for Items<'de> {
    type Error = Problem;

    fn next_element_seed<S: de::DeserializeSeed<'de>>(&mut self, seed: S) -> Result<Option<S::Value>, Problem> {
        match self.next() {
            Some(item) => seed.deserialize(item).map(Some),
            None => Ok(None),
        }
    }

    fn size_hint(&self) -> Option<usize> {
        Some(self.0.len())
    }
}

/// What is in a map, without what is struck out.
struct Entries<'de> {
    left: Iter<'de, (Node, Node)>,
    value: Option<&'de Node>,
}

impl<'de> Entries<'de> {
    fn of(entries: &'de [(Node, Node)]) -> Self {
        Self { left: entries.iter(), value: None }
    }

    fn next(&mut self) -> Option<&'de Node> {
        let (key, value) = self.left.find(|(key, _)| !key.is_struck())?;
        self.value = Some(value);
        Some(key)
    }
}

impl<'de> de::MapAccess<'de> for Entries<'de> {
    type Error = Problem;

    fn next_key_seed<S: de::DeserializeSeed<'de>>(&mut self, seed: S) -> Result<Option<S::Value>, Problem> {
        match self.next() {
            Some(key) => seed.deserialize(key).map(Some),
            None => Ok(None),
        }
    }

    fn next_value_seed<S: de::DeserializeSeed<'de>>(&mut self, seed: S) -> Result<S::Value, Problem> {
        match self.value.take() {
            Some(value) => seed.deserialize(value),
            None => Err(Problem::custom("a value is wanted here")),
        }
    }
}

/// The key that a text in the place of keys is the value of.
const IN: &str = "in";

/// A text in the place of keys: the value of the one key that says it all.
struct InAWord<'de>(Option<&'de Node>);

impl<'de> de::MapAccess<'de> for InAWord<'de> {
    type Error = Problem;

    fn next_key_seed<S: de::DeserializeSeed<'de>>(&mut self, seed: S) -> Result<Option<S::Value>, Problem> {
        self.0.map(|_| seed.deserialize(de::value::BorrowedStrDeserializer::new(IN))).transpose()
    }

    fn next_value_seed<S: de::DeserializeSeed<'de>>(&mut self, seed: S) -> Result<S::Value, Problem> {
        match self.0.take() {
            Some(value) => seed.deserialize(value),
            None => Err(Problem::custom("a value is wanted here")),
        }
    }
}

impl Node {
    /// What stands here, in serde's words.
    fn unexpected(&self) -> Unexpected<'_> {
        match &self.kind {
            Kind::Null | Kind::Struck => Unexpected::Unit,
            Kind::Truth(truth, _) => Unexpected::Bool(*truth),
            Kind::Number(n, _) => whole(*n).map_or(Unexpected::Float(*n), Unexpected::Signed),
            Kind::Text(text) => Unexpected::Str(text),
            Kind::List(_) => Unexpected::Seq,
            Kind::Map(_) => Unexpected::Map,
        }
    }

    /// Why this does not serve where something else is wanted.
    fn refused(&self, wanted: &dyn de::Expected) -> Problem {
        // One thing stands where a list of them does.
        if let Some((first, _)) = self.keys().next().filter(|_| Problem::is_list(wanted)) {
            let says = format!(
                "keys stand here; a list is wanted: each thing of it begins with a dash, as in `- {}: …`",
                without_harm(first)
            );
            return Problem::new(self.place, says);
        }
        Problem::invalid_type(self.unexpected(), wanted).at(self.place)
    }
}

/// A whole number as such.
fn whole(n: f64) -> Option<i64> {
    (n.fract() == 0.0 && n.abs() < 1e15).then_some(n as i64)
}

/// The word of a choice that is meant: its capitals, and blanks in the place of its hyphens, make no other word of it.
fn meant<'de>(word: &'de str, known: &'static [&'static str]) -> &'de str {
    if known.contains(&word) {
        return word;
    }
    let folded = word.trim().to_lowercase().replace([' ', '_'], "-");
    let mut alike = known.iter().filter(|own| own.to_lowercase() == folded);
    match (alike.next(), alike.next()) {
        (Some(own), None) => own,
        _ => word,
    }
}

// Each kind asks for what it can take and is refused anything else here: what a type never takes is not built for it.
impl<'de> Deserializer<'de> for &'de Node {
    type Error = Problem;

    fn deserialize_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Problem> {
        match &self.kind {
            Kind::Null | Kind::Struck => visitor.visit_unit(),
            Kind::Truth(truth, _) => visitor.visit_bool(*truth),
            Kind::Number(n, _) => match whole(*n) {
                Some(whole) => visitor.visit_i64(whole),
                None => visitor.visit_f64(*n),
            },
            Kind::Text(text) => visitor.visit_borrowed_str(text),
            Kind::List(items) => visitor.visit_seq(Items(items.iter())),
            Kind::Map(entries) => visitor.visit_map(Entries::of(entries)),
        }
        .map_err(|problem| problem.at(self.place))
    }

    fn deserialize_struct<V: Visitor<'de>>(
        self,
        _: &'static str,
        keys: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Problem> {
        match &self.kind {
            Kind::Map(_) => self.deserialize_map(visitor),
            // `hold: vice`: its first key says what it is held in, and is the only one that must be given.
            Kind::Text(_) if keys.first() == Some(&IN) => {
                visitor.visit_map(InAWord(Some(self))).map_err(|problem| problem.at(self.place))
            }
            _ => Err(Problem::keys_wanted(self.unexpected(), keys).at(self.place)),
        }
    }

    fn deserialize_map<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Problem> {
        match &self.kind {
            Kind::Map(entries) => visitor.visit_map(Entries::of(entries)).map_err(|problem| problem.at(self.place)),
            _ => Err(self.refused(&visitor)),
        }
    }

    fn deserialize_seq<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Problem> {
        match &self.kind {
            Kind::List(items) => visitor.visit_seq(Items(items.iter())).map_err(|problem| problem.at(self.place)),
            _ => Err(self.refused(&visitor)),
        }
    }

    /// So many and no more: what is beyond the last of a pair is refused, not passed over.
    fn deserialize_tuple<V: Visitor<'de>>(self, length: usize, visitor: V) -> Result<V::Value, Problem> {
        match &self.kind {
            Kind::List(items) if self.len() == length => {
                visitor.visit_seq(Items(items.iter())).map_err(|problem| problem.at(self.place))
            }
            Kind::List(_) => Err(Problem::invalid_length(self.len(), &visitor).at(self.place)),
            _ => Err(self.refused(&visitor)),
        }
    }

    /// A value that asks for its place has its own way in.
    fn deserialize_tuple_struct<V: Visitor<'de>>(
        self,
        name: &'static str,
        _: usize,
        visitor: V,
    ) -> Result<V::Value, Problem> {
        match name == At::MARK {
            true => visitor.visit_map(Placed { node: self, told: false }),
            // No key is of such a type.
            false => Err(self.refused(&visitor)),
        }
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
            Kind::Text(word) => visitor.visit_enum(Chosen { word: meant(word, known), under: None }),
            Kind::Map(one) if self.len() == 1 => match one.iter().find(|(word, _)| !word.is_struck()) {
                Some((Node { kind: Kind::Text(word), .. }, under)) => {
                    visitor.visit_enum(Chosen { word: meant(word, known), under: Some(under) })
                }
                _ => Err(self.refused(&visitor)),
            },
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
            Kind::Text(typed) | Kind::Truth(_, typed) | Kind::Number(_, typed) => {
                visitor.visit_borrowed_str(typed).map_err(|problem: Problem| problem.at(self.place))
            }
            _ => Err(self.refused(&visitor)),
        }
    }

    fn deserialize_string<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Problem> {
        self.deserialize_str(visitor)
    }

    /// A key is a name, whatever else YAML could take it for: `n` is no "no".
    fn deserialize_identifier<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Problem> {
        self.deserialize_str(visitor)
    }

    fn deserialize_ignored_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Problem> {
        visitor.visit_unit()
    }

    forward_to_deserialize_any! {
        bool i8 i16 i32 i64 u8 u16 u32 u64 f32 f64 char bytes byte_buf unit unit_struct
    }
}
