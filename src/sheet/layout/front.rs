//! What is set stands on the front: where the steps go on overleaf, the cells of those that cut there stand at the end of the
//! zone all the same, each under the number of its step.

use std::ops::Range;

use super::block::{BODY, Block, STRONG};
use super::flow::fitting;
use super::lists::NUMBER;
use crate::sheet::fonts::Fault;
use crate::sheet::page::{Anchor, Point};
use crate::sheet::words;

/// Height of a line that says where something stands, mm.
const LINE: f64 = 4.6;
/// Its base line, mm.
const BASE: f64 = 0.4 + BODY.capital;

/// The rows in which one step is set, with those that they must stay with.
struct Set {
    step: usize,
    rows: Range<usize>,
    high: f64,
}

fn sets(rows: &[Block]) -> impl Iterator<Item = Set> {
    rows.iter().enumerate().filter_map(|(first, row)| {
        let step = row.sets?;
        let kept = rows.iter().skip(first).take_while(|row| row.keep).count();
        let rows = first..rows.len().min(first + kept + 1);
        Some(Set { step, rows, high: 0.0 })
    })
}

/// Rows that are higher than a zone parted into what stands there, with all that is set, and what goes on.
pub(super) fn parted(mut rows: Vec<Block>, high: f64) -> Result<(Vec<Block>, Vec<Block>), Fault> {
    let room = high - LINE;
    let mut all: Vec<Set> = sets(&rows).collect();
    for set in &mut all {
        set.high = rows.get(set.rows.clone()).unwrap_or_default().iter().map(|row| row.height).sum();
    }
    // A line names the first of them and says that the steps go on, one each of the others.
    let taken = |set: &Range<usize>| {
        let high: f64 = all.iter().take(set.end).skip(set.start).map(|set| set.high).sum();
        high + set.len().saturating_sub(1) as f64 * LINE
    };
    // As many are set here as there is room for; with each there is less room for steps, and one more may go on.
    let first_of = |here: usize, count: usize| all.partition_point(|set| set.rows.start < here).min(count);
    let settled = |count: usize| {
        let mut here = fitting(&rows, room, false);
        loop {
            let set = first_of(here, count)..count;
            let left = room - taken(&set);
            let fits = fitting(&rows, left, false).min(here);
            if left < 0.0 || fits == here {
                return (left >= 0.0).then_some((here, set));
            }
            here = fits;
        }
    };
    let (here, overleaf) = (0..=all.len()).rev().find_map(settled).unwrap_or((0, 0..0));
    let later = rows.split_off(here);
    let set: Vec<Set> = all.drain(overleaf).collect();
    let steps: Vec<usize> = set.iter().map(|set| set.step).collect();
    rows.push(line(0.0, &words::goes_on(steps.first().copied()))?);
    let mut left = Vec::new();
    let mut from = here;
    let mut later = later.into_iter();
    for (at, one) in set.into_iter().enumerate() {
        left.extend(later.by_ref().take(one.rows.start - from));
        left.push(line(NUMBER, &words::set_on_front(one.step))?);
        if at > 0 {
            rows.push(line(0.0, &words::set_for(one.step))?);
        }
        rows.extend(later.by_ref().take(one.rows.len()));
        from = one.rows.end;
    }
    left.extend(later);
    Ok((rows, left))
}

fn line(x: f64, text: &str) -> Result<Block, Fault> {
    let mut line = Block::new(LINE);
    line.text(Point::new(x, BASE), Anchor::Left, STRONG, text)?;
    Ok(line)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rows(of: &[(f64, bool, Option<usize>)]) -> Vec<Block> {
        let row = |(high, keep, sets): &(f64, bool, Option<usize>)| {
            let mut block = Block::new(*high);
            (block.keep, block.sets) = (*keep, *sets);
            block
        };
        of.iter().map(row).collect()
    }

    fn heights(rows: &[Block]) -> Vec<f64> {
        rows.iter().map(|row| row.height).collect()
    }

    #[test]
    fn what_is_set_overleaf_stands_at_the_end_of_the_front() {
        let all = rows(&[
            (9.0, false, None),
            (9.0, false, None),
            (9.0, true, None),
            (14.0, false, Some(3)),
            (5.0, false, None),
        ]);
        let (here, later) = parted(all, 30.0).unwrap();
        assert_eq!(heights(&here), [9.0, LINE, 14.0]);
        assert_eq!(heights(&later), [9.0, 9.0, LINE, 5.0]);
    }

    #[test]
    fn what_is_set_stays_with_what_it_must_and_no_row_is_lost() {
        let all = rows(&[
            (9.0, false, None),
            (14.0, true, Some(2)),
            (6.0, false, None),
            (13.0, false, None),
            (14.0, false, Some(4)),
            (50.0, false, Some(5)),
        ]);
        let (here, later) = parted(all, 60.0).unwrap();
        assert_eq!(heights(&here), [9.0, 14.0, 6.0, LINE, 14.0]);
        assert_eq!(heights(&later), [13.0, LINE, 50.0], "the last has no room beside the others");
    }

    #[test]
    fn rows_that_set_nothing_are_parted_as_they_come() {
        let (here, later) = parted(rows(&[(9.0, false, None); 4]), 25.0).unwrap();
        assert_eq!((heights(&here), heights(&later)), (vec![9.0, 9.0, LINE], vec![9.0, 9.0]));
    }
}
