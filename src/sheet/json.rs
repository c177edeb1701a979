//! The JSON's outer shape: written here and nowhere else. Units are the type's own, whatever the shop prints in.

use super::{ShakenOut, printed};
use crate::operations::{Answer, Value};
use crate::plan::{Plan, Planned, PlannedSetUp, SaidAlternative, SaidCheck};
use crate::proof::{Keep, Verdict, Weight};
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::BTreeMap;

/// The version of the shape.
pub const SCHEMA: u32 = 2;

/// Everything that a run says.
#[derive(Serialize, JsonSchema)]
pub struct Output {
    /// The version of this shape.
    schema: u32,
    /// The operations, in the order of the files.
    operations: Vec<OperationOut>,
}

#[derive(Serialize, JsonSchema)]
struct OperationOut {
    /// Its word.
    operation: String,
    /// The job that it belongs to.
    job: String,
    /// The part.
    part: String,
    /// Its address in the job.
    address: String,
    /// proven, doubtful or fails.
    verdict: String,
    /// What the stamp adds to the verdict.
    #[serde(skip_serializing_if = "Option::is_none")]
    stamp_note: Option<String>,
    /// Values by name.
    values: BTreeMap<String, ValueOut>,
    /// Words chosen by name.
    choices: BTreeMap<String, ChoiceOut>,
    /// What else was worked, in the order worked.
    alternatives: Vec<AlternativeOut>,
    /// Every check that the operation declares, made or not.
    checks: Vec<CheckOut>,
    /// Set-ups in working order.
    set_ups: Vec<SetUpOut>,
    /// What was assumed.
    assumed: Vec<String>,
    /// Cautions.
    cautions: Vec<String>,
    /// What the shop lacks.
    missing: Vec<String>,
    /// What could not be worked out, or null.
    refused: Option<String>,
    /// The answer shaken, where that was asked for.
    #[serde(skip_serializing_if = "Option::is_none")]
    shaken: Option<ShakenOut>,
}

/// A figure with its unit, doubt, source and working.
#[derive(Serialize, JsonSchema)]
pub struct ValueOut {
    value: f64,
    unit: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    plus_minus: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    low: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    high: Option<f64>,
    means: String,
    source: String,
    working: Vec<String>,
    /// Whether it rests on a figure that was remembered and not read.
    from_memory: bool,
}

#[derive(Serialize, JsonSchema)]
struct ChoiceOut {
    chosen: String,
    why: String,
}

#[derive(Serialize, JsonSchema)]
struct AlternativeOut {
    name: String,
    verdict: String,
    values: BTreeMap<String, ValueOut>,
    checks: Vec<CheckOut>,
    chosen: bool,
    why_not: Option<String>,
    refused: Option<String>,
}

#[derive(Serialize, JsonSchema)]
struct CheckOut {
    check: String,
    /// The value that is judged, where it has a name.
    #[serde(skip_serializing_if = "Option::is_none")]
    about: Option<String>,
    /// proven, doubtful, fails, not-checked, does-not-apply or no-shop.
    state: String,
    /// must, may or advice: what it counts for.
    weight: String,
    asks: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    value: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    plus_minus: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    limit: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    keep: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    margin: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    unit: Option<String>,
    /// The keys that would let it be made, where it was not.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    missing: Vec<String>,
    /// Whether it rests on a figure that was remembered and not read.
    from_memory: bool,
    #[serde(skip_serializing_if = "Option::is_none")]
    remedy: Option<String>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    remedies: Vec<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    line: Option<u32>,
}

#[derive(Serialize, JsonSchema)]
struct SetUpOut {
    id: String,
    title: String,
    machine: String,
    hold: Vec<String>,
    steps: Vec<String>,
    cuts: Vec<CutOut>,
    minutes: f64,
    unattended: f64,
    needs: Vec<String>,
    leaves: Vec<String>,
}

#[derive(Serialize, JsonSchema)]
struct CutOut {
    what: String,
    tool: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    spindle_rev_min: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    feed_mm_rev: Option<f64>,
    passes: Vec<PassOut>,
    minutes: f64,
}

#[derive(Serialize, JsonSchema)]
struct PassOut {
    kind: String,
    depth_mm: f64,
    #[serde(skip_serializing_if = "Option::is_none")]
    dial: Option<String>,
}

/// Puts several plans in the outer shape.
pub fn output(plans: &[Plan]) -> Output {
    let operations = printed::printed(plans)
        .iter()
        .flat_map(|plan| plan.operations.iter().map(|planned| operation(plan, planned)))
        .collect();
    Output { schema: SCHEMA, operations }
}

impl Output {
    /// The same with its operations shaken, in their order.
    pub fn shaken(mut self, shaken: Vec<ShakenOut>) -> Self {
        for (operation, shaken) in self.operations.iter_mut().zip(shaken) {
            operation.shaken = Some(shaken);
        }
        self
    }
}

