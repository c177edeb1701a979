//! Cutting speeds by material, work and tool: every source's row, and where to begin.

use super::tool_material::ToolMaterial;
use crate::formula;
use crate::handbook::constants::{constant, doubted};
use crate::handbook::kept::{Kept, Name};
use crate::handbook::materials::groups::Material;
use crate::handbook::table::{Groups, cited, rows, seen};
use crate::proof::{Cause, Cited, Mark, Origin, Refusal, Source, Worked};
use crate::quantity::{MPerMin, Mm, MmPerRev, Quantity, Ratio, RevPerMin, figure};
use serde::Deserialize;
use std::sync::LazyLock;

/// For what a speed is asked: a metal, by its name in the table.
type Asked = (Name, Work, ToolMaterial);

/// What a cut is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Work {
    /// Turning, facing or boring, roughing.
    TurnRough,
    /// Turning, facing or boring, finishing.
    TurnFinish,
    /// Drilling.
    Drill,
    /// Reaming.
    Ream,
    /// Tapping by machine.
    Tap,
    /// Milling.
    Mill,
}

impl Work {
    /// Every kind of work.
    pub const ALL: [Self; 6] = [Self::TurnRough, Self::TurnFinish, Self::Drill, Self::Ream, Self::Tap, Self::Mill];

    /// In words.
    pub const fn text(self) -> &'static str {
        match self {
            Self::TurnRough => "rough turning",
            Self::TurnFinish => "finish turning",
            Self::Drill => "drilling",
            Self::Ream => "reaming",
            Self::Tap => "tapping",
            Self::Mill => "milling",
        }
    }

    const fn property(self) -> &'static str {
        match self {
            Self::TurnRough => "turn-vc-rough",
            Self::TurnFinish => "turn-vc-finish",
            Self::Drill => "drill-vc",
            Self::Ream => "ream-vc",
            Self::Tap => "tap-vc",
            Self::Mill => "mill-vc",
        }
    }
}

/// A row of the cutting table.
#[derive(Debug, Deserialize)]
pub struct Row {
    /// What it gives.
    pub property: &'static str,
    /// Tool material, or `any`, or nothing.
    pub tool: &'static str,
    /// Low end.
    pub low: Option<f64>,
    /// High end.
    pub high: Option<f64>,
    /// Unit.
    pub unit: &'static str,
    /// Under which condition.
    pub condition: &'static str,
    /// ceiling, distressed, refuse, alternative, or nothing.
    pub flag: &'static str,
    /// Source keys.
    pub source: &'static str,
    /// How well the source is known.
    #[serde(deserialize_with = "seen")]
    pub seen: Mark,
    /// A remark.
    pub note: &'static str,
}

const CUTTING: &str = include_str!("../../../shared/cutting.csv");

/// By material: a job asks for few.
fn table() -> &'static Groups<Row> {
    static ROWS: LazyLock<Groups<Row>> = LazyLock::new(|| Groups::of(CUTTING, 1));
    &ROWS
}

impl Row {
    /// Where it comes from.
    pub fn source(&self) -> Source {
        cited(self.source, self.seen)
    }

    /// Whether the source was read, in whatever copy.
    pub(crate) fn was_read(&self) -> bool {
        matches!(self.seen, Mark::Read | Mark::ReadDamaged)
    }

    /// Its figure or band with the unit, and its condition.
    pub fn says(&self) -> String {
        let (low, high) = (self.low.unwrap_or(f64::NAN), self.high.unwrap_or(f64::NAN));
        let span = if low == high { figure(low) } else { format!("{} to {}", figure(low), figure(high)) };
        let condition = if self.condition.is_empty() { String::new() } else { format!(" ({})", self.condition) };
        format!("{span} {}{condition}", self.unit)
    }
}

/// Every row of a material, refusals and ceilings too.
pub(crate) fn of_material(material: &Material) -> impl Iterator<Item = &'static Row> {
    table().under(material.id())
}

/// The rows of a property of a material for a tool; a cobalt or coated tool without rows takes those of the plain one.
pub fn rows_of(material: &Material, property: &str, tool: Option<ToolMaterial>) -> Vec<&'static Row> {
    let of = |tool: Option<ToolMaterial>| -> Vec<&'static Row> {
        let holds =
            |row: &&Row| row.property == property && row.low.is_some() && tool.is_none_or(|t| row.tool == t.text());
        of_material(material).filter(holds).collect()
    };
    let plain = match tool {
        Some(ToolMaterial::HssCo) => Some(ToolMaterial::Hss),
        Some(ToolMaterial::CarbideCoated) => Some(ToolMaterial::Carbide),
        _ => None,
    };
    let own = of(tool);
    if own.is_empty() && plain.is_some() { of(plain) } else { own }
}

