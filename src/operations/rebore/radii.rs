//! A bore read as radii from the gauge's own axis: now it has an axis of its own, and a least cylinder that cleans it.

use super::found::Found;
use super::keys::Bore;
use super::names::{AXIS_SHIFT, CLEAN_MEAN, CLEAN_OLD, CLEAN_WORN, FORM, LEAN, LEAST, TAPER, TAPER_FIT, WORST};
use super::readings::Radii;
use crate::handbook::form::bore::{Place, between, cone, cylinder, enclosing};
use crate::handbook::form::circle::spaced;
use crate::handbook::form::{Fit, NoForm, Zone};
use crate::job::Warm;
use crate::operations::{Answer, Bench};
use crate::proof::{Mark, Refusal, Source, Verdict, Worked};
use crate::quantity::{Mm, Shift, figure};
use crate::shop::Gauge;

/// Where what is found of a cylinder comes from.
const CYLINDER: Source = Source::fixed("least squares and least cylinder, by QR and exchange", Mark::Derived);

// What the figures are sums of.
const FARTHEST: &str = "twice the farthest from its mean axis";
const NEAREST: &str = "twice the nearest to its mean axis";
const FROM_THE_GAUGE: &str = "twice the farthest from the gauge's axis";
const LEAST_CYLINDER: &str = "twice the least cylinder that holds every reading";
const TWO_CYLINDERS: &str = "two cylinders nearest each other hold every reading";
const NONE_IS_LESS: &str = "none is less, since no move and no lean of the axis changes this sum";
const LEANS: &str = "how far the mean axis leans in a hundred millimetres";
const OFF_AT_AN_END: &str = "how far the mean axis is off at one end";
const WIDENS: &str = "widens from the top to the bottom";

fn no_axis(why: NoForm) -> Refusal {
    Refusal::NoForm { what: "axis", why: why.to_string() }
}

/// A sum over readings, each so many times.
fn over(y: &[Worked<Mm>], times: impl Iterator<Item = f64>, says: &str) -> Worked<Mm> {
    let terms: Vec<(f64, &Worked<Mm>)> = times.zip(y).filter(|(times, _)| *times != 0.0).collect();
    Worked::sum(&terms, 0.0, says, CYLINDER)
}

/// What a zone's proof says of its height; the proof stands beside it: the readings that touch, each with its multiplier.
fn height(zone: &Zone, places: &[Place], y: &[Worked<Mm>], (times, says): (f64, &str)) -> Worked<Mm> {
    let share = |at: usize| zone.proof.iter().filter(|(of, _)| *of == at).map(|(_, by)| times * by).sum();
    let each = zone.proof.iter().filter_map(|(at, by)| {
        let (place, read) = (places.get(*at)?, y.get(*at)?);
        let (degrees, z) = (figure(place.degrees), figure(place.z));
        Some(format!("{by:+.6} × {} mm at ({degrees}°, {z} mm)", figure(read.number())))
    });
    let proof = each.collect::<Vec<_>>().join("; ");
    over(y, (0..y.len()).map(share), &format!("{says}: {proof}: {NONE_IS_LESS}"))
}

/// Twice what a reading stands out from the axis of a fit.
fn across(fit: &Fit, places: &[Place], y: &[Worked<Mm>], at: usize, says: &str) -> Worked<Mm> {
    let Some(place) = places.get(at) else { return over(y, std::iter::empty(), says) };
    let of_axis: Vec<Vec<f64>> = (1..5).map(|parameter| fit.counts(parameter)).collect();
    let count = |reading: usize| {
        let own = if reading == at { 1.0 } else { 0.0 };
        let axis = of_axis.iter().zip(place.axis());
        let axis: f64 = axis.map(|(counts, by)| by * counts.get(reading).copied().unwrap_or(0.0)).sum();
        2.0 * (own - axis)
    };
    over(y, (0..y.len()).map(count), says)
}

/// How far the axis of a fit stands off at a depth, or leans: two of its parameters as a length, each so many times.
fn off(fit: &Fit, y: &[Worked<Mm>], pairs: [(usize, usize, f64); 2], says: &str) -> Worked<Mm> {
    let part = |along: bool| -> f64 {
        let of = |parameter: usize| fit.parameters.get(parameter).copied().unwrap_or(0.0);
        pairs.iter().map(|(a, b, by)| by * of(if along { *a } else { *b })).sum()
    };
    let (along, across) = (part(true), part(false));
    let length = along.hypot(across);
    let (cos, sin) = if length > 0.0 { (along / length, across / length) } else { (1.0, 0.0) };
    let counts: Vec<(f64, Vec<f64>)> =
        pairs.iter().flat_map(|(a, b, by)| [(by * cos, fit.counts(*a)), (by * sin, fit.counts(*b))]).collect();
    let count = |at: usize| counts.iter().map(|(by, of)| by * of.get(at).copied().unwrap_or(0.0)).sum();
    over(y, (0..y.len()).map(count), says)
}

/// Twice the widest, or the narrowest, radius of each depth.
fn ends(radii: &[f64], round: usize, end: fn(f64, f64) -> f64) -> Vec<f64> {
    radii
        .chunks(round.max(1))
        .filter_map(|depth| depth.iter().copied().reduce(end))
        .map(|radius| 2.0 * radius)
        .collect()
}

