//! What comes before what: states, sizes read, rules of order, the job's own word, and set-ups in turn.

use super::frame::Because;
use super::items::Item;
use super::rounded;
use super::search::Minute;
use crate::handbook::StateKind;
use crate::handbook::order_rules::{self, Binds, OrderRule, Scope};
use crate::handbook::rigging::Aspect;
use crate::job::{Address, State, StateOf};
use crate::plan::together::scope::may_be_on_one_feature;
use crate::proof::{At, Place};
use crate::reading::{Problem, near};

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
    /// Whether the later one takes what the earlier made warm or cold, while it lasts.
    pub(super) fn fetches(&self, items: &[Item]) -> bool {
        if let Because::State(state) = &self.because {
            return state.kind.passes();
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

/// All that stands between the set-ups of a day.
#[derive(Debug, Default)]
pub(super) struct Links {
    /// What must be.
    pub musts: Vec<Link>,
    /// What is better.
    pub wishes: Vec<Wish>,
    /// Rules that keep work apart.
    pub apart: Vec<&'static OrderRule>,
    /// States that are needed and that nothing brings.
    pub taken_as_done: Vec<State>,
    /// Set-ups and operations that nobody has.
    pub problems: Vec<Problem>,
}

/// Finds them all, but for rules that are left out.
pub(super) fn links(items: &[Item], left_out: &[String]) -> Links {
    let mut links = Links::default();
    // In the order in which they are named where several join the same two.
    let rules = || order_rules::all().iter().filter(|rule| !left_out.contains(&rule.rule));
    links.apart = rules().filter(|rule| rule.kind == Binds::Apart).collect();
    rules().for_each(|rule| by_rule(items, rule, Comes::Once, &mut links));
    own_words(items, &mut links);
    reads(items, &mut links);
    measured_first(items, &mut links);
    held_true(items, &mut links);
    // What comes again in a part's life is bound to what stands before it in time: all else is known by now.
    rules().for_each(|rule| by_rule(items, rule, Comes::Again, &mut links));
    states(items, &mut links);
    in_turn(items, &mut links);
    // What must be the other way round is no wish.
    let wishes = std::mem::take(&mut links.wishes);
    let may_be = |wish: &Wish| wish.rule.scope == Scope::Pair || !is_before(items, &links, wish.then, wish.first);
    links.wishes = wishes.into_iter().filter(may_be).collect();
    links
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

    fn must(&mut self, before: usize, after: usize, rest: Minute, because: Because) {
        if before != after {
            self.musts.push(Link { before, after, rest, because });
        }
    }
}

/// Whether a rule speaks of work that comes once in a part's life, or again.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Comes {
    Once,
    Again,
}

/// Whether one set-up must come before another by what is known so far, near or far. What the job itself says is left aside: where it
/// stands against a rule it is refused, and unbinds none.
fn is_before(items: &[Item], links: &Links, first: usize, then: usize) -> bool {
    let mut seen = vec![false; items.len()];
    let mut open = vec![first];
    while let Some(at) = open.pop() {
        if at == then {
            return true;
        }
        if seen.get(at).is_none_or(|seen| *seen) {
            continue;
        }
        seen.get_mut(at).into_iter().for_each(|seen| *seen = true);
        let by_nature = |link: &&Link| link.before == at && link.because != Because::After;
        open.extend(links.musts.iter().filter(by_nature).map(|link| link.after));
        let in_turn = items.get(at).zip(items.get(at + 1)).filter(|(own, next)| own.same_operation(next));
        open.extend(in_turn.map(|_| at + 1));
    }
    false
}

/// Set-ups of one operation stand in turn.
fn in_turn(items: &[Item], links: &mut Links) {
    for (at, pair) in items.windows(2).enumerate() {
        if let [one, next] = pair
            && one.same_operation(next)
        {
            links.must(at, at + 1, 0, Because::InTurn);
        }
    }
}

/// The set-ups that bring a state to another. What is warm passes off: of several that make a part warm the one on the same feature
/// is meant, else the last before it in the file, else the first.
fn brought(items: &[Item], after: usize, state: &State) -> Vec<usize> {
    let Some(item) = items.get(after) else { return Vec::new() };
    let brings = |(before, other): &(usize, &Item)| {
        let later_in_turn = other.same_operation(item) && *before > after;
        *before != after && !later_in_turn && other.set_up.leaves.contains(state)
    };
    let mut all: Vec<usize> = items.iter().enumerate().filter(brings).map(|(before, _)| before).collect();
    if !state.kind.passes() || !matches!(state.of, StateOf::Part(_)) {
        return all;
    }
    if all.is_empty() && state.kind == StateKind::Cold {
        return made_cold_for(items, after, state).into_iter().collect();
    }
    let feature = |at: usize| feature_of(items, at);
    let own = feature(after);
    let is_other = |before: &usize| own.zip(feature(*before)).is_some_and(|(own, other)| own != other);
    all.retain(|before| !is_other(before));
    // An old bush is out before the new one's warmth: what is warmed behind it in the file is warmed for that.
    if item.leaves(StateKind::PressedOut) {
        all.retain(|before| *before < after);
    }
    let on_it = all.iter().copied().find(|before| own.is_some() && feature(*before) == own);
    let last = all.iter().copied().rfind(|before| *before < after);
    on_it.or(last).or(all.first().copied()).into_iter().collect()
}

fn feature_of<'a>(items: &'a [Item], at: usize) -> Option<&'a str> {
    items.get(at)?.operation.of_day.wish.feature.as_ref().map(|at| at.value.as_str())
}

