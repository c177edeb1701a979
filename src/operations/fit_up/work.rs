//! The fit cold, against what is wanted; whether it runs at all; whether it can be measured; the set-up.

use super::keys::FitUp;
use super::names::{BORE, CLEARANCE, LEAST, MOST, SHAFT};
use super::picture::picture;
use super::running::Cold;
use crate::handbook::joints::clearance::{self, Duty, duty_clearance};
use crate::handbook::joints::fit_pair::{clearance_least, clearance_most};
use crate::handbook::measuring::window;
use crate::handbook::{Material, StateKind, set_up_minutes};
use crate::job::{PartFacts, Reading};
use crate::operations::kit::{self, Clearance, mm};
use crate::operations::{Answer, Bench, GaugeUsed, HoldPoint, PartSize, SetUp, Station, Value, Wait, linked};
use crate::proof::{At, Check, Fact, Keep, Origin, Refusal, Verdict, Words, Worked};
use crate::quantity::{Mm, Quantity, Shift};
use crate::shop::Gauge;

/// Readings of a bore: across and along, near both ends.
const READINGS: usize = 4;

impl FitUp {
    pub(super) fn work_it(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        let metals = [&bench.part.material, &self.bore_material, &self.shaft_material];
        metals.into_iter().flatten().flat_map(|at| at.value.safety_without_chips()).for_each(|id| answer.caution(id));
        let cold = self.cold(bench, answer)?;
        self.fit_runs(bench, answer, &cold)?;
        self.judge_cold(bench, answer, &cold)?;
        self.pair_runs(bench, answer);
        self.judge_running(bench, answer, &cold)?;
        self.judge_frost(bench, answer, &cold)?;
        self.the_set_up(bench, answer, &cold)
    }

    /// Two metals that weld, or cut each other up, run in no clearance.
    fn pair_runs(&self, bench: &Bench, answer: &mut Answer) {
        const ID: &str = "pair-runs";
        let Some((bore, shaft)) = self.bore_metal(bench.part).zip(self.shaft_metal(bench.part)) else {
            return answer.not_checked(&[ID], &["bore-material", "shaft-material"]);
        };
        let verdict = if shaft.value.runs_in(&bore.value) { Verdict::Proven } else { Verdict::Doubtful };
        let check = Check::of_kind(ID, verdict).with("bore", bore.value.typed()).with("shaft", shaft.value.typed());
        answer.check(check.at(self.bore.place)).remedy(Words::of("another-metal"));
    }

    /// Bore and shaft as read, and the clearance: of the log, where it has it.
    fn cold(&self, bench: &Bench, answer: &mut Answer) -> Result<Cold, Refusal> {
        let of = |metal: Option<&At<Material>>| PartFacts { material: metal.cloned(), ..bench.part.clone() };
        let (of_bore, of_shaft) = (of(self.bore_metal(bench.part)), of(self.shaft_metal(bench.part)));
        let bore = answer.read(&bench.with_part(&of_bore), "bore", Gauge::Inside, &self.bore)?;
        let shaft = answer.read(&bench.with_part(&of_shaft), "shaft", Gauge::Outside, &self.shaft)?;
        let (bore, shaft) = (answer.record(&BORE, bore), answer.record(&SHAFT, shaft));
        answer.read_elsewhere(SHAFT.means, Some(PartSize::Outside), Value::of(&SHAFT, &shaft));
        answer.read_elsewhere(BORE.means, Some(PartSize::Inside), Value::of(&BORE, &bore));
        let both = [&self.bore, &self.shaft].map(|at| (&at.value, at.place));
        linked::doubts_known(bench, answer, self.bore.place, both.into_iter());
        linked::cuts_known(bench, answer, self.of_others());
        let read = clearance::clearance(&bore, &shaft)?;
        let left = bench.left(&CLEARANCE)?;
        let held = left.as_ref().map(|left| linked::as_sure_as_read(bench, left)).transpose()?;
        let apart = held.map(|left| linked::apart(&read, &left));
        let clearance = answer.record(&CLEARANCE, left.unwrap_or(read));
        let limits = self.limits(answer, &shaft)?;
        let limits = (answer.record(&LEAST, limits.0), answer.record(&MOST, limits.1));
        Ok(Cold { bore, shaft, clearance, apart, limits })
    }

