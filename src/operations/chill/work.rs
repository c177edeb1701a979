//! How cold it becomes, what that takes off it, and the set-up.

use super::{Chill, GAP, OUTSIDE, PART, THERE, sketch};
use crate::handbook::constants::constant;
use crate::handbook::joints::heating;
use crate::handbook::materials::groups::Kind;
use crate::handbook::{Material, StateKind, set_up_minutes};
use crate::job::State;
use crate::operations::kit::{self, degrees, of_part, of_this};
use crate::operations::press_joint::names::freezer::{BUSH_TEMPERATURE, CHILL_GAIN};
use crate::operations::press_joint::names::room::ASSEMBLY_CLEARANCE;
use crate::operations::press_joint::{
    ColdIn, can_be_so_warm, cold_at_the_press, cold_of, shrinks, soaks, soaks_for, too_thin, with_thin,
};
use crate::operations::{Answer, Bench, Blank, HoldPoint, Limits, SetUp, Station, Target, Wait, safety};
use crate::proof::{Check, Fact, Keep, Origin, Refusal, Side, Verdict, Words, Worked};
use crate::quantity::{Celsius, Mm, Quantity, Ratio, Shift, Unit};
use crate::shop::{Freezer, Machine};

impl Chill {
    pub(super) fn all_of_it(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        let metal = self.material.as_ref().or(bench.part.material.as_ref()).map(|at| &at.value);
        let metal = metal.ok_or(Refusal::NotGiven { what: "the metal of the part", key: "material" })?;
        metal.safety_without_chips().for_each(|id| answer.caution(id));
        let outside = answer.record(&OUTSIDE, (&self.outside).into());
        let part = self.cold(bench, answer)?;
        let there = answer.record(&THERE, cold_at_the_press(bench, &part)?);
        let gain =
            answer.record(&CHILL_GAIN, heating::chilled_by(&shrinks(metal, self.cold_in.value)?, &outside, &there)?);
        // Where it has a metal of its own, the part is what it drops into.
        let housing = self.material.as_ref().and(bench.part.material.as_ref()).map(|at| &at.value);
        can_be_so_warm(bench, self.opened_by.as_ref(), (housing, metal, &outside), answer)?;
        self.cold_enough(bench, metal, (&outside, &gain), answer)?;
        self.bears_cold(metal, part.worst_number(Side::Low, bench.guard()), answer)?;
        self.stays_dry(answer);
        self.air(answer);
        let cold = self.in_the_cold(bench, &part, answer)?;
        answer.set_ups.push(cold);
        Ok(())
    }

    /// The temperature of the part as it leaves the cold, with its doubt or band.
    fn cold(&self, bench: &Bench, answer: &mut Answer) -> Result<Worked<Celsius>, Refusal> {
        let part = cold_of(bench, self.set_up.as_ref(), self.cold_in.value, answer)?;
        answer.fact("cold", degrees(part.number()));
        Ok(answer.record(&PART, part))
    }

    /// Is it small enough when it stands at the press, with what the housing was opened by?
    fn cold_enough(
        &self,
        bench: &Bench,
        metal: &Material,
        (outside, gain): (&Worked<Mm>, &Worked<Mm>),
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        const ID: &str = "cold-enough";
        let share = constant::<Ratio>("assembly-clearance-share")?;
        let room = heating::assembly_clearance(&share, outside, &constant("assembly-clearance-least")?)?;
        let room = answer.record(&ASSEMBLY_CLEARANCE, room);
        let Some(at) = &self.interference else {
            answer.not_checked(&[ID], &["interference"]);
            return Ok(());
        };
        let opened = self.opened_by.as_ref().map_or(0.0, |at| at.value.number());
        let delta = Worked::exact(Shift::new(at.value.number()), Origin::Typed(at.place));
        let delta = delta.shifted(-opened, "what the warm housing opens at the least");
        let gap = answer.record(&GAP, heating::gap_to_open(&delta, &room)?);
        let start = Worked::assumed(Celsius::new(heating::REFERENCE), "sizes hold at 20 °C");
        let wanted = heating::temperature_to_enter(&start, &gap, &shrinks(metal, self.cold_in.value)?, outside)?;
        if wanted.number() >= constant::<Celsius>("coldest-reached")?.number() {
            answer.record(&BUSH_TEMPERATURE, wanted);
        }
        let gain: Worked<Shift> = gain.becomes();
        let check = Check::judge(ID, &gain, Keep::AtLeast, &gap, bench.guard()).about(CHILL_GAIN.key).at(at.place);
        let owned = self.cold_in.value != ColdIn::Freezer || bench.shop.is_none_or(|shop| shop.freezer().is_some());
        let check = check.not_better_than(if owned { Verdict::Proven } else { Verdict::Doubtful });
        // What is not cold enough may still be pressed: whether it may stands with the joint.
        let bore = self.bore.as_ref().map_or(0.0, |at| at.value.number());
        let thin = too_thin(None, Some((self.outside.value.number(), bore)))?;
        with_thin(answer, check.not_worse_than(Verdict::Doubtful), thin).remedy(Words::of("warm-the-housing-too"));
        Ok(())
    }

