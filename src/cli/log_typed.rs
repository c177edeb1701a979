//! What is wrong with a line of a log that is not written yet stands where it was typed: in an argument, or in a file of entries.

use super::load::Inputs;
use crate::job::NewLine;
use crate::proof::Place;
use crate::reading::{ARGUMENT, Node};

/// What a line is called that would be written and is not there yet.
pub(super) const TYPED: &str = "what would be written";

/// An argument `NAME=SIZE` with the places of its key and its figure.
pub(super) fn argument(inputs: &mut Inputs, key: &str, word: &str) -> (String, [Place; 2]) {
    let start = inputs.text(ARGUMENT, word);
    let length = |text: &str| u32::try_from(text.chars().count()).unwrap_or(u32::MAX).max(1);
    let places = match word.split_once('=') {
        Some((name, size)) => {
            let blanks = size.chars().take_while(|sign| sign.is_whitespace()).count();
            let column = length(name) + 2 + u32::try_from(blanks).unwrap_or_default();
            [Place { length: length(name), ..start }, Place { column, length: length(size.trim()), ..start }]
        }
        None => [Place { length: length(word), ..start }; 2],
    };
    (key.to_owned(), places)
}

/// Gives the problems with new lines, which begin behind so many of the text of the log, the places at which they were typed. A text
/// of which one is told is no log yet, and is called what it is.
pub(super) fn told_where_typed(inputs: &mut Inputs, log: Place, behind: usize, new: &[NewLine]) {
    let is_new = |place: &Place| place.source == log.source && place.line as usize > behind;
    let Some(text) = inputs.texts.get_mut(log.source as usize) else { return };
    if !inputs.problems.iter().filter_map(|problem| problem.place).any(|place| is_new(&place)) {
        return;
    }
    text.name = TYPED.into();
    let lines: Vec<String> = text.text.lines().skip(behind).map(str::to_owned).collect();
    let typed = |place: Place| {
        let nth = (place.line as usize).checked_sub(behind + 1)?;
        let key = key_at(lines.get(nth)?, place.column)?;
        let (_, [name, value]) = new.get(nth)?.typed.iter().find(|(typed, _)| *typed == key.0)?;
        Some(if key.1 { *name } else { *value })
    };
    for problem in &mut inputs.problems {
        problem.place = problem.place.filter(is_new).and_then(typed).or(problem.place);
    }
}

/// The key of a line that stands at a column, or what stands there under which; and whether it is the key itself.
fn key_at(line: &str, column: u32) -> Option<(String, bool)> {
    // A sum of digits and one `e` would be read as a number, and as one too large.
    let whole = line.rsplit_once(", sum: ").map(|(says, _)| format!("{says}}}"));
    let node = Node::yaml(whole.as_deref().unwrap_or(line), Place::start(0)).ok()?;
    let item = node.items().first()?;
    let before: Vec<(&str, Place)> = item.keys().filter(|(_, place)| place.column <= column).collect();
    let (key, place) = before.last()?;
    Some(((*key).to_owned(), place.column == column))
}
