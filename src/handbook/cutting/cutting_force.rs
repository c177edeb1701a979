//! Force, power and torque of a single edge (Kienzle), from the thickness of the chip.
//!
//! A depth below the round of the nose, `r (1 - cos kappa)`, is cut by the nose alone: its mean chip is
//! [`chip_thickness_at_nose`], not [`chip_thickness`]. Which of the two holds is the caller's branch ([`chip`]).

use super::speeds::{Row, rows_of};
use crate::formula;
use crate::handbook::ToolMaterial;
use crate::handbook::constants::{self, doubted};
use crate::handbook::kept::{Kept, Name};
use crate::handbook::materials::groups::Material;
use crate::proof::{Cause, Mark, Refusal, Source, Worked};
use crate::quantity::{
    Angle, KiloWatt, MPerMin, Mm, MmPerRev, Newton, NewtonMetre, Quantity, Ratio, Removal, RevPerMin, Stress,
};

formula! {
    /// Thickness of the chip on the straight edge.
    chip_thickness(f: MmPerRev = "the feed" in 0.0005..=10.0, kappa: Angle = "the edge angle" in 5.0..=150.0)
        -> h: Mm { f * sin(kappa) }
    source Read "tool makers' formula pages: h = f sin(kappa)"
}
formula! {
    /// Mean thickness of the chip that the nose alone cuts, at a depth below the round of the nose.
    chip_thickness_at_nose(f: MmPerRev = "the feed" in 0.0005..=10.0, a: Mm = "the depth of cut" in 0.0005..=40.0,
        r: Mm = "the nose radius" in 0.01..=20.0)
        -> h: Mm { f * sqrt(a / (2.0 * r)) }
    source Derived "chip area over the arc of the nose in cut, for a depth small against the radius"
}
formula! {
    /// Depth at which the straight edge begins to cut.
    nose_depth(r: Mm = "the nose radius" in 0.01..=20.0, kappa: Angle = "the edge angle" in 5.0..=150.0)
        -> a_r: Mm { r * (1.0 - cos(kappa)) }
    source Derived "geometry of the nose"
}
formula! {
    /// Feed that gives a chip of a wanted thickness on the straight edge.
    feed_for_chip_thickness(h: Mm = "the chip thickness" in 0.001..=5.0, kappa: Angle = "the edge angle" in 5.0..=150.0)
        -> f: MmPerRev { h / sin(kappa) }
    source Derived "h = f sin(kappa), turned round"
}
formula! {
    /// How much of a cutter is engaged.
    engaged(a_e: Mm = "the width of cut" in 0.001..=500.0, D: Mm = "the cutter" in 0.1..=500.0)
        -> x: Ratio { a_e / D }
    source Derived "geometry"
}
formula! {
    /// Feed of a turn from the feed of a tooth.
    feed_of_teeth(f_z: Mm = "the feed of a tooth" in 0.0005..=5.0, z: Ratio = "the teeth" in 1.0..=100.0)
        -> f: MmPerRev { f_z * z }
    source Read "cutter makers' pages: vf = fz z n"
}
formula! {
    /// Feed of a tooth that gives a wanted mean chip in side milling.
    feed_for_mean_chip(h_m: Mm = "the mean chip" in 0.001..=5.0, x: Ratio = "the width of cut over the cutter" in 0.001..=0.75)
        -> f_z: Mm { h_m * sqrt(1.0 / x) }
    source Read "cutter makers' pages: hm = fz sqrt(ae/D), printed for ae to 3/4 D"
}
formula! {
    /// By how much the feed of a tooth may rise where the cutter is engaged on less than half its width.
    radial_chip_thinning(x: Ratio = "the width of cut over the cutter" in 0.001..=0.5)
        -> k: Ratio { 1.0 / (2.0 * sqrt(x * (1.0 - x))) }
    source Read "cutter maker's table: factors at 5 to 40 % of the diameter"
}
formula! {
    /// Specific cutting force at a chip thickness.
    specific_force(kc11: Stress = "the specific force at 1 mm" in 20.0..=10_000.0, h: Mm = "the chip thickness" in 0.02..=5.0,
        mc: Ratio = "the exponent of the specific force" in 0.0..=0.6)
        -> kc: Stress { kc11 * pow(h, -mc) }
    source Read "VDI 3323 table heading: kc = kc1.1 h^-mc"
}
formula! {
    /// Cutting force of an area of cut, with the factors of a worn edge and of the tool material.
    cutting_force(kc: Stress = "the specific force" in 20.0..=200_000.0, k_w: Ratio = "the wear factor" in 0.5..=3.0,
        k_t: Ratio = "the tool factor" in 0.5..=2.0, a: Mm = "the depth of cut" in 0.0005..=40.0,
        f: MmPerRev = "the feed" in 0.0005..=10.0)
        -> F: Newton { kc * k_w * k_t * a * f }
    source Read "tool makers' formula pages: F = kc ap f; factors from memory, Tschätsch"
}
formula! {
    /// Two factors of one cut.
    both_factors(k_1: Ratio = "the one factor" in 0.1..=4.0, k_2: Ratio = "the other factor" in 0.1..=4.0)
        -> k: Ratio { k_1 * k_2 }
    source Derived "factors of their own causes multiply"
}
formula! {
    /// Power at the edge.
    cutting_power(F: Newton = "the cutting force" in 0.0..=1e6, v: MPerMin = "the cutting speed" in 0.0..=3_000.0)
        -> P: KiloWatt { F * v / 60_000.0 }
    source Read "tool makers' formula pages: P = F v / 60 000"
}
formula! {
    /// Power at the edge from the metal removed in a minute.
    cutting_power_of_removal(Q: Removal = "the metal removed in a minute" in 0.0..=1e5, kc: Stress = "the specific force" in 20.0..=200_000.0)
        -> P: KiloWatt { Q * kc / 60_000.0 }
    source Read "tool makers' formula pages: P = Q kc / 60 000"
}
formula! {
    /// Power that the motor must give.
    motor_power(P: KiloWatt = "the power at the edge" in 0.0..=1_000.0, eta: Ratio = "the efficiency of the drive" in 0.05..=1.0)
        -> P_m: KiloWatt { P / eta }
    source Read "tool makers' formula pages: motor power over efficiency"
}
formula! {
    /// Torque on the spindle from the force at a diameter.
    spindle_torque(F: Newton = "the cutting force" in 0.0..=1e6, d: Mm = "the diameter at the edge" in 0.0..=5_000.0)
        -> M: NewtonMetre { F * d / 2_000.0 }
    source Derived "force times radius"
}
formula! {
    /// Torque from power and speed.
    torque_from_power(P: KiloWatt = "the power" in 0.0..=1_000.0, n: RevPerMin = "the spindle speed" in 0.5..=60_000.0)
        -> M: NewtonMetre { 30_000.0 * P / (PI * n) }
    source Derived "power over angular speed; printed as 9550 P / n"
}

