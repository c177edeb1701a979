//! Which of the proven checks lies closest to its limit.

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
