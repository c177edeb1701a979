//! The press joint, worked one way for whoever asks: pressure, first and full yield, close-in, what bush and housing stand cold
//! and warm, and the interference that would be proven.
//!
//! A metal is a range: for grip the weakest bush of it decides (it yields first and then presses no harder), for stress the
//! strongest. The diameters inside the stiffness are taken exact, but for the bore of the bush where a stress is judged.

use super::heating::REFERENCE;
use super::press;
use crate::handbook::constants::constant;
use crate::handbook::materials::groups::{Kind, Material};
use crate::proof::{Check, Keep, Refusal, Side, Verdict, Worked};
use crate::quantity::{Mm, Quantity, Ratio, Shift, Stress};

/// Two cylinders of two metals.
#[derive(Debug)]
pub struct PressJoint<'a> {
    bush: &'a Material,
    housing: &'a Material,
    d: Worked<Mm>,
    bore: Worked<Mm>,
    outside: Worked<Mm>,
}

/// How warm a joint becomes, and what is done with it after pressing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Service {
    /// Temperature of the bush at which its strength is asked, °C.
    pub bush: f64,
    /// Temperature of the housing at which its strength is asked, °C.
    pub housing: f64,
    /// The hottest that the joint ever becomes, °C: a hot bush goes on yielding.
    pub hottest: f64,
    /// Whether the bore is cut to size after pressing.
    pub cut_after: bool,
}

/// A stress as it is judged: its middle and its worst end, the limit to which it is proven and the one to which it is doubtful.
#[derive(Clone, Debug, PartialEq)]
pub struct Stressed {
    /// At the interference as measured, without loss.
    pub middle: Worked<Stress>,
    /// At the worst end.
    pub worst: Worked<Stress>,
    /// Proven up to this.
    pub proven_to: Worked<Stress>,
    /// Doubtful up to this; nothing where it is never worse than doubtful.
    pub doubtful_to: Option<Worked<Stress>>,
    /// The pressure at which the first limit is met.
    pub pressure_proven: Worked<Stress>,
}

impl Stressed {
    /// The stress judged: the worst end against the first limit, the middle against the second.
    pub fn check(&self, id: &'static str, guard: f64) -> Check {
        match &self.doubtful_to {
            Some(limit) => {
                Check::judge_two(id, (&self.worst, &self.proven_to), Keep::AtMost, (&self.middle, limit), guard)
            }
            None => {
                Check::judge(id, &self.worst, Keep::AtMost, &self.proven_to, guard).not_worse_than(Verdict::Doubtful)
            }
        }
    }
}

impl Service {
    /// At 20 °C all the time.
    pub const fn cold(cut_after: bool) -> Self {
        Self { bush: REFERENCE, housing: REFERENCE, hottest: REFERENCE, cut_after }
    }
}

impl<'a> PressJoint<'a> {
    /// A joint. `d` is the bore of the housing, `bore` that of the bush (0 for a solid pin), `outside` that of the housing, mm.
    pub fn new(
        (bush, housing): (&'a Material, &'a Material),
        d: &Worked<Mm>,
        bore: &Worked<Mm>,
        outside: &Worked<Mm>,
    ) -> Self {
        let exact = |x: &Worked<Mm>| x.nominal("diameters inside the stiffness: their doubt is small beside the wall");
        Self { bush, housing, d: exact(d), bore: bore.clone(), outside: exact(outside) }
    }

    fn exact_bore(&self) -> Worked<Mm> {
        self.bore.nominal("diameters inside the stiffness: their doubt is small beside the wall")
    }

    /// Elastic pressure at an interference; each end without interference has none.
    ///
    /// # Errors
    /// Outside the range of the formulas, or where the book lacks a figure of a metal.
    pub fn elastic(&self, delta: &Worked<Shift>) -> Result<Worked<Stress>, Refusal> {
        self.pressure_with(delta, &self.exact_bore())
    }

    /// The wall of the bush must still be there where its bore is as large as it may be: a stress of no wall is none.
    fn wall(&self, guard: f64) -> Result<(), Refusal> {
        let (got, most) = (self.bore.worst_number(Side::High, guard), self.d.number());
        if got < most {
            return Ok(());
        }
        let what = "the bore of the bush, as large as its doubt lets it be,";
        Err(Refusal::Outside { what, got, least: 0.0, most, unit: Mm::UNIT })
    }

