//! What the book holds of an insert hole beyond its formulas: upper limits, drills, lengths, leads, makers' length tables.

use super::lead::Lead;
use super::series::Thread;
use crate::formula;
use crate::handbook::table::{Groups, cited, rows, seen, seen_or_none};
use crate::proof::{Cause, Mark, Refusal, Source, Worked};
use crate::quantity::{Mm, Quantity, Ratio, by_drawer, figure, metric_drill, size_by_drawer};
use serde::Deserialize;
use std::sync::LazyLock;

/// A row of the table of inserts; lengths in mm.
#[derive(Debug, Deserialize)]
pub struct InsertRow {
    thread: String,
    family: String,
    pitch_max_mm: Option<f64>,
    minor_max_mm: Option<f64>,
    pitch_doubt_mm: Option<f64>,
    minor_doubt_mm: Option<f64>,
    drill_mm: Option<f64>,
    drill_name: String,
    computed_drill_aluminium_mm: Option<f64>,
    source: String,
    #[serde(deserialize_with = "seen")]
    seen: Mark,
    drill_source: String,
    #[serde(deserialize_with = "seen_or_none")]
    drill_seen: Option<Mark>,
    /// A remark.
    pub note: String,
}

const INSERTS: &str = include_str!("../../../shared/inserts.csv");

/// By thread: a job asks for few.
fn table() -> &'static Groups<InsertRow> {
    static ROWS: LazyLock<Groups<InsertRow>> = LazyLock::new(|| Groups::of(INSERTS, 1));
    &ROWS
}

/// The row of a thread's insert.
///
/// # Errors
/// [`Refusal::NoRow`] where the book has no insert of that thread.
pub fn row(thread: Thread) -> Result<&'static InsertRow, Refusal> {
    let wanted = || Refusal::NoRow { table: "wire thread insert", wanted: thread.name().into() };
    table().under(thread.name()).next().ok_or_else(wanted)
}

impl InsertRow {
    /// Vintage forms have no read table: doubtful on every sheet.
    pub fn doubtful(&self) -> bool {
        !matches!(self.family.as_str(), "metric" | "inch")
    }

    /// Greatest pitch diameter of the hole; a vintage form has no read limit and takes one by analogy.
    ///
    /// # Errors
    /// [`Refusal::NoRow`] where a form with tables lacks the figure.
    pub fn pitch_max(&self, least: &Worked<Mm>, pitch: &Worked<Mm>) -> Result<Worked<Mm>, Refusal> {
        match self.pitch_max_mm {
            None if self.doubtful() => analogous_pitch_max(least, pitch),
            number => {
                let cause = Cause::Named("greatest pitch diameter of the insert hole");
                let limit = self.upper(number, "greatest pitch diameter of the hole", least)?;
                Ok(limit.with_doubt(cause, self.pitch_doubt_mm.unwrap_or(0.0)))
            }
        }
    }

    /// Greatest minor diameter of the hole; as [`Self::pitch_max`].
    ///
    /// # Errors
    /// As [`Self::pitch_max`].
    pub(crate) fn minor_max(&self, least: &Worked<Mm>, pitch: &Worked<Mm>) -> Result<Worked<Mm>, Refusal> {
        match self.minor_max_mm {
            None if self.doubtful() => analogous_minor_max(least, pitch),
            number => {
                let cause = Cause::Named("greatest minor diameter of the insert hole");
                let limit = self.upper(number, "greatest minor diameter of the hole", least)?;
                Ok(limit.with_doubt(cause, self.minor_doubt_mm.unwrap_or(0.0)))
            }
        }
    }

    fn upper(&self, number: Option<f64>, what: &'static str, least: &Worked<Mm>) -> Result<Worked<Mm>, Refusal> {
        match number.filter(|n| *n >= least.number()) {
            Some(n) => Ok(Worked::row(
                Mm::new(n),
                format!("insert hole {}: {what} {} mm", self.thread, figure(n)),
                self.source(),
            )),
            None => Err(Refusal::NoRow { table: what, wanted: self.thread.clone() }),
        }
    }

