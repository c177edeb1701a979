//! Holes that a bolt passes through: close, free, wide.

use super::series::Thread;
use super::thread_form::Form;
use crate::handbook::table::{cited, rows, seen};
use crate::proof::{Mark, Source};
use crate::quantity::{by_drawer, figure};
use serde::Deserialize;
use std::sync::LazyLock;

/// A row of the table of clearance holes, in the unit of its own list.
#[derive(Debug, Deserialize)]
struct Row {
    form: String,
    major: f64,
    close: String,
    free: String,
    wide: String,
    source: String,
    #[serde(deserialize_with = "seen")]
    seen: Mark,
}

/// The holes for a bolt, each as its drill is found: how it fits, and the drill.
pub struct ClearanceHoles {
    /// How each fits, with its drill.
    pub drills: Vec<(&'static str, String)>,
    /// Where they come from.
    pub source: Source,
}

/// The clearance holes for the bolt of a thread; none where no list has its diameter.
pub fn clearance_holes(thread: Thread) -> Option<ClearanceHoles> {
    static ROWS: LazyLock<Vec<Row>> = LazyLock::new(|| rows(include_str!("../../../shared/clearance-holes.csv")));
    /// A listed diameter is that of the thread, mm.
    const SAME: f64 = 0.005;
    let (form, unit) = match thread.form() {
        Form::Iso => ("iso", 1.0),
        Form::Ba => ("ba", 1.0),
        Form::Unified | Form::Whitworth | Form::Cycle => ("inch", 25.4),
    };
    let major = thread.major().number();
    let row = ROWS.iter().find(|row| row.form == form && (row.major * unit - major).abs() < SAME)?;
    let drill = |cell: &String| match cell.parse::<f64>() {
        Ok(size) => Some(format!("{} mm", figure(size))),
        Err(_) => by_drawer(cell),
    };
    let all = [("close", &row.close), ("free", &row.free), ("wide", &row.wide)];
    let drills = all.into_iter().filter_map(|(fit, cell)| Some((fit, drill(cell)?))).collect();
    Some(ClearanceHoles { drills, source: cited(&row.source, row.seen) })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_bolt_passes_its_holes_and_each_is_wider_than_the_one_before() {
        let mut found = 0;
        for thread in Thread::all() {
            let Some(holes) = clearance_holes(thread) else { continue };
            found += 1;
            assert!(!holes.drills.is_empty(), "{}", thread.name());
            let sizes: Vec<f64> = holes
                .drills
                .iter()
                .map(|(_, drill)| drill.parse::<crate::quantity::Written<crate::quantity::Mm>>().unwrap())
                .map(|size| crate::quantity::Quantity::number(size.value))
                .collect();
            assert!(sizes[0] > thread.major().number(), "{}: {sizes:?}", thread.name());
            assert!(sizes.is_sorted_by(|a, b| a < b), "{}: {sizes:?}", thread.name());
            assert!(
                sizes.iter().all(|size| *size < thread.major().number() * 1.25 + 0.2),
                "{}: {sizes:?}",
                thread.name()
            );
        }
        assert!(found > 80, "{found}");
    }

    /// The drills of the read tables of threads are those of the list of names.
    #[test]
    fn named_drills_are_as_large_as_the_tables_of_threads_have_them() {
        let mut held = 0;
        for thread in Thread::all() {
            let name = thread.row().tap_drill_name.as_str();
            let (Some(listed), false) = (thread.row().tap_drill, name.is_empty()) else { continue };
            let Some(named) = by_drawer(name) else { continue };
            let size = named.parse::<crate::quantity::Written<crate::quantity::Mm>>().unwrap().value;
            let off = (crate::quantity::Quantity::number(size) - listed).abs();
            // A list in millimetres that rounded inches to hundredths first; the next drill is four times as far away.
            assert!(off <= 0.0131, "{}: {named} is not {listed} mm", thread.name());
            held += 1;
        }
        assert!(held > 50, "{held}");
    }
}
