//! Whatever a job or a shop file holds, the program answers or says what is wrong and where: it never panics, and it ends
//! with an exit code from 0 to 3. Mutations of the examples come from a fixed seed that is printed; `SETOVER_ROUNDS=50000`
//! asks for more of them, `SETOVER_SEED` for others.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::given::{CARD, JOBS, SHOP, answered, log};
use std::process::Command;

/// Xorshift of 64 bits: the same jobs from the same seed.
pub struct Dice(pub u64);

impl Dice {
    pub fn next(&mut self) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        self.0
    }

    pub fn below(&mut self, most: usize) -> usize {
        (self.next() % most.max(1) as u64) as usize
    }

    pub fn of<'a, T: ?Sized>(&mut self, all: &[&'a T]) -> &'a T {
        all[self.below(all.len())]
    }
}

/// What a person, a broken disk or somebody who means harm may put in a file.
const PIECES: [&str; 40] = [
    "±",
    "..",
    "+0.1/-0.2",
    " mm",
    " in",
    " thou",
    "{of: ring/face/removed}",
    "{size: 3 mm, with: micrometer}",
    "0",
    "-1",
    "999999999999999",
    "1e300",
    "0.0000000001",
    "1/3",
    "1 3/8",
    ".nan",
    ".inf",
    "~",
    "null",
    "true",
    "[",
    "]",
    "{",
    "}",
    ": ",
    "- ",
    "\n",
    "\t",
    "\"",
    "'",
    "#",
    "&a ",
    "*a",
    "!tag ",
    "|\n",
    "\u{202e}",
    "\u{1b}[2J",
    "漢",
    "\u{0}",
    "%YAML 1.2\n---\n",
];

/// A text with a few things done to it.
fn bent(text: &str, dice: &mut Dice) -> Vec<u8> {
    let mut bytes = text.as_bytes().to_vec();
    for _ in 0..=dice.below(3) {
        let at = dice.below(bytes.len());
        match dice.below(16) {
            0 => bytes[at] = dice.next() as u8,
            1 => {
                let to = (at + dice.below(40)).min(bytes.len());
                bytes.drain(at..to);
            }
            2 => {
                let piece = bytes[at..(at + dice.below(60)).min(bytes.len())].to_vec();
                let to = dice.below(bytes.len());
                bytes.splice(to..to, piece);
            }
            3 => bytes.truncate(at.max(1)),
            4 | 5 => {
                bytes.splice(at..at, dice.of(&PIECES).bytes());
            }
            6..=13 => new_number(&mut bytes, dice),
            _ => lines(&mut bytes, dice),
        }
        if bytes.is_empty() {
            bytes.push(b'x');
        }
    }
    bytes
}

/// Another number where one stands: most of these can still be read, and have to be worked.
fn new_number(bytes: &mut Vec<u8>, dice: &mut Dice) {
    let starts: Vec<usize> = (1..bytes.len()).filter(|i| bytes[*i].is_ascii_digit() && bytes[i - 1] == b' ').collect();
    if starts.is_empty() {
        return;
    }
    let start = starts[dice.below(starts.len())];
    let length = bytes[start..].iter().take_while(|b| b.is_ascii_digit() || **b == b'.').count();
    let old = String::from_utf8_lossy(&bytes[start..start + length]).parse().unwrap_or(1.0);
    let factor = (dice.below(1000) as f64 / 1000.0 * 4.0 - 2.0).exp();
    let number = match dice.below(8) {
        0 => format!("{:.4}", factor * 10_f64.powi(dice.below(9) as i32 - 4)),
        1 => format!("{:.0}", old * factor),
        _ => format!("{:.3}", old * factor),
    };
    bytes.splice(start..start + length, number.bytes());
}

/// A line gone, twice, or somewhere else.
fn lines(bytes: &mut Vec<u8>, dice: &mut Dice) {
    let mut all: Vec<Vec<u8>> = bytes.split(|b| *b == b'\n').map(<[u8]>::to_vec).collect();
    let at = dice.below(all.len());
    let line = all[at].clone();
    match dice.below(3) {
        0 => {
            all.remove(at);
        }
        1 => all.insert(at, line),
        _ => {
            let to = dice.below(all.len());
            all.swap(at, to);
        }
    }
    *bytes = all.join(&b'\n');
}

fn rounds(usual: u64) -> u64 {
    std::env::var("SETOVER_ROUNDS").ok().and_then(|text| text.parse().ok()).unwrap_or(usual)
}

fn dice() -> Dice {
    let seed = std::env::var("SETOVER_SEED").ok().and_then(|text| text.parse().ok()).unwrap_or(0x5e70_7e12);
    println!("seed {seed}");
    Dice(seed)
}

