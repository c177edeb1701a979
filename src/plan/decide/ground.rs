//! What judging a feature looks at: the plan, the shop, and what the log says was done.

use super::frame::{Line, Size};
use crate::handbook::constants::constant;
use crate::handbook::remedies;
use crate::job::{Address, Inspected, Ledger, Named};
use crate::plan::together::stale::Cut;
use crate::plan::{Plan, Planned};
use crate::proof::Verdict;
use crate::quantity::{Mm, Unit};
use crate::shop::Shop;

/// Two figures that lie no further apart are one, mm.
pub(super) const SAME: f64 = 1e-9;

/// Longer chains of addresses than any job has.
pub(super) const DEEPEST: usize = 64;

/// What judging looks at.
pub(super) struct Ground<'a> {
    pub plan: &'a Plan,
    pub shop: Option<&'a Shop>,
    pub ledger: &'a Ledger,
    /// What each operation names of others.
    pub named: &'a [Named],
    /// What the log says was done.
    pub cuts: &'a [Cut],
    /// The jobs, each with its number of operations.
    pub jobs: &'a [(String, usize)],
}

impl<'a> Ground<'a> {
    /// The operation of an address.
    pub(super) fn planned(&self, of: &Address) -> Option<&'a Planned> {
        self.plan.operations.iter().find(|planned| planned.address == *of)
    }

    /// What the log tells of an operation that was done.
    pub(super) fn done(&self, of: &Address) -> Option<&'a Cut> {
        self.cuts.iter().find(|cut| cut.of == *of && cut.is_done())
    }

    /// The last line of the log that tells of a cut.
    pub(super) fn line(&self, cut: &Cut) -> Line {
        line(self.jobs, cut)
    }
}

/// The last line of the log that tells of a cut; of several jobs it says of which.
pub(super) fn line(jobs: &[(String, usize)], cut: &Cut) -> Line {
    let of = jobs.get(cut.log as usize).map(|(name, _)| name.clone());
    Line { n: cut.entry, job: of.filter(|_| jobs.len() > 1) }
}

/// The words of what puts it right, as typed, else as is usual.
pub(super) fn remedies_of(of: &Inspected) -> Vec<&str> {
    match of.remedies.as_slice() {
        [] => remedies::usual(&of.feature.value),
        some => some.iter().map(|at| at.value.as_str()).collect(),
    }
}

/// What is read farther than that from a size is another, mm.
pub(super) fn near() -> Option<f64> {
    Some(constant::<Mm>("fit-size-near").ok()?.number())
}

/// What is a millimetre and more is a size and no difference.
pub(super) fn is_size(found: &Size) -> bool {
    let least = constant::<Mm>("doubt-of-difference-most").map_or(f64::INFINITY, |least| least.number());
    found.unit == Unit::Mm && found.number >= least
}

/// Whether a bore that fails as it was left may still have another mate than the one that it was bored for.
pub(super) fn goes_on_with_another(planned: &Planned) -> bool {
    let has_mates = remedies::of(&planned.word).is_some_and(|row| !row.follows.is_empty());
    let mut others = planned.answer.alternatives.iter().filter(|other| !other.chosen);
    has_mates && others.any(|other| other.answer.verdict() != Verdict::Fails)
}
