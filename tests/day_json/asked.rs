//! Random days as a job asks for them, with all that the checker knows of them.

use crate::day_planner::random::Throws;
use std::fmt::Write;

/// A set-up as it is asked for.
#[derive(Clone)]
pub struct Work {
    pub id: String,
    pub part: usize,
    pub machine: &'static str,
    pub hands: u32,
    pub pause: bool,
    pub tail: u32,
    pub watched: bool,
    pub tail_holds: bool,
    pub holding: Option<&'static str>,
    /// Minutes of the change-over to what holds it.
    pub change: u32,
    pub not_before: u32,
    pub due: Option<u32>,
    pub at: Option<u32>,
    after: Option<usize>,
    needs: Vec<String>,
    leaves: Vec<String>,
}

/// How a warm part is warm.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Load {
    /// In an oven, or in a freezer.
    Kept,
    /// From the torch.
    ByHand,
}

/// A day as it is asked for.
#[derive(Clone)]
pub struct Asked {
    pub works: Vec<Work>,
    pub hours: Vec<(u32, u32)>,
    pub rooms: Vec<(&'static str, u32)>,
    /// What must come before what, by ids.
    pub musts: Vec<(String, String)>,
    /// What is made warm or cold, for what, and how.
    pub hot: Vec<(String, String, Load)>,
}

/// Hours of a shop with its breaks.
const HOURS: [&[(u32, u32)]; 3] = [&[(480, 720), (765, 1020)], &[(480, 615), (630, 750), (795, 990)], &[(540, 720)]];
/// What holds a part on each machine, with the minutes of its change-over.
const HOLDS: [(&str, &[(&str, u32)]); 3] = [
    ("lathe", &[("{in: soft-jaws, diameter: 51 mm}", 20), ("{in: soft-jaws, diameter: 60 mm}", 20)]),
    ("mill", &[("{in: vice}", 10), ("{in: angle-plate}", 25)]),
    ("press", &[("{in: press-support}", 8)]),
];
const MACHINES: &[&str] = &["lathe", "lathe", "mill", "mill", "press", "bench", "bench", "bench", "oven", "freezer"];
/// States that a part comes into once and of which no rule of order speaks.
const ONCE: [&str; 2] = ["joined", "pinned"];

pub fn clock(at: u32) -> String {
    format!("{:02}:{:02}", at / 60, at % 60)
}

fn id(number: usize) -> String {
    format!("{}.1", number + 1)
}

impl Asked {
    pub fn work(&self, id: &str) -> &Work {
        self.works.iter().find(|work| work.id == id).expect("a set-up that was asked for")
    }

    pub fn room(&self, machine: &str) -> Option<u32> {
        self.rooms.iter().find(|(name, _)| *name == machine).map(|(_, room)| *room)
    }

    /// A day of a seed.
    pub fn of(seed: u64) -> Self {
        let mut throws = Throws::new(seed);
        let mut asked = Self {
            works: Vec::new(),
            hours: throws.of(&HOURS).to_vec(),
            rooms: vec![("oven", throws.of(&[1, 2])), ("freezer", 2)],
            musts: Vec::new(),
            hot: Vec::new(),
        };
        let mut part = 0;
        for number in 0..4 + throws.below(4) {
            part += usize::from(number > 0 && throws.one_in(2));
            let work = asked.one(number, part, &mut throws);
            asked.works.push(work);
        }
        asked.tie(&mut throws);
        asked
    }

    /// A set-up alone.
    fn one(&self, number: usize, part: usize, throws: &mut Throws) -> Work {
        let machine = throws.of(MACHINES);
        let hold = HOLDS.iter().find(|(of, _)| *of == machine).map(|(_, holds)| throws.of(holds));
        let open = self.hours[0].0;
        let mut work = Work {
            id: id(number),
            part,
            machine,
            hands: throws.of(&[5, 8, 10, 15, 17, 20, 25, 35]),
            pause: machine == "bench",
            tail: 0,
            watched: false,
            tail_holds: false,
            holding: hold.map(|(hold, _)| hold),
            change: hold.map_or(0, |(_, minutes)| minutes),
            not_before: if throws.one_in(8) { open + throws.of(&[30, 60, 120]) } else { 0 },
            due: throws.one_in(8).then(|| open + throws.of(&[60, 90, 150])),
            at: throws.one_in(20).then(|| open + throws.of(&[45, 60, 100])),
            after: None,
            needs: Vec::new(),
            leaves: Vec::new(),
        };
        match machine {
            "oven" => (work.tail, work.watched, work.tail_holds) = (throws.of(&[30, 45, 60]), true, true),
            "freezer" => (work.tail, work.tail_holds) = (throws.of(&[45, 90]), true),
            "bench" if throws.one_in(4) => work.tail = throws.of(&[20, 60]),
            "mill" if throws.one_in(6) => (work.tail, work.tail_holds) = (25, true),
            _ => {}
        }
        work
    }

