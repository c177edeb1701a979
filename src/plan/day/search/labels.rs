//! The exact method: layers of labels, one more set-up done in each, of which only those are kept that none dominates.

use super::bound::Sums;
use super::dominance::{Compared, Label, Pending};
use super::model::Model;
use super::order::{Next, Order, ways};
use super::timing::{State, Vector};
use std::collections::HashMap;

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
}

/// Weighs every order against the best known before. Up to 64 set-ups, and up to `most` labels.
pub fn weigh(model: &Model, best: Option<Vector>, most: usize, compared: Compared) -> Weighed {
    let mut search = Search { model, compared, most, best, trails: Vec::new(), sums: Sums::default() };
    let first = State::first(model);
    let pending = Pending::of(model, &first);
    let label = pending.pack(model, &first, usize::MAX);
    let mut layer = vec![Same { done: 0, pending, groups: vec![vec![label]] }];
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
        let mut places: HashMap<u64, usize> = HashMap::new();
        let (mut base, mut work) = (State::first(self.model), State::first(self.model));
        for same in layer {
            base.done.set_word(same.done);
            base.count = same.done.count_ones() as usize;
            for label in same.groups.iter().flatten() {
                same.pending.unpack(label, &mut base);
                for number in &self.model.ranked {
                    for later in self.open_ways(&base, *number) {
                        work.copy(&base);
                        if work.append(self.model, *number, *later, None).is_none() {
                            continue;
                        }
                        let Some(quick) = self.quick(&work) else { continue };
                        // Whether another dominates it is sooner known than the bound.
                        let known = places.get(&work.done.word()).and_then(|place| next.get(*place));
                        if known.is_some_and(|same| self.is_dominated(same, &work)) || !self.may_be_best(&work, quick) {
                            continue;
                        }
                        let place = *places.entry(work.done.word()).or_insert_with(|| {
                            let pending = Pending::of(self.model, &work);
                            next.push(Same { done: work.done.word(), pending, groups: Vec::new() });
                            next.len() - 1
                        });
                        let step = Next { number: *number, later: *later };
                        next.get_mut(place).into_iter().for_each(|same| self.keep(same, &work, label.trail, step));
                    }
                    if self.trails.len() > self.most {
                        return None;
                    }
                }
            }
        }
        Some(next)
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

    /// The quick bound of a state; none where it is not under the best order known.
    fn quick(&mut self, state: &State) -> Option<Vector> {
        let quick = self.sums.quick(self.model, state, &self.model.in_line);
        Some(quick).filter(|quick| self.best.is_none_or(|best| *quick < best))
    }

    fn may_be_best(&mut self, state: &State, quick: Vector) -> bool {
        self.sums.sharper(self.model, state, &self.model.in_line, (quick, self.best)).is_some()
    }

    /// Whether a label that is kept is at least as good.
    fn is_dominated(&self, same: &Same, state: &State) -> bool {
        let alike = |group: &&Vec<Label>| group.first().is_some_and(|first| *first.held == *state.held);
        same.groups.iter().find(alike).is_some_and(|group| {
            let label = same.pending.pack(self.model, state, self.trails.len());
            group.iter().any(|other| same.pending.dominates(other, &label, self.compared))
        })
    }

    /// Keeps a label that none dominates, and drops those that it dominates.
    fn keep(&mut self, same: &mut Same, state: &State, before: usize, step: Next) {
        let label = same.pending.pack(self.model, state, self.trails.len());
        let alike = |group: &&mut Vec<Label>| group.first().is_some_and(|first| first.held == label.held);
        let (pending, compared) = (&same.pending, self.compared);
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
