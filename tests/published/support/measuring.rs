//! Where a centre is, what a chuck's key and shims do to it, and sizes read warm.

use super::Subject;
use super::inputs::of;
use setover::handbook::form::truing;
use setover::handbook::measuring::{cylinder, warmth};

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
    ("ring-gap-grown", |given, run| {
        let before = 50.8;
        let after = of(before + given.length("larger")?.number());
        run.end(cylinder::ring_gap(&of(0.0), &after, &of(before)))
    }),
    ("compression", |given, run| {
        run.end(cylinder::compression(&of(given.plain("swept")?), &of(given.plain("above")?)))
    }),
    ("shim-three-jaws", |given, run| run.end(truing::shim_first(&given.length("off")?, &of(0.0), &of(1.5)))),
];
