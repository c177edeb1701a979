//! The keys of lapping, what cannot be, and what it answers.

use super::names;
use super::places::{Grid, Points};
use crate::handbook::Thread;
use crate::handbook::constants::constant;
use crate::job::{Difference, PartFacts, Reading};
use crate::operations::kit::above_zero;
use crate::operations::turning;
use crate::operations::{Answer, Bench, Declared, OfRow, Operation, SetUpWish, Stage};
use crate::proof::{At, CheckRule, Refusal, Worked};
use crate::quantity::{Mm, Mm2, Quantity, Ratio, Shift, Volume, Wanted};
use crate::reading::Problem;
use schemars::JsonSchema;
use serde::Deserialize;

/// By which planes a face is judged.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(super) enum ZoneBy {
    /// The two that lie closest together (ISO 1101).
    Minimum,
    /// Both along the plane of least squares: never less.
    LeastSquares,
}

/// What is joined at the face.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(super) enum Joint {
    /// Head and barrel.
    Head,
    /// Barrel and crankcase.
    Base,
    /// Two halves of a case.
    Case,
    /// A cover.
    Cover,
}

/// What becomes of bores that the joint of a case splits.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(super) enum Across {
    /// None runs across the joint.
    None,
    /// They are bored again in line once the case is closed.
    BoredAfter,
    /// They stay as they are: what comes off the face comes off them.
    Stay,
}

/// Something that stands in the face and comes out first.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct Out {
    /// What it is.
    pub(super) what: At<String>,
    /// How many.
    pub(super) count: At<u32>,
}

/// A thread insert in the face.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct Insert {
    /// Its thread.
    pub(super) thread: At<Thread>,
    /// How far its first coil sits below the face (measured).
    pub(super) set_down: At<Difference>,
}

/// How large the face is.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct Face {
    /// Along x.
    pub(super) long: At<Mm>,
    /// Along y.
    pub(super) wide: At<Mm>,
}

/// A joint face lapped flat.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Lap {
    /// Readings on a grid, one text for each y; a dash where there is no metal; left out, `points` are given.
    pub(super) grid: Option<Grid>,
    /// Readings round a circle, or at any places; left out, the `grid` is given.
    pub(super) points: Option<Points>,
    /// The indicator.
    pub(super) with: Option<At<String>>,
    /// How far the face may be out of flat (wanted).
    pub(super) flat_within: At<Mm>,
    /// How large the face is.
    pub(super) face: Option<Face>,
    /// By which planes it is judged; left out, the two that lie closest together.
    pub(super) zone: Option<At<ZoneBy>>,
    /// What is lapped off beyond the lowest place.
    pub(super) finish_stock: Option<At<Mm>>,
    /// Least hard case that may be left (wanted); left out, what is left of a case is doubtful.
    pub(super) least_case: Option<At<Wanted<Mm>>>,
    /// Metal that earlier work took off here (measured); left out, none.
    pub(super) removed_before: Option<At<Difference>>,
    /// What is joined there; left out, no cylinder is taken to be closed there, and of bores that it may split nobody knows.
    pub(super) joint: Option<At<Joint>>,
    /// Bores that the joint of a case splits.
    pub(super) bores_across: Option<At<Across>>,
    /// The bore of the cylinder.
    pub(super) bore: Option<At<Mm>>,
    /// Swept volume of the cylinder.
    pub(super) swept: Option<At<Volume>>,
    /// Clearance volume of the cylinder.
    pub(super) clearance_volume: Option<At<Volume>>,
    /// Area of the mouth of a chamber in a head; left out, that of the `bore`.
    pub(super) mouth_area: Option<At<Mm2>>,
    /// The most compression that is wanted.
    pub(super) most_compression: Option<At<Ratio>>,
    /// Room between piston and head at the top (measured).
    pub(super) squish: Option<At<Reading>>,
    /// The least of it (wanted).
    pub(super) least_squish: Option<At<Mm>>,
    /// What stands in the face and comes out first; `[]` where nothing does.
    pub(super) out_first: Option<Vec<Out>>,
    /// How far a liner that stays in stands proud of the face (measured); left out, none is taken to stand proud.
    pub(super) proud: Option<At<Difference>>,
    /// Thread inserts in the face.
    pub(super) inserts: Option<Vec<Insert>>,
    /// Grits that the shop has; left out, those that are usual.
    pub(super) grits: Option<Vec<At<u32>>>,
    /// Machine, name, feature, remark; left out, none.
    pub(super) set_up: Option<SetUpWish>,
}

impl Operation for Lap {
    fn counts_what_stands_out(&self) -> bool {
        self.proud.is_some()
    }

