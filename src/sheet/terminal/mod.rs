//! What a person reads at a terminal: the verdict first, then what was chosen and why, the figures with how well their
//! source is known, what else was worked, the checks with what would mend them, and the steps. Nothing rests on colour.

mod answer;
mod day;
mod decide;
mod keys;
mod lines;
mod log;
mod over;
mod why;

pub use answer::{Shows, answers, list_made, sheets, sheets_made, taken_first};
pub use day::{Reasons, day};
pub use decide::decided;
pub use keys::{keys, listed};
pub use lines::{as_wide_as, columns, within};
pub use log::{
    cannot_be_worked, changes, correction, counts_again, fails_by_it, figures_changed, goes_on_from, in_quotes, log,
    loggable, long_log, none_counts, not_as_asked, odd_day, still_wanted, written,
};
pub(in crate::sheet) use over::turns;
pub use over::{Course, Grid, Turn, course, grid};

use super::{figures, printed, spread, words};
use crate::in_order::InOrder;
use crate::operations::{Alternative, SetUp, Step, Value};
use crate::plan::{Plan, Planned, Unmade};
use crate::proof::{Check, Mark, Origin, Verdict, worse_first};
use crate::quantity::{Print, Shown, in_inches, with_inch};
use lines::{Lines, aligned};
use std::cmp::Ordering;

/// Several plans as text.
pub fn plans(plans: &[Plan]) -> String {
    let numbered = |plan| plan_operations(plan).map(move |(number, planned)| (plan, planned, number));
    let all: Vec<(&Plan, &Planned, usize)> = plans.iter().flat_map(numbered).collect();
    together(spread::all(&all, |&(plan, planned, number)| operation_alone(plan, planned, number)))
}

/// One operation as text, the `number`th of its job.
fn operation_alone(plan: &Plan, planned: &Planned, number: usize) -> String {
    let mut out = Lines::default();
    operation(&mut out, plan, &printed::operation(planned), number);
    out.finish()
}

/// The texts of operations under each other.
fn together(texts: impl IntoIterator<Item = String>) -> String {
    let mut out = Lines::default();
    for text in texts {
        out.gap();
        out.put(&text);
    }
    out.heading(words::STANDING);
    out.finish()
}

/// The operations of a plan with their numbers.
fn plan_operations(plan: &Plan) -> impl Iterator<Item = (usize, &Planned)> {
    (1..).zip(&plan.operations)
}

/// All that a terminal says of one operation as it may be printed, the `number`th of its job.
pub(super) fn of_operation(plan: &Plan, planned: &Planned, number: usize) -> String {
    let mut out = Lines::default();
    operation(&mut out, plan, planned, number);
    out.heading(words::STANDING);
    out.finish()
}

/// Rows under headings.
#[derive(Default)]
pub(super) struct Table(Lines);

impl Table {
    /// Rows under a heading; nothing where there are none.
    pub(super) fn under(mut self, heading: &str, rows: &[Vec<String>]) -> Self {
        if !rows.is_empty() {
            self.0.heading(heading);
            self.0.table(2, rows);
        }
        self
    }

    /// The text.
    pub(super) fn finish(self) -> String {
        self.0.finish()
    }
}

fn operation(out: &mut Lines, plan: &Plan, planned: &Planned, number: usize) {
    head(out, plan, planned);
    chosen(out, planned);
    values(out, plan, planned);
    alternatives_of(out, plan, planned);
    mending(out, plan, planned);
    if !planned.answer.checks.is_empty() {
        out.heading(words::CHECKS);
    }
    for made in sorted(&planned.answer.checks) {
        check(out, plan, made, 2);
    }
    let [must, may] = planned.unmade();
    unmade_must(out, &must);
    let memory = planned.from_memory();
    if !memory.is_empty() {
        out.hanging("  ", &words::from_memory(&memory));
    }
    may.iter().for_each(|unmade| out.hanging("  ", &words::unmade(unmade)));
    for (at, step) in planned.answer.set_ups.iter().enumerate() {
        set_up(out, plan, (planned, step), &plan.sheet_id(number, at + 1));
    }
    list(out, words::MISSING, &planned.answer.missing);
    list(out, words::ASSUMED, &planned.answer.assumed);
    list(out, words::CAUTIONS, &planned.all_cautions());
}

