//! A reply of the book: what a question comes back with, before anyone lays it out.

use crate::operations::{Name, Value};
use crate::proof::{Origin, Refusal, Source, Worked};
use crate::quantity::{Quantity, Unit};

/// The heading of what is wanted first; it is not printed.
pub(crate) const WANTED: &str = "first";

/// A row of a table as the book holds it, for the reader to judge.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// The heading that it stands under.
    pub under: &'static str,
    /// Which row.
    pub what: String,
    /// Low, high and unit as the table spells it, where the row is a figure.
    pub figure: Option<(f64, f64, String)>,
    /// Its condition, its flag, its remark.
    pub says: String,
    /// Where it comes from.
    pub source: Source,
}

impl Row {
    /// A row in words.
    pub fn words(under: &'static str, what: impl Into<String>, says: impl Into<String>, source: Source) -> Self {
        Self { under, what: what.into(), figure: None, says: says.into(), source }
    }

    /// A row with a figure or band.
    pub fn figure(
        under: &'static str,
        what: impl Into<String>,
        (low, high, unit): (f64, f64, &str),
        says: impl Into<String>,
        source: Source,
    ) -> Self {
        let unit = if unit == "-" { "" } else { unit };
        Self { figure: Some((low, high, unit.to_owned())), ..Self::words(under, what, says, source) }
    }

    /// A row whose figure was worked here: its band, or the figure alone.
    pub fn worked<Q: Quantity>(
        under: &'static str,
        what: impl Into<String>,
        worked: &Worked<Q>,
        says: impl Into<String>,
        source: Source,
    ) -> Self {
        let (low, high) = worked.band().unwrap_or((worked.number(), worked.number()));
        let unit = if Q::UNIT == Unit::One { "" } else { Q::UNIT.text() };
        Self::figure(under, what, (low, high, unit), says, source)
    }
}

/// One of several that the question may mean or have.
#[derive(Clone, Debug, PartialEq)]
pub struct Offer {
    /// Its name.
    pub name: String,
    /// What is to be said of it.
    pub says: String,
    /// Its figures.
    pub values: Vec<Value>,
}

impl Offer {
    /// An offer without figures yet.
    pub fn new(name: impl Into<String>, says: impl Into<String>) -> Self {
        Self { name: name.into(), says: says.into(), values: Vec::new() }
    }

    /// The same with a figure under its name.
    pub fn with<Q: Quantity>(mut self, name: &Name<Q>, worked: &Worked<Q>) -> Self {
        self.values.push(Value::of(name, worked));
        self
    }
}

/// What a question comes back with.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Reply {
    /// What the reply is about.
    pub title: String,
    /// Figures by name.
    pub values: Vec<Value>,
    /// Rows of the tables.
    pub rows: Vec<Row>,
    /// The heading of the offers, where they have one of their own.
    pub offers_heading: Option<&'static str>,
    /// What the question may mean or have, nearest first.
    pub offers: Vec<Offer>,
    /// What could not be worked out: what, and why.
    pub refused: Vec<(String, Refusal)>,
    /// What a reader should know.
    pub notes: Vec<String>,
    /// Whether the rows under [`WANTED`], or where there are none the names of the offers, are what was asked for, and all else waits
    /// until it is.
    pub brief: bool,
}

impl Reply {
    /// An empty reply.
    pub fn new(title: impl Into<String>) -> Self {
        Self { title: title.into(), ..Self::default() }
    }

    /// What is wanted first, without the rest.
    #[must_use]
    pub fn first(&self) -> Self {
        let rows: Vec<Row> = self.rows.iter().filter(|row| row.under == WANTED).cloned().collect();
        let title = self.title.clone();
        if self.wants_rows() {
            return Self { rows, ..Self::new(title) };
        }
        let offers = self.offers.iter().map(|offer| Offer { values: Vec::new(), ..offer.clone() }).collect();
        let (refused, notes) = (self.refused.clone(), self.notes.clone());
        Self { offers, offers_heading: self.offers_heading, refused, notes, ..Self::new(title) }
    }

    /// Whether what is wanted first are rows of a table.
    pub(crate) fn wants_rows(&self) -> bool {
        self.rows.iter().any(|row| row.under == WANTED)
    }

    /// Puts a figure in the reply.
    pub fn put<Q: Quantity>(&mut self, name: &Name<Q>, worked: &Worked<Q>) {
        self.values.push(Value::of(name, worked));
    }

    /// Puts a figure in the reply, or why there is none.
    pub(crate) fn put_or_say<Q: Quantity>(
        &mut self,
        name: &Name<Q>,
        worked: Result<Worked<Q>, Refusal>,
    ) -> Option<Worked<Q>> {
        match worked {
            Ok(worked) => {
                self.put(name, &worked);
                Some(worked)
            }
            Err(refusal) => {
                self.refuse(name.means, refusal);
                None
            }
        }
    }

    /// Says what could not be worked out.
    pub(crate) fn refuse(&mut self, what: impl Into<String>, why: Refusal) {
        self.refused.push((what.into(), why));
    }

    /// Adds a note, once, where there is one.
    pub fn note(&mut self, note: impl Into<String>) {
        let note = note.into();
        if !note.is_empty() && !self.notes.contains(&note) {
            self.notes.push(note);
        }
    }

    /// Every source that the reply stands on, in its own order; what was given or assumed has none.
    pub fn sources(&self) -> Vec<String> {
        let mut all: Vec<String> = Vec::new();
        let in_offers = self.offers.iter().flat_map(|offer| &offer.values);
        let of_values = self.values.iter().chain(in_offers).filter_map(|value| source_of(&value.origin));
        for source in of_values.chain(self.rows.iter().map(|row| row.source.to_string())) {
            if !all.contains(&source) {
                all.push(source);
            }
        }
        all
    }
}

/// The source of a figure, unless it was given or assumed.
pub fn source_of(origin: &Origin) -> Option<String> {
    origin.mark().map(|_| origin.source())
}