/// The bush that is made cold for a press. It is a part of its own, and no key says which: of those of this job, or else of every
/// job, the one on the same feature is meant, else the one that comes as the press does in the order of the files.
fn made_cold_for(items: &[Item], press: usize, state: &State) -> Option<usize> {
    let job = items.get(press)?.sheet.0;
    let makes_cold = |item: &Item| item.takes_part() && item.leaves(StateKind::Cold) && !item.leaves(StateKind::Warm);
    let all: Vec<usize> = (0..items.len()).filter(|at| items.get(*at).is_some_and(makes_cold)).collect();
    let of_job: Vec<usize> =
        all.iter().copied().filter(|at| items.get(*at).is_some_and(|i| i.sheet.0 == job)).collect();
    let cold = if of_job.is_empty() { all } else { of_job };
    let own = feature_of(items, press);
    let on_it = cold.iter().copied().find(|at| own.is_some() && feature_of(items, *at) == own);
    let needs_cold = |item: &Item| item.set_up.needs.iter().any(|need| need.kind == state.kind);
    let before = (0..press).filter(|at| items.get(*at).is_some_and(needs_cold)).count();
    on_it.or_else(|| cold.get(before).copied()).or(cold.last().copied())
}

/// What drops into a warm part, or is dropped in cold, is measured before the oven and the freezer.
fn measured_first(items: &[Item], links: &mut Links) {
    for (press, item) in items.iter().enumerate() {
        for state in item.set_up.needs.iter().filter(|state| state.kind.passes()) {
            let name = if state.kind == StateKind::Warm { "measure-before-warm" } else { "measure-before-cold" };
            let Some(rule) = order_rules::all().iter().find(|rule| rule.rule == name) else { continue };
            for load in brought(items, press, state) {
                let of_press = |at: &usize| items.get(*at).is_some_and(|own| own.same_operation(item));
                let is_load = |at: usize| items.get(at).zip(items.get(load)).is_some_and(|(a, b)| a.same_operation(b));
                for before in (0..press).filter(of_press).filter(|at| !is_load(*at)) {
                    let measures = items.get(before).is_some_and(Item::only_measures);
                    if measures && !is_before(items, links, load, before) {
                        links.must(before, load, 0, Because::Rule(rule));
                    }
                }
            }
        }
    }
}

/// What is held as it was set true comes after that.
fn held_true(items: &[Item], links: &mut Links) {
    for (by, item) in items.iter().enumerate() {
        let Some(state) = item.set_up.leaves.iter().find(|state| state.kind == StateKind::True) else { continue };
        for rider in riders(items, by) {
            if !is_before(items, links, rider, by) {
                links.must(by, rider, 0, Because::State(state.clone()));
            }
        }
    }
}

