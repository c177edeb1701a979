//! Holding the work: what a chuck may turn at, balance, overhang, swing.

use crate::formula;
use crate::quantity::{Kilogram, Mm, Newton, Ratio, RevPerMin, Stress};

formula! {
    /// Force outwards of a mass that turns off the axis.
    centrifugal_force(m: Kilogram = "the mass" in 0.0..=5_000.0, e: Mm = "its distance from the axis" in 0.0..=2_000.0,
        n: RevPerMin = "the spindle speed" in 0.0..=60_000.0)
        -> F_c: Newton { m * e / 1000.0 * sq(PI * n / 30.0) }
    source Derived "mass times radius times angular speed squared"
}
formula! {
    /// Speed at which a plate reading may stand, so that the real speed at its high side keeps a limit.
    plate_speed_for(n_max: RevPerMin = "the highest speed" in 0.5..=60_000.0, k: Ratio = "the high side of a plate speed" in 1.0..=1.2)
        -> n: RevPerMin { n_max / k }
    source Read "DIN 804: the marked speed under load, to +6 %"
}
formula! {
    /// The real speed at the high side of a plate reading.
    plate_speed_high(n: RevPerMin = "the spindle step" in 0.5..=60_000.0, k: Ratio = "the high side of a plate speed" in 1.0..=1.2)
        -> n_high: RevPerMin { n * k }
    source Read "DIN 804: the marked speed under load, to +6 %"
}
formula! {
    /// The most centrifugal force that a machine stands, as a share of the weight that turns.
    balance_allowed(k: Ratio = "the share of the weight" in 0.01..=0.2, m: Kilogram = "the mass of the work" in 0.0..=5_000.0,
        m_c: Kilogram = "the mass of the chuck" in 0.0..=5_000.0)
        -> F: Newton { k * (m + m_c) * 9.80665 }
    source Own "5 % of the weight of work and chuck"
}
formula! {
    /// Speed at which work off its centre reaches a force.
    balance_speed(F: Newton = "the force allowed" in 0.001..=1e6, m: Kilogram = "the mass of the work" in 0.0001..=5_000.0,
        e: Mm = "how far it is off centre" in 0.0001..=2_000.0)
        -> n: RevPerMin { 30.0 / PI * sqrt(1000.0 * F / (m * e)) }
    source Derived "F = m e omega^2, turned round"
}
formula! {
    /// How far work may stand out unsupported.
    overhang_most(k: Ratio = "the most diameters that may stand out" in 0.5..=12.0, d: Mm = "the diameter gripped" in 0.1..=5_000.0)
        -> L: Mm { k * d }
    source Read "lathe maker's manual: no more than three diameters unsupported"
}
formula! {
    /// Diameter that must clear the bed: the part, the jaws that stand out over what they grip, and the chuck.
    swing_asked(D: Mm = "the outside" in 0.001..=10_000.0, d_g: Mm = "the diameter gripped" in 0.0..=10_000.0,
        k: Ratio = "how far the jaws stand out" in 0.0..=2.0, D_c: Mm = "the diameter of the chuck" in 0.0..=5_000.0,
        x: Mm = "the clearance" in 0.0..=100.0)
        -> D_s: Mm { max(max(D, d_g + k * D_c), D_c) + x }
    source Own "part, jaws and chuck, and some air"
}
formula! {
    /// Length of a round bar, held at one end and free at the other, whose first bending frequency is a speed of turning: longer, it bows out
    /// and flails.
    whirl_length(n: RevPerMin = "the speed" in 0.5..=60_000.0, E: Stress = "the modulus of elasticity" in 100.0..=700_000.0,
        s: Ratio = "the density over that of water" in 0.1..=25.0, d: Mm = "the diameter" in 0.1..=5_000.0)
        -> L: Mm { sqrt(3.516 * d / 4.0 * 1000.0 * sqrt(1000.0 * E / s) / (PI * n / 30.0)) }
    source Derived "omega = 3.516 (d/4) sqrt(E/rho) / L^2, turned round: the first bending mode of a bar clamped at one end"
}
formula! {
    /// Share of a limit that is kept for one cause.
    share_of(k: Ratio = "the share" in 0.0..=1.0, limit: Mm = "the limit" in 0.0..=5_000.0)
        -> part: Mm { k * limit }
    source Own "share of a limit"
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::proof::Worked;
    use crate::quantity::Quantity;

    fn exact<Q: Quantity>(number: f64) -> Worked<Q> {
        Worked::assumed(Q::new(number), "given")
    }

    /// Source: balancing maker's page, 1000 g mm at 3000 rev/min: 98.69 N (cut off).
    #[test]
    fn force_of_an_unbalance() {
        let f = centrifugal_force(&exact(0.01), &exact(100.0), &exact(3000.0)).unwrap();
        assert_eq!((f.number() * 100.0).floor(), 9869.0);
    }

    /// A steel bar of 24.6 mm, 2930 mm long, whirls at 124 rev/min: omega = 3.516 * 6.15e-3 * 5130 / 2.93^2 = 12.92 rad/s.
    #[test]
    fn a_long_bar_whirls_slowly() {
        let of = |n: f64| whirl_length(&exact(n), &exact(206_600.0), &exact(7.85), &exact(24.6)).unwrap().number();
        assert!((of(123.4) / 2930.0 - 1.0).abs() < 0.002, "{}", of(123.4));
        assert!((of(4.0 * 123.4) * 2.0 / of(123.4) - 1.0).abs() < 1e-9, "with the square of the length");
    }

    #[test]
    fn the_balance_speed_reaches_just_the_force_allowed() {
        let allowed = balance_allowed(&exact(0.05), &exact(4.0), &exact(8.0)).unwrap();
        let n = balance_speed(&allowed, &exact(4.0), &exact(3.0)).unwrap();
        let force = centrifugal_force(&exact(4.0), &exact(3.0), &n).unwrap();
        assert!((force.number() - allowed.number()).abs() < 1e-9);
    }
}
