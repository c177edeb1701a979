//! A size that a job makes, opens or lays bare cannot have been read before: what is typed of it stands only where it covers all that the
//! work may leave. Over every pair of operations that meet in such a size.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{SHOP, in_shop, shop};
use setover::handbook::StateKind;
use setover::job::JobFile;
use setover::operations::Request;
use setover::plan::{Cards, Given, Logged, Plan, Planned, work_together};
use setover::proof::{Place, Verdict};
use setover::reading::Node;

/// What makes a size, and what goes by it: the other's keys with `SIZE` where it is typed, and from where to where it may be left;
/// nothing where only a reading can tell.
struct Pair {
    part: &'static str,
    maker: &'static str,
    user: &'static str,
    left: Option<(f64, f64)>,
    /// About so large.
    about: f64,
}

const BORE: &str = "bore-hole: {present: 24.2 ± 0.05 mm, bore: 25.00 .. 25.05 mm, depth: 30 mm, through: true, behind: 6.0 ± 0.5 mm, outside: 48.0 ± 0.1 mm, over-all: 30 ± 0.1 mm, eccentric: 0.05 ± 0.02 mm, least-wall: 10 mm, true-to: bore, finish: Ra 3.2 um, hold: {in: soft-jaws, diameter: 48 mm, grip: 18 mm, overhang: 12 mm, true-within: 0.03 mm, stop: step}SET}";
const PRESS: &str = "press-in: {housing: {bore: SIZE, outside: 48 mm, length: 20 mm, finish: Ra 0.8 um}, bush: {outside: ROUND mm, bore: 18.000 ± 0.004 mm, length: 20 mm, material: phosphor bronze, finish: Ra 0.8 um}, stands: flush, support: {inside: 30 mm, under: boss}SET}";
const REAM: &str = "ream-bush: {housing: {bore: SIZE, outside: 48 mm, length: 20 mm, finish: Ra 0.8 um}, bush: {outside: ROUND mm, bore: 15.950 ± 0.004 mm, length: 20 mm, material: phosphor bronze, finish: Ra 0.8 um}, shaft: 15.984 ± 0.003 mm, clearance: 1 .. 2 thou, assemble: press, gauge: plugs, by: hand, oil-holes: [{diameter: 3 mm, at: 10 mm}]SET}";
const REAMED: &str = "ream-bush: {housing: {bore: 20.010 ± 0.004 mm, outside: 40 mm, length: 20 mm, finish: Ra 0.8 um}, bush: {outside: 20.045 ± 0.004 mm, bore: 15.950 ± 0.004 mm, length: 20 mm, material: phosphor bronze, finish: Ra 0.8 um}, shaft: 15.984 ± 0.003 mm, clearance: 1 .. 2 thou, assemble: press, gauge: plugs, by: hand, oil-holes: [{diameter: 3 mm, at: 10 mm}]SET}";
const FIT: &str = "fit-up: {bore: SIZE, shaft: 15.900 ± 0.004 mm, shaft-material: mild steel, clearance: 0.030 .. 9 mm, running: {bore: 60 degC, shaft: 60 degC}SET}";
const DRILL: &str = "drill: {starts-on: flat, diameter: 6.8 mm, depth: 20 mm, wall: 30.0 ± 0.3 mm, edge: 14.0 ± 0.2 mm, stick-out: 60 mm, hold: {in: vice, tested: 30 N·m, grip: 12 mm, overhang: 6 mm}SET}";
const TAP: &str = "tap: {thread: M8, hole: SIZE, depth: 10 mm, hole-depth: 20.0 ± 0.3 mm, lead: plug, worn: false, hold: {in: vice, tested: 30 N·m, grip: 12 mm, overhang: 6 mm}SET}";
const TAP_DEEP: &str = "tap: {thread: M8, hole: 6.84 ± 0.08 mm, depth: 4 mm, hole-depth: SIZE, lead: plug, worn: false, hold: {in: vice, tested: 30 N·m, grip: 12 mm, overhang: 6 mm}SET}";
const SEAT: &str = "spot-face: {hole: SIZE, diameter: 18 mm, depth: 2.0 mm, pilot: 6.70 ± 0.01 mm, pilot-length: 12 mm, uneven: 1.0 ± 0.1 mm, wall: 30.0 ± 0.2 mm, least-left: 10 mm, square-within: 0.3 mm, hold: {in: clamps, tested: 60 N·m}SET}";
const INSERT: &str = "thread-insert: {hold: {in: clamps, tested: 60 N·m}, thread: M8, wall: 30.0 ± 0.3 mm, hole: blind, present-hole: SIZE, present-depth: 20.0 ± 0.3 mm, edge: 14 ± 0.2 mm, tang: outSET}";
const PART_OFF: &str = "part-off: {outside: 22 mm, bore: 12 mm, length: 8.2 .. 8.6 mm, over-all: 60 ± 0.2 mm, caught: rod, hold: {in: jaws, diameter: 22 mm, grip: 40 mm, overhang: 20 mm, true-within: 0.1 mm, stop: rod, nipped: hard}SET}";
const FACE: &str = "face: {outside: 22 mm, inside: 12 mm, length: SIZE, wear: 0.12 ± 0.02 mm, finish: Ra 3.2 um, least-length: 1 mm, hold: {in: collet, tested: 30 N·m, diameter: 22 mm, grip: 4 mm, overhang: 2 mm, true-within: 0.02 mm}SET}";
const PRESS_OUT: &str = "press-out: {housing: {outside: 48 mm, length: 20 mm}, bush: {outside: 25.02 ± 0.02 mm, bore: 18.10 ± 0.02 mm, length: 23 mm, material: LG2}, interference: 0.030 mm, held-by: flange, push-from: inner, flange: {diameter: 30 mm, thickness: 3 mm}, mandrel: {diameter: 24.5 mm, length: 40 mm}, support: {inside: 32 mm, height: 40 mm, under: boss}SET}";

