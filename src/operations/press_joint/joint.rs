//! The joint: pressure, stresses cold and warm, close-in, forces. The method stands in the handbook; here it is read and judged.

use super::asked::Asked;
use super::climate::{Climate, Unsaid};
use super::frosted::both;
use super::gauge::{bore_gauge, sure_to_tell};
use super::made::{Made, cure, press_joint};
use super::metals::Metals;
use super::names::closed_in::BORE_PRESSED;
use super::names::fitted::{
    BORE_HIGH, BORE_LOW, BOSS_GROWTH, BUSH_PRESSURE_WARM, CLOSE_IN, CLOSE_IN_MOST, CLOSE_IN_SHARE, HOLDING_FORCE,
    HOOP_HOUSING_WARM, INTERFERENCE_MIN, LEFT, PRESSURE_MIN, SLIP_TORQUE,
};
use super::names::joint::{
    FIRST_YIELD, FULL_YIELD, HOOP_BUSH, HOOP_HOUSING, HOUSING_BORE, HOUSING_STRESS, INTERFERENCE, INTERFERENCE_MAX,
    MANDREL_PILOT, MANDREL_SHOULDER, PRESS_FORCE, PRESS_FORCE_NOMINAL, PRESSURE, PRESSURE_NOMINAL, YIELD_INTERFERENCE,
};
use super::push_on_wall::{Push, bush_stands_push};
use super::sizes::Sizes;
use crate::handbook::joints::joint::{PressJoint, Service};
use crate::handbook::joints::{heating, press};
use crate::handbook::{constants::constant, materials::groups::Kind};
use crate::operations::kit::{self, degrees};
use crate::operations::{Answer, Bench, Name, SetUpWish, Value};
use crate::proof::{Check, Fact, Keep, Refusal, Side, Verdict, Words, Worked};
use crate::quantity::{Mm, Newton, Quantity, Ratio, Rounds, Shift, Stress, Unit};
use crate::shop::Machine;

/// The joint once the bush is in.
pub(in crate::operations) struct Joint {
    /// Bore after pressing.
    pub pressed: Worked<Mm>,
    pub close_in: Worked<Mm>,
    /// Elastic close-in over interference.
    pub share: Worked<Ratio>,
    /// Interference once the surfaces have bedded in.
    pub settled: Worked<Shift>,
    /// Interference at its worst end for press and heat.
    pub most: Worked<Shift>,
    /// The same at its middle.
    pub measured: Worked<Shift>,
    /// What alone would make the joint proven.
    pub cure: Words,
}

/// Less than this, mm, is the dust of binary fractions.
const DUST: f64 = 1e-6;

