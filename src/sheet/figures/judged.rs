//! Figures of checks: what was got, its limit, and the margin between them.

use super::super::words;
use super::{Cell, number};
use crate::proof::{Judged, Keep};
use crate::quantity::{Decimals, Print, Rounds, Shown, Unit};
use std::fmt;

/// The figure of a check with the doubt of its margin, and below it the worst end of its band, where that is another.
pub(in super::super) fn got(judged: &Judged, print: Print) -> Vec<Cell> {
    let worst = worst(judged, print);
    got_of(judged, print).each().map(|one| Cell::of("", one)).chain(worst).collect()
}

/// The figure of a check in the units of print.
fn got_of(judged: &Judged, print: Print) -> Shown {
    let (decimals, rounds) = as_got(judged);
    Shown::of(judged.got, Some(judged.doubt), judged.unit, (decimals, rounds), print)
}

/// The limit of a check in the units of print.
pub(in super::super) fn limit_of(judged: &Judged, print: Print) -> Shown {
    Shown::of(judged.limit, None, judged.unit, as_limit(judged), print)
}

/// How a limit is printed: rounded inward, a length no finer than the doubt of what it judges, where it judges as much so.
fn as_limit(judged: &Judged) -> (Decimals, Rounds) {
    let usual = judged.unit.decimals();
    let places = 1.0 - (judged.doubt * (1.0 + DUST)).log10().floor();
    let coarse = Decimals::Exactly(places.max(0.0) as usize);
    let is_doubted = judged.unit == Unit::Mm && judged.doubt > 0.0 && places < usual as f64;
    // A limit that is finer than that is no nought.
    let is_nought = judged.limit.abs() > DUST && judged.limit.abs() < 10f64.powf(-places.max(0.0));
    let is_coarse = is_doubted && !is_nought && is_judged_so(judged, coarse);
    let decimals = if is_coarse { coarse } else { decimals(judged) };
    (decimals, judged.keep.rounds())
}

/// How a figure is printed that a limit judges: an estimate is rounded towards the worse.
fn as_got(judged: &Judged) -> (Decimals, Rounds) {
    let is_coarse = judged.unit.is_of_estimates() || judged.unit == Unit::DegC;
    (decimals(judged), if is_coarse { worse(judged.keep) } else { Rounds::Nearest })
}

/// Whether figure and limit, each rounded its own way, are judged as printed to so many decimals as they are.
fn is_judged_so(judged: &Judged, to: Decimals) -> bool {
    // A limit met exactly holds, whatever dust binary fractions leave.
    let dust = DUST * judged.limit.abs();
    let holds = |got: f64, limit: f64| match judged.keep {
        Keep::AtLeast => got >= limit - dust,
        Keep::AtMost => got <= limit + dust,
    };
    let printed =
        |number: f64, rounds| Shown::of(number, None, judged.unit, (to, rounds), Print::Metric).number.number();
    [(judged.got, judged.limit), (judged.at_worst_end, limit_judged_by(judged))].iter().all(|(got, limit)| {
        holds(printed(*got, worse(judged.keep)), printed(*limit, judged.keep.rounds())) == holds(*got, *limit)
    })
}

/// An estimate has few digits, and one more wherever figure and limit would be judged otherwise as printed than as they are.
fn decimals(judged: &Judged) -> Decimals {
    match judged.unit.most_digits() {
        // Nobody reads a tenth of a degree.
        None if judged.unit == Unit::DegC && is_judged_so(judged, Decimals::Exactly(0)) => Decimals::Exactly(0),
        None => Decimals::Usual,
        Some(few) => {
            let finer = (few..few + FINER).map(Decimals::Digits).find(|to| is_judged_so(judged, *to));
            finer.unwrap_or(Decimals::Digits(few + FINER))
        }
    }
}

/// Towards the worse.
fn worse(keep: Keep) -> Rounds {
    match keep {
        Keep::AtLeast => Rounds::Down,
        Keep::AtMost => Rounds::Up,
    }
}

/// How many digits more than usual an estimate may have.
const FINER: usize = 5;

/// What two figures may differ by, as a share, and still be one.
const DUST: f64 = 1e-9;

/// The limit of a check, and below it the worst end of its band, where that is another.
pub(in super::super) fn limit(judged: &Judged, print: Print) -> Vec<Cell> {
    let keep = format!("{} ", words::keep(judged.keep));
    let worst = worst_shown(judged.limit, limit_judged_by(judged), judged.unit, as_limit(judged), print);
    let worst = worst.map(|shown| Cell::of(&format!("{} ", words::WORST), &shown));
    limit_of(judged, print).each().map(|one| Cell::of(&keep, one)).chain(worst).collect()
}

