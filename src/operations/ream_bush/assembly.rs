//! How the bush goes in: the room that it needs to drop in, the oven and its stops, the freezer.

use super::at_press::{DROPS_IN, Readied};
use super::keys::{Assemble, ReamBush};
use super::names::{
    ASSEMBLY_CLEARANCE, BUSH_TEMPERATURE, CHILL_GAIN, HOUSING_HOTTEST, HOUSING_TEMPERATURE, OVEN_SETTING,
};
use crate::handbook::{constants::constant, joints::heating};
use crate::operations::kit::degrees;
use crate::operations::press_joint::{
    Fitted, Joint, Metals, Sizes, freezer, goes_in, neighbours_bear_it, never_over, oven_doubt, oven_reaches,
    temper_bears_it, under_the_boss,
};
use crate::operations::{Answer, Bench};
use crate::proof::{Check, Keep, Refusal, Remedy, Verdict, Words, Worked};
use crate::quantity::{Celsius, Mm, Quantity, Ratio, Rounds, Shift};

const OF_THE_OVEN: &[&str] = &["oven-stop", "oven-reaches", "goes-in", "temper-bears-it", "neighbours-bear-it"];

/// How hot a housing may become that is wanted so warm.
type Hottest<'a> = dyn Fn(&Worked<Celsius>) -> Result<Worked<Celsius>, Refusal> + 'a;

impl ReamBush {
    /// Works the oven and the freezer of the way it is put together.
    pub(super) fn assembly(
        &self,
        bench: &Bench,
        metals: &Metals,
        sizes: &Sizes,
        joint: &Joint,
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        let how = self.assembles();
        if !how.warms() {
            answer.does_not_apply(OF_THE_OVEN);
        }
        if how != Assemble::ChillBush {
            answer.does_not_apply(&["cold-enough"]);
        }
        if !how.warms() && !how.chills() {
            answer.does_not_apply(&[DROPS_IN]);
            return Ok(());
        }
        let d = sizes.d.nominal("a change of size: the doubt of the diameter is small beside it");
        let share = constant::<Ratio>("assembly-clearance-share")?;
        let room = heating::assembly_clearance(&share, &d, &constant("assembly-clearance-least")?)?;
        let room = answer.record(&ASSEMBLY_CLEARANCE, room);
        let mut readied = Readied::default();
        let gain = match how.chills() {
            true => {
                let freezer = freezer(bench, self.set_up.as_ref(), answer)?;
                let gain = heating::chilled_by(&metals.bush.expansion()?, &d, &freezer)?;
                readied.bush = Some(freezer);
                answer.record(&CHILL_GAIN, gain)
            }
            false => Worked::assumed(Mm::new(0.0), "the bush is not chilled"),
        };
        match how {
            Assemble::ChillBush => self.bush_alone(bench, metals, (joint, &d), (&room, &gain), answer)?,
            _ => readied.housing = self.housing_warm(bench, metals, (joint, &d), (&room, &gain), answer)?,
        }
        if how.warms() && readied.housing.is_none() {
            // What the oven must not be set to brings no housing to the press.
            answer.does_not_apply(&[DROPS_IN]);
            return Ok(());
        }
        self.still_drops_in(bench, metals, (joint, &d), &readied, answer)
    }

    /// Is it under the boss itself that the part stands? Where the housing opens far enough the press does no more than hold it.
    pub(super) fn stands_under_the_boss(
        &self,
        bench: &Bench,
        sizes: &Sizes,
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        if self.assembles().warms() {
            answer.does_not_apply(&["under-the-boss"]);
            return Ok(());
        }
        under_the_boss(bench, self.support.as_ref(), &sizes.housing_outside, answer)
    }

    /// The bush chilled alone: what the freezer takes off it, against what it must lose.
    fn bush_alone(
        &self,
        bench: &Bench,
        metals: &Metals,
        (joint, d): (&Joint, &Worked<Mm>),
        (room, gain): (&Worked<Mm>, &Worked<Mm>),
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        let middle = joint.measured.nominal("the middle: the interference as measured");
        let (most, asked) = (heating::gap_to_open(&joint.most, room)?, heating::gap_to_open(&middle, room)?);
        let start = Worked::assumed(Celsius::new(heating::REFERENCE), "sizes hold at 20 °C");
        let wanted = heating::temperature_to_enter(&start, &most, &metals.bush.expansion()?, d)?;
        if wanted.number() >= constant::<Celsius>("coldest-reached")?.number() {
            answer.record(&BUSH_TEMPERATURE, wanted);
        }
        let gain: Worked<Shift> = gain.becomes();
        let check = Check::judge_two("cold-enough", (&gain, &most), Keep::AtLeast, (&gain, &asked), bench.guard());
        let owned = bench.shop.is_none_or(|shop| shop.freezer().is_some());
        let check = check.not_better_than(if owned { Verdict::Proven } else { Verdict::Doubtful });
        // What the shop has too weak is doubtful: the press must finish it.
        answer.check(check.not_worse_than(Verdict::Doubtful)).remedy(Words::of("warm-the-housing-too"));
        Ok(())
    }

