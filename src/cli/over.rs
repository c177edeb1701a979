//! One operation over a range of a key: where does each verdict turn?

use super::load::Inputs;
use super::say::To;
use super::{Stop, one};
use crate::plan::Plan;
use crate::proof::Verdict;
use crate::quantity::{
    Angle, Celsius, KiloWatt, Kilogram, MPerMin, Minutes, Mm, MmPerRev, Newton, NewtonMetre, Quantity, RevPerMin,
    SpringRate, Stress, Tpi, Volume, Written,
};
use crate::sheet::over_svg::{course_svg, grid_svg};
use crate::sheet::terminal::{Course, Grid, Turn, course, grid};
use crate::shop::Shop;
use std::path::Path;
use std::process::ExitCode;

/// Values that are worked along a range before the turning points are closed in on.
const ALONG: usize = 33;
/// Values of each key in a grid.
const ACROSS: usize = 13;
/// Halvings between two values: a range of 100 mm ends below a micrometre.
const HALVINGS: usize = 24;

/// A key with its range.
struct Range {
    key: String,
    low: f64,
    high: f64,
    /// What stands behind the figure: the doubt typed with it, and its unit.
    tail: String,
    unit: String,
    decimals: usize,
    /// Most of them that the rows of the table and the grid show.
    in_rows: usize,
}

impl Range {
    /// Reads `wall=12 mm to 20 mm`; the doubt is that of the same key among the words.
    fn read(text: &str, words: &[String]) -> Result<Self, Stop> {
        let wrong =
            || Stop::Arguments(format!("`{text}` is not of the form KEY=LOW to HIGH, as in wall=\"12 mm to 20 mm\""));
        let no_key = || {
            let says = format!("`{text}`: which key? Write it before the range, as in wall=\"{}\"", text.trim());
            if text.contains(" to ") || text.contains("..") { Stop::Arguments(says) } else { wrong() }
        };
        let (key, range) = text.split_once('=').ok_or_else(no_key)?;
        let (low, high) = range.split_once(" to ").or_else(|| range.split_once("..")).ok_or_else(wrong)?;
        let ((low, low_unit), (high, unit)) = parted(low).zip(parted(high)).ok_or_else(|| no_size(key, range))?;
        if !is_unit(&unit) || !(low_unit.is_empty() || is_unit(&low_unit)) {
            return Err(no_size(key, range));
        }
        // `500 thou to 2 in`: both in the unit of the upper end.
        let low = if low_unit.is_empty() || low_unit == unit { Some(low) } else { turned(low, &low_unit, &unit) };
        let Some(low) = low else {
            return Err(Stop::Arguments(format!("`{text}`: `{low_unit}` and `{unit}` are no units of one kind")));
        };
        if low >= high || !low.is_finite() || !high.is_finite() {
            return Err(Stop::Arguments(format!("`{text}`: the lower end comes first")));
        }
        let typed = words.iter().find_map(|word| word.strip_prefix(key)?.strip_prefix('='));
        let doubt = typed
            .and_then(|typed| ["±", "+/-", "+-"].iter().find_map(|sign| typed.split_once(sign)))
            .map(|(_, doubt)| doubt.trim());
        let tail = doubt.map_or_else(|| format!(" {unit}"), |doubt| format!(" {unit} ± {doubt}"));
        let step = (high - low) / 1e4;
        // A thousandth of a millimetre, or a tenth of a thou, is the least that is ever shown.
        let (most, in_rows) = match unit.as_str() {
            "mm" => (3.0, 3),
            "in" | "inch" | "inches" | "\"" => (4.0, 4),
            "thou" | "tho" => (1.0, 1),
            _ => (6.0, 3),
        };
        let decimals = (-step.log10().floor()).clamp(0.0, most) as usize;
        Ok(Self { key: key.to_owned(), low, high, tail, unit, decimals, in_rows })
    }

    fn at(&self, share: f64) -> f64 {
        let scale = 10_f64.powi(self.decimals as i32);
        ((self.low + (self.high - self.low) * share) * scale).round() / scale
    }

    /// The words with this key at a value.
    fn put(&self, words: &[String], value: f64) -> Vec<String> {
        let own = format!("{}=", self.key);
        let mut all: Vec<String> = words.iter().filter(|word| !word.starts_with(&own)).cloned().collect();
        all.push(format!("{own}{value:.*}{}", self.decimals, self.tail));
        all
    }
}

/// A figure, a fraction too, and the unit behind it.
fn parted(end: &str) -> Option<(f64, String)> {
    let end = end.trim();
    let at = end.find(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | '-' | '/' | ' '))).unwrap_or(end.len());
    let (figures, unit) = end.split_at(at);
    let mut number = 0.0;
    for part in figures.split_whitespace() {
        number += match part.split_once('/') {
            Some((up, down)) => up.parse::<f64>().ok()? / down.parse::<f64>().ok().filter(|down| *down > 0.0)?,
            None => part.parse::<f64>().ok()?,
        };
    }
    (!figures.trim().is_empty()).then(|| (number, unit.trim().to_owned()))
}

