//! The names of what a hold is judged by under a tool that turns.

use crate::names;
use crate::quantity::{Mm, NewtonMetre};

names! { pub(in crate::operations),
    TORQUE_TO_STAND: NewtonMetre = lower("torque_to_stand", "torque that the grip must stand in a test, at its worst end");
    GRIP_LENGTH_ASKED: Mm = new("grip_length_asked", "least length in the grip");
}
