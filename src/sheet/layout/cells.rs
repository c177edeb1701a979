//! The cells of a cut: spindle, feed and dial, of equal weight.

use super::block::{BODY, Block, FIGURE, STRONG, Style, plain};
use super::strip::on_one_line;
use crate::operations::Cut;
use crate::quantity::Print;
use crate::sheet::figures::{self, Run};
use crate::sheet::fonts::Fault;
use crate::sheet::page::{Anchor, Field, Fill, Kind, Point, Rect, Scope};
use crate::sheet::words;

/// Height of a cell, mm.
pub(super) const CELL: f64 = 13.6;
/// Frame of a cell, mm.
pub(super) const THIN: f64 = 0.25;
/// Between words of a figure, mm.
pub(super) const SPACE: f64 = 1.3;

/// Spindle and feed in their cells: beside each other, or upon each other at the left of a ladder.
pub(super) fn set_cells(
    block: &mut Block,
    cut: &Cut<String>,
    print: Print,
    width: f64,
    stacked: bool,
) -> Result<(), Fault> {
    let third = width / 3.0;
    block.open(Kind::Table);
    let spindle =
        cut.spindle.map_or_else(Vec::new, |step| figures::with_unit(figures::spindle(Some(step)), words::SPINDLE));
    cell(block, Rect::new(0.0, 0.3, third, 0.3 + CELL), words::SPINDLE_CELL, (&spindle, ""))?;
    let (feed, beside) = figures::feed_cell(cut.feed, print);
    let corner = if stacked { (0.0, 0.3 + CELL) } else { (third, 0.3) };
    let room = Rect::new(corner.0, corner.1, corner.0 + third, corner.1 + CELL);
    cell(block, room, words::FEED_CELL, (&feed, &beside))?;
    block.close();
    Ok(())
}

/// A blank to write a size in, of a name and a unit; where there is none, an empty cell.
pub(super) fn blank(block: &mut Block, kind: Kind, room: Rect, size: Option<(&str, &'static str)>) {
    blank_for(block, kind, room, size.map(|(name, unit)| (name, Field::Size(unit))));
}

/// The same for whatever is filled in.
pub(super) fn blank_for(block: &mut Block, kind: Kind, room: Rect, field: Option<(&str, Field)>) {
    block.open_as(kind, words::BLANK);
    if let Some((name, field)) = field {
        block.with_field(field, name);
    }
    block.rectangle(room, Fill::None, Some(THIN));
    block.close();
}

/// A cell, a row to whoever hears it: its caption, its figure large at the right, and what stands beneath.
pub(super) fn cell(
    block: &mut Block,
    room: Rect,
    caption: &str,
    (figure, beneath): (&[Run], &str),
) -> Result<(), Fault> {
    block.open(Kind::Row);
    block.open(Kind::HeadCell(Scope::Row));
    let caption = block.text(Point::new(room.left + 1.4, room.top + 4.4), Anchor::Left, BODY, caption)?;
    block.close();
    if figure.is_empty() && beneath.is_empty() {
        blank(block, Kind::Cell, room.grown(-THIN / 2.0), None);
        block.close();
        return Ok(());
    }
    block.rectangle(room.grown(-THIN / 2.0), Fill::None, Some(THIN));
    block.open(Kind::Cell);
    let beneath = plain(beneath);
    let base = if beneath.is_empty() { room.top + 10.4 } else { room.top + 8.8 };
    let wide = width_of(figure)?;
    if wide <= room.right - caption.right - 3.0 {
        set(block, figure, Point::new(room.right - 1.4 - wide, base))?;
    } else {
        // Longer than its cell: in words.
        let text = figure.iter().map(|run| run.text.as_str()).collect::<Vec<_>>().join(" ");
        let text = on_one_line(STRONG, &text, room.width() - 3.0)?;
        block.text(Point::new(room.left + 1.4, room.top + 8.6), Anchor::Left, STRONG, &text)?;
    }
    if !beneath.is_empty() {
        let beneath = on_one_line(BODY, &beneath, room.width() - 2.8)?;
        block.text(Point::new(room.right - 1.4, room.top + 12.4), Anchor::Right, BODY, &beneath)?;
    }
    block.close();
    block.close();
    Ok(())
}

fn style(run: &Run) -> Style {
    if run.large { FIGURE } else { BODY }
}

/// Width of a figure with the words about it, mm.
pub(super) fn width_of(runs: &[Run]) -> Result<f64, Fault> {
    let mut wide = 0.0;
    for run in runs {
        wide += style(run).width(&run.text)? + SPACE;
    }
    Ok(f64::max(wide - SPACE, 0.0))
}

/// Sets a figure with the words about it from the left end of its base line.
pub(super) fn set(block: &mut Block, runs: &[Run], at: Point) -> Result<(), Fault> {
    let mut x = at.x;
    for run in runs {
        x = block.text(Point::new(x, at.y), Anchor::Left, style(run), &run.text)?.right + SPACE;
    }
    Ok(())
}