    fn values(&self) -> &'static [&'static [Declared]] {
        const CASE: &[Declared] =
            &[turning::CASE_DEPTH.declare(), turning::CASE_LEFT.declare(), turning::REMOVED_BEFORE.declare()];
        &[names::VALUES, CASE]
    }

    fn checks(&self) -> &'static [CheckRule] {
        const {
            &[
                CheckRule::found("flat", &["grid"]),
                CheckRule::must("enough-points", &["grid", "face"]),
                CheckRule::must("out-first", &["out-first"]),
                CheckRule::must("metal-takes-it", &["part.material"]),
                CheckRule::must("too-deep", &["grid"]),
                CheckRule::may("goes-over-the-plate", &["face"]),
                CheckRule::must("flat-after", &["grid"]),
                CheckRule::may("can-be-measured", &["grid", "with"]),
                CheckRule::must("case", &["part.case-depth"]),
                CheckRule::must("squish", &["squish", "least-squish"]),
                CheckRule::may("compression", &["swept", "clearance-volume", "bore", "most-compression"]),
                CheckRule::must("set-down", &["inserts"]),
                CheckRule::must("bores-stay-round", &["bores-across"]),
            ]
        }
    }

    fn stages(&self) -> &'static [Stage] {
        const {
            &[
                Stage::of(&["map-it"], &["flat", "enough-points", "out-first", "can-be-measured"]),
                Stage::of(
                    &["lap-it"],
                    &[
                        "metal-takes-it",
                        "too-deep",
                        "case",
                        "flat-after",
                        "squish",
                        "compression",
                        "set-down",
                        "bores-stay-round",
                    ],
                ),
            ]
        }
    }

    fn set_up(&self) -> Option<&SetUpWish> {
        self.set_up.as_ref()
    }

    fn left_of_row(&self, key: &str, reads: &[Worked<Shift>]) -> Option<Result<Vec<OfRow>, Refusal>> {
        let flat = |flat: Worked<Mm>| vec![(names::FLAT_AFTER.key, flat.figure())];
        (key == names::FLAT_AFTER.key).then(|| self.mapped_again(reads).map(flat))
    }

    fn problems(&self, _: &PartFacts) -> Vec<Problem> {
        let mut all = Vec::new();
        above_zero("`flat-within`", &self.flat_within, &mut all);
        above_zero("`finish-stock`", self.finish_stock.as_ref(), &mut all);
        above_zero("`bore`", self.bore.as_ref(), &mut all);
        above_zero("`swept`", self.swept.as_ref(), &mut all);
        above_zero("`clearance-volume`", self.clearance_volume.as_ref(), &mut all);
        above_zero("`mouth-area`", self.mouth_area.as_ref(), &mut all);
        above_zero("`squish`", self.squish.as_ref(), &mut all);
        above_zero("`least-squish`", self.least_squish.as_ref(), &mut all);
        if let Some(face) = &self.face {
            above_zero("`long` of the face", &face.long, &mut all);
            above_zero("`wide` of the face", &face.wide, &mut all);
        }
        if let Some(face) = &self.face {
            let places = self.grid.as_ref().map(Grid::places).or_else(|| self.points.as_ref().map(Points::places));
            let span = |of: &dyn Fn(&(f64, f64)) -> f64| {
                let all = places.iter().flatten().map(of);
                all.clone().fold(f64::NEG_INFINITY, f64::max) - all.fold(f64::INFINITY, f64::min)
            };
            let (along, across) = (span(&|place| place.0), span(&|place| place.1));
            let (long, wide) = (face.long.value.number(), face.wide.value.number());
            // Which of the two is called x nobody says; 1e-6: the dust of sines and cosines.
            let lies_on = |x: f64, y: f64| along <= x + 1e-6 && across <= y + 1e-6;
            if !lies_on(long, wide) && !lies_on(wide, long) {
                all.push(Problem::new(face.long.place, "the readings lie beyond a face so long and wide"));
            }
        }
        for insert in self.inserts.iter().flatten() {
            above_zero("`set-down`", &insert.set_down, &mut all);
        }
        if self.grid.is_some() && self.points.is_some() {
            all.push(Problem::new(self.flat_within.place, "give `grid` or `points`: the face was read once"));
        }
        if let Some(grits) = &self.grits
            && (grits.is_empty() || grits.windows(2).any(|pair| matches!(pair, [a, b] if a.value >= b.value)))
        {
            let place = grits.first().map_or(self.flat_within.place, |at| at.place);
            all.push(Problem::new(place, "`grits` go from the coarse to the fine, each once"));
        }
        let ends = ["lap-grit-least", "lap-grit-most"].map(|end| constant::<Ratio>(end).map(|grit| grit.number()));
        if let [Ok(least), Ok(most)] = ends {
            let is_none = |grit: &&At<u32>| !(least..=most).contains(&f64::from(grit.value));
            for grit in self.grits.iter().flatten().filter(is_none) {
                let says =
                    format!("a grit that laps lies between {least} and {most} (as they are sold: F or P and a number)");
                all.push(Problem::new(grit.place, says));
            }
        }
        self.grid.iter().for_each(|grid| grid.problems(&mut all));
        self.points.iter().for_each(|points| points.problems(self.flat_within.place, &mut all));
        if let (Some(bore), None, Some(joint)) = (&self.bore, &self.mouth_area, &self.joint)
            && matches!(joint.value, Joint::Case | Joint::Cover)
        {
            all.push(Problem::new(bore.place, "a case or a cover closes no cylinder: leave `bore` out"));
        }
        all
    }

    fn work(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        self.work_it(bench, answer)
    }
}
