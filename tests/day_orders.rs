//! Over every order in which a job may list the works of one part, the day keeps what the part would be scrapped without.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{shop, try_plan};
use setover::handbook::order_rules::{self, Binds, OrderRule};
use setover::plan::day::{Asked, Assumed, Day, Stop, day};

const SHOP: &str = include_str!("../demo/shop.yaml");
const WARM: &str = "warm: {bore: 22 mm, outside: 42 mm, length: 20 mm, interference: 0.026 mm, near: [nothing], temper: artificial, set-up: {feature: bush bore}}";
const CHILL: &str = "chill: {in: freezer, outside: 22 mm, length: 20 mm, bore: 16 mm, material: phosphor bronze, interference: 0.026 mm, opened-by: 0.045 mm, bagged: true, set-up: {feature: bush bore}}";
const OUT: &str = "press-out: {housing: {outside: 42 mm, length: 20 mm}, bush: {outside: 22.02 ± 0.01 mm, bore: 16.1 ± 0.02 mm, length: 20 mm, material: phosphor bronze}, interference: 0.030 mm, held-by: nothing, push-from: outer, mandrel: {diameter: 21.5 mm, length: 40 mm}, support: {inside: 26 mm, height: 40 mm, under: boss}, guarded: true, near: [nothing], set-up: {feature: bush bore}}";
const PRESS: &str = "press-in: {housing: {bore: 22.000 ± 0.004 mm, outside: 42 mm, length: 20 mm, finish: Ra 0.8 um}, bush: {outside: 22.020 ± 0.004 mm, bore: 16.000 ± 0.004 mm, length: 20 mm, material: phosphor bronze, finish: Ra 0.8 um}, opened-by: 0.05 mm, running: {housing: 80 degC}, bored-after: true, support: {inside: 26 mm, height: 40 mm, under: boss}, set-up: {feature: bush bore}}";
const BORE: &str = "bore-hole: {present: 15.98 ± 0.02 mm, bore: 16.50 .. 16.56 mm, depth: 20 mm, through: true, behind: 8 ± 0.5 mm, outside: 42 ± 0.1 mm, over-all: 20 ± 0.1 mm, eccentric: 0.01 ± 0.01 mm, least-wall: 2 mm, true-to: bore, finish: Ra 3.2 um, material: phosphor bronze, hold: {in: four-jaw, diameter: 42 mm, inside: 16 mm, grip: 10 mm, overhang: 10 mm, true-within: 0.02 mm}, set-up: {feature: bush bore}}";
const HOLE: &str = "drill-oil-hole: {diameter: 2.5 mm, at: 10 mm, angle: 90 deg, wall: 3.0 ± 0.05 mm, beyond: 16 ± 0.05 mm, length: 20 mm, stick-out: 35 mm, oilway: {diameter: 4.0 ± 0.1 mm, at: 10.2 ± 0.2 mm, depth: 10 ± 0.5 mm, open: both-ends}, before: ream, hold: {in: angle-plate, tested: 20 N·m}, set-up: {feature: bush bore}}";
const EDGES: &str = "deburr: {edges: 2, by: scraper, turning: false, set-up: {feature: bush bore, name: edges}}";
const WASH: &str = "wash: {cleaner: water and detergent, dirt: oil, cavities: 0}";
const HOUSING: &str = "measure: {what: [{name: housing bore, gauge: inside, size: 21.98 .. 22.04 mm, readings: 6}], cooled: true, set-up: {feature: bush bore, name: housing}}";
const MILL: &str = "mill-face: {width: 30 mm, length: 80 mm, thickness: 37 ± 0.05 mm, removed: 0.6 mm, cutter: 40 mm, stick-out: 60 mm, way: conventional, uneven: 0.3 ± 0.05 mm, tram: {reads: 0.02 ± 0.01 mm, over: 200 mm}, flat-within: 0.05 mm, square-within: 0.2 mm, least-thickness: 30 mm, bears: on-solid, hold: {in: clamps, clamped: on-a-ledge, tested: 120 N·m, true-within: 0.03 mm}}";
const DRILL: &str = "drill: {starts-on: flat, diameter: 8.5 mm, wall: 36.0 ± 0.2 mm, depth: 26 mm, beyond: clear, edge: 16 ± 0.2 mm, least-left: 1.5 mm, hold: {in: clamps, tested: 60 N·m}, set-up: {feature: FEATURE}}";
const TAP: &str = "tap: {thread: M10, hole: 8.55 ± 0.03 mm, depth: 15 mm, hole-depth: 26 ± 0.2 mm, worn: false, hold: {in: vice, tested: 60 N·m, grip: 12 mm, overhang: 6 mm}, set-up: {feature: FEATURE}}";
const LAP: &str = "lap: {grid: {x: 0 60 120 180 mm, y: 0 50 100 mm, reads: [0 6 14 9 um, 11 22 31 17 um, 4 19 24 -3 um]}, flat-within: 0.03 mm, out-first: [], face: {long: 190 mm, wide: 110 mm}}";
const POLISH: &str = "polish-seal: {track: 25 mm, size: 24.962 ± 0.004 mm, groove: 0.012 ± 0.004 mm, removed-before: 0 mm, speed: 1800 rev/min, dirt: clean, run-out: 0.03 ± 0.004 mm, seal-off-centre: 0.05 ± 0.02 mm}";
const FACE: &str = "face: {outside: 52 mm, inside: 32 mm, length: 21.85 ± 0.01 mm, wear: 0.25 ± 0.02 mm, finish: Ra 1.6 um, hold: {in: jaws, diameter: 52 mm, grip: 6 mm, overhang: 12 mm, true-within: 0.01 mm}, float: opens}";
const TURN: &str =
    "turn: {present: 24.60 ± 0.02 mm, outside: 23.95 .. 24.00 mm, length: 22.0 ± 0.2 mm, over-all: 70 ± 0.2 mm}";

