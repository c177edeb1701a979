//! What must hold between two jobs and not only in one: a worse measurement, a size moved its bad way and a key left out never
//! better a verdict; and no check vanishes. `SETOVER_JOBS=2000 cargo test --test all relations::` takes so many jobs.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common;

use common::jobs::{Asked, Entry, Maker, job_of, seed, shop_of};
use common::{SHOP, jobs_asked, over_jobs, shop, try_plan};
use setover::operations::{COMMON_CHECKS, Registered, Request};
use setover::plan::Planned;
use setover::proof::{Check, Keep, Outcome, Place, Verdict};
use setover::reading::Node;
use setover::shop::Shop;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Mutex;

/// What is worked of a job, or nothing where it cannot be read.
fn worked(asked: &Asked, shop: Option<&Shop>) -> Option<Planned> {
    let all = try_plan(&job_of("part", std::slice::from_ref(asked)), shop).ok()?.operations;
    Some(all.into_iter().find(|planned| planned.address.part == "part").expect("the part"))
}

/// Verdicts in their order; a job that cannot be read is worse than one that fails.
fn rank(verdict: Option<Verdict>) -> u8 {
    match verdict {
        None | Some(Verdict::Proven) => 0,
        Some(Verdict::Doubtful) => 1,
        Some(Verdict::Fails) => 2,
    }
}

/// More doubt asks for more metal, and more metal can be bitten and measured: these stand outside the whole verdict. What lies off the
/// axis is touched the nearer, and leaves the more to measure on.
const OUTSIDE: [&str; 3] = ["bite", "measured-between", "metal-when-measured"];

/// Readings by which the cut goes deeper; where other cuts or another tool are chosen for it, what each cut asks of tool and hold
/// may be less: more metal can be bitten by CBN, and divides into two cuts that each push less than the one before; what is left may
/// lie within the range of a finer micrometer; and the float that is wanted has two sides: another shim may fit it better.
const DEEPER: [&str; 2] = ["wear", "dish"];
const OF_THE_CUT: [&str; 8] = [
    "tool-hard-enough",
    "grip",
    "grip-moment",
    "can-be-measured",
    "float-left",
    "float-with-shim",
    "shim-possible",
    "shim-in-drawer",
];

fn whole(planned: Option<&Planned>, except: &[&str]) -> u8 {
    match planned {
        None => 3,
        Some(planned) if planned.answer.refused.is_some() => 2,
        Some(planned) => {
            let outside = |check: &&str| OUTSIDE.contains(check) || except.contains(check);
            let inside = planned.answer.checks.iter().filter(|check| !outside(&check.id));
            inside.map(|check| rank(check.stamps())).max().unwrap_or(0)
        }
    }
}

/// All that was chosen: tools, lengths, spindle steps, feeds, depths, divisions, and the sizes that a bush is made to where none
/// was measured.
fn choice(planned: &Planned) -> String {
    let chosen: Vec<_> = planned.answer.choices.iter().map(|choice| (&choice.name, &choice.chosen)).collect();
    let cuts: Vec<_> = planned
        .answer
        .set_ups
        .iter()
        .flat_map(|set_up| set_up.steps.iter().filter_map(|step| step.cut.as_ref()))
        .map(|cut| (&cut.tool, cut.spindle, cut.feed, cut.passes.iter().map(|pass| pass.depth).collect::<Vec<_>>()))
        .collect();
    let sizes = ["removed", "bush_outside_to_make", "bush_bore_to_make"];
    let sizes = sizes.map(|key| planned.answer.value(key).map(|value| value.number));
    format!("{chosen:?} {cuts:?} {sizes:?}")
}

/// What was found over all jobs: how many pairs were compared, and what got better that must not.
#[derive(Default)]
struct Found {
    checks: Mutex<usize>,
    wholes: Mutex<usize>,
    better: Mutex<BTreeMap<String, (usize, String)>>,
}

impl Found {
    fn better(&self, what: String, how: impl FnOnce() -> String) {
        self.better.lock().unwrap().entry(what).or_insert_with(|| (0, how())).0 += 1;
    }

