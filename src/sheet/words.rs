//! Headings and standing words of pages and of the terminal. Sentences about an operation stand in its card, not here.

pub(in crate::sheet) mod answer;
pub(in crate::sheet) mod day;
pub(in crate::sheet) mod decide;
mod html;
pub(crate) mod keys;
pub(in crate::sheet) mod log;
pub(in crate::sheet) mod over;
mod over_with;
mod pictures;
pub(crate) mod why;
mod zones;

pub(super) use html::*;
pub(super) use over_with::*;
pub(super) use pictures::*;
pub(super) use zones::*;

use crate::operations::{Alternative, Blank, Limits, PassKind, Station};
use crate::plan::{Planned, Unmade};
use crate::proof::{Check, Fact, Keep, Verdict, Weight};
use crate::quantity::Print;

/// Title of a file of sheets.
pub(super) const SHEETS: &str = "Setup sheets";
/// Language of the words, as a PDF names it.
pub(super) const LANGUAGE: &str = "en-GB";

/// Captions of the title strip.
pub(super) const SET_UP: &str = "Set-up";
/// Caption of the machine.
pub(super) const MACHINE: &str = "Machine";
/// Caption of material and hardness.
pub(super) const MATERIAL: &str = "Material";
/// Caption of the job.
pub(super) const JOB: &str = "Job";
/// Caption of the engine.
pub(super) const ENGINE: &str = "Engine";
/// Caption of the shop.
pub(super) const SHOP: &str = "Shop";
/// Caption of the day.
pub(super) const DATE: &str = "Date";
/// Caption of the sheet's own number: operation of the job, set-up of the operation.
pub(super) const SHEET: &str = "Sheet";
/// Caption of the remark.
pub(super) const NOTE: &str = "Note";
/// The title of the page of an operation that has no set-up.
const NO_SET_UP: &str = "no set-up could be worked out";
/// In the place of a set-up's title where there is nothing to set up.
const NOTHING_TO_SET_UP: &str = "figures alone";

/// What stands in the place of a set-up's title where there is none.
pub(super) fn without_set_up(planned: &Planned) -> &'static str {
    if planned.answer.refused.is_some() { NO_SET_UP } else { NOTHING_TO_SET_UP }
}

/// Heading of the sketch.
pub(super) const SKETCH: &str = "Sketch";
/// Heading of holding and truing.
pub(super) const HOLD: &str = "Hold and true";
/// Heading of the steps where any of them cuts.
pub(super) const CUTS: &str = "Cuts";
/// Heading of the steps where all are done by hand.
pub(super) const STEPS: &str = "Steps";
/// Heading of the verdict, to whoever hears the sheet.
pub(super) const VERDICT_HEADING: &str = "Verdict";
/// Stands for a box or a line to write in, to whoever hears the sheet.
pub(super) const BLANK: &str = "blank";
/// Heading of the checks.
pub(super) const CHECKS: &str = "Checks";
/// Heading of what is measured.
pub(super) const MEASURE: &str = "Measure";
/// The same where nothing is.
pub(super) const TO_NOTE: &str = "Nothing to measure: notes";
/// When what runs unattended began.
pub(super) const BEGAN: &str = "began at";
/// When it is ready.
pub(super) const READY: &str = "ready at";
/// The working of an operation, as the outline lists it.
pub(super) const WORKING: &str = "working";
/// Heading of the cautions.
pub(super) const CAUTIONS: &str = "Cautions";
/// Heading of the alternatives.
pub(super) const ALTERNATIVES: &str = "Choices compared";
/// Heading of what the shop lacks.
pub(super) const MISSING: &str = "Get these first";
/// Heading of what was assumed.
pub(super) const ASSUMED: &str = "Assumed";
/// Heading of what was chosen, at a terminal.
pub(super) const CHOSEN: &str = "Chosen";
/// Heading of the values, at a terminal.
pub(super) const VALUES: &str = "Values";
/// After a heading that stands again on the next page.
pub(super) const CONTINUED: &str = "continued";
/// Before the reason why something could not be worked out.
pub(super) const REFUSED: &str = "Not worked out";
/// Stands for a figure that is not there.
pub(super) const NONE: &str = "—";
/// Beside a alternative that was taken.
pub(super) const TAKEN: &str = "chosen";

