//! What the pictures of an answer show: its values and its alternatives, read out of it by name and put as a drawing list, which
//! is drawn and told in words from there on.

mod links;
mod pack;
mod polar;
mod spots;
mod wear;

pub use links::links;
pub use pack::pack;
pub use polar::polar;
pub use spots::spots;
pub use wear::wear;

use super::draughting::{self, Fault};
use super::page::{AreaId, Page, Rect};
use super::{figures, told, words};
use crate::drawing::{
    Bar, BarGroup, Bars, Gap, Ladder, LimitLine, Links, Pack, Polar, Ruler, Rung, RungHole, Spots, TextRow, Wear,
};
use crate::operations::{Alternative, Answer, Between, Ends, Fit, FitGroup, FitLimit, Lengths, Picture};
use crate::proof::{Judged, Verdict};
use crate::quantity::{Decimals, Print, Rounds, Shown, Unit};

/// A worst tip nearer to the drawn one than this hangs on the hole itself, mm; else on the old hole.
const OF_THE_HOLE: f64 = 0.05;
/// Most intervals over the widest group.
const INTERVALS: f64 = 4.0;
/// Intervals of a ruler, in mm and in inches.
const STEPS_MM: [f64; 14] = [0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0];
const STEPS_INCH: [f64; 13] = [0.0002, 0.0005, 0.001, 0.002, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1.0, 2.0];
/// Short lines in an interval.
const FINE: f64 = 10.0;
/// An inch, mm.
const INCH: f64 = 25.4;

/// A drawing list of a picture: it can be put on paper and told in words.
pub(super) trait Pictured {
    /// What stands over it.
    fn heading(&self) -> &'static str;

    /// Draws it into a room (mm of paper) of a page; gives back what it covers and what it shows, in words.
    fn put(&self, page: &mut Page, area: AreaId, room: Rect) -> Result<(Rect, String), Fault>;
}

impl Pictured for Ladder {
    fn heading(&self) -> &'static str {
        words::LENGTHS
    }

    fn put(&self, page: &mut Page, area: AreaId, room: Rect) -> Result<(Rect, String), Fault> {
        let drawn = draughting::ladder(page, area, room, self)?;
        Ok((drawn.bounds, told::ladder(self, &drawn)))
    }
}

impl Pictured for Bars {
    fn heading(&self) -> &'static str {
        words::FITS
    }

    fn put(&self, page: &mut Page, area: AreaId, room: Rect) -> Result<(Rect, String), Fault> {
        let drawn = draughting::bars(page, area, room, self)?;
        Ok((drawn.bounds, told::bars(self, &drawn)))
    }
}

impl Pictured for Polar {
    fn heading(&self) -> &'static str {
        words::ROUND
    }

    fn put(&self, page: &mut Page, area: AreaId, room: Rect) -> Result<(Rect, String), Fault> {
        let drawn = draughting::polar(page, area, room, self)?;
        Ok((drawn.bounds, told::polar(self, &drawn)))
    }
}

impl Pictured for Spots {
    fn heading(&self) -> &'static str {
        words::SPOTS
    }

    fn put(&self, page: &mut Page, area: AreaId, room: Rect) -> Result<(Rect, String), Fault> {
        let drawn = draughting::spots(page, area, room, self)?;
        Ok((drawn.bounds, told::spots(self, &drawn)))
    }
}

impl Pictured for Links {
    fn heading(&self) -> &'static str {
        words::LINKS
    }

    fn put(&self, page: &mut Page, area: AreaId, room: Rect) -> Result<(Rect, String), Fault> {
        let drawn = draughting::links(page, area, room, self)?;
        Ok((drawn.bounds, told::links(self, &drawn)))
    }
}

impl Pictured for Pack {
    fn heading(&self) -> &'static str {
        words::PACK
    }

    fn put(&self, page: &mut Page, area: AreaId, room: Rect) -> Result<(Rect, String), Fault> {
        let drawn = draughting::pack(page, area, room, self)?;
        Ok((drawn.bounds, told::pack(self, &drawn)))
    }
}

impl Pictured for Wear {
    fn heading(&self) -> &'static str {
        words::WEAR
    }

    fn put(&self, page: &mut Page, area: AreaId, room: Rect) -> Result<(Rect, String), Fault> {
        let drawn = draughting::wear(page, area, room, self)?;
        Ok((drawn.bounds, told::wear(self, &drawn)))
    }
}

