//! `book hardness "58 HRC"`: the same hardness on the other scales and the strength it stands for, inside the table only.

use super::{Question, Reply, wording};
use crate::handbook::materials::groups::Kind;
use crate::handbook::{Material, materials::hardness};
use crate::operations::Name;
use crate::proof::At;
use crate::quantity::{Hardness, Ratio, Scale, Stress};
use crate::reading::Problem;
use crate::shop::Shop;
use schemars::JsonSchema;
use serde::Deserialize;

/// A hardness on the other scales, and the strength it stands for.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct HardnessAsked {
    /// The hardness.
    #[serde(deserialize_with = "hardness::tested")]
    hardness: At<Hardness>,
    /// The metal; left out, steel.
    material: Option<At<Material>>,
}

const VICKERS: Name<Ratio> = Name::new("hardness_hv", "Vickers, HV");
const BRINELL: Name<Ratio> = Name::new("hardness_hb", "Brinell, HB (ball 10/3000)");
const ROCKWELL: Name<Ratio> = Name::new("hardness_hrc", "Rockwell C, HRC");
const TENSILE: Name<Stress> = Name::new("tensile_strength", "tensile strength of a steel of that hardness");

impl Question for HardnessAsked {
    const PLAIN: Option<&'static str> = Some("hardness");

    fn names() -> Vec<(String, String)> {
        wording::SCALES
            .map(|(one, means)| (one.to_owned(), means.to_owned()))
            .into_iter()
            .chain(super::metals())
            .collect()
    }

    fn reply(&self, _: Option<&Shop>) -> Result<Reply, Vec<Problem>> {
        let hardness = self.hardness.value;
        let kind = self.material.as_ref().map_or(Kind::Steel, |material| material.kind());
        let mut reply = Reply::new(wording::hardness_title(hardness));
        for (name, scale) in [(&VICKERS, Scale::Hv), (&BRINELL, Scale::Hb), (&ROCKWELL, Scale::Hrc)] {
            if scale != hardness.scale {
                reply.put_or_say(name, hardness::on_scale(hardness, scale, kind));
            }
        }
        reply.put_or_say(&TENSILE, hardness::tensile(hardness, kind));
        reply.note(wording::STEEL_ONLY);
        Ok(reply)
    }
}
