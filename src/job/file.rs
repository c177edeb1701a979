//! The frame of a job file: job, shop, date, engine, parts, and under each part its operations in order.

use super::{Address, Inspected, Reading, WrittenSizes};
use crate::handbook::Material;
use crate::handbook::materials::hardness::tested_if;
use crate::proof::{At, Place};
use crate::quantity::{Date, Hardness, Kilogram, Mm};
use crate::reading::{Node, Problem};
use crate::spread;
use schemars::JsonSchema;
use serde::Deserialize;
use serde::de::DeserializeOwned;

/// A job as typed. What an operation asks is `R`: this module never knows.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct JobFile<R> {
    /// The job's name.
    pub job: At<String>,
    /// The shop file, from the job file's folder; left out, and without `--shop`, there is no shop: what hangs on it says so.
    pub shop: Option<At<String>>,
    /// The day that the sheets carry, `2026-03-14`; left out, none.
    pub date: Option<At<Date>>,
    /// The engine; left out, none is named.
    pub engine: Option<At<String>>,
    /// Rules of order that this job leaves out; left out, all rules hold.
    pub order: Option<OwnOrder>,
    /// The workpieces.
    pub parts: Vec<Part<R>>,
    /// Every size as it was written.
    #[serde(skip)]
    #[schemars(skip)]
    pub written: WrittenSizes,
}

/// Rules of order that a job leaves out, and why.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct OwnOrder {
    /// The rules by their names.
    pub leave_out: Vec<At<String>>,
    /// Why; it is printed.
    pub why: At<String>,
}

/// What an operation names of others, found in its tree and in its part's.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Named {
    /// Addresses whose values it reads: every `{of: …}`.
    pub addresses: Vec<At<Address>>,
    /// Instruments: every `with: …`.
    pub instruments: Vec<At<String>>,
    /// Keys that are typed, those in a group with a dot, those of the part behind `part.`.
    pub keys: Vec<String>,
}

impl Named {
    /// What a tree names; what is no address is a problem where the type reads it.
    fn of(node: &Node) -> Self {
        Self::outside(node, &[])
    }

    /// The same but for what stands under some keys of it.
    fn outside(node: &Node, keys: &[&str]) -> Self {
        let place = |(text, place): (&str, Place)| At { value: text.to_owned(), place };
        let address = |(text, place): (&str, Place)| Some(At { value: text.parse().ok()?, place });
        Self {
            addresses: node.texts_named_outside("of", keys).into_iter().filter_map(address).collect(),
            instruments: node.texts_named_outside("with", keys).into_iter().map(place).collect(),
            keys: Vec::new(),
        }
    }

    fn and(mut self, other: &Self) -> Self {
        self.addresses.extend(other.addresses.iter().cloned());
        self.instruments.extend(other.instruments.iter().cloned());
        self
    }
}

impl<R: DeserializeOwned + JsonSchema + Send + 'static> JobFile<R> {
    /// Reads a job from its tree, and finds what each operation and its part name of others.
    ///
    /// # Errors
    /// Every problem of the tree.
    pub fn read(mut node: Node) -> Result<Self, Vec<Problem>> {
        let named: Vec<Vec<Named>> =
            node.under("parts").map_or(&[][..], Node::items).iter().map(named_in_part).collect();
        let written = WrittenSizes::of(&node);
        let idle = part_without_work(&node);
        let mut job = match Self::many_parts(&mut node) {
            Some(job) => job,
            None => node.read_known()?,
        };
        job.written = written;
        if let Some(problem) = idle {
            return Err(vec![problem]);
        }
        if job.parts.iter().all(|part| part.operations.is_empty() && part.inspect.is_empty()) {
            return Err(vec![Problem::new(job.job.place, "this job asks for no operation: give a part at least one")]);
        }
        for (part, named) in job.parts.iter_mut().zip(named) {
            part.named = named;
        }
        Ok(job)
    }
}

