//! What a sheet asks can be obeyed: a gauge that opens so far, a window that good work meets, a dial that has its nought, one figure for
//! one torque; and what the log says is not finished stays to be done.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{first, in_shop, plan, plan_left, shop, verdict, with};
use setover::operations::{HoldPoint, SetUp, Target};
use setover::plan::{Plan, Planned};
use setover::proof::{Fact, Verdict};
use setover::quantity::{Print, Unit};
use std::path::Path;
use std::process::{Command, Output};

const SHOP: &str = include_str!("../examples/shop.yaml");
const TURN: &str = include_str!("../examples/turn.yaml");
const PRESS: &str = include_str!("../examples/press-in.yaml");

fn set_ups(planned: &Planned) -> &[SetUp<String>] {
    &planned.answer.set_ups
}

fn hold_at<'a>(planned: &'a Planned, id: &str) -> &'a HoldPoint<String> {
    let steps = set_ups(planned).iter().flat_map(|set_up| &set_up.steps);
    steps.filter(|step| step.id == id).find_map(|step| step.hold_point.as_ref()).unwrap_or_else(|| panic!("no {id}"))
}

fn run(folder: &Path, words: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_setover")).args(words).current_dir(folder).output().expect("runs")
}

fn said(output: &Output) -> String {
    String::from_utf8_lossy(&output.stdout).into_owned() + &String::from_utf8_lossy(&output.stderr)
}

/// A bar of 25.6 is turned to 24.9: before the last cut it is still over 25, which the micrometer that reads the end does not open to.
#[test]
fn the_micrometer_that_is_named_opens_so_far() {
    let job = TURN
        .replace("24.60 ± 0.02 mm", "25.60 ± 0.02 mm")
        .replace("23.95 .. 24.00 mm", "24.90 .. 24.98 mm")
        .replace("diameter: 24.6 mm", "diameter: 25.6 mm")
        .replace("finish: Ra 3.2 um", "finish: Ra 3.2 um\n          tool: hss-knife");
    assert!(job.contains("24.90 .. 24.98"), "the example has other sizes now");
    let two = SHOP.replace(
        "instruments:\n",
        "instruments:\n  - {name: large micrometer, kind: outside micrometer, from: 25 mm, to: 50 mm, uncertainty: 5 um, default: true}\n",
    );
    let mut seen = [0, 0];
    for (at, text) in [SHOP, &two].into_iter().enumerate() {
        let own = shop(text);
        let plan = plan(&job, Some(&own));
        let set_up = &set_ups(first(&plan))[0];
        for step in &set_up.steps {
            let Some(hold) = step.hold_point.as_ref().filter(|hold| hold.measures == "present") else { continue };
            let (least, most) = hold.limits.numbers();
            for size in [least, most].into_iter().flatten() {
                match own.instruments.iter().find(|own| own.name.value == hold.gauge) {
                    Some(gauge) => {
                        let (from, to) = (gauge.from.value, gauge.to.value);
                        let reads = setover::quantity::Quantity::number;
                        assert!((reads(from)..=reads(to)).contains(&size), "{}: {} at {size}", step.id, hold.gauge);
                        seen[at] += 1;
                    }
                    None => assert_eq!(hold.gauge, "a gauge"),
                }
            }
        }
        let measured = verdict(first(&plan), "measured-between");
        assert_eq!(measured, if at == 0 { Verdict::Doubtful } else { Verdict::Proven }, "{text}");
        if at == 1 {
            assert!(set_up.pulls.iter().any(|pull| pull.item == "large micrometer"), "{:?}", set_up.pulls);
            assert_eq!(set_up.blanks[0].gauge.as_deref(), Some("micrometer"), "what is written down is what was left");
        }
    }
    assert!(seen[1] >= 4, "{seen:?}");
}

