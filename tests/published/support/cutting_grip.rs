//! Chucks, rings held in them, torque, springs of a bar, the top slide.

use super::Subject;
use super::inputs::{Inputs, of};
use super::run::{Outcome, Run};
use setover::handbook::cutting::{
    cutting_force as force, deflection, drill_column as column, grip, jaw_force, milling, ring_and_plate as ring,
    stock, times, work_holding as holding,
};
use setover::proof::Worked;
use setover::quantity::{Mm4, Quantity, Ratio};
use std::f64::consts::PI;

/// The subjects of this file.
pub const SUBJECTS: &[Subject] = &[
    ("spindle-torque", |given, run| run.end(force::spindle_torque(&given.force("force")?, &given.length("d")?))),
    ("cutting-power-of-feed", |given, run| {
        let chip = run.take(force::chip_thickness(&given.feed()?, &given.angle("kappa")?))?;
        let kc = run.take(force::specific_force(&given.stress("kc11")?, &chip, &given.ratio("mc")?))?;
        run.end(force::cutting_power_of_removal(&of(given.plain("q_cm3_min")?), &kc))
    }),
    ("balance-speed", |given, run| {
        run.end(holding::balance_speed(&given.force("force")?, &given.mass("mass")?, &given.length("offset")?))
    }),
    ("rim-speed", |given, run| run.end(jaw_force::chuck_speed_most(&given.speed()?, &given.length("d")?))),
    ("ring-mass", |given, run| {
        let (outside, inside) = (given.length("outside")?, given.length("inside")?);
        run.end(grip::mass_of_ring(&given.ratio("density")?, &outside, &inside, &given.length("length")?))
    }),
    ("ring-deflection", ring_deflection),
    ("column", |given, run| {
        let tube = run.take(deflection::second_moment_tube(&given.length("outside")?, &given.length("inside")?))?;
        run.end(column::column_carries(&given.ratio("ends")?, &given.stress("e")?, &tube, &given.length("length")?))
    }),
    ("milling-time", |given, run| {
        let feed = run.take(force::feed_of_teeth(&of(given.feed()?.number()), &given.ratio("z")?))?;
        let rate = run.take(times::feed_rate(&feed, &given.turns("n")?))?;
        let stroke = run.take(milling::stroke(&given.length("length")?, &given.length("d")?))?;
        run.end(times::time_by_feed_rate(&stroke, &rate))
    }),
    ("polar-moment-tube", |given, run| {
        let tube = run.take(deflection::second_moment_tube(&given.length("outside")?, &given.length("inside")?))?;
        Ok(Worked::<Mm4>::assumed(Mm4::new(2.0 * tube.number()), "about the axis: twice").into())
    }),
    ("slide-reading", |given, run| {
        let slide = run.take(stock::slide_reading(&of(given.plain("depth")?), &given.angle("from_bed")?))?;
        Ok(Worked::<Ratio>::assumed(Ratio::new(slide.number()), "for one of depth").into())
    }),
];

/// A thin ring squeezed across by two loads: each loaded point moves half of what the diameter gives. The formula takes
/// the force of three jaws.
fn ring_deflection(given: &Inputs, run: &mut Run) -> Result<Outcome, String> {
    let (outside, inside) = (given.length("outside")?, given.length("inside")?);
    let radius = run.take(ring::mean_radius(&outside, &inside))?;
    let wall = run.take(ring::ring_wall(&outside, &inside))?;
    let (factor, three) = (of((PI / 4.0 - 2.0 / PI) / 2.0), of(3.0 * given.force("load")?.number()));
    run.end(ring::ring_lobe(&factor, &three, &radius, &given.stress("e")?, &given.length("length")?, &wall))
}
