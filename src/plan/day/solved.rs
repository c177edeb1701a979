//! The day searched; appointments that cannot be are dropped and named, and what no day of the shop can hold is found.

use super::done::stays_longest;
use super::no_time::{NoAppointment, NoTime};
use super::rounded;
use super::search::{
    Holding, Limits, Minute, Model, Piece, Planned, Spec, filled, loaded_late, made_whole, plan, stay,
};
use crate::handbook::constants::constant;
use crate::quantity::Minutes;

/// A day searched.
pub(super) struct Solved {
    /// The model as it was searched.
    pub model: Model,
    /// The best order.
    pub planned: Planned,
    /// Appointments that were dropped.
    pub impossible: Vec<NoAppointment>,
    /// What does not come while a load is in the oven, which would be in there for hours: the load, and the other.
    pub kept_out: Vec<(usize, usize)>,
}

/// Why there is no day.
pub(super) enum Unsolved {
    /// No day holds these set-ups, whatever else is done.
    Never(Vec<usize>),
    /// No order was found.
    NoOrder,
}

/// Searches a day. Where a load would be in the oven for hours, what takes so long does not come meanwhile.
///
/// # Errors
/// Where no order keeps every must.
pub(super) fn solved(mut spec: Spec, in_hand: Option<usize>) -> Result<Solved, Unsolved> {
    let mut found = searched(spec.clone(), in_hand)?;
    let mut kept_out = Vec::new();
    while let Some((load, other)) = in_for_hours(&found) {
        let by = found.model.fetcher(load);
        spec.holdings.push(Holding { by: Some(load), riders: by.into_iter().collect(), barred: vec![other] });
        let Ok(better) = searched(spec.clone(), in_hand) else { break };
        kept_out.push((load, other));
        found = better;
    }
    let least = |name: &'static str| constant::<Minutes>(name).map_or(Minute::MAX, |least| rounded(least.number()));
    let planned = filled(&found.model, found.planned, least("wait-filled-least"));
    let (model, planned) = loaded_late(found.model, planned, least("oven-stays-idle"));
    let planned = made_whole(&model, planned, crumb());
    Ok(Solved { model, planned, impossible: found.impossible, kept_out })
}

/// A load that would be in the oven for hours after its time, and the longest work meanwhile that need not come then.
fn in_for_hours(found: &Solved) -> Option<(usize, usize)> {
    let Solved { model, planned, .. } = found;
    let place = |number: usize| planned.order.iter().position(|next| next.number == number);
    planned.order.iter().find_map(|next| {
        let load = next.number;
        let fetcher =
            model.fetcher(load).filter(|_| stay(model, planned, load).is_some_and(|stay| stay > stays_longest()))?;
        let between = planned.order.iter().take(place(fetcher)?).skip(place(load)? + 1).map(|next| next.number);
        let may_wait = between.filter(|other| !model.must_precede(*other, fetcher));
        let hands = |number: &usize| model.piece(*number).map_or(0, |piece| piece.hands);
        Some((load, may_wait.max_by_key(hands)?))
    })
}

fn searched(mut spec: Spec, in_hand: Option<usize>) -> Result<Solved, Unsolved> {
    let mut impossible = Vec::new();
    for number in 0..spec.pieces.len() {
        if Some(number) != in_hand
            && let Some(dropped) = at_no_open_time(&spec, number).or_else(|| too_early(&spec, number))
        {
            drop_time(&mut spec, number);
            impossible.push(dropped);
        }
    }
    loop {
        let model = Model::new(spec.clone()).map_err(|_| Unsolved::NoOrder)?;
        if let Some(planned) = plan(&model, Limits::default()) {
            return Ok(Solved { model, planned, impossible, kept_out: Vec::new() });
        }
        let Some((number, at)) = in_the_way(&spec, in_hand) else {
            let never = never(&spec);
            return Err(if never.is_empty() { Unsolved::NoOrder } else { Unsolved::Never(never) });
        };
        let id = spec.pieces.get(number).map(|piece| piece.id.clone()).unwrap_or_default();
        let because = against(&spec, number).unwrap_or(NoTime::WithTheOthers);
        drop_time(&mut spec, number);
        impossible.push(NoAppointment { id, at, because });
    }
}

/// A piece of a change-over under so many minutes is a crumb.
pub(crate) fn crumb() -> Minute {
    constant::<Minutes>("change-over-crumb").map_or(0, |least| rounded(least.number()))
}

/// What cannot be kept apart, where that alone leaves no order: the load, and what would come while it lasts.
pub(super) fn not_apart(spec: &Spec) -> Option<(String, String)> {
    let id = |number: usize| spec.pieces.get(number).map(|piece| piece.id.clone()).unwrap_or_default();
    let few = spec.pieces.len() <= Limits::default().exact;
    let without = |at: usize| {
        let mut other = spec.clone();
        other.apart.remove(at);
        is_there_an_order(other)
    };
    let with_none = || is_there_an_order(Spec { apart: Vec::new(), ..spec.clone() });
    let one = (0..spec.apart.len()).filter(|_| few).find(|at| without(*at));
    let one = one.or_else(|| (!spec.apart.is_empty() && with_none()).then_some(0));
    one.and_then(|at| spec.apart.get(at)).map(|apart| (id(apart.load), id(apart.other)))
}

fn is_there_an_order(spec: Spec) -> bool {
    Model::new(spec).ok().and_then(|model| plan(&model, Limits::default())).is_some()
}

