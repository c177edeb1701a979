//! A thread cut by hand: its hole inside the limits, room under the tap, a tap that does not break off in the casting.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{agrees, first, in_shop, shop, state, try_plan, value, verdict, with};
use setover::proof::{Outcome, Verdict};

const JOB: &str = include_str!("../examples/tap.yaml");

#[test]
fn the_example_holds_and_its_figures_are_those_of_the_book() {
    let plan = in_shop(JOB);
    for check in ["hole-not-small", "hole-not-wide", "room-under-the-tap", "tap-stands-it", "tap-hard-enough"] {
        assert_eq!(verdict(first(&plan), check), Verdict::Proven, "{check}");
    }
    // ISO 965 for M8 in 6H: 6.647 to 6.912; drill 6.8; of the basic height 1.299 × 1.25 it leaves 1.2 / 1.6238.
    agrees("6.647", value(first(&plan), "minor_min"));
    agrees("6.912", value(first(&plan), "minor_max"));
    agrees("6.8", value(first(&plan), "tap_drill"));
    agrees("73.9", value(first(&plan), "percent_of_thread"));
    // 8 - 1.299 × 1.25 × 0.7
    agrees("6.863", value(first(&plan), "drill_for_usual_percent"));
    // 16 of thread, 4 threads of lead of 1.25, 4 of male centre (ASME B18.29.2M notes: 0.5 D up to 8 mm); 27 deep.
    let (end, left) = (value(first(&plan), "tap_end"), value(first(&plan), "bottom_left"));
    assert!((value(first(&plan), "tap_depth") - 21.0).abs() < 1e-9 && (end - 25.0).abs() < 1e-9, "{end}");
    assert!((end + left - 27.0).abs() < 1e-9, "{end} {left}");
    let said = first(&plan).answer.set_ups.iter().flat_map(|set_up| &set_up.steps);
    assert!(said.clone().any(|step| step.words.contains("25.00 mm from its end")), "the point is its end");
    // A core of 3.6 mm at 1600 MPa: pi × 1600 × 46.656 / 16 000.
    agrees("14.66", value(first(&plan), "tap_breaks_at"));
}

/// Printed limits of class 2B: 3/8-16 UNC 0.307 to 0.321, No. 10-32 UNF 0.156 to 0.164; of a Whitworth nut none were read.
#[test]
fn the_limits_of_unified_nuts_are_those_of_the_list() {
    let hole = |thread: &str, size: &str| {
        let job = with(&with(JOB, "thread: M8", &format!("thread: {thread}")), "6.80 ± 0.03 mm", size);
        let plan = in_shop(&job);
        (verdict(first(&plan), "hole-not-small"), verdict(first(&plan), "hole-not-wide"))
    };
    use Verdict::{Doubtful, Fails, Proven};
    let coarse = |size: &str| hole("3/8-16 UNC", size);
    assert_eq!(coarse("0.3125 ± 0.001 in"), (Proven, Proven));
    assert_eq!(coarse("0.3080 ± 0.001 in"), (Proven, Proven));
    assert_eq!(coarse("0.3060 ± 0.001 in"), (Fails, Proven));
    assert_eq!(coarse("0.3220 ± 0.001 in"), (Proven, Fails));
    assert_eq!(hole("No. 10-32 UNF", "0.159 ± 0.001 in"), (Proven, Proven));
    assert_eq!(hole("No. 10-32 UNF", "0.165 ± 0.0005 in").1, Fails);
    // Basic minor diameter 0.295; half of a full thread, 1.2807 / 16 deep on the diameter, at 0.335.
    let whitworth = |size: &str| hole("3/8 BSW", size);
    assert_eq!(whitworth("0.3125 ± 0.001 in"), (Doubtful, Doubtful));
    assert_eq!(whitworth("0.2900 ± 0.001 in").0, Fails);
    assert_eq!([whitworth("0.3370 ± 0.001 in").1, whitworth("0.374 ± 0.001 in").1], [Fails; 2]);
}