    /// The drill of the table that lies inside the minor diameter's limits; the two columns disagree in places.
    ///
    /// # Errors
    /// [`Refusal::NoRow`] where neither does.
    pub fn drill(&self, least: &Worked<Mm>, most: &Worked<Mm>) -> Result<Worked<Mm>, Refusal> {
        let inside = |d: &f64| *d >= least.number() - 1e-9 && *d <= most.number() + 1e-9;
        // A drill with a name has the size of its drawer, which the list in millimetres rounds.
        let drawer = size_by_drawer(&self.drill_name).or(self.drill_mm);
        let listed = drawer.filter(inside).or(self.drill_mm.filter(inside)).zip(self.drill_seen);
        let source = |mark| cited(&self.drill_source, mark);
        let (drill, source) = match (listed, self.computed_drill_aluminium_mm.filter(inside)) {
            (Some((drill, mark)), _) => (drill, source(mark)),
            (None, Some(drill)) => {
                (drill, Source::fixed("least minor diameter and a quarter of its tolerance, rounded up", Mark::Own))
            }
            (None, None) if self.doubtful() => {
                let bare = "a size to buy: what the limits lack in surety, the verdict of the drill carries";
                let middle = middle_of_limits(&least.nominal(bare), &most.nominal(bare))?;
                // Nobody sells the middle itself.
                let sold = metric_drill(middle.number());
                return Ok(match inside(&sold) {
                    true => middle
                        .scaled(sold / middle.number(), "to the next twentieth of a millimetre, as drills are sold"),
                    false => middle,
                });
            }
            (None, None) => {
                return Err(Refusal::NoRow {
                    table: "drill inside the limits of the insert hole",
                    wanted: self.thread.clone(),
                });
            }
        };
        let called = self.drill_called().map_or_else(String::new, |name| format!("{name}, "));
        let says = format!("insert hole {}: drill {called}{} mm", self.thread, figure(drill));
        Ok(Worked::row(Mm::new(drill), says, source))
    }

    /// The drill of the list by the name on its drawer, where it has one.
    pub(crate) fn drill_called(&self) -> Option<String> {
        by_drawer(&self.drill_name)
    }

    fn source(&self) -> Source {
        cited(&self.source, self.seen)
    }
}

formula! {
    /// Greatest pitch diameter of a vintage insert hole: the tolerance of the metric holes is about a tenth of the pitch.
    analogous_pitch_max(D2: Mm = "the least pitch diameter" in 0.5..=100.0, P: Mm = "the pitch" in 0.2..=6.0)
        -> D2_max: Mm { D2 + 0.10 * P }
    source Own "by analogy with the metric insert holes M6 to M12: 0.09 P to 0.12 P"
}
formula! {
    /// Greatest minor diameter of a vintage insert hole: the tolerance of the metric holes is about 0.17 of the pitch.
    analogous_minor_max(D1: Mm = "the least minor diameter" in 0.5..=100.0, P: Mm = "the pitch" in 0.2..=6.0)
        -> D1_max: Mm { D1 + 0.17 * P }
    source Own "by analogy with the metric insert holes M6 to M12: 0.15 P to 0.19 P"
}
formula! {
    /// Drill of a vintage insert hole: the middle of its limits.
    middle_of_limits(D1: Mm = "the least minor diameter" in 0.5..=100.0, D1_max: Mm = "the greatest minor diameter" in 0.5..=100.0)
        -> drill: Mm { (D1 + D1_max) / 2.0 }
    source Own "no drill list was read for this form"
}

/// A row of the table of insert rules.
#[derive(Debug, Deserialize)]
pub struct RuleRow {
    /// Its name.
    pub rule: String,
    /// The figure.
    pub value: f64,
    /// What it counts: pitches, diameters, millimetres, degrees.
    pub unit: String,
    source: String,
    #[serde(deserialize_with = "seen")]
    seen: Mark,
    /// A remark.
    pub note: String,
}

impl RuleRow {
    /// Where it comes from.
    pub fn source(&self) -> Source {
        cited(&self.source, self.seen)
    }
}

const RULES: &str = include_str!("../../../shared/insert-rules.csv");

/// Every rule of inserts.
pub fn rules() -> &'static [RuleRow] {
    static ROWS: LazyLock<Vec<RuleRow>> = LazyLock::new(|| rows(RULES));
    &ROWS
}

/// A rule of the table of insert rules, in pitches or diameters.
///
/// # Errors
/// [`Refusal::NoRow`] where the table has no such rule.
pub fn rule(name: &'static str) -> Result<Worked<Ratio>, Refusal> {
    let row = rules()
        .iter()
        .find(|row| row.rule == name)
        .ok_or_else(|| Refusal::NoRow { table: "insert rule", wanted: name.into() })?;
    let says = format!("{}: {} {}", name.replace('-', " "), figure(row.value), row.unit);
    Ok(Worked::row(Ratio::new(row.value), says, cited(&row.source, row.seen)))
}

#[derive(Debug, Deserialize)]
struct LeadRow {
    standard: String,
    lead: String,
    threads_high: f64,
    source: String,
    #[serde(deserialize_with = "seen")]
    seen: Mark,
}

