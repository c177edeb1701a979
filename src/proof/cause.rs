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
    /// What all readings of one instrument share (its zero, its scale, what it was set by), known by where the shop names it.
    Instrument(Place),
    /// What a reading has of its own, by where it was written and which of the list there it is.
    Own(Place, u16),
    /// A reading, so written, with an instrument of which nobody knows how much of its doubt all its readings share: such
    /// readings count as quite apart or as off together, whichever is worse.
    Read(Place, u16, Place),
}

impl Cause {
    /// The cause as another operation sees it.
    pub(super) const fn of(self, owner: Owner) -> Self {
        match self {
            Self::Set(name) => Self::SetBy(name, owner),
            other => other,
        }
    }

    /// Where it was typed, where it was.
    pub(crate) const fn place(self) -> Option<Place> {
        match self {
            Self::Reading(place) | Self::Instrument(place) | Self::Own(place, _) | Self::Read(place, ..) => Some(place),
            Self::Named(_) | Self::Set(_) | Self::SetBy(..) | Self::Left(_) => None,
        }
    }

    /// With what its shares go together before they are squared: its instrument where nobody knows what its readings share.
    pub(super) const fn together_with(self) -> (Option<Self>, Option<Place>) {
        match self.instrument() {
            Some(instrument) => (None, Some(instrument)),
            None => (Some(self), None),
        }
    }

    /// The instrument of a reading of which nobody knows what it shares with the others.
    const fn instrument(self) -> Option<Place> {
        match self {
            Self::Read(_, _, instrument) => Some(instrument),
            _ => None,
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

/// Root of the sum of squares over causes, shares of one cause added first. Readings of an instrument of which nobody knows what
/// they share ([`Cause::Read`]) give the sum of their squares or the square of their sum, whichever is more: what lies between
/// is linear in the correlation, so one end is the worst (GUM 5.2.2).
pub(super) fn root_sum_square(shares: &[(Cause, f64)]) -> f64 {
    if shares.is_empty() {
        return 0.0;
    }
    let of = |cause: Cause| shares.iter().filter(|s| s.0 == cause).map(|s| s.1).sum::<f64>();
    let apart = |which: &dyn Fn(Cause) -> bool| -> f64 {
        shares.iter().filter(|s| which(s.0)).map(|&(cause, share)| share * of(cause)).sum()
    };
    let mut instruments: Vec<Place> = shares.iter().filter_map(|share| share.0.instrument()).collect();
    instruments.sort_unstable();
    instruments.dedup();
    let more_together = |instrument: Place| -> f64 {
        let with = |cause: Cause| cause.instrument() == Some(instrument);
        let together: f64 = shares.iter().filter(|share| with(share.0)).map(|share| share.1).sum();
        (together * together - apart(&with)).max(0.0)
    };
    let squares = apart(&|_| true) + instruments.into_iter().map(more_together).sum::<f64>();
    squares.max(0.0).sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;

    const MICROMETER: Place = Place::start(7);

    fn read(nth: u16) -> Cause {
        Cause::Read(Place::start(1), nth, MICROMETER)
    }

    #[test]
    fn readings_of_one_instrument_are_apart_or_together_whichever_is_worse() {
        let u = |shares: &[(Cause, f64)]| root_sum_square(shares);
        assert_eq!(u(&[(read(0), 3.0), (read(1), 4.0)]), 7.0, "a sum adds straight");
        assert_eq!(u(&[(read(0), 3.0), (read(1), -4.0)]), 5.0, "a difference does not cancel");
        assert_eq!(u(&[(read(0), 3.0), (read(0), -3.0)]), 0.0, "one reading is one reading");
        let other = (Cause::Own(Place::start(2), 0), 12.0);
        assert_eq!(u(&[(read(0), 3.0), (read(1), -4.0), other]), 13.0);
        let shared = (Cause::Instrument(MICROMETER), 3.0);
        assert_eq!(u(&[shared, (Cause::Instrument(MICROMETER), -3.0), other]), 12.0, "what is shared cancels");
    }

    /// No correlation between nothing and the whole gives more than the worse of both ends.
    #[test]
    fn no_correlation_is_worse_than_the_worse_end() {
        let shares: Vec<(Cause, f64)> = [5.0, -2.0, 8.0, 1.0].into_iter().zip(0..).map(|(s, n)| (read(n), s)).collect();
        let worst = root_sum_square(&shares).powi(2);
        let (squares, sum) = (shares.iter().map(|s| s.1 * s.1).sum::<f64>(), shares.iter().map(|s| s.1).sum::<f64>());
        for step in 0..=100 {
            let rho = f64::from(step) / 100.0;
            assert!((1.0 - rho) * squares + rho * sum * sum <= worst + 1e-9);
        }
    }
}
