//! The bush at the press, with what oven and freezer gave and what is lost on the way there: does it still drop in?

use super::keys::ReamBush;
use crate::handbook::constants::constant;
use crate::handbook::joints::heating;
use crate::operations::press_joint::names::at_press::LEFT_AT_THE_PRESS;
use crate::operations::press_joint::names::fitted::BUSH_OUTSIDE;
use crate::operations::press_joint::names::joint::{BUSH_BORE, HOUSING_BORE, HOUSING_OUTSIDE};
use crate::operations::press_joint::{Joint, Metals, cold_at_the_press, too_thin, with_thin};
use crate::operations::{Answer, Bench};
use crate::proof::{Cause, Check, Keep, Refusal, Side, Verdict, Words, Worked};
use crate::quantity::{Celsius, Mm, Quantity, Ratio, Shift};

/// The check of the room that is left at the press.
pub(super) const DROPS_IN: &str = "drops-in";

/// What comes out of oven and freezer, each where there is one.
#[derive(Default)]
pub(super) struct Readied {
    pub(super) housing: Option<Worked<Celsius>>,
    pub(super) bush: Option<Worked<Celsius>>,
}

impl ReamBush {
    /// Judges the greatest interference with the most that is lost on the way, then the one as measured with what is lost in the ordinary way.
    pub(super) fn still_drops_in(
        &self,
        bench: &Bench,
        metals: &Metals,
        (joint, d): (&Joint, &Worked<Mm>),
        readied: &Readied,
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        let (of_housing, of_bush) =
            (constant::<Ratio>("carried-loss-housing")?, constant::<Ratio>("carried-loss-bush")?);
        let most = |loss: &Worked<Ratio>| loss.worst(Side::High, bench.guard());
        let cold = Worked::assumed(Celsius::new(heating::REFERENCE), "sizes hold at 20 °C");
        let alpha = (metals.bush.expansion()?, metals.housing.expansion()?);
        let left = |interference: &Worked<Shift>, bush: &Worked<Celsius>, housing: &Worked<Celsius>| {
            heating::interference_warm(interference, &heating::tightened_by(d, &alpha.0, bush, &alpha.1, housing)?)
        };
        let carried = |from: Option<&Worked<Celsius>>, loss: &Worked<Ratio>| {
            from.map_or(Ok(cold.clone()), |from| heating::carried(from, loss))
        };
        let warmest = match &readied.bush {
            Some(freezer) => {
                let doubt = constant::<Celsius>("freezer-doubt")?.number();
                cold_at_the_press(bench, &freezer.clone().with_doubt(Cause::Set("the freezer"), doubt))?
            }
            None => cold.clone(),
        };
        let coldest = carried(readied.housing.as_ref(), &most(&of_housing))?;
        let worst = answer.record(&LEFT_AT_THE_PRESS, left(&joint.most, &warmest, &coldest)?);
        let ordinary = (carried(readied.bush.as_ref(), &of_bush)?, carried(readied.housing.as_ref(), &of_housing)?);
        let middle = joint.measured.nominal("the middle: the interference as measured");
        let middle = left(&middle, &ordinary.0, &ordinary.1)?;
        let none = Worked::assumed(Shift::new(0.0), "what still grips does not drop in");
        let check = Check::judge_two(DROPS_IN, (&worst, &none), Keep::AtMost, (&middle, &none), bench.guard());
        let check = check.about(LEFT_AT_THE_PRESS.key);
        // A bush that is chilled alone may still be pressed home.
        let check = if readied.housing.is_some() { check } else { check.not_worse_than(Verdict::Doubtful) };
        let number = |key: &str| answer.value(key).map(|value| value.number);
        let bore = number(HOUSING_BORE.key);
        let housing = number(HOUSING_OUTSIDE.key).zip(bore).filter(|_| readied.housing.is_some());
        let bush = number(BUSH_OUTSIDE.key).zip(number(BUSH_BORE.key)).filter(|_| readied.bush.is_some());
        with_thin(answer, check, too_thin(housing, bush)?).remedy(Words::of("warmer-and-quicker"));
        Ok(())
    }
}
