//! Floor 8. Working a job through: the order in which operations are worked (by what they need of each other), the checks
//! between them, and the words of their cards with the figures put in. Nothing of one operation's inside is known here.

mod cards;
mod frame;
mod order;
mod pairs;
mod planned;
mod rules;
pub(crate) mod spread;
mod words;

pub use cards::Cards;
pub use frame::{Plan, Planned, Unmade};

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
    log: Ledger,
) -> Result<Plan, Vec<Problem>> {
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

    let mut ledger = log;
    for task in &tasks {
        let asked = task.request.asks(&Bench::new(shop, task.part, &task.address, &ledger));
        enter(&mut ledger, task, &asked);
    }
    let apart = |task: &Task| task.request.disagrees(&Bench::new(shop, task.part, &task.address, &ledger));
    let problems: Vec<Problem> = tasks.iter().flat_map(apart).collect();
    if !problems.is_empty() {
        return Err(problems);
    }
    let mut answers: Vec<Option<Answer>> = tasks.iter().map(|_| None).collect();
    // One after the other: two that stand in one line look at what the other of them gave, and only one of them comes second.
    for at in sequence {
        let Some((task, slot)) = tasks.get(at).zip(answers.get_mut(at)) else { continue };
        let answer = operations::work(task.request, &Bench::new(shop, task.part, &task.address, &ledger));
        enter(&mut ledger, task, &answer);
        *slot = Some(answer);
    }
    drop(ledger);
    let mut worked: Vec<(&Task, Answer)> = tasks.iter().zip(answers).filter_map(|(t, a)| Some((t, a?))).collect();
    rules::check(&mut worked);
    pairs::check(&mut worked);
    planned::plan(job, shop, cards, worked)
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
