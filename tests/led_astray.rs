//! What a sheet must not lead a hand to: a wrong axis, a face that is out of sight, a limit that a gauge hides, a tool that is wound up in a
//! rag, a place where nothing can be clamped.

use crate::common;

use common::*;
use setover::operations::{SetUp, Step};
use setover::plan::Plan;
use setover::proof::Verdict;

const TURN: &str = include_str!("../examples/turn.yaml");
const BORE: &str = include_str!("../examples/bore.yaml");
const FACE: &str = include_str!("../examples/face.yaml");
const LAP: &str = include_str!("../examples/lap.yaml");
const MILL: &str = include_str!("../examples/mill-face.yaml");
const REAM: &str = include_str!("../examples/ream-bush.yaml");
const OIL: &str = include_str!("../examples/drill-oil-hole.yaml");
const BORED: &str = include_str!("../examples/bore-hole.yaml");
const PRESSED: &str = include_str!("../examples/press-in.yaml");

fn own(job: &str) -> Plan {
    plan(job, Some(&shop(include_str!("../examples/shop.yaml"))))
}

fn steps(set_up: &SetUp<String>) -> Vec<&str> {
    set_up.steps.iter().map(|step| step.id).collect()
}

fn step<'a>(plan: &'a Plan, id: &str) -> &'a Step<String> {
    let all = plan.operations.iter().flat_map(|planned| &planned.answer.set_ups).flat_map(|set_up| &set_up.steps);
    let mut named = all.filter(|step| step.id == id);
    named.next().unwrap_or_else(|| panic!("no step {id}"))
}

/// A cylinder is held true by the axis that it is centred on: trued by the other one it does not come clean.
#[test]
fn a_barrel_bored_about_its_worn_place_is_trued_by_that() {
    for (axis, word, other) in [("worn", "worst place", "unworn"), ("old", "unworn", "worst place")] {
        let plan = own(&with(BORE, "series: inch", &format!("series: inch\n          axis: {axis}")));
        let set_up = &first(&plan).answer.set_ups[0];
        let lines: Vec<String> = set_up.hold.iter().map(|line| line.words.clone()).collect();
        let trued = lines.iter().find(|line| line.contains("Indicator")).expect("how it is trued");
        assert!(trued.contains(word) && !trued.contains(other), "{axis}: {trued}");
    }
}

/// Seated by a shoulder, the part hides the step of the jaws from a rod that goes through its bore.
#[test]
fn no_gauge_goes_through_the_bore_to_a_step_that_only_a_shoulder_touches() {
    let by_its_end = own(FACE);
    assert!(step(&by_its_end, "measure-through-bore").words.contains("through bore"));
    let by_a_shoulder =
        own(&with(&with(FACE, "21.85 ± 0.01", "36.85 ± 0.01"), "overhang: 12 mm", "overhang: 12 mm, behind: 15 mm"));
    let ids = steps(&first(&by_a_shoulder).answer.set_ups[0]);
    assert!(!ids.contains(&"measure-through-bore"), "{ids:?}");
    assert!(ids.contains(&"measure-by-indicator"), "{ids:?}");
}

/// By hand: the squish is 0.95, doubtful by 0.05, and 0.80 at least: 0.10 may go, less what the heights are read to. The more room, the
/// more may go; and the reading has an end on that side alone.
#[test]
fn a_face_is_not_lapped_on_past_what_the_room_over_its_piston_bears() {
    let most = |least: &str| {
        let plan = own(&with(LAP, "least-squish: 0.80", &format!("least-squish: {least}")));
        let barrel = plan.operations.iter().find(|planned| planned.address.part == "barrel").expect("barrel");
        let lapped = barrel.answer.set_ups.iter().flat_map(|set_up| &set_up.steps);
        let hold = lapped.filter(|step| step.id == "heights-between").find_map(|step| step.hold_point.clone());
        let limits = hold.expect("a hold point").limits.numbers();
        assert_eq!(limits.0, None, "less than that spoils nothing");
        limits.1.expect("an end")
    };
    let (tight, wide) = (most("0.80"), most("0.75"));
    assert!(tight <= 0.10, "{tight}");
    assert!(wide >= tight, "{wide} {tight}");
}

