//! What makes a part shorter, or a hole less deep, takes from every length that was read along it before: the lengths over all, the
//! depth of a hole that is bored or tapped, what the jaws hold at the other end.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{SHOP, in_shop, plan_left, shop, try_plan, with};
use setover::proof::Verdict;
use setover::quantity::Unit;

const FACE: &str = "      - face: {outside: 46 mm, inside: 18 mm, length: 60.00 ± 0.01 mm, wear: 1.6 ± 0.02 mm, finish: Ra 3.2 um, square-within: 0.05 mm, least-length: 37 mm, hold: {in: soft-jaws, diameter: 46 mm, grip: 40 mm, overhang: 20 mm, true-within: 0.02 mm, stop: step}}
";
const TURN: &str = "      - turn: {present: 46.0 ± 0.02 mm, outside: 44.00 .. 44.05 mm, length: 20 ± 0.2 mm, over-all: 60 ± 0.1 mm, shoulder: 46 mm, finish: Ra 3.2 um, inside: 18 mm, hold: {in: soft-jaws, diameter: 46 mm, grip: 30 mm, overhang: 25 mm, true-within: 0.02 mm, stop: none}}
";
const BORE: &str = "      - bore-hole: {present: 18.0 ± 0.02 mm, bore: 20.00 .. 20.05 mm, depth: 20 ± 0.2 mm, present-depth: 21.7 ± 0.2 mm, outside: 46 ± 0.02 mm, over-all: 60 ± 0.1 mm, eccentric: 0.01 ± 0.01 mm, true-to: outside, finish: Ra 3.2 um, hold: {in: soft-jaws, diameter: 46 mm, grip: 30 mm, overhang: 29 mm, inside: 0 mm, true-within: 0.02 mm, stop: none}}
";
const PART_OFF: &str = "      - part-off: {outside: 46 mm, length: 10 ± 0.2 mm, over-all: 60 ± 0.2 mm, caught: rod, bore: 18 mm, width: 2 mm, hold: {in: soft-jaws, diameter: 46 mm, grip: 40 mm, overhang: 14.5 mm, true-within: 0.02 mm, stop: rod}}
";
const SEAT: &str = "      - spot-face: {hole: 6.80 ± 0.02 mm, diameter: 18 mm, depth: 2.0 mm, pilot: 6.70 ± 0.01 mm, pilot-length: 12 mm, edge: 20 ± 0.3 mm, uneven: 1.0 ± 0.1 mm, wall: 40.0 ± 0.2 mm, least-left: 10 mm, square-within: 0.3 mm, hold: {in: clamps, tested: 60 N·m}}
";
const TAP: &str = "      - tap: {thread: M8, hole: 6.80 ± 0.02 mm, depth: 16 mm, hole-depth: 26.7 ± 0.3 mm, edge: 20 ± 0.3 mm, lead: plug, worn: false, hold: {in: clamps, tested: 30 N·m}}
";

fn job(metal: &str, operations: &[&str]) -> String {
    format!("job: One\nparts:\n  - part: piece\n    material: {metal}\n    operations:\n{}", operations.concat())
}

/// What is said of the sizes that the last of them goes by.
fn said(metal: &str, operations: &[&str]) -> Option<Verdict> {
    let plan = in_shop(&job(metal, operations));
    let last = plan.operations.last().unwrap();
    last.answer.checks.iter().find(|check| check.id == "size-still-there")?.verdict()
}

#[test]
fn a_face_takes_from_every_length_that_was_read_along_the_part() {
    for cut in [TURN, BORE, PART_OFF] {
        assert_eq!(said("mild steel", &[cut]), None, "{cut}");
        assert_eq!(said("mild steel", &[FACE, cut]), Some(Verdict::Doubtful), "{cut}");
    }
    let left = with(TURN, "over-all: 60 ± 0.1 mm", "over-all: 58.35 ± 0.1 mm");
    assert_eq!(said("mild steel", &[FACE, &left]), None);
    // Behind the last of them nothing reads along the part.
    let face = with(FACE, "grip: 40 mm", "grip: 30 mm");
    assert_eq!(said("mild steel", &[TURN, &face]), None);
}

#[test]
fn what_is_sunk_round_a_hole_is_off_its_depth() {
    assert_eq!(said("cast aluminium", &[TAP]), None);
    assert_eq!(said("cast aluminium", &[SEAT, TAP]), Some(Verdict::Doubtful));
    let other = with(TAP, "hole: 6.80 ± 0.02 mm", "hole: 6.75 ± 0.01 mm");
    assert_eq!(said("cast aluminium", &[SEAT, &other]), None, "another hole");
}

