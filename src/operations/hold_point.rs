//! A hold point: what is measured at a step, how often, with what, and for which readings the work goes on as printed.

use super::holds_for::{Stamping, holds, holds_as_planned};
use super::{Holds, Measured, Value};
use crate::proof::{Fact, Section, Side, Speak, Words};
use crate::quantity::{Decimals, Rounds, Unit};
use schemars::JsonSchema;
use serde::Serialize;
use std::fmt;
use std::ops::Deref;
use std::sync::{Arc, OnceLock};

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
    const fn none() -> Self {
        Self { least: None, most: None, from: LimitsFrom::AsFound, proves: false }
    }

    /// Two ends in one unit, rounded inward to the places that the gauge reads; a window that would close so gets a digit more.
    fn inward((least, most): (Option<f64>, Option<f64>), places: i32, unit: Unit, from: LimitsFrom) -> Self {
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
    fn doubt_of(&self, value: &Value) -> f64 {
        match self.doubt {
            Some(doubt) if self.read_before => doubt.max(value.plus_minus),
            Some(doubt) => doubt,
            None => value.plus_minus,
        }
    }

    /// Decimals of a millimetre that it is read to: the finest step of ten that is not under half its doubt; of one that nobody
    /// knows the second figure of the doubt. Never finer than a thousandth, which is the end of what a workshop reads.
    fn places(&self, value: &Value) -> i32 {
        let places = match self.doubt {
            Some(doubt) => -(doubt / 2.0).log10().floor(),
            None => 1.0 - value.plus_minus.log10().floor(),
        };
        if places.is_finite() { (places as i32).clamp(0, FINEST) } else { FINEST }
    }
}

/// A thousandth of a millimetre.
const FINEST: i32 = 3;

/// How the limits are found once every check was made.
#[derive(Clone, Debug, PartialEq)]
struct Search {
    gauge: GaugeUsed,
    guard: f64,
    /// What is read is the size and this beside it: metal that was taken off before, mm.
    beside: f64,
    /// Kept inside what the checks leave, mm.
    reserve: f64,
    /// Not under this, whatever the checks would bear: what the first setting printed still finds to cut, mm.
    floor: Option<f64>,
    /// Between these, whatever the checks would bear: what is judged once the reading is in the log, mm.
    log_asks: Option<(f64, f64)>,
    /// Under this, whatever the checks would bear: a size that it cannot be, mm.
    ceiling: Option<f64>,
    /// Whether the size is looked at as it was found, whatever the checks would bear.
    only_as_found: bool,
}

/// What is measured at a step.
#[derive(Clone, Debug, PartialEq)]
pub struct HoldPoint<W = Words> {
    /// The key of the size that is measured: of a reading, or of a size that the plan foretells.
    pub measures: &'static str,
    /// What is taken off the size before it is measured, mm: what is read is the size less this.
    pub taken_off: f64,
    /// How many readings are written down.
    pub readings: usize,
    /// The gauge by its name in the shop, else in the card.
    pub gauge: W,
    /// The readings for which the work goes on as printed.
    pub limits: LimitsWhenAsked,
    /// What is done with the reading, where the step itself does not say it: a text of the card under `steps`.
    pub then: Option<W>,
    search: Option<Search>,
}

/// Limits that are searched for when somebody looks at them: not every output shows them, and a search takes longer than the
/// rest of an operation.
#[derive(Clone)]
pub struct LimitsWhenAsked {
    found: OnceLock<Limits>,
    sought: Option<Arc<Sought>>,
}

/// What a search goes by.
struct Sought {
    search: Search,
    value: Value,
    stamping: Arc<[Stamping]>,
}

impl LimitsWhenAsked {
    fn sought(search: Search, value: Value, stamping: Arc<[Stamping]>) -> Self {
        Self { found: OnceLock::new(), sought: Some(Arc::new(Sought { search, value, stamping })) }
    }
}

impl LimitsWhenAsked {
    fn limits(&self) -> &Limits {
        self.found.get_or_init(|| self.sought.as_ref().map_or_else(Limits::none, |sought| sought.limits()))
    }

    /// Finds them and lets go of what they were sought by.
    pub(super) fn settle(&mut self) {
        self.limits();
        self.sought = None;
    }
}

impl From<Limits> for LimitsWhenAsked {
    fn from(limits: Limits) -> Self {
        Self { found: limits.into(), sought: None }
    }
}

impl Deref for LimitsWhenAsked {
    type Target = Limits;
    fn deref(&self) -> &Limits {
        self.limits()
    }
}

impl PartialEq for LimitsWhenAsked {
    fn eq(&self, other: &Self) -> bool {
        **self == **other
    }
}

impl fmt::Debug for LimitsWhenAsked {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        (**self).fmt(f)
    }
}

