//! Beside the sketch: its numbers with what they mean, the fluid, what is to be got first, and the remark.

use super::Sheet;
use super::block::{BODY, Block, DRAWN, STRONG, Style};
use super::cuts::is_fluid;
use super::flow::Section;
use super::lists::bars;
use crate::drawing::Balloon;
use crate::operations::SetUp;
use crate::sheet::fonts::Fault;
use crate::sheet::page::{Anchor, Fill, Point};
use crate::sheet::words;

/// Across a circle, mm.
const CIRCLE: f64 = 6.0;
/// Stroke of a circle, mm.
const STROKE: f64 = 0.35;
/// Where the words begin, mm.
const INDENT: f64 = 7.6;
/// Corners of a circle as it is drawn.
const CORNERS: usize = 48;
/// Between what belongs to different numbers, mm.
const BETWEEN: f64 = 0.9;

/// What stands beside the sketch, line by line; `balloons` are those of the sketch.
pub(super) fn section(sheet: &Sheet, balloons: &[Balloon], left_out: &str, width: f64) -> Result<Section, Fault> {
    let mut rows = Vec::new();
    if let Some(set_up) = sheet.set_up {
        for balloon in [Balloon::Grip, Balloon::Indicator, Balloon::Zero, Balloon::Tool] {
            let drawn = balloons.contains(&balloon);
            let mut text = said(sheet, set_up, balloon);
            if text.is_empty() && drawn {
                text = words::balloon(balloon).into();
            }
            if !text.is_empty() {
                rows.extend(item(drawn.then_some(balloon), &text, BODY, width)?);
            }
        }
        for step in set_up.steps.iter().filter(|step| is_fluid(step.id)) {
            rows.extend(item(None, &step.words, BODY, width)?);
        }
    }
    if !left_out.is_empty() {
        rows.extend(item(None, left_out, BODY, width)?);
    }
    if sheet.number == 1 {
        for missing in &sheet.planned.answer.missing {
            rows.extend(item(None, &words::to_be_got(missing), STRONG, width)?);
        }
    }
    if let Some(note) = &sheet.planned.note {
        rows.extend(item(None, &words::named(words::NOTE, note), BODY, width)?);
    }
    Ok(Section { name: words::HOLD, bar: Some(bars(width, words::HOLD, &[])?), rows })
}

/// The words of a number.
fn said(sheet: &Sheet, set_up: &SetUp<String>, balloon: Balloon) -> String {
    // What the indicator touches is said in the lines that name it.
    let indicates = |line: &&String| line.to_lowercase().contains(words::INDICATES);
    match balloon {
        Balloon::Grip => {
            let lines = set_up.hold.iter().filter(|line| !indicates(line)).map(String::as_str);
            lines.collect::<Vec<_>>().join(" ")
        }
        Balloon::Indicator => set_up.hold.iter().filter(indicates).map(String::as_str).collect::<Vec<_>>().join(" "),
        Balloon::Zero => {
            let zero = |id: &str| id.starts_with("zero") || id == "touch-unworn";
            let steps = set_up.steps.iter().filter(|step| !is_fluid(step.id));
            let at = steps.enumerate().find(|(_, step)| zero(step.id)).map(|(at, _)| at + 1);
            at.map_or_else(String::new, words::zero_at)
        }
        Balloon::Tool => {
            let mut tools: Vec<&str> = Vec::new();
            for cut in set_up.cuts().filter(|cut| !cut.tool.is_empty()) {
                if !tools.contains(&cut.tool.as_str()) {
                    tools.push(&cut.tool);
                }
            }
            if sheet.may_not_be_cut() { String::new() } else { tools.join("; ") }
        }
    }
}

/// A number in its circle, or a mark, with its words; a row a line.
fn item(balloon: Option<Balloon>, text: &str, style: Style, width: f64) -> Result<Vec<Block>, Fault> {
    let indent = if balloon.is_some() { INDENT } else { 3.4 };
    let mut rows = Vec::new();
    let lines = style.wrap(text, width - indent)?;
    for (at, line) in lines.iter().enumerate() {
        let top = if at == 0 { BETWEEN } else { 0.0 };
        let mut row = Block::new(top);
        row.height = row.lines(indent, top, style, std::slice::from_ref(line))? + 0.35;
        if at == 0 {
            match balloon {
                Some(balloon) => {
                    circle(&mut row, balloon)?;
                    row.height = row.height.max(CIRCLE + if lines.len() > 1 { -1.0 } else { 0.5 });
                }
                None => row.text(Point::new(0.6, top + style.capital), Anchor::Left, STRONG, "•").map(|_| ())?,
            }
        }
        rows.push(row);
    }
    Ok(rows)
}

fn circle(row: &mut Block, balloon: Balloon) -> Result<(), Fault> {
    let (r, centre) = ((CIRCLE - STROKE) / 2.0, Point::new(CIRCLE / 2.0, CIRCLE / 2.0));
    let corner = |at: usize| {
        let angle = at as f64 / CORNERS as f64 * std::f64::consts::TAU;
        Point::new(centre.x + r * angle.cos(), centre.y + r * angle.sin())
    };
    row.polygon((0..CORNERS).map(corner).collect(), Fill::None, STROKE);
    let at = Point::new(centre.x, centre.y + DRAWN.capital / 2.0);
    row.text(at, Anchor::Centre, DRAWN, &balloon.number().to_string()).map(|_| ())
}
