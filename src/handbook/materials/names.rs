//! Reading the name of a material: a name, a designation, a family, in whatever spelling.

use super::families::{self, Family};
use super::groups::{Material, Row, aliases, table};
use crate::reading::near;
use serde::{Deserialize, Deserializer};
use std::collections::HashMap;
use std::sync::{LazyLock, PoisonError, RwLock};

/// Names are compared without case, spaces and hyphens; American spelling is British. More than a share is not less than it.
fn folded(name: &str) -> String {
    let kept = |c: &char| c.is_alphanumeric() || matches!(c, '<' | '>');
    let name: String = name.replace('≤', "<").replace('≥', ">");
    let name: String = name.chars().filter(kept).flat_map(char::to_lowercase).collect();
    let put = |name: String, (from, to)| if name.contains(from) { name.replace(from, to) } else { name };
    [("aluminum", "aluminium"), ("gray", "grey")].into_iter().fold(name, put)
}

/// What a name means.
type Meant = (&'static Row, Option<&'static Family>);

/// What a name means, looked up once for each spelling that a run meets: a job names one metal many times.
fn known(text: &str) -> Option<Meant> {
    static KNOWN: LazyLock<RwLock<HashMap<String, Meant>>> = LazyLock::new(RwLock::default);
    let known = KNOWN.read().unwrap_or_else(PoisonError::into_inner).get(text).copied();
    known.or_else(|| {
        let found = meant(text)?;
        KNOWN.write().unwrap_or_else(PoisonError::into_inner).insert(text.to_owned(), found);
        Some(found)
    })
}

/// A family goes before an alias, an alias before a material's own names, and of two alike the first.
fn meant(text: &str) -> Option<Meant> {
    let wanted = folded(text);
    // No spelling changes how a name begins: most names are another's at once.
    let is = |name: &str| begins(name).eq(begins(&wanted)) && folded(name) == wanted;
    let row = |id: &str| table().iter().find(|row| row.material == id);
    let mut families = families::all().iter().filter(|family| family.names().any(is));
    let family = families.find_map(|family| Some((row(family.members().next()?)?, Some(family))));
    let alias = || aliases(is).find_map(|alias| row(&alias.material)).map(|row| (row, None));
    let own = || {
        let names = |row: &Row| row.members.split(',').chain([row.name.as_str(), row.material.as_str()]).any(is);
        table().iter().find(|row| names(row)).map(|row| (row, None))
    };
    family.or_else(alias).or_else(own)
}

/// The first letter or digit of a name without case.
fn begins(name: &str) -> impl Iterator<Item = char> + '_ {
    name.chars().find(|c| c.is_alphanumeric()).into_iter().flat_map(char::to_lowercase)
}

impl std::str::FromStr for Material {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        match known(text) {
            Some((row, family)) => Ok(Self::named(row, text.trim().to_owned(), family)),
            None => {
                let families = families::all().iter().flat_map(Family::names);
                let wanted = folded(text);
                let is = |name: &str| begins(name).eq(begins(&wanted)) && folded(name) == wanted;
                if let Some(known) = aliases(is).find(|alias| alias.is_without_figures()) {
                    return Err(format!("the book knows `{text}` and has no figures of it: {}", known.note));
                }
                let aliases = aliases(|_| true).filter(|alias| !alias.is_without_figures()).map(|a| a.alias.as_str());
                let names = table().iter().map(|row| row.name.as_str()).chain(aliases).chain(families);
                // Another number is another metal: `A36` is not nearly `A356`.
                let digits = |name: &str| name.chars().filter(char::is_ascii_digit).collect::<String>();
                let own = digits(text);
                let names = names.filter(|name| own.is_empty() || digits(name) == own);
                let near = near(text, names);
                let is_near = own.is_empty() || near.starts_with("did you mean");
                let near = if is_near { near } else { "no name comes near it".to_owned() };
                let list = if near.starts_with("did you mean") { "" } else { "; `setover book materials` lists all" };
                Err(format!("the book has no material `{text}`; {near}{list}"))
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
