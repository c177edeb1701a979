//! The model of a day out of its set-ups.

use super::carried::{Fittings, Wants, has_room, number_of};
use super::frame::Assumed;
use super::ground::{Ground, is_in};
use super::items::{Item, Stands};
use super::known::Known;
use super::link::Link;
use super::search::{Better, Edge, Inside, Machine, Minute, Piece, Spec};
use super::{as_left, away, done, kept, logged, rounded};
use crate::handbook::constants::constant;
use crate::handbook::order_rules::Scope;
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
    /// What each of them carries when the hands begin.
    pub first: Vec<Fittings>,
    /// Which pieces have minutes that nobody knows.
    pub not_known: Vec<bool>,
    /// Which wish stands behind each of [`Spec::better`].
    pub wishes: Vec<usize>,
    /// What is done already and lets each piece go last.
    pub let_go: Vec<Option<away::LetGo>>,
    /// What must be, by the number of each edge's rule.
    pub musts: Vec<Link>,
}

/// Makes the model's parts.
///
/// # Errors
/// Times that cannot be placed, machines that nobody has.
pub(super) fn made(ground: &Ground, assumed: &mut Vec<Assumed>) -> Result<Made, Vec<Problem>> {
    let Known { items, links, shop } = ground.known;
    let item_of: Vec<usize> = (0..items.len()).filter(|at| is_in(ground, *at)).collect();
    let piece_of = |item: usize| item_of.iter().position(|own| *own == item);
    let mut machines: Vec<(Stands, Wants)> = Vec::new();
    let (mut pieces, mut not_known, mut problems) = (Vec::new(), Vec::new(), Vec::new());
    for at in &item_of {
        let Some(item) = items.get(*at) else { continue };
        let stands = item.stands(shop);
        let machine = number_of(&mut machines, &stands);
        let want = machines.get_mut(machine).and_then(|(_, wants)| wants.number(item, &stands, shop, assumed));
        let is_fetched = links.musts.iter().any(|link| link.before == *at && link.fetches(items));
        if let Some(state) = item.set_up.leaves.first().filter(|_| item.passes_off() && !is_fetched) {
            assumed.push(Assumed::NothingFetches(item.id(), stands.name.clone(), state.kind.text()));
        }
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
        piece.not_before = piece.not_before.max(away::not_before(ground, *at));
        pieces.push(piece);
    }
    away::beside(ground, &item_of, (&mut pieces, &mut machines), assumed);
    let inside = away::inside(ground, &mut machines, &piece_of, assumed);
    let held = as_left::held_true(ground, &mut machines, &piece_of, assumed);
    let by_log = as_left::by_log(ground, &mut machines);
    let in_hand = ground.done.in_hand.and_then(piece_of);
    let start = ground.times.start;
    if let Some(piece) = in_hand.and_then(|at| pieces.get_mut(at)) {
        problems.extend(not_in_hand(piece, start));
        piece.at = Some(start);
        gone_on(ground, piece, assumed);
    }
    problems.extend(not_before_its_time(ground, &item_of));
    let at_start = AtStart { pieces: &pieces, in_hand, inside: &inside, held: &held, by_log: &by_log };
    let models = models(ground, &machines, &at_start, assumed).map_err(|all| problems.extend(all)).ok();
    let Some((models, first)) = models.filter(|_| problems.is_empty()) else { return Err(problems) };
    let edge = |(rule, link): (usize, &Link)| {
        Some(Edge { before: piece_of(link.before)?, after: piece_of(link.after)?, rest: link.rest, rule })
    };
    let wish = |(at, wish): (usize, &super::link::Wish)| {
        let (first, then) = (piece_of(wish.first)?, piece_of(wish.then)?);
        let together = |parted_by| Better::Together { one: first, other: then, parted_by };
        let own = (wish.first, wish.then);
        Some((
            at,
            match wish.rule.scope {
                Scope::Pair | Scope::Clamping => together(parted_by(ground, (wish.rule.scope, own), &pieces, &item_of)),
                _ => Better::Before(first, then),
            },
        ))
    };
    let (wishes, better) = links.wishes.iter().enumerate().filter_map(wish).unzip();
    let order = ground.asked.like.iter().filter_map(|id| piece_of(done::number(items, id).ok()?));
    let musts: Vec<Link> = links.musts.iter().cloned().chain(away::behind_what_is_warm(ground, &item_of)).collect();
    let spec = Spec {
        machines: models,
        edges: musts.iter().enumerate().filter_map(edge).collect(),
        better,
        fetched_by: kept::fetchers(ground, &pieces, &piece_of),
        inside,
        apart: away::apart(&ground.known, &item_of),
        holdings: kept::holdings(ground, &pieces, &piece_of),
        at_once: kept::at_once(ground, (&pieces, &item_of), &piece_of),
        order_before: order.collect(),
        clock: ground.times.clock.clone(),
        start,
        pieces,
    };
    let let_go = item_of.iter().map(|at| away::let_go(ground, *at)).collect();
    Ok(Made { let_go, spec, item_of, machines, first, not_known, wishes, musts })
}

/// What parts two set-ups that would better stand together: whatever else stands on their machine; of one part that is held once, other
/// parts there, and its own work elsewhere.
fn parted_by(
    ground: &Ground,
    (scope, (one, other)): (Scope, (usize, usize)),
    pieces: &[Piece],
    item_of: &[usize],
) -> Vec<usize> {
    let items = ground.known.items;
    let Some((own, with)) = items.get(one).zip(items.get(other)) else { return Vec::new() };
    let machine_of =
        |at: usize| pieces.iter().zip(item_of).find(|(_, item)| **item == at).map(|(piece, _)| piece.machine);
    let own_machine = machine_of(one);
    let parts = |(piece, at): (&Piece, &usize)| {
        let Some(item) = items.get(*at).filter(|_| *at != one && *at != other) else { return false };
        let is_there = Some(piece.machine) == own_machine;
        match scope {
            Scope::Clamping => is_there != (item.same_part(own) || item.same_part(with)),
            _ => is_there,
        }
    };
    pieces.iter().zip(item_of).enumerate().filter(|(_, own)| parts(*own)).map(|(at, _)| at).collect()
}