/// The picture of an answer, whole; nothing where it has none, or where what it shows has no figure.
pub(super) fn whole(answer: &Answer<String>, print: Print) -> Option<Box<dyn Pictured>> {
    fn boxed<T: Pictured + 'static>(list: Option<T>) -> Option<Box<dyn Pictured>> {
        list.map(|list| Box::new(list) as Box<dyn Pictured>)
    }
    match answer.picture.as_ref()? {
        Picture::Lengths(lengths) => boxed(ladder(answer, lengths, print)),
        Picture::Fit(fit) => boxed(bars(answer, fit, print, |_| true)),
        Picture::Polar(of) => boxed(polar(answer, of, print)),
        Picture::Pack(of) => boxed(pack(answer, of, print)),
        Picture::Links(of) => boxed(links(answer, of, print)),
        Picture::Spots(of) => boxed(spots(of, print)),
        Picture::Wear(of) => boxed(wear(answer, of, print)),
    }
}

/// The lengths of an answer in one wall; nothing where the wall or its hole has no figure.
#[must_use]
pub fn ladder(answer: &Answer<String>, of: &Lengths, print: Print) -> Option<Ladder> {
    let number = |key: &str| answer.value(key).map(|value| value.number);
    let all = &answer.alternatives;
    let (wall, hole, roots) = (number(of.wall)?, number(of.hole)?, number(of.roots)?);
    let blind = all.iter().any(|one| one.answer.value(of.depth).is_some());
    let judged = |one: &'_ Alternative<String>| -> Option<Judged> {
        one.answer.checks.iter().find(|check| check.id == of.check)?.judged
    };
    let least = all.iter().find_map(|one| Some(judged(one)?.limit)).filter(|_| blind);
    let row = |caption: &str, cells: Vec<String>, strong| TextRow { caption: caption.into(), cells, strong };
    // With how many there are, where there is a shop.
    let counted = |(at, one): (usize, &Alternative<String>)| match of.in_drawer.get(at) {
        Some(count) => format!("{} ({count})", one.name),
        None => one.name.clone(),
    };
    let in_drawer = if of.in_drawer.is_empty() { "" } else { words::IN_DRAWER };
    let above = vec![row(in_drawer, all.iter().enumerate().map(counted).collect(), true)];
    let left = |one: &Alternative<String>| {
        judged(one).map_or_else(String::new, |judged| at_worst(left_at_worst(&judged, blind), print))
    };
    let said = |one: &Alternative<String>| {
        format!("{} {}", left(one), words::verdict(one.answer.verdict())).trim_start().to_owned()
    };
    let caption = if blind { words::LEFT_AT_WORST } else { words::SPARE_AT_WORST };
    let mut below = vec![row(caption, all.iter().map(said).collect(), false)];
    let because: Vec<String> = all.iter().map(|one| besides(one, of.check)).collect();
    if because.iter().any(|why| !why.is_empty()) {
        below.push(row(words::BECAUSE, because, false));
    }
    let rung = |one: &Alternative<String>| Rung { hole: rung(one, of, wall, judged(one).as_ref()), chosen: one.chosen };
    Some(Ladder {
        wall,
        across: [hole, roots, of.coil],
        least_left: least,
        lines: [
            if blind { words::FAR_SIDE } else { words::FAR_FACE }.to_owned(),
            least.map_or_else(String::new, |least| {
                words::least_left(&figures::number(&hundredths(least, Rounds::Up, print).number))
            }),
        ],
        old: of.old,
        rungs: all.iter().map(rung).collect(),
        above,
        below,
    })
}

/// What a length leaves at worst, or what of the wall it spares at worst, mm.
fn left_at_worst(judged: &Judged, blind: bool) -> f64 {
    if blind { judged.at_worst_end - judged.doubt } else { judged.margin }
}

/// A depth as what is left under it is told.
fn hundredths(mm: f64, rounds: Rounds, print: Print) -> Shown {
    Shown::of(mm, None, Unit::Mm, (Decimals::Exactly(2), rounds), first(print))
}

/// How far inside or outside, rounded towards the worse, with its sign.
fn at_worst(mm: f64, print: Print) -> String {
    let shown = hundredths(mm, Rounds::Down, print);
    format!("{}{}", if shown.number.negative { "" } else { "+" }, figures::number(&shown.number))
}

/// Where another check than that of the depth is the worse, its name.
fn besides(one: &Alternative<String>, depth: &str) -> String {
    let worst = one.answer.verdict();
    let stamps = |id: &dyn Fn(&str) -> bool| {
        one.answer.checks.iter().find(|check| id(check.id) && check.stamps() == Some(worst)).map(|check| check.id)
    };
    if worst == Verdict::Proven || stamps(&|id| id == depth).is_some() {
        return String::new();
    }
    stamps(&|id| id != depth).map_or_else(String::new, |id| id.replace('-', " "))
}

