//! The press joint, whichever operation asks: its keys, what was measured of it ([`sizes`]), the temperatures at which it lives
//! ([`climate`]), the outsides that would be proven ([`made`]) and its stresses and forces ([`joint`]). How it goes in at the press ([`at_the_press`]) and
//! what it stands on ([`support`]). The formulas stand in the handbook; here they are read, judged and recorded.

mod asked;
mod at_the_press;
mod climate;
mod cold;
mod cooled;
mod daylight;
mod fit;
mod frosted;
mod gauge;
mod grips;
mod joint;
mod keys;
mod made;
mod metals;
pub(super) mod names;
mod oven;
mod problems;
mod push_on_wall;
mod sizes;
mod sketch;
mod so_much;
mod support;
mod thin;

pub(super) use asked::Asked;
pub(super) use at_the_press::{
    GoesIn, NONE_PROVEN, READINGS, closed_in_at_most, closed_in_expected, measured_when_cold, no_outside_is_proven,
    says_what_is_proven,
};
pub(super) use climate::Climate;
pub(super) use cold::{Chilled, ColdIn, cold_at_the_press, cold_of, shrinks, soaks, soaks_for};
pub(super) use daylight::press_opens;
pub(super) use fit::{of_bore, of_joint};
pub(super) use gauge::bore_gauge;
pub(super) use joint::{Joint, foretold, press_reaches};
pub(super) use keys::{Bush, Fitted, Flange, Housing, Running, Stands, stands_out};
pub(super) use made::{Made, press_joint, proven_outsides, room_to_drop_in};
pub(super) use metals::Metals;
pub(super) use oven::{
    against_stop, freezer, goes_in, neighbours_bear_it, never_over, oven_doubt, oven_reaches, temper_bears_it,
};
pub(super) use push_on_wall::{Push, bush_stands_push, push_on_wall};
pub(super) use sizes::Sizes;
pub(super) use sketch::Frame;
pub(super) use so_much::{can_be_so_cold, can_be_so_warm};
pub(super) use support::{Support, support_clears, under_the_boss};
pub(super) use thin::{too_thin, with_thin};
