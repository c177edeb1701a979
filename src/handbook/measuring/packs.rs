//! The pack of shims that leaves the float nearest to what is aimed at: every pack that a drawer gives, looked at one by one.
//!
//! Everything here works on plain numbers, mm. Thicknesses are compared in whole tenths of a micrometre, so that what is alike
//! is alike, and the order of packs is total: one drawer, one answer.

use crate::in_order::InOrder;
use crate::proof::Verdict;

/// Tenths of a micrometre in a millimetre.
const TENTHS: f64 = 10_000.0;

/// Shims of one measured thickness.
#[derive(Clone, Debug, PartialEq)]
pub struct Kind {
    /// Thickness, mm.
    pub thickness: f64,
    /// How many.
    pub count: u32,
    /// Whether it was measured: one known by its mark alone is the last choice.
    pub measured: bool,
    /// What a shim of it has in each group of doubt, mm.
    pub shares: Vec<(usize, f64)>,
    /// What it has of its own, mm.
    pub own: f64,
}

/// Doubt that shims have in common with each other and with the float: an instrument.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Group {
    /// The sum of what the float without shims has in it, with its sign, mm.
    pub sum: f64,
    /// The sum of the squares of that, reading by reading, mm².
    pub squares: f64,
    /// Whether all in it are off together for sure; else apart or together, whichever is worse.
    pub together: bool,
}

/// A float: from where to where, and where it should be.
#[derive(Clone, Debug, PartialEq)]
pub struct Float {
    /// Without a shim: least, middle and greatest (the ends of its band), mm.
    pub bare: [f64; 3],
    /// Its limits, mm.
    pub limits: (f64, f64),
    /// What is aimed at, mm.
    pub aim: f64,
    /// What warmth adds: least, middle and greatest, and its squared doubt; none where nobody said how warm it runs.
    pub warm: Option<([f64; 3], f64)>,
    /// Squared doubt that no shim touches, mm².
    pub rest: f64,
    /// Doubt that shims share.
    pub groups: Vec<Group>,
    /// The factor on the standard uncertainty.
    pub guard: f64,
}

/// A pack.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Pack {
    /// Its shims by their place in the list of kinds, the thickest first.
    pub shims: Vec<usize>,
    /// How it stands.
    pub verdict: Verdict,
    /// Whether each of its shims was measured.
    pub measured: bool,
    /// How far it is off the aim, tenths of a micrometre.
    pub off: u64,
}

/// What was found.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Found {
    /// The best packs, the best first; never none: no shim is a pack too.
    pub packs: Vec<Pack>,
    /// How many packs the drawer gives, all of which were looked at.
    pub looked_at: u64,
    /// The most shims in a pack that was looked at.
    pub most: u32,
}

/// A length in tenths of a micrometre.
fn tenths(mm: f64) -> i64 {
    (mm * TENTHS).round() as i64
}

/// How many packs of so many shims at most a drawer gives, no shim counted too.
#[must_use]
pub fn count(kinds: &[Kind], most: u32) -> u64 {
    let mut ways = vec![0_u64; most as usize + 1];
    if let Some(none) = ways.first_mut() {
        *none = 1;
    }
    for kind in kinds {
        let before = ways.clone();
        for (size, ways) in ways.iter_mut().enumerate() {
            let least = size.saturating_sub(kind.count as usize);
            *ways = before.get(least..=size).into_iter().flatten().fold(0, |sum, more| sum.saturating_add(*more));
        }
    }
    ways.iter().fold(0, |sum, more| sum.saturating_add(*more))
}

