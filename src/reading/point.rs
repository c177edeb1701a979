//! Pointing at a problem: the line quoted, with a mark under the value.

use super::Problem;
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
    let says = clean(&problem.says);
    let title = Level::ERROR.primary_title(says.as_str());
    let found = problem.place.and_then(|place| Some((place, texts.get(place.source as usize)?)));
    let Some((place, text)) = found else { return renderer.render(&[annotate_snippets::Group::with_title(title)]) };
    let line = text.text.lines().nth(place.line.saturating_sub(1) as usize).unwrap_or_default();
    let (quoted, shift) =
        excerpt(&clean(line.strip_prefix('\u{feff}').unwrap_or(line)), place.column.saturating_sub(1) as usize);
    let from = byte_of(&quoted, (place.column.saturating_sub(1) as usize).saturating_sub(shift));
    let to =
        byte_of(&quoted, (place.column.saturating_sub(1).saturating_add(place.length) as usize).saturating_sub(shift))
            .max(from + 1)
            .min(quoted.len().max(1));
    let snippet = Snippet::source(quoted.as_str())
        .line_start(place.line as usize)
        .path(text.name.as_str())
        .annotation(AnnotationKind::Primary.span(from.min(quoted.len())..to.max(from.min(quoted.len()))));
    let drawn = renderer.render(&[title.element(snippet)]);
    // The renderer counts columns in what is quoted; of a very long line only a window is.
    let quoted_at = format!(":{}:{}", place.line, (place.column as usize).saturating_sub(shift));
    drawn.replacen(&quoted_at, &format!(":{}:{}", place.line, place.column), 1)
}

/// Control signs of a file never reach a terminal.
fn clean(text: &str) -> String {
    text.chars().map(|c| if c.is_control() && c != '\n' { ' ' } else { c }).collect()
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
