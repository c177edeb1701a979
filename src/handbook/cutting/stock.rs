//! Metal to come off a worn contact: how much, what is left of length and case, what it does to float, seats and springs.
//!
//! Everything counts from the original, unworn surface: a groove is not taken off twice.

use crate::formula;
use crate::proof::{Mark, Refusal, Source, Worked};
use crate::quantity::{Angle, ForceShift, MPerMin, Mm, Quantity, Ratio, RevPerMin, Shift, SpringRate, figure};

formula! {
    /// Metal to remove: the groove, the doubt of its depth, and the clean-up.
    metal_to_remove(w: Mm = "the wear" in 0.0..=50.0, U: Mm = "the doubt of the wear" in 0.0..=5.0,
        c: Mm = "the clean-up" in 0.0..=5.0)
        -> s: Mm { w + U + c }
    source CommonPractice "to the bottom of the wear at the worst end of its doubt, and the clean-up"
}
formula! {
    /// Metal to remove where the groove was read from the dished surface itself.
    metal_with_dish(w: Mm = "the wear" in 0.0..=50.0, d: Mm = "the dish" in 0.0..=50.0, U: Mm = "the doubt of both" in 0.0..=5.0,
        c: Mm = "the clean-up" in 0.0..=5.0)
        -> s: Mm { w + d + U + c }
    source CommonPractice "a groove read from the hollow lies below the hollow"
}
formula! {
    /// The doubt of two readings together.
    both_doubts(U_1: Mm = "the doubt of the wear" in 0.0..=5.0, U_2: Mm = "the doubt of the dish" in 0.0..=5.0)
        -> U: Mm { sqrt(sq(U_1) + sq(U_2)) }
    source FromMemory "GUM: two readings of their own, root of the sum of squares"
}
formula! {
    /// Depth of wear that lies below a hollow.
    wear_below_dish(w: Mm = "the wear" in 0.0..=50.0, d: Mm = "the dish" in 0.0..=50.0)
        -> w_d: Mm { w + d }
    source Derived "geometry"
}
formula! {
    /// Length over the ends after the cut.
    length_after(L: Mm = "the length" in 0.0..=5_000.0, s: Mm = "the metal removed" in 0.0..=100.0)
        -> L_2: Mm { L - s }
    source Derived "geometry"
}
formula! {
    /// Depth on the radius between two diameters.
    depth_on_radius(D: Mm = "the larger diameter" in 0.0..=10_000.0, d: Mm = "the smaller diameter" in 0.0..=10_000.0)
        -> s: Mm { (D - d) / 2.0 }
    source Derived "half of what a diameter changes by"
}
formula! {
    /// How far what was there may lie off the axis that is cut: its own eccentricity and half of the run-out.
    off_the_axis(e: Mm = "the eccentricity" in 0.0..=1_000.0, t: Mm = "the run-out" in 0.0..=100.0)
        -> x: Mm { e + t / 2.0 }
    source Derived "both may point the same way"
}
formula! {
    /// The thinnest wall about a bore.
    wall_of_bore(D: Mm = "the outside" in 0.001..=10_000.0, d: Mm = "the bore" in 0.001..=10_000.0,
        x: Mm = "how far the bore may lie off the outside's axis" in 0.0..=1_000.0)
        -> w: Mm { (D - d) / 2.0 - x }
    source Derived "geometry: it is thinnest where the bore lies nearest to the outside"
}
formula! {
    /// How far a blade must reach to part.
    blade_reach(D: Mm = "the outside" in 0.001..=10_000.0, d: Mm = "the bore" in 0.0..=10_000.0,
        o: Mm = "how far it goes past the middle or the bore" in 0.0..=50.0)
        -> r: Mm { (D - d) / 2.0 + o }
    source Derived "geometry"
}
formula! {
    /// How far from the free end the far side of a blade stands.
    blade_stands(l: Mm = "the length parted" in 0.0..=10_000.0, b: Mm = "the width of the blade" in 0.01..=100.0)
        -> s: Mm { l + b }
    source Derived "geometry"
}
formula! {
    /// How far from the jaws a blade cuts.
    blade_from_jaws(o: Mm = "the overhang" in 0.0..=10_000.0, s: Mm = "how far from the end the blade stands" in 0.0..=10_000.0)
        -> x: Mm { max(o - s, 0.0) }
    source Derived "geometry"
}
formula! {
    /// How thick a bar is in its hole.
    bar_in_hole(d: Mm = "the bar" in 0.1..=500.0, D: Mm = "the hole" in 0.1..=5_000.0)
        -> k: Ratio { d / D }
    source Derived "geometry"
}
formula! {
    /// How slender a bar stands out.
    bar_slenderness(L: Mm = "how far the bar stands out" in 0.0..=10_000.0, d: Mm = "the bar" in 0.1..=500.0)
        -> k: Ratio { L / d }
    source Derived "geometry"
}
formula! {
    /// Gap that is left when a tool has come through.
    gap_behind(g: Mm = "the gap" in 0.0..=10_000.0, o: Mm = "how far the tool comes through" in 0.0..=1_000.0)
        -> x: Shift { g - o }
    source Derived "geometry"
}
formula! {
    /// Hard case that is left. The wear is not taken off again: what is removed counts from the unworn surface.
    case_left(t: Mm = "the case depth" in 0.0..=10.0, s_1: Mm = "the metal removed before" in 0.0..=50.0,
        s: Mm = "the metal removed" in 0.0..=100.0)
        -> t_2: Mm { t - s_1 - s }
    source Derived "geometry, from the unworn surface"
}
formula! {
    /// Depth of a recess that is left when the surface about it is cut back.
    recess_left(t: Mm = "the depth of the recess" in 0.0..=500.0, s: Mm = "the metal removed" in 0.0..=100.0)
        -> t_2: Mm { t - s }
    source Derived "geometry"
}
formula! {
    /// Change of the end float against the float that the parts had when new; `z` is +1 where metal taken here opens it.
    float_from_new(z: Ratio = "the way the float goes" in -1.0..=1.0, s: Mm = "the metal removed" in 0.0..=100.0)
        -> x: Shift { z * s }
    source Derived "geometry"
}
formula! {
    /// Change of the end float against a float that was measured with the part running in its groove.
    float_from_found_in_groove(z: Ratio = "the way the float goes" in -1.0..=1.0, s: Mm = "the metal removed" in 0.0..=100.0,
        w: Mm = "the wear" in 0.0..=50.0)
        -> x: Shift { z * (s - w) }
    source Derived "the groove was in the float already: only the metal below it counts"
}
formula! {
    /// End float after the cut.
    float_after(a: Mm = "the float as found" in 0.0..=50.0, x: Shift = "its change" in -100.0..=100.0)
        -> a_2: Shift { a + x }
    source Derived "geometry"
}
formula! {
    /// Float left with a shim in.
    float_with_shim(a: Shift = "the float" in -100.0..=150.0, t: Mm = "the shim" in 0.0..=50.0)
        -> a_s: Shift { a - t }
    source Derived "geometry: a shim takes its thickness from the float"
}
formula! {
    /// Shim that brings the float to what is wanted; negative: too little is left to shim.
    shim_wanted(a: Shift = "the float" in -100.0..=150.0, a_w: Mm = "the float wanted" in 0.0..=50.0)
        -> t: Shift { a - a_w }
    source Derived "geometry"
}
formula! {
    /// Reading of a top slide that stands over from the bed.
    slide_reading(a: Mm = "the depth" in 0.0..=100.0, beta: Angle = "the angle of the slide from the bed" in 0.0..=85.0)
        -> t: Mm { a / cos(beta) }
    source Derived "geometry of the slide"
}
formula! {
    /// Shift of a seat against the surface that was cut.
    seat_shift(s: Mm = "the metal removed" in 0.0..=100.0, s_2: Mm = "the cut at the step" in 0.0..=100.0)
        -> x: Shift { s - s_2 }
    source Derived "geometry"
}
formula! {
    /// Height of a step after both of its levels were cut.
    step_after(t: Mm = "the height of the step" in 0.0..=500.0, s: Mm = "the metal removed" in 0.0..=100.0,
        s_2: Mm = "the cut at the step" in 0.0..=100.0)
        -> t_2: Shift { t - s + s_2 }
    source Derived "geometry"
}
formula! {
    /// Change of a stack whose plate lost some metal.
    stack_change(s: Mm = "the metal removed" in 0.0..=100.0)
        -> x: Shift { -s }
    source Derived "geometry"
}
formula! {
    /// Stack after a change.
    stack_after(H: Mm = "the stack" in 0.0..=5_000.0, x: Shift = "its change" in -100.0..=100.0)
        -> H_2: Mm { H + x }
    source Derived "geometry"
}
formula! {
    /// Rate of several springs alike, side by side.
    springs_together(i: Ratio = "the number of springs" in 1.0..=200.0, c: SpringRate = "the rate of a spring" in 0.001..=10_000.0)
        -> c_all: SpringRate { i * c }
    source Derived "springs side by side share the way"
}
formula! {
    /// Clamp gained or lost by springs that stand longer by so much.
    clamp_change(c: SpringRate = "the rate of all springs" in 0.001..=2_000_000.0,
        x: Shift = "how much longer they stand" in -200.0..=200.0)
        -> dF: ForceShift { -(c * x) }
    source Derived "spring rate times change of length"
}
formula! {
    /// Shift of both seats of a pair.
    both_seats(x: Shift = "the shift of this seat" in -100.0..=100.0, x_2: Shift = "the shift of the other seat" in -100.0..=100.0)
        -> x_all: Shift { x + x_2 }
    source Derived "the springs stand between the two"
}
formula! {
    /// Blows a minute of an interrupted cut.
    blows(i: Ratio = "the number of slots" in 1.0..=10_000.0, n: RevPerMin = "the spindle speed" in 0.5..=60_000.0)
        -> b: Ratio { i * n }
    source Derived "slots times turns"
}
formula! {
    /// Real speed over the speed wanted.
    share_of_speed(v: MPerMin = "the real speed" in 0.0..=3_000.0, v_w: MPerMin = "the speed wanted" in 0.01..=3_000.0)
        -> k: Ratio { v / v_w }
    source Derived "real speed over the speed wanted"
}
formula! {
    /// Product of the factors of a cut, not under the floor.
    factors_of_cut(k_1: Ratio = "the factor of interruption" in 0.1..=1.5, k_2: Ratio = "the factor of stiffness" in 0.1..=1.5,
        k_min: Ratio = "the least product" in 0.1..=1.0)
        -> k: Ratio { max(k_1 * k_2, k_min) }
    source Own "product of the read factors, not under the floor"
}
formula! {
    /// Radial width of a land.
    land_width(d_o: Mm = "the outside of the land" in 0.0..=5_000.0, d_i: Mm = "the inside of the land" in 0.0..=5_000.0)
        -> b: Mm { max((d_o - d_i) / 2.0, 0.0) }
    source Derived "geometry"
}
formula! {
    /// Width of land that is asked under a ring.
    land_asked(k: Ratio = "the share of the ring" in 0.0..=1.0, d_o: Mm = "the outside of the ring" in 0.0..=5_000.0,
        d_i: Mm = "the inside of the ring" in 0.0..=5_000.0)
        -> b: Mm { max(k * (d_o - d_i) / 2.0, 0.0) }
    source Own "share of the width of the ring"
}

