//! One entry of the log.

use crate::job::Address;
use crate::proof::{At, Place};
use crate::quantity::{Celsius, ClockTime, Date};
use crate::reading::{Node, Problem, near};
use serde::Deserialize;

/// Keys of an entry that are no names of values.
pub const KEYS: &[&str] = &[
    "n",
    "date",
    "by",
    "part",
    "operation",
    "with",
    "at",
    "gauge-at",
    "note",
    "corrects",
    "withdraws",
    "set-up",
    "from",
    "to",
    "machine",
    "done",
    "sum",
];

/// One entry of the log, as typed.
#[derive(Clone, Debug)]
pub struct Entry {
    /// Its number: one more than the line before.
    pub n: At<u32>,
    /// The day on which it was measured.
    pub date: Option<At<Date>>,
    /// Who measured.
    pub by: Option<String>,
    /// The operation that it tells of: part and operation.
    pub of: Option<At<Address>>,
    /// What was left, by name, as typed.
    pub values: Vec<(At<String>, At<String>)>,
    /// The instrument.
    pub with: Option<At<String>>,
    /// How warm the part was.
    pub at: Option<At<Celsius>>,
    /// How warm the gauge was.
    pub gauge_at: Option<At<Celsius>>,
    /// A remark.
    pub note: Option<String>,
    /// The entry in whose place it stands.
    pub corrects: Option<At<u32>>,
    /// The first of the entries in whose place it stands, its own number where it stands in none: what was read is as old as that line.
    pub stands_at: u32,
    /// The entry that it takes back.
    pub withdraws: Option<At<u32>>,
    /// The set-up that it tells of, by its id.
    pub set_up: Option<At<String>>,
    /// When the hands began.
    pub from: Option<ClockTime>,
    /// When it was done.
    pub to: Option<ClockTime>,
    /// On which machine.
    pub machine: Option<String>,
    /// Whether somebody says that it was done, whatever was measured.
    pub done: bool,
    /// The whole line.
    pub place: Place,
}

/// The keys that every entry may have.
#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct Frame {
    n: At<u32>,
    date: Option<At<Date>>,
    by: Option<String>,
    part: Option<At<String>>,
    operation: Option<At<String>>,
    with: Option<At<String>>,
    at: Option<At<Celsius>>,
    gauge_at: Option<At<Celsius>>,
    note: Option<String>,
    corrects: Option<At<u32>>,
    withdraws: Option<At<u32>>,
    set_up: Option<At<String>>,
    from: Option<ClockTime>,
    to: Option<ClockTime>,
    machine: Option<String>,
    done: Option<At<String>>,
    #[serde(rename = "sum")]
    _sum: Option<String>,
}

impl Entry {
    /// Reads an entry from its tree.
    ///
    /// # Errors
    /// Every problem of it, each at its place.
    pub(super) fn read(mut node: Node, place: Place) -> Result<Self, Vec<Problem>> {
        let names: Vec<(String, Place)> =
            node.keys().filter(|(key, _)| !KEYS.contains(key)).map(|(key, place)| (key.to_owned(), place)).collect();
        let mut problems = Vec::new();
        let mut values = Vec::new();
        for (name, at) in names {
            let Some(value) = node.take(&name) else { continue };
            match value.typed() {
                Some(typed) => values
                    .push((At { value: name.replace('-', "_"), place: at }, At { value: typed, place: value.place() })),
                None => {
                    let says = format!("`{name}` is one figure with its unit, as in `{name}: 21.677 mm`");
                    problems.push(Problem::new(at, says));
                }
            }
        }
        let frame: Option<Frame> = node.read().map_err(|all| problems.extend(all)).ok();
        let Some(frame) = frame.filter(|_| problems.is_empty()) else { return Err(problems) };
        let of = match (frame.part, frame.operation) {
            (Some(part), Some(operation)) => {
                Some(At { value: Address::of(&part.value, &operation.value), place: part.place })
            }
            (None, None) => None,
            (Some(at), None) | (None, Some(at)) => {
                problems.push(Problem::new(at.place, "an entry names its part and its operation, or neither"));
                None
            }
        };
        if let (None, Some((name, _))) = (&of, values.first()) {
            let known = near(&name.value, KEYS.iter().copied());
            problems.push(Problem::new(name.place, format!("`{}` of which part and operation? ({known})", name.value)));
        }
        if let (Some(withdraws), Some((name, _))) = (&frame.withdraws, values.first()) {
            let says = format!("this entry takes {} back and gives `{}`: use `corrects`", withdraws.value, name.value);
            problems.push(Problem::new(name.place, says));
        }
        if let (Some(at), Some(_)) = (&frame.withdraws, &frame.corrects) {
            problems.push(Problem::new(at.place, "an entry corrects one or takes one back, not both"));
        }
        if let Some(at) = frame.done.as_ref().filter(|at| !["yes", "true"].contains(&at.value.as_str())) {
            problems.push(Problem::new(at.place, "`done: yes` says that it was done; where it was not, leave it out"));
        }
        if let (Some(at), None) = (&frame.done, &of) {
            problems.push(Problem::new(at.place, "`done` of which part and operation?"));
        }
        if let (Some(at), Some(_)) = (&frame.done, &frame.withdraws) {
            problems.push(Problem::new(at.place, "an entry takes one back or says that work was done, not both"));
        }
        if let (Some(at), None) = (&frame.gauge_at, &frame.at) {
            problems
                .push(Problem::new(at.place, "`gauge-at` is how warm the gauge was: give `at`, how warm the part was"));
        }
        let read = Self {
            stands_at: frame.n.value,
            n: frame.n,
            date: frame.date,
            by: frame.by,
            of,
            values,
            with: frame.with,
            at: frame.at,
            gauge_at: frame.gauge_at,
            note: frame.note,
            corrects: frame.corrects,
            withdraws: frame.withdraws,
            set_up: frame.set_up,
            from: frame.from,
            to: frame.to,
            machine: frame.machine,
            done: frame.done.is_some(),
            place,
        };
        if problems.is_empty() { Ok(read) } else { Err(problems) }
    }
}
