//! A bush pressed into its housing: two thick cylinders of two materials, open ends (plane stress).
//!
//! Symbols: `d` joint diameter, `D_i` bore of the bush, `D_o` outside of the housing, `delta` interference **on diameter**
//! (books also give it on the radius: the usual trap), `p` joint pressure. Tension is positive.

use super::fits::Class;
use crate::formula;
use crate::handbook::table::{cited, rows, seen};
use crate::proof::{Mark, Refusal, Worked};
use crate::quantity::{Mm, Newton, NewtonMetre, Quantity, Ratio, Roughness, Shift, Stress, figure};
use serde::Deserialize;
use std::sync::LazyLock;

formula! {
    /// Interference from two readings; negative is a gap.
    interference(D_b: Mm = "the outside of the bush" in 0.5..=1_000.0, d: Mm = "the bore of the housing" in 0.5..=1_000.0)
        -> delta: Shift { D_b - d }
    source Derived "difference of two readings"
}
formula! {
    /// What pressing flattens of the two surfaces, taken off the interference on diameter.
    roughness_loss(k: Ratio = "the share of the roughness" in 0.0..=6.0, Ra_o: Roughness = "the roughness of the housing" in 0.0..=25.0,
        Ra_i: Roughness = "the roughness of the bush" in 0.0..=25.0)
        -> loss: Mm { k * (Ra_o + Ra_i) / 1000.0 }
    source Read "ISO 6336-2 practice as quoted by two texts: 0.2 (Rz1 + Rz2) with Rz = 6 Ra"
}
formula! {
    /// Interference that is left once the surfaces have bedded in.
    interference_left(delta: Shift = "the interference" in -5.0..=5.0, loss: Mm = "the loss by roughness" in 0.0..=0.5)
        -> delta_e: Shift { delta - loss }
    source Derived "interference less what is flattened"
}
formula! {
    /// How far the bush gives, as a pure number: strain of its outside times E over the pressure. A solid pin has D_i = 0.
    bush_gives(d: Mm = "the joint diameter" in 0.5..=1_000.0, D_i: Mm = "the bore of the bush" in 0.0..=1_000.0,
        nu_i: Ratio = "Poisson's ratio of the bush" in 0.0..=0.5)
        -> C_i: Ratio { (sq(d) + sq(D_i)) / (sq(d) - sq(D_i)) - nu_i }
    source Read "thick cylinders of two materials: bearing maker's handbook, Shigley, Norton, Ugural"
}
formula! {
    /// How far the housing gives, as a pure number: strain of its bore times E over the pressure.
    housing_gives(d: Mm = "the joint diameter" in 0.5..=1_000.0, D_o: Mm = "the outside of the housing" in 0.5..=5_000.0,
        nu_o: Ratio = "Poisson's ratio of the housing" in 0.0..=0.5)
        -> C_o: Ratio { (sq(D_o) + sq(d)) / (sq(D_o) - sq(d)) + nu_o }
    source Read "thick cylinders of two materials: bearing maker's handbook, Shigley, Norton, Ugural"
}
formula! {
    /// Pressure in the joint.
    joint_pressure(delta: Shift = "the interference" in 0.0..=5.0, d: Mm = "the joint diameter" in 0.5..=1_000.0,
        C_i: Ratio = "how far the bush gives" in 0.3..=500.0, E_i: Stress = "the modulus of the bush" in 300.0..=700_000.0,
        C_o: Ratio = "how far the housing gives" in 1.0..=500.0, E_o: Stress = "the modulus of the housing" in 300.0..=700_000.0)
        -> p: Stress { delta / (d * (C_i / E_i + C_o / E_o)) }
    source Read "thick cylinders of two materials: bearing maker's handbook, Shigley, Norton, Ugural"
}
formula! {
    /// Interference that gives a pressure: the formula of the pressure, turned round.
    interference_for_pressure(p: Stress = "the joint pressure" in 0.0..=2_000.0, d: Mm = "the joint diameter" in 0.5..=1_000.0,
        C_i: Ratio = "how far the bush gives" in 0.3..=500.0, E_i: Stress = "the modulus of the bush" in 300.0..=700_000.0,
        C_o: Ratio = "how far the housing gives" in 1.0..=500.0, E_o: Stress = "the modulus of the housing" in 300.0..=700_000.0)
        -> delta: Shift { p * d * (C_i / E_i + C_o / E_o) }
    source Derived "joint pressure, turned round"
}
formula! {
    /// Hoop stress of the housing at the joint.
    hoop_housing_bore(p: Stress = "the joint pressure" in 0.0..=2_000.0, d: Mm = "the joint diameter" in 0.5..=1_000.0,
        D_o: Mm = "the outside of the housing" in 0.5..=5_000.0)
        -> s_o: Stress { p * (sq(D_o) + sq(d)) / (sq(D_o) - sq(d)) }
    source Read "Lamé: Ugural, Boresi, Norton"
}
formula! {
    /// Hoop stress of the housing at its outside.
    hoop_housing_outside(p: Stress = "the joint pressure" in 0.0..=2_000.0, d: Mm = "the joint diameter" in 0.5..=1_000.0,
        D_o: Mm = "the outside of the housing" in 0.5..=5_000.0)
        -> s_oo: Stress { 2.0 * p * sq(d) / (sq(D_o) - sq(d)) }
    source Read "Lamé: Ugural, Boresi, Norton"
}
formula! {
    /// Hoop stress of the bush at the joint: compression.
    hoop_bush_outside(p: Stress = "the joint pressure" in 0.0..=2_000.0, d: Mm = "the joint diameter" in 0.5..=1_000.0,
        D_i: Mm = "the bore of the bush" in 0.0..=1_000.0)
        -> s_io: Stress { -p * (sq(d) + sq(D_i)) / (sq(d) - sq(D_i)) }
    source Read "Lamé: Ugural, Boresi, Norton"
}
formula! {
    /// Hoop stress of the bush at its bore, where it is greatest: compression.
    hoop_bush_bore(p: Stress = "the joint pressure" in 0.0..=2_000.0, d: Mm = "the joint diameter" in 0.5..=1_000.0,
        D_i: Mm = "the bore of the bush" in 0.05..=1_000.0)
        -> s_i: Stress { -2.0 * p * sq(d) / (sq(d) - sq(D_i)) }
    source Read "Lamé: Ugural, Boresi, Norton"
}
formula! {
    /// Stress that decides on yield at the bore of a ductile housing (Tresca): hoop tension and pressure together.
    tresca(s_o: Stress = "the hoop stress" in 0.0..=10_000.0, p: Stress = "the joint pressure" in 0.0..=2_000.0)
        -> s_T: Stress { s_o + p }
    source Read "greatest shear stress: Ugural, Boresi"
}
formula! {
    /// Pressure at which the bore of a ductile housing begins to yield (Tresca: hoop tension and pressure together).
    housing_first_yield(R_e: Stress = "the yield stress of the housing" in 1.0..=3_000.0, d: Mm = "the joint diameter" in 0.5..=1_000.0,
        D_o: Mm = "the outside of the housing" in 0.5..=5_000.0)
        -> p_h: Stress { R_e * (1.0 - sq(d / D_o)) / 2.0 }
    source Read "Lamé with the greatest shear stress: Ugural, Boresi"
}
formula! {
    /// Pressure that a ductile housing is trusted with beyond first yield: a share of what makes its whole wall yield.
    housing_spread(k: Ratio = "the share of full yield" in 0.1..=1.0, R_e: Stress = "the yield stress of the housing" in 1.0..=3_000.0,
        D_o: Mm = "the outside of the housing" in 0.5..=5_000.0, d: Mm = "the joint diameter" in 0.5..=1_000.0)
        -> p_h: Stress { k * R_e * ln(D_o / d) }
    source Own "thick cylinder, fully plastic (Tresca), and a share of it"
}
formula! {
    /// A share of a stress or pressure.
    trusted_stress(k: Ratio = "the share" in 0.05..=5.0, s: Stress = "the stress" in 0.0..=5_000.0)
        -> s_max: Stress { k * s }
    source Own "so much of it is trusted"
}
formula! {
    /// Hoop tension that a brittle iron is trusted with.
    iron_hoop_most(k: Ratio = "the share of the tensile strength" in 0.05..=1.0, R_m: Stress = "the tensile strength" in 50.0..=2_000.0)
        -> s_max: Stress { k * R_m }
    source FromMemory "textbook practice for grey iron: a quarter of the tensile strength"
}
formula! {
    /// How much the bore of the bush closes in, while it is elastic.
    close_in(p: Stress = "the joint pressure" in 0.0..=2_000.0, d: Mm = "the joint diameter" in 0.5..=1_000.0,
        D_i: Mm = "the bore of the bush" in 0.05..=1_000.0, E_i: Stress = "the modulus of the bush" in 300.0..=700_000.0)
        -> c: Mm { 2.0 * p * sq(d) * D_i / (E_i * (sq(d) - sq(D_i))) }
    source Read "thick cylinder under outer pressure: bearing maker's handbook, Ugural"
}
formula! {
    /// Close-in over interference: it depends on walls and metals alone, and may be more than 1 in a rigid housing.
    close_in_share(c: Mm = "the close-in" in 0.0..=5.0, delta: Shift = "the interference" in 0.000001..=5.0)
        -> r: Ratio { c / delta }
    source Derived "one over the other"
}
formula! {
    /// How much the outside of the boss grows.
    boss_growth(p: Stress = "the joint pressure" in 0.0..=2_000.0, d: Mm = "the joint diameter" in 0.5..=1_000.0,
        D_o: Mm = "the outside of the housing" in 0.5..=5_000.0, E_o: Stress = "the modulus of the housing" in 300.0..=700_000.0)
        -> g: Mm { 2.0 * p * sq(d) * D_o / (E_o * (sq(D_o) - sq(d))) }
    source Read "thick cylinder under inner pressure: Ugural, Boresi"
}
formula! {
    /// Pressure at which the bore of the bush begins to yield.
    first_yield(R_e: Stress = "the yield stress of the bush" in 1.0..=3_000.0, D_i: Mm = "the bore of the bush" in 0.05..=1_000.0,
        d: Mm = "the joint diameter" in 0.5..=1_000.0)
        -> p_y: Stress { R_e * (1.0 - sq(D_i / d)) / 2.0 }
    source Derived "hoop at the bore equals yield (Tresca, no radial stress there)"
}
formula! {
    /// Pressure at which the whole wall of the bush yields: the joint cannot press harder.
    full_plastic(R_e: Stress = "the yield stress of the bush" in 1.0..=3_000.0, d: Mm = "the joint diameter" in 0.5..=1_000.0,
        D_i: Mm = "the bore of the bush" in 0.05..=1_000.0)
        -> p_pl: Stress { R_e * ln(d / D_i) }
    source Derived "thick cylinder, fully plastic (Tresca)"
}
formula! {
    /// Close-in at an interference: the elastic share of it up to first yield, `k` times what lies beyond. It may exceed the
    /// interference; without interference there is none.
    close_in_at(r: Ratio = "close-in over interference" in 0.0..=2.0, delta: Shift = "the interference" in -5.0..=5.0,
        delta_y: Shift = "the interference at first yield" in 0.0..=5.0, k: Ratio = "the share that goes into the bore beyond" in 1.0..=2_000.0)
        -> c: Mm { r * max(0.0, min(delta, delta_y)) + k * max(0.0, delta - delta_y) }
    source Derived "elastic share of thick cylinders; beyond yield between none into length and volume kept, length held"
}
formula! {
    /// The same of a bush that has no yield point in the book.
    close_in_elastic(r: Ratio = "close-in over interference" in 0.0..=2.0, delta: Shift = "the interference" in -5.0..=5.0)
        -> c: Mm { r * max(0.0, delta) }
    source Derived "elastic share of thick cylinders"
}
formula! {
    /// The upper end of that share: volume kept.
    plastic_share_most(d: Mm = "the joint diameter" in 0.5..=1_000.0, D_i: Mm = "the bore of the bush" in 0.05..=1_000.0)
        -> k: Ratio { d / D_i }
    source Derived "volume kept, length held"
}
formula! {
    /// Bore of the bush once it is pressed in.
    bore_pressed(D_i: Mm = "the bore of the bush" in 0.05..=1_000.0, c: Mm = "the close-in" in 0.0..=5.0)
        -> D_p: Mm { D_i - c }
    source Derived "bore less its close-in"
}
formula! {
    /// Pilot of a pressing mandrel that stays free in the bore as it closes in.
    mandrel_pilot(D_i: Mm = "the smallest bore of the bush before pressing" in 0.05..=1_000.0, c_most: Mm = "the most that it closes in" in 0.0..=5.0,
        u: Mm = "the room about the pilot" in 0.0..=1.0)
        -> D_m: Mm { max(0.0, D_i - c_most - u) }
    source Read "bush maker's catalogue: pilot under the bore; from the bore as it closes in"
}
formula! {
    /// Force that slides the bush home, at the end of the stroke; it grows with the length that is in.
    press_force(mu: Ratio = "the friction" in 0.01..=1.0, p: Stress = "the joint pressure" in 0.0..=2_000.0,
        d: Mm = "the joint diameter" in 0.5..=1_000.0, L: Mm = "the length of the joint" in 0.1..=2_000.0)
        -> F: Newton { mu * p * PI * d * L }
    source Read "Shigley: friction times pressure times area"
}
formula! {
    /// Torque at which the bush turns in its housing.
    slip_torque(F: Newton = "the holding force" in 0.0..=1e9, d: Mm = "the joint diameter" in 0.5..=1_000.0)
        -> T: NewtonMetre { F * d / 2000.0 }
    source Read "Shigley: force times half the diameter"
}
formula! {
    /// Bore of a bush that is to be made, so that after pressing the stock is left.
    bore_to_make(D_m: Mm = "the middle of the finished bore" in 0.1..=1_000.0, s: Mm = "the stock to leave" in 0.0..=2.0,
        c: Mm = "the close-in" in 0.0..=5.0)
        -> D_i: Mm { D_m - s + c }
    source Derived "finished bore less stock, and what pressing closes in"
}

