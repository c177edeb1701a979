//! Orders to start from, each by one plain habit.

use super::at;
use super::clock::{DAY, Minute};
use super::model::{Known, Model};
use super::order::{Next, Order, ways};
use super::timing::{Stand, State};

/// What goes first among set-ups that may come next.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Habit {
    /// The order before.
    AsBefore,
    /// What most must follow.
    LongestChain,
    /// What is due first.
    EarliestDue,
    /// What runs unattended afterwards.
    WaitsFirst,
    /// What needs no change-over.
    SameRigging,
    /// What needs no change-over; else the rigging of which the fewest set-ups still wait for others.
    RipeRigging,
}

const HABITS: [Habit; 6] = [
    Habit::AsBefore,
    Habit::LongestChain,
    Habit::EarliestDue,
    Habit::WaitsFirst,
    Habit::SameRigging,
    Habit::RipeRigging,
];

/// An order by each habit, with idle hands where it says so and without; those that come to nothing are left out.
pub(super) fn starts(model: &Model) -> Vec<Order> {
    let both = HABITS.iter().flat_map(|habit| [(*habit, false), (*habit, true)]);
    both.filter_map(|(habit, busy)| by(model, habit, busy)).collect()
}

/// An order by a habit. `busy`: what leaves the hands idle the shortest goes before the habit.
fn by(model: &Model, habit: Habit, busy: bool) -> Option<Order> {
    let mut state = State::first(model);
    let (mut work, mut best) = (State::first(model), State::first(model));
    let mut order = Order::new();
    while order.len() < model.len() {
        let mut first: Option<((Minute, Minute, usize), Next)> = None;
        for number in model.ranked.iter().filter(|number| !state.done.has(**number)) {
            if model.before(*number).iter().any(|(before, _)| !state.done.has(*before))
                || is_early(model, &state, *number)
            {
                continue;
            }
            for later in ways(model, *number) {
                work.copy(&state);
                let Some(stand) = work.append(model, *number, *later, None) else { continue };
                if !can_go_on(model, &work) {
                    continue;
                }
                let idle = if busy { idle(model, &state, stand, *number) } else { Minute::from(*later) };
                let rank = model.known.get(*number).map_or(0, |known| known.rank);
                let key = (idle, urge(model, &state, habit, *number, stand), rank);
                if first.is_none_or(|(known, _)| key < known) {
                    first = Some((key, Next { number: *number, later: *later }));
                    best.copy(&work);
                }
            }
        }
        order.push(first?.1);
        state.copy(&best);
    }
    Some(order)
}

/// Whether a load would wait inside, or a part in its machine, while what its fetching, or what needs it there, needs beside is
/// still to be done.
fn is_early(model: &Model, state: &State, number: usize) -> bool {
    let riders: Vec<usize> = model.riders(number).collect();
    let wants = |other: usize| riders.iter().any(|rider| model.must_precede(other, *rider));
    let is_open = |other: usize| other != number && !state.done.has(other) && !riders.contains(&other);
    if !riders.is_empty() && (0..model.len()).any(|other| is_open(other) && wants(other)) {
        return true;
    }
    let Some(fetcher) = model.fetcher(number) else { return false };
    let Some(known) = model.known.get(fetcher) else { return false };
    let behind_a_load =
        |other: usize| known.loads.iter().any(|load| *load == other || model.must_precede(*load, other));
    let is_coupled = |other: usize| model.train(other).contains(&fetcher);
    let needed = |other: usize| model.must_precede(other, fetcher) && !state.done.has(other) && other != number;
    (0..model.len()).any(|other| needed(other) && !behind_a_load(other) && !is_coupled(other))
}

/// Minutes for which the hands would stand idle before a set-up.
fn idle(model: &Model, state: &State, stand: Stand, number: usize) -> Minute {
    let hands = model.piece(number).map_or(0, |piece| piece.hands);
    model.clock.open_between(state.time, stand.end).saturating_sub(hands + stand.change)
}

fn urge(model: &Model, state: &State, habit: Habit, number: usize, stand: Stand) -> Minute {
    let Some(known) = model.known.get(number) else { return 0 };
    match habit {
        Habit::AsBefore => 0,
        Habit::LongestChain => Minute::MAX - known.tail_of_day,
        Habit::EarliestDue => due(model, number),
        Habit::WaitsFirst => Minute::from(known.piece.tail == 0),
        Habit::SameRigging => stand.change,
        Habit::RipeRigging => {
            // What is inside an oven is fetched whatever is fitted.
            let ready = stand.change == 0 || !known.loads.is_empty();
            let waiting = if ready { 0 } else { 1 + unripe(model, state, known) };
            waiting * LONGEST + LONGEST.saturating_sub(1 + known.tail_of_day)
        }
    }
}

/// Longer than what follows any set-up, min: the ripeness of a rigging goes before it.
const LONGEST: Minute = 1 << 16;

/// Set-ups of the same rigging that still wait for others.
fn unripe(model: &Model, state: &State, own: &Known) -> Minute {
    let alike = |known: &&Known| (known.piece.machine, known.piece.want) == (own.piece.machine, own.piece.want);
    let waits = |known: &&Known| known.before.iter().any(|(before, _)| !state.done.has(*before));
    model.known.iter().filter(alike).filter(waits).count() as Minute
}

/// The earliest time at which it, or what follows it, is due or fixed.
fn due(model: &Model, number: usize) -> Minute {
    let own = |number: usize| model.piece(number).and_then(|piece| piece.due.or(piece.at));
    let follows = (0..model.len()).filter(|other| *other == number || model.must_precede(number, *other));
    follows.filter_map(own).min().unwrap_or(Minute::MAX)
}

/// Whether what is fixed can still be met, and what is in the oven still fetched on its day.
fn can_go_on(model: &Model, state: &State) -> bool {
    model.known.iter().enumerate().all(|(number, known)| {
        if state.done.has(number) {
            return true;
        }
        let stale = |load: &usize| {
            state.done.has(*load)
                && at(&state.ready, *load).saturating_sub(1) / DAY != soonest(model, state, number) / DAY
        };
        known.piece.at.is_none_or(|fixed| state.time <= fixed) && !known.loads.iter().any(stale)
    })
}

/// About when a set-up can begin: after the hands of all that must come before it, and what is over before it.
fn soonest(model: &Model, state: &State, number: usize) -> Minute {
    let Some(known) = model.known.get(number) else { return 0 };
    let waits = |(other, _): &(usize, &Known)| model.must_precede(*other, number) && !state.done.has(*other);
    let hands: Minute = model.known.iter().enumerate().filter(waits).map(|(_, known)| known.piece.hands).sum();
    // Its machine may have to be changed over first.
    let machine = model.machines.get(known.piece.machine).filter(|machine| machine.room.is_none());
    let change = machine.zip(known.piece.want).map_or(0, |(machine, want)| {
        let held = at(&state.held, known.piece.machine);
        machine.rigging.change(held, want).0
    });
    let hands = hands + change;
    let over = known.before.iter().filter(|(before, _)| state.done.has(*before));
    let over = over.map(|(before, rest)| at(&state.ready, *before) + rest).max().unwrap_or_default();
    let begin = model.clock.run(state.time, hands).1.max(over).max(known.piece.not_before);
    model.clock.fit(begin, known.piece.hands, known.piece.pause).0
}
