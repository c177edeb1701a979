//! The day searched; appointments that cannot be are dropped and named, and what no day of the shop can hold is found.

use super::frame::NoAppointment;
use super::search::{Limits, Minute, Model, Planned, Spec, plan};

/// A day searched.
pub(super) struct Solved {
    /// The model as it was searched.
    pub model: Model,
    /// The best order.
    pub planned: Planned,
    /// Appointments that were dropped.
    pub impossible: Vec<NoAppointment>,
}

/// Why there is no day.
pub(super) enum Unsolved {
    /// No day holds these set-ups, whatever else is done.
    Never(Vec<usize>),
    /// No order was found.
    NoOrder,
}

/// Searches a day.
///
/// # Errors
/// Where no order keeps every must.
pub(super) fn solved(mut spec: Spec, in_hand: Option<usize>) -> Result<Solved, Unsolved> {
    let mut impossible = Vec::new();
    for number in 0..spec.pieces.len() {
        if Some(number) != in_hand
            && let Some(dropped) = too_early(&spec, number)
        {
            drop_time(&mut spec, number);
            impossible.push(dropped);
        }
    }
    loop {
        let model = Model::new(spec.clone()).map_err(|_| Unsolved::NoOrder)?;
        if let Some(planned) = plan(&model, Limits::default()) {
            return Ok(Solved { model, planned, impossible });
        }
        // The last appointment goes first: it was asked for last.
        let Some(number) = spec.pieces.iter().rposition(|piece| piece.at.is_some()) else {
            let never = never(&spec);
            return Err(if never.is_empty() { Unsolved::NoOrder } else { Unsolved::Never(never) });
        };
        let at = spec.pieces.get(number).and_then(|piece| piece.at).unwrap_or_default();
        let id = spec.pieces.get(number).map(|piece| piece.id.clone()).unwrap_or_default();
        drop_time(&mut spec, number);
        impossible.push(NoAppointment { id, at, earliest: None, chain: Vec::new() });
    }
}

fn drop_time(spec: &mut Spec, number: usize) {
    spec.pieces.get_mut(number).into_iter().for_each(|piece| piece.at = None);
}

/// An appointment before the earliest that its set-up could be, alone in the shop with what must come before it.
fn too_early(spec: &Spec, number: usize) -> Option<NoAppointment> {
    let at = spec.pieces.get(number)?.at?;
    let keep = spec.with_all_before(number);
    let mut alone = spec.only(&keep);
    alone.pieces.iter_mut().for_each(|piece| piece.at = None);
    let own = keep.iter().position(|kept| *kept == number)?;
    let planned = plan(&Model::new(alone.clone()).ok()?, Limits::default())?;
    let earliest = planned.placed.iter().find(|placed| placed.number == own)?.start;
    if earliest <= at {
        return None;
    }
    let minutes = |placed: &super::search::Placed| {
        let piece = alone.pieces.get(placed.number)?;
        let rest = alone.edges.iter().filter(|edge| edge.before == placed.number).map(|edge| edge.rest).max();
        Some((piece.id.clone(), piece.hands + piece.tail + rest.unwrap_or_default()))
    };
    let chain: Vec<(String, Minute)> =
        planned.placed.iter().filter(|placed| placed.number != own).filter_map(minutes).collect();
    let id = spec.pieces.get(number)?.id.clone();
    Some(NoAppointment { id, at, earliest: Some(earliest), chain })
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