    /// Check by check, where the choice stayed the same.
    fn compare_checks(&self, key: &str, one: &Planned, worse: &Planned, job: &str, judged: impl Fn(&str) -> bool) {
        if one.answer.refused.is_some() || worse.answer.refused.is_some() || choice(one) != choice(worse) {
            return;
        }
        for check in one.answer.checks.iter().filter(|check| judged(check.id)) {
            let Some(other) = worse.answer.checks.iter().find(|other| other.id == check.id) else {
                self.better(format!("{} {key}: {} vanished", one.word, check.id), || job.to_owned());
                continue;
            };
            *self.checks.lock().unwrap() += 1;
            let gained = match (&check.judged, &other.judged) {
                (Some(one), Some(other)) => {
                    let noise = 1e-9 * one.limit.abs().max(one.got.abs()).max(1.0);
                    other.margin > one.margin + noise
                }
                _ => false,
            };
            if rank(other.stamps()) < rank(check.stamps()) {
                let says = || format!("{} became {}\n{job}", said(check), said(other));
                self.better(format!("{} {key}: {}", one.word, check.id), says);
            } else if gained {
                let says = || format!("{} became {}\n{job}", said(check), said(other));
                self.better(format!("{} {key}: margin of {}", one.word, check.id), says);
            }
        }
    }

    /// The worst verdict, the choice free.
    fn compare_wholes(&self, key: &str, one: &Planned, worse: Option<&Planned>, job: &str, except: &[&str]) {
        *self.wholes.lock().unwrap() += 1;
        let chosen_anew = worse.is_none_or(|worse| choice(one) != choice(worse));
        let except: Vec<&str> = match DEEPER.contains(&key) && chosen_anew {
            true => except.iter().chain(&OF_THE_CUT).copied().collect(),
            false => except.to_vec(),
        };
        if whole(worse, &except) < whole(Some(one), &except) {
            let bad = |planned: &Planned| -> Vec<String> {
                planned.answer.checks.iter().filter(|check| rank(check.stamps()) > 0).map(said).collect()
            };
            let says = || format!("{:#?}\nbecame {:#?}\n{job}", bad(one), worse.map(bad));
            self.better(format!("{} {key}: the whole", one.word), says);
        }
    }

    #[track_caller]
    fn settle(self, least_checks: usize, least_wholes: usize) {
        let (checks, wholes) = (self.checks.into_inner().unwrap(), self.wholes.into_inner().unwrap());
        println!("seed {}: {checks} checks and {wholes} whole verdicts compared", seed());
        let better = self.better.into_inner().unwrap();
        for (what, (times, how)) in &better {
            println!("--- {what}, {times} times:\n{how}");
        }
        assert!(better.is_empty(), "better by what is worse: {:#?}", better.keys().collect::<Vec<_>>());
        assert!(checks >= least_checks && wholes >= least_wholes, "too few pairs: {checks}, {wholes}");
    }
}

fn said(check: &Check<String>) -> String {
    let margin = check.judged.as_ref().map_or(String::new(), |judged| format!(" (margin {:.6})", judged.margin));
    format!("{}: {}{margin}", check.id, check.state.text())
}

#[test]
fn a_worse_measurement_betters_nothing() {
    let found = Found::default();
    over_jobs(jobs_asked(120), |number| {
        let shop = shop_of(number);
        let asked = Maker::of(number).asked();
        let Some(one) = worked(&asked, shop.as_ref()) else { panic!("{}", asked.typed()) };
        let read = asked.keys.iter().chain(&asked.part).filter_map(|(key, entry)| match entry {
            Entry::Read(size, doubt) if *doubt > 0.0 => Some((*key, *size, *doubt)),
            _ => None,
        });
        for (key, size, doubt) in read {
            for times in [1.5, 3.0, 10.0] {
                let other = asked.with(key, Entry::Read(size, doubt * times));
                let worse = worked(&other, shop.as_ref());
                let job =
                    format!("job {number}: ± × {times} in {key} of\n{}", job_of("part", std::slice::from_ref(&asked)));
                if let Some(worse) = &worse {
                    found.compare_checks(key, &one, worse, &job, |_| true);
                }
                found.compare_wholes(key, &one, worse.as_ref(), &job, &[]);
            }
        }
    });
    found.settle(if jobs_asked(120) < 120 { 0 } else { 10_000 }, if jobs_asked(120) < 120 { 0 } else { 900 });
}

