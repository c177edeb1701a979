//! The machine with a spindle over the work.

use crate::operations::kit::{machine_for, machine_named, that_drills};
use crate::operations::{Answer, Bench, SetUpWish, Station};
use crate::proof::{Check, Verdict, Words};
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

/// The mill named, else the shop's first; `elsewhere` says how well the work goes on another machine that was named. Without one
/// that is to get first.
pub(in crate::operations) fn on_a_mill<'a>(
    bench: &Bench<'a>,
    wish: Option<&SetUpWish>,
    elsewhere: impl Fn(&Machine) -> Verdict,
    answer: &mut Answer,
) -> Option<&'a Machine> {
    const ID: &str = "on-a-mill";
    let named = machine_named(bench, wish);
    let a_mill = |machine: &&Machine| matches!(machine, Machine::Mill(_));
    let mill = named.or_else(|| bench.shop?.machines.iter().find(a_mill));
    named_machine(mill, wish, answer);
    match (mill, bench.shop) {
        (_, None) => answer.no_shop(&[ID]),
        (Some(Machine::Mill(_)), _) => {
            answer.check(Check::of_kind(ID, Verdict::Proven));
        }
        (Some(other), _) => {
            answer.check(Check::of_kind(ID, elsewhere(other)));
        }
        (None, _) => {
            answer.fact("machine", Station::Drilling.named());
            answer.missing.push(Words::of("mill"));
            answer.check(Check::of_kind(ID, Verdict::Doubtful));
        }
    }
    mill
}
