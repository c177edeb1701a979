//! The bars of a day: a row for the hands and for each machine, a tick each quarter of an hour.

use super::Sheet;
use crate::in_order::InOrder;
use crate::plan::day::search::{DAY, Minute};
use crate::plan::day::{Day, Line};
use crate::quantity::ClockTime;
use crate::sheet::fonts::{Fault, measure};
use crate::sheet::layout::block::{BODY, HAIR, STRONG, Style, plain};
use crate::sheet::layout::flow::EDGE;
use crate::sheet::layout::lists::chunks;
use crate::sheet::layout::strip::on_one_line;
use crate::sheet::page::{Anchor, Dash, Fill, Kind, Page, Point, Rect, Text};
use crate::sheet::words::day as said;

/// Greatest width of the names before the bars, mm.
const NAMES: f64 = 34.0;
/// Least width of the names: an hour has room before its tick, mm.
const LEAST_NAMES: f64 = 16.0;
/// Between a name and its bars, mm.
const BEHIND: f64 = 2.0;
/// Height of a row, mm.
const ROW: f64 = 4.4;
/// The same where several jobs are planned, mm.
const TALL_ROW: f64 = 6.0;
/// Height of the row of hours, mm.
const HOURS: f64 = 5.0;
/// Height of what runs unattended under something else, mm.
const STRIP: f64 = 1.2;
/// Air above and below a bar, mm.
const AIR: f64 = 0.2;
/// Frame of a bar, mm.
const FRAME: f64 = 0.35;
/// Grey of a break, hundredths of black.
const BREAK: u8 = 12;
/// Between the lines of what runs unattended, mm.
const HATCH: f64 = 1.5;

/// Puts the bars of each day that is worked.
pub(super) fn put(sheet: &mut Sheet, day: &Day) -> Result<(), Fault> {
    let last = day.lines.iter().map(|line| line.end).max().unwrap_or_default();
    let works = |number: &u32| day.lines.iter().any(|line| line.start / DAY == *number);
    let days: Vec<u32> = (0..=last / DAY).filter(works).collect();
    // An hour is as wide on each of them.
    let longest = days.iter().filter_map(|number| shown(day, *number)).map(|(from, to)| to - from).max();
    for number in &days {
        one_day(sheet, day, *number, longest.filter(|_| days.len() > 1))?;
    }
    Ok(())
}

/// From when to when a day is shown: what is over before closing has the room of the whole picture.
fn shown(day: &Day, number: u32) -> Option<(Minute, Minute)> {
    let (open, close) = day.hours.first().zip(day.hours.last()).map(|(first, last)| (first.0, last.1))?;
    let midnight = number * DAY;
    let done = ends(day).filter(|end| end.saturating_sub(1) / DAY == number).max().unwrap_or_default();
    let close = close.min(done.saturating_sub(midnight)).max(open + 60);
    Some((midnight + open / 30 * 30, midnight + close.div_ceil(30) * 30))
}

/// From when to when a picture shows, and where on the paper.
struct Scale {
    from: Minute,
    to: Minute,
    left: f64,
    width: f64,
}

impl Scale {
    fn x(&self, at: Minute) -> f64 {
        let at = f64::from(at.clamp(self.from, self.to) - self.from);
        self.left + self.width * at / f64::from(self.to - self.from)
    }

    /// A stretch as it stands on the paper; none where it is not shown.
    fn bar(&self, (from, to): (Minute, Minute), (top, high): (f64, f64)) -> Option<Rect> {
        let shown = from.max(self.from) < to.min(self.to);
        shown.then(|| Rect::new(self.x(from), top + AIR, self.x(to), top + high - AIR))
    }
}

/// A piece of a row.
struct Piece<'a> {
    stretch: (Minute, Minute),
    is: Is,
    id: &'a str,
}

#[derive(Clone, Copy, PartialEq)]
enum Is {
    Hands,
    ChangeOver,
    ByItself,
}