/// The JSON Schema of the outer shape.
pub fn schema() -> serde_json::Value {
    schemars::schema_for!(Output).to_value()
}

fn operation(plan: &Plan, planned: &Planned) -> OperationOut {
    let choice =
        |c: &crate::plan::SaidChoice| (c.name.clone(), ChoiceOut { chosen: c.chosen.clone(), why: c.why.clone() });
    OperationOut {
        operation: planned.word.clone(),
        job: plan.job.clone(),
        part: planned.address.part.clone(),
        address: planned.address.to_string(),
        verdict: word(planned.verdict),
        stamp_note: planned.stamp_note.clone(),
        values: values(&planned.answer),
        choices: planned.choices.iter().map(choice).collect(),
        alternatives: planned.alternatives.iter().map(alternative).collect(),
        checks: planned.checks.iter().map(check).collect(),
        set_ups: planned.set_ups.iter().map(set_up).collect(),
        assumed: planned.assumed.clone(),
        cautions: all_cautions(planned),
        missing: planned.missing.clone(),
        refused: planned.refused.clone(),
        shaken: None,
    }
}

fn all_cautions(planned: &Planned) -> Vec<String> {
    let mut all = planned.cautions.clone();
    for caution in planned.set_ups.iter().flat_map(|set_up| &set_up.cautions) {
        if !all.contains(caution) {
            all.push(caution.clone());
        }
    }
    all
}

fn word(verdict: Verdict) -> String {
    verdict.text().into()
}

fn values(answer: &Answer) -> BTreeMap<String, ValueOut> {
    answer.values.iter().map(|v| (v.key.to_owned(), value(v))).collect()
}

/// A value in the outer shape.
pub fn value(value: &Value) -> ValueOut {
    ValueOut {
        value: value.number,
        unit: value.unit.text().into(),
        plus_minus: (value.plus_minus > 0.0).then_some(value.plus_minus),
        low: value.band.map(|band| band.0),
        high: value.band.map(|band| band.1),
        means: value.means.into(),
        source: value.origin.source(),
        working: value.origin.working(),
        from_memory: value.from_memory,
    }
}

fn alternative(alternative: &SaidAlternative) -> AlternativeOut {
    AlternativeOut {
        name: alternative.name.clone(),
        verdict: word(alternative.verdict),
        values: values(&alternative.answer),
        checks: alternative.checks.iter().map(check).collect(),
        chosen: alternative.chosen,
        why_not: alternative.why_not.clone(),
        refused: alternative.refused.clone(),
    }
}

fn check(check: &SaidCheck) -> CheckOut {
    let judged = check.judged.as_ref();
    CheckOut {
        check: check.check.clone(),
        about: check.about.map(Into::into),
        asks: check.asks.clone(),
        state: check.state.text().into(),
        weight: weight(check.weight).into(),
        value: judged.map(|j| j.got),
        plus_minus: judged.map(|j| j.doubt).filter(|doubt| *doubt > 0.0),
        limit: judged.map(|j| j.limit),
        keep: judged.map(|j| if j.keep == Keep::AtLeast { "at least".into() } else { "at most".into() }),
        margin: judged.map(|j| j.margin),
        unit: judged.map(|j| j.unit.text().into()),
        missing: check.missing.clone(),
        from_memory: check.from_memory,
        remedy: check.remedy.clone(),
        remedies: check.remedies.clone(),
        line: check.place.map(|place| place.line),
    }
}

const fn weight(weight: Weight) -> &'static str {
    match weight {
        Weight::Must => "must",
        Weight::May => "may",
        Weight::Advice => "advice",
    }
}

fn set_up(set_up: &PlannedSetUp) -> SetUpOut {
    let cut = |step: &crate::plan::SaidStep| {
        let cut = step.cut.as_ref()?;
        let pass = |p: &crate::operations::Pass| PassOut {
            kind: p.kind.text().into(),
            depth_mm: p.depth,
            dial: p.dial.clone(),
        };
        Some(CutOut {
            what: step.text.clone(),
            tool: cut.tool.clone(),
            spindle_rev_min: cut.spindle,
            feed_mm_rev: cut.feed,
            passes: cut.passes.iter().map(pass).collect(),
            minutes: cut.minutes,
        })
    };
    SetUpOut {
        id: set_up.id.clone(),
        title: set_up.title.clone(),
        machine: set_up.machine.clone(),
        hold: set_up.hold.clone(),
        steps: set_up.steps.iter().map(|step| step.text.clone()).collect(),
        cuts: set_up.steps.iter().filter_map(cut).collect(),
        minutes: set_up.minutes,
        unattended: set_up.unattended,
        needs: set_up.needs.iter().map(ToString::to_string).collect(),
        leaves: set_up.leaves.iter().map(ToString::to_string).collect(),
    }
}
