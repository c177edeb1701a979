//! The checker: what is wrong with a laid-out page, before a back end writes it.
//!
//! It reads marks only; it does not know who laid them. Every page made in a test goes through it.

mod sketch;

pub use sketch::{SketchFault, drawing_faults, sketch_faults};

use super::page::{Fill, Ink, Mark, Page, Point, Rect, Role, Text};

/// Least margin on every side of the paper, mm.
pub(crate) const MARGIN: f64 = 12.0;
/// Width and depth of the space for the pin at the middle of the upper edge, mm.
pub(crate) const PIN: (f64, f64) = (25.0, 25.0);
/// Darkest grey behind words, hundredths of black: it survives a worn printer and a photocopy.
pub(crate) const DARKEST: u8 = 15;
/// Two boxes that share less than this do not overlap, mm.
const SLACK: f64 = 0.05;

impl Role {
    /// Least height of the capitals, mm: distance / 200 at 0.6, 0.7, 1, 1.5 and 2 m.
    #[must_use]
    pub const fn least_capital(self) -> f64 {
        match self {
            Self::Body => 3.0,
            Self::Drawing => 3.5,
            Self::Second => 5.0,
            Self::Figure => 7.5,
            Self::Stamp => 10.0,
        }
    }
}

/// Something wrong with a page. Words are given as they stand on it, areas by name, sizes in mm.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum Fault {
    /// Two texts share paper.
    #[error("{area}: {first:?} overlaps {second:?}")]
    TextOnText {
        /// Area of the first.
        area: String,
        /// The earlier text.
        first: String,
        /// The later text.
        second: String,
    },
    /// A line passes through a text.
    #[error("{area}: a line {width} mm wide crosses {text:?}")]
    LineThroughText {
        /// Area of the line.
        area: String,
        /// Width of the line.
        width: f64,
        /// The text.
        text: String,
    },
    /// A text stands on something too dark.
    #[error("{area}: {text:?} stands on a fill darker than {DARKEST} %")]
    TooDark {
        /// Area of the fill.
        area: String,
        /// The text.
        text: String,
    },
    /// A fill drawn later hides a text.
    #[error("{area}: a fill hides {text:?}")]
    Hidden {
        /// Area of the fill.
        area: String,
        /// The text.
        text: String,
    },
    /// A mark leaves its area.
    #[error("{area}: {what} leaves its area by {by:.2} mm")]
    LeavesArea {
        /// The area.
        area: String,
        /// The mark.
        what: String,
        /// By how much.
        by: f64,
    },
    /// A mark stands in the margin or off the paper.
    #[error("{area}: {what} stands in the margin of {MARGIN} mm by {by:.2} mm")]
    InMargin {
        /// Its area.
        area: String,
        /// The mark.
        what: String,
        /// By how much.
        by: f64,
    },
    /// A mark stands where the pin goes.
    #[error("{area}: {what} stands where the pin goes")]
    UnderPin {
        /// Its area.
        area: String,
        /// The mark.
        what: String,
    },
    /// Letters are too small for the distance that they are read from.
    #[error("{area}: capitals of {text:?} are {capital:.2} mm high, least {least} mm")]
    TooSmall {
        /// Its area.
        area: String,
        /// The text.
        text: String,
        /// Height of its capitals.
        capital: f64,
        /// Least height of its role.
        least: f64,
    },
    /// A coordinate or size is not finite.
    #[error("{area}: {what} is not finite")]
    NotFinite {
        /// Its area.
        area: String,
        /// The mark.
        what: String,
    },
    /// A mark names an area that its page does not have.
    #[error("{what} belongs to no area of this page")]
    NoArea {
        /// The mark.
        what: String,
    },
}

