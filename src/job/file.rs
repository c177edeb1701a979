//! The frame of a job file: job, shop, date, engine, parts, and under each part its operations in order.

use super::Reading;
use crate::handbook::Material;
use crate::proof::At;
use crate::quantity::Hardness;
use schemars::JsonSchema;
use serde::Deserialize;

/// A job as typed. What an operation asks is `R`: this room never knows.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct JobFile<R> {
    /// The job's name.
    pub job: At<String>,
    /// The shop file, from the job file's folder.
    pub shop: Option<At<String>>,
    /// The day that the sheets carry, `2026-03-14`.
    pub date: Option<At<String>>,
    /// The engine.
    pub engine: Option<At<String>>,
    /// The workpieces.
    pub parts: Vec<Part<R>>,
}

/// One workpiece.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Part<R> {
    /// The part's name.
    pub part: At<String>,
    /// What it is made of.
    pub material: Option<At<Material>>,
    /// Its hardness as tested.
    pub hardness: Option<At<Hardness>>,
    /// Effective case depth (to 550 HV), as measured or from the drawing.
    pub case_depth: Option<At<Reading>>,
    /// Total case depth, where the effective one is not known.
    pub case_depth_total: Option<At<Reading>>,
    /// Hard all through: there is no case to go through.
    pub through_hardened: Option<At<bool>>,
    /// A remark for the sheets.
    pub note: Option<At<String>>,
    /// What is done to it, in order.
    pub operations: Vec<R>,
}

/// What an operation may know of its part.
#[derive(Clone, Debug, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct PartFacts {
    /// The part's name.
    #[serde(skip)]
    pub name: String,
    /// What it is made of.
    pub material: Option<At<Material>>,
    /// Its hardness as tested.
    pub hardness: Option<At<Hardness>>,
    /// Effective case depth.
    pub case_depth: Option<At<Reading>>,
    /// Total case depth.
    pub case_depth_total: Option<At<Reading>>,
    /// Hard all through.
    pub through_hardened: Option<At<bool>>,
}

impl<R> Part<R> {
    /// The facts of the part, without its operations.
    pub fn facts(&self) -> PartFacts {
        PartFacts {
            name: self.part.value.clone(),
            material: self.material.clone(),
            hardness: self.hardness.clone(),
            case_depth: self.case_depth.clone(),
            case_depth_total: self.case_depth_total.clone(),
            through_hardened: self.through_hardened.clone(),
        }
    }
}
