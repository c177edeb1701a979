//! The joint and its shaft at running temperature: does it still hold, does it still run?

use super::bore::Finished;
use super::keys::ReamBush;
use super::names::{BORE_MAX, BORE_MIN, CLEARANCE_COLD, CLEARANCE_EVEN, CLEARANCE_WARM};
use crate::handbook::Material;
use crate::handbook::joints::heating;
use crate::operations::kit::{coldest, degrees};
use crate::operations::press_joint::{Climate, Joint, Metals, Running, Sizes};
use crate::operations::{Answer, Bench, Name};
use crate::proof::{Check, Keep, Refusal, Verdict, Words, Worked};
use crate::quantity::{Celsius, Expansion, Mm, Quantity, Shift};

/// The checks of the clearance as it runs: does the shaft bind, is it looser than was asked for?
const BINDS: &str = "clearance-when-warm";
const TOO_LOOSE: &str = "loose-when-warm";
const WARM: [&str; 2] = [BINDS, TOO_LOOSE];

/// The running clearance with housing, bush and shaft each as warm as given: what they grow, and what the bore comes back or closes in
/// as the joint lets go or presses more.
fn grown(
    (metals, shaft): (&Metals, &Worked<Expansion>),
    (sizes, joint, finished): (&Sizes, &Joint, &Finished),
    (of_housing, of_bush, of_shaft): (&Worked<Celsius>, &Worked<Celsius>, &Worked<Celsius>),
) -> Result<Worked<Shift>, Refusal> {
    let d = sizes.d.nominal("a change of size: the doubt of the diameter is small beside it");
    let alpha = (&metals.bush.expansion()?, &metals.housing.expansion()?);
    let adds = heating::tightened_by(&d, alpha.0, of_bush, alpha.1, of_housing)?;
    let settled = joint.settled.nominal("what comes back of the bore: the doubt stands in the limits of the bore");
    let regrown = heating::bore_regrown(&joint.share, &settled, &heating::interference_warm(&settled, &adds)?)?;
    let bore = finished.shaft.nominal("a change of size: the doubt of the diameter is small beside it");
    heating::clearance_warm(&finished.clearance, &regrown, &bore, alpha.0, of_bush, shaft, of_shaft)
}

