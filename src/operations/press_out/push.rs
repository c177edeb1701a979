//! The push: how hard, and whether press, bush and housing stand it; what warmth does to the joint.

use super::keys::PressOut;
use super::{FORCE, FORCE_STUCK, HOOP, PRESSURE, WARMED_TO};
use crate::handbook::constants::constant;
use crate::handbook::joints::joint::{PressJoint, Service};
use crate::handbook::joints::{heating, press};
use crate::operations::kit::degrees;
use crate::operations::press_joint::names::oven_set::{HOUSING_HOTTEST, OVEN_SETTING};
use crate::operations::press_joint::{
    Metals, Push, against_stop, bush_stands_push, goes_in, neighbours_bear_it, oven_doubt, oven_reaches, press_reaches,
    push_on_wall, temper_bears_it,
};
use crate::operations::{Answer, Bench};
use crate::proof::{At, Check, Keep, Mark, Refusal, Side, Source, Words, Worked};
use crate::quantity::{Mm, Quantity, Ratio, Rounds, Shift};

/// The bush as it sits.
pub(super) struct Old {
    /// The diameter of the joint.
    pub d: Worked<Mm>,
    pub bore: Worked<Mm>,
    /// The greatest interference.
    pub tight: Worked<Shift>,
    pub gripped: Worked<Mm>,
    pub travel: Worked<Mm>,
    /// Outside of the housing.
    pub housing: Worked<Mm>,
}

impl PressOut {
    pub(super) fn push(&self, bench: &Bench, metals: &Metals, old: &Old, answer: &mut Answer) -> Result<(), Refusal> {
        const IDS: &[&str] = &["press-force", "housing-stands", "bush-stands-push"];
        let joint = PressJoint::new((&metals.bush, &metals.housing), &old.d, &old.bore, &old.housing);
        let pressure = answer.record(&PRESSURE, joint.for_stress(&old.tight)?);
        answer.record(&HOOP, joint.hoop_housing(&pressure)?);
        let d = old.d.nominal("the area of the joint: its doubt is small beside that of the friction");
        let force = press::press_force(&constant("friction-press-sizing")?, &pressure, &d, &old.gripped)?;
        let force = answer.record(&FORCE, force.worst(Side::High, bench.guard()));
        let stuck = constant::<Ratio>("press-out-stuck")?;
        let source = Source::fixed("what has sat for years", Mark::Own);
        let stuck = Worked::sum(&[(stuck.number(), &force)], 0.0, "rusted or gummed in", source);
        let stuck = answer.record(&FORCE_STUCK, stuck);
        self.mandrel_carries(bench, [&stuck, &force], answer)?;
        let place = self.interference.as_ref().map_or(self.bush.outside.place, |at| at.place);
        let push = Push { outside: &old.d, bore: &old.bore, most: &stuck, middle: &force, place };
        let Some(at) = &self.interference else {
            push_on_wall(bench, &push, answer);
            answer.not_checked(IDS, &["interference"]);
            return Ok(());
        };
        press_reaches(bench, self.set_up.as_ref(), (&FORCE, &stuck, &force), &["warm-it", "borrow-a-press"], answer);
        match joint.of_housing(&old.tight, Service::cold(false), bench.guard())? {
            Some(stressed) => {
                let check = stressed.check("housing-stands", bench.guard()).at(at.place);
                answer.check(check).remedy(Words::of("cut-it-out"));
            }
            None => answer.not_checked(&["housing-stands"], &["housing.material"]),
        }
        bush_stands_push(bench, metals, &push, &["cut-it-out"], answer);
        Ok(())
    }

    /// Does warmth loosen this pair, and does the housing bear it? Where the bush grows more than its housing it only tightens.
    pub(super) fn warmth(&self, bench: &Bench, metals: &Metals, old: &Old, answer: &mut Answer) -> Result<(), Refusal> {
        let Some(at) = &self.warm_to else {
            answer.does_not_apply(&[
                "warmth-loosens",
                "may-be-so-warm",
                "temper-bears-it",
                "neighbours-bear-it",
                "oven-reaches",
                "goes-in",
            ]);
            return Ok(());
        };
        let warm = answer.record(&WARMED_TO, at.into());
        let d = old.d.nominal("a change of size: the doubt of the diameter is small beside it");
        let (bush, housing) = (metals.bush.expansion()?, metals.housing.expansion()?);
        let adds = heating::tightened_by(&d, &bush, &warm, &housing, &warm)?;
        let none = Worked::assumed(Shift::new(0.0), "warmth must not tighten it");
        let check = Check::judge("warmth-loosens", &adds, Keep::AtMost, &none, bench.guard()).at(at.place);
        answer.check(check).remedy(Words::of("press-it-out-cold"));
        // The oven may be off either way, and is set so that it is as warm at the least.
        let times = |n: f64| Worked::assumed(Ratio::new(n), "the oven may be off either way");
        let doubt = oven_doubt(bench, self.set_up.as_ref(), answer)?;
        let hottest = answer.record(&HOUSING_HOTTEST, heating::oven_at(&warm, &times(2.0), &doubt)?);
        let setting = answer.record(&OVEN_SETTING, heating::oven_at(&warm, &times(1.0), &doubt)?);
        oven_reaches(bench, self.set_up.as_ref(), &setting, true, answer);
        let sizes: Vec<&At<Mm>> = std::iter::once(&self.housing.outside).chain(&self.housing.length).collect();
        goes_in(bench, self.set_up.as_ref(), &sizes, answer);
        let stop = metals.stop(false)?;
        let check = against_stop("may-be-so-warm", &hottest, &stop, bench).at(at.place);
        answer.check(check.with("stop", degrees(stop.fails.number()).rounded(Rounds::Down)));
        let temper = (self.temper.as_ref(), metals.warms_aluminium(), at.place);
        temper_bears_it(bench, temper, &hottest, answer)?;
        neighbours_bear_it(bench, self.near.as_deref(), &hottest, answer)?;
        Ok(())
    }
}
