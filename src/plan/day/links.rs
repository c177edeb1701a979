//! What comes before what: states, sizes read, rules of order, the job's own word, and set-ups in turn.

use super::frame::Because;
use super::items::Item;
use super::link::{Link, Links, Wish, is_before, is_before_at_all, is_before_unlisted};
use super::named::{Named, named};
use super::passing::{brought, held_true, measured_first};
use super::rounded;
use super::ruled::{Comes, as_listed, by_rule, comes_again, ruled};
use crate::handbook::StateKind;
use crate::handbook::order_rules::{AsListed, Binds, Scope};
use crate::job::{Address, State, StateOf};
use crate::plan::Plan;
use crate::proof::{At, Place};
use crate::reading::{Problem, near};

/// Finds them all, but for rules that are left out.
pub(super) fn links(items: &[Item], plans: &[Plan], left_out: &[String]) -> Links {
    let mut links = Links::default();
    // In the order in which they are named where several join the same two.
    let rules = ruled(items, left_out);
    links.apart = rules.iter().filter(|own| own.rule.kind == Binds::Apart).cloned().collect();
    rules.iter().for_each(|rule| by_rule(items, rule, Comes::Once, &mut links));
    own_words(items, plans, &mut links);
    reads(items, plans, &mut links);
    held_on(items, plans, &mut links);
    // What is warm or cold is wanted so at once: of all that comes again this is sure.
    states(items, true, &mut links);
    as_listed(items, &rules, &mut links);
    measured_first(items, &mut links);
    held_true(items, &mut links);
    // What comes again in a part's life is bound to what stands before it in time: all else is known by now.
    rules.iter().for_each(|rule| by_rule(items, rule, Comes::Again, &mut links));
    states(items, false, &mut links);
    in_turn(items, &mut links);
    not_in_a_circle(items, &mut links);
    links.not_kept = not_kept(items, &links);
    // What must be the other way round is no wish.
    let wishes = std::mem::take(&mut links.wishes);
    let may_be = |wish: &Wish| match wish.rule.scope {
        Scope::Clamping => !is_taken_off(items, &links, wish),
        scope => scope.has_no_direction() || !is_before(items, &links, wish.then, wish.first),
    };
    links.wishes = wishes.into_iter().filter(may_be).collect();
    links
}

/// Whether a part must be worked elsewhere between two set-ups for which it would better stay clamped.
fn is_taken_off(items: &[Item], links: &Links, wish: &Wish) -> bool {
    let Some(own) = items.get(wish.first) else { return false };
    let is_elsewhere = |item: &Item| item.same_part(own) && item.set_up.machine != own.set_up.machine;
    let mut elsewhere = (0..).zip(items).filter(|(_, item)| is_elsewhere(item)).map(|(at, _)| at);
    let between =
        |at: usize, first, then| is_before_at_all(items, links, first, at) && is_before_at_all(items, links, at, then);
    elsewhere.any(|at| between(at, wish.first, wish.then) || between(at, wish.then, wish.first))
}

/// What is only so because the job lists it so gives way to all else: a wash that a later hole needs is no wash of the face behind it.
fn not_in_a_circle(items: &[Item], links: &mut Links) {
    for goes_by in [AsListed::Either, AsListed::Kept] {
        let mut at = 0;
        while let Some(link) = links.musts.get(at) {
            if link.goes_by() == Some(goes_by) && is_before_at_all(items, links, link.after, link.before) {
                let lost = links.musts.remove(at);
                links.not_kept.push(lost);
            } else {
                at += 1;
            }
        }
    }
}

