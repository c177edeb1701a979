//! Materials: what each is, how strong, how stiff, what it does to a person.

pub use super::kind::Kind;

use super::families::Family;
use crate::handbook::constants::doubted;
use crate::handbook::table::{Groups, cited, rows, seen, seen_or_none};
use crate::proof::{Cause, Mark, Refusal, Source, Worked};
use crate::quantity::{Expansion, Quantity, Ratio, Stress, figure};
use serde::Deserialize;
use std::sync::{LazyLock, OnceLock};

/// The row of the steel that is hard in its case alone.
const CASE_HARDENED: &str = "case-hard-60";
/// The aluminium that is rolled or forged.
const WROUGHT: &str = "al-wrought";

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
    /// Doubt of remembered strengths that have no band, a share; blank: the usual tenth.
    pub doubt: String,
    /// Doubt of the remembered physical figures, a share.
    pub physical_doubt: String,
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
    /// Whether parts of it are mostly used hardened, where its figures are those of the metal as it is bought.
    pub used_hardened: Option<bool>,
    /// Ids of cautions.
    pub safety: String,
    /// A remark.
    pub note: String,
    /// Its figures as they are worked with, each made when it is first asked for.
    #[serde(skip)]
    figures: Figures,
}

/// The figures of a row, with their doubt and where they come from.
#[derive(Debug, Default)]
struct Figures {
    tensile_low: OnceLock<Worked<Stress>>,
    tensile_high: OnceLock<Worked<Stress>>,
    yield_low: OnceLock<Worked<Stress>>,
    yield_high: OnceLock<Worked<Stress>>,
    modulus: OnceLock<Worked<Stress>>,
    poisson: OnceLock<Worked<Ratio>>,
    expansion: OnceLock<Worked<Expansion>>,
}

/// What was made once, else made and kept; what cannot be made is not kept.
fn kept<T: Clone, E>(slot: &OnceLock<T>, make: impl FnOnce() -> Result<T, E>) -> Result<T, E> {
    match slot.get() {
        Some(made) => Ok(made.clone()),
        None => make().map(|made| slot.get_or_init(|| made).clone()),
    }
}

/// Another name of a material.
#[derive(Debug, Deserialize)]
pub struct Alias {
    /// The name.
    pub alias: String,
    pub(super) material: String,
    source: String,
    #[serde(deserialize_with = "seen")]
    seen: Mark,
    /// A remark.
    pub note: String,
}

impl Alias {
    /// Whether it is a name of the trade alone: the book has no figures of the metal.
    pub(super) fn is_without_figures(&self) -> bool {
        self.material == "none"
    }

    /// Where it comes from.
    pub fn source(&self) -> Source {
        cited(&self.source, self.seen)
    }
}

pub(super) fn table() -> &'static [Row] {
    static ROWS: LazyLock<Vec<Row>> = LazyLock::new(|| rows(include_str!("../../../shared/materials.csv")));
    &ROWS
}

/// The other names that are wanted, with what each means.
pub(super) fn aliases(wanted: impl Fn(&str) -> bool) -> impl Iterator<Item = &'static Alias> {
    static ROWS: LazyLock<Groups<Alias>> =
        LazyLock::new(|| Groups::of(include_str!("../../../shared/material-aliases.csv"), 1));
    ROWS.wanted(wanted)
}

/// A material: a handle that was looked up when it was read, with the name that was typed. A name that is a family stands for
/// its weakest member until a member is named ([`Material::members`]).
#[derive(Clone, Debug)]
pub struct Material {
    row: &'static Row,
    typed: String,
    family: Option<&'static Family>,
}

impl PartialEq for Material {
    fn eq(&self, other: &Self) -> bool {
        let family = |of: &Self| of.family.map(|family| &family.family);
        self.row.material == other.row.material && family(self) == family(other)
    }
}

