//! The names of the values that a skim has beside those of every facing cut.

use crate::names;
use crate::quantity::{ForceShift, Mm, Ratio, Shift, SpringRate};

names! { pub(super),
    DISH: Mm = new("dish", "hollow of the contact as measured").comes();
    REMOVED_ALONE: Mm = new("removed_alone", "metal that this part of a pair would lose on its own");
    THICKNESS_AFTER: Mm = new("thickness_after", "thickness after the cut").comes();
    PACK_CHANGE: Shift = new("pack_change", "change of the plate stack alone").comes();
    PACK_AFTER: Mm = new("pack_after", "plate stack after the cut").comes();
    SEAT_SHIFT: Shift = new("seat_shift", "shift of the seat against the contact").comes();
    STEP_AFTER: Shift = new("step_after", "height of the step after the cut").comes();
    SPRING_CHANGE: Shift = new("spring_length_change", "how much longer the springs stand").comes();
    CLAMP_CHANGE: ForceShift = new("clamp_change", "clamp gained or lost by the springs");
    STEP_FOLLOWS: Ratio = new("step_follows", "1 where the step is cut by the same as the contact, else 0");
    STEP_CUT: Mm = new("step_cut", "what is cut at the step, where it does not follow the contact");
    SPRING_RATE: SpringRate = new("spring_rate", "rate of all springs together");
    MOST_CHANGE: ForceShift = new("clamp_most_change", "the most that the clamp may change");
}
