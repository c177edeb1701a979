//! What the log has proves no more than was measured: a joint before its bore, a reading that cannot be, a size that nobody wrote down, a
//! reading as coarse as its limits; what is not true yet is trued again.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::log_loop::Bench;

const TURN: &str = include_str!("../examples/turn.yaml");
const REAM: &str = include_str!("../examples/ream-bush.yaml");
const HOLE: &str = include_str!("../examples/bore-hole.yaml");
const PRESS: &str = include_str!("../examples/press-in.yaml");
const TRUE: &str = include_str!("../examples/set-true.yaml");
const POLISH: &str = include_str!("../examples/polish-seal.yaml");
const TURNED: &str = "pump drive shaft/turn";

/// A bore for a bush, as an operation of its part.
const BORED: &str = "      - bore-hole: {present: 23.2 ± 0.05 mm, bore: 24.00 .. 24.02 mm, depth: 20 mm, through: true, behind: 6.0 ± 0.5 mm, outside: 46.0 ± 0.1 mm, over-all: 20 ± 0.1 mm, finish: Ra 0.8 um, hold: {in: soft-jaws, diameter: 46 mm, grip: 12 mm, overhang: 8 mm, true-within: 0.03 mm, stop: step}}\n";

/// What is pressed into a bore is pressed in when that is there: a day before it was cut something in the log is wrong.
#[test]
fn a_joint_that_was_made_before_its_bore_was_cut_is_not_proven() {
    let first = PRESS.replacen("      - press-in:", &format!("{BORED}      - press-in:"), 1);
    let job = first.replace("bore: 24.010 ± 0.004 mm", "bore: {of: pump cover/bore-hole/diameter_after}");
    assert_ne!(first, job);
    let told = |pressed: &str, bored: &str| {
        let bench = Bench::of(&job);
        bench.log(&["pump cover/press-in", "bore_after_pressing=17.98 ± 0.003 mm", "--date", pressed]);
        bench.log(&["pump cover/bore-hole", "diameter_after=24.010 ± 0.003 mm", "--date", bored]);
        bench.plan()["operations"][1].to_string().contains("log-joined-before")
    };
    assert!(told("2026-12-03", "2026-12-04"));
    assert!(!told("2026-12-04", "2026-12-04"));
    assert!(!told("2026-12-05", "2026-12-04"));
}

/// What goes on from a reading of which it is said that it cannot be is no better than that; and it is said as the line is written.
#[test]
fn what_goes_on_from_a_doubtful_reading_is_doubtful() {
    let bench = Bench::of(REAM);
    let said = bench.log(&["pump end case/ream-bush", "bore_after_pressing=15.60 mm", "with=bore gauge"]);
    assert!(said.contains("By L1 pump end case/ream-bush is DOUBTFUL:"), "{said}");
    let sheets = bench.said(&["sheets", "job.yaml", "-o", "sheets.pdf"]);
    for id in ["1.5", "1.6"] {
        let row = sheets.lines().find(|line| line.starts_with(id)).unwrap_or_else(|| panic!("{sheets}"));
        assert!(row.contains("DOUBTFUL"), "{sheets}");
    }
}

/// A size that is asked and was never written down is named, whichever of the others says that the work is done.
#[test]
fn each_size_that_is_asked_is_written_down() {
    for (job, of, some, rest) in [
        (TURN, TURNED, "diameter_after=23.97 ± 0.004 mm", "length_cut=22.0 ± 0.02 mm"),
        (REAM, "pump end case/ream-bush", "finish_bore=16.022 ± 0.002 mm", "bore_after_pressing=15.93 ± 0.003 mm"),
    ] {
        let bench = Bench::of(job);
        bench.log(&[of, some]);
        assert_eq!(bench.state(0, "size-written-down"), "doubtful", "{of}");
        let sheets = bench.said(&["plan", "job.yaml", "--all"]);
        assert!(!sheets.contains("as it was left is in the log"), "{of}: {sheets}");
        let name = rest.split_once('=').expect("a name").0;
        assert!(bench.plan().to_string().contains(&format!("`{name}`")), "{of}");
        bench.log(&[of, rest]);
        assert!(!bench.plan().to_string().contains("size-written-down"), "{of}");
    }
}

