//! What a round part weighs, by the sizes that are named of it.

use crate::handbook::Material;
use crate::handbook::cutting::grip as law;
use crate::proof::{Refusal, Worked};
use crate::quantity::{Kilogram, Mm, Quantity, Ratio, figure};

/// From the sizes named and the density; none where the book has no density.
pub fn mass_from_sizes(
    material: &Material,
    [outside, inside, length]: [&Worked<Mm>; 3],
) -> Result<Option<Worked<Kilogram>>, Refusal> {
    let Some((density, source)) = material.density() else { return Ok(None) };
    let says = format!("{}: density {} g/cm3", material.row().name, figure(density));
    let density = Worked::row(Ratio::new(density), says, source);
    law::mass_of_ring(&density, outside, inside, length).map(Some)
}
