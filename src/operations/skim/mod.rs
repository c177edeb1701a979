//! `skim`: a grooved or hollow contact cleaned up, and what that does to the pack, the seats and the springs behind it.
//!
//! What it shares with the plain facing cut is worked in [`facing`]; the step, the pack, the springs and the pair stand in
//! [`stack`].

mod names;
mod stack;

use super::facing::{self, Ground, LENGTH_AFTER};
use super::turning;
use super::{Answer, Bench, Declared, Hold, Operation, SetUpWish};
use crate::handbook::Material;
use crate::handbook::cutting::stock;
use crate::job::{Address, Difference, PartFacts};
use crate::proof::{At, Check, CheckRule, Refusal, Verdict, Words, Worked};
use crate::quantity::{Mm, Wanted};
use crate::reading::Problem;
use crate::shop::Gauge;
use names::{DISH, REMOVED_ALONE, THICKNESS_AFTER};
use schemars::JsonSchema;
use serde::Deserialize;

/// What a straight edge lay on when the groove was read.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(super) enum From {
    /// Across the whole contact: wear and dish start from the same line.
    StraightEdge,
    /// On the hollow itself: the wear lies below the dish.
    Local,
}

/// Every check of a skim.
const CHECKS: &[CheckRule] = facing::facing_checks!(
    CheckRule::must("thickness", &["least-thickness"]),
    CheckRule::must("pair-planned", &["pair"]),
    CheckRule::must("both-halves", &["pair"]),
    CheckRule::must("step-left", &["step"]),
    CheckRule::must("clamp-lost", &["springs.most-change"]),
    CheckRule::may("pack", &["pack"]),
);

facing::facing_operation! {
    /// A grooved or hollow contact cleaned up.
    #[schemars(extend("x-wants" = [["part.material"], ["wear", "dish"]]))]
    Skim {
        /// Depth of the grooves (measured); left out, there are none: `dish` is given then.
        wear: Option<At<Difference>>,
        /// Hollow of the contact (measured); left out, it is flat: `wear` is given then.
        dish: Option<At<Difference>>,
        /// Where wear was read from.
        from: Option<At<From>>,
        /// Least thickness that may be left (wanted).
        least_thickness: Option<At<Wanted<Mm>>>,
        /// The matching shoulder.
        step: Option<stack::MatchingStep>,
        /// The plate stack.
        pack: Option<stack::Pack>,
        /// The springs that clamp; left out, those of the other part of the pair, where it has some; else the clamp is not judged.
        springs: Option<stack::Springs>,
        /// The other part of a pair, skimmed by the same.
        pair: Option<At<String>>,
    }
}

impl Skim {
    /// Its length is the thickness at the contact.
    const OVER_BOTH_ENDS: bool = false;
}

impl Operation for Skim {
    fn values(&self) -> &'static [&'static [Declared]] {
        facing::values!(names::VALUES)
    }

    fn checks(&self) -> &'static [CheckRule] {
        CHECKS
    }

    fn hold(&self) -> Option<&Hold> {
        self.hold.as_ref()
    }

    fn set_up(&self) -> Option<&SetUpWish> {
        self.set_up.as_ref()
    }

    fn cuts_as(&self, part: &PartFacts, metal: &Material) -> Result<Material, Refusal> {
        turning::cuts_as(metal, part.hardness.as_ref().map(|at| at.value))
    }

    fn problems(&self, part: &PartFacts) -> Vec<Problem> {
        let mut all = Vec::new();
        self.asked().problems(part, &mut all);
        for (key, at) in [("wear", &self.wear), ("dish", &self.dish)] {
            if let Some(at) = at {
                self.asked().too_deep(key, at, &mut all);
            }
        }
        if self.wear.is_none() && self.dish.is_none() {
            all.push(Problem::new(self.length.place, "give `wear`, `dish` or both: how deep must the cut go?"));
        }
        self.stack_problems(part, &mut all);
        all
    }

    /// What this part would lose on its own, for the other of its pair.
    fn asks(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        if self.pair.is_some() {
            let dial = facing::dial_alone(bench, &self.asked(), answer)?;
            // One that goes on from what is not worked yet is handed over behind that.
            if let Ok(length) = Answer::default().read(bench, "length", Gauge::Outside, self.asked().length) {
                answer.record(&facing::LENGTH, length);
            }
            self.alone(bench, &dial, answer)?;
            self.hand_over(answer)?;
        }
        Ok(())
    }

    fn partner(&self) -> Option<Address> {
        self.pair.as_ref().map(|pair| Self::address_of(&pair.value))
    }

    fn work(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        let ground = Ground::of(bench, self.asked(), answer)?;
        let (worn, alone) = self.alone(bench, &ground.dial, answer)?;
        let wanted = self.with_pair(bench, alone, answer);
        let typed = self.least_thickness.iter().chain(ground.asked.least_length).collect();
        let least = facing::Least { id: "thickness", typed, case_does: false };
        let metal = facing::metal_left(bench, &ground, worn, &wanted, &least, answer)?;
        answer.record(&THICKNESS_AFTER, metal.left.clone());
        let extra = stack::work(self, bench, (&ground.dial, &metal), answer)?;
        answer.caution("asbestos");
        if self.springs.is_some() {
            answer.caution("coil-springs");
        }
        let Some(cutting) = facing::work_cut(bench, &ground, &metal, answer)? else { return Ok(()) };
        facing::set_up(bench, &ground, &metal, &cutting, extra, answer)
    }
}

