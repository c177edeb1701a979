//! The cutting fluid of a set-up, and what goes with a metal that wants none.

use super::{Answer, SetUp};
use crate::handbook::Material;
use crate::handbook::cutting::coolants;
use crate::handbook::materials::groups::Kind;
use crate::proof::Words;

/// Names the cutting fluid of an operation (`any`, `ream`, `tap`) on a set-up, from the table; where the table has none it says
/// so. Grey iron leaves an abrasive dust, magnesium burns: each its own line. The texts stand in the common card.
pub(super) fn cutting_fluid(metal: &Material, operation: &str, set_up: &mut SetUp, answer: &mut Answer) {
    let fluid = coolants::for_operation(metal, operation);
    match fluid {
        Some(row) => {
            set_up.step_with(Words::of("cutting-fluid").with("fluid", row.coolant.clone()));
            answer.fact("cutting_fluid", row.coolant.clone());
        }
        None => {
            set_up.step("cutting-fluid-not-known");
            answer.fact("cutting_fluid", "not known");
        }
    }
    if fluid.is_none_or(|row| row.is_wet()) {
        answer.caution("cutting-fluid");
    }
    match metal.kind() {
        Kind::GreyIron => {
            set_up.step("iron-dust");
            answer.caution("compressed-air");
        }
        Kind::Magnesium => {
            set_up.step("magnesium-chips");
            answer.caution("magnesium");
        }
        _ => {}
    }
}
