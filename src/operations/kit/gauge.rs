//! The gauge of the shop that a size is measured with on a sheet.

use crate::operations::{Bench, GaugeUsed};
use crate::proof::Fact;
use crate::quantity::Quantity;
use crate::shop::{Gauge, Instrument};

/// The instrument that reads such a size: the one by default, else the finest.
pub fn instrument<'a>(bench: &Bench<'a>, size: f64, gauge: Gauge) -> Option<&'a Instrument> {
    let shop = bench.shop?;
    let reads = shop.instruments.iter().filter(|instrument| instrument.can_read(size, gauge));
    let finest = || reads.min_by(|a, b| a.uncertainty.value.number().total_cmp(&b.uncertainty.value.number()));
    shop.default_instrument(size, gauge).or_else(finest)
}

/// With what a size is measured at a hold point; `read_before` where it was read before the plan was made.
pub fn gauge_used(bench: &Bench, size: f64, gauge: Gauge, read_before: bool) -> GaugeUsed {
    let instrument = instrument(bench, size, gauge);
    GaugeUsed {
        name: instrument.map_or(Fact::named("a-gauge"), |instrument| Fact::from(&instrument.name.value)),
        doubt: instrument.map(|instrument| instrument.uncertainty.value.number()),
        read_before,
    }
}

/// What may be read at the most, mm: the limit less the doubt. Where that leaves nothing that can be read, to the thousandth, no
/// reading proves anything, which is said by a check of its own: the limit itself stands, for nobody can read less than nothing.
pub fn most_to_read(limit: f64, doubt: f64) -> f64 {
    let left = ((limit - doubt) * 1e3).floor() / 1e3;
    if left > 0.0 { limit - doubt } else { limit }
}
