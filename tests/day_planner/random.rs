//! Random small days, in the form of the instances.

use serde_json::{Map, Value, json};

/// Throws out of a seed.
pub struct Throws(u64);

impl Throws {
    pub const fn new(seed: u64) -> Self {
        Self(seed)
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    pub fn below(&mut self, most: usize) -> usize {
        usize::try_from(self.next() % most as u64).expect("small")
    }

    pub fn one_in(&mut self, many: usize) -> bool {
        self.below(many) == 0
    }

    pub fn of<T: Clone>(&mut self, list: &[T]) -> T {
        list[self.below(list.len())].clone()
    }
}

/// What a random day holds.
#[derive(Clone, Copy)]
pub struct Kind {
    pub set_ups: usize,
    pub times: bool,
    pub rests: bool,
}

const MACHINES: &[&str] =
    &["lathe", "lathe", "lathe", "mill", "mill", "press", "bench", "bench", "bench", "oven", "oven", "freezer"];

/// A day of a seed.
pub fn day(seed: u64, kind: Kind) -> Value {
    let mut throws = Throws::new(seed);
    let hours = throws.of(&[
        json!([[480, 720], [765, 1020]]),
        json!([[480, 615], [630, 750], [795, 990]]),
        json!([[540, 720]]),
    ]);
    let open = u32::try_from(hours[0][0].as_u64().expect("minutes")).expect("small");
    let rig = json!({"lathe": {"three-jaw": 5, "soft jaws 51": 20, "four-jaw": 12}, "mill": {"vice": 10, "angle plate": 25}, "press": {"press support": 8}});
    let mut ups: Vec<Map<String, Value>> = Vec::new();
    for number in 0..kind.set_ups {
        let machine = throws.of(MACHINES);
        let mut up = Map::new();
        let mut put = |key: &str, value: Value| up.insert(key.to_owned(), value);
        put("id", json!(format!("s{}", number + 1)));
        put("machine", json!(machine));
        put("hands", json!(throws.of(&[5, 8, 10, 12, 15, 17, 20, 25, 30, 35, 45])));
        if let Some(riggings) = rig[machine].as_object() {
            let names: Vec<&String> = riggings.keys().collect();
            put("holding", json!(throws.of(&names)));
        }
        match machine {
            "bench" => {
                put("pause", json!(throws.below(5) < 3));
                if throws.one_in(4) {
                    put("tail", json!(throws.of(&[20, 30, 60, 90])));
                }
            }
            "oven" => {
                put("hands", json!(throws.of(&[5, 10])));
                put("tail", json!(throws.of(&[30, 45, 60])));
                put("watched", json!(true));
                put("holding", json!(throws.of(&["110 degC", "110 degC", "150 degC"])));
            }
            "freezer" => {
                put("hands", json!(5));
                put("tail", json!(throws.of(&[45, 60, 90])));
            }
            "mill" if throws.one_in(6) => {
                put("tail", json!(throws.of(&[20, 30])));
                put("tail_holds", json!(true));
            }
            _ => {}
        }
        if kind.times && throws.one_in(8) {
            put("not-before", json!(open + throws.of(&[30, 60, 75, 120])));
        }
        if kind.times && throws.one_in(10) {
            put("due", json!(open + throws.of(&[60, 90, 150, 240])));
        }
        ups.push(up);
    }
    let id = |number: usize| format!("s{}", number + 1);
    let mut needs: Vec<(usize, usize, u32)> = Vec::new();
    for after in 1..kind.set_ups {
        for _ in 0..throws.of(&[0, 0, 0, 0, 1, 1, 1, 1, 1, 2]) {
            let before = throws.below(after);
            if !needs.iter().any(|need| (need.0, need.1) == (before, after)) {
                let rest = if kind.rests { throws.of(&[0, 0, 0, 0, 0, 0, 20, 45, 60]) } else { 0 };
                needs.push((before, after, rest));
            }
        }
    }
    let is_load = |number: usize| ["oven", "freezer"].contains(&ups[number]["machine"].as_str().expect("a name"));
    let mut fetched: Vec<Value> = Vec::new();
    for load in (0..kind.set_ups).filter(|number| is_load(*number)) {
        let fetches = |need: &&(usize, usize, u32)| {
            need.0 == load && need.2 == 0 && ups[need.1]["machine"] != ups[load]["machine"]
        };
        if let Some(need) = needs.iter().find(fetches) {
            fetched.push(json!([id(load), id(need.1)]));
        }
    }
    let mut better = Vec::new();
    let (one, other) = (throws.below(kind.set_ups), throws.below(kind.set_ups));
    if throws.one_in(2) && one < other && !needs.iter().any(|need| (need.0, need.1) == (one, other)) {
        better.push(json!([id(other), id(one)]));
    }
    let mut order: Vec<usize> = (0..kind.set_ups).collect();
    if throws.below(5) < 2 {
        for place in (1..order.len()).rev() {
            order.swap(place, throws.below(place + 1));
        }
    }
    if kind.times && throws.one_in(7) {
        let number = throws.below(kind.set_ups);
        if !is_load(number) && !ups[number].contains_key("not-before") && !ups[number].contains_key("due") {
            ups[number].insert("at".into(), json!(open + throws.of(&[60, 90, 100])));
        }
    }
    let rigged = if throws.below(10) < 3 { json!({"lathe": "three-jaw"}) } else { json!({}) };
    // What is made hot at the bench is worked at once.
    let mut at_once: Vec<Value> = Vec::new();
    let by_hand = |number: usize| ups[number]["machine"] == "bench" && !ups[number].contains_key("tail");
    let is_no_load = |number: usize| ups[number]["machine"] != "oven" && ups[number]["machine"] != "freezer";
    let hot = |need: &&(usize, usize, u32)| {
        need.2 == 0 && by_hand(need.0) && is_no_load(need.1) && !ups[need.0].contains_key("at")
    };
    let hot = needs.iter().find(hot).copied();
    if let Some((first, then, _)) = hot.filter(|_| throws.one_in(3)) {
        at_once.push(json!([id(first), id(then)]));
    }
    // What is warmed while something lies in the freezer for it; a part of two places; what is in the oven since before.
    for up in &mut ups {
        match up["machine"].as_str() {
            Some("oven") if throws.one_in(2) => {
                up.insert("beside".into(), json!("freezer"));
            }
            Some("freezer") if throws.one_in(4) => {
                up.insert("places".into(), json!(2));
            }
            _ => {}
        }
    }
    let mut inside: Vec<Value> = Vec::new();
    if throws.one_in(4) {
        let over = open + throws.of(&[15, 40]);
        let fetcher = ups.iter_mut().find(|up| up["machine"] == "press" && !up.contains_key("at"));
        let fetched_by = fetcher.map_or(Value::Null, |up| {
            let own = up.get("not-before").and_then(Value::as_u64).unwrap_or_default();
            up.insert("not-before".into(), json!(own.max(over.into())));
            up["id"].clone()
        });
        let machine = throws.of(&["oven", "freezer"]);
        let holding = if machine == "oven" { json!("110 degC") } else { Value::Null };
        inside.push(json!({"machine": machine, "holding": holding, "over": over, "fetched_by": fetched_by}));
    }
    // What must not come while a part is warm; what stays in its machine till all that needs it there is done.
    let mut apart: Vec<Value> = Vec::new();
    let mut holds: Vec<Value> = Vec::new();
    let on = |number: usize| ups[number]["machine"].as_str().expect("a name");
    for load in (0..kind.set_ups).filter(|number| on(*number) == "oven") {
        let fetcher = fetched.iter().find(|pair| pair[0] == id(load)).map(|pair| pair[1].clone());
        let other = throws.below(kind.set_ups);
        let of = |id: &Value| id.as_str().and_then(|id| id[1..].parse::<usize>().ok()).expect("a number") - 1;
        let between = load < other && fetcher.as_ref().is_some_and(|fetcher| other < of(fetcher));
        if other != load && fetcher != Some(json!(id(other))) && !between && throws.one_in(2) {
            apart.push(json!([id(load), id(other), throws.of(&[0, 30])]));
        }
    }
    let lathe: Vec<usize> = (0..kind.set_ups).filter(|number| on(*number) == "lathe").collect();
    if lathe.len() > 1 && throws.one_in(3) {
        let place = throws.below(lathe.len() - 1);
        let (by, rider) = (lathe[place], lathe[place + 1]);
        if !needs.iter().any(|need| (need.0, need.1) == (by, rider)) {
            needs.push((by, rider, 0));
        }
        let barred: Vec<String> = lathe.iter().filter(|own| ![by, rider].contains(own)).map(|own| id(*own)).collect();
        holds.push(json!({"by": id(by), "riders": [id(rider)], "barred": barred}));
    }
    json!({
        "name": format!("seed-{seed}"), "inside": inside, "apart": apart, "holds": holds, "hours": hours, "room": {"oven": throws.of(&[1, 2]), "freezer": 2}, "rig": rig,
        "rigged": rigged, "set_ups": ups,
        "needs": needs.iter().map(|(before, after, rest)| json!([id(*before), id(*after), rest])).collect::<Vec<_>>(),
        "fetched_by": fetched, "at_once": at_once, "better": better, "order_before": order.into_iter().map(id).collect::<Vec<_>>(),
    })
}

/// Weeks of a shop: jobs of a few kinds one after the other, several days long.
pub fn week(seed: u64, most: usize) -> Value {
    let mut throws = Throws::new(seed);
    let rig = json!({"lathe": {"three-jaw": 5, "soft jaws 51": 20, "four-jaw": 12, "soft jaws 60": 20}, "mill": {"vice": 10, "angle plate": 25}, "press": {"press support": 8}});
    let (mut ups, mut needs, mut fetched): (Vec<Value>, Vec<Value>, Vec<Value>) = (Vec::new(), Vec::new(), Vec::new());
    let mut job = 0;
    while ups.len() < most {
        job += 1;
        let mut put = |number: u32, machine: &str, hands: u32, more: Value| {
            let id = format!("{job}.{number}");
            let mut up = json!({"id": id, "machine": machine, "hands": hands});
            up.as_object_mut().expect("keys").extend(more.as_object().expect("keys").clone());
            ups.push(up);
            id
        };
        let hands = |throws: &mut Throws| throws.of(&[10_u32, 15, 20, 25, 30, 35]);
        if throws.one_in(3) {
            let dress = put(1, "bench", hands(&mut throws), json!({"pause": true}));
            let warm = put(2, "oven", 10, json!({"tail": 45, "watched": true, "holding": "110 degC"}));
            let press = put(3, "press", 5, json!({"holding": "press support"}));
            let measure = put(4, "bench", 10, json!({"pause": true}));
            let drill = put(5, "mill", 17, json!({"holding": "angle plate"}));
            let ream = put(6, "bench", hands(&mut throws), json!({"pause": true}));
            fetched.push(json!([warm, press]));
            needs.extend([
                json!([dress, warm, 0]),
                json!([warm, press, 0]),
                json!([press, measure, 60]),
                json!([measure, drill, 0]),
                json!([drill, ream, 0]),
            ]);
        } else if throws.one_in(2) {
            let jaws = throws.of(&["three-jaw", "soft jaws 51", "four-jaw", "soft jaws 60"]);
            let turn = put(1, "lathe", hands(&mut throws), json!({"holding": jaws}));
            let mill = put(2, "mill", hands(&mut throws), json!({"holding": throws.of(&["vice", "angle plate"])}));
            let wash = put(3, "bench", 8, json!({"pause": true}));
            needs.extend([json!([turn, mill, 0]), json!([mill, wash, 0])]);
        } else {
            put(1, "lathe", hands(&mut throws), json!({"holding": throws.of(&["three-jaw", "soft jaws 51"])}));
        }
    }
    json!({"name": format!("week-{seed}"), "hours": [[480, 720], [765, 1020]], "room": {"oven": 2}, "rig": rig, "rigged": {}, "set_ups": ups, "needs": needs, "fetched_by": fetched})
}
