//! Work that is written down by half: by the log it was done, and the size that it is done for was never measured.

use crate::operations::{Answer, SetUp, done_by};
use crate::plan::log::Logged;
use crate::plan::order::Task;
use crate::plan::worked::named_set_up;
use crate::proof::{Check, Verdict};

/// The check of a size that was not written down.
const ID: &str = "size-written-down";

/// Puts to each operation that was done in part by the log what of it was not measured.
pub(in crate::plan) fn check(worked: &mut [(usize, &Task, Answer)], log: &Logged) {
    for (_, task, answer) in worked.iter_mut() {
        told(task, answer, log);
        for (at, key) in unmeasured(task, answer) {
            let Some(means) = answer.value(key).map(|value| value.means) else { continue };
            let check = Check::of_kind(ID, Verdict::Doubtful).with("size", means).with("key", key);
            if let Some(set_up) = answer.set_ups.get_mut(at) {
                set_up.checks.push(ID);
            }
            answer.check(check);
        }
        // What is not finished is not finished where it is read: its sheet is none to go on by as it stands.
        let open: Vec<_> = answer.checks.iter().filter_map(|check| Some((check.id, check.unfinished?))).collect();
        for (id, key) in open {
            owned_where_it_is_read(answer, id, key);
        }
    }
}

/// Lets the set-up own a check at whose end the size is read that it is about.
pub(in crate::plan) fn owned_where_it_is_read(answer: &mut Answer, id: &'static str, key: &str) {
    if let Some(at) = answer.set_ups.iter().position(|set_up| asks(set_up, key)) {
        answer.set_ups.iter_mut().for_each(|set_up| set_up.checks.retain(|own| *own != id));
        answer.set_ups.get_mut(at).into_iter().for_each(|set_up| set_up.checks.push(id));
    }
}

/// Marks the set-ups of which somebody said when they were finished, where they leave a size and that was not written down.
fn told(task: &Task, answer: &mut Answer, log: &Logged) {
    let is_left = |key: &str| answer.value(key).is_some_and(|value| value.origin.entry().is_some());
    let leaves = |set_up: &SetUp| set_up.blanks.iter().filter_map(|blank| blank.log).any(|line| line.closes);
    let has = |set_up: &SetUp| set_up.blanks.iter().filter_map(|blank| blank.log).any(|line| is_left(line.key));
    let all = log.told.iter().filter(|told| told.of == task.address);
    let marks: Vec<(usize, u32)> = all
        .filter_map(|told| Some((named_set_up((told.operation, &answer.set_ups), &told.set_up)?, told.entry)))
        .filter(|(at, _)| answer.set_ups.get(*at).is_some_and(|set_up| leaves(set_up) && !has(set_up)))
        .collect();
    for (at, entry) in marks {
        answer.set_ups.get_mut(at).into_iter().for_each(|set_up| set_up.told = Some(entry));
    }
}

/// Whether a set-up has a line for a size.
fn asks(set_up: &SetUp, key: &str) -> bool {
    set_up.blanks.iter().any(|blank| blank.log.is_some_and(|left| left.key == key))
}

/// The sizes of which the log has nothing though the set-up is done by it: the first that it is done for, and what must be known beside
/// that. Each with its set-up.
fn unmeasured(task: &Task, answer: &Answer) -> Vec<(usize, &'static str)> {
    let declared = task.request.declared();
    let gauge = |key: &str| declared.iter().find(|own| own.key == key).and_then(|own| own.left).map(|left| left.gauge);
    let is_left = |key: &str| answer.value(key).is_some_and(|value| value.origin.entry().is_some());
    let done = done_by(&answer.set_ups, |key| is_left(key).then_some(0));
    let of_one = |((at, set_up), done): ((usize, &SetUp), Option<u32>)| {
        let lines: Vec<_> = set_up.blanks.iter().filter_map(|blank| blank.log).collect();
        // Work that a later size closes is done for that one; what must be known of it all the same is wanted.
        let is_own = set_up.told.is_some() || lines.iter().any(|line| line.closes && is_left(line.key));
        let first = lines.iter().find(|line| line.closes && is_own).map(|line| line.key);
        // One that is read of the same thing, further on, stands in its place.
        let further =
            |key: &str| lines.iter().any(|line| line.closes && is_left(line.key) && gauge(line.key) == gauge(key));
        let first = first.filter(|key| !further(key));
        let wanted = lines.iter().filter(|line| line.is_wanted || Some(line.key) == first).map(|line| line.key);
        let open: Vec<_> = wanted.filter(|key| done.is_some() && !is_left(key)).map(|key| (at, key)).collect();
        open
    };
    answer.set_ups.iter().enumerate().zip(done).flat_map(of_one).collect()
}

/// Whether a size is handed on as it was planned though the work that makes it is written down as done.
pub(in crate::plan) fn was_not_measured(answer: &Answer, key: &str) -> bool {
    let is_left = |key: &str| answer.value(key).is_some_and(|value| value.origin.entry().is_some());
    let done = done_by(&answer.set_ups, |key| is_left(key).then_some(0));
    // A piston or a shim is as it lies in its drawer, whatever was cut for it.
    let is_made = |set_up: &SetUp| {
        let mut lines = set_up.blanks.iter().filter_map(|blank| blank.log);
        lines.any(|line| line.key == key && (line.closes || line.is_wanted))
    };
    !is_left(key) && answer.set_ups.iter().zip(done).any(|(set_up, done)| done.is_some() && is_made(set_up))
}
