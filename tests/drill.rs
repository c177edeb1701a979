//! A drilled hole: its point against the wall, what lies behind, and what holds the work.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{agrees, first, in_shop, plan, state, try_plan, value, verdict, with};
use setover::proof::{Outcome, Verdict};

const JOB: &str = include_str!("../examples/drill.yaml");
const THROUGH: &str = "through: true\n          beyond: 9.0 ± 0.2 mm";

/// By hand: the point of 118 degrees is 4 / tan 59 = 2.403 long, so the tip lies at 14.403 and leaves 3.597 of 18; wall and stop are
/// doubtful by 0.3 and 0.2, together 0.36.
#[test]
fn the_tip_lies_a_point_deeper_than_the_hole() {
    let plan = in_shop(JOB);
    assert_eq!(first(&plan).verdict, Verdict::Proven);
    agrees("2.403", value(first(&plan), "point_length"));
    agrees("14.403", value(first(&plan), "depth_to_point"));
    agrees("3.597", value(first(&plan), "metal_left"));
    // 18 + 1.0 - (3.597 - 0.361)
    agrees("15.764", value(first(&plan), "wall_needed"));
    // The quill reads in 0.02: down to 14.40.
    let cut = first(&plan).answer.set_ups[0].cuts().next().expect("a cut");
    assert_eq!(cut.passes.len(), 1);
    assert!(first(&plan).answer.set_ups[0].steps.iter().any(|step| step.words.contains("14.40 mm")));
}

/// A thinner wall, a blunter reading, a deeper hole, a larger drill: never better, and in the end through.
#[test]
fn a_point_that_comes_through_fails_and_says_so() {
    let left = |job: &str| verdict(first(&in_shop(job)), "break-through");
    assert_eq!(left(JOB), Verdict::Proven);
    assert_eq!(left(&with(JOB, "18.0 ± 0.3", "15.7 ± 0.3")), Verdict::Doubtful, "1.297 left, 0.36 of it not sure");
    assert_eq!(left(&with(JOB, "18.0 ± 0.3", "15.3 ± 0.3")), Verdict::Fails, "0.897 of 1.0");
    assert_eq!(
        left(&with(JOB, "18.0 ± 0.3", "13.0 ± 0.3")),
        Verdict::Fails,
        "the point is through, its full diameter is not"
    );
    assert_eq!(left(&with(JOB, "18.0 ± 0.3", "18.0 ± 3.0")), Verdict::Doubtful);
    assert_eq!(left(&with(JOB, "depth: 12 mm", "depth: 15 mm")), Verdict::Fails);
    let said = try_plan(&with(JOB, "depth: 12 mm", "depth: 18 mm"), None).expect_err("a hole as deep as its wall");
    assert!(said[0].says.contains("through: true"), "{}", said[0].says);
    let unsaid = try_plan(&with(JOB, "          depth: 12 mm\n", ""), None).expect_err("no depth");
    assert!(unsaid[0].says.contains("through: true"), "{}", unsaid[0].says);
}

/// Asked to go through, it goes through at the thick end of the wall, and the tip then stands out into what lies behind.
#[test]
fn what_lies_behind_a_through_hole_is_asked_for() {
    let through = with(JOB, "depth: 12 mm", THROUGH);
    let plan = in_shop(&through);
    assert_eq!(state(first(&plan), "break-through"), Outcome::DoesNotApply);
    // 18 + 0.361 + 0.5 + 2.403: the tip at 21.264, 3.264 behind the wall, 5.736 of 9 left.
    agrees("3.264", value(first(&plan), "tip_behind"));
    agrees("5.736", value(first(&plan), "left_behind"));
    assert_eq!(verdict(first(&plan), "behind"), Verdict::Proven);
    assert_eq!(verdict(first(&in_shop(&with(&through, "9.0 ± 0.2", "4.4 ± 0.2"))), "behind"), Verdict::Doubtful);
    assert_eq!(verdict(first(&in_shop(&with(&through, "9.0 ± 0.2", "3.5 ± 0.2"))), "behind"), Verdict::Fails);
    let unsaid = in_shop(&with(&through, "\n          beyond: 9.0 ± 0.2 mm", ""));
    assert_eq!(state(first(&unsaid), "behind"), Outcome::NotChecked);
    assert_eq!(first(&unsaid).verdict, Verdict::Doubtful, "nobody says what the tip meets");
    let clear = in_shop(&with(&through, "9.0 ± 0.2 mm", "clear"));
    assert_eq!(first(&clear).verdict, Verdict::Proven);
}

