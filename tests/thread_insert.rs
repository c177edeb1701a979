//! `thread-insert`: the worked example to the digits printed, its negative twins, and facts of the trade.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

mod common;

use common::*;
use setover::plan::Planned;
use setover::proof::Verdict;

const JOB: &str = include_str!("fixtures/thread-insert.yaml");

fn alternative<'a>(planned: &'a Planned, name: &str) -> &'a setover::plan::SaidAlternative {
    planned.alternatives.iter().find(|c| c.name == name).expect(name)
}

#[test]
fn the_worked_example_to_the_digits_printed() {
    let plan = in_shop(JOB);
    let it = first(&plan);
    for (key, printed) in [
        ("hole_major_min", "9.624"),
        ("hole_pitch_min", "8.812"),
        ("hole_minor_min", "8.271"),
        ("hole_minor_max", "8.483"),
        ("drill_diameter", "8.4"),
        ("thread_percent", "75.4"),
        ("thread_percent_iso", "90.4"),
        ("drill_point", "2.524"),
        ("insert_length", "8.0"),
        ("full_thread_depth", "9.25"),
        ("drilled_depth", "13.0"),
        ("depth_to_point", "15.524"),
        ("metal_left", "2.476"),
        ("wall_needed", "16.88"),
        ("edge_wall", "9.19"),
        ("stop_travel_from_face", "15.52"),
        ("stop_travel_in_hole", "13.12"),
        ("tap_torque", "1.61"),
        ("tap_turns", "9.4"),
        ("drill_spindle_speed", "660"),
        ("tap_spindle_speed", "325"),
    ] {
        agrees(printed, value(it, key));
    }
    agrees("0.361", doubt(it, "metal_left"));
    // Forces rest on table rows that are rounded: the fourth figure may differ.
    assert!((value(it, "pull_out_force") - 15_706.0).abs() < 5.0);
    assert!((value(it, "bolt_force") - 14_640.0).abs() < 5.0);
    assert_eq!(it.verdict, Verdict::Doubtful);
    assert_eq!(verdict(it, "break-through"), Verdict::Proven);
    assert_eq!(verdict(it, "pull-out"), Verdict::Proven);
    assert_eq!(verdict(it, "edge-wall"), Verdict::Proven);
    assert_eq!(verdict(it, "edge-distance"), Verdict::Doubtful);
}

#[test]
fn every_length_has_its_row() {
    let plan = in_shop(JOB);
    let it = first(&plan);
    let rows = [
        ("1D", "8", "9.25", "13.0", "15.524", "2.476", "16.88"),
        ("1.5D", "12", "13.25", "17.0", "19.524", "-1.524", "20.88"),
        ("2D", "16", "17.25", "21.0", "23.524", "-5.524", "24.88"),
        ("2.5D", "20", "21.25", "25.0", "27.524", "-9.524", "28.88"),
        ("3D", "24", "25.25", "29.0", "31.524", "-13.524", "32.88"),
    ];
    for (name, length, thread, drilled, point, left, wall) in rows {
        let row = alternative(it, name);
        for (key, printed) in [
            ("insert_length", length),
            ("full_thread_depth", thread),
            ("drilled_depth", drilled),
            ("depth_to_point", point),
            ("metal_left", left),
            ("wall_needed", wall),
        ] {
            agrees(printed, row.answer.value(key).expect(key).number);
        }
        let depth = row.checks.iter().find(|f| f.check == "break-through").expect("depth");
        assert_eq!(depth.verdict(), Some(if name == "1D" { Verdict::Proven } else { Verdict::Fails }));
        assert_eq!(row.why_not.is_none(), row.chosen, "{name}");
    }
}

#[test]
fn what_would_win_depth_is_said_with_its_figure() {
    let plan = in_shop(JOB);
    let row = alternative(first(&plan), "1.5D");
    let check = row.checks.iter().find(|f| f.check == "break-through").expect("depth");
    let said = check.remedies.join("\n");
    for piece in [
        "saves the point: 2.524 mm, then 1.000 mm left, doubtful",
        "saves 1.250 mm, then -0.274 mm left, fails",
        "together save 3.774 mm, then 2.250 mm left, proven",
    ] {
        assert!(said.contains(piece), "{said}");
    }
}

#[test]
fn a_plug_tap_breaks_through_even_at_one_diameter() {
    let plan = in_shop(&with(JOB, "lead: bottoming", "lead: plug"));
    let it = first(&plan);
    agrees("19.5", value(it, "drilled_depth"));
    agrees("-4.02", value(it, "metal_left"));
    assert_eq!(it.verdict, Verdict::Fails);
    assert!(it.alternatives.iter().all(|c| c.verdict == Verdict::Fails));
}

#[test]
fn a_strong_bolt_strips_the_hole() {
    let plan = in_shop(&with(JOB, "class: \"4.6\"", "class: 8.8"));
    let it = first(&plan);
    assert_eq!(verdict(it, "pull-out"), Verdict::Fails);
    assert!((value(it, "clamping_force") - 15_921.0).abs() < 10.0);
}

