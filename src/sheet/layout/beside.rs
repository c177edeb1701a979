//! Beside the sketch: its numbers with what they mean, the fluid, what is to get first, and the remark.

use super::Sheet;
use super::block::{BODY, Block, DRAWN, STRONG, Style, as_item, plain};
use super::cuts::{self, is_fluid};
use super::strip;
use crate::drawing::Balloon;
use crate::operations::SetUp;
use crate::sheet::draughting::round;
use crate::sheet::fonts::Fault;
use crate::sheet::page::{Anchor, Fill, Kind, Point, Rect};
use crate::sheet::words;

/// Across a circle, mm.
const CIRCLE: f64 = 6.0;
/// Stroke of a circle, mm.
const STROKE: f64 = 0.35;
/// Where the words begin behind a circle, and behind a mark, mm.
const INDENT: f64 = 7.6;
const MARKED: f64 = 3.4;
/// Between two that stand beside each other, mm.
const APART: f64 = 4.0;
/// Between what belongs to different numbers, mm.
const BETWEEN: f64 = 0.2;

/// What stands beside the sketch, and what of it has no room there: of the work, and of the rest.
#[derive(Clone, Debug, Default)]
pub(super) struct Beside {
    /// Its rows.
    pub rows: Vec<Block>,
    /// How the part is held and what it is cut with: they stand before the steps, with their numbers.
    pub before_steps: Vec<Item>,
    /// The remark and what is to be got: they stand with the verdict.
    pub with_verdict: Vec<String>,
}

/// One thing to say.
#[derive(Clone, Debug)]
pub(super) struct Item {
    balloon: Option<Balloon>,
    text: String,
    style: Style,
    is_work: bool,
}

impl Item {
    /// Where its words begin, mm.
    const fn indent(&self) -> f64 {
        if self.balloon.is_some() { INDENT } else { MARKED }
    }

    /// Whether it must stand on the sheet: a remark of a line or two, whose beginning is among the facts of the strip, stands
    /// whole on the working page.
    fn is_kept(&self) -> bool {
        self.style.font == STRONG.font || self.text.chars().count() > LONGEST
    }
}

/// Longest remark that may stand on the working page alone, letters.
const LONGEST: usize = 160;

/// What stands beside the sketch, whole items from the top; `balloons` are those of the sketch.
pub(super) fn beside(sheet: &Sheet, balloons: &[Balloon], left_out: &str, zone: Rect) -> Result<Beside, Fault> {
    let all = items(sheet, balloons, left_out);
    let set = |close| all.iter().map(|one| item(one, zone.width(), close)).collect::<Result<Vec<_>, _>>();
    let high = |rows: &[Block]| rows.iter().map(|row| row.height).sum::<f64>();
    let mut rows = set(false)?;
    if rows.iter().map(|rows| high(rows)).sum::<f64>() > zone.height() {
        rows = set(true)?;
    }
    let mut said = Beside::default();
    let mut free = zone.height();
    for (one, rows) in all.into_iter().zip(rows) {
        let high = high(&rows);
        if high <= free {
            free -= high;
            said.rows.extend(rows);
        } else if one.is_work {
            said.before_steps.push(one);
        } else if one.is_kept() {
            said.with_verdict.push(one.text);
        }
    }
    Ok(said)
}

fn items(sheet: &Sheet, balloons: &[Balloon], left_out: &str) -> Vec<Item> {
    let mut items = Vec::new();
    let mut push = |balloon, text: String, style, is_work| {
        if !text.is_empty() {
            items.push(Item { balloon, text, style, is_work });
        }
    };
    if let Some(set_up) = sheet.set_up {
        for balloon in [Balloon::Grip, Balloon::Indicator, Balloon::Zero, Balloon::Tool] {
            let drawn = balloons.contains(&balloon);
            let text = said(sheet, set_up, balloon);
            let text = if text.is_empty() && drawn { words::balloon(balloon).into() } else { text };
            push(drawn.then_some(balloon), text, BODY, true);
        }
        let fluids = set_up.steps.iter().filter(|step| is_fluid(step.id)).map(|step| step.words.as_str());
        push(None, fluids.collect::<Vec<_>>().join(" "), BODY, true);
    }
    push(None, left_out.to_owned(), BODY, true);
    // Where nothing may be cut there is nothing to get for it.
    if sheet.number == 1 && !sheet.may_not_be_cut() {
        for missing in &sheet.planned.answer.missing {
            push(None, words::to_be_got(missing), STRONG, false);
        }
    }
    // A remark stands among the facts of the strip; one that is longer stands here too.
    if let Some(note) = sheet.planned.note.as_ref().filter(|note| !strip::holds_whole(sheet, note)) {
        push(None, words::named(words::NOTE, note), BODY, false);
    }
    items
}

