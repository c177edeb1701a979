//! The machine with a spindle over the work.

use crate::operations::kit::{machine_for, machine_named, that_drills};
use crate::operations::{Answer, Bench, SetUpWish, Station};
use crate::proof::Words;
use crate::shop::Machine;

/// The machine named, else the first mill or drill press.
pub(in crate::operations) fn machine<'a>(bench: &Bench<'a>, wish: Option<&SetUpWish>) -> Option<&'a Machine> {
    match wish.and_then(|wish| wish.machine.as_ref()) {
        Some(_) => machine_named(bench, wish),
        None => machine_for(bench, None, that_drills),
    }
}

/// Puts its name on record; a machine that nobody named is assumed, and without one no step is checked.
pub(in crate::operations) fn named_machine(machine: Option<&Machine>, wish: Option<&SetUpWish>, answer: &mut Answer) {
    let Some(machine) = machine else {
        answer.fact("machine", Station::Drilling.named());
        answer.assume_words(Words::of("steps-not-checked"));
        return;
    };
    answer.fact("machine", machine.name());
    if wish.and_then(|wish| wish.machine.as_ref()).is_none() {
        answer.assume_words(Words::of("machine"));
    }
}
