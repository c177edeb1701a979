//! The timing of one order: exact, one set-up after the other.
//!
//! Every time is a non-decreasing function of those before it, so that appending at once is never worse than waiting. Idle
//! open minutes are banked: a change-over is taken from them, the earliest first, since these serve the fewest machines.

use super::bits::Bits;
use super::clock::{DAY, Minute};
use super::model::{Known, Model};
use super::spec::{Inside, Machine, Takes};
use super::{at, put};

/// What is compared, in this order: late minutes, finish, better rules broken, minutes of change-over, pairs turned round.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Vector {
    /// Late minutes over all that is due.
    pub late: Minute,
    /// End of the last work of the hands or watched tail.
    pub finish: Minute,
    /// Better rules broken.
    pub better: u32,
    /// Minutes of change-over.
    pub change: Minute,
    /// Pairs turned round against the order before.
    pub turned: u32,
}

/// What is known when some set-ups are done.
#[derive(Debug, Default)]
pub struct State {
    /// What is done.
    pub(super) done: Bits,
    /// How many are done.
    pub(super) count: usize,
    /// When the hands are free.
    pub(super) time: Minute,
    /// What is reached so far.
    pub(super) so_far: Vector,
    /// When each set-up done is over with its tail.
    pub(super) ready: Vec<Minute>,
    /// What each machine carries.
    pub(super) held: Vec<u16>,
    /// When each machine is free; of an oven or freezer: when it was last emptied.
    pub(super) free: Vec<Minute>,
    /// Idle open minutes, not used yet.
    pub(super) bank: Vec<(Minute, Minute)>,
    /// Pairs that can stand together no more.
    pub(super) apart: u64,
    scratch: Vec<(Minute, Minute)>,
}

/// A piece of a change-over: for which set-up, from when, to when.
pub type Piecemeal = (usize, Minute, Minute);

/// When a set-up stands in the day.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Stand {
    /// The hands begin.
    pub start: Minute,
    /// The hands are done.
    pub end: Minute,
    /// Minutes of the change-over before it, and of those for what follows it at once.
    pub change: Minute,
}

/// How a change-over is done before its set-up comes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Ahead {
    /// Out of idle minutes, the earliest first, then with the hands.
    AsTheyCome,
    /// In one stretch of idle minutes that holds it, else with the hands alone.
    InOne,
}

impl Clone for State {
    fn clone(&self) -> Self {
        let mut copy = Self::default();
        copy.copy(self);
        copy
    }
}

impl State {
    /// Nothing is done.
    pub fn first(model: &Model) -> Self {
        Self {
            done: Bits::none(model.len()),
            time: model.start,
            so_far: Vector { finish: model.start, ..Vector::default() },
            ready: vec![0; model.len()],
            held: vec![0; model.machines.len()],
            // What an oven stands at when the hands begin it keeps until somebody turns it.
            free: model.machines.iter().map(|machine| machine.room.map_or(0, |_| model.start)).collect(),
            ..Self::default()
        }
    }

    /// Becomes a copy of another, in the room that it has.
    pub(super) fn copy(&mut self, other: &Self) {
        self.done.copy(&other.done);
        (self.count, self.time, self.so_far, self.apart) = (other.count, other.time, other.so_far, other.apart);
        self.ready.clone_from(&other.ready);
        self.held.clone_from(&other.held);
        self.free.clone_from(&other.free);
        self.bank.clone_from(&other.bank);
    }

    /// What is reached so far.
    pub const fn vector(&self) -> Vector {
        self.so_far
    }

