//! `book bush joint=… bore=… outside=… interference=… bush=… housing=…`: two thick cylinders, elastic, and where that ends.

use super::{Question, Reply, wording};
use crate::handbook::Material;
use crate::handbook::constants::constant;
use crate::handbook::joints::joint::{PressJoint, Service};
use crate::handbook::joints::{heating, press, reaming::forbids_reaming};
use crate::operations::Name;
use crate::proof::{At, Origin, Refusal, Side, Verdict, Worked};
use crate::quantity::{Celsius, Mm, Newton, NewtonMetre, Quantity, Ratio, Roughness, Shift, Stress, Wanted};
use crate::reading::Problem;
use crate::shop::Shop;
use schemars::JsonSchema;
use serde::Deserialize;

/// A bush pressed into a ring: closing in, pressure, stress.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct BushAsked {
    /// Joint diameter: the bore of the housing.
    joint: At<Mm>,
    /// Bore of the bush before pressing; 0 for a solid pin.
    bore: At<Mm>,
    /// Outside of the housing about the joint.
    outside: At<Mm>,
    /// Interference on diameter, limits allowed.
    interference: At<Wanted<Mm>>,
    /// Metal of the bush.
    bush: At<Material>,
    /// Metal of the housing.
    housing: At<Material>,
    /// Length of the joint, for the force.
    length: Option<At<Mm>>,
    /// Roughness of either surface.
    finish: Option<At<Roughness>>,
}

const JOINT: Name<Mm> = Name::new("joint_diameter", "joint diameter");
const LOSS: Name<Mm> = Name::new("roughness_loss", "interference lost to roughness, on diameter");
const MOST: Name<Shift> = Name::new("interference_max", "interference, most: for stress, force and heat");
const LEAST: Name<Shift> = Name::new("interference_min", "interference, least, less the roughness: for grip");
const PRESSURE: Name<Stress> =
    Name::new("joint_pressure", "pressure in the joint at the most interference, the high end for stress and force");
const NOMINAL: Name<Stress> =
    Name::new("joint_pressure_nominal", "pressure in the joint at the middle, surfaces bedded in");
const PRESSURE_MIN: Name<Stress> =
    Name::new("joint_pressure_min", "pressure in the joint at the least interference, for grip");
const HOOP_HOUSING: Name<Stress> = Name::new("hoop_housing", "hoop stress of the housing at the joint, tension +");
const HOOP_OUTSIDE: Name<Stress> = Name::new("hoop_housing_outside", "hoop stress of the housing at its outside");
const HOOP_AT_JOINT: Name<Stress> =
    Name::new("hoop_bush_at_joint", "hoop stress of the bush at the joint, as far as it stays elastic");
const ASKED: Name<Stress> =
    Name::new("housing_stress", "what decides in the housing: hoop and pressure together, iron: hoop alone");
const STANDS: Name<Stress> = Name::new("housing_strength", "what the housing stands, the low end");
const HOOP_BUSH: Name<Stress> = Name::new("hoop_bush", "hoop stress of the bush at its bore, tension +");
const FIRST_YIELD: Name<Stress> =
    Name::new("first_yield_pressure", "pressure at which the bore of the bush begins to yield");
const FULL_YIELD: Name<Stress> = Name::new("full_yield_pressure", "pressure at which the whole bush yields");
const CLOSE_IN: Name<Mm> = Name::new("close_in", "how much the bore closes in at the middle interference");
const CLOSE_IN_MOST: Name<Mm> = Name::new("close_in_most", "most that the bore may close in at the most interference");
const SHARE: Name<Ratio> = Name::new("close_in_share", "close-in over interference");
const BORE: Name<Mm> = Name::new("bore_after_pressing", "bore of the bush after pressing");
const GROWTH: Name<Mm> = Name::new("boss_growth", "how much the outside of the housing grows");
const FORCE: Name<Newton> = Name::lower("press_force", "force at the end of the stroke, at the most interference");
const HOLDING: Name<Newton> = Name::upper("holding_force", "force that it holds, at the least interference");
const SLIP: Name<NewtonMetre> = Name::upper("slip_torque", "torque at which it turns");
const TEMPERATURE: Name<Celsius> =
    Name::lower("housing_temperature", "temperature of the housing at which the bush drops in");
const STOP: Name<Celsius> = Name::upper("stop_temperature", "temperature above which the housing must not go");

impl Question for BushAsked {
    const PLAIN: Option<&'static str> = None;

