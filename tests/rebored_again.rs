//! A barrel that was bored and is read again: its old limit scraps no good barrel, and its old piston goes into none.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::log_loop::Bench;

const BORE: &str = include_str!("../examples/bore.yaml");
const LAP: &str = include_str!("../examples/lap.yaml");

/// The barrel as it was found, and its old piston, with what was found of both.
fn engine(readings: &str, service: &str) -> String {
    let (before, after) = BORE.split_once("    operations:\n").expect("operations");
    let bore = format!(
        "{{feature: bore, measured: 2026-12-03, found: {readings}, service: {service}, remedies: [bore, replace]}}"
    );
    let piston = "  - part: old piston\n    material: cast aluminium\n    inspect:\n      - {feature: piston, found: 45.90 ± 0.01 mm, service: at least 45.88 mm}\n";
    format!("{before}    inspect:\n      - {bore}\n    operations:\n{after}{piston}")
}

/// What is decided of a feature, why, and the whole page, with these lines in the log.
fn decided(job: &str, feature: &str, log: &[&str]) -> (String, String, String) {
    let bench = Bench::of(job);
    for line in log {
        bench.log(&["pump barrel/bore", line, "--date", "2026-12-01"]);
    }
    let row = bench.decided().into_iter().find(|row| row.0 == feature).unwrap_or_else(|| panic!("{feature}"));
    (row.1, row.2, bench.said(&["decide", "job.yaml"]))
}

const BORED: [&str; 3] = ["piston=46.420 ± 0.004 mm", "bored_size=46.45 ± 0.004 mm", "finish_bore=46.500 ± 0.004 mm"];
const OLD: &str = "at most 46.060 mm";

/// The limit of the standard bore says nothing of the rebored one: it is proven by the operation, with the piston that it was bored for.
#[test]
fn a_rebored_barrel_is_not_bored_again_for_its_old_limit() {
    let (decision, why, page) = decided(&engine("[46.500 ± 0.008 mm, 46.498 ± 0.008 mm]", OLD), "bore", &BORED);
    assert_eq!(decision, "reuse", "{why}");
    assert!(why.contains("pump barrel/bore left it") && !page.contains("to buy\n  1 × pump barrel"), "{page}");
    // Read off by more than both readings are worth it is no longer what was left: it has worn.
    let (worn, ..) = decided(&engine("46.540 ± 0.008 mm", OLD), "bore", &BORED);
    assert_ne!(worn, "reuse");
    let (one_worn, ..) = decided(&engine("[46.500 ± 0.008 mm, 46.540 ± 0.008 mm]", OLD), "bore", &BORED);
    assert_ne!(one_worn, "reuse");
    // A limit that was written for the new size is one.
    let (over, ..) = decided(&engine("46.500 ± 0.008 mm", "at most 46.480 mm"), "bore", &BORED);
    assert_ne!(over, "reuse");
    // Nobody bored it.
    let (unbored, ..) = decided(&engine("46.500 ± 0.008 mm", OLD), "bore", &[]);
    assert_ne!(unbored, "reuse");
    // What is not proven as it was left is nothing to reuse: honed a little too far for its piston.
    let loose = ["piston=46.420 ± 0.004 mm", "bored_size=46.45 ± 0.004 mm", "finish_bore=46.519 ± 0.004 mm"];
    let (doubtful, ..) = decided(&engine("46.519 ± 0.008 mm", OLD), "bore", &loose);
    assert_ne!(doubtful, "reuse");
}

/// The old piston is inside its own limit and far too small for the bore that was made.
#[test]
fn a_piston_is_not_for_a_bore_that_was_made_for_another() {
    let (_, why, _) = decided(&engine("46.500 ± 0.008 mm", OLD), "piston", &BORED);
    assert!(why.contains("not in the bore of pump barrel/bore") && why.contains("46.420 mm"), "{why}");
}

/// A bore that is too large for the piston at hand is not scrapped where another one fits it as it stands.
#[test]
fn another_piston_comes_before_another_barrel() {
    let small = ["piston=46.170 ± 0.004 mm", "bored_size=46.45 ± 0.004 mm", "finish_bore=46.500 ± 0.004 mm"];
    let bench = Bench::of(&engine("46.500 ± 0.008 mm", OLD));
    for line in small {
        bench.log(&["pump barrel/bore", line, "--date", "2026-12-01"]);
    }
    let page = bench.said(&["decide", "job.yaml"]);
    assert!(page.contains("as it stands") && page.contains("+0.020 in"), "{page}");
    assert!(!page.contains("× pump barrel"), "{page}");
    let plan = bench.said(&["plan", "job.yaml"]);
    assert!(plan.contains("as it stands it fits +0.020 in") && !plan.contains("can still be bored to"), "{plan}");
    // Larger than that one may have it, the next is bored for.
    bench.log(&["pump barrel/bore", "finish_bore=46.530 ± 0.004 mm", "corrects=3"]);
    let plan = bench.said(&["plan", "job.yaml"]);
    assert!(plan.contains("can still be bored to"), "{plan}");
}

/// A joint that was lapped still wants its gasket: the order list loses nothing by the log.
#[test]
fn what_is_never_used_again_is_ordered_after_the_work_too() {
    let bench = Bench::of(LAP);
    bench.log(&["governor gear case cover/lap", "removed=0.043 ± 0.003 mm", "flat_after=0.004 ± 0.002 mm"]);
    let page = bench.said(&["decide", "job.yaml"]);
    assert!(page.contains("× gasket"), "{page}");
}

/// A piston that nobody measured passes its own hold point at either end of it: whatever the hone's then lets pass has the clearance asked.
#[test]
fn two_hold_points_together_keep_the_clearance() {
    let shop = include_str!("../examples/shop.yaml");
    let unread =
        ["size: 46.170 ± 0.004 mm, ", "size: 46.420 ± 0.004 mm, "].iter().fold(shop.to_owned(), |shop, size| {
            assert!(shop.contains(size));
            shop.replace(size, "")
        });
    let more = "instruments:\n  - {name: micrometer 25-50, kind: outside micrometer, from: 25 mm, to: 50 mm, uncertainty: 5 um}\n";
    let bench = Bench::of(BORE);
    bench.write("shop.yaml", &unread.replace("instruments:\n", more));
    let plan = bench.plan();
    let holds = plan["operations"][0]["set_ups"].as_array().unwrap().iter();
    let holds = holds.flat_map(|set_up| set_up["hold_points"].as_array().unwrap());
    let ends = |of: &str| {
        let hold = holds.clone().find(|hold| hold["measures"] == of).unwrap_or_else(|| panic!("{of}: {plan}"));
        (hold["least"].as_f64().unwrap(), hold["most"].as_f64().unwrap())
    };
    let (piston, bore) = (ends("piston"), ends("finish_bore"));
    assert!(piston.0 < piston.1 && bore.0 < bore.1);
    assert!(bore.0 - piston.1 >= 0.06 - 1e-9, "{bore:?} {piston:?}");
    assert!(bore.1 - piston.0 <= 0.10 + 1e-9, "{bore:?} {piston:?}");
}
