//! Bush and housing in the coldest that was named, else in the frost that is assumed, where the housing shrinks on to its bush: is either overstrained there?

use super::asked::Asked;
use super::climate::Climate;
use super::made::{Made, cure};
use super::metals::Metals;
use crate::handbook::Material;
use crate::handbook::joints::heating;
use crate::handbook::joints::joint::{PressJoint, Service, Stressed};
use crate::operations::kit::degrees;
use crate::operations::{Answer, Bench};
use crate::proof::{Refusal, Words, Worked};
use crate::quantity::Shift;

/// The check of what frost adds to the stress.
const ID: &str = "stress-when-cold";

/// What stands in bush and housing at an interference, where they live so: each with its name, its metal, and the key that says its strength;
/// nothing where that is not known.
pub(super) type Both<'m> = [(Option<Stressed>, &'static str, &'m Material, &'static str); 2];

/// Works it for both.
pub(super) fn both<'m>(
    joint: &PressJoint,
    metals: &'m Metals,
    (delta, service): (&Worked<Shift>, Service),
    guard: f64,
) -> Result<Both<'m>, Refusal> {
    Ok([
        (joint.of_bush(delta, service, guard)?, "bush", &metals.bush, "bush.material"),
        (joint.of_housing(delta, service, guard)?, "housing", &metals.housing, "housing.material"),
    ])
}

impl Asked<'_> {
    /// Judges the interference with what frost adds to it by the strengths that both have cold.
    pub(super) fn stress_when_cold(
        &self,
        bench: &Bench,
        metals: &Metals,
        (joint, made): (&PressJoint, &Made),
        climate: &Climate,
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        let Some(frost) = &climate.squeezed else {
            answer.does_not_apply(&[ID]);
            return Ok(());
        };
        let at = degrees(frost.at.number());
        if !frost.said {
            answer.assume_words(Words::of("stands-in-frost").with("value", at.clone()));
        }
        let delta = heating::interference_warm(&made.tight.measured, &frost.adds)?;
        for (stressed, which, metal, key) in both(joint, metals, (&delta, climate.cold), bench.guard())? {
            let Some(stressed) = stressed else {
                answer.not_checked(&[ID], &[key]);
                return Ok(());
            };
            let check = stressed.check(ID, bench.guard()).with("which", which).with("of", metal.typed());
            let check = answer.check(check.with("cold", at.clone()).at(self.housing.outside.place));
            if !frost.said {
                check.remedy(Words::of("say-how-cold"));
            }
            check.remedy(cure(made));
        }
        Ok(())
    }
}
