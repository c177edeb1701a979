//! Set-ups whose minutes hang on what stood before them, any table of them: worked elsewhere, and the planner's own search.

use super::{Clock, Edge, Limits, Machine, Model, Piece, Planned, Rigging, Spec, plan};
use setover::plan::day::search::Aspect;

/// Minutes from each (a row) to each; nothing from one to itself.
type Table<const N: usize> = [[u32; N]; N];

fn aspect(from: usize, to: usize) -> String {
    format!("from {from} to {to}")
}

/// A machine whose change from one set-up to another takes what a table says. The last that stood leaves a mark for each that may
/// follow it; whoever follows takes its own off for those minutes, and every other for nothing.
fn machine<const N: usize>(table: &Table<N>) -> Rigging {
    let of = |from: usize, to: usize, on: &str, minutes: u32| Aspect {
        aspect: aspect(from, to),
        to: vec![on.to_owned()],
        hundredths: minutes * 100,
        covers: Vec::new(),
    };
    let pairs = || (0..N).flat_map(|from| (0..N).map(move |to| (from, to))).filter(|(from, to)| from != to);
    let wish = |own: usize| {
        let mark = |(from, to): (usize, usize)| match (from == own, to == own) {
            (true, _) => of(from, to, "marked", 0),
            (_, true) => of(from, to, "bare", table[from][to]),
            _ => of(from, to, "bare", 0),
        };
        pairs().map(mark).collect::<Vec<_>>()
    };
    let first =
        |(from, to): (usize, usize)| (aspect(from, to), vec![if from == 0 { "marked" } else { "bare" }.to_owned()]);
    Rigging::new(&(0..N).map(wish).collect::<Vec<_>>(), &pairs().map(first).collect::<Vec<_>>())
}

/// The best order of these set-ups (by their places in the table), the last of them last where `and_back`.
fn ordered<const N: usize>(table: &Table<N>, all: &[usize], and_back: bool) -> (Vec<usize>, Planned) {
    let piece = |own: &usize| Piece { id: own.to_string(), want: Some(*own), hands: 10, places: 1, ..Piece::default() };
    let last = all.len() - 1;
    let edge = |before: usize| Edge { before, after: last, rest: 0, rule: before };
    let model = Model::new(Spec {
        pieces: all.iter().map(piece).collect(),
        machines: vec![Machine { name: "press".into(), room: None, rigging: machine(table) }],
        edges: if and_back { (0..last).map(edge).collect() } else { Vec::new() },
        better: Vec::new(),
        fetched_by: Vec::new(),
        inside: Vec::new(),
        apart: Vec::new(),
        holdings: Vec::new(),
        at_once: Vec::new(),
        order_before: Vec::new(),
        clock: Clock::daily(vec![(0, 1440)]).expect("open hours"),
        start: 0,
    })
    .expect("no circle");
    let planned = plan(&model, Limits::default()).expect("an order");
    (planned.placed.iter().map(|placed| all[placed.number]).collect(), planned)
}

/// Four towns and back again; read: a public note on the dynamic programme over sets, its cost 21 for 0-2-3-1-0.
#[test]
fn a_round_of_four_costs_twenty_one() {
    let table = [[0, 2, 9, 10], [1, 0, 6, 4], [15, 7, 0, 8], [6, 3, 12, 0]];
    // Back to the beginning: a further place that is reached as the first is.
    let with_end: Table<5> = std::array::from_fn(|from| {
        std::array::from_fn(|to| match (from, to) {
            (4, _) => 99,
            (from, 4) => table[from][0],
            (from, to) => table[from][to],
        })
    });
    let (order, planned) = ordered(&with_end, &[1, 2, 3, 4], true);
    assert_eq!((order, planned.vector.change, planned.vector.finish), (vec![2, 3, 1, 4], 21, 61));
    assert!(planned.exact);
}

/// Five jobs on one machine that stands idle first; the table is from memory (an exercise in operations research), its least of 36
/// computed: 2-1-4-5-3, the next best 38.
#[test]
fn five_set_ups_from_idle_take_thirty_six_minutes() {
    let table = [
        [0, 4, 5, 8, 9, 4],
        [99, 0, 7, 12, 10, 9],
        [99, 6, 0, 10, 14, 11],
        [99, 10, 11, 0, 12, 10],
        [99, 7, 8, 15, 0, 7],
        [99, 12, 9, 8, 16, 0],
    ];
    let (order, planned) = ordered(&table, &[1, 2, 3, 4, 5], false);
    assert_eq!((order, planned.vector.change, planned.vector.finish), (vec![2, 1, 4, 5, 3], 36, 86));
    // The nearest next, which is what one would do by hand, takes longer.
    let by_hand = [1, 2, 3, 5, 4];
    let taken: u32 =
        [0].iter().chain(&by_hand).zip(&by_hand).map(|(from, to)| table[*from as usize][*to as usize]).sum();
    assert!(taken > 36, "{taken}");
}

/// What the breaks take is a share of the shift, not of the work; read: a text on standard times, 15 % of the shift, work times 1.176
/// and not times 1.15.
#[test]
fn breaks_of_the_shift_stretch_the_work_by_what_is_left_of_it() {
    // Eight hours from 08:00, 72 minutes of them breaks: 408 are left for work.
    let clock = Clock::daily(vec![(480, 600), (615, 735), (777, 885), (900, 960)]).expect("open hours");
    let spec = Spec {
        pieces: vec![Piece { id: "1".into(), want: None, hands: 408, pause: true, places: 1, ..Piece::default() }],
        machines: vec![Machine { name: "bench".into(), room: None, rigging: Rigging::default() }],
        edges: Vec::new(),
        better: Vec::new(),
        fetched_by: Vec::new(),
        inside: Vec::new(),
        apart: Vec::new(),
        holdings: Vec::new(),
        at_once: Vec::new(),
        order_before: Vec::new(),
        clock,
        start: 480,
    };
    let planned = plan(&Model::new(spec).expect("no circle"), Limits::default()).expect("an order");
    let by_the_clock = f64::from(planned.vector.finish - 480);
    assert!((by_the_clock / 408.0 - 1.176).abs() < 5e-4, "{by_the_clock}");
}
