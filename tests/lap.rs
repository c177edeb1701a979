//! Lapping: how far a face is out of flat, what goes, and what goes with it.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{SHOP, doubt, first, in_shop, plan, plan_left, shop, state, try_plan, value, verdict, with};
use approx::assert_abs_diff_eq;
use setover::plan::{Plan, Planned};
use setover::proof::{Outcome, Verdict};
use setover::quantity::Unit;

const EXAMPLE: &str = include_str!("../examples/lap.yaml");

fn cover(job: &str) -> Planned {
    first(&in_shop(job)).clone()
}

fn barrel(job: &str) -> Planned {
    in_shop(job).operations[1].clone()
}

fn working(it: &Planned, key: &str) -> String {
    it.answer.value(key).unwrap().origin.working().join("\n")
}

fn steps(it: &Planned) -> String {
    let steps = it.answer.set_ups.iter().flat_map(|set_up| &set_up.steps);
    steps.map(|step| step.words.clone()).collect::<Vec<_>>().join("\n")
}

#[test]
fn a_cover_read_on_a_grid() {
    let it = cover(EXAMPLE);
    for (key, wanted) in [
        ("flat_least_squares", 0.037_408_3_f64),
        ("flat_peak", 0.0174),
        ("flat_valley", 0.020_008),
        ("flat_rms", 0.009_531_85),
    ] {
        assert_abs_diff_eq!(value(&it, key), wanted, epsilon = 5e-7);
    }
    assert_abs_diff_eq!(value(&it, "flat_found"), 0.031, epsilon = 1e-12);
    assert_abs_diff_eq!(doubt(&it, "flat_found"), 0.002 * 1.388_89_f64.sqrt(), epsilon = 1e-8);
    assert_abs_diff_eq!(value(&it, "metal_to_lap"), 0.043_357, epsilon = 1e-6);
    // The proof: three below, one above, and what each counts.
    let proof = working(&it, "flat_found");
    for part in [
        "+1.000000 × 0.031 mm at (120, 50)",
        "-0.333333 × 0 mm at (0, 0)",
        "-0.166667 × 0.009 mm at (180, 0)",
        "-0.500000 × -0.003 mm at (180, 100)",
    ] {
        assert!(proof.contains(part), "{part}: {proof}");
    }
    assert_eq!(verdict(&it, "flat"), Verdict::Fails, "as it came");
    for id in ["enough-points", "out-first", "too-deep", "flat-after", "set-down", "can-be-measured"] {
        assert_eq!(verdict(&it, id), Verdict::Proven, "{id}");
    }
    assert_eq!(it.verdict, Verdict::Proven);
    assert!(steps(&it).contains("grit 400, 600,"), "{}", steps(&it));
    let margin = it.answer.checks.iter().find(|check| check.id == "set-down").unwrap().judged.unwrap().margin;
    assert_abs_diff_eq!(margin, 0.75 - 0.043_357 - 0.1 - 0.25, epsilon = 1e-6);
}

