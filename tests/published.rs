//! Outside checks: every printed figure of `tests/published/*.csv` against what the handbook works out, and the count of
//! them in `docs/published.md`, which `SETOVER_WRITE=1 cargo test --test all published::` writes again.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::support;

use std::collections::{BTreeMap, BTreeSet};
use support::count::{house, not_counted};
use support::page;
use support::rows::{self, Half, Kind, Row};
use support::run::Run;

#[test]
fn printed_figures_are_met_and_misprints_are_not() {
    let mut wrong = Vec::new();
    for row in rows::all() {
        let (is, agrees) = match support::worked(&row, &mut Run::default()) {
            None => continue,
            Some(Ok(number)) => (number.to_string(), row.agrees(number)),
            Some(Err(why)) => (why, row.kind != Kind::Published),
        };
        if agrees != (row.kind == Kind::Published) {
            wrong.push(format!("{} {}: printed {} {}, worked {is}", row.id, row.subject, row.printed, row.unit));
        }
    }
    assert!(wrong.is_empty(), "{} rows:\n{}", wrong.len(), wrong.join("\n"));
}

/// An error in print that lies far away would be told from the right figure by any formula: it holds nothing.
#[test]
fn an_error_in_print_lies_within_a_quarter_of_what_is_right() {
    let far: Vec<String> = rows::all()
        .iter()
        .filter(|row| row.kind != Kind::Published)
        .filter_map(|row| {
            let right = support::worked(row, &mut Run::default())?.unwrap_or(f64::NAN);
            let near = (row.printed - right).abs() <= (0.25 + 1e-9) * right.abs();
            (!near).then(|| format!("{} {}: printed {}, right {right}", row.id, row.subject, row.printed))
        })
        .collect();
    assert!(far.is_empty(), "{} rows:\n{}", far.len(), far.join("\n"));
}

#[test]
fn no_subject_waits_for_its_formula() {
    for (subject, file) in support::PENDING {
        page::say(&format!("NOT CHECKED: {subject} waits for {file}"));
    }
    assert!(support::PENDING.is_empty(), "{} subjects are not checked", support::PENDING.len());
}

#[test]
fn ids_are_names() {
    let all = rows::all();
    let ids: BTreeSet<&str> = all.iter().map(|row| row.id.as_str()).collect();
    assert_eq!(ids.len(), all.len(), "an id stands twice");
}

/// Figures of a source: met to the digits printed, met within what the row says, errors in print, checked and not counted.
#[derive(Clone, Copy, Default)]
struct Tally {
    to_the_digits: usize,
    within: usize,
    negative: usize,
    not_counted: usize,
}

impl Tally {
    fn add(&mut self, row: &Row, all: &[Row]) {
        match (row.kind, not_counted(row, all)) {
            (Kind::Negative | Kind::Rule, _) => self.negative += 1,
            (Kind::Published, Some(_)) => self.not_counted += 1,
            (Kind::Published, None) if row.within.is_some() => self.within += 1,
            (Kind::Published, None) => self.to_the_digits += 1,
        }
    }

    fn counted(self) -> usize {
        self.to_the_digits + self.within
    }

    fn cells(self) -> String {
        let Self { to_the_digits, within, negative, not_counted } = self;
        format!("{} | {to_the_digits} | {within} | {negative} | {not_counted}", self.counted())
    }
}

const HALVES: [(Half, &str); 2] = [
    (Half::Joining, "Part 1: threads, inserts, fits, presses, reamers"),
    (Half::Cutting, "Part 2: cutting, materials, uncertainty"),
];

#[test]
fn the_counts_are_reached_and_written_down() {
    let all = rows::all();
    let mut text = page::heading();
    for (half, title) in HALVES {
        let mut by_source: BTreeMap<(String, &str), Tally> = BTreeMap::new();
        let mut by_mark: BTreeMap<&str, Tally> = BTreeMap::new();
        let mut reasons: BTreeMap<&str, usize> = BTreeMap::new();
        let mut sum = Tally::default();
        for row in all.iter().filter(|row| row.half == half) {
            let mark = row.mark().text();
            by_source.entry((house(&row.source).to_owned(), mark)).or_default().add(row, &all);
            by_mark.entry(mark).or_default().add(row, &all);
            sum.add(row, &all);
            if let Some(reason) = not_counted(row, &all) {
                *reasons.entry(reason).or_default() += 1;
            }
        }
        let counting = |(key, tally): (&(String, &str), &Tally)| (tally.counted() > 0).then(|| key.0.clone());
        let sources: BTreeSet<String> = by_source.iter().filter_map(counting).collect();
        let read = |mark: &str| by_mark.get(mark).copied().unwrap_or_default().counted();
        let (figures, really_read) = (sum.counted(), read("read") + read("read, damaged copy"));
        text += &format!(
            "\n## {title}\n\n{figures} figures from {} sources; {really_read} of them read, the others remembered;\n{} are met to the very digits that were printed.\n",
            sources.len(),
            sum.to_the_digits
        );
        text += page::COLUMNS;
        for ((source, mark), tally) in &by_source {
            text += &format!("| {source} | {mark} | {} |\n", tally.cells());
        }
        for (mark, tally) in &by_mark {
            text += &format!("| *all* | {mark} | {} |\n", tally.cells());
        }
        text += "\nChecked and not counted:\n\n";
        for (reason, count) in &reasons {
            text += &format!("- {count}: {reason}\n");
        }
        assert!(sum.to_the_digits >= 150, "{title}: {} figures to their digits", sum.to_the_digits);
        assert!(figures >= 150 && really_read >= 150, "{title}: {figures} figures, {really_read} read");
        assert!(sources.len() >= 15, "{title}: {} sources", sources.len());
    }
    page::say(&text);
    page::hold("docs/published.md", &text);
}