/// What stands for each operation where the size itself is none of the pair.
const PRESSED: &str = "press-in: {housing: {bore: 24.010 ± 0.004 mm, outside: 46 mm, length: 20 mm, finish: Ra 0.8 um}, bush: {outside: 24.036 ± 0.004 mm, bore: 18.000 ± 0.004 mm, length: 20 mm, material: phosphor bronze, finish: Ra 0.8 um}, stands: flush, support: {inside: 30 mm, under: boss}SET}";

fn pairs() -> Vec<Pair> {
    let pair = |part, maker, user, left: Option<(f64, f64)>, about| Pair { part, maker, user, left, about };
    vec![
        pair("cast aluminium", BORE, PRESS, Some((25.0, 25.05)), 25.02),
        pair("cast aluminium", BORE, REAM, Some((25.0, 25.05)), 25.02),
        pair("cast aluminium", BORE, FIT, Some((25.0, 25.05)), 25.02),
        pair("cast aluminium", REAMED, FIT, Some((16.0094, 16.0348)), 16.022),
        pair("cast aluminium", PRESSED, FIT, Some((17.97, 17.98)), 17.975),
        pair("cast aluminium", DRILL, TAP, Some((6.8, 6.9)), 6.85),
        pair("cast aluminium", DRILL, TAP_DEEP, Some((19.85, 20.15)), 20.0),
        pair("GG25", DRILL, SEAT, Some((6.8, 6.9)), 6.85),
        pair("cast aluminium", DRILL, INSERT, Some((6.8, 6.9)), 6.85),
        pair("phosphor bronze", PART_OFF, FACE, Some((8.2, 8.6)), 8.4),
        pair("cast aluminium", PRESS_OUT, PRESS, None, 25.02),
        pair("cast aluminium", PRESS_OUT, REAM, None, 25.02),
    ]
}

/// The lines of a part, one an operation; `set` is what stands in its set-up.
fn job(part: &str, operations: &[(&str, &str)]) -> String {
    let line = |(of, set): &(&str, &str)| {
        let set = if set.is_empty() { String::new() } else { format!(", set-up: {{{set}}}") };
        format!("      - {}\n", of.replace("SET}", &format!("{set}}}")))
    };
    let lines: String = operations.iter().map(line).collect();
    format!("job: One\nparts:\n  - part: part\n    material: {part}\n    operations:\n{lines}")
}

/// An operation that goes by a size, and a bush that is made for it.
fn typed(goes_by: &str, size: f64, doubt: f64) -> String {
    goes_by
        .replace("SIZE", &format!("{size:.4} ± {doubt:.4} mm"))
        .replace("ROUND", &format!("{:.4} ± 0.004", size + 0.035))
}