    fn pressure_with(&self, delta: &Worked<Shift>, bore: &Worked<Mm>) -> Result<Worked<Stress>, Refusal> {
        let gives = press::bush_gives(&self.d, bore, &self.bush.poisson()?)?;
        let opens = press::housing_gives(&self.d, &self.outside, &self.housing.poisson()?)?;
        let delta = delta.at_least(0.0, "no interference, no pressure");
        press::joint_pressure(&delta, &self.d, &gives, &self.bush.modulus()?, &opens, &self.housing.modulus()?)
    }

    /// Interference at which the joint presses so hard.
    ///
    /// # Errors
    /// As [`Self::elastic`].
    pub(crate) fn interference_at(&self, p: &Worked<Stress>) -> Result<Worked<Shift>, Refusal> {
        let gives = press::bush_gives(&self.d, &self.exact_bore(), &self.bush.poisson()?)?;
        let opens = press::housing_gives(&self.d, &self.outside, &self.housing.poisson()?)?;
        press::interference_for_pressure(p, &self.d, &gives, &self.bush.modulus()?, &opens, &self.housing.modulus()?)
    }

    /// Pressure for grip and holding: a bush of the weakest of its metal that yields all through presses no harder.
    ///
    /// # Errors
    /// As [`Self::elastic`].
    pub fn for_grip(&self, delta: &Worked<Shift>) -> Result<Worked<Stress>, Refusal> {
        Ok(capped(self.elastic(delta)?, self.full_yield_low()?.as_ref()))
    }

    /// Pressure for stress and press force: only what the strongest bush of the metal could not press is left out.
    ///
    /// # Errors
    /// As [`Self::elastic`].
    pub fn for_stress(&self, delta: &Worked<Shift>) -> Result<Worked<Stress>, Refusal> {
        Ok(capped(self.elastic(delta)?, self.full_yield_high()?.as_ref()))
    }

    /// Yield stress of the bush, low and high end, where it has one: grey iron breaks, a solid pin has no bore to yield at.
    fn bush_yield(&self) -> Option<(Worked<Stress>, Worked<Stress>)> {
        if self.bush.kind() == Kind::GreyIron || self.bore.number() <= 0.0 {
            return None;
        }
        let low = self.bush.yield_low().ok()?;
        let high = self.bush.yield_high().unwrap_or_else(|_| low.clone());
        Some((low, high))
    }

    /// Pressure at which the weakest bush of the metal begins to yield at its bore.
    ///
    /// # Errors
    /// As [`Self::elastic`].
    pub fn first_yield(&self) -> Result<Option<Worked<Stress>>, Refusal> {
        let bore = self.exact_bore();
        self.bush_yield().map(|(low, _)| press::first_yield(&low, &bore, &self.d)).transpose()
    }

    /// Pressure at which the weakest bush of the metal yields all through.
    ///
    /// # Errors
    /// As [`Self::elastic`].
    pub(crate) fn full_yield_low(&self) -> Result<Option<Worked<Stress>>, Refusal> {
        let bore = self.exact_bore();
        self.bush_yield().map(|(low, _)| press::full_plastic(&low, &self.d, &bore)).transpose()
    }

    /// Pressure at which the strongest bush of the metal yields all through.
    ///
    /// # Errors
    /// As [`Self::elastic`].
    pub(crate) fn full_yield_high(&self) -> Result<Option<Worked<Stress>>, Refusal> {
        let bore = self.exact_bore();
        self.bush_yield().map(|(_, high)| press::full_plastic(&high, &self.d, &bore)).transpose()
    }

    /// Interference at which the weakest bush begins to yield at its bore.
    ///
    /// # Errors
    /// As [`Self::elastic`].
    pub fn first_yield_interference(&self) -> Result<Option<Worked<Shift>>, Refusal> {
        self.first_yield()?.map(|p| self.interference_at(&p)).transpose()
    }

    /// Hoop stress at the bore of the bush, compression negative; not beyond the yield of the strongest.
    ///
    /// # Errors
    /// As [`Self::elastic`].
    pub fn hoop_bush(&self, p: &Worked<Stress>) -> Result<Worked<Stress>, Refusal> {
        let hoop = press::hoop_bush_bore(p, &self.d, &self.exact_bore())?;
        Ok(match self.bush_yield() {
            Some((_, high)) => hoop.at_least(-high.number(), "yields all through, in compression"),
            None => hoop,
        })
    }

    /// Hoop stresses where they are least: of the bush at the joint, of the housing at its outside, both elastic.
    ///
    /// # Errors
    /// As [`Self::elastic`].
    pub(crate) fn hoops_outside(&self, p: &Worked<Stress>) -> [Result<Worked<Stress>, Refusal>; 2] {
        let bush = press::hoop_bush_outside(p, &self.d, &self.exact_bore());
        [bush, press::hoop_housing_outside(p, &self.d, &self.outside)]
    }

