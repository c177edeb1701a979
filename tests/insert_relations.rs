//! Relations that hold for every thread insert: a worse reading, a thinner wall, a wider old hole, more torque or a key left out
//! never betters a verdict. Random jobs from a fixed seed.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common;
use crate::seeds;

use common::{SHOP, first, shop, try_plan};
use proptest::prelude::*;
use setover::plan::Plan;
use setover::proof::{Outcome, Verdict, Weight};
use setover::shop::Shop;

/// A job as figures, so that one of them can be moved.
#[derive(Clone, Debug)]
struct Job {
    thread: &'static str,
    major: f64,
    wall: (f64, f64),
    old: Option<(f64, f64)>,
    old_depth: Option<(f64, f64)>,
    chamfer: Option<(f64, f64)>,
    edge: Option<(f64, f64)>,
    beyond: Option<(f64, f64)>,
    through: bool,
    zero: &'static str,
    lead: &'static str,
    class: Option<&'static str>,
    reach: Option<f64>,
    torque: Option<f64>,
    threads: &'static str,
    tang: &'static str,
    countersink: bool,
    least: f64,
    metal: &'static str,
    length: &'static str,
}

impl Job {
    fn text(&self, frozen: bool) -> String {
        let mut keys = vec![
            format!("thread: \"{}\"", self.thread),
            format!("wall: {:.4} ± {:.4} mm", self.wall.0, self.wall.1),
            format!("hole: {}", if self.through { "through" } else { "blind" }),
            format!("lead: {}", self.lead),
            format!("tang: {}", self.tang),
            format!("countersink: {}", self.countersink),
            format!("least-left: {:.3} mm", self.least),
            format!("zero: {}", self.zero),
        ];
        let readings = [
            ("present-hole", self.old),
            ("present-depth", self.old_depth),
            ("present-chamfer", self.chamfer),
            ("edge", self.edge),
            ("beyond", self.beyond),
        ];
        keys.extend(
            readings
                .into_iter()
                .filter_map(|(key, at)| at.map(|(size, doubt)| format!("{key}: {size:.4} ± {doubt:.4} mm"))),
        );
        if let Some(class) = self.class {
            let reach = self.reach.map(|reach| format!(", reach: {reach:.3} mm")).unwrap_or_default();
            let torque = self
                .torque
                .map(|torque| format!(", torque: {torque:.3} Nm, threads: {}", self.threads))
                .unwrap_or_default();
            keys.push(format!("bolt: {{class: \"{class}\"{reach}{torque}}}"));
        }
        if frozen {
            keys.push(format!("length: {}", self.length));
        }
        format!(
            "job: Random\nparts:\n  - part: chest\n    material: {}\n    operations:\n      - thread-insert: {{hold: {{in: clamps, tested: 60 N·m}}, {}}}\n",
            self.metal,
            keys.join(", ")
        )
    }
}

fn reading(low: f64, high: f64) -> impl Strategy<Value = (f64, f64)> {
    (low..high, 0.005..0.3_f64)
}

fn job() -> impl Strategy<Value = Job> {
    let thread = prop::sample::select(vec![
        ("M5", 5.0),
        ("M6", 6.0),
        ("M8", 8.0),
        ("M10", 10.0),
        ("M12x1.5", 12.0),
        ("5/16-24 UNF", 7.9375),
        ("1/4 BSF", 6.35),
    ]);
    let words = (
        prop::sample::select(vec!["face", "strip", "corner", "old-hole"]),
        prop::sample::select(vec!["plug", "bottoming"]),
        prop::option::weighted(0.8, prop::sample::select(vec!["4.6", "8.8", "10.9", "BS R"])),
        prop::sample::select(vec!["dry", "oiled"]),
        prop::sample::select(vec!["in", "out"]),
        prop::sample::select(vec!["cast aluminium", "grey iron", "mild steel", "brass"]),
        prop::sample::select(vec!["1D", "1.5D", "2D"]),
    );
    let sizes = (
        reading(1.6, 5.0),
        prop::option::weighted(0.8, reading(0.7, 1.07)),
        prop::option::weighted(0.8, reading(0.5, 3.0)),
        prop::option::weighted(0.5, (0.0..1.2_f64, 0.005..0.2_f64)),
        prop::option::weighted(0.95, reading(0.6, 6.0)),
        prop::option::weighted(0.8, reading(1.0, 20.0)),
        prop::option::weighted(0.8, 0.6..2.5_f64),
        prop::option::weighted(0.7, 0.2..4.0_f64),
    );
    (thread, prop::bool::ANY, prop::bool::ANY, words, sizes, 0.5..2.0_f64).prop_map(
        |((thread, major), through, countersink, words, sizes, least)| {
            let (zero, lead, class, threads, tang, metal, length) = words;
            let (wall, old, old_depth, chamfer, edge, beyond, reach, torque) = sizes;
            let times = |at: (f64, f64)| (at.0 * major, at.1);
            Job {
                thread,
                major,
                wall: times(wall),
                old: old.map(times),
                old_depth: old_depth.map(times),
                chamfer,
                edge: edge.map(times),
                beyond,
                through,
                zero,
                lead,
                class,
                reach: reach.map(|reach| reach * major),
                torque: torque.map(|torque| torque * major),
                threads,
                tang,
                countersink,
                least,
                metal,
                length,
            }
        },
    )
}

