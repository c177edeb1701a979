//! An operation over a range of a key as a picture: a bar of verdicts each for the operation and for its alternatives, or a field
//! of them for two keys; told in words beside. Nothing rests on colour: white is proven, grey doubtful, black fails.

use super::fonts::{Fault, Font};
use super::page::{Anchor, AreaId, Fill, Kind, Page, Point, Rect, Role, Text};
use super::terminal::{Course, Grid};
use super::words;
use super::words::over as said;
use crate::plan::Paper;
use crate::proof::Verdict;

/// Height of small letters' capitals, mm.
const CAPITAL: f64 = 2.4;
/// From line to line, mm.
const LINE: f64 = 5.0;
/// Height of a bar, mm.
const BAR: f64 = 4.0;
/// Where bars begin and end, mm from the left.
const FROM: f64 = 62.0;
const TO: f64 = 180.0;
const LEFT: f64 = 8.0;
const HAIR: f64 = 0.18;

/// A picture in the making, from above downward.
struct Drawing {
    page: Page,
    area: AreaId,
    y: f64,
}

impl Drawing {
    fn new(alt: String) -> Self {
        let mut page = Page::new(Paper::A4);
        let area = page.area("over", Rect::new(0.0, 0.0, 210.0, 297.0));
        let figure = page.open(Kind::Figure);
        page.describe(figure, alt);
        Self { page, area, y: 10.0 }
    }

    fn text(&mut self, x: f64, anchor: Anchor, font: Font, text: &str) -> Result<(), Fault> {
        let text = Text::new(font, Role::Body, CAPITAL, text);
        self.page.text(self.area, Point::new(x, self.y), anchor, text).map(|_| ())
    }

    /// A row of verdicts, side by side, alike ones as one box.
    fn bar(&mut self, verdicts: &[Verdict], height: f64) {
        let wide = (TO - FROM) / verdicts.len().max(1) as f64;
        let mut from = 0;
        for alike in verdicts.chunk_by(|a, b| a == b) {
            let left = FROM + wide * from as f64;
            from += alike.len();
            let r = Rect::new(left, self.y - height + 0.6, FROM + wide * from as f64, self.y + 0.6);
            self.page.rectangle(self.area, r, alike.first().map_or(Fill::None, |one| shade(*one)), Some(HAIR));
        }
    }

    /// What the shades mean.
    fn legend(&mut self) -> Result<(), Fault> {
        self.y += LINE;
        for (at, verdict) in [Verdict::Proven, Verdict::Doubtful, Verdict::Fails].into_iter().enumerate() {
            let left = FROM + 40.0 * at as f64;
            let r = Rect::new(left, self.y - BAR + 0.8, left + 6.0, self.y + 0.4);
            self.page.rectangle(self.area, r, shade(verdict), Some(HAIR));
            self.text(left + 8.0, Anchor::Left, Font::Sans, words::verdict(verdict))?;
        }
        self.y += LINE;
        self.text(LEFT, Anchor::Left, Font::Sans, words::STANDING)
    }

    fn finished(mut self, title: &str) -> String {
        self.page.close();
        super::svg::pictures(&self.page, title).concat()
    }
}

const fn shade(verdict: Verdict) -> Fill {
    match verdict {
        Verdict::Proven => Fill::White,
        Verdict::Doubtful => Fill::Grey(45),
        Verdict::Fails => Fill::Ink,
    }
}

/// An operation over one key.
///
/// # Errors
/// Where a letter has no width.
pub fn course_svg(course: &Course) -> Result<String, Fault> {
    let end = |row: Option<&(String, Vec<Verdict>, String)>| row.map_or_else(String::new, |row| row.0.clone());
    let (low, high) = (end(course.rows.first()), end(course.rows.last()));
    let title = said::from_to(&course.key, &low, &high);
    let turns = super::terminal::turns(&course.turns);
    let mut drawing = Drawing::new([vec![title.clone()], turns.clone()].concat().join("; "));
    drawing.text(LEFT, Anchor::Left, Font::Bold, &title)?;
    for (at, name) in course.names.iter().enumerate() {
        drawing.y += LINE + 1.0;
        drawing.text(LEFT, Anchor::Left, Font::Sans, name)?;
        let verdicts: Vec<Verdict> = course.rows.iter().filter_map(|row| row.1.get(at).copied()).collect();
        drawing.bar(&verdicts, BAR);
    }
    ends(&mut drawing, &low, &high)?;
    for turn in &turns {
        drawing.y += LINE;
        drawing.text(LEFT, Anchor::Left, Font::Sans, turn)?;
    }
    drawing.legend()?;
    Ok(drawing.finished(&title))
}

/// An operation over two keys.
///
/// # Errors
/// Where a letter has no width.
pub fn grid_svg(grid: &Grid) -> Result<String, Fault> {
    let title = said::from_to(&grid.across, &grid.ends.0, &grid.ends.1);
    let row = |(value, verdicts): &(String, Vec<Verdict>)| {
        let all: Vec<&str> = verdicts.iter().map(|verdict| words::verdict(*verdict)).collect();
        format!("{} {value}: {}", grid.down, all.join(", "))
    };
    let alt: Vec<String> = std::iter::once(title.clone()).chain(grid.rows.iter().map(row)).collect();
    let mut drawing = Drawing::new(alt.join("; "));
    drawing.text(LEFT, Anchor::Left, Font::Bold, &title)?;
    drawing.y += 1.0;
    for (value, verdicts) in &grid.rows {
        drawing.y += LINE;
        drawing.text(LEFT, Anchor::Left, Font::Sans, &format!("{} {value}", grid.down))?;
        drawing.bar(verdicts, LINE);
    }
    ends(&mut drawing, &grid.ends.0, &grid.ends.1)?;
    drawing.legend()?;
    Ok(drawing.finished(&title))
}

/// The ends of the range, under the bars.
fn ends(drawing: &mut Drawing, low: &str, high: &str) -> Result<(), Fault> {
    drawing.y += LINE;
    drawing.text(FROM, Anchor::Left, Font::Sans, low)?;
    drawing.text(TO, Anchor::Right, Font::Sans, high)
}
