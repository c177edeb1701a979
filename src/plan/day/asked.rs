//! What is asked of a day beside its jobs.

use crate::quantity::{ClockTime, Date};

/// What the person says on the command line.
#[derive(Clone, Debug, Default)]
pub struct Asked {
    /// The day; left out, that of the jobs.
    pub date: Option<Date>,
    /// When the hands begin; left out, when the shop opens.
    pub from: Option<ClockTime>,
    /// When the shop closes; left out, as the shop file says.
    pub to: Option<ClockTime>,
    /// How many days are printed.
    pub days: u32,
    /// Set-ups that are done, each with the time at which it was, where that is known.
    pub done: Vec<(String, Option<ClockTime>)>,
    /// The set-up that is in hand.
    pub at_work: Option<String>,
    /// The order before, by the ids of its set-ups.
    pub like: Vec<String>,
    /// What machines carry: machine and what is on it.
    pub rigged: Vec<(String, String)>,
    /// Rules of order that are left out.
    pub leave_out: Vec<String>,
}
