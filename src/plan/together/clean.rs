//! What asks for a clean part and comes behind work that takes metal off it, with no wash between the two: the chips of that work are in it.

use crate::handbook::StateKind;
use crate::handbook::order_rules::{Work, classes};
use crate::job::{Address, StateOf};
use crate::operations::Answer;
use crate::plan::order::Task;
use crate::proof::{Check, Verdict};

/// The check of what is to be washed behind the last cut.
const CLEAN: &str = "washed-behind-the-cut";
/// The class of all that takes metal off.
const CUT: &str = "cut";
/// The step of work in the job's own words that asks what must be true before it.
const ASKED: &str = "true-before";

/// What one operation does to how clean a part is, by its place in the files.
#[derive(Debug)]
pub(in crate::plan) struct Cleans {
    at: usize,
    washes: bool,
    cuts: bool,
    /// The parts that it asks to be washed.
    asks: Vec<String>,
}

/// What the operations of a group wash, cut and ask to be clean; those that do none of it are not among them.
pub(in crate::plan) fn seen(worked: &[(usize, &Task, Answer)]) -> Vec<Cleans> {
    let class = classes().iter().find(|class| class.class == CUT);
    let of = |(at, task, answer): &(usize, &Task, Answer)| {
        let set_ups = || answer.set_ups.iter();
        let steps: Vec<&str> = set_ups().flat_map(|set_up| set_up.steps.iter().map(|step| step.words.id)).collect();
        let leaves: Vec<StateKind> = set_ups().flat_map(|set_up| &set_up.leaves).map(|state| state.kind).collect();
        let washes = leaves.contains(&StateKind::Washed);
        let is_asked = steps.contains(&ASKED);
        let work = Work::of(task.request.word(), steps, leaves);
        let cuts = class.is_some_and(|class| class.words.iter().any(|word| word.is_in(&work)));
        let needs = set_ups().filter(|_| is_asked).flat_map(|set_up| &set_up.needs);
        let washed = needs.filter(|state| state.kind == StateKind::Washed);
        let asks = washed.filter_map(|state| match &state.of {
            StateOf::Part(part) | StateOf::Feature(part, _) => Some(part.clone()),
            StateOf::Operation(address) => Some(address.part.clone()),
            StateOf::Assembly(_) => None,
        });
        Cleans { at: *at, washes, cuts, asks: asks.collect() }
    };
    worked.iter().map(of).filter(|own| own.washes || own.cuts || !own.asks.is_empty()).collect()
}

/// What is doubtful of operations that ask for a clean part. They come in the order of the files.
pub(in crate::plan) fn doubtful(tasks: &[Task], seen: &[Cleans]) -> Vec<(Option<Address>, Check)> {
    let soiled = |own: &Cleans| {
        let task = tasks.get(own.at)?;
        let by = own.asks.iter().find_map(|part| {
            // Of its own part what is listed before it comes before it; another part waits to be brought as far.
            let is_before = |by: &&Cleans| {
                let is_of_it = tasks.get(by.at).is_some_and(|of| of.part.name == *part);
                is_of_it && by.at != own.at && (*part != task.part.name || by.at < own.at)
            };
            let last = seen.iter().filter(is_before).max_by_key(|by| by.at)?;
            (last.cuts && !last.washes).then(|| tasks.get(last.at).map(|of| of.address.to_string()))?
        })?;
        let check = Check::of_kind(CLEAN, Verdict::Doubtful).with("by", by);
        Some((Some(task.address.clone()), check.at(task.place)))
    };
    seen.iter().filter_map(soiled).collect()
}
