//! `book bush joint=… bore=… outside=… interference=… bush=… housing=…`: two thick cylinders, elastic, and where that ends.

use super::{Page, Question, words};
use crate::handbook::constants::{constant, worst};
use crate::handbook::materials::groups::Kind;
use crate::handbook::{
    Material,
    joints::{heating, press},
};
use crate::operations::Name;
use crate::proof::{At, Origin, Refusal, Worked};
use crate::quantity::{Celsius, Mm, Newton, NewtonMetre, Quantity, Ratio, Roughness, Shift, Stress, Wanted};
use crate::reading::Problem;
use crate::shop::Shop;
use serde::Deserialize;

/// The question.
#[derive(Debug, Deserialize)]
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
const HOOP_HOUSING: Name<Stress> = Name::new("hoop_housing", "hoop stress of the housing at the joint, tension +");
const ASKED: Name<Stress> =
    Name::new("housing_stress", "what decides in the housing: hoop and pressure together, iron: hoop alone");
const STANDS: Name<Stress> = Name::new("housing_strength", "what the housing stands, the low end");
const HOOP_BUSH: Name<Stress> = Name::new("hoop_bush", "hoop stress of the bush at its bore, tension +");
const FIRST_YIELD: Name<Stress> =
    Name::new("first_yield_pressure", "pressure at which the bore of the bush begins to yield");
const FULL_YIELD: Name<Stress> = Name::new("full_yield_pressure", "pressure at which the whole bush yields");
const CLOSE_IN: Name<Mm> = Name::new("close_in", "how much the bore closes in at the middle interference");
const SHARE: Name<Ratio> = Name::new("close_in_share", "close-in over interference");
const BORE: Name<Mm> = Name::new("bore_after_pressing", "bore of the bush after pressing");
const GROWTH: Name<Mm> = Name::new("boss_growth", "how much the outside of the housing grows");
const FORCE: Name<Newton> = Name::new("press_force", "force at the end of the stroke, at the most interference");
const HOLDING: Name<Newton> = Name::new("holding_force", "force that it holds, at the least interference");
const SLIP: Name<NewtonMetre> = Name::new("slip_torque", "torque at which it turns");
const TEMPERATURE: Name<Celsius> =
    Name::new("housing_temperature", "temperature of the housing at which the bush drops in");
const STOP: Name<Celsius> = Name::new("stop_temperature", "temperature above which the housing must not go");

impl Question for BushAsked {
    const PLAIN: Option<&'static str> = None;

    fn page(&self, _: Option<&Shop>) -> Result<Page, Vec<Problem>> {
        let (bore, joint, outside) = (self.bore.number(), self.joint.number(), self.outside.number());
        if bore >= joint {
            return Err(vec![Problem::new(self.bore.place, words::BORE_OVER_JOINT)]);
        }
        if joint >= outside {
            return Err(vec![Problem::new(self.outside.place, words::JOINT_OVER_OUTSIDE)]);
        }
        let mut page = Page::new(words::bush_title(&self.bush, &self.housing));
        page.put(&JOINT, &Worked::from(&self.joint));
        if let Err(refusal) = self.work(&mut page) {
            page.refuse(words::BUSH, refusal);
        }
        Ok(page)
    }
}

/// The two cylinders, how far each gives, and where the bush yields.
struct Joint {
    d: Worked<Mm>,
    d_i: Worked<Mm>,
    bush: (Worked<Ratio>, Worked<Stress>),
    housing: (Worked<Ratio>, Worked<Stress>),
    /// Pressure at which the whole bush yields, where its strength is known: for the weakest of its metal.
    full_yield: Option<Worked<Stress>>,
    /// The same for the strongest of its metal.
    full_yield_most: Option<Worked<Stress>>,
}

impl Joint {
    fn elastic(&self, delta: &Worked<Shift>) -> Result<Worked<Stress>, Refusal> {
        press::joint_pressure(delta, &self.d, &self.bush.0, &self.bush.1, &self.housing.0, &self.housing.1)
    }

    /// The least pressure, for grip: a bush of the weakest metal that yields all through presses no harder.
    fn least(&self, delta: &Worked<Shift>) -> Result<Worked<Stress>, Refusal> {
        let elastic = self.elastic(delta)?;
        Ok(match &self.full_yield {
            Some(full) if elastic.number() > full.number() => full.clone(),
            _ => elastic,
        })
    }

