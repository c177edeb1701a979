//! A day that is begun already: what is done, what lies in the oven, what can come no more; and what is warm, or damp with a fuel.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{shop, try_plan};
use setover::plan::day::{Asked, Assumed, Because, Day, Line, Stop, Why, day};
use std::process::Command;

const SHOP: &str = include_str!("../demo/shop.yaml");
const WARM: &str = "      - warm: {bore: 24 mm, outside: 46 mm, length: 20 mm, interference: 0.028 mm, near: [nothing], temper: as-cast}\n";
const PRESS_IN: &str = "      - press-in: {housing: {bore: 24.010 ± 0.004 mm, outside: 46 mm, length: 20 mm, finish: Ra 0.8 um}, bush: {outside: 24.030 ± 0.004 mm, bore: 18.000 ± 0.004 mm, length: 20 mm, material: phosphor bronze, finish: Ra 0.8 um}, opened-by: 0.055 mm, stands: flush, support: {inside: 30 mm, under: boss}}\n";
const OUT: &str = "      - press-out: {housing: {outside: 46 mm, length: 20 mm}, bush: {outside: 24.02 ± 0.02 mm, bore: 18.10 ± 0.02 mm, length: 23 mm, material: LG2}, interference: 0.030 mm, held-by: flange, push-from: inner, flange: {diameter: 30 mm, thickness: 3 mm}, mandrel: {diameter: 23.5 mm, length: 40 mm}, support: {inside: 32 mm, height: 40 mm, under: boss}}\n";
const REAM: &str = "      - ream-bush: {housing: {bore: 20.010 ± 0.004 mm, outside: 40 mm, length: 20 mm, material: cast aluminium, finish: Ra 0.8 um}, bush: {outside: 20.045 ± 0.004 mm, bore: 15.950 ± 0.004 mm, length: 20 mm, material: phosphor bronze, finish: Ra 0.8 um}, shaft: 15.984 ± 0.003 mm, clearance: 1 .. 2 thou, duty: gear, oil-holes: [{diameter: 3 mm, at: 10 mm}], assemble: warm-and-chill, by: hand}\n";
const MILL: &str = "      - mill-face: {width: 36 mm, length: 110 mm, thickness: 18.00 ± 0.05 mm, removed: 0.8 mm, cutter: 50 mm, stick-out: 60 mm, way: conventional, uneven: 0.50 ± 0.05 mm, tram: {reads: 0.02 ± 0.01 mm, over: 200 mm}, flat-within: 0.05 mm, square-within: 0.10 mm, least-thickness: 17 mm, bears: on-solid, hold: {in: clamps, clamped: on-a-ledge, tested: 120 N·m, true-within: 0.03 mm}}\n";
const LAP: &str = "      - lap: {points: {radius: 48 mm, at: 0 45 90 135 180 225 270 315 deg, reads: 0 42 18 -35 6 47 9 -30 um}, with: lever indicator, flat-within: 0.03 mm, face: {long: 110 mm, wide: 110 mm}, out-first: [{what: studs, count: 4}]}\n";

fn cover(operations: &[&str]) -> String {
    let head = "job: Cover\nparts:\n  - part: pump cover\n    material: cast aluminium\n    operations:\n";
    format!("{head}{}", operations.concat())
}

fn set_up(operation: &str, wish: &str) -> String {
    operation.replacen(": {", &format!(": {{set-up: {{{wish}}}, "), 1)
}

/// The day of a job from a time on, with what is done, `ID` or `ID@TIME`.
fn from(job: &str, from: &str, done: &[&str]) -> Day {
    let done = done.iter().map(|word| match word.split_once('@') {
        Some((id, at)) => (id.to_owned(), Some(at.parse().unwrap())),
        None => ((*word).to_owned(), None),
    });
    let asked = Asked { done: done.collect(), from: Some(from.parse().unwrap()), days: 2, ..Asked::default() };
    let plans = vec![try_plan(job, Some(&shop(SHOP))).unwrap_or_else(|all| panic!("{all:#?}"))];
    day(&plans, &asked).unwrap_or_else(|all| panic!("{all:#?}"))
}

fn planned(job: &str) -> Day {
    from(job, "08:00", &[])
}

