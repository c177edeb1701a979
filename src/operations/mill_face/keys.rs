//! The keys of a milled face, what cannot be a real part, and what it answers.

use super::names;
use crate::handbook::Material;
use crate::job::{Difference, PartFacts, Reading};
use crate::operations::hole_making::HELD_VALUES;
use crate::operations::kit;
use crate::operations::kit::{above_zero, hard};
use crate::operations::{Answer, Bench, Declared, Hold, Instead, Operation, SetUpWish, turning};
use crate::proof::{At, CheckRule, Refusal, Words};
use crate::quantity::{Mm, Quantity, Wanted};
use crate::reading::Problem;
use schemars::JsonSchema;
use serde::Deserialize;

/// Which way the teeth go against the feed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(super) enum Way {
    /// Against it: the table is pushed back on its screw.
    Conventional,
    /// With it: the teeth pull the table along, as far as its screw has play.
    Climb,
}

/// Over what the clamps bear.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(super) enum Bears {
    /// Solid metal with a support straight beneath.
    OnSolid,
    /// A hollow, a thin wall or a foot that rocks.
    OnHollow,
}

/// How the spindle was trammed.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct Tram {
    /// The greatest change of the indicator, swept round (measured).
    pub reads: At<Difference>,
    /// Diameter of the circle that it was swept on.
    pub over: At<Mm>,
}

/// A face milled flat.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct MillFace {
    /// Width of the face, across the feed.
    pub(super) width: At<Mm>,
    /// Length of the face, along the feed.
    pub(super) length: At<Mm>,
    /// Thickness from the seat to the raw face at its highest place, where the cutter is touched on (measured).
    pub(super) thickness: At<Reading>,
    /// Metal to remove from the highest place.
    pub(super) removed: At<Mm>,
    /// Diameter of the cutter.
    pub(super) cutter: At<Mm>,
    /// Its teeth; left out, those of the drawer's.
    pub(super) teeth: Option<At<u32>>,
    /// How far it stands out of the spindle.
    pub(super) stick_out: Option<At<Mm>>,
    /// Which way it cuts: conventional, or climb.
    pub(super) way: Option<At<Way>>,
    /// How uneven the raw face is (measured).
    pub(super) uneven: Option<At<Difference>>,
    /// How the spindle was trammed.
    pub(super) tram: Option<Tram>,
    /// How flat the face must be (wanted).
    pub(super) flat_within: Option<At<Wanted<Mm>>>,
    /// How square to its seat the face must be, over its width (wanted).
    pub(super) square_within: Option<At<Wanted<Mm>>>,
    /// Least thickness that must be left (wanted).
    pub(super) least_thickness: Option<At<Wanted<Mm>>>,
    /// Least hard case that must be left (wanted); left out, a case must not be cut through.
    pub(super) least_case: Option<At<Wanted<Mm>>>,
    /// Metal taken off here in earlier overhauls (measured); left out, none is assumed where a case is judged.
    pub(super) removed_before: Option<At<Difference>>,
    /// The thinnest wall that stands up under the face, of a part that is hollow; of one that is solid, its width. Left out, it is taken as
    /// solid, but for castings where the answer hangs on it.
    pub(super) walls: Option<At<Mm>>,
    /// Narrower way across of the seat that it stands on; left out, that of the face.
    pub(super) seat: Option<At<Mm>>,
    /// Over what its clamps, or the jaws of its vice, bear.
    pub(super) bears: Option<At<Bears>>,
    /// How it is held.
    pub(super) hold: Option<Hold>,
    /// Machine, name, feature, remark; left out, none.
    pub(super) set_up: Option<SetUpWish>,
}

