//! The mandrel: on the wall of the bush, free of the housing, and stout enough for the push.

use super::keys::{HeldBy, PressOut};
use super::push::Old;
use super::{HOUSING_LEAST, MANDREL, MANDREL_CARRIES};
use crate::handbook::Material;
use crate::handbook::constants::constant;
use crate::handbook::cutting::{deflection, drill_column::column_carries};
use crate::operations::{Answer, Bench};
use crate::proof::{Check, Keep, Mark, Refusal, Side, Source, Words, Worked};
use crate::quantity::{Mm, Newton, Ratio};
use std::f64::consts::PI;

impl PressOut {
    /// Does it cover enough of the wall, and does it follow the bush through the housing without touching it?
    pub(super) fn mandrel_fits(&self, bench: &Bench, old: &Old, answer: &mut Answer) -> Result<(), Refusal> {
        const COVERS: &str = "mandrel-covers";
        const CLEARS: &str = "mandrel-clears";
        // Free of the bush the housing closes: by no more than the bush was larger.
        let source = Source::fixed("what the bush kept open", Mark::Derived);
        let says = "outside of the bush less the greatest interference";
        let least = Worked::sum(&[(1.0, &old.d)], -old.tight.number(), says, source);
        let least = answer.record(&HOUSING_LEAST, least.worst(Side::Low, bench.guard()));
        let Some(mandrel) = &self.mandrel else {
            answer.not_checked(&[COVERS, CLEARS], &["mandrel"]);
            return Ok(());
        };
        let diameter = answer.record(&MANDREL, (&mandrel.diameter).into());
        let share = constant::<Ratio>("mandrel-covers-share")?.number();
        let source = Source::fixed("a share of the wall", Mark::Own);
        let wanted = Worked::sum(
            &[(1.0 - share, &old.bore), (share, &old.d)],
            0.0,
            "bore, and a share of the wall all round",
            source,
        );
        let check = Check::judge(COVERS, &diameter, Keep::AtLeast, &wanted, bench.guard()).at(mandrel.diameter.place);
        answer.check(check).remedy(Words::of("larger-mandrel"));
        let under = constant::<Mm>("mandrel-shoulder-under-outside")?.number();
        let free = |bore: &Worked<Mm>| bore.shifted(-under, "the mandrel stays free");
        let mut limits = vec![free(&least)];
        // A shoulder that was measured is there, whatever was said of it.
        match &self.housing.shoulder_bore {
            Some(shoulder) => limits.push(free(&shoulder.into())),
            None if matches!(self.held(), Some(HeldBy::Shoulder | HeldBy::Both)) => {
                answer.not_checked(&[CLEARS], &["housing.shoulder-bore"]);
                return Ok(());
            }
            None => {}
        }
        for limit in &limits {
            let check = Check::judge(CLEARS, &diameter, Keep::AtMost, limit, bench.guard());
            let check = check.about(HOUSING_LEAST.key).at(mandrel.diameter.place);
            answer.check(check).remedy(Words::of("smaller-mandrel"));
        }
        Ok(())
    }

    /// Does it bow out, or is it crushed, under the push? Nothing leads the ram of an arbor press, nor the bush: both ends turn.
    pub(super) fn mandrel_carries(
        &self,
        bench: &Bench,
        [stuck, force]: [&Worked<Newton>; 2],
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        const ID: &str = "mandrel-bows";
        let Some(mandrel) = &self.mandrel else {
            answer.not_checked(&[ID], &["mandrel"]);
            return Ok(());
        };
        let Some(length) = &mandrel.length else {
            answer.not_checked(&[ID], &["mandrel.length"]);
            return Ok(());
        };
        let steel = "mild steel"
            .parse::<Material>()
            .map_err(|_| Refusal::NoRow { table: "material", wanted: "mild steel".into() })?;
        let diameter = (&mandrel.diameter).into();
        let bar = deflection::second_moment_round(&diameter)?;
        let bows = column_carries(&constant("column-both-ends-turn")?, &steel.modulus()?, &bar, &length.into())?;
        let area = PI / 4.0 * diameter.number() * diameter.number();
        let crushed = steel.yield_low()?.number() * area;
        let carries = answer.record(&MANDREL_CARRIES, bows.at_most(crushed, "what its own metal stands"));
        let safely = carries.scaled(1.0 / constant::<Ratio>("column-safety")?.number(), "less its safety");
        if self.interference.is_none() {
            answer.not_checked(&[ID], &["interference"]);
            return Ok(());
        }
        let ends = ((stuck, &safely), (force, &carries));
        let check = Check::judge_two(ID, ends.0, Keep::AtMost, ends.1, bench.guard());
        answer.check(check.about(MANDREL_CARRIES.key).at(length.place)).remedy(Words::of("stouter-mandrel"));
        Ok(())
    }
}
