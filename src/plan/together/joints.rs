//! Joints of a part that another operation warms or chills again, or says to run warmer: each was judged alone, by how warm and how cold its
//! own keys say that it gets. And joints that the log has as made on an earlier day than what they were pressed into was cut.

use super::place::{goes_on_from, one_feature};
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
/// How cold what makes a part cold may make it.
const CHILLED_TO: &str = "part_temperature";
/// Whether a joint is chilled again.
const CHILLED_AGAIN: &str = "joint-chilled-again";
/// Whether a joint runs warmer than it was judged to.
const RUNS_WARMER: &str = "joint-runs-warmer";
/// How warm, and how cold, a joint is taken to get.
const JUDGED_TO: &str = "joint_judged_to";
const JUDGED_COLD: &str = "joint_judged_cold";

/// Holds each joint against the ovens that come behind it and make it warmer than it was judged to get. Those of one part come together.
pub(in crate::plan) fn check(worked: &mut [(usize, &Task, Answer)]) {
    let ovens: Vec<(usize, &Task, &Value)> =
        worked.iter().filter_map(|(at, task, answer)| Some((*at, *task, answer.value(HOTTEST)?))).collect();
    let found: Vec<Option<Check>> = worked
        .iter()
        .map(|(at, task, answer)| {
            let judged = judged_to(answer)?;
            // What it is fetched from is no oven that warms it again.
            let own = is_fetched(answer, StateKind::Warm)
                && !ovens.iter().any(|(other, by, _)| other < at && by.part.name == task.part.name);
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
    let others: Vec<[Option<Check>; 2]> =
        worked.iter().map(|own| [runs_warmer(own, worked), chilled_again(own, worked)]).collect();
    for ((.., answer), (warmed, others)) in worked.iter_mut().zip(found.into_iter().zip(others)) {
        for check in warmed.into_iter().chain(others.into_iter().flatten()) {
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
fn is_fetched(answer: &Answer, so: StateKind) -> bool {
    let is_so = |state: &State| state.kind == so;
    let needs = answer.set_ups.iter().position(|set_up| set_up.needs.iter().any(is_so));
    needs.is_some_and(|at| !answer.set_ups.iter().take(at).flat_map(|set_up| &set_up.leaves).any(is_so))
}

/// What is said of a joint whose whole part is made colder behind it than it was judged to get: the housing shrinks on to the bush, or the
/// bush out of it. What the bush lay in to go in is none that chills the joint.
fn chilled_again((at, task, answer): &(usize, &Task, Answer), all: &[(usize, &Task, Answer)]) -> Option<Check> {
    let judged = answer.value(JUDGED_COLD).filter(|_| joins(answer))?;
    let chills = |(_, by, _): &&(usize, &Task, Answer)| {
        by.part.name == task.part.name && by.request.operation().chills_its_part()
    };
    let cold = || all.iter().filter(chills);
    let own = is_fetched(answer, StateKind::Cold) && !cold().any(|(other, ..)| other < at);
    let behind = cold().filter(|(other, ..)| other > at).skip(usize::from(own));
    let colder = behind.filter_map(|(_, by, given)| Some((by, given.value(CHILLED_TO)?)));
    let colder = colder.filter(|(_, cold)| cold.number < judged.number);
    let (by, cold) = colder.min_by(|a, b| a.1.number.total_cmp(&b.1.number))?;
    let degrees = |value: &Value| Fact::figure(value.number, value.unit).to(Decimals::Exactly(0));
    let check = Check::of_kind(CHILLED_AGAIN, Verdict::Doubtful).at(task.place).with("by", by.address.to_string());
    Some(check.with("cold", degrees(cold)).with("judged", degrees(judged)))
}

/// How warm a joint was judged to get that an operation makes; nothing where it makes none.
fn judged_to(answer: &Answer) -> Option<&Value> {
    answer.value(JUDGED_TO).filter(|_| joins(answer))
}

/// Whether an operation makes a joint.
fn joins(answer: &Answer) -> bool {
    answer.set_ups.iter().flat_map(|set_up| &set_up.leaves).any(|state| state.kind == StateKind::Pressed)
}

/// What is said of a joint where another operation of its part says that it runs warmer; a joint that says so itself goes by that, but for
/// what goes on from its own bore: that runs in no other warmth.
fn runs_warmer((at, task, answer): &(usize, &Task, Answer), all: &[(usize, &Task, Answer)]) -> Option<Check> {
    let judged = judged_to(answer)?;
    let says_itself = task.request.operation().runs_as_warm().is_some();
    let is_of_it = |by: &Task| match says_itself {
        true => goes_on_from(by, task) || one_feature(by, task) == Some(true),
        false => true,
    };
    let others = all.iter().filter(|(other, by, _)| other != at && by.part.name == task.part.name && is_of_it(by));
    let said = others.filter_map(|(_, by, _)| Some((by, by.request.operation().runs_as_warm()?.value.number())));
    let hotter = said.filter(|(_, warm)| *warm > judged.number);
    let (by, warm) = hotter.max_by(|a, b| a.1.total_cmp(&b.1))?;
    let degrees = |number: f64| Fact::figure(number, judged.unit).to(Decimals::Exactly(0));
    let check = Check::of_kind(RUNS_WARMER, Verdict::Doubtful).at(task.place).with("by", by.address.to_string());
    Some(check.with("hot", degrees(warm)).with("judged", degrees(judged.number)))
}
