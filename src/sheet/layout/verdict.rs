//! The verdict: what is not proven, each with its own remedies under it, then one line for the rest; and the foot.

use super::Sheet;
use super::block::{BODY, Block, HAIR, STRONG, as_item, as_one, plain};
use super::lists::chunks;
use super::strip::{on_one_line, stamp_note};
use crate::proof::{Check, Verdict};
use crate::quantity::Print;
use crate::sheet::fonts::Fault;
use crate::sheet::page::{Anchor, Kind, Point};
use crate::sheet::{figures, tally, words};

/// Where the words of a finding begin, mm.
const INDENT: f64 = 19.0;
/// Widest line of a stamp that stands whole, mm.
const REASON: f64 = 87.0;
/// Between findings, mm.
const BETWEEN: f64 = 0.3;
/// Above and below a line of the foot, mm.
const TIGHT: f64 = 0.11;

/// A finding that stays whole.
pub(super) struct Finding {
    /// The check, where it is one's.
    pub name: String,
    /// Its rows.
    pub rows: Vec<Block>,
}

impl Finding {
    /// Its height, mm.
    pub(super) fn height(&self) -> f64 {
        self.rows.iter().map(|row| row.height).sum()
    }

    const fn of(name: String, rows: Vec<Block>) -> Self {
        Self { name, rows }
    }
}

/// The remedies of a check, those that prove first, then those that leave it doubtful.
pub(super) fn remedies(check: &Check<String>) -> Vec<&String> {
    let mut all: Vec<&String> = check.remedies.iter().collect();
    let rank = |text: &str| match words::gives(text) {
        Some(Verdict::Proven) => 0,
        Some(Verdict::Doubtful) => 1,
        None => 2,
        Some(Verdict::Fails) => 3,
    };
    all.sort_by_key(|text| rank(text));
    all.extend(&check.remedy);
    all
}

/// A check that is not proven, with its figures and its remedies.
pub(super) fn finding(check: &Check<String>, print: Print, width: f64, with_remedies: bool) -> Result<Finding, Fault> {
    let mut text = words::marked(&check.asks, check.from_memory);
    if let Some(judged) = &check.judged {
        text = format!("{text}: {}", figures::in_line(judged, print));
    }
    let mut rows = said(&text, width)?;
    if with_remedies {
        for remedy in remedies(check) {
            let mut some = chunks(&BODY.wrap(&format!("→ {remedy}"), width - INDENT)?, INDENT, 0.1, BODY)?;
            as_one(&mut some, Kind::Body);
            as_item(&mut some);
            rows.extend(some);
        }
    }
    labelled(&mut rows, words::verdict_of(check))?;
    Ok(Finding::of(check.id.replace('-', " "), rows))
}

/// What is said of a verdict.
fn said(text: &str, width: f64) -> Result<Vec<Block>, Fault> {
    let mut rows = chunks(&STRONG.wrap(text, width - INDENT)?, INDENT, BETWEEN / 2.0, STRONG)?;
    if rows.is_empty() {
        rows.push(Block::new(4.5));
    }
    Ok(rows)
}

/// The verdict in a word before what is said of it.
fn labelled(rows: &mut [Block], word: &str) -> Result<(), Fault> {
    as_one(rows, Kind::Body);
    if let Some(first) = rows.first_mut() {
        let at = Point::new(0.0, BETWEEN / 2.0 + STRONG.capital);
        first.lead(Some((Kind::Label, None)), at, (Anchor::Left, STRONG), word)?;
    }
    as_item(rows);
    Ok(())
}

/// A line over the whole width.
pub(super) fn line(text: &str, width: f64) -> Result<Finding, Fault> {
    let mut rows = chunks(&STRONG.wrap(text, width)?, 0.0, BETWEEN / 2.0, STRONG)?;
    as_one(&mut rows, Kind::Body);
    as_item(&mut rows);
    Ok(Finding::of(String::new(), rows))
}

