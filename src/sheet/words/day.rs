//! Words of a day: headings, and what is said of its lines.

mod reasons;
pub(in crate::sheet) mod rows;
mod taken;

pub(in crate::sheet) use reasons::{edge, kind, slack, why};
pub(in crate::sheet) use taken::{all_assumed, assumed, assumed_in_short, taken_as_done};

use crate::in_order::InOrder;
use crate::operations::Drawer;
use crate::plan::day::search::{DAY, Minute, Proof};
use crate::plan::day::{
    Broken, Day, DoneByLog, Lacking, LeftOut, LeftOver, Line, NoAppointment, NoTime, OfMachine, Pulled, Stop,
};
use crate::quantity::ClockTime;

/// Heading of the lines.
pub(in crate::sheet) const TIMETABLE: &str = "Timetable";
/// Heading of the bars.
pub(in crate::sheet) const BARS: &str = "The day at a glance";
/// What the signs of the bars stand for.
pub(in crate::sheet) const SIGNS: &str = "# hands   / change-over   . unattended   | break   one sign";
/// Heading of the moments at which the day may change.
pub(in crate::sheet) const HOLD_POINTS: &str = "Hold points: look again";
/// Heading of better rules that are broken.
pub(in crate::sheet) const BROKEN: &str = "Preferences not kept";
/// Heading of the pull list.
pub(in crate::sheet) const PULL: &str = "Pull list";
/// Heading of what the shop lacks.
pub(in crate::sheet) const LACKING: &str = "Missing: buy or borrow";
/// Heading of the minutes by machine.
pub(in crate::sheet) const MACHINES: &str = "Minutes by machine";
/// The same in one line.
pub(in crate::sheet) const IN_USE: &str = "Hands there, in use";
/// The hands alone in one line, where that has no room.
pub(in crate::sheet) const HANDS_THERE: &str = "Hands there, min";
/// Over the minutes of the timetable.
pub(in crate::sheet) const MIN: &str = "min";
/// Heading of what stands outside the day.
pub(in crate::sheet) const OUT: &str = "Left out";
/// Heading of what is for another day.
pub(in crate::sheet) const OVER: &str = "Left for the next day";
/// Heading of lines of the log that are not whole.
pub(in crate::sheet) const LOG_FAULTS: &str = "The log is not whole";
/// Heading of what the log says is done.
pub(in crate::sheet) const LOGGED: &str = "Done, as the log says";
/// Heading of states that are taken as holding.
pub(in crate::sheet) const TAKEN_AS_DONE: &str = "Taken as done";
/// Heading of the defaults.
pub(in crate::sheet) const DEFAULTS: &str = "Assumed";
/// Heading of both.
pub(in crate::sheet) const TAKEN_AND_ASSUMED: &str = "Taken as done, assumed";
/// Heading of the reasons.
pub(in crate::sheet) const REASONS: &str = "Why in this order";
/// Heading of appointments that cannot be.
pub(in crate::sheet) const APPOINTMENTS: &str = "Appointments that cannot be kept";
/// Heading of rules that were left out.
pub(in crate::sheet) const RULES_OUT: &str = "Rules of order left out";
/// The row of the hands.
pub(in crate::sheet) const HANDS: &str = "hands";
/// A break in the timetable.
pub(in crate::sheet) const BREAK: &str = "break";
/// Caption of the open hours.
pub(in crate::sheet) const OPEN: &str = "Open";
/// Caption of the finish.
pub(in crate::sheet) const FINISH: &str = "Finish";
/// Over the sheets of a list.
pub(in crate::sheet) const FOR: &str = "for";
/// Title of the page.
pub(in crate::sheet) const DAY_PAGE: &str = "Day";
/// A set-up of an operation that fails, which measures only.
pub(in crate::sheet) const MEASURING_ONLY: &str = "measuring only";
/// What the letters of the page stand for.
pub(in crate::sheet) const LETTERS: [(&str, &str); 4] =
    [("D", "doubtful"), ("F", "part with a failing sheet"), ("H", "read by then"), ("thin", "may change")];

/// What stands in a timetable without lines.
pub(in crate::sheet) const fn nothing(day: &Day) -> &'static str {
    match (day.left_over.is_empty(), day.left_out.is_empty()) {
        (false, _) => "Nothing has room in the days asked for: see what is left for the next day.",
        (true, false) => "Nothing may be done: see what is left out.",
        (true, true) => "Nothing is left to be done.",
    }
}

