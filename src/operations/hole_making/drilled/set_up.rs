//! The step that drills.

use super::names::STOP_TRAVEL;
use super::{Case, Run};
use crate::handbook::set_up_minutes;
use crate::operations::kit;
use crate::operations::{Answer, Bench, Cut, Pass, PassKind, SetUp};
use crate::proof::{Fact, Refusal, Words, Worked};
use crate::quantity::Unit;

/// Adds the hole, drilled by the stop in the words of the card, with its feed; a deep one comes out for its chips.
///
/// # Errors
/// [`Refusal::NoRow`] where the table lacks the minutes.
pub(in crate::operations) fn drilled_by_the_stop(
    bench: &Bench,
    set_up: &mut SetUp,
    words: &'static str,
    (case, run, depth): (&Case, &Run, f64),
    answer: &mut Answer,
) -> Result<(), Refusal> {
    let (low, high) = run.feed.band().unwrap_or((run.feed.number(), run.feed.number()));
    let feed = |number| Fact::figure(number, Unit::MmPerRev);
    answer.fact("drill_feed", Fact::span(feed(low), feed(high)));
    let travel = answer.value(STOP_TRAVEL.key).map(|travel| travel.number);
    let reads = travel.map(|travel| {
        let division = case.dial.division;
        case.dial.set((travel / division + 1e-9).floor() * division)
    });
    let tool = Words::of("drill-of").with("size", kit::drill_size(case.diameter.number()));
    set_up.lies.extend(kit::drill_lies(bench, &tool, case.diameter.number()));
    let cut = Cut {
        tool,
        spindle: run.step.as_ref().map(Worked::number),
        feed: None,
        passes: vec![Pass { kind: PassKind::Depth, depth, dial: reads, leaves: None }],
        minutes: set_up_minutes::start("hole, drilling")?,
    };
    if run.deep {
        set_up.step("come-out-for-chips");
    }
    case.dial.told(set_up);
    set_up.cut(Words::of(words), cut);
    Ok(())
}