    /// What the clearance must be: limits, a fit, or the rule for the duty, which is doubtful.
    fn limits(&self, answer: &mut Answer, shaft: &Worked<Mm>) -> Result<(Worked<Shift>, Worked<Shift>), Refusal> {
        const ID: &str = "clearance-given";
        let Some(at) = &self.clearance else {
            let duty = self.duty.as_ref().map_or(Duty::General, |at| at.value);
            let rule = duty_clearance(duty, shaft)?;
            answer.assume_words(Words::of("duty-rule").with("duty", duty.text()).with("rules", rule.told.clone()));
            if self.duty.is_none() {
                answer.assume_words(Words::of("duty-general"));
            }
            let check = Check::of_kind(ID, Verdict::Doubtful).with("duty", duty.text()).with("rules", rule.told);
            answer.check(check.at(self.bore.place));
            return Ok((rule.low.becomes(), rule.high.becomes()));
        };
        answer.check(Check::of_kind(ID, Verdict::Proven).with("duty", "").with("rules", "").at(at.place));
        match &at.value {
            Clearance::Limits(limits) => {
                let typed = |end: Mm| Worked::exact(Shift::new(end.number()), Origin::Typed(at.place));
                Ok((typed(limits.low), typed(limits.high)))
            }
            Clearance::Fit(fit) => {
                let nominal = kit::nominal_of_fit(fit, shaft, answer)?;
                let both = fit.hole.as_ref().zip(fit.shaft.as_ref());
                let (hole, shaft) = both.ok_or(Refusal::NotGiven { what: "the fit of the shaft", key: "clearance" })?;
                let (hole, shaft) = (hole.limits(nominal)?, shaft.limits(nominal)?);
                Ok((clearance_least(&hole.0, &shaft.1)?, clearance_most(&hole.1, &shaft.0)?))
            }
        }
    }

    /// Whether it runs at all: no interference is asked for, and none was measured.
    fn fit_runs(&self, bench: &Bench, answer: &mut Answer, cold: &Cold) -> Result<(), Refusal> {
        const ID: &str = "fit-runs";
        let none = Worked::assumed(Shift::new(0.0), "a running fit is not tight");
        let place = self.clearance.as_ref().map_or(self.bore.place, |at| at.place);
        let asked = Check::judge(ID, &cold.limits.0, Keep::AtLeast, &none, bench.guard()).about(LEAST.key).at(place);
        // A fit whose least clearance is just nothing is no proof that it runs.
        let just = cold.limits.0.number() <= 0.0;
        answer.check(if just { asked.not_better_than(Verdict::Doubtful) } else { asked });
        let read = Check::judge(ID, &cold.clearance, Keep::AtLeast, &none, bench.guard());
        answer.check(read.about(CLEARANCE.key).at(self.bore.place));
        let (greatest, most) = (cold.limits.1.number(), kit::meant_most(&cold.shaft)?);
        if greatest > most {
            // Limits as wide as this prove any shaft in any bore: a slip of size or unit.
            let check = answer.check(Check::of_kind(ID, Verdict::Doubtful).at(place));
            check.remedy(Words::of("too-wide").with("greatest", mm(greatest)).with("most", mm(most)));
        }
        Ok(())
    }

