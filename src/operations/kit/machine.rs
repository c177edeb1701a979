//! Which machine of the shop a set-up stands on.

use crate::operations::{Bench, SetUpWish};
use crate::proof::{At, Origin, Worked};
use crate::quantity::{MmPerRev, Steps};
use crate::shop::Machine;

/// The machine that the set-up names, where the shop has it.
pub fn machine_named<'a>(bench: &Bench<'a>, wish: Option<&SetUpWish>) -> Option<&'a Machine> {
    let name = wish?.machine.as_ref()?;
    bench.shop?.machine(&name.value)
}

/// The machine named where it is of such a kind, else the shop's first that is: an operation with several stations names one.
pub fn machine_for<'a, M>(
    bench: &Bench<'a>,
    wish: Option<&SetUpWish>,
    kind: impl Fn(&'a Machine) -> Option<M>,
) -> Option<M> {
    machine_named(bench, wish).and_then(&kind).or_else(|| bench.shop?.machines.iter().find_map(kind))
}

/// A machine with a spindle over the work: a mill or a drill press.
pub fn that_drills(machine: &Machine) -> Option<&Machine> {
    machine.drills().map(|_| machine)
}

/// The feed step at or below one that is wished; none where the machine has none so fine, or is fed by hand that way.
pub fn feed_step(steps: Option<&At<Steps<MmPerRev>>>, wish: &Worked<MmPerRev>) -> Option<Worked<MmPerRev>> {
    let step = steps?.value.at_or_below(wish.number() + 1e-9)?;
    let rule = "the feed step at or below".into();
    Some(Worked::exact(step, Origin::Picked { rule, wanted: wish.origin().clone() }))
}