/// A size and the way that is bad for it.
struct BadWay {
    words: &'static [&'static str],
    key: &'static str,
    /// What it is multiplied by, step by step.
    times: &'static [f64],
    /// The checks that it is bad for; empty is all.
    only: &'static [&'static str],
    /// The checks that it may well be good for.
    except: &'static [&'static str],
}

/// The same ± is a smaller share of a larger size: this check alone may be the better for it.
const SHARE: &str = "doubt-plausible";
/// A case that is less deep is the sooner one that can be.
const DEEP: &str = "case-plausible";

const LESS: &[f64] = &[0.995, 0.97, 0.9, 0.75];
const MORE: &[f64] = &[1.005, 1.03, 1.1, 1.3];
const MUCH_MORE: &[f64] = &[1.1, 1.5, 2.5];
const INSERT: &[&str] = &["thread-insert"];
const BUSH: &[&str] = &["ream-bush"];
const FACING: &[&str] = &["face", "skim"];

/// What more interference is bad for.
const TIGHT: &[&str] = &[
    "bush-yield",
    "bush-plastic",
    "housing-stress",
    "housing-iron",
    "press-force",
    "oven-stop",
    "oven-reaches",
    "cold-enough",
    "stress-when-warm",
];
/// What less interference is bad for.
const LOOSE: &[&str] = &["interference", "grip-when-warm"];

const BAD_WAYS: &[BadWay] = &[
    BadWay { words: INSERT, key: "wall", times: LESS, only: &[], except: &[] },
    BadWay { words: INSERT, key: "beyond", times: LESS, only: &[], except: &[] },
    BadWay { words: INSERT, key: "edge", times: LESS, only: &[], except: &[] },
    BadWay { words: INSERT, key: "present-hole", times: MORE, only: &[], except: &[SHARE] },
    BadWay { words: INSERT, key: "present-depth", times: MORE, only: &[], except: &[SHARE] },
    BadWay { words: INSERT, key: "least-left", times: MUCH_MORE, only: &[], except: &[] },
    BadWay { words: INSERT, key: "bolt.torque", times: MUCH_MORE, only: &[], except: &[] },
    BadWay { words: INSERT, key: "bolt.reach", times: LESS, only: &["pull-out", "outlasts"], except: &[] },
    // A bolt that meets the floor of its hole clamps nothing: there the longer one is the worse.
    BadWay {
        words: INSERT,
        key: "bolt.reach",
        times: MORE,
        only: &["tang-clear", "when-assembled", "bolt-clear-of-floor"],
        except: &[],
    },
    BadWay { words: BUSH, key: "bush.outside", times: &[1.0001, 1.0004, 1.001, 1.003], only: TIGHT, except: &[] },
    BadWay { words: BUSH, key: "bush.outside", times: &[0.9999, 0.9996, 0.999, 0.997], only: LOOSE, except: &[] },
    BadWay {
        words: BUSH,
        key: "housing.outside",
        times: LESS,
        // Not the stress of a ductile housing: round a bush that is stiffer than itself (bronze in magnesium) a thinner one gives
        // way faster than it loses strength.
        only: &["housing-iron", "grip-when-warm"],
        except: &[],
    },
    BadWay { words: BUSH, key: "bush.length", times: MORE, only: &["press-force"], except: &[] },
    BadWay { words: BUSH, key: "running.housing", times: MORE, only: &["stress-when-warm"], except: &[] },
    BadWay {
        words: FACING,
        key: "wear",
        times: MUCH_MORE,
        only: &[],
        except: &["bite", "measured-between", "float-left", "float-with-shim", "shim-possible", "shim-in-drawer"],
    },
    BadWay { words: FACING, key: "dish", times: MUCH_MORE, only: &[], except: &["bite", "measured-between"] },
    BadWay { words: FACING, key: "case-depth", times: LESS, only: &[], except: &[DEEP] },
    BadWay { words: FACING, key: "removed-before", times: MUCH_MORE, only: &[], except: &[SHARE] },
    BadWay { words: FACING, key: "least-length", times: MORE, only: &[], except: &[] },
    BadWay { words: FACING, key: "least-thickness", times: MORE, only: &[], except: &[] },
    BadWay { words: FACING, key: "least-case", times: MUCH_MORE, only: &[], except: &[] },
    BadWay {
        words: FACING,
        key: "length",
        times: LESS,
        only: &["least-length", "thickness", "ring-lobe", "ring-stress"],
        except: &[],
    },
    BadWay { words: FACING, key: "thickness-at-rim", times: LESS, only: &["flange"], except: &[] },
    BadWay { words: FACING, key: "flat-within", times: LESS, only: &["dish", "flange", "square"], except: &[] },
    BadWay { words: FACING, key: "relief.depth", times: LESS, only: &[], except: &[SHARE] },
    BadWay { words: FACING, key: "relief.gap", times: MORE, only: &[], except: &[] },
    BadWay { words: &["skim"], key: "step.present", times: LESS, only: &["step-left"], except: &[] },
    BadWay {
        words: FACING,
        key: "hold.grip",
        times: LESS,
        only: &["grip", "grip-length", "jaw-pressure"],
        except: &[],
    },
    BadWay { words: FACING, key: "hold.grip", times: LESS, only: &["grip-moment"], except: &[] },
    BadWay {
        words: FACING,
        key: "hold.overhang",
        times: MORE,
        only: &["overhang", "grip-moment", "grip-length", "gives-way"],
        except: &[],
    },
    BadWay { words: FACING, key: "hold.overhang", times: LESS, only: &["tool-clear"], except: &[] },
    BadWay { words: FACING, key: "hold.diameter", times: &[0.99, 0.95, 0.9], only: &["grip", "overhang"], except: &[] },
    BadWay { words: FACING, key: "hold.diameter", times: MORE, only: &["swing"], except: &[] },
    BadWay { words: FACING, key: "hold.diameter", times: MORE, only: &["jaw-reach"], except: &[] },
];

