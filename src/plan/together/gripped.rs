//! What a part is gripped on: a diameter that an earlier cut took away is there only as far as that cut did not come.

use crate::operations::{Answer, OfPart, PartSize, Value};
use crate::plan::order::Task;
use crate::proof::{Check, Verdict, Words};
use crate::quantity::Quantity;

/// The check of a size that another operation takes metal from.
const STILL_THERE: &str = "size-still-there";

/// Under this two lengths are one, mm.
const DUST: f64 = 1e-9;

/// Holds each grip against the diameters that were turned off its part before. Those of one part come together, in the order of the file.
pub(in crate::plan) fn check(worked: &mut [(usize, &Task, Answer)]) {
    let found: Vec<Option<Check>> = (0..)
        .zip(worked.iter())
        .map(|(at, own)| worked.get(..at).unwrap_or_default().iter().rev().find_map(|by| gone(own, by)))
        .collect();
    for ((.., answer), check) in worked.iter_mut().zip(found) {
        if let Some(check) = check {
            answer.check_of_size(check, "");
        }
    }
}

/// What is said of a grip on what an earlier cut took off; nothing where what it left standing is long enough to be gripped.
fn gone((_, own, answer): &(usize, &Task, Answer), (_, by, cut): &(usize, &Task, Answer)) -> Option<Check> {
    let hold = own.request.operation().hold().filter(|hold| !hold.grips_inside() && by.part.name == own.part.name)?;
    let (gripped, grip) = (hold.diameter.as_ref()?, hold.grip.as_ref()?);
    let whole = OfPart::Found(PartSize::Bar);
    let (found, left) = (OfPart::Found(PartSize::Outside), OfPart::Leaves(PartSize::Outside));
    let (found, left) = (size(by, cut, found)?, size(by, cut, left)?);
    let whole = size(own, answer, whole).or_else(|| size(by, cut, whole))?;
    let along = cut.value("length_cut")?;
    let is_of = |size: &Value| (gripped.value.number() - size.number).abs() <= size.plus_minus + DUST;
    // What is sure to stand beside the cut.
    let stands = whole.number - whole.plus_minus - (along.number + along.plus_minus);
    if !is_of(found) || is_of(left) || grip.value.number() <= stands {
        return None;
    }
    let by = by.address.to_string();
    let mut check = Check::of_kind(STILL_THERE, Verdict::Doubtful).with("size", found.means).with("by", by.clone());
    check.remedy(Words::of("grip-what-is-left").with("by", by).with("left", left.fact()));
    Some(check.at(gripped.place))
}

/// The size of the part that an operation finds or leaves.
fn size<'a>(of: &Task, answer: &'a Answer, which: OfPart) -> Option<&'a Value> {
    let declared = of.request.declared();
    declared.iter().find(|name| name.part == Some(which)).and_then(|name| answer.value(name.key))
}
