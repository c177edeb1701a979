//! The first ten minutes: `start` writes a shop and a job that plans, `ask` asks question by question, both over a pipe.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::piped;
use setover::operations::Request;
use std::path::Path;
use std::process::{Command, Output, Stdio};

fn said(output: &Output) -> String {
    String::from_utf8_lossy(&output.stdout).into_owned() + &String::from_utf8_lossy(&output.stderr)
}

const SHOP: &str = "shed\nfoo\nboth\nLetter\n38,62 rev/min\n38, 62, 100, 165\n0.75 kW\n0.1 0.2 mm/rev\n\n0.02\n1 thou\n0.1 in\n0.02 mm\n4 mm\ndiameter\nnone\n230 mm\n1 mm\n160 mm\n1800 rev/min\n25 kN\n8 in\n1000 rev/min\n\n2.5 mm\nHSS\n0.4 mm\n12 mm\n60 mm\nHSS\n0.2 mm\n2 mm\nHSS\n15 mm\n80 135 210 rev/min\n1.1 kW\n0.02 mm\n4 mm\n400 750 1250\n0.55 kW\n1 mm\n30 kN\n1 mm\n13 mm\n0.1 mm\n16 H7\nM6, M8\n0 mm to 25 mm\n5 um\n25 to 50 mm\n6 um\n10 mm to 50 mm\n8 um\n0 mm to 150 mm\n0.03 mm\n0.8 mm\n6 um\n2 um\n";

#[test]
fn a_start_writes_a_shop_and_a_job_that_plan_and_takes_nothing_away() {
    let folder = tempfile::tempdir().unwrap();
    for (name, arguments, answers) in [
        ("asked", vec!["start", "asked"], SHOP),
        ("plain", vec!["start", "plain", "--plain"], ""),
        ("cut", vec!["start", "cut"], "shed\n"),
    ] {
        let output = piped(folder.path(), &arguments, answers);
        assert_eq!(output.status.code(), Some(0), "{}", said(&output));
        let job = folder.path().join(name).join("first-job.yaml");
        let plan = piped(folder.path(), &["plan", job.to_str().unwrap()], "");
        assert_eq!(plan.status.code(), Some(0), "doubtful at worst: {}", said(&plan));
        // No figure of a shop is made up: what nobody said stands in a remark.
        let shop = std::fs::read_to_string(folder.path().join(name).join("shop.yaml")).unwrap();
        let keys: Vec<&str> =
            shop.lines().filter(|line| !line.trim_start().starts_with('#') && !line.is_empty()).collect();
        match name {
            "asked" => assert!(
                [
                    "spindle: 38 62 100 165 rev/min",
                    "most: 1800 rev/min",
                    "four-jaw:",
                    "screw-pitch: 2.5 mm",
                    "per-turn: 4 mm",
                    "from: 25 mm, to: 50 mm",
                    "width: 2 mm, material: HSS, reach: 15 mm",
                ]
                .iter()
                .all(|line| shop.contains(line)),
                "{shop}"
            ),
            _ => assert_eq!(keys.len(), 1, "{shop}"),
        }
        let again = piped(folder.path(), &arguments, answers);
        assert_eq!(again.status.code(), Some(3));
        assert_eq!(std::fs::read_to_string(folder.path().join(name).join("shop.yaml")).unwrap(), shop);
    }
    let asked = said(&piped(folder.path(), &["start", "other"], SHOP));
    for piece in [
        "known here: metric, ",
        "stand apart by spaces alone",
        "A length needs its unit, as in `0.02 mm` or `0.02 in`",
        "skipped: its speed is not judged",
    ] {
        assert!(asked.contains(piece), "{piece}: {asked}");
    }
}

