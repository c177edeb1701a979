//! Pointing at a problem: the line quoted, with a mark under the value.

use super::Problem;
use super::harmless::{harmless, harmless_in_place, hidden};
use crate::proof::Place;
use annotate_snippets::{AnnotationKind, Level, Renderer, Snippet};

/// A text of this run: a file or an argument.
#[derive(Clone, Debug)]
pub struct Text {
    /// The file's path as it was given, or the word `argument`.
    pub name: String,
    /// What it says.
    pub text: String,
}

/// Quotes the line with a mark under the value; `colour` is for a terminal that shows it.
pub fn point(problem: &Problem, texts: &[Text], colour: bool) -> String {
    let renderer = if colour { Renderer::styled() } else { Renderer::plain() };
    let mut says = cut(&harmless(&problem.says));
    let found = problem.place.and_then(|place| Some((place, texts.get(place.source as usize)?)));
    let hides = found.map(|(place, text)| hidden(&marked(place, text))).filter(|hides| !hides.is_empty());
    if let Some(hides) = hides {
        says += &format!(" (a sign that is not seen stands here: {})", cut(&hides));
    }
    let title = Level::ERROR.primary_title(says.as_str());
    let Some((place, text)) = found else { return renderer.render(&[annotate_snippets::Group::with_title(title)]) };
    let line = text.text.lines().nth(place.line.saturating_sub(1) as usize).unwrap_or_default();
    let (quoted, shift) = excerpt(
        &harmless_in_place(line.strip_prefix('\u{feff}').unwrap_or(line)),
        place.column.saturating_sub(1) as usize,
    );
    let from = byte_of(&quoted, (place.column.saturating_sub(1) as usize).saturating_sub(shift));
    let to =
        byte_of(&quoted, (place.column.saturating_sub(1).saturating_add(place.length) as usize).saturating_sub(shift))
            .max(from + 1)
            .min(quoted.len().max(1));
    let name = harmless(&text.name);
    let snippet = Snippet::source(quoted.as_str())
        .line_start(place.line as usize)
        .path(name.as_str())
        .annotation(AnnotationKind::Primary.span(from.min(quoted.len())..to.max(from.min(quoted.len()))));
    let drawn = renderer.render(&[title.element(snippet)]);
    // The renderer counts columns in what is quoted; of a very long line only a window is.
    let quoted_at = format!(":{}:{}", place.line, (place.column as usize).saturating_sub(shift));
    drawn.replacen(&quoted_at, &format!(":{}:{}", place.line, place.column), 1)
}

/// What stands under the mark.
fn marked(place: Place, text: &Text) -> String {
    let line = text.text.lines().nth(place.line.saturating_sub(1) as usize).unwrap_or_default();
    let line = line.strip_prefix('\u{feff}').unwrap_or(line);
    line.chars().skip(place.column.saturating_sub(1) as usize).take(place.length as usize).collect()
}

/// An echo of a page or more helps nobody: its beginning and its end do.
fn cut(text: &str) -> String {
    const HALF: usize = 300;
    let count = text.chars().count();
    if count <= 2 * HALF + 3 {
        return text.into();
    }
    let (head, tail) = (text.chars().take(HALF), text.chars().skip(count - HALF));
    head.chain(" … ".chars()).chain(tail).collect()
}

/// A window of a very long line around the column.
fn excerpt(line: &str, column: usize) -> (String, usize) {
    const WIDTH: usize = 160;
    if line.chars().count() <= WIDTH {
        return (line.into(), 0);
    }
    let shift = column.saturating_sub(40);
    (line.chars().skip(shift).take(WIDTH).collect(), shift)
}

fn byte_of(text: &str, column: usize) -> usize {
    text.char_indices().nth(column).map_or(text.len(), |(at, _)| at)
}