/// Work that nothing holds is spun by the drill.
#[test]
fn work_that_is_not_clamped_is_never_proven() {
    let loose = in_shop(&with(JOB, "          hold: {in: vice, tested: 30 N·m, grip: 12 mm, overhang: 6 mm}\n", ""));
    assert_eq!(state(first(&loose), "held"), Outcome::NotChecked);
    assert_eq!(first(&loose).verdict, Verdict::Doubtful);
    let collet = in_shop(&with(JOB, "in: vice", "in: collet"));
    assert_eq!(verdict(first(&collet), "held"), Verdict::Doubtful);
    let support = in_shop(&with(JOB, "in: vice", "in: press-support"));
    assert_eq!(first(&support).verdict, Verdict::Fails);
}

#[test]
fn a_hard_part_a_lining_and_an_edge_too_near_are_found() {
    let hard = with(JOB, "    material: GG25\n", "    material: mild steel\n    hardness: 60 HRC\n");
    assert_eq!(verdict(first(&in_shop(&hard)), "drill-hard-enough"), Verdict::Fails);
    let case = with(JOB, "GG25", "case-hardened steel");
    assert_eq!(verdict(first(&in_shop(&case)), "drill-hard-enough"), Verdict::Fails, "hard by its name");
    let lining = with(JOB, "GG25", "friction lining");
    assert_eq!(first(&in_shop(&lining)).verdict, Verdict::Fails);
    let edge = |size: &str| verdict(first(&in_shop(&with(JOB, "14.0 ± 0.2", size))), "edge-wall");
    // 14 - 4 = 10; three eighths of 8 are 3, a fifth is 1.6.
    assert_eq!(
        (edge("14.0 ± 0.2"), edge("6.5 ± 0.2"), edge("5.4 ± 0.2")),
        (Verdict::Proven, Verdict::Doubtful, Verdict::Fails)
    );
}

/// By hand: 25 m/min or so at 8 mm; the machine's steps are 660 and 1115. A drill that the drawer lacks is on the missing list.
#[test]
fn speed_torque_and_drawer() {
    let plan = in_shop(JOB);
    let (step, speed) = (value(first(&plan), "drill_spindle_speed"), value(first(&plan), "drill_surface_speed"));
    assert!((speed - std::f64::consts::PI * 8.0 * step / 1000.0).abs() < 1e-9);
    let (torque, there) = (value(first(&plan), "drill_torque"), value(first(&plan), "torque_there"));
    // 9550 P / n, at three quarters of 1.1 kW.
    assert!((there - 9549.3 * 1.1 * 0.75 / step).abs() < 0.01 * there, "{there}");
    assert!(torque > 1.0 && torque < there);
    assert_eq!(verdict(first(&plan), "drill-in-drawer"), Verdict::Proven);
    let odd = in_shop(&with(JOB, "diameter: 8 mm", "diameter: 8.05 mm"));
    assert_eq!(verdict(first(&odd), "drill-in-drawer"), Verdict::Doubtful);
    assert!(first(&odd).answer.missing.iter().any(|line| line.contains("8.05")));
    assert_eq!(state(first(&plan_without(JOB)), "torque"), Outcome::NoShop);
}

fn plan_without(job: &str) -> setover::plan::Plan {
    plan(job, None)
}

