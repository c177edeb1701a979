//! The checks that face and skim share: all of these stand in every answer of both.

/// Lists the shared checks, and an operation's own behind them.
macro_rules! facing_checks {
    ($($own:expr),* $(,)?) => {
        &[
            $crate::proof::CheckRule::must("case", &["part.case-depth", "least-case"]),
            $crate::proof::CheckRule::must("tool-hard-enough", &[]),
            $crate::proof::CheckRule::must("most-depth", &[]),
            $crate::proof::CheckRule::must("bite", &[]),
            $crate::proof::CheckRule::must("measured-between", &[]),
            $crate::proof::CheckRule::must("length-sure", &[]),
            $crate::proof::CheckRule::must("finish", &[]),
            $crate::proof::CheckRule::must("swing", &[]),
            $crate::proof::CheckRule::must("chuck-speed", &[]),
            $crate::proof::CheckRule::must("can-be-measured", &[]),
            $crate::proof::CheckRule::must("grip", &["hold.diameter", "hold.grip", "hold.overhang"]),
            $crate::proof::CheckRule::must("grip-moment", &["hold.diameter", "hold.grip", "hold.overhang"]),
            $crate::proof::CheckRule::must("grip-length", &["hold.grip", "hold.overhang", "hold.diameter"]),
            $crate::proof::CheckRule::must("jaw-pressure", &["hold.grip"]),
            $crate::proof::CheckRule::must("jaw-reach", &["hold.diameter"]),
            $crate::proof::CheckRule::must("tool-clear", &["hold.overhang"]),
            $crate::proof::CheckRule::must("overhang", &["hold.overhang", "hold.diameter"]),
            $crate::proof::CheckRule::must("work-stands-it", &["hold.overhang", "hold.diameter"]),
            $crate::proof::CheckRule::must("ring-stress", &["hold.diameter"]),
            $crate::proof::CheckRule::must("dish", &["hold.diameter", "flat-within"]),
            $crate::proof::CheckRule::must("flange", &["hold.diameter", "thickness-at-rim"]),
            $crate::proof::CheckRule::must("clear-of-clamps", &["hold.clamped"]),
            $crate::proof::CheckRule::must("grip-looked-at", &["hold.tested"]),
            $crate::proof::CheckRule::may("ring-lobe", &["hold.diameter", "hold.true-within"]),
            $crate::proof::CheckRule::may("power", &["power of the machine"]),
            $crate::proof::CheckRule::may("square", &["square-within", "hold.true-within"]),
            $crate::proof::CheckRule::may("gives-way", &["hold.overhang", "square-within"]),
            $crate::proof::CheckRule::may("balance", &["off-centre"]),
            $crate::proof::CheckRule::advice("built-up-edge", &[]),
            $crate::proof::CheckRule::advice("speed-share", &[]),
            $crate::proof::CheckRule::may("spindle-too-fast", &[]),
            $crate::proof::CheckRule::may("relief-gap-left", &["relief"]),
            $crate::proof::CheckRule::may("relief-tool", &[]),
            $crate::proof::CheckRule::may("relief-land", &["relief.ring-outside"]),
            $crate::proof::CheckRule::may("float-left", &["as-found-float"]),
            $crate::proof::CheckRule::may("shim-possible", &["float-wanted"]),
            $crate::proof::CheckRule::may("float-with-shim", &["float-wanted"]),
            $crate::proof::CheckRule::may("shim-in-drawer", &["float-wanted"]),
            $crate::proof::CheckRule::may("never-cut", &[]),
            $($own),*
        ]
    };
}
pub(in crate::operations) use facing_checks;
