//! Can a housing open, and a bush shrink, by so much? A slip of the pen in either makes room that is not there.

use super::cold::{Chilled, ColdIn, cold_at_the_press, cold_of, shrinks};
use super::names::as_cold::AS_COLD;
use super::names::as_warm::AS_WARM;
use crate::handbook::Material;
use crate::handbook::constants::constant;
use crate::handbook::joints::heating;
use crate::operations::kit::degrees;
use crate::operations::{Answer, Bench};
use crate::proof::{At, Check, Keep, Origin, Refusal, Side, Verdict, Words, Worked};
use crate::quantity::{Celsius, Mm, Quantity, Ratio, Rounds, Shift};

/// Of a part whose metal nobody named: the metal of engine parts that warmth and cold change least, and the one that they change
/// most. What the first can is proven, what not even the second can fails.
const LEAST_AND_MOST: [&str; 2] = ["grey-iron-soft", "al-wrought"];

/// The metal, else the two between which it lies.
fn least_and_most(metal: Option<&Material>) -> Result<[Material; 2], Refusal> {
    let one = |name: &str| match metal {
        Some(metal) => Ok(metal.clone()),
        None => name.parse().map_err(|_| Refusal::NoRow { table: "materials", wanted: name.into() }),
    };
    let [least, most] = LEAST_AND_MOST;
    Ok([one(least)?, one(most)?])
}

/// Can the housing be so warm as to open so far, and the bush that drops into it?
pub(in crate::operations) fn can_be_so_warm(
    bench: &Bench,
    opened: Option<&At<Mm>>,
    (housing, bush, d): (Option<&Material>, &Material, &Worked<Mm>),
    answer: &mut Answer,
) -> Result<(), Refusal> {
    const ID: &str = "can-be-so-warm";
    let Some(at) = opened else {
        answer.does_not_apply(&[ID]);
        return Ok(());
    };
    let opens = Worked::exact(Shift::new(at.value.number()), Origin::Typed(at.place));
    let none = || Worked::assumed(Mm::new(0.0), "only what was said");
    let warm = |metal: &Material| heating::housing_temperature(&opens, &none(), &none(), &metal.expansion()?, d);
    let [least, most] = least_and_most(housing)?;
    let as_least = answer.record(&AS_WARM, warm(&least)?);
    let stop = |metal| heating::stop_with(heating::stop_temperature(metal, false)?, bush);
    let (proven, stop) = (stop(&least)?, stop(&most)?);
    let ends = ((&as_least, &proven.doubtful), (&warm(&most)?, &stop.fails));
    let check = Check::judge_two(ID, ends.0, Keep::AtMost, ends.1, bench.guard()).about(AS_WARM.key);
    // What it loses on its way it must leave the oven with; of a housing whose metal nobody named that is the matter of what warms it.
    let leaves = || -> Result<bool, Refusal> {
        let lost = constant::<Ratio>("carried-loss-housing")?.worst(Side::High, bench.guard());
        let leaves = heating::before_carrying(&as_least, &lost)?;
        Ok(Check::judge(ID, &leaves, Keep::AtMost, &proven.fails, bench.guard()).is_proven())
    };
    let goes_out = !check.is_proven() || housing.is_none() || leaves()?;
    let check = if goes_out { check } else { check.not_better_than(Verdict::Doubtful) };
    answer.check(check.with("stop", degrees(stop.fails.number()).rounded(Rounds::Down)).at(at.place));
    Ok(())
}

/// Can the bush be so cold, at the press, as to lose so much? In what it lies in that is proven; in nothing at all it fails.
pub(in crate::operations) fn can_be_so_cold(
    bench: &Bench,
    chilled: Chilled,
    (bush, d): (Option<&Material>, &Worked<Mm>),
    answer: &mut Answer,
) -> Result<(), Refusal> {
    const ID: &str = "can-be-so-cold";
    let Some(at) = chilled.by else {
        answer.does_not_apply(&[ID]);
        return Ok(());
    };
    let loses = Worked::exact(Shift::new(at.value.number()), Origin::Typed(at.place));
    let start = Worked::assumed(Celsius::new(heating::REFERENCE), "sizes hold at 20 °C");
    let cold_in = chilled.cold_in.map_or(ColdIn::Freezer, |at| at.value);
    let cold = |metal: &Material| heating::temperature_to_enter(&start, &loses, &shrinks(metal, cold_in)?, d);
    let [least, most] = least_and_most(bush)?;
    let as_least = answer.record(&AS_COLD, cold(&least)?);
    let at_the_press = cold_at_the_press(bench, &cold_of(bench, None, cold_in, answer)?)?;
    let coldest: Worked<Celsius> = constant("coldest-reached")?;
    let ends = ((&as_least, &at_the_press), (&cold(&most)?, &coldest));
    let check = Check::judge_two(ID, ends.0, Keep::AtLeast, ends.1, bench.guard()).about(AS_COLD.key);
    let owned = cold_in != ColdIn::Freezer || bench.shop.is_none_or(|shop| shop.freezer().is_some());
    let check = check.not_better_than(if owned { Verdict::Proven } else { Verdict::Doubtful }).at(at.place);
    if cold_in == ColdIn::Freezer {
        answer.check(check);
        return Ok(());
    }
    // What makes it so cold was said: it is not colder at the press.
    let proven = check.is_proven();
    let check = answer.check(Check { remedy: None, ..check });
    if !proven {
        let at = degrees(at_the_press.number()).rounded(Rounds::Up);
        check.remedy(Words::of("no-colder-at-the-press").with("at", at));
    }
    Ok(())
}
