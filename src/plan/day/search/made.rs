//! A model is made, with what follows from its edges before any search: who comes before whom, who is like whom.

use super::bits::Bits;
use super::circle::circle;
use super::clock::Minute;
use super::model::{Known, Model};
use super::spec::{Better, Edge, Spec};
use super::{at, put};

impl Model {
    /// Makes a model.
    ///
    /// # Errors
    /// The edges of a shortest circle, where set-ups wait for each other.
    pub fn new(spec: Spec) -> Result<Self, Vec<Edge>> {
        let most = spec.pieces.len();
        if let Some(circle) = circle(most, &spec.edges) {
            return Err(circle);
        }
        let mut known: Vec<Known> = spec
            .pieces
            .into_iter()
            .map(|piece| Known { piece, all_before: Bits::none(most), ..Known::default() })
            .collect();
        for edge in spec.edges.iter().filter(|edge| edge.before < most && edge.after < most) {
            join(known.get_mut(edge.after).map(|k| &mut k.before), edge.before, edge.rest);
            join(known.get_mut(edge.before).map(|k| &mut k.after), edge.after, edge.rest);
        }
        for &(load, fetcher) in &spec.fetched_by {
            known.get_mut(load).into_iter().for_each(|k| k.fetched_by = Some(fetcher));
            let oven = known.get(load).map(|k| k.piece.machine);
            known.get_mut(fetcher).into_iter().for_each(|k| {
                k.loads.push(load);
                k.empties.extend(oven);
            });
        }
        for own in &spec.inside {
            let fetcher = own.fetched_by.and_then(|fetcher| known.get_mut(fetcher));
            fetcher.into_iter().for_each(|k| {
                k.empties.push(own.takes.machine);
                k.overs.push(own.over);
            });
        }
        trains(&mut known, &spec.at_once);
        for own in &spec.apart {
            let at_once = spec.at_once.iter().find(|(first, _)| *first == own.load).map(|(_, then)| *then);
            let ended_by = known.get(own.load).and_then(|k| k.fetched_by).or(at_once);
            // It is out, and rests, as soon as it is fetched: what runs unattended behind that is rest too.
            let runs = ended_by.and_then(|by| known.get(by)).map_or(0, |k| k.piece.tail);
            let rest = own.rest.saturating_sub(runs);
            known.get_mut(own.load).into_iter().for_each(|k| k.ended_by = ended_by);
            known.get_mut(own.other).into_iter().for_each(|k| k.apart.push((own.load, rest)));
            let last = known.get_mut(ended_by.unwrap_or(own.load));
            last.into_iter().for_each(|k| k.rests.push((own.other, rest)));
        }
        let holdings = spec.holdings.into_iter().map(|own| {
            let mut barred = Bits::none(most);
            own.barred.iter().filter(|number| **number < most).for_each(|number| barred.add(*number));
            (own.by, own.riders, barred)
        });
        let holdings = holdings.collect();
        let mut loads_of = vec![Vec::new(); spec.machines.len()];
        for (place, k) in known.iter().enumerate() {
            let has_room = |number: usize| spec.machines.get(number).is_some_and(|machine| machine.room.is_some());
            if k.piece.tail > 0 && has_room(k.piece.machine) {
                for takes in k.piece.takes() {
                    loads_of.get_mut(takes.machine).into_iter().for_each(|loads: &mut Vec<usize>| loads.push(place));
                }
            }
        }
        let mut model = Self {
            known,
            machines: spec.machines,
            edges: spec.edges,
            at_once: spec.at_once,
            better: spec.better,
            clock: spec.clock,
            start: spec.start,
            in_line: Vec::new(),
            ranked: ranked(most, &spec.order_before),
            loads_of,
            inside: spec.inside,
            holdings,
        };
        settle(&mut model);
        leave_out_what_cannot_be(&mut model);
        Ok(model)
    }
}

