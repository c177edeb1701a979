//! A cylinder that is rebored: what it must be bored to, and what follows from that.

use crate::formula;
use crate::quantity::{Mm, Ratio, Shift, Volume};

formula! {
    /// How far a bore is worn at its worst place.
    wear(D: Mm = "the greatest diameter" in 5.0..=1_000.0, D_0: Mm = "the diameter where it is not worn" in 5.0..=1_000.0)
        -> w: Shift { D - D_0 }
    source Derived "difference of two diameters"
}
formula! {
    /// How unlike two diameters of one bore are.
    unlike(D: Mm = "the one diameter" in 5.0..=1_000.0, d: Mm = "the other diameter" in 5.0..=1_000.0)
        -> u: Shift { D - d }
    source Derived "difference of two diameters"
}
formula! {
    /// Wear as a share of the bore.
    wear_share(w: Shift = "the wear" in -5.0..=50.0, N: Mm = "the nominal bore" in 5.0..=1_000.0)
        -> p: Ratio { 1000.0 * w / N }
    source Derived "thousandths of the bore"
}
formula! {
    /// Diameter that is clean all round where the bore is bored about the middle of its worst place.
    clean_up_worn(D: Mm = "the greatest diameter" in 5.0..=1_000.0, c: Mm = "what cleans a side" in 0.0..=2.0)
        -> D_c: Mm { D + 2.0 * c }
    source Derived "concentric with the worn place, both sides cut"
}
formula! {
    /// Diameter that is clean all round where the bore is bored about its old axis and is worn on one side alone.
    clean_up_old(D: Mm = "the greatest diameter" in 5.0..=1_000.0, D_0: Mm = "the diameter where it is not worn" in 5.0..=1_000.0,
        c: Mm = "what cleans a side" in 0.0..=2.0)
        -> D_c: Mm { 2.0 * D - D_0 + 2.0 * c }
    source Derived "all wear on one side of the old axis counts twice on the diameter"
}
formula! {
    /// How far the axis moves where the bore is bored about its worn place.
    axis_shift(w: Shift = "the wear" in -5.0..=50.0)
        -> s: Mm { max(0.0, w / 2.0) }
    source Derived "all wear on one side"
}
formula! {
    /// How far the axis moves where both axes of the worn place are worn on one side.
    axis_shift_both(s_1: Mm = "how far it moves along the one axis" in 0.0..=25.0, s_2: Mm = "how far along the other" in 0.0..=25.0)
        -> s: Mm { sqrt(sq(s_1) + sq(s_2)) }
    source Derived "the diagonal of two moves square to each other"
}
formula! {
    /// Diameter that comes to metal all round where the bore is bored about its worn place and is worn no more elsewhere: the old hole
    /// lies off there by as much as the axis moved, as it is trued no closer, and as it leans.
    reach_elsewhere(d: Mm = "the diameter where it is least worn" in 5.0..=1_000.0, s: Mm = "how far the axis moves" in 0.0..=36.0,
        t: Mm = "what it is trued within" in 0.0..=5.0, l: Mm = "how far it leans over its length" in 0.0..=5.0)
        -> D_r: Mm { d + 2.0 * s + t + 2.0 * l }
    source Derived "the far side of a round hole that lies off the axis, twice on the diameter"
}
formula! {
    /// Bore to finish for a piston.
    finish_bore(P: Mm = "the piston" in 5.0..=1_000.0, c_l: Shift = "the least clearance" in -1.0..=5.0,
        c_m: Shift = "the greatest clearance" in -1.0..=5.0)
        -> B: Mm { P + (c_l + c_m) / 2.0 }
    source Read "car service manual: piston and clearance; the middle of its limits"
}
formula! {
    /// Size to bore to, what the hone takes left on.
    before_honing(B: Mm = "the finished bore" in 5.0..=1_000.0, H: Mm = "what the hone takes" in 0.0..=2.0)
        -> B_b: Mm { B - H }
    source Read "car service manual: piston and clearance less the honing stock"
}
formula! {
    /// A piston by its mark alone: made for a bore of the nominal and its oversize.
    piston_marked(N: Mm = "the nominal bore" in 5.0..=1_000.0, o: Mm = "the oversize" in 0.0..=10.0,
        c_l: Shift = "the least clearance" in -1.0..=5.0, c_m: Shift = "the greatest clearance" in -1.0..=5.0)
        -> P: Mm { N + o - (c_l + c_m) / 2.0 }
    source CommonPractice "an oversize is that of the bore"
}
formula! {
    /// Gap of a ring in another bore than the one where it was found.
    ring_gap(g: Shift = "the gap found" in -5.0..=50.0, B: Mm = "the bore" in 5.0..=1_000.0,
        B_g: Mm = "the bore where it was found" in 5.0..=1_000.0)
        -> G: Shift { g + PI * (B - B_g) }
    source Derived "the circumference"
}
formula! {
    /// What a piston sweeps.
    swept(D: Mm = "the bore" in 5.0..=1_000.0, S: Mm = "the stroke" in 1.0..=2_000.0)
        -> V: Volume { PI * sq(D) / 4.0 * S / 1000.0 }
    source Derived "volume of a cylinder"
}
formula! {
    /// What is left above the piston, from what it sweeps and the compression.
    above_piston(V: Volume = "what the piston sweeps" in 0.01..=1e6, r: Ratio = "the compression" in 1.5..=40.0)
        -> V_c: Volume { V / (r - 1.0) }
    source Derived "r = (V + V_c)/V_c, turned round"
}
formula! {
    /// The same in a larger bore: the deck grows with it.
    above_larger(V_c: Volume = "what is left above the piston" in 0.001..=1e6, D: Mm = "the larger bore" in 5.0..=1_000.0,
        N: Mm = "the bore before" in 5.0..=1_000.0, h: Mm = "the deck" in 0.0..=200.0)
        -> V_d: Volume { V_c + PI / 4.0 * (sq(D) - sq(N)) * h / 1000.0 }
    source Derived "a ring as high as the deck"
}
formula! {
    /// Thinnest wall about a bore.
    wall_left(D_o: Mm = "the outside" in 5.0..=2_000.0, B: Mm = "the bore" in 5.0..=1_000.0,
        e: Mm = "how far the bore lies off the outside" in 0.0..=20.0, t: Mm = "what it is trued within" in 0.0..=5.0,
        s: Mm = "how far the axis moves" in 0.0..=10.0)
        -> t_w: Shift { (D_o - B) / 2.0 - e - t / 2.0 - s }
    source Derived "all that moves the bore towards one side"
}
formula! {
    /// What a bore that is trued no closer, or that leans, needs beside its clean-up: it lies off by half of the one and all of the other,
    /// and comes nearer on one side.
    off_by_truing(t: Mm = "what it is trued within" in 0.0..=5.0, l: Mm = "how far it leans over its length" in 0.0..=5.0,
        c: Mm = "what cleans a side" in 0.0..=2.0)
        -> m: Mm { max(0.0, t + 2.0 * l - 2.0 * c) }
    source Derived "on the radius, twice on the diameter, less what cleans both sides"
}
formula! {
    /// A share of the bore.
    of_bore(k: Ratio = "the share" in 0.0..=1.0, B: Mm = "the bore" in 5.0..=1_000.0)
        -> x: Shift { k * B }
    source Derived "a share of the bore"
}
formula! {
    /// Depth of the finishing cut at its tightest.
    depth_tightest(B_b: Mm = "the bored size" in 5.0..=1_000.0, d: Mm = "the least diameter" in 5.0..=1_000.0)
        -> a: Mm { max(0.0, (B_b - d) / 2.0) }
    source Derived "half of the difference of two diameters"
}
formula! {
    /// How far the depth of cut varies round and along a bore that is bored about its worn place.
    depth_varies(D: Mm = "the greatest diameter" in 5.0..=1_000.0, d: Mm = "the least diameter" in 5.0..=1_000.0,
        s: Mm = "how far the axes lie apart" in 0.0..=20.0)
        -> v: Mm { max(0.0, (D - d) / 2.0) + s }
    source Derived "half of the difference of two diameters, and how far the worn place lies off the axis"
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

    /// A bore and stroke of 79 and 87 mm: 426.45 cm3; of 7.5 the space above is 65.61; of the square of the bores, not of the bores.
    #[test]
    fn swept_and_left() {
        let v = swept(&of(79.0), &of(87.0)).unwrap();
        assert_abs_diff_eq!(v.number(), 426.45, epsilon = 0.005);
        assert_abs_diff_eq!(above_piston(&v, &of(7.5)).unwrap().number(), 65.61, epsilon = 0.005);
        let larger = swept(&of(80.0), &of(87.0)).unwrap();
        assert_abs_diff_eq!(larger.number() / v.number(), (80.0_f64 / 79.0).powi(2), epsilon = 1e-12);
    }
}
