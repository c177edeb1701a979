//! What a part is gripped on, or opened in: a diameter that an earlier cut took away is there only as far as that cut did not come.

use crate::handbook::constants::row;
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
    let found: Vec<Option<Check>> =
        (0..).zip(worked.iter()).map(|(at, own)| gone(own, worked.get(..at).unwrap_or_default())).collect();
    for ((.., answer), check) in worked.iter_mut().zip(found) {
        if let Some(check) = check {
            answer.check_of_size(check, "");
        }
    }
}

/// What an earlier cut took off of what is gripped.
struct Taken<'a> {
    by: &'a Task<'a>,
    found: &'a Value,
    left: &'a Value,
    /// The length of the part over both ends, as that cut had it.
    whole: &'a Value,
    /// How far along the part, at the most, mm.
    along: f64,
}

/// What is said of a grip on what earlier cuts took off; nothing where what they left standing is long enough to be gripped.
fn gone((_, own, answer): &(usize, &Task, Answer), before: &[(usize, &Task, Answer)]) -> Option<Check> {
    let hold = own.request.operation().gripped()?;
    let on = if hold.grips_inside() { PartSize::Inside } else { PartSize::Outside };
    let (gripped, grip) = (hold.diameter.as_ref()?, hold.grip.as_ref()?);
    let of_part = before.iter().filter(|(_, by, _)| by.part.name == own.part.name);
    let taken: Vec<Taken> = of_part.filter_map(|(_, by, cut)| taken(by, cut, (on, gripped.value.number()))).collect();
    let last = taken.last()?;
    let whole = size(own, answer, OfPart::Found(PartSize::Bar)).unwrap_or(last.whole);
    // What is sure to stand beside all of them: they may have come from both ends. One place is not cut off twice.
    let place = |one: &Taken| {
        one.by.request.set_up().and_then(|wish| wish.feature.as_ref().map(|at| at.value.key().to_owned()))
    };
    let again = |at: usize, one: &Taken| {
        let named = place(one);
        named.is_some() && taken.iter().take(at).any(|other| place(other) == named)
    };
    let cut: f64 = taken.iter().enumerate().filter(|(at, one)| !again(*at, one)).map(|(_, one)| one.along).sum();
    // A place of another name is the other end, which is in the jaws: they reach so far along from the end that is worked.
    let worked = own.request.set_up().and_then(|wish| wish.feature.as_ref().map(|at| at.value.key().to_owned()));
    // Who goes on from the very diameter that a cut left works at its end.
    let goes_on = |one: &Taken| {
        let mut named = own.named.addresses.iter().filter(|at| at.value.owner() == one.by.address);
        named.any(|at| at.value.value.as_deref() == Some(one.left.key))
    };
    let is_away = |one: &Taken| worked.is_some() && place(one).is_some_and(|at| Some(at) != worked) && !goes_on(one);
    let in_the_jaws = taken.iter().filter(|one| is_away(one)).map(|one| one.along).fold(0.0, f64::max);
    let standing = whole.number - whole.plus_minus;
    let gripped_over = grip.value.number();
    // Where nobody says how far it stands out, it is gripped at its very end.
    let reach = hold.overhang.as_ref().map_or(standing - gripped_over, |out| out.value.number());
    let is_held_there = in_the_jaws > 0.0 && reach + gripped_over > standing - in_the_jaws;
    if gripped_over <= standing - cut && !is_held_there {
        return None;
    }
    let by = last.by.address.to_string();
    let mut check =
        Check::of_kind(STILL_THERE, Verdict::Doubtful).with("size", last.found.means).with("by", by.clone());
    check.remedy(Words::of("grip-what-is-left").with("by", by).with("left", last.left.fact()));
    Some(check.at(gripped.place))
}

/// What one cut took off of such a diameter; nothing where it found or left another.
fn taken<'a>(by: &'a Task<'a>, cut: &'a Answer, (on, gripped): (PartSize, f64)) -> Option<Taken<'a>> {
    let of = |which| size(by, cut, which);
    let (found, left) = (of(OfPart::Found(on))?, of(OfPart::Leaves(on))?);
    // What is gripped is typed as the bar is called.
    let near = row("fit-size-near").map_or(0.0, |row| row.value);
    let off = |size: &Value| (gripped - size.number).abs();
    let is_of = |size: &Value| off(size) <= size.plus_minus + DUST;
    let along = cut.value("length_cut")?;
    let along = along.number + along.plus_minus;
    let whole = of(OfPart::Found(PartSize::Bar))?;
    let is_found = off(found) <= near + found.plus_minus && off(found) < off(left);
    (is_found && !is_of(left)).then_some(Taken { by, found, left, whole, along })
}

/// The size of the part that an operation finds or leaves.
fn size<'a>(of: &Task, answer: &'a Answer, which: OfPart) -> Option<&'a Value> {
    let declared = of.request.declared();
    declared.iter().find(|name| name.part == Some(which)).and_then(|name| answer.value(name.key))
}
