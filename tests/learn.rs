//! What a newcomer can learn from the program alone: which keys there are, which of them are missing, which file is which.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::piped;
use serde_json::Value;
use setover::job::JobFile;
use setover::operations::Request;
use setover::reading::Keys;
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use std::process::{Command, Output};
use std::sync::Mutex;

fn run(folder: &Path, arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_setover")).current_dir(folder).args(arguments).output().expect("runs")
}

fn said(output: &Output) -> String {
    String::from_utf8_lossy(&output.stderr).into_owned()
}

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn keys(what: &str) -> Value {
    keys_in("metric", what)
}

/// The keys of one thing in one system of units; several tests ask for the same ones.
fn keys_in(units: &'static str, what: &str) -> Value {
    static TOLD: Mutex<BTreeMap<(&str, String), Value>> = Mutex::new(BTreeMap::new());
    let told = |all: &BTreeMap<(&str, String), Value>| all.get(&(units, what.to_owned())).cloned();
    if let Some(keys) = told(&TOLD.lock().unwrap()) {
        return keys;
    }
    let output = run(root(), &["keys", what, "--format", "json", "--units", units]);
    assert!(output.status.success(), "{what}: {}", said(&output));
    let keys: Value = serde_json::from_slice(&output.stdout).expect("JSON");
    TOLD.lock().unwrap().insert((units, what.to_owned()), keys.clone());
    keys
}

/// Every path of a list of keys, those under a key included.
fn paths(keys: &Value, found: &mut BTreeSet<String>) {
    for key in keys.as_array().expect("a list") {
        assert!(!key["means"].as_str().unwrap().is_empty(), "{} means nothing", key["key"]);
        found.insert(key["key"].as_str().unwrap().to_owned());
        paths(&key["under"], found);
    }
}

/// Every path that a document has under a place of it; lists add none.
fn typed(value: &Value, path: &str, found: &mut BTreeSet<String>) {
    match value {
        Value::Array(items) => items.iter().for_each(|item| typed(item, path, found)),
        Value::Object(entries) => entries.iter().for_each(|(key, value)| {
            let path = if path.is_empty() { key.clone() } else { format!("{path}.{key}") };
            found.insert(path.clone());
            typed(value, &path, found);
        }),
        _ => {}
    }
}

fn yaml(path: &str) -> Value {
    let text = std::fs::read_to_string(root().join(path)).expect(path);
    serde_yaml::from_str(&text).expect(path)
}

#[test]
fn every_key_that_is_typed_in_an_example_or_the_demo_is_listed() {
    let mut files: Vec<String> = Request::WORDS.iter().map(|word| format!("examples/{word}.yaml")).collect();
    files.push("demo/tidewater.yaml".into());
    let mut seen = 0;
    for file in &files {
        for part in yaml(file)["parts"].as_array().expect("parts") {
            for operation in part["operations"].as_array().expect("operations") {
                let (word, inner) = operation.as_object().expect("a word").iter().next().expect("a word");
                let (mut listed, mut used) = (BTreeSet::new(), BTreeSet::new());
                paths(&keys(word), &mut listed);
                typed(inner, "", &mut used);
                // A reading may be written as `{size, with}` or `{of}` wherever a size is asked for.
                used.retain(|path| ![".size", ".with", ".of"].iter().any(|end| path.ends_with(end)));
                seen += used.len();
                let unknown: Vec<&String> = used.difference(&listed).collect();
                assert!(unknown.is_empty(), "{file}: {word}: {unknown:?} are not listed");
            }
        }
    }
    assert!(seen > 60, "{seen}");
    for file in ["examples/shop.yaml", "demo/shop.yaml"] {
        let (mut listed, mut used) = (BTreeSet::new(), BTreeSet::new());
        paths(&keys("shop"), &mut listed);
        typed(&yaml(file), "", &mut used);
        let unknown: Vec<&String> = used.difference(&listed).collect();
        assert!(unknown.is_empty(), "{file}: {unknown:?} are not listed");
    }
}

/// The keys that must be given of one that must: those under it, where it has such.
fn leaves(key: &Value) -> Vec<&str> {
    let under = key["under"].as_array().unwrap().iter().filter(|under| under["required"] == Value::Bool(true));
    let is_one = key["list"] == Value::Bool(true) || key["asks"] != "";
    let all: Vec<&str> = under.filter(|_| !is_one).flat_map(leaves).collect();
    if all.is_empty() { vec![key["key"].as_str().unwrap()] } else { all }
}

