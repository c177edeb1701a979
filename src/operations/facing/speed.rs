//! The spindle step, with every cap before it is rounded, and the feed step.

use super::cuts::Cuts;
use super::tool::Edge;
use super::{
    BLOWS, FEED, FINISH, FINISH_EXPECTED, Ground, SPEED_INSIDE, SPEED_MEAN, SPEED_OUTSIDE, SPEED_SHARE, SPEED_WANTED,
    SPINDLE_SPEED,
};
use crate::handbook::constants::{constant, worst};
use crate::handbook::cutting::speeds::{self, Work};
use crate::handbook::materials::groups::Kind;
use crate::handbook::{
    ToolMaterial,
    cutting::{finish, stock, times, work_holding as holding},
};
use crate::operations::spindle::{speed_habit, step_at_or_below};
use crate::operations::{Answer, Bench, HeldIn};
use crate::proof::{Check, Keep, Mark, Origin, Refusal, Source, Verdict, Words, Worked};
use crate::quantity::{Kilogram, MPerMin, Mm, MmPerRev, Quantity, Ratio, RevPerMin, Roughness, Unit, figure, shown};
use crate::shop::Cutting;

/// The spindle step and what it gives.
pub(in crate::operations) struct Speed {
    pub step: Worked<RevPerMin>,
    pub outside: Worked<MPerMin>,
}

/// The feed step.
pub(in crate::operations) struct Feed {
    pub step: Worked<MmPerRev>,
    /// Fed by hand: the figure is what to aim at.
    pub by_hand: bool,
}

/// The book's speed to begin with, and the assumption it rests on where the row is not the right one.
///
/// A deep cut takes the slower of the roughing and the finishing row; where a metal has no finishing row the roughing row is
/// slower and safe; carbide on hard steel goes by its milling row.
pub(super) fn book(
    ground: &Ground,
    tool: ToolMaterial,
    deep: bool,
) -> Result<(Worked<MPerMin>, Option<&'static str>), Refusal> {
    let start = |work| speeds::start_speed(&ground.cuts_as, work, tool);
    let (fine, rough) = (start(Work::TurnFinish), start(Work::TurnRough));
    match (fine, rough) {
        (Ok(fine), Ok(rough)) if deep && rough.number() < fine.number() => Ok((rough, Some("speed-of-deep-cut"))),
        (Ok(fine), _) => Ok((fine, None)),
        (Err(_), Ok(rough)) => Ok((rough, Some("speed-of-rough-row"))),
        (Err(none), Err(_)) if tool.is_carbide() && ground.cuts_as.kind() == Kind::HardSteel => {
            start(Work::Mill).map(|milled| (milled, Some("speed-by-analogy"))).map_err(|_| none)
        }
        (Err(none), Err(_)) => Err(none),
    }
}

pub(super) fn work(
    bench: &Bench,
    ground: &Ground,
    edge: &Edge,
    cuts: &Cuts,
    answer: &mut Answer,
) -> Result<Speed, Refusal> {
    let finest: Worked<Mm> = constant("finish-row-most-depth")?;
    let (start, rests_on) = book(ground, edge.material, cuts.deepest.number() > finest.number())?;
    if let Some(id) = rests_on {
        answer.assume_words(Words::of(id));
    }
    let factors = factors(ground, answer)?;
    let wanted = speeds::speed_by_factors(&start, &factors, &speed_habit(bench))?;
    let wanted = answer.record(&SPEED_WANTED, wanted);
    let revs = speeds::spindle_speed(&wanted, &ground.outside)?;
    let capped = capped(ground, revs, answer)?;
    let step = match ground.lathe {
        Some(lathe) => step_at_or_below(lathe, &capped, "spindle-too-fast", answer),
        None => capped,
    };
    let step = answer.record(&SPINDLE_SPEED, step);
    keeps_caps(bench, ground, &step, answer)?;
    let outside = answer.record(&SPEED_OUTSIDE, speeds::surface_speed(&step, &ground.outside)?);
    answer.record(&SPEED_INSIDE, speeds::surface_speed(&step, &ground.inside)?);
    let mean = answer.record(&SPEED_MEAN, times::mean_speed(&outside, &ground.outside, &ground.inside)?);
    let share = answer.record(&SPEED_SHARE, stock::share_of_speed(&outside, &wanted)?);
    built_up_edge(bench, ground, edge, &mean, &share, answer)?;
    interrupted(bench, ground, edge, &step, answer)?;
    Ok(Speed { step, outside })
}