/// What is cut on the lathe along the axis, and what is held there at all.
const DIAMETERS: &[&str] = &["turn", "bore-hole"];
const LATHE: &[&str] = &["turn", "bore-hole", "part-off"];

const BAD_WAYS_OF_THE_LATHE: &[BadWay] = &[
    BadWay {
        words: &["bore-hole"],
        key: "eccentric",
        times: MUCH_MORE,
        only: &[],
        except: &[SHARE, "metal-when-measured"],
    },
    BadWay { words: &["bore-hole"], key: "outside", times: LESS, only: &["wall"], except: &[] },
    BadWay { words: &["bore-hole"], key: "least-wall", times: MORE, only: &[], except: &[] },
    BadWay { words: &["bore-hole"], key: "behind", times: LESS, only: &["behind"], except: &[] },
    BadWay { words: &["bore-hole"], key: "present-depth", times: LESS, only: &["bottom"], except: &[] },
    BadWay { words: DIAMETERS, key: "case-depth", times: LESS, only: &[], except: &[DEEP] },
    BadWay { words: DIAMETERS, key: "removed-before", times: MUCH_MORE, only: &[], except: &[SHARE] },
    BadWay { words: DIAMETERS, key: "least-case", times: MUCH_MORE, only: &[], except: &[] },
    BadWay { words: DIAMETERS, key: "corner", times: LESS, only: &["corner"], except: &[] },
    BadWay { words: &["turn"], key: "thickness-at-rim", times: LESS, only: &["flange"], except: &[] },
    BadWay { words: LATHE, key: "hold.grip", times: LESS, only: &["grip-length", "jaw-pressure"], except: &[] },
    BadWay {
        words: LATHE,
        key: "hold.overhang",
        times: MORE,
        only: &["overhang", "grip-moment", "grip-length", "spring-left", "near-the-jaws"],
        except: &[],
    },
    BadWay { words: LATHE, key: "hold.overhang", times: LESS, only: &["tool-clear"], except: &[] },
    BadWay {
        words: DIAMETERS,
        key: "hold.true-within",
        times: MUCH_MORE,
        only: &["cleans-up", "wall", "spring-left"],
        except: &[],
    },
    BadWay { words: &["part-off"], key: "outside", times: MORE, only: &["blade-reach"], except: &[] },
];

