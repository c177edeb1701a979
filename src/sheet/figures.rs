//! Figures as sheets and the terminal show them, in the units of print. They come with their parts apart, and meet here.

mod judged;

pub(super) use judged::{got, in_line, inside, limit, limit_of, margin, put_all};

use super::words;
use crate::operations::{Blank, Limits, Pass, PassKind, Target};
use crate::proof::{Dialled, Fact};
use crate::quantity::{Decimals, Digits, Print, Rounds, Shown, Unit, figure, shown};

/// What stands before the point of a number: its sign as a sheet sets it, and its digits.
fn before_point(number: &Digits) -> String {
    if number.negative { ["−", &number.whole].concat() } else { number.whole.clone() }
}

/// A number as a sheet sets it.
pub(super) fn number(number: &Digits) -> String {
    before_point(number) + &number.since_point()
}

/// A figure in one line, the mark of memory behind its number, before its doubt and its unit.
pub(super) fn marked(shown: &Shown, from_memory: bool) -> String {
    let one = |one: &Shown| {
        let number = words::marked(&number(&one.number), from_memory);
        let doubt = one.doubt.as_ref().map_or_else(String::new, |doubt| format!(" ± {doubt}"));
        [number, doubt, one.before_unit().to_owned(), one.unit.to_owned()].concat()
    };
    let mut each = shown.each().map(one);
    let first = each.next().unwrap_or_default();
    each.fold(first, |said, other| format!("{said} ({other})"))
}

/// A figure of a check parted for its columns: up to its point, from its point on, and its unit beside it.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Cell {
    /// Words before it, its sign, and its digits before the point; of a figure without point all but its unit.
    pub before: String,
    /// From its point on; none where it has no point.
    pub from_point: String,
    /// Its unit.
    pub unit: &'static str,
    /// The figure without its doubt, and the doubt, for where each has a line.
    pub stacked: (String, Option<String>),
}

impl Cell {
    fn of(word: &str, shown: &Shown) -> Self {
        let doubt = shown.doubt.as_ref().map_or_else(String::new, |doubt| format!(" ± {doubt}"));
        let before = format!("{word}{}", before_point(&shown.number));
        let point = shown.number.since_point();
        let alone = [before.as_str(), &point].concat();
        let stacked = (alone, shown.doubt.as_ref().map(|doubt| format!("± {doubt}")));
        let unit = shown.unit;
        match point {
            point if point.is_empty() => Self { before: before + &doubt, from_point: point, unit, stacked },
            point => Self { before, from_point: point + &doubt, unit, stacked },
        }
    }

    /// The figure in one, without its unit.
    pub(super) fn figure(&self) -> String {
        [self.before.as_str(), &self.from_point].concat()
    }
}

/// A length without its unit, which stands at the head of its column; the inch figure in a line of its own.
pub(super) fn length(mm: f64, print: Print) -> Vec<String> {
    let shown = Shown::usual(mm, None, Unit::Mm, Rounds::Nearest, print);
    let line = |(at, one): (usize, &Shown)| {
        let number = number(&one.number);
        if at == 0 { number } else { format!("({number})") }
    };
    shown.each().enumerate().map(line).collect()
}

