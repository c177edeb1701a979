//! What another part, another name or another place of the same makes of a size: it was read before that, whoever reads it, and however it
//! is spelled.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{SHOP, in_shop, shop, try_plan, with};
use setover::plan::day::{Asked, day};
use setover::proof::Verdict;

const FACE: &str = "face: {outside: 90 mm, inside: 60 mm, length: 60.00 ± 0.02 mm, wear: 0.4 ± 0.05 mm, least-length: 59 mm, finish: Ra 1.6 um, square-within: 0.03 mm, hold: {in: soft-jaws, diameter: 90 mm, inside: 60 mm, grip: 40 mm, overhang: 20 mm, true-within: 0.02 mm, stop: step, tested: 60 N·m}}";
const SKIM: &str = "skim: {outside: 101.6 mm, inside: 50.8 mm, length: 12.70 ± 0.01 mm, wear: 0.13 ± 0.01 mm, least-length: 12 mm, finish: Ra 1.6 um, square-within: 0.03 mm, hold: {in: soft-jaws, nipped: light, diameter: 101.6 mm, grip: 6 mm, overhang: 6.7 mm, true-within: 0.02 mm, stop: step}}";
const MILL: &str = "mill-face: {width: 36 mm, length: 110 mm, thickness: 30.00 ± 0.05 mm, removed: 0.6 mm, cutter: 50 mm, least-thickness: 17 mm, hold: {in: clamps, clamped: on-a-ledge, tested: 120 N·m, true-within: 0.03 mm}}";
const TURN: &str = "turn: {present: 25.60 ± 0.02 mm, outside: 24.965 .. 25.000 mm, length: 22.0 ± 0.2 mm, over-all: 70 ± 0.2 mm, corner: 0.4 mm, finish: Ra 1.6 um, inside: 0 mm, hold: {in: jaws, diameter: 25.6 mm, grip: 40 mm, overhang: 30 mm, true-within: 0.05 mm, stop: rod, nipped: hard}}";
const BORE: &str = "bore-hole: {present: 22.2 ± 0.05 mm, bore: 24.004 .. 24.016 mm, depth: 20 mm, through: true, behind: 6.0 ± 0.5 mm, outside: 46.0 ± 0.1 mm, over-all: 20 ± 0.1 mm, eccentric: 0.05 ± 0.02 mm, least-wall: 8 mm, true-to: bore, finish: Ra 3.2 um, hold: {in: soft-jaws, diameter: 46 mm, grip: 10 mm, overhang: 10 mm, true-within: 0.03 mm, stop: step}}";
const PRESS: &str = "press-in: {housing: {bore: 24.010 ± 0.003 mm, outside: 46 mm, length: 20 mm, finish: Ra 0.8 um}, bush: {outside: 24.036 ± 0.004 mm, bore: 18.000 ± 0.004 mm, length: 20 mm, material: phosphor bronze, finish: Ra 0.8 um}, stands: flush, support: {inside: 30 mm, under: boss}}";
const FIT: &str = "fit-up: {bore: 18.000 ± 0.003 mm, shaft: 17.963 ± 0.003 mm, shaft-material: mild steel, bore-material: phosphor bronze, clearance: 0.015 .. 0.075 mm, running: {bore: 60 degC, shaft: 70 degC}, carried-by: GG25, bush-wall: 2 mm}";
const WASH: &str = "wash: {cleaner: paraffin, dirt: oil, cavities: 3, plugs-out: true}";
const DRILL: &str = "drill: {starts-on: flat, diameter: 6.8 mm, depth: 20 mm, wall: 42.0 ± 0.3 mm, edge: 30 ± 0.2 mm, stick-out: 60 mm, hold: {in: vice, tested: 30 N·m, grip: 12 mm, overhang: 6 mm}}";

/// An operation at a place; at none where that has no name.
fn at(feature: &str, of: &str) -> String {
    let (word, rest) = of.split_once(": {").unwrap();
    let wish = if feature.is_empty() { String::new() } else { format!("set-up: {{feature: {feature}}}, ") };
    format!("      - {word}: {{{wish}{rest}\n")
}

