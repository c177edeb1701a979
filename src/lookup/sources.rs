//! `book sources [KEY]`: what the tables stand on, how many rows cite each, and how well it is known.

use super::{Question, Reply, Row, wording};
use crate::handbook::citations::{self, Citation};
use crate::handbook::{SourceEntry, sources};
use crate::operations::Name;
use crate::proof::{At, Mark, Source, Worked};
use crate::quantity::{Quantity, Ratio};
use crate::reading::{Problem, near};
use crate::shop::Shop;
use schemars::JsonSchema;
use serde::{Deserialize, Deserializer};

/// What the tables stand on.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct SourcesAsked {
    /// One source; left out, all.
    source: Option<At<Key>>,
}

/// The key of a source of the list.
#[derive(Clone, Debug)]
struct Key(&'static str);

impl<'de> Deserialize<'de> for Key {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let text = String::deserialize(from)?;
        let found = sources().iter().find(|entry| entry.key.eq_ignore_ascii_case(text.trim()));
        found.map(|entry| Self(entry.key)).ok_or_else(|| {
            let known = near(&text, sources().iter().map(|entry| entry.key));
            serde::de::Error::custom(format!("the book has no source `{text}`; {known}"))
        })
    }
}

const SOURCES: Name<Ratio> = Name::new("sources", "sources listed");
const CITED: Name<Ratio> = Name::new("sources_cited", "of them cited by a row of a table");
const ROWS: Name<Ratio> = Name::new("citations", "rows that cite a source, counted once for each source cited");

impl Question for SourcesAsked {
    const PLAIN: Option<&'static str> = Some("source");

    fn reply(&self, _: Option<&Shop>) -> Result<Reply, Vec<Problem>> {
        let mut reply = Reply::new(wording::SOURCES_TITLE);
        let all = citations::all();
        let counted = |number: usize| {
            let lines = vec![wording::COUNTED.to_owned()];
            Worked::method(Ratio::new(number as f64), lines, Source::fixed(wording::COUNTED, Mark::Derived))
        };
        if self.source.is_none() {
            reply.put(&SOURCES, &counted(all.len()));
            reply.put(&CITED, &counted(all.iter().filter(|(_, citation)| citation.rows() > 0).count()));
            reply.put(&ROWS, &counted(all.iter().map(|(_, citation)| citation.rows()).sum()));
        }
        let asked = |entry: &SourceEntry| self.source.as_ref().is_none_or(|key| key.value.0 == entry.key);
        for (entry, citation) in all.iter().filter(|(entry, _)| asked(entry)) {
            reply.rows.push(row(entry, citation));
        }
        reply.note(wording::MARKS);
        Ok(reply)
    }
}

fn row(entry: &'static SourceEntry, citation: &Citation) -> Row {
    let marks: Vec<String> = citation.marks.iter().map(|(mark, rows)| format!("{} {rows}", mark.text())).collect();
    let tables: Vec<String> = citation.tables.iter().map(|(table, rows)| format!("{table} {rows}")).collect();
    let rows = citation.rows() as f64;
    let best = citation.marks.keys().next().copied().unwrap_or(Mark::FromMemory);
    let says = wording::cited(entry.kind, &marks, &tables);
    let source = Source { text: entry.title.into(), mark: best };
    Row::figure(wording::SOURCES, entry.key, (rows, rows, wording::ROWS), says, source)
}

impl JsonSchema for Key {
    fn inline_schema() -> bool {
        true
    }
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "Key".into()
    }
    fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
        schemars::json_schema!({ "type": "string", "description": "the key of a source" })
    }
}
