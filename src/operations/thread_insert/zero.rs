//! One hole, one zero, one travel: where the stop is set to zero and how far it goes from there.

use super::hole;
use super::keys::{ThreadInsert, ZeroKind};
use crate::handbook::constants::constant;
use crate::handbook::threads::insert;
use crate::operations::hole_making::{QuillDial, comes_back, quill_dial, table_axis};
use crate::operations::{Answer, Bench};
use crate::proof::{Cause, Check, Fact, Keep, Mark, Refusal, Remedy, Source, Verdict, Words, Worked};
use crate::quantity::{Angle, Decimals, Mm, Quantity};
use crate::shop::{Axis, Gauge};

/// The zero that was chosen.
pub(super) struct Zero {
    pub kind: ZeroKind,
    /// Depth of the tip under the face when the stop is set; none where no zero can be taken so.
    pub tip: Option<Worked<Mm>>,
    /// The other zeros, for reading only.
    pub others: Vec<(ZeroKind, Worked<Mm>)>,
    /// The dial of the quill.
    pub dial: QuillDial,
}

impl ThreadInsert {
    /// Face where a table has dials, else strip; corner and old hole only when typed.
    pub(super) fn zero(
        &self,
        bench: &Bench,
        answer: &mut Answer,
        hole: &hole::Hole,
        old: Option<&Worked<Mm>>,
    ) -> Result<Zero, Refusal> {
        let machine = self.machine(bench);
        let axis = machine.and_then(table_axis);
        answer.fact("table_axis", axis.map_or_else(|| Fact::named("one-slide"), Axis::named));
        let kind = match &self.zero {
            Some(typed) => typed.value,
            None => {
                let usual = if machine.is_some_and(comes_back) { ZeroKind::Face } else { ZeroKind::Strip };
                answer.assume_words(Words::of("zero").with("value", usual.text()));
                usual
            }
        };
        let strip = match (&self.strip, kind) {
            (Some(typed), _) => typed.into(),
            (None, ZeroKind::Strip) => answer.assume("strip", constant("zero-strip")?),
            (None, _) => constant("zero-strip")?,
        };
        answer.fact("strip", Fact::mm(strip.number()).to(Decimals::AsTyped));
        let chamfer =
            answer.read_difference_if(bench, "present-chamfer", Gauge::Depth, self.present_chamfer.as_ref())?;
        let chamfer = match (chamfer, kind) {
            (Some(read), _) => read,
            (None, ZeroKind::OldHole) => answer.assume("present-chamfer", constant("present-chamfer")?),
            (None, _) => constant("present-chamfer")?,
        };
        let tip = |kind| tip_at(kind, hole, &strip, old, &chamfer);
        let others = ZeroKind::ALL.into_iter().filter(|other| *other != kind);
        let others = others.filter_map(|other| Some((other, tip(other).ok()??))).collect();
        let tip_chosen = tip(kind)?;
        self.judge_zero(bench, answer, kind, hole, old, tip_chosen.is_some());
        let dial = quill_dial(machine)?;
        answer.choose("zero", kind.text(), Words::of(zero_reason(kind)));
        Ok(Zero { kind, tip: tip_chosen, others, dial })
    }

    fn judge_zero(
        &self,
        bench: &Bench,
        answer: &mut Answer,
        kind: ZeroKind,
        hole: &hole::Hole,
        old: Option<&Worked<Mm>>,
        can: bool,
    ) {
        let place = self.zero.as_ref().map_or(self.thread.place, |at| at.place);
        let check = match (kind, old) {
            (ZeroKind::Face | ZeroKind::Strip | ZeroKind::Corner, _) => Check::of_kind("zero", Verdict::Proven),
            (ZeroKind::OldHole, None) if self.opens_old_hole() => {
                answer.not_checked(&["zero"], &["present-hole"]);
                return;
            }
            (ZeroKind::OldHole, Some(old)) if can => {
                let check = Check::judge("zero", old, Keep::AtMost, &hole.drill, bench.guard());
                let measured = self.present_chamfer.is_some();
                if measured { check } else { check.not_better_than(Verdict::Doubtful) }
            }
            (ZeroKind::OldHole, _) => Check::of_kind("zero", Verdict::Fails),
        };
        answer.check(check.at(place)).remedies.extend(["zero-on-face", "zero-on-strip"].map(Remedy::of));
    }
}

/// How far the tip stands under the face when the stop is set at a zero; none where the drill finds nothing there.
fn tip_at(
    kind: ZeroKind,
    hole: &hole::Hole,
    strip: &Worked<Mm>,
    old: Option<&Worked<Mm>>,
    chamfer: &Worked<Mm>,
) -> Result<Option<Worked<Mm>>, Refusal> {
    let doubt = |name: &'static str| constant::<Mm>(name).map(|doubt| doubt.number());
    Ok(match kind {
        ZeroKind::Face => {
            let source = Source::fixed("the point touches the face", Mark::Derived);
            Some(Worked::method(Mm::new(0.0), vec!["the tip is level with the face".into()], source))
        }
        ZeroKind::Strip => {
            let tip = insert::tip_on_strip(strip)?;
            Some(tip.with_doubt(Cause::Set("zero on a strip"), doubt("zero-strip-doubt")?))
        }
        ZeroKind::Corner => {
            Some(hole.point.clone().with_doubt(Cause::Set("zero at the corner"), doubt("zero-corner-doubt")?))
        }
        ZeroKind::OldHole => match old {
            Some(old) if old.number() < hole.drill.number() => {
                let half = Worked::assumed(Angle::new(hole.half_point), "half the point angle");
                Some(insert::tip_in_old_hole(&insert::mouth(old, chamfer)?, &hole.drill, &hole.point, &half)?)
            }
            _ => None,
        },
    })
}

const fn zero_reason(kind: ZeroKind) -> &'static str {
    match kind {
        ZeroKind::Face => "zero-face-why",
        ZeroKind::Strip => "zero-strip-why",
        ZeroKind::Corner => "zero-corner-why",
        ZeroKind::OldHole => "zero-old-hole-why",
    }
}
