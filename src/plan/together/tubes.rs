//! A bore along the axis of a part and an outside that is turned over it: each may have been judged by what it found, and what is left
//! between the two is as thin as both leave it.

use super::hollow::along_the_axis;
use super::made::{Made, made_by, share};
use super::place::one_feature;
use crate::operations::{Answer, PartSize, Value};
use crate::plan::order::Task;
use crate::proof::{Check, Fact, Verdict};

/// The check of a wall between a bore of one operation and the outside of another.
const WALL_BETWEEN: &str = "wall-between";
/// How far a cut goes along the axis, and how long the part is.
const LENGTHS: [&str; 2] = ["length_cut", "part_length"];

/// An operation, its place in the file and what it gave.
type Worked<'a, 'b> = (usize, &'a Task<'b>, Answer);

/// Holds what each operation turns over its part against the bores that the others make in it, whichever comes first. Those of one part
/// come together.
pub(in crate::plan) fn check(worked: &mut [(usize, &Task, Answer)]) {
    let found: Vec<Option<Check>> = (0..worked.len())
        .map(|at| {
            let own = worked.get(at)?;
            let others = worked.iter().enumerate().filter(|(other, _)| *other != at);
            others.into_iter().find_map(|(_, by)| thin(own, by, own).or_else(|| thin(by, own, own)))
        })
        .collect();
    for ((.., answer), check) in worked.iter_mut().zip(found) {
        if let Some(check) = check {
            answer.check_of_size(check, "");
        }
    }
}

/// What is said on the sheet of one of the two, where what one turns and the other bores leave less than stands a cut.
fn thin(turned: &Worked, bored: &Worked, own: &Worked) -> Option<Check> {
    (turned.1.part.name == bored.1.part.name && !lie_apart(turned, bored)).then_some(())?;
    let outside = made(turned, |made| made.size == PartSize::Outside && !made.takes_nothing())?;
    let bore = along_the_axis(bored.1, &bored.2, Some(outside))?.left;
    let least = share("wall-cut-least").max(share("wall-cut-share") * outside.number);
    let low = outside.band.map_or(outside.number, |(low, _)| low) - outside.plus_minus;
    let high = bore.band.map_or(bore.number, |(_, high)| high) + bore.plus_minus;
    let wall = (low - high) / 2.0;
    (wall < least).then(|| {
        let by = if std::ptr::eq(own, turned) { bored } else { turned };
        let mm = |number: f64| Fact::figure(number, outside.unit);
        let check =
            Check::of_kind(WALL_BETWEEN, Verdict::Doubtful).at(own.1.place).with("by", by.1.address.to_string());
        check.with("outside", mm(low)).with("hole", mm(high)).with("wall", mm(wall)).with("least", mm(least))
    })
}

/// The size that an operation leaves of a kind.
fn made<'a>((_, task, answer): &'a Worked, is_it: impl Fn(&Made) -> bool) -> Option<&'a Value> {
    made_by(task, answer).into_iter().find(|made| is_it(made)).map(|made| made.left)
}

/// Whether the two lie at other ends of the part: both say so by a feature, and both are short enough for it.
fn lie_apart(one: &Worked, other: &Worked) -> bool {
    let number = |(.., answer): &Worked, key| answer.value(key).map(|value| value.number);
    let [cut, whole] = LENGTHS;
    let both = number(one, cut).zip(number(other, cut)).map(|(one, other)| one + other);
    let whole = number(one, whole).or_else(|| number(other, whole));
    let overlap = both.zip(whole).is_some_and(|(both, whole)| both > whole);
    one_feature(one.1, other.1) == Some(false) && !overlap
}
