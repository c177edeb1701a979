//! Torque and thrust of the drill, and what the machine gives.

use super::case::Case;
use super::names::{THRUST, TORQUE, TORQUE_THERE};
use crate::handbook::constants::constant;
use crate::handbook::cutting::{cutting_force, drill_forces};
use crate::operations::{Answer, Bench};
use crate::proof::{Check, Keep, Refusal, Side, Verdict, Words, Worked};
use crate::quantity::{MmPerRev, Newton, NewtonMetre, RevPerMin};
use crate::shop::Machine;

/// The greatest of the forms; none where no table has the metal.
pub(super) struct Effort {
    /// Torque at the high end of the feed.
    pub torque: Option<Worked<NewtonMetre>>,
    /// Thrust at the high end of the feed.
    pub thrust: Option<Worked<Newton>>,
    /// Thrust at the low end of the feed: a hand that feels its drill gives less.
    pub least_thrust: Option<Worked<Newton>>,
}

impl Effort {
    /// The forms at both ends of the feed, the greater on record.
    pub(super) fn of(
        bench: &Bench,
        case: &Case,
        feed: &Worked<MmPerRev>,
        answer: &mut Answer,
    ) -> Result<Self, Refusal> {
        let forces = |feed: &Worked<MmPerRev>| {
            let forms = drill_forces::forms(&case.cuts_as, &case.diameter, feed, &case.angle);
            let all: Vec<_> = forms.into_iter().flatten().collect();
            let torque = drill_forces::greatest(all.iter().map(|forces| &forces.0));
            (torque, drill_forces::greatest(all.iter().map(|forces| &forces.1)))
        };
        let (torque, thrust) = forces(&feed.worst(Side::High, bench.guard()));
        let (_, least_thrust) = forces(&feed.worst(Side::Low, bench.guard()));
        if torque.is_none() {
            answer.assume_words(Words::of("no-drill-torque"));
        }
        if let Some(torque) = &torque {
            answer.record(&TORQUE, torque.clone());
        }
        if let Some(thrust) = &thrust {
            answer.record(&THRUST, thrust.clone());
        }
        Ok(Self { torque, thrust, least_thrust })
    }

    /// The torque against what the machine gives at its step.
    pub(super) fn against_the_machine(
        &self,
        bench: &Bench,
        step: Option<&Worked<RevPerMin>>,
        machine: Option<&Machine>,
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        const ID: &str = "torque";
        let Some(torque) = &self.torque else {
            answer.not_checked(&[ID], &[]);
            return Ok(());
        };
        let cutting = machine.and_then(Machine::drills);
        match (cutting.and_then(|machine| machine.power.as_ref()), step, cutting) {
            (Some(power), Some(step), Some(machine)) => {
                let efficiency = match machine.efficiency_at(step.value()) {
                    Some(typed) => (&typed).into(),
                    None => answer.assume("efficiency", constant("drive-efficiency-geared-head")?),
                };
                let power = Worked::from(power).scaled(efficiency.low(), "what the drive leaves of the motor");
                let there = answer.record(&TORQUE_THERE, cutting_force::torque_from_power(&power, step)?);
                let check = Check::judge(ID, torque, Keep::AtMost, &there, bench.guard());
                // A motor too weak stalls: a lower step or a smaller drill first; nothing is spoilt by it.
                answer.check(check.about(TORQUE.key).not_worse_than(Verdict::Doubtful));
            }
            _ if bench.shop.is_none() => answer.no_shop(&[ID]),
            _ => answer.not_checked(&[ID], &["power of the machine"]),
        }
        Ok(())
    }
}