/// A housing is warm and its bush cold for one press: the one made ready second comes while the first is away. What must come
/// while its machine is held, by what else is known, does. Anything else that must come while a part is away leaves no order.
fn leave_out_what_cannot_be(model: &mut Model) {
    let before: Vec<Bits> = model.known.iter().map(|known| known.all_before.clone()).collect();
    let precedes = |first: usize, then: usize| before.get(then).is_some_and(|all| all.has(first));
    let ends: Vec<Option<usize>> = model.known.iter().map(|known| known.ended_by).collect();
    let for_one = |load: usize, other: usize| {
        let end = |number: usize| ends.get(number).copied().flatten();
        precedes(load, other) && end(load).is_some_and(|end_of| end(other) == Some(end_of))
    };
    for (other, known) in model.known.iter_mut().enumerate() {
        known.apart.retain(|(load, _)| !for_one(*load, other));
    }
    let is_between = |by: Option<usize>, riders: &[usize], other: usize| {
        by.is_none_or(|by| precedes(by, other)) && riders.iter().any(|rider| precedes(other, *rider))
    };
    model.holdings.retain(|(by, riders, barred)| {
        !(0..before.len()).any(|other| barred.has(other) && is_between(*by, riders, other))
    });
}

/// Finds what follows at once behind each set-up.
fn trains(known: &mut [Known], at_once: &[(usize, usize)]) {
    let most = known.len();
    for &(first, then) in at_once {
        known.get_mut(then).into_iter().for_each(|k| k.behind = Some(first));
    }
    for number in 0..most {
        let mut train: Vec<usize> = Vec::new();
        let mut last = number;
        while let Some(&(_, then)) = at_once.iter().find(|(first, _)| *first == last).filter(|_| train.len() < most) {
            train.push(then);
            last = then;
        }
        let hands = train.iter().filter_map(|then| known.get(*then)).map(|known| known.piece.hands).sum();
        known.get_mut(number).into_iter().for_each(|k| (k.train, k.train_hands) = (train.clone(), hands));
    }
}

/// Joins two set-ups once, by the longest rest.
fn join(list: Option<&mut Vec<(usize, Minute)>>, other: usize, rest: Minute) {
    let Some(list) = list else { return };
    match list.iter_mut().find(|(known, _)| *known == other) {
        Some(known) => known.1 = known.1.max(rest),
        None => list.push((other, rest)),
    }
}

/// Ranks of set-ups out of their order.
fn ranks(ranked: &[usize]) -> Vec<usize> {
    let mut ranks = vec![0; ranked.len()];
    ranked.iter().enumerate().for_each(|(rank, piece)| put(&mut ranks, *piece, rank));
    ranks
}

/// The longest of times that follow a set-up's hands.
fn tail_of_day(model: &Model, number: usize, tails: &[Minute]) -> Minute {
    let Some(known) = model.known.get(number) else { return 0 };
    let own = if known.piece.watched { known.piece.tail } else { 0 };
    let of = |(after, rest): &(usize, Minute)| {
        known.piece.tail + rest + model.piece(*after).map_or(0, |piece| piece.hands) + at(tails, *after)
    };
    known.after.iter().map(of).max().unwrap_or_default().max(own)
}

/// The order before, made whole: what it does not name follows in the order of the numbers.
fn ranked(most: usize, order_before: &[usize]) -> Vec<usize> {
    let mut seen = Bits::none(most);
    let mut ranked = Vec::with_capacity(most);
    for piece in order_before.iter().copied().chain(0..most).filter(|piece| *piece < most) {
        if !seen.has(piece) {
            seen.add(piece);
            ranked.push(piece);
        }
    }
    ranked
}

