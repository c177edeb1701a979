//! Outside checks: every printed figure of `tests/published/*.csv` against what the handbook works out.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "published/support/mod.rs"]
mod support;

use support::rows::{self, Kind};
use support::run::Run;

#[test]
fn printed_figures_are_met_and_misprints_are_not() {
    let mut wrong = Vec::new();
    let mut pending = 0;
    for row in rows::all() {
        let (is, agrees) = match support::worked(&row, &mut Run::default()) {
            None => {
                pending += 1;
                continue;
            }
            Some(Ok(number)) => (number.to_string(), row.agrees(number)),
            Some(Err(why)) => (why, row.kind != Kind::Published),
        };
        if agrees != (row.kind == Kind::Published) {
            wrong.push(format!("{} {}: printed {} {}, worked {is}", row.id, row.subject, row.printed, row.unit));
        }
    }
    println!("pending rows: {pending}");
    assert!(wrong.is_empty(), "{} rows:\n{}", wrong.len(), wrong.join("\n"));
}
