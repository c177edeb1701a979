//! The model of a day out of its set-ups.

use super::asked::Asked;
use super::carried::{Wants, has_room};
use super::frame::Assumed;
use super::items::{Item, Stands};
use super::links::{self, Link, Links};
use super::rounded;
use super::search::{Apart, Better, DAY, Edge, Holding, Inside, Machine, Minute, Piece, Spec, Takes};
use super::stopped::Out;
use super::times::Times;
use crate::handbook::StateKind;
use crate::handbook::constants::constant;
use crate::handbook::order_rules::{OrderRule, Scope};
use crate::plan::ShopOfDay;
use crate::proof::At;
use crate::quantity::{Minutes, Moment};
use crate::reading::{Problem, near};

/// A day made ready for the search.
pub(super) struct Made {
    /// What the search is given.
    pub spec: Spec,
    /// The set-up of each piece, by its number among all.
    pub item_of: Vec<usize>,
    /// Where each machine of the model stands, and what it must carry.
    pub machines: Vec<(Stands, Wants)>,
    /// Which pieces have minutes that nobody knows.
    pub not_known: Vec<bool>,
    /// Which wish stands behind each of [`Spec::better`].
    pub wishes: Vec<usize>,
}

/// What the making looks at.
pub(super) struct Ground<'a> {
    /// All set-ups.
    pub items: &'a [Item<'a>],
    /// What stands between them.
    pub links: &'a Links,
    /// What is out.
    pub out: &'a [Out],
    /// The clock.
    pub times: &'a Times,
    /// The shop.
    pub shop: Option<&'a ShopOfDay>,
    /// What was asked.
    pub asked: &'a Asked,
    /// When each set-up that is done was done.
    pub done: Vec<Option<Minute>>,
}

/// When each set-up that is done was done; what nobody says was done when the hands begin.
///
/// # Errors
/// Ids that no set-up has.
pub(super) fn done(
    items: &[Item],
    asked: &Asked,
    start: Minute,
    assumed: &mut Vec<Assumed>,
) -> Result<Vec<Option<Minute>>, Vec<Problem>> {
    let mut done: Vec<Option<Minute>> = items.iter().map(|_| None).collect();
    let mut problems = Vec::new();
    for (id, at) in &asked.done {
        match number(items, id) {
            Ok(_) if at.is_some_and(|at| at.minutes() > start) => {
                let (at, from) = (at.map_or(start, crate::quantity::ClockTime::minutes), start % DAY);
                let (at, from) = (crate::quantity::ClockTime::of(at), crate::quantity::ClockTime::of(from));
                let says =
                    format!("`{id}@{at}`: the hands begin at {from}, and it is not done by then; say --from too");
                problems.push(Problem::new(None, says));
            }
            Ok(place) => {
                let time = at.map_or(start, crate::quantity::ClockTime::minutes);
                if at.is_none() {
                    assumed.push(Assumed::DoneAt(id.clone(), start));
                }
                done.get_mut(place).into_iter().for_each(|slot| *slot = Some(time.min(start)));
            }
            Err(problem) => problems.push(problem),
        }
    }
    if problems.is_empty() { Ok(done) } else { Err(problems) }
}

