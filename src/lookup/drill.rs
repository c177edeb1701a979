//! `book drill diameter=… material=… [depth=…]`: point, speed, feed; torque and thrust by each school side by side.

use super::{Offer, Question, Reply, wording};
use crate::handbook::constants::{constant, guard_factor};
use crate::handbook::cutting::cutting_force::{chip_thickness, exponent, force_at_one, specific_force};
use crate::handbook::cutting::drilling::{self, Point};
use crate::handbook::cutting::speeds::{self, Work};
use crate::handbook::cutting::times;
use crate::handbook::{Material, ToolMaterial, threads::insert};
use crate::operations::Name;
use crate::proof::{At, Refusal, Side, Worked};
use crate::quantity::{
    Angle, MPerMin, Minutes, Mm, MmPerRev, Newton, NewtonMetre, Quantity, Ratio, Removal, RevPerMin,
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
const TORQUE: Name<NewtonMetre> = Name::new("drill_torque", "torque on the drill");
const THRUST: Name<Newton> = Name::new("drill_thrust", "thrust on the drill");
const TORQUE_SPREAD: Name<NewtonMetre> =
    Name::new("drill_torque", "torque, the greatest of the forms, and their spread");
const THRUST_SPREAD: Name<Newton> = Name::new("drill_thrust", "thrust, the greatest of the forms, and their spread");

type Forces = (Worked<NewtonMetre>, Worked<Newton>);

impl Question for DrillAsked {
    const PLAIN: Option<&'static str> = None;

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
        let forms = [
            (wording::HANDBOOK_FORM, handbook_form(&self.material, diameter, &feed)),
            (wording::KIENZLE_FORM, kienzle_form(&self.material, diameter, &feed, angle)),
            (wording::CONSTANT_FORM, constant_form(&self.material, diameter, &feed)),
        ];
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
        if let Some(torque) = greatest(all.iter().map(|forces| &forces.0)) {
            reply.put(&TORQUE_SPREAD, &torque);
        }
        if let Some(thrust) = greatest(all.iter().map(|forces| &forces.1)) {
            reply.put(&THRUST_SPREAD, &thrust);
        }
        Ok(())
    }
}

/// The greatest of several figures, with the band of all: from the least end of any to the greatest.
fn greatest<'a, Q: Quantity>(all: impl Iterator<Item = &'a Worked<Q>> + Clone) -> Option<Worked<Q>> {
    let most = all.clone().max_by(|a, b| a.number().total_cmp(&b.number()))?;
    let low = all.clone().map(|figure| figure.band_end(Side::Low)).fold(f64::INFINITY, f64::min);
    let high = all.map(|figure| figure.band_end(Side::High)).fold(f64::NEG_INFINITY, f64::max);
    Some(if low < high { most.clone().with_band(low, high) } else { most.clone() })
}

fn handbook_form(material: &Material, d: &Worked<Mm>, feed: &Worked<MmPerRev>) -> Result<Forces, Refusal> {
    let factor = drilling::work_factor(material)?;
    let edge = drilling::chisel_edge(Point::Standard)?;
    let wear = constant::<Ratio>("force-factor-wear")?;
    let by_feed = drilling::feed_factor(feed)?;
    let torque = drilling::handbook_torque(&factor, &by_feed, &drilling::torque_factor(d)?, &edge.torque, &wear)?;
    let by_size = drilling::thrust_factor(d)?;
    let thrust = drilling::handbook_thrust(&factor, &by_feed, &by_size, &edge.thrust, &wear, d, &edge.own)?;
    Ok((torque, thrust))
}

fn constant_form(material: &Material, d: &Worked<Mm>, feed: &Worked<MmPerRev>) -> Result<Forces, Refusal> {
    let constant = drilling::material_constant(material)?;
    Ok((drilling::k_form_torque(&constant, d, feed)?, drilling::k_form_thrust(&constant, d, feed)?))
}

/// Two lips, each with half the feed.
fn kienzle_form(
    material: &Material,
    d: &Worked<Mm>,
    feed: &Worked<MmPerRev>,
    angle: &Worked<Angle>,
) -> Result<Forces, Refusal> {
    let edge = angle.scaled(0.5, wording::HALF_POINT);
    let chip = chip_thickness(&feed.scaled(0.5, wording::EACH_LIP), &edge)?;
    let force = specific_force(&force_at_one(material)?, &chip, &exponent(material)?)?;
    Ok((drilling::drill_torque(feed, &force, d, &edge)?, drilling::drill_thrust(d, feed, &force, &edge)?))
}