impl BadWay {
    /// Whether it speaks of a check.
    fn judges(&self, check: &str) -> bool {
        (self.only.is_empty() || self.only.contains(&check)) && !self.except.contains(&check)
    }

    /// Whether it is bad for the operation as a whole.
    fn is_bad_for_all(&self) -> bool {
        let alone = |check: &&str| OUTSIDE.contains(check) || [SHARE, DEEP].contains(check);
        self.only.is_empty() && self.except.iter().all(alone)
    }
}

impl BadWay {
    /// Whether it is the bad way of this job: what is measured from the old hole itself asks nothing of the wall when the hole is
    /// wider; jaws that open reach a wide bore sooner than a narrow one; a wide part that hardly stands out is carried by friction,
    /// and the arm to the middle of its grip grows with the grip; a warmer housing tightens only on a bush that warms as much and
    /// grows more than it does.
    fn is_bad_for(&self, asked: &Asked) -> bool {
        let says =
            |key, words: &[&str]| matches!(asked.get(key), Some(Entry::Text(text)) if words.contains(&text.as_str()));
        match self.key {
            "present-hole" => !says("zero", &["old-hole", "corner"]),
            "hold.diameter" if self.only.contains(&"jaw-reach") => !says("hold.grips", &["inside"]),
            "hold.grip" if self.only.contains(&"grip-moment") => {
                match (asked.get("hold.diameter"), asked.get("hold.overhang")) {
                    (Some(Entry::Mm(wide)), Some(Entry::Mm(out))) => *wide < 10.0 * out,
                    _ => false,
                }
            }
            "running.housing" => {
                asked.get("running.shaft").is_none() && says("housing.material", &["cast iron", "GG25", "mild steel"])
            }
            _ => true,
        }
    }
}

#[test]
fn a_size_moved_its_bad_way_betters_nothing() {
    let found = Found::default();
    let compared: Mutex<BTreeSet<String>> = Mutex::default();
    over_jobs(jobs_asked(120), |number| {
        let shop = shop_of(number);
        let asked = Maker::of(number).asked();
        let Some(one) = worked(&asked, shop.as_ref()) else { panic!("{}", asked.typed()) };
        for way in BAD_WAYS.iter().chain(BAD_WAYS_OF_THE_LATHE).filter(|way| way.words.contains(&asked.word)) {
            let entry = asked.keys.iter().chain(&asked.part).find(|(key, _)| *key == way.key).map(|(_, entry)| entry);
            let Some(entry) = entry else { continue };
            if !way.is_bad_for(&asked) {
                continue;
            }
            for &times in way.times {
                let moved = match entry {
                    Entry::Read(size, doubt) => Entry::Read(size * times, *doubt),
                    Entry::Mm(size) => Entry::Mm(size * times),
                    Entry::Text(text) => {
                        let Some((number, unit)) = text.split_once(' ') else { continue };
                        let Ok(number) = number.parse::<f64>() else { continue };
                        Entry::Text(format!("{:.4} {unit}", number * times))
                    }
                };
                let worse = worked(&asked.with(way.key, moved), shop.as_ref());
                let job =
                    format!("job {number}: {} × {times} of\n{}", way.key, job_of("part", std::slice::from_ref(&asked)));
                if let Some(worse) = &worse {
                    found.compare_checks(way.key, &one, worse, &job, |check| way.judges(check));
                    compared.lock().unwrap().insert(way.key.to_owned());
                }
                if way.is_bad_for_all() {
                    found.compare_wholes(way.key, &one, worse.as_ref(), &job, way.except);
                }
            }
        }
    });
    println!("moved: {:?}", compared.lock().unwrap());
    found.settle(if jobs_asked(120) < 120 { 0 } else { 4_000 }, if jobs_asked(120) < 120 { 0 } else { 500 });
}

