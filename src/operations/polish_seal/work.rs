//! What polishing takes, and what is left of size and case.

use super::keys::PolishSeal;
use super::names::{DIAMETER_AFTER, DIAMETER_LEAST, GROOVE, METAL_OFF, OFF_DIAMETER, SIZE, TRACK};
use crate::handbook::constants::constant;
use crate::handbook::cutting::stock;
use crate::handbook::joints::fit_pair;
use crate::handbook::joints::fits::Grade;
use crate::handbook::joints::seal;
use crate::handbook::materials::groups::Kind;
use crate::operations::facing;
use crate::operations::kit;
use crate::operations::turning::{self, CaseKeys};
use crate::operations::{Answer, Bench};
use crate::proof::{Check, Keep, Refusal, Side, Verdict, Words, Worked};
use crate::quantity::Mm;
use crate::shop::{Gauge, Machine};

/// What is known of the track once it was polished.
pub(super) struct Track {
    /// As measured beside the groove.
    size: Worked<Mm>,
    /// Depth of the groove.
    groove: Worked<Mm>,
    /// Metal off the radius.
    pub(super) metal: Worked<Mm>,
    /// The largest that it may be: as measured, once polished as it was left.
    pub(super) largest: Worked<Mm>,
    /// Diameter after polishing.
    pub(super) after: Worked<Mm>,
    /// The least that it may be.
    pub(super) least: Worked<Mm>,
}

impl Track {
    /// From where to where its sheet accepts the diameter after polishing, mm.
    pub(super) fn accepted(&self, bench: &Bench) -> Result<(f64, f64), Refusal> {
        let gauge = kit::gauge_used(bench, self.after.number(), Gauge::Outside, false);
        Ok(self.to_read(bench, gauge.doubt, constant::<Mm>("seal-polish-most")?.number()))
    }

    /// Readings with which the groove is surely out and no more gone than cloth takes: with what the gauge is off, mm. The diameter
    /// aimed at lies within, whatever that is.
    fn to_read(&self, bench: &Bench, gauge: Option<f64>, most: f64) -> (f64, f64) {
        let (size, groove, aim) = (&self.size, &self.groove, self.after.number());
        let of_size = size.plus_minus().hypot(gauge.unwrap_or(self.after.plus_minus())) / 2.0;
        let doubt = of_size.hypot(groove.plus_minus()) * bench.guard() / 2.0;
        let least = size.number() - 2.0 * most;
        (least.min(aim), (size.number() - 2.0 * (groove.number() + doubt)).max(aim))
    }
}

/// The tolerance grade of a shaft under a lip seal (h11).
const GRADE: Grade = Grade::Number(11);

impl PolishSeal {
    pub(super) fn work_it(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        bench.part.material.iter().flat_map(|at| at.value.safety_without_chips()).for_each(|id| answer.caution(id));
        let track = self.track(bench, answer)?;
        self.metal_takes_it(bench, answer);
        self.size(bench, answer, &track)?;
        self.case(bench, answer, &track)?;
        self.finish(bench, answer)?;
        self.hard_enough(bench, answer, &track)?;
        self.run_out(bench, answer)?;
        self.no_lead(bench, answer)?;
        self.passes(bench, answer, &track)?;
        self.ways(bench, answer)?;
        self.clears_the_bed(bench, answer, &track)?;
        self.the_set_up(bench, answer, &track)
    }

    /// Whether the widest of the shaft clears the bed, whatever holds it.
    fn clears_the_bed(&self, bench: &Bench, answer: &mut Answer, track: &Track) -> Result<(), Refusal> {
        const ID: &str = "swing";
        const OVER: &str = "clears-the-slide";
        let widest = match &self.swings {
            Some(at) => at.into(),
            None => {
                answer.assume_words(Words::of("nothing-wider"));
                track.largest.clone()
            }
        };
        match kit::machine_for(bench, self.set_up.as_ref(), Machine::lathe) {
            Some(lathe) => {
                turning::part_clears_the_bed(&widest, lathe, bench.guard(), answer)?;
                let along = Worked::from(&self.track).scaled(0.0, "nothing is fed along");
                turning::over_the_slide((&track.largest, &widest), &along, Some(lathe), bench.guard(), answer)?;
            }
            None if bench.shop.is_none() => answer.no_shop(&[ID, OVER]),
            None => answer.not_checked(&[ID, OVER], &["lathe"]),
        }
        Ok(())
    }

