//! The edge that cuts.

use crate::handbook::ToolMaterial;
use crate::proof::{Fact, Worked};
use crate::quantity::{Angle, Mm};

/// The edge that cuts.
#[derive(Clone)]
pub(in crate::operations) struct Edge {
    pub name: Fact,
    pub material: ToolMaterial,
    pub nose: Worked<Mm>,
    pub angle: Worked<Angle>,
    /// Greatest depth that it stands, where the shop says.
    pub most_depth: Option<Worked<Mm>>,
}
