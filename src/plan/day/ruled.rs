//! Rules of order, held between the set-ups of a day.

use super::frame::Because;
use super::items::Item;
use super::link::{Link, Links, Ruled, Wish, is_before, is_before_unlisted};
use super::passing::{MEASURED_FIRST, is_for_a_bush, pushes_out};
use super::rounded;
use crate::handbook::StateKind;
use crate::handbook::order_rules::{self, AsListed, Binds, OrderRule, Scope, Word, Work};
use crate::plan::together::scope::may_be_on_one_feature;
use std::collections::HashSet;

/// The class of what drills an oil hole through a bush.
const OIL_HOLES: &str = "oil-hole-drilling";

/// Whether a rule speaks of work that comes once in a part's life, or again.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Comes {
    Once,
    Again,
}

/// The rules that are not left out, each with what it speaks of.
pub(super) fn ruled(items: &[Item], left_out: &[String]) -> Vec<Ruled> {
    let works: Vec<Work> = items.iter().map(Item::work).collect();
    // Most words stand in many rules.
    let mut known: Vec<(&Word, Vec<usize>)> = Vec::new();
    let mut answers = |word: &'static Word| {
        if let Some((_, own)) = known.iter().find(|(other, _)| *other == word) {
            return own.clone();
        }
        let own: Vec<usize> = (0..).zip(&works).filter(|(_, work)| word.is_in(work)).map(|(at, _)| at).collect();
        known.push((word, own.clone()));
        own
    };
    let rules = order_rules::all().iter().filter(|rule| !left_out.contains(&rule.rule));
    rules.map(|rule| Ruled { rule, befores: answers(&rule.before), afters: answers(&rule.after) }).collect()
}

/// A rule of order, between all that it binds.
pub(super) fn by_rule(items: &[Item], ruled: &Ruled, comes: Comes, links: &mut Links) {
    let Ruled { rule, befores, afters } = ruled;
    for after in afters {
        let both = |at: &usize| befores.contains(at) && afters.contains(at);
        let bound = |before: &&usize| {
            let pair = items.get(**before).zip(items.get(*after));
            *before != after && pair.is_some_and(|(one, other)| binds(items, rule, one, other))
        };
        if rule.scope.has_no_direction() {
            if comes == Comes::Again {
                continue;
            }
            // The nearest in the file: three of them are two pairs.
            let first = befores.iter().filter(bound).rfind(|before| *before < after);
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
            own.retain(|before| before < after || !is_for_a_bush(items, *before));
        }
        if rule.rule == MEASURED_FIRST && pushes_out(items, links, *after) {
            continue;
        }
        if again {
            let all = own.clone();
            own.retain(|before| !is_before(items, links, *after, *before));
            if own.is_empty() && rule.kind == Binds::Must && rule.rest_min == 0.0 {
                own = given_way(items, rule, all, *after, links);
            }
            let mut one = one_of(items, rule, &own, *after, afters);
            let orphans = own.iter().filter(|before| !one.contains(before) && is_orphan(items, rule, **before, afters));
            let orphans: Vec<usize> = orphans.copied().collect();
            one.extend(orphans);
            own = one;
        }
        for before in own {
            match rule.kind {
                Binds::Must => links.must(before, *after, rounded(rule.rest_min), Because::Rule(rule)),
                Binds::Better => links.wishes.push(Wish { rule, first: before, then: *after }),
                Binds::Apart | Binds::Between | Binds::Listed | Binds::Yields => {}
            }
        }
    }
}

/// Of what comes once and gives way to all that is known: what does not where the job's own order is left aside, which gives way to it.
/// The rest is told.
fn given_way(
    items: &[Item],
    rule: &'static OrderRule,
    mut all: Vec<usize>,
    after: usize,
    links: &mut Links,
) -> Vec<usize> {
    all.retain(|before| !comes_again(items, *before));
    let (lost, own): (Vec<usize>, Vec<usize>) =
        all.into_iter().partition(|before| is_before_unlisted(items, links, after, *before));
    let link = |before| Link { before, after, rest: 0, because: Because::Rule(rule) };
    links.not_kept.extend(lost.into_iter().map(link));
    own
}

