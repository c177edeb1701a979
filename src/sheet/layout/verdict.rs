//! The verdict: what is not proven, each with its own remedies under it, then one line for the rest; and the foot.

use super::block::{BODY, Block, HAIR, STRONG, as_item, as_one, plain};
use super::lists::{TIGHT, chunks};
use super::strip::{on_one_line, stamp_note};
use super::{Sheet, wanted};
use crate::in_order::InOrder;
use crate::proof::{Check, Remedy, Verdict};
use crate::quantity::Print;
use crate::sheet::fonts::Fault;
use crate::sheet::page::{Anchor, Kind, Point};
use crate::sheet::{figures, words};

/// Where the words of a finding begin, mm.
const INDENT: f64 = 19.0;
/// Where the words of a remedy begin, mm.
const REMEDY: f64 = 4.0;
/// Widest line of a stamp that stands whole, mm.
const REASON: f64 = 87.0;
/// Least height of a line of words, mm.
pub(super) const LINE: f64 = 4.0;
/// Between findings, mm.
const BETWEEN: f64 = 0.3;

/// A finding that stays whole.
pub(super) struct Finding {
    /// The check, where it is one's.
    pub name: String,
    /// Its rows.
    pub rows: Vec<Block>,
    /// The same with the best of its remedies and without its margin, for where it has no room whole; empty where none is known.
    pub best: Vec<Block>,
    /// The same without its remedies, for where it has no room for one; empty of what is no check's.
    pub alone: Vec<Block>,
    /// What it asks, without a figure: how far it is outside stands under the stamp; empty of what is no check's.
    pub bare: Vec<Block>,
    /// Whether the stamp is doubtful for it.
    pub stamps: bool,
}

impl Finding {
    /// Its height, mm.
    pub(super) fn height(&self) -> f64 {
        self.rows.iter().map(|row| row.height).sum()
    }

    /// The least that says what it is, mm: without its remedies and its figures, where those can be left out.
    pub(super) fn least(&self) -> f64 {
        if self.bare.is_empty() { self.height() } else { self.bare.iter().map(|row| row.height).sum() }
    }

    /// What it is with its figures, mm: without its remedies, where those can be left out.
    pub(super) fn with_figures(&self) -> f64 {
        if self.alone.is_empty() { self.height() } else { self.alone.iter().map(|row| row.height).sum() }
    }

    /// Its rows with the best of its remedies, mm: all it has where those are no more.
    pub(super) fn with_best(&self) -> f64 {
        if self.best.is_empty() { self.height() } else { self.best.iter().map(|row| row.height).sum() }
    }

    pub(super) const fn of(name: String, rows: Vec<Block>) -> Self {
        Self { name, rows, best: Vec::new(), alone: Vec::new(), bare: Vec::new(), stamps: false }
    }
}

/// The remedies of a check, those that prove first, then those that leave it doubtful, then those that fail; those that were
/// not worked out last, in one line.
pub(super) fn remedies(check: &Check<String>) -> Vec<String> {
    let worked = |wanted: Verdict| check.remedies.iter().filter(move |remedy| remedy.gives == Some(wanted));
    let mut all: Vec<String> = [Verdict::Proven, Verdict::Doubtful, Verdict::Fails]
        .into_iter()
        .flat_map(worked)
        .map(|remedy| remedy.words.clone())
        .collect();
    let others = check.remedies.iter().filter(|remedy| remedy.gives.is_none());
    let others: Vec<&str> = others.map(|remedy| remedy.as_str()).chain(check.remedy.as_deref()).collect();
    all.extend((!others.is_empty()).then(|| others.join("; ")));
    all
}

/// A check that is not proven, with its figures and its remedies.
pub(super) fn finding(check: &Check<String>, (print, figures): (Print, Figures), width: f64) -> Result<Finding, Fault> {
    let mut made = said_of(check, (print, figures), "", width)?;
    for remedy in remedies(check) {
        made.rows.extend(mended(&remedy, width)?);
    }
    labelled(&mut made.rows, words::verdict_of(check))?;
    Ok(made)
}

/// The same without its remedies, which stand on another page.
pub(super) fn without_remedies(check: &Check<String>, sheet: &Sheet, width: f64) -> Result<Finding, Fault> {
    let at = if remedies(check).is_empty() { String::new() } else { words::remedies_at(&sheet.working_id()) };
    // How far it is outside stands under the stamp; a figure that holds is no reason.
    let figures = match &check.judged {
        _ if sheet.may_not_be_cut() => figures_of(check, sheet),
        Some(judged) if judged.margin < 0.0 => Figures::WithoutMargin,
        _ => Figures::None,
    };
    let mut made = said_of(check, (sheet.plan.print, figures), &at, width)?;
    labelled(&mut made.rows, words::verdict_of(check))?;
    Ok(made)
}

