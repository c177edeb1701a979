//! Rules of order between the operations of a part: read from the table, not written in code.

use super::order::Task;
use crate::handbook::order_rules;
use crate::operations::Answer;
use crate::proof::{Finding, Verdict};

/// Holds the order in which the operations of each part stand in the file against the rules of the trade.
pub(super) fn check(worked: &mut [(&Task, Answer)]) {
    let stands: Vec<(String, &'static str)> =
        worked.iter().map(|(task, _)| (task.part.name.clone(), task.request.word())).collect();
    for (at, (task, answer)) in worked.iter_mut().enumerate() {
        let word = task.request.word();
        let later = stands.iter().skip(at + 1).filter(|(part, _)| *part == task.part.name);
        for (_, other) in later {
            for rule in order_rules::between(other, word) {
                let finding = Finding::plain("order-of-operations", Verdict::Doubtful)
                    .with("first", *other)
                    .with("then", word)
                    .with("reason", rule.reason.clone())
                    .at(task.place);
                answer.find(finding);
            }
        }
    }
}
