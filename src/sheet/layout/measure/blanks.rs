//! The blanks of a size: beside each other as wide as may be, in as few rows as hold them.

use super::super::block::{Block, STRONG, as_one};
use super::super::cells;
use super::super::lists::chunks;
use super::size::Size;
use crate::sheet::fonts::Fault;
use crate::sheet::page::{Field, Kind, Rect, Scope};
use crate::sheet::words;

/// Width and height of the first blank, mm.
pub(super) const FIRST_BLANK: (f64, f64) = (22.0, 9.0);
/// Its least width, where all of several readings stand in one row, mm.
pub(super) const NARROW_BLANK: f64 = 14.0;
/// The least width of the blanks of a further size, where several readings of several sizes stand in one zone, mm.
pub(super) const NARROWEST_BLANK: f64 = 12.0;
/// Between the blanks of several readings, mm.
pub(in super::super) const BETWEEN: f64 = 0.6;
/// Width and height of a further blank, mm.
pub(super) const BLANK: (f64, f64) = (22.0, 8.0);
/// Between columns, mm.
pub(super) const GUTTER: f64 = 2.5;

/// Width of so many blanks beside each other, each so wide, mm.
pub(in super::super) fn in_a_row(count: usize, wide: f64) -> f64 {
    count as f64 * (wide + BETWEEN) - BETWEEN
}

/// How wide so many blanks are and how many stand in a row of some room: in as few rows as hold the narrowest, shared out
/// alike, as wide as may be.
pub(super) fn in_rows(all: usize, room: f64) -> (f64, usize) {
    let most = (1..=all).rev().find(|count| in_a_row(*count, NARROW_BLANK) <= room + 1e-9).unwrap_or(1);
    let in_one = all.div_ceil(all.div_ceil(most));
    let wide = (room + BETWEEN) / in_one as f64 - BETWEEN;
    (wide.clamp(NARROW_BLANK, FIRST_BLANK.0), in_one)
}

/// The blanks of a size, so wide and so many in a line, up to the right end `right` and from `top` down; gives back where they
/// end.
pub(super) fn blanks(block: &mut Block, (right, top): (f64, f64), size: &Size, (wide, in_one): (f64, usize)) -> f64 {
    let (mut left_over, mut y) = (size.readings, top);
    while left_over > 0 {
        let here = left_over.min(in_one.max(1));
        for at in (1..=here).rev() {
            let left = right - in_a_row(at, wide);
            blank(block, Rect::new(left, y, left + wide, y + FIRST_BLANK.1), size);
        }
        left_over -= here;
        y += FIRST_BLANK.1 + BETWEEN;
    }
    y - BETWEEN
}

pub(super) fn blank(block: &mut Block, room: Rect, size: &Size) {
    let field = size.log.map_or(Field::Size(size.unit), |left| Field::Left(size.unit, left));
    cells::blank_for(block, Kind::Cell, room.grown(-0.125), Some((&size.label, field)));
}

/// A size that is too long for its place: its words broken over the width.
pub(super) fn in_lines(size: &Size, width: f64) -> Result<Vec<Block>, Fault> {
    let room = width - BLANK.0 - GUTTER;
    let mut text = size.name();
    let mut target = size.target.iter().map(|run| run.text.clone()).collect::<Vec<_>>();
    target.extend((!size.other.is_empty()).then(|| size.other.clone()));
    if !size.target.is_empty() {
        text = format!("{text}; {} {}", words::TARGET, target.join(" "));
    }
    let mut rows = chunks(&STRONG.wrap(&text, room)?, 0.0, 0.6, STRONG)?;
    if rows.is_empty() {
        rows.push(Block::new(0.0));
    }
    as_one(&mut rows, Kind::HeadCell(Scope::Row));
    if let Some(first) = rows.first_mut().filter(|_| size.readings == 1) {
        blank(first, Rect::new(width - BLANK.0, 0.6, width, 0.6 + BLANK.1), size);
        first.height = first.height.max(BLANK.1 + 1.2);
    } else {
        let mut under = Block::new(0.0);
        under.height = blanks(&mut under, (width, 0.2), size, in_rows(size.readings, width)) + 0.4;
        rows.push(under);
    }
    as_one(&mut rows, Kind::Row);
    Ok(rows)
}

#[cfg(test)]
mod tests {
    use super::{BETWEEN, FIRST_BLANK, NARROW_BLANK, in_a_row, in_rows};

    /// Twelve readings beside a long figure stand in two rows of six, not in three of five and two: as few rows as may be, and the
    /// blanks as wide as those leave.
    #[test]
    fn blanks_stand_in_as_few_rows_as_hold_them() {
        assert_eq!(in_rows(12, 120.0).1, 6);
        assert_eq!(in_rows(4, 200.0), (FIRST_BLANK.0, 4));
        for all in 1..=40 {
            for room in [5.0, 14.0, 60.0, 120.0, 186.0] {
                let (wide, in_one) = in_rows(all, room);
                assert!((NARROW_BLANK..=FIRST_BLANK.0).contains(&wide) && (1..=all).contains(&in_one), "{all} {room}");
                assert!(in_one == 1 || in_a_row(in_one, wide) <= room + 1e-6, "{all} {room}");
                let fewer = all.div_ceil(in_one) - 1;
                let fits = fewer > 0 && in_a_row(all.div_ceil(fewer), NARROW_BLANK) <= room - BETWEEN;
                assert!(!fits, "{all} blanks in {room} mm would stand in {fewer} rows");
            }
        }
    }
}
