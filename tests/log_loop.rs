//! What the log brings to the plan is never better than what was measured: a line that was lost, a correction that was taken back, work
//! written down by half, a size read before a cut of it.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use serde_json::Value;
use std::path::Path;
use std::process::{Command, Output};

const SHOP: &str = include_str!("../examples/shop.yaml");
const TURN: &str = include_str!("../examples/turn.yaml");
const POLISH: &str = include_str!("../examples/polish-seal.yaml");
const BORE: &str = include_str!("../examples/bore.yaml");
const SHIM: &str = include_str!("../examples/shim.yaml");
const FIT: &str = include_str!("../examples/fit-up.yaml");
const SEAT: &str = include_str!("../examples/spot-face.yaml");
const REAM: &str = include_str!("../examples/ream-bush.yaml");
const INSERT: &str = include_str!("../examples/thread-insert.yaml");
const LAP: &str = include_str!("../examples/lap.yaml");

/// A job in a folder of its own.
pub struct Bench(tempfile::TempDir);

impl Bench {
    pub fn of(job: &str) -> Self {
        let bench = Self(tempfile::tempdir().expect("folder"));
        bench.write("job.yaml", job);
        bench.write("shop.yaml", SHOP);
        bench
    }

    pub fn path(&self) -> &Path {
        self.0.path()
    }

    pub fn write(&self, name: &str, text: &str) {
        std::fs::write(self.path().join(name), text).expect("written");
    }

    pub fn run(&self, words: &[&str]) -> Output {
        Command::new(env!("CARGO_BIN_EXE_setover")).args(words).current_dir(self.path()).output().expect("runs")
    }

    pub fn said(&self, words: &[&str]) -> String {
        let output = self.run(words);
        String::from_utf8_lossy(&output.stdout).into_owned() + &String::from_utf8_lossy(&output.stderr)
    }

    /// Writes a line that must be taken.
    pub fn log(&self, words: &[&str]) -> String {
        let on = if words.contains(&"--date") { &[][..] } else { &["--date", "2026-12-04"] };
        let words = [&["log", "job.yaml"], words, on].concat();
        let output = self.run(&words);
        assert_eq!(output.status.code(), Some(0), "{words:?}: {}", self.said(&["log", "job.yaml"]));
        String::from_utf8_lossy(&output.stdout).into_owned()
    }

    pub fn json(&self, words: &[&str]) -> Value {
        let output = self.run(&[words, &["--format", "json"]].concat());
        serde_json::from_slice(&output.stdout).unwrap_or_else(|_| panic!("{}", self.said(words)))
    }

    pub fn plan(&self) -> Value {
        self.json(&["plan", "job.yaml"])
    }

    /// The verdict of an operation, by its place in the job.
    pub fn verdict(&self, at: usize) -> String {
        self.plan()["operations"][at]["verdict"].as_str().expect("a verdict").to_owned()
    }

    /// The state of a check of an operation.
    pub fn state(&self, at: usize, id: &str) -> String {
        let plan = self.plan();
        let checks = plan["operations"][at]["checks"].as_array().expect("checks").clone();
        let found = checks.iter().find(|check| check["check"] == id);
        found.unwrap_or_else(|| panic!("{id}: {checks:#?}"))["state"].as_str().expect("a state").to_owned()
    }

    /// The rows of the decision: feature, decision, reasons.
    pub fn decided(&self) -> Vec<(String, String, String)> {
        let decided = self.json(&["decide", "job.yaml"]);
        let text = |row: &Value, key: &str| match &row[key] {
            Value::String(text) => text.clone(),
            other => other.to_string(),
        };
        let rows = decided["rows"].as_array().unwrap_or_else(|| panic!("{decided}"));
        rows.iter().map(|row| (text(row, "feature"), text(row, "decision"), text(row, "why"))).collect()
    }
}

const TURNED: &str = "pump drive shaft/turn";