    fn reply(&self, _: Option<&Shop>) -> Result<Reply, Vec<Problem>> {
        let (bore, joint, outside) = (self.bore.number(), self.joint.number(), self.outside.number());
        if bore >= joint {
            return Err(vec![Problem::new(self.bore.place, wording::BORE_OVER_JOINT)]);
        }
        if joint >= outside {
            return Err(vec![Problem::new(self.outside.place, wording::JOINT_OVER_OUTSIDE)]);
        }
        let mut reply = Reply::new(wording::bush_title(&self.bush, &self.housing));
        reply.put(&JOINT, &Worked::from(&self.joint));
        if let Err(refusal) = self.work(&mut reply) {
            reply.refuse(wording::BUSH, refusal);
        }
        Ok(reply)
    }
}

/// What was asked, as figures.
struct Given {
    d: Worked<Mm>,
    d_i: Worked<Mm>,
    d_o: Worked<Mm>,
    /// The interference with its limits as a band.
    delta: Worked<Shift>,
    most: Worked<Shift>,
    /// Once the surfaces have bedded in: least, and the middle with its band up to no loss.
    least: Worked<Shift>,
    settled: Worked<Shift>,
}

impl BushAsked {
    fn work(&self, reply: &mut Reply) -> Result<(), Refusal> {
        let given = self.given(reply)?;
        let joint = PressJoint::new((&self.bush, &self.housing), &given.d, &given.d_i, &given.d_o);
        let (p, weakest) = (joint.for_stress(&given.most)?, joint.for_grip(&given.most)?);
        reply.put(&PRESSURE, &p.clone().with_band(weakest.number(), p.number()));
        reply.put(&NOMINAL, &joint.for_stress(&given.settled)?);
        reply.put(&PRESSURE_MIN, &joint.for_grip(&given.least)?);
        let service = Service::cold(forbids_reaming(&self.bush).is_none());
        self.housing(reply, &joint, (&given, &p), service)?;
        if given.d_i.number() > 0.0 {
            reply.put_or_say(&HOOP_BUSH, joint.hoop_bush(&p));
            self.bore(reply, &joint, &given, service)?;
        }
        self.heat(reply, &given.most)?;
        self.force(reply, &p, (&given.least, joint.for_grip(&given.least)?))
    }

    fn given(&self, reply: &mut Reply) -> Result<Given, Refusal> {
        let limits = &self.interference.value;
        let (low, high) = (limits.low.number(), limits.high.number());
        let typed = |mm: f64| Worked::exact(Shift::new(mm), Origin::Typed(self.interference.place));
        let middle = typed(limits.nominal.number());
        let delta = if low < high { middle.clone().with_band(low, high) } else { middle.clone() };
        let most = typed(high);
        reply.put(&MOST, &most);
        let loss = self.loss(reply)?;
        let least = press::interference_left(&typed(low), &loss)?;
        reply.put(&LEAST, &least);
        let settled = press::interference_left(&middle, &loss)?;
        let settled = settled.clone().with_band(settled.number(), middle.number());
        let (d, d_i, d_o) = (Worked::from(&self.joint), Worked::from(&self.bore), Worked::from(&self.outside));
        Ok(Given { d, d_i, d_o, delta, most, least, settled })
    }

    /// What the housing is asked, against what it stands.
    fn housing(
        &self,
        reply: &mut Reply,
        joint: &PressJoint,
        (given, p): (&Given, &Worked<Stress>),
        service: Service,
    ) -> Result<(), Refusal> {
        reply.put_or_say(&HOOP_HOUSING, joint.hoop_housing(p));
        let [bush, outside] = joint.hoops_outside(p);
        reply.put_or_say(&HOOP_OUTSIDE, outside);
        reply.put_or_say(&HOOP_AT_JOINT, bush);
        reply.put_or_say(&GROWTH, joint.boss_growth(p));
        reply.put_or_say(&ASKED, joint.asked_of_housing(p));
        match joint.of_housing(&given.delta, service, guard())? {
            Some(stressed) => {
                reply.put(&STANDS, &stressed.proven_to);
                match stressed.check("housing-stress", guard()).verdict() {
                    Some(Verdict::Fails) => reply.note(wording::HOUSING_YIELDS),
                    Some(Verdict::Doubtful) => reply.note(wording::HOUSING_DOUBTFUL),
                    _ => {}
                }
            }
            None => reply.refuse(wording::BUSH, self.housing.yield_low().err().unwrap_or(NO_STRENGTH)),
        }
        Ok(())
    }

