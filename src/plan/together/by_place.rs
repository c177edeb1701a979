//! Entries of the log that know their operation by its place in the file alone: another put in above it would take them over.

use super::stale::Cut;
use crate::job::Address;
use crate::plan::order::Task;
use crate::proof::{Check, Verdict};

/// The check of each operation without a name that shares its word with another of its part, where the log tells of one of them.
pub(in crate::plan) fn doubtful(tasks: &[Task], all: &[Cut]) -> Vec<(Option<Address>, Check)> {
    let is_unnamed = |task: &Task| task.request.set_up().is_none_or(|wish| wish.name.is_none());
    let alike = |one: &Task, other: &Task| {
        one.part.name == other.part.name && one.request.word() == other.request.word() && is_unnamed(other)
    };
    let shared = |cut: &Cut| {
        let of = tasks.iter().find(|task| task.address == cut.of).filter(|task| is_unnamed(task));
        let several: Vec<&Task> = of.into_iter().flat_map(|of| tasks.iter().filter(|task| alike(of, task))).collect();
        if several.len() > 1 { several } else { Vec::new() }
    };
    let check = |cut: &Cut| {
        let check = Check::of_kind("log-by-place", Verdict::Doubtful).with("of", cut.of.to_string());
        check.with("entry", format!("L{}", cut.entry))
    };
    all.iter().flat_map(|cut| shared(cut).into_iter().map(|task| (Some(task.address.clone()), check(cut)))).collect()
}
