//! A line of a sheet to write a size in.

use crate::operations::{Limits, Name};
use crate::proof::{Fact, Words};
use crate::quantity::{Decimals, Print, Quantity, Rounds, Shown};

/// A line to write the as-left in.
#[derive(Clone, Debug, PartialEq)]
pub struct Blank<W = Words> {
    /// Its label in the card, under `blanks`.
    pub words: W,
    /// As found, with its unit.
    pub as_found: Option<Fact>,
    /// Whether nobody found that: it is what the work before it leaves, as it was worked out.
    pub is_expected: bool,
    /// What it should be.
    pub target: Option<Target>,
    /// How many readings its step asks.
    pub readings: usize,
    /// The gauge by its name in the shop, where the shop has one.
    pub gauge: Option<W>,
    /// The name under which the log holds what is written here.
    pub log: Option<LeftAs>,
}

/// How the log holds what is written on a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct LeftAs {
    /// The name.
    pub key: &'static str,
    /// What stands before the figure, where something does, as the parameter of a roughness.
    pub before: &'static str,
    /// Whether it is what the work of the set-up leaves: what is read before does not say that it was done.
    pub closes: bool,
    /// Whether it must be known of work that is done, whatever else is.
    pub is_wanted: bool,
    /// Whether all its readings together are that size, and none of them alone.
    pub is_of_all: bool,
}

impl Blank {
    /// The same line of a size that nobody found: it is as the work before leaves it.
    #[must_use]
    pub(crate) const fn expected(mut self) -> Self {
        self.is_expected = true;
        self
    }

    /// The same line of a size that the log may hold as it was left: what is written there is read under its name.
    #[must_use]
    pub(crate) fn left_as<Q: Quantity>(self, name: &Name<Q>) -> Self {
        let declared = name.declare();
        Self {
            log: declared.left.map(|_| LeftAs {
                key: declared.key,
                before: Q::BEFORE,
                closes: true,
                is_wanted: false,
                is_of_all: false,
            }),
            ..self
        }
    }

    /// The same line of a size that may be written down before the work is done, or that the work is done without.
    #[must_use]
    pub(crate) fn also_left_as<Q: Quantity>(self, name: &Name<Q>) -> Self {
        let line = self.left_as(name);
        Self { log: line.log.map(|left| LeftAs { closes: false, ..left }), ..line }
    }

    /// The same line of a size that its readings make together.
    #[must_use]
    pub(crate) fn of_all_readings(self) -> Self {
        Self { log: self.log.map(|left| LeftAs { is_of_all: true, ..left }), ..self }
    }

    /// The same line of a size that must be known whatever is done behind it: nothing that is read later tells it.
    #[must_use]
    pub(crate) fn wanted(self) -> Self {
        Self { log: self.log.map(|left| LeftAs { is_wanted: true, ..left }), ..self }
    }

    /// The same line of a size that the work leaves, and that alone does not say that it was done.
    #[must_use]
    pub(crate) fn wanted_as<Q: Quantity>(self, name: &Name<Q>) -> Self {
        self.also_left_as(name).wanted()
    }
}

/// What a size should be when the work is done.
#[derive(Clone, Debug, PartialEq)]
pub enum Target {
    /// A figure aimed at, with its doubt where it has one.
    Aim(Fact),
    /// Anything between two limits.
    Between(Fact, Fact),
    /// Anything up to a limit.
    UpTo(Fact),
}

impl Target {
    /// A target: of a span its limits, else a figure aimed at.
    pub fn of(fact: Fact) -> Self {
        match fact {
            Fact::Span(low, high) => Self::Between(*low, *high),
            aim => Self::Aim(aim),
        }
    }

    /// The same, with no limit beyond either of these: what is foretold with its doubt is good only within them.
    pub(super) fn within(&self, limits: &Limits) -> Self {
        if let (Self::Aim(Fact::Figure { doubt: Some(_), .. }), Some(most)) = (self, &limits.most) {
            return match &limits.least {
                Some(least) => Self::Between(least.clone(), most.clone()),
                None => Self::UpTo(most.clone()),
            };
        }
        let (least, most) = limits.numbers();
        let inside = |end: &Fact, (least, most): (Option<f64>, Option<f64>)| match end {
            Fact::Figure { number, doubt: None, unit, decimals, .. } => {
                let inside = number.max(least.unwrap_or(f64::MIN)).min(most.unwrap_or(f64::MAX));
                // The limit of the hold point in the digits that it has there.
                let same = [(least, &limits.least), (most, &limits.most)].into_iter();
                let same = same.filter(|(end, _)| *end == Some(inside)).find_map(|(_, fact)| fact.clone());
                same.unwrap_or_else(|| Fact::figure(inside, *unit).to(*decimals))
            }
            other => other.clone(),
        };
        match self {
            Self::Between(low, high) => Self::Between(inside(low, (least, None)), inside(high, (None, most))),
            Self::UpTo(high) => Self::UpTo(inside(high, (None, most))),
            Self::Aim(_) => self.clone(),
        }
    }

    /// Its figures with their parts apart; of two limits in one unit of print the upper alone names it.
    pub fn shown(&self, print: Print) -> Vec<Shown> {
        match self {
            // A greatest that was worked out, and not a limit, stands as the words say it.
            Self::UpTo(Fact::Figure { number, doubt: None, unit, decimals, rounds })
                if *decimals != Decimals::AsTyped && *rounds != Rounds::Up =>
            {
                // The upper end of a window that is open below.
                vec![Shown::window(*number - 1.0, *number, *unit, *decimals, print).1]
            }
            Self::Aim(fact) | Self::UpTo(fact) => fact.shown(None, print).into_iter().collect(),
            Self::Between(low, high) => Fact::span_shown(low, high, None, print),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Unit;

    fn said(target: &Target) -> Vec<String> {
        target.shown(Print::Metric).iter().map(|shown| shown.number.to_string()).collect()
    }

    #[test]
    fn limits_are_no_wider_than_those_of_the_hold_point_that_reads_them() {
        let mm = |number| Fact::figure(number, Unit::Mm);
        let wide = Target::Between(mm(24.87), mm(25.0));
        let within = |target: &Target, ends| target.within(&Limits::asked(ends, 3, Unit::Mm));
        assert_eq!(said(&within(&wide, (Some(24.874), None))), ["24.874", "25.000"]);
        assert_eq!(said(&within(&wide, (Some(24.8), Some(24.95)))), ["24.870", "24.950"]);
        assert_eq!(within(&wide, (None, None)), wide);
        let aim = Target::Aim(Fact::doubted(24.9, 0.01, Unit::Mm));
        assert_eq!(said(&within(&aim, (Some(24.895), Some(24.905)))), ["24.895", "24.905"], "not as wide as its doubt");
        assert_eq!(said(&within(&aim, (None, Some(24.905)))), ["24.905"]);
        assert_eq!(within(&aim, (Some(24.895), None)), aim);
    }
}
