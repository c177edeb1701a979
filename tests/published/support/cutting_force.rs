//! Force, power, finish, time, deflection, grip and balance.

use super::Subject;
use super::inputs::{Inputs, of};
use super::run::{Outcome, Run};
use setover::handbook::cutting::{cutting_force as force, deflection, finish, speeds, times, work_holding as holding};
use setover::proof::Worked;
use setover::quantity::{KiloWatt, Mm, MmPerMin, Quantity, Ratio, Removal};

/// The subjects of this file.
pub const SUBJECTS: &[Subject] = &[
    ("second-moment", |given, run| run.end(deflection::second_moment_round(&given.length("d")?))),
    ("deflection-cantilever", |given, run| {
        let bar = run.take(deflection::second_moment_round(&given.length("d")?))?;
        let (load, length) = (given.force("force")?, given.length("length")?);
        run.end(deflection::deflection_cantilever(&load, &length, &given.stress("e")?, &bar))
    }),
    ("deflection-by-stiffness", |given, run| {
        let bar = run.take(deflection::second_moment_round(&given.length("d")?))?;
        let stiffness =
            run.take(deflection::stiffness_cantilever(&given.stress("e")?, &bar, &given.length("length")?))?;
        let moved = given.force("force")?.number() / stiffness.number();
        Ok(Worked::<Mm>::assumed(Mm::new(moved), "force over stiffness").into())
    }),
    ("unbalance-force", |given, run| {
        let (mass, radius) = match given.text("unbalance_oz_in") {
            Some(_) => (of(given.plain("unbalance_oz_in")? * 0.028_349_523_125), of(25.4)),
            None => (given.mass("mass")?, given.length("offset")?),
        };
        run.end(holding::centrifugal_force(&mass, &radius, &given.turns("n")?))
    }),
    ("unbalance", |given, run| {
        // Mass times offset is the force at one radian a second.
        let slow = of(30.0 / std::f64::consts::PI);
        run.end(holding::centrifugal_force(&given.mass("mass")?, &given.length("offset")?, &slow))
    }),
    ("drill-power-handbook", |given, run| {
        let per_kilowatt = run.take(force::torque_from_power(&of(1.0), &given.turns("n")?))?;
        let torque = given.plain("torque_in_lbf")? * 0.112_984_829_027_616_7;
        Ok(Worked::<KiloWatt>::assumed(KiloWatt::new(torque / per_kilowatt.number()), "torque over that of a kilowatt")
            .into())
    }),
    ("roughness-rt", |given, run| run.end(finish::roughness_rt(&given.feed()?, &given.length("r")?))),
    ("roughness-ra", |given, run| {
        let factor = of::<Ratio>(given.plain_or("factor", 1.0));
        run.end(finish::roughness_ra(&given.feed()?, &given.length("r")?, &factor))
    }),
    ("feed-for-chip-thickness", |given, run| {
        run.end(force::feed_for_chip_thickness(&given.length("h")?, &given.angle("kappa")?))
    }),
    ("feed-for-mean-chip", |given, run| {
        run.end(force::feed_for_mean_chip(&given.length("hm")?, &given.ratio("ae_over_d")?))
    }),
    ("radial-chip-thinning", |given, run| run.end(force::radial_chip_thinning(&given.ratio("ae_over_d")?))),
    ("motor-power", |given, run| {
        let edge = removal_power(given, run)?;
        run.end(force::motor_power(&edge, &given.ratio("efficiency")?))
    }),
    ("motor-power-turning", |given, run| {
        let (depth, feed, speed) = (given.length("ap")?, given.feed()?, given.speed()?);
        let removal = run.take(times::removal_turning(&speed, &depth, &feed))?;
        let edge = run.take(force::cutting_power_of_removal(&removal, &given.stress("kc")?))?;
        run.end(force::motor_power(&edge, &given.ratio("efficiency")?))
    }),
    ("motor-power-from-cutting", |given, run| {
        run.end(force::motor_power(&given.power("power")?, &given.ratio("efficiency")?))
    }),
    ("cutting-power", |given, run| run.end(force::cutting_power(&given.force("force")?, &given.speed()?))),
    ("cutting-power-removal", |given, run| removal_power(given, run).map(Outcome::from)),
    ("cutting-power-kienzle", |given, run| {
        let kc = run.take(force::specific_force(&given.stress("kc11")?, &given.length("h")?, &given.ratio("mc")?))?;
        run.end(force::cutting_power_of_removal(&removal(given)?, &kc))
    }),
    ("cutting-force", |given, run| {
        let (kc, depth, one) = (given.stress("kc")?, given.length("ap")?, of(1.0));
        run.end(force::cutting_force(&kc, &one, &one, &depth, &given.feed()?))
    }),
    ("cutting-force-kienzle", |given, run| {
        let (kc, chip, mc) = (given.stress("kc11")?, given.length("h")?, given.ratio("mc")?);
        let kc = run.take(force::specific_force(&kc, &chip, &mc))?;
        // The chip as it is: its width for the depth, its thickness for the feed.
        let (one, thick) = (of(1.0), of(chip.number()));
        run.end(force::cutting_force(&kc, &one, &one, &given.length("b")?, &thick))
    }),
    ("torque-from-power", |given, run| run.end(force::torque_from_power(&given.power("power")?, &given.turns("n")?))),
    ("feed-rate", |given, run| run.end(times::feed_rate(&given.feed()?, &given.turns("n")?))),
    ("turning-time", |given, run| {
        let passes = of(given.plain_or("passes", 1.0));
        run.end(times::turning_time(&given.length("length")?, &given.feed()?, &given.turns("n")?, &passes))
    }),
    ("turning-time-feed-rate", |given, run| run.end(times::time_by_feed_rate(&given.length("length")?, &rate(given)?))),
    ("turning-time-speed", |given, run| {
        let (length, diameter) = (given.length("length")?, given.length("d")?);
        let turns = run.take(speeds::spindle_speed(&given.speed()?, &diameter))?;
        run.end(times::turning_time(&length, &given.feed()?, &turns, &of(1.0)))
    }),
    ("drilling-time", |given, run| {
        let holes = of(given.plain_or("holes", 1.0));
        run.end(times::drilling_time(&given.length("depth")?, &given.feed()?, &given.turns("n")?, &holes))
    }),
    ("drilling-time-speed", |given, run| {
        let (depth, drill) = (given.length("depth")?, given.length("d")?);
        let turns = run.take(speeds::spindle_speed(&given.speed()?, &drill))?;
        run.end(times::drilling_time(&depth, &given.feed()?, &turns, &of(1.0)))
    }),
    ("removal-rate-turning", |given, run| {
        let (diameter, depth) = (given.length("d")?, given.length("ap")?);
        let speed = run.take(speeds::surface_speed(&given.turns("n")?, &diameter))?;
        run.end(times::removal_turning(&speed, &depth, &given.feed()?))
    }),
    ("removal-rate-turning-speed", |given, run| {
        run.end(times::removal_turning(&given.speed()?, &given.length("ap")?, &given.feed()?))
    }),
    ("removal-rate-drilling", |given, run| {
        run.end(times::removal_drilling(&given.length("d")?, &given.feed()?, &given.turns("n")?))
    }),
    ("removal-rate-drilling-feed-rate", |given, run| {
        // At a thousand turns a minute, a thousandth of it is fed a turn.
        run.end(times::removal_drilling(&given.length("d")?, &of(rate(given)?.number() / 1000.0), &of(1000.0)))
    }),
];

fn removal(given: &Inputs) -> Result<Worked<Removal>, String> {
    given.plain("q_cm3_min").map(of)
}

fn removal_power(given: &Inputs, run: &mut Run) -> Result<Worked<KiloWatt>, String> {
    run.take(force::cutting_power_of_removal(&removal(given)?, &given.stress("kc")?))
}

/// A feed a minute.
fn rate(given: &Inputs) -> Result<Worked<MmPerMin>, String> {
    given.plain("vf_mm_min").map(of)
}
