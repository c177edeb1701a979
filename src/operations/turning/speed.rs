//! The spindle step, with every cap before it is rounded.

use super::edge::Edge;
use super::{
    BLOWS, Piece, SPEED_INSIDE, SPEED_LAST, SPEED_MEAN, SPEED_OUTSIDE, SPEED_SHARE, SPEED_WANTED, SPINDLE_SPEED, Way,
};
use crate::handbook::constants::{constant, row, worst};
use crate::handbook::cutting::cutting_force::both_factors;
use crate::handbook::cutting::speeds::{self, Work};
use crate::handbook::materials::groups::Kind;
use crate::handbook::{
    ToolMaterial,
    cutting::{jaw_force, stock, times, work_holding as holding},
};
use crate::operations::kit::mass_from_sizes;
use crate::operations::spindle::{a_little_over, speed_habit, step_up_to};
use crate::operations::{Answer, Bench, HeldIn};
use crate::proof::{Check, Keep, Mark, Origin, Refusal, Side, Source, Verdict, Words, Worked};
use crate::quantity::{Kilogram, MPerMin, Mm, Quantity, Ratio, RevPerMin, Rounds, Unit, figure, shown};
use crate::shop::Cutting;

/// The spindle step and what it gives.
pub(in crate::operations) struct Speed {
    pub step: Worked<RevPerMin>,
    pub outside: Worked<MPerMin>,
    /// Mean over the contact; along an outside or a bore that of the last cut.
    pub mean: Worked<MPerMin>,
    /// Real speed over the wish.
    pub share: Worked<Ratio>,
}

/// The book's speed to begin with.
pub(super) struct Start {
    pub speed: Worked<MPerMin>,
    /// The top of the row that it was taken from.
    pub top: Worked<MPerMin>,
    /// The assumption that it rests on, where the row is not the right one.
    pub rests_on: Option<&'static str>,
}

/// The book's speed to begin with.
///
/// A deep cut takes the slower of the roughing and the finishing row; where a metal has no finishing row the roughing row is
/// slower and safe; carbide on hard steel goes by its milling row.
pub(super) fn book(piece: &Piece, tool: ToolMaterial, deep: bool) -> Result<Start, Refusal> {
    let start = |work| speeds::start_speed(&piece.cuts_as, work, tool);
    let from =
        |work, speed, rests_on| Ok(Start { speed, top: speeds::start_top(&piece.cuts_as, work, tool)?, rests_on });
    match (start(Work::TurnFinish), start(Work::TurnRough)) {
        (Ok(fine), Ok(rough)) if deep && rough.number() < fine.number() => {
            from(Work::TurnRough, rough, Some("speed-of-deep-cut"))
        }
        (Ok(fine), _) => from(Work::TurnFinish, fine, None),
        (Err(_), Ok(rough)) => from(Work::TurnRough, rough, Some("speed-of-rough-row")),
        (Err(none), Err(_)) if tool.is_carbide() && piece.cuts_as.kind() == Kind::HardSteel => {
            let milled = start(Work::Mill).map_err(|_| none)?;
            from(Work::Mill, milled, Some("speed-by-analogy"))
        }
        (Err(none), Err(_)) => Err(none),
    }
}

pub(super) fn work(
    bench: &Bench,
    piece: &Piece,
    edge: &Edge,
    deepest: f64,
    answer: &mut Answer,
) -> Result<Speed, Refusal> {
    let finest: Worked<Mm> = constant("finish-row-most-depth")?;
    let start = book(piece, edge.material, deepest > finest.number())?;
    if let Some(id) = start.rests_on {
        answer.assume_words(Words::of(id));
    }
    let factors = factors(piece, answer)?;
    let wanted = speeds::speed_by_factors(&start.speed, &factors, &speed_habit(bench))?;
    let wanted = answer.record(&SPEED_WANTED, wanted);
    let revs = speeds::spindle_speed(&wanted, &piece.cut_at)?;
    let no_habit = Worked::assumed(Ratio::new(1.0), "the book's row, without the shop's habit");
    let top = speeds::spindle_speed(&speeds::speed_by_factors(&start.top, &factors, &no_habit)?, &piece.cut_at)?;
    let step = spindle_step(bench, piece, &revs, &top, answer)?;
    let step = answer.record(&SPINDLE_SPEED, step);
    keeps_caps(bench, piece, &step, answer)?;
    balance(bench, piece, &step, answer)?;
    let outside = answer.record(&SPEED_OUTSIDE, speeds::surface_speed(&step, &piece.cut_at)?);
    let mean = match piece.goes_across() {
        true => {
            answer.record(&SPEED_INSIDE, speeds::surface_speed(&step, &piece.inside)?);
            answer.record(&SPEED_MEAN, times::mean_speed(&outside, &piece.outside, &piece.inside)?)
        }
        false => speeds::surface_speed(&step, &piece.last_cut_at)?,
    };
    if !piece.goes_across() {
        answer.record(&SPEED_LAST, mean.clone());
    }
    let wish = wanted.nominal("the speed to begin with; the band is that of other books");
    let share =
        answer.record(&SPEED_SHARE, stock::share_of_speed(if piece.goes_across() { &outside } else { &mean }, &wish)?);
    let speed = Speed { step, outside, mean, share };
    fast_enough(bench, piece, edge, &speed, answer)?;
    interrupted(piece, &speed.step, answer)?;
    Ok(speed)
}

