//! When one way of having done the same set-ups is at least as good as another, whatever comes after.

use super::clock::{DAY, Minute};
use super::model::Model;
use super::timing::{State, Vector};
use super::{at, put};

/// What is compared of two labels. A test may leave one out, to see that an instance notices.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Compared {
    /// The rest that follows a tail, where releases are compared.
    pub rest: bool,
    /// Idle minutes in the bank.
    pub bank: bool,
    /// When machines come free.
    pub free: bool,
    /// The day on which a load is ready.
    pub load_day: bool,
}

impl Default for Compared {
    fn default() -> Self {
        Self { rest: true, bank: true, free: true, load_day: true }
    }
}

/// What is still waited for when these set-ups are done: the same for all labels of one set.
#[derive(Debug, Default)]
pub(super) struct Pending {
    /// A set-up done that something waits for, the longest rest after it, and whether its day counts.
    waits: Vec<(usize, Minute, bool)>,
    /// Machines with change-overs.
    rigged: Vec<usize>,
    /// Ovens and freezers whose setting costs minutes, with the dearest.
    set: Vec<(usize, Minute)>,
    /// How many machines there are.
    machines: usize,
}

/// A state packed for comparing.
#[derive(Clone, Debug, Default)]
pub(super) struct Label {
    /// When the hands are free.
    pub time: Minute,
    /// What is reached so far.
    pub so_far: Vector,
    /// Pairs that can stand together no more.
    pub apart: u64,
    /// Open minutes up to `time`.
    open: Minute,
    /// What each machine carries; ends of what is waited for; times at which machines are free; banked minutes of each machine with
    /// change-overs; the bank, each stretch by its two ends.
    all: Vec<Minute>,
    /// Which label it came from, in the store of all.
    pub trail: usize,
}

impl Pending {
    /// What is waited for after these are done.
    pub(super) fn of(model: &Model, state: &State) -> Self {
        let room = |number: usize| model.machines.get(number).filter(|machine| machine.room.is_some());
        let mut waits = Vec::new();
        for (number, known) in model.known.iter().enumerate().filter(|(number, _)| state.done.has(*number)) {
            let open = known.after.iter().chain(&known.rests);
            let mut open = open.filter(|(after, _)| !state.done.has(*after)).peekable();
            let is_wanted = open.peek().is_some();
            let mut rest = open.map(|(_, rest)| *rest).max().unwrap_or_default();
            let stays = room(known.piece.machine).filter(|_| known.fetched_by.is_none() && known.piece.tail > 0);
            if let Some(machine) = stays {
                rest = rest.max(machine.rigging.dearest());
            }
            if is_wanted || stays.is_some() {
                waits.push((number, rest, known.fetched_by.is_some()));
            }
        }
        let machines = || model.machines.iter().enumerate().filter(|(_, machine)| !machine.rigging.is_free());
        let rigged = machines().filter(|(_, machine)| machine.room.is_none()).map(|(number, _)| number).collect();
        let set = machines().filter(|(_, machine)| machine.room.is_some());
        let set = set.map(|(number, machine)| (number, machine.rigging.dearest())).collect();
        Self { waits, rigged, set, machines: model.machines.len() }
    }

    /// Packs a state, in the room that a label has.
    pub(super) fn pack(&self, model: &Model, state: &State, label: &mut Label) {
        (label.time, label.so_far, label.apart) = (state.time, state.so_far, state.apart);
        label.open = model.clock.open_before(state.time);
        let all = &mut label.all;
        all.clear();
        all.extend(state.held.iter().map(|held| Minute::from(*held)));
        all.extend(self.waits.iter().map(|(number, ..)| at(&state.ready, *number)));
        all.extend_from_slice(&state.free);
        all.extend(self.rigged.iter().map(|machine| {
            let free = at(&state.free, *machine);
            state.bank.iter().map(|(from, to)| to.saturating_sub((*from).max(free))).sum::<Minute>()
        }));
        all.extend(state.bank.iter().flat_map(|(from, to)| [*from, *to]));
    }

    /// Puts a label back into a state whose set is right already.
    pub(super) fn unpack(&self, label: &Label, state: &mut State) {
        (state.time, state.so_far, state.apart) = (label.time, label.so_far, label.apart);
        let mut all = label.all.iter().copied();
        state.held.iter_mut().zip(&mut all).for_each(|(own, held)| *own = u16::try_from(held).unwrap_or_default());
        self.waits.iter().for_each(|(number, ..)| put(&mut state.ready, *number, all.next().unwrap_or_default()));
        state.free.iter_mut().for_each(|own| *own = all.next().unwrap_or_default());
        state.bank.clear();
        let bank = label.all.get(self.base() + self.rigged.len()..).unwrap_or_default();
        let ends = |ends: &[Minute]| (at(ends, 0), at(ends, 1));
        state.bank.extend(bank.chunks_exact(2).map(ends));
    }

    /// Whether two labels carry the same on every machine.
    pub(super) fn carry_the_same(&self, first: &Label, second: &Label) -> bool {
        first.all.get(..self.machines) == second.all.get(..self.machines)
    }

    /// Where the banked minutes begin.
    const fn base(&self) -> usize {
        2 * self.machines + self.waits.len()
    }

    /// Whether the first is at least as good as the second, whatever comes after. Both have the same done and carry the same.
    pub(super) fn dominates(&self, first: &Label, second: &Label, compared: Compared) -> bool {
        let (a, b) = (first.so_far, second.so_far);
        let apart = (second.apart & !first.apart).count_ones();
        first.time <= second.time
            && a.late <= b.late
            && a.finish <= b.finish
            && (a.better + apart, a.change, a.turned) <= (b.better, b.change, b.turned)
            && self.releases(first, second, compared)
            && (!compared.free || self.machines_free(first, second))
            && (!compared.bank || self.banks(first, second))
    }

    /// Releases are compared, not ready times: what is released before the other's hands are free is early enough.
    fn releases(&self, first: &Label, second: &Label, compared: Compared) -> bool {
        let (own, other) = (first.all.iter().skip(self.machines), second.all.iter().skip(self.machines));
        let times = own.copied().zip(other.copied());
        self.waits.iter().zip(times).all(|((_, rest, is_load), (own, other))| {
            let rest = if compared.rest { *rest } else { 0 };
            let early = own <= other || own + rest <= second.time;
            early && (!compared.load_day || !is_load || own.saturating_sub(1) / DAY == other.saturating_sub(1) / DAY)
        })
    }

    fn frees(&self, label: &Label, machine: usize) -> Minute {
        at(&label.all, self.machines + self.waits.len() + machine)
    }

    fn machines_free(&self, first: &Label, second: &Label) -> bool {
        let early = |machine: usize, more: Minute| {
            let (own, other) = (self.frees(first, machine), self.frees(second, machine));
            own <= other || own + more <= second.time
        };
        (0..self.machines).all(|machine| early(machine, 0))
            && self.set.iter().all(|(machine, dearest)| early(*machine, *dearest))
    }

    /// What the first can still do with idle minutes is at least what the second can.
    fn banks(&self, first: &Label, second: &Label) -> bool {
        let idle = second.open.saturating_sub(first.open);
        let banked = |label: &Label, place: usize| at(&label.all, self.base() + place);
        self.rigged.iter().enumerate().all(|(place, machine)| {
            let free = self.frees(first, *machine);
            let others = self.rigged.iter().enumerate().filter(|(_, other)| self.frees(first, **other) >= free);
            let needed = others.map(|(other, _)| banked(second, other)).max().unwrap_or_default();
            banked(first, place) + idle >= needed
        })
    }
}