/// What the hole may measure lies between a full thread and half of one, and the drill of the table inside that, also where no limits were
/// read: never a hole as wide as the tap.
#[test]
fn the_hole_to_be_measured_is_one_that_a_thread_fits_in() {
    for (thread, drill, within) in
        [("3/8 BSW", 7.94, (7.49, 8.52)), ("1/4 BSF", 5.3, (5.09, 5.73)), ("1/4-26 BSC", 5.55, (5.30, 5.83))]
    {
        let job = with(
            &with(JOB, "thread: M8", &format!("thread: {thread}")),
            "6.80 ± 0.03 mm",
            &format!("{drill} ± 0.03 mm"),
        );
        let plan = in_shop(&job);
        let hold = first(&plan).answer.set_ups[0].steps.iter().find_map(|step| step.hold_point.as_ref()).expect(thread);
        let (Some(least), Some(most)) = hold.limits.numbers() else { panic!("{thread}") };
        assert!(within.0 <= least && least < drill && drill < most && most <= within.1, "{thread}: {least} {most}");
    }
}

/// Too small breaks the tap, too wide leaves no thread; a blunter reading proves nothing.
#[test]
fn a_hole_outside_the_limits_fails() {
    let hole = |size: &str| in_shop(&with(JOB, "6.80 ± 0.03", size));
    assert_eq!(verdict(first(&hole("6.60 ± 0.03")), "hole-not-small"), Verdict::Fails);
    assert_eq!(verdict(first(&hole("6.66 ± 0.03")), "hole-not-small"), Verdict::Doubtful);
    assert_eq!(verdict(first(&hole("6.95 ± 0.03")), "hole-not-wide"), Verdict::Fails);
    assert_eq!(verdict(first(&hole("6.90 ± 0.03")), "hole-not-wide"), Verdict::Doubtful);
    assert_eq!(verdict(first(&hole("6.80 ± 0.20")), "hole-not-wide"), Verdict::Doubtful);
    assert!(try_plan(&with(JOB, "6.80 ± 0.03", "8.00 ± 0.03"), None).is_err(), "no metal to cut it in");
}

/// A tap that meets the bottom breaks; a blind hole whose depth nobody measured is never proven.
#[test]
fn a_tap_never_meets_the_bottom_unasked() {
    let room = |depth: &str| verdict(first(&in_shop(&with(JOB, "27.0 ± 0.3", depth))), "room-under-the-tap");
    let (deep, end) = (value(first(&in_shop(JOB)), "tap_depth"), value(first(&in_shop(JOB)), "tap_end"));
    assert_eq!(room(&format!("{:.2} ± 0.3", end + 1.25 + 0.35)), Verdict::Proven);
    assert_eq!(room(&format!("{:.2} ± 0.3", end + 1.25 + 0.2)), Verdict::Doubtful);
    assert_eq!(room(&format!("{:.2} ± 0.3", deep + 1.25 + 0.35)), Verdict::Doubtful, "its male centre meets the floor");
    assert_eq!(room(&format!("{:.2} ± 0.3", deep + 1.0)), Verdict::Fails);
    let ground = |centre: &str| {
        let text =
            format!("shop: Quay\nunits: metric\npaper: A4\ntools:\n  - tap: {{thread: M8, lead: plug{centre}}}\n");
        let job = with(JOB, "27.0 ± 0.3", &format!("{:.2} ± 0.3", deep + 1.25 + 0.35));
        verdict(first(&try_plan(&job, Some(&shop(&text))).unwrap()), "room-under-the-tap")
    };
    assert_eq!(ground(", male-centre: false"), Verdict::Proven);
    assert_eq!(ground(""), Verdict::Doubtful, "a plug tap of that size has one");
    let unread = in_shop(&with(JOB, "          hole-depth: 27.0 ± 0.3 mm\n", ""));
    assert_eq!(state(first(&unread), "room-under-the-tap"), Outcome::NotChecked);
    assert_eq!(first(&unread).verdict, Verdict::Doubtful);
    let through = in_shop(&with(JOB, "hole-depth: 27.0 ± 0.3 mm", "through: true"));
    assert_eq!(state(first(&through), "room-under-the-tap"), Outcome::DoesNotApply);
    let longer = verdict(first(&in_shop(&with(JOB, "depth: 16 mm\n", "depth: 24 mm\n"))), "room-under-the-tap");
    assert_eq!(longer, Verdict::Fails, "eight millimetres more of thread");
}

