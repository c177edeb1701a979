//! A bore that is cut in a bush which was put in before: it is the bush that is cut, not the part.

use super::made::made_by;
use super::place::{goes_on_from, here};
use crate::handbook::Material;
use crate::handbook::joints::reaming::{NotReamed, forbids_reaming};
use crate::operations::{Answer, OfPart, PartSize, Value};
use crate::plan::order::Task;
use crate::proof::{Check, Fact, Verdict, Words};

/// The check of the metal that a bore is worked for.
const METAL: &str = "metal-bored";

/// Holds each operation that widens a bore of its part against the bushes that were put in before it. Those of one part come together, in
/// the order of the file.
pub(in crate::plan) fn check(worked: &mut [(usize, &Task, Answer)]) {
    let found: Vec<Option<Check>> = (0..)
        .zip(worked.iter())
        .map(|(at, own)| worked.get(..at).unwrap_or_default().iter().rev().find_map(|by| of_bush(own, by)))
        .collect();
    for ((.., answer), check) in worked.iter_mut().zip(found) {
        if let Some(check) = check {
            answer.check(check);
        }
    }
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
