//! Links of a gap on the paper: a row each, its share of the doubt as a bar, the dearest first; under them the gap against its limits.

use super::{Fault, Point, Rect, bars};
use crate::drawing::Links;
use crate::sheet::fonts::{self, Font};
use crate::sheet::page::{Anchor, AreaId, Dash, Fill, Page, Role, Text};

/// Height of the capitals, from line to line, and what a row has more than its lines, mm.
const CAPITAL: f64 = 3.0;
const LINE: f64 = 4.4;
const MORE: f64 = 1.0;
/// Most of the width that the names take.
const NAMES: f64 = 0.4;
/// Between two columns, mm.
const BETWEEN: f64 = 3.0;
/// Height of a bar, mm.
const BAR: f64 = 3.2;
/// Least width of the whole doubt, mm.
const LEAST: f64 = 20.0;
/// By how much letters of the gap's scale may stand out of it, mm.
const BELOW: f64 = 0.8;
/// Between the links and the gap, mm.
const ABOVE_GAP: f64 = 3.0;
/// Lines, mm: outline, thin; grey of a bar, hundredths of black.
const OUTLINE: f64 = 0.5;
const THIN: f64 = 0.25;
const GREY: u8 = 12;

/// What was drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct LinksDrawn {
    /// How wide the whole doubt is, mm of paper.
    pub whole: f64,
    /// Where the bars of the shares begin.
    pub from: f64,
    /// Scale of the gap, mm of paper for each micrometre, which it prints itself.
    pub scale: f64,
    /// What it covers.
    pub bounds: Rect,
}

/// Draws the links of a gap into a room (mm of paper) of a page, from its upper left corner.
///
/// # Errors
/// [`Fault`], and then nothing is drawn.
pub fn links(page: &mut Page, area: AreaId, room: Rect, links: &Links) -> Result<LinksDrawn, Fault> {
    let no_room = Fault::NoRoom { width: room.width(), height: room.height() };
    let widest = |texts: &mut dyn Iterator<Item = &String>| -> Result<f64, Fault> {
        let mut wide = 0.0_f64;
        for text in texts {
            wide = wide.max(fonts::width(Font::Sans, CAPITAL, text)?);
        }
        Ok(wide)
    };
    let [names, sizes, shares] = &links.captions;
    let most = room.width() * NAMES;
    let named = widest(&mut links.rows.iter().map(|row| &row.name).chain([names]))?.min(most);
    let sized = widest(&mut links.rows.iter().map(|row| &row.size).chain([sizes]))?;
    let said = widest(&mut links.rows.iter().map(|row| &row.says))?;
    let at_size = room.left + named + BETWEEN;
    let from = at_size + sized + BETWEEN;
    let whole = room.right - from - said - BETWEEN;
    let captioned = from + fonts::width(Font::Bold, CAPITAL, shares)?;
    if whole < LEAST || captioned > room.right || links.rows.iter().any(|row| !(0.0..=1.0).contains(&row.share)) {
        return Err(no_room);
    }
    let wrapped = |text: &String| fonts::wrap(Font::Sans, CAPITAL, text, named);
    let lines = links.rows.iter().map(|row| wrapped(&row.name)).collect::<Result<Vec<_>, _>>()?;
    let high = |lines: &Vec<String>| lines.len().max(1) as f64 * LINE + MORE;
    let under = room.top + LINE + MORE + lines.iter().map(high).sum::<f64>() + ABOVE_GAP;
    // Where the gap has no room nothing is drawn, so that it is drawn first.
    let gap = bars(page, area, Rect::new(room.left, under, room.right, room.bottom - BELOW), &links.closing)?;
    let say = |page: &mut Page, x: f64, top: f64, font, text: &str| {
        let at = Point::new(x, top + f64::midpoint(LINE, CAPITAL));
        page.text(area, at, Anchor::Left, Text::new(font, Role::Body, CAPITAL, text)).map(|_| ())
    };
    for (x, caption) in [(room.left, names), (at_size, sizes), (from, shares)] {
        say(page, x, room.top, Font::Bold, caption)?;
    }
    let mut top = room.top + LINE + MORE;
    for (row, lines) in links.rows.iter().zip(&lines) {
        for (n, line) in lines.iter().enumerate() {
            say(page, room.left, top + n as f64 * LINE, Font::Sans, line)?;
        }
        say(page, at_size, top, Font::Sans, &row.size)?;
        let middle = top + LINE / 2.0 + 0.3;
        let end = from + whole * row.share;
        if row.share > 0.0 {
            let bar = Rect::new(from, middle - BAR / 2.0, end, middle + BAR / 2.0);
            page.rectangle(area, bar, Fill::Grey(GREY), Some(OUTLINE));
        }
        say(page, end + BETWEEN / 2.0, top, Font::Sans, &row.says)?;
        top += high(lines);
    }
    // The whole doubt, by which the bars are measured.
    let edge = Point::new(from, room.top + LINE + MORE / 2.0);
    page.line(area, vec![edge, Point::new(from, top)], THIN, Dash::Whole);
    let bounds = Rect::new(room.left, room.top, room.right, gap.bounds.bottom + BELOW);
    Ok(LinksDrawn { whole, from, scale: gap.scale, bounds })
}
