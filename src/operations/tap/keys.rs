//! The keys of a tapped hole, what cannot be a real part, and what it answers.

use super::names;
use crate::handbook::{Lead, Thread};
use crate::job::{PartFacts, Reading};
use crate::operations::hole_making::{Beyond, HELD_VALUES};
use crate::operations::kit::above_zero;
use crate::operations::{Answer, Bench, Declared, Hold, Instead, Operation, SetUpWish};
use crate::proof::{At, CheckRule, Refusal, Words};
use crate::quantity::{Mm, Quantity, figure};
use crate::reading::Problem;
use schemars::JsonSchema;
use serde::Deserialize;

/// A thread cut by hand.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Tap {
    /// Its thread.
    pub(super) thread: At<Thread>,
    /// Diameter of the hole that is there (measured).
    pub(super) hole: At<Reading>,
    /// Depth of the full thread.
    pub(super) depth: At<Mm>,
    /// Depth of the hole at its full diameter (measured); left out, only where it goes through.
    pub(super) hole_depth: Option<At<Reading>>,
    /// Whether the hole goes through; left out, it does not.
    pub(super) through: Option<At<bool>>,
    /// Metal from the face to the far side of a hole that goes through (measured).
    pub(super) wall: Option<At<Reading>>,
    /// What lies behind a hole that goes through: the gap (measured), or `clear`.
    pub(super) beyond: Option<At<Beyond>>,
    /// From the middle of the hole to the nearest edge (measured).
    pub(super) edge: Option<At<Reading>>,
    /// Lead of the last tap; left out, plug.
    pub(super) lead: Option<At<Lead>>,
    /// Whether the tap is worn; left out, it is taken as worn.
    pub(super) worn: Option<At<bool>>,
    /// How it is held.
    pub(super) hold: Option<Hold>,
    /// Machine, name, feature, remark; left out, none.
    pub(super) set_up: Option<SetUpWish>,
}

impl Tap {
    /// Whether the hole goes through.
    pub(super) fn goes_through(&self) -> bool {
        self.through.as_ref().is_some_and(|at| at.value)
    }
}

impl Operation for Tap {
    fn values(&self) -> &'static [&'static [Declared]] {
        &[names::VALUES, HELD_VALUES]
    }

    fn checks(&self) -> &'static [CheckRule] {
        const {
            &[
                CheckRule::must("series-known", &[]),
                CheckRule::must("hole-not-small", &["hole"]),
                CheckRule::must("hole-not-wide", &["hole"]),
                CheckRule::must("room-under-the-tap", &["hole-depth"]),
                CheckRule::must("tap-reaches", &["reach of the tap"]),
                CheckRule::must("tap-stands-it", &[]),
                CheckRule::must("threads-enough", &[]),
                CheckRule::must("thread-in-metal", &["wall"]),
                CheckRule::must("tap-hard-enough", &[]),
                CheckRule::must("never-cut", &[]),
                CheckRule::must("what-is-behind", &["beyond"]),
                CheckRule::must("edge-wall", &["edge"]),
                CheckRule::must("held", &["hold"]),
                CheckRule::must("grip", &["hold.tested"]),
                CheckRule::must("grip-looked-at", &["hold.tested"]),
                CheckRule::must("grip-length", &["hold.grip", "hold.overhang", "hold.diameter"]),
                CheckRule::may("tap-in-drawer", &[]),
            ]
        }
    }

    fn gripped(&self) -> Option<&crate::operations::Hold> {
        self.hold.as_ref()
    }

    fn set_up(&self) -> Option<&SetUpWish> {
        self.set_up.as_ref()
    }

    fn fluids(&self, _: &str) -> &'static [(usize, &'static str)] {
        &[(0, "tap")]
    }

    fn problems(&self, _: &PartFacts) -> Vec<Problem> {
        let mut all = Vec::new();
        above_zero("`hole`", &self.hole, &mut all);
        above_zero("`depth`", &self.depth, &mut all);
        above_zero("`hole-depth`", self.hole_depth.as_ref(), &mut all);
        above_zero("`wall`", self.wall.as_ref(), &mut all);
        above_zero("`edge`", self.edge.as_ref(), &mut all);
        if let Some(hold) = &self.hold {
            hold.problems(None, &mut all);
        }
        if let Some(at) = self.hole_depth.as_ref().filter(|_| self.goes_through()) {
            let says = "a hole that goes through has no `hole-depth`: leave one of the two out";
            all.push(Problem::new(at.place, says));
        }
        if let Some(at) = self.wall.as_ref().filter(|_| !self.goes_through()) {
            let says =
                "only of a hole that goes through (`through: true`) is the wall asked: a blind one has `hole-depth`";
            all.push(Problem::new(at.place, says));
        }
        if let Some(at) = self.beyond.as_ref().filter(|_| !self.goes_through()) {
            let says = "only of a hole that goes through (`through: true`) is asked what lies behind";
            all.push(Problem::new(at.place, says));
        }
        let pitch = self.thread.value.pitch().number();
        if self.depth.value.number() > 0.0 && self.depth.value.number() < pitch {
            let says = format!("a thread no deeper than its pitch ({} mm) is none", figure(pitch));
            all.push(Problem::of_sizes(self.depth.place, says));
        }
        let major = self.thread.value.major().number();
        if self.hole.value.typed().is_some_and(|hole| hole >= major) {
            all.push(Problem::new(
                self.hole.place,
                "`hole` is no smaller than the thread: there is no metal to cut it in",
            ));
        }
        all
    }

    fn instead(&self, bench: &Bench) -> Vec<(Words, Instead)> {
        self.other_leads(bench)
    }

    fn take_instead(&mut self, tool: Instead) {
        if let Instead::Lead(lead) = tool {
            self.lead = Some(At { value: lead, place: self.thread.place });
        }
    }

    fn work(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        self.work_it(bench, answer)
    }
}