    /// Puts a set-up next: at once, or (`later`, for loads with a fetcher) at the next opening. None where a must forbids it; the
    /// state is then of no use. Where the pieces of change-overs are wanted, they are put into `pieces`: those for what follows at
    /// once behind it are done before it.
    pub fn append(
        &mut self,
        model: &Model,
        number: usize,
        later: bool,
        mut pieces: Option<&mut Vec<Piecemeal>>,
    ) -> Option<Stand> {
        let known = model.known.get(number)?;
        let is_awaited = |(first, then): &(usize, usize)| self.done.has(*first) && !self.done.has(*then);
        if model.at_once.iter().find(|pair| is_awaited(pair)).is_some_and(|(_, then)| *then != number) {
            return None;
        }
        let is_held = |(by, riders, barred): &(Option<usize>, Vec<usize>, Bits)| {
            barred.has(number)
                && by.is_none_or(|by| self.done.has(by))
                && riders.iter().any(|rider| !self.done.has(*rider))
        };
        if model.holdings.iter().any(is_held) {
            return None;
        }
        let now = self.time;
        let machine = model.machines.get(known.piece.machine)?;
        let mut earliest = self.earliest(model, number)?;
        if machine.room.is_some() {
            for takes in known.piece.takes() {
                earliest = earliest.max(self.place_inside(model, takes, number)?);
            }
        }
        let mut change = self.change_over(model, number, machine, pieces.as_deref_mut());
        for then in &known.train {
            let machine = model.machines.get(model.piece(*then)?.machine)?;
            change += self.change_over(model, *then, machine, pieces.as_deref_mut());
        }
        let mut begin = self.time.max(earliest);
        if later {
            begin = model.clock.opening(begin);
        }
        let (start, end) = self.block(model, known, begin)?;
        if known.behind.is_some_and(|first| self.done.has(first)) && start != now {
            return None;
        }
        let overs = known.loads.iter().map(|load| at(&self.ready, *load)).chain(known.overs.iter().copied());
        if overs.into_iter().any(|over| over.saturating_sub(1) / DAY != start / DAY) {
            return None;
        }
        self.put_down(model, known, machine, number, Stand { start, end, change });
        Some(Stand { start, end, change })
    }

    /// Does the change-over of a set-up before this comes.
    pub(super) fn fit_ahead(
        &mut self,
        model: &Model,
        number: usize,
        how: Ahead,
        pieces: &mut Vec<Piecemeal>,
    ) -> Option<()> {
        // Nothing comes between what follows at once.
        if model.at_once.iter().any(|(first, then)| self.done.has(*first) && !self.done.has(*then)) {
            return None;
        }
        let machine = model.machines.get(model.piece(number)?.machine)?;
        let change = match how {
            Ahead::AsTheyCome => self.change_over(model, number, machine, Some(pieces)),
            Ahead::InOne => {
                let place = model.piece(number)?.machine;
                let (minutes, _) = machine.rigging.change(at(&self.held, place), model.piece(number)?.want?);
                let from = at(&self.free, place);
                let holds = |(low, high): &(Minute, Minute)| high.saturating_sub((*low).max(from)) >= minutes;
                // What cannot hold all of it is out of reach meanwhile.
                let (near, far): (Vec<_>, Vec<_>) = std::mem::take(&mut self.bank).into_iter().partition(holds);
                self.bank = near;
                let change = self.change_over(model, number, machine, Some(pieces));
                self.bank.extend(far);
                self.bank.sort_unstable();
                change
            }
        };
        self.so_far.change += change;
        Some(())
    }

    /// The earliest that what must come before a set-up, and before what follows it at once, allows; none where one of these is
    /// still to be done.
    fn earliest(&self, model: &Model, number: usize) -> Option<Minute> {
        let known = model.known.get(number)?;
        let mut earliest = self.released(model, known, |_| false)?;
        let mut hands = known.piece.hands;
        for then in &known.train {
            let follows = model.known.get(*then)?;
            let of_train = |before: usize| before == number || known.train.contains(&before);
            let own = self.released(model, follows, of_train)?.max(follows.piece.at.unwrap_or_default());
            earliest = earliest.max(own.saturating_sub(hands));
            hands += follows.piece.hands;
        }
        Some(earliest)
    }

