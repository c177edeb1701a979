//! The joint and its shaft at running temperature: does it still hold, does it still run?

use super::bore::Finished;
use super::keys::ReamBush;
use super::names::{CLEARANCE_EVEN, CLEARANCE_WARM};
use crate::handbook::Material;
use crate::handbook::joints::heating;
use crate::operations::kit::degrees;
use crate::operations::press_joint::{Climate, Joint, Metals, Running, Sizes};
use crate::operations::{Answer, Bench};
use crate::proof::{Check, Keep, Refusal, Words, Worked};
use crate::quantity::{Celsius, Quantity, Shift};

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
        self.asked().grip_when_warm(bench, joint, climate, answer)?;
        self.asked().grip_when_cold(bench, joint, climate, answer)?;
        let Some(running) = &self.running else {
            answer.does_not_apply(&["clearance-when-warm"]);
            return Ok(());
        };
        let of_shaft = self.asked().running_shaft(running);
        answer.fact("running_shaft", degrees(of_shaft.number()));
        if finished.middle.is_none() {
            answer.not_checked(&["clearance-when-warm"], &["shaft"]);
            return Ok(());
        }
        let alpha_s = self.shaft_metal(Some(running), answer)?.expansion()?;
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

    /// As typed; left out, mild steel.
    pub(super) fn shaft_metal(&self, running: Option<&Running>, answer: &mut Answer) -> Result<Material, Refusal> {
        if let Some(at) = running.and_then(|running| running.shaft_material.as_ref()) {
            return Ok(at.value.clone());
        }
        answer.assume_words(Words::of("shaft-is-mild-steel"));
        let lacking = || Refusal::NotGiven { what: "the metal of the shaft", key: "running.shaft-material" };
        "mild steel".parse().map_err(|_| lacking())
    }
}
