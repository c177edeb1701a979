//! The answer first: a line a sheet, then what was chosen and what is not proven; all else is asked for.

use super::lines::Lines;
use super::{alternatives_of, check, chosen, list, sorted, values};
use crate::job::Address;
use crate::plan::{First, Plan, Planned};
use crate::proof::Verdict;
use crate::sheet::layout::{Line, Listed, Sheets, overview};
use crate::sheet::words::answer as said;
use crate::sheet::{figures, printed, words};

/// How much is shown.
#[derive(Clone, Debug, Default)]
pub struct Shows {
    /// Only operations of this part.
    pub part: Option<String>,
    /// Only operations of this word.
    pub operation: Option<String>,
    /// Only the operation of this number, counted from 1; of one of several jobs where its number stands before.
    pub number: Option<(Option<usize>, usize)>,
    /// Every figure.
    pub values: bool,
    /// Everything, steps and cautions too.
    pub all: bool,
    /// What settles the most, of an operation by its address.
    pub first: Option<(Address, First)>,
}

impl Shows {
    /// Whether some operations are asked for by name.
    pub fn picks(&self) -> bool {
        self.part.is_some() || self.operation.is_some() || self.number.is_some()
    }

    /// Whether an operation of a plan is asked for.
    pub fn takes(&self, plan: &Plan, planned: &Planned, number: usize) -> bool {
        let is = |wanted: &Option<String>, own: &str| wanted.as_deref().is_none_or(|wanted| wanted == own);
        is(&self.part, &planned.address.part)
            && is(&self.operation, &planned.word)
            && self.number.is_none_or(|(job, wanted)| wanted == number && (job.is_none() || job == plan.nth))
    }
}

/// Plans as a person asks for them; nothing where no operation is of that name.
pub fn answers(plans: &[Plan], shows: &Shows) -> Option<String> {
    let numbered = |plan| super::plan_operations(plan).map(move |(number, planned)| (plan, planned, number));
    let all: Vec<(&Plan, &Planned, usize)> = plans.iter().flat_map(numbered).collect();
    let taken: Vec<_> = all.iter().filter(|(plan, planned, number)| shows.takes(plan, planned, *number)).collect();
    if taken.is_empty() {
        return None;
    }
    let mut out = Lines::default();
    if all.len() > 1 && !shows.picks() {
        plans.iter().for_each(|plan| lines_into(&mut out, overview(plan).iter().collect()));
    }
    plans.iter().for_each(|plan| super::log::no_longer(&mut out, &plan.no_longer));
    let in_full = shows.all || shows.values || shows.picks() || all.len() == 1;
    if in_full {
        let put = |&&(plan, planned, number): &&(&Plan, &Planned, usize)| {
            one(plan, &printed::operation(planned), number, shows)
        };
        for text in super::spread::all(&taken, put) {
            out.gap();
            out.put(&text);
        }
    }
    if !shows.all {
        out.gap();
        out.hanging("", if in_full { said::MORE } else { said::ONE });
    }
    out.heading(words::STANDING);
    Some(out.finish())
}

/// The list of [`answers`] of several operations that nobody asks for by name, job by job, where no log tells of them.
pub fn list_made<'a>(jobs: impl IntoIterator<Item = &'a Vec<Listed>>) -> String {
    let mut out = Lines::default();
    jobs.into_iter().for_each(|job| lines_into(&mut out, job.iter().flat_map(|listed| &listed.lines).collect()));
    out.gap();
    out.hanging("", said::ONE);
    out.heading(words::STANDING);
    out.finish()
}

/// Every sheet of some plans in a line, then how many came out how.
pub fn sheets(plans: &[Plan]) -> String {
    let mut out = Lines::default();
    plans.iter().for_each(|plan| {
        lines_into(&mut out, overview(plan).iter().collect());
        super::log::no_longer(&mut out, &plan.no_longer);
    });
    out.finish()
}

/// The same of sheets that are made, job by job.
pub fn sheets_made<'a>(jobs: impl IntoIterator<Item = &'a Vec<Sheets>>) -> String {
    let mut out = Lines::default();
    let lines = |job: &'a Vec<Sheets>| job.iter().flat_map(|sheets| &sheets.lines).collect();
    jobs.into_iter().for_each(|job| lines_into(&mut out, lines(job)));
    out.finish()
}

