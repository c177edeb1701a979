//! A part that by the log was set true, and whose place in the machine other work took since: what is still to be cut of it as it was held
//! is not true any more.

use crate::job::Address;
use crate::operations::{Answer, HeldIn, OfPart, PartSize, Station};
use crate::plan::log::Logged;
use crate::plan::order::Task;
use crate::plan::together::stale::Cut;
use crate::proof::{Check, Verdict};

/// Work at a lathe, by its place in the files.
#[derive(Debug)]
pub(in crate::plan) struct AtLathe {
    at: usize,
    machine: String,
    held_in: Option<HeldIn>,
    is_truing: bool,
}

impl AtLathe {
    /// Its place in the files.
    pub(in crate::plan) const fn place(&self) -> usize {
        self.at
    }
}

/// What the operations of a group work at a lathe; nothing where the log is empty.
pub(in crate::plan) fn seen(worked: &[(usize, &Task, Answer)], log: &Logged) -> Vec<AtLathe> {
    if log.cuts.is_empty() {
        return Vec::new();
    }
    let of = |(at, task, answer): &(usize, &Task, Answer)| {
        let set_up = answer.set_ups.iter().find(|set_up| set_up.station == Station::Lathe)?;
        let declared = task.request.declared();
        let is_truing = declared.iter().any(|name| name.part == Some(OfPart::Leaves(PartSize::RunOut)));
        let held_in = task.request.hold().map(|hold| hold.held_in.value);
        Some(AtLathe { at: *at, machine: format!("{:?}", set_up.machine), held_in, is_truing })
    };
    worked.iter().filter_map(of).collect()
}

/// What is doubtful of work that is to be done in a hold which other work took since the part was set true in it.
pub(in crate::plan) fn doubtful(tasks: &[Task], seen: &[AtLathe], log: &Logged) -> Vec<(Option<Address>, Check)> {
    let task = |own: &AtLathe| tasks.get(own.at);
    let done = |own: &AtLathe| log.logged(&task(own)?.address);
    let mut all = Vec::new();
    for (nth, truing) in seen.iter().enumerate().filter(|(_, own)| own.is_truing) {
        let Some((by, trued)) = task(truing).zip(done(truing)) else { continue };
        let behind = seen.iter().skip(nth + 1).filter(|own| task(own).is_some_and(|own| own.part.name == by.part.name));
        let open: Vec<&AtLathe> = behind
            .take_while(|own| !own.is_truing && as_held(own, truing))
            .filter(|own| task(own).is_some_and(|task| log.logged(&task.address).is_none()))
            .collect();
        if open.is_empty() {
            continue;
        }
        let took = seen.iter().filter(|own| own.machine == truing.machine && own.at != truing.at);
        let mut took = took.filter(|own| task(own).is_some_and(|own| own.part.name != by.part.name));
        let is_since = |own: &&AtLathe| task(own).zip(done(own)).is_some_and(|own| since((by, trued), own));
        let Some(other) = took.find(is_since).and_then(task) else { continue };
        all.extend(open.into_iter().filter_map(task).map(|task| {
            let check = Check::of_kind("trued-given-up", Verdict::Doubtful).of_every_set_up().at(task.place);
            let check = check.with("by", by.address.to_string()).with("other", other.address.to_string());
            (Some(task.address.clone()), check)
        }));
    }
    all
}

/// Whether what says nothing of a hold, or says the same, is worked as the part was trued.
fn as_held(own: &AtLathe, truing: &AtLathe) -> bool {
    let same = own.held_in.zip(truing.held_in).is_none_or(|(own, first)| own == first);
    same && own.machine == truing.machine
}

/// Whether by the log one work was done after another: by their days, on one day by their lines; what lines of two logs do not tell may be.
fn since((one, trued): (&Task, &Cut), (own, cut): (&Task, &Cut)) -> bool {
    match trued.date.zip(cut.date).filter(|(one, own)| one != own) {
        Some((one, own)) => own > one,
        None => one.job != own.job || cut.line > trued.line,
    }
}
