//! Layer 8, beside `plan`. The book opened at one question: words in, a page of figures out, each with its source and mark.
//!
//! One file a question. A question is read like an operation: a plain name or `key=value`, each at its place, through the same
//! types. What cannot be read is a problem (exit 2); what cannot be worked out stands on the page as refused.

mod bush;
mod drill;
mod figures;
mod fit;
mod hardness;
mod insert;
mod instrument;
mod material;
mod mill;
mod reading;
mod reamer;
mod reply;
mod sources;
mod speed;
mod thread;
mod turn;
mod which_thread;
pub mod wording;

pub(crate) use figures::figures_in;
pub(crate) use reply::WANTED;
pub use reply::{Offer, Reply, Row, source_of};

use crate::handbook::Material;
use crate::proof::At;
use crate::reading::{Keys, Node, Problem, near};
use crate::shop::Shop;
use schemars::JsonSchema;
use serde::de::DeserializeOwned;

/// A question: its fields are the keys that it takes.
trait Question: DeserializeOwned + JsonSchema + 'static {
    /// The key that a plain name fills; none where every word is `key=value`.
    const PLAIN: Option<&'static str>;

    /// The names that the book holds for it, each with what it is; none where there is no list.
    fn names() -> Vec<(String, String)> {
        Vec::new()
    }

    /// Answers it.
    fn reply(&self, shop: Option<&Shop>) -> Result<Reply, Vec<Problem>>;
}

/// What the trade calls a topic otherwise.
const CALLED: [(&str, &[&str]); 9] = [
    ("instrument", &["gauge", "gauges", "gage", "gages", "micrometer", "micrometers", "measuring"]),
    ("material", &["metal", "metals", "steel", "steels", "alloy", "alloys"]),
    ("thread", &["screw", "screws", "bolt", "bolts", "nut", "nuts", "tap", "taps", "tapping"]),
    ("fit", &["tolerance", "tolerances", "limits", "class", "classes", "press-fit"]),
    ("speed", &["speeds", "feed", "feeds", "cutting-speed", "cutting-speeds"]),
    ("drill", &["drilling"]),
    ("reamer", &["ream", "reaming"]),
    ("turn", &["turning", "lathe"]),
    ("mill", &["milling"]),
];

/// The topic of that name, also where it stands in the plural or under another word of the trade.
pub fn topic_of(topic: &str) -> &str {
    if TOPICS.contains(&topic) {
        return topic;
    }
    let one = one_of(topic);
    if TOPICS.contains(&one) {
        return one;
    }
    let small = topic.to_lowercase();
    let called = CALLED.iter().find(|(_, words)| words.contains(&small.as_str()));
    called.map_or(one, |(own, _)| *own)
}

/// Where the metals that a question takes are listed.
fn metals() -> Vec<(String, String)> {
    vec![(wording::METALS.to_owned(), wording::METALS_LISTED.to_owned())]
}

/// One of what is named in the plural: bushes, hardnesses, threads.
fn one_of(topic: &str) -> &str {
    let known = |one: &&str| TOPICS.contains(one);
    let cut = |end: &str| topic.strip_suffix(end).filter(known);
    cut("es").or_else(|| cut("s")).unwrap_or(topic)
}

macro_rules! questions {
    ($($word:literal => $file:ident::$Q:ident),+ $(,)?) => {
        /// The words of all questions, in the order of the help.
        pub const TOPICS: &[&str] = &[$($word),+];

        /// What a topic takes: its keys, and the names that it knows. The plural of a topic is the topic.
        pub fn contents(topic: &str) -> Option<(Keys, Vec<(String, String)>)> {
            match topic_of(topic) {
                $($word => Some((Keys::of::<$file::$Q>(), $file::$Q::names())),)+
                _ => None,
            }
        }

        /// Opens the book at a topic. `plain` is a name without `=`, `keys` the tree of the `key=value` words.
        ///
        /// # Errors
        /// Everything that cannot be read, each at its place.
        pub fn open(
            topic: &At<String>,
            plain: Option<At<String>>,
            keys: Node,
            shop: Option<&Shop>,
        ) -> Result<Reply, Vec<Problem>> {
            match topic_of(&topic.value) {
                $($word => ask::<$file::$Q>(topic, plain, keys, shop),)+
                _ => {
                    let other = &topic.value;
                    let says = format!("the book has no topic `{other}`; {}", near(other, TOPICS.iter().copied()));
                    Err(vec![Problem::new(topic.place, says)])
                }
            }
        }
    };
}

// The list of questions. A new one is one line here, and its file.
questions! {
    "thread" => thread::ThreadAsked,
    "which-thread" => which_thread::WhichThread,
    "insert" => insert::InsertAsked,
    "fit" => fit::FitAsked,
    "bush" => bush::BushAsked,
    "reamer" => reamer::ReamerAsked,
    "material" => material::MaterialAsked,
    "speed" => speed::SpeedAsked,
    "drill" => drill::DrillAsked,
    "turn" => turn::TurnAsked,
    "mill" => mill::MillAsked,
    "hardness" => hardness::HardnessAsked,
    "instrument" => instrument::InstrumentAsked,
    "sources" => sources::SourcesAsked,
}

/// Names of metals that are a family: a page shows the weakest member, cut at the slowest speed, and says so.
fn families(keys: &Node) -> Vec<Material> {
    let typed = ["material", "bush", "housing"].into_iter().flat_map(|key| keys.texts_named(key));
    let named = typed.filter_map(|(text, _)| text.parse::<Material>().ok());
    named.filter(|material| material.family().is_some()).collect()
}

fn ask<Q: Question>(
    topic: &At<String>,
    plain: Option<At<String>>,
    mut keys: Node,
    shop: Option<&Shop>,
) -> Result<Reply, Vec<Problem>> {
    if let Some(name) = plain {
        let Some(key) = Q::PLAIN else {
            let says = format!("`{}` is not of the form key=value", name.value);
            return Err(vec![Problem::new(name.place, says)]);
        };
        if let Some(typed) = keys.take(key) {
            return Err(vec![Problem::new(typed.place(), format!("`{key}` is given twice"))]);
        }
        keys.insert(key, Node::text(name.place, name.value));
    }
    // What has no place of its own stands at the topic.
    let placed = |problem: Problem| match problem.place {
        Some(_) => problem,
        None => Problem::new(topic.place, problem.says),
    };
    let families = families(&keys);
    let answer = keys.read_known::<Q>().and_then(|question| question.reply(shop)).map(|mut reply| {
        families.iter().for_each(|family| reply.note(wording::family(family)));
        reply
    });
    answer.map_err(|all| all.into_iter().map(placed).collect())
}
