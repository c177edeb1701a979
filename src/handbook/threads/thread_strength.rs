//! What a thread holds: stress area, stripping areas, loads, torque.

use crate::formula;
use crate::handbook::constants::constant;
use crate::handbook::materials::groups::{Kind, Material};
use crate::proof::{Refusal, Side, Worked};
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
    shear_strength(k: Ratio = "shear over tensile strength" in 0.4..=1.4, Rm: Stress = "the tensile strength" in 10.0..=2500.0)
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
    /// Width of a boss over the thread in it.
    boss_ratio(s: Mm = "the boss" in 0.0..=2000.0, d: Mm = "the thread" in 0.2..=300.0)
        -> x: Ratio { s / d }
    source Derived "geometry"
}
formula! {
    /// How a thin boss swells under load, by its width over the thread; from 1.9 it counts as stiff.
    boss_dilation(x: Ratio = "the width of the boss over its thread" in 1.4..=1.9)
        -> C1: Ratio { 3.8 * x - sq(x) - 2.61 }
    source FromMemory "Alexander; VDI 2230; ISO/TR 16224"
}
formula! {
    /// A force so many times another.
    times_force(k: Ratio = "the factor" in 0.1..=10.0, F: Newton = "the force" in 0.0..=1e7)
        -> F_k: Newton { k * F }
    source CommonPractice "strength asked as a multiple of the clamping force"
}
formula! {
    /// A force that is a share of another.
    share_of_force(F: Newton = "the force" in 0.0..=1e7, k: Ratio = "the factor" in 0.1..=10.0)
        -> F_k: Newton { F / k }
    source Derived "the clamping force that a strength allows"
}
formula! {
    /// Proof stress of a class whose proof is not known.
    proof_from_tensile(k: Ratio = "the share of tensile strength" in 0.3..=1.0, Rm: Stress = "the tensile strength of the bolt" in 50.0..=2500.0)
        -> Rp: Stress { k * Rm }
    source Own "a share of tensile where the old standard's proof is not remembered"
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

/// Shear over tensile strength by the kind of metal, and whether what rests on it is doubtful (worked out or only remembered,
/// and of one metal only).
///
/// # Errors
/// [`Refusal::NoRow`] for what is no metal that a thread holds in.
pub(crate) fn shear_over_tensile(material: &Material) -> Result<(Worked<Ratio>, bool), Refusal> {
    let (name, doubtful) = match material.kind() {
        Kind::Aluminium => ("shear-over-tensile-aluminium", false),
        Kind::Steel | Kind::HardSteel => ("shear-over-tensile-steel", false),
        Kind::GreyIron => ("shear-over-tensile-grey-iron", false),
        Kind::Magnesium => ("shear-over-tensile-magnesium", true),
        Kind::DuctileIron | Kind::Stainless | Kind::CopperAlloy | Kind::Titanium => {
            ("shear-over-tensile-other-ductile", true)
        }
        Kind::Sintered | Kind::Plastic | Kind::Lining => {
            let wanted = material.row().name.clone();
            return Err(Refusal::NoRow { table: "shear over tensile strength", wanted });
        }
    };
    Ok((constant(name)?, doubtful))
}

/// How a thin boss swells: 1 from where it counts as stiff; its band goes down to the boss at its thin end. And whether that
/// thin end is outside the rule, so that what rests on it is doubtful.
///
/// # Errors
/// [`Refusal::Outside`] where the boss is under 1.4 times the thread: the rule says nothing there.
pub(crate) fn dilation(boss: &Worked<Mm>, thread: &Worked<Mm>, guard: f64) -> Result<(Worked<Ratio>, bool), Refusal> {
    let ratio = boss_ratio(boss, thread)?;
    let stiff = constant::<Ratio>("boss-stiff-ratio")?.number();
    let swells = |ratio: &Worked<Ratio>| {
        let held = ratio.at_most(stiff, "from here a boss counts as stiff");
        Ok(boss_dilation(&held)?.at_most(1.0, "a stiff boss does not swell"))
    };
    let middle = swells(&ratio.nominal("its thin end is in the band"))?;
    let worst = ratio.worst(Side::Low, guard);
    let (thin, outside) = match swells(&worst) {
        // Past the end of the rule the thinnest boss that it speaks of stands: no band is lost, and it is doubtful besides.
        Err(Refusal::Outside { least, .. }) => (swells(&worst.at_least(least, "the thinnest boss of the rule"))?, true),
        thin => (thin?, false),
    };
    let stiff = middle.number();
    Ok((middle.with_band(thin.number(), stiff), outside))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::proof::Cause;
    use crate::quantity::Quantity;

    #[test]
    fn a_boss_is_stiff_or_swells_or_is_outside_the_rule() {
        let of = |mm: f64| Worked::assumed(Mm::new(mm), "a test");
        let factor = |boss: f64| dilation(&of(boss), &of(10.0), 2.0).map(|c| (c.0.number() * 1000.0).round() / 1000.0);
        assert_eq!((factor(30.0), factor(19.0), factor(14.0)), (Ok(1.0), Ok(1.0), Ok(0.75)));
        assert!(matches!(factor(13.9), Err(Refusal::Outside { .. })));
    }

    /// Less and less known of a boss, or a narrower one, never leaves more of it.
    #[test]
    fn a_boss_that_may_be_too_thin_keeps_the_thin_end() {
        let end = |boss: f64, doubt: f64| {
            let boss = Worked::assumed(Mm::new(boss), "a test").with_doubt(Cause::Named("rule"), doubt);
            let (factor, doubtful) = dilation(&boss, &Worked::assumed(Mm::new(10.0), "a test"), 2.0).unwrap();
            (factor.band_end(Side::Low), doubtful)
        };
        assert!(!end(15.0, 0.5).1 && end(15.0, 2.0).1);
        assert!(end(15.0, 0.5).0 > end(15.0, 2.0).0 && (end(15.0, 2.0).0 - 0.75).abs() < 1e-9);
        assert!(end(15.0, 2.0).0 >= end(14.2, 2.0).0);
    }

    #[test]
    fn every_metal_of_the_book_has_its_ratio_or_is_no_metal() {
        for metal in Material::all() {
            let is_metal = !matches!(metal.kind(), Kind::Sintered | Kind::Plastic | Kind::Lining);
            assert_eq!(shear_over_tensile(&metal).is_ok(), is_metal, "{}", metal.row().name);
        }
    }
}