/// What was moved, and the job so moved. Each is worse or the same, never better.
fn worse(job: &Job) -> Vec<(&'static str, Job)> {
    let mut all = Vec::new();
    let mut give = |what: &'static str, change: &dyn Fn(&mut Job)| {
        let mut moved = job.clone();
        change(&mut moved);
        all.push((what, moved));
    };
    let half = job.major / 16.0;
    give("thinner wall", &|job| job.wall.0 -= half);
    give("wall less sure", &|job| job.wall.1 *= 1.7);
    give("wider old hole", &|job| job.old.iter_mut().for_each(|old| old.0 += half));
    give("old hole less sure", &|job| job.old.iter_mut().for_each(|old| old.1 *= 1.7));
    give("deeper old hole", &|job| job.old_depth.iter_mut().for_each(|old| old.0 += half));
    give("old depth less sure", &|job| job.old_depth.iter_mut().for_each(|old| old.1 *= 1.7));
    give("chamfer less sure", &|job| job.chamfer.iter_mut().for_each(|old| old.1 *= 1.7));
    give("nearer edge", &|job| job.edge.iter_mut().for_each(|edge| edge.0 -= half));
    give("edge less sure", &|job| job.edge.iter_mut().for_each(|edge| edge.1 *= 1.7));
    give("nearer beyond", &|job| job.beyond.iter_mut().for_each(|gap| gap.0 -= 0.3));
    give("beyond less sure", &|job| job.beyond.iter_mut().for_each(|gap| gap.1 *= 1.7));
    give("more torque", &|job| job.torque.iter_mut().for_each(|torque| *torque *= 1.2));
    give("more to leave", &|job| job.least += 0.4);
    all
}

/// A verdict that a check gives to the stamp; what a refused operation did not make fails.
fn rank(plan: &Plan, check: &str) -> Option<Verdict> {
    let it = first(plan);
    let check = it.answer.checks.iter().find(|c| c.id == check).expect("every check stands");
    match (check.state, check.weight) {
        (Outcome::Made(verdict), _) => Some(verdict),
        _ if it.answer.refused.is_some() => Some(Verdict::Fails),
        (Outcome::NotChecked, Weight::Must) => Some(Verdict::Doubtful),
        _ => None,
    }
}

const CHECKS: &[&str] = &[
    "series-known",
    "break-through",
    "wall-for-insert",
    "while-cutting",
    "when-assembled",
    "old-hole",
    "drill-in-limits",
    "zero",
    "insert-in-drawer",
    "tap-stands-it",
    "drill-reaches",
    "clamping",
    "pull-out",
    "tang-clear",
    "edge-wall",
    "outlasts",
];

fn work(job: &Job, frozen: bool, shop: &Shop) -> Option<Plan> {
    try_plan(&job.text(frozen), Some(shop)).ok()
}

fn config() -> ProptestConfig {
    seeds::config(60, "tests/regressions/insert_relations.txt")
}