    /// Does metal and plating bear the cold?
    fn bears_cold(&self, metal: &Material, coldest: f64, answer: &mut Answer) -> Result<(), Refusal> {
        const ID: &str = "bears-cold";
        let limit = |row: &'static str| Ok::<_, Refusal>(constant::<Celsius>(row)?.number());
        let (because, most, worst) = match metal.kind() {
            Kind::HardSteel => ("cold-grows", Some(limit("cold-limit-hardened")?), Verdict::Doubtful),
            Kind::Plastic | Kind::Lining => ("cold-cracks", Some(limit("cold-limit-plastic")?), Verdict::Fails),
            Kind::Aluminium | Kind::CopperAlloy | Kind::Sintered | Kind::Titanium => {
                ("cold-does-nothing", None, Verdict::Proven)
            }
            _ => ("cold-is-brittle", Some(limit("cold-limit-steel")?), Verdict::Doubtful),
        };
        let verdict = if most.is_some_and(|most| coldest < most) { worst } else { Verdict::Proven };
        let of_metal = Check::of_kind(ID, verdict).at(self.cold_in.place).with("because", Fact::named(because));
        let plating_asked = coldest < limit("cold-limit-plated")?;
        let of_plating = match &self.plated {
            Some(at) if at.value && plating_asked => {
                Some(Check::of_kind(ID, Verdict::Doubtful).at(at.place).with("because", Fact::named("cold-plating")))
            }
            None if plating_asked && verdict != Verdict::Fails => {
                answer.not_checked(&[ID], &["plated"]);
                return Ok(());
            }
            _ => None,
        };
        answer.check(of_metal);
        if let Some(check) = of_plating {
            answer.check(check);
        }
        Ok(())
    }

    /// Does it stay dry? Frost in the joint adds size as it goes in and rusts when it is there.
    fn stays_dry(&self, answer: &mut Answer) {
        const ID: &str = "stays-dry";
        // Nothing freezes to what lies under boiling nitrogen, and a shut bag bursts in it.
        if self.cold_in.value == ColdIn::Nitrogen {
            return answer.does_not_apply(&[ID]);
        }
        let Some(at) = &self.bagged else { return answer.not_checked(&[ID], &["bagged"]) };
        let verdict = if at.value { Verdict::Proven } else { Verdict::Doubtful };
        answer.check(Check::of_kind(ID, verdict).at(at.place));
    }

    /// Can whoever stands by breathe? Dry ice and nitrogen push the air out of a shut room.
    fn air(&self, answer: &mut Answer) {
        const ID: &str = "air-to-breathe";
        if self.cold_in.value == ColdIn::Freezer {
            return answer.does_not_apply(&[ID]);
        }
        let Some(at) = &self.aired else { return answer.not_checked(&[ID], &["aired"]) };
        let verdict = if at.value { Verdict::Proven } else { Verdict::Fails };
        answer.check(Check::of_kind(ID, verdict).at(at.place));
    }

    fn in_the_cold(&self, bench: &Bench, part: &Worked<Celsius>, answer: &mut Answer) -> Result<SetUp, Refusal> {
        let frozen = self.cold_in.value == ColdIn::Freezer;
        let bore = self.bore.as_ref().map_or(0.0, |at| at.value.number());
        let minutes = soaks(self.cold_in.value, [self.outside.value.number(), bore, self.length.value.number()])?;
        answer.fact("soak", soaks_for(minutes));
        let mut set_up = SetUp::at("chill", if frozen { Station::Oven } else { Station::Bench });
        set_up.pause = false;
        set_up.step("all-to-hand").step("degrease");
        let bagged = self.cold_in.value != ColdIn::Nitrogen && self.bagged.as_ref().is_some_and(|at| at.value);
        if bagged {
            set_up.step("bag-it");
        }
        set_up.step(match self.cold_in.value {
            ColdIn::Freezer => "lay-in-the-freezer",
            ColdIn::DryIce => "pack-in-dry-ice",
            ColdIn::Nitrogen => "lower-into-nitrogen",
        });
        // No thermometer of a workshop reads nitrogen: that the boiling stops is what shows it.
        let boils = self.cold_in.value == ColdIn::Nitrogen;
        let limits = Limits::asked((None, Some(part.worst_number(Side::High, bench.guard()))), 0, Unit::DegC);
        let cold = limits.most.clone().map(Target::UpTo);
        let hold = HoldPoint::asking(PART.key, 1, Fact::named("a-cold-thermometer"), limits);
        match boils {
            true => set_up.step("boiling-has-stopped"),
            false => set_up.hold_at(Words::of("read-the-cold"), hold),
        };
        set_up.step(if bagged { "wipe-and-go" } else { "wipe-and-go-bare" });
        set_up.hold.push(Words::of("in-the-cold").into());
        set_up.warns(&["freezer", "cold-burns", "carried-in-one-grip"]);
        let wait = Wait { minutes, watched: false, holds: false };
        if frozen {
            let own = kit::machine_for(bench, self.set_up.as_ref(), own);
            set_up.machine = Fact::named("the-freezer").into();
            set_up.on(own.map(|own| own.name.value.as_str()));
            set_up.tail = Some(wait.in_machine());
        } else {
            set_up.warns(&["dry-ice", "cold-vessel"]);
            set_up.tail = Some(wait.watched());
        }
        if !boils {
            set_up.blanks = vec![Blank { target: cold, ..kit::blank("cold-read", None, None) }];
        }
        if let Some(metal) = self.material.as_ref().or(bench.part.material.as_ref()) {
            let bore = self.bore.as_ref().map_or_else(|| Worked::assumed(Mm::new(0.0), "solid"), Worked::from);
            let sizes: [Worked<Mm>; 3] = [(&self.outside).into(), bore, (&self.length).into()];
            safety::lifting_of(&mut set_up, &metal.value, sizes.each_ref())?;
        }
        set_up.sketch = sketch::in_the_cold(self, answer);
        set_up.takes(set_up_minutes::start("cold, loading one part")?);
        set_up.needs = of_part(bench, &[StateKind::Washed]);
        set_up.leaves = vec![of_this(bench, StateKind::Cold), State::of_part(&bench.part.name, StateKind::Cold)];
        Ok(set_up)
    }
}

fn own(machine: &Machine) -> Option<&Freezer> {
    if let Machine::Freezer(freezer) = machine { Some(freezer) } else { None }
}
