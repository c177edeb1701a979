//! Where the cut ends: the round that the nose leaves in a corner, whether its edge leaves a square shoulder, and whether the
//! carriage stops inside the limits of the length.

use super::{FREE, LENGTH};
use crate::handbook::constants::constant;
use crate::operations::kit::LeftWithin;
use crate::operations::turning::CuttingData;
use crate::operations::{Answer, Bench};
use crate::proof::{At, Cause, Check, Fact, Keep, Origin, Refusal, Side, Verdict, Words, Worked};
use crate::quantity::{Angle, Decimals, Mm, Quantity, Rounds, Wanted};
use crate::shop::{Axis, Cutting};

/// What is asked where the cut ends.
#[derive(Clone, Copy)]
pub(in crate::operations) struct Corner<'a> {
    /// Whether it ends at a shoulder or a bottom.
    pub ends: bool,
    /// Greatest round that may be left in its corner; of a range its lower end is the least.
    pub corner: Option<&'a At<Wanted<Mm>>>,
}

/// Judges the tool against the corner.
pub(in crate::operations) fn corner(
    bench: &Bench,
    asked: Corner,
    cutting: &CuttingData,
    answer: &mut Answer,
) -> Result<(), Refusal> {
    if !asked.ends {
        answer.does_not_apply(&["corner", "shoulder-square"]);
        return Ok(());
    }
    let least: Worked<Angle> = constant("shoulder-edge-least")?;
    let square = cutting.edge.angle.number() >= least.number() - 1e-9;
    let verdict = if square { Verdict::Proven } else { Verdict::Fails };
    let check = answer.check(Check::of_kind("shoulder-square", verdict));
    if !square {
        check.remedy(Words::of("edge-for-a-shoulder"));
    }
    let Some(at) = asked.corner else {
        answer.not_checked(&["corner"], &["corner"]);
        return Ok(());
    };
    let most = Worked::exact(at.value.high, Origin::Typed(at.place));
    let of = |keep, limit| Check::judge("corner", &cutting.edge.nose, keep, limit, bench.guard()).at(at.place);
    let ranges = at.value.low.number() < at.value.high.number();
    // A sharp corner starts a crack where a round was asked for.
    if ranges && cutting.edge.nose.number() < most.number() {
        let least = Worked::exact(at.value.low, Origin::Typed(at.place));
        let check = answer.check(of(Keep::AtLeast, &least));
        if !check.is_proven() {
            let nose = Fact::mm(least.number()).to(Decimals::Exactly(2)).rounded(Rounds::Up);
            check.remedy(Words::of("nose-round-enough").with("nose", nose));
        }
        return Ok(());
    }
    let check = answer.check(of(Keep::AtMost, &most));
    if !check.is_proven() {
        let nose = Fact::mm(most.number()).to(Decimals::Exactly(2)).rounded(Rounds::Down);
        check.remedy(Words::of("nose-for-the-corner").with("nose", nose));
    }
    Ok(())
}

/// How the carriage is stopped where the cut ends: by its dial, and where that has none by what stands on the bed.
pub(in crate::operations) fn set_the_stop(lathe: Option<&Cutting>) -> Words {
    let no_dial = lathe.is_some_and(|lathe| lathe.dial(Axis::Along).is_none());
    Words::of(if no_dial { "set-the-stop-by-a-gauge" } else { "set-the-stop" })
}

impl Corner<'_> {
    /// Records how far it is cut, and gives it as planned; where it ends at a shoulder the carriage's dial must stop it inside the
    /// limits of the length, or it was left inside them.
    pub(in crate::operations) fn length(
        &self,
        bench: &Bench,
        length: &At<Wanted<Mm>>,
        lathe: Option<&Cutting>,
        answer: &mut Answer,
    ) -> Result<Worked<Mm>, Refusal> {
        const ID: &str = "shoulder-kept";
        let aim = Worked::exact(Mm::new(f64::midpoint(length.value.low.number(), length.value.high.number())), {
            Origin::Typed(length.place)
        });
        let dial = lathe.and_then(|lathe| lathe.dial(Axis::Along));
        let half = dial.map(|dial| dial.division.value.number() / 2.0);
        let aim = aim.with_doubt(Cause::Set("carriage"), half.unwrap_or(0.0));
        let limits = [(Keep::AtLeast, length.value.low), (Keep::AtMost, length.value.high)];
        let has_limits = length.value.low.number() < length.value.high.number();
        let left = if self.ends { bench.left(&LENGTH)? } else { None };
        if left.is_some() {
            answer.fact(LENGTH.key, Fact::mm(aim.number()));
        }
        let name = if self.ends { &LENGTH } else { &FREE };
        let recorded = answer.record(name, left.clone().unwrap_or_else(|| aim.clone()));
        if !self.ends {
            answer.does_not_apply(&[ID]);
        } else if left.is_some() && has_limits {
            let limits = [length.value.low.number(), length.value.high.number()];
            let asked =
                LeftWithin { id: ID, key: LENGTH.key, limits, place: length.place, stands: Side::Low, is_off: false };
            asked.judge(bench, &recorded, answer);
        } else if bench.shop.is_none() {
            answer.no_shop(&[ID]);
        } else if !has_limits {
            answer.not_checked(&[ID], &["limits of the length"]);
        } else if half.is_none() {
            let check = answer.check(Check::of_kind(ID, Verdict::Doubtful).at(length.place));
            check.remedy(Words::of("no-carriage-dial"));
        } else {
            for (keep, limit) in limits {
                let limit = Worked::exact(limit, Origin::Typed(length.place));
                let check = Check::judge(ID, &aim, keep, &limit, bench.guard()).about(LENGTH.key).at(length.place);
                let proven = check.is_proven();
                let check = answer.check(check);
                if !proven {
                    check.remedy(Words::of("stop-for-the-carriage"));
                }
            }
        }
        Ok(aim)
    }
}