/// What is said of a size that was not there to be read.
fn said(of: &Planned) -> Option<Verdict> {
    let ids = ["size-there-yet", "size-still-there"];
    let check = of.answer.checks.iter().find(|check| ids.contains(&check.id))?;
    assert!(of.verdict >= check.verdict().unwrap());
    check.verdict()
}

/// The features that both name, one alone, or neither; and names that say nothing.
const SETS: [(&str, &str); 5] =
    [("feature: a", "feature: a"), ("", ""), ("feature: a", ""), ("", "feature: a"), ("name: x", "name: y")];

fn user(plan: &Plan) -> &Planned {
    plan.operations.last().unwrap()
}

#[test]
fn what_is_typed_of_a_size_that_is_made_first_stands_only_where_it_covers_it() {
    for Pair { part, maker, user: goes_by, left, about } in pairs() {
        for (makes, goes) in SETS {
            let of = |size: f64, doubt: f64| {
                let typed = typed(goes_by, size, doubt);
                let plan = in_shop(&job(part, &[(maker, makes), (&typed, goes)]));
                said(user(&plan))
            };
            let case = format!("{maker} / {goes_by} / {makes} {goes}");
            // As fine as an instrument reads it: nobody can have.
            assert!(of(about, 0.002) >= Some(Verdict::Doubtful), "{case}");
            let Some((least, most)) = left else {
                assert_eq!(of(about, 0.3), Some(Verdict::Doubtful), "{case}: only a reading tells");
                continue;
            };
            let half = (most - least) / 2.0;
            assert_eq!(of(about, 4.0 * half), None, "{case}: whatever is left, it is that");
            for off in [-1.0, 1.0] {
                let beyond = of(about + off * 12.0 * half.min(0.02), 0.002);
                assert!(beyond >= Some(Verdict::Doubtful), "{case} {off}: {beyond:?}");
            }
            let far = of(about * 1.08, 0.002);
            let named = makes == goes && makes.starts_with("feature");
            assert_eq!(far, Some(if named { Verdict::Fails } else { Verdict::Doubtful }), "{case}");
        }
    }
}

/// Which job it stands in makes no size readable, nor does where in the file.
#[test]
fn jobs_that_are_given_together_and_another_order_are_no_way_out() {
    let cards = Cards::built_in(Request::WORDS.iter().copied()).expect("cards");
    let shop = shop(SHOP);
    for Pair { part, maker, user: goes_by, about, .. } in pairs() {
        let typed = typed(goes_by, about, 0.002);
        let read = |text: String| -> JobFile<Request> {
            JobFile::read(Node::yaml(&text, Place::start(0)).expect("YAML")).expect("job")
        };
        let jobs = [read(job(part, &[(maker, "")])), read(job(part, &[(&typed, "name: other")]))];
        let given = jobs.iter().map(|job| Given { job, shop: Some(&shop), cards: &cards, log: Logged::default() });
        let plans = work_together(&given.collect::<Vec<_>>()).unwrap();
        assert!(said(user(&plans[1])) >= Some(Verdict::Doubtful), "{maker} / {goes_by}");
        // What must come first comes first, wherever it stands.
        if maker == DRILL || maker == PRESS_OUT {
            let turned = in_shop(&job(part, &[(&typed, "feature: a"), (maker, "feature: a")]));
            assert!(said(&turned.operations[0]) >= Some(Verdict::Doubtful), "{maker} / {goes_by}");
        }
    }
}

/// Another feature is another size, and so is one that is far from it; what stands nearer to the work is what counts.
#[test]
fn another_size_is_another() {
    for Pair { part, maker, user: goes_by, about, .. } in pairs() {
        let of = |size: f64, set: (&str, &str)| {
            let typed = typed(goes_by, size, 0.002);
            said(user(&in_shop(&job(part, &[(maker, set.0), (&typed, set.1)]))))
        };
        let case = format!("{maker} / {goes_by}");
        match maker {
            PART_OFF => {}
            // A hole as wide, drilled at a place that nobody else goes by, is drilled for it.
            DRILL => assert!(of(about, ("feature: a", "feature: b")) >= Some(Verdict::Doubtful), "{case}"),
            // Read just as it is left at a place that nobody else goes by, it is that; as it was before, or another, it is none.
            _ => {
                assert!(of(about, ("feature: a", "feature: b")) <= Some(Verdict::Doubtful), "{case}");
                assert_eq!(of(about * 1.08, ("feature: a", "feature: b")), None, "{case}");
            }
        }
        if !goes_by.contains("hole-depth: SIZE") {
            assert_eq!(of(about * if goes_by == TAP { 0.7 } else { 1.4 }, ("", "")), None, "{case}");
        }
    }
    // Drilled, then bored: the bore is what is pressed into.
    let seat = typed(PRESS, 25.025, 0.025);
    let drill = DRILL.replace("6.8 mm", "24 mm");
    let plan = in_shop(&job("cast aluminium", &[(&drill, "feature: a"), (BORE, "feature: a"), (&seat, "feature: a")]));
    assert_eq!(said(user(&plan)), None);
    let plan = in_shop(&job("cast aluminium", &[(BORE, "feature: a"), (&drill, "feature: a"), (&seat, "feature: a")]));
    assert_eq!(said(user(&plan)), Some(Verdict::Fails), "drilled away after it was bored");
}

