//! The one text form of a sketch, for golden files: rounded to 0.01 mm, never a minus nought.

use super::{Item, Point, Shows, Sketch};
use std::fmt::{Display, Formatter, Result};

/// A number as golden files hold it.
struct Figure(f64);

impl Display for Figure {
    fn fmt(&self, f: &mut Formatter<'_>) -> Result {
        write!(f, "{:.2}", (self.0 * 100.0).round() / 100.0 + 0.0)
    }
}

struct Places<'a>(&'a [Point]);

impl Display for Places<'_> {
    fn fmt(&self, f: &mut Formatter<'_>) -> Result {
        self.0.iter().try_for_each(|p| write!(f, " {},{}", Figure(p.x), Figure(p.y)))
    }
}

impl Display for Shows {
    fn fmt(&self, f: &mut Formatter<'_>) -> Result {
        write!(f, "{}{{{}}}", self.before, self.value)?;
        self.least.map_or(Ok(()), |least| write!(f, "/{{{least}}}"))
    }
}

impl Display for Item {
    fn fmt(&self, f: &mut Formatter<'_>) -> Result {
        match self {
            Self::Section { outline, hatch } => write!(f, "section {hatch}{}", Places(outline)),
            Self::CutAway(outline) => write!(f, "cut-away{}", Places(outline)),
            Self::Void(outline) => write!(f, "void{}", Places(outline)),
            Self::Line { stroke, points } => write!(f, "line {stroke:?}{}", Places(points)),
            Self::Circle { stroke, centre, radius } => {
                write!(f, "circle {stroke:?}{} r {}", Places(&[*centre]), Figure(*radius))
            }
            Self::Arc { stroke, centre, radius, from, to } => {
                write!(
                    f,
                    "arc {stroke:?}{} r {} from {} to {}",
                    Places(&[*centre]),
                    Figure(*radius),
                    Figure(*from),
                    Figure(*to)
                )
            }
            Self::Thread { from, to } => write!(f, "thread{}", Places(&[*from, *to])),
            Self::Dimension { from, to, faces: [a, b], side, shortened, half, shows } => {
                let short = if *shortened { " shortened" } else { "" };
                let half = if *half { " half" } else { "" };
                write!(f, "dimension {side:?}{} from {a:?} to {b:?} shows {shows}{short}{half}", Places(&[*from, *to]))
            }
            Self::Label { at, towards, text } => {
                write!(f, "label {towards:?}{} {text:?}", Places(&[*at]))
            }
            Self::Reads { at, towards, shows } => write!(f, "reads {towards:?}{} shows {shows}", Places(&[*at])),
            Self::Turning { at, wrench } => write!(f, "turning{} wrench {wrench}", Places(&[*at])),
            Self::Roughness { at, towards, shows } => {
                write!(f, "roughness {towards:?}{} shows {shows}", Places(&[*at]))
            }
            Self::Feed { from, to } => write!(f, "feed{}", Places(&[*from, *to])),
            Self::Datum { at, towards, letter } => write!(f, "datum {letter} {towards:?}{}", Places(&[*at])),
            Self::Indicator { at, towards } => write!(f, "indicator {towards:?}{}", Places(&[*at])),
            Self::Moving { outline, label } => write!(f, "moving{} {label:?}", Places(outline)),
            Self::Old(outline) => write!(f, "old{}", Places(outline)),
            Self::Jaw(outline) => write!(f, "jaw{}", Places(outline)),
            Self::Tooling(outline) => write!(f, "tooling{}", Places(outline)),
            Self::Symmetry { from, to } => write!(f, "symmetry{}", Places(&[*from, *to])),
            Self::Break { from, to } => write!(f, "break{}", Places(&[*from, *to])),
            Self::Tool { nose, feed, edge, .. } => {
                write!(f, "tool{} fed {},{} edge {}", Places(&[*nose]), Figure(feed.x), Figure(feed.y), Figure(*edge))
            }
            Self::Balloon { balloon, at, towards } => {
                write!(f, "balloon {} {towards:?}{}", balloon.number(), Places(&[*at]))
            }
            Self::Detail { at, across } => write!(f, "detail{} across {}", Places(&[*at]), Figure(*across)),
        }
    }
}

impl Display for Sketch {
    fn fmt(&self, f: &mut Formatter<'_>) -> Result {
        self.items.iter().try_for_each(|item| writeln!(f, "{item}"))
    }
}

#[cfg(test)]
mod tests {
    use crate::drawing::{Point, Shows, Side, Sketch, Stroke};

    #[test]
    fn golden_form_is_rounded_and_knows_no_minus_nought() {
        let mut sketch = Sketch::default();
        sketch
            .line(Stroke::Centre, vec![Point::new(-0.001, 1.0 / 3.0), Point::new(-0.0, 2.0)])
            .face("upper face", Point::new(0.0, 0.0), Point::new(0.0, 0.0))
            .face("floor", Point::new(0.0, 2.0), Point::new(0.0, 2.0))
            .between("upper face", "floor", Side::Left, Shows::diameter("drill_diameter"));
        assert_eq!(
            sketch.to_string(),
            "line Centre 0.00,0.33 0.00,2.00\ndimension Left 0.00,0.00 0.00,2.00 from \"upper face\" to \"floor\" shows Ø{drill_diameter}\n"
        );
    }
}