/// What is foretold of the closed-in bore lies within what may be read, whatever doubt bush and gauge have.
#[test]
fn good_work_meets_every_window() {
    for doubt in ["0.002", "0.005", "0.010", "0.020"] {
        let job = PRESS.lines().map(|line| match line.find("bore: ") {
            Some(at) if line.contains("bush:") => {
                let end = line[at..].find(',').map_or(line.len(), |end| at + end);
                let size = line[at + 6..end].split('±').next().unwrap().trim().trim_end_matches(" mm");
                format!("{}bore: {size} ± {doubt} mm{}\n", &line[..at], &line[end..])
            }
            _ => format!("{line}\n"),
        });
        let plan = in_shop(&job.collect::<String>());
        let it = first(&plan);
        let hold = hold_at(it, "measure-closed-in-only");
        let expected = it.answer.value("bore_after_pressing").expect("foretold");
        let (least, most) = hold.limits.numbers();
        assert!(
            least.unwrap() <= expected.number && most.unwrap() >= expected.number,
            "± {doubt}: {hold:?} {expected:?}"
        );
    }
    // Truing: a perfect piece reads up to the indicator's doubt.
    let job = include_str!("../examples/set-true.yaml");
    for within in ["0.004", "0.008", "0.012", "0.02", "0.05"] {
        let from = job.lines().find_map(|line| line.trim().strip_prefix("true-within: ")).unwrap();
        let plan = in_shop(&with(job, &format!("true-within: {from}"), &format!("true-within: {within} mm")));
        let it = first(&plan);
        let hold = hold_at(it, "read-again");
        let doubt = it.answer.value("tir_after").expect("after").plus_minus;
        let most = hold.limits.numbers().1.unwrap();
        let asked: f64 = within.parse().unwrap();
        assert!(most > 0.0 && (most + 1e-3 >= doubt || hold.then.is_some()), "{within}: {most} ± {doubt} {hold:?}");
        assert!(most <= asked + 1e-9, "{within}: {most}");
        if hold.then.is_some() {
            assert_ne!(it.verdict, Verdict::Proven, "{within}");
        }
    }
}

#[test]
fn a_blade_is_brought_to_nought_before_its_dial_is_read() {
    let plan = plan(include_str!("../examples/part-off.yaml"), Some(&shop(SHOP)));
    let ids: Vec<&str> = set_ups(first(&plan))[0].steps.iter().map(|step| step.id).collect();
    let at = |id: &str| ids.iter().position(|own| *own == id).unwrap_or_else(|| panic!("no {id} in {ids:?}"));
    assert!(at("lock") < at("touch-with-the-blade") && at("touch-with-the-blade") < at("part"), "{ids:?}");
}

/// The words of a step at which a grip is tried, and the limit beneath them, are one figure, in both units.
#[test]
fn one_torque_is_one_figure() {
    let mut tried = 0;
    for job in [
        include_str!("../examples/drill.yaml"),
        include_str!("../examples/tap.yaml"),
        include_str!("../examples/spot-face.yaml"),
        include_str!("../examples/mill-face.yaml"),
    ] {
        let untried: String = job
            .lines()
            .map(|line| {
                let Some(at) = line.find(", tested:") else { return format!("{line}\n") };
                let end = line[at + 1..].find([',', '}']).map_or(line.len(), |end| at + 1 + end);
                format!("{}{}\n", &line[..at], &line[end..])
            })
            .collect();
        for (units, print) in [("metric", Print::Metric), ("inch", Print::Imperial)] {
            let own = shop(&SHOP.replace("units: metric", &format!("units: {units}")));
            let plan = plan(&untried, Some(&own));
            let steps = set_ups(first(&plan)).iter().flat_map(|set_up| &set_up.steps);
            for step in steps.filter(|step| step.id == "try-the-grip") {
                let least: &Fact = step.hold_point.as_ref().unwrap().limits.least.as_ref().unwrap();
                let figure = least.said(None, print);
                assert!(step.words.contains(&figure), "{figure}: {}", step.words);
                tried += 1;
            }
        }
    }
    assert!(tried >= 4, "{tried}");
}

fn left(job: &str, of: (&str, &str), key: &str, size: f64) -> Plan {
    plan_left(job, &shop(SHOP), of, &[(key, size, Unit::Mm, 0.004)])
}