/// The example with another hold.
fn held(hold: &str) -> String {
    with(JOB, "{in: vice, tested: 30 N·m, grip: 12 mm, overhang: 6 mm}", hold)
}

/// Half a millimetre in the jaws holds nothing, whatever a test said before the drill came down.
#[test]
fn a_grip_in_jaws_is_long_enough_or_the_work_comes_out() {
    let jaws = |grip: &str, more: &str| {
        let keys = format!("{{in: jaws, diameter: 40 mm, grip: {grip}, overhang: 18 mm, tested: 60 N·m{more}}}");
        in_shop(&held(&keys))
    };
    assert_eq!(verdict(first(&jaws("0.5 mm", ", stop: step")), "grip-length"), Verdict::Fails);
    assert_eq!(verdict(first(&jaws("4 mm", ", stop: step")), "grip-length"), Verdict::Doubtful, "3.5 of 6");
    let good = jaws("12 mm", ", stop: step");
    assert_eq!(first(&good).verdict, Verdict::Proven);
    // Nothing stops the thrust from pushing it through.
    assert_eq!(verdict(first(&jaws("12 mm", "")), "held"), Verdict::Doubtful);
    let unsaid = in_shop(&held("{in: jaws, tested: 60 N·m, stop: step}"));
    assert_eq!(state(first(&unsaid), "grip-length"), Outcome::NotChecked);
    assert_eq!(first(&unsaid).verdict, Verdict::Doubtful);
    let untried = in_shop(&held("{in: jaws, diameter: 40 mm, grip: 12 mm, overhang: 18 mm, stop: step}"));
    assert_eq!(state(first(&untried), "grip"), Outcome::NotChecked);
    assert_eq!(first(&untried).verdict, Verdict::Doubtful);
}

/// The torque of the test has the safety of every grip, and that of a drill that breaks through strikes besides.
#[test]
fn a_grip_must_stand_twice_the_torque_and_three_times_where_the_drill_breaks_through() {
    let plan = in_shop(JOB);
    let (torque, asked) = (value(first(&plan), "drill_torque"), value(first(&plan), "torque_to_stand"));
    assert!(asked >= 2.0 * torque - 1e-9, "{asked} of {torque}");
    let just =
        |job: &str, times: f64| with(job, "tested: 30 N·m", &format!("tested: {:.3} ± 0.001 N·m", torque * times));
    assert_eq!(verdict(first(&in_shop(&just(JOB, 1.2))), "grip"), Verdict::Fails);
    assert_eq!(verdict(first(&in_shop(&just(JOB, asked / torque * 1.01))), "grip"), Verdict::Proven);
    let through = with(JOB, "depth: 12 mm", THROUGH);
    assert_eq!(verdict(first(&in_shop(&just(&through, asked / torque * 1.01))), "grip"), Verdict::Fails);
    // Nobody tried it: the sheet says how much, and nothing is proven.
    let untried = in_shop(&held("{in: vice}"));
    assert_eq!(verdict(first(&untried), "grip-looked-at"), Verdict::Doubtful);
    assert_eq!(first(&untried).verdict, Verdict::Doubtful);
    let steps = &first(&untried).answer.set_ups[0].steps;
    assert!(steps.iter().any(|step| step.id == "try-the-grip" && step.hold_point.is_some()));
}