/// What must stand before something that is done, or that is in hand, is done too where the two are of one operation, or where it
/// was made warm or cold for that. Of all else nobody said so: it stays to be done, and the rule that it breaks is named.
pub(super) fn with_all_before(
    items: &[Item],
    musts: &[Link],
    asked: &Asked,
    done: &mut [Option<Minute>],
    assumed: &mut Vec<Assumed>,
) {
    let in_hand = asked.at_work.as_ref().and_then(|id| number(items, id).ok());
    loop {
        let over = |at: usize| done.get(at).copied().flatten().or((in_hand == Some(at)).then_some(0));
        let is_open = |at: usize| done.get(at).is_some_and(Option::is_none) && in_hand != Some(at);
        let of_one = |link: &Link| {
            let pair = items.get(link.before).zip(items.get(link.after));
            pair.is_some_and(|(one, other)| one.same_operation(other) || link.fetches(items))
        };
        let open = || musts.iter().filter(|link| is_open(link.before));
        let next = open().filter(|link| of_one(link)).find_map(|link| Some((link.before, over(link.after)?)));
        let Some((before, when)) = next else {
            for link in open().filter(|link| over(link.after).is_some()) {
                let id = |at: usize| items.get(at).map(Item::id).unwrap_or_default();
                assumed.push(Assumed::ComesLate(id(link.before), id(link.after), link.because.to_string()));
            }
            return;
        };
        if let (Some(slot), Some(item)) = (done.get_mut(before), items.get(before)) {
            *slot = Some(when);
            assumed.push(Assumed::DoneAt(item.id(), when));
        }
    }
}

/// What was made warm or cold and is not fetched yet is done again where it is so no more: it was on another day, or nobody was there
/// when its time was over. `all`: whatever the time.
pub(super) fn done_again(
    (items, musts): (&[Item], &[Link]),
    times: &Times,
    all: bool,
    done: &mut [Option<Minute>],
    assumed: &mut Vec<Assumed>,
) -> bool {
    let is_done = |done: &[Option<Minute>], at: usize| done.get(at).is_some_and(Option::is_some);
    let mut again = false;
    for (at, item) in items.iter().enumerate() {
        let Some((when, tail)) = done.get(at).copied().flatten().zip(item.set_up.tail) else { continue };
        let mut fetchers = musts.iter().filter(|link| link.before == at && link.fetches(items)).peekable();
        if fetchers.peek().is_none() || fetchers.any(|link| is_done(done, link.after)) {
            continue;
        }
        let over = when + rounded(tail.minutes);
        let today = when > 0 && over.saturating_sub(1) / DAY == times.start / DAY;
        let was_watched = !tail.watched || over <= times.clock.closing(when.saturating_sub(1));
        if all || !today || !was_watched {
            done.get_mut(at).into_iter().for_each(|slot| *slot = None);
            assumed.push(Assumed::Again(item.id()));
            again = true;
        }
    }
    again
}

/// The set-up of an id.
///
/// # Errors
/// Where no set-up has it.
pub(super) fn number(items: &[Item], id: &str) -> Result<usize, Problem> {
    let ids: Vec<String> = items.iter().map(Item::id).collect();
    ids.iter().position(|known| known == id.trim()).ok_or_else(|| {
        let known = near(id, ids.iter().map(String::as_str));
        Problem::new(None, format!("no set-up has the id `{id}`; {known}"))
    })
}