/// What a line told that was cut off is not known by mending the log: the work that it told of stays in doubt till it is measured.
#[test]
fn a_mended_log_does_not_send_done_work_to_be_cut_again() {
    let two = format!("{TURN}{}", &SHIM[SHIM.find("  - part").expect("a part")..]);
    for (cut, meant) in [(30, true), (95, false)] {
        let bench = Bench::of(&two);
        assert_eq!(bench.verdict(0), "proven");
        bench.log(&[TURNED, "diameter_after=23.97 ± 0.004 mm"]);
        let file = bench.path().join("job.log.yaml");
        let whole = std::fs::read(&file).expect("a log");
        std::fs::write(&file, &whole[..whole.len() - cut]).expect("a log");
        bench.log(&["--mend"]);
        let text = std::fs::read_to_string(&file).expect("a log");
        assert_eq!(text.contains("operation: turn,"), meant, "{text}");
        assert_eq!(bench.state(0, "log-lost"), "doubtful");
        // Of which work it told nobody can read: it may be any of them.
        let of_shim = bench.plan()["operations"][1].to_string();
        assert_eq!(of_shim.contains("log-lost"), !meant, "{of_shim}");
        bench.log(&[TURNED, "diameter_after=23.97 ± 0.004 mm"]);
        assert!(!bench.plan()["operations"][0].to_string().contains("log-lost"));
    }
}

/// A line that is taken back never was: what it stood in the place of counts as it did before it was written.
#[test]
fn what_is_taken_back_never_was() {
    let of = |size: &str| format!("diameter_after={size} ± 0.004 mm");
    let bench = Bench::of(TURN);
    let states = || (bench.plan().to_string(), bench.said(&["day", "job.yaml"]));
    let mut before = vec![states()];
    bench.log(&[TURNED, &of("23.97")]);
    before.push(states());
    bench.log(&[TURNED, &of("23.90"), "--corrects", "L1"]);
    before.push(states());
    bench.log(&[TURNED, &of("23.98"), "--corrects", "L2"]);
    let numbers = |text: &str| text.replace("L1", "L").replace("L2", "L");
    for (entry, back) in [("L3", 2), ("L2", 1), ("L1", 0)] {
        bench.log(&["--withdraws", entry]);
        let now = states();
        assert_eq!(numbers(&now.0), numbers(&before[back].0), "{entry}");
        assert_eq!(now.1.contains("L1"), before[back].1.contains("L1"), "{entry}: {}", now.1);
    }
    assert!(bench.said(&["log", "job.yaml"]).contains("counts no more"));
}

/// Work is done for a size: where the log has another of it and not that one, nobody knows what it came out at.
#[test]
fn work_that_is_written_down_by_half_is_not_proven() {
    for (job, of, half, whole) in [
        (TURN, TURNED, "length_cut=22.0 ± 0.02 mm", &["diameter_after=23.97 ± 0.004 mm"][..]),
        (POLISH, "pump shaft/polish-seal", "finish=Ra 0.5 um", &["diameter_after=24.930 ± 0.004 mm"]),
        (INSERT, "timing chest/thread-insert", "set_down=0.5 ± 0.05 mm", &["drilled_depth=14.0 ± 0.1 mm"]),
    ] {
        let bench = Bench::of(job);
        bench.log(&[of, half]);
        assert_eq!(bench.state(0, "size-written-down"), "doubtful", "{of}");
        assert_ne!(bench.verdict(0), "proven", "{of}");
        let plan = bench.said(&["plan", "job.yaml"]);
        assert!(plan.contains("not") && !plan.starts_with("PROVEN"), "{plan}");
        bench.log(&[&[of], whole].concat());
        assert!(!bench.plan().to_string().contains("size-written-down"), "{of}");
    }
}

/// What goes on from a size that nobody measured when it was cut stands on nothing.
#[test]
fn nothing_is_proven_on_a_size_that_was_cut_and_not_measured() {
    let job = format!("{TURN}{}", &REAM[REAM.find("  - part").expect("a part")..]);
    let job =
        job.replace("23.95 .. 24.00 mm", "15.97 .. 16.00 mm").replace("24.60", "16.60").replace("24.6 mm", "16.6 mm");
    let job = job.replace("shaft: 15.984 ± 0.003 mm", "shaft: {of: pump drive shaft/turn/diameter_after}");
    let bench = Bench::of(&job);
    bench.log(&[TURNED, "length_cut=22.0 ± 0.02 mm"]);
    assert_eq!(bench.state(1, "size-measured-since"), "doubtful");
    bench.log(&[TURNED, "diameter_after=15.984 ± 0.003 mm"]);
    assert!(!bench.plan()["operations"][1].to_string().contains("size-measured-since"));
}