/// A shop of inches, by any of its words, is asked in inches, its remarks and its first job are in inches, and one unit behind a
/// range stands for both of its ends.
#[test]
fn a_shop_of_inches_is_asked_in_inches() {
    let folder = tempfile::tempdir().unwrap();
    for (units, name) in [("inch", "a"), ("imperial", "b"), ("Inches", "c")] {
        let answers = format!("shed\n{units}\n\n38 62\n1 hp\n.002 .004 .006\n.002 .004 .006 in/rev\nstop\n");
        let output = piped(folder.path(), &["start", name], &answers);
        let text = said(&output);
        assert_eq!(output.status.code(), Some(0), "{text}");
        for piece in [
            "as in 0.002 0.004 0.006 0.008 in/rev;",
            "as in 0.001 0.002 0.003 0.004 in/rev;",
            "as in `.002 .004 .006 mm/rev` or `.002 .004 .006 in/rev`",
        ] {
            assert!(text.contains(piece), "{units}: {piece}: {text}");
        }
        let shop = std::fs::read_to_string(folder.path().join(name).join("shop.yaml")).unwrap();
        let metric = ["mm", "M8", "H7", "kW", "degC"].iter().find(|unit| shop.contains(**unit));
        assert_eq!(metric, None, "{units}: {shop}");
        let job = std::fs::read_to_string(folder.path().join(name).join("first-job.yaml")).unwrap();
        assert!(job.contains("5/16-18") && !job.contains("mm"), "{job}");
    }
    let ranges = piped(
        folder.path(),
        &["start", "d"],
        &("shed\ninch\n".to_owned() + &"\n".repeat(7) + "0.5 to 2 in\n0.0002\n0.0002 in\n"),
    );
    let shop = std::fs::read_to_string(folder.path().join("d").join("shop.yaml")).unwrap();
    assert!(shop.contains("from: 0.5 in, to: 2 in, uncertainty: 0.0002 in"), "{shop}: {}", said(&ranges));
}

/// What was said of a thing is kept where one thing must still be known of it, and it is said at once that it stays out.
#[test]
fn what_was_said_of_a_thing_is_not_lost() {
    let folder = tempfile::tempdir().unwrap();
    let answers = "shed\nmetric\nA4\n38 62\n".to_owned() + &"\n".repeat(10) + "carbide\n\n14 mm\n70 mm\n\nstop\n";
    let output = piped(folder.path(), &["start", "."], &answers);
    let text = said(&output);
    let shop = std::fs::read_to_string(folder.path().join("shop.yaml")).unwrap();
    for piece in [
        "skipped: the turning tool stays out of the shop",
        "The turning tool stays out of the shop until that is known",
        "The boring bar stays out",
    ] {
        assert!(text.contains(piece), "{piece}: {text}");
    }
    for piece in [
        "# - turning: {name: turning tool, material: carbide, nose: 0.4 mm}   # left out: not known yet: How round is its point, as a radius? (0.4 mm is an example)",
        "diameter: 14 mm, material: HSS, nose: 0.2 mm, reach: 70 mm",
    ] {
        assert!(shop.contains(piece), "{piece}: {shop}");
    }
}

#[derive(serde::Deserialize)]
struct Question {
    id: String,
    example: String,
    inch: Option<String>,
}

