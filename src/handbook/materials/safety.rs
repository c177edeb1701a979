//! Cautions about a person's safety, by id.

use crate::handbook::table::{Groups, cited, seen};
use crate::proof::{Mark, Source};
use serde::Deserialize;
use std::sync::LazyLock;

/// A caution.
#[derive(Debug, Deserialize)]
pub struct Caution {
    /// Its words.
    pub caution: String,
    source: String,
    #[serde(deserialize_with = "seen")]
    seen: Mark,
}

const CAUTIONS: &str = include_str!("../../../shared/safety.csv");

/// The caution of an id.
pub fn caution(id: &str) -> Option<&'static Caution> {
    static ROWS: LazyLock<Groups<Caution>> = LazyLock::new(|| Groups::of(CAUTIONS, 1));
    ROWS.under(id).next()
}

impl Caution {
    /// Where it comes from.
    pub fn source(&self) -> Source {
        cited(&self.source, self.seen)
    }
}

#[cfg(test)]
mod tests {
    #[test]
    fn every_row_loads() {
        let (all, good, first) = crate::handbook::table::audit::<super::Caution>(super::CAUTIONS);
        assert_eq!(all, good, "{first}");
    }

    #[test]
    fn every_caution_of_a_material_stands_in_the_table() {
        for material in crate::handbook::Material::all() {
            for id in material.safety() {
                assert!(super::caution(id).is_some(), "{}: {id}", material.row().name);
            }
        }
    }
}
