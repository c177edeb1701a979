//! Cuts: one row a step in working order; those that cut with their figures, hand steps without.

use super::block::{BODY, Block, DIAL, FIGURE, HAIR, HEAD, STRONG};
use super::flow::Section;
use super::lists::{Caption, chunks, headed};
use super::{Look, Sheet};
use crate::operations::{Cut, Pass, SetUp, Step};
use crate::quantity::Print;
use crate::sheet::fonts::Fault;
use crate::sheet::page::{Anchor, Point};
use crate::sheet::{figures, words};

/// Width of the numbers, mm.
const NUMBER: f64 = 8.0;
/// Between columns, mm.
const GUTTER: f64 = 3.0;
/// From base line to base line of figures upon each other, mm.
const STACK: f64 = 10.0;

/// A cut with its figures as they will be set.
struct Row<'a> {
    cut: &'a Cut<String>,
    spindle: String,
    feed: Vec<String>,
    depths: Vec<String>,
    minutes: String,
}

impl<'a> Row<'a> {
    fn of(step: &'a Step<String>, print: Print) -> Option<Self> {
        let cut = step.cut.as_ref()?;
        Some(Self {
            cut,
            spindle: figures::spindle(cut.spindle),
            feed: figures::feed(cut.feed, print),
            depths: figures::depths(&cut.passes, print),
            minutes: figures::minutes(cut.minutes),
        })
    }
}

/// Right ends of the columns of figures, and the width left for words, mm.
struct Columns {
    words: f64,
    spindle: f64,
    feed: f64,
    depth: f64,
    minutes: f64,
}

impl Columns {
    fn of(rows: &[&Row], print: Print, width: f64) -> Result<Self, Fault> {
        let (mut spindle, mut feed) = (BODY.width(words::SPINDLE)?, BODY.width(words::feed(print))?);
        let (mut depth, mut minutes) = (BODY.width(words::DEPTH)?, BODY.width(words::MINUTES)?);
        for row in rows {
            spindle = spindle.max(FIGURE.width(&row.spindle)?);
            minutes = minutes.max(BODY.width(&row.minutes)?);
            for line in &row.feed {
                feed = feed.max(FIGURE.width(line)?);
            }
            for line in &row.depths {
                depth = depth.max(BODY.width(line)?);
            }
        }
        let left_of_minutes = width - minutes - GUTTER;
        let left_of_depth = left_of_minutes - depth - GUTTER;
        let left_of_feed = left_of_depth - feed - GUTTER;
        let words = left_of_feed - spindle - GUTTER - NUMBER;
        Ok(Self { words, spindle: left_of_feed, feed: left_of_depth, depth: left_of_minutes, minutes: width })
    }

    fn captions(&self, print: Print) -> Vec<Caption> {
        vec![
            (self.spindle, words::SPINDLE),
            (self.feed, words::feed(print)),
            (self.depth, words::DEPTH),
            (self.minutes, words::MINUTES),
        ]
    }
}

/// The section of the steps.
pub(super) fn section(sheet: &Sheet, set_up: &SetUp<String>, look: Look) -> Result<Section, Fault> {
    let print = sheet.plan.print;
    let rows: Vec<Option<Row>> = set_up.steps.iter().map(|step| Row::of(step, print)).collect();
    let cuts: Vec<&Row> = rows.iter().flatten().collect();
    let columns = Columns::of(&cuts, print, look.width)?;
    let mut blocks = Vec::new();
    for (at, (step, row)) in set_up.steps.iter().zip(&rows).enumerate() {
        match row {
            Some(row) => blocks.extend(cut(at + 1, &step.words, row, &columns, print, look)?),
            None => blocks.extend(by_hand(at + 1, &step.words, look)?),
        }
    }
    let (heading, captions) =
        if cuts.is_empty() { (words::STEPS, Vec::new()) } else { (words::CUTS, columns.captions(print)) };
    let dashes = cuts.iter().any(|row| row.cut.spindle.is_none() || row.cut.feed.is_none());
    let timed = format!("{heading}: {}", words::minutes(set_up.minutes, set_up.unattended));
    // The time in the bar where it has room there and a line is saved.
    let in_bar = look.close && !dashes && HEAD.width(&timed)? < columns.words + NUMBER;
    let full = if in_bar { timed.as_str() } else { heading };
    if !blocks.is_empty() && !in_bar {
        blocks.push(total(set_up, dashes, look)?);
    }
    Ok(Section { name: words::CUTS, bar: Some(headed(look.width, full, heading, &captions)?), rows: blocks })
}

