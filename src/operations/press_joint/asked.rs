//! What is asked of a joint, whichever operation asks.

use super::keys::{Bush, Flange, Housing, Running, Stands};
use crate::operations::SetUpWish;
use crate::proof::At;

/// The keys of a joint.
#[derive(Clone, Copy)]
pub(in crate::operations) struct Asked<'a> {
    /// What the bush sits in.
    pub housing: &'a Housing,
    /// The bush.
    pub bush: &'a Bush,
    /// A flange of the bush.
    pub flange: Option<&'a Flange>,
    /// How far it stands out.
    pub stands: Option<&'a At<Stands>>,
    /// Temperatures when it runs.
    pub running: Option<&'a Running>,
    /// Whether the press alone pushes it, both cold.
    pub cold: bool,
    /// What the warm housing opens and the cold bush loses at the least, mm, where it is to drop in by that.
    pub gives: Option<f64>,
    /// What is asked of the set-up.
    pub set_up: Option<&'a SetUpWish>,
}