/// A pass deeper than any that was judged is not dialled on at once, and paper is no part of the depth.
#[test]
fn what_a_milled_face_is_over_goes_no_deeper_at_once_than_was_judged() {
    let plan = own(MILL);
    let deepest =
        first(&plan).answer.set_ups[0].cuts().flat_map(|cut| &cut.passes).map(|pass| pass.depth).fold(0.0, f64::max);
    let last = &step(&plan, "last-pass").words;
    assert!(last.contains(&format!("over {deepest:.2} mm: two")), "{last}");
    assert!(step(&plan, "touch-unworn").words.contains("nearer by its thickness"));
}

/// The oil hole of a bush that is in is set by a stop from a zero, to the figure that the same hole has as an operation of its own.
#[test]
fn an_oil_hole_of_a_bush_has_its_zero_and_its_stop_and_no_rag() {
    let plan = own(REAM);
    let zero = &step(&plan, "zero-of-the-oil-hole").words;
    assert!(!step(&plan, "plug-the-bore").words.contains("Rag or"));
    let wall = value(first(&plan), "bush_outside") - value(first(&plan), "bore_after_pressing");
    let alone = own(&with(
        &with(OIL, "wall: 2.0 ± 0.05 mm", &format!("wall: {:.3} ± 0.01 mm", wall / 2.0)),
        "at: 12 mm",
        "at: 10 mm",
    ));
    let stop = value(first(&alone), "stop_travel");
    // Down to whole divisions of 0.02, and the bore a little narrower than there.
    let printed = (stop / 0.02 + 1e-6).floor() * 0.02;
    let near = [printed, printed - 0.02].map(|stop| format!("to {stop:.2} mm, no deeper"));
    assert!(near.iter().any(|near| zero.contains(near)), "{zero}: {stop}");
}

/// At the bottom of an oilway no guide is clamped and no flat is cut: neither makes a slope good there.
#[test]
fn down_an_oilway_nothing_is_clamped_and_no_flat_is_cut() {
    for start in ["guide", "flat"] {
        let slant = with(OIL, "angle: 90 deg", &format!("angle: 60 deg\n          start: {start}"));
        let plan = own(&slant);
        assert_eq!(verdict(first(&plan), "starts-true"), Verdict::Doubtful, "{start}");
        let ids = steps(&first(&plan).answer.set_ups[0]);
        assert!(!ids.iter().any(|id| ["lead-in-a-guide", "mill-a-flat", "zero-on-a-slant"].contains(id)), "{ids:?}");
        assert!(ids.contains(&"zero-down-the-oilway"), "{ids:?}");
        let loose = own(&with(&slant, "before: ream", "before: press"));
        assert_eq!(verdict(first(&loose), "starts-true"), Verdict::Proven, "{start}: on the bench");
    }
}

/// A flange on a face is never flush with it; in a recess it may be.
#[test]
fn a_flange_is_flush_only_in_a_recess() {
    let job = with(PRESSED, "stands: flush", "flange: {diameter: 32 mm, thickness: 3 mm}\n          stands: flush");
    assert!(step(&own(&job), "flange-home").words.contains("recess"));
}

/// The last limit that a hand reads is one that its gauge is sure of: never nearer the part's own than the target is.
#[test]
fn the_limit_that_is_never_passed_is_the_one_that_is_read() {
    let plan = own(TURN);
    let never = &step(&plan, "never-under").words;
    // 23.95, and a micrometer good to 0.004.
    assert!(never.contains("23.954"), "{never}");
}

/// A shoulder that stands already is measured to before the tool runs up to it; one that the cut makes is not there yet.
#[test]
fn a_shoulder_that_stands_is_measured_to_first() {
    let stands = with(TURN, "corner: 0.4 mm", "shoulder: 30 mm\n          corner: 0.4 mm");
    let hold = step(&own(&stands), "shoulder-stands").hold_point.clone().expect("a hold point");
    // The stop stands at 22.00 and is good to 0.05; the depth gauge to 0.03.
    assert_eq!(hold.limits.numbers(), (Some(22.05), Some(22.17)));
    assert!(!steps(&first(&own(TURN)).answer.set_ups[0]).contains(&"shoulder-stands"));
}

