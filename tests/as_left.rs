//! What must hold between two logs and not only in one: a figure that was left further beyond its limit, or read with more doubt,
//! never betters a verdict, and none that is far out proves anything. And each figure that the log takes has its line on a sheet.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::laws::{of_sheet, texts};
use crate::common::{SHOP, committed_jobs, over_jobs, shop};
use setover::job::{JobFile, Ledger};
use setover::operations::{Declared, Registered, Request, SetUp};
use setover::plan::{Cards, Plan, Planned, work};
use setover::proof::{Figure, Place, Verdict};
use setover::quantity::Unit;
use setover::reading::Node;
use setover::sheet::layout;
use setover::sheet::page::{Ink, Role};
use setover::shop::Shop;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Mutex;

/// A figure of an operation that the log takes: how many of the job, its name, its unit.
pub type Asked = (usize, Declared);

/// A job with the figures that the log takes of it.
pub struct Job {
    pub path: String,
    file: JobFile<Request>,
    /// Of each operation the job of its part alone, where that says the same of it.
    alone: Vec<Option<JobFile<Request>>>,
    pub shop: Shop,
    pub plan: Plan,
    pub asked: Vec<Asked>,
}

impl Job {
    /// None of a job that cannot be planned, or of which the log takes nothing.
    fn of((path, text): (String, String), shop: Shop) -> Option<Self> {
        let file: JobFile<Request> = Node::yaml(&text, Place::start(0)).ok()?.read().ok()?;
        let plan = planned(&file, &shop, Ledger::default())?;
        let requests = || file.parts.iter().flat_map(|part| &part.operations);
        let all: Vec<Asked> = plan
            .operations
            .iter()
            .enumerate()
            .filter(|(_, one)| one.answer.refused.is_none())
            .flat_map(|(at, one)| {
                let of = requests().find(|request| request.word() == one.word);
                let left = of.into_iter().flat_map(|request| request.declared()).filter(|name| name.left.is_some());
                left.map(move |name| (at, *name)).collect::<Vec<_>>()
            })
            .collect();
        let asked =
            all.into_iter().filter(|(at, name)| plan.operations[*at].answer.value(name.key).is_some()).collect();
        let alone = (0..plan.operations.len()).map(|at| alone(&file, &shop, &plan, at)).collect();
        Some(Self { path, file, alone, shop, plan, asked })
    }

    /// The operation with a figure as it was left.
    pub fn left(&self, (at, name): &Asked, number: f64, doubt: f64) -> Planned {
        let mut log = Ledger::default();
        let address = &self.plan.operations[*at].address;
        log.leave(address, name.key, Figure::as_left(number, name.unit, doubt, 1));
        let file = self.alone.get(*at).and_then(Option::as_ref).unwrap_or(&self.file);
        let plan = planned(file, &self.shop, log).unwrap_or_else(|| panic!("{}: {number} {}", self.path, name.key));
        plan.operations.into_iter().find(|one| one.address == *address).unwrap()
    }
}

/// The part of an operation alone, where the whole job has more and says nothing else of the operation.
fn alone(file: &JobFile<Request>, shop: &Shop, plan: &Plan, at: usize) -> Option<JobFile<Request>> {
    let whole = plan.operations.get(at)?;
    let mut file = file.clone();
    let parts = file.parts.len();
    file.parts.retain(|part| part.part.value == whole.address.part);
    if file.parts.len() == parts {
        return None;
    }
    let own = planned(&file, shop, Ledger::default())?;
    let own = own.operations.iter().find(|one| one.address == whole.address)?;
    let says = |planned: &Planned| {
        let checks = planned.answer.checks.iter();
        let checks: Vec<_> = checks.map(|check| (check.id, check.state, check.weight, check.judged)).collect();
        let values = planned.answer.values.iter().map(|value| (value.key, value.number, value.plus_minus));
        (planned.verdict, checks, values.collect::<Vec<_>>())
    };
    (says(own) == says(whole)).then_some(file)
}

fn planned(file: &JobFile<Request>, shop: &Shop, log: Ledger) -> Option<Plan> {
    let cards = Cards::built_in(Request::WORDS.iter().copied()).ok()?;
    work(file, Some(shop), &cards, log).ok()
}

/// Every committed job in some shop.
pub fn jobs_in(own: &str) -> Vec<Job> {
    let mut all: Vec<Job> = committed_jobs().into_iter().filter_map(|job| Job::of(job, shop(own))).collect();
    all.retain(|job| !job.asked.is_empty());
    all
}

pub fn all_jobs() -> Vec<Job> {
    let mut all = jobs_in(SHOP);
    let own =
        |name: &str, text: &str, with: &str| Job::of((name.to_owned(), text.to_owned()), shop(with)).expect("a job");
    all.push(own("a barrel", crate::rebore::BARREL, crate::rebore::SHOP));
    all
}