impl Material {
    /// A row under the name that was typed.
    pub(super) fn named(row: &'static Row, typed: String, family: Option<&'static Family>) -> Self {
        Self { row, typed, family }
    }

    /// Every material of the book.
    pub fn all() -> impl Iterator<Item = Self> {
        table().iter().map(|row| Self { row, typed: row.name.clone(), family: None })
    }

    /// The family, where no alloy was named.
    pub fn family(&self) -> Option<&'static Family> {
        self.family
    }

    /// Every material that the name may mean, each under the name that was typed; of an alloy, itself.
    pub fn members(&self) -> Vec<Self> {
        let Some(family) = self.family else { return vec![self.clone()] };
        let row = |id| table().iter().find(|row| row.material == id);
        family.members().filter_map(row).map(|row| Self { row, ..self.clone() }).collect()
    }

    /// Of what a table says of each member, the worst by `order` (the greatest); of an alloy, what it says of that. Members that
    /// the table does not know say nothing.
    ///
    /// # Errors
    /// That of the first, where the table knows none.
    pub(crate) fn worst_of<Q: Quantity>(
        &self,
        says: impl Fn(&Self) -> Result<Worked<Q>, Refusal>,
        order: impl Fn(&Worked<Q>, &Worked<Q>) -> std::cmp::Ordering,
    ) -> Result<Worked<Q>, Refusal> {
        if self.family.is_none() {
            return says(self);
        }
        let members = self.members();
        let known = members.iter().filter_map(|member| says(member).ok()).max_by(order);
        known.map_or_else(|| says(self), Ok)
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

    /// Whether parts of it come out of a mould, and may be hollow.
    pub(crate) fn is_cast(&self) -> bool {
        match self.kind() {
            Kind::GreyIron | Kind::DuctileIron | Kind::Magnesium => true,
            Kind::Aluminium => self.row.material != WROUGHT,
            _ => false,
        }
    }

    /// Whether the two weld where they rub: metals of one kind that gall.
    pub(crate) fn galls_with(&self, other: &Self) -> bool {
        self.kind() == other.kind() && self.kind().galls()
    }

    /// Whether one may turn in the other, oiled.
    pub(crate) fn runs_in(&self, other: &Self) -> bool {
        self.kind().runs_in(other.kind())
    }

    /// Whether it is a steel of which only a case is hard.
    pub fn has_case(&self) -> bool {
        self.row.material == CASE_HARDENED
    }

    /// Its other names.
    pub fn aliases(&self) -> impl Iterator<Item = &'static Alias> {
        let id = self.id();
        aliases(|_| true).filter(move |alias| alias.material == id)
    }

    /// Ids of its cautions.
    pub fn safety(&self) -> impl Iterator<Item = &'static str> {
        self.row.safety.split(';').map(str::trim).filter(|id| !id.is_empty())
    }

    /// The same where no edge makes chips of it: what is done by hand, warm or cold.
    pub fn safety_without_chips(&self) -> impl Iterator<Item = &'static str> {
        self.safety().filter(|id| *id != "hard-turning")
    }

    /// Tensile strength, the low end of what the group holds.
    ///
    /// # Errors
    /// [`Refusal::NoRow`] where the table has none.
    pub(crate) fn tensile_low(&self) -> Result<Worked<Stress>, Refusal> {
        kept(&self.row.figures.tensile_low, || {
            self.strength("tensile strength, low end", self.row.tensile_low_mpa, self.tensile())
        })
    }

    /// Tensile strength, the high end of what the group holds.
    ///
    /// # Errors
    /// As [`Self::tensile_low`].
    pub(crate) fn tensile_high(&self) -> Result<Worked<Stress>, Refusal> {
        kept(&self.row.figures.tensile_high, || {
            self.strength("tensile strength, high end", self.row.tensile_high_mpa, self.tensile())
        })
    }

    /// Modulus of elasticity.
    ///
    /// # Errors
    /// As [`Self::tensile_low`].
    pub fn modulus(&self) -> Result<Worked<Stress>, Refusal> {
        kept(&self.row.figures.modulus, || self.property(MODULUS, self.row.e_gpa.map(|e| e * 1000.0), "MPa"))
    }

    /// Poisson's ratio.
    ///
    /// # Errors
    /// As [`Self::tensile_low`].
    pub fn poisson(&self) -> Result<Worked<Ratio>, Refusal> {
        kept(&self.row.figures.poisson, || self.property(POISSON, self.row.nu, ""))
    }

    /// Thermal expansion.
    ///
    /// # Errors
    /// As [`Self::tensile_low`].
    pub fn expansion(&self) -> Result<Worked<Expansion>, Refusal> {
        kept(&self.row.figures.expansion, || self.property(EXPANSION, self.row.alpha_um_per_m_k, "1e-6/K"))
    }

    /// Yield or proof stress, low end.
    ///
    /// # Errors
    /// As [`Self::tensile_low`].
    pub(crate) fn yield_low(&self) -> Result<Worked<Stress>, Refusal> {
        kept(&self.row.figures.yield_low, || {
            self.strength("yield or proof stress, low end", self.row.yield_low_mpa, self.yields())
        })
    }

    /// Yield or proof stress, high end.
    ///
    /// # Errors
    /// As [`Self::tensile_low`].
    pub(crate) fn yield_high(&self) -> Result<Worked<Stress>, Refusal> {
        kept(&self.row.figures.yield_high, || {
            self.strength("yield or proof stress, high end", self.row.yield_high_mpa, self.yields())
        })
    }

    /// Density, g/cm³, and where it comes from.
    pub fn density(&self) -> Option<(f64, Source)> {
        Some((self.row.density_g_cm3?, self.physical()))
    }

    /// Whether parts of it are mostly used hardened: nobody takes one for soft that he has not tried.
    pub fn is_used_hardened(&self) -> bool {
        self.row.used_hardened == Some(true)
    }

    /// Hardness of the group, low and high with its scale, and where they come from.
    pub fn hardness_range(&self) -> Option<(f64, f64, &'static str, Source)> {
        let (low, high) = (self.row.hardness_low?, self.row.hardness_high?);
        Some((low, high, &self.row.hardness_unit, cited(&self.row.source, self.row.seen)))
    }

    fn physical(&self) -> Source {
        cited(&self.row.physical_source, self.row.physical_seen.unwrap_or(Mark::FromMemory))
    }

    /// How well tensile and yield strength are known, whether a band says how far they may lie, and the cause of their doubt.
    fn tensile(&self) -> Strength {
        let row = self.row;
        Strength {
            source: &row.source,
            seen: row.seen,
            ends: (row.tensile_low_mpa, row.tensile_high_mpa),
            what: TENSILE,
        }
    }

    fn yields(&self) -> Strength {
        let row = self.row;
        let seen = row.physical_seen.unwrap_or(Mark::FromMemory);
        Strength { source: &row.physical_source, seen, ends: (row.yield_low_mpa, row.yield_high_mpa), what: YIELD }
    }

    /// An end of a strength. The band of a group says how far a remembered strength may lie; without one its doubt does.
    fn strength(&self, end: &'static str, number: Option<f64>, known: Strength) -> Result<Worked<Stress>, Refusal> {
        let found = self.figure(end, number, "MPa", cited(known.source, known.seen))?;
        let banded = matches!(known.ends, (Some(low), Some(high)) if low < high);
        if banded { Ok(found) } else { doubted(found, self.cause(known.what), known.seen, &self.row.doubt) }
    }

    /// A physical figure, with the doubt that its row states.
    fn property<Q: Quantity>(&self, what: &'static str, number: Option<f64>, unit: &str) -> Result<Worked<Q>, Refusal> {
        let seen = self.row.physical_seen.unwrap_or(Mark::FromMemory);
        let found = self.figure(what, number, unit, cited(&self.row.physical_source, seen))?;
        doubted(found, self.cause(what), seen, &self.row.physical_doubt)
    }

    /// The cause of doubt of one figure of this row: the same row read twice is one cause.
    fn cause(&self, what: &'static str) -> Cause {
        static CAUSES: LazyLock<Vec<(&'static str, &'static str, String)>> = LazyLock::new(|| {
            let named = |row: &'static Row| {
                let id = row.material.as_str();
                REMEMBERED.map(|what| (id, what, format!("{}: {what}", row.name)))
            };
            table().iter().flat_map(named).collect()
        });
        let id = self.id();
        let named = CAUSES.iter().find(|cause| cause.0 == id && cause.1 == what);
        Cause::Named(named.map_or(what, |cause| cause.2.as_str()))
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
        Ok(Worked::row(Q::new(number), says.trim_end().to_owned(), source))
    }
}

