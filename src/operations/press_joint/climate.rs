//! The temperatures at which the joint lives: cold, and where `running` was typed, warm with the bush as warm as its housing or
//! half way to its shaft.

use super::asked::Asked;
use super::keys::Running;
use super::metals::Metals;
use super::names::fitted::{JUDGED_COLD, JUDGED_TO};
use super::sizes::Sizes;
use crate::handbook::Material;
use crate::handbook::constants::{constant, row};
use crate::handbook::joints::heating;
use crate::handbook::joints::joint::{PressJoint, Service};
use crate::operations::Answer;
use crate::operations::kit::{coldest, degrees};
use crate::proof::{At, Origin, Refusal, Side, Verdict, Words, Worked};
use crate::quantity::{Celsius, Quantity, Shift};

/// A warmth that nobody typed: what the joint is judged at all the same.
pub(in crate::operations) struct Unsaid {
    /// As warm as the joint is taken to become.
    pub at: Worked<Celsius>,
    /// What that adds to the interference: below nothing where the housing lets go of the bush.
    pub adds: Worked<Shift>,
    /// Where the joint lives then.
    pub service: Service,
    /// Doubtful where one of the metals is warmer than its strengths are known to.
    pub trusted: Verdict,
}

/// The coldest that the joint gets.
pub(in crate::operations) struct Frost {
    pub at: Worked<Celsius>,
    /// What that adds to the interference: below nothing where the bush shrinks away from its housing.
    pub adds: Worked<Shift>,
    /// Whether somebody typed it.
    pub said: bool,
}

/// Where the joint lives.
pub(in crate::operations) struct Climate {
    /// How warm the joint is taken to get at the most: as somebody said, else as is assumed.
    pub judged_to: Worked<Celsius>,
    /// Cold, with what decides whether it stays cool enough to be trusted beyond first yield.
    pub cold: Service,
    /// Warm: one for each temperature that the bush may have.
    pub warm: Vec<Warm>,
    /// Where nobody said how warm it runs, and housing and bush do not grow alike.
    pub unsaid: Option<Unsaid>,
    /// Cold, where the bush shrinks more than its housing.
    pub frost: Option<Frost>,
    /// Cold, where the housing shrinks on to its bush.
    pub squeezed: Option<Frost>,
}

/// One way in which the joint may be warm.
pub(in crate::operations) struct Warm {
    pub service: Service,
    pub bush: Worked<Celsius>,
    /// What warmth adds to the interference.
    pub adds: Worked<Shift>,
    /// Doubtful where one of the metals is warmer than its strengths are known to.
    pub trusted: Verdict,
}

impl Climate {
    /// What warmth adds where it tightens most; never less than cold.
    pub(in crate::operations) fn tightest(&self) -> f64 {
        self.warm.iter().map(|warm| warm.adds.number()).fold(0.0, f64::max)
    }

    /// Doubtful where a metal is warmer, in any warm case, than its strengths are known to.
    pub(in crate::operations) fn trusted(&self) -> Verdict {
        self.warm.iter().map(|warm| warm.trusted).max().unwrap_or(Verdict::Proven)
    }

    /// The warm case in which the joint is loosest.
    pub(in crate::operations) fn loosest(&self) -> Option<&Warm> {
        self.warm.iter().min_by(|a, b| a.adds.number().total_cmp(&b.adds.number()))
    }

    /// The least and the greatest interference as measured at which everything of the joint is proven, the doubt of the readings
    /// not counted; nothing where a strength is not known.
    pub(in crate::operations) fn proven(
        &self,
        joint: &PressJoint,
        sizes: &Sizes,
        guard: f64,
    ) -> Result<Option<(f64, f64)>, Refusal> {
        // What metals do in warmth and frost is itself in doubt.
        let lost = |adds: &Worked<Shift>| -adds.worst(Side::Low, guard).number();
        let gained = |adds: &Worked<Shift>| adds.worst(Side::High, guard).number().max(0.0);
        let adds = self.loosest().map(|warm| &warm.adds).or(self.unsaid.as_ref().map(|unsaid| &unsaid.adds));
        let frost = self.frost.as_ref().map_or(0.0, |frost| lost(&frost.adds));
        let loss = sizes.loss.worst(Side::High, guard).number();
        let least = loss + adds.map_or(0.0, lost).max(frost).max(0.0);
        let Some(cold) = joint.proven_most(self.cold, guard)? else { return Ok(None) };
        let mut most = cold.number();
        let unsaid = self.unsaid.iter().map(|unsaid| (unsaid.service, &unsaid.adds));
        for (service, adds) in self.warm.iter().map(|warm| (warm.service, &warm.adds)).chain(unsaid) {
            let Some(limit) = joint.proven_most(service, guard)? else { return Ok(None) };
            most = most.min(limit.number() - gained(adds));
        }
        // What frost adds stands the same, at the strengths that both have cold.
        let squeezed = self.squeezed.as_ref().map_or(0.0, |frost| gained(&frost.adds));
        most = most.min(cold.number() - squeezed);
        Ok(Some((least, most)))
    }
}

/// Whether what warmth or frost adds is more than anybody reads: a large joint of metals that grow nearly alike asks for it too.
fn matters(adds: &Worked<Shift>) -> Result<bool, Refusal> {
    Ok(adds.number().abs() > row("no-gauge-reads-to")?.value)
}