/// What a check asks, and that more stands on another page.
fn without_figures(check: &Check<String>, sheet: &Sheet, width: f64) -> Result<Vec<Block>, Fault> {
    let at = words::remedies_at(&sheet.working_id());
    let mut made = said_of(check, (sheet.plan.print, Figures::None), &at, width)?;
    labelled(&mut made.rows, words::verdict_of(check))?;
    Ok(made.rows)
}

/// The same with the best of its remedies alone, and where the others stand; nothing where none is known.
fn with_the_best(check: &Check<String>, sheet: &Sheet, width: f64) -> Result<Vec<Block>, Fault> {
    let by_rank = |remedy: &&Remedy<String>| remedy.gives.map_or(u8::MAX, |gives| gives as u8);
    let best = check.remedies.iter().min_by_key(by_rank).map(|remedy| remedy.as_str());
    let all = check.remedies.len() + usize::from(check.remedy.is_some());
    let Some(best) = best.or(check.remedy.as_deref()) else { return Ok(Vec::new()) };
    let others = if all > 1 { words::remedies_at(&sheet.working_id()) } else { String::new() };
    // How far it is outside stands under the stamp.
    let figures = match figures_of(check, sheet) {
        Figures::None => Figures::None,
        _ => Figures::WithoutMargin,
    };
    let mut made = said_of(check, (sheet.plan.print, figures), &others, width)?;
    made.rows.extend(mended(best, width)?);
    labelled(&mut made.rows, words::verdict_of(check))?;
    Ok(made.rows)
}

fn mended(remedy: &str, width: f64) -> Result<Vec<Block>, Fault> {
    let mut some = chunks(&BODY.wrap(&format!("→ {remedy}"), width - REMEDY)?, REMEDY, 0.1, BODY)?;
    as_one(&mut some, Kind::Body);
    as_item(&mut some);
    Ok(some)
}

/// Which figures of a check are said.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Figures {
    All,
    WithoutMargin,
    None,
}

/// The figures of a check: where nothing may be cut none of a size that something was to be brought to, unless that is what fails.
pub(super) fn figures_of(check: &Check<String>, sheet: &Sheet) -> Figures {
    let value = check.about.and_then(|key| sheet.planned.answer.value(key));
    let is_target = value.is_some_and(|value| !wanted::is_known(sheet, value) && wanted::is_aimed_at(sheet, value));
    if sheet.may_not_be_cut() && is_target { Figures::None } else { Figures::All }
}

fn said_of(check: &Check<String>, (print, shown): (Print, Figures), at: &str, width: f64) -> Result<Finding, Fault> {
    let mut text = words::marked(&check.asks, check.from_memory);
    if let Some(judged) = check.judged.as_ref().filter(|_| shown != Figures::None) {
        text = format!("{text}: {}", figures::in_line(judged, print, shown == Figures::All));
        // A figure that holds is no reason of a doubt.
        if shown == Figures::All && check.verdict() == Some(Verdict::Doubtful) && judged.margin >= 0.0 {
            text = format!("{text}; {}", words::UNSURE_GROUND);
        }
    }
    let rows = said(&format!("{text}{at}"), width)?;
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
    open.order_by(|one, other| worse_first(one, other));
    for check in open {
        let alone = without_remedies(check, sheet, width)?.rows;
        let bare = without_figures(check, sheet, width)?;
        let stamps = check.stamps() == Some(Verdict::Doubtful);
        let best = with_the_best(check, sheet, width)?;
        let whole = finding(check, (print, figures_of(check, sheet)), width)?;
        all.push(Finding { alone, best, bare, stamps, ..whole });
    }
    let mut unmade_first = Vec::new();
    if sheet.number == 1 {
        let [must, _] = sheet.planned.unmade();
        for unmade in &must {
            let text = words::unmade(unmade);
            let mut rows = said(&text, width)?;
            labelled(&mut rows, words::verdict(Verdict::Doubtful))?;
            unmade_first.push(Finding { stamps: true, ..Finding::of(text, rows) });
        }
    }
    all.splice(0..0, unmade_first);
    Ok(all)
}

/// The worse first, and of two that are as bad by their names.
pub(super) fn worse_first(one: &Check<String>, other: &Check<String>) -> std::cmp::Ordering {
    crate::proof::worse_first(one, other).then_with(|| one.id.cmp(other.id))
}

/// Whether a check that was made is not proven.
pub(super) fn is_open(check: &Check<String>) -> bool {
    check.verdict().is_some_and(|verdict| verdict != Verdict::Proven)
}

