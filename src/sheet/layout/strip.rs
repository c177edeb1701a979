//! The title strip (the fields of ISO 7200 that apply) with the stamp; it stands at the top of every page.

use super::Sheet;
use super::block::{BODY, Block, HAIR, STAMP, STRONG, Style, plain};
use super::flow::{EDGE, inner};
use crate::operations::SetUp;
use crate::proof::Verdict;
use crate::sheet::check::PIN;
use crate::sheet::fonts::{self, Fault, Room};
use crate::sheet::page::{Anchor, Dash, Fill, Kind, Point, Rect};
use crate::sheet::words;

/// Height of the capitals of the part's name where one line will do, mm.
const PART: f64 = 5.5;
/// The same where two lines are needed: both stand beside the pin.
const PART_IN_TWO: f64 = 4.0;
/// Height of the capitals of the operation, mm.
const OPERATION: f64 = 4.0;
/// Air beside the pin, mm.
const CLEAR: f64 = 1.0;
/// Between a caption and its field, mm.
const CAPTION: f64 = 1.6;
/// Between fields in one line, mm.
const FIELDS: f64 = 4.0;
/// Air between fields, mm.
const AIR: f64 = 1.1;
/// Width of the line under the strip, mm.
const HEAVY: f64 = 0.7;

/// Longest name that the strip holds, in letters: of a longer one it holds the beginning, and the sheet says it in full.
const LONGEST: usize = 160;

/// A name as the strip holds it.
pub(super) fn short(name: &str) -> String {
    let name = plain(name);
    if name.chars().count() <= LONGEST { name } else { name.chars().take(LONGEST - 1).chain(['…']).collect() }
}

/// What the stamp adds to the verdict. What fails has no conditions.
fn stamp_note<'a>(sheet: &Sheet<'a>) -> Option<&'a str> {
    sheet.planned.stamp_note.as_deref().filter(|_| sheet.planned.verdict != Verdict::Fails)
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

/// All names of the strip, for a sheet that has none.
pub(super) fn all_names(sheet: &Sheet) -> Vec<String> {
    names(sheet).map(|(caption, name)| words::named(caption, name)).collect()
}

/// A strip that waits for the number of its page.
pub(super) struct Strip {
    block: Block,
    number_at: Point,
}

impl Strip {
    /// The strip of a sheet.
    pub(super) fn of(sheet: &Sheet) -> Result<Self, Fault> {
        let width = inner(sheet.paper);
        let mut block = Block::new(0.0);
        let below_pin = PIN.1 - EDGE + 0.4;
        let beside_pin = (sheet.paper.size().0 - PIN.0) / 2.0 - EDGE - CLEAR;
        let right = beside_pin + PIN.0 + 2.0 * CLEAR;
        let verdict = sheet.planned.verdict;
        let word = words::stamp(verdict, sheet.set_up.map(|set_up| set_up.station));
        let stamp_width = f64::max(width - right, STAMP.width(word)? + 2.0 * side_of_frame(verdict));
        // A stamp that is wider than the room beside the pin stands below it, and the number and date above it.
        let below = stamp_width > width - right + 1e-9;
        let left_width = f64::min(right, width - stamp_width) - 3.0;

        block.open(Kind::H1);
        let left = part(&mut block, sheet, beside_pin, below_pin, left_width)?;
        block.close();
        let left = operation(&mut block, sheet, left, left_width)?;

        let note = stamp_note(sheet).map(short);
        let stamp = stamp(verdict, word, note.as_deref(), stamp_width)?;
        let stamp_top = if below { below_pin } else { 0.0 };
        block.set(&stamp, width - stamp_width, stamp_top);
        let number_at = Point::new(right, BODY.capital + if below { 0.4 } else { stamp.height + AIR });
        let dated = date(&mut block, sheet, right, number_at.y + AIR + 1.0, width - right)?;
        let right_end = f64::max(dated, stamp_top + stamp.height);

        let end = owners(&mut block, sheet, f64::max(left, right_end) + AIR, width)?;
        block.line(Point::new(0.0, end + AIR), Point::new(width, end + AIR), HEAVY);
        block.height = end + AIR + HEAVY / 2.0;
        Ok(Self { block, number_at })
    }

    /// Its height, mm.
    pub(super) fn height(&self) -> f64 {
        self.block.height
    }

