//! What must be done with each part as it came: reuse, put right, replace, or measure first. Judged at the worst end of what was
//! found; what was not measured is never reused.

mod asked;
mod cured;
mod frame;
mod ground;
mod judged;
mod later;
mod left;
mod mates;
mod mends;
mod planned_by;
mod rebored;
mod rests;
mod void;

pub use frame::{Cure, Decided, Decision, Limit, Line, Order, Row, Size, Why};

use super::together::stale::Cut;
use super::words::Filler;
use super::{Cards, Logged, Plan, Planned};
use crate::handbook::remedies;
use crate::job::{Inspected, JobFile, Named, Part, PartFacts, feature_key};
use crate::operations::Answer;
use crate::proof::{At, Check, Outcome, Verdict, Weight, Words};
use crate::reading::Problem;
use crate::shop::Shop;
use cured::{Cured, Work};
use ground::Ground;
use judged::judged;
use mates::{mates, not_written_down};

/// Decides over the parts of jobs that were read as one and worked. `jobs` are their names, each with its number of operations, `log` is
/// what the log says was left, `words` are those of all operations.
///
/// # Errors
/// Addresses, instruments and remedies that nobody has, and limits that a new part would not hold.
pub fn decide<R>(
    job: &JobFile<R>,
    (plan, jobs): (&Plan, &[(String, usize)]),
    (shop, cards): (Option<&Shop>, &Cards),
    log: &Logged,
    words: &[&str],
) -> Result<Decided, Vec<Problem>> {
    let inspected = || job.parts.iter().flat_map(|part| part.inspect.iter().map(move |of| (part, of)));
    let mut problems: Vec<Problem> = inspected().flat_map(|(_, of)| asked::problems(plan, shop, of, words)).collect();
    for (at, (part, of)) in inspected().enumerate() {
        let name = |part: &Part<R>, of: &Inspected| (part.part.value.clone(), feature_key(&of.feature.value));
        if inspected().take(at).any(|(other, before)| name(other, before) == name(part, of)) {
            let says = format!("`{}` has two features `{}`: name one of them", part.part.value, of.feature.value);
            problems.push(Problem::new(of.feature.place, says));
        }
    }
    if !problems.is_empty() {
        return Err(problems);
    }
    let mut ledger = log.ledger.clone();
    for planned in &plan.operations {
        let values = planned.answer.values.iter().map(|value| (value.key, value.figure())).collect();
        ledger.plan(&planned.address, planned.verdict == Verdict::Fails, values);
    }
    let names: Vec<Named> = job.parts.iter().flat_map(|part| part.named.iter().cloned()).collect();
    let cuts = log.cuts_and_said();
    let ground = Ground { plan, shop, ledger: &ledger, named: &names, cuts: &cuts, jobs };
    let work = Work { plan, jobs, cuts: &cuts };
    let facts: Vec<(&Part<R>, PartFacts)> = job.parts.iter().map(|part| (part, whole(job, part))).collect();
    let (mut rows, mut assumed) = (Vec::new(), Vec::new());
    for (part, facts) in &facts {
        for of in &part.inspect {
            let judged = judged(&ground, facts, of);
            for words in &judged.assumed {
                let said = format!("{}, {}: {}", facts.name, of.feature.value, common_words(cards, plan, words)?);
                if !assumed.contains(&said) {
                    assumed.push(said);
                }
            }
            row(&mut rows, &work, (&facts.name, of), judged);
        }
    }
    of_several(&mut rows, &work);
    let named: Vec<String> = inspected().flat_map(|(_, of)| of_addresses(of)).collect();
    for planned in &plan.operations {
        let done = cuts.iter().rev().find(|cut| cut.of == planned.address && cut.is_done());
        if done.is_some() && planned.verdict != Verdict::Fails {
            let part = planned.address.part.as_str();
            let open = mates(planned, part).into_iter().filter_map(|row| not_written_down(planned, row));
            rows.extend(open.chain(mates::never_used_again(planned)).collect::<Vec<_>>());
        }
        match done {
            // It was put right, and is proven as it was left: nothing of it as it came is to be decided any more.
            Some(_) if planned.verdict == Verdict::Proven => {}
            Some(cut) => {
                found_before(&mut rows, &work, (planned, cut), &named);
                let of_part = inspected().filter(|(part, _)| part.part.value == planned.address.part);
                let new = left::is_lost(planned) && of_part.into_iter().any(|(_, of)| left::is_replaced(planned, of));
                rows.extend(left::failed(&work, planned, new));
            }
            None => found_checks(&mut rows, &work, planned, &named),
        }
    }
    spent(&mut rows, &work);
    void::of_other_features(&mut rows);
    void::of_partners(&mut rows, &work);
    void::of_replaced(&mut rows);
    void::of_links(&mut rows, plan, &names);
    see_also(&mut rows);
    mates::for_another(&mut rows, &work);
    let text = |text: &At<String>| text.value.clone();
    Ok(Decided {
        jobs: vec![plan.job.clone()],
        engines: job.engine.iter().map(text).collect(),
        date: plan.date.clone(),
        shop: plan.shop.clone(),
        print: plan.print,
        paper: plan.paper,
        rows,
        assumed,
        log_faults: plan.log_faults(),
    })
}

