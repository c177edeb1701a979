//! Materials: what each is, how strong, how stiff, what it does to a person.

use crate::handbook::table::{cited, rows, seen, seen_or_none};
use crate::proof::{Mark, Refusal, Source, Worked};
use crate::quantity::{Expansion, Quantity, Ratio, Stress, figure};
use crate::reading::near;
use serde::{Deserialize, Deserializer};
use std::sync::LazyLock;

/// The kinds of material that rules speak of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Kind {
    /// Carbon and low-alloy steel.
    Steel,
    /// Stainless steel.
    Stainless,
    /// Flake-graphite iron.
    GreyIron,
    /// Spheroidal-graphite iron.
    DuctileIron,
    /// Aluminium alloy.
    Aluminium,
    /// Magnesium alloy.
    Magnesium,
    /// Bronze, brass, copper.
    CopperAlloy,
    /// Sintered bronze.
    Sintered,
    /// Titanium.
    Titanium,
    /// Hardened steel.
    HardSteel,
    /// Plastic.
    Plastic,
    /// Cork or friction lining.
    Lining,
}

impl Kind {
    /// As tables spell it.
    pub const fn text(self) -> &'static str {
        match self {
            Self::Steel => "steel",
            Self::Stainless => "stainless",
            Self::GreyIron => "grey-iron",
            Self::DuctileIron => "ductile-iron",
            Self::Aluminium => "aluminium",
            Self::Magnesium => "magnesium",
            Self::CopperAlloy => "copper-alloy",
            Self::Sintered => "sintered",
            Self::Titanium => "titanium",
            Self::HardSteel => "hard-steel",
            Self::Plastic => "plastic",
            Self::Lining => "lining",
        }
    }
}

/// A row of the table of materials.
#[derive(Debug, Deserialize)]
pub struct Row {
    /// Its id.
    pub material: String,
    /// Its name.
    pub name: String,
    /// ISO 513 letter.
    pub iso513: String,
    /// VDI 3323 group.
    pub vdi3323: String,
    /// Designations that belong to it.
    pub members: String,
    /// Hardness, low end.
    pub hardness_low: Option<f64>,
    /// Hardness, high end.
    pub hardness_high: Option<f64>,
    /// Hardness scale.
    pub hardness_unit: String,
    /// Tensile strength, low end, MPa.
    pub tensile_low_mpa: Option<f64>,
    /// Tensile strength, high end, MPa.
    pub tensile_high_mpa: Option<f64>,
    /// Modulus, GPa.
    pub e_gpa: Option<f64>,
    /// Poisson's ratio.
    pub nu: Option<f64>,
    /// Thermal expansion, 10⁻⁶/K.
    pub alpha_um_per_m_k: Option<f64>,
    /// Yield or proof stress, low end, MPa.
    pub yield_low_mpa: Option<f64>,
    /// Yield or proof stress, high end, MPa.
    pub yield_high_mpa: Option<f64>,
    /// Density, g/cm³.
    pub density_g_cm3: Option<f64>,
    /// Shear over tensile strength.
    pub shear_over_tensile: Option<f64>,
    /// Source keys of the shear ratio.
    pub shear_source: String,
    /// How well those are known.
    #[serde(deserialize_with = "seen_or_none")]
    pub shear_seen: Option<Mark>,
    /// Source keys.
    pub source: String,
    /// How well they are known.
    #[serde(deserialize_with = "seen")]
    pub seen: Mark,
    /// Source keys of the physical figures.
    pub physical_source: String,
    /// How well those are known.
    #[serde(deserialize_with = "seen_or_none")]
    pub physical_seen: Option<Mark>,
    /// Its kind.
    pub kind: Kind,
    /// Ids of cautions.
    pub safety: String,
    /// A remark.
    pub note: String,
}

/// Another name of a material.
#[derive(Debug, Deserialize)]
pub struct Alias {
    /// The name.
    pub alias: String,
    material: String,
    source: String,
    #[serde(deserialize_with = "seen")]
    seen: Mark,
    /// A remark.
    pub note: String,
}

impl Alias {
    /// Where it comes from.
    pub fn source(&self) -> Source {
        cited(&self.source, self.seen)
    }
}

fn table() -> &'static [Row] {
    static ROWS: LazyLock<Vec<Row>> = LazyLock::new(|| rows(include_str!("../../../shared/materials.csv")));
    &ROWS
}

fn aliases() -> &'static [Alias] {
    static ROWS: LazyLock<Vec<Alias>> = LazyLock::new(|| rows(include_str!("../../../shared/material-aliases.csv")));
    &ROWS
}

/// A material: a handle that was looked up when it was read, with the name that was typed.
#[derive(Clone, Debug)]
pub struct Material {
    row: &'static Row,
    typed: String,
}

impl PartialEq for Material {
    fn eq(&self, other: &Self) -> bool {
        self.row.material == other.row.material
    }
}

impl Material {
    /// Every material of the book.
    pub fn all() -> impl Iterator<Item = Self> {
        table().iter().map(|row| Self { row, typed: row.name.clone() })
    }

