//! A seat about a hole: its pilot in the hole, how square that leaves it, how wide it is, and what such a cutter asks.

use crate::formula;
use crate::quantity::{Mm, MmPerRev, NewtonMetre, Ratio, Stress};

formula! {
    /// Play of a pilot in its hole, on the diameter.
    pilot_play(D: Mm = "the hole" in 0.1..=500.0, d: Mm = "the pilot" in 0.1..=500.0)
        -> c: Mm { D - d }
    source Derived "geometry"
}
formula! {
    /// How far a seat may stand out of square over its own width, where its pilot tips in the hole by all of its play.
    seat_out_of_square(c: Mm = "the play of the pilot" in 0.0..=50.0, L: Mm = "the length of the pilot in its hole" in 0.1..=1_000.0,
        D: Mm = "the seat" in 0.1..=500.0)
        -> x: Mm { c / L * D }
    source Derived "the pilot tips by its play over its length"
}
formula! {
    /// Width of the ring that a seat gives to the head or washer.
    seat_width(D: Mm = "the seat" in 0.1..=500.0, d: Mm = "the hole" in 0.1..=500.0)
        -> b: Mm { (D - d) / 2.0 }
    source Derived "geometry"
}
formula! {
    /// Torque of a cutter that cuts a ring with its end: that of a drill of its size less what the hole takes away.
    ring_torque(k_w: Ratio = "the wear factor" in 0.5..=3.0, f: MmPerRev = "the feed" in 0.0005..=2.0,
        k_c: Stress = "the specific cutting force" in 20.0..=200_000.0, D: Mm = "the cutter" in 0.1..=500.0,
        d: Mm = "the hole" in 0.0..=500.0)
        -> M: NewtonMetre { k_w * f * k_c * (sq(D) - sq(d)) / 8000.0 }
    source Derived "ISCAR 2017 rotating tools, p. 601: M = f kc D^2/8000, the hole's own taken off"
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::handbook::cutting::drilling;
    use crate::proof::Worked;
    use crate::quantity::{Angle, Quantity};

    fn exact<Q: Quantity>(number: f64) -> Worked<Q> {
        Worked::assumed(Q::new(number), "given")
    }

    /// Without a hole it is a drill with straight edges: the one printed torque.
    #[test]
    fn without_a_hole_the_ring_is_a_drill() {
        let ring = ring_torque(&exact(1.0), &exact(0.15), &exact(2200.0), &exact(22.0), &exact(0.0)).unwrap();
        let drill = drilling::drill_torque(&exact(0.15), &exact(2200.0), &exact(22.0), &exact::<Angle>(90.0)).unwrap();
        assert!((ring.number() - drill.number()).abs() < 1e-9);
        assert_eq!(format!("{:.0}", ring.number()), "20");
    }
}