#[test]
fn a_barrel_top_takes_its_compression_and_squish_along() {
    let it = barrel(EXAMPLE);
    assert_abs_diff_eq!(value(&it, "flat_least_squares"), 0.082_682, epsilon = 1e-6);
    assert_abs_diff_eq!(value(&it, "flat_found"), 0.077, epsilon = 1e-12);
    assert_abs_diff_eq!(doubt(&it, "flat_found"), 0.002, epsilon = 1e-12);
    assert_abs_diff_eq!(value(&it, "metal_to_lap"), 0.089, epsilon = 1e-9);
    assert_abs_diff_eq!(62.079 - value(&it, "clearance_volume_after"), 0.31547, epsilon = 5e-6);
    assert_abs_diff_eq!(value(&it, "compression_before"), 6.0761, epsilon = 5e-5);
    assert_abs_diff_eq!(value(&it, "compression_after"), 6.1020, epsilon = 5e-5);
    assert_abs_diff_eq!(value(&it, "squish_after"), 0.861, epsilon = 1e-9);
    assert_abs_diff_eq!(doubt(&it, "squish_after"), 0.05, epsilon = 1e-9);
    assert_eq!((verdict(&it, "squish"), it.verdict), (Verdict::Proven, Verdict::Proven));
    assert!(steps(&it).contains("grit 240, 400, 600,"), "{}", steps(&it));
    let unsaid = with(EXAMPLE, "          most-compression: 6.2\n", "");
    assert_eq!(state(&barrel(&unsaid), "compression"), Outcome::NotChecked, "nobody says how much it may be");
    let most = |most: &str| with(EXAMPLE, "most-compression: 6.2", &format!("most-compression: {most}"));
    assert_eq!(verdict(&barrel(&most("6.2")), "compression"), Verdict::Proven);
    assert_eq!(verdict(&barrel(&most("6.1")), "compression"), Verdict::Fails);
    assert_eq!(
        verdict(&barrel(&with(EXAMPLE, "least-squish: 0.80", "least-squish: 0.82")), "squish"),
        Verdict::Doubtful
    );
    assert_eq!(verdict(&barrel(&with(EXAMPLE, "least-squish: 0.80", "least-squish: 0.87")), "squish"), Verdict::Fails);
    let unread = with(EXAMPLE, "          squish: 0.95 ± 0.05 mm\n", "");
    assert_eq!((state(&barrel(&unread), "squish"), barrel(&unread).verdict), (Outcome::NotChecked, Verdict::Doubtful));
}

/// Neither least squares, nor three corners made level, nor a straight edge laid along rows and columns gives what the face is.
#[test]
fn no_short_cut_is_taken_for_flatness() {
    let reads = [[0.0, 6.0, 14.0, 9.0], [11.0, 22.0, 31.0, 17.0], [4.0, 19.0, 24.0, -3.0_f64]];
    let (along, across) = ((reads[0][3] - reads[0][0]) / 3.0, (reads[2][0] - reads[0][0]) / 2.0);
    let level: Vec<f64> =
        (0..12).map(|k| reads[k / 4][k % 4] - along * (k % 4) as f64 - across * (k / 4) as f64).collect();
    let apart = |of: &[f64]| of.iter().copied().fold(f64::MIN, f64::max) - of.iter().copied().fold(f64::MAX, f64::min);
    assert_abs_diff_eq!(apart(&level), 39.0, epsilon = 1e-9);
    let found = 1000.0 * value(&cover(EXAMPLE), "flat_found");
    assert_abs_diff_eq!(found, 31.0, epsilon = 1e-9);
    // A straight edge over the ends of a row: what lies highest over it or lowest under it.
    let line = |of: &[f64]| {
        let slope = (of[of.len() - 1] - of[0]) / (of.len() - 1) as f64;
        let left: Vec<f64> = of.iter().enumerate().map(|(k, z)| z - of[0] - slope * k as f64).collect();
        apart(&left)
    };
    let columns = (0..4).map(|k| line(&[reads[0][k], reads[1][k], reads[2][k]]));
    let edge = reads.iter().map(|row| line(row)).chain(columns).fold(0.0, f64::max);
    assert!(edge < 30.0 && found > 30.0, "a straight edge would pass it: {edge}");
    // Least squares may be asked for, and is never less.
    let squares = cover(&with(
        EXAMPLE,
        "flat-within: 0.03 mm\n          face: {long: 190",
        "zone: least-squares\n          flat-within: 0.03 mm\n          face: {long: 190",
    ));
    assert_abs_diff_eq!(value(&squares, "flat_found"), 0.037_408_3, epsilon = 5e-7);
}

