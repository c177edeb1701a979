//! What a newcomer can learn from the program alone: which keys there are, which of them are missing, which file is which.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use serde_json::Value;
use setover::operations::Request;
use std::collections::BTreeSet;
use std::path::Path;
use std::process::{Command, Output};

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
    let output = run(root(), &["keys", what, "--format", "json"]);
    assert!(output.status.success(), "{what}: {}", said(&output));
    serde_json::from_slice(&output.stdout).expect("JSON")
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
        let required: Vec<&Value> =
            listed.as_array().unwrap().iter().filter(|key| key["required"] == Value::Bool(true)).collect();
        assert!(!required.is_empty(), "{word}");
        for key in &required {
            assert!(said.contains(&format!("`{}` is missing", key["key"].as_str().unwrap())), "{word}: {said}");
        }
        assert_eq!(said.matches(" is missing").count(), required.len(), "{word}: {said}");
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
