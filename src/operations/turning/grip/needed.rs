//! The jaw force that the cut asks: by its torque, and by the moment that tilts the work.

use super::super::TORQUE_TO_STAND;
use super::super::Way;
use super::super::{
    GRIP_BY_MOMENT, GRIP_BY_MOMENT_WORST, GRIP_BY_TORQUE, GRIP_BY_TORQUE_WORST, GRIP_NEEDED, GRIP_NEEDED_WORST,
};
use super::jaw_force::{self, Holding, JawForce};
use super::kept::Lever;
use super::{Held, at_end, looked_at};
use crate::handbook::constants::{constant, worst};
use crate::handbook::cutting::grip as law;
use crate::operations::kit::mass_from_sizes;
use crate::operations::kit::stood;
use crate::operations::{Answer, HeldIn, Stop};
use crate::proof::{Check, Fact, Keep, Mark, Refusal, Side, Source, Verdict, Words, Worked};
use crate::quantity::{Decimals, Kilogram, Mm, Newton, Quantity, Ratio, Rounds, Unit, figure};

/// What is asked at the factors used, and at the worst end.
pub(super) struct Asked {
    pub used: Worked<Newton>,
    pub worst: Worked<Newton>,
}

/// Both, where they can be worked.
#[derive(Default)]
pub(super) struct Needed {
    pub torque: Option<Asked>,
    pub moment: Option<Asked>,
}

impl Needed {
    /// Whether a force of the jaws carries what the cut asks at its worst end.
    pub(super) fn carried_by(&self, force: &JawForce) -> Option<bool> {
        let holding = force.holding.as_ref()?;
        let least =
            holding.whole.as_ref().map_or(holding.low.number(), |whole| whole.number().min(holding.low.number()));
        let worst = [self.torque.as_ref()?, self.moment.as_ref()?];
        Some(worst.iter().all(|asked| asked.worst.high() <= least))
    }
}

/// The forces of one way to look at the cut, and the safeties that go with it.
struct Load {
    force: Worked<Newton>,
    /// Along the axis, and towards it, over the cutting force.
    axial: Worked<Ratio>,
    radial: Worked<Ratio>,
    safety: Worked<Ratio>,
    safety_of_moment: Worked<Ratio>,
}

/// How the part sits: what a remedy may change.
struct Seat<'a> {
    stop: Stop,
    grip: Worked<Mm>,
    lever: &'a Lever,
}

/// Works and records both; without them the answer says later which keys are missing.
pub(super) fn work(held: &Held, answer: &mut Answer) -> Result<Needed, Refusal> {
    // What is proven is proven at the worst end: the factors used are for who reads them.
    let (used, worst) = (held.told.then(|| at_factors_used(held)).transpose()?, at_worst(held)?);
    let both = |of: &dyn Fn(&Load) -> Result<Worked<Newton>, Refusal>| {
        let worst = of(&worst)?;
        let used = used.as_ref().map(of).transpose()?;
        Ok(Asked { used: used.unwrap_or_else(|| worst.clone()), worst })
    };
    let mut needed = Needed::default();
    if let Some(gripped) = held.gripped() {
        needed.torque = Some(both(&|load| by_torque(held, load, held.hold.stop(), &gripped))?);
        let seat = held.touched()?.map(|grip| Seat { stop: held.hold.stop(), grip, lever: &held.kept.lever });
        let mass = mass(held, answer)?;
        if let (Some(seat), Some(mass), Some(_)) = (seat, mass, &held.overhang) {
            needed.moment = Some(both(&|load| by_moment(held, load, &seat, &gripped, &mass))?);
        }
    }
    if held.told {
        record(&needed, answer);
    }
    Ok(needed)
}