impl Operation for MillFace {
    fn values(&self) -> &'static [&'static [Declared]] {
        const CASE: &[Declared] =
            &[turning::CASE_DEPTH.declare(), turning::CASE_LEFT.declare(), turning::REMOVED_BEFORE.declare()];
        &[names::VALUES, CASE, HELD_VALUES]
    }

    fn checks(&self) -> &'static [CheckRule] {
        const {
            &[
                CheckRule::must("thickness-left", &["least-thickness"]),
                CheckRule::must("cleans-up", &["uneven"]),
                CheckRule::must("case", &["part.case-depth"]),
                CheckRule::must("most-depth", &[]),
                CheckRule::must("bite", &[]),
                CheckRule::must("measured-between", &[]),
                CheckRule::must("flat-by-tram", &["tram", "flat-within"]),
                CheckRule::must("square", &["tram", "square-within", "hold.true-within"]),
                CheckRule::must("cutter-stiff", &["stick-out", "flat-within"]),
                CheckRule::must("way-of-cut", &["way"]),
                CheckRule::must("clamped-on-metal", &["bears"]),
                CheckRule::must("thin-as-held", &["hold"]),
                CheckRule::must("work-sways", &["hold", "flat-within", "hold.grip"]),
                CheckRule::must("on-a-mill", &[]),
                CheckRule::must("held", &["hold"]),
                CheckRule::must("clear-of-clamps", &["hold", "hold.clamped", "hold.grip"]),
                CheckRule::must("grip", &["hold.tested"]),
                CheckRule::must("grip-looked-at", &["hold.tested"]),
                CheckRule::must("tips-over", &["hold", "hold.tested", "hold.grip", "hold.diameter"]),
                CheckRule::must("grip-length", &["hold.grip", "hold.overhang", "hold.diameter"]),
                CheckRule::must("cutter-hard-enough", &[]),
                CheckRule::must("never-cut", &[]),
                CheckRule::may("cutter-in-drawer", &[]),
                CheckRule::may("spindle-too-fast", &[]),
                CheckRule::may("power", &["power of the machine"]),
            ]
        }
    }

    fn gripped(&self) -> Option<&crate::operations::Hold> {
        self.hold.as_ref()
    }

    fn set_up(&self) -> Option<&SetUpWish> {
        self.set_up.as_ref()
    }

    fn cuts_as(&self, part: &PartFacts, metal: &Material) -> Result<Material, Refusal> {
        hard::cuts_as(metal, part.hardness.as_ref().map(|at| at.value))
    }

    fn problems(&self, _: &PartFacts) -> Vec<Problem> {
        let mut all = Vec::new();
        above_zero("`seat`", self.seat.as_ref(), &mut all);
        above_zero("`walls`", self.walls.as_ref(), &mut all);
        let solid = self.length.value.number().min(self.width.value.number());
        if let Some(walls) = self.walls.as_ref().filter(|walls| walls.value.number() > solid) {
            let says = "this wall is thicker than the face is wide: of a part that is solid it is its width";
            all.push(Problem::new(walls.place, says));
        }
        above_zero("`width`", &self.width, &mut all);
        above_zero("`length`", &self.length, &mut all);
        above_zero("`thickness`", &self.thickness, &mut all);
        above_zero("`removed`", &self.removed, &mut all);
        above_zero("`cutter`", &self.cutter, &mut all);
        above_zero("`stick-out`", self.stick_out.as_ref(), &mut all);
        above_zero("`flat-within`", self.flat_within.as_ref(), &mut all);
        above_zero("`square-within`", self.square_within.as_ref(), &mut all);
        above_zero("`least-thickness`", self.least_thickness.as_ref(), &mut all);
        above_zero("`over` of the tram", self.tram.as_ref().map(|tram| &tram.over), &mut all);
        if let Some(hold) = &self.hold {
            hold.problems(None, &mut all);
        }
        if let Some(at) = self.teeth.as_ref().filter(|at| at.value == 0) {
            all.push(Problem::new(at.place, "a cutter has one tooth at least"));
        }
        if let Some(out) = self.stick_out.as_ref().filter(|out| out.value.number() <= self.removed.value.number()) {
            all.push(Problem::new(
                out.place,
                "`stick-out` is no more than what is milled off: the nose of the spindle would rub on the work",
            ));
        }
        if self.thickness.value.typed().is_some_and(|thick| self.removed.value.number() >= thick) {
            all.push(Problem::new(
                self.removed.place,
                "`removed` is no less than the thickness: nothing would be left",
            ));
        }
        all
    }

    fn instead(&self, bench: &Bench) -> Vec<(Words, Instead)> {
        // A narrower one that is narrower than the face too cuts it in more tracks, at another step: that is another plan.
        let own = self.cutter.value.number();
        let least = own.min(self.width.value.number());
        let others = kit::other_cutters(bench, own, false, "cutter-of");
        others.into_iter().filter(|(_, tool)| matches!(tool, Instead::Size(size) if *size >= least)).collect()
    }

    fn take_instead(&mut self, tool: Instead) {
        if let Instead::Size(size) = tool {
            self.cutter.value = Mm::new(size);
            // Its teeth are its own.
            self.teeth = None;
        }
    }

    fn work(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        self.work_it(bench, answer)
    }
}
