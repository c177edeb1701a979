//! What stands behind the contact: the matching step, the plate stack, the springs.

use super::Skim;
use super::names::{
    CLAMP_CHANGE, MOST_CHANGE, PACK_AFTER, PACK_CHANGE, SEAT_SHIFT, SPRING_CHANGE, SPRING_RATE, STEP_AFTER, STEP_CUT,
    STEP_FOLLOWS,
};
use crate::handbook::StateKind;
use crate::handbook::constants::constant;
use crate::handbook::cutting::stock;
use crate::job::{PartFacts, Reading};
use crate::operations::facing::{self, DepthDial, Extra, Metal, Shoulder};
use crate::operations::kit::{above_zero, blank, gone};
use crate::operations::{Answer, Bench, Name};
use crate::proof::{At, Cause, Check, Fact, Keep, Mark, Origin, Refusal, Source, Verdict, Words, Worked};
use crate::quantity::{Decimals, ForceShift, Mm, Newton, Quantity, Ratio, Shift, SpringRate, Unit, Wanted, figure};
use crate::reading::Problem;
use crate::shop::Gauge;
use schemars::JsonSchema;
use serde::{Deserialize, Deserializer, de};

/// What is cut at the matching step.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum StepCut {
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
pub(super) struct MatchingStep {
    /// Height of the contact over the shoulder as found (measured).
    pub(super) present: At<Reading>,
    /// What is cut there.
    cut: At<StepCut>,
}

/// The plate stack.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct Pack {
    /// Height as found (measured).
    pub(super) height: At<Reading>,
    /// Least height (wanted).
    least: At<Wanted<Mm>>,
    /// How many plates; left out, nothing changes but the words.
    plates: Option<At<u32>>,
    /// Whether this part is one of them; left out, it is judged both ways.
    is_a_plate: Option<At<bool>>,
}

/// The springs that clamp.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct Springs {
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
        above_zero("`present` of the step", self.step.as_ref().map(|step| &step.present), all);
        if let Some(pack) = &self.pack {
            above_zero("`height` of the pack", &pack.height, all);
            if let Some(plates) = pack.plates.as_ref().filter(|plates| plates.value == 0) {
                all.push(Problem::new(plates.place, "a pack has at least one plate"));
            }
        }
        if let Some(springs) = &self.springs {
            if !(1..=200).contains(&springs.count.value) {
                all.push(Problem::new(springs.count.place, "`count` of the springs lies between 1 and 200"));
            }
            above_zero("`rate` of the springs", &springs.rate, all);
        }
        if let Some(pair) = self.pair.as_ref().filter(|pair| pair.value == part.name) {
            all.push(Problem::new(pair.place, "a part is not its own pair: name the other one"));
        }
    }
}

impl Skim {
    /// What the other of a pair must know of this one: what becomes of its step, and its springs.
    pub(super) fn hand_over(&self, answer: &mut Answer) -> Result<(), Refusal> {
        let cut = self.step.as_ref().map(|step| (step.cut.value, step.cut.place));
        let follows = matches!(cut, Some((StepCut::Same, _)));
        let says = vec!["what is cut at the step".into()];
        let source = Source::fixed("what is cut at the step", Mark::Derived);
        let number = if follows { 1.0 } else { 0.0 };
        answer.record(&STEP_FOLLOWS, Worked::method(Ratio::new(number), says, source));
        let own = match cut {
            Some((StepCut::Amount(amount), place)) => Worked::exact(amount, Origin::Typed(place)),
            _ => none("no amount is named"),
        };
        answer.record(&STEP_CUT, own);
        if let Some(springs) = &self.springs {
            let count = Worked::exact(Ratio::new(f64::from(springs.count.value)), Origin::Typed(springs.count.place));
            answer.record(&SPRING_RATE, stock::springs_together(&count, &(&springs.rate).into())?);
            if let Some(most) = &springs.most_change {
                let most = Worked::exact(ForceShift::new(most.value.high.number()), Origin::Typed(most.place));
                answer.record(&MOST_CHANGE, most);
            }
        }
        Ok(())
    }