    /// The row.
    pub fn row(&self) -> &'static Row {
        self.row
    }

    /// The name as it was typed.
    pub fn typed(&self) -> &str {
        &self.typed
    }

    /// Its id.
    pub fn id(&self) -> &'static str {
        &self.row.material
    }

    /// Its kind.
    pub fn kind(&self) -> Kind {
        self.row.kind
    }

    /// Its other names.
    pub fn aliases(&self) -> impl Iterator<Item = &'static Alias> {
        let id = self.id();
        aliases().iter().filter(move |alias| alias.material == id)
    }

    /// Ids of its cautions.
    pub fn safety(&self) -> impl Iterator<Item = &'static str> {
        self.row.safety.split(';').map(str::trim).filter(|id| !id.is_empty())
    }

    /// Tensile strength, the low end of what the group holds.
    ///
    /// # Errors
    /// [`Refusal::NoRow`] where the table has none.
    pub fn tensile_low(&self) -> Result<Worked<Stress>, Refusal> {
        let source = cited(&self.row.source, self.row.seen);
        self.figure("tensile strength, low end", self.row.tensile_low_mpa, "MPa", source)
    }

    /// Tensile strength, the high end of what the group holds.
    ///
    /// # Errors
    /// As [`Self::tensile_low`].
    pub fn tensile_high(&self) -> Result<Worked<Stress>, Refusal> {
        let source = cited(&self.row.source, self.row.seen);
        self.figure("tensile strength, high end", self.row.tensile_high_mpa, "MPa", source)
    }

    /// Modulus of elasticity.
    ///
    /// # Errors
    /// As [`Self::tensile_low`].
    pub fn modulus(&self) -> Result<Worked<Stress>, Refusal> {
        self.figure("modulus of elasticity", self.row.e_gpa.map(|e| e * 1000.0), "MPa", self.physical())
    }

    /// Poisson's ratio.
    ///
    /// # Errors
    /// As [`Self::tensile_low`].
    pub fn poisson(&self) -> Result<Worked<Ratio>, Refusal> {
        self.figure("Poisson's ratio", self.row.nu, "", self.physical())
    }

    /// Thermal expansion.
    ///
    /// # Errors
    /// As [`Self::tensile_low`].
    pub fn expansion(&self) -> Result<Worked<Expansion>, Refusal> {
        self.figure("thermal expansion", self.row.alpha_um_per_m_k, "1e-6/K", self.physical())
    }

    /// Yield or proof stress, low end.
    ///
    /// # Errors
    /// As [`Self::tensile_low`].
    pub fn yield_low(&self) -> Result<Worked<Stress>, Refusal> {
        self.figure("yield or proof stress, low end", self.row.yield_low_mpa, "MPa", self.physical())
    }

    /// Yield or proof stress, high end.
    ///
    /// # Errors
    /// As [`Self::tensile_low`].
    pub fn yield_high(&self) -> Result<Worked<Stress>, Refusal> {
        self.figure("yield or proof stress, high end", self.row.yield_high_mpa, "MPa", self.physical())
    }

    /// Density, g/cm³, and where it comes from.
    pub fn density(&self) -> Option<(f64, Source)> {
        Some((self.row.density_g_cm3?, self.physical()))
    }

    /// Hardness of the group, low and high with its scale, and where they come from.
    pub fn hardness_range(&self) -> Option<(f64, f64, &'static str, Source)> {
        let (low, high) = (self.row.hardness_low?, self.row.hardness_high?);
        Some((low, high, &self.row.hardness_unit, cited(&self.row.source, self.row.seen)))
    }

    /// Shear over tensile strength.
    ///
    /// # Errors
    /// As [`Self::tensile_low`].
    pub fn shear_over_tensile(&self) -> Result<Worked<Ratio>, Refusal> {
        crate::handbook::threads::thread_strength::shear_over_tensile(self).map(|(ratio, _)| ratio)
    }

    fn physical(&self) -> Source {
        cited(&self.row.physical_source, self.row.physical_seen.unwrap_or(Mark::FromMemory))
    }

    fn figure<Q: Quantity>(
        &self,
        what: &'static str,
        number: Option<f64>,
        unit: &str,
        source: Source,
    ) -> Result<Worked<Q>, Refusal> {
        let number = number.ok_or_else(|| Refusal::NoRow { table: what, wanted: self.row.name.clone() })?;
        let says = format!("{}: {what} {} {unit}", self.row.name, figure(number));
        Ok(Worked::row(Q::new(number), says.trim_end(), source))
    }
}

/// Names are compared without case, spaces and hyphens.
fn folded(name: &str) -> String {
    name.chars().filter(|c| c.is_alphanumeric()).flat_map(char::to_lowercase).collect()
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
        match by_alias().or_else(|| table().iter().find(named)) {
            Some(row) => Ok(Self { row, typed: text.trim().to_owned() }),
            None => {
                let names =
                    table().iter().map(|row| row.name.as_str()).chain(aliases().iter().map(|a| a.alias.as_str()));
                Err(format!("the book has no material `{text}`; {}", near(text, names)))
            }
        }
    }
}

impl<'de> Deserialize<'de> for Material {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        String::deserialize(from)?.parse().map_err(serde::de::Error::custom)
    }
}

impl schemars::JsonSchema for Material {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "Material".into()
    }
    fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
        schemars::json_schema!({ "type": "string", "description": "a material of the book, by name or designation", "examples": ["cast aluminium", "EN8", "phosphor bronze"] })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::handbook::table::audit;

    #[test]
    fn every_row_loads() {
        for (all, good, first) in [
            audit::<Row>(include_str!("../../../shared/materials.csv")),
            audit::<Alias>(include_str!("../../../shared/material-aliases.csv")),
        ] {
            assert_eq!(all, good, "{first}");
        }
        assert!(aliases().iter().all(|alias| table().iter().any(|row| row.material == alias.material)));
    }

    #[test]
    fn old_names_are_one_material() {
        let id = |name: &str| name.parse::<Material>().map(|m| m.id());
        assert_eq!(id("LM25"), id("cast aluminium"));
        assert_eq!(id("EN 8"), id("080M40"));
        assert!(id("unobtainium").is_err());
    }
}
