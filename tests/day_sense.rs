//! A day read as a machinist reads it: no idle hands before work that is at hand, no oven full for hours, nothing cut where it spoils
//! what is finished.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{in_shop, shop, try_plan};
use setover::plan::day::{Asked, Assumed, Day, Line, Why, day};

const SHOP: &str = include_str!("../demo/shop.yaml");

fn planned(job: &str) -> Day {
    let plans = vec![try_plan(job, Some(&shop(SHOP))).unwrap_or_else(|all| panic!("{all:#?}"))];
    day(&plans, &Asked { days: 3, ..Asked::default() }).unwrap_or_else(|all| panic!("{all:#?}"))
}

fn line<'a>(day: &'a Day, id: &str) -> &'a Line {
    day.lines.iter().find(|line| line.id == id).unwrap_or_else(|| panic!("no line {id}"))
}

/// A job of hand work: each `part: does, minutes, the rest of its keys, its set-up`.
fn by_hand(works: &[(&str, &str, u32, &str, &str)]) -> String {
    let one = |(part, does, minutes, more, wish): &(&str, &str, u32, &str, &str)| {
        format!(
            "  - part: {part}\n    operations:\n      - hand: {{set-up: {{{wish}}}, does: {does}, minutes: {minutes} min{more}}}\n"
        )
    };
    format!("job: Hand\nparts:\n{}", works.iter().map(one).collect::<String>())
}

/// What is at hand is done while a part is waited for, not behind it.
#[test]
fn a_wait_is_filled_with_what_is_at_hand() {
    let job = by_hand(&[
        ("brought at one", "Dress it", 20, "", "not-before: \"13:00\""),
        ("lid", "Scrape it", 60, "", ""),
        ("plate", "Drill it", 30, ", hold: {in: vice}", "machine: turret mill"),
        ("brought back", "Fit it", 90, "", "not-before: \"15:00\""),
        ("plate", "Tap it", 20, "", "name: tap"),
    ]);
    let day = planned(&job);
    let ids = |day: &Day| day.lines.iter().map(|line| line.id.clone()).collect::<Vec<_>>();
    assert_eq!(ids(&day), ["2.1", "3.1", "5.1", "1.1", "4.1"], "{:?}", day.lines);
    assert_eq!(day.finish, 16 * 60 + 30);
    assert!(matches!(line(&day, "1.1").why, Why::NotBefore(at) if at == 13 * 60), "{:?}", day.lines);
    // With nothing to wait for it stays as it is typed.
    let typed = planned(&job.replace("not-before: \"13:00\"", "").replace("not-before: \"15:00\"", ""));
    assert_eq!(ids(&typed), ["1.1", "2.1", "3.1", "4.1", "5.1"]);
}

/// A boss that is bored.
const BOSS: &str = "
job: Fit
parts:
  - part: wheel boss
    material: GG25
    operations:
      - bore-hole:
          present: 23.2 ± 0.05 mm
          bore: 24.03 .. 24.05 mm
          depth: 30 mm
          through: true
          behind: 6.0 ± 0.5 mm
          outside: 48.0 ± 0.1 mm
          over-all: 30 ± 0.1 mm
          finish: Ra 3.2 um
          hold: {in: soft-jaws, diameter: 48 mm, grip: 18 mm, overhang: 12 mm, true-within: 0.03 mm, stop: step}
";

/// A bore that was just cut is warm: its fit is measured when it is cool.
#[test]
fn a_fit_is_measured_when_what_was_cut_is_cool() {
    let job = format!(
        "{BOSS}      - fit-up: {{bore: BORE, shaft: 23.980 ± 0.004 mm, shaft-material: mild steel, clearance: 0.030 .. 0.100 mm}}\n"
    );
    let waits = |bore: &str| {
        let day = planned(&job.replace("BORE", bore));
        line(&day, "2.1").start.checked_sub(line(&day, "1.1").end)
    };
    assert!(waits("{of: wheel boss/bore-hole/diameter_after}").is_some_and(|wait| wait >= 90));
    // What was read before need not wait for that cut; behind it the boss that is measured again is warm all the same.
    let typed = waits("24.04 ± 0.004 mm");
    assert!(typed.is_none_or(|wait| wait >= 90), "{typed:?}");
}

