//! What metal taken here does to the end float, and the shim that it asks for.

use super::keys::{Asked, Bears, FloatWay};
use super::{FLOAT_AFTER, FLOAT_FOUND, FLOAT_FROM_FOUND, FLOAT_FROM_NEW, FLOAT_WITH_SHIM, Metal, SHIM};
use crate::handbook::constants::constant;
use crate::handbook::cutting::stock;
use crate::job::Difference;
use crate::operations::{Answer, Bench, kit};
use crate::proof::{At, Cause, Check, Fact, Keep, Mark, Origin, Refusal, Source, Verdict, Words, Worked};
use crate::quantity::{Decimals, Mm, Quantity, Ratio, Shift, Wanted, figure};
use crate::reading::Problem;
use crate::shop::{Gauge, Shop};

/// The keys of the float.
#[derive(Clone, Copy, Debug)]
pub(in crate::operations) struct Float<'a> {
    pub way: Option<&'a At<FloatWay>>,
    pub as_found: Option<&'a At<Difference>>,
    pub wanted: Option<&'a At<Wanted<Mm>>>,
    pub bears: Option<&'a At<Bears>>,
}

impl<'a> Float<'a> {
    /// The keys of the float among all.
    pub(super) fn of(asked: &Asked<'a>) -> Self {
        Self { way: asked.float, as_found: asked.as_found_float, wanted: asked.float_wanted, bears: asked.bears }
    }

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
        if let (Some(found), None) = (self.as_found, self.bears) {
            let says = "`as-found-float` needs `bears: in-groove` or `bears: across`: where did the mating part bear?";
            all.push(Problem::new(found.place, says));
        }
        if let (Some(wanted), None) = (self.wanted, self.as_found) {
            all.push(Problem::new(wanted.place, "`float-wanted` needs `as-found-float` beside it"));
        }
    }
}

/// The checks of the shim.
const SHIM_CHECKS: [&str; 3] = ["shim-possible", "float-with-shim", "shim-in-drawer"];

/// The fact that has the float that is wanted, from limit to limit.
pub(super) const FLOAT_LIMITS: &str = "float_limits";

/// Change against the parts when new and against the float as found; then the shim.
pub(super) fn work(bench: &Bench, float: &Float, metal: &Metal, answer: &mut Answer) -> Result<(), Refusal> {
    let Some(sign) = float.sign() else {
        answer.out_of_float = float.way.is_some();
        answer.does_not_apply(&["float-left"]);
        answer.does_not_apply(&SHIM_CHECKS);
        return Ok(());
    };
    let from_new = answer.record(&FLOAT_FROM_NEW, stock::float_from_new(&sign, &metal.gone)?);
    let in_groove = float.bears.is_none_or(|bears| bears.value == Bears::InGroove);
    if float.bears.is_none() {
        answer.assume_words(Words::of("rides"));
    }
    let from_found = match in_groove {
        true => stock::float_from_found_in_groove(&sign, &metal.gone, &metal.worn)?,
        false => from_new,
    };
    let from_found = answer.record(&FLOAT_FROM_FOUND, from_found);
    if float.wanted.is_none() {
        answer.does_not_apply(&SHIM_CHECKS);
    }
    let Some(found) = answer.read_difference_if(bench, "as-found-float", Gauge::Depth, float.as_found)? else {
        answer.not_checked(&["float-left"], &["as-found-float"]);
        return Ok(());
    };
    answer.record(&FLOAT_FOUND, found.becomes());
    let after = answer.record(&FLOAT_AFTER, stock::float_after(&found, &from_found)?);
    let says = vec!["the parts touch".into()];
    let none = Worked::method(Shift::new(0.0), says, Source::fixed("no float is left", Mark::Derived));
    let check = Check::judge("float-left", &after, Keep::AtLeast, &none, bench.guard()).about(FLOAT_AFTER.key);
    // No float at all binds as well; less than the arithmetic's noise is none.
    answer.check(if after.number() <= 1e-9 { check.judged_as(Verdict::Fails) } else { check });
    match float.wanted {
        Some(wanted) => shim(bench, wanted, &after, answer),
        None => Ok(()),
    }
}

