//! The two set-ups: bored on the mill, then cold, measured and honed on the bench.

use super::cutting::Boring;
use super::found::Found;
use super::keys::{Axis, Bore};
use super::names::{BORE_MAX, BORE_MIN, BORED, CLEAN_OLD, CLEAN_WORN, CLEARANCE, FINISH, PISTON, RING_GAP, RUNNING};
use super::sketch;
use crate::handbook::constants::constant;
use crate::handbook::joints::heating::REFERENCE;
use crate::handbook::materials::groups::Kind;
use crate::handbook::{StateKind, set_up_minutes};
use crate::operations::Limits;
use crate::operations::hole_making;
use crate::operations::kit::{self, mm};
use crate::operations::{Answer, Bench, HeldIn, HoldPoint, SetUp, Station, Wait};
use crate::proof::{Fact, Refusal, Words};
use crate::quantity::{Decimals, Mm, Quantity, Rounds, Unit};
use crate::shop::{Gauge, Machine};

/// Decimals of a millimetre that a bore gauge is read to.
const PLACES: i32 = 3;

impl Bore {
    pub(super) fn set_ups(&self, bench: &Bench, found: &Found, answer: &mut Answer) -> Result<(), Refusal> {
        let places = self.readings.value.places();
        answer.fact("places", places.to_string());
        answer.fact("reference_temperature", Fact::figure(REFERENCE, Unit::DegC).to(Decimals::Exactly(0)));
        let boring = self.boring(bench, found, answer)?;
        self.bored(bench, places, boring, answer)?;
        self.honed(bench, places, answer)
    }

    fn bored(&self, bench: &Bench, places: usize, boring: Boring, answer: &mut Answer) -> Result<(), Refusal> {
        let station = boring.machine.map_or(Station::Drilling, Station::of);
        let mut set_up = SetUp::at("bore-the-cylinder", station);
        set_up.on(boring.machine.map(Machine::name));
        set_up.hold.push(kit::held_in(self.hold.as_ref(), "clamp-it").into());
        let trued = match self.about() {
            Axis::Old => "true-on-the-unworn-ring",
            Axis::Worn => "true-on-the-worn-place",
        };
        set_up.hold.extend(kit::trued_as(trued, self.hold.as_ref()).map(Into::into));
        kit::rig(&mut set_up, self.hold.as_ref(), HeldIn::Clamps);
        set_up.step("wash-and-cool");
        if self.warmth().is_some() {
            set_up.step("sizes-count-at-20");
        }
        set_up.hold_at(Words::of("piston-in-hand"), self.in_hand(bench, answer));
        set_up.step("base-face-true");
        hole_making::try_the_grip(&mut set_up, self.hold.as_ref(), answer);
        set_up.step(match self.about() {
            Axis::Old => "centre-on-the-unworn-ring",
            Axis::Worn => "centre-on-the-worn-place",
        });
        let cuts = boring.cuts.is_some();
        match boring.cuts {
            Some([early, last]) => {
                set_up.step("bar-through-by-hand").step("touch-the-tightest");
                set_up.cut(Words::of("open-it"), early);
                set_up.step("measure-before-the-last");
                set_up.cut(Words::of("last-cut-alike"), last);
            }
            None => {
                set_up.step("bore-alike");
            }
        }
        set_up.step("measure-bored");
        set_up.sketch = sketch::draw(self, answer, (false, cuts));
        set_up.takes(set_up_minutes::start("cylinder, boring head and clamps")?);
        set_up.tail = Some(Wait::of("cylinder, cooling after boring")?);
        set_up.needs = kit::of_part(bench, &[StateKind::Washed, StateKind::Measured]);
        set_up.leaves = vec![kit::of_this(bench, StateKind::Bored)];
        set_up.warns(&["swarf", "plated-bore"]);
        if let Some(piston) = kit::found(answer, PISTON.key) {
            let line = kit::blank("piston-in-hand", Some(piston), None).also_left_as(&PISTON);
            set_up.blanks.push(kit::read_with(line, 1, bench, Gauge::Outside));
        }
        // What the hone accepts it cold at is what it may be bored to.
        let limits = self.before_honing(bench, answer)?;
        let limits = limits.map(|(least, most)| Fact::span(inward(least, Rounds::Up), inward(most, Rounds::Down)));
        let bored = kit::blank("bored-to", None, limits.or_else(|| kit::found(answer, BORED.key)));
        set_up.blanks.push(kit::read_with(bored.left_as(&BORED), places, bench, Gauge::Inside));
        answer.set_ups.push(set_up);
        Ok(())
    }