/// How many are proven, the closest of them, what was not checked, and what is doubtful elsewhere.
pub(super) fn rest(sheet: &Sheet, width: f64) -> Result<Finding, Fault> {
    let mut said = counted(sheet);
    // Of what says nothing none lies closest.
    let is_counted = said.first().is_some_and(|count| !count.is_empty());
    // Its limit may be what is aimed at, which does not stand where nothing may be cut.
    if let Some(closest) = closest(sheet).filter(|_| is_counted && !sheet.may_not_be_cut())
        && let Some(judged) = &closest.judged
    {
        let name = words::marked(&closest.called, closest.from_memory);
        let (margin, limit) = figures::inside(judged, sheet.plan.print);
        said.insert(1, words::closest(&name, &margin, &limit));
    }
    let text = sentence(&said);
    Ok(Finding::of(String::new(), chunks(&BODY.wrap(&text, width)?, 0.0, BETWEEN / 2.0, BODY)?))
}

/// The same without the closest.
fn counted(sheet: &Sheet) -> Vec<String> {
    let proven = sheet.owned().filter(|check| check.is_proven()).count();
    let none = sheet.owned().all(|check| check.verdict().is_none());
    // Where another set-up stops the work, how much of this one would hold says nothing.
    let is_stopped = sheet.may_not_be_cut() && sheet.owned().all(|check| check.stamps() != Some(Verdict::Fails));
    let mut said = vec![match (is_stopped && sheet.number > 1, none) {
        (true, _) => String::new(),
        (_, true) => words::NO_CHECK.into(),
        _ => words::proven(proven),
    }];
    if sheet.number == 1 {
        let [_, may] = sheet.planned.unmade();
        said.extend(may.iter().map(words::unmade));
    }
    let elsewhere = if sheet.may_not_be_cut() { Vec::new() } else { sheet.doubtful_elsewhere() };
    said.extend((!elsewhere.is_empty()).then(|| words::doubtful_elsewhere(&elsewhere)));
    said
}

fn sentence(said: &[String]) -> String {
    let said: Vec<&str> = said.iter().map(String::as_str).filter(|text| !text.is_empty()).collect();
    if said.is_empty() { String::new() } else { format!("{}.", said.join("; ")) }
}

/// The proven check of a sheet that lies closest to its limit.
pub(super) fn closest<'a>(sheet: &Sheet<'a>) -> Option<&'a Check<String>> {
    crate::proof::closest(sheet.owned())
}

/// Where findings had no room, and behind it how many are proven: in as many lines as some height holds, one at least.
pub(super) fn more(names: &[String], sheet: &Sheet, (width, high): (f64, f64)) -> Result<Block, Fault> {
    let mut counted = counted(sheet);
    counted.retain(|said| !said.is_empty());
    let named = || words::and_more(names, &sheet.working_id());
    let style = if names.is_empty() { BODY } else { STRONG };
    let of = |counted: &[String]| match (names.is_empty(), counted.is_empty()) {
        (true, _) => sentence(counted),
        (_, true) => named(),
        _ => format!("{}; {}", named(), sentence(counted)),
    };
    let mut text = of(&counted);
    // Nothing is broken off within a figure: rather how many are proven is left to the working page.
    let lines = |text: &str| style.wrap(text, width).map(|lines| lines.len() as f64 * LINE);
    while lines(&text)? > high && counted.len() > 1 - usize::from(!names.is_empty()) {
        counted.remove(0);
        text = format!("{} …", of(&counted));
    }
    let set = |lines: &[String]| -> Result<Block, Fault> {
        let mut block = Block::new(0.0);
        block.height = block.lines(0.0, BETWEEN / 2.0, style, lines)? + BETWEEN / 2.0;
        Ok(block)
    };
    let lines = style.wrap(&text, width)?;
    for held in (2..=lines.len()).rev() {
        let (whole, last) = lines.split_at(held - 1);
        let last = on_one_line(style, &last.join(" "), width)?;
        let block = set(&[whole, &[last]].concat())?;
        if block.height <= high + 1e-9 {
            return Ok(block);
        }
    }
    set(&[on_one_line(style, &text, width)?])
}

/// Rows under a line that parts them from what stands above.
pub(super) fn apart(rows: Vec<Block>, width: f64) -> Vec<Block> {
    let mut rule = Block::new(0.6);
    rule.line(Point::new(0.0, 0.2), Point::new(width, 0.2), HAIR);
    std::iter::once(rule).chain(rows).collect()
}

/// The foot from its top: a line, cautions run in, the standing line, and last what was assumed, marks and units.
pub(super) fn foot(sheet: &Sheet, cautions: Vec<Block>, memory: bool, width: f64) -> Result<Vec<Block>, Fault> {
    let assumed = sheet.planned.answer.assumed.len();
    let last = words::foot(assumed, &sheet.working_id(), memory, sheet.plan.print);
    let mut rows = apart(cautions, width);
    for (text, style) in [(words::STANDING, STRONG), (last.as_str(), BODY)] {
        let mut some = Vec::new();
        for line in style.wrap(text, width)? {
            some.extend(chunks(std::slice::from_ref(&line), 0.0, TIGHT, style)?);
        }
        as_one(&mut some, Kind::P);
        rows.extend(some);
    }
    Ok(rows)
}