/// A set-up whose size the log has as it was left is done: its sheet sets nothing, aims at nothing, and says by which entry.
#[test]
fn a_sheet_of_work_that_is_done_sets_nothing() {
    let mut seen = 0;
    for job in all_jobs().iter().filter(|job| job.path.starts_with("examples")) {
        for (at, name) in &job.asked {
            let planned = &job.plan.operations[*at];
            let own = |set_up: &SetUp<String>| {
                set_up.blanks.iter().filter_map(|blank| blank.log).any(|left| left.key == name.key && left.closes)
            };
            let Some(number) = planned.answer.set_ups.iter().position(own) else { continue };
            let value = planned.answer.value(name.key).unwrap();
            let mut log = Ledger::default();
            let left = Figure::as_left(value.number, name.unit, 0.001, 1);
            log.leave(&planned.address, name.key, left);
            let plan = self::planned(&job.file, &job.shop, log).unwrap();
            if plan.operations[*at].verdict == Verdict::Fails {
                continue;
            }
            seen += 1;
            let pages = layout::pages(std::slice::from_ref(&plan)).unwrap();
            let id = format!("{}.{}", at + 1, number + 1);
            let sheet = of_sheet(&pages, &id);
            assert_eq!(sheet.len(), 1, "{} {}", job.path, name.key);
            let of =
                |area: &str| texts(sheet[0], area).iter().map(|text| text.text.clone()).collect::<Vec<_>>().join(" ");
            let says = of("cuts");
            let done =
                ["DONE: the log has its size as it was left (L1)", "DONE by the log (L1), which has nothing of: "];
            assert!(done.iter().any(|done| says.contains(done)), "{says}");
            let set =
                sheet[0].marks.iter().filter(|mark| matches!(&mark.ink, Ink::Text(text) if text.role == Role::Figure));
            assert_eq!(set.count(), 0, "{} {}: {}", job.path, name.key, of("measure"));
        }
    }
    assert!(seen > 8, "{seen}");
}

/// What a check says: a check that was not made is doubtful where it must be, one that is not there says nothing.
fn rank(verdict: Option<Verdict>) -> u8 {
    match verdict {
        None | Some(Verdict::Proven) => 0,
        Some(Verdict::Doubtful) => 1,
        Some(Verdict::Fails) => 2,
    }
}

/// The worst of each check by its id, and of all together.
fn ranks(planned: &Planned) -> BTreeMap<&'static str, u8> {
    let refused = planned.answer.refused.is_some();
    let mut all = BTreeMap::from([("all", if refused { 2 } else { 0 })]);
    for check in &planned.answer.checks {
        // What cannot be worked out is judged by nothing.
        let open = check.verdict().is_none() && check.stamps().is_some();
        let rank = if refused && open { 2 } else { rank(check.stamps()) };
        for id in [check.id, "all"] {
            let worst = all.entry(id).or_insert(0);
            *worst = rank.max(*worst);
        }
    }
    all
}

/// How far from what was planned, mm or um of roughness; the last is out of every limit.
const OFF: [f64; 9] = [0.001, 0.004, 0.01, 0.02, 0.05, 0.1, 0.3, 1.0, 8.0];
const ROUGH: [f64; 6] = [0.05, 0.1, 0.2, 0.4, 1.0, 8.0];
const DOUBTS: [f64; 3] = [0.001, 0.01, 0.05];

/// Figures of how far something is off, of which none is too little.
pub const THE_LESS_THE_BETTER: [&str; 5] =
    ["flat_after", "tilt_after", "tir_after", "tir_after_second", "thread_walked"];

/// Another shim is chosen for another length: the float that it leaves has two sides; another piston is meant by another size.
const CHOSEN_ANEW: [&str; 3] = ["float-with-shim", "shim-in-drawer", "piston-in-hand"];