/// Looks at every pack of at most so many shims and gives the best so many. The order: how it stands, measured before marked,
/// nearest to the aim, fewer shims, thicker shims first, the drawer's own order. Packs of fewer shims are looked at where the
/// drawer would give more packs than `bear`.
#[must_use]
pub fn search(kinds: &[Kind], float: &Float, most: u32, best: usize, bear: u64) -> Found {
    let most = (0..=most).rev().find(|most| count(kinds, *most) <= bear).unwrap_or(0);
    let mut order: Vec<usize> = (0..kinds.len()).collect();
    order.order_by_key(|at| std::cmp::Reverse(kinds.get(*at).map_or(0, |kind| tenths(kind.thickness))));
    let sorted = order.iter().filter_map(|at| Some((*at, kinds.get(*at)?)));
    let sorted: Vec<Sorted> = sorted.map(|(at, kind)| Sorted { at, kind, tenths: tenths(kind.thickness) }).collect();
    let (bare, aim) = (tenths(float.bare[1]), tenths(float.aim));
    let least_doubt = float.rest.max(0.0).sqrt() * float.guard / 2.0;
    let (taken, packs, scratch) = (Vec::new(), Vec::new(), Vec::new());
    let mut search = Search { sorted, float, bare, aim, least_doubt, best, taken, packs, scratch };
    search.look(Pile::default());
    search.walk((0, 0), most, Pile::default());
    let packs = search.packs.into_iter().map(|(_, pack)| pack).collect();
    Found { packs, looked_at: count(kinds, most), most }
}

struct Sorted<'a> {
    at: usize,
    kind: &'a Kind,
    tenths: i64,
}

/// What packs are compared by: how it stands, whether a shim is only marked, how far off, how many shims.
type Key = (Verdict, bool, u64, usize);

/// The pack at hand.
#[derive(Clone, Copy, Default)]
struct Pile {
    /// Tenths of a micrometre.
    tenths: i64,
    /// mm.
    thick: f64,
    /// Whether a shim of it is only marked.
    marked: bool,
}

struct Search<'a> {
    sorted: Vec<Sorted<'a>>,
    float: &'a Float,
    bare: i64,
    aim: i64,
    /// Doubt that every pack leaves, by the guard, mm.
    least_doubt: f64,
    best: usize,
    /// What is in the pack at hand, by its place among the sorted, the thickest first.
    taken: Vec<usize>,
    packs: Vec<(Key, Pack)>,
    scratch: Vec<Group>,
}

impl Search<'_> {
    /// Every pack that has what is taken and up to so many more, none thicker than the last, of which `used` are in.
    fn walk(&mut self, (from, used): (usize, u32), more: u32, pile: Pile) {
        if more == 0 {
            return;
        }
        for at in from..self.sorted.len() {
            let Some(sorted) = self.sorted.get(at) else { return };
            let used = if at == from { used } else { 0 };
            if used >= sorted.kind.count {
                continue;
            }
            let with = Pile {
                tenths: pile.tenths + sorted.tenths,
                thick: pile.thick + sorted.kind.thickness,
                marked: pile.marked || !sorted.kind.measured,
            };
            self.taken.push(at);
            self.look(with);
            self.walk((at, used + 1), more - 1, with);
            self.taken.pop();
        }
    }

    /// Looks at the pack at hand and keeps it where it is among the best. What cannot be among them is not worked to its end.
    fn look(&mut self, pile: Pile) {
        let off = (self.bare - pile.tenths).abs_diff(self.aim);
        let at_best = if pile.marked { Verdict::Doubtful } else { Verdict::Proven };
        let of = |verdict: Verdict, count: usize| -> Key { (verdict.max(at_best), pile.marked, off, count) };
        let count = self.taken.len();
        let worst = self.packs.last().filter(|_| self.packs.len() >= self.best).map(|last| last.0);
        if worst.is_some_and(|worst| of(at_best, count) >= worst) {
            return;
        }
        let key = of(self.verdict(pile.thick), count);
        if worst.is_some_and(|worst| key >= worst) {
            return;
        }
        // Of packs alike the first that was looked at is kept: they come thickest first, and in the drawer's order.
        let place = self.packs.partition_point(|other| other.0 <= key);
        let shims = self.taken.iter().filter_map(|at| Some(self.sorted.get(*at)?.at)).collect();
        self.packs.insert(place, (key, Pack { shims, verdict: key.0, measured: !pile.marked, off }));
        self.packs.truncate(self.best);
    }

    /// How the pack at hand stands: cold, and warm where that was said.
    fn verdict(&mut self, thick: f64) -> Verdict {
        let float = self.float;
        let [least, middle, greatest] = float.bare.map(|bare| bare - thick);
        let (low, high) = float.limits;
        let warm = float.warm.map_or(middle, |([_, more, _], _)| middle + more);
        // The arithmetic's own noise is no margin.
        let inside = |x: f64| x >= low - NOISE && x <= high + NOISE;
        if !inside(middle) || !inside(warm) {
            return Verdict::Fails;
        }
        let half = |squares: f64| squares.max(0.0).sqrt() * float.guard / 2.0;
        let sure = |ends: [f64; 2], doubt: f64| ends[0] - doubt >= low - NOISE && ends[1] + doubt <= high + NOISE;
        // With the doubt that every pack leaves it is not sure: with its own neither.
        if !sure([least, greatest], self.least_doubt) {
            return Verdict::Doubtful;
        }
        let squares = self.squares();
        let cold = sure([least, greatest], half(squares));
        let warm = float
            .warm
            .is_none_or(|([less, _, more], doubt)| sure([least + less, greatest + more], half(squares + doubt)));
        if cold && warm { Verdict::Proven } else { Verdict::Doubtful }
    }

    /// The squared doubt of the float that the pack at hand leaves.
    fn squares(&mut self) -> f64 {
        let Self { scratch, float, taken, sorted, .. } = self;
        scratch.clear();
        scratch.extend_from_slice(&float.groups);
        let mut all = float.rest;
        let mut rest: &[usize] = taken;
        while let Some(first) = rest.first() {
            let count = rest.iter().take_while(|at| *at == first).count();
            rest = rest.get(count..).unwrap_or_default();
            let Some(sorted) = sorted.get(*first) else { continue };
            let times = count as f64;
            for (group, share) in &sorted.kind.shares {
                if let Some(group) = scratch.get_mut(*group) {
                    // A shim takes its thickness from the float.
                    group.sum -= times * share;
                    group.squares += (times * share) * (times * share);
                }
            }
            all += (times * sorted.kind.own) * (times * sorted.kind.own);
        }
        let of = |group: &Group| {
            let together = group.sum * group.sum;
            if group.together { together } else { together.max(group.squares) }
        };
        all + scratch.iter().map(of).sum::<f64>()
    }
}

