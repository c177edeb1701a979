//! What is known of a day before it is planned, and what a part that is warm or away keeps from coming.

use super::carried::has_room;
use super::frame::Because;
use super::items::Item;
use super::link::{Link, Links, Ruled};
use super::rounded;
use super::search::Minute;
use crate::handbook::StateKind;
use crate::handbook::order_rules::{OrderRule, Scope};
use crate::operations::Station;
use crate::plan::ShopOfDay;

/// What the reading of a day's links is done on.
#[derive(Clone, Copy)]
pub(super) struct Known<'a> {
    /// All set-ups.
    pub items: &'a [Item<'a>],
    /// What stands between them.
    pub links: &'a Links,
    /// The shop.
    pub shop: Option<&'a ShopOfDay>,
}

/// Whether a set-up stands before another that makes its part, or the shop, warm, takes it away or works it, or after it with some rest: how
/// long that is, and by which rule. Not what fetches it.
pub(super) fn bars(known: &Known, load: usize, other: usize) -> Option<(Minute, Option<&'static OrderRule>)> {
    let (one, own) = known.items.get(load).zip(known.items.get(other))?;
    let fetches = |link: &Link| (link.before, link.after) == (load, other) && link.fetches(known.items);
    if load == other || known.links.musts.iter().any(fetches) {
        return None;
    }
    let is_one_part = own.same_part(one);
    if is_its_mate(known, (load, one), (other, own)) {
        return None;
    }
    let reaches = |ruled: &&Ruled| is_one_part || ruled.rule.scope == Scope::Shop;
    let binds = |ruled: &&Ruled| ruled.befores.contains(&load) && ruled.afters.contains(&other);
    let rules = known.links.apart.iter().filter(reaches).filter(binds);
    match rules.map(|ruled| ruled.rule).max_by_key(|rule| rounded(rule.rest_min)) {
        // What is cut or measured cold says itself how long its metal cools.
        Some(rule) if one.leaves(StateKind::Warm) => {
            let own_rest = own.set_up.rest.map_or(0, |rest| rounded(rest.minutes));
            Some((rounded(rule.rest_min).max(own_rest), Some(rule)))
        }
        Some(rule) => Some((rounded(rule.rest_min), Some(rule))),
        None if is_one_part && is_away(known, one) => Some((cools_off(one, own).unwrap_or(0), None)),
        None => cools_off(one, own).map(|rest| (rest, None)),
    }
}

/// The rest of a fit that is measured, behind work on either of its parts: a hand on it, and every cut, warms it.
fn cools_off(work: &Item, fit: &Item) -> Option<Minute> {
    if !fit.leaves(StateKind::FitMeasured) || !works(work) {
        return None;
    }
    let part = &work.operation.address.part;
    let is_read = || fit.operation.of_day.reads.iter().any(|address| address.part == *part);
    (work.same_part(fit) || is_read()).then(|| fit.set_up.rest.map_or(0, |rest| rounded(rest.minutes)))
}

/// Whether a part is worked by it, by a machine or rubbed by hand, and not only looked at.
fn works(item: &Item) -> bool {
    let is_rubbed = [StateKind::Lapped, StateKind::Reamed, StateKind::InsertFitted].into_iter();
    let is_cut = item.set_up.cuts().next().is_some() || item.set_up.station != Station::Bench;
    !item.passes_off() && (is_cut || is_rubbed.into_iter().any(|kind| item.leaves(kind)))
}

/// Why a set-up keeps another from coming: by its rule, else because it works a part that is to be as cool as the other, or its part lies in
/// an oven or freezer, or is let alone where it stands.
pub(super) fn kept_by(known: &Known, load: usize, rule: Option<&'static OrderRule>) -> Because {
    let is_inside = |item: &Item| has_room(item.stands(known.shop).kind);
    match rule {
        Some(rule) => Because::Rule(rule),
        None if known.items.get(load).is_some_and(|item| !is_away(known, item)) => Because::Worked,
        None if known.items.get(load).is_none_or(is_inside) => Because::Away,
        None => Because::LetAlone,
    }
}

/// Whether two loads go together in one press, one warm and one cold: they are two pieces, a housing and what drops into it.
fn is_its_mate(known: &Known, (load, one): (usize, &Item), (other, own): (usize, &Item)) -> bool {
    let only = |item: &Item, kind| item.passes_off() && item.set_up.leaves.iter().all(|state| state.kind == kind);
    let are = |warm, cold| only(warm, StateKind::Warm) && only(cold, StateKind::Cold);
    let fetched_by = |by: usize, load: usize| {
        known.links.musts.iter().any(|link| (link.before, link.after) == (load, by) && link.fetches(known.items))
    };
    let of_load = known.links.musts.iter().filter(|link| link.before == load && fetched_by(link.after, load));
    (are(one, own) || are(own, one)) && { of_load }.any(|link| fetched_by(link.after, other))
}

/// Whether its part lies in an oven or freezer behind it, or is let alone elsewhere: what cures is not worked.
fn is_away(known: &Known, item: &Item) -> bool {
    let has_tail = item.set_up.tail.is_some_and(|tail| rounded(tail.minutes) > 0);
    has_tail && (item.takes_part() || !has_room(item.stands(known.shop).kind))
}
