//! What the part stands on at the press: under the boss itself, on no thin flange.

use crate::handbook::constants::constant;
use crate::operations::{Answer, Bench};
use crate::proof::{At, Check, Keep, Mark, Refusal, Source, Verdict, Words, Worked};
use crate::quantity::Mm;
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
    /// What of the part stands on it.
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
