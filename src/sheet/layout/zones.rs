//! The zones of a sheet: each thing always in the same place.

use crate::sheet::page::{Paper, Rect};

/// Between zones, mm.
pub(super) const GAP: f64 = 1.0;
/// Base line of the stamp's word, mm from the upper edge of the paper.
pub(super) const STAMP_BASE: f64 = 39.2;
/// Base line of the first target, mm from the top of its zone.
pub(super) const TARGET_BASE: f64 = 17.6;

/// The zones of one paper, mm.
#[derive(Clone, Copy, Debug)]
pub(super) struct Zones {
    /// S1: the part.
    pub part: Rect,
    /// S2: number of the sheet, page, day.
    pub id: Rect,
    /// S3: operation and machine.
    pub operation: Rect,
    /// S4: the verdict.
    pub stamp: Rect,
    /// S5: one line of facts, with the gap above it for tall letters.
    pub facts: Rect,
    /// K: the sketch.
    pub sketch: Rect,
    /// B: what stands beside it.
    pub beside: Rect,
    /// C: the steps.
    pub cuts: Rect,
    /// M: what is measured.
    pub measure: Rect,
    /// V from its top down, F from its bottom up.
    pub verdict: Rect,
}

impl Zones {
    /// The zones of a paper.
    pub(super) const fn of(paper: Paper) -> Self {
        match paper {
            Paper::A4 => Self {
                part: Rect::new(12.0, 12.0, 91.0, 25.0),
                id: Rect::new(119.0, 12.0, 198.0, 25.0),
                operation: Rect::new(12.0, 26.0, 100.0, 48.0),
                stamp: Rect::new(102.0, 26.0, 198.0, 48.0),
                facts: Rect::new(12.0, 48.0, 198.0, 54.0),
                sketch: Rect::new(12.0, 55.0, 134.0, 125.0),
                beside: Rect::new(136.0, 55.0, 198.0, 125.0),
                cuts: Rect::new(12.0, 126.0, 198.0, 203.0),
                measure: Rect::new(12.0, 204.0, 198.0, 237.0),
                verdict: Rect::new(12.0, 238.0, 198.0, 285.0),
            },
            Paper::Letter => Self {
                part: Rect::new(12.0, 12.0, 94.0, 25.0),
                id: Rect::new(122.0, 12.0, 203.9, 25.0),
                operation: Rect::new(12.0, 26.0, 105.9, 48.0),
                stamp: Rect::new(107.9, 26.0, 203.9, 48.0),
                facts: Rect::new(12.0, 48.0, 203.9, 54.0),
                sketch: Rect::new(12.0, 55.0, 138.0, 115.0),
                beside: Rect::new(140.0, 55.0, 203.9, 115.0),
                cuts: Rect::new(12.0, 116.0, 203.9, 187.0),
                measure: Rect::new(12.0, 188.0, 203.9, 221.0),
                verdict: Rect::new(12.0, 222.0, 203.9, 267.4),
            },
        }
    }

    /// Cuts and measures as one: where nothing may be cut.
    pub(super) const fn ways_out(&self) -> Rect {
        Rect::new(self.cuts.left, self.cuts.top, self.cuts.right, self.measure.bottom)
    }

    /// Height of the strip below the margin, mm.
    pub(super) const fn strip(&self) -> f64 {
        self.facts.bottom - self.part.top
    }
}
