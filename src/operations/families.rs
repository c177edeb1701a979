//! A name that is a family of metals: the operation is worked for every member, and check by check the worst is kept.

use super::once::{metals_of, work_once};
use super::registry::Registered;
use super::{Alternative, Answer, Bench, hold_limits, owners};
use crate::handbook::Material;
use crate::job::PartFacts;
use crate::proof::{At, Check, Fact, Outcome, Place, Verdict, Words};
use std::cmp::Ordering;

/// The operation as it was worked for one member of each family.
struct Run {
    /// The members by name.
    member: Fact,
    answer: Answer,
}

impl Run {
    fn alternative(&self, name: &Words) -> Option<&Alternative> {
        self.answer.alternatives.iter().find(|row| row.name == *name)
    }
}

/// Works an operation: once, or for every member of the families that it names, and shares its checks out among its set-ups.
pub fn work(request: &dyn Registered, bench: &Bench) -> Answer {
    let mut answer = for_every_member(request, bench);
    owners::share_out(&mut answer, request.operation().stages());
    answer.lacks = answer.missing.iter().map(|words| words.id).collect();
    answer
}

fn for_every_member(request: &dyn Registered, bench: &Bench) -> Answer {
    let named = metals_of(request, bench);
    let families: Vec<&At<Material>> = named.iter().filter(|at| at.value.family().is_some()).collect();
    let Some(first) = families.first() else { return work_once(request, bench) };
    let runs = runs_of(request, bench, &named);
    // What is made here is made once: the sizes of each plan are judged for every member.
    let at_its_sizes = |base: &Run| {
        let mut made = request.copied();
        made.operation_mut().take_sizes(&base.answer).then(|| runs_of(&*made, bench, &named))
    };
    let Some((mut answer, member)) = worst_of(&runs, at_its_sizes) else { return work_once(request, bench) };
    answer.check(alloy_named(&families, &member, first.place));
    answer.complete();
    answer
}

/// The operation as it is worked for each member.
fn runs_of(request: &dyn Registered, bench: &Bench, named: &[At<Material>]) -> Vec<Run> {
    let run = |members: Vec<Material>| {
        let mut of_part: PartFacts = bench.part.clone();
        let mut with_members = request.copied();
        with_members.operation_mut().metals(&mut of_part).into_iter().zip(&members).for_each(|(at, member)| {
            at.value = member.clone();
        });
        let member = joined(members.iter().filter(|m| m.family().is_some()).map(|m| m.row().name.as_str()));
        Run { member, answer: work_once(&*with_members, &bench.with_part(&of_part)) }
    };
    combinations(named).into_iter().map(run).collect()
}

/// Every way to name one member for each metal; of an alloy there is one.
fn combinations(named: &[At<Material>]) -> Vec<Vec<Material>> {
    named.iter().fold(vec![Vec::new()], |all, at| {
        let longer = |so_far: &Vec<Material>| {
            let with = |member| so_far.iter().cloned().chain([member]).collect();
            at.value.members().into_iter().map(with).collect::<Vec<_>>()
        };
        all.iter().flat_map(longer).collect()
    })
}

/// Names in a row, each once.
fn joined<'a>(names: impl Iterator<Item = &'a str>) -> Fact {
    let mut all: Vec<&str> = Vec::new();
    names.for_each(|name| {
        if !all.contains(&name) {
            all.push(name);
        }
    });
    let and = |one: Fact, other: Fact| Words::of("one-and-other").with("one", one).with("other", other).into();
    all.into_iter().map(Fact::from).reduce(and).unwrap_or_else(|| "".into())
}

/// The check that says so: doubtful at best.
fn alloy_named(families: &[&At<Material>], member: &Fact, place: Place) -> Check {
    let members = |at: &&At<Material>| -> Vec<&'static str> {
        at.value.members().iter().map(|member| member.row().name.as_str()).collect()
    };
    let all: Vec<&str> = families.iter().flat_map(members).collect();
    let mut each: Vec<&str> = Vec::new();
    all.into_iter().for_each(|name| {
        if !each.contains(&name) {
            each.push(name);
        }
    });
    let family = joined(families.iter().map(|at| at.value.typed()));
    Check::of_kind("alloy-named", Verdict::Doubtful)
        .at(place)
        .with("family", family)
        .with("member", member.clone())
        .with("members", each.join("; "))
}

