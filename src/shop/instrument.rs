//! Measuring instruments with their uncertainty.

use crate::handbook::constants::constant;
use crate::proof::{At, Refusal};
use crate::quantity::{Measured, Mm, Quantity};
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

impl super::Shop {
    /// The instrument that is taken by default for such a size.
    pub fn default_instrument(&self, size: f64, gauge: Gauge) -> Option<&Instrument> {
        let chosen = |i: &&Instrument| i.default.as_ref().is_some_and(|d| d.value) && i.can_read(size, gauge);
        self.instruments.iter().find(chosen)
    }
}

/// Where the doubt of a reading comes from.
#[derive(Clone, Copy, Debug)]
pub enum DoubtOf<'a> {
    /// 0 itself has no doubt.
    Nothing,
    /// Typed beside it.
    Typed,
    /// The instrument that was named.
    Named(&'a Instrument),
    /// The instrument that the shop takes by default.
    Default(&'a Instrument),
    /// Half a unit of the last digit typed, but not under the least of the table.
    LastDigit,
}

/// The doubt (k = 2) of a reading, mm: as typed, else of the instrument named, else of the shop's default instrument for such a
/// size whose kind reads it, else half a unit of the last digit typed but not under `typed-doubt-least`.
///
/// # Errors
/// [`Refusal::NoRow`] where the table lacks its least.
pub fn doubt_of_reading<'a>(
    shop: Option<&'a super::Shop>,
    size: &Measured<Mm>,
    with: Option<&str>,
    gauge: Gauge,
) -> Result<(f64, DoubtOf<'a>), Refusal> {
    let number = size.value.number();
    let of = |instrument: &Instrument| instrument.uncertainty.value.number();
    if number == 0.0 {
        return Ok((0.0, DoubtOf::Nothing));
    }
    if let Some(typed) = size.plus_minus {
        return Ok((typed, DoubtOf::Typed));
    }
    if let Some(named) = with.and_then(|name| shop?.instrument(name)) {
        return Ok((of(named), DoubtOf::Named(named)));
    }
    if let Some(default) = shop.and_then(|shop| shop.default_instrument(number, gauge)) {
        return Ok((of(default), DoubtOf::Default(default)));
    }
    let least: crate::proof::Worked<Mm> = constant("typed-doubt-least")?;
    Ok(((size.grain.unwrap_or(0.0) / 2.0).max(least.number()), DoubtOf::LastDigit))
}
