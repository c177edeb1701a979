//! Draughting: from a sketch in millimetres of the part to marks on the paper.
//!
//! The scale is the largest of ISO 5455 at which the extents fit: the part, and on each side the rows of its dimensions. At
//! that scale the sketch is laid out within its room, with symbols, details and labels; only where something finds no place
//! is the next scale taken. It holds both ways and nothing is stretched: a cut too thin to be seen is drawn once more in a
//! circle, at a larger scale that stands under it. A round part that would be small is drawn above its axis only (ISO 128), as
//! large as that has room.

mod bars;
mod blocked;
mod cheapest;
mod clip;
mod detail;
mod dimensions;
mod hatching;
mod ink;
mod labels;
mod ladder;
mod laid;
mod lay;
mod links;
mod pack;
mod part;
mod polar;
mod scale;
mod spots;
mod symbols;
mod wear;
mod words;

pub use bars::{BarsDrawn, bars};
pub use ladder::{LadderDrawn, ladder};
pub use links::{LinksDrawn, links};
pub use pack::{PackDrawn, pack};
pub use polar::{PolarDrawn, polar};
pub use scale::Scale;
pub(super) use scale::{LEAST_IN_DETAIL, LEAST_SEEN};
pub use spots::{SpotsDrawn, spots};
pub(super) use symbols::round;
pub use wear::{WearDrawn, wear};

use super::fonts;
use super::page::{AreaId, Page, Point, Rect};
use crate::drawing::{Balloon, Side, Sketch};
use cheapest::Cheapest;
use laid::{Laid, Measured};
use lay::Pen;
use scale::SCALES;

/// Half of the thickest line, by which ink stands out of what is drawn, mm.
const EDGE: f64 = Pen::Thick.width() / 2.0;
/// A round part less high on the paper is drawn above its axis only, mm.
const SMALL: f64 = 40.0;

/// All sides of a part.
const SIDES: [Side; 4] = [Side::Left, Side::Right, Side::Above, Side::Below];

/// Why a sketch cannot be drawn.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum Fault {
    /// A dimension names a value that nobody has worked out: no figure is invented.
    #[error("the sketch shows {key}, which has no value")]
    NoValue {
        /// Name of the value.
        key: &'static str,
    },
    /// A coordinate is not a number, or not finite.
    #[error("item {number} of the sketch is not finite: {item}")]
    NotFinite {
        /// Counted from 1.
        number: usize,
        /// The item as golden files hold it.
        item: String,
    },
    /// Nothing is drawn.
    #[error("the sketch is empty")]
    Empty,
    /// It does not fit at any scale.
    #[error("the sketch does not fit {width:.0} × {height:.0} mm at any scale")]
    NoRoom {
        /// Width there is, mm.
        width: f64,
        /// Height there is, mm.
        height: f64,
    },
    /// A text cannot be set.
    #[error(transparent)]
    Letters(#[from] fonts::Fault),
}

/// What was drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawing {
    /// The scale, which the drawing prints itself.
    pub scale: Scale,
    /// Letters and scales of its details.
    pub details: Vec<(char, Scale)>,
    /// Balloons in it, by number.
    pub balloons: Vec<Balloon>,
    /// What the drawing covers, notes included.
    pub bounds: Rect,
}

/// A sketch with its figures measured, ready to be drawn in a room.
#[derive(Debug)]
pub struct Draft {
    whole: Measured,
    /// The part above its axis, where it is round, and its diameter, mm.
    half: Option<(f64, Measured)>,
    /// What the room asked for last holds: its width and height, mm.
    laid: Option<((f64, f64), Option<Laid>)>,
}

/// Draws a sketch into `room` (mm of paper) of a page with capitals `capital` mm high. `value` gives the text of a value by
/// its name: a line feed in it stacks lines.
///
/// # Errors
/// [`Fault`], and then nothing is drawn.
pub fn draw(
    page: &mut Page,
    area: AreaId,
    room: Rect,
    (sketch, capital): (&Sketch, f64),
    value: impl Fn(&str) -> Option<String>,
) -> Result<Drawing, Fault> {
    Draft::new(sketch.clone(), capital, value)?.draw(page, area, room)
}

impl Draft {
    /// Reads a sketch; `value` gives the text of a value by its name, as for [`draw`].
    ///
    /// # Errors
    /// [`Fault`] for what cannot be drawn in any room.
    pub fn new(sketch: Sketch, capital: f64, value: impl Fn(&str) -> Option<String>) -> Result<Self, Fault> {
        let half = match (sketch.round, sketch.above_axis()) {
            (Some(diameter), Some(half)) => Some((diameter, Measured::new(half, capital, &value)?)),
            _ => None,
        };
        Ok(Self { whole: Measured::new(sketch, capital, &value)?, half, laid: None })
    }