/// By hand: a body of 0.6 mm has I = pi 0.6^4/64 = 0.00636 mm4; 2.046 pi^2 200 000 I/12^2 = 178 N, over all 34 mm 22 N.
#[test]
fn a_thin_drill_that_stands_out_far_bows_before_it_cuts() {
    let thin = with(&with(JOB, "diameter: 8 mm", "diameter: 1 mm"), "depth: 12 mm", "depth: 5 mm");
    let thin = with(&thin, "    material: GG25\n", "    material: 4140-30hrc\n    hardness: 40 HRC\n");
    let out = |out: &str| in_shop(&with(&thin, "stick-out: 60 mm", &format!("stick-out: {out}")));
    agrees("178.4", value(first(&out("12 mm")), "drill_bows_at"));
    assert_eq!(verdict(first(&out("34 mm")), "drill-bows"), Verdict::Fails);
    assert_ne!(verdict(first(&out("12 mm")), "drill-bows"), Verdict::Fails);
    let unsaid = in_shop(&with(&thin, "          stick-out: 60 mm\n", ""));
    assert_eq!(verdict(first(&unsaid), "drill-bows"), Verdict::Fails, "all of it stands out");
    assert_eq!(verdict(first(&in_shop(JOB)), "drill-bows"), Verdict::Proven);
    let short = in_shop(&with(JOB, "stick-out: 60 mm", "stick-out: 14 mm"));
    assert_eq!(verdict(first(&short), "drill-reaches"), Verdict::Fails, "the chuck meets the face");
}

/// A point that is through before the drill's corners are in leads nothing.
#[test]
fn thin_sheet_is_not_proven() {
    let sheet = with(&with(JOB, "depth: 12 mm", "through: true\n          beyond: clear"), "18.0 ± 0.3", "1.5 ± 0.1");
    assert_eq!(verdict(first(&in_shop(&sheet)), "sheet-thick-enough"), Verdict::Doubtful);
    let plate = with(&with(JOB, "depth: 12 mm", "through: true\n          beyond: clear"), "18.0 ± 0.3", "6 ± 0.1");
    assert_eq!(verdict(first(&in_shop(&plate)), "sheet-thick-enough"), Verdict::Proven);
}

/// Nothing left is no metal, a hardened steel is no soft one, and a metal of which no force is known proves no grip.
#[test]
fn what_nobody_can_mean_or_knows_proves_nothing() {
    let said = try_plan(&with(JOB, "depth: 12 mm", "depth: 12 mm\n          least-left: 0 mm"), None);
    assert!(said.expect_err("less than nothing").iter().any(|problem| problem.says.contains("least-left")));
    let soft = with(JOB, "    material: GG25\n", "    material: mild steel\n");
    let hard = with(JOB, "    material: GG25\n", "    material: mild steel\n    hardness: 50 HRC\n");
    let slow = |job: &str| first(&in_shop(job)).answer.value("drill_surface_speed").map(|speed| speed.number);
    assert!(slow(&hard).is_none_or(|hard| slow(&soft).is_some_and(|soft| hard < soft)), "{:?}", slow(&hard));
    assert_ne!(first(&in_shop(&hard)).verdict, Verdict::Proven);
}

/// A point that rests in the cone of the centre drill stands deeper than the face: a stop zeroed there drills through.
#[test]
fn the_stop_is_zeroed_beside_the_centred_cone_not_in_it() {
    let bare = with(include_str!("../examples/drill-oil-hole.yaml"), "depth: 18 ± 0.5 mm", "depth: 0 mm");
    for job in [include_str!("../examples/drill.yaml"), bare.as_str()] {
        let plan = plan(job, Some(&crate::common::shop(include_str!("../examples/shop.yaml"))));
        let steps: Vec<String> =
            plan.operations[0].answer.set_ups[0].steps.iter().map(|step| step.words.clone()).collect();
        let centred = steps.iter().position(|step| step.contains("short stiff drill")).expect("centred");
        let zero = steps.iter().position(|step| step.starts_with("ZERO")).expect("zeroed");
        assert!(
            centred < zero && steps[zero].contains("beside the centre") && steps[zero].contains("never in its cone")
        );
    }
}

/// A hole that is marked out by hand stands where it was marked, give or take: its edge has that doubt.
#[test]
fn an_edge_has_the_doubt_of_marking_out() {
    let plan = in_shop(JOB);
    let wall = first(&plan).answer.value("edge_wall").expect("edge wall");
    assert!((wall.plus_minus - 0.2_f64.hypot(0.3)).abs() < 1e-9, "{}", wall.plus_minus);
    let near = in_shop(&with(JOB, "edge: 14.0 ± 0.2 mm", "edge: 7.05 ± 0.02 mm"));
    assert_ne!(verdict(first(&near), "edge-wall"), Verdict::Proven);
}

