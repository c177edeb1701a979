//! A part in an oven or freezer is nowhere else, and what is warm is not worked: of what comes in the day, and of what is done
//! already when it begins.

use super::carried::{Wants, has_room, number_of};
use super::frame::{Assumed, Because};
use super::ground::{Ground, is_in};
use super::items::{Item, Stands};
use super::known::{Known, bars, kept_by};
use super::link::{Link, Ruled, is_before};
use super::rounded;
use super::search::{Apart, Inside, Minute, Piece, Takes};
use crate::handbook::StateKind;
use crate::handbook::order_rules::Word;

/// What stands apart in the day.
pub(super) fn apart(known: &Known, item_of: &[usize]) -> Vec<Apart> {
    let mut all = Vec::new();
    for (load, at) in item_of.iter().enumerate() {
        for (other, own) in item_of.iter().enumerate() {
            all.extend(bars(known, *at, *own).map(|(rest, _)| Apart { load, other, rest }));
        }
    }
    all
}

/// The earliest at which a set-up may begin by what is done already: the rest behind that, what still runs unattended of it, and
/// parts that are warm, or away.
pub(super) fn not_before(ground: &Ground, item: usize) -> Minute {
    let known = &ground.known;
    let release = |link: &Link| Some(over(ground, link.before)? + link.rest);
    let own = known.links.musts.iter().filter(|link| link.after == item).filter_map(release);
    let cold = |load: usize| {
        let (rest, _) = bars(known, load, item)?;
        let over = match fetched(ground, load) {
            Fetched::At(time) => time,
            Fetched::By(_) => return None,
            Fetched::Never => over(ground, load)?,
        };
        Some(over + rest)
    };
    let came_out = ground.done.came_out.iter();
    let came_out = came_out.filter_map(|(load, out)| Some(out + bars(known, *load, item)?.0));
    let all = own.chain((0..known.items.len()).filter_map(cold)).chain(came_out);
    all.chain(cool_from(ground, item)).max().unwrap_or_default()
}

/// What is done, and lets a set-up go.
pub(super) struct LetGo {
    /// Which.
    pub by: usize,
    /// When it is over, or its part was fetched.
    pub over: Minute,
    /// The rest after that.
    pub rest: Minute,
    /// Why.
    pub because: Because,
}

/// What is done already and lets a set-up go last.
pub(super) fn let_go(ground: &Ground, item: usize) -> Option<LetGo> {
    let known = &ground.known;
    let own = known.links.musts.iter().filter(|link| link.after == item).filter_map(|link| {
        let over = over(ground, link.before)?;
        Some(LetGo { by: link.before, over, rest: link.rest, because: link.because.clone() })
    });
    let apart = |load: usize| {
        let (rest, rule) = bars(known, load, item)?;
        let over = match fetched(ground, load) {
            Fetched::At(time) => time,
            Fetched::By(_) => return None,
            Fetched::Never => over(ground, load)?,
        };
        Some(LetGo { by: load, over, rest, because: kept_by(known, load, rule) })
    };
    own.chain((0..known.items.len()).filter_map(apart)).max_by_key(|own| own.over + own.rest)
}

/// When a part that is warm as the day begins is cold enough to be measured or cut: by what is said of it where it is measured.
fn cool_from(ground: &Ground, item: usize) -> Option<Minute> {
    let Known { items, links, .. } = ground.known;
    let own = items.get(item)?;
    let by_warmth = |own: &Ruled| own.rule.before == Word::State(StateKind::Warm) && own.afters.contains(&item);
    let is_cold_work = links.apart.iter().any(by_warmth);
    let says = |(at, other): (usize, &Item)| {
        let is_warm = other.set_up.is_warm_now && other.same_part(own) && !ground.done.is(at);
        let rest = other.set_up.rest.filter(|_| is_warm && (at == item || is_cold_work))?;
        Some(ground.times.start + rounded(rest.minutes))
    };
    items.iter().enumerate().filter_map(says).max()
}

/// What comes after a part is fetched that was made warm, or is away, when the hands begin.
pub(super) fn behind_what_is_warm(ground: &Ground, item_of: &[usize]) -> Vec<Link> {
    let known = &ground.known;
    let mut all = Vec::new();
    for load in (0..known.items.len()).filter(|at| ground.done.is(*at)) {
        let Fetched::By(fetcher) = fetched(ground, load) else { continue };
        let runs = known.items.get(fetcher).and_then(|own| own.set_up.tail).map_or(0, |tail| rounded(tail.minutes));
        for other in item_of.iter().copied().filter(|other| *other != fetcher) {
            let Some((rest, rule)) = bars(known, load, other) else { continue };
            if !is_before(known.items, known.links, other, fetcher) {
                let because = kept_by(known, load, rule);
                all.push(Link { before: fetcher, after: other, rest: rest.saturating_sub(runs), because });
            }
        }
    }
    all
}