impl Skim {
    /// Wear and dish as read, and the metal that this part would lose on its own, up to whole divisions.
    fn alone(
        &self,
        bench: &Bench,
        dial: &facing::DepthDial,
        answer: &mut Answer,
    ) -> Result<(Worked<Mm>, Worked<Mm>), Refusal> {
        let wear = answer.read_difference_if(bench, "wear", Gauge::Depth, self.wear.as_ref())?;
        let wear = wear.map(|wear| answer.record(&facing::WEAR, wear));
        let dish = answer.read_difference_if(bench, "dish", Gauge::Depth, self.dish.as_ref())?;
        let dish = dish.map(|dish| answer.record(&DISH, dish));
        for (typed, words) in [(wear.is_some(), "no-wear"), (dish.is_some(), "no-dish")] {
            if !typed {
                answer.assume_words(Words::of(words));
            }
        }
        let below = facing::clean_up(bench, &self.asked(), answer)?;
        let metal_for =
            |worn: &Worked<Mm>| stock::metal_to_remove(&facing::middle(worn), &facing::doubt_of(bench, worn), &below);
        let (worn, wanted) = match (wear, dish) {
            (Some(wear), Some(dish)) if self.read_locally(answer) => {
                let both = stock::both_doubts(&facing::doubt_of(bench, &wear), &facing::doubt_of(bench, &dish))?;
                let metal = stock::metal_with_dish(&facing::middle(&wear), &facing::middle(&dish), &both, &below)?;
                (stock::wear_below_dish(&wear, &dish)?, metal)
            }
            (Some(wear), Some(dish)) => {
                let (of_wear, of_dish) = (metal_for(&wear)?, metal_for(&dish)?);
                // What asks the deeper cut decides how much goes; the deeper reading is what the part rode in.
                let worn = if dish.number() > wear.number() { dish } else { wear };
                (worn, if of_dish.number() > of_wear.number() { of_dish } else { of_wear })
            }
            (Some(worn), None) | (None, Some(worn)) => {
                let metal = metal_for(&worn)?;
                (worn, metal)
            }
            (None, None) => return Err(Refusal::NotGiven { what: "the depth of the wear", key: "wear" }),
        };
        let (alone, _) = stock::whole_divisions(&wanted, &dial.division)?;
        if self.pair.is_some() {
            let alone = answer.record(&REMOVED_ALONE, alone);
            return Ok((worn, alone));
        }
        Ok((worn, wanted))
    }

    /// Read on the hollow itself; where nobody says it is taken so, for that is the deeper cut.
    fn read_locally(&self, answer: &mut Answer) -> bool {
        match &self.from {
            Some(from) => from.value == From::Local,
            None => {
                answer.assume_words(Words::of("from"));
                true
            }
        }
    }

    /// A pair loses the same: the greater of what each would lose. Whether each names the other is seen when both are worked.
    fn with_pair(&self, bench: &Bench, alone: Worked<Mm>, answer: &mut Answer) -> Worked<Mm> {
        let Some(pair) = &self.pair else {
            answer.does_not_apply(&["pair-planned", "both-halves"]);
            return alone;
        };
        answer.fact("pair", pair.value.clone());
        let other = Self::address_of(&pair.value).value(REMOVED_ALONE.key);
        let handed = bench.handed(&other);
        let lost = self.other_lost(bench).filter(|_| bench.left(&LENGTH_AFTER).is_ok_and(|own| own.is_none()));
        let verdict = if handed.is_ok() { Verdict::Proven } else { Verdict::Fails };
        answer.check(Check::of_kind("pair-planned", verdict).with("pair", pair.value.clone()).at(pair.place));
        // What is cut already cannot be put back: the half that is still to be cut goes as deep.
        let handed = handed.map(|other| lost.filter(|lost| lost.number() > other.number()).unwrap_or(other));
        match handed {
            Ok(other) if other.number() > alone.number() => {
                answer.choose("deeper_of_pair", pair.value.clone(), Words::of("pair-asks-more"));
                other
            }
            Ok(_) => {
                answer.choose("deeper_of_pair", bench.part.name.clone(), Words::of("this-asks-more"));
                alone
            }
            Err(_) => alone,
        }
    }

    /// `pair: PART`, or `pair: PART/OPERATION` where the part has several.
    fn address_of(pair: &str) -> Address {
        pair.parse().map_or_else(|_| Address::of(pair, "skim"), |address: Address| address.owner())
    }
}
