//! What a lip asks of its track beside its size: finish, hardness, run-out, no lead.

use super::keys::{Dirt, Lead, PolishSeal};
use super::names::{
    FINISH, FINISH_FOUND, FINISH_LEAST, FINISH_MOST, HARDNESS, OFF_CENTRE, OFF_IN_ALL, PASSES, RIM_BY_MINUTE,
    RIM_SPEED, RUN_OUT, THREAD,
};
use super::work::Track;
use crate::handbook::constants::constant;
use crate::handbook::cutting::speeds::surface_speed;
use crate::handbook::joints::seal;
use crate::handbook::materials::hardness::on_scale;
use crate::handbook::measuring::window;
use crate::operations::{Answer, Bench};
use crate::proof::{Cause, Check, Keep, Mark, Origin, Refusal, Source, Verdict, Words, Worked};
use crate::quantity::{Hardness, MPerS, Mm, Quantity, Ratio, Roughness, Scale};
use crate::shop::Gauge;

impl PolishSeal {
    /// Can the diameter be measured: its doubt against a quarter of what h11 leaves.
    pub(super) fn measurable(&self, bench: &Bench, answer: &mut Answer, track: &Track) -> Result<(), Refusal> {
        let doubt = Worked::assumed(Mm::new(track.after.plus_minus()), "the doubt of the diameter after polishing");
        let quarter = window::quarter(&track.least, &Worked::from(&self.track))?;
        let check = Check::judge("can-be-measured", &doubt, Keep::AtMost, &quarter, bench.guard());
        answer.check(check.not_worse_than(Verdict::Doubtful).at(self.size.place));
        Ok(())
    }

    /// Both ends of the roughness wanted, each within what a lip runs on: too smooth a track carries no oil.
    pub(super) fn finish(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        const ID: &str = "finish";
        let (low, high) = (constant::<Roughness>("seal-finish-least")?, constant::<Roughness>("seal-finish-most")?);
        let (least, most, verdict) = match &self.finish {
            None => {
                answer.assume("finish-least", low.clone());
                answer.assume("finish-most", high.clone());
                (low.clone(), high.clone(), Verdict::Proven)
            }
            Some(at) => {
                let within = |end: Roughness| (low.number()..=high.number()).contains(&end.number());
                let both = at.value.low.number() > 0.0 && at.value.low < at.value.high;
                let verdict = match (both, within(at.value.low), within(at.value.high)) {
                    (true, true, true) => Verdict::Proven,
                    (true, true, false) | (true, false, true) => Verdict::Doubtful,
                    _ => Verdict::Fails,
                };
                let end = |end: Roughness| Worked::exact(end, Origin::Typed(at.place));
                (end(at.value.low), end(at.value.high), verdict)
            }
        };
        answer.check(Check::of_kind(ID, verdict).at(self.finish.as_ref().map_or(self.track.place, |at| at.place)));
        answer.record(&FINISH_LEAST, least.clone());
        answer.record(&FINISH_MOST, most.clone());
        let left = bench.left(&FINISH)?;
        let made = left.is_some();
        let middle = || {
            let ends = [(0.5, &least), (0.5, &most)];
            Worked::sum(&ends, 0.0, "the middle of what is wanted", Source::fixed("aimed at", Mark::Derived))
        };
        let left = answer.record(&FINISH, left.unwrap_or_else(middle));
        if made {
            // The closer of what is wanted and of what a lip runs on.
            let low_end = if least.number() > low.number() { &least } else { &low };
            let high_end = if most.number() < high.number() { &most } else { &high };
            for (keep, limit) in [(Keep::AtLeast, low_end), (Keep::AtMost, high_end)] {
                answer.check(Check::judge(ID, &left, keep, limit, bench.guard()).about(FINISH.key));
            }
        }
        self.as_found(bench, answer, &low, &high)
    }

