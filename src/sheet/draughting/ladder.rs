//! Lengths side by side in one wall: one section, one scale, a column a length, the one chosen framed.

use super::hatching;
use super::scale::Scale;
use super::symbols::zigzag;
use super::{Fault, Point};
use crate::drawing::{Ladder, RungHole, TextRow, drilled, rectangle};
use crate::sheet::fonts::{self, Font};
use crate::sheet::page::{Anchor, AreaId, Dash, Fill, Page, Rect, Role, Text};

/// The scales of such a picture, the largest first.
const SCALES: [Scale; 5] = [
    Scale { paper: 2, part: 1 },
    Scale { paper: 1, part: 1 },
    Scale { paper: 1, part: 2 },
    Scale { paper: 1, part: 5 },
    Scale { paper: 1, part: 10 },
];
/// Air on both sides of a hole in its column, together, mm.
const BESIDE_HOLE: f64 = 4.0;
/// Height of the capitals, mm.
const CAPITAL: f64 = 3.0;
/// From row to row of words, mm.
const ROW: f64 = 4.4;
/// Between the words and what is drawn, mm.
const AIR: f64 = 1.3;
/// How far an axis runs out over the face and under the tip, mm.
const RUN_OUT: f64 = 1.0;
/// Lines, mm: outline, thin, what must not be passed, frame.
const OUTLINE: f64 = 0.5;
const THIN: f64 = 0.25;
const HEAVY: f64 = 0.7;
const LEAST: f64 = 0.35;
/// The bar of a tip at worst, mm.
const WORST: f64 = 3.0;
/// A coil thinner than this is black, mm.
const BLACK: f64 = 1.0;
/// Between the captions and the first column, and widest column over its hole, mm.
const GUTTER: f64 = 6.0;
const WIDEST: f64 = 34.0;
/// How far the metal goes on beside the columns, and with its break at the far end, mm.
const BESIDE: f64 = 1.5;
const ZIGZAG: f64 = 3.6;
/// Lines of words in a column at most.
const LINES: usize = 2;

/// What was drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct LadderDrawn {
    /// Its scale, which it prints itself.
    pub scale: Scale,
    /// The face on the paper, mm from the top.
    pub face: f64,
    /// The columns.
    pub columns: Vec<Rect>,
    /// What it covers.
    pub bounds: Rect,
}

/// A ladder laid out at one scale.
struct Laid<'a> {
    ladder: &'a Ladder,
    scale: Scale,
    /// Cells of the rows in lines.
    above: Vec<Vec<Vec<String>>>,
    below: Vec<Vec<Vec<String>>>,
    captions: f64,
    column: f64,
    /// From the face to the lowest that is drawn, mm of paper.
    deep: f64,
}

/// Draws lengths side by side into a room (mm of paper) of a page, from its upper left corner, at the largest scale that fits.
///
/// # Errors
/// [`Fault`], and then nothing is drawn.
pub fn ladder(page: &mut Page, area: AreaId, room: Rect, ladder: &Ladder) -> Result<LadderDrawn, Fault> {
    for scale in SCALES {
        if let Some(laid) = Laid::at(ladder, scale, room)? {
            return laid.draw(page, area, room);
        }
    }
    Err(Fault::NoRoom { width: room.width(), height: room.height() })
}

fn font(row: &TextRow) -> Font {
    if row.strong { Font::Bold } else { Font::Sans }
}

impl<'a> Laid<'a> {
    fn at(ladder: &'a Ladder, scale: Scale, room: Rect) -> Result<Option<Self>, Fault> {
        let factor = scale.factor();
        let rows = || ladder.above.iter().chain(&ladder.below);
        let said = rows().map(|row| &row.caption).chain(&ladder.lines);
        let first = ladder.above.first().map_or("", |row| &row.caption);
        let mut captions = fonts::width(Font::Sans, CAPITAL, &with_scale(scale, first))?;
        for text in said {
            captions = captions.max(fonts::width(Font::Sans, CAPITAL, text)?);
        }
        let [hole, roots, _] = ladder.across;
        let least = hole.max(roots) * factor + BESIDE_HOLE;
        let column =
            ((room.width() - captions - GUTTER - ZIGZAG) / ladder.rungs.len().max(1) as f64).min(least.max(WIDEST));
        if column < least {
            return Ok(None);
        }
        let lines = |row: &TextRow| -> Result<Vec<Vec<String>>, Fault> {
            let cell = |text: &String| fonts::wrap(font(row), CAPITAL, text, column - 1.6);
            Ok(row.cells.iter().map(cell).collect::<Result<_, _>>()?)
        };
        let deepest = ladder.rungs.iter().filter_map(|rung| rung.hole).map(|hole| lowest(&hole));
        // The name of the far side stands under it.
        let deep = (deepest.fold(0.0, f64::max) * factor).max(names_of_lines(ladder, factor).1);
        let laid = Self {
            above: ladder.above.iter().map(lines).collect::<Result<_, _>>()?,
            below: ladder.below.iter().map(lines).collect::<Result<_, _>>()?,
            ladder,
            scale,
            captions,
            column,
            deep,
        };
        let narrow = laid.above.iter().chain(&laid.below).flatten().any(|cell| cell.len() > LINES);
        Ok((!narrow && laid.height() <= room.height()).then_some(laid))
    }