/// A part with its operations, and what it is bolted into.
fn part(name: &str, assembly: &str, operations: &[String]) -> String {
    let bolted = if assembly.is_empty() { String::new() } else { format!("    assembly: {assembly}\n") };
    format!("  - part: {name}\n    material: cast aluminium\n{bolted}    operations:\n{}", operations.concat())
}

/// What is said of one operation by its word, and by which check.
fn said(parts: &[String], word: &str, id: &str) -> Option<Verdict> {
    let plan = in_shop(&format!("job: One\nparts:\n{}", parts.concat()));
    let own = plan.operations.iter().rfind(|own| own.word == word).unwrap();
    own.answer.checks.iter().filter(|check| check.id == id).find_map(|check| check.verdict())
}

/// The addresses of a day in its order, each with the number of its set-up.
fn in_order(parts: &[String]) -> Vec<String> {
    let text = format!("job: One\nparts:\n{}", parts.concat());
    let plans = vec![try_plan(&text, Some(&shop(SHOP))).unwrap_or_else(|all| panic!("{all:#?}"))];
    let day = day(&plans, &Asked::default()).unwrap_or_else(|all| panic!("{all:#?}"));
    let name = |sheet: (usize, usize, usize)| format!("{} {}", plans[0].operations[sheet.1].word, sheet.2 + 1);
    day.lines.iter().map(|line| name(line.sheet)).collect()
}

/// The base of a barrel.
pub const BASE_LAPPED: &str = "lap: {grid: {x: 0 50 100 mm, y: 0 50 100 mm, reads: [0 0 0 um, 0 75 0 um, 0 0 0 um]}, with: lever indicator, flat-within: 0.03 mm, face: {long: 110 mm, wide: 110 mm}, joint: base, out-first: []}";

const STILL: &str = "size-still-there";
const YET: &str = "size-there-yet";

/// What comes off a face comes off the room over the piston, on whichever machine and of whichever part that is bolted there.
#[test]
fn a_face_of_another_part_closes_the_room_over_the_piston() {
    let lap = include_str!("../examples/lap.yaml").split("      - lap:\n").nth(2).unwrap();
    let lap = format!("      - lap:\n{}", lap.split_once("  - part:").map_or(lap, |it| it.0));
    assert!(lap.contains("squish"), "{lap}");
    let barrel = |assembly: &str| part("barrel", assembly, std::slice::from_ref(&lap));
    for cut in [FACE, SKIM, MILL] {
        let other = |assembly: &str, feature: &str| part("crankcase", assembly, &[at(feature, cut)]);
        for feature in ["", "barrel seat"] {
            let parts = [barrel(""), other("", feature)];
            assert_eq!(said(&parts, "lap", STILL), Some(Verdict::Doubtful), "{feature}: {cut}");
        }
        let elsewhere = at("", cut).replacen(": {", ": {set-up: {closes: elsewhere}, ", 1);
        assert_eq!(said(&[barrel(""), part("crankcase", "", &[elsewhere])], "lap", STILL), None, "{cut}");
        assert_eq!(said(&[barrel("engine"), other("pump", "")], "lap", STILL), None, "{cut}");
        assert_eq!(said(&[barrel("engine"), other("engine", "")], "lap", STILL), Some(Verdict::Doubtful), "{cut}");
    }
}