impl<R: DeserializeOwned + Send> JobFile<R> {
    /// A job of very many parts, which are shared out to be read; none of another, and none where anything is wrong in it: who tells what
    /// reads it in a row.
    fn many_parts(node: &mut Node) -> Option<Self> {
        let is_long = node.under("parts").is_some_and(|parts| parts.items().len() >= WORTH_SHARING);
        if !is_long || !node.empty_keys().is_empty() {
            return None;
        }
        let parts = node.take_items("parts");
        let read = spread::over(&parts, |part| Part::<R>::deserialize(part));
        let (Ok(read), Ok(job)) = (read, Self::deserialize(&*node)) else {
            node.put_items("parts", parts);
            return None;
        };
        Some(Self { parts: read, ..job })
    }
}

/// Fewer parts are read where they stand.
const WORTH_SHARING: usize = 100;

impl<R> JobFile<R> {
    /// Takes another job in, so that both are one set of parts and addresses: a part may stand in several, a name only once.
    pub fn add(&mut self, other: Self) {
        self.job.value = format!("{} · {}", self.job.value, other.job.value);
        self.date = self.date.take().or(other.date);
        self.engine = self.engine.take().or(other.engine);
        self.order = self.order.take().or(other.order);
        self.parts.extend(other.parts);
        self.written = std::mem::take(&mut self.written).and(&other.written);
    }
}

/// A part of which nothing is asked.
fn part_without_work(node: &Node) -> Option<Problem> {
    let parts = node.under("parts").map_or(&[][..], Node::items);
    let idle = parts.iter().find(|part| part.under("operations").is_none() && part.under("inspect").is_none())?;
    Some(Problem::lacking(
        idle.place(),
        "operations",
        ": what is done to the part, in order; or `inspect`, what was found on it",
    ))
}

/// What each operation of a part names: its own tree, and all of the part beside the operations.
fn named_in_part(part: &Node) -> Vec<Named> {
    let operations = part.under("operations").map_or(&[][..], Node::items);
    let of_part = Named::outside(part, &["operations", "inspect"]);
    let typed = |operation: &Node| Named { keys: typed_keys(operation, part), ..Named::of(operation) };
    operations.iter().map(|operation| typed(operation).and(&of_part)).collect()
}

/// The keys that are typed of an operation, and of its part.
fn typed_keys(operation: &Node, part: &Node) -> Vec<String> {
    let mut all: Vec<String> = part.keys().map(|(key, _)| ["part.", key].concat()).collect();
    for (key, own) in operation
        .keys()
        .filter_map(|(word, _)| operation.under(word))
        .flat_map(|own| own.keys().filter_map(move |(key, _)| Some((key, own.under(key)?))))
    {
        all.push(key.to_owned());
        let groups = std::iter::once(own).chain(own.items());
        all.extend(groups.flat_map(Node::keys).map(|(under, _)| [key, ".", under].concat()));
    }
    all
}

/// What is left out of a list.
const fn none<T>() -> Vec<T> {
    Vec::new()
}

/// One workpiece.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Part<R> {
    /// The part's name.
    pub part: At<String>,
    /// What it is made of; left out, an operation that hangs on it refuses, or says what it does not check.
    pub material: Option<At<Material>>,
    /// Its hardness as tested; left out, that of its material where the book has one.
    #[serde(default, deserialize_with = "tested_if")]
    pub hardness: Option<At<Hardness>>,
    /// Effective case depth (to 550 HV), as measured or from the drawing; left out, of a hard part what is left of its case is
    /// doubtful.
    pub case_depth: Option<At<Reading>>,
    /// Total case depth, where the effective one is not known; left out, there is `case-depth`, or none is known.
    pub case_depth_total: Option<At<Reading>>,
    /// Hard all through: there is no case to go through; left out, it is not.
    pub through_hardened: Option<At<bool>>,
    /// A remark for the sheets; left out, none.
    pub note: Option<At<String>>,
    /// What it is bolted to others in; left out, the whole job is one assembly.
    pub assembly: Option<At<String>>,
    /// Places that it takes in an oven or freezer; left out, one.
    pub places: Option<At<u32>>,
    /// What it weighs: the sheets warn before it is lifted, and an operation that weighs nothing itself goes by it; left out, the sizes
    /// that an operation knows say it, where they do.
    pub mass: Option<At<Kilogram>>,
    /// Its greatest length: whether it goes into the oven; left out, what hangs on it is doubtful.
    pub longest: Option<At<Mm>>,
    /// What was found on it, against what it may be: `setover decide` says what must be done with it; left out, nothing is decided.
    #[serde(default)]
    pub inspect: Vec<Inspected>,
    /// What is done to it, in order; may be left out where `inspect` stands.
    #[serde(default = "none::<R>")]
    pub operations: Vec<R>,
    /// What each operation names of others.
    #[serde(skip)]
    #[schemars(skip)]
    pub named: Vec<Named>,
}

