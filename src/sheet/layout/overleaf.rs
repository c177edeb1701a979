//! Rows that go on elsewhere, and the line that says so: under what is measured where the page leaves the room, else overleaf.

use super::block::{BODY, Block, STRONG};
use super::flow::{self, Section};
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
/// words of its step, and never before a step that comes first.
pub(super) fn parted(rows: Vec<Block>, high: f64) -> Result<(Vec<Block>, Vec<Block>), Fault> {
    let (mut here, later) = flow::parted(rows, high - LINE, false);
    here.push(said(words::GOES_ON)?);
    Ok((here, later))
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
        let mut note = Block::new(0.0);
        note.text(Point::new(zones.cuts.width() / 2.0, BASE), Anchor::Centre, STRONG, words::GOES_ON_UNDER)?;
        note.wrap(Kind::P, false);
        bar.set(note, 0.0, 0.0);
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
        let rows = [(9.0, false), (9.0, false), (9.0, true), (14.0, false), (5.0, false)].map(row);
        let (here, later) = parted(rows.to_vec(), 40.0).unwrap();
        assert_eq!((heights(&here), heights(&later)), (vec![9.0, 9.0, LINE], vec![9.0, 14.0, 5.0]));
    }
}
