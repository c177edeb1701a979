//! What counts on an earlier cut along the axis further than that went: a cut that goes on from it, a piece that is parted off behind it, a
//! bush that is longer than the bore made for it, jaws that grip what was turned, a bore that was typed and is drilled no further. From
//! there on the metal still stands as it was found, and the tool would meet all of it at once, or the bush its bottom.

use super::held_on::makes_it;
use super::made::{Made, agree, made_by};
use super::place::goes_on_from;
use crate::handbook::constants::row;
use crate::operations::{Answer, OfPart, PartSize, Value};
use crate::plan::order::Task;
use crate::proof::{Check, Fact, Verdict};
use crate::quantity::Quantity;

/// The check of a diameter that is found along all of a cut.
const AS_FAR: &str = "as-far-as-it-was-cut";
/// How far a cut goes along the axis.
const LENGTH: &str = "length_cut";
/// Where a piece is parted off, from the same end.
const PARTED: &str = "length_parted";
/// How far a bush goes in.
const SEAT: &str = "housing_length";

/// Holds each cut of a diameter against those of its part that made it. Those of one part come together, in the order of the file.
pub(in crate::plan) fn check(worked: &mut [(usize, &Task, Answer)]) {
    let found: Vec<Option<Check>> = (0..)
        .zip(worked.iter())
        .map(|(at, own)| {
            let mut before = worked.get(..at).unwrap_or_default().iter().rev();
            let further = before.clone().find_map(|by| goes_further(own, by));
            let further = further.or_else(|| not_through(own, before.clone()));
            further.or_else(|| before.find_map(|by| grips_further(own, by)))
        })
        .collect();
    for ((.., answer), check) in worked.iter_mut().zip(found) {
        if let Some(check) = check {
            answer.check_of_size(check, "");
        }
    }
}

/// What is said of a cut that goes further than the one that made the diameter it begins at; none where that went as far.
fn goes_further((_, own, answer): &(usize, &Task, Answer), (_, by, cut): &(usize, &Task, Answer)) -> Option<Check> {
    (own.part.name == by.part.name).then_some(())?;
    let made = made_by(by, cut);
    let of = |made: &&Made| matches!(made.size, PartSize::Outside | PartSize::Inside) && !made.takes_nothing();
    let made = made.iter().find(of)?;
    let goes_on = goes_on_from(own, by);
    let went = cut.value(LENGTH)?;
    let stood = made.found?;
    let (found, far) = counts_on(own, answer, made.size)?;
    // By chance a diameter is read alike; read as the metal that stands beyond, it is that.
    (goes_on || (agree(found, made.left) && !agree(found, stood))).then_some(())?;
    let end = |value: &Value| value.band.map_or(value.number, |(_, high)| high);
    (end(far) > end(went) + went.plus_minus).then(|| {
        let verdict = if goes_on { Verdict::Fails } else { Verdict::Doubtful };
        let figure = |value: &Value| Fact::figure(value.number, value.unit);
        let check = Check::of_kind(AS_FAR, verdict).at(own.place).with("by", by.address.to_string());
        check.with("far", figure(far)).with("went", figure(went)).with("stands", figure(stood))
    })
}

/// What is said of work that counts on a bore which was drilled from the solid, and less deep than it goes; none where another bores as far.
fn not_through<'a>(
    (_, own, answer): &(usize, &Task, Answer),
    before: impl Iterator<Item = &'a (usize, &'a Task<'a>, Answer)> + Clone,
) -> Option<Check> {
    let (found, far) = counts_on(own, answer, PartSize::Inside)?;
    let far = far.band.map_or(far.number, |(_, high)| high);
    let bores = before.filter(|(_, by, _)| by.part.name == own.part.name).filter_map(|(_, by, cut)| {
        let all = made_by(by, cut);
        let bore = all.iter().find(|made| made.size == PartSize::Inside && is_the_one(found, made))?;
        let drilled = || all.iter().find(|made| made.size == PartSize::Depth).map(|made| made.left);
        let went = if bore.found.is_none() { drilled() } else { cut.value(LENGTH) }?;
        Some((*by, went.clone(), bore.found.is_none()))
    });
    let reaches = |went: &Value| far <= went.number + went.plus_minus;
    let stops = |(_, went, is_drilled): &(&Task, Value, bool)| *is_drilled && !reaches(went);
    let (by, went, _) = bores.clone().find(stops).filter(|_| !bores.clone().any(|(_, went, _)| reaches(&went)))?;
    let check = Check::of_kind(AS_FAR, Verdict::Doubtful).at(own.place).with("by", by.address.to_string());
    let check = check.with("far", Fact::mm(far)).with("went", Fact::figure(went.number, went.unit));
    Some(check.with("stands", Fact::named("solid-metal")))
}

