//! The operations of a job with their addresses, and the order in which they can be worked.

use crate::job::{Address, JobFile, Named, PartFacts};
use crate::operations::{Declared, Registered, SetUpWish};
use crate::proof::{At, Place};
use crate::quantity::Mm;
use crate::reading::{Problem, near};
use crate::shop::Shop;
use std::cmp::Reverse;
use std::collections::{BinaryHeap, HashMap};

/// An operation of the job.
pub(super) struct Task<'a> {
    /// Where it stands.
    pub address: Address,
    /// Its part.
    pub part: &'a PartFacts,
    /// The place of its part's name.
    pub place: Place,
    /// The remark of its part.
    pub note: Option<&'a At<String>>,
    /// What is asked.
    pub request: &'a dyn Registered,
    /// What it names of others.
    pub named: Named,
    /// Its job, by its number among those given together.
    pub job: usize,
    /// The shop of its job.
    pub shop: Option<&'a Shop>,
    /// What a day needs of its part's keys.
    pub of_part: OfPart,
}

/// What a day needs of the keys of a part.
#[derive(Clone, Debug)]
pub(super) struct OfPart {
    /// What it is bolted to others in.
    pub assembly: Option<String>,
    /// The same as all jobs say of the part that are given together; none where none of them does.
    pub assemblies: Vec<String>,
    /// Places that it takes in an oven or freezer.
    pub places: Option<u32>,
    /// Its greatest length.
    pub longest: Option<At<Mm>>,
}

/// Every operation with its address: its own name, its word, or its word with `#n` where a part has several.
pub(super) fn tasks<'a, R: Registered>(
    (nth, job, shop): (usize, &'a JobFile<R>, Option<&'a Shop>),
    facts: &'a [PartFacts],
) -> Vec<Task<'a>> {
    let mut all = Vec::new();
    for (part, facts) in job.parts.iter().zip(facts) {
        let mut seen: HashMap<&str, usize> = HashMap::new();
        for (at, request) in part.operations.iter().enumerate() {
            let named = part.named.get(at).cloned().unwrap_or_default();
            let word = request.word();
            let count = seen.entry(word).and_modify(|count| *count += 1).or_insert(1);
            let numbered = if *count == 1 { word.to_owned() } else { format!("{word}#{count}") };
            let name = request.set_up().and_then(|wish| wish.name.as_ref()).map_or(numbered, |name| name.value.clone());
            all.push(Task {
                address: Address::of(&facts.name, &name),
                part: facts,
                place: part.part.place,
                note: part.note.as_ref(),
                request,
                named,
                job: nth,
                shop,
                of_part: OfPart {
                    assembly: part.assembly.as_ref().map(|at| at.value.clone()),
                    assemblies: part.assembly.iter().map(|at| at.value.clone()).collect(),
                    places: part.places.as_ref().map(|at| at.value),
                    longest: part.longest.clone(),
                },
            });
        }
    }
    all
}

/// Where each address stands; where two have the same, the first.
pub(super) fn places<'a>(tasks: impl IntoIterator<Item = &'a Task<'a>>) -> HashMap<&'a Address, usize> {
    let mut places = HashMap::new();
    for (at, task) in tasks.into_iter().enumerate() {
        places.entry(&task.address).or_insert(at);
    }
    places
}

