//! What makes a bush cold, and how cold it is: as it lies in it, and at the press.

use super::cooled::through;
use super::freezer;
use crate::handbook::Material;
use crate::handbook::constants::{constant, row};
use crate::handbook::joints::heating;
use crate::handbook::set_up_minutes;
use crate::operations::{Answer, Bench, SetUpWish};
use crate::proof::{At, Cause, Fact, Refusal, Side, Worked};
use crate::quantity::{Celsius, Decimals, Expansion, Mm, Ratio, Unit};
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

/// What a metal shrinks by in such a cold, a degree: the deeper the cold the less than near 20 °C.
pub(in crate::operations) fn shrinks(metal: &Material, cold_in: ColdIn) -> Result<Worked<Expansion>, Refusal> {
    let expansion = metal.expansion()?;
    let share = match cold_in {
        ColdIn::Freezer => return Ok(expansion),
        ColdIn::DryIce => "shrinks-in-dry-ice",
        ColdIn::Nitrogen => "shrinks-in-nitrogen",
    };
    Ok(expansion.scaled(row(share)?.value, "metals shrink less a degree, the colder they are"))
}

/// How long it lies in the cold until it is as cold as that all through, min: the usual time of the table, longer for what is thick.
/// Asked of its outside, bore and length.
pub(in crate::operations) fn soaks(cold_in: ColdIn, [outside, bore, length]: [f64; 3]) -> Result<f64, Refusal> {
    let (task, slow) = match cold_in {
        ColdIn::Freezer => ("freezer, chilling", Some("freezer-minutes-per-mm")),
        ColdIn::DryIce => ("dry ice, chilling", Some("dry-ice-minutes-per-mm")),
        // Until the boiling stops, whatever that takes.
        ColdIn::Nitrogen => ("nitrogen, chilling", None),
    };
    let usual = set_up_minutes::start(task)?;
    let Some(slow) = slow else { return Ok(usual) };
    through(usual, slow, [outside, bore, length])
}

/// The time in words.
pub(in crate::operations) fn soaks_for(minutes: f64) -> Fact {
    Fact::figure(minutes, Unit::Min).to(Decimals::Exactly(0))
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