/// Makes the model's parts.
///
/// # Errors
/// Times that cannot be placed, machines that nobody has.
pub(super) fn made(ground: &Ground, assumed: &mut Vec<Assumed>) -> Result<Made, Vec<Problem>> {
    let is_in =
        |at: usize| ground.out.get(at).is_some_and(Option::is_none) && ground.done.get(at).is_some_and(Option::is_none);
    let item_of: Vec<usize> = (0..ground.items.len()).filter(|at| is_in(*at)).collect();
    let piece_of = |item: usize| item_of.iter().position(|own| *own == item);
    let mut machines: Vec<(Stands, Wants)> = Vec::new();
    let (mut pieces, mut not_known, mut problems) = (Vec::new(), Vec::new(), Vec::new());
    for at in &item_of {
        let Some(item) = ground.items.get(*at) else { continue };
        let stands = item.stands(ground.shop);
        let machine = number_of(&mut machines, &stands);
        let want = machines.get_mut(machine).and_then(|(_, wants)| wants.number(item, &stands, ground.shop, assumed));
        if has_room(stands.kind) && stands.room.is_none() {
            assumed.push(Assumed::Room(stands.name.clone(), 1));
        }
        let mut piece = Piece {
            id: item.id(),
            machine,
            want,
            places: item.operation.of_day.places.unwrap_or(1),
            ..Piece::default()
        };
        not_known.push(minutes(item, &mut piece, assumed));
        problems.extend(own_times(ground, item, &mut piece).err());
        piece.not_before = piece.not_before.max(after_what_is_done(ground, *at));
        pieces.push(piece);
    }
    beside(ground, &item_of, (&mut pieces, &mut machines), assumed);
    let inside = inside(ground, &mut machines, &piece_of, assumed);
    let at_work = ground.asked.at_work.as_ref().map(|id| number(ground.items, id)).transpose();
    match at_work {
        Ok(Some(item)) => {
            let start = ground.times.start;
            piece_of(item).and_then(|at| pieces.get_mut(at)).into_iter().for_each(|piece| piece.at = Some(start));
        }
        Ok(None) => {}
        Err(problem) => problems.push(problem),
    }
    let models = models(ground, &machines, (&pieces, &inside), piece_of(at_work_item(ground)), &mut problems);
    if !problems.is_empty() {
        return Err(problems);
    }
    let edge = |(rule, link): (usize, &Link)| {
        Some(Edge { before: piece_of(link.before)?, after: piece_of(link.after)?, rest: link.rest, rule })
    };
    let wish = |(at, wish): (usize, &super::links::Wish)| {
        let (first, then) = (piece_of(wish.first)?, piece_of(wish.then)?);
        let together = wish.rule.scope == Scope::Pair;
        Some((at, if together { Better::Together(first, then) } else { Better::Before(first, then) }))
    };
    let (wishes, better) = ground.links.wishes.iter().enumerate().filter_map(wish).unzip();
    let order = ground.asked.like.iter().filter_map(|id| piece_of(number(ground.items, id).ok()?));
    let spec = Spec {
        machines: models,
        edges: ground.links.musts.iter().enumerate().filter_map(edge).collect(),
        better,
        fetched_by: fetchers(ground, &pieces, &piece_of),
        inside,
        apart: apart(ground, &machines, &pieces, &item_of),
        holdings: holdings(ground, &pieces, &piece_of),
        at_once: at_once(ground, &pieces, &piece_of),
        order_before: order.collect(),
        clock: ground.times.clock.clone(),
        start: ground.times.start,
        pieces,
    };
    Ok(Made { spec, item_of, machines, not_known, wishes })
}

fn at_work_item(ground: &Ground) -> usize {
    ground.asked.at_work.as_ref().and_then(|id| number(ground.items, id).ok()).unwrap_or(usize::MAX)
}

/// Minutes of the hands and unattended; whether nobody knows those of the hands.
fn minutes(item: &Item, piece: &mut Piece, assumed: &mut Vec<Assumed>) -> bool {
    let usual = || constant::<Minutes>("minutes-not-known").map_or(0.0, |minutes| minutes.number());
    let not_known = item.set_up.minutes.is_none();
    piece.hands = rounded(item.set_up.minutes.unwrap_or_else(usual));
    if not_known {
        assumed.push(Assumed::Minutes(piece.id.clone(), piece.hands));
    }
    piece.pause = item.set_up.pause;
    if let Some(tail) = item.set_up.tail {
        (piece.tail, piece.watched, piece.tail_holds) = (rounded(tail.minutes), tail.watched, tail.holds);
    }
    not_known
}

