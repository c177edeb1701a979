//! Between which pieces of work a rule of order is held.

use crate::handbook::order_rules::{OrderRule, Word, Work};

/// Whether a rule that is held on one feature of a part binds two operations of that part. Two whole operations bind each other
/// when nobody names a feature; two steps do not.
pub(in crate::plan) fn on_one_feature(rule: &OrderRule, own: Option<&str>, other: Option<&str>) -> bool {
    let whole = |word: &Word| matches!(word, Word::Operation(_));
    match (own, other) {
        (Some(own), Some(other)) => own == other,
        (None, None) => whole(&rule.before) || whole(&rule.after),
        _ => false,
    }
}

/// Whether two pieces of work on one part may be on one feature of it: they name the same, or not both name one.
pub(in crate::plan) fn may_be_one_feature(own: Option<&str>, other: Option<&str>) -> bool {
    own.zip(other).is_none_or(|(own, other)| own == other)
}

/// The same where one of them may name no feature: it may be the other's, and no work is put before what may have to come first. What
/// `plan` judges of two whole operations binds them here too.
pub(in crate::plan) fn may_be_on_one_feature(
    rule: &OrderRule,
    own: (Option<&str>, &Work),
    other: (Option<&str>, &Work),
) -> bool {
    let is_whole = |word: &Word, work: &Work| {
        word.members().iter().any(|word| matches!(word, Word::Operation(_)) && word.is_in(work))
    };
    match (own.0, other.0) {
        (Some(own), Some(other)) => own == other,
        _ if rule.in_file.is_some() => {
            on_one_feature(rule, None, None) || is_whole(&rule.before, own.1) || is_whole(&rule.after, other.1)
        }
        _ => on_one_feature(rule, None, None),
    }
}