/// A day of works of one part, listed in an order.
struct Listed<'a> {
    works: Vec<&'a str>,
    day: Day,
}

impl Listed<'_> {
    /// Where a set-up of a work stands in the day, by its number; none where it is left out.
    fn at(&self, (work, set_up): (&str, u32)) -> Option<usize> {
        let number = self.works.iter().position(|own| *own == work)? + 1;
        self.day.lines.iter().position(|line| line.id == format!("{number}.{set_up}"))
    }

    fn is_listed_before(&self, one: &str, other: &str) -> bool {
        let at = |work: &str| self.works.iter().position(|own| *own == work);
        at(one) < at(other)
    }

    /// What stands in the day at all: a later work never does without the earlier.
    #[track_caller]
    fn stands_before(&self, one: (&str, u32), other: (&str, u32)) {
        match (self.at(one), self.at(other)) {
            (Some(first), Some(then)) => assert!(first < then, "{one:?} before {other:?}: {}", self.told()),
            (None, Some(_)) => panic!("{other:?} without {one:?}: {}", self.told()),
            (_, None) => assert!(!self.day.left_out.is_empty(), "{}", self.told()),
        }
    }

    /// The two as the job lists them.
    #[track_caller]
    fn stands_as_listed(&self, one: (&str, u32), other: (&str, u32)) {
        if self.is_listed_before(one.0, other.0) {
            self.stands_before(one, other);
        } else {
            self.stands_before(other, one);
        }
    }

    fn told(&self) -> String {
        let word = |work: &str| work.split(':').next().unwrap().to_owned();
        let words: Vec<String> = self.works.iter().map(|work| word(work)).collect();
        let lines: Vec<String> = self.day.lines.iter().map(|line| format!("{} {}", line.id, line.set_up)).collect();
        format!("listed {words:?}, worked {lines:?}, left out {:?}", self.day.left_out)
    }
}

