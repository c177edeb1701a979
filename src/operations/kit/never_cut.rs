//! What is never cut, and what an edge spoils.

use crate::handbook::materials::groups::Kind;
use crate::operations::Answer;
use crate::proof::{Check, Fact, Verdict};

const ID: &str = "never-cut";

/// A friction lining is never cut: what comes off it is dust that nobody may breathe.
pub(in crate::operations) fn never_cut(kind: Kind, answer: &mut Answer) {
    match kind {
        Kind::Lining => {
            let check = Check::of_kind(ID, Verdict::Fails).with("why_not", Fact::named("lining-is-dust"));
            answer.check(check);
        }
        _ => answer.does_not_apply(&[ID]),
    }
}

/// The same of a bore that runs: an edge smears the pores of a sintered metal shut, and no oil comes through them any more.
pub(in crate::operations) fn pores_stay_open(kind: Kind, answer: &mut Answer) {
    if kind != Kind::Sintered {
        return never_cut(kind, answer);
    }
    answer.check(Check::of_kind(ID, Verdict::Fails).with("why_not", Fact::named("pores-smeared-shut")));
}