/// What the margin leaves between the worst end of the figure, its doubt, and the limit that it was judged by.
fn limit_judged_by(judged: &Judged) -> f64 {
    match judged.keep {
        Keep::AtLeast => judged.at_worst_end - judged.doubt - judged.margin,
        Keep::AtMost => judged.at_worst_end + judged.doubt + judged.margin,
    }
}

/// The worst end of a band, where it prints as another figure than the middle.
fn worst_shown(middle: f64, worst_end: f64, unit: Unit, set: (Decimals, Rounds), print: Print) -> Option<Shown> {
    if worst_end == middle {
        return None;
    }
    let first = |number| Shown::of(number, None, unit, set, print).alone();
    Some(first(worst_end)).filter(|shown| *shown != first(middle))
}

/// The worst that the figure may be, its doubt within, where a band has another worst end than its middle: the margin is what is
/// between that and the limit.
fn worst_of_all(judged: &Judged, print: Print) -> Option<Shown> {
    let (decimals, _) = as_got(judged);
    worst_shown(judged.got, judged.at_worst_end, judged.unit, as_got(judged), print)?;
    let (end, rounds) = match judged.keep {
        Keep::AtLeast => (judged.at_worst_end - judged.doubt, Rounds::Down),
        Keep::AtMost => (judged.at_worst_end + judged.doubt, Rounds::Up),
    };
    Some(Shown::of(end, None, judged.unit, (decimals, rounds), print).alone())
}

fn worst(judged: &Judged, print: Print) -> Option<Cell> {
    Some(Cell::of(&format!("{} ", words::WORST), &worst_of_all(judged, print)?))
}

/// Figure, limit and worst-case margin behind what stands, each with the inch figure and the worst end in brackets.
pub(in super::super) fn put_all(out: &mut String, judged: &Judged, print: Print) -> fmt::Result {
    let worst = worst_of_all(judged, print);
    put(out, "", &got_of(judged, print), worst)?;
    out.push_str(", ");
    let worst = worst_shown(judged.limit, limit_judged_by(judged), judged.unit, as_limit(judged), print);
    put(out, words::keep(judged.keep), &limit_of(judged, print), worst)?;
    out.push_str(", ");
    out.push_str(words::MARGIN);
    out.push(' ');
    for (at, one) in margin_of(judged, print).each().enumerate() {
        out.push_str(if at == 0 { "" } else { " (" });
        out.push_str(sign_of_margin(one));
        one.first(out)?;
        out.push_str(if at == 0 { "" } else { ")" });
    }
    Ok(())
}

/// A figure behind a word; the other unit of print and the worst end in brackets.
fn put(out: &mut String, word: &str, shown: &Shown, worst: Option<Shown>) -> fmt::Result {
    let others = shown.each().skip(1).map(|one| (word, one));
    let others = others.chain(worst.as_ref().map(|worst| (words::WORST, worst)));
    let one = |out: &mut String, (word, shown): (&str, &Shown)| {
        out.push_str(word);
        out.push_str(if word.is_empty() { "" } else { " " });
        shown.first(out)
    };
    one(out, (word, shown))?;
    let mut open = " (";
    for other in others {
        out.push_str(open);
        one(out, other)?;
        open = ", ";
    }
    out.push_str(if open == ", " { ")" } else { "" });
    Ok(())
}

/// How far a check's figure is inside its limit; a difference, so that degrees Fahrenheit have no nought to add.
pub(in super::super) fn margin(judged: &Judged, print: Print) -> Vec<Cell> {
    margin_of(judged, print).each().map(|one| Cell::of(sign_of_margin(one), one)).collect()
}

/// Rounded towards the worse: no margin is bettered.
fn margin_of(judged: &Judged, print: Print) -> Shown {
    apart(judged.margin, judged, Rounds::Down, print)
}

fn sign_of_margin(shown: &Shown) -> &'static str {
    if shown.number.negative { "" } else { "+" }
}

