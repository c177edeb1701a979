//! What was read and picked for a drilled hole.

use crate::handbook::{Material, ToolMaterial};
use crate::proof::Worked;
use crate::quantity::{Angle, Mm};

/// What was read and picked.
pub(super) struct Case {
    /// The metal whose cutting rows are taken: that of the hard groups for a steel that was hardened.
    pub cuts_as: Material,
    pub diameter: Worked<Mm>,
    pub wall: Worked<Mm>,
    pub point: Worked<Mm>,
    pub angle: Worked<Angle>,
    pub tool: ToolMaterial,
    /// Doubt of the stop, mm.
    pub stop: f64,
    pub division: f64,
}
