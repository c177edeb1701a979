//! Metal that one operation goes by, and another takes away: the barrel under a bore, the wall under a seat, the length of a housing, the
//! room over a piston; and what `decide` says of a size that the plan still cuts.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{SHOP, first, in_shop, plan_left, shop, try_plan, value, with};
use approx::assert_abs_diff_eq;
use setover::job::{JobFile, Ledger};
use setover::operations::Request;
use setover::plan::{Cards, Plan, work};
use setover::proof::{Figure, Place, Verdict};
use setover::quantity::Unit;
use setover::reading::Node;

fn of(example: &str) -> String {
    example.split_once("    operations:\n").expect("an example has operations").1.to_owned()
}

/// The operations of an example, without the parts behind them.
fn job(metal: &str, operations: &[String]) -> String {
    format!("job: One\nparts:\n  - part: piece\n    material: {metal}\n    operations:\n{}", operations.concat())
}

fn said(plan: &Plan, at: usize) -> Option<Verdict> {
    plan.operations[at].answer.checks.iter().find(|check| check.id == "size-still-there")?.verdict()
}

fn in_turn(plan: &Plan, at: usize) -> bool {
    let order = plan.operations[at].answer.checks.iter().find(|check| check.id == "order-of-operations").unwrap();
    order.verdict().is_none_or(|verdict| verdict == Verdict::Proven)
}

const TURN: &str = "      - turn: {present: 56.00 ± 0.05 mm, outside: 51.90 .. 52.00 mm, length: 20 ± 0.2 mm, over-all: 60 ± 0.2 mm, inside: 46 mm, shoulder: 0 mm, finish: Ra 3.2 um, hold: {in: mandrel, tested: 60 N·m, diameter: 46 mm, grip: 30 mm, overhang: 22 mm, true-within: 0.02 mm}}\n";

/// A barrel is turned down, and bored by the outside that it had.
#[test]
fn a_barrel_that_is_turned_down_has_no_wall_as_it_was_read() {
    let bore = |outside: &str| {
        let example = include_str!("../examples/bore.yaml");
        let line = example.lines().find(|line| line.trim_start().starts_with("outside:")).unwrap();
        of(&with(example, line, &format!("          outside: {{size: {outside}, eccentric: 0.10 ± 0.05 mm}}")))
    };
    for turned in [[TURN.to_owned(), bore("56.00 ± 0.05 mm")], [bore("56.00 ± 0.05 mm"), TURN.to_owned()]] {
        let bored = usize::from(turned[0] == TURN);
        assert!(said(&in_shop(&job("GG25", &turned)), bored) >= Some(Verdict::Doubtful));
    }
    assert_eq!(said(&in_shop(&job("GG25", &[TURN.into(), bore("51.95 ± 0.06 mm")])), 1), None, "as it is left");
    assert_eq!(said(&in_shop(&job("GG25", &[bore("56.00 ± 0.05 mm")])), 0), None, "nothing takes from it");
}

const SEAT: &str = "      - spot-face: {hole: 8.50 ± 0.02 mm, diameter: 18 mm, depth: 2.0 mm, pilot: 8.40 ± 0.01 mm, pilot-length: 12 mm, uneven: 1.0 ± 0.1 mm, wall: 18.0 ± 0.2 mm, least-left: 10 mm, square-within: 0.3 mm, hold: {in: clamps, tested: 60 N·m}SET}\n";
const INSERT: &str = "      - thread-insert: {hold: {in: clamps, tested: 60 N·m}, thread: M8x1.25, wall: 18.0 ± 0.3 mm, hole: blind, present-hole: 8.0 mm, present-depth: 12 ± 0.1 mm, edge: 14 ± 0.2 mm, tang: outSET}\n";