/// Every order of some things.
fn orders<T: Copy>(all: &[T]) -> Vec<Vec<T>> {
    if all.is_empty() {
        return vec![Vec::new()];
    }
    let with = |at: usize| {
        let others: Vec<T> = all.iter().enumerate().filter(|(own, _)| *own != at).map(|(_, own)| *own).collect();
        orders(&others).into_iter().map(move |rest| [vec![all[at]], rest].concat())
    };
    (0..all.len()).flat_map(with).collect()
}

/// The day of works of one part as they are listed.
fn listed<'a>(material: &str, works: &[&'a str]) -> Listed<'a> {
    let operations: String = works.iter().map(|work| format!("      - {work}\n")).collect();
    let job = format!(
        "job: Listed\nparts:\n  - part: case\n    material: {material}\n    longest: 240 mm\n    operations:\n{operations}"
    );
    let plans = vec![try_plan(&job, Some(&shop(SHOP))).unwrap_or_else(|all| panic!("{job}: {all:#?}"))];
    let day = day(&plans, &Asked { days: 5, ..Asked::default() }).unwrap_or_else(|all| panic!("{job}: {all:#?}"));
    Listed { works: works.to_vec(), day }
}

/// What is cut in a bush is cut once it is in and its closed-in bore is read, the oil hole before the bore where the job lists it so.
#[test]
fn a_bush_is_pressed_and_read_before_it_is_cut() {
    for works in orders(&[PRESS, BORE, HOLE, WARM, EDGES]) {
        let day = listed("cast aluminium", &works);
        for cut in [BORE, HOLE] {
            day.stands_before((PRESS, 2), (cut, 1));
            day.stands_before((PRESS, 3), (cut, 1));
        }
        if day.is_listed_before(HOLE, BORE) {
            day.stands_before((HOLE, 1), (BORE, 1));
        }
        day.stands_before((PRESS, 1), (WARM, 1));
        day.stands_before((WARM, 1), (PRESS, 2));
        if day.is_listed_before(EDGES, PRESS) {
            day.stands_before((EDGES, 1), (PRESS, 2));
        }
    }
}

/// So it is with the old bush in it, washed and measured.
#[test]
fn an_old_bush_is_out_before_its_housing_is_measured_and_the_new_one_in_before_it_is_bored() {
    for works in orders(&[OUT, HOUSING, PRESS, BORE, WARM]) {
        let day = listed("cast aluminium", &works);
        day.stands_before((OUT, 1), (PRESS, 1));
        day.stands_before((PRESS, 3), (BORE, 1));
        if day.is_listed_before(OUT, HOUSING) {
            day.stands_before((OUT, 1), (HOUSING, 1));
        }
        if day.is_listed_before(HOUSING, PRESS) {
            day.stands_before((HOUSING, 1), (PRESS, 2));
        }
    }
}

/// What is pressed into a casting, or pushed out of it, moves the bores beside it: they are bored behind that, however the job lists them,
/// but for a bore that a bush sits in.
#[test]
fn a_bore_is_finished_behind_what_moves_it_from_beside() {
    let beside = BORE.replace("feature: bush bore", "feature: shaft bore");
    for (moves, set_up) in [(PRESS, 2), (OUT, 1)] {
        for works in orders(&[moves, beside.as_str()]) {
            let day = listed("cast aluminium", &works);
            day.stands_before((moves, set_up), (&beside, 1));
        }
    }
    let housing = |feature: &str| BORE.replace("feature: bush bore", &format!("feature: {feature}"));
    let (left, right) = (housing("left"), housing("right"));
    let into = |feature: &str| PRESS.replace("feature: bush bore", &format!("feature: {feature}"));
    let (in_left, in_right) = (into("left"), into("right"));
    let day = listed("cast aluminium", &[&left, &in_left, &right, &in_right]);
    day.stands_before((&left, 1), (&in_left, 2));
    day.stands_before((&right, 1), (&in_right, 2));
}

