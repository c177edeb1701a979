//! Which set-up owns a check: the first whose work cannot be undone if the check is wrong. Each check has one owner.

use super::{Answer, COMMON_CHECKS};
use crate::proof::{Check, Graph};

/// Work of an operation, with the checks that it cannot undo.
#[derive(Clone, Copy, Debug)]
pub struct Stage {
    /// The set-ups that do this work, by their ids: each answer has one of them at most.
    pub set_ups: &'static [&'static str],
    /// The step that does it, where the set-up does not always do it.
    pub by_step: Option<&'static str>,
    /// The checks that this work cannot undo.
    pub checks: &'static [&'static str],
}

impl Stage {
    /// Work that a set-up always does.
    pub const fn of(set_ups: &'static [&'static str], checks: &'static [&'static str]) -> Self {
        Self { set_ups, by_step: None, checks }
    }

    /// Work that a set-up does where it has this step.
    pub const fn by_step(self, step: &'static str) -> Self {
        Self { by_step: Some(step), ..self }
    }

    /// The set-up of an answer that does this work.
    fn done_by(&self, answer: &Answer) -> Option<usize> {
        answer.set_ups.iter().position(|set_up| {
            let asked = self.by_step.is_none_or(|id| set_up.steps.iter().any(|step| step.id == id));
            self.set_ups.contains(&set_up.id) && asked
        })
    }
}

/// Shares all checks of an answer out among its set-ups. `stages` stand in working order; a check that no stage names, and those
/// of every operation, belong to the first set-up. One whose set-ups are not in this answer goes to the next later one, else to
/// the last.
pub(super) fn share_out(answer: &mut Answer, stages: &[Stage]) {
    let mut ids: Vec<&'static str> = answer.checks.iter().map(|check| check.id).collect();
    ids.extend(COMMON_CHECKS.iter().map(|rule| rule.id));
    let mut owned: Vec<Vec<&'static str>> = answer.set_ups.iter().map(|_| Vec::new()).collect();
    for id in ids {
        let owner = owner_of(answer, stages, id);
        if let Some(owned) = owned.get_mut(owner).filter(|owned| !owned.contains(&id)) {
            owned.push(id);
        }
    }
    answer.set_ups.iter_mut().zip(owned).for_each(|(set_up, owned)| set_up.checks = owned);
}

impl Answer {
    /// Adds a check of a size: the set-up owns it that first does what follows from that size and cannot be undone; where nothing is seen to
    /// follow from it, the one whose work is judged most.
    pub(crate) fn check_of_size(&mut self, check: Check, key: &str) {
        let owner = self.value(key).map(|value| value.node.clone()).and_then(|node| {
            let hangs_on = |check: &&Check| {
                let of_two = check.worked_from.iter().flatten().chain([&node]);
                let follow = Graph::of(of_two).roots_following(2);
                check.weight.stamps() && follow.iter().take(2).any(|follows| *follows)
            };
            let hangs = self.checks.iter().filter(|check| check.worked_from.is_some()).filter(hangs_on);
            hangs.filter_map(|check| self.owner_of(check.id)).min()
        });
        let judged = |at: usize| {
            let own = self.checks.iter().filter(|check| check.weight.stamps() && check.judged.is_some());
            own.filter(|check| self.owner_of(check.id) == Some(at)).count()
        };
        // Of two that are judged alike the earlier.
        let most = || (0..self.set_ups.len()).rev().max_by_key(|at| judged(*at));
        let (id, owner) = (check.id, owner.or_else(most).unwrap_or_default());
        if let Some(set_up) = self.set_ups.get_mut(owner) {
            set_up.checks.push(id);
        }
        self.check(check);
    }
}

fn owner_of(answer: &Answer, stages: &[Stage], id: &str) -> usize {
    let named = || stages.iter().enumerate().filter(|(_, stage)| stage.checks.contains(&id));
    let Some((last, _)) = named().next_back() else { return 0 };
    let later = || stages.iter().skip(last + 1).find_map(|stage| stage.done_by(answer));
    let own = named().find_map(|(_, stage)| stage.done_by(answer));
    own.or_else(later).unwrap_or_else(|| answer.set_ups.len().saturating_sub(1))
}
