//! `setover keys WHAT`, `setover operations`, `setover schema WHAT`: what can be typed, from the types that read it.

use super::in_inches::{in_inches, turned};
use super::{Format, Stop, Units, json_text, left_out, page, print};
use crate::files::read_text;
use crate::handbook::remedies;
use crate::job::JobFile;
use crate::lookup::figures_in;
use crate::operations::{Card, HeldIn, Request};
use crate::proof::Place;
use crate::quantity::Print;
use crate::reading::{ARGUMENT, Key, Keys, Node, Problem, Text, near};
use crate::sheet::terminal;
use crate::sheet::words::keys as words;
use crate::shop::Shop;
use std::path::Path;
use std::process::ExitCode;

#[derive(clap::Args)]
pub(super) struct KeysArguments {
    /// An operation, `job`, `part` or `shop`, or what stands under one, as in `lathe`; left out, what there is.
    #[arg(value_name = "WHAT")]
    what: Option<String>,
    /// The units of the examples; left out, those of `shop.yaml` in this folder, else metric.
    #[arg(long, value_enum, value_name = "UNITS")]
    units: Option<Units>,
    /// What is printed.
    #[arg(long, value_enum, default_value = "text")]
    format: Format,
}

#[derive(clap::Args)]
pub(super) struct OperationsArguments {
    /// What is printed.
    #[arg(long, value_enum, default_value = "text")]
    format: Format,
}

/// What a schema tells.
#[derive(Clone, Copy, clap::ValueEnum)]
enum Whose {
    /// A job file.
    Job,
    /// A shop file.
    Shop,
}

#[derive(clap::Args)]
pub(super) struct SchemaArguments {
    /// Of which file.
    #[arg(value_enum, value_name = "FILE")]
    of: Whose,
}

pub(super) fn run(arguments: &KeysArguments) -> Result<ExitCode, Stop> {
    let Some(what) = arguments.what.as_deref() else {
        return printed(arguments.format, words::WHAT, &everything()?);
    };
    let (title, mut keys) = found(what)?;
    let (part, own) = example(what);
    Keys::by_example(&mut keys, &own);
    if arguments.units.map_or_else(|| works_in_inches(Path::new("shop.yaml")), |units| units == Units::Inch) {
        in_inches(&mut keys);
    }
    let mut logged = Vec::new();
    if Request::WORDS.contains(&what) {
        logged = left_out::loggable(what, part.clone(), own.clone());
        left_out::told(what, part, own, &mut keys);
    }
    match arguments.format {
        Format::Text => {
            keys.extend(Keys::of::<JobFile<Request>>().wanted("Request", what));
            page(&terminal::keys(&title, &keys))?;
            if Request::WORDS.contains(&what) {
                logged.push(("done=yes".to_owned(), words::DONE.to_owned()));
                page(&format!("\n{}", terminal::listed(words::LOGGED, &logged)))?;
            }
            if what == INSPECT {
                page(&format!("\n{}", terminal::listed(words::USUAL, &usual_remedies())))?;
            }
        }
        Format::Json => print(&json_text(&keys)?)?,
    }
    Ok(ExitCode::SUCCESS)
}

pub(super) fn operations(arguments: &OperationsArguments) -> Result<ExitCode, Stop> {
    printed(arguments.format, words::OPERATIONS, &all_operations()?)
}

pub(super) fn schema(arguments: &SchemaArguments) -> Result<ExitCode, Stop> {
    let keys = match arguments.of {
        Whose::Job => Keys::of::<JobFile<Request>>(),
        Whose::Shop => Keys::of::<Shop>(),
    };
    let mut schema = keys.schema().clone();
    figures_in_all(&mut schema);
    other_names(&mut schema);
    print(&json_text(&schema)?)?;
    Ok(ExitCode::SUCCESS)
}

/// Puts the other names of holds beside those that are told.
fn other_names(schema: &mut serde_json::Value) {
    if let Some(serde_json::Value::Array(all)) = schema.pointer_mut("/$defs/HeldIn/oneOf") {
        all.extend(HeldIn::OTHER_NAMES.map(|name| serde_json::json!({ "const": name })));
    }
}