/// Addresses, machines and names that nobody has, or that two have.
pub(super) fn unknown_names(tasks: &[Task]) -> Vec<Problem> {
    let mut problems = Vec::new();
    let places = places(tasks);
    for (at, task) in tasks.iter().enumerate() {
        if places.get(&task.address).is_some_and(|first| *first < at) {
            let name = |task: &Task| task.request.set_up().and_then(|wish| wish.name.as_ref()).map(|name| name.place);
            let first = places.get(&task.address).and_then(|first| tasks.get(*first));
            // Two that nobody named have their numbers: one of the two has a name.
            let place = name(task).or_else(|| first.and_then(name)).unwrap_or(task.place);
            problems.push(Problem::new(
                place,
                format!(
                    "two operations have the address `{}`: tell one by `set-up: {{name: …}}`, or its part by another name",
                    task.address
                ),
            ));
        }
        for need in &task.named.addresses {
            problems.extend(unknown_need(task, need, tasks, &places));
        }
        let afters = task.request.set_up().into_iter().flat_map(SetUpWish::afters);
        problems.extend(afters.filter_map(|after| unknown_owner(after, tasks, &places)));
        problems.extend(unknown_instruments(task, task.shop));
        if let (Some(shop), Some(machine)) = (task.shop, task.request.set_up().and_then(|wish| wish.machine.as_ref()))
            && shop.machine(&machine.value).is_none()
        {
            let names = near(&machine.value, shop.machines.iter().map(|m| m.name()));
            problems.push(Problem::new(machine.place, format!("the shop has no machine `{}`; {names}", machine.value)));
        }
    }
    problems
}

/// Instruments that the shop has not. Without a shop nobody can say.
fn unknown_instruments(task: &Task, shop: Option<&Shop>) -> Vec<Problem> {
    let Some(shop) = shop else { return Vec::new() };
    let unknown = task.named.instruments.iter().filter(|name| shop.instrument(&name.value).is_none());
    let says = |name: &At<String>| {
        let names = near(&name.value, shop.instruments.iter().map(|i| i.name.value.as_str()));
        Problem::new(name.place, format!("the shop has no instrument `{}`; {names}", name.value))
    };
    unknown.map(says).collect()
}

/// An address whose operation no task has.
fn unknown_owner(need: &At<Address>, tasks: &[Task], places: &HashMap<&Address, usize>) -> Option<Problem> {
    let owner = need.value.owner();
    if places.contains_key(&owner) {
        return None;
    }
    let known: Vec<String> = tasks.iter().map(|task| task.address.to_string()).collect();
    let names = near(&owner.to_string(), known.iter().map(String::as_str));
    let says = format!(
        "no operation of this job has the address `{owner}`; {names}; one of another job is known where both jobs are given (`why`: --beside JOB)"
    );
    Some(Problem::new(need.place, says))
}

fn unknown_need(asks: &Task, need: &At<Address>, tasks: &[Task], places: &HashMap<&Address, usize>) -> Option<Problem> {
    let Some(owner) = places.get(&need.value.owner()).and_then(|at| tasks.get(*at)) else {
        return unknown_owner(need, tasks, places);
    };
    let shop = |task: &Task| task.shop.map(|shop| shop.shop.place);
    if shop(asks) != shop(owner) {
        // One instrument of two shop files would count as two.
        let says =
            format!("`{}` is of a job with another shop: name the same file in each, or give --shop", owner.address);
        return Some(Problem::new(need.place, says));
    }
    let value = need.value.value.as_ref()?;
    let declared = owner.request.declared();
    match declared.iter().find(|declared| declared.key == value) {
        Some(found) if found.is_size() => None,
        Some(found) => {
            let sizes = declared_sizes(&declared);
            let says = format!("`{}` is no size of a part ({}): `{}` gives {sizes}", value, found.means, owner.address);
            Some(Problem::new(need.place, says))
        }
        None => {
            let names = near(value, declared.iter().map(|declared| declared.key));
            Some(Problem::new(need.place, format!("`{}` gives no value `{value}`; {names}", owner.address)))
        }
    }
}

/// The sizes that may be asked of an operation, for a message.
fn declared_sizes(declared: &[&Declared]) -> String {
    let sizes: Vec<String> = declared.iter().filter(|one| one.is_size()).map(|one| format!("`{}`", one.key)).collect();
    if sizes.is_empty() { "none".to_owned() } else { sizes.join(", ") }
}

