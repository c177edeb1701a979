//! The day planned: set-ups of several jobs put in the best order that the trade allows.
//!
//! [`search`] knows numbers and minutes alone; what stands beside it here makes its model out of plans (`items`, `links` with `named`, `ruled`
//! and `passing`, `carried`, `times`, `done`, `stopped`, `made` with `as_left`, `away` and `kept`) and a day of clock times out of its answer
//! (`solved` with `no_time`, `lines`, `pull`).

mod as_left;
mod asked;
mod away;
mod carried;
mod done;
mod frame;
mod ground;
mod items;
mod kept;
mod known;
mod lines;
mod link;
mod links;
mod logged;
mod made;
mod named;
mod no_time;
mod passing;
mod pull;
mod ruled;
pub mod search;
mod solved;
mod stopped;
mod times;
mod trued;

pub use asked::Asked;
pub use frame::{
    Assumed, Because, Broken, ChangeOver, Day, DoneByLog, Edge, Lacking, LeftOut, LeftOver, Line, OfMachine, Pulled,
    Stop, Why,
};
pub use no_time::{NoAppointment, NoTime};

use super::{Plan, Planned};
use crate::handbook::order_rules::{self, Binds};
use crate::in_order::InOrder;
use crate::proof::{Mark, Verdict};
use crate::reading::{Problem, near};
use ground::Ground;
use items::Item;
use known::Known;
use lines::Found;
use link::Links;
use search::Minute;
use solved::Unsolved;
pub(crate) use solved::crumb;
use stopped::Out;
use times::Times;

/// Minutes as whole ones, rounded up once.
fn rounded(minutes: f64) -> Minute {
    // A sum of cuts may lie a hair over the whole minute that it is; nobody works for a month at one set-up.
    (minutes - 1e-6).ceil().clamp(0.0, 43_200.0) as Minute
}

/// Plans a day of the set-ups of some jobs.
///
/// # Errors
/// Names, ids, rules and machines that nobody has; set-ups that wait for each other in a circle; times that cannot be placed.
pub fn day(plans: &[Plan], asked: &Asked) -> Result<Day, Vec<Problem>> {
    one_shop(plans)?;
    let mut assumed = Vec::new();
    let items = items::items(plans);
    let rules_left_out = rules_left_out(plans, asked)?;
    let names: Vec<String> = rules_left_out.iter().map(|(rule, _)| rule.clone()).collect();
    let links = links::links(&items, plans, &names);
    if !links.problems.is_empty() {
        return Err(links.problems);
    }
    no_circle(&items, &links)?;
    let times = times::times(plans, asked, &mut assumed).map_err(|problem| vec![problem])?;
    let mut done = done::done(&items, asked, &times)?;
    let mut logged = logged::logged(&items, &links.musts, &times, &mut done.when, &mut assumed);
    assumed.extend(not_kept(&items, &links));
    done.not_at_work_too(&items)?;
    done.before_what_follows(&items, &links.musts, &mut assumed);
    done.with_all_before(&items, &links.musts, &mut assumed);
    let shop = plans.iter().find_map(|plan| plan.shop_of_day.as_ref());
    let known = Known { items: &items, links: &links, shop };
    done.again(&known, &times, false, &mut assumed);
    let trued: Vec<String> =
        done.true_no_more(&known, &mut assumed).into_iter().filter_map(|at| Some(items.get(at)?.id())).collect();
    logged.retain(|own| !trued.contains(&own.id));
    let (mut out, mut late) = stopped::stopped(&known, &done, &mut assumed);
    loop {
        let ground = Ground { known, out: &out, times: &times, asked, done: &done };
        let mut assumed_of_work = Vec::new();
        let made = made::made(&ground, &mut assumed_of_work)?;
        let in_hand = asked.at_work.as_ref().and_then(|id| made.spec.pieces.iter().position(|piece| piece.id == *id));
        match solved::solved(made.spec.clone(), in_hand) {
            Ok(solved) => {
                assumed.extend(assumed_of_work);
                // What is done by the truing that was stays as it was made.
                let is_new = |own: &Assumed| !matches!(own, Assumed::ComesLate(id, ..) if trued.contains(id));
                assumed.extend(late.into_iter().filter(is_new));
                let id = |piece: &usize| made.spec.pieces.get(*piece).map(|piece| piece.id.clone()).unwrap_or_default();
                assumed.extend(solved.kept_out.iter().map(|(load, other)| Assumed::KeptOut(id(load), id(other))));
                let found = Found { items: &items, links: &links, shop, out: &out, made: &made, solved: &solved };
                return Ok(framed(plans, asked, &times, &found, (assumed, rules_left_out, logged)));
            }
            // What is warm already may be in the way: it is fetched on its day, or warmed again.
            Err(_) if done.again(&known, &times, true, &mut assumed) => {
                (out, late) = stopped::stopped(&known, &done, &mut assumed);
            }
            Err(Unsolved::Never(pieces)) => {
                for piece in pieces {
                    let item = made.item_of.get(piece).copied();
                    let both = solved::not_apart(&made.spec.only(&made.spec.with_all_before(piece)));
                    let stop = both.map_or(Stop::NoDayHoldsIt, |(load, other)| Stop::NotApart(load, other));
                    if let Some(slot) = item.and_then(|item| out.get_mut(item)) {
                        *slot = item.map(|item| (stop, item));
                    }
                }
                stopped::spread(&known, &done, &mut out);
            }
            Err(Unsolved::NoOrder) => {
                let says = solved::not_apart(&made.spec).map_or_else(
                    || "no order of these set-ups was found that keeps every rule".into(),
                    |(load, other)| {
                        format!(
                            "no order of these set-ups was found: {other} would come while the part of {load} is in the oven or warm; it goes before that, or after it is fetched and cold"
                        )
                    },
                );
                return Err(vec![Problem::new(None, says)]);
            }
        }
    }
}

