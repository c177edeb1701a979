//! `book turn material=… tool=… diameter=… depth=… feed=… [spindle=…] [nose=…] [length=…]`: what a cut in the lathe asks and leaves.

use super::{Question, Reply, wording};
use crate::handbook::constants::constant;
use crate::handbook::cutting::cutting_force as force;
use crate::handbook::cutting::speeds::{self, Work};
use crate::handbook::cutting::{finish, times};
use crate::handbook::{Material, ToolMaterial};
use crate::operations::Name;
use crate::proof::{At, Refusal, Worked};
use crate::quantity::{
    Angle, KiloWatt, MPerMin, Minutes, Mm, MmPerMin, MmPerRev, Newton, NewtonMetre, Quantity, Ratio, Removal,
    RevPerMin, Roughness, Stress,
};
use crate::reading::Problem;
use crate::shop::Shop;
use schemars::JsonSchema;
use serde::Deserialize;

/// What a cut in the lathe asks and leaves.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct TurnAsked {
    /// The metal.
    material: At<Material>,
    /// What the tool is made of.
    tool: At<ToolMaterial>,
    /// Before the cut.
    diameter: At<Mm>,
    /// On the radius.
    depth: At<Mm>,
    /// Feed of one turn.
    feed: At<MmPerRev>,
    /// The step that is engaged; left out, the speed to begin with.
    spindle: Option<At<RevPerMin>>,
    /// Nose radius, for the feed marks.
    nose: Option<At<Mm>>,
    /// Edge angle of the tool.
    edge: Option<At<Angle>>,
    /// The length turned, for the time.
    length: Option<At<Mm>>,
    /// How many passes.
    passes: Option<At<Ratio>>,
}

const SPINDLE: Name<RevPerMin> = Name::new("spindle_speed", "spindle speed of the cut");
const SPEED: Name<MPerMin> = Name::new("surface_speed", "cutting speed at that diameter");
const RATE: Name<MmPerMin> = Name::new("feed_rate", "feed a minute");
const CHIP: Name<Mm> = Name::new("chip_thickness", "thickness of the chip");
const SPECIFIC: Name<Stress> = Name::new("specific_force", "specific cutting force at that chip");
const FORCE: Name<Newton> = Name::lower("cutting_force", "cutting force, an edge that is worn");
const TORQUE: Name<NewtonMetre> = Name::lower("spindle_torque", "torque on the spindle");
const POWER: Name<KiloWatt> = Name::lower("cutting_power", "power at the edge");
const MOTOR: Name<KiloWatt> = Name::lower("power_at_motor", "power that the motor must give through a geared head");
const REMOVED: Name<Removal> = Name::new("metal_removed", "metal removed in a minute");
const MARKS: Name<Roughness> = Name::new("feed_marks", "height of the feed marks of a true nose, Rt");
const ROUGHNESS: Name<Roughness> = Name::new("roughness", "mean roughness that it really leaves, Ra");
const TIME: Name<Minutes> = Name::new("time", "time of the passes, approach and overrun not counted");

impl Question for TurnAsked {
    const PLAIN: Option<&'static str> = None;

    fn names() -> Vec<(String, String)> {
        super::metals()
    }

    fn reply(&self, _: Option<&Shop>) -> Result<Reply, Vec<Problem>> {
        let mut reply = Reply::new(wording::turn_title(&self.material, self.tool.value));
        if let Err(refusal) = self.work(&mut reply) {
            reply.refuse(wording::TURNING, refusal);
        }
        Ok(reply)
    }
}

impl TurnAsked {
    fn work(&self, reply: &mut Reply) -> Result<(), Refusal> {
        let (diameter, feed) = (Worked::from(&self.diameter), Worked::from(&self.feed));
        let spindle = match &self.spindle {
            Some(typed) => Worked::from(typed),
            None => {
                let start = speeds::start_speed(&self.material, Work::TurnRough, self.tool.value)?;
                speeds::spindle_speed(&start, &diameter)?
            }
        };
        reply.put(&SPINDLE, &spindle);
        let speed = speeds::surface_speed(&spindle, &diameter)?;
        reply.put(&SPEED, &speed);
        reply.put_or_say(&RATE, times::feed_rate(&feed, &spindle));
        reply.put_or_say(&REMOVED, times::removal_turning(&speed, &Worked::from(&self.depth), &feed));
        self.finish(reply, &feed)?;
        if let Some(length) = &self.length {
            let one = || Worked::assumed(Ratio::new(1.0), wording::ONE_PASS);
            let passes = self.passes.as_ref().map_or_else(one, Worked::from);
            reply.put_or_say(&TIME, times::turning_time(&Worked::from(length), &feed, &spindle, &passes));
        }
        self.force(reply, &diameter, &feed, &speed)
    }

    /// What the nose leaves, where it is known.
    fn finish(&self, reply: &mut Reply, feed: &Worked<MmPerRev>) -> Result<(), Refusal> {
        let Some(nose) = self.nose.as_ref().map(Worked::from) else { return Ok(()) };
        reply.put_or_say(&MARKS, finish::roughness_rt(feed, &nose));
        let real = finish::real_over_ideal(&self.material, self.tool.value)?;
        reply.put_or_say(&ROUGHNESS, finish::roughness_ra(feed, &nose, &real));
        Ok(())
    }

    fn force(
        &self,
        reply: &mut Reply,
        diameter: &Worked<Mm>,
        feed: &Worked<MmPerRev>,
        speed: &Worked<MPerMin>,
    ) -> Result<(), Refusal> {
        let depth = Worked::from(&self.depth);
        let edge = self.edge.as_ref().map(Worked::from).map_or_else(|| constant("edge-angle-unknown"), Ok)?;
        let nose = self.nose.as_ref().map(Worked::from).map_or_else(|| constant("nose-unknown"), Ok)?;
        let (chip, floored) = force::chip(feed, &depth, &nose, &edge)?;
        reply.put(&CHIP, &chip);
        if floored {
            reply.note(wording::CHIP_AT_FLOOR);
        }
        let specific =
            force::specific_force(&force::force_at_one(&self.material)?, &chip, &force::exponent(&self.material)?)?;
        reply.put(&SPECIFIC, &specific);
        let (worn, tool) = (constant("force-factor-wear")?, force::tool_factor(self.tool.value)?);
        let force = force::cutting_force(&specific, &worn, &tool, &depth, feed)?;
        reply.put(&FORCE, &force);
        reply.put_or_say(&TORQUE, force::spindle_torque(&force, diameter));
        let power = force::cutting_power(&force, speed)?;
        reply.put(&POWER, &power);
        reply.put_or_say(&MOTOR, force::motor_power(&power, &constant("drive-efficiency-geared-head")?));
        Ok(())
    }
}