    fn honed(&self, bench: &Bench, places: usize, answer: &mut Answer) -> Result<(), Refusal> {
        let mut set_up = SetUp::at("hone-the-cylinder", Station::Bench);
        // Grit does not stand on bare iron over a break.
        set_up.pause = false;
        set_up.hold.push(Words::of("stands-on-its-base").into());
        let cold = self.cold(bench, answer, places)?.map(|hold| hold.then("outside-work-again"));
        if self.warmth().is_some() {
            set_up.step("sizes-count-at-20");
        }
        set_up.hold_at(Words::of("measure-cold"), cold);
        let finished = self.finished(bench, answer, places);
        let limits = self
            .accepted(bench, answer)
            .map(|(least, most)| Fact::span(inward(least, Rounds::Up), inward(most, Rounds::Down)));
        match limits.clone().filter(|_| finished.is_some()) {
            Some(limits) => set_up.step_with(Words::of("hone-into-its-limits").with("limits", limits)),
            None => set_up.step("hone-to-no-size"),
        };
        if finished.is_some() {
            let burns = bench.part.material.as_ref().is_some_and(|metal| metal.value.kind() == Kind::Magnesium);
            set_up.step("chamfer").step(if burns { "scrub-without-water" } else { "scrub" });
        }
        set_up.hold_at(Words::of("measure-finished"), finished);
        if answer.value(RING_GAP.key).is_some() {
            set_up.step("gap-the-rings");
        }
        set_up.sketch = sketch::draw(self, answer, (true, false));
        set_up.takes(set_up_minutes::start("cylinder, honing and scrubbing")?);
        set_up.needs = vec![kit::of_this(bench, StateKind::Bored)];
        set_up.leaves = vec![kit::of_this(bench, StateKind::Finished)];
        set_up.leaves.extend(kit::of_part(bench, &[StateKind::Washed]));
        set_up.warns(&["grit"]);
        let gap = kit::found(answer, RING_GAP.key);
        let line = kit::blank("finished-to", None, limits);
        set_up.blanks.push(kit::read_with(line.left_as(&FINISH), places, bench, Gauge::Inside));
        set_up.blanks.extend(gap.map(|gap| kit::blank("ring-gap", None, Some(gap)).also_left_as(&RING_GAP)));
        answer.set_ups.push(set_up);
        Ok(())
    }

    /// Cold, before a stone touches it: sizes for which the hone has neither too little nor too much to take, and that came clean.
    fn before_honing(&self, bench: &Bench, answer: &Answer) -> Result<Option<(f64, f64)>, Refusal> {
        let number = |key: &str| answer.value(key).map(|value| value.number);
        let (Some(finish), Some(read)) = (number(FINISH.key), answer.value(CLEARANCE.key)) else { return Ok(None) };
        let doubt = read.plus_minus * bench.guard() / 2.0;
        let stock = |name| constant::<Mm>(name).map(|stock| stock.number());
        let (least, most) = (finish - stock("honing-stock-most")?, finish - stock("honing-stock-least")?);
        let clean = match self.about() {
            Axis::Old => CLEAN_OLD.key,
            Axis::Worn => CLEAN_WORN.key,
        };
        let least = number(clean).map_or(least, |clean| least.max(clean));
        let (least, most) = (least + doubt, most - doubt);
        Ok((least < most).then_some((least, most)))
    }

