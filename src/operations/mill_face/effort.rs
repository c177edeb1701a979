//! How fast it runs and is fed, with what force and power.

use super::cutter::{Cutter, Depths};
use super::keys::MillFace;
use super::names::{FEED, FORCE, POWER, RATE, SPEED, SURFACE, TIME, TOOTH};
use crate::handbook::Material;
use crate::handbook::constants::constant;
use crate::handbook::cutting::speeds::{self, Work};
use crate::handbook::cutting::{cutting_force as force, milling as law, times};
use crate::operations::spindle::Begins;
use crate::operations::{Answer, Bench, kit};
use crate::proof::{Check, Fact, Keep, Origin, Refusal, Side, Verdict, Words, Worked};
use crate::quantity::{Decimals, KiloWatt, Mm, MmPerRev, Newton, Quantity, Ratio, RevPerMin, Stress, Unit};
use crate::shop::Cutting;

/// What the cut runs at.
pub(super) struct Run {
    pub step: Option<Worked<RevPerMin>>,
    pub force: Worked<Newton>,
    /// Tracks beside each other.
    pub lanes: f64,
    /// What one track of one pass takes under the cutter, where the step is known.
    pub once: Option<f64>,
}

impl MillFace {
    /// Step, feed, force, power, time.
    pub(super) fn runs(
        &self,
        bench: &Bench,
        metal: &Material,
        (cutter, depths): (&Cutter, &Depths),
        machine: Option<&Cutting>,
        answer: &mut Answer,
    ) -> Result<Run, Refusal> {
        let wish = law::feed_of_a_tooth(metal, cutter.tool, cutter.across.number())?;
        let tooth = Self::fed(wish, &cutter.teeth, machine, answer)?;
        let tooth = answer.record(&TOOTH, tooth);
        let feed = answer.record(&FEED, force::feed_of_teeth(&tooth, &cutter.teeth)?);
        let specific = self.specific(metal, cutter, &tooth)?;
        let force = self.force(&specific, (cutter, depths), &tooth, answer)?;
        let of_cut = (&specific, &feed, cutter, depths);
        let step = self.step(bench, (metal, of_cut), machine, answer)?;
        let mut minutes = None;
        if let Some(step) = &step {
            answer.record(&SURFACE, speeds::surface_speed(step, &cutter.across)?);
            let rate = answer.record(&RATE, times::feed_rate(&feed, step)?);
            self.power(bench, of_cut, step, machine, answer)?;
            let stroke = law::stroke(&(&self.length).into(), &cutter.across)?;
            let stroke = law::table_way(&stroke, &constant("approach")?, &constant("overrun")?)?;
            let once = times::time_by_feed_rate(&stroke, &rate)?;
            minutes = Some(once.number());
            let all = cutter.lanes * depths.readings.len() as f64;
            let all = Worked::exact(Ratio::new(all), Origin::Assumed("passes times tracks".into()));
            answer.record(&TIME, times::time_of_passes(&once, &all)?);
        } else {
            answer.no_shop(&["power"]);
        }
        Ok(Run { step, force, lanes: cutter.lanes, once: minutes })
    }

    /// The feed step of the table at or below what the teeth want, each its share of it; fed by hand at just that where the mill has none
    /// so fine. Every figure after it goes by the feed that is set.
    fn fed(
        wish: Worked<Mm>,
        teeth: &Worked<Ratio>,
        machine: Option<&Cutting>,
        answer: &mut Answer,
    ) -> Result<Worked<Mm>, Refusal> {
        let steps = machine.and_then(|machine| machine.feeds_along.as_ref());
        let Some(step) = kit::feed_step(steps, &force::feed_of_teeth(&wish, teeth)?) else {
            if steps.is_some() {
                answer.assume_words(Words::of("fed-by-hand"));
            }
            answer.fact("fed", Fact::named("by-hand"));
            return Ok(wish);
        };
        answer.fact("fed", Fact::named("by-its-step"));
        answer.fact("table_feed", Fact::figure(step.number(), Unit::MmPerRev).to(Decimals::AsTyped));
        Ok(step.scaled(1.0 / teeth.number(), "each tooth its share").recast())
    }

