//! One difference between two plans of a job.

use schemars::JsonSchema;
use serde::Serialize;

/// What kind of difference it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum ChangeKind {
    /// A figure that was not there before.
    Added,
    /// A figure that is there no more.
    Gone,
    /// A figure that is printed otherwise.
    Figure,
    /// A check that came out otherwise.
    Check,
    /// Another choice.
    Chosen,
    /// Something was fitted that would not be taken now.
    Fitted,
    /// By what was left, metal still stands that was to go.
    Unfinished,
    /// Work went on, and what it rests on was not written down.
    Passed,
}

/// One difference.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Change {
    /// What kind it is.
    pub kind: ChangeKind,
    /// Of which operation, and which figure, check or choice of it.
    pub address: String,
    /// As it was.
    pub old: String,
    /// As it is.
    pub new: String,
    /// The entry of the log that is the nearest cause.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub entry: Option<u32>,
    /// The job in whose log that entry stands, where several jobs were given together.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub job: Option<String>,
}