impl Asked<'_> {
    /// Works the joint and judges it.
    pub(in crate::operations) fn joint(
        &self,
        bench: &Bench,
        metals: &Metals,
        (sizes, made): (&Sizes, &Made),
        climate: &Climate,
        answer: &mut Answer,
    ) -> Result<Joint, Refusal> {
        let tight = &made.tight;
        answer.record(&INTERFERENCE, tight.measured.clone());
        answer.record(&LEFT, tight.settled.clone());
        answer.record(&INTERFERENCE_MIN, tight.least.clone());
        answer.record(&INTERFERENCE_MAX, tight.most.clone());
        let cure = cure(made);
        self.grip(bench, (metals, tight), Some(cure.clone()), answer);
        let joint = press_joint(metals, sizes, &made.bore);
        let nominal = answer.record(&PRESSURE_NOMINAL, joint.for_stress(&tight.settled)?);
        let most = answer.record(&PRESSURE, joint.for_stress(&tight.most)?);
        let least = answer.record(&PRESSURE_MIN, joint.for_grip(&tight.least)?);
        self.stresses(bench, metals, (&joint, made), climate.cold, (&most, Some(&cure)), answer)?;
        self.stress_when_warm(bench, metals, (&joint, made), climate, answer)?;
        self.stress_when_cold(bench, metals, (&joint, made), climate, answer)?;
        let close_in = answer.record(&CLOSE_IN, joint.close_in(&tight.settled)?);
        let close_in_most =
            answer.record(&CLOSE_IN_MOST, joint.close_in(&tight.most)?.worst(Side::High, bench.guard()));
        let share = answer.record(&CLOSE_IN_SHARE, joint.share()?);
        let planned = press::bore_pressed(&made.bore, &close_in)?;
        let left = bench.left(&BORE_PRESSED)?;
        let as_foretold =
            left.as_ref().is_none_or(|left| as_foretold(bench, left, &Value::of(&BORE_PRESSED, &planned)));
        let (read_to, is_read) = (left.as_ref().map(Worked::plus_minus), left.is_some());
        let pressed = answer.record(&BORE_PRESSED, left.unwrap_or(planned));
        // What was read is sure no further up than its sheet says.
        let tells = match read_to {
            Some(doubt) => is_told(bench, &pressed, &made.bore, Some(doubt)),
            None => self.gauge_tells(bench, &pressed, &self.as_it_is_read(bench, &made.bore)?)?,
        };
        // What was read of a bore that nobody measured before tells nothing of it; what will be read must.
        let unread = is_read && self.bush.bore.is_none();
        self.closes_in(bench, &pressed, (&made.bore, &tight.settled, (as_foretold, tells || unread)), answer);
        answer.record(&BORE_LOW, pressed.worst(Side::Low, bench.guard()));
        answer.record(&BORE_HIGH, pressed.worst(Side::High, bench.guard()));
        answer.record(&BOSS_GROWTH, joint.boss_growth(&nominal)?);
        let forces = self.forces(bench, sizes, (&nominal, &most, &least), answer)?;
        let shoulder = self.mandrel(bench, made, &close_in_most, answer)?;
        self.stands_push(bench, (metals, made), &shoulder, &forces, answer);
        let (settled, most, measured) = (tight.settled.clone(), tight.most.clone(), tight.measured.clone());
        Ok(Joint { pressed, close_in, share, settled, most, measured, cure })
    }

    /// A bore that did not close in when the bush was pressed has no interference, whatever was measured of bush and housing: where
    /// none was measured that is said of the joint itself. One that closed in by more or less than was foretold, with all that is
    /// doubtful of it, was misread, or the bush is not home, loose or collapsed.
    fn closes_in(
        &self,
        bench: &Bench,
        pressed: &Worked<Mm>,
        (before, settled, (as_foretold, tells)): (&Worked<Mm>, &Worked<Shift>, (bool, bool)),
        answer: &mut Answer,
    ) {
        const ID: &str = "closes-in";
        // Of a bush that nobody measured it is not known what it closed in from.
        let unknown = settled.number() <= 0.0 || self.bush.bore.is_none();
        let tells = tells || settled.number() <= 0.0;
        if unknown && as_foretold && tells {
            answer.does_not_apply(&[ID]);
            return;
        }
        let check = match unknown {
            true => Check::of_kind(ID, Verdict::Doubtful),
            false => Check::judge(ID, pressed, Keep::AtMost, before, bench.guard()).about(BORE_PRESSED.key),
        };
        let doubted = !as_foretold || !tells;
        let check = if doubted { check.not_better_than(Verdict::Doubtful) } else { check };
        let check = answer.check(check.at(self.bush.length.place));
        if !tells {
            check.remedy(Words::of("tell-it-by-a-finer-gauge"));
        }
        if !as_foretold {
            check.remedy(Words::of("closed-in-otherwise"));
        }
        check.remedy(Words::of("look-whether-it-grips")).remedy(Words::of("sleeve-the-housing"));
    }

    /// Whether the gauge that reads the closed-in bore is sure to tell it from the bore before, where that is as it was foretold.
    pub(super) fn gauge_tells(
        &self,
        bench: &Bench,
        pressed: &Worked<Mm>,
        before: &Worked<Mm>,
    ) -> Result<bool, Refusal> {
        Ok(is_told(bench, pressed, before, bore_gauge(bench, pressed.number())?.doubt))
    }

    /// Bush and housing cold; with what would prove the joint, where that is asked.
    pub(in crate::operations) fn stresses(
        &self,
        bench: &Bench,
        metals: &Metals,
        (joint, made): (&PressJoint, &Made),
        cold: Service,
        (most, cure): (&Worked<Stress>, Option<&Words>),
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        let delta = &made.tight.measured;
        answer.record(&HOOP_BUSH, joint.hoop_bush(most)?);
        answer.record(&HOOP_HOUSING, joint.hoop_housing(most)?);
        answer.record(&HOUSING_STRESS, joint.asked_of_housing(most)?);
        match (joint.first_yield()?, joint.full_yield_low()?, joint.first_yield_interference()?) {
            (Some(first), Some(full), Some(at_first)) => {
                answer.record(&FIRST_YIELD, first);
                answer.record(&YIELD_INTERFERENCE, at_first);
                let full = answer.record(&FULL_YIELD, full);
                let worst = joint.elastic(&made.tight.most)?;
                let check = Check::judge("bush-plastic", &worst, Keep::AtMost, &full, bench.guard());
                answer.check(check.not_worse_than(Verdict::Doubtful));
            }
            _ => answer.does_not_apply(&["bush-plastic"]),
        }
        match joint.of_bush(delta, cold, bench.guard())? {
            Some(stressed) => {
                let check = stressed.check("bush-yield", bench.guard()).at(self.bush.length.place);
                let check = answer.check(check);
                if let Some(cure) = cure {
                    check.remedy(cure.clone()).remedy(Words::of("trust-the-measured-bore"));
                }
            }
            None => answer.not_checked(&["bush-yield"], &["bush.material"]),
        }
        let iron = metals.housing.kind() == Kind::GreyIron;
        let (check, other) = if iron { ("housing-iron", "housing-stress") } else { ("housing-stress", "housing-iron") };
        answer.does_not_apply(&[other]);
        match joint.of_housing(delta, cold, bench.guard())? {
            Some(stressed) => {
                let check = stressed.check(check, bench.guard()).about(HOUSING_STRESS.key);
                let check = answer.check(check.at(self.housing.outside.place));
                if let Some(cure) = cure {
                    check.remedy(cure.clone());
                }
                check.remedy(Words::of("support-the-boss"));
            }
            None => answer.not_checked(&[check], &["housing.material"]),
        }
        Ok(())
    }

    /// Bush and housing where the joint is warm and tightest, never less tight than cold.
    fn stress_when_warm(
        &self,
        bench: &Bench,
        metals: &Metals,
        (joint, made): (&PressJoint, &Made),
        climate: &Climate,
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        let Some(running) = self.running else {
            match climate.unsaid.as_ref().filter(|unsaid| unsaid.adds.number() > 0.0) {
                Some(unsaid) => self.stress_as_warm_as_assumed(bench, metals, (joint, made), unsaid, answer)?,
                None => answer.does_not_apply(&["stress-when-warm"]),
            }
            return Ok(());
        };
        let tightest = Worked::assumed(
            Shift::new(climate.tightest()),
            "what warmth adds where it tightens most, none where it loosens",
        );
        let most = heating::interference_warm(&made.tight.most, &tightest)?;
        answer.record(&BUSH_PRESSURE_WARM, joint.elastic(&most)?);
        answer.record(&HOOP_HOUSING_WARM, joint.hoop_housing(&joint.for_stress(&most)?)?);
        let lacking = |key| move |answer: &mut Answer| answer.not_checked(&["stress-when-warm"], &[key]);
        for warm in &climate.warm {
            let adds = warm.adds.at_least(0.0, "not less tight than cold");
            let delta = heating::interference_warm(&made.tight.measured, &adds)?;
            for (stressed, which, of, key) in both(joint, metals, (&delta, warm.service), bench.guard())? {
                let Some(stressed) = stressed else {
                    lacking(key)(answer);
                    return Ok(());
                };
                let check = stressed.check("stress-when-warm", bench.guard()).with("which", which);
                let check = check.with("of", of.typed());
                let check = check.not_better_than(warm.trusted);
                let check = answer.check(check.with("bush_at", degrees(warm.bush.number())).at(running.housing.place));
                if check.remedies.is_empty() {
                    check.remedy(cure(made));
                    if warm.trusted != Verdict::Proven {
                        check.remedy(Words::of("strength-when-warm"));
                    }
                }
            }
        }
        Ok(())
    }

    /// The same as warm as it is taken to become where nobody said how warm it runs: what would not stand that is in doubt until
    /// somebody does.
    fn stress_as_warm_as_assumed(
        &self,
        bench: &Bench,
        metals: &Metals,
        (joint, made): (&PressJoint, &Made),
        unsaid: &Unsaid,
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        const ID: &str = "stress-when-warm";
        let delta = heating::interference_warm(&made.tight.measured, &unsaid.adds)?;
        for (stressed, which, of, key) in both(joint, metals, (&delta, unsaid.service), bench.guard())? {
            let Some(stressed) = stressed else {
                answer.not_checked(&[ID], &[key]);
                return Ok(());
            };
            let check = stressed.check(ID, bench.guard()).with("which", which).with("of", of.typed());
            let check = check.not_better_than(unsaid.trusted).not_worse_than(Verdict::Doubtful);
            let check = check.with("bush_at", degrees(unsaid.at.number())).at(self.housing.outside.place);
            let check = answer.check(check);
            if check.remedies.is_empty() {
                check.remedy(Words::of("say-how-warm")).remedy(cure(made));
            }
        }
        Ok(())
    }

    fn forces(
        &self,
        bench: &Bench,
        sizes: &Sizes,
        (nominal, most, least): (&Worked<Stress>, &Worked<Stress>, &Worked<Stress>),
        answer: &mut Answer,
    ) -> Result<[Worked<Newton>; 2], Refusal> {
        let d = sizes.d.nominal("the area of the joint: its doubt is small beside that of the friction");
        let force = |mu: &Worked<Ratio>, p: &Worked<Stress>| press::press_force(mu, p, &d, &sizes.length);
        let at_most = force(&constant("friction-press-sizing")?, most)?;
        let at_most = answer.record(&PRESS_FORCE, at_most);
        let middle =
            constant::<Ratio>("friction-press-nominal")?.nominal("between the ends, for the force as measured");
        let as_measured = answer.record(&PRESS_FORCE_NOMINAL, force(&middle, nominal)?);
        let low = constant::<Ratio>("friction-holding")?.worst(Side::Low, bench.guard());
        let holding = answer.record(&HOLDING_FORCE, force(&low, least)?);
        answer.record(&SLIP_TORQUE, press::slip_torque(&holding, &d)?);
        if !self.cold {
            answer.does_not_apply(&["press-force"]);
            return Ok([at_most, as_measured]);
        }
        let remedies = ["warm-and-chill", "borrow-a-press"];
        press_reaches(bench, self.set_up, (&PRESS_FORCE, &at_most, &as_measured), &remedies, answer);
        Ok([at_most, as_measured])
    }

    /// Does the wall stand what pushes it home, on as much of it as the shoulder of the mandrel covers? What drops in is not pushed.
    fn stands_push(
        &self,
        bench: &Bench,
        (metals, made): (&Metals, &Made),
        shoulder: &Worked<Mm>,
        [most, middle]: &[Worked<Newton>; 2],
        answer: &mut Answer,
    ) {
        if !self.cold {
            return answer.does_not_apply(&["bush-stands-push"]);
        }
        let (most, place) = (most.worst(Side::High, bench.guard()), self.bush.length.place);
        let push = Push { outside: shoulder, bore: &made.bore, most: &most, middle, place };
        bush_stands_push(bench, metals, &push, &["warm-and-chill"], answer);
    }

    /// The stepped mandrel that pushes the bush home: its pilot stays free in the bore as it closes in.
    fn mandrel(
        &self,
        bench: &Bench,
        made: &Made,
        close_in_most: &Worked<Mm>,
        answer: &mut Answer,
    ) -> Result<Worked<Mm>, Refusal> {
        let under = constant::<Mm>("mandrel-pilot-under-bore")?.nominal("the least that was read; more is as good");
        let free = press::mandrel_pilot(&made.bore.worst(Side::Low, bench.guard()), close_in_most, &under)?;
        let outside = made.tight.measured.number() + answer.value(HOUSING_BORE.key).map_or(0.0, |value| value.number);
        let step = constant::<Mm>("mandrel-step")?.number();
        let down = |number: f64| ((number / step + 1e-9).floor() * step).max(0.0);
        let pilot = free.shifted(down(free.number()) - free.number(), "turned down to a whole step");
        answer.record(&MANDREL_PILOT, pilot);
        let by = constant::<Mm>("mandrel-shoulder-under-outside")?.number();
        let shoulder = Worked::method_of(
            Mm::new(down(outside - by)),
            vec![format!("outside of the bush less {by} mm, down to a whole step")],
            crate::proof::Source::fixed("bush maker's catalogue", crate::proof::Mark::Read),
            [made.tight.measured.origin()],
        );
        Ok(answer.record(&MANDREL_SHOULDER, shoulder))
    }
}

