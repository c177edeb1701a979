//! The keys that a type reads, told from its schema: one source for the list of keys, for what is missing and for the questions.

use super::Problem;
use super::node::Node;
use schemars::JsonSchema;
use serde::de::DeserializeOwned;
use serde_json::Value;
use std::any::TypeId;
use std::collections::HashMap;
use std::sync::{Arc, LazyLock, Mutex, PoisonError};

/// The schema of a type.
#[derive(Clone, Debug)]
pub struct Keys(Arc<Value>);

/// One key of a map.
#[derive(Clone, Debug, Default, PartialEq, serde::Serialize)]
pub struct Key {
    /// The key as it is typed, nested ones after a dot (`housing.outside`).
    pub key: String,
    /// What it means; what is taken where it is left out, where the type says so.
    pub means: String,
    /// What leaving it out does, where that was worked out.
    pub left_out: String,
    /// Whether it must be given.
    pub required: bool,
    /// `measured`, `wanted` or `nominal`; empty where it is no size.
    pub asks: String,
    /// The unit that a size is held in.
    pub unit: String,
    /// The least that its figure can be, in words; empty where it is no figure.
    pub range: String,
    /// What may stand after it, in words.
    pub takes: String,
    /// One value that is read.
    pub example: String,
    /// The words that it takes, each with its meaning, where it takes words alone.
    pub words: Vec<(String, String)>,
    /// Whether it holds a list.
    pub list: bool,
    /// The keys under it.
    pub under: Vec<Key>,
    /// Whether it begins a thing of a list: it is typed behind a dash.
    #[serde(skip)]
    pub begins: bool,
}

impl Node {
    /// The same, with every key that is missing told in one run, each with its path and what it means.
    ///
    /// # Errors
    /// Every problem found, in the order of the text.
    pub fn read_known<T: DeserializeOwned + JsonSchema + 'static>(self) -> Result<T, Vec<Problem>> {
        if self.empty_keys().is_empty()
            && let Ok(value) = T::deserialize(&self)
        {
            return Ok(value);
        }
        let whole = self.clone();
        self.read().map_err(|problems| Keys::of::<T>().with_missing(problems, &whole))
    }
}

impl Key {
    /// The key without those above it.
    pub fn last(&self) -> &str {
        self.key.rsplit('.').next().unwrap_or(&self.key)
    }
}

/// A value as it is shown: of a range the word between its ends, which reads better than two points.
pub(super) fn in_words(typed: &str) -> String {
    typed.replace(" .. ", " to ")
}

/// Marks the schema of keys in the place of which the value of `in` may stand alone (`hold: vice`).
pub(super) const IN_A_WORD: &str = "x-in-a-word";

/// The schema of a type whose first key is `in`, with that value alone in its place.
pub(crate) fn in_a_word(schema: &mut schemars::Schema) {
    let whole = schema.ensure_object();
    let word = whole.get("properties").and_then(|all| all.get("in")).cloned().unwrap_or_default();
    let means = whole.remove("description").unwrap_or_default();
    let keys = std::mem::take(whole);
    whole.insert("description".into(), means);
    whole.insert(IN_A_WORD.into(), Value::Bool(true));
    whole.insert("anyOf".into(), Value::Array(vec![Value::Object(keys), word]));
}

/// A schema tells of itself no deeper than this: types may hold themselves.
const DEEPEST: usize = 6;

