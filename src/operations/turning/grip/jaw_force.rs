//! How much force the jaws have: for holding the least that may be there, for squeezing the most.

use super::super::{JAW_FORCE_HIGH, JAW_FORCE_LOW};
use super::Held;
use crate::handbook::constants::{constant, row, worst};
use crate::handbook::cutting::jaw_force as law;
use crate::operations::{Answer, HeldIn, Hold, Nip};
use crate::proof::{Fact, Mark, Refusal, Side, Source, Words, Worked};
use crate::quantity::{Mm, Newton, Quantity, Ratio, RevPerMin, Unit};
use crate::shop::{Chuck, Cutting, JawForceBy};

/// The force of the jaws.
#[derive(Default)]
pub(super) struct JawForce {
    /// For holding; none where the force or what the speed leaves of it is not known.
    pub holding: Option<Holding>,
    /// For squeezing.
    pub squeezing: Option<Worked<Newton>>,
    /// The keys that would let the missing one be known.
    pub lacking: Vec<&'static str>,
}

/// The force that holds.
pub(super) struct Holding {
    /// What can be counted on.
    pub low: Worked<Newton>,
    /// The same with the loss at speed held whole, where it must be looked at: a light nip, or a fast chuck.
    pub whole: Option<Worked<Newton>>,
    /// The middle of what may be there.
    pub middle: Worked<Newton>,
}

/// The force of the chuck before anybody nips, and what it is worth.
struct AtHand {
    /// Middle and band; the middle alone where the force is given.
    force: Worked<Newton>,
    /// What is left of a maker's figure when it counts.
    worth: Worked<Ratio>,
    /// Only guessed from the chuck's diameter.
    by_diameter: bool,
}

/// The force there, on record.
pub(super) fn work(held: &Held, nip: Nip, answer: &mut Answer) -> Result<JawForce, Refusal> {
    let mut force = of_nip(held, nip)?;
    if !held.told {
        return Ok(force);
    }
    force.squeezing = force.squeezing.map(|squeezing| as_tested(held, squeezing)).transpose()?;
    if let Some(at_hand) = at_hand(held)? {
        if at_hand.by_diameter {
            let end = |side| Fact::figure(at_hand.force.band_end(side), Unit::N);
            let words = Words::of("jaw-force-by-diameter").with("low", end(Side::Low)).with("high", end(Side::High));
            answer.assume_words(words);
        } else if held.chuck.is_some_and(|chuck| chuck.jaw_force_by.is_none()) {
            answer.assume_words(Words::of("jaw-force-of-maker"));
        }
    }
    if let Some(holding) = &force.holding {
        answer.record(&JAW_FORCE_LOW, holding.low.clone());
    }
    if let Some(squeezing) = &force.squeezing {
        answer.record(&JAW_FORCE_HIGH, squeezing.clone());
    }
    Ok(force)
}

/// What squeezes a part that was tried: jaws of which a bar and a spring balance say that they press harder than such a nip does, press as
/// hard as the least friction asks for that, and no harder than all that an arm gives.
fn as_tested(held: &Held, squeezing: Worked<Newton>) -> Result<Worked<Newton>, Refusal> {
    let (Some(tested), Some(gripped)) = (&held.hold.tested, held.gripped()) else { return Ok(squeezing) };
    let name = if held.is_soft() { "jaw-friction-soft-jaws" } else { "jaw-friction-smooth" };
    // N·m to N·mm.
    let pressed = |friction: f64| 2000.0 * tested.value.value.number() / (friction * gripped.number());
    let least = pressed(worst::<Ratio>(name, true)?.number());
    if least <= squeezing.high() {
        return Ok(squeezing);
    }
    let hardest = of_nip(held, Nip::Hard)?.squeezing.map_or(f64::INFINITY, |hard| hard.high());
    let most = pressed(worst::<Ratio>(name, false)?.number()).min(hardest).max(least);
    Ok(squeezing.at_least(most, "jaws that stood the test press so hard, where the friction is at its least"))
}

