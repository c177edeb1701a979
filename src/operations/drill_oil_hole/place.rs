//! Where the hole stands: on its oilway, off the ends of the bush, in its time, its chips with a way out.

use super::keys::{Before, DrillOilHole, Start};
use super::names::{AT, LENGTH, MOUTH, TO_THE_END};
use crate::handbook::constants::row;
use crate::handbook::cutting::oil_hole as law;
use crate::operations::hole_making::{self, Called};
use crate::operations::{Answer, Bench};
use crate::proof::{Cause, Check, Keep, Refusal, Verdict, Words, Worked};
use crate::quantity::{Mm, Quantity};

/// What the keys of its oilway are called.
pub(super) const CALLED: Called =
    Called { oilway: "oilway", open: "oilway.open", depth: "oilway.depth", from_inner: None };

impl DrillOilHole {
    /// Every question of its place.
    pub(super) fn stands(
        &self,
        bench: &Bench,
        drill: &Worked<Mm>,
        down: bool,
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        let at = Worked::from(&self.at).with_doubt(Cause::Set("setting out"), hole_making::set_out(answer)?);
        let at = answer.record(&AT, at);
        let mouth = answer.record(&MOUTH, law::along_a_slant(drill, &(&self.angle).into())?);
        hole_making::meets(bench, (self.oilway.as_ref(), CALLED), (&at, drill), answer)?;
        self.clear_of_the_ends(bench, (&at, &mouth, drill), answer)?;
        self.in_its_time(answer);
        let most = row("oil-hole-slope-least")?.value;
        // On a slope a drill runs downhill before it cuts.
        let led = self.start.as_ref().is_some_and(|at| at.value != Start::AsItIs);
        let slopes = self.angle.value.number() < most;
        let verdict = if slopes && (down || !led) { Verdict::Doubtful } else { Verdict::Proven };
        let check = answer.check(Check::of_kind("starts-true", verdict).at(self.angle.place));
        if down && led {
            check.remedy(Words::of("no-room-down-the-oilway"));
        }
        Ok(())
    }

    /// Metal between its mouth and the nearer end.
    fn clear_of_the_ends(
        &self,
        bench: &Bench,
        (at, mouth, drill): (&Worked<Mm>, &Worked<Mm>, &Worked<Mm>),
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        const ID: &str = "clear-of-the-ends";
        let Some(length) = &self.length else {
            answer.not_checked(&[ID], &["length"]);
            return Ok(());
        };
        let length = answer.record(&LENGTH, length.into());
        // A slanting hole comes out so much further along, towards either end: nobody says which way it leans.
        let leans = answer
            .value(super::names::WALL_ALONG.key)
            .map_or(0.0, |along| along.number * self.angle.value.number().to_radians().cos());
        let nearer = at.number().min(length.number() - at.number()) - leans;
        let from_end = at.shifted(nearer - at.number(), "from the nearer end, where it comes out");
        let left = answer.record(&TO_THE_END, law::to_the_end(&from_end, mouth)?);
        let share = |name| Ok::<_, Refusal>(drill.scaled(row(name)?.value, "a share of the drill"));
        let (proven, least) = (share("oil-hole-end-share")?, share("oil-hole-end-least-share")?);
        let check = Check::judge_two(ID, (&left, &proven), Keep::AtLeast, (&left, &least), bench.guard());
        answer.check(check.about(TO_THE_END.key).at(self.at.place));
        Ok(())
    }

    /// After pressing, before reaming: before it may not line up, behind it raises a burr into a finished bore.
    fn in_its_time(&self, answer: &mut Answer) {
        const ID: &str = "in-its-time";
        let Some(before) = &self.before else { return answer.not_checked(&[ID], &["before"]) };
        let (verdict, cure) = match before.value {
            Before::Ream => (Verdict::Proven, "ream-behind-it"),
            Before::Press => (Verdict::Doubtful, "line-it-up"),
            Before::Nothing => (Verdict::Fails, "ream-behind-it"),
        };
        answer.check(Check::of_kind(ID, verdict).at(before.place)).remedy(Words::of(cure));
    }
}