/// What is listed behind an old bush that is pushed out is done to its bore, however late that comes; what is listed before it, to the bush.
#[test]
fn nothing_is_done_to_a_bore_with_its_old_bush_in_it() {
    let late = OUT.replace("feature: bush bore", "feature: bush bore, not-before: \"10:00\"");
    let day = listed("cast aluminium", &[&late, BORE, EDGES, WASH]);
    for work in [BORE, EDGES, WASH] {
        day.stands_before((&late, 1), (work, 1));
    }
    for works in orders(&[late.as_str(), BORE]) {
        listed("cast aluminium", &works).stands_as_listed((&late, 1), (BORE, 1));
    }
}

/// A casting is gripped to be bored before its joint is lapped, however late that comes; a bush behind its press, and a lap between.
#[test]
fn a_casting_is_gripped_before_its_joint_is_lapped() {
    let late = BORE.replace("feature: bush bore", "feature: other bore, not-before: \"10:00\"");
    for works in orders(&[late.as_str(), LAP]) {
        listed("cast aluminium", &works).stands_before((&late, 1), (LAP, 1));
    }
}

/// What `plan` judges by the order of the file the day keeps where the file has it right, however much sooner it would end otherwise: a hole is
/// not drilled in a face that is to be milled.
#[test]
fn a_face_that_is_listed_first_is_cut_first() {
    let late = |work: &str| match work.strip_suffix('}') {
        Some(open) if !work.contains("set-up:") => format!("{open}, set-up: {{feature: top, not-before: \"10:00\"}}}}"),
        _ => work.to_owned(),
    };
    let (mill, face, drill) = (late(MILL), late(FACE), DRILL.replace("FEATURE", "stud"));
    listed("cast aluminium", &[&mill, &drill]).stands_before((&mill, 1), (&drill, 1));
    for cut in [TURN, BORE] {
        listed("mild steel", &[&face, cut]).stands_before((&face, 1), (cut, 1));
    }
}

/// What comes hot out of the oven is not scraped, washed, nor an old bush pushed out of it, until it is cool.
#[test]
fn what_is_hot_is_let_alone() {
    let beside = |work: &str| work.replace("feature: bush bore", "feature: beside");
    let (edges, out) = (beside(EDGES), beside(OUT));
    for work in [edges.as_str(), WASH, out.as_str()] {
        let day = listed("cast aluminium", &[WARM, PRESS, work]);
        let line = |of: (&str, u32)| &day.day.lines[day.at(of).unwrap_or_else(|| panic!("{}", day.told()))];
        let (own, warm, press) = (line((work, 1)), line((WARM, 1)), line((PRESS, 2)));
        assert!(own.end <= warm.start || own.start >= press.end + 60, "{}", day.told());
    }
}

/// What a card needs of a part is what some other set-up of the day leaves it, whatever bore that was: it is not taken as done.
#[test]
fn what_a_card_needs_is_waited_for() {
    let job = format!(
        "job: Needs\nparts:\n  - part: plate\n    operations:\n      - hand: {{does: Bolt the case to it., minutes: 10 min, needs: [case:pressed]}}\n  - part: case\n    material: cast aluminium\n    operations:\n      - {WARM}\n      - {PRESS}\n"
    );
    let plans = vec![try_plan(&job, Some(&shop(SHOP))).unwrap_or_else(|all| panic!("{all:#?}"))];
    let day = day(&plans, &Asked { days: 1, ..Asked::default() }).expect("a day");
    let at = |id: &str| day.lines.iter().position(|line| line.id == id);
    assert!(at("3.2") < at("1.1") && at("3.2").is_some(), "{:?}", day.lines);
    assert!(!day.taken_as_done.iter().any(|state| state.to_string().contains("pressed")), "{:?}", day.taken_as_done);
}

/// A part that is said to be warm is measured and cut when it has cooled; without that it is begun at once.
#[test]
fn what_is_warm_as_the_day_begins_cools_first() {
    let warm = HOUSING.replace("cooled: true", "cooled: false");
    let begins = |works: &[&str]| listed("cast aluminium", works).day.lines.iter().map(|line| line.start).min();
    assert!(begins(&[HOUSING, MILL]) < Some(8 * 60 + 30));
    assert!(begins(&[&warm, MILL]) >= Some(9 * 60));
}