/// One day; where it is one of several, `longest` is how long the longest of them is shown, and a machine that stands all day has
/// no row.
fn one_day(sheet: &mut Sheet, day: &Day, number: u32, longest: Option<Minute>) -> Result<(), Fault> {
    let Some((from, to)) = shown(day, number) else { return Ok(()) };
    let is_seen = |piece: &Piece| piece.stretch.0 < to && piece.stretch.1 > from;
    let rows: Vec<(&str, Vec<Piece>)> = std::iter::once((said::HANDS, hands(day)))
        .chain(day.machines.iter().map(|machine| (machine.name.as_str(), of_machine(day, &machine.name))))
        .enumerate()
        .filter(|(at, (_, pieces))| *at == 0 || longest.is_none() || pieces.iter().any(is_seen))
        .map(|(_, row)| row)
        .collect();
    let names: Vec<String> = day.machines.iter().map(|machine| plain(&machine.name)).collect();
    let names: Vec<(Style, &str)> = names.iter().map(|name| (BODY, name.as_str())).collect();
    // A stroke between job and set-up is taller than a figure.
    let wished = if day.jobs.len() > 1 { TALL_ROW } else { ROW };
    let (_, high) = super::row_of(&names, wished)?;
    let height = HOURS + high * rows.len() as f64 + super::GAP;
    if sheet.y + height > sheet.floor() {
        sheet.turn();
    }
    let (top, width) = (sheet.y, sheet.width());
    sheet.y += height;
    let Some(page) = sheet.pages.last_mut() else { return Ok(()) };
    let area = page.area("bars", Rect::new(EDGE, top, EDGE + width, top + height));
    let widest = names.iter().map(|(style, name)| style.width(name)).collect::<Result<Vec<f64>, Fault>>()?;
    let title = if longest.is_some() { said::which_day(day, number) } else { String::new() };
    // The first hour reaches back over the names: the day before it keeps clear.
    let widest = widest.into_iter().chain([BODY.width(&title)? + LEAST_NAMES / 2.0]);
    let names = widest.fold(LEAST_NAMES, f64::max).min(NAMES - BEHIND) + BEHIND;
    let share = longest.map_or(1.0, |longest| f64::from(to - from) / f64::from(longest.max(1)));
    let scale = Scale { from, to, left: EDGE + names, width: (width - names) * share };
    let figure = page.open(Kind::Figure);
    let bottom = top + HOURS + high * rows.len() as f64;
    grounds(page, area, day, &scale, (number, top + HOURS, bottom));
    hours(page, area, &scale, (top, bottom), &title)?;
    for (at, (name, pieces)) in rows.iter().enumerate() {
        let row = top + HOURS + high * at as f64;
        let style = if at == 0 { STRONG } else { BODY };
        let name = on_one_line(style, name, scale.left - EDGE - BEHIND)?;
        let base = row + f64::midpoint(high, style.capital);
        page.text(area, Point::new(EDGE, base), Anchor::Left, Text::new(style.font, style.role, style.capital, name))?;
        for piece in pieces {
            let next = pieces.iter().map(|other| other.stretch.0).filter(|next| *next >= piece.stretch.1);
            let shares = |other: &Piece| other.stretch.0 < piece.stretch.1 && piece.stretch.0 < other.stretch.1;
            // Glue cures while the hands work there: it has the lower edge of the row.
            let is_under =
                piece.is == Is::ByItself && pieces.iter().any(|other| other.is != Is::ByItself && shares(other));
            let at = if is_under { (row + high - STRIP - 2.0 * AIR, STRIP + 2.0 * AIR) } else { (row, high) };
            // Over what runs unattended there no id has room.
            let is_over =
                piece.is != Is::ByItself && pieces.iter().any(|other| other.is == Is::ByItself && shares(other));
            let id = if is_over { "" } else { piece.id };
            let piece = &Piece { id, ..*piece };
            draw(page, area, &scale, piece, at, next.min().unwrap_or(scale.to))?;
        }
    }
    page.close();
    page.describe(figure, described(day, number));
    Ok(())
}

/// How much is said of the minutes by machine.
#[derive(Clone, Copy)]
pub(super) enum Minutes {
    /// Hands there, and the share of the day in use.
    Whole,
    /// The hands alone: what is in use is seen in the bars.
    Hands,
    /// Nothing.
    None,
}

/// Minutes by machine, under the bars.
pub(super) fn minutes(sheet: &mut Sheet, day: &Day, minutes: Minutes) -> Result<(), Fault> {
    let (head, machines): (&str, Vec<String>) = match minutes {
        Minutes::Whole => (said::IN_USE, day.machines.iter().map(|own| said::machine_in_short(day, own)).collect()),
        Minutes::Hands => (said::HANDS_THERE, day.machines.iter().filter_map(said::hands_in_short).collect()),
        Minutes::None => return Ok(()),
    };
    if machines.is_empty() {
        return Ok(());
    }
    let words = format!("{head}: {}", machines.join("; "));
    for block in chunks(&BODY.wrap(&words, sheet.width())?, 0.0, 0.3, BODY)? {
        sheet.put("minutes", &block, Kind::P);
    }
    Ok(())
}

