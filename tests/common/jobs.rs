//! Jobs as if by chance: ordinary ones, as somebody careful types them, and wild ones. The same seed gives the same jobs.

use setover::job::JobFile;
use setover::operations::Request;
use setover::proof::Chance;
use std::sync::LazyLock;

/// The seed of every test over such jobs.
pub const SEED: u64 = 19_530_426;

/// What stands behind a key.
#[derive(Clone, Debug, PartialEq)]
pub enum Entry {
    /// A measured length with its doubt, mm.
    Read(f64, f64),
    /// A length without doubt, mm: nominal or wanted.
    Mm(f64),
    /// Anything else, as it is typed.
    Text(String),
}

impl Entry {
    fn typed(&self) -> String {
        match self {
            Self::Read(size, doubt) if *size == 0.0 || *doubt == 0.0 => format!("{size:.4} mm"),
            Self::Read(size, doubt) => format!("{size:.4} ± {doubt:.5} mm"),
            Self::Mm(size) => format!("{size:.4} mm"),
            Self::Text(text) => text.clone(),
        }
    }
}

/// One operation with its keys, nested ones with dots, in the order typed.
#[derive(Clone, Debug, PartialEq)]
pub struct Asked {
    /// Its word.
    pub word: &'static str,
    /// Its keys.
    pub keys: Vec<(&'static str, Entry)>,
    /// Facts of the part, and its material.
    pub part: Vec<(&'static str, Entry)>,
}

/// Every key that a job may have, as the schema of a job says.
static SCHEMA: LazyLock<String> = LazyLock::new(|| schemars::schema_for!(JobFile<Request>).to_value().to_string());

/// Keys of the trade rules that are written here before every operation knows them: left out of a job until its schema has them.
/// Empty when the operations are whole.
pub const NOT_YET: &[&str] = &[
    "flat-within",
    "thickness-at-rim",
    "hold.nipped",
    "hold.tested",
    "hold.grips",
    "gauge",
    "springs.most-change",
    "present-chamfer",
    "zero",
    "strip",
    "bolt.threads",
    "bolt.nut-factor",
];

/// Whether a job may have a key.
pub fn is_known(key: &str) -> bool {
    let last = key.rsplit('.').next().unwrap_or(key);
    SCHEMA.contains(&format!("\"{last}\":"))
}

impl Asked {
    fn new(word: &'static str) -> Self {
        Self { word, keys: Vec::new(), part: Vec::new() }
    }

    fn put(&mut self, key: &'static str, entry: Entry) {
        if !NOT_YET.contains(&key) || is_known(key) {
            self.keys.push((key, entry));
        }
    }

    fn text(&mut self, key: &'static str, text: impl Into<String>) {
        let text = text.into();
        if !text.is_empty() {
            self.put(key, Entry::Text(text));
        }
    }

    /// The entry of a key.
    pub fn get(&self, key: &str) -> Option<&Entry> {
        self.keys.iter().find(|(name, _)| *name == key).map(|(_, entry)| entry)
    }

    /// The same with another entry for a key.
    pub fn with(&self, key: &str, entry: Entry) -> Self {
        let mut other = self.clone();
        other
            .keys
            .iter_mut()
            .chain(&mut other.part)
            .filter(|(name, _)| *name == key)
            .for_each(|slot| slot.1 = entry.clone());
        other
    }

    /// The same without a key and all under it.
    pub fn without(&self, key: &str) -> Self {
        let mut other = self.clone();
        let under = format!("{key}.");
        other.keys.retain(|(name, _)| *name != key && !name.starts_with(&under));
        other
    }

    /// As a line of YAML.
    pub fn typed(&self) -> String {
        format!("      - {}: {}\n", self.word, braces(&self.keys))
    }
}

/// Keys in braces; those with the same word before the first dot together.
fn braces(keys: &[(&'static str, Entry)]) -> String {
    let mut done: Vec<&str> = Vec::new();
    let mut pieces = Vec::new();
    for (key, entry) in keys {
        let (first, rest) = key.split_once('.').unwrap_or((key, ""));
        if done.contains(&first) {
            continue;
        }
        done.push(first);
        if rest.is_empty() {
            pieces.push(format!("{first}: {}", entry.typed()));
            continue;
        }
        let under = |(key, entry): &(&'static str, Entry)| {
            let (parent, rest) = key.split_once('.')?;
            (parent == first).then(|| (rest, entry.clone()))
        };
        let inner: Vec<(&'static str, Entry)> = keys.iter().filter_map(under).collect();
        pieces.push(format!("{first}: {}", braces(&inner)));
    }
    format!("{{{}}}", pieces.join(", "))
}

/// A job of one part with these operations.
pub fn job_of(name: &str, all: &[Asked]) -> String {
    let mut text = format!("job: Random\ndate: 2026-02-03\nparts:\n  - part: \"{name}\"\n");
    for (key, entry) in &all[0].part {
        text += &format!("    {key}: {}\n", entry.typed());
    }
    text += "    operations:\n";
    all.iter().for_each(|asked| text += &asked.typed());
    text
}

/// A maker of jobs.
pub struct Maker {
    chance: Chance,
}

impl Maker {
    /// The maker of a numbered job.
    pub fn of(number: u64) -> Self {
        let mut chance = Chance::from_seed(SEED ^ number.wrapping_mul(0x2545_F491_4F6C_DD1D));
        chance.bits();
        Self { chance }
    }

    fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.chance.even()
    }

    fn often(&mut self, share: f64) -> bool {
        self.chance.even() < share
    }

    fn one_of<'a, T: ?Sized>(&mut self, all: &[&'a T]) -> &'a T {
        all[(self.chance.bits() % all.len() as u64) as usize]
    }

    fn read(&mut self, low: f64, high: f64, doubts: (f64, f64)) -> Entry {
        let size = (self.between(low, high) * 1000.0).round() / 1000.0;
        Entry::Read(size, self.between(doubts.0, doubts.1))
    }

    /// One operation: every second ordinary.
    pub fn asked(&mut self) -> Asked {
        let wild = self.often(0.5);
        match self.chance.bits() % 4 {
            0 => self.insert(wild),
            1 => self.bush(wild),
            2 => self.facing("face", wild),
            _ => self.facing("skim", wild),
        }
    }

    /// A whole job: a part of any name with one operation or two.
    pub fn job(&mut self) -> String {
        let name = self.one_of(&[
            "cover",
            "a very long name of a part that somebody typed without thinking of the sheet it must stand on",
            "Крышка",
            "Κάλυμμα",
            "x",
        ]);
        let mut all = vec![self.asked()];
        if self.often(0.4) {
            all.push(self.asked());
        }
        job_of(name, &all)
    }

    /// An insert.
    pub fn insert(&mut self, wild: bool) -> Asked {
        const THREADS: &[(&str, f64, f64)] = &[
            ("M4", 4.0, 0.7),
            ("M5", 5.0, 0.8),
            ("M6", 6.0, 1.0),
            ("M8", 8.0, 1.25),
            ("M8x1", 8.0, 1.0),
            ("M10", 10.0, 1.5),
            ("M12", 12.0, 1.75),
            ("M12x1.5", 12.0, 1.5),
            ("5/16-18 UNC", 7.938, 1.411),
            ("3/8-16 UNC", 9.525, 1.5875),
            ("No. 10-32 UNF", 4.826, 0.794),
            ("1/4 BSF", 6.35, 0.977),
            ("3/8 BSW", 9.525, 1.5875),
            ("2 BA", 4.7, 0.81),
            ("1/4-26 BSC", 6.35, 0.977),
        ];
        let ordinary = 11;
        let &(thread, major, pitch) =
            self.one_of(&THREADS[..if wild { THREADS.len() } else { ordinary }].iter().collect::<Vec<_>>());
        let mut asked = Asked::new("thread-insert");
        let metal = if wild {
            self.one_of(&["cast aluminium", "cast iron", "mild steel", "AZ91", "LG2"])
        } else {
            self.one_of(&["cast aluminium", "cast iron", "mild steel"])
        };
        asked.part.push(("material", Entry::Text(metal.into())));
        asked.text("thread", format!("\"{thread}\""));
        let deep = 1.5 * major + 8.0 * pitch;
        let doubts = if wild { (0.002, 0.6) } else { (0.05, 0.3) };
        let wall = if wild { (2.5 * pitch, 5.0 * major) } else { (deep, deep + 15.0) };
        let wall = self.read(wall.0, wall.1, doubts);
        asked.put("wall", wall);
        let through = self.often(0.3);
        asked.text("hole", if through { "through" } else { "blind" });
        if through && self.often(0.8) {
            let beyond = self.read(1.0, 25.0, doubts);
            asked.put("beyond", beyond);
        }
        if self.often(0.5) {
            let least = self.between(0.5, 3.0);
            asked.put("least-left", Entry::Mm(least));
        }
        if self.often(0.7) {
            let hole = self.read(major - pitch, major + if wild { 0.3 * pitch } else { 0.05 * pitch }, (0.01, 0.08));
            asked.put("present-hole", hole);
            if self.often(0.7) {
                let depth = self.read(0.8 * major, 2.0 * major, doubts);
                asked.put("present-depth", depth);
            }
            if self.often(0.5) {
                let chamfer = self.read(0.2, 1.0, (0.02, 0.1));
                asked.put("present-chamfer", chamfer);
            }
        }
        if self.often(0.5) {
            let edge = self.read(0.8 * major, 2.5 * major, (0.1, 0.3));
            asked.put("edge", edge);
        }
        let lead = self.one_of(&["", "plug", "bottoming", if wild { "taper" } else { "bottoming" }]);
        asked.text("lead", lead);
        if self.often(0.6) {
            let class = self.one_of(&["\"4.6\"", "\"8.8\"", if wild { "BS R" } else { "\"5.8\"" }]);
            asked.text("bolt.class", class);
            if self.often(0.85) {
                let reach = self.between(0.7 * major, 2.2 * major);
                asked.put("bolt.reach", Entry::Mm(reach));
            }
            if self.often(0.5) {
                let torque = self.between(0.01, 0.06) * major.powi(3);
                asked.text("bolt.torque", format!("{torque:.2} N·m"));
            }
            let threads = self.one_of(&["", "dry", "oiled"]);
            asked.text("bolt.threads", threads);
            if self.often(0.1) {
                asked.text("bolt.nut-factor", "0.17");
            }
        }
        let (tang, sunk) = (self.one_of(&["", "out", "in"]), self.one_of(&["", "true", "false"]));
        asked.text("tang", tang);
        asked.text("countersink", sunk);
        let zero = self.one_of(&[
            "",
            "",
            "face",
            "strip",
            if wild { "corner" } else { "" },
            if wild { "old-hole" } else { "" },
        ]);
        asked.text("zero", zero);
        if wild && self.often(0.2) {
            asked.text("length", "2D");
        }
        asked
    }

    /// A bush.
    pub fn bush(&mut self, wild: bool) -> Asked {
        let mut asked = Asked::new("ream-bush");
        let housing =
            self.one_of(&["cast aluminium", "cast iron", "mild steel", if wild { "AZ91" } else { "cast aluminium" }]);
        let metal = self.one_of(&[
            "phosphor bronze",
            "leaded bronze",
            "brass",
            if wild { "sintered bronze" } else { "phosphor bronze" },
        ]);
        asked.part.push(("material", Entry::Text(housing.into())));
        let bore = (self.between(10.0, 40.0) * 1000.0).round() / 1000.0;
        let over = if wild { self.between(-0.02, 0.09) } else { self.between(0.9, 1.6) * bore / 1000.0 };
        let wall = if wild { self.between(0.55, 0.9) } else { self.between(0.68, 0.8) };
        let boss = if wild { self.between(1.25, 3.5) } else { self.between(1.8, 3.0) };
        let (inner, length) = (bore * wall, bore * self.between(0.6, 1.6));
        let doubt = if wild { (0.001, 0.02) } else { (0.002, 0.005) };
        let bush_bore = inner - if wild { 0.0 } else { 0.06 };
        let size = |size: f64, maker: &mut Self| Entry::Read(size, maker.between(doubt.0, doubt.1));
        let housing_bore = size(bore, self);
        let outside = size(bore + over, self);
        let bored = size(bush_bore, self);
        let shaft = size(inner, self);
        asked.put("housing.bore", housing_bore);
        asked.put("housing.outside", Entry::Mm(bore * boss));
        asked.put("housing.length", Entry::Mm(length));
        asked.text("housing.material", housing);
        if self.often(0.7) {
            let finish = self.one_of(&["Ra 0.8 um", "Ra 1.6 um"]);
            asked.text("housing.finish", finish);
            asked.text("bush.finish", finish);
        }
        asked.put("bush.outside", outside);
        asked.put("bush.bore", bored);
        asked.put("bush.length", Entry::Mm(length));
        asked.text("bush.material", metal);
        asked.put("shaft", shaft);
        let clearance =
            self.one_of(&["1 .. 2 thou", "0.03 .. 0.06 mm", "H7/f7", if wild { "" } else { "1 .. 2.5 thou" }]);
        let fit = format!("{:.0} H7/f7", inner);
        asked.text("clearance", if clearance == "H7/f7" { &fit } else { clearance });
        if self.often(0.6) || clearance.is_empty() {
            let duty = self.one_of(&["gear", "rocker", "kingpin"]);
            asked.text("duty", duty);
        }
        let assemble = self.one_of(&["press", "warm-housing", "chill-bush", "warm-and-chill"]);
        asked.text("assemble", assemble);
        let by = self.one_of(&["hand", "hand", "machine"]);
        asked.text("by", by);
        if self.often(0.4) {
            asked.text("oil-holes", format!("[{{diameter: 3 mm, at: {:.1} mm}}]", length / 3.0));
        }
        if self.often(0.4) {
            let (shaft, housing) = (self.between(40.0, 130.0), self.between(30.0, 120.0));
            asked.text("running.shaft", format!("{shaft:.0} degC"));
            asked.text("running.housing", format!("{housing:.0} degC"));
        }
        let gauge = self.one_of(&["", "plugs", "shaft"]);
        asked.text("gauge", gauge);
        asked
    }

    /// A facing cut: `face` or `skim`.
    pub fn facing(&mut self, word: &'static str, wild: bool) -> Asked {
        let mut asked = Asked::new(word);
        let face = word == "face";
        let hard = face && self.often(0.4);
        let metal = if hard {
            "case-hardened steel"
        } else {
            self.one_of(&["mild steel", "cast iron", if wild { "EN8" } else { "mild steel" }])
        };
        asked.part.push(("material", Entry::Text(metal.into())));
        if hard {
            let hrc = self.between(57.0, 62.0);
            asked.part.push(("hardness", Entry::Text(format!("{hrc:.0} HRC"))));
            if self.often(0.9) {
                let case = self.read(0.8, 1.6, (0.03, 0.12));
                asked.part.push(("case-depth", case));
            }
        }
        let outside = (if wild { self.between(20.0, 220.0) } else { self.between(40.0, 130.0) } * 10.0).round() / 10.0;
        let share = if wild { self.between(0.0, 0.9) } else { self.between(0.3, 0.7) };
        let inside = if share < 0.1 { 0.0 } else { (outside * share * 10.0).round() / 10.0 };
        let length = if wild { self.between(3.0, 70.0) } else { self.between(18.0, 50.0) };
        asked.put("outside", Entry::Mm(outside));
        if inside > 0.0 {
            asked.put("inside", Entry::Mm(inside));
        }
        let doubt = self.between(0.005, 0.03);
        asked.put("length", Entry::Read(length, doubt));
        let dish = !face && self.often(0.5);
        if !dish || self.often(0.7) {
            let wear = self.read(0.02, if wild { 0.6 } else { 0.3 }, (0.005, 0.03));
            asked.put("wear", wear);
        }
        if dish {
            let depth = self.read(0.02, 0.15, (0.01, 0.02));
            asked.put("dish", depth);
            let from = self.one_of(&["straight-edge", "local"]);
            asked.text("from", from);
        }
        asked.text("finish", if hard { "Ra 1.6 um" } else { "Ra 3.2 um" });
        if self.often(0.6) {
            let flat = self.between(0.02, 0.08);
            asked.put("flat-within", Entry::Mm(flat));
        }
        if face {
            if self.often(0.6) {
                asked.put("square-within", Entry::Mm(0.03));
            }
            let least = length - self.between(0.5, 1.5);
            asked.put("least-length", Entry::Mm(least));
            if hard {
                let least = self.between(0.2, 0.6);
                asked.put("least-case", Entry::Mm(least));
            }
            if self.often(0.5) {
                let before = self.read(0.02, 0.1, (0.005, 0.02));
                asked.put("removed-before", if self.often(0.5) { Entry::Text("0 mm".into()) } else { before });
            }
            if self.often(0.3) {
                let way = self.one_of(&["opens", "closes"]);
                asked.text("float", way);
                let found = self.read(0.2, 0.6, (0.005, 0.02));
                asked.put("as-found-float", found);
                let rides = self.one_of(&["in-groove", "across"]);
                asked.text("rides", rides);
                if self.often(0.5) {
                    asked.text("float-wanted", "0.10 .. 0.25 mm");
                }
            }
            if inside > 0.0 && self.often(0.25) {
                let ring = outside - inside;
                asked.put("relief.outside", Entry::Mm(outside - 0.3 * ring));
                asked.put("relief.inside", Entry::Mm(inside + 0.3 * ring));
                let depth = self.read(0.6, 1.2, (0.02, 0.05));
                asked.put("relief.depth", depth);
                asked.put("relief.gap", Entry::Mm(0.2));
            }
        } else {
            let least = length - self.between(0.4, 1.2);
            asked.put("least-thickness", Entry::Mm(least));
            if self.often(0.4) {
                let present = self.read(2.0, 4.0, (0.01, 0.05));
                asked.put("step.present", present);
                let cut = self.one_of(&["same", "none"]);
                asked.text("step.cut", cut);
                if self.often(0.6) {
                    asked.text("springs.count", "6");
                    asked.text("springs.rate", "9 N/mm");
                    if self.often(0.7) {
                        asked.text("springs.most-change", "40 N");
                    }
                }
            }
        }
        if self.often(0.2) {
            let gaps = self.one_of(&["2", "4", "6"]);
            asked.text("interrupted", gaps);
        }
        if wild && self.often(0.3) {
            asked.text("feed-direction", "outward");
        }
        self.hold(&mut asked, wild, (outside, inside, length));
        if self.often(0.4) {
            asked.put("thickness-at-rim", Entry::Read(length, 0.02));
        }
        asked
    }

    fn hold(&mut self, asked: &mut Asked, wild: bool, (outside, inside, length): (f64, f64, f64)) {
        let held = match wild {
            true => self.one_of(&["soft-jaws", "jaws", "four-jaw", "mandrel", "faceplate", "collet"]),
            false => self.one_of(&["soft-jaws", "jaws"]),
        };
        asked.text("hold.in", held);
        let hub = self.often(0.2);
        let gripped = if hub { inside + (outside - inside) * 0.6 } else { outside };
        asked.put("hold.diameter", Entry::Mm(gripped));
        let grip = if wild { self.between(0.05, 0.95) } else { self.between(0.35, 0.6) } * length;
        if !wild || self.often(0.9) {
            asked.put("hold.grip", Entry::Mm(grip));
        }
        if !wild || self.often(0.8) {
            let out = if wild { self.between(0.0, 1.0) * length } else { (length - grip).max(0.5) };
            asked.put("hold.overhang", Entry::Mm(out));
        }
        let true_within = self.one_of(&["0.01 mm", "0.02 mm", "0.03 mm"]);
        asked.put("hold.true-within", Entry::Text(true_within.into()));
        let nipped = self.one_of(&["", "light", "normal", "hard"]);
        asked.text("hold.nipped", nipped);
        if self.often(if matches!(held, "jaws" | "soft-jaws" | "four-jaw") { 0.2 } else { 0.7 }) {
            let torque = self.between(10.0, 120.0);
            asked.text("hold.tested", format!("{torque:.0} N·m"));
        }
        if is_known("hold.nipped") {
            let stop = self.one_of(&["", "none", "step", "rod"]);
            asked.text("hold.stop", stop);
            if inside > 30.0 && wild && self.often(0.2) {
                asked.text("hold.grips", "inside");
            }
        }
    }
}
