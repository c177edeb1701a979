//! A day planned again by what the log tells: when work was done, when what is in hand was begun, what machines were left with.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{shop, try_plan};
use setover::plan::day::{Asked, Assumed, Day, Line, day};
use setover::plan::{Plan, WorkedSetUp};

const SHOP: &str = include_str!("../demo/shop.yaml");
/// A bush dropped into a warm case; two collars that one size of soft jaws holds, and a plate that another does.
const JOB: &str = "job: Log
parts:
  - part: gear case
    material: cast aluminium
    operations:
      - ream-bush:
          set-up: {name: case bush}
          housing: {bore: 0.7500 ± 0.0002 in, outside: 1 1/2 in, length: 22 mm, material: cast aluminium, finish: Ra 1.6 um}
          bush: {outside: 19.078 ± 0.004 mm, bore: 15.93 ± 0.01 mm, length: 22 mm, material: phosphor bronze, finish: Ra 0.8 um}
          shaft: 15.984 ± 0.003 mm
          clearance: 1 .. 2 thou
          duty: gear
          assemble: warm-and-chill
          near: [nothing]
          by: hand
  - part: collar
    operations:
      - hand: {set-up: {name: first, machine: belt lathe}, does: Turn it., minutes: 20 min, hold: {in: soft-jaws, diameter: 58 mm}}
      - hand: {set-up: {name: second, machine: belt lathe}, does: Turn it again., minutes: 20 min, hold: {in: soft-jaws, diameter: 58 mm}}
  - part: plate
    operations:
      - hand: {set-up: {name: plate, machine: belt lathe}, does: Turn it., minutes: 20 min, hold: {in: soft-jaws, diameter: 52 mm}}
";

fn entry(at: (usize, usize), entry: u32, (from, to): (Option<&str>, Option<&str>)) -> WorkedSetUp {
    let clock = |text: Option<&str>| text.map(|text| text.parse().unwrap());
    let (from, to) = (clock(from), clock(to));
    WorkedSetUp { at, entry, date: None, from, to, machine: None, is_done: to.is_some(), gives: Vec::new() }
}

fn plans(log: &[WorkedSetUp]) -> Vec<Plan> {
    let mut plan = try_plan(JOB, Some(&shop(SHOP))).unwrap_or_else(|all| panic!("{all:#?}"));
    plan.worked = log.to_vec();
    vec![plan]
}

fn asked(done: &[&str]) -> Asked {
    let done = done.iter().map(|id| ((*id).to_owned(), None)).collect();
    Asked { days: 1, from: Some("10:35".parse().unwrap()), done, ..Asked::default() }
}

fn planned(log: &[WorkedSetUp], asked: &Asked) -> Day {
    day(&plans(log), asked).unwrap_or_else(|all| panic!("{all:#?}"))
}

fn line<'a>(day: &'a Day, id: &str) -> &'a Line {
    day.lines.iter().find(|line| line.id == id).unwrap_or_else(|| panic!("no line {id}"))
}

const HOME: (usize, usize) = (0, 2);

/// What is said to be done was done when the log says so: what cools, cools since then.
#[test]
fn what_is_said_to_be_done_was_done_when_the_log_says() {
    let press = entry(HOME, 1, (Some("10:00"), Some("10:02")));
    for done in [["1.1", "1.2", "1.3"].as_slice(), &["1.3"], &[]] {
        let day = planned(std::slice::from_ref(&press), &asked(done));
        assert!((11 * 60 + 2..11 * 60 + 35).contains(&line(&day, "1.4").start), "{done:?} {:?}", day.assumed);
        let later = |own: &Assumed| matches!(own, Assumed::DoneAt(_, at) if *at > 10 * 60 + 2);
        assert!(!day.assumed.iter().any(later), "{done:?} {:?}", day.assumed);
    }
    let without = planned(&[], &asked(&["1.1", "1.2", "1.3"]));
    assert!(line(&without, "1.4").start >= 11 * 60 + 35);
}