/// A seat is sunk into the wall that an insert behind it goes by, whether anybody named the hole or not.
#[test]
fn a_seat_takes_from_the_wall_of_an_insert_that_nobody_named() {
    let of = |sets: [&str; 2]| {
        let set = |set: &str| if set.is_empty() { String::new() } else { format!(", set-up: {{feature: {set}}}") };
        let lines = [SEAT.replace("SET", &set(sets[0])), INSERT.replace("SET", &set(sets[1]))];
        said(&in_shop(&job("cast aluminium", &lines)), 1)
    };
    let doubtful = Some(Verdict::Doubtful);
    for sets in [["", ""], ["a", "a"], ["a", ""], ["", "a"], ["Hole A", "hole a"]] {
        assert_eq!(of(sets), doubtful, "{sets:?}");
    }
    assert_eq!(of(["a", "b"]), None, "two holes");
    // Two seats sunk alike into a flange are two.
    let two = in_shop(&job(
        "cast aluminium",
        &[SEAT.replace("SET", ", set-up: {name: one}"), SEAT.replace("SET", ", set-up: {name: two}")],
    ));
    assert_eq!((said(&two, 0), said(&two, 1)), (None, None));
}

const PRESS: &str = "      - press-in: {housing: {bore: 24.010 ± 0.004 mm, outside: 46 mm, length: 20 mm, finish: Ra 0.8 um}, bush: {outside: 24.036 ± 0.004 mm, bore: 18.000 ± 0.004 mm, length: 20 mm, material: phosphor bronze, finish: Ra 0.8 um}, stands: flush, support: {inside: 30 mm, under: boss}}\n";

/// A boss is milled, and its bush still goes by its length.
#[test]
fn a_bush_goes_by_the_housing_that_milling_leaves() {
    let mill = of(include_str!("../examples/mill-face.yaml"));
    let thickness = mill.lines().find(|line| line.trim_start().starts_with("thickness:")).unwrap().to_owned();
    let mill = with(&mill, &thickness, "          thickness: 20.00 ± 0.05 mm");
    let first = in_shop(&job("cast aluminium", &[mill.clone(), PRESS.into()]));
    assert!(said(&first, 1) >= Some(Verdict::Doubtful));
    assert!(in_turn(&first, 1));
    let behind = in_shop(&job("cast aluminium", &[PRESS.into(), mill.clone()]));
    assert!(!in_turn(&behind, 1), "the bush is cut with it");
    for (cut, of_part) in
        [(include_str!("../examples/face.yaml"), "face"), (include_str!("../examples/skim.yaml"), "skim")]
    {
        assert!(!in_turn(&in_shop(&job("cast aluminium", &[PRESS.into(), of(cut)])), 1), "{of_part}");
    }
    let longer = with(&mill, "20.00 ± 0.05", "30.00 ± 0.05");
    assert_eq!(said(&in_shop(&job("cast aluminium", &[longer, PRESS.into()])), 1), None, "another face");
}

/// The head of a barrel is milled while the barrel is lapped: both close the room over the piston, whoever is asked.
#[test]
fn a_head_that_is_milled_closes_the_room_over_the_piston() {
    let lap = "  - part: barrel\n    material: GG25\n    operations:\n      - lap: {grid: {x: 0 60 120 180 mm, y: 0 50 100 mm, reads: [0 6 14 9 um, 11 22 31 17 um, 4 19 24 -3 um]}, flat-within: 0.03 mm, face: {long: 190 mm, wide: 110 mm}, joint: head, squish: 0.95 ± 0.05 mm, least-squish: 0.6 mm, out-first: []}\n";
    let mill = of(include_str!("../examples/mill-face.yaml"));
    let job = |set: &str| {
        let mill = mill.replacen("- mill-face:\n", &format!("- mill-face:\n{set}"), 1);
        format!("job: Joint\nparts:\n{lap}  - part: head\n    material: GG25\n    operations:\n{mill}")
    };
    let closes = |what: &str| said(&in_shop(&job(&format!("          set-up: {{closes: {what}}}\n"))), 0);
    assert_eq!(said(&in_shop(&job("")), 0), Some(Verdict::Doubtful), "nobody says what it closes");
    assert_eq!(closes("room-over-piston"), Some(Verdict::Doubtful));
    assert_eq!(closes("elsewhere"), None);
}