/// Every question answered as its example says, in millimetres and in inches: the first job is proven, and no job of such a shop is
/// doubtful for want of something that nobody asked for.
#[test]
fn a_shop_that_answered_everything_proves_its_first_job() {
    let questions: Vec<Question> = serde_yaml::from_str(include_str!("../src/cli/start/questions.yaml")).unwrap();
    for units in ["metric", "inch"] {
        let folder = tempfile::tempdir().unwrap();
        let answer = |question: &Question| match (question.id.as_str(), &question.inch) {
            ("units", _) => units.to_owned(),
            (_, Some(inch)) if units == "inch" => inch.clone(),
            _ => question.example.clone(),
        };
        let answers: String = questions.iter().map(|question| answer(question) + "\n").collect();
        let output = piped(folder.path(), &["start", "."], &answers);
        let text = said(&output);
        assert!(text.contains("\nPROVEN: plate/drill"), "{units}: {text}");
        let shop = std::fs::read_to_string(folder.path().join("shop.yaml")).unwrap();
        assert!(!shop.contains("left out"), "{units}: {shop}");
        let jobs =
            if units == "inch" { FIRST_JOBS.replace("diameter: 5 mm", "diameter: 3/16 in") } else { FIRST_JOBS.into() };
        std::fs::write(folder.path().join("more.yaml"), jobs).unwrap();
        let plan = said(&piped(folder.path(), &["plan", "more.yaml", "--format", "json"], ""));
        let plan: serde_json::Value = serde_json::from_str(&plan).unwrap_or_else(|_| panic!("{plan}"));
        let operations = plan["operations"].as_array().unwrap();
        assert_eq!(operations.len(), 4);
        for operation in operations {
            let address = &operation["address"];
            assert!(operation["missing"].as_array().unwrap().is_empty(), "{units} {address}: {}", operation["missing"]);
            let open = operation["checks"].as_array().unwrap().iter().filter(|check| {
                check["weight"] == "must" && (check["state"] != "proven" && check["state"] != "does-not-apply")
            });
            let open: Vec<String> =
                open.map(|check| format!("{} {} {}", check["id"], check["state"], check["missing"])).collect();
            assert!(open.is_empty(), "{units} {address}: {open:?}");
        }
    }
}

/// Drilled, turned, bored and pressed, as a first day has them.
const FIRST_JOBS: &str = "
job: a first day
shop: shop.yaml
parts:
  - part: pin
    material: EN8
    operations:
      - turn: {present: 24.50 ± 0.03 mm, outside: 23.80 .. 23.90 mm, length: 30 ± 0.3 mm, over-all: 90 ± 0.5 mm, inside: 0 mm, corner: 0.8 mm, hold: {in: jaws, diameter: 24.5 mm, grip: 50 mm, overhang: 38 mm, true-within: 0.05 mm, nipped: hard, tested: 60 ± 2 N·m}}
  - part: flange
    material: GG20
    operations:
      - bore-hole: {present: 25.0 ± 0.02 mm, bore: 25.80 .. 25.90 mm, depth: 38 mm, through: true, outside: 75.0 ± 0.1 mm, over-all: 38 ± 0.1 mm, least-wall: 15 mm, true-to: bore, eccentric: 0 ± 0.05 mm, behind: 8 mm, hold: {in: four-jaw, diameter: 75 mm, grip: 20 mm, overhang: 18 mm, true-within: 0.02 mm, tested: 80 ± 3 N·m}}
  - part: plate
    material: 6082-T6
    operations:
      - drill: {starts-on: flat, diameter: 5 mm, depth: 10 mm, wall: 25.0 ± 0.2 mm, edge: 20.0 ± 0.5 mm, stick-out: 55 mm, hold: {in: vice, tested: 25 ± 2 N·m, grip: 12 mm, overhang: 6 mm}}
  - part: lever
    material: GG20
    operations:
      - press-in: {housing: {bore: 25.375 ± 0.005 mm, outside: 44.5 mm, length: 32 mm, finish: Ra 0.8 um}, bush: {outside: 25.393 ± 0.005 mm, bore: 19.1 ± 0.005 mm, length: 32 mm, material: phosphor bronze, finish: Ra 0.8 um}, stands: flush, support: {inside: 28 mm, height: 50 mm, under: boss}, running: {housing: 25 degC, shaft: 25 degC, coldest: 10 degC}}
";

