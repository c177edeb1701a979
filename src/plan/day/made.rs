//! The model of a day out of its set-ups.

use super::carried::{Wants, has_room, number_of};
use super::frame::Assumed;
use super::ground::{Ground, is_in};
use super::items::{Item, Stands};
use super::known::Known;
use super::link::Link;
use super::search::{Better, Edge, Inside, Machine, Minute, Piece, Spec};
use super::{away, done, kept, passing, rounded};
use crate::handbook::StateKind;
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
    let held = held_true(ground, &mut machines, &piece_of, assumed);
    let in_hand = ground.done.in_hand.and_then(piece_of);
    let start = ground.times.start;
    if let Some(piece) = in_hand.and_then(|at| pieces.get_mut(at)) {
        problems.extend(not_in_hand(piece, start));
        piece.at = Some(start);
    }
    let models = models(ground, &machines, (&pieces, &inside, &held), in_hand, &mut problems);
    if !problems.is_empty() {
        return Err(problems);
    }
    let edge = |(rule, link): (usize, &Link)| {
        Some(Edge { before: piece_of(link.before)?, after: piece_of(link.after)?, rest: link.rest, rule })
    };
    let wish = |(at, wish): (usize, &super::link::Wish)| {
        let (first, then) = (piece_of(wish.first)?, piece_of(wish.then)?);
        let together = wish.rule.scope == Scope::Pair;
        Some((at, if together { Better::Together(first, then) } else { Better::Before(first, then) }))
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
    Ok(Made { let_go, spec, item_of, machines, not_known, wishes, musts })
}

/// What stands in its machine as it was set true there, for work that is still to come: the machine, and what it carries for that.
fn held_true(
    ground: &Ground,
    machines: &mut [(Stands, Wants)],
    piece_of: &dyn Fn(usize) -> Option<usize>,
    assumed: &mut Vec<Assumed>,
) -> Vec<(usize, usize)> {
    let Known { items, shop, .. } = ground.known;
    let is_held = |(at, item): &(usize, &Item)| item.leaves(StateKind::True) && ground.done.is(*at);
    let comes = |at: usize| passing::riders(items, at).into_iter().any(|rider| piece_of(rider).is_some());
    let held = items.iter().enumerate().filter(is_held).filter(|(at, _)| comes(*at));
    let of = |(_, item): (usize, &Item)| {
        let stands = item.stands(shop);
        let machine = machines.iter().position(|(own, _)| own.name == stands.name)?;
        Some((machine, machines.get_mut(machine)?.1.number(item, &stands, shop, assumed)?))
    };
    held.filter_map(of).collect()
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

/// The machines of the model, with what each carries at the start.
fn models(
    ground: &Ground,
    machines: &[(Stands, Wants)],
    (pieces, inside, held): (&[Piece], &[Inside], &[(usize, usize)]),
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
            .known
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
        let is_held = held.iter().find(|(machine, _)| *machine == number && named.is_none()).map(|(_, want)| *want);
        let in_hand = in_hand.and_then(|piece| piece.want).or(is_inside.and_then(|takes| takes.want));
        if let Some(want) = in_hand.or(is_held) {
            rigging.begin_with(want);
        }
        let room = has_room(stands.kind).then(|| stands.room.unwrap_or(1));
        all.push(Machine { name: stands.name.clone(), room, rigging });
    }
    all
}
