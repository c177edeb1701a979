//! Rules of order between the operations of a part: read from the table, not written in code.

use super::made::may_be_logged;
use super::scope::on_one_feature;
use crate::handbook::order_rules::{OrderRule, Scope, Word, Work, in_file};
use crate::operations::{Answer, SetUp, Step};
use crate::plan::log::Logged;
use crate::plan::order::Task;
use crate::proof::{Check, Verdict, Words};
use std::collections::HashMap;

/// What the rules may know of an operation: its part, its feature, and the work in it.
pub(super) struct Stands {
    part: String,
    feature: Option<String>,
    /// Whether no other work of its part has that feature.
    is_alone: bool,
    work: Work<'static>,
    address: String,
    /// Whether the log tells of it, and whether it could.
    done: bool,
    may_be_logged: bool,
}

/// The check of an order that the trade does not allow.
const ORDER: &str = "order-of-operations";
/// The class of what cuts a face.
const FACING: &str = "facing";
/// The class of what drills an oil hole through a bush.
const OIL_HOLES: &str = "oil-hole-drilling";

/// How surely a rule binds two operations.
#[derive(Clone, Copy)]
pub(super) enum Bound {
    Surely,
    Perhaps,
}

impl Stands {
    /// What the rules may know of each of a group.
    pub(super) fn of_all(worked: &[(usize, &Task, Answer)], log: &Logged) -> Vec<Self> {
        let mut all: Vec<Self> = worked.iter().map(|(_, task, answer)| Self::of(task, answer, log)).collect();
        find_names_of_their_own(&mut all);
        all
    }

    /// Whether it is such work, or has some in it.
    pub(super) fn does(&self, word: &Word) -> bool {
        word.is_in(&self.work)
    }

    fn of(task: &Task, answer: &Answer, log: &Logged) -> Self {
        let feature = task.request.set_up().and_then(|wish| wish.feature.as_ref()).map(|at| at.value.key().to_owned());
        let set_ups = || answer.set_ups.iter();
        Self {
            part: task.part.name.clone(),
            feature,
            is_alone: false,
            work: Work::of(
                task.request.word(),
                set_ups().flat_map(|set_up| set_up.steps.iter().map(|step| step.words.id)).collect(),
                set_ups().flat_map(|set_up| set_up.leaves.iter().map(|state| state.kind)).collect(),
            ),
            address: task.address.to_string(),
            done: log.logged(&task.address).is_some(),
            may_be_logged: may_be_logged(task, answer),
        }
    }

    /// How surely a rule binds the two, the earlier of which should come later: surely on one part or one feature; perhaps, where the
    /// rule is held on one feature, not both name theirs, and the whole of the later operation is what should come first, or the whole of
    /// the earlier what should come behind.
    pub(super) fn bound(&self, earlier: &Self, rule: &OrderRule) -> Option<Bound> {
        if self.part != earlier.part {
            return None;
        }
        // Of two faces that are named apart the one says nothing of what was set or counted from the other.
        let of_faces = matches!(&rule.before, Word::Class(class) if class.class == FACING);
        let apart = self.feature.as_ref().zip(earlier.feature.as_ref()).is_some_and(|(own, other)| own != other);
        if of_faces && apart {
            return None;
        }
        if rule.scope != Scope::Feature || on_one_feature(rule, self.feature.as_deref(), earlier.feature.as_deref()) {
            return Some(Bound::Surely);
        }
        let is_whole = |rule: &Word, work: &Work| {
            rule.members().iter().any(|word| matches!(word, Word::Operation(_)) && word.is_in(work))
        };
        // An oil hole may have a name of its own, which says nothing of the bore that it opens into.
        let is_oil_hole =
            |word: &Word, own: &Self| matches!(word, Word::Class(class) if class.class == OIL_HOLES) && own.is_alone;
        let is_unsaid = is_oil_hole(&rule.before, self) || is_oil_hole(&rule.after, earlier);
        let unnamed = self.feature.is_none() || earlier.feature.is_none() || is_unsaid;
        let binds = is_whole(&rule.before, &self.work) || is_whole(&rule.after, &earlier.work);
        (unnamed && binds).then_some(Bound::Perhaps)
    }
}