impl HoldPoint {
    /// A size that is measured; its limits are found when every check was made. `guard` is the factor on the standard
    /// uncertainty.
    pub(super) fn of(measures: &'static str, readings: usize, gauge: GaugeUsed, guard: f64) -> Self {
        let limits = Limits::none().into();
        let name = gauge.name.clone().into();
        let search = Some(Search {
            gauge,
            guard,
            beside: 0.0,
            reserve: 0.0,
            floor: None,
            log_asks: None,
            ceiling: None,
            only_as_found: false,
        });
        Self { measures, taken_off: 0.0, readings, gauge: name, limits, then: None, search }
    }

    /// The same with so much taken off before it is measured, mm.
    pub(super) fn less(mut self, taken_off: f64) -> Self {
        self.taken_off = taken_off;
        self.search.iter_mut().for_each(|search| search.beside = -taken_off);
        self
    }

    /// What the work itself asks.
    pub(super) fn asking(measures: &'static str, readings: usize, gauge: impl Into<Fact>, limits: Limits) -> Self {
        let gauge = gauge.into().into();
        Self { measures, taken_off: 0.0, readings, gauge, limits: limits.into(), then: None, search: None }
    }

    /// The same with what is done with the reading.
    pub(super) fn then(mut self, id: &'static str) -> Self {
        self.then = Some(Words::of(id));
        self
    }

    /// The same with what is said of the reading, where anything is.
    pub(super) fn saying(mut self, words: Option<Words>) -> Self {
        self.then = words.or(self.then);
        self
    }

    /// The same not under what the first setting printed still finds to cut, mm.
    pub(super) fn not_under(mut self, floor: Option<f64>) -> Self {
        self.search.iter_mut().for_each(|search| search.floor = floor);
        self
    }

    /// The same between two readings that no check of the plan follows, mm: what checks of the log will judge.
    pub(super) fn between(mut self, least: f64, most: f64) -> Self {
        self.search.iter_mut().for_each(|search| search.log_asks = Some((least, most)));
        self
    }

    /// The same under a size that it cannot be, mm.
    pub(super) fn under(mut self, ceiling: Option<f64>) -> Self {
        self.search.iter_mut().for_each(|search| search.ceiling = ceiling);
        self
    }

    /// The same with so much kept inside what the checks leave: what a measurement needs to decide in, mm.
    pub(super) fn keeping(mut self, reserve: f64) -> Self {
        self.search.iter_mut().for_each(|search| search.reserve = reserve);
        self
    }

    /// The same looked at as it was found where nothing limits the size itself: that another would do as well says nothing.
    pub(super) fn looked_at_unless(mut self, limited: bool) -> Self {
        self.search.iter_mut().for_each(|search| search.only_as_found = !limited);
        self
    }

    /// Says how its limits are found, once every check was made.
    pub(super) fn seek(&mut self, values: &[Value], stamping: &Arc<[Stamping]>) {
        let value = values.iter().find(|value| value.key == self.measures);
        let Some((search, value)) = self.search.as_ref().zip(value) else { return };
        self.limits = LimitsWhenAsked::sought(search.clone(), value.clone(), stamping.clone());
    }
}

impl Sought {
    fn limits(&self) -> Limits {
        let Self { search, value, stamping } = self;
        let measured = Measured { value, gauge: search.gauge.doubt_of(value), guard: search.guard };
        let follow = |one: &Stamping| one.0.margin >= 0.0 || holds(std::slice::from_ref(one), measured).is_some();
        let sought = |holds: fn(&[Stamping], Measured) -> Option<Holds>| {
            if search.only_as_found { None } else { holds(stamping, measured) }
        };
        let limits = self.within(sought(holds));
        let limits = match limits.from {
            LimitsFrom::Checks if !self.can_be_met(&limits) => self.within(sought(holds_as_planned)),
            _ => limits,
        };
        // A window in which nothing lies stops good work as well as bad.
        let limits = if is_empty(&limits) { self.within(None) } else { limits };
        Limits { proves: limits.from == LimitsFrom::Checks && stamping.iter().all(follow), ..limits }
    }

    /// Whether a reading can lie in them, and of a size that is foretold that one.
    fn can_be_met(&self, limits: &Limits) -> bool {
        let (least, most) = limits.numbers();
        let read = self.value.number + self.search.beside;
        let inside = least.is_none_or(|least| least <= read) && most.is_none_or(|most| read <= most);
        !is_empty(limits) && (self.search.gauge.read_before || inside)
    }