/// A hand step: its words over the whole look.width.
fn by_hand(number: usize, text: &str, look: Look) -> Result<Vec<Block>, Fault> {
    let lines = BODY.wrap(text, look.width - NUMBER)?;
    let mut blocks = chunks(&lines, NUMBER, look.pad, BODY)?;
    finish(&mut blocks, number, look)?;
    Ok(blocks)
}

/// A cut: words and tool at the left, figures at the right, the readings of the dial below.
fn cut(number: usize, text: &str, row: &Row, columns: &Columns, print: Print, look: Look) -> Result<Vec<Block>, Fault> {
    let mut figures = Block::new(0.0);
    let end = figures_of(&mut figures, row, columns, look)?;
    let tool = format!("{}: {}", words::TOOL, row.cut.tool);
    let (text, apart) = match (row.cut.tool.is_empty(), look.close) {
        (true, _) => (text.to_owned(), false),
        (false, true) => (format!("{text} {tool}"), false),
        (false, false) => (text.to_owned(), true),
    };
    let mut blocks = words_of(&text, end, columns, look)?;
    if apart {
        let below = blocks.iter().map(|block| block.height).sum::<f64>() > end;
        let lines = STRONG.wrap(&tool, if below { look.width - NUMBER } else { columns.words })?;
        match blocks.last_mut() {
            Some(last) => last.height = last.lines(NUMBER, last.height - look.pad + 0.5, STRONG, &lines)? + look.pad,
            None => blocks = chunks(&lines, NUMBER, look.pad, STRONG)?,
        }
    }
    if blocks.is_empty() {
        blocks.push(Block::new(0.0));
    }
    if let Some(first) = blocks.first_mut() {
        first.set(&figures, 0.0, 0.0);
        first.height = first.height.max(end + look.pad);
    }
    let readings = readings(&row.cut.passes, print, look)?;
    if let (Some(last), false) = (blocks.last_mut(), readings.is_empty()) {
        last.keep = true;
    }
    blocks.extend(readings);
    finish(&mut blocks, number, look)?;
    Ok(blocks)
}

/// The words of a cut: narrow beside its figures, over the whole width under them.
fn words_of(text: &str, figures: f64, columns: &Columns, look: Look) -> Result<Vec<Block>, Fault> {
    let narrow = BODY.wrap(text, columns.words)?;
    let mut block = Block::new(0.0);
    let mut beside = 0;
    let mut end = 0.0;
    // As many narrow lines as reach below the figures.
    while beside < narrow.len() && end < figures {
        beside += 1;
        end = Block::new(0.0).lines(NUMBER, look.pad, BODY, narrow.get(..beside).unwrap_or_default())?;
    }
    let (head, tail) = narrow.split_at(beside);
    // A word cut between letters would come apart when its lines are joined again.
    let is_whole = narrow.join(" ") == super::block::plain(text).split_whitespace().collect::<Vec<_>>().join(" ");
    if tail.is_empty() || !is_whole {
        return chunks(&narrow, NUMBER, look.pad, BODY);
    }
    block.height = block.lines(NUMBER, look.pad, BODY, head)?;
    block.keep = true;
    let mut blocks = vec![block];
    let tail = BODY.wrap(&tail.join(" "), look.width - NUMBER)?;
    let top = look.pad.min(0.4);
    blocks.extend(chunks(&tail, NUMBER, top, BODY)?);
    if let Some(last) = blocks.last_mut() {
        last.height += look.pad - top;
    }
    Ok(blocks)
}

