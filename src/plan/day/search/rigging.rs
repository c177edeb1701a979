//! What a machine carries, and what it costs in minutes to make it carry something else.

use super::clock::Minute;
use super::{at, put};
use std::collections::BTreeMap;

/// Most states of one machine that are told apart; a machine with more counts its later changes from bare.
const MOST_STATES: usize = 4096;

/// One thing that a machine carries: an aspect and what is fitted there.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Aspect {
    /// What is changed: `device`, `jaws`, `tool 1`.
    pub aspect: String,
    /// What is fitted; several where the aspect takes several (tools in a post).
    pub to: Vec<String>,
    /// Minutes to fit each that is not there yet, in hundredths.
    pub hundredths: u32,
    /// Aspects that cost nothing where this one is paid.
    pub covers: Vec<String>,
}

/// What a set-up wants of its machine. What it does not name stays as it was.
pub type Wish = Vec<Aspect>;

/// The change-overs of one machine.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Rigging {
    wants: usize,
    /// Minutes from each state to each want.
    cost: Vec<Minute>,
    /// The state after it.
    next: Vec<u16>,
    /// Of each want: what it needs fitted, a bit each.
    needs: Vec<u64>,
    /// Of each state: what is fitted, a bit each.
    has: Vec<u64>,
    /// Least hundredths of a minute to fit each of them.
    least: Vec<u32>,
    free: bool,
    dearest: Minute,
}

type Carried = BTreeMap<String, Vec<String>>;

impl Rigging {
    /// From the wants of the set-ups and what is on the machine at the start (state 0).
    pub fn new(wishes: &[Wish], first: &[(String, Vec<String>)]) -> Self {
        let mut fitted: Vec<(&str, &str, u32)> = Vec::new();
        for (wish, (aspect, to)) in wishes.iter().flat_map(|wish| things(wish).map(move |thing| (wish, thing))) {
            // What another aspect of the same wish covers may cost nothing.
            let covered = wish.iter().any(|other| other.covers.contains(&aspect.aspect));
            let least = if covered { 0 } else { aspect.hundredths };
            let room = fitted.len() < 64;
            match fitted.iter_mut().find(|(known, on, _)| *known == aspect.aspect && on == to) {
                Some(known) => known.2 = known.2.min(least),
                None if room => fitted.push((&aspect.aspect, to, least)),
                None => {}
            }
        }
        let bits = |has: &dyn Fn(&str, &str) -> bool| {
            let held = fitted.iter().enumerate().filter(|(_, (aspect, to, _))| has(aspect, to));
            held.fold(0_u64, |bits, (number, _)| bits | 1 << number)
        };
        let holds = |on: &[String], to: &str| on.iter().any(|on| on == to);
        let wants = |wish: &Wish| bits(&|a, to| wish.iter().any(|own| own.aspect == a && holds(&own.to, to)));
        let needs = wishes.iter().map(wants).collect();
        let mut states: Vec<Carried> = vec![first.iter().cloned().collect()];
        let mut known: BTreeMap<Carried, u16> = states.iter().cloned().map(|state| (state, 0)).collect();
        let (mut cost, mut next, mut done) = (Vec::new(), Vec::new(), 0);
        while let Some(state) = states.get(done).cloned() {
            for wish in wishes {
                cost.push(change(&state, wish));
                let mut after = state.clone();
                after.extend(wish.iter().map(|own| (own.aspect.clone(), own.to.clone())));
                let number = known.get(&after).copied().unwrap_or_else(|| {
                    if states.len() >= MOST_STATES {
                        return 0;
                    }
                    let number = states.len() as u16;
                    known.insert(after.clone(), number);
                    states.push(after);
                    number
                });
                next.push(number);
            }
            done += 1;
        }
        let has = states.iter().map(|state| bits(&|a, to| state.get(a).is_some_and(|on| holds(on, to)))).collect();
        let least = fitted.iter().map(|(_, _, least)| *least).collect();
        let dearest = cost.iter().copied().max().unwrap_or_default();
        Self { wants: wishes.len(), free: dearest == 0, dearest, cost, next, needs, has, least }
    }

