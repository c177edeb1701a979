//! `book mill material=… tool=… cutter=… teeth=… width=… depth=… chip=… [edge=…] [spindle=…] [length=…]`: feed of a tooth from the
//! chip that is wanted, and what the cut asks.

use super::{Question, Reply, wording};
use crate::handbook::constants::constant;
use crate::handbook::cutting::cutting_force as force;
use crate::handbook::cutting::speeds::{self, Work};
use crate::handbook::cutting::times;
use crate::handbook::{Material, ToolMaterial};
use crate::operations::Name;
use crate::proof::{At, Refusal, Worked};
use crate::quantity::{
    Angle, KiloWatt, MPerMin, Minutes, Mm, MmPerMin, MmPerRev, NewtonMetre, Quantity, Ratio, Removal, RevPerMin, Stress,
};
use crate::reading::Problem;
use crate::shop::Shop;
use schemars::JsonSchema;
use serde::Deserialize;

/// What a cut on the mill asks and leaves.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct MillAsked {
    /// The metal.
    material: At<Material>,
    /// What the tool is made of.
    tool: At<ToolMaterial>,
    /// Diameter of the cutter.
    cutter: At<Mm>,
    /// How many teeth.
    teeth: At<Ratio>,
    /// Width of the cut, across the feed.
    width: At<Mm>,
    /// Depth of the cut, along the cutter.
    depth: At<Mm>,
    /// The chip that a tooth is to take: its mean where the side cuts, its thickest where a face mill is meant.
    chip: At<Mm>,
    /// Edge angle of a face mill; left out, the side of the cutter cuts.
    edge: Option<At<Angle>>,
    /// The step that is engaged; left out, the speed to begin with.
    spindle: Option<At<RevPerMin>>,
    /// The length fed, for the time.
    length: Option<At<Mm>>,
}

const SPINDLE: Name<RevPerMin> = Name::new("spindle_speed", "spindle speed of the cut");
const SPEED: Name<MPerMin> = Name::new("surface_speed", "cutting speed at the edge");
const ENGAGED: Name<Ratio> = Name::new("engaged", "width of cut over the cutter");
const THINNING: Name<Ratio> =
    Name::new("chip_thinning", "how far a narrow cut lets the feed of a tooth rise, by the thickest chip");
const TOOTH: Name<Mm> = Name::new("feed_per_tooth", "feed of a tooth for that chip");
const TURN: Name<MmPerRev> = Name::new("feed", "feed of a turn, all teeth");
const RATE: Name<MmPerMin> = Name::new("feed_rate", "feed a minute");
const REMOVED: Name<Removal> = Name::new("metal_removed", "metal removed in a minute");
const SPECIFIC: Name<Stress> = Name::new("specific_force", "specific cutting force at that chip");
const POWER: Name<KiloWatt> = Name::lower("cutting_power", "power at the edges");
const MOTOR: Name<KiloWatt> = Name::lower("power_at_motor", "power that the motor must give through a geared head");
const TORQUE: Name<NewtonMetre> = Name::lower("spindle_torque", "torque on the spindle, mean of a turn");
const TIME: Name<Minutes> = Name::new("time", "time along the length, run-in not counted");

impl Question for MillAsked {
    const PLAIN: Option<&'static str> = None;

    fn names() -> Vec<(String, String)> {
        super::metals()
    }

    fn reply(&self, _: Option<&Shop>) -> Result<Reply, Vec<Problem>> {
        if self.width.value.number() > self.cutter.value.number() {
            return Err(vec![Problem::new(self.width.place, wording::WIDTH_OVER_CUTTER)]);
        }
        let mut reply = Reply::new(wording::mill_title(&self.material, self.tool.value));
        if let Err(refusal) = self.work(&mut reply) {
            reply.refuse(wording::MILLING, refusal);
        }
        Ok(reply)
    }
}

impl MillAsked {
    fn work(&self, reply: &mut Reply) -> Result<(), Refusal> {
        let (cutter, width) = (Worked::from(&self.cutter), Worked::from(&self.width));
        let spindle = match &self.spindle {
            Some(typed) => Worked::from(typed),
            None => {
                let start = speeds::start_speed(&self.material, Work::Mill, self.tool.value)?;
                speeds::spindle_speed(&start, &cutter)?
            }
        };
        reply.put(&SPINDLE, &spindle);
        reply.put_or_say(&SPEED, speeds::surface_speed(&spindle, &cutter));
        let engaged = force::engaged(&width, &cutter)?;
        reply.put(&ENGAGED, &engaged);
        let tooth = self.feed_of_a_tooth(reply, &engaged)?;
        reply.put(&TOOTH, &tooth);
        let feed = force::feed_of_teeth(&tooth, &Worked::from(&self.teeth))?;
        reply.put(&TURN, &feed);
        let rate = times::feed_rate(&feed, &spindle)?;
        reply.put(&RATE, &rate);
        if let Some(length) = &self.length {
            reply.put_or_say(&TIME, times::time_by_feed_rate(&Worked::from(length), &rate));
        }
        let removed = times::removal_milling(&Worked::from(&self.depth), &width, &rate)?;
        reply.put(&REMOVED, &removed);
        self.power(reply, &removed, &spindle)
    }

    /// By the edge angle of a face mill, else by how much of the cutter is engaged.
    fn feed_of_a_tooth(&self, reply: &mut Reply, engaged: &Worked<Ratio>) -> Result<Worked<Mm>, Refusal> {
        let chip = Worked::from(&self.chip);
        if let Some(edge) = &self.edge {
            return Ok(force::feed_for_chip_thickness(&chip, &Worked::from(edge))?.recast());
        }
        // From half the cutter on nothing is thinned, and the formula refuses.
        if let Ok(rise) = force::radial_chip_thinning(engaged) {
            reply.put(&THINNING, &rise);
        }
        force::feed_for_mean_chip(&chip, engaged)
    }

    fn power(&self, reply: &mut Reply, removed: &Worked<Removal>, spindle: &Worked<RevPerMin>) -> Result<(), Refusal> {
        let (at_one, exponent) = (force::force_at_one(&self.material)?, force::exponent(&self.material)?);
        let specific = force::specific_force(&at_one, &Worked::from(&self.chip), &exponent)?;
        reply.put(&SPECIFIC, &specific);
        let power = force::cutting_power_of_removal(removed, &specific)?;
        reply.put(&POWER, &power);
        reply.put_or_say(&MOTOR, force::motor_power(&power, &constant("drive-efficiency-geared-head")?));
        reply.put_or_say(&TORQUE, force::torque_from_power(&power, spindle));
        reply.note(wording::SHARP_EDGES);
        Ok(())
    }
}