/// Keys that open a question of their own, ask for more than the usual, or choose what the program would choose else: without
/// them less is asked.
const ASKS: &[&str] = &[
    "pack",
    // A second way to the float, of whose metals it is asked how they grow.
    "chain",
    "float-found",
    "warm",
    "carried-by",
    "running",
    // That it is cool may be said in place of a figure.
    "temperature",
    "bolt.class",
    "bolt.reach",
    "bolt.torque",
    "bolt.threads",
    "bolt.nut-factor",
    "least-left",
    "beyond",
    "present-depth",
    "edge",
    "lead",
    "tang",
    "countersink",
    "length",
    "zero",
    "float",
    "as-found-float",
    "float-wanted",
    "bears",
    "relief.outside",
    "relief.inside",
    "relief.depth",
    "relief.gap",
    "step.present",
    "step.cut",
    "springs.count",
    "springs.rate",
    "interrupted",
    "square-within",
    "feed-direction",
    "shoulder",
    "off-centre",
    "hold.nipped",
    "hold.stop",
    "hold.grips",
    "oil-holes",
    "duty",
    "by",
    "assemble",
    "running.shaft",
    "running.housing",
    "gauge",
    "dish",
    "wear",
    "from",
    "finish",
    "inside",
    "removed-before",
    "hold.true-within",
    // Left out, it is the length less the grip: whoever types less asks for more.
    "hold.overhang",
    "housing.material",
    "housing.finish",
    "bush.finish",
    "bush.outside",
    "bush.bore",
    "housing.length",
];

#[test]
fn a_key_left_out_proves_nothing() {
    let proved: Mutex<BTreeMap<String, String>> = Mutex::default();
    let compared = Mutex::new(0_usize);
    over_jobs(jobs_asked(200), |number| {
        let shop = shop_of(number);
        let asked = Maker::of(number).asked();
        let Some(one) = worked(&asked, shop.as_ref()) else { panic!("{}", asked.typed()) };
        for (key, _) in asked.keys.iter().filter(|(key, _)| !ASKS.contains(key)) {
            let Some(without) = worked(&asked.without(key), shop.as_ref()) else { continue };
            *compared.lock().unwrap() += 1;
            if without.verdict == Verdict::Proven && one.verdict != Verdict::Proven {
                let job = job_of("part", std::slice::from_ref(&asked));
                proved.lock().unwrap().entry(format!("{} {key}", asked.word)).or_insert(format!("job {number}\n{job}"));
            }
        }
    });
    let (proved, compared) = (proved.into_inner().unwrap(), compared.into_inner().unwrap());
    println!("seed {}: {compared} keys left out", seed());
    assert!(proved.is_empty(), "{proved:#?}");
    assert!(compared > 100 || jobs_asked(200) < 200, "{compared}");
}

/// The text of a shop without each key that has one value, with the name of the key.
fn less_a_key(text: &str) -> Vec<(String, String)> {
    let mut all = Vec::new();
    for (at, _) in text.match_indices(": ") {
        let from = text[..at].rfind(|c: char| !c.is_ascii_lowercase() && c != '-').map_or(0, |before| before + 1);
        let (mut depth, mut to) = (0_i32, text.len());
        for (more, c) in text[at..].char_indices() {
            depth += i32::from("{[".contains(c)) - i32::from("}]".contains(c));
            if depth < 0 || c == '\n' || (depth == 0 && c == ',') {
                to = at + more;
                break;
            }
        }
        let (before, after) = match (text[..from].strip_suffix(", "), text[to..].strip_prefix(", ")) {
            (Some(before), _) => (before, &text[to..]),
            (None, Some(after)) => (&text[..from], after),
            (None, None) => (&text[..from], &text[to..]),
        };
        all.push((text[from..at].to_owned(), format!("{before}{after}")));
    }
    all
}