/// Sets the figures of a cut at their columns; gives back where they end.
fn figures_of(block: &mut Block, row: &Row, columns: &Columns, look: Look) -> Result<f64, Fault> {
    let base = look.pad + FIGURE.capital;
    block.text(Point::new(columns.spindle, base), Anchor::Right, FIGURE, &row.spindle)?;
    let mut end = base;
    for (at, line) in row.feed.iter().enumerate() {
        end = base + at as f64 * STACK;
        block.text(Point::new(columns.feed, end), Anchor::Right, FIGURE, line)?;
    }
    let small = look.pad + BODY.capital;
    block.text(Point::new(columns.minutes, small), Anchor::Right, BODY, &row.minutes)?;
    let mut depth = look.pad;
    for line in &row.depths {
        let x = columns.depth - BODY.width(line)?;
        depth = block.lines(x, depth, BODY, std::slice::from_ref(line))?;
    }
    // A figure in brackets reaches under its base line.
    Ok(f64::max(end + if row.feed.len() > 1 { 1.8 } else { 0.4 }, depth))
}

/// What the dial must read at each pass, in as many columns as the longest leaves room for.
fn readings(passes: &[Pass], print: Print, look: Look) -> Result<Vec<Block>, Fault> {
    let alone = passes.len() == 1;
    let mut cells = Vec::new();
    for (at, pass) in passes.iter().enumerate() {
        let Some(dial) = pass.dial.as_ref().map(|dial| dial.said(print)) else { continue };
        let before = if alone { words::DIAL.into() } else { words::pass_number(at + 1, pass.kind) };
        let indent = BODY.width(&before)? + 1.6;
        let cell = indent + DIAL.width(&super::block::plain(&dial))?;
        cells.push((before, indent, dial, cell));
    }
    let room = look.width - NUMBER;
    let widest = cells.iter().map(|cell| cell.3).fold(1.0, f64::max) + 2.0 * GUTTER;
    let across = ((room + 2.0 * GUTTER) / widest).floor().max(1.0) as usize;
    let mut blocks = Vec::new();
    for line in cells.chunks(across) {
        let mut block = Block::new(0.0);
        let mut end = 0.0_f64;
        for (column, (before, indent, dial, _)) in line.iter().enumerate() {
            let x = NUMBER + column as f64 * widest;
            block.text(Point::new(x, DIAL.capital), Anchor::Left, BODY, before)?;
            // A sentence is read, not glanced at.
            let style = if DIAL.width(&super::block::plain(dial))? > room - indent { STRONG } else { DIAL };
            end = end.max(block.paragraph(x + indent, 0.0, room - indent, style, dial)?);
        }
        block.height = end + look.pad;
        blocks.push(block);
    }
    Ok(blocks)
}

/// The number before the first block of a step, and the line under its last.
fn finish(blocks: &mut [Block], number: usize, look: Look) -> Result<(), Fault> {
    if let Some(first) = blocks.first_mut() {
        first.text(Point::new(0.0, look.pad + BODY.capital), Anchor::Left, STRONG, &number.to_string())?;
        first.height = first.height.max(2.0 * look.pad + BODY.capital);
    }
    if let Some(last) = blocks.last_mut() {
        last.line(Point::new(0.0, last.height), Point::new(look.width, last.height), HAIR);
    }
    Ok(())
}

/// The time of the whole set-up, and what a dash means where one stands.
fn total(set_up: &SetUp<String>, dashes: bool, look: Look) -> Result<Block, Fault> {
    let mut block = Block::new(0.0);
    let time = words::minutes(set_up.minutes, set_up.unattended);
    let taken = BODY.width(&time)?;
    block.height = block.lines(look.width - taken, look.pad, BODY, &[time])? + look.pad / 2.0;
    if dashes {
        let note = block.paragraph(0.0, look.pad, look.width - taken - GUTTER, BODY, words::NO_FIGURE)?;
        block.height = block.height.max(note + look.pad / 2.0);
    }
    Ok(block)
}
