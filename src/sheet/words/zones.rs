//! Words of the zones of a sheet.

use super::{DIAL_CELL, MEMORY, MISSING, TOOL, of};
use crate::drawing::Balloon;
use crate::operations::{Limits, PassKind};
use crate::proof::{Fact, Verdict};
use crate::quantity::{Print, figure};

/// What an operation does in a set-up; where the words of the set-up say both, alone.
pub(in crate::sheet) fn titled(operation: &str, set_up: &str) -> String {
    if format!("{set_up} ").starts_with(&format!("{operation} ")) {
        set_up.to_owned()
    } else {
        format!("{operation}: {set_up}")
    }
}

/// Caption of the spindle step.
pub(in crate::sheet) const SPINDLE_CELL: &str = "SPINDLE";
/// Caption of the feed step.
pub(in crate::sheet) const FEED_CELL: &str = "FEED";
/// Caption of the passes of a ladder.
pub(in crate::sheet) const PASS: &str = "pass";
/// A pass by its number, before what is reckoned for it: that which a reading ends is the last that takes metal off.
pub(in crate::sheet) fn pass_before(number: Option<usize>, kind: PassKind) -> String {
    let kind = if kind == PassKind::Finish { LAST } else { super::pass(kind) };
    let number = number.map_or_else(String::new, |number| number.to_string());
    let name = format!("{number} {kind}").trim().to_owned();
    format!("{}:", if name.is_empty() { LAST } else { &name })
}
const LAST: &str = "last";
/// What is set for a pass that is set as the one before.
pub(in crate::sheet) const AGAIN: &str = "same again";
/// The same in a ladder: nobody takes it for so much once more.
pub(in crate::sheet) const UNTOUCHED: &str = "untouched";
/// The same in a row of its own.
pub(in crate::sheet) const DIAL_UNTOUCHED: &str = "dial untouched";
/// Unit of what is counted on a dial.
pub(in crate::sheet) const DIVISIONS: &str = "div";
/// Where a material was not typed.
pub(in crate::sheet) const MATERIAL_NOT_GIVEN: &str = "material not given";

/// Unit of whole turns.
pub(in crate::sheet) const fn turns(turns: u32) -> &'static str {
    if turns == 1 { "turn" } else { "turns" }
}

/// A travel counted from a zero of its own.
pub(in crate::sheet) fn from_zero(device: &str) -> String {
    format!("{device}, from its zero")
}

/// Of a tool that a hand turns in: how often, and from where that is counted.
pub(in crate::sheet) const TURNS: &str = "turns";
pub(in crate::sheet) const ABOUT: &str = "about: its depth counts";

/// How much more than before a tool is set to.
pub(in crate::sheet) fn more_on_diameter(more: &str) -> String {
    format!("{more} more on diameter")
}

/// A step with the tool that does it.
pub(in crate::sheet) fn with_tool(step: &str, tool: &str) -> String {
    format!("{step} {TOOL}: {tool}.")
}

/// Over the blanks of a ladder.
pub(in crate::sheet) const MEASURED: &str = "measured";
/// Over what should then be measured.
pub(in crate::sheet) const SHOULD_BE: &str = "should be";

/// Over the sizes that a dial reads at a machine, and over those that an adjustable tool is set to by hand.
pub(in crate::sheet) fn sizes_in(print: Print, at_machine: bool) -> String {
    let caption = if at_machine { DIAL_CELL } else { "SET TO" };
    format!("{caption}, {}", if print == Print::Imperial { "in" } else { "mm" })
}

/// In the cell of a dial whose figure hangs on a reading.
pub(in crate::sheet) fn by_reading(step: usize) -> String {
    format!("by the reading of step {step}")
}

