//! Torque and thrust of the drill, and what the machine gives.

use super::names::{THRUST, TORQUE, TORQUE_THERE};
use crate::handbook::Material;
use crate::handbook::cutting::drill_forces;
use crate::operations::hole_making;
use crate::operations::{Answer, Bench};
use crate::proof::{Refusal, Side, Words, Worked};
use crate::quantity::{Angle, Mm, MmPerRev, Newton, NewtonMetre, RevPerMin};
use crate::shop::Machine;

/// The greatest of the forms; none where no table has the metal.
pub(in crate::operations) struct Effort {
    /// Torque at the high end of the feed.
    pub torque: Option<Worked<NewtonMetre>>,
    /// Thrust at the high end of the feed.
    pub thrust: Option<Worked<Newton>>,
    /// Thrust at the low end of the feed: a hand that feels its drill gives less.
    pub least_thrust: Option<Worked<Newton>>,
}

impl Effort {
    /// The forms at both ends of the feed for a drill of that size and point in that metal, the greater on record.
    pub(in crate::operations) fn of(
        bench: &Bench,
        (metal, drill, angle): (&Material, &Worked<Mm>, &Worked<Angle>),
        feed: &Worked<MmPerRev>,
        answer: &mut Answer,
    ) -> Result<Self, Refusal> {
        let forces = |feed: &Worked<MmPerRev>| {
            let forms = drill_forces::forms(metal, drill, feed, angle);
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
    pub(in crate::operations) fn against_the_machine(
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
        hole_making::against_the_machine(bench, (torque, TORQUE.key), step, machine, (ID, &TORQUE_THERE), answer)
    }
}