#[test]
fn every_missing_key_is_told_in_one_run_with_its_path() {
    let folder = tempfile::tempdir().expect("folder");
    for word in Request::WORDS {
        let job = format!("job: x\nparts:\n  - part: a\n    operations:\n      - {word}: {{}}\n");
        std::fs::write(folder.path().join("job.yaml"), job).expect("job");
        let output = run(folder.path(), &["plan", "job.yaml"]);
        assert_eq!(output.status.code(), Some(2), "{word}");
        let said = said(&output);
        let listed = keys(word);
        let must = listed.as_array().unwrap().iter().filter(|key| key["required"] == Value::Bool(true));
        let required: Vec<&str> = must.flat_map(leaves).collect();
        assert!(!required.is_empty(), "{word}");
        for key in &required {
            assert!(said.contains(&format!("`{key}` is missing")), "{word}: {said}");
        }
        let others = Keys::of::<JobFile<Request>>().wanted("Request", word).len();
        assert_eq!(said.matches(" is missing").count(), required.len() + others, "{word}: {said}");
    }
    let bush = yaml("examples/ream-bush.yaml");
    let text = serde_json::to_string(&bush).unwrap().replace("\"outside\"", "\"outsid\"");
    std::fs::write(folder.path().join("job.yaml"), text).expect("job");
    let said = said(&run(folder.path(), &["plan", "job.yaml"]));
    assert!(said.contains("`housing.outside` is missing") || said.contains("`bush.outside` is missing"), "{said}");
    assert!(said.contains("did you mean `outside`?"), "{said}");
}

#[test]
fn a_file_of_the_other_kind_is_called_by_its_name() {
    let plan = |arguments: &[&str]| said(&run(root(), arguments));
    assert!(plan(&["plan", "examples/shop.yaml"]).contains("this is a shop file"));
    assert!(
        plan(&["plan", "examples/face.yaml", "--shop", "examples/skim.yaml"]).contains("this is a job file"),
        "{}",
        plan(&["plan", "examples/face.yaml", "--shop", "examples/skim.yaml"])
    );
    assert!(plan(&["keys", "thread-insrt"]).contains("did you mean `thread-insert`?"));
}

/// The lists are told from the types that read the files: what a schema allows and what `keys` shows is one thing.
#[test]
fn the_schema_of_both_files_is_printed() {
    for (of, required) in [("job", vec!["job", "parts"]), ("shop", vec!["shop"])] {
        let output = run(root(), &["schema", of]);
        let schema: Value = serde_json::from_slice(&output.stdout).expect("JSON");
        assert_eq!(schema["required"], serde_json::json!(required), "{of}");
        assert_eq!(schema["additionalProperties"], Value::Bool(false));
    }
    let listed = String::from_utf8(run(root(), &["operations"]).stdout).expect("text");
    for word in Request::WORDS {
        assert!(listed.contains(word), "{listed}");
    }
}

#[test]
fn names_and_materials_may_look_like_numbers() {
    let folder = tempfile::tempdir().expect("folder");
    for part in ["23", "y", "No", "1.10"] {
        let job = std::fs::read_to_string(root().join("examples/thread-insert.yaml")).expect("job");
        let job = job.replace("part: timing chest", &format!("part: {part}"));
        let job = job.replace("shop: shop.yaml", &format!("shop: {}", root().join("examples/shop.yaml").display()));
        std::fs::write(folder.path().join("job.yaml"), job).expect("job");
        let output = run(folder.path(), &["plan", "job.yaml"]);
        assert!(
            String::from_utf8_lossy(&output.stdout).contains(&format!("{part}/thread-insert")),
            "{}",
            said(&output)
        );
    }
    for material in ["4140", "303", "6082"] {
        let output = run(root(), &["book", "material", material]);
        assert!(output.status.success(), "{material}: {}", said(&output));
        let job = std::fs::read_to_string(root().join("examples/thread-insert.yaml")).expect("job");
        let job = job.replace("material: cast aluminium", &format!("material: {material}"));
        let job = job.replace("shop: shop.yaml", &format!("shop: {}", root().join("examples/shop.yaml").display()));
        std::fs::write(folder.path().join("job.yaml"), job).expect("job");
        let output = run(folder.path(), &["plan", "job.yaml"]);
        assert_ne!(output.status.code(), Some(2), "{material}: {}", said(&output));
    }
}

