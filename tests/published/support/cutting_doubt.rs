//! Hardness turned from scale to scale, and the doubt of readings.

use super::Subject;
use super::inputs::{Inputs, of};
use super::run::{Outcome, Run};
use setover::handbook::cutting::stock;
use setover::handbook::materials::groups::Kind;
use setover::handbook::{materials::hardness, measuring::uncertainty};
use setover::proof::Worked;
use setover::quantity::{Hardness, Mm, Scale, Unit};

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
    ("combined-uncertainty", |given, _| Ok(uncertainty::combined(&parts(given)).into())),
    ("two-doubts", |given, run| run.end(stock::both_doubts(&given.length("first")?, &given.length("second")?))),
    ("expanded-uncertainty", expanded),
    ("thermal-share", |given, run| {
        run.end(uncertainty::thermal_gain(&given.length("length")?, &given.expansion("alpha")?, &given.celsius("u")?))
    }),
    ("expansion-share", |given, run| {
        let (length, degrees) = (given.length("length")?, given.celsius("difference")?);
        run.end(uncertainty::thermal_gain(&length, &given.expansion("u_alpha")?, &degrees))
    }),
    ("standard-from-rectangular", |given, run| {
        run.end(uncertainty::standard_from_limits(&of(given.plain("half_width")?)))
    }),
    ("standard-from-repeats", |given, run| {
        run.end(uncertainty::standard_from_repeats(&given.length("s")?, &given.ratio("readings")?))
    }),
    ("standard-from-resolution", |given, run| {
        run.end(uncertainty::standard_from_resolution(&given.length("resolution")?))
    }),
    ("standard-from-certificate", |given, run| {
        run.end(uncertainty::standard_from_expanded(&given.length("expanded")?, &given.ratio("k")?))
    }),
];

fn converted(given: &Inputs, run: &mut Run, key: &str, from: Scale, to: Scale) -> Result<Outcome, String> {
    let hardness = Hardness { number: given.plain(key)?, scale: from };
    run.end(hardness::on_scale(hardness, to, Kind::Steel))
}

fn tensile(given: &Inputs, run: &mut Run, key: &str, from: Scale) -> Result<Outcome, String> {
    let hardness = Hardness { number: given.plain(key)?, scale: from };
    run.end(hardness::tensile(hardness, Kind::Steel))
}

/// `u1_mm`, `u2_mm` and so on.
fn parts(given: &Inputs) -> Vec<Worked<Mm>> {
    (1..).map_while(|i| given.length(&format!("u{i}")).ok()).collect()
}

fn expanded(given: &Inputs, run: &mut Run) -> Result<Outcome, String> {
    let standard = uncertainty::combined(&parts(given));
    debug_assert_eq!(Outcome::from(standard.clone()).unit, Unit::Mm);
    run.end(uncertainty::expanded(&given.ratio("k")?, &standard))
}
