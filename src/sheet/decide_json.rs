//! The JSON of what must be done with each part.

use super::words::decide as said;
use crate::plan::decide::{Cure, Decided, Decision, Limit, Order, Row};
use crate::proof::{Keep, Verdict};
use crate::quantity::Unit;
use serde::Serialize;

/// The version of the shape.
pub const SCHEMA: u32 = 1;

/// Everything that was decided.
#[derive(Serialize)]
pub struct DecidedOut {
    /// The version of this shape.
    schema: u32,
    jobs: Vec<String>,
    rows: Vec<RowOut>,
    order: Vec<OrderOut>,
    assumed: Vec<String>,
}

#[derive(Serialize)]
struct RowOut {
    part: String,
    feature: String,
    found: Option<f64>,
    plus_minus: Option<f64>,
    as_left: bool,
    unit: Option<Unit>,
    limits: Vec<LimitOut>,
    new: Option<[f64; 2]>,
    /// How far inside at the worst end; negative is outside.
    margin: Option<f64>,
    verdict: Option<Verdict>,
    /// reuse, doubtful, measure, put-right, put-right-doubtful, plan-first or replace.
    decision: &'static str,
    /// The operation that puts it right, where there is one.
    by: Option<String>,
    says: String,
    why: String,
    sheets: Vec<String>,
    order: Vec<OrderOut>,
}

#[derive(Serialize)]
struct LimitOut {
    keep: Keep,
    limit: f64,
}

#[derive(Serialize)]
struct OrderOut {
    item: String,
    size: Option<String>,
    count: u32,
    part: String,
    in_drawer: bool,
}

/// Puts what was decided in the shape of the JSON.
pub fn output(decided: &Decided) -> DecidedOut {
    DecidedOut {
        schema: SCHEMA,
        jobs: decided.jobs.clone(),
        rows: decided.rows.iter().map(|of| row(decided, of)).collect(),
        order: decided.orders().into_iter().map(order).collect(),
        assumed: decided.assumed.clone(),
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
        Cure::Proven(word) | Cure::Doubtful(word) | Cure::Unplanned(word) => Some(word.clone()),
        Cure::Replace => None,
    }
}

fn order(order: &Order) -> OrderOut {
    let Order { item, size, count, part, in_drawer } = order.clone();
    OrderOut { item, size, count, part, in_drawer }
}
