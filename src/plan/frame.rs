//! A job planned: the answers in words, each in its frame. This is what every output is made from.

use super::cards::Cards;
use super::change::Change;
use super::of_day::{OfDay, ShopOfDay, WorkedSetUp};
use crate::in_order::InOrder;
use crate::job::{Address, JobFile, LogFaultKind, OwnOrder, WrittenSizes};
use crate::operations::{Answer, OfPart, Registered};
use crate::proof::{At, Outcome, Verdict, Weight};
use crate::quantity::Print;
use crate::shop::{Paper, Shop, View};

/// A job planned.
#[derive(Clone, Debug)]
pub struct Plan {
    /// The job's name.
    pub job: String,
    /// The engine.
    pub engine: Option<String>,
    /// The day on the sheets.
    pub date: Option<String>,
    /// The shop's name.
    pub shop: Option<String>,
    /// Units of print.
    pub print: Print,
    /// Paper of its sheets.
    pub paper: Paper,
    /// How views stand to each other.
    pub view: View,
    /// What a day needs of the shop; none without a shop.
    pub shop_of_day: Option<ShopOfDay>,
    /// Rules of order that the job leaves out.
    pub own_order: Option<OwnOrder>,
    /// Every size of the job as it was written.
    pub written: WrittenSizes,
    /// Its number, from 1, where several jobs are given together: their sheets are told apart by it.
    pub nth: Option<usize>,
    /// What the log says was worked.
    pub worked: Vec<WorkedSetUp>,
    /// What held before anything was logged and holds no more.
    pub no_longer: Vec<Change>,
    /// Its operations in the order of the file.
    pub operations: Vec<Planned>,
}

impl Plan {
    /// The id of a sheet: operation of the job and set-up of the operation, from 1; the job before it where several are given.
    pub fn sheet_id(&self, operation: usize, set_up: usize) -> String {
        self.of_jobs(format!("{operation}.{set_up}"))
    }

    /// Lines of its log that are not whole, each once, as the check of it quotes them.
    pub fn log_faults(&self) -> Vec<String> {
        let checks = self.operations.iter().flat_map(|operation| &operation.answer.checks);
        let mut all: Vec<String> = Vec::new();
        for check in checks.filter(|check| LogFaultKind::ALL.iter().any(|kind| kind.id() == check.id)) {
            if !all.contains(&check.asks) {
                all.push(check.asks.clone());
            }
        }
        all
    }

    /// The number of a thing of this job, the job before it where several are given.
    pub fn of_jobs(&self, own: impl std::fmt::Display) -> String {
        self.nth.map_or_else(|| own.to_string(), |nth| format!("{nth}/{own}"))
    }
}

/// The frame of one of the jobs given together.
pub(super) struct Frame<'a> {
    /// Its plan, without its operations.
    pub plan: Plan,
    /// Its cards.
    pub cards: &'a Cards,
    /// How many operations stand before its first.
    pub first: usize,
    /// How much of its answers is put into words.
    pub told: Told,
}

/// How much of an answer is put into words.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Told {
    /// All of it.
    Whole,
    /// What a list tells of it.
    InALine,
}

/// The frame of a job, without its operations.
pub(super) fn empty<R: Registered>(job: &JobFile<R>, shop: Option<&Shop>, cards: &Cards) -> Plan {
    let text = |at: &Option<At<String>>| at.as_ref().map(|at| at.value.clone());
    Plan {
        job: job.job.value.clone(),
        engine: text(&job.engine),
        date: job.date.as_ref().map(|at| at.value.to_string()),
        shop: shop.map(|shop| shop.shop.value.clone()),
        print: print_of(shop, cards),
        paper: shop.map_or(Paper::default(), |shop| shop.paper),
        view: shop.map_or(View::default(), |shop| shop.view),
        shop_of_day: shop.map(ShopOfDay::of),
        own_order: job.order.clone(),
        nth: None,
        worked: Vec::new(),
        no_longer: Vec::new(),
        written: job.written.clone(),
        operations: Vec::new(),
    }
}