impl Keys {
    /// The keys of a type; its schema is made once in a run.
    pub fn of<T: JsonSchema + 'static>() -> Self {
        static MADE: LazyLock<Mutex<HashMap<TypeId, Arc<Value>>>> = LazyLock::new(Mutex::default);
        let mut made = MADE.lock().unwrap_or_else(PoisonError::into_inner);
        let schema = made.entry(TypeId::of::<T>()).or_insert_with(|| Arc::new(schemars::schema_for!(T).to_value()));
        Self(Arc::clone(schema))
    }

    /// The schema itself.
    pub fn schema(&self) -> &Value {
        &self.0
    }

    /// The keys of the type, or of one of its definitions by name.
    pub fn listed(&self, definition: Option<&str>) -> Vec<Key> {
        let at = match definition {
            None => Some(self.schema()),
            Some(name) => self.0.get("$defs").and_then(|all| all.get(name)),
        };
        at.map_or_else(Vec::new, |at| self.keys_at(at, "", DEEPEST))
    }

    /// Each key with the value that fits it in a place of its own (`book-bush.joint`), where the list has one.
    pub fn in_place(keys: &mut [Key], place: &str) {
        for key in keys {
            let path = format!("{place}.{}", key.key);
            if let Some(value) = listed().get(path.as_str()) {
                key.example = (*value).to_owned();
            }
        }
    }

    /// Each key with the value that an example gives it, where it gives one.
    pub fn by_example(keys: &mut [Key], example: &Node) {
        for key in keys {
            let name = key.last();
            let items = example.under(name);
            let one = items.and_then(|value| value.items().first()).or(items);
            let Some(one) = one else { continue };
            if let Some(typed) = one.typed() {
                key.example = in_words(&typed);
            }
            Self::by_example(&mut key.under, one);
        }
    }

    /// The keys under one of the choices of a definition, which is written under its word (`- face: {…}`).
    pub fn choice(&self, definition: &str, word: &str) -> Option<Vec<Key>> {
        let variants = self.0.pointer(&format!("/$defs/{definition}/oneOf"))?.as_array()?;
        let value = variants.iter().find_map(|variant| variant.get("properties")?.get(word))?;
        Some(self.keys_at(value, "", DEEPEST))
    }

    /// What must be given beside the required keys of a choice: one of several keys, or one of the part's, each as a key that is
    /// told and not typed.
    pub fn wanted(&self, definition: &str, word: &str) -> Vec<Key> {
        let variants = self.0.pointer(&format!("/$defs/{definition}/oneOf")).and_then(Value::as_array);
        let value = variants.and_then(|all| all.iter().find_map(|variant| variant.get("properties")?.get(word)));
        let map = value.and_then(|value| self.map_of(value));
        let Some(map) = map else { return Vec::new() };
        let told = |keys: Vec<&str>| {
            let named =
                |key: &&str| key.split_once('.').map_or((*key).into(), |(of, key)| format!("{key} of the {of}"));
            let why = self.why_wanted(map, &keys);
            let mut signs = why.chars();
            let first = signs.next().map(|c| c.to_uppercase().to_string()).unwrap_or_default();
            let key = keys.iter().map(named).collect::<Vec<_>>().join(" or ");
            Key { key, means: first + signs.as_str(), required: true, ..Key::default() }
        };
        wanted_of(map).into_iter().map(told).collect()
    }

    fn keys_at(&self, at: &Value, path: &str, deep: usize) -> Vec<Key> {
        let at = self.map_of(at);
        let Some(properties) = at.and_then(|at| at.get("properties")?.as_object()) else { return Vec::new() };
        let all = properties.iter().map(|(name, value)| {
            let key = if path.is_empty() { name.clone() } else { format!("{path}.{name}") };
            self.key(key, value, is_required(at, name), deep)
        });
        all.collect()
    }

    pub(super) fn key(&self, key: String, value: &Value, required: bool, deep: usize) -> Key {
        let means = text(value, "description").trim_end_matches('.').to_owned();
        let target = self.target(value);
        let items = target.get("items").map(|items| self.target(items));
        let held = items.unwrap_or(target);
        let find = |name: &str| {
            [value, target, held].iter().map(|at| text(at, name)).find(|t| !t.is_empty()).unwrap_or_default()
        };
        let words = self.words(held);
        let nested = deep > 0 && words.is_empty() && text(held, "x-asks").is_empty();
        let mut under = if nested { self.keys_under(held, &key, deep - 1) } else { Vec::new() };
        let is_choice = held.get("oneOf").is_some();
        for (at, one) in under.iter_mut().enumerate().filter(|_| items.is_some()) {
            one.begins = at == 0 || is_choice;
        }
        let of = |at: &Value| at.get("examples")?.get(0)?.as_str().map(str::to_owned);
        let example = fitting(&key).or_else(|| [value, target, held].into_iter().find_map(of));
        Key {
            required,
            left_out: String::new(),
            asks: find("x-asks").to_owned(),
            unit: find("x-unit").to_owned(),
            range: [value, target, held].into_iter().find_map(range_of).unwrap_or_default(),
            takes: Some(takes(held, &words, &under)).filter(|takes| *takes != means).unwrap_or_default(),
            example: example.or_else(|| Some(words.first()?.0.clone())).unwrap_or_default(),
            list: items.is_some(),
            means,
            words,
            under,
            begins: false,
            key,
        }
    }

    /// The keys of a map, or the words that it is written under (`lathe: {…}`), each with its own.
    fn keys_under(&self, at: &Value, path: &str, deep: usize) -> Vec<Key> {
        let own = self.keys_at(at, path, deep);
        let choices = at.get("oneOf").and_then(Value::as_array).into_iter().flatten();
        let worded = choices.filter_map(|one| {
            let (word, value) = one.get("properties")?.as_object()?.iter().next()?;
            let mut key = self.key(format!("{path}.{word}"), value, false, deep);
            key.means = text(one, "description").trim_end_matches('.').to_owned();
            Some(key)
        });
        own.into_iter().chain(worded).collect()
    }

    /// Past references and past `null`.
    pub(super) fn target<'a>(&'a self, at: &'a Value) -> &'a Value {
        let referred = at.get("$ref").and_then(Value::as_str).and_then(|name| self.0.pointer(name.strip_prefix('#')?));
        if let Some(referred) = referred {
            return self.target(referred);
        }
        let Some(either) = at.get("anyOf").and_then(Value::as_array) else { return at };
        let mut real = either.iter().filter(|one| text(one, "type") != "null");
        match (real.next(), real.next()) {
            (Some(only), None) => self.target(only),
            _ => at,
        }
    }

    /// The map that stands at a place of the schema, also where a text may stand in its place.
    pub(super) fn map_of<'a>(&'a self, at: &'a Value) -> Option<&'a Value> {
        let at = self.target(at);
        if at.get("properties").is_some() {
            return Some(at);
        }
        let either = at.get("anyOf").and_then(Value::as_array)?;
        either.iter().map(|one| self.target(one)).find(|one| one.get("properties").is_some())
    }

    fn words(&self, at: &Value) -> Vec<(String, String)> {
        let of_list = at.get("enum").and_then(Value::as_array).into_iter().flatten();
        let listed = of_list.filter_map(|word| Some((word.as_str()?.to_owned(), String::new())));
        let told = at.get("oneOf").and_then(Value::as_array).into_iter().flatten().filter_map(|one| {
            let means = text(one, "description").trim_end_matches('.').to_owned();
            Some((one.get("const")?.as_str()?.to_owned(), means))
        });
        listed.chain(told).collect()
    }
}

