//! One day in the shop: what came in is decided over, put in order, cut, written down, and what goes together again is worked anew
//! from what was left. Jobs given together are one set: what one of them leaves, another goes on from.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{copied, with};
use serde_json::Value;
use std::path::Path;
use std::process::{Command, Output};

fn run(folder: &Path, words: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_setover")).args(words).current_dir(folder).output().expect("runs")
}

fn said(output: &Output) -> String {
    String::from_utf8_lossy(&output.stdout).into_owned() + &String::from_utf8_lossy(&output.stderr)
}

/// What a command says that must end well, or with something that fails.
fn says(folder: &Path, words: &[&str]) -> String {
    let output = run(folder, words);
    assert!(matches!(output.status.code(), Some(0 | 1)), "{words:?}: {}", said(&output));
    said(&output)
}

fn json(folder: &Path, words: &[&str]) -> Value {
    let output = run(folder, &[words, &["--format", "json"]].concat());
    serde_json::from_slice(&output.stdout).unwrap_or_else(|_| panic!("{words:?}: {}", said(&output)))
}

/// The demo in a folder of its own, and the folder of the day in it.
fn demo() -> (tempfile::TempDir, std::path::PathBuf) {
    let folder = tempfile::tempdir().unwrap();
    copied(Path::new("demo"), &folder.path().join("demo"));
    let day = folder.path().join("demo/one-day");
    (folder, day)
}

/// The operation of an address in the JSON of a plan.
fn of<'a>(plan: &'a Value, part: &str, operation: &str) -> &'a Value {
    let all = plan["operations"].as_array().unwrap();
    let is_it = |one: &&Value| one["address"] == format!("{part}/{operation}").as_str();
    all.iter().find(is_it).unwrap_or_else(|| panic!("{part}/{operation}: {plan:#}"))
}

fn chosen<'a>(operation: &'a Value, name: &str) -> &'a str {
    operation["choices"][name]["chosen"].as_str().unwrap()
}

const JOBS: [&str; 2] = ["cuts.yaml", "float.yaml"];