fn rung(one: &Alternative<String>, of: &Lengths, wall: f64, judged: Option<&Judged>) -> Option<RungHole> {
    let value = |key: &str| one.answer.value(key).map(|value| value.number);
    let (thread, down, fitted) = (value(of.thread)?, value(of.set_down)?, value(of.fitted)?);
    let ends = value(of.depth).zip(value(of.tip));
    let worst = |tip: f64| {
        let left = judged?;
        let of_the_hole = (wall - tip - left.got).abs() < OF_THE_HOLE;
        of_the_hole.then(|| wall - left_at_worst(left, true))
    };
    Some(RungHole {
        depth: ends.map_or(wall, |ends| ends.0),
        tip: ends.map_or(wall, |ends| ends.1),
        thread,
        coil: (down, down + fitted),
        worst_tip: ends.and_then(|ends| worst(ends.1)),
    })
}

/// The first unit of print.
fn first(print: Print) -> Print {
    if print == Print::Both { Print::Metric } else { print }
}

fn size(mm: f64, rounds: Rounds, print: Print) -> String {
    figures::number(&Shown::usual(mm, None, Unit::Mm, rounds, first(print)).number)
}

/// The sizes of a fit as bars; `of` takes some of its groups. Groups without a figure are left out; nothing where none has one.
pub fn bars(
    answer: &Answer<String>,
    fit: &Fit<String>,
    print: Print,
    of: impl Fn(&FitGroup<String>) -> bool,
) -> Option<Bars> {
    let sizes = |group: &FitGroup<String>| -> Option<Vec<Bar>> {
        group.sizes.iter().map(|(name, ends)| bar(answer, name, *ends, print)).collect()
    };
    let all: Vec<_> = fit.groups.iter().filter(|group| of(group)).filter_map(|of| Some((of, sizes(of)?))).collect();
    let spans = all.iter().filter_map(|(group, bars)| ends(bars, &limits(answer, group)));
    let span = spans.map(|(low, high)| high - low).reduce(f64::max)?;
    let step = step(span, print);
    let groups: Vec<BarGroup> =
        all.into_iter().filter_map(|(of, bars)| group(answer, (of, bars), step, print)).collect();
    (!groups.is_empty()).then_some(Bars { groups })
}

/// The least and the greatest of some bars and of their limits, mm.
fn ends(bars: &[Bar], limits: &[(LimitLine, Rounds)]) -> Option<(f64, f64)> {
    let at = || limits.iter().map(|(limit, _)| limit.at);
    let low = bars.iter().map(|bar| bar.low).chain(at()).reduce(f64::min)?;
    Some((low, bars.iter().map(|bar| bar.high).chain(at()).reduce(f64::max)?))
}

/// The limits of a group that the answer gives, each with the way that it is rounded.
fn limits(answer: &Answer<String>, of: &FitGroup<String>) -> Vec<(LimitLine, Rounds)> {
    let all = of.limits.iter().flat_map(|(_, all)| all);
    let line = |limit: &FitLimit| {
        let value = answer.value(limit.key)?;
        Some((LimitLine { at: value.number, holds: limit.holds }, value.rounds))
    };
    all.filter_map(line).collect()
}

fn group(
    answer: &Answer<String>,
    (of, bars): (&FitGroup<String>, Vec<Bar>),
    step: f64,
    print: Print,
) -> Option<BarGroup> {
    let limits = limits(answer, of);
    let (low, high) = ends(&bars, &limits)?;
    let gap = match (&of.between, bars.as_slice()) {
        (Some((name, what)), [.., inner, outer]) => {
            let wanted = of.sizes.last().is_some_and(|(_, ends)| is_wanted(answer, *ends));
            Some(gap(name, *what, ((inner, outer), wanted), print))
        }
        _ => None,
    };
    let from = (low / step).floor() * step;
    let under = of.left_to.as_ref().and_then(|(name, key)| {
        let aim = answer.value(key)?.number;
        let marks = (0..=count(from, aim, step)).map(|n| f64::from(n) * step).filter(|left| aim - left >= from);
        Some((name.clone(), marks.map(|left| (aim - left, size(left, Rounds::Nearest, print))).collect()))
    });
    let under = under.or_else(|| {
        let (name, _) = of.limits.as_ref().filter(|_| !limits.is_empty())?;
        Some((name.clone(), limits.iter().map(|(limit, rounds)| (limit.at, size(limit.at, *rounds, print))).collect()))
    });
    let limits = limits.into_iter().map(|(limit, _)| limit).collect();
    let ruler = Ruler { under, ..ruler(&of.ruler, (low, high), step, print) };
    Some(BarGroup { bars, gap, limits, ruler })
}