/// The times that the job gives it: those of its operation bind the first set-up, `due` the last; its own bind it alone.
fn own_times(ground: &Ground, item: &Item, piece: &mut Piece) -> Result<(), Problem> {
    let wish = &item.operation.of_day.wish;
    let own = wish.times.get(item.set_up.id);
    let is_first = item.sheet.2 == 0;
    let is_last = item.sheet.2 + 1 == item.operation.answer.set_ups.len();
    let placed = |moment: Option<&At<Moment>>| moment.map(|moment| ground.times.minute(moment)).transpose();
    piece.at = placed(own.and_then(|own| own.at.as_ref()).or_else(|| wish.at.as_ref().filter(|_| is_first)))?;
    let not_before =
        own.and_then(|own| own.not_before.as_ref()).or_else(|| wish.not_before.as_ref().filter(|_| is_first));
    piece.not_before = placed(not_before)?.unwrap_or_default();
    piece.due = placed(own.and_then(|own| own.due.as_ref()).or_else(|| wish.due.as_ref().filter(|_| is_last)))?;
    Ok(())
}

/// The rest after what is done already, and what still runs unattended of it.
fn after_what_is_done(ground: &Ground, item: usize) -> Minute {
    let release = |link: &Link| Some(over(ground, link.before)? + link.rest);
    ground.links.musts.iter().filter(|link| link.after == item).filter_map(release).max().unwrap_or_default()
}

/// When what is done is over with its tail: where something that waited for it is done too, before that began.
fn over(ground: &Ground, item: usize) -> Option<Minute> {
    let when = |at: usize| ground.done.get(at).copied().flatten();
    let set_up = |at: usize| ground.items.get(at).map(|item| item.set_up);
    let began = |link: &Link| Some(when(link.after)?.saturating_sub(rounded(set_up(link.after)?.minutes?)));
    let followed = ground.links.musts.iter().filter(|link| link.before == item).filter_map(began).min();
    let tail = set_up(item)?.tail.map_or(0, |tail| rounded(tail.minutes));
    Some(followed.unwrap_or(Minute::MAX).min(when(item)? + tail))
}

/// The number of a machine, put behind the others where it is new.
fn number_of(machines: &mut Vec<(Stands, Wants)>, stands: &Stands) -> usize {
    machines.iter().position(|(known, _)| known.name == stands.name).unwrap_or_else(|| {
        machines.push((stands.clone(), Wants::default()));
        machines.len() - 1
    })
}

/// What lies in the freezer while its mate is in the oven takes one place there: a bush, not the part that the job speaks of.
fn beside(
    ground: &Ground,
    item_of: &[usize],
    (pieces, machines): (&mut [Piece], &mut Vec<(Stands, Wants)>),
    assumed: &mut Vec<Assumed>,
) {
    for (piece, item) in pieces.iter_mut().zip(item_of) {
        let Some(stands) = ground.items.get(*item).and_then(|item| item.beside(ground.shop)) else { continue };
        if stands.room.is_none() {
            assumed.push(Assumed::Room(stands.name.clone(), 1));
        }
        piece.beside = Some(Takes { machine: number_of(machines, &stands), want: None, places: 1 });
    }
}

/// What is done, and is in an oven or freezer still: until it is fetched, or over.
fn inside(
    ground: &Ground,
    machines: &mut [(Stands, Wants)],
    piece_of: &dyn Fn(usize) -> Option<usize>,
    assumed: &mut Vec<Assumed>,
) -> Vec<Inside> {
    let mut all = Vec::new();
    for (at, item) in ground.items.iter().enumerate().filter(|(at, _)| is_done(ground, *at)) {
        let mut fetchers = ground.links.musts.iter().filter(|link| link.before == at && link.fetches(ground.items));
        let fetched_by = fetchers.clone().find_map(|link| piece_of(link.after));
        let is_fetched = fetchers.any(|link| is_done(ground, link.after));
        let Some(over) = over(ground, at).filter(|_| item.set_up.tail.is_some() && !is_fetched) else { continue };
        if fetched_by.is_none() && over <= ground.times.start {
            continue;
        }
        let places = item.operation.of_day.places.unwrap_or(1);
        for (stands, places) in [(Some(item.stands(ground.shop)), places), (item.beside(ground.shop), 1)] {
            let Some(stands) = stands.filter(|stands| has_room(stands.kind)) else { continue };
            let machine = machines.iter_mut().enumerate().find(|(_, (known, _))| known.name == stands.name);
            let Some((machine, (_, wants))) = machine else { continue };
            let want = wants.number(item, &stands, ground.shop, assumed);
            all.push(Inside { takes: Takes { machine, want, places }, over, fetched_by });
        }
    }
    all
}