/// Interrupted cut, and work that stands out further than it is thick.
fn factors(ground: &Ground, answer: &mut Answer) -> Result<Worked<Ratio>, Refusal> {
    let plain = |why: &str| Worked::method(Ratio::new(1.0), vec![why.into()], Source::fixed("no factor", Mark::Own));
    let interruption = match ground.asked.slots() {
        0 => plain("a cut without interruption: 1"),
        _ => constant("speed-factor-interrupted")?,
    };
    let hold = ground.asked.hold;
    let slender = hold.is_some_and(|hold| match (&hold.overhang, &hold.diameter) {
        (Some(overhang), Some(gripped)) => overhang.value.number() > gripped.value.number(),
        _ => false,
    });
    let stiffness = if slender { constant("speed-factor-unstable")? } else { plain("stiffly held: 1") };
    if slender {
        answer.assume_words(Words::of("unstable"));
    }
    stock::factors_of_cut(&interruption, &stiffness, &constant("speed-factor-floor")?)
}

/// The least of the speed wanted and its caps: chuck, balance, overhang; all before rounding.
fn capped(ground: &Ground, wanted: Worked<RevPerMin>, answer: &mut Answer) -> Result<Worked<RevPerMin>, Refusal> {
    let caps = [
        (chuck_cap(ground, answer)?, "capped-by-chuck"),
        (balance_cap(ground)?, "capped-by-balance"),
        (overhang_cap(ground)?, "capped-by-overhang"),
    ];
    let mut least = (wanted, None);
    for (cap, id) in caps.into_iter().filter_map(|(cap, id)| Some((cap?, id))) {
        if cap.number() < least.0.number() {
            least = (cap, Some(id));
        }
    }
    if let Some(id) = least.1 {
        let speed = shown(least.0.number(), None, Unit::RevPerMin, ground.print);
        answer.choose("speed_cap", speed, Words::of(id));
    }
    Ok(least.0)
}

fn in_chuck(ground: &Ground) -> bool {
    let held = ground.asked.hold.map(|hold| hold.held_in.value);
    matches!(held, Some(HeldIn::Jaws | HeldIn::SoftJaws | HeldIn::FourJaw))
}

/// The speed on the chuck's body, less what the plate may read low.
fn chuck_cap(ground: &Ground, answer: &mut Answer) -> Result<Option<Worked<RevPerMin>>, Refusal> {
    let Some(lathe) = ground.lathe.filter(|_| in_chuck(ground)) else { return Ok(None) };
    let most = lathe.chuck.as_ref().map(super::grip::chuck_most).transpose()?.flatten();
    let Some((most, by_body)) = most else { return Ok(None) };
    let most = if by_body { answer.assume("chuck-most", most) } else { most };
    holding::plate_speed_for(&most, &worst("plate-speed-high-side", true)?).map(Some)
}

fn chuck_mass(lathe: Option<&Cutting>) -> Worked<Kilogram> {
    let mass = lathe.and_then(|lathe| lathe.chuck.as_ref()).and_then(|chuck| chuck.mass.as_ref());
    mass.map_or_else(|| Worked::assumed(Kilogram::new(0.0), "mass of the chuck not counted"), Worked::from)
}