/// 60 long, 20 of it turned down at one end: turned round, 25 stands out and 30 is gripped, of which 15 is turned down.
#[test]
fn the_other_end_is_gripped_where_it_was_not_turned_down() {
    let end = |name: &str, of: &str| of.replacen("{present", &format!("{{set-up: {{feature: {name}}}, present"), 1);
    let first = end("left", &with(TURN, "outside: 44.00 .. 44.05 mm", "outside: 30.00 .. 30.05 mm"));
    let gripped = |out: &str, grip: &str| {
        let turned = with(&with(TURN, "overhang: 25 mm", out), "grip: 30 mm", grip);
        said("mild steel", &[&first, &end("right", &turned)])
    };
    assert_eq!(gripped("overhang: 25 mm", "grip: 30 mm"), Some(Verdict::Doubtful));
    assert_eq!(gripped("overhang: 25 mm", "grip: 14.5 mm"), None);
    assert_eq!(gripped("overhang: 22 mm", "grip: 17.5 mm"), None);
    assert_eq!(gripped("overhang: 23 mm", "grip: 17.5 mm"), Some(Verdict::Doubtful));
    let unsaid = with(&with(TURN, "overhang: 25 mm, ", ""), "grip: 30 mm", "grip: 14.5 mm");
    assert_eq!(said("mild steel", &[&first, &end("right", &unsaid)]), Some(Verdict::Doubtful), "it may be at its end");
}

/// A step that goes on from the diameter of the one before it is turned at the same end, whatever the two are called.
#[test]
fn a_step_on_a_step_stands_at_one_end() {
    let first = TURN
        .replacen("{present", "{set-up: {feature: journal}, present", 1)
        .replace("outside: 44.00 .. 44.05 mm", "outside: 45.00 .. 45.05 mm");
    let gripped = |present: &str| {
        let step =
            with(&TURN.replace("length: 20", "length: 8"), "outside: 44.00 .. 44.05 mm", "outside: 40.00 .. 40.05 mm");
        let step = with(&step, "overhang: 25 mm", "overhang: 30 mm");
        let step = step.replacen("{present", "{set-up: {feature: spigot, name: step}, present", 1);
        let found = step.split("present: ").nth(1).unwrap().split(',').next().unwrap().to_owned();
        said("mild steel", &[&first, &with(&with(&step, &found, present), "grip: 30 mm", "grip: 29 mm")])
    };
    assert_eq!(gripped("{of: piece/turn/diameter_after}"), None);
    assert_eq!(gripped("45.025 ± 0.02 mm"), Some(Verdict::Doubtful), "nobody says of which end that was read");
}

#[test]
fn a_face_of_its_own_part_that_is_lapped_is_in_the_gap() {
    const LAP: &str = "      - lap: {grid: {x: 0 50 100 mm, y: 0 50 100 mm, reads: [0 0 0 um, 0 75 0 um, 0 0 0 um]}, with: lever indicator, flat-within: 0.03 mm, face: {long: 110 mm, wide: 110 mm}, joint: cover, out-first: []}
";
    const CHAIN: &str = "      - chain: {of: gear end clearance, wanted: 0.24 .. 0.32 mm, links: [{link: case depth, size: 58.280 ± 0.008 mm}, {link: gear, by: -1, size: 58.000 ± 0.008 mm}]}
";
    assert_eq!(said("cast aluminium", &[CHAIN]), None);
    assert_eq!(said("cast aluminium", &[LAP, CHAIN]), Some(Verdict::Doubtful));
    assert_eq!(said("cast aluminium", &[CHAIN]), None);
}

/// A length that another operation leaves is known only when that is worked: what was typed of the hold counts on no more than there is.
/// The face leaves about 47.9 of 60: gripped 30 of it, 17.9 stands out.
#[test]
fn a_length_that_is_handed_on_leaves_so_much_standing_out() {
    let face = FACE.replace("wear: 1.6 ± 0.02", "wear: 12 ± 0.02");
    let of = |cut: &str| {
        let over_all = cut.split("over-all: ").nth(1).unwrap().split(',').next().unwrap();
        with(cut, &format!("over-all: {over_all}"), "over-all: {of: piece/face/length_after}")
    };
    let turned = with(&with(TURN, "length: 20 ± 0.2", "length: 26 ± 0.2"), "overhang: 25 mm", "overhang: 29.5 mm");
    let bored = BORE
        .replace("depth: 20 ± 0.2 mm, present-depth: 21.7 ± 0.2 mm", "through: true, behind: 6 ± 0.5 mm, depth: 60 mm");
    for (cut, id) in
        [(turned, "tool-clear"), (PART_OFF.replace("length: 10 ±", "length: 16 ±"), "tool-clear"), (bored, "behind")]
    {
        let plan = in_shop(&job("mild steel", &[&face, &of(&cut)]));
        let last = plan.operations.last().unwrap();
        let check = last.answer.checks.iter().find(|check| check.id == id).unwrap();
        assert_eq!(check.verdict(), Some(Verdict::Fails), "{cut}");
    }
    // Typed with the same figures it is refused.
    let typed = with(TURN, "over-all: 60 ± 0.1 mm", "over-all: 47.9 ± 0.1 mm");
    assert!(try_plan(&job("mild steel", &[&typed]), None).is_err());
}

