//! Bushes pressed, shrunk and warmed into housings.

use super::Subject;
use super::inputs::{Inputs, of};
use super::run::{Outcome, Run};
use setover::handbook::constants::constant;
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
];

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
