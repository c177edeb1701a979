//! One length: how deep, how much metal is left, and what would win more.

use super::case::Case;
use super::checks;
use super::keys::{HoleKind, Tang};
use super::names::{
    DEPTH_TO_POINT, DRILLED_DEPTH, FITTED, FULL_THREAD, INSERT_LENGTH, METAL_LEFT, REACH_MOST, SET_DOWN, TAP_DEPTH,
    TAP_TURNS, WALL_NEEDED,
};
use crate::handbook::InsertLength;
use crate::handbook::joints::lapping;
use crate::handbook::threads::insert;
use crate::operations::kit::{hundredths, mm};
use crate::operations::{Answer, Bench, hole_making};
use crate::proof::{Check, Keep, Refusal, Remedy, Side, Verdict, Words, Worked};
use crate::quantity::{Mm, Quantity};

impl Case<'_> {
    /// Works one length.
    pub(super) fn with_length(&self, bench: &Bench, length: InsertLength, row: &mut Answer) -> Result<(), Refusal> {
        let nominal = row.record(&INSERT_LENGTH, length.nominal(&self.diameter)?);
        row.record(&FITTED, insert::assembled_length(&nominal, &self.pitch)?);
        let (least, most) = self.set_down()?;
        // Anything between both is right: whoever goes on from it must bear the least.
        row.record(&SET_DOWN, most.clone().with_band(least.number(), most.number()));
        let thread = row.record(&FULL_THREAD, insert::full_thread_depth(&nominal, &self.pitch)?);
        let tap = row.record(&TAP_DEPTH, insert::tap_depth(&thread, &self.hole.threads_of_lead, &self.pitch)?);
        row.record(&TAP_TURNS, insert::turns(&tap, &self.pitch)?);
        let floor = match self.asked.hole.value {
            HoleKind::Blind => Some(self.blind(bench, length, &nominal, row)?),
            HoleKind::Through => {
                self.through(bench, &nominal, &tap, row)?;
                None
            }
        };
        self.tang_clear(bench, &nominal, row)?;
        let strength = self.strength(bench, &nominal, floor.as_ref(), row);
        if strength.is_err() && self.asked.bolt.is_some() {
            // No key opens what lies outside the rule.
            row.not_checked(checks::STRENGTH, &[]);
        }
        strength
    }

    /// A depth whose zero cannot be taken, or hangs on a hole that nobody measured, is no better than doubtful.
    pub(super) fn by_its_zero(&self, check: Check) -> Check {
        if self.zero.tip.is_some() { check } else { check.not_better_than(Verdict::Doubtful) }
    }

    /// A blind hole; comes back with how deep its full diameter goes, as surely as stop and zero set it.
    fn blind(
        &self,
        bench: &Bench,
        length: InsertLength,
        nominal: &Worked<Mm>,
        row: &mut Answer,
    ) -> Result<Worked<Mm>, Refusal> {
        row.does_not_apply(&["wall-for-insert", "while-cutting", "when-assembled"]);
        let (clear, set) = (insert::rule("end-clearance")?, insert::rule("set-down-allowed")?);
        let hole = &self.hole;
        let depth = insert::drilled_depth(nominal, &hole.threads_of_lead, &clear, &set, &hole.centre, &self.pitch)?;
        let depth = row.record(&DRILLED_DEPTH, depth);
        let reached = self.set_stop(&insert::depth_to_point(&depth, &hole.point)?, row)?;
        let reached = row.record(&DEPTH_TO_POINT, reached);
        let left = row.record(&METAL_LEFT, self.metal_left(&reached, bench.guard())?);
        let bad = left.worst(Side::Low, bench.guard());
        let wall = self.wall.nominal("what is short at the worst end is added to it");
        row.record(&WALL_NEEDED, insert::wall_needed(&wall, &self.least_left, &bad)?);
        let check = Check::judge("break-through", &left, Keep::AtLeast, &self.least_left, bench.guard());
        let check = self.break_through(self.by_its_zero(check), row);
        for remedy in self.remedies(length, &left, bench.guard()) {
            check.remedy(remedy);
        }
        self.skin(bench, &reached, row)?;
        Ok(reached.shifted(-hole.point.number(), "the point is no room for a bolt"))
    }

    /// Puts down what is left under the hole; the old one, which nobody measured, may be deeper.
    pub(super) fn break_through<'r>(&self, check: Check, row: &'r mut Answer) -> &'r mut Check {
        let check = check.about(METAL_LEFT.key).at(self.asked.wall.place);
        let unread = self.old_may_be_deeper();
        let check = row.check(if unread { check.not_better_than(Verdict::Doubtful) } else { check });
        if unread {
            check.remedy(Words::of("measure-old-depth"));
        }
        check
    }

    /// Whether an old hole is there whose depth nobody measured.
    fn old_may_be_deeper(&self) -> bool {
        self.present_hole.is_some() && self.present_depth.is_none()
    }

    /// Whether the point of the drill pushes out what is left under it.
    pub(super) fn skin(&self, bench: &Bench, reached: &Worked<Mm>, row: &mut Answer) -> Result<(), Refusal> {
        let left = insert::metal_left(&self.wall, reached)?;
        let skin = hole_making::skin_stands(bench, "break-through", (&left, &self.hole.drill))?;
        let stands = skin.is_proven();
        let check = self.break_through(skin, row);
        if !stands {
            check.remedy(Words::of("point-pushes-it-out"));
        }
        Ok(())
    }

    /// The least and the most that the first coil may sit below the face.
    pub(super) fn set_down(&self) -> Result<(Worked<Mm>, Worked<Mm>), Refusal> {
        let least = if self.countersink { "set-down-countersunk-least" } else { "set-down-plain-least" };
        let least = lapping::set_down_least(&insert::rule(least)?, &self.pitch)?;
        Ok((least, insert::set_down(self.countersink, &self.pitch)?))
    }

    /// Under the new hole, or under the old one where that leaves less at its own worst end.
    pub(super) fn metal_left(&self, reached: &Worked<Mm>, guard: f64) -> Result<Worked<Mm>, Refusal> {
        let new = insert::metal_left(&self.wall, reached)?;
        let Some(old) = &self.present_depth else { return Ok(new) };
        let old = insert::metal_left(&self.wall, old)?;
        let worse = |old: &Worked<Mm>| old.worst_number(Side::Low, guard) < new.worst_number(Side::Low, guard);
        Ok(if worse(&old) { old } else { new })
    }

    /// What would win more metal, each with the millimetres that it gives and what is then left at
    /// worst.
    fn remedies(&self, length: InsertLength, left: &Worked<Mm>, guard: f64) -> Vec<Remedy> {
        let pitch = self.pitch.number();
        let point = self.hole.point.number();
        let mut all = Vec::new();
        let mut give = |id: &'static str, gain: f64| {
            let then = left.shifted(gain, "what the remedy wins");
            let verdict = Check::judge("break-through", &then, Keep::AtLeast, &self.least_left, guard).verdict();
            // Whatever it wins, the old hole may go deeper.
            let verdict = verdict.map(|it| if self.old_may_be_deeper() { it.max(Verdict::Doubtful) } else { it });
            let words = Words::of(id).with("gain", hundredths(gain));
            let words = words.with("then", hundredths(then.worst_number(Side::Low, guard)));
            all.push(Remedy::giving(words, verdict.unwrap_or(Verdict::Fails)));
        };
        // An old hole that is deeper than the new one is not won back by another drill or tap.
        let old_is_deeper =
            self.present_depth.as_ref().is_some_and(|old| self.wall.number() - old.number() <= left.number());
        if !old_is_deeper {
            if point > 0.0 {
                give("flat-bottom", point);
            }
            give("grind-lead", pitch);
            if point > 0.0 {
                give("flat-and-lead", point + pitch);
            }
            if !self.countersink {
                give("no-countersink", 0.5 * pitch);
            }
            if self.hole.centre.number() > 0.0 {
                give("grind-centre", self.hole.centre.number());
            }
            if let Some((shorter, times)) = length.shorter().and_then(InsertLength::times).zip(length.times()) {
                give("shorter-length", (times - shorter) * self.diameter.number());
            }
        }
        all.extend(["sealed-through", "solid-bush", "weld"].map(Remedy::of));
        all
    }

    /// The bolt must stop short of a tang that stays in.
    fn tang_clear(&self, bench: &Bench, nominal: &Worked<Mm>, row: &mut Answer) -> Result<(), Refusal> {
        let foot = if self.countersink { nominal.clone() } else { insert::foot_least(nominal, &self.pitch)? };
        let most = row.record(&REACH_MOST, insert::reach_with_tang(&foot, &self.pitch)?);
        let reach = self.asked.bolt.as_ref().and_then(|bolt| bolt.reach.as_ref());
        match (&self.asked.bolt, self.tang, reach) {
            (None, ..) | (_, Tang::Out, None) => row.does_not_apply(&["tang-clear"]),
            (Some(_), Tang::In, None) => row.not_checked(&["tang-clear"], &["bolt.reach"]),
            (Some(_), Tang::In, Some(reach)) => {
                let check = Check::judge("tang-clear", &Worked::from(reach), Keep::AtMost, &most, bench.guard());
                row.check(check.at(reach.place));
            }
            (Some(_), Tang::Out, Some(reach)) => {
                row.does_not_apply(&["tang-clear"]);
                let wanted = insert::reach_past_coil(nominal, &self.pitch)?;
                if reach.value.number() < wanted.number() {
                    row.assume_words(Words::of("bolt-short-of-last-coil").with("wanted", mm(wanted.number())));
                }
            }
        }
        Ok(())
    }
}
