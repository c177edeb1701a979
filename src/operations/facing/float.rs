//! What metal taken here does to the end float, and the shim that it asks for.

use super::{FLOAT_AFTER, FLOAT_FROM_FOUND, FLOAT_FROM_NEW, Metal, SHIM};
use crate::handbook::cutting::stock;
use crate::job::Difference;
use crate::operations::{Answer, Bench};
use crate::proof::{At, Check, Fact, Keep, Mark, Origin, Refusal, Source, Verdict, Words, Worked};
use crate::quantity::{Decimals, Mm, Quantity, Ratio, Shift, Wanted, figure};
use crate::reading::Problem;
use crate::shop::Gauge;
use schemars::JsonSchema;
use serde::Deserialize;

/// What metal taken here does to the end float.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum FloatWay {
    /// The float grows.
    Opens,
    /// The float shrinks.
    Closes,
    /// It does not stand in the path of the float.
    None,
}

/// Where the mating part bore when the float was measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Rides {
    /// In the groove.
    InGroove,
    /// Across it, on the unworn metal beside.
    Across,
}

/// The keys of the float.
#[derive(Clone, Copy, Debug)]
pub(in crate::operations) struct Float<'a> {
    pub way: Option<&'a At<FloatWay>>,
    pub as_found: Option<&'a At<Difference>>,
    pub wanted: Option<&'a At<Wanted<Mm>>>,
    pub rides: Option<&'a At<Rides>>,
}

impl Float<'_> {
    /// +1 where the float opens, −1 where it closes.
    fn sign(&self) -> Option<Worked<Ratio>> {
        let (sign, says) = match self.way?.value {
            FloatWay::Opens => (1.0, "metal taken here opens the float: +1"),
            FloatWay::Closes => (-1.0, "metal taken here closes the float: -1"),
            FloatWay::None => return None,
        };
        Some(Worked::method(Ratio::new(sign), vec![says.into()], Source::fixed("the path of the float", Mark::Derived)))
    }

    pub(super) fn problems(&self, all: &mut Vec<Problem>) {
        let moves = self.way.is_some_and(|way| way.value != FloatWay::None);
        if let Some(found) = self.as_found
            && !moves
        {
            all.push(Problem::new(found.place, "`as-found-float` needs `float: opens` or `float: closes` beside it"));
        }
        if let (Some(found), None) = (self.as_found, self.rides) {
            let says = "`as-found-float` needs `rides: in-groove` or `rides: across`: where did the mating part bear?";
            all.push(Problem::new(found.place, says));
        }
        if let (Some(wanted), None) = (self.wanted, self.as_found) {
            all.push(Problem::new(wanted.place, "`float-wanted` needs `as-found-float` beside it"));
        }
    }
}

/// Change against the parts when new and against the float as found; then the shim.
pub(super) fn work(bench: &Bench, float: &Float, metal: &Metal, answer: &mut Answer) -> Result<(), Refusal> {
    let Some(sign) = float.sign() else { return Ok(()) };
    let from_new = answer.record(&FLOAT_FROM_NEW, stock::float_from_new(&sign, &metal.removed)?);
    let in_groove = float.rides.is_none_or(|rides| rides.value == Rides::InGroove);
    if float.rides.is_none() {
        answer.assume_words(Words::of("rides"));
    }
    let from_found = match in_groove {
        true => stock::float_from_found_in_groove(&sign, &metal.removed, &metal.worn)?,
        false => from_new,
    };
    let from_found = answer.record(&FLOAT_FROM_FOUND, from_found);
    let Some(found) = answer.read_difference_if(bench, "as-found-float", Gauge::Depth, float.as_found)? else {
        return Ok(());
    };
    let after = answer.record(&FLOAT_AFTER, stock::float_after(&found, &from_found)?);
    if after.number() <= 0.0 {
        answer.check(Check::of_kind("float-left", Verdict::Fails));
    }
    match float.wanted {
        Some(wanted) => shim(bench, wanted, &after, answer),
        None => Ok(()),
    }
}

/// The shim, and whether the drawer has one that lands inside the limits.
fn shim(bench: &Bench, wanted: &At<Wanted<Mm>>, after: &Worked<Shift>, answer: &mut Answer) -> Result<(), Refusal> {
    let shim = answer.record(&SHIM, stock::shim_wanted(after, &wanted.into())?);
    let (low, high) = (wanted.value.low.number(), wanted.value.high.number());
    if shim.number() < 0.0 && after.number() < low {
        answer.check(Check::of_kind("shim-possible", Verdict::Fails).at(wanted.place));
        return Ok(());
    }
    let Some(shop) = bench.shop else {
        answer.assume_words(Words::of("shims-not-checked"));
        return Ok(());
    };
    // None is a shim of nought; the nearest to what is asked is taken, and judged at the bad end of the float's doubt.
    let stock = shop.drawers.shims.iter().filter(|s| s.count.value > 0).map(|s| s.thickness.value.number());
    let nearest = stock.chain([0.0]).min_by(|a, b| (a - shim.number()).abs().total_cmp(&(b - shim.number()).abs()));
    let taken = nearest.unwrap_or(0.0);
    let left = stock::float_with_shim(
        after,
        &Worked::exact(
            Mm::new(taken),
            Origin::Picked {
                rule: format!("the nearest to {} mm in the drawer is {} mm", figure(shim.number()), figure(taken)),
                wanted: Box::new(shim.origin().clone()),
            },
        ),
    )?;
    let nearer_low = left.number() - low < high - left.number();
    let (keep, limit) = if nearer_low { (Keep::AtLeast, low) } else { (Keep::AtMost, high) };
    let limit = Worked::exact(Shift::new(limit), Origin::Typed(wanted.place));
    let judged = Check::judge("float-with-shim", &left, keep, &limit, bench.guard()).at(wanted.place);
    let shown = bench.say(&Fact::mm(taken).to(Decimals::AsTyped));
    if judged.verdict() == Some(Verdict::Fails) {
        let size = Fact::mm(shim.number());
        answer.missing.push(Words::of("shim").with("size", size.clone()));
        answer.check(Check::of_kind("shim-in-drawer", Verdict::Doubtful).with("size", size));
    } else if taken > 0.0 {
        answer.choose("shim_taken", shown.clone(), Words::of("shim-of-drawer"));
        answer.check(judged.with("taken", shown));
    } else {
        answer.choose("shim_taken", "none", Words::of("no-shim-needed"));
        answer.check(judged.with("taken", "none"));
    }
    Ok(())
}
