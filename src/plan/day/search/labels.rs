//! The exact method: layers of labels, one more set-up done in each, of which only those are kept that none dominates.

use super::bound::{Left, Sums};
use super::dominance::{Compared, Label, Pending};
use super::model::Model;
use super::order::{Next, Order, ways};
use super::timing::{State, Vector};
use std::collections::BTreeMap;
use std::rc::Rc;

/// What the search of all orders came to.
#[derive(Debug, Default)]
pub struct Weighed {
    /// The best order, where one is better than what was known before.
    pub order: Option<Order>,
    /// Labels kept.
    pub labels: usize,
    /// Whether every order was weighed or ruled out.
    pub whole: bool,
}

/// Labels with the same set-ups done.
struct Same {
    done: u64,
    pending: Pending,
    left: Rc<Left>,
    /// Those that carry the same, together.
    groups: Vec<Vec<Label>>,
}

/// How each label came to be: the label before it, and what was done.
type Trails = Vec<(u32, Next)>;

struct Search<'a> {
    model: &'a Model,
    compared: Compared,
    most: usize,
    best: Option<Vector>,
    trails: Trails,
    sums: Sums,
    /// Room for the state that is looked at.
    label: Label,
}

/// Weighs every order against the best known before. Up to 64 set-ups, and up to `most` labels.
pub fn weigh(model: &Model, best: Option<Vector>, most: usize, compared: Compared) -> Weighed {
    let mut search =
        Search { model, compared, most, best, trails: Vec::new(), sums: Sums::default(), label: Label::default() };
    let first = State::first(model);
    let pending = Pending::of(model, &first);
    let left = Rc::new(search.sums.left(model, &first, &model.in_line));
    let mut label = Label::default();
    label.trail = usize::MAX;
    pending.pack(model, &first, &mut label);
    let mut layer = vec![Same { done: 0, pending, left, groups: vec![vec![label]] }];
    for _ in 0..model.len() {
        match search.next_layer(&layer) {
            Some(next) => layer = next,
            None => return Weighed { order: None, labels: search.trails.len(), whole: false },
        }
    }
    let ends = layer.iter().flat_map(|same| &same.groups).flatten();
    let end = ends.min_by_key(|label| label.so_far);
    let better = end.filter(|end| search.best.is_none_or(|best| end.so_far < best));
    Weighed { order: better.map(|end| search.walked(end.trail)), labels: search.trails.len(), whole: true }
}