    /// The strip of one page of the sheet.
    pub(super) fn numbered(&self, id: &str, page: usize, pages: usize) -> Result<Block, Fault> {
        let mut block = self.block.clone();
        let end = field(&mut block, self.number_at, words::SHEET, id)?;
        let at = Point::new(end + 6.0, self.number_at.y);
        block.text(at, Anchor::Left, STRONG, &words::page(page, pages))?;
        Ok(block)
    }
}

/// Caption and words of a field in one line from a place of its base line; gives back its right end.
fn field(block: &mut Block, at: Point, caption: &str, text: &str) -> Result<f64, Fault> {
    let caption = block.text(at, Anchor::Left, BODY, caption)?;
    Ok(block.text(Point::new(caption.right + CAPTION, at.y), Anchor::Left, STRONG, text)?.right)
}

/// Caption and words of a field, the words broken; gives back where they end.
fn long_field(block: &mut Block, at: Point, width: f64, caption: &str, text: &str) -> Result<f64, Fault> {
    let indent = BODY.width(caption)? + CAPTION;
    let caption = block.lines(at.x, at.y, BODY, &[caption.to_owned()])?;
    Ok(f64::max(caption, block.paragraph(at.x + indent, at.y, width - indent, STRONG, text)?))
}

/// A text at the greatest size that fits, or broken at the least of the body however many lines that takes.
fn fitted(text: &str, tries: &[Room]) -> Result<(Style, Vec<String>), Fault> {
    let text = plain(text);
    for room in tries {
        match fonts::fit(STRONG.font, &text, *room) {
            Ok(fitted) => return Ok((Style { capital: fitted.capital, ..STRONG }, fitted.lines)),
            Err(Fault::TooLong { .. }) => {}
            Err(fault) => return Err(fault),
        }
    }
    let width = tries.iter().map(|room| room.width).fold(0.0, f64::max);
    Ok((STRONG, STRONG.wrap(&text, width)?))
}

/// The part's name: beside the pin where it fits, else below it.
fn part(block: &mut Block, sheet: &Sheet, beside: f64, below: f64, width: f64) -> Result<f64, Fault> {
    let least = STRONG.capital;
    let tries = |width| {
        [
            Room { width, lines: 1, wished: PART, least: PART_IN_TWO },
            Room { width, lines: 2, wished: PART_IN_TWO, least },
            Room { width, lines: 3, wished: least, least },
        ]
    };
    let name = short(&sheet.planned.address.part);
    let fits = tries(beside).into_iter().any(|room| fonts::fit(STRONG.font, &name, room).is_ok());
    let (room, top) = if fits { (beside, 0.0) } else { (width, below) };
    let (style, lines) = fitted(&name, &tries(room))?;
    let end = block.lines(0.0, top, style, &lines)?;
    Ok(f64::max(end + AIR, below))
}

/// Operation, number of the set-up, machine, material.
fn operation(block: &mut Block, sheet: &Sheet, top: f64, width: f64) -> Result<f64, Fault> {
    let set_up = sheet.set_up.map_or(words::NO_SET_UP, |set_up| &set_up.title);
    let title = short(&format!("{}: {set_up}", sheet.planned.title));
    let room = Room { width, lines: 2, wished: OPERATION, least: STRONG.capital };
    let (style, lines) = fitted(&title, &[room])?;
    let mut y = block.lines(0.0, top, style, &lines)? + AIR;
    let material = short(sheet.planned.material.as_deref().unwrap_or(words::NOT_GIVEN));
    if let Some(set_up) = sheet.set_up {
        let count = words::of(sheet.number, sheet.planned.answer.set_ups.len());
        let end = field(block, Point::new(0.0, y + BODY.capital), words::SET_UP, &count)? + FIELDS;
        let name = short(&set_up.machine);
        let machine = end + taken(words::MACHINE, &name)? + FIELDS;
        if machine + taken(words::MATERIAL, &material)? <= width {
            long_field(block, Point::new(end, y), width - end, words::MACHINE, &name)?;
            return long_field(block, Point::new(machine, y), width - machine, words::MATERIAL, &material);
        }
        y = long_field(block, Point::new(end, y), width - end, words::MACHINE, &name)? + AIR;
    }
    long_field(block, Point::new(0.0, y), width, words::MATERIAL, &material)
}

