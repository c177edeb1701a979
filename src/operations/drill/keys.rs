//! The keys of a drilled hole, what cannot be a real part, and what it answers.

use super::names;
use crate::handbook::Material;
use crate::handbook::constants::constant;
use crate::job::{PartFacts, Reading};
use crate::operations::hole_making::drilled;
use crate::operations::hole_making::{Beyond, HELD_VALUES};
use crate::operations::kit;
use crate::operations::kit::{above_zero, hard};
use crate::operations::{Answer, Bench, Declared, Hold, Instead, Operation, SetUpWish};
use crate::proof::{At, CheckRule, Refusal, Words};
use crate::quantity::{Mm, Quantity, Wanted};
use crate::reading::Problem;
use schemars::JsonSchema;
use serde::Deserialize;

/// One hole drilled.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
#[schemars(extend("x-wants" = [["depth", "through"]]))]
pub struct Drill {
    /// Diameter of the drill.
    pub(super) diameter: At<Mm>,
    /// Hole that is there and that it opens, by the drill that made it; left out, it drills from the solid.
    pub(super) opens: Option<At<Mm>>,
    /// Metal from the face to the far side, at the hole (measured).
    pub(super) wall: At<Reading>,
    /// Depth at the full diameter; left out, only where it goes through.
    pub(super) depth: Option<At<Mm>>,
    /// Whether it goes through; left out, it does not.
    pub(super) through: Option<At<bool>>,
    /// What lies behind the wall: the gap (measured), or `clear`.
    pub(super) beyond: Option<At<Beyond>>,
    /// What the drill starts on.
    pub(super) starts_on: Option<At<StartsOn>>,
    /// From the middle of the hole to the nearest edge (measured).
    pub(super) edge: Option<At<Reading>>,
    /// Least metal that must be left under the point (wanted).
    pub(super) least_left: Option<At<Wanted<Mm>>>,
    /// How far the drill stands out of its chuck; left out, the whole length of a short-series drill.
    pub(super) stick_out: Option<At<Mm>>,
    /// How it is held.
    pub(super) hold: Option<Hold>,
    /// Machine, name, feature, remark; left out, none.
    pub(super) set_up: Option<SetUpWish>,
}

/// What the point of a drill starts on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(super) enum StartsOn {
    /// Flat, and square to the drill: as it is, or because a flat was cut first.
    Flat,
    /// Across a bar, a tube or another round.
    Round,
    /// It stands at a slant to the drill.
    Slope,
    /// A skin as cast or forged, with lumps in it.
    Rough,
}

impl Drill {
    /// Whether it is asked to go through.
    pub(super) fn goes_through(&self) -> bool {
        self.through.as_ref().is_some_and(|at| at.value)
    }
}

impl Operation for Drill {
    fn values(&self) -> &'static [&'static [Declared]] {
        &[names::VALUES, drilled::names::VALUES, HELD_VALUES]
    }

    fn checks(&self) -> &'static [CheckRule] {
        const {
            &[
                CheckRule::must("break-through", &["wall"]),
                CheckRule::must("behind", &["beyond"]),
                CheckRule::must("sheet-thick-enough", &[]),
                CheckRule::must("held", &["hold"]),
                CheckRule::must("grip", &["hold.tested"]),
                CheckRule::must("grip-looked-at", &["hold.tested"]),
                CheckRule::must("grip-length", &["hold.grip", "hold.overhang", "hold.diameter"]),
                CheckRule::must("drill-reaches", &["stick-out"]),
                CheckRule::must("drill-bows", &["stick-out"]),
                CheckRule::must("drill-twists-off", &[]),
                CheckRule::must("drill-hard-enough", &[]),
                CheckRule::must("never-cut", &[]),
                CheckRule::may("drill-in-drawer", &[]),
                CheckRule::may("drill-too-fast", &[]),
                CheckRule::may("torque", &["power of the machine"]),
                CheckRule::must("edge-wall", &["edge"]),
                CheckRule::must("starts-square", &["starts-on"]),
            ]
        }
    }

    fn gripped(&self) -> Option<&crate::operations::Hold> {
        self.hold.as_ref()
    }

    fn set_up(&self) -> Option<&SetUpWish> {
        self.set_up.as_ref()
    }

    fn opens_a_hole(&self) -> bool {
        self.opens.is_some()
    }

    fn cuts_as(&self, part: &PartFacts, metal: &Material) -> Result<Material, Refusal> {
        hard::cuts_as(metal, part.hardness.as_ref().map(|at| at.value))
    }

    fn problems(&self, _: &PartFacts) -> Vec<Problem> {
        let mut all = Vec::new();
        above_zero("`diameter`", &self.diameter, &mut all);
        above_zero("`opens`", self.opens.as_ref(), &mut all);
        if let Some(at) = self.opens.as_ref().filter(|at| at.value.number() >= self.diameter.value.number()) {
            all.push(Problem::of_sizes(at.place, "a hole that it opens (`opens`) is smaller than the drill"));
        }
        above_zero("`wall`", &self.wall, &mut all);
        above_zero("`depth`", self.depth.as_ref(), &mut all);
        above_zero("`edge`", self.edge.as_ref(), &mut all);
        above_zero("`least-left`", self.least_left.as_ref(), &mut all);
        above_zero("`stick-out`", self.stick_out.as_ref(), &mut all);
        if let Some(hold) = &self.hold {
            hold.problems(None, &mut all);
        }
        match (&self.depth, self.goes_through()) {
            (None, false) => all.push(Problem::new(
                self.diameter.place,
                "give `depth`, or `through: true` where the drill is to come out behind",
            )),
            _ if self.goes_through() && self.least_left.is_some() => {
                let place = self.least_left.as_ref().map_or(self.diameter.place, |at| at.place);
                all.push(Problem::new(place, "a hole that goes through leaves nothing: it has no `least-left`"));
            }
            (Some(depth), true) => {
                all.push(Problem::new(depth.place, "a hole that goes through has no `depth`: its wall is its depth"));
            }
            _ => {}
        }
        let (depth, wall) = (self.depth.as_ref().map(|at| at.value.number()), self.wall.value.typed());
        if let (Some(at), Some(depth), Some(wall)) = (&self.depth, depth, wall)
            && depth >= wall
            && !self.goes_through()
        {
            all.push(Problem::new(
                at.place,
                "`depth` is no less than the wall: a hole that is to go through says `through: true`",
            ));
        }
        all
    }

    fn instead(&self, bench: &Bench) -> Vec<(Words, Instead)> {
        let own = self.diameter.value.number();
        let near = constant::<Mm>("drill-near-least").map_or(0.0, |near| near.number());
        let drills = bench.shop.map(|shop| shop.drills()).unwrap_or_default();
        let near = drills.into_iter().map(|drill| drill.diameter).filter(|size| (size - own).abs() <= near);
        let name = |size: f64| {
            let words = Words::of(if size > own { "drill-makes-it-larger" } else { "drill-makes-it-smaller" });
            words.with("size", kit::drill_size(size)).with("off", kit::mm((size - own).abs()))
        };
        near.map(|size| (name(size), Instead::Size(size))).collect()
    }

    fn take_instead(&mut self, tool: Instead) {
        if let Instead::Size(size) = tool {
            self.diameter.value = Mm::new(size);
        }
    }

    fn work(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        self.work_it(bench, answer)
    }
}
