//! A day of real jobs: the demo, rules that put jobs right or refuse them, what stands outside, planning again.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{committed_jobs, shop, try_plan};
use serde_json::Value;
use setover::handbook::change_over;
use setover::handbook::order_rules::{self, Binds};
use setover::handbook::rigging::Aspect;
use setover::plan::Plan;
use setover::plan::day::search::{self, Rigging};
use setover::plan::day::{Asked, Because, Day, Stop, Why, day};
use setover::proof::Verdict;
use setover::reading::Problem;
use setover::sheet::{day_json, layout, terminal};
use std::collections::BTreeSet;
use std::process::{Command, Output};

const DEMO: &str = include_str!("../demo/tidewater.yaml");
const SHOP: &str = include_str!("../demo/shop.yaml");

/// A bush pressed into a warm case, oil hole and all; the blanks take what a test changes.
const BUSH: &str = "job: Gear case
parts:
  - part: pump gear case
    material: cast aluminium PART
    operations:
      - ream-bush:
          set-up: {name: case bush WISH}
          housing: {bore: 0.7500 ± 0.0002 in, outside: 1 1/2 in, length: 22 mm, material: cast aluminium, finish: Ra 1.6 um}
          bush: {outside: 19.078 ± 0.004 mm, bore: 15.93 ± 0.01 mm, length: 22 mm, material: phosphor bronze, finish: Ra 0.8 um}
          shaft: 15.984 ± 0.003 mm
          clearance: 1 .. 2 thou
          duty: gear
          oil-holes: [{diameter: 1/8 in, at: 11 mm}]
          assemble: warm-and-chill
          by: hand
";

/// A cover warmed by one operation and pressed by another: listed in this order, its bush is measured first all the same.
const WARM: &str = "job: Warm
parts:
  - part: pump cover
    material: cast aluminium
    operations:
      - warm: {set-up: {feature: bore}, bore: 24 mm, outside: 46 mm, length: 20 mm, interference: 0.022 mm, near: [nothing], temper: as-cast}
PRESS  - part: lid
    operations:
      - hand: {does: Scrape it., minutes: 100 min}
";
/// Its bush dropped in.
const PRESSED: &str = "      - press-in: {set-up: {feature: bore}, housing: {bore: 24.010 ± 0.004 mm, outside: 46 mm, length: 20 mm, finish: Ra 0.8 um}, bush: {outside: 24.036 ± 0.004 mm, bore: 18.000 ± 0.004 mm, length: 20 mm, material: phosphor bronze, finish: Ra 0.8 um}, stands: flush, opened-by: 0.050 mm, chilled-by: 0.009 mm, support: {inside: 30 mm, under: boss}}\n";
/// Its old bush pushed out warm.
const PUSHED: &str = "      - press-out: {set-up: {feature: bore}, housing: {outside: 46 mm}, bush: {outside: 24.01 ± 0.01 mm, bore: 20.1 ± 0.02 mm, length: 20 mm, material: LG2}, interference: 0.025 mm, held-by: nothing, push-from: inner, warm-to: 90 degC, mandrel: {diameter: 23.5 mm, length: 30 mm}, support: {inside: 26 mm, height: 30 mm, under: boss}}\n";
/// A joint face lapped, studs and all.
const LAP: &str = "      - lap: {set-up: {feature: joint}, grid: {x: 0 60 120 180 mm, y: 0 50 100 mm, reads: [0 6 14 9 um, 11 22 31 17 um, 4 19 24 -3 um]}, flat-within: 0.03 mm, face: {long: 190 mm, wide: 110 mm}, out-first: [{what: dowels, count: 2}], inserts: [{thread: M6, set-down: 0.75 ± 0.1 mm}]}\n";

fn bush(part: &str, wish: &str) -> String {
    BUSH.replace("PART", part).replace("WISH", wish)
}

fn plans(job: &str, shop_text: &str) -> Vec<Plan> {
    vec![try_plan(job, Some(&shop(shop_text))).unwrap_or_else(|all| panic!("{all:#?}"))]
}

fn asked() -> Asked {
    Asked { days: 1, ..Asked::default() }
}

fn planned(job: &str, shop_text: &str, asked: &Asked) -> Day {
    day(&plans(job, shop_text), asked).unwrap_or_else(|all| panic!("{all:#?}"))
}

fn refused(job: &str, asked: &Asked) -> Vec<Problem> {
    day(&plans(job, SHOP), asked).expect_err("must be refused")
}

fn start(day: &Day, id: &str) -> u32 {
    line(day, id).start
}

fn line<'a>(day: &'a Day, id: &str) -> &'a setover::plan::day::Line {
    day.lines.iter().find(|line| line.id == id).unwrap_or_else(|| panic!("no line {id}"))
}

fn json(day: &Day) -> Value {
    serde_json::to_value(day_json::output(day)).expect("JSON")
}

fn minutes(clock: &Value) -> u32 {
    let (hours, minutes) = clock.as_str().expect("a time").split_once(':').expect("a time");
    hours.parse::<u32>().unwrap() * 60 + minutes.parse::<u32>().unwrap()
}

/// The JSON of a day of one date, read again minute by minute: no two things of the hands at once, none in a break, what must come
/// before comes before, with its rest.
fn can_be_worked(day: &Day) {
    let out = json(day);
    let mut busy = BTreeSet::new();
    let open = |at: u32| day.hours.iter().any(|(from, to)| (*from..*to).contains(&at));
    for line in out["lines"].as_array().unwrap() {
        let (from, to) = (minutes(&line["start"]), minutes(&line["end"]));
        let pieces = line["change_over"].as_array().unwrap();
        let pieces: Vec<(u32, u32)> = pieces.iter().map(|it| (minutes(&it["start"]), minutes(&it["end"]))).collect();
        assert!(pieces.iter().all(|(_, end)| *end <= from), "{line}");
        let worked: Vec<u32> = (from..to).filter(|at| open(*at)).collect();
        assert_eq!(worked.len() as u64, line["hands_min"].as_u64().unwrap(), "{line}");
        for at in worked.into_iter().chain(pieces.iter().flat_map(|(from, to)| *from..*to)) {
            assert!(open(at) && busy.insert(at), "{line}: minute {at}");
        }
    }
    for line in &day.lines {
        for edge in &line.after {
            let before = day.lines.iter().find(|other| other.id == edge.id).expect("a line");
            let over = before.by_itself_until.unwrap_or(before.end);
            assert!(line.start >= over + edge.rest, "{} before {}", line.id, before.id);
        }
    }
}

