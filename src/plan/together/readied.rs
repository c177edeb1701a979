//! What a joint needs warm or cold, and nothing of the jobs makes so: it would come to the press as it lies on the bench. And what is made
//! cold otherwise than the joint says: not cold enough, or so cold that the sheet at the press must warn of it.

use super::scope::may_be_one_feature;
use crate::handbook::StateKind;
use crate::job::{Address, State, StateOf};
use crate::operations::Answer;
use crate::plan::order::Task;
use crate::proof::{Check, Fact, Verdict};
use crate::quantity::{Decimals, Unit};

/// The check of what nothing makes warm or cold.
pub(super) const MADE_READY: &str = "made-ready";
/// The check of what is made cold otherwise than was said.
pub(super) const MADE_COLD: &str = "cold-as-said";

/// How cold the bush must be, to lose what was typed.
const ASKED: &str = "bush_as_cold";
/// How cold a part is when it stands at the press, at the warmest.
const THERE: &str = "temperature_at_press";
/// The caution of what is colder than any freezer.
const ICE: &str = "dry-ice";

/// What one operation makes warm or cold, and what it needs so, by its place in the files.
#[derive(Debug)]
pub(in crate::plan) struct Readies {
    at: usize,
    makes: Vec<State>,
    needs: Vec<State>,
    /// How cold it must be and how cold it is made, °C; and whether its sheet speaks of dry ice or nitrogen.
    asked: Option<f64>,
    there: Option<f64>,
    in_ice: bool,
}

/// What the operations of a group make warm or cold and need so; those that do neither are not among them.
pub(in crate::plan) fn seen(worked: &[(usize, &Task, Answer)]) -> Vec<Readies> {
    let of = |(at, _, answer): &(usize, &Task, Answer)| {
        let makes = answer.set_ups.iter().flat_map(|set_up| &set_up.leaves);
        let needs = answer.set_ups.iter().flat_map(|set_up| &set_up.needs);
        let makes: Vec<State> = makes.filter(|state| state.kind.passes()).cloned().collect();
        let needs: Vec<State> = needs.filter(|state| state.kind.passes()).cloned().collect();
        let number = |key: &str| answer.value(key).map(|value| value.number);
        let warns = answer.set_ups.iter().flat_map(|set_up| &set_up.cautions).any(|words| words.id == ICE);
        Readies { at: *at, makes, needs, asked: number(ASKED), there: number(THERE), in_ice: warns }
    };
    worked.iter().map(of).filter(|own| !own.makes.is_empty() || !own.needs.is_empty()).collect()
}

/// What is doubtful of operations that need warm or cold what nobody makes so.
pub(in crate::plan) fn doubtful(tasks: &[Task], seen: &[Readies]) -> Vec<(Option<Address>, Check)> {
    let lacks = |own: &Readies| {
        let task = tasks.get(own.at)?;
        let lacking = own.needs.iter().find(|need| !seen.iter().any(|by| makes(tasks, (by, own), need)))?;
        let check = Check::of_kind(MADE_READY, Verdict::Doubtful).with("so", lacking.kind.text());
        Some((Some(task.address.clone()), check.at(task.place)))
    };
    let mut all: Vec<(Option<Address>, Check)> = seen.iter().filter_map(lacks).collect();
    all.extend(seen.iter().filter_map(|own| made_otherwise(tasks, seen, own)));
    all
}

/// What is made cold for a joint, and not as the joint says: on its feature where one is, else by whichever is coldest.
fn made_otherwise(tasks: &[Task], seen: &[Readies], own: &Readies) -> Option<(Option<Address>, Check)> {
    let task = tasks.get(own.at)?;
    let need = own.needs.iter().find(|need| need.kind == StateKind::Cold)?;
    let chills = || seen.iter().filter(|by| by.at != own.at && makes(tasks, (by, own), need));
    let feature = |at: usize| tasks.get(at)?.request.set_up()?.feature.as_ref().map(|at| at.value.key().to_owned());
    let on_it = chills().find(|by| feature(own.at).is_some() && feature(by.at) == feature(own.at));
    let coldest = || {
        chills()
            .filter(|by| by.there.is_some())
            .min_by(|a, b| a.there.unwrap_or(0.0).total_cmp(&b.there.unwrap_or(0.0)))
    };
    let by = on_it.or_else(coldest)?;
    let (asked, there) = (own.asked?, by.there?);
    let degrees = |number: f64| Fact::figure(number, Unit::DegC).to(Decimals::Exactly(0));
    let because = match (there > asked, by.in_ice && !own.in_ice) {
        (true, _) => "made-not-so-cold",
        (_, true) => "made-in-ice",
        _ => return None,
    };
    let check = Check::of_kind(MADE_COLD, Verdict::Doubtful).with("by", tasks.get(by.at)?.address.to_string());
    let check = check.with("there", degrees(there)).with("asked", degrees(asked)).with("because", Fact::named(because));
    Some((Some(task.address.clone()), check.at(task.place)))
}

/// Whether one operation makes so what another needs: the very thing, where neither speaks of another place of it; or, as the bush is a
/// part of its own and no key says which, whatever it makes cold.
fn makes(tasks: &[Task], (by, own): (&Readies, &Readies), need: &State) -> bool {
    let feature = |at: usize| {
        let wish = tasks.get(at).and_then(|task| task.request.set_up())?;
        wish.feature.as_ref().map(|at| at.value.key())
    };
    let is_there = || may_be_one_feature(feature(by.at), feature(own.at));
    let is_a_part = |state: &State| matches!(state.of, StateOf::Part(_));
    by.makes.iter().any(|made| match made.kind {
        _ if made.kind != need.kind => false,
        StateKind::Cold if is_a_part(made) && is_a_part(need) => true,
        _ => made == need && is_there(),
    })
}
