//! What is measured and asked about: its doubt, where it was typed or must be taken.

use super::{Reply, wording};
use crate::handbook::constants::row;
use crate::handbook::threads::thread_form::pitch_of_count;
use crate::proof::{At, Cause, Origin, Refusal, Worked};
use crate::quantity::{Measured, Mm, Quantity, Tpi, figure};
use crate::shop::{Gauge, Shop};
use serde::{Deserialize, Deserializer};

/// A measured length with its doubt: as typed, else of the shop's default instrument, else half a unit of the last digit but
/// not less than the table's figure; what is taken is noted on the page.
pub(super) fn length(
    reply: &mut Reply,
    shop: Option<&Shop>,
    key: &str,
    gauge: Gauge,
    at: &At<Measured<Mm>>,
) -> Worked<Mm> {
    let size = Worked::exact(at.value.value, Origin::Typed(at.place));
    let by_instrument = || shop?.default_instrument(at.value.value.number(), gauge);
    let half = match (at.value.plus_minus, by_instrument()) {
        (Some(typed), _) => typed,
        (None, Some(instrument)) => {
            let half = instrument.uncertainty.value.number();
            reply.note(wording::doubt_of_instrument(key, half, &instrument.name.value));
            half
        }
        (None, None) => {
            let least = row("typed-doubt-least").map_or(0.0, |row| row.value);
            let half = (at.value.grain.unwrap_or(0.0) / 2.0).max(least);
            reply.note(wording::doubt_of_last_digit(key, &format!("{} mm", figure(half))));
            half
        }
    };
    size.with_doubt(Cause::Reading(at.place), half)
}

/// A pitch as it was measured: in millimetres, or threads counted on an inch.
#[derive(Clone, Copy, Debug)]
pub(super) enum PitchRead {
    Metric(Measured<Mm>),
    Inch(Measured<Tpi>),
}

impl<'de> Deserialize<'de> for PitchRead {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let text = String::deserialize(from)?;
        match text.trim_end().ends_with(Tpi::UNIT.text()) {
            true => text.parse().map(Self::Inch),
            false => text.parse().map(Self::Metric),
        }
        .map_err(serde::de::Error::custom)
    }
}

/// The pitch with its doubt; threads on an inch without one are taken as counted to half a thread.
///
/// # Errors
/// [`Refusal::Outside`] for a count of no thread.
pub(super) fn pitch(reply: &mut Reply, shop: Option<&Shop>, at: &At<PitchRead>) -> Result<Worked<Mm>, Refusal> {
    match at.value {
        PitchRead::Metric(value) => Ok(length(reply, shop, "pitch", Gauge::Outside, &At { value, place: at.place })),
        PitchRead::Inch(tpi) => {
            let half = tpi.plus_minus.unwrap_or_else(|| {
                let half = tpi.grain.unwrap_or(1.0) / 2.0;
                reply.note(wording::doubt_of_last_digit("pitch", &format!("{} tpi", figure(half))));
                half
            });
            let count = Worked::exact(tpi.value, Origin::Typed(at.place));
            pitch_of_count(&count.with_doubt(Cause::Reading(at.place), half))
        }
    }
}

impl schemars::JsonSchema for PitchRead {
    fn inline_schema() -> bool {
        true
    }
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "PitchRead".into()
    }
    fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
        schemars::json_schema!({ "type": "string", "description": "a pitch as read, in mm or threads per inch", "examples": ["26 tpi", "1.25 ± 0.03 mm"] })
    }
}
