//! Spindle steps: what several operations pick in the same way.

use super::{Answer, Bench};
use crate::handbook::constants::{self, constant};
use crate::handbook::cutting::speeds::{self, Work};
use crate::handbook::{Material, ToolMaterial};
use crate::proof::{Check, Keep, Origin, Refusal, Verdict, Worked};
use crate::quantity::{MPerMin, Mm, Quantity, Ratio, RevPerMin, figure};
use crate::shop::Cutting;

/// The shop's factor on handbook speeds; without a habit, 1.
pub(super) fn speed_habit(bench: &Bench) -> Worked<Ratio> {
    let typed = bench.shop.and_then(|shop| shop.habits.speed_factor.as_ref());
    typed.map_or_else(|| Worked::exact(Ratio::new(1.0), Origin::Assumed("no habit named".into())), Into::into)
}

/// What a cut begins with: the book's speed, the top of the row that it was taken from, and the factor of the cut.
pub(super) struct Begins {
    start: Worked<MPerMin>,
    top: Worked<MPerMin>,
    factor: Worked<Ratio>,
}

impl Begins {
    /// Of the row of a metal for a work and a tool.
    ///
    /// # Errors
    /// Where the book has no such row.
    pub(super) fn of(
        metal: &Material,
        (work, tool): (Work, ToolMaterial),
        factor: Worked<Ratio>,
    ) -> Result<Self, Refusal> {
        let (start, top) = (speeds::start_speed(metal, work, tool)?, speeds::start_top(metal, work, tool)?);
        Ok(Self { start, top, factor })
    }

    /// The same with no factor at all.
    ///
    /// # Errors
    /// As [`Self::of`].
    pub(super) fn plainly(metal: &Material, of: (Work, ToolMaterial)) -> Result<Self, Refusal> {
        Self::of(metal, of, Worked::exact(Ratio::new(1.0), Origin::Assumed("no factor".into())))
    }

    /// What is wanted at such a diameter, by the shop's habit.
    ///
    /// # Errors
    /// Where a formula refuses.
    pub(super) fn wish(&self, bench: &Bench, across: &Worked<Mm>) -> Result<Worked<RevPerMin>, Refusal> {
        let wanted = speeds::speed_by_factors(&self.start, &self.factor, &speed_habit(bench))?;
        speeds::spindle_speed(&wanted, across)
    }

    /// The step for it: the highest not over the wish, or a little over it inside the book's row. One that is slow enough is proven
    /// so; where none is, the lowest. Where the motor does not carry the cut at it, the highest under it at which it does.
    ///
    /// # Errors
    /// As [`Self::wish`].
    pub(super) fn step(
        &self,
        (bench, machine): (&Bench, &Cutting),
        across: &Worked<Mm>,
        check: &'static str,
        carries: impl Fn(&Worked<RevPerMin>) -> Result<bool, Refusal>,
        answer: &mut Answer,
    ) -> Result<Worked<RevPerMin>, Refusal> {
        let wish = self.wish(bench, across)?;
        let no_habit = Worked::assumed(Ratio::new(1.0), "the book's row, without the shop's habit");
        let top = speeds::spindle_speed(&speeds::speed_by_factors(&self.top, &self.factor, &no_habit)?, across)?;
        let most = a_little_over(&wish, &top, &constant("spindle-step-over-wish")?);
        let step = down_to_the_motor(machine, step_up_to(machine, &wish, most, check, answer), carries)?;
        if step.number() <= wish.number() {
            slow_enough(&step, &wish, check, bench, answer);
        } else if step.number() <= most {
            answer.check(Check::of_kind(check, Verdict::Proven).with("over", "0 %"));
        }
        Ok(step)
    }
}

/// Of a cut that nobody asks what the motor makes of it.
///
/// # Errors
/// None.
pub(super) fn any_motor(_: &Worked<RevPerMin>) -> Result<bool, Refusal> {
    Ok(true)
}

