//! Room that a joint counts on, held against what an oven of the same job makes: each was typed alone.

use super::scope::may_be_one_feature;
use crate::handbook::StateKind;
use crate::operations::{Answer, SetUp, Value};
use crate::plan::log::Logged;
use crate::plan::order::Task;
use crate::proof::{Check, Fact, Verdict};
use crate::quantity::Decimals;

/// How warm the housing must be, to open as far as was typed.
const ASKED: &str = "housing_as_warm";
/// How warm a part is when it stands at the press, at the least.
const THERE: &str = "temperature_at_press";
/// How warm a bush and its housing are said to be as it is pushed out, and how warm a part leaves the oven at the least.
const PUSHED: &str = "warmed_to";
const LEAVES: &str = "temperature_wanted";
/// The check of what is pushed out warm.
const AS_SAID: &str = "warm-as-said";
/// How warm it gets there at the most.
const HOTTEST: &str = "housing_hottest";
/// The check of the room that is made.
const ROOM: &str = "room-is-made";
/// The check of a second joint that one warming must serve.
const BY_THEN: &str = "warm-by-then";
/// The check of a warming whose joint is made.
const WANTED: &str = "wanted-warm-still";

/// An operation, its place in the file and what it gave.
type Worked<'a, 'b> = (usize, &'a Task<'b>, Answer);

/// Holds each joint that drops in against the warming that it is fetched from; each warming against the log of what it was for. Those of
/// one part come together, in the order of the file.
pub(in crate::plan) fn check(worked: &mut [Worked], log: &Logged) {
    let found: Vec<Vec<Check>> = worked
        .iter()
        .map(|own| {
            [room(own, worked), as_said(own, worked), by_then(own, worked), over(own, worked, log)]
                .into_iter()
                .flatten()
                .collect()
        })
        .collect();
    for ((.., answer), checks) in worked.iter_mut().zip(found) {
        checks.into_iter().for_each(|check| at_the_press(answer, check));
    }
}

/// The set-up at the press stands on it, where there is one that needs it warm.
fn at_the_press(answer: &mut Answer, check: Check) {
    let id = check.id;
    answer.check(check);
    let Some(press) = answer.set_ups.iter().position(needs_warm) else { return };
    for (at, set_up) in answer.set_ups.iter_mut().enumerate() {
        set_up.checks.retain(|own| *own != id);
        if at == press {
            set_up.checks.push(id);
        }
    }
}

fn needs_warm(set_up: &SetUp) -> bool {
    set_up.needs.iter().any(|state| state.kind == StateKind::Warm)
}

/// Whether one operation may be warmed by another: one part, and no other feature of it.
fn binds(own: &Task, by: &Task) -> bool {
    let feature = |task: &Task| task.request.set_up()?.feature.as_ref().map(|at| at.value.key().to_owned());
    by.part.name == own.part.name && may_be_one_feature(feature(by).as_deref(), feature(own).as_deref())
}

/// The warming that a joint is fetched from: the last before it, else the first behind it, which the day puts before it.
fn warming<'w, 'a, 'b>((at, own, _): &Worked, all: &'w [Worked<'a, 'b>]) -> Option<&'w Worked<'a, 'b>> {
    let is_it =
        |(other, by, answer): &&Worked| other != at && answer.value(THERE).is_some() && warms(answer) && binds(own, by);
    all.iter().rfind(|one| one.0 < *at && is_it(one)).or_else(|| all.iter().find(is_it))
}

/// What is said of a joint that comes colder from its oven than it must be to open.
fn room(own: &Worked, all: &[Worked]) -> Option<Check> {
    let asked = own.2.value(ASKED)?;
    let (_, by, answer) = warming(own, all)?;
    let there = answer.value(THERE)?;
    let never = answer.value(HOTTEST).is_some_and(|hottest| hottest.number < asked.number);
    let verdict = if never { Verdict::Fails } else { Verdict::Doubtful };
    (there.number < asked.number).then(|| cold(by.address.to_string(), (asked, there), verdict).at(own.1.place))
}

/// What is said of a bush that is pushed out colder than was said: it was to be looser.
fn as_said(own: &Worked, all: &[Worked]) -> Option<Check> {
    let asked = own.2.value(PUSHED)?;
    let (_, by, answer) = warming(own, all)?;
    let leaves = answer.value(LEAVES)?;
    let check = || Check::of_kind(AS_SAID, Verdict::Doubtful).with("by", by.address.to_string()).at(own.1.place);
    (leaves.number < asked.number).then(|| check().with("there", degrees(leaves)).with("asked", degrees(asked)))
}

/// What is said of a joint that must wait until another has been made out of the same oven.
fn by_then(own: &Worked, all: &[Worked]) -> Option<Check> {
    own.2.value(ASKED)?;
    let oven = warming(own, all)?.0;
    let other = all.iter().filter(|other| other.0 < own.0 && other.2.value(ASKED).is_some());
    let (_, first, _) = other.into_iter().find(|other| warming(other, all).is_some_and(|by| by.0 == oven))?;
    Some(Check::of_kind(BY_THEN, Verdict::Doubtful).at(own.1.place).with("by", first.address.to_string()))
}

/// What is said of a warming whose every joint is made by the log: what was pressed in would drop out of it.
fn over(own: &Worked, all: &[Worked], log: &Logged) -> Option<Check> {
    let (at, task, answer) = own;
    (warms(answer) && !answer.set_ups.iter().any(needs_warm)).then_some(())?;
    let wants = |other: &&Worked| other.0 != *at && other.2.set_ups.iter().any(needs_warm) && binds(task, other.1);
    let mut joints = all.iter().filter(wants).peekable();
    let first = joints.peek()?.1.address.to_string();
    joints
        .all(|(_, by, _)| log.logged(&by.address).is_some())
        .then(|| Check::of_kind(WANTED, Verdict::Doubtful).at(task.place).with("by", first))
}

/// Whether it is an oven that brings it there.
fn warms(answer: &Answer) -> bool {
    answer.set_ups.iter().flat_map(|set_up| &set_up.leaves).any(|state| state.kind == StateKind::Warm)
}

fn cold(by: String, (asked, there): (&Value, &Value), verdict: Verdict) -> Check {
    let check = Check::of_kind(ROOM, verdict).with("by", by);
    check.with("there", degrees(there)).with("asked", degrees(asked))
}

/// A temperature in whole degrees.
fn degrees(value: &Value) -> Fact {
    Fact::figure(value.number, value.unit).to(Decimals::Exactly(0))
}
