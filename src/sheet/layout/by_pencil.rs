//! Where nothing typed gives the shape of a part: room to draw it in pencil, so that what is done at its edges and places can be
//! numbered at the bench.

use super::cells::THIN;
use crate::quantity::Print;
use crate::sheet::page::{AreaId, Dash, Fill, Page, Point, Rect};

/// From the words over it to the frame, mm.
const UNDER_WORDS: f64 = 1.0;
/// A tick of the frame, mm.
const TICK: f64 = 1.5;
/// Less high a frame is no room to draw in, mm.
const LEAST: f64 = 20.0;

/// From tick to tick, mm.
const fn pitch(print: Print) -> f64 {
    match print {
        Print::Imperial => 12.7,
        _ => 10.0,
    }
}

/// A frame with a tick each centimetre, or each half inch, along its left and its foot; `under` is where the words over it end, mm.
pub(super) fn frame(page: &mut Page, area: AreaId, (zone, under): (Rect, f64), print: Print) {
    let room = Rect::new(zone.left, under + UNDER_WORDS, zone.right, zone.bottom).grown(-THIN / 2.0);
    if room.height() < LEAST {
        return;
    }
    let corner = Point::new;
    let corners = [
        corner(room.left, room.top),
        corner(room.right, room.top),
        corner(room.right, room.bottom),
        corner(room.left, room.bottom),
    ];
    page.polygon(area, corners.into(), Fill::None, Some(THIN));
    let ticks = |long: f64| (1..).map(|nth| f64::from(nth) * pitch(print)).take_while(move |at| at + TICK < long);
    for at in ticks(room.width()) {
        let x = room.left + at;
        page.line(area, vec![corner(x, room.bottom), corner(x, room.bottom - TICK)], THIN, Dash::Whole);
    }
    for at in ticks(room.height()) {
        let y = room.bottom - at;
        page.line(area, vec![corner(room.left, y), corner(room.left + TICK, y)], THIN, Dash::Whole);
    }
}
