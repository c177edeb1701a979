//! A day at a terminal: its head, the timetable, the bars, and what must be to hand.

use super::lines::Lines;
use crate::plan::day::search::{DAY, Minute};
use crate::plan::day::{Day, Line};
use crate::sheet::words;
use crate::sheet::words::day as said;
use crate::sheet::words::day::rows::{self, Is, Row};

/// Which reasons are shown.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Reasons {
    /// None.
    None,
    /// Why each line stands behind the one before it.
    All,
    /// All that binds one set-up, by its id.
    Of(String),
}

/// A day as text; none where the id of the reasons is no line of it.
pub fn day(day: &Day, reasons: &Reasons) -> Option<String> {
    let mut out = Lines::default();
    head(&mut out, day);
    timetable(&mut out, day);
    bars(&mut out, day);
    if !shown(&mut out, day, reasons) {
        return None;
    }
    list(&mut out, said::LOG_FAULTS, day.log_faults.iter().cloned());
    list(&mut out, said::HOLD_POINTS, said::hold_points(day).into_iter());
    list(&mut out, said::APPOINTMENTS, day.impossible.iter().map(|none| said::appointment(day, none)));
    list(&mut out, said::BROKEN, day.better_broken.iter().map(said::broken));
    pull(&mut out, day);
    list(&mut out, said::LACKING, day.missing.iter().map(|lacking| said::lacking(day, lacking)));
    if !day.machines.is_empty() {
        out.heading(said::MACHINES);
        let rows: Vec<Vec<String>> = day.machines.iter().map(|own| said::of_machine(day, own).to_vec()).collect();
        out.table(2, &rows);
    }
    list(&mut out, said::OUT, day.left_out.iter().map(said::left_out));
    list(&mut out, said::OVER, day.left_over.iter().map(|over| said::left_over(day, over)));
    list(&mut out, said::RULES_OUT, day.rules_left_out.iter().map(said::rule_out));
    list(&mut out, said::LOGGED, said::logged(day).into_iter());
    list(&mut out, said::TAKEN_AS_DONE, said::taken_as_done(day).into_iter());
    list(&mut out, said::DEFAULTS, said::all_assumed(day).into_iter());
    out.heading(words::STANDING);
    Some(out.finish())
}

fn head(out: &mut Lines, day: &Day) {
    let names = day.jobs.iter().chain(&day.engines).chain(&day.shop).cloned().collect::<Vec<_>>().join(" · ");
    out.line(&names);
    let date = day.date.map(|date| date.to_string());
    let when: Vec<String> = date.into_iter().chain([format!("{} {}", said::OPEN, said::hours(day))]).collect();
    out.line(&when.join(" · "));
    out.line(&format!("{} {}, {}", said::FINISH, said::finish(day), said::proof(day)));
    out.line(&said::sums(day));
}

fn list(out: &mut Lines, heading: &str, lines: impl Iterator<Item = String>) {
    let mut lines = lines.peekable();
    if lines.peek().is_some() {
        out.heading(heading);
        lines.for_each(|line| out.hanging("  ", &line));
    }
}

/// Every line, every change-over, and what runs unattended, in the order of the clock.
fn timetable(out: &mut Lines, day: &Day) {
    out.heading(said::TIMETABLE);
    if day.lines.is_empty() {
        out.hanging("  ", said::nothing(day));
    }
    let cells = |of: &Row| {
        let when = format!("{}–{}", said::clock(day, of.from), said::clock(day, of.to));
        match of.is {
            Is::Day => vec![of.words.clone(), String::new(), String::new()],
            Is::Break => vec![when, String::new(), of.words.clone()],
            Is::ChangeOver => vec![when, String::new(), format!("({})", of.words)],
            Is::SetUp(line) => vec![when, line.id.clone(), set_up(day, of, line)],
        }
    };
    out.table(2, &rows::rows(day).iter().map(cells).collect::<Vec<_>>());
}

/// A set-up with all that it is marked with.
fn set_up(day: &Day, of: &Row, line: &Line) -> String {
    let mut words = vec![of.words.clone(), line.machine.clone(), said::minutes(line)];
    words.extend(rows::marks(day, line));
    let by_itself = line.by_itself_until.map(|until| format!("; {}", rows::by_itself(day, line, until)));
    words.join(", ") + &by_itself.unwrap_or_default()
}

/// Columns for the bars of a day, at most.
const COLUMNS: usize = 62;

/// Columns for what a bar is of, with the blanks before it.
const BEFORE_BARS: usize = 16;

