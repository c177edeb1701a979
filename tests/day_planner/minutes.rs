//! Tiny days worked minute by minute: in every open minute the hands may begin a set-up that is free to begin, work on at a
//! change-over, or do nothing. No line of the planner's timing is used, nor its choice of appending at once.

use super::random::Throws;
use super::read::{list, minute};
use serde_json::{Map, Value, json};

/// A tiny day of a seed: three or four set-ups of few minutes.
pub fn tiny(seed: u64) -> Value {
    let mut throws = Throws::new(seed);
    let most = throws.of(&[3_usize, 4, 4]);
    let rig = json!({"lathe": {"a": 2, "b": 4}, "mill": {"v": 2, "p": 5}});
    let mut ups: Vec<Map<String, Value>> = Vec::new();
    for number in 0..most {
        let machine = throws.of(&["lathe", "lathe", "mill", "bench", "oven"]);
        let mut up = Map::new();
        let mut put = |key: &str, value: Value| up.insert(key.to_owned(), value);
        put("id", json!(format!("s{number}")));
        put("machine", json!(machine));
        put("hands", json!(throws.of(&[1, 2, 3, 5])));
        match machine {
            "bench" => {
                put("pause", json!(throws.one_in(2)));
                put("tail", json!(throws.of(&[0, 0, 4, 7])));
            }
            "oven" => {
                put("hands", json!(1));
                put("tail", json!(throws.of(&[3, 6])));
                put("holding", json!("x"));
                put("watched", json!(true));
            }
            "mill" => {
                put("holding", json!(throws.of(&["v", "p"])));
                if throws.one_in(4) {
                    put("tail", json!(4));
                    put("tail_holds", json!(true));
                }
            }
            _ => {
                put("holding", json!(throws.of(&["a", "b"])));
            }
        }
        ups.push(up);
    }
    let mut needs = Vec::new();
    for after in 1..most {
        for before in 0..after {
            if throws.one_in(4) {
                needs.push((before, after, throws.of(&[0_u32, 0, 3, 6])));
            }
        }
    }
    let id = |number: usize| format!("s{number}");
    let fetch =
        |load: usize| needs.iter().find(|need| need.0 == load && need.2 == 0 && ups[need.1]["machine"] != "oven");
    let loads = (0..most).filter(|load| ups[*load]["machine"] == "oven");
    let fetched: Vec<Value> = loads.filter_map(|load| Some(json!([id(load), id(fetch(load)?.1)]))).collect();
    json!({
        "name": format!("tiny-{seed}"), "hours": [[0, throws.of(&[9, 14, 20])], [23, 60]], "room": {"oven": 1}, "rig": rig,
        "rigged": {}, "set_ups": ups, "fetched_by": fetched,
        "needs": needs.iter().map(|(before, after, rest)| json!([id(*before), id(*after), rest])).collect::<Vec<_>>(),
    })
}

/// One machine: what it carries, and a change-over begun with its minutes done.
type Carries = (Option<usize>, Option<(usize, u32)>);

/// How many set-ups a tiny day has at most.
const MOST: usize = 4;

#[derive(Clone, Copy)]
struct Now {
    ends: [Option<u32>; MOST],
    hands_on: Option<(usize, u32)>,
    machines: [Carries; 2],
}

impl Now {
    /// All of it in one number: minutes up to 62, set-ups and riggings up to 7, so that a layer is sorted quickly.
    fn packed(&self) -> u64 {
        let number = |some: Option<usize>| some.map_or(7, |n| n as u64);
        let pair = |some: Option<(usize, u32)>| {
            (number(some.map(|pair| pair.0)) << 3) | u64::from(some.map_or(0, |pair| pair.1))
        };
        let ends = self.ends.iter().fold(0, |all, end| (all << 6) | end.map_or(63, u64::from));
        let machines =
            self.machines.iter().fold(ends, |all, (on, begun)| (all << 9) | (number(*on) << 6) | pair(*begun));
        (machines << 6) | pair(self.hands_on)
    }

    fn unpacked(packed: u64) -> Self {
        let bits = |from: u32, count: u32| (packed >> from) & ((1 << count) - 1);
        let number = |from: u32| (bits(from, 3) != 7).then(|| bits(from, 3) as usize);
        let pair = |from: u32| number(from + 3).map(|n| (n, bits(from, 3) as u32));
        let end = |up: usize| Some(bits(24 + 6 * (MOST - 1 - up) as u32, 6) as u32).filter(|end| *end != 63);
        Self {
            ends: std::array::from_fn(end),
            hands_on: pair(0),
            machines: [(number(21), pair(15)), (number(12), pair(6))],
        }
    }
}

struct Up {
    machine: usize,
    holding: usize,
    hands: u32,
    tail: u32,
    pause: bool,
    watched: bool,
    holds: bool,
}

struct Tiny {
    ups: Vec<Up>,
    needs: Vec<(usize, usize, u32)>,
    fetch: Vec<Option<usize>>,
    hours: Vec<(u32, u32)>,
    rig: [Vec<u32>; 2],
}

const OVEN: usize = 2;

/// The least finish within the first day; none where the day does not hold it.
pub fn least_finish(day: &Value) -> Option<u32> {
    let tiny = Tiny::read(day);
    let closing = tiny.hours.last()?.1;
    let mut layer = vec![Now { ends: [None; MOST], hands_on: None, machines: [(None, None); 2] }];
    let mut best: Option<u32> = None;
    for at in 0..=closing {
        for now in layer.iter().filter(|now| now.hands_on.is_none()) {
            if let Some(finish) = tiny.finish(now) {
                best = Some(best.map_or(finish, |best| best.min(finish)));
            }
        }
        if best.is_some_and(|best| best <= at) {
            return best;
        }
        let mut next = Vec::new();
        layer.iter().for_each(|now| tiny.minute(now, at, closing, &mut next));
        let mut packed: Vec<u64> = next.into_iter().map(|now| tiny.long_over(now, at + 1).packed()).collect();
        packed.sort_unstable();
        packed.dedup();
        layer = packed.into_iter().map(Now::unpacked).collect();
    }
    best
}

