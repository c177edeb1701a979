//! Measuring instruments with their uncertainty.

use crate::handbook::constants::row;
use crate::proof::{At, Cause, Place};
use crate::quantity::{Mm, Quantity, figure};
use crate::reading::Problem;
use schemars::JsonSchema;
use serde::Deserialize;
use std::sync::OnceLock;

/// What kind of size is read: an outside micrometer says nothing of a bore.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Gauge {
    /// Outside sizes: diameters, lengths over faces.
    Outside,
    /// Bores and slots.
    Inside,
    /// Depths and steps.
    Depth,
    /// From the centre of a hole to an edge: laid out, never read by one instrument alone.
    FromCentre,
    /// How far a surface stands out, read from a zero that was set.
    Indicator,
}

/// Words of kinds that read outside sizes alone.
const OUTSIDE: &[&str] = &["outside", "snap"];
/// Words of kinds that read bores and slots alone.
const INSIDE: &[&str] = &["inside", "bore", "plug", "telescop", "hole"];
/// Words of the other kinds; of an indicator, a caliper and a depth gauge they say what is read, of the rest that much may be.
const OTHERS: &[&str] = &[
    "micromet",
    "depth",
    "indicator",
    "caliper",
    "calliper",
    "vernier",
    "feeler",
    "rule",
    "pitch",
    "height",
    "block",
    "square",
    "straight",
    "protractor",
    "level",
    "ring",
    "radius",
    "spring",
    "scale",
    "hardness",
    "rough",
];

/// An instrument.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Instrument {
    /// Its name.
    pub name: At<String>,
    /// Its kind (`outside micrometer`, `bore gauge`, `depth gauge` …).
    pub kind: At<String>,
    /// Smallest size that it reads.
    pub from: At<Mm>,
    /// Largest size that it reads.
    pub to: At<Mm>,
    /// Expanded uncertainty (k = 2).
    pub uncertainty: At<Mm>,
    /// What a reading has of its own of that (k = 2): how far readings of one size lie apart. The rest all its readings share; left
    /// out, two readings are taken for as far apart as the worse of sharing all and sharing nothing.
    pub repeat: Option<At<Mm>>,
    /// Instruments that it may be set by, each named as in this list; left out, none: its doubt is its own.
    #[serde(default)]
    pub set_by: Vec<At<String>>,
    /// What setting it by one of those adds (k = 2); left out, the doubt of what it was set by is not told apart.
    pub transfer: Option<At<Mm>>,
    /// Whether it is taken where a reading names none; left out, it is taken after those that are.
    pub default: Option<At<bool>>,
    /// What its kind tells: looked for once, though every reading asks.
    #[serde(skip)]
    told: OnceLock<Told>,
}

/// What the words of a kind tell.
#[derive(Clone, Copy, Debug)]
struct Told {
    inside: bool,
    outside: bool,
    depth: bool,
    indicator: bool,
    caliper: bool,
    /// It says that it reads sizes, and not how far a surface stands out.
    sizes: bool,
}

impl Told {
    fn by(kind: &str) -> Self {
        let kind = kind.to_lowercase();
        let has = |words: &[&str]| words.iter().any(|word| kind.contains(word));
        Self {
            inside: has(INSIDE),
            outside: has(OUTSIDE),
            depth: has(&["depth"]),
            indicator: has(&["indicator"]),
            caliper: has(&["caliper", "calliper", "vernier"]),
            sizes: has(&["micrometer", "bore"]),
        }
    }
}

/// The least that there is of a figure of a gauge, a dial or a stop, where what was typed is under it: a slip of the point or of the unit,
/// which would prove what it cannot.
pub(super) fn under_the_least(typed: f64, least: &'static str) -> Option<f64> {
    let least = row(least).ok()?.value;
    // 1e-9: the least itself is none too little.
    (typed > 0.0 && typed < least * (1.0 - 1e-9)).then_some(least)
}

impl Instrument {
    /// Whether it can read such a size: by its range, and by its kind where the kind's name tells.
    pub(crate) fn can_read(&self, size: f64, gauge: Gauge) -> bool {
        if !self.covers(size) {
            return false;
        }
        let told = self.told();
        match gauge {
            Gauge::FromCentre => false,
            Gauge::Indicator => told.indicator,
            _ if told.caliper => true,
            Gauge::Outside => !(told.inside || told.depth || told.indicator),
            Gauge::Inside => !(told.outside || told.depth || told.indicator),
            Gauge::Depth => !(told.inside || told.outside),
        }
    }