/// A time: of the first day alone its clock, of a later one with the day.
pub(in crate::sheet) fn clock(day: &Day, at: Minute) -> String {
    let (days, time) = (at / DAY, ClockTime::of(at % DAY));
    match (days, day.date) {
        (0, _) => time.to_string(),
        (_, Some(date)) => format!("{} {time}", date.plus(days)),
        (_, None) => format!("day {} {time}", days + 1),
    }
}

/// A day of several, over its bars.
pub(in crate::sheet) fn which_day(day: &Day, number: u32) -> String {
    day.date.map_or_else(|| format!("day {}", number + 1), |date| date.plus(number).to_string())
}

/// The open hours with their breaks.
pub(in crate::sheet) fn hours(day: &Day) -> String {
    hours_of(&day.hours)
}

/// The same in two lines, the longer first.
pub(in crate::sheet) fn hours_in_two(day: &Day) -> [String; 2] {
    let (first, then) = day.hours.split_at(day.hours.len().div_ceil(2));
    [format!("{OPEN} {},", hours_of(first)), hours_of(then)]
}

fn hours_of(stretches: &[(Minute, Minute)]) -> String {
    let stretch = |(from, to): &(Minute, Minute)| format!("{}–{}", ClockTime::of(*from), end(*to));
    stretches.iter().map(stretch).collect::<Vec<_>>().join(", ")
}

/// An end of a stretch: midnight is the end of its own day.
fn end(at: Minute) -> String {
    if at == DAY { "24:00".into() } else { ClockTime::of(at).to_string() }
}

/// When the day ends.
pub(in crate::sheet) fn finish(day: &Day) -> String {
    let about = if day.not_known > 0 { "about " } else { "" };
    format!("{about}{}", clock(day, day.finish))
}

/// How well the finish is known to be the least.
pub(in crate::sheet) fn proof(day: &Day) -> String {
    match day.proof {
        Proof::NeverIdle => "the least possible: the hands are never idle".into(),
        Proof::Weighed => "the least possible: every order was weighed or ruled out".into(),
        Proof::LeastFinish => "the least possible; of the orders that end then, the best that was found".into(),
        Proof::Near => {
            let share = f64::from(day.gap) * 100.0 / f64::from(day.open.max(1));
            let cannot = clock(day, day.bound);
            format!("near the least: it cannot be before {cannot} (gap {} min, {share:.0} %)", day.gap)
        }
    }
}

/// Minutes of the hands, of change-overs, and of waiting.
pub(in crate::sheet) fn sums(day: &Day) -> String {
    let not_known = if day.not_known > 0 { format!(", {} of them not known", day.not_known) } else { String::new() };
    let late = if day.late > 0 { format!(", late {} min", day.late) } else { String::new() };
    let Day { hands, change, waiting, .. } = day;
    format!("hands {hands} min{not_known}, change-over {change} min, waiting {waiting} min{late}")
}

/// What is done in a line.
pub(in crate::sheet) fn what(line: &Line) -> String {
    format!("{}: {}", line.part, line.set_up)
}

/// Minutes of a line; those that nobody knows with a question mark.
pub(in crate::sheet) fn minutes(line: &Line) -> String {
    format!("{} {MIN}", bare_minutes(line))
}

/// The same under their head.
pub(in crate::sheet) fn bare_minutes(line: &Line) -> String {
    format!("{}{}", line.hands, if line.not_known { "?" } else { "" })
}

/// A time without its day.
pub(in crate::sheet) fn time_of_day(at: Minute) -> String {
    ClockTime::of(at % DAY).to_string()
}

/// A rule of order left out, with its reason.
pub(in crate::sheet) fn rule_out((rule, why): &(String, Option<String>)) -> String {
    why.as_ref().map_or_else(|| rule.clone(), |why| format!("{rule}: {why}"))
}

/// A moment to look again.
fn hold_point(line: &Line, waits: &[&str]) -> String {
    let what = what(line);
    let first = line.read_at <= line.start;
    let before = if first { ", before it is begun" } else { "" };
    let own = first.then_some(line.id.as_str());
    let decides: Vec<&str> = own.into_iter().chain(waits.iter().copied()).collect();
    if decides.is_empty() {
        format!("{} {what}", line.id)
    } else {
        format!("{} {what}{before}; what is measured decides {}", line.id, decides.join(", "))
    }
}