const OVEN: &str = ", waits: {minutes: 45 min, watched: true, holds: true}, leaves: [warm]";

/// What is fetched at an hour goes into the oven in time for it, not in the morning.
#[test]
fn what_is_fetched_at_noon_does_not_lie_in_the_oven_from_eight() {
    let job = |at: &str| {
        let oven = format!(
            "      - hand: {{set-up: {{name: warm, machine: kitchen oven}}, does: Warm it, minutes: 5 min{OVEN}}}\n"
        );
        let home =
            format!("      - hand: {{set-up: {{name: home{at}}}, does: Drop it in, minutes: 5 min, needs: [warm]}}\n");
        format!("job: Noon\nparts:\n  - part: cover\n    longest: 200 mm\n    operations:\n{oven}{home}")
    };
    let day = planned(&job(", at: \"11:30\""));
    let warm = line(&day, "1.1");
    assert_eq!((warm.start, warm.by_itself_until), (10 * 60 + 40, Some(11 * 60 + 30)));
    assert_eq!(warm.why, Why::First);
    let day = planned(&job(""));
    assert_eq!((line(&day, "1.1").start, line(&day, "2.1").start), (8 * 60, 8 * 60 + 50));
}

/// A day that would end some minutes earlier with a part in the oven for hours is not the better one.
#[test]
fn no_part_is_left_in_the_oven_for_hours() {
    let job = format!(
        "job: Long\nparts:\n  - part: bed\n    operations:\n      - hand: {{does: Scrape the bed., minutes: 400 min}}\n  - part: cover\n    longest: 200 mm\n    operations:\n      - hand: {{set-up: {{name: warm, machine: kitchen oven}}, does: Warm it, minutes: 5 min{OVEN}}}\n      - hand: {{set-up: {{name: home}}, does: Drop it in, minutes: 5 min, needs: [warm]}}\n"
    );
    let day = planned(&job);
    assert!(line(&day, "3.1").start <= line(&day, "2.1").by_itself_until.unwrap() + 240, "{:?}", day.lines);
    // Where the hands would wait else it may come between, and the casting is warmed behind it.
    let kept = |own: &Assumed| matches!(own, Assumed::KeptOut(load, other) if load == "2.1" && other == "1.1");
    assert!(day.assumed.iter().any(kept) || line(&day, "1.1").end <= line(&day, "2.1").start, "{:?}", day.assumed);
}

/// A part whose glue cures is let alone.
#[test]
fn what_cures_is_not_worked_meanwhile() {
    let job = "job: Glue\nparts:\n  - part: cover\n    operations:\n      - hand: {set-up: {name: glue}, does: Glue the patch, minutes: 10 min, waits: {minutes: 2 h}, leaves: [joined]}\n      - hand: {set-up: {name: drill, machine: turret mill}, does: Drill it, minutes: 20 min, hold: {in: vice}}\n  - part: lid\n    operations:\n      - hand: {does: Scrape it, minutes: 30 min}\n";
    let day = planned(job);
    let (glue, drill) = (line(&day, "1.1"), line(&day, "2.1"));
    assert!(drill.end <= glue.start || drill.start >= glue.by_itself_until.unwrap(), "{:?}", day.lines);
    assert!(line(&day, "3.1").start < glue.by_itself_until.unwrap());
}

