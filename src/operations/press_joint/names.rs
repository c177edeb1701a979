//! The names of the values of a press joint, in groups: an operation declares those that it gives.

/// Sizes, pressures, stresses and forces of any joint.
pub(in crate::operations) mod joint {
    use crate::names;
    use crate::operations::PartSize;
    use crate::quantity::{Mm, Newton, Shift, Stress};

    names! { pub(in crate::operations),
        HOUSING_BORE: Mm = new("housing_bore", "bore of the housing").found(PartSize::Seat);
        HOUSING_OUTSIDE: Mm = new("housing_outside", "outside of the housing").found(PartSize::Around);
        HOUSING_LENGTH: Mm = new("housing_length", "length of the bore of the housing").found(PartSize::Faces);
        JOINT_LENGTH: Mm = new("joint_length", "length over which bush and housing touch").comes();
        BUSH_BORE: Mm = new("bush_bore", "bore of the bush before pressing").comes();
        BUSH_LENGTH: Mm = new("bush_length", "length of the bush over all").comes();
        INTERFERENCE: Shift = new("interference", "bush outside less housing bore").comes();
        INTERFERENCE_MAX: Shift = new("interference_max", "greatest interference: for stress, press and heat");
        PRESSURE: Stress = new("joint_pressure", "pressure in the joint at the greatest interference");
        PRESSURE_NOMINAL: Stress = new("joint_pressure_nominal", "pressure in the joint as measured");
        FIRST_YIELD: Stress = new("first_yield_pressure", "pressure at which the bush begins to yield at its bore");
        FULL_YIELD: Stress = new("full_yield_pressure", "pressure at which the bush yields all through");
        YIELD_INTERFERENCE: Shift = new("first_yield_interference", "interference at which the bush begins to yield");
        HOOP_BUSH: Stress = new("hoop_bush", "hoop stress at the bore of the bush, greatest interference");
        HOOP_HOUSING: Stress = new("hoop_housing", "hoop stress of the housing at the joint, greatest interference");
        HOUSING_STRESS: Stress = new("housing_stress", "what decides in the housing, greatest interference: hoop and pressure together, of grey iron the hoop");
        MANDREL_PILOT: Mm = upper("mandrel_pilot", "pilot of the pressing mandrel, free in the closed-in bore");
        MANDREL_SHOULDER: Mm = new("mandrel_shoulder", "shoulder of the pressing mandrel");
        PRESS_FORCE: Newton = lower("press_force", "greatest force to press it home");
        PRESS_FORCE_NOMINAL: Newton = lower("press_force_nominal", "force to press it home as measured");
    }
}

/// What is known of a bush that was measured and goes in.
pub(in crate::operations) mod fitted {
    use crate::names;
    use crate::quantity::{Celsius, Mm, Newton, NewtonMetre, Ratio, Shift, Stress};

    names! { pub(in crate::operations),
        JUDGED_TO: Celsius = new("joint_judged_to", "how warm the joint is taken to get at the most");
        JUDGED_COLD: Celsius = new("joint_judged_cold", "how cold the joint is taken to get at the most");
        BUSH_OUTSIDE: Mm = new("bush_outside", "outside of the bush").comes();
        LOSS: Mm = new("roughness_loss", "interference lost as the surfaces bed in");
        LEFT: Shift = new("interference_left", "interference once the surfaces have bedded in");
        INTERFERENCE_MIN: Shift = new("interference_min", "least interference: for grip");
        PRESSURE_MIN: Stress = new("joint_pressure_min", "pressure in the joint at the least interference");
        CLOSE_IN: Mm = new("close_in", "what pressing closes the bore by");
        CLOSE_IN_MOST: Mm = new("close_in_most", "most that pressing may close the bore by, greatest interference");
        CLOSE_IN_SHARE: Ratio = new("close_in_share", "close-in over interference");
        BORE_LOW: Mm = new("bore_after_low", "smallest that the bore may be once pressed").comes();
        BORE_HIGH: Mm = new("bore_after_high", "largest that the bore may be once pressed").comes();
        BOSS_GROWTH: Mm = new("boss_growth", "what the outside of the housing grows by");
        HOLDING_FORCE: Newton = upper("holding_force", "least force that pushes it out, at 20 degC");
        SLIP_TORQUE: NewtonMetre = upper("slip_torque", "least torque that turns it in its housing, at 20 degC");
        INTERFERENCE_WARM: Shift = new("interference_warm", "interference when warm");
        INTERFERENCE_COLD: Shift = new("interference_cold", "interference in the coldest that it stands in");
        HOOP_HOUSING_WARM: Stress = new("hoop_housing_warm", "hoop stress of the housing at the joint, warm and tightest");
        BUSH_PRESSURE_WARM: Stress = new("bush_pressure_warm", "pressure on the bush, warm and tightest");
        OUTSIDE_LEAST: Mm = lower("outside_least_proven", "least outside of the bush at which the joint is proven");
        OUTSIDE_MOST: Mm = upper("outside_most_proven", "greatest outside of the bush at which the joint is proven");
    }
}

