//! What stands outside the day: what must not be cut or fitted, and all that needs it.

use super::carried::has_room;
use super::done::Done;
use super::frame::{Assumed, Stop};
use super::items::Item;
use super::known::Known;
use super::link::Link;
use super::passing::brought;
use crate::handbook::StateKind;
use crate::plan::{Planned, ShopOfDay};
use crate::proof::Verdict;

/// Why a set-up is out, and the number of the one that stops it.
pub(super) type Out = Option<(Stop, usize)>;

/// The rule by which a part is parted off behind all that is cut on it.
const PARTED_LAST: &str = "part-off-last";

/// What is out, set-up by set-up; and what comes late behind something that is done, and is to be done all the same.
pub(super) fn stopped(known: &Known, done: &Done, assumed: &mut Vec<Assumed>) -> (Vec<Out>, Vec<Assumed>) {
    let Known { items, links, shop } = *known;
    let mut out: Vec<Out> = items.iter().map(|_| None).collect();
    for (at, item) in items.iter().enumerate() {
        if let Some(reason) = too_large(item, shop, assumed) {
            put(&mut out, at, (Stop::DoNotFit(vec![reason]), at));
        } else if item.operation.verdict == Verdict::Fails {
            fails(items, at, &mut out);
        } else if nothing_warms(items, at) {
            put(&mut out, at, (Stop::NothingWarmsIt, at));
        }
    }
    links.behind_left_out.iter().for_each(|(at, _)| put(&mut out, *at, (Stop::WaitsFor, *at)));
    // What is done is done, whatever was to be said of it; but with what fails nothing goes on.
    let fails = |at: usize| items.get(at).is_some_and(|item| item.operation.verdict == Verdict::Fails);
    out.iter_mut().enumerate().filter(|(at, _)| done.is(*at) && !fails(*at)).for_each(|(_, out)| *out = None);
    let (too_late, late) = done.late(items, &links.musts);
    too_late.into_iter().for_each(|(at, behind, because)| put(&mut out, at, (Stop::TooLate(because), behind)));
    spread(known, done, &mut out);
    (out, late)
}

/// All that must come after what is out is out, and what is made warm or cold for nothing.
pub(super) fn spread(known: &Known, done: &Done, out: &mut [Out]) {
    loop {
        spread_on(known, done, out);
        let next = (0..known.items.len()).find_map(|at| Some((at, for_nothing(known, done, out, at)?)));
        let Some((at, cause)) = next else { return };
        put(out, at, (Stop::NotFetched, cause));
    }
}

/// The one that stops the first set-up that would fetch a load, where all of these are out; none where the load serves another
/// purpose.
fn for_nothing(known: &Known, done: &Done, out: &[Out], at: usize) -> Option<usize> {
    let is_out = |at: usize| out.get(at).is_some_and(Option::is_some);
    let leaves = &known.items.get(at).filter(|_| !is_out(at) && !done.is(at))?.set_up.leaves;
    let fetches = |link: &&Link| link.before == at && link.fetches(known.items);
    let mut fetchers = known.links.musts.iter().filter(fetches).map(|link| link.after).peekable();
    let first = *fetchers.peek()?;
    let none = leaves.iter().all(|state| state.kind.passes()) && fetchers.all(|at| is_out(at) || done.is(at));
    none.then(|| out.get(first).and_then(|out| out.as_ref()).map_or(first, |(_, cause)| *cause))
}