/// A size that is there before the work is read before metal is cut by it; one that the work leaves, at its end.
#[test]
fn a_hold_point_is_told_when_it_can_be_read() {
    let drill = DRILL.replace("FEATURE", "stud");
    let day = listed("cast aluminium", &[&drill, TURN]);
    let line = |work: &str| &day.day.lines[day.at((work, 1)).expect("in the day")];
    for first in [&drill, TURN] {
        assert!(line(first).hold_point && line(first).read_at == line(first).start, "{first}");
    }
    let day = listed("mild steel", &[POLISH]);
    let polish = &day.day.lines[day.at((POLISH, 1)).expect("in the day")];
    assert!(polish.hold_point && polish.read_at == polish.end);
}

/// A hole is drilled before its bore is finished where it is listed so, and a housing is bored and drilled before its bush is in.
#[test]
fn a_bore_that_is_finished_is_not_drilled_again() {
    let drill = DRILL.replace("FEATURE", "bush bore");
    for works in orders(&[PRESS, drill.as_str(), BORE]) {
        let day = listed("cast aluminium", &works);
        if day.at((BORE, 1)).is_some() {
            day.stands_as_listed((&drill, 1), (BORE, 1));
        }
        day.stands_before((PRESS, 3), (BORE, 1));
        if day.is_listed_before(PRESS, &drill) {
            day.stands_before((PRESS, 3), (&drill, 1));
        } else if day.is_listed_before(&drill, PRESS) && !day.is_listed_before(BORE, &drill) {
            day.stands_before((&drill, 1), (PRESS, 2));
        }
    }
    let tap = TAP.replace("FEATURE", "bush bore");
    for works in orders(&[PRESS, tap.as_str(), EDGES]) {
        let day = listed("cast aluminium", &works);
        day.stands_as_listed((PRESS, 2), (&tap, 1));
    }
    // The bore of the housing, by its size.
    let housing = BORE
        .replace(
            "present: 15.98 ± 0.02 mm, bore: 16.50 .. 16.56 mm",
            "present: 21.40 ± 0.02 mm, bore: 21.99 .. 22.01 mm",
        )
        .replace("material: phosphor bronze, ", "");
    for works in orders(&[PRESS, housing.as_str(), EDGES]) {
        let day = listed("cast aluminium", &works);
        if day.is_listed_before(&housing, PRESS) {
            day.stands_before((&housing, 1), (PRESS, 2));
        }
    }
}

/// What a cut raised is broken behind it, and washed off behind that.
#[test]
fn burrs_are_broken_behind_the_cut_that_raised_them() {
    let drill = DRILL.replace("FEATURE", "hole A");
    for cut in [drill.as_str(), MILL] {
        let deburr = "deburr: {edges: 4, by: file, turning: false}";
        for works in orders(&[
            WASH,
            cut,
            deburr,
            "measure: {what: [{name: step, gauge: outside, size: 36.2 .. 36.6 mm, readings: 3}]}",
        ]) {
            let day = listed("GG25", &works);
            day.stands_as_listed((cut, 1), (deburr, 1));
            if day.is_listed_before(deburr, WASH) {
                day.stands_before((deburr, 1), (WASH, 1));
            }
            day.stands_as_listed(
                (cut, 1),
                (works[works.iter().position(|own| own.starts_with("measure")).unwrap()], 1),
            );
        }
    }
}

/// The joint of an old bush is warm as it is pushed out, and the housing is measured as the job lists it.
#[test]
fn what_is_warmed_for_an_old_bush_pushes_it_out() {
    let out = OUT.replace("held-by", "warm-to: 90 degC, held-by");
    let warm = WARM.replace("interference: 0.026 mm", "to: 95 degC");
    for works in orders(&[warm.as_str(), out.as_str(), HOUSING]) {
        let day = listed("cast aluminium", &works);
        day.stands_before((&warm, 1), (&out, 1));
        day.stands_as_listed((&out, 1), (HOUSING, 1));
        assert!(!day.day.taken_as_done.iter().any(|state| state.to_string().contains("warm")), "{}", day.told());
    }
}