/// What an old bush hid was read by nobody before it was out: a day alone says nothing of that, the log says when it was.
#[test]
fn a_day_on_which_it_was_read_frees_nothing_that_was_hidden() {
    for goes_by in [PRESS, REAM] {
        let typed = typed(goes_by, 25.02, 0.004);
        let of = |set: &str| said(user(&in_shop(&job("cast aluminium", &[(PRESS_OUT, ""), (&typed, set)]))));
        assert_eq!((of(""), of("measured: 2026-11-20")), (Some(Verdict::Doubtful), Some(Verdict::Doubtful)));
        let bored = |set: &str| said(user(&in_shop(&job("cast aluminium", &[(BORE, ""), (&typed, set)]))));
        assert!(bored("measured: 2026-11-20") >= Some(Verdict::Doubtful), "a bore is logged when it is bored");
    }
}

/// Going on from what is left, nothing was typed too early.
#[test]
fn going_on_from_it_is_no_reading() {
    let pairs = [
        (BORE, PRESS, "bore-hole/diameter_after"),
        (BORE, FIT, "bore-hole/diameter_after"),
        (REAMED, FIT, "ream-bush/finish_bore"),
        (DRILL, TAP, "drill/hole_drilled"),
        (DRILL, TAP, "drill/drill_diameter"),
        (DRILL, SEAT, "drill/hole_drilled"),
        (PART_OFF, FACE, "part-off/length_parted"),
    ];
    for (maker, goes_by, of) in pairs {
        let on = goes_by.replace("SIZE", &format!("{{of: part/{of}}}")).replace("ROUND", "25.06 ± 0.004");
        for (makes, goes) in SETS {
            if makes.starts_with("name") {
                continue;
            }
            let plan = in_shop(&job("GG25", &[(maker, makes), (&on, goes)]));
            assert_eq!(said(user(&plan)), None, "{of} {makes} {goes}");
        }
    }
}

/// A piece is as long as its limits allow, and whoever goes on from it is judged at the bad one.
#[test]
fn a_piece_that_is_handed_on_is_as_short_as_it_may_be() {
    let face =
        FACE.replace("SIZE", "{of: part/part-off/length_parted}").replace("least-length: 1 mm", "least-length: LEAST");
    let of = |least: &str| {
        let plan = in_shop(&job("phosphor bronze", &[(PART_OFF, ""), (&face.replace("LEAST", least), "")]));
        let check = user(&plan).answer.checks.iter().find(|check| check.id == "least-length").unwrap();
        check.verdict().unwrap()
    };
    // 8.2 less 0.12 and what cleans it up.
    assert_eq!((of("7.8 mm"), of("8.1 mm")), (Verdict::Proven, Verdict::Doubtful));
}

const HARD: &str = "      - face: {set-up: {name: NAME, feature: FEATURE}, outside: 52 mm, inside: 32 mm, length: LENGTH, wear: 0.25 ± 0.02 mm, finish: Ra 1.6 um, least-case: 0.1 mm, removed-before: BEFORE, hold: {in: soft-jaws, diameter: 52 mm, grip: 10 mm, overhang: 12 mm, true-within: 0.01 mm, stop: step}}\n";