/// The facts of a part that stands in several jobs: what one of them leaves out another may say.
fn whole<R>(job: &JobFile<R>, part: &Part<R>) -> PartFacts {
    let mut facts = part.facts();
    for other in job.parts.iter().filter(|other| other.part.value == part.part.value).map(Part::facts) {
        facts.material = facts.material.or(other.material);
        facts.hardness = facts.hardness.or(other.hardness);
    }
    facts
}

/// The addresses whose values a feature is judged by.
fn of_addresses(of: &Inspected) -> Vec<String> {
    let readings = crate::job::Found::readings(&of.found);
    readings.iter().filter_map(|reading| reading.value.address().map(ToString::to_string)).collect()
}

/// A text of the common card under `assumed`.
fn common_words(cards: &Cards, plan: &Plan, words: &Words) -> Result<String, Vec<Problem>> {
    let (answer, common) = (Answer::default(), cards.common());
    let names = [&common.names, &common.names];
    let filler = Filler { word: "inspect", answer: &answer, owner: &answer, names, print: plan.print };
    filler.text("assumed", &[&common.assumed], words).map_err(|problem| vec![problem])
}

/// The row of a feature that was inspected, and behind it what follows from what is done with it.
fn row(rows: &mut Vec<Row>, work: &Work, (part, of): (&str, &Inspected), judged: judged::Judged) {
    let feature = of.feature.value.as_str();
    let remedies = work.remedies(part, of);
    let row = Row {
        part: part.into(),
        feature: feature.into(),
        found: judged.found,
        limits: judged.limits,
        new: of.new.as_ref().map(|new| (number(new.low), number(new.high))),
        margin: judged.margin,
        verdict: judged.verdict,
        decision: Decision::Measure,
        why: judged.why,
        sheets: measured_on(work, of),
        orders: Vec::new(),
    };
    settled(rows, work, row, &remedies);
}

/// The sheets of what measures a feature, where an operation does.
fn measured_on(work: &Work, of: &Inspected) -> Vec<String> {
    let named = of_addresses(of);
    let measures = |planned: &&Planned| {
        let own = planned.address.to_string();
        rests::only_measures(planned)
            && named.iter().any(|value| value.strip_prefix(&own).is_some_and(|rest| rest.starts_with('/')))
    };
    work.plan.operations.iter().filter(measures).flat_map(|planned| work.sheets(planned)).collect()
}

fn number(size: crate::quantity::Mm) -> f64 {
    crate::quantity::Quantity::number(size)
}

