//! Oven and freezer as the shop owns them: how far the oven may be off, how hot it gets, how cold the freezer is.

use super::names::oven_set::HOUSING_HOTTEST;
use crate::handbook::constants::constant;
use crate::handbook::joints::heating::StopTemperature;
use crate::handbook::joints::warm_limits::{Near, Temper, of_near, of_temper};
use crate::operations::kit::{self, degrees};
use crate::operations::{Answer, Bench, SetUpWish};
use crate::proof::{At, Check, Fact, Keep, Place, Refusal, Verdict, Words, Worked};
use crate::quantity::{Celsius, Mm, Quantity, Rounds, Warmth};
use crate::shop::{Machine, Oven};

/// The freezer, where the bush is chilled.
pub(in crate::operations) fn freezer(
    bench: &Bench,
    wish: Option<&SetUpWish>,
    answer: &mut Answer,
) -> Result<Worked<Celsius>, Refusal> {
    let named = kit::machine_named(bench, wish).and_then(Machine::freezes_at);
    let owned = named.or_else(|| bench.shop.and_then(|shop| shop.freezer()));
    let freezer = match &owned {
        Some(at) => at.into(),
        None => answer.assume("freezer", constant("freezer-temperature")?),
    };
    if bench.shop.is_some() && owned.is_none() {
        answer.missing.push(Words::of("freezer"));
    }
    answer.fact("freezer_temperature", degrees(freezer.number()));
    Ok(freezer)
}

/// How far the oven's thermometer may be off: as the oven or the habits say.
pub(in crate::operations) fn oven_doubt(
    bench: &Bench,
    wish: Option<&SetUpWish>,
    answer: &mut Answer,
) -> Result<Worked<Celsius>, Refusal> {
    let own = kit::machine_for(bench, wish, oven).and_then(|oven| oven.doubt.as_ref());
    let habit = bench.shop.and_then(|shop| shop.habits.oven_doubt.as_ref());
    match own.or(habit) {
        Some(at) => Ok(Worked::<Warmth>::from(at).becomes()),
        None => Ok(answer.assume_apart("oven-doubt", constant::<Warmth>("oven-doubt")?).becomes()),
    }
}

/// Does the shop's oven reach the setting; `chilled` is false where a bush is to be chilled and the shop has no freezer: that leaves
/// the oven too cold.
pub(in crate::operations) fn oven_reaches(
    bench: &Bench,
    wish: Option<&SetUpWish>,
    setting: &Worked<Celsius>,
    chilled: bool,
    answer: &mut Answer,
) {
    let Some(shop) = bench.shop else {
        answer.no_shop(&["oven-reaches"]);
        return;
    };
    // The one that is named goes by its own plate; else the shop's habit goes before it.
    let named = kit::machine_named(bench, wish).and_then(|machine| oven(machine)?.most.clone());
    let machine = || kit::machine_for(bench, None, |machine| oven(machine)?.most.clone());
    let check = match named.or_else(|| shop.oven()).or_else(machine) {
        Some(most) => {
            let check = Check::judge("oven-reaches", setting, Keep::AtMost, &(&most).into(), bench.guard());
            check.not_worse_than(Verdict::Doubtful)
        }
        None => Check::of_kind("oven-reaches", Verdict::Doubtful),
    };
    let check = check.not_better_than(if chilled { Verdict::Proven } else { Verdict::Doubtful });
    if !check.is_proven() && chilled {
        answer.missing.push(Words::of("oven").with("setting", degrees(setting.number()).rounded(Rounds::Up)));
    }
    answer.check(check.with("setting", degrees(setting.number()).rounded(Rounds::Up)));
}

/// A thing against its two limits: the hottest that it may become.
pub(in crate::operations) fn against_stop(
    id: &'static str,
    hottest: &Worked<Celsius>,
    stop: &StopTemperature,
    bench: &Bench,
) -> Check {
    let ends = ((hottest, &stop.doubtful), (hottest, &stop.fails));
    Check::judge_two(id, ends.0, Keep::AtMost, ends.1, bench.guard()).about(HOUSING_HOTTEST.key)
}