/// Whether a bore that somebody counts on is the one that is made: what takes no reading is typed as it is called.
fn is_the_one(bore: &Value, made: &Made) -> bool {
    let near = row("fit-size-near").map_or(0.0, |row| row.value);
    let is_called_so = bore.number > 0.0 && bore.plus_minus <= 0.0 && (bore.number - made.left.number).abs() <= near;
    bore.unit == made.left.unit && (is_called_so || agree(bore, made.left))
}

/// What is said of a grip that is longer than the step on which it grips, which was turned, or bored, no further along; and of a cut from
/// the other end that comes so far along as to meet that step.
fn grips_further((_, own, answer): &(usize, &Task, Answer), (_, by, cut): &(usize, &Task, Answer)) -> Option<Check> {
    (own.part.name == by.part.name).then_some(())?;
    let hold = own.request.operation().gripped()?;
    let on = if hold.fills_the_bore() { PartSize::Inside } else { PartSize::Outside };
    let (gripped, grip) = (hold.diameter.as_ref()?, hold.grip.as_ref()?);
    let made = made_by(by, cut).into_iter().find(|made| made.size == on && makes_it(made, gripped.value.number()))?;
    let went = cut.value(LENGTH)?;
    let over = Some(grip.value.number()).filter(|grip| *grip > went.number + went.plus_minus);
    // Worked from the other end, the two cuts share the length of the part.
    let cuts = answer.value(LENGTH).filter(|_| made_by(own, answer).iter().any(|made| made.size == on));
    let whole = found_of(own, answer, PartSize::Bar).or_else(|| found_of(by, cut, PartSize::Bar));
    let meets = cuts.zip(whole).filter(|(cuts, whole)| cuts.number + went.number > whole.number + whole.plus_minus);
    let far = over.or(meets.map(|(cuts, _)| cuts.number))?;
    let figure = |value: &Value| Fact::figure(value.number, value.unit);
    let check = Check::of_kind(AS_FAR, Verdict::Doubtful).at(grip.place).with("by", by.address.to_string());
    let check = check.with("far", Fact::mm(far)).with("went", figure(went));
    Some(check.with("stands", made.found.map_or_else(|| Fact::mm(0.0), figure)))
}

/// A size of the part that an operation found.
fn found_of<'a>(of: &Task, answer: &'a Answer, size: PartSize) -> Option<&'a Value> {
    let declared = of.request.declared();
    let name = declared.iter().find(|name| name.part == Some(OfPart::Found(size)))?;
    answer.value(name.key)
}

/// A diameter that an operation counts on, and how far: what it found and cuts, what it parts off, what it presses into.
fn counts_on<'a>(own: &Task, answer: &'a Answer, made: PartSize) -> Option<(&'a Value, &'a Value)> {
    let found = |size: PartSize| found_of(own, answer, size);
    let cut = || Some((found(made)?, answer.value(LENGTH)?));
    let parted = || Some((answer.value("outside")?, answer.value(PARTED)?)).filter(|_| made == PartSize::Outside);
    let bored = || Some((answer.value("inside")?, answer.value(PARTED)?)).filter(|_| made == PartSize::Inside);
    let pressed = || Some((found(PartSize::Seat)?, answer.value(SEAT)?)).filter(|_| made == PartSize::Inside);
    cut().or_else(parted).or_else(bored).or_else(pressed)
}
