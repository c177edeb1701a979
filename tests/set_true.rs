//! Truing: which jaw moves, and whether such readings can see what they must.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{doubt, first, in_shop, plan, state, value, verdict, with};
use approx::assert_abs_diff_eq;
use setover::proof::{Outcome, Verdict};

const EXAMPLE: &str = include_str!("../examples/set-true.yaml");

/// A shaft in four jaws, read at each of them.
const FOUR: &str = "job: Shaft\nparts:\n  - part: pump shaft\n    material: mild steel\n    operations:\n      - set-true:\n          \
                    hold: {in: four-jaw}\n          with: lever indicator\n          jaw-readings: 0 -0.045 -0.130 -0.075 \
                    mm\n          true-within: 0.02 mm\n          face-readings: 0.020 0.005 -0.024 -0.011 mm\n          \
                    face-diameter: 90 mm\n          face-outside: 120 mm\n          square-within: 0.01 mm\n";

/// Eight readings with three lobes.
const EIGHT: &str = "job: Shaft\nparts:\n  - part: pump shaft\n    material: mild steel\n    operations:\n      - set-true:\n          \
                     hold: {in: four-jaw}\n          with: lever indicator\n          readings: {at: 0 45 90 135 180 225 270 315 \
                     deg, reads: -28 -37 -21 29 28 37 21 -29 um}\n          true-within: 0.03 mm\n";

const THREE_JAW: &str = "job: Shaft\nparts:\n  - part: pump shaft\n    material: mild steel\n    operations:\n      - set-true:\n          \
                         hold: {in: three-jaw}\n          with: lever indicator\n          found: {eccentricity: 0.050 ± 0.003 \
                         mm, towards: 40 deg}\n          true-within: 0.02 mm\n";

#[test]
fn the_example_is_proven() {
    assert_eq!(first(&in_shop(EXAMPLE)).verdict, Verdict::Proven);
}

#[test]
fn four_readings_move_the_jaws() {
    let it = in_shop(FOUR);
    let it = first(&it);
    for (key, wanted) in
        [("eccentricity", 0.06671_f64), ("towards", 12.99), ("tir_off_centre", 0.1334), ("tir_as_read", 0.130)]
    {
        assert_abs_diff_eq!(value(it, key), wanted, epsilon = 0.0005 * wanted.max(0.02));
    }
    assert_abs_diff_eq!(value(it, "move_first"), 0.065, epsilon = 1e-9);
    assert_abs_diff_eq!(value(it, "move_second"), 0.015, epsilon = 1e-9);
    assert_abs_diff_eq!(value(it, "tilt_tir"), 0.04682, epsilon = 1e-5);
    assert_abs_diff_eq!(value(it, "tilt_at_rim"), 0.06243, epsilon = 1e-5);
    assert_abs_diff_eq!(value(it, "tilt_towards"), 19.98, epsilon = 0.01);
    assert_abs_diff_eq!(doubt(it, "tir_off_centre"), 0.00283, epsilon = 1e-5);
    let steps = |it: &setover::plan::Planned| {
        it.answer.set_ups[0].steps.iter().map(|s| s.words.clone()).collect::<Vec<_>>().join("\n")
    };
    assert!(
        steps(it).contains("Loosen jaw 3, then tighten jaw 1")
            && steps(it).contains("Loosen jaw 4, then tighten jaw 2")
    );
    // Four readings take three lobes for a centre that is off.
    assert_eq!(verdict(it, "lobes-seen"), Verdict::Doubtful);
    assert_eq!(verdict(it, "true-enough"), Verdict::Proven);
    assert_eq!(verdict(it, "can-be-measured"), Verdict::Proven);
    // An indicator of which nobody knows how well it repeats is worth its whole doubt.
    let shop = crate::common::shop(&with(crate::common::SHOP, ", repeat: 2 um", ""));
    let whole = plan(FOUR, Some(&shop));
    assert_abs_diff_eq!(doubt(first(&whole), "tir_off_centre"), 0.0085, epsilon = 5e-5);
    assert_eq!(verdict(first(&whole), "can-be-measured"), Verdict::Doubtful);
    // The indicator in the bore, or a plunger that counts down, turns the way about; both together do not.
    let inside = with(FOUR, "          with:", "          indicator: inside\n          with:");
    assert!(steps(first(&in_shop(&inside))).contains("Loosen jaw 1, then tighten jaw 3"));
    assert_abs_diff_eq!(value(first(&in_shop(&inside)), "towards"), 192.99, epsilon = 0.01);
    let both = with(&inside, "          with:", "          jaws: inside\n          with:");
    assert!(steps(first(&in_shop(&both))).contains("Loosen jaw 3, then tighten jaw 1"));
}

