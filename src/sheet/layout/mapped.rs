//! Blanks for a face that is read at many places: each stands as its place lies in the picture of the face, so that nobody counts.

use super::Sheet;
use super::block::{BODY, Block, STRONG};
use super::cells;
use crate::operations::Picture;
use crate::sheet::fonts::Fault;
use crate::sheet::page::{Anchor, Kind, Point, Rect};
use crate::sheet::{pictures, words};

/// Widths and heights of a blank, the largest first, mm.
const BLANKS: [(f64, f64); 4] = [(22.0, 8.0), (18.0, 8.0), (14.0, 8.0), (14.0, 7.0)];
/// Between two blanks, mm.
const BETWEEN: f64 = 1.0;
/// Height of the line over them, mm.
const CAPTION: f64 = 5.2;

/// The blanks of a set-up whose sketch is such a face, in a room so wide and high; nothing where they would stand upon each other.
pub(super) fn blanks(sheet: &Sheet, (width, high): (f64, f64)) -> Result<Option<Block>, Fault> {
    let here = sheet.set_up.map_or("", |set_up| set_up.id);
    let face = match &sheet.planned.answer.picture {
        Some(Picture::Spots(face)) if face.set_ups.contains(&here) => pictures::spots(face, sheet.plan.print),
        _ => None,
    };
    let Some(face) = face else { return Ok(None) };
    let places: Vec<Point> = face.places.iter().map(|place| Point::new(place.x, place.y)).collect();
    let Some(corners) = BLANKS.into_iter().find_map(|size| set_out(&places, size, (width, high - CAPTION))) else {
        return Ok(None);
    };
    let mut block = Block::new(0.0);
    block.text(Point::new(0.0, BODY.capital + 0.8), Anchor::Left, STRONG, words::READ_AT_PLACES)?;
    for (room, place) in corners.iter().zip(1..) {
        let room = Rect::new(room.left, room.top + CAPTION, room.right, room.bottom + CAPTION);
        let size = (words::place_named(place), words::unit_of_sizes(sheet.plan.print));
        cells::blank(&mut block, Kind::Span, room.grown(-cells::THIN / 2.0), Some((&size.0, size.1)));
        block.height = block.height.max(room.bottom + 0.4);
    }
    block.wrap(Kind::P, false);
    Ok(Some(block))
}

/// A blank of a size for each place, all spread over a room; nothing where two of them meet.
fn set_out(places: &[Point], (wide, tall): (f64, f64), (width, high): (f64, f64)) -> Option<Vec<Rect>> {
    let whole = Rect::about(places)?;
    if width < wide || high < tall {
        return None;
    }
    let along = |at: f64, from: f64, over: f64, room: f64| if over > 0.0 { (at - from) / over * room } else { 0.0 };
    let corner = |place: &Point| {
        let left = along(place.x, whole.left, whole.width(), width - wide);
        let top = along(place.y, whole.top, whole.height(), high - tall);
        Rect::new(left, top, left + wide, top + tall)
    };
    let all: Vec<Rect> = places.iter().map(corner).collect();
    let meet = |(at, one): (usize, &Rect)| {
        all.iter()
            .skip(at + 1)
            .any(|other| one.grown(BETWEEN / 2.0 - 1e-6).overlaps(&other.grown(BETWEEN / 2.0 - 1e-6)))
    };
    (!all.iter().enumerate().any(meet)).then_some(all)
}

#[cfg(test)]
mod tests {
    use super::{BLANKS, Point, set_out};

    #[test]
    fn blanks_lie_as_their_places_do_and_never_meet() {
        let places: Vec<Point> =
            (0..12).map(|at| Point::new(f64::from(at % 4) * 55.0, f64::from(at / 4) * 37.0)).collect();
        let all = set_out(&places, BLANKS[0], (186.0, 40.0)).unwrap();
        assert!(all[0].left == 0.0 && (all[3].right - 186.0).abs() < 1e-9 && (all[8].bottom - 40.0).abs() < 1e-9);
        assert!(all[1].top == all[0].top && all[4].top > all[0].bottom);
        assert!(set_out(&places, BLANKS[0], (186.0, 20.0)).is_none(), "three rows in two");
        assert!(set_out(&places, BLANKS[0], (80.0, 40.0)).is_none(), "four columns in three");
    }
}