/// Holds the order in which the operations of each part stand in the file against the rules of the trade, and what is still to be done
/// against what the log says is done, wherever the two stand. Those of one part come together.
pub(in crate::plan) fn check(worked: &mut [(usize, &Task, Answer)], log: &Logged) {
    if worked.len() < 2 {
        return;
    }
    let stands = Stands::of_all(worked, log);
    let rules: Vec<_> = in_file().collect();
    // What stands earlier on each part, under each rule whose later work it is; and what is done of it.
    let mut earlier: HashMap<(&str, usize), Vec<usize>> = HashMap::new();
    let mut done: HashMap<(&str, usize), Vec<usize>> = HashMap::new();
    for (at, stands) in stands.iter().enumerate().filter(|(_, stands)| stands.done) {
        let after = rules.iter().enumerate().filter(|(_, (rule, _))| stands.does(&rule.after));
        after.for_each(|(number, _)| done.entry((stands.part.as_str(), number)).or_default().push(at));
    }
    // Whoever goes by the file does the earlier first: it is in doubt too.
    let mut first: Vec<(usize, &OrderRule, Check)> = Vec::new();
    let mut between: Vec<(usize, &OrderRule, String)> = Vec::new();
    for (at, ((_, task, answer), later)) in worked.iter_mut().zip(&stands).enumerate() {
        let mut broken: Vec<(usize, usize)> = Vec::new();
        for (number, (rule, _)) in rules.iter().enumerate() {
            let place = (later.part.as_str(), number);
            if later.does(&rule.before) {
                broken.extend(earlier.get(&place).into_iter().flatten().map(|earlier| (*earlier, number)));
                if later.may_be_logged && !later.done {
                    let behind = done.get(&place).into_iter().flatten().filter(|done| **done > at);
                    broken.extend(behind.map(|done| (*done, number)));
                }
            }
            if later.does(&rule.after) {
                earlier.entry(place).or_default().push(at);
            }
        }
        broken.sort_unstable();
        for (at_first, number) in broken {
            let (Some(earlier), Some((rule, verdict))) = (stands.get(at_first), rules.get(number)) else { continue };
            // Where each has something of both, no order of the two keeps the rule: the set-ups of one stand between those of the other.
            if earlier.does(&rule.before) && later.does(&rule.after) {
                if !earlier.done && later.bound(earlier, rule).is_some() {
                    between.push((at_first, rule, later.address.clone()));
                }
                continue;
            }
            let verdict = match later.bound(earlier, rule) {
                Some(Bound::Surely) => *verdict,
                Some(Bound::Perhaps) => Verdict::Doubtful,
                None => continue,
            };
            answer.check(out_of_order(rule, verdict, earlier, later).at(task.place));
            stands_on(answer, &rule.before);
            if !earlier.done {
                first.push((at_first, rule, out_of_order(rule, Verdict::Doubtful, earlier, later)));
            }
        }
    }
    for (at, rule, other) in between {
        if let Some((_, _, answer)) = worked.get_mut(at) {
            wait_for_the_other(answer, rule, &other);
        }
    }
    for (at, rule, check) in first {
        if let Some((_, task, answer)) = worked.get_mut(at) {
            answer.check(check.at(task.place));
            stands_on(answer, &rule.after);
        }
    }
}

/// Finds the features that no other work of their part has.
fn find_names_of_their_own(stands: &mut [Stands]) {
    let named = |one: &Stands| one.feature.clone().map(|feature| (one.part.clone(), feature));
    let mut counts: HashMap<(String, String), usize> = HashMap::new();
    stands.iter().filter_map(named).for_each(|name| *counts.entry(name).or_default() += 1);
    for own in stands {
        own.is_alone = named(own).is_some_and(|name| counts.get(&name) == Some(&1));
    }
}

/// Whether a set-up itself does such work, by its steps and what it leaves.
fn does(set_up: &SetUp, word: &Word) -> bool {
    let steps = set_up.steps.iter().map(|step| step.words.id).collect();
    let leaves = set_up.leaves.iter().map(|state| state.kind).collect();
    word.is_in(&Work::of("", steps, leaves))
}

/// An order that is in doubt stands on every set-up where it is not the first that does the work in question: that may only measure.
fn stands_on(answer: &mut Answer, word: &Word) {
    let measures = || answer.set_ups.first().is_some_and(|first| first.cuts().next().is_none());
    let is_later = answer.set_ups.iter().position(|set_up| does(set_up, word)).map_or_else(measures, |at| at > 0);
    let order = answer.checks.iter_mut().find(|check| check.id == ORDER).filter(|_| is_later);
    order.into_iter().for_each(|check| check.of_every_set_up = true);
}

/// Says in the set-up that must not come yet that the other work is brought as far first.
fn wait_for_the_other(answer: &mut Answer, rule: &OrderRule, other: &str) {
    if let Some(set_up) = answer.set_ups.iter_mut().find(|set_up| does(set_up, &rule.after)) {
        let words = Words::of("bring-the-other-as-far").with("other", other.to_owned());
        set_up.steps.insert(0, Step::by_hand(words.with("reason", rule.reason.clone())));
    }
}

fn out_of_order(rule: &OrderRule, verdict: Verdict, earlier: &Stands, later: &Stands) -> Check {
    Check::of_kind(ORDER, verdict)
        .with("first", rule.before.to_string())
        .with("then", rule.after.to_string())
        .with("earlier", earlier.address.clone())
        .with("later", later.address.clone())
        .with("reason", rule.reason.clone())
}
