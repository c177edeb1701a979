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
mod sketch;
mod speeds;
mod steps;
mod strength;
mod through;
mod zero;

pub use keys::{Beyond, Bolt, BoltThreads, HoleKind, PresentHole, Tang, ZeroKind};

use super::{Answer, Bench, Declared, Hold, Name, Operation, SetUpWish};
use crate::handbook::{InsertLength, Lead, Material, Thread};
use crate::job::{Difference, PartFacts, Reading};
use crate::operations::Value;
use crate::proof::{At, Check, CheckRule, Fact, Refusal, Verdict, Words, Worked};
use crate::quantity::{Decimals, MPerMin, Mm, Newton, NewtonMetre, Quantity, Ratio, RevPerMin, Wanted};
use crate::reading::Problem;
use keys::read_at;
use schemars::JsonSchema;
use serde::Deserialize;

const WALL: Name<Mm> = Name::new("wall", "metal from the face to the far side");
const BEYOND: Name<Mm> = Name::new("beyond", "open gap behind the wall before something moves");
const INSERT_LENGTH: Name<Mm> = Name::new("insert_length", "nominal length of the insert");
const DRILL_DIAMETER: Name<Mm> = Name::new("drill_diameter", "drill for the insert hole");
const DRILLED_DEPTH: Name<Mm> = Name::new("drilled_depth", "depth of the hole at its full diameter");
const DEPTH_TO_POINT: Name<Mm> = Name::new("depth_to_point", "depth of the hole to the tip of the point");
const POINT: Name<Mm> = Name::new("drill_point", "length of the drill's point");
const FULL_THREAD: Name<Mm> = Name::new("full_thread_depth", "least depth of full insert thread");
const TAP_DEPTH: Name<Mm> = Name::new("tap_depth", "depth that the tap's first thread reaches");
const TAP_TURNS: Name<Ratio> = Name::new("tap_turns", "turns of the tap from its first bite");
const FITTED: Name<Mm> = Name::new("fitted_length", "length that the coil takes in its hole, the short end");
const SET_DOWN: Name<Mm> = Name::upper("set_down", "how far the first coil sits below the face, at most");
const WALL_NEEDED: Name<Mm> = Name::lower("wall_needed", "wall that this length needs, all doubts at their worst");
const METAL_LEFT: Name<Mm> = Name::new("metal_left", "metal left under the hole");
const MAJOR_MIN: Name<Mm> = Name::lower("hole_major_min", "least major diameter of the insert hole");
const PITCH_MIN: Name<Mm> = Name::lower("hole_pitch_min", "least pitch diameter of the insert hole");
const PITCH_MAX: Name<Mm> = Name::upper("hole_pitch_max", "greatest pitch diameter of the insert hole");
const MINOR_MIN: Name<Mm> = Name::lower("hole_minor_min", "least minor diameter of the insert hole");
const MINOR_MAX: Name<Mm> = Name::upper("hole_minor_max", "greatest minor diameter of the insert hole");
const PERCENT_BASIC: Name<Ratio> = Name::new("thread_percent", "percentage of thread on the form's own basis");
const PERCENT_ISO: Name<Ratio> =
    Name::new("thread_percent_iso", "percentage of thread on the basis of ISO 68-1 (5/8 H)");
const PULL_OUT: Name<Newton> = Name::new("pull_out_force", "force that strips the insert hole");
const REACH_MOST: Name<Mm> =
    Name::upper("reach_most_with_tang", "the most that a bolt may reach while the tang stays in");
const BOLT_FORCE: Name<Newton> = Name::new("bolt_force", "force that breaks the bolt");
const CLAMPING: Name<Newton> = Name::new("clamping_force", "clamping force of the bolt");
const CLAMPING_MOST: Name<Newton> =
    Name::new("clamping_force_most", "clamping force of the bolt where the thread runs easiest");
const PROOF_LOAD: Name<Newton> = Name::new("proof_load", "force up to which the bolt keeps its length");
const ENGAGED: Name<Mm> = Name::new("engaged_length", "length of coil that carries");
const EDGE_WALL: Name<Mm> = Name::new("edge_wall", "metal from the hole's thread to the nearest edge");
const STOP_TRAVEL: Name<Mm> = Name::new("stop_travel", "travel of the stop from the zero that was chosen");
const TIP_BEHIND: Name<Mm> =
    Name::new("tip_behind", "how far the drill's tip stands behind the wall of a through hole");
const TAP_OUT: Name<Mm> = Name::new("tap_out", "how far the tap's end stands behind the wall of a through hole");
const LEFT_CUTTING: Name<Mm> =
    Name::new("beyond_left_cutting", "what is left of the gap behind the wall while cutting");
const BOLT_OUT: Name<Mm> =
    Name::new("beyond_when_assembled", "how far the bolt stands behind the wall when the joint is closed");
const LEFT_ASSEMBLED: Name<Mm> =
    Name::new("beyond_left_assembled", "what is left of the gap behind the wall when the joint is closed");
const DRILL_SPEED: Name<RevPerMin> = Name::new("drill_spindle_speed", "spindle step for the drill");
const DRILL_SURFACE: Name<MPerMin> = Name::new("drill_surface_speed", "cutting speed that this step gives the drill");
const TAP_SPEED: Name<RevPerMin> =
    Name::new("tap_spindle_speed", "spindle step for the tap, where it is driven by machine");
const TAP_TORQUE: Name<NewtonMetre> = Name::new("tap_torque", "torque on the tap");
const TABLE_A: Name<Ratio> = Name::new(
    "length_by_tensile_table",
    "length in diameters that one maker's table asks (by tensile strength and screw class)",
);
const TABLE_B: Name<Ratio> = Name::new(
    "length_by_shear_table",
    "length in diameters that another maker's table asks (by shear strength and screw strength)",
);

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
    const VALUES: &'static [Declared] = &[
        WALL.declare(),
        BEYOND.declare(),
        INSERT_LENGTH.declare(),
        DRILL_DIAMETER.declare(),
        DRILLED_DEPTH.declare(),
        DEPTH_TO_POINT.declare(),
        POINT.declare(),
        FULL_THREAD.declare(),
        TAP_DEPTH.declare(),
        TAP_TURNS.declare(),
        FITTED.declare(),
        SET_DOWN.declare(),
        WALL_NEEDED.declare(),
        METAL_LEFT.declare(),
        MAJOR_MIN.declare(),
        PITCH_MIN.declare(),
        PITCH_MAX.declare(),
        MINOR_MIN.declare(),
        MINOR_MAX.declare(),
        PERCENT_BASIC.declare(),
        PERCENT_ISO.declare(),
        PULL_OUT.declare(),
        REACH_MOST.declare(),
        BOLT_FORCE.declare(),
        CLAMPING.declare(),
        CLAMPING_MOST.declare(),
        PROOF_LOAD.declare(),
        ENGAGED.declare(),
        EDGE_WALL.declare(),
        STOP_TRAVEL.declare(),
        TIP_BEHIND.declare(),
        TAP_OUT.declare(),
        LEFT_CUTTING.declare(),
        BOLT_OUT.declare(),
        LEFT_ASSEMBLED.declare(),
        DRILL_SPEED.declare(),
        DRILL_SURFACE.declare(),
        TAP_SPEED.declare(),
        TAP_TORQUE.declare(),
        TABLE_A.declare(),
        TABLE_B.declare(),
    ];

    const CHECKS: &'static [CheckRule] = checks::CHECKS;

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
            answer.alternative(&length.text(), |row| case.with_length(bench, *length, row));
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