/// Twice over one face the second finds less case, whatever was typed of its history; the other end has its own.
#[test]
fn metal_that_goes_first_is_gone_before() {
    let of = |features: [&str; 2], before: &str| {
        let face = |name: &str, feature: &str, length: &str, before: &str| {
            let face = HARD.replace("NAME", name).replace("FEATURE", feature).replace("LENGTH", length);
            face.replace("BEFORE", before)
        };
        let job = format!(
            "job: Two\nparts:\n  - part: ring\n    material: case-hardened steel\n    hardness: 60 HRC\n    case-depth: 1.2 ± 0.1 mm\n    operations:\n{}{}",
            face("one", features[0], "21.85 ± 0.01 mm", "0 mm"),
            face("two", features[1], "{of: ring/one/length_after}", before),
        );
        said(user(&in_shop(&job)))
    };
    assert_eq!(of(["end", "end"], "0 mm"), Some(Verdict::Doubtful));
    assert_eq!(of(["end", "end"], "0.10 ± 0.02 mm"), Some(Verdict::Doubtful));
    assert_eq!(of(["end", "end"], "0.45 ± 0.02 mm"), None);
    assert_eq!(of(["end", "end"], "{of: ring/one/removed}"), None);
    assert_eq!(of(["end", "far end"], "0 mm"), None);
}

/// A track that is turned first has lost so much of its case, whether a feature is named or not.
#[test]
fn a_track_is_polished_on_the_case_that_turning_leaves() {
    let job = |before: &str, size: &str| {
        format!(
            "job: Track\nparts:\n  - part: shaft\n    material: case-hardened steel\n    hardness: 58 HRC\n    case-depth: 0.8 ± 0.05 mm\n    operations:\n      - turn: {{present: 25.50 ± 0.02 mm, outside: 24.95 .. 24.97 mm, length: 22.0 ± 0.2 mm, over-all: 70 ± 0.2 mm, finish: Ra 0.8 um, least-case: 0.2 mm, removed-before: 0 mm, hold: {{in: jaws, diameter: 25.5 mm, grip: 40 mm, overhang: 30 mm, true-within: 0.02 mm, stop: rod}}}}\n      - polish-seal: {{track: 25 mm, size: {size}, groove: 0.012 ± 0.004 mm, removed-before: {before}, speed: 900 rev/min, dirt: clean, run-out: 0.03 ± 0.004 mm, seal-off-centre: 0.05 ± 0.02 mm}}\n"
        )
    };
    let size = "{of: shaft/turn/diameter_after}";
    assert_eq!(said(user(&in_shop(&job("0 mm", size)))), Some(Verdict::Doubtful));
    assert_eq!(said(user(&in_shop(&job("0.28 ± 0.02 mm", size)))), None);
    assert_eq!(said(user(&in_shop(&job("{of: shaft/turn/removed}", size)))), None);
    assert_eq!(said(user(&in_shop(&job("0 mm", "24.0 ± 0.01 mm")))), None, "another track");
}

/// How far an insert sits down is known when it is in.
#[test]
fn an_insert_that_goes_in_first_is_measured_before_its_face_is_lapped() {
    let job = |set_down: &str| {
        format!(
            "job: Lap\nparts:\n  - part: cover\n    material: cast aluminium\n    operations:\n      - thread-insert: {{hold: {{in: clamps, tested: 60 N·m}}, thread: M6, wall: 18.0 ± 0.3 mm, hole: blind, tang: out}}\n      - lap: {{grid: {{x: 0 60 120 180 mm, y: 0 50 100 mm, reads: [0 6 14 9 um, 11 22 31 17 um, 4 19 24 -3 um]}}, flat-within: 0.03 mm, face: {{long: 190 mm, wide: 110 mm}}, out-first: [{{what: dowels, count: 2}}], inserts: [{{thread: M6, set-down: {set_down}}}]}}\n"
        )
    };
    let planned = in_shop(&job("0.75 ± 0.1 mm"));
    assert_eq!(said(user(&planned)), Some(Verdict::Doubtful));
    assert_eq!(said(user(&in_shop(&job("{of: cover/thread-insert/set_down}")))), None);
}

/// A seat over a hole takes nothing from what the drill goes by when that comes first; an insert behind the seat has less wall.
#[test]
fn a_seat_takes_from_the_wall_of_what_comes_behind_it() {
    let seat = SEAT.replace("SIZE", "{of: part/drill/hole_drilled}");
    let plan = in_shop(&job("GG25", &[(DRILL, "feature: a"), (&seat, "feature: a")]));
    assert!(plan.operations.iter().all(|planned| said(planned).is_none()));
    let insert = INSERT.replace("present-hole: SIZE, present-depth: 20.0 ± 0.3 mm", "present-hole: none");
    let behind = |set: &str| said(user(&in_shop(&job("GG25", &[(&seat_alone(), "feature: a"), (&insert, set)]))));
    assert_eq!((behind("feature: a"), behind("feature: b")), (Some(Verdict::Doubtful), None));
}