    /// The stop before a stone touches it.
    fn cold(&self, bench: &Bench, answer: &Answer, places: usize) -> Result<Option<HoldPoint>, Refusal> {
        let Some(finish) = answer.value(FINISH.key) else { return Ok(None) };
        Ok(self.before_honing(bench, answer)?.map(|(least, most)| {
            let gauge = self.gauge(bench, finish.number);
            HoldPoint::asking(BORED.key, places, gauge, Limits::asked((Some(least), Some(most)), PLACES, Unit::Mm))
        }))
    }

    /// The gauge of the readings, else one of the shop's that reads such a bore.
    fn gauge(&self, bench: &Bench, bore: f64) -> Fact {
        let named = self.readings.value.bore_gauge().map(|name| Fact::from(&name.value));
        named.unwrap_or_else(|| kit::gauge_used(bench, bore, Gauge::Inside, false).name)
    }

    /// The piston measured again before metal is cut for it: what it was read as or is listed as, with the doubt of reading it.
    fn in_hand(&self, bench: &Bench, answer: &Answer) -> Option<HoldPoint> {
        let piston = answer.value(PISTON.key)?;
        let used = kit::gauge_used(bench, piston.number, Gauge::Outside, true);
        // Listed, not measured, and nobody knows with what it will be: no reading of it can be told from another.
        let doubt = piston.plus_minus.max(used.doubt.unwrap_or_default());
        if doubt <= 0.0 {
            return None;
        }
        let ends = (Some(piston.number - doubt), Some(piston.number + doubt));
        let hold = HoldPoint::asking(PISTON.key, 1, used.name, Limits::asked(ends, PLACES, Unit::Mm));
        Some(hold.then("outside-work-again"))
    }

    /// Readings of the finished bore that are sure to give the clearance asked, cold by its limits less the doubt of the clearance, and warm.
    pub(super) fn accepted(&self, bench: &Bench, answer: &Answer) -> Option<(f64, f64)> {
        let number = |key: &str| answer.value(key).map(|value| value.number);
        let piston = answer.value(PISTON.key)?;
        let doubt = answer.value(CLEARANCE.key)?.plus_minus * bench.guard() / 2.0;
        let of_piston = piston.plus_minus * bench.guard() / 2.0;
        // A piston that was not measured may be whatever its own hold point lets pass.
        let doubt = doubt + unread(bench, answer)?;
        let (least, most) = (number(BORE_MIN.key)? - of_piston + doubt, number(BORE_MAX.key)? + of_piston - doubt);
        let least = self.still_runs(bench, answer).map_or(least, |warm| least.max(warm));
        (least < most).then_some((least, most))
    }

    /// The least reading of the finished bore at which the clearance is sure to be enough when it runs.
    fn still_runs(&self, bench: &Bench, answer: &Answer) -> Option<f64> {
        let (finish, warm) = (answer.value(FINISH.key)?, answer.value(RUNNING.key)?);
        let short = self.least_running.as_ref()?.value.number() - warm.number;
        Some(finish.number + short + warm.plus_minus * bench.guard() / 2.0)
    }

    fn finished(&self, bench: &Bench, answer: &Answer, places: usize) -> Option<HoldPoint> {
        let finish = answer.value(FINISH.key)?;
        let (least, most) = self.accepted(bench, answer)?;
        let limits = Limits::asked((Some(least), Some(most)), PLACES, Unit::Mm);
        Some(HoldPoint::asking(FINISH.key, places, self.gauge(bench, finish.number), limits))
    }
}

/// How far a piston may lie from what it is listed as once it is measured; nothing where it was.
fn unread(bench: &Bench, answer: &Answer) -> Option<f64> {
    let piston = answer.value(PISTON.key)?;
    let reads = || kit::gauge_used(bench, piston.number, Gauge::Outside, true).doubt.unwrap_or_default();
    Some(if piston.plus_minus > 0.0 { 0.0 } else { reads() })
}

/// A limit to the last decimal that is read, never beyond itself.
fn inward(limit: f64, rounds: Rounds) -> Fact {
    mm(limit).to(Decimals::Exactly(3)).rounded(rounds)
}