/// The chip's thickness by the rule that holds at that depth, not under the floor below which the law means nothing. `true`
/// where the floor was taken.
///
/// # Errors
/// [`Refusal::Outside`] outside the ranges of the formulas.
pub fn chip(
    feed: &Worked<MmPerRev>,
    depth: &Worked<Mm>,
    nose: &Worked<Mm>,
    edge: &Worked<Angle>,
) -> Result<(Worked<Mm>, bool), Refusal> {
    let by_nose = depth.number() < nose_depth(nose, edge)?.number();
    let h = if by_nose { chip_thickness_at_nose(feed, depth, nose)? } else { chip_thickness(feed, edge)? };
    let floor: Worked<Mm> = constants::constant("chip-thickness-floor")?;
    Ok(if h.number() < floor.number() { (floor, true) } else { (h, false) })
}

/// Specific force at 1 mm of chip: the high end of the material's row; of a family, the greatest of its members.
///
/// # Errors
/// [`Refusal::NoRow`] where the book has none.
pub fn force_at_one(material: &Material) -> Result<Worked<Stress>, Refusal> {
    thread_local!(static FORCES: Kept<Name, Result<Worked<Stress>, Refusal>> = Kept::default());
    let found = |member: &Material| {
        let row = own_row(member, "kc1.1").ok_or_else(|| lacking("specific cutting force", member))?;
        high_end(row, member, "kc1.1", "specific cutting force")
    };
    let of = |member: &Material| FORCES.with(|forces| forces.once(Name(member.id()), || found(member)));
    material.worst_of(of, |a: &Worked<Stress>, b| a.high().total_cmp(&b.high()))
}