/// What stands behind a cut in the file, of the kinds that go by that, unless the cut is known to need it.
pub(super) fn as_listed(items: &[Item], rules: &[Ruled], links: &mut Links) {
    // What the job lists comes before what is usual.
    let of =
        |goes_by| rules.iter().filter(move |own| own.rule.binds_as() == Some(goes_by)).map(move |own| (goes_by, own));
    // Where several rows list the same two the first is told.
    let mut seen: HashSet<(usize, usize)> = HashSet::new();
    for (goes_by, Ruled { rule, befores, afters }) in of(AsListed::Kept).chain(of(AsListed::Either)) {
        for after in afters {
            let bound = |before: &&usize| {
                let pair = items.get(**before).zip(items.get(*after));
                let binds = |(one, other): (&Item, &Item)| {
                    let is_in_place = **before < *after || goes_by == AsListed::Either;
                    let is_listed = is_in_place && !is_of_its_bush(one, other);
                    (is_listed || is_of_its_bush(other, one))
                        && !one.same_operation(other)
                        && binds(items, rule, one, other)
                };
                // What is warmed for a press stands where that stands.
                pair.is_some_and(binds) && !is_fetched(items, links, **before)
            };
            let listed = befores.iter().filter(bound).copied().filter(|before| seen.insert((*before, *after)));
            let listed: Vec<usize> = listed.collect();
            let (lost, kept): (Vec<usize>, Vec<usize>) =
                listed.into_iter().partition(|before| is_before(items, links, *after, *before));
            let link = |before| Link { before, after: *after, rest: 0, because: Because::Rule(rule) };
            links.not_kept.extend(lost.into_iter().filter(|before| before < after).map(link));
            for before in kept {
                links.must(before, *after, 0, Because::Rule(rule));
            }
        }
    }
}

/// Whether it only makes warm or cold what another set-up takes so.
fn is_fetched(items: &[Item], links: &Links, at: usize) -> bool {
    items.get(at).is_some_and(Item::passes_off)
        && links.musts.iter().any(|link| link.before == at && link.fetches(items))
}

/// Whether the first bores the bush of the other's operation, by the sizes of the two: the hole that it finds is nearer to the bore of the bush
/// than to its outside.
fn is_of_its_bush(bores: &Item, presses: &Item) -> bool {
    let value = |item: &Item, key: &str| Some(item.operation.answer.value(key)?.number);
    let sizes = || Some((value(bores, "present")?, value(presses, "bush_bore")?, value(presses, "bush_outside")?));
    let is_nearer = |(found, bore, outside): (f64, f64, f64)| found < f64::midpoint(bore, outside);
    bores.leaves(StateKind::Bored) && sizes().is_some_and(is_nearer)
}

/// Whether its kind of work comes more than once in a part's life: all that it leaves comes again. A lap leaves its part clean too,
/// and is done once all the same.
pub(super) fn comes_again(items: &[Item], at: usize) -> bool {
    let leaves = || items.get(at).into_iter().flat_map(|item| &item.set_up.leaves);
    leaves().next().is_some() && leaves().all(|state| state.kind.comes_again())
}

/// Of work that comes again: the last before it in the file; where none is, the first after it, unless the later work comes again.
/// Where whole operations are meant, all of that operation.
fn one_of(items: &[Item], rule: &OrderRule, befores: &[usize], after: usize, afters: &[usize]) -> Vec<usize> {
    let whole = |one: usize| -> Vec<usize> {
        let is_whole = matches!(rule.before, Word::Operation(_));
        let of_one = |at: usize| items.get(at).zip(items.get(one)).is_some_and(|(own, one)| own.same_operation(one));
        befores.iter().copied().filter(|at| *at == one || is_whole && of_one(*at)).collect()
    };
    if let Some(last) = befores.iter().copied().rfind(|before| *before < after) {
        return whole(last);
    }
    let again = |other: &&usize| {
        let pair = items.get(**other).zip(items.get(after));
        **other > after && pair.is_some_and(|(one, other)| binds(items, rule, one, other))
    };
    if afters.iter().any(|other| again(&other)) {
        Vec::new()
    } else {
        befores.first().map_or_else(Vec::new, |first| whole(*first))
    }
}

