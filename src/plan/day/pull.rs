//! What must be at hand, by drawer, and what the shop lacks.

use super::frame::{Lacking, Line, Pulled};
use super::items::{self, Item};
use super::search::Minute;
use crate::handbook::at_hand::{self, Lies};
use crate::in_order::InOrder;
use crate::operations::{Drawer, Station};
use crate::plan::Plan;
use crate::proof::Verdict;

/// The pull list: by drawer, each drawer by first need. What the shop lacks is marked.
pub(super) fn pull(items: &[Item], lines: &[Line], missing: &[Lacking]) -> Vec<Pulled> {
    let mut all: Vec<Pulled> = Vec::new();
    for line in lines {
        let Some(item) = items.iter().find(|item| item.sheet == line.sheet) else { continue };
        let tool = |tool: &String| {
            let lies = item.set_up.lies.iter().find(|lies| lies.tool == *tool);
            lies.map_or(tool, |lies| &lies.item).clone()
        };
        let tools = item.set_up.cuts().map(|cut| (Drawer::Tools, tool(&cut.tool), 1, false));
        let gauges = item.set_up.blanks.iter().filter_map(|blank| blank.gauge.clone());
        let gauges = gauges.map(|gauge| (Drawer::Gauges, gauge, 1, false));
        let own =
            item.set_up.pulls.iter().map(|pull| (pull.drawer, pull.item.clone(), pull.count, is_used_up(pull.drawer)));
        let of_steps = item.set_up.steps.iter().flat_map(|step| at_hand::of_step(step.id));
        let of_steps = of_steps.map(|row| (drawer_of(row.drawer), row.item.clone(), 1, false));
        for (drawer, item, count, used_up) in tools.chain(gauges).chain(own).chain(of_steps) {
            let known = all.iter_mut().find(|pulled| pulled.drawer == drawer && pulled.item == item);
            match known {
                Some(pulled) => {
                    let more = !pulled.sheets.contains(&line.id);
                    pulled.count = if used_up && more { pulled.count + count } else { pulled.count.max(count) };
                    if more {
                        pulled.sheets.push(line.id.clone());
                    }
                }
                None => {
                    let (first_at, sheets) = (first_at(line), vec![line.id.clone()]);
                    let is_missing = missing.iter().any(|lacking| lacking.id == line.id && names(&lacking.item, &item));
                    let is_counted = is_used_up(drawer);
                    all.push(Pulled { drawer, item, count, is_counted, is_missing, first_at, sheets });
                }
            }
        }
    }
    all.order_by_key(|pulled| (pulled.drawer, pulled.first_at));
    all
}

/// The drawer of a row of the table.
const fn drawer_of(lies: Lies) -> Drawer {
    match lies {
        Lies::Tools => Drawer::Tools,
        Lies::Gauges => Drawer::Gauges,
        Lies::Oils => Drawer::Oils,
        Lies::Gloves => Drawer::Gloves,
    }
}

/// Whether what is missing is a thing of the list: every word of that stands in its line.
fn names(missing: &str, item: &str) -> bool {
    let words = |text: &'_ str| -> Vec<String> {
        text.split_whitespace().map(|word| word.trim_end_matches(',').to_owned()).collect()
    };
    let known = words(missing);
    words(item).iter().all(|word| known.contains(word))
}

/// What is fitted stays in the engine; a tool comes back.
const fn is_used_up(drawer: Drawer) -> bool {
    matches!(drawer, Drawer::Inserts | Drawer::Shims)
}

/// When a set-up is begun, with its change-over.
fn first_at(line: &Line) -> Minute {
    let change = line.change.iter().flat_map(|change| &change.pieces).map(|(from, _)| *from);
    change.chain([line.start]).min().unwrap_or(line.start)
}

/// Where a machine is wanted that the shop lacks, by its id in the cards.
fn station_of(lacks: &str) -> Option<Station> {
    match lacks {
        "press" => Some(Station::Press),
        "insert" => Some(Station::Bench),
        "oven" | "freezer" => Some(Station::Oven),
        _ => None,
    }
}

/// A shorter name of a tool stands by chance in that of another thing.
const TOOL: usize = 4;

/// What the shop lacks: operation by operation, each for the first set-up in the day that wants it. `done` are the set-ups, by job,
/// operation and their own number, that are said to be done, and those before them with them.
pub(super) fn missing(plans: &[Plan], lines: &[Line], done: &[(usize, usize, usize)]) -> Vec<Lacking> {
    let mut all: Vec<Lacking> = Vec::new();
    for (job, plan) in plans.iter().enumerate() {
        for (at, operation) in plan.operations.iter().enumerate() {
            let answer = &operation.answer;
            let serves = answer.alternatives.iter().filter(|other| {
                !other.chosen && other.answer.verdict() != Verdict::Fails && other.answer.missing.is_empty()
            });
            let could_serve: Vec<String> = serves.map(|other| other.name.clone()).collect();
            let chosen = answer.alternatives.iter().find(|other| other.chosen);
            // Another choice takes the place of what was chosen, and of nothing else that is missing beside it.
            let could_serve = |item: &str, lacks: &str| match chosen {
                Some(chosen) if item.contains(chosen.name.as_str()) => could_serve.clone(),
                _ => answer.serves.iter().filter(|(line, _)| *line == lacks).map(|(_, name)| name.clone()).collect(),
            };
            let is_said = |set_up: usize| done.iter().any(|own| (own.0, own.1) == (job, at) && own.2 >= set_up);
            let by_log = |set_up: usize| plan.worked.iter().any(|worked| worked.is_done && worked.at == (at, set_up));
            let is_done = |set_up: usize| is_said(set_up) || by_log(set_up);
            let all_done = !answer.set_ups.is_empty() && (0..answer.set_ups.len()).all(is_done);
            // A tool is wanted where it cuts, and no more once that is done.
            let cuts_with = |item: &str| {
                let is_meant = |tool: &str| tool.chars().count() >= TOOL && item.contains(tool);
                answer.set_ups.iter().position(|set_up| set_up.cuts().any(|cut| is_meant(&cut.tool)))
            };
            let own = || lines.iter().filter(|line| (line.sheet.0, line.sheet.1) == (job, at));
            // A press is wanted where it presses, not where the bush is measured.
            let station = |line: &&Line| answer.set_ups.get(line.sheet.2).map(|set_up| set_up.station);
            let lacks = answer.lacks.iter().copied().chain(std::iter::repeat(""));
            let wanted = answer.missing.iter().zip(lacks).filter(|(item, _)| match cuts_with(item) {
                Some(set_up) => !is_done(set_up),
                None => !all_done,
            });
            all.extend(wanted.map(|(item, lacks)| {
                let there = station_of(lacks).and_then(|wanted| own().find(|line| station(line) == Some(wanted)));
                let cut = cuts_with(item).and_then(|wanted| own().find(|line| line.sheet.2 == wanted));
                let first = there.or(cut).or_else(|| own().next());
                let id = first.map_or_else(|| items::id(plan, (job, at, 0), plans.len() > 1), |line| line.id.clone());
                Lacking { item: item.clone(), id, at: first.map(first_at), could_serve: could_serve(item, lacks) }
            }));
        }
    }
    // What the day needs comes first, in its order.
    all.order_by_key(|lacking| lacking.at.unwrap_or(Minute::MAX));
    all
}
