//! What is taken out of the drawer: one thing is not given to two operations.

use super::log::Logged;
use super::order::Task;
use crate::operations::Answer;
use crate::proof::{Check, Place, Verdict, Words};

/// Counts what the operations take, those first of which the log tells, then in the order of the file: whoever finds the drawer
/// without it is in doubt, and it stands on the missing list.
pub(super) fn check(worked: &mut [(usize, &Task, Answer)], log: &Logged) {
    let mut order: Vec<usize> = (0..worked.len()).collect();
    order.sort_by_key(|at| worked.get(*at).is_some_and(|(_, task, _)| log.logged(&task.address).is_none()));
    let mut taken: Vec<(Place, u32, String)> = Vec::new();
    for at in order {
        let Some((_, task, answer)) = worked.get_mut(at) else { continue };
        for thing in std::mem::take(&mut answer.drawn) {
            let by = task.address.to_string();
            match taken.iter_mut().find(|(place, ..)| *place == thing.place) {
                None => taken.push((thing.place, 1, by)),
                Some((_, count, _)) if *count < thing.there => *count += 1,
                // What one pack alone asks too many of was not taken by another.
                Some((_, _, first)) if *first == by => {}
                Some((_, _, first)) => {
                    answer.missing.push(Words::of("another-one").with("what", thing.what.clone()));
                    let check = Check::of_kind("in-drawer-for-all", Verdict::Doubtful).with("what", thing.what);
                    answer.check_of_size(check.with("by", first.clone()).at(task.place), thing.key);
                }
            }
        }
    }
}
