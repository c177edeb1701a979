//! A part that is gripped on a diameter that no operation of it finds, makes or was held on before. Between a diameter that was found and
//! what it was cut to there is no other; and a bar that was held on the very diameter that was cut has these two alone.

use super::made::{Made, made_by};
use crate::handbook::constants::row;
use crate::operations::{Answer, OfPart, PartSize, Value};
use crate::plan::order::Task;
use crate::proof::{Check, Fact, Verdict};
use crate::quantity::Quantity;

/// The check of a diameter that stands nowhere on the part.
const SOMEWHERE: &str = "gripped-where-it-stands";

/// An operation, its place in the file and what it gave.
type Worked<'a, 'b> = (usize, &'a Task<'b>, Answer);

/// Holds each grip against the diameters that are known of its part. Those of one part come together, in the order of the file.
pub(in crate::plan) fn check(worked: &mut [Worked]) {
    let found: Vec<Option<Check>> = (0..worked.len()).map(|at| stands_nowhere(at, worked)).collect();
    for ((.., answer), check) in worked.iter_mut().zip(found) {
        if let Some(check) = check {
            answer.check_of_size(check, "");
        }
    }
}

/// What is said of a grip on no diameter of the part; none where nothing of the part was cut before, and where somebody says that he
/// measured it since.
fn stands_nowhere(at: usize, all: &[Worked]) -> Option<Check> {
    let (_, own, _) = all.get(at)?;
    let hold = own.request.operation().gripped()?;
    let gripped = hold.diameter.as_ref()?;
    let on = if hold.fills_the_bore() { PartSize::Inside } else { PartSize::Outside };
    let mm = gripped.value.number();
    let of_part = || all.iter().filter(|(_, by, _)| by.part.name == own.part.name);
    let before = || all.get(..at).unwrap_or_default().iter().filter(|(_, by, _)| by.part.name == own.part.name);
    let (by, made) = before().rev().find_map(|(_, by, answer)| Some((by, cut(by, answer, on, mm)?)))?;
    let is_read = own.request.set_up().is_some_and(|wish| wish.measured.is_some());
    let first = || before().take_while(|(_, other, _)| other.address != by.address);
    let held = || first().chain(before().filter(|(_, other, _)| other.address == by.address));
    let is_there = of_part().any(|(_, of, answer)| sizes(of, answer, on).any(|value| may_be(value, mm)))
        || held().any(|(_, of, _)| held_on(of, on).is_some_and(|other| is_near(other, mm)));
    if is_read || is_there {
        return None;
    }
    let check = Check::of_kind(SOMEWHERE, Verdict::Doubtful).at(gripped.place).with("by", by.address.to_string());
    let [found, left] = [made.found?, made.left].map(|value| Fact::mm(value.number));
    Some(check.with("gripped", Fact::mm(mm)).with("found", found).with("left", left))
}

/// What an operation cut of a diameter that tells what others the part has: one on either side of what is gripped, or all of a bar.
fn cut<'a>(by: &Task, answer: &'a Answer, on: PartSize, gripped: f64) -> Option<Made<'a>> {
    let made = made_by(by, answer).into_iter().find(|made| made.size == on && !made.takes_nothing())?;
    let found = made.found?;
    let (low, high) = (found.number.min(made.left.number), found.number.max(made.left.number));
    let is_bar = on == PartSize::Outside && held_on(by, on).is_some_and(|held| is_near(held, found.number));
    (is_bar || (low..=high).contains(&gripped)).then_some(made)
}

/// The diameter on which an operation is held, where it is of such a kind.
fn held_on(of: &Task, on: PartSize) -> Option<f64> {
    let hold = of.request.operation().gripped()?;
    let is_bore = hold.fills_the_bore();
    hold.diameter.as_ref().filter(|_| is_bore == (on == PartSize::Inside)).map(|at| at.value.number())
}

/// Every diameter of such a kind that an operation speaks of.
fn sizes<'a>(of: &Task, answer: &'a Answer, on: PartSize) -> impl Iterator<Item = &'a Value> {
    use PartSize::{Around, Bushed, Inside, Outside, Seat};
    let is_it = move |size: PartSize| match on {
        Outside => matches!(size, Outside | Around),
        _ => matches!(size, Inside | Bushed | Seat),
    };
    let named = match on {
        PartSize::Outside => "outside",
        _ => "inside",
    };
    let declared = of.request.declared();
    let own = declared.into_iter().filter(move |name| match name.part {
        Some(OfPart::Found(size) | OfPart::Leaves(size) | OfPart::Opens(size)) => is_it(size),
        _ => name.key == named,
    });
    own.filter_map(|name| answer.value(name.key))
}

/// Whether a diameter may be the one that is gripped.
fn may_be(value: &Value, gripped: f64) -> bool {
    let (low, high) = value.band.unwrap_or((value.number, value.number));
    let near = near() + value.plus_minus;
    (low - near..=high + near).contains(&gripped)
}

fn is_near(one: f64, other: f64) -> bool {
    (one - other).abs() <= near()
}

/// What is gripped is typed as it is called.
fn near() -> f64 {
    row("fit-size-near").map_or(0.0, |row| row.value)
}
