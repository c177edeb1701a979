//! Figures as sheets and the terminal show them, in the units of print.

use super::words;
use crate::operations::{Pass, PassKind, Value};
use crate::proof::{Judged, Keep};
use crate::quantity::{Print, Rounds, Unit, difference, figure, shown};

/// A figure with its unit; the inch figure beside it, where both are printed, in a line of its own.
pub(super) fn lines(number: f64, doubt: Option<f64>, unit: Unit, rounds: Rounds, print: Print) -> Vec<String> {
    stacked(&shown(number, doubt, unit, rounds, print))
}

/// A value with its doubt; the inch figure beside it, where both are printed, in a line of its own.
pub(super) fn value(value: &Value, print: Print) -> Vec<String> {
    lines(value.number, Some(value.plus_minus), value.unit, value.rounds, print)
}

fn stacked(text: &str) -> Vec<String> {
    match text.split_once(" (") {
        Some((metric, inch)) => vec![metric.to_owned(), format!("({inch}")],
        None => vec![text.to_owned()],
    }
}

/// A figure of a check parted for its columns: the figure, and its unit beside it.
pub(super) type Cell = (String, String);

/// The figure of a check with the doubt of its margin, and below it the bad end of its band, where that is another.
pub(super) fn got(judged: &Judged, print: Print) -> Vec<Cell> {
    let mut cells: Vec<Cell> =
        lines(judged.got, Some(judged.doubt), judged.unit, Rounds::Nearest, print).iter().map(|l| parted(l)).collect();
    cells.extend(worst(judged.got, judged.at_bad_end, judged.unit, Rounds::Nearest, print));
    cells
}

/// The limit of a check, and below it the bad end of its band, where that is another.
pub(super) fn limit(judged: &Judged, print: Print) -> Vec<Cell> {
    let keep = words::keep(judged.keep);
    let lines = lines(judged.limit, None, judged.unit, judged.keep.rounds(), print);
    let mut cells: Vec<Cell> =
        lines.iter().map(|line| parted(line)).map(|(figure, unit)| (format!("{keep} {figure}"), unit)).collect();
    // What the margin leaves between the bad end of the figure, its doubt, and the limit that it was judged by.
    let bad_end = match judged.keep {
        Keep::AtLeast => judged.at_bad_end - judged.doubt - judged.margin,
        Keep::AtMost => judged.at_bad_end + judged.doubt + judged.margin,
    };
    cells.extend(worst(judged.limit, bad_end, judged.unit, judged.keep.rounds(), print));
    cells
}

/// The bad end of a band, where it prints as another figure than the middle.
fn worst(middle: f64, bad_end: f64, unit: Unit, rounds: Rounds, print: Print) -> Option<Cell> {
    let first = |number| lines(number, None, unit, rounds, print).into_iter().next();
    let (figure, unit) =
        first(bad_end).filter(|line| Some(line) != first(middle).as_ref()).map(|line| parted(&line))?;
    Some((format!("{} {figure}", words::WORST), unit))
}

/// How far a check's figure is inside its limit; a difference, so that degrees Fahrenheit have no nought to add.
pub(super) fn margin(judged: &Judged, print: Print) -> Vec<Cell> {
    // Rounded towards the worse: no margin is bettered.
    let lines = stacked(&difference(judged.margin, judged.unit, Rounds::Down, print));
    let signed = |figure: String| if figure.starts_with('−') { figure } else { format!("+{figure}") };
    lines.iter().map(|line| parted(line)).map(|(figure, unit)| (signed(figure), unit)).collect()
}

/// A figure and its unit apart, out of their brackets.
fn parted(line: &str) -> Cell {
    let line = line.trim_start_matches('(').trim_end_matches(')');
    let unit = |text: &&str| text.chars().all(|c| !c.is_ascii_digit()) || *text == "mm²" || *text == "mm⁴";
    match line.rsplit_once(' ') {
        Some((figure, last)) if unit(&last) => (figure.to_owned(), last.to_owned()),
        _ => (line.to_owned(), String::new()),
    }
}

/// A length without its unit, which stands at the head of its column; the inch figure in a line of its own.
pub(super) fn length(mm: f64, print: Print) -> Vec<String> {
    lines(mm, None, Unit::Mm, Rounds::Nearest, print).iter().map(|line| without_unit(line)).collect()
}

/// The same line without the unit of length.
pub(super) fn without_unit(line: &str) -> String {
    line.replace(" mm", "").replace(" in", "")
}

/// A spindle step as the machine's plate has it.
pub(super) fn spindle(step: Option<f64>) -> String {
    step.map_or_else(|| words::NONE.into(), figure)
}

