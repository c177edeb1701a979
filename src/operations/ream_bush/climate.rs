//! The temperatures at which the joint lives: cold, and where `running` was typed, warm with the bush as warm as its housing or
//! half way to its shaft.

use super::bore::Finished;
use super::joint::Joint;
use super::sizes::Sizes;
use super::*;
use crate::handbook::constants::constant;
use crate::handbook::joints::heating;
use crate::handbook::joints::joint::{PressJoint, Service};
use crate::proof::{Keep, Origin};

/// Where the joint lives.
pub(super) struct Climate {
    /// Cold, with what decides whether it stays cool enough to be trusted beyond first yield.
    pub cold: Service,
    /// Warm: one for each temperature that the bush may have.
    pub warm: Vec<Warm>,
}

/// One way in which the joint may be warm.
pub(super) struct Warm {
    pub service: Service,
    pub bush: Worked<Celsius>,
    /// What warmth adds to the interference.
    pub adds: Worked<Shift>,
    /// Doubtful where one of the metals is warmer than its strengths are known to.
    pub trusted: Verdict,
}

impl Climate {
    /// What warmth adds where it tightens most; never less than cold.
    pub(super) fn tightest(&self) -> f64 {
        self.warm.iter().map(|warm| warm.adds.number()).fold(0.0, f64::max)
    }

    /// Doubtful where a metal is warmer, in any warm case, than its strengths are known to.
    pub(super) fn trusted(&self) -> Verdict {
        self.warm.iter().map(|warm| warm.trusted).max().unwrap_or(Verdict::Proven)
    }

    /// The warm case in which the joint is loosest.
    pub(super) fn loosest(&self) -> Option<&Warm> {
        self.warm.iter().min_by(|a, b| a.adds.number().total_cmp(&b.adds.number()))
    }

    /// The least and the greatest interference as measured at which everything of the joint is proven, the doubt of the readings
    /// not counted; nothing where a strength is not known.
    pub(super) fn proven(&self, joint: &PressJoint, sizes: &Sizes, guard: f64) -> Result<Option<(f64, f64)>, Refusal> {
        let least = sizes.loss.number() + self.loosest().map_or(0.0, |warm| (-warm.adds.number()).max(0.0));
        let Some(cold) = joint.proven_most(self.cold, guard)? else { return Ok(None) };
        let mut most = cold.number();
        for warm in &self.warm {
            let Some(limit) = joint.proven_most(warm.service, guard)? else { return Ok(None) };
            most = most.min(limit.number() - warm.adds.number().max(0.0));
        }
        Ok(Some((least, most)))
    }
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

impl ReamBush {
    /// The temperatures that were typed.
    pub(super) fn climate(&self, metals: &Metals, sizes: &Sizes, answer: &mut Answer) -> Result<Climate, Refusal> {
        let cut_after = self.forbids(metals).is_none();
        let cold = Service::cold(cut_after);
        let Some(running) = &self.running else {
            let most = constant::<Celsius>("bush-yield-temperature-most")?;
            answer.assume_words(Words::of("stays-cool").with("value", degrees(most.number())));
            return Ok(Climate { cold, warm: Vec::new() });
        };
        let housing: Worked<Celsius> = (&running.housing).into();
        let shaft = self.running_shaft(running).number();
        let between = Celsius::new((shaft + housing.number()) / 2.0);
        let half_way = Worked::exact(between, Origin::Assumed("half way between housing and shaft".into()));
        let d = sizes.d.nominal("a change of size: the doubt of the diameter is small beside it");
        let (alpha_i, alpha_o) = (metals.bush.expansion()?, metals.housing.expansion()?);
        let hottest = housing.number().max(between.number());
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
        Ok(Climate { cold: Service { hottest, ..cold }, warm })
    }

    /// The temperature of the shaft: as typed, else that of the housing.
    pub(super) fn running_shaft(&self, running: &Running) -> Worked<Celsius> {
        running.shaft.as_ref().map_or_else(|| (&running.housing).into(), Into::into)
    }
}

impl ReamBush {
    /// Grip and clearance at running temperature; the stresses stand with the joint.
    pub(super) fn when_it_runs(
        &self,
        bench: &Bench,
        metals: &Metals,
        (sizes, joint, finished): (&Sizes, &Joint, &Finished),
        climate: &Climate,
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        let (Some(running), Some(loosest)) = (&self.running, climate.loosest()) else {
            answer.does_not_apply(&["grip-when-warm", "clearance-when-warm"]);
            return Ok(());
        };
        let of_shaft = self.running_shaft(running);
        answer.fact("running_temperature", degrees(running.housing.value.number()));
        answer.fact("running_shaft", degrees(of_shaft.number()));
        let none = Worked::assumed(Shift::new(0.0), "a bush without interference turns");
        let then = answer.record(&INTERFERENCE_WARM, heating::interference_warm(&joint.settled, &loosest.adds)?);
        let grip =
            Check::judge("grip-when-warm", &then, Keep::AtLeast, &none, bench.guard()).about(INTERFERENCE_WARM.key);
        let trusted = climate.trusted();
        let grip = answer.check(grip.not_better_than(trusted).at(running.housing.place));
        grip.remedy(joint.cure.clone()).remedy(Words::of("pin-it"));
        if trusted != Verdict::Proven {
            grip.remedy(Words::of("strength-when-warm"));
        }
        if finished.middle.is_none() {
            answer.not_checked(&["clearance-when-warm"], &["shaft"]);
            return Ok(());
        }
        let alpha_s = self.shaft_metal(running, answer)?.expansion()?;
        let d = sizes.d.nominal("a change of size: the doubt of the diameter is small beside it");
        let warm: Worked<Celsius> = (&running.housing).into();
        let alpha = (&metals.bush.expansion()?, &metals.housing.expansion()?);
        let at = |bush: &Worked<Celsius>, shaft: &Worked<Celsius>| -> Result<Worked<Shift>, Refusal> {
            let adds = heating::tightened_by(&d, alpha.0, bush, alpha.1, &warm)?;
            let settled =
                joint.settled.nominal("what comes back of the bore: the doubt stands in the limits of the bore");
            let regrown = heating::bore_regrown(&joint.share, &settled, &heating::interference_warm(&settled, &adds)?)?;
            let bore = finished.shaft.nominal("a change of size: the doubt of the diameter is small beside it");
            heating::clearance_warm(&finished.clearance, &regrown, &bore, alpha.0, bush, &alpha_s, shaft)
        };
        answer.record(&CLEARANCE_EVEN, at(&warm, &warm)?);
        for (which, case) in climate.warm.iter().enumerate() {
            let clear = at(&case.bush, &of_shaft)?;
            let clear = if which == 0 { answer.record(&CLEARANCE_WARM, clear) } else { clear };
            let free = Worked::assumed(Shift::new(0.0), "a shaft without clearance binds");
            let check = Check::judge("clearance-when-warm", &clear, Keep::AtLeast, &free, bench.guard());
            let check = answer.check(check.about(CLEARANCE_WARM.key).at(running.housing.place));
            if check.remedies.is_empty() {
                check.remedy(Words::of("more-clearance"));
            }
        }
        Ok(())
    }

    fn shaft_metal(&self, running: &Running, answer: &mut Answer) -> Result<Material, Refusal> {
        if let Some(at) = &running.shaft_material {
            return Ok(at.value.clone());
        }
        answer.assume_words(Words::of("shaft-is-mild-steel"));
        let lacking = || Refusal::NotGiven { what: "the metal of the shaft", key: "running.shaft-material" };
        "mild steel".parse().map_err(|_| lacking())
    }
}
