//! The rows of a timetable, the same on paper, at a terminal and in a browser: set-ups, what changes machines over, breaks, days.

use super::{BREAK, MEASURING_ONLY, clock, time_of_day, what, which_day};
use crate::in_order::InOrder;
use crate::plan::day::search::{DAY, Minute};
use crate::plan::day::{Day, Line, crumb};
use crate::proof::Verdict;

/// What a row is.
pub(in crate::sheet) enum Is<'a> {
    /// A day begins: of several.
    Day,
    /// A machine is changed over, or that is begun.
    ChangeOver,
    /// A set-up.
    SetUp(&'a Line),
    /// A break.
    Break,
}

/// A row of the timetable.
pub(in crate::sheet) struct Row<'a> {
    /// From when.
    pub from: Minute,
    /// Until when.
    pub to: Minute,
    /// What it is.
    pub is: Is<'a>,
    /// What is done.
    pub words: String,
}

/// Every row, in the order of the clock.
pub(in crate::sheet) fn rows(day: &Day) -> Vec<Row<'_>> {
    let mut all: Vec<Row> = Vec::new();
    for line in &day.lines {
        all.extend(change_overs(day, line, false));
        all.push(Row { from: line.start, to: line.end, is: Is::SetUp(line), words: what(line) });
    }
    all.extend(day.ahead.iter().flat_map(|line| change_overs(day, line, true)));
    let mut days: Vec<u32> = all.iter().map(|row| row.from / DAY).collect();
    days.sort_unstable();
    days.dedup();
    let ends = all.iter().map(|row| row.to).max().unwrap_or_default();
    all.extend(days.iter().flat_map(|number| breaks(day, *number)).filter(|row| row.to <= ends));
    if days.len() > 1 {
        let begins =
            |number: &u32| Row { from: number * DAY, to: number * DAY, is: Is::Day, words: which_day(day, *number) };
        all.extend(days.iter().map(begins));
    }
    all.order_by_key(|row| row.from);
    all
}

/// The breaks of a day.
fn breaks(day: &Day, number: u32) -> Vec<Row<'_>> {
    let between = day.hours.iter().zip(day.hours.iter().skip(1));
    let stretches = between.map(|(one, next)| (one.1 + number * DAY, next.0 + number * DAY));
    let told = stretches.filter(|(from, _)| *from >= day.from);
    told.map(|(from, to)| Row { from, to, is: Is::Break, words: BREAK.into() }).collect()
}

/// The rows of a change-over: where it is begun, where it goes on for long enough to be told, where it is done. Crumbs between are
/// counted with the last. Of one for another day only what is done of it.
fn change_overs<'a>(day: &Day, line: &Line, ahead: bool) -> Vec<Row<'a>> {
    let Some(change) = &line.change else { return Vec::new() };
    let pieces = over_breaks(day, &change.pieces);
    let minutes: Vec<Minute> = pieces.iter().map(|(.., minutes)| *minutes).collect();
    let all = minutes.iter().sum::<Minute>();
    let (what, machine) = (&change.what, &line.machine);
    let mut rows = Vec::new();
    for (piece, &(from, to, ref own)) in pieces.iter().enumerate() {
        let is_crumb = *own < crumb();
        let is_last = piece + 1 == minutes.len();
        let words = match (piece, is_last && !ahead) {
            (0, true) => format!("fit {what} on the {machine}, {own} min"),
            (0, false) => {
                let part = if is_crumb || ahead { String::new() } else { format!(", {own} of {all} min") };
                let whose = if ahead { format!(", for {} of another day", line.id) } else { String::new() };
                format!("begin to fit {what} on the {machine}{part}{whose}")
            }
            (_, true) => {
                let begun = change.pieces.first().map_or(0, |(from, _)| *from);
                let parts = minutes.iter().map(ToString::to_string).collect::<Vec<_>>().join(" + ");
                format!("fit {what} on the {machine}, begun {}, {parts} min", clock(day, begun))
            }
            (_, false) if is_crumb || ahead => continue,
            (_, false) => format!("go on fitting {what} on the {machine}, {own} of {all} min"),
        };
        rows.push(Row { from, to, is: Is::ChangeOver, words });
    }
    rows
}