/// How many intervals lie between.
fn count(from: f64, to: f64, step: f64) -> u32 {
    ((to - from) / step).round().clamp(0.0, 4.0 * INTERVALS) as u32
}

/// A ruler under bars from the least to the greatest.
fn ruler(caption: &str, (low, high): (f64, f64), step: f64, print: Print) -> Ruler {
    let (from, to) = ((low / step).floor() * step, (high / step).ceil() * step);
    let ticks = (0..=count(from, to, step)).map(|n| from + f64::from(n) * step);
    let ticks = ticks.map(|at| (at, size(at, Rounds::Nearest, print))).collect();
    Ruler { caption: caption.to_owned(), ticks, fine: step / FINE, under: None }
}

/// Bars over a ruler of their own; nothing where there are none.
fn ruled(bars: Vec<Bar>, caption: &str, print: Print) -> Option<BarGroup> {
    let (low, high) = ends(&bars, &[])?;
    let ruler = ruler(caption, (low, high), step(high - low, print), print);
    Some(BarGroup { bars, gap: None, limits: Vec::new(), ruler })
}

fn bar(answer: &Answer<String>, name: &str, ends: Ends, print: Print) -> Option<Bar> {
    let value = |key: &str| answer.value(key);
    // By its doubt a size may be anything between its ends: they are rounded outward. A limit is rounded as its value is.
    let outward = |rounds: Rounds, else_to: Rounds| if rounds == Rounds::Nearest { else_to } else { rounds };
    let (low, high, rounds) = match ends {
        Ends::Doubt(key) => {
            let value = value(key)?;
            let (low, high) = value.band.unwrap_or((value.number, value.number));
            (low - value.plus_minus, high + value.plus_minus, (Rounds::Down, Rounds::Up))
        }
        Ends::Limits(low, high) => {
            let (low, high) = (value(low)?, value(high)?);
            if is_wanted(answer, ends) {
                let ends = window((low.number, high.number), print);
                return (low.number <= high.number).then(|| Bar {
                    name: name.to_owned(),
                    low: low.number,
                    high: high.number,
                    ends,
                });
            }
            let rounds = (outward(low.rounds, Rounds::Down), outward(high.rounds, Rounds::Up));
            (low.number, high.number, rounds)
        }
    };
    (low <= high).then(|| Bar {
        name: name.to_owned(),
        low,
        high,
        ends: [size(low, rounds.0, print), size(high, rounds.1, print)],
    })
}

fn gap(name: &str, what: Between, ((inner, outer), wanted): ((&Bar, &Bar), bool), print: Print) -> Gap {
    let (least, most) = (outer.low - inner.high, outer.high - inner.low);
    let [from, to] = if wanted && least < most {
        window((least, most), print)
    } else {
        [size(least, Rounds::Down, print), size(most, Rounds::Up, print)]
    };
    Gap {
        name: name.to_owned(),
        says: [words::least(&from), words::greatest(&format!("{to} {}", words::unit_of_sizes(print)))],
        is_room: what == Between::Room,
    }
}

/// Whether two limits are wanted: each is then rounded inward, as a gauge reads it.
fn is_wanted(answer: &Answer<String>, ends: Ends) -> bool {
    let rounds = |key: &str| answer.value(key).map(|value| value.rounds);
    match ends {
        Ends::Limits(low, high) => (rounds(low), rounds(high)) == (Some(Rounds::Up), Some(Rounds::Down)),
        Ends::Doubt(_) => false,
    }
}

/// Two limits, each rounded inward.
fn window((low, high): (f64, f64), print: Print) -> [String; 2] {
    let (low, high) = Shown::window(low, high, Unit::Mm, Decimals::Usual, first(print));
    [low, high].map(|shown| figures::number(&shown.number))
}

/// Intervals of a ruler over a span, mm.
fn step(span: f64, print: Print) -> f64 {
    let (all, unit): (&[f64], f64) = if print == Print::Imperial { (&STEPS_INCH, INCH) } else { (&STEPS_MM, 1.0) };
    let mut steps = all.iter().map(|step| step * unit);
    steps.clone().find(|step| span / step <= INTERVALS).or(steps.next_back()).unwrap_or(span)
}
