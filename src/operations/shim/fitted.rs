//! The pack that was put in, where the log has it: it need not be the one that was chosen.

use super::bare::Bare;
use super::keys::Shim;
use super::names::{BARE, EACH, LEFT, PACK, THICKEST};
use super::pack::{Judged, PILE, Taken};
use crate::handbook::constants::constant;
use crate::handbook::measuring::stack;
use crate::operations::{Answer, Bench, OfRow};
use crate::proof::{Fact, Refusal, Words, Worked};
use crate::quantity::{Decimals, Mm, Quantity, Shift};

impl Shim {
    /// What a float that the log has says of the float without shims, where it is not sure to lie inside: that float and the pack that was in
    /// (the one foretold, where the log has none). The next pack goes by these, whatever the links foretold.
    pub(super) fn shown_by_the_float(
        &self,
        bench: &Bench,
        answer: &mut Answer,
        on: &Judged,
    ) -> Result<Option<(Bare, Worked<Mm>)>, Refusal> {
        let Some(left) = bench.left(&LEFT)? else { return Ok(None) };
        let far = left.plus_minus() * bench.guard() / 2.0;
        let (low, high) = (self.float.value.low.number(), self.float.value.high.number());
        if left.number() - far >= low && left.number() + far <= high {
            return Ok(None);
        }
        let pack = match bench.left(&PACK)? {
            Some(fitted) => fitted,
            None => self.foretold(bench, answer, on)?,
        };
        let float = stack::bare_by_pack(&left, &pack)?;
        Ok(Some((Bare { float: answer.record(&BARE, float), links: on.bare.links.clone(), found: None }, pack)))
    }

    /// The pack as it was put in, in the place of the one that was chosen: the float is what that one leaves. It is told where
    /// another would be taken now.
    pub(super) fn as_fitted(
        &self,
        bench: &Bench,
        answer: &mut Answer,
        on: &Judged,
        (planned, fitted): (Taken, Worked<Mm>),
    ) -> Result<Taken, Refusal> {
        const THIN: &str = "thin-alone";
        // As near as two measurings of one pack come to each other, whatever each is worth.
        let near = constant::<Mm>("shim-marked-doubt")?.number();
        let thickest = bench.left_beside(&THICKEST)?;
        let of_plan = planned.shims.iter().copied().fold(0.0, f64::max);
        // As thick as the one that was chosen, and of other shims where they were written down one by one.
        let of_others = thickest.as_ref().is_some_and(|thickest| (thickest.number() - of_plan).abs() > near);
        let is_planned = (fitted.number() - planned.thick.number()).abs() <= near && !of_others;
        answer.checks.retain(|check| !["float", "running"].contains(&check.id));
        self.judge_pack(bench, answer, on, &fitted, true)?;
        if is_planned {
            return Ok(Taken { thick: fitted, shims: planned.shims });
        }
        answer.checks.retain(|check| check.id != THIN);
        // Which shims those are nobody knows, but of those that were written down one by one.
        answer.takes.clear();
        let drawn = Self::drawn(bench, near)?;
        answer.takes.extend(bench.shop.iter().flat_map(|shop| shop.drawers.take_shims(&drawn)));
        match thickest {
            Some(thickest) => self.thick_enough(answer, thickest.number()),
            None => answer.not_checked(&[THIN], &["pack_thickness"]),
        }
        let named = Fact::mm(fitted.number()).to(Decimals::Exactly(3));
        // Where nobody wrote it down it is taken to be the one that was planned.
        let why = if bench.left(&PACK)?.is_some() { "put-in" } else { "as-planned-in" };
        answer.fitted("pack", named.clone(), Words::of(why));
        answer.fact("stack", named);
        Ok(Taken { shims: vec![fitted.number()], thick: fitted })
    }

    /// The shims of the drawer that were put in, by their thicknesses as written down one by one: each the nearest that is there.
    fn drawn(bench: &Bench, near: f64) -> Result<Vec<usize>, Refusal> {
        let mut drawn: Vec<usize> = Vec::new();
        let Some(stocks) = Self::stocks(bench)? else { return Ok(drawn) };
        for name in &EACH {
            let Some(shim) = bench.left_beside(name)? else { continue };
            let off = |at: usize| stocks.get(at).map_or(f64::INFINITY, |stock| stock.off(&shim));
            let is_there = |at: &usize| {
                let taken = drawn.iter().filter(|other| *other == at).count();
                off(*at) <= near && stocks.get(*at).is_some_and(|stock| stock.has_more_than(taken))
            };
            let nearest = (0..stocks.len()).filter(is_there).min_by(|a, b| off(*a).total_cmp(&off(*b)));
            drawn.extend(nearest);
        }
        Ok(drawn)
    }

    /// A pack whose shims were written down one by one.
    pub(super) fn one_by_one(reads: &[Worked<Shift>]) -> Vec<OfRow> {
        let terms: Vec<(f64, &Worked<Shift>)> = reads.iter().map(|read| (1.0, read)).collect();
        let pack = Worked::sum(&terms, 0.0, "shims laid together", PILE).becomes::<Mm>();
        let by_size = |a: &&Worked<Shift>, b: &&Worked<Shift>| a.number().total_cmp(&b.number());
        let thickest = reads.iter().max_by(by_size).map(|read| (THICKEST.key, read.becomes::<Mm>().figure()));
        let each = EACH.iter().zip(reads).map(|(name, read)| (name.key, read.becomes::<Mm>().figure()));
        std::iter::once((PACK.key, pack.figure())).chain(thickest).chain(each).collect()
    }
}
