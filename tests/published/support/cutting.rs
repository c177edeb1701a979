//! Speeds, series, pulleys, tapers, drilling, chips.

use super::Subject;
use super::inputs::{Inputs, of};
use super::run::{Outcome, Run};
use setover::handbook::cutting::{drilling, speed_series, speeds, tapers};

/// The subjects of this file.
pub const SUBJECTS: &[Subject] = &[
    ("surface-speed", |given, run| run.end(speeds::surface_speed(&given.turns("n")?, &given.length("d")?))),
    ("spindle-speed", |given, run| run.end(speeds::spindle_speed(&given.speed()?, &given.length("d")?))),
    ("diameter-for-speed", |given, run| run.end(speed_series::diameter_for_speed(&given.speed()?, &given.turns("n")?))),
    ("speed-series-step", |given, run| {
        let (first, last) = (given.turns("first")?, given.turns("last")?);
        let ratio = run.take(speed_series::series_ratio(&first, &last, &given.ratio("speeds")?))?;
        run.end(speed_series::series_speed(&first, &ratio, &given.ratio("step")?))
    }),
    ("preferred-number", |given, run| {
        run.end(speed_series::preferred_number(&given.ratio("step")?, &given.ratio("series")?))
    }),
    ("pulley-speed", |given, run| {
        run.end(speed_series::pulley_speed(&given.turns("n")?, &inches(given, "driver")?, &inches(given, "driven")?))
    }),
    ("taper-per-length", taper_per_length),
    ("taper-half-angle", |given, run| {
        let (large, small) = (given.length("large")?, given.length("small")?);
        run.end(tapers::taper_half_angle(&large, &small, &given.length("length")?))
    }),
    ("tailstock-set-over", tailstock_set_over),
    ("drill-torque", |given, run| {
        let (feed, kc, drill) = (given.feed()?, given.stress("kc")?, given.length("d")?);
        run.end(drilling::drill_torque(&feed, &kc, &drill, &given.angle("kappa")?))
    }),
    ("drill-thrust", |given, run| {
        let (feed, kc, drill) = (given.feed()?, given.stress("kc")?, given.length("d")?);
        run.end(drilling::drill_thrust(&drill, &feed, &kc, &given.angle("kappa")?))
    }),
    ("drill-feed-factor", |given, run| run.end(drilling::feed_factor(&given.feed()?))),
    ("drill-torque-diameter-factor", |given, run| run.end(drilling::torque_factor(&given.length("d")?))),
    ("drill-thrust-handbook", |given, run| {
        let (drill, wear) = (given.length("d")?, given.ratio("w")?);
        let feed = run.take(drilling::feed_factor(&given.feed()?))?;
        let size = run.take(drilling::thrust_factor(&drill))?;
        let (kd, b, j) = (given.ratio("kd")?, given.ratio("b")?, given.ratio("j")?);
        run.end(drilling::handbook_thrust(&kd, &feed, &size, &b, &wear, &drill, &j))
    }),
    ("drill-torque-handbook", |given, run| {
        let feed = run.take(drilling::feed_factor(&given.feed()?))?;
        let size = run.take(drilling::torque_factor(&given.length("d")?))?;
        run.end(drilling::handbook_torque(&given.ratio("kd")?, &feed, &size, &given.ratio("a")?, &given.ratio("w")?))
    }),
];

/// Pulleys are printed in inches.
fn inches(given: &Inputs, key: &str) -> Result<setover::proof::Worked<setover::quantity::Mm>, String> {
    given.plain(key).map(|inch| of(inch * 25.4))
}

/// The taper over a length; a length of 12 is a foot.
fn taper_per_length(given: &Inputs, run: &mut Run) -> Result<Outcome, String> {
    let taper: Outcome = run.end(tapers::taper_on_diameter(&given.angle("included")?))?;
    Ok(Outcome { number: taper.number * given.plain("length")?, ..taper })
}

fn tailstock_set_over(given: &Inputs, run: &mut Run) -> Result<Outcome, String> {
    if given.text("taper_in_ft").is_some() {
        let taper = of(given.plain("taper_in_ft")? * 25.4);
        return run.end(tapers::tailstock_set_over(&taper, &of(0.0), &of(12.0 * 25.4), &given.length("length")?));
    }
    let (large, small) = (inches(given, "large")?, inches(given, "small")?);
    run.end(tapers::tailstock_set_over(&large, &small, &inches(given, "taper_length")?, &inches(given, "length")?))
}