/// Exponent of the specific force: the high end of the row, which is the worse for a thin chip; of a family, the greatest
/// of its members.
///
/// # Errors
/// [`Refusal::NoRow`] where the book has none.
pub(crate) fn exponent(material: &Material) -> Result<Worked<Ratio>, Refusal> {
    thread_local!(static EXPONENTS: Kept<Name, Result<Worked<Ratio>, Refusal>> = Kept::default());
    let found = |member: &Material| {
        let row = own_row(member, "mc").ok_or_else(|| lacking("exponent of the specific force", member))?;
        high_end(row, member, "mc", "exponent of the specific force")
    };
    let of = |member: &Material| EXPONENTS.with(|exponents| exponents.once(Name(member.id()), || found(member)));
    material.worst_of(of, |a: &Worked<Ratio>, b| a.high().total_cmp(&b.high()))
}

/// The factor of the tool material on the force: steel tools rub more at their speeds.
///
/// # Errors
/// [`Refusal::NoRow`] where the table of constants lacks it.
pub(crate) fn tool_factor(tool: ToolMaterial) -> Result<Worked<Ratio>, Refusal> {
    if tool.is_steel() {
        return constants::constant("force-factor-hss");
    }
    let says = format!("tool factor of {}: 1", tool.text());
    Ok(Worked::row(Ratio::new(1.0), says, Source::fixed("Tschätsch", Mark::FromMemory)))
}

fn own_row(material: &Material, property: &str) -> Option<&'static Row> {
    rows_of(material, property, None).into_iter().find(|row| row.flag.is_empty())
}

fn high_end<Q: Quantity>(
    row: &Row,
    material: &Material,
    property: &str,
    cause: &'static str,
) -> Result<Worked<Q>, Refusal> {
    let (low, high) = (row.low.unwrap_or(f64::NAN), row.high.or(row.low).unwrap_or(f64::NAN));
    let worked = Worked::row(Q::new(high), format!("{}: {property} {}", material.row().name, row.says()), row.source());
    let banded = if low < high { worked.with_band(low, high) } else { worked };
    doubted(banded, Cause::Named(cause), row.seen, "")
}

fn lacking(table: &'static str, material: &Material) -> Refusal {
    Refusal::NoRow { table, wanted: material.row().name.clone() }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn exact<Q: Quantity>(number: f64) -> Worked<Q> {
        Worked::assumed(Q::new(number), "given")
    }

    /// Below the round of the nose the chip is that of the nose: 0.05 sqrt(0.16/0.4) = 0.0316, not 0.05 sin 95 = 0.0498.
    #[test]
    fn a_shallow_cut_is_cut_by_the_nose() {
        let (h, floored) = chip(&exact(0.05), &exact(0.16), &exact(0.2), &exact(95.0)).unwrap();
        assert_eq!((format!("{:.4}", h.number()), floored), ("0.0316".into(), false));
        let (h, _) = chip(&exact(0.10), &exact(0.24), &exact(0.2), &exact(90.0)).unwrap();
        assert_eq!(h.number(), 0.10);
        let (h, floored) = chip(&exact(0.01), &exact(0.05), &exact(0.2), &exact(90.0)).unwrap();
        assert_eq!((h.number(), floored), (0.02, true));
    }

    #[test]
    fn the_hard_groups_have_a_remembered_exponent() {
        assert_eq!(exponent(&"case-hardened steel".parse().unwrap()).unwrap().number(), 0.30);
        assert!(force_at_one(&"cork".parse().unwrap()).is_err());
    }
}
