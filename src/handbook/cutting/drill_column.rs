//! A drill as a column under its thrust: fast in its chuck, led by its point, and slender between. What it carries before it bows
//! out, and how far such a drill stands out.

use crate::formula;
use crate::handbook::ToolMaterial;
use crate::handbook::constants::worst;
use crate::handbook::table::{cited, rows, seen};
use crate::proof::{Mark, Refusal, Worked};
use crate::quantity::{Mm, Mm4, Newton, NewtonMetre, Quantity, Ratio, Stress, figure};
use serde::Deserialize;
use std::sync::LazyLock;

formula! {
    /// The round bar that bends and twists as the fluted body of a drill does.
    drill_body(D: Mm = "the drill" in 0.05..=200.0, k: Ratio = "the round bar over the drill" in 0.2..=1.0)
        -> d_c: Mm { k * D }
    source Own "a round bar in the place of web and lands"
}
formula! {
    /// Force along a slender column at which it bows out.
    column_carries(C: Ratio = "the factor of its ends" in 0.2..=4.0, E: Stress = "the modulus of elasticity" in 100.0..=700_000.0,
        I: Mm4 = "the second moment of area" in 1e-8..=1e13, L: Mm = "the length between its ends" in 0.1..=20_000.0)
        -> P: Newton { C * PI * PI * E * I / sq(L) }
    source Read "Gere, Mechanics of Materials, 7th edition: P = pi^2 E I/L^2, by its ends 1, 1/4, 2.046 and 4 times"
}
formula! {
    /// Free length at which a column still carries a force.
    column_length_for(C: Ratio = "the factor of its ends" in 0.2..=4.0, E: Stress = "the modulus of elasticity" in 100.0..=700_000.0,
        I: Mm4 = "the second moment of area" in 1e-8..=1e13, P: Newton = "the force along it" in 0.001..=1e7)
        -> L: Mm { PI * sqrt(C * E * I / P) }
    source Derived "P = C pi^2 E I/L^2, turned round"
}
formula! {
    /// Way between the chuck and the face of the work when the drill stands deepest.
    chuck_clear(L: Mm = "how far the drill stands out" in 0.0..=5_000.0, t: Mm = "how deep its tip stands" in 0.0..=5_000.0)
        -> c: Mm { L - t }
    source Derived "geometry"
}
formula! {
    /// Force at the corners of a tool that stands for its torque.
    force_at_corner(M: NewtonMetre = "the torque" in 0.0..=100_000.0, D: Mm = "the tool" in 0.01..=5_000.0)
        -> F: Newton { 2000.0 * M / D }
    source Derived "torque over radius"
}

#[derive(Debug, Deserialize)]
struct LengthRow {
    over_mm: f64,
    upto_mm: f64,
    flute_mm: f64,
    overall_mm: f64,
    source: String,
    #[serde(deserialize_with = "seen")]
    seen: Mark,
}

const LENGTHS: &str = include_str!("../../../shared/drill-lengths.csv");

/// How long a drill of the short series is that nobody measured.
#[derive(Debug)]
pub struct DrillLength {
    /// Its flutes.
    pub flutes: Worked<Mm>,
    /// The whole of it: it stands out no further.
    pub overall: Worked<Mm>,
}

/// Flutes and whole length of a drill of so many mm.
///
/// # Errors
/// [`Refusal::NoRow`] outside the table.
pub fn drill_length(diameter: f64) -> Result<DrillLength, Refusal> {
    static ROWS: LazyLock<Vec<LengthRow>> = LazyLock::new(|| rows(LENGTHS));
    let row = ROWS.iter().find(|row| diameter > row.over_mm && diameter <= row.upto_mm);
    let wanted = || Refusal::NoRow { table: "drill length", wanted: format!("a drill of {} mm", figure(diameter)) };
    let row = row.ok_or_else(wanted)?;
    let of = |what: &str, length: f64| {
        let says = format!("drill of {} mm, short series: {what} {} mm", figure(diameter), figure(length));
        Worked::row(Mm::new(length), says, cited(&row.source, row.seen))
    };
    Ok(DrillLength { flutes: of("flutes", row.flute_mm), overall: of("overall", row.overall_mm) })
}

/// Modulus of elasticity and shear strength.
pub type Metal = (Worked<Stress>, Worked<Stress>);

/// Modulus of elasticity and shear strength of what a drill is made of, each at its low end; none where the book has no row.
///
/// # Errors
/// [`Refusal::NoRow`] where the table of constants lacks a row.
pub fn drill_metal(tool: ToolMaterial) -> Result<Option<Metal>, Refusal> {
    let names = match tool {
        tool if tool.is_carbide() => ["tool-modulus-carbide", "drill-shear-strength-carbide"],
        ToolMaterial::Hss | ToolMaterial::HssCo => ["tool-modulus-steel", "tap-shear-strength"],
        _ => return Ok(None),
    };
    let [modulus, shear] = names;
    Ok(Some((worst(modulus, false)?, worst(shear, false)?)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::handbook::table::audit;

    fn exact<Q: Quantity>(number: f64) -> Worked<Q> {
        Worked::assumed(Q::new(number), "given")
    }

    #[test]
    fn every_row_loads_and_a_larger_drill_is_no_shorter() {
        let (all, good, first) = audit::<LengthRow>(LENGTHS);
        assert_eq!(all, good, "{first}");
        let lengths = [1.0, 2.0, 3.0, 5.0, 8.0, 12.0, 16.0].map(|d| drill_length(d).unwrap());
        assert!(lengths.windows(2).all(|two| two[0].overall.number() < two[1].overall.number()));
        assert!(lengths.iter().all(|one| one.flutes.number() < one.overall.number()));
        assert!(drill_length(0.1).is_err() && drill_length(60.0).is_err());
    }

    /// The two forms are one law.
    #[test]
    fn the_length_turned_round_carries_the_force() {
        let (c, e, i) = (exact(2.046), exact(200_000.0), exact(5.0));
        let length = column_length_for(&c, &e, &i, &exact(300.0)).unwrap();
        assert!((column_carries(&c, &e, &i, &length).unwrap().number() - 300.0).abs() < 1e-9);
    }
}
