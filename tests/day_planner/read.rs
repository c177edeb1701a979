//! A day as the instances write it, read into a model.

use super::{Apart, Better, Clock, Edge, Holding, Inside, Machine, Model, Piece, Rigging, Spec, Takes, Vector};
use serde_json::Value;

pub fn minute(value: &Value) -> u32 {
    u32::try_from(value.as_u64().expect("minutes")).expect("few minutes")
}

fn text(value: &Value) -> String {
    value.as_str().expect("a text").to_owned()
}

pub fn list<'a>(day: &'a Value, key: &str) -> &'a [Value] {
    day.get(key).and_then(Value::as_array).map_or(&[], Vec::as_slice)
}

/// The committed days.
pub fn instances() -> Vec<Value> {
    serde_json::from_str(include_str!("../days/instances.json")).expect("days")
}

/// The committed days that notice what is left out.
pub fn notices() -> Vec<Value> {
    serde_json::from_str(include_str!("../days/notices.json")).expect("days")
}

/// The five figures that a day says of itself.
pub fn optimum(day: &Value) -> Option<Vector> {
    let best = &day["optimum"];
    (!best.is_null()).then(|| Vector {
        late: minute(&best["late"]),
        finish: minute(&best["finish"]),
        better: minute(&best["better_broken"]),
        change: minute(&best["change_over"]),
        turned: minute(&best["turned"]),
    })
}

/// The riggings of a machine with the minutes of each.
pub fn riggings(day: &Value, machine: &str) -> Vec<(String, u32)> {
    let costs = day["rig"].get(machine).and_then(Value::as_object);
    let mut all: Vec<(String, u32)> =
        costs.into_iter().flatten().map(|(to, minutes)| (to.clone(), minute(minutes))).collect();
    for up in list(day, "set_ups").iter().filter(|up| up["machine"] == machine) {
        if let Some(holding) = up.get("holding").map(text)
            && !all.iter().any(|(to, _)| *to == holding)
        {
            all.push((holding, 0));
        }
    }
    all
}

/// # Errors
/// The edges of a circle.
pub fn model(day: &Value) -> Result<Model, Vec<Edge>> {
    let ups = list(day, "set_ups");
    let mut names: Vec<String> = Vec::new();
    let beside = ups.iter().filter_map(|up| up.get("beside"));
    for name in ups.iter().chain(list(day, "inside")).map(|up| &up["machine"]).chain(beside).map(text) {
        if !names.contains(&name) {
            names.push(name);
        }
    }
    let ids: Vec<&Value> = ups.iter().map(|up| &up["id"]).collect();
    let number = |id: &Value| ids.iter().position(|known| *known == id).expect("a set-up");
    let machines = names.iter().map(|name| Machine {
        name: name.clone(),
        room: day["room"].get(name).map(minute),
        rigging: Rigging::plain(&riggings(day, name), day["rigged"].get(name).and_then(Value::as_str)),
    });
    let place = |name: &str| names.iter().position(|known| known == name).expect("a machine");
    let piece = |up: &Value| {
        let name = text(&up["machine"]);
        let flag = |key: &str| up.get(key).and_then(Value::as_bool).unwrap_or(false);
        let time = |key: &str| up.get(key).map(minute);
        let holding = up.get("holding").map(text);
        Piece {
            id: text(&up["id"]),
            machine: place(&name),
            want: holding.and_then(|holding| riggings(day, &name).iter().position(|(to, _)| *to == holding)),
            hands: minute(&up["hands"]),
            pause: flag("pause"),
            tail: time("tail").unwrap_or(0),
            watched: flag("watched"),
            tail_holds: flag("tail_holds"),
            not_before: time("not-before").unwrap_or(0),
            at: time("at"),
            due: time("due"),
            places: time("places").unwrap_or(1),
            beside: up.get("beside").map(|beside| Takes { machine: place(&text(beside)), want: None, places: 1 }),
        }
    };
    let inside = |own: &Value| {
        let name = text(&own["machine"]);
        let want = riggings(day, &name).iter().position(|(to, _)| own["holding"] == **to);
        let fetched_by = Some(&own["fetched_by"]).filter(|by| !by.is_null()).map(number);
        Inside { takes: Takes { machine: place(&name), want, places: 1 }, over: minute(&own["over"]), fetched_by }
    };
    let edge = |(rule, edge): (usize, &Value)| Edge {
        before: number(&edge[0]),
        after: number(&edge[1]),
        rest: minute(&edge[2]),
        rule,
    };
    let hours: Vec<(u32, u32)> =
        list(day, "hours").iter().map(|hours| (minute(&hours[0]), minute(&hours[1]))).collect();
    Model::new(Spec {
        pieces: ups.iter().map(piece).collect(),
        machines: machines.collect(),
        edges: list(day, "needs").iter().enumerate().map(edge).collect(),
        better: list(day, "better").iter().map(|pair| Better::Before(number(&pair[0]), number(&pair[1]))).collect(),
        fetched_by: list(day, "fetched_by").iter().map(|pair| (number(&pair[0]), number(&pair[1]))).collect(),
        at_once: list(day, "at_once").iter().map(|pair| (number(&pair[0]), number(&pair[1]))).collect(),
        inside: list(day, "inside").iter().map(inside).collect(),
        apart: list(day, "apart")
            .iter()
            .map(|own| Apart { load: number(&own[0]), other: number(&own[1]), rest: minute(&own[2]) })
            .collect(),
        holdings: list(day, "holds")
            .iter()
            .map(|own| Holding {
                by: Some(number(&own["by"])),
                riders: list(own, "riders").iter().map(number).collect(),
                barred: list(own, "barred").iter().map(number).collect(),
            })
            .collect(),
        order_before: list(day, "order_before").iter().map(number).collect(),
        start: day.get("from").map_or(hours[0].0, minute),
        clock: Clock::daily(hours).expect("open hours"),
    })
}
