//! Doubt: what a reading is worth, what several come to, how far inside a limit is proof, and what heat adds to it.

use crate::formula;
use crate::proof::{Mark, Source, Worked};
use crate::quantity::{Celsius, Expansion, Mm, Quantity, Ratio, Shift, figure};

formula! {
    /// Standard uncertainty of what lies anywhere within so much either side (rectangular).
    standard_from_limits(a: Mm = "the half-width" in 0.0..=1_000.0)
        -> u: Mm { a / sqrt(3.0) }
    source FromMemory "JCGM 100 (GUM) 4.3.7"
}
formula! {
    /// Standard uncertainty that a division or last digit brings.
    standard_from_resolution(r: Mm = "the resolution" in 0.0..=100.0)
        -> u: Mm { r / sqrt(12.0) }
    source Derived "JCGM 100 (GUM) F.2.2.1: half a division either side, rectangular"
}
formula! {
    /// Standard uncertainty of the mean of repeated readings.
    standard_from_repeats(s: Mm = "the standard deviation" in 0.0..=100.0, n: Ratio = "the readings" in 2.0..=10_000.0)
        -> u: Mm { s / sqrt(n) }
    source FromMemory "JCGM 100 (GUM) 4.2.3"
}
formula! {
    /// Standard uncertainty from an expanded one.
    standard_from_expanded(U: Mm = "the expanded uncertainty" in 0.0..=1_000.0, k: Ratio = "the coverage factor" in 1.0..=20.0)
        -> u: Mm { U / k }
    source FromMemory "JCGM 100 (GUM) 4.3.3"
}
formula! {
    /// Expanded uncertainty.
    expanded(k: Ratio = "the coverage factor" in 1.0..=20.0, u: Mm = "the standard uncertainty" in 0.0..=1_000.0)
        -> U: Mm { k * u }
    source FromMemory "JCGM 100 (GUM) 6.2.1"
}
formula! {
    /// How far inside a limit a reading must lie to be proven.
    guard_band(g: Ratio = "the guard factor" in 0.0..=4.0, u: Mm = "the standard uncertainty" in 0.0..=1_000.0)
        -> guard: Mm { g * u }
    source FromMemory "ISO 14253-1"
}
formula! {
    /// What a length gains over so many degrees; also the share that a doubt of the degrees or of the expansion brings.
    thermal_gain(L: Mm = "the length" in 0.0..=10_000.0, alpha: Expansion = "the expansion" in 0.0..=200.0,
        dT: Celsius = "the degrees" in -250.0..=1_000.0)
        -> gain: Shift { L * alpha * dT / 1000000.0 }
    source FromMemory "linear expansion; JCGM 100 (GUM) H.1"
}
/// Combines independent doubts: the root of the sum of their squares.
pub fn combined(parts: &[Worked<Mm>]) -> Worked<Mm> {
    let sum = parts.iter().map(|part| part.number() * part.number()).sum::<f64>().sqrt();
    let squares: Vec<String> = parts.iter().map(|part| format!("{}²", figure(part.number()))).collect();
    let line = format!("u_c = √({}) = {} mm", squares.join(" + "), figure(sum));
    Worked::method(Mm::new(sum), vec![line], Source::fixed("JCGM 100 (GUM) 5.1.2", Mark::FromMemory))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_budget_of_a_bore_gauge_is_that_of_its_row() {
        let parts = [2.89, 2.31, 2.0, 1.02, 2.0].map(|um| Worked::assumed(Mm::new(um / 1000.0), ""));
        assert!((2.0 * combined(&parts).number() - 0.0095).abs() < 0.00005);
    }
}
