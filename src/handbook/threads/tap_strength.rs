//! What a tap stands, and a drill likewise: the torque at which its core shears off.

use crate::formula;
use crate::quantity::{Mm, NewtonMetre, Ratio, Stress};

formula! {
    /// The core of a tap between its flutes.
    tap_core(D: Mm = "the major diameter" in 0.5..=120.0, k: Ratio = "the core over the diameter" in 0.2..=0.8)
        -> d_c: Mm { k * D }
    source FromMemory "hand taps with three and four flutes: a core of four to five tenths of the diameter"
}
formula! {
    /// Torque that shears a round core off.
    core_breaks_at(d_c: Mm = "the core" in 0.1..=100.0, tau: Stress = "the shear strength" in 200.0..=3_000.0)
        -> M: NewtonMetre { PI * tau * d_c * sq(d_c) / 16000.0 }
    source Derived "torsion of a round bar: the greatest shear is 16 M over pi d cubed"
}
formula! {
    /// Torque of a worn tap.
    blunt_torque(M_1: NewtonMetre = "the torque of a sharp tap" in 0.0..=10_000.0, k: Ratio = "how much more a worn tap asks" in 1.0..=4.0)
        -> M: NewtonMetre { k * M_1 }
    source Derived "so many times the torque of a sharp one"
}
