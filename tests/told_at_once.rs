//! All that is missing or wrong in a file is told in one run: who mends what was told plans.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{SHOP, shop, try_plan};
use serde_json::{Map, Value, json};
use setover::job::JobFile;
use setover::operations::Request;
use setover::proof::Place;
use setover::reading::{Keys, Node};

fn told(job: &str) -> Vec<String> {
    match try_plan(job, Some(&shop(SHOP))) {
        Ok(_) => Vec::new(),
        Err(all) => all.into_iter().map(|problem| problem.says).collect(),
    }
}

/// The example of an operation as one value: its part, and the keys of the operation.
fn example(word: &str) -> (Value, Value) {
    let job: Value = Node::yaml(Request::example(word).unwrap(), Place::start(0))
        .unwrap()
        .read()
        .unwrap_or_else(|all| panic!("{all:?}"));
    let part = job["parts"][0].clone();
    let own = part["operations"].as_array().unwrap().iter().find_map(|one| one.get(word)).cloned();
    (part, own.unwrap())
}

/// A job of one part with one operation that has these keys.
fn job(word: &str, keys: &Value, material: Option<&Value>) -> String {
    let mut part = Map::new();
    part.insert("part".into(), json!("piece"));
    if let Some(material) = material {
        part.insert("material".into(), material.clone());
    }
    part.insert("operations".into(), json!([{ word: keys }]));
    json!({"job": "x", "parts": [part]}).to_string()
}

/// The keys that a message says are missing, of which one must be given.
fn missing(says: &str) -> Option<Vec<String>> {
    let (named, rest) = says.split_once(" missing")?;
    let mut keys: Vec<String> = named.split('`').skip(1).step_by(2).map(str::to_owned).collect();
    if named.contains("of the part") || rest.starts_with(", here or on the part") {
        keys.push("part.material".into());
    }
    Some(keys)
}

/// Puts the value of an example under a path, with the keys above it.
fn put(into: &mut Value, path: &str, example: &Value) -> bool {
    let Some(found) = path.split('.').try_fold(example, |at, name| at.get(name)) else { return false };
    let mut at = into;
    for name in path.split('.') {
        at = at.as_object_mut().unwrap().entry(name).or_insert_with(|| json!({}));
    }
    *at = found.clone();
    true
}

/// Whoever gives what was told to be missing is told of no further key.
#[test]
fn what_is_missing_is_told_in_one_run() {
    let mut mended = 0;
    for word in Request::WORDS {
        let (part, own) = example(word);
        let (mut keys, mut material) = (json!({}), None);
        let first = told(&job(word, &keys, None));
        let all: Vec<Vec<String>> = first.iter().filter_map(|says| missing(says)).collect();
        if all.is_empty() {
            continue;
        }
        for of_one in &all {
            let given = of_one.iter().any(|key| match key.as_str() {
                "part.material" => {
                    material = part.get("material");
                    material.is_some()
                }
                key => put(&mut keys, key, &own),
            });
            assert!(given, "{word}: the example gives none of {of_one:?}");
        }
        mended += 1;
        let then = told(&job(word, &keys, material));
        let further: Vec<&String> =
            then.iter().filter(|says| says.contains("missing") || says.contains("not known: give")).collect();
        assert!(further.is_empty(), "{word}: {further:#?} after {first:#?}");
    }
    assert!(mended > 20, "{mended}");
}

/// What the types say of keys of which one must be given is what the operations refuse, of the metal too.
#[test]
fn what_must_be_given_beside_the_required_keys_is_what_is_refused() {
    let schema = Keys::of::<JobFile<Request>>();
    let mut seen = 0;
    for word in Request::WORDS {
        let (part, own) = example(word);
        let wanted: Vec<String> = schema.wanted("Request", word).into_iter().map(|key| key.key).collect();
        for keys in &wanted {
            let (mut without, mut material) = (own.clone(), part.get("material"));
            for key in keys.split(" or ") {
                match key.split_once(" of the ") {
                    Some((_, "part")) => material = None,
                    Some((key, of)) => drop(without[of].as_object_mut().unwrap().remove(key)),
                    None => drop(without.as_object_mut().unwrap().remove(key)),
                }
            }
            assert!(!told(&job(word, &without, material)).is_empty(), "{word} without {keys}");
            seen += 1;
        }
        if !wanted.iter().any(|keys| keys.contains("of the part")) {
            let says = told(&job(word, &own, None));
            assert!(!says.iter().any(|says| says.contains("material")), "{word}: {says:?}");
        }
    }
    assert!(seen >= 10, "{seen}");
}

