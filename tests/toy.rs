//! An operation made elsewhere, as a newcomer makes the first: one file, one card, one line in a list; worked, judged and printed
//! like those of the house.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "toy/saw_off.rs"]
mod saw_off;

use crate::common::{agrees, first, value, verdict};
use setover::job::{JobFile, Ledger};
use setover::plan::{Cards, Plan, work};
use setover::proof::{Place, Verdict};
use setover::reading::Node;
use setover::sheet::terminal;

setover::operations! {
    /// A list of one.
    Toy from "toy/" and "toy/example-";
    "saw-off" => saw_off::SawOff,
}

fn planned(job: &str) -> Plan {
    let job: JobFile<Toy> = JobFile::read(Node::yaml(job, Place::start(0)).expect("yaml")).expect("job");
    let cards = Cards::built_in([]).and_then(|cards| cards.and("saw-off", Toy::built_in_card("saw-off").unwrap()));
    work(&job, None, &cards.expect("cards"), Ledger::default()).expect("plan")
}

#[test]
fn an_operation_from_elsewhere_is_worked_judged_and_printed() {
    let job = Toy::example("saw-off").expect("its example");
    let plan = planned(job);
    // 300 − 120 − 1.5
    agrees("178.5", value(first(&plan), "left"));
    assert_eq!(verdict(first(&plan), "enough-left"), Verdict::Doubtful, "its doubt reaches over what must be left");
    let longer = planned(&job.replace("300", "302"));
    assert_eq!(verdict(first(&longer), "enough-left"), Verdict::Proven);
    let shorter = planned(&job.replace("300", "298"));
    assert_eq!(verdict(first(&shorter), "enough-left"), Verdict::Fails);
    assert!(
        terminal::plans(std::slice::from_ref(&longer)).contains("off, the saw on the side of the piece"),
        "{}",
        terminal::plans(&[longer])
    );
}

/// The smallest operation stays small: one formula, one check, one step, one sketch, its card.
#[test]
fn the_smallest_operation_is_small() {
    let lines = [include_str!("toy/saw_off.rs"), include_str!("toy/saw-off.yaml")].map(|text| text.lines().count());
    assert!(lines.iter().sum::<usize>() <= 150, "{lines:?}");
}