    /// Whether the log says how the other of the pair was left.
    fn other_is_cut(&self, bench: &Bench) -> bool {
        let address = self.pair.as_ref().map(|pair| Self::address_of(&pair.value).value(facing::LENGTH_AFTER.key));
        address.and_then(|address| bench.look_up(&address).map(|entry| entry.as_left)).unwrap_or(false)
    }

    /// What the other of the pair lost, where the log says how it was left.
    pub(super) fn other_lost(&self, bench: &Bench) -> Option<Worked<Mm>> {
        let found = self.of_pair(bench, &facing::LENGTH).filter(|_| self.other_is_cut(bench))?;
        Some(gone(1.0, (&found, &self.of_pair(bench, &facing::LENGTH_AFTER)?)))
    }

    /// A value that the other of the pair hands over, where it does.
    fn of_pair<Q: Quantity>(&self, bench: &Bench, name: &Name<Q>) -> Option<Worked<Q>> {
        let pair = self.pair.as_ref()?;
        let address = Self::address_of(&pair.value).value(name.key);
        bench.handed(&address).ok()
    }
}

/// Nothing, with the reason.
fn none(why: &str) -> Worked<Mm> {
    Worked::method(Mm::new(0.0), vec![why.into()], Source::fixed("what is cut at the step", Mark::Derived))
}

/// Step, seat, pack and springs; and what they add to the set-up.
pub(super) fn work(
    skim: &Skim,
    bench: &Bench,
    (dial, metal): (&DepthDial, &Metal),
    answer: &mut Answer,
) -> Result<Extra, Refusal> {
    let mut extra = Extra {
        id: "skim-the-contact",
        state: StateKind::Skimmed,
        after: Vec::new(),
        blanks: Vec::new(),
        shoulder: None,
    };
    let at_step = cut_at_step(skim, metal, answer);
    let shift = answer.record(&SEAT_SHIFT, stock::seat_shift(&metal.gone, &at_step)?);
    match &skim.step {
        Some(step) => step_left(bench, step, (dial, metal), &at_step, &mut extra, answer)?,
        None => answer.does_not_apply(&["step-left"]),
    }
    springs(skim, bench, metal, &shift, answer)?;
    pack(skim, bench, metal, answer)?;
    Ok(extra)
}

/// The height of the step that is left, and what is left of the part under it.
fn step_left(
    bench: &Bench,
    step: &MatchingStep,
    (dial, metal): (&DepthDial, &Metal),
    at_step: &Worked<Mm>,
    extra: &mut Extra,
    answer: &mut Answer,
) -> Result<(), Refusal> {
    let present = answer.read(bench, "step.present", Gauge::Depth, &step.present)?;
    let after = answer.record(&STEP_AFTER, stock::step_after(&present, &metal.gone, at_step)?);
    let nothing = none("no step at all").becomes::<Shift>();
    let check = Check::judge("step-left", &after, Keep::AtLeast, &nothing, bench.guard()).about(STEP_AFTER.key);
    // Less than the arithmetic's noise is nothing.
    let gone = after.number() <= 1e-9;
    let check = check.at(step.present.place);
    answer.check(if gone { check.judged_as(Verdict::Fails) } else { check });
    // The shoulder must not be cut through the part, and a step that loses far more than the contact is looked at.
    let most = metal.left.becomes::<Shift>();
    let under = Check::judge("step-left", &after, Keep::AtMost, &most, bench.guard()).at(step.present.place);
    let through = after.number() >= most.number() - 1e-9;
    if through || !under.is_proven() {
        answer.check(if through { under.judged_as(Verdict::Fails) } else { under });
    }
    let far: Worked<Ratio> = constant("step-cut-far")?;
    if at_step.number() > far.number() * metal.removed.number() {
        let check = Check::of_kind("step-left", Verdict::Doubtful).about(STEP_AFTER.key).at(step.cut.place);
        answer.check(check).remedy(Words::of("step-cut-far"));
    }
    extra.shoulder = (!gone).then(|| Shoulder { below: after.number() });
    if at_step.number() > 0.0 {
        let words = |id| Words::of(id).with("at_step", Fact::mm(at_step.number()));
        // As the dial counts it, whatever unit its divisions are.
        let divisions = |mm: f64| figure((mm / dial.own * 10.0).round() / 10.0);
        extra.after.push(match (dial.stretched()?, dial.slide) {
            (Some(times), _) => {
                let on_slide = times * at_step.number();
                words("cut-step-over").with("on_slide", Fact::mm(on_slide)).with("divisions", divisions(on_slide))
            }
            (None, Some(_)) => words("cut-step-counted").with("divisions", divisions(at_step.number())),
            (None, None) => words("cut-step"),
        });
    }
    let target = Some(Fact::doubted(after.number(), after.plus_minus(), Unit::Mm));
    extra.blanks.push(blank("step-left", Some(Fact::mm(present.number())), target));
    Ok(())
}

