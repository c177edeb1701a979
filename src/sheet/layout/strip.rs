//! The strip at the top of every page: part, number, operation, stamp and one line of facts, each in its zone.

use super::Sheet;
use super::block::{BODY, Block, DRAWN, HAIR, SECOND, STAMP, STRONG, Style, plain};
use super::zones::{STAMP_BASE, Zones};
use crate::operations::SetUp;
use crate::proof::Verdict;
use crate::sheet::fonts::Fault;
use crate::sheet::page::{Anchor, Dash, Field, Fill, Kind, Page, Point, Rect};
use crate::sheet::words;

/// Width of the line under the strip, mm.
const HEAVY: f64 = 0.7;
/// Base line of the number of the sheet, mm from the top of its zone.
const ID_BASE: f64 = 5.6;
/// Widest reason under the stamp's word, mm.
const REASON: f64 = 87.0;
/// Longest name that the strip alone holds, in letters: a longer one stands in full further on.
const LONGEST: usize = 160;

/// A name as a file holds it: of a longer one the beginning.
pub(super) fn short(name: &str) -> String {
    let name = plain(name);
    if name.chars().count() <= LONGEST { name } else { name.chars().take(LONGEST - 1).chain(['…']).collect() }
}

/// What the stamp adds to the verdict. What fails has no conditions.
pub(super) fn stamp_note<'a>(sheet: &Sheet<'a>) -> Option<&'a str> {
    sheet.planned.stamp_note.as_deref().filter(|_| sheet.planned.verdict != Verdict::Fails)
}

/// Checks that were not made, in the line of a stamp.
pub(super) fn not_made(checks: &[&str]) -> String {
    named_in(checks, words::not_checked)
}

/// As many checks by name as stand whole in the line of a stamp; where none does, how many.
fn named_in(checks: &[&str], said: fn(&[&str], usize) -> String) -> String {
    let wide = |named: &usize| STRONG.width(&said(checks, *named)).is_ok_and(|width| width <= REASON);
    said(checks, (0..=checks.len()).rev().find(wide).unwrap_or(0))
}

/// The reason of a stamp for checks that hold and have no figure.
pub(super) fn held(checks: &[&str]) -> String {
    named_in(checks, words::all_proven)
}

/// The names of the strip with their captions.
fn names<'a>(sheet: &Sheet<'a>) -> impl Iterator<Item = (&'static str, &'a str)> {
    let (plan, planned) = (sheet.plan, sheet.planned);
    let set_up = |of: fn(&SetUp<String>) -> &str| sheet.set_up.map(of);
    let names = [
        (words::PART, Some(planned.address.part.as_str())),
        (words::SET_UP, set_up(|set_up| &set_up.title)),
        (words::MACHINE, set_up(|set_up| &set_up.machine)),
        (words::MATERIAL, planned.material.as_deref()),
        (words::JOB, Some(plan.job.as_str())),
        (words::ENGINE, plan.engine.as_deref()),
        (words::SHOP, plan.shop.as_deref()),
        (words::DATE, plan.date.as_deref()),
        (words::STAMP, stamp_note(sheet)),
    ];
    names.into_iter().filter_map(|(caption, name)| Some((caption, name?)))
}

/// The names that the strip holds only the beginnings of, in full.
pub(super) fn in_full(sheet: &Sheet) -> Vec<String> {
    let long = names(sheet).filter(|(_, name)| short(name) != plain(name));
    long.map(|(caption, name)| words::named(caption, name)).collect()
}

/// All names of the strip, for a page that has the room.
pub(super) fn all_names(sheet: &Sheet) -> Vec<String> {
    names(sheet).map(|(caption, name)| words::named(caption, name)).collect()
}

