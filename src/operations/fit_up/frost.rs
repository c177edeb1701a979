//! The clearance in the coldest that both stand in: a bore that grows more than its shaft shrinks more too, and nips it cold.

use super::keys::FitUp;
use super::names::IN_FROST;
use super::running::Cold;
use crate::handbook::constants::constant;
use crate::handbook::materials::groups::Material;
use crate::handbook::measuring::stack::grown_by;
use crate::operations::{Answer, Bench, kit};
use crate::proof::{Cause, Check, Keep, Mark, Refusal, Source, Verdict, Words, Worked};
use crate::quantity::{Expansion, Quantity, Shift};

/// The check of what stands in frost.
const ID: &str = "frost";

impl FitUp {
    /// Judges the clearance in frost, where the bore, or what carries it, shrinks so much more than the shaft that it matters. What nobody
    /// said of the frost is doubtful at worst.
    pub(super) fn judge_frost(&self, bench: &Bench, answer: &mut Answer, cold: &Cold) -> Result<(), Refusal> {
        let (Some(bore), Some(shaft)) = (self.bore_metal(bench.part), self.shaft_metal(bench.part)) else {
            answer.not_checked(&[ID], &["bore-material", "shaft-material"]);
            return Ok(());
        };
        let bores = self.carried_by.iter().map(|at| &at.value).chain([&bore.value]);
        let expansions = bores.map(Material::expansion).collect::<Result<Vec<_>, _>>()?;
        let most = expansions.into_iter().max_by(|a, b| a.number().total_cmp(&b.number()));
        let own = kit::expansion(&shaft.value, Cause::Named("expansion of the shaft"))?;
        let alike = constant::<Expansion>("expansion-alike")?.number();
        let Some(bore) = most.filter(|most| most.number() - own.number() > alike) else {
            answer.does_not_apply(&[ID]);
            return Ok(());
        };
        let typed = self.running.as_ref().and_then(|running| running.coldest.as_ref());
        let Some(at) = kit::coldest(typed)? else {
            answer.does_not_apply(&[ID]);
            return Ok(());
        };
        if typed.is_none() {
            answer.assume_words(Words::of("stands-in-frost").with("value", kit::degrees(at.number())));
        }
        let size = |size: &Worked<_>| size.nominal("its doubt does not matter in what it shrinks");
        let shrinks = (grown_by(&size(&cold.bore), &bore, &at)?, grown_by(&size(&cold.shaft), &own, &at)?);
        let terms = [(1.0, &cold.clearance), (1.0, &shrinks.0), (-1.0, &shrinks.1)];
        let source = Source::fixed("linear expansion of bore and shaft", Mark::Derived);
        let left = Worked::sum(&terms, 0.0, "the clearance, what the bore shrinks less what the shaft shrinks", source);
        let left = answer.record(&IN_FROST, left);
        let nothing = Worked::assumed(Shift::new(0.0), "nothing left binds");
        let check = Check::judge(ID, &left, Keep::AtLeast, &nothing, bench.guard()).about(IN_FROST.key);
        let place = typed.map_or(self.bore.place, |at| at.place);
        answer.check(if typed.is_some() { check } else { check.not_worse_than(Verdict::Doubtful) }.at(place));
        Ok(())
    }
}
