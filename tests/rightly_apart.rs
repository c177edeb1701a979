//! A face, an outside, a hole and its seat have different names by nature: what the one takes from the other it takes whatever they are
//! called.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{SHOP, in_shop, shop, try_plan, with};
use setover::plan::day::{Asked, day};
use setover::proof::Verdict;

const TURN: &str = "turn: {present: 60.0 ± 0.05 mm, outside: 53.95 .. 54.05 mm, length: 20.0 ± 0.2 mm, over-all: 60 ± 0.2 mm, corner: 0.4 mm, finish: Ra 3.2 um, inside: 24 mm, hold: {in: jaws, diameter: 60 mm, grip: 25 mm, overhang: 35 mm, true-within: 0.05 mm, stop: rod, nipped: hard}}";
const FACE: &str = "face: {outside: 46 mm, inside: 18 mm, length: 60.00 ± 0.01 mm, wear: 1.6 ± 0.02 mm, finish: Ra 3.2 um, square-within: 0.05 mm, least-length: 37 mm, hold: {in: soft-jaws, diameter: 46 mm, grip: 40 mm, overhang: 20 mm, true-within: 0.02 mm, stop: step}}";
const SEAT: &str = "spot-face: {hole: 6.80 ± 0.02 mm, diameter: 18 mm, depth: 2.0 mm, pilot: 6.70 ± 0.01 mm, pilot-length: 12 mm, edge: 20 ± 0.3 mm, uneven: 1.0 ± 0.1 mm, wall: 18.0 ± 0.3 mm, least-left: 10 mm, square-within: 0.3 mm, hold: {in: clamps, tested: 60 N·m}}";
const TAP: &str = "tap: {thread: M8, hole: 6.80 ± 0.02 mm, depth: 16 mm, hole-depth: 26.7 ± 0.3 mm, edge: 30 ± 0.3 mm, lead: plug, worn: false, hold: {in: clamps, tested: 30 N·m}}";
const DRILL: &str = "drill: {starts-on: flat, diameter: 8 mm, depth: 10 mm, wall: 40.0 ± 0.3 mm, edge: 7.5 ± 0.2 mm, stick-out: 60 mm, hold: {in: vice, tested: 30 N·m, grip: 12 mm, overhang: 6 mm}}";
const HOLE: &str = "drill: {starts-on: flat, diameter: 6.8 mm, depth: 20 mm, wall: 42.0 ± 0.3 mm, edge: 30 ± 0.2 mm, stick-out: 60 mm, hold: {in: vice, tested: 30 N·m, grip: 12 mm, overhang: 6 mm}}";

/// An operation at a place.
fn at(feature: &str, of: &str) -> String {
    if feature.is_empty() {
        return format!("      - {of}\n");
    }
    let (word, rest) = of.split_once(": {").unwrap();
    format!("      - {word}: {{set-up: {{feature: {feature}}}, {rest}\n")
}

fn job(operations: &[String]) -> String {
    format!("job: One\nparts:\n  - part: piece\n    material: cast aluminium\n    operations:\n{}", operations.concat())
}

/// The worst that is said of a check of the last of them.
fn said(operations: &[String], id: &str) -> Option<Verdict> {
    let plan = in_shop(&job(operations));
    let last = plan.operations.last().unwrap();
    last.answer.checks.iter().find(|check| check.id == id)?.verdict()
}

/// Names make nothing better: whatever the two are called, what is said of the second without any names is said of it with true ones.
#[test]
fn what_a_cut_takes_it_takes_by_any_name() {
    let insert_wall =
        DRILL.replace("wall: 40.0 ± 0.3 mm, edge: 7.5 ± 0.2 mm", "wall: 18.0 ± 0.3 mm, edge: 30 ± 0.2 mm");
    let near_end = DRILL.replace("edge: 7.5", "edge: 5.5");
    let deeper = TAP.replace("26.7 ± 0.3", "26.7 ± 0.2");
    let pairs: [(&str, &str, &str, &str, &str); 6] = [
        (TURN, "outside", DRILL, "pin hole", "an edge"),
        (FACE, "end face", &near_end, "cross hole", "an edge beside a face"),
        (TURN, "outside", &deeper, "grub screw", "a depth across"),
        (TURN, "outside", &insert_wall, "grub screw", "the wall of a tube"),
        (SEAT, "seat of the nut", TAP, "stud hole", "a depth under a seat"),
        (HOLE, "hole", &TAP.replace("26.7", "26.9"), "thread", "a hole that is drilled for it"),
    ];
    for (cut, cut_at, own, own_at, what) in pairs {
        let worst =
            |operations: &[String]| said(operations, "size-still-there").max(said(operations, "size-there-yet"));
        let nameless = worst(&[at("", cut), at("", own)]);
        let named = worst(&[at(cut_at, cut), at(own_at, own)]);
        assert!(nameless.is_some() && named.is_some(), "{what}: {nameless:?}, by their names {named:?}");
        assert_eq!(worst(&[at(own_at, own)]), None, "{what}: alone");
    }
}

