//! All lengths side by side in one wall.

use super::case::Case;
use super::keys::HoleKind;
use super::names::{DEPTH_TO_POINT, DRILL_DIAMETER, DRILLED_DEPTH, FITTED, FULL_THREAD, MAJOR_MIN, SET_DOWN, WALL};
use super::sketch::COIL_IN_PITCHES;
use crate::handbook::InsertLength;
use crate::operations::{Bench, Lengths, Picture};
use crate::proof::Worked;

impl Case<'_> {
    /// The lengths that were worked, as a picture.
    pub(super) fn ladder(&self, bench: &Bench, lengths: &[InsertLength]) -> Picture {
        let count = |shop: &crate::shop::Shop| {
            lengths.iter().map(|length| shop.drawers.inserts_of(self.asked.thread.value, *length)).collect()
        };
        let blind = self.asked.hole.value == HoleKind::Blind;
        let old = self.present_hole.as_ref().map(Worked::number);
        Picture::Lengths(Box::new(Lengths {
            wall: WALL.key,
            hole: DRILL_DIAMETER.key,
            roots: MAJOR_MIN.key,
            coil: self.hole.drill.number() - 2.0 * COIL_IN_PITCHES * self.pitch.number(),
            depth: DRILLED_DEPTH.key,
            tip: DEPTH_TO_POINT.key,
            thread: FULL_THREAD.key,
            set_down: SET_DOWN.key,
            fitted: FITTED.key,
            check: if blind { "break-through" } else { "wall-for-insert" },
            old: old.zip(self.present_depth.as_ref().map(Worked::number)),
            in_drawer: bench.shop.map_or_else(Vec::new, count),
        }))
    }
}
