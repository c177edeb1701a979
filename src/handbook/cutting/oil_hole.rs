//! An oil hole through the wall of a bush: how long its mouth is where it comes out at a slant, whether it meets its oilway, and
//! what is left to the end of the bush.

use crate::formula;
use crate::quantity::{Angle, Mm};

formula! {
    /// A length along the axis of a slanting hole, or the long way across the ellipse in which it comes out: a wall, or the drill,
    /// over the sine of the angle between the hole and the surface.
    along_a_slant(x: Mm = "the wall, or the drill" in 0.0..=1_000.0, a: Angle = "the angle of the hole to the surface" in 15.0..=90.0)
        -> l: Mm { x / sin(a) }
    source Derived "plane geometry: d / sin a"
}
formula! {
    /// How much further along its axis the far corner of a slanting drill comes out than the axis itself.
    corner_behind(d: Mm = "the drill" in 0.0..=200.0, a: Angle = "the angle of the hole to the surface" in 15.0..=90.0)
        -> c: Mm { d * cos(a) / (2.0 * sin(a)) }
    source Derived "plane geometry"
}
formula! {
    /// How far its point stands over a slanting surface, along the hole, when a drill touches that with its corner: nothing where the point
    /// comes first.
    point_over_corner(c: Mm = "how far the corner lies along the axis" in 0.0..=1_000.0, p: Mm = "the drill's point" in 0.0..=200.0)
        -> z: Mm { max(c - p, 0.0) }
    source Derived "plane geometry"
}
formula! {
    /// How deep under a slanting surface a flat goes that is square to the hole and as wide as its drill.
    depth_of_a_flat(d: Mm = "the drill" in 0.0..=200.0, a: Angle = "the angle of the hole to the surface" in 15.0..=90.0)
        -> f: Mm { d * cos(a) }
    source Derived "plane geometry"
}
formula! {
    /// How far the middle of the hole lies beside the middle of its oilway.
    beside_oilway(x: Mm = "the hole from the end" in -1_000.0..=10_000.0, y: Mm = "the oilway from the end" in -1_000.0..=10_000.0)
        -> e: Mm { max(x - y, y - x) }
    source Derived "geometry"
}
formula! {
    /// How far a hole may lie beside the middle of its oilway and still open into it whole.
    oilway_room(D: Mm = "the oilway" in 0.0..=200.0, d: Mm = "the hole" in 0.0..=200.0)
        -> r: Mm { (D - d) / 2.0 }
    source Derived "geometry"
}
formula! {
    /// Metal between the mouth of a hole and the end of its bush.
    to_the_end(e: Mm = "the middle of the hole from the end" in -1_000.0..=10_000.0, m: Mm = "its mouth along the bush" in 0.0..=1_000.0)
        -> w: Mm { e - m / 2.0 }
    source Derived "geometry"
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::proof::Worked;
    use crate::quantity::Quantity;

    fn exact<Q: Quantity>(number: f64) -> Worked<Q> {
        Worked::assumed(Q::new(number), "given")
    }

    /// At 30 degrees an ellipse is twice as long as its drill; straight down it is a circle, and nothing comes out later.
    #[test]
    fn a_slanting_hole_has_a_long_mouth() {
        assert!((along_a_slant(&exact(4.0), &exact(30.0)).unwrap().number() - 8.0).abs() < 1e-9);
        assert!((along_a_slant(&exact(4.0), &exact(90.0)).unwrap().number() - 4.0).abs() < 1e-12);
        assert!(corner_behind(&exact(4.0), &exact(90.0)).unwrap().number() < 1e-12);
        assert!((corner_behind(&exact(4.0), &exact(45.0)).unwrap().number() - 2.0).abs() < 1e-9);
        assert!(along_a_slant(&exact(4.0), &exact(5.0)).is_err(), "no drill starts on so flat a slope");
    }

    /// A drill of 3 mm (118 degrees) at 30 degrees touches with its corner 1.70 mm before its point, at 60 degrees with its point; the flat
    /// for it is 2.60 mm deep.
    #[test]
    fn a_drill_on_a_slope_touches_with_its_corner() {
        let over = |angle: f64| {
            let corner = corner_behind(&exact(3.0), &exact(angle)).unwrap();
            point_over_corner(&corner, &exact(0.9013)).unwrap().number()
        };
        assert!((over(30.0) - 1.6968).abs() < 1e-3 && over(60.0).abs() < 1e-12);
        assert!((depth_of_a_flat(&exact(3.0), &exact(30.0)).unwrap().number() - 2.598).abs() < 1e-3);
    }
}