#[test]
fn a_slip_of_the_pen_makes_no_other_place() {
    let short = |one: &str, other: &str| said(&[at(one, HOLE), at(other, TAP)], "size-there-yet");
    let same = short("stud hole", "stud hole");
    assert!(same.is_some());
    for other in ["stud-hole", "Stud  Hole", "studhole", "stud holes", "stud.hole"] {
        assert_eq!(short("stud hole", other), same, "{other}");
    }
    assert_eq!(short("hole 1", "Hole no. 1"), same);
    // A number makes another.
    let twice = |other: &str| {
        let listed = [at("hole 1", HOLE), at("hole 1", TAP), at(other, TAP)];
        said(&listed, "size-there-yet")
    };
    assert_eq!(twice("hole 2"), None);
    let job = job(&[at("", TAP)]);
    let two = format!("{job}  - part: pie-ce\n    operations:\n{}", at("", SEAT));
    assert!(try_plan(&two, Some(&shop(SHOP))).is_err());
}

/// What a grip stands on was turned no further than it was turned.
#[test]
fn a_step_is_gripped_no_further_than_it_was_turned() {
    let spigot = |long: &str| {
        format!(
            "turn: {{present: 46.0 ± 0.02 mm, outside: 39.95 .. 40.00 mm, length: {long} ± 0.2 mm, over-all: 60 ± 0.1 mm, shoulder: 46 mm, finish: Ra 3.2 um, inside: 0 mm, hold: {{in: soft-jaws, diameter: 46 mm, grip: 22 mm, overhang: 36 mm, true-within: 0.02 mm, stop: none}}}}"
        )
    };
    let rim = "turn: {present: 46.0 ± 0.02 mm, outside: 43.95 .. 44.05 mm, length: 25 ± 0.2 mm, over-all: 60 ± 0.1 mm, shoulder: 46 mm, finish: Ra 3.2 um, inside: 0 mm, hold: {in: soft-jaws, diameter: 40 mm, grip: 32 mm, overhang: 28 mm, true-within: 0.02 mm, stop: none}}";
    let listed = |long: &str, own: &str| said(&[at("spigot", &spigot(long)), at("rim", own)], "as-far-as-it-was-cut");
    assert_eq!(listed("6", rim), Some(Verdict::Doubtful));
    assert_eq!(listed("33", rim), None);
    assert_eq!(listed("6", &with(rim, "grip: 32 mm, overhang: 28 mm", "grip: 5.5 mm, overhang: 54 mm")), None);
    assert_eq!(listed("6", &with(rim, "diameter: 40 mm", "diameter: 46 mm")), None, "on the rest of the bar");
    // Both ends share the length of the part: 35 and 25.5 of 60 meet.
    assert_eq!(listed("34", rim), None);
    assert_eq!(listed("35", &with(rim, "length: 25 ±", "length: 25.5 ±")), Some(Verdict::Doubtful));
}

fn in_order(text: &str) -> Vec<String> {
    let plans = vec![try_plan(text, Some(&shop(SHOP))).unwrap_or_else(|all| panic!("{all:#?}"))];
    let day = day(&plans, &Asked::default()).unwrap_or_else(|all| panic!("{all:#?}"));
    day.lines.iter().map(|line| plans[0].operations[line.sheet.1].word.to_string()).collect()
}