#[test]
fn bent_examples_are_answered_or_refused_at_a_place() {
    let mut dice = dice();
    let (mut codes, mut fallen) = ([0_u32; 4], Vec::new());
    for round in 0..rounds(1_500) {
        let job = bent(dice.of(&JOBS), &mut dice);
        let Ok(job) = String::from_utf8(job) else { continue };
        // What went last is known by its text, also where it never comes back.
        if std::env::var_os("SETOVER_TELL").is_some() {
            std::fs::write(std::env::temp_dir().join("setover-last-job.yaml"), &job).expect("written");
        }
        match std::panic::catch_unwind(|| answered(&job, SHOP, None, round % 25 == 0)) {
            Ok(code) => codes[usize::from(code)] += 1,
            Err(_) => fallen.push(job),
        }
    }
    println!("exit codes 0 to 3: {codes:?}");
    assert!(fallen.is_empty(), "{} jobs fell, the first of them:\n{}", fallen.len(), fallen[0]);
    assert!(codes[..3].iter().all(|count| *count > 20), "each way of ending is met: {codes:?}");
}

#[test]
fn bent_shops_and_cards_are_answered_or_refused_at_a_place() {
    let mut dice = dice();
    let mut codes = [0_u32; 4];
    for _ in 0..rounds(900) {
        let job = dice.of(&JOBS);
        let (shop, card) = (bent(SHOP, &mut dice), bent(CARD, &mut dice));
        if let Ok(shop) = String::from_utf8(shop) {
            codes[usize::from(answered(job, &shop, None, false))] += 1;
        }
        if let Ok(card) = String::from_utf8(card) {
            let code = answered(JOBS[0], SHOP, Some(&card), false);
            assert!(code < 2, "a card never costs the job: {card}");
            codes[usize::from(code)] += 1;
        }
    }
    println!("exit codes 0 to 3: {codes:?}");
}

/// Logs of jobs that are worked, bent as a disk or an editor bends them.
#[test]
fn bent_logs_cost_their_own_lines_alone() {
    const LOGS: [&str; 4] = [
        include_str!("fuzz/corpus/log/bush"),
        include_str!("fuzz/corpus/log/withdrawn"),
        include_str!("fuzz/corpus/log/torn"),
        include_str!("fuzz/corpus/log/double"),
    ];
    let mut dice = dice();
    for _ in 0..rounds(150) {
        let mut bytes = bent(dice.of(&LOGS), &mut dice);
        if dice.below(3) == 0 {
            bytes.extend(bent(dice.of(&LOGS), &mut dice));
        }
        if let Err(why) = std::panic::catch_unwind(|| log(&bytes)) {
            let why = why.downcast_ref::<String>().cloned().unwrap_or_default();
            panic!("{why}: {}", String::from_utf8_lossy(&bytes));
        }
    }
}

#[test]
fn random_bytes_end_in_an_exit_code() {
    let folder = tempfile::tempdir().expect("folder");
    let mut dice = dice();
    std::fs::write(folder.path().join("shop.yaml"), SHOP).expect("shop");
    for round in 0..rounds(120).min(2_000) {
        let bytes: Vec<u8> = match round % 3 {
            0 => (0..dice.below(400)).map(|_| dice.next() as u8).collect(),
            1 => (0..dice.below(400)).map(|_| b" \n-:{}[]\"'#&*!|>%@`abc019.,"[dice.below(27)]).collect(),
            _ => bent(dice.of(&JOBS), &mut dice),
        };
        std::fs::write(folder.path().join("job.yaml"), &bytes).expect("job");
        let words: &[&str] = match dice.below(3) {
            0 => &["plan", "job.yaml"],
            1 => &["plan", "job.yaml", "--format", "json"],
            _ => &["sheets", "job.yaml", "-o", "sheets.pdf"],
        };
        let output =
            Command::new(env!("CARGO_BIN_EXE_setover")).args(words).current_dir(folder.path()).output().expect("runs");
        let said = String::from_utf8_lossy(&output.stderr).into_owned();
        assert!(matches!(output.status.code(), Some(0..=3)), "{:?} {said}: {bytes:?}", output.status);
        assert!(!said.contains("panicked"), "{said}: {bytes:?}");
    }
}

#[test]
fn random_arguments_end_in_an_exit_code() {
    let folder = tempfile::tempdir().expect("folder");
    let mut dice = dice();
    let keys = [
        "thread",
        "wall",
        "hole",
        "part.material",
        "part.hardness",
        "bolt.class",
        "hold",
        "set-up.machine",
        "",
        ".",
        "a..b",
    ];
    let values = [
        "M8",
        "18 ± 0.3 mm",
        "blind",
        "steel",
        "60 HRC",
        "8.8",
        "{in: jaws}",
        "[1, 2",
        "",
        "±",
        "18 in mm",
        "\u{202e}",
        "{of: a/b/c}",
    ];
    for _ in 0..rounds(120).min(2_000) {
        let word = dice.of(&["face", "skim", "ream-bush", "thread-insert", "nonsense", ""]);
        let mut words = vec!["try".to_owned(), word.to_owned()];
        words.extend((0..dice.below(6)).map(|_| format!("{}={}", dice.of(&keys), dice.of(&values))));
        let output =
            Command::new(env!("CARGO_BIN_EXE_setover")).args(&words).current_dir(folder.path()).output().expect("runs");
        let said = String::from_utf8_lossy(&output.stderr).into_owned();
        assert!(matches!(output.status.code(), Some(0..=3)), "{:?} {said}: {words:?}", output.status);
        assert!(!said.contains("panicked"), "{said}: {words:?}");
    }
}
