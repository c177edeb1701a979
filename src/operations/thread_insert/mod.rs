//! `thread-insert`: a stripped thread drilled, tapped and given a wire thread insert. Will it break through?
//!
//! Every standard length is worked as a alternative ([`length`]): how deep, how much metal is left, what it holds. The best is
//! taken, each other keeps its reason.

mod case;
mod checks;
mod choose;
mod clamping;
mod drill;
mod held;
mod hole;
mod keys;
mod ladder;
mod left;
mod length;
mod names;
mod problems;
mod sketch;
mod speeds;
mod steps;
mod stop;
mod strength;
mod through;
mod tools;
mod zero;

use super::hole_making::HELD_VALUES;
use super::hole_making::drilled::names::{THRUST, TORQUE, TORQUE_THERE};
use super::{Answer, Bench, Declared, Operation, SetUpWish, Stage};
use crate::handbook::Material;
use crate::job::PartFacts;
use crate::proof::{At, CheckRule, Refusal};
use crate::reading::Problem;
pub(super) use keys::ThreadInsert;

impl Operation for ThreadInsert {
    fn values(&self) -> &'static [&'static [Declared]] {
        const DRILL: &[Declared] = &[TORQUE.declare(), THRUST.declare(), TORQUE_THERE.declare()];
        &[names::VALUES, DRILL, HELD_VALUES]
    }

    fn checks(&self) -> &'static [CheckRule] {
        checks::CHECKS
    }

    fn stages(&self) -> &'static [Stage] {
        steps::STAGES
    }

    fn gripped(&self) -> Option<&crate::operations::Hold> {
        self.hold.as_ref()
    }

    fn set_up(&self) -> Option<&SetUpWish> {
        self.set_up.as_ref()
    }

    fn metals<'a>(&'a mut self, part: &'a mut PartFacts) -> Vec<&'a mut At<Material>> {
        self.material.as_mut().or(part.material.as_mut()).into_iter().collect()
    }

    fn fluids(&self, _: &str) -> &'static [(usize, &'static str)] {
        &[(0, "any"), (0, "tap")]
    }

    fn problems(&self, part: &PartFacts) -> Vec<Problem> {
        self.all_problems(part)
    }

    fn work(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        let case = self.case(bench, answer)?;
        let lengths = self.lengths()?;
        for length in &lengths {
            answer.alternative(bench, length.text(), |bench, row| case.with_length(bench, *length, row));
        }
        self.choose(bench, &lengths, answer);
        case.as_left(bench, answer)?;
        answer.picture = Some(case.ladder(bench, &lengths));
        case.checks(bench, answer)?;
        case.set_ups(bench, answer)
    }
}
