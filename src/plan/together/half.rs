//! Work that is written down by half: by the log it was done, and a size that its sheet asks was never measured. And work that goes on
//! from a size of which the log has a doubtful reading.

use crate::operations::{Answer, LeftAs, SetUp, done_by};
use crate::plan::log::Logged;
use crate::plan::order::Task;
use crate::plan::worked::named_set_up;
use crate::proof::{Check, Verdict};

/// The check of a size that was not written down.
pub(crate) const ID: &str = "size-written-down";

/// Puts to each operation that was done in part by the log what of it was not measured.
pub(in crate::plan) fn check(worked: &mut [(usize, &Task, Answer)], log: &Logged) {
    for (_, task, answer) in worked.iter_mut() {
        told(task, answer, log);
        not_written_down(task, answer);
        // What is not finished is not finished where it is read: its sheet is none to go on by as it stands.
        let open: Vec<_> = answer.checks.iter().filter_map(|check| Some((check.id, check.unfinished?))).collect();
        for (id, key) in open {
            owned_where_it_is_read(answer, id, key);
        }
        doubted(answer);
    }
}

/// Names the sizes that were not measured, all in one.
fn not_written_down(task: &Task, answer: &mut Answer) {
    let all = unmeasured(task, answer);
    // What a value is also called stands behind its name.
    let name = |means: &'static str| means.split(':').next().unwrap_or(means);
    let sizes: Vec<&str> = all.iter().filter_map(|(_, key)| Some(name(answer.value(key)?.means))).collect();
    // Where what was written down cannot be, or spoils the part, nothing is wanted beside; what is not finished is not measured yet.
    let is_left = |key: &str| answer.value(key).is_some_and(|value| value.origin.entry().is_some());
    let mut failing = answer.checks.iter().filter(|check| check.stamps() == Some(Verdict::Fails));
    if sizes.is_empty() || answer.is_unfinished() || failing.any(|check| check.about.is_some_and(is_left)) {
        return;
    }
    let keys: Vec<String> = all.iter().map(|(_, key)| format!("`{key}`")).collect();
    let check = Check::of_kind(ID, Verdict::Doubtful).with("size", sizes.join("; ")).with("keys", keys.join(", "));
    let several = all.iter().any(|(at, _)| all.first().is_some_and(|(first, _)| first != at));
    answer.check(Check { of_those_behind: several, ..check });
    for (at, _) in all {
        if let Some(set_up) = answer.set_ups.get_mut(at).filter(|set_up| !set_up.checks.contains(&ID)) {
            set_up.checks.push(ID);
        }
    }
}

/// What goes on from a reading that is doubtful stands no better than that.
fn doubted(answer: &mut Answer) {
    let left: Vec<&str> =
        answer.values.iter().filter(|value| value.origin.entry().is_some()).map(|value| value.key).collect();
    for check in &mut answer.checks {
        let is_left = check.about.is_some_and(|key| left.contains(&key));
        check.of_those_behind |= is_left && check.stamps().is_some_and(|verdict| verdict != Verdict::Proven);
    }
}

/// Lets the set-up own a check at whose end the size is read that it is about.
pub(in crate::plan) fn owned_where_it_is_read(answer: &mut Answer, id: &'static str, key: &str) {
    if let Some(at) = answer.set_ups.iter().position(|set_up| asks(set_up, key)) {
        answer.set_ups.iter_mut().for_each(|set_up| set_up.checks.retain(|own| *own != id));
        answer.set_ups.get_mut(at).into_iter().for_each(|set_up| set_up.checks.push(id));
    }
}

/// Marks the set-ups of which somebody said that they were done, where no size that they leave was written down.
fn told(task: &Task, answer: &mut Answer, log: &Logged) {
    let is_left = |key: &str| answer.value(key).is_some_and(|value| value.origin.entry().is_some());
    let has = |set_up: &SetUp| set_up.blanks.iter().filter_map(|blank| blank.log).any(|line| is_left(line.key));
    let all = log.told.iter().filter(|told| told.of == task.address);
    let meant = |named: Option<&String>, operation: usize| match named {
        Some(named) => named_set_up((operation, &answer.set_ups), named).into_iter().collect(),
        None => (0..answer.set_ups.len()).collect::<Vec<_>>(),
    };
    let marks: Vec<(usize, u32)> = all
        .flat_map(|told| meant(told.set_up.as_ref(), told.operation).into_iter().map(|at| (at, told.entry)))
        .filter(|(at, _)| answer.set_ups.get(*at).is_some_and(|set_up| !has(set_up)))
        .collect();
    for (at, entry) in marks {
        answer.set_ups.get_mut(at).into_iter().for_each(|set_up| set_up.told = Some(entry));
    }
}

/// Whether a set-up has a line for a size.
fn asks(set_up: &SetUp, key: &str) -> bool {
    set_up.blanks.iter().any(|blank| blank.log.is_some_and(|left| left.key == key))
}

/// The sizes of which the log has nothing though the set-up is done by it: those that it is done for, and what must be known beside
/// them. Each with its set-up.
fn unmeasured(task: &Task, answer: &Answer) -> Vec<(usize, &'static str)> {
    let declared = task.request.declared();
    let gauge = |key: &str| declared.iter().find(|own| own.key == key).and_then(|own| own.left).map(|left| left.gauge);
    let is_left = |key: &str| answer.value(key).is_some_and(|value| value.origin.entry().is_some());
    let done = done_by(&answer.set_ups, |key| is_left(key).then_some(0));
    let of_one = |((at, set_up), done): ((usize, &SetUp), Option<u32>)| {
        let lines: Vec<_> = set_up.blanks.iter().filter_map(|blank| blank.log).collect();
        // Work that a later size closes is done for that one; what must be known of it all the same is wanted.
        let is_own = set_up.told.is_some() || lines.iter().any(|line| line.closes && is_left(line.key));
        let own = |line: &LeftAs| line.closes && is_own;
        // One that is read of the same thing, further on, stands in its place.
        let further =
            |key: &str| lines.iter().any(|line| line.closes && is_left(line.key) && gauge(line.key) == gauge(key));
        let wanted = lines.iter().filter(|line| line.is_wanted || own(line) && !further(line.key)).map(|line| line.key);
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
