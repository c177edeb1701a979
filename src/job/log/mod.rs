//! The log of a job: what was left, line by line, in the order in which it was written. Nothing in it is ever edited: a later line
//! corrects an earlier one or takes it back.
//!
//! Each line is one entry of a YAML list and ends with a sum over every byte of the file before it, so that a line that was cut off
//! or changed is known. A bad line costs one line: what cannot be read is quoted and never read as a figure.

mod entry;
mod line;
mod read;
mod sum;

pub use entry::{Entry as LogEntry, KEYS as LOG_KEYS};
pub use line::NewLine;
pub use read::{Fault as LogFault, FaultKind as LogFaultKind, Log, Lost as LostLine, Near as NearInLog};