/// What was skipped stands in remarks that need nothing but their sign taken away.
#[test]
fn what_was_skipped_is_a_remark_that_can_be_taken_out() {
    use setover::reading::Node;
    let folder = tempfile::tempdir().unwrap();
    let lathe = "shed\n\n38 62 rev/min\n";
    for (name, arguments, answers) in [
        ("plain", vec!["start", "plain", "--plain"], String::new()),
        ("lathe", vec!["start", "lathe"], lathe.to_owned()),
        ("half", vec!["start", "half"], format!("{lathe}\n\n0.02 mm\n\n230 mm\n160 mm\n\n")),
    ] {
        assert_eq!(piped(folder.path(), &arguments, &answers).status.code(), Some(0), "{name}");
        let text = std::fs::read_to_string(folder.path().join(name).join("shop.yaml")).unwrap();
        let mut out = String::new();
        for line in text.lines() {
            let says =
                line.trim_start().strip_prefix("# ").map(|says| says.split("   # left out").next().unwrap_or(says));
            let blanks = &line[..line.len() - line.trim_start().len()];
            match says {
                // A sentence is none.
                Some(says) if says.ends_with('.') || says.starts_with("Every") => {}
                Some(says) => out += &format!("{blanks}{says}\n"),
                None => out += &format!("{line}\n"),
            }
        }
        let read = Node::yaml(&out, setover::proof::Place::start(0))
            .map_err(|problem| vec![problem])
            .and_then(Node::read_known::<setover::shop::Shop>);
        let shop = read.unwrap_or_else(|all| panic!("{name}: {all:#?}: {out}"));
        assert!(shop.problems().is_empty(), "{name}: {:?}: {out}", shop.problems());
        assert!(shop.machines.iter().any(|machine| machine.name() == "lathe"), "{name}: {out}");
    }
}

/// The job that the README shows ends well in the shop that knows least: doubtful, with what to get first.
#[test]
fn the_job_of_the_readme_plans_in_a_shop_that_was_asked_nothing() {
    let readme = include_str!("../README.md");
    let block = readme.split("```yaml\n").nth(1).unwrap().split("```").next().unwrap();
    let folder = tempfile::tempdir().unwrap();
    assert_eq!(piped(folder.path(), &["start", ".", "--plain"], "").status.code(), Some(0));
    std::fs::write(folder.path().join("job.yaml"), block).unwrap();
    let plan = piped(folder.path(), &["plan", "job.yaml"], "");
    assert_eq!(plan.status.code(), Some(0), "{}", said(&plan));
    assert!(said(&plan).contains("Get these first"), "{}", said(&plan));
}

#[test]
fn asking_ends_in_a_job_that_plans() {
    let folder = tempfile::tempdir().unwrap();
    let answers = "lid: no. 2\ncast aluminium\n\n8mm\nM8\n\n18\n18.0 ± 0.3 mm\nperhaps\nblind\n";
    let output = piped(folder.path(), &["ask", "thread-insert"], answers);
    let text = said(&output);
    for piece in [
        "is `M8` meant?",
        "This must be known.",
        "needs its unit",
        "`perhaps` is not known here",
        "Which thread does the bolt have?",
    ] {
        assert!(text.contains(piece), "{piece}: {text}");
    }
    let job = std::fs::read_to_string(folder.path().join("thread-insert.yaml")).unwrap();
    assert!(job.contains("part: 'lid: no. 2'") && job.contains("wall: 18.0 ± 0.3 mm"), "{job}");
    let plan = piped(folder.path(), &["plan", "thread-insert.yaml"], "");
    assert_ne!(plan.status.code(), Some(2), "{}", said(&plan));
    assert!(text.contains(said(&plan).lines().next().unwrap()), "the answer is shown: {text}");
    let again = piped(folder.path(), &["ask", "thread-insert"], answers);
    assert_eq!(again.status.code(), Some(3));
    assert_eq!(std::fs::read_to_string(folder.path().join("thread-insert.yaml")).unwrap(), job);
    // Whoever hangs up before the end has written nothing.
    let cut = piped(folder.path(), &["ask", "thread-insert", "-o", "cut.yaml"], "lid\n\n\nM8\n");
    assert_eq!(cut.status.code(), Some(2), "{}", said(&cut));
    assert!(said(&cut).contains("`wall`") && !folder.path().join("cut.yaml").exists(), "{}", said(&cut));
}