fn seat_alone() -> String {
    SEAT.replace("SIZE", "6.80 ± 0.02 mm")
}

/// What stands about a bore is as thin as it is in the end, whichever cut comes first.
#[test]
fn an_outside_about_a_bore_is_as_thin_as_it_is_left() {
    const TURN: &str = "turn: {present: 48.0 ± 0.1 mm, outside: 30.0 .. 30.1 mm, length: 10.0 ± 0.2 mm, over-all: 30 ± 0.1 mm, inside: 24.2 mm, corner: 0.4 mm, hold: {in: soft-jaws, diameter: 48 mm, grip: 18 mm, overhang: 12 mm, true-within: 0.03 mm, stop: step}SET}";
    let press = typed(PRESS, 25.02, 0.004);
    for about in [BORE, &press, PRESS_OUT] {
        let of = |operations: [(&str, &str); 2], word: &str| {
            let plan = in_shop(&job("cast aluminium", &operations));
            said(plan.operations.iter().find(|planned| planned.word == word).unwrap())
        };
        let word = about.split(':').next().unwrap();
        for set in ["", "feature: a"] {
            let other = if set.is_empty() { "" } else { "feature: b" };
            assert!(of([(TURN, other), (about, set)], word) >= Some(Verdict::Doubtful), "{about}");
            assert!(of([(about, set), (TURN, other)], word) >= Some(Verdict::Doubtful), "{about}");
        }
        if about == press {
            // The bush goes home by it: that sheet says so, and not the one behind it.
            let plan = in_shop(&job("cast aluminium", &[(TURN, ""), (about, "")]));
            let answer = &user(&plan).answer;
            let home = answer.set_ups.iter().position(|set_up| set_up.checks.contains(&"size-still-there")).unwrap();
            assert!(answer.set_ups[home].leaves.iter().any(|state| state.kind == StateKind::Pressed));
        }
        let thick = about.replace("outside: 48", "outside: 70");
        assert_eq!(of([(&thick, "feature: a"), (TURN, "feature: b")], word), None, "another outside");
    }
}

/// A face that is cut takes from the hole in it: what was read of that is too deep.
#[test]
fn a_hole_is_less_deep_by_what_its_face_loses() {
    const MILL: &str = "mill-face: {width: 36 mm, length: 110 mm, thickness: 30.00 ± 0.05 mm, removed: 0.8 mm, cutter: 50 mm, least-thickness: 17 mm, hold: {in: clamps, clamped: on-a-ledge, tested: 120 N·m, true-within: 0.03 mm}SET}";
    let tap = TAP.replace("hole: SIZE", "hole: 6.80 ± 0.03 mm");
    let of = |faced: &str, sets: [&str; 2]| said(user(&in_shop(&job("GG25", &[(faced, sets[0]), (&tap, sets[1])]))));
    assert_eq!((of(MILL, ["", ""]), of(MILL, ["feature: a", ""])), (Some(Verdict::Doubtful), Some(Verdict::Doubtful)));
    assert_eq!(of(MILL, ["feature: a", "feature: b"]), Some(Verdict::Doubtful), "no hole is called as its face is");
    let seat = seat_alone();
    assert_eq!(of(&seat, ["feature: a", "feature: a"]), Some(Verdict::Doubtful));
    assert_eq!(of(&seat, ["feature: a", "feature: b"]), Some(Verdict::Doubtful), "no hole is called as its seat is");
    assert_eq!(of(&seat, ["", ""]), Some(Verdict::Doubtful), "the same hole");
    let on = tap.replace("hole-depth: 20.0 ± 0.3 mm", "hole-depth: {of: part/drill/drilled_depth}");
    let on = on.replace("hole: 6.80 ± 0.03 mm", "hole: {of: part/drill/hole_drilled}");
    let drilled_on = |operations: &[(&str, &str)]| said(user(&in_shop(&job("GG25", operations))));
    assert_eq!(drilled_on(&[(MILL, ""), (DRILL, "feature: a"), (&on, "feature: a")]), None);
    assert_eq!(drilled_on(&[(DRILL, ""), (MILL, ""), (&on, "")]), Some(Verdict::Doubtful));
    // A hole has another name than the face that it is drilled in.
    let a = "feature: a";
    assert_eq!(drilled_on(&[(DRILL, a), (MILL, "feature: top"), (&on, a)]), Some(Verdict::Doubtful));
    assert_eq!(drilled_on(&[(MILL, "feature: top"), (DRILL, a), (&on, a)]), None);
}

