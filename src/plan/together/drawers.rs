//! What the operations of all jobs take out of one drawer: the earlier in the files has it, the later finds what is left.

use crate::job::Address;
use crate::operations::Answer;
use crate::plan::order::Task;
use crate::proof::{Verdict, Words};
use crate::shop::{Shop, StockAt, Take};
use crate::spread;
use std::collections::HashMap;

/// What an operation finds no more in the drawers, and who takes that before it.
#[derive(Clone, Debug, Default)]
pub(in crate::plan) struct Gone {
    stocks: HashMap<StockAt, u32>,
    earlier: Vec<Address>,
}

/// What is gone for each operation that comes too late, by its place in the files.
pub(in crate::plan) type Late = HashMap<usize, Gone>;

/// What an answer takes; an operation that fails is not done and takes nothing.
fn taken(answer: &Answer) -> Vec<Take> {
    if answer.verdict() == Verdict::Fails { Vec::new() } else { answer.takes.clone() }
}

/// Those that would take what is no more there when all before them in the files have taken theirs.
fn too_late(tasks: &[Task], takes: &[Vec<Take>]) -> Late {
    // Of each stock of each shop how many are gone, and who took the last of them.
    let mut of_shops: HashMap<&str, HashMap<StockAt, (u32, Address)>> = HashMap::new();
    let mut late = Late::new();
    for (at, (task, takes)) in tasks.iter().zip(takes).enumerate() {
        let Some(shop) = task.shop.filter(|_| !takes.is_empty()) else { continue };
        let gone = of_shops.entry(shop.shop.value.as_str()).or_default();
        let taken = |take: &Take| gone.get(&take.of).map_or(0, |(count, _)| *count);
        let wanting: Vec<&Take> = takes.iter().filter(|take| taken(take) + take.count > take.have).collect();
        if !wanting.is_empty() {
            let earlier = wanting.iter().filter_map(|take| Some(gone.get(&take.of)?.1.clone())).collect();
            let stocks = gone.iter().map(|(stock, (count, _))| (*stock, *count)).collect();
            late.insert(at, Gone { stocks, earlier });
            continue;
        }
        for take in takes {
            let before = gone.get(&take.of).map_or(0, |(count, _)| *count);
            gone.insert(take.of, (before + take.count, task.address.clone()));
        }
    }
    late
}

/// Adds what is gone now to what was gone before.
fn add(all: &mut Late, late: Late) {
    for (at, gone) in late {
        let own = all.entry(at).or_default();
        own.stocks = gone.stocks;
        own.earlier.extend(gone.earlier);
    }
}

/// What operations take, each with its place in the files.
pub(in crate::plan) type Takes = Vec<(usize, Vec<Take>)>;

/// What each operation of a group takes out of the drawers.
pub(in crate::plan) fn takes_of(worked: &[(usize, &Task, Answer)]) -> Takes {
    worked.iter().map(|(at, _, answer)| (*at, taken(answer))).filter(|(_, takes)| !takes.is_empty()).collect()
}

/// Rounds in which those that come too late look for what else the drawers have: one for each stock that runs out.
const ROUNDS: usize = 1_000;

/// What is gone out of the drawers for each operation that comes too late, when it has taken what else there is.
pub(in crate::plan) fn late<'a, 'b: 'a>(
    tasks: &'a [Task<'b>],
    (groups, takes): (&[Vec<usize>], Vec<Takes>),
    of_group: impl Fn(&[usize], &Late) -> Vec<(usize, &'a Task<'b>, Answer)> + Sync,
) -> Late {
    let mut by_task: Vec<Vec<Take>> = vec![Vec::new(); tasks.len()];
    let put = |by_task: &mut Vec<Vec<Take>>, takes: Takes, late: &Late| {
        for (at, takes) in takes {
            // Who found less in a drawer counts from what lies there when nobody has taken of it, as all do.
            let gone = |take: &Take| late.get(&at).and_then(|gone| gone.stocks.get(&take.of)).copied().unwrap_or(0);
            let whole = takes.iter().map(|take| Take { have: take.have + gone(take), ..*take }).collect();
            by_task.get_mut(at).into_iter().for_each(|own| own.clone_from(&whole));
        }
    };
    let mut late = Late::new();
    put(&mut by_task, takes.into_iter().flatten().collect(), &late);
    for _ in 0..ROUNDS {
        let now = too_late(tasks, &by_task);
        if now.is_empty() {
            break;
        }
        let again: Vec<&Vec<usize>> =
            groups.iter().filter(|group| group.iter().any(|at| now.contains_key(at))).collect();
        add(&mut late, now);
        let takes = spread::all(&again, |group| takes_of(&of_group(group, &late)));
        again.into_iter().flatten().for_each(|at| by_task.get_mut(*at).into_iter().for_each(Vec::clear));
        put(&mut by_task, takes.into_iter().flatten().collect(), &late);
    }
    late
}

impl Gone {
    /// The shop as the operation finds it.
    pub(in crate::plan) fn shop(&self, shop: &Shop) -> Shop {
        Shop { drawers: shop.drawers.without(&self.stocks), ..shop.clone() }
    }

    /// Says who took it.
    pub(in crate::plan) fn put_down(&self, answer: &mut Answer) {
        let mut told: Vec<&Address> = Vec::new();
        for earlier in &self.earlier {
            if !told.contains(&earlier) {
                told.push(earlier);
                answer.assume_words(Words::of("taken-before").with("earlier", earlier.to_string()));
            }
        }
    }
}
