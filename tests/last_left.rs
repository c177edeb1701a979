//! What the log has of a size is what the last cut left of it: a second cut of the same face, work that fails as it was left, readings
//! that are older than a cut; and names that only a slip parts. Each is a relation over many logs or jobs, asked of the program itself.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{committed_jobs, with};
use serde_json::Value;
use std::path::Path;
use std::process::Command;

const FACE: &str = include_str!("../examples/face.yaml");
const MILL: &str = include_str!("../examples/mill-face.yaml");
const SKIM: &str = include_str!("../examples/skim.yaml");
const SEAL: &str = include_str!("../examples/polish-seal.yaml");
const SHIM: &str = include_str!("../examples/shim.yaml");

/// Files written beside the shop of the examples, and what the program says of them: its code, and all that it prints.
fn said(command: &str, files: &[(&str, &str)], more: &[&str]) -> (i32, String) {
    let folder = tempfile::tempdir().unwrap();
    std::fs::copy("examples/shop.yaml", folder.path().join("shop.yaml")).unwrap();
    for (name, text) in files {
        std::fs::write(folder.path().join(name), text).unwrap();
    }
    let jobs = files.iter().map(|(name, _)| *name).filter(|name| !name.contains(".log."));
    run(folder.path(), [command].into_iter().chain(jobs).chain(more.iter().copied()))
}

fn run<'a>(folder: &Path, words: impl Iterator<Item = &'a str>) -> (i32, String) {
    let mut command = Command::new(env!("CARGO_BIN_EXE_setover"));
    let output = command.current_dir(folder).args(words).output().expect("runs");
    let both = [output.stdout, output.stderr].concat();
    (output.status.code().unwrap(), String::from_utf8(both).unwrap())
}

fn json(command: &str, files: &[(&str, &str)]) -> Value {
    let (code, text) = said(command, files, &["--format", "json"]);
    assert!(code < 2, "{text}");
    serde_json::from_str(&text).unwrap_or_else(|_| panic!("{text}"))
}

/// The rows of a part, by feature.
fn row<'a>(decided: &'a Value, feature: &str) -> &'a Value {
    let rows = decided["rows"].as_array().unwrap();
    rows.iter().find(|row| row["feature"] == feature).unwrap_or_else(|| panic!("no {feature}: {decided:#}"))
}

/// The name of the part of an example.
fn part(example: &str) -> &str {
    example.split_once("- part: ").unwrap().1.split_once('\n').unwrap().0
}

/// An example whose operation is done to both ends, the second by a size that is typed so.
fn both_ends(example: &str, second: &str) -> String {
    let (head, operation) = example.split_once("    operations:\n").unwrap();
    let word = operation.trim_start().trim_start_matches("- ").split_once(':').unwrap().0;
    let named = |name: &str| {
        let set_up = format!("- {word}:\n          set-up: {{name: {name}, feature: {name}}}\n");
        with(operation, &format!("- {word}:\n"), &set_up)
    };
    let key = if word == "mill-face" { "thickness: " } else { "length: " };
    let line = operation.lines().find(|line| line.trim_start().starts_with(key) && line.contains('±')).unwrap();
    let far = with(&named("far end"), line, &format!("          {key}{second}"));
    format!("{head}    operations:\n{}{far}", named("near end"))
}

/// Lines of a log, numbered as they come.
fn log(part: &str, lines: &[(&str, &str, f64)]) -> String {
    let line = |(at, (operation, key, size)): (usize, &(&str, &str, f64))| {
        format!(
            "- {{n: {}, date: 2026-01-0{}, part: {part}, operation: {operation}, {key}: {size:.3} mm, with: micrometer}}\n",
            at + 1,
            at + 5
        )
    };
    lines.iter().enumerate().map(line).collect()
}

/// What an inspected face is judged by: a feature, a finding, a limit.
fn inspecting(job: &str, lines: &str) -> String {
    with(job, "    operations:\n", &format!("    inspect:\n{lines}    operations:\n"))
}

