//! Layer 8. Working a job through: the order in which operations are worked (by what they need of each other), the checks
//! between them, and the words of their cards with the figures put in. Nothing of one operation's inside is known here.

mod as_planned;
mod cards;
mod change;
mod changes;
pub mod day;
pub mod decide;
mod first;
mod frame;
mod log;
mod of_day;
mod open;
mod order;
mod planned;
mod together;
mod words;
mod worked;

/// What a sheet shows of job and shop beside the plan: entries of the log, the paper, where a view stands.
pub use crate::job::{Log, LogEntry, LogFault, LogFaultKind};
pub use crate::shop::{Paper, View};
pub use cards::Cards;
pub use change::{Change, ChangeKind};
pub use changes::{by_their_entries, changes, no_longer, no_longer_since};
pub use first::{First, FirstBy};
pub use frame::{Plan, Planned, Unmade};
pub use log::{Logged, addresses, elsewhere, logged};
pub use of_day::{OfDay, PlaceOfWork, ShopOfDay, WorkedSetUp};
pub use worked::worked_by_log;

use crate::in_order::InOrder;
use crate::job::{JobFile, Ledger, PartFacts};
use crate::operations::{self, Answer, Bench, Registered};
use crate::proof::Verdict;
use crate::reading::Problem;
use crate::shop::Shop;
use crate::spread;
use frame::{Frame, Told};
use order::Task;
use together::drawers::Late;
pub(crate) use together::half::ID as SIZE_WRITTEN_DOWN;
use together::{by_place, clean, drawers, given_up, links, parts, readied, stale};

/// One of the jobs that are given together: one set of parts and addresses, each job with its own shop, cards and log.
#[derive(Debug)]
pub struct Given<'a, R> {
    /// The job.
    pub job: &'a JobFile<R>,
    /// Its shop.
    pub shop: Option<&'a Shop>,
    /// Its cards.
    pub cards: &'a Cards,
    /// What its log says.
    pub log: Logged,
}

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
    let all = work_together(&[Given { job, shop, cards, log: log.into() }])?;
    Ok(all.into_iter().next().unwrap_or_else(|| frame::empty(job, shop, cards)))
}

/// Works jobs through that are given together: what one of them leaves another may go on from.
///
/// # Errors
/// As [`work`], and addresses that two of them have.
pub fn work_together<R: Registered>(jobs: &[Given<R>]) -> Result<Vec<Plan>, Vec<Problem>> {
    Ok(whole(work_each(jobs, |_, planned, _| planned)?))
}

/// Works jobs through to be printed: as [`work_together`], but what figures were worked from does not stay in memory, and nothing
/// can be shaken.
///
/// # Errors
/// As [`work_together`].
pub(crate) fn work_to_print<R: Registered>(jobs: &[Given<R>]) -> Result<Vec<Plan>, Vec<Problem>> {
    Ok(whole(work_each_to_print(jobs, |_, planned, _| planned)?))
}

/// Each plan with its operations.
fn whole(all: Vec<(Plan, Vec<Planned>)>) -> Vec<Plan> {
    all.into_iter().map(|(plan, operations)| Plan { operations, ..plan }).collect()
}

/// As [`work_each`], of operations that are printed.
///
/// # Errors
/// As [`work_together`].
pub(crate) fn work_each_to_print<R: Registered, T: Send>(
    jobs: &[Given<R>],
    each: impl Fn(&Plan, Planned, usize) -> T + Sync,
) -> Result<Vec<(Plan, Vec<T>)>, Vec<Problem>> {
    work_each(jobs, |plan, mut planned, number| {
        planned.answer.settle();
        planned.in_one_unit.iter_mut().for_each(|brief| brief.settle());
        each(plan, planned, number)
    })
}

/// As [`work_together`], and does something to each operation, with the frame of its job and its number there, from 1, as soon as it
/// stands in words: what comes of it is kept, in the order of the files, and the operation is not. The frames have no operations.
///
/// # Errors
/// As [`work_together`].
pub(crate) fn work_each<R: Registered, T: Send>(
    jobs: &[Given<R>],
    each: impl Fn(&Plan, Planned, usize) -> T + Sync,
) -> Result<Vec<(Plan, Vec<T>)>, Vec<Problem>> {
    each_of(jobs, Told::Whole, each)
}