/// The musts that gave way: those of one rule and one set-up in one line.
fn not_kept(items: &[Item], links: &Links) -> Vec<Assumed> {
    let id = |at: usize| items.get(at).map(Item::id).unwrap_or_default();
    let mut all: Vec<(String, usize, Vec<String>)> = Vec::new();
    for link in &links.not_kept {
        let (because, after) = (link.because.to_string(), id(link.after));
        match all.iter_mut().find(|(own, before, _)| *own == because && *before == link.before) {
            Some((.., afters)) => afters.push(after),
            None => all.push((because, link.before, vec![after])),
        }
    }
    all.into_iter().map(|(because, before, afters)| Assumed::NotKept(because, id(before), afters.join(", "))).collect()
}

/// One day is planned in one shop.
fn one_shop(plans: &[Plan]) -> Result<(), Vec<Problem>> {
    let mut shops = plans.iter().filter_map(|plan| plan.shop.as_ref());
    let first = shops.next();
    match shops.find(|other| Some(*other) != first) {
        Some(other) => {
            let first = first.map_or("", String::as_str);
            Err(vec![Problem::new(
                None,
                format!("one day is planned in one shop: these jobs name `{first}` and `{other}`"),
            )])
        }
        None => Ok(()),
    }
}

/// Rules of order that the command line or a job leaves out: better ones, and what is common practice.
fn rules_left_out(plans: &[Plan], asked: &Asked) -> Result<Vec<(String, Option<String>)>, Vec<Problem>> {
    let of_jobs = plans.iter().filter_map(|plan| plan.own_order.as_ref());
    let of_jobs =
        of_jobs.flat_map(|own| own.leave_out.iter().map(|rule| (Some(rule.place), &rule.value, Some(&own.why.value))));
    let all = asked.leave_out.iter().map(|rule| (None, rule, None)).chain(of_jobs);
    let (mut names, mut problems) = (Vec::new(), Vec::new());
    for (place, name, why) in all {
        match order_rules::all().iter().find(|rule| rule.rule == *name) {
            None => {
                let known = near(name, order_rules::all().iter().map(|rule| rule.rule.as_str()));
                problems.push(Problem::new(place, format!("there is no rule of order `{name}`; {known}")));
            }
            Some(rule) if rule.kind == Binds::Must && rule.seen != Mark::CommonPractice => {
                problems.push(Problem::new(place, format!("`{name}` is not to be left out: {}", rule.reason)));
            }
            Some(_) => names.push((name.clone(), why.cloned())),
        }
    }
    if problems.is_empty() { Ok(names) } else { Err(problems) }
}

