//! What may be printed of a plan: of an operation that fails nothing that could be followed, and of what the log has as left nothing
//! that would be set again, on no output.

use super::words;
use crate::drawing::{Balloon, Item};
use crate::operations::{Answer, Picture, SetUp, Step, Target, Value, done_by};
use crate::plan::{Plan, Planned, SIZE_WRITTEN_DOWN};
use crate::proof::{Check, Fact, Origin, Verdict};
use std::borrow::Cow;

/// The plans as every output may show them; they are copied only where something fails or was done.
pub(super) fn printed(plans: &[Plan]) -> Cow<'_, [Plan]> {
    let all = || plans.iter().flat_map(|plan| &plan.operations).enumerate();
    let changed: Vec<(usize, Planned)> =
        all().filter_map(|(place, planned)| Some((place, as_it_may_be_shown(planned)?))).collect();
    if changed.is_empty() {
        return Cow::Borrowed(plans);
    }
    let mut shown = plans.to_vec();
    let mut places: Vec<&mut Planned> = shown.iter_mut().flat_map(|plan| &mut plan.operations).collect();
    for (place, planned) in changed {
        if let Some(own) = places.get_mut(place) {
            **own = planned;
        }
    }
    Cow::Owned(shown)
}

/// The same of one operation.
pub(super) fn operation(planned: &Planned) -> Cow<'_, Planned> {
    as_it_may_be_shown(planned).map_or(Cow::Borrowed(planned), Cow::Owned)
}

/// An operation as text and JSON may show it, where that is not as it is.
fn as_it_may_be_shown(planned: &Planned) -> Option<Planned> {
    if planned.verdict != Verdict::Fails {
        return as_left(planned);
    }
    let mut planned = planned.clone();
    withhold(&mut planned);
    Some(planned)
}

/// The operations of a plan that pages may not show as they are, as they may show them, each in its place: of what fails every
/// set-up stays, so that each has its stamp.
pub(super) fn on_pages(plan: &Plan) -> Vec<Option<Planned>> {
    plan.operations.iter().map(on_page).collect()
}

/// The same of one operation: of what the log has as left nothing is set again.
pub(super) fn on_page(planned: &Planned) -> Option<Planned> {
    if planned.verdict == Verdict::Fails { Some(stopped(planned)) } else { as_left(planned) }
}

/// An operation of which the log has a set-up's size as it was left.
fn as_left(planned: &Planned) -> Option<Planned> {
    let entry = |key: &str| planned.answer.value(key).and_then(|value| value.origin.entry());
    let entries = done_by(&planned.answer.set_ups, entry);
    entries.iter().any(Option::is_some).then(|| without_what_is_done(planned, &entries))
}

/// The operation with a line in place of the steps of each set-up that was worked: no setting, no target, no tool, no zero.
fn without_what_is_done(planned: &Planned, entries: &[Option<u32>]) -> Planned {
    let whole = planned;
    let mut planned = whole.clone();
    planned.in_one_unit = None;
    for (set_up, entry) in planned.answer.set_ups.iter_mut().zip(entries) {
        let Some(entry) = entry else { continue };
        let still_stands = set_up.blanks.iter().find_map(|blank| {
            let key = blank.log.as_ref()?.key;
            let told = whole.answer.value(key).and_then(|value| value.origin.entry());
            Some((told.unwrap_or(*entry), whole.answer.unfinished(key)?))
        });
        let says = match still_stands {
            Some((told, check)) => words::unfinished(told, check.remedies.first().map_or("", |remedy| &remedy.words)),
            None if set_up.told == Some(*entry) => {
                words::told(*entry, set_up.blanks.iter().filter_map(|blank| blank.log).any(|line| line.closes))
            }
            None => match not_written_down(&whole.answer, set_up).as_slice() {
                [] => words::done(*entry),
                open => words::done_in_part(*entry, &open.join(", ")),
            },
        };
        let id = if still_stands.is_some() { words::UNFINISHED_ID } else { words::DONE_ID };
        set_up.steps = vec![Step { id, words: says, cut: None, hold_point: None }];
        set_up.lies.clear();
        // What was typed and what was left stays.
        let is_known = |key: &str| {
            let value = planned.answer.values.iter().find(|value| value.key == key);
            value.is_some_and(|value| matches!(*value.origin, Origin::Typed(_)) || value.origin.entry().is_some())
        };
        set_up.sketch.items.retain(|item| match item {
            Item::Dimension { shows, .. } => is_known(shows.value),
            Item::Tool { .. } | Item::Feed { .. } | Item::Detail { .. } | Item::CutAway(_) => false,
            Item::Balloon { balloon, .. } => !matches!(balloon, Balloon::Zero | Balloon::Tool),
            _ => true,
        });
        if still_stands.is_none() {
            set_up.blanks.clear();
            // Where nothing is done nobody is warned of it.
            set_up.cautions.clear();
            (set_up.minutes, set_up.rest, set_up.tail) = (Some(0.0), None, None);
        }
    }
    planned
}

