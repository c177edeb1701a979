//! Layer 5. What this shop owns — machines, steps, dials, tools, reamers, drawers, instruments, habits — and picking from it.
//!
//! A shop that is not there is never pretended: whoever picks gets nothing, and says so.

mod axis;
mod drawers;
mod file;
mod habits;
mod instrument;
mod machine;
mod opening;
mod picking;
mod reamer;
mod tools;

pub use axis::Axis;
pub use drawers::{Drawers, InsertStock, PistonStock, ShimStock, StockAt, Take};
pub use file::{Paper, Shop, View};
pub use habits::Habits;
pub use instrument::{Gauge, Instrument};
pub use machine::{Chuck, Cutting, Dial, Faceplate, Freezer, JawForceBy, Machine, Oven, Press, Reads};
pub use opening::{Opening, OwnChangeOver, Stretch};
pub use picking::{DoubtOf, doubt_of_reading, shares_of_reading};
pub use reamer::{By, ExpandingReamer, FixedReamer, ReamedHole, Reamer};
pub use tools::{
    BarMaterial, BoringBar, Countersink, Drill, DrillSet, InsertTap, MillingCutter, PartingBlade, PickedDrill, Tap,
    Tool, TurningTool,
};
