//! Floor 3. What a sketch says, in millimetres of the part: no page, no scale, no ink.
//!
//! `x` runs to the right, `y` runs **down** from the face or the datum, so that a depth is a `y`. A dimension shows a
//! value *by its name*: the drawing cannot disagree with the figures. What stands later in the list lies on top of what
//! stands before it: a hole is drawn over the metal that it goes through.

mod dump;
mod half;
mod shapes;

pub use shapes::{arc, circle, drilled, lengthwise, mirrored, rectangle, ring_section};

/// A place on the part, mm.
pub type Point = nalgebra::Point2<f64>;

/// A way on the part.
pub type Vector = nalgebra::Vector2<f64>;

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

/// What a balloon means: its number, the same on every sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Balloon {
    /// Where the part is gripped.
    Grip,
    /// Where the indicator touches.
    Indicator,
    /// The face that the dial counts from.
    Zero,
    /// The tool.
    Tool,
}

impl Balloon {
    /// Its number.
    #[must_use]
    pub const fn number(self) -> u8 {
        match self {
            Self::Grip => 1,
            Self::Indicator => 2,
            Self::Zero => 3,
            Self::Tool => 4,
        }
    }
}

/// A straight face of what is drawn, by its name: a dimension runs from one to another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Face {
    /// Its name.
    pub name: &'static str,
    /// One end.
    pub from: Point,
    /// The other end.
    pub to: Point,
}

/// The figure that a dimension or a symbol shows: a value by its name.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Shows {
    /// What stands before the figure, such as `Ø` or `Ra `.
    pub before: &'static str,
    /// Name of the value; of two limits the larger, which stands above.
    pub value: &'static str,
    /// Name of the smaller limit, where the size has two.
    pub least: Option<&'static str>,
}

impl Shows {
    /// The value alone.
    #[must_use]
    pub const fn value(value: &'static str) -> Self {
        Self { before: "", value, least: None }
    }

    /// The value with the diameter sign.
    #[must_use]
    pub const fn diameter(value: &'static str) -> Self {
        Self { before: "Ø", value, least: None }
    }

    /// The value with the roughness sign.
    #[must_use]
    pub const fn roughness(value: &'static str) -> Self {
        Self { before: "Ra ", value, least: None }
    }

    /// Two limits of one diameter.
    #[must_use]
    pub const fn limits(greatest: &'static str, least: &'static str) -> Self {
        Self { before: "Ø", value: greatest, least: Some(least) }
    }

    /// The names of its values, the larger first.
    pub fn values(&self) -> impl Iterator<Item = &'static str> + use<> {
        std::iter::once(self.value).chain(self.least)
    }
}

