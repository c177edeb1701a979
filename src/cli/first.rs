//! What is mended first of all that is open in an operation: its job is worked again with each of its readings taken more closely.

use super::keys;
use super::load::{Inputs, log_of};
use crate::files::read_text;
use crate::handbook::constants::row;
use crate::job::JobFile;
use crate::operations::Request;
use crate::plan::{First, FirstBy, Planned};
use crate::proof::{At, Origin, Place, Verdict};
use crate::quantity::{Print, Rounds, Unit, shown};
use crate::reading::{Key, Node};
use std::path::{Path, PathBuf};

/// A job of more operations than this is not worked again for every reading.
const OPERATIONS: usize = 8;
/// No more readings than this are tried.
const READINGS: usize = 24;
/// How many times as closely a reading is taken, the least first.
const CLOSER: [f64; 3] = [2.0, 5.0, 10.0];
/// No closer than this is anything read at a bench.
const CLOSEST: &str = "read-no-closer";
/// Of fewer open checks nobody asks which comes first.
const OPEN: usize = 2;

/// A reading of an operation: its key, what it is, its figure, its doubt, its unit, and where it was typed.
struct Read {
    key: String,
    means: &'static str,
    number: f64,
    doubt: f64,
    unit: Unit,
    place: Place,
}

/// What proves the most in an operation of a job alone, whose text and path are given; nothing where a log tells of the job.
pub(super) fn of(planned: &Planned, (path, text): (&Path, &str), shop: Option<&Path>, print: Print) -> Option<First> {
    let open = planned.open();
    if planned.verdict != Verdict::Doubtful || open.len() < OPEN || log_of(path).is_file() {
        return None;
    }
    let node = Node::yaml(text, Place::start(0)).ok()?;
    let count: usize = node
        .under("parts")?
        .items()
        .iter()
        .map(|part| part.under("operations").map_or(0, |all| all.items().len()))
        .sum();
    if count > OPERATIONS {
        return None;
    }
    let settled = |read: &Read, closer: f64| -> Option<usize> {
        let typed = format!("{} ± {} {}", read.number, doubt(read, closer), read.unit.text());
        let again = worked(&put(text, read.place, &typed)?, path, shop)?;
        let own = again.into_iter().find(|own| own.address == planned.address)?;
        let still = own.open();
        let gone = open.iter().filter(|id| !still.contains(id)).count();
        (still.len() < open.len()).then_some(gone)
    };
    let readings = readings(planned, &node);
    let widest = CLOSER.last().copied()?;
    let mut best: Option<(usize, &Read)> = None;
    for read in &readings {
        match settled(read, widest) {
            Some(gone) if best.is_none_or(|(most, _)| gone > most) => best = Some((gone, read)),
            _ => {}
        }
    }
    let given = wanted(planned, &node);
    let (proves, by) = match (best, given) {
        (Some((gone, read)), given) if given.as_ref().is_none_or(|(count, ..)| *count <= gone) => {
            let closer = CLOSER.into_iter().find(|closer| settled(read, *closer) == Some(gone)).unwrap_or(widest);
            let to = shown(doubt(read, closer), None, read.unit, Rounds::Down, print);
            (gone, FirstBy::Read { key: read.key.clone(), means: read.means.to_owned(), to })
        }
        (_, Some((count, key, means))) => (count, FirstBy::Given { key, means }),
        _ => return None,
    };
    (proves >= OPEN).then_some(First { by, proves, open: open.len() })
}

/// The same of an operation that is the only one of the only file, for its sheet.
pub(super) fn on_sheet(planned: &Planned, jobs: &[PathBuf], shop: Option<&Path>, print: Print) -> Option<First> {
    let [path] = jobs else { return None };
    if planned.verdict != Verdict::Doubtful || planned.open().len() < OPEN || path.as_os_str() == "-" {
        return None;
    }
    let text = read_text(path).ok()?;
    let node = Node::yaml(&text, Place::start(0)).ok()?;
    let operations = |part: &Node| part.under("operations").map_or(0, |all| all.items().len());
    let count: usize = node.under("parts")?.items().iter().map(operations).sum();
    if count == 1 { of(planned, (path, &text), shop, print) } else { None }
}

/// The same of a file that has one operation alone, in the units of its shop or those given.
pub(super) fn of_file(jobs: &[PathBuf], shop: Option<&Path>, print: Option<Print>) -> Option<First> {
    let [path] = jobs else { return None };
    let text = read_text(path).ok().filter(|_| path.as_os_str() != "-")?;
    let (planned, own) = planned(&text, path, shop)?;
    let [one] = planned.as_slice() else { return None };
    of(one, (path, &text), shop, print.unwrap_or(own))
}

/// The doubt under which nothing is read at a bench, mm.
fn closest() -> f64 {
    row(CLOSEST).map_or(0.0, |row| row.value)
}

/// The doubt of a reading that is taken so many times as closely.
fn doubt(read: &Read, closer: f64) -> f64 {
    let least = if read.unit == Unit::Mm { closest() } else { 0.0 };
    (read.doubt / closer).max(least)
}

