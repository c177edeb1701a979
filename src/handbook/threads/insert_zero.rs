//! Zeros and stops: where the tip is when the stop is set to zero, how far it travels, and what is left of the wall.
//!
//! Every zero is one figure: how deep the drill's tip stands under the face when the stop is set. The travel is then the depth to
//! the tip less that figure; what the zero lacks in surety, the depth lacks too.

use crate::formula;
use crate::quantity::{Angle, Mm};

formula! {
    /// Depth to the tip of the point.
    depth_to_point(H: Mm = "the drilled depth" in 0.0..=400.0, p: Mm = "the drill point" in 0.0..=100.0)
        -> H_p: Mm { H + p }
    source Derived "geometry"
}
formula! {
    /// The tip at a zero taken on a strip: above the face by the strip.
    tip_on_strip(s: Mm = "the strip" in 0.0..=50.0)
        -> z: Mm { -s }
    source Derived "geometry: the strip lies between the point and the face"
}
formula! {
    /// Across the mouth of an old hole with its chamfer at 45°.
    mouth(h: Mm = "the old hole" in 0.0..=200.0, c: Mm = "the chamfer of the old hole" in 0.0..=20.0)
        -> m: Mm { h + 2.0 * c }
    source Derived "geometry: a chamfer at 45 deg"
}
formula! {
    /// The tip at a zero taken in an old hole: the cone rests on the mouth, or the corners in its chamfer, whichever meets first.
    tip_in_old_hole(m: Mm = "the mouth of the old hole" in 0.0..=250.0, d: Mm = "the drill" in 0.1..=100.0,
        p: Mm = "the drill point" in 0.0..=100.0, half: Angle = "half the point angle" in 45.0..=90.0)
        -> z: Mm { max(m / 2.0 / tan(half), (m - d) / 2.0 + p) }
    source Derived "geometry: for half angles of 45 deg and over the higher contact is the larger figure"
}
formula! {
    /// Travel of the stop from its zero.
    stop_travel(H_p: Mm = "the depth to the tip" in 0.0..=2500.0, z: Mm = "the tip at the zero" in -50.0..=200.0)
        -> s: Mm { H_p - z }
    source Derived "geometry"
}
formula! {
    /// Depth that the tip reaches when the stop has travelled.
    depth_reached(s: Mm = "the travel of the stop" in -200.0..=2500.0, z: Mm = "the tip at the zero" in -50.0..=200.0)
        -> H_p: Mm { s + z }
    source Derived "geometry"
}
formula! {
    /// Metal left under a hole.
    metal_left(W: Mm = "the wall" in 0.0..=2000.0, H_p: Mm = "the depth reached" in -200.0..=2500.0)
        -> left: Mm { W - H_p }
    source Derived "geometry"
}
formula! {
    /// Wall that a blind hole needs: what is short at the worst end is added to the wall.
    wall_needed(W: Mm = "the wall" in 0.0..=2000.0, least: Mm = "the metal to leave" in 0.0..=100.0,
        left: Mm = "the metal left at its worst end" in -2500.0..=2000.0)
        -> W_n: Mm { W + least - left }
    source Derived "geometry, at the worst end of the doubt"
}
formula! {
    /// Depth of the full diameter that surely comes through.
    through_depth(W: Mm = "the wall" in 0.0..=2000.0, U: Mm = "the doubt of wall and stop" in 0.0..=200.0,
        over: Mm = "the overrun" in 0.0..=10.0)
        -> H: Mm { W + U + over }
    source Derived "the wall at its thick end and the stop at its short one, and the overrun"
}
formula! {
    /// How far a tip or a tap's end stands behind the wall.
    behind_wall(H: Mm = "the depth reached" in -200.0..=2500.0, W: Mm = "the wall" in 0.0..=2000.0)
        -> out: Mm { H - W }
    source Derived "geometry"
}
formula! {
    /// Depth of a tap's end from the face: full thread, lead and male centre.
    tap_end(t: Mm = "the tap depth" in 0.0..=500.0, centre: Mm = "the male centre of the tap" in 0.0..=50.0)
        -> e: Mm { t + centre }
    source Derived "the male centre stands before the first thread"
}
formula! {
    /// What is left of the gap behind the wall.
    gap_left(gap: Mm = "the gap behind the wall" in 0.0..=5000.0, out: Mm = "what stands behind the wall" in -2500.0..=2500.0)
        -> left: Mm { gap - out }
    source Derived "geometry"
}
formula! {
    /// How far the end of a bolt stands behind the wall.
    bolt_behind_wall(reach: Mm = "the reach of the bolt" in 0.0..=500.0, W: Mm = "the wall" in 0.0..=2000.0)
        -> out: Mm { reach - W }
    source Derived "geometry"
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::proof::Worked;
    use crate::quantity::Quantity;

    fn tip(hole: f64, chamfer: f64) -> f64 {
        let of = |mm: f64| Worked::assumed(Mm::new(mm), "a test");
        let half = Worked::assumed(Angle::new(59.0), "a test");
        let point = 4.2 / 59.0_f64.to_radians().tan();
        tip_in_old_hole(&mouth(&of(hole), &of(chamfer)).unwrap(), &of(8.4), &of(point), &half).unwrap().number()
    }

    #[test]
    fn the_travel_of_each_zero_as_worked_by_hand() {
        let travel = |z: f64| 15.5236 - z;
        for (hole, chamfer, printed) in [(8.0, 0.0, 13.120), (8.0, 0.1, 13.060), (8.0, 0.5, 12.700)] {
            assert!((travel(tip(hole, chamfer)) - printed).abs() < 0.000_6, "{hole} {chamfer}");
        }
    }

    #[test]
    fn a_wider_mouth_never_lets_the_tip_start_higher() {
        let depths: Vec<f64> = (0..40).map(|i| tip(6.0, f64::from(i) * 0.1)).collect();
        assert!(depths.windows(2).all(|pair| pair[0] < pair[1]));
    }
}