/// A face that is lapped flat is moved by no press behind it, but where the job lists the lap first.
#[test]
fn a_face_is_lapped_behind_what_moves_it() {
    for works in orders(&[WARM, PRESS, LAP]) {
        let day = listed("cast aluminium", &works);
        day.stands_as_listed((PRESS, 2), (LAP, 1));
        day.stands_as_listed((PRESS, 2), (LAP, 2));
        day.stands_before((WARM, 1), (PRESS, 2));
        if day.is_listed_before(PRESS, LAP) {
            day.stands_before((WARM, 1), (LAP, 1));
        }
    }
}

/// Nothing is gripped on a track that is polished.
#[test]
fn a_track_is_polished_behind_all_that_is_held_to_be_cut() {
    let [drill, tap] = [DRILL, TAP].map(|work| work.replace("FEATURE", "hole A"));
    for works in orders(&[POLISH, FACE, TURN, drill.as_str(), tap.as_str()]) {
        let day = listed("mild steel", &works);
        for cut in [FACE, TURN, &drill, &tap] {
            if day.at((cut, 1)).is_some() {
                day.stands_before((cut, 1), (POLISH, 1));
            }
        }
        assert!(day.at((POLISH, 1)).is_some() && day.day.lines.len() > 2, "{}", day.told());
    }
}

/// A housing in the oven and its bush in the freezer are two pieces: both are fetched by one press.
#[test]
fn a_housing_is_warm_and_its_bush_cold_for_one_press() {
    let press = PRESS.replace("opened-by: 0.05 mm", "opened-by: 0.045 mm, chilled-by: 0.008 mm");
    let warm = WARM.replace("near", "chilled-by: 0.008 mm, near");
    for works in orders(&[&warm, CHILL, press.as_str(), HOUSING]) {
        let day = listed("cast aluminium", &works);
        // Nothing is read while it is warm: a reading that the file puts behind the warming and before the cold has no place, which is told.
        if !day.day.left_out.is_empty() {
            assert!(day.is_listed_before(&warm, HOUSING) && day.is_listed_before(HOUSING, CHILL), "{}", day.told());
            assert!(day.day.left_out.iter().any(|out| matches!(out.stop, Stop::NotApart(..))), "{}", day.told());
            continue;
        }
        let line = |work: &str, set_up| &day.day.lines[day.at((work, set_up)).unwrap()];
        let home = line(&press, 2);
        for load in [line(&warm, 1), line(CHILL, 1)] {
            assert_eq!(load.fetched.as_ref().map(|(id, _)| id.as_str()), Some(home.id.as_str()));
            assert!(load.by_itself_until.unwrap() <= home.start && load.start / 1440 == home.start / 1440);
        }
    }
}

/// A cut that the job puts behind the warming, and a rule before the press, would come to a warm part: it is never done so, and told.
#[test]
fn nothing_is_cut_between_a_warming_and_its_press() {
    let mill = MILL.replace("mill-face: {", "mill-face: {set-up: {after: case/warm}, ");
    let day = listed("cast aluminium", &[WARM, PRESS, &mill]);
    let says: Vec<&Stop> = day.day.left_out.iter().map(|out| &out.stop).collect();
    assert!(
        says.iter().any(|stop| matches!(stop, Stop::NotApart(load, _) if load == "1.1")),
        "{says:?} {}",
        day.told()
    );
}

/// What a card of free words does nobody else knows: it keeps its place in the file among the works of its part.
#[test]
fn a_card_of_free_words_changes_places_with_nothing() {
    const WELD: &str = "hand: {set-up: {name: weld}, does: Weld the broken lug on again., minutes: 40 min}";
    const PLUGS: &str = "hand: {set-up: {name: plugs}, does: Drive the core plugs in., minutes: 10 min}";
    for works in orders(&[WELD, MILL, PLUGS, WASH]) {
        let day = listed("cast aluminium", &works);
        for hand in [WELD, PLUGS] {
            works.iter().filter(|work| **work != hand).for_each(|work| day.stands_as_listed((hand, 1), (work, 1)));
        }
    }
}

