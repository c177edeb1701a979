//! How warm it must be, how warm it may become, and the set-up.

use super::{BORE, LEAVES_WITH, LEFT, MUST_OPEN, PART, THERE, Warm, sketch};
use crate::handbook::constants::constant;
use crate::handbook::joints::heating;
use crate::handbook::materials::groups::Kind;
use crate::handbook::rigging::Aspect;
use crate::handbook::{Material, StateKind, set_up_minutes};
use crate::job::State;
use crate::operations::kit::{self, degrees, of_part, of_this};
use crate::operations::press_joint::names::oven::HOUSING_TEMPERATURE;
use crate::operations::press_joint::names::oven_set::{HOUSING_HOTTEST, OVEN_SETTING};
use crate::operations::press_joint::names::room::ASSEMBLY_CLEARANCE;
use crate::operations::press_joint::{
    Chilled, against_stop, can_be_so_cold, goes_in, neighbours_bear_it, never_over, oven_doubt, oven_reaches,
    temper_bears_it, too_thin, with_thin,
};
use crate::operations::{Answer, Bench, Carried, HoldPoint, Limits, SetUp, Station, Wait, safety};
use crate::proof::{Cause, Check, Fact, Keep, Origin, Place, Refusal, Side, Verdict, Words, Worked};
use crate::quantity::{Celsius, Mm, Quantity, Ratio, Rounds, Shift, Unit};
use crate::shop::{Machine, Oven};

/// What the oven must give, and what it may.
struct Heat {
    /// What the metal leaves with at the least.
    least: Worked<Celsius>,
    setting: Worked<Celsius>,
    hottest: Worked<Celsius>,
}

impl Warm {
    pub(super) fn all_of_it(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        let metal = bench.part.material.as_ref().map(|at| &at.value);
        let metal = metal.ok_or(Refusal::NotGiven { what: "the metal of the part", key: "material" })?;
        metal.safety_without_chips().for_each(|id| answer.caution(id));
        answer.fact("reference_temperature", degrees(heating::REFERENCE));
        let bore = answer.record(&BORE, (&self.bore).into());
        let chilled = Chilled { by: self.chilled_by.as_ref(), cold_in: self.chilled_in.as_ref() };
        can_be_so_cold(bench, chilled, (None, &bore), answer)?;
        let needed = self.needed(bench, metal, &bore, answer)?;
        let heat = self.heat(bench, needed.as_ref(), answer)?;
        self.opens(bench, metal, (&bore, &heat), answer)?;
        let may_be_set = self.stop(bench, metal, &heat, answer)?;
        let aluminium = metal.kind() == Kind::Aluminium;
        temper_bears_it(bench, (self.temper.as_ref(), aluminium, self.place()), &heat.hottest, answer)?;
        neighbours_bear_it(bench, self.near.as_deref(), &heat.hottest, answer)?;
        match heat.setting.number() <= heating::stop_temperature(metal, bench.part.is_hardened())?.fails.number() {
            true => oven_reaches(bench, self.set_up.as_ref(), &heat.setting, true, answer),
            // A hotter oven would only do the harm.
            false => answer.does_not_apply(&["oven-reaches"]),
        }
        goes_in(bench, self.set_up.as_ref(), &[&self.outside, &self.length], answer);
        if may_be_set {
            answer.record(&OVEN_SETTING, heat.setting.clone());
            let doubt = heat.hottest.number() - heat.setting.number();
            answer.record(&PART, heat.setting.clone().with_doubt(Cause::Set("the oven"), doubt));
        }
        if metal.kind() == Kind::Magnesium {
            answer.caution("magnesium-heat");
        }
        answer.set_ups.push(self.in_the_oven(bench, (&heat, may_be_set), answer)?);
        Ok(())
    }

    /// The greatest interference, less what chilling takes off at the least.
    fn interference(&self) -> Option<Worked<Shift>> {
        let typed = self.interference.as_ref()?;
        let chilled = self.chilled_by.as_ref().map_or(0.0, |at| at.value.number());
        let delta = Worked::exact(Shift::new(typed.value.number()), Origin::Typed(typed.place));
        Some(delta.shifted(-chilled, "what chilling takes off at the least"))
    }

    /// Where at the press what is cold drops in.
    fn needed(
        &self,
        bench: &Bench,
        metal: &Material,
        bore: &Worked<Mm>,
        answer: &mut Answer,
    ) -> Result<Option<Worked<Celsius>>, Refusal> {
        let share = constant::<Ratio>("assembly-clearance-share")?;
        let room = heating::assembly_clearance(&share, bore, &constant("assembly-clearance-least")?)?;
        let room = answer.record(&ASSEMBLY_CLEARANCE, room);
        let Some(delta) = self.interference() else { return Ok(None) };
        let none = Worked::assumed(Mm::new(0.0), "chilling and room are counted in what must open");
        let gap = answer.record(&MUST_OPEN, heating::gap_to_open(&delta, &room)?);
        let needed = heating::housing_temperature(&gap, &none, &none, &metal.expansion()?, bore)?;
        let needed = answer.record(&HOUSING_TEMPERATURE, needed);
        Ok(Some(needed.worst(Side::High, bench.guard())))
    }

