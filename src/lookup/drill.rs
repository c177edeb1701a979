//! `book drill diameter=… material=… [depth=…]`: point, speed, feed; torque and thrust by each school side by side.

use super::{Offer, Question, Reply, wording};
use crate::handbook::constants::{constant, guard_factor};
use crate::handbook::cutting::drill_forces::{self, Forces};
use crate::handbook::cutting::drilling;
use crate::handbook::cutting::speeds::{self, Work};
use crate::handbook::cutting::times;
use crate::handbook::{Material, ToolMaterial, threads::insert};
use crate::operations::Name;
use crate::proof::{At, Refusal, Side, Worked};
use crate::quantity::{
    Angle, MPerMin, Minutes, Mm, MmPerRev, Newton, NewtonMetre, Quantity, Ratio, Removal, RevPerMin, drawer_list,
};
use crate::reading::Problem;
use crate::shop::Shop;
use schemars::JsonSchema;
use serde::Deserialize;

/// Point, speed, feed, torque and thrust of a drill.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct DrillAsked {
    /// The drill.
    diameter: At<Mm>,
    /// The metal.
    material: At<Material>,
    /// Depth of the hole, for what eases a deep one.
    depth: Option<At<Mm>>,
    /// Feed of one's own.
    feed: Option<At<MmPerRev>>,
    /// Point angle; left out, the usual one.
    point: Option<At<Angle>>,
}

const DIAMETER: Name<Mm> = Name::new("drill_diameter", "drill");
const ANGLE: Name<Angle> = Name::new("point_angle", "point angle");
const POINT: Name<Mm> = Name::new("point_length", "length of the point");
const SPEED: Name<MPerMin> =
    Name::new("surface_speed", "cutting speed to begin with, HSS, and the band of what may be a start");
const FEED: Name<MmPerRev> = Name::new("feed", "feed by the drill's diameter, the low end first");
const DEEP_SPEED: Name<Ratio> = Name::new("deep_hole_speed_factor", "deep hole: speed times");
const DEEP_FEED: Name<Ratio> = Name::new("deep_hole_feed_factor", "deep hole: feed times");
const SPINDLE: Name<RevPerMin> = Name::new("spindle_wanted", "spindle speed wanted");
const REMOVED: Name<Removal> = Name::new("metal_removed", "metal removed in a minute");
const TIME: Name<Minutes> = Name::new("time", "time of one hole, approach and point with it");
const FORCE_FEED: Name<MmPerRev> = Name::new("feed_of_the_forces", "feed at which the forces are worked, the high end");
const TORQUE: Name<NewtonMetre> = Name::lower("drill_torque", "torque on the drill");
const THRUST: Name<Newton> = Name::lower("drill_thrust", "thrust on the drill");
const TORQUE_SPREAD: Name<NewtonMetre> =
    Name::lower("drill_torque", "torque, the greatest of the forms, and their spread");
const THRUST_SPREAD: Name<Newton> = Name::lower("drill_thrust", "thrust, the greatest of the forms, and their spread");

impl Question for DrillAsked {
    const PLAIN: Option<&'static str> = None;

    fn names() -> Vec<(String, String)> {
        let drills = drawer_list().map(|(name, inches)| (name, format!("{inches} in")));
        super::metals().into_iter().chain(drills).collect()
    }

    fn reply(&self, _: Option<&Shop>) -> Result<Reply, Vec<Problem>> {
        let mut reply = Reply::new(wording::drill_title(&self.material));
        if let Err(refusal) = self.work(&mut reply) {
            reply.refuse(wording::DRILLING, refusal);
        }
        for row in speeds::every_speed_row(&self.material, Work::Drill, ToolMaterial::Hss) {
            reply.rows.push(wording::cutting_row(row));
        }
        Ok(reply)
    }
}

