//! Whether what was found is what an operation was planned by: what differs from its reading, and what at its worst may be more than that, it
//! does not surely put right, however far it differs.

use super::frame::{Limit, Row, Size, Why};
use super::ground::{SAME, is_size, near};
use crate::operations::Value;
use crate::plan::Planned;
use crate::proof::Keep;

/// How far what was found may lie from the reading that an operation was planned by.
enum Reads {
    /// Not above it: what is larger was not seen when it was planned.
    NoMore,
    /// Neither above it nor below: too large is loose, too small tight.
    Alike,
    /// Not below it by more than twice another value: a track is read beside its groove.
    NoLess(&'static str),
    /// Anywhere: it is what a new one has in its place, and the worn one goes.
    Gone,
}

/// The sizes that operations are planned by, by their keys.
const SIZES: [(&str, Reads); 9] = [
    ("bore_worst", Reads::NoMore),
    ("housing_bore", Reads::Alike),
    ("present", Reads::Alike),
    ("present_hole", Reads::NoMore),
    ("size", Reads::NoLess("groove")),
    ("length", Reads::Alike),
    ("thickness", Reads::Alike),
    ("bush_bore", Reads::Gone),
    ("finish_bore", Reads::Gone),
];

/// What they are planned by that is no size, by the keys, and whether the operation has it beside the wear that it takes off: a feature is
/// that one by its name alone.
const DIFFERENCES: [(&str, Reads, bool); 6] = [
    ("flat_found", Reads::NoMore, false),
    ("float_found", Reads::Alike, false),
    ("float_as_found", Reads::Alike, true),
    ("clearance_now", Reads::NoMore, true),
    ("taper", Reads::NoMore, true),
    ("out_of_round", Reads::NoMore, true),
];

/// How deep wear is, by the keys of the values that an operation goes by.
const WORN: [&str; 4] = ["wear", "dish", "groove", "uneven"];

/// Why an operation does not surely put right what was found, by what it was planned by.
pub(super) fn planned_by_another(planned: &Planned, row: &Row) -> Option<Why> {
    let found = row.found.filter(|found| !found.as_left)?;
    let (value, reads) = read_before(planned, row, &found)?;
    let beside = match reads {
        Reads::NoLess(beside) => 2.0 * planned.answer.value(beside).map_or(0.0, |groove| groove.number),
        _ => 0.0,
    };
    let (off, both) = (found.number - value.number, found.plus_minus.hypot(value.plus_minus));
    let far = if is_of_a_size(row, &found) { near()? } else { f64::INFINITY };
    let is_other = match reads {
        Reads::NoMore => off > both || off < -far,
        Reads::Alike => off.abs() > both,
        Reads::NoLess(_) => off < -(both + beside) || off > far,
        Reads::Gone => false,
    };
    if is_other {
        return Some(Why::PlannedBy(planned.word.clone(), value.number, value.unit));
    }
    let beyond = |keep: Keep, end: f64, planned_for: f64| {
        let is_beyond = keep.inside(end, planned_for) < -SAME;
        is_beyond.then(|| Why::BeyondPlan(planned.word.clone(), end, (keep, planned_for), value.unit))
    };
    let most = value.number + value.plus_minus;
    let above = || {
        // What a rougher reading of the same leaves open the cut may reach all the same.
        let reached =
            if off <= value.plus_minus + SAME { reach(planned, value.key).unwrap_or(most).max(most) } else { most };
        let end = found.number + found.plus_minus;
        if end <= reached + SAME { None } else { beyond(Keep::AtMost, end, most) }
    };
    let below = || beyond(Keep::AtLeast, found.number - found.plus_minus, value.number - value.plus_minus - beside);
    // A rougher reading of the very size that was read since says nothing against that, unless it may be of another.
    let agrees = off.abs() <= value.plus_minus + SAME && off.abs() + found.plus_minus <= far;
    match reads {
        Reads::NoMore => above(),
        Reads::Alike if !agrees => above().or_else(below),
        Reads::NoLess(_) if !agrees && off < -(value.plus_minus + beside + SAME) => below(),
        Reads::Alike | Reads::NoLess(_) | Reads::Gone => None,
    }
}

/// Why what was found may not be so: an operation that is for that very size goes by a reading that surely is another. It is for it where it
/// would put it right, or where the feature is called as its value is.
pub(super) fn reads_another(planned: &Planned, row: &Row, is_remedy: bool) -> Option<Why> {
    let found = row.found.filter(|found| !found.as_left && is_of_a_size(row, found))?;
    let (value, reads) = read_before(planned, row, &found)?;
    // What lies far off may be of something else that sits there.
    let is_near = apart(value, row).max((found.number - value.number).abs()) <= near()?;
    let is_for_it = (is_remedy && is_near) || row.feature.eq_ignore_ascii_case(value.key);
    let is_read = matches!(reads, Reads::NoMore | Reads::Alike);
    let differs = (found.number - value.number).abs() > found.plus_minus.hypot(value.plus_minus);
    (is_for_it && is_read && differs).then(|| Why::PlannedBy(planned.word.clone(), value.number, value.unit))
}

/// How far the cut that is planned reaches beyond the reading that it is planned by: to the widest bore that still comes clean, to what
/// is lapped off.
fn reach(planned: &Planned, key: &str) -> Option<f64> {
    let number = |key: &str| planned.answer.value(key).map(|value| value.number);
    match key {
        "bore_worst" => Some(number("bored_size")? - (number("clean_up_worn")? - number(key)?)),
        "flat_found" => number("metal_to_lap"),
        _ => None,
    }
}

/// Whether what an operation chooses was chosen for another reading than what was found.
pub(super) fn is_by_another(why: &Why, found: Option<Size>) -> bool {
    match why {
        Why::PlannedBy(..) | Why::DoneAlready(..) => true,
        Why::BeyondPlan(_, _, (keep, planned_for), _) => {
            found.is_some_and(|found| keep.inside(found.number, *planned_for) < 0.0)
        }
        _ => false,
    }
}

/// The reading of an operation that a feature is: of sizes the one that is nearest to its limits, of what is no size the one that its name
/// says, or the only one.
fn read_before<'a>(planned: &'a Planned, row: &Row, found: &Size) -> Option<(&'a Value, &'static Reads)> {
    if is_of_a_size(row, found) {
        return sizes(planned).min_by(|(one, _), (other, _)| apart(one, row).total_cmp(&apart(other, row)));
    }
    DIFFERENCES.iter().find_map(|(key, reads, by_name)| {
        let value = planned.answer.value(key).filter(|value| value.unit == found.unit)?;
        (!by_name || is_named(&row.feature, key)).then_some((value, reads))
    })
}

