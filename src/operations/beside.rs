//! Two things that became of one check: which of them stands.

use super::Answer;
use crate::proof::{Check, Outcome};

impl Answer {
    /// Adds a check that could not be made while its operation stood alone, in the place of what was said of it then.
    pub(crate) fn check_now(&mut self, check: Check) -> &mut Check {
        self.checks.retain(|old| old.id != check.id || old.state != Outcome::NotChecked);
        self.check(check)
    }
}

#[cfg(test)]
mod tests {
    use super::{Answer, Check, Outcome};
    use crate::proof::{CheckRule, Verdict};

    const RULES: &[CheckRule] = &[CheckRule::must("a-must", &[]), CheckRule::may("a-may", &[])];

    /// What became of both, whichever of the two came first.
    fn both(id: &'static str, verdict: Verdict) -> [Outcome; 2] {
        [true, false].map(|not_checked_first| {
            let mut answer = Answer::declaring(RULES);
            if not_checked_first {
                answer.not_checked(&[id], &[]);
            }
            answer.check(Check::of_kind(id, verdict));
            if !not_checked_first {
                answer.not_checked(&[id], &[]);
            }
            answer.checks[0].state
        })
    }

    #[test]
    fn a_must_that_was_not_made_is_not_hidden_by_one_that_was() {
        assert_eq!(both("a-must", Verdict::Proven), [Outcome::NotChecked; 2]);
        assert_eq!(both("a-must", Verdict::Doubtful), [Outcome::Made(Verdict::Doubtful); 2]);
        assert_eq!(both("a-must", Verdict::Fails), [Outcome::Made(Verdict::Fails); 2]);
        assert_eq!(both("a-may", Verdict::Proven), [Outcome::Made(Verdict::Proven); 2]);
    }

    #[test]
    fn what_is_made_later_stands_in_the_place_of_what_could_not_be() {
        let mut answer = Answer::declaring(RULES);
        answer.not_checked(&["a-must"], &[]);
        answer.check_now(Check::of_kind("a-must", Verdict::Proven));
        assert_eq!(answer.checks[0].state, Outcome::Made(Verdict::Proven));
    }
}
