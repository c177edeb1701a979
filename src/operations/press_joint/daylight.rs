//! Whether all that stands under the ram goes in between it and the table.

use super::asked::Asked;
use super::names::support::PILE;
use super::support::Support;
use crate::handbook::constants::constant;
use crate::operations::{Answer, Bench, SetUpWish, kit};
use crate::proof::{Check, Keep, Mark, Origin, Place, Refusal, Source, Verdict, Words, Worked};
use crate::quantity::{Mm, Quantity};
use crate::shop::Machine;

/// Does a pile so high go in under the ram? Of a press of which nobody says how far it opens only what most take is no question.
pub(in crate::operations) fn press_opens(
    bench: &Bench,
    wish: Option<&SetUpWish>,
    (pile, place): (&[&Worked<Mm>], Place),
    answer: &mut Answer,
) -> Result<(), Refusal> {
    const ID: &str = "press-opens";
    let terms: Vec<(f64, &Worked<Mm>)> = pile.iter().map(|one| (1.0, *one)).collect();
    let source = Source::fixed("one on the other", Mark::Derived);
    let pile = answer.record(&PILE, Worked::sum(&terms, 0.0, "all that stands under the ram", source));
    let Some(press) = kit::machine_for(bench, wish, Machine::press) else {
        if bench.shop.is_none() {
            answer.no_shop(&[ID]);
        } else {
            answer.does_not_apply(&[ID]);
        }
        return Ok(());
    };
    let usual = constant::<Mm>("press-daylight-usual")?;
    let most = press.daylight.as_ref().map(Worked::from);
    if most.is_none() && pile.number() <= usual.number() {
        answer.does_not_apply(&[ID]);
        return Ok(());
    }
    let check = Check::judge(ID, &pile, Keep::AtMost, &most.unwrap_or(usual), bench.guard());
    // What the shop has too small is doubtful.
    let check = check.not_worse_than(Verdict::Doubtful).about(PILE.key).at(place);
    answer.check(check).remedy(Words::of("lower-pile"));
    Ok(())
}

impl Asked<'_> {
    /// The same of a bush that stands on its housing before it goes in.
    pub(in crate::operations) fn pile_goes_in(
        &self,
        bench: &Bench,
        support: Option<&Support>,
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        let bush: Worked<Mm> = (&self.bush.length).into();
        let housing = self.housing.length.as_ref().map_or_else(|| bush.clone(), Worked::from);
        let under = support.and_then(|support| support.height.as_ref());
        let height =
            under.map_or_else(|| Worked::exact(Mm::new(0.0), Origin::Assumed("no height given".into())), Worked::from);
        let place = under.map_or(self.bush.length.place, |at| at.place);
        press_opens(bench, self.set_up, (&[&height, &housing, &bush], place), answer)
    }
}
