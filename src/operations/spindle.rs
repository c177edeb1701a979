//! Spindle steps: what several operations pick in the same way.

use super::{Answer, Bench};
use crate::proof::{Check, Keep, Origin, Verdict, Worked};
use crate::quantity::{Quantity, Ratio, RevPerMin, figure};
use crate::shop::Cutting;

/// The shop's factor on handbook speeds; without a habit, 1.
pub(super) fn speed_habit(bench: &Bench) -> Worked<Ratio> {
    let typed = bench.shop.and_then(|shop| shop.habits.speed_factor.as_ref());
    typed.map_or_else(|| Worked::exact(Ratio::new(1.0), Origin::Assumed("no habit named".into())), Into::into)
}

/// The spindle step at or below what is wanted; where none is low enough the lowest, with a doubtful check that says by how
/// much the speed is over. Never the step above.
pub(super) fn step_at_or_below(
    machine: &Cutting,
    wanted: &Worked<RevPerMin>,
    check: &'static str,
    answer: &mut Answer,
) -> Worked<RevPerMin> {
    let most = wanted.number();
    let picked = |step: RevPerMin, rule: &str| {
        let rule =
            format!("{}: {rule} {} rev/min is {} rev/min", machine.name.value, figure(most), figure(step.number()));
        Worked::exact(step, Origin::Picked { rule, wanted: Box::new(wanted.origin().clone()) })
    };
    if let Some(step) = machine.spindle.value.at_or_below(most) {
        return picked(step, "the step at or below");
    }
    let lowest = machine.spindle.value.lowest().unwrap_or(RevPerMin::new(most));
    let step = picked(lowest, "no step is as low as");
    let over = format!("{:.0} %", 100.0 * (lowest.number() / most - 1.0));
    let check = Check::judge(check, &step, Keep::AtMost, wanted, 2.0);
    answer.check(check.judged_as(Verdict::Doubtful).with("over", over));
    step
}