/// Nothing is washed in a fuel while it is hot.
#[test]
fn no_fuel_comes_on_a_hot_part() {
    let job = |wash: &str| {
        format!(
            "job: Torch\nparts:\n  - part: flange\n    material: mild steel\n    operations:\n      - wash: {{{wash}cleaner: brake cleaner, dirt: oil, cavities: 0}}\n      - hand: {{set-up: {{name: torch}}, does: Warm it with the torch, minutes: 10 min, leaves: [warm]}}\n      - hand: {{set-up: {{name: drop}}, does: Drop the ring on, minutes: 5 min, needs: [warm]}}\n"
        )
    };
    for wash in ["", "set-up: {after: flange/drop}, "] {
        let day = planned(&job(wash));
        let (wash, torch, drop) = (line(&day, "1.1"), line(&day, "2.1"), line(&day, "3.1"));
        assert!(wash.end + 60 <= torch.start || wash.start >= drop.end + 60, "{:?}", day.lines);
    }
}

/// Turning comes before the polish, the face before its holes, the decision before a new bush, and a casting is lapped bare.
#[test]
fn nothing_is_cut_where_it_spoils_what_is_finished() {
    let part = |material: &str, operations: &str| {
        format!("job: Sense\nparts:\n  - part: piece\n    material: {material}\n    operations:\n{operations}")
    };
    let of = |example: &str| example.split_once("    operations:\n").unwrap().1.to_owned();
    let turn = of(include_str!("../examples/turn.yaml"));
    let polish = "      - polish-seal: {track: 25 mm, size: 24.962 ± 0.004 mm, groove: 0.012 ± 0.004 mm, removed-before: 0 mm, speed: 1800 rev/min, dirt: clean, run-out: 0.03 ± 0.004 mm, seal-off-centre: 0.05 ± 0.02 mm}\n";
    let day = planned(&part("mild steel", &format!("{polish}{turn}")));
    assert!(line(&day, "2.1").end <= line(&day, "1.1").start, "{:?}", day.lines);
    let (drill, mill) = (of(include_str!("../examples/drill.yaml")), of(include_str!("../examples/mill-face.yaml")));
    let seat = drill.replace("hold: {in: vice", "hold: {in: clamps");
    let day = planned(&part("GG25", &format!("{seat}{mill}")));
    assert!(line(&day, "2.1").end <= line(&day, "1.1").start, "{:?}", day.lines);
    let press = "      - press-in: {housing: {bore: 24.010 ± 0.004 mm, outside: 46 mm, length: 20 mm, finish: Ra 0.8 um}, bush: {outside: 24.030 ± 0.004 mm, bore: 18.000 ± 0.004 mm, length: 20 mm, material: phosphor bronze, finish: Ra 0.8 um}, stands: flush, support: {inside: 30 mm, under: boss}}\n";
    let decide = "      - hand: {set-up: {name: decide}, does: Decide whether it is worth it, minutes: 5 min, leaves: [decided]}\n";
    let day = planned(&part("cast aluminium", &format!("{press}{decide}")));
    assert!(line(&day, "2.1").end <= line(&day, "1.2").start, "{:?}", day.lines);
}

/// What is done by hand behind a cut in the file is done to what that left; the need of the cut to be clean is then taken as met.
#[test]
fn burrs_and_chips_are_there_once_it_was_cut() {
    let hand = "      - deburr: {edges: 2, by: file, turning: false}\n      - wash: {cleaner: paraffin, dirt: oil, cavities: 0}\n";
    let drill = include_str!("../examples/drill.yaml");
    let before = crate::common::with(drill, "    operations:\n", &format!("    operations:\n{hand}"));
    for job in [format!("{drill}{hand}"), before] {
        let day = planned(&job);
        let ids: Vec<&str> = day.lines.iter().map(|line| line.id.as_str()).collect();
        assert_eq!(ids, ["1.1", "2.1", "3.1"], "{job}");
    }
}

/// Listed as it may not be done, it is done as it must: a hole before the lap, the wash that it needs before the hole.
#[test]
fn what_is_listed_against_the_rules_makes_no_circle() {
    let part = |example: &str| example.split_once("    operations:\n").unwrap().1.to_owned();
    let lap = include_str!("../examples/lap.yaml").split_once("  - part: barrel").unwrap().0.to_owned();
    let wash = "      - wash: {cleaner: paraffin, dirt: oil, cavities: 0}\n";
    let day = planned(&format!("{lap}{wash}{}", part(include_str!("../examples/drill.yaml"))));
    let ids: Vec<&str> = day.lines.iter().map(|line| line.id.as_str()).collect();
    assert_eq!(ids, ["2.1", "3.1", "1.1", "1.2"]);
}

