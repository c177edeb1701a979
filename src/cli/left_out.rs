//! What leaving a key out does: the example of its operation is worked with the key and without it, and what is then assumed, or no
//! longer judged, is told. So the list of keys says what the operation really does, and nothing is written down twice.

use crate::job::{JobFile, Ledger};
use crate::operations::{Registered, Request};
use crate::plan::{Cards, Planned, work};
use crate::proof::{CheckRule, Outcome, Place};
use crate::reading::{Key, Node};
use crate::sheet::words::keys as words;
use crate::shop::Shop;
use std::collections::BTreeSet;

/// The example of an operation, to be worked again and again.
struct Example {
    word: String,
    part: Node,
    keys: Node,
    shop: Shop,
    cards: Cards,
}

/// Says of each key that may be left out what that does, where it does something; `part` and `keys` are those of the example.
pub(super) fn told(word: &str, part: Node, keys: Node, all: &mut [Key]) {
    let shop = Node::yaml(include_str!("../../examples/shop.yaml"), Place::start(0)).map_err(|problem| vec![problem]);
    let (Ok(shop), Ok(cards)) = (shop.and_then(Node::read::<Shop>), Cards::built_in(Request::WORDS.iter().copied()))
    else {
        return;
    };
    let example = Example { word: word.to_owned(), part, keys, shop, cards };
    let Some(whole) = example.worked(&example.keys) else { return };
    let rules = example.request(&example.keys).map_or(&[][..], |request| request.declared_checks());
    for key in all.iter_mut() {
        each(&example, &whole, key, true);
        unmade(rules, key, true);
    }
}

/// What the log takes of an operation as it was left, by the example of it: each name with what it means.
pub(super) fn loggable(word: &str, part: Node, keys: Node) -> Vec<(String, String)> {
    let Some(request) = request_of(word, &part, &keys) else { return Vec::new() };
    let left = request.declared().into_iter().filter(|declared| declared.left.is_some());
    left.map(|declared| (declared.key.to_owned(), declared.means.to_owned())).collect()
}

/// The operation with these keys, as it is read.
fn request_of(word: &str, part: &Node, keys: &Node) -> Option<Request> {
    job_of(word, part, keys)?.parts.into_iter().next()?.operations.into_iter().next()
}

/// A job of an operation with these keys alone.
fn job_of(word: &str, part: &Node, keys: &Node) -> Option<JobFile<Request>> {
    let place = Place::start(0);
    let mut request = Node::map(place);
    request.insert(word, keys.clone());
    let mut part = part.clone();
    part.take("operations");
    part.insert("operations", request.alone());
    let mut job = Node::map(place);
    job.insert("job", Node::text(place, "keys"));
    job.insert("parts", part.alone());
    JobFile::<Request>::read(job).ok()
}

/// Where the example tells nothing of a key, the checks that the operation declares to need it.
fn unmade(rules: &[CheckRule], key: &mut Key, first: bool) {
    if key.left_out.is_empty() && !key.means.contains("left out") && (first || !key.required) {
        let need = rules.iter().filter(|rule| !key.required && rule.needs.contains(&key.key.as_str()));
        key.left_out = words::left_out(std::iter::empty(), need.map(|rule| rule.id));
        // How a part is held is told on every sheet, and judged where a check needs it.
        if key.left_out.is_empty() && key.key == "hold" {
            key.left_out = words::HELD_AS_USUAL.to_owned();
        } else if key.left_out.is_empty() && key.key.starts_with("hold.") {
            key.left_out = words::HOLD_UNTOLD.to_owned();
        }
    }
    key.under.iter_mut().for_each(|under| unmade(rules, under, false));
}

