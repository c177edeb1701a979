//! A face under a milling cutter: the chip of a tooth, the force of those that cut at once, the stroke, and what the tram of the
//! spindle leaves of flat and square.

use super::speeds::rows_of;
use crate::formula;
use crate::handbook::constants::doubted;
use crate::handbook::materials::groups::Material;
use crate::handbook::{ToolMaterial, constants};
use crate::in_order::InOrder;
use crate::proof::{Cause, Refusal, Worked};
use crate::quantity::{Mm, Newton, Quantity, Ratio, Stress, figure};

formula! {
    /// Mean chip of a tooth.
    mean_chip(f_z: Mm = "the feed of a tooth" in 0.0005..=5.0, x: Ratio = "the width of cut over the cutter" in 0.001..=1.0)
        -> h: Mm { f_z * sqrt(x) }
    source Read "cutter makers' pages: hm = fz sqrt(ae/D)"
}
formula! {
    /// Teeth that cut at once, at most: the arc of the cut is never over a half turn times the width over the cutter.
    teeth_in_cut(z: Ratio = "the teeth" in 1.0..=100.0, x: Ratio = "the width of cut over the cutter" in 0.001..=1.0)
        -> z_e: Ratio { max(1.0, z * x / 2.0) }
    source Derived "geometry: the arc is 2 arcsin x, which is never over pi x"
}
formula! {
    /// Force of all teeth that cut at once.
    force_of_teeth(F: Newton = "the force of a tooth" in 0.0..=1e6, z_e: Ratio = "the teeth that cut" in 1.0..=100.0)
        -> F_z: Newton { F * z_e }
    source Derived "as if all pushed one way"
}
formula! {
    /// Specific force of a worn edge.
    worn_force(k_c: Stress = "the specific force" in 20.0..=200_000.0, k_w: Ratio = "the wear factor" in 0.5..=3.0)
        -> k: Stress { k_c * k_w }
    source FromMemory "Tschätsch: so much more than a sharp edge"
}
formula! {
    /// Stroke of the table over a face, the cutter wholly in and wholly out.
    stroke(L: Mm = "the face" in 0.0..=10_000.0, D: Mm = "the cutter" in 0.1..=500.0)
        -> L_s: Mm { L + D }
    source Read "cutter makers' pages: the length of the work and the cutter together"
}
formula! {
    /// The same with what it runs in and out.
    table_way(L_s: Mm = "the stroke" in 0.0..=11_000.0, a: Mm = "the approach" in 0.0..=100.0, o: Mm = "the overrun" in 0.0..=100.0)
        -> L_t: Mm { L_s + a + o }
    source Derived "approach and overrun added"
}
formula! {
    /// How hollow a cutter leaves its track where the spindle leans along the feed.
    hollow_by_tram(e: Mm = "what the tram reads" in 0.0..=10.0, s: Mm = "the circle that it was swept on" in 1.0..=2_000.0,
        D: Mm = "the cutter" in 0.1..=500.0, w: Mm = "the width of the track" in 0.0..=500.0)
        -> h: Mm { e / s * (D - sqrt(max(0.0, sq(D) - sq(w)))) / 2.0 }
    source Derived "plane geometry: the low edge of the leaning circle over the chord"
}
formula! {
    /// How far a spindle that leans across the feed stands over so much width.
    slope_by_tram(e: Mm = "what the tram reads" in 0.0..=10.0, s: Mm = "the circle that it was swept on" in 1.0..=2_000.0,
        w: Mm = "the width" in 0.0..=10_000.0)
        -> x: Mm { e / s * w }
    source Derived "plane geometry"
}
formula! {
    /// Two faults of a face together.
    faults_together(a: Mm = "a fault" in 0.0..=1_000.0, b: Mm = "another" in 0.0..=1_000.0)
        -> t: Mm { a + b }
    source Derived "both one way"
}

/// Feed of a tooth for a cutter of so many mm: of steel tools between the rows of the table, which name their cutters; of carbide a
/// share of the cutter, none larger than the largest of those rows.
///
/// # Errors
/// [`Refusal::NoRow`] where the book has none.
pub fn feed_of_a_tooth(material: &Material, tool: ToolMaterial, cutter: f64) -> Result<Worked<Mm>, Refusal> {
    material.worst_of(|member| feed_of(member, tool, cutter), |a, b| b.number().total_cmp(&a.number()))
}