    /// Hoop stress of the housing at the joint.
    ///
    /// # Errors
    /// As [`Self::elastic`].
    pub fn hoop_housing(&self, p: &Worked<Stress>) -> Result<Worked<Stress>, Refusal> {
        press::hoop_housing_bore(p, &self.d, &self.outside)
    }

    /// What decides in the housing at a pressure: hoop and pressure together, of grey iron the hoop alone.
    ///
    /// # Errors
    /// As [`Self::elastic`].
    pub(crate) fn asked_of_housing(&self, p: &Worked<Stress>) -> Result<Worked<Stress>, Refusal> {
        let hoop = self.hoop_housing(p)?;
        if self.housing.kind() == Kind::GreyIron { Ok(hoop) } else { press::tresca(&hoop, p) }
    }

    /// Growth of the outside of the housing.
    ///
    /// # Errors
    /// As [`Self::elastic`].
    pub fn boss_growth(&self, p: &Worked<Stress>) -> Result<Worked<Mm>, Refusal> {
        press::boss_growth(p, &self.d, &self.outside, &self.housing.modulus()?)
    }

    /// Elastic close-in over interference: the same for every interference.
    ///
    /// # Errors
    /// As [`Self::elastic`].
    pub fn share(&self) -> Result<Worked<Ratio>, Refusal> {
        let unit = Worked::assumed(Shift::new(0.01), "a hundredth, to see how much of it reaches the bore");
        let p = self.elastic(&unit)?;
        press::close_in_share(&press::close_in(&p, &self.d, &self.exact_bore(), &self.bush.modulus()?)?, &unit)
    }

    /// Close-in at an interference; what lies beyond first yield goes into the bore once to d/D_i times.
    ///
    /// # Errors
    /// As [`Self::elastic`].
    pub fn close_in(&self, delta: &Worked<Shift>) -> Result<Worked<Mm>, Refusal> {
        let share = self.share()?;
        let Some(at_yield) = self.first_yield_interference()? else { return press::close_in_elastic(&share, delta) };
        let most = press::plastic_share_most(&self.d, &self.exact_bore())?;
        let reaches = delta.band_end(Side::High).max(delta.worst_number(Side::High, 2.0)) > at_yield.number();
        let k = most.shifted((1.0 - most.number()) / 2.0, "half way between once and all that keeps the volume");
        let k = if reaches { k.with_band(1.0, most.number()) } else { k };
        press::close_in_at(&share, delta, &at_yield, &k)
    }

    /// The bush at an interference (as measured, without loss, with its doubt), against what it stands.
    ///
    /// # Errors
    /// As [`Self::elastic`].
    pub fn of_bush(&self, delta: &Worked<Shift>, service: Service, guard: f64) -> Result<Option<Stressed>, Refusal> {
        self.wall(guard)?;
        let figure = self.pressure_with(delta, &self.bore)?;
        let (middle, worst) = (self.elastic(&exact(delta))?, figure.worst(Side::High, guard));
        if self.bush.kind() == Kind::GreyIron && self.bore.number() > 0.0 {
            return self.of_iron_bush(&middle, &worst).map(Some);
        }
        let Some((low, _)) = self.bush_yield() else { return Ok(None) };
        let re = warm_strength(self.bush, low, service.bush)?;
        let cool_most = constant::<Ratio>("bush-yield-temperature-most")?.number();
        let cool = service.hottest <= cool_most;
        let proven_to = match service.cut_after && cool {
            true => {
                press::trusted_stress(&constant("bush-yield-share")?, &press::full_plastic(&re, &self.d, &self.bore)?)?
            }
            false => press::first_yield(&re, &self.bore, &self.d)?,
        };
        let pressure_proven = proven_to.worst(Side::Low, guard);
        Ok(Some(Stressed { middle, worst, proven_to, doubtful_to: None, pressure_proven }))
    }

    /// A bush of grey iron has no yield: its hoop compression against its tensile strength.
    fn of_iron_bush(&self, middle: &Worked<Stress>, worst: &Worked<Stress>) -> Result<Stressed, Refusal> {
        let bore = self.exact_bore();
        let pressed = |p: &Worked<Stress>| -> Result<_, Refusal> {
            let hoop = press::hoop_bush_bore(p, &self.d, &bore)?;
            Ok(hoop.scaled(-1.0, "compression, as its size"))
        };
        let strength = self.bush.tensile_low()?;
        let limit = |row| press::trusted_stress(&constant(row)?, &strength);
        let (proven_to, doubtful_to) =
            (limit("grey-iron-compression-share")?, limit("grey-iron-compression-share-doubtful")?);
        let of_one = pressed(&Worked::assumed(Stress::new(1.0), "one, to turn the formula round"))?;
        let pressure_proven = proven_to.scaled(1.0 / of_one.number(), "the pressure that gives this compression");
        Ok(Stressed {
            middle: pressed(middle)?,
            worst: pressed(worst)?,
            proven_to,
            doubtful_to: Some(doubtful_to),
            pressure_proven,
        })
    }

