//! Bars with headings, and the sections that are lists: holding, what is to be got, cautions, the foot.

use super::block::{BODY, Block, HAIR, HEAD, STRONG, Style};
use super::flow::Section;
use super::{Sheet, sketch};
use crate::sheet::fonts::Fault;
use crate::sheet::page::{Anchor, Fill, Point, Rect};
use crate::sheet::words;

/// Height of a bar, mm.
const BAR: f64 = 4.8;
/// Grey of a bar, hundredths of black: it survives a photocopy.
const GREY: u8 = 13;
/// Under a bar, mm.
const UNDER: f64 = 0.4;
/// Most lines of words in one block; what is longer goes on in the next.
const MOST_LINES: usize = 12;
/// Width of the mark before a line of a list, mm.
const BULLET: f64 = 3.6;
/// Between lines of a list, mm.
const BETWEEN: f64 = 0.6;

/// A caption in a bar and its right end, mm.
pub(super) type Caption = (f64, &'static str);

/// A bar with a heading and captions over columns.
pub(super) fn bar(width: f64, heading: &str, captions: &[Caption]) -> Result<Block, Fault> {
    let mut block = Block::new(BAR + UNDER);
    block.rectangle(Rect::new(0.0, 0.0, width, BAR), Fill::Grey(GREY), None);
    let base = (BAR + HEAD.capital) / 2.0 - 0.2;
    block.text(Point::new(1.2, base), Anchor::Left, HEAD, heading)?;
    for (right, caption) in captions {
        block.text(Point::new(*right, base), Anchor::Right, BODY, caption)?;
    }
    Ok(block)
}

/// The bar of a section, and the bar where it goes on.
pub(super) fn bars(width: f64, heading: &str, captions: &[Caption]) -> Result<(Block, Block), Fault> {
    headed(width, heading, heading, captions)
}

/// The same, with more in the first bar than the name of the section.
pub(super) fn headed(width: f64, heading: &str, name: &str, captions: &[Caption]) -> Result<(Block, Block), Fault> {
    let again = format!("{name}, {}", words::CONTINUED);
    Ok((bar(width, heading, captions)?, bar(width, &again, captions)?))
}

/// Lines of words as blocks, so many to a block that a page can hold each.
pub(super) fn chunks(lines: &[String], x: f64, pad: f64, style: Style) -> Result<Vec<Block>, Fault> {
    let mut blocks = Vec::new();
    for some in lines.chunks(MOST_LINES) {
        let mut block = Block::new(0.0);
        block.height = block.lines(x, pad, style, some)? + pad;
        blocks.push(block);
    }
    Ok(blocks)
}

/// Lines of a list, each behind a mark.
pub(super) fn marked(lines: &[String], width: f64) -> Result<Vec<Block>, Fault> {
    let mut blocks = Vec::new();
    for text in lines {
        let mut some = chunks(&BODY.wrap(text, width - BULLET)?, BULLET, BETWEEN / 2.0, BODY)?;
        if let Some(first) = some.first_mut() {
            first.text(Point::new(0.4, BETWEEN / 2.0 + BODY.capital), Anchor::Left, STRONG, "•")?;
        }
        blocks.extend(some);
    }
    Ok(blocks)
}

/// A section of marked lines; nothing where there are none.
pub(super) fn list(name: &'static str, lines: &[String], width: f64) -> Result<Option<Section>, Fault> {
    if lines.is_empty() {
        return Ok(None);
    }
    Ok(Some(Section { name, bar: Some(bars(width, name, &[])?), rows: marked(lines, width)? }))
}

/// Lines of a list run into each other behind their name: the least height.
pub(super) fn run_in(name: &'static str, lines: &[String], width: f64) -> Result<Option<Section>, Fault> {
    if lines.is_empty() {
        return Ok(None);
    }
    let indent = STRONG.width(name)? + BULLET;
    let text = lines.join(" • ");
    let mut rows = chunks(&BODY.wrap(&text, width - indent)?, indent, BETWEEN / 2.0, BODY)?;
    if let Some(first) = rows.first_mut() {
        first.text(Point::new(0.0, BETWEEN / 2.0 + STRONG.capital), Anchor::Left, STRONG, name)?;
    }
    Ok(Some(Section { name, bar: None, rows }))
}

/// Holding and truing.
pub(super) fn hold(sheet: &Sheet) -> Vec<String> {
    sheet.set_up.map_or_else(Vec::new, |set_up| set_up.hold.iter().map(|line| line.words.clone()).collect())
}

/// What is said of the sheet itself.
pub(super) fn notes(notes: &[String], width: f64) -> Result<Option<Section>, Fault> {
    let mut rows = Vec::new();
    for note in notes {
        rows.extend(chunks(&STRONG.wrap(note, width)?, 0.0, 0.2, STRONG)?);
    }
    Ok((!rows.is_empty()).then_some(Section { name: words::NOTE, bar: None, rows }))
}

/// The remark of the part or of the set-up.
pub(super) fn note(sheet: &Sheet, width: f64) -> Result<Option<Section>, Fault> {
    let Some(note) = &sheet.planned.note else { return Ok(None) };
    let lines = STRONG.wrap(&format!("{}: {note}", words::NOTE), width)?;
    Ok(Some(Section { name: words::NOTE, bar: None, rows: chunks(&lines, 0.0, 0.2, STRONG)? }))
}

/// What could not be worked out, and why.
pub(super) fn refused(sheet: &Sheet, width: f64) -> Result<Option<Section>, Fault> {
    let Some(why) = &sheet.planned.answer.refused else { return Ok(None) };
    let lines = STRONG.wrap(&why.to_string(), width)?;
    let bar = bars(width, words::REFUSED, &[])?;
    Ok(Some(Section { name: words::REFUSED, bar: Some(bar), rows: chunks(&lines, 0.0, 0.3, STRONG)? }))
}

/// What the shop lacks; on the first sheet of an operation.
pub(super) fn missing(sheet: &Sheet, width: f64) -> Result<Option<Section>, Fault> {
    let lines: &[String] = if sheet.number <= 1 { &sheet.planned.answer.missing } else { &[] };
    list(words::MISSING, lines, width)
}

/// Cautions of the set-up and of the operation.
pub(super) fn cautions(sheet: &Sheet) -> Vec<String> {
    let mut all: Vec<String> = sheet.set_up.map(|set_up| set_up.cautions.clone()).unwrap_or_default();
    for caution in &sheet.planned.answer.cautions {
        if !all.contains(caution) {
            all.push(caution.clone());
        }
    }
    all
}

/// The line that stands on every sheet.
pub(super) fn standing(width: f64) -> Result<Section, Fault> {
    let lines = STRONG.wrap(words::STANDING, width)?;
    Ok(Section { name: words::CAUTIONS, bar: None, rows: chunks(&lines, 0.0, BETWEEN / 2.0, STRONG)? })
}

/// What was assumed, one line each.
pub(super) fn assumed(sheet: &Sheet, width: f64) -> Result<Option<Section>, Fault> {
    list(words::ASSUMED, &sheet.planned.answer.assumed, width)
}

/// What was assumed (where it has no place of its own), units, where the working is.
pub(super) fn foot(sheet: &Sheet, with_assumed: bool, width: f64) -> Result<Section, Fault> {
    let assumed = &sheet.planned.answer.assumed;
    let mut text = words::foot(sheet.plan.print, &sheet.planned.address.to_string());
    if with_assumed && !assumed.is_empty() {
        text = format!("{}: {}. {text}", words::ASSUMED, assumed.join("; "));
    }
    let [_, may] = if sheet.number <= 1 { sheet.planned.unmade() } else { Default::default() };
    let unmade = may.iter().map(|unmade| format!("{}.", capital(&words::unmade(unmade))));
    let memory = resting_on_memory(sheet);
    let memory = (!memory.is_empty() || sketch::rests_on_memory(sheet)).then(|| words::from_memory(&memory));
    let text = unmade.chain(memory).chain([text]).collect::<Vec<_>>().join(" ");
    let lines = BODY.wrap(&text, width)?;
    let mut rule = Block::new(0.9);
    rule.line(Point::new(0.0, 0.2), Point::new(width, 0.2), HAIR);
    rule.keep = true;
    let mut rows = vec![rule];
    // Line by line, so that a long list goes on wherever the page ends.
    for line in lines {
        rows.extend(chunks(std::slice::from_ref(&line), 0.0, 0.2, BODY)?);
    }
    Ok(Section { name: words::ASSUMED, bar: None, rows })
}

/// The checks that rest on memory: of the whole operation on its first sheet, where the stamp is argued; else those shown.
fn resting_on_memory<'a>(sheet: &Sheet<'a>) -> Vec<&'a str> {
    if sheet.number <= 1 {
        return sheet.planned.from_memory();
    }
    let own = sheet.checks().into_iter().filter(|(check, elsewhere)| check.from_memory && elsewhere.is_none());
    own.map(|(check, _)| check.id).collect()
}

/// A line that begins a sentence.
fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// Where the sketch is, when it has a page of its own.
pub(super) fn sketch_apart(width: f64) -> Result<Section, Fault> {
    let lines = STRONG.wrap(words::SKETCH_APART, width)?;
    Ok(Section { name: words::SKETCH, bar: None, rows: chunks(&lines, 0.0, BETWEEN / 2.0, STRONG)? })
}
