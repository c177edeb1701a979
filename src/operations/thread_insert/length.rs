//! One standard length: how deep, how much metal is left, and what would win more.

use super::*;
use crate::handbook::threads::insert;
use crate::proof::{Cause, Keep, Mark, Source};

impl Case<'_> {
    /// Works one length.
    pub(super) fn with_length(&self, bench: &Bench, length: InsertLength, row: &mut Answer) -> Result<(), Refusal> {
        let nominal = row.record(&INSERT_LENGTH, insert::insert_length(&length.diameters(), &self.diameter)?);
        row.record(&SET_DOWN, insert::set_down(self.countersink, &self.pitch)?);
        match self.asked.hole.value {
            HoleKind::Blind => self.blind(bench, length, &nominal, row)?,
            HoleKind::Through => self.through(bench, &nominal, row)?,
        }
        self.tang_clear(bench, &nominal, row)?;
        self.strength(bench, &nominal, row)
    }

    fn blind(&self, bench: &Bench, length: InsertLength, nominal: &Worked<Mm>, row: &mut Answer) -> Result<(), Refusal> {
        let thread = row.record(&FULL_THREAD, insert::full_thread_depth(nominal, &self.pitch)?);
        let tap = row.record(&TAP_DEPTH, insert::tap_depth(&thread, &self.hole.threads_of_lead, &self.pitch)?);
        row.record(&TAP_TURNS, insert::turns(&tap, &self.pitch)?);
        let (clear, set) = (insert::rule("end-clearance")?, insert::rule("set-down-allowed")?);
        let hole = &self.hole;
        let depth = insert::drilled_depth(nominal, &hole.threads_of_lead, &clear, &set, &hole.centre, &self.pitch)?;
        let depth = row.record(&DRILLED_DEPTH, depth);
        let travel = insert::depth_to_point(&depth, &hole.point)?;
        row.record(&FROM_FACE, travel.clone());
        let reached = row.record(&DEPTH_TO_POINT, travel.with_doubt(Cause::Named("depth stop"), self.depth_stop));
        if let Some(old) = self.present_hole.as_ref().filter(|old| old.number() < hole.drill.number() && hole.half_point < 89.5) {
            let half = Worked::assumed(crate::quantity::Angle::new(hole.half_point), "half the point angle");
            row.record(&IN_HOLE, insert::travel_in_hole(&reached_exact(&reached), old, &half)?);
        }
        let left = row.record(&METAL_LEFT, self.metal_left(&reached)?);
        let doubt = Worked::method(
            Mm::new(left.plus_minus()),
            vec!["root of the sum of squares of wall and depth stop".into()],
            Source::fixed("GUM", Mark::FromMemory),
        );
        row.record(&WALL_NEEDED, insert::wall_needed(&reached_exact(&reached), &self.least_left, &doubt)?);
        let place = self.asked.wall.place;
        let check = Check::judge("break-through", &left, Keep::AtLeast, &self.least_left, bench.guard());
        let check = check.about(METAL_LEFT.key).at(place);
        let check = row.check(check);
        for remedy in self.remedies(length, &left, bench.guard()) {
            check.remedy(remedy);
        }
        Ok(())
    }

    fn metal_left(&self, reached: &Worked<Mm>) -> Result<Worked<Mm>, Refusal> {
        match &self.present_depth {
            Some(old) if old.number() > reached.number() => insert::metal_left(&self.wall, old),
            _ => insert::metal_left(&self.wall, reached),
        }
    }

    /// What would win more metal, each with the millimetres that it gives and how the depth then stands.
    fn remedies(&self, length: InsertLength, left: &Worked<Mm>, guard: f64) -> Vec<Words> {
        let pitch = self.pitch.number();
        let point = self.hole.point.number();
        let mut all = Vec::new();
        let mut give = |id: &'static str, gain: f64| {
            let then = left.number() + gain;
            let margin = then - self.least_left.number();
            let verdict = match margin {
                margin if margin >= left.plus_minus() * guard / 2.0 => Verdict::Proven,
                margin if margin >= 0.0 => Verdict::Doubtful,
                _ => Verdict::Fails,
            };
            all.push(Words::of(id).with("gain", mm(gain)).with("then", mm(then)).with("verdict", verdict.text()));
        };
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
        if let Some(shorter) = length.shorter() {
            let gain = (length.diameters().number() - shorter.diameters().number()) * self.diameter.number();
            give("shorter-length", gain);
        }
        all.extend(["sealed-through", "solid-bush", "weld"].map(Words::of));
        all
    }

    /// The bolt must stop short of a tang that stays in; a bolt whose reach nobody gave is a doubt, with the most it may reach.
    fn tang_clear(&self, bench: &Bench, nominal: &Worked<Mm>, row: &mut Answer) -> Result<(), Refusal> {
        let foot = if self.countersink { nominal.clone() } else { insert::foot_least(nominal, &self.pitch)? };
        let most = row.record(&REACH_MOST, insert::reach_with_tang(&foot, &self.pitch)?);
        let Some(bolt) = &self.asked.bolt else { return Ok(()) };
        let Some(reach) = &bolt.reach else {
            if self.tang == Tang::In {
                row.check(Check::of_kind("tang-clear", Verdict::Doubtful).at(bolt.class.place));
            }
            return Ok(());
        };
        let reach_worked = Worked::from(reach);
        match self.tang {
            Tang::In => {
                row.check(Check::judge("tang-clear", &reach_worked, Keep::AtMost, &most, bench.guard()).at(reach.place));
            }
            Tang::Out => {
                let wanted = insert::reach_past_coil(nominal, &self.pitch)?;
                if reach_worked.number() < wanted.number() {
                    row.assume_words(Words::of("bolt-short-of-last-coil").with("wanted", mm(wanted.number())));
                }
            }
        }
        Ok(())
    }
}

/// A depth without the doubt of the stop: what the stop is set to.
fn reached_exact(reached: &Worked<Mm>) -> Worked<Mm> {
    reached.nominal("REACHED EXACT")
}

pub(super) fn mm(number: f64) -> Fact {
    Fact::mm(number)
}
