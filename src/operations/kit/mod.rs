//! What operations share, written once: no operation's name stands here.

mod above_zero;
mod blank;
mod cut;
mod day;
mod facts;
mod gauge;
mod held;
mod hold;
mod lines;
mod machine;
mod names;
mod set_up;
mod states;
mod station;
mod step;

pub use blank::{Blank, Target};
pub use cut::{Cut, Pass, PassKind};
pub use day::{Carried, Drawer, Pull, Wait};
pub use hold::{Grips, HeldIn, Hold, Nip, SetUpWish, Stop, Times};
pub use set_up::SetUp;
pub use station::Station;
pub use step::Step;

pub(super) use above_zero::above_zero;
pub(super) use facts::{degrees, mm, mm_as_typed};
pub(super) use gauge::{gauge_used, instrument};
pub(super) use held::{held_in, rig, trued};
pub(super) use lines::{blank, found, read_with};
pub(super) use machine::{machine_for, machine_named, that_drills};
pub(super) use names::names;
pub(super) use states::{of_part, of_this};