/// What an operation may know of its part.
#[derive(Clone, Debug, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct PartFacts {
    /// The part's name.
    #[serde(skip)]
    pub name: String,
    /// What it is made of.
    pub material: Option<At<Material>>,
    /// Its hardness as tested.
    #[serde(default, deserialize_with = "tested_if")]
    pub hardness: Option<At<Hardness>>,
    /// Effective case depth.
    pub case_depth: Option<At<Reading>>,
    /// Total case depth.
    pub case_depth_total: Option<At<Reading>>,
    /// Hard all through.
    pub through_hardened: Option<At<bool>>,
    /// Its mass.
    pub mass: Option<At<Kilogram>>,
    /// Its greatest length.
    pub longest: Option<At<Mm>>,
}

impl PartFacts {
    /// Whether it is said to be hard all through. A steel that has a case is not: what is said of it contradicts its name.
    pub fn is_hard_through(&self) -> bool {
        let has_case = self.material.as_ref().is_some_and(|at| at.value.has_case());
        !has_case && self.through_hardened.as_ref().is_some_and(|at| at.value)
    }

    /// Whether it is said to be hardened, in a case or all through: heat softens that, whatever the steel is called.
    pub fn is_hardened(&self) -> bool {
        let through = self.through_hardened.as_ref().is_some_and(|at| at.value);
        through || self.case_depth.is_some() || self.case_depth_total.is_some()
    }
}

impl<R> Part<R> {
    /// The facts of the part, without its operations.
    pub fn facts(&self) -> PartFacts {
        PartFacts {
            name: self.part.value.clone(),
            material: self.material.clone(),
            hardness: self.hardness.clone(),
            case_depth: self.case_depth.clone(),
            case_depth_total: self.case_depth_total.clone(),
            mass: self.mass.clone(),
            longest: self.longest.clone(),
            through_hardened: self.through_hardened.clone(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[derive(Clone, Debug, Deserialize, JsonSchema)]
    #[serde(rename_all = "kebab-case")]
    enum Asked {
        #[allow(dead_code)] // It is looked at as it prints itself.
        Saw { length: At<Mm> },
    }

    fn job(parts: usize, slip: &str) -> Node {
        let part = |n: usize| {
            let length = if n == parts - 2 { slip.to_owned() } else { format!("{n} mm") };
            format!("  - part: bar {n}\n    material: mild steel\n    operations: [{{saw: {{length: {length}}}}}]\n")
        };
        let parts: String = (0..parts).map(part).collect();
        Node::yaml(&format!("job: Many bars\nparts:\n{parts}"), Place::start(0)).unwrap()
    }

    #[test]
    fn very_many_parts_are_read_as_a_few_are() {
        for parts in [3, WORTH_SHARING + 20] {
            let read = JobFile::<Asked>::read(job(parts, "7 mm")).unwrap();
            let in_a_row: JobFile<Asked> = job(parts, "7 mm").read_known().unwrap();
            assert_eq!(
                format!("{:?}", read.parts.iter().map(|part| &part.operations).collect::<Vec<_>>()),
                format!("{:?}", in_a_row.parts.iter().map(|part| &part.operations).collect::<Vec<_>>())
            );
            assert_eq!((read.parts.len(), read.job.place), (parts, in_a_row.job.place));
            for slip in ["7", "7 kg", "mm", ""] {
                let problems = JobFile::<Asked>::read(job(parts, slip)).unwrap_err();
                assert_eq!(problems, job(parts, slip).read_known::<JobFile<Asked>>().unwrap_err());
                assert_eq!(problems.len(), 1, "{problems:?}");
            }
        }
    }
}