    fn judge_cold(&self, bench: &Bench, answer: &mut Answer, cold: &Cold) -> Result<(), Refusal> {
        let place = self.clearance.as_ref().map_or(self.bore.place, |at| at.place);
        // A clearance as written down that both readings do not give, within the doubt of all three: one of them is old or wrong.
        let is_off = |apart: &&Worked<Mm>| apart.number() > apart.plus_minus() * bench.guard() / 2.0;
        let off = cold.apart.as_ref().filter(is_off);
        for (keep, limit) in [(Keep::AtLeast, &cold.limits.0), (Keep::AtMost, &cold.limits.1)] {
            let check = Check::judge("clearance", &cold.clearance, keep, limit, bench.guard());
            let check = if off.is_some() { check.not_better_than(Verdict::Doubtful) } else { check };
            let check = answer.check(check.about(CLEARANCE.key).at(place));
            if let (Some(apart), Keep::AtMost) = (off, keep) {
                check.remedy(Words::of("not-what-was-read").with("apart", mm(apart.number())));
            }
        }
        let nothing = Worked::assumed(Mm::new(0.0), "nothing");
        let wide = cold.limits.1.number() - cold.limits.0.number();
        let quarter = window::quarter(&nothing, &Worked::exact(Mm::new(wide.max(0.0)), Origin::Typed(place)))?;
        let doubt = Worked::assumed(Mm::new(cold.clearance.plus_minus()), "the doubt of the clearance");
        let check = Check::judge("can-be-measured", &doubt, Keep::AtMost, &quarter, bench.guard());
        let check = answer.check(check.not_worse_than(Verdict::Doubtful).at(place));
        check.remedy(Words::of("set-by-the-same").with("most", mm(quarter.number())));
        Ok(())
    }

    fn the_set_up(&self, bench: &Bench, answer: &mut Answer, cold: &Cold) -> Result<(), Refusal> {
        let mut set_up = SetUp::at(super::SET_UP, Station::Bench);
        // A bore and its shaft are read beside each other, equally warm.
        set_up.pause = false;
        set_up.hold.push(Words::of("on-the-plate").into());
        if linked::waits_for_a_cut(bench, self.of_others()) {
            set_up.step("measure-the-cuts-first");
        }
        set_up.step("cool-both").step("measure-the-shaft").step("set-the-gauge").step("measure-the-bore");
        let gauge =
            GaugeUsed { name: Fact::named("both-gauges"), doubt: Some(cold.clearance.plus_minus()), read_before: true };
        // Further from what bore and shaft gave than both are worth, one of the readings is wrong.
        let read = clearance::clearance(&cold.bore, &cold.shaft)?;
        let gauged = linked::held_with(bench, cold.clearance.number(), cold.clearance.plus_minus())?;
        let near = read.plus_minus().hypot(gauged) * bench.guard() / 2.0;
        let hold = HoldPoint::of(CLEARANCE.key, 1, gauge, bench.guard());
        let hold = hold.between(read.number() - near, read.number() + near).then("else-nothing-goes-together");
        set_up.hold_at(Words::of("write-it-down"), hold);
        set_up.takes(set_up_minutes::start("fit, measured")?);
        // Both lie on the plate until they are as warm as each other.
        set_up.rest = Some(Wait::of("cool, iron barrel")?);
        set_up.warns(&["never-hot"]);
        set_up.needs = kit::of_part(bench, &[StateKind::Washed]);
        set_up.leaves = vec![kit::of_this(bench, StateKind::FitMeasured)];
        let target = Fact::span(mm(cold.limits.0.number()), mm(cold.limits.1.number()));
        // What a cut is still to leave was not found by anybody.
        let line = |id, key, at: &At<Reading>| {
            let line = kit::blank(id, kit::found(answer, key), None);
            match &at.value {
                Reading::Of(of) if linked::waits_for_a_cut(bench, std::iter::once(of)) => line.expected(),
                _ => line,
            }
        };
        let lines = [
            kit::read_with(line("bore", BORE.key, &self.bore), READINGS, bench, Gauge::Inside),
            kit::read_with(line("shaft", SHAFT.key, &self.shaft), READINGS, bench, Gauge::Outside),
            kit::blank("clearance", kit::found(answer, CLEARANCE.key), Some(target)).expected().left_as(&CLEARANCE),
        ];
        set_up.blanks.extend(lines);
        answer.set_ups.push(set_up);
        answer.picture = Some(picture(answer));
        Ok(())
    }
}
