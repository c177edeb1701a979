//! Threads, their strength, insert holes, limits and fits, reamers.

use super::Subject;
use super::inputs::{Inputs, of};
use super::run::{Outcome, Run};
use setover::handbook::threads::insert::{self, InsertHole, Lead};
use setover::handbook::threads::tap_leads;
use setover::handbook::threads::thread_form::{self, Form};
use setover::handbook::{
    Fit,
    joints::{clearance, fit_pair, fits, press, reaming},
    threads::{insert_rows, tapping, thread_strength as strength},
};
use setover::proof::{Refusal, Worked};
use setover::quantity::{Mm, Quantity, Shift, Unit};

/// The subjects of this file.
pub const SUBJECTS: &[Subject] = &[
    ("thread-pitch-diameter", |given, run| {
        run.end(form(given)?.pitch_diameter(&given.length("major")?, &given.pitch()?))
    }),
    ("thread-minor-diameter", |given, run| {
        run.end(form(given)?.minor_diameter(&given.length("major")?, &given.pitch()?))
    }),
    ("thread-depth", thread_depth),
    ("thread-percentage", |given, run| {
        let (_, basis) = tapping::bases(form(given)?).swap_remove(0);
        run.end(tapping::thread_percentage(&given.length("major")?, &given.length("drill")?, &basis, &given.pitch()?))
    }),
    ("drill-for-percentage", |given, run| {
        let (_, basis) = tapping::bases(form(given)?).swap_remove(0);
        run.end(tapping::drill_for_percentage(
            &given.length("major")?,
            &given.ratio("percent")?,
            &basis,
            &given.pitch()?,
        ))
    }),
    ("stress-area", |given, run| run.end(strength::stress_area_inch(&given.length("major")?, &given.pitch()?))),
    ("stress-area-metric", |given, run| {
        run.end(strength::stress_area_metric(&given.length("major")?, &given.pitch()?))
    }),
    ("nut-shear-area", |given, run| {
        let (major, pitch) = (given.length("major_min")?, given.length("pitch_max")?);
        run.end(strength::nut_shear_area(&given.pitch()?, &given.length("length")?, &major, &pitch))
    }),
    ("bolt-load", bolt_load),
    ("bolt-torque-short", |given, run| {
        run.end(strength::torque_short(&given.ratio("nut_factor")?, &given.length("major")?, &given.force("load")?))
    }),
    ("bolt-torque-proof", |given, run| {
        let area = run.take(strength::stress_area_inch(&given.length("major")?, &given.pitch()?))?;
        let force = run.take(strength::clamping_by_proof(&given.ratio("share")?, &given.stress("proof")?, &area))?;
        run.end(strength::torque_short(&given.ratio("nut_factor")?, &given.length("major")?, &force))
    }),
    ("stress-area-of-diameters", |given, run| {
        run.end(strength::stress_area_mean(&given.length("pitch_diameter")?, &given.length("core")?))
    }),
    ("nut-shear-area-any-form", |given, run| {
        let (major, pitch) = (given.length("major_min")?, given.length("pitch_max")?);
        let (length, half) = (given.length("length")?, given.angle("half")?);
        run.end(strength::shear_area_any_form(&given.pitch()?, &length, &major, &pitch, &half))
    }),
    ("shear-strength", |given, run| {
        run.end(strength::shear_strength(&given.ratio("share")?, &given.stress("tensile")?))
    }),
    ("thread-pull-out", |given, run| {
        let (major, pitch) = (given.length("major_min")?, given.length("pitch_max")?);
        let area = run.take(strength::nut_shear_area(&given.pitch()?, &given.length("length")?, &major, &pitch))?;
        run.end(strength::pull_out(&given.stress("shear_strength")?, &area, &of(1.0)))
    }),
    ("clamping-of-torque", |given, run| {
        let torque = of(given.plain("torque_lbf_in")? * 0.112_984_829_027_616_7);
        run.end(strength::clamping_by_torque(&torque, &given.ratio("nut_factor")?, &given.length("major")?))
    }),
    ("torque-of-proof-share", |given, run| {
        let proof = run.take(strength::bolt_load(&of(given.plain("area_mm2")?), &given.stress("proof")?))?;
        let force = run.take(strength::times_force(&given.ratio("share")?, &proof))?;
        run.end(strength::torque_short(&given.ratio("nut_factor")?, &given.length("major")?, &force))
    }),
    ("insert-drilled-depth", drilled_depth),
    ("insert-drilled-depth-by-steps", depth_by_steps),
    ("insert-tap-least-pitch-diameter", |given, run| {
        let hole = InsertHole::of(form(given)?, &given.length("major")?, &given.pitch()?);
        let least = run.take(hole.map(|hole| hole.pitch_min))?;
        // A ground tap of limit H1 begins at the hole, each further limit half a thousandth of an inch higher.
        let above = (given.plain("limit")? - 1.0) * 0.0005 * 25.4;
        Ok(Worked::<Mm>::assumed(Mm::new(least.number() + above), "above the hole by its limit").into())
    }),
    ("insert-tap-least-major-diameter", |given, run| {
        let pitch = given.pitch()?;
        let hole = InsertHole::of(form(given)?, &given.length("major")?, &pitch);
        let least = run.take(hole.map(|hole| hole.major_min))?;
        // A ground metric tap is 0.08 P over the hole: constant W of USCTI table 341.
        Ok(Worked::<Mm>::assumed(Mm::new(least.number() + 0.08 * pitch.number()), "above the hole by W").into())
    }),
    ("pitch-of-count", |given, run| run.end(thread_form::pitch_of_count(&of(given.plain("tpi")?)))),
    ("drill-point-length", |given, run| run.end(insert::drill_point(&given.length("d")?, &given.angle("point")?))),
    ("fit-limit-hole-upper", |given, _| limits(given, true).map(|l| l.1.into())),
    ("fit-limit-hole-lower", |given, _| limits(given, true).map(|l| l.0.into())),
    ("fit-limit-shaft-upper", |given, _| limits(given, false).map(|l| l.1.into())),
    ("fit-limit-shaft-lower", |given, _| limits(given, false).map(|l| l.0.into())),
    ("fit-deviation-hole-upper", |given, _| deviations(given, true).map(|d| micrometres(d.upper))),
    ("fit-deviation-hole-lower", |given, _| deviations(given, true).map(|d| micrometres(d.lower))),
    ("fit-deviation-shaft-upper", |given, _| deviations(given, false).map(|d| micrometres(d.upper))),
    ("fit-deviation-shaft-lower", |given, _| deviations(given, false).map(|d| micrometres(d.lower))),
    ("fit-max-clearance", |given, run| {
        run.end(fit_pair::clearance_most(&limits(given, true)?.1, &limits(given, false)?.0))
    }),
    ("fit-min-clearance", |given, run| {
        run.end(fit_pair::clearance_least(&limits(given, true)?.0, &limits(given, false)?.1))
    }),
    ("fit-max-interference", |given, run| {
        run.end(press::interference(&limits(given, false)?.1, &limits(given, true)?.0))
    }),
    ("fit-min-interference", |given, run| {
        run.end(press::interference(&limits(given, false)?.0, &limits(given, true)?.1))
    }),
    ("bore-for-least-clearance", |given, run| {
        run.end(clearance::bore_least(&given.length("shaft")?, &given.length("clearance")?.becomes()))
    }),
    ("bore-for-greatest-clearance", |given, run| {
        run.end(clearance::bore_most(&given.length("shaft")?, &given.length("clearance")?.becomes()))
    }),
    ("clearance-of-sizes", |given, run| run.end(clearance::clearance(&given.length("bore")?, &given.length("shaft")?))),
    ("window-of-bores", |given, run| run.end(clearance::window(&given.length("greatest")?, &given.length("least")?))),
    ("clearance-by-rule", |given, run| {
        let (slope, more) = (given.ratio("thou_per_inch")?, given.ratio("thou")?);
        run.end(clearance::clearance_by_rule(&slope, &given.length("shaft")?, &more))
    }),
    ("old-allowance", |given, run| {
        run.end(fit_pair::old_allowance(&given.length("size")?, &given.ratio("thousandths")?, &given.length("more")?))
    }),
    ("proof-by-class", |given, run| {
        run.end(strength::proof_from_tensile(&given.ratio("share")?, &given.stress("tensile")?))
    }),
    ("tap-lead-length", |given, run| run.end(tap_leads::lead_length(&given.ratio("threads")?, &given.pitch()?))),
    ("reamer-limit-upper", |given, run| reamer(given, run).map(|r| r.1.into())),
    ("reamer-limit-lower", |given, run| reamer(given, run).map(|r| r.0.into())),
    ("reamer-deviation-upper", |given, run| reamer(given, run).and_then(|r| from_nominal(given, &r.1))),
    ("reamer-deviation-lower", |given, run| reamer(given, run).and_then(|r| from_nominal(given, &r.0))),
];

