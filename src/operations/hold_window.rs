//! The readings between which the work goes on as printed, rounded inward in the places that a gauge reads.

use super::Value;
use crate::proof::Fact;
use crate::quantity::{Decimals, Rounds, Unit};
use schemars::JsonSchema;
use serde::Serialize;

/// Where the limits of a hold point come from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum LimitsFrom {
    /// The readings for which every check that follows the size is still proven at the printed settings.
    Checks,
    /// No check follows the size, or no reading would prove those that do: as found or foretold, with its doubt.
    AsFound,
    /// What the work itself asks: a torque to stand, a window, the hardness as tested.
    Asked,
}

/// The readings for which the work goes on; each figure is rounded inward to what the gauge reads.
#[derive(Clone, Debug, PartialEq)]
pub struct Limits {
    /// Not under.
    pub least: Option<Fact>,
    /// Not over.
    pub most: Option<Fact>,
    /// Where they come from.
    pub from: LimitsFrom,
    /// Whether every check that is outside its limit at worst follows the size: then such a reading would prove them all.
    pub proves: bool,
}

impl Limits {
    /// None at all: a size that the answer does not give.
    pub(super) const fn none() -> Self {
        Self { least: None, most: None, from: LimitsFrom::AsFound, proves: false }
    }

    /// Two ends in one unit, rounded inward to the places that the gauge reads; a window that would close so gets a digit more.
    pub(super) fn inward((least, most): (Option<f64>, Option<f64>), places: i32, unit: Unit, from: LimitsFrom) -> Self {
        let at = |places: i32| (least.map(|end| up(end, places)), most.map(|end| down(end, places)));
        let is_open = |places: &i32| matches!(at(*places), (Some(least), Some(most)) if least < most);
        let both = least.is_some() && most.is_some();
        let places = if both { (places..places + FINER).find(is_open).unwrap_or(places) } else { places };
        let (low, high) = match at(places) {
            (Some(low), Some(high)) if low > high => (least, most),
            ends => ends,
        };
        let shortest = (0..places).find(|fewer| [low, high].into_iter().flatten().all(|end| is_whole(end, *fewer)));
        let decimals = Decimals::Exactly(usize::try_from(shortest.unwrap_or(places)).unwrap_or(0));
        let fact = |end: f64, rounds| Fact::figure(end, unit).to(decimals).rounded(rounds);
        Self {
            least: low.map(|end| fact(end, Rounds::Up)),
            most: high.map(|end| fact(end, Rounds::Down)),
            from,
            proves: false,
        }
    }

    /// What the work asks: not under one figure, not over the other.
    pub(super) fn asked(ends: (Option<f64>, Option<f64>), places: i32, unit: Unit) -> Self {
        Self::inward(ends, places, unit, LimitsFrom::Asked)
    }

    /// What must not be under something that is no figure of one unit.
    pub(super) const fn not_under(least: Fact) -> Self {
        Self { least: Some(least), most: None, from: LimitsFrom::Asked, proves: false }
    }

    /// The two ends as numbers, where they are figures.
    pub fn numbers(&self) -> (Option<f64>, Option<f64>) {
        let number = |end: &Option<Fact>| match end {
            Some(Fact::Figure { number, .. }) => Some(*number),
            _ => None,
        };
        (number(&self.least), number(&self.most))
    }
}

/// Digits that a window may have more than the gauge reads.
const FINER: i32 = 3;

/// What a figure is off its last place by and still is at it: the dust of binary fractions.
const DUST: f64 = 1e-6;

fn up(number: f64, places: i32) -> f64 {
    let scale = 10_f64.powi(places);
    (number * scale - DUST).ceil() / scale
}

fn down(number: f64, places: i32) -> f64 {
    let scale = 10_f64.powi(places);
    (number * scale + DUST).floor() / scale
}

fn is_whole(number: f64, places: i32) -> bool {
    let scaled = number * 10_f64.powi(places);
    (scaled - scaled.round()).abs() < DUST
}

/// The name of what a size is measured with where no gauge of the shop reads it.
pub(crate) const NO_GAUGE: &str = "a-gauge";
/// The name of what a bore is measured with where no gauge of the shop reads it, and a usual one is reckoned with.
pub(crate) const NO_BORE_GAUGE: &str = "a-bore-gauge";

/// With what a size is measured at a hold point.
#[derive(Clone, Debug, PartialEq)]
pub struct GaugeUsed {
    /// Its name: of the shop, else of the card.
    pub name: Fact,
    /// Its doubt (k = 2), mm; none where nobody knows.
    pub doubt: Option<f64>,
    /// Whether the size was read before: the same size read again is no surer than it was.
    pub read_before: bool,
}

impl GaugeUsed {
    /// Its doubt for a size of the plan.
    pub(super) fn doubt_of(&self, value: &Value) -> f64 {
        match self.doubt {
            Some(doubt) if self.read_before => doubt.max(value.plus_minus),
            Some(doubt) => doubt,
            None => value.plus_minus,
        }
    }

    /// Decimals of a millimetre that it is read to: the finest step of ten that is not under half its doubt; of one that nobody
    /// knows the second figure of the doubt. Never finer than a thousandth, which is the end of what a workshop reads.
    pub(super) fn places(&self, value: &Value) -> i32 {
        let places = match self.doubt {
            Some(doubt) => -(doubt / 2.0).log10().floor(),
            None => 1.0 - value.plus_minus.log10().floor(),
        };
        if places.is_finite() { (places as i32).clamp(0, FINEST) } else { FINEST }
    }
}

/// A thousandth of a millimetre.
pub(super) const FINEST: i32 = 3;
