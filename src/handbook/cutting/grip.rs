//! Grip: the jaw force that a cut asks, by its torque and by its tilting moment.
//!
//! Three jaws at 120 degrees share the force F; g is the length gripped, d the diameter. *Pressure*: a jaw whose pressure does
//! not lift at either end carries its share up to g/6 from its middle, so the moment is F/3 · g/6 times the least of Σ|cos φ|
//! over all directions, √3: √3/18 F g. Four jaws: F/4 · g/6 · 2 = F g/12. *Friction along the axis*, half of it left beside the
//! torque: µF/6 a jaw at d/2. Alone it must sum to nothing: the least moment is 1.5 · µF d/12 = µF d/8. Where a step of the jaws
//! takes the sum: √3 · µF d/12. Four jaws: 2 · µF d/16 = µF d/8, which balances on its own.

use crate::formula;
use crate::quantity::{Kilogram, Mm, Newton, NewtonMetre, Ratio};

formula! {
    /// Total jaw force that a cut asks by its torque, and by the force along the axis where no stop takes that.
    grip_by_torque(S: Ratio = "the safety of the grip" in 1.0..=6.0, k_b: Ratio = "the factor of blows" in 1.0..=4.0,
        F: Newton = "the cutting force" in 0.0..=1e7, d_w: Mm = "the diameter cut" in 0.01..=10_000.0,
        d_g: Mm = "the diameter gripped" in 0.001..=10_000.0, k_p: Ratio = "the axial over the cutting force" in 0.0..=4.0,
        mu: Ratio = "the friction of the jaws" in 0.02..=0.8)
        -> F_1: Newton { S * k_b * F * sqrt(sq(d_w / d_g) + sq(k_p)) / mu }
    source Derived "friction of the jaws holds torque and axial force together; safety: Roehm RN 1391, VDI 3106"
}
formula! {
    /// Torque that a grip must stand in a test with a bar and a spring balance.
    torque_to_stand(S: Ratio = "the safety of the grip" in 1.0..=6.0, k_b: Ratio = "the factor of blows" in 1.0..=4.0,
        F: Newton = "the cutting force" in 0.0..=1e7, d_w: Mm = "the diameter cut" in 0.01..=10_000.0)
        -> T: NewtonMetre { S * k_b * F * d_w / 2_000.0 }
    source Derived "force times radius, times safety and blows"
}
formula! {
    /// Arm of the cut about the middle of the grip.
    arm_of_the_cut(o: Mm = "the overhang" in 0.0..=10_000.0, c: Mm = "the corner of the jaws" in 0.0..=5.0,
        g: Mm = "the grip" in 0.0..=5_000.0)
        -> a: Mm { o + c + g / 2.0 }
    source Derived "geometry"
}
formula! {
    /// Length that really grips.
    length_that_grips(g: Mm = "the grip" in 0.0..=5_000.0, c: Mm = "the corner of the jaws" in 0.0..=5.0)
        -> g_c: Mm { max(g - c, 0.01) }
    source Own "the rounded corner of the jaws grips nothing; held over 0.01 mm"
}
formula! {
    /// Mass of a ring or disc.
    mass_of_ring(rho: Ratio = "the density in g/cm3" in 0.1..=25.0, D: Mm = "the outside" in 0.01..=10_000.0,
        d: Mm = "the inside" in 0.0..=10_000.0, L: Mm = "the length" in 0.0..=10_000.0)
        -> m: Kilogram { rho * PI / 4.0 * (sq(D) - sq(d)) * L / 1_000_000.0 }
    source Derived "geometry"
}
formula! {
    /// Moment that tilts the work in its grip: cutting force, force along the feed and axial force, and its weight on the
    /// same arm.
    tilting_moment(k_b: Ratio = "the factor of blows" in 1.0..=4.0, F: Newton = "the cutting force" in 0.0..=1e7,
        a: Mm = "the arm of the cut" in 0.0..=20_000.0, k_f: Ratio = "the feed force over the cutting force" in 0.0..=4.0,
        k_p: Ratio = "the axial over the cutting force" in 0.0..=4.0, r_p: Mm = "the radius of the axial force" in 0.0..=5_000.0,
        m: Kilogram = "the mass of the work" in 0.0..=100_000.0)
        -> M: NewtonMetre { (k_b * F * sqrt(sq(a) + sq(k_f * a + k_p * r_p)) + 9.81 * m * a) / 1_000.0 }
    source Derived "moments about the middle of the grip; kg times 9.81 m/s2 times mm is N mm"
}
formula! {
    /// Total jaw force that the tilting moment asks.
    grip_by_moment(S: Ratio = "the safety of the grip" in 1.0..=6.0, M: NewtonMetre = "the tilting moment" in 0.0..=1e9,
        k_g: Ratio = "the factor of pressure" in 0.01..=1.0, g_c: Mm = "the length that grips" in 0.001..=5_000.0,
        k_t: Ratio = "the factor of friction" in 0.01..=1.0, mu: Ratio = "the friction of the jaws" in 0.02..=0.8,
        d_g: Mm = "the diameter gripped" in 0.001..=10_000.0)
        -> F_2: Newton { 1_000.0 * S * M / (k_g * g_c + k_t * mu * d_g) }
    source Derived "no jaw lifts at an end, half of its friction is left"
}
formula! {
    /// Least length in the grip.
    grip_length_asked(g_0: Mm = "the least of any grip" in 0.0..=100.0, o: Mm = "the overhang" in 0.0..=10_000.0,
        d_g: Mm = "the diameter gripped" in 0.001..=10_000.0)
        -> g_a: Mm { max(g_0, min(o / 3.0, d_g / 2.0)) }
    source FromMemory "workshop rule: a third of what stands out, or half the diameter gripped"
}
formula! {
    /// Clear way between the nose of the tool and the jaws at the end of the cut.
    tool_clear(o: Mm = "the overhang" in 0.0..=10_000.0, s: Mm = "how far the tool comes" in 0.0..=10_000.0,
        r: Mm = "the nose radius" in 0.0..=50.0, k: Mm = "the corner of the jaws" in 0.0..=5.0)
        -> c: Mm { o - s - r - k }
    source Derived "geometry"
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::handbook::constants::constant;
    use crate::proof::Worked;
    use crate::quantity::Quantity;

    fn exact<Q: Quantity>(number: f64) -> Worked<Q> {
        Worked::assumed(Q::new(number), "given")
    }

    /// The least, over all directions of a tilting moment, of what three or four jaws carry: found by trying directions, not by
    /// the algebra above. Each jaw carries `each` in either sense; `balanced` holds the sum of the three at nothing.
    fn least_carried(jaws: u32, balanced: bool) -> f64 {
        let turn = 2.0 * std::f64::consts::PI;
        let of = |direction: f64| {
            let cosines: Vec<f64> =
                (0..jaws).map(|jaw| (turn * f64::from(jaw) / f64::from(jaws) - direction).cos()).collect();
            let mut best = 0.0_f64;
            // Each jaw full one way, not at all, or full the other way: the corners of what it can do, and the balanced ones.
            for code in 0..3_u32.pow(jaws) {
                let signs: Vec<f64> = (0..jaws).map(|jaw| f64::from(code / 3_u32.pow(jaw) % 3) - 1.0).collect();
                if !balanced || signs.iter().sum::<f64>().abs() < 1e-9 {
                    best = best.max(cosines.iter().zip(&signs).map(|(c, s)| c * s).sum());
                }
            }
            best
        };
        (0..3600).map(|step| of(turn * f64::from(step) / 3600.0)).fold(f64::INFINITY, f64::min)
    }

    #[test]
    fn the_factors_of_the_jaws_are_the_least_over_all_directions() {
        let row = |name| constant::<Ratio>(name).unwrap().number();
        let near = |row: f64, tried: f64| assert!((row - tried).abs() < 1e-5, "{row} {tried}");
        near(row("grip-tilt-three-jaws"), least_carried(3, false) / 3.0 / 6.0);
        near(row("grip-tilt-four-jaws"), least_carried(4, false) / 4.0 / 6.0);
        near(row("grip-friction-tilt"), least_carried(3, true) / 3.0 / 2.0 / 2.0);
        near(row("grip-friction-tilt"), least_carried(4, true) / 4.0 / 2.0 / 2.0);
        near(row("grip-friction-tilt-step"), least_carried(3, false) / 3.0 / 2.0 / 2.0);
    }

    /// Source: by hand, 11 kg on an arm of 33 mm: 11 × 9.81 × 33 = 3561 N mm.
    #[test]
    fn a_weight_tilts_by_its_arm() {
        let m =
            tilting_moment(&exact(1.0), &exact(0.0), &exact(33.0), &exact(0.5), &exact(0.5), &exact(0.0), &exact(11.0));
        assert_eq!(format!("{:.3}", m.unwrap().number()), "3.561");
    }
}