/// When anything of the day ends, with what is fitted for another day.
fn ends(day: &Day) -> impl Iterator<Item = Minute> + '_ {
    let pieces = day.ahead.iter().flat_map(|line| &line.change).flat_map(|change| &change.pieces);
    let of_lines = day.lines.iter().flat_map(|line| [Some(line.end), line.by_itself_until]).flatten();
    let begun = day.lines.iter().flat_map(|line| &line.change).flat_map(|change| &change.pieces);
    of_lines.chain(pieces.chain(begun).map(|(_, to)| *to))
}

/// What the bars show, in words.
fn described(day: &Day, number: u32) -> String {
    let shown = day.lines.iter().filter(|line| line.start / DAY == number);
    let line = |line: &Line| {
        format!("{} {} {}–{}", line.id, line.machine, said::clock(day, line.start), said::clock(day, line.end))
    };
    format!("{}: {}", said::BARS, shown.map(line).collect::<Vec<_>>().join("; "))
}

/// Breaks, and what is not open.
fn grounds(
    page: &mut Page,
    area: crate::sheet::page::AreaId,
    day: &Day,
    scale: &Scale,
    (number, top, bottom): (u32, f64, f64),
) {
    let mut from = scale.from;
    let open = day.hours.iter().map(|(start, end)| (start + number * DAY, end + number * DAY));
    for (start, end) in open.chain([(scale.to, scale.to)]) {
        if start > from {
            page.rectangle(area, Rect::new(scale.x(from), top, scale.x(start), bottom), Fill::Grey(BREAK), None);
        }
        from = from.max(end);
    }
}

/// The hours over the bars, and the ticks of the half hours through them.
fn hours(
    page: &mut Page,
    area: crate::sheet::page::AreaId,
    scale: &Scale,
    (top, bottom): (f64, f64),
    title: &str,
) -> Result<(), Fault> {
    let text = |words: &str| Text::new(BODY.font, BODY.role, BODY.capital, words);
    let base = top + BODY.capital + 0.6;
    page.text(area, Point::new(EDGE, base), Anchor::Left, text(title))?;
    let mut at = scale.from;
    let mut free = scale.left - LEAST_NAMES / 2.0;
    while at <= scale.to {
        let x = scale.x(at);
        let high = if at.is_multiple_of(60) { 1.0 } else { 0.6 };
        page.line(area, vec![Point::new(x, top + HOURS - high), Point::new(x, top + HOURS)], HAIR, Dash::Whole);
        if at.is_multiple_of(60) {
            let words = ClockTime::of(at % DAY).to_string();
            let wide = BODY.width(&words)?;
            let left = (x - wide / 2.0).clamp(free, (scale.left + scale.width - wide).max(free));
            if left + wide <= scale.left + scale.width + 1e-6 {
                page.text(area, Point::new(left, base), Anchor::Left, text(&words))?;
                free = left + wide + 1.0;
            }
        }
        at += 15;
    }
    page.line(
        area,
        vec![Point::new(scale.left, bottom), Point::new(scale.left + scale.width, bottom)],
        HAIR,
        Dash::Whole,
    );
    Ok(())
}

/// Everything that the hands do, in the order of the clock.
fn hands(day: &Day) -> Vec<Piece<'_>> {
    let mut all: Vec<Piece> =
        day.lines.iter().flat_map(|line| own(day, line)).filter(|piece| piece.is != Is::ByItself).collect();
    all.extend(day.ahead.iter().flat_map(fitted));
    all.order_by_key(|piece| piece.stretch);
    all
}

/// All that happens on a machine, in the order of the clock.
fn of_machine<'a>(day: &'a Day, machine: &str) -> Vec<Piece<'a>> {
    let lines = day.lines.iter().filter(|line| line.machine == machine);
    let (by_itself, mut all): (Vec<Piece>, Vec<Piece>) =
        lines.flat_map(|line| own(day, line)).partition(|piece| piece.is == Is::ByItself);
    let beside = day.lines.iter().filter(|line| line.beside.as_deref() == Some(machine));
    let by_itself =
        by_itself.into_iter().chain(beside.flat_map(|line| own(day, line)).filter(|piece| piece.is == Is::ByItself));
    all.extend(day.ahead.iter().filter(|line| line.machine == machine).flat_map(fitted));
    all.extend(joined(by_itself.collect()));
    all.order_by_key(|piece| piece.stretch);
    all
}

