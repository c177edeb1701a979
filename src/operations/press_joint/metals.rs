//! The two metals of a joint.

use super::asked::Asked;
use crate::handbook::Material;
use crate::operations::Bench;
use crate::proof::Refusal;

/// The two metals.
pub(in crate::operations) struct Metals {
    pub housing: Material,
    pub bush: Material,
}

impl Asked<'_> {
    /// Both metals: the housing's own, else the part's.
    pub(in crate::operations) fn metals(&self, bench: &Bench) -> Result<Metals, Refusal> {
        let housing = self.housing.material.as_ref().or(bench.part.material.as_ref()).map(|at| at.value.clone());
        let housing = housing.ok_or(Refusal::NotGiven { what: "the metal of the housing", key: "material" })?;
        Ok(Metals { housing, bush: self.bush.material.value.clone() })
    }
}