/// A bush that is still to be turned, and a housing that is still to be bored, were read by nobody, whatever their parts are called.
#[test]
fn a_joint_goes_by_no_size_that_another_part_is_still_cut_to() {
    let with_bush =
        |outside: &str| PRESS.replace("24.036 ± 0.004 mm", outside).replace("24.010 ± 0.003", "24.952 ± 0.003");
    let bush = |name: &str, outside: &str, assemblies: (&str, &str)| {
        let turned = part(name, assemblies.0, &[at("", TURN)]);
        let pressed = part("case", assemblies.1, &[at("", &with_bush(outside))]);
        [turned.clone(), pressed.clone()]
    };
    let told = |name: &str, outside: &str, assemblies| said(&bush(name, outside, assemblies), "press-in", STILL);
    for name in ["bush", "liner", "outside of a pump"] {
        for outside in ["24.982 ± 0.003 mm", "24.966 ± 0.001 mm", "25.002 ± 0.004 mm", "0.98354 ± 0.0001 in"] {
            assert_eq!(told(name, outside, ("", "")), Some(Verdict::Doubtful), "{name}, {outside}");
        }
        // Another bush, one of another engine, and the whole of what may be left.
        assert_eq!(told(name, "25.060 ± 0.004 mm", ("", "")), None);
        assert_eq!(told(name, "24.982 ± 0.003 mm", ("pump", "engine")), None);
        assert_eq!(told(name, "24.982 ± 0.020 mm", ("pump", "pump")), None);
        assert_eq!(told(name, &format!("{{of: {name}/turn/diameter_after}}"), ("pump", "pump")), None);
    }
    // What lies measured on the bench before that cut is another.
    let dated = |of: &str| of.replacen(": {", ": {set-up: {measured: 2020-01-01}, ", 1);
    let lying = part("case", "", &[at("", &dated(&with_bush("24.982 ± 0.003 mm")))]);
    assert_eq!(said(&[part("bush", "", &[at("", TURN)]), lying], "press-in", STILL), None);
    // The other way round, in the file as in the joint.
    let [turned, pressed] = bush("bush", "24.982 ± 0.003 mm", ("", ""));
    assert_eq!(said(&[pressed, turned], "press-in", STILL), Some(Verdict::Doubtful));
    let housing = |name: &str, bore: &str| {
        let pressed = PRESS.replace("24.010 ± 0.003 mm", bore);
        said(&[part("case", "", &[at("main bore", BORE)]), part(name, "", &[at("", &pressed)])], "press-in", STILL)
    };
    for name in ["case of the bush", "housing", "bush of the case"] {
        assert_eq!(housing(name, "24.010 ± 0.003 mm"), Some(Verdict::Doubtful), "{name}");
        assert_eq!(housing(name, "24.010 ± 0.006 mm"), None, "{name}: all that may be left");
        assert_eq!(housing(name, "{of: case/bore-hole/diameter_after}"), None, "{name}");
    }
}

/// A bush closes in as it is pressed: what was read of it before that is no bore to run in.
#[test]
fn a_fit_is_none_before_its_bush_is_in() {
    let fit = |bore: &str| FIT.replace("18.000 ± 0.003 mm", bore);
    let doubts = |parts: &[String]| said(parts, "fit-up", STILL).max(said(parts, "fit-up", YET));
    for (own, by) in [("", ""), ("bush", "bush"), ("journal fit", "bush"), ("", "bush"), ("bush", "")] {
        for bore in ["18.000 ± 0.003 mm", "18.002 ± 0.002 mm", "0.7087 ± 0.0001 in"] {
            let one = [part("case", "", &[at(own, &fit(bore)), at(by, PRESS)])];
            assert!(doubts(&one) >= Some(Verdict::Doubtful), "before: {own}, {by}, {bore}");
            let behind = [part("case", "", &[at(by, PRESS), at(own, &fit(bore))])];
            assert!(doubts(&behind) >= Some(Verdict::Doubtful), "behind: {own}, {by}, {bore}");
            for name in ["shaft", "bore of the pump"] {
                let two = [part(name, "", &[at(own, &fit(bore))]), part("cover", "", &[at(by, PRESS)])];
                assert_eq!(doubts(&two), Some(Verdict::Doubtful), "of {name}: {own}, {by}, {bore}");
            }
        }
        // What ran worn is another bore, and what goes on from the press is that of the bush.
        let worn = [part("case", "", &[at(own, &fit("18.060 ± 0.003 mm").replace("0.075", "0.115")), at(by, PRESS)])];
        assert_eq!(doubts(&worn), None, "{own}, {by}");
        let of = [part("case", "", &[at(own, &fit("{of: case/press-in/bore_after_pressing}")), at(by, PRESS)])];
        assert_eq!(doubts(&of), None, "{own}, {by}");
    }
    // Of two bushes each has its own.
    let named =
        |name: &str| PRESS.replace("press-in: {", &format!("press-in: {{set-up: {{name: {name}, feature: {name}}}, "));
    let two = [part(
        "case",
        "",
        &[
            format!("      - {}\n", named("front")),
            format!("      - {}\n", named("rear").replace("24.036 ± 0.004 mm", "24.030 ± 0.004 mm")),
            at("front", &fit("{of: case/front/bore_after_pressing}")),
        ],
    )];
    assert_eq!(doubts(&two), None);
}