#[test]
fn readings_decisions_day_sheets_log_and_another_pack() {
    let (_demo, folder) = demo();
    let with_jobs = |word: &'static str, more: &[&'static str]| [&[word], &JOBS[..], more].concat();
    let decided = json(&folder, &["decide", "found.yaml", "cuts.yaml", "float.yaml"]);
    let decision = |part: &str, feature: &str| {
        let rows = decided["rows"].as_array().unwrap();
        rows.iter().find(|row| row["part"] == part && row["feature"] == feature).unwrap()["decision"].clone()
    };
    assert_eq!(decision("layshaft thrust collar", "thrust face wear"), "put-right");
    assert_eq!(decision("layshaft", "journal"), "reuse");
    assert_eq!(decision("layshaft", "end float"), "put-right-doubtful", "a cut in its path is only planned");
    assert_eq!(decision("governor gear case cover", "joint face"), "put-right");
    assert_eq!(decision("pump impeller", "hub bore"), "measure");

    // The shims wait for the collar that another job cuts.
    let day = json(&folder, &with_jobs("day", &[]));
    let at = |id: &str| day["lines"].as_array().unwrap().iter().position(|line| line["id"] == id).expect(id);
    assert!(at("1/4.1") < at("2/1.1"), "{day:#}");

    let morning = json(&folder, &with_jobs("plan", &[]));
    let shim = of(&morning, "layshaft", "shim");
    let before = chosen(shim, "pack").to_owned();
    assert_eq!(shim["verdict"], "doubtful");
    says(&folder, &with_jobs("sheets", &["-o", "morning.pdf"]));
    let page = says(&folder, &with_jobs("sheets", &["--format", "html", "-o", "-"]));
    assert!(page.contains("data-log=\"length_after\""), "the blank of the collar goes into the log by its name");
    let sheet = says(&folder, &with_jobs("sheets", &["--format", "text", "-o", "-"]));
    assert!(sheet.contains("Lay in, from bearing to collar: 0.100 + 0.100 + 0.500 mm as marked"), "{sheet}");

    let logged = run(&folder, &["log", "cuts.yaml", "--from", "evening.yaml", "--by", "E. W."]);
    assert_eq!(logged.status.code(), Some(0), "{}", said(&logged));
    let evening = json(&folder, &with_jobs("plan", &[]));
    let shim = of(&evening, "layshaft", "shim");
    let after = chosen(shim, "pack").to_owned();
    assert_ne!(before, after, "another pack");
    assert_eq!((before.as_str(), after.as_str()), ("0.530 + 0.099 + 0.099 mm", "0.530 + 0.152 mm"));
    assert_eq!(shim["verdict"], "proven", "{shim:#}");
    // By hand: 84.512 + 0.245 - 6.120 - 56.080 - 21.677.
    let bare = &shim["values"]["float_bare"];
    assert!((bare["value"].as_f64().unwrap() - 0.880).abs() < 1e-9, "{bare}");
    let left = shim["values"]["float_left"]["value"].as_f64().unwrap();
    assert!((left - 0.198).abs() < 1e-9, "{left}");

    let since = says(&folder, &with_jobs("plan", &["--since", "L3"]));
    for line in [
        "layshaft/shim/float_bare: 0.916 ± 0.028 mm → 0.880 ± 0.024 mm (L4 of Pump train machined)",
        "layshaft/shim/all-cuts-known: doubtful → proven (L4 of Pump train machined)",
        "layshaft/shim/pack: 0.530 + 0.099 + 0.099 mm → 0.530 + 0.152 mm (L4 of Pump train machined)",
    ] {
        assert!(since.contains(line), "{line}: {since}");
    }
    assert!(!since.contains("tir_after"), "what L1 changed is older: {since}");

    let sheet = says(&folder, &with_jobs("sheets", &["--format", "text", "-o", "-"]));
    assert!(
        sheet.contains("Lay in, from bearing to collar: 0.150 + 0.500 mm as marked"),
        "the sheet shows the new pack: {sheet}"
    );
    let collar = of(&evening, "layshaft thrust collar", "face");
    assert_eq!(collar["values"]["length_after"]["log"], "L4", "marked by its line of the log");
    let pages = |name: &str| {
        says(&folder, &with_jobs("sheets", &["-o", name.to_owned().leak()]));
        lopdf::Document::load(folder.join(name)).unwrap().get_pages().len()
    };
    assert!(pages("evening.pdf") >= 6);
    assert_ne!(std::fs::read(folder.join("morning.pdf")).unwrap(), std::fs::read(folder.join("evening.pdf")).unwrap());

    let words =
        ["log", "float.yaml", "layshaft/shim", "float_left=0.19 ± 0.02 mm", "with=lever indicator", "--by", "E. W."];
    assert_eq!(run(&folder, &words).status.code(), Some(0));
    let put_back = json(&folder, &with_jobs("plan", &[]));
    let shim = of(&put_back, "layshaft", "shim");
    assert_eq!((&shim["verdict"], &shim["values"]["float_left"]["log"]), (&"proven".into(), &"L1".into()), "{shim:#}");

    // What was read as it came says nothing of what was done since: what the log tells of the very thing is the finding now, the
    // rest is measured again.
    let decided = json(&folder, &["decide", "found.yaml", "cuts.yaml", "float.yaml"]);
    let row = |part: &str, feature: &str| {
        let rows = decided["rows"].as_array().unwrap();
        rows.iter().find(|row| row["part"] == part && row["feature"] == feature).unwrap()
    };
    for (part, feature) in
        [("layshaft thrust collar", "thrust face wear"), ("pump shaft", "polish-seal, finish as found")]
    {
        let row = row(part, feature);
        assert_eq!((&row["decision"], &row["verdict"]), (&"measure".into(), &Value::Null), "{row}");
        assert!(row["why"].as_str().unwrap().contains("was done (L"), "{row}");
    }
    for (part, feature, left) in [("layshaft", "end float", 0.19), ("governor gear case cover", "joint face", 0.008)] {
        let row = row(part, feature);
        assert_eq!((&row["decision"], &row["verdict"]), (&"reuse".into(), &"proven".into()), "{row}");
        assert!((row["found"].as_f64().unwrap() - left).abs() < 1e-9, "{row}");
        assert_eq!(row["as_left"], true, "{row}");
        assert_eq!(row["order"], Value::Array(Vec::new()), "{row}");
    }
    // A float that was asked for within other limits than the shims were chosen by is not the same thing.
    let other = with(
        &std::fs::read_to_string(folder.join("found.yaml")).unwrap(),
        "service: 0.12 .. 0.28 mm",
        "service: 0.15 .. 0.25 mm",
    );
    std::fs::write(folder.join("other.yaml"), other).unwrap();
    let decided = json(&folder, &["decide", "other.yaml", "cuts.yaml", "float.yaml"]);
    let rows = decided["rows"].as_array().unwrap();
    let float = rows.iter().find(|row| row["feature"] == "end float").unwrap();
    assert_eq!(float["decision"], "measure", "{float}");
}

