//! How deep a drill is sent, how far it reaches, and how fast it runs.

use super::effort::Effort;
use super::names::{DEPTH_TO_POINT, FEED, LEFT_BEHIND, SPEED, STOP_TRAVEL, SURFACE, TIME, TIP_BEHIND, WALL};
use super::{Case, Drilled, Thick};
use crate::handbook::constants::constant;
use crate::handbook::cutting::speeds::{self, Work};
use crate::handbook::cutting::{drilling, times};
use crate::handbook::threads::insert;
use crate::operations::hole_making::{self, Asks};
use crate::operations::spindle::Begins;
use crate::operations::{Answer, Bench};
use crate::proof::{Cause, Check, Keep, Origin, Refusal, Verdict, Worked};
use crate::quantity::{Mm, MmPerRev, Quantity, Ratio, RevPerMin};
use crate::shop::Machine;

/// How fast it runs.
pub(in crate::operations) struct Run {
    /// The spindle step; none where no machine is known.
    pub step: Option<Worked<RevPerMin>>,
    /// The feed of the table.
    pub feed: Worked<MmPerRev>,
    /// Whether the hole is so deep that the drill must come out for its chips.
    pub deep: bool,
}

/// The travel of the stop from the face, down to whole divisions; what the tip then reaches, with the doubt of the stop.
///
/// # Errors
/// As the formulas of the stop.
pub(in crate::operations) fn reached(
    case: &Case,
    depth: &Worked<Mm>,
    answer: &mut Answer,
) -> Result<Worked<Mm>, Refusal> {
    let face = case.zero.clone();
    let tip = insert::depth_to_point(depth, &case.point)?;
    let travel = answer.record(&STOP_TRAVEL, insert::stop_travel(&tip, &face)?);
    answer.fact("stop_set", hole_making::stop_set(&travel, case.dial.division));
    let reached = insert::depth_reached(&travel, &face)?.with_doubt(Cause::Set("depth stop"), case.stop);
    Ok(answer.record(&DEPTH_TO_POINT, reached))
}

/// How much further than its middle the corners of a drill come out in a bore that lies across it, mm.
fn falls_away(drill: f64, bore: f64) -> f64 {
    let (corner, bore) = (drill / 2.0, bore / 2.0);
    bore - (bore.powi(2) - corner.powi(2)).max(0.0).sqrt()
}

impl Drilled<'_> {
    /// It is sent through at the thick end of the wall; the tip then stands out behind, into whatever lies there.
    pub(in crate::operations) fn through(
        &self,
        bench: &Bench,
        case: &Case,
        answer: &mut Answer,
    ) -> Result<Worked<Mm>, Refusal> {
        // A point that is out before the drill's corners are in leads it no more: it grabs.
        let led = Check::judge("sheet-thick-enough", &case.wall, Keep::AtLeast, &case.point, bench.guard());
        answer.check(led.about(WALL.key).at(self.wall.place()).not_worse_than(Verdict::Doubtful));
        let level = Worked::assumed(Mm::new(0.0), "the face");
        let lacks = hole_making::lacking(&case.wall, level, case.stop, bench.guard())?;
        let wall = case.wall.nominal("the stop is set for the wall as read and what that lacks in surety");
        let overrun = constant::<Mm>("through-overrun")?;
        let overrun = overrun.shifted(case.corner.number(), "and the far corner of a drill that slants");
        let bore = match (self.wall, self.bore) {
            (Thick::Bush { bore, .. }, _) => Some(bore.number()),
            (Thick::Read(_), bore) => bore,
        };
        let away = bore.map_or(0.0, |bore| falls_away(case.diameter.number(), bore));
        let overrun = overrun.shifted(away, "and a bore that falls away under the drill's corners");
        let sure = insert::through_depth(&wall, &lacks, &overrun)?;
        let deepest = reached(case, &sure, answer)?;
        let tip = answer.record(&TIP_BEHIND, insert::behind_wall(&deepest, &case.wall)?);
        match self.wall {
            Thick::Bush { bore, place, .. } => {
                hole_making::gap_behind(bench, "behind", (&tip, &LEFT_BEHIND), (bore, place), answer)?;
            }
            Thick::Read(at) => {
                hole_making::behind(bench, "behind", (&tip, &LEFT_BEHIND), (self.beyond, at.place), answer)?;
            }
        }
        Ok(sure)
    }

    /// Speed, feed, torque, thrust and time.
    pub(in crate::operations) fn run(
        &self,
        bench: &Bench,
        case: &Case,
        depth: &Worked<Mm>,
        machine: Option<&Machine>,
        answer: &mut Answer,
    ) -> Result<Run, Refusal> {
        hole_making::named_machine(machine, self.set_up, answer);
        let deep = drilling::deep_hole(depth.number(), case.diameter.number())?;
        let none = || Worked::exact(Ratio::new(1.0), Origin::Assumed("no factor".into()));
        let factor = deep.as_ref().map_or_else(none, |[speed, _]| speed.clone());
        let feed = answer.record(&FEED, speeds::drill_feed(case.diameter.number())?);
        let effort = Effort::of(bench, (&case.cuts_as, &case.diameter, &case.angle), &feed, answer)?;
        let begins = Begins::of(&case.cuts_as, (Work::Drill, case.tool), factor)?;
        let asks = (&case.diameter, effort.torque.as_ref());
        let step = hole_making::drill_step(bench, machine, &begins, asks, answer)?;
        if let Some(step) = &step {
            answer.record(&SPEED, step.clone());
            answer.record(&SURFACE, speeds::surface_speed(step, &case.diameter)?);
            let fed = times::depth_fed(depth, &case.point, &constant("approach")?)?;
            answer.record(&TIME, times::drilling_time(&fed, &feed, step, &none())?);
        }
        effort.against_the_machine(bench, step.as_ref(), machine, answer)?;
        self.stands_it(bench, case, &effort, depth, answer)?;
        let asks = Asks { torque: effort.torque.as_ref(), across: &case.diameter, grabs: self.through };
        hole_making::held(bench, self.hold, &asks, answer)?;
        Ok(Run { step, feed, deep: deep.is_some() })
    }
}