/// Everything wrong with a page; nothing when it may be printed.
#[must_use]
pub fn faults(page: &Page) -> Vec<Fault> {
    let mut found = Vec::new();
    for mark in &page.marks {
        mark_alone(page, mark, &mut found);
    }
    let texts: Vec<(usize, &Mark, &Text)> =
        page.marks.iter().enumerate().filter_map(|(i, m)| Some((i, m, text_of(m)?))).collect();
    let rooms: Vec<Rect> = texts.iter().map(|(_, mark, _)| mark.bounds.grown(-SLACK)).collect();
    let others: Vec<(usize, &Mark)> =
        page.marks.iter().enumerate().filter(|(_, mark)| text_of(mark).is_none()).collect();
    let (words, shapes) = (Bands::of(rooms.iter()), Bands::of(others.iter().map(|(_, mark)| &mark.bounds)));
    for (n, ((order, mark, text), room)) in texts.iter().zip(&rooms).enumerate() {
        let meets = |at: usize| at > n && rooms.get(at).is_some_and(|other| other.overlaps(room));
        for (_, _, second) in words.near(room, meets).into_iter().filter_map(|at| texts.get(at)) {
            let (first, second) = (text.text.clone(), second.text.clone());
            found.push(Fault::TextOnText { area: area(page, mark), first, second });
        }
        let meets = |at: usize| others.get(at).is_some_and(|(_, other)| other.bounds.overlaps(room));
        for (at, other) in shapes.near(room, meets).into_iter().filter_map(|at| others.get(at)) {
            found.extend(under_text(page, other, at > order, room, text));
        }
    }
    found
}

/// Boxes by the bands of paper that they lie in, so that a box is held against its neighbours alone.
struct Bands(Vec<Vec<usize>>);

impl Bands {
    /// Height of a band, mm.
    const HIGH: f64 = 5.0;
    /// Bands of the highest paper; what lies beyond is counted to the outermost.
    const MANY: usize = 60;

    fn of<'a>(boxes: impl Iterator<Item = &'a Rect>) -> Self {
        let mut bands = vec![Vec::new(); Self::MANY];
        for (at, room) in boxes.enumerate() {
            bands.iter_mut().take(Self::at(room.bottom) + 1).skip(Self::at(room.top)).for_each(|band| band.push(at));
        }
        Self(bands)
    }

    fn at(y: f64) -> usize {
        usize::min((y / Self::HIGH) as usize, Self::MANY - 1)
    }

    /// Numbers of the boxes in the bands of a box that meet it, in order.
    fn near(&self, room: &Rect, meets: impl Fn(usize) -> bool) -> Vec<usize> {
        let bands = self.0.iter().take(Self::at(room.bottom) + 1).skip(Self::at(room.top));
        let mut near: Vec<usize> = bands.flatten().copied().filter(|at| meets(*at)).collect();
        near.sort_unstable();
        near.dedup();
        near
    }
}

fn text_of(mark: &Mark) -> Option<&Text> {
    match &mark.ink {
        Ink::Text(text) => Some(text),
        _ => None,
    }
}

fn area(page: &Page, mark: &Mark) -> String {
    page.area_of(mark.area).map(|a| a.name.clone()).unwrap_or_default()
}

/// A mark as a message names it.
fn what(mark: &Mark) -> String {
    match &mark.ink {
        Ink::Text(text) => format!("{:?}", text.text),
        Ink::Line { .. } => format!("a line at {:.1}, {:.1}", mark.bounds.left, mark.bounds.top),
        Ink::Polygon { .. } => {
            format!("a shape at {:.1}, {:.1}", mark.bounds.left, mark.bounds.top)
        }
    }
}

/// How far a box stands out of another, mm.
fn outside(room: &Rect, bounds: &Rect) -> f64 {
    [room.left - bounds.left, room.top - bounds.top, bounds.right - room.right, bounds.bottom - room.bottom]
        .into_iter()
        .fold(0.0, f64::max)
}

