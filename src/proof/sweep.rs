//! A graph worked again and again with one root at other numbers: only what follows that root is worked anew.

use super::Cause;
use super::cause::root_sum_square;
use super::graph::{Draw, Graph, Line};

/// Standard deviations to either side at which the share of a cause is taken: its doubt (k = 2).
const TO_EITHER_SIDE: f64 = 2.0;

/// A graph at one draw, with one root that is moved.
pub(crate) struct Sweep {
    graph: Graph,
    draw: Draw,
    /// The line that is moved.
    moved: Option<usize>,
    /// The lines that follow it, in their order.
    following: Vec<usize>,
    /// Every line at the draw.
    room: Vec<f64>,
    /// The same with one cause off to one side, for each cause that reaches a root.
    causes: Vec<(Cause, [Off; 2])>,
    given: Vec<f64>,
}

/// A graph with one cause off.
struct Off {
    draw: Draw,
    /// Lines that follow the moved root and the cause.
    following: Vec<usize>,
    /// Lines that follow the moved root alone, and that those are worked from: taken over as they are.
    beside: Vec<usize>,
    room: Vec<f64>,
}

impl Sweep {
    /// The graph at a draw that pins no root, ready to have one of its roots moved.
    pub(crate) fn of(graph: Graph, draw: Draw, root: usize) -> Self {
        let moved = graph.roots.get(root).copied();
        let follows = graph.following(|place, _| Some(place) == moved, None);
        let is = |of: &[bool], place: usize| of.get(place).copied().unwrap_or(false);
        let lines = |which: &dyn Fn(usize) -> bool| -> Vec<usize> {
            (0..graph.lines.len()).filter(|place| Some(*place) != moved && which(*place)).collect()
        };
        let others = || graph.roots.iter().enumerate().filter(|(at, _)| *at != root).map(|(_, line)| *line);
        let reaching = (0..graph.causes().len()).filter_map(|cause| {
            let by = |_, line: &Line| matches!(line, Line::Doubted(_, of, _) if *of == cause);
            let touched = graph.following(by, moved);
            others().any(|line| is(&touched, line)).then_some((cause, touched))
        });
        let off = |cause: usize, touched: &[bool], by: f64| {
            let following = lines(&|place| is(&follows, place) && is(touched, place));
            let mut beside: Vec<usize> = following
                .iter()
                .filter_map(|place| graph.lines.get(*place))
                .flat_map(Line::parts)
                .copied()
                .filter(|part| is(&follows, *part) && !is(touched, *part))
                .chain(others().filter(|line| is(&follows, *line) && !is(touched, *line)))
                .collect();
            beside.sort_unstable();
            beside.dedup();
            let mut draw = draw.clone();
            if let Some(at) = draw.off.get_mut(cause) {
                *at = by;
            }
            let mut room = Vec::new();
            graph.work(&draw, &mut room);
            Off { draw, following, beside, room }
        };
        let both =
            |(cause, touched): (usize, Vec<bool>)| [TO_EITHER_SIDE, -TO_EITHER_SIDE].map(|by| off(cause, &touched, by));
        let named = |it: (usize, Vec<bool>)| graph.causes().get(it.0).copied().map(|cause| (cause, both(it)));
        let causes: Vec<(Cause, [Off; 2])> = reaching.filter_map(named).collect();
        let following = lines(&|place| is(&follows, place));
        let mut room = Vec::new();
        graph.work(&draw, &mut room);
        Self { graph, draw, moved, following, room, causes, given: Vec::new() }
    }

    /// Moves the root to a number and gives what is made of the roots there, in their order.
    pub(crate) fn at(&mut self, number: f64, of_roots: impl Fn(&[f64]) -> f64) -> f64 {
        let Self { graph, draw, moved, following, room, given, .. } = self;
        if let Some(at) = moved.and_then(|moved| room.get_mut(moved)) {
            *at = number;
        }
        anew(graph, draw, following, room, given);
        roots(graph, room, of_roots)
    }

    /// The doubt (k = 2) of what is made of the roots where the root was moved to, from all causes.
    pub(crate) fn doubt(&mut self, of_roots: impl Fn(&[f64]) -> f64) -> f64 {
        let Self { graph, moved, room, causes, given, .. } = self;
        let mut shares = Vec::with_capacity(causes.len());
        for (cause, sides) in causes {
            let [up, down] = sides.each_mut().map(|off| {
                for place in off.beside.iter().chain(&*moved) {
                    if let Some((own, at)) = off.room.get_mut(*place).zip(room.get(*place)) {
                        *own = *at;
                    }
                }
                anew(graph, &off.draw, &off.following, &mut off.room, given);
                roots(graph, &off.room, &of_roots)
            });
            shares.push((*cause, (up - down) / 2.0));
        }
        root_sum_square(&shares)
    }
}

/// Works some lines anew, in their order.
fn anew(graph: &Graph, draw: &Draw, places: &[usize], room: &mut [f64], given: &mut Vec<f64>) {
    for place in places {
        let Some(line) = graph.lines.get(*place) else { continue };
        let number = graph.number(line, draw, room, given);
        if let Some(at) = room.get_mut(*place) {
            *at = number;
        }
    }
}

fn roots(graph: &Graph, room: &[f64], of_roots: impl Fn(&[f64]) -> f64) -> f64 {
    match graph.roots.as_slice() {
        // As most are: a figure, its limit, and what is moved.
        [a, b, c] => of_roots(&[a, b, c].map(|place| room.get(*place).copied().unwrap_or(f64::NAN))),
        all => of_roots(&all.iter().map(|place| room.get(*place).copied().unwrap_or(f64::NAN)).collect::<Vec<_>>()),
    }
}