#[test]
fn the_demo_gives_a_day_that_can_be_worked() {
    let day = planned(DEMO, SHOP, &asked());
    can_be_worked(&day);
    assert!(day.exact && day.waiting == 0, "the hands are never idle");
    // The first thought of the cover screw must not be cut; nothing else is lost with it.
    let out: Vec<(&str, &str)> = day.left_out.iter().map(|out| (out.id.as_str(), out.stopped_by.as_str())).collect();
    assert_eq!(out, [("1.1", "1.1"), ("1.2", "1.1")]);
    assert!(matches!(&day.left_out[0].stop, Stop::DoNotCut(reasons) if reasons.len() == 1));
    assert_eq!(day.lines.len(), 20);
    // The case comes out of the oven the minute that it is warm, and is measured when it is cold.
    assert_eq!(Some(start(&day, "5.3")), line(&day, "5.2").by_itself_until);
    assert!(start(&day, "5.4") >= line(&day, "5.3").end + 60);
    assert!(matches!(&line(&day, "5.4").why, Why::Waits { id, rest: 60, .. } if id == "5.3"));
    // The pair is skimmed one after the other; each machine's work of one rigging stands together.
    let order: Vec<&str> = day.lines.iter().map(|line| line.id.as_str()).collect();
    let at = |id: &str| order.iter().position(|known| *known == id).unwrap();
    assert_eq!(at("8.1").abs_diff(at("9.1")), 1);
    assert!(day.better_broken.is_empty() && day.left_over.is_empty());
    assert!(day.missing.is_empty(), "every insert that is chosen lies in the drawer: {:?}", day.missing);
    assert!(day.lines.iter().all(|line| line.verdict != Verdict::Fails));
    assert_eq!(json(&day), json(&planned(DEMO, SHOP, &asked())));
}

#[test]
fn the_text_has_the_day_in_eighty_columns_of_bars() {
    let day = planned(DEMO, SHOP, &asked());
    let text = terminal::day(&day, &terminal::Reasons::All).expect("a text");
    let bars: Vec<&str> = text.lines().skip_while(|line| !line.starts_with("The day at a glance")).take(8).collect();
    assert!(bars.iter().all(|line| line.chars().count() <= 80), "{bars:#?}");
    let hands = bars.iter().find(|line| line.trim_start().starts_with("hands")).expect("the hands");
    assert!(hands.contains("####") && hands.contains('/') && hands.contains('|'), "{hands}");
    let oven = bars.iter().find(|line| line.contains("kitchen oven")).expect("the oven");
    assert!(oven.contains("...."), "{oven}");
    for says in ["unattended until", "the least possible", "hold point", "Pull list", "Taken as done", "12:00–12:45"]
    {
        assert!(text.contains(says), "{says}");
    }
    assert!(terminal::day(&day, &terminal::Reasons::Of("5.4".into())).expect("a text").contains("60 min of rest"));
    assert!(terminal::day(&day, &terminal::Reasons::Of("77.1".into())).is_none());
}

#[test]
fn what_the_job_lists_the_wrong_way_round_is_put_right() {
    let job = |operations: [&str; 2]| {
        format!(
            "job: Order\nparts:\n  - part: piece\n    material: mild steel\n    operations:\n{}",
            operations.concat()
        )
    };
    let face = "      - face: {outside: 52 mm, inside: 32 mm, length: 21.85 ± 0.01 mm, wear: 0.25 ± 0.02 mm, finish: Ra 1.6 um, hold: {in: jaws, diameter: 52 mm, grip: 6 mm, overhang: 12 mm, true-within: 0.01 mm}, float: opens}\n";
    let insert = "      - thread-insert: {hold: {in: clamps, tested: 60 N·m}, thread: M6, wall: 18.0 ± 0.3 mm, hole: blind, tang: out}\n";
    let day = planned(&job([insert, face]), SHOP, &asked());
    let first = &day.lines[0];
    assert_eq!((first.id.as_str(), first.machine.as_str()), ("2.1", "belt lathe"), "{day:#?}");
    let rule = |because: &Because| matches!(because, Because::Rule(rule) if rule.rule == "face-before-insert");
    assert!(line(&day, "1.1").after.iter().any(|edge| edge.because.iter().any(rule)));
    // A feature that only one of them names may be the other's; a hole and the face that it opens in have two names.
    let at =
        |operation: &str, feature: &str| operation.replacen(": {", &format!(": {{set-up: {{feature: {feature}}}, "), 1);
    let named = [(at(insert, "hole"), at(face, "rim")), (at(insert, "joint"), face.to_owned())];
    for (insert, face) in named.into_iter().chain([(insert.to_owned(), at(face, "joint"))]) {
        let day = planned(&job([&insert, &face]), SHOP, &asked());
        assert!(start(&day, "2.1") < start(&day, "1.1"), "{insert}{face}");
    }
    // The name of a face is never that of the hole in it.
    let apart = planned(&job([&at(insert, "joint"), &at(face, "rim")]), SHOP, &asked());
    assert!(line(&apart, "1.1").after.iter().any(|edge| edge.because.iter().any(rule)));
}

#[test]
fn a_circle_is_named_by_its_members_and_their_rules() {
    let job = bush("", ", times: {press-home: {after: pump gear case/case bush/ream-by-hand}}");
    let problems = refused(&job, &asked());
    assert_eq!(problems.len(), 1);
    let says = problems[0].says.as_str();
    assert!(says.starts_with("these set-ups wait for each other in a circle: 1.3 waits for 1.6 (after) · "), "{says}");
    let says_in_turn = ["for 1.5 (oil-hole-before-ream)", "for 1.4 (measure-before-oil-hole)", "for 1.3 ("];
    // The shortest circle stands: a rule joins the press to the reaming at once.
    assert!(says.contains("press-before-finish-bore") || says_in_turn.iter().all(|it| says.contains(it)), "{says}");
    assert!(problems[0].place.is_some());
}

#[test]
fn an_appointment_that_cannot_be_is_told_with_the_earliest_and_the_day_goes_on() {
    let day = planned(&bush("", ", times: {drill-oil-holes: {at: \"10:00\"}}"), SHOP, &asked());
    can_be_worked(&day);
    let none = &day.impossible[0];
    // 08:00 + 20 of measuring + 10 of loading + 45 in the oven + 5 at the press + 60 of cooling + 10 of measuring.
    assert_eq!((none.id.as_str(), none.at, none.earliest()), ("1.5", 600, Some(630)));
    assert!(!day.is_whole() && day.lines.len() == 6);
    let kept = planned(&bush("", ", times: {drill-oil-holes: {at: \"11:15\"}}"), SHOP, &asked());
    assert_eq!((start(&kept, "1.5"), kept.impossible.len()), (675, 0));
}

#[test]
fn times_of_the_job_bind_the_first_set_up_and_the_last() {
    let day = planned(&bush("", ", not-before: \"09:15\", due: \"12:00\""), SHOP, &asked());
    assert_eq!(start(&day, "1.1"), 555);
    assert_eq!(day.late, line(&day, "1.6").end - 720);
    assert!(day.late > 0 && !day.is_whole());
    let dated =
        planned(&bush("", ", due: \"2026-12-02 09:00\"").replace("parts:", "date: 2026-12-01\nparts:"), SHOP, &asked());
    assert_eq!(dated.late, 0);
    let problems = refused(&bush("", ", due: \"2026-12-02 09:00\""), &asked());
    assert!(problems[0].says.contains("asks which day is planned") && problems[0].place.is_some());
}

