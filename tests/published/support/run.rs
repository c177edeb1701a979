//! One working of a row: which formulas it reaches and, for a mutant, one of them bent.

use setover::proof::notation::Expression;
use setover::proof::{Formula, Origin, Refusal, Worked, Working};
use setover::quantity::{Quantity, Unit};

/// What came out, in the unit it is held in.
#[derive(Clone, Copy, Debug)]
pub struct Outcome {
    /// The number.
    pub number: f64,
    /// Its unit.
    pub unit: Unit,
}

impl<Q: Quantity> From<Worked<Q>> for Outcome {
    fn from(worked: Worked<Q>) -> Self {
        Self { number: worked.number(), unit: Q::UNIT }
    }
}

/// One working.
#[derive(Default)]
pub struct Run<'a> {
    /// Every formula that was worked on the way, with its numbers.
    pub reached: Vec<Working>,
    bent: Option<(&'static Formula, &'a Expression)>,
}

impl<'a> Run<'a> {
    /// A run in which a formula says something else.
    pub fn bent(formula: &'static Formula, into: &'a Expression) -> Self {
        Self { reached: Vec::new(), bent: Some((formula, into)) }
    }

    /// Takes a figure on, and notes its formula; the bent formula gives what its other text gives.
    pub fn take<Q: Quantity>(&mut self, worked: Result<Worked<Q>, Refusal>) -> Result<Worked<Q>, String> {
        let worked = worked.map_err(|refusal| refusal.to_string())?;
        let Origin::Formula(working, _) = &**worked.origin() else { return Ok(worked) };
        self.reached.push(working.clone());
        match self.bent {
            Some((formula, into)) if std::ptr::eq(formula, working.formula) => {
                let number = into.value(&|symbol| working.number_of(symbol)).filter(|n| n.is_finite());
                let number = number.ok_or("the bent formula has no result")?;
                Ok(worked.shifted(number - worked.number(), "bent"))
            }
            _ => Ok(worked),
        }
    }

    /// Takes a figure on as the outcome.
    pub fn end<Q: Quantity>(&mut self, worked: Result<Worked<Q>, Refusal>) -> Result<Outcome, String> {
        self.take(worked).map(Outcome::from)
    }
}
