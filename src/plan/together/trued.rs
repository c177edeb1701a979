//! What a part was trued to is how true it runs in the cuts that follow in that hold: none is held closer than that.

use crate::handbook::StateKind;
use crate::handbook::constants::row;
use crate::operations::{Answer, Hold, OfPart, PartSize, SetUp, Station};
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

/// The machine that an operation is held on.
fn machine(answer: &Answer) -> Option<&Words> {
    answer.set_ups.first().map(|set_up| &set_up.machine)
}

/// Whether two are held alike, on one machine as far as that is known.
fn held_alike((one, on): (&Hold, Option<&Words>), (other, other_on): (&Hold, Option<&Words>)) -> bool {
    let width = |hold: &Hold| hold.diameter.as_ref().map(|at| at.value.number());
    // Gripped on another diameter it was turned round, or moved along.
    let apart = row("turned-down-least").map_or(0.0, |row| row.value);
    let same_grip = width(one).zip(width(other)).is_none_or(|(one, other)| (one - other).abs() < apart);
    let alike = one.held_in.value == other.held_in.value && one.grips_inside() == other.grips_inside() && same_grip;
    alike && (on == other_on || on.is_none() || other_on.is_none())
}

/// What was trued, taken out for work in another hold and put back is as true as any work that is put into its jaws; and what was cut
/// before it was trued was cut as it was.
fn put_back(worked: &mut [(usize, &Task, Answer)], trued: &[Option<f64>]) {
    let held =
        |at: usize| worked.get(at).and_then(|(_, task, answer)| Some((*task, task.request.hold()?, machine(answer))));
    let is_truing = |at: usize| trued.get(at).is_some_and(Option::is_some);
    let of = |at: usize| worked.get(at).map(|(_, task, _)| *task);
    // What is done on the bench may be done where it is held; nothing is warmed, chilled or washed there.
    let takes_out = |at: usize| {
        let mut all = worked.get(at).into_iter().flat_map(|(.., answer)| &answer.set_ups);
        let in_a_bath = |set_up: &SetUp| set_up.leaves.iter().any(|state| state.kind == StateKind::Washed);
        all.any(|set_up| set_up.station != Station::Bench || in_a_bath(set_up))
    };
    let mut all: Vec<(usize, Check)> = Vec::new();
    for at in (0..worked.len()).filter(|at| is_truing(*at)) {
        let Some((task, hold, on)) = held(at) else { continue };
        let of_part = |other: &usize| of(*other).is_some_and(|own| own.part.name == task.part.name);
        let here = |other: usize| held(other).is_some_and(|(_, own, own_on)| held_alike((hold, on), (own, own_on)));
        let behind: Vec<usize> =
            (at + 1..worked.len()).filter(of_part).take_while(|other| !is_truing(*other)).collect();
        let away = behind.iter().position(|other| takes_out(*other) && !here(*other));
        let back = away.and_then(|away| behind.iter().skip(away).find(|other| here(**other)));
        let moved = away.and_then(|away| of(*behind.get(away)?)).map(|own| own.address.to_string());
        if let (Some(back), Some(moved)) = (back, moved)
            && let Some(asks) = held(*back).and_then(|(_, own, _)| own.true_within.as_ref())
        {
            let check = Check::of_kind("trued-and-moved", Verdict::Doubtful).with("by", task.address.to_string());
            let check = check.with("moved", moved).with("hold", hold.named_on_a_lathe());
            all.push((*back, check.at(asks.place)));
        }
        let cuts_here = |other: &usize| here(*other) && !is_truing(*other);
        let goes_on = (at + 1..worked.len()).filter(of_part).any(|other| cuts_here(&other));
        let before = (0..at).rev().filter(of_part).take_while(|other| !is_truing(*other)).find(cuts_here);
        if let Some((before, ..)) = before.filter(|_| !goes_on).and_then(held) {
            let check = Check::of_kind("trued-too-late", Verdict::Doubtful).with("before", before.address.to_string());
            all.push((at, check.at(task.place)));
        }
    }
    for (at, check) in all {
        worked.get_mut(at).into_iter().for_each(|(.., answer)| {
            answer.check(check.clone());
        });
    }
}