/// Can the shop's press push so hard: the greatest force, recorded under a name, at the worst end, the other force at the middle.
pub(in crate::operations) fn press_reaches(
    bench: &Bench,
    wish: Option<&SetUpWish>,
    (name, at_most, middle): (&Name<Newton>, &Worked<Newton>, &Worked<Newton>),
    remedies: &[&'static str],
    answer: &mut Answer,
) {
    const ID: &str = "press-force";
    if bench.shop.is_none() {
        answer.no_shop(&[ID]);
        return;
    }
    let press = kit::machine_for(bench, wish, Machine::press);
    let called = press.map_or(Fact::named("no-press"), |press| (&press.name.value).into());
    let limit = press.and_then(|press| press.most.as_ref());
    let check = match (press, limit) {
        (None, _) => Check::of_kind(ID, Verdict::Doubtful),
        (Some(_), None) => {
            answer.not_checked(&[ID], &["press.most"]);
            return;
        }
        (Some(_), Some(at)) => {
            let most = at.into();
            Check::judge_two(ID, (at_most, &most), Keep::AtMost, (middle, &most), bench.guard())
        }
    };
    // What the shop has too weak is doubtful, with a line on the missing list.
    let check = check.not_worse_than(Verdict::Doubtful).about(name.key).with("press", called);
    if !check.is_proven() {
        let force = Fact::figure(at_most.number(), Unit::N).rounded(Rounds::Up);
        answer.missing.push(Words::of("press").with("force", force));
    }
    let check = answer.check(check);
    for remedy in remedies {
        check.remedy(Words::of(remedy));
    }
}

/// Whether a bore as it was left lies within what was foretold, as the shop's gauge reads it: how surely it was read this time excuses
/// nothing.
fn as_foretold(bench: &Bench, left: &Worked<Mm>, planned: &Value) -> bool {
    let gauge = bore_gauge(bench, planned.number).ok().and_then(|gauge| gauge.doubt);
    let (low, high) = foretold(planned, gauge, bench.guard());
    (low - DUST..=high + DUST).contains(&left.number())
}

/// Readings that were foretold of a size: its band, and beside it what plan and gauge may be off.
pub(in crate::operations) fn foretold(planned: &Value, gauge: Option<f64>, guard: f64) -> (f64, f64) {
    let off = planned.plus_minus.hypot(gauge.unwrap_or_default()) * guard / 2.0;
    let (low, high) = planned.band.unwrap_or((planned.number, planned.number));
    (low.min(planned.number) - off, high.max(planned.number) + off)
}

/// Whether a reading good to so much is sure to tell a bore from that before.
fn is_told(bench: &Bench, pressed: &Worked<Mm>, before: &Worked<Mm>, doubt: Option<f64>) -> bool {
    pressed.number() <= sure_to_tell(bench, (before.number(), before.plus_minus()), doubt)
}
