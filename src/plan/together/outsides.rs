//! One outside of which two operations speak: about a bore that both name as one feature there is one wall, and it is not thick for the one
//! and thin for the other.

use super::place::one_feature;
use crate::handbook::constants::row;
use crate::operations::{Answer, OfPart, PartSize, Value};
use crate::plan::order::Task;
use crate::proof::{Check, Fact, Verdict};

/// The check of an outside that another operation has otherwise.
const ONE_OUTSIDE: &str = "one-outside";

/// Holds the outside about the bore of each operation against that of the others of its feature. Those of one part come together.
pub(in crate::plan) fn check(worked: &mut [(usize, &Task, Answer)]) {
    let found: Vec<Option<Check>> = (0..)
        .zip(worked.iter())
        .map(|(at, own)| {
            let others = (0..).zip(worked.iter()).filter(|(other, _): &(usize, _)| *other != at);
            others.into_iter().find_map(|(_, by)| otherwise(own, by))
        })
        .collect();
    for ((.., answer), check) in worked.iter_mut().zip(found) {
        if let Some(check) = check {
            answer.check_of_size(check, "");
        }
    }
}

/// What is said of an outside that another operation of the same feature has smaller; none where the two may be one.
fn otherwise((_, own, answer): &(usize, &Task, Answer), (_, by, other): &(usize, &Task, Answer)) -> Option<Check> {
    (own.part.name == by.part.name && one_feature(own, by) == Some(true)).then_some(())?;
    let (mine, its) = (around(own, answer)?, around(by, other)?);
    let near = row("fit-size-near").map_or(0.0, |row| row.value);
    // The thicker of the two is the one that is too sure of its wall.
    let is_otherwise = mine.unit == its.unit && mine.number - its.number > near + mine.plus_minus + its.plus_minus;
    is_otherwise.then(|| {
        let figure = |value: &Value| Fact::figure(value.number, value.unit);
        let check = Check::of_kind(ONE_OUTSIDE, Verdict::Doubtful).at(own.place).with("by", by.address.to_string());
        check.with("own", figure(mine)).with("other", figure(its))
    })
}

/// The outside about its bore that an operation found.
fn around<'a>(task: &Task, answer: &'a Answer) -> Option<&'a Value> {
    let declared = task.request.declared();
    let name = declared.iter().find(|name| name.part == Some(OfPart::Found(PartSize::Around)))?;
    answer.value(name.key)
}