    /// What pressing flattens of the two surfaces.
    fn loss(&self, reply: &mut Reply) -> Result<Worked<Mm>, Refusal> {
        let finish = match &self.finish {
            Some(at) => at.into(),
            None => {
                reply.note(wording::FINISH_ASSUMED);
                constant::<Roughness>("finish-unknown")?
            }
        };
        let share = constant::<Ratio>("roughness-loss")?.nominal(wording::LOSS_SHARE);
        let loss = press::roughness_loss(&share, &finish, &finish)?;
        reply.put(&LOSS, &loss);
        Ok(loss)
    }

    /// Close-in and the bore that is left; where the bush yields, that is said.
    fn bore(&self, reply: &mut Reply, joint: &PressJoint, given: &Given, service: Service) -> Result<(), Refusal> {
        let close = joint.close_in(&given.settled)?;
        reply.put(&CLOSE_IN, &close);
        reply.put(&CLOSE_IN_MOST, &joint.close_in(&given.most)?.worst(Side::High, guard()));
        reply.put_or_say(&SHARE, joint.share());
        reply.put_or_say(&BORE, press::bore_pressed(&given.d_i, &close));
        if let (Some(first), Some(full)) = (joint.first_yield()?, joint.full_yield_low()?) {
            reply.put(&FIRST_YIELD, &first);
            reply.put(&FULL_YIELD, &full);
            match joint.elastic(&given.most)?.number() {
                p if p > full.number() => reply.note(wording::YIELDS_THROUGH),
                p if p > first.number() => reply.note(wording::YIELDS_AT_BORE),
                _ => {}
            }
        }
        match joint.of_bush(&given.delta, service, guard())?.map(|stressed| stressed.check("bush-yield", guard())) {
            Some(check) if check.verdict() == Some(Verdict::Fails) => reply.note(wording::BUSH_FAILS),
            Some(check) if !check.is_proven() => reply.note(wording::BUSH_DOUBTFUL),
            Some(_) => {}
            None => reply.refuse(wording::BUSH, self.bush.yield_low().err().unwrap_or(NO_STRENGTH)),
        }
        Ok(())
    }

    fn force(
        &self,
        reply: &mut Reply,
        p: &Worked<Stress>,
        (settled, least): (&Worked<Shift>, Worked<Stress>),
    ) -> Result<(), Refusal> {
        let Some(length) = self.length.as_ref().map(Worked::from) else {
            reply.note(wording::NO_LENGTH);
            return Ok(());
        };
        let d = Worked::from(&self.joint);
        let with = |mu: &'static str, p: &Worked<Stress>| press::press_force(&constant(mu)?, p, &d, &length);
        reply.put(&FORCE, &with("friction-press-sizing", p)?);
        let (got, unit) = (settled.number(), Shift::UNIT);
        if got <= 0.0 {
            let what = "the least interference once the surfaces have bedded in";
            return Err(Refusal::Outside { what, got, least: 0.0, most: MOST_INTERFERENCE, unit });
        }
        let holding = reply.put_or_say(&HOLDING, with("friction-holding", &least));
        if let Some(holding) = holding {
            reply.put_or_say(&SLIP, press::slip_torque(&holding.worst(Side::Low, guard()), &d));
        }
        Ok(())
    }

    fn heat(&self, reply: &mut Reply, most: &Worked<Shift>) -> Result<(), Refusal> {
        let d = Worked::from(&self.joint);
        let share = constant("assembly-clearance-share")?;
        let room = heating::assembly_clearance(&share, &d, &constant("assembly-clearance-least")?)?;
        let cold = Worked::assumed(Mm::new(0.0), wording::NOT_CHILLED);
        let needed = heating::housing_temperature(most, &room, &cold, &self.housing.expansion()?, &d)?;
        let stop = heating::stop_temperature(&self.housing, false)?;
        reply.put(&TEMPERATURE, &needed);
        reply.put(&STOP, &stop.doubtful);
        if needed.number() > stop.doubtful.number() {
            reply.note(wording::OVER_STOP);
        }
        Ok(())
    }
}

/// The guard factor of the book: limits are typed as limits, so that there is no doubt to guard but that of remembered rows.
fn guard() -> f64 {
    constant::<Ratio>("guard-factor").map_or(f64::INFINITY, |row| row.number())
}

/// The range of the formulas of a joint, mm.
const MOST_INTERFERENCE: f64 = 5.0;
/// Said where the book has a strength that does not serve here.
const NO_STRENGTH: Refusal = Refusal::NotGiven { what: "a strength of the metal", key: "bush" };