    /// The track as it came.
    fn as_found(
        &self,
        bench: &Bench,
        answer: &mut Answer,
        low: &Worked<Roughness>,
        high: &Worked<Roughness>,
    ) -> Result<(), Refusal> {
        let Some(at) = &self.finish_found else { return Ok(()) };
        let half = at.value.plus_minus.or_else(|| at.value.grain.map(|grain| grain / 2.0)).unwrap_or(0.0);
        let found = Worked::exact(at.value.value, Origin::Typed(at.place)).with_doubt(Cause::Reading(at.place), half);
        let found = answer.record(&FINISH_FOUND, found);
        for (keep, limit) in [(Keep::AtLeast, low), (Keep::AtMost, high)] {
            let check = Check::judge("finish-as-found", &found, keep, limit, bench.guard());
            let too_smooth = keep == Keep::AtLeast && !check.is_proven();
            let check = if too_smooth { Check { remedy: None, ..check } } else { check };
            let check = answer.check(check.about(FINISH_FOUND.key).at(at.place));
            if too_smooth {
                check.remedy(Words::of("roughen-it"));
            }
        }
        Ok(())
    }

    /// How fast the track runs, where somebody says how fast the shaft turns.
    fn runs(&self, bench: &Bench, answer: &mut Answer, track: &Track) -> Result<Option<Worked<MPerS>>, Refusal> {
        let Some(speed) = &self.speed else { return Ok(None) };
        let rim = answer.record(&RIM_BY_MINUTE, surface_speed(&speed.into(), &track.after)?);
        let rim = answer.record(&RIM_SPEED, seal::rim_speed(&rim)?);
        // At the largest that it may be it runs fastest.
        let fastest = seal::rim_speed(&surface_speed(&speed.into(), &track.largest)?)?;
        let (most, never) = (constant::<MPerS>("seal-speed-most")?, constant::<MPerS>("seal-speed-never")?);
        let check = Check::judge_two("rim-speed", (&fastest, &most), Keep::AtMost, (&fastest, &never), bench.guard());
        answer.check(check.at(speed.place));
        Ok(Some(rim))
    }

    /// Hard enough for the lip; harder where dirt comes to it or it runs fast, and so where nobody says.
    pub(super) fn hard_enough(&self, bench: &Bench, answer: &mut Answer, track: &Track) -> Result<(), Refusal> {
        const ID: &str = "hard-enough";
        let rim = self.runs(bench, answer, track)?;
        let fast = constant::<MPerS>("seal-speed-fast")?;
        let slow = rim.is_some_and(|rim| rim.high() < fast.number());
        if self.dirt.is_none() {
            answer.assume_words(Words::of("dirt"));
        }
        if self.speed.is_none() {
            answer.assume_words(Words::of("fast"));
        }
        let clean = self.dirt.as_ref().is_some_and(|at| at.value == Dirt::Clean);
        let asked = if slow && clean { "seal-hardness-least" } else { "seal-hardness-fast" };
        let Some(at) = &bench.part.hardness else { return Ok(()) };
        let Some(metal) = &bench.part.material else {
            answer.not_checked(&[ID], &["part.material"]);
            return Ok(());
        };
        let (asked, least) = (constant::<Ratio>(asked)?, constant::<Ratio>("seal-hardness-handling")?);
        let kind = metal.value.kind();
        // What is too soft for the one scale has a number on the other.
        let is_on_it = at.value.scale == Scale::Hrc || on_scale(at.value, Scale::Hrc, kind).is_ok();
        let scale = if is_on_it { Scale::Hrc } else { Scale::Hv };
        let on = |number: &Worked<Ratio>| match scale {
            Scale::Hrc => Ok(number.clone()),
            _ => on_scale(Hardness { number: number.number(), scale: Scale::Hrc }, scale, kind),
        };
        let tested = match at.value.scale == scale {
            true => Ok(Worked::exact(Ratio::new(at.value.number), Origin::Typed(at.place))),
            false => on_scale(at.value, scale, kind),
        };
        let (Ok(tested), Ok(asked), Ok(least)) = (tested, on(&asked), on(&least)) else {
            answer.not_checked(&[ID], &["part.hardness"]);
            return Ok(());
        };
        let tested = answer.record(&HARDNESS, tested);
        let check = Check::judge_two(ID, (&tested, &asked), Keep::AtLeast, (&tested, &least), bench.guard());
        answer.check(check.about(HARDNESS.key).at(at.place));
        Ok(())
    }