/// Nothing under a word tells its keys; a slip in the first key of a thing hides none of the others.
#[test]
fn each_slip_of_a_file_is_told_with_the_others() {
    let head = "job: x\nparts:\n  - part: a\n";
    for (text, count, says) in [
        (
            format!("{head}    operations:\n      - thread-insert:\n"),
            5,
            &["nothing stands under `thread-insert`", "`thread` is missing", "`wall` is missing", "`hole` is missing"]
                [..],
        ),
        (
            format!(
                "{head}    material: GG25\n    operations:\n      - press-in:\n          housing:\n          bush: {{length: 20 mm}}\n"
            ),
            6,
            &[
                "nothing stands under `housing`",
                "`housing.bore` is missing",
                "`housing.outside` is missing",
                "`bush.material`",
            ],
        ),
        (
            "job: x\nparts:\n  - part: {a: b}\n    material: [x]\n    operations: drill\n".into(),
            3,
            &[
                "a block of keys stands here; a text",
                "a list stands here; a text",
                "the text `drill` stands here; a list",
            ],
        ),
        (
            format!("{head}    operations:\n      - drill: {{wall: 7, hold: {{}}}}\n      - skim: {{length: 8}}\n"),
            8,
            &[
                "a measured size needs its unit",
                "`hold.in` is missing",
                "`wear` or `dish` is missing",
                "`material` of the part",
            ],
        ),
    ] {
        let all = told(&text);
        for own in says {
            assert!(all.iter().any(|one| one.contains(own)) || own.starts_with("a measured"), "no `{own}`: {all:#?}");
        }
        assert_eq!(all.len(), count, "{text}: {all:#?}");
    }
}

/// One value where keys are wanted says which of them must be given, a key with a blank how it is written.
#[test]
fn a_value_in_the_place_of_keys_names_them() {
    let text = "job: x\nparts:\n  - part: a\n    material: EN8\n    operations:\n      - ream-bush: {housing: {bore: 19 ± 0.01 mm, outside: 28 mm}, bush: PB1, shaft: 16 ± 0.01 mm}\n      - skim: {outside: 60 mm, thickness: 8 mm, wear: 0.1 mm, hold: [4 jaw]}\n      - drill: {diameter: 8 mm, wall: 20 mm, depth: 5 mm, Stick Out: 30 mm}\n";
    let all = told(text);
    for own in [
        "the text `PB1` stands here; keys are wanted",
        "`bush.length` is missing",
        "`bush.material` is missing",
        "a list stands here; keys are wanted: `in: …`",
        "what is called `thickness` elsewhere is `length` here",
        "the key `Stick Out` is written `stick-out`",
    ] {
        assert!(all.iter().any(|one| one.contains(own)), "no `{own}`: {all:#?}");
    }
}

/// A line that several things are wrong with is quoted once.
#[test]
fn a_line_is_quoted_once_for_all_that_is_wrong_at_its_place() {
    let folder = tempfile::tempdir().expect("a folder");
    let text = "job: x\nparts:\n  - part: a\n    operations:\n      - ream-bush: {}\n";
    std::fs::write(folder.path().join("job.yaml"), text).expect("written");
    let run = |words: &[&str]| {
        let output =
            std::process::Command::new(env!("CARGO_BIN_EXE_setover")).current_dir(folder.path()).args(words).output();
        let output = output.expect("runs");
        String::from_utf8_lossy(&output.stdout).into_owned() + &String::from_utf8_lossy(&output.stderr)
    };
    let said = run(&["plan", "job.yaml"]);
    assert!(said.contains("`housing.bore` is missing") && said.contains("`bush.length` is missing"), "{said}");
    assert_eq!(said.matches("- ream-bush: {}").count(), 1, "{said}");
    let said = run(&["keys", "skim"]);
    assert!(said.contains("wear or dish") && said.contains("material of the part"), "{said}");
}
