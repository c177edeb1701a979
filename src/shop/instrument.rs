//! Measuring instruments with their uncertainty.

use crate::proof::At;
use crate::quantity::{Mm, Quantity};
use crate::reading::Problem;
use schemars::JsonSchema;
use serde::Deserialize;

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
}

/// An instrument.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Instrument {
    /// Its name.
    pub name: At<String>,
    /// Its kind (`outside micrometer`, `bore gauge`, `depth gauge` …).
    pub kind: At<String>,
    /// Smallest size that it reads.
    pub from: Option<At<Mm>>,
    /// Largest size that it reads.
    pub to: Option<At<Mm>>,
    /// Expanded uncertainty (k = 2).
    pub uncertainty: At<Mm>,
    /// Whether it is taken where a reading names none.
    pub default: Option<At<bool>>,
}

impl Instrument {
    /// Whether it can read such a size: by its range, and by its kind where the kind's name tells.
    pub(crate) fn can_read(&self, size: f64, gauge: Gauge) -> bool {
        let above = self.from.as_ref().is_none_or(|from| size >= from.value.number());
        let below = self.to.as_ref().is_none_or(|to| size <= to.value.number());
        let kind = self.kind.value.to_lowercase();
        let suits = match gauge {
            Gauge::FromCentre => false,
            _ if kind.contains("caliper") => true,
            Gauge::Outside => !["inside", "bore", "depth"].iter().any(|word| kind.contains(word)),
            Gauge::Inside => !["outside", "depth"].iter().any(|word| kind.contains(word)),
            Gauge::Depth => !["outside", "inside", "bore"].iter().any(|word| kind.contains(word)),
        };
        above && below && suits
    }

    pub(super) fn problems(&self, all: &mut Vec<Problem>) {
        if self.uncertainty.value.number() <= 0.0 {
            all.push(Problem::new(
                self.uncertainty.place,
                "no instrument is without doubt: give its uncertainty above zero",
            ));
        }
        if let (Some(from), Some(to)) = (&self.from, &self.to)
            && to.value.number() <= from.value.number()
        {
            all.push(Problem::new(to.place, "an instrument reads `from` a size up `to` a larger one"));
        }
    }
}