/// One thing that a sketch says.
#[derive(Clone, Debug, PartialEq)]
pub enum Item {
    /// Metal cut through, as found and as it stays, hatched. Neighbours with another `hatch` are hatched the other way.
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
    /// What was there before and goes with the cut, such as the old hole: phantom.
    Old(Vec<Point>),
    /// A jaw, a clamp or a support on the grip.
    Jaw(Vec<Point>),
    /// What presses, drills, reams or taps: outline of a tool that stands on the axis.
    Tooling(Vec<Point>),
    /// Where the part, a jaw or a tool is not known to end: a break line in place of an edge.
    Break {
        /// One end.
        from: Point,
        /// The other end.
        to: Point,
    },
    /// The axis of a part drawn above it only, with the marks that say: the other half is the same.
    Symmetry {
        /// One end of the part.
        from: Point,
        /// The other end.
        to: Point,
    },
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
        /// Names of the faces on which the ends lie.
        faces: [&'static str; 2],
        /// Where its figure stands.
        side: Side,
        /// Whether a break shortens it: its figure is underlined.
        shortened: bool,
        /// Whether it ends on the axis, beyond which the other half is the same.
        half: bool,
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
    /// A figure with a line to the thing meant, such as a temperature or a force.
    Reads {
        /// The thing meant.
        at: Point,
        /// Where the figure stands.
        towards: Side,
        /// The value that it shows.
        shows: Shows,
    },
    /// An arrow that turns about an upright axis, and a wrench with two arms where it is turned by hand.
    Turning {
        /// Upper end of what is turned.
        at: Point,
        /// Whether a wrench turns it.
        wrench: bool,
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
    /// A turning tool, its nose at the start of its feed.
    Tool {
        /// The nose.
        nose: Point,
        /// The way that it is fed, of length 1.
        feed: Vector,
        /// Out of the face that it leaves, of length 1.
        free: Vector,
        /// Cutting edge to direction of feed, degrees.
        edge: f64,
    },
    /// A number in a circle with a line to what it means.
    Balloon {
        /// What it means.
        balloon: Balloon,
        /// The thing meant.
        at: Point,
        /// Where the circle stands.
        towards: Side,
    },
    /// A thin cut: where it would be too thin on the paper, it is drawn once more, larger, in a circle.
    Detail {
        /// A place in the cut.
        at: Point,
        /// How thick the cut is, mm.
        across: f64,
    },
    /// What moves beyond the part.
    Moving {
        /// Closed polygon.
        outline: Vec<Point>,
        /// What it is.
        label: String,
    },
}

/// A sketch: items in the order in which they lie upon each other.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Sketch {
    /// What stands under the scale: how views are laid out.
    pub under_scale: Option<&'static str>,
    /// The items.
    pub items: Vec<Item>,
    /// The faces that its dimensions name.
    pub faces: Vec<Face>,
    /// Greatest diameter about the level axis at `y` = 0, where all that is drawn of the part is round about it, mm.
    pub round: Option<f64>,
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

    /// Names a straight face.
    pub fn face(&mut self, name: &'static str, from: Point, to: Point) -> &mut Self {
        self.faces.push(Face { name, from, to });
        self
    }

    /// Names both sides of what is `diameter` wide about the axis at `x`, from `top` to `bottom`, mm.
    pub fn faces_about(
        &mut self,
        names: [&'static str; 2],
        (x, diameter): (f64, f64),
        (top, bottom): (f64, f64),
    ) -> &mut Self {
        for (name, side) in names.into_iter().zip([x - diameter / 2.0, x + diameter / 2.0]) {
            self.face(name, Point::new(side, top), Point::new(side, bottom));
        }
        self
    }

    /// A size between two faces named before: its ends are those of the faces that lie nearest to the figure. A name that
    /// no face bears draws nothing.
    pub fn between(&mut self, first: &'static str, second: &'static str, side: Side, shows: Shows) -> &mut Self {
        let end = |name: &str| self.faces.iter().rev().find(|face| face.name == name).map(|face| face.nearest(side));
        match (end(first), end(second)) {
            (Some(from), Some(to)) => {
                let faces = [first, second];
                self.push(Item::Dimension { from, to, faces, side, shortened: false, half: false, shows })
            }
            _ => self,
        }
    }

    /// What was there before.
    pub fn old(&mut self, outline: Vec<Point>) -> &mut Self {
        self.push(Item::Old(outline))
    }

    /// A jaw, a clamp or a support.
    pub fn jaw(&mut self, outline: Vec<Point>) -> &mut Self {
        self.push(Item::Jaw(outline))
    }

    /// What presses, drills, reams or taps.
    pub fn tooling(&mut self, outline: Vec<Point>) -> &mut Self {
        self.push(Item::Tooling(outline))
    }

    /// An end that is not known.
    pub fn breaks(&mut self, from: Point, to: Point) -> &mut Self {
        self.push(Item::Break { from, to })
    }

    /// A balloon.
    pub fn balloon(&mut self, balloon: Balloon, at: Point, towards: Side) -> &mut Self {
        self.push(Item::Balloon { balloon, at, towards })
    }

    /// A thin cut.
    pub fn detail(&mut self, at: Point, across: f64) -> &mut Self {
        self.push(Item::Detail { at, across })
    }

    /// Words with a line to what they mean.
    pub fn label(&mut self, at: Point, towards: Side, text: impl Into<String>) -> &mut Self {
        self.push(Item::Label { at, towards, text: text.into() })
    }

    /// Every value that the sketch shows, in order.
    pub fn values(&self) -> impl Iterator<Item = &'static str> + '_ {
        self.items
            .iter()
            .filter_map(|item| match item {
                Item::Dimension { shows, .. } | Item::Roughness { shows, .. } | Item::Reads { shows, .. } => {
                    Some(shows.values())
                }
                _ => None,
            })
            .flatten()
    }
}

impl Face {
    /// The end that lies furthest towards a side.
    #[must_use]
    pub fn nearest(&self, side: Side) -> Point {
        let out = |p: &Point| match side {
            Side::Left => -p.x,
            Side::Right => p.x,
            Side::Above => -p.y,
            Side::Below => p.y,
        };
        if out(&self.from) >= out(&self.to) { self.from } else { self.to }
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
            .face("face", Point::new(-5.0, 0.0), Point::new(5.0, 0.0))
            .face("far face", Point::new(-5.0, 8.0), Point::new(5.0, 8.0))
            .between("face", "far face", Side::Right, Shows::limits("wall", "wall_least"))
            .push(Item::Roughness {
                at: Point::new(0.0, 0.0),
                towards: Side::Above,
                shows: Shows::roughness("finish"),
            });
        assert_eq!(sketch.values().collect::<Vec<_>>(), ["wall", "wall_least", "finish"]);
        assert!(matches!(sketch.items[1], Item::Dimension { from, .. } if from == Point::new(5.0, 0.0)));
    }

    #[test]
    fn a_thread_is_two_thin_lines_and_its_end() {
        let mut sketch = Sketch::default();
        sketch.thread(0.0, 9.62, 10.0);
        assert_eq!(sketch.items.len(), 3);
    }
}