/// The step of the machine: the highest not over the wish, or a little over it inside the book's row; never over a cap.
fn spindle_step(
    bench: &Bench,
    piece: &Piece,
    wish: &Worked<RevPerMin>,
    top: &Worked<RevPerMin>,
    answer: &mut Answer,
) -> Result<Worked<RevPerMin>, Refusal> {
    let open = a_little_over(wish, top, &constant("spindle-step-over-wish")?);
    let Some(lathe) = piece.lathe else {
        if bench.shop.is_none() {
            answer.no_shop(&["spindle-too-fast"]);
        }
        return Ok(capped(bench, piece, wish.clone(), wish.number(), answer)?.0);
    };
    let (wanted, most) = capped(bench, piece, wish.clone(), open, answer)?;
    answer.check(Check::of_kind("spindle-too-fast", Verdict::Proven).with("over", "0 %"));
    Ok(step_up_to(lathe, &wanted, most, "spindle-too-fast", answer))
}

/// Interrupted cut, work that stands out further than it is thick, and a cut in a bore or with a blade.
fn factors(piece: &Piece, answer: &mut Answer) -> Result<Worked<Ratio>, Refusal> {
    let no_factor =
        |why: &str| Worked::method(Ratio::new(1.0), vec![why.into()], Source::fixed("no factor", Mark::Own));
    let interruption = match piece.asked.slots() {
        0 => no_factor("a cut without interruption: 1"),
        _ => constant("speed-factor-interrupted")?,
    };
    let hold = piece.asked.hold;
    let slender = hold.is_some_and(|hold| {
        let gripped = hold.diameter.as_ref().map_or(piece.outside.number(), |gripped| gripped.value.number());
        super::grip::stands_out(piece).is_some_and(|out| out.number() > gripped)
    });
    let stiffness = if slender { constant("speed-factor-unstable")? } else { no_factor("stiffly held: 1") };
    if slender {
        answer.assume_words(Words::of("unstable"));
    }
    let of_the_way = match piece.way {
        Way::Inside(_) => Some("speed-factor-internal"),
        Way::Off => Some("speed-factor-parting"),
        Way::Across | Way::Along(_) => None,
    };
    let stiffness = match of_the_way {
        Some(name) => both_factors(&stiffness, &constant(name)?)?,
        None => stiffness,
    };
    stock::factors_of_cut(&interruption, &stiffness, &constant("speed-factor-floor")?)
}

/// The least of the speed wanted and its caps (chuck or what else holds it, balance, overhang), and the most that a step may have: `open` is what the
/// book leaves over the wish. A cap that takes a step away is named.
fn capped(
    bench: &Bench,
    piece: &Piece,
    wanted: Worked<RevPerMin>,
    open: f64,
    answer: &mut Answer,
) -> Result<(Worked<RevPerMin>, f64), Refusal> {
    let caps = [
        chuck_cap(piece, answer)?.map(|cap| (cap, "capped-by-chuck")),
        unknown_cap(piece)?,
        balance_cap(bench, piece)?.map(|cap| (cap, "capped-by-balance")),
        overhang_cap(piece)?.map(|cap| (cap, "capped-by-overhang")),
        grip_cap(piece).map(|cap| (cap, "capped-by-grip")),
    ];
    let caps = caps.into_iter().flatten();
    let Some((cap, id)) = caps.min_by(|a, b| a.0.number().total_cmp(&b.0.number())) else {
        return Ok((wanted, open));
    };
    let steps = piece.lathe.map(|lathe| &lathe.spindle.value);
    let taken = |most: f64| steps.and_then(|steps| steps.at_or_below(most)).map_or(most, |step| step.number());
    let most = open.min(cap.number());
    if taken(most) < taken(open) {
        let speed = shown(cap.number(), None, Unit::RevPerMin, Rounds::Down, piece.print);
        answer.choose("speed_cap", speed, Words::of(id));
    }
    if cap.number() >= wanted.number() {
        return Ok((wanted, most));
    }
    // The cap is a choice, as a step is: what is set does not move with what it was worked from.
    let origin = Origin::Picked { rule: "no more than the cap".into(), wanted: cap.origin().clone() };
    Ok((Worked::exact(RevPerMin::new(cap.number()), origin), most))
}

