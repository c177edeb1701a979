//! What turns with the part clears bed and cross slide; what a part stands on is there; what two hands move they can move.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{first, held, in_shop, state, verdict, with};
use setover::proof::{Outcome, Verdict};

const TURN: &str = include_str!("../examples/turn.yaml");
const BORE_HOLE: &str = include_str!("../examples/bore-hole.yaml");
const SKIM: &str = include_str!("../examples/skim.yaml");
const POLISH: &str = include_str!("../examples/polish-seal.yaml");
const LAP: &str = include_str!("../examples/lap.yaml");
const WARM: &str = include_str!("../examples/warm.yaml");

/// The example lathe swings 230 mm over its bed and about 126 over its slide.
#[test]
fn a_wide_shoulder_clears_the_cross_slide() {
    let of = |shoulder: &str| {
        let job = with(TURN, "          present:", &format!("          shoulder: {shoulder}\n          present:"));
        let plan = in_shop(&job);
        (state(first(&plan), "clears-the-slide"), state(first(&plan), "swing"))
    };
    let [proven, doubtful, fails] = [Verdict::Proven, Verdict::Doubtful, Verdict::Fails].map(Outcome::Made);
    assert_eq!(of("100 mm"), (proven, proven));
    assert_eq!(of("200 mm"), (doubtful, proven));
    assert_eq!(of("240 mm"), (doubtful, fails));
}

#[test]
fn what_reaches_out_beside_the_cut_swings_too() {
    for job in [BORE_HOLE, SKIM] {
        let of = |swings: &str| {
            let job = job.replacen("hold: {in: soft-jaws,", &format!("hold: {{in: soft-jaws, {swings}"), 1);
            assert!(swings.is_empty() || job.contains(swings));
            verdict(first(&in_shop(&job)), "swing")
        };
        assert_eq!(of(""), Verdict::Proven);
        assert_eq!(of(" swings: 200 mm,"), Verdict::Proven);
        assert_eq!(of(" swings: 226 mm,"), Verdict::Fails, "226 + 6 of 230");
    }
}

/// In jaws nobody need say how far out a part reaches: then it is said that nothing does.
#[test]
fn how_far_it_reaches_in_jaws_is_never_taken_silently() {
    for job in [TURN, SKIM, BORE_HOLE, include_str!("../examples/face.yaml"), include_str!("../examples/part-off.yaml")]
    {
        let said = |job: &str| {
            first(&in_shop(job)).answer.assumed.iter().any(|words| words.contains("swings of the hold not given"))
        };
        assert!(said(job));
        let told = job.replacen("hold: {in: ", "hold: {swings: 120 mm, in: ", 1);
        assert!(told.contains("swings"));
        assert!(!said(&told));
    }
}

#[test]
fn a_web_beside_a_seal_track_clears_the_slide_that_carries_the_cloth() {
    let of = |swings: &str| {
        let job = with(POLISH, "          dirt:", &format!("          swings: {swings}\n          dirt:"));
        state(first(&in_shop(&job)), "clears-the-slide")
    };
    assert_eq!(of("100 mm"), Outcome::Made(Verdict::Proven));
    assert_eq!(of("200 mm"), Outcome::Made(Verdict::Doubtful));
}

#[test]
fn no_step_of_hard_jaws_is_as_deep_as_a_long_grip() {
    assert_eq!(verdict(first(&in_shop(TURN)), "grip-length"), Verdict::Proven);
    let on_a_step = in_shop(&with(TURN, "stop: rod", "stop: step"));
    assert_eq!(verdict(first(&on_a_step), "seats-on-step"), Verdict::Doubtful);
    let bored_soft = in_shop(&held(&with(TURN, "stop: rod", "stop: step"), "in: jaws", "in: soft-jaws"));
    assert_eq!(verdict(first(&bored_soft), "seats-on-step"), Verdict::Proven);
}

#[test]
fn a_face_that_is_moved_over_a_plate_by_hand_is_no_bed_of_a_machine() {
    let of = |job: &str| verdict(first(&in_shop(job)), "goes-over-the-plate");
    assert_eq!(of(LAP), Verdict::Proven);
    let line = LAP.lines().find(|line| line.contains("face: {long:")).unwrap();
    assert_eq!(of(&with(LAP, line, "          face: {long: 1500 mm, wide: 900 mm}")), Verdict::Doubtful);
    let heavy = LAP.replacen("    operations:", "    mass: 45 kg\n    operations:", 1);
    assert_eq!(of(&heavy), Verdict::Doubtful);
    assert_eq!(of(&heavy.replace("45 kg", "4 kg")), Verdict::Proven);
}

#[test]
fn a_case_is_softened_by_an_oven_whatever_its_steel_is_called() {
    let of = |facts: &str| {
        let job =
            WARM.replacen("material: cast aluminium", facts, 1).replace("interference: 0.022", "interference: 0.002");
        assert!(job.contains(facts));
        verdict(first(&in_shop(&job)), "oven-stop")
    };
    let rank = |facts: &str| of(facts);
    let plain = rank("material: mild steel");
    for hard in ["case-depth: 0.8 ± 0.1 mm", "through-hardened: true"] {
        let hard = rank(&format!("material: mild steel\n    {hard}"));
        assert!(hard >= plain, "{hard:?} {plain:?}");
    }
    assert!(of("material: mild steel\n    case-depth: 0.8 ± 0.1 mm") == of("material: case-hardened steel"));
    assert_ne!(plain, of("material: case-hardened steel"), "the example is hot enough to tell");
}