/// Each operation can be asked for with the examples that its own questions give.
#[test]
fn every_operation_asks_for_all_that_it_needs() {
    let folder = tempfile::tempdir().unwrap();
    for word in Request::WORDS {
        let keys = piped(folder.path(), &["keys", word, "--format", "json"], "");
        let keys: serde_json::Value = serde_json::from_slice(&keys.stdout).unwrap();
        let mut examples = Vec::new();
        required(&keys, true, &mut examples);
        // What a message asks for beside them is a depth, or what it is held in; at last a diameter that is not bored away.
        let beside = "0.20 ± 0.02 mm\n5 mm\njaws\n".repeat(4) + "26 mm\n";
        // An oil hole asks for the oilway and the length of its own bush: these are skipped.
        let beside = if *word == "drill-oil-hole" { "\n".repeat(16) } else { beside };
        let answers = format!("a part\ncast iron\n\n{}\n{beside}", examples.join("\n"));
        let output = piped(folder.path(), &["ask", word, "-o", &format!("{word}.yaml")], &answers);
        assert!(folder.path().join(format!("{word}.yaml")).exists(), "{word}: {}", said(&output));
        let plan = piped(folder.path(), &["plan", &format!("{word}.yaml")], "");
        assert_ne!(plan.status.code(), Some(2), "{word}: {}", said(&plan));
    }
}

/// The examples of the keys that must be given, in the order asked; an empty line where something measured may be left out, and where
/// a list ends.
fn required(keys: &serde_json::Value, whole: bool, found: &mut Vec<String>) {
    let is = |key: &serde_json::Value, what: &str| key[what] == true;
    let measured =
        |key: &serde_json::Value| key["asks"] == "measured" || key["means"].as_str().unwrap().contains("(measured)");
    let all = keys.as_array().unwrap();
    for key in all.iter().filter(|key| is(key, "required")) {
        let under = &key["under"];
        if under.as_array().unwrap().is_empty() {
            found.push(key["example"].as_str().unwrap().to_owned());
        } else {
            required(under, is(key, "list") || key["key"] != "hold", found);
        }
        if is(key, "list") {
            found.push(String::new());
        }
    }
    let may = |key: &&serde_json::Value| {
        whole && !is(key, "required") && key["key"].as_str().unwrap().contains('.') && measured(key)
    };
    found.extend(all.iter().filter(may).map(|_| String::new()));
}

/// Whatever the part is made of must be told where the work hangs on it: it is asked for then, and the question ends.
#[test]
fn a_metal_that_was_skipped_is_asked_for_where_it_must_be_known() {
    let folder = tempfile::tempdir().unwrap();
    let skim = "a part\n\n\n52 mm\n30 mm\n0.20 ± 0.02 mm\n20.00 ± 0.02 mm\nRa 1.6 um\n";
    for (word, answers, asked) in [
        (
            "ream-bush",
            "a part\n\n\n20.010 ± 0.004 mm\n40 mm\n\n20 mm\nLG2\n20.045 ± 0.004 mm\n15.950 ± 0.004 mm\n15.984 ± 0.003 mm\nGG20\n",
            "(housing.material)",
        ),
        ("skim", skim, "What is the part made of?"),
    ] {
        let output = piped(folder.path(), &["ask", word, "-o", &format!("{word}.yaml")], answers);
        let text = said(&output);
        assert!(
            text.contains("metal of the housing is not known")
                || text.contains("The metal is not known")
                || word == "skim",
            "{word}: {text}"
        );
        assert!(text.contains(asked) && !text.contains(": and now?"), "{word}: {text}");
        println!("{text}");
    }
    let job = std::fs::read_to_string(folder.path().join("ream-bush.yaml")).unwrap();
    assert!(job.contains("material: GG20") && job.contains("outside: 20.045"), "{job}");
}

