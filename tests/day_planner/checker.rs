//! Whether a day printed can be worked: told from its lines alone, with no line of the planner's timing.

use super::read::{list, minute, riggings};
use serde_json::Value;
use std::collections::BTreeSet;

/// A line of a day: set-up, start, end, pieces of the change-over before it.
pub struct Line {
    pub id: String,
    pub start: u32,
    pub end: u32,
    pub pieces: Vec<(u32, u32)>,
}

/// What is wrong with a day; and late minutes, finish, better rules broken, change-over, pairs turned round.
pub fn check(day: &Value, lines: &[Line]) -> (Vec<String>, [u32; 5]) {
    let mut wrong = Vec::new();
    let mut say = |ok: bool, text: String| {
        if !ok {
            wrong.push(text);
        }
    };
    let ups = list(day, "set_ups");
    let up = |id: &str| ups.iter().find(|up| up["id"] == id).expect("a set-up");
    let line = |id: &str| lines.iter().find(|line| line.id == id).expect("a line");
    let figure = |id: &str, key: &str| up(id).get(key).map_or(0, minute);
    let flag = |id: &str, key: &str| up(id).get(key).and_then(Value::as_bool).unwrap_or(false);
    let over = |id: &str| line(id).end + figure(id, "tail");
    let named: BTreeSet<&str> = lines.iter().map(|line| line.id.as_str()).collect();
    say(named.len() == lines.len() && lines.len() == ups.len(), "not every set-up stands once".into());

    // Every minute of the hands, one after the other.
    let is_open =
        |at: u32| list(day, "hours").iter().any(|hours| (minute(&hours[0])..minute(&hours[1])).contains(&(at % 1440)));
    let mut busy: BTreeSet<u32> = BTreeSet::new();
    let longest = list(day, "hours").iter().map(|hours| minute(&hours[1]) - minute(&hours[0])).max().expect("hours");
    for own in lines {
        let may_rest = flag(&own.id, "pause") || figure(&own.id, "hands") > longest;
        let worked: Vec<u32> = (own.start..own.end).filter(|at| !may_rest || is_open(*at)).collect();
        say(worked.len() as u32 == figure(&own.id, "hands"), format!("{}: minutes of the hands", own.id));
        let pieces = own.pieces.iter().flat_map(|(from, to)| *from..*to);
        for at in worked.into_iter().chain(pieces) {
            say(is_open(at), format!("{}: {at} is not open", own.id));
            say(busy.insert(at), format!("{}: two things at {at}", own.id));
        }
        say(own.start >= figure(&own.id, "not-before"), format!("{}: not yet there", own.id));
        say(up(&own.id).get("at").is_none_or(|at| minute(at) == own.start), format!("{}: appointment", own.id));
        if flag(&own.id, "watched") {
            let closing = list(day, "hours").iter().map(|hours| minute(&hours[1])).max().expect("hours");
            let closing = (own.end - 1) / 1440 * 1440 + closing;
            say(over(&own.id) <= closing, format!("{}: nobody watches its end", own.id));
        }
    }
    for need in list(day, "needs") {
        let (before, after) = (need[0].as_str().expect("id"), need[1].as_str().expect("id"));
        say(line(after).start >= over(before) + minute(&need[2]), format!("{after} begins before {before} is over"));
    }

    for pair in list(day, "at_once") {
        let (first, then) = (pair[0].as_str().expect("id"), pair[1].as_str().expect("id"));
        say(line(then).start == line(first).end, format!("{then} does not follow {first} at once"));
        let shut = (line(first).start..line(then).end).any(|at| !is_open(at));
        say(!shut, format!("{first} and {then} are put down between"));
    }

    // Change-overs: the minutes that they cost, after the machine is free and before the work.
    let mut change = 0;
    let machines: BTreeSet<&str> = ups.iter().map(|up| up["machine"].as_str().expect("a name")).collect();
    for machine in machines.iter().filter(|machine| day["room"].get(**machine).is_none()) {
        let mut on: Vec<&Line> = lines.iter().filter(|line| up(&line.id)["machine"] == *machine).collect();
        on.sort_by_key(|line| line.start);
        let mut held = day["rigged"].get(*machine).and_then(Value::as_str).map(str::to_owned);
        let mut free = 0;
        for own in on {
            let holding = up(&own.id).get("holding").and_then(Value::as_str).map(str::to_owned);
            let cost = match &holding {
                Some(wanted) if held.as_ref() != Some(wanted) => {
                    riggings(day, machine).iter().find(|(to, _)| to == wanted).expect("a rigging").1
                }
                _ => 0,
            };
            let spent: u32 = own.pieces.iter().map(|(from, to)| to - from).sum();
            say(spent == cost, format!("{}: change-over of {spent} min for {cost}", own.id));
            say(
                own.pieces.iter().all(|(from, to)| *from >= free && *to <= own.start),
                format!("{}: change-over stands wrong", own.id),
            );
            say(own.start >= free, format!("{}: its machine is not free", own.id));
            change += spent;
            held = holding.or(held);
            free = if flag(&own.id, "tail_holds") { over(&own.id) } else { own.end };
        }
    }

    // Ovens and freezers minute by minute: as much inside as they hold, at one setting.
    let fetch =
        |id: &str| list(day, "fetched_by").iter().find(|pair| pair[0] == id).map(|pair| pair[1].as_str().expect("id"));
    for (machine, room) in day["room"].as_object().expect("rooms") {
        let lies = |line: &&Line, key: &str| {
            up(&line.id).get(key).is_some_and(|own| own == machine.as_str()) && figure(&line.id, "tail") > 0
        };
        let loads = |key| {
            let out = |own: &Line| fetch(&own.id).map_or_else(|| over(&own.id), |fetcher| line(fetcher).start);
            lines.iter().filter(move |line| lies(line, key)).map(move |own| (own, out(own)))
        };
        // Place by place: from when, till when, how many, at which setting. What was in it before is in it from the start.
        let mut taken: Vec<(u32, u32, u32, String)> = Vec::new();
        for (own, out) in loads("machine") {
            let places = up(&own.id).get("places").map_or(1, minute);
            taken.push((own.start, out, places, up(&own.id)["holding"].to_string()));
        }
        taken.extend(loads("beside").map(|(own, out)| (own.start, out, 1, Value::Null.to_string())));
        for own in list(day, "inside").iter().filter(|own| own["machine"] == machine.as_str()) {
            let out = own["fetched_by"].as_str().map_or_else(|| minute(&own["over"]), |fetcher| line(fetcher).start);
            taken.push((0, out, 1, own["holding"].to_string()));
        }
        for (start, out, ..) in &taken {
            let with: Vec<_> = taken.iter().filter(|(from, till, ..)| from <= start && start < till).collect();
            let places: u32 = with.iter().map(|(_, _, places, _)| places).sum();
            say(places <= minute(room), format!("{machine} is over full at {start}"));
            let settings: BTreeSet<&String> = with.iter().map(|(.., setting)| setting).collect();
            say(settings.len() <= 1, format!("{machine} has two settings at {start} (till {out})"));
        }
        for (own, _) in loads("machine") {
            if let Some(fetcher) = fetch(&own.id) {
                say(
                    (over(&own.id) - 1) / 1440 == line(fetcher).start / 1440,
                    format!("{}: fetched on another day", own.id),
                );
            }
        }
    }

    for own in list(day, "inside") {
        if let Some(fetcher) = own["fetched_by"].as_str() {
            let same = (minute(&own["over"]) - 1) / 1440 == line(fetcher).start / 1440;
            say(same, format!("{fetcher}: what was inside is fetched on another day"));
        }
    }

    // What is warm, or away, is left alone; what stays in its machine is not taken out.
    for own in list(day, "apart") {
        let (load, other) = (own[0].as_str().expect("id"), own[1].as_str().expect("id"));
        let rest = minute(&own[2]);
        // Out and at rest as soon as it is fetched, though what fetched it goes on by itself.
        let cold = fetch(load).map_or_else(|| over(load) + rest, |by| over(by).max(line(by).end + rest));
        let stands = line(other).end <= line(load).start || line(other).start >= cold;
        say(stands, format!("{other} comes while {load} lasts"));
    }
    for own in list(day, "holds") {
        let by = line(own["by"].as_str().expect("id"));
        let last = list(own, "riders").iter().map(|rider| line(rider.as_str().expect("id")).start).max().unwrap_or(0);
        for barred in list(own, "barred").iter().map(|id| line(id.as_str().expect("id"))) {
            say(barred.start < by.start || barred.start > last, format!("{} comes in between", barred.id));
        }
    }

    let late = lines.iter().filter_map(|line| Some(line.end.saturating_sub(minute(up(&line.id).get("due")?)))).sum();
    let ends = lines.iter().map(|line| if flag(&line.id, "watched") { over(&line.id) } else { line.end });
    let starts_before =
        |a: &Value, b: &Value| line(a.as_str().expect("id")).start < line(b.as_str().expect("id")).start;
    let better = list(day, "better").iter().filter(|pair| !starts_before(&pair[0], &pair[1])).count();
    let ids: Vec<Value> = ups.iter().map(|up| up["id"].clone()).collect();
    let before = if day.get("order_before").is_some() { list(day, "order_before") } else { &ids };
    let pairs = before.iter().enumerate().flat_map(|(at, one)| before[at + 1..].iter().map(move |other| (one, other)));
    let turned = pairs.filter(|(one, other)| starts_before(other, one)).count();
    (wrong, [late, ends.max().unwrap_or(0), better as u32, change, turned as u32])
}
