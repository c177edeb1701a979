//! Force, torque and power of the deepest cut, at the outside diameter.

use super::cuts::Cuts;
use super::speed::{Feed, Speed};
use super::tool::Edge;
use super::{CUTTING_FORCE, Ground, POWER, TORQUE};
use crate::handbook::constants::constant;
use crate::handbook::cutting::cutting_force as force;
use crate::operations::{Answer, Bench};
use crate::proof::{Fact, Keep, Refusal, Words, Worked};
use crate::quantity::{Decimals, Newton};

pub(super) fn work(
    bench: &Bench,
    ground: &Ground,
    edge: &Edge,
    cuts: &Cuts,
    speed: &Speed,
    feed: &Feed,
    answer: &mut Answer,
) -> Result<Worked<Newton>, Refusal> {
    let (chip, floored) = force::chip(&feed.step, &cuts.deepest, &edge.nose, &edge.angle)?;
    if floored {
        answer.assume_words(Words::of("chip-floor").with("floor", Fact::mm(chip.number()).to(Decimals::AsTyped)));
    }
    let exponent = super::undoubted(&force::exponent(&ground.cuts_as)?);
    let specific = force::specific_force(&force::force_at_one(&ground.cuts_as)?, &chip, &exponent)?;
    let wear = constant("force-factor-wear")?;
    let cutting =
        force::cutting_force(&specific, &wear, &force::tool_factor(edge.material)?, &cuts.deepest, &feed.step)?;
    let cutting = answer.record(&CUTTING_FORCE, cutting);
    answer.record(&TORQUE, force::spindle_torque(&cutting, &ground.outside)?);
    let efficiency = ground.lathe.and_then(|lathe| lathe.efficiency_at(speed.step.value()));
    let efficiency = match &efficiency {
        Some(efficiency) => efficiency.into(),
        None => super::undoubted(&answer.assume("efficiency", constant("drive-efficiency-geared-head")?)),
    };
    let power = force::motor_power(&force::cutting_power(&cutting, &speed.outside)?, &efficiency)?;
    let power = answer.record(&POWER, power);
    match ground.lathe.and_then(|lathe| lathe.power.as_ref()) {
        Some(there) => {
            answer.judge(bench, "power", &power, Keep::AtMost, &there.into()).about = Some(POWER.key);
        }
        None => answer.assume_words(Words::of("power-not-given")),
    }
    Ok(cutting)
}
