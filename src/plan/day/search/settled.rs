//! A day settled: of orders that are as good, the one in which the hands do not wait with work at hand, and nothing lies in an oven
//! longer than it must.
//!
//! The search compares late minutes, the finish, rules, change-overs and turns. Behind an appointment, or while a part is away, that
//! leaves much open: what could be done in a wait stands behind it as the files have it, and what is fetched at noon goes into the
//! oven at eight. Here it is put right where nothing that counts more is lost.

use super::answer::{Planned, placed};
use super::clock::Minute;
use super::model::Model;
use super::order::{Next, time};
use super::timing::Vector;

/// Over so many set-ups nothing is tried.
const MOST: usize = 60;

/// What counts more than a wait.
fn counts(vector: Vector) -> (Minute, Minute, u32, Minute) {
    (vector.late, vector.finish, vector.better, vector.change)
}

/// Puts work into waits before it: `least` minutes of it at the least, as much sooner.
#[must_use]
pub fn filled(model: &Model, mut planned: Planned, least: Minute) -> Planned {
    if planned.order.len() > MOST || !waits(model, &planned, least) {
        return planned;
    }
    while let Some(better) = sooner(model, &planned, least) {
        planned = better;
    }
    planned
}

/// Whether the hands wait so long in all before their last work.
fn waits(model: &Model, planned: &Planned, least: Minute) -> bool {
    let last = planned.placed.last().map_or(model.start, |placed| placed.end);
    model.clock.open_between(model.start, last) >= model.hands() + planned.vector.change + least
}

/// The first set-up that can come before others so that all begin sooner, over as few of them as may be.
fn sooner(model: &Model, planned: &Planned, least: Minute) -> Option<Planned> {
    let stays = |number: usize| {
        let known = model.known.get(number);
        known.is_some_and(|known| known.fetched_by.is_some() || known.behind.is_some() || !known.train.is_empty())
    };
    let now = lateness(planned);
    let gain = u64::from(least) * u64::from(least);
    let mut movable = planned.order.iter().enumerate().skip(1).filter(|(_, next)| !stays(next.number));
    movable.find_map(|(place, next)| {
        let must_follow = |other: &Next| model.must_precede(other.number, next.number);
        let first = planned.order.iter().take(place).rposition(must_follow).map_or(0, |at| at + 1);
        let tried = (first..place).rev().filter_map(|to| moved(model, planned, (place, to)));
        { tried }.find(|moved| lateness(moved) + gain <= now)
    })
}

/// How late the hands are at work: every minute of theirs by its time. What stands without a wait between is alike in any order.
fn lateness(planned: &Planned) -> u64 {
    let own = planned.placed.iter().map(|placed| (placed.start, placed.end));
    let busy = own.chain(planned.placed.iter().flat_map(|placed| placed.pieces.iter().copied()));
    let squared = |time: Minute| u64::from(time) * u64::from(time);
    busy.map(|(from, to)| squared(to).saturating_sub(squared(from)) / 2).sum()
}

/// The same with one set-up in another place, where that costs nothing that counts.
fn moved(model: &Model, planned: &Planned, (place, to): (usize, usize)) -> Option<Planned> {
    let mut order = planned.order.clone();
    let next = order.remove(place);
    order.insert(to, next);
    let vector = time(model, &order)?;
    (counts(vector) == counts(planned.vector)).then_some(())?;
    Some(Planned { placed: placed(model, &order)?, order, vector, ..planned.clone() })
}

/// Lets loads that would stay inside for more than `least` minutes after their time go in later. The model knows of it.
#[must_use]
pub fn loaded_late(mut model: Model, mut planned: Planned, least: Minute) -> (Model, Planned) {
    let loads: Vec<usize> = planned.order.iter().map(|next| next.number).collect();
    for load in loads {
        let Some(inside) = stay(&model, &planned, load).filter(|inside| *inside > least) else { continue };
        if let Some((later, better)) = later(&model, &planned, (load, inside)) {
            (model, planned) = (later, better);
        }
    }
    (model, planned)
}

/// How long a load stays inside after its time, min; none where nothing fetches it.
pub fn stay(model: &Model, planned: &Planned, load: usize) -> Option<Minute> {
    let fetcher = model.fetcher(load)?;
    let of = |number: usize| planned.placed.iter().find(|placed| placed.number == number);
    Some(of(fetcher)?.start.saturating_sub(of(load)?.over))
}

/// A load put in later: behind as many set-ups as may be.
fn later(model: &Model, planned: &Planned, (load, inside): (usize, Minute)) -> Option<(Model, Planned)> {
    let piece = model.piece(load)?;
    let fetcher = model.fetcher(load)?;
    let place = |number: usize| planned.order.iter().position(|next| next.number == number);
    let (from, to) = (place(load)?, place(fetcher)?);
    let wanted = planned.placed.get(to)?.start.checked_sub(piece.tail + piece.hands)?;
    for at in (from..to).rev() {
        // Before the next set-up there it is in.
        let next = planned.placed.get(at + 1).filter(|_| at + 1 < to);
        let begin = next.map_or(wanted, |next| wanted.min(next.start.saturating_sub(piece.hands)));
        let mut trial = model.clone();
        trial.known.get_mut(load).into_iter().for_each(|known| {
            known.piece.not_before = known.piece.not_before.max(begin);
        });
        if let Some(moved) = moved(&trial, planned, (from, at))
            && stay(&trial, &moved, load).is_some_and(|now| now < inside)
        {
            return Some((trial, moved));
        }
    }
    None
}