/// The units that the shop prints in.
pub(super) fn print_of(shop: Option<&Shop>, cards: &Cards) -> Print {
    shop.map_or(cards.print(), |shop| shop.units)
}

/// An operation planned: its answer in words, in the frame of the job.
#[derive(Clone, Debug)]
pub struct Planned {
    /// Where it stands.
    pub address: Address,
    /// Its word.
    pub word: String,
    /// Its title.
    pub title: String,
    /// What it does.
    pub does: String,
    /// The part's material and hardness, in words.
    pub material: Option<String>,
    /// The remark of the part or of the set-up.
    pub note: Option<String>,
    /// Its verdict.
    pub verdict: Verdict,
    /// The entry of the log by which it is done, where it fails all the same.
    pub spoilt: Option<u32>,
    /// What the stamp says, where it says more than the verdict.
    pub stamp_note: Option<String>,
    /// What a day needs beside.
    pub of_day: OfDay,
    /// Names of what the log may hold of it, each with what it is.
    pub may_be_logged: Vec<(&'static str, &'static str)>,
    /// Which of its values are sizes of the part.
    pub sizes: Vec<(&'static str, OfPart)>,
    /// The answer, in words.
    pub answer: Answer<String>,
    /// Where both units are printed, the same in words with the first unit alone: for where room is short.
    pub in_one_unit: Option<Box<Answer<String>>>,
    /// What is read or said before all else, where somebody worked that out.
    pub first: Option<super::First>,
}

/// Checks that were not made for want of the keys under one parent key, in one line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unmade {
    /// The checks by name.
    pub checks: Vec<String>,
    /// The keys that would open them, nested ones with dots.
    pub keys: Vec<&'static str>,
}

impl Planned {
    /// The checks that were not made, those of one parent key together: first those that must be made, then those that may.
    pub(crate) fn unmade(&self) -> [Vec<Unmade>; 2] {
        let of = |weight: Weight| {
            let mut groups: Vec<(&str, Unmade)> = Vec::new();
            for check in
                self.answer.checks.iter().filter(|check| check.state == Outcome::NotChecked && check.weight == weight)
            {
                let parent = |key: &&'static str| key.split('.').next().unwrap_or(key);
                let parent = check.missing.first().map(parent).unwrap_or_default();
                let at = groups.iter().position(|group| group.0 == parent).unwrap_or_else(|| {
                    groups.push((parent, Unmade { checks: Vec::new(), keys: Vec::new() }));
                    groups.len() - 1
                });
                let Some((_, group)) = groups.get_mut(at) else { continue };
                group.checks.push(check.asks.clone());
                let new = check.missing.iter().filter(|key| !group.keys.contains(key)).copied().collect::<Vec<_>>();
                group.keys.extend(new);
            }
            let mut groups: Vec<Unmade> = groups.into_iter().map(|group| group.1).collect();
            // First the keys that most of them wait for.
            groups.order_by_key(|group| (group.keys.is_empty(), std::cmp::Reverse(group.checks.len())));
            groups
        };
        [of(Weight::Must), of(Weight::May)]
    }

    /// Every caution once: those of the whole operation, then those of its set-ups.
    pub(crate) fn all_cautions(&self) -> Vec<String> {
        let mut all = self.answer.cautions.clone();
        for caution in self.answer.set_ups.iter().flat_map(|set_up| &set_up.cautions) {
            if !all.contains(caution) {
                all.push(caution.clone());
            }
        }
        all
    }

    /// The checks that rest on a figure that was remembered and not read.
    pub fn from_memory(&self) -> Vec<&str> {
        let rests = self.answer.checks.iter().filter(|check| check.from_memory && check.state.verdict().is_some());
        rests.map(|check| check.id).collect()
    }
}
