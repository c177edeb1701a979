//! Is the cylinder held against the edge that bores it, and does what holds it leave its wall as it is?

use super::keys::Bore;
use super::names::BORED;
use crate::handbook::constants::constant;
use crate::handbook::cutting::cutting_force;
use crate::handbook::materials::groups::Kind;
use crate::operations::hole_making::{self, Asks};
use crate::operations::{Answer, Bench, HeldIn};
use crate::proof::{Check, Origin, Refusal, Verdict, Worked};
use crate::quantity::{Mm, Quantity};
use crate::shop::BoringBar;

impl Bore {
    /// Against the torque of the deepest cut at the bored size, as under every tool that turns.
    pub(super) fn held(&self, bench: &Bench, bar: Option<&BoringBar>, answer: &mut Answer) -> Result<(), Refusal> {
        self.stays_round(answer);
        let bored = answer.value(BORED.key).map_or(self.nominal.value.number(), |bored| bored.number);
        let across = Worked::exact(Mm::new(bored), Origin::Assumed("as it is bored".into()));
        let deepest = constant("cylinder-boring-most-depth")?;
        let force = bar.map(|bar| Self::force_of_cut(bench, bar, &deepest)).transpose()?.flatten();
        let torque = force.map(|force| cutting_force::spindle_torque(&force, &across)).transpose()?;
        let asks = Asks { torque: torque.as_ref(), across: &across, grabs: false };
        hole_making::held(bench, self.hold.as_ref(), &asks, answer)
    }

    /// Metal that is honed and that rings run in: iron and steel. A light alloy is lined or plated first, and nobody says with what; in
    /// pores and in plastic the grit of the hone stays.
    pub(super) fn metal_takes_it(&self, bench: &Bench, answer: &mut Answer) {
        const ID: &str = "metal-takes-it";
        let Some(metal) = &bench.part.material else {
            answer.not_checked(&[ID], &["part.material"]);
            return;
        };
        let verdict = match metal.value.kind() {
            Kind::GreyIron | Kind::DuctileIron | Kind::Steel | Kind::HardSteel => Verdict::Proven,
            Kind::Plastic | Kind::Lining | Kind::Sintered => Verdict::Fails,
            _ => Verdict::Doubtful,
        };
        answer.check(Check::of_kind(ID, verdict).at(metal.place).with("metal", metal.value.typed()));
    }

    /// What squeezes the wall lets go of it after it was bored round: how far it springs is in no table of a cylinder with fins.
    fn stays_round(&self, answer: &mut Answer) {
        const ID: &str = "stays-round";
        let Some(hold) = &self.hold else {
            answer.not_checked(&[ID], &["hold"]);
            return;
        };
        let verdict = match hold.held_in.value {
            HeldIn::Clamps | HeldIn::AnglePlate | HeldIn::Faceplate => Verdict::Proven,
            HeldIn::Vice | HeldIn::Jaws | HeldIn::SoftJaws | HeldIn::FourJaw | HeldIn::Collet => Verdict::Doubtful,
            HeldIn::Mandrel | HeldIn::PressSupport => Verdict::Fails,
        };
        answer.check(Check::of_kind(ID, verdict).at(hold.held_in.place).with("in", hold.named()));
    }
}
