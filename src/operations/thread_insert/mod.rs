//! `thread-insert`: a stripped thread drilled, tapped and given a wire thread insert. Will it break through?
//!
//! Every standard length is worked as a alternative ([`length`]): how deep, how much metal is left, what it holds. The best is
//! taken, each other keeps its reason.

mod checks;
mod choose;
mod clamping;
mod drill;
mod hole;
mod keys;
mod length;
mod names;
mod sketch;
mod speeds;
mod steps;
mod strength;
mod through;
mod zero;

pub use keys::{Beyond, Bolt, BoltThreads, HoleKind, PresentHole, Tang, ZeroKind};

use super::{Answer, Bench, Declared, Hold, Operation, SetUpWish};
use crate::handbook::{InsertLength, Lead, Material, Thread};
use crate::job::{Difference, PartFacts, Reading};
use crate::operations::Value;
use crate::proof::{At, Check, CheckRule, Fact, Refusal, Verdict, Words, Worked};
use crate::quantity::{Decimals, Mm, Newton, Quantity, Ratio, RevPerMin, Wanted};
use crate::reading::Problem;
use keys::read_at;
use names::*;
use schemars::JsonSchema;
use serde::Deserialize;

/// A wire thread insert in a wall.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct ThreadInsert {
    /// Thread of the bolt.
    thread: At<Thread>,
    /// Metal from the face to the far side (measured).
    wall: At<Reading>,
    /// Through or blind.
    hole: At<HoleKind>,
    /// Open gap behind the wall before something moves (measured), or `clear`.
    beyond: Option<At<Beyond>>,
    /// Metal to leave under a blind hole (wanted).
    least_left: Option<At<Wanted<Mm>>>,
    /// Hole centre to the nearest edge (measured).
    edge: Option<At<Reading>>,
    /// Greatest diameter of the hole that is there (measured), or `none`.
    present_hole: Option<At<PresentHole>>,
    /// Its depth to its deepest point (measured).
    present_depth: Option<At<Reading>>,
    /// Width of the chamfer at 45° on its mouth (measured).
    present_chamfer: Option<At<Difference>>,
    /// Where the stop is set to nought.
    zero: Option<At<ZeroKind>>,
    /// Thickness of the strip that a zero is taken on.
    strip: Option<At<Mm>>,
    /// Whether the mouth is countersunk.
    countersink: Option<At<bool>>,
    /// Lead of the insert tap.
    lead: Option<At<Lead>>,
    /// The bolt.
    bolt: Option<Bolt>,
    /// Tang in or out.
    tang: Option<At<Tang>>,
    /// How the part is held.
    hold: Option<Hold>,
    /// Length, in diameters or mm; left out, the best is chosen.
    length: Option<At<InsertLength>>,
    /// Material, where it is not the part's.
    material: Option<At<Material>>,
    /// Set-up wishes.
    set_up: Option<SetUpWish>,
}

impl Operation for ThreadInsert {
    fn values(&self) -> &'static [&'static [Declared]] {
        &[VALUES]
    }

    fn checks(&self) -> &'static [CheckRule] {
        checks::CHECKS
    }

    fn set_up(&self) -> Option<&SetUpWish> {
        self.set_up.as_ref()
    }

    fn metals<'a>(&'a mut self, part: &'a mut PartFacts) -> Vec<&'a mut At<Material>> {
        self.material.as_mut().or(part.material.as_mut()).into_iter().collect()
    }

    fn fluids(&self, _: &str) -> &'static [(usize, &'static str)] {
        &[(0, "any"), (0, "tap")]
    }

    fn problems(&self, part: &PartFacts) -> Vec<Problem> {
        let mut all = Vec::new();
        let pitch = self.thread.value.pitch().number();
        let hole = self.present_hole.as_ref().and_then(|at| read_at(at, at.value.reading()));
        let above_zero = [("wall", Some(&self.wall)), ("edge", self.edge.as_ref()), ("present-hole", hole.as_ref())];
        for (key, at) in above_zero.into_iter().filter_map(|(key, at)| Some((key, at?))) {
            if at.value.typed().is_some_and(|size| size <= 0.0) {
                all.push(Problem::new(at.place, format!("`{key}` must be above zero mm")));
            }
        }
        for at in self.strip.iter().filter(|at| !(0.0..=50.0).contains(&at.value.number()) || at.value.number() == 0.0)
        {
            all.push(Problem::new(at.place, "`strip` lies above zero and up to 50 mm"));
        }
        let chamfer = self.present_chamfer.as_ref().filter(|at| at.value.typed().is_some_and(|c| c < 0.0));
        if let Some(at) = chamfer {
            all.push(Problem::new(at.place, "`present-chamfer` is not under zero mm"));
        }
        if let Some(torque) =
            self.bolt.as_ref().and_then(|bolt| bolt.torque.as_ref()).filter(|t| t.value.number() <= 0.0)
        {
            all.push(Problem::new(torque.place, "`torque` must be above zero"));
        }
        if self.wall.value.typed().is_some_and(|wall| wall > 0.0 && wall < 2.0 * pitch) {
            let pitches = crate::quantity::figure(2.0 * pitch);
            all.push(Problem::new(
                self.wall.place,
                format!("this wall is under two pitches ({pitches} mm): no thread holds in it"),
            ));
        }
        if let Some(reach) = self.bolt.as_ref().and_then(|bolt| bolt.reach.as_ref()).filter(|r| r.value.number() <= 0.0)
        {
            all.push(Problem::new(reach.place, "`reach` must be above zero mm"));
        }
        if self.material.is_none() && part.material.is_none() {
            let says = "the metal of the casting is not known: give `material` here or on the part";
            all.push(Problem::new(self.thread.place, says));
        }
        if let Some(hold) = &self.hold {
            hold.problems(None, &mut all);
        }
        all
    }

    fn work(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        let case = self.case(bench, answer)?;
        let lengths = self.lengths()?;
        for length in &lengths {
            answer.alternative(bench, length.text(), |bench, row| case.with_length(bench, *length, row));
        }
        self.choose(bench, &lengths, answer);
        case.checks(bench, answer)?;
        case.set_ups(bench, answer)
    }
}

/// What all lengths share: readings with their doubt, the hole, the drill, the zero, the metal.
struct Case<'a> {
    asked: &'a ThreadInsert,
    material: Material,
    diameter: Worked<Mm>,
    pitch: Worked<Mm>,
    wall: Worked<Mm>,
    beyond: Option<Worked<Mm>>,
    least_left: Worked<Mm>,
    present_hole: Option<Worked<Mm>>,
    present_depth: Option<Worked<Mm>>,
    edge: Option<Worked<Mm>>,
    countersink: bool,
    tang: Tang,
    hole: hole::Hole,
    zero: zero::Zero,
    /// Doubt of the stop, mm.
    stop: f64,
}

impl ThreadInsert {
    fn material<'a>(&'a self, bench: &Bench<'a>) -> Option<&'a Material> {
        self.material.as_ref().or(bench.part.material.as_ref()).map(|at| &at.value)
    }

    /// Whether something may be there: only `none` says that nothing is.
    fn opens_old_hole(&self) -> bool {
        !self.present_hole.as_ref().is_some_and(|at| at.value == PresentHole::None)
    }

    /// Inserts by the reach of a spark plug: its thread, through a head.
    fn spark_plug(&self) -> bool {
        InsertLength::by_reach(self.thread.value) && self.hole.value == HoleKind::Through
    }
}
