//! What the coldest leaves of a float: every link shrinks by its own metal.

use super::growth::{WARM, expansion};
use super::keys::Shim;
use super::names::IN_FROST;
use crate::handbook::measuring::stack::grown_by;
use crate::operations::linked::Linked;
use crate::operations::{Answer, Bench, kit};
use crate::proof::{Check, Keep, Refusal, Verdict, Words, Worked};
use crate::quantity::{Quantity, Shift};

/// What the coldest takes from a float, and whether somebody said how cold that is.
pub(super) struct Frost {
    pub(super) takes: Worked<Shift>,
    pub(super) said: bool,
}

impl Shim {
    /// What the coldest takes from the float, where links that somebody named grow unlike each other.
    pub(super) fn frost(&self, answer: &mut Answer, links: &[Linked]) -> Result<Option<Frost>, Refusal> {
        let Some(warm) = self.warm.as_ref().filter(|_| self.grows_unlike()) else { return Ok(None) };
        let Some(at) = kit::coldest(warm.coldest.as_ref())? else { return Ok(None) };
        if warm.coldest.is_none() {
            answer.assume_words(Words::of("stands-in-frost").with("value", kit::degrees(at.number())));
        }
        let mut shrunk: Vec<(f64, Worked<Shift>)> = Vec::new();
        for (link, worked) in self.chain.iter().zip(links) {
            let size = worked.size.nominal("its doubt does not matter in what it shrinks");
            shrunk.push((worked.by, grown_by(&size, &expansion(link.material.as_ref())?, &at)?));
        }
        let terms: Vec<(f64, &Worked<Shift>)> = shrunk.iter().map(|(by, shrunk)| (*by, shrunk)).collect();
        let takes = Worked::sum(&terms, 0.0, "what every link shrinks, opening and closing", WARM);
        Ok(Some(Frost { takes, said: warm.coldest.is_some() }))
    }

    /// Whether any float is left in frost, and no more end load than was asked for. What nobody said of the frost is doubtful at worst.
    pub(super) fn judge_frost(
        &self,
        bench: &Bench,
        answer: &mut Answer,
        (left, frost): (&Worked<Shift>, Option<&Frost>),
    ) {
        const ID: &str = "frost";
        let Some(frost) = frost else {
            answer.does_not_apply(&[ID]);
            return;
        };
        let terms = [(1.0, left), (1.0, &frost.takes)];
        let cold = Worked::sum(&terms, 0.0, "the float, less what frost takes", WARM);
        let cold = answer.record(&IN_FROST, cold);
        let nothing = Worked::assumed(Shift::new(self.float.value.low.number().min(0.0)), "less than that binds");
        let check = Check::judge(ID, &cold, Keep::AtLeast, &nothing, bench.guard());
        let check = check.about(IN_FROST.key).at(self.float.place);
        answer.check(if frost.said { check } else { check.not_worse_than(Verdict::Doubtful) });
    }
}