/// The set-ups behind one in the file that go on with its part as it is held there, up to the first that does not.
pub(super) fn riders(items: &[Item], by: usize) -> Vec<usize> {
    let Some(first) = items.get(by) else { return Vec::new() };
    let device = |item: &Item| item.set_up.rigging.get(&Aspect::Device).cloned();
    let of_part = items.iter().enumerate().skip(by + 1).filter(|(_, item)| item.same_part(first));
    let goes_on = |(_, item): &(usize, &Item)| {
        let as_held = device(item).is_none_or(|own| Some(own) == device(first));
        item.set_up.station == first.set_up.station && item.set_up.machine == first.set_up.machine && as_held
    };
    let is_anew = |item: &Item| item.set_up.leaves.iter().any(|state| state.kind == StateKind::True);
    of_part.take_while(|own| goes_on(own) && !is_anew(own.1)).map(|(at, _)| at).collect()
}

/// Each state that is needed, on every set-up that brings it. A part comes more than once into some states: of those the last
/// before it in the file is meant that need not come after it. What only follows in the file is another, and of these none that
/// needs the state itself: that renews it.
fn states(items: &[Item], links: &mut Links) {
    for (after, item) in items.iter().enumerate() {
        let rest = item.set_up.rest.map_or(0, |rest| rounded(rest.minutes));
        for state in &item.set_up.needs {
            let mut all = brought(items, after, state);
            if state.kind.comes_again() && matches!(state.of, StateOf::Part(_)) {
                let renews = |at: usize| {
                    let own = items.iter().filter(|other| items.get(at).is_some_and(|item| item.same_operation(other)));
                    own.flat_map(|other| &other.set_up.needs).any(|need| need == state)
                };
                let may = |before: &usize| !(renews(*before) && is_before(items, links, after, *before));
                let last = all.iter().copied().rfind(|before| *before < after && may(before));
                // Where none stands before it, the first that brings the state comes before: what one set-up of the day leaves is
                // never taken as done.
                let first = all.iter().copied().find(|before| !renews(*before));
                all = last.or(first).into_iter().collect();
            }
            if all.is_empty() && !links.taken_as_done.contains(state) {
                links.taken_as_done.push(state.clone());
            }
            for before in all {
                links.must(before, after, rest, Because::State(state.clone()));
            }
        }
    }
}

/// The last set-up of an operation, or the one of that id.
fn of_address(items: &[Item], address: &Address) -> Option<usize> {
    let owner = address.owner();
    let is_it = |item: &Item| {
        let own = |id: &str| id.replace('-', "_");
        let named = address.value.as_ref().is_none_or(|value| *value == own(item.set_up.id));
        item.operation.address == owner && named
    };
    items.iter().rposition(is_it)
}

/// A size that is read must be there before it is used.
fn reads(items: &[Item], links: &mut Links) {
    for (after, item) in items.iter().enumerate().filter(|(_, item)| item.sheet.2 == 0) {
        for address in &item.operation.of_day.reads {
            let before = of_address(items, address);
            if let Some(before) =
                before.filter(|before| !items.get(*before).is_some_and(|other| other.same_operation(item)))
            {
                // What was made warm or cold is read for the press, and is wanted there.
                let press = || items.iter().position(|other| other.same_operation(item) && other.presses());
                let is_load = items.get(before).is_some_and(Item::passes_off);
                let after = if is_load { press().unwrap_or(after) } else { after };
                links.must(before, after, 0, Because::Reads(address.clone()));
            }
        }
    }
}

/// What the job itself says: `after` of an operation binds its first set-up, that of a set-up just this.
fn own_words(items: &[Item], links: &mut Links) {
    for (after, item) in items.iter().enumerate() {
        let wish = &item.operation.of_day.wish;
        let of_operation = wish.after.iter().filter(|_| item.sheet.2 == 0);
        let of_set_up = wish.times.get(item.set_up.id).and_then(|times| times.after.as_ref());
        for address in of_operation.chain(of_set_up) {
            match of_address(items, &address.value) {
                Some(before) => links.must(before, after, 0, Because::After),
                None => links.problems.push(no_set_up(items, address)),
            }
        }
        if item.sheet.2 == 0 {
            let known = || item.operation.answer.set_ups.iter().map(|set_up| set_up.id);
            for (id, times) in wish.times.iter().filter(|(id, _)| !known().any(|known| known == id.as_str())) {
                let says = format!("`{}` has no set-up `{id}`; {}", item.operation.address, near(id, known()));
                links.problems.push(Problem::new(times.place(), says));
            }
        }
    }
}

