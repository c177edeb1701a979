//! Hardness turned from scale to scale, and the doubt of readings.

use super::Subject;
use super::inputs::{Inputs, of};
use super::run::{Outcome, Run};
use setover::handbook::cutting::stock;
use setover::handbook::materials::groups::Kind;
use setover::handbook::materials::hardness;
use setover::proof::{Cause, Worked};
use setover::quantity::{Hardness, Mm, Quantity, Scale};

/// The subjects of this file.
pub const SUBJECTS: &[Subject] = &[
    ("hardness-hv-to-hb", |given, run| converted(given, run, "hv", Scale::Hv, Scale::Hb)),
    ("hardness-hv-to-hrc", |given, run| converted(given, run, "hv", Scale::Hv, Scale::Hrc)),
    ("hardness-hb-to-hv", |given, run| converted(given, run, "hb", Scale::Hb, Scale::Hv)),
    ("hardness-hb-to-hrc", |given, run| converted(given, run, "hb", Scale::Hb, Scale::Hrc)),
    ("hardness-hrc-to-hv", |given, run| converted(given, run, "hrc", Scale::Hrc, Scale::Hv)),
    ("hardness-hrc-to-hb", |given, run| converted(given, run, "hrc", Scale::Hrc, Scale::Hb)),
    ("hardness-hv-to-tensile", |given, run| tensile(given, run, "hv", Scale::Hv)),
    ("hardness-hb-to-tensile", |given, run| tensile(given, run, "hb", Scale::Hb)),
    ("combined-uncertainty", |given, _| combined(given, 1.0)),
    ("expanded-uncertainty", |given, _| combined(given, given.plain("k")?)),
    ("two-doubts", |given, run| run.end(stock::both_doubts(&given.length("first")?, &given.length("second")?))),
];

fn converted(given: &Inputs, run: &mut Run, key: &str, from: Scale, to: Scale) -> Result<Outcome, String> {
    let hardness = Hardness { number: given.plain(key)?, scale: from };
    run.end(hardness::on_scale(hardness, to, Kind::Steel))
}

fn tensile(given: &Inputs, run: &mut Run, key: &str, from: Scale) -> Result<Outcome, String> {
    let hardness = Hardness { number: given.plain(key)?, scale: from };
    run.end(hardness::tensile(hardness, Kind::Steel))
}

/// Doubts from causes that have nothing to do with each other, `u1_mm`, `u2_mm` and so on, each so many times over: what a
/// figure that has them all says of its own doubt.
fn combined(given: &Inputs, times: f64) -> Result<Outcome, String> {
    const CAUSES: [&str; 8] = ["first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth"];
    let parts: Vec<Worked<Mm>> = (1..).map_while(|i| given.length(&format!("u{i}")).ok()).collect();
    assert!(!parts.is_empty() && parts.len() <= CAUSES.len(), "{} doubts", parts.len());
    let figure = CAUSES
        .iter()
        .zip(&parts)
        .fold(of::<Mm>(0.0), |figure, (cause, part)| figure.with_doubt(Cause::Named(cause), times * part.number()));
    Ok(Worked::<Mm>::assumed(Mm::new(figure.plus_minus()), "its doubt").into())
}
