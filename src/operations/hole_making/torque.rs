//! What the machine gives at a step, against the torque on its tool.

use crate::handbook::constants::constant;
use crate::handbook::cutting::cutting_force;
use crate::operations::{Answer, Bench, Name};
use crate::proof::{Check, Keep, Refusal, Verdict, Worked};
use crate::quantity::{NewtonMetre, RevPerMin};
use crate::shop::Machine;

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
    match (cutting.and_then(|machine| machine.power.as_ref()), step, cutting) {
        (Some(power), Some(step), Some(machine)) => {
            let efficiency = match machine.efficiency_at(step.value()) {
                Some(typed) => (&typed).into(),
                None => answer.assume("efficiency", constant("drive-efficiency-geared-head")?),
            };
            let power = Worked::from(power).scaled(efficiency.low(), "what the drive leaves of the motor");
            let there = answer.record(name, cutting_force::torque_from_power(&power, step)?);
            let check = Check::judge(id, torque, Keep::AtMost, &there, bench.guard());
            answer.check(check.about(about).not_worse_than(Verdict::Doubtful));
        }
        _ if bench.shop.is_none() => answer.no_shop(&[id]),
        _ => answer.not_checked(&[id], &["power of the machine"]),
    }
    Ok(())
}
