//! The gauge of the shop that a size is measured with on a sheet.

use crate::operations::hold_window::NO_GAUGE;
use crate::operations::{Bench, GaugeUsed};
use crate::proof::{At, Fact, Words, Worked};
use crate::quantity::{Decimals, Mm, Quantity, Rounds};
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
        name: instrument.map_or(Fact::named(NO_GAUGE), |instrument| Fact::from(&instrument.name.value)),
        doubt: instrument.map(|instrument| instrument.uncertainty.value.number()),
        read_before,
    }
}

/// How true a part is held for certain: as was asked for, but no truer than the indicator of the shop tells.
pub fn as_true_as_read(bench: &Bench, within: &At<Mm>) -> Worked<Mm> {
    let own = instrument(bench, within.value.number(), Gauge::Indicator);
    let tells = own.map_or(0.0, |own| own.uncertainty.value.number());
    Worked::from(within).at_least(tells, "no truer than its indicator reads")
}

/// What is left between two limits that nobody can read between, mm.
const NO_WINDOW: f64 = 1e-6;

/// What may be read between two limits so that it is sure to lie inside them: each less the doubt. Where the doubt takes the whole
/// window nothing is sure, which is said by a check of its own: the limits themselves stand.
pub fn inside(low: f64, high: f64, doubt: f64) -> (f64, f64) {
    let inward = if 2.0 * doubt < high - low - NO_WINDOW { doubt } else { 0.0 };
    (low + inward, high - inward)
}

/// The same for the gauge of the shop that reads such a size, as limits to print.
pub fn read_inside(bench: &Bench, ends: (f64, f64), gauge: Gauge) -> Fact {
    let (low, high) = read_ends(bench, ends, gauge);
    Fact::span(Fact::mm(low), Fact::mm(high))
}

/// The same as figures, mm.
pub fn read_ends(bench: &Bench, (low, high): (f64, f64), gauge: Gauge) -> (f64, f64) {
    let own = instrument(bench, f64::midpoint(low, high), gauge);
    let doubt = own.map_or(0.0, |own| own.uncertainty.value.number()) * bench.guard() / 2.0;
    inside(low, high, doubt)
}

/// What may be read at the most, mm: the limit less the doubt. Where work without any fault may read more than that, because its
/// gauge is off by so much, no reading decides, which is said by a check of its own: the limit itself stands.
pub fn most_to_read(limit: f64, doubt: f64) -> f64 {
    if gauge_decides(limit, doubt) { limit - doubt } else { limit }
}

/// Whether a gauge of such a doubt tells good work from what is beyond a limit: a perfect piece, which reads up to the doubt, must lie
/// within what may be read.
fn gauge_decides(limit: f64, doubt: f64) -> bool {
    let left = ((limit - doubt) * 1e3).floor() / 1e3;
    left > 0.0 && left >= doubt
}

/// What is said beside a limit that the gauge cannot decide: its doubt, and the gauge that could.
pub fn cannot_decide(limit: f64, doubt: f64) -> Option<Words> {
    // A doubt of a quarter of the limit is what a gauge is asked for.
    let finer = Fact::mm(limit / 4.0).to(Decimals::Exactly(4)).rounded(Rounds::Down);
    let words = Words::of("the-gauge-cannot-tell")
        .with("doubt", Fact::mm(doubt).to(Decimals::Exactly(3)).rounded(Rounds::Up).plus_minus());
    (!gauge_decides(limit, doubt)).then(|| words.with("finer", finer.plus_minus()))
}
