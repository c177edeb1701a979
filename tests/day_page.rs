//! The day as it is used: its page is always written, what was done before what is done is done, nothing of others is replaced.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use std::process::{Command, Output};

fn day(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_setover"))
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .arg("day")
        .args(arguments)
        .output()
        .expect("runs")
}

#[test]
fn the_page_is_written_whenever_the_day_ends() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("day.pdf");
    let path = path.to_str().unwrap();
    let demo = "demo/tidewater.yaml";
    for arguments in [
        vec![demo],
        vec![demo, "--from", "13:20"],
        vec![demo, "--from", "12:20"],
        vec![demo, "--to", "12:30"],
        vec![demo, "--days", "2", "--to", "11:00"],
        vec!["examples/hand.yaml", "examples/deburr.yaml", "examples/measure.yaml"],
        vec!["examples/hand.yaml", "examples/drill.yaml", "examples/tap.yaml", "examples/wash.yaml"],
    ] {
        let output = day(&[arguments.as_slice(), &["-o", path]].concat());
        let said = String::from_utf8_lossy(&output.stderr).into_owned();
        assert!(matches!(output.status.code(), Some(0 | 1)), "{arguments:?}: {said}");
        assert!(std::fs::read(path).unwrap().starts_with(b"%PDF"), "{arguments:?}");
    }
    std::fs::write(path, "a letter").unwrap();
    assert_eq!(day(&[demo, "-o", path]).status.code(), Some(3));
    assert_eq!(std::fs::read(path).unwrap(), b"a letter");
    assert_eq!(day(&[demo, "-o", path, "--force"]).status.code(), Some(1));
}

/// A bush that is home was measured and warmed before; one that is being reamed was pressed, cooled and drilled.
#[test]
fn what_stands_before_what_is_done_is_done() {
    let ids = |more: &[&str]| {
        let output = day(&[&["demo/tidewater.yaml", "--format", "json"], more].concat());
        let day: serde_json::Value = serde_json::from_slice(&output.stdout).expect("JSON");
        let lines = day["lines"].as_array().unwrap().iter().map(|line| line["id"].as_str().unwrap().to_owned());
        lines.collect::<Vec<String>>()
    };
    let all = ids(&[]);
    let after_pressing = ids(&["--done", "5.3"]);
    let gone: Vec<&String> = all.iter().filter(|id| !after_pressing.contains(id)).collect();
    assert_eq!(gone.len(), 3, "{gone:?}");
    assert!(gone.iter().all(|id| ["5.1", "5.2", "5.3"].contains(&id.as_str())), "{gone:?}");
    let reaming = ids(&["--at-work", "5.6", "--from", "09:00"]);
    assert_eq!(reaming.first().map(String::as_str), Some("5.6"), "{reaming:?}");
    assert!(!reaming.iter().any(|id| id.starts_with("5.") && id != "5.6"), "{reaming:?}");
}

/// What lies warm cannot be at work; the message says until when.
#[test]
fn what_is_warm_still_is_not_at_work() {
    let done = ["demo/tidewater.yaml", "--done", "5.1,5.2,5.3@10:00", "--from", "10:05", "--at-work", "5.4"];
    let output = day(&done);
    let says = String::from_utf8_lossy(&output.stderr).split_whitespace().collect::<Vec<_>>().join(" ");
    assert_eq!(output.status.code(), Some(2), "{says}");
    assert!(says.contains("`5.4` cannot be at work at 10:05") && says.contains("until 11:00"), "{says}");
}

/// What must come before is done, or nothing of what waits for it is at work.
#[test]
fn what_waits_for_another_work_is_not_at_work_before_it() {
    let folder = tempfile::tempdir().unwrap();
    let job = "job: Cover\nshop: shop.yaml\nparts:\n  - part: cover\n    material: cast aluminium\n    operations:\n      - warm: {bore: 24 mm, outside: 46 mm, length: 20 mm, interference: 0.022 mm, near: [nothing], temper: as-cast}\n      - press-in: {housing: {bore: 24.010 ± 0.004 mm, outside: 46 mm, length: 20 mm}, bush: {outside: 24.024 ± 0.004 mm, bore: 18.000 ± 0.004 mm, length: 20 mm, material: phosphor bronze}, stands: flush, support: {inside: 30 mm, under: boss}, opened-by: 0.050 mm}\n";
    std::fs::write(folder.path().join("job.yaml"), job).unwrap();
    let root = std::path::Path::new(env!("CARGO_MANIFEST_DIR"));
    std::fs::copy(root.join("examples/shop.yaml"), folder.path().join("shop.yaml")).unwrap();
    let run = |words: &[&str]| {
        let mut run = Command::new(env!("CARGO_BIN_EXE_setover"));
        let output = run.args(["day", "job.yaml"]).args(words).current_dir(folder.path()).output().unwrap();
        let says = String::from_utf8_lossy(&output.stderr).split_whitespace().collect::<Vec<_>>().join(" ");
        (output.status.code(), says)
    };
    let (code, says) = run(&["--at-work", "1.1", "--from", "09:50"]);
    assert_eq!(code, Some(2), "{says}");
    assert!(says.contains("`1.1` cannot be at work: 2.1 comes before it"), "{says}");
    let (code, says) = run(&["--at-work", "1.1", "--from", "09:50", "--done", "2.1"]);
    assert_ne!(code, Some(2), "{says}");
}

