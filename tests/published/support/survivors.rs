//! The bent formulas that no printed figure notices: the formula, its bent text, and why.

/// Each must survive, for that reason, and no other may.
pub const SURVIVORS: &[(&str, &str, &str)] = &[
    ("cutting_force", "(kc − k_w)·k_t·a·f", "the one printed example knows no factors: both are 1"),
    ("cutting_force", "(kc/k_w)·k_t·a·f", "the one printed example knows no factors: both are 1"),
    ("cutting_force", "(kc·k_w − k_t)·a·f", "the one printed example knows no factors: both are 1"),
    ("cutting_force", "(kc·k_w/k_t)·a·f", "the one printed example knows no factors: both are 1"),
    ("cutting_power", "F·v/60001", "leaves the printed figures within what their digits allow"),
    (
        "drill_thrust",
        "(0.63·D/2·f·k_c − sin(kappa°))",
        "the one printed example has an edge angle of 90°, whose sine is 1",
    ),
    (
        "drill_thrust",
        "(0.63·D/2·f·k_c/sin(kappa°))",
        "the one printed example has an edge angle of 90°, whose sine is 1",
    ),
    (
        "drill_torque",
        "(f·k_c·D²/8000/sin(kappa°))",
        "the one printed example has an edge angle of 90°, whose sine is 1",
    ),
    ("drill_torque", "f·k_c·D²/8001·sin(kappa°)", "moves no printed figure by a hundredth of what its digits allow"),
    ("feed_rate", "f·n/1001", "leaves the printed figures within what their digits allow"),
    (
        "housing_temperature",
        "20 + max(0, (delta + c + s))·1000000/(alpha·d)",
        "no printed case sees this place (its numbers make it nothing)",
    ),
    (
        "housing_temperature",
        "20 + max(0, (delta − c) − s)·1000000/(alpha·d)",
        "no printed case sees this place (its numbers make it nothing)",
    ),
    (
        "housing_temperature",
        "20 + max(0, delta + c − s)·1000001/(alpha·d)",
        "leaves the printed figures within what their digits allow",
    ),
    (
        "housing_temperature",
        "20 + max(0, delta + s − c)·1000000/(alpha·d)",
        "no printed case sees this place (its numbers make it nothing)",
    ),
    (
        "interference_for_pressure",
        "p·d·(C_i/E_o + C_o/E_i)",
        "no printed case sees this place (its numbers make it nothing)",
    ),
    (
        "interference_for_pressure",
        "p·d·(C_o/E_i + C_i/E_o)",
        "no printed case sees this place (its numbers make it nothing)",
    ),
    ("roughness_loss", "k·(Ra_o + Ra_i)/1001", "leaves the printed figures within what their digits allow"),
    ("roughness_ra", "k·1000·f²/(33·r)", "leaves the printed figures within what their digits allow"),
    ("roughness_ra", "k·1001·f²/(32·r)", "leaves the printed figures within what their digits allow"),
    (
        "temperature_to_enter",
        "T_1 − x·1000001/(alpha·d)",
        "moves no printed figure by a hundredth of what its digits allow",
    ),
    ("time_by_feed_rate", "L/(1001·v_f)", "moves no printed figure by a hundredth of what its digits allow"),
    ("time_by_feed_rate", "L/(1100·v_f)", "leaves the printed figures within what their digits allow"),
    ("torque_from_power", "30001·P/(π·n)", "moves no printed figure by a hundredth of what its digits allow"),
];
