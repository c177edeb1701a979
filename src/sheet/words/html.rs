//! Words of the page for a screen.

/// Heading of what was typed.
pub(in crate::sheet) const READINGS: &str = "Readings";
/// Gives them to the clipboard.
pub(in crate::sheet) const COPY: &str = "Copy";
/// Gives them as a file.
pub(in crate::sheet) const SAVE: &str = "Save";
/// When they were given to the clipboard.
pub(in crate::sheet) const COPIED: &str = "Copied.";
/// When the browser did not let them be given.
pub(in crate::sheet) const COPY_BY_HAND: &str = "The browser does not allow it: the text is marked, copy it by hand.";
/// Over the blanks of a face that is read at many places.
pub(in crate::sheet) const READ_AT_PLACES: &str = "Readings, each where its place lies on the face:";

/// A reading of a face at one of its places.
pub(in crate::sheet) fn place_named(place: usize) -> String {
    format!("reading at place {place}")
}

/// A reading taken at a step.
pub(in crate::sheet) fn reading_of(step: usize) -> String {
    format!("reading of step {step}")
}

/// What a reading of a step leaves to go, and how far that is turned.
pub(in crate::sheet) fn to_go(step: usize) -> String {
    format!("to go by step {step}")
}
pub(in crate::sheet) fn to_turn(step: usize) -> String {
    format!("to turn by step {step}")
}

/// Where a dial then stands.
pub(in crate::sheet) fn then_reads(step: usize) -> String {
    format!("dial then reads, by step {step}")
}

/// A pass by its number and what it is for.
pub(in crate::sheet) fn pass_named(number: Option<usize>, kind: crate::operations::PassKind) -> String {
    format!("{} {}", super::PASS, super::pass_number(number, kind))
}

/// What stands for a box to tick.
pub(in crate::sheet) const TICK: &str = "box to tick";
