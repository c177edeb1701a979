//! The hole as it was drilled and the insert as it was left: what the log says of them in the place of what was planned.

use super::case::Case;
use super::names::{DEPTH_TO_POINT, DRILLED_DEPTH, METAL_LEFT, SET_DOWN};
use crate::handbook::threads::insert;
use crate::operations::answer::DOUBT_PLAUSIBLE;
use crate::operations::kit::{self, mm};
use crate::operations::{Answer, Bench};
use crate::proof::{Check, Fact, Keep, Refusal, Verdict, Words, Worked};
use crate::quantity::{Decimals, Mm, Quantity};

/// A depth that was asked for, as a depth gauge reads it: that of the plan, also where the log has what became of it.
pub(super) fn asked(answer: &Answer, key: &str) -> Option<Fact> {
    Some(kit::aimed(answer, key)?.to(Decimals::Exactly(2)))
}

impl Case<'_> {
    /// What was left of the length that was chosen.
    pub(super) fn as_left(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        if let Some(depth) = bench.left(&DRILLED_DEPTH)? {
            self.drilled(bench, depth, answer)?;
        }
        if let Some(down) = bench.left(&SET_DOWN)? {
            self.sits(bench, down, answer)?;
        }
        Ok(())
    }

    /// The hole by its depth as measured: neither stop nor zero counts any more. One that is not as deep as was asked has no room for
    /// the tap: nothing is spoilt by metal that stands, and nothing proven.
    fn drilled(&self, bench: &Bench, depth: Worked<Mm>, answer: &mut Answer) -> Result<(), Refusal> {
        let Some(planned) = answer.value(DRILLED_DEPTH.key).map(|value| value.number) else { return Ok(()) };
        answer.fact(DRILLED_DEPTH.key, mm(planned));
        let depth = answer.record(&DRILLED_DEPTH, depth);
        let least = Worked::assumed(Mm::new(planned - self.stop), "what was asked, as surely as the stop sets it");
        let check = Check::judge(DOUBT_PLAUSIBLE.id, &depth, Keep::AtLeast, &least, bench.guard());
        if !check.is_proven() {
            // Once the insert is in nobody drills on; and a pitch short it cannot be home.
            let is_in = bench.left(&SET_DOWN)?.is_some();
            let (check, words) = match is_in {
                true => (check.fails_beyond(self.pitch.number()), "in-too-short-a-hole"),
                false => {
                    (check.not_worse_than(Verdict::Doubtful).unfinished(DRILLED_DEPTH.key), "not-as-deep-as-asked")
                }
            };
            let words = Words::of(words).with("asked", mm(planned));
            self.otherwise(check, DRILLED_DEPTH.key, &depth, answer).remedy(words);
        }
        let reached = answer.record(&DEPTH_TO_POINT, insert::depth_to_point(&depth, &self.hole.point)?);
        let left = answer.record(&METAL_LEFT, self.metal_left(&reached, bench.guard())?);
        answer.checks.retain(|check| check.id != "break-through");
        let check = Check::judge("break-through", &left, Keep::AtLeast, &self.least_left, bench.guard());
        self.break_through(check, answer);
        self.skin(bench, &reached, answer)?;
        Ok(())
    }

    /// The insert by how far its first coil sits below the face: too little and it stands in the joint, too much and it carries less.
    fn sits(&self, bench: &Bench, down: Worked<Mm>, answer: &mut Answer) -> Result<(), Refusal> {
        let (least, most) = self.set_down()?;
        answer.fact(SET_DOWN.key, mm(most.number()));
        let down = answer.record(&SET_DOWN, down);
        for (keep, limit) in [(Keep::AtLeast, &least), (Keep::AtMost, &most)] {
            let check = Check::judge(DOUBT_PLAUSIBLE.id, &down, keep, limit, bench.guard());
            if check.is_proven() {
                continue;
            }
            // What stands too high is wound on; what sits too deep is never wound back.
            let (check, words) = match keep {
                Keep::AtLeast => (check.not_worse_than(Verdict::Doubtful).unfinished(SET_DOWN.key), "wind-it-further"),
                Keep::AtMost => (check.fails_beyond(most.number() - least.number()), "wind-it-anew"),
            };
            let (least, most) = (mm(least.number()), mm(most.number()));
            let words = Words::of(words).with("least", least).with("most", most);
            self.otherwise(check, SET_DOWN.key, &down, answer).remedy(words);
        }
        Ok(())
    }

    /// What was left otherwise than was asked.
    fn otherwise<'a>(
        &self,
        check: Check,
        key: &'static str,
        left: &Worked<Mm>,
        answer: &'a mut Answer,
    ) -> &'a mut Check {
        let check = check.with("key", key).with("doubt", Fact::mm(left.plus_minus()));
        let check = kit::asked_as(check, "left-as-asked");
        answer.check(check.at(self.asked.wall.place).past_finer_reading())
    }
}