fn form(given: &Inputs) -> Result<Form, String> {
    Ok(match given.text("form") {
        Some("iso") => Form::Iso,
        Some("un") => Form::Unified,
        Some("whitworth") => Form::Whitworth,
        Some("ba") => Form::Ba,
        Some("cycle") => Form::Cycle,
        other => return Err(format!("{other:?} is no form")),
    })
}

/// The depth of a form is asked with or without a diameter: any will do.
fn thread_depth(given: &Inputs, run: &mut Run) -> Result<Outcome, String> {
    let major = given.length("major").or_else(|_| Ok::<_, String>(of(6.0)))?;
    let effective = run.take(form(given)?.pitch_diameter(&major, &given.pitch()?))?;
    run.end(thread_form::thread_depth(&major, &effective))
}

fn bolt_load(given: &Inputs, run: &mut Run) -> Result<Outcome, String> {
    let (major, pitch) = (given.length("major")?, given.pitch()?);
    let inch = given.text("tpi").is_some();
    let area =
        if inch { strength::stress_area_inch(&major, &pitch) } else { strength::stress_area_metric(&major, &pitch) };
    let area = run.take(area)?;
    run.end(strength::bolt_load(&area, &given.stress("tensile")?))
}

/// Plug tap with its male centre, countersunk.
fn drilled_depth(given: &Inputs, run: &mut Run) -> Result<Outcome, String> {
    let centre = run.take(insert::male_centre(&given.length("nominal")?))?;
    let rule = |name| insert_rows::rule(name).map_err(|refusal| refusal.to_string());
    let (lead, clear, set) =
        (Lead::Plug.threads().map_err(|e| e.to_string())?, rule("end-clearance")?, rule("set-down-allowed")?);
    run.end(insert::drilled_depth(&given.length("length")?, &lead, &clear, &set, &centre, &given.pitch()?))
}

