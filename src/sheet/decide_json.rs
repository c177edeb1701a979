//! The JSON of what must be done with each part.

use super::words::decide as said;
use crate::plan::decide::{Cure, Decided, Decision, Limit, Order, Row};
use crate::proof::{Keep, Verdict};
use crate::quantity::Unit;
use schemars::JsonSchema;
use serde::Serialize;

/// The version of the shape.
pub const SCHEMA: u32 = 1;

/// Everything that was decided.
#[derive(Serialize, JsonSchema)]
pub struct DecidedOut {
    /// The version of this shape.
    schema: u32,
    /// The names of the jobs, in the order of the files.
    jobs: Vec<String>,
    /// What was decided of each feature.
    rows: Vec<RowOut>,
    /// What is to be had for it, all rows together.
    order: Vec<OrderOut>,
    /// What nobody typed.
    assumed: Vec<String>,
    /// Lines of the log that are not whole, quoted.
    log_faults: Vec<String>,
}

/// One feature of one part.
#[derive(Serialize, JsonSchema)]
struct RowOut {
    /// The part.
    part: String,
    /// The feature.
    feature: String,
    /// What was found, in the unit of the row; nothing where nobody measured it.
    found: Option<f64>,
    /// The doubt of that (k = 2).
    plus_minus: Option<f64>,
    /// Whether the log has it, and not the job.
    as_left: bool,
    /// The unit of the figures of this row.
    unit: Option<Unit>,
    /// What it must be to be used again.
    limits: Vec<LimitOut>,
    /// Least and most of a new part.
    new: Option<[f64; 2]>,
    /// How far inside at the worst end; negative is outside.
    margin: Option<f64>,
    /// What was found, against its limits; nothing where it was not judged.
    verdict: Option<Verdict>,
    /// What is done with it.
    #[schemars(extend("enum" = said::KINDS))]
    decision: &'static str,
    /// The operation that puts it right, where there is one.
    by: Option<String>,
    /// The decision in words.
    says: String,
    /// Why, with figures.
    why: String,
    /// The sheets of what puts it right, by their numbers.
    sheets: Vec<String>,
    /// What is to be had for it.
    order: Vec<OrderOut>,
}

/// A limit of a feature.
#[derive(Serialize, JsonSchema)]
struct LimitOut {
    /// On which side it must stay.
    keep: Keep,
    /// The limit.
    limit: f64,
}

/// Something to be had.
#[derive(Serialize, JsonSchema)]
struct OrderOut {
    /// What it is.
    item: String,
    /// Its size as it is marked.
    size: Option<String>,
    /// How many.
    count: u32,
    /// For which part.
    part: String,
    /// Whether the drawer has it.
    in_drawer: bool,
}

/// The schema of what was decided.
#[must_use]
pub fn schema() -> serde_json::Value {
    schemars::schema_for!(DecidedOut).to_value()
}

/// Puts what was decided in the shape of the JSON.
pub fn output(decided: &Decided) -> DecidedOut {
    DecidedOut {
        schema: SCHEMA,
        jobs: decided.jobs.clone(),
        rows: decided.rows.iter().map(|of| row(decided, of)).collect(),
        order: decided.orders().into_iter().map(order).collect(),
        assumed: decided.assumed.clone(),
        log_faults: decided.log_faults.clone(),
    }
}

fn row(decided: &Decided, row: &Row) -> RowOut {
    let said = said::said(row, decided.print);
    let limit = |limit: &Limit| LimitOut { keep: limit.keep, limit: limit.number };
    RowOut {
        part: row.part.clone(),
        feature: row.feature.clone(),
        found: row.found.map(|found| found.number),
        plus_minus: row.found.map(|found| found.plus_minus),
        as_left: row.found.is_some_and(|found| found.as_left),
        unit: row.found.map(|found| found.unit).or_else(|| row.limits.first().map(|limit| limit.unit)),
        limits: row.limits.iter().map(limit).collect(),
        new: row.new.map(|(low, high)| [low, high]),
        margin: row.margin,
        verdict: row.verdict,
        decision: said::kind(&row.decision),
        by: by(&row.decision),
        says: said.decision,
        why: said.why,
        sheets: row.sheets.clone(),
        order: row.orders.iter().map(order).collect(),
    }
}

fn by(decision: &Decision) -> Option<String> {
    let cure = match decision {
        Decision::Cure(cure) => cure,
        Decision::Doubtful(cure) => cure.as_ref(),
        Decision::Follows(word) => return Some(word.clone()),
        Decision::Reuse | Decision::Measure => return None,
    };
    match cure {
        Cure::Proven(word)
        | Cure::Doubtful(word)
        | Cure::Unplanned(word)
        | Cure::Otherwise(word)
        | Cure::Anew(word)
        | Cure::Failed(word) => Some(word.clone()),
        Cure::Unsaid | Cure::Replace => None,
    }
}

fn order(order: &Order) -> OrderOut {
    let Order { item, size, count, part, in_drawer } = order.clone();
    OrderOut { item, size, count, part, in_drawer }
}