/// A float or a clearance that was read before a cut which it hangs on is read anew.
#[test]
fn what_was_read_over_a_gap_before_a_cut_of_it_is_not_proven() {
    let cut = "  - part: shaft\n    material: mild steel\n    operations:\n      - turn: {present: 25.3 ± 0.02 mm, outside: 24.95 .. 24.97 mm, length: 22.0 ± 0.2 mm, over-all: 70 ± 0.2 mm, corner: 0.4 mm, finish: Ra 3.2 um, hold: {in: jaws, diameter: 25.3 mm, grip: 40 mm, overhang: 30 mm, true-within: 0.05 mm, stop: rod, nipped: hard}}\n";
    let fit = FIT.replace("shaft: {size: 24.962 mm, with: micrometer}", "shaft: {of: shaft/turn/diameter_after}");
    assert_ne!(fit, FIT);
    let job = format!("{fit}{cut}");
    let state = |fitted: &str, turned: &str| {
        let bench = Bench::of(&job);
        bench.log(&["outrigger bush/fit-up", "clearance=0.052 ± 0.004 mm", "--date", fitted]);
        bench.log(&["shaft/turn", "diameter_after=24.960 ± 0.004 mm", "--date", turned]);
        bench.plan()["operations"][0].to_string().contains("log-read-before")
    };
    assert!(state("2026-12-03", "2026-12-04"));
    assert!(!state("2026-12-04", "2026-12-04"));
    assert!(!state("2026-12-05", "2026-12-04"));
    // It hides no failure: what it is by the cut stands, as if nobody had read it.
    let verdict = |fitted: bool| {
        let bench = Bench::of(&job);
        if fitted {
            bench.log(&["outrigger bush/fit-up", "clearance=0.052 ± 0.004 mm", "--date", "2026-12-03"]);
        }
        bench.log(&["shaft/turn", "diameter_after=24.90 ± 0.004 mm", "--date", "2026-12-04"]);
        bench.verdict(0)
    };
    assert_eq!([verdict(false), verdict(true)], ["fails", "fails"]);
    // A correction of a later day may tell of a later cut.
    let bench = Bench::of(&job);
    bench.log(&["shaft/turn", "diameter_after=24.964 ± 0.004 mm", "--date", "2026-12-03"]);
    bench.log(&["outrigger bush/fit-up", "clearance=0.048 ± 0.004 mm", "--date", "2026-12-04"]);
    assert!(!bench.plan()["operations"][0].to_string().contains("log-read-before"));
    bench.log(&["shaft/turn", "diameter_after=24.962 ± 0.004 mm", "--corrects", "L1", "--date", "2026-12-08"]);
    assert_eq!(bench.state(0, "log-read-before"), "doubtful");
}

/// The same of a float that goes by no link: the face is known by the part alone.
#[test]
fn a_float_read_before_a_face_was_cut_is_not_proven() {
    let job = "job: a float\nshop: shop.yaml\ndate: 2026-12-04\nparts:\n  - part: thrust collar\n    material: case-hardened steel\n    hardness: 59 HRC\n    case-depth: 0.9 ± 0.05 mm\n    operations:\n      - face: {outside: 2 in, inside: 1 1/4 in, length: 21.87 ± 0.01 mm, wear: 0.16 ± 0.02 mm, finish: Ra 1.6 um, least-case: 0.5 mm, removed-before: 0 mm, hold: {in: soft-jaws, diameter: 2 in, grip: 10 mm, overhang: 12 mm, true-within: 0.01 mm, stop: step, nipped: normal}}\n  - part: layshaft\n    material: mild steel\n    operations:\n      - shim: {float: 0.12 .. 0.28 mm, float-found: {size: 0.62 ± 0.01 mm, with-pack: {size: 0.10 mm, with: micrometer}}, pack: {most: 3, hard-face: bearing, turning-face: collar, thin: 0.20 mm}}\n";
    let doubtful = |date: &str| {
        let bench = Bench::of(job);
        bench.log(&["thrust collar/face", "length_after=21.641 mm", "with=micrometer"]);
        bench.log(&["layshaft/shim", "float_left=0.20 ± 0.01 mm", "--date", date]);
        bench.plan()["operations"][1].to_string().contains("size-still-there")
    };
    assert!(doubtful("2026-12-03"));
    assert!(!doubtful("2026-12-05"));
}

