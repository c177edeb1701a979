//! Bushes pressed, shrunk and warmed into housings.

use super::Subject;
use super::inputs::{Inputs, of};
use super::run::{Outcome, Run};
use setover::handbook::constants::constant;
use setover::handbook::cutting::stock;
use setover::handbook::joints::{heating, press};
use setover::proof::Worked;
use setover::quantity::{Celsius, Mm, Quantity, Ratio, Shift, Stress};

/// The subjects of this file.
pub const SUBJECTS: &[Subject] = &[
    ("shrink-factor", shrink_factor),
    ("joint-pressure", |given, run| pressure(given, run).map(Outcome::from)),
    ("hoop-housing-bore", |given, run| {
        let p = pressure(given, run)?;
        run.end(press::hoop_housing_bore(&p, &given.length("d")?, &given.length("do")?))
    }),
    ("hoop-housing-outside", |given, run| {
        let p = pressure(given, run)?;
        run.end(press::hoop_housing_outside(&p, &given.length("d")?, &given.length("do")?))
    }),
    ("hoop-bush-bore", |given, run| {
        let p = pressure(given, run)?;
        run.end(press::hoop_bush_bore(&p, &given.length("d")?, &given.length("di")?))
    }),
    ("hoop-bush-outside", |given, run| {
        let p = pressure(given, run)?;
        run.end(press::hoop_bush_outside(&p, &given.length("d")?, &given.length("di")?))
    }),
    ("full-plastic-pressure", |given, run| {
        run.end(press::full_plastic(&given.stress("yield")?, &given.length("do")?, &given.length("di")?))
    }),
    ("housing-full-plastic-pressure", |given, run| {
        let (outside, inside) = (given.length("do")?, given.length("di")?);
        run.end(press::housing_spread(&of(1.0), &given.stress("yield")?, &outside, &inside))
    }),
    ("slip-torque", |given, run| run.end(press::slip_torque(&given.force("force")?, &given.length("d")?))),
    ("interference-for-pressure", |given, run| interference(given, run).map(Outcome::from)),
    ("radial-interference-for-pressure", |given, run| {
        let on_diameter = interference(given, run)?;
        Ok(Worked::<Shift>::assumed(Shift::new(on_diameter.number() / 2.0), "on the radius").into())
    }),
    ("housing-bore-for-pressure", |given, run| {
        let (joint, delta) = (given.length("d")?, interference(given, run)?);
        Ok(Worked::<Mm>::assumed(Mm::new(joint.number() - delta.number()), "joint less interference").into())
    }),
    ("roughness-loss", |given, run| {
        let share = constant("roughness-loss").map_err(|refusal| refusal.to_string())?;
        run.end(press::roughness_loss(&share, &given.roughness("ra_housing")?, &given.roughness("ra_bush")?))
    }),
    ("temperature-change-for-fit", |given, run| {
        // From 20 degrees, with nothing else to make room for.
        let (alpha, d) = (given.expansion("alpha")?, given.length("d")?);
        let hot =
            run.take(heating::housing_temperature(&of(given.plain("change_mm")?), &of(0.0), &of(0.0), &alpha, &d))?;
        Ok(Worked::<Celsius>::assumed(Celsius::new(hot.number() - heating::REFERENCE), "over 20 degrees").into())
    }),
    ("shaft-temperature-to-enter", |given, run| {
        let change = run.take(press::interference(&given.length("d")?, &given.length("hole")?))?;
        run.end(heating::temperature_to_enter(
            &given.celsius("start")?,
            &change,
            &given.expansion("alpha")?,
            &given.length("d")?,
        ))
    }),
    ("press-force-of-strained-hub", strained_hub),
    ("pressure-for-bore-stress", |given, run| {
        run.end(press::first_yield(&given.stress("stress")?, &given.length("di")?, &given.length("d")?))
    }),
    ("housing-yield-pressure", |given, run| {
        run.end(press::housing_first_yield(&given.stress("stress")?, &given.length("d")?, &given.length("do")?))
    }),
    ("tresca-stress", |given, run| run.end(press::tresca(&given.stress("hoop")?, &given.stress("p")?))),
    ("bush-stress-by-close-in", close_in_stress),
    ("housing-stress-by-growth", growth_stress),
    ("housing-temperature-to-drop", |given, run| {
        let interference = given.length("interference")?.becomes();
        let gap = run.take(heating::gap_to_open(&interference, &of(0.0)))?;
        run.end(heating::housing_temperature(&gap, &of(0.0), &of(0.0), &given.expansion("alpha")?, &given.length("d")?))
    }),
    ("chilled-shrinkage", |given, run| {
        run.end(heating::chilled_by(&given.expansion("alpha")?, &given.length("d")?, &given.celsius("t")?))
    }),
    ("clearance-when-warm", |given, run| {
        let (cold, both) = (given.length("clearance")?.becomes(), given.celsius("t")?);
        let (housing, shaft) = (given.expansion("alpha_housing")?, given.expansion("alpha_shaft")?);
        run.end(heating::clearance_warm(&cold, &of(0.0), &given.length("d")?, &housing, &both, &shaft, &both))
    }),
    ("clearance-when-warm-by-interference", |given, run| {
        let (cold, both) = (given.length("clearance")?, given.celsius("t")?);
        let (housing, shaft) = (given.expansion("alpha_housing")?, given.expansion("alpha_shaft")?);
        let tighter = run.take(heating::tightened_by(&given.length("d")?, &shaft, &both, &housing, &both))?;
        let warm = run.take(heating::interference_warm(&of(-cold.number()), &tighter))?;
        Ok(Worked::<Shift>::assumed(Shift::new(-warm.number()), "an interference below nothing").into())
    }),
    ("springs-together", |given, run| {
        let all = run.take(stock::springs_together(&given.ratio("springs")?, &of(given.plain("rate_n_mm")?)))?;
        run.end(stock::clamp_change(&all, &of(given.plain("shift_mm")?)))
    }),
];

