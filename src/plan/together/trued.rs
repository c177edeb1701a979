//! What a part was trued to is how true it runs in the cuts that follow in that hold: none is held closer than that.

use crate::operations::{Answer, OfPart, PartSize};
use crate::plan::order::Task;
use crate::proof::{Check, Fact, Verdict, Words};
use crate::quantity::Quantity;

/// How true an operation leaves the part: as it was read, else as far off as it may stay; mm in a turn.
fn leaves_true(task: &Task, answer: &Answer) -> Option<f64> {
    let declared = task.request.declared();
    let run_out = declared.iter().filter(|name| name.part == Some(OfPart::Leaves(PartSize::RunOut)));
    let values: Vec<_> = run_out.filter_map(|name| answer.value(name.key)).collect();
    let read = values.iter().filter(|value| value.origin.entry().is_some()).map(|value| value.number);
    read.reduce(f64::max).or_else(|| values.iter().map(|value| value.number).reduce(f64::max))
}

/// Holds each cut against the truing that stands before it on its part, in the same kind of hold.
pub(in crate::plan) fn check(worked: &mut [(usize, &Task, Answer)]) {
    let trued: Vec<Option<f64>> = worked.iter().map(|(_, task, answer)| leaves_true(task, answer)).collect();
    for own in 0..worked.len() {
        let Some((_, task, _)) = worked.get(own) else { continue };
        let Some(hold) = task.request.hold().filter(|_| trued.get(own).is_some_and(Option::is_none)) else { continue };
        let Some(asked) = &hold.true_within else { continue };
        let before = worked.iter().zip(&trued).take(own).rev().find_map(|((_, other, _), trued)| {
            let same = other.request.hold().is_some_and(|other| other.held_in.value == hold.held_in.value);
            (*trued)
                .filter(|_| same && other.part.name == task.part.name)
                .map(|trued| (trued, other.address.to_string()))
        });
        let Some((trued, by)) = before.filter(|(trued, _)| *trued > asked.value.number() + 1e-9) else { continue };
        let check = Check::of_kind("trued-so-closely", Verdict::Doubtful).with("by", by).with("trued", Fact::mm(trued));
        let check = check.with("asked", Fact::mm(asked.value.number())).at(asked.place);
        if let Some((_, _, answer)) = worked.get_mut(own) {
            answer.check(check).remedy(Words::of("true-it-closer").with("asked", Fact::mm(asked.value.number())));
        }
    }
}
