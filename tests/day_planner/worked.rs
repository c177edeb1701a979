//! The worked day: nine set-ups, and its twins that must not pass.

use super::read::{instances, model};
use super::{Limits, Planned, plan};
use serde_json::{Value, json};

/// Nine set-ups of a Tuesday: hands, machines, an oven, sixty minutes of cooling.
pub fn nine() -> Value {
    let up = |id: &str, machine: &str, hands: u32, more: Value| {
        let mut up = json!({"id": id, "machine": machine, "hands": hands});
        let more = more.as_object().expect("keys").clone();
        up.as_object_mut().expect("keys").extend(more);
        up
    };
    json!({
        "name": "nine", "hours": [[480, 720], [765, 990]], "room": {"oven": 2}, "rigged": {},
        "rig": {"lathe": {"soft jaws 51": 20, "soft jaws 60": 20}, "mill": {"vice": 10, "angle plate": 25}, "press": {"press support": 8}},
        "set_ups": [
            up("1.1", "mill", 22, json!({"holding": "vice"})),
            up("2.1", "lathe", 24, json!({"holding": "soft jaws 51"})),
            up("3.1", "bench", 20, json!({"pause": true})),
            up("3.2", "oven", 10, json!({"tail": 45, "watched": true, "holding": "110 degC"})),
            up("3.3", "press", 5, json!({"holding": "press support"})),
            up("3.4", "bench", 10, json!({"pause": true})),
            up("3.5", "mill", 17, json!({"holding": "angle plate"})),
            up("3.6", "bench", 32, json!({"pause": true})),
            up("4.1", "lathe", 35, json!({"holding": "soft jaws 60"})),
        ],
        "needs": [["3.1", "3.2", 0], ["3.2", "3.3", 0], ["3.3", "3.4", 60], ["3.4", "3.5", 0], ["3.5", "3.6", 0]],
        "fetched_by": [["3.2", "3.3"]],
    })
}

/// A day with some of its set-ups left out.
pub fn without(day: &Value, gone: &[&str]) -> Value {
    let mut day = day.clone();
    let has = |value: &Value| value.as_str().is_some_and(|id| gone.contains(&id));
    for key in ["needs", "fetched_by", "at_once", "better", "apart"] {
        if let Some(list) = day.get_mut(key).and_then(Value::as_array_mut) {
            list.retain(|pair| !has(&pair[0]) && !has(&pair[1]));
        }
    }
    for key in ["set_ups", "order_before"] {
        if let Some(list) = day.get_mut(key).and_then(Value::as_array_mut) {
            list.retain(|up| !has(up.get("id").unwrap_or(up)));
        }
    }
    if let Some(holds) = day.get_mut("holds").and_then(Value::as_array_mut) {
        for own in holds.iter_mut() {
            own["barred"].as_array_mut().expect("a list").retain(|id| !has(id));
        }
        holds.retain(|own| !has(&own["by"]) && !has(&own["riders"][0]));
    }
    for own in day.get_mut("inside").and_then(Value::as_array_mut).into_iter().flatten() {
        if has(&own["fetched_by"]) {
            own["fetched_by"] = Value::Null;
        }
    }
    day
}

fn clock(minutes: u32) -> String {
    format!("{:02}:{:02}", minutes / 60 % 24, minutes % 60)
}

fn planned(day: &Value) -> Planned {
    plan(&model(day).expect("no circle"), Limits::default()).expect("an order")
}

fn starts(day: &Value, planned: &Planned) -> Vec<String> {
    let line = |placed: &super::Placed| {
        let pieces: Vec<String> =
            placed.pieces.iter().map(|(from, to)| format!("[{}-{}] ", clock(*from), clock(*to))).collect();
        let id = day["set_ups"][placed.number]["id"].as_str().expect("id");
        format!("{}{id} {}-{}", pieces.concat(), clock(placed.start), clock(placed.end))
    };
    planned.placed.iter().map(line).collect()
}

#[test]
fn nine_set_ups_end_at_three_past_one_and_the_hands_are_never_idle() {
    let day = nine();
    let planned = planned(&day);
    assert_eq!(
        starts(&day, &planned),
        [
            "[08:00-08:10] 1.1 08:10-08:32",
            "3.1 08:32-08:52",
            "3.2 08:52-09:02",
            "[09:02-09:22] 2.1 09:22-09:46",
            "[09:46-09:54] 3.3 09:54-09:59",
            "[09:59-10:19] 4.1 10:19-10:54",
            "3.4 10:59-11:09",
            "[10:54-10:59] [11:09-11:29] 3.5 11:29-11:46",
            "3.6 11:46-13:03",
        ]
    );
    assert_eq!(super::figures(planned.vector), [0, 783, 0, 83, 5]);
    assert_eq!((planned.proof, planned.exact), (super::Proof::NeverIdle, true));
    super::holds(&day, &planned);
}