/// A smaller hole, a worn tap, a tougher metal ask more torque; a small tap stands little.
#[test]
fn torque_rises_the_bad_way_and_a_small_worn_tap_is_not_proven() {
    let torque = |job: &str| value(first(&in_shop(job)), "tap_torque");
    let sharp = torque(JOB);
    assert!(torque(&with(JOB, "6.80 ± 0.03", "6.70 ± 0.03")) > sharp);
    let worn = torque(&with(JOB, "worn: false", "worn: true"));
    assert!((worn / sharp - 1.5).abs() < 1e-9);
    assert!((torque(&with(JOB, "          worn: false\n", "")) - worn).abs() < 1e-12, "nobody said sharp: worn");
    assert!(torque(&with(JOB, "cast aluminium", "mild steel")) > sharp);
    let small = with(&with(JOB, "thread: M8", "thread: M2"), "6.80 ± 0.03", "1.45 ± 0.01");
    let small = with(&with(&small, "cast aluminium", "EN8"), "worn: false", "worn: true");
    let small = with(&with(&small, "depth: 16 mm\n", "depth: 4 mm\n"), "27.0 ± 0.3", "12.0 ± 0.3");
    assert_ne!(verdict(first(&in_shop(&small)), "tap-stands-it"), Verdict::Proven);
}

#[test]
fn a_hard_part_a_lining_and_an_empty_drawer_are_found() {
    let hard = with(JOB, "    material: cast aluminium\n", "    material: mild steel\n    hardness: 60 HRC\n");
    assert_eq!(verdict(first(&in_shop(&hard)), "tap-hard-enough"), Verdict::Fails);
    assert_eq!(first(&in_shop(&with(JOB, "cast aluminium", "friction lining"))).verdict, Verdict::Fails);
    let plan = in_shop(JOB);
    assert_eq!(
        verdict(first(&plan), "tap-in-drawer"),
        Verdict::Doubtful,
        "the shop of the examples has insert taps only"
    );
    assert!(first(&plan).answer.missing.iter().any(|line| line.contains("M8")));
}

/// The hole that `drill` leaves is what the tap finds: one address, one state, and the doubt of what was drilled.
#[test]
fn a_tap_follows_its_drill() {
    let job = "job: Both\nparts:\n  - part: cover\n    material: cast aluminium\n    operations:\n      - drill: {starts-on: flat, diameter: 6.8 mm, depth: 27 mm, wall: 42 ± 0.3 mm, hold: {in: vice}}\n      - tap: {thread: M8, hole: {of: cover/drill/drill-diameter}, hole-depth: {of: cover/drill/drilled-depth}, depth: 16 mm, worn: false}\n";
    let plan = in_shop(job);
    let tap = plan.operations.last().unwrap();
    let needs: Vec<String> = tap.answer.set_ups[0].needs.iter().map(ToString::to_string).collect();
    assert_eq!(needs, ["cover/drill:drilled"]);
    assert_eq!(verdict(tap, "room-under-the-tap"), Verdict::Proven);
}

/// A support under a press holds nothing that a tap turns; a hold that nobody named or tried proves nothing.
#[test]
fn a_tap_turns_what_is_not_held() {
    let held = |hold: &str| in_shop(&with(JOB, "{in: vice, tested: 30 N·m, grip: 12 mm, overhang: 6 mm}", hold));
    let support = held("{in: press-support, tested: 30 N·m}");
    assert_eq!(verdict(first(&support), "held"), Verdict::Fails);
    assert_eq!(first(&support).verdict, Verdict::Fails);
    let unsaid = in_shop(&with(JOB, "          hold: {in: vice, tested: 30 N·m, grip: 12 mm, overhang: 6 mm}", ""));
    assert_eq!(state(first(&unsaid), "held"), Outcome::NotChecked);
    assert_ne!(verdict(first(&held("{in: vice}")), "grip-looked-at"), Verdict::Proven);
    assert_eq!(verdict(first(&held("{in: vice, tested: 1 N·m, grip: 12 mm, overhang: 6 mm}")), "grip"), Verdict::Fails);
    let jaws = held("{in: jaws, diameter: 30 mm, grip: 0.5 mm, overhang: 10 mm, stop: step, tested: 30 N·m}");
    assert_eq!(verdict(first(&jaws), "grip-length"), Verdict::Fails);
}

/// A hand tap goes so deep as its thread is long; what goes deeper is measured first.
#[test]
fn a_tap_that_may_not_reach_is_never_proven() {
    let deep = |depth: &str, hole: &str| {
        with(
            &with(JOB, "depth: 16 mm", &format!("depth: {depth}")),
            "hole-depth: 27.0 ± 0.3 mm",
            &format!("hole-depth: {hole}"),
        )
    };
    assert_eq!(verdict(first(&in_shop(JOB)), "tap-reaches"), Verdict::Proven, "21 of 22");
    let far = deep("60 mm", "80 ± 0.3 mm");
    assert_eq!(verdict(first(&in_shop(&far)), "tap-reaches"), Verdict::Doubtful);
    assert_eq!(first(&in_shop(&far)).verdict, Verdict::Doubtful);
    let measured = |reach: &str| {
        let text = format!(
            "shop: Quay\nunits: metric\npaper: A4\ntools:\n  - tap: {{thread: M8, lead: plug, reach: {reach}}}\n"
        );
        crate::common::plan(&far, Some(&crate::common::shop(&text)))
    };
    assert_eq!(verdict(first(&measured("70 mm")), "tap-reaches"), Verdict::Proven);
    assert_eq!(verdict(first(&measured("50 mm")), "tap-reaches"), Verdict::Fails);
}