/// A shaft that was left too large is not done: the sheet says what must still go, the day still has it, and what changed says so. One
/// that is too small is lost, and nobody is told to take a finer dial.
#[test]
fn metal_that_still_stands_is_not_finished() {
    let part = first(&in_shop(TURN)).address.part.clone();
    let unfinished = |size: f64| {
        let plan = left(TURN, (&part, "turn"), "diameter_after", size);
        let check = first(&plan).answer.unfinished("diameter_after").cloned();
        (first(&plan).verdict, check)
    };
    let (verdict, check) = unfinished(24.05);
    assert_eq!(verdict, Verdict::Doubtful);
    let check = check.expect("metal still stands");
    assert!(check.remedies[0].words.contains("0.050 to 0.100 mm"), "{:?}", check.remedies);
    assert!(unfinished(23.97).1.is_none() && unfinished(24.0).1.is_none());
    let small = left(TURN, (&part, "turn"), "diameter_after", 23.90);
    assert_eq!(first(&small).verdict, Verdict::Fails);
    let kept = first(&small).answer.checks.iter().find(|check| check.id == "size-kept").unwrap();
    assert!(kept.remedy.is_none() && kept.remedies.len() == 1, "{kept:?}");
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("job.yaml"), TURN).unwrap();
    std::fs::write(folder.path().join("shop.yaml"), SHOP).unwrap();
    let address = format!("{part}/turn");
    let log = |size: &str| {
        let words = ["log", "job.yaml", &address, &format!("diameter_after={size} ± 0.004 mm")];
        let logged = run(folder.path(), &words);
        assert_eq!(logged.status.code(), Some(0), "{}", said(&logged));
    };
    log("24.05");
    let day = said(&run(folder.path(), &["day", "job.yaml"]));
    assert!(!day.contains("Done, as the log says") && day.contains("1.1"), "{day}");
    let since = said(&run(folder.path(), &["plan", "job.yaml", "--since", "L0"]));
    assert!(since.contains("No longer holds") && since.contains("NOT FINISHED"), "{since}");
    let html = run(folder.path(), &["sheets", "job.yaml", "--format", "html", "-o", "-"]);
    assert!(said(&html).contains("NOT FINISHED by the log (L1)"), "{}", said(&html).len());
    let pages = said(&run(folder.path(), &["plan", "job.yaml"]));
    assert!(!pages.contains("PROVEN:"), "{pages}");
    let corrected = ["log", "job.yaml", &address, "diameter_after=23.975 ± 0.004 mm", "--corrects", "1"];
    assert_eq!(run(folder.path(), &corrected).status.code(), Some(0));
    let day = said(&run(folder.path(), &["day", "job.yaml"]));
    assert!(day.contains("Done, as the log says"), "{day}");
}

/// A log that does not take what is given leaves nothing behind; the names that it takes are told; an instrument that cannot have read
/// a size is told at once.
#[test]
fn the_log_tells_its_names_and_leaves_nothing_behind() {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("job.yaml"), TURN).unwrap();
    std::fs::write(folder.path().join("shop.yaml"), SHOP).unwrap();
    let part = first(&in_shop(TURN)).address.part.clone();
    let address = format!("{part}/turn");
    let names = run(folder.path(), &["log", "job.yaml", &address]);
    assert_eq!(names.status.code(), Some(0), "{}", said(&names));
    assert!(
        said(&names).contains("diameter_after") && said(&names).contains("setover log job.yaml"),
        "{}",
        said(&names)
    );
    let keys = run(folder.path(), &["keys", "turn"]);
    assert!(said(&keys).contains("diameter_after"), "{}", said(&keys));
    for (words, piece) in [
        (vec!["diametre=24 mm"], "does not ask the log for"),
        (vec!["diameter_after=30.02 mm", "with=micrometer"], "it cannot have read 30.02 mm"),
    ] {
        let refused = run(folder.path(), &[&["log", "job.yaml", &address], &words[..]].concat());
        assert_eq!(refused.status.code(), Some(2), "{}", said(&refused));
        assert!(said(&refused).contains(piece) && !said(&refused).contains("job.log.yaml"), "{}", said(&refused));
        let mut left: Vec<_> =
            std::fs::read_dir(folder.path()).unwrap().map(|entry| entry.unwrap().file_name()).collect();
        left.sort();
        assert_eq!(left, ["job.yaml", "shop.yaml"]);
    }
}