#[test]
fn eight_readings_see_three_lobes() {
    let it = in_shop(EIGHT);
    let it = first(&it);
    for (key, wanted) in [("eccentricity", 0.03964), ("left_over_3", 0.01208), ("form", 0.02405)] {
        assert_abs_diff_eq!(value(it, key), wanted, epsilon = 5e-6);
    }
    assert_abs_diff_eq!(value(it, "towards"), 199.65, epsilon = 0.005);
    assert_abs_diff_eq!(doubt(it, "form"), 0.002 * 2.0_f64.sqrt(), epsilon = 1e-6);
    assert_eq!(verdict(it, "form-enough"), Verdict::Proven);
    assert_eq!(verdict(it, "lobes-seen"), Verdict::Proven);
    let round = with(EIGHT, "true-within: 0.03 mm", "true-within: 0.02 mm");
    assert_eq!(verdict(first(&in_shop(&round)), "form-enough"), Verdict::Fails, "no jaw mends what is not round");
}

/// All angles turned by so much: the centre is as far off, and its way turns with them.
#[test]
fn the_way_turns_with_the_angles() {
    let of = |by: i32| {
        let at = (0..8).map(|k| (45 * k + by).to_string()).collect::<Vec<_>>().join(" ");
        let job = with(EIGHT, "at: 0 45 90 135 180 225 270 315 deg", &format!("at: {at} deg"));
        let plan = in_shop(&job);
        (value(first(&plan), "eccentricity"), value(first(&plan), "towards"))
    };
    let (e, towards) = of(0);
    for by in [5, 20, 40] {
        let (other, turned) = of(by);
        assert_abs_diff_eq!(e, other, epsilon = 1e-12);
        assert_abs_diff_eq!(turned, towards + f64::from(by), epsilon = 1e-9);
    }
}

#[test]
fn three_jaws_take_shims_and_nobody_saw_the_form() {
    let it = in_shop(THREE_JAW);
    let it = first(&it);
    assert_abs_diff_eq!(value(it, "shim_first"), 0.0853, epsilon = 5e-5);
    assert_abs_diff_eq!(value(it, "shim_second"), 0.0557, epsilon = 5e-5);
    assert_eq!(state(it, "form-enough"), Outcome::NotChecked);
    assert_eq!(it.verdict, Verdict::Doubtful);
    // A second plane is read at the jaws too.
    let second = with(
        FOUR,
        "          with:",
        "          second: {jaw-readings: 0 -0.010 -0.020 -0.010 mm, apart: 100 mm}\n          with:",
    );
    let second = in_shop(&second);
    assert_abs_diff_eq!(value(first(&second), "lean"), 0.055_f64.hypot(0.015), epsilon = 1e-9);
    assert_eq!(verdict(first(&second), "second-plane-true"), Verdict::Proven);
}