    /// The shaft off its own axis, the seal off the shaft's, and both together.
    pub(super) fn run_out(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        const ID: &str = "run-out";
        let shaft = answer.read_difference_if(bench, "run-out", Gauge::Indicator, self.run_out.as_ref())?;
        let seat =
            answer.read_difference_if(bench, "seal-off-centre", Gauge::Indicator, self.seal_off_centre.as_ref())?;
        let shaft = shaft.map(|off| answer.record(&RUN_OUT, off));
        let seat = seat.map(|off| answer.record(&OFF_CENTRE, off));
        let all = match (&shaft, &seat) {
            (Some(shaft), Some(seat)) => Some(answer.record(&OFF_IN_ALL, seal::off_seal(shaft, seat)?)),
            _ => None,
        };
        let place = self.run_out.as_ref().or(self.seal_off_centre.as_ref()).map(|at| at.place);
        let judged = [
            (shaft, "seal-run-out-most", RUN_OUT.key),
            (seat, "seal-off-centre-most", OFF_CENTRE.key),
            (all.clone(), "seal-off-in-all-most", OFF_IN_ALL.key),
        ];
        let mut worst = Verdict::Proven;
        for (off, most, key) in judged {
            let (Some(off), Some(place)) = (off, place) else { continue };
            let check = Check::judge(ID, &off, Keep::AtMost, &constant(most)?, bench.guard()).about(key).at(place);
            worst = worst.max(check.verdict().unwrap_or(Verdict::Proven));
            // Of two one alone, and good: the question is still open.
            if all.is_some() || check.verdict() == Some(Verdict::Fails) {
                answer.check(check);
            }
        }
        if all.is_none() && worst != Verdict::Fails {
            let missing = match (&self.run_out, &self.seal_off_centre) {
                (Some(_), _) => &["seal-off-centre"][..],
                (None, Some(_)) => &["run-out"],
                (None, None) => &["run-out", "seal-off-centre"],
            };
            answer.not_checked(&[ID], missing);
        }
        Ok(())
    }

    /// An oiled thread says after the polishing whether the track carries oil along; before, nobody knows: what it did on the track as it
    /// was is polished away.
    pub(super) fn no_lead(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        const ID: &str = "no-lead";
        if let Some(walked) = bench.left(&THREAD)? {
            let walked = answer.record(&THREAD, walked);
            let check = Check::judge(ID, &walked, Keep::AtMost, &constant("seal-thread-walks-most")?, bench.guard());
            answer.check(check.about(THREAD.key));
            return Ok(());
        }
        answer.record(&THREAD, Worked::assumed(Mm::new(0.0), "a track without lead"));
        match self.lead.as_ref().map(|at| (at.value, at.place)) {
            Some((Lead::Walks, place)) => {
                answer.check(Check::of_kind(ID, Verdict::Fails).at(place));
            }
            Some((Lead::Still, place)) => {
                answer.check(Check::of_kind(ID, Verdict::Doubtful).at(place)).remedy(Words::of("try-the-thread-again"));
            }
            None => answer.not_checked(&[ID], &["thread_walked in the log"]),
        }
        Ok(())
    }

    /// What is pushed over the track must not touch it.
    pub(super) fn passes(&self, bench: &Bench, answer: &mut Answer, track: &Track) -> Result<(), Refusal> {
        const ID: &str = "passes";
        let Some(over) = &self.passes_over else {
            answer.assume_words(Words::of("nothing-passes"));
            answer.does_not_apply(&[ID]);
            return Ok(());
        };
        let most = answer.record(&PASSES, seal::diameter_left(&over.into(), &constant("seal-pass-under")?)?);
        answer.check(Check::judge(ID, &track.largest, Keep::AtMost, &most, bench.guard()).at(over.place));
        Ok(())
    }
}
