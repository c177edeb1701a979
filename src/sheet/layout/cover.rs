//! The cover: whose job it is, how many set-ups came out how, a row each, and all remarks whole.

use super::block::{BODY, Block, DRAWN, HAIR, SECOND, STRONG, Style};
use super::flow::{Flow, Section, TooHigh, inner};
use super::lists::{bars, list};
use super::strip::{frame_about, on_one_line, on_two_lines};
use super::zones::Zones;
use super::{Fault, Sheet, check};
use crate::plan::Plan;
use crate::proof::Verdict;
use crate::sheet::fonts;
use crate::sheet::page::{Anchor, Kind, Page, Point, Rect, Scope};
use crate::sheet::words;
use crate::sheet::words::answer::counts;

/// Height of a row, mm.
const ROW: f64 = 8.8;
/// Where its columns begin: words at the least, frame of the verdict, and what is left of it for the minutes, mm.
const WORDS: f64 = 12.0;
const VERDICT: f64 = 29.5;
const MINUTES: f64 = 31.0;
/// From base line to base line of a row, mm.
const LINE: f64 = 4.2;
/// Longest name of a job that the strip holds whole, letters.
const LONGEST: usize = 50;
/// Between columns, mm.
const GUTTER: f64 = 2.0;

/// The pages of the cover of a plan.
pub(super) fn pages(plan: &Plan, sheets: &[Sheet]) -> Result<Vec<Page>, Fault> {
    let letters = |fault| Fault::Letters { sheet: words::COVER_ID.into(), part: words::COVER, fault };
    let paper = plan.paper;
    let width = inner(paper);
    let mut flow = Flow::new(paper, Zones::of(paper).strip());
    for section in sections(plan, sheets, width).map_err(letters)? {
        flow.put(&section).map_err(|TooHigh(part)| Fault::TooHigh { sheet: words::COVER_ID.into(), part })?;
    }
    let count = flow.pages.len();
    let mut pages = flow.pages;
    for (at, page) in pages.iter_mut().enumerate() {
        let before = page.marks.len();
        strip(plan, sheets, page, (at + 1, count)).map_err(letters)?;
        page.lead_with(before, at == 0);
        let faults = check::faults(page);
        if !faults.is_empty() {
            return Err(Fault::Page { sheet: words::COVER_ID.into(), page: at + 1, faults });
        }
    }
    Ok(pages)
}

/// Job, page and day, engine and shop, and the sums.
fn strip(plan: &Plan, sheets: &[Sheet], page: &mut Page, (number, count): (usize, usize)) -> Result<(), fonts::Fault> {
    let zones = Zones::of(page.paper);
    let mut put = |name: &str, zone: Rect, block: &Block| {
        let area = page.area(name, zone);
        block.clone().onto(page, area, (zone.left, zone.top), Kind::P);
    };
    let mut block = Block::new(zones.part.height());
    for (line, base) in on_two_lines(DRAWN, &plan.job, zones.part.width())?.iter().zip([5.4, 11.6]) {
        block.text(Point::new(0.0, base), Anchor::Left, DRAWN, line)?;
    }
    block.wrap(Kind::H1, false);
    put("part", zones.part, &block);
    let mut block = Block::new(zones.id.height());
    let end = block.text(Point::new(0.0, 5.6), Anchor::Left, SECOND, words::COVER_ID)?.right;
    block.text(Point::new(end + 5.0, 5.6), Anchor::Left, BODY, &words::page(number, count))?;
    if let Some(date) = &plan.date {
        let date = on_one_line(STRONG, &words::named(words::DATE, date), zones.id.width())?;
        block.text(Point::new(0.0, 11.8), Anchor::Left, STRONG, &date)?;
    }
    block.wrap(Kind::H1, true);
    put("id", zones.id, &block);
    let whole = Rect::new(zones.operation.left, zones.operation.top, zones.stamp.right, zones.facts.bottom);
    let mut block = Block::new(whole.height());
    let mut base = 4.6;
    for (caption, name) in [(words::ENGINE, &plan.engine), (words::SHOP, &plan.shop)] {
        let Some(name) = name else { continue };
        let line = on_one_line(BODY, &words::named(caption, name), whole.width())?;
        block.text(Point::new(0.0, base), Anchor::Left, BODY, &line)?;
        base += 5.2;
    }
    let verdicts: Vec<Verdict> = sheets.iter().map(Sheet::verdict).collect();
    let set_ups = || sheets.iter().filter_map(|sheet| sheet.set_up);
    let hands = set_ups().filter_map(|set_up| set_up.minutes).map(words::whole_minutes).sum();
    let unknown = set_ups().filter(|set_up| set_up.minutes.is_none()).count();
    let by_itself = set_ups().map(|set_up| words::whole_minutes(set_up.by_itself())).sum();
    let done = sheets.iter().filter(|sheet| sheet.is_done()).count();
    let sums = on_two_lines(STRONG, &counts(&verdicts, done, (hands, by_itself), unknown), whole.width())?;
    block.lines(0.0, base - 1.0, STRONG, &sums)?;
    block.line(Point::new(0.0, whole.height() - 0.35), Point::new(whole.width(), whole.height() - 0.35), 0.7);
    put("facts", whole, &block);
    Ok(())
}