fn in_chuck(piece: &Piece) -> bool {
    let held = piece.asked.hold.map(|hold| hold.held_in.value);
    matches!(held, Some(HeldIn::Jaws | HeldIn::SoftJaws | HeldIn::FourJaw))
}

/// Whether it turns on a mandrel: that stands in the chuck, or between centres with a dog in the plate.
fn on_a_mandrel(piece: &Piece) -> bool {
    piece.asked.hold.is_some_and(|hold| hold.held_in.value == HeldIn::Mandrel)
}

/// The highest speed of the chuck or plate that is named, and whether it is only that of its body; on a mandrel that of whatever may
/// drive it.
fn chuck_most(piece: &Piece) -> Result<Option<(Worked<RevPerMin>, bool)>, Refusal> {
    let (Some(lathe), Some(hold)) = (piece.lathe, piece.asked.hold) else { return Ok(None) };
    if on_a_plate(piece) {
        return plate_most(lathe);
    }
    let of = |chuck| super::grip::chuck_most(chuck, hold.held_in.value);
    if on_a_mandrel(piece) {
        let chuck = lathe.chuck.as_ref().map(of).transpose()?.flatten();
        let plate = plate_most(lathe)?.filter(|(_, by_body)| !by_body);
        return Ok(match (chuck, plate) {
            (Some(chuck), Some(plate)) => Some(if plate.0.number() < chuck.0.number() { plate } else { chuck }),
            (chuck, plate) => chuck.or(plate),
        });
    }
    Ok(super::grip::chuck_of(lathe, Some(hold)).map(of).transpose()?.flatten())
}

/// The speed on the chuck's body, less what the plate may read low.
fn chuck_cap(piece: &Piece, answer: &mut Answer) -> Result<Option<Worked<RevPerMin>>, Refusal> {
    let Some((most, by_body)) = chuck_most(piece)? else { return Ok(None) };
    let most =
        if by_body && (in_chuck(piece) || on_a_mandrel(piece)) { answer.assume("chuck-most", most) } else { most };
    holding::plate_speed_for(&most, &worst("plate-speed-high-side", true)?).map(Some)
}

/// In four jaws of which nobody says how fast they may turn, or bolted to such a plate, it turns at the lowest step; on a plate also
/// until somebody says how far off its centre it weighs.
fn unknown_cap(piece: &Piece) -> Result<Option<(Worked<RevPerMin>, &'static str)>, Refusal> {
    let as_held = |step| (step, "capped-by-hold");
    let nobody = || lowest_step(piece, "nobody says how fast what holds it may turn").map(as_held);
    if !on_a_plate(piece) {
        let four = piece.asked.hold.is_some_and(|hold| hold.held_in.value == HeldIn::FourJaw);
        return Ok(if four && chuck_most(piece)?.is_none() { nobody() } else { None });
    }
    let plate = piece.lathe.and_then(|lathe| lathe.faceplate.as_ref());
    Ok(match (plate.and_then(|plate| plate.most.as_ref()), piece.asked.off_centre) {
        (None, _) => nobody(),
        (Some(_), None) => {
            let unbalanced = lowest_step(piece, "nobody says how far off its centre it weighs");
            unbalanced.map(|step| (step, "capped-until-balanced"))
        }
        (Some(_), Some(_)) => None,
    })
}

fn on_a_plate(piece: &Piece) -> bool {
    let held = piece.asked.hold.map(|hold| hold.held_in.value);
    held.is_some_and(|held| held.jaws().is_none() && !held.centres_itself())
}

/// The lowest step, and why.
fn lowest_step(piece: &Piece, why: &str) -> Option<Worked<RevPerMin>> {
    let lowest = piece.lathe?.spindle.value.lowest()?;
    let says = vec![format!("{why}: lowest step, {} rev/min", figure(lowest.number()))];
    let source = Source::fixed("work that is not sure of its hold begins at the lowest step", Mark::Own);
    Some(Worked::method(lowest, says, source))
}