/// The sizes that an operation is planned by. A barrel is bored out to a piston: what is left is no new one.
fn sizes(planned: &Planned) -> impl Iterator<Item = (&Value, &'static Reads)> {
    let is_bored = planned.answer.value("bore_worst").is_some();
    let all = SIZES.iter().filter(move |(_, reads)| !(is_bored && matches!(reads, Reads::Gone)));
    all.filter_map(|(key, reads)| Some((planned.answer.value(key)?, reads)))
}

/// How far a size lies from the nearest limit of a feature: what was found may be anything.
fn apart(value: &Value, row: &Row) -> f64 {
    row.limits.iter().map(|limit| (limit.number - value.number).abs()).fold(f64::INFINITY, f64::min)
}

/// Whether what is judged is a size, and no difference: its limits say so.
fn is_of_a_size(row: &Row, found: &Size) -> bool {
    let is_large = |limit: &Limit| is_size(&Size { number: limit.number, unit: limit.unit, ..*found });
    !is_wear(&row.feature) && !row.limits.is_empty() && row.limits.iter().all(is_large)
}

/// Whether a feature is wear by its name.
pub(super) fn is_wear(feature: &str) -> bool {
    WORN.iter().any(|key| is_named(feature, key))
}

/// Whether the name of a feature has the words of a key.
fn is_named(feature: &str, key: &str) -> bool {
    let name = feature.to_lowercase();
    let has = |word: &str| name.split(|c: char| !c.is_alphanumeric()).any(|own| own == word);
    key.split('_').filter(|word| !["found", "as", "now"].contains(word)).all(has)
}

/// Whether an operation is for a size far off the one that was found.
pub(super) fn is_for_another_size(planned: &Planned, row: &Row) -> bool {
    let (Some(found), Some(near)) = (row.found.filter(|found| is_of_a_size(row, found)), near()) else { return false };
    let is_far = |value: &Value| apart(value, row).min((value.number - found.number).abs()) > near;
    let mut all = sizes(planned).peekable();
    all.peek().is_some() && all.all(|(value, _)| is_far(value))
}

/// Why an operation does not surely take off the wear that was found: at its worst it is more than that was planned for.
pub(super) fn mends_less(planned: &Planned, row: &Row) -> Option<Why> {
    let found = row.found?;
    let limits = row.limits.iter().filter(|limit| limit.keep == Keep::AtMost || limit.number > 0.0);
    let limits: Vec<&Limit> = limits.collect();
    let [Limit { keep: Keep::AtMost, .. }] = limits.as_slice() else { return None };
    if is_of_a_size(row, &found) || is_known(planned, row, &found) {
        return None;
    }
    let worn = WORN.iter().filter_map(|key| planned.answer.value(key)).filter(|value| value.unit == found.unit);
    let deepest = worn.max_by(|a, b| a.number.total_cmp(&b.number))?;
    let (end, planned_for) = (found.number + found.plus_minus, deepest.number + deepest.plus_minus);
    let word = planned.word.clone();
    if found.number - found.plus_minus > planned_for {
        return Some(Why::TakesOffLess(word, deepest.number, deepest.unit));
    }
    (end > planned_for + SAME).then_some(Why::BeyondPlan(word, end, (Keep::AtMost, planned_for), deepest.unit))
}

/// Whether what was found is no wear, but something else that an operation knows: by its name, or, where that says nothing, because it is
/// no more than that.
fn is_known(planned: &Planned, row: &Row, found: &Size) -> bool {
    if is_wear(&row.feature) {
        return false;
    }
    DIFFERENCES.iter().any(|(key, ..)| {
        let value = planned.answer.value(key).filter(|value| value.unit == found.unit);
        value.is_some_and(|value| {
            let is_it = (found.number - value.number).abs() <= value.plus_minus + SAME;
            is_named(&row.feature, key) || (is_it && found.plus_minus <= value.plus_minus + SAME)
        })
    })
}
