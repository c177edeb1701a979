//! Jobs as if by chance: ordinary ones, as somebody careful types them, and wild ones. The same seed gives the same jobs.

mod bush;
mod by_hand;
mod cylinder;
mod faces;
mod facing;
mod fitting;
mod holes;
mod insert;
mod lathe;
mod milling;
mod pressing;
mod seals;
mod shops;
mod truing;

#[allow(unused_imports)]
pub use shops::{shop_of, whole_shop};

use setover::job::JobFile;
use setover::operations::Request;
use setover::plan::Plan;
use setover::proof::Chance;
use std::sync::LazyLock;

/// The seed of every test over such jobs; `SETOVER_SEED` sets another.
pub fn seed() -> u64 {
    const SEED: u64 = 19_530_426;
    static ASKED: LazyLock<u64> =
        LazyLock::new(|| std::env::var("SETOVER_SEED").ok().and_then(|text| text.parse().ok()).unwrap_or(SEED));
    *ASKED
}

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
    /// The other operation that this one names: the other of a pair, the other bush of a line.
    pub other: Option<Box<Other>>,
}

/// What an operation names of the job beside it.
#[derive(Clone, Debug, PartialEq)]
pub enum Other {
    /// The same operation on another part.
    OfAPair(Asked),
    /// Another operation behind it on the same part.
    InLine(Asked),
}

/// Stands in a text for the name of the part that an operation belongs to.
const THIS: &str = "{this}";
/// And for the part beside it.
const BESIDE: &str = "{beside}";

/// Every key that a job may have, as the schema of a job says.
static SCHEMA: LazyLock<String> = LazyLock::new(|| schemars::schema_for!(JobFile<Request>).to_value().to_string());

/// Whether a job may have a key.
pub fn is_known(key: &str) -> bool {
    let last = key.rsplit('.').next().unwrap_or(key);
    SCHEMA.contains(&format!("\"{last}\":"))
}

impl Asked {
    fn new(word: &'static str) -> Self {
        Self { word, keys: Vec::new(), part: Vec::new(), other: None }
    }

    fn put(&mut self, key: &'static str, entry: Entry) {
        self.keys.push((key, entry));
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

/// A job of one part with these operations, and the part beside it where one of them is half of a pair.
pub fn job_of(name: &str, all: &[Asked]) -> String {
    let mut text = format!("job: Random\ndate: 2026-02-03\nparts:\n{}", part_of(name, all));
    for other in all.iter().filter_map(|asked| asked.other.as_deref()) {
        match other {
            Other::OfAPair(half) => text += &part_of(BESIDE, std::slice::from_ref(half)),
            Other::InLine(bush) => text += &bush.typed(),
        }
    }
    text.replace(THIS, name).replace(BESIDE, &format!("{name} two"))
}

fn part_of(name: &str, all: &[Asked]) -> String {
    let mut text = format!("  - part: \"{name}\"\n");
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
    number: u64,
}

impl Maker {
    /// The maker of a numbered job.
    pub fn of(number: u64) -> Self {
        let mut chance = Chance::from_seed(seed() ^ number.wrapping_mul(0x2545_F491_4F6C_DD1D));
        chance.bits();
        Self { chance, number }
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
        // Every seventh job is of the operations that came later: the others stay what they were.
        if self.number % 11 == 3 {
            return self.on_the_lathe(self.number / 11, wild);
        }
        if self.number % 13 == 6 {
            return self.cylinder(wild);
        }
        if self.number % 13 == 4 {
            return self.fitting(self.number / 13, wild);
        }
        match self.number % 7 {
            5 => {
                return match self.number / 7 % 6 {
                    0 | 2 => self.drill(wild),
                    1 => self.tap(wild),
                    3 => self.oil_hole(wild),
                    4 => self.spot_face(wild),
                    _ => self.mill_face(wild),
                };
            }
            6 if (self.number / 7).is_multiple_of(3) => return self.truing(wild),
            6 if self.number / 7 % 3 == 1 => return self.pressing(wild),
            6 if self.number / 7 % 12 == 2 => return self.seal_track(wild),
            6 if self.number / 7 % 12 == 8 => return self.lapping(wild),
            6 => return self.by_hand(wild),
            _ => {}
        }
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
        if self.often(0.4) && all[0].other.is_none() {
            let second = self.asked();
            all.extend((second.other.is_none()).then_some(second));
        }
        job_of(name, &all)
    }
}

/// Random jobs of the usual shop through a law: no job breaks it.
#[track_caller]
pub fn random_jobs_keep(usual: u64, broken: impl Fn(&Plan) -> Vec<String> + Sync) {
    let jobs = super::jobs_asked(usual);
    println!("seed {}, {jobs} jobs", seed());
    let shop = super::shop(super::SHOP);
    let all = std::sync::Mutex::new(Vec::new());
    super::over_jobs(jobs, |number| {
        let job = Maker::of(number).job();
        let plan = super::try_plan(&job, Some(&shop)).unwrap_or_else(|all| panic!("{job}\n{all:#?}"));
        let found = broken(&plan).into_iter().map(|fault| format!("job {number}: {fault}"));
        all.lock().unwrap().extend(found);
    });
    let mut all = all.into_inner().unwrap();
    all.sort();
    assert!(all.is_empty(), "{} in {jobs} jobs: {:#?}", all.len(), all.iter().take(40).collect::<Vec<_>>());
}