/// What is in hand goes on from when it was begun.
#[test]
fn what_is_in_hand_goes_on() {
    let asked = Asked { at_work: Some("2.1".into()), ..asked(&[]) };
    assert_eq!(line(&planned(&[], &asked), "2.1").hands, 20);
    let begun = planned(&[entry((1, 0), 1, (Some("10:20"), None))], &asked);
    assert_eq!(line(&begun, "2.1").hands, 5);
    assert!(begun.assumed.contains(&Assumed::GoesOn("2.1".into(), 10 * 60 + 20, 1, 5)), "{:?}", begun.assumed);
    let long_ago = planned(&[entry((1, 0), 1, (Some("08:20"), None))], &asked);
    assert_eq!(line(&long_ago, "2.1").hands, 1, "it is not done before somebody says so");
}

/// A machine carries what the last work on it left there, wherever the log says that this stood.
#[test]
fn a_machine_carries_what_the_last_entry_left_on_it() {
    let fitted = |day: &Day, id: &str| line(day, id).change.as_ref().map(|change| change.what.clone());
    let bare = planned(&[], &asked(&["2.1"]));
    assert!(fitted(&bare, "3.1").is_some() && bare.assumed.contains(&Assumed::Bare));
    let first = entry((1, 0), 1, (None, Some("10:30")));
    let day = planned(std::slice::from_ref(&first), &asked(&[]));
    assert_eq!((fitted(&day, "3.1"), fitted(&day, "4.1").as_deref()), (None, Some("soft jaws 52 mm")));
    let carries = |own: &Assumed| matches!(own, Assumed::Carries(machine, what, 1) if machine == "belt lathe" && what == "soft jaws 58 mm");
    assert!(day.assumed.iter().any(carries), "{:?}", day.assumed);
    // The later entry is the later work; what stood elsewhere left nothing here; what the command line says goes first.
    let plate = entry((3, 0), 2, (None, Some("10:33")));
    let later = planned(&[first.clone(), plate.clone()], &asked(&[]));
    assert!(fitted(&later, "3.1").is_some());
    let elsewhere = WorkedSetUp { machine: Some("turret mill".into()), ..plate };
    assert!(fitted(&planned(&[first.clone(), elsewhere], &asked(&[])), "3.1").is_none());
    let rigged = vec![("belt lathe".to_owned(), "bare".to_owned())];
    assert!(fitted(&planned(std::slice::from_ref(&first), &Asked { rigged, ..asked(&[]) }), "3.1").is_some());
    // Work that is done and that no log tells of may have been the last.
    assert!(fitted(&planned(&[first], &asked(&["4.1"])), "3.1").is_some());
}

/// Nothing is done and in hand at once.
#[test]
fn what_is_said_of_one_set_up_twice_is_refused() {
    let both = Asked { at_work: Some("2.1".into()), ..asked(&["2.1"]) };
    let problems = day(&plans(&[]), &both).expect_err("refused");
    assert!(problems[0].says.contains("either done or at work"), "{problems:?}");
    let at_work = Asked { at_work: Some("2.1".into()), ..asked(&[]) };
    let by_log = day(&plans(&[entry((1, 0), 3, (None, Some("10:30")))]), &at_work).expect_err("refused");
    assert!(by_log[0].says.contains("done by L3") && by_log[0].says.contains("--at-work"), "{by_log:?}");
}

/// What a machine carries by the command line is not fitted again: its tool alone is.
#[test]
fn what_is_on_a_machine_is_not_said_to_be_fitted() {
    let face = include_str!("../examples/face.yaml").replace("hold: {in: jaws,", "hold: {in: soft-jaws,");
    let plan = || vec![try_plan(&face, Some(&shop(SHOP))).unwrap_or_else(|all| panic!("{all:#?}"))];
    let rigged = |what: &str| vec![("belt lathe".to_owned(), what.to_owned())];
    let fitted = |what: &str| {
        let day = day(&plan(), &Asked { days: 1, rigged: rigged(what), ..Asked::default() }).unwrap();
        line(&day, "1.1").change.as_ref().map(|change| change.what.clone()).unwrap_or_default()
    };
    assert!(fitted("bare").contains("soft jaws 52 mm"), "{}", fitted("bare"));
    let tool = fitted("soft-jaws 52 mm");
    assert!(!tool.is_empty() && !tool.contains("jaws"), "{tool}");
}
