//! What is handed on of work that is not finished: by the log metal still stands there, so that the size as it was left is none to go on from.

use crate::operations::Answer;
use crate::plan::order::Task;
use crate::proof::{Check, Verdict, Words};

/// The check of a size that another operation takes metal from.
const STILL_THERE: &str = "size-still-there";

/// Holds each operation against those that it names, which come before it in the group.
pub(in crate::plan) fn check(worked: &mut [(usize, &Task, Answer)]) {
    let open: Vec<Option<Check>> = worked.iter().map(|(_, task, _)| handed_on(task, worked)).collect();
    for ((.., answer), check) in worked.iter_mut().zip(open) {
        if let Some(check) = check {
            answer.check_of_size(check, "");
        }
    }
}

/// What is said of the first address that an operation reads of work which is not finished.
fn handed_on(task: &Task, worked: &[(usize, &Task, Answer)]) -> Option<Check> {
    task.named.addresses.iter().find_map(|at| {
        let owner = at.value.owner();
        let (_, by, answer) = worked.iter().find(|(_, by, _)| by.address == owner)?;
        let handed = answer.value(at.value.value.as_deref()?).filter(|_| answer.is_unfinished())?;
        let by = by.address.to_string();
        let mut check =
            Check::of_kind(STILL_THERE, Verdict::Doubtful).with("size", handed.means).with("by", by.clone());
        check.remedy(Words::of("finish-it-first").with("by", by));
        Some(check.at(at.place))
    })
}
