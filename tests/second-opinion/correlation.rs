//! Doubts of sums of readings that may share an instrument, against matrices of covariances (`correlation.py`).

use super::forms::Dice;
use super::{number, rows};
use setover::proof::{Cause, Mark, Place, Source, Worked};
use setover::quantity::{Mm, Quantity};

const SOURCE: Source = Source::fixed("a case of the second opinion", Mark::Own);

/// A term: how often it counts, its instrument, its doubt; what of that is its own, where the instrument says so; more of its own.
type Term = (f64, u32, f64, Option<f64>, f64);

fn case_of(seed: u64, case: u64) -> Vec<Term> {
    let mut dice = Dice::of(seed, case);
    let known: Vec<bool> = (0..3).map(|_| dice.next(2) == 1).collect();
    let count = 2 + dice.next(7);
    let term = |_| {
        let (times, of, doubt) = (dice.next(9) - 4, dice.next(3), 1 + dice.next(40));
        let (own, more) = (1 + dice.next(doubt), dice.next(2) * dice.next(20));
        let own = known[of as usize].then_some(own as f64);
        (times as f64, of as u32, doubt as f64, own, more as f64)
    };
    (0..count).map(term).collect()
}

/// As the program carries them: readings of one instrument, each with what it shares where that is known.
fn doubt_of(terms: &[Term]) -> f64 {
    let read = |(nth, (_, of, doubt, own, more)): (u16, &Term)| {
        let (at, instrument) = (Place::start(1), Place::start(10 + of));
        let read = Worked::<Mm>::assumed(Mm::new(0.0), "a reading");
        let read = match own {
            Some(own) => {
                let shared = (doubt * doubt - own * own).max(0.0).sqrt();
                read.with_doubt(Cause::Instrument(instrument), shared).with_doubt(Cause::Own(at, nth), *own)
            }
            None => read.with_doubt(Cause::Read(at, nth, instrument), *doubt),
        };
        read.with_doubt(Cause::Own(Place::start(2), nth), *more)
    };
    let reads: Vec<Worked<Mm>> = (0..).zip(terms).map(read).collect();
    let sum: Vec<(f64, &Worked<Mm>)> = terms.iter().map(|term| term.0).zip(&reads).collect();
    Worked::sum(&sum, 0.0, "the case", SOURCE).plus_minus()
}

#[test]
fn doubts_of_one_instrument_against_matrices() {
    let rows = rows("correlation.csv");
    let seed = number(&rows[0], "doubt_um") as u64;
    println!("seed {seed}, {} cases", rows.len() - 1);
    assert_eq!((rows[0]["case"].as_str(), rows.len()), ("seed", 2001));
    for (case, row) in (0..).zip(&rows[1..]) {
        let terms = case_of(seed, case);
        let (got, held) = (doubt_of(&terms), number(row, "doubt_um"));
        let scale: f64 = terms.iter().map(|term| (term.0 * term.2).abs() + term.4).sum::<f64>().max(1.0);
        assert!(
            (got - held).abs() <= 1e-7 * scale && (got * got - held * held).abs() <= 1e-11 * scale * scale,
            "case {case}: {got}, not {held}"
        );
        // No instrument that is worse, and no reading that has more of its own, makes the whole surer.
        for at in 0..terms.len() {
            let wider = terms.iter().enumerate().map(|(nth, term)| {
                let (times, of, doubt, own, more) = *term;
                let worse = if of == terms[at].1 { 1.5 } else { 1.0 };
                (times, of, doubt * worse, own.map(|own| own * worse), if nth == at { more + 1.0 } else { more })
            });
            assert!(
                doubt_of(&wider.collect::<Vec<_>>()) >= got - 1e-9 * scale,
                "case {case}: {at} read worse, and surer"
            );
        }
    }
}