/// The force of a nip before the spindle turns.
#[derive(Clone)]
pub(super) struct AtRest {
    low: Worked<Newton>,
    middle: Worked<Newton>,
    high: Worked<Newton>,
    /// The most that there may be to lose.
    lost_of: Worked<Newton>,
    /// The share that counts in full.
    full: Worked<Ratio>,
}

/// The force of a nip.
pub(super) fn of_nip(held: &Held, nip: Nip) -> Result<JawForce, Refusal> {
    let Some(at_rest) = held.kept.nipped(nip).or(|| at_rest(held, nip))? else {
        return Ok(JawForce { lacking: vec![held.of_chuck("chuck.jaw-force")], ..JawForce::default() });
    };
    let AtRest { low, middle, high, lost_of, full } = at_rest;
    let left = speed_left(held)?;
    let squeezing = match (held.hold.grips_inside(), &left) {
        (false, _) => high,
        (true, Some(left)) => law::jaw_force_opening(&high, &lost_of, left)?,
        (true, None) => law::jaw_force_opening(&high, &lost_of, &least_left()?)?,
    };
    let left = if held.hold.grips_inside() { Some(full) } else { left };
    let Some(left) = left else {
        return Ok(JawForce { holding: None, squeezing: Some(squeezing), lacking: vec![held.of_chuck("chuck.most")] });
    };
    let looked_at = !held.hold.grips_inside() && (nip == Nip::Light || is_fast(&left)?);
    let whole = looked_at.then(|| law::jaw_force_less_loss(&low, &lost_of, &left)).transpose()?;
    let holding =
        Holding { low: law::jaw_force_at_speed(&low, &left)?, whole, middle: law::jaw_force_at_speed(&middle, &left)? };
    Ok(JawForce { holding: Some(holding), squeezing: Some(squeezing), lacking: Vec::new() })
}

fn at_rest(held: &Held, nip: Nip) -> Result<Option<AtRest>, Refusal> {
    let Some(at_hand) = at_hand(held)? else { return Ok(None) };
    let name = match nip {
        Nip::Light => "nip-light",
        Nip::Normal => "nip-normal",
        Nip::Hard => "nip-hard",
    };
    let end = |side| at_hand.force.worst(side, held.guard);
    let full = Worked::row(Ratio::new(1.0), "squeezing counts in full: 1", Source::fixed("the worse end", Mark::Own));
    let middle_share: Worked<Ratio> =
        constant::<Ratio>(name)?.nominal("the middle of what may be there; the ends are judged apart");
    let mut low = law::jaw_force_at_rest(&worst(name, false)?, &at_hand.worth, &end(Side::Low))?;
    let mut middle = law::jaw_force_at_rest(&middle_share, &full, &at_hand.force.nominal("the middle is wanted"))?;
    let mut high = law::jaw_force_at_rest(&worst(name, true)?, &full, &end(Side::High))?;
    if at_hand.by_diameter && nip == Nip::Light {
        let light = row("nip-light-force")?;
        let most = |figure: &Worked<Newton>, most: Option<f64>| {
            figure.at_most(most.unwrap_or(light.value), "a light nip of a chuck that nobody measured")
        };
        low = most(&low, light.low);
        middle = most(&middle, Some(light.value));
        high = most(&high, light.high);
    }
    let lost_of = end(Side::High);
    Ok(Some(AtRest { low, middle, high, lost_of, full }))
}

