//! What a doubt is due to, and how shares of doubt go together.

use super::Place;

/// An operation of a job, by its number there: whose dial it was that a figure owes its doubt to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Owner(pub u32);

/// What a share of doubt is due to. Shares of one cause are one reading: they are summed before they are squared.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Cause {
    /// A reading, known by where it was written.
    Reading(Place),
    /// An instrument or a remembered row, known by its name: the same wherever it is met.
    Named(&'static str),
    /// A setting by hand (a dial, a stop, a zero, a size to make) of the operation at hand, known by its name there.
    Set(&'static str),
    /// The same of another operation, which handed the figure over.
    SetBy(&'static str, Owner),
    /// A size as it was left: the line of the log.
    Left(u32),
}

impl Cause {
    /// The cause as another operation sees it.
    pub(super) const fn of(self, owner: Owner) -> Self {
        match self {
            Self::Set(name) => Self::SetBy(name, owner),
            other => other,
        }
    }
}

/// An end of what a figure may be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// As small as it may be.
    Low,
    /// As large as it may be.
    High,
}

impl Side {
    /// In a word.
    pub const fn text(self) -> &'static str {
        match self {
            Self::Low => "low",
            Self::High => "high",
        }
    }
}

/// Root of the sum of squares over causes, shares of one cause added first.
pub(super) fn root_sum_square(shares: &[(Cause, f64)]) -> f64 {
    let of = |cause: Cause| shares.iter().filter(|s| s.0 == cause).map(|s| s.1).sum::<f64>();
    shares.iter().map(|&(cause, share)| share * of(cause)).sum::<f64>().max(0.0).sqrt()
}