    fn rows(all: &[Vec<Vec<String>>]) -> f64 {
        let lines = |row: &Vec<Vec<String>>| row.iter().map(Vec::len).max().unwrap_or(1).max(1);
        all.iter().map(lines).sum::<usize>() as f64 * ROW
    }

    fn height(&self) -> f64 {
        2.0 * HEAVY + Self::rows(&self.above) + 2.0 * AIR + self.deep + RUN_OUT + AIR + Self::rows(&self.below)
    }

    fn draw(&self, page: &mut Page, area: AreaId, room: Rect) -> Result<LadderDrawn, Fault> {
        let left = room.left + self.captions + GUTTER;
        let right = left + self.column * self.ladder.rungs.len() as f64;
        let top = room.top + HEAVY;
        let face = top + Self::rows(&self.above) + 2.0 * AIR;
        let bottom = room.top + self.height();
        let column = |at: usize| {
            let x = left + at as f64 * self.column;
            Rect::new(x, room.top, x + self.column, bottom)
        };
        let columns: Vec<Rect> = (0..self.ladder.rungs.len()).map(column).collect();
        self.words(page, area, &self.ladder.above, &self.above, (room.left, top), &columns)?;
        let under = face + self.deep + RUN_OUT + AIR;
        self.words(page, area, &self.ladder.below, &self.below, (room.left, under), &columns)?;
        self.wall(page, area, (left, right), face);
        for (rung, column) in self.ladder.rungs.iter().zip(&columns) {
            if let Some(hole) = &rung.hole {
                self.hole(page, area, hole, Point::new(column.centre().x, face));
            }
        }
        self.lines(page, area, room.left, (left, right), face)?;
        for (rung, column) in self.ladder.rungs.iter().zip(&columns) {
            if rung.chosen {
                page.rectangle(area, column.grown(-HEAVY / 2.0), Fill::None, Some(HEAVY));
            }
        }
        Ok(LadderDrawn {
            scale: self.scale,
            face,
            columns,
            bounds: Rect::new(room.left, room.top, right + ZIGZAG, bottom),
        })
    }

    /// Rows of words, each with its caption; the scale stands before that of the first.
    fn words(
        &self,
        page: &mut Page,
        area: AreaId,
        rows: &[TextRow],
        lines: &[Vec<Vec<String>>],
        (left, top): (f64, f64),
        columns: &[Rect],
    ) -> Result<(), Fault> {
        let mut y = top;
        for (at, (row, cells)) in rows.iter().zip(lines).enumerate() {
            let base = y + (ROW + CAPITAL) / 2.0;
            let is_first = at == 0 && std::ptr::eq(rows, self.ladder.above.as_slice());
            let caption = if is_first { with_scale(self.scale, &row.caption) } else { row.caption.clone() };
            page.text(area, Point::new(left, base), Anchor::Left, Text::new(Font::Sans, Role::Body, CAPITAL, caption))?;
            for (cell, column) in cells.iter().zip(columns) {
                for (n, line) in cell.iter().enumerate() {
                    let at = Point::new(column.centre().x, base + n as f64 * ROW);
                    page.text(area, at, Anchor::Centre, Text::new(font(row), Role::Body, CAPITAL, line.clone()))?;
                }
            }
            y += cells.iter().map(Vec::len).max().unwrap_or(1).max(1) as f64 * ROW;
        }
        Ok(())
    }

    /// The metal, broken off on both sides.
    fn wall(&self, page: &mut Page, area: AreaId, (left, right): (f64, f64), face: f64) {
        let factor = self.scale.factor();
        let far = face + self.ladder.wall * factor;
        let middles = self.ladder.rungs.iter().enumerate().map(|(at, rung)| {
            let x = left + (at as f64 + 0.5) * self.column;
            rung.hole.map(|hole| moved(&self.outline(&hole), factor, Point::new(x, face)))
        });
        let (from, to) = (left - BESIDE, right + BESIDE);
        let metal = rectangle(from, face, to, far);
        let holes: Vec<Vec<Point>> = middles.flatten().collect();
        let on_top: Vec<&[Point]> = holes.iter().map(Vec::as_slice).collect();
        for (a, b) in hatching::section(&metal, 0, &on_top, &[]) {
            page.line(area, vec![a, b], THIN, Dash::Whole);
        }
        page.line(area, vec![Point::new(from, face), Point::new(to, face)], OUTLINE, Dash::Whole);
        page.line(area, vec![Point::new(from, far), Point::new(to, far)], HEAVY, Dash::Whole);
        for x in [from, to] {
            page.line(area, zigzag(Point::new(x, face), Point::new(x, far)), THIN, Dash::Whole);
        }
    }