/// The words of a number.
fn said(sheet: &Sheet, set_up: &SetUp<String>, balloon: Balloon) -> String {
    let held = || {
        let lines = set_up.hold.iter().filter(|line| line.balloon == balloon).map(|line| line.words.as_str());
        lines.collect::<Vec<_>>().join(" ")
    };
    match balloon {
        Balloon::Grip | Balloon::Indicator => held(),
        Balloon::Zero => {
            let zero = |id: &str| id.starts_with("zero") || id == "touch-unworn";
            let at = cuts::steps(set_up).enumerate().find(|(_, step)| zero(step.id)).map(|(at, _)| at + 1);
            at.map_or_else(String::new, words::zero_at)
        }
        Balloon::Tool => {
            let mut tools: Vec<&str> = Vec::new();
            for cut in set_up.cuts().filter(|cut| !cut.tool.is_empty()) {
                let tool = cuts::tool(set_up, cut);
                if !tools.contains(&tool) {
                    tools.push(tool);
                }
            }
            if sheet.may_not_be_cut() { String::new() } else { tools.join("; ") }
        }
    }
}

/// A number in its circle, or a mark, with its words; a row a line, `close` to each other where the zone is full.
fn item(one: &Item, width: f64, close: bool) -> Result<Vec<Block>, Fault> {
    let (balloon, text, style) = (one.balloon, one.text.as_str(), one.style);
    let indent = one.indent();
    let mut rows = Vec::new();
    let lines = style.wrap(text, width - indent)?;
    for (at, line) in lines.iter().enumerate() {
        let top = if at == 0 { BETWEEN } else { 0.0 };
        let mut row = Block::new(top);
        row.height = row.lines(indent, top, style, std::slice::from_ref(line))? + if close { 0.1 } else { 0.25 };
        row.wrap(Kind::Body, at > 0);
        if at == 0 {
            mark(&mut row, balloon, top)?;
            if balloon.is_some() {
                let apart = if close { 0.1 } else { 0.5 };
                row.height = row.height.max(CIRCLE + if lines.len() > 1 { -1.0 } else { apart });
            }
        }
        rows.push(row);
    }
    as_item(&mut rows);
    Ok(rows)
}

/// What has no room beside the sketch, over the whole width: each behind its number in its circle, short ones beside each other.
pub(super) fn over_steps(items: &[Item], width: f64) -> Result<Vec<Block>, Fault> {
    let mut rows = Vec::new();
    let mut row: Vec<(&Item, f64)> = Vec::new();
    let mut taken = 0.0;
    for one in items {
        let wide = one.indent() + one.style.width(&plain(&one.text))?;
        if taken + wide > width {
            rows.extend(in_one_row(&std::mem::take(&mut row))?);
            taken = 0.0;
        }
        if wide > width {
            rows.extend(item(one, width, true)?);
        } else {
            row.push((one, taken));
            taken += wide + APART;
        }
    }
    rows.extend(in_one_row(&row)?);
    Ok(rows)
}

/// Items of a line each beside each other, from so far; their words on one line, by the middle of the circles if they have any.
fn in_one_row(items: &[(&Item, f64)]) -> Result<Option<Block>, Fault> {
    if items.is_empty() {
        return Ok(None);
    }
    let has_circle = items.iter().any(|(one, _)| one.balloon.is_some());
    let top = if has_circle { (CIRCLE - BODY.capital) / 2.0 } else { BETWEEN };
    let mut row = Block::new(0.0);
    for (one, x) in items {
        let mut piece = Block::new(0.0);
        let ends = piece.lines(one.indent(), top, one.style, std::slice::from_ref(&plain(&one.text)))?;
        piece.wrap(Kind::Body, false);
        mark(&mut piece, one.balloon, top)?;
        row.height = row.height.max(ends + 0.1).max(if has_circle { CIRCLE + 0.1 } else { 0.0 });
        as_item(std::slice::from_mut(&mut piece));
        row.set(piece, *x, 0.0);
    }
    Ok(Some(row))
}

/// The number in its circle before words whose letters begin at `top`, or a mark where there is none.
fn mark(row: &mut Block, balloon: Option<Balloon>, top: f64) -> Result<(), Fault> {
    match balloon {
        Some(balloon) => circle(row, balloon),
        None => {
            let at = Point::new(0.6, top + BODY.capital);
            row.lead(Some((Kind::Label, None)), at, (Anchor::Left, STRONG), "•")
        }
    }
}

fn circle(row: &mut Block, balloon: Balloon) -> Result<(), Fault> {
    let (r, centre) = ((CIRCLE - STROKE) / 2.0, Point::new(CIRCLE / 2.0, CIRCLE / 2.0));
    row.polygon(round(centre, r), Fill::None, STROKE);
    let at = Point::new(centre.x, centre.y + DRAWN.capital / 2.0);
    let means = Some((Kind::Label, Some(balloon.sign())));
    row.lead(means, at, (Anchor::Centre, DRAWN), &balloon.number().to_string())
}
