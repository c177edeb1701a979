//! Where the hole stands: on its oilway, off the ends of the bush, in its time, its chips with a way out.

use super::keys::{Before, DrillOilHole, Open, Start};
use super::names::{AT, BESIDE, LENGTH, MOUTH, OILWAY, OILWAY_AT, ROOM, TO_THE_END};
use crate::handbook::constants::row;
use crate::handbook::cutting::oil_hole as law;
use crate::operations::{Answer, Bench, hole_making};
use crate::proof::{Cause, Check, Fact, Keep, Refusal, Verdict, Words, Worked};
use crate::quantity::{Decimals, Mm, Quantity, Rounds};
use crate::shop::Gauge;

impl DrillOilHole {
    /// Every question of its place.
    pub(super) fn stands(&self, bench: &Bench, drill: &Worked<Mm>, answer: &mut Answer) -> Result<(), Refusal> {
        let at = Worked::from(&self.at).with_doubt(Cause::Set("setting out"), hole_making::set_out(answer)?);
        let at = answer.record(&AT, at);
        let mouth = answer.record(&MOUTH, law::along_a_slant(drill, &(&self.angle).into())?);
        self.meets(bench, (&at, drill), answer)?;
        self.clear_of_the_ends(bench, (&at, &mouth, drill), answer)?;
        self.in_its_time(answer);
        let most = row("oil-hole-slope-least")?.value;
        // On a slope a drill runs downhill before it cuts.
        let led = self.start.as_ref().is_some_and(|at| at.value != Start::AsItIs);
        let verdict = if led || self.angle.value.number() >= most { Verdict::Proven } else { Verdict::Doubtful };
        answer.check(Check::of_kind("starts-true", verdict).at(self.angle.place));
        Ok(())
    }

    /// The whole of it opens into the oilway; less than half of it misses.
    fn meets(
        &self,
        bench: &Bench,
        (at, drill): (&Worked<Mm>, &Worked<Mm>),
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        const CHIPS: &str = "chips-come-out";
        let Some(oilway) = &self.oilway else {
            answer.not_checked(&["meets-oilway"], &["oilway"]);
            answer.not_checked(&[CHIPS], &["oilway.open"]);
            return Ok(());
        };
        match &oilway.open {
            None => answer.not_checked(&[CHIPS], &["oilway.open"]),
            Some(open) => {
                let verdict = if open.value == Open::BothEnds { Verdict::Proven } else { Verdict::Doubtful };
                answer.check(Check::of_kind(CHIPS, verdict).at(open.place));
            }
        }
        let across = answer.read(bench, "oilway.diameter", Gauge::Inside, &oilway.diameter)?;
        let across = answer.record(&OILWAY, across);
        let middle = answer.read(bench, "oilway.at", Gauge::Depth, &oilway.at)?;
        let middle = answer.record(&OILWAY_AT, middle);
        let beside = answer.record(&BESIDE, law::beside_oilway(at, &middle)?);
        let room = answer.record(&ROOM, law::oilway_room(&across, drill)?);
        let half = across.scaled(0.5, "half of the hole opens into it");
        let check = Check::judge_two("meets-oilway", (&beside, &room), Keep::AtMost, (&beside, &half), bench.guard());
        let check = answer.check(check.about(BESIDE.key).at(oilway.at.place));
        if !check.is_proven() {
            let there = Fact::mm(middle.number()).to(Decimals::Exactly(1)).rounded(Rounds::Nearest);
            check.remedy(Words::of("set-it-out-there").with("at", there));
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