/// As [`work_each`], of operations of which a list tells: of an answer in built-in words no others are put.
///
/// # Errors
/// As [`work_together`].
pub(crate) fn work_each_in_a_line<R: Registered, T: Send>(
    jobs: &[Given<R>],
    each: impl Fn(&Plan, Planned, usize) -> T + Sync,
) -> Result<Vec<(Plan, Vec<T>)>, Vec<Problem>> {
    each_of(jobs, Told::InALine, each)
}

fn each_of<R: Registered, T: Send>(
    jobs: &[Given<R>],
    told: Told,
    each: impl Fn(&Plan, Planned, usize) -> T + Sync,
) -> Result<Vec<(Plan, Vec<T>)>, Vec<Problem>> {
    let mut facts: Vec<Vec<PartFacts>> =
        jobs.iter().map(|given| given.job.parts.iter().map(|part| part.facts()).collect()).collect();
    let of_all = || jobs.iter().flat_map(|given| &given.job.parts);
    let mut contradict = parts::slips("part", of_all().map(|part| &part.part));
    contradict.extend(parts::slips("assembly", of_all().filter_map(|part| part.assembly.as_ref())));
    contradict.extend(parts::agree(&mut facts));
    if !contradict.is_empty() {
        return Err(contradict);
    }
    let by_job: Vec<Vec<Task>> = (0..)
        .zip(jobs.iter().zip(&facts))
        .map(|(nth, (given, facts))| order::tasks((nth, given.job, given.shop), facts))
        .collect();
    let mut frames = Vec::with_capacity(jobs.len());
    let mut first = 0;
    for (given, own) in jobs.iter().zip(&by_job) {
        let mut plan = frame::empty(given.job, given.shop, given.cards);
        plan.nth = (jobs.len() > 1).then_some(frames.len() + 1);
        frames.push(Frame { plan, cards: given.cards, first, told });
        first += own.len();
    }
    let mut tasks: Vec<Task> = by_job.into_iter().flatten().collect();
    parts::bolted(&mut tasks);
    let mut log = Logged::default();
    (0..).zip(jobs).for_each(|(nth, given)| log.add(given.log.clone(), nth));
    let stale = stale::stale(&tasks, &log.cuts);
    log.doubtful.extend(stale);
    let by_place = by_place::doubtful(&tasks, &log.cuts);
    log.doubtful.extend(by_place);
    let said = all_worked(&tasks, &log, &frames, &each)?;
    let mut all: Vec<(Plan, Vec<T>)> = frames.into_iter().map(|frame| (frame.plan, Vec::new())).collect();
    for (job, one) in said {
        if let Some((_, own)) = all.get_mut(job) {
            own.push(one);
        }
    }
    Ok(all)
}

/// Works all operations and puts them into words; each with the number of its job, in the order of the files.
fn all_worked<T: Send>(
    tasks: &[Task],
    log: &Logged,
    frames: &[Frame],
    each: &(impl Fn(&Plan, Planned, usize) -> T + Sync),
) -> Result<Vec<(usize, T)>, Vec<Problem>> {
    let (ledger, groups) = in_groups(tasks, log)?;
    let first = |group: &Vec<usize>| {
        let worked = worked(group, tasks, (&ledger, log, &Late::new()));
        (seen(&worked, log), planned::plan(frames, (worked, log), each))
    };
    let (seen, mut said_of): (Vec<_>, Vec<_>) = spread::all(&groups, first).into_iter().unzip();
    let Again { log, late, groups } = again(seen, tasks, (&ledger, log, &groups));
    let said = spread::all(&groups, |(nth, group)| {
        (*nth, planned::plan(frames, (worked(group, tasks, (&ledger, &log, &late)), &log), each))
    });
    for (nth, said) in said {
        if let Some(old) = said_of.get_mut(nth) {
            *old = said;
        }
    }
    let mut said: Vec<_> = said_of.into_iter().flatten().collect();
    said.sort_unstable_by_key(|(at, _)| *at);
    let (mut all, mut problems) = (Vec::with_capacity(said.len()), Vec::new());
    for (at, said) in said {
        match (said, tasks.get(at)) {
            (Ok(one), Some(task)) => all.push((task.job, one)),
            (Err(problem), _) => problems.push(problem),
            (Ok(_), None) => {}
        }
    }
    if problems.is_empty() { Ok(all) } else { Err(problems) }
}

