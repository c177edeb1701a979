//! The names of the values that cuts on a lathe share, in the groups in which operations give them.

use crate::names;
use crate::operations::PartSize;
use crate::quantity::{
    KiloWatt, MPerMin, Minutes, Mm, MmPerRev, Newton, NewtonMetre, Ratio, RevPerMin, Roughness, Stress,
};

names! { pub(in crate::operations) OF_CUT, // Speed, feed and force of any cut.
    SPEED_WANTED: MPerMin = new("speed_wanted", "cutting speed wanted at the outside");
    SPINDLE_SPEED: RevPerMin = new("spindle_speed", "spindle step for the whole set-up");
    SPEED_OUTSIDE: MPerMin = new("surface_speed_outside", "real cutting speed at the outside");
    SPEED_SHARE: Ratio = new("speed_share", "real cutting speed over the speed wanted");
    FEED: MmPerRev = new("feed", "feed step of the finishing cut");
    CUTTING_FORCE: Newton = lower("cutting_force", "greatest cutting force of all cuts");
    POWER: KiloWatt = lower("power_at_motor", "greatest power that the motor must give");
    TORQUE: NewtonMetre = lower("torque", "greatest torque on the spindle");
    BLOWS: Ratio = new("blows_per_minute", "blows a minute of the interrupted cut");
    TIME: Minutes = new("time", "cutting time of all passes");
}

names! { pub(in crate::operations) OF_HOLD, // What a hold is judged by.
    GRIP_BY_TORQUE: Newton = lower("grip_by_torque", "total jaw force that torque and axial force ask, at the factors used and with the full safety");
    GRIP_BY_TORQUE_WORST: Newton = lower("grip_by_torque_worst", "the same at the worst end of the force, with the least safety that must be left then");
    GRIP_BY_MOMENT: Newton = lower("grip_by_moment", "total jaw force that the tilting moment asks, at the factors used and with the full safety");
    GRIP_BY_MOMENT_WORST: Newton = lower("grip_by_moment_worst", "the same at the worst end of the force, with the least safety that must be left then");
    GRIP_NEEDED: Newton = lower("grip_needed", "the greater of what torque and moment ask");
    GRIP_NEEDED_WORST: Newton = lower("grip_needed_worst", "the same at the worst end of the force, with the least safety that must be left then");
    JAW_FORCE_LOW: Newton = upper("jaw_force_low", "jaw force that can be counted on to hold, at speed");
    JAW_FORCE_HIGH: Newton = lower("jaw_force_high", "jaw force that may squeeze the part");
    JAW_PRESSURE: Stress = new("jaw_pressure", "pressure of a jaw on the part");
    GRIP_LENGTH_ASKED: Mm = new("grip_length_asked", "least length in the grip");
    LOBE: Mm = new("ring_lobe", "how far the jaws squeeze the ring out of round, peak to valley on the radius");
    TORQUE_TO_STAND: NewtonMetre = lower("torque_to_stand", "torque that the grip must stand in a test, at its worst end");
}

names! { pub(in crate::operations) OF_PASSES, // A surface that is cut in passes, to a finish.
    CASE_DEPTH: Mm = new("case_depth", "how deep the hard case is").comes();
    CASE_LEFT: Mm = new("case_left", "hard case left after the cut").comes();
    REMOVED_BEFORE: Mm = new("removed_before", "metal taken off here in earlier work").found(PartSize::Gone);
    FINISH: Roughness = new("finish", "roughness wanted");
    FINISH_EXPECTED: Roughness = new("finish_expected", "roughness that this feed should leave");
    LEAST_DEPTH: Mm = new("least_depth", "least depth at which this nose cuts");
    CUTS: Ratio = new("cuts", "cuts over the contact, spring passes not counted");
    PASSES: Ratio = new("passes", "passes over the contact, spring passes too");
    TIME_A_PASS: Minutes = new("time_a_pass", "cutting time of one pass");
}

names! { pub(in crate::operations) OF_ACROSS, // A cut that goes from one diameter to another.
    SPEED_INSIDE: MPerMin = new("surface_speed_inside", "real cutting speed at the inside");
    SPEED_MEAN: MPerMin = new("surface_speed_mean", "mean of the real cutting speed over the contact");
}

names! { pub(in crate::operations) OF_ALONG, // A cut that goes along an outside or a bore.
    SPEED_LAST: MPerMin = new("surface_speed_last", "real cutting speed at the size that it comes to");
}

names! { pub(in crate::operations) OF_CLEAR, // A tool that comes towards the jaws from outside.
    TOOL_CLEAR: Mm = new("tool_clear", "way between the tool's nose and the jaws at the end of the cut");
}

names! { pub(in crate::operations) OF_FLANGE, // A flange behind the cut.
    FLANGE_SLENDERNESS: Ratio = new("flange_slenderness", "free width of the flange over its thickness");
    FLANGE_GIVES: Mm = new("flange_gives", "how far the flange gives under the tool at its rim");
}

names! { pub(in crate::operations) OF_FLAT, // A flat face.
    DISH_BY_JAWS: Mm = new("dish_by_jaws", "how far the jaws dish the face");
    DEFLECTION: Mm = new("deflection", "how far the part standing out gives way");
}
