//! A day to be planned, with what the search asks of each set-up again and again.

use super::bits::Bits;
use super::clock::{Clock, Minute};
use super::spec::{Better, Edge, Inside, Machine, Piece};

/// A set-up with all that the search asks of it again and again.
#[derive(Clone, Debug, Default)]
pub(super) struct Known {
    pub piece: Piece,
    /// What must come before, with the least rest.
    pub before: Vec<(usize, Minute)>,
    /// What must come after, with the least rest.
    pub after: Vec<(usize, Minute)>,
    /// All that must come before, near and far.
    pub all_before: Bits,
    /// Loads that it fetches.
    pub loads: Vec<usize>,
    /// Ovens and freezers that it fetches from.
    pub empties: Vec<usize>,
    /// Loads that it must stand apart from, with the least rest after them.
    pub apart: Vec<(usize, Minute)>,
    /// What must rest so long after it, where that comes after it.
    pub rests: Vec<(usize, Minute)>,
    /// When what it fetches, and was inside before the hands began, was over: it is fetched on that day.
    pub overs: Vec<Minute>,
    /// What ends its warmth: its fetching, or what follows it at once.
    pub ended_by: Option<usize>,
    /// The set-up that fetches it.
    pub fetched_by: Option<usize>,
    /// What must begin the minute that it is done, and what the minute that this is done, and so on.
    pub train: Vec<usize>,
    /// Minutes of the hands of all these.
    pub train_hands: Minute,
    /// The set-up behind which it must begin at once.
    pub behind: Option<usize>,
    /// Set-ups that stood before it in the order before.
    pub ranked_before: Bits,
    /// Those of `all_before` that stood after it in the order before.
    pub turned_for_sure: Bits,
    /// Set-ups that would better come before it.
    pub better_before: Vec<usize>,
    /// Pairs that would better stand together, and that it parts where it comes between: the number of the pair, and both.
    pub may_part: Vec<(usize, usize, usize)>,
    /// What it wants of its machine, a bit each; nothing where the machine is an oven or freezer.
    pub needs: u64,
    /// Set-ups like it in all that counts, earlier in the order before: they go first.
    pub twin: Option<usize>,
    /// Minutes that must follow its hands: of others behind it, and its own watched tail.
    pub tail_of_day: Minute,
    /// Its rank in the order before.
    pub rank: usize,
}

/// A day to be planned.
#[derive(Clone, Debug)]
pub struct Model {
    pub(super) known: Vec<Known>,
    /// The machines.
    pub machines: Vec<Machine>,
    /// All edges with their rules.
    pub edges: Vec<Edge>,
    /// What is better.
    pub better: Vec<Better>,
    /// Set-ups behind each of which another begins at once.
    pub(super) at_once: Vec<(usize, usize)>,
    /// When the shop is open.
    pub clock: Clock,
    /// When the hands begin.
    pub start: Minute,
    /// Set-ups, each after all that must come before it.
    pub(super) in_line: Vec<usize>,
    /// Set-ups in the order before.
    pub(super) ranked: Vec<usize>,
    /// Loads of each machine that is an oven or freezer.
    pub(super) loads_of: Vec<Vec<usize>>,
    /// What is in them when the hands begin.
    pub(super) inside: Vec<Inside>,
    /// What stays in its machine: what sets it, what needs it, what is barred meanwhile.
    pub(super) holdings: Vec<(Option<usize>, Vec<usize>, Bits)>,
}

impl Model {
    /// How many set-ups there are.
    pub const fn len(&self) -> usize {
        self.known.len()
    }

    /// Whether there is none.
    pub const fn is_empty(&self) -> bool {
        self.known.is_empty()
    }

    /// A set-up by its number.
    pub fn piece(&self, number: usize) -> Option<&Piece> {
        self.known.get(number).map(|known| &known.piece)
    }

    /// Minutes of the hands of all set-ups, without change-overs.
    pub fn hands(&self) -> Minute {
        self.known.iter().map(|known| known.piece.hands).sum()
    }

    /// What must come right before a set-up, with the least rest.
    pub fn before(&self, number: usize) -> &[(usize, Minute)] {
        self.known.get(number).map_or(&[], |known| &known.before)
    }

    /// The load's fetcher, where it has one.
    pub fn fetcher(&self, load: usize) -> Option<usize> {
        self.known.get(load)?.fetched_by
    }

    /// What must begin at once behind a set-up, one behind the other.
    pub(super) fn train(&self, number: usize) -> &[usize] {
        self.known.get(number).map_or(&[], |known| &known.train)
    }

    /// What needs a part to stay in its machine as this one leaves it.
    pub(super) fn riders(&self, number: usize) -> impl Iterator<Item = usize> + '_ {
        let own = self.holdings.iter().filter(move |(by, ..)| *by == Some(number));
        own.flat_map(|(_, riders, _)| riders.iter().copied())
    }

    /// Whether the first must come before the second, near or far.
    pub fn must_precede(&self, first: usize, second: usize) -> bool {
        self.known.get(second).is_some_and(|known| known.all_before.has(first))
    }

    /// A mark of everything that the search may look at, for its own throws.
    pub(super) fn mark(&self) -> u64 {
        let mut mark = 0xcbf2_9ce4_8422_2325_u64;
        let mut mix = |value: u64| mark = (mark ^ value).wrapping_mul(0x0100_0000_01b3);
        for known in &self.known {
            let piece = &known.piece;
            [piece.machine as u64, piece.hands.into(), piece.tail.into(), piece.not_before.into(), known.rank as u64]
                .into_iter()
                .for_each(&mut mix);
            known.before.iter().for_each(|(before, rest)| mix(*before as u64 * 4096 + u64::from(*rest)));
        }
        mark
    }
}