#[test]
fn set_ups_that_wait_for_each_other_are_named_in_a_circle() {
    let mut day = nine();
    day["needs"].as_array_mut().expect("needs").push(json!(["3.6", "3.3", 0]));
    let circle = model(&day).expect_err("a circle");
    let id = |number: usize| day["set_ups"][number]["id"].as_str().expect("id");
    let says: Vec<String> =
        circle.iter().rev().map(|edge| format!("{} waits for {}", id(edge.after), id(edge.before))).collect();
    assert_eq!(says, ["3.3 waits for 3.6", "3.6 waits for 3.5", "3.5 waits for 3.4", "3.4 waits for 3.3"]);
}

#[test]
fn an_appointment_before_what_must_come_first_is_no_order() {
    let mut day = nine();
    day["set_ups"][6]["at"] = json!(600);
    assert!(plan(&model(&day).expect("no circle"), Limits::default()).is_none());
    // The earliest it could be: 08:00 + 20 + 10 + 45 + 5 + 60 + 10.
    let alone = without(&nine(), &["1.1", "2.1", "3.6", "4.1"]);
    let planned = planned(&alone);
    assert_eq!(clock(planned.placed.last().expect("3.5").start), "10:30");
}

#[test]
fn planned_again_from_now() {
    let done = ["1.1", "2.1", "3.1", "3.2", "3.3"];
    let again = |pressed: u32| {
        let mut day = without(&nine(), &done);
        day["from"] = json!(635);
        day["rigged"] = json!({"lathe": "soft jaws 51", "mill": "vice", "press": "press support"});
        day["set_ups"][0]["not-before"] = json!(pressed + 60);
        let planned = planned(&day);
        let starts: Vec<String> = planned
            .placed
            .iter()
            .map(|placed| {
                format!("{} {}", day["set_ups"][placed.number]["id"].as_str().expect("id"), clock(placed.start))
            })
            .collect();
        (starts, clock(planned.vector.finish))
    };
    let expected =
        |starts: &[&str]| (starts.iter().map(|start| (*start).to_owned()).collect::<Vec<_>>(), "13:39".to_owned());
    assert_eq!(again(602), expected(&["3.4 11:02", "3.5 11:12", "3.6 11:29", "4.1 13:04"]));
    assert_eq!(again(635), expected(&["4.1 10:55", "3.4 11:35", "3.5 12:50", "3.6 13:07"]));
}

/// A change-over that lacks a minute before dinner is ended after it, before other work; the day ends as early.
#[test]
fn a_change_over_is_not_left_for_hours_with_a_minute_to_go() {
    let day = json!({
        "name": "crumb", "hours": [[480, 720], [765, 1020]], "room": {}, "rigged": {},
        "rig": {"lathe": {"jaws 52": 18}},
        "set_ups": [
            {"id": "a", "machine": "bench", "hands": 223},
            {"id": "b", "machine": "bench", "hands": 90},
            {"id": "c", "machine": "lathe", "hands": 20, "holding": "jaws 52"},
        ],
        "needs": [["a", "b", 0], ["b", "c", 0]],
    });
    let model = model(&day).expect("no circle");
    let found = plan(&model, Limits::default()).expect("an order");
    let fitted = |planned: &Planned| planned.placed.last().expect("c").pieces.clone();
    assert_eq!(fitted(&found), [(703, 720), (855, 856)]);
    let whole = super::made_whole(&model, found.clone(), 5);
    assert_eq!(fitted(&whole), [(703, 720), (765, 766)]);
    assert_eq!((whole.vector, &whole.order), (found.vector, &found.order));
    super::holds(&day, &whole);
    // To begin with a minute harms nobody: nothing is moved for it.
    let mut early = day;
    early["set_ups"][0]["hands"] = json!(239);
    let model = super::read::model(&early).expect("no circle");
    let found = plan(&model, Limits::default()).expect("an order");
    assert_eq!(fitted(&found), [(719, 720), (855, 872)]);
    assert_eq!(super::made_whole(&model, found.clone(), 5), found);
}

#[test]
fn what_cannot_be_cut_leaves_the_rest_of_the_day() {
    let day = without(&nine(), &["3.2", "3.3", "3.4", "3.5", "3.6"]);
    assert_eq!(clock(planned(&day).vector.finish), "10:31");
}

#[test]
fn the_committed_days_are_forty() {
    assert_eq!(instances().len(), 40);
}