/// A key and those under it.
fn each(example: &Example, whole: &Planned, key: &mut Key, first: bool) {
    let says_so = key.means.contains("left out") || key.required && first;
    if !says_so && (first || !key.required) {
        let path: Vec<&str> = key.key.split('.').collect();
        let without = taken_out(&example.keys, &path);
        let (with, without) = match &without {
            Some(keys) => (Some(whole.clone()), example.worked(keys)),
            None => (put_in(&example.keys, &path, key).and_then(|keys| example.worked(&keys)), Some(whole.clone())),
        };
        if let (Some(with), Some(without)) = (with, without) {
            key.left_out = said(&path, &with, &without);
        }
    }
    for under in &mut key.under {
        each(example, whole, under, false);
    }
}

impl Example {
    /// The operation with these keys, as its part and shop have it.
    fn worked(&self, keys: &Node) -> Option<Planned> {
        let plan = work(&self.job(keys)?, Some(&self.shop), &self.cards, Ledger::default()).ok()?;
        plan.operations.into_iter().next()
    }

    /// The operation with these keys, as it is read.
    fn request(&self, keys: &Node) -> Option<Request> {
        request_of(&self.word, &self.part, keys)
    }

    /// A job of the operation with these keys alone.
    fn job(&self, keys: &Node) -> Option<JobFile<Request>> {
        job_of(&self.word, &self.part, keys)
    }
}

/// The keys without one of them; nothing where it is not there.
fn taken_out(keys: &Node, path: &[&str]) -> Option<Node> {
    let mut keys = keys.clone();
    let (first, rest) = path.split_first()?;
    let own = keys.take(first)?;
    if !rest.is_empty() {
        keys.insert(first, taken_out(&own, rest)?);
    }
    Some(keys)
}

/// The keys with one more, at the value of its example, and what its group must have; nothing where it is there or has none.
fn put_in(keys: &Node, path: &[&str], key: &Key) -> Option<Node> {
    let mut keys = keys.clone();
    let (first, rest) = path.split_first()?;
    let own = keys.take(first);
    let value = match (rest.is_empty(), own) {
        (true, Some(_)) => return None,
        (true, None) => given(key)?,
        (false, Some(group)) => put_in(&group, rest, key)?,
        // A key of a group that the example has not is told with its group.
        (false, None) => return None,
    };
    keys.insert(first, value);
    Some(keys)
}

/// A key at the value of its example; a group with what it must have.
fn given(key: &Key) -> Option<Node> {
    let place = Place::start(0);
    let one = match key.under.is_empty() {
        true if key.example.is_empty() => return None,
        true => Node::yaml(&key.example, place).ok()?,
        false => {
            let mut group = Node::map(place);
            for under in key.under.iter().filter(|under| under.required) {
                group.insert(under.last(), given(under)?);
            }
            group
        }
    };
    Some(if key.list { one.alone() } else { one })
}

/// What is assumed without the key and not with it, and what is not judged for want of it.
fn said(path: &[&str], with: &Planned, without: &Planned) -> String {
    if without.answer.refused.is_some() && with.answer.refused.is_none() {
        return words::NOTHING_WORKED.to_owned();
    }
    let letters = |text: &str| text.chars().filter(|sign| sign.is_alphabetic()).collect::<String>();
    let there: BTreeSet<String> = with.answer.assumed.iter().map(|text| letters(text)).collect();
    let own = path.first().copied().unwrap_or_default();
    // A doubt that is taken for a reading is told of the reading.
    let of_reading = |text: &str| text.starts_with(&format!("{own}:"));
    let assumed = without.answer.assumed.iter().filter(|text| !there.contains(&letters(text)) && !of_reading(text));
    let asked_for = |missing: &[&'static str]| missing.iter().any(|key| path.join(".") == *key || own == *key);
    let unmade = without.answer.checks.iter().filter(|check| {
        check.state == Outcome::NotChecked
            && asked_for(&check.missing)
            && with.answer.checks.iter().any(|other| other.id == check.id && other.state != Outcome::NotChecked)
    });
    words::left_out(assumed.map(String::as_str), unmade.map(|check| check.id))
}
