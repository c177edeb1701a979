//! One operation worked once, for the metals as they are named, with what holds for every operation beside it.

use super::registry::Registered;
use super::{Answer, Bench, SetUp, Station, hardness, hold_limits, kit, safety};
use crate::handbook::Material;
use crate::proof::{At, Fact, Refusal, Verdict, Words};
use crate::shop::Machine;

/// Works it out for the metals as they are named.
pub(super) fn work_once(asked: &dyn Registered, bench: &Bench) -> Answer {
    let mut answer = Answer::declaring(asked.declared_checks());
    let refused = asked.operation().work(bench, &mut answer).err();
    answer.refused = refused.or(answer.refused);
    on_its_machine(asked, bench, &mut answer);
    let unjudged = hardness::judge(bench, &mut answer).err();
    answer.refused = answer.refused.or(unjudged);
    let metals = metals_of(asked, bench);
    let warned = safety::on_every_set_up(&mut answer, bench.part.mass.as_ref(), |set_up| {
        let fluids = asked.operation().fluids(set_up).iter();
        let cuts_as = |metal: &Material| asked.operation().cuts_as(bench.part, metal).unwrap_or_else(|_| metal.clone());
        let wetted = fluids.filter_map(|(at, fluid)| Some((cuts_as(&metals.get(*at)?.value), *fluid)));
        safety::with_what_lies_beside(wetted.collect(), bench.part.material.as_ref().map(|at| &at.value))
    });
    answer.refused = answer.refused.or(warned.err());
    hold_limits::gauges_to_get(bench, &mut answer);
    if answer.checks.iter().any(|check| check.id == "never-cut" && check.verdict() == Some(Verdict::Fails)) {
        // Nothing is got for work that is not done.
        answer.missing.clear();
    }
    answer.complete();
    let serves = serves(asked, bench, &answer);
    answer.serves.extend(serves);
    hold_limits::seek_all(&mut answer, bench.guard());
    answer
}

/// What of the drawer would do the work of the tool that lacks: asked for in its place, the operation does not fail, and lacks nothing
/// that it did not lack before.
fn serves(asked: &dyn Registered, bench: &Bench, own: &Answer) -> Vec<(&'static str, Words)> {
    if own.missing.is_empty() {
        return Vec::new();
    }
    let serves = |(name, tool): (Words, super::Instead)| {
        let mut other = asked.copied();
        other.operation_mut().take_instead(tool);
        let mut tried = Answer::declaring(other.declared_checks());
        other.operation().work(bench, &mut tried).ok()?;
        tried.complete();
        let there = own.missing.iter().find(|line| !tried.missing.contains(line))?;
        (tried.verdict() != Verdict::Fails).then_some((there.id, name))
    };
    asked.operation().instead(bench).into_iter().filter_map(serves).collect()
}

/// A machine that was named and does none of the work: else another would stand on the sheet, and be judged, in its place.
fn on_its_machine(asked: &dyn Registered, bench: &Bench, answer: &mut Answer) {
    let Some(machine) = kit::machine_named(bench, asked.set_up()) else { return };
    let name = Words::from(Fact::from(machine.name()));
    let stands_on = |set_up: &SetUp| match machine {
        // Both have one kind of place: by its name it is known which of them was taken.
        Machine::Oven(_) => set_up.machine == name || set_up.machine == Station::Oven.named().into(),
        Machine::Freezer(_) => set_up.machine == name || set_up.machine == Fact::named("the-freezer").into(),
        _ => set_up.station == Station::of(machine),
    };
    if !answer.set_ups.is_empty() && !answer.set_ups.iter().any(stands_on) {
        answer.set_ups.clear();
        answer.refused = Some(Refusal::NotItsMachine { machine: machine.name().to_owned() });
    }
}

/// The metals that it reads, in the order of [`super::Operation::metals`].
pub(super) fn metals_of(asked: &dyn Registered, bench: &Bench) -> Vec<At<Material>> {
    let (mut asked, mut part) = (asked.copied(), bench.part.clone());
    asked.operation_mut().metals(&mut part).into_iter().map(|at| at.clone()).collect()
}