/// A capital, a hyphen or a space more makes no other part, and no other feature.
#[test]
fn a_slip_in_a_name_makes_no_other_part() {
    let two = |other: &str| {
        let part = |name: &str| format!("  - part: {name}\n    material: cast aluminium\n    operations:\n{PRESS}");
        try_plan(&format!("job: Two\nparts:\n{}{}", part("gear case"), part(other)), None).map(|_| ())
    };
    for other in ["Gear case", "gear  case", "gearcase", "gear-case", "gear cases"] {
        let problems = two(other).expect_err(other);
        assert!(problems.iter().any(|it| it.says.contains("capitals, spaces") && it.place.is_some()), "{problems:?}");
    }
    assert!(two("gear case 2").is_ok());
}

/// A hole stands as far from an edge as it was read only while that edge stands.
#[test]
fn an_edge_that_is_turned_away_is_nearer() {
    const TURNED: &str = "      - turn: {present: 100.0 ± 0.1 mm, outside: AFTER, length: 20 ± 0.2 mm, over-all: 60 ± 0.2 mm, inside: 46 mm, shoulder: 0 mm, finish: Ra 3.2 um, hold: {in: mandrel, tested: 60 N·m, diameter: 46 mm, grip: 30 mm, overhang: 22 mm, true-within: 0.02 mm}SET}\n";
    let drill = of(include_str!("../examples/drill.yaml"));
    let seat = SEAT.replace("SET", ", edge: 14 ± 0.2 mm");
    let turn = |after: &str, set: &str| TURNED.replace("AFTER", after).replace("SET", set);
    for hole in [drill, INSERT.replace("SET", ""), seat] {
        let doubtful = Some(Verdict::Doubtful);
        let much = turn("79.9 .. 80.0 mm", "");
        assert_eq!(said(&in_shop(&job("GG25", &[hole.clone(), much.clone()])), 0), doubtful, "{hole}");
        assert_eq!(said(&in_shop(&job("GG25", &[much, hole.clone()])), 1), doubtful, "{hole}");
        let little = turn("98.9 .. 99.0 mm", "");
        assert_eq!(said(&in_shop(&job("GG25", &[hole, little])), 0), None, "half a millimetre of fourteen");
    }
    let apart =
        [INSERT.replace("SET", ", set-up: {feature: hole}"), turn("79.9 .. 80.0 mm", ", set-up: {feature: spigot}")];
    assert_eq!(said(&in_shop(&job("GG25", &apart)), 0), Some(Verdict::Doubtful), "no hole is called as the round is");
}

/// A bar is as long as the pieces that came off it leave it.
#[test]
fn a_second_piece_comes_off_what_the_first_leaves() {
    let of = |name: &str, over_all: &str| {
        let piece = of(include_str!("../examples/part-off.yaml"));
        let line = piece.lines().find(|line| line.trim_start().starts_with("over-all:")).unwrap().to_owned();
        let piece = with(&piece, &line, &format!("          over-all: {over_all}"));
        piece.replacen(
            "- part-off:\n",
            &format!("- part-off:\n          set-up: {{name: {name}, feature: {name}}}\n"),
            1,
        )
    };
    let [first, again] = [of("one", "60 ± 0.2 mm"), of("two", "60 ± 0.2 mm")];
    let plan = in_shop(&job("phosphor bronze", &[first.clone(), again]));
    assert_eq!((said(&plan, 0), said(&plan, 1)), (None, Some(Verdict::Doubtful)));
    let on = of("two", "{of: piece/one/bar_left}");
    assert_eq!(said(&in_shop(&job("phosphor bronze", &[first, on])), 1), None);
}

