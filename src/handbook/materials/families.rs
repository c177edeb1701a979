//! Names that are a family of materials and no alloy: what holds for them must hold for every member.

use crate::handbook::table::rows;
use serde::Deserialize;
use std::sync::LazyLock;

/// A family of materials.
#[derive(Debug, Deserialize)]
pub struct Family {
    /// Its name.
    pub family: String,
    names: String,
    members: String,
    /// What is to be known of it.
    pub note: String,
}

const FAMILIES: &str = include_str!("../../../shared/families.csv");

/// Every family.
pub fn all() -> &'static [Family] {
    static ROWS: LazyLock<Vec<Family>> = LazyLock::new(|| rows(FAMILIES));
    &ROWS
}

impl Family {
    /// Its name and its other spellings.
    pub fn names(&self) -> impl Iterator<Item = &str> {
        std::iter::once(self.family.as_str())
            .chain(self.names.split(',').map(str::trim))
            .filter(|name| !name.is_empty())
    }

    /// Ids of its members, the weakest first.
    pub fn members(&self) -> impl Iterator<Item = &str> {
        self.members.split(';').map(str::trim)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::handbook::Material;

    #[test]
    fn every_row_loads_and_every_member_is_a_material_with_the_weakest_first() {
        let (count, good, first) = crate::handbook::table::audit::<Family>(FAMILIES);
        assert_eq!(count, good, "{first}");
        for family in all() {
            let members: Vec<Material> = family.members().map(|id| id.parse().unwrap()).collect();
            assert!(members.len() > 1, "{}", family.family);
            assert!(
                members.iter().zip(family.members()).all(|(member, id)| member.id() == id && member.family().is_none())
            );
            let weakest = |m: &Material| m.row().tensile_low_mpa.unwrap_or(f64::INFINITY);
            let first = weakest(&members[0]);
            assert!(members.iter().all(|m| weakest(m) >= first), "{}", family.family);
        }
    }
}
