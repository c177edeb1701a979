//! The day planned: set-ups of several jobs put in the best order that the trade allows.
//!
//! [`search`] knows numbers and minutes alone; what stands beside it here makes a day of plans and words of a day.

pub mod search;