/// The lines of one job, and how many came out how.
fn lines_into(out: &mut Lines, all: Vec<&Line>) {
    let row = |line: &Line| {
        let minutes = line.hands.map_or_else(|| "?".to_owned(), |hands| format!("{:.0}", hands + line.by_itself));
        let (stamp, reason) = match &line.doubt_of_done {
            Some(doubt) => (said::done_in_doubt(line.stamp), doubt.clone()),
            None => (line.stamp.to_owned(), line.reason.clone()),
        };
        vec![line.id.clone(), line.part.clone(), line.what.clone(), minutes, stamp, reason]
    };
    let head = said::COLUMNS.map(str::to_owned).to_vec();
    out.gap();
    out.table(0, &std::iter::once(head).chain(all.iter().copied().map(row)).collect::<Vec<_>>());
    let verdicts: Vec<Verdict> = all.iter().map(|line| line.verdict).collect();
    let hands = all.iter().filter_map(|line| line.hands).sum();
    let unknown = all.iter().filter(|line| line.hands.is_none()).count();
    out.gap();
    let done = all.iter().filter(|line| line.is_done).count();
    let by_itself = all.iter().map(|line| line.by_itself).sum();
    out.hanging("", &said::counts(&verdicts, done, (hands, by_itself), unknown));
}

fn one(plan: &Plan, planned: &Planned, number: usize, shows: &Shows) -> String {
    let mut out = Lines::default();
    if shows.all {
        first(&mut out, planned, shows);
        super::operation(&mut out, plan, planned, number);
        return out.finish();
    }
    super::head(&mut out, plan, planned);
    first(&mut out, planned, shows);
    let is_done = said_done(&mut out, plan, planned, number);
    chosen(&mut out, planned);
    if shows.values {
        values(&mut out, plan, planned);
    }
    if planned.verdict != Verdict::Proven {
        alternatives_of(&mut out, plan, planned);
    }
    open(&mut out, plan, planned);
    if !is_done {
        list(&mut out, words::MISSING, &planned.answer.missing);
    }
    if !planned.answer.assumed.is_empty() {
        out.hanging("", &said::assumed(planned.answer.assumed.len()));
    }
    out.finish()
}

/// What is measured, or said, before all else.
pub fn taken_first(first: &First) -> String {
    said::first(first)
}

/// The same under the head of its operation.
fn first(out: &mut Lines, planned: &Planned, shows: &Shows) {
    if let Some((_, first)) = shows.first.as_ref().filter(|(address, _)| *address == planned.address) {
        out.hanging("", &said::first(first));
    }
}

/// Which set-ups of an operation are done by the log; whether all are.
fn said_done(out: &mut Lines, plan: &Plan, planned: &Planned, number: usize) -> bool {
    let set_ups = planned.answer.set_ups.iter().zip(1..);
    let done: Vec<String> = set_ups
        .filter(|(set_up, _)| set_up.steps.first().is_some_and(|step| step.id == words::DONE_ID))
        .map(|(_, nth)| plan.sheet_id(number, nth))
        .collect();
    if !done.is_empty() {
        out.hanging("  ", &said::done(&done, done.len() == planned.answer.set_ups.len()));
    }
    !done.is_empty() && done.len() == planned.answer.set_ups.len()
}

/// What is not proven with what would mend it, and one line for the rest.
fn open(out: &mut Lines, plan: &Plan, planned: &Planned) {
    let answer = &planned.answer;
    let [must, may] = planned.unmade();
    let open: Vec<_> = sorted(&answer.checks).into_iter().filter(|made| !made.is_proven()).collect();
    out.gap();
    if !open.is_empty() || !must.is_empty() {
        out.line(words::CHECKS);
    }
    open.into_iter().for_each(|made| check(out, plan, made, 2));
    super::unmade_must(out, &must);
    let mut rest = words::proven(answer.checks.iter().filter(|check| check.is_proven()).count());
    if let Some(closest) = crate::proof::closest(answer.checks.iter())
        && let Some(judged) = &closest.judged
    {
        let (margin, limit) = figures::inside(judged, plan.print);
        let name = words::marked(&closest.id.replace('-', " "), closest.from_memory);
        rest = format!("{rest}; {}", words::closest(&name, &margin, &limit));
    }
    let all: Vec<String> =
        std::iter::once(rest).filter(|rest| !rest.is_empty()).chain(may.iter().map(words::unmade)).collect();
    if !all.is_empty() {
        out.hanging("  ", &format!("{}.", all.join("; ")));
    }
    let memory = planned.from_memory();
    if !memory.is_empty() {
        out.hanging("  ", &words::from_memory(&memory));
    }
}
