//! Every key that must be given and is not, each with its path, in one run: whatever else is wrong in the text.

use super::keys::{IN_A_WORD, Key, Keys, in_words, is_required, text, wanted_of};
use super::node::{Kind, Node};
use super::problem::{Lacks, Problem};
use crate::in_order::InOrder;
use crate::proof::Place;
use serde_json::Value;

/// What is missing is looked for no deeper than this in what is not there at all: types may hold themselves.
const DEEPEST: usize = 6;

/// Between keys of which one must be given.
const OR: &str = " or ";
/// Before a key of the part that an operation stands in.
const OF_PART: &str = "part.";
/// What is said of the one key of a part that operations cannot do without.
const METAL: &str = "the metal that is worked, as in `material: cast aluminium`";

/// A text with a small letter at its beginning.
fn begun_small(text: &str) -> String {
    let mut signs = text.chars();
    let first = signs.next().map(|c| c.to_lowercase().to_string()).unwrap_or_default();
    first + signs.as_str()
}

/// Where in the tree it is looked for.
#[derive(Clone, Copy, Default)]
struct At<'a> {
    /// The word of the operation, whose keys the path begins with.
    word: &'a str,
    /// The keys that lead there.
    path: &'a str,
    /// The part that it stands in.
    part: Option<&'a Node>,
}

impl Keys {
    /// What a reader found wrong, with every key that is missing beside it.
    pub(super) fn with_missing(&self, mut problems: Vec<Problem>, node: &Node) -> Vec<Problem> {
        let missing = self.missing(node);
        if !missing.is_empty() {
            let empty = node.empty_keys();
            let told = |place: Option<Place>| missing.iter().any(|one| !one.missing && one.place == place);
            problems.retain(|problem| !(problem.missing || empty.contains(problem) && told(problem.place)));
            problems.extend(missing);
            problems.order_by_key(|problem| problem.place);
        }
        problems
    }

    /// Every key that must be given and is not, in the order of the text, each with its path.
    pub(super) fn missing(&self, node: &Node) -> Vec<Problem> {
        let mut found = Vec::new();
        self.find_missing(self.schema(), node, At::default(), &mut found);
        found
    }