/// Every cut in the path of a float is done before its shims are fitted: a lap with its map, and a face that stands behind them in the
/// file.
#[test]
fn shims_are_fitted_behind_every_cut_in_their_path() {
    let of = |example: &str| example.split_once("parts:\n").unwrap().1.to_owned();
    let shim = of(include_str!("../examples/shim.yaml"));
    let lap = of(include_str!("../examples/lap.yaml"));
    let face = of(include_str!("../examples/face.yaml"));
    let [shim, lap, face] = [shim.as_str(), lap.as_str(), face.as_str()];
    for order in [vec![shim, lap], vec![lap, shim], vec![lap, shim, face], vec![face, shim, lap], vec![shim, face, lap]]
    {
        let job = format!("job: Float\nparts:\n{}", order.concat());
        let plans = vec![try_plan(&job, Some(&shop(crate::common::SHOP))).unwrap_or_else(|all| panic!("{all:#?}"))];
        let day = day(&plans, &Asked { days: 3, ..Asked::default() }).unwrap_or_else(|all| panic!("{all:#?}"));
        let cuts =
            |line: &&Line| ["Map the face", "Lap the face", "Face to clean metal"].contains(&line.set_up.as_str());
        let last = day.lines.iter().filter(cuts).map(|line| line.end).max().unwrap();
        let fitted = day.lines.iter().find(|line| line.set_up == "Fit the shims").unwrap();
        assert!(fitted.start >= last, "{:#?}", day.lines);
    }
}

/// Readings that belong together are not put down for a break and gone on with behind it.
#[test]
fn what_is_read_from_one_nought_is_not_broken_off() {
    const BENCH: &str = include_str!("../examples/shop.yaml");
    let pauses = |job: &str, set_up: usize| {
        let plan = try_plan(job, Some(&shop(BENCH))).unwrap_or_else(|all| panic!("{all:#?}"));
        plan.operations[0].answer.set_ups[set_up].pause
    };
    assert!(!pauses(include_str!("../examples/lap.yaml"), 0));
    assert!(pauses(include_str!("../examples/lap.yaml"), 1));
    assert!(!pauses(include_str!("../examples/fit-up.yaml"), 0));
    assert!(!pauses(include_str!("../examples/set-true.yaml"), 0));
    // No tap, no reamer and no coil is left in its hole.
    assert!(!pauses(include_str!("../examples/tap.yaml"), 0));
    assert!(!pauses(include_str!("../examples/thread-insert.yaml"), 1));
    let bush = &in_shop(include_str!("../examples/ream-bush.yaml")).operations[0].answer.set_ups;
    assert!(bush.iter().filter(|set_up| set_up.id.starts_with("ream-by")).all(|set_up| !set_up.pause));
}

/// Oil holes of a bush are held as any hole is: the mill is set up for them.
#[test]
fn a_mill_is_set_up_for_the_oil_holes_of_a_bush() {
    let day = planned(include_str!("../examples/ream-bush.yaml"));
    let drilled = day.lines.iter().find(|line| line.set_up.contains("oil hole")).expect("oil holes");
    assert!(drilled.change.is_some(), "{drilled:?}");
}

/// What an old bush is pushed out by, and what a part is washed with, is at hand before the hands stand there.
#[test]
fn what_a_bush_is_pushed_out_by_is_pulled() {
    let pulled = |job: &str, what: &str| planned(job).pull.iter().any(|own| own.item.contains(what));
    assert!(pulled(include_str!("../examples/press-out.yaml"), "mandrel"));
    assert!(pulled(include_str!("../examples/wash.yaml"), "brushes"));
}