/// What the step loses, with the same doubt of the dial.
fn cut_at_step(skim: &Skim, metal: &Metal, answer: &mut Answer) -> Worked<Mm> {
    match skim.step.as_ref().map(|step| (step.cut.value, step.cut.place)) {
        Some((StepCut::Same, _)) => same(metal, "dial at the step"),
        Some((StepCut::Amount(amount), place)) => Worked::exact(amount, Origin::Typed(place))
            .with_doubt(Cause::Set("dial at the step"), metal.removed.plus_minus()),
        Some((StepCut::None, _)) => none("the step is not cut"),
        None => {
            answer.assume_words(Words::of("no-step"));
            none("no step is named")
        }
    }
}

/// As much as the contact, by another setting of the dial: its doubt is one of its own.
fn same(metal: &Metal, dial: &'static str) -> Worked<Mm> {
    metal
        .removed
        .nominal("another setting of the dial has a doubt of its own")
        .with_doubt(Cause::Set(dial), metal.removed.plus_minus())
}

/// How far the seat of the other of the pair shifts: both lose the same.
fn shift_of_pair(skim: &Skim, bench: &Bench, metal: &Metal) -> Result<Option<Worked<Shift>>, Refusal> {
    let Some(follows) = skim.of_pair(bench, &STEP_FOLLOWS) else { return Ok(None) };
    // What the log says was taken off the other counts as it is.
    if let Some(shifted) = skim.of_pair(bench, &SEAT_SHIFT).filter(|_| skim.other_is_cut(bench)) {
        return Ok(Some(shifted));
    }
    let contact = same(metal, "dial at the other half");
    let step = match follows.number() > 0.5 {
        true => same(metal, "dial at the other step"),
        false => {
            let own = skim.of_pair(bench, &STEP_CUT).unwrap_or_else(|| none("no amount is named"));
            let dial = if own.number() > 0.0 { metal.removed.plus_minus() } else { 0.0 };
            own.with_doubt(Cause::Set("dial at the other step"), dial)
        }
    };
    stock::seat_shift(&contact, &step).map(Some)
}