fn record(needed: &Needed, answer: &mut Answer) {
    let mut greatest: Option<(&Asked, &'static str)> = None;
    for (asked, name, of_worst, by) in [
        (&needed.torque, &GRIP_BY_TORQUE, &GRIP_BY_TORQUE_WORST, "by-torque"),
        (&needed.moment, &GRIP_BY_MOMENT, &GRIP_BY_MOMENT_WORST, "by-moment"),
    ] {
        let Some(asked) = asked else { continue };
        answer.record(name, asked.used.clone());
        answer.record(of_worst, asked.worst.clone());
        if greatest.is_none_or(|(other, _)| asked.used.number() > other.used.number()) {
            greatest = Some((asked, by));
        }
    }
    let Some((asked, by)) = greatest else { return };
    answer.record(&GRIP_NEEDED, asked.used.clone());
    let all = [&needed.torque, &needed.moment].into_iter().flatten().map(|asked| &asked.worst);
    if let Some(worst) = all.max_by(|a, b| a.number().total_cmp(&b.number())) {
        answer.record(&GRIP_NEEDED_WORST, worst.clone());
    }
    answer.choose("grip_needed_by", Fact::named(by), Words::of("grip-needed-by"));
}

/// The factors that the sheet prints: the middle of the force, the full safeties.
fn at_factors_used(held: &Held) -> Result<Load, Refusal> {
    let reason = "at the factors used; the worst end is judged on its own";
    let (axial, radial) = shares(held, held.thrust()?.nominal(reason))?;
    Ok(Load {
        force: held.cut.force.nominal(reason),
        axial,
        radial,
        safety: constant("grip-safety")?,
        safety_of_moment: constant("grip-safety-moment")?,
    })
}

/// The worst end of the force, with the safety that must be left then.
fn at_worst(held: &Held) -> Result<Load, Refusal> {
    let (axial, radial) = shares(held, at_end(&held.thrust()?, Side::High))?;
    Ok(Load {
        force: held.worst_force(),
        axial,
        radial,
        safety: constant("grip-safety-least")?,
        safety_of_moment: constant("grip-safety-moment-least")?,
    })
}

/// What acts along the axis and what acts towards it: in facing the tool is fed towards the axis and pushed out along it, in
/// turning and boring the other way round. Of a blade both are taken as the force of its feed.
fn shares(held: &Held, thrust: Worked<Ratio>) -> Result<(Worked<Ratio>, Worked<Ratio>), Refusal> {
    let feed = constant("feed-force-share")?;
    Ok(match held.way {
        Way::Across => (thrust, feed),
        Way::Along(_) | Way::Inside(_) => (feed, thrust),
        Way::Off => (feed.clone(), feed),
    })
}

/// The friction of the jaws at its low end.
fn friction(held: &Held) -> Result<Worked<Ratio>, Refusal> {
    worst(if held.is_soft() { "jaw-friction-soft-jaws" } else { "jaw-friction-smooth" }, false)
}

/// Torque, and the axial force where nothing stops it.
fn by_torque(held: &Held, load: &Load, stop: Stop, gripped: &Worked<Mm>) -> Result<Worked<Newton>, Refusal> {
    let stopped =
        || Worked::row(Ratio::new(0.0), "a stop takes the axial force: 0", Source::fixed("statics", Mark::Derived));
    let thrust = if stop == Stop::None { load.axial.clone() } else { stopped() };
    let (blows, friction) = (held.blows()?, friction(held)?);
    law::grip_by_torque(&load.safety, &blows, &load.force, &held.cut_at, gripped, &thrust, &friction)
}

/// The moment that tilts it.
fn by_moment(
    held: &Held,
    load: &Load,
    seat: &Seat,
    gripped: &Worked<Mm>,
    mass: &Worked<Kilogram>,
) -> Result<Worked<Newton>, Refusal> {
    let step = seat.stop == Stop::Step;
    let four = held.hold.held_in.value == HeldIn::FourJaw;
    let none = Worked::assumed(Mm::new(0.0), "no overhang");
    let corner = constant("jaw-corner")?;
    let lever = seat.lever;
    let out = held.overhang.as_ref().unwrap_or(&none);
    let arm = lever.arm.or(|| law::arm_of_the_cut(out, &corner, &seat.grip))?;
    let radius = lever.radius.or(|| match step {
        true => {
            let beyond = (held.cut_at.number() - gripped.number()).max(0.0) / 2.0;
            let says = format!("axial force beyond the step of the jaws: {} mm", figure(beyond));
            let of = [held.outside.origin(), gripped.origin()];
            Ok(Worked::method_of(Mm::new(beyond), vec![says], Source::fixed("geometry", Mark::Derived), of))
        }
        false => crate::handbook::cutting::ring_and_plate::radius(&held.cut_at),
    })?;
    let moment = law::tilting_moment(&held.blows()?, &load.force, &arm, &load.radial, &load.axial, &radius, mass)?;
    let pressure = constant(if four { "grip-tilt-four-jaws" } else { "grip-tilt-three-jaws" })?;
    let friction_share = constant(if step && !four { "grip-friction-tilt-step" } else { "grip-friction-tilt" })?;
    let grips = lever.grips.or(|| law::length_that_grips(&seat.grip, &corner))?;
    law::grip_by_moment(&load.safety_of_moment, &moment, &pressure, &grips, &friction_share, &friction(held)?, gripped)
}

/// As typed, else from the sizes named.
fn mass(held: &Held, answer: &mut Answer) -> Result<Option<Worked<Kilogram>>, Refusal> {
    if let Some(mass) = &held.mass {
        return Ok(Some(mass.clone()));
    }
    let of_sizes = || mass_from_sizes(held.material, [&held.thickest, &held.inside, &held.length]);
    let Some(mass) = held.kept.mass.or(of_sizes)? else { return Ok(None) };
    if held.told {
        let said = Fact::figure(mass.number(), Unit::Kg).to(Decimals::Exactly(3));
        answer.assume_words(Words::of("mass").with("value", said));
    }
    Ok(Some(mass))
}

/// Judges torque and moment against the force there.
pub(super) fn judge(held: &Held, force: &JawForce, needed: &Needed, answer: &mut Answer) -> Result<(), Refusal> {
    if held.hold.tested.is_some() {
        looked_at::judge_tested(held, answer)?;
        tested_at_rest(held, answer)?;
    } else {
        let keys = ["hold.diameter"];
        if let Some((asked, holding)) = open(held, "grip", &needed.torque, force, &keys, answer) {
            let check = judged("grip", asked, holding, held.guard).about(GRIP_BY_TORQUE.key);
            give(held, check, |_| torque_remedies(held, holding, asked), answer)?;
        }
    }
    let keys = ["hold.diameter", "hold.grip", "hold.overhang"];
    if let Some((asked, holding)) = open(held, "grip-moment", &needed.moment, force, &keys, answer) {
        let check = judged("grip-moment", asked, holding, held.guard).about(GRIP_BY_MOMENT.key);
        give(held, check, |answer| moment_remedies(held, holding, asked, answer), answer)?;
    }
    Ok(())
}

/// The torque that jaws lose at the speed of the cut, N·m; none where it is too slow for that.
fn torque_lost(held: &Held) -> Result<Option<f64>, Refusal> {
    let Some((lost, gripped)) = jaw_force::lost_at_speed(held)?.zip(held.gripped()) else { return Ok(None) };
    let friction = worst::<Ratio>(if held.is_soft() { "jaw-friction-soft-jaws" } else { "jaw-friction-smooth" }, true)?;
    // N times mm, in N·m.
    Ok(Some(friction.number() * lost.number() * gripped.number() / 2.0 / 1000.0))
}

/// What a test at rest is worth at the speed of the cut: the torque that it stood, less what the jaws lose there.
fn tested_at_rest(held: &Held, answer: &mut Answer) -> Result<(), Refusal> {
    let (Some(torque), Some(at)) = (torque_lost(held)?, &held.hold.tested) else { return Ok(()) };
    let left = stood(at).shifted(-torque, "less what the jaws lose at this speed");
    let asked = looked_at::asked(held)?;
    let check = Check::judge("grip", &left, Keep::AtLeast, &asked, held.guard).not_worse_than(Verdict::Doubtful);
    let is_proven = check.is_proven();
    let check = answer.check(check.about(TORQUE_TO_STAND.key).at(at.place));
    if !is_proven {
        check.remedy(Words::of("lower-step-holds"));
    }
    Ok(())
}

/// What is asked and what is there; where one is not known the check says which keys are missing.
fn open<'a>(
    held: &Held,
    id: &'static str,
    asked: &'a Option<Asked>,
    force: &'a JawForce,
    keys: &[&'static str],
    answer: &mut Answer,
) -> Option<(&'a Asked, &'a Holding)> {
    let mut missing = held.lacking(keys);
    if !held.in_shop {
        missing.push("hold.tested");
    } else if force.holding.is_none() {
        missing.extend(&force.lacking);
        if id == "grip" {
            missing.push("hold.tested");
        }
    } else if asked.is_none() && missing.is_empty() {
        missing.push("mass");
    }
    match (asked, &force.holding) {
        (Some(asked), Some(holding)) if missing.is_empty() => Some((asked, holding)),
        _ => {
            answer.not_checked(&[id], &missing);
            None
        }
    }
}

/// The worst end against what can be counted on, the printed figure against the middle of what may be there.
fn judged(id: &'static str, asked: &Asked, holding: &Holding, guard: f64) -> Check {
    let (worst, middle) = ((&asked.worst, &holding.low), (&asked.used, &holding.middle));
    let check = Check::judge_two(id, worst, Keep::AtMost, middle, guard);
    match &holding.whole {
        // The loss held whole may leave nothing to a light nip or a fast chuck: that is not proven.
        Some(whole) => {
            let whole = Check::judge(id, &asked.worst, Keep::AtMost, whole, guard);
            match (whole.is_proven(), check.is_proven()) {
                (true, _) => check,
                // The limit that decides is the one that is shown.
                (false, true) => whole.not_worse_than(Verdict::Doubtful),
                (false, false) => check.not_better_than(Verdict::Doubtful),
            }
        }
        None => check,
    }
}

/// Puts a check down; where it is not proven and somebody reads it, with what would help.
fn give(
    held: &Held,
    check: Check,
    remedies: impl FnOnce(&mut Answer) -> Result<Vec<Words>, Refusal>,
    answer: &mut Answer,
) -> Result<(), Refusal> {
    // Of two alike the worse stays, and is helped.
    let proven = |check: &Check| check.is_proven();
    let helped = held.told && !(proven(&check) && answer.checks.iter().filter(|old| old.id == check.id).all(proven));
    let remedies = if helped { remedies(answer)? } else { Vec::new() };
    let check = answer.check(check);
    if !check.is_proven() {
        remedies.into_iter().for_each(|words| {
            check.remedy(words);
        });
    }
    Ok(())
}

fn newtons(force: f64, rounds: Rounds) -> Fact {
    Fact::figure(force, Unit::N).rounded(rounds)
}

/// By how much the cutting force must go down, where a lighter cut is what lacks; where only what the speed may take lacks, a lower
/// step.
fn lighter(held: &Held, asked: &Asked, holding: &Holding) -> Words {
    let share = holding.low.number() / asked.worst.high();
    if share >= 1.0 {
        return Words::of("lower-step-holds");
    }
    let words = Words::of("lighter-cut").with("force", newtons(held.cut.force.number() * share, Rounds::Down));
    words.with("share", format!("{:.0} %", (share * 100.0).floor()))
}

fn torque_remedies(held: &Held, holding: &Holding, asked: &Asked) -> Result<Vec<Words>, Refusal> {
    let Some(gripped) = held.gripped() else { return Ok(Vec::new()) };
    let mut all = Vec::new();
    if held.hold.stop() == Stop::None {
        let needed = by_torque(held, &at_worst(held)?, Stop::Step, &gripped)?;
        all.extend(seat_words(&needed, holding));
    }
    all.push(lighter(held, asked, holding));
    let torque = looked_at::asked(held)?.high() + torque_lost(held)?.unwrap_or(0.0);
    let torque = Fact::figure(torque, Unit::Nm).to(Decimals::Exactly(1)).rounded(Rounds::Up);
    all.push(Words::of("test-it").with("torque", torque));
    Ok(all)
}

/// A step of the jaws, where with it there is enough.
fn seat_words(needed: &Worked<Newton>, holding: &Holding) -> Option<Words> {
    let there = newtons(holding.low.number(), Rounds::Down);
    let words = Words::of("seat-against-stop").with("needed", newtons(needed.high(), Rounds::Up)).with("there", there);
    (needed.high() <= holding.low.number()).then_some(words)
}

fn moment_remedies(held: &Held, holding: &Holding, asked: &Asked, answer: &mut Answer) -> Result<Vec<Words>, Refusal> {
    let (Some(gripped), Some(grip), Some(mass)) = (held.gripped(), held.touched()?, mass(held, answer)?) else {
        return Ok(Vec::new());
    };
    let worst = at_worst(held)?;
    let mut all = Vec::new();
    let seat = Seat { stop: held.hold.stop(), grip, lever: &held.kept.lever };
    if seat.stop != Stop::Step {
        let seated = Seat { stop: Stop::Step, grip: seat.grip.clone(), lever: &Lever::default() };
        all.extend(seat_words(&by_moment(held, &worst, &seated, &gripped, &mass)?, holding));
    }
    let most = longest(held);
    let mut longer = None;
    for more in 1..=MOST_HALF_MILLIMETRES {
        let grip = seat.grip.shifted(f64::from(more) / 2.0, "gripped longer");
        if most.is_some_and(|most| grip.number() > most) {
            break;
        }
        let seat = Seat { stop: seat.stop, grip: grip.clone(), lever: &Lever::default() };
        if by_moment(held, &worst, &seat, &gripped, &mass)?.high() <= holding.low.number() {
            longer = Some(grip);
            break;
        }
    }
    match longer {
        Some(grip) => all.push(
            Words::of("longer-grip").with("grip", Fact::mm(grip.number()).to(Decimals::Exactly(1)).rounded(Rounds::Up)),
        ),
        None if most.is_some() => all.push(Words::of("no-grip-holds")),
        None => {}
    }
    all.push(lighter(held, asked, holding));
    Ok(all)
}

/// The longest grip that the part leaves beside what stands out, mm; none where its length over both ends is not known.
fn longest(held: &Held) -> Option<f64> {
    let (whole, out) = (held.whole.as_ref()?, held.overhang.as_ref()?);
    Some(whole.number() - out.number())
}

/// A grip longer than this by half millimetres is another hold.
const MOST_HALF_MILLIMETRES: u32 = 120;