#[test]
fn a_case_too_long_for_the_oven_stands_outside_with_all_that_needs_it_warm() {
    let small = SHOP.replace("most: 230 degC, room: 2", "most: 230 degC, inside: 380 mm");
    let job = bush("\n    longest: 420 mm", "");
    let day = planned(&job, &small, &asked());
    let out: Vec<(&str, &str)> = day.left_out.iter().map(|out| (out.id.as_str(), out.stopped_by.as_str())).collect();
    assert_eq!(out, ["1.2", "1.3", "1.4", "1.5", "1.6"].map(|id| (id, "1.2")));
    assert_eq!(day.left_out[0].stop, Stop::DoNotFit(vec!["oven too small".into()]));
    assert_eq!(day.lines.iter().map(|line| line.id.as_str()).collect::<Vec<_>>(), ["1.1"]);
    assert!(planned(&bush("\n    longest: 300 mm", ""), &small, &asked()).left_out.is_empty());
    let says = "pump gear case is taken to go into the kitchen oven: its length is not given";
    let text = terminal::day(&planned(&bush("", ""), &small, &asked()), &terminal::Reasons::None).unwrap();
    assert!(text.contains(says), "{text}");
}

#[test]
fn planned_again_the_rest_counts_from_what_was_done() {
    let job = bush("", "");
    let again = |done: &[(&str, Option<&str>)]| {
        let done = done.iter().map(|(id, at)| ((*id).to_owned(), at.map(|at| at.parse().unwrap()))).collect();
        planned(&job, SHOP, &Asked { done, from: Some("10:35".parse().unwrap()), ..asked() })
    };
    let told = again(&[("1.1", None), ("1.2", None), ("1.3", Some("10:02"))]);
    assert_eq!(start(&told, "1.4"), 10 * 60 + 2 + 60);
    let not_told = again(&[("1.1", None), ("1.2", None), ("1.3", None)]);
    assert_eq!(start(&not_told, "1.4"), 10 * 60 + 35 + 60);
    // What is in the oven keeps its ready time.
    let warm = again(&[("1.1", None), ("1.2", Some("10:20"))]);
    assert_eq!(start(&warm, "1.3"), 10 * 60 + 20 + 45);
}

#[test]
fn what_is_on_a_machine_already_need_not_be_fitted() {
    let rigged = |machine: &str, what: &str| {
        planned(DEMO, SHOP, &Asked { rigged: vec![(machine.into(), what.into())], ..asked() }).change
    };
    let bare = planned(DEMO, SHOP, &asked()).change;
    assert_eq!(rigged("press", "press-support"), bare - 8);
    assert_eq!(rigged("turret mill", "clamps"), bare - 10);
    assert_eq!(rigged("turret mill", "vice"), bare);
    assert_eq!(rigged("belt lathe", "soft-jaws 58 mm"), bare - 20);
    let wrong = Asked { rigged: vec![("mill".into(), "cushion".into())], ..asked() };
    assert!(refused(&bush("", ""), &wrong)[0].says.contains("no mill carries `cushion`"));
    let nobody = Asked { rigged: vec![("planer".into(), "vice".into())], ..asked() };
    assert!(refused(&bush("", ""), &nobody)[0].says.contains("no machine is called `planer`"));
}

#[test]
fn names_that_nobody_has_are_told() {
    let says = |asked: Asked| refused(&bush("", ""), &asked)[0].says.clone();
    assert!(says(Asked { done: vec![("9.9".into(), None)], ..asked() }).contains("no set-up has the id `9.9`"));
    assert!(says(Asked { at_work: Some("x".into()), ..asked() }).contains("no set-up has the id `x`"));
    assert!(says(Asked { leave_out: vec!["tea-first".into()], ..asked() }).contains("no rule of order `tea-first`"));
    assert!(says(Asked { leave_out: vec!["deburr-before-press".into()], ..asked() }).contains("not to be left out"));
    let unknown = refused(&bush("", ", times: {polish: {due: \"12:00\"}}"), &asked());
    assert!(unknown[0].says.contains("has no set-up `polish`") && unknown[0].place.is_some());
    let after = refused(&bush("", ", times: {press-home: {after: pump gear case/case bush/polish}}"), &asked());
    assert!(after[0].says.contains("has no set-up `polish`") && after[0].place.is_some());
}

#[test]
fn a_rule_that_is_common_practice_may_be_left_out_and_is_named() {
    let job = DEMO.replace("parts:", "order: {leave-out: [pair-one-setting], why: one is wanted first}\nparts:");
    let day = planned(&job, SHOP, &asked());
    assert_eq!(day.rules_left_out, [("pair-one-setting".to_owned(), Some("one is wanted first".to_owned()))]);
    assert!(terminal::day(&day, &terminal::Reasons::None).unwrap().contains("one is wanted first"));
}

#[test]
fn what_no_day_can_hold_is_left_for_the_next() {
    let short = Asked { to: Some("12:30".parse().unwrap()), ..asked() };
    let day = planned(DEMO, SHOP, &short);
    assert!(!day.left_over.is_empty() && !day.is_whole());
    assert!(day.lines.iter().all(|line| line.start < 750));
    let two = planned(DEMO, SHOP, &Asked { days: 3, ..short });
    assert!(two.left_over.is_empty());
}

#[test]
fn an_oven_that_cannot_be_watched_to_its_end_is_not_begun() {
    let late = Asked { from: Some("15:30".parse().unwrap()), days: 2, ..asked() };
    let day = planned(&bush("", ""), SHOP, &late);
    let warm = line(&day, "1.2");
    assert!(warm.start >= 1440 || warm.by_itself_until.unwrap() <= 17 * 60);
    assert_eq!(start(&day, "1.3") / 1440, warm.start / 1440);
    let never = Asked { to: Some("08:40".parse().unwrap()), ..asked() };
    let day = planned(&bush("", ""), SHOP, &never);
    assert!(day.left_out.iter().any(|out| out.id == "1.2" && out.stop == Stop::NoDayHoldsIt), "{:?}", day.left_out);
}

