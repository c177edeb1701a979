//! The two set-ups: bored on the mill, then cold, measured and honed on the bench.

use super::keys::{Axis, Bore};
use super::names::{BORE_MAX, BORE_MIN, BORED, CLEARANCE, FINISH, PASSES, PISTON, RING_GAP};
use super::sketch;
use crate::handbook::{StateKind, set_up_minutes};
use crate::operations::hold_point::Limits;
use crate::operations::kit::{self, mm};
use crate::operations::{Answer, Bench, HeldIn, HoldPoint, SetUp, Station, Wait};
use crate::proof::{Fact, Refusal, Words};
use crate::quantity::{Decimals, Unit};
use crate::shop::{Gauge, Machine};

/// Decimals of a millimetre that a bore gauge is read to.
const PLACES: i32 = 3;

impl Bore {
    pub(super) fn set_ups(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        let places = self.readings.value.axes.len() * self.readings.value.depths.value.reads.len();
        answer.fact("places", places.to_string());
        self.bored(bench, places, answer)?;
        self.honed(bench, places, answer)
    }

    fn bored(&self, bench: &Bench, places: usize, answer: &mut Answer) -> Result<(), Refusal> {
        let mut set_up = SetUp::at("bore-the-cylinder", Station::Drilling);
        set_up.on(kit::machine_for(bench, self.set_up.as_ref(), kit::that_drills).map(Machine::name));
        set_up.hold.push(kit::held_in(self.hold.as_ref(), "clamp-it").into());
        set_up.hold.extend(kit::trued_as("true-on-the-unworn-ring", self.hold.as_ref()).map(Into::into));
        kit::rig(&mut set_up, self.hold.as_ref(), HeldIn::Clamps);
        set_up.step("wash-and-cool");
        set_up.hold_at(Words::of("piston-in-hand"), self.in_hand(bench, answer));
        set_up.step("base-face-true");
        set_up.step(match self.about() {
            Axis::Old => "centre-on-the-unworn-ring",
            Axis::Worn => "centre-on-the-worn-place",
        });
        if answer.value(PASSES.key).is_some() {
            let passes = answer.value(PASSES.key).map_or(0.0, |passes| passes.number);
            answer.fact("passes", Fact::figure(passes, Unit::One).to(Decimals::Exactly(0)));
            set_up.step("bore-two-alike").step("spring-passes");
        } else {
            set_up.step("bore-alike");
        }
        set_up.step("measure-bored");
        set_up.sketch = sketch::draw(self, answer, false);
        set_up.takes(set_up_minutes::start("cylinder, boring head and clamps")?);
        set_up.tail = Some(Wait::of("cylinder, cooling after boring")?);
        set_up.needs = kit::of_part(bench, &[StateKind::Washed, StateKind::Measured]);
        set_up.leaves = vec![kit::of_this(bench, StateKind::Bored)];
        set_up.warns(&["swarf", "plated-bore"]);
        let bored = kit::blank("bored-to", None, kit::found(answer, BORED.key));
        set_up.blanks.push(kit::read_with(bored, places, bench, Gauge::Inside));
        answer.set_ups.push(set_up);
        Ok(())
    }

    fn honed(&self, bench: &Bench, places: usize, answer: &mut Answer) -> Result<(), Refusal> {
        let mut set_up = SetUp::at("hone-the-cylinder", Station::Bench);
        set_up.hold.push(Words::of("stands-on-its-base").into());
        set_up.step("measure-cold");
        set_up.step("hone-into-its-limits").step("chamfer").step("scrub");
        set_up.hold_at(Words::of("measure-finished"), self.finished(bench, answer, places));
        if answer.value(RING_GAP.key).is_some() {
            set_up.step("gap-the-rings");
        }
        set_up.sketch = sketch::draw(self, answer, true);
        set_up.takes(set_up_minutes::start("cylinder, honing and scrubbing")?);
        set_up.needs = vec![kit::of_this(bench, StateKind::Bored)];
        set_up.leaves = vec![kit::of_this(bench, StateKind::Finished)];
        set_up.leaves.extend(kit::of_part(bench, &[StateKind::Washed]));
        set_up.warns(&["grit"]);
        let limits = Self::accepted(bench, answer).map(|(least, most)| Fact::span(mm(least), mm(most)));
        let line = kit::blank("finished-to", None, limits);
        set_up.blanks.push(kit::read_with(line, places, bench, Gauge::Inside));
        answer.set_ups.push(set_up);
        Ok(())
    }

    /// The piston measured again before metal is cut for it: what it was read as, with its doubt.
    fn in_hand(&self, bench: &Bench, answer: &Answer) -> Option<HoldPoint> {
        let piston = answer.value(PISTON.key)?;
        let ends = (Some(piston.number - piston.plus_minus), Some(piston.number + piston.plus_minus));
        let gauge = kit::gauge_used(bench, piston.number, Gauge::Outside, true).name;
        Some(HoldPoint::asking(PISTON.key, 1, gauge, Limits::asked(ends, PLACES, Unit::Mm)))
    }

    /// Readings of the finished bore that are sure to give the clearance asked: its limits less the doubt of the clearance.
    fn accepted(bench: &Bench, answer: &Answer) -> Option<(f64, f64)> {
        let number = |key: &str| answer.value(key).map(|value| value.number);
        let piston = answer.value(PISTON.key)?;
        let doubt = answer.value(CLEARANCE.key)?.plus_minus * bench.guard() / 2.0;
        let of_piston = piston.plus_minus * bench.guard() / 2.0;
        let (least, most) = (number(BORE_MIN.key)? - of_piston + doubt, number(BORE_MAX.key)? + of_piston - doubt);
        (least < most).then_some((least, most))
    }

    fn finished(&self, bench: &Bench, answer: &Answer, places: usize) -> Option<HoldPoint> {
        let finish = answer.value(FINISH.key)?;
        let (least, most) = Self::accepted(bench, answer)?;
        let used = kit::gauge_used(bench, finish.number, Gauge::Inside, false).name;
        let named = self.readings.value.with.as_ref().map(|name| Fact::from(&name.value));
        let limits = Limits::asked((Some(least), Some(most)), PLACES, Unit::Mm);
        Some(HoldPoint::asking(FINISH.key, places, named.unwrap_or(used), limits))
    }
}