/// Whichever end the finding names, the collar is as thick as the last cut left it.
#[test]
fn a_size_is_what_the_last_cut_left_of_it() {
    let of = "{of: distance piece/near end/length_after}";
    let on = both_ends(FACE, of);
    let apart = both_ends(FACE, "21.85 ± 0.01 mm");
    for job in [&on, &apart] {
        let near =
            "{feature: thickness, found: {of: distance piece/near end/length_after}, service: at least 21.40 mm}";
        let far = "{feature: over all, found: {of: distance piece/far end/length_after}, service: at least 21.40 mm}";
        let job = inspecting(job, &format!("      - {near}\n      - {far}\n"));
        for left in [21.60, 21.50, 21.42, 21.402, 21.35, 21.20] {
            let log = log("distance piece", &[("near end", "length_after", 21.62), ("far end", "length_after", left)]);
            let decided = json("decide", &[("a.yaml", &job), ("a.log.yaml", &log)]);
            let [near, far] = ["thickness", "over all"].map(|feature| row(&decided, feature));
            assert_eq!(near["found"], far["found"], "{left}: {near} {far}");
            assert_eq!(near["decision"], far["decision"], "{left}: {near} {far}");
            assert!(left > 21.41 || near["decision"] != "reuse", "{near}");
            assert!(near["why"].as_str().unwrap().contains("far end"), "{near}");
        }
    }
}

/// A cut that is planned behind the one that is logged spoils the size as one that is planned alone does.
#[test]
fn a_cut_that_is_still_planned_counts_of_what_was_left() {
    let job = both_ends(FACE, "{of: distance piece/near end/length_after}");
    let of = |least: &str| {
        let line = format!(
            "      - {{feature: thickness, found: {{of: distance piece/near end/length_after}}, service: at least {least}}}\n"
        );
        let log = log("distance piece", &[("near end", "length_after", 21.57)]);
        let decided = json("decide", &[("a.yaml", &inspecting(&job, &line)), ("a.log.yaml", &log)]);
        row(&decided, "thickness")["decision"].clone()
    };
    assert_eq!((of("21.00 mm"), of("21.50 mm")), ("reuse".into(), "doubtful".into()));
}

/// A reading that was typed for both ends is one reading: the end that is cut second was cut from another size, and stays doubtful when
/// its line is in the log, in whichever order the ends were cut.
#[test]
fn a_cut_from_a_stale_size_is_doubtful_when_it_is_done_too() {
    let cases = [
        (FACE, "21.85 ± 0.01 mm", "length_after", [21.57, 21.53]),
        (MILL, "18.00 ± 0.05 mm", "thickness_after", [17.20, 17.15]),
        (SKIM, "8.00 ± 0.02 mm", "length_after", [7.77, 7.70]),
    ];
    for (example, typed, key, left) in cases {
        let name = part(example);
        let job = both_ends(example, typed);
        for (first, second) in [("near end", "far end"), ("far end", "near end")] {
            let stale = |lines: &[(&str, &str, f64)]| {
                let plan = json("plan", &[("a.yaml", &job), ("a.log.yaml", &log(name, lines))]);
                let operations = plan["operations"].as_array().unwrap().clone();
                let of = |end: &str| operations.iter().find(|of| of["address"] == format!("{name}/{end}")).unwrap();
                let is_stale = |of: &Value| {
                    let mut checks = of["checks"].as_array().unwrap().iter();
                    checks.any(|check| check["check"] == "log-stale" && check["state"] == "doubtful")
                };
                [first, second].map(|end| (is_stale(of(end)), of(end)["verdict"] != "proven"))
            };
            let [one, two] = [(first, key, left[0]), (second, key, left[1])];
            assert_eq!(stale(&[one])[1], (true, true), "{name}: {second} planned");
            let [(first_stale, _), both] = stale(&[one, two]);
            assert_eq!((first_stale, both), (false, (true, true)), "{name}: {second} done");
        }
    }
}

