//! The force of a chuck's jaws: how much is there, how much the speed leaves, how hard it presses on the work.

use crate::formula;
use crate::handbook::table::{cited, rows, seen};
use crate::proof::{Mark, Worked};
use crate::quantity::{MPerMin, Mm, Newton, Quantity, Ratio, RevPerMin, Stress, figure};
use serde::Deserialize;
use std::sync::LazyLock;

formula! {
    /// Speed at which the body of a chuck runs at a surface speed.
    chuck_speed_most(v: MPerMin = "the speed at the chuck's body" in 1.0..=10_000.0, D: Mm = "the diameter of the chuck" in 1.0..=5_000.0)
        -> n: RevPerMin { 1_000.0 * v / (PI * D) }
    source Derived "identity: circumference times turns"
}
formula! {
    /// Share of the jaw force that the speed leaves to jaws that close on an outside.
    jaw_force_left(z: Ratio = "the loss at the chuck's highest speed" in 0.0..=1.0, k: Ratio = "the high side of a plate speed" in 1.0..=1.2,
        n: RevPerMin = "the spindle step" in 0.0..=60_000.0, n_c: RevPerMin = "the chuck's highest speed" in 0.01..=60_000.0)
        -> k_n: Ratio { max(1.0 - z * sq(k * n / n_c), 0.0) }
    source Read "Schunk, DIN EN 1550: no more than 0.67 lost at the highest speed; it grows with the square"
}
formula! {
    /// Jaw force of a nip, standing still.
    jaw_force_at_rest(k: Ratio = "the share of the nip" in 0.0..=1.0, k_m: Ratio = "what a maker's figure is worth" in 0.0..=1.0,
        F_0: Newton = "the jaw force" in 0.0..=1e7)
        -> F_r: Newton { k * k_m * F_0 }
    source Own "share of the chuck's force by how hard it is nipped"
}
formula! {
    /// Jaw force that holds at speed.
    jaw_force_at_speed(F_r: Newton = "the jaw force standing still" in 0.0..=1e7, k_n: Ratio = "what the speed leaves" in 0.0..=1.0)
        -> F_low: Newton { F_r * k_n }
    source Read "Schunk, DIN EN 1550: the loss as a share of the force"
}
formula! {
    /// Jaw force that holds at speed where the loss is taken as the whole force outwards of the jaws, whatever the nip.
    jaw_force_less_loss(F_r: Newton = "the jaw force standing still" in 0.0..=1e7, F_0: Newton = "the jaw force" in 0.0..=1e7,
        k_n: Ratio = "what the speed leaves" in 0.0..=1.0)
        -> F_w: Newton { max(F_r - F_0 * (1.0 - k_n), 0.0) }
    source Derived "the jaws' own mass pulls outwards by the same force, however lightly they were closed"
}
formula! {
    /// Jaw force that squeezes in a bore: jaws that open press harder at speed.
    jaw_force_opening(F_r: Newton = "the jaw force standing still" in 0.0..=1e7, F_0: Newton = "the jaw force" in 0.0..=1e7,
        k_n: Ratio = "what the speed leaves to closing jaws" in 0.0..=1.0)
        -> F_high: Newton { F_r + F_0 * (1.0 - k_n) }
    source Derived "the jaws' own mass pulls outwards"
}
formula! {
    /// Pressure of a jaw on the work.
    jaw_pressure(F: Newton = "the jaw force that squeezes" in 0.0..=1e7, N: Ratio = "the number of jaws" in 2.0..=8.0,
        b: Mm = "the width of a jaw" in 0.01..=1_000.0, g_c: Mm = "the length that grips" in 0.001..=5_000.0)
        -> p: Stress { F / (N * b * g_c) }
    source Derived "force over area"
}

/// A row of the table of jaw forces.
#[derive(Debug, Deserialize)]
pub struct ChuckForce {
    /// Diameter of the chuck, mm.
    pub diameter_mm: f64,
    /// Low end, kN.
    pub low_kn: f64,
    /// High end, kN.
    pub high_kn: f64,
    /// Source keys.
    pub source: String,
    /// How well they are known.
    #[serde(deserialize_with = "seen")]
    pub seen: Mark,
}

const FORCES: &str = include_str!("../../../shared/chuck-force.csv");

/// Every row, smallest chuck first.
pub(crate) fn chuck_forces() -> &'static [ChuckForce] {
    static ROWS: LazyLock<Vec<ChuckForce>> = LazyLock::new(|| rows(FORCES));
    &ROWS
}

/// Jaw force of a scroll chuck of which nobody knows more than its diameter: the middle, and the band; between two rows the
/// outer ends of both. None outside the table.
pub(crate) fn force_by_diameter(diameter: f64) -> Option<Worked<Newton>> {
    let below = chuck_forces().iter().rev().find(|row| row.diameter_mm <= diameter)?;
    let above = chuck_forces().iter().find(|row| row.diameter_mm >= diameter)?;
    let (low, high) = (below.low_kn.min(above.low_kn) * 1000.0, below.high_kn.max(above.high_kn) * 1000.0);
    let says = format!("scroll chuck of {} mm: {} to {} N", figure(diameter), figure(low), figure(high));
    let middle = Newton::new((low + high) / 2.0);
    Some(Worked::row(middle, says, cited(&below.source, below.seen)).with_band(low, high))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_loads_and_a_larger_chuck_grips_no_less() {
        let (all, good, first) = crate::handbook::table::audit::<ChuckForce>(FORCES);
        assert_eq!(all, good, "{first}");
        for pair in chuck_forces().windows(2) {
            let [a, b] = pair else { panic!("two") };
            assert!(a.diameter_mm < b.diameter_mm && a.low_kn <= b.low_kn && a.high_kn <= b.high_kn);
        }
    }

    #[test]
    fn between_two_chucks_the_outer_ends_count() {
        let band = |diameter| force_by_diameter(diameter).and_then(|force| force.band());
        assert_eq!(band(160.0), Some((15_000.0, 40_000.0)));
        assert_eq!(band(130.0), Some((10_000.0, 40_000.0)));
        assert_eq!((band(79.0), band(201.0)), (None, None));
    }
}