/// Every must of the table that joins two set-ups of some job refuses that job when it asks for the other way round.
#[test]
fn every_must_refuses_the_job_that_stands_against_it() {
    let in_line = BUSH
        .replace("PART", "")
        .replace("case bush WISH", "left, feature: left")
        .replace("by: hand", "by: hand\n          line-with: pump gear case/right");
    let other = in_line
        .split_once("    operations:\n")
        .unwrap()
        .1
        .replace("name: left, feature: left", "name: right, feature: right")
        .replace("/right", "/left");
    let line_job = format!("{in_line}{other}");
    let face = "job: Order\nparts:\n  - part: piece\n    material: mild steel\n    operations:\n      - face: {outside: 52 mm, inside: 32 mm, length: 21.85 ± 0.01 mm, wear: 0.25 ± 0.02 mm, finish: Ra 1.6 um, hold: {in: jaws, diameter: 52 mm, grip: 6 mm, overhang: 12 mm, true-within: 0.01 mm}, float: opens}\n      - thread-insert: {hold: {in: clamps, tested: 60 N·m}, set-up: {name: hole}, thread: M6, wall: 18.0 ± 0.3 mm, hole: blind, tang: out}\n";
    let of = |example: &str| example.split_once("    operations:\n").unwrap().1.to_owned();
    let insert = face.lines().last().unwrap();
    let milled = |faced: &str| {
        let head = face.split_once("    operations:\n").unwrap().0;
        format!("{head}    operations:\n{}{insert}\n", of(faced))
    };
    let milled = [
        include_str!("../examples/mill-face.yaml"),
        include_str!("../examples/skim.yaml"),
        include_str!("../examples/spot-face.yaml"),
    ]
    .map(milled);
    let float = include_str!("jobs/shim-after-a-face.yaml").to_owned();
    let flat = format!(
        "{line_job}      - thread-insert: {{hold: {{in: clamps, tested: 60 N·m}}, set-up: {{name: hole, feature: joint}}, thread: M6, wall: 18.0 ± 0.3 mm, hole: blind, tang: out}}\n{LAP}"
    );
    let track = include_str!("../examples/polish-seal.yaml").replace(
        "      - polish-seal:",
        "      - hand: {set-up: {name: bearing}, does: Press the bearing on., minutes: 5 min, leaves: [bearing-fitted]}\n      - polish-seal:",
    );
    let turned = format!("{}{}", include_str!("../examples/polish-seal.yaml"), crate::between::TURNED);
    let shims = of(include_str!("../examples/shim.yaml")).replace("with: micrometer}", "with: micrometer 0-25}");
    let shimmed = format!("{}{shims}", include_str!("../examples/lap.yaml").split_once("  - part: barrel").unwrap().0);
    let warm = WARM.replace("PRESS", PRESSED);
    let decided = WARM.replace(
        "PRESS",
        &format!(
            "{PRESSED}      - hand: {{set-up: {{name: decide}}, does: Decide on it., minutes: 5 min, leaves: [decided]}}\n"
        ),
    );
    let pushed = WARM.replace("PRESS", PUSHED);
    let fitted = include_str!("jobs/fit-of-a-warm-boss.yaml").to_owned();
    let [milled, skimmed, seated] = milled;
    let bare = WARM.replace("PRESS", &format!("{}{LAP}", PUSHED.replace("warm-to: 90 degC, ", "")));
    let jobs = [
        milled,
        skimmed,
        seated,
        bush("", ""),
        line_job,
        face.to_owned(),
        crate::between::LIFE.to_owned(),
        crate::between::ANEW.to_owned(),
        float,
        flat,
        track,
        turned,
        shimmed,
        warm,
        decided,
        pushed,
        bare,
        include_str!("../examples/bore.yaml").to_owned(),
        format!(
            "{}{}{}{LAP}",
            include_str!("../examples/bore.yaml"),
            of(include_str!("../examples/mill-face.yaml")),
            of(include_str!("../examples/drill.yaml"))
        ),
        format!("{}{insert}\n", include_str!("../examples/bore.yaml")),
        format!("{}{}", include_str!("../examples/bore.yaml"), crate::between::SCRAPED),
        fitted,
        format!(
            "{}{}",
            bush("", ", feature: bore"),
            of(include_str!("../examples/drill.yaml")).replacen(
                "- drill:\n",
                "- drill:\n          set-up: {feature: bore}\n",
                1
            )
        ),
        format!("{}{insert}\n", include_str!("../examples/tap.yaml")),
        format!("{}{insert}\n", include_str!("../examples/drill.yaml")),
        format!("{}{insert}\n", include_str!("../examples/bore-hole.yaml")),
        format!("{}{}", include_str!("../examples/tap.yaml"), of(include_str!("../examples/bore-hole.yaml"))),
        format!("{}{}", bush("", ""), of(include_str!("../examples/mill-face.yaml"))),
        format!("{}{}", bush("", ""), of(include_str!("../examples/face.yaml"))),
        format!("{}{}", bush("", ""), of(include_str!("../examples/skim.yaml"))),
        format!("{}{PUSHED}", bush("", "")),
        format!(
            "job: Across\nparts:\n  - part: half\n    material: cast aluminium\n    operations:\n{}      - {}\n",
            crate::rightly_apart::case_lapped(),
            crate::rightly_apart::BORE_ACROSS
        ),
        format!(
            "job: Base\nparts:\n  - part: barrel\n    material: GG25\n    operations:\n      - {}\n{}",
            crate::another_part::BASE_LAPPED,
            of(include_str!("../examples/bore.yaml"))
        ),
        format!(
            "job: Closed\nparts:\n  - part: half\n    material: cast aluminium\n    operations:\n{}{}",
            crate::rightly_apart::case_lapped(),
            crate::rightly_apart::CLOSED
        ),
    ];
    let musts = || order_rules::all().iter().filter(|rule| rule.kind == Binds::Must);
    let mut held = BTreeSet::new();
    for job in &jobs {
        let plans = plans(job, SHOP);
        for rule in musts() {
            // With every other rule left out that may be, so that it is this one that refuses.
            let others = musts().filter(|other| other.rule != rule.rule && other.source == "common-practice");
            let alone = Asked { leave_out: others.map(|other| other.rule.clone()).collect(), ..asked() };
            let Ok(day) = day(&plans, &alone) else { panic!("{job}") };
            let is_it = |because: &Because| matches!(because, Because::Rule(own) if own.rule == rule.rule);
            let joined = day.lines.iter().find_map(|line| {
                let edge = line.after.iter().find(|edge| edge.because.iter().any(is_it))?;
                Some((edge.id.clone(), line.id.clone()))
            });
            let Some((before, after)) = joined else { continue };
            let problems = turned_round(&plans, &before, &after, &alone);
            assert!(problems.iter().any(|problem| problem.says.contains(&rule.rule)), "{}: {problems:?}", rule.rule);
            held.insert(rule.rule.as_str());
        }
    }
    let all: BTreeSet<&str> = musts().map(|rule| rule.rule.as_str()).collect();
    let never: BTreeSet<&str> = all.difference(&held).copied().collect();
    // Both words of the others stand in one set-up.
    let within = crate::between::musts_within_one_set_up();
    assert!(never.is_subset(&within), "no job stands against these: {:?}", never.difference(&within));
}