/// Width of a field in one line, mm.
fn taken(caption: &str, text: &str) -> Result<f64, Fault> {
    Ok(BODY.width(caption)? + CAPTION + STRONG.width(&plain(text))? + 0.5)
}

/// The day, or a line to write it on.
fn date(block: &mut Block, sheet: &Sheet, x: f64, top: f64, width: f64) -> Result<f64, Fault> {
    if let Some(date) = &sheet.plan.date {
        return long_field(block, Point::new(x, top), width, words::DATE, &short(date));
    }
    let base = top + BODY.capital;
    let caption = block.text(Point::new(x, base), Anchor::Left, BODY, words::DATE)?;
    block.line(Point::new(caption.right + CAPTION, base + 0.8), Point::new(caption.right + 40.0, base + 0.8), HAIR);
    Ok(base + 1.0)
}

/// Job, engine and shop: side by side, or under each other where that takes less height.
fn owners(block: &mut Block, sheet: &Sheet, top: f64, width: f64) -> Result<f64, Fault> {
    block.line(Point::new(0.0, top), Point::new(width, top), HAIR);
    let mut fields = vec![(words::JOB, short(&sheet.plan.job))];
    fields.extend(sheet.plan.engine.as_deref().map(|engine| (words::ENGINE, short(engine))));
    fields.extend(sheet.plan.shop.as_deref().map(|shop| (words::SHOP, short(shop))));
    let each = width / fields.len() as f64;
    let (mut across, mut down) = (Block::new(0.0), Block::new(0.0));
    for (at, (caption, text)) in fields.into_iter().enumerate() {
        let end = long_field(&mut across, Point::new(at as f64 * each, 0.0), each - 3.0, caption, &text)?;
        across.height = across.height.max(end);
        let top = if at == 0 { 0.0 } else { down.height + AIR / 2.0 };
        down.height = long_field(&mut down, Point::new(0.0, top), width, caption, &text)?;
    }
    let fields = if across.height <= down.height { across } else { down };
    block.set(&fields, 0.0, top + AIR);
    Ok(top + AIR + fields.height)
}

/// The stamp: told apart by its words and its frame, without colour.
pub(super) fn stamp(verdict: Verdict, word: &str, note: Option<&str>, width: f64) -> Result<Block, Fault> {
    const PAD: f64 = 2.6;
    let mut block = Block::new(0.0);
    let pad = if verdict == Verdict::Fails { PAD + 2.0 } else { PAD };
    // What is too wide for one line stands in as few as hold it.
    let lines = STAMP.wrap(word, width - 2.0 * side_of_frame(verdict) + 0.1)?;
    let mut y = pad;
    for line in &lines {
        y += STAMP.capital;
        block.text(Point::new(width / 2.0, y), Anchor::Centre, STAMP, line)?;
        y += 3.0;
    }
    y -= 3.0;
    if let Some(note) = note {
        y += 1.4;
        for line in STRONG.wrap(note, width - 2.0 * pad)? {
            let size = fonts::measure(STRONG.font, STRONG.capital, &line)?;
            y += size.above;
            block.text(Point::new(width / 2.0, y), Anchor::Centre, STRONG, &line)?;
            y += size.below + 0.4;
        }
    }
    block.height = y + pad;
    frame(&mut block, verdict, width);
    Ok(block)
}

/// From the side of a stamp to its word, mm: the frame and the air in it.
fn side_of_frame(verdict: Verdict) -> f64 {
    if verdict == Verdict::Fails { 4.4 } else { 0.6 }
}

fn frame(block: &mut Block, verdict: Verdict, width: f64) {
    let whole = Rect::new(0.0, 0.0, width, block.height);
    match verdict {
        Verdict::Proven => block.rectangle(whole.grown(-0.35), Fill::None, Some(0.7)),
        Verdict::Doubtful => {
            let r = whole.grown(-0.2);
            let corners = [(r.left, r.top), (r.right, r.top), (r.right, r.bottom), (r.left, r.bottom), (r.left, r.top)];
            block.run(corners.map(|(x, y)| Point::new(x, y)).to_vec(), 0.35, Dash::Short);
        }
        Verdict::Fails => {
            block.rectangle(whole.grown(-0.9), Fill::None, Some(1.6));
            block.rectangle(whole.grown(-2.9), Fill::None, Some(0.6));
        }
    }
}