/// More divisions than this nobody counts.
const MOST_DIVISIONS: f64 = 100_000.0;

/// Up to whole divisions of a dial: the figure and the number of divisions.
///
/// # Errors
/// [`Refusal::Outside`] for a division that is none, or more divisions than a person would count.
pub(crate) fn whole_divisions(wanted: &Worked<Mm>, division: &Worked<Mm>) -> Result<(Worked<Mm>, u32), Refusal> {
    let (metal, one) = (wanted.number(), division.number());
    let count = (metal / one - 1e-9).ceil().max(0.0);
    if count.is_nan() || count > MOST_DIVISIONS {
        return Err(Refusal::Outside {
            what: "the number of dial divisions",
            got: count,
            least: 0.0,
            most: MOST_DIVISIONS,
            unit: crate::quantity::Unit::One,
        });
    }
    let rounded = format!("up to whole divisions of {} mm: {count} divisions, {} mm", figure(one), figure(count * one));
    let lines: Vec<String> = wanted.origin().working().into_iter().chain([rounded]).collect();
    let source = Source::fixed("rounded up to a whole division of the dial", Mark::CommonPractice);
    let rounded = Worked::method_of(Mm::new(count * one), lines, source, [wanted.origin(), division.origin()]);
    // The count was bounded above.
    Ok((rounded, count as u32))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn exact<Q: Quantity>(number: f64) -> Worked<Q> {
        Worked::assumed(Q::new(number), "given")
    }

    #[test]
    fn metal_goes_up_to_a_whole_division_and_stays_where_it_is_one() {
        let of = |metal| whole_divisions(&exact(metal), &exact(0.02)).unwrap();
        assert_eq!((of(0.30).0.number(), of(0.30).1), (0.30, 15));
        assert_eq!(of(0.23).1, 12);
        assert_eq!(of(0.301).1, 16);
        assert_eq!(of(0.0).1, 0);
        assert!(whole_divisions(&exact(1.0), &exact(0.0)).is_err());
    }

    /// The groove was in the float already when the part ran in it.
    #[test]
    fn float_from_new_and_from_found() {
        let new = float_from_new(&exact(1.0), &exact(0.30)).unwrap().number();
        let found = float_from_found_in_groove(&exact(1.0), &exact(0.30), &exact(0.25)).unwrap().number();
        assert_eq!((new, format!("{found:.2}")), (0.30, "0.05".into()));
    }
}