/// A casting that stays clamped is set up once: both its holes, and then its work at the bench.
#[test]
fn a_part_stays_clamped_for_all_its_work_there() {
    const DEMO: &str = include_str!("../demo/tidewater.yaml");
    let place = |day: &Day, id: &str| day.lines.iter().position(|line| line.id == id).unwrap();
    let day = planned(DEMO);
    assert_eq!(place(&day, "4.1"), place(&day, "3.1") + 1, "{:?}", day.lines);
    assert!(day.better_broken.is_empty());
    // A rule that the job leaves out is not held, and nothing is later for it.
    let free = planned(&DEMO.replace("parts:", "order: {leave-out: [clamped-once], why: one at a time}\nparts:"));
    assert_eq!(place(&free, "4.1"), place(&free, "3.1") + 2, "{:?}", free.lines);
    assert_eq!(free.finish, day.finish);
    // Work that must be done elsewhere between the two takes it off: nothing is told of a wish that cannot be.
    let hole = |name: &str| {
        format!(
            "      - hand: {{does: Drill it, minutes: 20 min, hold: {{in: clamps}}, set-up: {{machine: turret mill, name: {name} drilled}}}}\n      - hand: {{does: Fit it, minutes: 15 min, set-up: {{name: {name} fitted}}}}\n"
        )
    };
    let day = planned(&format!("job: Hand\nparts:\n  - part: lid\n    operations:\n{}{}", hole("one"), hole("two")));
    let ids: Vec<&str> = day.lines.iter().map(|line| line.id.as_str()).collect();
    assert_eq!(ids, ["1.1", "2.1", "3.1", "4.1"]);
    assert!(day.better_broken.is_empty(), "{:?}", day.better_broken);
}

/// An appointment that cannot be kept is missed, not forestalled: the part is not there before it.
#[test]
fn a_missed_appointment_comes_behind_its_time() {
    let job = by_hand(&[
        ("lid", "Turn it", 15, ", hold: {in: jaws}", "machine: belt lathe, at: \"09:00\""),
        ("plate", "Face it", 10, ", hold: {in: jaws}", "machine: belt lathe, at: \"09:05\""),
    ]);
    let day = planned(&job);
    assert_eq!(day.impossible.len(), 1, "{:?}", day.impossible);
    let missed = line(&day, &day.impossible[0].id);
    assert!(missed.start >= day.impossible[0].at, "{:?}", day.lines);
}

/// What must be watched is never called unattended.
#[test]
fn what_must_be_watched_is_not_called_unattended() {
    let text = |wait: &str| {
        let day = planned(&by_hand(&[("lid", "Glue it", 10, &format!(", waits: {{minutes: 40 min{wait}}}"), "")]));
        setover::sheet::terminal::day(&day, &setover::sheet::terminal::Reasons::All).unwrap()
    };
    let (left, watched) = (text(""), text(", watched: true"));
    assert!(left.contains("unattended until") && !left.contains("to be watched"), "{left}");
    assert!(watched.contains("to be watched until") && !watched.contains("unattended until"), "{watched}");
}

/// Of two parts that are measured against each other each cools from the last work on it: what is lapped on the one keeps its fit waiting.
#[test]
fn a_fit_rests_from_the_last_work_on_either_part() {
    const FIT: &str = "  - part: shaft
    material: mild steel
    operations:
      - fit-up: {bore: {of: wheel boss/bore-hole/diameter_after}, shaft: 23.980 ± 0.004 mm, bore-material: GG25, shaft-material: mild steel, clearance: 0.030 .. 0.100 mm}
";
    let lap = include_str!("../examples/lap.yaml");
    let lap = &lap[lap.find("      - lap:").unwrap()..];
    let lap = &lap[..lap.find("  - part:").unwrap_or(lap.len())];
    let day = planned(&format!("{BOSS}{lap}{FIT}"));
    let (lapped, fitted) = (line(&day, "2.2"), line(&day, "3.1"));
    assert!(lapped.set_up.contains("Lap"), "{lapped:?}");
    assert!(fitted.start >= lapped.end + 90 || fitted.start < lapped.start, "{fitted:?} {lapped:?}");
}
