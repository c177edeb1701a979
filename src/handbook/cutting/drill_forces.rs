//! Torque and thrust of a drill by every form that the book has: they disagree, and a machine has to stand the greatest.

use super::cutting_force::{chip_thickness, exponent, force_at_one, specific_force};
use super::drilling::{self, Point};
use crate::handbook::Material;
use crate::handbook::constants::constant;
use crate::proof::{Refusal, Side, Worked};
use crate::quantity::{Angle, Mm, MmPerRev, Newton, NewtonMetre, Quantity, Ratio};

/// Torque and thrust.
pub type Forces = (Worked<NewtonMetre>, Worked<Newton>);

/// By the handbook form, by the specific force of each lip, and by the form with one constant; each refused where it has no row.
pub fn forms(
    material: &Material,
    d: &Worked<Mm>,
    feed: &Worked<MmPerRev>,
    point: &Worked<Angle>,
) -> [Result<Forces, Refusal>; 3] {
    [handbook_form(material, d, feed), lip_form(material, d, feed, point), constant_form(material, d, feed)]
}

/// The greatest of several figures, with the band of all: from the least end of any to the greatest.
pub fn greatest<'a, Q: Quantity>(all: impl Iterator<Item = &'a Worked<Q>> + Clone) -> Option<Worked<Q>> {
    let most = all.clone().max_by(|a, b| a.number().total_cmp(&b.number()))?;
    let low = all.clone().map(|figure| figure.band_end(Side::Low)).fold(f64::INFINITY, f64::min);
    let high = all.map(|figure| figure.band_end(Side::High)).fold(f64::NEG_INFINITY, f64::max);
    Some(if low < high { most.clone().with_band(low, high) } else { most.clone() })
}

fn handbook_form(material: &Material, d: &Worked<Mm>, feed: &Worked<MmPerRev>) -> Result<Forces, Refusal> {
    let factor = drilling::work_factor(material)?;
    let edge = drilling::chisel_edge(Point::Standard)?;
    let wear = constant::<Ratio>("force-factor-wear")?;
    let by_feed = drilling::feed_factor(feed)?;
    let torque = drilling::handbook_torque(&factor, &by_feed, &drilling::torque_factor(d)?, &edge.torque, &wear)?;
    let by_size = drilling::thrust_factor(d)?;
    let thrust = drilling::handbook_thrust(&factor, &by_feed, &by_size, &edge.thrust, &wear, d, &edge.own)?;
    Ok((torque, thrust))
}

fn constant_form(material: &Material, d: &Worked<Mm>, feed: &Worked<MmPerRev>) -> Result<Forces, Refusal> {
    let constant = drilling::material_constant(material)?;
    Ok((drilling::k_form_torque(&constant, d, feed)?, drilling::k_form_thrust(&constant, d, feed)?))
}

/// Two lips, each with half the feed.
fn lip_form(
    material: &Material,
    d: &Worked<Mm>,
    feed: &Worked<MmPerRev>,
    point: &Worked<Angle>,
) -> Result<Forces, Refusal> {
    let edge = point.scaled(0.5, "half the point angle");
    let chip = chip_thickness(&feed.scaled(0.5, "each of two lips"), &edge)?;
    let force = specific_force(&force_at_one(material)?, &chip, &exponent(material)?)?;
    Ok((drilling::drill_torque(feed, &force, d, &edge)?, drilling::drill_thrust(d, feed, &force, &edge)?))
}