/// What runs unattended at the same time is one bar.
fn joined(mut all: Vec<Piece<'_>>) -> Vec<Piece<'_>> {
    all.order_by_key(|piece| piece.stretch);
    let mut joined: Vec<Piece> = Vec::new();
    for piece in all {
        match joined.last_mut().filter(|last| piece.stretch.0 <= last.stretch.1) {
            Some(last) => last.stretch.1 = last.stretch.1.max(piece.stretch.1),
            None => joined.push(piece),
        }
    }
    joined
}

/// The pieces of a change-over.
fn fitted(line: &Line) -> impl Iterator<Item = Piece<'_>> {
    let pieces = line.change.iter().flat_map(|change| &change.pieces);
    pieces.map(|stretch| Piece { stretch: *stretch, is: Is::ChangeOver, id: "" })
}

/// The pieces of a line: its change-over, the hands between breaks, and what runs unattended.
fn own<'a>(day: &Day, line: &'a Line) -> Vec<Piece<'a>> {
    let piece = |stretch, is| Piece { stretch, is, id: if is == Is::Hands { &line.id } else { "" } };
    let by_itself = line.by_itself_until.map(|until| piece((line.end, until), Is::ByItself));
    fitted(line)
        .chain(worked(day, line).into_iter().map(|stretch| piece(stretch, Is::Hands)))
        .chain(by_itself)
        .collect()
}

/// The stretches of a line between breaks.
fn worked(day: &Day, line: &Line) -> Vec<(Minute, Minute)> {
    let days = line.start / DAY..=line.end / DAY;
    let open = days.flat_map(|number| day.hours.iter().map(move |(from, to)| (from + number * DAY, to + number * DAY)));
    let cut = open.map(|(from, to)| (from.max(line.start), to.min(line.end))).filter(|(from, to)| from < to);
    let all: Vec<(Minute, Minute)> = cut.collect();
    if all.is_empty() { vec![(line.start, line.end)] } else { all }
}

/// One bar: the hands framed and full, a change-over framed, what runs unattended hatched; the id in its bar, else behind it.
fn draw(
    page: &mut Page,
    area: crate::sheet::page::AreaId,
    scale: &Scale,
    piece: &Piece,
    (row, high): (f64, f64),
    next: Minute,
) -> Result<(), Fault> {
    let Some(bar) = scale.bar(piece.stretch, (row, high)) else { return Ok(()) };
    match piece.is {
        Is::Hands => page.rectangle(area, bar.grown(-FRAME / 2.0), Fill::White, Some(FRAME)),
        Is::ChangeOver => {
            page.rectangle(area, bar.grown(-0.09), Fill::White, Some(HAIR));
            let (from, to) = (Point::new(bar.left, bar.bottom), Point::new(bar.right, bar.top));
            page.line(area, vec![from, to], HAIR, Dash::Whole);
        }
        Is::ByItself => {
            page.rectangle(area, bar.grown(-0.09), Fill::None, Some(HAIR));
            let mut x = bar.left + HATCH;
            while x < bar.right {
                page.line(area, vec![Point::new(x, bar.top), Point::new(x, bar.bottom)], HAIR, Dash::Whole);
                x += HATCH;
            }
        }
    }
    if piece.id.is_empty() {
        return Ok(());
    }
    let size = measure(BODY.font, BODY.capital, piece.id)?;
    let base = row + f64::midpoint(high, BODY.capital);
    let right = scale.x(next);
    let text = Text::new(BODY.font, BODY.role, BODY.capital, piece.id);
    // A frame crosses no letter: what is taller than the bar stands in none.
    let is_low = base - size.above >= bar.top + FRAME && base + size.below <= bar.bottom - FRAME;
    if is_low && size.width + 2.0 * FRAME <= bar.width() {
        page.text(area, Point::new(bar.left + bar.width() / 2.0, base), Anchor::Centre, text)?;
    } else if bar.right + size.width + 1.0 <= right {
        page.text(area, Point::new(bar.right + 0.5, base), Anchor::Left, text)?;
    }
    Ok(())
}