/// How a strength is known.
struct Strength {
    source: &'static str,
    seen: Mark,
    ends: (Option<f64>, Option<f64>),
    what: &'static str,
}

const TENSILE: &str = "tensile strength";
const YIELD: &str = "yield or proof stress";
const MODULUS: &str = "modulus of elasticity";
const POISSON: &str = "Poisson's ratio";
const EXPANSION: &str = "thermal expansion";

/// The figures of a row that may be remembered, each a cause of doubt of its own.
const REMEMBERED: [&str; 5] = [TENSILE, YIELD, MODULUS, POISSON, EXPANSION];

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
        let known = |alias: &Alias| table().iter().any(|row| row.material == alias.material);
        assert!(aliases(|_| true).all(|alias| known(alias) != alias.is_without_figures()));
        assert!(aliases(|_| true).filter(|alias| alias.is_without_figures()).all(|alias| !alias.note.is_empty()));
    }

    #[test]
    fn a_family_means_all_its_members_in_either_spelling() {
        let of = |name: &str| name.parse::<Material>().unwrap();
        for name in
            ["aluminium", "aluminum", "Aluminium alloy", "bronze", "stainless steel", "cast iron", "gray iron", "steel"]
        {
            assert!(of(name).family().is_some() && of(name).members().len() > 1, "{name}");
        }
        assert_eq!(of("aluminium").id(), "al-cast");
        assert!(of("cast aluminum").family().is_none() && of("cast aluminum").members().len() == 1);
        assert_ne!(of("aluminium"), of("cast aluminium"));
    }

    #[test]
    fn what_is_remembered_is_doubted_and_one_row_is_one_cause() {
        let of = |name: &str| name.parse::<Material>().unwrap();
        let bronze = of("aluminium bronze");
        let (e, again) = (bronze.modulus().unwrap(), bronze.modulus().unwrap());
        // The elastic constants and the expansion of a solid metal count no doubt of their own; plastics and porous metal do.
        assert!(e.plus_minus() == 0.0 && e.shares() == again.shares());
        let nylon = of("nylon");
        let (e, again) = (nylon.modulus().unwrap(), nylon.modulus().unwrap());
        assert!(e.plus_minus() > 0.0 && e.shares() == again.shares());
        assert_ne!(e.shares()[0].0, nylon.poisson().unwrap().shares()[0].0);
        assert_eq!(bronze.tensile_low().unwrap().plus_minus(), 0.0, "its band says it");
        for material in Material::all() {
            if material.row().physical_seen == Some(Mark::FromMemory) {
                let doubt = &material.row().physical_doubt;
                assert!(doubt == "0" || doubt.ends_with('%'), "{}: {doubt}", material.id());
            }
        }
    }

    #[test]
    fn old_names_are_one_material() {
        let id = |name: &str| name.parse::<Material>().map(|m| m.id());
        assert_eq!(id("LM25"), id("cast aluminium"));
        assert_eq!(id("EN 8"), id("080M40"));
        assert!(id("unobtainium").is_err());
    }
}
