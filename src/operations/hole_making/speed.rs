//! The spindle step of a drill.

use super::torque::gives;
use crate::operations::spindle::Begins;
use crate::operations::{Answer, Bench};
use crate::proof::{Check, Fact, Refusal, Verdict, Words, Worked};
use crate::quantity::{Mm, NewtonMetre, RevPerMin};
use crate::shop::Machine;

/// The step that the drill wants, or the highest under it at which the machine gives its torque; none where there is no machine, and the answer says so.
pub(in crate::operations) fn drill_step(
    bench: &Bench,
    machine: Option<&Machine>,
    begins: &Begins,
    (drill, torque): (&Worked<Mm>, Option<&Worked<NewtonMetre>>),
    answer: &mut Answer,
) -> Result<Option<Worked<RevPerMin>>, Refusal> {
    const ID: &str = "drill-too-fast";
    let Some(machine) = machine.and_then(Machine::drills) else {
        if bench.shop.is_some() {
            // No spindle stands square over the hole, and no stop keeps its depth: that is to get first.
            answer.missing.push(Words::of("drilling-machine"));
            let check = Check::of_kind(ID, Verdict::Doubtful).with("over", Fact::named("no-step-known"));
            answer.check(check).remedy(Words::of("no-drilling-machine"));
        } else {
            answer.no_shop(&[ID]);
        }
        return Ok(None);
    };
    let carries = |step: &Worked<RevPerMin>| torque.map_or(Ok(true), |torque| gives(bench, torque, machine, step));
    begins.step((bench, machine), drill, ID, carries, answer).map(Some)
}