fn line<'a>(day: &'a Day, id: &str) -> &'a Line {
    day.lines.iter().find(|line| line.id == id).unwrap_or_else(|| panic!("no line {id}"))
}

fn is_in(day: &Day, id: &str) -> bool {
    day.lines.iter().any(|line| line.id == id)
}

fn is_again(day: &Day, id: &str) -> bool {
    day.assumed.iter().any(|own| matches!(own, Assumed::Again(again) if again == id))
}

/// Where the new bush is in, or its housing in the oven for it, the old one is pushed out no more.
#[test]
fn an_old_bush_is_not_pushed_out_behind_the_new_one() {
    let job = cover(&[OUT, REAM]);
    for done in [["2.2@08:10"], ["2.3@08:10"], ["2.6@08:10"]] {
        let day = from(&job, "08:10", &done);
        let out = day.left_out.iter().find(|out| out.id == "1.1").expect("left out");
        assert_eq!(out.stop, Stop::TooLate("press-out-before-measure".into()));
        assert!(!is_in(&day, "1.1") && out.stopped_by == "2.1" && !day.is_whole(), "{done:?}");
        assert!(!is_again(&day, "2.2"));
    }
    let in_oven = from(&job, "08:10", &["2.2@08:10"]);
    assert_eq!(line(&in_oven, "2.3").start, 8 * 60 + 55);
}

/// A face is not cut over an insert that is in.
#[test]
fn a_face_is_not_cut_over_an_insert_that_is_in() {
    let insert = "      - thread-insert: {hold: {in: clamps, tested: 60 N·m}, thread: M6, wall: 18.0 ± 0.3 mm, hole: blind, tang: out}\n";
    let job = cover(&[&set_up(MILL, "feature: top"), &set_up(insert, "feature: m6")]);
    assert!(line(&planned(&job), "1.1").end <= line(&planned(&job), "2.1").start);
    let turned = cover(&[&set_up(insert, "feature: m6"), &set_up(MILL, "feature: top")]);
    assert!(line(&planned(&turned), "2.1").end <= line(&planned(&turned), "1.1").start);
    let day = from(&job, "10:00", &["2.2"]);
    assert!(matches!(&day.left_out[0].stop, Stop::TooLate(because) if because == "mill-face-before-insert"));
}

/// What nobody fetched for hours is not warm, and pushes no bush home.
#[test]
fn what_was_warmed_hours_ago_is_warmed_again() {
    let job = cover(&[REAM]);
    let late = from(&job, "14:40", &["1.1", "1.2@08:10"]);
    assert!(is_again(&late, "1.2") && line(&late, "1.3").start >= line(&late, "1.2").by_itself_until.unwrap());
    let soon = from(&job, "09:40", &["1.1", "1.2@08:10"]);
    assert!(!is_again(&soon, "1.2") && !is_in(&soon, "1.2"));
    // Hot by hand it waits for nobody.
    let torch = "job: Torch\nparts:\n  - part: flange\n    operations:\n      - hand: {set-up: {name: torch}, does: Warm it with the torch., minutes: 10 min, leaves: [warm]}\n      - hand: {set-up: {name: drop}, does: Drop the ring on., minutes: 5 min, needs: [warm]}\n";
    let day = from(torch, "09:00", &["1.1@08:30"]);
    assert_eq!(line(&day, "2.1").start, line(&day, "1.1").end);
}