/// Where nobody says what the dial counts, the sheet does not say it either.
#[test]
fn a_dial_of_which_nothing_is_known_is_not_said_to_count_the_diameter() {
    let shop_text = include_str!("../examples/shop.yaml");
    let line = ", {axis: across, division: 0.02 mm, per-turn: 4 mm, reads: diameter}";
    let plan = plan(TURN, Some(&shop(&with(shop_text, line, ""))));
    let touch = &step(&plan, "touch").words;
    assert!(touch.contains("nobody said what"), "{touch}");
}

/// A link that names no part may be of the case whose joint is still lapped: read before that, it is another float. Bolted elsewhere, or
/// read of another part by its name, it stands.
#[test]
fn a_float_by_links_waits_for_the_lap_of_what_it_may_be_read_in() {
    const LAPPED: &str = "  - part: gear case\nASSEMBLY    material: cast aluminium\n    operations:\n      - lap:\n          grid: {x: 0 60 120 180 mm, y: 0 50 100 mm, reads: [0 6 14 9 um, 11 22 31 17 um, 4 19 24 -3 um]}\n          with: lever indicator\n          flat-within: 0.03 mm\n          face: {long: 190 mm, wide: 110 mm}\n          joint: case\n          bores-across: none\n          out-first: []\n";
    let shim = include_str!("../examples/shim.yaml");
    let of = |assembly: &str, from: &str, to: &str| {
        let job = with(&format!("{shim}\n{LAPPED}"), "ASSEMBLY", assembly);
        let plan = own(&with(&job, from, to));
        let shimmed = plan.operations.into_iter().find(|planned| planned.word == "shim").expect("the shim");
        shimmed.answer.checks.iter().any(|check| check.id == "size-still-there")
    };
    assert!(of("", "case depth", "depth of the casting"));
    assert!(!of(
        "    assembly: pump\n",
        "material: mild steel\n    operations",
        "assembly: gears\n    material: mild steel\n    operations"
    ));
}

/// A face that is milled on the very part that a link names moves the float, whatever the link reads, but for what the cut leaves.
#[test]
fn a_link_of_a_part_that_is_still_cut_proves_no_float() {
    const MILLED: &str = "  - part: gear case\n    material: GG25\n    operations:\n      - mill-face: {width: 36 mm, length: 110 mm, thickness: 90.00 ± 0.05 mm, removed: 0.8 mm, cutter: 50 mm, stick-out: 60 mm, way: conventional, uneven: 0.50 ± 0.05 mm, tram: {reads: 0.02 ± 0.01 mm, over: 200 mm}, flat-within: 0.05 mm, square-within: 0.10 mm, least-thickness: 17 mm, bears: on-solid, hold: {in: clamps, clamped: on-a-ledge, tested: 120 N·m, true-within: 0.03 mm}}\n";
    let shim = include_str!("../examples/shim.yaml");
    let of = |link: &str, closes: &str| {
        let job = with(&format!("{shim}\n{MILLED}"), "case depth", link);
        let job = job.replacen("way: conventional", &format!("way: conventional{closes}"), 1);
        let plan = own(&job);
        let shimmed = plan.operations.into_iter().find(|planned| planned.word == "shim").expect("the shim");
        shimmed.answer.checks.iter().any(|check| check.id == "size-still-there")
    };
    assert!(of("gear case depth", ""), "named");
    assert!(!of("gear case depth", ", set-up: {closes: room-over-piston}"), "said to stand elsewhere");
}

/// By hand: 315.119 is swept and 6.10 allowed, so 61.788 must be left of 62.079: 0.291 over a bore of 67.18 is 0.0821, less the 0.006 of the
/// indicator 0.076.
#[test]
fn a_lap_ends_where_the_compression_does() {
    let plan = own(&with(LAP, "most-compression: 6.2", "most-compression: 6.10"));
    let barrel = plan.operations.iter().find(|planned| planned.address.part == "barrel").expect("barrel");
    let lapped = barrel.answer.set_ups.iter().flat_map(|set_up| &set_up.steps);
    let hold = lapped.filter(|step| step.id == "heights-between").find_map(|step| step.hold_point.clone());
    let most = hold.expect("a hold point").limits.numbers().1.expect("an end");
    assert!((0.070..=0.0762).contains(&most), "{most}");
}