/// Two halves that lose the same.
pub const PAIR: &str = "job: Pair\nparts:\n  - part: half A\n    material: mild steel\n    operations:\n      - skim: {outside: 120 mm, inside: 84 mm, length: 8.00 ± 0.02 mm, wear: 0.15 ± 0.03 mm, dish: 0.08 ± 0.03 mm, from: straight-edge, finish: Ra 3.2 um, square-within: 0.03 mm, interrupted: 6, hold: {in: soft-jaws, diameter: 60 mm, inside: 0 mm, grip: 12 mm, overhang: 20 mm, true-within: 0.02 mm, stop: step}, step: {present: 3.00 ± 0.02 mm, cut: same}, least-thickness: 7.5 mm, pair: half B, springs: {count: 6, rate: 9 N/mm, most-change: 20 N}}\n  - part: half B\n    material: mild steel\n    operations:\n      - skim: {outside: 120 mm, inside: 84 mm, length: 8.00 ± 0.02 mm, wear: 0.15 ± 0.03 mm, dish: 0.08 ± 0.03 mm, from: straight-edge, finish: Ra 3.2 um, square-within: 0.03 mm, interrupted: 6, hold: {in: soft-jaws, diameter: 60 mm, inside: 0 mm, grip: 12 mm, overhang: 20 mm, true-within: 0.02 mm, stop: step}, step: {present: 3.00 ± 0.02 mm, cut: same}, least-thickness: 7.5 mm, pair: half A, springs: {count: 6, rate: 9 N/mm, most-change: 20 N}}\n";

/// The springs stand longer by what was taken off both halves, as the log has it of both and not as one was planned.
#[test]
fn both_halves_of_a_pair_count_as_they_were_left() {
    let job = PAIR;
    let clamp = |left: f64| {
        let job: JobFile<Request> = Node::yaml(job, Place::start(0)).unwrap().read().unwrap();
        let mut log = Ledger::default();
        for (at, half) in [(1, "half A/skim"), (2, "half B/skim")] {
            log.leave(&half.parse().unwrap(), "length_after", Figure::as_left(left, Unit::Mm, 0.004, at));
        }
        let cards = Cards::built_in(Request::WORDS.iter().copied()).unwrap();
        let plan = work(&job, Some(&shop(SHOP)), &cards, log).unwrap();
        let last = plan.operations.last().unwrap();
        let check = last.answer.checks.iter().find(|check| check.id == "clamp-lost").unwrap();
        (value(last, "clamp_change"), check.verdict())
    };
    // Both seats fell by what went beyond the step: twice 0.20 mm on springs of 54 N/mm.
    let (deep, planned) = (clamp(7.58), clamp(7.78));
    assert!((deep.0 + 21.6).abs() < 0.3 && deep.1 == Some(Verdict::Fails), "{deep:?}");
    assert!(planned.0.abs() < 0.3 && planned.1 == Some(Verdict::Proven), "{planned:?}");
}

/// Whoever cuts the first half deeper than was planned has the second planned after it, whichever is listed first; never shallower.
#[test]
fn the_other_half_follows_what_was_cut_deeper() {
    let planned = |of: &str, left: f64| {
        let left = [("length_after", left, Unit::Mm, 0.004)];
        let plan = plan_left(PAIR, &shop(SHOP), (of, "skim"), &left);
        let other = plan.operations.iter().find(|planned| planned.address.part != of).unwrap();
        (value(other, "removed"), value(other, "length_after"))
    };
    let plan = in_shop(PAIR);
    let both = value(first(&plan), "removed");
    for of in ["half A", "half B"] {
        let (removed, left) = planned(of, 8.0 - both - 0.10);
        assert!((both + 0.10 - 1e-9..both + 0.13).contains(&removed), "{of}: {removed} of {both}");
        assert_abs_diff_eq!(left, 8.0 - removed, epsilon = 1e-9);
        // Half cut, it is cut on: the other is planned as deep as both were.
        assert_abs_diff_eq!(planned(of, 7.95).0, both, epsilon = 1e-9);
    }
}