    /// The housing in the oven: what it needs, what the oven is set to, how hot it may become, against its stops. Gives what it leaves the
    /// oven with at the least, where it may be set to that.
    fn housing_warm(
        &self,
        bench: &Bench,
        metals: &Metals,
        (joint, d): (&Joint, &Worked<Mm>),
        (room, gain): (&Worked<Mm>, &Worked<Mm>),
        answer: &mut Answer,
    ) -> Result<Option<Worked<Celsius>>, Refusal> {
        let alpha = metals.housing.expansion()?;
        let needed = heating::housing_temperature(&joint.most, room, gain, &alpha, d)?;
        let needed = answer.record(&HOUSING_TEMPERATURE, needed);
        let doubt = oven_doubt(bench, self.set_up.as_ref(), answer)?;
        let times = |n: f64| Worked::assumed(Ratio::new(n), "the oven may be off either way");
        let setting = heating::oven_at(&needed, &times(1.0), &doubt)?;
        let hottest = answer.record(&HOUSING_HOTTEST, heating::oven_at(&needed, &times(2.0), &doubt)?);
        let seals = self.housing.fitted.as_ref().is_some_and(|at| at.value != Fitted::Nothing);
        let stop = heating::stop_with(metals.stop(seals || bench.part.is_hardened())?, &metals.bush)?;
        answer.fact("stop_temperature", never_over(&hottest, &stop));
        let ends = ((&hottest, &stop.doubtful), (&hottest, &stop.fails));
        let check =
            Check::judge_two("oven-stop", ends.0, Keep::AtMost, ends.1, bench.guard()).about(HOUSING_HOTTEST.key);
        let check = check
            .with("normal", degrees(stop.doubtful.number()).rounded(Rounds::Down))
            .with("stop", degrees(stop.fails.number()).rounded(Rounds::Down));
        let place = self.assemble.as_ref().map_or(self.housing.bore.place, |at| at.place);
        let hot = |needed: &Worked<Celsius>| heating::oven_at(needed, &times(2.0), &doubt);
        let remedies = self.cooler(bench, metals, (joint, d), (room, &alpha), (&hot, &stop))?;
        // A setting that may pass the stop is no setting: it is neither printed nor judged.
        let may_be_set = check.verdict() != Some(Verdict::Fails);
        let check = answer.check(check.at(place));
        remedies.into_iter().for_each(|words| {
            check.remedy(words);
        });
        if may_be_set {
            answer.record(&OVEN_SETTING, setting.clone());
        }
        let chilled = !self.assembles().chills() || bench.shop.is_none_or(|shop| shop.freezer().is_some());
        match setting.number() <= stop.fails.number() {
            true => oven_reaches(bench, self.set_up.as_ref(), &setting, chilled, answer),
            // A hotter oven would only do the harm.
            false => answer.does_not_apply(&["oven-reaches"]),
        }
        let sizes: Vec<_> = std::iter::once(&self.housing.outside).chain(&self.housing.length).collect();
        goes_in(bench, self.set_up.as_ref(), &sizes, answer);
        let temper = (self.temper.as_ref(), metals.warms_aluminium(), place);
        temper_bears_it(bench, temper, &hottest, answer)?;
        self.neighbours(bench, &hottest, answer)?;
        if metals.warms_magnesium() {
            answer.caution("magnesium-heat");
        }
        Ok(may_be_set.then_some(needed))
    }

    /// What sits in the housing, or near it: as `near` says, else as `fitted` does, whose seals and bearings go with the oven's stop.
    fn neighbours(&self, bench: &Bench, hottest: &Worked<Celsius>, answer: &mut Answer) -> Result<(), Refusal> {
        if self.near.is_none() && self.housing.fitted.is_some() {
            answer.does_not_apply(&["neighbours-bear-it"]);
            return Ok(());
        }
        neighbours_bear_it(bench, self.near.as_deref(), hottest, answer)
    }

    /// What would need less heat.
    fn cooler(
        &self,
        bench: &Bench,
        metals: &Metals,
        (joint, d): (&Joint, &Worked<Mm>),
        (room, alpha): (&Worked<Mm>, &Worked<crate::quantity::Expansion>),
        (hot, stop): (&Hottest, &heating::StopTemperature),
    ) -> Result<Vec<Remedy>, Refusal> {
        let chill = if self.assembles().chills() {
            Remedy::of("dry-ice")
        } else {
            let freezer = match bench.shop.and_then(|shop| shop.freezer()) {
                Some(at) => (&at).into(),
                None => constant("freezer-temperature")?,
            };
            let gain = heating::chilled_by(&metals.bush.expansion()?, d, &freezer)?;
            let then = heating::housing_temperature(&joint.most, room, &gain, alpha, d)?;
            let hottest = hot(&then)?;
            let ends = ((&hottest, &stop.doubtful), (&hottest, &stop.fails));
            let check = Check::judge_two("oven-stop", ends.0, Keep::AtMost, ends.1, bench.guard());
            let words = Words::of("chill-as-well").with("then", degrees(then.number()));
            let words = words.with("hot", degrees(hottest.number()));
            Remedy::giving(words, check.verdict().unwrap_or(Verdict::Fails))
        };
        Ok(vec![chill, Remedy::of("press-it-cold")])
    }
}