/// Whether a unit is one that sizes are typed in; none at all is that of a pure number.
fn is_unit(unit: &str) -> bool {
    fn of<Q: Quantity>(one: &str) -> bool {
        one.parse::<Written<Q>>().is_ok()
    }
    let one = format!("1 {unit}");
    let kinds = [
        of::<Mm>,
        of::<Angle>,
        of::<Celsius>,
        of::<Newton>,
        of::<NewtonMetre>,
        of::<Stress>,
        of::<KiloWatt>,
        of::<Kilogram>,
        of::<Minutes>,
        of::<MPerMin>,
        of::<MmPerRev>,
        of::<RevPerMin>,
        of::<Volume>,
        of::<Tpi>,
        of::<SpringRate>,
    ];
    unit.is_empty() || kinds.iter().any(|read| read(&one))
}

/// A length in another unit of length.
fn turned(number: f64, from: &str, to: &str) -> Option<f64> {
    let of = |unit: &str| format!("1 {unit}").parse::<Written<Mm>>().ok().map(|one| one.value.number());
    Some(number * of(from)? / of(to)?)
}

/// What has no size cannot be gone along.
fn no_size(key: &str, range: &str) -> Stop {
    Stop::Arguments(format!(
        "`{key}={range}`: --over goes along sizes, as in wall=\"12 mm to 20 mm\"; of a key that takes words or names the answer compares the choices anyway"
    ))
}

/// What came out at one value: the operation's verdict with what was chosen, then each alternative's.
struct Outcome(Vec<(String, Verdict)>, String);

/// Works one operation over one range, or over two.
pub(super) fn run(
    operation: &str,
    words: &[String],
    over: &[String],
    shop: Option<&Path>,
    (drawn, to): (bool, &To),
) -> Result<ExitCode, Stop> {
    let ranges = over.iter().map(|text| Range::read(text, words)).collect::<Result<Vec<_>, Stop>>()?;
    if let [one, other] = ranges.as_slice()
        && one.key == other.key
    {
        return Err(Stop::Arguments(format!("`{}` is given twice: a grid has two keys", one.key)));
    }
    let mut inputs = Inputs::default();
    let shop = one::shop_for(shop, &mut inputs);
    let read = std::mem::take(&mut inputs.files);
    let shop = inputs.settle(shop)?.flatten();
    let shop = shop.as_ref();
    let work = |words: &[String]| outcome(operation, words, shop);
    match ranges.as_slice() {
        [along] => {
            let along = one_range(along, words, &work)?;
            if drawn {
                to.print(&course_svg(&along).map_err(unpaged)?, &read)?
            } else {
                to.page(&course(&along), &read)?
            }
        }
        [down, across] => {
            let field = two_ranges(down, across, words, &work)?;
            if drawn { to.print(&grid_svg(&field).map_err(unpaged)?, &read)? } else { to.page(&grid(&field), &read)? }
        }
        _ => return Err(Stop::Arguments("--over takes one key, or two for a grid".into())),
    }
    Ok(ExitCode::SUCCESS)
}

fn unpaged(fault: crate::sheet::fonts::Fault) -> Stop {
    Stop::Page(fault.to_string())
}

fn outcome(operation: &str, words: &[String], shop: Option<&Shop>) -> Result<Outcome, Stop> {
    let mut inputs = Inputs::default();
    let job = one::read(operation, words, &mut inputs);
    let plan = job.and_then(|job| inputs.work(&job, shop, None));
    let plan: Option<Plan> = inputs.settle(plan)?;
    let Some(planned) = plan.as_ref().and_then(|plan| plan.operations.first()) else {
        return Ok(Outcome(Vec::new(), String::new()));
    };
    let own = (operation.to_owned(), planned.verdict);
    let others = &planned.answer.alternatives;
    let chosen = others.iter().find(|other| other.chosen).map(|other| other.name.clone()).unwrap_or_default();
    let others = others.iter().map(|other| (other.name.clone(), other.answer.verdict()));
    Ok(Outcome(std::iter::once(own).chain(others).collect(), chosen))
}

type Work<'a> = &'a dyn Fn(&[String]) -> Result<Outcome, Stop>;

fn one_range(range: &Range, words: &[String], work: Work) -> Result<Course, Stop> {
    let values: Vec<f64> = (0..ALONG).map(|at| range.at(at as f64 / (ALONG - 1) as f64)).collect();
    let worked = values.iter().map(|value| work(&range.put(words, *value))).collect::<Result<Vec<_>, Stop>>()?;
    let names: Vec<String> =
        worked.first().map(|first| first.0.iter().map(|(name, _)| name.clone()).collect()).unwrap_or_default();
    let mut turns = Vec::new();
    for name in &names {
        let verdict = |outcome: &Outcome| outcome.0.iter().find(|(own, _)| own == name).map(|(_, verdict)| *verdict);
        let along: Vec<Option<Verdict>> = worked.iter().map(verdict).collect();
        let found = turns_along(range, &along, &|value| Ok(verdict(&work(&range.put(words, value))?)))?;
        turns.extend(found.into_iter().map(|(was, now, at)| Turn { name: name.clone(), was, now, at }));
    }
    let verdict_of =
        |outcome: &Outcome, name: &str| outcome.0.iter().find(|(own, _)| own == name).map(|(_, verdict)| *verdict);
    let rows = values.iter().zip(&worked).map(|(value, outcome)| {
        let verdicts = names.iter().map(|name| verdict_of(outcome, name).unwrap_or(Verdict::Fails)).collect();
        (format!("{value:.*} {}", range.decimals.min(range.in_rows), range.unit), verdicts, outcome.1.clone())
    });
    Ok(Course { key: range.key.clone(), rows: rows.collect(), names, turns })
}