/// A hole that is opened on the tap's own feature is opened before it, wherever it stands.
#[test]
fn a_hole_opened_behind_its_tap_is_opened_before_it() {
    let tap = TAP.replace("SIZE", "{of: part/one/hole_drilled}");
    let wide = DRILL.replace("6.8 mm", "8.5 mm");
    let tapped = |set: &str| {
        let plan = in_shop(&job("GG25", &[(DRILL, "name: one, feature: a"), (&tap, "feature: a"), (&wide, set)]));
        said(&plan.operations[1])
    };
    assert_eq!(tapped("name: two, feature: a"), Some(Verdict::Fails));
    assert_eq!(tapped("name: two, feature: b"), None);
}

/// A link of a gap that was read before its part is faced, whichever part the gap stands in.
#[test]
fn a_link_is_read_after_the_cut_that_takes_from_it() {
    const FACE: &str = "face: {outside: 52 mm, inside: 32 mm, length: 21.85 ± 0.01 mm, wear: 0.25 ± 0.02 mm, finish: Ra 1.6 um, least-length: 18 mm, hold: {in: soft-jaws, diameter: 52 mm, grip: 10 mm, overhang: 12 mm, true-within: 0.01 mm, stop: step}}";
    let gap = |link: &str, size: &str, what: &str| match what {
        "chain" => format!(
            "chain: {{wanted: 20 .. 30 mm, links: [{{link: case, size: 48.00 ± 0.01 mm}}, {{link: {link}, by: -1, size: {size}}}]}}"
        ),
        _ => format!(
            "shim: {{float: 0.10 .. 0.30 mm, chain: [{{link: case, opens: 22.50 ± 0.01 mm}}, {{link: {link}, closes: {size}}}]}}"
        ),
    };
    for what in ["chain", "shim"] {
        let of = |part: &str, link: &str, size: &str| {
            let job = format!(
                "job: Gap\nparts:\n  - part: gap\n    material: mild steel\n    operations:\n      - {}\n  - part: {part}\n    material: mild steel\n    operations:\n      - {FACE}\n",
                gap(link, size, what)
            );
            said(&in_shop(&job).operations[0])
        };
        assert_eq!(of("ring", "collar", "21.85 ± 0.01 mm"), Some(Verdict::Doubtful), "{what}");
        assert_eq!(of("ring", "the ring", "21.85 ± 0.01 mm"), Some(Verdict::Doubtful), "{what}");
        assert_eq!(of("ring", "ring", "{of: ring/face/length_after}"), None, "{what}");
        assert_eq!(of("ring", "collar", "22.10 ± 0.01 mm"), None, "{what}: another size");
    }
}

/// A shaft that another part's turning takes down is no more what the bush was reamed for.
#[test]
fn a_shaft_is_read_after_it_is_turned() {
    const TURN: &str = "turn: {present: 15.984 ± 0.003 mm, outside: 15.80 .. 15.82 mm, length: 22.0 ± 0.2 mm, over-all: 70 ± 0.2 mm, finish: Ra 0.8 um, hold: {in: jaws, diameter: 15.98 mm, grip: 40 mm, overhang: 30 mm, true-within: 0.02 mm, stop: rod}}";
    let fit = FIT.replace("bore: SIZE", "bore: 16.02 ± 0.004 mm").replace("15.900 ± 0.004", "15.984 ± 0.003");
    for (goes_by, by) in [(REAMED, true), (fit.as_str(), true), (FIT, false)] {
        let goes_by = goes_by.replace("SIZE", "16.02 ± 0.004 mm").replace("SET", "");
        let job = format!(
            "job: Shaft\nparts:\n  - part: case\n    material: cast aluminium\n    operations:\n      - {goes_by}\n  - part: shaft\n    material: mild steel\n    operations:\n      - {TURN}\n"
        );
        let plan = in_shop(&job);
        assert_eq!(said(&plan.operations[0]), by.then_some(Verdict::Doubtful), "{goes_by}");
    }
}