/// The job goes to standard output where that was asked for, and the questions beside it.
#[test]
fn a_job_that_is_asked_for_may_go_to_standard_output() {
    let folder = tempfile::tempdir().unwrap();
    let output = piped(
        folder.path(),
        &["ask", "thread-insert", "-o", "-"],
        "lid\ncast aluminium\n\nM8\n18.0 ± 0.3 mm\nblind\nstop\n",
    );
    let job = String::from_utf8(output.stdout).unwrap();
    assert!(job.starts_with("job: ") && job.contains("wall: 18.0 ± 0.3 mm"), "{job}");
    assert!(String::from_utf8_lossy(&output.stderr).contains("Which thread does the bolt have?"));
    assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 0, "no file is made");
    std::fs::write(folder.path().join("job.yaml"), job).unwrap();
    assert_ne!(piped(folder.path(), &["plan", "job.yaml"], "").status.code(), Some(2));
}

/// An operation that cannot be worked out for want of the metal asks for it again, and says so.
#[test]
fn what_cannot_be_worked_out_without_a_key_asks_for_it() {
    let folder = tempfile::tempdir().unwrap();
    let text = said(&piped(folder.path(), &["ask", "drill"], "plate\n\n\n8 mm\n20 ± 0.2 mm\n10 mm\nGG20\n"));
    assert!(text.contains("it cannot be worked out without it"), "{text}");
    let job = std::fs::read_to_string(folder.path().join("drill.yaml")).unwrap();
    assert!(job.contains("material: GG20"), "{job}: {text}");
}

/// A key that is missing from what was typed is told of what was typed, and no operation is called by its name.
#[test]
fn what_is_missing_in_a_try_is_told_of_the_try() {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("shop.yaml"), "shop: shed\n").unwrap();
    for word in ["drill", "face", "press-in"] {
        let text = said(&piped(folder.path(), &["try", word], ""));
        assert!(text.contains("is missing") && text.contains("argument: ") && !text.contains("shop.yaml"), "{text}");
    }
    for command in ["try", "ask"] {
        let text = said(&piped(folder.path(), &[command, "dril"], ""));
        assert!(text.contains("there is no operation `dril`; did you mean `drill`"), "{text}");
        assert!(text.contains("`setover operations` lists them"), "{text}");
    }
}

/// Lists are asked item by item, row by row, and what else may be said is taken by its key.
#[test]
fn lists_are_asked_item_by_item() {
    let folder = tempfile::tempdir().unwrap();
    let text = said(&piped(
        folder.path(),
        &["ask", "bore"],
        "barrel\nGG25\n\n46 mm\n40 mm\ndiameter\n6 20 34 mm\n46.09 46.06 46.02 mm\n46.07 46.05 46.02 mm\n\n",
    ));
    let job = std::fs::read_to_string(folder.path().join("bore.yaml")).unwrap();
    assert!(job.contains("thrust: 46.09 46.06 46.02 mm") && job.contains("pin: 46.07"), "{text}{job}");
    assert!(!text.contains("(readings.from)"), "diameters are given: {text}");
    let text = said(&piped(
        folder.path(),
        &["ask", "chain"],
        "case\nGG25\n\ncase\n31.40 ± 0.03 mm\nshaft\n31.10 ± 0.03 mm\n\n",
    ));
    let job = std::fs::read_to_string(folder.path().join("chain.yaml")).unwrap();
    assert_eq!(job.matches("link: ").count(), 2, "{text}{job}");
    assert!(text.contains("One more?"), "{text}");
    let text = said(&piped(
        folder.path(),
        &["ask", "thread-insert"],
        "lid\ncast aluminium\n\nM8\n18.0 ± 0.3 mm\nblind\n\n\n\nedge: 9\nedge: 9.0 ± 0.2 mm\negde: 1 mm\n\n",
    ));
    let job = std::fs::read_to_string(folder.path().join("thread-insert.yaml")).unwrap();
    assert!(job.contains("edge: 9.0 ± 0.2 mm"), "{text}{job}");
    assert!(text.contains("needs its unit") && text.contains("did you mean `edge`?"), "{text}");
}

