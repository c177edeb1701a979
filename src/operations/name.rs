//! Names of computed values.

use crate::job::Address;
use crate::proof::{At, Cause, Fact, Figure, Node, Origin, Verdict, Worked};
use crate::quantity::{Measured, Misread, Quantity, Rounds, Unit};
use crate::shop::Gauge;
use std::marker::PhantomData;
use std::sync::Arc;

/// The name of a computed value and what it is; `Q` fixes its unit wherever it is read: card, sketch, log, JSON.
#[derive(Debug)]
pub struct Name<Q> {
    /// The key, in underscores.
    pub key: &'static str,
    /// What it is, in words.
    pub means: &'static str,
    rounds: Rounds,
    left: Option<Gauge>,
    is_foreign: bool,
    part: Option<OfPart>,
    kind: PhantomData<Q>,
}

/// Name, meaning and unit of a value, its type forgotten.
#[derive(Clone, Copy, Debug)]
pub struct Declared {
    /// The key.
    pub key: &'static str,
    /// What it is.
    pub means: &'static str,
    /// Its unit.
    pub unit: Unit,
    /// How it is read once the work is done, where the operation asks the log for it.
    pub left: Option<Left>,
    /// Which size of the part it is, where other operations may cut that too.
    pub part: Option<OfPart>,
}

impl Declared {
    /// Whether it is a size of a part, or is read once the work is done: no figure of a tool, a machine or a method.
    pub const fn is_size(&self) -> bool {
        self.part.is_some() || self.left.is_some()
    }
}

/// A size of a part that several operations may go by, and cut.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum PartSize {
    /// Over two faces: a length, a thickness.
    Faces,
    /// Metal from a face to what must not be reached: it stays as thin as it was left.
    Wall,
    /// An outside diameter.
    Outside,
    /// A bar that pieces come off.
    Bar,
    /// A bore.
    Inside,
    /// A bore that something is pressed into: another than that of what is pressed in.
    Seat,
    /// The bore of what was pressed in: a bore to whoever comes after, and no seat.
    Bushed,
    /// An outside about a bore, whose wall must stand: it is as thin as it is left in the end.
    Around,
    /// Metal from the middle of a hole to the nearest edge, whichever outside or face that is: as much as there is in the end.
    Edge,
    /// How deep a hole is at its full diameter, from its face.
    Depth,
    /// How deep something reaches already: what takes from the face lets it reach no deeper.
    Reached,
    /// Metal that is gone from a surface since it was new.
    Gone,
    /// How far an insert sits below the face of the part.
    SetDown,
    /// The high and low places of a face, as it was mapped.
    Map,
    /// Room over a piston, which every face of the joint takes from.
    Squish,
    /// How far off an indicator runs in a turn, as the part is held.
    RunOut,
    /// Room that is left over a piston at its highest, likewise.
    ClearanceVolume,
}

/// Whether a value is a size of the part as it was found, or as the work leaves it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OfPart {
    /// As found.
    Found(PartSize),
    /// As the work leaves it.
    Leaves(PartSize),
    /// As one set-up of the work leaves it, and a later one cuts it further.
    Passing(PartSize),
    /// About so large as it comes to light: nobody has read it before, and only a reading says how large it is.
    Opens(PartSize),
    /// How surfaces of these sizes lay or looked as found: how deep a groove, how far off a middle, how rough. It is gone once one of them
    /// is cut.
    Form(&'static [PartSize]),
    /// What comes of the work besides, and nobody need read: a wall that is left, a hole as wide as its drill.
    Comes,
}

impl PartSize {
    /// Whether it grows as metal goes.
    pub const fn grows_as_metal_goes(self) -> bool {
        matches!(self, Self::Inside | Self::Seat | Self::Bushed | Self::Depth | Self::Reached | Self::Gone)
    }
}

/// How a value is read once the work is done.
#[derive(Clone, Copy, Debug)]
pub struct Left {
    /// What kind of size it is.
    pub gauge: Gauge,
    /// Whether it is of another metal than the part: nobody knows what it was at 20 °C that was read warm.
    pub is_foreign: bool,
    unit: Unit,
    read: fn(&str) -> Result<Measured<f64>, Misread>,
}

impl Left {
    /// Its unit.
    pub const fn unit(&self) -> Unit {
        self.unit
    }

    /// Reads it as it was typed, in the unit of the value.
    ///
    /// # Errors
    /// [`Misread`] for another unit, a span, or what is no figure.
    pub fn read(&self, text: &str) -> Result<Measured<f64>, Misread> {
        (self.read)(text)
    }
}

fn read_as<Q: Quantity>(text: &str) -> Result<Measured<f64>, Misread> {
    let Measured { value, plus_minus, grain } = text.parse::<Measured<Q>>()?;
    Ok(Measured { value: value.number(), plus_minus, grain })
}

impl<Q: Quantity> Name<Q> {
    /// Names a value.
    pub const fn new(key: &'static str, means: &'static str) -> Self {
        Self { key, means, rounds: Rounds::Nearest, left: None, is_foreign: false, part: None, kind: PhantomData }
    }

    /// Names a lower limit, or what is needed at least: it is printed rounded up.
    pub const fn lower(key: &'static str, means: &'static str) -> Self {
        Self { key, means, rounds: Rounds::Up, left: None, is_foreign: false, part: None, kind: PhantomData }
    }

    /// Names an upper limit, or what may be had at most: it is printed rounded down.
    pub const fn upper(key: &'static str, means: &'static str) -> Self {
        Self { key, means, rounds: Rounds::Down, left: None, is_foreign: false, part: None, kind: PhantomData }
    }

