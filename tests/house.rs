//! The structure is tested: no import runs up a layer, the registry is whole, what documents name exists.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{between_quotes, first, in_shop, rust_files};
#[path = "house/circles.rs"]
mod circles;

use setover::operations::{Card, Request};
use std::collections::BTreeSet;
use std::path::Path;

/// Modules and their layers; modules of one layer do not import each other.
const LAYERS: &[(&str, u8)] = &[
    ("quantity", 1),
    ("spread", 1),
    ("in_order", 1),
    ("proof", 2),
    ("reading", 3),
    ("drawing", 3),
    ("handbook", 4),
    ("shop", 5),
    ("job", 6),
    ("operations", 7),
    ("plan", 8),
    ("lookup", 8),
    ("sheet", 9),
    ("cli", 10),
];

fn layer(module: &str) -> Option<u8> {
    LAYERS.iter().find(|f| f.0 == module).map(|f| f.1)
}

fn module_of(path: &Path) -> String {
    let inside = path.strip_prefix("src").expect("in src");
    inside.components().next().expect("a module").as_os_str().to_string_lossy().trim_end_matches(".rs").to_owned()
}

/// Every `crate::module` that a text names, grouped imports included.
fn modules_named(text: &str) -> BTreeSet<String> {
    let mut named = BTreeSet::new();
    for piece in text.split("crate::").skip(1) {
        let piece = piece.trim_start();
        if let Some(group) = piece.strip_prefix('{') {
            let inner = group.split("};").next().unwrap_or(group);
            named.extend(inner.split(',').map(|item| first_word(item.trim())));
        } else {
            named.insert(first_word(piece));
        }
    }
    named
}

fn first_word(text: &str) -> String {
    text.chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect()
}