/// The pieces of a change-over with the minutes of each: what is put down for a break alone, and goes on behind it, is one.
fn over_breaks(day: &Day, pieces: &[(Minute, Minute)]) -> Vec<(Minute, Minute, Minute)> {
    let is_break = |from: Minute, to: Minute| {
        let of_day = |time: Minute| time % DAY;
        let between = day.hours.iter().zip(day.hours.iter().skip(1)).map(|(one, next)| (one.1, next.0));
        from / DAY == to / DAY && { between }.any(|own| own == (of_day(from), of_day(to)))
    };
    let mut all: Vec<(Minute, Minute, Minute)> = Vec::new();
    for &(from, to) in pieces {
        match all.last_mut().filter(|last| last.1 == from || is_break(last.1, from)) {
            Some(last) => (last.1, last.2) = (to, last.2 + to - from),
            None => all.push((from, to, to - from)),
        }
    }
    all
}

/// What a line is marked with, in words.
pub(in crate::sheet) fn marks(day: &Day, line: &Line) -> Vec<String> {
    let mut all = Vec::new();
    if line.measuring_only {
        all.push(MEASURING_ONLY.to_owned());
    } else if line.verdict == Verdict::Doubtful {
        all.push("D: doubtful".to_owned());
    }
    if line.hold_point {
        all.push("hold point".to_owned());
    }
    if let Some(at) = line.may_change_after {
        all.push(format!("may change after {}", clock(day, at)));
    }
    if line.part_fails {
        all.push("this part has a failing sheet".to_owned());
    }
    all.extend(rare_marks(day, line));
    all
}

/// The letters of a line on paper, where its words have no room.
pub(in crate::sheet) fn letters(line: &Line) -> Vec<&'static str> {
    let has = [!line.measuring_only && line.verdict == Verdict::Doubtful, line.part_fails, line.hold_point];
    let letters = super::LETTERS.iter().zip(has);
    letters.filter(|(_, has)| *has).map(|((letter, _), _)| *letter).collect()
}

/// What the letters on the page of a day stand for: those that occur.
pub(in crate::sheet) fn key_of_letters(day: &Day) -> String {
    let is_there = |letter: &str| day.lines.iter().any(|line| letters(line).contains(&letter));
    let [.., (thin, _)] = super::LETTERS;
    let may_change = day.lines.iter().any(|line| line.may_change_after.is_some());
    let told = super::LETTERS.iter().filter(|(letter, _)| is_there(letter) || (*letter == thin && may_change));
    told.map(|(letter, means)| format!("{letter}: {means}")).collect::<Vec<_>>().join(" · ")
}

/// Marks that few lines have: they are always told in words.
pub(in crate::sheet) fn rare_marks(day: &Day, line: &Line) -> Vec<String> {
    let mut all = Vec::new();
    if line.too_long {
        all.push("longer than any stretch: divide it".to_owned());
    }
    let lacks = day.missing.iter().filter(|lacking| lacking.id == line.id);
    all.extend(lacks.map(|lacking| format!("missing: {}", lacking.item)));
    if let Some(due) = line.due {
        all.push(match line.end.saturating_sub(due) {
            0 => format!("due {}", clock(day, due)),
            late => format!("due {}: {late} min late", clock(day, due)),
        });
    }
    let asked = day.impossible.iter().filter(|none| none.id == line.id);
    all.extend(asked.map(|none| format!("asked for at {}, which cannot be", clock(day, none.at))));
    all
}

/// When a set-up ends that is put down over the night.
pub(in crate::sheet) fn over_night(day: &Day, line: &Line) -> Option<String> {
    (line.end / DAY > line.start / DAY).then(|| format!("put down over the night, done {}", clock(day, line.end)))
}

/// What runs unattended after a line, and who fetches it.
pub(in crate::sheet) fn by_itself(day: &Day, line: &Line, until: Minute) -> String {
    let fetched = fetched(line).map_or_else(String::new, |words| format!(", {words}"));
    let beside = line.beside.as_ref().map_or_else(String::new, |beside| format!(" and {beside}"));
    let off = if line.stays { "" } else { "off the " };
    let how = how(line);
    format!("{} {how} until {} ({off}{}{beside}){fetched}", line.id, clock(day, until), line.machine)
}

/// Whether anybody must be by what runs on.
const fn how(line: &Line) -> &'static str {
    if line.watched { "to be watched" } else { "unattended" }
}

/// The same in short.
pub(in crate::sheet) fn until(line: &Line, until: Minute) -> String {
    let fetched = fetched(line).map_or_else(String::new, |words| format!(", {words}"));
    format!("{} to {}{fetched}", how(line), time_of_day(until))
}

/// A load stays inside until it is fetched, and is worked as it comes out.
fn fetched(line: &Line) -> Option<String> {
    let (id, at) = line.fetched.as_ref()?;
    let stays = if line.by_itself_until == Some(*at) { "" } else { "stays inside, " };
    Some(format!("{stays}out for {id} at {}", time_of_day(*at)))
}
