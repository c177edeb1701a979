//! A recess that clears a bearing's ring or cage: what is left of it, and does the land inside it still carry the ring?

use super::{Ground, LAND, Metal, RELIEF_LEFT};
use crate::handbook::constants::constant;
use crate::handbook::cutting::stock;
use crate::operations::{Answer, Bench};
use crate::proof::{Check, Keep, Origin, Refusal, Verdict, Words, Worked};
use crate::shop::Gauge;

pub(super) fn work(bench: &Bench, ground: &Ground, metal: &Metal, answer: &mut Answer) -> Result<(), Refusal> {
    let Some(relief) = ground.asked.relief else {
        answer.does_not_apply(&["relief-gap-left", "relief-land", "relief-tool"]);
        return Ok(());
    };
    if relief.recut() {
        // What faces an end does not go into a recess: its blade, its zero and its dial are not worked here.
        let place = relief.recut.as_ref().map_or(relief.depth.place, |at| at.place);
        answer.check(Check::of_kind("relief-tool", Verdict::Doubtful).at(place));
    } else {
        answer.does_not_apply(&["relief-tool"]);
    }
    let depth = answer.read_difference(bench, "relief.depth", Gauge::Depth, &relief.depth)?;
    let left = if relief.recut() { depth } else { stock::recess_left(&depth, &metal.gone)? };
    let left = answer.record(&RELIEF_LEFT, left);
    let gap = match &relief.gap {
        Some(gap) => Worked::exact(gap.value.high, Origin::Typed(gap.place)),
        None => answer.assume("relief-gap", constant("relief-gap")?),
    };
    let check = Check::judge("relief-gap-left", &left, Keep::AtLeast, &gap, bench.guard());
    let check = answer.check(check.about(RELIEF_LEFT.key).at(relief.depth.place));
    if !check.is_proven() && !relief.recut() {
        check.remedy(Words::of("relief-recut"));
    }
    let Some(ring) = answer.read_if(bench, "relief.ring-outside", Gauge::Outside, relief.ring_outside.as_ref())? else {
        answer.not_checked(&["relief-land"], &["relief.ring-outside"]);
        return Ok(());
    };
    // What carries reaches out to the relief or to the ring's own edge, whichever comes first.
    let edge = Worked::from(&relief.inside);
    let reaches = if ring.number() < edge.number() { ring.clone() } else { edge };
    let land = answer.record(&LAND, stock::land_width(&reaches, &ground.piece.inside)?);
    let asked = stock::land_asked(&constant("relief-land-share")?, &ring, &ground.piece.inside)?;
    let check = Check::judge("relief-land", &land, Keep::AtLeast, &asked, bench.guard());
    let check = check.about(LAND.key).at(relief.inside.place);
    // A narrow land carries badly; none at all does not carry.
    let bare = land.number() <= 0.0;
    answer.check(if bare { check } else { check.not_worse_than(Verdict::Doubtful) });
    Ok(())
}