/// Holds what is held next after a truing against it: in another hold it is not true any more, and nobody cut it while it was.
fn moved(worked: &mut [(usize, &Task, Answer)], trued: &[Option<f64>]) {
    let held =
        |at: usize| worked.get(at).and_then(|(_, task, answer)| Some((*task, task.request.hold()?, machine(answer))));
    let next = |at: usize| {
        let (task, hold, on) = held(at).filter(|_| trued.get(at).is_some_and(Option::is_some))?;
        let behind = (at + 1..worked.len()).filter_map(|other| Some((other, held(other)?)));
        let mut of_part = behind.filter(|(_, (other, ..))| other.part.name == task.part.name);
        let (other, (_, other_hold, other_on)) = of_part.next()?;
        // What says nothing of a hold, as a polish does not, is worked in the one that was trued.
        let between = worked.get(at + 1..other).unwrap_or_default().iter();
        let mut used = between.filter(|(_, by, _)| by.part.name == task.part.name && by.request.hold().is_none());
        if used.any(|(.., by)| by.set_ups.iter().any(|set_up| set_up.station == Station::Lathe)) {
            return None;
        }
        let same = held_alike((hold, on), (other_hold, other_on));
        let asks =
            other_hold.true_within.as_ref().filter(|_| !same && trued.get(other).is_some_and(Option::is_none))?;
        let check = Check::of_kind("trued-elsewhere", Verdict::Doubtful).with("by", task.address.to_string());
        Some((other, check.with("hold", hold.named_on_a_lathe()).at(asks.place)))
    };
    let all: Vec<(usize, Check)> = (0..worked.len()).filter_map(next).collect();
    for (at, check) in all {
        worked.get_mut(at).into_iter().for_each(|(.., answer)| {
            answer.check(check.clone());
        });
    }
}

/// What is worked behind a truing, as it is held there, that by the log is not finished: it is not true yet.
fn not_yet(worked: &mut [(usize, &Task, Answer)], trued: &[Option<f64>]) {
    let is_truing = |at: usize| trued.get(at).is_some_and(Option::is_some);
    let mut all: Vec<(usize, Check)> = Vec::new();
    for (at, (_, by, _)) in worked.iter().enumerate().filter(|(at, own)| is_truing(*at) && own.2.is_unfinished()) {
        let behind = worked.iter().enumerate().skip(at + 1).filter(|(_, (_, task, _))| task.part.name == by.part.name);
        let behind = behind.take_while(|(other, _)| !is_truing(*other));
        let as_held = |task: &Task| {
            let kinds = task.request.hold().zip(by.request.hold());
            kinds.is_none_or(|(own, first)| own.held_in.value == first.held_in.value)
        };
        let on_it = |answer: &Answer| answer.set_ups.iter().any(|set_up| set_up.station == Station::Lathe);
        let of_it = behind.filter(|(_, (_, task, answer))| as_held(task) && on_it(answer));
        all.extend(of_it.map(|(other, (_, task, _))| {
            let check = Check::of_kind("trued-not-yet", Verdict::Doubtful).of_every_set_up();
            (other, check.with("by", by.address.to_string()).at(task.place))
        }));
    }
    for (at, check) in all {
        worked.get_mut(at).into_iter().for_each(|(.., answer)| {
            answer.check(check.clone());
        });
    }
}

/// A run-out that is asked for and that no truing leaves.
fn hardly_meant(task: &Task, most: f64) -> Option<Check> {
    let hold = task.request.hold()?;
    let (within, diameter) = (hold.true_within.as_ref()?, hold.diameter.as_ref()?);
    let wide = within.value.number() > most * diameter.value.number();
    let check = Check::of_kind("true-within-meant", Verdict::Doubtful).with("within", Fact::mm(within.value.number()));
    wide.then(|| check.with("gripped", Fact::mm(diameter.value.number())).at(within.place))
}

/// Holds each cut against the truing that stands before it on its part, in the same kind of hold.
pub(in crate::plan) fn check(worked: &mut [(usize, &Task, Answer)]) {
    let trued: Vec<Option<f64>> = worked.iter().map(|(_, task, answer)| leaves_true(task, answer)).collect();
    moved(worked, &trued);
    put_back(worked, &trued);
    not_yet(worked, &trued);
    let most = row("true-within-of-diameter").map_or(f64::INFINITY, |row| row.value);
    for (_, task, answer) in worked.iter_mut() {
        hardly_meant(task, most).into_iter().for_each(|check| {
            answer.check(check);
        });
    }
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