/// The row to begin with: the slowest that was read (else the slowest remembered), never a ceiling or a distressed figure; and
/// the greatest speed of all rows that may be a start.
fn start_row(material: &Material, work: Work, tool: ToolMaterial) -> Result<(&'static Row, f64), Refusal> {
    let starts: Vec<&Row> =
        rows_of(material, work.property(), Some(tool)).into_iter().filter(|row| row.flag.is_empty()).collect();
    let any_read = starts.iter().any(|row| row.was_read());
    let candidates = starts.iter().copied().filter(|row| row.was_read() || !any_read);
    let low = |row: &Row| row.low.unwrap_or(f64::INFINITY);
    let row = candidates.min_by(|a, b| low(a).total_cmp(&low(b)));
    let row = row.ok_or_else(|| Refusal::NoRow {
        table: "cutting speed",
        wanted: format!("{} in {} with {}", work.text(), material.row().name, tool.text()),
    })?;
    Ok((row, starts.iter().filter_map(|row| row.high).fold(low(row), f64::max)))
}

/// The speed to begin with: the low end of the slowest row that may be a start. The band is that of all such rows. A family
/// begins at the slowest of its members.
///
/// # Errors
/// [`Refusal::NoRow`] where the book has no row for this tool in this material.
pub fn start_speed(material: &Material, work: Work, tool: ToolMaterial) -> Result<Worked<MPerMin>, Refusal> {
    material.worst_of(|member| start_of(member, work, tool), |a, b| b.number().total_cmp(&a.number()))
}

/// Of one metal, which has but one name in the table.
fn start_of(material: &Material, work: Work, tool: ToolMaterial) -> Result<Worked<MPerMin>, Refusal> {
    thread_local!(static STARTS: Kept<Asked, Result<Worked<MPerMin>, Refusal>> = Kept::default());
    let asked = (Name(material.id()), work, tool);
    STARTS.with(|starts| starts.once(asked, || found_start(material, work, tool)))
}

fn found_start(material: &Material, work: Work, tool: ToolMaterial) -> Result<Worked<MPerMin>, Refusal> {
    if tool == ToolMaterial::CarbonSteel && work == Work::Drill {
        let share = constant::<Ratio>("speed-factor-carbon-steel-drill")?;
        return factor_on_speed(&start_of(material, work, ToolMaterial::Hss)?, &share);
    }
    let (row, high) = start_row(material, work, tool)?;
    let low = row.low.unwrap_or(f64::NAN);
    let says = format!(
        "{}, {} with {}: {}, begin at {} m/min",
        material.row().name,
        work.text(),
        tool.text(),
        row.says(),
        figure(low)
    );
    let origin = Origin::Row(Cited { row: says.into(), source: row.source() });
    let begun = Worked::exact(MPerMin::new(low), origin).with_band(low, high);
    doubted(begun, Cause::Named("cutting speed"), row.seen, "")
}

/// The top of the very row that [`start_speed`] begins with, of a family that of its slowest member: a row of one value leaves no
/// room over it.
///
/// # Errors
/// As [`start_speed`].
pub(crate) fn start_top(material: &Material, work: Work, tool: ToolMaterial) -> Result<Worked<MPerMin>, Refusal> {
    if material.family().is_none() {
        return top_of(material, work, tool);
    }
    let members = material.members();
    let begins = members.iter().filter_map(|member| Some((start_of(member, work, tool).ok()?, member)));
    match begins.min_by(|a, b| a.0.number().total_cmp(&b.0.number())) {
        Some((_, slowest)) => top_of(slowest, work, tool),
        None => top_of(material, work, tool),
    }
}

fn top_of(material: &Material, work: Work, tool: ToolMaterial) -> Result<Worked<MPerMin>, Refusal> {
    thread_local!(static TOPS: Kept<Asked, Result<Worked<MPerMin>, Refusal>> = Kept::default());
    let asked = (Name(material.id()), work, tool);
    TOPS.with(|tops| tops.once(asked, || found_top(material, work, tool)))
}

fn found_top(material: &Material, work: Work, tool: ToolMaterial) -> Result<Worked<MPerMin>, Refusal> {
    if tool == ToolMaterial::CarbonSteel && work == Work::Drill {
        let share = constant::<Ratio>("speed-factor-carbon-steel-drill")?;
        return factor_on_speed(&top_of(material, work, ToolMaterial::Hss)?, &share);
    }
    let (row, _) = start_row(material, work, tool)?;
    let top = row.high.or(row.low).unwrap_or(f64::NAN);
    let says = format!("{}, {} with {}: {}", material.row().name, work.text(), tool.text(), row.says());
    Ok(Worked::row(MPerMin::new(top), says, row.source()))
}

/// Every speed row of a material for a work and tool, flags and all.
pub(crate) fn speed_rows(material: &Material, work: Work, tool: Option<ToolMaterial>) -> Vec<&'static Row> {
    rows_of(material, work.property(), tool)
}

/// Every speed row of a material for a work and tool, those without a figure too (a refusal says why).
pub(crate) fn every_speed_row(material: &Material, work: Work, tool: ToolMaterial) -> Vec<&'static Row> {
    let own = speed_rows(material, work, Some(tool));
    let without = of_material(material)
        .filter(|row| row.property == work.property() && row.low.is_none())
        .filter(|row| row.tool == tool.text() || row.tool.is_empty());
    own.into_iter().chain(without).collect()
}

