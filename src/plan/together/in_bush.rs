//! A bore that is cut in a bush which was put in before: it is the bush that is cut, not the part. What is left of the bush grips no better
//! than so thin a bush does, and where nothing is left of it the housing is cut.

use super::made::{CAME, Made, made_by, share};
use super::place::{goes_on_from, here};
use crate::handbook::joints::reaming::{NotReamed, forbids_reaming};
use crate::handbook::{Material, StateKind};
use crate::operations::{Answer, OfPart, PartSize, SetUp, Value};
use crate::plan::order::Task;
use crate::proof::{Check, Fact, Outcome, Verdict, Words};

/// The check of the metal that a bore is worked for.
const METAL: &str = "metal-bored";

/// The check of what a cut leaves of the bush.
const LEFT_OF_IT: &str = "bush-left-standing";
/// The check of a joint whose bush is bored thinner than it was judged.
const AS_BORED: &str = "bush-as-bored";
/// Whether a bush may be bored at all, where somebody said that it is.
const MAY_BE: &str = "may-be-bored";
/// The outside of a bush.
const OUTSIDE: &str = "bush_outside";

/// Holds each operation that widens a bore of its part against the bushes that were put in before it. Those of one part come together, in
/// the order of the file.
pub(in crate::plan) fn check(worked: &mut [(usize, &Task, Answer)]) {
    let found: Vec<Option<Check>> = (0..)
        .zip(worked.iter())
        .map(|(at, own)| worked.get(..at).unwrap_or_default().iter().rev().find_map(|by| of_bush(own, by)))
        .collect();
    let joints: Vec<Option<Check>> = worked.iter().map(|own| as_bored(own, worked)).collect();
    let left: Vec<Option<Check>> = worked.iter().map(|own| left_of_it(own, worked)).collect();
    for ((.., answer), ((check, joint), left)) in worked.iter_mut().zip(found.into_iter().zip(joints).zip(left)) {
        if let Some(check) = check {
            answer.check(check);
        }
        if let Some(check) = left {
            answer.check_of_size(check, "");
        }
        if let Some(check) = joint {
            let id = check.id;
            answer.check(check);
            // What is pressed in is judged at the press.
            let joins = |set_up: &&mut SetUp| set_up.leaves.iter().any(|state| state.kind == StateKind::Pressed);
            if let Some(set_up) = answer.set_ups.iter_mut().find(joins) {
                set_up.checks.push(id);
            }
        }
    }
}

/// What a cut makes of the bore of a bush: the wall that is left at its thinnest, and the one that the joint was judged with.
struct Thinned<'a> {
    bore: Made<'a>,
    wall: f64,
    judged: f64,
}

/// What an operation cuts off the bush that another put in before; nothing where it cuts another bore.
fn thinned<'a>(
    (at, own, answer): &'a (usize, &Task, Answer),
    (other, by, put): &(usize, &Task, Answer),
) -> Option<Thinned<'a>> {
    by.request.operation().puts_in().filter(|_| other < at && by.part.name == own.part.name)?;
    let cut = |made: &Made| made.size == PartSize::Inside && made.found.is_some() && !made.takes_nothing();
    let bore = made_by(own, answer).into_iter().find(cut)?;
    (goes_on_from(own, by) || is_there((own, answer), (by, put))).then_some(())?;
    let (outside, came) = (put.value(OUTSIDE)?, put.value(CAME)?);
    let wall = (outside.number - outside.plus_minus - bore.ends().1) / 2.0;
    Some(Thinned { bore, wall, judged: (outside.number - came.number) / 2.0 })
}