/// How what is done, and was made warm or cold, comes out.
enum Fetched {
    /// It is out since then.
    At(Minute),
    /// A set-up of the day fetches it.
    By(usize),
    /// It comes out when its time is over.
    Never,
}

fn fetched(ground: &Ground, load: usize) -> Fetched {
    let known = &ground.known;
    let own = |link: &&Link| link.before == load && link.fetches(known.items);
    let fetchers = || known.links.musts.iter().filter(own);
    let done = fetchers().filter_map(|link| ground.done.at(link.after)).max();
    let in_day = |wanted: bool| {
        let own = fetchers().filter(move |link| !wanted || link.is_wanted()).map(|link| link.after);
        own.filter(|fetcher| is_in(ground, *fetcher)).min_by_key(|fetcher| (*fetcher < load, *fetcher))
    };
    match (done, in_day(true).or_else(|| in_day(false))) {
        (Some(time), _) => Fetched::At(time),
        (None, Some(fetcher)) => Fetched::By(fetcher),
        (None, None) => Fetched::Never,
    }
}

/// When what is done is over with its tail: where something that waited for it is done too, before that began.
fn over(ground: &Ground, item: usize) -> Option<Minute> {
    let known = &ground.known;
    let set_up = |at: usize| known.items.get(at).map(|item| item.set_up);
    let began = |link: &Link| Some(ground.done.at(link.after)?.saturating_sub(rounded(set_up(link.after)?.minutes?)));
    let followed = known.links.musts.iter().filter(|link| link.before == item).filter_map(began).min();
    let tail = set_up(item)?.tail.map_or(0, |tail| rounded(tail.minutes));
    Some(followed.unwrap_or(Minute::MAX).min(ground.done.at(item)? + tail))
}

/// What lies in the freezer while its mate is in the oven takes one place there: a bush, not the part that the job speaks of.
pub(super) fn beside(
    ground: &Ground,
    item_of: &[usize],
    (pieces, machines): (&mut [Piece], &mut Vec<(Stands, Wants)>),
    assumed: &mut Vec<Assumed>,
) {
    let Known { items, shop, .. } = &ground.known;
    for (piece, item) in pieces.iter_mut().zip(item_of) {
        let Some(stands) = items.get(*item).and_then(|item| item.beside(*shop)) else { continue };
        if stands.room.is_none() {
            assumed.push(Assumed::Room(stands.name.clone(), 1));
        }
        piece.beside = Some(Takes { machine: number_of(machines, &stands), want: None, places: 1 });
    }
}

/// What is done, and is in an oven or freezer still: until it is fetched, or over.
pub(super) fn inside(
    ground: &Ground,
    machines: &mut [(Stands, Wants)],
    piece_of: &dyn Fn(usize) -> Option<usize>,
    assumed: &mut Vec<Assumed>,
) -> Vec<Inside> {
    let Known { items, shop, .. } = &ground.known;
    let mut all = Vec::new();
    for (at, item) in items.iter().enumerate().filter(|(at, _)| ground.done.is(*at)) {
        let fetcher = match fetched(ground, at) {
            Fetched::At(_) => continue,
            Fetched::By(fetcher) => Some(fetcher),
            Fetched::Never => None,
        };
        let fetched_by = fetcher.and_then(piece_of);
        let Some(over) = over(ground, at).filter(|_| item.set_up.tail.is_some()) else { continue };
        if fetched_by.is_none() && over <= ground.times.start {
            continue;
        }
        if let Some(fetcher) = fetcher.and_then(|fetcher| items.get(fetcher)) {
            assumed.push(Assumed::StillIn(item.id(), item.stands(*shop).name, fetcher.id()));
        }
        let places = item.operation.of_day.places.unwrap_or(1);
        for (stands, places) in [(Some(item.stands(*shop)), places), (item.beside(*shop), 1)] {
            let Some(stands) = stands.filter(|stands| has_room(stands.kind)) else { continue };
            let machine = machines.iter_mut().enumerate().find(|(_, (known, _))| known.name == stands.name);
            let Some((machine, (_, wants))) = machine else { continue };
            let want = wants.number(item, &stands, *shop, assumed);
            all.push(Inside { takes: Takes { machine, want, places }, over, fetched_by });
        }
    }
    all
}