#[test]
fn the_book_says_what_can_be_asked() {
    let book = |arguments: &[&str]| {
        let output = run(root(), &[&["book"], arguments].concat());
        assert!(output.status.success(), "{arguments:?}: {}", said(&output));
        String::from_utf8_lossy(&output.stdout).into_owned()
    };
    let topics = book(&[]);
    for topic in setover::lookup::TOPICS {
        assert!(topics.contains(topic), "{topic}: {topics}");
        let page = book(&[topic]);
        assert!(page.contains("book ") || *topic == "sources", "{topic}: {page}");
        assert!(setover::lookup::contents(topic).is_some(), "{topic}");
    }
    for (topic, names) in [
        ("materials", vec!["Phosphor bronze", "silver steel", "cast iron", "dural"]),
        ("threads", vec!["1/4 BSF", "M8", "No. 8-32 UNC"]),
        ("instruments", vec!["outside micrometer", "bore gauge"]),
        ("inserts", vec!["M6", "1/4 BSF"]),
    ] {
        let page = book(&[topic]);
        names.iter().for_each(|name| assert!(page.contains(name), "{topic}: {name}"));
    }
    // Each name of a list is one that the book opens at.
    for (topic, singular) in [("materials", "material"), ("instruments", "instrument")] {
        let (_, names) = setover::lookup::contents(topic).unwrap();
        for (name, _) in names {
            book(&[singular, &name]);
        }
    }
    for name in ["steel", "iron", "dural", "aluminum", "EN16", "silver steel", "gauge plate", "light alloy", "inox"] {
        book(&["material", name]);
    }
}

/// The commands that there are, as the help names them.
fn commands() -> Vec<String> {
    let help = String::from_utf8(run(root(), &["--help"]).stdout).expect("text");
    let listed = help.split("Commands:\n").nth(1).expect("commands").split("\n\n").next().expect("a list");
    let words = listed.lines().filter(|line| line.starts_with("  ") && !line.starts_with("   "));
    let words: Vec<String> = words.filter_map(|line| line.split_whitespace().next()).map(str::to_owned).collect();
    words.into_iter().filter(|word| word != "help").collect()
}

/// Every option of a command stands in one of the examples of its help, and every example runs.
#[test]
fn the_help_of_each_command_has_examples_that_run_and_leave_no_option_out() {
    let folder = tempfile::tempdir().expect("folder");
    for name in ["demo", "examples"] {
        std::fs::create_dir(folder.path().join(name)).expect("folder");
        for file in std::fs::read_dir(root().join(name)).expect(name) {
            let file = file.expect("file").path();
            if file.is_file() {
                std::fs::copy(&file, folder.path().join(name).join(file.file_name().expect("name"))).expect("copy");
            }
        }
    }
    let mut ran = 0;
    for command in commands() {
        let help = String::from_utf8(run(root(), &[&command, "--help"]).stdout).expect("text");
        let examples = help.rsplit("\nOptions:").next().unwrap_or_default().split("\n\n").last().unwrap_or_default();
        let options = help.lines().map(str::trim_start).filter(|line| line.starts_with('-') && !line.starts_with("- "));
        for option in options {
            let names = option.split(['<', '[']).next().unwrap_or(option).trim();
            if ["--help", "--colour"].iter().any(|every| names.contains(every)) {
                continue;
            }
            let said =
                names.split(", ").any(|name| examples.split([' ', '\n', ',', '.']).any(|word| word == name.trim()));
            assert!(said, "`{command}`: no example has `{names}`: {examples}");
        }
        for line in examples.lines().filter_map(|line| line.strip_prefix("  setover ")) {
            if command == "watch" {
                continue;
            }
            let (words, into) = line.split_once(" > ").map_or((line, None), |(words, into)| (words, Some(into)));
            let words = crate::common::shell_words(words);
            let words: Vec<&str> = words.iter().map(String::as_str).collect();
            let output = if command == "ask" {
                let answers = "lid\ncast aluminium\n\nM8\n18.0 ± 0.3 mm\nblind\n";
                piped(folder.path(), &words, answers)
            } else {
                run(folder.path(), &words)
            };
            // What is worked out may fail or be doubtful; what is typed must be right.
            assert!(matches!(output.status.code(), Some(0 | 1)), "setover {line}: {}", said(&output));
            if let Some(into) = into {
                std::fs::write(folder.path().join(into), &output.stdout).expect("written");
            }
            ran += 1;
        }
    }
    assert!(ran > 40, "{ran}");
}