    /// When what must come before a set-up, some left aside, has let it go.
    fn released(&self, model: &Model, known: &Known, aside: impl Fn(usize) -> bool) -> Option<Minute> {
        let mut earliest = known.piece.not_before;
        // A part that is warm, or away, is waited for until it is there again and cold.
        for (load, rest) in known.apart.iter().filter(|(load, _)| self.done.has(*load)) {
            let last = model.known.get(*load)?.ended_by.unwrap_or(*load);
            if !self.done.has(last) {
                return None;
            }
            earliest = earliest.max(at(&self.ready, last) + rest);
        }
        for (before, rest) in known.before.iter().filter(|(before, _)| !aside(*before)) {
            if !self.done.has(*before) {
                return None;
            }
            earliest = earliest.max(at(&self.ready, *before) + rest);
        }
        Some(earliest)
    }

    /// When a load finds a place: none while more wait for their fetching than there are places, or another setting is inside. What it
    /// fetches itself is out when it goes in.
    fn place_inside(&self, model: &Model, own: Takes, number: usize) -> Option<Minute> {
        let machine = model.machines.get(own.machine)?;
        let mut places = machine.room?.checked_sub(own.places)?;
        let mut earliest = 0;
        let mut leaving: Vec<(Minute, u32)> = Vec::new();
        for Inside { takes, over, fetched_by } in self.inside(model, own.machine) {
            let same = takes.want == own.want;
            match fetched_by {
                Some(fetcher) if fetcher == number || self.done.has(fetcher) => {}
                Some(_) if !same => return None,
                Some(_) => places = places.checked_sub(takes.places)?,
                None if same => leaving.push((over, takes.places)),
                None => earliest = earliest.max(over),
            }
        }
        leaving.sort_unstable();
        let mut inside: u32 = leaving.iter().map(|(_, places)| places).sum();
        for (end, left) in &leaving {
            if inside <= places {
                break;
            }
            earliest = earliest.max(*end);
            inside -= left;
        }
        Some(earliest.max(self.set_to(own, machine, (&leaving, earliest))))
    }

    /// What was put into an oven or freezer, fetched since or not, and what was in it when the hands began.
    fn inside<'a>(&'a self, model: &'a Model, machine: usize) -> impl Iterator<Item = Inside> + 'a {
        let put_in = move |load: &usize| {
            let known = model.known.get(*load).filter(|_| self.done.has(*load))?;
            let takes = known.piece.takes().find(|takes| takes.machine == machine)?;
            Some(Inside { takes, over: at(&self.ready, *load), fetched_by: known.fetched_by })
        };
        let loads = model.loads_of.get(machine).into_iter().flatten().filter_map(put_in);
        loads.chain(model.inside.iter().copied().filter(move |own| own.takes.machine == machine))
    }

    /// When the oven or freezer has the setting that is wanted: it changes unattended, empty.
    fn set_to(&self, own: Takes, machine: &Machine, (leaving, others): (&[(Minute, u32)], Minute)) -> Minute {
        let Some(want) = own.want.filter(|_| !machine.rigging.is_free()) else { return 0 };
        let (minutes, _) = machine.rigging.change(at(&self.held, own.machine), want);
        if minutes == 0 {
            return 0;
        }
        let emptied = leaving.iter().map(|(end, _)| *end).max().unwrap_or_default().max(others);
        emptied.max(at(&self.free, own.machine)) + minutes
    }

    /// Does the change-over: out of the bank first, then with the hands as they come free. Gives its minutes.
    fn change_over(
        &mut self,
        model: &Model,
        set_up: usize,
        machine: &Machine,
        mut pieces: Option<&mut Vec<Piecemeal>>,
    ) -> Minute {
        let (number, want) = model.piece(set_up).map_or((usize::MAX, None), |piece| (piece.machine, piece.want));
        let Some(want) = want else {
            self.wait_for(model, machine, number);
            return 0;
        };
        let (minutes, next) = machine.rigging.change(at(&self.held, number), want);
        if machine.room.is_some() {
            if !machine.rigging.is_free() {
                put(&mut self.held, number, next);
            }
            return 0;
        }
        put(&mut self.held, number, next);
        let mut take = |(from, to): (Minute, Minute)| {
            if let Some(pieces) = &mut pieces {
                pieces.push((set_up, from, to));
            }
        };
        let left = if minutes > 0 { self.out_of_bank(at(&self.free, number), minutes, &mut take) } else { 0 };
        self.wait_for(model, machine, number);
        if left > 0 {
            let (from, to) = model.clock.run(self.time, left);
            model.clock.idle(from, to, take);
            self.time = to;
        }
        minutes
    }

