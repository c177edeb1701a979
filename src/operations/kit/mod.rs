//! What operations share, written once: no operation's name stands here.

mod above_zero;
mod blank;
mod clearance;
mod cut;
mod cutter;
mod day;
mod facts;
mod gauge;
pub mod hard;
mod held;
mod hold;
mod left;
mod lines;
mod machine;
mod mass;
#[macro_use]
mod names;
mod never_cut;
mod set_up;
mod shim;
mod states;
mod station;
mod step;
mod thread;
mod tried;
mod warmth;

pub use blank::{Blank, LeftAs, Target};
pub use clearance::Clearance;
pub(in crate::operations) use clearance::{fit_without_size, is_near, meant_most, near_whole, nominal_of_fit};
pub use cut::{Cut, Pass, PassKind};
pub use day::{Carried, Drawer, Lies, Pull, Wait, drill_lies};
pub use hold::{Backed, Clamped, Closes, Grips, HeldIn, Hold, Nip, SetUpWish, Stop, Times};
pub use set_up::{SetUp, done_by};
pub use station::Station;
pub use step::Step;

pub use above_zero::above_zero;
pub use cutter::{cutter_owned, cutter_with_teeth, milling_cutter, other_cutters};
pub use facts::{
    about, at_end, by_its_drawer, degrees, dial_units, drill_size, hundredths, is_marked_in_mm, mm, mm_as_typed,
    shims_as_marked, tool_size,
};
pub use gauge::{as_true_as_read, cannot_decide, gauge_used, inside, instrument, most_to_read, read_ends, read_inside};
pub use held::{gripped_so_long, held_in, rig, stood, trued, trued_as, turns_in};
pub use left::{LeftWithin, aimed, asked_as, gone, grown, left_even, measured_so_closely, off_the_whole};
pub use lines::{blank, depth, found, no_rougher, read_with};
pub use machine::{feed_step, machine_for, machine_named, that_drills};
pub use mass::mass_from_sizes;
pub(in crate::operations) use never_cut::{never_cut, pores_stay_open};
pub use shim::shim_thickness;
pub use states::{of_part, of_this};
pub use thread::name_thread;
pub use tried::{Tried, grip_length, try_the_grip};
pub(in crate::operations) use warmth::{coldest, expansion, no_frost, runs_at};
