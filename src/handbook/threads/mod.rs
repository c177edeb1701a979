//! Threads and wire thread inserts: form, names, holes, strength, tapping.

pub mod bolts;
pub mod clearance_holes;
pub mod hand_taps;
pub mod insert;
pub mod insert_drill;
pub mod insert_hole;
pub mod insert_length;
pub mod insert_rows;
pub mod insert_zero;
mod lead;
pub mod series;
pub mod tap_leads;
pub mod tap_strength;
pub mod tapping;
pub mod thread_form;
pub mod thread_match;
mod thread_meant;
pub mod thread_names;
mod thread_rows;
pub mod thread_strength;
pub mod thread_tolerance;