impl Lead {
    /// How many threads the lead of an insert tap has.
    ///
    /// # Errors
    /// [`Refusal::NoRow`] where the table lacks it.
    pub fn threads(self) -> Result<Worked<Ratio>, Refusal> {
        static ROWS: LazyLock<Vec<LeadRow>> = LazyLock::new(|| rows(include_str!("../../../shared/tap-leads.csv")));
        let row = ROWS.iter().find(|row| row.standard == "insert tap" && row.lead == self.text());
        let row = row.ok_or_else(|| Refusal::NoRow { table: "lead of an insert tap", wanted: self.text().into() })?;
        let says = format!("insert tap, {} lead: {} threads", self.text(), figure(row.threads_high));
        Ok(Worked::row(Ratio::new(row.threads_high), says, cited(&row.source, row.seen)))
    }
}

#[derive(Debug, Deserialize)]
struct LengthRow {
    table: String,
    parent_low_mpa: Option<f64>,
    parent_high_mpa: Option<f64>,
    screw_class: String,
    screw_tensile_mpa: Option<f64>,
    length_over_d: Option<f64>,
    source: String,
    #[serde(deserialize_with = "seen")]
    seen: Mark,
}

fn lengths() -> &'static [LengthRow] {
    static ROWS: LazyLock<Vec<LengthRow>> = LazyLock::new(|| rows(include_str!("../../../shared/insert-lengths.csv")));
    &ROWS
}

/// The length that one maker's table asks by the parent's tensile strength and the screw's class; a class between columns
/// takes the next stronger.
pub(crate) fn by_tensile(parent: f64, class: &str) -> Option<Worked<Ratio>> {
    let wanted: f64 = class.parse().ok()?;
    let holds = |row: &&LengthRow| {
        row.table == "by-tensile"
            && row.parent_low_mpa.unwrap_or(0.0) <= parent
            && row.parent_high_mpa.is_none_or(|high| parent < high)
            && row.screw_class.parse::<f64>().is_ok_and(|class| class >= wanted)
    };
    let row = lengths().iter().filter(holds).min_by(|a, b| class_of(a).total_cmp(&class_of(b)))?;
    row.asked(&format!("parent {} MPa tensile, screw class {}", figure(parent), row.screw_class))
}

fn class_of(row: &LengthRow) -> f64 {
    row.screw_class.parse().unwrap_or(f64::INFINITY)
}

/// The length that another maker's table asks by the parent's shear strength and the screw's tensile strength; between
/// columns the next stronger screw and the next weaker parent.
pub(crate) fn by_shear(parent: f64, screw: f64) -> Option<Worked<Ratio>> {
    let all = || lengths().iter().filter(|row| row.table == "by-shear");
    let weaker = all().filter_map(|row| row.parent_low_mpa).filter(|p| *p <= parent).max_by(f64::total_cmp)?;
    let stronger = all().filter_map(|row| row.screw_tensile_mpa).filter(|s| *s >= screw).min_by(f64::total_cmp)?;
    let row = all().find(|row| row.parent_low_mpa == Some(weaker) && row.screw_tensile_mpa == Some(stronger))?;
    row.asked(&format!("parent {} MPa shear, screw {} MPa", figure(weaker), figure(stronger)))
}

impl LengthRow {
    fn asked(&self, basis: &str) -> Option<Worked<Ratio>> {
        let asked = self.length_over_d?;
        Some(Worked::row(Ratio::new(asked), format!("{basis}: {}D", figure(asked)), cited(&self.source, self.seen)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::handbook::table::audit;

    #[test]
    fn every_row_loads() {
        for (all, good, first) in [
            audit::<InsertRow>(INSERTS),
            audit::<RuleRow>(RULES),
            audit::<LeadRow>(include_str!("../../../shared/tap-leads.csv")),
            audit::<LengthRow>(include_str!("../../../shared/insert-lengths.csv")),
        ] {
            assert_eq!(all, good, "{first}");
        }
    }

    #[test]
    fn every_insert_is_of_a_thread_of_the_book() {
        for row in table().wanted(|_| true) {
            assert!(row.thread.parse::<Thread>().is_ok_and(|thread| thread.name() == row.thread), "{}", row.thread);
        }
    }

    #[test]
    fn between_columns_the_stronger_screw_and_the_weaker_parent_count() {
        assert_eq!(by_shear(90.0, 400.0).unwrap().number(), 2.5);
        assert_eq!(by_tensile(150.0, "8.8").unwrap().number(), 2.0);
    }
}