impl Search<'_> {
    fn walked(&self, mut trail: usize) -> Order {
        let mut order = Order::new();
        while let Some((before, next)) = self.trails.get(trail) {
            order.push(*next);
            trail = if *before == u32::MAX { usize::MAX } else { *before as usize };
        }
        order.reverse();
        order
    }

    /// Extends every label by every set-up; none at the limit of labels.
    fn next_layer(&mut self, layer: &[Same]) -> Option<Vec<Same>> {
        let mut next: Vec<Same> = Vec::new();
        let mut places: BTreeMap<u64, usize> = BTreeMap::new();
        let mut lefts: BTreeMap<u64, Rc<Left>> = BTreeMap::new();
        let (mut base, mut work) = (State::first(self.model), State::first(self.model));
        for same in layer {
            base.done.set_word(same.done);
            base.count = same.done.count_ones() as usize;
            let open: Vec<(Next, u64)> = self.open(&base);
            // What is left is the same for all that have done the same.
            let left: Vec<Rc<Left>> = open.iter().map(|(_, done)| self.left(&mut work, *done, &mut lefts)).collect();
            for label in same.groups.iter().flatten() {
                same.pending.unpack(label, &mut base);
                let floor = self.sums.quickly(self.model, &base, &same.left);
                for ((step, done), left) in open.iter().zip(&left) {
                    // What no order does better from here, with the pairs that this one turns round: most end here.
                    let turned = base.so_far.turned + self.turns(&base, step.number) + left.turned;
                    if self.best.is_some_and(|best| Vector { turned, ..floor } >= best) {
                        continue;
                    }
                    work.copy(&base);
                    if work.append(self.model, step.number, step.later, None).is_none() {
                        continue;
                    }
                    let quick = self.sums.quickly(self.model, &work, left);
                    if self.best.is_some_and(|best| quick >= best) {
                        continue;
                    }
                    // Whether another dominates it is sooner known than the bound.
                    let known = places.get(done).copied();
                    if let Some(same) = known.and_then(|place| next.get(place)) {
                        same.pending.pack(self.model, &work, &mut self.label);
                        if self.is_dominated(same) {
                            continue;
                        }
                    }
                    if !self.may_be_best(&work, quick) {
                        continue;
                    }
                    let place = known.unwrap_or_else(|| {
                        let pending = Pending::of(self.model, &work);
                        pending.pack(self.model, &work, &mut self.label);
                        next.push(Same { done: *done, pending, left: Rc::clone(left), groups: Vec::new() });
                        places.insert(*done, next.len() - 1);
                        next.len() - 1
                    });
                    next.get_mut(place).into_iter().for_each(|same| self.keep(same, label.trail, *step));
                }
                if self.trails.len() > self.most {
                    return None;
                }
            }
        }
        Some(next)
    }

    /// Pairs that a set-up turns round where it comes next.
    fn turns(&self, state: &State, number: usize) -> u32 {
        self.model.known.get(number).map_or(0, |known| known.ranked_before.count_outside(&state.done))
    }

    /// What may come next where these are done, in the order before, each with the set that is done then.
    fn open(&self, state: &State) -> Vec<(Next, u64)> {
        let mut all = Vec::new();
        for number in self.model.ranked.iter().copied() {
            let done = state.done.word() | 1 << number;
            all.extend(self.open_ways(state, number).iter().map(|later| (Next { number, later: *later }, done)));
        }
        all
    }

    /// What is left where these are done, worked once.
    fn left(&mut self, work: &mut State, done: u64, known: &mut BTreeMap<u64, Rc<Left>>) -> Rc<Left> {
        let worked = known.entry(done).or_insert_with(|| {
            work.done.set_word(done);
            Rc::new(self.sums.left(self.model, work, &self.model.in_line))
        });
        Rc::clone(worked)
    }

    /// How a set-up may come next: not at all when it is done, before what must come before it, or before its twin.
    fn open_ways(&self, state: &State, number: usize) -> &'static [bool] {
        let Some(known) = self.model.known.get(number) else { return &[] };
        // What waits for something that is not done needs no state of its own to be told so.
        let waits = known.all_before.count_outside(&state.done) > 0;
        if waits || state.done.has(number) || known.twin.is_some_and(|twin| !state.done.has(twin)) {
            &[]
        } else {
            ways(self.model, number)
        }
    }

    fn may_be_best(&mut self, state: &State, quick: Vector) -> bool {
        self.sums.sharper(self.model, state, &self.model.in_line, (quick, self.best)).is_some()
    }

    /// Whether a label that is kept is at least as good as the one looked at.
    fn is_dominated(&self, same: &Same) -> bool {
        let alike =
            |group: &&Vec<Label>| group.first().is_some_and(|first| same.pending.carry_the_same(first, &self.label));
        let group = same.groups.iter().find(alike);
        group.is_some_and(|group| group.iter().any(|other| same.pending.dominates(other, &self.label, self.compared)))
    }

    /// Keeps the label looked at, which none dominates, and drops those that it dominates.
    fn keep(&mut self, same: &mut Same, before: usize, step: Next) {
        self.label.trail = self.trails.len();
        let label = self.label.clone();
        let (pending, compared) = (&same.pending, self.compared);
        let alike = |group: &&mut Vec<Label>| group.first().is_some_and(|first| pending.carry_the_same(first, &label));
        match same.groups.iter_mut().find(alike) {
            Some(group) => {
                group.retain(|other| !pending.dominates(&label, other, compared));
                group.push(label);
            }
            None => same.groups.push(vec![label]),
        }
        self.trails.push((u32::try_from(before).unwrap_or(u32::MAX), step));
    }
}