/// What a card says of itself takes nothing from its place: with the state that it leaves it stands as it is listed, and besides it is bound
/// as the operation is that leaves that state.
#[test]
fn a_card_that_says_what_it_leaves_keeps_its_place() {
    const PULL: &str = "hand: {set-up: {name: pull, feature: bush bore, not-before: \"11:00\"}, does: Pull the old bush out., minutes: 20 min, leaves: [pressed-out]}";
    const STUDS: &str = "hand: {set-up: {name: studs, not-before: \"11:00\"}, does: Take the studs out., minutes: 20 min, leaves: [studs-out]}";
    const HOLE: &str = "hand: {set-up: {name: hole, feature: stud, not-before: \"11:00\"}, does: Drill the hole., minutes: 20 min, leaves: [drilled]}";
    let tap = TAP.replace("FEATURE", "stud");
    for works in orders(&[PULL, PRESS, WARM, EDGES]) {
        let day = listed("cast aluminium", &works);
        day.stands_before((PULL, 1), (PRESS, 1));
    }
    for works in orders(&[STUDS, LAP, MILL]) {
        let day = listed("cast aluminium", &works);
        let map = if day.is_listed_before(STUDS, LAP) { 1 } else { 2 };
        day.stands_before((STUDS, 1), (LAP, map));
    }
    for works in orders(&[HOLE, tap.as_str(), MILL]) {
        let day = listed("cast aluminium", &works);
        day.stands_before((HOLE, 1), (tap.as_str(), 1));
        // What a must turns round is told.
        let turned = day.is_listed_before(&tap, HOLE);
        let is_told = |own: &Assumed| matches!(own, Assumed::NotKept(rule, ..) if rule == "work-before-hand");
        assert_eq!(day.day.assumed.iter().any(is_told), turned, "{:?} {}", day.day.assumed, day.told());
    }
    const REAM: &str =
        "hand: {set-up: {name: ream, feature: bush bore}, does: Ream it., minutes: 20 min, leaves: [reamed]}";
    const OIL: &str = "hand: {set-up: {name: oil, feature: bush bore, not-before: \"13:00\"}, does: Drill the oil hole., minutes: 20 min, leaves: [oil-hole-drilled]}";
    for works in orders(&[REAM, OIL, PRESS]) {
        let day = listed("cast aluminium", &works);
        day.stands_before((OIL, 1), (REAM, 1));
        day.stands_before((PRESS, 2), (OIL, 1));
        day.stands_before((PRESS, 3), (REAM, 1));
    }
}

/// A press that must not be done is a press still: what waits for its heat waits with it.
#[test]
fn a_lap_waits_for_a_press_that_must_not_be_done() {
    let press = PRESS.replace("opened-by: 0.05 mm", "opened-by: 0.021 mm");
    let day = listed("cast aluminium", &[&press, LAP]);
    assert!(day.day.lines.iter().all(|line| !line.id.starts_with("2.")), "{}", day.told());
}

