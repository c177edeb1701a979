//! What must be done with each part, at a terminal: the decision first, then the figures and the reasons beneath.

use super::lines::Lines;
use crate::plan::decide::Decided;
use crate::sheet::words;
use crate::sheet::words::{day, decide as said};

/// The decisions as text.
pub fn decided(decided: &Decided) -> String {
    let mut out = Lines::default();
    out.hanging("", &said::names(decided));
    let head: Vec<String> = decided.date.iter().cloned().chain([said::sums(decided)]).collect();
    out.hanging("", &head.join(" · "));
    out.heading(said::DECIDE);
    if decided.rows.is_empty() {
        out.hanging("  ", said::NOTHING);
    }
    for row in &decided.rows {
        let row = said::said(row, decided.print);
        out.hanging("  ", &format!("{}: {}", row.feature, row.decision));
        let figures: Vec<String> = [
            (row.found != said::NONE).then(|| format!("found {}", row.found)),
            (row.limit != said::NONE).then(|| row.limit.clone()),
            (row.margin != said::NONE).then(|| format!("{} at its worst end", row.margin)),
        ]
        .into_iter()
        .flatten()
        .collect();
        if !figures.is_empty() {
            out.hanging("      ", &figures.join(", "));
        }
        out.hanging("      ", &row.why);
        for (head, text) in [(said::SHEET, row.sheet), (said::ORDER, row.order)] {
            if text != said::NONE {
                out.hanging("      ", &format!("{}: {text}", head.to_lowercase()));
            }
        }
    }
    let orders: Vec<String> = decided.orders().into_iter().map(said::entry).collect();
    let faults = (day::LOG_FAULTS, &decided.log_faults);
    for (heading, lines) in [faults, (said::ORDERS, &orders), (said::ASSUMED, &decided.assumed)] {
        if !lines.is_empty() {
            out.heading(heading);
            lines.iter().for_each(|line| out.hanging("  ", line));
        }
    }
    out.heading(words::STANDING);
    out.finish()
}