    /// The scale at which the sketch is drawn in a room so wide and high, mm; nothing where it does not fit.
    ///
    /// # Errors
    /// [`Fault::Letters`].
    pub fn scale_in(&mut self, width: f64, height: f64) -> Result<Option<Scale>, Fault> {
        Ok(self.fitting(width, height)?.map(|laid| laid.scale))
    }

    /// The drawing with the first of two heights of letters, or with the second where a room so wide and high, mm, holds it larger so;
    /// nothing where it holds neither.
    ///
    /// # Errors
    /// As [`Self::new`] and [`Self::scale_in`].
    pub fn larger(
        of: impl Fn(f64) -> Result<Self, Fault>,
        [first, second]: [f64; 2],
        room: (f64, f64),
    ) -> Result<Option<Self>, Fault> {
        let mut first = of(first)?;
        let scale = first.scale_in(room.0, room.1)?;
        // Where the part alone has no room at a larger scale no letters are measured for it.
        if scale.is_some_and(|scale| !first.may_be_over(room, scale)) {
            return Ok(Some(first));
        }
        let mut second = of(second)?;
        let Some(scale) = scale else { return Ok(second.scale_in(room.0, room.1)?.map(|_| second)) };
        let larger = second.over(room, Some(scale))?;
        Ok(Some(if larger.is_some() { Self { laid: Some((room, larger)), ..second } } else { first }))
    }

    /// Whether the part alone has so much room, mm, at a scale larger than another.
    fn may_be_over(&self, room: (f64, f64), other: Scale) -> bool {
        let may = |sketch: &Measured| {
            let mut over = SCALES.iter().take_while(|scale| scale.factor() > other.factor());
            over.any(|scale| sketch.has_room(*scale, room))
        };
        may(&self.whole) || self.half.as_ref().is_some_and(|(_, half)| may(half))
    }

    /// Draws it into `room` (mm of paper) of a page.
    ///
    /// # Errors
    /// [`Fault`], and then nothing is drawn.
    pub fn draw(&mut self, page: &mut Page, area: AreaId, room: Rect) -> Result<Drawing, Fault> {
        let balloons = self.whole.balloons();
        let Some(laid) = self.fitting(room.width(), room.height())? else {
            return Err(Fault::NoRoom { width: room.width(), height: room.height() });
        };
        let shift = room.centre() - laid.bounds.centre();
        let bounds = laid.bounds.moved(shift.x, shift.y);
        ink::draw(page, area, &laid.lay, shift)?;
        Ok(Drawing { scale: laid.scale, details: laid.details.clone(), balloons, bounds })
    }

    /// What a room holds: the sketch at the largest scale that can be read there; a small round part above its axis only,
    /// where that is larger.
    fn fitting(&mut self, width: f64, height: f64) -> Result<Option<&Laid>, Fault> {
        if self.laid.as_ref().is_none_or(|(room, _)| *room != (width, height)) {
            self.laid = Some(((width, height), self.over((width, height), None)?));
        }
        Ok(self.laid.as_ref().and_then(|(_, laid)| laid.as_ref()))
    }

    /// What a room holds at a scale larger than another, where one is given, from the largest on. A round part that would be small
    /// stands above its axis only, at the largest scale at which that has room; whole only where that has none.
    fn over(&self, room: (f64, f64), other: Option<Scale>) -> Result<Option<Laid>, Fault> {
        let is_over = |scale: &Scale| other.is_none_or(|other| scale.factor() > other.factor());
        let small = |scale: &Scale| self.half.as_ref().is_some_and(|(diameter, _)| diameter * scale.factor() < SMALL);
        let mut tried = 0;
        for (at, scale) in SCALES.iter().enumerate() {
            // What is drawn whole at no scale over the other may still say whether it is small.
            if small(scale) {
                let halves = SCALES.iter().take(at + 1).skip(tried).filter(|scale| is_over(scale));
                if let Some(laid) = self.half_at(halves, room)? {
                    return Ok(Some(laid));
                }
                tried = at + 1;
            }
            if !is_over(scale) {
                break;
            }
            if let Some(laid) = self.whole.at(*scale, room)? {
                return Ok(Some(laid));
            }
        }
        Ok(None)
    }

    /// What is above its axis at the first of some scales that a room holds.
    fn half_at<'a>(&self, scales: impl Iterator<Item = &'a Scale>, room: (f64, f64)) -> Result<Option<Laid>, Fault> {
        let Some((_, half)) = &self.half else { return Ok(None) };
        for scale in scales {
            if let Some(laid) = half.at(*scale, room)? {
                return Ok(Some(laid));
            }
        }
        Ok(None)
    }
}

#[cfg(test)]
mod tests;
