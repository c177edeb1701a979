//! Joints of a part that another operation warms again, or says to run warmer: each was judged alone, by how warm its own keys say that
//! it gets. And joints that the log has as made on an earlier day than what they were pressed into was cut.

use crate::handbook::StateKind;
use crate::job::State;
use crate::operations::{Answer, SetUp, Value};
use crate::plan::order::Task;
use crate::proof::{Check, Fact, Verdict};
use crate::quantity::{Decimals, Quantity};

/// How hot an oven may make the part.
const HOTTEST: &str = "housing_hottest";
/// Whether a joint is warmed again.
const WARMED_AGAIN: &str = "joint-warmed-again";
/// Whether a joint runs warmer than it was judged to.
const RUNS_WARMER: &str = "joint-runs-warmer";
/// How warm a joint is taken to get.
const JUDGED_TO: &str = "joint_judged_to";

/// Holds each joint against the ovens that come behind it and make it warmer than it was judged to get. Those of one part come together.
pub(in crate::plan) fn check(worked: &mut [(usize, &Task, Answer)]) {
    let ovens: Vec<(usize, &Task, &Value)> =
        worked.iter().filter_map(|(at, task, answer)| Some((*at, *task, answer.value(HOTTEST)?))).collect();
    let found: Vec<Option<Check>> = worked
        .iter()
        .map(|(at, task, answer)| {
            let judged = judged_to(answer)?;
            // What it is fetched from is no oven that warms it again.
            let own =
                is_fetched(answer) && !ovens.iter().any(|(other, by, _)| other < at && by.part.name == task.part.name);
            let behind = ovens.iter().filter(|(other, by, _)| other > at && by.part.name == task.part.name);
            let behind = behind.skip(usize::from(own));
            let hotter = behind.filter(|(.., hot)| hot.number > judged.number);
            let (_, by, hot) = hotter.max_by(|a, b| a.2.number.total_cmp(&b.2.number))?;
            let degrees = |value: &Value| Fact::figure(value.number, value.unit).to(Decimals::Exactly(0));
            let check =
                Check::of_kind(WARMED_AGAIN, Verdict::Doubtful).at(task.place).with("by", by.address.to_string());
            Some(check.with("hot", degrees(hot)).with("judged", degrees(judged)))
        })
        .collect();
    let runs: Vec<Option<Check>> = worked.iter().map(|own| runs_warmer(own, worked)).collect();
    for ((.., answer), checks) in worked.iter_mut().zip(found.into_iter().zip(runs)) {
        for check in [checks.0, checks.1].into_iter().flatten() {
            let id = check.id;
            answer.check(check);
            // The joint itself cannot be undone: its set-up owns what is asked of it.
            let joins = |set_up: &&mut SetUp| set_up.leaves.iter().any(|state| state.kind == StateKind::Pressed);
            if let Some(set_up) = answer.set_ups.iter_mut().find(joins) {
                set_up.checks.push(id);
            }
        }
    }
}

/// Whether a joint comes from an oven that another operation heats.
fn is_fetched(answer: &Answer) -> bool {
    let is_warm = |state: &State| state.kind == StateKind::Warm;
    let needs = answer.set_ups.iter().position(|set_up| set_up.needs.iter().any(is_warm));
    needs.is_some_and(|at| !answer.set_ups.iter().take(at).flat_map(|set_up| &set_up.leaves).any(is_warm))
}

/// How warm a joint was judged to get that an operation makes; nothing where it makes none.
fn judged_to(answer: &Answer) -> Option<&Value> {
    answer.value(JUDGED_TO).filter(|_| joins(answer))
}

/// Whether an operation makes a joint.
fn joins(answer: &Answer) -> bool {
    answer.set_ups.iter().flat_map(|set_up| &set_up.leaves).any(|state| state.kind == StateKind::Pressed)
}

/// What is said of a joint where another operation of its part says that it runs warmer; a joint that says so itself goes by that.
fn runs_warmer((at, task, answer): &(usize, &Task, Answer), all: &[(usize, &Task, Answer)]) -> Option<Check> {
    let judged = judged_to(answer).filter(|_| task.request.operation().runs_as_warm().is_none())?;
    let others = all.iter().filter(|(other, by, _)| other != at && by.part.name == task.part.name);
    let said = others.filter_map(|(_, by, _)| Some((by, by.request.operation().runs_as_warm()?.value.number())));
    let hotter = said.filter(|(_, warm)| *warm > judged.number);
    let (by, warm) = hotter.max_by(|a, b| a.1.total_cmp(&b.1))?;
    let degrees = |number: f64| Fact::figure(number, judged.unit).to(Decimals::Exactly(0));
    let check = Check::of_kind(RUNS_WARMER, Verdict::Doubtful).at(task.place).with("by", by.address.to_string());
    Some(check.with("hot", degrees(warm)).with("judged", degrees(judged.number)))
}
