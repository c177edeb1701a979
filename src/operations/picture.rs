//! What an operation shows beside its sketches: which of its values stand side by side in a picture. The figures are read out of
//! the answer where the picture is drawn.

use crate::proof::{Section, Speak, Words};

/// A picture that compares.
#[derive(Clone, Debug, PartialEq)]
pub enum Picture<W = Words> {
    /// The alternatives of an answer, lengths in one wall.
    Lengths(Box<Lengths>),
    /// Sizes that fit into each other, as bars on one scale.
    Fit(Fit<W>),
    /// Readings round work in a chuck, and what moves its centre.
    Polar(Box<Polar>),
    /// A face from above: how high each place stands that was read.
    Spots(Box<HighSpots>),
    /// The links of a gap, each with its share of the doubt.
    Links(Box<Links>),
    /// A pack of shims, and the float that it leaves.
    Pack(Box<Pack>),
    /// A worn bore by its depth, against what it may be bored to.
    Wear(Box<WornBore>),
}

/// A worn bore as it was read, and what it is held against.
#[derive(Clone, Debug, PartialEq)]
pub struct WornBore {
    /// The depths, mm.
    pub depths: Vec<f64>,
    /// The axes by their names, each with a diameter at every depth, mm; without names the widest and the narrowest.
    pub axes: Vec<(Option<String>, Vec<f64>)>,
    /// The bore when it was new, mm.
    pub nominal: f64,
    /// What cleans it about its worn place, and about its old axis.
    pub cleans: [&'static str; 2],
    /// What it is bored to, in each alternative; absent where nothing may be done.
    pub bored: Option<&'static str>,
}

/// Readings round work that turns off its centre, and how that is moved.
#[derive(Clone, Debug, PartialEq)]
pub struct Polar {
    /// The set-up whose sketch it is.
    pub set_up: &'static str,
    /// Each reading: degrees from the first jaw, and how far the work stands out there over the mean of all, mm.
    pub reads: Vec<(f64, f64)>,
    /// Where the centre is: towards the first jaw, and across, mm.
    pub centre: (f64, f64),
    /// How far it is off.
    pub off: &'static str,
    /// Towards where.
    pub towards: &'static str,
    /// What an indicator may read in a turn.
    pub within: &'static str,
    /// What holds the work.
    pub jaws: Vec<Jaw>,
    /// How far it is tapped, where no jaw moves it, mm.
    pub tapped: Option<f64>,
}

/// A face that was read at places.
#[derive(Clone, Debug, PartialEq)]
pub struct HighSpots {
    /// The set-ups whose sketch it is.
    pub set_ups: &'static [&'static str],
    /// Whether they stand on a grid, so that what lies between four of them is face too.
    pub on_grid: bool,
    /// The places.
    pub places: Vec<HighSpot>,
}

/// A place of a face, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HighSpot {
    /// Along the face.
    pub x: f64,
    /// Across it.
    pub y: f64,
    /// How high it stands over the lower of the two planes that hold the face between them.
    pub height: f64,
    /// Whether it touches a plane, and whether that is the upper one.
    pub touches: Option<bool>,
}

/// Links of a gap, and what it may be.
#[derive(Clone, Debug, PartialEq)]
pub struct Links {
    /// The gap.
    pub gap: &'static str,
    /// Least and most that is wanted of it, mm.
    pub wanted: Option<(f64, f64)>,
    /// The links.
    pub links: Vec<LinkShare>,
}

/// A link of a gap.
#[derive(Clone, Debug, PartialEq)]
pub struct LinkShare {
    /// What it is.
    pub name: String,
    /// How often it counts, with its sign.
    pub by: f64,
    /// Its size, mm.
    pub size: f64,
    /// Its doubt, mm.
    pub doubt: f64,
    /// Its limits, where it has limits in place of a reading, mm.
    pub limits: Option<(f64, f64)>,
    /// Its share of the whole squared doubt.
    pub share: f64,
}

/// A pack of shims.
#[derive(Clone, Debug, PartialEq)]
pub struct Pack {
    /// The set-up whose sketch it is.
    pub set_up: &'static str,
    /// What opens and closes the float.
    pub links: Vec<PackLink>,
    /// Thicknesses in the order in which they lie, from the hard face to the one that turns, mm.
    pub shims: Vec<f64>,
    /// The float without a shim.
    pub bare: &'static str,
    /// The float that is left.
    pub left: &'static str,
    /// Least and most that is wanted of it, mm.
    pub wanted: (f64, f64),
}

/// A size in the path of a float.
#[derive(Clone, Debug, PartialEq)]
pub struct PackLink {
    /// What it is.
    pub name: String,
    /// Whether it opens, 1, or closes, -1.
    pub by: f64,
    /// Its size, mm.
    pub size: f64,
}

/// A jaw that holds work.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Jaw {
    /// Where it stands, degrees from the first.
    pub degrees: f64,
    /// Its number.
    pub number: u8,
    /// What is done to it.
    pub does: Option<JawWork>,
}

/// What is done to a jaw.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum JawWork {
    /// It is moved.
    Moved {
        /// Which of the moves it is, counted from 1.
        order: u8,
        /// Whether it is loosened; else it is tightened.
        loosened: bool,
        /// Whether it goes away from the axis.
        outward: bool,
        /// By how much, mm.
        by: f64,
        /// Turn of its key, degrees.
        turn: Option<f64>,
    },
    /// A shim so thick goes in under it, mm.
    Shimmed(f64),
}

