//! What is too thin to keep its warmth, or its cold, on the way to the press: nobody knows what is left of it there.

use crate::handbook::constants::constant;
use crate::operations::Answer;
use crate::proof::{Check, Refusal, Verdict, Words};
use crate::quantity::Mm;

/// The wall of a housing, or of a bush: its outside and its bore, mm.
pub(in crate::operations) type Wall = (f64, f64);

/// Whether a wall is thinner than that of a row.
fn is_thin((outside, bore): Wall, least: &'static str) -> Result<bool, Refusal> {
    Ok((outside - bore) / 2.0 < constant::<Mm>(least)?.number())
}

/// What is said of a warm housing that is too thin, and of a cold bush; nothing of what is not warm, not cold, or thick enough.
pub(in crate::operations) fn too_thin(housing: Option<Wall>, bush: Option<Wall>) -> Result<Vec<Words>, Refusal> {
    let mut all = Vec::new();
    if let Some(wall) = housing
        && is_thin(wall, "carried-wall-least")?
    {
        all.push(Words::of("cools-on-the-way"));
    }
    if let Some(wall) = bush
        && is_thin(wall, "carried-bush-wall-least")?
    {
        all.push(Words::of("warms-on-the-way"));
    }
    Ok(all)
}

/// Lists a check of the room at the press: with anything too thin it is doubtful at best, with what is said of that.
pub(in crate::operations) fn with_thin(answer: &mut Answer, check: Check, thin: Vec<Words>) -> &mut Check {
    let check = if thin.is_empty() { check } else { check.not_better_than(Verdict::Doubtful) };
    let check = answer.check(check);
    for words in thin {
        check.remedy(words);
    }
    check
}