fn no_set_up(items: &[Item], address: &At<Address>) -> Problem {
    let owner = address.value.owner();
    let of_owner = items.iter().filter(|other| other.operation.address == owner);
    let known: Vec<&str> = of_owner.map(|other| other.set_up.id).collect();
    let asked = address.value.value.as_deref().unwrap_or_default().replace('_', "-");
    let place: Place = address.place;
    Problem::new(place, format!("`{owner}` has no set-up `{asked}`; {}", near(&asked, known)))
}

/// A rule of order, between all that it binds.
fn by_rule(items: &[Item], rule: &'static OrderRule, comes: Comes, links: &mut Links) {
    let answers = |word: &order_rules::Word| -> Vec<usize> {
        items.iter().enumerate().filter(|(_, item)| word.is_in(&item.work())).map(|(at, _)| at).collect()
    };
    let (befores, afters) = (answers(&rule.before), answers(&rule.after));
    for after in &afters {
        let both = |at: &usize| befores.contains(at) && afters.contains(at);
        let bound = |before: &&usize| {
            let pair = items.get(**before).zip(items.get(*after));
            *before != after && pair.is_some_and(|(one, other)| binds(rule, one, other))
        };
        if rule.scope == Scope::Pair {
            if comes == Comes::Again {
                continue;
            }
            let first = befores.iter().filter(bound).filter(|before| *before < after);
            links.wishes.extend(first.map(|first| Wish { rule, first: *first, then: *after }));
            continue;
        }
        let mut own: Vec<usize> =
            befores.iter().filter(bound).filter(|before| !(both(before) && both(after))).copied().collect();
        let again = comes_again(items, *after) || own.iter().any(|before| comes_again(items, *before));
        if again != (comes == Comes::Again) {
            continue;
        }
        if rule.fetches() && items.get(*after).is_some_and(|item| item.leaves(StateKind::PressedOut)) {
            own.retain(|before| before < after);
        }
        if again {
            own.retain(|before| !is_before(items, links, *after, *before));
            own = one_of(items, rule, &own, *after, &afters);
        }
        for before in own {
            match rule.kind {
                Binds::Must => links.must(before, *after, rounded(rule.rest_min), Because::Rule(rule)),
                Binds::Better => links.wishes.push(Wish { rule, first: before, then: *after }),
                Binds::Apart => {}
            }
        }
    }
}

/// Whether its kind of work comes more than once in a part's life.
fn comes_again(items: &[Item], at: usize) -> bool {
    items.get(at).is_some_and(|item| item.set_up.leaves.iter().any(|state| state.kind.comes_again()))
}

/// Of work that comes again: the last before it in the file; where none is, the first after it, unless the later work comes again.
fn one_of(items: &[Item], rule: &OrderRule, befores: &[usize], after: usize, afters: &[usize]) -> Vec<usize> {
    if let Some(last) = befores.iter().copied().rfind(|before| *before < after) {
        return vec![last];
    }
    let again = |other: &&usize| {
        let pair = items.get(**other).zip(items.get(after));
        **other > after && pair.is_some_and(|(one, other)| binds(rule, one, other))
    };
    if afters.iter().any(|other| again(&other)) { Vec::new() } else { befores.first().copied().into_iter().collect() }
}

/// Whether a rule is held between two set-ups.
fn binds(rule: &OrderRule, one: &Item, other: &Item) -> bool {
    let feature = |item: &'_ Item<'_>| item.operation.of_day.wish.feature.as_ref().map(|at| at.value.clone());
    match rule.scope {
        Scope::Shop => true,
        Scope::Part => one.same_part(other),
        Scope::Assembly => {
            // Left out it is the job's own; where it is typed it holds over all jobs that are given.
            let typed = |item: &'_ Item<'_>| item.operation.of_day.assembly.clone();
            let name = |item: &'_ Item<'_>| typed(item).unwrap_or_else(|| item.plan.job.clone());
            if typed(one).or(typed(other)).is_some() { name(one) == name(other) } else { one.sheet.0 == other.sheet.0 }
        }
        Scope::Pair => {
            let half = |item: &Item, of: &Item| item.operation.of_day.partner.as_ref() == Some(&of.operation.address);
            half(one, other) && half(other, one)
        }
        Scope::Feature => {
            let may_be = || may_be_on_one_feature(rule, feature(one).as_deref(), feature(other).as_deref());
            one.same_operation(other) || (one.same_part(other) && may_be())
        }
    }
}
