//! A face from above on the paper, true to scale: a mark at each place that was read, the blacker the higher it stands, its height
//! under it; beside or under the face what the marks mean.

use super::scale::SCALES;
use super::symbols::round;
use super::{Fault, Point, Rect, Scale, clip};
use crate::drawing::{Spot, Spots, Touches, rectangle};
use crate::sheet::fonts::{self, Font};
use crate::sheet::page::{Anchor, AreaId, Dash, Fill, Page, Role, Text};
use nalgebra::Vector2;

/// Diameters of a mark, the largest first, mm.
const MARKS: [f64; 5] = [5.0, 4.0, 3.0, 2.2, 1.6];
/// Height of the capitals, and from row to row, mm.
const CAPITAL: f64 = 3.0;
const ROW: f64 = 4.8;
/// From a mark to its height under it, between two things that do not belong together, and what letters keep of the room, mm.
const UNDER: f64 = 0.7;
const AIR: f64 = 0.8;
const LETTERS: f64 = 1.0;
/// Between the face and what the marks mean, and between two meanings in a row, mm.
const BESIDE: f64 = 4.0;
const APART: f64 = 5.0;
/// Widest lines of what is said beside the face, and under it, mm.
const LINES: (f64, f64) = (26.0, 112.0);
/// From the places that were read to the line about them, mm.
const EDGE: f64 = 1.5;
/// Lines, mm: the mark of a place, thin.
const OUTLINE: f64 = 0.35;
const THIN: f64 = 0.25;
/// What a line of equal height keeps off marks and heights, and how long a piece of it is at least, mm: a shorter one beside a figure
/// is read as a stroke of it.
const OFF_LINE: f64 = 1.0;
const SHORTEST: f64 = 3.5;
/// Between two lines of a hatching, mm.
const PITCH: f64 = 1.1;
/// The sign of a plane that is touched: half its width, its height, mm.
const SIGN: (f64, f64) = (1.4, 2.4);

/// What was drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct SpotsDrawn {
    /// Its scale, which it prints itself.
    pub scale: Scale,
    /// Where the nought of the face is.
    pub nought: Point,
    /// What it covers.
    pub bounds: Rect,
}

/// Draws a face into a room (mm of paper) of a page, from its upper left corner: with the heights at their places where these have
/// room, at the largest scale that holds it.
///
/// # Errors
/// [`Fault`], and then nothing is drawn.
pub fn spots(page: &mut Page, area: AreaId, room: Rect, spots: &Spots) -> Result<SpotsDrawn, Fault> {
    let drawn = whole(page, area, room, spots);
    match drawn {
        // What says what the lines are has no room: rather the marks alone than no picture.
        Err(Fault::NoRoom { .. }) if !spots.lines.is_empty() => {
            whole(page, area, room, &Spots { lines: Vec::new(), lines_say: None, ..spots.clone() })
        }
        _ => drawn,
    }
}

/// Draws it with all that it holds.
fn whole(page: &mut Page, area: AreaId, room: Rect, spots: &Spots) -> Result<SpotsDrawn, Fault> {
    let room = room.grown(-LETTERS);
    let no_room = Fault::NoRoom { width: room.width(), height: room.height() };
    let places: Vec<Point> = spots.places.iter().map(|spot| Point::new(spot.x, spot.y)).collect();
    let is_finite = |spot: &Spot| spot.x.is_finite() && spot.y.is_finite() && spot.height.is_finite();
    let Some(face) = Rect::about(&places).filter(|_| spots.places.iter().all(is_finite)) else { return Err(no_room) };
    let legends = [Legend::of(spots, 1)?, Legend::of(spots, 5)?, Legend::of(spots, 3)?, Legend::of(spots, 2)?];
    for (figures, signs) in [(true, true), (false, true), (false, false)] {
        for (scale, mark) in SCALES.into_iter().flat_map(|scale| MARKS.map(|mark| (scale, mark))) {
            let mut laid = Laid { spots, face, scale, mark, figures, signs, covers: face };
            let rooms = spots.places.iter().map(|spot| laid.rooms(spot)).collect::<Result<Vec<_>, _>>()?;
            let Some(covers) = rooms.iter().flatten().copied().reduce(|a, b| a.and(&b)) else { return Err(no_room) };
            laid.covers = covers.grown(EDGE);
            // What is too large for the room is not looked at closely.
            if !legends.iter().any(|legend| laid.fits(legend, &room)) || !are_clear(&rooms) {
                continue;
            }
            if let Some(legend) = legends.iter().find(|legend| laid.fits(legend, &room)) {
                return laid.draw(page, area, room, legend);
            }
        }
    }
    Err(no_room)
}

/// What the marks mean, in so many columns: one stands beside the face, more under it.
struct Legend<'a> {
    spots: &'a Spots,
    columns: usize,
    /// How wide one is.
    wide: f64,
    /// What stands over it, in lines, and how wide that is.
    says: Vec<String>,
    width: f64,
}

