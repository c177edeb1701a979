//! The bush as it was measured, or as it is made here: the usual fit, cut to what the joint can be proven at, and the bore that
//! leaves the stock.

use super::bore::Finished;
use super::keys::{MadeTo, ReamBush};
use super::names::{BORE_TO_MAKE, OUTSIDE_TO_MAKE};
use crate::handbook::constants::constant;
use crate::handbook::joints::fits::{Grade, tolerance};
use crate::handbook::joints::joint::PressJoint;
use crate::handbook::joints::{press, reaming};
use crate::operations::kit::mm;
use crate::operations::press_joint::{Climate, Made, Metals, Sizes, press_joint, proven_outsides};
use crate::operations::{Answer, Bench, Name};
use crate::proof::{Cause, Fact, Origin, Refusal, Worked};
use crate::quantity::{Mm, Quantity, Shift};
use crate::shop::{By, Gauge};

impl MadeTo {
    /// The sizes to make of a plan; nothing where all was measured.
    pub(super) fn of(answer: &Answer) -> Option<Self> {
        let size = |name: &Name<Mm>, doubt: &'static str| {
            let value = answer.value(name.key)?;
            let size = Worked::exact(Mm::new(value.number), Origin::Assumed("the size to make of this plan".into()));
            Some(size.with_doubt(Cause::Set(doubt), value.plus_minus))
        };
        let (outside, bore) = (size(&OUTSIDE_TO_MAKE, OUTSIDE_DOUBT), size(&BORE_TO_MAKE, BORE_DOUBT));
        (outside.is_some() || bore.is_some()).then_some(Self { outside, bore })
    }
}

/// The doubts of what is made, by name.
const OUTSIDE_DOUBT: &str = "the outside to make";
const BORE_DOUBT: &str = "the bore to make";

/// Rounds after which a bush to make stands still: each mends the last by a hundred.
const ROUNDS: u32 = 8;
/// A thousandth, to which the limits of a size to make are rounded inward, mm.
const THOUSANDTH: f64 = 0.001;

impl ReamBush {
    /// Reads the bush or works it out; nothing where it is to be bored for a finished bore that does not exist.
    pub(super) fn bush_as_it_is(
        &self,
        bench: &Bench,
        metals: &Metals,
        sizes: &Sizes,
        finished: &Finished,
        climate: &Climate,
        answer: &mut Answer,
    ) -> Result<Option<Made>, Refusal> {
        let of_bush = bench.part_of(&self.bush.material.value, self.bush.material.place);
        let at_bush = bench.with_part(&of_bush);
        let read_outside = answer.read_if(&at_bush, "bush outside", Gauge::Outside, self.bush.outside.as_ref())?;
        let read_bore = answer.read_if(&at_bush, "bush bore", Gauge::Inside, self.bush.bore.as_ref())?;
        let Some(start) = read_bore.clone().or_else(|| finished.middle.clone()) else { return Ok(None) };
        let usual = match read_outside {
            Some(_) => None,
            None => Some(answer.assume("usual-interference", press::usual_interference(sizes.d.number())?)),
        };
        let aim = match &read_bore {
            Some(_) => None,
            None => Some(answer.assume("stock-aimed-at", self.stock_aimed_at(metals, start.number())?)),
        };
        let half = tolerance(Grade::Number(7), start.number())? / 2000.0;
        let (mut bore, mut outside) = (start.clone(), read_outside.clone());
        for _ in 0..ROUNDS {
            let at = press_joint(metals, sizes, &bore);
            if let Some(usual) = &usual {
                outside = Some(self.outside_to_make(bench, (&at, metals, &bore), sizes, climate, usual)?);
            }
            if let (Some(aim), Some(outside)) = (&aim, &outside) {
                let close_in = at.close_in(&sizes.tight(bench, outside)?.settled)?;
                let middle = start.nominal("the size to bore to");
                let wanted = press::bore_to_make(&middle, aim, &close_in.nominal("the size to bore to"))?;
                bore = wanted.with_doubt(Cause::Set(BORE_DOUBT), half);
            }
        }
        if let Some(made_to) = &self.made_to {
            outside = made_to.outside.clone().filter(|_| usual.is_some()).or(outside);
            bore = made_to.bore.clone().filter(|_| aim.is_some()).unwrap_or(bore);
        }
        let Some(outside) = outside else { return Ok(None) };
        if usual.is_some() {
            let half = outside.plus_minus();
            let (low, high) = (outside.number() - half, outside.number() + half);
            answer.fact("outside_limits", Fact::span(mm(low), mm(high)));
            answer.record(&OUTSIDE_TO_MAKE, outside.clone());
        }
        if aim.is_some() {
            answer.fact("bore_tolerance", mm(half).plus_minus());
            answer.record(&BORE_TO_MAKE, bore.clone());
        }
        let made = self.asked().made(bench, (metals, sizes, climate), (bore, outside, usual.is_none()), answer)?;
        Ok(Some(made))
    }

    fn stock_aimed_at(&self, metals: &Metals, size: f64) -> Result<Worked<Mm>, Refusal> {
        match (self.forbids(metals), self.by()) {
            (Some(_), _) => Ok(Worked::assumed(Mm::new(0.0), "it is not reamed")),
            (None, By::Hand) => Ok(reaming::stock(reaming::Way::FixedByHand, size)?.aim),
            (None, By::Machine) => Ok(reaming::stock(reaming::Way::Machine, size)?.aim),
        }
    }

    /// The outside of a bush that is made here: the usual fit on the bore as measured, cut to what is proven; where no outside is,
    /// the usual fit as it stands.
    fn outside_to_make(
        &self,
        bench: &Bench,
        (joint, metals, bore): (&PressJoint, &Metals, &Worked<Mm>),
        sizes: &Sizes,
        climate: &Climate,
        usual: &Worked<Shift>,
    ) -> Result<Worked<Mm>, Refusal> {
        let d = sizes.d.number();
        let (low, high) = usual.band().unwrap_or((usual.number(), usual.number()));
        let proven = match proven_outsides(bench, joint, sizes, climate, sizes.to_be_read(bench))? {
            Some(ends) => {
                let tried = Worked::assumed(Mm::new(ends.1), "an outside that is tried");
                self.asked().told_apart(bench, (metals, sizes), (bore, &tried), ends)?.or(Some(ends))
            }
            None => None,
        };
        let inward =
            |low: f64, high: f64| ((low / THOUSANDTH).ceil() * THOUSANDTH, (high / THOUSANDTH).floor() * THOUSANDTH);
        let usual_limits = inward(d + low, d + high);
        let narrowest = 2.0 * constant::<Mm>("bush-tolerance-least")?.number();
        let wide = |(low, high): &(f64, f64)| high - low >= narrowest;
        let cut = |(least, most): (f64, f64)| inward(least.max(d + low), most.min(d + high));
        let all_proven = |(least, most): (f64, f64)| inward(least, most);
        // Where the usual fit lies beside what is proven, what is proven goes first; where nothing is, the usual fit stands.
        let chosen = proven.map(cut).filter(wide).or_else(|| proven.map(all_proven).filter(wide));
        let (low, high) = chosen.unwrap_or(usual_limits);
        let middle = Mm::new((low + high) / 2.0);
        let origin = Origin::Picked {
            rule: format!("bore and usual fit, cut to what is proven: {low:.3} to {high:.3} mm"),
            wanted: usual.origin().clone(),
        };
        Ok(Worked::exact(middle, origin).with_doubt(Cause::Set(OUTSIDE_DOUBT), (high - low) / 2.0))
    }
}
