//! Work that by the log was done before what it goes by, or than what a rule of order has before it: a day is wrong, or
//! what was measured of it was cut, moved or spoilt since.

use super::rules::Stands;
use super::stale::{Cut, stands_on};
use crate::handbook::StateKind;
use crate::handbook::order_rules::in_file;
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
    if log.cuts.len() < 2 {
        return;
    }
    let ruled = by_rule(worked, log);
    let found =
        |own: &(usize, &Task, Answer)| joined_before(own, worked, log).or_else(|| made_before(own, worked, log));
    let found: Vec<Option<Check>> = worked.iter().zip(ruled).map(|(own, ruled)| found(own).or(ruled)).collect();
    for ((_, task, answer), check) in worked.iter_mut().zip(found) {
        check.into_iter().for_each(|check| {
            answer.check(check.of_every_set_up().at(task.place));
        });
    }
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

/// What is said of each operation that by the log was done before one that a rule of the trade has in front of it.
fn by_rule(worked: &[(usize, &Task, Answer)], log: &Logged) -> Vec<Option<Check>> {
    let stands = Stands::of_all(worked, log);
    let done: Vec<Option<&Cut>> = worked.iter().map(|(_, task, _)| log.logged(&task.address)).collect();
    let mut found: Vec<Option<Check>> = vec![None; worked.len()];
    let all = || stands.iter().zip(&done).enumerate().filter_map(|(at, (own, done))| Some((at, own, (*done)?)));
    for (rule, _) in in_file() {
        let firsts: Vec<_> = all().filter(|(_, own, _)| own.does(&rule.before) && !own.does(&rule.after)).collect();
        for (at, own, cut) in all().filter(|(_, own, _)| own.does(&rule.after) && !own.does(&rule.before)) {
            let late =
                firsts.iter().find(|(_, by, later)| later.is_surely_behind(cut) && by.bound(own, rule).is_some());
            if let (Some((.., later)), Some(slot @ None)) = (late, found.get_mut(at)) {
                *slot = Some(said(MADE_BEFORE, later));
            }
        }
    }
    found
}

fn said(id: &'static str, cut: &Cut) -> Check {
    Check::of_kind(id, Verdict::Doubtful).with("by", cut.of.to_string()).with("entry", format!("L{}", cut.entry))
}