/// A margin with the decimals of the doubt that it was judged with; one that would print as nought keeps its own.
fn apart(number: f64, judged: &Judged, rounds: Rounds, print: Print) -> Shown {
    let whole = || Shown::apart(number, judged.unit, (Decimals::Usual, rounds), print);
    let is_nought =
        |one: &Shown| format!("{}{}", one.number.whole, one.number.fraction).chars().all(|sign| sign == '0');
    if judged.unit == Unit::DegC {
        // Nobody reads a tenth of a degree.
        let degrees = Shown::apart(number, judged.unit, (Decimals::Exactly(0), rounds), print);
        return if number != 0.0 && degrees.each().any(is_nought) { whole() } else { degrees };
    }
    if judged.doubt <= 0.0 {
        return whole();
    }
    let mut shown = Shown::of(number, Some(judged.doubt), judged.unit, (Decimals::Usual, rounds), print);
    if number != 0.0 && shown.each().any(is_nought) {
        return whole();
    }
    let mut next = Some(&mut shown);
    while let Some(one) = next {
        one.doubt = None;
        next = one.beside.as_deref_mut();
    }
    shown
}

/// Figure, limit and worst-case margin in a line; not `whole`, without the margin.
pub(in super::super) fn in_line(judged: &Judged, print: Print, whole: bool) -> String {
    let said = |cells: Vec<Cell>| {
        let cells = cells.iter().map(|cell| format!("{} {}", cell.figure(), cell.unit).trim_end().to_owned());
        cells.collect::<Vec<_>>().join(" / ")
    };
    let [got, limit, margin] = [got(judged, print), limit(judged, print), margin(judged, print)].map(said);
    if whole { format!("{got}, {limit}, {} {margin}", words::MARGIN) } else { format!("{got}, {limit}") }
}

/// The least that anybody reads of a length, where a check is inside its limit by less.
fn least_read(judged: &Judged, print: Print) -> Option<Shown> {
    let least = if print == Print::Imperial { 25.4 / 10_000.0 } else { 0.001 };
    let is_less = judged.unit == Unit::Mm && judged.margin > 0.0 && judged.margin < least;
    is_less.then(|| Shown::of(least, None, Unit::Mm, (Decimals::Usual, Rounds::Nearest), print).alone())
}