/// Puts the decision to a row, and the rows of its mates behind it.
fn settled(rows: &mut Vec<Row>, work: &Work, mut row: Row, remedies: &[&str]) {
    let cure = |row: &Row| work.cure(row, remedies);
    // What is good as it was found, and not as the plan leaves it, or as the plan has read it, does not go back so.
    let is_good = row.verdict == Some(Verdict::Proven);
    let cut = work.cuts_it(&row).or_else(|| work.goes_by_another(&row, remedies)).filter(|_| is_good);
    if let Some((_, why)) = cut {
        row.verdict = Some(Verdict::Doubtful);
        row.why.push(why);
    }
    // By what fails nothing is decided: its own row says what is wrong.
    let failed = row.why.iter().find_map(|why| match why {
        Why::FailsByLog(of) => work.plan.operations.iter().find(|planned| planned.address.to_string() == *of),
        _ => None,
    });
    if let Some(failed) = failed.filter(|_| row.verdict == Some(Verdict::Doubtful)) {
        row.decision = Decision::Doubtful(Box::new(Cure::Failed(failed.word.clone())));
        row.sheets.extend(work.sheets(failed));
        rows.push(row);
        return;
    }
    match row.verdict {
        Some(Verdict::Proven) => row.decision = Decision::Reuse,
        Some(Verdict::Doubtful) => {
            let Cured { cure, why, sheets, .. } = cure(&row);
            row.decision = Decision::Doubtful(Box::new(cure));
            let why: Vec<Why> = why.into_iter().filter(|why| !row.why.contains(why)).collect();
            row.why.extend(why);
            row.sheets.extend(sheets);
        }
        Some(Verdict::Fails) => {
            let cured = cure(&row);
            row.decision = Decision::Cure(cured.cure);
            row.why.extend(cured.why);
            row.sheets = cured.sheets;
            // What was chosen for another reading is not ordered, nor anything that would go with it.
            let by_another = row.why.iter().any(|why| planned_by::is_by_another(why, row.found));
            row.orders = if by_another { Vec::new() } else { cured.orders };
            let is_less = row.why.iter().any(|why| matches!(why, Why::TakesOffLess(..)));
            let by = cured.by.filter(|_| !by_another && !is_less);
            let mates = by.map(|by| mates(by, &row.part)).unwrap_or_default();
            // Several features of one part may be put right by one operation: its mates stand once.
            let new: Vec<Row> = mates.into_iter().filter(|mate| !rows.contains(mate)).collect();
            rows.push(row);
            rows.extend(new);
            return;
        }
        None => row.decision = Decision::Measure,
    }
    rows.push(row);
}

/// The rows of what an operation found on the part as it came; what `inspect` judges stands there already.
fn found_checks(rows: &mut Vec<Row>, work: &Work, planned: &Planned, named: &[String]) {
    for check in open_checks(planned, named) {
        settled(rows, work, found_row(planned, check), &own_first(&planned.word));
    }
}

/// The same of an operation that was done since, by an entry of the log, and is not proven as it was left.
fn found_before(rows: &mut Vec<Row>, work: &Work, (planned, cut): (&Planned, &Cut), named: &[String]) {
    for check in open_checks(planned, named) {
        let since = Why::FoundBefore(planned.address.to_string(), ground::line(work.jobs, cut));
        let row = Row { found: None, margin: None, verdict: None, why: vec![since], ..found_row(planned, check) };
        settled(rows, work, row, &[]);
    }
}

/// The checks of a part as it came that are no row yet.
fn open_checks<'a>(planned: &'a Planned, named: &[String]) -> impl Iterator<Item = &'a Check<String>> {
    let is_open = |check: &&Check<String>| {
        check.weight == Weight::Found && !matches!(check.state, Outcome::DoesNotApply | Outcome::NoShop)
    };
    let is_named = |check: &&Check<String>| {
        let about = check.about.map(|key| planned.address.value(key).to_string());
        about.is_some_and(|about| named.contains(&about))
    };
    planned.answer.checks.iter().filter(is_open).filter(move |check| !is_named(check))
}

/// The operation that found it, then what else is usual.
fn own_first(word: &str) -> Vec<&str> {
    match remedies::beside(word) {
        some if some.is_empty() => vec![word],
        some => some,
    }
}

/// The row of one check of a part as it came.
pub(super) fn found_row(planned: &Planned, check: &Check<String>) -> Row {
    let value = check.about.and_then(|key| planned.answer.value(key));
    let judged = check.judged;
    let size = judged.map(|judged| Size {
        number: judged.got,
        plus_minus: value.map_or(judged.doubt, |value| value.plus_minus),
        unit: judged.unit,
        as_left: false,
    });
    // What was found is told of also where nobody says what it may be: its value has the name of its check.
    let named = planned.answer.values.iter().find(|value| value.key.replace('_', "-") == check.id);
    let size = size.or_else(|| {
        named.map(|value| Size { number: value.number, plus_minus: value.plus_minus, unit: value.unit, as_left: false })
    });
    let middle = judged.map_or(0.0, |judged| judged.inside(judged.got, judged.limit));
    let why = match check.verdict() {
        Some(Verdict::Proven) => vec![Why::Inside],
        Some(Verdict::Doubtful) => {
            vec![Why::MiddleInside(middle)].into_iter().chain(check.remedy.clone().map(Why::Settles)).collect()
        }
        Some(Verdict::Fails) => vec![Why::Outside(-middle)],
        None => match (&planned.answer.refused, check.missing.as_slice()) {
            (Some(refusal), _) => vec![Why::NotWorked(refusal.to_string())],
            (None, []) => vec![Why::NotMeasured],
            (None, keys) => vec![Why::Lacks(keys.to_vec())],
        },
    };
    Row {
        part: planned.address.part.clone(),
        feature: format!("{}, {}", planned.address.operation, check.id.replace('-', " ")),
        found: size,
        limits: judged.iter().map(|j| Limit { keep: j.keep, number: j.limit, unit: j.unit }).collect(),
        new: None,
        margin: judged.map(|judged| judged.margin),
        verdict: check.verdict(),
        decision: Decision::Measure,
        why,
        sheets: Vec::new(),
        orders: Vec::new(),
    }
}