/// What the log has nothing of though it has the set-up as done, and must be known.
fn not_written_down(answer: &Answer<String>, set_up: &SetUp<String>) -> Vec<&'static str> {
    if !set_up.checks.contains(&SIZE_WRITTEN_DOWN) || !answer.checks.iter().any(|check| check.id == SIZE_WRITTEN_DOWN) {
        return Vec::new();
    }
    let lines = set_up.blanks.iter().filter_map(|blank| blank.log).filter(|line| line.closes || line.is_wanted);
    let open = lines.filter_map(|line| answer.value(line.key)).filter(|value| value.origin.entry().is_none());
    open.map(|value| value.means).collect()
}

fn stopped(planned: &Planned) -> Planned {
    let mut planned = planned.clone();
    // The ways out share their zone with the picture of them: in one unit. Nothing else of that may be seen.
    if let Some(brief) = planned.in_one_unit.take() {
        for check in &mut planned.answer.checks {
            let like = |other: &&Check<String>| other.id == check.id && other.remedies.len() == check.remedies.len();
            if let Some(same) = brief.checks.iter().find(like) {
                check.remedies.clone_from(&same.remedies);
            }
        }
    }
    let mut set_ups = std::mem::take(&mut planned.answer.set_ups);
    for set_up in &mut set_ups {
        let owned = std::mem::take(&mut set_up.checks);
        let steps = std::mem::take(&mut set_up.steps);
        stop(set_up, &planned);
        set_up.checks = owned;
        set_up.steps.extend(steps.into_iter().filter_map(|step| measured_again(step, &planned.answer)));
    }
    planned.answer.set_ups = set_ups;
    without_sizes_to_make(&mut planned.answer);
    planned
}

/// Keeps the first set-up of what fails: how it was to be held and what was found, for whoever mends it.
fn withhold(planned: &mut Planned) {
    let mut set_ups = std::mem::take(&mut planned.answer.set_ups);
    set_ups.truncate(1);
    set_ups.iter_mut().for_each(|set_up| stop(set_up, planned));
    planned.answer.set_ups = set_ups;
    planned.in_one_unit = None;
    without_sizes_to_make(&mut planned.answer);
}

/// What a fit is to become is a target; which length breaks through is none.
fn without_sizes_to_make(answer: &mut Answer<String>) {
    answer.picture = answer.picture.take().and_then(Picture::without_targets);
}

/// A step at which a size that was typed is measured again, where another reading of it would prove all that is not proven:
/// what was asked stays as it is. Its words are the size.
fn measured_again(step: Step<String>, answer: &Answer<String>) -> Option<Step<String>> {
    let hold = step.hold_point.filter(|hold| hold.limits.proves)?;
    let value = answer.value(hold.measures).filter(|value| matches!(*value.origin, Origin::Typed(_)))?;
    let mut open = answer.checks.iter().filter(|check| check.stamps().is_some_and(|made| made != Verdict::Proven));
    // What is open for another reason than its figure no reading proves.
    let by_figure = |check: &Check<String>| check.judged.as_ref().is_some_and(|judged| judged.margin < 0.0);
    let means: &str = value.means;
    open.all(by_figure).then(|| Step {
        id: words::WITHHELD_ID,
        words: means.to_owned(),
        cut: None,
        hold_point: Some(hold),
    })
}

/// Whether a size is one that something is to be brought to.
fn is_target(value: &Value, target: &Target) -> bool {
    match target {
        Target::Aim(Fact::Figure { number, unit, .. }) => *number == value.number && *unit == value.unit,
        Target::Between(Fact::Figure { number: low, unit, .. }, Fact::Figure { number: high, .. }) => {
            *unit == value.unit && (*low..=*high).contains(&value.number)
        }
        _ => false,
    }
}

/// A line instead of the steps, no target in a blank, and in the sketch only sizes that were typed and those that fail: of the
/// typed none that something is to be brought to.
fn stop(set_up: &mut SetUp<String>, planned: &Planned) {
    let answer = &planned.answer;
    let targets: Vec<Target> = set_up.blanks.iter().filter_map(|blank| blank.target.clone()).collect();
    set_up.steps = vec![Step { id: words::WITHHELD_ID, words: words::withheld(planned), cut: None, hold_point: None }];
    set_up.blanks.retain(|blank| blank.as_found.is_some());
    set_up.blanks.iter_mut().for_each(|blank| blank.target = None);
    let found = |value: &Value| {
        matches!(*value.origin, Origin::Typed(_)) && !targets.iter().any(|target| is_target(value, target))
    };
    let typed = |key| answer.value(key).is_some_and(found);
    // A size to make that is proven is still a size that somebody could make.
    let fails = |check: &Check<String>| check.stamps() == Some(Verdict::Fails);
    let judged = |key| answer.checks.iter().any(|check| check.about == Some(key) && fails(check));
    set_up.sketch.items.retain(|item| match item {
        Item::Dimension { shows, .. } => typed(shows.value) || judged(shows.value),
        _ => true,
    });
    (set_up.minutes, set_up.rest, set_up.tail) = (Some(0.0), None, None);
    set_up.checks = answer.checks.iter().map(|check| check.id).collect();
}