/// How far inside its limit a check is at worst, without a sign, and the limit; in the first unit of print.
pub(in super::super) fn inside(judged: &Judged, print: Print) -> (String, String) {
    let print = if print == Print::Both { Print::Metric } else { print };
    // Towards the worse: inside it is rounded down, outside up.
    let rounds = if judged.margin < 0.0 { Rounds::Up } else { Rounds::Down };
    let margin = apart(judged.margin.abs(), judged, rounds, print);
    let limit = limit_of(judged, print).alone();
    let said = |shown: &Shown| format!("{} {}", number(&shown.number), shown.unit).trim_end().to_owned();
    let margin = match least_read(judged, print) {
        Some(least) => words::under(&said(&least)),
        None => said(&margin),
    };
    (margin, said(&limit))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn judged(margin: f64, unit: Unit) -> Judged {
        Judged { got: 1.0, at_worst_end: 1.0, doubt: 0.0, limit: 2.0, keep: Keep::AtMost, margin, unit }
    }

    #[test]
    fn a_difference_of_degrees_has_no_nought_to_add() {
        let said = |number, unit, print| {
            let cells = margin(&judged(number, unit), print);
            cells.iter().map(|cell| format!("{} {}", cell.figure(), cell.unit)).collect::<Vec<_>>()
        };
        assert_eq!(said(5.0, Unit::DegC, Print::Imperial), ["+9 °F"]);
        assert_eq!(said(-5.0, Unit::DegC, Print::Metric), ["−5 °C"]);
        assert_eq!(said(-2.54, Unit::Mm, Print::Both), ["−2.540 mm", "−0.1000 in"]);
    }

    /// A printed margin is that of the worst case rounded towards the worse: never better than it is, never of the other sign,
    /// and no more than a unit of its last place off; a printed limit lies inside the exact one.
    #[test]
    fn printed_margins_and_limits_never_better_what_they_round() {
        for at in 0..4_000_u32 {
            let part = |step: f64| f64::from(at) * step % 1.0;
            let (margin, doubt, limit) = (4.0 * part(0.618_034) - 2.0, 0.4 * part(0.414_214), 20.0 * part(0.732_051));
            for (keep, print, unit) in [
                (Keep::AtLeast, Print::Metric, 1.0),
                (Keep::AtMost, Print::Metric, 1.0),
                (Keep::AtLeast, Print::Imperial, 25.4),
                (Keep::AtMost, Print::Imperial, 25.4),
            ] {
                let judged = Judged { got: 1.0, at_worst_end: 1.0, doubt, limit, keep, margin, unit: Unit::Mm };
                let read = |cells: &[Cell]| {
                    let text = cells[0].figure().replace('−', "-").replace('+', "");
                    let number = text.trim_start_matches(|sign: char| sign.is_alphabetic() || sign == ' ');
                    let places = number.split_once('.').map_or(0, |parts| parts.1.len() as i32);
                    (number.parse::<f64>().unwrap() * unit, unit * 10_f64.powi(-places))
                };
                let (printed, step) = read(&super::margin(&judged, print));
                assert!(printed <= margin + 1e-7 && printed > margin - step - 1e-7, "{margin} {doubt}: {printed}");
                assert!(printed.signum() == margin.signum() || printed == 0.0, "{margin}: {printed}");
                let (printed, _) = read(&super::limit(&judged, print));
                let inside = match keep {
                    Keep::AtLeast => printed >= limit - 1e-5,
                    Keep::AtMost => printed <= limit + 1e-5,
                };
                assert!(inside, "{limit} {keep:?}: {printed}");
            }
        }
    }

    #[test]
    fn a_figure_is_parted_at_its_point() {
        let cells = got(&Judged { doubt: 0.01, got: 25.4, at_worst_end: 25.4, ..judged(1.0, Unit::Mm) }, Print::Metric);
        assert_eq!(
            cells,
            [Cell {
                before: "25".into(),
                from_point: ".400 ± 0.010".into(),
                unit: "mm",
                stacked: ("25.400".into(), Some("± 0.010".into())),
            }]
        );
        let cells = limit(&Judged { at_worst_end: 1.0, ..judged(1.0, Unit::N) }, Print::Metric);
        assert_eq!(
            cells,
            [Cell { before: "max 2".into(), from_point: String::new(), unit: "N", stacked: ("max 2".into(), None) }]
        );
    }

    /// A force, a torque or a power is an estimate: three digits at most, the figure rounded towards the worse and its limit
    /// inward; a fourth only where three would be judged otherwise than what they stand for.
    #[test]
    fn an_estimate_has_three_digits_and_is_judged_as_it_is() {
        let said = |got: f64, limit: f64, keep| {
            let margin = if keep == Keep::AtMost { limit - got } else { got - limit };
            let of = Judged { got, at_worst_end: got, doubt: 0.0, limit, keep, margin, unit: Unit::N };
            in_line(&of, Print::Metric, true).rsplit_once(',').unwrap().0.to_owned()
        };
        assert_eq!(said(6_564.0, 11_129.0, Keep::AtMost), "6570 N, max 11100 N");
        assert_eq!(said(11_129.0, 6_564.0, Keep::AtLeast), "11100 N, min 6570 N");
        assert_eq!(said(11_129.0, 11_131.0, Keep::AtMost), "11130 N, max 11130 N");
        let mut finer = 0;
        for at in 0..6_000_u32 {
            let part = |step: f64| f64::from(at) * step % 1.0;
            let got = 10_f64.powf(4.0 * part(0.618_034));
            let limit = got * (0.98 + 0.04 * part(0.414_214));
            for (keep, unit) in [(Keep::AtMost, Unit::N), (Keep::AtLeast, Unit::Nm), (Keep::AtMost, Unit::KW)] {
                let margin = if keep == Keep::AtMost { limit - got } else { got - limit };
                let of = Judged { got, at_worst_end: got, doubt: 0.0, limit, keep, margin, unit };
                let number = |cells: Vec<Cell>| {
                    let text = cells[0].figure();
                    text.trim_start_matches(|sign: char| sign.is_alphabetic() || sign == ' ').to_owned()
                };
                let (got_said, limit_said) =
                    (number(super::got(&of, Print::Metric)), number(super::limit(&of, Print::Metric)));
                let (a, b): (f64, f64) = (got_said.parse().unwrap(), limit_said.parse().unwrap());
                let holds = |got: f64, limit: f64| if keep == Keep::AtMost { got <= limit } else { got >= limit };
                assert_eq!(holds(a, b), holds(got, limit), "{got} {limit} {keep:?}: {got_said}, {limit_said}");
                assert!(if keep == Keep::AtMost { a >= got - 1e-6 } else { a <= got + 1e-6 }, "{got}: {got_said}");
                let digits = got_said.replace('.', "");
                finer += u32::from(digits.trim_matches('0').len() > 3);
            }
        }
        assert!(finer < 6_000, "{finer} of 18000 have a fourth digit");
    }
}