/// A part that lies in the oven is not measured, and not elsewhere: what must come before it is fetched has it out, and cold.
#[test]
fn a_part_that_is_in_the_oven_is_not_measured() {
    let job = cover(&[WARM, PRESS_IN]);
    let day = from(&job, "08:30", &["1.1"]);
    assert!(is_again(&day, "1.1"));
    let (measure, warm) = (line(&day, "2.1"), line(&day, "1.1"));
    assert!(measure.start >= 8 * 60 + 30 + 60 && measure.end <= warm.start, "{} {}", measure.start, warm.start);
    // Nothing else is done on it before it is out, and nothing to size before it is cold.
    let day = from(&cover(&[WARM, PRESS_IN, OUT]), "08:30", &["3.1@08:00", "2.1@08:15", "1.1@08:30"]);
    assert_eq!(line(&day, "2.2").start, 9 * 60 + 15);
    // A face is milled before the bush is in: cold, and warmed once more for the press.
    let job = cover(&[WARM, PRESS_IN, MILL, OUT]);
    let day = from(&job, "08:30", &["4.1@08:00", "2.1@08:15", "1.1@08:30"]);
    let (mill, warm, home) = (line(&day, "3.1"), line(&day, "1.1"), line(&day, "2.2"));
    assert!(is_again(&day, "1.1") && mill.start >= 8 * 60 + 30 + 60, "{:?}", day.lines);
    assert!(warm.start >= mill.end && home.start >= warm.start + 45, "{:?}", day.lines);
    let fetched = from(&job, "09:30", &["4.1@08:00", "2.1@08:15", "1.1@08:30", "2.2@09:20"]);
    let milled =
        fetched.left_out.iter().find(|out| out.id == "3.1").expect("the bush is in: it would be milled with it");
    assert_eq!(milled.stop, Stop::TooLate("mill-face-before-press".into()));
    let alone = from(&cover(&[WARM, MILL]), "08:30", &["1.1@08:30"]);
    assert!(line(&alone, "2.1").start >= 9 * 60 + 15 + 60);
}

/// Below the new bushes that they make room for old ones come out first all the same, of whatever bore.
#[test]
fn every_old_bush_is_out_before_a_housing_is_measured() {
    let cold = PRESS_IN.replace("opened-by: 0.055 mm, ", "");
    let named = |operation: &str, name: &str| set_up(operation, &format!("name: {name}"));
    let ins = [named(&cold, "in a"), named(&cold, "in b")];
    let outs = [named(OUT, "out a"), named(OUT, "out b")];
    let day = planned(&cover(&[&ins[0], &ins[1], &outs[0], &outs[1]]));
    for (out, measure) in [("3.1", "1.1"), ("3.1", "2.1"), ("4.1", "1.1"), ("4.1", "2.1")] {
        assert!(line(&day, out).end <= line(&day, measure).start, "{out} {measure}");
    }
    // Old, new, old, new, of one bore after the other: each stands as it is typed.
    let turns = planned(&cover(&[&outs[0], &ins[0], &outs[1], &ins[1]]));
    let ids: Vec<&str> = turns.lines.iter().map(|line| line.id.as_str()).collect();
    assert_eq!(ids, ["1.1", "2.1", "2.2", "2.3", "3.1", "4.1", "4.2", "4.3"]);
}

/// A casting warmed once for two bushes: both are measured before, and go in one after the other while it is warm.
#[test]
fn one_warming_serves_two_bushes() {
    for [a, b] in [["name: in a", "name: in b"], ["name: in a, feature: a", "name: in b, feature: b"]] {
        let (one, other) = (set_up(PRESS_IN, a), set_up(PRESS_IN, b));
        for job in [cover(&[WARM, &one, &other]), cover(&[&one, &other, WARM])] {
            let day = planned(&job);
            let at = |id: &str| if job.find("- warm") < job.find("in a") { id.to_owned() } else { shifted(id) };
            let (warm, [first, next]) = (line(&day, &at("1.1")), ["2.2", "3.2"].map(|id| line(&day, &at(id))));
            assert!(["2.1", "3.1"].iter().all(|id| line(&day, &at(id)).end <= warm.start));
            assert_eq!((Some(first.start), next.start), (warm.by_itself_until, first.end));
        }
        // One is in, and the casting cools: it is warmed again for the other.
        let job = cover(&[WARM, &one, &other]);
        let day = from(&job, "10:00", &["2.1@08:20", "3.1@08:40", "1.1@08:45", "2.2@09:35"]);
        assert!(is_again(&day, "1.1") && line(&day, "3.2").start >= line(&day, "1.1").by_itself_until.unwrap());
    }
}

/// The id where the first of three operations stands last.
fn shifted(id: &str) -> String {
    let (operation, set_up) = id.split_once('.').unwrap();
    let operation: usize = operation.parse().unwrap();
    format!("{}.{set_up}", if operation == 1 { 3 } else { operation - 1 })
}

