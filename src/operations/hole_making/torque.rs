//! What the machine gives at a step, against the torque on its tool.

use crate::handbook::constants::constant;
use crate::handbook::cutting::cutting_force;
use crate::operations::{Answer, Bench, Name};
use crate::proof::{Check, Keep, Refusal, Verdict, Worked};
use crate::quantity::{NewtonMetre, RevPerMin};
use crate::shop::{Cutting, Machine};

/// What the machine gives at a step; none where nobody says how strong its motor is. The drive's share is listed where it is assumed.
fn there(
    machine: &Cutting,
    step: &Worked<RevPerMin>,
    answer: &mut Answer,
) -> Result<Option<Worked<NewtonMetre>>, Refusal> {
    let Some(power) = &machine.power else { return Ok(None) };
    let efficiency = match machine.efficiency_at(step.value()) {
        Some(typed) => (&typed).into(),
        None => answer.assume("efficiency", constant("drive-efficiency-geared-head")?),
    };
    let power = Worked::from(power).scaled(efficiency.low(), "what the drive leaves of the motor");
    cutting_force::torque_from_power(&power, step).map(Some)
}

/// Whether the machine gives so much at a step, for certain; one of which nobody says how strong it is does.
///
/// # Errors
/// Outside the range of the formula.
pub(super) fn gives(
    bench: &Bench,
    torque: &Worked<NewtonMetre>,
    machine: &Cutting,
    step: &Worked<RevPerMin>,
) -> Result<bool, Refusal> {
    let there = there(machine, step, &mut Answer::default())?;
    Ok(there.is_none_or(|there| Check::judge("", torque, Keep::AtMost, &there, bench.guard()).is_proven()))
}

/// Judges it; a motor too weak stalls: a lower step or a smaller tool first.
///
/// # Errors
/// Outside the range of the formula.
pub(in crate::operations) fn against_the_machine(
    bench: &Bench,
    (torque, about): (&Worked<NewtonMetre>, &'static str),
    step: Option<&Worked<RevPerMin>>,
    machine: Option<&Machine>,
    (id, name): (&'static str, &Name<NewtonMetre>),
    answer: &mut Answer,
) -> Result<(), Refusal> {
    let cutting = machine.and_then(Machine::drills);
    let there = cutting.zip(step).map(|(machine, step)| there(machine, step, answer)).transpose()?.flatten();
    match there {
        Some(there) => {
            let there = answer.record(name, there);
            let check = Check::judge(id, torque, Keep::AtMost, &there, bench.guard());
            answer.check(check.about(about).not_worse_than(Verdict::Doubtful));
        }
        _ if bench.shop.is_none() => answer.no_shop(&[id]),
        _ => answer.not_checked(&[id], &["power of the machine"]),
    }
    Ok(())
}
