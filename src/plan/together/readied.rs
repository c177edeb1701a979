//! What a joint needs warm or cold, and nothing of the jobs makes so: it would come to the press as it lies on the bench.

use super::scope::may_be_one_feature;
use crate::handbook::StateKind;
use crate::job::{Address, State, StateOf};
use crate::operations::Answer;
use crate::plan::order::Task;
use crate::proof::{Check, Verdict};

/// The check of what nothing makes warm or cold.
pub(super) const MADE_READY: &str = "made-ready";

/// What one operation makes warm or cold, and what it needs so, by its place in the files.
#[derive(Debug)]
pub(in crate::plan) struct Readies {
    at: usize,
    makes: Vec<State>,
    needs: Vec<State>,
}

/// What the operations of a group make warm or cold and need so; those that do neither are not among them.
pub(in crate::plan) fn seen(worked: &[(usize, &Task, Answer)]) -> Vec<Readies> {
    let of = |(at, _, answer): &(usize, &Task, Answer)| {
        let makes = answer.set_ups.iter().flat_map(|set_up| &set_up.leaves);
        let needs = answer.set_ups.iter().flat_map(|set_up| &set_up.needs);
        let makes: Vec<State> = makes.filter(|state| state.kind.passes()).cloned().collect();
        let needs: Vec<State> = needs.filter(|state| state.kind.passes()).cloned().collect();
        Readies { at: *at, makes, needs }
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
    seen.iter().filter_map(lacks).collect()
}

/// Whether one operation makes so what another needs: the very thing, where neither speaks of another place of it; or, as the bush is a
/// part of its own and no key says which, whatever it makes cold.
fn makes(tasks: &[Task], (by, own): (&Readies, &Readies), need: &State) -> bool {
    let feature = |at: usize| {
        let wish = tasks.get(at).and_then(|task| task.request.set_up())?;
        wish.feature.as_ref().map(|at| at.value.as_str())
    };
    let is_there = || may_be_one_feature(feature(by.at), feature(own.at));
    let is_a_part = |state: &State| matches!(state.of, StateOf::Part(_));
    by.makes.iter().any(|made| match made.kind {
        _ if made.kind != need.kind => false,
        StateKind::Cold if is_a_part(made) && is_a_part(need) => true,
        _ => made == need && is_there(),
    })
}
