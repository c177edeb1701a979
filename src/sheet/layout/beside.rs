//! Beside the sketch: its numbers with what they mean, the fluid, what is to get first, and the remark.

use super::Sheet;
use super::block::{BODY, Block, DRAWN, STRONG, Style, as_item};
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
/// Where the words begin, mm.
const INDENT: f64 = 7.6;
/// Between what belongs to different numbers, mm.
const BETWEEN: f64 = 0.2;

/// What stands beside the sketch, and what of it has no room there: of the work, and of the rest.
#[derive(Clone, Debug, Default)]
pub(super) struct Beside {
    /// Its rows.
    pub rows: Vec<Block>,
    /// How the part is held and what it is cut with, in words: they stand before the steps.
    pub before_steps: Vec<String>,
    /// The remark and what is to be got: they stand with the verdict.
    pub with_verdict: Vec<String>,
}

/// One thing to say.
struct Item {
    balloon: Option<Balloon>,
    text: String,
    style: Style,
    is_work: bool,
}

impl Item {
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
    let mut said = Beside::default();
    let mut free = zone.height();
    for one in items(sheet, balloons, left_out) {
        let rows = item(&one, zone.width())?;
        let high: f64 = rows.iter().map(|row| row.height).sum();
        if high <= free {
            free -= high;
            said.rows.extend(rows);
        } else if one.is_work {
            said.before_steps.push(one.text);
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
    if sheet.number == 1 {
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

/// A number in its circle, or a mark, with its words; a row a line.
fn item(one: &Item, width: f64) -> Result<Vec<Block>, Fault> {
    let (balloon, text, style) = (one.balloon, one.text.as_str(), one.style);
    let indent = if balloon.is_some() { INDENT } else { 3.4 };
    let mut rows = Vec::new();
    let lines = style.wrap(text, width - indent)?;
    for (at, line) in lines.iter().enumerate() {
        let top = if at == 0 { BETWEEN } else { 0.0 };
        let mut row = Block::new(top);
        row.height = row.lines(indent, top, style, std::slice::from_ref(line))? + 0.25;
        row.wrap(Kind::Body, at > 0);
        if at == 0 {
            match balloon {
                Some(balloon) => {
                    circle(&mut row, balloon)?;
                    row.height = row.height.max(CIRCLE + if lines.len() > 1 { -1.0 } else { 0.5 });
                }
                None => {
                    let at = Point::new(0.6, top + style.capital);
                    row.lead(Some((Kind::Label, None)), at, (Anchor::Left, STRONG), "•")?;
                }
            }
        }
        rows.push(row);
    }
    as_item(&mut rows);
    Ok(rows)
}

fn circle(row: &mut Block, balloon: Balloon) -> Result<(), Fault> {
    let (r, centre) = ((CIRCLE - STROKE) / 2.0, Point::new(CIRCLE / 2.0, CIRCLE / 2.0));
    row.polygon(round(centre, r), Fill::None, STROKE);
    let at = Point::new(centre.x, centre.y + DRAWN.capital / 2.0);
    let means = Some((Kind::Label, Some(balloon.sign())));
    row.lead(means, at, (Anchor::Centre, DRAWN), &balloon.number().to_string())
}