fn chuck_mass(piece: &Piece) -> Worked<Kilogram> {
    let chuck = piece.lathe.and_then(|lathe| super::grip::chuck_of(lathe, piece.asked.hold));
    let mass = chuck.and_then(|chuck| chuck.mass.as_ref());
    mass.map_or_else(|| Worked::assumed(Kilogram::new(0.0), "mass of the chuck not counted"), Worked::from)
}

/// A mass, and how far it lies off the spindle's axis.
type OutOfBalance = (Worked<Kilogram>, Worked<Mm>);

/// What is out of balance, and by how much: as typed, else what swings because the part was trued by something off its middle.
fn off_centre(piece: &Piece) -> Result<Option<OutOfBalance>, Refusal> {
    let off = match (piece.asked.off_centre, &piece.swings) {
        (Some(off), _) => Some(Worked::from(off)),
        (None, swings) => swings.clone(),
    };
    let Some(off) = off.filter(|off| off.number() > 0.0) else { return Ok(None) };
    Ok(piece.mass()?.map(|mass| (mass, off)))
}

fn balance_cap(bench: &Bench, piece: &Piece) -> Result<Option<Worked<RevPerMin>>, Refusal> {
    let Some((mass, off)) = off_centre(piece)? else { return Ok(None) };
    let allowed = holding::balance_allowed(&constant("balance-share")?, &mass, &chuck_mass(piece))?;
    let most = holding::balance_speed(&allowed.worst(Side::Low, bench.guard()), &mass, &off)?;
    holding::plate_speed_for(&most, &worst("plate-speed-high-side", true)?).map(Some)
}

/// Work that stands out too far turns at the lowest step, if at all.
fn overhang_cap(piece: &Piece) -> Result<Option<Worked<RevPerMin>>, Refusal> {
    let Some(overhang) = super::grip::overhang(piece)? else { return Ok(None) };
    let out = overhang.out.number() > overhang.most.number();
    Ok(lowest_step(piece, "stands out over the limit").filter(|_| out))
}

/// What the grip carries no faster.
fn grip_cap(piece: &Piece) -> Option<Worked<RevPerMin>> {
    let most = piece.eased.step?;
    let says = vec![format!("the grip carries this cut at no more than {} rev/min", figure(most))];
    Some(Worked::method(RevPerMin::new(most), says, Source::fixed("step by step down until it is carried", Mark::Own)))
}

/// The step taken keeps the caps at the high side of the plate, whatever was rounded.
fn keeps_caps(bench: &Bench, piece: &Piece, step: &Worked<RevPerMin>, answer: &mut Answer) -> Result<(), Refusal> {
    let high = holding::plate_speed_high(step, &worst("plate-speed-high-side", true)?)?;
    chuck_speed(bench, piece, &high, answer)
}

/// The real speed at the high side of the plate keeps the chuck's highest.
fn chuck_speed(bench: &Bench, piece: &Piece, high: &Worked<RevPerMin>, answer: &mut Answer) -> Result<(), Refusal> {
    const ID: &str = "chuck-speed";
    let most = chuck_most(piece)?.map(|(most, _)| most);
    match (piece.asked.hold, most) {
        _ if bench.shop.is_none() => answer.no_shop(&[ID]),
        (None, _) => answer.not_checked(&[ID], &["hold"]),
        (Some(_), _) if !in_chuck(piece) && !on_a_plate(piece) && !on_a_mandrel(piece) => answer.does_not_apply(&[ID]),
        (Some(hold), None) => {
            let key = match hold.held_in.value {
                HeldIn::FourJaw => "four-jaw.most",
                HeldIn::Jaws | HeldIn::SoftJaws | HeldIn::Mandrel => "chuck.most",
                _ => "faceplate.most",
            };
            answer.not_checked(&[ID], &[key]);
        }
        (Some(_), Some(most)) => {
            answer.judge(bench, ID, high, Keep::AtMost, &most);
        }
    }
    Ok(())
}

/// The highest speed of the faceplate; left out, what its body stands, and of a plate of which nobody knows more, the largest that
/// swings there.
fn plate_most(lathe: &Cutting) -> Result<Option<(Worked<RevPerMin>, bool)>, Refusal> {
    let plate = lathe.faceplate.as_ref();
    if let Some(most) = plate.and_then(|plate| plate.most.as_ref()) {
        return Ok(Some((most.into(), false)));
    }
    let Some(across) = plate.and_then(|plate| plate.diameter.as_ref()).or(lathe.swing.as_ref()) else {
        return Ok(None);
    };
    let by_body = jaw_force::chuck_speed_most(&constant("chuck-body-speed")?, &Worked::<Mm>::from(across))?;
    Ok(Some((by_body, true)))
}