/// A part whose bore must not be cut is not parted off: nothing would hold it when the bore is put right.
#[test]
fn what_has_a_cut_left_out_is_not_parted_off() {
    let part_off = "part-off: {outside: 30 mm, bore: 16.2 mm, length: 10.2 .. 10.6 mm, over-all: 80 ± 0.2 mm, caught: rod, hold: {in: jaws, diameter: 30 mm, inside: 16 mm, grip: 50 mm, overhang: 30 mm, true-within: 0.05 mm, nipped: hard, tested: 40 N·m, stop: rod}}";
    let whole = "bore-hole: {present: 16 ± 0.05 mm, bore: 18.0 .. 18.1 mm, depth: 20 mm, present-depth: 80 ± 0.3 mm, outside: 31.4 ± 0.05 mm, over-all: 80 ± 0.2 mm, eccentric: 0.01 ± 0.01 mm, least-wall: 4 mm, true-to: outside, finish: Ra 3.2 um, hold: {in: jaws, diameter: 31.4 mm, inside: 16 mm, grip: 50 mm, overhang: 30 mm, true-within: 0.05 mm, stop: rod}}";
    let thin = whole.replace("least-wall: 4 mm", "least-wall: 14 mm");
    let day = |bore: &str| {
        listed("mild steel", &[bore, part_off]).day.left_out.iter().map(|out| out.id.clone()).collect::<Vec<_>>()
    };
    assert!(day(whole).is_empty(), "{:?}", day(whole));
    assert_eq!(day(&thin), ["1.1", "2.1"]);
}

/// What can come in no order is told with what stands in its way, not with the length of a day.
#[test]
fn what_no_order_holds_is_told_with_what_stands_in_its_way() {
    let warm = "hand: {set-up: {name: warm, machine: kitchen oven}, does: Warm it, minutes: 5 min, waits: {minutes: 45 min, watched: true, holds: true}, leaves: [warm]}";
    let glue = "hand: {set-up: {name: glue}, does: Glue its seal in, minutes: 5 min, waits: {minutes: 30 min}, leaves: [cold, joined]}";
    let home = "hand: {set-up: {name: home}, does: Drop it in, minutes: 5 min, needs: [warm, cold]}";
    let day = listed("cast aluminium", &[warm, glue, home]);
    assert!(day.day.lines.iter().all(|line| !line.part_fails), "no sheet fails: {}", day.told());
    let says: Vec<&Stop> = day.day.left_out.iter().map(|out| &out.stop).collect();
    assert!(
        says.iter().any(|stop| matches!(stop, Stop::NotApart(load, other) if load == "1.1" && other == "2.1")),
        "{says:?}"
    );
    let text = setover::sheet::terminal::day(&day.day, &setover::sheet::terminal::Reasons::None).unwrap();
    assert!(text.contains("would come while") && !text.contains("long enough"), "{text}");
}

/// What is warm is read when it is warm.
#[test]
fn a_hold_point_in_the_oven_is_told_when_it_can_be_read() {
    let day = listed("cast aluminium", &[WARM, PRESS]);
    let warm = &day.day.lines[day.at((WARM, 1)).unwrap()];
    assert!(warm.hold_point && Some(warm.read_at) == warm.by_itself_until && warm.read_at > warm.end);
    let press = &day.day.lines[day.at((PRESS, 2)).unwrap()];
    assert_eq!(press.may_change_after, Some(warm.read_at));
    let measured = &day.day.lines[day.at((PRESS, 3)).unwrap()];
    assert!(measured.hold_point && measured.read_at == measured.end);
}

/// A must that others make impossible is told with what it was to hold.
#[test]
fn a_must_that_gives_way_is_told() {
    let told = |day: &Day| {
        let rule = |own: &Assumed| if let Assumed::NotKept(rule, ..) = own { Some(rule.clone()) } else { None };
        day.assumed.iter().find_map(rule)
    };
    for works in orders(&[OUT, HOUSING, PRESS, BORE]) {
        let day = listed("cast aluminium", &works);
        // What the job lists the wrong way round is put right, and told; no must is lost.
        let rule = told(&day.day);
        let is_must = |own: &&OrderRule| own.kind == Binds::Must && Some(&own.rule) == rule.as_ref();
        assert!(!order_rules::all().iter().any(|own| is_must(&own)), "{rule:?}: {}", day.told());
    }
    // A size of the press is read for what must stand before it.
    let reads = OUT.replacen("outside: 22.02 ± 0.01 mm", "outside: {of: case/press-in/bush_outside}", 1);
    let day = listed("cast aluminium", &[reads.as_str(), PRESS]);
    assert_eq!(told(&day.day).as_deref(), Some("press-out-before-measure"), "{}", day.told());
}
