//! Reading the name of a material: a name, a designation, a family, in whatever spelling.

use super::families::{self, Family};
use super::groups::{Material, Row, aliases, table};
use crate::reading::near;
use serde::{Deserialize, Deserializer};

/// Names are compared without case, spaces and hyphens; American spelling is British.
fn folded(name: &str) -> String {
    let name: String = name.chars().filter(|c| c.is_alphanumeric()).flat_map(char::to_lowercase).collect();
    name.replace("aluminum", "aluminium").replace("gray", "grey")
}

impl std::str::FromStr for Material {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let wanted = folded(text);
        let named = |row: &&Row| {
            let members = row.members.split(',').any(|member| folded(member) == wanted);
            folded(&row.name) == wanted || folded(&row.material) == wanted || members
        };
        let alias = || aliases().iter().find(|alias| folded(&alias.alias) == wanted);
        let by_alias = || alias().and_then(|alias| table().iter().find(|row| row.material == alias.material));
        let typed = text.trim().to_owned();
        let family = families::all().iter().find(|family| family.names().any(|name| folded(name) == wanted));
        let weakest =
            |family: &'static Family| table().iter().find(|row| Some(row.material.as_str()) == family.members().next());
        if let Some(row) = family.and_then(weakest) {
            return Ok(Self::named(row, typed, family));
        }
        match by_alias().or_else(|| table().iter().find(named)) {
            Some(row) => Ok(Self::named(row, typed, None)),
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
        from.deserialize_any(Name)
    }
}

/// Reads a name; many are a bare number (`4140`, `303`, `1.4305`).
struct Name;

impl serde::de::Visitor<'_> for Name {
    type Value = Material;

    fn expecting(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("a material by name or designation, such as `EN8`")
    }

    fn visit_str<E: serde::de::Error>(self, text: &str) -> Result<Material, E> {
        text.parse().map_err(E::custom)
    }

    fn visit_i64<E: serde::de::Error>(self, number: i64) -> Result<Material, E> {
        self.visit_str(&number.to_string())
    }

    fn visit_f64<E: serde::de::Error>(self, number: f64) -> Result<Material, E> {
        self.visit_str(&number.to_string())
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