/// A blade meets no bore that was not drilled so far.
#[test]
fn a_bore_is_parted_through_as_far_as_it_was_drilled() {
    let drill = |deep: &str| {
        format!(
            "drill: {{diameter: 10 mm, starts-on: flat, depth: {deep} mm, wall: 70 ± 0.3 mm, edge: 11.0 ± 0.2 mm, stick-out: 60 mm, hold: {{in: angle-plate, tested: 30 N·m}}}}"
        )
    };
    let part_off = |bore: &str| {
        format!(
            "part-off: {{outside: 22 mm, {bore}length: 8.2 .. 8.6 mm, over-all: 70 ± 0.2 mm, caught: tray, hold: {{in: jaws, diameter: 22 mm, grip: 40 mm, overhang: 30 mm, true-within: 0.1 mm, stop: rod, nipped: hard}}}}"
        )
    };
    let told = |deep: &[&str], bore: &str, (one, other): (&str, &str)| {
        let all: Vec<String> =
            deep.iter().map(|deep| at(one, &drill(deep))).chain([at(other, &part_off(bore))]).collect();
        said(&[part("ring", "", &all)], "part-off", "as-far-as-it-was-cut")
    };
    for names in [("", ""), ("bore", "piece"), ("bore", "bore")] {
        for bore in ["bore: 10 mm, ", "bore: 10.1 mm, ", "bore: 0.394 in, "] {
            assert_eq!(told(&["6"], bore, names), Some(Verdict::Doubtful), "{bore} {names:?}");
            assert_eq!(told(&["8"], bore, names), Some(Verdict::Doubtful), "{bore} {names:?}");
            assert_eq!(told(&["12"], bore, names), None, "{bore} {names:?}");
        }
        assert_eq!(told(&["6"], "bore: 4 mm, ", names), None, "another hole: {names:?}");
        assert_eq!(told(&["6"], "", names), None, "solid: {names:?}");
    }
}

/// A seat about the hole in which an insert sits takes the face that this was set down from.
#[test]
fn a_seat_takes_the_face_that_an_insert_is_set_down_from() {
    const INSERT: &str = "thread-insert: {hold: {in: clamps, tested: 15 N·m}, thread: M8x1.25, wall: 18.0 ± 0.3 mm, hole: blind, present-hole: 8.00 ± 0.02 mm, present-depth: 12 ± 0.1 mm, edge: 14 ± 0.2 mm, bolt: {class: \"4.6\", reach: 8 mm}, tang: out}";
    const SEAT: &str = "spot-face: {hole: 8.00 ± 0.02 mm, diameter: 18 mm, depth: 2.0 mm, pilot: 7.9 ± 0.01 mm, pilot-length: 12 mm, edge: 20 ± 0.3 mm, uneven: 1.0 ± 0.1 mm, wall: 18.0 ± 0.3 mm, least-left: 10 mm, square-within: 0.3 mm, hold: {in: clamps, tested: 60 N·m}}";
    let told = |own: &str, by: &str, seat: &str| {
        let one = [part("case", "", &[at(own, INSERT), at(by, seat)])];
        let order = said(&one, "spot-face", "order-of-operations");
        said(&one, "thread-insert", STILL).max(order)
    };
    for (own, by) in [("stud", "seat"), ("stud", "stud"), ("", "")] {
        assert_eq!(told(own, by, SEAT), Some(Verdict::Doubtful), "{own}, {by}");
    }
    // A seat about another hole, of a wall as thick.
    let other =
        SEAT.replace("hole: 8.00", "hole: 12.00").replace("7.9 ±", "11.9 ±").replace("18 mm, depth", "24 mm, depth");
    assert_eq!(told("stud", "seat", &other), None);
    // A hole that was drilled before its seat lies no higher for it.
    let drilled =
        [part("case", "", &[at("hole", DRILL), at("seat", &SEAT.replace("8.00", "6.80").replace("7.9 ±", "6.7 ±"))])];
    assert_eq!(said(&drilled, "drill", STILL), None);
}