/// As given, else the band of a scroll chuck of this diameter.
fn at_hand(held: &Held) -> Result<Option<AtHand>, Refusal> {
    let Some(chuck) = held.chuck else { return Ok(None) };
    if let Some(force) = &chuck.jaw_force {
        let gauged = chuck.jaw_force_by.as_ref().is_some_and(|by| by.value == JawForceBy::Gauge);
        let worth = match gauged {
            true => {
                Worked::row(Ratio::new(1.0), "gauged: counts in full", Source::fixed("a gauge", Mark::CommonPractice))
            }
            false => constant("jaw-force-makers-share")?,
        };
        return Ok(Some(AtHand { force: force.into(), worth, by_diameter: false }));
    }
    let scroll = held.hold.held_in.value != HeldIn::FourJaw;
    let diameter = chuck.diameter.as_ref().filter(|_| scroll);
    let band = diameter.and_then(|diameter| law::force_by_diameter(diameter.value.number()));
    let worth = constant("jaw-force-makers-share")?;
    Ok(band.map(|force| AtHand { force, worth, by_diameter: true }))
}

/// The chuck that is named: the four-jaw, else where there are jaws, or nobody says, the scroll chuck.
pub(in crate::operations::turning) fn chuck_of<'a>(lathe: &'a Cutting, hold: Option<&Hold>) -> Option<&'a Chuck> {
    match hold.map(|hold| hold.held_in.value) {
        None | Some(HeldIn::Jaws | HeldIn::SoftJaws) => lathe.chuck.as_ref(),
        Some(HeldIn::FourJaw) => lathe.four_jaw.as_ref(),
        Some(_) => None,
    }
}

/// The chuck's highest speed; left out, by what its body stands, where its diameter is known. Jaws that move each on its own stand
/// out as far as they are set: of those only what was typed is known.
pub(in crate::operations::turning) fn chuck_most(
    chuck: &Chuck,
    held_in: HeldIn,
) -> Result<Option<(Worked<RevPerMin>, bool)>, Refusal> {
    if let Some(most) = &chuck.most {
        return Ok(Some((most.into(), false)));
    }
    let Some(diameter) = chuck.diameter.as_ref().filter(|_| held_in != HeldIn::FourJaw) else { return Ok(None) };
    let by_body = law::chuck_speed_most(&constant("chuck-body-speed")?, &Worked::<Mm>::from(diameter))?;
    Ok(Some((by_body, true)))
}

/// What the speed leaves to jaws that close.
fn speed_left(held: &Held) -> Result<Option<Worked<Ratio>>, Refusal> {
    let of = |chuck| chuck_most(chuck, held.hold.held_in.value);
    let Some((most, _)) = held.chuck.map(of).transpose()?.flatten() else { return Ok(None) };
    let high = worst("plate-speed-high-side", true)?;
    law::jaw_force_left(&constant("grip-loss-most")?, &high, held.cut.step, &most).map(Some)
}

/// What jaws that close lose at the speed of the cut, whatever they are nipped with, where that is fast enough to be looked at whole: they
/// are thrown out by their own weight, and a test at rest knows nothing of it.
pub(super) fn lost_at_speed(held: &Held) -> Result<Option<Worked<Newton>>, Refusal> {
    if held.hold.grips_inside() {
        return Ok(None);
    }
    let (Some(at_hand), Some(left)) = (at_hand(held)?, speed_left(held)?) else { return Ok(None) };
    if !is_fast(&left)? {
        return Ok(None);
    }
    let most = at_hand.force.worst(Side::High, held.guard);
    Ok(Some(most.scaled(1.0 - left.number(), "what the speed takes of it")))
}

/// What the highest speed leaves.
fn least_left() -> Result<Worked<Ratio>, Refusal> {
    let loss: Worked<Ratio> = constant("grip-loss-most")?;
    Ok(loss.scaled(-1.0, "the chuck's highest speed is not known").shifted(1.0, "what it leaves"))
}

/// Whether the chuck turns so fast that its loss is looked at whole. A speed is left to a chuck only: without one nothing is at hand.
fn is_fast(left: &Worked<Ratio>) -> Result<bool, Refusal> {
    let from = row("grip-loss-whole-from")?.value;
    let loss = row("grip-loss-most")?.value;
    Ok(1.0 - left.number() > loss * from * from)
}