/// Whether it comes once, and stands in the file behind every later work that it may have to come before: nobody says of which, and
/// it comes before them all. An old bush that is pushed out below two new ones may be in the way of either.
fn is_orphan(items: &[Item], rule: &OrderRule, before: usize, afters: &[usize]) -> bool {
    let Some(own) = items.get(before) else { return false };
    let follows =
        |after: &&usize| **after > before && items.get(**after).is_some_and(|other| binds(items, rule, own, other));
    matches!(rule.after, Word::Step(_)) && !comes_again(items, before) && !afters.iter().any(|after| follows(&after))
}

/// Whether two parts are bolted together as their jobs say: left out it is the job's own; where it is typed it holds over all jobs that are
/// given.
fn is_one_assembly(one: &Item, other: &Item) -> bool {
    let typed = |item: &Item| item.operation.of_day.assembly.is_some();
    let name = |item: &'_ Item<'_>| item.operation.of_day.assembly.clone().unwrap_or_else(|| item.plan.job.clone());
    if typed(one) || typed(other) { name(one) == name(other) } else { one.sheet.0 == other.sheet.0 }
}

/// Whether a rule is held between two set-ups of a day.
fn binds(items: &[Item], rule: &OrderRule, one: &Item, other: &Item) -> bool {
    let feature = |item: &'_ Item<'_>| item.operation.of_day.wish.feature.as_ref().map(|at| at.value.key().to_owned());
    match rule.scope {
        Scope::Shop => true,
        Scope::Part => one.same_part(other),
        Scope::Elsewhere => {
            let named = feature(one).zip(feature(other));
            one.same_part(other) && named.is_some_and(|(own, other)| own != other)
        }
        Scope::Assembly => {
            // A part of two jobs is one part: what it is bolted to in either is bolted to it.
            let of_part = |own: &Item| -> Vec<&Item> { items.iter().filter(|item| item.same_part(own)).collect() };
            let (ones, others) = (of_part(one), of_part(other));
            ones.iter().any(|one| others.iter().any(|other| is_one_assembly(one, other)))
        }
        Scope::Pair => {
            let half = |item: &Item, of: &Item| item.operation.of_day.partner.as_ref() == Some(&of.operation.address);
            half(one, other) && half(other, one)
        }
        Scope::Clamping => !one.same_operation(other) && one.same_part(other) && is_held_as(one, other),
        Scope::Feature => {
            let own = named_for(items, &rule.before, one).then(|| feature(one)).flatten();
            let its = named_for(items, &rule.after, other).then(|| feature(other)).flatten();
            let may_be = || may_be_on_one_feature(rule, (own.as_deref(), &one.work()), (its.as_deref(), &other.work()));
            one.same_operation(other) || (one.same_part(other) && may_be())
        }
    }
}

/// Whether two set-ups hold their part alike on one machine: what it carries of tools is no matter of the part's.
fn is_held_as(one: &Item, other: &Item) -> bool {
    one.set_up.station == other.set_up.station
        && one.set_up.machine == other.set_up.machine
        && !one.set_up.rigging.is_empty()
        && one.set_up.rigging == other.set_up.rigging
}

/// Whether the feature that a set-up names says where it works, as far as a rule goes: an oil hole has a name of its own, which says nothing
/// of the bore that it opens into, unless other work of its part names that place too.
fn named_for(items: &[Item], word: &Word, own: &Item) -> bool {
    let is_oil_hole = matches!(word, Word::Class(class) if class.class == OIL_HOLES);
    let feature = |item: &'_ Item<'_>| item.operation.of_day.wish.feature.as_ref().map(|at| at.value.key().to_owned());
    let shares = |item: &Item| item.same_part(own) && !item.same_operation(own) && feature(item) == feature(own);
    !is_oil_hole || items.iter().any(shares)
}
