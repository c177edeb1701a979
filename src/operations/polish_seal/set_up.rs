//! The one set-up: true, polished by plunging, tried for lead, washed, measured.

use super::keys::PolishSeal;
use super::names::{
    DIAMETER_AFTER, DIAMETER_LEAST, FINISH, FINISH_FOUND, FINISH_LEAST, FINISH_MOST, SIZE, THREAD, TRACK,
};
use super::sketch;
use super::work::Track;
use crate::handbook::constants::constant;
use crate::handbook::{StateKind, set_up_minutes};
use crate::operations::kit::{self, found};
use crate::operations::{Answer, Bench, Blank, Drawer, HeldIn, HoldPoint, Limits, Pull, SetUp, Station, Target};
use crate::proof::{Refusal, Words};
use crate::quantity::{Mm, Ratio, Unit};
use crate::shop::{Gauge, Machine};

impl PolishSeal {
    pub(super) fn the_set_up(&self, bench: &Bench, answer: &mut Answer, track: &Track) -> Result<(), Refusal> {
        let mut set_up = SetUp::at("polish-it", Station::Lathe);
        let lathe = kit::machine_for(bench, self.set_up.as_ref(), Machine::lathe);
        set_up.on(lathe.map(|lathe| lathe.name.value.as_str()));
        set_up.hold.push(kit::held_in(None, "in-four-jaw-or-centres").into());
        kit::rig(&mut set_up, None, HeldIn::FourJaw);
        // A small whole number of the table of constants.
        let readings = constant::<Ratio>("readings-of-a-size")?.number() as usize;
        set_up.step("bearing-on-first").step("true-the-track");
        if bench.part.hardness.is_none() {
            set_up.step("test-the-hardness");
        }
        set_up.step("cover-the-rest").step("polish-plunging");
        set_up.hold_at(Words::of("try-for-lead"), thread_walks(bench)?);
        set_up.step("wash-off-the-grit");
        let gauge = kit::gauge_used(bench, track.after.number(), Gauge::Outside, false);
        let (least, most) = track.accepted(bench)?;
        let hold = HoldPoint::of(DIAMETER_AFTER.key, readings, gauge, bench.guard());
        let hold = hold.between(least, most).then("groove-out-or-polished-deep");
        set_up.hold_at(Words::of("measure-the-track"), hold);
        set_up.step("read-the-finish");
        set_up.takes(set_up_minutes::start("four-jaw chuck, dial")? + set_up_minutes::start("track, polishing")?);
        set_up.needs = kit::of_part(bench, &[StateKind::Washed]);
        set_up.leaves = vec![kit::of_this(bench, StateKind::Polished)];
        set_up.warns(&["emery", "loose-things", "chuck-key", "clear-of-the-cloth", "plated-track"]);
        set_up.pulls.push(Pull { drawer: Drawer::Abrasives, item: Words::of("emery-cloth"), count: 1 });
        let size = kit::blank("track-after", found(answer, SIZE.key), None);
        let between = found(answer, DIAMETER_LEAST.key).zip(found(answer, TRACK.key));
        let target = between.map(|(least, most)| Target::Between(least, most));
        set_up.blanks.push(kit::read_with(
            Blank { target, ..size }.left_as(&DIAMETER_AFTER),
            readings,
            bench,
            Gauge::Outside,
        ));
        let rough = kit::blank("finish-after", found(answer, FINISH_FOUND.key), None);
        let between = found(answer, FINISH_LEAST.key).zip(found(answer, FINISH_MOST.key));
        let target = between.map(|(least, most)| Target::Between(least, most));
        set_up.blanks.push(Blank { target, ..rough }.left_as(&FINISH));
        let most = thread_walks(bench)?.limits.most.clone();
        let walked = Blank { target: most.map(Target::UpTo), ..kit::blank("lead-after", None, None) };
        set_up.blanks.push(walked.also_left_as(&THREAD));
        set_up.sketch = sketch::draw(self, track, answer);
        answer.set_ups.push(set_up);
        Ok(())
    }
}

/// How far the oiled thread may be read to walk: what a thread shifts of itself, less what its gauge is off.
fn thread_walks(bench: &Bench) -> Result<HoldPoint, Refusal> {
    const PLACES: i32 = 1;
    let shifts = constant::<Mm>("seal-thread-walks-most")?.number();
    let gauge = kit::gauge_used(bench, shifts, Gauge::Depth, false);
    let most = kit::most_to_read(shifts, gauge.doubt.unwrap_or(0.0) * bench.guard() / 2.0);
    Ok(HoldPoint::asking(THREAD.key, 1, gauge.name, Limits::asked((None, Some(most)), PLACES, Unit::Mm)))
}