/// Between the map of a face and its lapping its casting is neither warmed nor pressed into, nor another bush pushed out of it.
#[test]
fn a_map_is_lapped_before_the_casting_is_warmed_again() {
    let bush = set_up(PRESS_IN, "name: bush");
    for job in [cover(&[WARM, &bush, LAP]), cover(&[LAP, WARM, &bush]), cover(&[OUT, LAP, WARM]), cover(&[WARM, LAP])] {
        let day = planned(&job);
        let map = day.lines.iter().find(|line| line.set_up == "Map the face").expect("a map");
        let lap = day.lines.iter().find(|line| line.set_up == "Lap the face").expect("a lap");
        for own in &day.lines {
            let moves = ["kitchen oven", "arbor press"].contains(&own.machine.as_str());
            assert!(!moves || own.start < map.start || own.start >= lap.end, "{} {job}", own.id);
        }
    }
    let day = from(&cover(&[LAP, WARM]), "09:00", &["1.1"]);
    assert!(line(&day, "1.2").end <= line(&day, "2.1").start);
}

/// What was washed in a fuel dries in the open before it comes near heat.
#[test]
fn what_is_damp_with_a_fuel_does_not_go_into_the_oven() {
    let wash =
        |cleaner: &str| format!("      - wash: {{cleaner: {cleaner}, dirt: oil, cavities: 3, plugs-out: true}}\n");
    let (fuel, water) = (wash("paraffin"), wash("water and detergent"));
    let between = |job: &str, wash: &str, warm: &str| {
        let day = planned(job);
        let (wash, warm) = (line(&day, wash), line(&day, warm));
        (warm.start >= wash.end).then(|| warm.start - wash.end)
    };
    assert!(between(&cover(&[&fuel, WARM]), "1.1", "2.1") >= Some(60));
    assert!(between(&cover(&[&wash("brake cleaner"), REAM]), "1.1", "2.2") >= Some(60));
    let warm_out = OUT.replace("interference:", "warm-to: 120 degC, near: [nothing], interference:");
    assert!(between(&cover(&[&fuel, WARM, &warm_out]), "1.1", "3.1") >= Some(60));
    assert!(between(&cover(&[&water, WARM]), "1.1", "2.1") < Some(60));
    let done = from(&cover(&[&fuel, WARM]), "09:00", &["1.1@08:50"]);
    assert!(line(&done, "2.1").start >= 8 * 60 + 50 + 60);
}

/// A cut that leaves metal standing is not finished, though a size was logged; what is to be written down and is not is named.
#[test]
fn what_is_logged_too_large_is_not_finished() {
    let folder = tempfile::tempdir().expect("a folder");
    let write = |name: &str, text: &str| std::fs::write(folder.path().join(name), text).expect("written");
    let run = |words: &[&str]| {
        let out = Command::new(env!("CARGO_BIN_EXE_setover")).args(words).current_dir(folder.path()).output();
        String::from_utf8_lossy(&out.expect("runs").stdout).into_owned()
    };
    write("shop.yaml", include_str!("../examples/shop.yaml"));
    write("job.yaml", include_str!("../examples/turn.yaml"));
    let day_of = |size: &str| {
        let _ = std::fs::remove_file(folder.path().join("job.log.yaml"));
        run(&["log", "job.yaml", "pump drive shaft/turn", &format!("diameter_after={size}"), "with=micrometer"]);
        run(&["day", "job.yaml"])
    };
    let large = day_of("24.020 mm");
    assert!(large.contains("1.1 is not finished by L1") && large.contains("Turn to size, belt lathe"), "{large}");
    let right = day_of("23.975 mm");
    assert!(right.contains("Nothing is left to be done.") && right.contains("(L1"), "{right}");
    assert!(right.contains("not in the log: "), "{right}");
}

/// A press that the shop has not is missing where it presses.
#[test]
fn a_press_is_missing_where_it_presses() {
    let none = SHOP.lines().filter(|line| !line.contains("- press:")).collect::<Vec<_>>().join("\n");
    let job = cover(&[&PRESS_IN.replace("opened-by: 0.055 mm, ", "")]);
    let plans = vec![try_plan(&job, Some(&shop(&none))).unwrap_or_else(|all| panic!("{all:#?}"))];
    let day = day(&plans, &Asked { days: 1, ..Asked::default() }).unwrap();
    assert_eq!(day.missing.iter().map(|it| it.id.as_str()).collect::<Vec<_>>(), ["1.2"], "{:?}", day.missing);
}