/// A reading about as coarse as the limits are apart proves nothing, whatever the shop could have read it with.
#[test]
fn what_is_read_as_coarsely_as_its_limits_are_apart_is_not_proven() {
    for (job, of, key, size) in
        [(TURN, TURNED, "diameter_after", "23.975"), (HOLE, "impeller boss/bore-hole", "diameter_after", "25.01")]
    {
        let state = |doubt: &str| {
            let bench = Bench::of(job);
            bench.log(&[of, &format!("{key}={size} ± {doubt} mm")]);
            bench.state(0, "measured-so-closely")
        };
        assert_eq!(state("0.002"), "proven", "{of}");
        assert_eq!(state("0.024"), "doubtful", "{of}");
    }
}

/// What is not true yet is moved again; till then nothing of it that is held so is cut as if it were true.
#[test]
fn what_is_not_true_yet_is_not_finished() {
    let polish = POLISH.lines().skip_while(|line| !line.contains("- polish-seal")).collect::<Vec<_>>().join("\n");
    let job = format!("{TRUE}{polish}\n")
        .replace("mild steel", "case-hardened steel\n    hardness: 58 HRC\n    case-depth: 0.8 ± 0.05 mm");
    let of = "pump shaft/set-true";
    let day = |bench: &Bench| bench.said(&["day", "job.yaml", "--from", "08:00"]);
    let bench = Bench::of(&job);
    let said = bench.log(&[of, "tir_after=0 0.02 0.04 0.02 0 -0.02 -0.04 -0.02 mm", "with=lever indicator"]);
    assert!(said.contains("NOT FINISHED"), "{said}");
    assert_eq!(bench.verdict(0), "doubtful");
    assert_eq!(bench.state(1, "trued-not-yet"), "doubtful");
    let begun = day(&bench);
    let timed = |id: &str| begun.lines().any(|line| line.contains(&format!("  {id}  ")) && line.contains('–'));
    assert!(timed("1.1") && timed("2.1"), "{begun}");
    bench.log(&[
        of,
        "tir_after=0 0.002 0.004 0.002 0 -0.002 -0.004 -0.002 mm",
        "with=lever indicator",
        "--corrects",
        "L1",
    ]);
    assert!(!bench.plan()["operations"][1].to_string().contains("trued-not-yet"));
}

/// What was set true gave its place up when other work was done in that machine since: the plan says so too.
#[test]
fn what_was_set_true_is_so_no_more_when_other_work_stood_there() {
    let polish = POLISH.lines().skip_while(|line| !line.contains("- polish-seal")).collect::<Vec<_>>().join("\n");
    let hard = "case-hardened steel\n    hardness: 58 HRC\n    case-depth: 0.8 ± 0.05 mm";
    let turn = &TURN[TURN.find("  - part").expect("a part")..];
    let job = format!("{}{polish}\n{turn}", TRUE.replace("mild steel", hard));
    let trued =
        ["pump shaft/set-true", "tir_after=0 0.002 0.004 0.002 0 -0.002 -0.004 -0.002 mm", "with=lever indicator"];
    let turned = [TURNED, "diameter_after=23.97 ± 0.004 mm", "length_cut=22.0 ± 0.02 mm"];
    let told = |lines: [&[&str]; 2]| {
        let bench = Bench::of(&job);
        lines.iter().for_each(|line| {
            bench.log(line);
        });
        bench.plan()["operations"][1].to_string().contains("trued-given-up")
    };
    assert!(told([&trued, &turned]));
    assert!(!told([&turned, &trued]));
}