/// The same jobs with the earlier of two set-ups asked for after the later.
fn turned_round(plans: &[Plan], before: &str, after: &str, asked: &Asked) -> Vec<Problem> {
    let mut plans = plans.to_vec();
    let place = |id: &str| {
        let (operation, set_up) = id.split_once('.').unwrap();
        (operation.parse::<usize>().unwrap() - 1, set_up.parse::<usize>().unwrap() - 1)
    };
    let ((operation, set_up), later) = (place(before), place(after));
    let of_later = &plans[0].operations[later.0];
    let address = of_later.address.value(&of_later.answer.set_ups[later.1].id.replace('-', "_"));
    let own = &mut plans[0].operations[operation];
    let id = own.answer.set_ups[set_up].id.to_owned();
    let times = own.of_day.wish.times.entry(id).or_default();
    times.after = Some(setover::proof::At { value: address, place: setover::proof::Place::start(0) });
    day(&plans, asked).expect_err("it stands against a must")
}

/// What is warm is measured before it goes into the oven, and comes out for the press; with no press it is not warmed.
#[test]
fn what_one_operation_warms_another_presses_while_it_is_warm() {
    let day = planned(&WARM.replace("PRESS", PRESSED), SHOP, &asked());
    can_be_worked(&day);
    let (warm, press) = (line(&day, "1.1"), line(&day, "2.2"));
    assert!(line(&day, "2.1").end <= warm.start, "measured cold: {:?}", day.lines);
    assert_eq!(Some(press.start), warm.by_itself_until);
    assert_eq!(warm.fetched, Some(("2.2".to_owned(), press.start)));
    assert!(start(&day, "2.3") >= press.end + 60);
    let too_tight = PRESSED.replace("opened-by: 0.050 mm", "opened-by: 0.005 mm");
    let day = planned(&WARM.replace("PRESS", &too_tight), SHOP, &asked());
    let out = |id: &str| day.left_out.iter().find(|out| out.id == id).map(|out| (&out.stop, out.stopped_by.as_str()));
    assert_eq!(out("1.1"), Some((&Stop::NotFetched, "2.2")));
    assert!(matches!(out("2.2"), Some((Stop::DoNotFit(_), "2.2"))) && day.lines.iter().any(|line| line.id == "3.1"));
    // An old bush that is pushed out warm comes out of the oven too.
    let day = planned(&WARM.replace("PRESS", PUSHED), SHOP, &asked());
    assert_eq!(line(&day, "1.1").fetched.as_ref().map(|(id, _)| id.as_str()), Some("2.1"), "{:?}", day.left_out);
}

/// A part made hot with a torch is worked the minute that it is hot: the press is made ready before it.
#[test]
fn what_is_hot_by_hand_does_not_wait() {
    let job = "job: Torch
parts:
  - part: flange
    operations:
      - hand: {set-up: {name: torch}, does: Warm it with the torch., minutes: 10 min, leaves: [warm]}
      - hand: {set-up: {name: drop, machine: arbor press}, does: Drop the ring on., minutes: 5 min, hold: {in: press-support}, needs: [warm]}
  - part: lid
    operations:
      - hand: {does: Scrape it., minutes: 225 min, pause: false}
";
    for from in ["08:00", "11:40", "11:50"] {
        let day = planned(job, SHOP, &Asked { from: Some(from.parse().unwrap()), days: 2, ..asked() });
        can_be_worked(&day);
        let (torch, drop) = (line(&day, "1.1"), line(&day, "2.1"));
        assert_eq!(torch.end, drop.start, "{from}: {:?}", day.lines);
        assert!(drop.change.as_ref().is_some_and(|change| change.pieces.iter().all(|(_, to)| *to <= torch.start)));
    }
}

/// Two parts hot by hand, each wanted between the other and its work: no order can be, and they are named.
#[test]
fn hot_parts_that_stand_between_each_other_are_a_circle() {
    let one = |part: &str, other: &str| {
        format!(
            "  - part: {part}\n    operations:\n      - hand: {{set-up: {{name: torch}}, does: Warm it., minutes: 10 min, leaves: [warm]}}\n      - hand: {{set-up: {{name: drop, after: {other}/torch}}, does: Drop it on., minutes: 5 min, needs: [warm]}}\n"
        )
    };
    let job = format!("job: Two\nparts:\n{}{}", one("ring", "hub"), one("hub", "ring"));
    let says = refused(&job, &asked())[0].says.clone();
    assert!(says.contains("in a circle: 1.1 waits for 4.1 (4.1 follows at once: "), "{says}");
    assert!(says.ends_with("4.1 for 1.1 (after)"), "{says}");
}

#[test]
fn every_committed_job_gives_a_day_or_says_why_not() {
    for (path, job) in committed_jobs() {
        let plans = plans(&job, crate::common::SHOP);
        match day(&plans, &Asked { days: 60, ..asked() }) {
            Ok(day) => {
                // A sum has none; what must not be done has its word.
                let has_word =
                    |own: &setover::plan::Planned| own.verdict == Verdict::Fails || own.answer.refused.is_some();
                let of = |own: &setover::plan::Planned| own.answer.set_ups.len().max(usize::from(has_word(own)));
                let set_ups: usize = plans[0].operations.iter().map(of).sum();
                assert_eq!(day.lines.len() + day.left_out.len() + day.left_over.len(), set_ups, "{path}");
                let why = |line: &setover::plan::day::Line| matches!(line.why, Why::First);
                assert!(day.lines.iter().skip(1).all(|line| !why(line)), "{path}");
            }
            Err(problems) => panic!("{path}: {problems:#?}"),
        }
    }
}

/// A change-over made by way of another costs no less: the day relies on it.
#[test]
fn no_way_round_makes_a_change_over_cheaper() {
    let kinds: BTreeSet<&str> = change_over::all().iter().map(|row| row.machine.as_str()).collect();
    for kind in kinds.into_iter().filter(|kind| !["oven", "freezer"].contains(kind)) {
        let rows: Vec<_> = change_over::all().iter().filter(|row| row.machine == kind).collect();
        let aspect = |row: &change_over::ChangeOver, to: &str| search::Aspect {
            aspect: row.aspect.text().into(),
            to: vec![format!("{} {to}", row.to)],
            hundredths: (row.start_min * 100.0) as u32,
            covers: row.covers.iter().map(|aspect| aspect.text().to_owned()).collect(),
        };
        let mut wishes: Vec<search::Wish> = Vec::new();
        for device in rows.iter().filter(|row| row.aspect == Aspect::Device) {
            let own = aspect(device, &device.to);
            wishes.push(vec![own.clone()]);
            // Soft jaws are bored, hard ones turned round; no other device has either.
            let jaws = |row: &change_over::ChangeOver| match device.to.as_str() {
                "soft-jaws" => row.to.starts_with("soft jaws"),
                "three-jaw" => row.to.starts_with("hard jaws"),
                _ => false,
            };
            let beside = |row: &&&change_over::ChangeOver| match row.aspect {
                Aspect::Device => false,
                Aspect::Jaws => jaws(row),
                _ => true,
            };
            for other in rows.iter().filter(beside) {
                wishes.extend(["one", "another"].map(|to| vec![own.clone(), aspect(other, to)]));
            }
        }
        let rigging = Rigging::new(&wishes, &[]);
        let of = |state: u16| (0..rigging.wants()).map(|to| rigging.change(state, to)).collect::<Vec<_>>();
        let changes: Vec<Vec<_>> = (0..u16::try_from(rigging.states()).unwrap()).map(of).collect();
        for from in &changes {
            for (by, (first, there)) in from.iter().enumerate() {
                let then = &changes[usize::from(*there)];
                for (to, ((straight, _), (second, _))) in from.iter().zip(then).enumerate() {
                    assert!(*straight <= *first + *second, "{kind}: {:?} by {:?}", wishes[to], wishes[by]);
                }
            }
        }
    }
}

