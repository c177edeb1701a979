//! Oven and freezer as the shop owns them: how far the oven may be off, how hot it gets, how cold the freezer is.

use crate::handbook::constants::constant;
use crate::operations::kit::{self, degrees};
use crate::operations::{Answer, Bench, SetUpWish};
use crate::proof::{At, Check, Keep, Refusal, Verdict, Words, Worked};
use crate::quantity::{Celsius, Mm, Quantity, Rounds, Warmth};
use crate::shop::{Machine, Oven};

/// The freezer, where the bush is chilled.
pub(in crate::operations) fn freezer(bench: &Bench, answer: &mut Answer) -> Result<Worked<Celsius>, Refusal> {
    let owned = bench.shop.and_then(|shop| shop.freezer());
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
pub(in crate::operations) fn oven_doubt(bench: &Bench, answer: &mut Answer) -> Result<Worked<Celsius>, Refusal> {
    let own = kit::machine_for(bench, None, |machine| oven(machine)?.doubt.as_ref());
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
    setting: &Worked<Celsius>,
    chilled: bool,
    answer: &mut Answer,
) {
    let Some(shop) = bench.shop else {
        answer.no_shop(&["oven-reaches"]);
        return;
    };
    let machine = || kit::machine_for(bench, None, |machine| oven(machine)?.most.clone());
    let check = match shop.oven().or_else(machine) {
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
    answer.check(check.with("setting", degrees(setting.number())));
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
