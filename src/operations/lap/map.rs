//! The face as a picture from above: how high each place stands that was read, and which touch the two planes.

use super::flat::Flat;
use super::places::Read;
use crate::operations::{HighSpot, HighSpots, Picture};

/// The set-ups that look at it.
pub(super) const MAP_IT: &str = "map-it";
pub(super) const LAP_IT: &str = "lap-it";

/// Draws it.
pub(super) fn picture(reads: &[Read], flat: &Flat, on_grid: bool) -> Picture {
    let touches = |read: &Read| {
        let same = |(x, y, _): &&(f64, f64, bool)| (*x, *y) == (read.x, read.y);
        flat.contacts.iter().find(same).map(|(_, _, upper)| *upper)
    };
    let spot =
        |(read, height): (&Read, &f64)| HighSpot { x: read.x, y: read.y, height: *height, touches: touches(read) };
    Picture::Spots(Box::new(HighSpots {
        set_ups: &[MAP_IT, LAP_IT],
        on_grid,
        places: reads.iter().zip(&flat.heights).map(spot).collect(),
    }))
}
