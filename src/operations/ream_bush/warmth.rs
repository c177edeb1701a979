//! Warm housing, cold bush, and the joint when it runs.

use super::bore::Finished;
use super::joint::Joint;
use super::sizes::Sizes;
use super::*;
use crate::handbook::materials::groups::Kind;
use crate::handbook::{joints::{clearance, heating}, constants::constant};
use crate::proof::{Cause, Keep};
use crate::shop::Machine;

/// Temperature of a household freezer, °C: assumed where the shop names none (our own choice).
const FREEZER: f64 = -18.0;
/// Colder than this nothing in a workshop gets, °C: liquid nitrogen.
const COLDEST: f64 = -196.0;
/// Where sizes hold, °C.
const ROOM: f64 = 20.0;

impl ReamBush {
    /// Works how it is put together warm or cold, and how it runs.
    pub(super) fn warmth(
        &self,
        bench: &Bench,
        metals: &Metals,
        sizes: &Sizes,
        joint: &Joint,
        finished: &Finished,
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        let how = self.assembles();
        if how.warms() || how.chills() {
            let d = plain(&sizes.d);
            let room = heating::assembly_clearance(
                &constant("assembly-clearance-share")?,
                &d,
                &constant("assembly-clearance-least")?,
            )?;
            let room = answer.record(&ASSEMBLY_CLEARANCE, room);
            let gain = match how.chills() {
                true => self.chilled(bench, metals, &d, answer)?,
                false => Worked::assumed(Mm::new(0.0), "the bush is not chilled"),
            };
            match how {
                Assemble::ChillBush => self.bush_alone(bench, metals, sizes, &room, answer)?,
                _ => self.housing_warm(bench, metals, sizes, (&room, &gain), answer)?,
            }
        }
        if let Some(running) = &self.running {
            self.when_it_runs(bench, running, metals, (sizes, joint, finished), answer)?;
        }
        Ok(())
    }

    fn freezer(&self, bench: &Bench, answer: &mut Answer) -> Worked<Celsius> {
        match bench.shop.and_then(|shop| shop.freezer()) {
            Some(at) => (&at).into(),
            None => {
                if bench.shop.is_some() {
                    answer.missing.push(Words::of("freezer"));
                    answer.check(Check::of_kind("freezer-in-shop", Verdict::Doubtful));
                }
                answer.assume("freezer", Worked::assumed(Celsius::new(FREEZER), "a household freezer"))
            }
        }
    }

    fn chilled(&self, bench: &Bench, metals: &Metals, d: &Worked<Mm>, answer: &mut Answer) -> Result<Worked<Mm>, Refusal> {
        let freezer = self.freezer(bench, answer);
        answer.fact("freezer_temperature", degrees(freezer.number()));
        let gain = heating::chilled_by(&metals.bush.expansion()?, d, &freezer)?;
        Ok(answer.record(&CHILL_GAIN, gain))
    }

    /// The bush chilled alone: how cold it would have to be, against the freezer.
    fn bush_alone(
        &self,
        bench: &Bench,
        metals: &Metals,
        sizes: &Sizes,
        room: &Worked<Mm>,
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        let freezer = self.freezer(bench, answer);
        let gap = heating::gap_to_open(&sizes.most, room)?;
        let start = Worked::assumed(Celsius::new(ROOM), "sizes hold at 20 °C");
        let wanted = heating::temperature_to_enter(&start, &gap, &metals.bush.expansion()?, &plain(&sizes.d))?;
        if wanted.number() < COLDEST {
            answer.check(Check::of_kind("cold-enough", Verdict::Doubtful)).remedy(Words::of("warm-the-housing-too"));
            return Ok(());
        }
        let wanted = answer.record(&BUSH_TEMPERATURE, wanted);
        let check = Check::judge("cold-enough", &freezer, Keep::AtMost, &wanted, bench.guard());
        answer.check(check.not_worse_than(Verdict::Doubtful)).remedy(Words::of("warm-the-housing-too"));
        Ok(())
    }

