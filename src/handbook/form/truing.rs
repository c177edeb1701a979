//! Truing a part in its chuck: from where its centre is to what the jaws and the shims must do.

use crate::formula;
use crate::quantity::{Angle, Mm, Ratio, Shift};

formula! {
    /// How far the centre is off, from its parts along two ways at right angles.
    off_centre(a: Shift = "how far the centre is off along the first way" in -50.0..=50.0,
        b: Shift = "how far it is off across" in -50.0..=50.0)
        -> e: Mm { sqrt(sq(a) + sq(b)) }
    source Derived "Pythagoras"
}
formula! {
    /// What an indicator reads in a whole turn over a centre that is off.
    read_in_a_turn(e: Mm = "how far the centre is off" in 0.0..=50.0)
        -> t: Mm { 2.0 * e }
    source Derived "once towards the indicator and once away from it"
}
formula! {
    /// How far the key of a jaw turns to move it.
    key_turn(m: Mm = "how far the jaw moves" in 0.0..=50.0, P: Mm = "the pitch of the jaw's screw" in 0.5..=12.0)
        -> w: Angle { 360.0 * m / P }
    source Derived "one turn of the screw moves the jaw by its pitch"
}
formula! {
    /// A reading at one diameter as it is at another.
    at_diameter(t: Mm = "the reading" in 0.0..=20.0, d: Mm = "the diameter where it was taken" in 1.0..=5_000.0,
        D: Mm = "the diameter that is asked" in 1.0..=5_000.0)
        -> T: Mm { t * D / d }
    source Derived "a plane that leans"
}
formula! {
    /// The shim under one of two jaws of three that moves the centre so far: the first of the two.
    shim_first(e: Mm = "how far the centre is off" in 0.0..=10.0, phi: Angle = "the angle from the first jaw" in 0.0..=120.0,
        k: Ratio = "shims to centre, three jaws" in 1.0..=2.0)
        -> s: Mm { k * e * sin(120.0 - phi) / sin(120.0) }
    source Derived "a shim under one jaw of three moves the work by a share of its thickness; two of them as vectors"
}
formula! {
    /// The same under the second of the two.
    shim_second(e: Mm = "how far the centre is off" in 0.0..=10.0, phi: Angle = "the angle from the first jaw" in 0.0..=120.0,
        k: Ratio = "shims to centre, three jaws" in 1.0..=2.0)
        -> s: Mm { k * e * sin(phi) / sin(120.0) }
    source Derived "as under the first"
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

    #[test]
    fn jaws_and_shims() {
        assert_abs_diff_eq!(off_centre(&of(0.065), &of(0.015)).unwrap().number(), 0.06671, epsilon = 1e-5);
        assert_abs_diff_eq!(key_turn(&of(0.065), &of(2.54)).unwrap().number(), 9.21, epsilon = 0.005);
        let (e, phi, k) = (of(0.05), of(40.0), of(1.5));
        assert_abs_diff_eq!(shim_first(&e, &phi, &k).unwrap().number(), 0.0853, epsilon = 5e-5);
        assert_abs_diff_eq!(shim_second(&e, &phi, &k).unwrap().number(), 0.0557, epsilon = 5e-5);
        assert_abs_diff_eq!(
            at_diameter(&of(0.04682), &of(90.0), &of(120.0)).unwrap().number(),
            0.06243,
            epsilon = 1e-5
        );
    }
}
