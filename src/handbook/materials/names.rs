//! Reading the name of a material: a name, a designation, a family, in whatever spelling.

use super::families::{self, Family};
use super::groups::{Material, Row, aliases, table};
use crate::reading::near;
use serde::{Deserialize, Deserializer};
use std::collections::HashMap;
use std::sync::LazyLock;

/// Names are compared without case, spaces and hyphens; American spelling is British.
fn folded(name: &str) -> String {
    let name: String = name.chars().filter(|c| c.is_alphanumeric()).flat_map(char::to_lowercase).collect();
    let put = |name: String, (from, to)| if name.contains(from) { name.replace(from, to) } else { name };
    [("aluminum", "aluminium"), ("gray", "grey")].into_iter().fold(name, put)
}

/// What every name means: a family goes before an alias, an alias before a material's own names, and of two alike the first.
fn by_name() -> &'static HashMap<String, (&'static Row, Option<&'static Family>)> {
    static NAMES: LazyLock<HashMap<String, (&Row, Option<&Family>)>> = LazyLock::new(|| {
        let row = |id: Option<&str>| table().iter().find(|row| Some(row.material.as_str()) == id);
        let families = families::all().iter().filter_map(|family| Some((family, row(family.members().next())?)));
        let families = families.flat_map(|(family, row)| family.names().map(move |name| (name, (row, Some(family)))));
        let aliases =
            aliases().iter().filter_map(|alias| Some((alias.alias.as_str(), (row(Some(&alias.material))?, None))));
        let own = table().iter().flat_map(|row| {
            let names = row.members.split(',').chain([row.name.as_str(), row.material.as_str()]);
            names.map(move |name| (name, (row, None)))
        });
        let mut names = HashMap::new();
        for (name, meant) in families.chain(aliases).chain(own) {
            names.entry(folded(name)).or_insert(meant);
        }
        names
    });
    &NAMES
}

impl std::str::FromStr for Material {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        match by_name().get(&folded(text)) {
            Some(&(row, family)) => Ok(Self::named(row, text.trim().to_owned(), family)),
            None => {
                let families = families::all().iter().flat_map(Family::names);
                let aliases = aliases().iter().map(|a| a.alias.as_str());
                let names = table().iter().map(|row| row.name.as_str()).chain(aliases).chain(families);
                Err(format!("the book has no material `{text}`; {}", near(text, names)))
            }
        }
    }
}

impl<'de> Deserialize<'de> for Material {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        // Many names look like a number (`4140`, `303`, `1.4305`).
        String::deserialize(from)?.parse().map_err(serde::de::Error::custom)
    }
}

impl schemars::JsonSchema for Material {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "Material".into()
    }
    fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
        schemars::json_schema!({ "type": ["string", "number"], "description": "a material of the book, by name or designation", "examples": ["cast aluminium", "EN8", "phosphor bronze"] })
    }
}