/// The pressure under which the outside of the hub is strained as it was measured, and the force it holds.
fn strained_hub(given: &Inputs, run: &mut Run) -> Result<Outcome, String> {
    let (joint, outside) = (given.length("d")?, given.length("do")?);
    let of_one = run.take(press::boss_growth(&of(1.0), &joint, &outside, &given.stress("e")?))?;
    let pressure = of(given.plain("strain")? * outside.number() / of_one.number());
    run.end(press::press_force(&given.ratio("mu")?, &pressure, &joint, &given.length("length")?))
}

/// A free surface has its hoop stress alone: the strain of its diameter times the modulus. The bore closes in by a share
/// of the interference.
fn close_in_stress(given: &Inputs, run: &mut Run) -> Result<Outcome, String> {
    let (p, bore, modulus) = (pressure(given, run)?, given.length("di")?, modulus(given, "bush")?);
    let delta = given.length("interference")?.becomes();
    let closed = run.take(press::close_in(&p, &given.length("d")?, &bore, &modulus))?;
    let share = run.take(press::close_in_share(&closed, &delta))?;
    let closed = run.take(press::close_in_elastic(&share, &delta))?;
    let pressed = run.take(press::bore_pressed(&bore, &closed))?;
    let strain = (pressed.number() - bore.number()) / bore.number();
    Ok(Worked::<Stress>::assumed(Stress::new(strain * modulus.number()), "strain of the bore").into())
}

fn growth_stress(given: &Inputs, run: &mut Run) -> Result<Outcome, String> {
    let (p, outside, modulus) = (pressure(given, run)?, given.length("do")?, modulus(given, "housing")?);
    let grown = run.take(press::boss_growth(&p, &given.length("d")?, &outside, &modulus))?;
    let strain = grown.number() / outside.number();
    Ok(Worked::<Stress>::assumed(Stress::new(strain * modulus.number()), "strain of the outside").into())
}

fn poisson(given: &Inputs, whose: &str) -> Result<Worked<Ratio>, String> {
    given.ratio(&format!("nu_{whose}")).or_else(|_| given.ratio("nu"))
}

fn modulus(given: &Inputs, whose: &str) -> Result<Worked<Stress>, String> {
    given.stress(&format!("e_{whose}")).or_else(|_| given.stress("e"))
}

type Gives = (Worked<Ratio>, Worked<Ratio>);

fn gives(given: &Inputs, run: &mut Run) -> Result<Gives, String> {
    let (joint, bore, outside) = (given.length("d")?, given.length("di")?, given.length("do")?);
    let bush = run.take(press::bush_gives(&joint, &bore, &poisson(given, "bush")?))?;
    let housing = run.take(press::housing_gives(&joint, &outside, &poisson(given, "housing")?))?;
    Ok((bush, housing))
}

fn pressure(given: &Inputs, run: &mut Run) -> Result<Worked<Stress>, String> {
    let (bush, housing) = gives(given, run)?;
    let delta = given.length("interference")?.becomes();
    let (e_bush, e_housing) = (modulus(given, "bush")?, modulus(given, "housing")?);
    run.take(press::joint_pressure(&delta, &given.length("d")?, &bush, &e_bush, &housing, &e_housing))
}

fn interference(given: &Inputs, run: &mut Run) -> Result<Worked<Shift>, String> {
    let (bush, housing) = gives(given, run)?;
    let (e_bush, e_housing) = (modulus(given, "bush")?, modulus(given, "housing")?);
    run.take(press::interference_for_pressure(
        &given.stress("p")?,
        &given.length("d")?,
        &bush,
        &e_bush,
        &housing,
        &e_housing,
    ))
}

/// The handbook's factor: how far the bush gives over how far the housing gives; the joint is taken as 100 mm.
fn shrink_factor(given: &Inputs, run: &mut Run) -> Result<Outcome, String> {
    let (joint, bore) = (100.0, 100.0 / given.plain("d1_over_d0")?);
    let outside = joint * given.plain("d2_over_d1")?;
    let bush = run.take(press::bush_gives(&of(joint), &of(bore), &given.ratio("nu_shaft")?))?;
    let housing = run.take(press::housing_gives(&of(joint), &of(outside), &given.ratio("nu_hub")?))?;
    Ok(Worked::<Ratio>::assumed(Ratio::new(bush.number() / housing.number()), "one over the other").into())
}