/// Every moment to look again, with its time, by the clock: what runs unattended is read later than what comes behind it.
pub(in crate::sheet) fn hold_points(day: &Day) -> Vec<String> {
    let mut holds: Vec<&Line> = day.lines.iter().filter(|line| line.hold_point).collect();
    holds.order_by_key(|line| line.read_at);
    let said = |line: &Line| {
        let waits: Vec<&str> = day.decided_by(&line.id).iter().map(|line| line.id.as_str()).collect();
        format!("{}  {}", clock(day, line.read_at), hold_point(line, &waits))
    };
    holds.into_iter().map(said).collect()
}

/// A better rule that is broken.
pub(in crate::sheet) fn broken(broken: &Broken) -> String {
    let Broken { rule, first, then, keeping_costs, for_another } = broken;
    let costs = match keeping_costs {
        Some(0) if *for_another => "; kept, it breaks another of these in its place".to_owned(),
        Some(0) => "; keeping it costs no minute of the finish".to_owned(),
        Some(minutes) => format!("; keeping it ends the day {minutes} min later"),
        None => String::new(),
    };
    let stands = if rule.scope.has_no_direction() { "beside" } else { "before" };
    format!("{}: {first} better {stands} {then}: {}{costs}", rule.rule, rule.reason)
}

/// A drawer.
pub(in crate::sheet) const fn drawer(drawer: Drawer) -> &'static str {
    match drawer {
        Drawer::Tools => "tools",
        Drawer::Inserts => "inserts",
        Drawer::Shims => "shims",
        Drawer::Gauges => "gauges",
        Drawer::Abrasives => "abrasives",
        Drawer::Oils => "oils",
        Drawer::Gloves => "gloves and guards",
    }
}

/// A thing to be pulled: what, and how many where more than one, or where they are used up; marked where the shop lacks it.
pub(in crate::sheet) fn pulled(pulled: &Pulled) -> String {
    let lacks = if pulled.is_missing { "missing: " } else { "" };
    let count = if pulled.count > 1 || pulled.is_counted { format!("{} × ", pulled.count) } else { String::new() };
    format!("{lacks}{count}{}", pulled.item)
}

/// The first of several, and how many more.
pub(in crate::sheet) fn and_more(first: &str, more: usize) -> String {
    format!("{first} and {more} more")
}

/// The same in short.
pub(in crate::sheet) fn plus(first: &str, more: usize) -> String {
    format!("{first} +{more}")
}

/// A thing to be pulled, with its drawer, when, and for which sheets.
pub(in crate::sheet) fn pulled_at(day: &Day, own: &Pulled) -> String {
    let (at, sheets) = (clock(day, own.first_at), own.sheets.join(", "));
    format!("{at} {} ({}, {FOR} {sheets})", pulled(own), drawer(own.drawer))
}

/// A thing that the shop lacks.
pub(in crate::sheet) fn lacking(day: &Day, lacking: &Lacking) -> String {
    let when = match lacking.at {
        Some(at) => format!("for {} at {}", lacking.id, clock(day, at)),
        None => format!("for {}, which is left out", lacking.id),
    };
    let serves = match lacking.could_serve.as_slice() {
        [] => String::new(),
        some => format!("; would do as well: {}", some.join(", ")),
    };
    format!("{}, {when}{serves}", lacking.item)
}

/// Minutes of a machine in short: all that the hands do there, and the share of the open day that it is in use.
pub(in crate::sheet) fn machine_in_short(day: &Day, machine: &OfMachine) -> String {
    let [name, .., used] = of_machine(day, machine);
    format!("{name} {} min, {used}", machine.hands + machine.change)
}

/// The minutes of the hands there alone, where there are any.
pub(in crate::sheet) fn hands_in_short(machine: &OfMachine) -> Option<String> {
    let hands = machine.hands + machine.change;
    (hands > 0).then(|| format!("{} {hands}", machine.name))
}

/// Minutes of a machine: hands, change-over, unattended, and the share of the open day that it is in use.
pub(in crate::sheet) fn of_machine(day: &Day, machine: &OfMachine) -> [String; 5] {
    let OfMachine { name, hands, change, by_itself, in_use } = machine;
    let used = f64::from(*in_use) * 100.0 / f64::from(day.open.max(1));
    let min = |word: &str, minutes: &Minute| format!("{word} {minutes} min");
    [
        name.clone(),
        min("hands", hands),
        min("change-over", change),
        min("unattended", by_itself),
        format!("{used:.0} %"),
    ]
}

