//! What was measured of housing and bush, and the interference with the doubt of both.

use super::*;
use crate::handbook::{constants::constant, joints::press};
use crate::proof::{Cause, Keep};
use crate::quantity::Roughness;
use crate::shop::Gauge;

/// Housing and bush, and how tight they are.
pub(super) struct Sizes {
    /// The joint diameter: the bore of the housing.
    pub d: Worked<Mm>,
    pub housing_outside: Worked<Mm>,
    pub length: Worked<Mm>,
    /// Once the surfaces have settled, with the doubt of both readings.
    pub left: Worked<Shift>,
    /// For grip.
    pub least: Worked<Shift>,
    /// For stress, press and heat: no loss.
    pub most: Worked<Shift>,
}

/// Roughness of a turned or bored surface that nobody measured, µm Ra (our own choice).
const ROUGHNESS_ASSUMED: f64 = 1.6;

impl ReamBush {
    /// Reads both, and works the interference.
    pub(super) fn sizes(&self, bench: &Bench, answer: &mut Answer) -> Result<Sizes, Refusal> {
        let d = answer.read(bench, "housing bore", Gauge::Inside, &self.housing.bore)?;
        let d = answer.record(&HOUSING_BORE, d);
        let housing_outside = answer.record(&HOUSING_OUTSIDE, (&self.housing.outside).into());
        let length = self.joint_length(bench, answer);
        let outside = match &self.bush.outside {
            Some(at) => answer.read(bench, "bush outside", Gauge::Outside, at)?,
            None => self.outside_to_make(bench, &d, answer)?,
        };
        let outside = answer.record(&BUSH_OUTSIDE, outside);
        let interference = answer.record(&INTERFERENCE, press::interference(&outside, &d)?);
        let most = interference.end(interference.high(), "as large as it may be");
        let most = answer.record(&INTERFERENCE_MAX, most);
        let rough = || Worked::assumed(Roughness::new(ROUGHNESS_ASSUMED), "a turned or bored surface");
        let of_housing = answer.typed_or(self.housing.finish.as_ref(), "finish-of-housing", rough);
        let of_bush = answer.typed_or(self.bush.finish.as_ref(), "finish-of-bush", rough);
        let loss = press::roughness_loss(&plain(&constant("roughness-loss")?), &of_housing, &of_bush)?;
        let loss = answer.record(&LOSS, loss);
        let left = answer.record(&LEFT, press::interference_left(&interference, &loss)?);
        let least = answer.record(&INTERFERENCE_MIN, left.end(left.low(), "as small as it may be"));
        let sizes = Sizes { d, housing_outside, length, left, least, most };
        self.grip(bench, &sizes, answer)?;
        Ok(sizes)
    }

    /// The shorter of the two: a flange and what stands proud do not grip.
    fn joint_length(&self, bench: &Bench, answer: &mut Answer) -> Worked<Mm> {
        let bush = answer.record(&BUSH_LENGTH, (&self.bush.length).into());
        let flange = self.flange.as_ref().map_or(0.0, |flange| flange.thickness.value.number());
        let proud = match self.stands.as_ref().map(|at| at.value) {
            Some(Stands::By(by)) => by.number().max(0.0),
            _ => 0.0,
        };
        let inside = bush.end((bush.number() - flange - proud).max(0.1), "what lies in the housing");
        let length = match &self.housing.length {
            Some(at) if at.value.number() < inside.number() => at.into(),
            Some(_) => inside,
            None => {
                answer.assume_words(Words::of("housing-as-long"));
                inside
            }
        };
        answer.record(&JOINT_LENGTH, length)
    }

    /// The outside of a bush that is made here: the middle of the usual fit on the bore as measured.
    fn outside_to_make(&self, bench: &Bench, d: &Worked<Mm>, answer: &mut Answer) -> Result<Worked<Mm>, Refusal> {
        let (wanted, half) = press::usual_interference(d.number())?;
        let wanted = answer.assume("usual-interference", wanted);
        let planned = press::outside_to_make(&plain(d), &wanted)?.with_doubt(Cause::Named("the outside to make"), half);
        answer.fact("outside_tolerance", mm(half).plus_minus());
        Ok(answer.record(&OUTSIDE_TO_MAKE, planned))
    }

    /// Is there any interference: none even at best fails, none at worst is doubtful.
    fn grip(&self, bench: &Bench, sizes: &Sizes, answer: &mut Answer) -> Result<(), Refusal> {
        let none = Worked::assumed(Shift::new(0.0), "a bush without interference turns");
        let check = Check::judge("interference", &sizes.left, Keep::AtLeast, &none, bench.guard()).about(LEFT.key);
        let verdict = match (sizes.most.number() > 0.0, sizes.least.number() > 0.0) {
            (false, _) => Verdict::Fails,
            (true, false) => Verdict::Doubtful,
            (true, true) => Verdict::Proven,
        };
        let place = self.bush.outside.as_ref().map_or(self.housing.bore.place, |at| at.place);
        let make = press::usual_interference(sizes.d.number())
            .and_then(|(wanted, half)| Ok((press::outside_to_make(&plain(&sizes.d), &wanted)?.number(), half)));
        let check = answer.check(check.judged_as(verdict).at(place));
        if let Ok((outside, half)) = make {
            let words = Words::of("make-outside").with("outside", mm(outside)).with("tolerance", mm(half).plus_minus());
            check.remedy(words);
        }
        check.remedy(Words::of("sleeve-the-housing"));
        Ok(())
    }
}
