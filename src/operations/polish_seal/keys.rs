//! The keys of polishing a seal's track, what cannot be, and what it answers.

use super::names;
use crate::job::{Difference, PartFacts, Reading};
use crate::operations::kit::above_zero;
use crate::operations::turning;
use crate::operations::{Answer, Bench, Declared, Operation, SetUpWish};
use crate::proof::{At, CheckRule, Refusal};
use crate::quantity::{Measured, Mm, Quantity, RevPerMin, Roughness, Wanted};
use crate::reading::Problem;
use schemars::JsonSchema;
use serde::Deserialize;

/// What comes to the seal from outside.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(super) enum Dirt {
    /// Clean oil, inside a case.
    Clean,
    /// Road dirt, water, grit.
    Dirty,
}

/// What an oiled thread did that was hung on the turning track, both ways.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(super) enum Lead {
    /// It stayed where it was: the track has no lead.
    Still,
    /// It walked along.
    Walks,
}

/// The track of a lip seal, polished.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct PolishSeal {
    /// The diameter that the seal is made for.
    pub(super) track: At<Mm>,
    /// The track as measured, beside the groove.
    pub(super) size: At<Reading>,
    /// Depth of the groove, on the radius (measured).
    pub(super) groove: At<Difference>,
    /// Width of the groove.
    pub(super) groove_width: Option<At<Mm>>,
    /// What an indicator reads on the track in a turn (measured).
    pub(super) run_out: Option<At<Difference>>,
    /// How far the seal's bore sits off the axis of the shaft (measured).
    pub(super) seal_off_centre: Option<At<Difference>>,
    /// Roughness of the track as found (measured).
    pub(super) finish_found: Option<At<Measured<Roughness>>>,
    /// Metal taken off the radius here before (measured).
    pub(super) removed_before: Option<At<Difference>>,
    /// Roughness wanted, both ends of it; left out, what a lip asks.
    pub(super) finish: Option<At<Wanted<Roughness>>>,
    /// How fast the shaft runs.
    pub(super) speed: Option<At<RevPerMin>>,
    /// Greatest diameter that turns with the track: webs, flanges, wheels; left out, nothing on the shaft is larger.
    pub(super) swings: Option<At<Mm>>,
    /// What comes to the seal from outside; left out, dirt.
    pub(super) dirt: Option<At<Dirt>>,
    /// Width of the lip where it runs.
    pub(super) lip_width: Option<At<Mm>>,
    /// Width of track beside the groove that no lip ran on.
    pub(super) free_track: Option<At<Mm>>,
    /// Bore of what is pushed over the track with interference; left out, nothing is.
    pub(super) passes_over: Option<At<Mm>>,
    /// Wall of a sleeve that is to be had; left out, no sleeve is taken into account.
    pub(super) sleeve_wall: Option<At<Mm>>,
    /// What an oiled thread did on the track as it was found; left out, nobody tried it. Polished, it is tried again, and the log holds that.
    pub(super) lead: Option<At<Lead>>,
    /// Machine, name, feature, remark; left out, none.
    pub(super) set_up: Option<SetUpWish>,
}

impl Operation for PolishSeal {
    fn values(&self) -> &'static [&'static [Declared]] {
        const {
            &[
                names::VALUES,
                &[turning::CASE_DEPTH.declare(), turning::CASE_LEFT.declare(), turning::REMOVED_BEFORE.declare()],
            ]
        }
    }

    fn checks(&self) -> &'static [CheckRule] {
        const {
            &[
                CheckRule::found("finish-as-found", &["finish-found"]),
                CheckRule::must("polish-only", &[]),
                CheckRule::must("size", &[]),
                CheckRule::must("not-oversize", &[]),
                CheckRule::must("finish", &[]),
                CheckRule::must("hard-enough", &["part.hardness"]),
                CheckRule::must("case", &["part.case-depth"]),
                CheckRule::must("run-out", &["run-out", "seal-off-centre"]),
                CheckRule::must("no-lead", &["thread_walked in the log"]),
                CheckRule::must("metal-takes-it", &["part.material"]),
                CheckRule::may("rim-speed", &["speed"]),
                CheckRule::may("can-be-measured", &["size.with"]),
                CheckRule::may("passes", &["passes-over"]),
                CheckRule::may("swing", &["swing of the machine"]),
                CheckRule::may("clears-the-slide", &["swing-over-slide of the machine"]),
                CheckRule::advice("room-to-shift", &["free-track", "groove-width", "lip-width"]),
            ]
        }
    }

    fn set_up(&self) -> Option<&SetUpWish> {
        self.set_up.as_ref()
    }

    fn problems(&self, _: &PartFacts) -> Vec<Problem> {
        let mut all = Vec::new();
        above_zero("`track`", &self.track, &mut all);
        above_zero("`size`", &self.size, &mut all);
        above_zero("`groove`", &self.groove, &mut all);
        above_zero("`groove-width`", self.groove_width.as_ref(), &mut all);
        above_zero("`swings`", self.swings.as_ref(), &mut all);
        above_zero("`speed`", self.speed.as_ref(), &mut all);
        above_zero("`lip-width`", self.lip_width.as_ref(), &mut all);
        above_zero("`passes-over`", self.passes_over.as_ref(), &mut all);
        above_zero("`sleeve-wall`", self.sleeve_wall.as_ref(), &mut all);
        if let (Some(groove), Some(size)) = (self.groove.value.typed(), self.size.value.typed())
            && groove >= size / 4.0
        {
            let says = "`groove` is its depth on the radius: so deep a groove leaves half a shaft at most";
            all.push(Problem::new(self.groove.place, says));
        }
        if self.size.value.typed().is_some_and(|size| (size - self.track.value.number()).abs() > 0.1 * size) {
            let says = "`size` is not that of this `track`: they are more than a tenth apart";
            all.push(Problem::new(self.size.place, says));
        }
        all
    }

    fn work(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        self.work_it(bench, answer)
    }
}
