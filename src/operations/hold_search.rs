//! How the limits of a hold point are found: by the checks that bear another reading, by what the log will ask, else as it was found.

use super::hold_window::{FINEST, GaugeUsed, Limits, LimitsFrom};
use super::holds_for::{Stamping, holds, holds_as_planned};
use super::{Holds, Measured, Value};
use crate::proof::Side;
use std::fmt;
use std::ops::Deref;
use std::sync::{Arc, OnceLock};

/// How the limits are found once every check was made.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Search {
    pub(super) gauge: GaugeUsed,
    pub(super) guard: f64,
    /// What is read is the size and this beside it: metal that was taken off before, mm.
    pub(super) beside: f64,
    /// How much further off it may be read than it was found, mm: what was done since is not sure.
    pub(super) wider: f64,
    /// Kept inside what the checks leave, mm.
    pub(super) reserve: f64,
    /// Not under this, whatever the checks would bear: what the first setting printed still finds to cut, mm.
    pub(super) floor: Option<f64>,
    /// Between these, whatever the checks would bear: what is judged once the reading is in the log, mm.
    pub(super) log_asks: Option<(f64, f64)>,
    /// Under this, whatever the checks would bear: a size that it cannot be, mm.
    pub(super) ceiling: Option<f64>,
    /// Whether the size is looked at as it was found, whatever the checks would bear.
    pub(super) only_as_found: bool,
}

/// Limits that are searched for when somebody looks at them: not every output shows them, and a search takes longer than the
/// rest of an operation.
#[derive(Clone)]
pub struct LimitsWhenAsked {
    found: OnceLock<Limits>,
    sought: Option<Arc<Sought>>,
}

/// A reading, and as what it would put right all that fails.
#[derive(Clone, Debug, PartialEq)]
pub struct Proving {
    /// The key of its value.
    pub key: &'static str,
    /// The readings.
    pub limits: LimitsWhenAsked,
}

/// What a search goes by.
struct Sought {
    search: Search,
    value: Value,
    stamping: Arc<[Stamping]>,
}

impl LimitsWhenAsked {
    pub(super) fn sought(search: Search, value: Value, stamping: Arc<[Stamping]>) -> Self {
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
            None => {
                let (least, most) = as_found(value, search.gauge.doubt.unwrap_or(0.0));
                let ends = (least.map(|end| end - search.wider), most.map(|end| end + search.wider));
                (ends, LimitsFrom::AsFound)
            }
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