    /// Begins with what a want needs, as if it were fitted already.
    pub fn begin_with(&mut self, want: usize) {
        let (_, fitted) = self.change(0, want);
        let (from, to) = (usize::from(fitted) * self.wants, self.wants);
        for own in 0..to {
            let (cost, next) = (at(&self.cost, from + own), at(&self.next, from + own));
            put(&mut self.cost, own, cost);
            put(&mut self.next, own, next);
        }
        let has = at(&self.has, usize::from(fitted));
        put(&mut self.has, 0, has);
    }

    /// Whether no change costs anything.
    pub const fn is_free(&self) -> bool {
        self.free
    }

    /// The dearest change, min.
    pub const fn dearest(&self) -> Minute {
        self.dearest
    }

    /// How many states it can be in.
    pub fn states(&self) -> usize {
        self.has.len()
    }

    /// How many wants there are.
    pub const fn wants(&self) -> usize {
        self.wants
    }

    /// Minutes from a state to a want, and the state after it.
    pub fn change(&self, state: u16, want: usize) -> (Minute, u16) {
        let place = usize::from(state) * self.wants + want;
        (at(&self.cost, place), at(&self.next, place))
    }

    /// What a want needs fitted, a bit each.
    pub(super) fn needs(&self, want: usize) -> u64 {
        at(&self.needs, want)
    }

    /// The hundredths of a minute that no order avoids for what is wanted, from a state.
    pub(super) fn unavoidable(&self, state: u16, wanted: u64) -> u32 {
        let mut open = wanted & !at(&self.has, usize::from(state));
        let mut sum = 0;
        while open != 0 {
            sum += at(&self.least, open.trailing_zeros() as usize);
            open &= open - 1;
        }
        sum
    }

    /// The settings of an oven or freezer, degC: the first costs nothing beside its own wait, another one so many minutes up or
    /// down. `first` is what it stands at, where it is in use.
    pub fn settings(levels: &[f64], (up, down): (Minute, Minute), first: Option<f64>) -> Self {
        let from = |state: Option<f64>, to: f64| match state {
            Some(state) if state < to => up,
            Some(state) if state > to => down,
            _ => 0,
        };
        let states: Vec<Option<f64>> = [first].into_iter().chain(levels.iter().copied().map(Some)).collect();
        let cost: Vec<Minute> =
            states.iter().flat_map(|state| levels.iter().map(move |to| from(*state, *to))).collect();
        let after = |_: &Option<f64>| (1..=levels.len()).map(|number| u16::try_from(number).unwrap_or_default());
        let dearest = cost.iter().copied().max().unwrap_or_default();
        Self {
            wants: levels.len(),
            next: states.iter().flat_map(after).collect(),
            needs: vec![0; levels.len()],
            has: vec![0; states.len()],
            least: Vec::new(),
            free: dearest == 0,
            dearest,
            cost,
        }
    }

    /// A table of plain riggings: each costs the same minutes whatever was on.
    pub fn plain(costs: &[(String, Minute)], first: Option<&str>) -> Self {
        let wish = |(to, minutes): &(String, Minute)| {
            vec![Aspect {
                aspect: "device".into(),
                to: vec![to.clone()],
                hundredths: minutes * 100,
                covers: Vec::new(),
            }]
        };
        let wishes: Vec<Wish> = costs.iter().map(wish).collect();
        let first: Vec<_> = first.map(|on| ("device".to_owned(), vec![on.to_owned()])).into_iter().collect();
        Self::new(&wishes, &first)
    }
}

/// Every thing that a want needs fitted, with its aspect.
fn things(wish: &Wish) -> impl Iterator<Item = (&Aspect, &String)> {
    wish.iter().flat_map(|own| own.to.iter().map(move |to| (own, to)))
}

/// Minutes to make a machine carry what is wanted: what is not there yet, less what another covers, rounded up once.
fn change(state: &Carried, wish: &Wish) -> Minute {
    let missing = |own: &Aspect| {
        let on = state.get(&own.aspect);
        own.to.iter().filter(|to| !on.is_some_and(|on| on.contains(to))).count() as u32
    };
    let paid: Vec<(&Aspect, u32)> =
        wish.iter().map(|own| (own, missing(own))).filter(|(_, missing)| *missing > 0).collect();
    let covered = |own: &Aspect| paid.iter().any(|(other, _)| other.covers.contains(&own.aspect));
    let counted = paid.iter().filter(|(own, _)| !covered(own));
    counted.map(|(own, missing)| own.hundredths * missing).sum::<u32>().div_ceil(100)
}
