//! Joints of a part that another operation warms again: each was judged alone, by how warm its own keys say that it runs.

use crate::handbook::StateKind;
use crate::handbook::constants::row;
use crate::operations::{Answer, SetUp, Value};
use crate::plan::order::Task;
use crate::proof::{Check, Fact, Verdict};

/// How hot an oven may make the part.
const HOTTEST: &str = "housing_hottest";
/// Whether a joint is warmed again.
const WARMED_AGAIN: &str = "joint-warmed-again";
/// What is said where nobody typed how warm a joint runs.
const STAYS_COOL: &str = "stays-cool";

/// Holds each joint that was judged as if it stayed cool against the ovens that come behind it. Those of one part come together.
pub(in crate::plan) fn check(worked: &mut [(usize, &Task, Answer)]) {
    let Ok(cool) = row("bush-yield-temperature-most").map(|row| row.value) else { return };
    let ovens: Vec<(usize, &Task, &Value)> =
        worked.iter().filter_map(|(at, task, answer)| Some((*at, *task, answer.value(HOTTEST)?))).collect();
    let behind = |at: usize, task: &Task| {
        let hotter =
            ovens.iter().filter(|(other, by, hot)| *other > at && by.part.name == task.part.name && hot.number > cool);
        let hottest = hotter.max_by(|a, b| a.2.number.total_cmp(&b.2.number))?;
        Some((hottest.1.address.to_string(), Fact::figure(hottest.2.number, hottest.2.unit)))
    };
    let found: Vec<Option<(String, Fact)>> =
        worked.iter().map(|(at, task, answer)| if stays_cool(answer) { behind(*at, task) } else { None }).collect();
    for ((_, task, answer), hot) in worked.iter_mut().zip(found) {
        let Some((by, hot)) = hot else { continue };
        let check = Check::of_kind(WARMED_AGAIN, Verdict::Doubtful).at(task.place);
        answer.check(check.with("by", by).with("hot", hot.to(crate::quantity::Decimals::Exactly(0))));
        // The joint itself cannot be undone: its set-up owns what is asked of it.
        let joins = |set_up: &&mut SetUp| set_up.leaves.iter().any(|state| state.kind == StateKind::Pressed);
        if let Some(set_up) = answer.set_ups.iter_mut().find(joins) {
            set_up.checks.push(WARMED_AGAIN);
        }
    }
}

/// Whether an operation makes a joint that is taken to stay cool.
fn stays_cool(answer: &Answer) -> bool {
    let joins = answer.set_ups.iter().flat_map(|set_up| &set_up.leaves).any(|state| state.kind == StateKind::Pressed);
    joins && answer.assumed.iter().any(|words| words.id == STAYS_COOL)
}