/// A shaft without clearance binds.
fn is_free(bench: &Bench, (id, name): (&'static str, &Name<Shift>), clear: &Worked<Shift>) -> Check {
    let none = Worked::assumed(Shift::new(0.0), "a shaft without clearance binds");
    Check::judge(id, clear, Keep::AtLeast, &none, bench.guard()).about(name.key)
}

/// What warmth adds to the clearance of a bore in the middle of its limits, against half of those: more of it runs looser than was asked
/// for, which is doubtful.
fn not_too_loose(bench: &Bench, adds: f64, answer: &Answer) -> Option<Check> {
    let end = |name: &Name<Mm>| answer.value(name.key).map(|end| end.number);
    let (least, most) = end(&BORE_MIN).zip(end(&BORE_MAX))?;
    let half = Worked::assumed(Shift::new((most - least) / 2.0), "half of the limits of the bore");
    let adds = Worked::assumed(Shift::new(adds), "what warmth adds to the clearance");
    let check = Check::judge(TOO_LOOSE, &adds, Keep::AtMost, &half, bench.guard());
    Some(check.not_worse_than(Verdict::Doubtful))
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
        self.asked().grip_when_warm(bench, joint, climate, answer)?;
        self.asked().grip_when_cold(bench, joint, climate, answer)?;
        self.in_frost(bench, metals, (sizes, joint, finished), answer)?;
        self.pair_runs(metals, answer)?;
        let Some(running) = &self.running else {
            return self.as_warm_as_assumed(bench, metals, (sizes, joint, finished), climate, answer);
        };
        let of_shaft = self.asked().running_shaft(running);
        answer.fact("running_shaft", degrees(of_shaft.number()));
        if finished.middle.is_none() {
            answer.not_checked(&WARM, &["shaft"]);
            return Ok(());
        }
        let warm: Worked<Celsius> = (&running.housing).into();
        let alpha_s = self.shaft_metal(Some(running), answer)?.expansion()?;
        let at = |bush: &Worked<Celsius>, shaft: &Worked<Celsius>| {
            grown((metals, &alpha_s), (sizes, joint, finished), (&warm, bush, shaft))
        };
        answer.record(&CLEARANCE_EVEN, at(&warm, &warm)?);
        for (which, case) in climate.warm.iter().enumerate() {
            let clear = at(&case.bush, &of_shaft)?;
            let clear = if which == 0 { answer.record(&CLEARANCE_WARM, clear) } else { clear };
            let check = is_free(bench, (BINDS, &CLEARANCE_WARM), &clear);
            let check = answer.check(check.at(running.housing.place));
            if check.remedies.is_empty() {
                check.remedy(Words::of("more-clearance"));
            }
            let adds = clear.number() - finished.clearance.number();
            if let Some(check) = not_too_loose(bench, adds, answer) {
                answer.check(check.at(running.housing.place)).remedy(Words::of("not-so-warm"));
            }
        }
        Ok(())
    }

    /// How warm it runs nobody said: as warm as the joint itself is judged to the shaft must be free, and no looser than was asked for. Doubtful
    /// at worst.
    fn as_warm_as_assumed(
        &self,
        bench: &Bench,
        metals: &Metals,
        (sizes, joint, finished): (&Sizes, &Joint, &Finished),
        climate: &Climate,
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        if finished.middle.is_none() {
            answer.not_checked(&WARM, &["shaft"]);
            return Ok(());
        }
        let (at, alpha_s) = (&climate.judged_to, self.shaft_metal(None, answer)?.expansion()?);
        let clear = answer.record(&CLEARANCE_EVEN, grown((metals, &alpha_s), (sizes, joint, finished), (at, at, at))?);
        answer.fact("running_temperature", degrees(at.number()));
        answer.fact("running_shaft", degrees(at.number()));
        let check = is_free(bench, (BINDS, &CLEARANCE_EVEN), &clear);
        let check = answer.check(check.not_worse_than(Verdict::Doubtful));
        check.remedy(Words::of("say-how-warm")).remedy(Words::of("more-clearance"));
        if let Some(check) = not_too_loose(bench, clear.number() - finished.clearance.number(), answer) {
            answer.check(check.at(self.housing.outside.place)).remedy(Words::of("say-how-warm"));
        }
        Ok(())
    }

    /// A shaft and a bush that weld, or cut each other up, run in no clearance.
    fn pair_runs(&self, metals: &Metals, answer: &mut Answer) -> Result<(), Refusal> {
        let shaft = self.shaft_metal(self.running.as_ref(), answer)?;
        let verdict = if shaft.runs_in(&metals.bush) { Verdict::Proven } else { Verdict::Doubtful };
        let check = Check::of_kind("pair-runs", verdict).with("bore", metals.bush.typed()).with("shaft", shaft.typed());
        answer.check(check.at(self.bush.material.place)).remedy(Words::of("another-metal"));
        Ok(())
    }

    /// The clearance in the coldest that the joint stands in: a bush that shrinks more than its shaft, and more still in what carries it,
    /// nips it. What nobody said of the frost is doubtful at worst.
    fn in_frost(
        &self,
        bench: &Bench,
        metals: &Metals,
        (sizes, joint, finished): (&Sizes, &Joint, &Finished),
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        const ID: &str = "clearance-when-cold";
        let typed = self.running.as_ref().and_then(|running| running.coldest.as_ref());
        let Some(at) = coldest(typed)? else {
            answer.does_not_apply(&[ID]);
            return Ok(());
        };
        if finished.middle.is_none() {
            answer.not_checked(&[ID], &["shaft"]);
            return Ok(());
        }
        let alpha_s = self.shaft_metal(self.running.as_ref(), answer)?.expansion()?;
        let cold = grown((metals, &alpha_s), (sizes, joint, finished), (&at, &at, &at))?;
        let cold = answer.record(&CLEARANCE_COLD, cold);
        answer.fact("coldest", degrees(at.number()));
        let check = is_free(bench, (ID, &CLEARANCE_COLD), &cold);
        let check = typed.map_or(check.clone().not_worse_than(Verdict::Doubtful), |at| check.at(at.place));
        let check = answer.check(check);
        if check.remedies.is_empty() {
            check.remedy(Words::of("more-clearance"));
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
