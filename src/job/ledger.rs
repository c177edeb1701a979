//! The sizes of a job by address: what each operation plans, and what the log says was left.

use super::Address;
use crate::quantity::Unit;
use std::collections::BTreeMap;

/// One size on the ledger.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry {
    /// The figure.
    pub number: f64,
    /// Its doubt (k = 2).
    pub plus_minus: f64,
    /// The ends of its band, where it has one.
    pub band: Option<(f64, f64)>,
    /// Its unit.
    pub unit: Unit,
    /// Whether it was measured after the work, and not planned.
    pub as_left: bool,
    /// Whether it rests on a figure from memory.
    pub from_memory: bool,
    /// Whether the operation that plans it fails: what is not to be cut leaves no size.
    pub fails: bool,
}

/// The sizes of a job by address.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Ledger(BTreeMap<Address, Entry>);

impl Ledger {
    /// Puts a size down; a size that was measured is never overwritten by one that was planned.
    pub fn put(&mut self, address: Address, entry: Entry) {
        let kept = self.0.get(&address).is_some_and(|old| old.as_left && !entry.as_left);
        if !kept {
            self.0.insert(address, entry);
        }
    }

    /// The size at an address.
    pub fn get(&self, address: &Address) -> Option<&Entry> {
        self.0.get(address)
    }

    /// The size at an address as it was left, where it was.
    pub fn as_left(&self, address: &Address) -> Option<&Entry> {
        self.get(address).filter(|entry| entry.as_left)
    }
}