    fn told(&self) -> Told {
        *self.told.get_or_init(|| Told::by(&self.kind.value))
    }

    /// Whether a reading may be its: by its range, and by its kind where that can be no gauge of the sort. A feeler tells a float as
    /// well as an indicator does.
    pub(crate) fn may_have_read(&self, size: f64, gauge: Gauge) -> bool {
        match gauge {
            Gauge::FromCentre => self.covers(size),
            Gauge::Indicator => self.covers(size) && !self.told().sizes,
            _ => self.can_read(size, gauge),
        }
    }

    /// Whether a size lies in its range.
    pub(super) fn covers(&self, size: f64) -> bool {
        (self.from.value.number()..=self.to.value.number()).contains(&size)
    }

    /// The doubt (k = 2) of one of its readings by cause: what it shares with its other readings, what it has of its own, and
    /// both of what it was set by (GUM 5.2.2). `surplus` is what was typed over its doubt.
    pub(super) fn shares(&self, set_by: Option<&Self>, surplus: f64, at: Place, nth: u16) -> Vec<(Cause, f64)> {
        let of = |typed: &Option<At<Mm>>| typed.as_ref().map(|at| at.value.number());
        let whole = self.uncertainty.value.number();
        let own = |squares: f64| (squares > 0.0).then(|| (Cause::Own(at, nth), squares.sqrt()));
        let parted = |instrument: &Self, whole: f64| match of(&instrument.repeat) {
            Some(repeat) => {
                let own = repeat.min(whole);
                (Some((Cause::Instrument(instrument.name.place), (whole * whole - own * own).sqrt())), own * own)
            }
            None => (Some((Cause::Read(at, nth, instrument.name.place), whole)), 0.0),
        };
        let (setter, transfer) = match (set_by, of(&self.transfer)) {
            (Some(setter), Some(transfer)) => (Some(setter), transfer),
            _ => (None, whole),
        };
        let (gauge, mut squares) = parted(self, transfer);
        let mut shares: Vec<(Cause, f64)> = gauge.into_iter().collect();
        if let Some(setter) = setter {
            let by = setter.uncertainty.value.number();
            let (share, of_setter) = parted(setter, by);
            shares.extend(share);
            squares += of_setter + (whole * whole - by * by - transfer * transfer).max(0.0);
        }
        shares.extend(own(squares + surplus * surplus));
        shares
    }

    pub(super) fn problems(&self, all: &mut Vec<Problem>) {
        let kind = self.kind.value.to_lowercase();
        if ![OUTSIDE, INSIDE, OTHERS].iter().copied().flatten().any(|word| kind.contains(word)) {
            let says = format!(
                "`{}` does not say what it reads: write a kind such as outside micrometer, snap gauge, inside micrometer, bore gauge, plug gauge, telescopic gauge, depth gauge, caliper, dial indicator, feeler blade or steel rule",
                self.kind.value
            );
            all.push(Problem::new(self.kind.place, says));
        }
        if self.uncertainty.value.number() <= 0.0 {
            all.push(Problem::new(
                self.uncertainty.place,
                "no instrument is without doubt: give its uncertainty above zero",
            ));
        }
        if let Some(least) = under_the_least(self.uncertainty.value.number(), "instrument-doubt-least") {
            let says = format!("no gauge of a workshop reads finer than {} mm: look at the unit", figure(least));
            all.push(Problem::new(self.uncertainty.place, says));
        }
        for (key, typed) in [("repeat", &self.repeat), ("transfer", &self.transfer)] {
            let wrong =
                |at: &&At<Mm>| !(at.value.number() > 0.0 && at.value.number() <= self.uncertainty.value.number());
            if let Some(at) = typed.as_ref().filter(wrong) {
                let says = format!("`{key}` is a part of `uncertainty`: above zero and not over it");
                all.push(Problem::new(at.place, says));
            }
        }
        if let (Some(at), true) = (&self.transfer, self.set_by.is_empty()) {
            all.push(Problem::new(at.place, "`transfer` says what setting adds: name what it is set by in `set-by`"));
        }
        if self.to.value.number() <= self.from.value.number() {
            all.push(Problem::new(self.to.place, "an instrument reads `from` a size up `to` a larger one"));
        }
    }
}
