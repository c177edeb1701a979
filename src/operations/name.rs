//! Names of computed values.

use crate::proof::{Cause, Fact, Figure, Node, Origin, Worked};
use crate::quantity::{Quantity, Rounds, Unit};
use std::marker::PhantomData;

/// The name of a computed value and what it is; `Q` fixes its unit wherever it is read: card, sketch, log, JSON.
#[derive(Debug)]
pub struct Name<Q> {
    /// The key, in underscores.
    pub key: &'static str,
    /// What it is, in words.
    pub means: &'static str,
    rounds: Rounds,
    kind: PhantomData<Q>,
}

/// Name, meaning and unit of a value, its type forgotten.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Declared {
    /// The key.
    pub key: &'static str,
    /// What it is.
    pub means: &'static str,
    /// Its unit.
    pub unit: Unit,
}

impl<Q: Quantity> Name<Q> {
    /// Names a value.
    pub const fn new(key: &'static str, means: &'static str) -> Self {
        Self { key, means, rounds: Rounds::Nearest, kind: PhantomData }
    }

    /// Names a lower limit, or what is needed at least: it is printed rounded up.
    pub const fn lower(key: &'static str, means: &'static str) -> Self {
        Self { key, means, rounds: Rounds::Up, kind: PhantomData }
    }

    /// Names an upper limit, or what may be had at most: it is printed rounded down.
    pub const fn upper(key: &'static str, means: &'static str) -> Self {
        Self { key, means, rounds: Rounds::Down, kind: PhantomData }
    }

    /// The declaration, for the list of what an operation can give.
    pub const fn declare(&self) -> Declared {
        Declared { key: self.key, means: self.means, unit: Q::UNIT }
    }
}

/// A value on record.
#[derive(Clone, Debug, PartialEq)]
pub struct Value {
    /// Its key.
    pub key: &'static str,
    /// What it is.
    pub means: &'static str,
    /// The figure.
    pub number: f64,
    /// Its doubt (k = 2); 0 where it has none.
    pub plus_minus: f64,
    /// The signed share of each cause in it.
    pub shares: Vec<(Cause, f64)>,
    /// Low and high of a handbook disagreement.
    pub band: Option<(f64, f64)>,
    /// Its unit.
    pub unit: Unit,
    /// Which way it is rounded where it is printed.
    pub rounds: Rounds,
    /// How it came about.
    pub origin: Origin,
    /// Whether it does not follow its readings in a straight line over their doubt: its doubt is then the wider side's.
    pub bent: bool,
    /// What it was worked from.
    pub node: Node,
    /// Whether it rests on a figure that was remembered and not read.
    pub from_memory: bool,
}

impl Value {
    /// The figure with its doubt, for a blank.
    pub(crate) fn fact(&self) -> Fact {
        Fact::doubted(self.number, self.plus_minus, self.unit).rounded(self.rounds)
    }

    /// The figure as it crosses to another operation.
    pub fn figure(&self) -> Figure {
        Figure {
            number: self.number,
            unit: self.unit,
            shares: self.shares.clone(),
            band: self.band,
            origin: self.origin.clone(),
            from_memory: self.from_memory,
            bent: self.bent,
        }
    }

    /// A figure under its name.
    pub fn of<Q: Quantity>(name: &Name<Q>, worked: &Worked<Q>) -> Self {
        Self {
            key: name.key,
            means: name.means,
            number: worked.number(),
            plus_minus: worked.plus_minus(),
            shares: worked.shares().to_vec(),
            band: worked.band(),
            unit: Q::UNIT,
            rounds: name.rounds,
            origin: worked.origin_of_doubt(),
            bent: worked.is_bent(),
            node: worked.node().clone(),
            from_memory: worked.from_memory(),
        }
    }
}