/// Each of the places that were read is there: together they are no better than the worst of them.
#[test]
fn a_row_of_readings_is_no_better_than_its_worst() {
    let worst = |of: &[String]| {
        ["fails", "doubtful", "proven"]
            .into_iter()
            .find(|verdict| of.iter().any(|own| own == verdict))
            .map(str::to_owned)
    };
    for (job, of, key, reads) in [
        (REAM, "pump end case/ream-bush", "finish_bore", ["15.992", "16.052"]),
        (BORE, "pump barrel/bore", "bored_size", ["46.350", "46.550"]),
        (POLISH, "pump shaft/polish-seal", "diameter_after", ["24.896", "24.956"]),
    ] {
        let verdict = |read: &str| {
            let bench = Bench::of(job);
            bench.log(&[of, &format!("{key}={read} mm")]);
            bench.verdict(0)
        };
        let alone = reads.map(verdict);
        assert_eq!(Some(verdict(&reads.join(" "))), worst(&alone), "{of}: {alone:?}");
    }
}

/// A reading that is called coarser closes nothing that a finer one shows open.
#[test]
fn a_coarser_reading_of_a_gap_closes_nothing() {
    for (job, of, key, size, doubts) in [
        (SHIM, "idler shaft/shim", "float_left", "0.22", ["0.01", "0.02", "0.03", "0.05", "0.08"]),
        (SHIM, "idler shaft/shim", "float_left", "0.15", ["0.01", "0.015", "0.02", "0.04", "0.06"]),
        (FIT, "outrigger bush/fit-up", "clearance", "0.06", ["0.004", "0.006", "0.008", "0.010", "0.015"]),
    ] {
        let verdict = |doubt: &&str| {
            let bench = Bench::of(job);
            bench.log(&[of, &format!("{key}={size} ± {doubt} mm")]);
            bench.verdict(0)
        };
        let all: Vec<String> = doubts.iter().map(verdict).collect();
        let opened = all.iter().position(|verdict| verdict != "proven");
        assert!(opened.is_some_and(|at| all[at..].iter().all(|verdict| verdict != "proven")), "{of} {size}: {all:?}");
    }
}

/// Two readings beside each other are the whole that was found, or one of the three is wrong.
#[test]
fn a_seat_and_what_is_left_under_it_are_the_wall() {
    let verdict = |deep: &str, left: &str| {
        let bench = Bench::of(SEAT);
        bench.log(&[
            "pump cover/spot-face",
            &format!("seat_depth={deep} ± 0.02 mm"),
            &format!("metal_left={left} ± 0.05 mm"),
        ]);
        bench.verdict(0)
    };
    assert_ne!(verdict("5.5", "11.5"), "proven");
    assert_ne!(verdict("2.0", "11.5"), "proven");
    assert_eq!(verdict("2.0", "12.0"), "proven");
}

/// A piston that nobody knows is none of those that lie in the drawer, and a ring that does not do condemns no cylinder.
#[test]
fn a_piston_is_one_of_those_that_are_known() {
    let verdict = |line: &str| {
        let bench = Bench::of(BORE);
        bench.log(&["pump barrel/bore", line]);
        (bench.verdict(0), bench.state(0, "piston-in-hand"))
    };
    let proven = ("proven".to_owned(), "proven".to_owned());
    assert_eq!(verdict("piston=46.421 ± 0.004 mm"), proven);
    for other in ["46.33", "46.25"] {
        assert_eq!(verdict(&format!("piston={other} ± 0.004 mm")).1, "doubtful", "{other}");
    }
    let bench = Bench::of(BORE);
    bench.log(&["pump barrel/bore", "finish_bore=46.500 ± 0.006 mm", "piston=46.420 ± 0.004 mm"]);
    bench.log(&["pump barrel/bore", "ring_gap=0.60 ± 0.01 mm"]);
    assert_eq!(bench.state(0, "ring-gap"), "doubtful");
}

/// What was read when the work was done stamps the sheet on which it was read, and so does what is not finished by it.
#[test]
fn what_is_doubtful_of_a_reading_stamps_the_sheet_that_asks_for_it() {
    for line in [
        ["flat_after=0.008 ± 0.0001 mm", "removed=0.086 ± 0.003 mm"],
        ["flat_after=0.045 ± 0.006 mm", "removed=0.040 ± 0.006 mm"],
    ] {
        let bench = Bench::of(LAP);
        bench.log(&["barrel/lap", line[0], line[1]]);
        let plan = bench.said(&["plan", "job.yaml"]);
        let row =
            |id: &str| plan.lines().find(|row| row.starts_with(id)).unwrap_or_else(|| panic!("{plan}")).to_owned();
        assert!(!row("2.1").contains("oubtful") && !row("2.1").contains("DOUBTFUL"), "{plan}");
        assert!(row("2.2").contains("oubtful") || row("2.2").contains("DOUBTFUL"), "{plan}");
    }
}