/// Over the spindle steps.
pub(super) const SPINDLE: &str = "rev/min";
/// Over the times.
pub(super) const MINUTES: &str = "min";
/// Before a tool.
pub(super) const TOOL: &str = "Tool";
/// Before a reading of a dial.
pub(super) const DIAL: &str = "dial";
/// Caption of what the hand turns.
pub(super) const DIAL_CELL: &str = "DIAL";
/// Over the figures of the checks.
pub(super) const FIGURE: &str = "figure";
/// Over the limits of the checks.
pub(super) const LIMIT: &str = "limit";
/// Over the margins of the checks: each is that of the worst case.
pub(super) const MARGIN: &str = "worst margin";
/// Before the worst end of a band.
pub(super) const WORST: &str = "worst";
/// Before what was measured before the work.
pub(super) const AS_FOUND: &str = "as found";
/// Before a size that nobody found, as the work before leaves it.
pub(super) const EXPECTED: &str = "expected";
/// Before what is known of a size before it is read.
pub(super) const fn known_before<W>(blank: &Blank<W>) -> &'static str {
    if blank.is_expected { EXPECTED } else { AS_FOUND }
}
/// Before a target that is all below a limit.
pub(super) const UP_TO: &str = "up to";
/// The same before a temperature: below nought "up to" reads as if it were warmer that is meant.
pub(super) const AT_MOST: &str = "at most";
/// Between the limits of a target.
pub(super) const TO: &str = "to";
/// Over the targets.
pub(super) const TARGET: &str = "target";
/// Over the blanks to write in.
pub(super) const AS_LEFT: &str = "as left";
/// Over the blanks for the day.
pub(super) const DAY: &str = "date";
/// Over the blanks for who measured.
pub(super) const INITIALS: &str = "initials";
/// Under the cautions of every sheet.
pub(crate) const STANDING: &str = "Local codes, the machine's manual and competent practice come first.";
/// Under a sketch from which sizes were left out.
pub(super) const LEFT_OUT: &str = "No room in the sketch for:";
/// On a sheet whose sketch has a page of its own.
pub(super) const SKETCH_APART: &str = "The sketch stands on its own page.";

/// The verdict as a stamp. What fails is not to be cut; where nothing is cut, at the bench, press or oven, or any more, not to be fitted.
pub(super) fn stamp(planned: &Planned, verdict: Verdict, station: Option<Station>) -> &'static str {
    let cuts = matches!(station, Some(Station::Lathe | Station::Drilling) | None) && planned.spoilt.is_none();
    match verdict {
        Verdict::Proven => "PROVEN",
        Verdict::Doubtful => "DOUBTFUL",
        Verdict::Fails if cuts => "DO NOT CUT",
        Verdict::Fails => "DO NOT FIT",
    }
}

/// Where the stamp of a whole operation stands: at the first of its set-ups that is a machine's, else at its first. A sum cuts nothing:
/// what comes out wrong in it is not to be fitted.
fn station(planned: &Planned) -> Option<Station> {
    let stations = || planned.answer.set_ups.iter().map(|set_up| set_up.station);
    let is_sum = planned.answer.refused.is_none();
    let at_a_machine = stations().find(|at| matches!(at, Station::Lathe | Station::Drilling));
    let known = at_a_machine.or_else(|| stations().next()).or(is_sum.then_some(Station::Bench));
    known.or_else(|| Station::of_operation(&planned.word))
}

/// The stamp of an operation as a whole.
pub(super) fn stamp_of_whole(planned: &Planned) -> &'static str {
    stamp(planned, planned.verdict, station(planned))
}

/// The verdict of one check: what fails stands in capitals.
pub(super) const fn verdict(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Proven => "proven",
        Verdict::Doubtful => "doubtful",
        Verdict::Fails => "FAILS",
    }
}

/// What a check that never stamps says where it is not proven.
pub(super) const ADVICE: &str = "advice";

/// What a check of the part as it came says.
pub(super) const fn as_found(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Proven => "good",
        Verdict::Doubtful => "unsure",
        Verdict::Fails => "bad",
    }
}

/// What is said of a check that was made; nothing of one that was not.
pub(super) fn verdict_of(check: &Check<String>) -> &'static str {
    match check.verdict() {
        Some(made) if made != Verdict::Proven && check.weight == Weight::Advice => ADVICE,
        Some(made) if check.weight == Weight::Found => as_found(made),
        Some(made) => verdict(made),
        None => "",
    }
}

/// Why an alternative was chosen or was not.
pub(super) fn why(alternative: &Alternative<String>, print: Print) -> String {
    match (alternative.chosen, &alternative.why_not, &alternative.answer.refused) {
        (true, ..) => TAKEN.into(),
        (false, Some(why), _) => why.clone(),
        (false, None, Some(refused)) => refused.in_print(print),
        (false, None, None) => NONE.into(),
    }
}

