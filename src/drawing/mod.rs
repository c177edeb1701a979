//! Floor 3. What a sketch says, in millimetres of the part: no page, no scale, no ink.
//!
//! `x` runs to the right, `y` runs **down** from the face or the datum, so that a depth is a `y`. A dimension shows a
//! value *by its name*: the drawing cannot disagree with the figures. What stands later in the list lies on top of what
//! stands before it: a hole is drawn over the metal that it goes through.

mod dump;
mod shapes;

pub use shapes::{arc, circle, drilled, lengthwise, mirrored, rectangle, ring_section};

/// A place on the part, mm.
pub type Point = nalgebra::Point2<f64>;

/// The kinds of line of a drawing standard (ISO 128).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stroke {
    /// An edge that is seen: thick.
    Visible,
    /// Thin and whole: root of a thread, imaginary edge.
    Thin,
    /// Long dash and dot: axis.
    Centre,
    /// Dashed: an edge behind metal.
    Hidden,
    /// Long dash and two dots: a neighbour, or a part in another place.
    Phantom,
}

/// On which side of the sketch something stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// To the left; a dimension there measures a height.
    Left,
    /// To the right; a dimension there measures a height.
    Right,
    /// Above; a dimension there measures a width.
    Above,
    /// Below; a dimension there measures a width.
    Below,
}

/// Whether the distance drawn is the distance meant.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Drawn {
    /// As every size should be.
    ToScale,
    /// Drawn larger or smaller so that it can be seen; the sheet says so beside the figure.
    NotToScale,
}

/// The figure that a dimension or a symbol shows: a value by its name.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Shows {
    /// What stands before the figure, such as `Ø` or `Ra `.
    pub before: &'static str,
    /// Name of the value.
    pub value: &'static str,
}

impl Shows {
    /// The value alone.
    #[must_use]
    pub const fn value(value: &'static str) -> Self {
        Self { before: "", value }
    }

    /// The value with the diameter sign.
    #[must_use]
    pub const fn diameter(value: &'static str) -> Self {
        Self { before: "Ø", value }
    }
}

/// One thing that a sketch says.
#[derive(Clone, Debug, PartialEq)]
pub enum Item {
    /// Metal cut through, hatched. Neighbours with another `hatch` are hatched the other way.
    Section {
        /// Closed polygon.
        outline: Vec<Point>,
        /// Even: one way; odd: the other.
        hatch: u8,
    },
    /// Metal that this set-up takes off: cross-hatched.
    CutAway(Vec<Point>),
    /// A space: drawn white with its outline.
    Void(Vec<Point>),
    /// An open run of straight lines.
    Line {
        /// Kind of line.
        stroke: Stroke,
        /// Corner after corner.
        points: Vec<Point>,
    },
    /// A whole circle.
    Circle {
        /// Kind of line.
        stroke: Stroke,
        /// Its centre.
        centre: Point,
        /// Its radius, mm.
        radius: f64,
    },
    /// Part of a circle.
    Arc {
        /// Kind of line.
        stroke: Stroke,
        /// Its centre.
        centre: Point,
        /// Its radius, mm.
        radius: f64,
        /// Where it begins, degrees from `x` towards `y` (clockwise as seen).
        from: f64,
        /// Where it ends, degrees.
        to: f64,
    },
    /// The thin line of a thread (ISO 6410): root of an inside thread, seen from the side.
    Thread {
        /// Beginning, at the face.
        from: Point,
        /// Last full thread.
        to: Point,
    },
    /// A size. Left and Right measure heights, Above and Below widths.
    Dimension {
        /// One end.
        from: Point,
        /// The other end.
        to: Point,
        /// Where its figure stands.
        side: Side,
        /// Whether it is drawn to scale.
        drawn: Drawn,
        /// The value that it shows.
        shows: Shows,
    },
    /// Words with a line to the thing meant.
    Label {
        /// The thing meant.
        at: Point,
        /// Where the words stand.
        towards: Side,
        /// The words.
        text: String,
    },
    /// The roughness wanted of a face (ISO 21920).
    Roughness {
        /// On the face.
        at: Point,
        /// The side of the face that is free.
        towards: Side,
        /// The value that it shows.
        shows: Shows,
    },
    /// Direction of feed.
    Feed {
        /// Where the tool begins.
        from: Point,
        /// Where it ends.
        to: Point,
    },
    /// The face that everything is measured from.
    Datum {
        /// On the face.
        at: Point,
        /// The side of the face that is free.
        towards: Side,
        /// Its letter.
        letter: char,
    },
    /// Where the indicator touches.
    Indicator {
        /// On the face.
        at: Point,
        /// The side of the face that is free.
        towards: Side,
    },
    /// What moves beyond the part.
    Moving {
        /// Closed polygon.
        outline: Vec<Point>,
        /// What it is.
        label: String,
    },
    /// Something in this sketch is drawn larger than it is.
    Exaggerated {
        /// What is.
        what: String,
        /// How many times its size.
        factor: f64,
    },
}