/// Nothing is decided by what fails as it was left: for every length whose cut fails by the log, that row says so and none is reused.
#[test]
fn nothing_is_reused_by_a_cut_that_fails_as_it_was_left() {
    let lines = "      - {feature: thickness, found: {of: distance piece/face/length_after}, service: at least 20.00 mm}\n      - {feature: as it came, found: 21.85 ± 0.01 mm, service: at least 20.00 mm, remedies: [face]}\n";
    let job = inspecting(FACE, lines);
    let (mut failed, mut good) = (0, 0);
    for hundredths in 0..12 {
        let left = 21.57 - 0.05 * f64::from(hundredths);
        let files = log("distance piece", &[("face", "length_after", left)]);
        let files = [("a.yaml", job.as_str()), ("a.log.yaml", files.as_str())];
        let fails = json("plan", &files)["operations"][0]["verdict"] == "fails";
        let decided = json("decide", &files);
        let reused = ["thickness", "as it came"].map(|feature| row(&decided, feature)["decision"] == "reuse");
        let shown = decided["rows"].as_array().unwrap().iter().any(|row| row["says"].to_string().contains("FAILS"));
        match fails {
            true => {
                assert_eq!(reused, [false, false], "{left}: {decided:#}");
                failed += 1;
            }
            false => good += usize::from(reused == [true, true]),
        }
        assert_eq!(shown, fails, "{left}: {decided:#}");
    }
    assert!(failed > 0 && good > 0, "{failed} {good}");
    // A track that was polished too deep is round no more, however thick it is.
    let line =
        "      - {feature: seal track, found: {of: PART/polish-seal/diameter_after}, service: at least 24.50 mm}\n";
    let job = inspecting(SEAL, &line.replace("PART", part(SEAL)));
    let decided = |left: f64| {
        let log = log(part(SEAL), &[("polish-seal", "diameter_after", left)]);
        row(&json("decide", &[("a.yaml", &job), ("a.log.yaml", &log)]), "seal track").clone()
    };
    assert_eq!(decided(24.80)["decision"], "doubtful");
    assert!(decided(24.80)["says"].to_string().contains("FAILS"));
}

/// Metal that is gone does not come back: what was read after the cut and has more is in doubt, and what is planned no more is not blamed.
#[test]
fn what_was_read_since_agrees_with_the_log_or_is_in_doubt() {
    let of = |size: &str| {
        let line = format!(
            "      - {{feature: thickness, found: {{size: {size}, with: micrometer}}, measured: 2026-01-09, service: at least 21.00 mm, remedies: [face]}}\n"
        );
        let log = log("distance piece", &[("face", "length_after", 21.57)]);
        let decided = json("decide", &[("a.yaml", &inspecting(FACE, &line)), ("a.log.yaml", &log)]);
        row(&decided, "thickness").clone()
    };
    assert_eq!((&of("21.570 mm")["decision"], &of("21.540 mm")["decision"]), (&"reuse".into(), &"reuse".into()));
    for more in ["21.600 mm", "21.700 mm", "21.850 mm"] {
        let row = of(more);
        assert_eq!(row["decision"], "doubtful", "{row}");
        let why = row["why"].to_string();
        assert!(why.contains("does not come back") && !why.contains("leaves it outside"), "{why}");
    }
}

/// A reading that is older than the cut that found it so says nothing, also where it is not typed alike to the last digit.
#[test]
fn a_reading_as_old_as_the_one_that_was_cut_from_is_not_reused() {
    for size in ["21.845 ± 0.004 mm", "21.850 ± 0.004 mm", "21.858 ± 0.004 mm"] {
        let line = format!("      - {{feature: thickness, found: {size}, service: at least 21.40 mm}}\n");
        let named = with(FACE, "- face:\n", "- face:\n          set-up: {feature: worn end}\n");
        let log = log("distance piece", &[("face", "length_after", 21.57)]);
        let decided = json("decide", &[("a.yaml", &inspecting(&named, &line)), ("a.log.yaml", &log)]);
        assert_ne!(row(&decided, "thickness")["decision"], "reuse", "{size}");
    }
}

