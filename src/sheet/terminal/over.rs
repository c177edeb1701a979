//! An operation over a range of a key: a line picture of each verdict, a table, and where each verdict turns.

use super::lines::Lines;
use crate::proof::Verdict;
use crate::sheet::words;
use crate::sheet::words::over as said;

/// An operation over a range of one key.
#[derive(Clone, Debug)]
pub struct Course {
    /// The key.
    pub key: String,
    /// The operation, then its alternatives.
    pub names: Vec<String>,
    /// Each value, the verdict of each name, and what was chosen.
    pub rows: Vec<(String, Vec<Verdict>, String)>,
    /// Where verdicts turn.
    pub turns: Vec<Turn>,
}

/// A verdict that turns.
#[derive(Clone, Debug)]
pub struct Turn {
    /// Whose.
    pub name: String,
    /// The verdict before.
    pub was: Verdict,
    /// The verdict after.
    pub now: Verdict,
    /// The last value of the better verdict.
    pub at: String,
}

/// An operation over the ranges of two keys.
#[derive(Clone, Debug)]
pub struct Grid {
    /// The key that goes down.
    pub down: String,
    /// The key that goes across.
    pub across: String,
    /// The ends of what goes across.
    pub ends: (String, String),
    /// Each value of the first, and the verdicts along the second.
    pub rows: Vec<(String, Vec<Verdict>)>,
    /// Where the verdict turns along each row, and down the first and the last column.
    pub turns: Vec<Turn>,
}

/// The course as text.
pub fn course(course: &Course) -> String {
    let mut out = Lines::default();
    let (first, last) = (course.rows.first(), course.rows.last());
    let end = |row: Option<&(String, Vec<Verdict>, String)>| row.map_or_else(String::new, |row| row.0.clone());
    out.line(&said::from_to(&course.key, &end(first), &end(last)));
    out.gap();
    let bar = |at: usize| {
        course.rows.iter().map(|row| row.1.get(at).map_or(' ', |verdict| said::sign(*verdict))).collect::<String>()
    };
    let bars = course.names.iter().enumerate().map(|(at, name)| vec![name.clone(), bar(at)]).collect::<Vec<_>>();
    out.table(2, &bars);
    out.line(&format!("  {}", said::SIGNS));
    out.gap();
    if course.turns.is_empty() {
        out.line(said::NO_TURN);
    }
    turns(&course.turns).iter().for_each(|turn| out.hanging("  ", turn));
    out.gap();
    let every = (course.rows.len() / 8).max(1);
    let rows = course.rows.iter().step_by(every).map(|(value, verdicts, chosen)| {
        let own = verdicts.first().map_or("", |verdict| words::verdict(*verdict));
        vec![value.clone(), own.to_owned(), chosen.clone()]
    });
    out.table(2, &std::iter::once(said::head(&course.key)).chain(rows).collect::<Vec<_>>());
    out.heading(words::STANDING);
    out.finish()
}

/// Where each verdict turns, a sentence each.
pub(in crate::sheet) fn turns(all_turns: &[Turn]) -> Vec<String> {
    let of = |name: &str| all_turns.iter().filter(move |turn| turn.name == name).collect::<Vec<_>>();
    let better = |turn: &Turn| turn.now < turn.was;
    let mut said_of: Vec<&str> = Vec::new();
    let mut all = Vec::new();
    for turn in all_turns {
        // What lies in a drawer comes in steps: between two values another may turn it again, and no sentence says where.
        let to_and_fro = of(&turn.name).iter().any(|other| better(other) != better(turn));
        if !to_and_fro {
            let (was, now) = (words::verdict(turn.was), words::verdict(turn.now));
            all.push(said::turn(&turn.name, &turn.at, was, now, better(turn)));
        } else if !said_of.contains(&turn.name.as_str()) {
            said_of.push(&turn.name);
            all.push(said::often(&turn.name));
        }
    }
    all
}

/// The grid as text.
pub fn grid(grid: &Grid) -> String {
    let mut out = Lines::default();
    out.line(&said::from_to(&grid.across, &grid.ends.0, &grid.ends.1));
    out.gap();
    let line = |verdicts: &[Verdict]| {
        verdicts.iter().map(|verdict| said::sign(*verdict)).flat_map(|sign| [sign, sign]).collect::<String>()
    };
    let rows = grid.rows.iter().map(|(value, verdicts)| vec![format!("{} {value}", grid.down), line(verdicts)]);
    out.table(2, &rows.collect::<Vec<_>>());
    out.line(&format!("  {}", said::SIGNS));
    out.gap();
    if grid.turns.is_empty() {
        out.line(said::NO_TURN);
    }
    turns(&grid.turns).iter().for_each(|turn| out.hanging("  ", turn));
    out.heading(words::STANDING);
    out.finish()
}