/// A key with the value that its list gives, typed alone where it belongs, in block form.
fn alone(keys: &Value, path: &str, indent: usize, all: &mut Vec<(String, String)>, before: &str) {
    for key in keys.as_array().unwrap() {
        let own = key["key"].as_str().unwrap();
        let name = own.rsplit('.').next().unwrap();
        let item = if key["list"] == Value::Bool(true) { "- " } else { "" };
        let blank = " ".repeat(indent);
        if key["under"].as_array().unwrap().is_empty() {
            let example = key["example"].as_str().unwrap();
            if !example.is_empty() {
                let value = format!("'{}'", example.replace('\'', "''"));
                let bare = ["true", "false"].contains(&example) || example.parse::<f64>().is_ok();
                let value = if bare { example.to_owned() } else { value };
                let line = if item.is_empty() {
                    format!("{blank}{name}: {value}\n")
                } else {
                    format!("{blank}{name}:\n{blank}  - {value}\n")
                };
                all.push((format!("{path}{own}"), format!("{before}{line}")));
            }
            continue;
        }
        let head = if item.is_empty() { format!("{blank}{name}:\n") } else { format!("{blank}{name}:\n{blank}  -\n") };
        let deep = indent + if item.is_empty() { 2 } else { 4 };
        alone(&key["under"], path, deep, all, &format!("{before}{head}"));
    }
}

