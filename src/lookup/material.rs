//! `book material "phosphor bronze"`: strengths, physical figures, every cutting row with its source, coolants, cautions.

use super::{Question, Reply, Row, wording};
use crate::handbook::materials::families::{self, Family};
use crate::handbook::{
    Material,
    cutting::{coolants, speeds},
    materials::safety,
    threads::{tapping, thread_strength::shear_over_tensile},
};
use crate::operations::Name;
use crate::proof::{At, Refusal, Worked};
use crate::quantity::{Expansion, Quantity, Ratio, Stress};
use crate::reading::Problem;
use crate::shop::Shop;
use schemars::JsonSchema;
use serde::Deserialize;

/// Strengths, physical figures, cutting rows, coolants, cautions of a metal.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct MaterialAsked {
    /// The metal.
    material: At<Material>,
}

const TENSILE: Name<Stress> = Name::new("tensile_strength", "tensile strength, the low end counts");
const YIELD: Name<Stress> = Name::new("yield_stress", "yield or proof stress, the low end counts");
const MODULUS: Name<Stress> = Name::new("modulus", "modulus of elasticity");
const POISSON: Name<Ratio> = Name::new("poisson", "Poisson's ratio");
const EXPANSION: Name<Expansion> = Name::new("expansion", "thermal expansion");
const SHEAR: Name<Ratio> = Name::new("shear_over_tensile", "shear strength over tensile strength");
const TAP_FORCE: Name<Stress> = Name::new("tapping_force", "specific force of tapping");

impl Question for MaterialAsked {
    const PLAIN: Option<&'static str> = Some("material");

    fn names() -> Vec<(String, String)> {
        let own = Material::all().map(|material| {
            let others: Vec<&str> = material.aliases().map(|alias| alias.alias.as_str()).collect();
            (material.row().name.clone(), others.join(", "))
        });
        let family = |family: &Family| {
            let names: Vec<&str> = family.names().collect();
            (names.first().copied().unwrap_or_default().to_owned(), wording::any_of(&names))
        };
        own.chain(families::all().iter().map(family)).collect()
    }

    fn reply(&self, _: Option<&Shop>) -> Result<Reply, Vec<Problem>> {
        let material = &self.material.value;
        let mut reply = Reply::new(wording::material_title(material));
        strengths(&mut reply, material);
        physical(&mut reply, material);
        names(&mut reply, material);
        cutting(&mut reply, material);
        for coolant in coolants::of(material) {
            let says = [coolant.coolant.as_str(), &coolant.note];
            reply.rows.push(Row::words(
                wording::COOLANTS,
                &coolant.operation,
                wording::joined(&says),
                coolant.source(),
            ));
        }
        for id in material.safety() {
            if let Some(caution) = safety::caution(id) {
                reply.rows.push(Row::words(wording::CAUTIONS, id, &caution.caution, caution.source()));
            }
        }
        reply.note(material.row().note.clone());
        Ok(reply)
    }
}

/// Puts the low end with the band to the high end.
fn band<Q: Quantity>(
    reply: &mut Reply,
    name: &Name<Q>,
    low: Result<Worked<Q>, Refusal>,
    high: Result<Worked<Q>, Refusal>,
) {
    let banded = low.map(|low| match high {
        Ok(high) if high.number() > low.number() => low.clone().with_band(low.number(), high.number()),
        _ => low,
    });
    reply.put_or_say(name, banded);
}

fn strengths(reply: &mut Reply, material: &Material) {
    band(reply, &TENSILE, material.tensile_low(), material.tensile_high());
    band(reply, &YIELD, material.yield_low(), material.yield_high());
    reply.put_or_say(&SHEAR, shear_over_tensile(material).map(|(ratio, _)| ratio));
    if let Some((low, high, scale, source)) = material.hardness_range() {
        reply.rows.push(Row::figure(wording::PHYSICAL, wording::HARDNESS, (low, high, scale), "", source));
    }
}

fn physical(reply: &mut Reply, material: &Material) {
    reply.put_or_say(&MODULUS, material.modulus());
    reply.put_or_say(&POISSON, material.poisson());
    reply.put_or_say(&EXPANSION, material.expansion());
    reply.put_or_say(&TAP_FORCE, tapping::specific_force(material));
    if let Some((density, source)) = material.density() {
        reply.rows.push(Row::figure(wording::PHYSICAL, wording::DENSITY, (density, density, "g/cm3"), "", source));
    }
}

fn names(reply: &mut Reply, material: &Material) {
    for alias in material.aliases() {
        reply.rows.push(Row::words(wording::OTHER_NAMES, &alias.alias, &alias.note, alias.source()));
    }
}

/// Every cutting row as it was printed; ceilings, distressed figures and refusals are named as such.
fn cutting(reply: &mut Reply, material: &Material) {
    for row in speeds::of_material(material) {
        reply.rows.push(wording::cutting_row(row));
    }
}