/// Set-ups that wait for each other, each with the rule that it waits by.
fn no_circle(items: &[Item], links: &Links) -> Result<(), Vec<Problem>> {
    let all = links.with_couples(items);
    let edges: Vec<search::Edge> = all
        .iter()
        .enumerate()
        .map(|(rule, link)| search::Edge { before: link.before, after: link.after, rest: link.rest, rule })
        .collect();
    let Some(circle) = search::circle(items.len(), &edges) else { return Ok(()) };
    let id = |at: usize| items.get(at).map(Item::id).unwrap_or_default();
    let mut says = Vec::new();
    for (at, edge) in circle.iter().rev().enumerate() {
        let because = all.get(edge.rule).map(|link| link.because.to_string()).unwrap_or_default();
        let waits = if at == 0 { "waits for" } else { "for" };
        says.push(format!("{} {waits} {} ({because})", id(edge.after), id(edge.before)));
    }
    let own_word = circle.iter().find_map(|edge| {
        let item = items.get(edge.after)?;
        let link = all.get(edge.rule)?;
        let places = item.operation.of_day.wish.afters().map(|after| after.place);
        let is_own = |because: &Because| match because {
            Because::AtOnce(_, own) => **own == Because::After,
            own => *own == Because::After,
        };
        if is_own(&link.because) { places.last() } else { None }
    });
    let text = format!("these set-ups wait for each other in a circle: {}", says.join(" · "));
    Err(vec![Problem::new(own_word, text)])
}

/// What stands beside the lines: defaults, rules left out, and what the log says is done.
type Beside = (Vec<Assumed>, Vec<(String, Option<String>)>, Vec<DoneByLog>);

/// The day in its frame.
fn framed(
    plans: &[Plan],
    asked: &Asked,
    times: &Times,
    found: &Found,
    (mut assumed, rules_left_out, logged): Beside,
) -> Day {
    let planned = &found.solved.planned;
    let mut lines = found.lines();
    let days = asked.days.max(1);
    let (left_over, ahead, closing) = lines::left_over(&mut lines, &times.clock, (times.start, days));
    // What is printed is counted, and no day behind it.
    let until = if left_over.is_empty() { planned.vector.finish } else { planned.vector.finish.min(closing) };
    let machines = found.machines(&lines, &ahead, until);
    let open = times.clock.open_between(times.start, until);
    let hands: Minute = lines.iter().map(|line| line.hands).sum();
    let fitted = lines.iter().chain(&ahead).flat_map(|line| &line.change).flat_map(|change| &change.pieces);
    let change = fitted.map(|(from, to)| to - from).sum();
    let is_told = |name: &str| {
        let machine = found.made.machines.iter().position(|(stands, _)| stands.name == name);
        let kind = machine.and_then(|at| found.made.machines.get(at)).map(|(stands, _)| stands.kind);
        let carries = machine.and_then(|at| found.made.first.get(at)).is_some_and(|on| !on.is_empty());
        carries || asked.rigged.iter().any(|(machine, _)| machine == name || Some(machine.as_str()) == kind)
    };
    if lines.iter().any(|line| line.change.is_some() && !is_told(&line.machine)) {
        assumed.push(Assumed::Bare);
    }
    assumed.sort();
    assumed.dedup();
    let not_known = lines.iter().filter(|line| line.not_known).map(|line| line.hands).sum();
    let done = asked.done.iter().filter_map(|(id, _)| found.items.get(done::number(found.items, id).ok()?));
    let done: Vec<_> = done.map(|item| item.sheet).collect();
    let missing = pull::missing(plans, &lines, &done);
    Day {
        jobs: plans.iter().map(|plan| plan.job.clone()).collect(),
        engines: each_once(plans.iter().filter_map(|plan| plan.engine.clone())),
        shop: plans.iter().find_map(|plan| plan.shop.clone()),
        paper: plans.first().map_or_else(Default::default, |plan| plan.paper),
        print: plans.first().map_or(crate::quantity::Print::Metric, |plan| plan.print),
        date: times.date,
        hours: times.clock.stretches().to_vec(),
        from: times.start,
        days,
        finish: planned.vector.finish,
        proof: planned.proof,
        exact: planned.exact,
        bound: planned.bound,
        gap: times.clock.open_between(planned.bound, planned.vector.finish),
        open,
        late: planned.vector.late,
        hands,
        change,
        waiting: open.saturating_sub(hands + change),
        not_known,
        labels: planned.labels,
        machines,
        better_broken: found.broken(),
        pull: pull::pull(found.items, &lines, &missing),
        missing,
        log_faults: each_once(plans.iter().flat_map(Plan::log_faults)),
        left_out: left_out(plans, found),
        left_over,
        ahead,
        logged,
        taken_as_done: found.links.taken_as_done.clone(),
        assumed,
        impossible: found.solved.impossible.clone(),
        rules_left_out,
        lines,
    }
}

