//! The two metals of a joint, and that of the part which the housing is only a liner of: into the oven goes the whole of it.

use super::asked::Asked;
use crate::handbook::Material;
use crate::handbook::joints::heating::{StopTemperature, stop_of_both, stop_temperature};
use crate::handbook::materials::groups::Kind;
use crate::operations::Bench;
use crate::proof::{At, Refusal};

/// The metals.
pub(in crate::operations) struct Metals {
    pub housing: Material,
    pub bush: Material,
    /// What the housing sits in, where that is of another metal.
    part: Option<Material>,
}

impl Metals {
    /// Those of a housing, of its own metal or of that of its part, and of a bush.
    pub(in crate::operations) fn of(
        housing: Option<&At<Material>>,
        bush: &At<Material>,
        bench: &Bench,
    ) -> Result<Self, Refusal> {
        let part = bench.part.material.as_ref();
        let lacking = Refusal::NotGiven { what: "the metal of the housing", key: "material" };
        let own = housing.or(part).ok_or(lacking)?.value.clone();
        let part = part.map(|at| at.value.clone()).filter(|part| part.id() != own.id());
        Ok(Self { housing: own, bush: bush.value.clone(), part })
    }

    /// The cautions of all of them.
    pub(in crate::operations) fn cautions(&self) -> impl Iterator<Item = &'static str> {
        self.part.iter().chain([&self.housing, &self.bush]).flat_map(Material::safety)
    }

    /// What magnesium asks for beside another metal: damp eats it out there.
    pub(in crate::operations) fn rots(&self) -> Option<&'static str> {
        let kinds = [self.housing.kind(), self.bush.kind()];
        let is_apart = |kind: &Kind| !matches!(kind, Kind::Magnesium | Kind::Plastic | Kind::Lining);
        (kinds.contains(&Kind::Magnesium) && kinds.iter().any(is_apart)).then_some("magnesium-joint")
    }

    /// How hot the oven may make what lies in it without the bush.
    pub(in crate::operations) fn stop(&self, seals: bool) -> Result<StopTemperature, Refusal> {
        let stop = stop_temperature(&self.housing, seals)?;
        self.part.as_ref().map_or(Ok(stop.clone()), |part| stop_of_both(stop, part))
    }

    /// Whether an aluminium lies in the oven: the housing, or what it sits in.
    pub(in crate::operations) fn warms_aluminium(&self) -> bool {
        self.part.iter().chain([&self.housing]).any(|metal| metal.kind() == Kind::Aluminium)
    }

    /// Whether magnesium lies in the oven.
    pub(in crate::operations) fn warms_magnesium(&self) -> bool {
        self.part.iter().chain([&self.housing]).any(|metal| metal.kind() == Kind::Magnesium)
    }
}

impl Asked<'_> {
    /// Both metals: the housing's own, else the part's.
    pub(in crate::operations) fn metals(&self, bench: &Bench) -> Result<Metals, Refusal> {
        Metals::of(self.housing.material.as_ref(), &self.bush.material, bench)
    }
}