/// A row of bars for the hands and for each machine, day by day.
fn bars(out: &mut Lines, day: &Day) {
    let Some((open, close)) = day.hours.first().zip(day.hours.last()).map(|(first, last)| (first.0, last.1)) else {
        return;
    };
    if day.lines.is_empty() {
        return;
    }
    let columns = super::columns().map_or(COLUMNS, |all| COLUMNS.min(all.saturating_sub(BEFORE_BARS)));
    let fits = |step: &Minute| (close - open / 60 * 60).div_ceil(*step) as usize <= columns;
    let step = [10, 15, 20, 30, 60].into_iter().find(fits).unwrap_or(60);
    out.heading(said::BARS);
    let last = day.lines.iter().map(|line| line.end).max().unwrap_or_default();
    let days: Vec<u32> =
        (0..=last / DAY).filter(|number| day.lines.iter().any(|line| line.start / DAY == *number)).collect();
    for number in &days {
        if days.len() > 1 {
            out.line(&format!("  {}", said::which_day(day, *number)));
        }
        let from = number * DAY + open / 60 * 60;
        let signs = (number * DAY + close - from).div_ceil(step);
        let window = Window { day, from, step, signs };
        out.line(&format!("  {:<14}{}", "", window.hours()));
        out.line(&format!("  {:<14}{}", said::HANDS, window.row(None)));
        for machine in &day.machines {
            let name: String = machine.name.chars().take(13).collect();
            out.line(&format!("  {name:<14}{}", window.row(Some(&machine.name))));
        }
    }
    out.line(&format!("  {} {step} min", said::SIGNS));
}

/// A stretch of time as signs.
struct Window<'a> {
    day: &'a Day,
    from: Minute,
    step: Minute,
    signs: Minute,
}

impl Window<'_> {
    /// The hours over the signs.
    fn hours(&self) -> String {
        let every = 60 / self.step.min(60);
        let mut text = String::new();
        for sign in 0..self.signs {
            if sign % every == 0 && text.chars().count() <= sign as usize {
                text += &format!("{:02}", (self.from + sign * self.step) / 60 % 24);
            } else if text.chars().count() <= sign as usize {
                text.push(' ');
            }
        }
        text
    }

    /// The signs of the hands, or of a machine.
    fn row(&self, machine: Option<&str>) -> String {
        let own = |line: &&Line| machine.is_none_or(|name| line.machine == name);
        let own: Vec<&Line> = self.day.lines.iter().filter(own).collect();
        (0..self.signs).map(|sign| self.sign((machine, &own), self.from + sign * self.step)).collect()
    }

    /// What most of a sign's minutes are, of all lines or those of a machine.
    fn sign(&self, (machine, own): (Option<&str>, &[&Line]), from: Minute) -> char {
        let to = from + self.step;
        let lines = || own.iter();
        let within = |(start, end): (Minute, Minute)| end.min(to).saturating_sub(start.max(from));
        let hands = lines().map(|line| within((line.start, line.end))).sum::<Minute>();
        let pieces = lines().filter_map(|line| line.change.as_ref()).flat_map(|change| &change.pieces);
        let change = pieces.map(|piece| within(*piece)).sum::<Minute>();
        let tails = self.day.lines.iter().filter_map(|line| line.unattended_in(machine?));
        let by_itself = tails.map(within).max().unwrap_or_default();
        let open: Minute =
            self.day.hours.iter().map(|(start, end)| within((start + from / DAY * DAY, end + from / DAY * DAY))).sum();
        let most = hands.max(change).max(by_itself);
        if open == 0 && by_itself == 0 {
            '|'
        } else if most * 3 < self.step {
            ' '
        } else if most == hands {
            '#'
        } else if most == change {
            '/'
        } else {
            '.'
        }
    }
}

/// The reasons asked for; false where the id is no line of the day.
fn shown(out: &mut Lines, day: &Day, reasons: &Reasons) -> bool {
    match reasons {
        Reasons::None => {}
        Reasons::All => {
            out.heading(said::REASONS);
            let rows: Vec<Vec<String>> =
                day.lines.iter().map(|line| vec![line.id.clone(), said::why(day, &line.why)]).collect();
            out.table(2, &rows);
        }
        Reasons::Of(id) => {
            let Some(line) = day.lines.iter().find(|line| line.id == *id) else { return false };
            out.heading(said::REASONS);
            out.hanging("  ", &format!("{} {}", line.id, said::what(line)));
            out.hanging("    ", &said::why(day, &line.why));
            line.after.iter().chain(&line.apart).for_each(|edge| out.hanging("    ", &said::edge(day, edge)));
            out.hanging("    ", &said::slack(line));
        }
    }
    true
}

/// By drawer, each in the order of use.
fn pull(out: &mut Lines, day: &Day) {
    if day.pull.is_empty() {
        return;
    }
    out.heading(said::PULL);
    let row = |own: &crate::plan::day::Pulled| {
        vec![
            said::drawer(own.drawer).to_owned(),
            said::clock(day, own.first_at),
            format!("{} ({} {})", said::pulled(own), said::FOR, own.sheets.join(", ")),
        ]
    };
    let mut rows: Vec<Vec<String>> = day.pull.iter().map(row).collect();
    let mut last = String::new();
    for row in &mut rows {
        let Some(drawer) = row.first_mut() else { continue };
        if *drawer == last { drawer.clear() } else { last.clone_from(drawer) }
    }
    out.table(2, &rows);
}