/// Names, each where it stands first.
fn each_once(names: impl Iterator<Item = String>) -> Vec<String> {
    let mut all: Vec<String> = Vec::new();
    names.for_each(|name| {
        if !all.contains(&name) {
            all.push(name)
        }
    });
    all
}

/// What stands outside: set-ups that are out, and operations without set-ups that must not be done. A sum that holds is no work.
fn left_out(plans: &[Plan], found: &Found) -> Vec<LeftOut> {
    let Found { items, links, out, .. } = found;
    let id = |at: usize| items.get(at).map(Item::id).unwrap_or_default();
    // What stops itself so comes after work that has no set-up.
    let cause = |by: usize| {
        let waits = out.get(by).is_some_and(|out| *out == Some((Stop::WaitsFor, by)));
        let behind = links.behind_left_out.iter().find(|(at, _)| waits && *at == by);
        behind.map_or_else(|| id(by), |(_, id)| id.clone())
    };
    let one = |(item, out): (&Item, &Out)| {
        let (stop, by) = out.clone()?;
        let (part, set_up) = (item.operation.address.part.clone(), item.set_up.title.clone());
        Some((item.sheet, LeftOut { id: item.id(), part, set_up, stop, stopped_by: cause(by) }))
    };
    let mut all: Vec<((usize, usize, usize), LeftOut)> = items.iter().zip(*out).filter_map(one).collect();
    for (job, plan) in plans.iter().enumerate() {
        let is_none = |own: &Planned| {
            let must_not = own.verdict == Verdict::Fails || own.answer.refused.is_some();
            own.answer.set_ups.is_empty() && must_not
        };
        let none = plan.operations.iter().enumerate().filter(|(_, operation)| is_none(operation));
        all.extend(none.map(|(at, operation)| {
            let sheet = (job, at, 0);
            let id = items::id(plan, sheet, plans.len() > 1);
            let reasons = stopped::reasons(operation);
            let is_sum = operation.answer.refused.is_none();
            let stop = if is_sum { Stop::DoNotFit(reasons) } else { Stop::DoNotCut(reasons) };
            let (part, set_up) = (operation.address.part.clone(), operation.title.clone());
            (sheet, LeftOut { id: id.clone(), part, set_up, stop, stopped_by: id })
        }));
    }
    all.order_by_key(|(sheet, _)| *sheet);
    all.into_iter().map(|(_, out)| out).collect()
}