impl DrillAsked {
    fn work(&self, reply: &mut Reply) -> Result<(), Refusal> {
        let diameter = Worked::from(&self.diameter);
        reply.put(&DIAMETER, &diameter);
        let angle = self.point.as_ref().map(Worked::from).map_or_else(|| constant("drill-point-angle"), Ok)?;
        reply.put(&ANGLE, &angle);
        let point = reply.put_or_say(&POINT, insert::drill_point(&diameter, &angle));
        let feed = match &self.feed {
            Some(typed) => Worked::from(typed),
            None => speeds::drill_feed(diameter.number())?,
        };
        reply.put(&FEED, &feed);
        let deep = self.deep(reply);
        if let Some(spindle) = self.speed(reply, &diameter, deep)? {
            reply.put_or_say(&REMOVED, times::removal_drilling(&diameter, &feed, &spindle));
            self.time(reply, point, &feed, &spindle)?;
        }
        self.forces(reply, &diameter, &feed, &angle)
    }

    /// The factors of a deep hole: speed first.
    fn deep(&self, reply: &mut Reply) -> Option<Worked<Ratio>> {
        let depth = self.depth.as_ref()?;
        match drilling::deep_hole(depth.value.number(), self.diameter.value.number()) {
            Ok(Some([speed, feed])) => {
                reply.put(&DEEP_SPEED, &speed);
                reply.put(&DEEP_FEED, &feed);
                Some(speed)
            }
            Ok(None) => {
                reply.note(wording::NOT_DEEP);
                None
            }
            Err(refusal) => {
                reply.refuse(DEEP_SPEED.means, refusal);
                None
            }
        }
    }

    /// How long one hole takes, its depth given.
    fn time(
        &self,
        reply: &mut Reply,
        point: Option<Worked<Mm>>,
        feed: &Worked<MmPerRev>,
        spindle: &Worked<RevPerMin>,
    ) -> Result<(), Refusal> {
        let (Some(depth), Some(point)) = (&self.depth, point) else { return Ok(()) };
        let fed = times::depth_fed(&Worked::from(depth), &point, &constant("approach")?)?;
        let one = Worked::assumed(Ratio::new(1.0), wording::ONE_HOLE);
        reply.put_or_say(&TIME, times::drilling_time(&fed, feed, spindle, &one));
        Ok(())
    }

    fn speed(
        &self,
        reply: &mut Reply,
        diameter: &Worked<Mm>,
        deep: Option<Worked<Ratio>>,
    ) -> Result<Option<Worked<RevPerMin>>, Refusal> {
        let start = speeds::start_speed(&self.material, Work::Drill, ToolMaterial::Hss);
        let Some(start) = reply.put_or_say(&SPEED, start) else { return Ok(None) };
        let none = || Worked::assumed(Ratio::new(1.0), wording::NOT_DEEP);
        let wanted = speeds::speed_by_factors(
            &start,
            &deep.unwrap_or_else(none),
            &Worked::assumed(Ratio::new(1.0), wording::NO_HABIT),
        )?;
        Ok(reply.put_or_say(&SPINDLE, speeds::spindle_speed(&wanted, diameter)))
    }

    /// Torque and thrust by each form that has a row for the metal; the greatest, and the spread.
    fn forces(
        &self,
        reply: &mut Reply,
        diameter: &Worked<Mm>,
        feed: &Worked<MmPerRev>,
        angle: &Worked<Angle>,
    ) -> Result<(), Refusal> {
        let feed = feed.worst(Side::High, guard_factor());
        reply.put(&FORCE_FEED, &feed);
        reply.offers_heading = Some(wording::FORMS);
        let names = [wording::HANDBOOK_FORM, wording::KIENZLE_FORM, wording::CONSTANT_FORM];
        let forms = names.into_iter().zip(drill_forces::forms(&self.material, diameter, &feed, angle));
        let mut all: Vec<Forces> = Vec::new();
        for (name, forces) in forms {
            match forces {
                Ok(forces) => {
                    let offer = Offer::new(name, "").with(&TORQUE, &forces.0).with(&THRUST, &forces.1);
                    reply.offers.push(offer);
                    all.push(forces);
                }
                Err(refusal) => reply.refuse(name, refusal),
            }
        }
        if let Some(torque) = drill_forces::greatest(all.iter().map(|forces| &forces.0)) {
            reply.put(&TORQUE_SPREAD, &torque);
        }
        if let Some(thrust) = drill_forces::greatest(all.iter().map(|forces| &forces.1)) {
            reply.put(&THRUST_SPREAD, &thrust);
        }
        Ok(())
    }
}