/// A sketch: items in the order in which they lie upon each other.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Sketch {
    /// The items.
    pub items: Vec<Item>,
}

impl Sketch {
    /// Adds an item on top.
    pub fn push(&mut self, item: Item) -> &mut Self {
        self.items.push(item);
        self
    }

    /// Metal cut through.
    pub fn section(&mut self, outline: Vec<Point>, hatch: u8) -> &mut Self {
        self.push(Item::Section { outline, hatch })
    }

    /// Metal that comes off.
    pub(crate) fn cut_away(&mut self, outline: Vec<Point>) -> &mut Self {
        self.push(Item::CutAway(outline))
    }

    /// A space.
    pub(crate) fn void(&mut self, outline: Vec<Point>) -> &mut Self {
        self.push(Item::Void(outline))
    }

    /// A line from corner to corner.
    pub fn line(&mut self, stroke: Stroke, points: Vec<Point>) -> &mut Self {
        self.push(Item::Line { stroke, points })
    }

    /// An upright axis at `x` from `top` to `bottom`, mm.
    pub fn axis(&mut self, x: f64, top: f64, bottom: f64) -> &mut Self {
        self.line(Stroke::Centre, vec![Point::new(x, top), Point::new(x, bottom)])
    }

    /// An inside thread of major diameter `major` about the axis at `x`, full to `depth`, in a hole of `minor`, mm:
    /// thin lines at the root, a thick one where the full thread ends (ISO 6410).
    pub fn thread(&mut self, x: f64, major: f64, depth: f64) -> &mut Self {
        let r = major / 2.0;
        for side in [x - r, x + r] {
            self.push(Item::Thread { from: Point::new(side, 0.0), to: Point::new(side, depth) });
        }
        self.line(Stroke::Visible, vec![Point::new(x - r, depth), Point::new(x + r, depth)])
    }

    /// A size drawn to scale.
    pub fn dimension(&mut self, from: Point, to: Point, side: Side, shows: Shows) -> &mut Self {
        self.push(Item::Dimension { from, to, side, drawn: Drawn::ToScale, shows })
    }

    /// A size that is not drawn to scale.
    pub(crate) fn dimension_not_to_scale(&mut self, from: Point, to: Point, side: Side, shows: Shows) -> &mut Self {
        self.push(Item::Dimension { from, to, side, drawn: Drawn::NotToScale, shows })
    }

    /// Words with a line to what they mean.
    pub fn label(&mut self, at: Point, towards: Side, text: impl Into<String>) -> &mut Self {
        self.push(Item::Label { at, towards, text: text.into() })
    }

    /// Every value that the sketch shows, in order.
    pub fn values(&self) -> impl Iterator<Item = &'static str> + '_ {
        self.items.iter().filter_map(|item| match item {
            Item::Dimension { shows, .. } | Item::Roughness { shows, .. } => Some(shows.value),
            _ => None,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::{Item, Point, Shows, Side, Sketch, rectangle};

    #[test]
    fn values_are_named_in_order() {
        let mut sketch = Sketch::default();
        sketch
            .section(rectangle(-5.0, 0.0, 5.0, 8.0), 0)
            .dimension(Point::new(5.0, 0.0), Point::new(5.0, 8.0), Side::Right, Shows::value("wall"))
            .push(Item::Roughness {
                at: Point::new(0.0, 0.0),
                towards: Side::Above,
                shows: Shows { before: "Ra ", value: "finish" },
            });
        assert_eq!(sketch.values().collect::<Vec<_>>(), ["wall", "finish"]);
    }

    #[test]
    fn a_thread_is_two_thin_lines_and_its_end() {
        let mut sketch = Sketch::default();
        sketch.thread(0.0, 9.62, 10.0);
        assert_eq!(sketch.items.len(), 3);
    }
}
