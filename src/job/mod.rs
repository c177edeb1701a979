//! Layer 6. The frame of a job file, the readings in it, addresses of sizes, the ledger that hands sizes on, and the log.
//!
//! No operation's keys stand here: [`JobFile`] is generic over what an operation asks.

mod address;
mod feature;
mod file;
mod inspect;
mod ledger;
mod log;
mod reading;
mod sizes;
mod state;

pub use address::Address;
pub use feature::{Feature, feature_key};
pub use file::{JobFile, Named, OwnOrder, Part, PartFacts};
pub use inspect::{Found, Inspected, Service};
pub use ledger::{Entry, Ledger};
pub use log::{LOG_KEYS, Log, LogEntry, LogFault, LogFaultKind, LostLine, NearInLog, NewLine};
pub(crate) use reading::is_read;
pub use reading::{Difference, Reading, Warm};
pub use sizes::{WrittenSize, WrittenSizes};
pub use state::{State, StateOf};
