//! What `turn` and `bore-hole` share: a diameter brought between its limits by cuts along the axis.
//!
//! The cross dial and what it counts ([`dial`]), the metal and its limits ([`size`]), what is measured before the last cut
//! ([`measured`]), what spring leaves ([`spring`]), and the set-up. Tool, speed and hold are those of every cut on a lathe
//! ([`super::turning`]).

mod corner;
mod dial;
mod measured;
mod names;
mod set_up;
mod size;
mod spring;
mod wall;

pub(super) use corner::{Corner, corner, set_the_stop};
pub(super) use dial::CrossDial;
pub(super) use names::*;
pub(super) use set_up::{Extra, set_up};
pub(super) use size::{Asked, CleansUp, Size};
pub(super) use spring::{Springs, spring_left};
pub(super) use wall::{stands, wall_stands};

/// The checks that both make beside those of the metal, the tool and the hold.
macro_rules! diameter_checks {
    ($($own:expr),* $(,)?) => {
        &[
            $crate::proof::CheckRule::must("case", &["part.case-depth", "least-case"]),
            $crate::proof::CheckRule::must("cleans-up", &["hold.true-within"]),
            $crate::proof::CheckRule::must("size-kept", &["limits of the diameter"]),
            $crate::proof::CheckRule::must("dial-known", &[]),
            $crate::proof::CheckRule::must("can-be-measured", &[]),
            $crate::proof::CheckRule::must("measured-between", &[]),
            $crate::proof::CheckRule::must("metal-when-measured", &[]),
            $crate::proof::CheckRule::must("wall-stands", &["eccentric", "hold.true-within"]),
            $crate::proof::CheckRule::must("spring-left", &["hold.overhang", "hold.diameter", "hold.true-within"]),
            $crate::proof::CheckRule::must("spring-when-measured", &["hold.overhang", "hold.diameter", "hold.true-within"]),
            $crate::proof::CheckRule::must("tool-hard-enough", &[]),
            $crate::proof::CheckRule::must("most-depth", &[]),
            $crate::proof::CheckRule::must("bite", &[]),
            $crate::proof::CheckRule::must("finish", &[]),
            $crate::proof::CheckRule::must("corner", &["corner"]),
            $crate::proof::CheckRule::must("shoulder-square", &[]),
            $crate::proof::CheckRule::must("shoulder-kept", &["limits of the length"]),
            $crate::proof::CheckRule::must("swing", &[]),
            $crate::proof::CheckRule::must("chuck-speed", &[]),
            $crate::proof::CheckRule::must("grip", &["hold.diameter", "hold.grip", "hold.overhang"]),
            $crate::proof::CheckRule::must("grip-moment", &["hold.diameter", "hold.grip", "hold.overhang"]),
            $crate::proof::CheckRule::must("grip-length", &["hold.grip", "hold.overhang", "hold.diameter"]),
            $crate::proof::CheckRule::must("jaw-pressure", &["hold.grip"]),
            $crate::proof::CheckRule::must("jaw-reach", &["hold.diameter"]),
            $crate::proof::CheckRule::must("overhang", &["hold.overhang", "hold.diameter"]),
            $crate::proof::CheckRule::must("whips-behind", &["hold.grip", "hold.overhang"]),
            $crate::proof::CheckRule::must("seats-on-step", &["hold.grip", "hold.overhang"]),
            $crate::proof::CheckRule::must("goes-through", &["hold.grip", "hold.overhang", "hold.diameter"]),
            $crate::proof::CheckRule::must("ring-stress", &["hold.diameter"]),
            $crate::proof::CheckRule::must("ring-lobe", &["hold.diameter", "hold.true-within"]),
            $crate::proof::CheckRule::must("grip-looked-at", &["hold.tested"]),
            $($own,)*
            $crate::proof::CheckRule::may("power", &["power of the machine"]),
            $crate::proof::CheckRule::may("balance", &["off-centre"]),
            $crate::proof::CheckRule::may("spindle-too-fast", &[]),
            $crate::proof::CheckRule::may("never-cut", &[]),
            $crate::proof::CheckRule::advice("built-up-edge", &[]),
            $crate::proof::CheckRule::advice("speed-share", &[]),
        ]
    };
}
pub(in crate::operations) use diameter_checks;