/// The readings that an operation has of its own, each as it was typed; those that could be closer.
fn readings(planned: &Planned, node: &Node) -> Vec<Read> {
    let mut all: Vec<Read> = Vec::new();
    for value in &planned.answer.values {
        let Origin::Typed(place) = *value.origin else { continue };
        let could_be_closer = value.plus_minus > 0.0 && (value.unit != Unit::Mm || value.plus_minus > closest());
        if place.source != 0 || !could_be_closer || all.len() >= READINGS || all.iter().any(|read| read.place == place)
        {
            continue;
        }
        let Some(keys) = node.keys_to(place) else { continue };
        let frame = ["parts", "operations", planned.word.as_str()];
        let key = keys.into_iter().filter(|key| !frame.contains(key)).collect::<Vec<_>>().join(".");
        let (number, doubt, unit) = (value.number, value.plus_minus, value.unit);
        all.push(Read { key, means: value.means, number, doubt, unit, place });
    }
    all
}

/// The key that most of what is open waits for, or is told to give, with how many do and what it means.
fn wanted(planned: &Planned, node: &Node) -> Option<(usize, String, String)> {
    let (_, keys) = keys::of_operation(&planned.word).ok()?;
    let mut flat: Vec<&Key> = Vec::new();
    fn into<'a>(key: &'a Key, flat: &mut Vec<&'a Key>) {
        flat.push(key);
        key.under.iter().for_each(|key| into(key, flat));
    }
    keys.iter().for_each(|key| into(key, &mut flat));
    let own = own_keys(planned, node);
    let is_given = |key: &str| own.is_some_and(|own| key.split('.').try_fold(own, |at, name| at.under(name)).is_some());
    let waits = planned.most_wanted();
    let named = |key: &Key| {
        let checks = planned.answer.checks.iter().filter(|check| check.stamps() == Some(Verdict::Doubtful));
        let says = [format!("({})", key.key), format!("give `{}`", key.key), format!("type `{}`", key.key)];
        let told = |text: &str| says.iter().any(|own| text.contains(own.as_str()));
        let names = |check: &&crate::proof::Check<String>| {
            let remedy = check.remedy.iter().map(String::as_str);
            remedy.chain(check.remedies.iter().map(|remedy| remedy.as_str())).any(told)
        };
        checks.filter(names).count() + waits.filter(|(own, _)| *own == key.key).map_or(0, |(_, count)| count)
    };
    let open = flat.iter().filter(|key| !is_given(&key.key));
    let counted = open.map(|key| (named(key), *key)).filter(|(count, _)| *count > 0);
    let mut best: Option<(usize, &Key)> = None;
    for (count, key) in counted {
        if best.is_none_or(|(most, _)| count > most) {
            best = Some((count, key));
        }
    }
    let (count, key) = best?;
    let means = key.means.split("; left out").next().unwrap_or_default();
    let mut signs = means.chars();
    let first = signs.next().map(|c| c.to_lowercase().to_string()).unwrap_or_default();
    Some((count, key.key.clone(), first + signs.as_str()))
}

/// The keys of an operation in its job.
fn own_keys<'a>(planned: &Planned, node: &'a Node) -> Option<&'a Node> {
    let parts = node.under("parts")?.items();
    let part =
        parts.iter().find(|part| part.text_under("part").is_some_and(|(name, _)| name == planned.address.part))?;
    part.under("operations")?.items().iter().find_map(|one| one.under(&planned.word))
}

/// A text with another value at a place.
fn put(text: &str, place: Place, typed: &str) -> Option<String> {
    let mut out = String::with_capacity(text.len() + typed.len());
    for (line, number) in text.lines().zip(1..) {
        if number == place.line {
            let before: String = line.chars().take(place.column.checked_sub(1)? as usize).collect();
            let behind: String = line.chars().skip((place.column - 1 + place.length) as usize).collect();
            out += &format!("{before}{typed}{behind}\n");
        } else {
            out += line;
            out.push('\n');
        }
    }
    Some(out)
}

/// The operations of a job, worked from its text.
fn worked(text: &str, path: &Path, shop: Option<&Path>) -> Option<Vec<Planned>> {
    planned(text, path, shop).map(|(planned, _)| planned)
}

/// The same with the units of its shop.
fn planned(text: &str, path: &Path, shop: Option<&Path>) -> Option<(Vec<Planned>, Print)> {
    let mut inputs = Inputs::default();
    let start = inputs.text(path.display().to_string(), text);
    let node = Node::yaml(text, start).ok()?;
    let folder = path.parent().unwrap_or(Path::new(""));
    let named = node.text_under("shop").map(|(name, place)| At { value: folder.join(name), place });
    let job = JobFile::<Request>::read(node).ok()?;
    let shop = match (shop, named) {
        (Some(path), _) => Some(inputs.shop(path, None)?),
        (None, Some(named)) => Some(inputs.shop(&named.value, None)?),
        (None, None) => None,
    };
    let plan = inputs.work(&job, shop.as_ref(), path.parent())?;
    inputs.problems.is_empty().then_some((plan.operations, plan.print))
}
