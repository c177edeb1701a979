//! Every formula that a printed figure reaches is bent in every place of its own text: at least one printed figure must
//! notice. What survives is asserted, bent text by bent text with its reason; what no printed figure reaches is listed in
//! `docs/formulas.md` (`SETOVER_WRITE=1 cargo test --test all mutants::` writes it again).
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::support;

use setover::proof::notation::Expression;
use setover::proof::{Formula, Working};
use std::collections::{BTreeMap, BTreeSet};
use support::mutation::{mutants, read, swaps};
use support::page;
use support::rows::{self, Kind, Row};
use support::run::Run;
use support::survivors::SURVIVORS;
use support::written::{self, Written};

/// What the printed figures say of one formula.
struct Reached {
    formula: &'static Formula,
    cases: Vec<(usize, Working)>,
}

/// The formulas that the published rows reach, by name.
fn reached(all: &[Row]) -> BTreeMap<&'static str, Reached> {
    let mut by_name: BTreeMap<&'static str, Reached> = BTreeMap::new();
    for (at, row) in all.iter().enumerate().filter(|(_, row)| row.kind == Kind::Published) {
        let mut run = Run::default();
        if support::worked(row, &mut run).is_none_or(|worked| worked.is_err()) {
            continue;
        }
        for working in run.reached {
            let formula = working.formula;
            let entry = by_name.entry(formula.name).or_insert_with(|| Reached { formula, cases: Vec::new() });
            assert!(std::ptr::eq(entry.formula, formula), "two formulas are called {}", formula.name);
            if entry.cases.last().is_none_or(|last| last.0 != at) {
                entry.cases.push((at, working));
            }
        }
    }
    by_name
}

/// How far a bent formula moves a row, in tolerances of that row; nothing where it has no result any more.
fn moves(row: &Row, formula: &'static Formula, bent: &Expression) -> Option<f64> {
    let plain = support::worked(row, &mut Run::default())?.ok()?;
    let number = support::worked(row, &mut Run::bent(formula, bent))?.ok()?;
    if row.agrees(number) { Some((number - plain).abs() / row.tolerance().max(1e-300)) } else { None }
}

/// One for each symbol that a formula may have.
const PRIMES: [f64; MOST_SYMBOLS] = [2.0, 3.0, 5.0, 7.0, 11.0, 13.0, 17.0, 19.0];
const MOST_SYMBOLS: usize = 8;

/// Whether two texts give the same for every number that the formula may be given.
fn same_everywhere(formula: &Formula, bent: &Expression) -> bool {
    let plain = read(formula.text);
    (0..400_u32).all(|round| {
        let number = |name: &str| {
            let at = formula.symbols.iter().position(|symbol| symbol.name == name)?;
            let within = &formula.symbols[at].within;
            // A fixed sequence that fills the range: multiples of an irrational number, less their whole part.
            let part = (f64::from(round + 1) * PRIMES[at].sqrt()).fract();
            Some(within.start() + part * part * (within.end() - within.start()))
        };
        match (plain.value(&number), bent.value(&number)) {
            (Some(a), Some(b)) if a.is_finite() => (a - b).abs() <= 1e-12 * a.abs().max(1e-12),
            _ => true,
        }
    })
}

#[derive(Default)]
struct Judgement {
    killed: usize,
    equivalent: Vec<String>,
    /// Bent text and reason.
    survivors: Vec<(String, &'static str)>,
}

fn judge(all: &[Row], reached: &Reached) -> Judgement {
    let mut judgement = Judgement::default();
    let plain = read(reached.formula.text);
    for bent in mutants(&plain).into_iter().chain(swaps(&plain, reached.formula.symbols)) {
        let text = bent.write(&|_| None);
        let mut most = 0.0_f64;
        let notices = |case: &(usize, Working)| match moves(&all[case.0], reached.formula, &bent) {
            None => true,
            Some(moved) => {
                most = most.max(moved);
                false
            }
        };
        if reached.cases.iter().any(notices) {
            judgement.killed += 1;
        } else if same_everywhere(reached.formula, &bent) {
            judgement.equivalent.push(text);
        } else {
            let reason = written::why_it_survives(reached.formula.name, &text, most);
            judgement.survivors.push((text, reason));
        }
    }
    judgement
}

#[test]
fn the_text_worked_as_printed_gives_the_result() {
    let mut seen = 0;
    for row in rows::all() {
        let mut run = Run::default();
        let _ = support::worked(&row, &mut run);
        for working in run.reached {
            let number = read(working.formula.text).value(&|symbol| working.number_of(symbol)).expect("a result");
            let near = (number - working.result).abs() <= 1e-12 * working.result.abs().max(1e-12);
            assert!(near, "{}: {} and {number}", working.formula.text, working.result);
            let shown = working.to_string();
            assert!(shown.contains(&setover::quantity::figure(working.result)), "{shown}");
            seen += 1;
        }
    }
    assert!(seen > 1000, "{seen}");
}

#[test]
fn printed_figures_notice_a_bent_formula() {
    let all = rows::all();
    let written = written::formulas();
    let reached = reached(&all);
    let names: BTreeSet<&str> = written.iter().map(|formula| formula.name.as_str()).collect();
    assert_eq!(names.len(), written.len(), "two formulas have one name");
    let (mut killed, mut equivalent, mut table, mut survivors) = (0, 0, String::new(), String::new());
    let mut not_noticed: BTreeSet<(&str, String, &str)> = BTreeSet::new();
    for (name, reached) in &reached {
        let judgement = judge(&all, reached);
        let places = judgement.killed + judgement.equivalent.len() + judgement.survivors.len();
        table += &format!(
            "| {name} | `{}` | {} | {} of {places} |\n",
            reached.formula.text,
            reached.cases.len(),
            judgement.killed
        );
        killed += judgement.killed;
        equivalent += judgement.equivalent.len();
        survivors.extend(judgement.survivors.iter().map(|(text, why)| format!("- {name}: `{text}`: {why}\n")));
        not_noticed.extend(judgement.survivors.into_iter().map(|(text, why)| (*name, text, why)));
        survivors.extend(judgement.equivalent.iter().map(|text| format!("- {name}: `{text}`: the same everywhere\n")));
    }
    let lines = |start: &str| survivors.lines().filter(|line| line.contains(start)).count();
    let left = survivors.lines().count() - lines("the same everywhere");
    let unreached: Vec<&Written> = written.iter().filter(|f| !reached.contains_key(f.name.as_str())).collect();
    let head = format!(
        "Formulas that printed figures reach: {} of {}. Bent formulas noticed: {killed} of {}; {equivalent} bent formulas are\nthe same everywhere, {left} survive.\n",
        reached.len(),
        written.len(),
        killed + equivalent + left,
    );
    page::say(&format!("{head}\nNot noticed:\n{survivors}"));
    let asserted: BTreeSet<(&str, String, &str)> =
        SURVIVORS.iter().map(|(formula, text, why)| (*formula, (*text).to_owned(), *why)).collect();
    assert_eq!(asserted.len(), SURVIVORS.len(), "a survivor stands twice");
    let new: Vec<_> = not_noticed.difference(&asserted).collect();
    let gone: Vec<_> = asserted.difference(&not_noticed).collect();
    assert!(new.is_empty() && gone.is_empty(), "not asserted: {new:#?}\nasserted, and noticed after all: {gone:#?}");
    let text = written::page(&head, &table, &survivors, &unreached);
    page::hold("docs/formulas.md", &text);
    assert!(reached.len() >= 40, "{head}");
}
