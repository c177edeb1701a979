//! The pack that was put in, where the log has it: it need not be the one that was chosen.

use super::bare::Bare;
use super::keys::Shim;
use super::names::{BARE, LEFT, PACK, THICKEST};
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
        Ok(Some((Bare { float: answer.record(&BARE, float), links: on.bare.links.clone() }, pack)))
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
        let is_planned = (fitted.number() - planned.thick.number()).abs() <= near;
        answer.checks.retain(|check| !["float", "running"].contains(&check.id));
        self.judge_pack(bench, answer, on, &fitted, true)?;
        if is_planned {
            return Ok(Taken { thick: fitted, shims: planned.shims });
        }
        answer.checks.retain(|check| check.id != THIN);
        // Which shims those are nobody knows.
        answer.takes.clear();
        match bench.left_beside(&THICKEST)? {
            Some(thickest) => self.thick_enough(answer, thickest.number()),
            None => answer.not_checked(&[THIN], &["pack_thickness"]),
        }
        let named = Fact::mm(fitted.number()).to(Decimals::Exactly(3));
        answer.fitted("pack", named.clone(), Words::of("put-in"));
        answer.fact("stack", named);
        Ok(Taken { shims: vec![fitted.number()], thick: fitted })
    }

    /// A pack whose shims were written down one by one.
    pub(super) fn one_by_one(reads: &[Worked<Shift>]) -> Vec<OfRow> {
        let terms: Vec<(f64, &Worked<Shift>)> = reads.iter().map(|read| (1.0, read)).collect();
        let pack = Worked::sum(&terms, 0.0, "shims laid together", PILE).becomes::<Mm>();
        let by_size = |a: &&Worked<Shift>, b: &&Worked<Shift>| a.number().total_cmp(&b.number());
        let thickest = reads.iter().max_by(by_size).map(|read| (THICKEST.key, read.becomes::<Mm>().figure()));
        std::iter::once((PACK.key, pack.figure())).chain(thickest).collect()
    }
}