impl<'a> Legend<'a> {
    fn of(spots: &'a Spots, columns: usize) -> Result<Self, Fault> {
        let mut wide = 0.0_f64;
        for band in &spots.bands {
            wide = wide.max(fonts::width(Font::Sans, CAPITAL, band)?);
        }
        wide += MARKS[0] + 1.5;
        // Beside the face lines are broken to be no wider than need be.
        let most = if columns == 1 { wide.max(LINES.0) } else { LINES.1 };
        let broken = spots.says.iter().chain(&spots.lines_say).map(|text| fonts::wrap(Font::Sans, CAPITAL, text, most));
        let says = broken.collect::<Result<Vec<_>, _>>()?.concat();
        let mut width = columns as f64 * (wide + APART) - APART;
        for text in &says {
            width = width.max(fonts::width(Font::Sans, CAPITAL, text)?);
        }
        Ok(Self { spots, columns, wide, says, width })
    }

    fn rows(&self) -> usize {
        self.spots.bands.len().div_ceil(self.columns)
    }

    fn height(&self) -> f64 {
        (self.says.len() + self.rows() + 1) as f64 * ROW
    }

    fn is_beside(&self) -> bool {
        self.columns == 1
    }
}

/// A face laid out.
struct Laid<'a> {
    spots: &'a Spots,
    face: Rect,
    scale: Scale,
    mark: f64,
    figures: bool,
    /// Whether the planes that are touched have their signs: on a narrow face they have no room.
    signs: bool,
    /// What the face takes, from the upper left of the places that were read, mm of paper.
    covers: Rect,
}

/// Whether no place stands on another.
fn are_clear(rooms: &[Vec<Rect>]) -> bool {
    let meet = |one: &[Rect], other: &[Rect]| {
        one.iter().any(|a| other.iter().any(|b| a.grown(AIR / 2.0).overlaps(&b.grown(AIR / 2.0))))
    };
    rooms.iter().enumerate().all(|(at, one)| !rooms.iter().skip(at + 1).any(|other| meet(one, other)))
}

impl Laid<'_> {
    fn factor(&self) -> f64 {
        self.scale.factor()
    }

    /// Where a place is from the upper left of the face, mm of paper.
    fn at(&self, spot: &Spot) -> Vector2<f64> {
        Vector2::new(spot.x - self.face.left, spot.y - self.face.top) * self.factor()
    }

    /// What a place takes about it: its mark with the sign of a plane, and its height under it.
    fn rooms(&self, spot: &Spot) -> Result<Vec<Rect>, Fault> {
        let (at, half) = (self.at(spot), self.mark / 2.0);
        let right = if self.signs && spot.touches.is_some() { half + 0.6 + 2.0 * SIGN.0 } else { half };
        let mut rooms = vec![Rect::new(at.x - half, at.y - half, at.x + right, at.y + half)];
        if self.figures {
            let wide = fonts::width(Font::Sans, CAPITAL, &spot.says)?;
            let top = at.y + half + UNDER;
            rooms.push(Rect::new(at.x - wide / 2.0, top, at.x + wide / 2.0, top + CAPITAL));
        }
        Ok(rooms)
    }

    fn fits(&self, legend: &Legend, room: &Rect) -> bool {
        let (wide, high) = (self.covers.width(), self.covers.height());
        match legend.is_beside() {
            true => wide + BESIDE + legend.width <= room.width() && high.max(legend.height()) <= room.height(),
            false => wide.max(legend.width) <= room.width() && high + legend.height() + 1.0 <= room.height(),
        }
    }

    fn draw(&self, page: &mut Page, area: AreaId, room: Rect, legend: &Legend) -> Result<SpotsDrawn, Fault> {
        let corner = Point::new(room.left - self.covers.left, room.top - self.covers.top);
        let face = self.covers.moved(corner.x, corner.y);
        let lines = self.lines(corner)?;
        // What the lines are is said of lines that stand there.
        if lines.is_empty() && !self.spots.lines.is_empty() {
            return Err(Fault::NoRoom { width: room.width(), height: room.height() });
        }
        let mut edge = rectangle(face.left, face.top, face.right, face.bottom);
        edge.extend(edge.first().copied());
        page.line(area, edge, THIN, Dash::Whole);
        for line in lines {
            page.line(area, line, THIN, Dash::Whole);
        }
        for spot in &self.spots.places {
            let at = corner + self.at(spot);
            self.place(page, area, spot, at)?;
        }
        let (left, top) = match legend.is_beside() {
            true => (face.right + BESIDE, face.top),
            false => (room.left, face.bottom + 1.0),
        };
        let end = self.means(page, area, legend, (left, top))?;
        let nought = corner - Vector2::new(self.face.left, self.face.top) * self.factor();
        let right = face.right.max(left + legend.width);
        Ok(SpotsDrawn {
            scale: self.scale,
            nought,
            bounds: Rect::new(room.left, room.top, right, face.bottom.max(end)),
        })
    }

    fn place(&self, page: &mut Page, area: AreaId, spot: &Spot, at: Point) -> Result<(), Fault> {
        filled(page, area, at, self.mark / 2.0, self.spots.band(spot.height));
        if let Some(touches) = spot.touches.filter(|_| self.signs) {
            sign(page, area, Point::new(at.x + self.mark / 2.0 + 0.6 + SIGN.0, at.y), touches);
        }
        if self.figures {
            let base = Point::new(at.x, at.y + self.mark / 2.0 + UNDER + CAPITAL);
            say(page, area, base, Anchor::Centre, &spot.says)?;
        }
        Ok(())
    }

    /// The lines of equal height, broken where a mark or a height stands.
    fn lines(&self, corner: Point) -> Result<Vec<Vec<Point>>, Fault> {
        let rooms = self.spots.places.iter().map(|spot| self.rooms(spot)).collect::<Result<Vec<_>, _>>()?.concat();
        let rooms: Vec<Rect> = rooms.iter().map(|room| room.moved(corner.x, corner.y).grown(OFF_LINE)).collect();
        let on_paper =
            |(x, y): &(f64, f64)| corner + Vector2::new(x - self.face.left, y - self.face.top) * self.factor();
        let mut all = Vec::new();
        for line in &self.spots.lines {
            let mut runs: Vec<Vec<Point>> = Vec::new();
            let points: Vec<Point> = line.iter().map(on_paper).collect();
            for (from, to) in points.iter().zip(points.iter().skip(1)) {
                let kept = rooms.iter().fold(clip::whole(), |kept, room| clip::beside(*from, *to, &kept, room));
                for (from, to) in clip::pieces(*from, *to, &kept) {
                    match runs.last_mut().filter(|run| run.last().is_some_and(|end| (from - end).norm() < 1e-6)) {
                        Some(run) => run.push(to),
                        None => runs.push(vec![from, to]),
                    }
                }
            }
            all.extend(runs.into_iter().filter(|run| long(run) >= SHORTEST));
        }
        Ok(all)
    }

    /// What the marks mean, from an upper left corner; gives back where it ends.
    fn means(&self, page: &mut Page, area: AreaId, legend: &Legend, (left, top): (f64, f64)) -> Result<f64, Fault> {
        let mut y = top;
        let base = |y: f64| y + f64::midpoint(ROW, CAPITAL);
        for text in &legend.says {
            say(page, area, Point::new(left, base(y)), Anchor::Left, text)?;
            y += ROW;
        }
        let half = MARKS[1] / 2.0;
        // The highest first: there it is worked.
        for (n, (band, text)) in self.spots.bands.iter().enumerate().rev().enumerate() {
            let (row, column) = (n / legend.columns, n % legend.columns);
            let (x, y) = (left + column as f64 * (legend.wide + APART), y + row as f64 * ROW);
            filled(page, area, Point::new(x + half, y + ROW / 2.0), half, band);
            say(page, area, Point::new(x + MARKS[0] + 1.0, base(y)), Anchor::Left, text)?;
        }
        y += legend.rows() as f64 * ROW;
        let scale = format!("{} {}", super::words::SCALE, self.scale);
        say(page, area, Point::new(left, base(y)), Anchor::Left, &scale)?;
        Ok(y + ROW)
    }
}

