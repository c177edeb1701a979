//! What stands behind the contact: the matching step, the plate stack, the springs.

use super::{CLAMP_CHANGE, PACK_AFTER, PACK_CHANGE, SEAT_SHIFT, SPRING_CHANGE, STEP_AFTER, Skim};
use crate::handbook::cutting::stock;
use crate::job::{PartFacts, Reading};
use crate::operations::facing::{Extra, Metal, Shoulder};
use crate::operations::{Answer, Bench, Blank};
use crate::proof::{Fact, At, Cause, Check, Keep, Mark, Origin, Refusal, Source, Verdict, Words, Worked};
use crate::quantity::{Decimals, Mm, Newton, Quantity, Ratio, Shift, SpringRate, Unit, Wanted};
use crate::reading::Problem;
use crate::shop::Gauge;
use schemars::JsonSchema;
use serde::{Deserialize, Deserializer, de};

/// What is cut at the matching step.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum StepCut {
    /// As much as the contact.
    Same,
    /// Nothing.
    None,
    /// So much.
    Amount(Mm),
}

impl std::str::FromStr for StepCut {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        match text.trim() {
            "same" => Ok(Self::Same),
            "none" => Ok(Self::None),
            amount => {
                let size: crate::quantity::Written<Mm> =
                    amount.parse().map_err(|says| format!("`same`, `none` or an amount is wanted; {says}"))?;
                match size.form {
                    crate::quantity::Form::Plain => Ok(Self::Amount(size.value)),
                    _ => Err("one plain figure is wanted here, without ± or limits".into()),
                }
            }
        }
    }
}

impl<'de> Deserialize<'de> for StepCut {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        String::deserialize(from)?.parse().map_err(de::Error::custom)
    }
}

impl JsonSchema for StepCut {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "StepCut".into()
    }
    fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
        schemars::json_schema!({ "type": "string", "description": "same, none, or an amount with its unit", "examples": ["same", "none", "0.20 mm"] })
    }
}

/// The shoulder that should lose the same as the contact.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct MatchingStep {
    /// Height of the contact over the shoulder as found (measured).
    pub(super) present: At<Reading>,
    /// What is cut there.
    cut: At<StepCut>,
}

/// The plate stack.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Pack {
    /// Height as found (measured).
    pub(super) height: At<Reading>,
    /// Least height (wanted).
    least: At<Wanted<Mm>>,
    /// How many plates.
    plates: Option<At<u32>>,
    /// Whether this part is one of them.
    is_a_plate: Option<At<bool>>,
}

/// The springs that clamp.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Springs {
    /// How many.
    count: At<u32>,
    /// Rate of each.
    rate: At<SpringRate>,
    /// The most that their clamp may change (wanted).
    most_change: Option<At<Wanted<Newton>>>,
}

impl Skim {
    /// Counts of nothing, springs without rate, a part that is its own pair.
    pub(super) fn stack_problems(&self, part: &PartFacts, all: &mut Vec<Problem>) {
        if let Some(step) = &self.step
            && step.present.value.typed().is_some_and(|height| height <= 0.0)
        {
            all.push(Problem::new(step.present.place, "`present` of the step must be above zero mm"));
        }
        if let Some(pack) = &self.pack {
            if pack.height.value.typed().is_some_and(|height| height <= 0.0) {
                all.push(Problem::new(pack.height.place, "`height` of the pack must be above zero mm"));
            }
            if let Some(plates) = pack.plates.as_ref().filter(|plates| plates.value == 0) {
                all.push(Problem::new(plates.place, "a pack has at least one plate"));
            }
        }
        if let Some(springs) = &self.springs {
            if !(1..=200).contains(&springs.count.value) {
                all.push(Problem::new(springs.count.place, "`count` of the springs lies between 1 and 200"));
            }
            if springs.rate.value.number() <= 0.0 {
                all.push(Problem::new(springs.rate.place, "`rate` of the springs must be above zero N/mm"));
            }
        }
        if let Some(pair) = self.pair.as_ref().filter(|pair| pair.value == part.name) {
            all.push(Problem::new(pair.place, "a part is not its own pair: name the other one"));
        }
    }
}

