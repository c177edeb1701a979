//! What goes with the metal of a joint: compression, squish, the set-down of inserts.

use super::keys::{Across, Joint, Lap};
use super::names::{
    AREA, BORE, CLEARANCE, CLEARANCE_AFTER, CLEARANCE_LOST, COMPRESSION_AFTER, COMPRESSION_BEFORE, SET_DOWN,
    SET_DOWN_AFTER, SET_DOWN_LEAST, SQUISH, SQUISH_AFTER,
};
use crate::handbook::cutting::stock;
use crate::handbook::joints::lapping;
use crate::handbook::threads::insert_rows::rule;
use crate::operations::kit::{self, mm};
use crate::operations::{Answer, Bench, Closes, PartSize, Value};
use crate::proof::{Check, Fact, Keep, Refusal, Verdict, Words, Worked};
use crate::quantity::{Decimals, Mm, Mm2, Rounds};
use crate::shop::Gauge;

/// What a gauge must read at the least of the set-down that has least to lose.
pub(super) const LEAST_READ: &str = "set_down_least_read";

impl Lap {
    /// All three.
    pub(super) fn consequences(&self, bench: &Bench, answer: &mut Answer, metal: &Worked<Mm>) -> Result<(), Refusal> {
        answer.closes = self.joint.as_ref().map(|joint| match joint.value {
            Joint::Head | Joint::Base => Closes::RoomOverPiston,
            Joint::Case | Joint::Cover => Closes::Elsewhere,
        });
        self.compression(bench, answer, metal)?;
        self.squish(bench, answer, metal)?;
        self.bores_across_stay_round(answer);
        self.set_downs(bench, answer, metal)
    }

    /// What comes off the joint of a case comes off every bore that it splits: they close across it and are out of round.
    fn bores_across_stay_round(&self, answer: &mut Answer) {
        const ID: &str = "bores-stay-round";
        let is_case = matches!(self.joint.as_ref().map(|at| at.value), Some(Joint::Case));
        let Some(across) = &self.bores_across else {
            match (is_case, &self.joint) {
                (true, _) => answer.not_checked(&[ID], &["bores-across"]),
                // Nobody says what is joined there: it may be the two halves of a case.
                (false, None) if !self.closes_a_cylinder() => answer.not_checked(&[ID], &["joint"]),
                (false, _) => answer.does_not_apply(&[ID]),
            }
            return;
        };
        let verdict = if across.value == Across::Stay { Verdict::Fails } else { Verdict::Proven };
        answer.check(Check::of_kind(ID, verdict).at(across.place)).remedy(Words::of("bore-them-in-line"));
    }

    /// Whether a cylinder is closed at this joint: by its name, or since somebody says what that cylinder is.
    fn closes_a_cylinder(&self) -> bool {
        let of_cylinder = || self.bore.is_some() || self.swept.is_some() || self.clearance_volume.is_some();
        self.joint.as_ref().map_or_else(of_cylinder, |at| matches!(at.value, Joint::Head | Joint::Base))
    }

    /// The area that comes down with the joint: the mouth of a chamber, else the bore.
    fn area(&self) -> Result<Option<Worked<Mm2>>, Refusal> {
        match (&self.mouth_area, &self.bore) {
            (Some(area), _) => Ok(Some(area.into())),
            (None, Some(bore)) => lapping::bore_area(&bore.into()).map(Some),
            (None, None) => Ok(None),
        }
    }

    /// Clearance volume and compression after lapping.
    fn compression(&self, bench: &Bench, answer: &mut Answer, metal: &Worked<Mm>) -> Result<(), Refusal> {
        const ID: &str = "compression";
        let (Some(swept), Some(clearance), Some(area)) = (&self.swept, &self.clearance_volume, self.area()?) else {
            if let Some(most) = &self.most_compression {
                // Who says what it may be at most asks: not judged, that is in doubt.
                let check = answer.check(Check::of_kind(ID, Verdict::Doubtful).at(most.place));
                check.remedy(Words::of("say-what-is-swept"));
            } else if self.closes_a_cylinder() {
                answer.not_checked(&[ID], &["swept", "clearance-volume", "bore", "most-compression"]);
            } else {
                answer.does_not_apply(&[ID]);
            }
            return Ok(());
        };
        if let Some(bore) = &self.bore {
            // It may be bored in the same job, and with it what is swept.
            let bore = answer.record(&BORE, bore.into());
            answer.read_elsewhere(BORE.means, Some(PartSize::Inside), Value::of(&BORE, &bore));
        }
        let (swept, clearance) = (swept.into(), answer.record(&CLEARANCE, clearance.into()));
        answer.read_elsewhere(CLEARANCE.means, Some(PartSize::ClearanceVolume), Value::of(&CLEARANCE, &clearance));
        let area = answer.record(&AREA, area);
        let lost = answer.record(&CLEARANCE_LOST, lapping::plate_volume(&area, metal)?);
        let left = lapping::clearance_left(&clearance, &lost)?;
        let left = answer.record(&CLEARANCE_AFTER, left);
        answer.record(&COMPRESSION_BEFORE, lapping::compression(&swept, &clearance)?);
        let after = answer.record(&COMPRESSION_AFTER, lapping::compression(&swept, &left)?);
        match &self.most_compression {
            Some(most) => {
                let check = Check::judge(ID, &after, Keep::AtMost, &most.into(), bench.guard());
                answer.check(check.about(COMPRESSION_AFTER.key).at(most.place));
            }
            None => answer.not_checked(&[ID], &["most-compression"]),
        }
        Ok(())
    }