/// A piece is parted off behind what is done to it first, however late that comes.
#[test]
fn a_piece_is_parted_off_behind_the_work_that_is_listed_before_it() {
    let part_off = "part-off: {outside: 21 mm, length: 8.2 .. 8.6 mm, over-all: 70 ± 0.2 mm, caught: tray, width: 2 mm, hold: {in: soft-jaws, diameter: 22 mm, grip: 40 mm, overhang: 30 mm, true-within: 0.02 mm, stop: rod, tested: 30 N·m}}";
    let turn = "turn: {set-up: {not-before: \"10:00\"}, present: 22.00 ± 0.02 mm, outside: 20.95 .. 21.00 mm, length: 22.0 ± 0.2 mm, over-all: 70 ± 0.2 mm, corner: 0.4 mm, inside: 0 mm, finish: Ra 3.2 um, hold: {in: soft-jaws, diameter: 22 mm, grip: 40 mm, overhang: 30 mm, true-within: 0.05 mm, stop: rod}}";
    let steel = |operations: &[String]| job(operations).replace("cast aluminium", "mild steel");
    assert_eq!(in_order(&steel(&[at("", turn), at("", part_off)])), ["turn", "part-off"]);
    let whole = with(part_off, "outside: 21 mm", "outside: 22 mm");
    assert_eq!(in_order(&steel(&[at("", turn), at("", &whole)])), ["turn", "part-off"]);
}

/// An oil hole goes through a bush that is in: whatever the two are called, and where neither is.
#[test]
fn an_oil_hole_comes_behind_its_bush_by_any_name() {
    let own = |text: &'static str, word: &str| {
        let from = text.split_once(&format!("      - {word}:\n")).unwrap().1;
        let to = from.split_once("  - part:").map_or(from, |it| it.0);
        format!("      - {word}:\n{to}")
    };
    let oil = own(include_str!("../examples/drill-oil-hole.yaml"), "drill-oil-hole");
    let press = own(include_str!("../examples/press-in.yaml"), "press-in");
    let late = |name: &str| {
        let wish = if name.is_empty() { String::new() } else { format!("feature: {name}, ") };
        press.replacen("press-in:\n", &format!("press-in:\n          set-up: {{{wish}not-before: \"14:00\"}}\n"), 1)
    };
    let named = oil.replacen("drill-oil-hole:\n", "drill-oil-hole:\n          set-up: {feature: oil hole}\n", 1);
    for (press, oil) in [(late(""), &oil), (late("bush"), &named), (late("bush"), &oil)] {
        if oil.matches("set-up").count() > 1 {
            continue;
        }
        let words = in_order(&job(&[press, oil.clone()]));
        let place = |word: &str| words.iter().rposition(|own| own == word).unwrap();
        assert!(place("press-in") < place("drill-oil-hole"), "{words:?}");
    }
}

/// A bore that the joint of a case splits.
pub const BORE_ACROSS: &str = "bore-hole: {present: 24.2 ± 0.05 mm, bore: 25.00 .. 25.05 mm, depth: 30 mm, through: true, behind: 6.0 ± 0.5 mm, outside: 48.0 ± 0.1 mm, over-all: 30 ± 0.1 mm, eccentric: 0.05 ± 0.02 mm, least-wall: 8 mm, true-to: bore, finish: Ra 3.2 um, hold: {in: soft-jaws, diameter: 48 mm, grip: 18 mm, overhang: 12 mm, true-within: 0.03 mm, stop: step}}";

/// The joint of a case that is lapped before the bores across it are bored, as an operation of a part.
pub fn case_lapped() -> String {
    let lap = include_str!("../examples/lap.yaml").split_once("      - lap:\n").unwrap().1;
    let lap = lap.split_once("  - part:").unwrap().0;
    format!("      - lap:\n{}", with(lap, "joint: cover", "joint: case\n          bores-across: bored-after"))
}

/// A cover that is closed by hand for good.
pub const CLOSED: &str =
    "      - hand: {set-up: {name: close}, does: Close it with sealant, minutes: 20 min, leaves: [joined]}\n";

/// A face is lapped before it is closed, whatever else comes before the lap.
#[test]
fn a_face_is_lapped_before_it_is_closed() {
    let words = in_order(&job(&[case_lapped(), CLOSED.into(), at("", HOLE)]));
    let place = |word: &str| words.iter().rposition(|own| own == word).unwrap();
    assert!(place("lap") < place("hand"), "{words:?}");
}

/// Work that needs what an operation of another part leaves waits for all of that, whatever it is called.
#[test]
fn what_is_needed_of_an_operation_waits_for_it() {
    let turn = at("", TURN);
    for state in ["done", "finished", "measured"] {
        let text = format!(
            "job: Two\nparts:\n  - part: cover\n    material: cast aluminium\n    operations:\n      - hand: {{does: Put it together, minutes: 10 min, needs: [\"shaft/turn:{state}\"]}}\n  - part: shaft\n    material: mild steel\n    operations:\n{turn}"
        );
        assert_eq!(in_order(&text), ["turn", "hand"], "{state}");
    }
}