/// What is wrong with a mark on its own.
fn mark_alone(page: &Page, mark: &Mark, found: &mut Vec<Fault>) {
    if !is_finite(mark) {
        found.push(Fault::NotFinite { area: area(page, mark), what: what(mark) });
        return;
    }
    let Some(home) = page.area_of(mark.area) else {
        found.push(Fault::NoArea { what: what(mark) });
        return;
    };
    let (width, height) = page.paper.size();
    // Half the width of a thick frame may stand over an edge that it marks.
    let edge = if text_of(mark).is_some() { SLACK } else { 0.5 };
    let by = outside(&home.bounds, &mark.bounds);
    if by > edge {
        found.push(Fault::LeavesArea { area: home.name.clone(), what: what(mark), by });
    }
    let by = outside(&Rect::new(0.0, 0.0, width, height).grown(-MARGIN), &mark.bounds);
    if by > edge {
        found.push(Fault::InMargin { area: home.name.clone(), what: what(mark), by });
    }
    let pin = Rect::new((width - PIN.0) / 2.0, 0.0, f64::midpoint(width, PIN.0), PIN.1);
    if touches(mark, &pin.grown(-SLACK)) {
        found.push(Fault::UnderPin { area: home.name.clone(), what: what(mark) });
    }
    if let Some(text) = text_of(mark) {
        let least = text.role.least_capital();
        if text.capital < least - 1e-9 {
            found.push(Fault::TooSmall {
                area: home.name.clone(),
                text: text.text.clone(),
                capital: text.capital,
                least,
            });
        }
    }
}

fn is_finite(mark: &Mark) -> bool {
    let points_are = |points: &[Point]| points.iter().all(|p| p.x.is_finite() && p.y.is_finite());
    let Rect { left, top, right, bottom } = mark.bounds;
    let ink = match &mark.ink {
        Ink::Text(text) => text.capital.is_finite() && points_are(&[text.at]),
        Ink::Line { points, width, .. } => width.is_finite() && points_are(points),
        Ink::Polygon { points, stroke, .. } => stroke.unwrap_or(0.0).is_finite() && points_are(points),
    };
    ink && [left, top, right, bottom].iter().all(|v| v.is_finite())
}

/// Whether the ink of a mark touches a box.
fn touches(mark: &Mark, room: &Rect) -> bool {
    if !mark.bounds.overlaps(room) {
        return false;
    }
    match &mark.ink {
        Ink::Text(_) => true,
        Ink::Line { points, .. } => runs_through(points, false, room),
        Ink::Polygon { points, fill, .. } => {
            runs_through(points, true, room) || (*fill != Fill::None && covers(points, room))
        }
    }
}

/// Whether one of the edges of a run passes through a box.
fn runs_through(points: &[Point], closed: bool, room: &Rect) -> bool {
    let closing = if closed { points.last().zip(points.first()) } else { None };
    points.iter().zip(points.iter().skip(1)).chain(closing).any(|(a, b)| room.crossed_by(*a, *b))
}

/// Whether the middle of a box lies in a closed shape (even-odd rule).
fn covers(points: &[Point], room: &Rect) -> bool {
    let p = room.centre();
    let crossings = points.iter().zip(points.iter().cycle().skip(1));
    crossings.filter(|(a, b)| (a.y > p.y) != (b.y > p.y) && p.x < a.x + (p.y - a.y) / (b.y - a.y) * (b.x - a.x)).count()
        % 2
        == 1
}

/// What a mark that is not a text does to a text in its box.
fn under_text(page: &Page, mark: &Mark, later: bool, room: &Rect, text: &Text) -> Option<Fault> {
    let area = || area(page, mark);
    let words = || text.text.clone();
    let crossed_by = |width: f64| Fault::LineThroughText { area: area(), width, text: words() };
    match &mark.ink {
        Ink::Text(_) => None,
        Ink::Line { points, width, .. } => runs_through(points, false, room).then(|| crossed_by(*width)),
        Ink::Polygon { points, fill, stroke } => {
            let crossed = runs_through(points, true, room);
            let filled = crossed || covers(points, room);
            match fill {
                Fill::Ink if filled => Some(Fault::TooDark { area: area(), text: words() }),
                Fill::Grey(grey) if filled && *grey > DARKEST => Some(Fault::TooDark { area: area(), text: words() }),
                Fill::White | Fill::Grey(_) if filled && later => Some(Fault::Hidden { area: area(), text: words() }),
                _ => stroke.filter(|_| crossed).map(crossed_by),
            }
        }
    }
}

#[cfg(test)]
mod tests;
