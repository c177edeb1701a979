//! No two files of `src/` need each other, over however many between them: what stands in a circle can only be read at once.
//!
//! A file needs another where it names an item of it: `use`, or a path in a body. An item that a folder's `mod.rs` passes on is
//! needed of the file that has it. That a file stands under its folder's `mod.rs`, which leads into it, is no circle.

use std::collections::{BTreeMap, BTreeSet, HashSet};
use std::path::Path;

/// A file as its path of modules: `["operations", "kit"]`.
type Module = Vec<String>;

struct House {
    /// The code of each file, without comments and tests.
    code: BTreeMap<Module, String>,
    /// The words of each file.
    words: BTreeMap<Module, HashSet<String>>,
    /// What each file imports: whether it passes it on, and the path.
    uses: BTreeMap<Module, Vec<(bool, Vec<String>)>>,
}

impl House {
    fn read(source: &Path) -> Self {
        let mut code = BTreeMap::new();
        for path in super::rust_files(source) {
            let text = std::fs::read_to_string(&path).expect("text");
            let inside = path.strip_prefix(source).expect("inside").with_extension("");
            let mut module: Module = inside.iter().map(|part| part.to_string_lossy().into_owned()).collect();
            if module.last().is_some_and(|last| last == "mod" || last == "lib") {
                module.pop();
            }
            if module != ["main"] {
                code.insert(module, bare(&text));
            }
        }
        Self::of(code)
    }

    fn of(code: BTreeMap<Module, String>) -> Self {
        let uses = code.iter().map(|(module, text)| (module.clone(), imports(text))).collect();
        let all = |text: &String| words(text).map(str::to_owned).collect();
        let words = code.iter().map(|(module, text)| (module.clone(), all(text))).collect();
        Self { code, words, uses }
    }

    /// The file that a path leads to, as a file names it; none where it leads out of the house.
    fn leads_to(&self, from: &Module, path: &[String], depth: usize) -> Option<Module> {
        let (mut at, mut rest) = match path.first()?.as_str() {
            "crate" => (Vec::new(), &path[1..]),
            "super" | "self" => (from.clone(), path),
            child if self.code.contains_key(&under(from, child)) => (from.clone(), path),
            _ => return None,
        };
        while let Some(step) = rest.first().filter(|step| matches!(step.as_str(), "super" | "self")) {
            if step == "super" {
                at.pop();
            }
            rest = &rest[1..];
        }
        while let Some(child) = rest.first().map(|step| under(&at, step)).filter(|child| self.code.contains_key(child))
        {
            at = child;
            rest = &rest[1..];
        }
        // What is passed on stands elsewhere.
        let Some(item) = rest.first().filter(|_| depth < 8) else { return Some(at) };
        let passed_on = self.uses.get(&at).into_iter().flatten().filter(|(passes, _)| *passes);
        for (_, path) in passed_on {
            let names = path.last().is_some_and(|last| last == item);
            let all = path.last().is_some_and(|last| last == "*");
            let Some(holder) = self.leads_to(&at, &path[..path.len() - usize::from(all)], depth + 1) else { continue };
            if names || (all && holder != at && self.words[&holder].contains(item)) {
                return Some(holder);
            }
        }
        Some(at)
    }

    /// The files that each file needs, but those that it stands under.
    fn needs(&self) -> BTreeMap<&Module, BTreeSet<Module>> {
        let of = |module: &Module| -> BTreeSet<Module> {
            let paths = self.uses[module].iter().map(|(_, path)| path.clone()).chain(paths(&self.code[module]));
            let files = paths.filter_map(|path| self.leads_to(module, &path, 0));
            files.filter(|file| !module.starts_with(file)).collect()
        };
        self.code.keys().map(|module| (module, of(module))).collect()
    }
}

fn under(module: &Module, child: &str) -> Module {
    module.iter().cloned().chain([child.to_owned()]).collect()
}

/// Code without comments and without the tests at its foot.
fn bare(text: &str) -> String {
    let tests = text.match_indices("#[cfg(test)]\nmod ").map(|(at, _)| at);
    let inline = tests.filter(|at| text[*at..].lines().nth(1).is_some_and(|line| line.ends_with('{'))).min();
    let line = |line: &str| line.split("//").next().unwrap_or_default().to_owned() + "\n";
    text[..inline.unwrap_or(text.len())].lines().map(line).collect()
}

fn words(text: &str) -> impl Iterator<Item = &str> {
    text.split(|c: char| !(c.is_alphanumeric() || c == '_')).filter(|word| !word.is_empty())
}