/// What can be told before anything is worked: the sizes that others may ask, and the operations that are worked one after the other.
fn in_groups(tasks: &[Task], log: &Logged) -> Result<(Ledger, Vec<Vec<usize>>), Vec<Problem>> {
    let mut problems: Vec<Problem> = tasks.iter().flat_map(|task| task.request.problems(task.part)).collect();
    problems.extend(order::unknown_names(tasks));
    let sequence = order::sequence(tasks).unwrap_or_else(|circle| {
        problems.extend(circle);
        Vec::new()
    });
    if !problems.is_empty() {
        return Err(problems);
    }
    let mut ledger = log.ledger.clone();
    for task in tasks {
        let asked = task.request.asks(&Bench::new(task.shop, task.part, &task.address, &ledger));
        enter(&mut ledger, task, &asked);
    }
    let apart = |task: &Task| task.request.disagrees(&Bench::new(task.shop, task.part, &task.address, &ledger));
    let problems: Vec<Problem> = tasks.iter().flat_map(apart).collect();
    if !problems.is_empty() {
        return Err(problems);
    }
    let groups = order::groups(tasks, &sequence);
    Ok((ledger, groups))
}

/// What one group shows that others are held against: what it takes from drawers, and what was seen of its cuts.
type Seen = (drawers::Takes, (Vec<links::Seen>, Vec<readied::Readies>, Vec<given_up::AtLathe>, Vec<clean::Cleans>));

fn seen(worked: &[(usize, &Task, Answer)], log: &Logged) -> Seen {
    (
        drawers::takes_of(worked),
        (links::seen(worked), readied::seen(worked), given_up::seen(worked, log), clean::seen(worked)),
    )
}

/// What is said again, and with what.
struct Again<'a> {
    log: Logged,
    late: Late,
    groups: Vec<(usize, &'a Vec<usize>)>,
}

/// Whoever comes too late, or read what is cut elsewhere, is said again, with all that look at it.
fn again<'a>(
    seen: Vec<Seen>,
    tasks: &[Task],
    (ledger, log, groups): (&Ledger, &Logged, &'a [Vec<usize>]),
) -> Again<'a> {
    let (takes, seen): (Vec<_>, Vec<_>) = seen.into_iter().unzip();
    let (mut links, mut readied, mut at_lathe, mut cleans) = (Vec::new(), Vec::new(), Vec::new(), Vec::new());
    for seen in seen {
        links.extend(seen.0);
        readied.extend(seen.1);
        at_lathe.extend(seen.2);
        cleans.extend(seen.3);
    }
    let mut doubts = links::doubtful(tasks, &links, log);
    doubts.extend(readied::doubtful(tasks, &readied));
    doubts.extend(clean::doubtful(tasks, &cleans));
    at_lathe.order_by_key(given_up::AtLathe::place);
    doubts.extend(given_up::doubtful(tasks, &at_lathe, log));
    let log = log.with_doubts(doubts.clone());
    let late = drawers::late(tasks, (groups, takes), |group, late| worked(group, tasks, (ledger, &log, late)));
    let reads =
        |at: &usize| tasks.get(*at).is_some_and(|task| doubts.iter().any(|(of, _)| of.as_ref() == Some(&task.address)));
    let is_late = |group: &&Vec<usize>| group.iter().any(|at| late.contains_key(at) || reads(at));
    let groups = groups.iter().enumerate().filter(|(_, group)| is_late(group)).collect();
    Again { log, late, groups }
}

/// The operations of a group worked one after the other (two that stand in one line look at what the other of them gave, and only
/// one of them comes second), and then held against each other; in the order of the file, each with its place there.
fn worked<'a, 'b>(
    group: &[usize],
    tasks: &'a [Task<'b>],
    (ledger, log, late): (&Ledger, &Logged, &Late),
) -> Vec<(usize, &'a Task<'b>, Answer)> {
    let of_group = || group.iter().filter_map(|at| Some((*at, tasks.get(*at)?)));
    let mut ledger = ledger.only(of_group().map(|(_, task)| &task.address));
    let mut worked: Vec<(usize, &Task, Answer)> = of_group()
        .map(|(at, task)| {
            let gone = late.get(&at);
            let shop = gone.and_then(|gone| Some(gone.shop(task.shop?)));
            let bench = Bench::new(shop.as_ref().or(task.shop), task.part, &task.address, &ledger);
            let mut answer = operations::work(task.request, &bench);
            gone.into_iter().for_each(|gone| gone.put_down(&mut answer));
            log.doubtful(&task.address, task.place).for_each(|check| links::put_down(&mut answer, check));
            as_planned::judge(&mut answer, task, shop.as_ref().or(task.shop), &ledger);
            enter(&mut ledger, task, &answer);
            (at, task, answer)
        })
        .collect();
    worked.sort_unstable_by_key(|(at, ..)| *at);
    together::check(&mut worked, log);
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
