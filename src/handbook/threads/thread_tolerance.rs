//! Tolerances of the metric nut thread (ISO 965-1): of the pitch diameter by diameter band and pitch, of the minor diameter by
//! pitch alone.

use crate::handbook::table::{cited, rows, seen};
use crate::proof::{Mark, Refusal, Worked};
use crate::quantity::{Mm, Quantity, figure};
use serde::Deserialize;
use std::sync::LazyLock;

#[derive(Debug, Deserialize)]
struct Cell {
    of: Of,
    over_mm: f64,
    upto_mm: f64,
    pitch_mm: f64,
    grade_5_um: f64,
    grade_6_um: f64,
    source: String,
    #[serde(deserialize_with = "seen")]
    seen: Mark,
    #[allow(dead_code)]
    note: String,
}

/// Which diameter a tolerance is of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Of {
    /// The pitch diameter, TD2.
    Pitch,
    /// The minor diameter, TD1.
    Minor,
}

/// A grade of tolerance.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Grade {
    /// Grade 5: insert holes.
    Five,
    /// Grade 6: nuts of the usual class.
    Six,
}

const CELLS: &str = include_str!("../../../shared/threads-tolerance.csv");

/// The tolerance of a metric nut thread, mm.
///
/// # Errors
/// [`Refusal::NoRow`] where the table has no such cell.
pub fn tolerance(of: Of, diameter: f64, pitch: f64, grade: Grade) -> Result<Worked<Mm>, Refusal> {
    static ROWS: LazyLock<Vec<Cell>> = LazyLock::new(|| rows(CELLS));
    let holds = |cell: &&Cell| {
        cell.of == of && diameter > cell.over_mm && diameter <= cell.upto_mm && (cell.pitch_mm - pitch).abs() < 1e-9
    };
    let wanted = || format!("diameter {}, pitch {}", figure(diameter), figure(pitch));
    let cell = ROWS.iter().find(holds).ok_or_else(|| Refusal::NoRow { table: "thread tolerance", wanted: wanted() })?;
    let (um, name) = match grade {
        Grade::Five => (cell.grade_5_um, "grade 5"),
        Grade::Six => (cell.grade_6_um, "grade 6"),
    };
    let says = format!(
        "ISO 965-1 {name}, over {} to {} mm, pitch {}: {} um",
        figure(cell.over_mm),
        figure(cell.upto_mm),
        figure(pitch),
        figure(um)
    );
    Ok(Worked::row(Mm::new(um / 1000.0), says, cited(&cell.source, cell.seen)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::handbook::threads::insert::{InsertHole, row};
    use crate::handbook::threads::series::Thread;
    use crate::handbook::threads::thread_form::Form;

    #[test]
    fn every_row_loads() {
        let (all, good, first) = crate::handbook::table::audit::<Cell>(CELLS);
        assert_eq!(all, good, "{first}");
    }

    fn metric() -> impl Iterator<Item = Thread> {
        Thread::all().filter(|thread| thread.form() == Form::Iso)
    }

    fn cell(of: Of, thread: Thread, grade: Grade) -> f64 {
        tolerance(of, thread.major().number(), thread.pitch().number(), grade).unwrap().number()
    }

    #[test]
    fn every_metric_insert_row_is_its_cell() {
        let mut seen = 0;
        for thread in metric() {
            let Ok(row) = row(thread) else { continue };
            let hole = InsertHole::of(Form::Iso, &thread.major(), &thread.pitch()).unwrap();
            let pitch_max = row.pitch_max(&hole.pitch_min, &thread.pitch()).unwrap().number();
            let minor_max = row.minor_max(&hole.minor_min, &thread.pitch()).unwrap().number();
            let wanted = hole.pitch_min.number() + cell(Of::Pitch, thread, Grade::Five);
            assert!((pitch_max - wanted).abs() < 0.000_6, "{}: {pitch_max} for {wanted}", thread.name());
            let wanted = hole.minor_min.number() + cell(Of::Minor, thread, Grade::Five);
            assert!((minor_max - wanted).abs() < 0.000_6, "{}: {minor_max} for {wanted}", thread.name());
            seen += 1;
        }
        assert_eq!(seen, 29);
    }

    #[test]
    fn every_metric_nut_row_is_its_cell() {
        for thread in metric() {
            let [minor_min, minor_max, pitch_max, _] = thread.row().limits.map(Option::unwrap);
            let wanted = thread.pitch_diameter().unwrap().number() + cell(Of::Pitch, thread, Grade::Six);
            assert!((pitch_max - wanted).abs() < 0.001_1, "{}: {pitch_max} for {wanted}", thread.name());
            let wanted = thread.minor_diameter().unwrap().number() + cell(Of::Minor, thread, Grade::Six);
            assert!((minor_max - wanted).abs() < 0.001_1, "{}: {minor_max} for {wanted}", thread.name());
            assert!((minor_min - thread.minor_diameter().unwrap().number()).abs() < 0.001_1, "{}", thread.name());
        }
        let m14: Thread = "M14x1.25".parse().unwrap();
        assert!((m14.row().limits[2].unwrap() - (14.0 - 0.649_519 * 1.25 + 0.180)).abs() < 0.000_6);
    }
}