/// A joint that is lapped first is lapped first, and said to be in doubt where its bores are there already.
#[test]
fn bores_that_a_joint_splits_are_bored_when_it_is_lapped() {
    let bore = format!("      - {BORE_ACROSS}\n");
    let lapped = case_lapped();
    let words = in_order(&job(&[lapped.clone(), bore.clone()]));
    assert_eq!((words.first().map(String::as_str), words.last().map(String::as_str)), (Some("lap"), Some("bore-hole")));
    let order = |operations: &[String]| {
        let plan = in_shop(&job(operations));
        let lap = plan.operations.iter().find(|own| own.word == "lap").unwrap();
        let doubtful = |at: &usize| lap.answer.verdict_of_set_up(*at) != Verdict::Proven;
        let stands = (0..lap.answer.set_ups.len()).filter(doubtful).count();
        (
            lap.answer.checks.iter().find(|check| check.id == "order-of-operations").and_then(|check| check.verdict()),
            stands,
        )
    };
    assert_eq!(order(&[lapped.clone(), bore.clone()]).0, None);
    // Both its set-ups stand on it: the one that laps too.
    assert_eq!(order(&[bore.clone(), lapped]), (Some(Verdict::Doubtful), 2));
}

/// A plate rides on what stands out of the face that it laps.
#[test]
fn a_bush_that_stands_out_is_in_the_way_of_a_lap() {
    let lap = include_str!("../examples/lap.yaml").split_once("      - lap:\n").unwrap().1;
    let lap = lap.split_once("  - part:").map_or(lap, |it| it.0);
    let press = include_str!("../examples/press-in.yaml").split_once("      - press-in:\n").unwrap().1;
    let job = |stands: &str, proud: &str, lap_first: bool| {
        let press = format!("      - press-in:\n{}", press.replace("stands: flush", &format!("stands: {stands}")));
        let lap = format!("      - lap:\n{proud}{lap}");
        job(&if lap_first { [lap, press] } else { [press, lap] })
    };
    let said = |text: &str| {
        let plan = in_shop(text);
        let lap = plan.operations.iter().find(|own| own.word == "lap").unwrap();
        lap.answer.checks.iter().find(|check| check.id == "nothing-stands-in-the-way").and_then(|check| check.verdict())
    };
    assert_eq!(said(&job("0.5 mm", "", false)), Some(Verdict::Doubtful));
    assert_eq!(said(&job("proud", "", false)), Some(Verdict::Doubtful));
    assert_eq!(said(&job("flush", "", false)), None);
    assert_eq!(said(&job("0.5 mm", "", true)), None, "lapped before it is in");
    if !lap.contains("proud:") {
        assert_eq!(said(&job("0.5 mm", "          proud: 0 mm\n", false)), None, "it stands out of another face");
    }
}

const MILL: &str = "mill-face: {width: 36 mm, length: 110 mm, thickness: 30.00 ± 0.05 mm, removed: 0.6 mm, cutter: 50 mm, least-thickness: 17 mm, hold: {in: clamps, clamped: on-a-ledge, tested: 120 N·m, true-within: 0.03 mm}}";

/// A lap of the examples, as an operation of a part.
fn lap(part: usize) -> String {
    let text = include_str!("../examples/lap.yaml").split("      - lap:\n").nth(part + 1).unwrap();
    text.split_once("  - part:").map_or(text, |it| it.0).to_owned()
}

/// What comes off a face is off the room over a piston and off the set-down of inserts, whatever that face is called, and on which machine.
#[test]
fn what_is_cut_off_a_face_is_off_room_and_inserts_by_any_name() {
    for (lap, cuts) in [(lap(0), vec![MILL, FACE]), (lap(1), vec![MILL, FACE])] {
        for cut in cuts {
            let named = |feature: &str| {
                let wish = if feature.is_empty() {
                    String::new()
                } else {
                    format!("          set-up: {{feature: {feature}}}\n")
                };
                format!("      - lap:\n{wish}{lap}")
            };
            let alone = said(&[named("joint")], "size-still-there");
            assert_eq!(alone, None, "{lap}");
            for (own, by) in [("", ""), ("joint", "top face"), ("joint", "joint")] {
                let doubt = said(&[at(by, cut), named(own)], "size-still-there");
                assert_eq!(doubt, Some(Verdict::Doubtful), "{by} and {own}: {cut} {lap}");
            }
        }
    }
    // Said to close something else, it takes nothing of the room.
    let elsewhere = at("", MILL).replacen("{width", "{set-up: {feature: side, closes: elsewhere}, width", 1);
    let lapped = format!("      - lap:\n          set-up: {{feature: joint}}\n{}", lap(1));
    assert_eq!(said(&[elsewhere, lapped], "size-still-there"), None);
}

