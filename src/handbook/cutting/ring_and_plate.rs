//! What the jaws do to the work: a ring squeezed out of round and bent, a plate dished, a flange that gives under the tool.

use crate::formula;
use crate::quantity::{Mm, Newton, Ratio, Stress};

formula! {
    /// Radius of a diameter.
    radius(D: Mm = "the diameter" in 0.0..=10_000.0)
        -> r: Mm { D / 2.0 }
    source Derived "geometry"
}
formula! {
    /// Mean radius of a ring.
    mean_radius(D: Mm = "the outside of the ring" in 0.001..=10_000.0, d: Mm = "the inside of the ring" in 0.0..=10_000.0)
        -> R: Mm { (D + d) / 4.0 }
    source Derived "geometry"
}
formula! {
    /// Wall of a ring.
    ring_wall(D: Mm = "the outside of the ring" in 0.001..=10_000.0, d: Mm = "the inside of the ring" in 0.0..=10_000.0)
        -> t: Mm { max((D - d) / 2.0, 0.000001) }
    source Derived "geometry; a wall of nothing is held at a millionth"
}
formula! {
    /// How far three jaws squeeze a ring out of round, peak to valley on the radius.
    ring_lobe(k: Ratio = "the factor of three loads on a ring" in 0.001..=0.1, F: Newton = "the jaw force that squeezes" in 0.0..=1e7,
        R: Mm = "the mean radius of the ring" in 0.001..=10_000.0, E: Stress = "the modulus of elasticity" in 100.0..=700_000.0,
        L: Mm = "the length of the ring" in 0.001..=10_000.0, t: Mm = "the wall of the ring" in 1e-9..=5_000.0)
        -> y: Mm { k * F / 3.0 * pow(R, 3.0) * 12.0 / (E * L * pow(t, 3.0)) }
    source Derived "thin ring under three equal loads, I = L t^3/12; agrees with Roark from memory"
}
formula! {
    /// Bending stress in a ring under a jaw.
    ring_stress(k: Ratio = "the factor of three loads on a ring" in 0.001..=0.5, F: Newton = "the jaw force that squeezes" in 0.0..=1e7,
        R: Mm = "the mean radius of the ring" in 0.001..=10_000.0, L: Mm = "the length of the ring" in 0.001..=10_000.0,
        t: Mm = "the wall of the ring" in 1e-9..=5_000.0)
        -> sigma: Stress { k * F / 3.0 * R * 6.0 / (L * sq(t)) }
    source Derived "thin ring under three equal loads, section L t^2/6; agrees with Roark from memory"
}
formula! {
    /// Length of a ring that works with the grip.
    ring_length_working(L: Mm = "the length of the ring" in 0.0..=10_000.0, g: Mm = "the grip" in 0.0..=10_000.0,
        k: Ratio = "the spread beside the grip" in 0.0..=10.0, R: Mm = "the mean radius of the ring" in 0.001..=10_000.0,
        t: Mm = "the wall of the ring" in 1e-9..=5_000.0)
        -> L_w: Mm { max(min(L, g + k * sqrt(R * t)), 0.001) }
    source Own "a load on a shell spreads over a length of the order of sqrt(R t)"
}
formula! {
    /// Arm of the jaws' pressure about the middle of the plate.
    dish_arm(o: Mm = "the overhang" in 0.0..=10_000.0, g: Mm = "the grip" in 0.0..=5_000.0, t: Mm = "the thickness" in 0.0..=10_000.0)
        -> e: Mm { max(o + g / 2.0 - t / 2.0, t / 2.0 - o - g / 2.0) + g / 6.0 }
    source Derived "middle of the grip to the middle of the plate, the pressure a sixth of the grip off"
}
formula! {
    /// How far a plate with a hole dishes under jaws on its rim.
    dish_of_ring(f: Ratio = "the factor of the jaws" in 0.1..=100.0, F: Newton = "the jaw force that squeezes" in 0.0..=1e7,
        e: Mm = "the arm of the jaws" in 0.0..=10_000.0, r_o: Mm = "the outer radius" in 0.001..=5_000.0,
        r_i: Mm = "the inner radius" in 0.0001..=5_000.0, E: Stress = "the modulus of elasticity" in 100.0..=700_000.0,
        t: Mm = "the thickness" in 0.001..=10_000.0, nu: Ratio = "Poisson's ratio" in 0.0..=0.499)
        -> y: Mm { f * F * e * r_o / (2.0 * PI) * 12.0 * (1.0 - sq(nu)) / (E * pow(t, 3.0))
            * (1.0 / (2.0 * (1.0 + nu)) + sq(r_i) * ln(r_o / r_i) / ((1.0 - nu) * (sq(r_o) - sq(r_i)))) }
    source Derived "annular plate with a moment F e/(2 pi r_o) along its outer edge, free inside (Timoshenko)"
}
formula! {
    /// How far a plate without a hole dishes under jaws on its rim.
    dish_of_disc(f: Ratio = "the factor of the jaws" in 0.1..=100.0, F: Newton = "the jaw force that squeezes" in 0.0..=1e7,
        e: Mm = "the arm of the jaws" in 0.0..=10_000.0, r_o: Mm = "the outer radius" in 0.001..=5_000.0,
        E: Stress = "the modulus of elasticity" in 100.0..=700_000.0, t: Mm = "the thickness" in 0.001..=10_000.0,
        nu: Ratio = "Poisson's ratio" in 0.0..=0.499)
        -> y: Mm { f * F * e * r_o / (2.0 * PI) * 12.0 * (1.0 - sq(nu)) / (E * pow(t, 3.0)) / (2.0 * (1.0 + nu)) }
    source Derived "round plate with a moment F e/(2 pi r_o) along its edge (Timoshenko)"
}
formula! {
    /// How far a plate dishes under jaws that open in its bore.
    dish_from_inside(f: Ratio = "the factor of the jaws" in 0.1..=100.0, F: Newton = "the jaw force that squeezes" in 0.0..=1e7,
        e: Mm = "the arm of the jaws" in 0.0..=10_000.0, r_o: Mm = "the outer radius" in 0.001..=5_000.0,
        r_i: Mm = "the inner radius" in 0.0001..=5_000.0, E: Stress = "the modulus of elasticity" in 100.0..=700_000.0,
        t: Mm = "the thickness" in 0.001..=10_000.0, nu: Ratio = "Poisson's ratio" in 0.0..=0.499)
        -> y: Mm { f * F * e * r_i / (2.0 * PI) * 12.0 * (1.0 - sq(nu)) / (E * pow(t, 3.0))
            * (1.0 / (2.0 * (1.0 + nu)) + sq(r_o) * ln(r_o / r_i) / ((1.0 - nu) * (sq(r_o) - sq(r_i)))) }
    source Derived "annular plate with a moment F e/(2 pi r_i) along its inner edge, free outside"
}
formula! {
    /// The factor of the jaws on a ring so narrow that it bends between them.
    dish_factor(f: Ratio = "the factor of the jaws" in 0.1..=10.0, k: Ratio = "the factor of a narrow ring" in 0.0..=2.0,
        r_o: Mm = "the outer radius" in 0.001..=5_000.0, r_i: Mm = "the inner radius" in 0.0..=5_000.0)
        -> f_n: Ratio { f * max(1.0, k / sqrt(max(1.0 - r_i / r_o, 0.0001))) }
    source Derived "Fourier series of an annular plate with three moments on its edge"
}
formula! {
    /// Free width of a flange.
    flange_width(D: Mm = "the outside of the flange" in 0.001..=10_000.0, d_g: Mm = "the diameter gripped" in 0.001..=10_000.0)
        -> b: Mm { (D - d_g) / 2.0 }
    source Derived "geometry"
}
formula! {
    /// Free width of a flange over its thickness.
    flange_slenderness(b: Mm = "the free width of the flange" in 0.0..=5_000.0, t: Mm = "the thickness of the flange" in 0.001..=10_000.0)
        -> k: Ratio { b / t }
    source Derived "geometry"
}
formula! {
    /// How far a flange gives under the tool at its rim.
    flange_gives(k: Ratio = "the factor of a clamped strip" in 0.01..=2.0, k_b: Ratio = "the factor of blows" in 1.0..=4.0,
        F: Newton = "the axial force" in 0.0..=1e7, b: Mm = "the free width of the flange" in 0.0..=5_000.0,
        E: Stress = "the modulus of elasticity" in 100.0..=700_000.0, t: Mm = "the thickness of the flange" in 0.001..=10_000.0,
        nu: Ratio = "Poisson's ratio" in 0.0..=0.499)
        -> y: Mm { k * k_b * F * sq(b) * 12.0 * (1.0 - sq(nu)) / (E * pow(t, 3.0)) }
    source FromMemory "Timoshenko: long clamped strip with a force at its free edge"
}
formula! {
    /// The factor of a strip that is bent round a hub: the free rim is longer than the root.
    flange_round_factor(k: Ratio = "the factor of a clamped strip" in 0.01..=2.0, q: Ratio = "the exponent of the rim" in 0.0..=2.0,
        D: Mm = "the outside of the flange" in 0.001..=10_000.0, d_g: Mm = "the diameter gripped" in 0.001..=10_000.0)
        -> k_r: Ratio { k * pow(D / d_g, q) }
    source Derived "fit to a Fourier series of an annular plate clamped inside with a force at its rim"
}
formula! {
    /// Axial force of a cut.
    axial_force(k_p: Ratio = "the axial over the cutting force" in 0.0..=4.0, F: Newton = "the cutting force" in 0.0..=1e7)
        -> F_p: Newton { k_p * F }
    source FromMemory "texts on turning and hard turning"
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::handbook::constants::constant;
    use crate::proof::Worked;
    use crate::quantity::Quantity;
    use std::f64::consts::PI;

    fn exact<Q: Quantity>(number: f64) -> Worked<Q> {
        Worked::assumed(Q::new(number), "given")
    }

    fn row(name: &'static str) -> f64 {
        constant::<Ratio>(name).unwrap().number()
    }

    #[track_caller]
    fn near(got: f64, wanted: f64, share: f64) {
        assert!((got / wanted - 1.0).abs() <= share, "{got}, wanted {wanted}");
    }

    /// A plate of stiffness E t³/(12 (1 − ν²)) = 1 N mm with a moment of 1 N mm a mm of its edge.
    fn plate(outer: f64, inner: f64, from_inside: bool) -> f64 {
        let nu: f64 = 0.29;
        let (e, t, nu_given) = (exact(12.0 * (1.0 - nu * nu) / 1e-3), exact(0.1), exact(nu));
        let at = if from_inside { inner } else { outer };
        let (f, force, arm) = (exact(1.0), exact(2.0 * PI * at), exact(1.0));
        let (r_o, r_i) = (exact(outer), exact(inner));
        match (from_inside, inner > 0.0) {
            (true, _) => dish_from_inside(&f, &force, &arm, &r_o, &r_i, &e, &t, &nu_given),
            (false, true) => dish_of_ring(&f, &force, &arm, &r_o, &r_i, &e, &t, &nu_given),
            (false, false) => dish_of_disc(&f, &force, &arm, &r_o, &e, &t, &nu_given),
        }
        .unwrap()
        .number()
    }

    /// Source: the plate's equation for its slope, φ″ + φ′/r − φ/r² = 0 with D (φ′ + ν φ/r) given at both edges, solved by finite
    /// differences (4000 steps, ν 0.29) and summed: not by the formula.
    #[test]
    fn a_plate_with_a_moment_on_its_edge_by_finite_differences() {
        for (outer, inner, wanted_outside, wanted_inside) in
            [(50.0, 30.0, 1980.7507, 1360.5957), (26.0, 16.0, 543.7728, 380.9821), (50.0, 45.0, 2550.5715, 2366.4630)]
        {
            near(plate(outer, inner, false), wanted_outside, 1e-6);
            near(plate(outer, inner, true), wanted_inside, 1e-6);
        }
        near(plate(50.0, 0.01, false), 968.9926, 1e-5);
        near(plate(50.0, 0.0, false), plate(50.0, 0.001, false), 1e-5);
    }

    /// Source: the same plate with three moments over jaws an eighth of the radius wide, by a Fourier series round the plate
    /// (harmonics 0, 3, 6 … 117, both edges free); given is peak to valley over the even dish.
    #[test]
    fn three_jaws_dish_no_more_than_their_factor() {
        for (inner, outer, three, soft) in
            [(30.0, 50.0, 1.46, 1.06), (40.0, 50.0, 1.65, 1.10), (45.0, 50.0, 2.15, 1.20), (47.5, 50.0, 3.17, 1.40)]
        {
            let of = |factor| {
                let narrow = constant("dish-narrow-ring").unwrap();
                dish_factor(&constant(factor).unwrap(), &narrow, &exact(outer), &exact(inner)).unwrap().number()
            };
            assert!(of("dish-factor") >= three, "{inner}: {}", of("dish-factor"));
            // Soft jaws that touch over 100 degrees each: a twentieth under for wide plates lies inside the quarter that is kept.
            assert!(of("dish-factor-soft-jaws") >= soft - 0.07, "{inner}: {}", of("dish-factor-soft-jaws"));
        }
    }

    /// Source: a thin ring under three equal loads by a Fourier series, w = 3/π Σ 1/(n² − 1)² cos nθ and M = 3/π Σ 1/(n² − 1)
    /// over n = 3, 6, 9 …: 0.015939 under a load, 0.014257 between two, 0.18879 for the moment.
    #[test]
    fn a_ring_under_three_loads_by_a_fourier_series() {
        let sum = |term: &dyn Fn(f64) -> f64, most: u32| -> f64 {
            (1..most).map(|k| term(f64::from(3 * k))).sum::<f64>() * 3.0 / PI
        };
        let under = sum(&|n| 1.0 / (n * n - 1.0).powi(2), 1000);
        let between = sum(&|n| if (n as u32 / 3) % 2 == 1 { 1.0 } else { -1.0 } / (n * n - 1.0).powi(2), 1000);
        near(row("ring-lobe-factor"), under + between, 2e-3);
        near(row("ring-stress-factor"), sum(&|n| 1.0 / (n * n - 1.0), 100_000), 2e-3);
    }

    /// Source: an annular plate clamped inside with a force at its rim by a Fourier series (150 harmonics, ν 0.29).
    #[test]
    fn a_flange_gives_no_less_than_the_plate_does() {
        let (k, q) = (constant("flange-tip-factor").unwrap(), constant("flange-round-exponent").unwrap());
        for (ratio, wanted) in
            [(1.05, 0.1676), (1.1, 0.1739), (1.25, 0.1862), (1.5, 0.2019), (2.0, 0.2242), (3.0, 0.2509), (6.0, 0.2881)]
        {
            let factor = flange_round_factor(&k, &q, &exact(ratio), &exact(1.0)).unwrap().number();
            assert!(factor >= wanted * 0.999, "{ratio}: {factor} under {wanted}");
        }
    }
}
