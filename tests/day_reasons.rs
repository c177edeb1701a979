//! What a day says of why, of what cannot be, and of what is left: sums that add up to the clock, reasons that hold, names that tell what.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{shop, try_plan};
use setover::plan::day::{self, Asked, Because, Day, NoTime, Why};
use setover::sheet::page::Ink;
use setover::sheet::{layout, terminal};
use std::process::Command;

const DEMO: &str = include_str!("../demo/tidewater.yaml");
const SHOP: &str = include_str!("../demo/shop.yaml");

fn asked() -> Asked {
    Asked { days: 1, ..Asked::default() }
}

fn planned(job: &str, asked: &Asked) -> Day {
    let plan = try_plan(job, Some(&shop(SHOP))).unwrap_or_else(|all| panic!("{all:#?}"));
    day::day(&[plan], asked).unwrap_or_else(|all| panic!("{all:#?}"))
}

fn text(day: &Day, why: &str) -> String {
    let reasons = if why.is_empty() { terminal::Reasons::All } else { terminal::Reasons::Of(why.into()) };
    terminal::day(day, &reasons).expect("a text").split_whitespace().collect::<Vec<_>>().join(" ")
}

/// A bush pressed home by hand: what is warmed goes into the oven, and what is pressed rests before it is measured.
const PRESSED: &str = "job: Pressed
parts:
  - part: gear case
    operations:
      - hand: {does: Dress, minutes: 20 min, leaves: [dressed]}
      - hand: {set-up: {machine: kitchen oven}, does: Warm, minutes: 10 min, waits: {minutes: 45 min, watched: true, holds: true}, needs: [dressed], leaves: [warm]}
      - hand: {set-up: {machine: arbor press}, does: Press, minutes: 5 min, waits: {minutes: 60 min}, needs: [warm], leaves: [pressed]}
      - hand: {does: Measure, minutes: 10 min, needs: [pressed], leaves: [bore-measured]}
      - hand: {does: Drill, minutes: 17 min}
  - part: lid
    operations:
      - hand: {does: Scrape, minutes: 30 min}
";

/// What cools behind two set-ups is waited for once: the figures of the chain are those of the clock.
#[test]
fn the_chain_before_an_appointment_adds_up_to_the_clock() {
    let bush = "set-up: {name: governor bush, feature: governor bore, times: {drill-oil-holes: {at: \"10:00\"}}}";
    let early = DEMO.replace("set-up: {name: governor bush, feature: governor bore}", bush);
    assert_ne!(early, DEMO);
    let pressed = PRESSED.replace("{does: Drill,", "{set-up: {at: \"10:00\"}, does: Drill,");
    // Behind a break, behind a time of its own, and behind what is fitted for it.
    let lunch = PRESSED.replace("{does: Drill,", "{set-up: {at: \"13:00\"}, does: Drill,").replace("60 min", "300 min");
    let later = pressed.replace("{does: Dress,", "{set-up: {not-before: \"08:40\"}, does: Dress,");
    let fitted = pressed
        .replace(
            "{set-up: {at: \"10:00\"}, does: Drill,",
            "{set-up: {at: \"10:00\", machine: turret mill}, does: Drill,",
        )
        .replace("minutes: 17 min", "minutes: 17 min, hold: {in: angle-plate}");
    for job in [early, pressed, lunch, later, fitted] {
        let day = planned(&job, &asked());
        let [none] = day.impossible.as_slice() else { panic!("{:?}", day.impossible) };
        let NoTime::TooEarly { earliest, from, chain } = &none.because else { panic!("{none:?}") };
        let sum: u32 = chain.iter().map(|(_, minutes)| minutes).sum();
        assert_eq!(from + sum, *earliest, "{none:?}");
        assert!(chain.len() >= 4 && *earliest > none.at, "{none:?}");
    }
}

/// A press that is let alone is no oven.
#[test]
fn what_is_let_alone_where_it_stands_is_in_no_oven() {
    let day = planned(PRESSED, &asked());
    for line in &day.lines {
        let words = text(&day, &line.id);
        assert!(!words.contains("oven or freezer"), "{words}");
        for edge in line.after.iter().chain(&line.apart) {
            assert!(!edge.because.is_empty(), "{} {edge:?}", line.id);
        }
    }
    // Nothing else holds the lid's mate back but that it cures.
    let glued = "job: Glued\nparts:\n  - part: cover\n    operations:\n      - hand: {does: Glue, minutes: 10 min, waits: {minutes: 90 min}}\n      - hand: {does: Scrape, minutes: 10 min}\n";
    let plan = try_plan(glued, Some(&shop(SHOP))).unwrap();
    let free = Asked { leave_out: vec!["hand-before-work".into(), "work-before-hand".into()], ..asked() };
    let day = day::day(&[plan], &free).unwrap();
    let scraped = day.lines.iter().find(|line| line.id == "2.1").unwrap();
    let away = |because: &Because| matches!(because, Because::LetAlone);
    let first = day.lines.first().unwrap();
    assert!(first.id == "2.1" || scraped.apart.iter().any(|edge| edge.because.iter().any(away)), "{:?}", scraped.apart);
}