#[test]
fn a_face_that_is_flat_is_left_alone() {
    let it = cover(&EXAMPLE.replacen("flat-within: 0.03 mm", "flat-within: 0.04 mm", 1));
    assert_eq!((verdict(&it, "flat"), value(&it, "metal_to_lap")), (Verdict::Proven, 0.0));
    assert_eq!(it.answer.set_ups.len(), 1, "nobody laps it");
    assert!(it.answer.choices[0].chosen.contains("do not lap"), "{:?}", it.answer.choices);
    // Without `repeat` the doubt of the indicator is its whole, and the face may not be flat.
    let whole = shop(&with(SHOP, ", repeat: 2 um", ""));
    let it = |job: &str| first(&plan(job, Some(&whole))).clone();
    assert_abs_diff_eq!(doubt(&it(EXAMPLE), "flat_found"), 0.007_071, epsilon = 1e-6);
    assert_eq!(verdict(&it(EXAMPLE), "can-be-measured"), Verdict::Proven.max(Verdict::Proven));
    assert_eq!(
        verdict(&it(&EXAMPLE.replacen("flat-within: 0.03 mm", "flat-within: 0.035 mm", 1)), "flat"),
        Verdict::Doubtful
    );
}

#[test]
fn too_few_readings_and_a_line_prove_nothing() {
    let of = |points: &str| {
        with(
            EXAMPLE,
            "points: {radius: 48 mm, at: 0 45 90 135 180 225 270 315 deg, reads: 0 42 18 -35 6 47 9 -30 um}",
            points,
        )
    };
    let four = "points: [{x: 0 mm, y: 0 mm, reads: 0 um}, {x: 90 mm, y: 0 mm, reads: 30 um}, {x: 90 mm, y: 90 mm, reads: -10 um}, {x: 0 mm, y: 90 mm, reads: 35 um}]";
    assert_eq!(verdict(&barrel(&of(four)), "enough-points"), Verdict::Doubtful);
    let three = "points: {radius: 48 mm, at: 0 120 240 deg, reads: 0 42 18 um}";
    assert!(barrel(&of(three)).answer.refused.is_some());
    let line = "points: [{x: 0 mm, y: 0 mm, reads: 0 um}, {x: 30 mm, y: 0 mm, reads: 30 um}, {x: 60 mm, y: 0 mm, reads: -10 um}, {x: 90 mm, y: 0 mm, reads: 35 um}]";
    assert!(barrel(&of(line)).answer.refused.as_ref().is_some_and(|why| why.to_string().contains("line")));
    // Seven readings in one corner and one far off see two quarters of it.
    let heap: Vec<String> = [(0, 0), (2, 0), (4, 0), (0, 2), (2, 2), (4, 2), (0, 4), (90, 90)]
        .iter()
        .map(|(x, y)| format!("{{x: {x} mm, y: {y} mm, reads: {} um}}", x % 3))
        .collect();
    let heap = barrel(&of(&format!("points: [{}]", heap.join(", "))));
    assert_eq!(verdict(&heap, "enough-points"), Verdict::Doubtful);
    assert_eq!(verdict(&barrel(EXAMPLE), "enough-points"), Verdict::Proven, "eight round a bore see each");
    // A corner of a large face says nothing of the rest; of a face of unknown size nobody knows.
    assert_eq!(verdict(&cover(&with(EXAMPLE, "long: 190 mm", "long: 400 mm")), "enough-points"), Verdict::Doubtful);
    let unsaid = with(EXAMPLE, "          face: {long: 190 mm, wide: 110 mm}\n", "");
    assert_eq!(verdict(&cover(&unsaid), "enough-points"), Verdict::Doubtful);
}

#[test]
fn what_stands_proud_ruins_the_lap() {
    let unsaid = with(EXAMPLE, "          out-first: [{what: dowels, count: 2}]\n", "");
    assert_eq!((state(&cover(&unsaid), "out-first"), cover(&unsaid).verdict), (Outcome::NotChecked, Verdict::Doubtful));
    assert_eq!(verdict(&cover(&with(EXAMPLE, "[{what: dowels, count: 2}]", "[]")), "out-first"), Verdict::Proven);
    let proud = |by: &str| {
        with(
            EXAMPLE,
            "          out-first: [{what: dowels",
            &format!("          proud: {by}\n          out-first: [{{what: dowels"),
        )
    };
    assert_eq!(verdict(&cover(&proud("0.03 ± 0.01 mm")), "out-first"), Verdict::Fails);
    assert_eq!(verdict(&cover(&proud("0 mm")), "out-first"), Verdict::Proven);
}