#[derive(Debug, Deserialize)]
struct FitRow {
    case: String,
    over_mm: Option<f64>,
    upto_mm: Option<f64>,
    housing: String,
    bush_outside: String,
    source: String,
    #[serde(deserialize_with = "seen")]
    seen: Mark,
}

const USUAL_FITS: &str = include_str!("../../../shared/usual-fits.csv");

/// The interference that a solid bush is usually made with, with its band: the bush's class on the middle of the housing's, for
/// the housing is measured and not a class.
///
/// # Errors
/// [`Refusal::NoRow`] where no usual fit covers the size.
pub(crate) fn usual_interference(d: f64) -> Result<Worked<Shift>, Refusal> {
    static ROWS: LazyLock<Vec<FitRow>> = LazyLock::new(|| rows(USUAL_FITS));
    let holds = |row: &&FitRow| {
        row.case == "solid cast bronze"
            && row.over_mm.is_none_or(|over| d > over)
            && row.upto_mm.is_none_or(|upto| d <= upto)
    };
    let lacking = || Refusal::NoRow { table: "usual fit of a bush", wanted: format!("a joint of {} mm", figure(d)) };
    let row = ROWS.iter().find(holds).ok_or_else(lacking)?;
    let deviations = |class: &str| class.parse::<Class>().map_err(|_| lacking()).and_then(|class| class.deviations(d));
    let (hole, bush) = (deviations(&row.housing)?, deviations(&row.bush_outside)?);
    let on_middle = |deviation: f64| (deviation - (hole.lower + hole.upper) / 2.0) / 1000.0;
    let (low, high) = (on_middle(bush.lower), on_middle(bush.upper));
    let middle = (low + high) / 2.0;
    let line = format!("{} in {}, middle of both: {} mm", row.bush_outside, row.housing, figure(middle));
    let source = cited(&row.source, row.seen);
    Ok(Worked::method(Shift::new(middle), vec![line], source).with_band(low, high))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_loads() {
        let (all, good, first) = crate::handbook::table::audit::<FitRow>(USUAL_FITS);
        assert_eq!(all, good, "{first}");
    }

    /// s6 at 20 mm is +35 +48 µm, H7 is 0 +21 µm: 41.5 less 10.5.
    #[test]
    fn a_bush_is_made_to_the_middle_of_the_usual_fit() {
        let usual = usual_interference(20.01).unwrap();
        let (low, high) = usual.band().unwrap();
        assert_eq!(format!("{:.4} {low:.4} {high:.4}", usual.number()), "0.0310 0.0245 0.0375");
    }

    fn of<Q: Quantity>(number: f64) -> Worked<Q> {
        Worked::assumed(Q::new(number), "a test")
    }

    fn pressure(delta: f64, d: f64, bore: f64, outside: f64, inner: (f64, f64), outer: (f64, f64)) -> f64 {
        let gives = bush_gives(&of(d), &of(bore), &of(inner.1)).unwrap();
        let opens = housing_gives(&of(d), &of(outside), &of(outer.1)).unwrap();
        joint_pressure(&of(delta), &of(d), &gives, &of(inner.0), &opens, &of(outer.0)).unwrap().number()
    }

    /// Source: Ugural & Fenster, Ex 8.3: 12.3 MPa (the companion notebook's 0.308 divides by 8 in the place of 0.2).
    #[test]
    fn a_shrunk_tube_of_one_metal() {
        let p = pressure(0.2, 400.0, 300.0, 500.0, (200e3, 0.3), (200e3, 0.3));
        assert_eq!(format!("{p:.1}"), "12.3");
        let hoop = hoop_housing_bore(&of(12.3), &of(400.0), &of(500.0)).unwrap();
        assert_eq!(format!("{:.1}", hoop.number()), "56.0");
        assert_eq!(format!("{:.1}", hoop_bush_bore(&of(12.3), &of(400.0), &of(300.0)).unwrap().number()), "-56.2");
    }

    /// Source: Norton, Ex 10-5: a solid steel shaft in cast iron, 15 265 psi.
    #[test]
    fn a_solid_pin_in_another_metal() {
        let psi = 1.0 / 145.037_737_730_209_2;
        let p = pressure(0.0015 * 25.4, 0.781 * 25.4, 0.0, 3.0 * 25.4, (30e6 * psi, 0.28), (14e6 * psi, 0.28));
        assert!((p / psi - 15_265.0).abs() < 15.0, "{}", p / psi);
    }

    /// A bush of 20 in a housing that hardly gives: the bore closes by more than the interference (regression).
    #[test]
    fn close_in_may_be_more_than_the_interference() {
        let p = pressure(0.03, 20.0, 14.0, 4000.0, (103e3, 0.34), (690e3, 0.0));
        let c = close_in(&of(p), &of(20.0), &of(14.0), &of(103e3)).unwrap();
        assert!(close_in_share(&c, &of(0.03)).unwrap().number() > 0.9);
        let rigid = pressure(0.03, 20.0, 14.0, 4000.0, (1e3, 0.34), (690e3, 0.0));
        let c = close_in(&of(rigid), &of(20.0), &of(14.0), &of(1e3)).unwrap();
        assert_eq!(format!("{:.2}", c.number() / 0.03), "1.06");
    }

    /// Source: roughness loss 1.2 (0.5 + 1.0) = 1.8 µm, tribology notes.
    #[test]
    fn roughness_takes_its_share() {
        assert_eq!(format!("{:.4}", roughness_loss(&of(1.2), &of(0.5), &of(1.0)).unwrap().number()), "0.0018");
    }

    /// Ci needs a wall: a bush whose bore is its outside has no finite answer.
    #[test]
    fn a_bush_without_a_wall_is_refused() {
        assert!(bush_gives(&of(20.0), &of(20.0), &of(0.3)).is_err());
    }
}