#[test]
fn a_tang_left_in_shortens_what_the_bolt_may_reach() {
    let reach = |reach: &str, tang: &str| {
        let job = with(&with(JOB, "reach: 8 mm", &format!("reach: {reach}")), "tang: out", &format!("tang: {tang}"));
        in_shop(&with(&job, "countersink: false", "countersink: false\n          length: 1D"))
    };
    let fouls = reach("8 mm", "in");
    assert_eq!(verdict(first(&fouls), "tang-clear"), Verdict::Fails);
    let short = reach("6.0 mm", "in");
    assert_eq!(verdict(first(&short), "tang-clear"), Verdict::Proven);
    agrees("5.375", value(first(&short), "engaged_length"));
    assert!((value(first(&short), "pull_out_force") - 11_953.0).abs() < 5.0);
    assert_eq!(verdict(first(&short), "pull-out"), Verdict::Doubtful);
}

#[test]
fn without_a_bolt_strength_is_not_asked_and_the_longest_that_is_sure_is_taken() {
    let job = with(JOB, "          bolt: {class: \"4.6\", reach: 8 mm}\n", "");
    let thick = with(&job, "wall: 18.0 ± 0.3 mm", "wall: 26.0 ± 0.3 mm");
    let plan = in_shop(&thick);
    let it = first(&plan);
    assert_eq!(it.choices.iter().find(|c| c.name == "insert_length").expect("length").chosen, "2D");
    assert_eq!(it.stamp_note.as_deref(), Some("for depth; strength not asked"));
    assert!(value(it, "pull_out_force") > 0.0);
    assert!(it.answer.value("bolt_force").is_none());
}

#[test]
fn an_insert_too_long_for_its_wall_is_refused() {
    let job = with(
        &with(JOB, "hole: blind", "hole: through"),
        "countersink: false",
        "countersink: false\n          length: 2.5D",
    );
    let plan = in_shop(&job);
    assert_eq!(verdict(first(&plan), "wall-for-insert"), Verdict::Fails);
    assert_eq!(first(&plan).verdict, Verdict::Fails);
}

#[test]
fn a_through_hole_looks_at_what_moves_behind_it() {
    let job = with(JOB, "hole: blind", "hole: through\n          beyond: 9 ± 0.5 mm");
    let plan = in_shop(&with(&job, "lead: bottoming", "lead: plug"));
    let it = first(&plan);
    agrees("9.0", value(it, "beyond_while_cutting"));
    assert_eq!(verdict(it, "while-cutting"), Verdict::Doubtful);
    assert_eq!(verdict(it, "when-assembled"), Verdict::Proven);
}

#[test]
fn a_deep_old_hole_counts_not_only_the_new_one() {
    let plan = in_shop(&with(JOB, "present-depth: 12 ± 0.1 mm", "present-depth: 17.5 ± 0.1 mm"));
    agrees("0.50", value(first(&plan), "metal_left"));
    assert_eq!(verdict(first(&plan), "break-through"), Verdict::Fails);
}

#[test]
fn without_a_shop_nothing_is_pretended() {
    let plan = plan(JOB, None);
    let it = first(&plan);
    agrees("8.4", value(it, "drill_diameter"));
    assert!(it.answer.value("drill_spindle_speed").is_none());
    assert!(it.assumed.iter().any(|a| a.contains("not checked")), "{:#?}", it.assumed);
}

#[test]
fn vintage_threads_are_doubtful_on_every_sheet() {
    let plan = in_shop(&with(JOB, "thread: M8x1.25", "thread: 5/16 BSF"));
    assert_eq!(verdict(first(&plan), "vintage-form"), Verdict::Doubtful);
}

#[test]
fn what_cannot_be_is_a_placed_problem() {
    for (from, to, says) in [
        ("wall: 18.0 ± 0.3 mm", "wall: 2 mm", "under two pitches"),
        ("wall: 18.0 ± 0.3 mm", "wall: 0 mm", "above zero"),
        ("wall: 18.0 ± 0.3 mm", "wall: 18 ± 0 mm", "no reading is without doubt"),
        ("wall: 18.0 ± 0.3 mm", "wall: 17 .. 18 mm", "this is measured"),
        ("thread: M8x1.25", "thread: M8x1.26", "did you mean"),
        ("hole: blind", "hole: blnd", "did you mean `blind`"),
        ("    material: cast aluminium\n", "", "the metal of the casting is not known"),
        ("thread: M8x1.25", "thread: #8-32 UNC", "starts a comment"),
    ] {
        let problems = try_plan(&with(JOB, from, to), None).expect_err(to);
        assert!(problems.iter().any(|p| p.says.contains(says) && p.place.is_some()), "{to}: {problems:#?}");
    }
}
