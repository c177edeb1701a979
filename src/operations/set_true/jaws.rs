//! Which jaw is loosened and which follows it, and how far the keys turn.

use super::circle::Centre;
use super::keys::SetTrue;
use super::names::{MOVE_FIRST, MOVE_SECOND, TURN_FIRST, TURN_SECOND};
use crate::handbook::form::truing::key_turn;
use crate::operations::{Answer, Bench, HeldIn, Name, kit};
use crate::proof::{Refusal, Worked};
use crate::quantity::{Angle, Mm, Shift};
use crate::shop::Machine;

/// The move of one pair of jaws: the one that is loosened first, and the one that follows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Move {
    /// Jaw that gives way.
    pub(super) loosen: u8,
    /// Jaw that follows it.
    pub(super) tighten: u8,
}

/// Jaws 1 and 3 stand along the first way, 2 and 4 across.
const PAIRS: [(u8, u8); 2] = [(1, 3), (2, 4)];

/// The work goes away from where its centre is off: outside jaws push it, jaws in its bore draw it.
fn of_pair((near, far): (u8, u8), off: f64, inside: bool) -> Move {
    match (off > 0.0) != inside {
        true => Move { loosen: far, tighten: near },
        false => Move { loosen: near, tighten: far },
    }
}

impl SetTrue {
    /// The moves of both pairs, where it stands in four jaws: each with its figures.
    pub(super) fn moves(&self, bench: &Bench, answer: &mut Answer, centre: &Centre) -> Result<Vec<Move>, Refusal> {
        if self.hold.value.held_in.value != HeldIn::FourJaw {
            return Ok(Vec::new());
        }
        let lathe = kit::machine_for(bench, self.set_up.as_ref(), Machine::lathe);
        let pitch = lathe.and_then(|lathe| lathe.four_jaw.as_ref()?.screw_pitch.as_ref()).map(Worked::from);
        let inside = self.jaws_inside();
        let ways = [(&centre.along, &MOVE_FIRST, &TURN_FIRST), (&centre.across, &MOVE_SECOND, &TURN_SECOND)];
        let mut moves = Vec::new();
        for (pair, (way, name, turn)) in PAIRS.into_iter().zip(ways) {
            let by = answer.record(name, size_of(way));
            if let Some(pitch) = &pitch {
                record_turn(answer, turn, &key_turn(&by, pitch)?);
            }
            moves.push(of_pair(pair, way.number(), inside));
        }
        for (names, of) in [["loosen_first", "tighten_first"], ["loosen_second", "tighten_second"]].iter().zip(&moves) {
            for (name, jaw) in names.iter().zip([of.loosen, of.tighten]) {
                answer.fact(name, jaw.to_string());
            }
        }
        Ok(moves)
    }
}

fn record_turn(answer: &mut Answer, name: &Name<Angle>, turn: &Worked<Angle>) {
    answer.record(name, turn.clone());
}

/// How far, without the way.
fn size_of(way: &Worked<Shift>) -> Worked<Mm> {
    let sign = if way.number() < 0.0 { -1.0 } else { 1.0 };
    way.scaled(sign, "without its sign").becomes()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_far_jaw_gives_way_and_the_near_one_follows() {
        assert_eq!(of_pair((1, 3), 0.065, false), Move { loosen: 3, tighten: 1 });
        assert_eq!(of_pair((1, 3), -0.065, false), Move { loosen: 1, tighten: 3 });
        assert_eq!(of_pair((2, 4), 0.015, true), Move { loosen: 2, tighten: 4 }, "jaws in the bore draw");
    }
}