/// A bore that was read just as a bush leaves it is that of the bush, by any name.
#[test]
fn a_bush_is_not_bored_away_at_another_name() {
    let press = include_str!("../examples/press-in.yaml").split_once("      - press-in:\n").unwrap().1;
    let press = |name: &str| {
        let wish = if name.is_empty() { String::new() } else { format!("          set-up: {{feature: {name}}}\n") };
        format!("      - press-in:\n{wish}{press}")
    };
    let bore = BORE_ACROSS
        .replace("present: 24.2 ± 0.05 mm", "present: 17.985 ± 0.01 mm")
        .replace("bore: 25.00 .. 25.05 mm", "bore: 18.50 .. 18.55 mm");
    let worst = |operations: &[String]| {
        let plan = in_shop(&job(operations));
        let last = plan.operations.last().unwrap();
        let open =
            last.answer.checks.iter().filter(|check| check.verdict().is_some_and(|verdict| verdict != Verdict::Proven));
        open.map(|check| check.id).collect::<Vec<_>>()
    };
    let (alone, nameless) = (worst(&[at("", &bore)]), worst(&[press(""), at("", &bore)]));
    let told: Vec<&str> = nameless.into_iter().filter(|id| !alone.contains(id)).collect();
    assert!(!told.is_empty());
    let named = worst(&[press("bush"), at("bush bore", &bore)]);
    assert!(told.iter().any(|id| named.contains(id)), "{told:?}, by their names {named:?}");
}

/// A flange, or a bush left proud, moves the face that a gap is read from.
#[test]
fn what_is_left_proud_moves_the_gap() {
    let press = include_str!("../examples/press-in.yaml").split_once("      - press-in:\n").unwrap().1;
    let chain = "      - chain: {wanted: 0.10 .. 0.40 mm, links: [{link: depth of cover, size: 58.280 ± 0.01 mm}, {link: gear of shaft, by: -1, size: 58.000 ± 0.01 mm}]}\n";
    let said = |stands: &str| {
        let press = press.replace("stands: flush", &format!("stands: {stands}"));
        let text = format!(
            "job: One\nparts:\n  - part: cover\n    material: cast aluminium\n    operations:\n      - press-in:\n{press}  - part: shaft\n    material: mild steel\n    operations:\n{chain}"
        );
        let plan = in_shop(&text);
        let chain = plan.operations.iter().find(|own| own.word == "chain").unwrap();
        chain.answer.checks.iter().find(|check| check.id == "size-still-there").and_then(|check| check.verdict())
    };
    assert_eq!((said("flush"), said("0.5 mm")), (None, Some(Verdict::Doubtful)));
}

/// A thickness that is only there once another face is cut is cut behind that, however late that comes.
#[test]
fn a_length_typed_as_a_cut_leaves_it_waits_for_that_cut() {
    let first = MILL.replacen("{width", "{set-up: {feature: top, not-before: \"10:00\"}, width", 1);
    let then = MILL.replace("30.00 ± 0.05", "29.40 ± 0.06").replacen("{width", "{set-up: {feature: bottom}, width", 1);
    let order = |listed: [&str; 2]| {
        let text = job(&listed.map(|own| format!("      - {own}\n")));
        let plans = vec![try_plan(&text, Some(&shop(SHOP))).unwrap_or_else(|all| panic!("{all:#?}"))];
        let day = day(&plans, &Asked::default()).unwrap_or_else(|all| panic!("{all:#?}"));
        day.lines.iter().map(|line| line.sheet.1).collect::<Vec<_>>()
    };
    assert_eq!(order([&first, &then]), [0, 1]);
    // Read as it was before, it may be cut first.
    let other = then.replace("29.40 ± 0.06", "40.00 ± 0.06");
    assert_eq!(order([&first, &other]), [1, 0]);
}
