//! The figures of checks in a sketch: the limit of a size that was judged, under it; and what fails, by the name of its check and
//! by the very figures that its finding has.

use super::Sheet;
use crate::drawing::{Item, Shows, Side, Sketch};
use crate::operations::Value;
use crate::proof::{Check, Judged, Verdict};
use crate::quantity::{Print, Unit};
use crate::sheet::page::Rect;
use crate::sheet::{figures, words};

/// How many of what fails, the worst first, stand in a sketch; and as many of what is a size of the part, or a temperature or
/// force that was worked out for it.
const WORST: usize = 2;
/// What a size and the figure that was judged may differ by, as a share, and still be one.
const DUST: f64 = 1e-6;

/// What fails stands in the sketch by the figure of its finding, also where no two faces bound it or the size that is drawn is
/// another: named, with a line to the part.
pub(super) fn with_what_fails(sheet: &Sheet, sketch: &mut Sketch) {
    let Some(at) = sketch.items.iter().find_map(|item| match item {
        Item::Section { outline, .. } => Rect::about(outline).map(|room| room.centre()),
        _ => None,
    }) else {
        return;
    };
    let is_drawn = |check: &Check<String>| {
        let value = check.about.and_then(|key| sheet.planned.answer.value(key));
        value.is_some_and(|value| sketch.values().any(|key| key == value.key) && worst(sheet, value).is_some())
    };
    let has_figure = || sheet.failing().into_iter().filter(|check| check.judged.is_some());
    let is_of_a_value = |check: &&Check<String>| {
        check.about.is_some_and(|key| sheet.planned.answer.value(key).is_some_and(|value| value.number.is_finite()))
    };
    let mut named: Vec<&'static str> = Vec::new();
    let of_all = has_figure().filter(|check| !is_drawn(check)).take(WORST);
    for check in of_all.chain(has_figure().filter(is_of_a_value).take(WORST).filter(|check| !is_drawn(check))) {
        if !named.contains(&check.id) {
            named.push(check.id);
        }
    }
    for id in named {
        sketch.push(Item::Reads { at, towards: Side::Right, shows: Shows::value(id) });
    }
}

/// The worst check of that name with its figure and its limit, as its finding has them.
pub(super) fn of_check(sheet: &Sheet, id: &str) -> Option<String> {
    let check = sheet.failing().into_iter().find(|check| check.id == id)?;
    let print = first(sheet.sketched_in);
    let name = words::marked(&id.replace('-', " "), check.from_memory);
    let judged = check.judged.as_ref()?;
    let each = figures::got(judged, print).into_iter().chain(figures::limit(judged, print));
    // Sizes stand without their unit, as others in a sketch.
    let own = |cell: &figures::Cell| cell.unit == words::unit_of_sizes(print);
    let unit = |cell: &figures::Cell| if own(cell) { "" } else { cell.unit };
    // The doubt in a line of its own, with the unit: no figure is parted from it.
    let with_unit = |cell: &figures::Cell, figure: &str| format!("{figure} {}", unit(cell)).trim_end().to_owned();
    let said = |cell: figures::Cell| match &cell.stacked {
        (figure, Some(doubt)) => vec![figure.clone(), with_unit(&cell, doubt)],
        (figure, None) => vec![with_unit(&cell, figure)],
    };
    let lines = each.flat_map(said);
    Some(std::iter::once(format!("{name}:")).chain(lines).collect::<Vec<_>>().join("\n"))
}

/// Whether a size is one that was judged.
pub(super) fn is_judged(sheet: &Sheet, value: &Value) -> bool {
    worst(sheet, value).is_some()
}

/// The limit of a size that was judged, in the first unit of print. Nought as a limit says no more than that there is something.
pub(super) fn limit_of(sheet: &Sheet, value: &Value, print: Print) -> Option<String> {
    let (id, judged) = worst(sheet, value).filter(|(_, judged)| judged.limit != 0.0)?;
    let limit = figures::limit_of(judged, print);
    let number = figures::number(&limit.number);
    let limit = match value.unit {
        Unit::Mm if limit.unit == words::unit_of_sizes(first(sheet.sketched_in)) => number,
        _ => format!("{number} {}", limit.unit).trim_end().to_owned(),
    };
    Some(words::limit_in_sketch(id, judged.keep, &limit))
}

fn first(print: Print) -> Print {
    if print == Print::Both { Print::Metric } else { print }
}

/// The check in which this very size was judged, and its figures; of several the worst. The limit of another figure is none of this
/// size's.
fn worst<'a>(sheet: &Sheet<'a>, value: &Value) -> Option<(&'static str, &'a Judged)> {
    let about = sheet.planned.answer.checks.iter().filter(|check| check.about == Some(value.key));
    let made: Vec<(Verdict, &'static str, &Judged)> =
        about.filter_map(|check| Some((check.verdict()?, check.id, check.judged.as_ref()?))).collect();
    let own = |judged: &Judged| (judged.got - value.number).abs() <= DUST * value.number.abs().max(1.0);
    let made = made.into_iter().filter(|(.., judged)| own(judged));
    made.max_by_key(|(verdict, ..)| *verdict).map(|(_, id, judged)| (id, judged))
}