/// What stands nowhere on the part is gripped by no jaws.
#[test]
fn jaws_close_on_a_diameter_that_the_part_has() {
    let turn = |present: &str, outside: &str, length: &str, grip: &str| {
        format!(
            "turn: {{present: {present} ± 0.02 mm, outside: {outside} mm, length: {length} ± 0.2 mm, over-all: 60 ± 0.1 mm, corner: 0.4 mm, finish: Ra 3.2 um, inside: 18 mm, hold: {{in: soft-jaws, {grip}, inside: 18 mm, grip: 22 mm, overhang: 38 mm, true-within: 0.05 mm, stop: step}}}}"
        )
    };
    let first = turn("46", "39.95 .. 40.0", "25", "diameter: 46 mm");
    let told = |names: (&str, &str), first: &str, grip: &str| {
        let second = turn("46", "43.95 .. 44.0", "20", &format!("diameter: {grip}"));
        said(&[part("piece", "", &[at(names.0, first), at(names.1, &second)])], "turn", "gripped-where-it-stands")
    };
    for names in [("", ""), ("spigot", "rim"), ("spigot", "")] {
        for grip in ["41 mm", "42 mm", "45 mm", "1.65 in", "38 mm", "50 mm"] {
            assert_eq!(told(names, &first, grip), Some(Verdict::Doubtful), "{names:?}, {grip}");
        }
        for grip in ["40 mm", "40.2 mm", "46 mm", "45.8 mm", "1.575 in"] {
            assert_eq!(told(names, &first, grip), None, "{names:?}, {grip}");
        }
        // Held on a flange, it has other places than the two; between the two it has none.
        let flange = with(&first, "diameter: 46 mm", "diameter: 60 mm");
        assert_eq!(told(names, &flange, "60 mm"), None);
        assert_eq!(told(names, &flange, "50 mm"), None);
        assert_eq!(told(names, &flange, "42 mm"), Some(Verdict::Doubtful));
    }
}

/// Chips fall into a part behind its wash: what asks for it clean waits for a wash behind the last cut, or is told.
#[test]
fn clean_is_a_part_that_was_washed_behind_its_last_cut() {
    const CLEAN: &str = "washed-behind-the-cut";
    let close = |of: &str| {
        format!("      - hand: {{does: Close it, minutes: 10 min, needs: [\"{of}washed\"], leaves: [joined]}}\n")
    };
    let one = |all: &[String]| said(&[part("case", "", all)], "hand", CLEAN);
    let (drill, wash) = (at("", DRILL), at("", WASH));
    assert_eq!(one(&[wash.clone(), drill.clone(), close("")]), Some(Verdict::Doubtful));
    assert_eq!(one(&[drill.clone(), wash.clone(), close("")]), None);
    assert_eq!(one(&[wash.clone(), close(""), drill.clone()]), None, "drilled behind it");
    // Washed behind it alone: the day washes first, and the order is told.
    let behind = [drill.clone(), close(""), wash.clone()];
    assert_eq!(one(&behind), Some(Verdict::Doubtful));
    assert_eq!(in_order(&[part("case", "", &behind)]).last().map(String::as_str), Some("hand 1"));
    for first in [true, false] {
        let two = |all: &[String]| {
            let (case, cover) = (part("case", "", all), part("cover", "", &[close("case:")]));
            if first { [case, cover] } else { [cover, case] }
        };
        assert_eq!(said(&two(&[wash.clone(), drill.clone()]), "hand", CLEAN), Some(Verdict::Doubtful));
        let twice = two(&[wash.clone(), drill.clone(), wash.clone()]);
        assert_eq!(said(&twice, "hand", CLEAN), None);
        assert_eq!(in_order(&twice).last().map(String::as_str), Some("hand 1"), "{first}");
    }
}