/// Drilled before its bush is in, the hole is in the oilway alone.
#[test]
fn an_oil_hole_that_is_listed_before_its_bush_is_in_doubt() {
    let drilled = include_str!("../examples/drill-oil-hole.yaml").split_once("    operations:\n").unwrap().1;
    let bushed = include_str!("../examples/ream-bush.yaml").split_once("    operations:\n").unwrap().1;
    let pressed = include_str!("../examples/press-in.yaml").split_once("    operations:\n").unwrap().1;
    for put_in in [bushed, pressed] {
        let plan = in_shop(&job("cast aluminium", &[drilled, put_in]));
        let order = plan.operations[0].answer.checks.iter().find(|check| check.id == "order-of-operations").unwrap();
        assert_eq!(order.verdict(), Some(Verdict::Doubtful));
    }
}

/// A cross hole whose wall is the diameter that a journal is turned down from; a bore that goes through is one bore, whatever its name; a
/// hole has another name than the face that it is cut in.
#[test]
fn other_names_are_no_other_metal() {
    const DRILL: &str = "      - drill: {set-up: {feature: cross hole}, diameter: 6 mm, starts-on: flat, depth: 40 mm, wall: 46.00 ± 0.02 mm, edge: 14 ± 0.2 mm, least-left: 1 mm, hold: {in: vice, tested: 30 N·m, grip: 12 mm, overhang: 6 mm}}
";
    let named = |of: &str, name: &str| {
        let (word, keys) = of.split_once(": {").unwrap();
        format!("{word}: {{set-up: {{feature: {name}}}, {keys}")
    };
    assert_eq!(said("mild steel", &[&named(TURN, "journal"), DRILL]), Some(Verdict::Doubtful));
    assert_eq!(said("mild steel", &[&named(TURN, "journal"), &with(DRILL, "wall: 46.00", "wall: 43.00")]), None);
    assert_eq!(said("mild steel", &[&named(FACE, "thrust face"), &named(BORE, "main bore")]), Some(Verdict::Doubtful));
    let tapped = job("mild steel", &[&named(FACE, "thrust face"), &named(TAP, "grub screw")]);
    let plan = in_shop(&tapped);
    assert!(plan.operations[1].answer.checks.iter().any(|check| check.id == "size-still-there"));
}

/// What goes on from work that is in doubt, or must not be done, is no surer than that; and so on from link to link.
#[test]
fn what_goes_on_from_a_doubt_is_in_doubt() {
    let named = |of: &str, name: &str| of.replacen("{outside", &format!("{{set-up: {{name: {name}}}, outside"), 1);
    let turned = with(TURN, "over-all: 60 ± 0.1 mm", "over-all: {of: piece/B/length_after}");
    let unsure = |operations: &[&str]| {
        let plan = in_shop(&job("mild steel", operations));
        let last = plan.operations.last().unwrap();
        last.answer
            .checks
            .iter()
            .find(|check| check.id == "goes-on-from-what-is-sure")
            .and_then(|check| check.verdict())
    };
    let face = with(FACE, "grip: 40 mm, overhang: 20 mm", "grip: 25 mm, overhang: 35 mm");
    let sure = named(&face, "B");
    assert_eq!(unsure(&[&sure, &turned]), None);
    // B is planned by the length that A takes away.
    assert_eq!(unsure(&[&named(&face, "A"), &sure, &turned]), Some(Verdict::Doubtful));
    let fails = with(&sure, "least-length: 37 mm", "least-length: 59.5 mm");
    assert_eq!(unsure(&[&fails, &turned]), Some(Verdict::Doubtful));
}

/// Soft jaws that open in a bore are turned, not bored, and the sheet says so.
#[test]
fn jaws_that_open_in_a_bore_are_said_to() {
    let hold = |face: &str| {
        let plan = in_shop(&job("mild steel", &[face]));
        plan.operations[0].answer.set_ups[0].hold.iter().map(|line| line.words.clone()).collect::<Vec<_>>().join(" ")
    };
    let inside = with(FACE, "diameter: 46 mm", "grips: inside, diameter: 18 mm");
    assert!(hold(&inside).contains("from inside"), "{}", hold(&inside));
    assert!(!hold(FACE).contains("from inside"));
}