    /// The most pressure, for stress and force: only what the strongest bush of the metal could not press is left out.
    fn most(&self, delta: &Worked<Shift>) -> Result<Worked<Stress>, Refusal> {
        let elastic = self.elastic(delta)?;
        Ok(match &self.full_yield_most {
            Some(full) if elastic.number() > full.number() => full.clone(),
            _ => elastic,
        })
    }

    /// The close-in; beyond full yield what is over goes into the bore, once to d/D_i times.
    fn close_in(&self, delta: &Worked<Shift>) -> Result<Worked<Mm>, Refusal> {
        let elastic = |p: &Worked<Stress>| press::close_in(p, &self.d, &self.d_i, &self.bush.1);
        let p = self.elastic(delta)?;
        let Some(full) = self.full_yield.as_ref().filter(|full| p.number() > full.number()) else { return elastic(&p) };
        let (bush, housing) = (&self.bush, &self.housing);
        let at_full = press::interference_for_pressure(full, &self.d, &bush.0, &bush.1, &housing.0, &housing.1)?;
        let close = elastic(full)?;
        let once = Worked::assumed(Ratio::new(1.0), words::ONCE_INTO_BORE);
        let least = press::close_in_plastic(&close, &once, delta, &at_full)?;
        let share = press::plastic_share_most(&self.d, &self.d_i)?;
        let most = press::close_in_plastic(&close, &share, delta, &at_full)?;
        Ok(least.clone().with_band(least.number(), most.number()))
    }
}

impl BushAsked {
    fn work(&self, page: &mut Page) -> Result<(), Refusal> {
        let d_o = Worked::from(&self.outside);
        let typed = |mm: f64| Worked::exact(Shift::new(mm), Origin::Typed(self.interference.place));
        let most = typed(self.interference.high.number());
        let middle = typed(self.interference.nominal.number());
        page.put(&MOST, &most);
        let loss = self.loss(page)?;
        let least = press::interference_left(&typed(self.interference.low.number()), &loss)?;
        page.put(&LEAST, &least);
        let joint = self.joint(page, &d_o)?;
        let (p, weakest) = (joint.most(&most)?, joint.least(&most)?);
        page.put(&PRESSURE, &p.clone().with_band(weakest.number(), p.number()));
        self.housing(page, &joint, &p, &d_o)?;
        if joint.d_i.number() > 0.0 {
            page.put_or_say(&HOOP_BUSH, press::hoop_bush_bore(&p, &joint.d, &joint.d_i));
            self.bore(page, &joint, &most, &press::interference_left(&middle, &loss)?)?;
        }
        self.force(page, &p, joint.least(&least))?;
        self.heat(page, &most)
    }

    fn joint(&self, page: &mut Page, d_o: &Worked<Mm>) -> Result<Joint, Refusal> {
        let (d, d_i) = (Worked::from(&self.joint), Worked::from(&self.bore));
        let bored = d_i.number() > 0.0;
        let full = |strength: Worked<Stress>| press::full_plastic(&strength, &d, &d_i);
        let weakest = if bored { page_or_none(page, self.bush.yield_low()) } else { None };
        let strongest = self.bush.yield_high().ok().filter(|_| bored);
        Ok(Joint {
            bush: (press::bush_gives(&d, &d_i, &self.bush.poisson()?)?, self.bush.modulus()?),
            housing: (press::housing_gives(&d, d_o, &self.housing.poisson()?)?, self.housing.modulus()?),
            full_yield: weakest.map(full).transpose()?,
            full_yield_most: strongest.map(full).transpose()?,
            d,
            d_i,
        })
    }

    /// What the housing is asked, against what it stands: iron by a share of its tensile strength, others by their yield.
    fn housing(&self, page: &mut Page, joint: &Joint, p: &Worked<Stress>, d_o: &Worked<Mm>) -> Result<(), Refusal> {
        let hoop = press::hoop_housing_bore(p, &joint.d, d_o)?;
        page.put(&HOOP_HOUSING, &hoop);
        page.put_or_say(&GROWTH, press::boss_growth(p, &joint.d, d_o, &joint.housing.1));
        let (asked, stands) = match self.housing.kind() {
            Kind::GreyIron => {
                let share = constant("grey-iron-hoop-share")?;
                (hoop, self.housing.tensile_low().and_then(|tensile| press::iron_hoop_most(&share, &tensile)))
            }
            _ => (press::tresca(&hoop, p)?, self.housing.yield_low()),
        };
        page.put(&ASKED, &asked);
        if page.put_or_say(&STANDS, stands).is_some_and(|stands| asked.number() > stands.number()) {
            page.note(words::HOUSING_YIELDS);
        }
        Ok(())
    }