fn off_centre(ground: &Ground) -> Option<(Worked<Kilogram>, Worked<Mm>)> {
    let (mass, off) = (ground.asked.mass?, ground.asked.off_centre?);
    (off.value.number() > 0.0).then(|| (mass.into(), off.into()))
}

fn balance_cap(ground: &Ground) -> Result<Option<Worked<RevPerMin>>, Refusal> {
    let Some((mass, off)) = off_centre(ground) else { return Ok(None) };
    let allowed = holding::balance_allowed(&constant("balance-share")?, &mass, &chuck_mass(ground.lathe))?;
    let most = holding::balance_speed(&super::undoubted(&allowed), &mass, &off)?;
    holding::plate_speed_for(&most, &worst("plate-speed-high-side", true)?).map(Some)
}

/// Work that stands out too far turns at the lowest step, if at all.
fn overhang_cap(ground: &Ground) -> Result<Option<Worked<RevPerMin>>, Refusal> {
    let Some(overhang) = super::grip::overhang(ground)? else { return Ok(None) };
    let lowest = ground.lathe.and_then(|lathe| lathe.spindle.value.lowest());
    Ok(lowest.filter(|_| overhang.out.number() > overhang.most.number()).map(|lowest| {
        let says = vec![format!("stands out over the limit: lowest step, {} rev/min", figure(lowest.number()))];
        Worked::method(
            lowest,
            says,
            Source::fixed("work that is not sure of its hold begins at the lowest step", Mark::Own),
        )
    }))
}

/// The step taken keeps the caps at the high side of the plate, whatever was rounded.
fn keeps_caps(bench: &Bench, ground: &Ground, step: &Worked<RevPerMin>, answer: &mut Answer) -> Result<(), Refusal> {
    let high = holding::plate_speed_high(step, &worst("plate-speed-high-side", true)?)?;
    chuck_speed(bench, ground, &high, answer)?;
    if let Some((mass, off)) = off_centre(ground) {
        let force = holding::centrifugal_force(&mass, &off, &high)?;
        let allowed = holding::balance_allowed(&constant("balance-share")?, &mass, &chuck_mass(ground.lathe))?;
        answer.judge(bench, "balance", &force, Keep::AtMost, &allowed);
    }
    Ok(())
}

/// The real speed at the high side of the plate keeps the chuck's highest.
fn chuck_speed(bench: &Bench, ground: &Ground, high: &Worked<RevPerMin>, answer: &mut Answer) -> Result<(), Refusal> {
    const ID: &str = "chuck-speed";
    let chuck = ground.lathe.and_then(|lathe| lathe.chuck.as_ref());
    let most = chuck.map(super::grip::chuck_most).transpose()?.flatten();
    match (ground.asked.hold, most) {
        _ if bench.shop.is_none() => answer.no_shop(&[ID]),
        (None, _) => answer.not_checked(&[ID], &["hold"]),
        (Some(_), _) if !in_chuck(ground) => answer.does_not_apply(&[ID]),
        (Some(_), None) => answer.not_checked(&[ID], &["chuck.most"]),
        (Some(_), Some((most, _))) => {
            answer.judge(bench, ID, high, Keep::AtMost, &most);
        }
    }
    Ok(())
}

/// Carbide in steel below its speed builds up an edge.
fn built_up_edge(
    bench: &Bench,
    ground: &Ground,
    edge: &Edge,
    mean: &Worked<MPerMin>,
    share: &Worked<Ratio>,
    answer: &mut Answer,
) -> Result<(), Refusal> {
    if !edge.material.is_carbide() || ground.cuts_as.kind() != Kind::Steel {
        return Ok(());
    }
    let speed = Check::judge("built-up-edge", mean, Keep::AtLeast, &constant("built-up-edge-speed")?, bench.guard());
    answer.check(speed.not_worse_than(Verdict::Doubtful));
    let loss = Check::judge("speed-share", share, Keep::AtLeast, &constant("speed-share-warned")?, bench.guard());
    answer.check(loss.not_worse_than(Verdict::Doubtful));
    Ok(())
}