/// A step, or the highest under it at which the motor carries the cut; where it carries it at none, the step.
///
/// # Errors
/// Where a formula refuses.
fn down_to_the_motor(
    machine: &Cutting,
    step: Worked<RevPerMin>,
    carries: impl Fn(&Worked<RevPerMin>) -> Result<bool, Refusal>,
) -> Result<Worked<RevPerMin>, Refusal> {
    let under = machine.spindle.value.iter().rev().filter(|lower| lower.number() < step.number());
    let rule = || format!("{}: the highest step at which its motor carries the cut", machine.name.value);
    let lower = |lower| Worked::exact(lower, Origin::Picked { rule: rule(), wanted: step.origin().clone() });
    for one in std::iter::once(step.clone()).chain(under.map(lower)) {
        if carries(&one)? {
            return Ok(one);
        }
    }
    Ok(step)
}

/// A step that was found is slow enough; one that was not has said so.
pub(super) fn slow_enough(
    step: &Worked<RevPerMin>,
    wanted: &Worked<RevPerMin>,
    check: &'static str,
    bench: &Bench,
    answer: &mut Answer,
) {
    if step.number() <= wanted.number() {
        let wanted = wanted.nominal("a speed to start from");
        answer.judge(bench, check, step, Keep::AtMost, &wanted);
    }
}

/// The spindle step at or below what is wanted; where none is low enough the lowest, with a doubtful check that says by how
/// much the speed is over. Never the step above: reaming and tapping stand none.
pub(super) fn step_at_or_below(
    machine: &Cutting,
    wanted: &Worked<RevPerMin>,
    check: &'static str,
    answer: &mut Answer,
) -> Worked<RevPerMin> {
    step_up_to(machine, wanted, wanted.number(), check, answer)
}

/// The highest spindle step that is not over `most`: the wish itself, or what [`a_little_over`] leaves open.
pub(super) fn step_up_to(
    machine: &Cutting,
    wanted: &Worked<RevPerMin>,
    most: f64,
    check: &'static str,
    answer: &mut Answer,
) -> Worked<RevPerMin> {
    let wish = wanted.number();
    let picked = |step: RevPerMin, rule: &str| {
        let rule =
            format!("{}: {rule} {} rev/min is {} rev/min", machine.name.value, figure(wish), figure(step.number()));
        Worked::exact(step, Origin::Picked { rule, wanted: wanted.origin().clone() })
    };
    if let Some(step) = machine.spindle.value.at_or_below(most) {
        let over = step.number() > wish;
        let just_over_rule = "the step just over, inside the book's band,";
        let at_or_below_rule = "the step at or below";
        return picked(step, if over { just_over_rule } else { at_or_below_rule });
    }
    let lowest = machine.spindle.value.lowest().unwrap_or(RevPerMin::new(most));
    let step = picked(lowest, "no step is as low as");
    let over = format!("{:.0} %", (100.0 * (lowest.number() / wish - 1.0)).ceil());
    let judged = Check::judge(
        check,
        &step,
        Keep::AtMost,
        &wanted.nominal("the wish is rounded to a step"),
        constants::guard_factor(),
    );
    answer.check(judged.judged_as(Verdict::Doubtful).with("over", over));
    step
}

/// How far over the wish a step may lie: the share of the table, and not over the top of the book's row after the factors of
/// the cut (without the shop's habit). Caps are held apart.
pub(super) fn a_little_over(wanted: &Worked<RevPerMin>, top: &Worked<RevPerMin>, share: &Worked<Ratio>) -> f64 {
    let wish = wanted.number();
    (wish * share.number()).min(top.number()).max(wish)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn exact<Q: Quantity>(number: f64) -> Worked<Q> {
        Worked::assumed(Q::new(number), "given")
    }

    /// A row of one value leaves no room; a row with a top leaves up to a twentieth.
    #[test]
    fn a_step_may_lie_a_little_over_the_wish_inside_the_book_s_band() {
        let over = |top: f64| a_little_over(&exact(442.8), &exact(top), &exact(1.05));
        assert_eq!(over(442.8), 442.8);
        assert_eq!(over(450.0), 450.0);
        assert!((over(900.0) - 464.94).abs() < 1e-9);
        assert_eq!(over(100.0), 442.8);
    }
}