/// A face that was lapped before something was pressed into its casting is flat no more, whatever the log has of both; lapped behind
/// that, or mapped again, it is.
#[test]
fn a_lapped_face_is_moved_by_what_was_pressed_since() {
    const JOB: &str = include_str!("one_part/lapped-then-pressed.yaml");
    let told = |lapped: &str, pressed: &str, again: Option<&str>| {
        let bench = Bench::of(JOB);
        const FLAT: &str = "flat_after=0.010 ± 0.002 mm";
        bench.log(&["case/lap", FLAT, "--date", lapped]);
        bench.log(&["case/press-in", "bore_after_pressing=17.975 ± 0.002 mm", "--date", pressed]);
        again.into_iter().for_each(|date| {
            bench.log(&["case/lap", FLAT, "corrects=1", "--date", date]);
        });
        bench.plan()["operations"][0].to_string().contains("stays-flat")
    };
    assert!(told("2026-12-01", "2026-12-02", None));
    assert!(told("2026-12-02", "2026-12-02", None), "of one day as the log has them");
    assert!(!told("2026-12-03", "2026-12-02", None));
    assert!(!told("2026-12-01", "2026-12-02", Some("2026-12-03")));
}

/// A size outside what its sheet asked for is told as it is written down, though nothing fails by it.
#[test]
fn what_is_left_otherwise_than_the_sheet_asked_is_told() {
    const SEAT: &str = include_str!("../examples/spot-face.yaml");
    let told = |depth: &str| Bench::of(SEAT).log(&["pump cover/spot-face", &format!("seat_depth={depth} ± 0.05 mm")]);
    assert!(told("3.50").contains("lies outside what the sheet asked for: 2.00 ± 0.20 mm"), "{}", told("3.50"));
    assert!(!told("2.05").contains("outside"), "{}", told("2.05"));
}

const INSERT: &str = include_str!("../examples/thread-insert.yaml");
const MILL: &str = include_str!("../examples/mill-face.yaml");

/// A shaft that is turned three times over, each cut by what the one before it left.
fn three_cuts() -> String {
    let turn = |name: &str, present: &str, outside: &str, finish: &str| {
        let hold = "hold: {in: jaws, diameter: 24.6 mm, grip: 40 mm, overhang: 30 mm, true-within: 0.05 mm, stop: rod, nipped: hard}";
        format!(
            "      - turn: {{set-up: {{name: {name}}}, present: {present}, outside: {outside}, length: 22.0 ± 0.2 mm, over-all: 70 ± 0.2 mm, corner: 0.4 mm, finish: {finish}, {hold}, inside: 0 mm}}\n"
        )
    };
    let after = |name: &str| format!("{{of: pump drive shaft/{name}/diameter_after}}");
    let head = TURN.split("      - turn:").next().expect("a head").to_owned();
    let rough = turn("rough", "24.60 ± 0.02 mm", "24.20 .. 24.30 mm", "Ra 3.2 um");
    let job = head + &rough + &turn("mid", &after("rough"), "23.95 .. 24.00 mm", "Ra 3.2 um");
    job + &turn("last", &after("mid"), "23.60 .. 23.70 mm", "Ra 3.2 um")
}

/// A finish cut is made behind its rough cut; a day before it something in the log is wrong, and what goes on from it is no surer.
#[test]
fn a_cut_that_was_made_before_the_one_it_goes_on_from_is_not_proven() {
    let job = three_cuts();
    let told = |mid: &str, rough: &str| {
        let bench = Bench::of(&job);
        for (name, size, date) in [("rough", "24.25", rough), ("mid", "23.97", mid)] {
            let size = format!("diameter_after={size} ± 0.004 mm");
            bench.log(&[&format!("pump drive shaft/{name}"), &size, "length_cut=22.0 ± 0.02 mm", "--date", date]);
        }
        let has = |at: usize, id: &str| bench.plan()["operations"][at].to_string().contains(id);
        // What is done is not proven by that: the day says what of it is looked at again.
        let day = bench.json(&["day", "job.yaml"]);
        let done = day["done_by_log"].as_array().expect("what is done").clone();
        let own = done.iter().find(|own| own["id"] == "2.1").unwrap_or_else(|| panic!("{day:#}"));
        assert_eq!(own["doubtful"].is_array(), has(1, "log-made-before"), "{own}");
        (has(1, "log-made-before"), has(2, "read-as-it-was"), bench.verdict(1))
    };
    assert_eq!(told("2026-12-03", "2026-12-04"), (true, true, "doubtful".to_owned()));
    for mid in ["2026-12-04", "2026-12-05"] {
        assert_eq!(told(mid, "2026-12-04"), (false, false, "proven".to_owned()), "{mid}");
    }
}

