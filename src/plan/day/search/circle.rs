//! Set-ups that wait for each other.

use super::put;
use super::spec::Edge;
use std::collections::VecDeque;

/// The edges of a shortest circle among `most` set-ups, the first in the order of the numbers; none where there is no circle.
pub fn circle(most: usize, edges: &[Edge]) -> Option<Vec<Edge>> {
    let mut from: Vec<Vec<&Edge>> = vec![Vec::new(); most];
    edges.iter().for_each(|edge| from.get_mut(edge.before).into_iter().for_each(|list| list.push(edge)));
    let mut best: Option<Vec<Edge>> = None;
    for start in members(most, edges) {
        if best.as_ref().is_some_and(|best| best.len() <= 1) {
            break;
        }
        if let Some(found) = shortest_back(start, most, &from)
            && best.as_ref().is_none_or(|best| found.len() < best.len())
        {
            best = Some(found);
        }
    }
    best
}

/// What is left when all that can be done is done: set-ups in a circle, and those between or behind circles.
fn members(most: usize, edges: &[Edge]) -> Vec<usize> {
    let mut waits = vec![0_usize; most];
    let mut serves: Vec<Vec<usize>> = vec![Vec::new(); most];
    for edge in edges.iter().filter(|edge| edge.before < most && edge.after < most) {
        waits.get_mut(edge.after).into_iter().for_each(|waits| *waits += 1);
        serves.get_mut(edge.before).into_iter().for_each(|serves| serves.push(edge.after));
    }
    let mut free: Vec<usize> = (0..most).filter(|number| waits.get(*number) == Some(&0)).collect();
    while let Some(number) = free.pop() {
        for served in serves.get(number).into_iter().flatten() {
            let Some(waits) = waits.get_mut(*served) else { continue };
            *waits -= 1;
            if *waits == 0 {
                free.push(*served);
            }
        }
    }
    (0..most).filter(|number| waits.get(*number).is_some_and(|waits| *waits > 0)).collect()
}

/// The shortest walk from a set-up back to itself.
fn shortest_back(start: usize, most: usize, from: &[Vec<&Edge>]) -> Option<Vec<Edge>> {
    let mut came: Vec<Option<&Edge>> = vec![None; most];
    let mut queue = VecDeque::from([start]);
    while let Some(number) = queue.pop_front() {
        for edge in from.get(number)? {
            if came.get(edge.after)?.is_some() {
                continue;
            }
            put(&mut came, edge.after, Some(*edge));
            if edge.after == start {
                let mut walk = vec![(*edge).clone()];
                while let Some(first) = walk.last().filter(|edge| edge.before != start) {
                    walk.push((*came.get(first.before)?)?.clone());
                }
                walk.reverse();
                return Some(walk);
            }
            queue.push_back(edge.after);
        }
    }
    None
}