fn run(words: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_setover"))
        .args(words)
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .output()
        .expect("runs")
}

#[test]
fn the_command_says_how_it_ended() {
    let demo = run(&["day", "demo/tidewater.yaml", "--format", "json"]);
    assert_eq!(demo.status.code(), Some(1), "one set-up must not be cut");
    let out: Value = serde_json::from_slice(&demo.stdout).expect("JSON");
    assert_eq!((out["schema"].as_u64(), out["day"]["date"].as_str()), (Some(1), Some("2026-11-30")));
    assert_eq!(demo.stdout, run(&["day", "demo/tidewater.yaml", "--format", "json"]).stdout);
    // Planned like its own answer it is the same day.
    let folder = tempfile::tempdir().expect("a folder");
    let like = folder.path().join("day.json");
    std::fs::write(&like, &demo.stdout).expect("written");
    let again = run(&["day", "demo/tidewater.yaml", "--like", like.to_str().unwrap(), "--format", "json"]);
    let again: Value = serde_json::from_slice(&again.stdout).expect("JSON");
    let starts =
        |day: &Value| day["lines"].as_array().unwrap().iter().map(|line| line["start"].clone()).collect::<Vec<_>>();
    assert_eq!(starts(&again), starts(&out));
    assert_eq!(run(&["day", "examples/ream-bush.yaml"]).status.code(), Some(0));
    assert_eq!(run(&["day", "demo/tidewater.yaml", "--done", "12.3"]).status.code(), Some(2));
    assert_eq!(run(&["day", "demo/tidewater.yaml", "--why", "12.3"]).status.code(), Some(2));
    assert_eq!(run(&["day", "demo/tidewater.yaml", "--from", "25:00"]).status.code(), Some(2));
    let two =
        run(&["day", "demo/tidewater.yaml", "examples/ream-bush.yaml", "--shop", "demo/shop.yaml", "--days", "3"]);
    assert!(String::from_utf8_lossy(&two.stdout).contains("2/1.1"), "{}", String::from_utf8_lossy(&two.stderr));
}

/// Nine set-ups of the paper in the job's own words: an oven for two, sixty minutes of cooling, jaws to bore.
fn nine() -> (String, String) {
    let shop = "shop: Nine\nhours: {from: \"08:00\", to: \"16:30\"}\nbreaks: [{from: \"12:00\", to: \"12:45\"}]
machines:
  - lathe: {name: lathe, spindle: 100 200 rev/min}
  - mill: {name: mill, spindle: 100 200 rev/min}
  - press: {name: press}
  - oven: {name: oven, room: 2}
  - bench: {name: bench}
change-over:
  - {machine: lathe, aspect: device, to: soft-jaws, minutes: 0 min}
  - {machine: lathe, aspect: jaws, to: soft jaws bored to size, minutes: 20 min}
";
    let one = |part: &str, does: &str, minutes: u32, more: &str, machine: &str, times: &str| {
        format!(
            "  - part: {part}\n    operations:\n      - hand: {{set-up: {{machine: {machine}{times}}}, does: {does}, minutes: {minutes} min{more}}}\n"
        )
    };
    let parts = [
        one("float-bowl lid", "Drill and tap", 22, ", hold: {in: vice}", "mill", ""),
        one("thrust collar", "Face", 24, ", hold: {in: soft-jaws, diameter: 51 mm}", "lathe", ""),
        one("pump gear case", "Dress and measure", 20, ", leaves: [dressed]", "bench", ""),
        one(
            "pump gear case 2",
            "Warm",
            10,
            ", waits: {minutes: 45 min, watched: true, holds: true}, needs: [\"pump gear case:dressed\"], leaves: [\"pump gear case:warm\"]",
            "oven",
            ", after: pump gear case/hand",
        ),
        one(
            "pump gear case 3",
            "Press the bush home",
            5,
            ", hold: {in: press-support}, waits: {minutes: 60 min}, needs: [\"pump gear case:warm\"], leaves: [\"pump gear case:pressed\"]",
            "press",
            "",
        ),
        one(
            "pump gear case 4",
            "Measure",
            10,
            ", needs: [\"pump gear case:pressed\"], leaves: [\"pump gear case:bore-measured\"]",
            "bench",
            ", after: pump gear case 3/hand",
        ),
        one(
            "pump gear case 5",
            "Drill the oil hole",
            17,
            ", hold: {in: angle-plate}, leaves: [oil-hole-drilled]",
            "mill",
            ", after: pump gear case 4/hand",
        ),
        one("pump gear case 6", "Ream by hand", 32, "", "bench", ", after: pump gear case 5/hand"),
        one("governor plate", "Skim", 35, ", hold: {in: soft-jaws, diameter: 60 mm}", "lathe", ""),
    ];
    (format!("job: Nine\nparts:\n{}", parts.concat()), shop.to_owned())
}

/// Each line of a day in the JSON: its pieces of change-over, its id, its times.
fn times(out: &Value) -> Vec<String> {
    let times = |line: &Value| {
        let pieces = line["change_over"].as_array().unwrap().iter();
        let pieces: Vec<String> =
            pieces.map(|it| format!("[{}-{}] ", it["start"].as_str().unwrap(), it["end"].as_str().unwrap())).collect();
        format!(
            "{}{} {}-{}",
            pieces.concat(),
            line["id"].as_str().unwrap(),
            line["start"].as_str().unwrap(),
            line["end"].as_str().unwrap()
        )
    };
    out["lines"].as_array().unwrap().iter().map(times).collect()
}