/// What is said of a joint whose bush is bored behind it: thinner by more than nothing that counts, or bored though nobody said so.
fn as_bored(own: &(usize, &Task, Answer), all: &[(usize, &Task, Answer)]) -> Option<Check> {
    let (_, task, answer) = own;
    let cuts = all.iter().filter_map(|by| Some((by.1, thinned(by, own)?)));
    let (by, cut) = cuts.min_by(|a, b| a.1.wall.total_cmp(&b.1.wall))?;
    let is_unsaid = answer.checks.iter().any(|check| check.id == MAY_BE && check.state == Outcome::DoesNotApply);
    let is_thin = cut.wall < (1.0 - share("bush-wall-bored-off")) * cut.judged;
    (is_thin || is_unsaid).then(|| {
        let check = Check::of_kind(AS_BORED, Verdict::Doubtful).at(task.place).with("by", by.address.to_string());
        let mut check = check.with("wall", Fact::mm(cut.wall.max(0.0))).with("judged", Fact::mm(cut.judged));
        if is_unsaid && !is_thin {
            check.remedy(Words::of("say-it-is-bored"));
        }
        check
    })
}

/// What is said of a bore that leaves nothing of the bush that it is cut in.
fn left_of_it(own: &(usize, &Task, Answer), all: &[(usize, &Task, Answer)]) -> Option<Check> {
    let cuts = all.iter().filter_map(|by| Some((by, thinned(own, by)?)));
    let ((_, by, put), cut) = cuts.min_by(|a, b| a.1.wall.total_cmp(&b.1.wall))?;
    let least = share("bush-wall-left-least") * put.value(OUTSIDE)?.number;
    let verdict = if cut.wall <= 0.0 { Verdict::Fails } else { Verdict::Doubtful };
    (cut.wall < least).then(|| {
        let check = Check::of_kind(LEFT_OF_IT, verdict).at(own.1.place).with("by", by.address.to_string());
        check.with("opened", Fact::mm(cut.bore.ends().1)).with("wall", Fact::mm(cut.wall.max(0.0)))
    })
}

/// What is said of a bore that may be that of a bush; nothing where it is another, or worked for the metal of the bush.
fn of_bush((_, own, answer): &(usize, &Task, Answer), (_, by, put): &(usize, &Task, Answer)) -> Option<Check> {
    let bush = by.request.operation().puts_in().filter(|_| by.part.name == own.part.name)?;
    // Whoever judges no metal of a bore bores none.
    let asks = answer.checks.iter().any(|check| check.id == METAL);
    if !asks || !(goes_on_from(own, by) || is_there((own, answer), (by, put))) {
        return None;
    }
    let named = |verdict| Check::of_kind(METAL, verdict).with("by", by.address.to_string()).at(own.place);
    if let Some(NotReamed::Sintered | NotReamed::PtfeLined) = forbids_reaming(&bush.value) {
        let mut check = named(Verdict::Fails);
        check.remedy(Words::of("no-bush-to-bore").with("metal", bush.value.typed().to_owned()));
        return Some(check);
    }
    if cut(answer).is_some_and(|metal| metal.id() == bush.value.id()) {
        return None;
    }
    let mut check = named(Verdict::Doubtful);
    check.remedy(Words::of("say-the-metal-of-the-bush").with("metal", bush.value.typed().to_owned()));
    Some(check)
}

/// Whether the bore that it found is, or may be, that of the bush.
fn is_there((own, answer): (&Task, &Answer), (by, put): (&Task, &Answer)) -> bool {
    let declared = own.request.declared();
    let of_part = declared.iter().filter_map(|name| match name.part {
        Some(OfPart::Found(size)) => Some((size, answer.value(name.key)?)),
        _ => None,
    });
    let found: Vec<(PartSize, &Value)> = of_part.collect();
    let made = made_by(by, put);
    let bores = found.iter().filter(|(size, _)| *size == PartSize::Inside);
    let bushed = made.iter().filter(|made| made.size == PartSize::Bushed);
    let mut pairs = bores.flat_map(|(size, value)| bushed.clone().map(move |made| (*size, *value, made)));
    pairs.any(|pair| here((own, &found), (by, &made), pair).is_some())
}

/// The metal that the cut was worked for.
fn cut(answer: &Answer) -> Option<Material> {
    let (_, metal) = answer.facts.iter().find(|(name, _)| *name == "material")?;
    let Fact::Text(typed) = metal else { return None };
    typed.to_string().parse().ok()
}