/// Lengths in one wall: names of values, those of one length in each alternative.
#[derive(Clone, Debug, PartialEq)]
pub struct Lengths {
    /// From the face to the far side.
    pub wall: &'static str,
    /// Diameter of the hole.
    pub hole: &'static str,
    /// Diameter at the roots of its thread.
    pub roots: &'static str,
    /// Inside diameter of the coil, mm.
    pub coil: f64,
    /// Of each length: where the full diameter ends; absent where holes go through.
    pub depth: &'static str,
    /// Of each length: where the tip is.
    pub tip: &'static str,
    /// Of each length: last full thread.
    pub thread: &'static str,
    /// Of each length: how far the first coil sits below the face.
    pub set_down: &'static str,
    /// Of each length: from first to last coil.
    pub fitted: &'static str,
    /// The check that judges what a length leaves.
    pub check: &'static str,
    /// Diameter and depth of the old hole, mm.
    pub old: Option<(f64, f64)>,
    /// How many of each length are in the drawers, in the order of the alternatives; none where there is no shop.
    pub in_drawer: Vec<u32>,
}

/// Sizes that fit into each other.
#[derive(Clone, Debug, PartialEq)]
pub struct Fit<W = Words> {
    /// Groups of sizes, each shown where it is measured.
    pub groups: Vec<FitGroup<W>>,
}

/// Sizes that are compared with each other.
#[derive(Clone, Debug, PartialEq)]
pub struct FitGroup<W = Words> {
    /// The set-up that measures them.
    pub set_up: &'static str,
    /// The sizes, each with its name.
    pub sizes: Vec<(W, Ends)>,
    /// What lies between the last two, where that is asked: the second less the first.
    pub between: Option<(W, Between)>,
    /// What is marked on the ruler, and what is read off there.
    pub ruler: W,
    /// What is left up to a size: its name, and the size.
    pub left_to: Option<(W, &'static str)>,
    /// Limits as lines across some of the sizes: what they are, and each of them.
    pub limits: Option<(W, Vec<FitLimit>)>,
}

/// A limit as a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct FitLimit {
    /// The value that it is.
    pub key: &'static str,
    /// The sizes that it holds for, by their places: from the first to before the second.
    pub holds: (usize, usize),
}

/// What lies between two sizes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Between {
    /// One grips the other.
    Grip,
    /// There is room.
    Room,
}

/// From where to where a size goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ends {
    /// By its doubt.
    Doubt(&'static str),
    /// Between two values.
    Limits(&'static str, &'static str),
}

impl<W> Picture<W> {
    /// The set-up whose sketch it is, where it stands in the place of one.
    pub fn is_sketch_of(&self, set_up: &str) -> bool {
        match self {
            Self::Lengths(_) | Self::Fit(_) | Self::Links(_) | Self::Wear(_) => false,
            Self::Polar(polar) => polar.set_up == set_up,
            Self::Spots(spots) => spots.set_ups.contains(&set_up),
            Self::Pack(pack) => pack.set_up == set_up,
        }
    }

    /// What may be seen of it where the operation fails: what was found, nothing that could be done; nothing where that is all.
    pub(crate) fn without_targets(self) -> Option<Self> {
        match self {
            Self::Lengths(_) | Self::Spots(_) | Self::Links(_) => Some(self),
            Self::Fit(_) | Self::Pack(_) => None,
            Self::Wear(mut wear) => {
                wear.bored = None;
                Some(Self::Wear(wear))
            }
            Self::Polar(mut polar) => {
                polar.jaws.iter_mut().for_each(|jaw| jaw.does = None);
                polar.tapped = None;
                Some(Self::Polar(polar))
            }
        }
    }

    /// The same picture in other words.
    ///
    /// # Errors
    /// Where a name has no other words.
    pub(super) fn try_map_words<S: Speak<W>>(&self, speaker: &S) -> Result<Picture<S::Said>, S::Slip> {
        let say = |words: &W| speaker.say(Section::Names, words, &[]);
        let group = |group: &FitGroup<W>| {
            Ok(FitGroup {
                set_up: group.set_up,
                sizes: group.sizes.iter().map(|(name, ends)| Ok((say(name)?, *ends))).collect::<Result<_, _>>()?,
                between: group.between.as_ref().map(|(name, what)| Ok((say(name)?, *what))).transpose()?,
                ruler: say(&group.ruler)?,
                left_to: group.left_to.as_ref().map(|(name, key)| Ok((say(name)?, *key))).transpose()?,
                limits: group.limits.as_ref().map(|(name, all)| Ok((say(name)?, all.clone()))).transpose()?,
            })
        };
        Ok(match self {
            Self::Lengths(lengths) => Picture::Lengths(lengths.clone()),
            Self::Polar(polar) => Picture::Polar(polar.clone()),
            Self::Spots(spots) => Picture::Spots(spots.clone()),
            Self::Links(links) => Picture::Links(links.clone()),
            Self::Pack(pack) => Picture::Pack(pack.clone()),
            Self::Wear(wear) => Picture::Wear(wear.clone()),
            Self::Fit(fit) => Picture::Fit(Fit { groups: fit.groups.iter().map(group).collect::<Result<_, _>>()? }),
        })
    }
}