/// What leaves a size outside is said once, and by the window that its sheet accepts.
#[test]
fn what_is_left_at_the_worst_is_what_the_sheet_accepts() {
    let of = |least: &str| {
        let found =
            with(SEAL.lines().find(|line| line.trim_start().starts_with("size:")).unwrap().trim(), "size: ", "");
        let line = format!("      - {{feature: seal track, found: {found}, service: at least {least}}}\n");
        row(&json("decide", &[("a.yaml", &inspecting(SEAL, &line))]), "seal track").clone()
    };
    let plan = json("plan", &[("a.yaml", SEAL)]);
    let after = plan["operations"][0]["values"]["diameter_after"]["value"].as_f64().unwrap();
    let why = |least: f64| of(&format!("{least:.3} mm"))["why"].as_str().unwrap().to_owned();
    assert!(!why(after - 0.020).contains("leaves it outside"), "{}", why(after - 0.020));
    let over = why(after + 0.004);
    assert_eq!(over.matches("leaves it outside").count(), 1, "{over}");
}

/// Of several logs it is said of which job a line is.
#[test]
fn a_line_of_the_log_is_named_with_its_job() {
    let line = "      - {feature: thickness, found: 21.85 ± 0.01 mm, service: at least 21.00 mm}\n";
    let named = with(FACE, "- face:\n", "- face:\n          set-up: {feature: worn end}\n");
    let job = inspecting(&named, line);
    let log = log("distance piece", &[("face", "length_after", 21.57)]);
    let why = |files: &[(&str, &str)]| row(&json("decide", files), "thickness")["why"].to_string();
    let alone = why(&[("a.yaml", &job), ("a.log.yaml", &log)]);
    assert!(alone.contains("(L1)"), "{alone}");
    let beside = why(&[("b.yaml", SEAL), ("a.yaml", &job), ("a.log.yaml", &log)]);
    assert!(beside.contains("(L1 of Distance piece with a worn end)"), "{beside}");
}

/// Whoever cuts a face in the assembly whose gap is closed by links that name no part is in that gap; what says that it is not is not.
#[test]
fn a_face_that_is_cut_in_the_same_assembly_is_in_the_gap() {
    // The joint of a case, of which nobody says that it closes a cylinder.
    const LAP: &str = "job: Lap\nparts:\n  - part: case half\n    material: cast aluminium\n    operations:\n      - lap: {grid: {x: 0 60 120 180 mm, y: 0 50 100 mm, reads: [0 6 14 9 um, 11 22 31 17 um, 4 19 24 -3 um]}, flat-within: 0.03 mm, face: {long: 190 mm, wide: 110 mm}, joint: case, bores-across: none, out-first: []}\n";
    let cuts = [("face", FACE), ("mill-face", MILL), ("skim", SKIM)];
    let shim = |assembly: &str| with(SHIM, "    operations:", &format!("{assembly}    operations:"));
    let gap = |cut: &str, own: &str, other: &str, links: &dyn Fn(String) -> String| {
        let cut = format!("  - part:{}", cut.split_once("  - part:").unwrap().1);
        let word = cut.split_once("      - ").unwrap().1;
        let job =
            format!("{}\n{}", links(shim(own)), cut.replacen("    operations:", &format!("{other}    operations:"), 1));
        assert!(!word.is_empty());
        let plan = json("plan", &[("a.yaml", &job)]);
        let checks = plan["operations"][0]["checks"].as_array().unwrap().clone();
        checks.iter().any(|check| check["check"] == "size-still-there" && check["state"] == "doubtful")
    };
    let as_read = |job: String| job;
    let [pump, gears] = ["    assembly: pump\n", "    assembly: gears\n"];
    for (word, cut) in cuts {
        // Without the words that say themselves that the float is moved.
        let says = |line: &&str| {
            ["float:", "as-found-float:", "bears: in-groove"].iter().any(|key| line.trim().starts_with(key))
        };
        let cut: String = cut.split_inclusive('\n').filter(|line| !says(line)).collect();
        assert!(gap(&cut, pump, pump, &as_read), "{word}: one assembly");
        assert!(!gap(&cut, pump, gears, &as_read), "{word}: another");
        let named = |job: String| job.replace("link: ", "link: idler shaft, ");
        let named = |job: String| named(job).replace("idler shaft, ", "idler shaft with ");
        assert!(!gap(&cut, pump, pump, &named), "{word}: each link is of another part");
        let of_it = |job: String| with(&job, "link: case depth", &format!("link: {} depth", part(&cut)));
        assert!(gap(&cut, pump, pump, &of_it), "{word}: a link is of it");
        if word != "mill-face" {
            let key = format!("- {word}:\n");
            let stands = cut.replacen(&key, &format!("{key}          float: none\n"), 1);
            assert!(!gap(&stands, pump, pump, &as_read), "{word}: outside the gap");
        }
    }
    assert!(gap(LAP, pump, pump, &as_read), "lap");
    assert!(gap(MILL, "", "", &as_read), "a joint that is milled, and nobody says of what");
}