    /// Groove, its doubt and an allowance come off the radius, twice as much off the diameter.
    fn track(&self, bench: &Bench, answer: &mut Answer) -> Result<Track, Refusal> {
        let nominal = answer.record(&TRACK, Worked::from(&self.track));
        let size = answer.read(bench, "size", Gauge::Outside, &self.size)?;
        let size = answer.record(&SIZE, size);
        let groove = answer.read_difference(bench, "groove", Gauge::Depth, &self.groove)?;
        let groove = answer.record(&GROOVE, groove);
        let under = constant("seal-under-the-groove")?;
        let metal = stock::metal_to_remove(&facing::middle(&groove), &facing::doubt_of(bench, &groove), &under)?;
        let off = answer.record(&OFF_DIAMETER, seal::off_diameter(&metal)?);
        let planned = seal::diameter_left(&size, &off)?;
        // As it was left is less than planned: more came off.
        let left = bench.left(&DIAMETER_AFTER)?;
        let largest = left.clone().unwrap_or_else(|| size.clone());
        let is_planned = left.is_none();
        let (after, metal) = match left {
            Some(left) => {
                let off = seal::off_radius(&size, &left)?;
                let of = (DIAMETER_AFTER.key, self.size.place);
                if !kit::grown(bench, (0.5, &size, &left), of, answer) {
                    facing::deep_enough(bench, (&off, &groove), (DIAMETER_AFTER.key, self.groove.place), answer);
                }
                (left, if off.as_there(Side::High) > metal.number() { off } else { metal })
            }
            None => (planned, metal),
        };
        let metal = answer.record(&METAL_OFF, metal);
        let after = answer.record(&DIAMETER_AFTER, after);
        let grade = fit_pair::tolerance(GRADE, nominal.number())?;
        let least = answer.record(&DIAMETER_LEAST, seal::diameter_left(&nominal, &grade)?);
        let track = Track { size, groove, metal, largest, after, least };
        let mut values = answer.values.iter_mut();
        if let Some(planned) = values.find(|value| is_planned && value.key == DIAMETER_AFTER.key) {
            // What goes on from it finds any size that the sheet accepts.
            planned.band = Some(track.accepted(bench)?);
        }
        Ok(track)
    }

    /// So little that emery takes it, and the shaft still within h11 at both ends.
    fn size(&self, bench: &Bench, answer: &mut Answer, track: &Track) -> Result<(), Refusal> {
        let most = constant("seal-polish-most")?;
        let deepest =
            track.metal.shifted(track.metal.as_there(Side::High) - track.metal.number(), "where most is gone");
        let taken = deepest.nominal("how deep cloth may go is a rule of thumb: what a gauge is off does not count");
        let check = Check::judge("polish-only", &taken, Keep::AtMost, &most, bench.guard());
        answer.check(check.about(METAL_OFF.key).at(self.groove.place));
        let nominal = Worked::from(&self.track);
        let sides = [
            ("size", &track.after, Keep::AtLeast, &track.least),
            ("not-oversize", &track.largest, Keep::AtMost, &nominal),
        ];
        for (id, track, keep, limit) in sides {
            let check = Check::judge(id, track, keep, limit, bench.guard());
            answer.check(check.about(DIAMETER_AFTER.key).at(self.size.place));
        }
        self.measurable(bench, answer, track)
    }

    /// The case counts from the unworn surface: the groove is not taken off again.
    fn case(&self, bench: &Bench, answer: &mut Answer, track: &Track) -> Result<(), Refusal> {
        let keys =
            CaseKeys { least: None, usual: Some("seal-case-least"), removed_before: self.removed_before.as_ref() };
        turning::case_below(bench, keys, &track.metal, answer)?;
        Ok(())
    }

    /// Emery beds its grains in soft metal, and what is no metal of a shaft is not polished at all.
    fn metal_takes_it(&self, bench: &Bench, answer: &mut Answer) {
        const ID: &str = "metal-takes-it";
        let Some(metal) = &bench.part.material else { return };
        let verdict = match metal.value.kind() {
            Kind::Steel | Kind::Stainless | Kind::HardSteel => Verdict::Proven,
            Kind::GreyIron | Kind::DuctileIron => Verdict::Doubtful,
            _ => Verdict::Fails,
        };
        answer.check(Check::of_kind(ID, verdict).at(metal.place));
    }
}