/// Its verdict, its title, what is remarked of it and why it was refused, where it was.
fn head(out: &mut Lines, plan: &Plan, planned: &Planned) {
    out.line(&format!("{}: {} — {}", words::stamp_line(planned), planned.address, planned.title));
    if let Some(note) = &planned.note {
        out.hanging("  ", &format!("{}: {note}", words::NOTE));
    }
    if let Some(why) = &planned.answer.refused {
        out.hanging("  ", &format!("{}: {}", words::REFUSED, why.in_print(plan.print)));
    }
}

/// What must be judged and could not be, for want of keys.
fn unmade_must(out: &mut Lines, must: &[Unmade]) {
    let doubtful = format!("  {:<VERDICT$} ", words::verdict(Verdict::Doubtful));
    must.iter().for_each(|unmade| out.hanging(&doubtful, &words::unmade(unmade)));
}

/// The failing first and advice last; of those that are open the worst first, else in the order in which they were judged.
fn sorted(checks: &[Check<String>]) -> Vec<&Check<String>> {
    let mut all: Vec<&Check<String>> = checks.iter().filter(|check| check.verdict().is_some()).collect();
    all.order_by(|one, other| {
        let order = (other.stamps(), other.verdict()).cmp(&(one.stamps(), one.verdict()));
        order.then_with(|| if one.is_proven() { Ordering::Equal } else { worse_first(one, other) })
    });
    all
}

fn list(out: &mut Lines, heading: &str, lines: &[String]) {
    if lines.is_empty() {
        return;
    }
    out.heading(heading);
    lines.iter().for_each(|line| out.hanging("  • ", line));
}

fn chosen(out: &mut Lines, planned: &Planned) {
    if planned.answer.choices.is_empty() {
        return;
    }
    out.heading(words::CHOSEN);
    let rows: Vec<Vec<String>> = planned
        .answer
        .choices
        .iter()
        .filter(|choice| !crate::operations::FOR_READERS.contains(&choice.name))
        .map(|choice| vec![choice.name.replace('_', " "), choice.chosen.clone(), choice.why.clone()])
        .collect();
    out.table(2, &rows);
}

/// What a value is, the temperatures and sizes in its words in the units of print.
pub(super) fn in_units(means: &str, print: Print) -> String {
    match print {
        Print::Metric => means.to_owned(),
        Print::Imperial => in_inches(means),
        Print::Both => with_inch(means),
    }
}

fn values(out: &mut Lines, plan: &Plan, planned: &Planned) {
    let all = &planned.answer.values;
    if all.is_empty() {
        return;
    }
    out.heading(words::VALUES);
    let figures: Vec<Shown> = all
        .iter()
        .map(|value| Shown::usual(value.number, Some(value.plus_minus), value.unit, value.rounds, plan.print))
        .collect();
    let rows: Vec<Vec<String>> = all
        .iter()
        .zip(aligned(&figures))
        .map(|(value, figure)| vec![value.key.to_owned(), figure, mark(value), in_units(value.means, plan.print)])
        .collect();
    out.table(2, &rows);
}

/// How well the source of a figure is known, or where the figure comes from if it has none.
fn mark(value: &Value) -> String {
    let mark = match (&*value.origin, value.origin.mark()) {
        // Whatever its doubt rests on, who reads it is to know that somebody measured it.
        (Origin::AsLeft(entry), _) => return words::log::left_by(*entry),
        _ if value.from_memory => Mark::FromMemory.text(),
        (_, Some(mark)) => mark.text(),
        (Origin::Typed(_), None) => words::GIVEN,
        (Origin::Picked { .. }, None) => words::OF_SHOP,
        (_, None) => words::TAKEN_AS_READ,
    };
    mark.to_owned()
}

fn alternatives_of(out: &mut Lines, plan: &Plan, planned: &Planned) {
    if planned.answer.alternatives.is_empty() {
        return;
    }
    out.heading(words::ALTERNATIVES);
    let row = |alternative: &Alternative<String>| {
        let verdict = words::verdict(alternative.answer.verdict());
        vec![alternative.name.clone(), verdict.to_owned(), words::why(alternative, plan.print)]
    };
    out.table(2, &planned.answer.alternatives.iter().map(row).collect::<Vec<_>>());
}

/// What would make another of them hold.
fn mending(out: &mut Lines, plan: &Plan, planned: &Planned) {
    // What would make the next of them hold; those after it need more of the same. Where the chosen one holds nobody asks.
    if planned.verdict == Verdict::Proven {
        return;
    }
    let next =
        planned.answer.alternatives.iter().find(|other| !other.chosen && other.answer.verdict() != Verdict::Proven);
    if let Some(next) = next {
        out.line(&format!("  {}", words::what_would_mend(&next.name)));
        for made in sorted(&next.answer.checks).into_iter().filter(|made| made.verdict() != Some(Verdict::Proven)) {
            check(out, plan, made, 4);
        }
    }
}