/// What a shop does not say of its machines, tools and gauges is no proof.
#[test]
fn a_key_of_the_shop_left_out_proves_nothing() {
    let less = less_a_key(SHOP);
    let proved: Mutex<BTreeMap<String, String>> = Mutex::default();
    let compared = Mutex::new(0_usize);
    over_jobs(jobs_asked(120), |number| {
        let asked = Maker::of(number).asked();
        let Some(one) = worked(&asked, Some(&shop(SHOP))) else { panic!("{}", asked.typed()) };
        for (key, text) in less.iter().skip(number as usize % 24).step_by(24) {
            let node =
                Node::yaml(text, Place::start(0)).and_then(|node| node.read::<Shop>().map_err(|mut all| all.remove(0)));
            let Some(shop) = node.ok().filter(|shop| shop.problems().is_empty()) else { continue };
            let Some(without) = worked(&asked, Some(&shop)) else { continue };
            *compared.lock().unwrap() += 1;
            if without.verdict == Verdict::Proven && one.verdict != Verdict::Proven {
                let job = job_of("part", std::slice::from_ref(&asked));
                proved.lock().unwrap().entry(format!("{} {key}", asked.word)).or_insert(format!("job {number}\n{job}"));
            }
        }
    });
    let (proved, compared) = (proved.into_inner().unwrap(), compared.into_inner().unwrap());
    println!("seed {}: {compared} shops with a key left out", seed());
    assert!(proved.is_empty(), "{proved:#?}");
    assert!(compared > 200 || jobs_asked(120) < 120, "{compared}");
}

#[test]
fn the_checks_of_an_operation_are_always_the_same() {
    let words: Mutex<BTreeMap<String, BTreeSet<String>>> = Mutex::default();
    let wrong: Mutex<BTreeSet<String>> = Mutex::default();
    over_jobs(jobs_asked(300), |number| {
        let shop = if number % 3 == 0 { Some(shop(include_str!("jobs/inch-shop.yaml"))) } else { shop_of(number) };
        let asked = Maker::of(number).asked();
        let Some(planned) = worked(&asked, shop.as_ref()) else { panic!("{}", asked.typed()) };
        // What the other operations of its job do, or leave undone, is no check of its own.
        let of_job = ["joint-warmed-again", "made-ready", "cold-as-said"];
        let own = planned.answer.checks.iter().map(|check| check.id).filter(|id| !of_job.contains(id));
        let ids: Vec<&str> = own.collect();
        let set: BTreeSet<String> = ids.iter().map(|id| (*id).to_owned()).collect();
        let mut words = words.lock().unwrap();
        let known = words.entry(asked.word.to_owned()).or_insert_with(|| set.clone());
        if *known != set {
            let differ: Vec<_> = known.symmetric_difference(&set).collect();
            wrong.lock().unwrap().insert(format!("{}: {differ:?}", asked.word));
        }
        if ids.len() != set.len() {
            wrong.lock().unwrap().insert(format!("{}: a check twice in {ids:?}", asked.word));
        }
        let declared = declared(asked.word);
        let undeclared: Vec<_> = set.iter().filter(|id| !declared.contains(id.as_str())).collect();
        if !undeclared.is_empty() {
            wrong.lock().unwrap().insert(format!("{}: not declared {undeclared:?}", asked.word));
        }
    });
    assert!(wrong.lock().unwrap().is_empty(), "{:#?}", wrong.lock().unwrap());
    assert_eq!(words.lock().unwrap().len(), Request::WORDS.len());
}

/// The ids that an operation declares, and those of all.
fn declared(word: &str) -> BTreeSet<&'static str> {
    let job = (0..).map(|number| Maker::of(number).asked()).find(|asked| asked.word == word).unwrap();
    let node = setover::reading::Node::yaml(&job_of("part", &[job]), setover::proof::Place::start(0)).unwrap();
    let job = setover::job::JobFile::<Request>::read(node).unwrap();
    let own = job.parts[0].operations[0].declared_checks();
    own.iter().chain(&COMMON_CHECKS).map(|rule| rule.id).collect()
}