formula! {
    /// Speed of a tool of another metal than the row's.
    factor_on_speed(v: MPerMin = "the speed of the row" in 0.01..=3_000.0, k: Ratio = "the share of the tool's metal" in 0.05..=3.0)
        -> v_t: MPerMin { v * k }
    source Read "naval training text: a carbon steel drill at half the speed of high-speed steel"
}
formula! {
    /// Two factors of a cut together.
    factor_product(a: Ratio = "a factor of the cut" in 0.05..=5.0, b: Ratio = "a factor of the cut" in 0.05..=5.0)
        -> k: Ratio { a * b }
    source CommonPractice "factors of a cut are multiplied"
}
formula! {
    /// The factors of a cut are not taken under a floor.
    factor_floor(k: Ratio = "the factors of the cut" in 0.01..=5.0, least: Ratio = "the floor" in 0.05..=1.0)
        -> k_w: Ratio { max(k, least) }
    source Own "the product of the speed factors is not taken lower"
}

/// Factors of a cut together, not under the floor; without any, one.
///
/// # Errors
/// [`Refusal::Outside`] for a factor that is none.
pub(crate) fn factors_together(factors: &[Worked<Ratio>], floor: &Worked<Ratio>) -> Result<Worked<Ratio>, Refusal> {
    let one = Worked::exact(Ratio::new(1.0), Origin::Assumed("no factor named".into()));
    let [first, rest @ ..] = factors else { return Ok(one) };
    let product = rest.iter().try_fold(first.clone(), |product, factor| factor_product(&product, factor))?;
    factor_floor(&product, floor)
}

#[derive(Debug, Deserialize)]
struct DrillFeedRow {
    over_mm: f64,
    upto_mm: Option<f64>,
    low_mm_rev: f64,
    high_mm_rev: f64,
    source: &'static str,
    #[serde(deserialize_with = "seen")]
    seen: Mark,
}

const DRILL_FEEDS: &str = include_str!("../../../shared/drill-feed.csv");

/// Feed of a drill of so many mm, as a band with its source.
///
/// # Errors
/// [`Refusal::NoRow`] outside the table.
pub fn drill_feed(diameter: f64) -> Result<Worked<MmPerRev>, Refusal> {
    static ROWS: LazyLock<Vec<DrillFeedRow>> = LazyLock::new(|| rows(DRILL_FEEDS));
    let holds = |row: &&DrillFeedRow| diameter > row.over_mm && row.upto_mm.is_none_or(|upto| diameter <= upto);
    let wanted = || Refusal::NoRow { table: "drill feed", wanted: format!("a drill of {} mm", figure(diameter)) };
    let row = ROWS.iter().find(holds).ok_or_else(wanted)?;
    let says = format!("drill of {} mm: {} to {} mm/rev", figure(diameter), row.low_mm_rev, row.high_mm_rev);
    let low = Worked::row(MmPerRev::new(row.low_mm_rev), says, cited(row.source, row.seen));
    Ok(low.with_band(row.low_mm_rev, row.high_mm_rev))
}

formula! {
    /// Spindle speed for a wanted cutting speed.
    spindle_speed(v: MPerMin = "the cutting speed" in 0.01..=3_000.0, d: Mm = "the diameter at the cutting edge" in 0.05..=5_000.0)
        -> n: RevPerMin { 1000.0 * v / (PI * d) }
    source Derived "circumference times turns"
}
formula! {
    /// Cutting speed that a spindle step really gives.
    surface_speed(n: RevPerMin = "the spindle speed" in 0.5..=60_000.0, d: Mm = "the diameter at the cutting edge" in 0.0..=5_000.0)
        -> v: MPerMin { PI * d * n / 1000.0 }
    source Derived "circumference times turns"
}
formula! {
    /// Diameter up to which a spindle step keeps to a cutting speed.
    diameter_for_speed(v: MPerMin = "the cutting speed" in 0.01..=3_000.0, n: RevPerMin = "the spindle speed" in 0.5..=60_000.0)
        -> d: Mm { 1000.0 * v / (PI * n) }
    source Derived "circumference times turns"
}
formula! {
    /// The speed wanted, by the shop's habit and what the cut asks.
    speed_by_factors(v: MPerMin = "the book's speed" in 0.01..=3_000.0, k: Ratio = "the factors of the cut" in 0.1..=2.0,
        habit: Ratio = "the shop's habit" in 0.1..=2.0)
        -> v_w: MPerMin { v * k * habit }
    source CommonPractice "handbook speed times the factors of the cut and the shop's habit"
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_loads() {
        let (all, good, first) = crate::handbook::table::audit::<Row>(CUTTING);
        assert_eq!(all, good, "{first}");
    }

    #[test]
    fn a_start_is_the_slowest_read_row_and_never_a_ceiling() {
        let start = |m: &str, work, tool| start_speed(&m.parse().unwrap(), work, tool).unwrap().number();
        assert_eq!(start("cast aluminium", Work::Drill, ToolMaterial::Hss), 61.0);
        assert_eq!(start("mild steel", Work::TurnFinish, ToolMaterial::Hss), 30.0);
        assert_eq!(start("case-hardened steel", Work::TurnFinish, ToolMaterial::Cbn), 100.0);
    }
}