/// A new hole is none where one was drilled.
#[test]
fn nothing_is_sound_where_a_hole_was_drilled() {
    let insert = INSERT.replace("present-hole: SIZE, present-depth: 20.0 ± 0.3 mm", "present-hole: none");
    let of = |sets: [&str; 2]| said(user(&in_shop(&job("GG25", &[(DRILL, sets[0]), (&insert, sets[1])]))));
    assert_eq!(of(["feature: a", "feature: a"]), Some(Verdict::Doubtful));
    assert_eq!((of(["feature: a", "feature: b"]), of(["", ""])), (None, None));
}

/// What a joint closes over the piston is more once the barrel is bored.
#[test]
fn a_joint_is_lapped_for_the_bore_that_there_will_be() {
    let worn = std::fs::read_to_string("examples/bore.yaml").unwrap();
    let grid = "{x: 0 60 120 180 mm, y: 0 50 100 mm, reads: [0 6 14 9 um, 11 22 31 17 um, 4 19 24 -3 um]}";
    let of = |bore: &str| {
        let lap = format!(
            "  - part: head\n    material: cast aluminium\n    operations:\n      - lap: {{grid: {grid}, flat-within: 0.03 mm, face: {{long: 190 mm, wide: 110 mm}}, joint: head, bore: {bore}, swept: 120 cm3, clearance-volume: 20 cm3, most-compression: 9, out-first: []}}\n"
        );
        said(user(&in_shop(&format!("{worn}{lap}"))))
    };
    let bored = in_shop(&worn);
    let nominal = bored.operations[0].answer.value("bore_worst").unwrap().number.floor();
    assert_eq!(of(&format!("{nominal} mm")), Some(Verdict::Doubtful), "{nominal}");
    assert_eq!(of("30 mm"), None);
}

/// The head and the barrel close one joint: what is off both is off the room over the piston.
#[test]
fn both_faces_of_a_joint_take_from_the_room_over_the_piston() {
    let lap = |part: &str, assembly: &str, squish: &str| {
        format!(
            "  - part: {part}\n    material: GG25\n{assembly}    operations:\n      - lap: {{grid: {{x: 0 60 120 180 mm, y: 0 50 100 mm, reads: [0 6 14 9 um, 11 22 31 17 um, 4 19 24 -3 um]}}, flat-within: 0.03 mm, face: {{long: 190 mm, wide: 110 mm}}, joint: head, squish: {squish}, least-squish: 0.6 mm, out-first: []}}\n"
        )
    };
    let of = |assemblies: [&str; 2], squish: &str| {
        let job = lap("head", assemblies[0], "0.95 ± 0.05 mm") + &lap("barrel", assemblies[1], squish);
        let plan = in_shop(&format!("job: Joint\nparts:\n{job}"));
        [said(&plan.operations[0]), said(&plan.operations[1])]
    };
    let doubtful = [Some(Verdict::Doubtful); 2];
    assert_eq!(of(["", ""], "0.95 ± 0.05 mm"), doubtful);
    let (front, rear) = ("    assembly: front\n", "    assembly: rear\n");
    assert_eq!(of([front, front], "0.95 ± 0.05 mm"), doubtful);
    assert_eq!(of([front, rear], "0.95 ± 0.05 mm"), [None, None], "two cylinders");
    assert_eq!(of(["", ""], "{of: head/lap/squish_after}"), [None, None]);
}

/// A bore takes one bush, a hole one insert.
#[test]
fn a_feature_is_not_given_two_of_a_kind() {
    let insert = INSERT.replace("present-hole: SIZE", "present-hole: 8.0 ± 0.1 mm");
    let twice = |of: &str, sets: [&str; 2]| {
        let named = |set: &str, name: &str| format!("{set}, name: {name}");
        let (one, two) = (named(sets[0], "one"), named(sets[1], "two"));
        let plan = in_shop(&job("GG25", &[(of, &one), (of, &two)]));
        plan.operations
            .iter()
            .map(|planned| planned.answer.checks.iter().any(|check| check.id == "taken-twice"))
            .collect::<Vec<_>>()
    };
    for of in [PRESSED, insert.as_str()] {
        assert_eq!(twice(of, ["feature: a", "feature: a"]), [false, true], "{of}");
        assert_eq!(twice(of, ["feature: a", "feature: b"]), [false, false], "{of}");
    }
}