/// The keys of what was found on a part.
const INSPECT: &str = "inspect";

/// The words that are looked for in the name of a feature, each with what is usual.
fn usual_remedies() -> Vec<(String, String)> {
    let mut all: Vec<(String, String)> = Vec::new();
    for row in remedies::all() {
        match all.iter_mut().find(|(feature, _)| *feature == row.feature) {
            Some((_, known)) => *known += &format!(", {}", row.remedy),
            None => all.push((row.feature.clone(), row.remedy.clone())),
        }
    }
    all
}

fn printed(format: Format, title: &str, all: &[(String, String)]) -> Result<ExitCode, Stop> {
    match format {
        Format::Text => page(&terminal::listed(title, all))?,
        Format::Json => print(&json_text(&all)?)?,
    }
    Ok(ExitCode::SUCCESS)
}

/// Every operation with what it does.
fn all_operations() -> Result<Vec<(String, String)>, Stop> {
    Request::WORDS.iter().map(|word| Ok(((*word).to_owned(), card(word)?.does.into_owned()))).collect()
}

fn everything() -> Result<Vec<(String, String)>, Stop> {
    let frame = [("job", words::JOB), ("part", words::PART), ("shop", words::SHOP)];
    let frame = frame.map(|(word, means)| (word.to_owned(), means.to_owned()));
    Ok(frame.into_iter().chain(all_operations()?).collect())
}

fn card(word: &str) -> Result<Card, Stop> {
    let text = Request::built_in_card(word).unwrap_or_default();
    Card::read(text, 0)
        .map_err(|all| Stop::Input(all, vec![Text { name: format!("ops/{word}.yaml"), text: text.into() }]))
}

/// Whether a shop file says that its shop works in inches; one that is not there, or cannot be read, says nothing.
pub(super) fn works_in_inches(shop: &Path) -> bool {
    let Ok(text) = read_text(shop) else { return false };
    let node = Node::yaml(&text, Place::start(0));
    let units = node.ok().and_then(|node| node.under("units").cloned()?.read::<Print>().ok());
    units == Some(Print::Imperial)
}

/// An operation's card and its keys.
pub(super) fn of_operation(word: &str) -> Result<(Card, Vec<Key>), Stop> {
    if !Request::WORDS.contains(&word) {
        return Err(Stop::Arguments(no_operation(word)));
    }
    let mut keys = found(word)?.1;
    Keys::by_example(&mut keys, &example(word).1);
    Ok((card(word)?, keys))
}

/// The keys of what is named, under what it does.
fn found(what: &str) -> Result<(String, Vec<Key>), Stop> {
    let (title, mut keys) = of_types(what).or_else(|stop| under_key(what).ok_or(stop))?;
    keys.iter_mut().for_each(with_figures);
    Ok((title, keys))
}

/// Puts figures of the book for their names in what a key and those under it mean.
fn with_figures(key: &mut Key) {
    key.means = figures_in(&key.means);
    key.under.iter_mut().for_each(with_figures);
}

/// The same in every text of a schema.
fn figures_in_all(schema: &mut serde_json::Value) {
    match schema {
        serde_json::Value::String(text) => *text = figures_in(text),
        serde_json::Value::Array(all) => all.iter_mut().for_each(figures_in_all),
        serde_json::Value::Object(all) => all.values_mut().for_each(figures_in_all),
        _ => {}
    }
}

/// The keys that stand under a key: of `thread-insert.hold`, or of `lathe` in the shop and `inspect` in a part. A key that many
/// operations have is asked with one of them.
fn under_key(what: &str) -> Option<(String, Vec<Key>)> {
    const FRAMES: [&str; 3] = ["shop", "part", "job"];
    let (frame, path) = match what.split_once('.') {
        Some((frame, path)) if FRAMES.contains(&frame) || Request::WORDS.contains(&frame) => (vec![frame], path),
        // `lathe.dials` is a path within one of them.
        _ => (FRAMES.to_vec(), what),
    };
    frame.into_iter().find_map(|of| {
        let (_, all) = of_types(of).ok()?;
        let key = find(&all, path, what.contains('.'))?;
        Some((words::part_of(of, key), key.under.clone()))
    })
}

