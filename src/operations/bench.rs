//! All that an operation may look at.

use super::Name;
use crate::handbook::Material;
use crate::handbook::constants::guard_factor;
use crate::job::{Address, Entry, Ledger, PartFacts};
use crate::proof::{At, Fact, Figure, Place, Refusal, Worked};
use crate::quantity::{Print, Quantity, figure};
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
    choosing: bool,
}

impl<'a> Bench<'a> {
    /// A bench.
    pub fn new(shop: Option<&'a Shop>, part: &'a PartFacts, address: &'a Address, ledger: &'a Ledger) -> Self {
        Self { shop, part, address, ledger, choosing: false }
    }

    /// The same bench with another part on it.
    pub(super) fn with_part<'b>(&'b self, part: &'b PartFacts) -> Bench<'b> {
        Bench { part, ..*self }
    }

    /// The part, as far as what is read is of another metal: sizes that are read warm are brought to 20 °C by that.
    pub(super) fn part_of(&self, metal: &Material, place: Place) -> PartFacts {
        PartFacts { material: Some(At { value: metal.clone(), place }), ..self.part.clone() }
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

    /// The size of this operation as it was left, where the log holds it: asked at the few named points where work goes on from
    /// a size in hand, never while alternatives are worked ([`Self::choosing`]).
    ///
    /// # Errors
    /// [`Refusal::WrongUnit`] where the log has it in another unit.
    pub fn left<Q: Quantity>(&self, name: &Name<Q>) -> Result<Option<Worked<Q>>, Refusal> {
        let entry = self.ledger.as_left(self.address, name.key).filter(|_| !self.choosing);
        entry.map(|entry| in_unit(entry.figure, &self.address.value(name.key))).transpose()
    }

    /// What the log tells beside a size as it was left, out of the same readings in a row.
    ///
    /// # Errors
    /// As [`Self::left`].
    pub(crate) fn left_beside<Q: Quantity>(&self, name: &Name<Q>) -> Result<Option<Worked<Q>>, Refusal> {
        self.left(name)
    }

    /// The same bench for working one of several: the log is not on it, so that what was left of one that was made cannot make
    /// another look made.
    #[must_use]
    pub(crate) fn choosing(&self) -> Self {
        Self { choosing: true, ..*self }
    }

    /// A size of another operation, whatever it is; none where that operation is not planned or did not give it.
    pub fn look_up(&self, address: &Address) -> Option<Entry<'_>> {
        self.ledger.get(address)
    }

    /// A figure that another operation hands over: planned or as left, with its band and with its doubt by cause, so that a
    /// reading that comes in by two ways is one reading.
    ///
    /// # Errors
    /// [`Refusal::NotHandedOver`] where it was not worked out, [`Refusal::WrongUnit`] where it is another kind of figure.
    pub fn handed<Q: Quantity>(&self, address: &Address) -> Result<Worked<Q>, Refusal> {
        let lacking = || Refusal::NotHandedOver { address: address.to_string() };
        let entry = self.look_up(address).ok_or_else(lacking)?;
        let says = format!("handed over by {address}: {} {}", figure(entry.figure.number), entry.figure.unit);
        Ok(in_unit::<Q>(&entry.figure.clone().handed_by(entry.owner), address)?.told(says))
    }
}

/// A figure of the ledger as the quantity asked for.
fn in_unit<Q: Quantity>(found: &Figure, address: &Address) -> Result<Worked<Q>, Refusal> {
    let wrong = || Refusal::WrongUnit { address: address.to_string(), is: found.unit, asked: Q::UNIT };
    found.worked().ok_or_else(wrong)
}