/// Works out what the search asks of each set-up again and again.
fn settle(model: &mut Model) {
    model.in_line = in_line(model);
    for number in model.in_line.clone() {
        let Some(known) = model.known.get(number) else { continue };
        let mut all = known.all_before.clone();
        for (before, _) in known.before.clone() {
            all.add(before);
            model.known.get(before).into_iter().for_each(|known| all.add_all(&known.all_before));
        }
        model.known.get_mut(number).into_iter().for_each(|known| known.all_before = all.clone());
    }
    let mut tails: Vec<Minute> = vec![0; model.len()];
    for number in model.in_line.iter().rev() {
        let tail = tail_of_day(model, *number, &tails);
        put(&mut tails, *number, tail);
    }
    let ranks = ranks(&model.ranked);
    let rank_of = |number: usize| at(&ranks, number);
    let most = model.len();
    for (number, known) in model.known.iter_mut().enumerate() {
        known.rank = rank_of(number);
        known.tail_of_day = at(&tails, number);
        known.ranked_before = Bits::none(most);
        known.turned_for_sure = Bits::none(most);
        for other in (0..most).filter(|other| *other != number) {
            if rank_of(other) < known.rank {
                known.ranked_before.add(other);
            } else if known.all_before.has(other) {
                known.turned_for_sure.add(other);
            }
        }
    }
    let mut together = Vec::new();
    for better in model.better.clone() {
        match better {
            Better::Before(first, second) => {
                model.known.get_mut(second).into_iter().for_each(|known| known.better_before.push(first));
            }
            Better::Together { one, other, parted_by } => together.push((one, other, parted_by)),
        }
    }
    wants(model, &together);
    twins(model);
}

/// More pairs that would better stand together are not looked at.
const MOST_PAIRS: usize = 64;

/// What each set-up wants of its machine, and which pairs it may part there.
fn wants(model: &mut Model, together: &[(usize, usize, Vec<usize>)]) {
    for (number, known) in model.known.iter_mut().enumerate() {
        let own = known.piece.machine;
        let pairs = together.iter().take(MOST_PAIRS).enumerate();
        let may = pairs.filter(|(_, (.., parted_by))| parted_by.contains(&number));
        known.may_part = may.map(|(pair, (one, other, _))| (pair, *one, *other)).collect();
        let rigged = model.machines.get(own).filter(|machine| machine.room.is_none());
        known.needs = rigged.zip(known.piece.want).map_or(0, |(machine, want)| machine.rigging.needs(want));
    }
}

/// Set-ups, each after what must come before it, else in the order before.
fn in_line(model: &Model) -> Vec<usize> {
    let mut done = Bits::none(model.len());
    let mut line = Vec::with_capacity(model.len());
    while line.len() < model.len() {
        let before = line.len();
        for number in &model.ranked {
            let free = || model.before(*number).iter().all(|(before, _)| done.has(*before));
            if !done.has(*number) && free() {
                done.add(*number);
                line.push(*number);
            }
        }
        if line.len() == before {
            break;
        }
    }
    line
}

/// Finds set-ups that are alike in all that counts: any order of them is as good as that of before.
fn twins(model: &mut Model) {
    let named = |number: usize| {
        model.better.iter().any(|better| match better {
            Better::Before(one, other) => *one == number || *other == number,
            Better::Together { one, other, .. } => *one == number || *other == number,
        })
    };
    let lone = |number: usize| {
        model.known.get(number).filter(|known| {
            let (piece, room) =
                (&known.piece, model.machines.get(known.piece.machine).and_then(|machine| machine.room));
            let tied = !known.before.is_empty()
                || !known.after.is_empty()
                || !known.loads.is_empty()
                || !known.apart.is_empty()
                || !known.rests.is_empty()
                || model.holdings.iter().any(|(_, riders, barred)| riders.contains(&number) || barred.has(number))
                || known.fetched_by.is_some();
            let timed = piece.at.is_some() || piece.due.is_some() || piece.not_before > model.start;
            !tied && !timed && room.is_none() && piece.tail == 0 && !named(number)
        })
    };
    let mut found = Vec::new();
    for (rank, number) in model.ranked.iter().enumerate() {
        let Some(own) = lone(*number) else { continue };
        let alike = |other: &&usize| {
            lone(**other).is_some_and(|other| {
                let key = |known: &Known| (known.piece.machine, known.piece.want, known.piece.hands, known.piece.pause);
                key(other) == key(own) && other.may_part == own.may_part
            })
        };
        if let Some(twin) = model.ranked.iter().take(rank).rev().find(alike) {
            found.push((*number, *twin));
        }
    }
    for (number, twin) in found {
        model.known.get_mut(number).into_iter().for_each(|known| known.twin = Some(twin));
    }
}