/// What was set true and gave its place up is set true again; what was worked before it was is no matter, and what stands in its chuck
/// needs no other.
#[test]
fn what_was_set_true_and_came_out_is_set_true_again() {
    const CUTS: &str = include_str!("../demo/one-day/cuts.yaml");
    let again = |done: &[&str]| {
        let day = from(CUTS, "09:00", done);
        let told = day.assumed.iter().any(|own| matches!(own, Assumed::TrueNoMore(id, _) if id == "1.1"));
        assert_eq!(told, day.lines.iter().any(|line| line.id == "1.1"), "{done:?}");
        assert!(line(&day, "2.1").change.is_none(), "{done:?}");
        told
    };
    assert!(!again(&["1.1@08:16"]));
    assert!(again(&["1.1@08:16", "4.1@09:00"]));
    assert!(again(&["1.1", "4.1"]));
    let day = from(CUTS, "09:00", &["4.1@08:16", "1.1@09:00"]);
    assert!(!day.lines.iter().any(|line| line.id == "1.1"));
}

/// What lies in the oven for an old bush is fetched for that, whatever must stand before the press of the new one.
#[test]
fn what_lies_in_the_oven_is_fetched_by_the_first_that_wants_it() {
    let job = cover(&[
        &set_up(WARM, "name: to push out"),
        OUT,
        "      - measure: {what: [{name: bore, gauge: inside, size: 23.99 .. 24.03 mm, with: bore gauge, readings: 6}]}\n",
        &set_up(WARM, "name: to press in"),
        PRESS_IN,
    ]);
    let day = from(&job, "11:10", &["1.1@10:30"]);
    assert!(!day.lines.iter().any(|line| line.id == "1.1"), "{:?}", day.assumed);
    let again = |own: &Assumed| matches!(own, Assumed::Again(_));
    assert!(!day.assumed.iter().any(again), "{:?}", day.assumed);
    assert!(day.lines.iter().any(|line| line.id == "2.1"));
}

/// Why a damp part waits for its oven is told by the rule that it waits for, on the day of the wash and once that is done.
#[test]
fn the_hour_that_a_fuel_airs_is_told_as_that() {
    const WASH: &str = "      - wash: {cleaner: paraffin, dirt: oil, cavities: 3, plugs-out: true}\n";
    let job = cover(&[WASH, WARM, PRESS_IN]);
    for day in [planned(&job), from(&job, "08:20", &["1.1@08:16"])] {
        let warmed = line(&day, "2.1");
        let Why::Apart(id, over, rest, Because::Rule(rule)) = &warmed.why else { panic!("{:?}", warmed.why) };
        assert_eq!((id.as_str(), over + rest), ("1.1", warmed.start));
        assert_eq!(rule.rule, "fuel-aired-before-warm");
    }
    let first = planned(&job);
    let told = |line: &Line| line.apart.iter().any(|edge| edge.id == "1.1" && edge.rest == 60);
    assert!(told(line(&first, "2.1")));
}

/// What goes into an oven or a freezer and is fetched by nothing of the day is told.
#[test]
fn a_load_that_nothing_fetches_is_told() {
    let told = |job: &str| planned(job).assumed.iter().any(|own| matches!(own, Assumed::NothingFetches(..)));
    assert!(told(include_str!("../examples/chill.yaml")));
    assert!(!told(&cover(&[WARM, PRESS_IN])));
}

/// What the shop lacks for work that is done nobody has to find any more; for what is still to be done it is asked for.
#[test]
fn what_is_done_lacks_nothing() {
    const MEASURE: &str =
        "      - measure: {what: [{name: pin hole, gauge: inside, size: 3.1 .. 3.2 mm}], temperature: 20 degC}\n";
    let job = cover(&[MEASURE, MILL]);
    let lacks = |done: &[&str]| from(&job, "08:00", done).missing.iter().filter(|lacking| lacking.id == "1.1").count();
    assert_eq!((lacks(&[]), lacks(&["1.1"])), (1, 0));
}
