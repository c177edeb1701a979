//! Appointments that cannot be, and why.

use super::search::Minute;

/// An appointment that cannot be.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NoAppointment {
    /// The set-up.
    pub id: String,
    /// The time asked for.
    pub at: Minute,
    /// Why it cannot be.
    pub because: NoTime,
}

/// Why an appointment cannot be.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NoTime {
    /// It is before the earliest.
    TooEarly {
        /// The earliest, were it alone in the shop with what must come before it.
        earliest: Minute,
        /// When the first of the chain begins.
        from: Minute,
        /// What holds it back, one behind the other, each with the minutes from when it may begin until the next may; where itself is the
        /// last, what is fitted for it, or a break.
        chain: Vec<(String, Minute)>,
    },
    /// The shop is not open then.
    Closed,
    /// It would run into a break or past closing, or what must be watched after it would.
    RunsOut,
    /// Another appointment stands against it.
    Against(String, Minute),
    /// No order was found that keeps it with all the others.
    WithTheOthers,
}

impl NoAppointment {
    /// The earliest, where that is the reason.
    pub const fn earliest(&self) -> Option<Minute> {
        if let NoTime::TooEarly { earliest, .. } = &self.because { Some(*earliest) } else { None }
    }
}
