//! Rows that go on overleaf, and the line that says so.

use super::block::{BODY, Block, STRONG};
use super::flow;
use crate::sheet::fonts::Fault;
use crate::sheet::page::{Anchor, Point};
use crate::sheet::words;

/// Height of the line, mm.
const LINE: f64 = 4.6;
/// Its base line, mm.
const BASE: f64 = 0.4 + BODY.capital;

/// Rows that are higher than a zone parted into what stands there and what goes on, all in its order: what is set stands with the
/// words of its step, and never before a step that comes first.
pub(super) fn parted(rows: Vec<Block>, high: f64) -> Result<(Vec<Block>, Vec<Block>), Fault> {
    let (mut here, later) = flow::parted(rows, high - LINE, false);
    let mut line = Block::new(LINE);
    line.text(Point::new(0.0, BASE), Anchor::Left, STRONG, words::GOES_ON)?;
    here.push(line);
    Ok((here, later))
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