/// Each insert by its own pitch, as its gauge reads it: a quarter of 1.0 and the 0.006 of the indicator, a quarter of 1.75 and the 0.03 of
/// the depth gauge.
#[test]
fn each_insert_has_its_own_least_set_down() {
    let both = "[{thread: M6, set-down: 0.75 ± 0.1 mm}, {thread: M12, set-down: 0.95 ± 0.1 mm}]";
    let plan = own(&with(LAP, "[{thread: M6, set-down: 0.75 ± 0.1 mm}]", both));
    let says = &step(&plan, "measure-the-set-down").words;
    assert!(says.contains("M6 0.256 mm") && says.contains("M12 0.468 mm"), "{says}");
}

/// By hand: 3 aside a bore of 12 lies 6 − √27 = 0.804 further down; 2 + 0.804 and the point of 1.803 are 4.607, and the doubt of wall and stop
/// come on top.
#[test]
fn a_large_oil_hole_comes_out_with_its_corners() {
    let of = |drill: &str, bore: &str| {
        let job = with(
            &with(OIL, "diameter: 3 mm", &format!("diameter: {drill}")),
            "beyond: 16.0",
            &format!("beyond: {bore}"),
        );
        let job = with(&job, "oilway: {diameter: 5.0", "oilway: {diameter: 9.0");
        value(first(&own(&job)), "stop_travel")
    };
    assert!(of("6 mm", "12.0") >= 2.804 + 1.803 + 0.25, "{}", of("6 mm", "12.0"));
    assert!(of("6 mm", "12.0") > of("6 mm", "40.0") + 0.5, "a wide bore is nearly flat");
}

/// What stands out, the grip and a smaller end behind are together no longer than the part.
#[test]
fn a_part_is_no_shorter_than_what_is_said_of_its_hold() {
    let job = with(FACE, "overhang: 12 mm", "overhang: 12 mm, behind: 12 mm");
    assert_eq!(verdict(first(&own(&job)), "seats-on-step"), Verdict::Doubtful);
}

/// A bush that lies on the bench has no oilway about it: none is cleared, no rod stands in it, no plug goes back.
#[test]
fn a_bush_on_the_bench_has_no_oilway_to_clear() {
    let plan = own(&with(OIL, "before: ream", "before: press"));
    let ids = steps(&first(&plan).answer.set_ups[0]);
    assert!(!ids.iter().any(|id| id.contains("oilway") || *id == "line-up"), "{ids:?}");
    assert!(ids.contains(&"burr-off"), "{ids:?}");
}

/// Nothing comes out of a shut hole, so its support need not be wide; a bush that is longer than the hole meets its floor.
#[test]
fn a_bush_in_a_shut_hole_asks_no_way_through_its_support() {
    let pressed = |length: &str| {
        let shut = with(PRESSED, "length: 20 mm, finish", "length: 20 mm, through: false, finish");
        let job = with(
            &shut,
            "bore: 18.000 ± 0.004 mm, length: 20 mm",
            &format!("bore: 18.000 ± 0.004 mm, length: {length}"),
        );
        own(&with(&job, "inside: 30 mm", "inside: 12 mm"))
    };
    let judged = |plan: &Plan, id: &str| {
        let of_it = first(plan).answer.checks.iter().find(|check| check.id == id);
        of_it.expect("the check").verdict()
    };
    let flush = pressed("20 mm");
    assert_eq!((judged(&flush, "support-clears"), judged(&flush, "room-beneath")), (None, Some(Verdict::Proven)));
    assert_eq!(judged(&pressed("21 mm"), "room-beneath"), Some(Verdict::Fails));
}