    /// The same name of a size that the log may hold as it was left, read by such a gauge: the operation asks for it
    /// ([`super::Bench::left`]).
    #[must_use]
    pub const fn left(self, gauge: Gauge) -> Self {
        Self { left: Some(gauge), ..self }
    }

    /// The same name of what is of another metal than the part.
    #[must_use]
    pub const fn foreign(self) -> Self {
        Self { is_foreign: true, ..self }
    }

    /// The same name of a size of the part as it was found.
    #[must_use]
    pub const fn found(self, size: PartSize) -> Self {
        Self { part: Some(OfPart::Found(size)), ..self }
    }

    /// The same name of a size of the part as the work leaves it.
    #[must_use]
    pub const fn leaves(self, size: PartSize) -> Self {
        Self { part: Some(OfPart::Leaves(size)), ..self }
    }

    /// The same name of a size of the part that one set-up leaves and a later one cuts further.
    #[must_use]
    pub const fn passing(self, size: PartSize) -> Self {
        Self { part: Some(OfPart::Passing(size)), ..self }
    }

    /// The same name of a size of the part that comes to light by the work.
    #[must_use]
    pub const fn opens(self, size: PartSize) -> Self {
        Self { part: Some(OfPart::Opens(size)), ..self }
    }

    /// The same name of how surfaces of these sizes lay or looked as found.
    #[must_use]
    pub const fn form_of(self, surfaces: &'static [PartSize]) -> Self {
        Self { part: Some(OfPart::Form(surfaces)), ..self }
    }

    /// The same name of a size of the part that comes of the work besides.
    #[must_use]
    pub const fn comes(self) -> Self {
        Self { part: Some(OfPart::Comes), ..self }
    }

    /// The declaration, for the list of what an operation can give.
    pub const fn declare(&self) -> Declared {
        let left = match self.left {
            Some(gauge) => Some(Left { gauge, is_foreign: self.is_foreign, unit: Q::UNIT, read: read_as::<Q> }),
            None => None,
        };
        Declared { key: self.key, means: self.means, unit: Q::UNIT, left, part: self.part }
    }
}

/// A size as it was left out of readings in a row, by its name.
pub type OfRow = (&'static str, Figure);

/// A size that an operation reads of some other part, whichever that is: a link of a gap, the shaft of a bush.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct ReadElsewhere {
    /// What it is, as it was typed or as the value is called.
    pub(crate) what: String,
    /// Which size; nothing where it may be any.
    pub(crate) size: Option<PartSize>,
    /// As read.
    pub(crate) value: Value,
    /// How it counts, where it is a link that another operation leaves.
    pub(crate) link: Option<LinkOf>,
    /// Whether it is held against the work on other parts alone.
    pub(crate) is_of_another: bool,
}

impl ReadElsewhere {
    /// A size that is none of the part at hand, or that is held against the work on that elsewhere.
    pub(crate) fn of_another(size: PartSize, value: Value) -> Self {
        Self { what: value.means.to_owned(), size: Some(size), value, link: None, is_of_another: true }
    }
}

/// A link of a gap that another operation leaves.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct LinkOf {
    /// What leaves it.
    pub(crate) of: At<Address>,
    /// How often it counts: above zero it opens the gap.
    pub(crate) by: f64,
    /// What is said where it counts the wrong way: a gap of any kind may lie otherwise.
    pub(crate) wrong: Verdict,
}

/// A value on record.
#[derive(Clone, Debug, PartialEq)]
pub struct Value {
    /// Its key.
    pub key: &'static str,
    /// What it is.
    pub means: &'static str,
    /// The figure.
    pub number: f64,
    /// Its doubt (k = 2); 0 where it has none.
    pub plus_minus: f64,
    /// The signed share of each cause in it.
    pub shares: Vec<(Cause, f64)>,
    /// Low and high of a handbook disagreement.
    pub band: Option<(f64, f64)>,
    /// Its unit.
    pub unit: Unit,
    /// Which way it is rounded where it is printed.
    pub rounds: Rounds,
    /// How it came about.
    pub origin: Arc<Origin>,
    /// Whether it does not follow its readings in a straight line over their doubt: its doubt is then the wider side's.
    pub bent: bool,
    /// Whether both ends of its band are there, each at a place of the part.
    pub spread: bool,
    /// What it was worked from.
    pub node: Node,
    /// Whether it rests on a figure that was remembered and not read.
    pub from_memory: bool,
}

impl Value {
    /// The figure with its doubt, for a blank.
    pub(crate) fn fact(&self) -> Fact {
        Fact::doubted(self.number, self.plus_minus, self.unit).rounded(self.rounds)
    }

    /// The figure as it crosses to another operation.
    pub fn figure(&self) -> Figure {
        Figure {
            number: self.number,
            unit: self.unit,
            shares: self.shares.clone(),
            band: self.band,
            origin: self.origin.clone(),
            from_memory: self.from_memory,
            bent: self.bent,
            spread: self.spread,
        }
    }

    /// A figure under its name.
    pub fn of<Q: Quantity>(name: &Name<Q>, worked: &Worked<Q>) -> Self {
        Self {
            key: name.key,
            means: name.means,
            number: worked.number(),
            plus_minus: worked.plus_minus(),
            shares: worked.shares().to_vec(),
            band: worked.band(),
            unit: Q::UNIT,
            rounds: name.rounds,
            origin: worked.origin_of_doubt(),
            bent: worked.is_bent(),
            spread: worked.is_spread(),
            node: worked.node().clone(),
            from_memory: worked.from_memory(),
        }
    }
}