/// What is foretold is what the sheet sets: the shims of the drawer where they do, else those that are asked for. How far they move it
/// nobody has tried, so that the figure alone proves nothing, and the remedy is to read again and no finer indicator.
#[test]
fn three_jaws_foretell_what_their_sheet_sets() {
    let steps = |it: &setover::plan::Planned| {
        it.answer.set_ups[0].steps.iter().map(|step| step.words.clone()).collect::<Vec<_>>().join(" ")
    };
    let drawer =
        "shims: [{thickness: 0.10 mm, count: 4}, {thickness: 0.27 mm, count: 1}, {thickness: 0.50 mm, count: 2}]";
    let near = "shims: [{thickness: 0.085 mm, count: 1}, {thickness: 0.055 mm, count: 1}]";
    for (shims, set, left, in_drawer) in [
        (near, "0.085 mm in under jaw 1 and 0.055 mm", 0.0008, Verdict::Proven),
        (drawer, "0.085 mm in under jaw 1 and 0.056 mm", 0.0, Verdict::Doubtful),
    ] {
        let owned = crate::common::shop(&with(crate::common::SHOP, drawer, shims));
        let plan = plan(THREE_JAW, Some(&owned));
        let it = first(&plan);
        assert!(steps(it).contains(set), "{}", steps(it));
        assert_abs_diff_eq!(value(it, "tir_after"), left, epsilon = 2e-4);
        let check = it.answer.checks.iter().find(|check| check.id == "true-enough").expect("judged");
        assert!(check.judged.expect("figures").margin > 0.0, "{check:#?}");
        assert_eq!((check.verdict(), verdict(it, "shims-in-drawer")), (Some(Verdict::Doubtful), in_drawer));
        assert!(check.remedies.iter().any(|remedy| remedy.words.contains("nobody has tried here")), "{check:#?}");
        assert_eq!(it.verdict, Verdict::Doubtful);
    }
    // Three readings at three jaws are no four.
    let three =
        with(THREE_JAW, "found: {eccentricity: 0.050 ± 0.003 mm, towards: 40 deg}", "jaw-readings: 0 -0.045 -0.130 mm");
    let problems = crate::common::try_plan(&three, None).expect_err("no four");
    assert!(problems.iter().any(|problem| problem.says.contains("three jaws have no fourth")), "{problems:?}");
}

/// A shim under an outside jaw pushes the work away from it, one under a jaw in the bore draws the work to it: the same readings
/// put them under opposite jaws. 40 degrees lie between jaws 1 and 2, 220 between 2 and 3.
#[test]
fn in_a_bore_the_shims_lie_on_the_other_side() {
    let steps = |job: &str| -> Vec<String> {
        let plan = in_shop(job);
        first(&plan).answer.set_ups[0].steps.iter().map(|step| step.words.clone()).collect()
    };
    let said = |steps: &[String], text: &str| steps.iter().any(|step| step.contains(text));
    let outside = steps(THREE_JAW);
    assert!(said(&outside, "under jaw 1 and") && said(&outside, "under jaw 2,"), "{outside:#?}");
    for (from, to) in [
        ("hold: {in: three-jaw}", "hold: {in: three-jaw}\n          jaws: inside"),
        ("hold: {in: three-jaw}", "hold: {in: three-jaw, grips: inside}"),
    ] {
        let inside = steps(&with(THREE_JAW, from, to));
        assert!(said(&inside, "under jaw 2 and") && said(&inside, "under jaw 3,"), "{inside:#?}");
        // By hand: 0.05 at 100 degrees from jaw 2: 1.5 x 0.05 x sin 20 / sin 120 and sin 100 / sin 120.
        let plan = in_shop(&with(THREE_JAW, from, to));
        assert_abs_diff_eq!(value(first(&plan), "shim_first"), 0.0296, epsilon = 5e-5);
        assert_abs_diff_eq!(value(first(&plan), "shim_second"), 0.0853, epsilon = 5e-5);
    }
    // A shim of no thickness is not slipped in.
    for job in [THREE_JAW.to_owned(), with(THREE_JAW, "0.050 ± 0.003", "0.004 ± 0.003")] {
        let all = steps(&job);
        assert!(!said(&all, " 0.000 mm in") && !said(&all, " 0.000 mm under"), "{all:#?}");
    }
}

/// The shaft of the example stands off along one pair alone: the other pair is not told to be moved by nothing.
#[test]
fn a_pair_of_jaws_that_stays_is_not_touched() {
    let steps = |job: &str| {
        let plan = in_shop(job);
        let json = serde_json::to_value(setover::sheet::json::output(std::slice::from_ref(&plan))).expect("JSON");
        json.to_string().matches("the work moves").count()
    };
    assert_eq!((steps(EXAMPLE), steps(FOUR)), (1, 2));
}

/// An indicator that cannot see the limit asks for no reading of nothing: the limit stands, and the check says what it is worth.
#[test]
fn nobody_is_asked_to_read_less_than_nothing() {
    let text = include_str!("../examples/set-true.yaml");
    let from = text.find("true-within: ").expect("a limit");
    let limit = text[from..].split([',', '\n']).next().expect("its text");
    for within in ["0.001 mm", "0.003 mm", "0.01 mm", "0.05 mm"] {
        let plan = crate::common::in_shop(&text.replace(limit, &format!("true-within: {within}")));
        let steps = plan.operations[0].answer.set_ups.iter().flat_map(|set_up| &set_up.steps);
        for hold in steps.filter_map(|step| step.hold_point.as_ref()) {
            assert!(hold.limits.numbers().1.is_none_or(|most| most > 0.0), "{within}: {hold:?}");
        }
    }
}