/// A spindle step as the machine's plate has it, a tenth at the finest; a speed that was worked out where no plate is known is
/// never finer than a revolution, and not above what it was worked out to.
pub(super) fn spindle(step: Option<f64>) -> String {
    let is_of_a_plate = |step: f64| (step * 10.0 - (step * 10.0).round()).abs() < 1e-9;
    step.map_or_else(|| words::NONE.into(), |step| figure(if is_of_a_plate(step) { step } else { step.floor() }))
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

/// A figure with its unit small.
pub(super) fn with_unit(figure: String, unit: &str) -> Vec<Run> {
    vec![Run::large(figure), Run::small(unit)]
}

/// A feed step as a cell has it: the figure of the first unit of print, and the other beneath.
pub(super) fn feed_cell(step: Option<f64>, print: Print) -> (Vec<Run>, String) {
    if step.is_none() {
        return (Vec::new(), String::new());
    }
    let first = if print == Print::Both { Print::Metric } else { print };
    // As the plate of the machine has it; beneath it in what else is printed.
    let own = step.and_then(plate_of).unwrap_or(first);
    let said = |print| feed(step, print).concat();
    let others = [first, if print == Print::Both { Print::Imperial } else { first }];
    let beneath = others.into_iter().find(|other| *other != own);
    let beneath = beneath.map_or_else(String::new, |other| format!("({} {})", said(other), words::feed(other)));
    (with_unit(said(own), words::feed(own)), beneath)
}

/// The units of the plate that a feed step stands on, where the step is whole in them alone.
fn plate_of(step: f64) -> Option<Print> {
    let whole = |parts: f64| (parts - parts.round()).abs() < 1e-6;
    match (whole(step * 1000.0), whole(step / 25.4 * 10_000.0)) {
        (true, false) => Some(Print::Metric),
        (false, true) => Some(Print::Imperial),
        _ => None,
    }
}

/// What is set for a pass, as the hand sets it: its figure, and what stands beneath.
pub(super) fn dial(dial: &Dialled, print: Print) -> (Vec<Run>, String) {
    let first = if print == Print::Both { Print::Metric } else { print };
    match dial {
        Dialled::Slide(counted) => {
            let mut runs = Vec::new();
            if counted.turns > 0 {
                runs.extend(with_unit(counted.turns.to_string(), words::turns(counted.turns)));
            }
            runs.extend(with_unit(figure(counted.divisions), words::DIVISIONS));
            let travel = shown(counted.travel_mm, None, Unit::Mm, Rounds::Nearest, counted.divided_in.print(print));
            (runs, format!("{} · {travel}", counted.device))
        }
        Dialled::Stop(counted) => {
            let of = |print| Shown::of(counted.travel_mm, None, Unit::Mm, (Decimals::Exactly(2), Rounds::Down), print);
            // As the stop itself is divided; beneath it what the words say, where that is another unit.
            let own = counted.divided_in.print(first);
            let shown = of(own);
            let runs = with_unit(number(&shown.number), shown.unit);
            let others = [first, if print == Print::Both { Print::Imperial } else { first }];
            let other = others.into_iter().find(|other| *other != own).map(|other| format!(" · {}", of(other)));
            (runs, format!("{}{}", words::from_zero(counted.device), other.unwrap_or_default()))
        }
        Dialled::Size { to_mm, more_mm } => {
            let set = Shown::usual(*to_mm, None, Unit::Mm, Rounds::Nearest, first);
            let more = shown(*more_mm, None, Unit::Mm, Rounds::Nearest, first);
            (with_unit(number(&set.number), set.unit), words::more_on_diameter(&more))
        }
        Dialled::Same => (vec![Run::small(words::AGAIN)], String::new()),
        Dialled::Turns { turns } => (with_unit(format!("{turns:.1}"), words::TURNS), words::ABOUT.into()),
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

impl Run {
    fn large(text: String) -> Self {
        Self { large: true, text }
    }

    fn small(text: impl Into<String>) -> Self {
        Self { large: false, text: text.into() }
    }
}

/// Before the limit of a target that is all below it.
fn up_to(most: &Fact) -> &'static str {
    if matches!(most, Fact::Figure { unit: Unit::DegC, .. }) { words::AT_MOST } else { words::UP_TO }
}

/// A target parted into what must stay on one line: a figure with the words about it.
pub(super) fn target(target: &Target, print: Print) -> Vec<Vec<Run>> {
    let all = match (target, target.shown(print).as_slice()) {
        (Target::UpTo(of), [most]) => up_to(of).split_whitespace().map(Run::small).chain(runs(most)).collect(),
        (Target::Between(..), [low, high]) => {
            runs(low).into_iter().chain([Run::small(words::TO)]).chain(runs(high)).collect()
        }
        (Target::Aim(_), [aim]) => runs(aim),
        // Words where a figure could not be had.
        _ => said(target, print).into_iter().map(Run::small).collect(),
    };
    let mut groups: Vec<Vec<Run>> = Vec::new();
    for run in all {
        let open = groups.last().is_none_or(|group| run.large && group.iter().any(|other| other.large));
        match groups.last_mut() {
            Some(group) if !open => group.push(run),
            _ => groups.push(vec![run]),
        }
    }
    groups
}

/// The unit in which a size is written down, as it is printed beside it.
pub(super) fn unit_of(blank: &Blank<String>, print: Print) -> &'static str {
    let found = blank.as_found.iter().flat_map(|found| found.shown(None, print));
    let target = blank.target.iter().flat_map(|target| target.shown(print));
    found.chain(target).map(|shown| shown.unit).find(|unit| !unit.is_empty()).unwrap_or(words::unit_of_sizes(print))
}

/// The unit of the readings for which the work goes on, where they are figures.
pub(super) fn unit_of_limits(limits: &Limits, print: Print) -> Option<&'static str> {
    let first = if print == Print::Both { Print::Metric } else { print };
    let ends = limits.least.iter().chain(&limits.most);
    ends.filter_map(|end| end.shown(None, first)).map(|shown| shown.unit).find(|unit| !unit.is_empty())
}