fn spread_on(known: &Known, done: &Done, out: &mut [Out]) {
    // Work of the bench that came too late stops nothing: it was to serve what is done.
    let is_nothing = |(stop, at): (&Stop, usize)| {
        matches!(stop, Stop::TooLate(_)) && known.items.get(at).is_some_and(Item::only_measures)
    };
    loop {
        let is_out = |at: usize| out.get(at).is_some_and(Option::is_some);
        let stops = |at: usize| out.get(at).and_then(Option::as_ref).is_some_and(|(stop, _)| !is_nothing((stop, at)));
        // What is parted off is held no more for what could not be cut before.
        let parted = known.links.wishes.iter().filter(|wish| wish.rule.rule == PARTED_LAST);
        let parted = parted.map(|wish| (wish.first, wish.then));
        let mut links = known.links.musts.iter().map(|link| (link.before, link.after)).chain(parted);
        let next = links.find(|(before, after)| stops(*before) && !is_out(*after) && !done.is(*after));
        let Some((before, after)) = next else { return };
        // The first cause is named, not what stands between.
        let cause = match out.get(before).and_then(Option::as_ref) {
            Some((Stop::TooLate(_), _)) | None => before,
            Some((_, cause)) => *cause,
        };
        put(out, after, (Stop::WaitsFor, cause));
    }
}

fn put(out: &mut [Out], at: usize, why: (Stop, usize)) {
    if let Some(slot) = out.get_mut(at)
        && slot.is_none()
    {
        *slot = Some(why);
    }
}

/// A set-up of an operation that fails: before the one that stops it, what only measures may be done.
fn fails(items: &[Item], at: usize, out: &mut [Out]) {
    let Some(item) = items.get(at) else { return };
    let first = at - item.sheet.2;
    let stops = first + stops(item);
    // What the log says is over is not measured again, whatever came of it.
    let is_over = || item.plan.worked.iter().any(|own| own.at == (item.sheet.1, item.sheet.2) && own.is_done);
    if at < stops && item.only_measures() && !is_over() {
        return;
    }
    if at == stops {
        let reasons = reasons(item.operation);
        let cuts = item.cuts_metal() && item.operation.spoilt.is_none();
        let stop = if cuts { Stop::DoNotCut(reasons) } else { Stop::DoNotFit(reasons) };
        put(out, at, (stop, at));
    } else {
        let stop = if at > stops { Stop::WaitsFor } else { Stop::OperationFails };
        put(out, at, (stop, stops));
    }
}

/// Whether a set-up needs its part warm, and no set-up makes it so: nobody comes into the shop to a hot casting. A bush may be cold in a
/// minute.
fn nothing_warms(items: &[Item], at: usize) -> bool {
    let needs = items.get(at).into_iter().flat_map(|item| &item.set_up.needs);
    { needs }.any(|state| state.kind == StateKind::Warm && brought(items, at, state).is_empty())
}

/// The set-up of an operation that stops it: the first that owns what fails, else its first.
fn stops(item: &Item) -> usize {
    let answer = &item.operation.answer;
    let failing = answer.checks.iter().filter(|check| check.stamps() == Some(Verdict::Fails));
    failing.filter_map(|check| answer.owner_of(check.id)).min().unwrap_or(0)
}

/// What fails, in words.
pub(super) fn reasons(operation: &Planned) -> Vec<String> {
    let answer = &operation.answer;
    let failing = answer.checks.iter().filter(|check| check.stamps() == Some(Verdict::Fails));
    let asks = failing.map(|check| check.asks.clone());
    asks.chain(answer.refused.as_ref().map(ToString::to_string)).collect()
}

/// A part that is too long for the oven, or asks more places than there are.
fn too_large(item: &Item, shop: Option<&ShopOfDay>, assumed: &mut Vec<Assumed>) -> Option<String> {
    let stands = item.stands(shop);
    if !has_room(stands.kind) || item.set_up.tail.is_none() {
        return None;
    }
    let room = stands.room.unwrap_or(1);
    if item.operation.of_day.places.is_some_and(|places| places > room) {
        return Some(format!("{} too small: {room}", stands.kind));
    }
    let inside = stands.inside?;
    let Some(longest) = &item.operation.of_day.longest else {
        assumed.push(Assumed::GoesIn(item.operation.address.part.clone(), stands.name));
        return None;
    };
    let longest = crate::quantity::Quantity::number(longest.value);
    (longest > inside).then(|| format!("{} too small", stands.kind))
}