/// The warmth that nobody typed, where housing and bush grow so differently that it matters.
fn unsaid(metals: &Metals, sizes: &Sizes, at: Worked<Celsius>, cut_after: bool) -> Result<Option<Unsaid>, Refusal> {
    let (alpha_i, alpha_o) = (metals.bush.expansion()?, metals.housing.expansion()?);
    let d = sizes.d.nominal("a change of size: the doubt of the diameter is small beside it");
    let adds = heating::tightened_by(&d, &alpha_i, &at, &alpha_o, &at)?;
    if !matters(&adds)? {
        return Ok(None);
    }
    let warm = at.number();
    let service = Service { bush: warm, housing: warm, hottest: warm, cut_after };
    let trusted = trusted(&[(&metals.bush, warm), (&metals.housing, warm)])?;
    Ok(Some(Unsaid { at, adds, service, trusted }))
}

/// Cold, where the bush shrinks so much more than its housing that it matters.
fn frost(metals: &Metals, sizes: &Sizes, typed: Option<&At<Celsius>>) -> Result<Option<Frost>, Refusal> {
    let (alpha_i, alpha_o) = (metals.bush.expansion()?, metals.housing.expansion()?);
    if alpha_i.number() <= alpha_o.number() {
        return Ok(None);
    }
    let Some(at) = coldest(typed)? else { return Ok(None) };
    let d = sizes.d.nominal("a change of size: the doubt of the diameter is small beside it");
    let adds = heating::tightened_by(&d, &alpha_i, &at, &alpha_o, &at)?;
    Ok((typed.is_some() || matters(&adds)?).then_some(Frost { at, adds, said: typed.is_some() }))
}

/// Cold, where the housing shrinks on to its bush: by how little does not matter, for a joint may stand just under its limit.
fn squeezed(metals: &Metals, sizes: &Sizes, typed: Option<&At<Celsius>>) -> Result<Option<Frost>, Refusal> {
    let (alpha_i, alpha_o) = (metals.bush.expansion()?, metals.housing.expansion()?);
    let Some(at) = coldest(typed)? else { return Ok(None) };
    let d = sizes.d.nominal("a change of size: the doubt of the diameter is small beside it");
    let adds = heating::tightened_by(&d, &alpha_i, &at, &alpha_o, &at)?;
    Ok((adds.number() > 0.0).then_some(Frost { at, adds, said: typed.is_some() }))
}

/// Doubtful where a metal is warmer than its strengths are known to: what holds there cold says little.
fn trusted(metals: &[(&Material, f64)]) -> Result<Verdict, Refusal> {
    for (metal, at) in metals {
        if heating::strength_known_to(metal)?.is_some_and(|most| *at > most.number()) {
            return Ok(Verdict::Doubtful);
        }
    }
    Ok(Verdict::Proven)
}

impl Asked<'_> {
    /// The temperatures that were typed; whether the bore is cut to size after pressing.
    pub(in crate::operations) fn climate(
        &self,
        metals: &Metals,
        sizes: &Sizes,
        cut_after: bool,
        answer: &mut Answer,
    ) -> Result<Climate, Refusal> {
        let cold = Service::cold(cut_after);
        let said = self.running.and_then(|running| running.coldest.as_ref());
        answer.record(&JUDGED_COLD, said.map_or_else(|| constant("joint-coldest"), |said| Ok(said.into()))?);
        let Some(running) = self.running else {
            let most = constant::<Celsius>("bush-yield-temperature-most")?;
            answer.assume_words(Words::of("stays-cool").with("value", degrees(most.number())));
            let most = answer.record(&JUDGED_TO, most);
            let unsaid = unsaid(metals, sizes, most.clone(), cut_after)?;
            let (frost, squeezed) = (frost(metals, sizes, None)?, squeezed(metals, sizes, None)?);
            return Ok(Climate { judged_to: most, cold, warm: Vec::new(), unsaid, frost, squeezed });
        };
        let housing: Worked<Celsius> = (&running.housing).into();
        let shaft = self.running_shaft(running).number();
        if running.shaft.is_none() {
            answer.assume_words(Words::of("shaft-no-warmer").with("value", degrees(shaft)));
        }
        let between = Celsius::new((shaft + housing.number()) / 2.0);
        let half_way = Worked::exact(between, Origin::Assumed("half way between housing and shaft".into()));
        let d = sizes.d.nominal("a change of size: the doubt of the diameter is small beside it");
        let (alpha_i, alpha_o) = (metals.bush.expansion()?, metals.housing.expansion()?);
        let hottest = housing.number().max(between.number());
        let warmest = if hottest > housing.number() { &half_way } else { &housing };
        let judged_to = answer.record(&JUDGED_TO, warmest.clone());
        let mut warm = Vec::new();
        for bush in [housing.clone(), half_way] {
            let adds = heating::tightened_by(&d, &alpha_i, &bush, &alpha_o, &housing)?;
            let service = Service {
                bush: bush.number(),
                housing: housing.number(),
                hottest: bush.number().max(housing.number()),
                cut_after,
            };
            let trusted = trusted(&[(&metals.bush, bush.number()), (&metals.housing, housing.number())])?;
            warm.push(Warm { service, bush, adds, trusted });
        }
        let frost = frost(metals, sizes, running.coldest.as_ref())?;
        let squeezed = squeezed(metals, sizes, running.coldest.as_ref())?;
        Ok(Climate { judged_to, cold: Service { hottest, ..cold }, warm, unsaid: None, frost, squeezed })
    }

    /// The temperature of the shaft: as typed, else that of the housing.
    pub(in crate::operations) fn running_shaft(&self, running: &Running) -> Worked<Celsius> {
        running.shaft.as_ref().map_or_else(|| (&running.housing).into(), Into::into)
    }
}