/// A quarter of a turn is no thread.
#[test]
fn a_thread_is_no_shallower_than_its_pitch() {
    assert!(try_plan(&with(JOB, "depth: 16 mm", "depth: 0.3 mm"), None).is_err());
    assert!(try_plan(&with(JOB, "depth: 16 mm", "depth: 1.3 mm"), None).is_ok());
}

/// A boss of 10 mm round an M8 is a skin; and who says nothing of the edge has it not proven.
#[test]
fn a_thread_has_metal_beside_it() {
    let of = |edge: &str| in_shop(&with(JOB, "          edge: 14 ± 0.3 mm\n", edge));
    let edge = |size: &str| verdict(first(&of(&format!("          edge: {size} mm\n"))), "edge-wall");
    // 3/8 of 8 mm beside it is 7 from the middle; a fifth of it 5.6.
    assert_eq!(
        [edge("7.2 ± 0.1"), edge("7.0 ± 0.2"), edge("6.0 ± 0.1")],
        [Verdict::Proven, Verdict::Doubtful, Verdict::Doubtful]
    );
    assert_eq!(edge("5.0 ± 0.1"), Verdict::Fails, "a boss of 10 mm");
    assert_eq!((state(first(&of("")), "edge-wall"), first(&of("")).verdict), (Outcome::NotChecked, Verdict::Doubtful));
}

/// The end of a tap that goes through comes out by lead and male centre: 4 × 1.25 + 4 = 9 mm.
#[test]
fn what_lies_behind_a_thread_that_goes_through_is_asked() {
    let through = with(JOB, "hole-depth: 27.0 ± 0.3 mm", "through: true\n          wall: 18.0 ± 0.3 mm");
    let of =
        |beyond: &str| in_shop(&with(&through, "          lead: plug\n", &format!("          lead: plug\n{beyond}")));
    let gap = |size: &str| verdict(first(&of(&format!("          beyond: {size} mm\n"))), "what-is-behind");
    assert!((value(first(&of("")), "end_behind") - 9.0).abs() < 1e-9);
    assert_eq!(
        (gap("15.0 ± 0.3"), gap("9.0 ± 0.3"), gap("8.0 ± 0.3")),
        (Verdict::Proven, Verdict::Fails, Verdict::Fails)
    );
    assert_eq!(state(first(&of("")), "what-is-behind"), Outcome::NotChecked);
    assert_eq!(first(&of("")).verdict, Verdict::Doubtful);
    let clear = of("          beyond: clear\n");
    assert_eq!(state(first(&clear), "what-is-behind"), Outcome::DoesNotApply);
    assert_eq!(first(&clear).verdict, first(&in_shop(JOB)).verdict);
    let blind = with(JOB, "          lead: plug\n", "          lead: plug\n          beyond: clear\n");
    assert!(try_plan(&blind, None).is_err(), "nothing comes out of a blind hole");
}

/// A thread is no longer than the metal that it stands in: behind the wall there is none.
#[test]
fn a_thread_is_no_deeper_than_its_wall() {
    let wall = |wall: &str| in_shop(&with(JOB, "hole-depth: 27.0 ± 0.3 mm", &format!("through: true{wall}")));
    let judged = |size: &str| {
        let of = format!("\n          wall: {size} mm\n          beyond: clear");
        verdict(first(&wall(&of)), "thread-in-metal")
    };
    assert_eq!(
        [judged("16.5 ± 0.3"), judged("16 ± 0.3"), judged("8.0 ± 0.2")],
        [Verdict::Proven, Verdict::Proven, Verdict::Fails]
    );
    assert_eq!(state(first(&wall("")), "thread-in-metal"), Outcome::NotChecked);
    assert_ne!(first(&wall("\n          beyond: clear")).verdict, Verdict::Proven);
    assert!(try_plan(&with(JOB, "depth: 16 mm", "depth: 16 mm\n          wall: 20 ± 0.3 mm"), None).is_err(), "blind");
}
