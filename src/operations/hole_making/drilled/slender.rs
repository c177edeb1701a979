//! The drill itself: long enough for its hole, and stout enough for its thrust and its torque.

use super::Case;
use super::Drilled;
use super::effort::Effort;
use super::names::{BOWS_AT, CHUCK_CLEAR, STICK_OUT, THRUST, TORQUE, TWISTS_AT};
use crate::handbook::constants::{constant, worst};
use crate::handbook::cutting::{deflection, drill_column as column};
use crate::handbook::threads::{insert, tap_strength};
use crate::operations::hole_making::Sunk;
use crate::operations::{Answer, Bench};
use crate::proof::{Cause, Check, Fact, Keep, Mark, Refusal, Side, Source, Verdict, Words, Worked};
use crate::quantity::{Decimals, Mm, Newton, Quantity, Ratio, Rounds, Stress};

impl Drilled<'_> {
    /// Reach, column and torsion of the drill.
    pub(super) fn stands_it(
        &self,
        bench: &Bench,
        case: &Case,
        effort: &Effort,
        depth: &Worked<Mm>,
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        let deepest = insert::depth_to_point(depth, &case.point)?.with_doubt(Cause::Set("depth stop"), case.stop);
        let out = self.stands_out(bench, case, &deepest, answer)?;
        let share = worst::<Ratio>("drill-body-share", false)?;
        let body = column::drill_body(&case.diameter, &share)?;
        let Some((modulus, shear)) = column::drill_metal(case.tool)? else {
            answer.not_checked(&["drill-bows", "drill-twists-off"], &[]);
            return Ok(());
        };
        match &effort.torque {
            Some(torque) => {
                let twists = answer.record(&TWISTS_AT, tap_strength::core_breaks_at(&body, &shear)?);
                let check = Check::judge("drill-twists-off", torque, Keep::AtMost, &twists, bench.guard());
                answer.check(check.about(TORQUE.key).at(self.diameter.place));
            }
            None => answer.not_checked(&["drill-twists-off"], &[]),
        }
        match (out, &effort.thrust, &effort.least_thrust) {
            (Some(out), Some(most), Some(least)) => self.bows(bench, (&out, &body), &modulus, [most, least], answer),
            (None, _, _) => {
                answer.not_checked(&["drill-bows"], &["stick-out"]);
                Ok(())
            }
            _ => {
                answer.not_checked(&["drill-bows"], &[]);
                Ok(())
            }
        }
    }

    /// How far it stands out, as typed or all of a short-series drill, and whether that reaches: the chuck stays clear of the
    /// face; of a drill that nobody measured the flutes are as deep as the hole.
    fn stands_out(
        &self,
        bench: &Bench,
        case: &Case,
        deepest: &Worked<Mm>,
        answer: &mut Answer,
    ) -> Result<Option<Worked<Mm>>, Refusal> {
        const ID: &str = "drill-reaches";
        let deepest = match &self.sunk {
            Sunk::By(sunk) => {
                let source = Source::fixed("down to the face, and into it", Mark::Derived);
                Some(Worked::sum(&[(1.0, deepest), (1.0, sunk)], 0.0, "the drill's way from the mouth", source))
            }
            Sunk::Level => Some(deepest.clone()),
            Sunk::Unknown(key) => {
                answer.not_checked(&[ID], &[*key]);
                None
            }
        };
        if let Some(at) = self.stick_out {
            let out = answer.record(&STICK_OUT, at.into());
            if let Some(deepest) = deepest {
                let clear = answer.record(&CHUCK_CLEAR, column::chuck_clear(&out, &deepest)?);
                let check = Check::judge(ID, &clear, Keep::AtLeast, &constant("clear-while-cutting")?, bench.guard());
                answer.check(check.about(CHUCK_CLEAR.key).at(at.place));
            }
            return Ok(Some(out));
        }
        let Ok(length) = column::drill_length(case.diameter.number()) else {
            answer.not_checked(&[ID], &["stick-out"]);
            return Ok(None);
        };
        if let Some(deepest) = deepest {
            let check = Check::judge(ID, &length.flutes, Keep::AtLeast, &deepest, bench.guard());
            answer.check(check.at(self.diameter.place).not_worse_than(Verdict::Doubtful));
        }
        let out = answer.assume("stick-out", length.overall);
        Ok(Some(answer.record(&STICK_OUT, out)))
    }

    /// The thrust against what the drill carries as a column: proven with its safety at the high end of the feed, failing where it
    /// bows out at the low end already.
    fn bows(
        &self,
        bench: &Bench,
        (out, body): (&Worked<Mm>, &Worked<Mm>),
        modulus: &Worked<Stress>,
        [most, least]: [&Worked<Newton>; 2],
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        let ends = constant::<Ratio>("column-fixed-and-led")?;
        let bar = deflection::second_moment_round(body)?;
        let carries = answer.record(&BOWS_AT, column::column_carries(&ends, modulus, &bar, out)?);
        let safety = constant::<Ratio>("column-safety")?.number();
        let safely = carries.scaled(1.0 / safety, "less its safety");
        let check = Check::judge_two("drill-bows", (most, &safely), Keep::AtMost, (least, &carries), bench.guard());
        let check = answer.check(check.about(THRUST.key).at(self.stick_out.map_or(self.diameter.place, |at| at.place)));
        if !check.is_proven() {
            let asked =
                Worked::assumed(Newton::new(safety * most.worst_number(Side::High, bench.guard())), "with its safety");
            let length = column::column_length_for(&ends, modulus, &bar, &asked)?;
            let out = Fact::mm(length.number()).to(Decimals::Exactly(0)).rounded(Rounds::Down);
            check.remedy(Words::of("stand-out-less").with("out", out));
        }
        Ok(())
    }
}