#[test]
fn no_import_runs_up_a_layer_or_across_one() {
    let mut wrong = Vec::new();
    for path in rust_files(Path::new("src")) {
        let module = module_of(&path);
        if matches!(module.as_str(), "lib" | "main") {
            continue;
        }
        let text = std::fs::read_to_string(&path).expect("text");
        let code: String = text.lines().filter(|l| !l.trim_start().starts_with("//")).collect::<Vec<_>>().join("\n");
        for named in modules_named(&code) {
            let beside = named == "files" && module != "cli" && module != "files";
            let up = match (layer(&module), layer(&named)) {
                (Some(own), Some(other)) => other > own || (other == own && named != module),
                _ => false,
            };
            if up || beside {
                wrong.push(format!("{} names {named}", path.display()));
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

#[test]
fn every_module_of_the_tree_is_on_the_map() {
    for entry in std::fs::read_dir("src").expect("src") {
        let name = entry.expect("entry").file_name().to_string_lossy().trim_end_matches(".rs").to_owned();
        let known = layer(&name).is_some() || matches!(name.as_str(), "files" | "lib" | "main");
        assert!(known, "{name} is in no layer");
        if layer(&name).is_some() {
            assert!(
                std::fs::read_to_string("src/lib.rs").expect("lib").contains(&format!("[`{name}`]")),
                "{name} is not on the map"
            );
        }
    }
}

#[test]
fn only_one_place_knows_which_operations_there_are() {
    for path in rust_files(Path::new("src")) {
        let text = std::fs::read_to_string(&path).expect("text");
        let module = module_of(&path);
        if module == "operations" {
            continue;
        }
        // A plain word of the trade (`hand`, `measure`) has other uses in tables and on pages.
        let plain = ["job", "plan", "cli"].contains(&module.as_str());
        for word in Request::WORDS.iter().filter(|word| plain || word.contains('-')) {
            for line in text.lines().filter(|l| l.contains(&format!("\"{word}\""))) {
                let test = text.find("#[cfg(test)]").is_some_and(|t| t < text.find(line).unwrap_or(0));
                assert!(test, "{} names {word}: {line}", path.display());
            }
        }
    }
}

#[test]
fn no_operation_names_another_operations_file() {
    let files: BTreeSet<&str> = Request::FILES.iter().copied().collect();
    let all = rust_files(Path::new("src/operations"));
    for module in &files {
        for path in all.iter().filter(|path| file_of(path) == *module) {
            let text = std::fs::read_to_string(path).expect("text");
            for other in files.iter().filter(|other| *other != module) {
                let named = |with: &str| text.contains(&format!("{with}{other}::"));
                assert!(!named("super::") && !named("operations::"), "{} names {other}", path.display());
            }
        }
    }
}

/// The file or folder of `src/operations/` that a path lies in.
fn file_of(path: &Path) -> String {
    let inside = path.strip_prefix("src/operations").expect("in operations");
    inside.components().next().expect("a name").as_os_str().to_string_lossy().trim_end_matches(".rs").to_owned()
}

#[test]
fn every_operation_is_whole() {
    for (word, file) in Request::WORDS.iter().zip(Request::FILES) {
        let card = Card::read(Request::built_in_card(word).expect("card"), 0).expect("a card that reads");
        assert_eq!(card.operation, *word);
        assert!(!card.does.is_empty() && !card.cautions.is_empty() && !card.questions.is_empty(), "{word}");
        // What gives no figure has none to write down, and what only adds up has nothing to measure after it.
        let example = std::fs::read_to_string(format!("examples/{word}.yaml")).expect("an example");
        let plan = in_shop(&example);
        let answer = &first(&plan).answer;
        let lines =
            plan.operations.iter().flat_map(|planned| &planned.answer.set_ups).any(|set_up| !set_up.blanks.is_empty());
        assert!(
            answer.values.is_empty() || card.set_ups.is_empty() || lines,
            "{word} has figures and no line to write them in"
        );
        assert!(Path::new(&format!("examples/{word}.yaml")).is_file(), "no example of {word}");
        assert!(Path::new(&format!("tests/{file}.rs")).is_file(), "no test of {word}");
    }
}

/// Every property test draws from a printed seed and keeps its failures.
#[test]
fn property_tests_print_their_seed_and_keep_what_failed() {
    for path in rust_files(Path::new("tests")).iter().filter(|path| !path.ends_with("house.rs")) {
        let text = std::fs::read_to_string(path).expect("text");
        for block in text.split("\nproptest! {\n").skip(1) {
            let first = block.lines().next().expect("a line").trim();
            let named = ["#![proptest_config(seeds::config(", "#![proptest_config(config())]"];
            assert!(named.iter().any(|start| first.starts_with(start)), "{}: {first}", path.display());
        }
    }
}

/// Every id that the code of an operation gives stands in its card or the common one, and every text of a card is used.
#[test]
fn every_word_of_a_card_is_used_and_every_id_has_words() {
    for (word, file) in Request::WORDS.iter().zip(Request::FILES) {
        let text = Request::built_in_card(word).expect("card");
        let mut code = String::new();
        let shared = rust_files(Path::new("src/operations"));
        let own = |path: &Path| file_of(path) == *file;
        let of_none = |path: &Path| !Request::FILES.contains(&file_of(path).as_str());
        for path in shared.iter().filter(|path| own(path) || of_none(path)) {
            code += &std::fs::read_to_string(path).expect("text");
        }
        let quoted = between_quotes(&code);
        let card = Card::read(text, 0).expect("card");
        let safety = std::fs::read_to_string("shared/materials.csv").expect("materials");
        let keys = card
            .steps
            .keys()
            .chain(card.checks.keys())
            .chain(card.reasons.keys())
            .chain(card.assumed.keys())
            .chain(card.missing.keys())
            .chain(card.remedies.keys())
            .chain(card.hold.keys())
            .chain(card.blanks.keys())
            .chain(card.set_ups.keys());
        for key in keys {
            assert!(quoted.contains(&**key), "{word}: nothing uses `{key}`");
        }
        for key in card.cautions.keys() {
            assert!(quoted.contains(&**key) || safety.contains(&**key), "{word}: nothing uses the caution `{key}`");
        }
    }
}

#[test]
fn files_stay_small() {
    let mut large = Vec::new();
    for path in rust_files(Path::new("src")) {
        let lines = std::fs::read_to_string(&path).expect("text").lines().count();
        if lines > 480 {
            large.push(format!("{} has {lines} lines", path.display()));
        }
    }
    assert!(large.is_empty(), "{large:#?}");
}

#[test]
fn paths_named_in_documents_exist() {
    for document in ["README.md", "DEVELOPERS.md"] {
        let text = std::fs::read_to_string(document).expect(document);
        for piece in text.split('`').skip(1).step_by(2) {
            let path = piece.trim_end_matches('/');
            let is_path = ["src/", "ops/", "tests/", "examples/", "demo/", "shared/", "docs/", ".ci/"]
                .iter()
                .any(|p| piece.starts_with(p));
            if is_path && !piece.contains(['*', ' ', '…', '<', '{']) && !piece.contains("NAME") {
                assert!(Path::new(path).exists(), "{document} names {piece}");
            }
        }
    }
}

#[test]
fn the_readme_quotes_the_counts_as_they_are() {
    let counts = std::fs::read_to_string("docs/published.md").expect("counts");
    let readme = std::fs::read_to_string("README.md").expect("readme");
    let lines: Vec<&str> =
        counts.lines().filter(|line| line.contains(" figures from ") && line.contains(" of them read")).collect();
    assert_eq!(lines.len(), 2, "{lines:?}");
    for line in lines {
        let numbers: Vec<&str> = line.split(|c: char| !c.is_ascii_digit()).filter(|n| !n.is_empty()).take(3).collect();
        assert!(readme.contains(&format!("| {} |", numbers.join(" | "))), "the README does not say {numbers:?}");
    }
}

/// Ways in which a text is taken apart, and where in `sheet/` one of them reads no figure out of it.
const TAKEN_APART: [&str; 12] = [
    "split_once(",
    "split(",
    "split_terminator(",
    "splitn(",
    "find(char",
    "find(\"",
    "find('",
    ".parse(",
    ".parse::",
    "strip_prefix(",
    "strip_suffix(",
    "replace(\"",
];
const READS_NO_FIGURE: [(&str, &str); 8] = [
    // Keys of a job, nested ones with dots.
    ("words.rs", "key.split_once('.')"),
    // The words before a target's figure, each a run of its own.
    ("figures.rs", "words::UP_TO.split(' ')"),
    // What somebody typed over several lines, as one.
    ("block.rs", "text.split(ends)"),
    // The sign of a figure under nought before its first digit, in a text that was written already.
    ("block.rs", "rest.as_bytes().get(1).is_some_and(u8::is_ascii_digit)"),
    // A feed step as it is written: without a tail of zeros.
    ("figures.rs", "four.trim_end_matches('0')"),
    // The sign of a dimension stands before the lines that are figures: of those that the sheet itself has written.
    ("laid.rs", "line.starts_with(|c: char| c.is_ascii_digit())"),
    // A line never breaks between a figure and its unit, whoever wrote them.
    ("lines.rs", "word.ends_with(|c: char| c.is_ascii_digit())"),
    ("lines.rs", "next.contains(|c: char| c.is_ascii_digit())"),
];

/// A figure is data until it is set: nothing in `sheet/` reads one out of a text again.
#[test]
fn no_figure_is_read_out_of_a_text() {
    let mut read = Vec::new();
    for path in rust_files(Path::new("src/sheet")) {
        let name = path.file_name().and_then(|name| name.to_str()).expect("a name");
        let text = std::fs::read_to_string(&path).expect("text");
        let code = text.split("#[cfg(test)]").next().unwrap_or_default();
        for line in code.lines().filter(|line| !line.trim_start().starts_with("//")) {
            let known = READS_NO_FIGURE.iter().any(|(file, part)| *file == name && line.contains(part));
            let apart = TAKEN_APART.iter().any(|way| line.contains(way) && !line.contains("Face::parse"));
            let digits = ["is_ascii_digit", "is_numeric", "trim_end_matches('", "trim_start_matches('"];
            if (apart || digits.iter().any(|way| line.contains(way))) && !known {
                read.push(format!("{}: {}", path.display(), line.trim()));
            }
        }
    }
    assert!(read.is_empty(), "{read:#?}");
}
