//! One part in several jobs: what one of them says of it holds in all, and what they say must not contradict. It is one part by its name,
//! and two names that only a slip of the pen parts are refused.

use crate::job::{PartFacts, Reading, feature_key};
use crate::plan::order::Task;
use crate::proof::{At, Place};
use crate::quantity::Quantity;
use crate::reading::Problem;
use std::collections::{HashMap, HashSet};

/// Takes over from the other jobs what a job does not say of its part, and says where two contradict.
pub(in crate::plan) fn agree(all: &mut [Vec<PartFacts>]) -> Vec<Problem> {
    let mut names = HashSet::new();
    if all.iter().flatten().all(|facts| names.insert(facts.name.as_str())) {
        return Vec::new();
    }
    let mut known: HashMap<String, PartFacts> = HashMap::new();
    let mut problems = Vec::new();
    for facts in all.iter().flatten() {
        let known = known.entry(facts.name.clone()).or_insert_with(|| facts.clone());
        problems.extend(contradictions(known, facts));
        take_over(known, facts);
    }
    for facts in all.iter_mut().flatten() {
        if let Some(known) = known.get(&facts.name) {
            take_over(facts, known);
        }
    }
    problems
}

/// Every name of parts or of assemblies (`what`) that differs from one before it by a slip of the pen alone.
pub(in crate::plan) fn slips<'a>(what: &str, names: impl Iterator<Item = &'a At<String>>) -> Vec<Problem> {
    let mut known: HashMap<String, &str> = HashMap::new();
    let mut problems = Vec::new();
    for at in names {
        let name = at.value.as_str();
        let other = *known.entry(feature_key(name)).or_insert(name);
        if other != name {
            let says = format!(
                "`{name}` and `{other}` differ in capitals, spaces, hyphens or a plural alone: write one {what} in one way, two of them otherwise"
            );
            problems.push(Problem::new(at.place, says));
        }
    }
    problems
}

/// Lets the operations of a part know every assembly that any job names for it.
pub(in crate::plan) fn bolted(tasks: &mut [Task]) {
    let mut known: HashMap<String, Vec<String>> = HashMap::new();
    for task in tasks.iter() {
        let all = known.entry(task.part.name.clone()).or_default();
        let new = task.of_part.assembly.iter().filter(|name| !all.contains(name)).cloned().collect::<Vec<_>>();
        all.extend(new);
    }
    for task in tasks {
        task.of_part.assemblies = known.get(&task.part.name).cloned().unwrap_or_default();
    }
}

fn take_over(facts: &mut PartFacts, from: &PartFacts) {
    fn fill<T: Clone>(own: &mut Option<T>, theirs: &Option<T>) {
        if own.is_none() {
            own.clone_from(theirs);
        }
    }
    fill(&mut facts.material, &from.material);
    fill(&mut facts.hardness, &from.hardness);
    // One depth of case is enough: the other would be a second.
    if facts.case_depth.is_none() && facts.case_depth_total.is_none() {
        fill(&mut facts.case_depth, &from.case_depth);
        fill(&mut facts.case_depth_total, &from.case_depth_total);
    }
    fill(&mut facts.through_hardened, &from.through_hardened);
    fill(&mut facts.mass, &from.mass);
}

/// Every key of which two jobs say different things.
fn contradictions(known: &PartFacts, facts: &PartFacts) -> Vec<Problem> {
    let mut all = Vec::new();
    let mut unlike = |key: &str, place: Option<Place>, (other, own): (Option<String>, Option<String>)| {
        let Some((other, place)) = other.filter(|other| own.as_ref().is_some_and(|own| own != other)).zip(place) else {
            return;
        };
        let says = format!("another job says `{key}: {other}` of `{}`: one part has one `{key}`", facts.name);
        all.push(Problem::new(place, says));
    };
    fn place<T>(at: &Option<At<T>>) -> Option<Place> {
        at.as_ref().map(|at| at.place)
    }
    let id = |facts: &PartFacts| facts.material.as_ref().map(|at| at.value.id().to_owned());
    unlike("material", place(&facts.material), (id(known), id(facts)));
    let hardness = |facts: &PartFacts| facts.hardness.as_ref().map(|at| at.value.to_string());
    unlike("hardness", place(&facts.hardness), (hardness(known), hardness(facts)));
    let mm = |at: &At<Reading>| at.value.typed().map(|size| format!("{size} mm"));
    let depth = |facts: &PartFacts| facts.case_depth.as_ref().and_then(mm);
    unlike("case-depth", place(&facts.case_depth), (depth(known), depth(facts)));
    let total = |facts: &PartFacts| facts.case_depth_total.as_ref().and_then(mm);
    unlike("case-depth-total", place(&facts.case_depth_total), (total(known), total(facts)));
    let through = |facts: &PartFacts| facts.through_hardened.as_ref().map(|at| at.value.to_string());
    unlike("through-hardened", place(&facts.through_hardened), (through(known), through(facts)));
    let mass = |facts: &PartFacts| facts.mass.as_ref().map(|at| format!("{} kg", at.value.number()));
    unlike("mass", place(&facts.mass), (mass(known), mass(facts)));
    all
}