/// Why a set-up cannot be at work as the hands begin: its part is still warm, or away.
fn not_in_hand(piece: &Piece, start: Minute) -> Option<Problem> {
    let clock = |minute: Minute| format!("{:02}:{:02}", minute / 60 % 24, minute % 60);
    let says = || {
        let (id, now, from) = (&piece.id, clock(start), clock(piece.not_before));
        format!(
            "`{id}` cannot be at work at {now}: its part is warm, or away, until {from}; leave it out of what is at work"
        )
    };
    (piece.not_before > start).then(|| Problem::new(None, says()))
}

/// Why a set-up cannot be at work: what must come before it is still to be done.
fn not_before_its_time(ground: &Ground, item_of: &[usize]) -> Option<Problem> {
    let Known { items, links, .. } = ground.known;
    let in_hand = ground.done.in_hand?;
    let link = links.musts.iter().find(|link| link.after == in_hand && item_of.contains(&link.before))?;
    let (own, before) = (items.get(in_hand)?.id(), items.get(link.before)?.id());
    let says = format!("`{own}` cannot be at work: {before} comes before it and is not done (`--done {before}`)");
    Some(Problem::new(None, says))
}

/// What is in hand goes on: of its minutes those are left that it did not take since the log says that it was begun.
fn gone_on(ground: &Ground, piece: &mut Piece, assumed: &mut Vec<Assumed>) {
    let Ground { known, times, done, .. } = ground;
    let begun = done.in_hand.and_then(|at| known.items.get(at)).and_then(|item| logged::begun_at(item, times));
    let Some((from, entry)) = begun else { return };
    let worked = times.clock.open_between(from, times.start);
    piece.hands = piece.hands.saturating_sub(worked).max(1);
    assumed.push(Assumed::GoesOn(piece.id.clone(), from, entry, piece.hands));
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

/// What of the day says what a machine carries at the start: what is in hand, what is inside, what was set true, what the log says.
struct AtStart<'a> {
    pieces: &'a [Piece],
    in_hand: Option<usize>,
    inside: &'a [Inside],
    held: &'a [(usize, usize)],
    by_log: &'a [(usize, usize, u32)],
}

/// The machines of the model, with what each carries at the start, by its number.
fn models(
    ground: &Ground,
    machines: &[(Stands, Wants)],
    at_start: &AtStart,
    assumed: &mut Vec<Assumed>,
) -> Result<(Vec<Machine>, Vec<Fittings>), Vec<Problem>> {
    let mut problems = of_no_machine(ground, machines);
    let (mut all, mut first) = (Vec::new(), Vec::new());
    for (number, (stands, wants)) in machines.iter().enumerate() {
        let told = |(machine, _): &&(String, String)| *machine == stands.name || *machine == stands.kind;
        let told = ground.asked.rigged.iter().find(told).map(|(_, what)| what.as_str());
        let mut on = Wants::said(stands, told).unwrap_or_else(|problem| {
            problems.push(problem);
            Fittings::new()
        });
        // What is in hand stands on its machine already.
        let in_hand = at_start.in_hand.and_then(|at| at_start.pieces.get(at)).filter(|piece| piece.machine == number);
        let is_inside = at_start.inside.iter().map(|own| own.takes).find(|takes| takes.machine == number);
        let stands_so = in_hand.and_then(|piece| piece.want).or(is_inside.and_then(|takes| takes.want));
        let is_held = at_start.held.iter().find(|(machine, _)| *machine == number).map(|(_, want)| *want);
        let by_log = at_start.by_log.iter().find(|(machine, ..)| *machine == number && is_held.is_none());
        let was_left = is_held.or(by_log.map(|(_, want, _)| *want)).filter(|_| told.is_none());
        if let Some(want) = stands_so.or(was_left) {
            on.extend(wants.fittings(want));
        }
        if let Some((_, want, entry)) = by_log.filter(|_| told.is_none() && stands_so.is_none()) {
            assumed.push(Assumed::Carries(stands.name.clone(), wants.says(*want, &Fittings::new()), *entry));
        }
        let mut rigging = wants.rigging(stands, (&on, told)).unwrap_or_else(|problem| {
            problems.push(problem);
            super::search::Rigging::default()
        });
        if let Some(setting) = stands_so.filter(|_| has_room(stands.kind)) {
            rigging.begin_with(setting);
        }
        let room = has_room(stands.kind).then(|| stands.room.unwrap_or(1));
        all.push(Machine { name: stands.name.clone(), room, rigging });
        first.push(on);
    }
    if problems.is_empty() { Ok((all, first)) } else { Err(problems) }
}

/// What is said of machines that nobody has, or twice of one.
fn of_no_machine(ground: &Ground, machines: &[(Stands, Wants)]) -> Vec<Problem> {
    let mut problems = Vec::new();
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
            .known
            .shop
            .is_some_and(|shop| shop.machines.iter().any(|own| own.name == *machine || own.kind == *machine));
        if !known().any(|name| name == machine) && !kinds().any(|kind| kind == machine) && !of_shop {
            problems.push(Problem::new(None, format!("no machine is called `{machine}`; {}", near(machine, known()))));
        }
    }
    problems
}
