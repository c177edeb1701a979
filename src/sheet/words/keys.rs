//! Words round the list of keys.

use crate::reading::Key;

/// Over what must be given.
pub(crate) const MUST: &str = "Must be given";
/// Over what may be left out.
pub(crate) const MAY: &str = "May be left out";
/// Behind a key that must be given where the one above it is.
pub(crate) const MUST_WITH: &str = "must be given with it; ";
/// What a key takes that may name what read it, in the words of its type.
pub(crate) const BY_INSTRUMENT: &str = "with its instrument";
/// Under keys that take measured sizes.
pub(crate) const READ_WITH: &str = "What is measured may name the instrument of the shop that read it, in place of its ±: `{size: 12.50 mm, with: depth gauge}`. `{of: part/operation/value}` takes what another operation leaves.";
/// Over the names that the log takes.
pub(crate) const LOGGED: &str = "What the log takes of it as it was left (setover log JOB PART/OPERATION NAME=SIZE):";
/// Over what is usual where nobody typed `remedies`.
pub(crate) const USUAL: &str = "What is usual, by a word of the feature's name, first choice first; of a name that has none of them nothing is known, and `remedies` says it:";
/// What is written down where nothing is measured.
pub(crate) const DONE: &str = "it was done, and nothing was measured of it (beside it set-up=SET-UP where one of several is meant, note=\"what was seen\")";
/// Over the operations.
pub(crate) const OPERATIONS: &str = "The operations; `setover keys NAME` shows what each asks for.";
/// Over what `keys` can show.
pub(crate) const WHAT: &str = "`setover keys NAME` shows what each of these asks for.";
/// The keys of a job.
pub(crate) const JOB: &str = "A job: what came in, its parts, and what is done to each";
/// The keys of a part.
pub(crate) const PART: &str = "A part of a job";
/// The keys of a shop.
pub(crate) const SHOP: &str = "The shop: its machines, tools, instruments and drawers";

/// Over the keys that stand under one of them.
pub(crate) fn part_of(of: &str, key: &Key) -> String {
    format!("{} (under `{}` in `setover keys {of}`): {}", key.last(), key.key, key.means)
}

/// What is told of a key: what it means, what it takes, one value that is read.
pub(crate) fn told(key: &Key, must: &str) -> String {
    let mut says = format!("{must}{}", key.means);
    let size = match (key.asks.as_str(), key.unit.as_str()) {
        ("", _) => String::new(),
        (asks, "1") => format!("{asks}, a pure number"),
        (asks, "mm") => format!("{asks}, in mm, in or thou"),
        (asks, unit) => format!("{asks}, in {unit}"),
    };
    let takes = if size.is_empty() { key.takes.clone() } else { size };
    if !takes.is_empty() {
        says += &format!(" [{}{takes}]", if key.list { "a list of: " } else { "" });
    }
    let name = key.last();
    if !key.example.is_empty() && key.words.is_empty() {
        let (open, close) = if key.list && key.under.is_empty() { ("[", "]") } else { ("", "") };
        says += &format!(" `{name}: {open}{}{close}`", key.example);
    }
    if !key.left_out.is_empty() {
        says += &format!("; left out, {}", key.left_out);
    }
    says
}

/// What leaving a key out does: what is assumed, then which checks are not made.
pub(crate) fn left_out<'a>(
    assumed: impl Iterator<Item = &'a str>,
    unmade: impl Iterator<Item = &'static str>,
) -> String {
    let assumed: Vec<&str> = assumed.collect();
    let unmade: Vec<String> = unmade.map(|id| id.replace('-', " ")).collect();
    let mut says = Vec::new();
    if !assumed.is_empty() {
        says.push(format!("assumed: {}", assumed.join("; ")));
    }
    if !unmade.is_empty() {
        says.push(format!("not checked: {}", unmade.join(", ")));
    }
    says.join("; ")
}

/// What leaving out what everything rests on does.
pub(crate) const NOTHING_WORKED: &str = "nothing is worked out";
/// What leaving out how a part is held does, where nothing judges it.
pub(crate) const HELD_AS_USUAL: &str = "what is usual for such work is fitted";
/// What leaving out a fact of the hold does, where nothing judges it.
pub(crate) const HOLD_UNTOLD: &str = "the sheet and the day do without it";

/// Over the topics of the book.
pub(crate) const TOPICS: &str =
    "The book's topics; `setover book TOPIC` shows what each takes and which names it knows.";
/// Over the names that a topic knows.
pub(crate) const NAMES: &str = "Names that it knows";

/// Over the keys of a topic.
pub(crate) fn topic(topic: &str) -> String {
    format!("book {topic}: what can be asked")
}