#[test]
fn the_json_of_nine_set_ups_has_their_clock_times() {
    let (job, shop_text) = nine();
    let day = planned(&job, &shop_text, &asked());
    can_be_worked(&day);
    let out = json(&day);
    assert_eq!(
        times(&out),
        [
            "[08:00-08:10] 1.1 08:10-08:32",
            "3.1 08:32-08:52",
            "4.1 08:52-09:02",
            "[09:02-09:22] 2.1 09:22-09:46",
            "[09:46-09:54] 5.1 09:54-09:59",
            "[09:59-10:19] 9.1 10:19-10:54",
            "6.1 10:59-11:09",
            "[10:54-10:59] [11:09-11:29] 7.1 11:29-11:46",
            "8.1 11:46-13:03",
        ]
    );
    let whole = &out["day"];
    assert_eq!(
        (whole["finish"].as_str(), whole["change_over_min"].as_u64(), whole["hands_min"].as_u64()),
        (Some("13:03"), Some(83), Some(175))
    );
    assert_eq!((whole["waiting_min"].as_u64(), whole["exact"].as_bool()), (Some(0), Some(true)));
}

/// The bush is pressed at 10:02, which was said or was not: what comes then has its clock times, over the break.
#[test]
fn the_json_of_nine_set_ups_planned_again_has_their_clock_times() {
    let (job, shop_text) = nine();
    let again = |pressed: Option<&str>| {
        let done = |id: &str| (id.to_owned(), (id == "5.1").then(|| Some(pressed?.parse().unwrap())).flatten());
        let rigged = [("lathe", "soft-jaws 51 mm"), ("mill", "vice")];
        let day = planned(
            &job,
            &shop_text,
            &Asked {
                done: ["1.1", "2.1", "3.1", "4.1", "5.1"].map(done).to_vec(),
                from: Some("10:35".parse().unwrap()),
                rigged: rigged.map(|(machine, what)| (machine.to_owned(), what.to_owned())).to_vec(),
                ..asked()
            },
        );
        can_be_worked(&day);
        let out = json(&day);
        assert_eq!(out["day"]["finish"].as_str(), Some("13:39"));
        let start = |line: &Value| format!("{} {}", line["id"].as_str().unwrap(), line["start"].as_str().unwrap());
        let last =
            |id: &str| out["lines"].as_array().unwrap().iter().find(|line| line["id"] == id).unwrap()["end"].clone();
        (out["lines"].as_array().unwrap().iter().map(start).collect::<Vec<_>>(), last("8.1"))
    };
    let (told, end) = again(Some("10:02"));
    assert_eq!(told, ["6.1 11:02", "7.1 11:12", "8.1 11:29", "9.1 13:04"]);
    assert_eq!(end, "12:46");
    let (not_told, _) = again(None);
    assert_eq!(not_told, ["9.1 10:55", "6.1 11:35", "7.1 12:50", "8.1 13:07"]);
}

#[test]
fn the_json_of_nine_set_ups_says_what_cannot_be() {
    let (job, shop_text) = nine();
    let early = job.replace(", after: pump gear case 4/hand}", ", after: pump gear case 4/hand, at: \"10:00\"}");
    assert_ne!(early, job);
    let day = planned(&early, &shop_text, &asked());
    let out = json(&day);
    assert_eq!(
        (out["impossible"][0]["id"].as_str(), out["impossible"][0]["earliest"].as_str()),
        (Some("7.1"), Some("10:30"))
    );
    assert_eq!((out["day"]["finish"].as_str(), day.is_whole()), (Some("13:03"), false));
    // The oven is too small: with it goes what needs it warm, and what comes after that.
    let small = shop_text.replace("room: 2", "room: 2, inside: 380 mm");
    let long = job.replace("part: pump gear case 2\n", "part: pump gear case 2\n    longest: 420 mm\n");
    assert_ne!(long, job);
    let out = json(&planned(&long, &small, &asked()));
    assert_eq!(out["day"]["finish"].as_str(), Some("10:31"));
    let ids =
        |group: &str| out[group].as_array().unwrap().iter().map(|own| own["id"].as_str().unwrap()).collect::<Vec<_>>();
    assert_eq!(ids("left_out"), ["4.1", "5.1", "6.1", "7.1", "8.1"]);
    let mut lines = ids("lines");
    lines.sort_unstable();
    assert_eq!(lines, ["1.1", "2.1", "3.1", "9.1"]);
    let circle = job.replace(
        "{machine: press}, does: Press the bush home",
        "{machine: press, after: pump gear case 6/hand}, does: Press the bush home",
    );
    let problems = day_of(&circle, &shop_text).expect_err("a circle");
    let says = problems[0].says.as_str();
    let in_turn = ["5.1 waits for 8.1 (after)", "for 7.1 (after)", "for 6.1 (after)", "for 5.1 ("];
    assert!(in_turn.iter().all(|it| says.contains(it)) && says.matches(" · ").count() == 3, "{says}");
}

fn day_of(job: &str, shop_text: &str) -> Result<Day, Vec<Problem>> {
    day(&plans(job, shop_text), &asked())
}

#[test]
fn the_page_of_the_demo_is_one_page_on_either_paper() {
    for paper in ["A4", "Letter"] {
        let day = planned(DEMO, &SHOP.replace("paper: A4", &format!("paper: {paper}")), &asked());
        let pages = layout::day_pages(&day).unwrap_or_else(|fault| panic!("{fault}"));
        assert_eq!(pages.len(), 1, "{paper}");
        let text: Vec<&str> = pages[0]
            .marks
            .iter()
            .filter_map(|mark| {
                if let setover::sheet::page::Ink::Text(text) = &mark.ink { Some(text.text.as_str()) } else { None }
            })
            .collect();
        assert!(text.iter().any(|own| own.starts_with("Pull list: tools, inserts, gauges")), "{text:?}");
        for says in ["Finish 15:31", "Left out", "5.4", "15:09"] {
            assert!(text.contains(&says), "{says}: {text:?}");
        }
    }
}

/// The open hours of a day with two breaks stand whole on its page.
#[test]
fn the_open_hours_stand_whole() {
    let one = "  - {from: \"12:00\", to: \"12:45\"}";
    let hours = SHOP.replace(one, "  - {from: \"09:30\", to: \"09:45\"}\n  - {from: \"12:15\", to: \"13:00\"}");
    assert_ne!(hours, SHOP);
    let day = planned(DEMO, &hours, &Asked { days: 2, ..Asked::default() });
    let pages = layout::day_pages(&day).unwrap_or_else(|fault| panic!("{fault}"));
    let text = pages[0].marks.iter().filter_map(|mark| match &mark.ink {
        setover::sheet::page::Ink::Text(text) => Some(text.text.as_str()),
        _ => None,
    });
    let said = text.collect::<Vec<_>>().join(" ");
    assert!(said.contains("Open 08:00–09:30, 09:45–12:15, 13:00–17:00"), "{said}");
}

