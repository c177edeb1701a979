//! The checks of a thread insert: all of these stand in every answer.

use crate::proof::CheckRule;

pub(super) const CHECKS: &[CheckRule] = &[
    CheckRule::must("series-known", &[]),
    CheckRule::must("break-through", &["wall"]),
    CheckRule::must("wall-for-insert", &["wall"]),
    CheckRule::must("while-cutting", &["beyond"]),
    CheckRule::must("when-assembled", &["beyond", "bolt.reach"]),
    CheckRule::must("old-hole", &["present-hole"]),
    CheckRule::must("drill-in-limits", &[]),
    CheckRule::must("tap-hard-enough", &[]),
    CheckRule::must("tap-stands-it", &["material"]),
    CheckRule::must("drill-reaches", &[]),
    CheckRule::must("zero", &["present-hole"]),
    CheckRule::must("insert-in-drawer", &[]),
    CheckRule::must("clamping", &["bolt.class"]),
    CheckRule::must("pull-out", &["bolt.class"]),
    CheckRule::must("bolt-clear-of-floor", &["bolt.reach"]),
    CheckRule::must("tang-clear", &["bolt.reach"]),
    CheckRule::must("held", &["hold"]),
    CheckRule::must("grip", &["hold.tested"]),
    CheckRule::must("grip-looked-at", &["hold.tested"]),
    CheckRule::must("grip-length", &["hold.grip", "hold.overhang", "hold.diameter"]),
    CheckRule::must("edge-wall", &["edge"]),
    CheckRule::may("outlasts", &["bolt.class"]),
    CheckRule::may("drill-too-fast", &[]),
    CheckRule::may("torque", &["power of the machine"]),
    CheckRule::advice("tap-too-fast", &[]),
    CheckRule::advice("edge-distance", &["edge"]),
];

/// The checks of the bolt: none applies where no bolt was typed.
pub(super) const BOLT: &[&str] = &["clamping", "pull-out", FLOOR, "tang-clear", "outlasts"];

/// The check of a bolt that may meet the bottom of its hole.
pub(super) const FLOOR: &str = "bolt-clear-of-floor";

/// The checks of the bolt's and the hole's strength.
pub(super) const STRENGTH: &[&str] = &["clamping", "pull-out", FLOOR, "outlasts"];
