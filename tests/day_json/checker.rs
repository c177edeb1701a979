//! Whether the JSON of a day can be worked, told from the JSON and from what was asked, with no line of the planner.

use super::asked::{Asked, Load, Work};
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};

const DAY: u32 = 1440;

/// A time as the JSON prints it: `09:30` of the first day, `day 3 09:30` of a later one.
pub fn minute(value: &Value) -> u32 {
    let text = value.as_str().expect("a time");
    let (day, clock) = text.strip_prefix("day ").map_or(("1", text), |later| later.split_once(' ').expect("a day"));
    let (hours, minutes) = clock.split_once(':').expect("a clock time");
    let number = |text: &str| text.parse::<u32>().expect("a number");
    (number(day) - 1) * DAY + number(hours) * 60 + number(minutes)
}

fn count(value: &Value) -> u32 {
    u32::try_from(value.as_u64().expect("a count")).expect("few")
}

pub fn list<'a>(value: &'a Value, key: &str) -> &'a [Value] {
    value[key].as_array().map_or(&[], Vec::as_slice)
}

fn text<'a>(value: &'a Value, key: &str) -> &'a str {
    value[key].as_str().expect("a text")
}

/// A line of the day.
struct Line {
    start: u32,
    end: u32,
    over: u32,
    pieces: Vec<(u32, u32)>,
}

fn line(value: &Value) -> (String, Line) {
    let pieces = list(value, "change_over").iter().map(|piece| (minute(&piece["start"]), minute(&piece["end"])));
    let (start, end) = (minute(&value["start"]), minute(&value["end"]));
    let over = value.get("by_itself_until").filter(|until| !until.is_null()).map_or(end, minute);
    (text(value, "id").to_owned(), Line { start, end, over, pieces: pieces.collect() })
}

/// What is said once, wrong or not.
struct Says(Vec<String>);

impl Says {
    fn say(&mut self, ok: bool, text: impl FnOnce() -> String) {
        if !ok {
            self.0.push(text());
        }
    }
}

/// What is wrong with a day.
pub fn wrong(asked: &Asked, day: &Value) -> Vec<String> {
    let mut says = Says(Vec::new());
    let lines: BTreeMap<String, Line> = list(day, "lines").iter().map(line).collect();
    every_set_up_once(asked, day, &mut says);
    hands(asked, day, &lines, &mut says);
    musts(asked, day, &lines, &mut says);
    machines(asked, &lines, &mut says);
    rooms(asked, &lines, &mut says);
    figures(asked, day, &lines, &mut says);
    says.0
}

fn every_set_up_once(asked: &Asked, day: &Value, says: &mut Says) {
    let mut seen: Vec<&str> = Vec::new();
    for group in ["lines", "left_out", "left_over"] {
        seen.extend(list(day, group).iter().map(|own| text(own, "id")));
    }
    seen.sort_unstable();
    let mut all: Vec<&str> = asked.works.iter().map(|work| work.id.as_str()).collect();
    all.sort_unstable();
    says.say(seen == all, || format!("the day has {seen:?}, asked for {all:?}"));
}

/// Every minute of the hands, one after the other, none in a break, none after closing.
fn hands(asked: &Asked, day: &Value, lines: &BTreeMap<String, Line>, says: &mut Says) {
    let is_open = |at: u32| asked.hours.iter().any(|(from, to)| (*from..*to).contains(&(at % DAY)));
    let longest = asked.hours.iter().map(|(from, to)| to - from).max().expect("hours");
    let closing = asked.hours.last().expect("hours").1;
    let impossible: Vec<&str> = list(day, "impossible").iter().map(|own| text(own, "id")).collect();
    let mut busy = BTreeSet::new();
    for (id, own) in lines {
        let work = asked.work(id);
        let may_rest = work.pause || work.hands > longest;
        let worked: Vec<u32> = (own.start..own.end).filter(|at| !may_rest || is_open(*at)).collect();
        says.say(worked.len() == work.hands as usize, || format!("{id}: {} min for {}", worked.len(), work.hands));
        for at in worked.into_iter().chain(own.pieces.iter().flat_map(|(from, to)| *from..*to)) {
            says.say(is_open(at), || format!("{id}: minute {at} is not open"));
            says.say(busy.insert(at), || format!("{id}: two things at {at}"));
        }
        says.say(own.over == own.end + work.tail, || format!("{id}: unattended till {}", own.over));
        says.say(own.start >= work.not_before, || format!("{id}: its part is not there yet"));
        let kept = work.at.is_none_or(|at| at == own.start) || impossible.contains(&id.as_str());
        says.say(kept, || format!("{id}: its appointment"));
        if work.watched {
            let till = (own.end - 1) / DAY * DAY + closing;
            says.say(own.over <= till, || format!("{id}: nobody watches its end"));
        }
    }
}