/// The sheets of a decision have the numbers that they are printed with: a file of readings alone has no sheets.
#[test]
fn a_decision_names_sheets_as_they_are_printed() {
    let (_demo, folder) = demo();
    let decided = json(&folder, &["decide", "found.yaml", "cuts.yaml", "float.yaml"]);
    let rows = decided["rows"].as_array().unwrap();
    let of = |feature: &str| &rows.iter().find(|row| row["feature"] == feature).unwrap()["sheets"];
    let day = json(&folder, &["day", "cuts.yaml", "float.yaml"]);
    let id = |part: &str, what: &str| {
        let lines = day["lines"].as_array().unwrap();
        let line = lines.iter().find(|line| line["part"] == part && line["set_up"].as_str().unwrap().starts_with(what));
        line.unwrap_or_else(|| panic!("{part} {what}: {day:#}"))["id"].as_str().unwrap().to_owned()
    };
    assert_eq!(of("joint face")[1], id("governor gear case cover", "Lap").as_str());
    assert_eq!(of("thrust face wear")[0], id("layshaft thrust collar", "Face").as_str());
}

/// A second cut on a part that goes by a length which the first one, as the log says, took away.
const TWICE: &str = "
job: both ends
shop: ../shop.yaml
parts:
  - part: distance piece
    material: mild steel
    operations:
      - face: {set-up: {name: near end}, outside: 58 mm, inside: 30 mm, length: 21.87 ± 0.01 mm, wear: 0.16 ± 0.01 mm, least-length: 21.0 mm, finish: Ra 1.6 um, hold: {in: soft-jaws, diameter: 58 mm, grip: 10 mm, overhang: 12 mm}}
      - face: {set-up: {name: far end}, outside: 58 mm, inside: 30 mm, length: 21.87 ± 0.01 mm, wear: 0.10 ± 0.01 mm, least-length: 21.0 mm, finish: Ra 1.6 um, hold: {in: soft-jaws, diameter: 58 mm, grip: 10 mm, overhang: 12 mm}}
";

/// A size read before a logged cut took it away proves nothing: by that length the last cut would go too deep.
#[test]
fn a_size_that_a_logged_cut_took_away_is_stale() {
    let (_demo, folder) = demo();
    let of_far = |job: &str| {
        std::fs::write(folder.join("twice.yaml"), job).unwrap();
        let plan = json(&folder, &["plan", "twice.yaml"]);
        let far = of(&plan, "distance piece", "far end").clone();
        let stale = far["checks"].as_array().unwrap().iter().find(|check| check["check"] == "log-stale");
        assert!(stale.is_none_or(|check| check["state"] == "doubtful" && far["verdict"] != "proven"), "{far:#}");
        stale.is_some()
    };
    assert!(!of_far(TWICE), "nothing was cut yet");
    let words =
        ["log", "twice.yaml", "distance piece/near end", "length_after=21.68 ± 0.005 mm", "--date", "2026-11-04"];
    let logged = run(&folder, &words);
    assert_eq!(logged.status.code(), Some(0), "{}", said(&logged));
    assert!(of_far(TWICE));
    let measured = |day: &str| with(TWICE, "{name: far end}", &format!("{{name: far end, measured: {day}}}"));
    assert!(of_far(&measured("2026-11-03")), "read on the day before");
    assert!(of_far(&measured("2026-11-04")), "on that day, before or after: nobody says");
    assert!(!of_far(&measured("2026-11-05")), "read since");
    let handed = TWICE.replacen(
        "length: 21.87 ± 0.01 mm, wear: 0.10",
        "length: {of: distance piece/near end/length_after}, wear: 0.10",
        1,
    );
    assert!(!of_far(&handed), "it goes on from what was left");
    let elsewhere = TWICE.replace("{name: near end}", "{name: near end, feature: rim}");
    let elsewhere = elsewhere.replace("{name: far end}", "{name: far end, feature: hub}");
    assert!(of_far(&elsewhere), "both ends of one length are two features of it");
    let elsewhere = elsewhere.replace("21.87 ± 0.01 mm, wear: 0.10", "29.40 ± 0.01 mm, wear: 0.10");
    assert!(!of_far(&elsewhere), "another place of the part");
    let same = TWICE.replace("{name: near end}", "{name: near end, feature: rim}");
    assert!(of_far(&same.replace("{name: far end}", "{name: far end, feature: rim}")));
    // One that was done has the length that it was left with, and what is gone of it was never worked out by that reading.
    let words = ["log", "twice.yaml", "distance piece/far end", "length_after=21.55 ± 0.005 mm"];
    assert_eq!(run(&folder, &words).status.code(), Some(0));
    assert!(of_far(TWICE));
    assert!(!of_far(&handed) && !of_far(&measured("2026-11-05")), "by what was there");
}

