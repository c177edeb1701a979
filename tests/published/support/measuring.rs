//! Where a centre is, what a chuck's key and shims do to it, and sizes read warm.

use super::Subject;
use super::inputs::of;
use setover::handbook::form::truing;
use setover::handbook::joints::{lapping, seal};
use setover::handbook::measuring::warmth;

/// The subjects of this file.
pub const SUBJECTS: &[Subject] = &[
    ("off-centre-tir", |given, run| {
        let way = |key: &str| Ok::<_, String>(of(given.length(key)?.number()));
        let off = run.take(truing::off_centre(&way("x")?, &way("y")?))?;
        run.end(truing::read_in_a_turn(&off))
    }),
    ("tir", |given, run| run.end(truing::read_in_a_turn(&given.length("off")?))),
    ("key-turn", |given, run| run.end(truing::key_turn(&given.length("move")?, &given.length("pitch")?))),
    ("size-at-20", |given, run| {
        let (steel, usual) = (of(given.plain("expansion")?), of(warmth::USUAL));
        run.end(warmth::at_20(&given.length("size")?, &steel, &usual, &steel, &of(given.plain("at")?)))
    }),
    ("shim-three-jaws", |given, run| run.end(truing::shim_first(&given.length("off")?, &of(0.0), &of(1.5)))),
    ("plate-volume", |given, run| {
        let area = run.take(lapping::bore_area(&given.length("bore")?))?;
        run.end(lapping::plate_volume(&area, &given.length("thick")?))
    }),
    ("compression", |given, run| {
        let volume = |key: &str| Ok::<_, String>(of(16.387_064 * given.plain(key)?));
        run.end(lapping::compression(&volume("swept_in3")?, &volume("clearance_in3")?))
    }),
    ("off-diameter", |given, run| run.end(seal::off_diameter(&given.length("off")?))),
];