    /// What pressing flattens of the two surfaces.
    fn loss(&self, page: &mut Page) -> Result<Worked<Mm>, Refusal> {
        let finish = self.finish.as_ref().map_or_else(
            || {
                page.note(words::FINISH_ASSUMED);
                Worked::assumed(Roughness::new(USUAL_FINISH), words::FINISH_ASSUMED)
            },
            Worked::from,
        );
        let loss = press::roughness_loss(&constant("roughness-loss")?, &finish, &finish)?;
        page.put(&LOSS, &loss);
        Ok(loss)
    }

    /// Close-in and the bore that is left; where the bush yields, that is said.
    fn bore(&self, page: &mut Page, joint: &Joint, most: &Worked<Shift>, left: &Worked<Shift>) -> Result<(), Refusal> {
        let close = joint.close_in(left)?;
        page.put(&CLOSE_IN, &close);
        page.put_or_say(&SHARE, press::close_in_share(&close, left));
        let pressed = press::bore_pressed(&joint.d_i, &close)?;
        let bore = joint.d_i.number();
        let banded = close.band().map(|(low, high)| pressed.clone().with_band(bore - high, bore - low));
        page.put(&BORE, &banded.unwrap_or(pressed));
        let Some(full) = &joint.full_yield else { return Ok(()) };
        let first = press::first_yield(&self.bush.yield_low()?, &joint.d_i, &joint.d)?;
        page.put(&FIRST_YIELD, &first);
        page.put(&FULL_YIELD, full);
        match joint.elastic(most)?.number() {
            p if p > full.number() => page.note(words::YIELDS_THROUGH),
            p if p > first.number() => page.note(words::YIELDS_AT_BORE),
            _ => {}
        }
        Ok(())
    }

    fn force(
        &self,
        page: &mut Page,
        p: &Worked<Stress>,
        least: Result<Worked<Stress>, Refusal>,
    ) -> Result<(), Refusal> {
        let Some(length) = self.length.as_ref().map(Worked::from) else {
            page.note(words::NO_LENGTH);
            return Ok(());
        };
        let d = Worked::from(&self.joint);
        let with = |mu: &Worked<Ratio>, p: &Worked<Stress>| press::press_force(mu, p, &d, &length);
        let force = with(&worst("friction-press-sizing", true)?, p)?;
        let low = with(&worst("friction-press-sizing", false)?, p)?;
        page.put(&FORCE, &force.clone().with_band(low.number(), force.number()));
        let Some(least) = page_or_none(page, least) else { return Ok(()) };
        let holding = with(&worst("friction-holding", false)?, &least)?;
        let high = with(&worst("friction-holding", true)?, &least)?;
        page.put(&HOLDING, &holding.clone().with_band(holding.number(), high.number()));
        page.put_or_say(&SLIP, press::slip_torque(&holding, &d));
        Ok(())
    }

    fn heat(&self, page: &mut Page, most: &Worked<Shift>) -> Result<(), Refusal> {
        let d = Worked::from(&self.joint);
        let room = heating::assembly_clearance(
            &constant("assembly-clearance-share")?,
            &d,
            &constant("assembly-clearance-least")?,
        )?;
        let cold = Worked::assumed(Mm::new(0.0), words::NOT_CHILLED);
        let needed = heating::housing_temperature(most, &room, &cold, &self.housing.expansion()?, &d)?;
        let stop = heating::stop_temperature(&self.housing)?;
        page.put(&TEMPERATURE, &needed);
        let careful = stop.doubtful.as_ref().unwrap_or(&stop.fails);
        page.put(&STOP, careful);
        if needed.number() > careful.number() {
            page.note(words::OVER_STOP);
        }
        Ok(())
    }
}

/// Ra of a surface that was not given, µm.
const USUAL_FINISH: f64 = 1.6;

/// A figure, or its refusal on the page.
fn page_or_none<Q: Quantity>(page: &mut Page, worked: Result<Worked<Q>, Refusal>) -> Option<Worked<Q>> {
    worked.map_err(|refusal| page.refuse(words::BUSH, refusal)).ok()
}
