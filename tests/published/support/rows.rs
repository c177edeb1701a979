//! A row of the case tables: what was printed, where, and how near it must be met.

use super::inputs::Inputs;
use serde::Deserialize;
use setover::proof::Mark;
use std::path::Path;

/// The half of the book that a row belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Half {
    /// Threads, inserts, fits, presses, reamers.
    Joining,
    /// Cutting, materials, uncertainty.
    Cutting,
}

/// What a printed figure is to us.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Kind {
    /// It must be met.
    Published,
    /// An error in print: it must not be met.
    Negative,
    /// A rule of thumb beside the exact figure: it must not be met either.
    Rule,
}

/// A row.
#[derive(Clone, Debug, Deserialize)]
pub struct Row {
    /// Its id.
    pub id: String,
    /// What is worked out.
    pub subject: String,
    inputs: String,
    /// The figure as it was printed.
    pub printed: f64,
    digits: i32,
    /// Its unit.
    pub unit: String,
    /// How near, where the source itself rounded on the way.
    pub within: Option<f64>,
    /// The book, page or table.
    pub source: String,
    seen: String,
    /// What it is to us.
    pub kind: Kind,
    /// A remark.
    pub note: String,
    /// Its half of the book.
    #[serde(skip, default = "joining")]
    pub half: Half,
}

fn joining() -> Half {
    Half::Joining
}

impl Row {
    /// What is given.
    pub fn inputs(&self) -> Inputs {
        Inputs::read(&self.inputs)
    }

    /// How well the source is known.
    pub fn mark(&self) -> Mark {
        Mark::named(&self.seen).unwrap_or_else(|| panic!("{}: `{}` is not a mark", self.id, self.seen))
    }

    /// How far a figure may lie from the print: half a unit of its last digit, or what the row says.
    pub fn tolerance(&self) -> f64 {
        self.within.unwrap_or(0.5 * 10_f64.powi(-self.digits))
    }

    /// Whether a figure agrees with the print.
    pub fn agrees(&self, number: f64) -> bool {
        (number - self.printed).abs() <= self.tolerance() + 1e-9 * self.printed.abs().max(1e-3)
    }
}

/// Every row of every case table.
pub fn all() -> Vec<Row> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/published");
    let mut files: Vec<_> =
        std::fs::read_dir(folder).expect("folder").map(|entry| entry.expect("entry").path()).collect();
    files.sort();
    let tables = files.into_iter().filter(|path| path.extension().is_some_and(|end| end == "csv"));
    tables.flat_map(|path| table(&path)).collect()
}

fn table(path: &Path) -> Vec<Row> {
    let name = path.file_name().expect("name").to_string_lossy().into_owned();
    let half = if name.starts_with("joining-") { Half::Joining } else { Half::Cutting };
    let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).from_path(path).expect("table");
    let rows = reader.deserialize::<Row>();
    rows.map(|row| Row { half, ..row.unwrap_or_else(|e| panic!("{name}: {e}")) }).collect()
}