/// Musts that gave way, and hold no other way, where nothing else of the day is bound by their rule in their place: another wash or
/// measuring, never other work.
fn not_kept(items: &[Item], links: &Links) -> Vec<Link> {
    let rule = |link: &Link| if let Because::Rule(rule) = &link.because { Some(rule.rule.as_str()) } else { None };
    let leaves = |at: usize| items.get(at).map(|item| item.work().leaves().to_vec());
    let is_like = |one: usize, other: usize| comes_again(items, one) && leaves(one) == leaves(other);
    let stands_for = |lost: &Link, link: &Link| {
        let of_before = link.before == lost.before && is_like(lost.after, link.after);
        let of_after = link.after == lost.after && is_like(lost.before, link.before);
        rule(link) == rule(lost) && (of_before || of_after)
    };
    let is_lost = |lost: &&Link| {
        let stands = links.musts.iter().any(|link| stands_for(lost, link));
        !stands && !is_before_at_all(items, links, lost.before, lost.after)
    };
    links.not_kept.iter().filter(is_lost).cloned().collect()
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

/// Each state that is needed, those that pass off or the others, on every set-up that brings it. A part comes more than once into some states: of those the last
/// before it in the file is meant that need not come after it. What only follows in the file is another, and of these none that
/// needs the state itself: that renews it.
fn states(items: &[Item], passing: bool, links: &mut Links) {
    for (after, item) in items.iter().enumerate() {
        let rest = item.set_up.rest.map_or(0, |rest| rounded(rest.minutes));
        for state in item.set_up.needs.iter().filter(|state| state.kind.passes() == passing) {
            let mut all = brought(items, after, state);
            if state.kind.comes_again() && matches!(state.of, StateOf::Part(_)) {
                let renews = |at: usize| {
                    let own = items.iter().filter(|other| items.get(at).is_some_and(|item| item.same_operation(other)));
                    own.flat_map(|other| &other.set_up.needs).any(|need| need == state)
                };
                let may = |before: &usize| !(renews(*before) && is_before(items, links, after, *before));
                let last = all.iter().copied().rfind(|before| *before < after && may(before));
                // Where none stands before it, the first that brings the state comes before: what one set-up of the day leaves is
                // never taken as done. What the job says itself that it needs comes before what is only listed so.
                let is_behind = |at: usize| match asks_itself(item) {
                    true => is_before_unlisted(items, links, after, at),
                    false => is_before(items, links, after, at),
                };
                let mut may_be = all.iter().copied().filter(|at| !renews(*at) && !is_behind(*at));
                // Another part is brought as far as it ever is.
                let is_of_another = !matches!(&state.of, StateOf::Part(part) if *part == item.operation.address.part);
                all = if is_of_another { may_be.next_back() } else { last.or(may_be.next()) }.into_iter().collect();
            }
            if all.is_empty() {
                all.extend(last_of_operation(items, after, state));
            }
            if all.is_empty() && !links.taken_as_done.contains(state) {
                links.taken_as_done.push(state.clone());
            }
            if closes(item) {
                to_the_end(items, links, after, &mut all);
            }
            for before in all {
                links.must(before, after, rest, Because::State(state.clone()));
            }
        }
    }
}

/// Whether work in the job's own words says itself what must be true before it.
fn asks_itself(item: &Item) -> bool {
    item.set_up.steps.iter().any(|step| step.id == "true-before")
}

/// Whether it closes its part for good, so that what is measured or done behind it is out of reach.
fn closes(item: &Item) -> bool {
    [StateKind::Joined, StateKind::Pinned].into_iter().any(|kind| item.leaves(kind))
}

/// What brings a state is done when all of its operation is, its hold points too, where nothing of that must come behind.
fn to_the_end(items: &[Item], links: &Links, after: usize, all: &mut [usize]) {
    for at in all {
        let Some(own) = items.get(*at) else { continue };
        let of_it = (*at + 1..items.len()).take_while(|next| items.get(*next).is_some_and(|it| it.same_operation(own)));
        let last = of_it.filter(|next| *next != after && !is_before(items, links, after, *next)).last();
        *at = last.unwrap_or(*at);
    }
}

/// The last set-up of the operation that a state is said to be of, where that stands in the day and leaves no such state by name: it is done
/// when all of it is.
fn last_of_operation(items: &[Item], after: usize, state: &State) -> Option<usize> {
    let StateOf::Operation(address) = &state.of else { return None };
    let own = items.get(after)?;
    items.iter().rposition(|item| item.operation.address == *address && !item.same_operation(own))
}

/// A size that is read must be there before it is used.
fn reads(items: &[Item], plans: &[Plan], links: &mut Links) {
    for (after, item) in items.iter().enumerate().filter(|(_, item)| item.sheet.2 == 0) {
        for address in &item.operation.of_day.reads {
            let Named::SetUps(befores) = named(items, plans, address) else { continue };
            let is_other = |before: &usize| !items.get(*before).is_some_and(|other| other.same_operation(item));
            for before in befores.into_iter().filter(is_other) {
                // What was made warm or cold is read for the press, and is wanted there.
                let press = || items.iter().position(|other| other.same_operation(item) && other.presses());
                let is_load = items.get(before).is_some_and(Item::passes_off);
                let after = if is_load { press().unwrap_or(after) } else { after };
                // A part that was just cut is warm: what is read cool waits for it.
                let is_cut = items.get(before).is_some_and(|other| other.set_up.cuts().next().is_some());
                let rest = item.set_up.rest.filter(|_| is_cut).map_or(0, |rest| rounded(rest.minutes));
                links.must(before, after, rest, Because::Reads(address.clone()));
            }
        }
    }
}

/// A diameter on which a part is held is made before, and stands until then; a size that somebody goes by at another name is made before
/// that: as the file has it, where nothing else is against it.
fn held_on(items: &[Item], plans: &[Plan], links: &mut Links) {
    let last_of = |address: &Address| match named(items, plans, address) {
        Named::SetUps(all) => all.last().copied(),
        Named::LeftOut(_) | Named::Unknown => None,
    };
    let first_of = |address: &Address| items.iter().position(|item| item.operation.address == *address);
    for (own, item) in items.iter().enumerate().filter(|(_, item)| item.sheet.2 == 0) {
        let of_day = &item.operation.of_day;
        let sized = of_day.sized_by.iter().filter_map(|by| Some((last_of(by)?, own, Because::SizedBy(by.clone()))));
        let makers = of_day.held_on.iter().filter_map(|by| Some((last_of(by)?, own, Because::HeldOn(by.clone()))));
        let holds = || Because::CutsTheGrip(item.operation.address.clone());
        let last = last_of(&item.operation.address);
        let cutters = of_day.grip_cut_by.iter().filter_map(|by| Some((last?, first_of(by)?, holds())));
        let goes_by = || Because::CutsTheSize(item.operation.address.clone());
        let takers = of_day.sizes_cut_by.iter().filter_map(|by| Some((last?, first_of(by)?, goes_by())));
        for (before, after, because) in sized.chain(makers).chain(cutters).chain(takers) {
            if is_before(items, links, after, before) {
                links.not_kept.push(Link { before, after, rest: 0, because });
            } else {
                links.must(before, after, 0, because);
            }
        }
    }
}

/// What the job itself says: `after` of an operation binds its first set-up, that of a set-up just this.
fn own_words(items: &[Item], plans: &[Plan], links: &mut Links) {
    for (after, item) in items.iter().enumerate() {
        let wish = &item.operation.of_day.wish;
        let of_operation = wish.after.iter().filter(|_| item.sheet.2 == 0);
        let of_set_up = wish.times.get(item.set_up.id).and_then(|times| times.after.as_ref());
        for address in of_operation.chain(of_set_up) {
            match named(items, plans, &address.value) {
                Named::SetUps(befores) => befores.into_iter().for_each(|at| links.must(at, after, 0, Because::After)),
                Named::LeftOut(id) => links.behind_left_out.push((after, id)),
                Named::Unknown => links.problems.push(no_set_up(items, address)),
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