/// The keys of which one must be given beside the required ones, as the type says them.
pub(super) fn wanted_of(map: &Value) -> Vec<Vec<&str>> {
    let all = map.get("x-wants").and_then(Value::as_array).into_iter().flatten();
    all.map(|keys| keys.as_array().into_iter().flatten().filter_map(Value::as_str).collect()).collect()
}

pub(super) fn is_required(map: Option<&Value>, name: &str) -> bool {
    let required = map.and_then(|map| map.get("required")?.as_array());
    required.is_some_and(|all| all.iter().any(|one| one.as_str() == Some(name)))
}

pub(super) fn text<'a>(at: &'a Value, name: &str) -> &'a str {
    at.get(name).and_then(Value::as_str).unwrap_or_default()
}

/// The least that a figure can be.
fn range_of(at: &Value) -> Option<String> {
    let least = at.get("x-least").or_else(|| at.get("minimum"))?.as_f64()?;
    let unit = text(at, "x-unit");
    Some(match least {
        // So small is nothing that is measured: a figure of either sign.
        _ if least < -1e6 => "of either sign".to_owned(),
        _ if least.abs() > 0.0 && !unit.is_empty() => format!("{least} {unit} or more"),
        _ => format!("{least} or more"),
    })
}

/// What may stand after a key.
fn takes(at: &Value, words: &[(String, String)], under: &[Key]) -> String {
    if !words.is_empty() {
        return words.iter().map(|(word, _)| word.as_str()).collect::<Vec<_>>().join(", ");
    }
    if !under.is_empty() {
        return String::new();
    }
    let kinds: Vec<&str> = match at.get("type") {
        Some(Value::String(kind)) => vec![kind],
        Some(Value::Array(all)) => all.iter().filter_map(Value::as_str).collect(),
        _ => Vec::new(),
    };
    match (text(at, "description"), kinds.as_slice()) {
        (said, _) if !said.is_empty() && !text(at, "x-asks").is_empty() => said.to_owned(),
        (_, kinds) if kinds.contains(&"boolean") => "true, false".into(),
        (_, kinds) if kinds.contains(&"integer") => "a whole number".into(),
        (_, kinds) if kinds.contains(&"number") && !kinds.contains(&"string") => "a number".into(),
        (said, _) if !said.is_empty() => said.trim_end_matches('.').to_owned(),
        _ => "a text".into(),
    }
}

/// The list of values that fit keys.
fn listed() -> &'static HashMap<&'static str, &'static str> {
    static LISTED: LazyLock<HashMap<&str, &str>> = LazyLock::new(|| {
        let lines = include_str!("key-examples.txt").lines().filter(|line| !line.starts_with('#'));
        lines.filter_map(|line| line.split_once(": ")).map(|(of, value)| (of, value.trim_matches('"'))).collect()
    });
    &LISTED
}

/// A value that fits a key, by the longest ending of its path that the list has.
fn fitting(key: &str) -> Option<String> {
    let behind_dots = key.match_indices('.').filter_map(|(at, _)| key.get(at + 1..));
    std::iter::once(key).chain(behind_dots).find_map(|end| listed().get(end)).map(|value| (*value).to_owned())
}