/// The same depth from its parts: full thread, lead and end clearance, male centre.
fn depth_by_steps(given: &Inputs, run: &mut Run) -> Result<Outcome, String> {
    let (nominal, pitch) = (given.length("nominal")?, given.pitch()?);
    let length = run.take(insert::insert_length(&given.ratio("diameters")?, &nominal))?;
    let full = run.take(insert::full_thread_depth(&length, &pitch))?;
    let clear = insert_rows::rule("end-clearance").map_err(|refusal| refusal.to_string())?;
    let lead = Lead::Plug.threads().map_err(|refusal| refusal.to_string())?;
    let tapped = run.take(insert::tap_depth(&full, &of(lead.number() + clear.number()), &pitch))?;
    let centre = run.take(insert::male_centre(&nominal))?;
    run.end(insert::tap_end(&tapped, &centre))
}

fn class(given: &Inputs, hole: bool) -> Result<(f64, fits::Class), String> {
    let text = given.text("fit").ok_or("`fit` is not given")?;
    let fit: Fit = text.parse()?;
    let class = if hole { fit.hole } else { fit.shaft };
    fit.nominal.zip(class).ok_or_else(|| format!("{text} does not say it all"))
}

fn limits(given: &Inputs, hole: bool) -> Result<(Worked<Mm>, Worked<Mm>), String> {
    let (nominal, class) = class(given, hole)?;
    class.limits(nominal).map_err(|refusal| refusal.to_string())
}

fn deviations(given: &Inputs, hole: bool) -> Result<fits::Deviations, String> {
    let (nominal, class) = class(given, hole)?;
    class.deviations(nominal).map_err(|refusal| refusal.to_string())
}

fn micrometres(um: f64) -> Outcome {
    Outcome { number: um / 1000.0, unit: Unit::Mm }
}

fn reamer(given: &Inputs, run: &mut Run) -> Result<(Worked<Mm>, Worked<Mm>), String> {
    let (nominal, class) = class(given, true)?;
    let size = reaming::reamer_size(nominal, &class).map_err(|refusal: Refusal| refusal.to_string())?;
    Ok((run.take(Ok(size.low))?, run.take(Ok(size.high))?))
}

fn from_nominal(given: &Inputs, size: &Worked<Mm>) -> Result<Outcome, String> {
    let (nominal, _) = class(given, true)?;
    Ok(Worked::<Shift>::assumed(Shift::new(size.number() - nominal), "from the nominal size").into())
}
