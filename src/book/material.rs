//! `book material "phosphor bronze"`: strengths, physical figures, every cutting row with its source, coolants, cautions.

use super::{Page, Question, Row, words};
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
use serde::Deserialize;

/// The question.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct MaterialAsked {
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

    fn page(&self, _: Option<&Shop>) -> Result<Page, Vec<Problem>> {
        let material = &self.material.value;
        let mut page = Page::new(words::material_title(material));
        strengths(&mut page, material);
        physical(&mut page, material);
        names(&mut page, material);
        cutting(&mut page, material);
        for coolant in coolants::of(material) {
            let says = [coolant.coolant.as_str(), &coolant.note];
            page.rows.push(Row::words(words::COOLANTS, &coolant.operation, words::joined(&says), coolant.source()));
        }
        for id in material.safety() {
            if let Some(caution) = safety::caution(id) {
                page.rows.push(Row::words(words::CAUTIONS, id, &caution.caution, caution.source()));
            }
        }
        page.note(material.row().note.clone());
        Ok(page)
    }
}

/// Puts the low end with the band to the high end.
fn band<Q: Quantity>(
    page: &mut Page,
    name: &Name<Q>,
    low: Result<Worked<Q>, Refusal>,
    high: Result<Worked<Q>, Refusal>,
) {
    let banded = low.map(|low| match high {
        Ok(high) if high.number() > low.number() => low.clone().with_band(low.number(), high.number()),
        _ => low,
    });
    page.put_or_say(name, banded);
}

fn strengths(page: &mut Page, material: &Material) {
    band(page, &TENSILE, material.tensile_low(), material.tensile_high());
    band(page, &YIELD, material.yield_low(), material.yield_high());
    page.put_or_say(&SHEAR, shear_over_tensile(material).map(|(ratio, _)| ratio));
    if let Some((low, high, scale, source)) = material.hardness_range() {
        page.rows.push(Row::figure(words::PHYSICAL, words::HARDNESS, (low, high, scale), "", source));
    }
}

fn physical(page: &mut Page, material: &Material) {
    page.put_or_say(&MODULUS, material.modulus());
    page.put_or_say(&POISSON, material.poisson());
    page.put_or_say(&EXPANSION, material.expansion());
    page.put_or_say(&TAP_FORCE, tapping::specific_force(material));
    if let Some((density, source)) = material.density() {
        page.rows.push(Row::figure(words::PHYSICAL, words::DENSITY, (density, density, "g/cm3"), "", source));
    }
}

fn names(page: &mut Page, material: &Material) {
    for alias in material.aliases() {
        page.rows.push(Row::words(words::OTHER_NAMES, &alias.alias, &alias.note, alias.source()));
    }
}

/// Every cutting row as it was printed; ceilings, distressed figures and refusals are named as such.
fn cutting(page: &mut Page, material: &Material) {
    for row in speeds::of_material(material) {
        page.rows.push(words::cutting_row(row));
    }
}