/// The key of that path which has keys under it; else, of a name alone, the first of that name wherever it stands.
fn find<'a>(all: &'a [Key], path: &str, is_path: bool) -> Option<&'a Key> {
    let ends = |key: &Key| key.key.strip_suffix(path).is_some_and(|before| before.is_empty() || before.ends_with('.'));
    let is = |key: &Key| if is_path { ends(key) } else { key.last() == path };
    let own = all.iter().find(|key| !key.under.is_empty() && is(key));
    own.or_else(|| all.iter().find_map(|key| find(&key.under, path, is_path)))
}

fn of_types(what: &str) -> Result<(String, Vec<Key>), Stop> {
    let job = Keys::of::<JobFile<Request>>();
    // What has a page of its own is named, and its keys stand there.
    let beside = |title: &str, keys: Vec<Key>, apart: &str| {
        let short = |key: Key| if key.key == apart { Key { under: Vec::new(), ..key } } else { key };
        (title.to_owned(), keys.into_iter().map(short).collect())
    };
    match what {
        "job" => Ok(beside(words::JOB, job.listed(None), "parts")),
        "part" => Ok(beside(words::PART, job.listed(Some("Part")), "operations")),
        "shop" => Ok((words::SHOP.to_owned(), Keys::of::<Shop>().listed(None))),
        word => match job.choice("Request", word) {
            Some(keys) => Ok((format!("{word}: {}", card(word)?.does), keys)),
            None => Err(unknown(word)),
        },
    }
}

/// The part of an example that shows the keys of what is named, behind the part of the job that it belongs to; the examples are
/// held by the tests.
fn example(what: &str) -> (Node, Node) {
    let nothing = || Node::map(Place::start(0));
    let first = Request::WORDS.first().copied().unwrap_or_default();
    let job = Request::example(what).or_else(|| Request::example(first)).unwrap_or_default();
    let text = if what == "shop" { include_str!("../../examples/shop.yaml") } else { job };
    let Ok(node) = Node::yaml(text, Place::start(0)) else { return (nothing(), nothing()) };
    let part = node.under("parts").and_then(|parts| parts.items().first());
    let operation = part.and_then(|part| part.under("operations")).and_then(|all| all.items().first());
    let found = match what {
        "job" | "shop" => Some(&node),
        "part" => part,
        word => operation.and_then(|operation| operation.under(word)),
    };
    (part.cloned().unwrap_or_else(nothing), found.cloned().unwrap_or_else(nothing))
}

/// The value that the example of an operation has under a key, in the units of print.
pub(super) fn example_of(word: &str, key: &str, print: Print) -> Option<String> {
    let (_, whole) = example(word);
    let typed = key.split('.').try_fold(&whole, |node, name| node.under(name))?.typed()?;
    Some(if print == Print::Imperial { turned(&typed) } else { typed })
}

/// What is said of a word that is no operation.
pub(super) fn no_operation(word: &str) -> String {
    let near = near(word, Request::WORDS.iter().copied());
    format!("there is no operation `{word}`; {near}; `setover operations` lists them")
}

fn unknown(word: &str) -> Stop {
    let known = ["job", "part", "shop"].into_iter().chain(Request::WORDS.iter().copied());
    let length = u32::try_from(word.chars().count()).unwrap_or(1).max(1);
    let has = |of: &&&str| of_types(of).is_ok_and(|(_, all)| find(&all, word, false).is_some());
    let says = match Request::WORDS.iter().find(has).filter(|_| !word.contains('.')) {
        Some(of) => format!("`{word}` stands among the keys of operations: `setover keys {of}.{word}`, or of another"),
        None => format!("there are no keys of `{word}`; {}; `setover keys` names what there is", near(word, known)),
    };
    let problem = Problem::new(Place { length, ..Place::start(0) }, says);
    Stop::Input(vec![problem], vec![Text { name: ARGUMENT.into(), text: word.into() }])
}