    /// The hands wait until the machine is free; the wait is banked.
    fn wait_for(&mut self, model: &Model, machine: &Machine, number: usize) {
        let free = at(&self.free, number);
        if machine.room.is_none() && free > self.time {
            let bank = &mut self.bank;
            model.clock.idle(self.time, free, |idle| bank.push(idle));
            self.time = free;
        }
    }

    /// Takes minutes out of the bank, the earliest first, none before `free`, each stretch given to `take`. Gives what is still to be
    /// done.
    fn out_of_bank(&mut self, free: Minute, minutes: Minute, take: &mut impl FnMut((Minute, Minute))) -> Minute {
        let mut left = minutes;
        self.scratch.clear();
        for &(from, to) in &self.bank {
            let low = from.max(free);
            if left == 0 || low >= to {
                self.scratch.push((from, to));
                continue;
            }
            let used = left.min(to - low);
            if from < low {
                self.scratch.push((from, low));
            }
            if low + used < to {
                self.scratch.push((low + used, to));
            }
            take((low, low + used));
            left -= used;
        }
        std::mem::swap(&mut self.bank, &mut self.scratch);
        left
    }

    /// The block of the hands from a time on: of one stretch with those of what follows at once.
    fn block(&self, model: &Model, known: &Known, mut begin: Minute) -> Option<(Minute, Minute)> {
        let piece = &known.piece;
        if let Some(fixed) = piece.at {
            if begin > fixed {
                return None;
            }
            begin = fixed;
        }
        let hands = piece.hands + known.train_hands;
        let last = known.train.last().and_then(|last| model.piece(*last));
        let pause = piece.pause && last.is_none();
        if last.is_some() && hands > model.clock.longest() {
            return None;
        }
        let (mut start, mut end) = model.clock.fit(begin, hands, pause);
        if let Some(watched) = Some(last.unwrap_or(piece)).filter(|piece| piece.watched) {
            let mut days = 0;
            while end + watched.tail > model.clock.closing(end.saturating_sub(1)) {
                // A tail that no day holds cannot be watched to its end.
                if piece.at.is_some() || days > 1 {
                    return None;
                }
                (start, end) = model.clock.fit(model.clock.opening(start), hands, pause);
                days += 1;
            }
        }
        piece.at.is_none_or(|fixed| fixed == start).then_some((start, end - known.train_hands))
    }

    /// Writes down what the set-up did.
    fn put_down(&mut self, model: &Model, known: &Known, machine: &Machine, number: usize, stand: Stand) {
        let (piece, Stand { start, end, change }) = (&known.piece, stand);
        let bank = &mut self.bank;
        model.clock.idle(self.time, start, |idle| bank.push(idle));
        for oven in &known.empties {
            let emptied = at(&self.free, *oven).max(start);
            put(&mut self.free, *oven, emptied);
        }
        if machine.room.is_none() {
            put(&mut self.free, piece.machine, if piece.tail_holds { end + piece.tail } else { end });
        }
        let ready = end + piece.tail;
        put(&mut self.ready, number, ready);
        self.so_far.late += piece.due.map_or(0, |due| end.saturating_sub(due));
        self.so_far.finish = self.so_far.finish.max(if piece.watched { ready } else { end });
        self.so_far.better += known.better_before.iter().filter(|first| !self.done.has(**first)).count() as u32;
        self.so_far.better += self.set_apart(known);
        self.so_far.change += change;
        self.so_far.turned += known.ranked_before.count_outside(&self.done);
        self.done.add(number);
        self.count += 1;
        self.time = end;
    }

    /// Counts pairs that the set-up parts.
    fn set_apart(&mut self, known: &Known) -> u32 {
        let mut broken = 0;
        for (pair, one, other) in &known.may_part {
            if self.done.has(*one) != self.done.has(*other) && self.apart >> pair & 1 == 0 {
                self.apart |= 1 << pair;
                broken += 1;
            }
        }
        broken
    }
}
