//! What a day says of itself: the same lines on paper, at a terminal and in a browser; every reason is the one that holds.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{shop, try_plan};
use setover::plan::day::{Asked, Day, NoTime, day};
use setover::sheet::page::Ink;
use setover::sheet::{day_html, layout, terminal};
use std::process::{Command, Output};

const DEMO: &str = include_str!("../demo/tidewater.yaml");
const SHOP: &str = include_str!("../demo/shop.yaml");

fn asked() -> Asked {
    Asked { days: 1, ..Asked::default() }
}

fn planned(job: &str, asked: &Asked) -> Day {
    let plan = try_plan(job, Some(&shop(SHOP))).unwrap_or_else(|all| panic!("{all:#?}"));
    day(&[plan], asked).unwrap_or_else(|all| panic!("{all:#?}"))
}

fn text(day: &Day) -> String {
    let text = terminal::day(day, &terminal::Reasons::None).expect("a text");
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn html(day: &Day) -> String {
    day_html::day_html(day).unwrap_or_else(|fault| panic!("{fault}"))
}

fn paper(day: &Day) -> Vec<String> {
    let pages = layout::day_pages(day).unwrap_or_else(|fault| panic!("{fault}"));
    let marks = pages.iter().flat_map(|page| &page.marks);
    marks.filter_map(|mark| if let Ink::Text(text) = &mark.ink { Some(text.text.clone()) } else { None }).collect()
}

/// Work in own words: part by part what it is and what more is said of it.
fn by_hand(works: &[(&str, &str)]) -> String {
    let one = |(part, more): &(&str, &str)| {
        format!("  - part: {part}\n    operations:\n      - hand: {{does: Do it, minutes: 20 min{more}}}\n")
    };
    format!("job: By hand\nparts:\n{}", works.iter().map(one).collect::<String>())
}

fn command(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_setover"))
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .arg("day")
        .args(arguments)
        .output()
        .expect("runs")
}

#[test]
fn a_change_over_has_the_same_lines_everywhere() {
    for (from, to) in [(None, None), (Some("13:20"), None), (None, Some("12:30"))] {
        let time = |text: Option<&str>| text.map(|text| text.parse().unwrap());
        let day = planned(DEMO, &Asked { from: time(from), to: time(to), ..asked() });
        let (text, html) = (text(&day), html(&day));
        let paper = paper(&day);
        let mut told = 0;
        for line in paper.iter().filter(|line| line.contains(" fit ") || line.contains("begin to fit")) {
            let words = line.split_once(' ').expect("a time before it").1;
            assert!(text.contains(words) && html.contains(words), "{words}");
            told += 1;
        }
        let begun = |text: &str| text.matches("begin to fit").count();
        assert_eq!(begun(&text), begun(&html));
        assert_eq!(begun(&text), paper.iter().filter(|line| line.contains("begin to fit")).count());
        assert!(told > 0);
    }
    assert!(text(&planned(DEMO, &asked())).contains("begin to fit soft jaws 58 mm"));
}

/// What is fitted today for a set-up of another day is told today.
#[test]
fn what_is_begun_for_another_day_is_told() {
    let job = by_hand(&[("lid", ""), ("plate", ", hold: {in: vice}")])
        .replace("minutes: 20 min, hold: {in: vice}", "minutes: 240 min, hold: {in: vice}")
        .replace("{does: Do it, minutes: 240", "{set-up: {machine: turret mill}, does: Do it, minutes: 240");
    let day = planned(&job, &Asked { from: Some("13:30".parse().unwrap()), ..asked() });
    assert_eq!(day.left_over.len(), 1, "{:?}", day.lines);
    assert_eq!(day.ahead.len(), 1);
    let says = "begin to fit vice on the turret mill, for 2.1 of another day";
    assert!(text(&day).contains(says) && html(&day).contains(says), "{}", text(&day));
    assert!(paper(&day).iter().any(|line| line.contains(says)));
}

#[test]
fn a_date_that_is_missed_is_named_at_its_row() {
    let day = planned(&by_hand(&[("lid", ", set-up: {due: \"08:05\"}")]), &asked());
    let says = "due 08:05: 15 min late";
    assert!(text(&day).contains(says) && html(&day).contains(says), "{}", text(&day));
    assert!(paper(&day).iter().any(|line| line.contains(says)));
    let kept = planned(&by_hand(&[("lid", ", set-up: {due: \"09:05\"}")]), &asked());
    assert!(text(&kept).contains("due 09:05") && !text(&kept).contains("late"));
}

#[test]
fn an_appointment_that_cannot_be_says_why() {
    let told = |works: &[(&str, &str)]| {
        let day = planned(&by_hand(works), &asked());
        assert_eq!(day.impossible.len(), 1, "{works:?}");
        assert!(!day.is_whole());
        let none = day.impossible[0].clone();
        let mark = format!("asked for at {}, which cannot be", if none.at == 600 { "10:00" } else { "" });
        assert!(text(&day).contains(mark.trim_end()) || none.at != 600, "{}", text(&day));
        (none.because, text(&day))
    };
    let (because, words) = told(&[("lid", ", set-up: {at: \"12:15\"}")]);
    assert_eq!(because, NoTime::Closed);
    assert!(words.contains("1.1 at 12:15 cannot be: the shop is not open then"));
    assert_eq!(told(&[("lid", ", set-up: {at: \"18:00\"}")]).0, NoTime::Closed);
    assert_eq!(told(&[("lid", ", pause: false, set-up: {at: \"11:50\"}")]).0, NoTime::RunsOut);
    // Two at once: the later in the file goes, and says which stands against it.
    let two = [("lid", ", set-up: {at: \"10:00\"}"), ("cup", ", set-up: {at: \"10:10\"}")];
    assert_eq!(told(&two).0, NoTime::Against("1.1".into(), 600));
    // The one in the way goes, not the last of all.
    let three = [
        ("lid", ", set-up: {at: \"10:00\"}"),
        ("cup", ", set-up: {at: \"10:10\"}"),
        ("rod", ", set-up: {at: \"14:00\"}"),
    ];
    let day = planned(&by_hand(&three), &asked());
    assert_eq!(day.impossible.len(), 1);
    assert_eq!(day.impossible[0].id, "2.1");
    assert_eq!(day.lines.iter().find(|line| line.id == "3.1").map(|line| line.start), Some(840));
    let early = [("lid", ""), ("cup", ", set-up: {after: lid/hand, at: \"08:10\"}")];
    assert_eq!(told(&early).0, NoTime::TooEarly { earliest: 500, from: 480, chain: vec![("1.1".into(), 20)] });
}

#[test]
fn nothing_to_do_is_not_said_of_what_is_left_over() {
    let day = planned(&by_hand(&[("lid", "")]), &Asked { from: Some("16:55".parse().unwrap()), ..asked() });
    let late =
        planned(&by_hand(&[("lid", ", pause: false")]), &Asked { from: Some("16:55".parse().unwrap()), ..asked() });
    assert!(!day.lines.is_empty() && late.lines.is_empty() && late.left_over.len() == 1);
    for words in [text(&late), html(&late), paper(&late).join(" ")] {
        assert!(
            words.contains("Nothing has room in the days asked for") && !words.contains("Nothing is left"),
            "{words}"
        );
    }
}

/// Glue cures on three parts at once: the bench is in use for no more than all of the day.
#[test]
fn no_machine_is_in_use_for_longer_than_the_day() {
    let cures = ", waits: {minutes: 200 min}";
    let day = planned(&by_hand(&[("lid", cures), ("cup", cures), ("rod", cures), ("cap", "")]), &asked());
    assert!(day.machines.iter().all(|machine| machine.in_use <= day.open));
    assert!(text(&day).contains("100 %"));
    assert!(!paper(&day).is_empty());
}

#[test]
fn drills_are_called_as_their_drawers_call_them() {
    let words = text(&planned(DEMO, &asked()));
    for says in ["drill 1/4 in, fractional drills", "drill 6.3 mm, metric drills", "insert M6, 1D (for 2.2)"] {
        assert!(words.contains(says), "{says}: {words}");
    }
    assert!(!words.contains("7.9375 mm"));
}

#[test]
fn what_a_machine_carries_is_said_once_and_in_words() {
    let says = |rigged: &[&str]| {
        let arguments: Vec<&str> =
            ["demo/tidewater.yaml"].into_iter().chain(rigged.iter().flat_map(|it| ["--rigged", it])).collect();
        let output = command(&arguments);
        (output.status.code(), String::from_utf8_lossy(&output.stderr).into_owned())
    };
    for empty in ["lathe=", "=vice", "lathe"] {
        let (code, words) = says(&[empty]);
        assert_eq!(code, Some(2), "{empty}");
        assert!(words.contains("belt lathe=soft-jaws 58 mm"), "{words}");
    }
    let (code, words) = says(&["lathe=soft-jaws 58 mm", "belt lathe=bare"]);
    assert!(code == Some(2) && words.contains("said twice"), "{words}");
    let bare =
        command(&["demo/tidewater.yaml", "--rigged", "lathe=bare", "--rigged", "mill=bare", "--rigged", "press=bare"]);
    let words = String::from_utf8_lossy(&bare.stdout).into_owned();
    assert!(!words.contains("machines carry nothing") && words.contains("Finish 15:31"), "{words}");
}

/// What runs unattended is read later than what comes behind it: the moments to look again stand by the clock.
#[test]
fn hold_points_stand_by_the_clock() {
    let jobs = ["demo/tidewater.yaml", "demo/one-day/cuts.yaml", "demo/one-day/float.yaml"];
    let out = std::process::Command::new(env!("CARGO_BIN_EXE_setover"))
        .arg("day")
        .args(jobs)
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .output()
        .unwrap();
    let text = String::from_utf8(out.stdout).unwrap();
    let list = text.split("Hold points").nth(1).unwrap().split("\n\n").next().unwrap();
    let is_time = |word: &&str| word.len() == 5 && word.as_bytes()[2] == b':';
    let times: Vec<&str> = list.lines().filter_map(|line| line.split_whitespace().next()).filter(is_time).collect();
    assert!(times.len() > 5 && times.is_sorted(), "{times:?}");
}

/// What was put into the oven before the hands begin is in it still, and the day says until when: nobody goes by a part that is cold.
#[test]
fn what_is_in_the_oven_already_is_told_of() {
    let told = |more: &[&str]| {
        let out = std::process::Command::new(env!("CARGO_BIN_EXE_setover"))
            .args(["day", "demo/tidewater.yaml"])
            .args(more)
            .current_dir(env!("CARGO_MANIFEST_DIR"))
            .output()
            .unwrap();
        String::from_utf8(out.stdout).unwrap().split_whitespace().collect::<Vec<_>>().join(" ")
    };
    let still = "what 5.2 put into the kitchen oven is in it still, until 5.3 takes it out";
    assert!(told(&["--done", "5.1,5.2@10:30", "--from", "10:40"]).contains(still));
    assert!(!told(&[]).contains("is in it still"));
    assert!(!told(&["--done", "5.1,5.2@10:30,5.3@11:20", "--from", "11:30"]).contains("is in it still"));
}

/// What the job lists before other work, and cannot stand there, is told: dowels that go in before their face is lapped stand proud of the
/// plate.
#[test]
fn what_is_not_done_as_listed_is_told() {
    let insert = "      - thread-insert: {thread: M8x1.25, wall: 32.0 ± 0.3 mm, hole: blind, present-hole: 8.0 mm, present-depth: 12 ± 0.1 mm, edge: 18 ± 0.2 mm, bolt: {class: \"4.6\", reach: 8 mm}, tang: out, set-up: {feature: s}}\n";
    let lap = "      - lap: {grid: {x: 0 60 120 180 mm, y: 0 50 100 mm, reads: [0 6 14 9 um, 11 22 31 17 um, 4 19 24 -3 um]}, with: lever indicator, flat-within: 0.03 mm, face: {long: 190 mm, wide: 110 mm}, joint: cover, out-first: [{what: dowels, count: 2}]}\n";
    let dowels = "      - hand: {does: \"Fit the dowels again\", minutes: 10 min}\n";
    let wash = "      - wash: {cleaner: paraffin, dirt: oil, cavities: 3, plugs-out: true}\n";
    let mill = "      - mill-face: {width: 36 mm, length: 110 mm, thickness: 18.00 ± 0.05 mm, removed: 0.8 mm, cutter: 50 mm, stick-out: 60 mm, way: conventional, uneven: 0.50 ± 0.05 mm, tram: {reads: 0.02 ± 0.01 mm, over: 200 mm}, flat-within: 0.05 mm, square-within: 0.10 mm, least-thickness: 17 mm, bears: on-solid, hold: {in: clamps, clamped: on-a-ledge, tested: 120 N·m, true-within: 0.03 mm}, set-up: {feature: f}}\n";
    let told = |operations: &[&str]| {
        let head = "job: Dowels\nparts:\n  - part: casting\n    material: cast aluminium\n    operations:\n";
        text(&planned(&format!("{head}{}", operations.concat()), &asked()))
    };
    let says = "does not come before 3.1 as it should (work-before-hand)";
    assert!(
        told(&[insert, lap, dowels, wash, mill]).contains(says),
        "the milled face is cut before the insert, that before the lap"
    );
    assert!(!told(&[insert, lap, dowels]).contains("as it should"));
    assert!(!told(&[mill, insert, lap, dowels, wash]).contains("as it should"));
}
