//! Examples as a shop of inches would type them: the figures of the metric ones, as fine as these are.

use crate::reading::Key;

/// A metric unit, what it is in a shop of inches, and one of the first in the other.
type Turned = (&'static str, &'static str, f64, Digits);

/// How fine the other figure is written.
#[derive(Clone, Copy, PartialEq)]
enum Digits {
    /// As fine as a length: four places at most.
    Length,
    /// Two figures that count.
    Two,
}

/// Longest first, so that `mm/rev` is not read as `mm`.
const UNITS: [Turned; 11] = [
    ("mm/rev", "in/rev", 25.4, Digits::Length),
    ("mm/min", "in/min", 25.4, Digits::Two),
    ("m/min", "ft/min", 0.3048, Digits::Two),
    ("cm3", "in3", 16.387_064, Digits::Two),
    ("N·m", "lbf·ft", 1.355_817_948, Digits::Two),
    ("kW", "hp", 0.7457, Digits::Two),
    ("kN", "lbf", 0.004_448_221_6, Digits::Two),
    ("kg", "lb", 0.453_592_37, Digits::Two),
    ("mm", "in", 25.4, Digits::Length),
    ("um", "in", 25_400.0, Digits::Length),
    ("N", "lbf", 4.448_221_6, Digits::Two),
];

/// Words that stand for another in such a shop.
const WORDS: [(&str, &str); 4] =
    [("M8x1.25", "5/16-18 UNC"), ("M8", "5/16-18 UNC"), ("M6", "1/4-20 UNC"), ("metric", "inch")];

/// Puts the examples of keys into inches.
pub(super) fn in_inches(keys: &mut [Key]) {
    for key in keys {
        key.example = turned(&key.example);
        in_inches(&mut key.under);
    }
}

/// One example in inches; what has no size in it stays as it is.
pub(super) fn turned(example: &str) -> String {
    if let Some((_, other)) = WORDS.iter().find(|(word, _)| *word == example) {
        return (*other).to_owned();
    }
    // A roughness has a unit of its own, and its steps.
    if let Some(read) = example.strip_prefix("Ra ").and_then(|rest| rest.strip_suffix(" um")?.parse::<f64>().ok()) {
        let steps = [(0.4, 16.0), (0.8, 32.0), (1.6, 63.0), (3.2, 125.0), (6.3, 250.0)];
        let step = steps.iter().find(|(metric, _)| *metric == read).map_or(read / 0.0254, |(_, inch)| *inch);
        return format!("Ra {step:.0} uin");
    }
    let mut out = String::new();
    let mut rest = example;
    while let Some((at, unit)) = next_unit(rest) {
        let (before, after) = rest.split_at(at);
        out += &figures(before, unit);
        rest = after.get(unit.0.len()..).unwrap_or_default();
        out += unit.1;
    }
    out + rest
}

/// Where the first unit stands that has figures before it.
fn next_unit(text: &str) -> Option<(usize, &'static Turned)> {
    let joins = |c: char| c.is_alphanumeric() || matches!(c, '/' | '·' | '-' | '²' | '³');
    let all = UNITS.iter().flat_map(|unit| text.match_indices(unit.0).map(move |(at, _)| (at, unit)));
    let alone = |(at, unit): &(usize, &Turned)| {
        let before = text.get(..*at).unwrap_or_default();
        let after = text.get(at + unit.0.len()..).unwrap_or_default();
        before.ends_with(' ')
            && before.trim_end().ends_with(|c: char| c.is_ascii_digit() || c == '-')
            && !after.starts_with(joins)
    };
    all.filter(alone).min_by_key(|(at, unit)| (*at, std::cmp::Reverse(unit.0.len())))
}

/// The text before a unit, the figures at its end turned into the other.
fn figures(before: &str, (_, _, of, digits): &Turned) -> String {
    let is_of_figures = |c: char| c.is_ascii_digit() || matches!(c, '.' | ' ' | '±' | '+' | '-' | '−' | '/');
    let mut from = before.len();
    while let Some(cut) = before.get(..from) {
        let kept = cut.trim_end_matches(is_of_figures);
        // `1 to 2 mm`, `6 .. 8 mm`: the word between belongs to them.
        from = kept.len();
        match kept.strip_suffix("to").filter(|head| head.ends_with(' ')) {
            Some(head) => from = head.len(),
            None => break,
        }
    }
    let (kept, span) = before.split_at(from);
    let mut out = kept.to_owned();
    let mut number = String::new();
    // A point that begins `..` is none of a figure.
    let signs: Vec<char> = span.chars().collect();
    for (at, c) in signs.iter().copied().enumerate() {
        let is_point = c == '.' && signs.get(at + 1) != Some(&'.') && (at == 0 || signs.get(at - 1) != Some(&'.'));
        if c.is_ascii_digit() || is_point {
            number.push(c);
        } else {
            out += &one(&number, *of, *digits);
            number.clear();
            out.push(c);
        }
    }
    out + &one(&number, *of, *digits)
}

fn one(number: &str, of: f64, digits: Digits) -> String {
    let Ok(read) = number.parse::<f64>() else { return number.to_owned() };
    let turned = read / of;
    let size = if turned > 0.0 { turned.log10().floor() as i32 } else { 0 };
    let places = match digits {
        Digits::Two => (1 - size).max(0),
        Digits::Length => {
            let typed = number.split_once('.').map_or(0, |(_, places)| places.len() as i32);
            let least = if turned > 0.0 { -size } else { 0 };
            (typed + 2).min(4).max(least)
        }
    };
    // Hundreds of them are written in round figures.
    let round = if digits == Digits::Two && size > 1 { 10_f64.powi(size - 1) } else { 1.0 };
    let turned = if round > 1.0 { (turned / round).round() * round } else { turned };
    format!("{turned:.*}", usize::try_from(places).unwrap_or_default())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_example_in_inches_is_as_fine_as_the_metric_one() {
        for (metric, inch) in [
            ("20.010 ± 0.004 mm", "0.7878 ± 0.0002 in"),
            ("18.0 ± 0.3 mm", "0.709 ± 0.012 in"),
            ("40 mm", "1.57 in"),
            ("0.02 mm", "0.0008 in"),
            ("0 mm", "0.00 in"),
            ("5 um", "0.0002 in"),
            ("-0.05 .. 0.10 mm", "-0.0020 .. 0.0039 in"),
            ("0.05 to 0.15 mm", "0.0020 to 0.0059 in"),
            ("6 20 34 mm", "0.24 0.79 1.34 in"),
            ("{size: 6.120 mm, with: micrometer}", "{size: 0.2409 in, with: micrometer}"),
            ("22 N·m", "16 lbf·ft"),
            ("25 kN", "5600 lbf"),
            ("0.75 kW", "1.0 hp"),
            ("0.06 0.10 mm/rev", "0.0024 0.0039 in/rev"),
            ("Ra 0.8 um", "Ra 32 uin"),
            ("Ra 1.6 um", "Ra 63 uin"),
            ("38 62 100 rev/min", "38 62 100 rev/min"),
            ("M8", "5/16-18 UNC"),
            ("1 .. 2 thou", "1 .. 2 thou"),
            ("25 H7/p6", "25 H7/p6"),
            ("micrometer", "micrometer"),
            ("20 degC", "20 degC"),
        ] {
            assert_eq!(turned(metric), inch, "{metric}");
        }
    }
}