/// What the day marks doubtful is what the list of sheets calls doubtful.
#[test]
fn the_day_and_the_sheets_say_the_same_of_each_set_up() {
    let day: serde_json::Value =
        serde_json::from_slice(&day(&["demo/tidewater.yaml", "--format", "json"]).stdout).expect("JSON");
    let list = Command::new(env!("CARGO_BIN_EXE_setover"))
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .args(["plan", "demo/tidewater.yaml"])
        .output()
        .expect("runs");
    let list = String::from_utf8_lossy(&list.stdout).into_owned();
    let mut doubtful = 0;
    for line in day["lines"].as_array().unwrap() {
        let id = line["id"].as_str().unwrap();
        let row = list.lines().find(|row| row.starts_with(&format!("{id} "))).expect("its row");
        let wanted = row.contains(" DOUBTFUL");
        assert_eq!(line["verdict"] == "doubtful", wanted, "{id}: {row}");
        doubtful += usize::from(wanted);
    }
    assert!(doubtful >= 3, "{doubtful}");
}

/// Lines of a day as JSON, and what it says beside.
fn told(words: &[&str]) -> (Vec<String>, serde_json::Value) {
    let output = day(&[words, &["--format", "json"]].concat());
    let said = String::from_utf8_lossy(&output.stderr).into_owned();
    let day: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap_or_else(|_| panic!("{words:?}: {said}"));
    let ids = day["lines"].as_array().unwrap().iter().map(|line| line["id"].as_str().unwrap().to_owned()).collect();
    (ids, day)
}

/// A folder with an example, its shop, and a log beside it.
fn logged(job: &str, log: &str) -> (tempfile::TempDir, String) {
    let folder = tempfile::tempdir().unwrap();
    let root = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    for file in [&format!("{job}.yaml"), "shop.yaml"] {
        std::fs::copy(root.join(file), folder.path().join(file)).unwrap();
    }
    std::fs::write(folder.path().join(format!("{job}.log.yaml")), log).unwrap();
    let path = folder.path().join(format!("{job}.yaml")).to_str().unwrap().to_owned();
    (folder, path)
}

/// Two sizes that two instruments read are two entries: one of them that is not there yet leaves the work to be done.
#[test]
fn work_is_done_when_each_of_its_sizes_is_there() {
    const TURN: &str = "part: pump drive shaft, operation: turn";
    let ids = |diameter: &str, length: &str| {
        let (diameter, length) = (format!("diameter_after: {diameter}"), format!("length_cut: {length}"));
        let log = format!(
            "- {{n: 1, {TURN}, {diameter}, with: micrometer}}\n- {{n: 2, {TURN}, {length}, with: depth gauge}}\n"
        );
        let (_folder, job) = logged("turn", &log);
        told(&[&job]).0
    };
    assert!(ids("23.98 mm", "22.0 mm").is_empty());
    assert_eq!(ids("23.98 mm", "21.0 mm"), ["1.1"]);
    assert_eq!(ids("24.20 mm", "22.0 mm"), ["1.1"]);
}

/// What the log says was measured is done, with all that stands before it; the rest is the day.
#[test]
fn what_was_logged_is_out_of_the_day() {
    const BUSH: &str = "part: pump end case, operation: ream-bush";
    let all = ["1.1", "1.2", "1.3", "1.4", "1.5", "1.6"];
    let (_folder, job) = logged("ream-bush", "");
    assert_eq!(told(&[&job]).0, all);
    // The bore as it closed in was read: pressing and cooling are over.
    let (_folder, job) = logged("ream-bush", &format!("- {{n: 1, {BUSH}, bore_after_pressing: 15.929 mm}}\n"));
    let (ids, json) = told(&[&job]);
    assert_eq!(ids, ["1.5", "1.6"]);
    let done = |id: &str| serde_json::json!({"id": id, "entry": 1});
    assert_eq!(json["done_by_log"], serde_json::json!(["1.1", "1.2", "1.3", "1.4"].map(done)));
    // A line by hand names its set-up and when it was done: what rests after it counts from then.
    let by_hand = |to: &str| logged("ream-bush", &format!("- {{n: 1, {BUSH}, set-up: press-home, to: \"{to}\"}}\n"));
    let (_folder, job) = by_hand("10:02");
    let (ids, json) = told(&[&job, "--from", "10:35"]);
    assert_eq!(ids, ["1.4", "1.5", "1.6"]);
    assert_eq!(json["lines"][0]["start"], "11:02");
    let (_folder, job) = by_hand("09:20");
    assert_eq!(told(&[&job, "--from", "10:35"]).1["lines"][0]["start"], "10:35");
    // One that was taken back is not done; one that is only begun neither; an unknown set-up is told.
    let (_folder, job) =
        logged("ream-bush", &format!("- {{n: 1, {BUSH}, bore_after_pressing: 15.929 mm}}\n- {{n: 2, withdraws: 1}}\n"));
    assert_eq!(told(&[&job]).0, all);
    let (_folder, job) = logged("ream-bush", &format!("- {{n: 1, {BUSH}, set-up: press-home, from: \"08:00\"}}\n"));
    assert_eq!(told(&[&job]).0, all);
    let (_folder, job) = logged("ream-bush", &format!("- {{n: 1, {BUSH}, set-up: press-him, to: \"08:00\"}}\n"));
    let refused = day(&[&job]);
    assert_eq!(refused.status.code(), Some(2));
    let said = String::from_utf8_lossy(&refused.stderr).into_owned();
    assert!(said.contains("press-him") && said.contains("press-home"), "{said}");
}

