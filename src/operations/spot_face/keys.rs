//! The keys of a seat about a hole, what cannot be a real part, and what it answers.

use super::names;
use crate::handbook::Material;
use crate::handbook::constants::row;
use crate::job::{Difference, PartFacts, Reading};
use crate::operations::hole_making::{HELD_VALUES, Pilot};
use crate::operations::kit;
use crate::operations::kit::{above_zero, hard};
use crate::operations::{Answer, Bench, Declared, Hold, Instead, Operation, SetUpWish};
use crate::proof::{At, CheckRule, Refusal, Words};
use crate::quantity::{Mm, Quantity, Wanted, figure};
use crate::reading::Problem;
use schemars::JsonSchema;
use serde::Deserialize;

/// A seat about a hole.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct SpotFace {
    /// Diameter of the hole that is there (measured).
    pub(super) hole: At<Reading>,
    /// Diameter of the cutter, and so of the seat.
    pub(super) diameter: At<Mm>,
    /// Depth of the seat from the highest place of the raw face.
    pub(super) depth: At<Mm>,
    /// Depth of the hole that is there, from the highest place of the raw face (measured); left out, it goes right through, or is as deep as
    /// the operation says that drills it.
    pub(super) hole_depth: Option<At<Reading>>,
    /// Diameter of the cutter's pilot (measured), or `none`.
    pub(super) pilot: Option<At<Pilot>>,
    /// Length of the pilot that stands in the hole when the cutter touches.
    pub(super) pilot_length: Option<At<Mm>>,
    /// How uneven the raw face is across the seat (measured).
    pub(super) uneven: Option<At<Difference>>,
    /// Metal from the highest place of the raw face at the seat, where the cutter is touched on, to the far side (measured).
    pub(super) wall: Option<At<Reading>>,
    /// Least metal that must be left under the seat (wanted).
    pub(super) least_left: Option<At<Wanted<Mm>>>,
    /// How square to its hole the seat must be, over its own width (wanted).
    pub(super) square_within: Option<At<Wanted<Mm>>>,
    /// From the middle of the hole to the nearest edge (measured).
    pub(super) edge: Option<At<Reading>>,
    /// Diameter of the head or washer that bears on it.
    pub(super) head: Option<At<Mm>>,
    /// Teeth of the cutter; left out, those of the drawer's.
    pub(super) teeth: Option<At<u32>>,
    /// How it is held.
    pub(super) hold: Option<Hold>,
    /// Machine, name, feature, remark; left out, none.
    pub(super) set_up: Option<SetUpWish>,
}

impl SpotFace {
    /// A seat, or a head, that is next to no wider than its hole: it drops in, or cuts its way in.
    fn bears_nothing(&self, all: &mut Vec<Problem>) {
        let Some(hole) = self.hole.value.typed() else { return };
        let least = row("seat-bears-least-share").map_or(0.0, |row| row.value) * hole;
        let rings = [(&self.diameter, "seat")].into_iter().chain(self.head.as_ref().map(|head| (head, "head")));
        for (at, what) in rings.filter(|(at, _)| (at.value.number() - hole) / 2.0 < least) {
            let ring = figure((at.value.number() - hole) / 2.0);
            let says = format!("this {what} is wider than its hole by {ring} mm all round: nothing bears on that");
            all.push(Problem::new(at.place, says));
        }
    }
}

impl Operation for SpotFace {
    fn values(&self) -> &'static [&'static [Declared]] {
        &[names::VALUES, HELD_VALUES]
    }

    fn checks(&self) -> &'static [CheckRule] {
        const {
            &[
                CheckRule::must("pilot-there", &["pilot"]),
                CheckRule::must("pilot-runs", &["pilot"]),
                CheckRule::must("pilot-has-room", &["pilot-length", "wall"]),
                CheckRule::must("seat-square", &["pilot-length", "square-within"]),
                CheckRule::must("wall-left", &["wall", "least-left"]),
                CheckRule::must("cutter-reaches", &[]),
                CheckRule::must("cleans-up", &["uneven"]),
                CheckRule::must("cutter-hard-enough", &[]),
                CheckRule::must("cutter-led", &[]),
                CheckRule::must("never-cut", &[]),
                CheckRule::must("held", &["hold"]),
                CheckRule::must("grip", &["hold.tested"]),
                CheckRule::must("grip-looked-at", &["hold.tested"]),
                CheckRule::must("grip-length", &["hold.grip", "hold.overhang", "hold.diameter"]),
                CheckRule::may("cutter-in-drawer", &[]),
                CheckRule::may("drill-too-fast", &[]),
                CheckRule::may("torque", &["power of the machine"]),
                CheckRule::must("seat-on-metal", &["edge"]),
                CheckRule::may("seat-wide-enough", &["head"]),
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
        above_zero("`hole`", &self.hole, &mut all);
        above_zero("`diameter`", &self.diameter, &mut all);
        above_zero("`depth`", &self.depth, &mut all);
        above_zero("`hole-depth`", self.hole_depth.as_ref(), &mut all);
        above_zero("`wall`", self.wall.as_ref(), &mut all);
        above_zero("`edge`", self.edge.as_ref(), &mut all);
        above_zero("`head`", self.head.as_ref(), &mut all);
        above_zero("`least-left`", self.least_left.as_ref(), &mut all);
        above_zero("`square-within`", self.square_within.as_ref(), &mut all);
        above_zero("`pilot-length`", self.pilot_length.as_ref(), &mut all);
        if let Some(hold) = &self.hold {
            hold.problems(None, &mut all);
        }
        if let Some(at) = self.teeth.as_ref().filter(|at| at.value == 0) {
            all.push(Problem::new(at.place, "a cutter has one tooth at least"));
        }
        let across = self.diameter.value.number();
        if self.hole.value.typed().is_some_and(|hole| hole >= across) {
            all.push(Problem::new(self.diameter.place, "the seat is no wider than its hole: it cuts nothing"));
        } else {
            self.bears_nothing(&mut all);
        }
        let pilot = self.pilot.as_ref().and_then(|at| at.value.reading()).and_then(Reading::typed);
        if let (Some(at), Some(pilot)) = (&self.pilot, pilot)
            && (pilot <= 0.0 || pilot >= across)
        {
            all.push(Problem::new(
                at.place,
                "a pilot is above zero and smaller than its cutter; without one say `none`",
            ));
        }
        all
    }

    fn instead(&self, bench: &Bench) -> Vec<(Words, Instead)> {
        // A smaller seat leaves the rim of a head in the air.
        let own = self.diameter.value.number();
        let mut all = kit::other_cutters(bench, own, true, "spot-facer-of");
        all.retain(|(_, tool)| matches!(*tool, Instead::Size(size) if size > own));
        all
    }

    fn take_instead(&mut self, tool: Instead) {
        if let Instead::Size(size) = tool {
            self.diameter.value = Mm::new(size);
            self.teeth = None;
        }
    }

    fn work(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        self.work_it(bench, answer)
    }
}