/// What the hand is told never to go over: what is proven, unless the oven may pass that in the ordinary way.
pub(in crate::operations) fn never_over(hottest: &Worked<Celsius>, stop: &StopTemperature) -> Fact {
    let limit = if hottest.number() <= stop.doubtful.number() { &stop.doubtful } else { &stop.fails };
    degrees(limit.number()).rounded(Rounds::Down)
}

/// Does all that sits in what is made warm, or near it, bear it at its hottest?
pub(in crate::operations) fn neighbours_bear_it(
    bench: &Bench,
    near: Option<&[At<Near>]>,
    hottest: &Worked<Celsius>,
    answer: &mut Answer,
) -> Result<(), Refusal> {
    const ID: &str = "neighbours-bear-it";
    let all = near.unwrap_or_default();
    if all.is_empty() {
        answer.not_checked(&[ID], &["near"]);
        return Ok(());
    }
    if all.iter().all(|at| at.value == Near::Nothing) {
        answer.does_not_apply(&[ID]);
        return Ok(());
    }
    for at in all.iter().filter(|at| at.value != Near::Nothing) {
        let limit = of_near(at.value)?;
        let check = against_stop(ID, hottest, &limit.stop, bench).at(at.place);
        answer.check(check.with("near", named(at.value)).with("because", limit.reason));
    }
    Ok(())
}

/// Does the temper of an aluminium bear it? Of a temper that nobody knows only what every temper bears is proven.
pub(in crate::operations) fn temper_bears_it(
    bench: &Bench,
    (temper, aluminium, place): (Option<&At<Temper>>, bool, Place),
    hottest: &Worked<Celsius>,
    answer: &mut Answer,
) -> Result<(), Refusal> {
    const ID: &str = "temper-bears-it";
    if !aluminium {
        answer.does_not_apply(&[ID]);
        return Ok(());
    }
    let judged = |temper: Temper| {
        let limit = of_temper(temper)?;
        Ok::<_, Refusal>(against_stop(ID, hottest, &limit.stop, bench).with("because", limit.reason))
    };
    if let Some(at) = temper {
        answer.check(judged(at.value)?.at(at.place));
        return Ok(());
    }
    for temper in Temper::ALL {
        let check = judged(temper)?;
        if !check.is_proven() {
            answer.checks.retain(|old| old.id != ID);
            answer.not_checked(&[ID], &["temper"]);
            return Ok(());
        }
        answer.check(check.at(place));
    }
    Ok(())
}

/// Its name in the card.
const fn named(near: Near) -> Fact {
    Fact::named(match near {
        Near::Nothing => "near-nothing",
        Near::Seals => "near-seals",
        Near::Bearings => "near-bearings",
        Near::Babbitt => "near-babbitt",
        Near::Solder => "near-solder",
        Near::Magnets => "near-magnets",
        Near::Paint => "near-paint",
        Near::Adhesive => "near-adhesive",
        Near::Plastic => "near-plastic",
        Near::Fuel => "near-fuel",
        Near::Oil => "near-oil",
        Near::ShutHollow => "near-shut-hollow",
    })
}

/// Does the part go into the oven: by its greatest length; the sizes that the operation knows of it can only rule it out. An oven
/// of which nobody says how much goes in takes every part.
pub(in crate::operations) fn goes_in(bench: &Bench, wish: Option<&SetUpWish>, sizes: &[&At<Mm>], answer: &mut Answer) {
    const ID: &str = "goes-in";
    if bench.shop.is_none() {
        return answer.no_shop(&[ID]);
    }
    let Some(inside) = kit::machine_for(bench, wish, oven).and_then(|oven| oven.inside.as_ref()) else {
        return answer.does_not_apply(&[ID]);
    };
    let known = sizes.iter().copied().chain(&bench.part.longest);
    let Some(largest) = known.max_by(|a, b| a.value.number().total_cmp(&b.value.number())) else { return };
    let check = Check::judge(ID, &largest.into(), Keep::AtMost, &inside.into(), bench.guard());
    if bench.part.longest.is_none() && check.is_proven() {
        return answer.not_checked(&[ID], &["longest"]);
    }
    answer.check(check.at(largest.place));
}

fn oven(machine: &Machine) -> Option<&Oven> {
    if let Machine::Oven(oven) = machine { Some(oven) } else { None }
}