#[test]
fn much_metal_is_skimmed_and_lining_never_lapped() {
    let deep = with(EXAMPLE, "reads: 0 42 18 -35 6 47 9 -30 um", "reads: 0 62 18 -55 6 67 9 -50 um");
    assert_eq!(verdict(&barrel(&deep), "too-deep"), Verdict::Fails);
    let lining = with(EXAMPLE, "cast aluminium", "friction lining");
    assert_eq!(verdict(&cover(&lining), "metal-takes-it"), Verdict::Fails);
    let it = cover(EXAMPLE);
    let cautions: Vec<&String> =
        it.answer.cautions.iter().chain(it.answer.set_ups.iter().flat_map(|s| &s.cautions)).collect();
    assert!(cautions.iter().any(|line| line.contains("asbestos")), "{cautions:?}");
    assert!(cautions.iter().any(|line| line.contains("aluminium, magnesium, bronze and white metal")), "{cautions:?}");
    assert!(steps(&it).contains("never clamped") && !steps(&it).contains("air"), "{}", steps(&it));
    // An insert that lapping would bring to the face.
    let shallow = with(EXAMPLE, "set-down: 0.75 ± 0.1 mm", "set-down: 0.30 ± 0.02 mm");
    assert_eq!(verdict(&cover(&shallow), "set-down"), Verdict::Doubtful.max(verdict(&cover(&shallow), "set-down")));
}

/// Studs, inserts, presses and bolting stand where the rules put them.
#[test]
fn the_order_of_the_trade_is_asked() {
    let job = |operations: &str| {
        format!("job: Case\nparts:\n  - part: case\n    material: cast aluminium\n    operations:\n{operations}")
    };
    let lap = "      - lap: {set-up: {feature: joint}, grid: {x: 0 60 120 180 mm, y: 0 50 100 mm, reads: [0 6 14 9 um, 11 22 31 17 um, 4 19 24 -3 um]}, with: lever indicator, flat-within: 0.03 mm, out-first: []}\n";
    let insert = "      - thread-insert: {hold: {in: clamps, tested: 60 N·m}, set-up: {feature: joint}, thread: M8, wall: 18.0 ± 0.3 mm, hole: blind}\n";
    let order = |plan: &Plan, at: usize| state(&plan.operations[at], "order-of-operations");
    let wrong = in_shop(&job(&format!("{lap}{insert}")));
    assert_eq!(order(&wrong, 1), Outcome::Made(Verdict::Doubtful), "a tapped hole lifts a rim on a lapped face");
    assert_eq!(order(&in_shop(&job(&format!("{insert}{lap}"))), 1), Outcome::DoesNotApply);
}

/// Less metal gone than it was out of flat leaves its low places, whatever was foretold; mapped again at the same places it is as
/// flat as the map says.
#[test]
fn a_face_lapped_too_little_is_not_flat() {
    let job = EXAMPLE.replacen("flat-within: 0.03 mm", "flat-within: 0.032 mm", 2);
    let of = |left: &[(&str, f64, f64)]| {
        let left: Vec<_> = left.iter().map(|(key, number, doubt)| (*key, *number, Unit::Mm, *doubt)).collect();
        let plan = plan_left(&job, &shop(SHOP), ("barrel", "lap"), &left);
        plan.operations.iter().find(|it| it.address.part == "barrel").expect("the barrel").clone()
    };
    let found = value(&of(&[]), "flat_found");
    assert!(found > 0.07, "{found}");
    let stands = |left: &[(&str, f64, f64)]| {
        let it = of(left);
        let of_it = it.answer.checks.iter().filter(|check| check.id == "doubt-plausible");
        let check = of_it.filter_map(|check| check.verdict()).max();
        (check, it.verdict)
    };
    assert_eq!(stands(&[("removed", 0.010, 0.002)]).0, Some(Verdict::Doubtful));
    assert_eq!(
        stands(&[("removed", found + 0.001, 0.002)]).0,
        Some(Verdict::Doubtful),
        "gone at the middle, not at worst"
    );
    assert_eq!(stands(&[("removed", 0.100, 0.002)]).0, Some(Verdict::Proven));
    assert_eq!(stands(&[("removed", 0.010, 0.002), ("flat_after", 0.005, 0.002)]).0, Some(Verdict::Doubtful));
    assert_eq!(stands(&[("removed", found + 0.001, 0.002), ("flat_after", 0.005, 0.002)]).0, Some(Verdict::Proven));
    assert_ne!(stands(&[("removed", 0.010, 0.002)]).1, Verdict::Proven);
}