/// Everything not proven that the sheet has to say, the worst first. Of a sheet that must not be cut what fails stands among
/// its ways out.
pub(super) fn findings(sheet: &Sheet, width: f64) -> Result<Vec<Finding>, Fault> {
    let print = sheet.plan.print;
    let mut all = Vec::new();
    if let Some(note) = stamp_note(sheet).map(super::strip::short)
        && (STRONG.width(&plain(&note))? > REASON || sheet.reason() != note)
    {
        all.push(line(&words::named(words::STAMP, &note), width)?);
    }
    let mut open: Vec<&Check<String>> = sheet.owned().filter(|check| is_open(check)).collect();
    open.retain(|check| !sheet.may_not_be_cut() || check.stamps() != Some(Verdict::Fails));
    open.sort_by_key(|check| (std::cmp::Reverse(check.stamps()), check.id));
    for check in open {
        all.push(finding(check, print, width, true)?);
    }
    let mut unmade_first = Vec::new();
    if sheet.number == 1 {
        let [must, _] = sheet.planned.unmade();
        for unmade in &must {
            let text = words::unmade(unmade);
            let mut rows = said(&text, width)?;
            labelled(&mut rows, words::verdict(Verdict::Doubtful))?;
            unmade_first.push(Finding::of(text, rows));
        }
    }
    all.splice(0..0, unmade_first);
    if !sheet.may_not_be_cut() {
        let doubtful = sheet.doubtful_elsewhere();
        if !doubtful.is_empty() {
            all.push(line(&words::doubtful_elsewhere(&doubtful), width)?);
        }
    }
    Ok(all)
}

/// Whether a check that was made is not proven.
pub(super) fn is_open(check: &Check<String>) -> bool {
    check.verdict().is_some_and(|verdict| verdict != Verdict::Proven)
}

/// How many are proven, the closest of them, and what was not checked.
pub(super) fn rest(sheet: &Sheet, width: f64) -> Result<Finding, Fault> {
    let proven = sheet.owned().filter(|check| check.is_proven()).count();
    let mut text = words::proven(proven);
    if let Some(closest) = closest(sheet)
        && let Some(judged) = &closest.judged
    {
        let name = closest.id.replace('-', " ");
        let (margin, limit) = figures::inside(judged, sheet.plan.print);
        text = format!("{text}; {}", words::closest(&words::marked(&name, closest.from_memory), &margin, &limit));
    }
    if sheet.number == 1 {
        let [_, may] = sheet.planned.unmade();
        let may: Vec<String> = may.iter().map(words::unmade).collect();
        if !may.is_empty() {
            text = format!("{text}; {}", may.join("; "));
        }
    }
    Ok(Finding::of(String::new(), chunks(&BODY.wrap(&format!("{text}."), width)?, 0.0, BETWEEN / 2.0, BODY)?))
}

/// The proven check of a sheet that lies closest to its limit.
pub(super) fn closest<'a>(sheet: &Sheet<'a>) -> Option<&'a Check<String>> {
    tally::closest(sheet.owned())
}

/// Where findings had no room.
pub(super) fn more(names: &[String], id: &str, width: f64) -> Result<Block, Fault> {
    let text = on_one_line(STRONG, &words::and_more(names, id), width)?;
    let mut block = Block::new(0.0);
    block.height = block.lines(0.0, BETWEEN / 2.0, STRONG, &[text])? + BETWEEN / 2.0;
    Ok(block)
}

/// The foot from its top: a line, the cautions run in, the standing line, and what was assumed, marks and units.
pub(super) fn foot(sheet: &Sheet, memory: bool, width: f64) -> Result<Vec<Block>, Fault> {
    let mut rule = Block::new(0.6);
    rule.line(Point::new(0.0, 0.2), Point::new(width, 0.2), HAIR);
    let mut rows = vec![rule];
    rows.extend(run_in(&BODY.wrap(&super::lists::cautions(sheet).join(" • "), width)?)?);
    let assumed = sheet.planned.answer.assumed.len();
    let last = words::foot(assumed, &sheet.working_id(), memory, sheet.plan.print);
    for (text, style) in [(words::STANDING, STRONG), (&last, BODY)] {
        let mut some = Vec::new();
        for line in style.wrap(text, width)? {
            some.extend(chunks(std::slice::from_ref(&line), 0.0, TIGHT, style)?);
        }
        as_one(&mut some, Kind::P);
        rows.extend(some);
    }
    Ok(rows)
}

/// Items run in, parted by marks: a row a line, and still a list to whoever hears it.
fn run_in(lines: &[String]) -> Result<Vec<Block>, Fault> {
    let mut rows = Vec::new();
    let mut goes_on = false;
    for line in lines {
        let mut row = Block::new(0.0);
        row.height = row.lines(0.0, TIGHT, BODY, std::slice::from_ref(line))? + TIGHT;
        rows.push(row.in_items("• ", &mut goes_on)?);
    }
    for row in &mut rows {
        row.wrap(Kind::List, true);
    }
    Ok(rows)
}
