//! How long a part is once pieces were parted off its bar: as a piece, as what is left of the bar, or as a cut since left one of them. A
//! length over its faces that is none of these is a slip, or of a piece that nobody told of.

use super::made::{agree, made_by};
use super::place::goes_on_from;
use crate::operations::{Answer, OfPart, PartSize, Station, Value};
use crate::plan::order::Task;
use crate::proof::{Check, Fact, Verdict};

/// The check of a length that no piece has.
const OF_A_PIECE: &str = "length-of-a-piece";

/// Holds each length over faces that a lathe goes by against the pieces that were parted off before it. Those of one part come together,
/// in the order of the files.
pub(in crate::plan) fn check(worked: &mut [(usize, &Task, Answer)]) {
    let found: Vec<Option<(Check, &str)>> =
        (0..).zip(worked.iter()).map(|(at, own)| none_so_long(own, worked.get(..at).unwrap_or_default())).collect();
    for ((.., answer), check) in worked.iter_mut().zip(found) {
        if let Some((check, key)) = check {
            answer.check_of_size(check, key);
        }
    }
}

/// What is said of the first length that no piece has: longer than all of them it cannot be; between them it may have been cut otherwise.
fn none_so_long(
    (_, own, answer): &(usize, &Task, Answer),
    before: &[(usize, &Task, Answer)],
) -> Option<(Check, &'static str)> {
    answer.set_ups.iter().any(|set_up| set_up.station == Station::Lathe).then_some(())?;
    let of_part = || before.iter().filter(|(_, by, _)| by.part.name == own.part.name);
    let parts_a_bar =
        |by: &Task| by.request.declared().iter().any(|name| name.part == Some(OfPart::Leaves(PartSize::Bar)));
    let (_, by, _) = of_part().rev().find(|(_, by, _)| parts_a_bar(by))?;
    let lengths: Vec<&Value> = of_part()
        .flat_map(|(_, by, cut)| made_by(by, cut))
        .filter(|made| is_length(made.size))
        .map(|made| made.left)
        .collect();
    let longest = lengths.iter().map(|left| end(left)).reduce(f64::max)?;
    let declared = own.request.declared();
    declared.iter().find_map(|name| {
        let Some(OfPart::Found(size)) = name.part else { return None };
        let length = answer.value(name.key).filter(|_| is_length(size))?;
        let is_one = goes_on_from(own, by) || lengths.iter().any(|left| agree(length, left));
        (!is_one).then(|| {
            let too_long = length.number - length.plus_minus > longest;
            let verdict = if too_long { Verdict::Fails } else { Verdict::Doubtful };
            let all = lengths.iter().map(|left| left.fact()).collect();
            let check =
                Check::of_kind(OF_A_PIECE, verdict).with("length", length.fact()).with("by", by.address.to_string());
            (check.with("pieces", Fact::Series(all, "; ")).at(own.place), name.key)
        })
    })
}

/// Whether a size is the length of a piece.
const fn is_length(size: PartSize) -> bool {
    matches!(size, PartSize::Faces | PartSize::Bar)
}

/// The most that a length may be.
fn end(length: &Value) -> f64 {
    length.band.map_or(length.number, |(_, high)| high) + length.plus_minus
}