    /// The same of a place.
    fn find_missing<'a>(&'a self, schema: &'a Value, node: &'a Node, at: At<'_>, found: &mut Vec<Problem>) {
        let schema = self.target(schema);
        match &node.kind {
            Kind::List(items) => {
                let Some(schema) = schema.get("items") else { return };
                items.iter().for_each(|item| self.find_missing(schema, item, at, found));
            }
            Kind::Map(entries) => {
                // `- face: {…}`: the paths of an operation begin with its own keys.
                if let Some((word, inner)) = variant(schema, entries) {
                    let within = At { word, path: "", part: at.part };
                    entries.iter().for_each(|entry| self.missing_behind(entry, inner, within, found));
                    return;
                }
                let Some(map) = self.map_of(schema) else { return };
                self.missing_under(map, Some(node), node.place, at, found);
            }
            // One value stands where keys are wanted: those that must be given.
            Kind::Text(_) | Kind::Number(..) if !at.path.is_empty() => {
                let keys = self.required_under(schema, at.path, DEEPEST);
                // What a part is held in is told with the value that stands there.
                let told = |key: &&Key| key.last() != "in";
                found.extend(keys.iter().filter(told).map(|key| lacking(node.place, at.word, key)));
            }
            _ => {}
        }
    }

    /// What is missing behind a key, or behind the word of an operation: all that must be given where nothing stands there.
    fn missing_behind<'a>(&'a self, entry: &'a (Node, Node), schema: &'a Value, at: At<'_>, found: &mut Vec<Problem>) {
        let (key, value) = entry;
        if !matches!(value.kind, Kind::Null) {
            return self.find_missing(schema, value, at, found);
        }
        let (Some(map), Kind::Text(name)) = (self.map_of(schema), &key.kind) else { return };
        let mut missing = Vec::new();
        self.missing_under(map, None, key.place, at, &mut missing);
        if !missing.is_empty() {
            let says = format!("nothing stands under `{name}`: its keys belong below it, further in than it stands");
            found.push(Problem::new(key.place, says));
            found.append(&mut missing);
        }
    }

    /// Keys that are missing of a map, of which nothing may be there.
    fn missing_under<'a>(
        &'a self,
        map: &'a Value,
        node: Option<&'a Node>,
        place: Place,
        at: At<'a>,
        found: &mut Vec<Problem>,
    ) {
        let Some(properties) = map.get("properties").and_then(Value::as_object) else { return };
        let joined = |name: &str| if at.path.is_empty() { name.to_owned() } else { format!("{}.{name}", at.path) };
        let part = if properties.contains_key("operations") { node.or(at.part) } else { at.part };
        for (name, schema) in properties {
            match node.and_then(|node| node.entry(name)) {
                Some(entry) => {
                    let within = if entry.1.items().is_empty() { joined(name) } else { String::new() };
                    let word = if within.is_empty() { "" } else { at.word };
                    self.missing_behind(entry, schema, At { word, path: &within, part }, found);
                }
                None if is_required(Some(map), name) => {
                    let path = joined(name);
                    let under = self.required_under(schema, &path, DEEPEST);
                    let own = || vec![self.key(path.clone(), schema, true, 0)];
                    let keys = if under.is_empty() { own() } else { under };
                    found.extend(keys.iter().map(|key| lacking(place, at.word, key)));
                }
                None => {}
            }
        }
        for keys in wanted_of(map) {
            let is_given = |key: &str| match key.strip_prefix(OF_PART) {
                Some(key) => part.is_some_and(|part| part.under(key).is_some()),
                None => node.is_some_and(|node| key.split('.').try_fold(node, |at, name| at.under(name)).is_some()),
            };
            if keys.iter().any(|key| is_given(key)) {
                continue;
            }
            let named = |key: &&str| match key.strip_prefix(OF_PART) {
                Some(key) => format!("`{key}` of the part"),
                None => format!("`{}`", joined(key)),
            };
            let is_of_part = keys.first().is_some_and(|key| key.starts_with(OF_PART));
            let place = part.filter(|_| is_of_part).map_or(place, Node::place);
            let what = match keys.as_slice() {
                [key, other] if other.strip_prefix(OF_PART) == Some(*key) => {
                    format!("`{key}` is missing, here or on the part")
                }
                keys => format!("{} is missing", keys.iter().map(named).collect::<Vec<_>>().join(OR)),
            };
            let says = format!("{what} ({})", self.why_wanted(map, &keys));
            let problem = Problem { missing: true, ..Problem::new(place, says) };
            if !found.contains(&problem) {
                found.push(problem);
            }
        }
    }

    /// What keys mean of which one must be given.
    pub(super) fn why_wanted(&self, map: &Value, keys: &[&str]) -> String {
        let of = |key: &&str| {
            let schema = map.get("properties")?.get(*key)?;
            let key = self.key((*key).to_owned(), schema, true, 0);
            Some(begun_small(key.means.split("; left out").next().unwrap_or_default()))
        };
        let own: Vec<String> = keys.iter().filter_map(of).collect();
        if keys.iter().any(|key| key.starts_with(OF_PART)) || own.is_empty() {
            METAL.to_owned()
        } else {
            own.join(", or ")
        }
    }

    /// The keys that must be given under one that is not there; none where it has none of its own.
    fn required_under(&self, schema: &Value, path: &str, deep: usize) -> Vec<Key> {
        let Some(map) = self.map_of(schema).filter(|_| deep > 0) else { return Vec::new() };
        // A text may stand in the place of the map (`{of: …}` in that of a size): it is one value.
        let at = self.target(schema);
        if !text(at, "x-asks").is_empty() || at.get("anyOf").is_some() && at.get(IN_A_WORD).is_none() {
            return Vec::new();
        }
        let properties = map.get("properties").and_then(Value::as_object).into_iter().flatten();
        let required = properties.filter(|(name, _)| is_required(Some(map), name));
        let keys = required.flat_map(|(name, schema)| {
            let path = format!("{path}.{name}");
            let under = self.required_under(schema, &path, deep - 1);
            if under.is_empty() { vec![self.key(path, schema, true, 0)] } else { under }
        });
        keys.collect()
    }
}

/// A key that is missing, of an operation where its word is known.
fn lacking(place: Place, word: &str, key: &Key) -> Problem {
    let lacks = || Lacks { word: word.to_owned(), key: key.key.clone(), as_in: as_in(&key.key, &key.example) };
    let lacks = (!word.is_empty()).then(|| Box::new(lacks()));
    Problem { lacks, ..Problem::missing(place, &key.key, &told(key)) }
}

/// A problem with the value that the example of its operation has, in the place of one that only fits; `example` gives it by the
/// operation's word and the path of the key.
pub fn by_example(problem: Problem, example: impl Fn(&str, &str) -> Option<String>) -> Problem {
    let Some(lacks) = problem.lacks.as_deref() else { return problem };
    let Some(typed) = example(&lacks.word, &lacks.key) else { return problem };
    let says = problem.says.replace(&lacks.as_in, &as_in(&lacks.key, &in_words(&typed)));
    Problem { says, ..problem }
}

/// One value that a key takes, as it is told.
fn as_in(key: &str, example: &str) -> String {
    format!("as in `{}: {example}`", key.rsplit('.').next().unwrap_or(key))
}

/// What is said of a key that is missing: what it means and one value that is read.
fn told(key: &Key) -> String {
    let means = begun_small(&key.means);
    let example = as_in(&key.key, &key.example);
    match (means.is_empty(), key.example.is_empty()) {
        (true, true) => String::new(),
        (false, true) => format!(" ({means})"),
        (true, false) => format!(" ({example})"),
        (false, false) => format!(" ({means}; {example})"),
    }
}

/// The variant of a choice that a map with one word is, with the word.
fn variant<'a>(at: &'a Value, entries: &'a [(Node, Node)]) -> Option<(&'a str, &'a Value)> {
    let [(word, _)] = entries else { return None };
    let Kind::Text(word) = &word.kind else { return None };
    let find = |one: &'a Value| one.get("properties")?.get(word.as_str());
    Some((word.as_str(), at.get("oneOf").and_then(Value::as_array)?.iter().find_map(find)?))
}
