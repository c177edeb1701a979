//! Where a centre is, what a chuck's key and shims do to it, and sizes read warm.

use super::Subject;
use super::inputs::{Inputs, of};
use setover::handbook::form::truing;
use setover::handbook::joints::{lapping, seal};
use setover::handbook::measuring::{cylinder, stack, warmth};
use setover::proof::Worked;
use setover::quantity::Mm;

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
    ("gap-of-links", |given, run| {
        let mut gap = of(0.0);
        for (by, size) in links(given)? {
            gap = run.take(stack::and_link(&gap, &of(by), &size))?;
        }
        run.end(Ok(gap))
    }),
    ("gap-worst", |given, run| {
        let mut worst = of(0.0);
        for (by, half) in links(given)? {
            worst = run.take(stack::and_limits(&worst, &of(by.abs()), &half))?;
        }
        run.end(Ok(worst))
    }),
    ("gap-root", |given, run| {
        let mut root = of(0.0);
        for (by, half) in links(given)? {
            root = run.take(stack::and_squares(&root, &of(by.abs()), &half))?;
        }
        run.end(Ok(root))
    }),
    ("size-less-growth", |given, run| {
        let size = given.length("size")?;
        let grown = run.take(stack::grown_by(&size, &of(given.plain("expansion")?), &of(given.plain("at")?)))?;
        run.end(Ok(size.shifted(-grown.number(), "less what it has grown")))
    }),
    ("shim-for-float", |given, run| {
        let bare = run.take(stack::bare_by_pack(&given.length("found")?.becomes(), &given.length("pack")?))?;
        run.end(stack::pack_wanted(&bare, &given.length("aim")?.becomes()))
    }),
    ("float-with-shim", |given, run| {
        let bare = run.take(stack::bare_by_pack(&given.length("found")?.becomes(), &given.length("pack")?))?;
        run.end(stack::float_left(&bare, &given.length("new")?))
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
    ("compression-of-parts", |given, run| {
        let volume = |cm3: f64| of(cm3);
        let clearance = given.plain("deck_cm3")? + given.plain("head_cm3")?;
        run.end(lapping::compression(&volume(given.plain("swept_cm3")?), &volume(clearance)))
    }),
    ("compression-of-bore", |given, run| {
        let area = run.take(lapping::bore_area(&given.length("bore")?))?;
        let swept = run.take(cylinder::swept(&given.length("bore")?, &given.length("stroke")?))?;
        let deck = run.take(lapping::plate_volume(&area, &given.length("deck")?))?;
        let head = given.plain("head_cm3")?;
        run.end(lapping::compression(&swept, &deck.shifted(head, "the head")))
    }),
    ("off-diameter", |given, run| run.end(seal::off_diameter(&given.length("off")?))),
];

/// The links of a row: `by_1 … by_10` with `size_1 …`; those that close count −1.
fn links(given: &Inputs) -> Result<Vec<(f64, Worked<Mm>)>, String> {
    const SIZES: [&str; 10] =
        ["size1", "size2", "size3", "size4", "size5", "size6", "size7", "size8", "size9", "size10"];
    const BYS: [&str; 10] = ["by1", "by2", "by3", "by4", "by5", "by6", "by7", "by8", "by9", "by10"];
    let all =
        SIZES.into_iter().zip(BYS).map_while(|(size, by)| Some((given.plain_or(by, 1.0), given.length(size).ok()?)));
    let all: Vec<_> = all.collect();
    if all.len() < 2 { Err("a chain has two links".into()) } else { Ok(all) }
}