#[test]
fn a_save_is_planned_again_and_a_broken_file_keeps_the_last_answer() {
    use std::io::{BufRead, BufReader};
    use std::sync::mpsc;
    use std::time::{Duration, Instant};
    let folder = tempfile::tempdir().unwrap();
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    for file in ["face.yaml", "shop.yaml"] {
        std::fs::copy(root.join("examples").join(file), folder.path().join(file)).unwrap();
    }
    let job = folder.path().join("face.yaml");
    let text = std::fs::read_to_string(&job).unwrap();
    let mut child = Command::new(env!("CARGO_BIN_EXE_setover"))
        .current_dir(folder.path())
        .args(["watch", "face.yaml"])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("runs");
    let (send, lines) = mpsc::channel();
    for stream in [
        Box::new(child.stdout.take().unwrap()) as Box<dyn std::io::Read + Send>,
        Box::new(child.stderr.take().unwrap()),
    ] {
        let send = send.clone();
        std::thread::spawn(move || {
            BufReader::new(stream).lines().map_while(Result::ok).for_each(|line| drop(send.send(line)))
        });
    }
    let wait_for = |piece: &str| {
        let end = Instant::now() + Duration::from_secs(60);
        let mut heard = Vec::new();
        while let Ok(line) = lines.recv_timeout(end.saturating_duration_since(Instant::now())) {
            if line.contains(piece) {
                return;
            }
            heard.push(line);
        }
        panic!("no `{piece}`: {heard:#?}");
    };
    wait_for("PROVEN: distance piece/face");
    std::fs::write(&job, text.replace("wear: 0.25", "wear: 0.95")).unwrap();
    wait_for("DO NOT CUT: distance piece/face");
    std::fs::write(&job, text.replace("wear: 0.25", "wear: 0,25")).unwrap();
    wait_for("the decimal sign is a point");
    std::fs::write(&job, &text).unwrap();
    wait_for("PROVEN: distance piece/face");
    // It answers a save at once: of several the quickest counts, because other work may stand in the way.
    let quickest = (0..8)
        .map(|nth| {
            let (was, is) = if nth % 2 == 0 { ("wear: 0.25", "wear: 0.95") } else { ("", "") };
            let saved = Instant::now();
            std::fs::write(&job, if was.is_empty() { text.clone() } else { text.replace(was, is) }).unwrap();
            wait_for(if nth % 2 == 0 { "DO NOT CUT: distance piece/face" } else { "PROVEN: distance piece/face" });
            saved.elapsed()
        })
        .min()
        .unwrap();
    println!("answered {} ms after a save", quickest.as_millis());
    assert!(quickest < Duration::from_millis(600), "{quickest:?}");
    // What changes a figure that is not shown is not the same; a remark is.
    let moved = text.replace("as-found-float: 0.42", "as-found-float: 0.43");
    assert_ne!(moved, text);
    std::fs::write(&job, &moved).unwrap();
    wait_for("distance piece/face/float_after: ");
    std::fs::write(&job, format!("{moved}# a remark\n")).unwrap();
    wait_for("the answer is the same");
    // The shop is one of its files too.
    let shop = folder.path().join("shop.yaml");
    std::fs::write(&shop, std::fs::read_to_string(&shop).unwrap().replace("most: 1800 rev/min", "most: 40 rev/min"))
        .unwrap();
    wait_for("distance piece/face");
    child.kill().unwrap();
    child.wait().unwrap();
}

/// What a list takes is answered without its brackets too: one word, several, or with them.
#[test]
fn a_list_is_answered_without_brackets() {
    for (answer, typed) in [
        ("nothing", "[nothing]"),
        ("seals bearings", "[seals, bearings]"),
        ("seals, oil", "[seals, oil]"),
        ("[oil]", "[oil]"),
    ] {
        let folder = tempfile::tempdir().unwrap();
        let answers =
            format!("cover\ncast aluminium\n\n24 mm\n46 mm\n20 mm\n130 degC\n0.022 mm\nas-cast\n{answer}\n\n");
        piped(folder.path(), &["ask", "warm", "-o", "warm.yaml"], &answers);
        let job = std::fs::read_to_string(folder.path().join("warm.yaml")).unwrap();
        assert!(job.contains(&format!("near: {typed}")), "{answer}: {job}");
    }
}
