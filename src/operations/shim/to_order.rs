//! What is bought where the drawer has none, and what the drawer gives by what is foretold.

use super::keys::{Round, Shim};
use super::names::TO_ORDER;
use super::pack::{Judged, PILE, pile};
use crate::handbook::constants::constant;
use crate::handbook::measuring::stack;
use crate::operations::{Answer, Bench};
use crate::proof::{Cause, Check, Keep, Origin, Refusal, Verdict, Worked};
use crate::quantity::{Mm, Quantity, Shift};

impl Shim {
    /// The thickness to order: down to its step where that still gives the float, else as wanted.
    pub(super) fn to_order(
        &self,
        bench: &Bench,
        answer: &mut Answer,
        on: &Judged,
        wanted: &Worked<Shift>,
    ) -> Result<(), Refusal> {
        if wanted.number() <= 0.0 {
            return Ok(());
        }
        let exact = wanted.number();
        let size = match self.round.as_ref().map(|at| at.value) {
            // A hair under a whole step is that step: the dust of binary fractions.
            Some(Round::DownTo(step)) => (exact / step.number() + 1e-9).floor() * step.number(),
            Some(Round::Exact) | None => exact,
        };
        let size = if size < exact && !self.would_do(bench, on, size)? { exact } else { size };
        let origin = Origin::Picked { rule: "as wanted, or down to the step".into(), wanted: wanted.origin().clone() };
        answer.record(&TO_ORDER, Worked::exact(Mm::new(size), origin));
        Ok(())
    }

    /// Whether a pack of a thickness that is only marked would leave the float inside, cold and warm.
    fn would_do(&self, bench: &Bench, on: &Judged, size: f64) -> Result<bool, Refusal> {
        let pack = Worked::assumed(Mm::new(size), "a pack that is bought");
        let pack =
            pack.with_doubt(Cause::Named("a pack that is bought"), constant::<Mm>("shim-marked-doubt")?.number());
        let left = stack::float_left(&on.bare.float, &pack)?;
        let warm = on.growth.map(|growth| Worked::sum(&[(1.0, &left), (1.0, growth)], 0.0, "warm", PILE));
        let end = |end: Shift| Worked::exact(end, Origin::Typed(self.float.place));
        let limits = [(Keep::AtLeast, self.float.value.low), (Keep::AtMost, self.float.value.high)];
        let holds = |float: &Worked<Shift>| {
            let judged =
                |(keep, limit): &(Keep, Shift)| Check::judge("float", float, *keep, &end(*limit), bench.guard());
            limits.iter().all(|limit| judged(limit).verdict() != Some(Verdict::Fails))
        };
        Ok(holds(&left) && warm.as_ref().is_none_or(holds))
    }

    /// The pack that the drawer gives by what is foretold.
    pub(super) fn foretold(&self, bench: &Bench, answer: &mut Answer, on: &Judged) -> Result<Worked<Mm>, Refusal> {
        let stocks = Self::stocks(bench)?.unwrap_or_default();
        let found = self.looked_through(bench, answer, on, &stocks)?;
        let none = || Worked::assumed(Mm::new(0.0), "no pack");
        Ok(found.packs.first().map_or_else(none, |best| pile(best, &stocks)))
    }
}