    /// The limits within the readings for which the checks hold; as found where they ask nothing.
    fn within(&self, found: Option<Holds>) -> Limits {
        let Self { search, value, .. } = self;
        let any = |holds: &Holds| holds.least.is_some() || holds.most.is_some();
        let (ends, from) = match found.filter(any) {
            Some(holds) => {
                let (least, most) =
                    (holds.least.map(|end| end + search.reserve), holds.most.map(|end| end - search.reserve));
                let least = search.floor.map_or(least, |floor| Some(least.map_or(floor, |least| least.max(floor))));
                ((least, most), LimitsFrom::Checks)
            }
            None => (as_found(value, search.gauge.doubt.unwrap_or(0.0)), LimitsFrom::AsFound),
        };
        let (ends, from) = match search.log_asks {
            // No check of the plan follows it: what the log will judge stands alone.
            Some((least, most)) if from == LimitsFrom::AsFound => ((Some(least), Some(most)), LimitsFrom::Checks),
            Some((least, most)) => {
                let inner = (ends.0.map_or(least, |end| end.max(least)), ends.1.map_or(most, |end| end.min(most)));
                ((Some(inner.0), Some(inner.1)), from)
            }
            None => (ends, from),
        };
        let under = search.ceiling.map(|ceiling| ceiling - 10_f64.powi(-FINEST) / 2.0);
        let ends = match under {
            Some(under) => (ends.0, Some(ends.1.map_or(under, |most| most.min(under)))),
            None => ends,
        };
        let read = |end: Option<f64>| end.map(|end| end + search.beside);
        Limits::inward((read(ends.0), read(ends.1)), search.gauge.places(value), value.unit, from)
    }
}

/// Whether nothing lies within.
fn is_empty(limits: &Limits) -> bool {
    matches!(limits.numbers(), (Some(least), Some(most)) if least > most)
}

/// As found or foretold, with band and doubt; one that is read with a gauge less sure than that may be off by so much more, and
/// is good all the same.
fn as_found(value: &Value, gauge: f64) -> (Option<f64>, Option<f64>) {
    let (low, high) = value.band.unwrap_or((value.number, value.number));
    let doubt = if gauge > value.plus_minus { value.plus_minus.hypot(gauge) } else { value.plus_minus };
    let end = |number: f64, side: Side| match side {
        Side::Low => Some(number - doubt),
        Side::High => Some(number + doubt),
    };
    (end(low, Side::Low), end(high, Side::High))
}

impl<W> HoldPoint<W> {
    /// The same in other words.
    pub(super) fn try_map_words<S: Speak<W>>(&self, speaker: &S) -> Result<HoldPoint<S::Said>, S::Slip> {
        Ok(HoldPoint {
            measures: self.measures,
            taken_off: self.taken_off,
            readings: self.readings,
            gauge: speaker.say(Section::Names, &self.gauge, &[])?,
            limits: self.limits.clone(),
            then: self.then.as_ref().map(|then| speaker.say(Section::Steps, then, &[])).transpose()?,
            search: self.search.clone(),
        })
    }
}

/// A hold point as the JSON has it.
#[derive(Serialize, JsonSchema)]
pub(super) struct HoldPointOut<'a, W> {
    /// The number of its step, from 1.
    step: usize,
    /// The key of the size that is measured.
    measures: &'static str,
    /// What is taken off the size before it is measured.
    taken_off: f64,
    /// How many readings are written down.
    readings: usize,
    /// The gauge.
    gauge: &'a W,
    /// Not under.
    #[serde(skip_serializing_if = "Option::is_none")]
    least: Option<End>,
    /// Not over.
    #[serde(skip_serializing_if = "Option::is_none")]
    most: Option<End>,
    /// The unit of both, where they are figures.
    #[serde(skip_serializing_if = "Option::is_none")]
    unit: Option<Unit>,
    /// Where the limits come from.
    from: LimitsFrom,
    /// What is done with the reading.
    #[serde(skip_serializing_if = "Option::is_none")]
    then: Option<&'a W>,
}

/// An end of the limits: a figure, or words (a hardness on its scale).
#[derive(Serialize, JsonSchema)]
#[serde(untagged)]
enum End {
    Figure(f64),
    Words(String),
}

impl<'a, W> HoldPointOut<'a, W> {
    pub(super) fn of(at: usize, hold: &'a HoldPoint<W>) -> Self {
        let end = |end: &Option<Fact>| match end.as_ref()? {
            Fact::Figure { number, .. } => Some(End::Figure(*number)),
            fact => Some(End::Words(fact.said(None, crate::quantity::Print::Metric))),
        };
        let limits = &hold.limits;
        let unit = [&limits.least, &limits.most].into_iter().flatten().find_map(|fact| match fact {
            Fact::Figure { unit, .. } => Some(*unit),
            _ => None,
        });
        Self {
            step: at + 1,
            measures: hold.measures,
            taken_off: hold.taken_off,
            readings: hold.readings,
            gauge: &hold.gauge,
            least: end(&limits.least),
            most: end(&limits.most),
            unit,
            from: limits.from,
            then: hold.then.as_ref(),
        }
    }
}