/// What `keys` gives as an example under a key is read there; and a figure that says nothing of the key stands nowhere.
#[test]
fn each_example_of_a_key_is_read_under_it() {
    use setover::job::JobFile;
    use setover::proof::Place;
    use setover::reading::Node;
    use setover::shop::Shop;
    let mut seen = 0;
    let mut wrong = Vec::new();
    let mut try_one = |key: &str, text: &str, last: u32| {
        seen += 1;
        let node =
            Node::yaml(text, Place::start(0)).unwrap_or_else(|problem| panic!("{key}: {}: {text}", problem.says));
        let problems = match key.starts_with("shop/") {
            true => node.read::<Shop>().err(),
            false => JobFile::<Request>::read(node).err(),
        };
        let own = problems.into_iter().flatten().filter(|problem| !problem.is_missing());
        wrong.extend(
            own.filter(|problem| problem.place.is_some_and(|place| place.line >= last))
                .map(|problem| format!("{key}: {}", problem.says)),
        );
        if text.contains("12.5 ") {
            wrong.push(format!("{key}: 12.5 says nothing of it"));
        }
    };
    let frames = Request::WORDS
        .iter()
        .map(|word| (*word, format!("job: x\nparts:\n  - part: a\n    operations:\n      - {word}:\n"), 10));
    let frames: Vec<(&str, String, usize)> = frames
        .chain([
            ("part", "job: x\nparts:\n  -\n".to_owned(), 4),
            ("job", String::new(), 0),
            ("shop", "shop: x\n".to_owned(), 0),
        ])
        .collect();
    for (units, (what, frame, indent)) in
        ["metric", "inch"].into_iter().flat_map(|units| frames.iter().map(move |frame| (units, frame)))
    {
        let mut all = Vec::new();
        let listed = keys_in(units, what);
        alone(&listed, &format!("{what}/"), *indent, &mut all, "");
        for (key, lines) in all {
            let frame = if lines.starts_with("shop: ") { "" } else { frame.as_str() };
            let text = format!("{frame}{lines}");
            let last = text.lines().count() as u32;
            try_one(&format!("{key} in {units}"), &text, last);
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
    assert!(seen > 500, "{seen}");
}

/// What leaving a key out does is told where it does something.
#[test]
fn a_key_says_what_leaving_it_out_does() {
    let listed = |word: &str| -> Vec<Value> {
        fn flat(keys: &Value, all: &mut Vec<Value>) {
            for key in keys.as_array().unwrap() {
                all.push(key.clone());
                flat(&key["under"], all);
            }
        }
        let mut all = Vec::new();
        flat(&keys(word), &mut all);
        all
    };
    for (word, key, says) in [
        ("thread-insert", "lead", "assumed: lead of the insert tap: bottoming"),
        ("thread-insert", "edge", "not checked: edge wall"),
        ("thread-insert", "countersink", "assumed: no countersink"),
        ("turn", "hold.grip", "grip length"),
        ("turn", "finish", "assumed: roughness wanted: 1.6 µm"),
        ("face", "tool", ""),
    ] {
        let all = listed(word);
        let own = all.iter().find(|own| own["key"] == key).unwrap_or_else(|| panic!("{word}: no {key}"));
        assert!(own["left_out"].as_str().unwrap().contains(says), "{word}: {own:#}");
    }
    // Each key says it, of the frame too; a choice among kinds of machine, tool or reamer is none that could be left out.
    let (mut silent, mut all) = (Vec::new(), 0);
    for word in Request::WORDS.iter().copied().chain(["job", "part", "shop"]) {
        let is_kind = |key: &str| {
            let within = ["machines.", "tools.", "reamers."].iter().find_map(|list| key.strip_prefix(list));
            word == "shop" && within.is_some_and(|kind| !kind.contains('.'))
        };
        for key in listed(word) {
            let (name, means) = (key["key"].as_str().unwrap(), key["means"].as_str().unwrap());
            assert!(!means.contains('{'), "{word}: {name} names a row that is not there: {means}");
            if key["required"] == true || is_kind(name) {
                continue;
            }
            all += 1;
            if key["left_out"] == "" && !means.contains("left out") {
                silent.push(format!("{word}: {name}: {means}"));
            }
        }
    }
    assert!(silent.is_empty() && all > 800, "{} of {all}: {silent:#?}", silent.len());
    assert!(
        String::from_utf8_lossy(&run(root(), &["keys", "thread-insert"]).stdout).contains("left out, assumed: lead")
    );
}

/// What was typed is not asked for: a check that was not made for want of keys names none that stands in the job.
#[test]
fn no_key_that_was_typed_is_asked_for() {
    use setover::proof::Outcome;
    let shop = crate::common::shop(&std::fs::read_to_string(root().join("examples/shop.yaml")).expect("shop"));
    let (mut asked, mut wrong) = (0, BTreeSet::new());
    for word in Request::WORDS {
        let text = std::fs::read_to_string(root().join(format!("examples/{word}.yaml"))).expect("example");
        let lines: Vec<&str> = text.lines().collect();
        // The example as it is, and with each line of its own left out.
        let without = (0..=lines.len()).map(|at| {
            let kept = lines.iter().enumerate().filter(|(line, _)| *line != at).map(|(_, line)| *line);
            kept.collect::<Vec<_>>().join("\n")
        });
        for job in without {
            for shop in [Some(&shop), None] {
                let Ok(plan) = std::panic::catch_unwind(|| crate::common::try_plan(&job, shop)) else { continue };
                let Ok(plan) = plan else { continue };
                let document: Value = serde_yaml::from_str(&job).expect("YAML");
                let operations = document["parts"][0]["operations"].as_array().expect("operations").clone();
                for (planned, operation) in plan.operations.iter().zip(&operations) {
                    let inner = operation.as_object().and_then(|one| one.values().next()).expect("keys");
                    let mut keys = BTreeSet::new();
                    typed(inner, "", &mut keys);
                    for check in planned.answer.checks.iter().filter(|check| check.state == Outcome::NotChecked) {
                        asked += check.missing.len();
                        let there = check.missing.iter().filter(|key| keys.contains(**key));
                        wrong.extend(
                            there.map(|key| format!("{word}: `{}` asks for `{key}`, which is typed", check.id)),
                        );
                    }
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
    assert!(asked > 50, "{asked}");
}

/// A shell completes words where they are typed: the operation, or the topic, before what is asked of it.
#[test]
fn what_is_typed_first_is_completed_first() {
    let text = String::from_utf8(run(root(), &["completions", "zsh"]).stdout).expect("text");
    for (first, then) in [("':operation ", "'*::keys "), ("'::topic ", "'*::words -- A name ")] {
        let (before, _) = text.split_once(then).expect("both are completed");
        let line = before.lines().last().expect("a line before");
        assert!(line.starts_with(first), "before {then} stands {line}");
    }
}
