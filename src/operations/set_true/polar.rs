//! The readings round the chuck as a picture: where the centre is, and what is done to which jaw.

use super::circle::{ByShims, Centre};
use super::jaws::Move;
use super::keys::SetTrue;
use super::least::is_moved;
use super::names::{ECCENTRICITY, MOVE_FIRST, MOVE_SECOND, TOWARDS, TURN_FIRST, TURN_SECOND, WITHIN};
use super::set_up::TRUE_IT;
use crate::handbook::form::circle::waves;
use crate::operations::{Answer, HeldIn, Jaw, JawWork, Picture, Polar};
use crate::quantity::Quantity;

impl SetTrue {
    /// The picture; a jaw that is moved stands in `moves`, one that gets a shim in `shims`.
    pub(super) fn polar(
        &self,
        answer: &Answer,
        centre: &Centre,
        (moves, shims): (&[Move], Option<&ByShims>),
    ) -> Picture {
        let count = self.hold.value.held_in.value.jaws().unwrap_or(0);
        let jaw = |number: u8| {
            let shim =
                shims.and_then(|shims| shims.under.iter().find(|(under, thick)| *under == number && *thick > 0.0));
            let moved = || self.moved(answer, moves, number);
            Jaw {
                degrees: f64::from(number - 1) * 360.0 / f64::from(count),
                number,
                does: shim.map(|(_, thick)| JawWork::Shimmed(*thick)).or_else(moved),
            }
        };
        let (along, across) = (centre.along.number(), centre.across.number());
        let tapped = (self.hold.value.held_in.value == HeldIn::Faceplate).then_some(along.hypot(across));
        Picture::Polar(Box::new(Polar {
            set_up: TRUE_IT,
            reads: self.stands_out(),
            centre: (along, across),
            off: ECCENTRICITY.key,
            towards: TOWARDS.key,
            within: WITHIN.key,
            jaws: (1..=count).map(jaw).collect(),
            tapped,
        }))
    }

    /// How far the work stands out where it was read, over the mean of all.
    fn stands_out(&self) -> Vec<(f64, f64)> {
        let turned = if self.indicator_turned() { -1.0 } else { 1.0 };
        let Some((angles, row)) = self.reads() else { return Vec::new() };
        let reads: Vec<f64> = row.value.reads.iter().flatten().map(|read| turned * read.number()).collect();
        let mean = waves(&angles, &reads, 1).ok().and_then(|fit| fit.parameters.first().copied()).unwrap_or(0.0);
        angles.into_iter().zip(reads).map(|(angle, read)| (angle, read - mean)).collect()
    }

    /// What is done to a jaw of four: both of a pair go the way that the work goes.
    fn moved(&self, answer: &Answer, moves: &[Move], jaw: u8) -> Option<JawWork> {
        let figure = |key: &str| answer.value(key).map(|value| value.number);
        let ways = [(MOVE_FIRST.key, TURN_FIRST.key), (MOVE_SECOND.key, TURN_SECOND.key)];
        let mut pairs = [1, 3].into_iter().zip(ways).zip(moves);
        let ((first, (by, turn)), of) = pairs.find(|(_, of)| [of.loosen, of.tighten].contains(&jaw))?;
        // As the steps have it: a pair that stays is not drawn as moved.
        let by = answer.value(by).filter(|by| is_moved(by))?.number;
        let loosened = of.loosen == jaw;
        Some(JawWork::Moved {
            order: if loosened { first } else { first + 1 },
            loosened,
            // In a bore a jaw that is loosened comes in.
            outward: loosened != self.jaws_inside(),
            by,
            turn: figure(turn),
        })
    }
}