/// Which side of the limit is meant.
pub(super) const fn keep(keep: Keep) -> &'static str {
    match keep {
        Keep::AtLeast => "min",
        Keep::AtMost => "max",
    }
}

/// What a pass is for, beside its depth; a drill's or tap's depth says it itself.
pub(super) const fn pass(kind: PassKind) -> &'static str {
    match kind {
        PassKind::Depth => "",
        other => other.text(),
    }
}

/// Over the feeds.
pub(super) const fn feed(print: Print) -> &'static str {
    match print {
        Print::Metric => "mm/rev",
        Print::Imperial => "in/rev",
        Print::Both => "mm (in)/rev",
    }
}

/// In which unit the sizes of a sketch and the depths of cut are.
pub(super) const fn lengths(print: Print) -> &'static str {
    match print {
        Print::Metric => "mm",
        Print::Imperial => "inches",
        Print::Both => "mm (inches)",
    }
}

/// `1 of 2`.
pub(super) fn of(n: usize, all: usize) -> String {
    format!("{n} of {all}")
}

/// `page 1 of 2`.
pub(super) fn page(n: usize, all: usize) -> String {
    format!("page {}", of(n, all))
}

/// Minutes begun are counted, as the day counts them.
pub(super) fn whole_minutes(minutes: f64) -> f64 {
    f64::max((minutes - 1e-6).ceil(), 0.0) + 0.0
}

/// Time at the machine, and what runs unattended.
pub(super) fn minutes(at_machine: Option<f64>, unattended: f64) -> String {
    let Some(at_machine) = at_machine.map(whole_minutes) else { return "minutes not known".into() };
    let unattended = whole_minutes(unattended);
    if at_machine + unattended <= 0.0 {
        "nothing to do".into()
    } else if unattended > 0.0 {
        format!("{at_machine:.0} min, {unattended:.0} unattended")
    } else {
        format!("{at_machine:.0} min")
    }
}

/// What was assumed, the mark of memory, and units.
pub(super) fn foot(assumed: usize, working: &str, memory: bool, print: Print) -> String {
    let units = lengths(print);
    let memory = if memory { format!("{MEMORY} from memory, not read · ") } else { String::new() };
    let rough = if print == Print::Imperial { "µin" } else { "µm" };
    let assumed = if assumed > 0 { format!("{assumed} assumed: {working} · ") } else { String::new() };
    format!("{assumed}{memory}lengths in {units}, Ra in {rough}")
}

/// Where the working of an operation stands, with its sources.
pub(super) fn working_in_full(address: &str) -> String {
    format!("Working with sources: setover plan … --format json, {address}.")
}

/// The stamp in one line, for a terminal. What fails has no conditions.
pub(super) fn stamp_line(planned: &Planned) -> String {
    let word = stamp_of_whole(planned);
    match &planned.stamp_note {
        Some(note) if planned.verdict != Verdict::Fails => format!("{word} {note}"),
        _ => word.into(),
    }
}

/// Before the reading of one of several passes.
pub(super) fn pass_number(number: Option<usize>, kind: PassKind) -> String {
    let number = number.map_or_else(String::new, |number| number.to_string());
    format!("{number} {}", pass(kind)).trim().to_owned()
}

/// Mark of a figure that was typed.
pub(super) const GIVEN: &str = "given";
/// Mark of a figure picked from what the shop owns.
pub(super) const OF_SHOP: &str = "the shop's";
/// Mark of a figure that was assumed.
pub(super) const TAKEN_AS_READ: &str = "assumed";

/// Over the remedies of a alternative that was not taken.
pub(super) fn what_would_mend(name: &str) -> String {
    format!("What would make {name} hold (of the others the same, in JSON):")
}

/// Checks that were not made, and the keys that would open them.
pub(super) fn unmade(unmade: &Unmade) -> String {
    let checks = if unmade.checks.len() == 1 { "check".to_owned() } else { format!("{} checks", unmade.checks.len()) };
    let named = unmade.checks.join(", ");
    match unmade.keys.as_slice() {
        [] => format!("{checks} not made: {named}"),
        keys => {
            let of_shop = |key: &&str| OF_THE_SHOP.iter().any(|own| key.starts_with(own));
            let (shop, job): (Vec<&str>, Vec<&str>) = keys.iter().copied().partition(of_shop);
            let says =
                [(job, "type"), (shop, "in the shop file type")].into_iter().filter(|(keys, _)| !keys.is_empty());
            let says: Vec<String> = says.map(|(keys, says)| format!("{says} {}", keys_in_line(&keys))).collect();
            format!("{checks} not made ({named}): {}", says.join("; "))
        }
    }
}

