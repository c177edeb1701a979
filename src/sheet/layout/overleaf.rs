//! Rows that go on elsewhere, and the line that says so: under what is measured where the page leaves the room, else overleaf.

use super::block::{BODY, Block, STRONG};
use super::cells::CELL;
use super::flow::{self, Section};
use super::under::FEWEST;
use super::zones::Zones;
use crate::sheet::fonts::Fault;
use crate::sheet::page::{Anchor, Kind, Point, Rect};
use crate::sheet::words;

/// Between what shares a zone that was another's, mm.
pub(super) const CLOSE: f64 = 0.3;
/// Height of the line, mm.
const LINE: f64 = 4.6;
/// Its base line, mm.
const BASE: f64 = 0.4 + BODY.capital;

/// Rows that are higher than a zone parted into what stands there and what goes on, all in its order: what is set stands with the
/// words of its step, and never before a step that comes first. And whether the line that says so has its place in the bar: where
/// a cut with what is set has room there without it, and enough goes on all the same.
pub(super) fn parted(rows: Vec<Block>, high: f64, bar_has_room: bool) -> Result<(Vec<Block>, Vec<Block>, bool), Fault> {
    let (here, later) = flow::parted(rows.clone(), high, false);
    let (mut under_line, behind) = flow::parted(rows, high - LINE, false);
    let sets_more = self::high(&here) >= self::high(&under_line) + CELL;
    if bar_has_room && sets_more && later.len() >= FEWEST {
        return Ok((here, later, true));
    }
    under_line.push(said(words::GOES_ON)?);
    Ok((under_line, behind, false))
}

/// Says in the middle of a bar where its rows go on.
pub(super) fn note(bar: &mut Block, width: f64, text: &str) -> Result<(), Fault> {
    let mut note = Block::new(0.0);
    // Clear of the heading at its left and of the time at its right.
    note.text(Point::new(0.36 * width, BASE), Anchor::Centre, STRONG, text)?;
    note.wrap(Kind::P, false);
    bar.set(note, 0.0, 0.0);
    Ok(())
}

fn said(text: &str) -> Result<Block, Fault> {
    let mut line = Block::new(LINE);
    line.text(Point::new(0.0, BASE), Anchor::Left, STRONG, text)?;
    Ok(line)
}

/// Steps that are higher than their zone: those that stand there, and the others, which stand under what is measured.
pub(super) struct Beneath {
    /// In the zone of the steps.
    pub here: Section,
    /// Under what is measured.
    pub there: Section,
    /// Where that is.
    pub zone: Rect,
}

impl Beneath {
    /// Whether steps that belong together stand there, as a reading and the cut that it ends do.
    pub(super) fn cuts(&self) -> bool {
        self.there.rows.iter().any(|row| row.keep)
    }
}

/// The last steps under what is measured, as far down as that is; nothing where all steps stand in their zone, where none does, and
/// where what is measured is itself higher than its zone.
pub(super) fn beneath(steps: &Section, measured: &Section, zones: &Zones) -> Result<Option<Beneath>, Fault> {
    let Some((bar, again)) = &steps.bar else { return Ok(None) };
    let room = zones.cuts.height() - bar.height;
    let ends = end_of(measured, zones);
    let (mut now, later) = flow::parted(steps.rows.clone(), room, false);
    if later.is_empty() || now.is_empty() || ends > zones.measure.bottom {
        return Ok(None);
    }
    let mut bar = bar.clone();
    if high(&now) + LINE <= room {
        now.push(said(words::GOES_ON_UNDER)?);
    } else {
        note(&mut bar, zones.cuts.width(), words::GOES_ON_UNDER)?;
    }
    let top = ends + CLOSE;
    let zone = Rect::new(zones.cuts.left, top, zones.cuts.right, top + again.height + high(&later));
    let section = |bar: Block, rows| Section { name: steps.name, bar: Some((bar, again.clone())), rows };
    Ok(Some(Beneath { here: section(bar, now), there: section(again.clone(), later), zone }))
}

/// Where what is measured ends, mm from the top of the page.
pub(super) fn end_of(measured: &Section, zones: &Zones) -> f64 {
    zones.measure.top + measured.bar.as_ref().map_or(0.0, |bar| bar.0.height) + high(&measured.rows)
}

fn high(rows: &[Block]) -> f64 {
    rows.iter().map(|row| row.height).sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn heights(rows: &[Block]) -> Vec<f64> {
        rows.iter().map(|row| row.height).collect()
    }

    #[test]
    fn what_is_set_goes_on_with_its_words() {
        let row = |(high, keep): (f64, bool)| {
            let mut block = Block::new(high);
            block.keep = keep;
            block
        };
        let rows =
            [(9.0, false), (9.0, false), (9.0, true), (14.0, false), (5.0, false), (5.0, false), (5.0, false)].map(row);
        let (here, later, _) = parted(rows.to_vec(), 40.0, true).unwrap();
        assert_eq!((heights(&here), heights(&later)), (vec![9.0, 9.0, LINE], vec![9.0, 14.0, 5.0, 5.0, 5.0]));
        // Rather what is set than the line under it, which then stands in the bar.
        let (here, later, in_bar) = parted(rows.to_vec(), 42.0, true).unwrap();
        assert_eq!((heights(&here), heights(&later), in_bar), (vec![9.0, 9.0, 9.0, 14.0], vec![5.0, 5.0, 5.0], true));
    }
}
