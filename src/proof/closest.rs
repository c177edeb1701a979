//! Which of the proven checks lies closest to its limit, and which of those that are open is the worst.

use super::Check;

/// The proven check with the least worst-case margin for its doubt; one without doubt does not compete.
pub(crate) fn closest<'a>(checks: impl Iterator<Item = &'a Check<String>>) -> Option<&'a Check<String>> {
    let share = |check: &&Check<String>| {
        let judged = check.judged.as_ref()?;
        (judged.doubt > 0.0 && check.weight.stamps()).then(|| judged.margin / judged.doubt)
    };
    let shares = checks.filter(|check| check.is_proven()).filter_map(|check| Some((share(&check)?, check)));
    shares.min_by(|a, b| a.0.total_cmp(&b.0)).map(|(_, check)| check)
}

/// What stamps worse stands first; of two that stamp alike the one that is further outside for its limit.
pub(crate) fn worse_first(one: &Check<String>, other: &Check<String>) -> std::cmp::Ordering {
    let order = other.stamps().cmp(&one.stamps());
    order.then_with(|| outside(other).total_cmp(&outside(one)))
}

/// How far a check is outside, for its limit; nought where it has no figures.
fn outside(check: &Check<String>) -> f64 {
    check.judged.as_ref().map_or(0.0, |judged| -judged.margin / judged.limit.abs().max(judged.doubt).max(1e-9))
}