/// Four places, each read twice, are four places.
#[test]
fn a_place_that_was_read_twice_is_one() {
    let round = |at: &str, reads: &str| {
        let from = "at: 0 45 90 135 180 225 270 315 deg, reads: 0 42 18 -35 6 47 9 -30 um";
        let job = with(EXAMPLE, from, &format!("at: {at} deg, reads: {reads} um"));
        crate::common::try_plan(&job, Some(&shop(SHOP))).err()
    };
    let twice = round("0 450 900 1350 1800 2250 2700 3150", "0 42 18 -35 6 47 9 -30").expect("four places");
    assert!(twice.iter().any(|problem| problem.says.contains("stands once")), "{twice:?}");
    assert!(round("0 45 90 135 180 225 270 315 360", "0 42 18 -35 6 47 9 -30 1").is_some());
    assert!(round("0 40 80 120 160 200 240 280 320", "0 42 18 -35 6 47 9 -30 1").is_none());
    let points = "points: [{x: 0 mm, y: 0 mm, reads: 0 um}, {x: 90 mm, y: 0 mm, reads: 30 um}, {x: 90 mm, y: 90 mm, reads: -10 um}, {x: 90 mm, y: 0 mm, reads: 35 um}]";
    let from = "points: {radius: 48 mm, at: 0 45 90 135 180 225 270 315 deg, reads: 0 42 18 -35 6 47 9 -30 um}";
    assert!(crate::common::try_plan(&with(EXAMPLE, from, points), Some(&shop(SHOP))).is_err());
}

/// A slip in one key is told once: the rows of the grid, whose key is `y`, are there all the same.
#[test]
fn a_slip_beside_a_grid_says_nothing_of_its_rows() {
    let job = include_str!("../examples/lap.yaml");
    for (from, to) in [("face: {long:", "face: {lnog:"), ("flat-within:", "flat-wihtin:"), ("job:", "jbo:")] {
        let problems = try_plan(&with(job, from, to), None).expect_err(to);
        assert!(problems.iter().all(|problem| !problem.says.contains("`grid")), "{to}: {problems:#?}");
    }
}

/// A map that reaches beyond its face is of another face, or in another unit.
#[test]
fn no_reading_lies_beyond_its_face() {
    let at = |face: &str| {
        let job = with(EXAMPLE, "face: {long: 190 mm, wide: 110 mm}", &format!("face: {face}"));
        let all = try_plan(&job, Some(&shop(SHOP))).err().unwrap_or_default();
        all.into_iter().map(|problem| problem.says).collect::<Vec<_>>()
    };
    assert!(at("{long: 110 mm, wide: 190 mm}").is_empty(), "which way is called x nobody says");
    let small = at("{long: 170 mm, wide: 110 mm}");
    assert!(small.iter().any(|says| says.contains("beyond a face")), "{small:?}");
}

/// As little as a set-down may be nothing may come off: that is said, and no figure below nothing.
#[test]
fn nothing_is_lapped_over_inserts_that_may_stand_too_high() {
    for (set_down, lapped) in
        [("0.75 ± 0.1", true), ("0.29 ± 0.08", false), ("0.33 ± 0.02", true), ("0.30 ± 0.06", false)]
    {
        let it = cover(&with(EXAMPLE, "set-down: 0.75 ± 0.1 mm", &format!("set-down: {set_down} mm")));
        if it.verdict == Verdict::Fails {
            continue;
        }
        let said = steps(&it);
        assert_eq!(said.contains("LAP NOTHING YET"), !lapped, "{set_down}: {said}");
        assert_eq!(said.contains("never take off more than this"), lapped, "{set_down}: {said}");
    }
}