fn feed_of(material: &Material, tool: ToolMaterial, cutter: f64) -> Result<Worked<Mm>, Refusal> {
    let lacking =
        || Refusal::NoRow { table: "feed of a tooth", wanted: format!("{} with {}", material.row().name, tool.text()) };
    let rows: Vec<_> = rows_of(material, "mill-fz", Some(tool)).into_iter().filter(|row| row.flag.is_empty()).collect();
    let largest = constants::row("mill-feed-largest-cutter")?.value;
    if let Some(row) = rows.iter().find(|row| row.unit == "x D") {
        let share = row.low.unwrap_or(f64::NAN);
        let feed = share * cutter.min(largest);
        let says = format!("{}, feed of a tooth: {}, cutter {} mm", material.row().name, row.says(), figure(cutter));
        return doubted(Worked::row(Mm::new(feed), says, row.source()), Cause::Named("feed of a tooth"), row.seen, "");
    }
    let mut sized: Vec<_> = rows.iter().filter_map(|row| Some((cutter_of(row.condition)?, *row))).collect();
    sized.order_by(|a, b| a.0.total_cmp(&b.0));
    let (first, last) = (sized.first().ok_or_else(lacking)?, sized.last().ok_or_else(lacking)?);
    let of = |at: &(f64, &super::speeds::Row)| at.1.low.unwrap_or(f64::NAN);
    let share = if last.0 > first.0 { ((cutter - first.0) / (last.0 - first.0)).clamp(0.0, 1.0) } else { 0.0 };
    let feed = of(first) + share * (of(last) - of(first));
    let says = format!(
        "{}, feed of a tooth: {} and {}, cutter {} mm",
        material.row().name,
        first.1.says(),
        last.1.says(),
        figure(cutter)
    );
    let worse = if first.1.was_read() { last.1 } else { first.1 };
    doubted(Worked::row(Mm::new(feed), says, worse.source()), Cause::Named("feed of a tooth"), worse.seen, "")
}

/// The cutter that a row of the table names: `end mill D over 25 mm`.
fn cutter_of(condition: &str) -> Option<f64> {
    let (_, after) = condition.split_once("end mill D ")?;
    after.trim_start_matches("over ").split_whitespace().next()?.parse().ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn exact<Q: Quantity>(number: f64) -> Worked<Q> {
        Worked::assumed(Q::new(number), "given")
    }

    /// Every row of a steel cutter names its size, or says that it is a face mill.
    #[test]
    fn every_row_of_a_steel_cutter_is_found() {
        for material in Material::all() {
            for row in rows_of(&material, "mill-fz", Some(ToolMaterial::Hss)) {
                assert!(cutter_of(row.condition).is_some() || row.condition.contains("face mill"), "{}", row.says());
            }
        }
    }

    /// Cast aluminium: 0.076 at 6.35 mm, 0.229 from 25 mm; halfway between, halfway.
    #[test]
    fn a_feed_lies_between_the_rows() {
        let feed = |d| feed_of_a_tooth(&"al-cast".parse().unwrap(), ToolMaterial::Hss, d).unwrap().number();
        assert!((feed(6.35) - 0.076).abs() < 1e-9 && (feed(3.0) - 0.076).abs() < 1e-9);
        assert!((feed(40.0) - 0.229).abs() < 1e-9);
        assert!((feed(15.675) - 0.1525).abs() < 1e-6, "{}", feed(15.675));
        let carbide = |d| feed_of_a_tooth(&"al-cast".parse().unwrap(), ToolMaterial::Carbide, d).unwrap().number();
        assert!(carbide(60.0) <= carbide(25.0) + 1e-12);
    }

    /// A spindle that leans 0.1 in 200: a track as wide as its cutter of 50 is hollow by 0.0125, one of 30 by 0.0025.
    #[test]
    fn a_leaning_spindle_leaves_a_hollow() {
        let hollow = |w| hollow_by_tram(&exact(0.1), &exact(200.0), &exact(50.0), &exact(w)).unwrap().number();
        assert!((hollow(50.0) - 0.0125).abs() < 1e-12);
        assert!((hollow(30.0) - 0.0025).abs() < 1e-12);
        assert_eq!(hollow(0.0), 0.0);
    }
}
