//! What rights work that a cut from the side would tip over its hold.
//!
//! Nobody knows the force of clamps or of a vice. What is known is a twist about the upright axis that they stood in a test, which they
//! cannot have stood with less than a certain force; that force at its arm is what rights the work. Moment balance about the edge over
//! which it tips (statics); the weight of the work, which rights it too, is left out.
//!
//! *Clamps*: under each the table, and over each the clamp itself, hold by friction, no further from the middle than the corners: the twist
//! is no more than 2 µN c/2, c from corner to corner. The clamps stand evenly about the middle, so that N rights it over half of its seat.
//! *A vice*, or an angle plate with clamps against it: pressed between two sides, N carries a twist by its pressure, which moves to one end,
//! and by friction on both sides: N (L/2 + µ w), which is never over N c √(1/4 + µ²). Pushed over the jaw it is righted by N, which acts
//! at half of the depth gripped; pushed along the jaws by friction on both sides, of which each part is half the length away on the mean.
//! *Jaws*: the twist is µN d/2, and N rights as in a chuck of a lathe.

use crate::formula;
use crate::quantity::{Mm, NewtonMetre, Ratio};

formula! {
    /// What clamps right that stood a twist.
    righted_by_clamps(T: NewtonMetre = "the twist that the hold stood" in 0.0..=100_000.0, b: Mm = "the narrower way across the seat" in 0.01..=10_000.0,
        mu: Ratio = "the friction under the clamps" in 0.02..=0.8, c: Mm = "from corner to corner" in 0.01..=20_000.0)
        -> M_r: NewtonMetre { T * b / (2.0 * mu * c) }
    source Derived "statics: moments about the edge of the seat, the clamps as strong as the twist shows"
}
formula! {
    /// What a grip between two flat sides rights that stood a twist.
    righted_between_sides(T: NewtonMetre = "the twist that the hold stood" in 0.0..=100_000.0, g: Mm = "the depth that is gripped" in 0.01..=10_000.0,
        L: Mm = "the length gripped" in 0.01..=10_000.0, mu: Ratio = "the friction of the jaws" in 0.02..=0.8,
        c: Mm = "from corner to corner" in 0.01..=20_000.0)
        -> M_r: NewtonMetre { T * min(g / 2.0, mu * L) / (c * sqrt(0.25 + sq(mu))) }
    source Derived "statics: moments about the edge of the jaw, and along the jaws by friction, the grip as strong as the twist shows"
}
formula! {
    /// What jaws of a chuck right that stood a twist.
    righted_by_jaws(T: NewtonMetre = "the twist that the hold stood" in 0.0..=100_000.0, k_g: Ratio = "the factor of pressure" in 0.01..=1.0,
        g_c: Mm = "the length that grips" in 0.001..=5_000.0, k_t: Ratio = "the factor of friction" in 0.01..=1.0,
        mu: Ratio = "the friction of the jaws" in 0.02..=0.8, d_g: Mm = "the diameter gripped" in 0.001..=10_000.0)
        -> M_r: NewtonMetre { 2.0 * T * (k_g * g_c / (mu * d_g) + k_t) }
    source Derived "no jaw lifts at an end, half of its friction is left, the grip as strong as the twist shows"
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::proof::Worked;
    use crate::quantity::Quantity;

    fn exact<Q: Quantity>(number: f64) -> Worked<Q> {
        Worked::assumed(Q::new(number), "given")
    }

    /// By hand: 165 N·m on a block of 300 by 30, corner to corner 301.5, friction 0.15: 165 / (0.15 · 0.3015) = 3648 N, which over half
    /// of 30 mm rights 54.7 N·m.
    #[test]
    fn clamps_right_over_half_of_a_seat() {
        let m = righted_by_clamps(&exact(165.0), &exact(30.0), &exact(0.15), &exact(301.496)).unwrap();
        assert_eq!(format!("{:.1}", m.number()), "54.7");
    }

    /// By hand: 100 N·m between sides 80 long and 60 apart, c 100: N is 100 / (0.1 · √0.2725) = 1916 N; 20 deep it rights 19.2 N·m over the
    /// jaw, 40 deep by friction along the jaws no more than 0.15 · 80 = 12 mm of arm, 23.0 N·m.
    #[test]
    fn a_vice_rights_over_its_jaw_and_along_it() {
        let of = |deep: f64| {
            righted_between_sides(&exact(100.0), &exact(deep), &exact(80.0), &exact(0.15), &exact(100.0)).unwrap()
        };
        assert_eq!(
            (format!("{:.1}", of(20.0).number()), format!("{:.1}", of(40.0).number())),
            ("19.2".into(), "23.0".into())
        );
    }

    /// What jaws right is what the law of the chuck asks of them for just that moment.
    #[test]
    fn jaws_right_by_the_law_of_the_chuck() {
        let (k_g, k_t, mu, d, g) = (exact(0.0962), exact(0.125), exact(0.15), exact(60.0), exact(12.0));
        let m = righted_by_jaws(&exact(45.0), &k_g, &g, &k_t, &mu, &d).unwrap();
        let asked = super::super::grip::grip_by_moment(&exact(1.0), &m, &k_g, &g, &k_t, &mu, &d).unwrap();
        assert!((asked.number() - 45_000.0 / (0.15 * 30.0)).abs() < 1e-6, "{}", asked.number());
    }
}