    /// The housing in the oven: how hot, against its stop and against the oven.
    fn housing_warm(
        &self,
        bench: &Bench,
        metals: &Metals,
        sizes: &Sizes,
        (room, gain): (&Worked<Mm>, &Worked<Mm>),
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        let (d, alpha) = (plain(&sizes.d), metals.housing.expansion()?);
        let wanted = heating::housing_temperature(&sizes.most, room, gain, &alpha, &d)?;
        let wanted = answer.record(&HOUSING_TEMPERATURE, wanted);
        let mut remedies = Vec::new();
        if !self.assembles().chills() {
            let freezer = bench.shop.and_then(|shop| shop.freezer()).map_or(FREEZER, |at| at.value.number());
            let cold = Worked::assumed(Celsius::new(freezer), "the freezer");
            let gain = heating::chilled_by(&metals.bush.expansion()?, &d, &cold)?;
            let with = heating::housing_temperature(&sizes.most, room, &gain, &alpha, &d)?;
            remedies.push(Words::of("chill-as-well").with("then", degrees(with.number())));
        } else {
            remedies.push(Words::of("dry-ice"));
        }
        remedies.push(Words::of("press-it-cold"));
        let stop = heating::stop_temperature(&metals.housing)?;
        answer.fact("stop_temperature", degrees(stop.fails.number()));
        let check = Check::judge("oven-stop", &wanted, Keep::AtMost, &stop.fails, bench.guard()).about(HOUSING_TEMPERATURE.key);
        let over = stop.doubtful.as_ref().is_some_and(|limit| wanted.number() > limit.number());
        let check = check.not_better_than(if over { Verdict::Doubtful } else { Verdict::Proven });
        let normal = stop.doubtful.map_or(stop.fails.number(), |limit| limit.number());
        let check = check.with("normal", degrees(normal)).with("stop", degrees(stop.fails.number()));
        let place = self.assemble.as_ref().map_or(self.housing.bore.place, |at| at.place);
        let check = answer.check(check.at(place));
        remedies.into_iter().for_each(|words| {
            check.remedy(words);
        });
        self.oven(bench, &wanted, answer);
        if metals.housing.kind() == Kind::Magnesium {
            answer.caution("magnesium-heat");
        }
        Ok(())
    }

    fn oven(&self, bench: &Bench, wanted: &Worked<Celsius>, answer: &mut Answer) {
        let Some(shop) = bench.shop else {
            answer.assume_words(Words::of("oven-not-checked"));
            return;
        };
        let machine = || shop.machines.iter().find_map(|m| if let Machine::Oven(oven) = m { oven.most.clone() } else { None });
        match shop.oven().or_else(machine) {
            Some(most) => {
                let check = Check::judge("oven-reaches", wanted, Keep::AtMost, &(&most).into(), bench.guard());
                let check = check.about(HOUSING_TEMPERATURE.key);
                if check.verdict() != Some(Verdict::Proven) {
                    answer.missing.push(Words::of("hotter-oven"));
                }
                answer.check(check.not_worse_than(Verdict::Doubtful));
            }
            None => {
                answer.missing.push(Words::of("oven"));
                answer.check(Check::of_kind("oven-in-shop", Verdict::Doubtful));
            }
        }
    }

    /// Grip and clearance at running temperature.
    fn when_it_runs(
        &self,
        bench: &Bench,
        running: &Running,
        metals: &Metals,
        (sizes, joint, finished): (&Sizes, &Joint, &Finished),
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        let (alpha_o, alpha_i) = (metals.housing.expansion()?, metals.bush.expansion()?);
        let warm: Worked<Celsius> = (&running.housing).into();
        let of_shaft: Worked<Celsius> = running.shaft.as_ref().map_or_else(|| warm.clone(), Into::into);
        let shaft = match &running.shaft_material {
            Some(at) => at.value.clone(),
            None => {
                answer.assume_words(Words::of("shaft-is-mild-steel"));
                let lacking = || Refusal::NotGiven { what: "the metal of the shaft", key: "running.shaft-material" };
                "mild steel".parse().map_err(|_| lacking())?
            }
        };
        let alpha_s = shaft.expansion()?;
        answer.fact("running_temperature", degrees(warm.number()));
        answer.fact("running_shaft", degrees(of_shaft.number()));
        let then = heating::interference_at(&sizes.left, &alpha_o, &alpha_i, &plain(&sizes.d), &warm)?;
        let then = answer.record(&INTERFERENCE_WARM, then);
        let none = Worked::assumed(Shift::new(0.0), "a bush without interference turns");
        let grip = Check::judge("grip-when-warm", &then, Keep::AtLeast, &none, bench.guard()).about(INTERFERENCE_WARM.key);
        answer.check(grip.at(running.housing.place)).remedy(Words::of("more-interference")).remedy(Words::of("pin-it"));

        let cold = clearance::clearance(&plain(&finished.middle), &plain(&finished.shaft))?;
        let half = (finished.clearance_max.number() - finished.clearance_min.number()) / 2.0;
        let cold = not_under_zero(cold).with_doubt(Cause::Named("bore limits"), half);
        let regrown = heating::bore_regrown(&joint.share, &plain(&sizes.left), &plain(&then))?;
        let at = |shaft: &Worked<Celsius>| {
            heating::clearance_warm(&cold, &regrown, &plain(&finished.middle), &alpha_i, &warm, &alpha_s, shaft)
        };
        let clear = answer.record(&CLEARANCE_WARM, at(&of_shaft)?);
        let even = at(&warm)?;
        answer.record(&CLEARANCE_EVEN, even);
        let check = Check::judge("clearance-when-warm", &clear, Keep::AtLeast, &none, bench.guard()).about(CLEARANCE_WARM.key);
        answer.check(check.at(running.housing.place)).remedy(Words::of("more-clearance"));
        Ok(())
    }
}

fn not_under_zero(clearance: Worked<Shift>) -> Worked<Mm> {
    if clearance.number() >= 0.0 { clearance.becomes() } else { clearance.end(0.0, "no clearance").becomes() }
}

/// A temperature as a sheet shows it.
fn degrees(number: f64) -> Fact {
    Fact::figure(number, Unit::DegC)
}