/// What closes a part for good waits for all of the work that it asks for, its hold point too.
#[test]
fn a_cover_goes_on_behind_the_hold_point_of_what_it_waits_for() {
    for state in ["case:pressed", "case/press-in:pressed", "case/press-in:bore-measured"] {
        let hand =
            format!("      - hand: {{does: Put it on, minutes: 10 min, needs: [\"{state}\"], leaves: [joined]}}\n");
        let words = in_order(&[part("cover", "", &[hand]), part("case", "", &[at("", PRESS)])]);
        assert_eq!(words.last().map(String::as_str), Some("hand 1"), "{state}: {words:?}");
    }
}

/// A face that is flat by hand lies no flatter behind a press than one that was lapped.
#[test]
fn a_face_that_was_scraped_is_moved_by_a_press_too() {
    let scrape = "      - hand: {does: Blue it and scrape it flat, minutes: 40 min, leaves: [flat]}\n".to_owned();
    let told = |all: &[String]| said(&[part("cover", "", all)], "hand", "stays-flat");
    assert_eq!(told(&[scrape.clone(), at("", PRESS)]), Some(Verdict::Doubtful));
    assert_eq!(told(&[at("", PRESS), scrape.clone()]), None);
    assert_eq!(told(&[scrape.clone(), at("", DRILL)]), None);
}

/// The shoulder that a turn leaves is one of those that a link of its part reads, unless the turn says that it stands in no gap.
#[test]
fn a_shoulder_that_is_turned_is_in_the_gap_of_its_part() {
    let shim = |link: &str| {
        let own = include_str!("../examples/shim.yaml").split_once("      - shim:\n").unwrap().1;
        let lines: Vec<&str> =
            own.lines().filter(|line| !line.contains("float-found") && !line.contains("round:")).collect();
        let own = with(&lines.join("\n"), "link: shaft between shoulders", &format!("link: {link}"));
        format!("      - shim:\n{own}\n")
    };
    let says = |link: &str, turn: &str| {
        let turn_line = at("", turn);
        let both = [shim(link), turn_line.clone()];
        let turned = [turn_line, shim(link)];
        let said = both_ways([both, turned], "shim");
        assert_eq!(said[0], said[1], "the listing tells nothing of it: {link}, {turn}");
        said[0]
    };
    let free = with(TURN, "corner: 0.4 mm", "shoulder: 0 mm").replace("length: 22.0 ± 0.2 mm", "length: 22.0 mm");
    let no_gap = with(TURN, "turn: {", "turn: {set-up: {closes: no-gap}, ");
    let over = with(TURN, "turn: {", "turn: {set-up: {closes: elsewhere}, ");
    assert_eq!(says("layshaft between shoulders", TURN), Some(Verdict::Doubtful));
    assert_eq!(says("layshaft between shoulders", &over), Some(Verdict::Doubtful), "it may be a float all the same");
    assert_eq!(says("layshaft between shoulders", &no_gap), None);
    assert_eq!(says("layshaft between shoulders", &free), None, "the tool runs out free");
    assert_eq!(says("thrust washer", TURN), None, "nothing says that it is of the shaft");
}

fn both_ways(orders: [[String; 2]; 2], word: &str) -> [Option<Verdict>; 2] {
    orders.map(|order| said(&[part("layshaft", "", &order)], word, STILL))
}

/// Whichever of the two is listed first, the day laps the face and bores by it: what was read of the face as found is no more.
#[test]
fn a_barrel_is_bored_square_to_the_face_as_it_is_lapped() {
    let bore = include_str!("../examples/bore.yaml").split_once("    operations:\n      - ").unwrap().1.trim_end();
    let stamp = |order: [&str; 2]| {
        let plan = in_shop(&part_alone(&order));
        plan.operations.iter().find(|planned| planned.word == "bore").unwrap().verdict
    };
    assert_eq!(stamp([bore, BASE_LAPPED]), Verdict::Doubtful);
    assert_eq!(stamp([BASE_LAPPED, bore]), Verdict::Doubtful);
    let alone = in_shop(&part_alone(&[bore]));
    assert_eq!(alone.operations[0].verdict, Verdict::Proven);
}

fn part_alone(operations: &[&str]) -> String {
    let all: String = operations.iter().map(|own| format!("      - {own}\n")).collect();
    format!("job: One\nparts:\n  - part: pump barrel\n    material: GG25\n    operations:\n{all}")
}