/// The doubt of what one micrometer reads in two jobs is shared as in one job, and no figure hangs on how the files are cut.
#[test]
fn jobs_given_together_are_worked_as_one_job_is() {
    let (_demo, folder) = demo();
    let read = |name: &str| std::fs::read_to_string(folder.join(name)).unwrap();
    let (cuts, float) = (read("cuts.yaml"), read("float.yaml"));
    let parts = |text: &str| text.split_once("parts:\n").unwrap().1.to_owned();
    std::fs::write(folder.join("one.yaml"), format!("{cuts}{}", parts(&float))).unwrap();
    // The same shop by another way there.
    std::fs::write(folder.join("float.yaml"), with(&float, "../shop.yaml", "../one-day/../shop.yaml")).unwrap();
    let values = |plan: &Value| {
        let all = plan["operations"].as_array().unwrap().iter();
        let checks = |one: &Value| -> Vec<Value> {
            let mut checks = one["checks"].as_array().unwrap().clone();
            // On which line of which file is another matter.
            checks.iter_mut().for_each(|check| drop(check.as_object_mut().unwrap().remove("line")));
            checks
        };
        all.map(|one| (one["address"].clone(), one["values"].clone(), checks(one))).collect::<Vec<_>>()
    };
    let (apart, whole) = (json(&folder, &["plan", "cuts.yaml", "float.yaml"]), json(&folder, &["plan", "one.yaml"]));
    assert_eq!(values(&apart), values(&whole));
    // In either order of the files.
    let turned = json(&folder, &["plan", "float.yaml", "cuts.yaml"]);
    assert_eq!(of(&turned, "layshaft", "shim")["values"], of(&whole, "layshaft", "shim")["values"]);
    let lines = std::fs::read_to_string(folder.join("evening.yaml")).unwrap();
    std::fs::write(folder.join("evening-one.yaml"), lines).unwrap();
    for (job, from) in [("cuts.yaml", "evening.yaml"), ("one.yaml", "evening-one.yaml")] {
        assert_eq!(run(&folder, &["log", job, "--from", from, "--date", "2026-12-04"]).status.code(), Some(0));
    }
    let (apart, whole) = (json(&folder, &["plan", "cuts.yaml", "float.yaml"]), json(&folder, &["plan", "one.yaml"]));
    assert_eq!(values(&apart), values(&whole));
}

#[test]
fn what_cannot_be_of_one_set_is_refused() {
    let (_demo, folder) = demo();
    let float = std::fs::read_to_string(folder.join("float.yaml")).unwrap();
    let alone = run(&folder, &["plan", "float.yaml"]);
    assert_eq!(alone.status.code(), Some(2));
    let text = said(&alone).split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(text.contains("known where both jobs are given"), "{text}");
    let twice = run(&folder, &["plan", "cuts.yaml", "float.yaml", "cuts.yaml"]);
    assert_eq!(twice.status.code(), Some(2));
    assert!(said(&twice).contains("two operations have the address"), "{}", said(&twice));
    // A copy of the shop has another micrometer of the same name: whether it is the same nobody knows.
    std::fs::copy(folder.join("../shop.yaml"), folder.join("copy.yaml")).unwrap();
    std::fs::write(folder.join("other.yaml"), with(&float, "../shop.yaml", "copy.yaml")).unwrap();
    let other = run(&folder, &["plan", "cuts.yaml", "other.yaml"]);
    assert_eq!(other.status.code(), Some(2), "{}", said(&other));
    assert!(said(&other).contains("a job with another shop"), "{}", said(&other));
    assert_eq!(run(&folder, &["plan", "cuts.yaml", "other.yaml", "--shop", "copy.yaml"]).status.code(), Some(0));
    // What only tells what came in adds nothing and takes nothing.
    let with_found = json(&folder, &["plan", "found.yaml", "cuts.yaml", "float.yaml"]);
    assert_eq!(with_found["operations"].as_array().unwrap().len(), 5);
    assert_eq!(run(&folder, &["plan", "found.yaml"]).status.code(), Some(2));
}

