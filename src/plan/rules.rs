//! Rules of order between the operations of a part: read from the table, not written in code.

use super::order::Task;
use crate::handbook::order_rules::{OrderRule, between};
use crate::operations::Answer;
use crate::proof::{Check, Verdict};

/// What the rules may know of an operation: its part, its feature, and the kinds of work in it.
struct Stands {
    part: String,
    feature: Option<String>,
    kinds: Vec<&'static str>,
    address: String,
}

impl Stands {
    fn of(task: &Task, answer: &Answer) -> Self {
        let steps = answer.set_ups.iter().flat_map(|set_up| set_up.steps.iter().map(|step| step.id));
        let feature = task.request.set_up().and_then(|wish| wish.feature.as_ref()).map(|at| at.value.clone());
        Self {
            part: task.part.name.clone(),
            feature,
            kinds: [task.request.word()].into_iter().chain(steps).collect(),
            address: task.address.to_string(),
        }
    }

    /// Whether work of a kind stands in it: the kind itself (`ream`) or one of its ways (`ream-in-steps`).
    fn has(&self, kind: &str) -> bool {
        self.kinds.iter().any(|id| id.strip_prefix(kind).is_some_and(|rest| rest.is_empty() || rest.starts_with('-')))
    }

    /// Whether a rule that is held on one feature, or on the whole part, can bind the two.
    fn shares(&self, other: &Self, rule: &OrderRule) -> bool {
        let one_feature = match (&self.feature, &other.feature) {
            (Some(own), Some(others)) => own == others,
            // Two whole operations bind each other on the part when nobody names a feature; two steps do not.
            (None, None) => {
                self.kinds.first() == Some(&rule.before.as_str()) || other.kinds.first() == Some(&rule.after.as_str())
            }
            _ => false,
        };
        self.part == other.part && (rule.scope != "feature" || one_feature)
    }
}

/// Holds the order in which the operations of each part stand in the file against the rules of the trade.
pub(super) fn check(worked: &mut [(&Task, Answer)]) {
    let stands: Vec<Stands> = worked.iter().map(|(task, answer)| Stands::of(task, answer)).collect();
    for (at, (task, answer)) in worked.iter_mut().enumerate() {
        let Some(later) = stands.get(at) else { continue };
        for earlier in stands.iter().take(at) {
            for (rule, verdict) in between() {
                if later.has(&rule.before) && earlier.has(&rule.after) && later.shares(earlier, rule) {
                    answer.check(out_of_order(rule, verdict, earlier, later).at(task.place));
                }
            }
        }
    }
}

fn out_of_order(rule: &OrderRule, verdict: Verdict, earlier: &Stands, later: &Stands) -> Check {
    Check::of_kind("order-of-operations", verdict)
        .with("first", rule.before.replace('-', " "))
        .with("then", rule.after.replace('-', " "))
        .with("earlier", earlier.address.clone())
        .with("later", later.address.clone())
        .with("reason", rule.reason.clone())
}
