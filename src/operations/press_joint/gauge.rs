//! What a bore of the bush is measured with, and up to where that tells that it closed in.

use crate::handbook::joints::reaming;
use crate::operations::hold_window::NO_BORE_GAUGE;
use crate::operations::{Bench, GaugeUsed, kit};
use crate::proof::{Fact, Refusal};
use crate::shop::Gauge;

/// What a bore of the bush is measured with: the shop's, else a bore gauge set by micrometer.
///
/// # Errors
/// [`Refusal::NoRow`] where the table lacks the usual gauge.
pub(in crate::operations) fn bore_gauge(bench: &Bench, size: f64) -> Result<GaugeUsed, Refusal> {
    let gauge = kit::gauge_used(bench, size, Gauge::Inside, false);
    if gauge.doubt.is_some() {
        return Ok(gauge);
    }
    let usual = reaming::usual_bore_gauge()?.number();
    Ok(GaugeUsed { name: Fact::named(NO_BORE_GAUGE), doubt: Some(usual), ..gauge })
}

/// Up to where a gauge of such a doubt is sure to tell that a bore closed in from what it was before: each of the two readings
/// may be off, mm, rounded down to what is read.
pub(in crate::operations) fn sure_to_tell(bench: &Bench, before: (f64, f64), gauge: Option<f64>) -> f64 {
    let off = before.1.hypot(gauge.unwrap_or_default());
    let places = 10_f64.powi(PLACES);
    ((before.0 - off * bench.guard() / 2.0) * places + DUST).floor() / places
}

/// Decimals of a millimetre to which a bore is read, and the dust of binary fractions in the last of them.
const PLACES: i32 = 3;
const DUST: f64 = 1e-6;
