//! How far bars, tubes and flanges give way under a force.

use crate::formula;
use crate::quantity::{Mm, Mm4, Newton, Ratio, SpringRate, Stress};

formula! {
    /// Second moment of area of a round bar.
    second_moment_round(d: Mm = "the diameter" in 0.01..=5_000.0)
        -> I: Mm4 { PI * pow(d, 4.0) / 64.0 }
    source Read "boring practice article: I = pi D^4/64"
}
formula! {
    /// Second moment of area of a tube.
    second_moment_tube(D: Mm = "the outside" in 0.01..=5_000.0, d: Mm = "the inside" in 0.0..=5_000.0)
        -> I: Mm4 { PI * (pow(D, 4.0) - pow(d, 4.0)) / 64.0 }
    source Read "boring practice article: I = pi (D^4 - d^4)/64"
}
formula! {
    /// A bar held at one end, with the force at the other: work standing out of a chuck, a boring bar.
    deflection_cantilever(F: Newton = "the force" in 0.0..=1e6, L: Mm = "the length standing out" in 0.0..=10_000.0,
        E: Stress = "the modulus of elasticity" in 100.0..=700_000.0, I: Mm4 = "the second moment of area" in 1e-6..=1e13)
        -> y: Mm { F * pow(L, 3.0) / (3.0 * E * I) }
    source Read "boring practice article: y = F L^3/(3 E I)"
}
formula! {
    /// The bending stress at the root of such a bar.
    bending_stress(F: Newton = "the force" in 0.0..=1e6, L: Mm = "the length standing out" in 0.0..=10_000.0,
        d: Mm = "the diameter" in 0.01..=5_000.0, I: Mm4 = "the second moment of area" in 1e-6..=1e13)
        -> s: Stress { F * L * d / (2.0 * I) }
    source Derived "the moment F L over the section modulus, I by half the diameter"
}
formula! {
    /// How stiff such a bar stands at its free end.
    stiffness_cantilever(E: Stress = "the modulus of elasticity" in 100.0..=700_000.0, I: Mm4 = "the second moment of area" in 1e-6..=1e13,
        L: Mm = "the length standing out" in 0.01..=10_000.0)
        -> c: SpringRate { 3.0 * E * I / pow(L, 3.0) }
    source Derived "y = F L^3/(3 E I), turned round"
}
formula! {
    /// How stiff a thin tube stands against being dented at its free end, its other end held round. Its wall goes out of round in two, three,
    /// … waves: each is a beam along the tube, pi E t a^3/n^4 stiff, on the bed that the wall about it makes, pi D (n^2 - 1)^2/a^3, and gives
    /// way no more than an endless one. Poisson's ratio 0.3.
    stiffness_tube_end(E: Stress = "the modulus of elasticity" in 100.0..=700_000.0, t: Mm = "the wall" in 0.001..=2_500.0,
        a: Mm = "the radius of the middle of the wall" in 0.01..=2_500.0)
        -> c: SpringRate { E * pow(t, 2.5) / (2.4 * pow(a, 1.5)) }
    source Derived "beams on an elastic bed, each with the force at its end: the sum of 2 b/k over n = 2, 3, … is 2.3 a^1.5/(E t^2.5)"
}
formula! {
    /// Two springs one behind the other: the bar and the part.
    stiffness_in_row(c_1: SpringRate = "the one stiffness" in 0.0..=1e12, c_2: SpringRate = "the other stiffness" in 0.0..=1e12)
        -> c: SpringRate { 1.0 / (1.0 / c_1 + 1.0 / c_2) }
    source Derived "one force, and the ways of both"
}
formula! {
    /// How hard a cut pushes the edge away for each millimetre of its depth.
    stiffness_of_cut(k_r: Ratio = "the radial over the cutting force" in 0.01..=4.0, F: Newton = "the cutting force" in 0.0..=1e6,
        a: Mm = "the depth of cut" in 0.0005..=100.0)
        -> c_c: SpringRate { k_r * F / a }
    source Derived "the radial force grows in step with the depth"
}
formula! {
    /// Share of a depth that a pass leaves standing, because tool and work give way.
    share_left(c_c: SpringRate = "the stiffness of the cut" in 0.0..=1e9, c: SpringRate = "the stiffness of tool and work" in 1e-9..=1e12)
        -> q: Ratio { c_c / (c_c + c) }
    source Derived "the depth is shared between what is cut and what gives way"
}
formula! {
    /// What is left on the diameter after so many passes at one setting; what the passes before it left is cut with it.
    left_by_spring(q: Ratio = "the share that a pass leaves" in 0.0..=0.999999, i: Ratio = "the passes at one setting" in 1.0..=50.0,
        a: Mm = "the depth and what it varies by" in 0.0..=100.0)
        -> x: Mm { 2.0 * pow(q, i) * a / (1.0 - q) }
    source Derived "each pass leaves its share of what it meets; both sides of a diameter"
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::proof::Worked;
    use crate::quantity::Quantity;

    fn exact<Q: Quantity>(number: f64) -> Worked<Q> {
        Worked::assumed(Q::new(number), "given")
    }

    /// Source: boring practice article, 911.1 N on 101.6 mm of 25.4 mm steel: I 20 432 mm4, 0.0757 mm.
    #[test]
    fn a_boring_bar_as_printed() {
        let i = second_moment_round(&exact(25.4)).unwrap();
        assert_eq!(format!("{:.0}", i.number()), "20432");
        let y = deflection_cantilever(&exact(911.1), &exact(101.6), &exact(206_000.0), &i).unwrap();
        assert_eq!(format!("{:.4}", y.number()), "0.0757");
    }

    /// The sum over two hundred waves is what one term stands for; a tube that is short gives way less.
    #[test]
    fn the_end_of_a_tube_is_no_stiffer_than_its_waves() {
        const E: f64 = 205_000.0;
        for (wall, radius, out) in [(2.5, 58.75, 100.0), (1.5, 28.75, 60.0), (5.0, 20.0, 50.0), (3.0, 73.0, 20.0)] {
            let plate = E * f64::powi(wall, 3) / (12.0 * (1.0 - 0.09));
            let waves = |out: f64| -> f64 {
                let of = |n: f64| {
                    let beam = std::f64::consts::PI * E * wall * f64::powi(radius, 3) / n.powi(4);
                    let bed = std::f64::consts::PI * plate * (n * n - 1.0).powi(2) / f64::powi(radius, 3);
                    let b = (bed / (4.0 * beam)).powf(0.25);
                    let far = (b * out).min(20.0);
                    let held =
                        (far.sinh() * far.cosh() - far.sin() * far.cos()) / (far.cosh().powi(2) + far.cos().powi(2));
                    2.0 * b / bed * held
                };
                (2..=200).map(f64::from).map(of).sum()
            };
            let given = stiffness_tube_end(&exact(E), &exact(wall), &exact(radius)).unwrap().number();
            assert!(given * waves(out) <= 1.0, "{wall} {radius} {out}: {}", given * waves(out));
            let endless = given * waves(1e6);
            assert!((0.9..=1.0).contains(&endless), "{wall} {radius}: {endless}");
        }
    }

    #[test]
    fn a_tube_without_a_hole_is_a_bar() {
        let bar = second_moment_round(&exact(30.0)).unwrap();
        assert_eq!(second_moment_tube(&exact(30.0), &exact(0.0)).unwrap().number(), bar.number());
    }
}