/// Step, seat, pack and springs; and what they add to the set-up.
pub(super) fn work(
    skim: &Skim,
    bench: &Bench,
    metal: &Metal,
    answer: &mut Answer,
) -> Result<Extra, Refusal> {
    let mut extra =
        Extra { id: "skim-the-contact", state: "skimmed", after: Vec::new(), blanks: Vec::new(), shoulder: None };
    let at_step = cut_at_step(skim, metal, answer);
    let shift = answer.record(&SEAT_SHIFT, stock::seat_shift(&metal.removed, &at_step)?);
    if let Some(step) = &skim.step {
        let present = answer.read(bench, "step.present", Gauge::Depth, &step.present)?;
        let after = answer.record(&STEP_AFTER, stock::step_after(&present, &metal.removed, &at_step)?);
        if after.number() <= 0.0 {
            answer.check(Check::of_kind("step-left", Verdict::Fails).at(step.present.place));
        }
        // What is left of the part under the shoulder: the thickness that stays less the step that is then there.
        let under = metal.length_after.number() - after.number();
        if under <= 0.0 || after.number() >= metal.length_after.number() {
            answer.check(Check::of_kind("step-left", Verdict::Fails).at(step.present.place));
        } else if at_step.number() > 2.0 * metal.removed.number() {
            answer.check(Check::of_kind("step-cut-far", Verdict::Doubtful).at(step.cut.place));
        }
        extra.shoulder = (after.number() > 0.0).then(|| Shoulder { below: after.number() });
        if at_step.number() > 0.0 {
            extra.after.push(Words::of("cut-step").with("at_step", Fact::mm(at_step.number())));
        }
        let target = Some(Fact::mm(after.number()));
        extra.blanks.push(Blank { words: Words::of("step-left"), as_found: Some(Fact::mm(present.number())), target });
    }
    springs(skim, bench, &shift, answer)?;
    pack(skim, bench, metal, answer)?;
    Ok(extra)
}

/// What the step loses, with the same doubt of the dial.
fn cut_at_step(skim: &Skim, metal: &Metal, answer: &mut Answer) -> Worked<Mm> {
    let none = |why: &str| {
        Worked::method(Mm::new(0.0), vec![why.into()], Source::fixed("what is cut at the step", Mark::Derived))
    };
    match skim.step.as_ref().map(|step| (step.cut.value, step.cut.place)) {
        Some((StepCut::Same, _)) => {
            // Another setting of the same dial: its doubt is one of its own.
            let doubt = metal.removed.plus_minus();
            crate::operations::facing::undoubted(&metal.removed).with_doubt(Cause::Named("dial at the step"), doubt)
        }
        Some((StepCut::Amount(amount), place)) => Worked::exact(amount, Origin::Typed(place)),
        Some((StepCut::None, _)) => none("the step is not cut"),
        None => {
            answer.assume_words(Words::of("no-step"));
            none("no step is named")
        }
    }
}

/// The springs stand longer by the shift of the seat; a clamp that is lost is doubtful, for nobody said how much may be.
fn springs(skim: &Skim, bench: &Bench, shift: &Worked<Shift>, answer: &mut Answer) -> Result<(), Refusal> {
    let longer = answer.record(&SPRING_CHANGE, shift.clone());
    let Some(springs) = &skim.springs else { return Ok(()) };
    let count = Worked::exact(Ratio::new(f64::from(springs.count.value)), Origin::Typed(springs.count.place));
    let change = answer.record(&CLAMP_CHANGE, stock::clamp_change(&count, &(&springs.rate).into(), &longer)?);
    if change.number() < -1e-9 {
        let lost = Fact::figure(-change.number(), Unit::N).to(Decimals::Exactly(1));
        let check = answer.check(Check::of_kind("clamp-lost", Verdict::Doubtful).with("lost", lost));
        check.remedy(Words::of("cut-step-same"));
    }
    Ok(())
}

/// The plate stack alone: it changes only when this part is a plate of it.
fn pack(skim: &Skim, bench: &Bench, metal: &Metal, answer: &mut Answer) -> Result<(), Refusal> {
    let is_a_plate = skim.pack.as_ref().and_then(|pack| pack.is_a_plate.as_ref()).is_some_and(|plate| plate.value);
    let change = match is_a_plate {
        true => stock::stack_change(&metal.removed)?,
        false => Worked::method(
            Shift::new(0.0),
            vec!["this part is no plate of the stack: 0".into()],
            Source::fixed("geometry", Mark::Derived),
        ),
    };
    let change = answer.record(&PACK_CHANGE, change);
    let Some(pack) = &skim.pack else { return Ok(()) };
    if pack.is_a_plate.is_none() {
        answer.assume_words(Words::of("not-a-plate"));
    }
    let plates = pack.plates.as_ref().map_or_else(|| "its".into(), |plates| plates.value.to_string());
    answer.fact("plates", plates);
    let height = answer.read(bench, "pack.height", Gauge::Outside, &pack.height)?;
    let after = answer.record(&PACK_AFTER, stock::stack_after(&height, &change)?);
    let least = Worked::exact(pack.least.value.high, Origin::Typed(pack.least.place));
    let check = Check::judge("pack", &after, Keep::AtLeast, &least, bench.guard());
    answer.check(check.about(PACK_AFTER.key).at(pack.least.place));
    Ok(())
}
