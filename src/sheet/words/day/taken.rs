//! What a day takes as it is: states that nothing brings, and every default.

use super::end;
use crate::plan::day::{Assumed, Day};
use crate::quantity::ClockTime;

/// States that are taken as holding, those of one kind together; of more than half the parts those that are not.
pub(in crate::sheet) fn taken_as_done(day: &Day) -> Vec<String> {
    let mut parts: Vec<&str> = Vec::new();
    for line in &day.lines {
        if !parts.contains(&line.part.as_str()) {
            parts.push(&line.part);
        }
    }
    let mut kinds: Vec<(&str, Vec<String>)> = Vec::new();
    for state in &day.taken_as_done {
        let word = state.kind.text();
        match kinds.iter_mut().find(|(known, _)| *known == word) {
            Some((_, of)) => of.push(state.of.to_string()),
            None => kinds.push((word, vec![state.of.to_string()])),
        }
    }
    let said = |(word, of): (&str, Vec<String>)| {
        let others: Vec<&str> = parts.iter().filter(|part| !of.iter().any(|own| own == *part)).copied().collect();
        let of_parts = day.jobs.len() == 1 && of.iter().all(|own| parts.contains(&own.as_str()));
        match others.as_slice() {
            [] if of_parts && of.len() > 1 => format!("{word}: every part of the day"),
            some if of_parts && !some.is_empty() && some.len() < of.len() => {
                format!("{word}: every part of the day but {}", some.join("; "))
            }
            _ => format!("{word}: {}", of.join("; ")),
        }
    };
    kinds.into_iter().map(said).collect()
}

/// Every default used, all change-overs together.
pub(in crate::sheet) fn all_assumed(day: &Day) -> Vec<String> {
    let mut machines: Vec<(&str, Vec<String>)> = Vec::new();
    let mut all = Vec::new();
    for own in &day.assumed {
        let Assumed::ChangeOver(machine, what, minutes) = own else {
            all.push(assumed(own));
            continue;
        };
        let said = format!("{what} {minutes}");
        match machines.iter_mut().find(|(known, _)| known == machine) {
            Some((_, of)) => of.push(said),
            None => machines.push((machine, vec![said])),
        }
    }
    let of = |(machine, of): (&str, Vec<String>)| format!("{machine}: {}", of.join(", "));
    if !machines.is_empty() {
        let machines = machines.into_iter().map(of).collect::<Vec<_>>().join("; ");
        all.push(format!("minutes of change-over: {machines}"));
    }
    all
}

/// Every default used; of change-overs only that there are some: their minutes stand in the timetable.
pub(in crate::sheet) fn assumed_in_short(day: &Day) -> Vec<String> {
    let is_change = |own: &&Assumed| matches!(own, Assumed::ChangeOver(..));
    let all = day.assumed.iter().filter(|own| !is_change(own)).map(assumed);
    let changes =
        day.assumed.iter().any(|own| is_change(&own)).then(|| "change-overs: minutes of the table".to_owned());
    all.chain(changes).collect()
}

/// A default.
pub(in crate::sheet) fn assumed(assumed: &Assumed) -> String {
    match assumed {
        Assumed::Hours(from, to) => format!("the shop is open {}–{}", ClockTime::of(*from), end(*to)),
        Assumed::EveryDay => "every day of the week is worked, since no date is given".into(),
        Assumed::Room(machine, 1) => format!("{machine}: one part at a time"),
        Assumed::Room(machine, room) => format!("{machine}: {room} parts at a time"),
        Assumed::GoesIn(part, machine) => format!("{part} is taken to go into the {machine}: its length is not given"),
        Assumed::ChangeOver(machine, what, minutes) => format!("change-over of the {machine}, {what}: {minutes} min"),
        Assumed::Bare => "machines are bare when the day begins".into(),
        Assumed::Carries(machine, what, entry) => {
            format!("the {machine} carries what L{entry} left on it: {what}; where it does not, say --rigged")
        }
        Assumed::GoesOn(id, from, entry, left) => {
            format!("{id} was begun at {} by L{entry}: {left} min of it are left", ClockTime::of(*from))
        }
        Assumed::Minutes(id, minutes) => format!("{id} takes {minutes} min: its time is not given"),
        Assumed::DoneAt(id, 0) => format!("{id} was done before this day"),
        Assumed::DoneAt(id, at) => format!("{id} was done at {}", ClockTime::of(*at)),
        Assumed::ComesLate(id, done, because) => {
            format!("{id} was to stand before {done}, which is done ({because}): look again at what that made")
        }
        Assumed::NotKept(rule, before, after) => {
            format!(
                "{before} does not come before {after} as it should ({rule}): other rules, or the job, ask for the other way round"
            )
        }
        Assumed::NotFinished(id, entry, says) => {
            format!("{id} is not finished by L{entry}, and stays in the day: {says}")
        }
        Assumed::KeptOut(load, other) => {
            format!("{other} does not come while {load} is in the oven: that would be in there for hours")
        }
        Assumed::StillIn(id, machine, fetcher) => format!(
            "what {id} put into the {machine} is in it still, until {fetcher} takes it out: look; if it is out, leave {id} out of what is done"
        ),
        Assumed::NothingFetches(id, place, so) => format!(
            "nothing of the day takes out of the {place} what {id} makes {so}: say in what presses it that it wants that (chilled-by, opened-by), or leave {id} out"
        ),
        Assumed::TrueNoMore(id, by) => {
            format!("{id} must be done again: what it set true came out of its hold, or may have, for {by}")
        }
        Assumed::Again(id) => {
            format!("{id} must be done again: what it made warm or cold is not so any more when it is wanted")
        }
    }
}
