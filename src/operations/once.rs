//! One operation worked once, for the metals as they are named, with what holds for every operation beside it.

use super::registry::Registered;
use super::{Answer, Bench, hardness, hold_limits, safety};
use crate::handbook::Material;
use crate::proof::At;

/// Works it out for the metals as they are named.
pub(super) fn work_once(asked: &dyn Registered, bench: &Bench) -> Answer {
    let mut answer = Answer::declaring(asked.declared_checks());
    let refused = asked.operation().work(bench, &mut answer).err();
    answer.refused = refused.or(answer.refused);
    hardness::judge(bench, &mut answer);
    let metals = metals_of(asked, bench);
    safety::on_every_set_up(&mut answer, |set_up| {
        let fluids = asked.operation().fluids(set_up).iter();
        let cuts_as = |metal: &Material| asked.operation().cuts_as(bench.part, metal).unwrap_or_else(|_| metal.clone());
        fluids.filter_map(|(at, fluid)| Some((cuts_as(&metals.get(*at)?.value), *fluid))).collect()
    });
    answer.complete();
    hold_limits::seek_all(&mut answer);
    answer
}

/// The metals that it reads, in the order of [`super::Operation::metals`].
pub(super) fn metals_of(asked: &dyn Registered, bench: &Bench) -> Vec<At<Material>> {
    let (mut asked, mut part) = (asked.copied(), bench.part.clone());
    asked.operation_mut().metals(&mut part).into_iter().map(|at| at.clone()).collect()
}