/// What must come before comes before, as it was asked; and as the day itself says.
fn musts(asked: &Asked, day: &Value, lines: &BTreeMap<String, Line>, says: &mut Says) {
    for (before, after) in &asked.musts {
        let Some(own) = lines.get(after) else { continue };
        let done = lines.get(before);
        says.say(done.is_some_and(|first| first.over <= own.start), || {
            format!("{after} begins before {before} is over")
        });
    }
    for own in list(day, "lines") {
        for why in list(own, "why").iter().filter(|why| why["kind"] == "must") {
            let (id, with) = (text(own, "id"), text(why, "with"));
            let stands = lines.get(with).is_some_and(|first| first.over <= lines[id].start);
            says.say(stands, || format!("{id} says that it waits for {with}, and does not"));
        }
    }
    for (first, then, load) in &asked.hot {
        let (Some(first_line), Some(then_line)) = (lines.get(first), lines.get(then)) else { continue };
        match load {
            Load::ByHand => {
                let at_once = then_line.start == first_line.over;
                says.say(at_once, || format!("{then} does not follow {first} at once: it cools"));
            }
            Load::Kept => {
                let one_day = (first_line.over - 1) / DAY == then_line.start / DAY;
                says.say(one_day, || format!("{first} stays warm over night for {then}"));
            }
        }
    }
}

/// Change-overs: the minutes that they cost, after the machine is free and before the work; each machine one thing at a time.
fn machines(asked: &Asked, lines: &BTreeMap<String, Line>, says: &mut Says) {
    let names: BTreeSet<&str> = asked.works.iter().map(|work| work.machine).collect();
    for name in names.into_iter().filter(|name| asked.room(name).is_none()) {
        let mut on: Vec<(&Work, &Line)> = lines.iter().map(|(id, line)| (asked.work(id), line)).collect();
        on.retain(|(work, _)| work.machine == name);
        on.sort_by_key(|(_, line)| line.start);
        let (mut held, mut free) = (None, 0);
        for (work, own) in on {
            let cost = if work.holding.is_some() && work.holding != held { work.change } else { 0 };
            let spent: u32 = own.pieces.iter().map(|(from, to)| to - from).sum();
            says.say(spent == cost, || format!("{}: change-over of {spent} min for {cost}", work.id));
            let stands = own.pieces.iter().all(|(from, to)| *from >= free && *to <= own.start);
            says.say(stands, || format!("{}: its change-over stands wrong", work.id));
            says.say(own.start >= free, || format!("{}: its machine is not free", work.id));
            held = work.holding.or(held);
            free = if work.tail_holds { own.over } else { own.end };
        }
    }
}

/// Ovens and freezers: never more inside than they hold, from the loading until it is fetched, or over.
fn rooms(asked: &Asked, lines: &BTreeMap<String, Line>, says: &mut Says) {
    for (name, room) in &asked.rooms {
        let mut inside: Vec<(u32, u32)> = Vec::new();
        for (id, own) in lines.iter().filter(|(id, _)| asked.work(id).machine == *name && asked.work(id).tail > 0) {
            let fetcher = asked.hot.iter().find(|(load, ..)| load == id).and_then(|(_, then, _)| lines.get(then));
            inside.push((own.start, fetcher.map_or(own.over, |fetcher| fetcher.start.max(own.over))));
        }
        for (from, _) in &inside {
            let with = inside.iter().filter(|(start, end)| start <= from && from < end).count();
            says.say(with as u32 <= *room, || format!("the {name} holds {with} at {from}"));
        }
    }
}

/// The sums that the day prints of itself.
fn figures(asked: &Asked, day: &Value, lines: &BTreeMap<String, Line>, says: &mut Says) {
    let whole = &day["day"];
    if !list(day, "left_over").is_empty() {
        return;
    }
    let sum = |of: fn(&Work, &Line) -> u32| lines.iter().map(|(id, line)| of(asked.work(id), line)).sum::<u32>();
    let mut same = |key: &str, own: u32| {
        says.say(count(&whole[key]) == own, || format!("{key}: {} for {own}", whole[key]));
    };
    same("hands_min", sum(|work, _| work.hands));
    same("change_over_min", sum(|_, line| line.pieces.iter().map(|(from, to)| to - from).sum()));
    same("late_min", sum(|work, line| work.due.map_or(0, |due| line.end.saturating_sub(due))));
    let ends = lines.iter().map(|(id, line)| if asked.work(id).watched { line.over } else { line.end });
    let finish = ends.max().unwrap_or_else(|| minute(&whole["from"]));
    says.say(minute(&whole["finish"]) == finish, || format!("finish {} for {finish}", whole["finish"]));
    says.say(minute(&whole["bound"]) <= finish, || format!("bound {} over {finish}", whole["bound"]));
    let exact = whole["exact"] == true;
    says.say(!exact || minute(&whole["bound"]) == finish, || "exact, and not the bound".into());
}
