//! `book instrument "outside micrometer"`: what a kind of instrument is usually worth, range by range.

use super::{Question, Reply, Row, wording};
use crate::handbook::measuring::instruments;
use crate::operations::Name;
use crate::proof::At;
use crate::quantity::{Mm, Quantity};
use crate::reading::{Problem, near};
use crate::shop::Shop;
use schemars::JsonSchema;
use serde::{Deserialize, Deserializer};

/// What a kind of instrument is usually worth.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct InstrumentAsked {
    /// The kind.
    instrument: At<Kind>,
    /// A size that is measured with it.
    size: Option<At<Mm>>,
}

/// A kind of instrument of the book.
#[derive(Clone, Debug)]
struct Kind(&'static str);

impl<'de> Deserialize<'de> for Kind {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let text = String::deserialize(from)?;
        let mut kinds: Vec<&'static str> = instruments::table().iter().map(|row| row.instrument.as_str()).collect();
        kinds.dedup();
        let found = kinds.iter().find(|kind| kind.eq_ignore_ascii_case(text.trim()));
        let says = || format!("the book has no instrument `{text}`; {}", near(&text, kinds.iter().copied()));
        found.map(|kind| Self(kind)).ok_or_else(|| serde::de::Error::custom(says()))
    }
}

const UNCERTAINTY: Name<Mm> = Name::new("expanded_uncertainty", "usual expanded uncertainty (k = 2) at that size");

impl Question for InstrumentAsked {
    const PLAIN: Option<&'static str> = Some("instrument");

    fn names() -> Vec<(String, String)> {
        let mut kinds: Vec<&str> = instruments::table().iter().map(|row| row.instrument.as_str()).collect();
        kinds.dedup();
        kinds.into_iter().map(|kind| (kind.to_owned(), String::new())).collect()
    }

    fn reply(&self, shop: Option<&Shop>) -> Result<Reply, Vec<Problem>> {
        let kind = self.instrument.value.0;
        let mut reply = Reply::new(wording::instrument_title(kind));
        if let Some(size) = &self.size {
            reply.put_or_say(&UNCERTAINTY, instruments::usual_uncertainty(kind, size.value.number()));
        }
        for row in instruments::table().iter().filter(|row| row.instrument == kind) {
            let um = row.uncertainty().number() * 1000.0;
            let what = wording::range(row.from_mm, row.to_mm);
            reply.rows.push(Row::figure(wording::UNCERTAINTY, what, (um, um, "um"), &row.note, row.source()));
        }
        let of_shop = shop.iter().flat_map(|shop| &shop.instruments);
        for instrument in of_shop.filter(|i| i.kind.value.eq_ignore_ascii_case(kind)) {
            reply.note(wording::of_the_shop(&instrument.name.value, instrument.uncertainty.value.number()));
        }
        reply.note(wording::SHOP_FIRST);
        Ok(reply)
    }
}

impl JsonSchema for Kind {
    fn inline_schema() -> bool {
        true
    }
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "Kind".into()
    }
    fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
        schemars::json_schema!({ "type": "string", "description": "a kind of instrument", "examples": ["outside micrometer"] })
    }
}
