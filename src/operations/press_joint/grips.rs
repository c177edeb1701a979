//! Whether the bush still grips where its joint is loosest: warm, where the housing grows away from it, and in frost, where it shrinks
//! away from the housing.

use super::asked::Asked;
use super::climate::{Climate, Unsaid};
use super::joint::Joint;
use super::names::fitted::{INTERFERENCE_COLD, INTERFERENCE_WARM};
use crate::handbook::joints::heating;
use crate::operations::kit::degrees;
use crate::operations::{Answer, Bench};
use crate::proof::{Check, Keep, Refusal, Verdict, Words, Worked};
use crate::quantity::{Quantity, Shift};

impl Asked<'_> {
    /// Interference left where it is warm and loosest.
    pub(in crate::operations) fn grip_when_warm(
        &self,
        bench: &Bench,
        joint: &Joint,
        climate: &Climate,
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        let none = Worked::assumed(Shift::new(0.0), "a bush without interference turns");
        let (Some(running), Some(loosest)) = (self.running, climate.loosest()) else {
            let Some(unsaid) = climate.unsaid.as_ref().filter(|unsaid| unsaid.adds.number() < 0.0) else {
                answer.does_not_apply(&["grip-when-warm"]);
                return Ok(());
            };
            let Unsaid { at: most, adds, .. } = unsaid;
            // As warm as it is taken to become: what would not hold there is in doubt until somebody says how warm it runs.
            answer.fact("running_temperature", degrees(most.number()));
            let then = answer.record(&INTERFERENCE_WARM, heating::interference_warm(&joint.settled, adds)?);
            let grip = Check::judge("grip-when-warm", &then, Keep::AtLeast, &none, bench.guard());
            let grip = grip.about(INTERFERENCE_WARM.key).with("running_temperature", degrees(most.number()));
            let grip = answer.check(grip.not_worse_than(Verdict::Doubtful));
            grip.remedy(Words::of("say-how-warm")).remedy(joint.cure.clone()).remedy(Words::of("pin-it"));
            return Ok(());
        };
        answer.fact("running_temperature", degrees(running.housing.value.number()));
        let then = answer.record(&INTERFERENCE_WARM, heating::interference_warm(&joint.settled, &loosest.adds)?);
        let grip =
            Check::judge("grip-when-warm", &then, Keep::AtLeast, &none, bench.guard()).about(INTERFERENCE_WARM.key);
        let trusted = climate.trusted();
        let grip = answer.check(grip.not_better_than(trusted).at(running.housing.place));
        grip.remedy(joint.cure.clone()).remedy(Words::of("pin-it"));
        if trusted != Verdict::Proven {
            grip.remedy(Words::of("strength-when-warm"));
        }
        Ok(())
    }

    /// Interference left in the cold, where the bush shrinks more than its housing.
    pub(in crate::operations) fn grip_when_cold(
        &self,
        bench: &Bench,
        joint: &Joint,
        climate: &Climate,
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        const ID: &str = "grip-when-cold";
        let Some(frost) = &climate.frost else {
            answer.does_not_apply(&[ID]);
            return Ok(());
        };
        let none = Worked::assumed(Shift::new(0.0), "a bush without interference turns");
        let at = degrees(frost.at.number());
        if !frost.said {
            answer.assume_words(Words::of("stands-in-frost").with("value", at.clone()));
        }
        let then = answer.record(&INTERFERENCE_COLD, heating::interference_warm(&joint.settled, &frost.adds)?);
        let grip = Check::judge(ID, &then, Keep::AtLeast, &none, bench.guard()).about(INTERFERENCE_COLD.key);
        // Nobody said that it stands in frost: what would not hold there is in doubt until somebody says.
        let grip = if frost.said { grip } else { grip.not_worse_than(Verdict::Doubtful) };
        let grip = answer.check(grip.with("cold", at).at(self.housing.outside.place));
        if !frost.said {
            grip.remedy(Words::of("say-how-cold"));
        }
        grip.remedy(joint.cure.clone()).remedy(Words::of("pin-it"));
        Ok(())
    }
}
