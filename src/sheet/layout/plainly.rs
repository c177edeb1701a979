//! A sheet line by line: for one that cannot be set as the others are. It has the stamp, the reason, and all that the
//! terminal says of its operation.

use super::block::{BODY, Block, HAIR, STRONG, as_one, plain};
use super::flow::{EDGE, Flow, Section, inner};
use super::strip::{all_names, plain_stamp, short};
use super::{Fault, Sheet, check, fonts, lists, words};
use crate::sheet::page::{Anchor, Kind, Page, Point, Rect};
use crate::sheet::terminal;

/// Under the strip, mm.
const UNDER: f64 = 2.0;
/// Width of a sign of indent, mm.
const INDENT: f64 = 1.2;
/// Under the pin, mm.
const BELOW_PIN: f64 = crate::sheet::check::PIN.1 - EDGE + 0.4;

impl Sheet<'_> {
    /// Its pages line by line.
    pub(super) fn line_by_line(&self, why: &Fault) -> Result<Vec<Page>, Fault> {
        let letters = |fault| self.letters("line by line", fault);
        let strip = self.short_strip().map_err(letters)?;
        let width = inner(self.paper);
        let mut flow = Flow::new(self.paper, strip.height);
        let mut rows = lists::chunks(
            &STRONG.wrap(&words::line_by_line(&why.to_string()), width).map_err(letters)?,
            0.0,
            0.4,
            STRONG,
        )
        .map_err(letters)?;
        for name in all_names(self) {
            rows.extend(row(&name, width).map_err(letters)?);
        }
        for line in terminal::of_operation(self.plan, self.planned, self.operation).lines() {
            rows.extend(row(line, width).map_err(letters)?);
        }
        let section = Section { name: words::NOTE, bar: None, rows };
        flow.put(&section).map_err(|high| Fault::TooHigh { sheet: self.id(), part: high.0 })?;
        self.stripped(&strip, flow.pages)
    }

    /// The stamp and whose sheet it is, without the number of its page.
    fn short_strip(&self) -> Result<Block, fonts::Fault> {
        let width = inner(self.paper);
        let mut block = Block::new(0.0);
        let word = self.stamp();
        let stamp = plain_stamp(self.framed(), word, width)?;
        let under = BELOW_PIN + stamp.height + UNDER;
        block.set(stamp, 0.0, BELOW_PIN);
        let name = format!("{} {}: {}", self.id(), self.planned.title, self.planned.address.part);
        block.wrap(Kind::P, false);
        block.open(Kind::H1);
        let end = block.paragraph(0.0, under, width, STRONG, &short(&name))?;
        block.close();
        block.line(Point::new(0.0, end + 1.0), Point::new(width, end + 1.0), HAIR);
        block.height = end + UNDER;
        Ok(block)
    }

    fn stripped(&self, strip: &Block, mut pages: Vec<Page>) -> Result<Vec<Page>, Fault> {
        let count = pages.len();
        let right = self.paper.size().0 - EDGE;
        for (at, page) in pages.iter_mut().enumerate() {
            let mut numbered = strip.clone();
            let number = words::page(at + 1, count);
            numbered
                .text(Point::new(0.0, BODY.capital + 0.4), Anchor::Left, BODY, &number)
                .map_err(|fault| self.letters("line by line", fault))?;
            let area = page.area("title strip", Rect::new(EDGE, EDGE, right, EDGE + strip.height));
            let before = page.marks.len();
            numbered.onto(page, area, (EDGE, EDGE), Kind::P);
            page.lead_with(before, at == 0);
            let faults = check::faults(page);
            if !faults.is_empty() {
                return Err(Fault::Page { sheet: self.id(), page: at + 1, faults });
            }
        }
        Ok(pages)
    }
}

/// A line of the terminal as rows of a page.
fn row(line: &str, width: f64) -> Result<Vec<Block>, fonts::Fault> {
    let words = line.trim_start();
    if words.is_empty() {
        return Ok(vec![Block::new(1.5)]);
    }
    let indent = f64::min((line.len() - words.len()) as f64 * INDENT, width / 3.0);
    let mut rows = Vec::new();
    for line in BODY.wrap(&plain(words), width - indent)? {
        rows.extend(lists::chunks(std::slice::from_ref(&line), indent, 0.2, BODY)?);
    }
    as_one(&mut rows, Kind::P);
    Ok(rows)
}
