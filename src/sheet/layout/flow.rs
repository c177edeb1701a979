//! Flow: sections down the page; what does not fit goes on to a continuation page.

use super::block::Block;
use super::zones::GAP;
use crate::sheet::check::MARGIN;
use crate::sheet::page::{Kind, Page, Paper, Rect};

/// Margin of the layout, mm.
pub(super) const EDGE: f64 = MARGIN;

/// Width between the margins, mm.
pub(super) fn inner(paper: Paper) -> f64 {
    paper.size().0 - 2.0 * EDGE
}

/// A part of a sheet: a bar with its heading, and rows that stay whole.
#[derive(Clone, Debug)]
pub(super) struct Section {
    /// As a fault names it.
    pub name: &'static str,
    /// Its bar, and the bar where it goes on.
    pub bar: Option<(Block, Block)>,
    /// Its rows.
    pub rows: Vec<Block>,
}

/// A row that is higher than a whole page.
#[derive(Debug)]
pub(super) struct TooHigh(pub &'static str);

/// Pages in the making, the title strip still to be put on each.
pub(super) struct Flow {
    paper: Paper,
    strip: f64,
    y: f64,
    fresh: bool,
    pub pages: Vec<Page>,
}

impl Flow {
    /// An empty sheet whose title strip is `strip` mm high.
    pub(super) fn new(paper: Paper, strip: f64) -> Self {
        let mut flow = Self { paper, strip, y: 0.0, fresh: true, pages: Vec::new() };
        flow.turn();
        flow
    }

    /// Begins the next page.
    pub(super) fn turn(&mut self) {
        self.pages.push(Page::new(self.paper));
        self.y = EDGE + self.strip;
        self.fresh = true;
    }

    fn floor(&self) -> f64 {
        self.paper.size().1 - EDGE
    }

    /// Puts a section on the page, going on to further ones.
    pub(super) fn put(&mut self, section: &Section) -> Result<(), TooHigh> {
        let mut rows = section.rows.clone();
        let mut bar = section.bar.as_ref().map(|bars| &bars.0);
        while !rows.is_empty() {
            let top = self.y + GAP;
            let head = bar.map_or(0.0, |bar| bar.height);
            let (now, later) = parted(rows, self.floor() - top - head, self.fresh);
            if now.is_empty() {
                if self.fresh {
                    return Err(TooHigh(section.name));
                }
                self.turn();
                rows = later;
                continue;
            }
            self.place(section.name, bar, &now, top);
            rows = later;
            bar = section.bar.as_ref().map(|bars| &bars.1);
            if !rows.is_empty() {
                self.turn();
            }
        }
        Ok(())
    }

    fn place(&mut self, name: &'static str, bar: Option<&Block>, rows: &[Block], top: f64) {
        let height = bar.into_iter().chain(rows).map(|block| block.height).sum::<f64>();
        let right = self.paper.size().0 - EDGE;
        if let Some(page) = self.pages.last_mut() {
            let area = page.area(name, Rect::new(EDGE, top, right, top + height));
            let mut y = top;
            let bar = bar.into_iter().map(|bar| (bar, Kind::H2));
            for (block, kind) in bar.chain(rows.iter().map(|row| (row, Kind::P))) {
                block.clone().onto(page, area, (EDGE, y), kind);
                y += block.height;
            }
        }
        self.y = top + height;
        self.fresh = false;
    }
}

/// Rows parted at a height: what stands there, and what goes on. Nothing is parted from what it must stay with; a ladder that
/// has no room whole is parted between its rows.
pub(super) fn parted(mut rows: Vec<Block>, room: f64, fresh: bool) -> (Vec<Block>, Vec<Block>) {
    let mut free = room;
    let whole = rows.iter().take_while(|row| {
        let fits = row.height <= free + 1e-9;
        free -= if fits { row.height } else { 0.0 };
        fits
    });
    let at = whole.count();
    if let Some((here, there)) = rows.get(at).and_then(|row| row.parted(free)) {
        let mut later = rows.split_off(at);
        if let Some(first) = later.first_mut() {
            *first = there;
        }
        rows.push(here);
        return (rows, later);
    }
    let later = rows.split_off(fitting(&rows, room, fresh));
    (rows, later)
}

/// How many rows fit, without parting one from what it must stay with (on a fresh page something must be parted if all
/// that stays together is higher than the page).
pub(super) fn fitting(rows: &[Block], room: f64, fresh: bool) -> usize {
    let mut height = 0.0;
    let mut fits = 0;
    for row in rows {
        height += row.height;
        if height > room + 1e-9 {
            break;
        }
        fits += 1;
    }
    let kept = |n: &usize| *n == rows.len() || rows.get(n.wrapping_sub(1)).is_some_and(|row| !row.keep);
    (1..=fits).rev().find(kept).unwrap_or(if fresh { fits } else { 0 })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rows(heights: &[f64]) -> Vec<Block> {
        heights.iter().map(|h| Block::new(*h)).collect()
    }

    #[test]
    fn rows_go_on_to_further_pages_and_none_is_lost() {
        let mut flow = Flow::new(Paper::A4, 40.0);
        flow.put(&Section { name: "cuts", bar: None, rows: rows(&[30.0; 30]) }).unwrap();
        let heights = flow.pages.iter().flat_map(|p| &p.areas).map(|a| format!("{:.0}", a.bounds.height()));
        assert_eq!(heights.collect::<Vec<_>>(), ["210", "210", "210", "210", "60"]);
    }

    #[test]
    fn what_must_stay_together_does() {
        let mut all = rows(&[10.0, 10.0, 10.0]);
        all[1].keep = true;
        assert_eq!(fitting(&all, 25.0, false), 1);
        assert_eq!(fitting(&all, 30.0, false), 3);
        all[0].keep = true;
        assert_eq!(fitting(&all, 25.0, false), 0);
        assert_eq!(fitting(&all, 25.0, true), 2, "on a fresh page something must be parted");
    }

    #[test]
    fn a_row_higher_than_a_page_is_a_fault() {
        let mut flow = Flow::new(Paper::Letter, 40.0);
        assert!(flow.put(&Section { name: "cuts", bar: None, rows: rows(&[300.0]) }).is_err());
    }
}
