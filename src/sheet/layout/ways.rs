//! What must not be cut: no step, no setting, no target; what fails, the ways out of it, and what to measure again.

use super::Sheet;
use super::block::{Block, STRONG, as_one};
use super::flow::Section;
use super::lists::{bars, chunks};
use super::verdict::{Finding, figures_of, finding, without_remedies};
use crate::operations::OfPart;
use crate::proof::{Fact, Verdict};
use crate::quantity::{Decimals, Print};
use crate::sheet::as_typed;
use crate::sheet::fonts::Fault;
use crate::sheet::page::{Kind, Rect};
use crate::sheet::words;

/// What stands in the zone, and what has no room there.
pub(super) struct Ways {
    /// What has room.
    pub section: Section,
    /// Findings that go on, each whole.
    pub later: Vec<Block>,
}

/// The ways out, on the first sheet of an operation; on the others where they stand. What fails stands whole, the worst first;
/// then what to measure again; then, as far as there is room, what is doubtful, which is taken out of `doubts`. Of the worst,
/// where it is higher than the zone, at least what it is.
pub(super) fn section(sheet: &Sheet, zone: Rect, doubts: &mut Vec<Finding>) -> Result<Ways, Fault> {
    let width = zone.width();
    // Where there is nothing to set up nothing is stopped either: what was worked out stands there.
    let stops = sheet.set_up.is_some() || sheet.planned.verdict == Verdict::Fails;
    let bar = bars(width, if stops { words::WAYS_OUT } else { words::WORKED }, &[])?;
    let mut free = zone.height() - bar.0.height;
    let mut rows = Vec::new();
    let mut later = Vec::new();
    let lines = |text: &str| -> Result<Vec<Block>, Fault> {
        let mut some = chunks(&STRONG.wrap(text, width)?, 0.0, 0.6, STRONG)?;
        as_one(&mut some, Kind::P);
        Ok(some)
    };
    let high = |rows: &[Block]| rows.iter().map(|row| row.height).sum::<f64>();
    let mut put = |some: Vec<Block>, rows: &mut Vec<Block>, later: &mut Vec<Block>| {
        let height = high(&some);
        if height <= free {
            free -= height;
            rows.extend(some);
        } else {
            later.extend(some);
        }
    };
    if sheet.number > 1 {
        rows.extend(lines(&words::see(&sheet.id_of(1)))?);
        return Ok(Ways { section: Section { name: words::WAYS_OUT, bar: Some(bar), rows }, later });
    }
    if stops {
        put(lines(&words::withheld(sheet.planned))?, &mut rows, &mut later);
    }
    if let Some(refused) = &sheet.planned.answer.refused {
        put(lines(&words::named(words::REFUSED, &refused.in_print(sheet.plan.print)))?, &mut rows, &mut later);
    }
    for check in sheet.failing() {
        let made = finding(check, (sheet.plan.print, figures_of(check, sheet)), width)?;
        let whole = later.is_empty() && made.height() + high(&rows) <= zone.height() - bar.0.height;
        if !whole {
            // What it is stands here all the same, its remedies further on.
            put(without_remedies(check, sheet, width)?.rows, &mut rows, &mut later);
        }
        put(made.rows, &mut rows, &mut later);
    }
    let again = measured_again(sheet, width)?;
    put(again, &mut rows, &mut later);
    let mut left = Vec::new();
    for doubt in doubts.drain(..) {
        if doubt.height() + high(&rows) <= zone.height() - bar.0.height {
            put(doubt.rows, &mut rows, &mut later);
        } else {
            left.push(doubt);
        }
    }
    *doubts = left;
    Ok(Ways { section: Section { name: words::WAYS_OUT, bar: Some(bar), rows }, later })
}

/// So many decimals of a millimetre nobody reads.
const FINEST: usize = 4;

/// What was measured, to be measured again: with the reading that would prove it as asked, where there is one.
fn measured_again(sheet: &Sheet, width: f64) -> Result<Vec<Block>, Fault> {
    let Some(set_up) = sheet.set_up else { return Ok(Vec::new()) };
    let print = sheet.plan.print;
    let value = |fact: &Fact| match fact {
        Fact::Figure { number, .. } => Some(*number),
        _ => None,
    };
    // The reading that would prove it stands with the size that was found, and before the others.
    let proving = |found: &Fact| {
        let same = |key: &str| sheet.planned.answer.value(key).map(|value| value.number) == value(found);
        let holds = set_up.steps.iter().filter_map(|step| step.hold_point.as_ref());
        let written = |key: &str| as_typed::print_of(sheet.plan, sheet.planned.answer.value(key)?);
        let print = |key: &str| if print == Print::Both { print } else { written(key).unwrap_or(print) };
        holds.filter(|hold| same(hold.measures)).find_map(|hold| words::limits(&hold.limits, print(hold.measures)))
    };
    let found = set_up.blanks.iter().filter_map(|blank| {
        let found = blank.as_found.as_ref()?;
        let typed = as_typed::found(sheet.plan, &sheet.planned.answer, found).map(|typed| typed.line());
        let figure =
            typed.unwrap_or_else(|| found.said(None, if print == Print::Both { Print::Metric } else { print }));
        let text = format!("{}: {} {figure}", blank.words, words::known_before(blank));
        // What proves nothing, however it is read, is not asked for again.
        Some((words::would_prove(&text, &proving(found)?), value(found)))
    });
    // What was cut away nobody measures again.
    let is_gone = |key: &str| {
        let found = |own: &(&str, OfPart)| own.0 == key && matches!(own.1, OfPart::Found(_));
        sheet.planned.spoilt.is_some() && sheet.planned.sizes.iter().any(found)
    };
    let told: Vec<(String, Option<f64>)> = found.filter(|_| sheet.planned.spoilt.is_none()).collect();
    // Other readings behind those: what they would put right.
    let doubts = sheet.planned.answer.checks.iter().any(|check| check.stamps() == Some(Verdict::Doubtful));
    let says = if doubts { words::would_mend } else { words::would_prove };
    let others =
        sheet.planned.answer.proving.iter().filter(|other| other.limits.proves && !is_gone(other.key)).filter_map(
            |other| {
                let value = sheet.planned.answer.value(other.key)?;
                let is_told = told.iter().any(|(_, number)| *number == Some(value.number));
                let own =
                    if print == Print::Both { print } else { as_typed::print_of(sheet.plan, value).unwrap_or(print) };
                let figure = as_typed::size(sheet.plan, value)?.line();
                let text = format!("{}: {} {figure}", value.means, words::AS_FOUND);
                // Limits that lie closer than anybody reads are met by no reading.
                let too_fine = |end: &Fact| matches!(end, Fact::Figure { decimals: Decimals::Exactly(FINEST..), .. });
                let closes = other.limits.least.iter().chain(&other.limits.most).any(too_fine);
                let limits = words::limits(&other.limits, own).filter(|_| !closes)?;
                (!is_told).then(|| says(&text, &limits))
            },
        );
    let again: Vec<String> = told.iter().map(|told| told.0.clone()).chain(others).collect();
    if again.is_empty() {
        return Ok(Vec::new());
    }
    let text = words::named(words::MEASURE_AGAIN, &again.join("; "));
    let mut rows = chunks(&STRONG.wrap(&text, width)?, 0.0, 0.6, STRONG)?;
    as_one(&mut rows, Kind::P);
    Ok(rows)
}