/// Puts the strip on a page.
pub(super) fn onto(sheet: &Sheet, page: &mut Page, id: &str, (number, pages): (usize, usize)) -> Result<(), Fault> {
    let zones = Zones::of(sheet.paper);
    let mut block = part(sheet, zones.part)?;
    block.wrap(Kind::H1, false);
    put(page, "part", zones.part, block);
    let mut block = Block::new(zones.id.height());
    let end = block.text(Point::new(0.0, ID_BASE), Anchor::Left, SECOND, id)?.right;
    block.wrap(Kind::H1, true);
    put(page, "id", zones.id, block);
    let block = operation(sheet, zones.operation)?;
    put(page, "operation", zones.operation, block);
    // Page and day are no part of what the sheet is called.
    let block = page_and_day(sheet, zones.id, end, &words::page(number, pages))?;
    put(page, "id", zones.id, block);
    let word = sheet.stamp();
    let whole = sheet.reason();
    let fits = STRONG.width(&plain(&whole))? <= REASON;
    let block = stamp(sheet.framed(), word, &if fits { whole } else { sheet.reason_in(false) }, zones.stamp)?;
    put(page, "stamp", zones.stamp, block);
    let block = facts(sheet, zones.facts)?;
    put(page, "facts", zones.facts, block);
    Ok(())
}

fn put(page: &mut Page, name: &str, zone: Rect, block: Block) {
    let area = page.area(name, zone);
    block.onto(page, area, (zone.left, zone.top), Kind::P);
}

/// A text on one line of a width: where it is longer, its beginning up to a space, and `…`.
pub(super) fn on_one_line(style: Style, text: &str, width: f64) -> Result<String, Fault> {
    let text = plain(text);
    if style.width(&text)? <= width {
        return Ok(text);
    }
    let room = width - style.width("…")?;
    let first = style.first_lines(&text, room, 1)?.into_iter().next().unwrap_or_default();
    Ok(format!("{}…", first.trim_end_matches([' ', ',', ':', ';', '·'])))
}

/// A text on two lines of a width.
pub(super) fn on_two_lines(style: Style, text: &str, width: f64) -> Result<Vec<String>, Fault> {
    // Of what follows no more than one line is seen.
    let mut lines = style.first_lines(text, width, 4)?;
    if lines.len() > 2 {
        let rest = lines.split_off(1).join(" ");
        lines.push(on_one_line(style, &rest, width)?);
    }
    Ok(lines)
}

fn part(sheet: &Sheet, zone: Rect) -> Result<Block, Fault> {
    let mut block = Block::new(zone.height());
    let name = plain(&sheet.planned.address.part);
    if SECOND.width(&name)? <= zone.width() {
        block.text(Point::new(0.0, 9.0), Anchor::Left, SECOND, &name)?;
        return Ok(block);
    }
    for (line, base) in on_two_lines(DRAWN, &name, zone.width())?.iter().zip([5.4, 11.6]) {
        block.text(Point::new(0.0, base), Anchor::Left, DRAWN, line)?;
    }
    Ok(block)
}

/// Which page it is, behind the number of the sheet, which ends at `end`, and the day.
fn page_and_day(sheet: &Sheet, zone: Rect, end: f64, page: &str) -> Result<Block, Fault> {
    let mut block = Block::new(zone.height());
    block.text(Point::new(end + 5.0, ID_BASE), Anchor::Left, BODY, page)?;
    let caption = block.text(Point::new(0.0, 11.8), Anchor::Left, BODY, words::DATE)?.right + 2.0;
    match &sheet.plan.date {
        Some(date) => {
            let date = on_one_line(STRONG, date, zone.width() - caption)?;
            block.text(Point::new(caption, 11.8), Anchor::Left, STRONG, &date)?;
        }
        None => {
            block.open_as(Kind::Span, words::BLANK);
            block.with_field(Field::Words, words::DATE);
            block.line(Point::new(caption, 12.6), Point::new(caption + 40.0, 12.6), HAIR);
            block.close();
        }
    }
    Ok(block)
}

fn operation(sheet: &Sheet, zone: Rect) -> Result<Block, Fault> {
    let mut block = Block::new(zone.height());
    let set_up = sheet.set_up.map_or(words::without_set_up(sheet.planned), |set_up| &set_up.title);
    let title = words::titled(&sheet.planned.title, set_up);
    let mut base = -1.1;
    for line in on_two_lines(DRAWN, &title, zone.width())? {
        base += 6.0;
        block.text(Point::new(0.0, base), Anchor::Left, DRAWN, &line)?;
    }
    block.wrap(Kind::H1, true);
    if let Some(set_up) = sheet.set_up {
        let plainly = Style { font: BODY.font, ..DRAWN };
        let machine = on_one_line(plainly, &set_up.machine, zone.width())?;
        block.text(Point::new(0.0, base + 6.4), Anchor::Left, plainly, &machine)?;
    }
    Ok(block)
}

