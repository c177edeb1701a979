//! One operation from `key=value` words: the job that a file would have said, one part, one operation.

use super::keys::no_operation;
use super::load::Inputs;
use crate::job::JobFile;
use crate::operations::Request;
use crate::plan::Plan;
use crate::proof::Place;
use crate::reading::{ARGUMENT, Node, Problem};
use crate::shop::Shop;
use std::path::Path;

/// Reads the words and works the job.
pub(super) fn worked(operation: &str, keys: &[String], shop: Option<&Path>, inputs: &mut Inputs) -> Option<Plan> {
    let job = read(operation, keys, inputs);
    let shop = shop_for(shop, inputs)?;
    inputs.work(&job?, shop.as_ref(), None)
}

/// The shop named, or the one of this folder where there is one; there is never a pretended one.
pub(super) fn shop_for(named: Option<&Path>, inputs: &mut Inputs) -> Option<Option<Shop>> {
    let here = Path::new("shop.yaml");
    match named.or_else(|| here.is_file().then_some(here)) {
        Some(path) => inputs.shop(path, None).map(Some),
        None => Some(None),
    }
}

/// The job that a file would have said.
pub(super) fn read(operation: &str, words: &[String], inputs: &mut Inputs) -> Option<JobFile<Request>> {
    let first = inputs.text(ARGUMENT, operation);
    if !Request::WORDS.contains(&operation) {
        let length = u32::try_from(operation.chars().count()).unwrap_or(1).max(1);
        inputs.problems.push(Problem::new(Place { length, ..first }, no_operation(operation)));
        return None;
    }
    for word in words {
        inputs.text(ARGUMENT, word.clone());
    }
    let name = Place { length: u32::try_from(operation.chars().count()).unwrap_or(1), ..first };
    // Without a word there is no text of words in which a key could be missing.
    let mut keys = match words.is_empty() {
        true => Node::map(name),
        false => Node::arguments(words, first.source + 1).map_err(|all| inputs.problems.extend(all)).ok()?,
    };
    let mut part = keys.take("part").unwrap_or_else(|| Node::map(name));
    if !part.is_map() {
        let says = "facts of the part are given as part.material=… part.hardness=…";
        inputs.problems.push(Problem::new(part.place(), says));
        return None;
    }
    part.insert("part", Node::text(name, "part"));
    part.insert("operations", keys.under_word(operation, name).alone());
    let mut job = Node::map(name);
    job.insert("job", Node::text(name, "try"));
    job.insert("parts", part.alone());
    JobFile::read(job).map_err(|all| inputs.problems.extend(all)).ok()
}
