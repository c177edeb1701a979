//! Speeds and drilling.

use super::Subject;
use setover::handbook::cutting::{drilling, speeds};

/// The subjects of this file.
pub const SUBJECTS: &[Subject] = &[
    ("surface-speed", |given, run| run.end(speeds::surface_speed(&given.turns("n")?, &given.length("d")?))),
    ("spindle-speed", |given, run| run.end(speeds::spindle_speed(&given.speed()?, &given.length("d")?))),
    ("diameter-for-speed", |given, run| run.end(speeds::diameter_for_speed(&given.speed()?, &given.turns("n")?))),
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