/// The bore of a bush that was pressed in.
pub(in crate::operations) mod closed_in {
    use crate::names;
    use crate::operations::{Declared, PartSize};
    use crate::quantity::Mm;
    use crate::shop::Gauge;

    names! { pub(in crate::operations),
        BORE_PRESSED: Mm = new("bore_after_pressing", "bore of the bush once it is pressed in").left(Gauge::Inside).passing(PartSize::Bushed);
    }

    /// The same where nothing follows that changes it.
    pub(in crate::operations) const AS_IT_STAYS: &[Declared] = &[BORE_PRESSED.leaves(PartSize::Bushed).declare()];
}

/// What it takes to drop in.
pub(in crate::operations) mod room {
    use crate::names;
    use crate::quantity::Mm;

    names! { pub(in crate::operations),
        ASSEMBLY_CLEARANCE: Mm = new("assembly_clearance", "room to drop together");
    }
}

/// What is left of the joint as it stands at the press.
pub(in crate::operations) mod at_press {
    use crate::names;
    use crate::quantity::Shift;

    names! { pub(in crate::operations),
        LEFT_AT_THE_PRESS: Shift = new("left_at_the_press", "interference left at the press, the housing warm or the bush cold; negative is room");
    }
}

/// What pushes a bush, in or out.
pub(in crate::operations) mod push {
    use crate::names;
    use crate::quantity::Stress;

    names! { pub(in crate::operations),
        PUSH_STRESS: Stress = new("push_stress", "what the push puts on the wall of the bush, at the most");
    }
}

/// What comes through the support.
pub(in crate::operations) mod support {
    use crate::names;
    use crate::quantity::Mm;

    names! { pub(in crate::operations),
        MUST_PASS: Mm = new("must_pass", "diameter that must pass the support");
        SUPPORT: Mm = new("support_inside", "bore of the support, or gap of its blocks");
        PILE: Mm = new("pile_under_the_ram", "height that stands under the ram: support, housing, and what is pushed or pushes");
    }
}

/// What a housing that opens so far must be.
pub(in crate::operations) mod as_warm {
    use crate::names;
    use crate::quantity::Celsius;

    names! { pub(in crate::operations),
        AS_WARM: Celsius = new("housing_as_warm", "temperature at which the housing opens by so much");
    }
}

/// What a bush that loses so much must be.
pub(in crate::operations) mod as_cold {
    use crate::names;
    use crate::quantity::Celsius;

    names! { pub(in crate::operations),
        AS_COLD: Celsius = new("bush_as_cold", "temperature at which the bush loses so much");
    }
}

/// The housing in the oven.
pub(in crate::operations) mod oven {
    use crate::names;
    use crate::quantity::Celsius;

    names! { pub(in crate::operations),
        HOUSING_TEMPERATURE: Celsius = lower("housing_temperature", "temperature of the housing at which the bush drops in");
    }
}

/// What the oven is set to, and what it may come to.
pub(in crate::operations) mod oven_set {
    use crate::names;
    use crate::quantity::Celsius;

    names! { pub(in crate::operations),
        OVEN_SETTING: Celsius = lower("oven_setting", "what the oven is set to");
        HOUSING_HOTTEST: Celsius = lower("housing_hottest", "hottest the housing may get");
    }
}

/// The bush in the freezer.
pub(in crate::operations) mod freezer {
    use crate::names;
    use crate::quantity::{Celsius, Mm};

    names! { pub(in crate::operations),
        CHILL_GAIN: Mm = new("chill_gain", "what chilling takes off the bush");
        BUSH_TEMPERATURE: Celsius = new("bush_temperature", "temperature of the bush at which it drops in");
    }
}
