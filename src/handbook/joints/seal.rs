//! The track of a lip seal: what polishing takes off a shaft, and how fast its rim runs.

use crate::formula;
use crate::quantity::{MPerMin, MPerS, Mm};

formula! {
    /// What comes off the diameter where so much comes off the radius.
    off_diameter(s: Mm = "the metal off the radius" in 0.0..=50.0)
        -> t: Mm { 2.0 * s }
    source Derived "a shaft loses as much on both sides"
}
formula! {
    /// What came off the radius between two diameters.
    off_radius(d: Mm = "the diameter before" in 0.0..=5_000.0, d_2: Mm = "the diameter after" in 0.0..=5_000.0)
        -> s: Mm { max((d - d_2) / 2.0, 0.0) }
    source Derived "a shaft loses as much on both sides"
}
formula! {
    /// The diameter that is left.
    diameter_left(d: Mm = "the diameter" in 0.0..=5_000.0, t: Mm = "what comes off it" in 0.0..=100.0)
        -> d_2: Mm { d - t }
    source Derived "geometry"
}
formula! {
    /// A rim speed by the second.
    rim_speed(v: MPerMin = "the speed of the rim" in 0.0..=60_000.0)
        -> v_s: MPerS { v / 60.0 }
    source Derived "sixty seconds in a minute"
}
formula! {
    /// How far the shaft runs off the seal in all.
    off_seal(r: Mm = "the run-out of the shaft" in 0.0..=50.0, c: Mm = "how far the seal sits off the axis" in 0.0..=50.0)
        -> t: Mm { r + c }
    source Derived "both at their worst the same way"
}
formula! {
    /// Width of fresh track that a seal needs which is shifted off its groove.
    track_for_shift(b: Mm = "the width of the groove" in 0.0..=50.0, l: Mm = "the width of the lip" in 0.0..=50.0,
        m: Mm = "what is left between" in 0.0..=20.0)
        -> w: Mm { b + l + m }
    source Own "groove, lip, and a clear margin"
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::handbook::cutting::speeds::surface_speed;
    use crate::proof::Worked;
    use crate::quantity::{Quantity, RevPerMin};
    use approx::assert_abs_diff_eq;

    fn of<Q: Quantity>(number: f64) -> Worked<Q> {
        Worked::assumed(Q::new(number), "a test")
    }

    #[test]
    fn a_radius_counts_twice_and_a_minute_has_sixty_seconds() {
        let off = off_diameter(&of(0.018)).unwrap();
        assert_abs_diff_eq!(diameter_left(&of(24.962), &off).unwrap().number(), 24.926, epsilon = 1e-9);
        assert_abs_diff_eq!(off_radius(&of(24.962), &of(24.926)).unwrap().number(), 0.018, epsilon = 1e-9);
        // By the radius it would be half of this.
        let fast = surface_speed(&of::<RevPerMin>(3400.0), &of(24.926)).unwrap();
        assert_abs_diff_eq!(rim_speed(&fast).unwrap().number(), 4.44, epsilon = 0.005);
    }
}