fn sections(plan: &Plan, sheets: &[Sheet], width: f64) -> Result<Vec<Section>, fonts::Fault> {
    let mut rows = Vec::new();
    // Numbers of several jobs are wider than those of one.
    let ids = sheets.iter().map(|sheet| SECOND.width(&sheet.id())).collect::<Result<Vec<f64>, _>>()?;
    let words = ids.iter().fold(WORDS, |most, wide| most.max(wide + GUTTER));
    let mut minutes = 0.0_f64;
    for time in sheets.iter().flat_map(times).flatten() {
        minutes = minutes.max(BODY.width(&time)? + 0.1);
    }
    let columns = Columns { words, minutes: minutes.min(MINUTES), width };
    for sheet in sheets {
        rows.push(row(sheet, &columns)?);
    }
    for (at, row) in rows.iter_mut().enumerate() {
        row.wrap(Kind::Table, at > 0);
    }
    let mut all = vec![Section { name: words::COVER, bar: Some(bars(width, words::SHEETS, &[])?), rows }];
    let changes: Vec<String> = plan.no_longer.iter().map(words::log::change).collect();
    all.extend(list(words::log::NO_LONGER, &changes, width)?);
    all.extend(list(words::NOTES, &notes(plan, sheets), width)?);
    Ok(all)
}

/// What stands whole here and only begins on the sheets.
fn notes(plan: &Plan, sheets: &[Sheet]) -> Vec<String> {
    let mut notes = Vec::new();
    notes.extend((plan.job.chars().count() > LONGEST).then(|| words::named(words::JOB, &plan.job)));
    for sheet in sheets.iter().filter(|sheet| sheet.number == 1) {
        let Some(note) = &sheet.planned.note else { continue };
        let named = format!("{} {}, {}", sheet.operation, sheet.planned.address.part, sheet.planned.title);
        notes.push(words::named(&named, note));
    }
    notes
}

/// Where the columns of the rows stand, mm.
struct Columns {
    /// Where words begin.
    words: f64,
    /// What the minutes take.
    minutes: f64,
    /// Of the page.
    width: f64,
}

/// Minutes of a set-up, of the hands and unattended.
fn times(sheet: &Sheet) -> [Option<String>; 2] {
    let Some(set_up) = sheet.set_up else { return [None, None] };
    let alone = words::whole_minutes(set_up.by_itself());
    let hands = (set_up.minutes != Some(0.0)).then(|| words::minutes(set_up.minutes, 0.0));
    [hands, (alone > 0.0).then(|| words::by_itself(alone))]
}

/// Part and work, machine and reason: each in a line where it has the room, else in as many as it takes.
fn said(sheet: &Sheet, room: f64) -> Result<Vec<(Style, String)>, fonts::Fault> {
    let title = sheet.set_up.map_or(words::without_set_up(sheet.planned), |set_up| &set_up.title);
    let what = words::named(&sheet.planned.address.part, title);
    let style = if STRONG.width(&what)? <= room { STRONG } else { BODY };
    let machine = sheet.set_up.map(|set_up| set_up.machine.clone());
    let why = |reason: String| {
        let all: Vec<String> = machine.clone().into_iter().chain([reason]).filter(|text| !text.is_empty()).collect();
        all.join(" · ")
    };
    let whole = why(sheet.reason());
    let why = if BODY.width(&whole)? <= room { whole } else { why(sheet.reason_in(false)) };
    let lines = |style: Style, text: &str| -> Result<Vec<(Style, String)>, fonts::Fault> {
        Ok(style.wrap(text, room)?.into_iter().map(|line| (style, line)).collect())
    };
    let mut all = lines(style, &what)?;
    all.extend(lines(BODY, &why)?);
    Ok(all)
}

/// One set-up: its number, part and work, machine and reason, verdict, minutes.
fn row(sheet: &Sheet, columns: &Columns) -> Result<Block, fonts::Fault> {
    let room = columns.width - columns.words - VERDICT - columns.minutes - 2.0 * GUTTER;
    let said = said(sheet, room)?;
    let high = ROW + said.len().saturating_sub(2) as f64 * LINE;
    let mut row = Block::new(high);
    row.open(Kind::Row);
    let mut cell = |kind: Kind, at: Point, anchor: Anchor, style: Style, text: &str| -> Result<(), fonts::Fault> {
        row.open(kind);
        let set = row.text(at, anchor, style, text);
        row.close();
        set.map(|_| ())
    };
    cell(Kind::HeadCell(Scope::Row), Point::new(0.0, 6.4), Anchor::Left, SECOND, &sheet.id())?;
    for (at, (style, line)) in said.iter().enumerate() {
        cell(Kind::Cell, Point::new(columns.words, 3.35 + at as f64 * LINE), Anchor::Left, *style, line)?;
    }
    let left = columns.words + room + GUTTER;
    let word = sheet.stamp();
    cell(Kind::Cell, Point::new(left + VERDICT / 2.0, 5.6), Anchor::Centre, STRONG, word)?;
    for (time, base) in times(sheet).iter().flatten().zip([3.35, 7.55]) {
        let time = on_one_line(BODY, time, columns.minutes)?;
        cell(Kind::Cell, Point::new(columns.width, base), Anchor::Right, BODY, &time)?;
    }
    row.close();
    frame_about(&mut row, sheet.framed(), Rect::new(left, 0.7, left + VERDICT, ROW - 0.7));
    row.line(Point::new(0.0, high - 0.09), Point::new(columns.width, high - 0.09), HAIR);
    Ok(row)
}