/// What a reading sets.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::sheet) enum Sets {
    /// A dial, which goes on by so much for each mm of what a reading gives: one that counts the radius of a diameter by half,
    /// a slide set over further than it cuts.
    /// And what a division is in the unit of the reading.
    Divisions(f64, f64),
    /// The same of a dial that is divided in another unit than is measured in: its divisions for each of that.
    InOther(f64),
    /// A head that is set to a size: it has no divisions that the shop named.
    Size,
    /// A slide of which nobody named a dial.
    Nothing,
}

/// How far a dial goes on by what was measured, with nothing where a blank stands.
pub(in crate::sheet) fn reckoned(taken_off: bool, with: &str, sets: Sets, print: Print) -> Vec<Option<String>> {
    let unit = if print == Print::Imperial { "in" } else { "mm" };
    // Where it is multiplied, what is multiplied stands in brackets.
    let (open, equals) = match sets {
        Sets::Divisions(half, _) if (half - 0.5).abs() < 1e-9 => ("(", ") ÷ 2 =".to_owned()),
        Sets::InOther(times) => ("(", format!(") × {} = {ON_BY}", figure(times))),
        Sets::Divisions(times, _) if (times - 1.0).abs() > 5e-4 => ("(", format!(") × {times:.3} =")),
        Sets::Divisions(..) | Sets::Size | Sets::Nothing => ("", " =".to_owned()),
    };
    let (first, then) = if taken_off {
        (format!("{open}{with} − measured"), equals.trim_start().to_owned())
    } else {
        (format!("{open}measured"), format!("− {with}{equals}"))
    };
    let mut pieces = vec![Some(first), None, Some(then), None];
    match sets {
        Sets::Size => pieces.push(Some(format!("{unit} {TO_OPEN}"))),
        Sets::Nothing => pieces.push(Some(unit.to_owned())),
        Sets::InOther(_) => pieces.push(Some(WHOLE.into())),
        Sets::Divisions(_, division) => {
            pieces.extend([Some(format!("{unit} ÷ {} = {ON_BY}", figure(division))), None, Some(WHOLE.into())]);
        }
    }
    pieces
}

/// Before and behind the divisions that a dial goes on by.
const ON_BY: &str = "ON by";
const WHOLE: &str = "whole div";

/// From where a dial stands to where it then stands, with nothing where a blank stands.
pub(in crate::sheet) fn from_where_it_stands(turns: u32, divisions: f64) -> Vec<Option<String>> {
    let divisions = figure(divisions);
    let from = if turns > 0 { format!("{turns} {} {divisions}", self::turns(turns)) } else { divisions };
    vec![Some(format!("from {from} to")), None]
}

/// Over what a dial reads that counts on from its zero.
pub(in crate::sheet) const DIAL_FROM_ZERO: &str = "DIAL, from zero";

/// Behind what a head is still to be opened by.
const TO_OPEN: &str = "to open";

/// In the place of a sketch, where there is none: room to draw it has a frame with ticks.
pub(in crate::sheet) fn not_drawn(print: Print) -> String {
    let apart = if print == Print::Imperial { "half inch" } else { "10 mm" };
    format!(
        "No sketch: nothing typed gives the shape of the part. On paper there is room to draw it, a tick each {apart}."
    )
}

/// In the place of the sketch of a set-up that must not be begun: it would show as made what must not be made.
pub(in crate::sheet) const DRAWN_WHERE_IT_FAILS: &str = "No sketch: this must not be made.";

/// At a hold point whose limits are narrower than what is expected to be read.
pub(in crate::sheet) const NOT_ALL_INSIDE: &str = "Readings may lie outside.";

/// At a hold point whose reading is reckoned with further on: what is done with it, and which of several counts; what was taken
/// off and a bore are never less than their greatest reading.
pub(in crate::sheet) const fn as_reckoned(several: bool, grows: bool) -> &'static str {
    match (several, grows) {
        (false, _) => "Dial on as below.",
        (true, false) => "Dial on by the least.",
        (true, true) => "Dial on by the greatest.",
    }
}

