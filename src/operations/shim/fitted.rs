//! The pack that was put in, where the log has it: it need not be the one that was chosen.

use super::keys::Shim;
use super::names::{PACK, THICKEST};
use super::pack::{Judged, PILE, Taken};
use crate::handbook::constants::constant;
use crate::operations::{Answer, Bench, OfRow};
use crate::proof::{Fact, Refusal, Words, Worked};
use crate::quantity::{Decimals, Mm, Shift};

impl Shim {
    /// The pack as it was put in, in the place of the one that was chosen: the float is what that one leaves. It is told where
    /// another would be taken now.
    pub(super) fn as_fitted(
        &self,
        bench: &Bench,
        answer: &mut Answer,
        on: &Judged,
        planned: Taken,
    ) -> Result<Taken, Refusal> {
        const THIN: &str = "thin-alone";
        let Some(fitted) = bench.left(&PACK)? else { return Ok(planned) };
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