/// The plan that is best for the worst member, with the worst of every check, and the member whose figures it shows.
fn worst_of(runs: &[Run], at_its_sizes: impl Fn(&Run) -> Option<Vec<Run>>) -> Option<(Answer, Fact)> {
    let plan = |(base, run): (usize, &Run)| match at_its_sizes(run) {
        Some(others) => merged(&others, base),
        None => merged(runs, base),
    };
    let plans: Vec<Answer> = runs.iter().enumerate().filter_map(plan).collect();
    let weight = |answer: &Answer| {
        let stamped = |verdict| answer.checks.iter().filter(|check| check.stamps() == Some(verdict)).count();
        (answer.refused.is_some(), stamped(Verdict::Fails), stamped(Verdict::Doubtful))
    };
    let order = |a: &(usize, &Answer), b: &(usize, &Answer)| {
        let own = |at: usize| runs.get(at).map(|run| (run.answer.verdict(), weight(&run.answer)));
        weight(a.1).cmp(&weight(b.1)).then_with(|| own(b.0).cmp(&own(a.0)))
    };
    let (at, plan) = plans.iter().enumerate().min_by(order)?;
    Some((plan.clone(), runs.get(at)?.member.clone()))
}

/// The plan of one run, with the worst of every check among all: where another run would choose another alternative, what it
/// says of the one chosen here counts.
fn merged(runs: &[Run], base: usize) -> Option<Answer> {
    let mut answer = runs.get(base)?.answer.clone();
    let chosen = answer.alternatives.iter().find(|row| row.chosen).map(|row| row.name.clone());
    let at_choice: Vec<(&Fact, Vec<Check>)> =
        runs.iter().map(|run| (&run.member, checks_at(&run.answer, chosen.as_ref()))).collect();
    for check in at_choice.iter().flat_map(|(_, checks)| checks) {
        if !answer.checks.iter().any(|known| known.id == check.id) {
            answer.checks.push(check.clone());
        }
    }
    for check in &mut answer.checks {
        *check = worst_check(check, at_choice.iter().map(|(member, checks)| (*member, checks.as_slice())));
    }
    for row in &mut answer.alternatives {
        let others: Vec<(&Fact, &Alternative)> =
            runs.iter().filter_map(|run| Some((&run.member, run.alternative(&row.name)?))).collect();
        row.answer.refused =
            row.answer.refused.take().or_else(|| others.iter().find_map(|o| o.1.answer.refused.clone()));
        for check in &mut row.answer.checks {
            *check = worst_check(check, others.iter().map(|(member, o)| (*member, o.answer.checks.as_slice())));
        }
    }
    for run in runs {
        hold_limits::narrow(&mut answer, &run.answer);
        run.answer.cautions.iter().for_each(|words| answer.caution(words.id));
        answer.refused = answer.refused.or_else(|| run.answer.refused.clone());
    }
    Some(answer)
}

/// The checks of a run, with this alternative chosen.
fn checks_at(answer: &Answer, chosen: Option<&Words>) -> Vec<Check> {
    let row = answer.alternatives.iter().find(|row| Some(&row.name) == chosen && !row.chosen);
    let of_row = |id: &str| row.and_then(|row| row.answer.checks.iter().find(|check| check.id == id)).cloned();
    answer.checks.iter().map(|check| of_row(check.id).unwrap_or_else(|| check.clone())).collect()
}

/// The worst of what the runs say of one check; where they differ it carries the name of the member.
fn worst_check<'a>(check: &Check, all: impl Iterator<Item = (&'a Fact, &'a [Check])>) -> Check {
    let said: Vec<(&Fact, &Check)> =
        all.filter_map(|(member, checks)| Some((member, checks.iter().find(|other| other.id == check.id)?))).collect();
    let Some((member, worst)) = said.iter().max_by(|a, b| badness(a.1, b.1)).copied() else { return check.clone() };
    let differ = said.iter().any(|(_, other)| other.state != worst.state || margin(other) != margin(worst));
    if differ { worst.clone().with(WORST_MEMBER, member.clone()) } else { check.clone() }
}

/// The fact of a check that names the member of a family for which it is worst.
pub const WORST_MEMBER: &str = "worst_member";

fn margin(check: &Check) -> Option<f64> {
    check.judged.as_ref().map(|judged| judged.margin)
}

/// What stamps worse is worse; then what was not checked; then the smaller margin.
fn badness(a: &Check, b: &Check) -> Ordering {
    let open = |check: &Check| match check.state {
        Outcome::NotChecked => 3,
        Outcome::Made(_) => 2,
        Outcome::NoShop => 1,
        Outcome::DoesNotApply => 0,
    };
    let by_margin = || match (margin(a), margin(b)) {
        (Some(a), Some(b)) => b.total_cmp(&a),
        _ => Ordering::Equal,
    };
    a.stamps().cmp(&b.stamps()).then_with(|| open(a).cmp(&open(b))).then_with(by_margin)
}