/// Blows a minute, and an edge that does not like them.
fn interrupted(
    bench: &Bench,
    ground: &Ground,
    edge: &Edge,
    step: &Worked<RevPerMin>,
    answer: &mut Answer,
) -> Result<(), Refusal> {
    let slots = ground.asked.slots();
    if slots == 0 {
        return Ok(());
    }
    let typed = ground.asked.interrupted.map(|at| at.place);
    let count = Worked::exact(Ratio::new(f64::from(slots)), typed.map_or(Origin::AsLeft, Origin::Typed));
    answer.record(&BLOWS, stock::blows(&count, step)?);
    answer.caution("interrupted-cut");
    let brittle = matches!(edge.material, ToolMaterial::Cbn | ToolMaterial::Ceramic);
    let verdict = if brittle { Verdict::Doubtful } else { Verdict::Proven };
    answer.check(Check::of_kind("edge-stands-blows", verdict).with("edge", edge.material.text()));
    Ok(())
}

/// Feed for the finish wanted, not over what the nose stands, as a feed step of the machine.
pub(super) fn feed(bench: &Bench, ground: &Ground, edge: &Edge, answer: &mut Answer) -> Result<Feed, Refusal> {
    let limit: Worked<Roughness> = match ground.asked.finish {
        Some(at) => Worked::exact(at.value.high, Origin::Typed(at.place)),
        None => answer.assume("finish", constant("finish-unknown")?),
    };
    let limit = answer.record(&FINISH, limit);
    let real = finish::real_over_ideal(&ground.cuts_as, edge.material)?;
    let by_finish = finish::feed_for_ra(&limit, &edge.nose, &super::undoubted(&real))?;
    let by_nose = finish::feed_most(&constant("most-feed-over-nose")?, &edge.nose)?;
    let wanted = if by_nose.number() < by_finish.number() { by_nose } else { by_finish };
    let steps = ground.lathe.and_then(|lathe| Some((lathe, lathe.feeds_across.as_ref()?)));
    let (step, by_hand) = match steps {
        Some((lathe, steps)) => (feed_step(lathe, &steps.value, &wanted, answer), false),
        None => {
            answer.assume_words(Words::of("hand-fed"));
            (wanted, true)
        }
    };
    let step = answer.record(&FEED, step);
    let expected = finish::roughness_ra(&step, &edge.nose, &super::undoubted(&real))?;
    let expected = match real.band() {
        Some((low, high)) => {
            let (number, factor) = (expected.number(), real.number());
            expected.with_band(number * low / factor, number * high / factor)
        }
        None => expected,
    };
    let expected = answer.record(&FINISH_EXPECTED, expected);
    answer.judge(bench, "finish", &expected, Keep::AtMost, &limit).about = Some(FINISH_EXPECTED.key);
    Ok(Feed { step, by_hand })
}

fn feed_step(
    lathe: &Cutting,
    steps: &crate::quantity::Steps<MmPerRev>,
    wanted: &Worked<MmPerRev>,
    answer: &mut Answer,
) -> Worked<MmPerRev> {
    let most = wanted.number();
    let picked = |step: MmPerRev, rule: &str| {
        let rule = format!("{}: {rule} {} mm/rev is {} mm/rev", lathe.name.value, figure(most), figure(step.number()));
        Worked::exact(step, Origin::Picked { rule, wanted: Box::new(wanted.origin().clone()) })
    };
    if let Some(step) = steps.at_or_below(most + 1e-9) {
        return picked(step, "the cross feed step at or below");
    }
    let lowest = picked(steps.lowest().unwrap_or(wanted.value()), "no cross feed step is as low as");
    let check = Check::judge("feed-step", &lowest, Keep::AtMost, wanted, 2.0).about(FEED.key);
    answer.check(check.judged_as(Verdict::Doubtful));
    lowest
}