    /// What it leaves the oven with, as asked or as it is needed; what the oven is set to, and how hot that may make it.
    fn heat(&self, bench: &Bench, needed: Option<&Worked<Celsius>>, answer: &mut Answer) -> Result<Heat, Refusal> {
        let loss = lost(bench)?;
        let least = match (&self.to, needed) {
            (Some(at), _) => at.into(),
            (None, Some(needed)) => {
                let leaves = heating::before_carrying(needed, &loss)?;
                let whole = Celsius::new(leaves.number().ceil());
                Worked::exact(whole, Origin::Assumed("what the interference asks, up to a whole degree".into()))
            }
            (None, None) => return Err(Refusal::NotGiven { what: "how warm it must become", key: "to" }),
        };
        let least = answer.record(&LEAVES_WITH, least);
        answer.record(&THERE, heating::carried(&least, &loss)?);
        let doubt = oven_doubt(bench, self.set_up.as_ref(), answer)?;
        let times = |n: f64| Worked::assumed(Ratio::new(n), "the oven may be off either way");
        let setting = heating::oven_at(&least, &times(1.0), &doubt)?;
        let hottest = answer.record(&HOUSING_HOTTEST, heating::oven_at(&least, &times(2.0), &doubt)?);
        Ok(Heat { least, setting, hottest })
    }

    /// Is it still open far enough when it stands at the press?
    fn opens(
        &self,
        bench: &Bench,
        metal: &Material,
        (bore, heat): (&Worked<Mm>, &Heat),
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        const ID: &str = "opens-enough";
        let (Some(delta), Some(at)) = (self.interference(), &self.interference) else {
            answer.not_checked(&[ID], &["interference"]);
            return Ok(());
        };
        let (alpha, cold) = (metal.expansion()?, Worked::assumed(Celsius::new(heating::REFERENCE), "what goes in"));
        let there = heating::carried(&heat.least, &lost(bench)?)?;
        let adds = heating::tightened_by(bore, &alpha, &cold, &alpha, &there)?;
        let left = answer.record(&LEFT, heating::interference_warm(&delta, &adds)?);
        let room = answer.value(ASSEMBLY_CLEARANCE.key).map_or(0.0, |room| room.number);
        let limit = Worked::assumed(Shift::new(-room), "the room to drop in");
        // What it was warmed to was worked from this very limit: the last bit of it is no verdict.
        let limit = limit.shifted(ROUNDING, "the last bit");
        let check = Check::judge(ID, &left, Keep::AtMost, &limit, bench.guard()).about(LEFT.key).at(at.place);
        let thin = too_thin(Some((self.outside.value.number(), self.bore.value.number())), None)?;
        with_thin(answer, check, thin).remedy(Words::of("chill-too"));
        Ok(())
    }

    /// Does the metal bear the oven at its hottest?
    fn stop(&self, bench: &Bench, metal: &Material, heat: &Heat, answer: &mut Answer) -> Result<bool, Refusal> {
        let stop = heating::stop_temperature(metal, bench.part.is_hardened())?;
        answer.fact("stop_temperature", never_over(&heat.hottest, &stop));
        let check = against_stop("oven-stop", &heat.hottest, &stop, bench);
        let check = check
            .with("normal", degrees(stop.doubtful.number()).rounded(Rounds::Down))
            .with("stop", degrees(stop.fails.number()).rounded(Rounds::Down))
            .at(self.place());
        let may = check.verdict() != Some(Verdict::Fails);
        answer.check(check).remedy(Words::of("chill-too"));
        Ok(may)
    }

    fn place(&self) -> Place {
        self.to.as_ref().map_or(self.bore.place, |at| at.place)
    }

    fn in_the_oven(&self, bench: &Bench, (heat, may): (&Heat, bool), answer: &Answer) -> Result<SetUp, Refusal> {
        let mut set_up = SetUp::at("warm", Station::Oven);
        set_up.on(kit::machine_for(bench, self.set_up.as_ref(), oven).map(|oven| oven.name.value.as_str()));
        set_up.step("all-to-hand").step("look-what-is-in-it");
        if may {
            set_up.hold.push(Words::of("on-the-shelf").into());
            set_up.step("heat-it");
            let ends = (Some(heat.least.number()), Some(heat.hottest.number()));
            let limits = Limits::asked(ends, 0, Unit::DegC);
            // What is read is good where it lies in these, not in the middle of them give or take.
            let metal = limits.least.clone().zip(limits.most.clone()).map(|(least, most)| Fact::span(least, most));
            let hold = HoldPoint::asking(PART.key, 1, Fact::named("a-contact-thermometer"), limits);
            set_up.hold_at(Words::of("soak-and-check"), hold);
            set_up.step("carry-it");
            set_up.blanks = vec![kit::blank("metal-read", None, metal)];
            set_up.carries(Aspect::Setting, Carried::AtDegC(heat.setting.number().round()));
        } else {
            set_up.step("do-not-heat");
        }
        set_up.warns(&["hot-part", "oven-neighbours", "way-clear"]);
        if let Some(metal) = &bench.part.material {
            let sizes: [Worked<Mm>; 3] = [(&self.outside).into(), (&self.bore).into(), (&self.length).into()];
            safety::lifting_of(&mut set_up, &metal.value, sizes.each_ref())?;
        }
        set_up.sketch = sketch::in_the_oven(self, answer);
        set_up.takes(set_up_minutes::start("oven, loading one part")?);
        set_up.tail = Some(Wait::of("oven heat-up")?.in_machine().watched());
        set_up.needs = of_part(bench, &[StateKind::Washed]);
        set_up.leaves = vec![of_this(bench, StateKind::Warm), State::of_part(&bench.part.name, StateKind::Warm)];
        Ok(set_up)
    }
}

/// Under this two lengths are one, mm.
const ROUNDING: f64 = 1e-9;

/// What is lost between oven and press, at the most.
fn lost(bench: &Bench) -> Result<Worked<Ratio>, Refusal> {
    Ok(constant::<Ratio>("carried-loss-housing")?.worst(Side::High, bench.guard()))
}

fn oven(machine: &Machine) -> Option<&Oven> {
    if let Machine::Oven(oven) = machine { Some(oven) } else { None }
}