/// Of two days an hour is as wide on both, and a machine that stands all day has no row; what stands below fills both columns.
#[test]
fn the_pages_of_two_days_are_drawn_to_one_scale_and_filled() {
    let short = SHOP.replace("to: \"17:00\"", "to: \"13:00\"");
    let day = planned(DEMO, &short, &Asked { days: 2, ..asked() });
    assert!(day.lines.last().is_some_and(|line| line.start > 24 * 60), "two days");
    let pages = layout::day_pages(&day).unwrap_or_else(|fault| panic!("{fault}"));
    let texts = |area: &str| -> Vec<(f64, f64, String)> {
        let of = |page: &setover::sheet::page::Page| {
            let own = page.marks.iter().filter_map(|mark| match &mark.ink {
                setover::sheet::page::Ink::Text(text)
                    if page.area_of(mark.area).is_some_and(|one| one.name == area) =>
                {
                    Some((text.at.x, mark.bounds.centre().x, text.text.clone()))
                }
                _ => None,
            });
            own.collect::<Vec<_>>()
        };
        pages.iter().flat_map(of).collect()
    };
    let bars = texts("bars");
    // From nine to ten on each day: the hours before and behind may be pushed aside.
    let of_hour = |hour: &str| bars.iter().filter(|text| text.2 == hour).map(|text| text.1).collect::<Vec<f64>>();
    let (nine, ten) = (of_hour("09:00"), of_hour("10:00"));
    assert_eq!((nine.len(), ten.len()), (2, 2), "{bars:?}");
    assert!(((ten[0] - nine[0]) - (ten[1] - nine[1])).abs() < 0.01, "{nine:?} {ten:?}");
    let rows = bars.iter().filter(|text| text.2 == "kitchen oven").count();
    assert_eq!(rows, 1, "the oven is warm on one of the days");
    let columns: Vec<f64> = texts("lists").iter().map(|text| text.0).collect();
    let middle = pages[0].paper.size().0 / 2.0;
    let right = columns.iter().filter(|x| **x > middle).count();
    assert!(3 * right > columns.len() && 3 * right < 2 * columns.len(), "{right} of {} at the right", columns.len());
}

#[test]
fn the_page_for_a_browser_says_the_same_and_fetches_nothing() {
    let job = DEMO.replace("part: exhaust rocker", "part: \"exhaust <rocker> & shaft\"");
    let html =
        setover::sheet::day_html::day_html(&planned(&job, SHOP, &asked())).unwrap_or_else(|fault| panic!("{fault}"));
    assert!(html.contains("<svg") && html.contains("exhaust &lt;rocker&gt; &amp; shaft") && !html.contains("<rocker>"));
    assert!(html.contains("Finish 15:31") && html.contains("unattended until 11:16"));
    assert!(!html.contains("<script") && !html.contains(" src=") && !html.contains("url("));
}

/// Two cases, each with a bush.
fn two_bushes() -> String {
    let one = bush("", "");
    let other = one.split_once("parts:\n").unwrap().1.replace("pump gear", "lower");
    format!("{one}{other}")
}

/// Two cases in an oven for two, each with its bush in the freezer meanwhile: a freezer for one takes the second bush when the first
/// is out, one for two takes both.
#[test]
fn a_freezer_beside_the_oven_holds_what_it_can() {
    let two = two_bushes();
    // A break that no reaming may straddle leaves time for either.
    let shop = crate::common::with(SHOP, "breaks:\n  - {from: \"12:00\", to: \"12:45\"}\n", "");
    let owned = "  - freezer: {name: freezer, room: 2}\n";
    assert!(shop.contains(owned));
    let assumes = |day: &Day| day.assumed.contains(&setover::plan::day::Assumed::Room("freezer".into(), 1));
    let loads = |day: &Day| {
        let mut inside: Vec<(u32, u32)> =
            ["1.2", "2.2"].map(|id| (start(day, id), line(day, id).fetched.as_ref().unwrap().1)).to_vec();
        inside.sort_unstable();
        (inside[0], inside[1])
    };
    let one = planned(&two, &shop.replace(owned, ""), &asked());
    let (first, second) = loads(&one);
    assert!(second.0 >= first.1, "{first:?} {second:?}");
    assert!(assumes(&one), "{:?}", one.assumed);
    let both = planned(&two, &shop, &asked());
    let (first, second) = loads(&both);
    assert!(second.0 < first.1, "{first:?} {second:?}");
    assert!(!assumes(&both) && both.finish <= one.finish, "{:?}", both.assumed);
}

/// What is warm already and not fetched yet keeps its place in an oven for one.
#[test]
fn what_is_in_the_oven_when_the_hands_begin_keeps_its_place() {
    let two = two_bushes();
    let shop = SHOP.replace("room: 2", "room: 1");
    let done = |id: &str| (id.to_owned(), "09:30".parse().ok());
    let from = "09:30".parse().ok();
    let asked = Asked { done: vec![done("1.2"), done("2.1")], from, ..asked() };
    let day = planned(&two, &shop, &asked);
    assert!(start(&day, "1.3") >= minutes(&"10:15".into()));
    assert!(start(&day, "2.2") >= start(&day, "1.3"), "{} {}", start(&day, "2.2"), start(&day, "1.3"));
}

#[test]
fn what_is_in_hand_goes_on_where_it_stands() {
    let at_work = |id: &str| {
        planned(DEMO, SHOP, &Asked { at_work: Some(id.into()), from: Some("09:00".parse().unwrap()), ..asked() })
    };
    let day = at_work("8.1");
    assert_eq!((day.lines[0].id.as_str(), day.lines[0].start, &day.lines[0].change), ("8.1", 540, &None));
    can_be_worked(&day);
}

#[test]
fn sheets_stand_behind_the_page_in_the_order_of_the_day() {
    let plans = plans(DEMO, SHOP);
    let day = day(&plans, &asked()).unwrap();
    let alone = layout::day_pdf(&day, &[]).unwrap();
    let bound = layout::day_pdf(&day, &plans).unwrap();
    assert!(bound.len() > alone.len() * 3 && alone.starts_with(b"%PDF-1.7"));
    assert_eq!(bound, layout::day_pdf(&day, &plans).unwrap(), "the same bytes");
}

/// Names that no page has room for, letters that the fonts lack, and more set-ups than a page holds.
#[test]
fn the_page_holds_whatever_a_job_brings() {
    let odd = bush("", "").replace(
        "pump gear case",
        "Ấ\u{6f22} pump gear case with a name that goes on and on and on and on and on and on and on",
    );
    let long: String = (0..70)
        .map(|n| {
            format!(
                "  - part: piece {n}\n    operations:\n      - hand: {{does: Fit it., minutes: {} min}}\n",
                5 + n % 9
            )
        })
        .collect();
    for job in [
        odd,
        format!("job: Long\nparts:\n{long}"),
        "job: None\nparts:\n  - part: a\n    operations:\n      - hand: {does: Fit it.}\n".into(),
    ] {
        let day = planned(&job, SHOP, &Asked { days: 9, ..asked() });
        let pages = layout::day_pages(&day).unwrap_or_else(|fault| panic!("{fault}"));
        assert!(!pages.is_empty());
        assert!(terminal::day(&day, &terminal::Reasons::All).is_some());
    }
}
