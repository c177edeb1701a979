//! Work that by the log was done before what it goes by, or than what a rule of order has before it: a day is wrong, or
//! what was measured of it was cut, moved or spoilt since.

use super::days;
use super::rules::Stands;
use super::stale::{Cut, stands_on};
use crate::handbook::StateKind;
use crate::handbook::order_rules::{Word, in_file, musts_of_a_part};
use crate::job::Address;
use crate::operations::{Answer, OfPart};
use crate::plan::log::Logged;
use crate::plan::order::Task;
use crate::proof::{Check, Verdict};

/// Whether a joint was made when what it is made of was there.
const JOINED_BEFORE: &str = "log-joined-before";
/// Whether work was done when what it goes by was done.
pub(super) const MADE_BEFORE: &str = "log-made-before";

/// Holds each operation that the log calls done against those that it calls done later. Those of one part come together.
pub(in crate::plan) fn check(worked: &mut [(usize, &Task, Answer)], log: &Logged) {
    if log.cuts.is_empty() {
        return;
    }
    let ruled = by_rule(worked, log);
    let found = |own: &(usize, &Task, Answer)| {
        turned_round(own, log).or_else(|| joined_before(own, worked, log)).or_else(|| made_before(own, worked, log))
    };
    let found: Vec<Option<Check>> = worked.iter().zip(ruled).map(|(own, ruled)| found(own).or(ruled)).collect();
    for ((_, task, answer), check) in worked.iter_mut().zip(found) {
        check.into_iter().for_each(|check| {
            answer.check(check.of_every_set_up().at(task.place));
        });
    }
}

/// What is said of an operation whose later set-up by the log was done on an earlier day than one in front of it.
fn turned_round((_, task, answer): &(usize, &Task, Answer), log: &Logged) -> Option<Check> {
    let day = days::turned_round(answer, log.logged(&task.address)?)?;
    let check = Check::of_kind(MADE_BEFORE, Verdict::Doubtful).with("by", task.address.value(day.key).to_string());
    Some(check.with("entry", format!("L{}", day.entry)))
}

/// What is said of a joint that by the log was made before a cut that it goes by: nothing can be pressed into a bore that is not there.
fn joined_before(own: &(usize, &Task, Answer), all: &[(usize, &Task, Answer)], log: &Logged) -> Option<Check> {
    let joins = own.2.set_ups.iter().flat_map(|set_up| &set_up.leaves).any(|state| state.kind == StateKind::Pressed);
    let done = log.logged(&own.1.address).filter(|_| joins)?;
    gone_on_from(own.1, all, log, |cut| cut.was_made_after(done)).map(|cut| said(JOINED_BEFORE, cut))
}

/// What is said of a size that by the log was made on an earlier day than the one that it goes on from.
fn made_before(own: &(usize, &Task, Answer), all: &[(usize, &Task, Answer)], log: &Logged) -> Option<Check> {
    let makes = |part: &Option<OfPart>| matches!(part, Some(OfPart::Leaves(_) | OfPart::Opens(_)));
    let cuts = own.1.request.declared().iter().any(|own| own.left.is_some() && makes(&own.part));
    let done = log.logged(&own.1.address).filter(|_| cuts)?;
    gone_on_from(own.1, all, log, |cut| cut.is_surely_behind(done)).map(|cut| said(MADE_BEFORE, cut))
}

/// What an operation goes on from that by the log was done, and when.
fn gone_on_from<'a>(
    task: &Task,
    all: &[(usize, &Task, Answer)],
    log: &'a Logged,
    when: impl Fn(&Cut) -> bool,
) -> Option<&'a Cut> {
    let named = |of: &Address| all.iter().find(|(_, task, _)| task.address == *of).map(|(_, task, _)| *task);
    log.cuts.iter().filter(|cut| cut.is_done() && when(cut)).find(|cut| stands_on(named, task, &cut.of))
}

/// What is said of each operation that by the log was done before one that a rule of the trade has in front of it. A rule that is not judged
/// in the file binds what the file lists so.
fn by_rule(worked: &[(usize, &Task, Answer)], log: &Logged) -> Vec<Option<Check>> {
    let stands = Stands::of_all(worked, log);
    let all: Vec<Done> = { stands.iter().zip(worked).enumerate() }
        .filter_map(|(at, (stands, (_, task, answer)))| {
            Some(Done { at, stands, task, answer, cut: log.logged(&task.address)? })
        })
        .collect();
    let mut found: Vec<Option<Check>> = vec![None; worked.len()];
    let in_file = in_file().map(|(rule, _)| (rule, true));
    for (rule, is_in_file) in in_file.chain(musts_of_a_part().map(|rule| (rule, false))) {
        let does = |done: &Done, wanted: &Word, not: &Word| done.stands.does(wanted) && !done.stands.does(not);
        let firsts: Vec<&Done> = all.iter().filter(|done| does(done, &rule.before, &rule.after)).collect();
        for own in all.iter().filter(|done| !firsts.is_empty() && does(done, &rule.after, &rule.before)) {
            let begun = days::begun(own.task.request.word(), own.answer, own.cut, &rule.after);
            let is_late = |first: &&&Done| {
                let a_day = first.cut.first.zip(begun).is_some_and(|(first, begun)| first > begun);
                let listed =
                    if is_in_file { first.cut.is_surely_behind(own.cut) || a_day } else { first.at < own.at && a_day };
                listed && first.stands.bound(own.stands, rule).is_some()
            };
            if let (Some(first), Some(slot @ None)) = (firsts.iter().find(is_late), found.get_mut(own.at)) {
                *slot = Some(said(MADE_BEFORE, first.cut));
            }
        }
    }
    found
}

/// An operation that the log calls done.
struct Done<'a> {
    /// Where it stands in the file.
    at: usize,
    stands: &'a Stands,
    task: &'a Task<'a>,
    answer: &'a Answer,
    cut: &'a Cut,
}

fn said(id: &'static str, cut: &Cut) -> Check {
    Check::of_kind(id, Verdict::Doubtful).with("by", cut.of.to_string()).with("entry", format!("L{}", cut.entry))
}