/// The readings for which the work goes on, in the other unit, behind those in the first.
pub(in crate::sheet) fn limits_beside(limits: &Limits, print: Print) -> Option<String> {
    let said = match (&limits.least, &limits.most) {
        (Some(least), Some(most)) => Fact::span(least.clone(), most.clone()).said(None, print),
        (Some(one), None) | (None, Some(one)) => one.said(None, print),
        (None, None) => return None,
    };
    Some(format!("({said})"))
}

/// Less than what anybody reads.
pub(in crate::sheet) fn under(least: &str) -> String {
    format!("under {least}")
}

/// A size of which fewer readings have a blank than are asked.
pub(in crate::sheet) fn with_readings(size: &str, readings: usize) -> String {
    format!("{size}, {readings} readings")
}

/// Which of several set-ups this is.
pub(in crate::sheet) fn named_of(caption: &str, n: usize, all: usize) -> String {
    format!("{} {}", caption.to_lowercase(), of(n, all))
}

/// Heading of what takes the place of steps where nothing may be cut.
pub(in crate::sheet) const WAYS_OUT: &str = "Ways out";
/// Over what was measured, where nothing may be cut.
pub(in crate::sheet) const MEASURE_AGAIN: &str = "Measure again";
/// Heading of the values on a working page.
pub(in crate::sheet) const WORKED: &str = "Worked out";

/// The other unit of a target that stands behind a size as found.
pub(in crate::sheet) fn to_become(target: &str) -> String {
    format!("(to become {target})")
}

/// What a number in a circle means.
pub(in crate::sheet) const fn balloon(balloon: Balloon) -> &'static str {
    match balloon {
        Balloon::Grip => "grip",
        Balloon::Indicator => "indicator",
        Balloon::Zero => "ZERO HERE",
        Balloon::Tool => "tool",
    }
}

/// A detail of a sketch and its scale.
pub(in crate::sheet) fn detail(letter: char, scale: &str) -> String {
    format!("detail {letter} {scale}")
}

/// The zero, and the step that takes it.
pub(in crate::sheet) fn zero_at(step: usize) -> String {
    format!("{}: step {step}", balloon(Balloon::Zero))
}

/// What must be got before the work.
pub(in crate::sheet) fn to_be_got(missing: &str) -> String {
    format!("{MISSING}: {missing}")
}

/// Where what is said of a failing operation stands.
pub(in crate::sheet) fn see(id: &str) -> String {
    format!("Do nothing here: see {id}.")
}

/// A reading with which all would be proven as it was asked.
pub(in crate::sheet) fn would_prove(found: &str, limits: &str) -> String {
    format!("{found}, {limits} would prove it as asked")
}

/// The same where more than what fails is in doubt.
pub(in crate::sheet) fn would_mend(found: &str, limits: &str) -> String {
    format!("{found}, {limits} would put right what FAILS")
}

/// Where the remedies of a finding stand that had no room under it.
pub(in crate::sheet) fn remedies_at(id: &str) -> String {
    format!(" →\u{a0}{id}")
}

/// Of a set-up that owns no check.
pub(in crate::sheet) const NO_CHECK: &str = "No check depends on these steps";

/// How many checks are proven; of none nothing.
pub(in crate::sheet) fn proven(count: usize) -> String {
    if count == 0 { String::new() } else { format!("{count} proven") }
}

/// The proven check that is closest to its limit.
pub(in crate::sheet) fn closest(name: &str, margin: &str, limit: &str) -> String {
    format!("closest: {name}, {margin} to spare at worst (limit {limit})")
}

/// Set-ups whose own verdict is doubtful.
pub(in crate::sheet) fn doubtful_elsewhere(ids: &[String]) -> String {
    let verb = if ids.len() == 1 { "is" } else { "are" };
    format!("{} {verb} doubtful", ids.join(", "))
}

/// Findings that had no room: where they stand, and which they are.
pub(in crate::sheet) fn and_more(names: &[String], id: &str) -> String {
    if names.is_empty() {
        return GOES_ON.into();
    }
    format!("and {} more, {id} (--working): {}", names.len(), names.join(", "))
}

