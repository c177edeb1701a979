//! What makes a bush cold, and how cold it is: as it lies in it, and at the press.

use super::freezer;
use crate::handbook::constants::constant;
use crate::handbook::joints::heating;
use crate::operations::{Answer, Bench, SetUpWish};
use crate::proof::{At, Cause, Refusal, Side, Worked};
use crate::quantity::{Celsius, Mm, Ratio};
use schemars::JsonSchema;
use serde::Deserialize;

/// What makes a part cold.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(in crate::operations) enum ColdIn {
    /// The shop's freezer.
    Freezer,
    /// Dry ice, packed round it.
    DryIce,
    /// Liquid nitrogen.
    Nitrogen,
}

/// By how much a bush is said to shrink, and what it lies in for it.
#[derive(Clone, Copy)]
pub(in crate::operations) struct Chilled<'a> {
    /// What it loses at the least, at the press; none, it is not chilled.
    pub by: Option<&'a At<Mm>>,
    /// What it lies in; none, the freezer.
    pub cold_in: Option<&'a At<ColdIn>>,
}

/// The temperature of a part as it leaves the cold, with its doubt or band.
pub(in crate::operations) fn cold_of(
    bench: &Bench,
    wish: Option<&SetUpWish>,
    cold_in: ColdIn,
    answer: &mut Answer,
) -> Result<Worked<Celsius>, Refusal> {
    Ok(match cold_in {
        ColdIn::Freezer => {
            let doubt = constant::<Celsius>("freezer-doubt")?.number();
            freezer(bench, wish, answer)?.with_doubt(Cause::Set("the freezer"), doubt)
        }
        ColdIn::DryIce => constant("dry-ice-temperature")?,
        ColdIn::Nitrogen => constant("nitrogen-temperature")?,
    })
}

/// Its temperature at the press, at the warmest: what it gained on the way taken off.
pub(in crate::operations) fn cold_at_the_press(
    bench: &Bench,
    part: &Worked<Celsius>,
) -> Result<Worked<Celsius>, Refusal> {
    let warmest = part.worst(Side::High, bench.guard());
    let loss = constant::<Ratio>("carried-loss-bush")?.worst(Side::High, bench.guard());
    heating::carried(&warmest, &loss)
}
