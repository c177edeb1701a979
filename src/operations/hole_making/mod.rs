//! What all that drills and taps shares: the machine, the spindle step of a drill, the depth stop with its doubt, the metal that
//! is left under a point, the edge beside the hole, and how the work is held against a tool that grabs.

mod behind;
pub(super) mod drilled;
mod edge;
mod held;
mod machine;
mod metal;
mod names;
mod oilway;
mod sketch;
mod skin;
mod speed;
mod stop;
pub(super) mod tapping;
mod torque;
mod word_or_reading;

pub(super) use behind::{behind, gap_behind};
pub(super) use edge::{edge_wall, set_out};
pub(super) use held::{Asks, held, try_the_grip};
pub(super) use machine::{machine, named_machine, on_a_mill};
pub(super) use metal::{hard_enough, metal};
pub(super) use names::{TORQUE_TO_STAND, VALUES as HELD_VALUES};
pub(super) use oilway::{
    BESIDE, Called, OILWAY, OILWAY_AT, OILWAY_VALUES, Oilway, Open, ROOM, SUNK, Sunk, meets, sunk,
};
pub(super) use sketch::ViceJaws;
pub(super) use skin::skin_stands;
pub(super) use speed::drill_step;
pub(super) use stop::{QuillDial, comes_back, depth_stop, lacking, quill_dial, stop_set, table_axis};
pub(super) use torque::against_the_machine;
pub(super) use word_or_reading::{Beyond, Pilot, PresentHole, read_at};