    /// Room over the piston that is left.
    fn squish(&self, bench: &Bench, answer: &mut Answer, metal: &Worked<Mm>) -> Result<(), Refusal> {
        const ID: &str = "squish";
        let squish = answer.read_if(bench, "squish", Gauge::Depth, self.squish.as_ref())?;
        let squish = squish.map(|squish| answer.record(&SQUISH, squish));
        if let Some(squish) = &squish {
            // The other face of the joint may be lapped too.
            answer.read_elsewhere(SQUISH.means, Some(PartSize::Squish), Value::of(&SQUISH, squish));
        }
        let after = squish.map(|squish| lapping::squish_left(&squish, metal)).transpose()?;
        let after = after.map(|after| answer.record(&SQUISH_AFTER, after));
        match (after, &self.least_squish) {
            (Some(after), Some(least)) => {
                let check = Check::judge(ID, &after, Keep::AtLeast, &least.into(), bench.guard());
                answer.check(check.about(SQUISH_AFTER.key).at(least.place));
            }
            (Some(_), None) => answer.not_checked(&[ID], &["least-squish"]),
            (None, Some(_)) => answer.not_checked(&[ID], &["squish"]),
            (None, None) if self.closes_a_cylinder() => answer.not_checked(&[ID], &["squish", "least-squish"]),
            (None, None) => answer.does_not_apply(&[ID]),
        }
        Ok(())
    }

    /// The first coil of every insert stays under the face.
    fn set_downs(&self, bench: &Bench, answer: &mut Answer, metal: &Worked<Mm>) -> Result<(), Refusal> {
        const ID: &str = "set-down";
        let inserts = self.inserts.as_deref().unwrap_or_default();
        if inserts.is_empty() {
            answer.does_not_apply(&[ID]);
        }
        let mut leasts = Vec::new();
        let mut nearest: Option<(f64, [Worked<Mm>; 3], Fact)> = None;
        for insert in inserts {
            let set_down = answer.read_difference(bench, "inserts.set-down", Gauge::Depth, &insert.set_down)?;
            let left = stock::recess_left(&set_down, metal)?;
            let least = lapping::set_down_least(&rule("set-down-plain-least")?, &insert.thread.value.pitch())?;
            // As it is read: a gauge that is off by its doubt must not hide the limit.
            let gauge = kit::gauge_used(bench, least.number(), Gauge::Depth, false).doubt.unwrap_or(0.0);
            let read = mm(least.number() + gauge * bench.guard() / 2.0).to(Decimals::Exactly(3)).rounded(Rounds::Up);
            leasts.push(Fact::Joined(vec![insert.thread.value.name().into(), " ".into(), read.clone()]));
            let check = Check::judge(ID, &left, Keep::AtLeast, &least, bench.guard()).about(SET_DOWN_AFTER.key);
            let margin = check.judged.map_or(0.0, |judged| judged.margin);
            answer.check(check.at(insert.set_down.place));
            if nearest.as_ref().is_none_or(|(other, ..)| margin < *other) {
                nearest = Some((margin, [set_down, left, least], read));
            }
        }
        answer.fact("set_downs", Fact::Series(leasts, ", "));
        if let Some((_, [set_down, left, least], read)) = nearest {
            answer.fact(LEAST_READ, read);
            answer.record(&SET_DOWN, set_down);
            answer.record(&SET_DOWN_AFTER, left);
            answer.record(&SET_DOWN_LEAST, least);
        }
        Ok(())
    }
}
