//! The JSON's outer shape. What an operation says back tells itself; here it is put in its frame. Units are the type's own,
//! whatever the shop prints in.

use super::{ShakenOut, printed};
use crate::operations::Answer;
use crate::plan::{Change, Plan, Planned};
use crate::proof::Verdict;
use schemars::JsonSchema;
use serde::Serialize;

/// The version of the shape.
pub const SCHEMA: u32 = 3;

/// Everything that a run says.
#[derive(Serialize, JsonSchema)]
pub struct Output {
    /// The version of this shape.
    schema: u32,
    /// What held before anything was logged and holds no more.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    no_longer_holds: Vec<Change>,
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
    verdict: Verdict,
    /// What the stamp adds to the verdict.
    #[serde(skip_serializing_if = "Option::is_none")]
    stamp_note: Option<String>,
    /// The answer, the cautions of its set-ups among its own.
    #[serde(flatten)]
    answer: Answer<String>,
    /// The answer shaken, where that was asked for.
    #[serde(skip_serializing_if = "Option::is_none")]
    shaken: Option<ShakenOut>,
}

/// Puts several plans in the outer shape.
pub fn output(plans: &[Plan]) -> Output {
    let framed = |plan: Plan| {
        let job = plan.job;
        plan.operations.into_iter().map(move |planned| operation(job.clone(), planned))
    };
    let no_longer_holds = plans.iter().flat_map(|plan| plan.no_longer.clone()).collect();
    Output {
        schema: SCHEMA,
        no_longer_holds,
        operations: printed::printed(plans).into_owned().into_iter().flat_map(framed).collect(),
    }
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

fn operation(job: String, mut planned: Planned) -> OperationOut {
    planned.answer.cautions = planned.all_cautions();
    OperationOut {
        operation: planned.word,
        job,
        part: planned.address.part.clone(),
        address: planned.address.to_string(),
        verdict: planned.verdict,
        stamp_note: planned.stamp_note,
        answer: planned.answer,
        shaken: None,
    }
}