/// What a rule has in front of other work was not done behind it: a face cut behind an insert cuts its coil, whatever the list says.
#[test]
fn work_that_was_done_before_what_a_rule_has_in_front_of_it_is_not_proven() {
    let face = MILL.split_once("    operations:\n").expect("a mill-face").1;
    let told = |milled: &str, inserted: &str, mill_first: bool| {
        let bench = Bench::of(&INSERT.replacen("      - thread-insert:", &format!("{face}      - thread-insert:"), 1));
        let insert = ["timing chest/thread-insert", "drilled_depth=16.0 ± 0.1 mm", "--date", inserted];
        let mill = ["timing chest/mill-face", "thickness_after=17.2 ± 0.02 mm", "--date", milled];
        let both = if mill_first { [mill, insert] } else { [insert, mill] };
        both.iter().for_each(|line| {
            bench.log(line);
        });
        bench.plan()["operations"][1].to_string().contains("log-made-before")
    };
    for mill_first in [true, false] {
        assert!(told("2026-12-05", "2026-12-04", mill_first));
        assert!(!told("2026-12-03", "2026-12-04", mill_first));
        // On one day the lines stand as the work was done.
        assert_eq!(told("2026-12-04", "2026-12-04", mill_first), !mill_first);
    }
}

/// What was cut already and is spoilt is not cut again: it is not fitted, nothing cut away is measured again, and whoever says that it is
/// done frees nothing that goes on from it.
#[test]
fn what_is_spoilt_is_not_to_be_cut_but_not_to_be_fitted() {
    let bench = Bench::of(&three_cuts());
    let log = |name: &str, size: &str| {
        let size = format!("diameter_after={size} ± 0.004 mm");
        bench.log(&[&format!("pump drive shaft/{name}"), &size, "length_cut=22.0 ± 0.02 mm"]);
    };
    log("rough", "24.25");
    let sheets = |bench: &Bench| bench.said(&["sheets", "job.yaml", "-o", "sheets.pdf", "--force"]);
    assert!(!sheets(&bench).contains("DO NOT"));
    log("mid", "23.90");
    let told = sheets(&bench);
    let row = told.lines().find(|line| line.starts_with("2.1")).unwrap_or_else(|| panic!("{told}"));
    assert!(row.contains("DO NOT FIT") && !told.contains("DO NOT CUT"), "{told}");
    let plan = bench.said(&["plan", "job.yaml", "--all"]);
    assert!(plan.contains("STOP. It is done (L2) and FAILS as it was left"), "{plan}");
    for done in ["1.1", "1.1,2.1"] {
        let day = bench.json(&["day", "job.yaml", "--done", done]);
        let out = day["left_out"].as_array().expect("what is left out");
        let ids: Vec<&str> = out.iter().filter_map(|out| out["id"].as_str()).collect();
        assert_eq!(ids, ["2.1", "3.1"], "{done}: {day:#}");
    }
}

/// What the log says is not finished is not done because somebody says so: what is left of it is written down first.
#[test]
fn what_is_not_finished_is_not_done_by_saying_so() {
    let bench = Bench::of(&three_cuts());
    bench.log(&["pump drive shaft/rough", "diameter_after=24.45 ± 0.004 mm", "length_cut=22.0 ± 0.02 mm"]);
    let said = bench.said(&["day", "job.yaml", "--done", "1.1"]);
    assert!(said.contains("`1.1` is not finished by L1 of the log"), "{said}");
}