/// Less than this is no margin, mm.
const NOISE: f64 = 1e-12;

#[cfg(test)]
mod tests {
    use super::*;

    fn kind(thickness: f64, count: u32) -> Kind {
        Kind { thickness, count, measured: true, shares: vec![(0, 0.004)], own: 0.0 }
    }

    fn drawer() -> Vec<Kind> {
        [(0.099, 4), (0.152, 2), (0.248, 2), (0.305, 1), (0.530, 1)].map(|(t, n)| kind(t, n)).to_vec()
    }

    fn float(bare: f64, rest: f64) -> Float {
        let groups = vec![Group { sum: -0.004, squares: 0.004 * 0.004, together: false }];
        Float { bare: [bare; 3], limits: (0.15, 0.25), aim: 0.2, warm: None, rest, groups, guard: 2.0 }
    }

    #[test]
    fn the_pack_nearest_the_aim_is_taken_and_every_pack_counted() {
        let rest = 0.02_f64.powi(2) + 0.016_16_f64.powi(2) + 0.008_f64.powi(2) + 0.005_f64.powi(2);
        let found = search(&drawer(), &float(0.9156, rest), 3, 3, u64::MAX);
        assert_eq!(found.looked_at, 42);
        let packs: Vec<&[usize]> = found.packs.iter().map(|pack| pack.shims.as_slice()).collect();
        assert_eq!(packs, [&[3, 2, 1][..], &[4, 0, 0], &[4, 1]]);
        assert_eq!(found.packs[0].verdict, Verdict::Proven);
        assert_eq!(found.packs.iter().map(|pack| pack.off).collect::<Vec<_>>(), [106, 124, 336]);
    }

    #[test]
    fn no_shim_is_a_pack_and_a_marked_one_the_last_choice() {
        let none = search(&drawer(), &float(0.2, 0.0), 3, 1, u64::MAX);
        assert_eq!(none.packs[0].shims, Vec::<usize>::new());
        let mut marked = drawer();
        marked[4].measured = false;
        let found = search(&marked, &float(0.73, 1e-6), 3, 1, u64::MAX);
        assert!(found.packs[0].measured && found.packs[0].verdict == Verdict::Proven, "{found:?}");
    }

    #[test]
    fn a_drawer_that_gives_too_many_is_looked_through_with_fewer_in_a_pack() {
        let found = search(&drawer(), &float(0.9156, 0.0), 3, 1, 20);
        assert_eq!((found.most, found.looked_at), (2, 19));
    }
}
