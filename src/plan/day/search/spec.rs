//! What a model is made from: set-ups by number, machines by number, edges, times.

use super::clock::{Clock, Minute};
use super::rigging::Rigging;

impl Spec {
    /// The same with some of its set-ups alone.
    #[must_use]
    pub fn only(&self, keep: &[usize]) -> Self {
        let new = |old: usize| keep.iter().position(|kept| *kept == old);
        let better = |better: &Better| match better {
            Better::Before(one, other) => Some(Better::Before(new(*one)?, new(*other)?)),
            Better::Together { one, other, parted_by } => {
                let parted_by = parted_by.iter().filter_map(|by| new(*by)).collect();
                Some(Better::Together { one: new(*one)?, other: new(*other)?, parted_by })
            }
        };
        let edge = |edge: &Edge| Some(Edge { before: new(edge.before)?, after: new(edge.after)?, ..edge.clone() });
        Self {
            pieces: keep.iter().filter_map(|old| self.pieces.get(*old).cloned()).collect(),
            machines: self.machines.clone(),
            edges: self.edges.iter().filter_map(edge).collect(),
            better: self.better.iter().filter_map(better).collect(),
            fetched_by: self.fetched_by.iter().filter_map(|(load, by)| Some((new(*load)?, new(*by)?))).collect(),
            apart: self
                .apart
                .iter()
                .filter_map(|own| Some(Apart { load: new(own.load)?, other: new(own.other)?, rest: own.rest }))
                .collect(),
            holdings: self.holdings.iter().filter_map(|own| own.of(&new)).collect(),
            inside: self.inside.iter().map(|own| Inside { fetched_by: own.fetched_by.and_then(new), ..*own }).collect(),
            at_once: self.at_once.iter().filter_map(|(first, then)| Some((new(*first)?, new(*then)?))).collect(),
            order_before: self.order_before.iter().filter_map(|old| new(*old)).collect(),
            clock: self.clock.clone(),
            start: self.start,
        }
    }

    /// A set-up with all that must come before it, in the order of the numbers.
    pub fn with_all_before(&self, number: usize) -> Vec<usize> {
        let mut all = vec![number];
        let mut at = 0;
        while let Some(own) = all.get(at).copied() {
            for edge in self.edges.iter().filter(|edge| edge.after == own) {
                if !all.contains(&edge.before) {
                    all.push(edge.before);
                }
            }
            at += 1;
        }
        all.sort_unstable();
        all
    }
}

/// One set-up.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Piece {
    /// Its id as it is printed.
    pub id: String,
    /// Its machine by number.
    pub machine: usize,
    /// What it wants of the machine, by its number among the machine's wants.
    pub want: Option<usize>,
    /// Minutes of the hands, without the change-over.
    pub hands: Minute,
    /// Whether it may be put down for a break.
    pub pause: bool,
    /// Minutes that run unattended after it.
    pub tail: Minute,
    /// Whether these must end by closing.
    pub watched: bool,
    /// Whether the machine is held by them.
    pub tail_holds: bool,
    /// Not before this time.
    pub not_before: Minute,
    /// Fixed start.
    pub at: Option<Minute>,
    /// The hands finished by this time, else late.
    pub due: Option<Minute>,
    /// Places that it takes in an oven or freezer.
    pub places: u32,
    /// What it takes in another one meanwhile: the freezer beside the oven.
    pub beside: Option<Takes>,
}

impl Piece {
    /// What it takes in its oven or freezer, and in the one beside that.
    pub fn takes(&self) -> impl Iterator<Item = Takes> {
        let own = Takes { machine: self.machine, want: self.want, places: self.places };
        std::iter::once(own).chain(self.beside)
    }
}

/// What a load takes in an oven or freezer.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Takes {
    /// Which, by its number.
    pub machine: usize,
    /// The setting, by its number among the machine's wants.
    pub want: Option<usize>,
    /// Places.
    pub places: u32,
}

/// A load that is in an oven or freezer when the hands begin.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Inside {
    /// What it takes there.
    pub takes: Takes,
    /// When its time in there is over.
    pub over: Minute,
    /// The set-up that fetches it; with none it goes out when its time is over.
    pub fetched_by: Option<usize>,
}

/// What stands before a load, or after it is fetched (with none that fetches it, after it is over) and has rested.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Apart {
    /// What is warm, or away.
    pub load: usize,
    /// What must not come meanwhile.
    pub other: usize,
    /// Least minutes after it.
    pub rest: Minute,
}

/// What stays in its machine as it was set until all that needs it so is done.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Holding {
    /// What sets it; none where it is set when the hands begin.
    pub by: Option<usize>,
    /// What needs it so.
    pub riders: Vec<usize>,
    /// What would take it out, or stands on the same machine.
    pub barred: Vec<usize>,
}

impl Holding {
    /// The same with new numbers; none where nothing of it is left.
    fn of(&self, new: &impl Fn(usize) -> Option<usize>) -> Option<Self> {
        let by = match self.by {
            Some(by) => Some(new(by)?),
            None => None,
        };
        let all = |list: &[usize]| list.iter().filter_map(|own| new(*own)).collect::<Vec<_>>();
        Some(Self { by, riders: all(&self.riders), barred: all(&self.barred) })
    }
}

/// A machine, or a place of work.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Machine {
    /// Its name.
    pub name: String,
    /// Places inside, where it is an oven or a freezer.
    pub room: Option<u32>,
    /// What it may carry and what a change costs; state 0 is what it carries at the start. In an oven or freezer a change of
    /// setting, which runs unattended when nothing is inside.
    pub rigging: Rigging,
}

/// One set-up stands before another.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Edge {
    /// The earlier one.
    pub before: usize,
    /// The later one.
    pub after: usize,
    /// Least minutes between the end of the earlier one with its tail and the start of the later one.
    pub rest: Minute,
    /// The number of its reason, for whoever made the model.
    pub rule: usize,
}

/// What is better and may be otherwise.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Better {
    /// The first before the second.
    Before(usize, usize),
    /// The two next to each other.
    Together {
        /// One of them.
        one: usize,
        /// The other.
        other: usize,
        /// What parts them where it stands between the two.
        parted_by: Vec<usize>,
    },
}

/// What a model is made from.
#[derive(Clone, Debug, PartialEq)]
pub struct Spec {
    /// The set-ups.
    pub pieces: Vec<Piece>,
    /// The machines.
    pub machines: Vec<Machine>,
    /// What stands before what.
    pub edges: Vec<Edge>,
    /// What is better.
    pub better: Vec<Better>,
    /// Loads of oven and freezer with the set-up that fetches each.
    pub fetched_by: Vec<(usize, usize)>,
    /// What is in an oven or freezer when the hands begin.
    pub inside: Vec<Inside>,
    /// What must not come while a part is warm, or away.
    pub apart: Vec<Apart>,
    /// What stays in its machine.
    pub holdings: Vec<Holding>,
    /// Set-ups behind each of which another begins the minute that its hands are done: what is hot by hand cools.
    pub at_once: Vec<(usize, usize)>,
    /// The set-ups in the order before.
    pub order_before: Vec<usize>,
    /// When the shop is open.
    pub clock: Clock,
    /// When the hands begin.
    pub start: Minute,
}