/// A verdict before, behind, and the value where it turns.
type Turned = (Verdict, Verdict, String);

/// Where a verdict that is known along a range at even steps turns, closed in on by halves.
fn turns_along(
    range: &Range,
    along: &[Option<Verdict>],
    verdict_at: &dyn Fn(f64) -> Result<Option<Verdict>, Stop>,
) -> Result<Vec<Turned>, Stop> {
    let mut turns = Vec::new();
    let steps = along.len().saturating_sub(1).max(1) as f64;
    let value = |at: usize| range.at(at as f64 / steps);
    for (at, pair) in along.windows(2).enumerate() {
        let [Some(was), Some(becomes)] = pair else { continue };
        if was == becomes {
            continue;
        }
        // Between two steps it may turn more than once: from each turn on until it is what it is at the next.
        let (mut from, mut was) = (value(at), *was);
        while was != *becomes {
            let Some((low, high)) = turn_from(range, (from, value(at + 1)), was, verdict_at)? else { break };
            // The verdict at the value that is printed is the one that is printed with it.
            let now = verdict_at(high)?.unwrap_or(*becomes);
            // What is better is told from where it begins to hold, what is worse up to where the better held.
            let at = if now < was { high } else { low };
            turns.push((was, now, format!("{at:.*} {}", range.decimals, range.unit)));
            if now == was {
                break;
            }
            (from, was) = (high, now);
        }
    }
    Ok(turns)
}

/// The last value at which a verdict holds and the first at which it does not, closed in on by halves.
fn turn_from(
    range: &Range,
    (mut low, mut high): (f64, f64),
    was: Verdict,
    verdict_at: &dyn Fn(f64) -> Result<Option<Verdict>, Stop>,
) -> Result<Option<(f64, f64)>, Stop> {
    if low >= high {
        return Ok(None);
    }
    for _ in 0..HALVINGS {
        let middle = range.at(((low + high) / 2.0 - range.low) / (range.high - range.low));
        if middle <= low || middle >= high {
            break;
        }
        match verdict_at(middle)? == Some(was) {
            true => low = middle,
            false => high = middle,
        }
    }
    Ok(Some((low, high)))
}

fn two_ranges(down: &Range, across: &Range, words: &[String], work: Work) -> Result<Grid, Stop> {
    let values = |range: &Range| (0..ACROSS).map(|at| range.at(at as f64 / (ACROSS - 1) as f64)).collect::<Vec<f64>>();
    let shown = |range: &Range, value: f64| {
        format!("{value:.*} {}", range.decimals.min(range.in_rows.saturating_sub(1).max(1)), range.unit)
    };
    let own = |words: &[String]| Ok(work(words)?.0.first().map_or(Verdict::Fails, |own| own.1));
    let (mut rows, mut turns) = (Vec::new(), Vec::new());
    let found = |name: String, key: &str, all: Vec<Turned>| {
        let turn = |(was, now, at)| Turn { name: name.clone(), was, now, at: format!("{key} {at}") };
        all.into_iter().map(turn).collect::<Vec<Turn>>()
    };
    for value in values(down) {
        let words = down.put(words, value);
        let at = |value| own(&across.put(&words, value));
        let verdicts = values(across).into_iter().map(at).collect::<Result<Vec<Verdict>, Stop>>()?;
        let along: Vec<Option<Verdict>> = verdicts.iter().copied().map(Some).collect();
        let all = turns_along(across, &along, &|value| at(value).map(Some))?;
        turns.extend(found(format!("{} {}", down.key, shown(down, value)), &across.key, all));
        rows.push((shown(down, value), verdicts));
    }
    for (end, column) in [(across.low, 0), (across.high, ACROSS - 1)] {
        let words = across.put(words, end);
        let along: Vec<Option<Verdict>> = rows.iter().map(|(_, verdicts)| verdicts.get(column).copied()).collect();
        let all = turns_along(down, &along, &|value| own(&down.put(&words, value)).map(Some))?;
        turns.extend(found(format!("{} {}", across.key, shown(across, end)), &down.key, all));
    }
    let ends = (shown(across, across.low), shown(across, across.high));
    Ok(Grid { down: down.key.clone(), across: across.key.clone(), ends, rows, turns })
}
