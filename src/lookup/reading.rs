//! What is measured and asked about: its doubt, where it was typed or must be taken.

use super::{Reply, wording};
use crate::handbook::threads::thread_form::pitch_of_count;
use crate::proof::{At, Cause, Origin, Refusal, Worked};
use crate::quantity::{Measured, Mm, Quantity, Tpi, figure};
use crate::shop::{DoubtOf, Gauge, Shop, doubt_of_reading};
use serde::{Deserialize, Deserializer};

/// A measured length with its doubt: as a job reads it; what is taken is noted on the page.
pub(super) fn length(
    reply: &mut Reply,
    shop: Option<&Shop>,
    key: &str,
    gauge: Gauge,
    at: &At<Measured<Mm>>,
) -> Worked<Mm> {
    let size = Worked::exact(at.value.value, Origin::Typed(at.place));
    let Ok((half, how)) = doubt_of_reading(shop, &at.value, None, gauge) else { return size };
    match how {
        DoubtOf::Default(instrument) => {
            reply.note(wording::doubt_of_instrument(key, half, &instrument.name.value));
        }
        DoubtOf::LastDigit => reply.note(wording::doubt_of_last_digit(key, &format!("{} mm", figure(half)))),
        DoubtOf::Typed | DoubtOf::Named(_) | DoubtOf::Nothing => {}
    }
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
        if text.trim().parse::<f64>().is_ok() {
            let text = text.trim();
            let says = format!(
                "a pitch of `{text}` what? `{text} tpi` are threads on an inch, `{text} mm` is the way of one turn"
            );
            return Err(serde::de::Error::custom(says));
        }
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