    /// At the mean chip, which is the thinner: the force that it asks is the greater. Worn edges.
    fn specific(&self, metal: &Material, cutter: &Cutter, tooth: &Worked<Mm>) -> Result<Worked<Stress>, Refusal> {
        let chip = law::mean_chip(&tooth.nominal("the feed that is set"), &cutter.engaged)?;
        let floor: Worked<Mm> = constant("chip-thickness-floor")?;
        let chip = if chip.number() < floor.number() { floor } else { chip };
        let specific = force::specific_force(&force::force_at_one(metal)?, &chip, &force::exponent(metal)?)?;
        law::worn_force(&specific, &constant("force-factor-wear")?)
    }

    /// Every tooth that cuts at its thickest chip.
    fn force(
        &self,
        specific: &Worked<Stress>,
        (cutter, depths): (&Cutter, &Depths),
        tooth: &Worked<Mm>,
        answer: &mut Answer,
    ) -> Result<Worked<Newton>, Refusal> {
        let worn = Worked::exact(Ratio::new(1.0), Origin::Assumed("wear is in the specific force".into()));
        let of_tool = force::tool_factor(cutter.tool)?;
        let tooth = tooth.nominal("the feed that is set").recast();
        let one = force::cutting_force(specific, &worn, &of_tool, &depths.deepest, &tooth)?;
        let teeth = law::teeth_in_cut(&cutter.teeth, &cutter.engaged)?;
        Ok(answer.record(&FORCE, law::force_of_teeth(&one, &teeth)?))
    }

    /// The step at or below what the cutter wants.
    fn step(
        &self,
        bench: &Bench,
        (metal, of_cut): (&Material, OfCut),
        machine: Option<&Cutting>,
        answer: &mut Answer,
    ) -> Result<Option<Worked<RevPerMin>>, Refusal> {
        const ID: &str = "spindle-too-fast";
        let (_, _, cutter, _) = of_cut;
        let begins = Begins::plainly(metal, (Work::Mill, cutter.tool))?;
        let Some(machine) = machine else {
            match bench.shop {
                None => answer.no_shop(&[ID]),
                Some(_) => answer.not_checked(&[ID, "power"], &["mill"]),
            }
            return Ok(None);
        };
        let carries = |step: &Worked<RevPerMin>| {
            let Some(motor) = &machine.power else { return Ok(true) };
            let asked = power_at(bench, of_cut, step, Some(machine), &mut Answer::default())?;
            Ok(Check::judge(POWER_CHECK, &asked, Keep::AtMost, &motor.into(), bench.guard()).is_proven())
        };
        let step = begins.step((bench, machine), &cutter.across, ID, carries, answer)?;
        Ok(Some(answer.record(&SPEED, step)))
    }

    /// What the motor must give against what it has: too weak it stalls in the cut.
    fn power(
        &self,
        bench: &Bench,
        of_cut: OfCut,
        step: &Worked<RevPerMin>,
        machine: Option<&Cutting>,
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        let power = power_at(bench, of_cut, step, machine, answer)?;
        let power = answer.record(&POWER, power);
        match machine.and_then(|machine| machine.power.as_ref()) {
            Some(motor) => {
                let check = Check::judge(POWER_CHECK, &power, Keep::AtMost, &motor.into(), bench.guard());
                answer.check(check.about(POWER.key).not_worse_than(Verdict::Doubtful));
            }
            None => answer.not_checked(&[POWER_CHECK], &["power of the machine"]),
        }
        Ok(())
    }
}

/// The check of the motor.
const POWER_CHECK: &str = "power";

/// What a cut asks of the motor, whatever its step: its specific force, what it is fed a turn, the cutter and how deep it goes.
type OfCut<'a> = (&'a Worked<Stress>, &'a Worked<MmPerRev>, &'a Cutter, &'a Depths);

/// What the motor must give at a step.
fn power_at(
    bench: &Bench,
    (specific, feed, cutter, depths): OfCut,
    step: &Worked<RevPerMin>,
    machine: Option<&Cutting>,
    answer: &mut Answer,
) -> Result<Worked<KiloWatt>, Refusal> {
    let removal = times::removal_milling(&depths.deepest, &cutter.track, &times::feed_rate(feed, step)?)?;
    let edges = force::cutting_power_of_removal(&removal, specific)?;
    let typed = machine.and_then(|machine| machine.efficiency_at(step.value()));
    let efficiency: Worked<Ratio> = match typed {
        Some(typed) => (&typed).into(),
        None => answer.assume("efficiency", constant("drive-efficiency-geared-head")?),
    };
    force::motor_power(&edges, &efficiency.worst(Side::Low, bench.guard()))
}
