//! All that an operation may look at.

use crate::handbook::constants::guard_factor;
use crate::job::{Address, Entry, Ledger, PartFacts};
use crate::proof::{At, Cause, Fact, Origin, Refusal, Worked};
use crate::quantity::{Mm, Print, Quantity, Unit, figure};
use crate::shop::Shop;

/// Shop, part, ledger and guard factor; it can be looked at, and that is all.
#[derive(Clone, Copy, Debug)]
pub struct Bench<'a> {
    /// The shop, where there is one.
    pub shop: Option<&'a Shop>,
    /// The part.
    pub part: &'a PartFacts,
    /// Where the operation stands in the job.
    pub address: &'a Address,
    ledger: &'a Ledger,
}

impl<'a> Bench<'a> {
    /// A bench.
    pub fn new(shop: Option<&'a Shop>, part: &'a PartFacts, address: &'a Address, ledger: &'a Ledger) -> Self {
        Self { shop, part, address, ledger }
    }

    /// The same bench with another part on it.
    pub(super) fn with_part<'b>(&'b self, part: &'b PartFacts) -> Bench<'b> {
        Bench { part, ..*self }
    }

    /// The factor on the standard uncertainty in verdicts.
    pub fn guard(&self) -> f64 {
        self.shop.map_or_else(guard_factor, |shop| shop.habits.guard())
    }

    /// The units that the shop prints in.
    pub fn print(&self) -> Print {
        self.shop.map_or(Print::Metric, |shop| shop.units)
    }

    /// A figure in the units of print, for a name or a dial.
    pub fn say(&self, fact: &Fact) -> String {
        fact.said(None, self.print())
    }

    /// The size of this operation as it was left, where the log holds it.
    pub fn as_left(&self, key: &str) -> Option<&Entry> {
        self.ledger.as_left(&self.address.value(key))
    }

    /// A size of another operation, whatever it is; none where that operation is not planned or did not give it.
    pub fn look_up(&self, address: &Address) -> Option<&Entry> {
        self.ledger.get(address)
    }

    /// A length that another operation hands over.
    ///
    /// # Errors
    /// [`Refusal::NotHandedOver`] where it was not worked out or is no length.
    pub fn handed(&self, address: &At<Address>) -> Result<Worked<Mm>, Refusal> {
        let lacking = || Refusal::NotHandedOver { address: address.value.to_string() };
        let entry = self.look_up(&address.value).filter(|entry| entry.unit == Unit::Mm).ok_or_else(lacking)?;
        let lines = vec![format!("handed over by {}: {} mm", address.value, figure(entry.number))];
        let mark = if entry.from_memory { crate::proof::Mark::FromMemory } else { crate::proof::Mark::Derived };
        let source = crate::proof::Source::fixed("another operation of this job", mark);
        let origin = if entry.as_left { Origin::AsLeft } else { Origin::Method { lines, source } };
        let handed = Worked::exact(Mm::new(entry.number), origin);
        let handed = handed.with_doubt(Cause::Reading(address.place), entry.plus_minus);
        Ok(match entry.band {
            Some((low, high)) => handed.with_band(low, high),
            None => handed,
        })
    }
}