/// The force of what is out of balance, at the high side of the plate.
fn balance(bench: &Bench, piece: &Piece, step: &Worked<RevPerMin>, answer: &mut Answer) -> Result<(), Refusal> {
    let Some((mass, off)) = off_centre(piece)? else {
        // What is bolted to a plate, and what weighs more than the round part that it is cut as, is balanced, or nobody knows: not even
        // at the lowest step.
        let unsure = piece.asked.off_centre.is_none() && (on_a_plate(piece) || weighs_more_than_round(piece)?);
        match piece.asked.hold.filter(|_| unsure) {
            Some(hold) => {
                let check = Check::of_kind("balance", Verdict::Doubtful).at(hold.held_in.place);
                answer.check(check).remedy(Words::of("balance-it"));
            }
            None => answer.does_not_apply(&["balance"]),
        }
        return Ok(());
    };
    let high = holding::plate_speed_high(step, &worst("plate-speed-high-side", true)?)?;
    let force = holding::centrifugal_force(&mass, &off, &high)?;
    let allowed = holding::balance_allowed(&constant("balance-share")?, &mass, &chuck_mass(piece))?;
    answer.judge(bench, "balance", &force, Keep::AtMost, &allowed);
    Ok(())
}

/// Whether it was weighed, and weighs so much more than a round part of its sizes that something stands out to a side.
fn weighs_more_than_round(piece: &Piece) -> Result<bool, Refusal> {
    let Some(typed) = piece.asked.mass else { return Ok(false) };
    let round = mass_from_sizes(&piece.material, [&piece.thickest, &piece.inside, &piece.length])?;
    let share = row("mass-over-round")?.value;
    Ok(round.is_some_and(|round| typed.value.number() > share * round.number()))
}

/// Advice: a step that gives enough of the wish (high-speed steel takes any less), and carbide in steel that does not build up
/// an edge over the mean of the contact.
fn fast_enough(bench: &Bench, piece: &Piece, edge: &Edge, speed: &Speed, answer: &mut Answer) -> Result<(), Refusal> {
    if bench.shop.is_none() {
        answer.no_shop(&["speed-share", "built-up-edge"]);
        return Ok(());
    }
    if edge.material.is_steel() {
        answer.check(Check::of_kind("speed-share", Verdict::Proven).about(SPEED_SHARE.key));
    } else {
        let least = constant("speed-share-warned")?;
        let check = Check::judge("speed-share", &speed.share, Keep::AtLeast, &least, bench.guard());
        answer.check(check.about(SPEED_SHARE.key).not_worse_than(Verdict::Doubtful));
    }
    if !builds_up(piece, edge) {
        answer.does_not_apply(&["built-up-edge"]);
        return Ok(());
    }
    let least = constant("built-up-edge-speed")?;
    let check = Check::judge("built-up-edge", &speed.mean, Keep::AtLeast, &least, bench.guard());
    let about = if piece.goes_across() { SPEED_MEAN.key } else { SPEED_LAST.key };
    let check = check.about(about).not_worse_than(Verdict::Doubtful);
    // A solid face comes down to the centre, through the very speeds that build up an edge.
    let solid = piece.goes_across() && piece.inside.number() <= 0.0;
    answer.check(if solid { check.not_better_than(Verdict::Doubtful) } else { check });
    Ok(())
}

/// Carbide in steel.
fn builds_up(piece: &Piece, edge: &Edge) -> bool {
    edge.material.is_carbide() && piece.cuts_as.kind() == Kind::Steel
}

/// Whether it runs so slow that an edge builds up.
pub(super) fn edge_builds_up(piece: &Piece, edge: &Edge, speed: &Speed) -> Result<bool, Refusal> {
    let least: Worked<MPerMin> = constant("built-up-edge-speed")?;
    Ok(builds_up(piece, edge) && speed.mean.number() < least.number())
}

/// Blows a minute of a cut that is interrupted.
fn interrupted(piece: &Piece, step: &Worked<RevPerMin>, answer: &mut Answer) -> Result<(), Refusal> {
    let slots = piece.asked.slots();
    if slots == 0 {
        return Ok(());
    }
    let typed = piece.asked.interrupted.map(|at| at.place);
    let count = Worked::exact(
        Ratio::new(f64::from(slots)),
        typed.map_or_else(|| Origin::Assumed("slots of the part".into()), Origin::Typed),
    );
    answer.record(&BLOWS, stock::blows(&count, step)?);
    answer.caution("interrupted-cut");
    Ok(())
}