/// One operation without a feature that would put right several places of a part: it is one of them, and nobody says which. Two figures
/// of one place are no sizes (wear, taper) or one of them is none.
fn of_several(rows: &mut [Row], work: &Work) {
    let by = |row: &Row| {
        let cure = match &row.decision {
            Decision::Cure(cure) => cure,
            Decision::Doubtful(cure) => cure,
            _ => return None,
        };
        let (Cure::Proven(word) | Cure::Doubtful(word)) = cure else { return None };
        let is_size = row.found.is_some_and(|found| found.number >= difference_most());
        work.unnamed(&row.part, &row.feature, word).filter(|_| is_size).map(|by| (by.address.clone(), word.clone()))
    };
    let all: Vec<_> = rows.iter().map(by).collect();
    let features: Vec<String> = rows.iter().map(|row| row.feature.clone()).collect();
    for (at, row) in rows.iter_mut().enumerate() {
        let Some(Some((address, word))) = all.get(at) else { continue };
        let same =
            all.iter().zip(&features).filter(|(other, _)| other.as_ref().is_some_and(|(other, _)| other == address));
        let same: Vec<String> = same.map(|(_, feature)| feature.clone()).collect();
        if same.len() < 2 {
            continue;
        }
        let unplanned = Cure::Unplanned(word.clone());
        row.decision = match &row.decision {
            Decision::Doubtful(_) => Decision::Doubtful(Box::new(unplanned)),
            _ => Decision::Cure(unplanned),
        };
        row.why.push(Why::OneOf(address.to_string(), same));
        (row.sheets, row.orders) = (Vec::new(), Vec::new());
    }
}

/// What is a millimetre and more is a size and no difference.
fn difference_most() -> f64 {
    crate::handbook::constants::row("doubt-of-difference-most").map_or(f64::INFINITY, |row| row.value)
}

/// What puts one feature right and leaves another of the part outside its limits puts the part not right.
fn spent(rows: &mut [Row], work: &Work) {
    let spends = |row: &Row| work.cuts_it(row).map(|(by, _)| (work.sheets(by), row.feature.clone()));
    let doubtful = rows.iter().filter(|row| matches!(row.decision, Decision::Doubtful(_)));
    let all: Vec<(Vec<String>, String)> = doubtful.filter_map(spends).collect();
    for row in rows.iter_mut().filter(|row| !row.sheets.is_empty()) {
        let Decision::Cure(Cure::Proven(word)) = &row.decision else { continue };
        let of_row: Vec<&String> =
            all.iter().filter(|(sheets, _)| *sheets == row.sheets).map(|(_, feature)| feature).collect();
        if of_row.is_empty() {
            continue;
        }
        row.decision = Decision::Cure(Cure::Doubtful(word.clone()));
        row.why.extend(of_row.into_iter().map(|feature| Why::Spends(feature.clone())));
    }
}

/// A feature that could be used again, of a part that is not: it says which feature decides.
fn see_also(rows: &mut [Row]) {
    let worse: Vec<(String, String)> =
        rows.iter().filter(|row| row.is_cut_or_replaced()).map(|row| (row.part.clone(), row.feature.clone())).collect();
    for row in rows.iter_mut().filter(|row| row.decision == Decision::Reuse) {
        let of_part: Vec<String> =
            worse.iter().filter(|(part, _)| *part == row.part).map(|(_, feature)| feature.clone()).collect();
        row.why.extend((!of_part.is_empty()).then_some(Why::SeeAlso(of_part)));
    }
}
