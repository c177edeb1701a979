//! What the jaws do to the work: a ring squeezed out of round and bent, a plate dished, a flange that gives under the tool.

use crate::formula;
use crate::quantity::{Mm, Newton, Ratio, Stress};

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
