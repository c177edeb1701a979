//! Layer 3. What a sketch says, in millimetres of the part: no page, no scale, no ink.
//!
//! `x` runs to the right, `y` runs **down** from the face or the datum, so that a depth is a `y`. A dimension shows a
//! value *by its name*: the drawing cannot disagree with the figures. What stands later in the list lies on top of what
//! stands before it: a hole is drawn over the metal that it goes through.

mod build;
mod dump;
mod half;
mod level;
mod links;
mod pack;
mod pictures;
mod polar;
mod shapes;
mod spots;
mod wear;

pub use level::level_lines;
pub use links::{LinkRow, Links};
pub use pack::{Pack, Stretch};
pub use pictures::{Bar, BarGroup, Bars, Gap, Ladder, LimitLine, Ruler, Rung, RungHole, TextRow};
pub use polar::{Goes, Grip, Polar, Spoke};
pub use shapes::{arc, circle, drilled, lengthwise, mirrored, rectangle, ring_section};
pub use spots::{Spot, Spots, Touches};
pub use wear::{Wear, WearAxis, WearKind, WearLine};

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

    /// Its number in its circle, as a letter.
    #[must_use]
    pub const fn sign(self) -> &'static str {
        match self {
            Self::Grip => "①",
            Self::Indicator => "②",
            Self::Zero => "③",
            Self::Tool => "④",
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

    /// The value behind its name.
    #[must_use]
    pub const fn named(name: &'static str, value: &'static str) -> Self {
        Self { before: name, value, least: None }
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

    /// Two limits of one roughness.
    #[must_use]
    pub const fn roughness_between(greatest: &'static str, least: &'static str) -> Self {
        Self { before: "Ra ", value: greatest, least: Some(least) }
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

/// How views stand to each other (ISO 5456-2).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Projection {
    /// A view from the left stands on the right.
    First,
    /// A view from the left stands on the left.
    Third,
}

/// A sketch: items in the order in which they lie upon each other.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Sketch {
    /// How views stand to each other, as a sign under the scale.
    pub projection: Option<Projection>,
    /// The items.
    pub items: Vec<Item>,
    /// The faces that its dimensions name.
    pub faces: Vec<Face>,
    /// Greatest diameter about the level axis at `y` = 0, where all that is drawn of the part is round about it, mm.
    pub round: Option<f64>,
}