/// Without an order before there is none to stand as in.
#[test]
fn a_first_run_stands_as_the_jobs_list_it() {
    let works = "job: Two\nparts:\n  - part: lid\n    operations:\n      - hand: {does: Scrape, minutes: 20 min}\n  - part: cup\n    operations:\n      - hand: {does: Scrape, minutes: 20 min}\n";
    let first = planned(works, &asked());
    assert_eq!(first.lines[1].why, Why::AsListed);
    assert!(text(&first, "").contains("2.1 as the jobs list them"), "{}", text(&first, ""));
    let like = Asked { like: vec!["2.1".into(), "1.1".into()], ..asked() };
    let again = planned(works, &like);
    assert_eq!((again.lines[0].id.as_str(), &again.lines[1].why), ("2.1", &Why::Kept));
}

/// What is for tomorrow says what it is, and what it waits for of today.
#[test]
fn what_is_left_over_says_what_it_is_and_rests_on() {
    let day = planned(DEMO, &Asked { to: Some("11:00".parse().unwrap()), ..asked() });
    let words = text(&day, "");
    for says in [
        "5.4 governor gear case: Cool, and measure the closed-in bore, 10 min, waits for 5.3 until 11:51",
        "5.6 governor gear case: Ream to size by hand, 32 min, waits for 5.5 6.1",
        "7.1 idler thrust collar: Face to clean metal, 17 min",
    ] {
        assert!(words.contains(says), "{says}: {words}");
    }
}

/// The page has room for every name of the day, on either paper.
#[test]
fn the_page_tells_every_name_whole() {
    for paper in ["A4", "letter"] {
        let of_shop = SHOP.replace("paper: A4", &format!("paper: {paper}"));
        let plan = try_plan(DEMO, Some(&shop(&of_shop))).unwrap();
        let day = day::day(&[plan], &asked()).unwrap();
        let pages = layout::day_pages(&day).unwrap();
        assert_eq!(pages.len(), 1, "{paper}");
        let marks = || pages[0].marks.iter();
        let texts = || marks().filter_map(|mark| if let Ink::Text(own) = &mark.ink { Some(own) } else { None });
        for line in &day.lines {
            let name = format!("{}: {}", line.part, line.set_up);
            assert!(texts().any(|own| own.text.starts_with(&name)), "{paper}: {name}");
        }
        for item in ["stepped mandrel (5.3, 6.2)", "wooden plug (5.5, 6.4)", "go and not-go plugs (5.6)"] {
            assert!(texts().any(|own| own.text == item), "{paper}: {item}");
        }
    }
}

/// What is put down for the break alone is fitted in one go.
#[test]
fn a_change_over_put_down_for_the_break_is_one_line() {
    let words = text(&planned(DEMO, &asked()), "");
    assert!(words.contains("11:43–12:46 (fit soft jaws 52 mm on the belt lathe, 18 min)"), "{words}");
}

/// The sheets behind the page are those of its timetable.
#[test]
fn the_sheets_behind_the_page_are_those_of_the_day() {
    let plan = try_plan(DEMO, Some(&shop(SHOP))).unwrap();
    let plans = [plan];
    let bound = |asked: &Asked| {
        let day = day::day(&plans, asked).unwrap();
        let behind = layout::day_pdf(&day, &plans).unwrap().len() - layout::day_pdf(&day, &[]).unwrap().len();
        (behind, day.lines.into_iter().map(|line| line.id).collect::<Vec<String>>())
    };
    let (whole, ids) = bound(&asked());
    let (short, fewer) = bound(&Asked { to: Some("11:00".parse().unwrap()), ..asked() });
    let done = |ids: &[String]| Asked { done: ids.iter().map(|id| (id.clone(), None)).collect(), ..asked() };
    let (rest, _) = bound(&done(&fewer));
    assert!(
        !fewer.is_empty() && fewer.len() < ids.len() && short * 5 < whole * 4 && rest * 5 < whole * 4,
        "{short} {rest} {whole}"
    );
    assert_eq!(bound(&done(&ids)), (0, Vec::new()));
}

/// What is wrong in a shop is said once, however many jobs name it.
#[test]
fn a_slip_of_the_shop_is_told_once() {
    let folder = tempfile::tempdir().unwrap();
    let put = |name: &str, text: &str| std::fs::write(folder.path().join(name), text).unwrap();
    put("shop.yaml", &SHOP.replacen("spindle:", "spindel:", 1));
    for name in ["a.yaml", "b.yaml", "c.yaml"] {
        put(name, &DEMO.replace("job: Tidewater", &format!("job: {name} Tidewater")));
    }
    let run = |jobs: &[&str]| {
        let out = Command::new(env!("CARGO_BIN_EXE_setover"))
            .arg("day")
            .args(jobs)
            .current_dir(folder.path())
            .output()
            .unwrap();
        (out.status.code(), String::from_utf8(out.stderr).unwrap())
    };
    let (code, three) = run(&["a.yaml", "b.yaml", "c.yaml"]);
    assert_eq!((code, three.matches("spindel").count()), (Some(2), run(&["a.yaml"]).1.matches("spindel").count()));
}
