//! The checks of a bush: all of these stand in every answer.

use crate::operations::Stage;
use crate::proof::CheckRule;

pub(super) const CHECKS: &[CheckRule] = &[
    CheckRule::must("long-enough", &[]),
    CheckRule::must("interference", &[]),
    CheckRule::must("closes-in", &[]),
    CheckRule::must("bush-yield", &["bush.material"]),
    CheckRule::may("bush-plastic", &["bush.material"]),
    CheckRule::must("housing-stress", &["housing.material"]),
    CheckRule::must("housing-iron", &["housing.material"]),
    CheckRule::must("press-force", &[]),
    CheckRule::must("bush-stands-push", &["bush.material"]),
    CheckRule::must("support-clears", &["support"]),
    CheckRule::must("room-beneath", &["support", "support.height"]),
    CheckRule::must("press-opens", &["daylight of the press"]),
    CheckRule::must("oven-stop", &[]),
    CheckRule::must("oven-reaches", &[]),
    CheckRule::must("goes-in", &["longest"]),
    CheckRule::must("temper-bears-it", &["temper"]),
    CheckRule::must("neighbours-bear-it", &["near"]),
    CheckRule::must("cold-enough", &[]),
    CheckRule::must("window", &[]),
    CheckRule::must("fit-runs", &["clearance"]),
    CheckRule::must("clearance-given", &["clearance"]),
    CheckRule::must("stock-least", &[]),
    CheckRule::must("stock-most", &[]),
    CheckRule::must("reamer-closes", &[]),
    CheckRule::must("reamer-opens", &[]),
    CheckRule::must("reamer-not-under", &[]),
    CheckRule::must("reamer-not-over", &[]),
    CheckRule::must("reamer-by", &[]),
    CheckRule::must("reamer-too-fast", &[]),
    CheckRule::must("oil-hole-order", &[]),
    CheckRule::must("clear-of-the-ends", &[]),
    CheckRule::must("meets-oilway", &["oil-holes.oilway"]),
    CheckRule::must("chips-come-out", &["oil-holes.oilway.open"]),
    CheckRule::must("behind", &["bush.bore"]),
    CheckRule::must("sheet-thick-enough", &[]),
    CheckRule::must("held", &["hold"]),
    CheckRule::must("grip", &["hold.tested"]),
    CheckRule::must("grip-looked-at", &["hold.tested"]),
    CheckRule::must("grip-length", &["hold.grip", "hold.overhang", "hold.diameter"]),
    CheckRule::must("drill-reaches", &["oil-holes.stick-out", "oil-holes.oilway.depth"]),
    CheckRule::must("drill-bows", &["oil-holes.stick-out"]),
    CheckRule::must("drill-twists-off", &[]),
    CheckRule::must("drill-hard-enough", &[]),
    CheckRule::may("torque", &["power of the machine"]),
    CheckRule::must("groove", &[]),
    CheckRule::must("in-line", &[]),
    CheckRule::must("grip-when-warm", &["running.housing"]),
    CheckRule::must("grip-when-cold", &["running.coldest"]),
    CheckRule::must("clearance-when-warm", &["running.housing"]),
    CheckRule::must("clearance-when-cold", &["shaft", "running.coldest"]),
    CheckRule::must("stress-when-warm", &["running.housing"]),
    CheckRule::may("must-not-be-reamed", &[]),
    CheckRule::may("can-be-measured", &[]),
    CheckRule::may("plugs-are-read", &[]),
    CheckRule::may("drill-in-shop", &[]),
    CheckRule::may("drill-too-fast", &[]),
];

/// What is asked of the reamer and of the stock that it finds.
pub(super) const OF_THE_REAMER: &[&str] = &[
    "stock-least",
    "stock-most",
    "reamer-closes",
    "reamer-opens",
    "reamer-not-under",
    "reamer-not-over",
    "reamer-by",
    "reamer-too-fast",
];

/// What is asked of an expanding reamer alone.
pub(super) const OF_EXPANDING: &[&str] = &["reamer-closes", "reamer-opens"];

/// What is asked of a fixed reamer alone.
pub(super) const OF_FIXED: &[&str] = &["reamer-not-under", "reamer-not-over"];

/// What every hole through the wall of a bush answers.
pub(super) const LIKE_ANY_HOLE: [&str; 13] = [
    "meets-oilway",
    "chips-come-out",
    "behind",
    "sheet-thick-enough",
    "held",
    "grip",
    "grip-looked-at",
    "grip-length",
    "drill-reaches",
    "drill-bows",
    "drill-twists-off",
    "drill-hard-enough",
    "torque",
];

const DRILLING: &[&str] = &[
    "oil-hole-order",
    "clear-of-the-ends",
    "drill-in-shop",
    "drill-too-fast",
    "meets-oilway",
    "chips-come-out",
    "behind",
    "sheet-thick-enough",
    "held",
    "grip",
    "grip-looked-at",
    "grip-length",
    "drill-reaches",
    "drill-bows",
    "drill-twists-off",
    "drill-hard-enough",
    "torque",
];

/// What each set-up cannot undo: the oil hole once it is drilled, the housing once it was hot, the bush once it is in, the bore
/// once it is reamed.
pub(super) const STAGES: &[Stage] = &[
    Stage::of(&["measure-and-dress"], DRILLING).by_step("drill-before-pressing"),
    Stage::of(
        &["heat-and-chill", "warm-the-housing", "chill-the-bush"],
        &["oven-stop", "oven-reaches", "goes-in", "temper-bears-it", "neighbours-bear-it"],
    ),
    Stage::of(
        &["press-home"],
        &[
            "long-enough",
            "interference",
            "bush-yield",
            "bush-plastic",
            "housing-stress",
            "housing-iron",
            "press-force",
            "bush-stands-push",
            "support-clears",
            "room-beneath",
            "press-opens",
            "cold-enough",
            "stock-least",
            "in-line",
            "grip-when-warm",
            "grip-when-cold",
            "stress-when-warm",
        ],
    ),
    Stage::of(&["cool-and-measure"], &["closes-in"]),
    Stage::of(&["drill-oil-holes"], DRILLING),
    Stage::of(
        &["ream-by-hand", "ream-by-machine", "bore-without-reaming"],
        &[
            "window",
            "fit-runs",
            "clearance-given",
            "stock-most",
            "reamer-closes",
            "reamer-opens",
            "reamer-not-under",
            "reamer-not-over",
            "reamer-by",
            "reamer-too-fast",
            "groove",
            "clearance-when-warm",
            "clearance-when-cold",
            "must-not-be-reamed",
            "can-be-measured",
            "plugs-are-read",
        ],
    ),
];
