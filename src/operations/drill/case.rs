//! What was read and picked for a drilled hole.

use crate::handbook::{Material, ToolMaterial};
use crate::proof::Worked;
use crate::quantity::{Angle, Mm};

/// What was read and picked.
pub(super) struct Case {
    pub material: Material,
    pub diameter: Worked<Mm>,
    pub wall: Worked<Mm>,
    pub point: Worked<Mm>,
    pub angle: Worked<Angle>,
    pub tool: ToolMaterial,
    /// Doubt of the stop, mm.
    pub stop: f64,
    pub division: f64,
}
