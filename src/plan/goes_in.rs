//! Whether what is made warm goes into the oven: by the part's greatest length, and by what the operation itself says of its sizes.

use super::order::Task;
use crate::operations::{Answer, Station};
use crate::proof::{At, Check, Keep, Worked};
use crate::quantity::{Mm, Quantity};
use crate::shop::{Machine, Shop};

/// Values that no part is smaller than.
const NO_SMALLER: [&str; 3] = ["boss_outside", "bore_length", "housing_outside"];

/// The oven that a task names, else the shop's first, where it says how long what goes in may be.
fn room<'a>(shop: &'a Shop, task: &Task) -> Option<(&'a str, &'a At<Mm>)> {
    let named = task.request.set_up().and_then(|wish| wish.machine.as_ref()).and_then(|at| shop.machine(&at.value));
    let ovens = || shop.machines.iter().filter(|machine| matches!(machine, Machine::Oven(_)));
    let oven = named.filter(|machine| machine.inside().is_some()).or_else(|| ovens().next())?;
    Some((oven.name(), oven.inside()?))
}

/// The check, where the operation has a set-up at the oven and something is known: what is known to fit only by its own sizes may
/// still be longer elsewhere, and is not judged.
pub(super) fn check(task: &Task, answer: &Answer, guard: f64) -> Option<Check> {
    if !answer.set_ups.iter().any(|set_up| set_up.station == Station::Oven) {
        return None;
    }
    let (name, inside) = room(task.shop?, task)?;
    let values = answer.values.iter().filter(|value| NO_SMALLER.contains(&value.key)).map(|value| value.number);
    let own = values.fold(0.0, f64::max);
    let longest = task.of_part.longest.as_ref();
    let size = match longest {
        Some(at) if at.value.number() >= own => Worked::from(at),
        Some(_) => Worked::assumed(Mm::new(own), "the largest of its own sizes"),
        None if own > inside.value.number() => Worked::assumed(Mm::new(own), "the largest of its own sizes"),
        None => return None,
    };
    let check = Check::judge("goes-in", &size, Keep::AtMost, &inside.into(), guard);
    Some(check.with("oven", name.to_owned()).at(longest.map_or(task.place, |at| at.place)))
}