#[test]
fn what_was_left_further_out_or_is_less_sure_never_betters_a_verdict() {
    let jobs = all_jobs();
    let all: Vec<(&Job, &Asked)> =
        jobs.iter().flat_map(|job| job.asked.iter().map(move |asked| (job, asked))).collect();
    // Two jobs of each figure: that is hundreds of readings.
    let mut times: BTreeMap<(&str, &str), usize> = BTreeMap::new();
    let all: Vec<(&Job, &Asked)> = all
        .into_iter()
        .filter(|(job, (at, name))| {
            let count = times.entry((job.plan.operations[*at].word.as_ref(), name.key)).or_default();
            *count += 1;
            *count <= 2
        })
        .collect();
    let better: Mutex<BTreeMap<String, String>> = Mutex::default();
    let moved: Mutex<BTreeSet<&str>> = Mutex::default();
    over_jobs(all.len() as u64, |nth| {
        let (job, asked) = all[nth as usize];
        let (at, name) = asked;
        let middle = job.plan.operations[*at].answer.value(name.key).unwrap().number;
        let off: &[f64] = if name.unit == Unit::Um { &ROUGH } else { &OFF };
        let sizes: Vec<f64> = off.iter().rev().map(|off| -off).chain([0.0]).chain(off.iter().copied()).collect();
        // A size that is none is no reading.
        let lowest =
            if job.plan.operations[*at].answer.value(name.key).unwrap().number < 0.0 { f64::MIN } else { 1e-6 };
        let sizes: Vec<f64> = sizes.into_iter().map(|off| middle + off).filter(|size| *size > lowest).collect();
        let rows: Vec<Vec<BTreeMap<&str, u8>>> = DOUBTS
            .iter()
            .map(|doubt| sizes.iter().map(|size| ranks(&job.left(asked, *size, *doubt))).collect())
            .collect();
        let say = |what: &str, id: &str, says: String| {
            let key = format!("{} {}: {id} {what}", job.plan.operations[*at].word, name.key);
            better.lock().unwrap().entry(key).or_insert_with(|| format!("{}: {says}", job.path));
        };
        let ids: BTreeSet<&str> = rows.iter().flatten().flat_map(BTreeMap::keys).copied().collect();
        // Of what cannot be nobody asks what else was left.
        for id in ids.into_iter().filter(|id| *id != "size-written-down") {
            let of = |ranks: &BTreeMap<&str, u8>| ranks.get(id).copied().unwrap_or(0);
            for (doubt, row) in DOUBTS.iter().zip(&rows) {
                let row: Vec<u8> = row.iter().map(of).collect();
                if row.iter().any(|rank| *rank != row[0]) {
                    moved.lock().unwrap().insert(name.key);
                }
                if CHOSEN_ANEW.contains(&id) {
                    continue;
                }
                // Worse to both sides of the best: what is no better than some rank lies together.
                for rank in 0..2 {
                    let good = |at: &usize| row[*at] <= rank;
                    let (first, last) = ((0..row.len()).find(good), (0..row.len()).rev().find(good));
                    let (Some(first), Some(last)) = (first, last) else { continue };
                    if let Some(hole) = (first..last).find(|at| !good(at)) {
                        say("gets better further out", id, format!("{doubt} {:?} {row:?}", sizes[hole]));
                    }
                }
            }
            for (less, more) in rows.iter().zip(&rows[1..]) {
                for ((less, more), size) in less.iter().zip(more).zip(&sizes) {
                    if of(more) < of(less) {
                        say("gets better by doubt", id, format!("{size}: {} to {}", of(less), of(more)));
                    }
                }
            }
        }
        for row in &rows {
            let ends = [(row.first(), sizes.first()), (row.last(), sizes.last())];
            for (ranks, size) in ends.into_iter().skip(usize::from(THE_LESS_THE_BETTER.contains(&name.key))) {
                if ranks.unwrap()["all"] == 0 {
                    say("is proven", "all", format!("left {size:?}"));
                }
            }
        }
    });
    let better = better.into_inner().unwrap();
    assert!(better.is_empty(), "{better:#?}");
    let asked: BTreeSet<&str> = all.iter().map(|(_, (_, name))| name.key).collect();
    assert!(asked.len() > 10, "{asked:?}");
    assert_eq!(moved.into_inner().unwrap(), asked, "each moves some check");
}

/// Every figure that the log takes of an operation has a line on its sheets, in a unit that the log reads; and no line has a name
/// that the log would refuse.
#[test]
fn each_figure_that_the_log_takes_has_a_line_to_write_it_on() {
    let mut lacking = BTreeSet::new();
    let mut seen = BTreeSet::new();
    for job in all_jobs() {
        for (at, one) in job.plan.operations.iter().enumerate() {
            let lines = lines_of(one);
            let names = || job.asked.iter().filter(|(of, _)| *of == at).map(|(_, name)| name.key);
            let is_taken = |key: &&str| one.may_be_logged.iter().any(|(name, _)| name == key);
            lacking.extend(lines.iter().filter(|key| !is_taken(key)).map(|key| format!("{key}?")));
            // Where nothing is done there is nothing to write down.
            let done = one.answer.set_ups.iter().any(|set_up| !set_up.blanks.is_empty());
            let missing = names().filter(|name| done && !lines.contains(name));
            lacking.extend(missing.map(|name| format!("{} {name} ({})", one.word, job.path)));
            seen.extend(lines);
        }
    }
    assert!(lacking.is_empty(), "{lacking:#?}");
    assert!(seen.len() > 10, "{seen:?}");
}

fn lines_of(one: &Planned) -> BTreeSet<&'static str> {
    one.answer.set_ups.iter().flat_map(|set_up| &set_up.blanks).filter_map(|blank| Some(blank.log?.key)).collect()
}
