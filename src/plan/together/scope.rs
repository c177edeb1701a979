//! Between which pieces of work a rule of order is held.

use crate::handbook::order_rules::{OrderRule, Word};

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

/// The same where one of them may name no feature: it may be the other's, and no work is put before what may have to come first.
pub(in crate::plan) fn may_be_on_one_feature(rule: &OrderRule, own: Option<&str>, other: Option<&str>) -> bool {
    match (own, other) {
        (Some(_), None) | (None, Some(_)) => on_one_feature(rule, None, None),
        both => on_one_feature(rule, both.0, both.1),
    }
}