/// What is in doubt of done work stands under its stamp on paper as it does at the terminal.
#[test]
fn the_sheet_of_done_work_says_what_is_in_doubt() {
    let bench = Bench::of(POLISH);
    bench.log(&["pump shaft/polish-seal", "diameter_after=24.930 mm", "with=micrometer"]);
    assert!(bench.said(&["plan", "job.yaml"]).contains("DONE"));
    bench.said(&["sheets", "job.yaml", "--format", "html", "-o", "sheet.html"]);
    let page = std::fs::read_to_string(bench.path().join("sheet.html")).expect("a page");
    assert!(page.contains("in doubt: "), "no doubt under the stamp");
    assert!(!page.contains("readings fine enough: "), "the wear is no matter of a gauge");
}

/// A set-up is named as its sheet names it, and one that is not there is told before it is written.
#[test]
fn a_set_up_is_named_as_its_sheet_names_it() {
    let bench = Bench::of(TURN);
    for name in ["1.1", "turn-the-outside"] {
        bench.log(&[TURNED, "note=finished", &format!("set-up={name}"), "from=09:00", "to=10:30"]);
        assert_eq!(bench.run(&["plan", "job.yaml"]).status.code(), Some(0), "{name}");
    }
    let before = std::fs::read(bench.path().join("job.log.yaml")).expect("a log");
    for name in ["1.2", "2.1", "bore-it"] {
        let refused = bench.run(&["log", "job.yaml", TURNED, "note=finished", &format!("set-up={name}"), "to=10:30"]);
        assert_eq!(refused.status.code(), Some(2), "{name}");
        assert!(String::from_utf8_lossy(&refused.stderr).contains("turn-the-outside"), "{name}");
        assert_eq!(std::fs::read(bench.path().join("job.log.yaml")).expect("a log"), before);
    }
}

/// Said to be finished, it is done for the plan, the sheets and the day; what nobody measured is in doubt.
#[test]
fn what_is_told_as_finished_is_done_everywhere_and_in_doubt() {
    for (job, of, set_up, keys) in [
        (TURN, TURNED, "turn-the-outside", &["diameter_after=23.97 ± 0.004 mm", "length_cut=22.0 ± 0.02 mm"][..]),
        (BORE, "pump barrel/bore", "bore-the-cylinder", &["bored_size=46.450 ± 0.006 mm"]),
    ] {
        let bench = Bench::of(job);
        bench.log(&[of, "note=finished", &format!("set-up={set_up}"), "from=09:00", "to=10:30"]);
        let plan = bench.said(&["sheets", "job.yaml", "-o", "sheets.pdf"]);
        let line = plan.lines().find(|line| line.starts_with("1.1")).unwrap_or_else(|| panic!("{plan}"));
        assert!(line.contains("DONE, doubtful"), "{plan}");
        assert_eq!(bench.state(0, "size-written-down"), "doubtful");
        assert!(bench.said(&["day", "job.yaml"]).contains("Done, as the log says"));
        bench.log(&[&[of], keys].concat());
        assert!(!bench.plan().to_string().contains("size-written-down"), "{of}");
    }
}

/// What fails elsewhere by a line is told with that line.
#[test]
fn what_a_line_breaks_elsewhere_is_told_at_once() {
    let job = format!("{TURN}{}", &REAM[REAM.find("  - part").expect("a part")..]);
    let job =
        job.replace("23.95 .. 24.00 mm", "15.90 .. 16.00 mm").replace("24.60", "16.60").replace("24.6 mm", "16.6 mm");
    let job = job.replace("shaft: 15.984 ± 0.003 mm", "shaft: {of: pump drive shaft/turn/diameter_after}");
    let bench = Bench::of(&job);
    bench.log(&[TURNED, "diameter_after=15.984 ± 0.003 mm"]);
    bench.log(&["pump end case/ream-bush", "finish_bore=16.022 ± 0.004 mm"]);
    let said = bench.log(&[TURNED, "diameter_after=15.930 ± 0.003 mm", "--corrects", "L1"]);
    assert!(said.contains("By L3 pump end case/ream-bush fails"), "{said}");
    assert!(bench.said(&["plan", "job.yaml"]).contains("fails (L3)"), "the line that broke it");
    assert!(said.contains("\"pump drive shaft/turn\" diameter_after"), "{said}");
}