/// Cuts that are dialled before anybody measures take what they take: of a diameter that was read coarsely too much may be gone by then.
#[test]
fn cuts_before_the_measuring_leave_metal_to_measure_on() {
    let judged = |doubt: &str, id: &str| {
        let plan = own(&with(BORED, "24.2 ± 0.05 mm", doubt));
        let checks = &first(&plan).answer.checks;
        (checks.iter().find(|check| check.id == id).expect("the check").verdict(), plan)
    };
    assert_eq!(judged("24.2 ± 0.05 mm", "metal-when-measured").0, Some(Verdict::Proven));
    let (coarse, plan) = judged("24.2 ± 0.50 mm", "metal-when-measured");
    assert!(coarse > Some(Verdict::Proven), "0.5 of doubt, 0.4 left on the diameter: {coarse:?}");
    assert!(first(&plan).verdict > Verdict::Proven);
    // What comes out deeper than it was judged goes in two cuts.
    assert!(steps(&first(&plan).answer.set_ups[0]).contains(&"over-so-deep-two"));
    assert!(!steps(&first(&own(BORED)).answer.set_ups[0]).contains(&"over-so-deep-two"));
}

/// A groove beside the place that was measured comes not clean: how far it may go stands where the diameter is read again.
#[test]
fn the_most_worn_place_that_comes_clean_is_told() {
    let plan = own(TURN);
    let says = &step(&plan, "measure-again").words;
    assert!(says.contains("nowhere under 24."), "{says}");
}

/// A last cut that goes to a length takes as much more or less as that length is off: it is no surer than the clean-up.
#[test]
fn a_cut_to_a_length_asks_how_sure_the_length_is() {
    let judged = |doubt: &str| {
        let plan = own(&with(FACE, "length: 21.85 ± 0.01 mm", &format!("length: 21.85 {doubt} mm")));
        let checks = &first(&plan).answer.checks;
        (checks.iter().find(|check| check.id == "length-sure").expect("the check").verdict(), first(&plan).verdict)
    };
    assert_eq!(judged("± 0.01"), (Some(Verdict::Proven), Verdict::Proven));
    assert_eq!(judged("± 0.20"), (Some(Verdict::Doubtful), Verdict::Doubtful));
}

/// A face milled to a thickness comes clean no more surely than the thickness was read.
#[test]
fn a_face_milled_to_a_thickness_counts_its_doubt() {
    let clean = |doubt: &str| {
        let plan = own(&with(MILL, "18.00 ± 0.05 mm", doubt));
        first(&plan).answer.checks.iter().find(|check| check.id == "cleans-up").expect("the check").verdict()
    };
    assert_eq!(clean("18.00 ± 0.05 mm"), Some(Verdict::Proven));
    assert_eq!(clean("18.00 ± 0.50 mm"), Some(Verdict::Doubtful));
}

/// Pores that an edge smears shut give no oil: such a bore is made anew, never bored.
#[test]
fn a_sintered_bush_is_not_bored() {
    let never = |job: &str| {
        let plan = own(job);
        first(&plan).answer.checks.iter().find(|check| check.id == "never-cut").expect("the check").verdict()
    };
    assert_eq!(never(&with(BORED, "GG25", "sintered bronze")), Some(Verdict::Fails));
    assert_eq!(
        never(&with(TURN, "material: mild steel", "material: sintered bronze")),
        None,
        "it sits there, and runs not"
    );
    assert_eq!(never(TURN), None);
}

/// What the file lists the wrong way round is in doubt on the sheet that would be worked first, too.
#[test]
fn both_that_stand_the_wrong_way_round_are_in_doubt() {
    let (head, bored) = BORE.split_once("      - bore:").expect("it");
    let (_, milled) = MILL.split_once("      - mill-face:").expect("it");
    let (bore, mill) = (format!("      - bore:{bored}"), format!("      - mill-face:{milled}"));
    let of = |first: &str, then: &str| {
        let plan = own(&format!("{head}{first}{then}"));
        plan.operations
            .iter()
            .map(|planned| {
                planned.answer.checks.iter().any(|check| check.id == "order-of-operations" && check.verdict().is_some())
            })
            .collect::<Vec<_>>()
    };
    assert_eq!(of(&bore, &mill), [true, true], "it was set from a face that is milled later");
    assert_eq!(of(&mill, &bore), [false, false]);
}

/// However near a float lies to its plan, outside what is wanted it does not stay.
#[test]
fn the_hold_point_of_a_shim_ends_where_the_float_is_wanted() {
    const JOB: &str = "job: s\nparts:\n  - part: layshaft\n    material: mild steel\n    operations:\n      - shim: {float: 0.09 .. 0.11 mm, float-found: {size: 0.85 ± 0.02 mm, with-pack: 0 mm}}\n";
    let plan = own(JOB);
    let hold = step(&plan, "measure-again").hold_point.as_ref().expect("a hold point");
    let (least, most) = hold.limits.numbers();
    assert!(least >= Some(0.09) && most <= Some(0.11) && most.is_some(), "{least:?} {most:?}");
}