    /// The outline of a hole, depths from its mouth.
    fn outline(&self, hole: &RungHole) -> Vec<Point> {
        let (diameter, point) = (self.ladder.across[0], hole.tip - hole.depth);
        let angle = if point > 0.0 { 2.0 * (diameter / 2.0).atan2(point).to_degrees() } else { 180.0 };
        drilled(0.0, diameter, hole.depth, angle)
    }

    fn hole(&self, page: &mut Page, area: AreaId, hole: &RungHole, mouth: Point) {
        let factor = self.scale.factor();
        let at = |x: f64, y: f64| Point::new(mouth.x + x * factor, mouth.y + y * factor);
        let [diameter, roots, coil] = self.ladder.across;
        let wall = self.ladder.wall;
        if let Some((old, deep)) = self.ladder.old.filter(|old| old.1 > hole.tip) {
            let corners = rectangle(-old / 2.0, 0.0, old / 2.0, deep.min(wall));
            page.polygon(area, moved(&corners, factor, mouth), Fill::White, Some(THIN));
        }
        // Where it breaks through it is drawn heavy: there is no metal that it could end in.
        let width = if hole.tip > wall { HEAVY } else { OUTLINE };
        page.polygon(area, moved(&self.outline(hole), factor, mouth), Fill::White, Some(width));
        if hole.tip > hole.depth {
            page.line(area, vec![at(-diameter / 2.0, hole.depth), at(diameter / 2.0, hole.depth)], THIN, Dash::Whole);
        }
        for side in [-1.0, 1.0] {
            let x = side * roots / 2.0;
            page.line(area, vec![at(x, 0.0), at(x, hole.thread.min(wall))], THIN, Dash::Whole);
            let inner = side * coil / 2.0;
            let turns = rectangle(inner.min(x), hole.coil.0, inner.max(x), hole.coil.1);
            let turns = moved(&turns, factor, mouth);
            if (x - inner).abs() * factor < BLACK {
                page.polygon(area, turns, Fill::Ink, None);
            } else {
                let lines = hatching::section(&turns, 1, &[], &[]);
                page.polygon(area, turns, Fill::White, Some(THIN));
                for (a, b) in lines {
                    page.line(area, vec![a, b], THIN, Dash::Whole);
                }
            }
        }
        let (up, down) = (Point::new(mouth.x, mouth.y - RUN_OUT), at(0.0, lowest(hole)));
        page.line(area, vec![up, Point::new(down.x, down.y + RUN_OUT)], THIN, Dash::Chain);
        if let Some(worst) = hole.worst_tip {
            let middle = at(0.0, worst);
            let ends = [-WORST / 2.0, WORST / 2.0].map(|x| Point::new(middle.x + x, middle.y));
            page.line(area, ends.to_vec(), HEAVY, Dash::Whole);
        }
    }

    /// What must not be passed, and its names before the columns.
    fn lines(
        &self,
        page: &mut Page,
        area: AreaId,
        start: f64,
        (left, right): (f64, f64),
        face: f64,
    ) -> Result<(), Fault> {
        let far = face + self.ladder.wall * self.scale.factor();
        let [far_says, least_says] = &self.ladder.lines;
        let mut say = |base: f64, text: &str| {
            let text = Text::new(Font::Sans, Role::Body, CAPITAL, text);
            page.text(area, Point::new(start, base), Anchor::Left, text).map(|_| ())
        };
        let (least_base, far_base) = names_of_lines(self.ladder, self.scale.factor());
        say(face + far_base, far_says)?;
        if let Some(least) = self.ladder.least_left {
            let y = far - least * self.scale.factor();
            say(face + least_base, least_says)?;
            page.line(
                area,
                vec![Point::new(left - BESIDE - 1.0, y), Point::new(right + BESIDE, y)],
                LEAST,
                Dash::Short,
            );
        }
        Ok(())
    }
}

/// Base lines of the names of the lines from the face down, mm of paper: that of what must be left over its line, but under the
/// words over the wall; that of the far side under it, and under the other.
fn names_of_lines(ladder: &Ladder, factor: f64) -> (f64, f64) {
    let far = ladder.wall * factor;
    let over_it = ladder.least_left.map(|least| far - least * factor - 0.9);
    let least = over_it.map_or(f64::MIN, |base| base.max(CAPITAL + 0.3 - AIR));
    (least, f64::max(far + 0.6 + CAPITAL, least + ROW))
}

/// The lowest of a hole that is drawn, mm from the face.
fn lowest(hole: &RungHole) -> f64 {
    [hole.tip, hole.depth, hole.coil.1, hole.worst_tip.unwrap_or(0.0)].into_iter().fold(0.0, f64::max)
}

fn moved(outline: &[Point], factor: f64, to: Point) -> Vec<Point> {
    outline.iter().map(|p| Point::new(to.x + p.x * factor, to.y + p.y * factor)).collect()
}

fn with_scale(scale: Scale, caption: &str) -> String {
    format!("{} {scale} {caption}", super::words::SCALE).trim_end().to_owned()
}