/// A part in an oven or freezer is nowhere else; one that is warm is not cut or measured to size before it is cold.
fn apart(ground: &Ground, machines: &[(Stands, Wants)], pieces: &[Piece], item_of: &[usize]) -> Vec<Apart> {
    let fetches = |load: usize, other: usize| {
        let own = |link: &&Link| link.before == load && link.after == other;
        ground.links.musts.iter().filter(own).any(|link| link.fetches(ground.items))
    };
    let mut all = Vec::new();
    for (load, piece) in pieces.iter().enumerate() {
        let Some(item) = item_of.get(load).and_then(|at| ground.items.get(*at)) else { continue };
        let is_inside = piece.tail > 0 && machines.get(piece.machine).is_some_and(|(own, _)| has_room(own.kind));
        let is_away = is_inside && item.takes_part();
        if !is_away && !item.leaves(StateKind::Warm) {
            continue;
        }
        for (other, at) in item_of.iter().enumerate().filter(|(other, _)| *other != load) {
            let Some(own) = ground.items.get(*at).filter(|own| own.same_part(item)) else { continue };
            let binds = |rule: &&&OrderRule| rule.before.is_in(&item.work()) && rule.after.is_in(&own.work());
            let rest = ground.links.apart.iter().filter(binds).map(|rule| rounded(rule.rest_min)).max();
            let own_rest = own.set_up.rest.map_or(0, |rest| rounded(rest.minutes));
            let is_fetched = item_of.get(load).is_some_and(|load| fetches(*load, *at));
            if !is_fetched && (is_away || rest.is_some()) {
                all.push(Apart { load, other, rest: rest.map_or(0, |rest| rest.max(own_rest)) });
            }
        }
    }
    all
}

/// What was set true stays in its machine until all that goes on with it there is done: nothing else comes on that machine, and
/// nothing else of that part anywhere.
fn holdings(ground: &Ground, pieces: &[Piece], piece_of: &dyn Fn(usize) -> Option<usize>) -> Vec<Holding> {
    let mut all = Vec::new();
    for (at, item) in ground.items.iter().enumerate().filter(|(_, item)| item.leaves(StateKind::True)) {
        let by = piece_of(at);
        if by.is_none() && !is_done(ground, at) {
            continue;
        }
        let riders: Vec<usize> = links::riders(ground.items, at).into_iter().filter_map(piece_of).collect();
        let Some(machine) = riders.first().and_then(|rider| pieces.get(*rider)).map(|piece| piece.machine) else {
            continue;
        };
        let is_barred = |(other, own): (usize, &Item)| {
            let piece = piece_of(other).filter(|piece| Some(*piece) != by && !riders.contains(piece))?;
            let here = pieces.get(piece).is_some_and(|piece| piece.machine == machine);
            (here || own.same_part(item)).then_some(piece)
        };
        let barred = ground.items.iter().enumerate().filter_map(is_barred).collect();
        all.push(Holding { by, riders, barred });
    }
    all
}

fn is_done(ground: &Ground, at: usize) -> bool {
    ground.done.get(at).is_some_and(Option::is_some)
}