/// A bar in a collet that stands far out of a short grip tilts: that it does not turn proves no more than that.
#[test]
fn a_long_bar_in_a_short_collet_is_in_doubt() {
    let gripped = |held: &str, grip: &str| {
        let hold = format!(
            "hold: {{in: {held}, diameter: 24.6 mm, grip: {grip} mm, overhang: 30 mm, true-within: 0.05 mm, tested: 60 N·m}}"
        );
        let start = TURN.find("hold:").expect("it");
        let end = start + TURN[start..].find('}').expect("it") + 1;
        let plan = own(&TURN.replace(&TURN[start..end], &hold));
        first(&plan).answer.checks.iter().find(|check| check.id == "grip-length").expect("the check").verdict()
    };
    assert_eq!(gripped("collet", "12"), Some(Verdict::Proven));
    assert_eq!(gripped("collet", "8"), Some(Verdict::Doubtful));
}

/// A trial cut is as much shorter as the diameter may lie from its middle: what another set-up leaves has a band of its own.
#[test]
fn a_trial_cut_stays_above_the_limit_for_all_that_was_left() {
    let rough = TURN.split_once("      - turn:\n").expect("it").1;
    let rough = with(rough, "present: 24.60 ± 0.02 mm", "present: 27.60 ± 0.02 mm");
    let rough = with(&rough, "outside: 23.95 .. 24.00 mm", "outside: 24.4 .. 25.2 mm");
    let rough = with(&rough, "hold:", "set-up: {name: roughing}\n          hold:");
    let fine = TURN.split_once("      - turn:\n").expect("it");
    let fine_of = with(fine.1, "present: 24.60 ± 0.02 mm", "present: {of: pump drive shaft/roughing/diameter_after}");
    let plan = own(&format!("{}      - turn:\n{rough}      - turn:\n{fine_of}", fine.0));
    let finishing = plan.operations.last().expect("two");
    let set_up = &finishing.answer.set_ups[0];
    let trial = set_up.steps.iter().find(|step| step.id == "trial-cut").expect("one cut only");
    let deep = trial.cut.as_ref().expect("a cut").passes[0].depth;
    assert!(24.4 - 0.03 - 2.0 * deep >= 23.95, "the thinnest that roughing leaves, less a trial of {deep}");
}

/// A hold point turns away the wall through which the pilot would come out further than its packing takes.
#[test]
fn a_seat_is_not_begun_where_its_pilot_comes_through() {
    const SEAT: &str = include_str!("../examples/spot-face.yaml");
    let plan = own(SEAT);
    let hold = step(&plan, "measure-wall").hold_point.as_ref().expect("a hold point");
    // Pilot 12 and seat 2, less 0.3 that packing takes.
    assert!(hold.limits.numbers().0 >= Some(13.7), "{:?}", hold.limits.numbers());
}

/// Of two bushes of one casting each is pressed and reamed: whoever goes by the sheets reams neither before both are in.
#[test]
fn the_first_of_two_bushes_waits_for_the_press_of_the_second() {
    let (head, reamed) = REAM.split_once("      - ream-bush:\n").expect("it");
    let named = |feature: &str| {
        format!("      - ream-bush:\n{reamed}          set-up: {{feature: {feature}, name: {feature}}}\n")
    };
    let plan = own(&format!("{head}{}{}", named("upper"), named("lower")));
    let waits = |at: usize| {
        let set_ups = &plan.operations[at].answer.set_ups;
        let with_it = set_ups.iter().find(|set_up| steps(set_up).contains(&"bring-the-other-as-far"))?;
        Some((with_it.id, with_it.steps[0].words.clone()))
    };
    let (id, says) = waits(0).expect("the first waits");
    assert!(id.contains("ream") && says.contains("/lower as far"), "{id}: {says}");
    assert_eq!(waits(1), None, "the second comes behind the press of the first");
}