/// The reason under a stamp: what a check asks, and how far it is inside or outside at worst; not `whole`, the last two words
/// are left out.
pub(in crate::sheet) fn reason(called: &str, margin: &str, outside: bool, whole: bool) -> String {
    let side = if outside { "outside" } else { "inside" };
    let at_worst = if whole { " at worst" } else { "" };
    format!("{called}: {margin} {side}{at_worst}")
}

/// The reason under a stamp where everything is proven and nothing has a figure: so many of the checks by name.
pub(in crate::sheet) fn all_proven(checks: &[&str], named: usize) -> String {
    format!("holds: {}", some(checks, named))
}

/// So many checks by name and how many more; of none by name how many.
fn some(checks: &[&str], named: usize) -> String {
    let names = checks.iter().take(named).copied().collect::<Vec<_>>().join(", ");
    match (named, checks.len().saturating_sub(named)) {
        (0, 1) => "1 check".into(),
        (0, all) => format!("{all} checks"),
        (_, 0) => names,
        (_, more) => format!("{names} and {more} more"),
    }
}

/// The reason under a stamp where a check has no figure.
pub(in crate::sheet) fn reason_of_kind(called: &str, verdict: Verdict) -> String {
    format!("{called}: {}", super::verdict(verdict))
}

/// The reason under a stamp where checks were not made, so many by name.
pub(in crate::sheet) fn not_checked(checks: &[&str], named: usize) -> String {
    format!("not checked: {}", some(checks, named))
}

/// Behind the figure of a check that holds and is doubtful all the same.
pub(in crate::sheet) const UNSURE_GROUND: &str = "the figure holds, but what it rests on is not sure";

/// Where a zone goes on.
pub(in crate::sheet) const GOES_ON: &str = "goes on overleaf";
/// Under steps of which the last stand under what is measured.
pub(in crate::sheet) const GOES_ON_UNDER: &str = "goes on under Measure";

/// Whether a text wears the mark of memory.
pub(in crate::sheet) fn marks_memory(text: &str) -> bool {
    text.contains(MEMORY)
}

/// The id of the cover.
pub(in crate::sheet) const COVER_ID: &str = "cover";
/// The cover, as the outline lists it and a fault names it.
pub(in crate::sheet) const COVER: &str = "Cover";
/// Heading of what stands whole on the cover.
pub(in crate::sheet) const NOTES: &str = "In full";

/// What runs unattended.
pub(in crate::sheet) fn by_itself(minutes: f64) -> String {
    format!("{minutes:.0} unattended")
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What is multiplied stands in brackets: nobody multiplies the target alone.
    #[test]
    fn what_is_left_to_dial_is_reckoned_in_the_order_that_is_written() {
        let said = |taken_off, sets| {
            let pieces = reckoned(taken_off, "21.550", sets, Print::Metric);
            pieces.into_iter().map(|piece| piece.unwrap_or_else(|| "_".into())).collect::<Vec<_>>().join(" ")
        };
        assert_eq!(said(false, Sets::Divisions(1.0, 0.02)), "measured _ − 21.550 = _ mm ÷ 0.02 = ON by _ whole div");
        let over = "(measured _ − 21.550) × 2.000 = _ mm ÷ 0.0254 = ON by _ whole div";
        assert_eq!(said(false, Sets::Divisions(2.0, 0.0254)), over);
        let half = "(measured _ − 21.550) ÷ 2 = _ mm ÷ 0.02 = ON by _ whole div";
        assert_eq!(said(false, Sets::Divisions(0.5, 0.02)), half);
        assert_eq!(said(false, Sets::InOther(1270.0)), "(measured _ − 21.550) × 1270 = ON by _ whole div");
        let taken_off = "(21.550 − measured _ ) ÷ 2 = _ mm ÷ 0.02 = ON by _ whole div";
        assert_eq!(said(true, Sets::Divisions(0.5, 0.02)), taken_off);
    }
}