/// A target in one line.
pub(super) fn target_line(of: &Target, print: Print) -> String {
    target(of, print).concat().into_iter().map(|run| run.text).collect::<Vec<_>>().join(" ")
}

fn said(target: &Target, print: Print) -> Vec<String> {
    let of = |fact: &Fact| fact.said(None, print);
    match target {
        Target::Aim(fact) => vec![of(fact)],
        Target::UpTo(most) => vec![up_to(most).into(), of(most)],
        Target::Between(low, high) => vec![of(low), words::TO.into(), of(high)],
    }
}

/// The runs of a figure: number and doubt large, unit small, the figure of the other unit in brackets.
fn runs(shown: &Shown) -> Vec<Run> {
    let mut all = Vec::new();
    for (at, one) in shown.each().enumerate() {
        let (open, close) = if at == 0 { ("", "") } else { ("(", ")") };
        let mut runs = vec![Run::large(format!("{open}{}", one.number))];
        if let Some(doubt) = &one.doubt {
            runs.extend([Run::small("±"), Run::large(doubt.to_string())]);
        }
        if !one.unit.is_empty() {
            runs.push(Run::small(one.unit));
        }
        if let Some(last) = runs.last_mut() {
            last.text += close;
        }
        all.extend(runs);
    }
    all
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_feed_step_is_never_rounded_coarser_than_the_plate() {
        assert_eq!(feed(Some(0.0635), Print::Metric), ["0.0635"]);
        assert_eq!(feed(Some(0.1), Print::Metric), ["0.10"]);
        assert_eq!(feed(Some(0.125), Print::Metric), ["0.125"]);
        assert_eq!(feed(Some(25.4 / 26.0), Print::Metric), ["0.9769"]);
        assert_eq!(feed(Some(0.0635), Print::Imperial), ["0.0025"]);
        assert_eq!(feed(None, Print::Metric), ["—"]);
        assert_eq!(spindle(Some(37.5)), "37.5");
        assert_eq!(spindle(Some(83.839_302_770_094_12)), "83");
    }

    #[test]
    fn passes_alike_are_taken_together() {
        let pass = |kind, depth| Pass { kind, depth, dial: None, leaves: None };
        let passes = [pass(PassKind::Rough, 0.3), pass(PassKind::Rough, 0.3), pass(PassKind::Spring, 0.0)];
        assert_eq!(depths(&passes, Print::Metric), ["0.300 × 2 rough", "0.000 × 1 spring"]);
        assert_eq!(depths(&[pass(PassKind::Depth, 25.4)], Print::Both), ["25.400 × 1", "(1.0000)"]);
    }

    #[test]
    fn a_target_breaks_between_its_limits() {
        let lines = |of: &Target, print| -> Vec<String> {
            let line = |group: Vec<Run>| group.into_iter().map(|run| run.text).collect::<Vec<_>>().join(" ");
            target(of, print).into_iter().map(line).collect()
        };
        let window = Target::Between(Fact::mm(8.271), Fact::mm(8.483));
        assert_eq!(lines(&window, Print::Metric), ["8.271 to", "8.483 mm"]);
        assert_eq!(lines(&window, Print::Both), ["8.271 mm", "(0.3257 in) to", "8.483 mm", "(0.3339 in)"]);
        assert_eq!(lines(&Target::UpTo(Fact::mm(0.625)), Print::Metric), ["up to 0.625 mm"]);
        let cold = Target::UpTo(Fact::doubted(-15.0, 0.0, Unit::DegC));
        assert_eq!(lines(&cold, Print::Metric).concat().split(" ").take(2).collect::<Vec<_>>(), ["at", "most"]);
        let aim = Target::Aim(Fact::doubted(2.476, 0.361, Unit::Mm));
        assert_eq!(lines(&aim, Print::Metric), ["2.48 ±", "0.37 mm"]);
        assert_eq!(target_line(&aim, Print::Metric), "2.48 ± 0.37 mm");
    }
}