/// What stands outside the day.
pub(in crate::sheet) fn left_out(out: &LeftOut) -> String {
    let what = format!("{} {}: {}", out.id, out.part, out.set_up);
    let because = |stamp: &str, reasons: &[String]| match reasons {
        [] => stamp.to_owned(),
        some => format!("{stamp} ({})", some.join("; ")),
    };
    match &out.stop {
        Stop::DoNotCut(reasons) => format!("{what}: {}", because("DO NOT CUT", reasons)),
        Stop::DoNotFit(reasons) => format!("{what}: {}", because("DO NOT FIT", reasons)),
        Stop::WaitsFor => format!("{what}: waits for {}, which is left out", out.stopped_by),
        Stop::NotFetched => format!("{what}: nothing fetches it, since {} is left out", out.stopped_by),
        Stop::NothingWarmsIt => {
            format!("{what}: nothing of the job warms its part: add what does (`warm`, or `hand` with its minutes)")
        }
        Stop::OperationFails => format!("{what}: belongs to {}, which fails", out.stopped_by),
        Stop::TooLate(because) => {
            let by = &out.stopped_by;
            format!(
                "{what}: was to stand before {by}, which is done ({because}): look again; where it is done too, say so (setover log JOB PART/OPERATION done=yes)"
            )
        }
        Stop::NoDayHoldsIt => format!("{what}: no working day is long enough for it and what must be watched after it"),
        Stop::NotApart(load, other) => format!(
            "{what}: no order of what comes before it was found: {other} would come while the part of {load} is in the oven or warm"
        ),
    }
}

/// What stands outside the day, what waits for one set-up together.
pub(in crate::sheet) fn all_left_out(day: &Day) -> Vec<String> {
    let mut all = Vec::new();
    let mut told: Vec<&str> = Vec::new();
    for out in &day.left_out {
        let by = out.stopped_by.as_str();
        if out.stop != Stop::WaitsFor {
            all.push(left_out(out));
        } else if !told.contains(&by) {
            told.push(by);
            let waits = day.left_out.iter().filter(|other| other.stop == Stop::WaitsFor && other.stopped_by == by);
            let waits: Vec<&str> = waits.map(|other| other.id.as_str()).collect();
            all.push(format!("{}: left out, waiting for {by}", waits.join(", ")));
        }
    }
    all
}

/// What the log says is done, with its entry.
pub(in crate::sheet) fn logged(day: &Day) -> Vec<String> {
    let open = |own: &DoneByLog| match own.not_logged.as_slice() {
        [] => String::new(),
        some => format!("; not in the log: {}", some.join(", ")),
    };
    let doubts = |own: &DoneByLog| match own.doubts.as_slice() {
        [] => String::new(),
        some => format!("; DOUBTFUL, look again: {}", some.join(", ")),
    };
    let one = |own: &DoneByLog| {
        format!("{} {}: {} (L{}{}{})", own.id, own.part, own.set_up, own.entry, open(own), doubts(own))
    };
    day.logged.iter().map(one).collect()
}

/// What is for another day.
pub(in crate::sheet) fn left_over(day: &Day, over: &LeftOver) -> String {
    let LeftOver { id, part, set_up, minutes, waits_for, rests_on } = over;
    let rests = rests_on.as_ref().map(|(id, at)| format!("{id} until {}", clock(day, *at)));
    let waits: Vec<String> = waits_for.iter().cloned().chain(rests).collect();
    let waits = if waits.is_empty() { String::new() } else { format!(", waits for {}", waits.join(", ")) };
    format!("{id} {part}: {set_up}, {minutes} min{waits}")
}

/// An appointment that cannot be.
pub(in crate::sheet) fn appointment(day: &Day, none: &NoAppointment) -> String {
    format!("{} at {} cannot be: {}; it is planned without", none.id, clock(day, none.at), no_time(day, none))
}

/// Why an appointment cannot be.
fn no_time(day: &Day, none: &NoAppointment) -> String {
    match &none.because {
        NoTime::TooEarly { earliest, from, chain } => {
            let own = |(id, minutes): &(String, Minute)| match *id == none.id {
                true => format!("then {minutes} until it may begin"),
                false => format!("{id} {minutes}"),
            };
            let chain = chain.iter().map(own).collect::<Vec<_>>().join(", ");
            let behind = if chain.is_empty() { chain } else { format!(" (min from {}: {chain})", clock(day, *from)) };
            format!("earliest {}{behind}", clock(day, *earliest))
        }
        NoTime::Closed => "the shop is not open then".into(),
        NoTime::RunsOut => "it would run into a break, or past closing".into(),
        NoTime::Against(id, at) => format!("{id} at {} stands against it", clock(day, *at)),
        NoTime::WithTheOthers => "no order was found that keeps it with all the others".into(),
    }
}
