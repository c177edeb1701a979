//! What a twist drill asks of a drill press: torque and thrust by three schools, and how both are eased in a deep hole.

use crate::formula;
use crate::handbook::materials::groups::Material;
use crate::handbook::table::{cited, rows, seen};
use crate::proof::{Mark, Refusal, Source, Worked};
use crate::quantity::{Angle, Mm, MmPerRev, Newton, NewtonMetre, Quantity, Ratio, Stress, figure};
use serde::Deserialize;
use std::sync::LazyLock;

formula! {
    /// Torque of a drill from the specific cutting force at its chip thickness (two lips, each half the feed and half the
    /// diameter, at a quarter of the diameter).
    drill_torque(f: MmPerRev = "the feed" in 0.005..=2.0, k_c: Stress = "the specific cutting force" in 50.0..=20_000.0,
        D: Mm = "the drill" in 0.1..=100.0, kappa: Angle = "the edge angle" in 30.0..=90.0)
        -> M: NewtonMetre { f * k_c * sq(D) / 8000.0 * sin(kappa) }
    source Read "ISCAR 2017 rotating tools, p. 601"
}
formula! {
    /// Thrust of a drill from the specific cutting force at its chip thickness.
    drill_thrust(D: Mm = "the drill" in 0.1..=100.0, f: MmPerRev = "the feed" in 0.005..=2.0,
        k_c: Stress = "the specific cutting force" in 50.0..=20_000.0, kappa: Angle = "the edge angle" in 30.0..=90.0)
        -> T: Newton { 0.63 * D / 2.0 * f * k_c * sin(kappa) }
    source Read "ISCAR 2017 rotating tools, p. 601"
}
formula! {
    /// Feed factor of the handbook form, feed in mm.
    feed_factor(f: MmPerRev = "the feed" in 0.005..=2.0)
        -> F_f: Ratio { pow(f, 0.8) }
    source Read "Machinery's Handbook 31, p. 1152-1153 (the table of Ff is the power 0.8)"
}
formula! {
    /// Diameter factor of the torque in the handbook form, drill in mm.
    torque_factor(D: Mm = "the drill" in 0.1..=100.0)
        -> F_M: Ratio { pow(D, 1.8) }
    source Read "Machinery's Handbook 31, p. 1152-1153 (the table of FM is the power 1.8)"
}
formula! {
    /// Diameter factor of the thrust in the handbook form, drill in mm.
    thrust_factor(D: Mm = "the drill" in 0.1..=100.0)
        -> F_T: Ratio { pow(D, 0.8) }
    source Derived "torque factor over the diameter; Machinery's Handbook 31, p. 1152-1153"
}
formula! {
    /// Torque of a drill in the handbook form (the constant is that of the inch form, turned into millimetres and N·m).
    handbook_torque(K_d: Ratio = "the work material factor" in 500.0..=100_000.0, F_f: Ratio = "the feed factor" in 0.01..=2.0,
        F_M: Ratio = "the diameter factor of torque" in 0.01..=5_000.0, A: Ratio = "the chisel edge factor of torque" in 1.0..=1.5,
        W: Ratio = "the wear factor" in 1.0..=2.0)
        -> M: NewtonMetre { 0.000025145 * K_d * F_f * F_M * A * W }
    source Read "Machinery's Handbook 31, p. 1152-1153 (rounded there to 0.000025)"
}
formula! {
    /// Thrust of a drill in the handbook form (the constants are those of the inch form, turned into millimetres and newtons).
    handbook_thrust(K_d: Ratio = "the work material factor" in 500.0..=100_000.0, F_f: Ratio = "the feed factor" in 0.01..=2.0,
        F_T: Ratio = "the diameter factor of thrust" in 0.1..=50.0, B: Ratio = "the chisel edge factor of thrust" in 1.0..=2.0,
        W: Ratio = "the wear factor" in 1.0..=2.0, D: Mm = "the drill" in 0.1..=100.0,
        J: Ratio = "the chisel edge's own share" in 0.0..=0.1)
        -> T: Newton { 0.0502901 * K_d * F_f * F_T * B * W + 0.0068948 * K_d * sq(D) * J * W }
    source Read "Machinery's Handbook 31, p. 1152-1153 (rounded there to 0.05 and 0.007)"
}
formula! {
    /// Torque of a drill in the form with one constant of the material.
    k_form_torque(K: Ratio = "the material constant" in 0.2..=10.0, D: Mm = "the drill" in 0.5..=100.0,
        f: MmPerRev = "the feed" in 0.005..=2.0)
        -> M: NewtonMetre { K * sq(D) * (0.630 + 16.84 * f) / 100.0 }
    source Read "Tungaloy 2020-21, p. L068"
}
formula! {
    /// Thrust of a drill in the form with one constant of the material.
    k_form_thrust(K: Ratio = "the material constant" in 0.2..=10.0, D: Mm = "the drill" in 0.5..=100.0,
        f: MmPerRev = "the feed" in 0.005..=2.0)
        -> T: Newton { 570.0 * K * D * pow(f, 0.85) }
    source Read "Tungaloy 2020-21, p. L068"
}

