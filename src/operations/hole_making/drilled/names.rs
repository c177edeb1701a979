//! The names of the values of a drilled hole.

use crate::names;
use crate::operations::PartSize;
use crate::quantity::{MPerMin, Minutes, Mm, MmPerRev, Newton, NewtonMetre, RevPerMin};

names! { pub(in crate::operations),
    DIAMETER: Mm = new("drill_diameter", "drill").comes();
    WALL: Mm = new("wall", "metal from the face to the far side").found(PartSize::Wall);
    POINT: Mm = new("point_length", "length of the drill's point");
    DEPTH_TO_POINT: Mm = new("depth_to_point", "depth of the hole to the tip of the point").comes();
    STOP_TRAVEL: Mm = new("stop_travel", "travel of the depth stop from the face");
    TIP_BEHIND: Mm = new("tip_behind", "how far the tip comes out behind the wall");
    LEFT_BEHIND: Mm = new("left_behind", "gap left behind the wall while the tip is out");
    SPEED: RevPerMin = new("drill_spindle_speed", "spindle step for the drill");
    SURFACE: MPerMin = new("drill_surface_speed", "real cutting speed of the drill");
    FEED: MmPerRev = new("drill_feed", "feed of the drill, the low end first");
    TORQUE: NewtonMetre = lower("drill_torque", "torque on the drill, the greatest of the forms, and their spread");
    TORQUE_THERE: NewtonMetre = upper("torque_there", "torque that the machine gives at that step");
    THRUST: Newton = lower("drill_thrust", "thrust on the drill, the greatest of the forms, and their spread");
    STICK_OUT: Mm = new("drill_stick_out", "how far the drill stands out of its chuck");
    CHUCK_CLEAR: Mm = new("chuck_clear", "way between chuck and face when the drill stands deepest");
    BOWS_AT: Newton = upper("drill_bows_at", "thrust at which the drill bows out");
    TWISTS_AT: NewtonMetre = upper("drill_twists_off_at", "torque at which the drill twists off");
    TIME: Minutes = new("time", "cutting time, approach and point with it");
}