/// The random jobs reach every answer: a relation over jobs that are all alike would say nothing.
#[test]
fn the_random_jobs_see_every_state_of_every_check() {
    use proptest::strategy::ValueTree;
    let shop = shop(SHOP);
    let rng = proptest::test_runner::TestRng::from_seed(proptest::test_runner::RngAlgorithm::ChaCha, &[7; 32]);
    let mut runner = proptest::test_runner::TestRunner::new_with_rng(config(), rng);
    let mut seen: std::collections::BTreeMap<(&str, Option<Verdict>), usize> = std::collections::BTreeMap::new();
    let mut worked = 0;
    for _ in 0..600 {
        let job = job().new_tree(&mut runner).unwrap().current();
        let Some(plan) = work(&job, true, &shop) else { continue };
        worked += 1;
        CHECKS.iter().for_each(|check| *seen.entry((check, rank(&plan, check))).or_default() += 1);
        *seen.entry(("stamp", Some(first(&plan).verdict))).or_default() += 1;
    }
    assert!(worked > 500, "{worked}");
    for check in [
        "break-through",
        "wall-for-insert",
        "while-cutting",
        "old-hole",
        "zero",
        "clamping",
        "pull-out",
        "tang-clear",
        "edge-wall",
        "stamp",
    ] {
        for verdict in [Verdict::Proven, Verdict::Doubtful, Verdict::Fails] {
            let lacks_middle = ["tang-clear", "wall-for-insert"].contains(&check) && verdict == Verdict::Doubtful;
            assert!(lacks_middle || seen.get(&(check, Some(verdict))).is_some_and(|n| *n > 1), "{check} {verdict:?}");
        }
    }
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn a_worse_job_never_has_a_better_check(job in job()) {
        let shop = shop(SHOP);
        let Some(before) = work(&job, true, &shop) else { return Ok(()) };
        for (what, moved) in worse(&job) {
            let Some(after) = work(&moved, true, &shop) else { continue };
            for check in CHECKS {
                prop_assert!(rank(&after, check) >= rank(&before, check), "{what} betters {check}: {:?} to {:?}\n{}\n{}", rank(&before, check), rank(&after, check), job.text(true), moved.text(true));
            }
        }
    }

    #[test]
    fn a_worse_job_never_has_a_better_stamp(job in job()) {
        let shop = shop(SHOP);
        let Some(before) = work(&job, false, &shop) else { return Ok(()) };
        for (what, moved) in worse(&job) {
            let Some(after) = work(&moved, false, &shop) else { continue };
            prop_assert!(first(&after).verdict >= first(&before).verdict, "{what}\n{}\n{}", job.text(false), moved.text(false));
        }
    }

    #[test]
    fn the_set_of_checks_never_depends_on_the_job_and_the_stamp_is_its_worst(job in job()) {
        let Some(plan) = work(&job, false, &shop(SHOP)) else { return Ok(()) };
        let it = first(&plan);
        let ids: Vec<&str> = it.answer.checks.iter().map(|check| check.id).collect();
        for check in CHECKS {
            prop_assert!(ids.contains(check), "{check}");
        }
        prop_assert_eq!(ids.len(), 26 + setover::operations::COMMON_CHECKS.len());
        let worst = it.answer.checks.iter().filter(|c| c.weight != Weight::Advice).filter_map(|c| rank(&plan, c.id)).max();
        let least = if it.answer.refused.is_some() { Some(Verdict::Fails) } else { worst };
        prop_assert!(Some(it.verdict) >= least);
    }

    #[test]
    fn a_job_that_lacks_a_key_of_a_must_is_never_proven(job in job()) {
        let shop = shop(SHOP);
        let mut lacking: Vec<(&str, Job)> = vec![("present-hole", Job { old: None, ..job.clone() })];
        if job.old.is_some() && !job.through {
            lacking.push(("present-depth", Job { old_depth: None, ..job.clone() }));
        }
        if job.through {
            lacking.push(("beyond", Job { beyond: None, ..job.clone() }));
        }
        if job.class.is_some() {
            lacking.push(("reach", Job { reach: None, ..job.clone() }));
        }
        if job.zero == "old-hole" {
            lacking.push(("present-chamfer", Job { chamfer: None, ..job.clone() }));
        }
        for (what, moved) in lacking {
            let Some(plan) = work(&moved, false, &shop) else { continue };
            prop_assert_ne!(first(&plan).verdict, Verdict::Proven, "{}: {}", what, moved.text(false));
        }
    }

    /// A proven blind hole leaves its metal, and a proven bolt holds, at every corner of what was read.
    #[test]
    fn what_is_proven_holds_at_every_corner(job in job()) {
        let Some(plan) = work(&job, true, &shop(SHOP)) else { return Ok(()) };
        let it = first(&plan);
        let value = |key: &str| it.answer.value(key).map(|value| value.number);
        if rank(&plan, "break-through") == Some(Verdict::Proven) && !job.through {
            let tip = value("depth_to_point").unwrap();
            let old = job.old_depth.map_or(0.0, |(depth, doubt)| depth + doubt);
            for wall in [job.wall.0, job.wall.0 - job.wall.1] {
                // One reading at its end, the stop true; and the stop at its end, the reading true.
                prop_assert!(wall - tip >= job.least - 1e-9, "{}", job.text(true));
                prop_assert!(job.wall.0 - tip - 0.2 >= job.least - 1e-9, "{}", job.text(true));
                prop_assert!(job.wall.0 - old >= job.least - 1e-9, "{}", job.text(true));
            }
        }
        if rank(&plan, "clamping") == Some(Verdict::Proven) && let Some(torque) = job.torque && job.class.is_some() {
            let easiest = if job.threads == "dry" { 0.18 } else { 0.12 };
            let most = 1000.0 * torque / (easiest * job.major);
            prop_assert!(most <= value("proof_load").unwrap() * (1.0 + 1e-9), "{}", job.text(true));
            if rank(&plan, "pull-out") == Some(Verdict::Proven) {
                prop_assert!(value("pull_out_force").unwrap() >= 1.25 * most, "{}", job.text(true));
            }
        }
    }
}