/// A line of one log that nobody can trust leaves no operation of the set proven: the size may have come from it.
#[test]
fn a_bad_line_of_one_log_is_doubt_for_all_jobs_of_the_set() {
    let (_demo, folder) = demo();
    assert_eq!(run(&folder, &["log", "cuts.yaml", "--from", "evening.yaml"]).status.code(), Some(0));
    let path = folder.join("cuts.log.yaml");
    let whole = std::fs::read_to_string(&path).unwrap();
    let verdicts = || -> Vec<String> {
        let plan = json(&folder, &["plan", "cuts.yaml", "float.yaml"]);
        let all = plan["operations"].as_array().unwrap().iter();
        all.map(|one| one["verdict"].as_str().unwrap().to_owned()).collect()
    };
    assert!(verdicts().contains(&"proven".to_owned()));
    for bad in [
        whole[..whole.len() - 20].to_owned(),
        whole.replace("24.930 mm", "24.931 mm"),
        whole.replace("length_after: 21.677", "length_after: 21.577"),
        whole.replace("{n: 4,", "{n: 3,"),
    ] {
        std::fs::write(&path, bad).unwrap();
        assert!(verdicts().iter().all(|verdict| verdict != "proven"), "{:?}", verdicts());
    }
}

/// A worse reading in the log of one job never betters a verdict of another.
#[test]
fn a_worse_reading_in_one_job_betters_nothing_in_the_other() {
    let (_demo, folder) = demo();
    let rank = |verdict: &Value| ["proven", "doubtful", "fails"].iter().position(|own| verdict == own).unwrap();
    let mut last = 0;
    for (n, doubt) in ["0.002", "0.010", "0.030", "0.060", "0.120"].iter().enumerate() {
        let size = format!("length_after=21.677 ± {doubt} mm");
        let mut words = vec!["log", "cuts.yaml", "layshaft thrust collar/face", &size];
        let before = format!("L{n}");
        if n > 0 {
            words.extend(["--corrects", &before]);
        }
        let logged = run(&folder, &words);
        assert_eq!(logged.status.code(), Some(0), "{}", said(&logged));
        let plan = json(&folder, &["plan", "cuts.yaml", "float.yaml"]);
        let now = rank(&of(&plan, "layshaft", "shim")["verdict"]);
        assert!(now >= last, "± {doubt} betters the float");
        last = now;
    }
    assert!(last > 0);
}

/// Sheets of two jobs have wider numbers: the cover has room for them.
#[test]
fn two_jobs_have_one_cover() {
    let (_demo, folder) = demo();
    let output = run(&folder, &["sheets", "cuts.yaml", "float.yaml", "--cover", "-o", "both.pdf"]);
    assert!(matches!(output.status.code(), Some(0 | 1)), "{}", String::from_utf8_lossy(&output.stderr));
}

/// A float that was right as it came is not right behind the cut that opens it: found so it is no part that goes back as it is.
#[test]
fn a_float_read_before_the_cut_that_opens_it_is_not_used_again() {
    let (_demo, folder) = demo();
    let found = std::fs::read_to_string(folder.join("found.yaml")).unwrap();
    let decision = |float: &str| {
        std::fs::write(folder.join("found.yaml"), with(&found, "found: 0.62 ± 0.02 mm", &format!("found: {float}")))
            .unwrap();
        let decided = json(&folder, &["decide", "found.yaml", "cuts.yaml", "float.yaml"]);
        let rows = decided["rows"].as_array().unwrap();
        rows.iter().find(|row| row["feature"] == "end float").unwrap()["decision"].clone()
    };
    assert_ne!(decision("0.20 ± 0.02 mm"), "reuse");
    let cuts = std::fs::read_to_string(folder.join("float.yaml")).unwrap();
    let typed = with(&cuts, "closes: {of: layshaft thrust collar/face/length_after}", "closes: 21.87 ± 0.01 mm");
    std::fs::write(folder.join("float.yaml"), typed).unwrap();
    assert_eq!(decision("0.20 ± 0.02 mm"), "reuse", "nothing that is cut moves it");
}