/// How a drill is pointed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Point {
    /// The usual chisel edge.
    Standard,
    /// Split or thinned to almost none.
    Split,
}

/// The chisel edge factors of a point.
#[derive(Debug)]
pub struct ChiselEdge {
    /// Factor A of torque.
    pub torque: Worked<Ratio>,
    /// Factor B of thrust.
    pub thrust: Worked<Ratio>,
    /// Factor J: what the chisel edge presses on its own.
    pub own: Worked<Ratio>,
}

#[derive(Debug, Deserialize)]
struct PointRow {
    point: Point,
    a: f64,
    b: f64,
    j: f64,
    source: String,
    #[serde(deserialize_with = "seen")]
    seen: Mark,
}

const POINTS: &str = include_str!("../../../shared/drill-points.csv");

/// The chisel edge factors of the handbook form.
///
/// # Errors
/// [`Refusal::NoRow`] where the table lacks the point.
pub(crate) fn chisel_edge(point: Point) -> Result<ChiselEdge, Refusal> {
    static ROWS: LazyLock<Vec<PointRow>> = LazyLock::new(|| rows(POINTS));
    let row = ROWS.iter().find(|row| row.point == point);
    let row =
        row.ok_or_else(|| Refusal::NoRow { table: "drill point", wanted: format!("{point:?}").to_lowercase() })?;
    let name = format!("{point:?} point").to_lowercase();
    let factor = |letter: &str, value: f64| {
        let says = format!("{name}: {letter} = {}", figure(value));
        Worked::row(Ratio::new(value), says, cited(&row.source, row.seen))
    };
    Ok(ChiselEdge { torque: factor("A", row.a), thrust: factor("B", row.b), own: factor("J", row.j) })
}

#[derive(Debug, Deserialize)]
struct WorkRow {
    class: String,
    kd_low: f64,
    kd_high: f64,
    material_ids: String,
    source: String,
    #[serde(deserialize_with = "seen")]
    seen: Mark,
}

#[derive(Debug, Deserialize)]
struct ConstantRow {
    class: String,
    k: f64,
    material_ids: String,
    source: String,
    #[serde(deserialize_with = "seen")]
    seen: Mark,
}

const WORK: &str = include_str!("../../../shared/drilling-kd.csv");
const CONSTANTS: &str = include_str!("../../../shared/drilling-k.csv");

fn names(ids: &str, material: &Material) -> bool {
    ids.split(';').any(|id| id.trim() == material.id())
}

/// Work material factor of the handbook form: the high end of the row, for a drill press has to stand it.
///
/// # Errors
/// [`Refusal::NoRow`] where the table lacks the material.
pub fn work_factor(material: &Material) -> Result<Worked<Ratio>, Refusal> {
    static ROWS: LazyLock<Vec<WorkRow>> = LazyLock::new(|| rows(WORK));
    let row =
        ROWS.iter().filter(|row| names(&row.material_ids, material)).max_by(|a, b| a.kd_high.total_cmp(&b.kd_high));
    let row = row.ok_or_else(|| lacking("work material factor of drilling", material))?;
    let says = format!("{}: work material factor {}", row.class, figure(row.kd_high));
    let high = Worked::row(Ratio::new(row.kd_high), says, cited(&row.source, row.seen));
    Ok(if row.kd_low < row.kd_high { high.with_band(row.kd_low, row.kd_high) } else { high })
}