/// Whichever of the two is done first: a cross hole has as much metal as the journal has in the end.
#[test]
fn a_cross_hole_is_as_thick_as_its_journal_is_left() {
    const DRILL: &str = "      - drill: {set-up: {feature: cross hole}, diameter: 6 mm, starts-on: flat, depth: 40 mm, wall: 46.00 ± 0.02 mm, edge: 14 ± 0.2 mm, least-left: 1 mm, hold: {in: vice, tested: 30 N·m, grip: 12 mm, overhang: 6 mm}}
";
    let turned = TURN.replacen("{present", "{set-up: {feature: journal}, present", 1);
    let plan = in_shop(&job("mild steel", &[DRILL, &turned]));
    assert!(plan.operations[0].answer.checks.iter().any(|check| check.id == "size-still-there"));
}

#[test]
fn a_bore_that_goes_through_is_the_bore_of_the_part() {
    let through =
        with(BORE, "depth: 20 ± 0.2 mm, present-depth: 21.7 ± 0.2 mm", "through: true, behind: clear, depth: 60 mm");
    let face = FACE.replacen("{outside", "{set-up: {feature: thrust face}, outside", 1);
    let narrow = |bore: &str| {
        let bore = bore.replacen("{present", "{set-up: {feature: main bore}, present", 1);
        let plan = in_shop(&job("mild steel", &[&bore, &face]));
        plan.operations[1].answer.checks.iter().any(|check| check.id == "as-narrow-as-typed")
    };
    assert!(narrow(&through));
    assert!(!narrow(BORE), "another bore at the other end");
}

/// 121 across and 2.5 thick, 100 out: as a beam it stands 560 000 N/mm stiff, at its open end under 2 000.
#[test]
fn the_open_end_of_a_tube_springs() {
    const TUBE: &str = "      - turn: {present: 121.0 ± 0.01 mm, outside: 119.00 .. 119.05 mm, length: 30 ± 0.3 mm, over-all: 141 ± 0.2 mm, shoulder: 0 mm, finish: Ra 6.3 um, inside: 114 mm, hold: {in: jaws, diameter: 121 mm, inside: 0 mm, grip: 40 mm, overhang: 100 mm, true-within: 0.05 mm, stop: none, nipped: hard}}
";
    let share = |of: &str| crate::common::value(&in_shop(&job("mild steel", &[of])).operations[0], "share_left");
    let (thin, solid) = (share(TUBE), share(&with(TUBE, "inside: 114 mm", "inside: 0 mm")));
    assert!(thin > 0.01 && thin > 50.0 * solid, "{thin} {solid}");
}

/// What else comes out with a size that is not finished is worked from that: it is nothing to aim at.
#[test]
fn an_unfinished_sheet_aims_at_its_own_size_alone() {
    use setover::operations::Target;
    let face = include_str!("../examples/face.yaml");
    let plan = plan_left(face, &shop(SHOP), ("distance piece", "face"), &[("length_after", 21.75, Unit::Mm, 0.01)]);
    let answer = &plan.operations[0].answer;
    assert!(answer.is_unfinished());
    let aims: Vec<_> = answer
        .set_ups
        .iter()
        .flat_map(|set_up| &set_up.blanks)
        .filter(|blank| matches!(blank.target, Some(Target::Aim(_))))
        .map(|blank| blank.log.map(|line| line.key))
        .collect();
    assert!(aims.iter().all(|key| *key == Some("length_after")), "{aims:?}");
}

/// Wear that was found deeper than the cut was planned for is not mended by it, however deep both are.
#[test]
fn deep_wear_is_wear() {
    let folder = tempfile::tempdir().unwrap();
    let body = with(FACE, "least-length: 37 mm", "least-length: 37 mm, float: none");
    let inspected = |found: &str| {
        let inspect = format!(
            "    inspect:\n      - {{feature: thrust face wear, found: {found} ± 0.02 mm, service: at most 0.05 mm, remedies: [face, replace]}}\n"
        );
        let text = job("mild steel", &[&body]).replacen("job: One\n", "job: One\nshop: shop.yaml\n", 1) + &inspect;
        std::fs::write(folder.path().join("job.yaml"), text).unwrap();
        std::fs::write(folder.path().join("shop.yaml"), SHOP).unwrap();
        let output = crate::common::piped(folder.path(), &["decide", "job.yaml"], "");
        String::from_utf8_lossy(&output.stdout).split_whitespace().collect::<Vec<_>>().join(" ")
    };
    assert!(inspected("2.40").contains("planned for 1.600 mm of it alone"), "{}", inspected("2.40"));
    assert!(!inspected("1.60").contains("of it alone"), "{}", inspected("1.60"));
}
