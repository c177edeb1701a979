//! The two metals, what was asked of the bush in a word, and what many lines of the card need.

use super::keys::{Assemble, ReamBush};
use crate::handbook::joints::heating::REFERENCE;
use crate::handbook::joints::reaming::{NotReamed, forbids_reaming};
use crate::operations::Answer;
use crate::operations::press_joint::{Asked, Metals};
use crate::proof::{Fact, Words};
use crate::quantity::{Decimals, Unit};
use crate::shop::By;

impl ReamBush {
    /// Its joint.
    pub(super) fn asked(&self) -> Asked<'_> {
        Asked {
            housing: &self.housing,
            bush: &self.bush,
            flange: self.flange.as_ref(),
            stands: self.stands.as_ref(),
            running: self.running.as_ref(),
            cold: self.assembles() == Assemble::Press,
            // Its oven and its freezer are set for the bush that there is.
            gives: None,
            set_up: self.set_up.as_ref(),
        }
    }

    pub(super) fn assembles(&self) -> Assemble {
        self.assemble.as_ref().map_or(Assemble::Press, |at| at.value)
    }

    pub(super) fn by(&self) -> By {
        self.by.as_ref().map_or(By::Hand, |at| at.value)
    }

    pub(super) fn count(&self) -> u32 {
        self.bush.count.as_ref().map_or(1, |at| at.value)
    }

    pub(super) fn forbids(&self, metals: &Metals) -> Option<NotReamed> {
        self.bush.kind.as_ref().and_then(|kind| kind.value.forbids()).or_else(|| forbids_reaming(&metals.bush))
    }

    /// Words that many lines of the card need.
    pub(super) fn says(&self, metals: &Metals, answer: &mut Answer) {
        answer.fact("housing_material", metals.housing.typed());
        answer.fact("bush_material", metals.bush.typed());
        let count = self.count();
        answer.fact(
            "bushes",
            if count == 1 { Words::of("the-bush") } else { Words::of("each-bush").with("count", count.to_string()) },
        );
        answer.fact("reference_temperature", Fact::figure(REFERENCE, Unit::DegC).to(Decimals::Exactly(0)));
        metals.cautions().chain(metals.rots()).for_each(|id| answer.caution(id));
        if self.assemble.is_none() {
            answer.assume_words(Words::of("assemble"));
        }
        if self.by.is_none() {
            answer.assume_words(Words::of("by-hand"));
        }
        self.asked().says_how_it_stands(answer);
        self.asked().air_comes_out(answer);
        self.asked().pair_goes_in(metals, answer);
    }
}
