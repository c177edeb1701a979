//! What a lapped joint takes with it: clearance volume, compression, squish.

use crate::formula;
use crate::quantity::{Mm, Mm2, Ratio, Volume};

formula! {
    /// Area of a bore.
    bore_area(B: Mm = "the bore" in 5.0..=1_000.0)
        -> A: Mm2 { PI / 4.0 * sq(B) }
    source Derived "area of a circle"
}
formula! {
    /// Volume of a plate so thick.
    plate_volume(A: Mm2 = "the area" in 10.0..=1_000_000.0, x: Mm = "the thickness" in 0.0..=20.0)
        -> V: Volume { A * x / 1000.0 }
    source Derived "area times thickness, a thousand cubic millimetres in a cubic centimetre"
}
formula! {
    /// Clearance volume that is left.
    clearance_left(V_c: Volume = "the clearance volume" in 0.1..=10_000.0, V: Volume = "what the joint takes with it" in 0.0..=10_000.0)
        -> V_2: Volume { V_c - V }
    source Derived "geometry"
}
formula! {
    /// Compression: all of the cylinder over what is left at the top.
    compression(V_s: Volume = "the swept volume" in 0.1..=100_000.0, V_c: Volume = "the clearance volume" in 0.01..=10_000.0)
        -> e: Ratio { (V_s + V_c) / V_c }
    source Derived "the whole volume over the clearance volume"
}
formula! {
    /// Room over the piston that is left.
    squish_left(s: Mm = "the squish" in 0.0..=50.0, x: Mm = "the metal lapped off" in 0.0..=20.0)
        -> s_2: Mm { s - x }
    source Derived "the joint comes down by as much"
}
formula! {
    /// The least set-down of a thread insert.
    set_down_least(k: Ratio = "the set-down in pitches" in 0.0..=2.0, P: Mm = "the pitch" in 0.1..=12.0)
        -> s: Mm { k * P }
    source Derived "so many pitches"
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

    /// A bore of 79 with a stroke of 87 at 7.5 : 1, by what is lapped off.
    #[test]
    fn compression_by_what_is_lapped_off() {
        let area = bore_area(&of(79.0)).unwrap();
        let swept = of(area.number() * 87.0 / 1000.0);
        let clearance = of::<Volume>(65.61);
        for (x, wanted) in [(0.05, 7.524), (0.10, 7.549), (0.25, 7.624), (0.50, 7.752), (1.00, 8.025)] {
            let left = clearance_left(&clearance, &plate_volume(&area, &of(x)).unwrap()).unwrap();
            assert_abs_diff_eq!(compression(&swept, &left).unwrap().number(), wanted, epsilon = 1e-3);
        }
    }
}