/// A feed step as the machine's plate has it: two decimals, up to four where it has them.
pub(super) fn feed(step: Option<f64>, print: Print) -> Vec<String> {
    let Some(step) = step else { return vec![words::NONE.into()] };
    let fine = |number: f64| {
        let four = format!("{number:.4}");
        let short = four.trim_end_matches('0');
        if short.len() + 2 > four.len() { short.to_owned() } else { format!("{number:.2}") }
    };
    let (metric, inch) = (fine(step), format!("{:.4}", step / 25.4));
    match print {
        Print::Metric => vec![metric],
        Print::Imperial => vec![inch],
        Print::Both => vec![metric, format!("({inch})")],
    }
}

/// Depths of the passes in order, those alike taken together: `0.300 × 2`.
pub(super) fn depths(passes: &[Pass], print: Print) -> Vec<String> {
    let mut runs: Vec<(Vec<String>, PassKind, usize)> = Vec::new();
    for pass in passes {
        let depth = length(pass.depth, print);
        match runs.last_mut() {
            Some((last, kind, count)) if *last == depth && *kind == pass.kind => *count += 1,
            _ => runs.push((depth, pass.kind, 1)),
        }
    }
    let mut all = Vec::new();
    for (mut lines, kind, count) in runs {
        if let Some(first) = lines.first_mut() {
            *first = format!("{first} × {count} {}", words::pass(kind)).trim_end().to_owned();
        }
        all.extend(lines);
    }
    all
}

/// Cutting minutes.
pub(super) fn minutes(minutes: f64) -> String {
    if minutes > 0.0 && minutes < 0.05 { "0.1".into() } else { format!("{minutes:.1}") }
}

/// A run of a text: a figure to be set large, or words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Run {
    /// Whether it is a figure.
    pub large: bool,
    /// The text.
    pub text: String,
}

/// A target parted into what must stay on one line: a figure with the words about it.
pub(super) fn runs(target: &str) -> Vec<Vec<Run>> {
    let mut groups: Vec<Vec<Run>> = Vec::new();
    for word in target.split_whitespace() {
        let bare = word.trim_start_matches(['(', '+', '-', '−', '±', 'Ø', '≤', '≥', '<', '>']);
        let run = Run { large: bare.starts_with(|c: char| c.is_ascii_digit()), text: word.into() };
        let open = groups.last().is_none_or(|group| run.large && group.iter().any(|other| other.large));
        match groups.last_mut() {
            Some(group) if !open => group.push(run),
            _ => groups.push(vec![run]),
        }
    }
    groups
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::proof::Keep;

    fn judged(margin: f64, unit: Unit) -> Judged {
        Judged { got: 1.0, at_bad_end: 1.0, doubt: 0.0, limit: 2.0, keep: Keep::AtMost, margin, unit }
    }

    #[test]
    fn a_difference_of_degrees_has_no_nought_to_add() {
        assert_eq!(margin(&judged(5.0, Unit::DegC), Print::Imperial), [("+9".to_owned(), "°F".to_owned())]);
        assert_eq!(margin(&judged(-5.0, Unit::DegC), Print::Metric), [("−5.0".to_owned(), "°C".to_owned())]);
        let both: Vec<String> =
            margin(&judged(-2.54, Unit::Mm), Print::Both).iter().map(|(f, u)| format!("{f} {u}")).collect();
        assert_eq!(both, ["−2.540 mm", "−0.1000 in"]);
    }

    #[test]
    fn a_feed_step_is_never_rounded_coarser_than_the_plate() {
        assert_eq!(feed(Some(0.0635), Print::Metric), ["0.0635"]);
        assert_eq!(feed(Some(0.1), Print::Metric), ["0.10"]);
        assert_eq!(feed(Some(0.125), Print::Metric), ["0.125"]);
        assert_eq!(feed(Some(25.4 / 26.0), Print::Metric), ["0.9769"]);
        assert_eq!(feed(Some(0.0635), Print::Imperial), ["0.0025"]);
        assert_eq!(feed(None, Print::Metric), ["—"]);
        assert_eq!(spindle(Some(37.5)), "37.5");
    }

    #[test]
    fn passes_alike_are_taken_together() {
        let pass = |kind, depth| Pass { kind, depth, dial: None };
        let passes = [pass(PassKind::Rough, 0.3), pass(PassKind::Rough, 0.3), pass(PassKind::Spring, 0.0)];
        assert_eq!(depths(&passes, Print::Metric), ["0.300 × 2 rough", "0.000 × 1 spring"]);
        assert_eq!(depths(&[pass(PassKind::Depth, 25.4)], Print::Both), ["25.400 × 1", "(1.0000)"]);
    }

    #[test]
    fn a_target_breaks_between_its_limits() {
        let groups = runs("8.271 mm to 8.483 mm");
        let text: Vec<String> =
            groups.iter().map(|g| g.iter().map(|r| r.text.as_str()).collect::<Vec<_>>().join(" ")).collect();
        assert_eq!(text, ["8.271 mm to", "8.483 mm"]);
        assert_eq!(runs("up to 0.625 mm").len(), 1);
        assert_eq!(runs("2.476 ± 0.361 mm").len(), 2);
    }
}