/// The appointment that is dropped where no order keeps them all: the last without which there is one, else the last. What is
/// in hand stays.
fn in_the_way(spec: &Spec, in_hand: Option<usize>) -> Option<(usize, Minute)> {
    let asked = |(number, piece): (usize, &Piece)| Some((number, piece.at?)).filter(|_| Some(number) != in_hand);
    let all: Vec<(usize, Minute)> = spec.pieces.iter().enumerate().filter_map(asked).collect();
    let without = |(number, _): &&(usize, Minute)| {
        let mut other = spec.clone();
        drop_time(&mut other, *number);
        is_there_an_order(other)
    };
    let one = if all.len() > 1 { all.iter().rev().find(without) } else { None };
    one.or(all.last()).copied()
}

/// Another appointment that stands against one, were the two alone in the shop with what must come before them.
fn against(spec: &Spec, number: usize) -> Option<NoTime> {
    let others = spec.pieces.iter().enumerate().filter(|(other, piece)| *other != number && piece.at.is_some());
    for (other, piece) in others {
        let mut keep = spec.with_all_before(number);
        keep.extend(spec.with_all_before(other));
        keep.sort_unstable();
        keep.dedup();
        let mut two = spec.only(&keep);
        for (kept, piece) in keep.iter().zip(&mut two.pieces) {
            piece.at = piece.at.filter(|_| *kept == number || *kept == other);
        }
        if !is_there_an_order(two) {
            return Some(NoTime::Against(piece.id.clone(), piece.at?));
        }
    }
    None
}

/// An appointment at which the shop is closed, or that would run into a break, with what must be watched after it.
fn at_no_open_time(spec: &Spec, number: usize) -> Option<NoAppointment> {
    let piece = spec.pieces.get(number)?;
    let (at, clock) = (piece.at?, &spec.clock);
    let (start, end) = clock.fit(at, piece.hands, piece.pause);
    let watched = piece.watched && end + piece.tail > clock.closing(end.saturating_sub(1));
    let because = match (clock.stretch(at).0 == at, start == at && !watched) {
        (false, _) => NoTime::Closed,
        (true, false) => NoTime::RunsOut,
        (true, true) => return None,
    };
    Some(NoAppointment { id: piece.id.clone(), at, because })
}

fn drop_time(spec: &mut Spec, number: usize) {
    // What was asked for at a time is not there before it: missed, it comes behind.
    spec.pieces.get_mut(number).into_iter().for_each(|piece| {
        piece.not_before = piece.not_before.max(piece.at.take().unwrap_or_default());
    });
}

/// An appointment before the earliest that its set-up could be, alone in the shop with what must come before it.
fn too_early(spec: &Spec, number: usize) -> Option<NoAppointment> {
    let at = spec.pieces.get(number)?.at?;
    let keep = spec.with_all_before(number);
    let mut alone = spec.only(&keep);
    alone.pieces.iter_mut().for_each(|piece| piece.at = None);
    let own = keep.iter().position(|kept| *kept == number)?;
    let model = Model::new(alone.clone()).ok()?;
    let planned = plan(&model, Limits::default())?;
    let earliest = planned.placed.iter().find(|placed| placed.number == own)?.start;
    if earliest <= at {
        return None;
    }
    let id = |number: usize| alone.pieces.get(number).map(|piece| piece.id.clone()).unwrap_or_default();
    let chain = holding_back(&model, &planned, own);
    let from = chain.first().map_or(earliest, |(_, from)| *from);
    let ends = chain.iter().skip(1).map(|(_, from)| *from).chain([earliest]);
    let chain = chain.iter().zip(ends).map(|((number, from), to)| (id(*number), to - from));
    let because = NoTime::TooEarly { earliest, from, chain: chain.filter(|(_, minutes)| *minutes > 0).collect() };
    Some(NoAppointment { id: spec.pieces.get(number)?.id.clone(), at, because })
}

/// What holds a set-up back, from the first on, each with when it may begin; itself is the last. What waits for another goes on when
/// that lets it go, else when the hands are done with the one before: what is done in a wait holds nothing back.
fn holding_back(model: &Model, planned: &Planned, number: usize) -> Vec<(usize, Minute)> {
    let mut chain = Vec::new();
    let mut place = planned.placed.iter().position(|placed| placed.number == number);
    while let Some((at, own)) = place.and_then(|at| Some((at, planned.placed.get(at)?))) {
        let before = planned.placed.get(..at).unwrap_or_default();
        let over = |number: usize| before.iter().position(|placed| placed.number == number);
        let lets_go = |(number, rest): &(usize, Minute)| {
            let place = over(*number)?;
            Some((before.get(place)?.over + rest, place))
        };
        let waits = model.before(own.number).iter().filter_map(lets_go).max();
        let hands = at.checked_sub(1).and_then(|place| Some((before.get(place)?.end, place)));
        let bound = waits.filter(|waits| hands.is_none_or(|hands| waits.0 > hands.0)).or(hands);
        let not_before = model.piece(own.number).map_or(0, |piece| piece.not_before);
        let (from, next) = match bound {
            _ if not_before > bound.map_or(model.start, |(from, _)| from) => (not_before, None),
            Some((from, next)) => (from, Some(next)),
            None => (own.pieces.first().map_or(own.start, |(from, _)| own.start.min(*from)), None),
        };
        chain.push((own.number, from));
        place = next;
    }
    chain.reverse();
    chain
}

/// Set-ups that no day holds even alone with what must come before them.
fn never(spec: &Spec) -> Vec<usize> {
    let alone = |number: &usize| {
        let keep = spec.with_all_before(*number);
        Model::new(spec.only(&keep)).ok().and_then(|model| plan(&model, Limits::default())).is_none()
    };
    let all: Vec<usize> = (0..spec.pieces.len()).filter(alone).collect();
    // Of several in a chain the first is the cause.
    let first = |number: &&usize| {
        let before = spec.with_all_before(**number);
        !all.iter().any(|other| other != *number && before.contains(other))
    };
    all.iter().filter(first).copied().collect()
}