/// The springs stand longer by the shift of both seats; how much of their clamp may go only the person can say.
fn springs(
    skim: &Skim,
    bench: &Bench,
    metal: &Metal,
    shift: &Worked<Shift>,
    answer: &mut Answer,
) -> Result<(), Refusal> {
    let longer = match shift_of_pair(skim, bench, metal)? {
        Some(others) => stock::both_seats(shift, &others)?,
        None => shift.clone(),
    };
    let longer = answer.record(&SPRING_CHANGE, longer);
    skim.hand_over(answer)?;
    let rate = match &skim.springs {
        Some(_) => answer
            .value(SPRING_RATE.key)
            .map(|value| Worked::exact(SpringRate::new(value.number), value.origin.clone())),
        None => skim.of_pair(bench, &SPRING_RATE),
    };
    let Some(rate) = rate else {
        answer.does_not_apply(&["clamp-lost"]);
        return Ok(());
    };
    let change = answer.record(&CLAMP_CHANGE, stock::clamp_change(&rate, &longer)?);
    let typed = skim.springs.as_ref().and_then(|springs| springs.most_change.as_ref());
    let most = match typed {
        Some(most) => Some(Worked::exact(ForceShift::new(most.value.high.number()), Origin::Typed(most.place))),
        None => skim.of_pair(bench, &MOST_CHANGE),
    };
    let changed = Fact::figure(change.number(), Unit::N).to(Decimals::Exactly(1));
    let check = match most {
        Some(most) => {
            let least = most.scaled(-1.0, "as much the other way");
            let of = |keep, limit: &Worked<ForceShift>| Check::judge("clamp-lost", &change, keep, limit, bench.guard());
            let margin = |check: &Check| check.judged.map_or(f64::INFINITY, |judged| judged.margin);
            let (lost, gained) = (of(Keep::AtLeast, &least), of(Keep::AtMost, &most));
            if margin(&lost) < margin(&gained) { lost.about(CLAMP_CHANGE.key) } else { gained.about(CLAMP_CHANGE.key) }
        }
        // Nobody said how much may go: any change is doubtful.
        None if change.number().abs() > 1e-9 => Check::of_kind("clamp-lost", Verdict::Doubtful).about(CLAMP_CHANGE.key),
        None => Check::of_kind("clamp-lost", Verdict::Proven).about(CLAMP_CHANGE.key),
    };
    let proven = check.is_proven();
    let check = answer.check(check.with("changed", changed));
    if !proven {
        check.remedy(Words::of("cut-step-same"));
    }
    Ok(())
}

/// The plate stack alone: it changes only when this part is a plate of it.
fn pack(skim: &Skim, bench: &Bench, metal: &Metal, answer: &mut Answer) -> Result<(), Refusal> {
    let is_a_plate = skim.pack.as_ref().and_then(|pack| pack.is_a_plate.as_ref()).is_some_and(|plate| plate.value);
    let change = match is_a_plate {
        true => stock::stack_change(&metal.gone)?,
        false => Worked::method(
            Shift::new(0.0),
            vec!["this part is no plate of the stack: 0".into()],
            Source::fixed("geometry", Mark::Derived),
        ),
    };
    let change = answer.record(&PACK_CHANGE, change);
    let Some(pack) = &skim.pack else {
        answer.does_not_apply(&["pack"]);
        return Ok(());
    };
    let plates = pack.plates.as_ref().map_or_else(|| "its".into(), |plates| plates.value.to_string());
    answer.fact("plates", plates);
    let height = answer.read(bench, "pack.height", Gauge::Outside, &pack.height)?;
    let after = answer.record(&PACK_AFTER, stock::stack_after(&height, &change)?);
    let least = Worked::exact(pack.least.value.high, Origin::Typed(pack.least.place));
    if pack.is_a_plate.is_some() {
        let check = Check::judge("pack", &after, Keep::AtLeast, &least, bench.guard());
        answer.check(check.about(PACK_AFTER.key).at(pack.least.place));
        return Ok(());
    }
    // Nobody said whether it is a plate: proven where the stack is high enough even then, doubtful where only as no plate.
    answer.assume_words(Words::of("not-a-plate"));
    let as_a_plate = stock::stack_after(&height, &stock::stack_change(&metal.gone)?)?;
    let check = Check::judge_two("pack", (&as_a_plate, &least), Keep::AtLeast, (&after, &least), bench.guard());
    answer.check(check.about(PACK_AFTER.key).at(pack.least.place)).remedy(Words::of("say-whether-a-plate"));
    Ok(())
}
