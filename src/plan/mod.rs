//! Layer 8. Working a job through: the order in which operations are worked (by what they need of each other), the checks
//! between them, and the words of their cards with the figures put in. Nothing of one operation's inside is known here.

mod cards;
mod change;
mod changes;
pub mod day;
pub mod decide;
mod frame;
mod log;
mod of_day;
mod order;
mod pairs;
mod planned;
mod rules;
mod scope;
pub(crate) mod spread;
mod words;

pub use cards::Cards;
pub use change::{Change, ChangeKind};
pub use changes::{changes, no_longer};
pub use frame::{Plan, Planned, Unmade};
pub use log::{Logged, logged};
pub use of_day::{OfDay, PlaceOfWork, ShopOfDay};

use crate::job::{JobFile, Ledger, PartFacts};
use crate::operations::{self, Answer, Bench, Registered};
use crate::proof::Verdict;
use crate::reading::Problem;
use crate::shop::Shop;
use order::Task;

/// Works a job through.
///
/// # Errors
/// Every problem of the input: sizes that cannot be, names that nobody has, circles, cards whose blanks nothing fills.
pub fn work<R: Registered>(
    job: &JobFile<R>,
    shop: Option<&Shop>,
    cards: &Cards,
    log: impl Into<Logged>,
) -> Result<Plan, Vec<Problem>> {
    let (plan, operations) = work_each(job, shop, cards, log, |_, planned, _| planned)?;
    Ok(Plan { operations, ..plan })
}

/// Works a job through to be printed: as [`work`], but what its figures were worked from does not stay in memory, and nothing of
/// it can be shaken.
///
/// # Errors
/// As [`work`].
pub(crate) fn work_to_print<R: Registered>(
    job: &JobFile<R>,
    shop: Option<&Shop>,
    cards: &Cards,
    log: impl Into<Logged>,
) -> Result<Plan, Vec<Problem>> {
    let (plan, operations) = work_each_to_print(job, shop, cards, log, |_, planned, _| planned)?;
    Ok(Plan { operations, ..plan })
}

/// The same, and does something to each operation, with the frame of the job and its number, from 1, as soon as it stands in
/// words: what comes of it is kept, in the order of the file, and the operation is not. The frame has no operations.
///
/// # Errors
/// As [`work`].
pub(crate) fn work_each_to_print<R: Registered, T: Send>(
    job: &JobFile<R>,
    shop: Option<&Shop>,
    cards: &Cards,
    log: impl Into<Logged>,
    each: impl Fn(&Plan, Planned, usize) -> T + Sync,
) -> Result<(Plan, Vec<T>), Vec<Problem>> {
    work_each(job, shop, cards, log, |plan, mut planned, number| {
        planned.answer.settle();
        planned.in_one_unit.iter_mut().for_each(|brief| brief.settle());
        each(plan, planned, number)
    })
}

/// As [`work`], and does something to each operation.
fn work_each<R: Registered, T: Send>(
    job: &JobFile<R>,
    shop: Option<&Shop>,
    cards: &Cards,
    log: impl Into<Logged>,
    each: impl Fn(&Plan, Planned, usize) -> T + Sync,
) -> Result<(Plan, Vec<T>), Vec<Problem>> {
    let facts: Vec<PartFacts> = job.parts.iter().map(|part| part.facts()).collect();
    let tasks = order::tasks(job, &facts);
    let mut problems: Vec<Problem> = tasks.iter().flat_map(|task| task.request.problems(task.part)).collect();
    problems.extend(order::unknown_names(&tasks, shop));
    let sequence = order::sequence(&tasks).unwrap_or_else(|circle| {
        problems.extend(circle);
        Vec::new()
    });
    if !problems.is_empty() {
        return Err(problems);
    }

    let log = log.into();
    let mut ledger = log.ledger.clone();
    for task in &tasks {
        let asked = task.request.asks(&Bench::new(shop, task.part, &task.address, &ledger));
        enter(&mut ledger, task, &asked);
    }
    let apart = |task: &Task| task.request.disagrees(&Bench::new(shop, task.part, &task.address, &ledger));
    let problems: Vec<Problem> = tasks.iter().flat_map(apart).collect();
    if !problems.is_empty() {
        return Err(problems);
    }
    let plan = frame::empty(job, shop, cards);
    let said = |group: &Vec<usize>| {
        let worked = worked(group, &tasks, shop, (&ledger, &log));
        planned::plan(&plan, shop, cards, worked, &each)
    };
    let mut said: Vec<_> = spread::all(&order::groups(&tasks, &sequence), said).into_iter().flatten().collect();
    said.sort_unstable_by_key(|(at, _)| *at);
    let (mut all, mut problems) = (Vec::with_capacity(said.len()), Vec::new());
    said.into_iter().for_each(|(_, said)| match said {
        Ok(one) => all.push(one),
        Err(problem) => problems.push(problem),
    });
    if problems.is_empty() { Ok((plan, all)) } else { Err(problems) }
}

/// The operations of a group worked one after the other (two that stand in one line look at what the other of them gave, and only
/// one of them comes second), and then held against each other; in the order of the file, each with its place there.
fn worked<'a, 'b>(
    group: &[usize],
    tasks: &'a [Task<'b>],
    shop: Option<&Shop>,
    (ledger, log): (&Ledger, &Logged),
) -> Vec<(usize, &'a Task<'b>, Answer)> {
    let of_group = || group.iter().filter_map(|at| Some((*at, tasks.get(*at)?)));
    let mut ledger = ledger.only(of_group().map(|(_, task)| &task.address));
    let mut worked: Vec<(usize, &Task, Answer)> = of_group()
        .map(|(at, task)| {
            let mut answer = operations::work(task.request, &Bench::new(shop, task.part, &task.address, &ledger));
            log.doubtful(&task.address, task.place).for_each(|check| {
                answer.check(check);
            });
            enter(&mut ledger, task, &answer);
            (at, task, answer)
        })
        .collect();
    worked.sort_unstable_by_key(|(at, ..)| *at);
    rules::check(&mut worked);
    pairs::check(&mut worked);
    worked
}

fn enter(ledger: &mut Ledger, task: &Task, answer: &Answer) {
    let values = answer.values.iter().map(|value| (value.key, value.figure())).collect();
    ledger.plan(&task.address, answer.verdict() == Verdict::Fails, values);
}

impl Plan {
    /// The worst verdict of the job.
    pub fn verdict(&self) -> Verdict {
        self.operations.iter().map(|operation| operation.verdict).max().unwrap_or(Verdict::Proven)
    }
}