/// What is thinner than half a millimetre, or a tenth of the drill, its point pushes out, whoever allows it.
#[test]
fn a_skin_under_the_point_is_not_proven_by_allowing_it() {
    let left = |wall: &str, least: &str| {
        let job = with(JOB, "          hold:", &format!("          least-left: {least}\n          hold:"));
        verdict(
            first(&in_shop(&with(&job, "wall: 18.0 ± 0.3 mm", &format!("wall: {wall} ± 0.05 mm")))),
            "break-through",
        )
    };
    let depth = value(first(&in_shop(JOB)), "depth_to_point");
    let wall = |left: f64| format!("{:.2}", depth + left);
    assert_eq!(left(&wall(0.35), "0.1 mm"), Verdict::Doubtful);
    assert_eq!(left(&wall(2.0), "0.1 mm"), Verdict::Proven);
    let mut worst = Verdict::Proven;
    for under in [3.0, 1.2, 0.9, 0.6, 0.35, 0.2, 0.05, -0.5] {
        let now = left(&wall(under), "0.1 mm");
        assert!(now >= worst, "{under}");
        worst = now;
    }
    assert_eq!(worst, Verdict::Fails);
}

/// In a vice a third of what stands over its jaws is gripped.
#[test]
fn what_is_drilled_in_a_vice_is_gripped_deep_enough() {
    let vice = |hold: &str| first(&in_shop(&held(hold))).clone();
    assert_eq!(
        verdict(&vice("{in: vice, tested: 30 N·m, grip: 12 mm, overhang: 6 mm}"), "grip-length"),
        Verdict::Proven
    );
    assert_eq!(
        verdict(&vice("{in: vice, tested: 30 N·m, grip: 1 mm, overhang: 200 mm}"), "grip-length"),
        Verdict::Fails
    );
    let unsaid = vice("{in: vice, tested: 30 N·m}");
    assert_eq!(state(&unsaid, "grip-length"), Outcome::NotChecked);
    assert_ne!(unsaid.verdict, Verdict::Proven);
}

/// A point that begins on a round bar, a slope or a lump walks off its mark: proven only on a flat, also where it opens a hole.
#[test]
fn a_point_that_starts_on_no_flat_is_never_proven() {
    let of = |on: &str| in_shop(&with(JOB, "starts-on: flat", on));
    for on in ["round", "slope", "rough"] {
        let plan = of(&format!("starts-on: {on}"));
        assert_eq!(verdict(first(&plan), "starts-square"), Verdict::Doubtful, "{on}");
        assert_eq!(first(&plan).verdict, Verdict::Doubtful, "{on}");
    }
    let unsaid = in_shop(&with(JOB, "          starts-on: flat\n", ""));
    assert_eq!(state(first(&unsaid), "starts-square"), Outcome::NotChecked);
    assert_ne!(first(&unsaid).verdict, Verdict::Proven);
    let opened = of("opens: 6 mm\n          starts-on: slope");
    assert_eq!(verdict(first(&opened), "starts-square"), Verdict::Doubtful, "its lips bite on one side");
}

/// A quill is fed by hand, at a rate that is said: no step is named that the machine may not have.
#[test]
fn the_drill_is_fed_by_hand_at_a_rate_that_is_said() {
    let oil = include_str!("../examples/drill-oil-hole.yaml");
    let seat = include_str!("../examples/spot-face.yaml");
    for (job, id) in [(JOB, "drill"), (oil, "drill"), (seat, "cut")] {
        let plan = in_shop(job);
        let set_up = &first(&plan).answer.set_ups[0];
        let words = &set_up.steps.iter().find(|step| step.id == id).expect(id).words;
        assert!(words.contains("hand feed ") && words.contains("mm/rev"), "{words}");
    }
}