const TRUED: &str = "job: t\nshop: shop.yaml\nparts:\n  - part: disc\n    material: mild steel\n    operations:\n      - set-true: {readings: {at: 0 45 90 135 180 225 270 315 deg, reads: 0 -6 -19 -31 -36 -30 -18 -6 um}, second: {jaw-readings: 0 -0.020 -0.060 -0.030 mm, apart: 60 mm}, with: lever indicator, true-within: 0.02 mm, square-within: 0.02 mm, face-readings: 0 -0.020 -0.040 -0.010 mm, face-diameter: 90 mm, last-held-in: four-jaw, hold: {in: four-jaw, diameter: 60 mm}}\n";

/// What swings in a plane or on a face swings there whatever its centre is; and a plane that was not read again is not true.
#[test]
fn what_is_read_in_the_second_plane_and_on_the_face_counts_whole() {
    let first = "tir_after=0.002 0.001 -0.001 -0.001 0.000 0.001 0.001 0.001 mm";
    let states = |second: &str, face: &str| {
        let bench = Bench::of(TRUED);
        let lines = [first.to_owned(), format!("tir_after_second={second} mm"), format!("tilt_after={face} mm")];
        bench.log(&["disc/set-true", &lines[0], &lines[1], &lines[2], "with=lever indicator"]);
        [bench.state(0, "second-plane-true"), bench.state(0, "square-enough")]
    };
    let still = "0.001 -0.001 0.000 0.001";
    let swings = "0.020 -0.020 0.020 -0.020";
    assert_eq!(states(still, still), ["proven", "proven"]);
    assert_eq!(states(swings, still), ["fails", "proven"]);
    assert_eq!(states(still, swings), ["proven", "fails"]);
    let bench = Bench::of(TRUED);
    bench.log(&["disc/set-true", first, "with=lever indicator"]);
    assert_eq!(bench.state(0, "size-written-down"), "doubtful");
    // Before the move: no jaw takes out what is no centre, no tap what is no lean.
    let planned = |from: &str, to: &str, id: &str| {
        assert!(TRUED.contains(from));
        Bench::of(&TRUED.replace(from, to)).state(0, id)
    };
    assert_ne!(planned("0 -0.020 -0.060 -0.030 mm", "0.040 -0.040 0.040 -0.040 mm", "second-plane-true"), "proven");
    assert_ne!(planned("0 -0.020 -0.040 -0.010 mm", "0.05 -0.05 0.05 -0.05 mm", "square-enough"), "proven");
    let nowhere = Bench::of(&TRUED.replace("0 -0.020 -0.040 -0.010 mm", "0.05 -0.05 0.05 -0.05 mm"));
    assert!(!nowhere.said(&["plan", "job.yaml", "--all"]).contains("000000 °"), "it leans nowhere");
}

/// A pack that leaves a wrong float is taken out for one that does; nothing is spoilt, and nobody buys a shaft for it.
#[test]
fn a_trial_pack_is_changed_for_one_that_does() {
    let bench = Bench::of(SHIM);
    bench.log(&["idler shaft/shim", "pack_thickness=0.500 ± 0.004 mm"]);
    let before = bench.plan()["operations"][0]["choices"].to_string();
    bench.log(&["idler shaft/shim", "float_left=0.36 ± 0.01 mm"]);
    assert_eq!(bench.state(0, "float"), "doubtful", "{before}");
    let plan = bench.said(&["plan", "job.yaml"]);
    assert!(plan.contains("take out what is in and lay in"), "{plan}");
    let sheets = bench.said(&["sheets", "job.yaml", "-o", "sheets.pdf"]);
    assert!(!sheets.contains("DONE") && !sheets.contains("DO NOT"), "{sheets}");
    assert!(!bench.said(&["day", "job.yaml"]).contains("Left out"));
    // A float that is not the one of the links chooses no pack: one of the two is wrong.
    let bench = Bench::of(SHIM);
    bench.log(&["idler shaft/shim", "pack_thickness=0.500 ± 0.004 mm", "float_left=0.75 ± 0.01 mm"]);
    let plan = bench.said(&["plan", "job.yaml", "--all"]).replace('\n', " ");
    assert!(plan.contains("measure both again") && !plan.contains("take out what is in and lay in"), "{plan}");
    assert_eq!(bench.state(0, "chain-closed"), "doubtful");
    // Of a pack that nobody wrote down nobody says that it was measured.
    let bench = Bench::of(SHIM);
    bench.log(&["idler shaft/shim", "float_left=-0.10 ± 0.01 mm"]);
    let plan = bench.said(&["plan", "job.yaml", "--all"]);
    assert!(!plan.contains("measured, as the log says"), "{plan}");
}