impl Bore {
    /// Every radius at its place.
    fn radii(
        &self,
        bench: &Bench,
        radii: &Radii,
        answer: &mut Answer,
    ) -> Result<(Vec<Place>, Vec<Worked<Mm>>), Refusal> {
        let from = answer.read(bench, "readings.from", Gauge::Inside, &radii.from)?;
        let depths = self.readings.value.depths.value.numbers().unwrap_or_default();
        let ends = depths.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), z| (l.min(*z), h.max(*z)));
        let middle = f64::midpoint(ends.0, ends.1);
        let angles = radii.angles.value.numbers().unwrap_or_default();
        let asked = &self.readings.value;
        let warm = asked.at.as_ref().map(|at| Warm { at: at.clone(), gauge_at: asked.gauge_at.clone() });
        let (mut places, mut all) = (Vec::new(), Vec::new());
        for (depth, row) in depths.iter().zip(&radii.reads) {
            let with = self.readings.value.with.as_ref();
            let reads = answer.read_row(bench, "readings.reads", Gauge::Indicator, row, with)?;
            for (degrees, read) in angles.iter().zip(reads.into_iter().flatten()) {
                places.push(Place { degrees: *degrees, z: depth - middle });
                let read: Worked<Mm> = read.becomes();
                let y = Worked::sum(&[(1.0, &from), (1.0, &read)], 0.0, "from the nought of the indicator", CYLINDER);
                all.push(match &warm {
                    Some(warm) => answer.at_20(bench, "readings", &y, warm)?,
                    None => y,
                });
            }
        }
        Ok((places, all))
    }

    /// Works what radii say of the bore.
    pub(super) fn found_by_radii(&self, bench: &Bench, radii: &Radii, answer: &mut Answer) -> Result<Found, Refusal> {
        let (places, y) = self.radii(bench, radii, answer)?;
        let numbers: Vec<f64> = y.iter().map(Worked::number).collect();
        let fit = cylinder(&places, &numbers).map_err(no_axis)?;
        let least = enclosing(&places, &numbers).map_err(no_axis)?;
        let zone = between(&places, &numbers).map_err(no_axis)?;
        let by = |of: &[f64], most: bool| {
            let all = of.iter().enumerate();
            let by = |a: &(usize, &f64), b: &(usize, &f64)| a.1.total_cmp(b.1);
            if most { all.max_by(by) } else { all.min_by(by) }.map_or(0, |(at, _)| at)
        };
        let mean = across(&fit, &places, &y, by(&fit.residuals, true), FARTHEST);
        let narrow = across(&fit, &places, &y, by(&fit.residuals, false), NEAREST);
        let farthest = by(&numbers, true);
        let gauge = over(&y, (0..y.len()).map(|at| if at == farthest { 2.0 } else { 0.0 }), FROM_THE_GAUGE);
        let held = height(&least, &places, &y, (2.0, LEAST_CYLINDER));
        let worst = answer.record(&WORST, mean);
        let narrow = answer.record(&LEAST, narrow);
        answer.record(&FORM, height(&zone, &places, &y, (1.0, TWO_CYLINDERS)));
        self.wear_of(bench, (&worst, &narrow), answer)?;
        self.taper_of(bench, (&places, &y, &numbers), answer)?;
        self.worn_clearance(bench, answer, &worst)?;
        let over_lean = [(2, 4, 1e2), (2, 4, 0.0)];
        answer.record(&LEAN, off(&fit, &y, over_lean, LEANS));
        let end = |z: f64| off(&fit, &y, [(1, 3, 1.0), (2, 4, z)], OFF_AT_AN_END);
        let deepest = places.iter().map(|place| place.z).fold(0.0, f64::max);
        let (top, bottom) = (end(-deepest), end(deepest));
        let shift = if top.number() > bottom.number() { top } else { bottom };
        let shift = answer.record(&AXIS_SHIFT, shift);
        let side = self.clean_up(bench, answer)?;
        let clean = |of: &Worked<Mm>| crate::handbook::measuring::cylinder::clean_up_worn(of, &side);
        let about_least = answer.record(&CLEAN_WORN, clean(&held)?);
        answer.record(&CLEAN_MEAN, clean(&worst)?);
        let about_gauge = answer.record(&CLEAN_OLD, clean(&gauge)?);
        let angles = radii.angles.value.numbers().unwrap_or_default();
        let seen = angles.len() >= 8 && spaced(&angles);
        Ok(Found {
            worst,
            least: narrow,
            shift,
            shift_both: None,
            lean: None,
            clean: [about_least, about_gauge],
            side,
            // No ring is asked where the axis is read.
            unworn_sure: true,
            lobes: Some(if seen { Verdict::Proven } else { Verdict::Doubtful }),
            profile: [f64::max, f64::min].map(|end| (None, ends(&numbers, angles.len(), end))).into(),
        })
    }

    /// How far it widens or narrows on the diameter from its first depth to its last, and whether that is allowed.
    fn taper_of(
        &self,
        bench: &Bench,
        (places, y, numbers): (&[Place], &[Worked<Mm>], &[f64]),
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        let Ok(fit) = cone(places, numbers) else { return Ok(()) };
        let deepest = places.iter().map(|place| place.z).fold(0.0, f64::max);
        let counts = fit.counts(5);
        // From end to end, both sides.
        let times = 4.0 * deepest;
        let taper = over(y, counts.iter().map(|count| times * count), WIDENS);
        let taper = answer.record(&TAPER_FIT, taper.becomes::<Shift>());
        let turned = if taper.number() < 0.0 { -1.0 } else { 1.0 };
        let taper = answer.record(&TAPER, taper.scaled(turned, "whichever end is the wider"));
        let limit = self.limits.as_ref().and_then(|limits| limits.taper.as_ref());
        Self::within(bench, answer, "taper", (&TAPER, &taper), limit.map(|limit| (limit, true)));
        Ok(())
    }
}
