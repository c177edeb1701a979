//! The sizes of a job: what each operation plans, and what the log says was left.

use super::Address;
use crate::proof::{Cause, Figure, Owner};
use std::collections::HashMap;

/// What one operation of the job gives.
#[derive(Clone, Debug, PartialEq)]
struct Given {
    owner: Owner,
    /// Whether it fails: what is not to be cut leaves no size.
    fails: bool,
    planned: Vec<(&'static str, Figure)>,
    left: Vec<(String, Figure)>,
}

/// The sizes of a job by operation and value. Planned sizes and sizes as left stand beside each other: neither overwrites the
/// other.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Ledger {
    by_part: HashMap<String, HashMap<String, Given>>,
    operations: u32,
}

/// A size on the ledger.
#[derive(Clone, Copy, Debug)]
pub struct Entry<'a> {
    /// The figure.
    pub figure: &'a Figure,
    /// Whose it is.
    pub owner: Owner,
    /// Whether the operation that plans it fails.
    pub fails: bool,
    /// Whether it was measured after the work, and not planned.
    pub as_left: bool,
}

impl Ledger {
    /// Puts down what an operation plans, each in the place of what it planned before.
    pub fn plan(&mut self, of: &Address, fails: bool, planned: Vec<(&'static str, Figure)>) {
        let given = self.given_mut(of);
        given.fails = fails;
        given.planned.retain(|old| !planned.iter().any(|new| new.0 == old.0));
        given.planned.extend(planned);
    }

    /// Puts down a size as it was left, in the place of one that the log held before.
    pub fn leave(&mut self, of: &Address, value: &str, figure: Figure) {
        let given = self.given_mut(of);
        given.left.retain(|left| left.0 != value);
        given.left.push((value.to_owned(), figure));
    }

    /// Takes in what another log holds of operations that this one has not; its lines are numbered `apart` further, so that the
    /// same line of two logs is two readings.
    pub(crate) fn add_left(&mut self, other: Self, apart: u32) {
        let of_part = |(part, operations): (String, HashMap<String, Given>)| {
            operations.into_iter().map(move |(operation, given)| (Address::of(&part, &operation), given))
        };
        let mut all: Vec<(Address, Given)> = other.by_part.into_iter().flat_map(of_part).collect();
        all.sort_by(|a, b| a.0.cmp(&b.0));
        for (address, given) in all {
            for (value, mut figure) in given.left {
                for share in &mut figure.shares {
                    if let Cause::Left(line) = &mut share.0 {
                        *line = line.saturating_add(apart);
                    }
                }
                self.leave(&address, &value, figure);
            }
        }
    }

    /// What it holds of some operations, and of no other.
    #[must_use]
    pub(crate) fn only<'a>(&self, of: impl IntoIterator<Item = &'a Address>) -> Self {
        let mut own = Self { by_part: HashMap::new(), operations: self.operations };
        for (address, given) in of.into_iter().filter_map(|address| Some((address, self.given(address)?))) {
            let part = own.by_part.entry(address.part.clone()).or_default();
            part.insert(address.operation.clone(), given.clone());
        }
        own
    }

    /// The same without what was left of an operation under some of its names.
    #[must_use]
    pub(crate) fn without_left(&self, of: &Address, is_out: impl Fn(&str) -> bool) -> Self {
        let mut own = self.clone();
        own.given_mut(of).left.retain(|left| !is_out(&left.0));
        own
    }

    fn given_mut(&mut self, of: &Address) -> &mut Given {
        let number = &mut self.operations;
        let new = || {
            *number += 1;
            Given { owner: Owner(*number), fails: false, planned: Vec::new(), left: Vec::new() }
        };
        self.by_part.entry(of.part.clone()).or_default().entry(of.operation.clone()).or_insert_with(new)
    }

    fn given(&self, of: &Address) -> Option<&Given> {
        self.by_part.get(&of.part)?.get(&of.operation)
    }

    /// A value of an operation: as it was left, else as it is planned.
    pub fn value(&self, of: &Address, value: &str) -> Option<Entry<'_>> {
        self.as_left(of, value).or_else(|| {
            let given = self.given(of)?;
            let figure = given.planned.iter().find(|planned| planned.0 == value).map(|planned| &planned.1)?;
            Some(Entry { figure, owner: given.owner, fails: given.fails, as_left: false })
        })
    }

    /// A value of an operation as it was left, where it was.
    pub fn as_left(&self, of: &Address, value: &str) -> Option<Entry<'_>> {
        let given = self.given(of)?;
        let figure = given.left.iter().find(|left| left.0 == value).map(|left| &left.1)?;
        Some(Entry { figure, owner: given.owner, fails: false, as_left: true })
    }

    /// The size at an address.
    pub fn get(&self, address: &Address) -> Option<Entry<'_>> {
        self.value(address, address.value.as_deref()?)
    }
}
