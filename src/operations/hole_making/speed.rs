//! The spindle step of a drill.

use crate::handbook::cutting::speeds;
use crate::operations::spindle::{speed_habit, step_at_or_below};
use crate::operations::{Answer, Bench};
use crate::proof::{Check, Fact, Keep, Refusal, Verdict, Words, Worked};
use crate::quantity::{MPerMin, Mm, Ratio, RevPerMin};
use crate::shop::Machine;

/// The step at or below what the drill wants; none where there is no machine, and the answer says so.
pub(in crate::operations) fn drill_step(
    bench: &Bench,
    machine: Option<&Machine>,
    (start, factor): (&Worked<MPerMin>, &Worked<Ratio>),
    drill: &Worked<Mm>,
    answer: &mut Answer,
) -> Result<Option<Worked<RevPerMin>>, Refusal> {
    const ID: &str = "drill-too-fast";
    let wanted = speeds::speed_by_factors(start, factor, &speed_habit(bench))?;
    let revs = speeds::spindle_speed(&wanted, drill)?;
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
    let step = step_at_or_below(machine, &revs, ID, answer);
    slow_enough(&step, &revs, ID, bench, answer);
    Ok(Some(step))
}

/// A step that was found is slow enough; one that was not has said so.
pub(in crate::operations) fn slow_enough(
    step: &Worked<RevPerMin>,
    wanted: &Worked<RevPerMin>,
    check: &'static str,
    bench: &Bench,
    answer: &mut Answer,
) {
    if step.number() <= wanted.number() {
        let wanted = wanted.nominal("a speed to start from");
        answer.judge(bench, check, step, Keep::AtMost, &wanted);
    }
}
