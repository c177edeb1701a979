//! The names of the values of a thread insert.

use crate::names;
use crate::operations::PartSize;
use crate::quantity::{MPerMin, Mm, Newton, NewtonMetre, Ratio, RevPerMin};
use crate::shop::Gauge;

names! { pub(super),
    WALL: Mm = new("wall", "metal from the face to the far side").found(PartSize::Wall);
    PRESENT_HOLE: Mm = new("present_hole", "greatest diameter of the hole that is there").found(PartSize::Inside);
    PRESENT_DEPTH: Mm = new("present_depth", "depth of the hole that is there, to its deepest point").found(PartSize::Reached);
    BEYOND: Mm = new("beyond", "open gap behind the wall before something moves").comes();
    INSERT_LENGTH: Mm = new("insert_length", "nominal length of the insert");
    DRILL_DIAMETER: Mm = new("drill_diameter", "drill for the insert hole").comes();
    DRILLED_DEPTH: Mm = new("drilled_depth", "depth of the hole at its full diameter").left(Gauge::Depth);
    DEPTH_TO_POINT: Mm = new("depth_to_point", "depth of the hole to the tip of the point");
    POINT: Mm = new("drill_point", "length of the drill's point");
    FULL_THREAD: Mm = new("full_thread_depth", "least depth of full insert thread");
    TAP_DEPTH: Mm = new("tap_depth", "depth that the tap's first thread reaches");
    TAP_TURNS: Ratio = new("tap_turns", "turns of the tap over its depth");
    FITTED: Mm = new("fitted_length", "length that the coil takes in its hole, the short end").comes();
    SET_DOWN: Mm = upper("set_down", "how far the first coil sits below the face: at most, or as it was left").left(Gauge::Depth).opens(PartSize::SetDown);
    WALL_NEEDED: Mm = lower("wall_needed", "wall that this length needs, all doubts at their worst");
    METAL_LEFT: Mm = new("metal_left", "metal left under the hole").comes();
    MAJOR_MIN: Mm = lower("hole_major_min", "least major diameter of the insert hole");
    PITCH_MIN: Mm = lower("hole_pitch_min", "least pitch diameter of the insert hole");
    PITCH_MAX: Mm = upper("hole_pitch_max", "greatest pitch diameter of the insert hole");
    MINOR_MIN: Mm = lower("hole_minor_min", "least minor diameter of the insert hole");
    MINOR_MAX: Mm = upper("hole_minor_max", "greatest minor diameter of the insert hole");
    PERCENT_BASIC: Ratio = new("thread_percent", "percentage of thread on the form's own basis");
    PERCENT_ISO: Ratio = new("thread_percent_iso", "percentage of thread on the basis of ISO 68-1 (5/8 H)");
    PULL_OUT: Newton = upper("pull_out_force", "force that strips the insert hole");
    REACH_MOST: Mm = upper("reach_most_with_tang", "the most that a bolt may reach while the tang stays in");
    BOLT_FORCE: Newton = lower("bolt_force", "force that breaks the bolt");
    CLAMPING: Newton = lower("clamping_force", "clamping force of the bolt");
    CLAMPING_MOST: Newton = lower("clamping_force_most", "clamping force of the bolt where the thread runs easiest");
    PROOF_LOAD: Newton = upper("proof_load", "force up to which the bolt keeps its length");
    ENGAGED: Mm = new("engaged_length", "length of coil that carries");
    EDGE: Mm = new("edge", "from the middle of the hole to the nearest edge").found(PartSize::Edge);
    EDGE_WALL: Mm = new("edge_wall", "metal from the hole's thread to the nearest edge").comes();
    STOP_TRAVEL: Mm = new("stop_travel", "travel of the stop from the zero that was chosen");
    TIP_BEHIND: Mm = new("tip_behind", "how far the drill's tip stands behind the wall of a through hole");
    TAP_OUT: Mm = new("tap_out", "how far the tap's end stands behind the wall of a through hole");
    LEFT_CUTTING: Mm = new("beyond_left_cutting", "what is left of the gap behind the wall while cutting");
    BOLT_OUT: Mm = new("beyond_when_assembled", "how far the bolt stands behind the wall when the joint is closed");
    LEFT_ASSEMBLED: Mm = new("beyond_left_assembled", "what is left of the gap behind the wall when the joint is closed");
    DRILL_SPEED: RevPerMin = new("drill_spindle_speed", "spindle step for the drill");
    DRILL_SURFACE: MPerMin = new("drill_surface_speed", "cutting speed that this step gives the drill");
    TAP_SPEED: RevPerMin = new("tap_spindle_speed", "spindle step for the tap, where it is driven by machine");
    TAP_TORQUE: NewtonMetre = lower("tap_torque", "torque on the tap");
    TAP_BREAKS_AT: NewtonMetre = lower("tap_breaks_at", "torque that breaks the core of the tap");
    TABLE_A: Ratio = new("length_by_tensile_table", "length in diameters that one maker's table asks (by tensile strength and screw class)");
    TABLE_B: Ratio = new("length_by_shear_table", "length in diameters that another maker's table asks (by shear strength and screw strength)");
}