/// Nothing is built on work that fails by what was read of it.
#[test]
fn what_was_logged_and_fails_is_not_taken_as_done() {
    let entry = |size: &str| format!("- {{n: 1, part: distance piece, operation: face, length_after: {size}}}\n");
    let (_folder, job) = logged("face", &entry("21.60 mm"));
    assert_eq!(told(&[&job]).0, [""; 0]);
    let (_folder, job) = logged("face", &entry("21.66 mm"));
    assert_eq!(told(&[&job]).0, ["1.1"], "the wear still stands");
    let (_folder, job) = logged("face", &entry("20.10 mm"));
    let (ids, day) = told(&[&job]);
    assert_eq!((ids.len(), day["done_by_log"].as_array().unwrap().len()), (0, 0));
    assert!(day["left_out"][0]["because"].as_str().unwrap().contains("DO NOT FIT"), "{}", day["left_out"]);
}

/// A bush that is chilled while its housing is warmed keeps the freezer busy, and the picture shows it.
#[test]
fn the_freezer_beside_the_oven_has_its_bar() {
    let (_, json) = told(&["examples/ream-bush.yaml"]);
    let of = |name: &str| {
        let machines = json["machines"].as_array().unwrap();
        machines
            .iter()
            .find(|own| own["name"].as_str().unwrap().contains(name))
            .unwrap_or_else(|| panic!("{machines:#?}"))
    };
    assert_eq!(of("freezer")["by_itself_min"], of("oven")["by_itself_min"]);
    assert_eq!(of("freezer")["hands_min"], 0);
    let text = String::from_utf8(day(&["examples/ream-bush.yaml"]).stdout).unwrap();
    let bar = text.lines().find(|line| line.trim_start().contains("freezer ") && line.contains("...")).expect("a bar");
    assert!(!bar.contains('#'), "{bar}");
}

/// A sheet has one name, in the list, on itself, and in the day.
#[test]
fn a_sheet_of_several_jobs_has_one_name() {
    let jobs = ["examples/ream-bush.yaml", "examples/face.yaml"];
    let run = |words: &[&str]| {
        let output = Command::new(env!("CARGO_BIN_EXE_setover"))
            .current_dir(env!("CARGO_MANIFEST_DIR"))
            .args([words, &jobs].concat())
            .output()
            .expect("runs");
        (output.status.code(), String::from_utf8_lossy(&[output.stdout, output.stderr].concat()).into_owned())
    };
    let (ids, _) = told(&jobs);
    assert!(ids.contains(&"2/1.1".to_owned()) && ids.contains(&"1/1.6".to_owned()), "{ids:?}");
    let (list, sheets) = (run(&["plan"]).1, run(&["sheets", "--format", "text", "-o", "-"]).1);
    for id in &ids {
        assert!(list.lines().any(|line| line.starts_with(&format!("{id} "))), "{id}: {list}");
        assert!(sheets.contains(id), "{id}");
    }
    assert!(run(&["plan", "--sheet", "2/1.1"]).1.contains("distance piece/face"));
    assert!(!run(&["plan", "--sheet", "2/1.1"]).1.contains("pump end case"));
    for format in ["text", "json"] {
        for none in ["99", "2/3", "3/1.1", "1/1.7", "x"] {
            let (code, said) = run(&["plan", "--format", format, "--sheet", none]);
            assert_eq!(code, Some(2), "{format} {none}: {said}");
            let known = format!("there is no sheet `{none}`; there are 1/1.1 to 1/1.6, 2/1.1");
            assert!(said.contains(&known), "{format}: {said}");
        }
    }
    let (_, one) = run(&["plan", "--format", "json", "--sheet", "2/1"]);
    let one: serde_json::Value = serde_json::from_str(&one).unwrap();
    assert_eq!(one["operations"].as_array().unwrap().len(), 1);
}
