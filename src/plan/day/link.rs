//! What stands between the set-ups of a day, once it is found.

use super::frame::Because;
use super::items::Item;
use super::search::Minute;
use crate::handbook::order_rules::{AsListed, OrderRule};
use crate::job::State;
use crate::reading::Problem;

/// One set-up stands before another.
#[derive(Clone, Debug)]
pub(super) struct Link {
    /// The earlier one.
    pub before: usize,
    /// The later one.
    pub after: usize,
    /// Least minutes between them, beside the tail of the earlier.
    pub rest: Minute,
    /// Why.
    pub because: Because,
}

impl Link {
    /// Whether the later one says itself that it needs what the earlier made warm or cold.
    pub(super) fn is_wanted(&self) -> bool {
        matches!(&self.because, Because::State(state) if state.kind.passes())
    }

    /// How it goes by the order in the file where it gives way to what else is known: it is so because the job lists it so, or because
    /// it is the usual thing.
    pub(super) fn goes_by(&self) -> Option<AsListed> {
        if let Because::Rule(rule) = &self.because { rule.binds_as() } else { None }
    }

    /// Whether the later one takes what the earlier made warm or cold, while it lasts.
    pub(super) fn fetches(&self, items: &[Item]) -> bool {
        if matches!(self.because, Because::State(_)) {
            return self.is_wanted();
        }
        let (load, press) = (items.get(self.before), items.get(self.after));
        load.is_some_and(Item::passes_off) && press.is_some_and(Item::presses)
    }
}

/// One set-up better stands before another, or beside it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Wish {
    /// The rule.
    pub rule: &'static OrderRule,
    /// The one that better comes first.
    pub first: usize,
    /// The one that better comes then.
    pub then: usize,
}

/// A rule of order, with the set-ups that answer to its two words.
#[derive(Clone, Debug)]
pub(super) struct Ruled {
    /// The rule.
    pub rule: &'static OrderRule,
    /// Those that answer to its first word.
    pub befores: Vec<usize>,
    /// Those that answer to its second.
    pub afters: Vec<usize>,
}

/// All that stands between the set-ups of a day.
#[derive(Debug, Default)]
pub(super) struct Links {
    /// What must be.
    pub musts: Vec<Link>,
    /// What is better.
    pub wishes: Vec<Wish>,
    /// Rules that keep work apart.
    pub apart: Vec<Ruled>,
    /// Musts that gave way to others, since both cannot be.
    pub not_kept: Vec<Link>,
    /// Set-ups that come after work without set-ups that is left out, by its id.
    pub behind_left_out: Vec<(usize, String)>,
    /// States that are needed and that nothing brings.
    pub taken_as_done: Vec<State>,
    /// Set-ups and operations that nobody has.
    pub problems: Vec<Problem>,
}

impl Links {
    /// The musts with what follows from work that is done at once: nothing stands between the two, so that what must come before
    /// the later comes before the earlier too, and what must come after the earlier comes after the later.
    pub(super) fn with_couples(&self, items: &[Item]) -> Vec<Link> {
        let by_hand = |at: usize| items.get(at).is_some_and(|item| item.set_up.tail.is_none());
        let mut couples: Vec<(usize, usize)> = Vec::new();
        for link in self.musts.iter().filter(|link| by_hand(link.before) && link.fetches(items)) {
            if !couples.iter().any(|(first, _)| *first == link.before) {
                couples.push((link.before, link.after));
            }
        }
        let mut all = self.musts.clone();
        for _ in 0..couples.len() {
            for (first, then) in &couples {
                let id = || items.get(*then).map(Item::id).unwrap_or_default();
                let follows = |link: &Link| {
                    let (before, after) = match (link.before, link.after) {
                        (before, after) if after == *then && before != *first => (before, *first),
                        (before, after) if before == *first && after != *then => (*then, after),
                        _ => return None,
                    };
                    let because = Because::AtOnce(id(), Box::new(link.because.clone()));
                    Some(Link { before, after, rest: 0, because })
                };
                let is_new = |link: &Link, all: &[Link]| {
                    !all.iter().any(|known| (known.before, known.after) == (link.before, link.after))
                };
                for link in all.iter().filter_map(follows).collect::<Vec<_>>() {
                    if is_new(&link, &all) {
                        all.push(link);
                    }
                }
            }
        }
        all
    }

    pub(super) fn must(&mut self, before: usize, after: usize, rest: Minute, because: Because) {
        if before != after {
            self.musts.push(Link { before, after, rest, because });
        }
    }
}

/// Whether one set-up must come before another by what is known so far, near or far. What the job itself says is left aside: where it
/// stands against a rule it is refused, and unbinds none.
pub(super) fn is_before(items: &[Item], links: &Links, first: usize, then: usize) -> bool {
    is_before_by((items, links), |_| true, first, then)
}

/// The same by the job's own word too.
pub(super) fn is_before_at_all(items: &[Item], links: &Links, first: usize, then: usize) -> bool {
    walked((items, links), |link, at| link.before == at, |_| true, first, then)
}

/// The same, what is so only because the job lists it so left aside.
pub(super) fn is_before_unlisted(items: &[Item], links: &Links, first: usize, then: usize) -> bool {
    let musts = links.musts.iter().filter(|link| link.goes_by().is_none()).cloned().collect();
    is_before(items, &Links { musts, ..Links::default() }, first, then)
}

/// The same by way of some set-ups alone.
pub(super) fn is_before_by(known: (&[Item], &Links), may: impl Fn(usize) -> bool, first: usize, then: usize) -> bool {
    walked(known, |link, at| link.before == at && link.because != Because::After, may, first, then)
}

/// Whether links of some kind lead from one set-up to another.
fn walked(
    (items, links): (&[Item], &Links),
    leads_from: impl Fn(&Link, usize) -> bool,
    may: impl Fn(usize) -> bool,
    first: usize,
    then: usize,
) -> bool {
    let mut seen = vec![false; items.len()];
    let mut open = vec![first];
    while let Some(at) = open.pop() {
        if at == then {
            return true;
        }
        if seen.get(at).is_none_or(|seen| *seen) || !may(at) {
            continue;
        }
        seen.get_mut(at).into_iter().for_each(|seen| *seen = true);
        open.extend(links.musts.iter().filter(|link| leads_from(link, at)).map(|link| link.after));
        let in_turn = items.get(at).zip(items.get(at + 1)).filter(|(own, next)| own.same_operation(next));
        open.extend(in_turn.map(|_| at + 1));
    }
    false
}