/// The machines of the model, with what each carries at the start.
fn models(
    ground: &Ground,
    machines: &[(Stands, Wants)],
    (pieces, inside): (&[Piece], &[Inside]),
    at_work: Option<usize>,
    problems: &mut Vec<Problem>,
) -> Vec<Machine> {
    let known = || machines.iter().map(|(stands, _)| stands.name.as_str());
    for (stands, _) in machines {
        let told = |(machine, _): &&(String, String)| *machine == stands.name || *machine == stands.kind;
        if ground.asked.rigged.iter().filter(told).count() > 1 {
            problems.push(Problem::new(None, format!("what the {} carries is said twice", stands.name)));
        }
    }
    for (machine, _) in &ground.asked.rigged {
        let kinds = || machines.iter().map(|(stands, _)| stands.kind);
        let of_shop = ground
            .shop
            .is_some_and(|shop| shop.machines.iter().any(|own| own.name == *machine || own.kind == *machine));
        if !known().any(|name| name == machine) && !kinds().any(|kind| kind == machine) && !of_shop {
            problems.push(Problem::new(None, format!("no machine is called `{machine}`; {}", near(machine, known()))));
        }
    }
    let mut all = Vec::new();
    for (number, (stands, wants)) in machines.iter().enumerate() {
        let named = ground.asked.rigged.iter().find(|(machine, _)| *machine == stands.name || *machine == stands.kind);
        let rigging = wants.rigging(stands, named.map(|(_, what)| what.as_str()));
        let mut rigging = rigging.unwrap_or_else(|problem| {
            problems.push(problem);
            super::search::Rigging::default()
        });
        // What is in hand stands on its machine already.
        let in_hand = at_work.and_then(|at| pieces.get(at)).filter(|piece| piece.machine == number);
        let is_inside = inside.iter().map(|own| own.takes).find(|takes| takes.machine == number);
        if let Some(want) = in_hand.and_then(|piece| piece.want).or(is_inside.and_then(|takes| takes.want)) {
            rigging.begin_with(want);
        }
        let room = has_room(stands.kind).then(|| stands.room.unwrap_or(1));
        all.push(Machine { name: stands.name.clone(), room, rigging });
    }
    all
}

/// What is left warm or cold, each with the first set-up that needs it so.
fn passing(ground: &Ground, piece_of: &dyn Fn(usize) -> Option<usize>) -> Vec<(usize, usize)> {
    let passes =
        |link: &Link| Some((piece_of(link.before).filter(|_| link.fetches(ground.items))?, piece_of(link.after)?));
    let mut all: Vec<(usize, usize)> = Vec::new();
    // Of several the first behind it in the file.
    let late = |first: usize, then: usize| (then < first, then);
    for (first, then) in ground.links.musts.iter().filter_map(passes) {
        match all.iter_mut().find(|(known, _)| *known == first) {
            Some(known) if late(first, then) < late(first, known.1) => known.1 = then,
            Some(_) => {}
            None => all.push((first, then)),
        }
    }
    all
}

/// What something keeps warm or cold (an oven, a freezer, a water bath), each with the set-up that fetches it.
fn fetchers(ground: &Ground, pieces: &[Piece], piece_of: &dyn Fn(usize) -> Option<usize>) -> Vec<(usize, usize)> {
    let is_kept = |(load, _): &(usize, usize)| pieces.get(*load).is_some_and(|piece| piece.tail > 0);
    passing(ground, piece_of).into_iter().filter(is_kept).collect()
}

/// What is made warm or cold by hand and kept so by nothing: work on it begins at once. Of several for one set-up each follows
/// the other.
fn at_once(ground: &Ground, pieces: &[Piece], piece_of: &dyn Fn(usize) -> Option<usize>) -> Vec<(usize, usize)> {
    let is_by_hand = |(first, _): &(usize, usize)| pieces.get(*first).is_some_and(|piece| piece.tail == 0);
    let mut all: Vec<(usize, usize)> = Vec::new();
    for (first, then) in passing(ground, piece_of).into_iter().filter(is_by_hand) {
        match all.iter_mut().find(|(_, other)| *other == then) {
            Some(known) => {
                known.1 = first;
                all.push((first, then));
            }
            None => all.push((first, then)),
        }
    }
    all
}