/// A capital or a blank makes no other part and no other assembly, whichever command reads it: it is refused at the line to mend.
#[test]
fn a_slip_in_a_name_is_refused_wherever_it_is_read() {
    let one = with(FACE, "    operations:", "    assembly: gear box\n    operations:");
    let two = with(SHIM, "    operations:", "    assembly: gear box\n    operations:");
    let found = "job: Found\nshop: shop.yaml\nparts:\n  - part: distance piece\n    inspect:\n      - {feature: thickness, found: 21.85 ± 0.01 mm, service: at least 21.70 mm}\n";
    for command in ["plan", "day", "decide"] {
        let code = |one: &str, two: &str| said(command, &[("a.yaml", one), ("b.yaml", two)], &[]);
        assert!(code(&one, &two).0 < 2, "{command}: {}", code(&one, &two).1);
        for slip in ["Gear box", "gear  box", "gearbox", "GEAR BOX"] {
            let (code, says) = code(&one, &with(&two, "gear box", &format!("\"{slip}\"")));
            assert!(
                code == 2 && says.contains("b.yaml, line") && says.contains("capitals, spaces"),
                "{command}: {says}"
            );
        }
        for slip in ["Distance piece", "distance  piece", "distancepiece"] {
            let (code, says) = code(&one, &with(found, "distance piece", &format!("\"{slip}\"")));
            assert!(
                code == 2 && says.contains("b.yaml, line 4") && says.contains("capitals, spaces"),
                "{command}: {says}"
            );
        }
    }
}

/// A line of the log that the job has no name for any more is not edited, and nobody is told to; one that is typed now is.
#[test]
fn nobody_is_told_to_edit_a_log() {
    let renamed = with(FACE, "distance piece", "spacer");
    let log = log("distance piece", &[("face", "length_after", 21.57)]);
    let (code, says) = said("plan", &[("a.yaml", &renamed), ("a.log.yaml", &log)], &[]);
    assert!(code == 2 && says.contains("no line of a log is edited") && says.contains("--withdraws L1"), "{says}");
    let (code, says) = said("log", &[("a.yaml", &renamed)], &["distance piece/face", "length_after=21.57 mm"]);
    assert!(code == 2 && !says.contains("is edited"), "{says}");
}

/// Two operations of one name: the caret stands under the name to be changed.
#[test]
fn the_name_that_stands_twice_is_pointed_at() {
    let twice = with(&both_ends(FACE, "21.85 ± 0.01 mm"), "far end", "near end");
    let lines: Vec<usize> =
        twice.lines().zip(1..).filter(|(line, _)| line.contains("set-up:")).map(|(_, number)| number).collect();
    let (code, says) = said("plan", &[("a.yaml", &twice)], &[]);
    assert!(code == 2 && says.contains(&format!("line {}: two operations", lines[1])), "{says}");
}

/// Whatever may be written down of an operation says what it is.
#[test]
fn each_name_that_the_log_takes_says_what_it_is() {
    for (path, job) in committed_jobs().into_iter().filter(|(path, _)| path.starts_with("examples/")) {
        let word = Path::new(&path).file_stem().unwrap().to_str().unwrap();
        let (code, says) = run(Path::new("."), ["log", &path, &format!("{}/{word}", part(&job))].into_iter());
        // A name alone would stand on a line without a blank behind it.
        let is_bare = |line: &str| line.starts_with("  ") && !line.starts_with("   ") && !line.trim().contains(' ');
        assert!(!says.lines().any(is_bare), "{path} {code}: {says}");
    }
}
