//! What stays as it is until the next of it is done: a part in the chuck that it was set true in, a face that was mapped, and what is
//! warm.

use super::ground::Ground;
use super::items::Item;
use super::known::Known;
use super::link::Link;
use super::passing;
use super::search::{Holding, Piece};
use crate::handbook::StateKind;
use crate::handbook::order_rules::{self, Binds};

type PieceOf<'a> = &'a dyn Fn(usize) -> Option<usize>;

/// What stays in its machine, or as it was measured.
pub(super) fn holdings(ground: &Ground, pieces: &[Piece], piece_of: PieceOf) -> Vec<Holding> {
    let mut all = set_true(ground, pieces, piece_of);
    all.extend(nothing_between(ground, piece_of));
    all
}

/// What was set true stays in its machine until all that goes on with it there is done: nothing else comes on that machine, and
/// nothing else of that part anywhere.
fn set_true(ground: &Ground, pieces: &[Piece], piece_of: PieceOf) -> Vec<Holding> {
    let items = ground.known.items;
    let mut all = Vec::new();
    for (at, item) in items.iter().enumerate().filter(|(_, item)| item.leaves(StateKind::True)) {
        let by = piece_of(at);
        if by.is_none() && !ground.done.is(at) {
            continue;
        }
        let riders: Vec<usize> = passing::riders(items, at).into_iter().filter_map(piece_of).collect();
        let Some(machine) = riders.first().and_then(|rider| pieces.get(*rider)).map(|piece| piece.machine) else {
            continue;
        };
        let is_barred = |(other, own): (usize, &Item)| {
            let piece = piece_of(other).filter(|piece| Some(*piece) != by && !riders.contains(piece))?;
            let here = pieces.get(piece).is_some_and(|piece| piece.machine == machine);
            (here || own.same_part(item)).then_some(piece)
        };
        let barred = items.iter().enumerate().filter_map(is_barred).collect();
        all.push(Holding { by, riders, barred });
    }
    all
}

/// What was measured for the rest of its operation stays so until that is done: what would move it comes before, or after all.
fn nothing_between(ground: &Ground, piece_of: PieceOf) -> Vec<Holding> {
    let items = ground.known.items;
    let mut all = Vec::new();
    for rule in order_rules::all().iter().filter(|rule| rule.kind == Binds::Between) {
        for (at, item) in items.iter().enumerate().filter(|(_, item)| rule.before.is_in(&item.work())) {
            let by = piece_of(at);
            if by.is_none() && !ground.done.is(at) {
                continue;
            }
            let behind = items.iter().enumerate().skip(at + 1).take_while(|(_, own)| own.same_operation(item));
            let riders: Vec<usize> = behind.filter_map(|(other, _)| piece_of(other)).collect();
            let moves = |(_, own): &(usize, &Item)| {
                own.same_part(item) && !own.same_operation(item) && rule.after.is_in(&own.work())
            };
            let barred: Vec<usize> =
                items.iter().enumerate().filter(moves).filter_map(|(other, _)| piece_of(other)).collect();
            if !riders.is_empty() && !barred.is_empty() {
                all.push(Holding { by, riders, barred });
            }
        }
    }
    all
}

/// What is left warm or cold, each with the set-ups that need it so: first the next behind it in the file.
fn passing(ground: &Ground, piece_of: PieceOf) -> Vec<(usize, Vec<usize>)> {
    let Known { items, links, .. } = ground.known;
    // A press that says nothing of warmth takes what nobody else wants.
    let by_rule = |own: &&Link| {
        let is_other = |link: &Link| link.before == own.before && link.is_wanted() && piece_of(link.after).is_some();
        !own.is_wanted() && own.fetches(items) && !links.musts.iter().any(is_other)
    };
    let wanted = links.musts.iter().filter(|link| link.is_wanted());
    let passes = |link: &Link| Some((piece_of(link.before)?, piece_of(link.after)?));
    let mut all: Vec<(usize, Vec<usize>)> = Vec::new();
    for (first, then) in wanted.chain(links.musts.iter().filter(by_rule)).filter_map(passes) {
        match all.iter_mut().find(|(known, _)| *known == first) {
            Some((_, known)) if known.contains(&then) => {}
            Some((_, known)) => known.push(then),
            None => all.push((first, vec![then])),
        }
    }
    all.iter_mut().for_each(|(first, all)| all.sort_by_key(|then| (then < first, *then)));
    all
}

/// What something keeps warm or cold (an oven, a freezer, a water bath), each with the set-up that fetches it.
pub(super) fn fetchers(ground: &Ground, pieces: &[Piece], piece_of: PieceOf) -> Vec<(usize, usize)> {
    let is_kept = |load: usize| pieces.get(load).is_some_and(|piece| piece.tail > 0);
    let first = |(load, all): (usize, Vec<usize>)| Some((load, *all.first()?));
    passing(ground, piece_of).into_iter().filter(|(load, _)| is_kept(*load)).filter_map(first).collect()
}

/// What is made warm or cold by hand and kept so by nothing: work on it begins at once. Of several for one set-up each follows
/// the other; of several set-ups for what was warmed once each follows the other too, before it is cold.
pub(super) fn at_once(
    ground: &Ground,
    (pieces, item_of): (&[Piece], &[usize]),
    piece_of: PieceOf,
) -> Vec<(usize, usize)> {
    let by_hand = |load: usize| pieces.get(load).is_some_and(|piece| piece.tail == 0);
    let is_warm = |load: usize| {
        let item = item_of.get(load).and_then(|at| ground.known.items.get(*at));
        item.is_some_and(|item| item.leaves(StateKind::Warm))
    };
    let mut all: Vec<(usize, usize)> = Vec::new();
    for (load, fetchers) in passing(ground, piece_of) {
        if let Some(then) = fetchers.first().filter(|_| by_hand(load)) {
            match all.iter_mut().find(|(_, other)| other == then) {
                Some(known) => {
                    known.1 = load;
                    all.push((load, *then));
                }
                None => all.push((load, *then)),
            }
        }
        let pairs = fetchers.iter().zip(fetchers.iter().skip(1)).filter(|_| is_warm(load));
        for (one, next) in pairs {
            let is_known = |pair: &(usize, usize)| pair.0 == *one || pair.1 == *next;
            if !all.iter().any(is_known) {
                all.push((*one, *next));
            }
        }
    }
    all
}
