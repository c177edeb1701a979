//! Force, torque and power: the greatest of all cuts, at the outside diameter.

use super::edge::Edge;
use super::feed::Feed;
use super::speed::Speed;
use super::{CUTTING_FORCE, POWER, Piece, TORQUE, Way};
use crate::handbook::constants::constant;
use crate::handbook::cutting::{cutting_force as force, speeds};
use crate::operations::{Answer, Bench};
use crate::proof::{Check, Fact, Keep, Refusal, Side, Verdict, Words, Worked};
use crate::quantity::{Decimals, KiloWatt, MPerMin, Mm, MmPerRev, Newton, RevPerMin};

/// The check of the motor.
pub(super) const CHECK: &str = "power";

/// The greatest cutting force of all cuts: its number at the factors used, its band up to the worst end of wear, tool factor
/// and the row of the metal.
pub(super) fn work(
    bench: &Bench,
    piece: &Piece,
    edge: &Edge,
    depths: &[Worked<Mm>],
    speed: &Speed,
    feed: &Feed,
    answer: &mut Answer,
) -> Result<Worked<Newton>, Refusal> {
    let greatest = greatest_force(piece, edge, depths, &feed.step, answer)?;
    let cutting = answer.record(&CUTTING_FORCE, greatest);
    answer.record(&TORQUE, force::spindle_torque(&cutting, &piece.cut_at)?);
    let power = motor_power(piece, &cutting, (&speed.step, &speed.outside), answer)?;
    let power = answer.record(&POWER, power);
    match (piece.lathe.and_then(|lathe| lathe.power.as_ref()), bench.shop) {
        (Some(there), _) => {
            let check = Check::judge(CHECK, &power, Keep::AtMost, &there.into(), bench.guard());
            // A motor too weak for the cut stalls or is spared by a finer one: the shop lacks it, nobody is hurt by it.
            answer.check(check.about(POWER.key).not_worse_than(Verdict::Doubtful));
        }
        (None, Some(_)) => answer.not_checked(&[CHECK], &["power of the machine"]),
        (None, None) => answer.no_shop(&[CHECK]),
    }
    Ok(cutting)
}

/// What a cut asks of the motor at a step of the spindle and the surface speed that it gives.
fn motor_power(
    piece: &Piece,
    cutting: &Worked<Newton>,
    (step, outside): (&Worked<RevPerMin>, &Worked<MPerMin>),
    answer: &mut Answer,
) -> Result<Worked<KiloWatt>, Refusal> {
    let efficiency = piece.lathe.and_then(|lathe| lathe.efficiency_at(step.value()));
    let efficiency = match &efficiency {
        Some(efficiency) => efficiency.into(),
        None => answer.assume("efficiency", constant("drive-efficiency-geared-head")?),
    };
    force::motor_power(&force::cutting_power(cutting, outside)?, &efficiency)
}

/// Whether the motor has the power for a cut at a step of the spindle, for certain; one of which nobody says how strong it is has.
pub(super) fn is_strong_enough(
    bench: &Bench,
    piece: &Piece,
    cutting: &Worked<Newton>,
    step: &Worked<RevPerMin>,
) -> Result<bool, Refusal> {
    let Some(there) = piece.lathe.and_then(|lathe| lathe.power.as_ref()) else { return Ok(true) };
    let outside = speeds::surface_speed(step, &piece.cut_at)?;
    let power = motor_power(piece, cutting, (step, &outside), &mut Answer::default())?;
    Ok(Check::judge(CHECK, &power, Keep::AtMost, &there.into(), bench.guard()).is_proven())
}

/// The greatest force of cuts of these depths, fed so.
pub(super) fn greatest_force(
    piece: &Piece,
    edge: &Edge,
    depths: &[Worked<Mm>],
    fed: &Worked<MmPerRev>,
    answer: &mut Answer,
) -> Result<Worked<Newton>, Refusal> {
    let of = |depth| of_cut(piece, edge, depth, fed, answer);
    let forces = depths.iter().map(of).collect::<Result<Vec<_>, _>>()?;
    greatest(forces).ok_or(Refusal::NotGiven { what: "a cut", key: "wear" })
}

/// The force of one depth of cut. A thinner cut may ask more: under the round of the nose the chip is thinner than at the
/// straight edge.
fn of_cut(
    piece: &Piece,
    edge: &Edge,
    depth: &Worked<Mm>,
    fed: &Worked<MmPerRev>,
    answer: &mut Answer,
) -> Result<Worked<Newton>, Refusal> {
    let (chip, floored) = force::chip(fed, depth, &edge.nose, &edge.angle)?;
    if floored {
        answer.assume_words(Words::of("chip-floor").with("floor", Fact::mm(chip.number()).to(Decimals::AsTyped)));
    }
    let specific =
        force::specific_force(&force::force_at_one(&piece.cuts_as)?, &chip, &force::exponent(&piece.cuts_as)?)?;
    let (wear, tool) = (constant("force-factor-wear")?, force::tool_factor(edge.material)?);
    // In a bore and in a slot the chip is squeezed.
    let squeezed = match piece.way {
        Way::Inside(_) => Some("force-factor-boring"),
        Way::Off => Some("force-factor-parting"),
        Way::Across | Way::Along(_) => None,
    };
    let tool = squeezed.map_or(Ok(tool.clone()), |name| force::both_factors(&tool, &constant(name)?))?;
    force::cutting_force(&specific, &wear, &tool, depth, fed)
}

/// The greatest force, its band up to the greatest end among all.
fn greatest(forces: Vec<Worked<Newton>>) -> Option<Worked<Newton>> {
    let end = |side| forces.iter().map(|force| force.band_end(side)).fold(0.0_f64, f64::max);
    let (low, high) = (end(Side::Low), end(Side::High));
    let most = forces.into_iter().max_by(|a, b| a.number().total_cmp(&b.number()))?;
    Some(if most.band().is_some() { most.with_band(low, high) } else { most })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Quantity;

    #[test]
    fn the_greatest_force_reaches_up_to_the_worst_end_of_all() {
        let force =
            |number: f64, high: f64| Worked::assumed(Newton::new(number), "a test").with_band(number * 0.8, high);
        let most = greatest(vec![force(131.6, 180.0), force(138.2, 160.0)]).unwrap();
        assert_eq!((most.number(), most.band_end(Side::High)), (138.2, 180.0));
        assert!(greatest(Vec::new()).is_none());
    }
}
