//! Readings round work in a chuck, read out of an answer.

use super::first;
use crate::drawing::{Goes, Grip, Polar, Spoke, Vector};
use crate::operations::{self, Answer, Jaw, JawWork};
use crate::quantity::{Decimals, Print, Rounds, Shown, Unit, shown};
use crate::sheet::{figures, words};

/// Decimals of a millimetre to which a jaw is moved, as its step says.
const MOVED: Decimals = Decimals::Exactly(3);

/// The readings of an answer as a drawing list; nothing where its centre has no figure.
#[must_use]
pub fn polar(answer: &Answer<String>, of: &operations::Polar, print: Print) -> Option<Polar> {
    // The steps have both units.
    let print = first(print);
    let value = |key: &str| {
        let value = answer.value(key)?;
        Some((value, shown(value.number, Some(value.plus_minus), value.unit, value.rounds, print)))
    };
    let ((off, off_says), (within, within_says)) = (value(of.off)?, value(of.within)?);
    let mut says = vec![words::off_by(&off_says)];
    // Of a centre that is not off by its own doubt nobody knows towards where.
    if let Some(towards) = answer.value(of.towards).filter(|_| off.number > off.plus_minus) {
        let degrees = towards.number.round().rem_euclid(360.0);
        says.push(words::towards(&format!("{degrees:.0}°")));
    }
    let spoke = |(degrees, over): &(f64, f64)| Spoke { degrees: *degrees, over: *over, says: moved(*over, print) };
    let mut grips: Vec<Grip> = of.jaws.iter().map(|jaw| grip(jaw, print)).collect();
    if let Some(by) = of.tapped {
        let degrees = of.centre.1.atan2(of.centre.0).to_degrees();
        let says = vec![words::TAP_HERE.to_owned(), moved(by, print)];
        grips.push(Grip { degrees, number: None, goes: Some(Goes::In), says });
    }
    Some(Polar {
        reads: of.reads.iter().map(spoke).collect(),
        centre: Vector::new(of.centre.0, of.centre.1),
        allowed: within.number / 2.0,
        grips,
        says: [says, vec![words::allowed_in_a_turn(&within_says)]],
    })
}

/// How far something is moved, with its unit.
fn moved(mm: f64, print: Print) -> String {
    Shown::of(mm, None, Unit::Mm, (MOVED, Rounds::Nearest), print).to_string()
}

fn grip(jaw: &Jaw, print: Print) -> Grip {
    let still = Grip { degrees: jaw.degrees, number: Some(jaw.number), goes: None, says: Vec::new() };
    match jaw.does {
        None => still,
        Some(JawWork::Shimmed(thick)) if thick <= 0.0 => Grip { says: vec![words::NO_SHIM.to_owned()], ..still },
        Some(JawWork::Shimmed(thick)) => {
            Grip { says: vec![words::SHIM_UNDER.to_owned(), moved(thick, print)], ..still }
        }
        Some(JawWork::Moved { order, loosened, outward, by, turn }) => {
            let shown = Shown::of(by, None, Unit::Mm, (MOVED, Rounds::Nearest), print);
            let digits = figures::number(&shown.number);
            if !digits.contains(|c: char| ('1'..='9').contains(&c)) {
                return Grip { says: vec![words::STAYS.to_owned()], ..still };
            }
            let mut says = vec![words::in_order(order, loosened), shown.to_string()];
            says.extend(turn.map(words::turn_of_key));
            Grip { goes: Some(if outward { Goes::Out } else { Goes::In }), says, ..still }
        }
    }
}