#[test]
fn what_does_not_clear_the_bed_is_not_trued() {
    let gripped = |hold: &str| {
        let plan = in_shop(&with(EXAMPLE, "hold: {in: four-jaw", &format!("hold: {{in: four-jaw, diameter: {hold}")));
        verdict(first(&plan), "swing")
    };
    assert_eq!((gripped("60 mm"), gripped("500 mm")), (Verdict::Proven, Verdict::Fails));
}

/// A faceplate has no jaw to count from and no key; a scroll moves its jaws together; no shim is asked for that nobody has.
#[test]
fn the_words_are_those_of_what_holds_it() {
    let job = "
job: a ring
parts:
  - part: ring
    material: mild steel
    operations:
      - set-true:
          readings: {at: 0 45 90 135 180 225 270 315 deg, reads: 0 -6 -19 -31 -36 -30 -18 -6 um}
          with: lever indicator
          true-within: 0.02 mm
          hold: {in: faceplate}
";
    let words = |held: &str| {
        let plan = in_shop(&with(job, "in: faceplate", held));
        let set_up = &first(&plan).answer.set_ups[0];
        let steps: String = set_up.steps.iter().map(|step| step.words.as_str()).collect::<Vec<_>>().join(" ");
        format!("{steps} {}", set_up.cautions.join(" "))
    };
    let plate = words("in: faceplate");
    for wrong in ["jaw", "chuck", " key"] {
        assert!(!plate.to_lowercase().contains(wrong), "{wrong}: {plate}");
    }
    assert!(plate.contains("0 degrees") && plate.contains("counted from the mark"), "{plate}");
    let scroll = words("in: jaws");
    assert!(!scroll.contains("opposite ones"), "{scroll}");
    assert!(!scroll.contains("0.001 mm"), "{scroll}");
    assert!(words("in: four-jaw").contains("opposite ones"));
}

/// The angle between face and axis stands in the metal: where the two lean apart no tap makes both run true, whichever way each leans. 0.110
/// over 40 is 0.220 over a face of 80, which reads 0.020: 0.200 stays.
#[test]
fn no_tap_makes_a_crooked_body_straight() {
    let job = include_str!("../examples/set-true.yaml");
    let square = |far: &str, face: &str| {
        let more = format!(
            "second: {{apart: 40 mm, jaw-readings: {far}}}, face-readings: {face}, face-diameter: 80 mm, square-within: 0.02 mm"
        );
        let more: String = more.replace(", face", "\n          face").replace(", square", "\n          square");
        let job = with(job, "          true-within:", &format!("          {more}\n          true-within:"));
        verdict(first(&in_shop(&job)), "square-enough")
    };
    assert_eq!(square("0 -0.10 -0.25 -0.15 mm", "0 0.012 0.020 0.008 mm"), Verdict::Fails);
    // The far plane reads as the near one: the axis is true, and the face can be tapped to it.
    assert_eq!(square("0 -0.019 -0.036 -0.018 mm", "0 0.006 0.010 0.004 mm"), Verdict::Proven);
}

/// Beside the number of a jaw no other number says what comes first.
#[test]
fn the_moves_of_jaws_go_by_letters() {
    let page = crate::common::in_shop(include_str!("../examples/set-true.yaml"));
    let pages = setover::sheet::layout::pages(std::slice::from_ref(&page)).unwrap();
    let texts = pages.iter().flat_map(|page| &page.marks).filter_map(|mark| match &mark.ink {
        setover::sheet::page::Ink::Text(text) => Some(text.text.as_str()),
        _ => None,
    });
    let moves: Vec<&str> = texts.filter(|text| text.ends_with(" loosen") || text.ends_with(" tighten")).collect();
    assert!(moves.contains(&"a) loosen") && moves.contains(&"b) tighten"), "{moves:?}");
    assert!(moves.iter().all(|text| !text.starts_with(char::is_numeric)), "{moves:?}");
}