/// Every path that a text imports, groups opened, and whether it is passed on (`pub use`).
fn imports(text: &str) -> Vec<(bool, Vec<String>)> {
    let mut all = Vec::new();
    for (at, _) in text.match_indices("use ") {
        let before = text[..at].rsplit('\n').next().unwrap_or_default().trim();
        if !(before.is_empty() || before.starts_with("pub")) {
            continue;
        }
        let tree = text[at + 4..].split(';').next().unwrap_or_default();
        opened(&tree.split_whitespace().collect::<Vec<_>>().join(" "), &mut |path| {
            all.push((before.starts_with("pub"), path));
        });
    }
    all
}

/// Opens `a::{b, c::{d}}` into its paths.
fn opened(tree: &str, see: &mut dyn FnMut(Vec<String>)) {
    let Some((before, group)) = tree.split_once('{') else {
        let path = tree.split(" as ").next().unwrap_or_default();
        return see(path.split("::").map(|step| step.trim().to_owned()).filter(|step| !step.is_empty()).collect());
    };
    let (mut depth, mut piece) = (0, String::new());
    for c in group.chars() {
        match c {
            '{' => depth += 1,
            '}' if depth == 0 => break,
            '}' => depth -= 1,
            ',' if depth == 0 => {
                opened(&format!("{before}{piece}"), see);
                piece.clear();
                continue;
            }
            _ => {}
        }
        piece.push(c);
    }
    if !piece.trim().is_empty() {
        opened(&format!("{before}{piece}"), see);
    }
}

/// Every path of a body: words that `::` joins.
fn paths(text: &str) -> impl Iterator<Item = Vec<String>> {
    let pieces = text.split(|c: char| !(c.is_alphanumeric() || c == '_' || c == ':'));
    let path =
        |piece: &str| -> Vec<String> { piece.split("::").map(|step| step.trim_matches(':').to_owned()).collect() };
    let all: Vec<_> = pieces.map(path).filter(|path| path.len() > 1 && !path[0].is_empty()).collect();
    all.into_iter()
}

/// The circles of a house, each by its members, in order.
fn circles(house: &House) -> Vec<Vec<String>> {
    let needs = house.needs();
    let reached = |from: &Module| {
        let (mut seen, mut open) = (BTreeSet::new(), vec![from.clone()]);
        while let Some(at) = open.pop() {
            for next in needs.get(&at).into_iter().flatten() {
                if seen.insert(next.clone()) {
                    open.push(next.clone());
                }
            }
        }
        seen
    };
    let reach: BTreeMap<&Module, BTreeSet<Module>> = needs.keys().map(|module| (*module, reached(module))).collect();
    let in_circle = reach.iter().filter(|(module, reached)| reached.contains(**module));
    let members = in_circle.map(|(module, reached)| {
        let both = reached.iter().filter(|other| reach.get(other).is_some_and(|back| back.contains(*module)));
        both.map(|other| other.join("::")).collect::<Vec<_>>()
    });
    members.collect::<BTreeSet<_>>().into_iter().collect()
}

#[test]
fn no_circle_stands_between_the_files_of_a_room() {
    assert_eq!(circles(&House::read(Path::new("src"))), Vec::<Vec<String>>::new());
}

#[test]
fn nothing_is_imported_from_above_in_a_lump() {
    let house = House::read(Path::new("src/operations"));
    let lumps =
        house.uses.iter().filter(|(_, uses)| uses.iter().any(|(_, path)| path.join("::").ends_with("super::*")));
    let lumps: Vec<String> = lumps.map(|(module, _)| module.join("::")).collect();
    assert!(lumps.is_empty(), "{lumps:?}");
}

/// The search itself finds a circle of three over a name that is passed on, in a group and in a body.
#[test]
fn a_circle_is_found() {
    let file = |path: &str, text: &str| (path.split("::").map(str::to_owned).collect::<Module>(), bare(text));
    let code: BTreeMap<Module, String> = [
        (Vec::new(), String::new()),
        file("room", "mod a; mod b; mod c;\npub(super) use b::Thing;\n"),
        file("room::a", "use super::{Thing, other::{X}};\n"),
        file("room::b", "pub struct Thing;\nfn f() { super::c::g() }\n"),
        file("room::c", "use crate::room::a;\npub fn g() {} // super::b\n"),
    ]
    .into();
    assert_eq!(circles(&House::of(code)), [["room::a", "room::b", "room::c"]]);
}
