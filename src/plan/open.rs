//! What is open in an operation: the checks that keep it from being proven, and what most of them wait for.

use super::Planned;
use crate::proof::{Check, Outcome, Verdict};

impl Planned {
    /// The checks that stamp it and are open, by their ids.
    pub fn open(&self) -> Vec<&'static str> {
        self.answer.checks.iter().filter(|check| is_open(check)).map(|check| check.id).collect()
    }

    /// The key that most of its unmade checks wait for, and how many do.
    pub fn most_wanted(&self) -> Option<(&'static str, usize)> {
        let mut wanted: Vec<(&'static str, usize)> = Vec::new();
        for check in self.answer.checks.iter().filter(|check| is_open(check) && check.state == Outcome::NotChecked) {
            // What wants several keys is not opened by one of them.
            let [key] = check.missing.as_slice() else { continue };
            match wanted.iter_mut().find(|(own, _)| own == key) {
                Some((_, count)) => *count += 1,
                None => wanted.push((*key, 1)),
            }
        }
        let most = wanted.iter().map(|(_, count)| *count).max()?;
        wanted.into_iter().find(|(_, count)| *count == most)
    }
}

fn is_open(check: &Check<String>) -> bool {
    matches!(check.stamps(), Some(Verdict::Doubtful | Verdict::Fails))
}
