//! What a thread holds: stress area, stripping areas, loads, torque.

use crate::formula;
use crate::quantity::{Mm, Mm2, Newton, NewtonMetre, Ratio, Stress};

formula! {
    /// Tensile stress area of a metric bolt.
    stress_area_metric(d: Mm = "the major diameter" in 0.2..=300.0, P: Mm = "the pitch" in 0.05..=8.0)
        -> A_s: Mm2 { PI / 4.0 * sq(d - 0.938194 * P) }
    source FromMemory "ISO 898-1 (mean of pitch and root diameter; the idea was read, both read tables are reproduced)"
}
formula! {
    /// Tensile stress area of an inch bolt of Unified form up to about 100 ksi.
    stress_area_inch(d: Mm = "the major diameter" in 0.2..=150.0, P: Mm = "the pitch" in 0.2..=8.0)
        -> A_s: Mm2 { PI / 4.0 * sq(d - 0.9743 * P) }
    source FromMemory "ASME B1.1, Machinery's Handbook"
}
formula! {
    /// Tensile stress area of a bolt whose form has no formula of its own: the mean of pitch and minor diameter.
    stress_area_mean(d2: Mm = "the pitch diameter" in 0.2..=150.0, d1: Mm = "the minor diameter" in 0.2..=150.0)
        -> A_s: Mm2 { PI / 4.0 * sq((d2 + d1) / 2.0) }
    source Derived "the idea of ISO 898-1 with the form's own diameters"
}
formula! {
    /// Shear area of the hole's thread for each length engaged (nut thread strips).
    nut_shear_area(P: Mm = "the pitch" in 0.05..=12.0, L: Mm = "the engaged length" in 0.0..=300.0,
        d_min: Mm = "the least major diameter of what sits in it" in 0.2..=300.0,
        D2_max: Mm = "the greatest pitch diameter of the hole" in 0.2..=300.0)
        -> A_n: Mm2 { PI / P * L * d_min * (P / 2.0 + 0.57735 * (d_min - D2_max)) }
    source FromMemory "FED-STD-H28/2B, Machinery's Handbook (60 deg; two read tables are reproduced)"
}
formula! {
    /// Shear area of the bolt's thread (bolt thread strips).
    bolt_shear_area(P: Mm = "the pitch" in 0.05..=12.0, L: Mm = "the engaged length" in 0.0..=300.0,
        D1_max: Mm = "the greatest minor diameter of the nut" in 0.2..=300.0,
        d2_min: Mm = "the least pitch diameter of the bolt" in 0.2..=300.0)
        -> A_b: Mm2 { PI / P * L * D1_max * (P / 2.0 + 0.57735 * (d2_min - D1_max)) }
    source Read "Machinery's Handbook 24 as paraphrased in a structural engineers' forum"
}
formula! {
    /// Shear area for each length engaged of a hole of any flank angle: the 60° form's rule with the form's own half angle.
    shear_area_any_form(P: Mm = "the pitch" in 0.05..=12.0, L: Mm = "the engaged length" in 0.0..=300.0,
        d_min: Mm = "the least major diameter of what sits in it" in 0.2..=300.0,
        D2_max: Mm = "the greatest pitch diameter of the hole" in 0.2..=300.0,
        half: crate::quantity::Angle = "half the flank angle" in 20.0..=35.0)
        -> A_n: Mm2 { PI / P * L * d_min * (P / 2.0 + tan(half) * (d_min - D2_max)) }
    source Derived "FED-STD-H28/2B with the form's own flank angle"
}
formula! {
    /// Shear strength of a metal from its tensile strength.
    shear_strength(k: Ratio = "shear over tensile strength" in 0.4..=1.2, Rm: Stress = "the tensile strength" in 10.0..=2500.0)
        -> tau: Stress { k * Rm }
    source Read "insert maker's design page: 0.6 to 0.7 for aluminium; others from memory: VDI 2230"
}
formula! {
    /// Force that strips the hole.
    pull_out(tau: Stress = "the shear strength of the casting" in 1.0..=2000.0, A_n: Mm2 = "the shear area" in 0.0..=1e6,
        C1: Ratio = "the boss dilation factor" in 0.3..=1.0)
        -> F: Newton { tau * A_n * C1 }
    source Derived "shear strength times area; dilation from memory: VDI 2230"
}
formula! {
    /// How a thin boss swells under load (boss across `s`, thread `d`), 1.4 ≤ s/d < 1.9.
    boss_dilation(s: Mm = "the boss" in 0.5..=500.0, d: Mm = "the thread" in 0.2..=300.0)
        -> C1: Ratio { 3.8 * s / d - sq(s / d) - 2.61 }
    source FromMemory "Alexander; VDI 2230; ISO/TR 16224"
}
formula! {
    /// Load that breaks a bolt.
    bolt_load(A_s: Mm2 = "the stress area" in 0.01..=1e5, Rm: Stress = "the tensile strength of the bolt" in 50.0..=2500.0)
        -> F: Newton { A_s * Rm }
    source Derived "area times strength (ISO 898-1)"
}
formula! {
    /// Clamping force as a share of the proof load.
    clamping_by_proof(share: Ratio = "the share of proof" in 0.1..=1.0, Rp: Stress = "the proof stress of the bolt" in 50.0..=2500.0,
        A_s: Mm2 = "the stress area" in 0.01..=1e5)
        -> F: Newton { share * Rp * A_s }
    source FromMemory "Shigley: 0.75 of proof for joints that are undone"
}
formula! {
    /// Clamping force that a torque gives, short form.
    clamping_by_torque(T: NewtonMetre = "the torque" in 0.0..=5000.0, K: Ratio = "the nut factor" in 0.08..=0.5,
        d: Mm = "the nominal diameter" in 0.5..=150.0)
        -> F: Newton { 1000.0 * T / (K * d) }
    source FromMemory "Shigley; NASA RP-1228: T = K d F"
}
formula! {
    /// Torque for a clamping force, short form.
    torque_short(K: Ratio = "the nut factor" in 0.08..=0.5, d: Mm = "the nominal diameter" in 0.5..=150.0,
        F: Newton = "the clamping force" in 0.0..=5e6)
        -> T: NewtonMetre { K * d * F / 1000.0 }
    source FromMemory "Shigley; NASA RP-1228: T = K d F"
}
formula! {
    /// Torque for a clamping force, long form: pitch, thread friction, head friction.
    torque_long(F: Newton = "the clamping force" in 0.0..=5e6, P: Mm = "the pitch" in 0.05..=12.0,
        mu: Ratio = "the friction in the thread" in 0.02..=0.5, d2: Mm = "the pitch diameter" in 0.2..=300.0,
        mu_head: Ratio = "the friction under the head" in 0.02..=0.5, D_head: Mm = "the mean diameter of the head" in 0.3..=500.0)
        -> T: NewtonMetre { F * (P / (2.0 * PI) + 0.577 * mu * d2 + mu_head * D_head / 2.0) / 1000.0 }
    source FromMemory "VDI 2230 (structure and head diameter 1.3 d read: tribology-abc e3_6a)"
}
formula! {
    /// Engagement at which the hole just holds a load.
    engagement_for_load(F: Newton = "the load" in 0.0..=5e6, tau: Stress = "the shear strength" in 1.0..=2000.0,
        a: Mm2 = "the shear area for each mm" in 0.01..=1e4)
        -> L: Mm { F / (tau * a) }
    source Derived "load over strength"
}