fn check(out: &mut Lines, plan: &Plan, check: &Check<String>, indent: usize) {
    let mut before = " ".repeat(indent);
    before += words::verdict_of(check);
    let wide = indent + VERDICT + 1;
    before.extend(std::iter::repeat_n(' ', wide.saturating_sub(before.len())));
    let mut said = String::with_capacity(check.asks.len() + 80);
    said += &check.asks;
    said += if check.from_memory { words::MEMORY } else { "" };
    if let Some(judged) = &check.judged {
        said += ": ";
        // A text takes whatever is written into it.
        let _ = figures::put_all(&mut said, judged, plan.print);
    }
    out.hanging(&before, &said);
    // What mends it stands first, what was worked and is not enough last.
    let place = |gives: Option<Verdict>| match gives {
        Some(Verdict::Proven) => 0,
        Some(Verdict::Doubtful) => 1,
        None => 2,
        Some(Verdict::Fails) => 3,
    };
    let worked = check.remedies.iter().map(|remedy| (remedy.gives, &remedy.words));
    let mut all: Vec<(Option<Verdict>, &String)> =
        check.remedy.iter().map(|words| (None, words)).chain(worked).collect();
    all.order_by_key(|(gives, _)| place(*gives));
    for (_, remedy) in all {
        out.hanging(&format!("{}→ ", " ".repeat(wide)), remedy);
    }
}

/// Columns of a verdict.
const VERDICT: usize = 9;

fn set_up(out: &mut Lines, plan: &Plan, (planned, set_up): (&Planned, &SetUp<String>), id: &str) {
    let time = words::minutes(set_up.minutes, set_up.by_itself());
    out.heading(&format!("{} {id}: {} — {}, {time}", words::SHEET, set_up.title, set_up.machine));
    if planned.verdict == Verdict::Fails {
        out.line(&format!("  {}", words::stamp(planned, planned.verdict, Some(set_up.station))));
    }
    set_up.hold.iter().for_each(|line| out.hanging("  • ", &line.words));
    for (at, step) in set_up.steps.iter().enumerate() {
        let then = step.hold_point.as_ref().and_then(|hold| hold.then.as_deref()).unwrap_or_default();
        let limits = step.hold_point.as_ref().and_then(|hold| words::limits(&hold.limits, plan.print));
        let limits = limits.map_or_else(String::new, |limits| format!(" {limits}."));
        out.hanging(&format!("  {:>2}  ", at + 1), format!("{}{limits} {then}", step.words).trim_end());
        cut(out, plan, step);
    }
    for blank in &set_up.blanks {
        let found = blank
            .as_found
            .as_ref()
            .map(|found| format!("{} {}", words::known_before(blank), found.said(None, plan.print)));
        let target = set_up
            .target_of(blank)
            .map(|target| format!("{} {}", words::TARGET, figures::target_line(&target, plan.print)));
        let said: Vec<String> = found.into_iter().chain(target).collect();
        let said = if said.is_empty() { words::NONE.to_owned() } else { said.join("; ") };
        out.hanging(&format!("  {}: ", words::MEASURE), &format!("{}: {said}", blank.words));
    }
}

fn cut(out: &mut Lines, plan: &Plan, step: &Step<String>) {
    let Some(cut) = &step.cut else { return };
    let spindle = format!("{} {}", figures::spindle(cut.spindle), words::SPINDLE);
    let feed = format!("{} {}", figures::feed(cut.feed, plan.print).join(" "), words::feed(plan.print));
    let unit = words::lengths(plan.print);
    let depths = format!("{} {unit}", figures::depths(&cut.passes, plan.print).join(", "));
    let minutes = format!("{} {}", figures::minutes(cut.minutes), words::MINUTES);
    out.hanging("      ", &[cut.tool.clone(), spindle, feed, depths, minutes].join(" · "));
    for (at, pass) in cut.passes.iter().enumerate() {
        if let Some(dial) = &pass.dial {
            out.hanging(
                &format!("      {} {}: ", words::DIAL, words::pass_number(Some(at + 1), pass.kind)),
                &dial.said(plan.print),
            );
        }
    }
}
