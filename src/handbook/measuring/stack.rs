//! Sizes in a row: what a gap is that several sizes open and close, what shims leave of a float, and what warmth adds.

use crate::formula;
use crate::quantity::{Celsius, Expansion, Mm, Ratio, Shift};

formula! {
    /// A gap with one link more.
    and_link(G: Shift = "the gap without it" in -1_000_000.0..=1_000_000.0,
        c: Ratio = "how often the link counts, with its sign" in -1_000.0..=1_000.0,
        x: Mm = "the size of the link" in 0.0..=5_000.0)
        -> G_1: Shift { G + c * x }
    source Derived "sizes in a row: what opens is added, what closes is taken off"
}
formula! {
    /// How far limits let a gap go, with one link more.
    and_limits(T: Mm = "how far the others let it go" in 0.0..=1_000_000.0,
        c: Ratio = "how often the link counts" in 0.0..=1_000.0, t: Mm = "half of what its limits leave it" in 0.0..=5_000.0)
        -> T_1: Mm { T + c * t }
    source Derived "worst case: every link at its bad limit"
}
formula! {
    /// The same by the root of the sum of squares.
    and_squares(R: Mm = "the root over the others" in 0.0..=1_000_000.0,
        c: Ratio = "how often the link counts" in 0.0..=1_000.0, t: Mm = "half of what its limits leave it" in 0.0..=5_000.0)
        -> R_1: Mm { sqrt(sq(R) + sq(c * t)) }
    source Derived "links that hang on nothing in common"
}
formula! {
    /// The float without a shim, from the float that was found with a pack in.
    bare_by_pack(f: Shift = "the float as found" in -50.0..=50.0, p: Mm = "the pack that was in" in 0.0..=50.0)
        -> F: Shift { f + p }
    source Derived "a pack takes its thickness from the float"
}
formula! {
    /// The pack that leaves just the float aimed at; negative where metal would have to go.
    pack_wanted(F: Shift = "the float without a shim" in -50.0..=50.0, a: Shift = "the float aimed at" in -50.0..=50.0)
        -> p: Shift { F - a }
    source Derived "a pack takes its thickness from the float"
}
formula! {
    /// The float that a pack leaves.
    float_left(F: Shift = "the float without a shim" in -50.0..=50.0, p: Mm = "the pack" in 0.0..=50.0)
        -> f: Shift { F - p }
    source Derived "a pack takes its thickness from the float"
}
formula! {
    /// How much a size grows from 20 °C to another temperature; negative where it is colder.
    grown_by(L: Mm = "the size" in 0.0..=5_000.0, alpha: Expansion = "the thermal expansion" in 0.0..=200.0,
        T: Celsius = "the temperature" in -80.0..=600.0)
        -> g: Shift { L * alpha * (T - 20.0) / 1000000.0 }
    source Derived "linear expansion from the reference temperature of ISO 1"
}
formula! {
    /// By how much less the bore of a bush opens than what carries it, where it would grow more and is held round and lengthwise: its
    /// wall has no way but inward.
    wall_grows_inward(t: Mm = "the wall of the bush" in 0.0..=500.0, alpha: Expansion = "its thermal expansion" in 0.0..=200.0,
        alpha_c: Expansion = "that of what carries it" in 0.0..=200.0, nu: Ratio = "its Poisson's ratio" in 0.0..=0.49,
        T: Celsius = "the temperature" in -80.0..=600.0)
        -> g: Shift { 2.0 * t * (alpha - alpha_c) * (T - 20.0) / 1000000.0 * (1.0 + nu) / (1.0 - nu) }
    source Derived "Hooke's law: held in two directions, its strain in the third is (1 + nu) / (1 - nu) times the free one"
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::proof::Worked;
    use crate::quantity::Quantity;
    use approx::assert_abs_diff_eq;

    fn of<Q: Quantity>(number: f64) -> Worked<Q> {
        Worked::assumed(Q::new(number), "a test")
    }

    /// A bore of 40 less a spacer of 25, a ring of 2 and a shoulder of 10 leaves 3 mm (metricmech.com; read).
    #[test]
    fn sizes_in_a_row() {
        let mut gap = of(0.0);
        for (c, x) in [(1.0, 40.0), (-1.0, 25.0), (-1.0, 2.0), (-1.0, 10.0)] {
            gap = and_link(&gap, &of(c), &of(x)).unwrap();
        }
        assert_abs_diff_eq!(gap.number(), 3.0, epsilon = 1e-12);
    }

    #[test]
    fn a_pack_takes_its_thickness() {
        let bare = bare_by_pack(&of(0.08), &of(2.33)).unwrap();
        assert_abs_diff_eq!(pack_wanted(&bare, &of(0.15)).unwrap().number(), 2.26, epsilon = 1e-12);
        assert_abs_diff_eq!(float_left(&bare, &of(2.26)).unwrap().number(), 0.15, epsilon = 1e-12);
        // Held in two directions: 2 x 5 x 70e-6 x 60 x 1.4 / 0.6.
        let inward = wall_grows_inward(&of(5.0), &of(80.0), &of(10.0), &of(0.4), &of(80.0)).unwrap();
        assert_abs_diff_eq!(inward.number(), 0.098, epsilon = 1e-12);
        assert_abs_diff_eq!(grown_by(&of(100.0), &of(11.5), &of(60.0)).unwrap().number(), 0.046, epsilon = 1e-12);
    }
}