    /// The housing at an interference (as measured, without loss, with its doubt), against what it stands; nothing where the book
    /// has no strength of its metal.
    ///
    /// # Errors
    /// As [`Self::elastic`].
    pub fn of_housing(&self, delta: &Worked<Shift>, service: Service, guard: f64) -> Result<Option<Stressed>, Refusal> {
        self.wall(guard)?;
        let cap = self.full_yield_high()?;
        let at = |p: Worked<Stress>| self.asked_of_housing(&capped(p, cap.as_ref()));
        let worst = at(self.pressure_with(delta, &self.bore)?.worst(Side::High, guard))?;
        let middle = at(self.elastic(&exact(delta))?)?;
        let of_one = self.asked_of_housing(&Worked::assumed(Stress::new(1.0), "one, to turn the formula round"))?;
        let back = |asked: &Worked<Stress>| asked.scaled(1.0 / of_one.number(), "the pressure that asks for this");
        let (proven_to, doubtful_to, pressure_proven) = if self.housing.kind() == Kind::GreyIron {
            let strength = self.housing.tensile_low()?;
            let limit = |row| press::iron_hoop_most(&constant(row)?, &strength);
            let proven = limit("grey-iron-hoop-share")?;
            (proven.clone(), limit("grey-iron-hoop-share-doubtful")?, back(&proven))
        } else {
            let Ok(low) = self.housing.yield_low() else { return Ok(None) };
            let re = warm_strength(self.housing, low, service.housing)?;
            let first = press::housing_first_yield(&re, &self.d, &self.outside)?;
            let spread = press::housing_spread(&constant("housing-spread-share")?, &re, &self.outside, &self.d)?;
            (re, self.asked_of_housing(&spread)?, first)
        };
        Ok(Some(Stressed { middle, worst, proven_to, doubtful_to: Some(doubtful_to), pressure_proven }))
    }

    /// The greatest interference at which bush and housing are proven in this service, what warmth adds not counted.
    ///
    /// # Errors
    /// As [`Self::elastic`].
    pub(crate) fn proven_most(&self, service: Service, guard: f64) -> Result<Option<Worked<Shift>>, Refusal> {
        let none = Worked::assumed(Shift::new(0.0), "only the limits are asked");
        let (bush, housing) = (self.of_bush(&none, service, guard)?, self.of_housing(&none, service, guard)?);
        let (Some(bush), Some(housing)) = (bush, housing) else { return Ok(None) };
        let least = if bush.pressure_proven.number() < housing.pressure_proven.number() { bush } else { housing };
        let limit = self.interference_at(&least.pressure_proven)?;
        // The doubt of the bush's bore moves every pressure by the same share.
        let unit = Worked::assumed(Shift::new(0.01), "a hundredth, to see how much the doubt of the bore moves it");
        let one = self.pressure_with(&unit, &self.bore)?;
        let share = one.plus_minus() * guard / 2.0 / one.number();
        Ok(Some(limit.scaled(1.0 / (1.0 + share), "less what the doubt of the bush's bore may add")))
    }
}

fn exact(delta: &Worked<Shift>) -> Worked<Shift> {
    delta.nominal("the middle of a stress: the interference as measured")
}

/// A pressure, not more than a cap; each end of a band is held apart.
fn capped(p: Worked<Stress>, cap: Option<&Worked<Stress>>) -> Worked<Stress> {
    match cap {
        Some(cap) if p.number() >= cap.number() => {
            let low = p.band_end(Side::Low).min(cap.number());
            if low < cap.number() { cap.clone().with_band(low, cap.number()) } else { cap.clone() }
        }
        Some(cap) => p.at_most(cap.number(), "the bush yields all through and presses no harder"),
        None => p,
    }
}

/// Yield of a metal where it is used: light metals lose some of it when they are warm.
fn warm_strength(metal: &Material, re: Worked<Stress>, temperature: f64) -> Result<Worked<Stress>, Refusal> {
    let light = matches!(metal.kind(), Kind::Aluminium | Kind::Magnesium);
    if !light || temperature <= constant::<Ratio>("warm-strength-from")?.number() {
        return Ok(re);
    }
    press::trusted_stress(&constant("warm-strength-share-light-metal")?, &re)
}