#[test]
fn no_stamp_is_better_than_its_worst_check_and_no_margin_than_the_worst_case() {
    let wrong: Mutex<BTreeMap<String, String>> = Mutex::default();
    let made = Mutex::new(0_usize);
    over_jobs(jobs_asked(300), |number| {
        let shop = if number % 3 == 0 { Some(shop(include_str!("jobs/inch-shop.yaml"))) } else { shop_of(number) };
        let asked = Maker::of(number).asked();
        let Some(planned) = worked(&asked, shop.as_ref()) else { panic!("{}", asked.typed()) };
        let job = || format!("job {number}\n{}", job_of("part", std::slice::from_ref(&asked)));
        let note = |what: String| {
            wrong.lock().unwrap().entry(what).or_insert_with(job);
        };
        let worst = planned.answer.checks.iter().map(|check| rank(check.stamps())).max().unwrap_or(0);
        if rank(Some(planned.verdict)) < worst
            || (planned.answer.refused.is_some() && planned.verdict != Verdict::Fails)
        {
            note(format!("{}: stamped {:?}", asked.word, planned.verdict));
        }
        for check in &planned.answer.checks {
            let Some(judged) = &check.judged else { continue };
            *made.lock().unwrap() += 1;
            let at_end = match judged.keep {
                Keep::AtLeast => judged.at_worst_end - judged.limit,
                Keep::AtMost => judged.limit - judged.at_worst_end,
            };
            let noise = 1e-9 * judged.limit.abs().max(judged.at_worst_end.abs()).max(1.0);
            if judged.margin > at_end - judged.doubt + noise {
                note(format!("{}: the margin of {} is not its worst", asked.word, check.id));
            }
            if check.state == Outcome::Made(Verdict::Proven) && judged.margin < 0.0 {
                note(format!("{}: {} is proven with a margin under zero", asked.word, check.id));
            }
        }
    });
    let wrong = wrong.into_inner().unwrap();
    assert!(wrong.is_empty(), "{wrong:#?}");
    assert!(made.into_inner().unwrap() > 2_000 || jobs_asked(300) < 300);
}

/// What a check that was not made says to type is not in the job already: whoever types it finds the line gone.
#[test]
fn no_check_asks_for_what_was_typed() {
    let found: Mutex<BTreeMap<String, (usize, String)>> = Mutex::default();
    let asked_of = Mutex::new(0_usize);
    over_jobs(jobs_asked(200), |number| {
        let mut maker = Maker::of(number);
        let asked = maker.asked();
        let shop = shop(SHOP);
        let look = |asked: &Asked, shop: Option<&Shop>| {
            let Some(planned) = worked(asked, shop) else { return };
            if planned.answer.refused.is_some() {
                return;
            }
            let of_part = |key: &str| key.strip_prefix("part.").map(str::to_owned);
            let typed = |key: &str| match of_part(key) {
                Some(key) => asked.part.iter().any(|(own, _)| *own == key),
                None => {
                    let under = format!("{key}.");
                    asked.keys.iter().any(|(own, _)| *own == key || own.starts_with(&under))
                }
            };
            for check in planned.answer.checks.iter().filter(|check| check.state == Outcome::NotChecked) {
                *asked_of.lock().unwrap() += check.missing.len();
                for key in check.missing.iter().filter(|key| typed(key)) {
                    let mut found = found.lock().unwrap();
                    let says =
                        || format!("asks for {:?}\n{}", check.missing, job_of("part", std::slice::from_ref(asked)));
                    found.entry(format!("{} {}: {key}", planned.word, check.id)).or_insert_with(|| (0, says())).0 += 1;
                }
            }
        };
        for shop in [Some(&shop), None] {
            look(&asked, shop);
            for left in (0..asked.keys.len()).take(8) {
                let mut without = asked.clone();
                without.keys.remove(left);
                look(&without, shop);
            }
        }
    });
    let found = found.into_inner().unwrap();
    let says: Vec<String> = found.iter().map(|(what, (count, how))| format!("{what} ({count})\n{how}")).collect();
    assert!(*asked_of.lock().unwrap() > 1_000, "{asked_of:?}");
    assert!(found.is_empty(), "{}", says.join("\n"));
}