/// Material, set-up, job, remark.
pub(super) fn line_of_facts(sheet: &Sheet) -> String {
    let mut facts = vec![sheet.planned.material.clone().unwrap_or_else(|| words::MATERIAL_NOT_GIVEN.into())];
    facts
        .extend(sheet.set_up.map(|_| words::named_of(words::SET_UP, sheet.number, sheet.planned.answer.set_ups.len())));
    facts.push(sheet.plan.job.clone());
    facts.extend(sheet.planned.note.clone());
    facts.join(" · ")
}

/// Whether the line of facts holds a remark whole.
pub(super) fn holds_whole(sheet: &Sheet, note: &str) -> bool {
    let facts = line_of_facts(sheet);
    let width = Zones::of(sheet.paper).facts.width();
    on_one_line(BODY, &facts, width).is_ok_and(|line| line.ends_with(&plain(note)))
}

fn facts(sheet: &Sheet, zone: Rect) -> Result<Block, Fault> {
    let mut block = Block::new(zone.height());
    let line = on_one_line(BODY, &line_of_facts(sheet), zone.width())?;
    block.text(Point::new(0.0, 4.15), Anchor::Left, BODY, &line)?;
    let y = zone.height() - HEAVY / 2.0;
    block.line(Point::new(0.0, y), Point::new(zone.width(), y), HEAVY);
    Ok(block)
}

/// The stamp: told apart by its words and its frame, without colour.
fn stamp(verdict: Verdict, word: &str, reason: &str, zone: Rect) -> Result<Block, Fault> {
    let mut block = Block::new(zone.height());
    let (middle, base) = (zone.width() / 2.0, STAMP_BASE - zone.top);
    block.text(Point::new(middle, base), Anchor::Centre, STAMP, word)?;
    let reason = on_one_line(STRONG, reason, REASON)?;
    if !reason.is_empty() {
        block.text(Point::new(middle, base + 5.0), Anchor::Centre, STRONG, &reason)?;
    }
    frame(&mut block, verdict, zone.width());
    Ok(block)
}

fn frame(block: &mut Block, verdict: Verdict, width: f64) {
    let whole = Rect::new(0.0, 0.0, width, block.height);
    match verdict {
        Verdict::Proven => block.rectangle(whole.grown(-0.35), Fill::None, Some(0.7)),
        Verdict::Doubtful => {
            let r = whole.grown(-0.175);
            let corners = [(r.left, r.top), (r.right, r.top), (r.right, r.bottom), (r.left, r.bottom), (r.left, r.top)];
            block.run(corners.map(|(x, y)| Point::new(x, y)).to_vec(), 0.35, Dash::Short);
        }
        Verdict::Fails => {
            block.rectangle(whole.grown(-0.6), Fill::None, Some(1.2));
            block.rectangle(whole.grown(-2.2), Fill::None, Some(0.5));
        }
    }
}

/// The stamp of a sheet line by line, so wide.
pub(super) fn plain_stamp(verdict: Verdict, word: &str, width: f64) -> Result<Block, Fault> {
    let mut block = Block::new(STAMP.capital + 9.0);
    block.text(Point::new(width / 2.0, STAMP.capital + 4.5), Anchor::Centre, STAMP, word)?;
    frame(&mut block, verdict, width);
    Ok(block)
}

/// A verdict told apart by its frame, small: of a row of the cover.
pub(super) fn frame_about(block: &mut Block, verdict: Verdict, room: Rect) {
    match verdict {
        Verdict::Proven => block.rectangle(room.grown(-0.25), Fill::None, Some(0.5)),
        Verdict::Doubtful => {
            let r = room.grown(-0.175);
            let corners = [(r.left, r.top), (r.right, r.top), (r.right, r.bottom), (r.left, r.bottom), (r.left, r.top)];
            block.run(corners.map(|(x, y)| Point::new(x, y)).to_vec(), 0.35, Dash::Short);
        }
        Verdict::Fails => {
            block.rectangle(room.grown(-0.4), Fill::None, Some(0.8));
            block.rectangle(room.grown(-1.3), Fill::None, Some(0.35));
        }
    }
}
