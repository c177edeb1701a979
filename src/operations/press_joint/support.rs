//! What the part stands on at the press: under the boss itself, on no thin flange.

use super::asked::Asked;
use super::metals::Metals;
use super::names::fitted::BUSH_OUTSIDE;
use super::names::support::{MUST_PASS, SUPPORT};
use crate::handbook::constants::{constant, row};
use crate::operations::{Answer, Bench};
use crate::proof::{At, Check, Keep, Mark, Origin, Refusal, Source, Verdict, Words, Worked};
use crate::quantity::{Mm, Quantity};
use schemars::JsonSchema;
use serde::Deserialize;

/// What the part stands on.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(in crate::operations) struct Support {
    /// Its bore, or the gap of two blocks.
    pub inside: At<Mm>,
    /// Its height: the room beneath the part; left out, the room for what comes through is not checked.
    pub height: Option<At<Mm>>,
    /// What of the part stands on it; left out, not checked: under the boss.
    pub under: Option<At<Under>>,
}

/// What of the part stands on the support.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(in crate::operations) enum Under {
    /// The end of the boss itself, close round the bore.
    Boss,
    /// A flange, a web or a wall of the casting.
    ThinFlange,
}

/// Does it stand under the boss itself, with enough of the boss on it?
pub(in crate::operations) fn under_the_boss(
    bench: &Bench,
    support: Option<&Support>,
    boss: &Worked<Mm>,
    answer: &mut Answer,
) -> Result<(), Refusal> {
    const ID: &str = "under-the-boss";
    let Some(support) = support else {
        answer.not_checked(&[ID], &["support"]);
        return Ok(());
    };
    let Some(under) = &support.under else {
        answer.not_checked(&[ID], &["support.under"]);
        return Ok(());
    };
    if under.value == Under::ThinFlange {
        answer.check(Check::of_kind(ID, Verdict::Fails).at(under.place)).remedy(Words::of("packing-under-the-boss"));
        return Ok(());
    }
    let land = constant::<Mm>("support-land-least")?;
    let source = Source::fixed("what the boss stands on", Mark::Derived);
    let most =
        Worked::sum(&[(1.0, boss), (-2.0, &land)], 0.0, "outside of the boss less a land on either side", source);
    let inside: Worked<Mm> = (&support.inside).into();
    let check = Check::judge(ID, &inside, Keep::AtMost, &most, bench.guard()).at(support.inside.place);
    answer.check(check).remedy(Words::of("packing-under-the-boss"));
    Ok(())
}

/// Does what comes through it, so large, pass with room about it?
pub(in crate::operations) fn support_clears(
    bench: &Bench,
    support: Option<&Support>,
    passes: Worked<Mm>,
    answer: &mut Answer,
) -> Result<(), Refusal> {
    const ID: &str = "support-clears";
    let passes = answer.record(&MUST_PASS, passes);
    let Some(support) = support else {
        answer.not_checked(&[ID], &["support"]);
        return Ok(());
    };
    let inside = answer.record(&SUPPORT, (&support.inside).into());
    let over = constant::<Mm>("support-over-bush")?;
    let source = Source::fixed("what passes, and room about it", Mark::Derived);
    let least = Worked::sum(&[(1.0, &passes), (1.0, &over)], 0.0, "what passes, and room about it", source);
    let check = Check::judge(ID, &inside, Keep::AtLeast, &least, bench.guard()).at(support.inside.place);
    answer.check(check.about(MUST_PASS.key)).remedy(Words::of("wider-support"));
    Ok(())
}

/// What is asked of a bush that may come out beyond its housing: how far it does hangs on the length of both.
const BEYOND: [&str; 2] = ["support-clears", "room-beneath"];