/// Shims that were written down one by one are those: as thick together as the pack of the plan, they are not that pack, and what they
/// took from the drawer is not in it.
#[test]
fn shims_written_one_by_one_are_those_and_no_others() {
    let job = SHIM.replace("          round:", "          pack: {most: 6, thin: 0.20 mm}\n          round:");
    assert_ne!(job, SHIM);
    let state = |row: &str| {
        let bench = Bench::of(&job);
        bench.log(&["idler shaft/shim", &format!("pack_thickness={row} mm"), "with=micrometer"]);
        bench.state(0, "thin-alone")
    };
    assert_eq!(state("0.100 0.100 0.500"), "proven");
    assert_eq!(state("0.175 0.175 0.175 0.175"), "doubtful");
    let second = SHIM[SHIM.find("  - part").expect("a part")..].replace("idler shaft", "layshaft");
    let bench = Bench::of(&format!("{SHIM}{second}"));
    let chosen =
        |at: usize| bench.plan()["operations"][at]["choices"]["pack"]["chosen"].as_str().expect("a pack").to_owned();
    let free = chosen(1);
    assert!(free.contains("0.100"), "{free}");
    bench.log(&["idler shaft/shim", "pack_thickness=0.270 0.100 0.100 0.100 0.100 mm", "with=micrometer"]);
    assert!(!chosen(1).contains("0.100"), "{}", chosen(1));
}

/// What a line says beside its figures is shown with it; and a log that was carried over another system is the same log.
#[test]
fn a_line_is_shown_whole_and_stays_itself_with_other_line_ends() {
    let bench = Bench::of(TURN);
    bench.log(&[TURNED, "length_cut=22.0 ± 0.02 mm"]);
    let said = bench.log(&[TURNED, "diameter_after=23.97 ± 0.004 mm", "at=60 degC", "gauge-at=20 degC"]);
    assert!(said.contains("at 60 °C") && said.contains("the gauge at 20 °C"), "{said}");
    let said = bench.log(&[TURNED, "note=finished", "set-up=1.1", "from=09:00", "to=10:30"]);
    assert!(said.contains("set-up 1.1, from 09:00, to 10:30"), "{said}");
    let refused = bench.run(&["log", "job.yaml", TURNED, "note=x", "sum=5"]);
    assert_eq!(refused.status.code(), Some(2));
    let file = bench.path().join("job.log.yaml");
    let plan = bench.plan().to_string();
    let text = std::fs::read_to_string(&file).expect("a log").replace('\n', "\r\n");
    std::fs::write(&file, text).expect("written");
    assert_eq!(bench.plan().to_string(), plan);
    bench.log(&[TURNED, "note=more"]);
    assert_eq!(bench.plan().to_string(), plan);
}

/// A figure that goes on from another job is explained with that job beside it.
#[test]
fn a_figure_of_two_jobs_is_explained_with_both() {
    let bench = Bench::of(
        &FIT.replace("shaft: {size: 24.962 mm, with: micrometer}", "shaft: {of: pump drive shaft/turn/diameter_after}"),
    );
    bench.write(
        "turned.yaml",
        &TURN.replace("23.95 .. 24.00", "24.95 .. 24.97").replace("24.60", "25.60").replace("24.6 mm", "25.6 mm"),
    );
    let asked = ["why", "job.yaml", "outrigger bush/fit-up/clearance"];
    let alone = bench.run(&asked);
    assert_ne!(alone.status.code(), Some(0));
    assert!(String::from_utf8_lossy(&alone.stderr).contains("--beside"));
    let both = bench.said(&[&asked[..], &["--beside", "turned.yaml"]].concat());
    assert!(both.contains("pump drive shaft/turn/diameter_after"), "{both}");
}