impl Tiny {
    fn read(day: &Value) -> Self {
        let ups = list(day, "set_ups");
        let number = |id: &Value| ups.iter().position(|up| up["id"] == *id).expect("a set-up");
        let names = |machine: &str| -> Vec<String> {
            day["rig"][machine].as_object().expect("riggings").keys().cloned().collect()
        };
        let up = |up: &Value| {
            let name = up["machine"].as_str().expect("a name");
            let holding = up.get("holding").and_then(Value::as_str);
            let flag = |key: &str| up.get(key).and_then(Value::as_bool).unwrap_or(false);
            Up {
                machine: ["lathe", "mill", "oven", "bench"].iter().position(|known| *known == name).expect("a machine"),
                holding: if day["rig"].get(name).is_some() {
                    names(name).iter().position(|to| Some(to.as_str()) == holding).expect("a rigging")
                } else {
                    0
                },
                hands: minute(&up["hands"]),
                tail: up.get("tail").map_or(0, minute),
                pause: flag("pause"),
                watched: flag("watched"),
                holds: flag("tail_holds"),
            }
        };
        let cost = |machine: &str| names(machine).iter().map(|to| minute(&day["rig"][machine][to])).collect();
        let fetches = |load: usize| {
            list(day, "fetched_by").iter().find(|pair| number(&pair[0]) == load).map(|pair| number(&pair[1]))
        };
        Self {
            ups: ups.iter().map(up).collect(),
            needs: list(day, "needs")
                .iter()
                .map(|need| (number(&need[0]), number(&need[1]), minute(&need[2])))
                .collect(),
            fetch: (0..ups.len()).map(fetches).collect(),
            hours: list(day, "hours").iter().map(|hours| (minute(&hours[0]), minute(&hours[1]))).collect(),
            rig: [cost("lathe"), cost("mill")],
        }
    }

    /// What nothing can wait for any more is alike, whenever it was.
    fn long_over(&self, mut now: Now, at: u32) -> Now {
        for (up, end) in self.ups.iter().zip(&mut now.ends) {
            if end.is_some_and(|end| end + up.tail + 7 <= at) {
                *end = Some(0);
            }
        }
        now
    }

    fn finish(&self, now: &Now) -> Option<u32> {
        let over =
            |(up, end): (&Up, &Option<u32>)| end.map(|end| if up.watched && end > 0 { end + up.tail } else { end });
        let ends: Option<Vec<u32>> = self.ups.iter().zip(&now.ends).map(over).collect();
        ends?.into_iter().max()
    }

    /// Whether a machine is held by what runs unattended on it.
    fn is_held(&self, now: &Now, machine: usize, at: u32) -> bool {
        let holds = |(up, end): (&Up, &Option<u32>)| {
            up.machine == machine && up.holds && end.is_some_and(|end| end + up.tail > at)
        };
        self.ups.iter().zip(&now.ends).any(holds)
    }

    fn may_begin(&self, now: &Now, number: usize, at: u32) -> bool {
        let up = &self.ups[number];
        let waits = |need: &(usize, usize, u32)| {
            need.1 == number && now.ends[need.0].is_none_or(|end| end + self.ups[need.0].tail + need.2 > at)
        };
        if now.ends[number].is_some() || self.needs.iter().any(waits) {
            return false;
        }
        if up.machine == OVEN {
            let is_inside = |load: usize| {
                load != number
                    && self.ups[load].machine == OVEN
                    && now.ends[load].is_some_and(|end| match self.fetch[load] {
                        Some(fetcher) => now.ends[fetcher].is_none(),
                        None => end + self.ups[load].tail > at,
                    })
            };
            return !(0..self.ups.len()).any(is_inside);
        }
        match now.machines.get(up.machine) {
            Some((carried, begun)) => {
                *carried == Some(up.holding) && begun.is_none() && !self.is_held(now, up.machine, at)
            }
            None => true,
        }
    }

    /// Every choice of one minute.
    fn minute(&self, now: &Now, at: u32, closing: u32, next: &mut Vec<Now>) {
        if !self.hours.iter().any(|(from, to)| (*from..*to).contains(&at)) {
            if now.hands_on.is_none_or(|(number, _)| self.ups[number].pause) {
                next.push(*now);
            }
            return;
        }
        let mut work = |number: usize, left: u32| {
            let mut after = *now;
            after.hands_on = (left > 1).then_some((number, left - 1));
            if left == 1 {
                if self.ups[number].watched && at + 1 + self.ups[number].tail > closing {
                    return;
                }
                after.ends[number] = Some(at + 1);
            }
            next.push(after);
        };
        if let Some((number, left)) = now.hands_on {
            return work(number, left);
        }
        for number in (0..self.ups.len()).filter(|number| self.may_begin(now, *number, at)) {
            work(number, self.ups[number].hands);
        }
        next.push(*now);
        for machine in (0..2).filter(|machine| !self.is_held(now, *machine, at)) {
            let (carried, begun) = now.machines[machine];
            for (to, cost) in self.rig[machine].iter().enumerate() {
                if carried == Some(to) || begun.is_some_and(|(other, _)| other != to) {
                    continue;
                }
                let done = begun.map_or(0, |(_, done)| done) + 1;
                let mut after = *now;
                after.machines[machine] = if done == *cost { (Some(to), None) } else { (carried, Some((to, done))) };
                next.push(after);
            }
        }
    }
}