/// A target of a blank is what is wanted, never under nought.
#[test]
fn no_blank_asks_for_less_than_nothing() {
    for job in [include_str!("../examples/set-true.yaml"), include_str!("../examples/lap.yaml")] {
        for blank in set_ups(first(&in_shop(job))).iter().flat_map(|set_up| &set_up.blanks) {
            if let Some(Target::UpTo(Fact::Figure { number, .. })) = &blank.target {
                assert!(*number > 0.0, "{blank:?}");
            }
        }
    }
}

/// A guard that is put up after the push guards nobody; and an outside that no hand can turn to is no way out.
#[test]
fn what_may_burst_is_guarded_before_it_is_pushed_and_a_bush_can_be_turned_to_what_is_proven() {
    let own = shop(SHOP);
    let (mut guards, mut windows) = (0, 0);
    for (path, text) in crate::common::committed_jobs() {
        let Ok(plan) = crate::common::try_plan(&text, Some(&own)) else { continue };
        for planned in &plan.operations {
            for set_up in set_ups(planned) {
                let at = |ids: &[&str]| set_up.steps.iter().position(|step| ids.contains(&step.id));
                let Some(guard) = at(&["never-hammer-iron"]) else { continue };
                let pushed = at(&["press-cold", "press-chilled", "drop-in-warm", "drop-in-chilled", "push-it-out"]);
                assert!(pushed.is_none_or(|pushed| guard < pushed), "{path}: {}", set_up.id);
                guards += usize::from(pushed.is_some());
            }
            let ends = ["outside_least_proven", "outside_most_proven"].map(|key| planned.answer.value(key));
            if let [Some(least), Some(most)] = ends {
                assert!(most.number - least.number >= 0.002, "{path}: {} to {}", least.number, most.number);
                windows += 1;
            }
        }
    }
    assert!(guards > 2 && windows > 2, "{guards} {windows}");
    // The surer the housing is known the wider is what is proven: somewhere it begins.
    let mut seen = 0;
    for doubt in 1..40 {
        let plan = in_shop(&with(PRESS, "24.010 ± 0.004 mm", &format!("24.010 ± {:.4} mm", f64::from(doubt) * 0.0005)));
        let ends = ["outside_least_proven", "outside_most_proven"].map(|key| first(&plan).answer.value(key));
        if let [Some(least), Some(most)] = ends {
            assert!(most.number - least.number >= 0.002, "{} to {}", least.number, most.number);
            seen += 1;
        }
    }
    assert!(seen > 2 && seen < 39, "{seen}");
}

/// A temperature stands where it is measured, and in the sketch, as its hold point has it: in whole degrees of either unit, each end
/// rounded inward.
#[test]
fn a_temperature_is_asked_as_its_hold_point_has_it() {
    use setover::quantity::Print;
    use setover::sheet::page::Role;
    for (job, ends) in [(include_str!("../examples/warm.yaml"), 2), (include_str!("../examples/chill.yaml"), 1)] {
        for units in [Print::Metric, Print::Imperial] {
            let plan = plan(job, Some(&setover::shop::Shop { units, ..shop(SHOP) }));
            let pages = setover::sheet::layout::pages(std::slice::from_ref(&plan)).unwrap();
            let numbers = |text: &str| -> Vec<f64> {
                let figures = text.replace('−', "-");
                figures.split_whitespace().filter_map(|word| word.parse().ok()).collect()
            };
            let of = |area: &str, role: Option<Role>| -> Vec<f64> {
                let all = crate::common::laws::texts(&pages[0], area);
                all.iter()
                    .filter(|text| role.is_none_or(|role| text.role == role))
                    .flat_map(|text| numbers(&text.text))
                    .collect()
            };
            let held = of("cuts", Some(Role::Second));
            assert_eq!(held.len(), ends, "{units:?}: {held:?}");
            assert_eq!(of("measure", Some(Role::Figure)), held, "{units:?}");
            assert!(held.iter().all(|end| end.fract() == 0.0), "{units:?}: {held:?}");
            let within = |figure: &f64| match held.as_slice() {
                [least, most] => (least..=most).contains(&figure),
                ends => ends.contains(figure),
            };
            let drawn = of("sketch", None);
            assert!(drawn.iter().any(within), "{units:?}: {held:?} in {drawn:?}");
        }
    }
}
