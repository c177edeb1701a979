//! The pilot: there, running in its hole, and so long that the seat is square to it.

use super::keys::SpotFace;
use super::names::{HOLE_DEPTH, OUT_OF_SQUARE, PILOT, PLAY, WALL};
use crate::handbook::constants::{constant, row};
use crate::handbook::cutting::spot_face as law;
use crate::operations::hole_making::read_at;
use crate::operations::{Answer, Bench};
use crate::proof::{At, Check, Keep, Origin, Refusal, Side, Verdict, Words, Worked};
use crate::quantity::{Mm, Quantity};
use crate::shop::{Gauge, Machine};

/// The check of the room that the pilot has in its hole.
const DEEP: &str = "pilot-has-room";
/// What an operation that drills a hole calls its depth.
const DRILLED_DEPTH: &str = "drilled_depth";

impl SpotFace {
    /// Its checks. A cutter that nothing leads grabs and walks: on a drill press it is not begun, on a mill it is doubtful.
    pub(super) fn pilot_of(
        &self,
        bench: &Bench,
        (hole, seat, wall): (&Worked<Mm>, &Worked<Mm>, Option<&Worked<Mm>>),
        machine: Option<&Machine>,
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        const THERE: &str = "pilot-there";
        let Some(at) = &self.pilot else {
            answer.not_checked(&[THERE, "pilot-runs", "seat-square", DEEP], &["pilot"]);
            return Ok(());
        };
        let Some(reading) = read_at(at, at.value.reading()) else {
            let on_a_mill = machine.is_some_and(|machine| matches!(machine, Machine::Mill(_)));
            let verdict = if on_a_mill { Verdict::Doubtful } else { Verdict::Fails };
            answer.check(Check::of_kind(THERE, verdict).at(at.place));
            answer.does_not_apply(&["pilot-runs", DEEP]);
            answer.not_checked(&["seat-square"], &["pilot"]);
            return Ok(());
        };
        answer.check(Check::of_kind(THERE, Verdict::Proven).at(at.place));
        let pilot = answer.read(bench, "pilot", Gauge::Outside, &reading)?;
        let pilot = answer.record(&PILOT, pilot);
        let play = answer.record(&PLAY, law::pilot_play(hole, &pilot)?);
        let least = constant("pilot-play-least")?;
        let none = Worked::assumed(Mm::new(0.0), "it does not go in");
        let check = Check::judge_two("pilot-runs", (&play, &least), Keep::AtLeast, (&play, &none), bench.guard());
        answer.check(check.about(PLAY.key).at(at.place));
        self.has_room(bench, wall, answer)?;
        self.square(bench, (&play, seat, wall), answer)
    }

    /// Does the pilot reach the bottom of its hole before the seat is cut? By the depth of the hole where somebody measured it, or another
    /// operation drills it short of its wall; else by the wall, behind which nobody says what lies.
    fn has_room(&self, bench: &Bench, wall: Option<&Worked<Mm>>, answer: &mut Answer) -> Result<(), Refusal> {
        let Some(length) = &self.pilot_length else {
            answer.not_checked(&[DEEP], &["pilot-length"]);
            return Ok(());
        };
        let drilled = self.hole.value.address().map(|hole| hole.owner().value(DRILLED_DEPTH));
        let drilled = drilled.filter(|depth| bench.look_up(depth).is_some());
        let measured = answer.read_if(bench, "hole-depth", Gauge::Depth, self.hole_depth.as_ref())?;
        let measured = measured.map(|depth| answer.record(&HOLE_DEPTH, depth));
        let drilled = drilled.map(|depth| bench.handed::<Mm>(&depth)).transpose()?;
        let drilled = drilled.filter(|depth| wall.is_none_or(|wall| depth.number() < wall.number()));
        let deep = Worked::<Mm>::from(length).shifted(self.depth.value.number(), "and the depth of the seat");
        let judged = |room, deep| Check::judge(DEEP, room, Keep::AtLeast, deep, bench.guard()).at(length.place);
        match (measured, drilled, wall) {
            // It strikes the bottom before the cutter is down.
            (Some(depth), _, _) => {
                answer.check(judged(&depth, &deep).about(HOLE_DEPTH.key));
            }
            (None, Some(depth), _) => {
                answer.check(judged(&depth, &deep));
            }
            (None, None, Some(wall)) => {
                answer.assume_words(Words::of("hole-goes-through"));
                if deep.number() > wall.number() {
                    answer.assume_words(Words::of("packing-under-the-pilot"));
                }
                let behind = row("pilot-behind-most")?.value;
                let deep = deep.shifted(-behind, "less what a pilot may come out behind: the packing takes it");
                answer.check(judged(wall, &deep).about(WALL.key).not_worse_than(Verdict::Doubtful));
            }
            (None, None, None) => answer.not_checked(&[DEEP], &["wall"]),
        }
        Ok(())
    }

    /// The pilot tips by all of its play.
    fn square(
        &self,
        bench: &Bench,
        (play, seat, wall): (&Worked<Mm>, &Worked<Mm>, Option<&Worked<Mm>>),
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        const ID: &str = "seat-square";
        let Some(length) = &self.pilot_length else {
            answer.not_checked(&[ID], &["pilot-length"]);
            return Ok(());
        };
        let Some(wall) = wall else {
            answer.not_checked(&[ID], &["wall"]);
            return Ok(());
        };
        let guided = self.guided(bench, length, wall);
        let play = play.at_least(0.0, "a pilot that does not go in does not tip");
        let out = answer.record(&OUT_OF_SQUARE, law::seat_out_of_square(&play, &guided, seat)?);
        let Some(wanted) = &self.square_within else {
            answer.not_checked(&[ID], &["square-within"]);
            return Ok(());
        };
        let limit = Worked::exact(wanted.value.high, Origin::Typed(wanted.place));
        let check = Check::judge(ID, &out, Keep::AtMost, &limit, bench.guard());
        let check = answer.check(check.about(OUT_OF_SQUARE.key).at(wanted.place));
        if !check.is_proven() {
            check.remedy(Words::of("closer-pilot"));
        }
        Ok(())
    }

    /// So much of the pilot as there is wall about it at the end of the cut.
    fn guided(&self, bench: &Bench, length: &At<Mm>, wall: &Worked<Mm>) -> Worked<Mm> {
        let left = wall.shifted(-self.depth.value.number(), "less what is cut off");
        let left = left.worst(Side::Low, bench.guard()).at_least(0.1, "next to nothing guides it");
        let length = Worked::<Mm>::from(length);
        if left.number() < length.number() { left } else { length }
    }
}