    /// What must come before what: by the job's own word, by states, and what is warm or cold for whom. Nothing waits in a circle:
    /// an earlier rank goes first.
    fn tie(&mut self, throws: &mut Throws) {
        let most = self.works.len();
        let mut ranked: Vec<usize> = (0..most).collect();
        for place in (1..most).rev() {
            ranked.swap(place, throws.below(place + 1));
        }
        for place in 1..most {
            let (after, before) = (ranked[place], ranked[throws.below(place)]);
            let state = ONCE[before % 2];
            match throws.below(6) {
                0 | 1 => self.works[after].after = Some(before),
                2 => self.leaves(before, after, state),
                _ => continue,
            }
            self.musts.push((id(before), id(after)));
        }
        for place in 0..most - 1 {
            let load = ranked[place];
            let own = &self.works[load];
            let kept = own.tail_holds && ["oven", "freezer"].contains(&own.machine);
            let by_hand = own.machine == "bench" && own.tail == 0 && own.at.is_none() && throws.one_in(3);
            let then = ranked[place + 1 + throws.below(most - 1 - place)];
            let is_room = self.room(self.works[then].machine).is_some();
            if !(kept || by_hand) || is_room || self.hot.iter().any(|(_, known, _)| *known == id(then)) {
                continue;
            }
            let state = if own.machine == "freezer" { "cold" } else { "warm" };
            self.leaves(load, then, state);
            self.musts.push((id(load), id(then)));
            self.hot.push((id(load), id(then), if kept { Load::Kept } else { Load::ByHand }));
        }
    }

    fn leaves(&mut self, before: usize, after: usize, state: &str) {
        let word = format!("\"{}/w{before}:{state}\"", self.part_of(before));
        if !self.works[before].leaves.contains(&word) {
            self.works[before].leaves.push(word.clone());
        }
        self.works[after].needs.push(word);
    }

    /// The shop.
    pub fn shop(&self) -> String {
        let (from, to) = (self.hours[0].0, self.hours[self.hours.len() - 1].1);
        let gap = |pair: &[(u32, u32)]| format!("{{from: \"{}\", to: \"{}\"}}", clock(pair[0].1), clock(pair[1].0));
        let breaks: Vec<String> = self.hours.windows(2).map(gap).collect();
        let mut shop = format!("shop: Drawn\nhours: {{from: \"{}\", to: \"{}\"}}\n", clock(from), clock(to));
        if !breaks.is_empty() {
            let _ = writeln!(shop, "breaks: [{}]", breaks.join(", "));
        }
        shop.push_str("machines:\n  - lathe: {name: lathe, spindle: 100 200 rev/min}\n  - mill: {name: mill, spindle: 100 200 rev/min}\n  - press: {name: press}\n  - bench: {name: bench}\n");
        let _ = writeln!(
            shop,
            "  - oven: {{name: oven, room: {}}}\n  - freezer: {{name: freezer, room: 2}}",
            self.rooms[0].1
        );
        shop.push_str("change-over:\n  - {machine: lathe, aspect: device, to: soft-jaws, minutes: 0 min}\n  - {machine: lathe, aspect: jaws, to: soft jaws bored to size, minutes: 20 min}\n");
        shop
    }

    /// The job.
    pub fn job(&self) -> String {
        let mut job = String::from("job: Drawn\nparts:\n");
        for (number, work) in self.works.iter().enumerate() {
            if number == 0 || self.works[number - 1].part != work.part {
                let _ = writeln!(job, "  - part: p{number}\n    operations:");
            }
            let mut set_up = format!("name: w{number}, machine: {}", work.machine);
            let mut say = |key: &str, at: Option<u32>| {
                at.into_iter().for_each(|at| {
                    let _ = write!(set_up, ", {key}: \"{}\"", clock(at));
                });
            };
            say("not-before", Some(work.not_before).filter(|at| *at > 0));
            say("due", work.due);
            say("at", work.at);
            if let Some(before) = work.after {
                let _ = write!(set_up, ", after: {}/w{before}", self.part_of(before));
            }
            let mut more = String::new();
            if let Some(hold) = work.holding {
                let _ = write!(more, ", hold: {hold}");
            }
            if work.tail > 0 {
                let (watched, holds) = (work.watched, work.tail_holds);
                let _ = write!(more, ", waits: {{minutes: {} min, watched: {watched}, holds: {holds}}}", work.tail);
            }
            for (key, words) in [("needs", &work.needs), ("leaves", &work.leaves)] {
                if !words.is_empty() {
                    let _ = write!(more, ", {key}: [{}]", words.join(", "));
                }
            }
            let _ = writeln!(
                job,
                "      - hand: {{set-up: {{{set_up}}}, does: Work {number}, minutes: {} min, pause: {}{more}}}",
                work.hands, work.pause
            );
        }
        job
    }

    /// The part under which a set-up stands: named after its first.
    fn part_of(&self, number: usize) -> String {
        let part = self.works[number].part;
        let first = self.works.iter().position(|work| work.part == part).expect("a part");
        format!("p{first}")
    }
}

/// Days that ask for less.
impl Asked {
    /// The day without the first must that the job says in its own word.
    pub fn with_one_rule_less(&self) -> Option<Self> {
        let mut less = self.clone();
        let (number, before) = self.works.iter().enumerate().find_map(|(at, work)| Some((at, work.after?)))?;
        less.works[number].after = None;
        let gone = less.musts.iter().position(|must| *must == (id(before), id(number)))?;
        less.musts.remove(gone);
        Some(less)
    }

    /// The day without its last set-up, where nothing waits for that and it waits for nothing.
    pub fn with_one_work_less(&self) -> Option<Self> {
        let mut less = self.clone();
        let last = less.works.pop()?;
        let is_tied = |(before, after): &(String, String)| *before == last.id || *after == last.id;
        (!less.works.is_empty() && !self.musts.iter().any(is_tied)).then_some(less)
    }
}