/// Material constant of the one-constant form: the greatest row of the material.
///
/// # Errors
/// [`Refusal::NoRow`] where the table lacks the material.
pub(crate) fn material_constant(material: &Material) -> Result<Worked<Ratio>, Refusal> {
    static ROWS: LazyLock<Vec<ConstantRow>> = LazyLock::new(|| rows(CONSTANTS));
    let row = ROWS.iter().filter(|row| names(&row.material_ids, material)).max_by(|a, b| a.k.total_cmp(&b.k));
    let row = row.ok_or_else(|| lacking("material constant of drilling", material))?;
    let says = format!("{}: material constant {}", row.class, figure(row.k));
    Ok(Worked::row(Ratio::new(row.k), says, cited(&row.source, row.seen)))
}

fn lacking(table: &'static str, material: &Material) -> Refusal {
    Refusal::NoRow { table, wanted: material.row().name.clone() }
}

#[derive(Debug, Deserialize)]
struct DeepRow {
    depth_over_diameter: f64,
    speed_factor: f64,
    feed_factor: f64,
    source: String,
    #[serde(deserialize_with = "seen")]
    seen: Mark,
}

const DEEP: &str = include_str!("../../../shared/deep-hole.csv");

/// Factors of speed and of feed in a deep hole: none before the first row, between rows those of the deeper.
///
/// # Errors
/// [`Refusal::NoRow`] for a hole deeper than the table.
pub fn deep_hole(depth: f64, diameter: f64) -> Result<Option<[Worked<Ratio>; 2]>, Refusal> {
    static ROWS: LazyLock<Vec<DeepRow>> = LazyLock::new(|| rows(DEEP));
    let times = depth / diameter;
    if ROWS.first().is_some_and(|row| times < row.depth_over_diameter) {
        return Ok(None);
    }
    let wanted = || {
        let most = ROWS.last().map_or(0.0, |row| row.depth_over_diameter);
        let wanted = format!("a hole of {} diameters, {} are the most that it has", figure(times), figure(most));
        Refusal::NoRow { table: "speed and feed", wanted }
    };
    let row = ROWS.iter().find(|row| times <= row.depth_over_diameter).ok_or_else(wanted)?;
    let source: Source = cited(&row.source, row.seen);
    let factor = |what: &str, value: f64| {
        let says = format!("hole of {} diameters: {what} times {}", figure(times), figure(value));
        Worked::row(Ratio::new(value), says, source.clone())
    };
    Ok(Some([factor("speed", row.speed_factor), factor("feed", row.feed_factor)]))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::handbook::table::audit;

    #[derive(Debug, Deserialize)]
    struct FactorRow {
        table: String,
        argument: f64,
        value: f64,
    }

    #[test]
    fn every_row_loads() {
        for (all, good, first) in
            [audit::<PointRow>(POINTS), audit::<WorkRow>(WORK), audit::<ConstantRow>(CONSTANTS), audit::<DeepRow>(DEEP)]
        {
            assert_eq!(all, good, "{first}");
        }
    }

    #[test]
    fn the_printed_factors_are_powers() {
        let printed = rows::<FactorRow>(include_str!("../../../shared/drilling-f.csv"));
        assert_eq!(printed.len(), 31);
        for row in printed {
            let given = row.argument;
            let factor = match row.table.as_str() {
                "Ff" => feed_factor(&Worked::assumed(MmPerRev::new(given), "printed")),
                _ => torque_factor(&Worked::assumed(Mm::new(given), "printed")),
            };
            assert!((factor.unwrap().number() / row.value - 1.0).abs() < 0.004, "{} {given}", row.table);
        }
    }

    #[test]
    fn a_deep_hole_is_eased_and_a_deeper_one_than_the_table_is_refused() {
        assert_eq!(deep_hole(20.0, 10.0), Ok(None));
        let factors = |depth| deep_hole(depth, 10.0).unwrap().unwrap().map(|factor| factor.number());
        assert_eq!(factors(30.0), [0.9, 0.9]);
        assert_eq!(factors(45.0), [0.7, 0.8]);
        assert!(deep_hole(80.0, 10.0).is_err());
    }

    #[test]
    fn a_material_takes_the_hard_end() {
        assert_eq!(work_factor(&"grey iron".parse().unwrap()).unwrap().number(), 18_000.0);
        assert_eq!(chisel_edge(Point::Split).unwrap().own.number(), 0.001);
        assert!(material_constant(&"cast aluminium".parse().unwrap()).is_ok());
    }
}