/// The order in which the operations can be worked, stable: each after what it needs.
///
/// # Errors
/// A circle, with its members.
pub(super) fn sequence(tasks: &[Task]) -> Result<Vec<usize>, Option<Problem>> {
    let places = places(tasks);
    let owner = |need: &At<Address>| places.get(&need.value.owner()).copied();
    let needs: Vec<Vec<usize>> =
        tasks.iter().map(|task| task.named.addresses.iter().filter_map(owner).collect()).collect();
    let mut waiting: Vec<usize> = needs.iter().map(Vec::len).collect();
    let mut serves: Vec<Vec<usize>> = vec![Vec::new(); tasks.len()];
    for (at, needs) in needs.iter().enumerate() {
        needs.iter().for_each(|need| serves.get_mut(*need).into_iter().for_each(|serves| serves.push(at)));
    }
    // Of what can be worked the first in the file goes first.
    let mut ready: BinaryHeap<Reverse<usize>> =
        waiting.iter().enumerate().filter(|(_, needs)| **needs == 0).map(|(at, _)| Reverse(at)).collect();
    let mut order = Vec::with_capacity(tasks.len());
    while let Some(Reverse(at)) = ready.pop() {
        order.push(at);
        for served in serves.get(at).into_iter().flatten() {
            let Some(waiting) = waiting.get_mut(*served) else { continue };
            *waiting -= 1;
            if *waiting == 0 {
                ready.push(Reverse(*served));
            }
        }
    }
    if order.len() < tasks.len() { Err(circle(tasks, &needs, &waiting)) } else { Ok(order) }
}

/// The operations that must be worked together, each group in working order: those of one part, those that need each other, and
/// those that look at one another. No group looks at what another gives.
pub(super) fn groups(tasks: &[Task], sequence: &[usize]) -> Vec<Vec<usize>> {
    let places = places(tasks);
    // The group of each operation is the first operation of it.
    let mut first: Vec<usize> = (0..tasks.len()).collect();
    let mut parts: HashMap<&str, usize> = HashMap::new();
    for (at, task) in tasks.iter().enumerate() {
        let same_part = *parts.entry(task.part.name.as_str()).or_insert(at);
        let needs = task.named.addresses.iter().map(|need| need.value.owner());
        let seen = needs.chain(task.request.beside()).filter_map(|address| places.get(&address).copied());
        for other in seen.chain([same_part]) {
            let (own, theirs) = (root(&mut first, at), root(&mut first, other));
            let (low, high) = (own.min(theirs), own.max(theirs));
            first.get_mut(high).into_iter().for_each(|first| *first = low);
        }
    }
    let mut groups: Vec<Vec<usize>> = Vec::new();
    let mut numbers: HashMap<usize, usize> = HashMap::new();
    for at in sequence {
        let number = *numbers.entry(root(&mut first, *at)).or_insert_with(|| {
            groups.push(Vec::new());
            groups.len() - 1
        });
        groups.get_mut(number).into_iter().for_each(|group| group.push(*at));
    }
    groups
}

/// The first operation of a group; the way to it is made shorter as it is walked.
fn root(first: &mut [usize], mut at: usize) -> usize {
    while let Some(next) = first.get(at).copied().filter(|next| *next != at) {
        let beyond = first.get(next).copied().unwrap_or(next);
        first.get_mut(at).into_iter().for_each(|first| *first = beyond);
        at = next;
    }
    at
}

/// Walks needs among what is left until an operation comes round again.
fn circle(tasks: &[Task], needs: &[Vec<usize>], waiting: &[usize]) -> Option<Problem> {
    let left = |at: &usize| waiting.get(*at).is_some_and(|waiting| *waiting > 0);
    let start = (0..tasks.len()).find(left)?;
    let mut walk = vec![start];
    let members = loop {
        let last = *walk.last()?;
        let next = *needs.get(last)?.iter().find(|need| left(need))?;
        if let Some(first) = walk.iter().position(|at| *at == next) {
            break walk.split_off(first);
        }
        walk.push(next);
    };
    let names: Vec<String> =
        members.iter().chain(members.first()).filter_map(|at| Some(tasks.get(*at)?.address.to_string())).collect();
    let first = tasks.get(*members.first()?)?;
    let place = first.named.addresses.first().map_or(first.place, |need| need.place);
    Some(Problem::new(place, format!("these operations wait for each other in a circle: {}", names.join(" needs "))))
}