/// Keys that a check lacks and that stand in the shop file, not in the job.
const OF_THE_SHOP: [&str; 11] = [
    "power of the machine",
    "reach of the tap",
    "blade.reach",
    "bar.reach",
    "chuck.",
    "four-jaw.",
    "faceplate.",
    "press.most",
    "drawers.",
    "machines",
    "an instrument",
];

/// Keys by their names: those under one parent in brackets behind it.
fn keys_in_line(keys: &[&str]) -> String {
    let mut parents: Vec<(&str, Vec<&str>)> = Vec::new();
    for key in keys {
        let (parent, child) = key.split_once('.').map_or((*key, None), |(parent, child)| (parent, Some(child)));
        match parents.iter_mut().find(|other| other.0 == parent) {
            Some(other) => other.1.extend(child),
            None => parents.push((parent, child.into_iter().collect())),
        }
    }
    let one = |(parent, children): &(&str, Vec<&str>)| {
        if children.is_empty() { (*parent).to_owned() } else { format!("{parent} ({})", children.join(", ")) }
    };
    parents.iter().map(one).collect::<Vec<_>>().join(", ")
}

/// The mark of what rests on a figure from memory.
pub(super) const MEMORY: &str = "ᵐ";

/// A text with the mark of memory behind it, where it rests on memory.
pub(super) fn marked(text: &str, from_memory: bool) -> String {
    if from_memory { format!("{text}{MEMORY}") } else { text.to_owned() }
}

/// The limit of a figure under it in a sketch. What a press has to give is no limit of the part.
pub(super) fn limit_in_sketch(check: &str, side: Keep, limit: &str) -> String {
    if check == "press-force" { format!("press gives {limit}") } else { format!("{} {limit}", keep(side)) }
}

/// What the mark of memory means, and which checks rest on it.
pub(super) fn from_memory(checks: &[&str]) -> String {
    let colon = if checks.is_empty() { "" } else { ": " };
    let checks = checks.join(", ").replace('-', " ");
    format!("{MEMORY} rests on a figure from memory, whose doubt is counted{colon}{checks}.")
}

/// Where signs stand as their numbers.
pub(super) const LACKED: &str = "Characters that this sheet's letters lack are printed as their numbers, ⟨U+…⟩.";

/// On a sheet whose sketch could not be drawn.
pub(super) fn without_sketch(why: &str) -> String {
    format!("The sketch could not be drawn ({why}). Work from the figures.")
}

/// On a sheet that could not be set as the others are.
pub(super) fn line_by_line(why: &str) -> String {
    format!("This sheet could not be laid out as usual ({why}). All of it is printed here line by line.")
}

/// A name with its caption, in a line of words.
pub(super) fn named(caption: &str, name: &str) -> String {
    format!("{caption}: {name}")
}

/// Heading of what stands whole under the strip.
pub(super) const IN_FULL: &str = "In full";
/// Caption of the part, where its name stands in full.
pub(super) const PART: &str = "Part";
/// Caption of what the stamp adds, where it stands in full.
pub(super) const STAMP: &str = "Stamp";

/// Over the checks of an answer that was shaken.
pub(super) fn shaken(trials: usize, seed: u64) -> String {
    format!("Shaken {trials} times from seed {seed}: how often each check holds, and whose doubt it mostly rests on")
}

/// Over the values of an answer that was shaken.
pub(super) const SHAKEN_VALUES: &str = "Half-width about each value that holds 95 % of the draws";
/// Behind a value that is bent over its doubt.
pub(super) const NOT_LINEAR: &str = "not linear there: its ± is the wider side's";

/// How often a check holds; only what holds in every draw holds in 100 %.
pub(super) fn holds(share: f64) -> String {
    format!("holds in {:.1} %", (share * 1000.0).floor() / 10.0)
}

/// Whose doubt a check mostly rests on.
pub(super) fn mostly(name: &str, part: f64) -> String {
    format!("mostly {name} ({:.0} % of its spread)", part * 100.0)
}

/// The readings for which the work goes on at a hold point; nothing where there is no figure.
pub(super) fn limits(limits: &Limits, print: Print) -> Option<String> {
    match (&limits.least, &limits.most) {
        (Some(least), Some(most)) => Some(Fact::span(least.clone(), most.clone()).said(None, print)),
        (Some(least), None) => Some(format!("at least {}", least.said(None, print))),
        (None, Some(most)) => Some(format!("at most {}", most.said(None, print))),
        (None, None) => None,
    }
}