impl Asked<'_> {
    /// Whether air and oil come out at the far end: in a bore that is shut they stand under the bush.
    pub(in crate::operations) fn air_comes_out(&self, answer: &mut Answer) {
        const ID: &str = "air-comes-out";
        let Some(through) = &self.housing.through else {
            answer.assume_words(Words::of("goes-right-through"));
            return answer.does_not_apply(&[ID]);
        };
        let verdict = if through.value { Verdict::Proven } else { Verdict::Doubtful };
        answer.check(Check::of_kind(ID, verdict).at(through.place)).remedy(Words::of("a-way-out"));
    }

    /// Whether more of the bush is guided than stands out: pushed far above a short seat it tilts and springs out.
    pub(in crate::operations) fn goes_in_straight(&self, bench: &Bench, answer: &mut Answer) {
        const ID: &str = "goes-in-straight";
        let out = Worked::exact(Mm::new(self.length_outside().max(0.0)), Origin::Typed(self.bush.length.place));
        let housing = self.housing.length.as_ref().map_or(self.bush.length.value, |at| at.value);
        let seat = Worked::assumed(
            Mm::new((self.bush.length.value.number() - out.number()).min(housing.number())),
            "what sits in the housing",
        );
        let check = Check::judge(ID, &out, Keep::AtMost, &seat, bench.guard()).at(self.bush.length.place);
        answer.check(check.not_worse_than(Verdict::Doubtful)).remedy(Words::of("guide-it"));
    }

    /// Two metals of one kind that gall tear each other and stick half way, where the press alone pushes.
    pub(in crate::operations) fn pair_goes_in(&self, metals: &Metals, answer: &mut Answer) {
        const ID: &str = "pair-goes-in";
        if !self.cold {
            return answer.does_not_apply(&[ID]);
        }
        let galls = metals.bush.galls_with(&metals.housing);
        let verdict = if galls { Verdict::Doubtful } else { Verdict::Proven };
        let check =
            Check::of_kind(ID, verdict).with("bush", metals.bush.typed()).with("housing", metals.housing.typed());
        answer.check(check.at(self.bush.material.place)).remedy(Words::of("drop-it-in"));
    }

    /// How far the bush comes out beyond the far end of its housing once it is home, mm; a housing of which nobody says how long it
    /// is has the length of the bush.
    fn beyond(&self) -> f64 {
        let bush = self.bush.length.value.number();
        let housing = self.housing.length.as_ref().map_or(bush, |at| at.value.number());
        (bush - self.length_outside() + self.sunk() - housing).max(0.0)
    }

    /// The same as far as it meets anything: two lengths of which one was typed in inches come so near, and no nearer.
    fn beyond_that_counts(&self) -> Result<f64, Refusal> {
        let (beyond, least) = (self.beyond(), row("bush-beyond-least")?.value);
        Ok(if beyond > least { beyond } else { 0.0 })
    }

    /// Does what comes through the far end pass the support, what is free in the bore of the bush in any case (the pilot of the
    /// mandrel is), and is there room beneath?
    pub(in crate::operations) fn comes_through(
        &self,
        bench: &Bench,
        support: Option<&Support>,
        (outside, bore): (&Worked<Mm>, &Worked<Mm>),
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        if self.is_shut() {
            return self.home_in_a_shut_hole(bench, answer);
        }
        if self.housing.length.is_none() && support.is_some() {
            answer.not_checked(&BEYOND, &["housing.length"]);
            return Ok(());
        }
        let beyond = self.beyond_that_counts()?;
        support_clears(bench, support, if beyond > 0.0 { outside } else { bore }.clone(), answer)?;
        if support.is_none() {
            answer.not_checked(&["room-beneath"], &["support"]);
            return Ok(());
        }
        self.room_beneath(bench, support, beyond, answer)
    }

    /// The same where nothing is asked of the support but that a bush which comes out beyond its housing finds the way clear.
    pub(in crate::operations) fn comes_out_clear(
        &self,
        bench: &Bench,
        support: Option<&Support>,
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        if self.is_shut() {
            return self.home_in_a_shut_hole(bench, answer);
        }
        if self.housing.length.is_none() {
            answer.not_checked(&BEYOND, &["housing.length"]);
            return Ok(());
        }
        let beyond = self.beyond_that_counts()?;
        match answer.value(BUSH_OUTSIDE.key).filter(|_| beyond > 0.0) {
            Some(outside) => {
                let most = Mm::new(outside.number + outside.plus_minus);
                let most = Worked::exact(most, Origin::Assumed("outside of the bush, at the most".into()));
                support_clears(bench, support, most, answer)?;
            }
            None => answer.does_not_apply(&["support-clears"]),
        }
        self.room_beneath(bench, support, beyond, answer)
    }

    /// Whether the far end of its bore is shut.
    fn is_shut(&self) -> bool {
        self.housing.through.as_ref().is_some_and(|at| !at.value)
    }

    /// Nothing comes out of a hole that is shut: a bush that is longer than it meets its floor before it is home.
    fn home_in_a_shut_hole(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        let [clears, room_beneath] = BEYOND;
        answer.does_not_apply(&[clears]);
        if self.housing.length.is_none() {
            answer.not_checked(&[room_beneath], &["housing.length"]);
            return Ok(());
        }
        let room = Worked::assumed(Mm::new(0.0), "a floor");
        let beyond = Worked::exact(Mm::new(self.beyond()), Origin::Typed(self.bush.length.place));
        let check = Check::judge(room_beneath, &room, Keep::AtLeast, &beyond, bench.guard()).at(self.bush.length.place);
        answer.check(check).remedy(Words::of("shorter-than-its-hole"));
        Ok(())
    }

    /// Is there room beneath for what comes out beyond the far end?
    fn room_beneath(
        &self,
        bench: &Bench,
        support: Option<&Support>,
        beyond: f64,
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        const ID: &str = "room-beneath";
        if beyond <= 0.0 {
            answer.does_not_apply(&[ID]);
            return Ok(());
        }
        let Some(support) = support else {
            answer.not_checked(&[ID], &["support"]);
            return Ok(());
        };
        let Some(height) = &support.height else {
            answer.not_checked(&[ID], &["support.height"]);
            return Ok(());
        };
        let beyond = Worked::exact(Mm::new(beyond), Origin::Typed(self.bush.length.place));
        let check = Check::judge(ID, &height.into(), Keep::AtLeast, &beyond, bench.guard()).at(height.place);
        answer.check(check).remedy(Words::of("higher-blocks"));
        Ok(())
    }
}
