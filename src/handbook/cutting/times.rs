//! How long a cut takes and how much metal it moves.

use crate::formula;
use crate::quantity::{MPerMin, Minutes, Mm, MmPerMin, MmPerRev, Ratio, Removal, RevPerMin};

formula! {
    /// Feed a minute.
    feed_rate(f: MmPerRev = "the feed" in 0.0005..=10.0, n: RevPerMin = "the spindle speed" in 0.5..=60_000.0)
        -> v_f: MmPerMin { f * n }
    source Read "tool makers' formula pages: vf = f n"
}
formula! {
    /// Turning time of so many passes; the length holds approach and overrun.
    turning_time(L: Mm = "the length fed" in 0.0..=100_000.0, f: MmPerRev = "the feed" in 0.0005..=10.0,
        n: RevPerMin = "the spindle speed" in 0.5..=60_000.0, i: Ratio = "the number of passes" in 1.0..=10_000.0)
        -> T: Minutes { i * L / (f * n) }
    source Read "tool maker's catalogue: T = L/(f n)"
}
formula! {
    /// Time along a length at a feed a minute.
    time_by_feed_rate(L: Mm = "the length fed" in 0.0..=100_000.0, v_f: MmPerMin = "the feed a minute" in 0.01..=100_000.0)
        -> T: Minutes { L / v_f }
    source Derived "length over speed"
}
formula! {
    /// The way that a tool is fed along a part.
    length_fed(L: Mm = "the length cut" in 0.0..=10_000.0, a: Mm = "the approach" in 0.0..=100.0, o: Mm = "the overrun" in 0.0..=100.0)
        -> L_f: Mm { L + a + o }
    source Derived "approach and overrun beside what is cut"
}
formula! {
    /// Time of one facing pass at a fixed spindle step, with approach and overrun.
    facing_time(D: Mm = "the outside of the face" in 0.1..=5_000.0, d: Mm = "the inside of the face" in 0.0..=5_000.0,
        a: Mm = "the approach" in 0.0..=100.0, o: Mm = "the overrun" in 0.0..=100.0,
        f: MmPerRev = "the feed" in 0.0005..=10.0, n: RevPerMin = "the spindle speed" in 0.5..=60_000.0)
        -> T: Minutes { ((D - d) / 2.0 + a + o) / (f * n) }
    source Read "tool maker's catalogue: T = (D1 - D2)/(2 f n) a pass; approach and overrun added"
}
formula! {
    /// Time of several passes alike.
    time_of_passes(T_1: Minutes = "the time of one pass" in 0.0..=100_000.0, i: Ratio = "the number of passes" in 1.0..=10_000.0)
        -> T: Minutes { i * T_1 }
    source Derived "passes alike"
}
formula! {
    /// The way that a drill is fed for a hole: depth, point and approach.
    depth_fed(h: Mm = "the depth of the hole" in 0.0..=10_000.0, p: Mm = "the point" in 0.0..=200.0, a: Mm = "the approach" in 0.0..=100.0)
        -> H: Mm { h + p + a }
    source Derived "the point runs through, or runs on ahead of the full diameter"
}
formula! {
    /// Drilling time of so many holes; the depth holds approach and point.
    drilling_time(H: Mm = "the depth fed" in 0.0..=10_000.0, f: MmPerRev = "the feed" in 0.0005..=10.0,
        n: RevPerMin = "the spindle speed" in 0.5..=60_000.0, i: Ratio = "the number of holes" in 1.0..=10_000.0)
        -> T: Minutes { i * H / (f * n) }
    source Derived "depth over feed times turns"
}
formula! {
    /// Metal removed in turning.
    removal_turning(v: MPerMin = "the cutting speed" in 0.0..=3_000.0, a: Mm = "the depth of cut" in 0.0..=100.0,
        f: MmPerRev = "the feed" in 0.0..=10.0)
        -> Q: Removal { v * a * f }
    source Read "tool maker's catalogue: Q = v ap f"
}
formula! {
    /// Metal removed in drilling.
    removal_drilling(d: Mm = "the drill" in 0.05..=500.0, f: MmPerRev = "the feed" in 0.0005..=10.0,
        n: RevPerMin = "the spindle speed" in 0.5..=60_000.0)
        -> Q: Removal { PI * sq(d) / 4.0 * f * n / 1000.0 }
    source Read "drill maker's guide: Q = vf pi D^2/4000"
}
formula! {
    /// Metal removed in milling.
    removal_milling(a_p: Mm = "the depth of cut" in 0.0..=500.0, a_e: Mm = "the width of cut" in 0.0..=500.0,
        v_f: MmPerMin = "the feed a minute" in 0.01..=100_000.0)
        -> Q: Removal { a_p * a_e * v_f / 1000.0 }
    source FromMemory "textbook form: Q = ap ae vf/1000"
}
formula! {
    /// Mean cutting speed over a face at a fixed spindle step.
    mean_speed(v: MPerMin = "the speed at the outside" in 0.0..=3_000.0, D: Mm = "the outside of the face" in 0.1..=5_000.0,
        d: Mm = "the inside of the face" in 0.0..=5_000.0)
        -> v_m: MPerMin { v * (1.0 + d / D) / 2.0 }
    source Derived "the speed falls with the radius"
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::proof::Worked;
    use crate::quantity::Quantity;

    fn exact<Q: Quantity>(number: f64) -> Worked<Q> {
        Worked::assumed(Q::new(number), "given")
    }

    /// Source: maker's turning page, 100 mm at 0.2 mm/rev and 1000 rev/min: 0.5 min.
    #[test]
    fn turning() {
        assert_eq!(turning_time(&exact(100.0), &exact(0.2), &exact(1000.0), &exact(1.0)).unwrap().number(), 0.5);
    }
}