/// How long a run of points is, mm.
fn long(run: &[Point]) -> f64 {
    run.iter().zip(run.iter().skip(1)).map(|(from, to)| (to - from).norm()).sum()
}

fn say(page: &mut Page, area: AreaId, at: Point, anchor: Anchor, text: &str) -> Result<(), Fault> {
    let text = Text::new(Font::Sans, Role::Body, CAPITAL, text);
    page.text(area, at, anchor, text)?;
    Ok(())
}

/// The sign of a plane that is touched.
fn sign(page: &mut Page, area: AreaId, at: Point, touches: Touches) {
    let up = if touches == Touches::Upper { 1.0 } else { -1.0 };
    let (wide, high) = (SIGN.0, up * SIGN.1 / 2.0);
    let corners =
        vec![Point::new(at.x - wide, at.y + high), Point::new(at.x + wide, at.y + high), Point::new(at.x, at.y - high)];
    page.polygon(area, corners, Fill::Ink, None);
}

/// The mark of a band: empty, a dot, hatched, cross-hatched, black.
fn filled(page: &mut Page, area: AreaId, at: Point, radius: f64, band: usize) {
    let ring = round(at, radius - OUTLINE / 2.0);
    if band >= 4 {
        page.polygon(area, ring, Fill::Ink, Some(OUTLINE));
        return;
    }
    page.polygon(area, ring, Fill::White, Some(OUTLINE));
    if band == 1 {
        page.polygon(area, round(at, radius * 0.3), Fill::Ink, None);
    }
    let ways = [Vector2::new(1.0, -1.0), Vector2::new(1.0, 1.0)].map(|way| way.normalize());
    for way in ways.iter().take(band.saturating_sub(1)) {
        let across = Vector2::new(-way.y, way.x);
        for off in [-PITCH, 0.0, PITCH] {
            let half = ((radius - OUTLINE).powi(2) - off * off).max(0.0).sqrt();
            let middle = at + across * off;
            page.line(area, vec![middle - way * half, middle + way * half], THIN, Dash::Whole);
        }
    }
}