/// The shim, and whether the drawer has one that lands inside the limits. Where the drawer has none near enough, the float with
/// a shim of just the size asked is the target, and that shim is to be found.
fn shim(bench: &Bench, wanted: &At<Wanted<Mm>>, after: &Worked<Shift>, answer: &mut Answer) -> Result<(), Refusal> {
    let end = |mm: Mm| Fact::mm(mm.number()).to(Decimals::Exactly(3));
    answer.fact(FLOAT_LIMITS, Fact::span(end(wanted.value.low), end(wanted.value.high)));
    let asked = answer.record(&SHIM, stock::shim_wanted(after, &wanted.into())?);
    let low = Worked::exact(Shift::new(wanted.value.low.number()), Origin::Typed(wanted.place));
    if asked.number() < 0.0 {
        let check = Check::judge("shim-possible", after, Keep::AtLeast, &low, bench.guard());
        answer.check(check.at(wanted.place));
        if after.number() < low.number() {
            return Ok(());
        }
    } else {
        answer.check(Check::of_kind("shim-possible", Verdict::Proven).at(wanted.place));
    }
    let Some(shop) = bench.shop else {
        answer.assume_words(Words::of("shims-not-checked"));
        answer.no_shop(&["shim-in-drawer"]);
        return with_shim(bench, wanted, after, &to_be_found(&asked)?, answer).map(|_| ());
    };
    // None is a shim of nought; the nearest to what is asked is taken, and judged at the worst end of the float's doubt.
    let owned = owned(shop)?;
    let off = |shim: &Worked<Mm>| (shim.number() - asked.number()).abs();
    let nearest = owned.into_iter().min_by(|a, b| off(a).total_cmp(&off(b)));
    let nearest = nearest.filter(|shim| off(shim) < asked.number().abs());
    let taken = nearest.as_ref().map_or(0.0, Worked::number);
    let rule = format!("the nearest to {} mm in the drawer is {} mm", figure(asked.number()), figure(taken));
    let shim = Worked::exact(Mm::new(taken), Origin::Picked { rule, wanted: asked.origin().clone() });
    let shares = nearest.iter().flat_map(|shim| shim.shares().to_vec());
    let shim = shares.fold(shim, |shim, (cause, half)| shim.with_doubt(cause, half));
    let shown = Fact::mm(taken).to(Decimals::AsTyped);
    match with_shim(bench, wanted, after, &shim, answer)? {
        Verdict::Fails => {
            let size = Fact::mm(asked.number());
            answer.missing.push(Words::of("shim").with("size", size.clone()));
            answer.check(Check::of_kind("shim-in-drawer", Verdict::Doubtful).with("size", size));
            answer.choose("shim_taken", Fact::mm(asked.number().max(0.0)), Words::of("shim-to-be-found"));
            return with_shim(bench, wanted, after, &to_be_found(&asked)?, answer).map(|_| ());
        }
        _ if taken > 0.0 => {
            answer.takes.extend(shop.drawers.take_shim(taken));
            answer.choose("shim_taken", shown, Words::of("shim-of-drawer"));
        }
        _ => answer.choose("shim_taken", no_shim(), Words::of("no-shim-needed")),
    }
    answer.check(Check::of_kind("shim-in-drawer", Verdict::Proven).with("size", Fact::mm(taken)));
    Ok(())
}

/// Every shim of the drawer that was measured, with what its thickness is worth.
fn owned(shop: &Shop) -> Result<Vec<Worked<Mm>>, Refusal> {
    let measured = shop.drawers.shims.iter().filter(|stock| stock.thickness.is_some());
    let all: Vec<_> = measured.map(|stock| kit::shim_thickness(shop, stock)).collect::<Result<_, _>>()?;
    Ok(all.into_iter().flatten().map(|(thickness, _)| thickness).collect())
}

/// A shim of just the size asked: the doubt of the float is not in it, but that of a shim which nobody has measured yet.
fn to_be_found(asked: &Worked<Shift>) -> Result<Worked<Mm>, Refusal> {
    let shim = asked.at_least(0.0, "no shim is thinner than none");
    let shim = shim.nominal("a shim is found or made to its size").becomes::<Mm>();
    Ok(match shim.number() > 0.0 {
        true => shim.with_doubt(Cause::Named("the shim"), constant::<Mm>("shim-marked-doubt")?.number()),
        false => shim,
    })
}

/// No shim at all.
pub(super) const fn no_shim() -> Fact {
    Fact::named("no-shim")
}

/// The float with a shim in, judged against both limits; one that would fail is given back and not listed.
fn with_shim(
    bench: &Bench,
    wanted: &At<Wanted<Mm>>,
    after: &Worked<Shift>,
    thickness: &Worked<Mm>,
    answer: &mut Answer,
) -> Result<Verdict, Refusal> {
    let left = stock::float_with_shim(after, thickness)?;
    let limits = [(Keep::AtLeast, wanted.value.low.number()), (Keep::AtMost, wanted.value.high.number())];
    let taken = if thickness.number() > 0.0 { Fact::mm(thickness.number()).to(Decimals::AsTyped) } else { no_shim() };
    let judged = limits.map(|(keep, limit)| {
        let limit = Worked::exact(Shift::new(limit), Origin::Typed(wanted.place));
        let check = Check::judge("float-with-shim", &left, keep, &limit, bench.guard()).at(wanted.place);
        check.about(FLOAT_WITH_SHIM.key).with("taken", taken.clone())
    });
    let margin = |check: &Check| check.judged.map_or(f64::INFINITY, |judged| judged.margin);
    let [low, high] = judged;
    let worse = if margin(&low) < margin(&high) { low } else { high };
    let verdict = worse.verdict().unwrap_or(Verdict::Fails);
    if verdict != Verdict::Fails {
        answer.record(&FLOAT_WITH_SHIM, left);
        answer.check(worse);
    }
    Ok(verdict)
}
